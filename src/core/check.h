/* check.h - the ranges that computing functions ask of their readings. */
#ifndef CORE_CHECK_H
#define CORE_CHECK_H

#include "core/err.h"

#include <math.h>
#include <stdbool.h>
#include <stddef.h>

/* is_positive: finite and > 0.  is_not_negative: finite and >= 0. */
static inline bool
is_positive(double x)
{
	return isfinite(x) && x > 0;
}

static inline bool
is_not_negative(double x)
{
	return isfinite(x) && x >= 0;
}

/* One reading to be checked: the key in err->field, a name for the sentence,
 * the value and its SI unit. */
struct check {
	const char *key, *name;
	double value;
	const char *unit;
};

/* check_positive: finite and > 0.  check_not_negative: finite and >= 0.
 * check_between: from low to high, both allowed.  check_temperature: a reading
 * in degC that a curing shed, a wall or a climate can have, from -90 to 200.
 * check_all_positive: each of n readings; the first that fails is reported.
 * ERR_INPUT with the value and the range. */
enum err_code check_positive(struct check reading, struct err *err) MUST_CHECK;
enum err_code check_not_negative(
	struct check reading, struct err *err) MUST_CHECK;
enum err_code check_between(struct check reading, double low, double high,
	struct err *err) MUST_CHECK;
enum err_code check_temperature(
	struct check reading, struct err *err) MUST_CHECK;
enum err_code check_all_positive(
	const struct check *reading, size_t n, struct err *err) MUST_CHECK;

/* The same for a list in scope. */
#define CHECK_ALL_POSITIVE(list, err) \
	check_all_positive((list), sizeof(list) / sizeof((list)[0]), (err))

#endif /* CORE_CHECK_H */
