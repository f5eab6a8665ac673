/* series.c - readings sorted by piece and time. */
#include "work/series.h"

#include "core/text.h"
#include "work/instruments.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static int
by_piece_and_time(const void *x, const void *y)
{
	const struct work_series_row *a = x, *b = y;

	if (a->specimen != b->specimen)
		return a->specimen < b->specimen ? -1 : 1;
	if (a->at_s != b->at_s)
		return a->at_s < b->at_s ? -1 : 1;
	return a->entered < b->entered ? -1 : a->entered > b->entered;
}

static double
time_of(const struct book_reading *r)
{
	struct maybe at = r->age_s;

	if (strcmp(r->kind, "soaking") == 0 || strcmp(r->kind, "rise") == 0)
		at = r->water.after_s;
	if (strcmp(r->kind, "frost") == 0)
		at = r->frost.cycles;
	return at.has ? at.value : 0;
}

enum err_code
work_series(struct arena *arena, const struct work_site *site, const char *kind,
	struct work_series *out, struct err *err)
{
	struct work_series got = {.n_row = 0};
	struct work_series_row *row;
	size_t *first, *n_of, n = 0;

	for (size_t i = 0; i < site->n_reading; i++)
		n += strcmp(site->reading[i].kind, kind) == 0;
	row = arena_take(arena, n + 1, sizeof *row);
	first = arena_take(arena, n + 1, sizeof *first);
	n_of = arena_take(arena, n + 1, sizeof *n_of);
	if (row == NULL || first == NULL || n_of == NULL)
		return err_memory(err);
	for (size_t i = 0; i < site->n_reading; i++)
		if (strcmp(site->reading[i].kind, kind) == 0)
			row[got.n_row++] = (struct work_series_row){
				site->reading_specimen[i],
				time_of(&site->reading[i]), i,
				&site->reading[i]};
	qsort(row, n, sizeof *row, by_piece_and_time);
	for (size_t i = 0; i < n; i++) {
		if (i == 0 || row[i].specimen != row[i - 1].specimen)
			first[got.n_piece++] = i;
		n_of[got.n_piece - 1]++;
	}
	got.row = row;
	got.first = first;
	got.n_of = n_of;
	*out = got;
	return ERR_NONE;
}

/* Before it was put in the water. */
static struct maybe
mass_at_first(const struct work_series_row *row, size_t n)
{
	for (size_t i = 0; i < n; i++) {
		const struct book_water *w = &row[i].reading->water;

		if (w->after_s.has && !(w->after_s.value > 0) && w->mass_kg.has)
			return w->mass_kg;
	}
	return (struct maybe){.has = false};
}

struct maybe
work_series_dry(const struct work_site *site, const struct work_series_row *row,
	size_t n)
{
	struct maybe dry = {.has = false};

	for (size_t i = 0; i < n; i++)
		if (row[i].reading->water.dry_kg.has)
			dry = row[i].reading->water.dry_kg;
	if (dry.has)
		return dry;
	for (size_t i = 0; i < site->n_reading; i++) {
		const struct book_reading *r = &site->reading[i];

		if (site->reading_specimen[i] == row->specimen &&
			strcmp(r->kind, "weighing") == 0 &&
			strcmp(r->weighing.state, "oven dry") == 0)
			dry = (struct maybe){true, r->weighing.mass_kg};
	}
	return dry.has ? dry : mass_at_first(row, n);
}

bool
work_has_volume(const struct book_specimen *p)
{
	return p->depth_m.has &&
		(p->diameter_m.has || (p->width_m.has && p->length_m.has));
}

void
work_set_volume(const struct book_specimen *p, struct lab_density *ask,
	struct lab_density_division *division)
{
	static const double pi = 3.14159265358979323846;

	division->side.m = work_rule_m;
	if (!p->diameter_m.has) {
		ask->by = LAB_VOLUME_SIDES;
		ask->length.m = p->length_m.value;
		ask->width.m = p->width_m.value;
		ask->height.m = p->depth_m.value;
		return;
	}
	ask->by = LAB_VOLUME_GIVEN;
	ask->volume.m3 = pi / 4 * p->diameter_m.value * p->diameter_m.value *
		p->depth_m.value;
	division->volume.m3 = ask->volume.m3 *
		hypot(2 * work_rule_m / p->diameter_m.value,
			work_rule_m / p->depth_m.value);
}

const char *
work_duration(struct arena *arena, double s)
{
	static const struct {
		double s, below_s;
		const char *unit;
	} of[] = {{1, 60, "s"}, {60, 3600, "min"}, {3600, 2 * 86400.0, "h"},
		{86400, 0, "d"}};
	const char *text;
	size_t k = 0;

	while (s >= of[k].below_s && of[k].below_s > 0)
		k++;
	text = text_format(arena, "%.6g %s", s / of[k].s, of[k].unit);
	return text != NULL ? text : "";
}
