/* ground.c - Westergaard's slab. */
#include "choose/ground.h"

#include "core/check.h"

#include <math.h>

static const double pi = 3.14159265358979323846;
static const double euler_gamma = 0.57721566490153286061;
static const double most_poisson = 0.49;

struct length
choose_ground_radius(struct length thickness, struct length load_radius)
{
	static const double small = 1.724, spread = 1.6, taken = 0.675;
	double h = thickness.m, a = load_radius.m;

	if (a >= small * h)
		return load_radius;
	return (struct length){sqrt(spread * a * a + h * h) - taken * h};
}

static enum err_code
check_ground(const struct choose_ground *g, struct err *err)
{
	const struct check positive[] = {
		{"load", N_("load"), g->load.N, "N"},
		{"radius", N_("radius of the loaded circle"), g->radius.m, "m"},
		{"thickness", N_("thickness"), g->thickness.m, "m"},
		{"modulus", N_("modulus of elasticity"), g->modulus.Pa, "Pa"},
		{"subgrade", N_("reaction of the ground"), g->subgrade_Pa_m,
			"Pa/m"},
	};

	TRY(CHECK_ALL_POSITIVE(positive, err));
	return check_between((struct check){"poisson", N_("Poisson's ratio"),
				     g->poisson_ratio, ""},
		0, most_poisson, err);
}

enum err_code
choose_ground(const struct choose_ground *g, struct choose_grounded *out,
	struct err *err)
{
	struct choose_grounded got;
	double h, a, l, nu, ratio, corner;

	TRY(check_ground(g, err));
	h = g->thickness.m;
	a = g->radius.m;
	nu = g->poisson_ratio;
	l = pow(g->modulus.Pa * h * h * h /
			(12 * (1 - nu * nu) * g->subgrade_Pa_m),
		0.25);
	if (a > l / 2)
		return err_report(err, ERR_INPUT, "radius",
			"The load spreads over a radius of %g m and the slab "
			"over %g m; the formulas hold up to half of that.",
			a, l);
	got.stiffness.m = l;
	got.equivalent = choose_ground_radius(g->thickness, g->radius);
	got.inside.Pa = 3 * g->load.N * (1 + nu) / (2 * pi * h * h) *
		(log(l / got.equivalent.m) + log(2) + 0.5 - euler_gamma);
	ratio = a / l;
	got.inside_sag.m = g->load.N / (8 * g->subgrade_Pa_m * l * l) *
		(1 + (log(ratio / 2) - 0.673) * ratio * ratio / (2 * pi));
	corner = ratio * sqrt(2);
	got.corner.Pa = 3 * g->load.N / (h * h) * (1 - pow(corner, 0.6));
	got.corner_sag.m = g->load.N / (g->subgrade_Pa_m * l * l) *
		(1.1 - 0.88 * corner);
	*out = got;
	return ERR_NONE;
}
