/* trace_load.h - what the trace of a load cell says of a test: peak, first crack,
 * stiffness, energy, what was carried after.
 *
 * Two passes over the rows: the peak first, then what is told by it.  Pure.
 * docs/methods/traces.md. */
#ifndef LAB_TRACE_LOAD_H
#define LAB_TRACE_LOAD_H

#include "core/err.h"
#include "lab/trace.h"

#include <stdbool.h>

/* The slope is fitted between these shares of the load at the first crack, on
 * the way up: below the rig beds in, above it gives way; common practice, no
 * source. */
static const double lab_slope_from = 0.2, lab_slope_to = 0.6;

/* A first crack is a fall by this share of the load reached, above lab_slope_from
 * of the peak; smaller ones are noise and bedding in; common practice, no
 * source. */
static const double lab_crack_fall = 0.1;

/* First pass. */
struct lab_load_peak {
	size_t n;
	double peak_N, peak_at_s;
	double least_N;
	/* For a zero: the mean up to zero_s after the first row; zero_s 0: none
	 * is taken off. */
	double zero_s, first_s, zero_N;
	size_t n_zero;
};

/* lab_load_peak_row: a sink; context is a struct lab_load_peak, all zero but for
 * zero_s.  Never refuses. */
enum err_code lab_load_peak_row(void *context, const struct lab_trace_row *row,
	struct err *err) MUST_CHECK;

/* Second pass. */
struct lab_load_trace {
	double peak_N, zero_N; /* of the first pass; zero_N is taken off */
	bool has_sag;
	/* what comes of it */
	double highest_N, crack_N, crack_sag_m;
	bool has_cracked;
	double after_N;        /* most carried after the first crack */
	double end_N;          /* by the last row */
	double energy_J;       /* all of it; with has_sag */
	double crack_energy_J; /* up to the first crack, or the peak */
	double last_N, last_sag_m;
	size_t n;
	/* sums of the slope, about its first point */
	double sum_x, sum_y, sum_xx, sum_xy, from_sag_m, from_N;
	size_t n_slope;
	bool slope_ended;
};

/* lab_load_trace_row: a sink; context is a struct lab_load_trace, all zero but
 * for peak_N, zero_N and has_sag.  Energy: trapezoids of load over sag,
 * unloading taken off again. */
enum err_code lab_load_trace_row(void *context, const struct lab_trace_row *row,
	struct err *err) MUST_CHECK;

/* lab_load_stiffness(trace, N_per_m): the least-squares slope between
 * lab_slope_from and lab_slope_to of the peak, before it is reached; false:
 * fewer than three rows there, or the sag did not move. */
bool lab_load_stiffness(const struct lab_load_trace *trace, double *N_per_m);

#endif /* LAB_TRACE_LOAD_H */
