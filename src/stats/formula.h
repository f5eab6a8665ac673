/* formula.h - a written formula, read once and worked out with its slopes.
 *
 * Numbers, + - * / ^ (or **), brackets of either kind, exp log sqrt sin cos tan
 * atan, pi, and the names handed in: variables (known numbers) and parameters
 * (what is differentiated by).  "-x^2" is -(x^2); powers go from the right.
 * Slopes by forward differentiation in long double (Griewank and Walther 2008,
 * Evaluating Derivatives, 2nd ed., chapter 3), so they are exact to rounding.
 *
 * Pure. */
#ifndef STATS_FORMULA_H
#define STATS_FORMULA_H

#include "core/arena.h"
#include "core/err.h"

#include <stdbool.h>
#include <stddef.h>

struct stats_formula;

struct stats_formula_names {
	const char *const *variable;  /* n_variable */
	const char *const *parameter; /* n_parameter */
	size_t n_variable, n_parameter;
};

/* stats_formula_read(arena, text, names, formula, err):
 * The formula in the arena, with room to work it out: one thread at a time.
 * ERR_INPUT  field "model": what is wrong and at which character; also a
 *            formula of more than 1000 parts or brackets more than 60 deep, a
 *            parameter that does not occur, a name that is none or is taken;
 * ERR_MEMORY */
enum err_code stats_formula_read(struct arena *arena, const char *text,
	const struct stats_formula_names *names, struct stats_formula **formula,
	struct err *err) MUST_CHECK;

/* stats_formula_at(formula, variable, parameter, value, slope):
 * The value and, where slope is not NULL, its n_parameter derivatives; false,
 * the outputs then being of no use, where it or one of them is not finite. */
bool stats_formula_at(const struct stats_formula *formula,
	const double *variable, const long double *parameter,
	long double *value, long double *slope) MUST_CHECK;

#endif /* STATS_FORMULA_H */
