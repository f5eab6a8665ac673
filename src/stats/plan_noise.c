/* plan_noise.c - trials played with given spreads, to count wrong picks. */
#include "stats/plan_noise.h"

#include <gsl/gsl_randist.h>

#include <math.h>

static enum err_code
check(const struct stats_plan *plan, struct err *err)
{
	if (plan->n_mix < 2)
		return err_report(err, ERR_INPUT, "n_mix",
			"A plan needs two mixes or more, and has %zu.",
			plan->n_mix);
	for (size_t m = 0; m < plan->n_mix; m++)
		if (plan->n_batch[m] < 1 || plan->n_specimen[m] < 1)
			return err_report(err, ERR_INPUT, "n_batch",
				"Mix %zu of the plan has no batch or no "
				"specimen; give it one at least.",
				m);
	if (plan->n_spread < 1 || plan->n_world < 1)
		return err_report(err, ERR_INPUT, "n_world",
			"A simulation needs one spread and one trial at "
			"least.");
	for (size_t i = 0; i < plan->n_spread; i++)
		if (!(plan->sd_batch[i] >= 0) || isinf(plan->sd_batch[i]) ||
			!(plan->sd_specimen[i] >= 0) ||
			isinf(plan->sd_specimen[i]))
			return err_report(err, ERR_INPUT, "sd_batch",
				"A spread must be a number that is not "
				"negative; pair %zu is %g and %g.",
				i, plan->sd_batch[i], plan->sd_specimen[i]);
	if (!(plan->gain >= 0) || isinf(plan->gain) || !isfinite(plan->bar))
		return err_report(err, ERR_INPUT, "gain",
			"The gain must be a number that is not negative.");
	return ERR_NONE;
}

/* The mean of the batch means of a mix: its variance is that of a batch mean
 * over the number of batches, so one draw does. */
static double
draw_mix(const struct stats_plan *plan, size_t mix, size_t spread, gsl_rng *rng)
{
	const double between = plan->sd_batch[spread];
	const double within = plan->sd_specimen[spread];
	const double variance = (between * between +
					within * within /
						(double)plan->n_specimen[mix]) /
		(double)plan->n_batch[mix];

	return sqrt(variance) * gsl_ran_gaussian_ziggurat(rng, 1);
}

struct played {
	size_t picked;
	double lead; /* of the best mix but the baseline, over the baseline */
};

static struct played
play(const struct stats_plan *plan, size_t best, size_t spread, gsl_rng *rng)
{
	const double base = draw_mix(plan, 0, spread, rng);
	struct played got = {.picked = 0, .lead = -INFINITY};

	for (size_t m = 1; m < plan->n_mix; m++) {
		const double seen = draw_mix(plan, m, spread, rng) - base +
			(m == best ? plan->gain : 0);

		if (seen > got.lead) {
			got.lead = seen;
			got.picked = m;
		}
	}
	if (got.lead <= 0)
		got.picked = 0;
	return got;
}

static double
error_of(double p, double n)
{
	return sqrt(p * (1 - p) / n);
}

enum err_code
stats_plan_noise(const struct stats_plan *plan, gsl_rng *rng,
	struct stats_plan_noise *out, struct err *err)
{
	const double n = (double)plan->n_world;
	double wrong = 0, over = 0, sum = 0, squares = 0;
	struct stats_plan_noise got;

	TRY(check(plan, err));
	for (size_t w = 0; w < plan->n_world; w++) {
		const size_t turn = 1 + w % (plan->n_mix - 1);
		const size_t best = plan->gain > 0 ? turn : 0;
		const struct played p = play(
			plan, best, w % plan->n_spread, rng);

		wrong += p.picked != best;
		over += p.lead > plan->bar;
		sum += p.lead;
		squares += p.lead * p.lead;
	}
	got.p_wrong = wrong / n;
	got.p_wrong_error = error_of(got.p_wrong, n);
	got.p_over = over / n;
	got.p_over_error = error_of(got.p_over, n);
	got.winner = sum / n;
	got.winner_error = sqrt(
		fmax(squares / n - got.winner * got.winner, 0) / n);
	*out = got;
	return ERR_NONE;
}
