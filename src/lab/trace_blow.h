/* trace_blow.h - what an accelerometer on a dropped bar says of the blow.
 *
 * Two passes over the rows: the peak first, then the blow about it.  Pure.
 * docs/methods/traces.md. */
#ifndef LAB_TRACE_BLOW_H
#define LAB_TRACE_BLOW_H

#include "core/err.h"
#include "core/qty.h"
#include "lab/trace.h"

#include <stdbool.h>

/* The blow lasts while the acceleration stays above this share of its peak;
 * common practice, no source. */
static const double lab_blow_share = 0.1;

struct lab_blow_peak {
	size_t n;
	double peak_m_s2, peak_at_s; /* of the absolute value */
	bool is_down;                /* the peak was negative */
};

/* lab_blow_peak_row: a sink; context a struct lab_blow_peak, all zero. */
enum err_code lab_blow_peak_row(void *context, const struct lab_trace_row *row,
	struct err *err) MUST_CHECK;

struct lab_blow_trace {
	struct lab_blow_peak peak; /* of the first pass */
	struct mass mass;          /* of the bar; 0: not known */
	double entry_m_s;          /* speed as it hits; 0: not known */
	/* what comes of it */
	bool is_whole; /* it rose and fell again within the trace */
	double from_s, to_s;
	size_t n_row;          /* within the blow */
	double speed_lost_m_s; /* area under the acceleration less gravity */
	double depth_m;        /* with entry_m_s: the way of the bar */
	double energy_J; /* with mass and entry_m_s: work done on the piece */
	bool in_blow, is_over;
	double last_s, last_m_s2;
	size_t n;
};

/* lab_blow_trace_row: a sink; context a struct lab_blow_trace, all zero but for
 * peak, mass and entry_m_s.  An accelerometer shows g at rest and 0 in free fall:
 * the bar is slowed by the reading less g.  Trapezoids; speed v = entry less what
 * was lost, way and work by the mean of v over each step (derived). */
enum err_code lab_blow_trace_row(void *context, const struct lab_trace_row *row,
	struct err *err) MUST_CHECK;

#endif /* LAB_TRACE_BLOW_H */
