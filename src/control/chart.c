/* chart.c - single values in the order they were made, on three charts. */
#include "control/chart.h"

#include "stats/chart_constants.h"
#include "stats/run_length.h"
#include "stats/run_rules.h"

#include <math.h>

static const double limit = 3; /* spreads */

const char *
control_rule_word(enum control_rule rule)
{
#define CONTROL_RULE_AS_WORD(rule_, word, says) word,
	static const char *const words[] = {
		CONTROL_RULE_LIST(CONTROL_RULE_AS_WORD)};
#undef CONTROL_RULE_AS_WORD

	return words[rule];
}

const char *
control_rule_says(enum control_rule rule)
{
#define CONTROL_RULE_AS_SAYS(rule_, word, says) says,
	static const char *const all[] = {
		CONTROL_RULE_LIST(CONTROL_RULE_AS_SAYS)};
#undef CONTROL_RULE_AS_SAYS

	return all[rule];
}

struct control_settings
control_usual(void)
{
	return (struct control_settings){
		.use = {[CONTROL_BEYOND_THREE] = true,
			[CONTROL_EIGHT_ON_ONE_SIDE] = true,
			[CONTROL_RANGE] = true,
			[CONTROL_EWMA] = true,
			[CONTROL_CUSUM] = true},
		.lambda = 0.2,
		.width = 2.962,
		.reference = 0.5,
		.decision = 5};
}

static enum err_code
check(const double *value, size_t n, const struct control_settings *s,
	struct err *err)
{
	const double most = 1e100; /* so that no square overflows */
	const size_t least = 3;

	if (s->is_known && !(s->spread > 0 && isfinite(s->spread)))
		return err_report(err, ERR_INPUT, "spread",
			"got %.6g; it takes a number above 0.", s->spread);
	if (s->is_known && !isfinite(s->centre))
		return err_report(err, ERR_INPUT, "centre",
			"The centre is not a finite number.");
	if (n < (s->is_known ? 1 : least))
		return err_report(err, ERR_INPUT, "values",
			"A chart of its own centre needs three values at "
			"least; there are %zu.",
			n);
	if (!s->is_known && s->n_base != 0 &&
		(s->n_base < least || s->n_base > n))
		return err_report(err, ERR_INPUT, "base",
			"got %zu; it takes a whole number from 3 to the %zu "
			"values there are.",
			s->n_base, n);
	for (size_t i = 0; i < n; i++)
		if (!(fabs(value[i]) <= most))
			return err_report(err, ERR_INPUT, "values",
				"Value %zu is not a number of at most 1e100.",
				i + 1);
	return ERR_NONE;
}

static enum err_code
set_centre(const double *value, size_t n, const struct control_settings *s,
	struct control_chart *c, struct err *err)
{
	size_t base = s->n_base > 0 ? s->n_base : n;
	struct stats_chart_constants of_two;
	double sum = 0, ranges = 0;

	stats_chart_constants(2, &of_two);
	for (size_t i = 0; i < base && !s->is_known; i++) {
		sum += value[i] / (double)base;
		if (i > 0)
			ranges += fabs(value[i] - value[i - 1]);
	}
	c->range_mean = s->is_known ? s->spread * of_two.d2
				    : ranges / (double)(base - 1);
	c->centre = s->is_known ? s->centre : sum;
	c->spread = c->range_mean / of_two.d2;
	if (!(c->spread > 0))
		return err_report(err, ERR_INPUT, "values",
			"All %zu values of the base are equal, so that they "
			"show no spread; give centre and spread instead.",
			base);
	c->range_high = of_two.D4 * c->range_mean;
	c->low = c->centre - limit * c->spread;
	c->high = c->centre + limit * c->spread;
	return ERR_NONE;
}

/* How many of the last `window` points up to i lie more than `beyond` spreads
 * out on the side of point i; 0 if point i does not. */
static size_t
count_out(const struct control_chart *c, size_t i, size_t window, double beyond)
{
	double side = c->point[i].value >= c->centre ? 1 : -1;
	size_t count = 0;

	for (size_t k = 0; k < window && k <= i; k++) {
		double off = side * (c->point[i - k].value - c->centre);

		if (k == 0 && !(off > beyond * c->spread))
			return 0;
		count += off > beyond * c->spread;
	}
	return count;
}

static bool
is_steady(const struct control_chart *c, size_t i, size_t n)
{
	double side;

	if (i + 1 < n)
		return false;
	side = c->point[i].value > c->point[i - 1].value ? 1 : -1;
	for (size_t k = i + 2 - n; k <= i; k++)
		if (!(side * (c->point[k].value - c->point[k - 1].value) > 0))
			return false;
	return true;
}

static void
judge(const struct control_settings *s, struct control_chart *c, size_t i)
{
	struct control_point *p = &c->point[i];
	const bool met[CONTROL_RULE_COUNT] = {
		[CONTROL_BEYOND_THREE] = p->value < c->low ||
			p->value > c->high,
		[CONTROL_TWO_OF_THREE] = count_out(c, i, 3, 2) >= 2,
		[CONTROL_FOUR_OF_FIVE] = count_out(c, i, 5, 1) >= 4,
		[CONTROL_EIGHT_ON_ONE_SIDE] = count_out(c, i, 8, 0) >= 8,
		[CONTROL_SIX_STEADY] = is_steady(c, i, 6),
		[CONTROL_RANGE] = p->has_range && p->range > c->range_high,
		[CONTROL_EWMA] = fabs(p->ewma - c->centre) > c->ewma_half,
		[CONTROL_CUSUM] = p->up > s->decision || p->down > s->decision};

	for (size_t r = 0; r < CONTROL_RULE_COUNT; r++) {
		p->signals[r] = met[r] && s->use[r];
		if (p->signals[r] && !c->has_signal) {
			c->has_signal = true;
			c->signal = i;
			c->rule = (enum control_rule)r;
		}
	}
}

static void
set_points(const double *value, const struct control_settings *s,
	struct control_chart *c)
{
	double ewma = c->centre, up = 0, down = 0;

	for (size_t i = 0; i < c->n_point; i++) {
		struct control_point *p = &c->point[i];
		double z = (value[i] - c->centre) / c->spread;

		ewma += s->lambda * (value[i] - ewma);
		up = fmax(0, up + z - s->reference);
		down = fmax(0, down - z - s->reference);
		*p = (struct control_point){.value = value[i],
			.has_range = i > 0,
			.range = i > 0 ? fabs(value[i] - value[i - 1]) : 0,
			.ewma = ewma,
			.up = up,
			.down = down};
		judge(s, c, i);
	}
}

/* The point after the last at which the sum that stands high was zero. */
static size_t
after_last_zero(const struct control_chart *c)
{
	bool is_up = c->point[c->signal].up >= c->point[c->signal].down;
	size_t i = c->signal;

	while (i > 0 && (is_up ? c->point[i - 1].up : c->point[i - 1].down) > 0)
		i--;
	return i;
}

/* The shortest run of moments that holds `wanted` of the shares. */
static void
set_likely(
	const double *share, size_t n, double wanted, struct control_onset *out)
{
	double held = 0;
	size_t low = 0;

	out->low = 0;
	out->high = n - 1;
	for (size_t high = 0; high < n; high++) {
		held += share[high];
		while (low < high && held - share[low] >= wanted)
			held -= share[low++];
		if (held >= wanted && high - low < out->high - out->low) {
			out->low = low;
			out->high = high;
		}
	}
}

enum err_code
control_onset(struct arena *a, const double *value, size_t n, double centre,
	double spread, struct control_onset *out, struct err *err)
{
	const double wanted = 0.9;
	struct control_onset got = {0};
	double *share = arena_take(a, n, sizeof *share);
	double sum = 0, top = -HUGE_VAL, total = 0;

	if (share == NULL)
		return err_memory(err);
	/* a step before point t: sum of the n - t values from t on */
	for (size_t t = n; t-- > 0;) {
		double count = (double)(n - t), gain;

		sum += (value[t] - centre) / spread;
		gain = sum * sum / count / 2;
		share[t] = gain - log(count) / 2;
		if (gain >= top) {
			top = gain;
			got.first = t;
			got.step = sum / count * spread;
		}
	}
	for (size_t t = 0; t < n; t++) {
		share[t] = exp(share[t] - top);
		total += share[t];
	}
	set_likely(share, n, total * wanted, &got);
	*out = got;
	return ERR_NONE;
}

static enum err_code
set_runs(struct arena *a, const struct control_settings *s,
	struct control_chart *c, struct err *err)
{
	const struct stats_run_rules rules = {
		.two_of_three_beyond_two = s->use[CONTROL_TWO_OF_THREE],
		.four_of_five_beyond_one = s->use[CONTROL_FOUR_OF_FIVE],
		.eight_on_one_side = s->use[CONTROL_EIGHT_ON_ONE_SIDE]};

	TRY(stats_run_rules(a, &rules, 0, &c->rules_run.calm, err));
	TRY(stats_run_rules(a, &rules, 1, &c->rules_run.one_spread, err));
	TRY(stats_run_ewma(
		a, s->lambda, s->width, 0, 2, &c->ewma_run.calm, err));
	TRY(stats_run_ewma(
		a, s->lambda, s->width, 1, 2, &c->ewma_run.one_spread, err));
	TRY(stats_run_cusum(a, s->reference, s->decision, 0, 0, 2,
		&c->cusum_run.calm, err));
	return stats_run_cusum(a, s->reference, s->decision, 0, 1, 2,
		&c->cusum_run.one_spread, err);
}

enum err_code
control_chart(struct arena *a, const double *value, size_t n,
	const struct control_settings *settings, struct control_chart *out,
	struct err *err)
{
	struct control_chart c = {.n_point = n};

	TRY(check(value, n, settings, err));
	TRY(set_centre(value, n, settings, &c, err));
	if (!settings->without_runs) /* checks the settings too */
		TRY(set_runs(a, settings, &c, err));
	c.ewma_half = settings->width * c.spread *
		sqrt(settings->lambda / (2 - settings->lambda));
	c.point = arena_take(a, n, sizeof *c.point);
	if (c.point == NULL)
		return err_memory(err);
	set_points(value, settings, &c);
	if (c.has_signal) {
		TRY(control_onset(a, value, c.signal + 1, c.centre, c.spread,
			&c.onset, err));
		c.onset.cusum = after_last_zero(&c);
	}
	*out = c;
	return ERR_NONE;
}
