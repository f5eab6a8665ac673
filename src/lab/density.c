/* density.c - density, moisture and absorption of one specimen. */
#include "lab/density.h"

#include "core/check.h"
#include "lab/uncertainty.h"

#include <math.h>
#include <stddef.h>

/* The water taken up by a specimen: ASTM C796 and common practice. */
static const double absorbed_water_kg_m3 = 1000.0;

static enum err_code
sides_volume(const struct lab_density *d, double *m3, struct err *err)
{
	const struct check side[] = {
		{"length", N_("length"), d->length.m, "m"},
		{"width", N_("width"), d->width.m, "m"},
		{"height", N_("height"), d->height.m, "m"},
	};

	for (size_t i = 0; i < sizeof side / sizeof side[0]; i++)
		TRY(check_positive(side[i], err));
	*m3 = d->length.m * d->width.m * d->height.m;
	return ERR_NONE;
}

/* The mass in air of the piece in the state in which it was put under water. */
static double
mass_put_in(const struct lab_density *d)
{
	return d->has_saturated ? d->saturated_mass.kg : d->mass.kg;
}

static enum err_code
water_volume(const struct lab_density *d, double *m3, struct err *err)
{
	double in_air_kg = mass_put_in(d);

	TRY(check_positive((struct check){"water", N_("density of water"),
				   d->water.kg_m3, "kg/m3"},
		err));
	if (!isfinite(d->mass_in_water.kg) || d->mass_in_water.kg >= in_air_kg)
		return err_report(err, ERR_INPUT, "mass_in_water",
			"The piece weighs %g kg under water and %g kg in air; "
			"it must weigh less under water.",
			d->mass_in_water.kg, in_air_kg);
	*m3 = (in_air_kg - d->mass_in_water.kg) / d->water.kg_m3;
	return ERR_NONE;
}

static enum err_code
find_volume(const struct lab_density *d, double *m3, struct err *err)
{
	switch (d->by) {
	case LAB_VOLUME_GIVEN:
		TRY(check_positive((struct check){"volume", N_("volume"),
					   d->volume.m3, "m3"},
			err));
		*m3 = d->volume.m3;
		return ERR_NONE;
	case LAB_VOLUME_SIDES:
		return sides_volume(d, m3, err);
	case LAB_VOLUME_IN_WATER:
		break;
	}
	return water_volume(d, m3, err);
}

static enum err_code
check_masses(const struct lab_density *d, struct err *err)
{
	TRY(check_positive(
		(struct check){"mass", N_("mass"), d->mass.kg, "kg"}, err));
	if (d->has_oven_dry) {
		TRY(check_positive(
			(struct check){"oven_dry_mass", N_("oven-dry mass"),
				d->oven_dry_mass.kg, "kg"},
			err));
		if (d->oven_dry_mass.kg > d->mass.kg)
			return err_report(err, ERR_INPUT, "oven_dry_mass",
				"The piece weighs %g kg oven-dry and only %g "
				"kg as it is; it must weigh least when dry.",
				d->oven_dry_mass.kg, d->mass.kg);
	}
	if (!d->has_saturated)
		return ERR_NONE;
	TRY(check_positive(
		(struct check){"saturated_mass", N_("saturated mass"),
			d->saturated_mass.kg, "kg"},
		err));
	if (d->has_oven_dry && d->saturated_mass.kg < d->oven_dry_mass.kg)
		return err_report(err, ERR_INPUT, "saturated_mass",
			"The piece weighs %g kg saturated and %g kg oven-dry; "
			"it must weigh more when wet.",
			d->saturated_mass.kg, d->oven_dry_mass.kg);
	return ERR_NONE;
}

enum err_code
lab_density(
	const struct lab_density *d, struct lab_densities *out, struct err *err)
{
	struct lab_densities got = {.has_oven_dry = d->has_oven_dry};

	TRY(check_masses(d, err));
	TRY(find_volume(d, &got.volume.m3, err));
	got.density.kg_m3 = d->mass.kg / got.volume.m3;
	got.has_absorption = d->has_oven_dry && d->has_saturated;
	if (got.has_oven_dry) {
		double dry_kg = d->oven_dry_mass.kg;

		got.oven_dry_density.kg_m3 = dry_kg / got.volume.m3;
		got.moisture_ratio = (d->mass.kg - dry_kg) / dry_kg;
	}
	if (got.has_absorption) {
		double taken_kg = d->saturated_mass.kg - d->oven_dry_mass.kg;

		got.absorption_by_mass_ratio = taken_kg / d->oven_dry_mass.kg;
		got.absorption_by_volume_ratio = taken_kg /
			absorbed_water_kg_m3 / got.volume.m3;
	}
	*out = got;
	return ERR_NONE;
}

static enum err_code
check_division(const struct lab_density_division *d, struct err *err)
{
	const struct check division[] = {
		{"division.mass", N_("scale's division"), d->mass.kg, "kg"},
		{"division.side", N_("ruler's division"), d->side.m, "m"},
		{"division.volume", N_("volume's division"), d->volume.m3,
			"m3"},
	};

	for (size_t i = 0; i < sizeof division / sizeof division[0]; i++)
		TRY(check_not_negative(division[i], err));
	return ERR_NONE;
}

/* The squared relative uncertainty of the volume; for a piece weighed in water
 * without the part of the mass in air. */
static double
volume_square(const struct lab_density *d,
	const struct lab_density_division *division)
{
	switch (d->by) {
	case LAB_VOLUME_GIVEN:
		return lab_square_of_reading(division->volume.m3, d->volume.m3);
	case LAB_VOLUME_SIDES:
		return lab_square_of_reading(division->side.m, d->length.m) +
			lab_square_of_reading(division->side.m, d->width.m) +
			lab_square_of_reading(division->side.m, d->height.m);
	case LAB_VOLUME_IN_WATER:
		break;
	}
	return lab_square_of_reading(
		division->mass.kg, mass_put_in(d) - d->mass_in_water.kg);
}

enum err_code
lab_density_uncertainty(const struct lab_density *d,
	const struct lab_density_division *division, double *relative,
	struct err *err)
{
	struct lab_densities got;
	double in_air_kg = mass_put_in(d), mass_square, square;

	TRY(lab_density(d, &got, err));
	TRY(check_division(division, err));
	mass_square = lab_square_of_reading(division->mass.kg, d->mass.kg);
	square = volume_square(d, division);
	if (d->by == LAB_VOLUME_IN_WATER && !d->has_saturated) {
		/* m / (m - s): the mass in air is in both, d ln / d ln m =
		 * -s / (m - s) */
		double part = d->mass_in_water.kg /
			(in_air_kg - d->mass_in_water.kg);

		mass_square *= part * part;
	} else if (d->by == LAB_VOLUME_IN_WATER) {
		square *= 2; /* two weighings make the volume */
	}
	*relative = sqrt(mass_square + square);
	return ERR_NONE;
}

enum err_code
lab_absorption_uncertainty(const struct lab_density *d,
	const struct lab_density_division *division, double *relative,
	struct err *err)
{
	double taken_kg = d->saturated_mass.kg - d->oven_dry_mass.kg;
	struct lab_densities got;

	TRY(lab_density(d, &got, err));
	TRY(check_division(division, err));
	if (!got.has_absorption)
		return err_report(err, ERR_INPUT, "saturated_mass",
			"Water taken up needs the piece oven-dry and "
			"saturated.");
	if (!(taken_kg > 0))
		return err_report(err, ERR_NUMERIC, "saturated_mass",
			"The piece took up no water; a share of nothing says "
			"nothing.");
	/* two weighings make the water */
	*relative = sqrt(
		2 * lab_square_of_reading(division->mass.kg, taken_kg) +
		volume_square(d, division));
	return ERR_NONE;
}

enum err_code
lab_moisture(struct mass wet, struct mass dry, double *ratio, struct err *err)
{
	const struct check mass[] = {
		{"wet", N_("mass as it was"), wet.kg, "kg"},
		{"dry", N_("oven-dry mass"), dry.kg, "kg"},
	};

	TRY(CHECK_ALL_POSITIVE(mass, err));
	if (wet.kg < dry.kg)
		return err_report(err, ERR_INPUT, "dry",
			"The piece weighs %g kg oven-dry and only %g kg as it "
			"was; it must weigh least when dry.",
			dry.kg, wet.kg);
	*ratio = wet.kg / dry.kg - 1;
	return ERR_NONE;
}

enum err_code
lab_moisture_uncertainty(struct mass wet, struct mass dry, struct mass division,
	double *uncertainty, struct err *err)
{
	double u = lab_of_division(division.kg), ratio;

	TRY(lab_moisture(wet, dry, &ratio, err));
	TRY(check_not_negative(
		(struct check){
			"division", N_("scale's division"), division.kg, "kg"},
		err));
	*uncertainty = u / dry.kg * hypot(1, 1 + ratio);
	return ERR_NONE;
}
