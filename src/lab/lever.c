/* lever.c - moments about a lever's pivot. */
#include "lab/lever.h"

#include "core/check.h"

static enum err_code
check_lever(const struct lab_lever *lever, struct err *err)
{
	const struct check positive[] = {
		{"arm_hung", N_("arm of the hung mass"), lever->arm_hung.m,
			"m"},
		{"arm_piece", N_("arm of the piece"), lever->arm_piece.m, "m"},
	};

	TRY(CHECK_ALL_POSITIVE(positive, err));
	TRY(check_not_negative((struct check){"beam", N_("lever's own mass"),
				       lever->beam.kg, "kg"},
		err));
	return check_not_negative(
		(struct check){"arm_beam", N_("arm of the lever's own mass"),
			lever->arm_beam.m, "m"},
		err);
}

static double
own_moment_N_m(const struct lab_lever *lever)
{
	return lever->beam.kg * lever->arm_beam.m * gravity_m_s2;
}

enum err_code
lab_lever_force(
	const struct lab_lever *lever, struct force *out, struct err *err)
{
	double moment_N_m;

	TRY(check_lever(lever, err));
	TRY(check_not_negative(
		(struct check){"hung", N_("hung mass"), lever->hung.kg, "kg"},
		err));
	moment_N_m = lever->hung.kg * lever->arm_hung.m * gravity_m_s2 +
		own_moment_N_m(lever);
	if (moment_N_m <= 0)
		return err_report(err, ERR_INPUT, "hung",
			"Nothing hangs on the lever and it has no weight of "
			"its own, so it does not press.");
	out->N = moment_N_m / lever->arm_piece.m;
	return ERR_NONE;
}

enum err_code
lab_lever_hung(const struct lab_lever *lever, struct force force,
	struct mass *out, struct err *err)
{
	double left_N_m;

	TRY(check_lever(lever, err));
	TRY(check_positive(
		(struct check){"force", N_("force"), force.N, "N"}, err));
	left_N_m = force.N * lever->arm_piece.m - own_moment_N_m(lever);
	if (left_N_m < 0)
		return err_report(err, ERR_INPUT, "force",
			"The lever alone presses with %g N, more than the %g N "
			"asked for; hang it nearer or lighten it.",
			own_moment_N_m(lever) / lever->arm_piece.m, force.N);
	out->kg = left_N_m / (lever->arm_hung.m * gravity_m_s2);
	return ERR_NONE;
}
