/* compare_counts.c - beams that snapped before their test, as counts; what
 * beams still held after their first crack. */
#include "work/compare_priv.h"

#include "stats/counts.h"

#include <math.h>
#include <string.h>

static bool
is_broken(const char *fate)
{
	return strncmp(fate, "snapped", strlen("snapped")) == 0;
}

/* Beams alone are counted: they are what can snap when stripped. */
enum err_code
compare_breakage(
	struct arena *arena, struct work_compared *all, struct err *err)
{
	const struct work_site *site = &all->site;
	struct work_breakage *b = arena_take(arena, site->n_mix, sizeof *b);
	uint64_t cast = 0, broken = 0;

	if (b == NULL)
		return err_memory(err);
	for (size_t i = 0; i < site->n_specimen; i++) {
		size_t batch = site->specimen_batch[i];
		const char *fate = site->specimen[i].fate;
		struct work_breakage *of = &b[site->batch_mix[batch]];

		if (site->batch[batch].practice ||
			strcmp(site->specimen[i].form, "beam") != 0)
			continue;
		of->n_cast++;
		cast++;
		if (is_broken(fate)) {
			of->n_broken++;
			broken++;
		}
	}
	for (size_t m = 0; m < site->n_mix; m++) {
		struct stats_counts got;

		b[m].mix = m;
		b[m].high = 1;
		b[m].p_more_by_chance = 1;
		if (b[m].n_cast == 0 || cast == b[m].n_cast)
			continue;
		TRY(stats_counts_compare(b[m].n_broken, b[m].n_cast,
			broken - b[m].n_broken, cast - b[m].n_cast, &got, err));
		b[m].low = got.low_a;
		b[m].high = got.high_a;
		b[m].p_more_by_chance = got.p_more_in_a;
	}
	all->breakage = b;
	return ERR_NONE;
}

static void
add_after(struct work_after_crack *a, const struct book_bending *b)
{
	double hanger = b->on_rig_included || !b->on_rig_kg.has
		? 0
		: b->on_rig_kg.value;
	double held = b->after_held_kg.value + hanger;
	double crack = hanger +
		(b->broke_kg.has ? (b->held_kg + b->broke_kg.value) / 2
				 : b->held_kg);
	double ratio = crack > 0 ? held / crack : 1;

	a->least_kg = a->n == 0 ? held : fmin(a->least_kg, held);
	a->most_kg = fmax(a->most_kg, held);
	a->most_open = a->most_open || !b->after_broke_kg.has;
	a->least_ratio = a->n == 0 ? ratio : fmin(a->least_ratio, ratio);
	a->most_ratio = fmax(a->most_ratio, ratio);
	a->n++;
}

enum err_code
compare_after_crack(
	struct arena *arena, struct work_compared *all, struct err *err)
{
	const struct work_site *site = &all->site;
	struct work_after_crack *by_mix = arena_take(
		arena, site->n_mix, sizeof *by_mix);
	size_t n = 0;

	if (by_mix == NULL)
		return err_memory(err);
	for (size_t i = 0; i < site->n_reading; i++) {
		const struct book_reading *r = &site->reading[i];
		size_t batch = site->specimen_batch[site->reading_specimen[i]];

		if (strcmp(r->kind, "bending") == 0 &&
			r->bending.after_held_kg.has &&
			!site->batch[batch].practice)
			add_after(&by_mix[site->batch_mix[batch]], &r->bending);
	}
	for (size_t m = 0; m < site->n_mix; m++) {
		if (by_mix[m].n == 0)
			continue;
		by_mix[n] = by_mix[m];
		by_mix[n++].mix = m;
	}
	all->after = by_mix;
	all->n_after = n;
	return ERR_NONE;
}
