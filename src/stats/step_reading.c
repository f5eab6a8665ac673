/* step_reading.c - what reading a load in steps of weights costs. */
#include "stats/step_reading.h"

#include "stats/normal.h"

#include <assert.h>
#include <math.h>

/* Beyond this the normal density is below 1e-16 of its height. */
static const double far_out = 8.5;

/* With the steps at (k + phase) * step. */
static double
worth_at(double step, double phase)
{
	double sum = 0;

	for (double k = floor(-far_out / step) - 1;
		(k + phase) * step < far_out; k++) {
		double low = (k + phase) * step, high = low + step;
		double share = stats_normal_between(low, high);
		double slope = stats_normal_density(low) -
			stats_normal_density(high);

		if (share > 0)
			sum += slope * slope / share;
	}
	return sum;
}

double
stats_step_worth(double step)
{
	enum { PHASES = 32 };
	const double fine = 0.01; /* below it the series is exact to 1e-9 */
	double sum = 0;

	if (step < fine)
		return 1 - step * step / 12;
	for (int i = 0; i < PHASES; i++)
		sum += worth_at(step, (i + 0.5) / PHASES);
	return sum / PHASES;
}

double
stats_step_for(double worth)
{
	const double widest = 100, precision = 1e-10;
	double low = 0, high = widest;

	assert(worth >= 0.05 && worth < 1);
	while (high - low > precision * high) {
		double middle = (low + high) / 2;

		if (stats_step_worth(middle) > worth)
			low = middle;
		else
			high = middle;
	}
	return (low + high) / 2;
}
