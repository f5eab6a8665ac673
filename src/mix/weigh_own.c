/* weigh_own.c - bucket, jar and pan. */
#include "mix/weigh_own.h"

#include "core/check.h"

#include <math.h>

/* A step of width w that is uniform over it. */
static double
step_uncertainty(double step)
{
	return step / sqrt(12.0);
}

/* Kell (1975), equation 16, at one atmosphere; kg/m3. */
static double
water_density(double degc)
{
	double above = 999.83952 + 16.945176 * degc -
		7.9870401e-3 * pow(degc, 2) - 46.170461e-6 * pow(degc, 3) +
		105.56302e-9 * pow(degc, 4) - 280.54253e-12 * pow(degc, 5);

	return above / (1 + 16.879850e-3 * degc);
}

static enum err_code
check_water(double degc, struct err *err)
{
	if (degc >= 0 && degc <= 40)
		return ERR_NONE;
	return err_report(err, ERR_INPUT, "water_temperature",
		"The water is given as %g degC; it must be between 0 and 40.",
		degc);
}

static enum err_code
check_step(double step_kg, struct err *err)
{
	if (is_positive(step_kg))
		return ERR_NONE;
	return err_report(err, ERR_INPUT, "step",
		"The step of the scale is %g kg; it must be greater than 0.",
		step_kg);
}

static enum err_code
check_filled(double gross_kg, double tare_kg, double step_kg, struct err *err)
{
	TRY(check_step(step_kg, err));
	if (!(isfinite(tare_kg) && tare_kg >= 0))
		return err_report(err, ERR_INPUT, "tare",
			"The empty vessel is given as %g kg; it must be 0 or "
			"more.",
			tare_kg);
	if (!(isfinite(gross_kg) && gross_kg > tare_kg))
		return err_report(err, ERR_INPUT, "gross",
			"The full vessel is given as %g kg and the empty one "
			"as %g kg; full must be the heavier.",
			gross_kg, tare_kg);
	return ERR_NONE;
}

enum err_code
mix_vessel_volume(double gross_kg, double tare_kg, double step_kg,
	double water_degc, struct mix_weighed *out, struct err *err)
{
	double density;

	TRY(check_filled(gross_kg, tare_kg, step_kg, err));
	TRY(check_water(water_degc, err));
	density = water_density(water_degc);
	out->value = (gross_kg - tare_kg) / density;
	out->standard_uncertainty = sqrt(2.0) * step_uncertainty(step_kg) /
		density;
	return ERR_NONE;
}

enum err_code
mix_bulk_density(double gross_kg, double tare_kg, double step_kg,
	double vessel_m3, double vessel_u_m3, struct mix_weighed *out,
	struct err *err)
{
	double mass_kg = gross_kg - tare_kg;

	TRY(check_filled(gross_kg, tare_kg, step_kg, err));
	if (!is_positive(vessel_m3))
		return err_report(err, ERR_INPUT, "volume",
			"The vessel holds %g m3; it must be greater than 0. "
			"Fill it with water and weigh it to find out.",
			vessel_m3);
	if (!(vessel_u_m3 >= 0 && vessel_u_m3 < vessel_m3))
		return err_report(err, ERR_INPUT, "volume_uncertainty",
			"The uncertainty of the vessel is %g m3; it must be 0 "
			"or more and less than its volume.",
			vessel_u_m3);
	out->value = mass_kg / vessel_m3;
	out->standard_uncertainty = out->value *
		hypot(sqrt(2.0) * step_uncertainty(step_kg) / mass_kg,
			vessel_u_m3 / vessel_m3);
	return ERR_NONE;
}

enum err_code
mix_particle_density(double dry_kg, double jar_water_kg, double jar_both_kg,
	double step_kg, double water_degc, struct mix_weighed *out,
	struct err *err)
{
	double displaced_kg = dry_kg + jar_water_kg - jar_both_kg;
	double u, by_dry;

	TRY(check_step(step_kg, err));
	TRY(check_water(water_degc, err));
	if (!is_positive(dry_kg) || !is_positive(jar_water_kg))
		return err_report(err, ERR_INPUT, "mass",
			"The dry grains are %g kg and the jar with water %g "
			"kg; both must be greater than 0.",
			dry_kg, jar_water_kg);
	if (!(isfinite(jar_both_kg) && jar_both_kg > jar_water_kg) ||
		!is_positive(displaced_kg))
		return err_report(err, ERR_INPUT, "jar_both",
			"The jar with grains and water is given as %g kg; it "
			"must lie between %g kg (the jar with water) and %g kg "
			"(that and the grains).",
			jar_both_kg, jar_water_kg, dry_kg + jar_water_kg);
	u = step_uncertainty(step_kg);
	out->value = dry_kg / displaced_kg * water_density(water_degc);
	/* d(dry/displaced): by dry 1/displaced - dry/displaced^2, by each jar
	 * dry/displaced^2 */
	by_dry = (displaced_kg - dry_kg) / displaced_kg;
	out->standard_uncertainty = water_density(water_degc) * u /
		displaced_kg *
		sqrt(by_dry * by_dry + 2 * pow(dry_kg / displaced_kg, 2));
	return ERR_NONE;
}

enum err_code
mix_moisture(double damp_kg, double dry_kg, double step_kg,
	struct mix_weighed *out, struct err *err)
{
	TRY(check_step(step_kg, err));
	if (!is_positive(dry_kg) || !(isfinite(damp_kg) && damp_kg >= dry_kg))
		return err_report(err, ERR_INPUT, "dry",
			"The sample weighs %g kg damp and %g kg dry; dry must "
			"be greater than 0 and not above damp.",
			damp_kg, dry_kg);
	out->value = damp_kg / dry_kg - 1;
	out->standard_uncertainty = step_uncertainty(step_kg) / dry_kg *
		hypot(1, damp_kg / dry_kg);
	return ERR_NONE;
}
