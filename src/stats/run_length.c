/* run_length.c - how many points a control chart runs before it signals. */
#include "stats/run_length.h"

#include "stats/normal.h"
#include "stats/run_walk.h"

#include <assert.h>
#include <math.h>

/* A shift beyond this is no chart's business; a limit beyond it never signals
 * in doubles. */
static const double far_off = 1e6;

static enum err_code
check(const char *field, double value, double low, bool low_is_in, double high,
	struct err *err)
{
	if ((low_is_in ? value >= low : value > low) && value <= high)
		return ERR_NONE;
	return err_report(err, ERR_INPUT, field,
		"got %.6g; it takes a number %s %.6g, at most %.6g.", value,
		low_is_in ? "of at least" : "above", low, high);
}

static enum err_code
answer(double length, double *arl, struct err *err)
{
	if (!(length <= stats_run_length_most))
		return err_report(err, ERR_NUMERIC, "arl",
			"The chart runs more than %.0e points on average: it "
			"never signals.",
			stats_run_length_most);
	*arl = length;
	return ERR_NONE;
}

enum err_code
stats_run_shewhart(
	double limit, double shift, int sides, double *arl, struct err *err)
{
	double signals;

	assert(sides == 1 || sides == 2);
	TRY(check("limit", limit, 0, false, far_off, err));
	TRY(check("shift", shift, -far_off, true, far_off, err));
	signals = stats_normal_upper(limit - shift);
	if (sides == 2)
		signals += stats_normal_lower(-limit - shift);
	return answer(1 / signals, arl, err);
}

enum err_code
stats_run_ewma(struct arena *a, double lambda, double width, double shift,
	int sides, double *arl, struct err *err)
{
	double limit, at_low, length;
	struct run_walk walk;

	assert(sides == 1 || sides == 2);
	TRY(check("lambda", lambda, 0, false, 1, err));
	TRY(check("width", width, 0, false, far_off, err));
	TRY(check("shift", shift, -far_off, true, far_off, err));
	limit = width * sqrt(lambda / (2 - lambda));
	walk = (struct run_walk){.keep = 1 - lambda,
		.drift = lambda * shift,
		.sd = lambda,
		.low = sides == 2 ? -limit : 0,
		.high = limit,
		.holds = sides == 1,
		.from = 0};
	TRY(stats_run_walk(a, &walk, &at_low, &length, err));
	return answer(length, arl, err);
}

/* One side's lengths from 0 and from the head start. */
static enum err_code
one_side(struct arena *a, double reference, double decision, double head_start,
	double shift, double *from_zero, double *from_start, struct err *err)
{
	const struct run_walk walk = {.keep = 1,
		.drift = shift - reference,
		.sd = 1,
		.high = decision,
		.holds = true,
		.from = head_start};

	return stats_run_walk(a, &walk, from_zero, from_start, err);
}

/* Lucas and Crosier (1982), equation (A.1), each term divided by the lengths
 * from zero so that an endless side drops out. */
static double
two_sided(double up_zero, double up_start, double down_zero, double down_start)
{
	double up = 1 / up_zero, down = 1 / down_zero;
	double up_ratio = isinf(up_zero) ? 1 : up_start * up;
	double down_ratio = isinf(down_zero) ? 1 : down_start * down;

	return (up_ratio + down_ratio - 1) / (up + down);
}

enum err_code
stats_run_cusum(struct arena *a, double reference, double decision,
	double head_start, double shift, int sides, double *arl,
	struct err *err)
{
	double up_zero, up_start, down_zero, down_start;

	assert(sides == 1 || sides == 2);
	TRY(check("reference", reference, 0, true, far_off, err));
	TRY(check("decision", decision, 0, false, far_off, err));
	TRY(check("head_start", head_start, 0, true,
		sides == 1 ? decision
			   : fmin(decision, decision / 2 + reference),
		err));
	TRY(check("shift", shift, -far_off, true, far_off, err));
	TRY(one_side(a, reference, decision, head_start, shift, &up_zero,
		&up_start, err));
	if (sides == 1)
		return answer(up_start, arl, err);
	TRY(one_side(a, reference, decision, head_start, -shift, &down_zero,
		&down_start, err));
	return answer(
		two_sided(up_zero, up_start, down_zero, down_start), arl, err);
}
