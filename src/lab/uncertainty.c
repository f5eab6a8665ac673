/* uncertainty.c - first-order propagation of reading uncertainties. */
#include "lab/uncertainty.h"

#include <math.h>
#include <string.h>

/* The variance of a value anywhere within one division, JCGM 100:2008, 4.3.7 */
static const double division_squared_per_variance = 12.0;

double
lab_of_division(double division)
{
	return division / sqrt(division_squared_per_variance);
}

double
lab_square_of_reading(double division, double value)
{
	double relative = lab_of_division(division) / value;

	return relative * relative;
}

/* Half the change of the model from one reading moved by its uncertainty. */
static double
half_change(lab_model model, const void *context, const double *x, size_t n,
	size_t which, double u)
{
	double moved[LAB_READING_MAX];
	double above, below;

	memcpy(moved, x, n * sizeof *x);
	moved[which] = x[which] + u;
	above = model(moved, context);
	moved[which] = x[which] - u;
	below = model(moved, context);
	return (above - below) / 2;
}

enum err_code
lab_propagate(lab_model model, const void *context, const double *x,
	const double *u, size_t n, double *uncertainty, struct err *err)
{
	double square = 0;

	if (n > LAB_READING_MAX)
		return err_report(err, ERR_INPUT, "readings",
			"There are %zu readings; at most %d can be combined.",
			n, LAB_READING_MAX);
	for (size_t i = 0; i < n; i++) {
		double change;

		if (!(isfinite(u[i]) && u[i] >= 0))
			return err_report(err, ERR_INPUT, "division",
				"An uncertainty of %g cannot be; it must be 0 "
				"or more.",
				u[i]);
		change = half_change(model, context, x, n, i, u[i]);
		square += change * change;
	}
	if (!isfinite(square))
		return err_report(err, ERR_NUMERIC, "",
			"The divisions are too coarse for these readings: "
			"within one of them the result has no finite value.");
	*uncertainty = sqrt(square);
	return ERR_NONE;
}
