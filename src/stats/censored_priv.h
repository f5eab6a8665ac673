/* censored_priv.h - shared by the files of censored.h.
 *
 * The search runs in gamma (one a group), the slope over the scale, and tau:
 * a reading y has the standard argument tau y - gamma_g - slope x.  All in
 * units of their own: y less a centre of its group over a unit, x likewise. */
#ifndef STATS_CENSORED_PRIV_H
#define STATS_CENSORED_PRIV_H

#include "stats/censored.h"
#include "stats/censored_term.h"

#include <stdint.h>

struct censored_row {
	enum censored_kind kind;
	double low, high, middle, half; /* as struct censored_ends, times tau */
	double x, weight;
};

struct censored_data {
	enum stats_censored_family family;
	size_t n_group;
	bool has_x;
	const size_t *first; /* n_group + 1: where each group's rows begin */
	struct censored_row *row;
	double *centre;     /* of y, by group */
	bool *is_one_sided; /* by group: no row keeps it from running away */
	double unit, x_centre, x_unit;
	double n_weight;     /* of all rows */
	double n_exact;      /* weight of exact rows */
	double log_jacobian; /* from the density of y to that of the reading */
};

/* censored_prepare(arena, ask, data, err): joins equal rows, goes to logs and
 * to units; refuses what censored.h says. */
enum err_code censored_prepare(struct arena *arena,
	const struct stats_censored_ask *ask, struct censored_data *data,
	struct err *err) MUST_CHECK;

enum { CENSORED_X, CENSORED_TAU, CENSORED_BORDER };

/* A place, or a direction. */
struct censored_point {
	double *gamma;
	double border[CENSORED_BORDER];
};

/* The log-likelihood with its gradient and its negative second derivatives: a
 * diagonal for the gammas, bordered by slope and tau. */
struct censored_arrow {
	double value;
	struct censored_point slope;
	double *diagonal;
	double (*border)[CENSORED_BORDER];
	double corner[CENSORED_BORDER][CENSORED_BORDER];
};

/* What is held while the rest is fitted. */
struct censored_pin {
	enum { PIN_NOTHING, PIN_GROUP, PIN_X, PIN_TAU } what;
	size_t group;
	double at; /* m_g, slope (y per x) or tau */
};

struct censored_block;

struct censored_search {
	const struct censored_data *data;
	bool *is_left_out;            /* by group: runs away, adds nothing */
	struct censored_block *block; /* of rows, for the sums */
	size_t n_block;
	struct censored_point at, trial, step;
	struct censored_arrow here, there;
	bool is_lost;     /* began where the log-likelihood is not finite */
	bool is_flat;     /* the slope or tau is without information */
	double decrement; /* of the step not yet taken, in units of 2 log L */
};

enum err_code censored_search_open(struct arena *arena,
	const struct censored_data *data, struct censored_search *s,
	struct err *err) MUST_CHECK;

/* censored_climb(s, pin, tolerance, err): from s->at to where the decrement is
 * below the tolerance; here and step are then of that place. */
enum err_code censored_climb(struct censored_search *s,
	const struct censored_pin *pin, double tolerance,
	struct err *err) MUST_CHECK;

/* censored_settle(s): takes the last step. */
void censored_settle(struct censored_search *s);

/* censored_solve(s, pin, rhs, x): x with M x = rhs under the pin, M the
 * second derivatives of s->here; gives rhs'x. */
double censored_solve(const struct censored_search *s,
	const struct censored_pin *pin, const struct censored_point *rhs,
	struct censored_point *x, bool *is_flat);

/* censored_pinned_slope(s, pin): the derivative of the profile log-likelihood
 * by pin->at, the step not yet taken allowed for. */
double censored_pinned_slope(
	const struct censored_search *s, const struct censored_pin *pin);

#endif /* STATS_CENSORED_PRIV_H */
