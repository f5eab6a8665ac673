/* test_censored.c - regression on readings that may be bounds. */
#include "r_rows.h"

#include "stats/censored.h"

#include <float.h>

/* The beams of an invented trial: exact, interval, left and right readings. */
struct beams {
	struct stats_censored_row *row;
	size_t n;
};

static double
bound(const char *cell, double open)
{
	return strcmp(cell, "NA") == 0 ? open : strtod(cell, NULL);
}

static struct beams
read_beams(struct arena *a, bool by_mix)
{
	struct support_csv csv = support_csv_read(
		a, support_path("r/inv_beams_censored.csv"));
	struct beams to = {.n = csv.n_row - 1};
	size_t lower = support_csv_column(&csv, "lower");
	size_t upper = support_csv_column(&csv, "upper");
	size_t density = support_csv_column(&csv, "density");
	size_t mix = support_csv_column(&csv, "mix");

	to.row = arena_take(a, to.n, sizeof *to.row);
	for (size_t i = 0; i < to.n; i++) {
		char **cell = csv.cell[i + 1];

		to.row[i] = (struct stats_censored_row){
			.group = by_mix ? (size_t)(cell[mix][0] - 'A') : 0,
			.x = log(strtod(cell[density], NULL) / 780),
			.low = bound(cell[lower], -(double)INFINITY),
			.high = bound(cell[upper], (double)INFINITY)};
	}
	return to;
}

static struct stats_censored
fit_beams(struct fixture *f, enum stats_censored_family family,
	const char *design)
{
	bool by_mix = strcmp(design, "mean") != 0;
	struct beams beams = read_beams(f->a, by_mix);
	struct stats_censored_ask ask = {.family = family,
		.n_group = by_mix ? 7 : 1,
		.row = beams.row,
		.n_row = beams.n,
		.has_x = strcmp(design, "group+x") == 0,
		.confidence = 0.95};
	struct stats_censored got = {.n_distinct = 0};

	assert_ok(stats_censored_fit(f->a, &ask, &got, &f->err), &f->err);
	return got;
}

static struct stats_censored_part
part_of(const struct stats_censored *got, const char *name)
{
	if (strcmp(name, "scale") == 0)
		return got->scale;
	if (strcmp(name, "x") == 0)
		return got->x;
	return got->group[strcmp(name, "mean") == 0 ? 0 : name[0] - 'A'];
}

/* R 4.2.2: estimates and errors by survreg, ends by plain R (nlminb, uniroot
 * to 1e-9): tests/data/r/censored_profile.R.  Estimates and ends are compared
 * in standard errors: 1e-10 and 1e-7, what the two searches leave; standard
 * errors themselves to 1e-8 of their size. */
static void
censored__agrees_with_r(void **state)
{
	static const struct {
		const char *word;
		enum stats_censored_family family;
	} family[] = {{"lognormal", STATS_CENSORED_LOGNORMAL},
		{"weibull", STATS_CENSORED_WEIBULL},
		{"gaussian", STATS_CENSORED_NORMAL}};
	struct fixture *f = *state;
	struct support_csv csv = support_csv_read(
		f->a, support_path("r/censored_profile.csv"));
	size_t n_checked = 0;

	for (size_t i = 1; i < csv.n_row; i++) {
		char **cell = csv.cell[i];
		size_t k = 0;
		struct stats_censored got;
		struct stats_censored_part part;
		double se = strtod(cell[4], NULL);

		while (strcmp(family[k].word, cell[0]) != 0)
			k++;
		got = fit_beams(f, family[k].family, cell[1]);
		n_checked++;
		if (strcmp(cell[2], "loglik") == 0) {
			assert_near(got.log_likelihood, strtod(cell[3], NULL),
				1e-13, 0);
			continue;
		}
		part = part_of(&got, cell[2]);
		assert_near(
			part.estimate, strtod(cell[3], NULL), 0, 1e-10 * se);
		assert_near(part.se, se, 1e-8, 0);
		assert_near(part.low, strtod(cell[5], NULL), 0, 1e-7 * se);
		assert_near(part.high, strtod(cell[6], NULL), 0, 1e-7 * se);
	}
	assert_int_equal(n_checked, 3 * (3 + 9 + 10));
}

/* The fixtures' own design, contrasts against mix A: survreg polished by
 * Newton steps (01_fixtures.R), agreeing with R to 2.2e-10. */
static void
censored__agrees_with_the_fixtures(void **state)
{
	struct fixture *f = *state;
	size_t n, n_checked = 0;
	const struct r_row *row = r_rows(f->a, "r/survreg.csv", &n);

	for (size_t i = 0; i < n; i++) {
		const char *fixed, *design, *output = row[i].output;
		struct stats_censored got;
		bool is_weibull;

		if (!r_is(&row[i], "survreg"))
			continue;
		fixed = r_text(f->a, &row[i], "fixed");
		is_weibull = strcmp(r_text(f->a, &row[i], "dist"), "weibull") ==
			0;
		design = strcmp(fixed, "1") == 0    ? "mean"
			: strcmp(fixed, "mix") == 0 ? "group"
						    : "group+x";
		got = fit_beams(f,
			is_weibull ? STATS_CENSORED_WEIBULL
				   : STATS_CENSORED_LOGNORMAL,
			design);
		n_checked++;
		if (strcmp(output, "loglik") == 0)
			assert_near(got.log_likelihood, row[i].value, 1e-12, 0);
		else if (strcmp(output, "scale") == 0)
			assert_near(got.scale.estimate, row[i].value, 1e-9, 0);
		else if (strcmp(output, "log_scale") == 0)
			assert_near(
				log(got.scale.estimate), row[i].value, 0, 1e-9);
		else if (strcmp(output, "b:ld") == 0)
			assert_near(got.x.estimate, row[i].value, 0, 1e-8);
		else if (strcmp(output, "b:(Intercept)") == 0)
			assert_near(
				got.group[0].estimate, row[i].value, 0, 1e-9);
		else
			assert_near(got.group[output[5] - 'A'].estimate -
					got.group[0].estimate,
				row[i].value, 0, 1e-9);
	}
	assert_int_equal(n_checked, 50);
}

/* A complete sample of Weibull strengths: R 4.2.2, profile by uniroot at 90 %;
 * the fixture keeps 8 digits of the scale's ends. */
static void
censored__weibull_modulus(void **state)
{
	struct fixture *f = *state;
	struct support_csv csv = support_csv_read(
		f->a, support_path("r/inv_weibull.csv"));
	struct stats_censored_row row[32];
	struct stats_censored_ask ask = {.family = STATS_CENSORED_WEIBULL,
		.n_group = 1,
		.row = row,
		.n_row = csv.n_row - 1,
		.confidence = 0.9};
	struct stats_censored got;

	for (size_t i = 0; i < ask.n_row; i++) {
		double kpa = strtod(csv.cell[i + 1][1], NULL);

		row[i] = (struct stats_censored_row){.low = kpa, .high = kpa};
	}
	assert_ok(stats_censored_fit(f->a, &ask, &got, &f->err), &f->err);
	assert_near(1 / got.scale.estimate, 12.1646749462161, 1e-11, 0);
	assert_near(exp(got.group[0].estimate), 342.035562324472, 1e-12, 0);
	assert_near(got.log_likelihood, -116.819711114286, 1e-13, 0);
	assert_near(1 / got.scale.high, 9.19731023611749, 1e-9, 0);
	assert_near(1 / got.scale.low, 15.5304652740519, 1e-9, 0);
	assert_near(exp(got.group[0].low), 331.733750908528, 1e-7, 0);
	assert_near(exp(got.group[0].high), 352.195480600576, 1e-7, 0);
}

/* NIST/SEMATECH e-Handbook 8.4.1.3: 10 failures and 10 units still running at
 * 500 hours; shape 1.7208, scale 606.5280 (printed; 606.5276 by R), log
 * likelihood -75.135. */
static void
censored__weibull_of_the_handbook(void **state)
{
	static const double hours[] = {
		54, 187, 216, 240, 244, 335, 361, 373, 375, 386};
	struct fixture *f = *state;
	struct stats_censored_row row[20];
	struct stats_censored_ask ask = {.family = STATS_CENSORED_WEIBULL,
		.n_group = 1,
		.row = row,
		.n_row = 20,
		.confidence = 0.95};
	struct stats_censored got;

	for (size_t i = 0; i < 20; i++) {
		row[i].group = 0;
		row[i].x = 0;
		row[i].low = i < 10 ? hours[i] : 500;
		row[i].high = i < 10 ? hours[i] : (double)INFINITY;
	}
	assert_ok(stats_censored_fit(f->a, &ask, &got, &f->err), &f->err);
	/* Half a unit of the last printed digit; of the scale, see above. */
	assert_near(1 / got.scale.estimate, 1.7208, 0, 5e-5);
	assert_near(exp(got.group[0].estimate), 606.5280, 0, 6e-4);
	assert_near(got.log_likelihood, -75.135, 0, 6e-4);
}

/* Without censoring the normal family is the mean and the root of the mean
 * square, and its log-likelihood falls by z^2/2 at
 * mean +- sd sqrt(exp(z^2 / n) - 1): a closed form, to rounding and the search.
 */
static void
censored__exact_normal_in_closed_form(void **state)
{
	static const double y[] = {3.71, 4.28, 2.95, 3.33, 5.02};
	static const double z2 = 3.841458820694124; /* qchisq(.95, 1), R */
	struct fixture *f = *state;
	struct stats_censored_row row[5];
	struct stats_censored_ask ask = {.family = STATS_CENSORED_NORMAL,
		.n_group = 1,
		.row = row,
		.n_row = 5,
		.confidence = 0.95};
	struct stats_censored got;
	double sum = 0, squares = 0, sd, half;

	for (size_t i = 0; i < 5; i++) {
		row[i] = (struct stats_censored_row){.low = y[i], .high = y[i]};
		sum += y[i];
	}
	for (size_t i = 0; i < 5; i++)
		squares += (y[i] - sum / 5) * (y[i] - sum / 5);
	sd = sqrt(squares / 5);
	half = sd * sqrt(exp(z2 / 5) - 1);
	assert_ok(stats_censored_fit(f->a, &ask, &got, &f->err), &f->err);
	assert_near(got.group[0].estimate, sum / 5, 1e-13, 0);
	assert_near(got.scale.estimate, sd, 1e-13, 0);
	assert_near(got.group[0].se, sd / sqrt(5), 1e-12, 0);
	assert_near(got.scale.se, sd / sqrt(10), 1e-12, 0);
	assert_near(got.group[0].low, sum / 5 - half, 1e-9, 0);
	assert_near(got.group[0].high, sum / 5 + half, 1e-9, 0);
}

static struct stats_censored_row
reading(size_t group, double low, double high)
{
	return (struct stats_censored_row){
		.group = group, .low = low, .high = high};
}

static struct stats_censored
fit(struct fixture *f, enum stats_censored_family family,
	const struct stats_censored_row *row, size_t n, size_t n_group)
{
	struct stats_censored_ask ask = {.family = family,
		.n_group = n_group,
		.row = row,
		.n_row = n,
		.confidence = 0.95};
	struct stats_censored got = {.n_distinct = 0};

	assert_ok(stats_censored_fit(f->a, &ask, &got, &f->err), &f->err);
	return got;
}

/* Multiplying strengths by c moves the means by log c and nothing else; the
 * order of the rows does not matter. */
static void
censored__scale_and_order_do_not_matter(void **state)
{
	struct fixture *f = *state;
	struct beams beams = read_beams(f->a, true);
	struct stats_censored before = fit(
		f, STATS_CENSORED_WEIBULL, beams.row, beams.n, 7);
	struct stats_censored after;
	const double c = 6.31e-7;

	for (size_t i = 0; i < beams.n / 2; i++) {
		struct stats_censored_row r = beams.row[i];

		beams.row[i] = beams.row[beams.n - 1 - i];
		beams.row[beams.n - 1 - i] = r;
	}
	for (size_t i = 0; i < beams.n; i++) {
		beams.row[i].low *= c;
		beams.row[i].high *= c;
	}
	after = fit(f, STATS_CENSORED_WEIBULL, beams.row, beams.n, 7);
	assert_near(after.scale.estimate, before.scale.estimate, 1e-11, 0);
	assert_near(after.scale.high, before.scale.high, 1e-8, 0);
	for (size_t g = 0; g < 7; g++) {
		assert_near(after.group[g].estimate,
			before.group[g].estimate + log(c), 1e-11, 0);
		assert_near(after.group[g].low, before.group[g].low + log(c),
			1e-9, 0);
	}
}

/* An interval made narrow is the reading itself: its probability is the
 * density times the width, to the square of the width over the scale. */
static void
censored__a_narrow_interval_is_a_reading(void **state)
{
	static const double y[] = {217.3, 188.1, 305.9, 241.7, 260.2, 199.4};
	enum { N = sizeof y / sizeof y[0] };
	static const enum stats_censored_family family[] = {
		STATS_CENSORED_LOGNORMAL, STATS_CENSORED_WEIBULL,
		STATS_CENSORED_NORMAL};
	static const double width = 3e-7;
	struct fixture *f = *state;

	for (size_t k = 0; k < 3; k++) {
		struct stats_censored_row exact[N], narrow[N];
		struct stats_censored e, n;

		for (size_t i = 0; i < N; i++) {
			exact[i] = reading(i % 2, y[i], y[i]);
			narrow[i] = reading(
				i % 2, y[i] - width / 2, y[i] + width / 2);
		}
		e = fit(f, family[k], exact, N, 2);
		n = fit(f, family[k], narrow, N, 2);
		/* y +- width/2 is rounded to 1e-7 of the width. */
		assert_near(n.group[0].estimate, e.group[0].estimate, 1e-9, 0);
		assert_near(n.group[1].low, e.group[1].low, 1e-8, 0);
		assert_near(n.scale.se, e.scale.se, 1e-7, 0);
		assert_near(n.log_likelihood, e.log_likelihood + N * log(width),
			0, 1e-6);
	}
}

/* Far from the mean and wide apart, nothing overflows and the far end of a
 * long interval counts as open. */
static void
censored__far_ends_are_open_ends(void **state)
{
	struct fixture *f = *state;
	struct stats_censored_row row[] = {reading(0, 310.4, 310.4),
		reading(0, 287.9, 287.9), reading(0, 345.2, 345.2),
		reading(0, 330, 1e300), reading(0, 1e-300, 295)};
	struct stats_censored closed, open;

	for (size_t k = 0; k < 3; k++) {
		static const enum stats_censored_family family[] = {
			STATS_CENSORED_LOGNORMAL, STATS_CENSORED_WEIBULL,
			STATS_CENSORED_NORMAL};

		row[3].high = family[k] == STATS_CENSORED_NORMAL ? 1e12 : 1e300;
		row[4].low = family[k] == STATS_CENSORED_NORMAL ? -1e12
								: 1e-300;
		closed = fit(f, family[k], row, 5, 1);
		row[3].high = (double)INFINITY;
		row[4].low = -(double)INFINITY;
		open = fit(f, family[k], row, 5, 1);
		/* The unit of the search differs by 1e10; what is left is
		 * rounding in it. */
		assert_near(closed.group[0].estimate, open.group[0].estimate,
			1e-6, 0);
		assert_near(
			closed.scale.estimate, open.scale.estimate, 1e-6, 0);
		assert_near(closed.scale.high, open.scale.high, 1e-6, 0);
	}
}

/* A group that is all "at least" runs away; its low end is where its readings
 * become unlikely, and the rest is as if it were not there. */
static void
censored__a_one_sided_group_gives_one_end(void **state)
{
	struct fixture *f = *state;
	struct stats_censored_row row[] = {reading(0, 2.11, 2.11),
		reading(0, 1.74, 1.74), reading(0, 2.6, 2.9),
		reading(1, 3.5, (double)INFINITY),
		reading(1, 3.1, (double)INFINITY), reading(2, 1.5, 1.7),
		reading(2, -(double)INFINITY, 1.65), reading(2, 1.9, 1.9)};
	struct stats_censored got, without;

	got = fit(f, STATS_CENSORED_LOGNORMAL, row, 8, 3);
	row[3] = row[5];
	row[4] = row[6];
	row[5] = row[7];
	for (size_t i = 3; i < 6; i++)
		row[i].group = 1;
	without = fit(f, STATS_CENSORED_LOGNORMAL, row, 6, 2);
	assert_true(isinf(got.group[1].estimate) && got.group[1].estimate > 0);
	assert_true(isinf(got.group[1].high));
	assert_true(got.group[1].low > log(2.6) && got.group[1].low < log(3.5));
	assert_near(got.scale.estimate, without.scale.estimate, 1e-12, 0);
	assert_near(got.group[0].high, without.group[0].high, 1e-9, 0);
	assert_near(got.log_likelihood, without.log_likelihood, 1e-12, 0);
}

static void
refused(struct fixture *f, enum stats_censored_family family,
	const struct stats_censored_row *row, size_t n, size_t n_group,
	bool has_x, const char *field, const char *part)
{
	struct stats_censored_ask ask = {.family = family,
		.n_group = n_group,
		.row = row,
		.n_row = n,
		.has_x = has_x,
		.confidence = 0.95};
	struct stats_censored got = {.n_distinct = 91};

	err_clear(&f->err);
	assert_int_equal(
		stats_censored_fit(f->a, &ask, &got, &f->err), ERR_INPUT);
	assert_string_equal(f->err.field, field);
	assert_has(f->err.text, part);
	assert_int_equal(got.n_distinct, 91);
}

static void
censored__says_what_cannot_be(void **state)
{
	const double inf = (double)INFINITY, nan = (double)NAN;
	struct fixture *f = *state;
	const struct stats_censored_row
		one[] = {reading(0, 2.3, 2.3)},
		equal[] = {reading(0, 2.3, 2.3), reading(0, 2.3, 2.3)},
		right[] = {reading(0, 2.3, inf), reading(0, 1.9, inf)},
		step[] = {reading(0, 2, 3), reading(0, 2.5, 4)},
		vague[] = {reading(0, -inf, 2.4), reading(0, 2.9, inf)},
		not [] = {reading(0, nan, 2.4)},
		upside[] = {reading(0, 2.4, 1.1)},
		open[] = {reading(0, -inf, inf)},
		zero[] = {reading(0, 0, 0), reading(0, 2.4, 2.4)},
		below[] = {reading(0, -2, -1), reading(0, 2.4, 2.4)},
		empty[] = {reading(0, 1.1, 1.1), reading(2, 2.4, 2.4)},
		flat[] = {reading(0, 1.1, 1.1), reading(0, 2.4, 2.4)};

	refused(f, STATS_CENSORED_NORMAL, one, 1, 1, false, "value",
		"no spread");
	refused(f, STATS_CENSORED_NORMAL, equal, 2, 1, false, "value",
		"no spread");
	refused(f, STATS_CENSORED_WEIBULL, right, 2, 1, false, "value",
		"same side");
	refused(f, STATS_CENSORED_WEIBULL, step, 2, 1, false, "value",
		"no spread");
	refused(f, STATS_CENSORED_NORMAL, vague, 2, 1, false, "value",
		"however large");
	refused(f, STATS_CENSORED_NORMAL, not, 1, 1, false, "value",
		"goes from");
	refused(f, STATS_CENSORED_NORMAL, upside, 1, 1, false, "value",
		"goes from");
	refused(f, STATS_CENSORED_NORMAL, open, 1, 1, false, "value",
		"goes from");
	refused(f, STATS_CENSORED_LOGNORMAL, zero, 2, 1, false, "value",
		"logarithm");
	refused(f, STATS_CENSORED_WEIBULL, below, 2, 1, false, "value",
		"logarithm");
	refused(f, STATS_CENSORED_NORMAL, empty, 2, 3, false, "group",
		"Group 2");
	refused(f, STATS_CENSORED_NORMAL, flat, 2, 1, true, "x",
		"does not vary");
}

/* Readings that lie on a line, and readings that any steep slope explains. */
static void
censored__says_that_a_slope_is_too_good(void **state)
{
	struct fixture *f = *state;
	struct stats_censored_row line[] = {
		reading(0, 1, 1), reading(0, 3, 3), reading(0, 5, 5)};
	struct stats_censored_row side[] = {reading(0, -(double)INFINITY, 2.1),
		reading(0, 2.4, 2.4), reading(0, 2.6, 2.6),
		reading(0, 2.9, (double)INFINITY)};

	for (size_t i = 0; i < 3; i++)
		line[i].x = (double)i;
	side[0].x = -1.3;
	side[3].x = 1.7;
	refused(f, STATS_CENSORED_NORMAL, line, 3, 1, true, "value",
		"no spread");
	refused(f, STATS_CENSORED_NORMAL, side, 4, 1, true, "x",
		"however steep");
}

static void
censored__a_full_arena_is_said(void **state)
{
	struct fixture *f = *state;
	const struct stats_censored_row row[] = {
		reading(0, 1.7, 1.7), reading(0, 2.4, 2.4)};
	struct stats_censored_ask ask = {.family = STATS_CENSORED_NORMAL,
		.n_group = 1,
		.row = row,
		.n_row = 2,
		.confidence = 0.95};
	struct stats_censored got;

	for (size_t limit = 64; limit < 2048; limit += 64) {
		struct arena *small = arena_new(limit);
		enum err_code code = stats_censored_fit(
			small, &ask, &got, NULL);

		assert_true(code == ERR_NONE || code == ERR_MEMORY);
		arena_free(small);
	}
	(void)f;
}

static void
censored__calc_speaks_json(void **state)
{
	struct fixture *f = *state;
	const char *answer = support_calc(f->a, "censored",
		"{\"family\": \"lognormal\", \"rows\": ["
		"{\"group\": \"A\", \"value\": [0, 0.36]},"
		"{\"group\": \"A\", \"value\": 0.29},"
		"{\"group\": \"A\", \"value\": 0.33},"
		"{\"group\": \"B\", \"value\": [0.41, null]}]}");
	struct err err = {.code = ERR_NONE};

	assert_has(answer, "\"B\": {\"estimate\": null, \"se\": null");
	assert_has(answer, "only at least its low");
	/* Two readings and a bound that costs next to nothing. */
	assert_true(support_get(answer, "coefficients.A.estimate") < log(0.36));
	assert_true(support_get(answer, "scale_interval.high") >
		support_get(answer, "scale"));
	err = support_calc_refused("censored",
		"{\"family\": \"weibull\", \"rows\": [{\"value\": 2.2},"
		"{\"value\": [-3, -1]}]}");
	assert_string_equal(err.field, "rows[1].value");
	err = support_calc_refused("censored",
		"{\"family\": \"weibull\", \"rows\": [{\"value\": 2.2},"
		"{\"value\": [3, 1]}]}");
	assert_string_equal(err.field, "rows[1].value");
	err = support_calc_refused("censored",
		"{\"family\": \"weibull\", \"rows\": [{\"value\": 2.2},"
		"{\"value\": 1, \"x\": 3}]}");
	assert_string_equal(err.field, "rows[1].x");
	err = support_calc_refused("censored",
		"{\"family\": \"weibull\", \"rows\": [{\"value\": 2.2},"
		"{\"valeu\": 1}]}");
	assert_string_equal(err.field, "rows[1].valeu");
	err = support_calc_refused(
		"censored", "{\"family\": \"weibull\", \"rows\": [7]}");
	assert_string_equal(err.field, "rows[0]");
	err = support_calc_refused(
		"censored", "{\"family\": \"weibull\", \"rows\": []}");
	assert_string_equal(err.field, "rows");
}

static const struct CMUnitTest tests[] = {
	TEST(censored__agrees_with_r),
	TEST(censored__agrees_with_the_fixtures),
	TEST(censored__weibull_modulus),
	TEST(censored__weibull_of_the_handbook),
	TEST(censored__exact_normal_in_closed_form),
	TEST(censored__scale_and_order_do_not_matter),
	TEST(censored__a_narrow_interval_is_a_reading),
	TEST(censored__far_ends_are_open_ends),
	TEST(censored__a_one_sided_group_gives_one_end),
	TEST(censored__says_what_cannot_be),
	TEST(censored__says_that_a_slope_is_too_good),
	TEST(censored__a_full_arena_is_said),
	TEST(censored__calc_speaks_json),
};

TEST_MAIN(tests)
