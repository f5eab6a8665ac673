/* due.c - the calendar of the bench. */
#include "work/due.h"

#include "core/date.h"
#include "core/rng.h"

#include <stdlib.h>
#include <string.h>

static const double usual_test_age_s = 28 * 86400.0;

/* A piece with what puts it in its place. */
struct placed {
	struct work_due_piece row;
	size_t mix;
	size_t round; /* the how many-th of its mix on that day */
	uint64_t draw;
};

static int
compare_draws(const struct placed *x, const struct placed *y)
{
	if (x->draw != y->draw)
		return x->draw < y->draw ? -1 : 1;
	return x->row.piece < y->row.piece ? -1 : x->row.piece > y->row.piece;
}

static int
by_mix(const void *a, const void *b)
{
	const struct placed *x = a, *y = b;

	if (x->row.days != y->row.days)
		return x->row.days < y->row.days ? -1 : 1;
	if (x->mix != y->mix)
		return x->mix < y->mix ? -1 : 1;
	return compare_draws(x, y);
}

static int
by_round(const void *a, const void *b)
{
	const struct placed *x = a, *y = b;

	if (x->row.days != y->row.days)
		return x->row.days < y->row.days ? -1 : 1;
	if (x->round != y->round)
		return x->round < y->round ? -1 : 1;
	return compare_draws(x, y);
}

static struct maybe
mass_of(const struct work_site *site, size_t piece)
{
	const struct book_specimen *p = &site->specimen[piece];
	struct maybe wet = site->batch[site->specimen_batch[piece]].wet_kg_m3;

	if (p->mass_kg.has || !wet.has || !p->width_m.has || !p->depth_m.has ||
		!p->length_m.has)
		return p->mass_kg;
	return (struct maybe){true,
		p->width_m.value * p->depth_m.value * p->length_m.value *
			wet.value};
}

static bool
place_piece(const struct work_site *site, size_t piece, int64_t on_s,
	uint64_t seed, struct placed *out)
{
	const int64_t day = (int64_t)work_day_s;
	const struct book_specimen *p = &site->specimen[piece];
	int64_t cast;

	if (!work_cast_on(site, piece, &cast))
		return false;
	out->row = (struct work_due_piece){.piece = piece,
		.due_s = cast +
			(int64_t)(p->test_age_s.has ? p->test_age_s.value
						    : usual_test_age_s),
		.age_taken = !p->test_age_s.has,
		.mass_kg = mass_of(site, piece)};
	out->row.days = (int)(out->row.due_s / day - on_s / day);
	out->mix = site->batch_mix[site->specimen_batch[piece]];
	out->draw = rng_mix(seed + (uint64_t)(on_s / day), (uint64_t)p->row.id);
	return true;
}

static void
count_rounds(struct placed *p, size_t n)
{
	for (size_t i = 0; i < n; i++)
		p[i].round = i > 0 && p[i].row.days == p[i - 1].row.days &&
				p[i].mix == p[i - 1].mix
			? p[i - 1].round + 1
			: 0;
}

enum err_code
work_due(const struct desk *desk, struct arena *arena, const char *on,
	struct work_due *out, struct err *err)
{
	struct work_due got = {.n = 0};
	const struct work_site *site = &got.bench.site;
	int64_t on_s = desk->now_utc_s;
	struct work_due_piece *row;
	struct placed *placed;

	if (on != NULL)
		TRY(date_read(on, 0, &on_s, err));
	TRY(work_bench_read(desk, arena, &got.bench, err));
	placed = arena_take(arena, site->n_specimen + 1, sizeof *placed);
	row = arena_take(arena, site->n_specimen + 1, sizeof *row);
	if (placed == NULL || row == NULL)
		return err_memory(err);
	for (size_t i = 0; i < site->n_specimen; i++) {
		if (strcmp(site->specimen[i].fate, "waiting") != 0)
			continue;
		if (place_piece(site, i, on_s, desk->seed, &placed[got.n]))
			got.n++;
		else
			got.n_undated++;
	}
	qsort(placed, got.n, sizeof *placed, by_mix);
	count_rounds(placed, got.n);
	qsort(placed, got.n, sizeof *placed, by_round);
	for (size_t i = 0; i < got.n; i++) {
		row[i] = placed[i].row;
		got.heavy = got.heavy ||
			(row[i].days <= 0 && row[i].mass_kg.has &&
				row[i].mass_kg.value > work_lift_most_kg);
	}
	got.row = row;
	got.on_s = on_s;
	TRY(work_drying_all(
		arena, &got.bench, &got.drying, &got.n_drying, err));
	for (size_t i = 0; i < got.n_drying; i++)
		got.n_to_weigh += work_drying_due(&got.drying[i], on_s);
	*out = got;
	return ERR_NONE;
}
