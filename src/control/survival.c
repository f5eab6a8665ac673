/* survival.c - the conjugate step. */
#include "control/survival.h"

#define MATHLIB_STANDALONE 1
#include <Rmath.h>
#include <math.h>
#include <stdio.h>

static const double prior_mean = 0.95, prior_spread = 0.05;
static const double prior_batches = 1, prior_degrees = 2;
static const double most_ratio = 1.5;

static double
within_0_and_1(double x)
{
	return fmin(1, fmax(0, x));
}

static enum err_code
check_ratios(const double *ratio, size_t n, struct err *err)
{
	for (size_t i = 0; i < n; i++) {
		char field[ERR_FIELD_MAX];

		(void)snprintf(field, sizeof field, "batches[%zu]", i);
		if (!(ratio[i] >= 0 && ratio[i] <= most_ratio))
			return err_report(err, ERR_INPUT, field,
				"A share of %g of the foam's air cannot be "
				"left; it is from 0 to 1, and a little above "
				"only by errors of weighing.",
				ratio[i]);
	}
	return ERR_NONE;
}

enum err_code
control_survival(const double *ratio, size_t n, struct control_survival *out,
	struct err *err)
{
	double batches = prior_batches + (double)n;
	double degrees = prior_degrees + (double)n;
	double sum = prior_batches * prior_mean, mean, squares, half;

	TRY(check_ratios(ratio, n, err));
	for (size_t i = 0; i < n; i++)
		sum += ratio[i];
	mean = sum / batches;
	/* squares about the joint mean, the prior counted as batches at its
	 * own mean */
	squares = prior_degrees * prior_spread * prior_spread +
		prior_batches * pow(prior_mean - mean, 2);
	for (size_t i = 0; i < n; i++)
		squares += pow(ratio[i] - mean, 2);
	half = qt(0.95, degrees, 1, 0) *
		sqrt(squares / degrees * (1 + 1 / batches));
	out->mean = within_0_and_1(mean);
	out->low = within_0_and_1(mean - half);
	out->high = within_0_and_1(mean + half);
	out->n = n;
	return ERR_NONE;
}
