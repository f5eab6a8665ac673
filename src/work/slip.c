/* slip.c - the factors of common slips. */
#include "work/slip.h"

#include "core/tongue.h"

#include <math.h>
#include <stddef.h>

static const double about = 1.12;

static const struct {
	double factor;
	const char *question;
} slips[] = {
	{2.2046226, N_("Kilograms for pounds, or pounds for kilograms?")},
	{10, N_("Is the decimal point in its place?")},
	{16.018463, N_("lb/ft3 for kg/m3, or kg/m3 for lb/ft3?")},
	{25.4, N_("Millimetres for inches, or inches for millimetres?")},
	{1000, N_("Grams for kilograms, or millilitres for litres?")},
};

const char *
work_slip(double got, double expected)
{
	double factor;

	if (!(got > 0) || !(expected > 0))
		return NULL;
	factor = got > expected ? got / expected : expected / got;
	for (size_t i = 0; i < sizeof slips / sizeof slips[0]; i++)
		if (fabs(log(factor / slips[i].factor)) < log(about))
			return slips[i].question;
	return NULL;
}
