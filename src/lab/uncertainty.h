/* uncertainty.h - how far the reading of instruments lets a result be off.
 *
 * First order (JCGM 100:2008, "GUM", 5.1.2).  What is between specimens and
 * between batches is not in it.  Pure.  docs/methods/uncertainty.md. */
#ifndef LAB_UNCERTAINTY_H
#define LAB_UNCERTAINTY_H

#include "core/err.h"

#include <stddef.h>

/* lab_of_division(division): the standard uncertainty of a reading to a
 * division, division / sqrt(12), JCGM 100:2008, 4.3.7. */
double lab_of_division(double division);

/* lab_square_of_reading(division, value): the squared relative standard
 * uncertainty of a value read to a division. */
double lab_square_of_reading(double division, double value);

/* A result as a function of n readings; context is the caller's. */
typedef double (*lab_model)(const double *x, const void *context);

enum { LAB_READING_MAX = 8 };

/* lab_propagate(model, context, x, u, n, uncertainty, err):
 * The standard uncertainty of model(x) where the readings x have the standard
 * uncertainties u and are independent: the root of the sum of squares of
 * (model(x + u) - model(x - u)) / 2, each reading alone (JCGM 100:2008, 5.1.3,
 * note 2).
 * ERR_INPUT    n above LAB_READING_MAX, a u below 0 or not finite
 * ERR_NUMERIC  the model is not finite beside x */
enum err_code lab_propagate(lab_model model, const void *context,
	const double *x, const double *u, size_t n, double *uncertainty,
	struct err *err) MUST_CHECK;

#endif /* LAB_UNCERTAINTY_H */
