/* dents.c - dents put where they were. */
#include "work/dents.h"

#include <math.h>
#include <string.h>

static const double unmeasured_ratio = 1.0 / 8; /* of the width */

static struct maybe
wide_of(const struct book_drop *d)
{
	const struct maybe unknown = {false, 0};
	double depth = d->dent_m.value, across = d->tip_diameter_m.value;

	if (strcmp(d->tip, "cone") == 0)
		return d->dent_m.has && d->tip_angle_rad.has
			? (struct maybe){true,
				  2 * depth * tan(d->tip_angle_rad.value / 2)}
			: unknown;
	if (!d->tip_diameter_m.has)
		return unknown;
	if (strcmp(d->tip, "flat") == 0 || d->went_through)
		return d->tip_diameter_m;
	if (strcmp(d->tip, "ball") != 0 || !d->dent_m.has)
		return unknown;
	return (struct maybe){true,
		depth < across / 2 ? 2 * sqrt(depth * (across - depth))
				   : across};
}

static void
place(const struct work_dents *face, const struct book_drop *d,
	struct work_dent *dent)
{
	bool measured = d->from_edge_m.has &&
		d->from_edge_m.value <= face->width_m / 2;
	double in_m = measured ? d->from_edge_m.value
			       : unmeasured_ratio * face->width_m;

	dent->x_m = strcmp(d->place, "corner") == 0 ? in_m : face->length_m / 2;
	dent->y_m = strcmp(d->place, "corner") == 0 ||
			strcmp(d->place, "edge") == 0
		? in_m
		: face->width_m / 2;
}

enum err_code
work_dents(const struct work_bench *bench, size_t piece, struct arena *arena,
	struct work_dents *out, struct err *err)
{
	const struct work_site *s = &bench->site;
	const struct book_specimen *p = &s->specimen[piece];
	struct work_dents got = {.has_face = p->length_m.has && p->width_m.has};
	struct work_dent *dent = arena_take(arena, s->n_reading, sizeof *dent);

	if (dent == NULL)
		return err_memory(err);
	if (got.has_face) {
		got.length_m = fmax(p->length_m.value, p->width_m.value);
		got.width_m = fmin(p->length_m.value, p->width_m.value);
	}
	for (size_t i = 0; got.has_face && i < s->n_reading; i++) {
		const struct book_reading *r = &s->reading[i];

		if (s->reading_specimen[i] != piece ||
			strcmp(r->kind, "drop") != 0)
			continue;
		dent[got.n_dent] = (struct work_dent){
			.reading = i, .wide_m = wide_of(&r->drop)};
		place(&got, &r->drop, &dent[got.n_dent++]);
	}
	got.dent = dent;
	*out = got;
	return ERR_NONE;
}
