/* normal.c - density and tails of the standard normal. */
#include "stats/normal.h"

#define MATHLIB_STANDALONE 1
#include <Rmath.h>

#include <math.h>
#include <stdbool.h>

double
stats_normal_density(double x)
{
	return M_1_SQRT_2PI * exp(-x * x / 2);
}

double
stats_normal_upper(double x)
{
	return erfc(x * M_SQRT1_2) / 2;
}

double
stats_normal_lower(double x)
{
	return erfc(-x * M_SQRT1_2) / 2;
}

double
stats_normal_log_upper(double x)
{
	return pnorm5(x, 0, 1, false, true);
}

double
stats_normal_between(double low, double high)
{
	double share;

	if (high <= low)
		return 0;
	if (low > 0)
		share = stats_normal_upper(low) - stats_normal_upper(high);
	else
		share = stats_normal_lower(high) - stats_normal_lower(low);
	return share > 0 ? share : 0;
}
