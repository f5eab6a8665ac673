/* run_length.h - how many points a control chart runs before it signals.
 *
 * Points are independent and normal with a known spread of 1 about a mean that
 * lies `shift` above the chart's centre from the first point on; the length
 * counts the point that signals.  All from the zero state: EWMA and CUSUM begin
 * at the centre (or, a CUSUM, at a head start).
 *
 * Shewhart: closed form.  EWMA and CUSUM: the Fredholm equation
 *     L(u) = 1 + P(next = 0 | u) L(0) + integral of k(y | u) L(y) dy
 * (Page 1954, Biometrika 41, 100-115, for the CUSUM with its atom at zero;
 * Crowder 1987, Technometrics 29, 401-407, for the EWMA), by panels of
 * Gauss-Legendre nodes, more until the answer stands.  The equations are solved
 * by elimination without one subtraction (Grassmann, Taksar and Heyman 1985,
 * Operations Research 33, 1107-1116; with the exits given by normal tails, not
 * as 1 less the rest), so that a run length of 1e100 is as exact as one of 100.
 *
 * Pure.  Method: docs/methods/run-length.md. */
#ifndef STATS_RUN_LENGTH_H
#define STATS_RUN_LENGTH_H

#include "core/arena.h"
#include "core/err.h"

#include <stddef.h>

/* Beyond this a length is refused: doubles end near 1e308. */
static const double stats_run_length_most = 1e250;

/* stats_run_shewhart(limit, shift, sides, arl, err):
 * A point signals beyond limit > 0 spreads above the centre (sides 1), or above
 * or below (sides 2).
 * ERR_INPUT    limit or shift out of range
 * ERR_NUMERIC  the length is beyond stats_run_length_most */
enum err_code stats_run_shewhart(double limit, double shift, int sides,
	double *arl, struct err *err) MUST_CHECK;

/* stats_run_ewma(arena, lambda, width, shift, sides, arl, err):
 * z = (1 - lambda) z + lambda x, 0 < lambda <= 1, signals where |z| exceeds
 * width sqrt(lambda / (2 - lambda)): the limits that hold after many points,
 * from the first point on.  sides 1: z is put back to the centre whenever it
 * would fall below, and signals above.
 * ERR_INPUT    lambda, width or shift out of range; lambda so small that more
 *              than 20,000 nodes would be needed
 * ERR_NUMERIC  no convergence; the length is beyond the most
 * ERR_MEMORY   the arena is full; nothing stays in it */
enum err_code stats_run_ewma(struct arena *a, double lambda, double width,
	double shift, int sides, double *arl, struct err *err) MUST_CHECK;

/* stats_run_cusum(arena, reference, decision, head_start, shift, sides, arl,
 * err):
 * C = max(0, C + x - reference), reference >= 0, signals above decision > 0;
 * begins at head_start, 0 <= head_start <= decision.  sides 2: with its mirror
 * image, 1/L = 1/L(+) + 1/L(-) without a head start (van Dobben de Bruyn 1968,
 * Cumulative Sum Tests), Lucas and Crosier's form (1982, Technometrics 24,
 * 199-205) with one, which needs head_start <= decision / 2 + reference, so
 * that the two cannot both stand high.
 * ERR_INPUT, ERR_NUMERIC, ERR_MEMORY  as above */
enum err_code stats_run_cusum(struct arena *a, double reference,
	double decision, double head_start, double shift, int sides,
	double *arl, struct err *err) MUST_CHECK;

#endif /* STATS_RUN_LENGTH_H */
