/* counts.c - Fisher's exact test and Clopper-Pearson bounds. */
#include "stats/counts.h"

#include <inttypes.h>
#include <stdbool.h>

#define MATHLIB_STANDALONE 1
#include <Rmath.h>

/* Splits whose probabilities differ by less than this share are taken as
 * equally likely: they are equal in exact arithmetic and differ by rounding. */
static const double equally_likely = 1e-7;
static const double tail_two_sided = 0.025; /* 95 % between both bounds */
static const double tail_one_sided = 0.05;  /* 95 % below the upper bound */

/* Bisects until the two ends are neighbouring numbers.  The low bound makes as
 * many failures or more as unlikely as tail, the high bound as many or fewer;
 * both binomial tails are beta distributions of the rate. */
static double
bisect_rate(double shape_1, double shape_2, double tail, bool is_low)
{
	double low = 0, high = 1;

	for (;;) {
		double p = low + (high - low) / 2;
		double beyond = pbeta(p, shape_1, shape_2, is_low, 0);

		if (p <= low || p >= high)
			return p;
		if (is_low == (beyond < tail))
			low = p;
		else
			high = p;
	}
}

double
stats_rate_low(uint64_t failed, uint64_t of, double tail)
{
	if (failed == 0)
		return 0;
	return bisect_rate(
		(double)failed, (double)(of - failed) + 1, tail, true);
}

double
stats_rate_high(uint64_t failed, uint64_t of, double tail)
{
	if (failed == of)
		return 1;
	return bisect_rate(
		(double)failed + 1, (double)(of - failed), tail, false);
}

static enum err_code
check_lot(uint64_t failed, uint64_t of, const char *failed_field,
	const char *of_field, struct err *err)
{
	if (of == 0 || of > STATS_COUNTS_MOST)
		return err_report(err, ERR_INPUT, of_field,
			"A lot has %" PRIu64 " pieces; it takes from 1 to %d.",
			of, STATS_COUNTS_MOST);
	if (failed > of)
		return err_report(err, ERR_INPUT, failed_field,
			"%" PRIu64 " failed of %" PRIu64
			" pieces; no more can fail than there are.",
			failed, of);
	return ERR_NONE;
}

/* The hypergeometric distribution of the failures in a, both margins given. */
struct split {
	double of_a, of_b, failed;
	uint64_t least, most; /* the failures a can have */
};

static double
log_probability(const struct split *split, uint64_t in_a)
{
	return dhyper((double)in_a, split->of_a, split->of_b, split->failed, 1);
}

/* Sums the splits from one end inwards, up to one and including it: small
 * terms first, so that small probabilities keep their digits. */
static double
sum_below(const struct split *split, uint64_t in_a)
{
	double sum = 0;

	for (uint64_t k = split->least; k <= in_a; k++)
		sum += exp(log_probability(split, k));
	return fmin(sum, 1);
}

static double
sum_above(const struct split *split, uint64_t in_a)
{
	double sum = 0;

	for (uint64_t k = split->most; k > in_a; k--)
		sum += exp(log_probability(split, k));
	return fmin(sum + exp(log_probability(split, in_a)), 1);
}

/* The probabilities rise to one top and fall, so the splits no likelier than
 * the one seen are two runs, one from each end. */
static double
sum_unlikely(const struct split *split, uint64_t in_a)
{
	double bar = log_probability(split, in_a) + equally_likely, sum = 0;
	uint64_t low = split->least, high = split->most;

	for (; low <= high; low++) {
		double log_p = log_probability(split, low);

		if (log_p > bar)
			break;
		sum += exp(log_p);
	}
	for (; high > low; high--) {
		double log_p = log_probability(split, high);

		if (log_p > bar)
			break;
		sum += exp(log_p);
	}
	return fmin(sum, 1);
}

enum err_code
stats_counts_compare(uint64_t failed_a, uint64_t of_a, uint64_t failed_b,
	uint64_t of_b, struct stats_counts *out, struct err *err)
{
	uint64_t failed = failed_a + failed_b;
	struct split split = {.of_a = (double)of_a,
		.of_b = (double)of_b,
		.failed = (double)failed};

	TRY(check_lot(failed_a, of_a, "failed_a", "of_a", err));
	TRY(check_lot(failed_b, of_b, "failed_b", "of_b", err));
	split.least = failed > of_b ? failed - of_b : 0;
	split.most = failed < of_a ? failed : of_a;
	*out = (struct stats_counts){
		.p_two_sided = sum_unlikely(&split, failed_a),
		.p_more_in_a = sum_above(&split, failed_a),
		.p_more_in_b = sum_below(&split, failed_a),
		.low_a = stats_rate_low(failed_a, of_a, tail_two_sided),
		.high_a = stats_rate_high(failed_a, of_a, tail_two_sided),
		.low_b = stats_rate_low(failed_b, of_b, tail_two_sided),
		.high_b = stats_rate_high(failed_b, of_b, tail_two_sided),
		.upper_a = stats_rate_high(failed_a, of_a, tail_one_sided),
		.upper_b = stats_rate_high(failed_b, of_b, tail_one_sided),
	};
	return ERR_NONE;
}
