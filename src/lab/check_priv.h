/* check_priv.h - the ranges that every home test asks of its readings. */
#ifndef LAB_CHECK_PRIV_H
#define LAB_CHECK_PRIV_H

#include "core/err.h"

/* One reading to be checked: the key in err->field, a name for the sentence,
 * the value and its SI unit. */
struct lab_check {
	const char *key, *name;
	double value;
	const char *unit;
};

/* lab_check_positive: finite and > 0.  lab_check_not_negative: finite and >= 0.
 * ERR_INPUT with the value and the range. */
enum err_code lab_check_positive(
	struct lab_check reading, struct err *err) MUST_CHECK;
enum err_code lab_check_not_negative(
	struct lab_check reading, struct err *err) MUST_CHECK;

/* lab_square_of_reading(division, value): the squared relative standard
 * uncertainty of a value read to a division: (division / sqrt(12) / value)^2,
 * JCGM 100:2008, 4.3.7. */
double lab_square_of_reading(double division, double value);

#endif /* LAB_CHECK_PRIV_H */
