/* check.c - the ranges that every home test asks of its readings. */
#include "lab/check_priv.h"

#include <math.h>
#include <stddef.h>

/* The variance of a value anywhere within one division, JCGM 100:2008, 4.3.7 */
static const double division_squared_per_variance = 12.0;

enum err_code
lab_check_positive(struct lab_check reading, struct err *err)
{
	if (isfinite(reading.value) && reading.value > 0)
		return ERR_NONE;
	return err_report(err, ERR_INPUT, reading.key,
		"The %s is %g %s; it must be greater than 0.", reading.name,
		reading.value, reading.unit);
}

enum err_code
lab_check_not_negative(struct lab_check reading, struct err *err)
{
	if (isfinite(reading.value) && reading.value >= 0)
		return ERR_NONE;
	return err_report(err, ERR_INPUT, reading.key,
		"The %s is %g %s; it must be 0 or more.", reading.name,
		reading.value, reading.unit);
}

double
lab_square_of_reading(double division, double value)
{
	double relative = division / value;

	return relative * relative / division_squared_per_variance;
}
