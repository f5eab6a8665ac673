/* toughness.c - energy and residual strength from sag readings. */
#include "lab/toughness.h"

#include "core/check.h"
#include "lab/uncertainty.h"

#include <math.h>
#include <stdio.h>

/* ASTM C1609: sags at which residual strengths are taken. */
static const double early_share = 1.0 / 600, late_share = 1.0 / 150;

enum { KEY_MAX = 48 };

static const char *
sag_key(char key[KEY_MAX], size_t index, const char *what)
{
	(void)snprintf(key, KEY_MAX, "sags[%zu].%s", index, what);
	return key;
}

static enum err_code
check_sags(const struct lab_sag *sag, size_t n, struct err *err)
{
	char key[KEY_MAX];

	if (n == 0)
		return err_report(err, ERR_INPUT, "sags",
			"There is no reading of load and sag; give at least "
			"one.");
	for (size_t i = 0; i < n; i++) {
		double before_m = i > 0 ? sag[i - 1].deflection.m : 0;

		TRY(check_not_negative((struct check){sag_key(key, i, "load"),
					       "load", sag[i].load.N, "N"},
			err));
		TRY(check_not_negative(
			(struct check){sag_key(key, i, "deflection"), "sag",
				sag[i].deflection.m, "m"},
			err));
		if (sag[i].deflection.m < before_m)
			return err_report(err, ERR_INPUT,
				sag_key(key, i, "deflection"),
				"The sag goes back from %g to %g m; give the "
				"readings in the order of the sag.",
				before_m, sag[i].deflection.m);
	}
	return ERR_NONE;
}

/* The load at a sag, on the straight line between the readings around it. */
static double
load_at(const struct lab_sag *sag, size_t n, double at_m)
{
	struct lab_sag from = {{0}, {0}};

	for (size_t i = 0; i < n; i++) {
		double width_m = sag[i].deflection.m - from.deflection.m;

		if (sag[i].deflection.m >= at_m) {
			double share = width_m > 0
				? (at_m - from.deflection.m) / width_m
				: 1;

			return from.load.N +
				share * (sag[i].load.N - from.load.N);
		}
		from = sag[i];
	}
	return from.load.N;
}

static enum err_code
check_reach(
	const struct lab_sag *sag, size_t n, struct length to, struct err *err)
{
	TRY(check_positive(
		(struct check){"to", N_("sag to measure to"), to.m, "m"}, err));
	if (sag[n - 1].deflection.m < to.m)
		return err_report(err, ERR_INPUT, "sags",
			"The readings end at a sag of %g m; the energy is "
			"wanted up to %g m, so read on until then.",
			sag[n - 1].deflection.m, to.m);
	return ERR_NONE;
}

enum err_code
lab_area_under(const struct lab_sag *sag, size_t n, struct length to,
	struct energy *out, struct err *err)
{
	struct lab_sag from = {{0}, {0}};
	double area_J = 0;

	TRY(check_sags(sag, n, err));
	TRY(check_reach(sag, n, to, err));
	for (size_t i = 0; i < n && from.deflection.m < to.m; i++) {
		struct lab_sag end = sag[i];

		if (end.deflection.m > to.m) {
			end.load.N = load_at(sag, n, to.m);
			end.deflection = to;
		}
		area_J += (end.deflection.m - from.deflection.m) *
			(end.load.N + from.load.N) / 2;
		from = end;
	}
	out->J = area_J;
	return ERR_NONE;
}

static double
first_peak_N(const struct lab_sag *sag, size_t n, double up_to_m)
{
	double peak_N = load_at(sag, n, up_to_m);

	for (size_t i = 0; i < n && sag[i].deflection.m <= up_to_m; i++)
		peak_N = fmax(peak_N, sag[i].load.N);
	return peak_N;
}

enum err_code
lab_toughness(const struct lab_toughness *t, struct lab_toughened *out,
	struct err *err)
{
	const struct check positive[] = {
		{"span", N_("span"), t->span.m, "m"},
		{"width", N_("width"), t->width.m, "m"},
		{"depth", N_("depth"), t->depth.m, "m"},
	};
	struct lab_toughened got;
	struct length late;
	double square_m3, per_N;

	TRY(CHECK_ALL_POSITIVE(positive, err));
	late.m = t->span.m * late_share;
	TRY(lab_area_under(t->sag, t->n_sag, late, &got.t_150, err));
	square_m3 = t->width.m * t->depth.m * t->depth.m;
	per_N = t->span.m / square_m3;
	got.f_peak.Pa = per_N *
		first_peak_N(t->sag, t->n_sag, t->span.m * early_share);
	if (got.f_peak.Pa <= 0)
		return err_report(err, ERR_INPUT, "sags",
			"No load was read up to a sag of %g m, so there is no "
			"first crack to compare with.",
			t->span.m * early_share);
	got.f_600.Pa = per_N *
		load_at(t->sag, t->n_sag, t->span.m * early_share);
	got.f_150.Pa = per_N * load_at(t->sag, t->n_sag, late.m);
	got.equivalent.Pa = got.t_150.J * t->span.m / (late.m * square_m3);
	got.r_150_ratio = got.t_150.J /
		(late_share * got.f_peak.Pa * square_m3);
	*out = got;
	return ERR_NONE;
}

static enum err_code
check_interval(
	const char *key, const char *name, struct interval x, struct err *err)
{
	TRY(check_not_negative((struct check){key, name, x.low, "N"}, err));
	if (!(x.high >= x.low))
		return err_report(err, ERR_INPUT, key,
			"The %s goes from %g to %g N; the upper end must not "
			"be below the lower one.",
			name, x.low, x.high);
	return ERR_NONE;
}

enum err_code
lab_residual_ratio(struct interval first_crack_N, struct interval after_N,
	struct interval *out, struct err *err)
{
	TRY(check_interval(
		"first_crack", "load at the first crack", first_crack_N, err));
	TRY(check_interval("after", "load held after the crack", after_N, err));
	if (first_crack_N.high <= 0)
		return err_report(err, ERR_INPUT, "first_crack",
			"The first crack came at no load at all; a ratio to "
			"nothing says nothing.");
	out->low = isinf(first_crack_N.high) ? 0
					     : after_N.low / first_crack_N.high;
	out->high = first_crack_N.low > 0 && isfinite(after_N.high)
		? after_N.high / first_crack_N.low
		: (double)INFINITY;
	return ERR_NONE;
}

/* The squares of what each reading changes the trapezoids by. */
static double
area_square(const struct lab_sag *sag, size_t n, double load_u, double sag_u)
{
	struct lab_sag before = {{0}, {0}};
	double square = 0;

	for (size_t i = 0; i < n; i++) {
		bool is_last = i + 1 == n;
		struct lab_sag after = is_last ? sag[i] : sag[i + 1];
		/* the last one ends the area: what is beyond it counts not */
		double by_load = (after.deflection.m - before.deflection.m) / 2;
		double by_sag = is_last ? (before.load.N + sag[i].load.N) / 2
					: (before.load.N - after.load.N) / 2;

		square += pow(by_load * load_u, 2) + pow(by_sag * sag_u, 2);
		before = sag[i];
	}
	return square;
}

enum err_code
lab_area_uncertainty(const struct lab_sag *sag, size_t n,
	const struct lab_sag_division *division, double *relative,
	struct err *err)
{
	struct energy area;

	TRY(check_sags(sag, n, err));
	TRY(lab_area_under(sag, n, sag[n - 1].deflection, &area, err));
	TRY(check_not_negative(
		(struct check){"division.load", N_("division of the load"),
			division->load.N, "N"},
		err));
	TRY(check_not_negative(
		(struct check){"division.deflection", N_("division of the sag"),
			division->deflection.m, "m"},
		err));
	if (!(area.J > 0))
		return err_report(err, ERR_NUMERIC, "sags",
			"No energy was taken up; a share of nothing says "
			"nothing.");
	*relative = sqrt(area_square(sag, n, lab_of_division(division->load.N),
			    lab_of_division(division->deflection.m))) /
		area.J;
	return ERR_NONE;
}
