/* flexure.c - moments and bending strength of a beam on two supports. */
#include "lab/flexure.h"

#include "core/check.h"
#include "lab/uncertainty.h"

#include <math.h>
#include <stddef.h>

/* ASTM C78: a break this share of the span outside the middle third still
 * counts; farther out the test is void. */
static const double outside_share = 0.05;

static enum err_code
check_sizes(const struct lab_flexure *f, struct err *err)
{
	const struct check size[] = {
		{"span", N_("span"), f->span.m, "m"},
		{"width", N_("width"), f->width.m, "m"},
		{"depth", N_("depth"), f->depth.m, "m"},
	};

	for (size_t i = 0; i < sizeof size / sizeof size[0]; i++)
		TRY(check_positive(size[i], err));
	TRY(check_not_negative(
		(struct check){"strap", N_("strap's width"), f->strap.m, "m"},
		err));
	if (f->loading == LAB_CENTRE && f->strap.m > f->span.m)
		return err_report(err, ERR_INPUT, "strap",
			"The strap is %g m wide, more than the span of %g m; "
			"it must lie between the supports.",
			f->strap.m, f->span.m);
	return ERR_NONE;
}

static enum err_code
check_weights(const struct lab_flexure *f, struct err *err)
{
	const struct check held = {"held", "weight held", f->held.kg, "kg"};
	const struct check on_rig = {
		"on_rig", "mass lying on the rig", f->on_rig.kg, "kg"};

	TRY(check_not_negative(held, err));
	TRY(check_not_negative(on_rig, err));
	if (!f->did_break)
		return ERR_NONE;
	TRY(check_not_negative(
		(struct check){"broke_at", N_("weight that broke it"),
			f->broke_at.kg, "kg"},
		err));
	if (f->broke_at.kg < f->held.kg)
		return err_report(err, ERR_INPUT, "broke_at",
			"It broke at %g kg but had held %g kg; the weight that "
			"broke it must be at least the last one it held.",
			f->broke_at.kg, f->held.kg);
	if (f->broke_at.kg + f->on_rig.kg <= 0)
		return err_report(err, ERR_INPUT, "broke_at",
			"It broke under no weight at all; give the weight that "
			"broke it, or the mass of the hanger as on_rig.");
	return ERR_NONE;
}

static enum err_code
check_beam(const struct lab_flexure *f, struct err *err)
{
	if (!f->has_beam)
		return ERR_NONE;
	TRY(check_positive((struct check){"beam_mass", N_("beam's mass"),
				   f->beam_mass.kg, "kg"},
		err));
	TRY(check_positive((struct check){"beam_length", N_("beam's length"),
				   f->beam_length.m, "m"},
		err));
	if (f->span.m > f->beam_length.m)
		return err_report(err, ERR_INPUT, "span",
			"The span of %g m is longer than the beam of %g m; it "
			"is measured between the supports.",
			f->span.m, f->beam_length.m);
	return ERR_NONE;
}

static enum err_code
check_crack(const struct lab_flexure *f, struct err *err)
{
	double third = f->span.m / 3;
	double least = third - outside_share * f->span.m;

	if (f->loading != LAB_THIRD || !f->has_crack)
		return ERR_NONE;
	TRY(check_positive(
		(struct check){"crack", N_("distance from break to support"),
			f->crack.m, "m"},
		err));
	if (f->crack.m < least || f->crack.m > f->span.m / 2)
		return err_report(err, ERR_INPUT, "crack",
			"It broke %g m from the nearer support; between %.4g "
			"and %.4g m the test counts, nearer to the support it "
			"is void (ASTM C78).",
			f->crack.m, least, f->span.m / 2);
	return ERR_NONE;
}

/* The moment that each newton on the rig makes where the beam broke. */
static double
moment_per_N(const struct lab_flexure *f)
{
	switch (f->loading) {
	case LAB_CENTRE:
		return f->span.m / 4 - f->strap.m / 8;
	case LAB_THIRD:
		break;
	}
	if (f->has_crack && f->crack.m < f->span.m / 3)
		return f->crack.m / 2;
	return f->span.m / 6;
}

static struct interval
load_between(const struct lab_flexure *f)
{
	struct interval load_N = {
		.low = (f->held.kg + f->on_rig.kg) * gravity_m_s2,
		.high = (double)INFINITY,
	};

	if (!f->did_break)
		return load_N;
	load_N.high = (f->broke_at.kg + f->on_rig.kg) * gravity_m_s2;
	if (f->held.kg <= 0 && f->broke_at.kg <= 0)
		load_N.low = 0; /* not even the hanger was held */
	return load_N;
}

/* w (L^2/8 - a^2/2): the own weight's moment in the middle, derived. */
static double
own_moment_N_m(const struct lab_flexure *f)
{
	double weight_N_per_m = f->beam_mass.kg * gravity_m_s2 /
		f->beam_length.m;
	double overhang_m = (f->beam_length.m - f->span.m) / 2;

	return weight_N_per_m *
		(f->span.m * f->span.m / 8 - overhang_m * overhang_m / 2);
}

enum err_code
lab_flexure(
	const struct lab_flexure *f, struct lab_flexed *out, struct err *err)
{
	struct lab_flexed got = {.has_self_weight = f->has_beam};
	double arm_m, modulus_m3;

	TRY(check_sizes(f, err));
	TRY(check_weights(f, err));
	TRY(check_beam(f, err));
	TRY(check_crack(f, err));
	arm_m = moment_per_N(f);
	modulus_m3 = f->width.m * f->depth.m * f->depth.m / 6;
	got.load_N = load_between(f);
	got.moment_N_m.low = got.load_N.low * arm_m;
	got.moment_N_m.high = got.load_N.high * arm_m;
	got.rupture_Pa.low = got.moment_N_m.low / modulus_m3;
	got.rupture_Pa.high = got.moment_N_m.high / modulus_m3;
	if (f->has_beam) {
		double own_Pa;

		got.self_weight.N_m = own_moment_N_m(f);
		own_Pa = got.self_weight.N_m / modulus_m3;
		got.rupture_with_self_weight_Pa.low = fmax(
			0, got.rupture_Pa.low + own_Pa);
		got.rupture_with_self_weight_Pa.high = fmax(
			0, got.rupture_Pa.high + own_Pa);
	}
	*out = got;
	return ERR_NONE;
}

static enum err_code
check_division(const struct lab_flexure_division *d, struct err *err)
{
	const struct check division[] = {
		{"division.span", N_("ruler's division"), d->span.m, "m"},
		{"division.width", N_("ruler's division"), d->width.m, "m"},
		{"division.depth", N_("ruler's division"), d->depth.m, "m"},
		{"division.weight", N_("scale's division"), d->weight.kg, "kg"},
	};

	for (size_t i = 0; i < sizeof division / sizeof division[0]; i++)
		TRY(check_not_negative(division[i], err));
	return ERR_NONE;
}

static const char *const improve[LAB_FLEXURE_SOURCES] = {
	[LAB_FROM_SPAN] = "The span leaves most open: measure it more finely, "
			  "or use a longer one.",
	[LAB_FROM_WIDTH] = "The width leaves most open: measure it at the "
			   "break with a calliper.",
	[LAB_FROM_DEPTH] = "The depth leaves most open, for it counts twice: "
			   "measure it at the break with a calliper.",
	[LAB_FROM_WEIGHT] = "The scale leaves most open: weigh the bucket on "
			    "a finer one.",
	[LAB_FROM_STEP] = "The step between the weights leaves most open: "
			  "take smaller ones from 70 % of the expected load "
			  "on.",
};

/* d ln(M) / d ln(L): 1 but for the strap's share of the arm. */
static double
span_power(const struct lab_flexure *f)
{
	return f->loading == LAB_CENTRE ? (f->span.m / 4) / moment_per_N(f) : 1;
}

static double
part_of_step(const struct interval *load_N)
{
	double mean_N = (load_N->low + load_N->high) / 2;

	return lab_of_division(load_N->high - load_N->low) / mean_N;
}

enum err_code
lab_flexure_budget(const struct lab_flexure *f,
	const struct lab_flexure_division *division,
	struct lab_flexure_budget *out, struct err *err)
{
	static const double depth_power = 2; /* the depth enters squared */
	struct lab_flexure_budget got = {.worst = LAB_FROM_SPAN};
	struct lab_flexed flexed;
	double weight_kg;

	TRY(lab_flexure(f, &flexed, err));
	TRY(check_division(division, err));
	weight_kg = (f->did_break ? f->broke_at.kg : f->held.kg) + f->on_rig.kg;
	if (weight_kg <= 0)
		return err_report(err, ERR_INPUT, "held",
			"With no weight on the rig its reading has no relative "
			"uncertainty.");
	got.part[LAB_FROM_SPAN] = span_power(f) *
		lab_of_division(division->span.m) / f->span.m;
	got.part[LAB_FROM_WIDTH] = lab_of_division(division->width.m) /
		f->width.m;
	got.part[LAB_FROM_DEPTH] = depth_power *
		lab_of_division(division->depth.m) / f->depth.m;
	got.part[LAB_FROM_WEIGHT] = lab_of_division(division->weight.kg) /
		weight_kg;
	got.has_step = f->did_break && flexed.load_N.low > 0;
	if (got.has_step)
		got.part[LAB_FROM_STEP] = part_of_step(&flexed.load_N);
	for (int i = 0; i < LAB_FLEXURE_SOURCES; i++)
		if (got.part[i] > got.part[got.worst])
			got.worst = (enum lab_flexure_source)i;
	got.sentence = got.part[got.worst] > 0
		? improve[got.worst]
		: "No division was given and no step, so nothing is left open.";
	*out = got;
	return ERR_NONE;
}

enum err_code
lab_flexure_uncertainty(const struct lab_flexure *f,
	const struct lab_flexure_division *division, double *relative,
	struct err *err)
{
	struct lab_flexure_budget budget;
	double square = 0;

	TRY(lab_flexure_budget(f, division, &budget, err));
	for (int i = 0; i < LAB_FROM_STEP; i++)
		square += budget.part[i] * budget.part[i];
	*relative = sqrt(square);
	return ERR_NONE;
}
