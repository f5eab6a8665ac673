/* acceptance.c - strength accepted by lots, by published criteria. */
#include "control/acceptance.h"

#include "stats/characteristic.h"

#include <math.h>

static const double en206_over_Pa = 4e6, en206_under_Pa = 4e6;
static const double en206_spreads = 1.48;
static const size_t en206_initial = 3, en206_continuous = 15;
static const double aci318_under_Pa = 3.5e6, aci318_high_Pa = 35e6,
		    aci318_under_ratio = 0.1;
static const size_t aci318_run = 3;

const char *
control_criterion_word(enum control_criterion criterion)
{
#define CONTROL_CRITERION_AS_WORD(criterion_, word, says) word,
	static const char *const words[] = {
		CONTROL_CRITERION_LIST(CONTROL_CRITERION_AS_WORD)};
#undef CONTROL_CRITERION_AS_WORD

	return words[criterion];
}

const char *
control_criterion_says(enum control_criterion criterion)
{
#define CONTROL_CRITERION_AS_SAYS(criterion_, word, says) says,
	static const char *const all[] = {
		CONTROL_CRITERION_LIST(CONTROL_CRITERION_AS_SAYS)};
#undef CONTROL_CRITERION_AS_SAYS

	return all[criterion];
}

/* Nothing that was ever crushed held a thousandth of it. */
static const double most_Pa = 1e15;

static bool
is_strength(double Pa)
{
	return Pa > 0 && Pa <= most_Pa;
}

static enum err_code
check(const struct control_lot *lot, struct err *err)
{
	if (lot->n == 0)
		return err_report(err, ERR_INPUT, "values",
			"There is no strength to judge by.");
	for (size_t i = 0; i < lot->n; i++)
		if (!is_strength(lot->strength_Pa[i]))
			return err_report(err, ERR_INPUT, "values",
				"Strength %zu is %.6g Pa; it takes a strength "
				"above 0, at most 1e15 Pa.",
				i + 1, lot->strength_Pa[i]);
	if (!is_strength(lot->required.Pa))
		return err_report(err, ERR_INPUT, "required",
			"got %.6g Pa; it takes a strength above 0, at most "
			"1e15 "
			"Pa.",
			lot->required.Pa);
	if (lot->has_spread && !is_strength(lot->spread.Pa))
		return err_report(err, ERR_INPUT, "spread",
			"got %.6g Pa; it takes a strength above 0, at most "
			"1e15 "
			"Pa.",
			lot->spread.Pa);
	return ERR_NONE;
}

enum err_code
control_running_mean(struct arena *a, const double *value, size_t n,
	size_t width, const double **mean, size_t *n_mean, struct err *err)
{
	size_t count = n >= width ? n - width + 1 : 0;
	double *got = arena_take(a, count, sizeof *got);

	if (got == NULL)
		return err_memory(err);
	for (size_t i = 0; i < count; i++) {
		for (size_t k = 0; k < width; k++)
			got[i] += value[i + k];
		got[i] /= (double)width;
	}
	*mean = got;
	*n_mean = count;
	return ERR_NONE;
}

static double
least_of(const double *value, size_t n)
{
	double least = value[0];

	for (size_t i = 1; i < n; i++)
		least = fmin(least, value[i]);
	return least;
}

static double
mean_of(const double *value, size_t n)
{
	double sum = 0;

	for (size_t i = 0; i < n; i++)
		sum += value[i];
	return sum / (double)n;
}

static void
settle(struct control_accepted *c)
{
	/* a mean on its limit meets it, whatever the last bit says */
	const double rounding = 1e-12;

	c->has_teeth = c->least_limit.Pa > 0;
	c->is_met = c->applies &&
		c->judged.Pa >= c->judged_limit.Pa * (1 - rounding) &&
		c->least.Pa >= c->least_limit.Pa * (1 - rounding);
}

static void
accept_en206(const struct control_lot *lot, struct control_accepted *out)
{
	struct control_accepted base = {
		.judged.Pa = mean_of(lot->strength_Pa, lot->n),
		.least.Pa = least_of(lot->strength_Pa, lot->n),
		.least_limit.Pa = fmax(0, lot->required.Pa - en206_under_Pa)};
	struct control_accepted *first = &out[CONTROL_EN206_INITIAL];
	struct control_accepted *going = &out[CONTROL_EN206_CONTINUOUS];

	*first = base;
	first->applies = lot->n == en206_initial;
	first->judged_limit.Pa = lot->required.Pa + en206_over_Pa;
	settle(first);
	*going = base;
	going->applies = lot->n >= en206_continuous && lot->has_spread;
	going->judged_limit.Pa = lot->required.Pa +
		en206_spreads * lot->spread.Pa;
	settle(going);
}

static enum err_code
accept_aci318(struct arena *a, const struct control_lot *lot,
	struct control_accepted *out, struct err *err)
{
	double under = lot->required.Pa > aci318_high_Pa
		? aci318_under_ratio * lot->required.Pa
		: aci318_under_Pa;
	struct control_accepted c = {
		.least.Pa = least_of(lot->strength_Pa, lot->n),
		.least_limit.Pa = fmax(0, lot->required.Pa - under),
		.judged_limit = lot->required};
	const double *mean;
	size_t n_mean;

	TRY(control_running_mean(
		a, lot->strength_Pa, lot->n, aci318_run, &mean, &n_mean, err));
	c.applies = n_mean > 0;
	if (c.applies)
		c.judged.Pa = least_of(mean, n_mean);
	settle(&c);
	out[CONTROL_ACI318] = c;
	return ERR_NONE;
}

static enum err_code
accept_characteristic(struct arena *a, const struct control_lot *lot,
	struct control_accepted *out, struct err *err)
{
	struct stats_characteristic got;
	struct control_accepted c = {.judged_limit = lot->required,
		.least.Pa = least_of(lot->strength_Pa, lot->n)};

	TRY(stats_characteristic(a, lot->strength_Pa, lot->n,
		lot->has_spread ? lot->spread.Pa : 0, false, &got, err));
	c.applies = got.has_known || got.has_unknown;
	c.judged.Pa = got.has_known ? got.known : got.unknown;
	settle(&c);
	c.has_teeth = true;
	out[CONTROL_CHARACTERISTIC] = c;
	return ERR_NONE;
}

enum err_code
control_accept(struct arena *a, const struct control_lot *lot,
	struct control_accepted *out, struct err *err)
{
	struct control_accepted got[CONTROL_CRITERION_COUNT];

	TRY(check(lot, err));
	accept_en206(lot, got);
	TRY(accept_aci318(a, lot, got, err));
	TRY(accept_characteristic(a, lot, got, err));
	for (size_t i = 0; i < CONTROL_CRITERION_COUNT; i++)
		out[i] = got[i];
	return ERR_NONE;
}
