/* check.c - the ranges that computing functions ask of their readings. */
#include "core/check.h"

#include <math.h>

/* Colder or hotter than any place where concrete cures or a wall stands. */
static const double coldest_degC = -90, hottest_degC = 200;

enum err_code
check_positive(struct check reading, struct err *err)
{
	if (is_positive(reading.value))
		return ERR_NONE;
	return err_report(err, ERR_INPUT, reading.key,
		"The %s is %g %s; it must be greater than 0.",
		err_say(err, reading.name), reading.value, reading.unit);
}

enum err_code
check_not_negative(struct check reading, struct err *err)
{
	if (is_not_negative(reading.value))
		return ERR_NONE;
	return err_report(err, ERR_INPUT, reading.key,
		"The %s is %g %s; it must be 0 or more.",
		err_say(err, reading.name), reading.value, reading.unit);
}

enum err_code
check_between(struct check reading, double low, double high, struct err *err)
{
	if (reading.value >= low && reading.value <= high)
		return ERR_NONE;
	return err_report(err, ERR_INPUT, reading.key,
		"The %s is %g %s; it must be from %g to %g.",
		err_say(err, reading.name), reading.value, reading.unit, low,
		high);
}

enum err_code
check_temperature(struct check reading, struct err *err)
{
	return check_between(reading, coldest_degC, hottest_degC, err);
}

enum err_code
check_all_positive(const struct check *reading, size_t n, struct err *err)
{
	for (size_t i = 0; i < n; i++)
		TRY(check_positive(reading[i], err));
	return ERR_NONE;
}
