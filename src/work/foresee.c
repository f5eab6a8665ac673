/* foresee.c - what the own batches teach of strength. */
#include "work/foresee.h"

#include "work/foam.h"
#include "work/sheet.h"

#include <math.h>

/* An age about which strengths are learnt: 28 days, within 3; common practice,
 * no source. */
static const double month_s = 28 * 86400.0, month_within_s = 3 * 86400.0;

/* The strength of a result for a picture of the batch: the middle of its
 * interval on the log scale; false for one that is open or not of that kind. */
static bool
log_strength(
	const struct work_result *r, enum choose_measure measure, double *value)
{
	if (r->measure != measure || r->excluded || !(r->value.low > 0) ||
		!isfinite(r->value.high) ||
		(r->age_s.has &&
			fabs(r->age_s.value - month_s) > month_within_s))
		return false;
	*value = (log(r->value.low) + log(r->value.high)) / 2;
	return true;
}

/* A recipe at a wet density with that foam. */
static enum err_code
makeup_at(const struct work_mixer *m, struct arena *arena, size_t mix,
	double wet_kg_m3, struct density foam, struct choose_makeup *makeup,
	struct err *err)
{
	struct mix_proportion ask = {.foam_survival_ratio = 1,
		.bound_water_ratio = mix_bound_water_ratio,
		.aim = MIX_AIM_WET_DENSITY,
		.foam = foam,
		.wet_density = {wet_kg_m3}};
	struct mix_proportioned got;
	struct mix_part *part;

	TRY(work_recipe(m, arena, mix, &part, &ask.n_part, err));
	work_saturated(part, ask.n_part);
	ask.part = part;
	TRY(mix_proportion(arena, &ask, &got, err));
	return choose_makeup_of(
		&got, part, ask.n_part, mix_bound_water_ratio, makeup, err);
}

/* The make-up of a batch: its recipe at the wet density it really had. */
static bool
makeup_of_batch(const struct work_mixer *m, struct arena *arena, size_t batch,
	struct choose_makeup *makeup)
{
	const struct book_batch *b = &m->site.batch[batch];
	size_t mix = m->site.batch_mix[batch];
	struct err odd = {.code = ERR_NONE};
	struct density foam;

	return b->wet_kg_m3.has && m->site.mix[mix].reinforcement[0] == '\0' &&
		work_batch_foam(b, &m->site.mix[mix], &foam) &&
		makeup_at(m, arena, mix, b->wet_kg_m3.value, foam, makeup,
			&odd) == ERR_NONE;
}

enum err_code
work_foresee_learn(const struct work_mixer *m, struct arena *arena,
	const struct work_results *results, enum choose_measure measure,
	struct choose_foresight *sight, size_t *n, struct err *err)
{
	const struct work_site *s = &m->site;
	struct choose_tested *tested = arena_take(
		arena, s->n_batch + 1, sizeof *tested);

	if (tested == NULL)
		return err_memory(err);
	*n = 0;
	for (size_t b = 0; b < s->n_batch; b++) {
		double sum = 0, one, count = 0;

		for (size_t i = 0; i < results->n_result; i++) {
			if (results->result[i].batch == b &&
				!s->batch[b].practice &&
				log_strength(
					&results->result[i], measure, &one)) {
				sum += one;
				count++;
			}
		}
		if (count > 0 &&
			makeup_of_batch(m, arena, b, &tested[*n].makeup))
			tested[(*n)++].strength_pa = exp(sum / count);
	}
	return choose_foresee_learn(arena,
		measure == CHOOSE_BENDING_STRENGTH ? CHOOSE_FORESEEN_BENDING
						   : CHOOSE_FORESEEN_CRUSHING,
		tested, *n, sight, err);
}

enum err_code
work_foresee_mix(const struct work_mixer *m, struct arena *arena, size_t mix,
	struct choose_makeup *makeup, struct err *err)
{
	const struct book_mix *row = &m->site.mix[mix];

	if (!row->wet_target_kg_m3.has || !row->foam_target_kg_m3.has)
		return err_report(err, ERR_INPUT, "mix",
			"Mix %s has no target for its wet density or its foam, "
			"so its strength cannot be foreseen; say it with "
			"--strength.",
			row->code);
	return makeup_at(m, arena, mix, row->wet_target_kg_m3.value,
		(struct density){row->foam_target_kg_m3.value}, makeup, err);
}
