/* censored_term.h - what one reading adds to a censored log-likelihood.
 *
 * Pure; cannot fail.  Part of censored.h. */
#ifndef STATS_CENSORED_TERM_H
#define STATS_CENSORED_TERM_H

#include <stdbool.h>

enum censored_kind {
	CENSORED_EXACT,    /* log f(low) */
	CENSORED_LEFT,     /* log F(high) */
	CENSORED_RIGHT,    /* log (1 - F(low)) */
	CENSORED_INTERVAL, /* log (F(high) - F(low)) */
	CENSORED_NOTHING,  /* 0 */
};

/* The value and its derivatives: by m alone for the first three kinds, m being
 * the argument named above; for an interval by its middle m and half width h,
 * so that nothing cancels when it is narrow. */
struct censored_term {
	double value;
	double d_m, d_h, d_mm, d_mh, d_hh;
};

/* An interval: low = middle - half, high = middle + half, half > 0; all four
 * are given since each may be exact where the others are not. */
struct censored_ends {
	double low, high, middle, half;
};

/* censored_term_normal / _extreme(kind, ends, term):
 * The term of a standard normal or smallest extreme value variable.  Gives the
 * kind it was taken for: an end too far out to matter is dropped, and the
 * derivatives are then by the one that is left. */
enum censored_kind censored_term_normal(enum censored_kind kind,
	const struct censored_ends *ends, struct censored_term *term);
enum censored_kind censored_term_extreme(enum censored_kind kind,
	const struct censored_ends *ends, struct censored_term *term);

#endif /* STATS_CENSORED_TERM_H */
