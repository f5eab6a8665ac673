/* trial_order.c - rounds shuffled, the baseline put where drift shows on it. */
#include "stats/trial_order.h"

#include "stats/power.h"

#include <gsl/gsl_randist.h>
#include <math.h>

static const double wanted_power = 0.8;
static const double level = 0.05;

static enum err_code
check_ask(const struct stats_trial_ask *ask, struct err *err)
{
	if (ask->n_mix < 2 || ask->n_mix > STATS_TRIAL_MIXES_MOST)
		return err_report(err, ERR_INPUT, "mixes",
			"%zu mixes were given; a trial compares 2 to %d.",
			ask->n_mix, (int)STATS_TRIAL_MIXES_MOST);
	if (ask->baseline >= ask->n_mix)
		return err_report(err, ERR_INPUT, "baseline",
			"The baseline is not among the mixes of the trial.");
	if (ask->n_round < 1 || ask->n_round > STATS_TRIAL_ROUNDS_MOST)
		return err_report(err, ERR_INPUT, "batches",
			"%zu batches of each mix were asked for; it can be 1 "
			"to %d.",
			ask->n_round, (int)STATS_TRIAL_ROUNDS_MOST);
	if (ask->per_day < 1)
		return err_report(err, ERR_INPUT, "per_day",
			"At least one batch has to be made in a day.");
	return ERR_NONE;
}

static void
put_at(size_t *mix, size_t from, size_t to)
{
	size_t moved = mix[from];

	for (; from > to; from--)
		mix[from] = mix[from - 1];
	for (; from < to; from++)
		mix[from] = mix[from + 1];
	mix[to] = moved;
}

/* Where the baseline stands in a round. */
static size_t
find_baseline(const size_t *mix, size_t n, size_t baseline)
{
	for (size_t i = 0; i < n; i++)
		if (mix[i] == baseline)
			return i;
	return n;
}

/* A round in random order; the baseline first in the first round, and among
 * the last two in the last. */
static void
draw_round(const struct stats_trial_ask *ask, size_t round, gsl_rng *rng,
	size_t *mix)
{
	for (size_t i = 0; i < ask->n_mix; i++)
		mix[i] = i;
	gsl_ran_shuffle(rng, mix, ask->n_mix, sizeof *mix);
	if (round == 0)
		put_at(mix, find_baseline(mix, ask->n_mix, ask->baseline), 0);
	else if (round + 1 == ask->n_round)
		put_at(mix, find_baseline(mix, ask->n_mix, ask->baseline),
			ask->n_mix - 1 - gsl_rng_uniform_int(rng, 2));
}

/* Puts one more baseline at a place; what stands there moves up. */
static void
insert_baseline(
	const struct stats_trial_ask *ask, size_t *mix, size_t *n, size_t at)
{
	mix[*n] = ask->baseline;
	put_at(mix, (*n)++, at);
}

static enum err_code
count_days(struct arena *arena, const struct stats_trial_ask *ask,
	struct stats_trial_order *order, struct err *err)
{
	size_t *day = arena_take(arena, order->n, sizeof *day);
	size_t *days_of = arena_take(arena, ask->n_mix, sizeof *days_of);
	size_t last[STATS_TRIAL_MIXES_MOST] = {0};

	if (day == NULL || days_of == NULL)
		return err_memory(err);
	for (size_t m = 0; m < ask->n_mix; m++)
		days_of[m] = 0;
	for (size_t i = 0; i < order->n; i++) {
		size_t m = order->mix[i];

		day[i] = i / ask->per_day + 1;
		days_of[m] += last[m] != day[i];
		last[m] = day[i];
		order->n_baseline += m == ask->baseline;
	}
	order->day = day;
	order->days_of = days_of;
	order->n_day = day[order->n - 1];
	return ERR_NONE;
}

enum err_code
stats_trial_order(struct arena *arena, const struct stats_trial_ask *ask,
	gsl_rng *rng, struct stats_trial_order *out, struct err *err)
{
	struct stats_trial_order order = {0};
	size_t *mix;

	TRY(check_ask(ask, err));
	mix = arena_take(arena,
		ask->n_round * ask->n_mix + STATS_TRIAL_BASELINES_LEAST,
		sizeof *mix);
	if (mix == NULL)
		return err_memory(err);
	for (size_t r = 0; r < ask->n_round; r++)
		draw_round(ask, r, rng, mix + r * ask->n_mix);
	order.n = ask->n_round * ask->n_mix;
	if (ask->n_round == 1)
		insert_baseline(ask, mix, &order.n, order.n);
	if (ask->n_round < STATS_TRIAL_BASELINES_LEAST)
		insert_baseline(ask, mix, &order.n, order.n / 2);
	order.mix = mix;
	TRY(count_days(arena, ask, &order, err));
	*out = order;
	return ERR_NONE;
}

enum err_code
stats_trial_shows(size_t n_mix, size_t n_batch, size_t n_specimen,
	double sd_batch, double sd_specimen, double *out, struct err *err)
{
	struct stats_power_plan plan = {.difference = 1,
		.sd_batch = sd_batch,
		.sd_specimen = sd_specimen,
		.specimens = n_specimen,
		.alpha = level,
		.groups = n_mix};
	double low = 0, high = 1, power = 0;

	TRY(stats_power_check(&plan, err));
	if (n_batch < 2) {
		*out = INFINITY;
		return ERR_NONE;
	}
	for (;;) { /* the power rises with the difference */
		plan.difference = high;
		TRY(stats_power(&plan, n_batch, &power, err));
		if (power >= wanted_power || high > 50)
			break;
		low = high;
		high *= 2;
	}
	while (high - low > 1e-6) {
		plan.difference = low + (high - low) / 2;
		TRY(stats_power(&plan, n_batch, &power, err));
		if (power >= wanted_power)
			high = plan.difference;
		else
			low = plan.difference;
	}
	*out = exp(high);
	return ERR_NONE;
}
