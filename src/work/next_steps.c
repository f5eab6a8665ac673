/* next_steps.c - how many weights of which size read a beam finely enough. */
#include "work/next_priv.h"

#include "stats/step_reading.h"

#include <math.h>
#include <string.h>

/* 19 beams in 20 break above this many spreads under the likely load. */
static const double edge = 1.645;

struct loads {
	double sum_log, sum_step, sum_width; /* kg logs, kg, log width */
	double n, n_width;
};

static void
add_reading(struct loads *l, const struct book_bending *b)
{
	double hanger = b->on_rig_included || !b->on_rig_kg.has
		? 0
		: b->on_rig_kg.value;
	double low = b->held_kg + hanger, high;

	if (!b->broke_kg.has || !(b->held_kg >= 0))
		return;
	high = b->broke_kg.value + hanger;
	if (!(high > 0))
		return;
	l->sum_log += log((low + high) / 2);
	l->n++;
	if (!(low > 0) || !(high > low))
		return;
	l->sum_step += high - low;
	l->sum_width += log(high / low);
	l->n_width++;
}

static struct loads
gather(const struct work_site *site, size_t mix)
{
	struct loads l = {0};

	for (size_t i = 0; i < site->n_reading; i++) {
		const struct book_reading *r = &site->reading[i];
		size_t batch = site->specimen_batch[site->reading_specimen[i]];

		if (strcmp(r->kind, "bending") == 0 &&
			!site->batch[batch].practice &&
			site->batch_mix[batch] == mix)
			add_reading(&l, &r->bending);
	}
	return l;
}

/* The largest of 1, 2, 2.5, 5 times a power of ten that is not above. */
static double
whole_weight(double kg)
{
	static const double mantissa[] = {5, 2.5, 2, 1};
	double ten = pow(10, floor(log10(kg)));

	for (size_t i = 0; i < sizeof mantissa / sizeof mantissa[0]; i++)
		if (mantissa[i] * ten <= kg)
			return mantissa[i] * ten;
	return ten;
}

/* fine: the width of a step, in spreads of a piece, that is worth next_worth of
 * an exact reading. */
static struct work_next_steps
steps_for(const struct loads *l, size_t mix, double sd_batch, double sd_piece,
	double fine)
{
	struct work_next_steps s = {.mix = mix};
	double spread = hypot(sd_batch, sd_piece);
	double low, high;

	s.load_kg = exp(l->sum_log / l->n);
	s.worth_now = 1;
	if (l->n_width > 0) {
		s.step_now_kg = l->sum_step / l->n_width;
		s.worth_now = stats_step_worth(
			l->sum_width / l->n_width / sd_piece);
	}
	s.step_kg = whole_weight(fine * sd_piece * s.load_kg);
	s.worth = stats_step_worth(s.step_kg / s.load_kg / sd_piece);
	low = s.load_kg * exp(-edge * spread);
	high = s.load_kg * exp(edge * spread);
	s.start_kg = s.step_kg * floor(low / s.step_kg);
	s.n_step = (size_t)ceil((high - s.start_kg) / s.step_kg);
	return s;
}

enum err_code
next_steps(struct arena *arena, struct work_next *next,
	const struct work_comparison *c, struct err *err)
{
	const double fine = stats_step_for(next_worth);
	struct work_next_steps *steps;

	if (c->measure != CHOOSE_BENDING_STRENGTH &&
		c->measure != CHOOSE_BREAKING_LOAD)
		return ERR_NONE;
	steps = arena_take(arena, next->n_candidate, sizeof *steps);
	if (steps == NULL)
		return err_memory(err);
	for (size_t m = 0; m < next->n_candidate; m++) {
		struct loads l = gather(
			&next->compared.site, next->candidate[m]);

		if (l.n > 0 && c->sd_specimen[0] > 0)
			steps[next->n_steps++] = steps_for(&l,
				next->candidate[m], c->sd_batch[0],
				c->sd_specimen[0], fine);
	}
	next->steps = steps;
	return ERR_NONE;
}
