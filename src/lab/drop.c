/* drop.c - energy of a dropped bar and volume of its dent. */
#include "lab/drop.h"

#include "core/check.h"
#include "lab/uncertainty.h"

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

	TRY(check_positive((struct check){"tip.diameter", N_("tip's diameter"),
				   diameter.m, "m"},
		err));
	TRY(check_positive(
		(struct check){"depth", N_("depth of the dent"), depth.m, "m"},
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
		TRY(check_positive((struct check){"thickness", N_("thickness"),
					   drop->thickness.m, "m"},
			err));
	if (drop->has_depth)
		TRY(check_positive(
			(struct check){"depth", N_("depth of the dent"),
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
check_tube_loss(double ratio, struct err *err)
{
	if (ratio >= 0 && ratio < 1)
		return ERR_NONE;
	return err_report(err, ERR_INPUT, "tube_loss",
		"The tube takes %g of the energy; it is a share from 0 to less "
		"than 1.",
		ratio);
}

static enum err_code
check_drop(const struct lab_drop *drop, struct err *err)
{
	TRY(check_positive(
		(struct check){"mass", N_("bar's mass"), drop->mass.kg, "kg"},
		err));
	TRY(check_positive((struct check){"height", N_("drop height"),
				   drop->height.m, "m"},
		err));
	TRY(check_tube_loss(drop->tube_loss_ratio, err));
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

enum { MASS, HEIGHT, DEPTH, DIAMETER, ANGLE, N_READING };

static double
energy_per_volume(const double *x, const void *context)
{
	const struct lab_drop *drop = context;
	struct err unread = {.code = ERR_NONE};
	struct volume volume = {(double)NAN};

	if (lab_dent_volume(drop->tip, (struct length){x[DIAMETER]}, x[ANGLE],
		    (struct length){x[DEPTH]}, &volume, &unread) != ERR_NONE)
		return (double)NAN; /* reported by lab_propagate */
	return x[MASS] * (x[HEIGHT] + x[DEPTH]) / volume.m3;
}

enum err_code
lab_drop_uncertainty(const struct lab_drop *drop,
	const struct lab_drop_division *division, double *relative,
	struct err *err)
{
	const double x[N_READING] = {
		[MASS] = drop->mass.kg,
		[HEIGHT] = drop->height.m,
		[DEPTH] = drop->through && drop->has_thickness
			? drop->thickness.m
			: drop->depth.m,
		[DIAMETER] = drop->tip_diameter.m,
		[ANGLE] = drop->tip_angle_rad,
	};
	const double u[N_READING] = {
		[MASS] = lab_of_division(division->mass.kg),
		[HEIGHT] = lab_of_division(division->height.m),
		[DEPTH] = lab_of_division(division->depth.m),
		[DIAMETER] = lab_of_division(division->tip_diameter.m),
		[ANGLE] = lab_of_division(division->angle_rad),
	};
	struct lab_dropped got;
	double uncertainty;

	TRY(lab_drop(drop, &got, err));
	TRY(lab_propagate(
		energy_per_volume, drop, x, u, N_READING, &uncertainty, err));
	*relative = uncertainty / energy_per_volume(x, drop);
	return ERR_NONE;
}

enum err_code
lab_drop_energy(struct mass mass, struct length height, struct energy *out,
	struct err *err)
{
	const struct check positive[] = {
		{"mass", N_("bar's mass"), mass.kg, "kg"},
		{"height", N_("drop height"), height.m, "m"},
	};

	TRY(CHECK_ALL_POSITIVE(positive, err));
	out->J = mass.kg * gravity_m_s2 * height.m;
	return ERR_NONE;
}

enum err_code
lab_drop_speed(struct length height, double *out, struct err *err)
{
	TRY(check_positive(
		(struct check){"height", N_("drop height"), height.m, "m"},
		err));
	*out = sqrt(2 * gravity_m_s2 * height.m);
	return ERR_NONE;
}

enum err_code
lab_tube_loss(
	struct length height, double exit_m_s, double *ratio, struct err *err)
{
	double free_m_s;

	TRY(lab_drop_speed(height, &free_m_s, err));
	TRY(check_positive(
		(struct check){"speed", N_("exit speed"), exit_m_s, "m/s"},
		err));
	if (exit_m_s > free_m_s)
		return err_report(err, ERR_INPUT, "speed",
			"A bar that falls %g m freely has %g m/s; %g m/s is "
			"more than that, so a reading is off.",
			height.m, free_m_s, exit_m_s);
	*ratio = 1 - exit_m_s * exit_m_s / (free_m_s * free_m_s);
	return ERR_NONE;
}

enum err_code
lab_blows(const struct lab_blows *blows, struct interval *out, struct err *err)
{
	struct energy one;

	TRY(lab_drop_energy(blows->mass, blows->height, &one, err));
	TRY(check_tube_loss(blows->tube_loss_ratio, err));
	if (blows->n_held == 0 && !blows->did_fail)
		return err_report(err, ERR_INPUT, "blows",
			"Not one blow was given, so nothing is known.");
	one.J *= 1 - blows->tube_loss_ratio;
	out->low = blows->n_held * one.J;
	out->high = blows->did_fail ? (blows->n_held + 1.0) * one.J
				    : (double)INFINITY;
	return ERR_NONE;
}

enum err_code
lab_blows_uncertainty(const struct lab_blows *blows, struct mass mass,
	struct length height, double *relative, struct err *err)
{
	struct interval got;

	TRY(lab_blows(blows, &got, err));
	TRY(check_not_negative((struct check){"division.mass",
				       N_("scale's division"), mass.kg, "kg"},
		err));
	TRY(check_not_negative((struct check){"division.height",
				       N_("ruler's division"), height.m, "m"},
		err));
	*relative = sqrt(lab_square_of_reading(mass.kg, blows->mass.kg) +
		lab_square_of_reading(height.m, blows->height.m));
	return ERR_NONE;
}
