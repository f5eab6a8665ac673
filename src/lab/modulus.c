/* modulus.c - modulus of elasticity of a beam on two supports. */
#include "lab/modulus.h"

#include "core/check.h"
#include "lab/uncertainty.h"

#include <math.h>

/* Sag in the middle P L^3 / (E I) times this, and the shear factors. */
static const double centre_sag = 1.0 / 48, third_sag = 23.0 / 1296;
static const double centre_shear = 12.0 / 5, third_shear = 216.0 / 115;
static const double most_poisson = 0.5;

enum { LOAD, SPAN, WIDTH, DEPTH, SAG, N_READING };

static double
modulus_of(const double *x, const void *context)
{
	const struct lab_modulus *m = context;
	bool centre = m->loading == LAB_CENTRE;
	double inertia_m4 = x[WIDTH] * pow(x[DEPTH], 3) / 12;
	double slim = x[DEPTH] / x[SPAN];
	double bending_Pa = (centre ? centre_sag : third_sag) * x[LOAD] *
		pow(x[SPAN], 3) / (inertia_m4 * x[SAG]);

	if (!m->with_shear)
		return bending_Pa;
	return bending_Pa *
		(1 +
			(centre ? centre_shear : third_shear) *
				(1 + m->poisson_ratio) * slim * slim);
}

static void
list_readings(const struct lab_modulus *m, double x[N_READING])
{
	x[LOAD] = m->load.N;
	x[SPAN] = m->span.m;
	x[WIDTH] = m->width.m;
	x[DEPTH] = m->depth.m;
	x[SAG] = m->deflection.m;
}

enum err_code
lab_modulus(const struct lab_modulus *m, struct stress *out, struct err *err)
{
	const struct check positive[] = {
		{"span", N_("span"), m->span.m, "m"},
		{"width", N_("width"), m->width.m, "m"},
		{"depth", N_("depth"), m->depth.m, "m"},
		{"load", N_("load"), m->load.N, "N"},
		{"deflection", N_("deflection"), m->deflection.m, "m"},
	};
	double x[N_READING];

	TRY(CHECK_ALL_POSITIVE(positive, err));
	if (m->with_shear)
		TRY(check_between(
			(struct check){"poisson", N_("Poisson's ratio"),
				m->poisson_ratio, ""},
			0, most_poisson, err));
	list_readings(m, x);
	out->Pa = modulus_of(x, m);
	return ERR_NONE;
}

enum err_code
lab_modulus_uncertainty(const struct lab_modulus *m,
	const struct lab_modulus_division *division, double *relative,
	struct err *err)
{
	double x[N_READING], u[N_READING], uncertainty_Pa;
	struct stress modulus;

	TRY(lab_modulus(m, &modulus, err));
	list_readings(m, x);
	u[LOAD] = lab_of_division(division->load.N);
	u[SPAN] = lab_of_division(division->span.m);
	u[WIDTH] = lab_of_division(division->width.m);
	u[DEPTH] = lab_of_division(division->depth.m);
	u[SAG] = lab_of_division(division->deflection.m);
	if (u[SAG] >= x[SAG])
		return err_report(err, ERR_NUMERIC, "deflection",
			"The sag of %g m cannot be told from 0 with a division "
			"of %g m; read it more finely or load more.",
			x[SAG], division->deflection.m);
	TRY(lab_propagate(
		modulus_of, m, x, u, N_READING, &uncertainty_Pa, err));
	*relative = uncertainty_Pa / modulus.Pa;
	return ERR_NONE;
}
