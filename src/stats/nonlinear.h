/* nonlinear.h - a curve of any form by least squares.
 *
 * Levenberg and Marquardt's method in long double: columns scaled by their
 * lengths (More 1978, Lecture Notes in Mathematics 630, 105-116), damping after
 * Nielsen (1999, IMM-REP-1999-05), each step bent by its geodesic acceleration
 * (Transtrum and Sethna 2012, arXiv:1201.5885), steps by Householder QR.  It is
 * run with several scalings and dampings and the best end is kept.  Checked
 * against NIST StRD nonlinear regression.
 *
 * Pure.  Method: docs/methods/nonlinear.md. */
#ifndef STATS_NONLINEAR_H
#define STATS_NONLINEAR_H

#include "core/arena.h"
#include "core/err.h"

#include <stdbool.h>
#include <stddef.h>

/* The curve at a row for parameters b, and where slope is not NULL its
 * n_parameter derivatives; false where it is not finite. */
typedef bool stats_curve_at(const void *data, size_t row, const long double *b,
	long double *value, long double *slope);

struct stats_nonlinear_ask {
	stats_curve_at *curve;
	const void *data; /* handed to curve */
	const double *y;  /* n_row, finite */
	size_t n_row, n_parameter;
	const double *start; /* n_parameter, finite */
};

struct stats_nonlinear {
	const double *parameter;      /* n_parameter */
	const double *standard_error; /* has_error */
	double residual_ss;
	double residual_sd; /* has_error */
	size_t df;          /* rows less parameters */
	bool has_error;     /* df > 0 */
	size_t n_step;      /* of the run that was kept */
};

/* stats_nonlinear_fit(arena, ask, out, err):
 * Least squares from the start given: a least place near it, which need not be
 * the least of all.
 * ERR_INPUT    field "y": fewer rows than parameters, or one not finite;
 *              field "start": the curve is not finite there
 * ERR_NUMERIC  field "start": no run settled, or parameters that cannot be
 *              told from each other;  ERR_MEMORY */
enum err_code stats_nonlinear_fit(struct arena *arena,
	const struct stats_nonlinear_ask *ask, struct stats_nonlinear *out,
	struct err *err) MUST_CHECK;

#endif /* STATS_NONLINEAR_H */
