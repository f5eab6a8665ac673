/* counts.h - two failure counts compared exactly, and exact bounds of a rate.
 *
 * Pure.  Method and symbols: docs/methods/counts.md. */
#ifndef STATS_COUNTS_H
#define STATS_COUNTS_H

#include "core/err.h"

#include <stdint.h>

/* The most pieces a side may have: keeps an answer under a second. */
enum { STATS_COUNTS_MOST = 1000000 };

/* Probabilities and rates are shares from 0 to 1. */
struct stats_counts {
	double p_two_sided; /* all splits no likelier than the one seen */
	double p_more_in_a; /* at least as many of the failures in a */
	double p_more_in_b; /* at least as many of the failures in b */
	double low_a, high_a, low_b,
		high_b;          /* two-sided 95 % bounds of a rate */
	double upper_a, upper_b; /* one-sided 95 % upper bounds */
};

/* stats_counts_compare(failed_a, of_a, failed_b, of_b, out, err):
 * Were the failures shared out between two lots by chance?  The exact
 * conditional test of Fisher (1935), Journal of the Royal Statistical Society
 * 98, 39-82: with both lots' sizes and the number of failures given, the
 * failures in a are hypergeometric.  The two-sided p adds the probabilities of
 * all splits that are no likelier than the one seen (Freeman and Halton 1951,
 * Biometrika 38, 141-149); splits within a ten millionth of it count as
 * equally likely.  Bounds by stats_rate_bounds.
 * ERR_INPUT  a lot is empty or has more than STATS_COUNTS_MOST pieces
 *            (field "of_a", "of_b"), or more failed than there were
 *            ("failed_a", "failed_b") */
enum err_code stats_counts_compare(uint64_t failed_a, uint64_t of_a,
	uint64_t failed_b, uint64_t of_b, struct stats_counts *out,
	struct err *err) MUST_CHECK;

/* stats_rate_low(failed, of, tail), stats_rate_high(failed, of, tail):
 * The exact bound that leaves the probability `tail` (0 < tail < 1) on its own
 * side: Clopper and Pearson (1934), Biometrika 26, 404-413.  95 % two-sided
 * bounds take tail = 0.025 at each end.  The low bound of no failure is 0, the
 * high bound of nothing but failures 1.  failed <= of, of >= 1. */
double stats_rate_low(uint64_t failed, uint64_t of, double tail);
double stats_rate_high(uint64_t failed, uint64_t of, double tail);

#endif /* STATS_COUNTS_H */
