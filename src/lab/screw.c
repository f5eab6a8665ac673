/* screw.c - the weakest of several pulls. */
#include "lab/screw.h"

#include "core/check.h"
#include "lab/uncertainty.h"

#include <math.h>
#include <stdio.h>

static const double pi = 3.14159265358979323846;

enum { KEY_MAX = 48 };

static enum err_code
check_screw(const struct lab_screw *s, struct err *err)
{
	const struct check size[] = {
		{"diameter", N_("screw's diameter"), s->diameter.m, "m"},
		{"depth", N_("depth of the thread"), s->depth.m, "m"},
	};
	char key[KEY_MAX];

	TRY(CHECK_ALL_POSITIVE(size, err));
	if (!(isfinite(s->safety) && s->safety > 1))
		return err_report(err, ERR_INPUT, "safety",
			"A safety factor of %g leaves nothing in hand; it must "
			"be above 1, and %g is customary.",
			s->safety, lab_screw_safety);
	if (s->n_pull == 0)
		return err_report(err, ERR_INPUT, "pulls",
			"No screw was pulled; give at least one pull.");
	for (size_t i = 0; i < s->n_pull; i++) {
		struct interval pull = s->pull_N[i];

		(void)snprintf(key, sizeof key, "pulls[%zu]", i);
		TRY(check_not_negative(
			(struct check){key, "pull held", pull.low, "N"}, err));
		if (!(pull.high >= pull.low) || pull.high <= 0)
			return err_report(err, ERR_INPUT, key,
				"It held %g N and came out at %g N; the second "
				"must be above 0 and not below the first.",
				pull.low, pull.high);
	}
	return ERR_NONE;
}

enum err_code
lab_screw(const struct lab_screw *s, struct lab_screwed *out, struct err *err)
{
	struct interval least = {(double)INFINITY, (double)INFINITY};
	double cylinder_m2;

	TRY(check_screw(s, err));
	for (size_t i = 0; i < s->n_pull; i++) {
		least.low = fmin(least.low, s->pull_N[i].low);
		least.high = fmin(least.high, s->pull_N[i].high);
	}
	cylinder_m2 = pi * s->diameter.m * s->depth.m;
	out->least_N = least;
	out->shear_Pa.low = least.low / cylinder_m2;
	out->shear_Pa.high = least.high / cylinder_m2;
	out->working.N = least.low / s->safety;
	return ERR_NONE;
}

enum err_code
lab_screw_uncertainty(const struct lab_screw *s,
	const struct lab_screw_division *division, double *relative,
	struct err *err)
{
	const struct check each[] = {
		{"division.force", N_("scale's division"), division->force.N,
			"N"},
		{"division.diameter", N_("calliper's division"),
			division->diameter.m, "m"},
		{"division.depth", N_("ruler's division"), division->depth.m,
			"m"},
	};
	struct lab_screwed got;
	double force_N;

	TRY(lab_screw(s, &got, err));
	for (size_t i = 0; i < sizeof each / sizeof each[0]; i++)
		TRY(check_not_negative(each[i], err));
	force_N = isfinite(got.least_N.high) ? got.least_N.high
					     : got.least_N.low;
	*relative = sqrt(lab_square_of_reading(division->force.N, force_N) +
		lab_square_of_reading(division->diameter.m, s->diameter.m) +
		lab_square_of_reading(division->depth.m, s->depth.m));
	return ERR_NONE;
}
