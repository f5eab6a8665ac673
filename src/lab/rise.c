/* rise.c - sorptivity from weighings. */
#include "lab/rise.h"

#include "core/check.h"
#include "lab/uncertainty.h"
#include "stats/linear.h"

#include <math.h>
#include <stdio.h>

static const double water_kg_m3 = 1000;

enum { LEAST_READINGS = 3, KEY_MAX = 48 };

static enum err_code
check_rise(const struct lab_rise *rise, struct err *err)
{
	char key[KEY_MAX];

	TRY(check_positive((struct check){"face", N_("face in the water"),
				   rise->face.m2, "m2"},
		err));
	if (rise->n_reading < LEAST_READINGS)
		return err_report(err, ERR_INPUT, "readings",
			"There are %zu weighings; a rate needs at least %d.",
			rise->n_reading, LEAST_READINGS);
	for (size_t i = 0; i < rise->n_reading; i++) {
		const struct lab_rise_reading *r = &rise->reading[i];
		double before_s = i > 0 ? rise->reading[i - 1].at.s : 0;

		(void)snprintf(key, sizeof key, "readings[%zu].t", i);
		TRY(check_not_negative(
			(struct check){key, "time", r->at.s, "s"}, err));
		if (r->at.s < before_s)
			return err_report(err, ERR_INPUT, key,
				"The weighing at %g s comes after one at %g s; "
				"give them in order of time.",
				r->at.s, before_s);
		(void)snprintf(key, sizeof key, "readings[%zu].mass", i);
		TRY(check_positive(
			(struct check){key, "mass", r->mass.kg, "kg"}, err));
		if (r->mass.kg < rise->reading[0].mass.kg)
			return err_report(err, ERR_INPUT, key,
				"The piece weighs %g kg, less than the %g kg "
				"before it stood in water.",
				r->mass.kg, rise->reading[0].mass.kg);
	}
	if (rise->reading[rise->n_reading - 1].at.s <= rise->reading[0].at.s)
		return err_report(err, ERR_INPUT, "readings",
			"All weighings are of the same moment; a rate needs "
			"time between them.");
	return ERR_NONE;
}

enum err_code
lab_rise(struct arena *arena, const struct lab_rise *rise,
	struct lab_risen *out, struct err *err)
{
	size_t n = rise->n_reading;
	struct stats_linear line;
	double *root, *depth_m;

	TRY(check_rise(rise, err));
	root = arena_take(arena, n, sizeof *root);
	depth_m = arena_take(arena, n, sizeof *depth_m);
	if (root == NULL || depth_m == NULL)
		return err_memory(err);
	for (size_t i = 0; i < n; i++) {
		root[i] = sqrt(rise->reading[i].at.s);
		depth_m[i] = (rise->reading[i].mass.kg -
				     rise->reading[0].mass.kg) /
			(rise->face.m2 * water_kg_m3);
	}
	TRY(stats_linear_fit(arena, root, n, 1, depth_m, true, &line, err));
	*out = (struct lab_risen){
		.sorptivity_m_per_root_s = line.coefficient[1],
		.standard_error = line.standard_error[1],
		.offset.m = line.coefficient[0],
		.r_squared = line.has_r_squared ? line.r_squared : 0,
		.total.kg = rise->reading[n - 1].mass.kg -
			rise->reading[0].mass.kg,
		.water_kg_m2_root_s = line.coefficient[1] * water_kg_m3,
	};
	return ERR_NONE;
}

/* The sum of squares of the roots of time about their mean. */
static double
spread_of_roots(const struct lab_rise *rise)
{
	double mean = 0, square = 0;

	for (size_t i = 0; i < rise->n_reading; i++)
		mean += sqrt(rise->reading[i].at.s) / (double)rise->n_reading;
	for (size_t i = 0; i < rise->n_reading; i++) {
		double off = sqrt(rise->reading[i].at.s) - mean;

		square += off * off;
	}
	return square;
}

enum err_code
lab_rise_uncertainty(struct arena *arena, const struct lab_rise *rise,
	const struct lab_rise_division *division, double *relative,
	struct err *err)
{
	struct lab_risen got;
	double slope_u;

	TRY(lab_rise(arena, rise, &got, err));
	TRY(check_not_negative(
		(struct check){"division.mass", N_("scale's division"),
			division->mass.kg, "kg"},
		err));
	TRY(check_not_negative(
		(struct check){"division.side", N_("ruler's division"),
			division->side.m, "m"},
		err));
	if (!(got.water_kg_m2_root_s > 0))
		return err_report(err, ERR_NUMERIC, "readings",
			"The piece drew up no water; a share of nothing says "
			"nothing.");
	slope_u = lab_of_division(division->mass.kg) /
		(rise->face.m2 * sqrt(spread_of_roots(rise)));
	/* two sides make the face */
	*relative = sqrt(pow(slope_u / got.water_kg_m2_root_s, 2) +
		2 *
			lab_square_of_reading(
				division->side.m, sqrt(rise->face.m2)));
	return ERR_NONE;
}
