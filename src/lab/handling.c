/* handling.c - bending of a lifted piece under its own weight. */
#include "lab/handling.h"

#include "core/check.h"
#include "lab/uncertainty.h"

#include <math.h>

static const double most_jerk = 5;

static enum err_code
check_handling(const struct lab_handling *h, struct err *err)
{
	const struct check positive[] = {
		{"length", N_("length"), h->length.m, "m"},
		{"width", N_("width"), h->width.m, "m"},
		{"depth", N_("depth"), h->depth.m, "m"},
		{"density", N_("density"), h->density.kg_m3, "kg/m3"},
	};

	TRY(CHECK_ALL_POSITIVE(positive, err));
	if (h->grip == LAB_GRIP_INNER &&
		!(h->inner_share > 0 && h->inner_share < 0.5))
		return err_report(err, ERR_INPUT, "inner_share",
			"The lifting points lie %g of the length from the "
			"ends; it must be between 0 and 0.5.",
			h->inner_share);
	return check_between(
		(struct check){"jerk", N_("jerk factor"), h->jerk, ""}, 1,
		most_jerk, err);
}

/* The largest moment as a share of w L^2. */
static double
moment_share(const struct lab_handling *h)
{
	double a = h->inner_share;

	switch (h->grip) {
	case LAB_GRIP_INNER:
		return fmax(a * a / 2, (1 - 4 * a) / 8);
	case LAB_GRIP_ENDS:
	case LAB_GRIP_MIDDLE:
		break;
	}
	return 1.0 / 8;
}

enum err_code
lab_handling(
	const struct lab_handling *h, struct lab_handled *out, struct err *err)
{
	struct lab_handled got;

	TRY(check_handling(h, err));
	got.weight_N_per_m = h->density.kg_m3 * gravity_m_s2 * h->width.m *
		h->depth.m;
	got.moment.N_m = moment_share(h) * got.weight_N_per_m * h->length.m *
		h->length.m * h->jerk;
	got.stress.Pa = 6 * got.moment.N_m /
		(h->width.m * h->depth.m * h->depth.m);
	*out = got;
	return ERR_NONE;
}

/* Weight density * L^2/depth; the piece weighed itself, mass * L/(width
 * depth^2). */
enum err_code
lab_handling_uncertainty(const struct lab_handling *h, struct mass weighed,
	const struct lab_handling_division *division, double *relative,
	struct err *err)
{
	const struct check each[] = {
		{"division.density", N_("division of the density"),
			division->density.kg_m3, "kg/m3"},
		{"division.mass", N_("scale's division"), division->mass.kg,
			"kg"},
		{"division.side", N_("ruler's division"), division->side.m,
			"m"},
	};
	double side_m = division->side.m;
	double by_length = lab_square_of_reading(side_m, h->length.m);
	double by_width = lab_square_of_reading(side_m, h->width.m);
	double by_depth = lab_square_of_reading(side_m, h->depth.m);
	struct lab_handled got;

	TRY(lab_handling(h, &got, err));
	for (size_t i = 0; i < sizeof each / sizeof each[0]; i++)
		TRY(check_not_negative(each[i], err));
	if (weighed.kg > 0)
		*relative = sqrt(
			lab_square_of_reading(division->mass.kg, weighed.kg) +
			by_length + by_width + 4 * by_depth);
	else
		*relative = sqrt(lab_square_of_reading(division->density.kg_m3,
					 h->density.kg_m3) +
			4 * by_length + by_depth);
	return ERR_NONE;
}
