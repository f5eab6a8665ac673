/* drop.c - energy of a dropped bar and volume of its dent. */
#include "lab/drop.h"

#include "core/check.h"

#include <math.h>
#include <stddef.h>

static const double pi = 3.14159265358979323846;

static double
cylinder_m3(double radius_m, double depth_m)
{
	return pi * radius_m * radius_m * depth_m;
}

/* A cap down to the widest place of the ball, and its shaft above. */
static double
ball_m3(double radius_m, double depth_m)
{
	if (depth_m <= radius_m)
		return pi * depth_m * depth_m * (3 * radius_m - depth_m) / 3;
	return 2 * pi * radius_m * radius_m * radius_m / 3 +
		cylinder_m3(radius_m, depth_m - radius_m);
}

/* A cone down to its base, and its shaft above. */
static double
cone_m3(double radius_m, double angle_rad, double depth_m)
{
	double slope = tan(angle_rad / 2);
	double tip_m = radius_m / slope;

	if (depth_m <= tip_m)
		return cylinder_m3(depth_m * slope, depth_m) / 3;
	return cylinder_m3(radius_m, tip_m) / 3 +
		cylinder_m3(radius_m, depth_m - tip_m);
}

enum err_code
lab_dent_volume(enum lab_tip tip, struct length diameter, double angle_rad,
	struct length depth, struct volume *out, struct err *err)
{
	double radius_m = diameter.m / 2;

	TRY(check_positive((struct check){"tip.diameter", "tip's diameter",
				   diameter.m, "m"},
		err));
	TRY(check_positive(
		(struct check){"depth", "depth of the dent", depth.m, "m"},
		err));
	if (tip == LAB_TIP_CONE && !(angle_rad > 0 && angle_rad < pi))
		return err_report(err, ERR_INPUT, "tip.angle",
			"The cone's full angle is %g rad; it must be between 0 "
			"and 180 degrees (3.14159 rad).",
			angle_rad);
	switch (tip) {
	case LAB_TIP_FLAT:
		out->m3 = cylinder_m3(radius_m, depth.m);
		break;
	case LAB_TIP_BALL:
		out->m3 = ball_m3(radius_m, depth.m);
		break;
	case LAB_TIP_CONE:
		out->m3 = cone_m3(radius_m, angle_rad, depth.m);
		break;
	}
	return ERR_NONE;
}

static enum err_code
check_depth(const struct lab_drop *drop, struct err *err)
{
	if (drop->has_thickness)
		TRY(check_positive((struct check){"thickness", "thickness",
					   drop->thickness.m, "m"},
			err));
	if (drop->has_depth)
		TRY(check_positive((struct check){"depth", "depth of the dent",
					   drop->depth.m, "m"},
			err));
	if (!drop->through && !drop->has_depth)
		return err_report(err, ERR_INPUT, "depth",
			"The depth of the dent is missing; give it, or say "
			"that the bar went through.");
	if (drop->through && !drop->has_depth && !drop->has_thickness)
		return err_report(err, ERR_INPUT, "thickness",
			"The bar went through; the thickness is needed, "
			"because the dent is at least that deep.");
	if (!drop->has_depth || !drop->has_thickness)
		return ERR_NONE;
	if (!drop->through && drop->depth.m > drop->thickness.m)
		return err_report(err, ERR_INPUT, "depth",
			"The dent is %g m deep and the piece %g m thick; if "
			"the bar went through, say so.",
			drop->depth.m, drop->thickness.m);
	if (drop->through && drop->depth.m < drop->thickness.m)
		return err_report(err, ERR_INPUT, "depth",
			"The bar went through a piece %g m thick, so the dent "
			"cannot be only %g m deep; leave the depth out.",
			drop->thickness.m, drop->depth.m);
	return ERR_NONE;
}

static enum err_code
check_drop(const struct lab_drop *drop, struct err *err)
{
	TRY(check_positive(
		(struct check){"mass", "bar's mass", drop->mass.kg, "kg"},
		err));
	TRY(check_positive(
		(struct check){"height", "drop height", drop->height.m, "m"},
		err));
	if (!(drop->tube_loss_ratio >= 0) || drop->tube_loss_ratio >= 1)
		return err_report(err, ERR_INPUT, "tube_loss",
			"The tube takes %g of the energy; it is a share from 0 "
			"to less than 1.",
			drop->tube_loss_ratio);
	return check_depth(drop, err);
}

enum err_code
lab_drop(const struct lab_drop *drop, struct lab_dropped *out, struct err *err)
{
	struct lab_dropped got;
	struct volume volume;
	struct length depth;
	double energy_J;

	TRY(check_drop(drop, err));
	depth = drop->through && drop->has_thickness ? drop->thickness
						     : drop->depth;
	TRY(lab_dent_volume(drop->tip, drop->tip_diameter, drop->tip_angle_rad,
		depth, &volume, err));
	energy_J = drop->mass.kg * gravity_m_s2 * (drop->height.m + depth.m) *
		(1 - drop->tube_loss_ratio);
	got.energy_J = (struct interval){energy_J, energy_J};
	got.volume_m3 = (struct interval){volume.m3, volume.m3};
	got.crushing_energy_Pa = (struct interval){
		energy_J / volume.m3, energy_J / volume.m3};
	if (drop->through) {
		got.energy_J.low = 0;
		got.volume_m3.high = (double)INFINITY;
		got.crushing_energy_Pa.low = 0;
	}
	*out = got;
	return ERR_NONE;
}
