/* conductivity.c - ACI 122R's relation in SI. */
#include "choose/conductivity.h"

#include <math.h>

/* 1 Btu in/(h ft2 degF) in W/(m K) and 1 lb/ft3 in kg/m3, both exact by the
 * definitions of inch, pound and the International Table Btu. */
static const double w_mk_per_us = 1055.05585262 * 0.0254 /
	(3600.0 * 0.09290304 * (5.0 / 9.0));
static const double kg_m3_per_pcf = 0.45359237 / 0.028316846592;

double
choose_conductivity(double dry_density_kg_m3)
{
	double weight_pcf = dry_density_kg_m3 / kg_m3_per_pcf;

	return 0.5 * exp(0.02 * weight_pcf) * w_mk_per_us;
}
