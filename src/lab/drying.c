/* drying.c - drying of a flat piece, fitted to weighings. */
#include "lab/drying.h"

#include "stats/nonlinear.h"

#include <math.h>

/* Below this x the law of a thick piece holds to 1e-20, above it few terms of
 * the series do. */
static const double thick_until = 0.05;

enum { TERMS = 20 };

double
lab_drying_left(double x)
{
	double sum = 0;

	if (x < thick_until)
		return 1 - 4 * sqrt(x / (M_PI * M_PI * M_PI));
	for (int i = 0; i < TERMS; i++) {
		double n = 2 * i + 1;

		sum += exp(-n * n * x) / (n * n);
	}
	return 8 / (M_PI * M_PI) * sum;
}

/* d left / dx, below 0. */
static double
slope_of_left(double x)
{
	double sum = 0;

	if (x < thick_until)
		return -2 / sqrt(M_PI * M_PI * M_PI * x);
	for (int i = 0; i < TERMS; i++) {
		double n = 2 * i + 1;

		sum += exp(-n * n * x);
	}
	return -8 / (M_PI * M_PI) * sum;
}

/* The x at which this share, between 0 and 1, is left. */
static double
x_of_left(double left)
{
	const double most = 700; /* exp(-most) is still a number */
	double low = 0, high = most;

	for (int i = 0; i < 200 && high - low > 1e-15 * high; i++) {
		double x = low + (high - low) / 2;

		if (lab_drying_left(x) > left)
			low = x;
		else
			high = x;
	}
	return high;
}

/* Parameters: end, water and log of the rate; or, to have the error of the
 * forecast itself, end, water and log of the time that is asked for. */
struct fitting {
	const struct lab_drying *d;
	bool by_when;
};

static double
wanted_mass(const struct lab_drying *d, double end_kg)
{
	return (d->has_dry_mass ? d->dry_mass.kg : end_kg) *
		(1 + d->moisture_ratio);
}

static bool
curve(const void *data, size_t row, const long double *b, long double *value,
	long double *slope)
{
	const struct fitting *fit = data;
	double end = (double)b[0], water = (double)b[1];
	double t = fit->d->reading[row].at.s, rate = exp((double)b[2]);
	double left, down, of_left = 0, x;

	if (fit->by_when) {
		double share = (wanted_mass(fit->d, end) - end) / water;

		if (!(share > 0 && share < 1))
			return false;
		of_left = x_of_left(share);
		rate = of_left / exp((double)b[2]);
	}
	x = rate * t;
	left = lab_drying_left(x);
	down = t > 0 ? water * slope_of_left(x) * x : 0; /* by log rate */
	*value = end + water * left;
	if (slope != NULL) {
		slope[0] = 1;
		slope[1] = left;
		slope[2] = fit->by_when ? -down : down;
	}
	if (slope != NULL && fit->by_when) {
		double share = lab_drying_left(of_left);
		double log_rate_by_share = 1 /
			(slope_of_left(of_left) * of_left);
		double by_end = fit->d->has_dry_mass ? -1
						     : fit->d->moisture_ratio;

		slope[0] += down * log_rate_by_share * by_end / water;
		slope[1] -= down * log_rate_by_share * share / water;
	}
	return isfinite((double)*value);
}

static enum err_code
check(const struct lab_drying *d, struct err *err)
{
	const struct lab_drying_reading *r = d->reading;
	size_t n = d->n_reading;

	if (n < LAB_DRYING_LEAST)
		return err_report(err, ERR_INPUT, "readings",
			"%zu weighings say nothing of where drying ends; it "
			"takes %d.",
			n, (int)LAB_DRYING_LEAST);
	for (size_t i = 0; i < n; i++)
		if (!(r[i].mass.kg > 0) || !(r[i].at.s >= 0) ||
			(i > 0 && !(r[i].at.s > r[i - 1].at.s)))
			return err_report(err, ERR_INPUT, "readings",
				"Weighing %zu is not later than the one before "
				"or weighs nothing.",
				i + 1);
	if (!(r[n - 1].mass.kg < r[0].mass.kg))
		return err_report(err, ERR_INPUT, "readings",
			"The piece has lost no water from first to last.");
	if (!(d->moisture_ratio > 0))
		return err_report(err, ERR_INPUT, "moisture",
			"A wanted moisture is more than 0.");
	for (size_t i = 0; i < n && d->has_dry_mass; i++)
		if (!(d->dry_mass.kg > 0) || d->dry_mass.kg > r[i].mass.kg)
			return err_report(err, ERR_INPUT, "dry_mass",
				"The dry mass is more than 0 and no more than "
				"weighing %zu.",
				i + 1);
	return ERR_NONE;
}

static enum err_code
fit_to(struct arena *arena, const struct fitting *fit, const double start[3],
	struct stats_nonlinear *got, struct err *err)
{
	double *mass = arena_take(arena, fit->d->n_reading, sizeof *mass);
	const struct stats_nonlinear_ask ask = {.curve = curve,
		.data = fit,
		.y = mass,
		.n_row = fit->d->n_reading,
		.n_parameter = 3,
		.start = start};

	if (mass == NULL)
		return err_memory(err);
	for (size_t i = 0; i < fit->d->n_reading; i++)
		mass[i] = fit->d->reading[i].mass.kg;
	return stats_nonlinear_fit(arena, &ask, got, err);
}

enum err_code
lab_drying(struct arena *arena, const struct lab_drying *d,
	struct lab_dried *out, struct err *err)
{
	struct fitting fit = {.d = d};
	struct stats_nonlinear got;
	double start[3], lost, share;
	size_t last = d->n_reading - 1;

	TRY(check(d, err));
	lost = d->reading[0].mass.kg - d->reading[last].mass.kg;
	start[0] = d->reading[last].mass.kg - 0.2 * lost;
	start[1] = 1.2 * lost;
	start[2] = log(1.5 / d->reading[last].at.s);
	TRY(fit_to(arena, &fit, start, &got, err));
	start[0] = got.parameter[0];
	start[1] = got.parameter[1];
	share = (wanted_mass(d, start[0]) - start[0]) / start[1];
	if (share >= 1)
		return err_report(err, ERR_INPUT, "moisture",
			"The piece began no wetter than that.");
	if (!(share > 0) || !(start[1] > 0))
		return err_report(err, ERR_ANSWER_NO, "moisture",
			"In that air it never gets so dry: drying ends at "
			"%.4g kg.",
			start[0]);
	start[2] = log(x_of_left(share)) - got.parameter[2];
	fit.by_when = true;
	TRY(fit_to(arena, &fit, start, &got, err));
	*out = (struct lab_dried){.end.kg = got.parameter[0],
		.wanted.kg = wanted_mass(d, got.parameter[0]),
		.when.s = exp(got.parameter[2]),
		.log_when_error = got.standard_error[2],
		.n_free = got.df,
		.residual.kg = got.residual_sd};
	out->moisture_now_ratio = d->reading[last].mass.kg /
			(out->wanted.kg / (1 + d->moisture_ratio)) -
		1;
	return ERR_NONE;
}
