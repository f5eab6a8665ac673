/* test_trace.c - the reader of loggers' files: numbers against strtod, moments
 * against core/date.h, every way of cutting a file against reading it whole, and
 * what loads and blows come to against closed forms.  All traces are invented. */
#include "support.h"

#include "core/date.h"
#include "lab/trace_blow.h"
#include "lab/trace_load.h"
#include "lab/trace_priv.h"
#include "lab/trace_thin.h"

#include <gsl/gsl_rng.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { ROWS_MOST = 4000, TEXT_MOST = 1 << 18 };

struct kept {
	size_t n;
	struct lab_trace_row row[ROWS_MOST];
};

static enum err_code
keep(void *context, const struct lab_trace_row *row, struct err *err)
{
	struct kept *k = context;

	(void)err;
	assert_true(k->n < ROWS_MOST);
	k->row[k->n++] = *row;
	return ERR_NONE;
}

static enum err_code
read_pieces(struct fixture *fx, const struct lab_trace_ask *ask,
	const char *text, size_t n, size_t piece, struct kept *k,
	struct lab_trace_found *found)
{
	struct arena_mark mark = arena_mark(fx->a);
	struct lab_trace *trace;
	enum err_code code;

	k->n = 0;
	err_clear(&fx->err);
	assert_ok(lab_trace_open(fx->a, ask, keep, k, &trace, &fx->err),
		&fx->err);
	code = ERR_NONE;
	for (size_t at = 0; at < n && code == ERR_NONE; at += piece)
		code = lab_trace_feed(trace, text + at,
			n - at < piece ? n - at : piece, &fx->err);
	if (code == ERR_NONE)
		code = lab_trace_end(trace, &fx->err);
	*found = *lab_trace_found(trace);
	arena_back(fx->a, mark);
	return code;
}

static enum err_code
read_text(struct fixture *fx, const struct lab_trace_ask *ask, const char *text,
	struct kept *k, struct lab_trace_found *found)
{
	return read_pieces(fx, ask, text, strlen(text), TEXT_MOST, k, found);
}

static struct kept *
new_kept(struct fixture *fx)
{
	struct kept *k = arena_take(fx->a, 1, sizeof *k);

	assert_non_null(k);
	return k;
}

static gsl_rng *
generator(void)
{
	gsl_rng *rng = gsl_rng_alloc(gsl_rng_mt19937);

	assert_non_null(rng);
	gsl_rng_set(rng, 20261127);
	return rng;
}

/* ---- numbers and moments ---- */

static void
number__is_what_strtod_says(void **state)
{
	gsl_rng *rng = generator();

	(void)state;
	for (size_t i = 0; i < 200000; i++) {
		char text[64], comma[64], *dot;
		double value, again;
		int digits = 1 + (int)gsl_rng_uniform_int(rng, 19);
		double x = (gsl_rng_uniform(rng) - 0.5) *
			pow(10, (double)gsl_rng_uniform_int(rng, 60) - 30);

		(void)snprintf(text, sizeof text, i % 2 == 0 ? "%.*g" : "%.*e",
			digits, x);
		assert_int_equal(TRACE_NUMBER,
			trace_number((struct trace_field){text, strlen(text)},
				false, &value));
		assert_true(value == strtod(text, NULL));
		(void)snprintf(comma, sizeof comma, "%s", text);
		dot = strchr(comma, '.');
		if (dot != NULL)
			*dot = ',';
		assert_int_equal(TRACE_NUMBER,
			trace_number((struct trace_field){comma, strlen(comma)},
				true, &again));
		assert_true(again == value);
	}
	gsl_rng_free(rng);
}

static void
number__what_is_none_is_told_apart(void **state)
{
	static const char *const none[] = {"x", "1.2.3", "1e", "1e+", ".", "+",
		"1,5", "0x10", "1 2", "1e9999", "inf", "1-2", "--1", "e5"};
	static const char *const missing[] = {
		"", "-", "--", "---", "NaN", "nan", "OL"};
	double value;

	(void)state;
	for (size_t i = 0; i < sizeof none / sizeof none[0]; i++)
		assert_int_equal(TRACE_NO_NUMBER,
			trace_number(
				(struct trace_field){none[i], strlen(none[i])},
				false, &value));
	for (size_t i = 0; i < sizeof missing / sizeof missing[0]; i++)
		assert_int_equal(TRACE_MISSING,
			trace_number((struct trace_field){missing[i],
					     strlen(missing[i])},
				false, &value));
}

static void
stamp__is_what_the_calendar_says(void **state)
{
	/* Every ninth hour of three centuries against core/date.h. */
	struct fixture *fx = *state;

	for (int64_t s = -2208988800; s < 7258118400 - 86400;
		s += 9 * 3600 + 61 * 86400) {
		char text[DATE_TEXT_MAX];
		double got;
		int64_t again;

		date_write(s, text);
		assert_true(
			trace_stamp((struct trace_field){text, strlen(text)},
				LAB_DATE_UNKNOWN, &got));
		assert_true(got == (double)s);
		assert_ok(date_read(text, 0, &again, &fx->err), &fx->err);
		assert_int_equal(again, s);
	}
}

static bool
stamp(const char *text, enum lab_date_order order, double *s)
{
	return trace_stamp((struct trace_field){text, strlen(text)}, order, s);
}

static void
stamp__orders_are_not_guessed(void **state)
{
	double day, month, iso, dotted, s;

	(void)state;
	assert_false(stamp("03/04/2026", LAB_DATE_UNKNOWN, &s));
	assert_true(stamp("03/04/2026", LAB_DATE_DAY_FIRST, &day));
	assert_true(stamp("03/04/2026", LAB_DATE_MONTH_FIRST, &month));
	assert_true(stamp("2026-04-03", LAB_DATE_UNKNOWN, &iso));
	assert_true(stamp("3.4.2026 00:00", LAB_DATE_UNKNOWN, &dotted));
	assert_true(day == iso && dotted == iso && month != iso);
	assert_false(stamp("2026-02-29", LAB_DATE_UNKNOWN, &s));
	assert_false(stamp("31/04/2026", LAB_DATE_DAY_FIRST, &s));
	assert_false(stamp("2026-04-03 24:00", LAB_DATE_UNKNOWN, &s));
	assert_false(stamp("2026-04-03x", LAB_DATE_UNKNOWN, &s));
}

/* ---- formats ---- */

struct written {
	const char *name, *text;
	struct lab_trace_ask ask;
	double at_s, value, sag_m; /* of the second row */
	bool has_sag;
};

static const struct written ways[] = {
	{"commas", "Time (s),Load (N)\n0,1.5\n0.25,2.5\n",
		{.kind = LAB_TRACE_LOAD}, 0.25, 2.5, 0, false},
	{"semicolons and decimal commas",
		"\xEF\xBB\xBFZero\r\n\r\nTime [ms];Force [kN];Sag [mm]\r\n"
		"0;0,5;0\r\n10;1,5;0,25\r\n",
		{.kind = LAB_TRACE_LOAD}, 0.01, 1500, 0.25e-3, true},
	{"tabs, units in a line of their own",
		"t\tload\ts\tkg\nmin\tkg\tmm\tmm\n0\t1\t0\t0\n1\t2\t0\t0\n",
		{.kind = LAB_TRACE_LOAD}, 60, 2 * 9.80665, 0, false},
	{"said by name", "a,b,c\n0,1,2\n1,3,5\n",
		{.kind = LAB_TRACE_LOAD,
			.time_column = "a",
			.time_unit = "s",
			.value_column = "c",
			.value_unit = "N"},
		1, 5, 0, false},
	{"no time", "load (N)\n1\n2\n",
		{.kind = LAB_TRACE_LOAD, .step_s = 0.002}, 0.002, 2, 0, false},
	{"no heading", "0,1\n0.5,3\n",
		{.kind = LAB_TRACE_LOAD, .time_unit = "s", .value_unit = "N"},
		0.5, 3, 0, false},
	{"whole numbers before the first decimal comma",
		"Time (s);Load (N);Sag (mm)\n0;1;0\n1;2;0\n2;3;1,25\n",
		{.kind = LAB_TRACE_LOAD}, 1, 2, 0, true},
	{"no heading, by number", "0,1,7,2\n0.5,3,8,4\n",
		{.kind = LAB_TRACE_LOAD,
			.time_column = "1",
			.time_unit = "s",
			.value_column = "2",
			.value_unit = "N",
			.sag_column = "4",
			.sag_unit = "mm"},
		0.5, 3, 4e-3, true},
	{"two of one name, by number", "t (s);F (N);F (N)\n0;1;5\n1;2;6\n",
		{.kind = LAB_TRACE_LOAD, .value_column = "3"}, 1, 6, 0, false},
	{"a name that is a number is a name",
		"t (s);3 (N);F (N)\n0;1;5\n1;2;6\n",
		{.kind = LAB_TRACE_LOAD, .value_column = "3"}, 1, 2, 0, false},
	{"quotes", "\"Time, s\",\"Load, N\"\n\"0\",\"1\"\n\"2\",\"4\"\n",
		{.kind = LAB_TRACE_LOAD}, 2, 4, 0, false},
	{"an acceleration", "t_ms,acc_g\n0,1\n1,2\n", {.kind = LAB_TRACE_BLOW},
		0.001, 2 * 9.80665, 0, false},
	{"a thermometer with dates",
		"stamp,temp (degF)\n2026-03-01T08:00,68\n2026-03-01T08:30,50\n",
		{.kind = LAB_TRACE_TEMPERATURE}, 1772353800, 10, 0, false},
	{"date and clock apart",
		"date;time;T\n01.03.2026;23:59;20,5\n02.03.2026;00:01;21,5\n",
		{.kind = LAB_TRACE_TEMPERATURE,
			.value_column = "T",
			.value_unit = "degC"},
		1772409660, 21.5, 0, false},
	{"a clock past midnight", "time,temp_C\n23:59:30,20\n00:00:30,21\n",
		{.kind = LAB_TRACE_TEMPERATURE}, 86430, 21, 0, false},
};

static void
trace__finds_how_it_is_written(void **state)
{
	struct fixture *fx = *state;
	struct kept *k = new_kept(fx);

	for (size_t i = 0; i < sizeof ways / sizeof ways[0]; i++) {
		const struct written *w = &ways[i];
		struct lab_trace_found found;
		enum err_code code = read_text(fx, &w->ask, w->text, k, &found);

		if (code != ERR_NONE)
			fail_msg("%s: %s", w->name, fx->err.text);
		assert_true(k->n >= 2);
		assert_near(k->row[1].at_s, w->at_s, 1e-12, 0);
		assert_near(k->row[1].value, w->value, 1e-12, 0);
		assert_int_equal(found.has_sag, w->has_sag);
		if (w->has_sag)
			assert_near(k->row[1].sag_m, w->sag_m, 1e-12, 0);
	}
}

static void
trace__cut_anywhere_reads_the_same(void **state)
{
	struct fixture *fx = *state;
	struct kept *whole = new_kept(fx), *cut = new_kept(fx);

	for (size_t i = 0; i < sizeof ways / sizeof ways[0]; i++) {
		const struct written *w = &ways[i];
		struct lab_trace_found a, b;

		assert_ok(read_text(fx, &w->ask, w->text, whole, &a), &fx->err);
		for (size_t piece = 1; piece < 40; piece++) {
			assert_ok(read_pieces(fx, &w->ask, w->text,
					  strlen(w->text), piece, cut, &b),
				&fx->err);
			assert_int_equal(cut->n, whole->n);
			assert_memory_equal(cut->row, whole->row,
				whole->n * sizeof whole->row[0]);
			assert_int_equal(a.n_line, b.n_line);
		}
	}
}

static void
trace__longer_than_its_head_reads_the_same(void **state)
{
	/* 3,000 rows are more than the 64 KiB that are looked at. */
	struct fixture *fx = *state;
	const struct lab_trace_ask ask = {.kind = LAB_TRACE_LOAD};
	char *text = arena_take(fx->a, TEXT_MOST, 1);
	struct kept *whole = new_kept(fx), *cut = new_kept(fx);
	struct lab_trace_found found;
	size_t n;

	assert_non_null(text);
	n = (size_t)snprintf(text, TEXT_MOST, "Time (s),Load (N),Sag (mm)\n");
	for (int i = 0; i < 3000; i++)
		n += (size_t)snprintf(text + n, TEXT_MOST - n,
			"%.4f,%.6f,%.8f\n", i * 0.01, 100 * sin(i * 0.001),
			i * 0.0001);
	assert_true(n > LAB_TRACE_HEAD);
	assert_ok(read_text(fx, &ask, text, whole, &found), &fx->err);
	assert_int_equal(whole->n, 3000);
	for (size_t piece = 997; piece < LAB_TRACE_HEAD + 9000; piece += 7919) {
		assert_ok(read_pieces(fx, &ask, text, n, piece, cut, &found),
			&fx->err);
		assert_int_equal(cut->n, whole->n);
		assert_memory_equal(
			cut->row, whole->row, whole->n * sizeof whole->row[0]);
	}
}

/* ---- refused ---- */

static void
trace__what_cannot_be_read_is_refused_with_its_line(void **state)
{
	static const struct {
		const char *text, *says;
		size_t n; /* 0: to its end */
		struct lab_trace_ask ask;
	} bad[] = {
		{"", "No line of figures", 0, {.kind = LAB_TRACE_LOAD}},
		{"hello\nworld\n", "No line of figures", 0,
			{.kind = LAB_TRACE_LOAD}},
		{"Time (s),Load (N)\n0,1\n", "two rows", 0,
			{.kind = LAB_TRACE_LOAD}},
		{"Time (s),Load (N)\n0,1\n1,two\n", "Line 3", 0,
			{.kind = LAB_TRACE_LOAD}},
		{"Time (s),Load (N)\n0,1\n1,2\n0.5,3\n", "earlier", 0,
			{.kind = LAB_TRACE_LOAD}},
		{"Time (s),Load (N)\n0,1\n1,2,3\n2,3\n", "Line 3 has 3 columns",
			0, {.kind = LAB_TRACE_LOAD}},
		{"Time (s),Load\n0,1\n1,2\n", "--unit", 0,
			{.kind = LAB_TRACE_LOAD}},
		{"Time,Load (N)\n0,1\n1,2\n", "--time-unit", 0,
			{.kind = LAB_TRACE_LOAD}},
		{"Time (s),Load 1 (N),Load 2 (N)\n0,1,2\n1,2,2\n",
			"More than one column", 0, {.kind = LAB_TRACE_LOAD}},
		{"Time (s),Load (N)\n0,1\n1,2\n", "No column was found", 0,
			{.kind = LAB_TRACE_BLOW}},
		{"Time (s),Load (N)\n0,1\n1,2\n", "no unit for column", 0,
			{.kind = LAB_TRACE_LOAD, .value_unit = "mm"}},
		{"t (s);F (N)\n0;1\n1;2\n", "No column was found", 0,
			{.kind = LAB_TRACE_LOAD, .value_column = "3"}},
		{"0,1,2\n1,2,3\n", "say its number", 0,
			{.kind = LAB_TRACE_LOAD}},
		{"date,temp_C\n01/02/2026,20\n02/02/2026,21\n", "--date-order",
			0, {.kind = LAB_TRACE_TEMPERATURE}},
		{"Time (s),Load (N)\n0,5,1,2\n0,6,1,4\n",
			"cannot be told apart", 0, {.kind = LAB_TRACE_LOAD}},
		{"T\0i\0m\0e\0", "UTF-16", 8, {.kind = LAB_TRACE_LOAD}},
		{"Time (s),Load (N)\n0,1\n1,2\n2,\0003\n", "NUL", 31,
			{.kind = LAB_TRACE_LOAD}},
	};
	struct fixture *fx = *state;
	struct kept *k = new_kept(fx);

	for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
		size_t n = bad[i].n > 0 ? bad[i].n : strlen(bad[i].text);
		struct lab_trace_found found;
		enum err_code code = read_pieces(
			fx, &bad[i].ask, bad[i].text, n, 1000, k, &found);

		if (code != ERR_INPUT)
			fail_msg("%s was read", bad[i].text);
		assert_has(fx->err.text, bad[i].says);
	}
}

static void
trace__long_lines_and_missing_figures(void **state)
{
	struct fixture *fx = *state;
	const struct lab_trace_ask ask = {.kind = LAB_TRACE_LOAD};
	char *text = arena_take(fx->a, TEXT_MOST, 1);
	struct kept *k = new_kept(fx);
	struct lab_trace_found found;

	assert_non_null(text);
	(void)snprintf(text, TEXT_MOST, "Time (s),Load (N)\n0,1\n1,2\n");
	memset(text + strlen(text), '1', 5000);
	assert_int_equal(ERR_INPUT, read_text(fx, &ask, text, k, &found));
	assert_has(fx->err.text, "longer than 4096");
	/* Missing figures are skipped and counted; so is a line that was cut off
	 * when the power went. */
	assert_ok(read_text(fx, &ask,
			  "Time (s),Load (N)\n0,1\n1,\n2,NaN\n\n3,4\n4", k,
			  &found),
		&fx->err);
	assert_int_equal(k->n, 2);
	assert_int_equal(found.n_skipped, 3);
	assert_near(found.gap_s, 3, 1e-12, 0);
}

/* ---- random bytes ---- */

static void
trace__any_bytes_end_in_an_answer_or_a_sentence(void **state)
{
	static const char bits[][8] = {"0", "1", "9", ".", ",", ";", "\t", "\n",
		"\r\n", "-", "e", "N", "(s)", "\"", ":", "2026", "/", "load",
		"time", " "};
	enum { BITS = sizeof bits / sizeof bits[0] };
	struct fixture *fx = *state;
	struct kept *k = new_kept(fx);
	gsl_rng *rng = generator();

	for (size_t i = 0; i < 20000; i++) {
		const struct lab_trace_ask ask = {
			.kind = (enum lab_trace_kind)(i % 3),
			.value_unit = i % 5 == 0 ? "N" : NULL,
			.time_unit = i % 7 == 0 ? "s" : NULL,
			.step_s = i % 11 == 0 ? 1 : 0};
		struct lab_trace_found found;
		char text[400] = "";
		size_t n = 0;

		for (size_t b = gsl_rng_uniform_int(rng, 80); b > 0; b--)
			n += (size_t)snprintf(text + n, sizeof text - n, "%s",
				bits[gsl_rng_uniform_int(rng, BITS)]);
		if (read_pieces(fx, &ask, text, n,
			    1 + gsl_rng_uniform_int(rng, 50), k,
			    &found) != ERR_NONE)
			assert_true(strlen(fx->err.text) > 20);
		else
			assert_true(k->n >= 2);
	}
	gsl_rng_free(rng);
}

/* ---- what loads say ---- */

static void
feed_load(struct lab_load_peak *peak, struct lab_load_trace *trace,
	const struct lab_trace_row *row, size_t n)
{
	struct err odd = {.code = ERR_NONE};

	for (size_t i = 0; i < n; i++)
		assert_int_equal(
			ERR_NONE, lab_load_peak_row(peak, &row[i], &odd));
	trace->peak_N = peak->peak_N;
	trace->zero_N = peak->zero_N;
	trace->has_sag = true;
	for (size_t i = 0; i < n; i++)
		assert_int_equal(
			ERR_NONE, lab_load_trace_row(trace, &row[i], &odd));
}

static void
load__a_beam_with_a_mesh(void **state)
{
	/* Up 400 N/mm to 240 N at 0.6 mm, a fall to 100 N, then 150 N held to 3 mm,
	 * 12 N of zero on all: slope 4e5 N/m exactly, areas by hand: triangle
	 * 0.072 J, the fall and what comes after by trapezoids. */
	static struct lab_trace_row row[700];
	struct lab_load_peak peak = {.zero_s = 0.05};
	struct lab_load_trace trace = {0};
	double stiffness = 0, area = 0;
	size_t n = 0;

	(void)state;
	for (int i = 0; i < 10; i++, n++)
		row[n] = (struct lab_trace_row){0.005 * (double)n, 12, 0};
	for (int i = 1; i <= 60; i++, n++)
		row[n] = (struct lab_trace_row){
			0.05 + i * 0.1, 12 + 4.0 * i, 1e-5 * i};
	for (int i = 0; i <= 240; i++, n++)
		row[n] = (struct lab_trace_row){6.2 + i * 0.1,
			12 + (i == 0 ? 100 : 150), 6e-4 + 1e-5 * i};
	feed_load(&peak, &trace, row, n);
	for (size_t i = 1; i < n; i++)
		area += (row[i].value + row[i - 1].value - 24) / 2 *
			(row[i].sag_m - row[i - 1].sag_m);
	assert_near(peak.zero_N, 12, 1e-12, 0);
	assert_near(trace.crack_N, 240, 1e-12, 0);
	assert_near(trace.crack_energy_J, 240 * 6e-4 / 2, 1e-12, 0);
	assert_near(trace.energy_J, area, 1e-12, 0);
	assert_near(trace.after_N, 150, 1e-12, 0);
	assert_near(trace.end_N, 150, 1e-12, 0);
	assert_true(trace.has_cracked);
	assert_true(lab_load_stiffness(&trace, &stiffness));
	assert_near(stiffness, 4e5, 1e-9, 0);
}

static void
load__noise_is_no_crack(void **state)
{
	/* A twentieth of noise on the way up, no fall: no crack; the slope within
	 * what least squares leaves (1 %). */
	static struct lab_trace_row row[2000];
	struct lab_load_peak peak = {0};
	struct lab_load_trace trace = {0};
	gsl_rng *rng = generator();
	double stiffness = 0;

	(void)state;
	for (size_t i = 0; i < 2000; i++)
		row[i] = (struct lab_trace_row){0.01 * (double)i,
			0.5 * (double)i + 4 * (gsl_rng_uniform(rng) - 0.5),
			1e-6 * (double)i};
	feed_load(&peak, &trace, row, 2000);
	assert_false(trace.has_cracked);
	assert_true(lab_load_stiffness(&trace, &stiffness));
	assert_near(stiffness, 5e5, 0.01, 0);
	gsl_rng_free(rng);
}

/* ---- what blows say ---- */

static void
blow__a_half_sine_by_its_closed_form(void **state)
{
	/* a = A sin(pi t/T): speed lost 2 A T/pi - g T, way v0 T - A T^2/pi +
	 * g T^2/2 (A sin twice integrated), work by energy: m (v0^2 - v1^2)/2 + m g
	 * way.  What lies under a tenth of the peak is left out: 2 %. */
	const double A = 1200, T = 0.004, v0 = 4.1, m = 2.1, g = 9.80665;
	struct lab_blow_peak peak = {0};
	struct lab_blow_trace trace = {.mass = {m}, .entry_m_s = v0};
	const double pi = acos(-1.0);
	double lost = 2 * A * T / pi - g * T;
	double way = v0 * T - A * T * T / pi + g * T * T / 2;
	double work = m * (v0 * v0 - (v0 - lost) * (v0 - lost)) / 2 +
		m * g * way;
	struct err odd = {.code = ERR_NONE};

	(void)state;
	for (int pass = 0; pass < 2; pass++) {
		for (int i = -200; i < 1000; i++) {
			double t = i * 1e-5;
			const struct lab_trace_row row = {t,
				t > 0 && t < T ? -A * sin(pi * t / T) : 0, 0};

			assert_int_equal(ERR_NONE,
				pass == 0 ? lab_blow_peak_row(&peak, &row, &odd)
					  : lab_blow_trace_row(
						    &trace, &row, &odd));
		}
		trace.peak = peak;
	}
	assert_true(peak.is_down && trace.is_whole);
	assert_near(peak.peak_m_s2, A, 1e-4, 0);
	assert_near(trace.speed_lost_m_s, lost, 0.02, 0);
	assert_near(trace.energy_J, work, 0.02, 0);
	/* The bar moves on while the acceleration is still small. */
	assert_near(trace.depth_m, way, 0.1, 0);
	assert_near(trace.to_s - trace.from_s, T * (1 - 2 * asin(0.1) / pi),
		0.01, 0);
}

static void
blow__cut_off_is_told(void **state)
{
	const struct lab_trace_row row[] = {
		{0, 900, 0}, {0.001, 1000, 0}, {0.002, 500, 0}, {0.003, 0, 0}};
	struct lab_blow_trace trace = {0};
	struct err odd = {.code = ERR_NONE};

	(void)state;
	for (size_t i = 0; i < 4; i++)
		assert_int_equal(ERR_NONE,
			lab_blow_peak_row(&trace.peak, &row[i], &odd));
	for (size_t i = 0; i < 4; i++)
		assert_int_equal(
			ERR_NONE, lab_blow_trace_row(&trace, &row[i], &odd));
	assert_false(trace.is_whole);
}

/* ---- few points ---- */

static void
thin__keeps_ends_extremes_and_mean(void **state)
{
	struct fixture *fx = *state;
	gsl_rng *rng = generator();

	for (size_t n = 1; n < 300000; n = n * 5 + 3) {
		struct lab_thin *thin = arena_take(fx->a, 1, sizeof *thin);
		double sum = 0, low = 1e9, high = -1e9, again = 0, t = 0;
		double least = 1e9, most = -1e9, count = 0;

		assert_non_null(thin);
		for (size_t i = 0; i < n; i++) {
			const struct lab_trace_row row = {
				t, gsl_rng_uniform(rng) * 100, 0};

			t += gsl_rng_uniform(rng);
			sum += row.value;
			low = fmin(low, row.value);
			high = fmax(high, row.value);
			assert_int_equal(
				ERR_NONE, lab_thin_row(thin, &row, &fx->err));
		}
		assert_true(thin->n >= 1 && thin->n <= LAB_THIN_MOST);
		assert_true(n < LAB_THIN_MOST || thin->n > LAB_THIN_MOST / 4);
		for (size_t i = 0; i < thin->n; i++) {
			again += thin->point[i].mean * (double)thin->point[i].n;
			count += (double)thin->point[i].n;
			least = fmin(least, thin->point[i].low);
			most = fmax(most, thin->point[i].high);
			assert_true(
				thin->point[i].from_s <= thin->point[i].to_s);
			if (i > 0)
				assert_true(thin->point[i - 1].to_s <=
					thin->point[i].from_s);
		}
		assert_near(again, sum, 1e-9, 0);
		assert_true(count == (double)n && least == low && most == high);
	}
	gsl_rng_free(rng);
}

static const struct CMUnitTest tests[] = {
	TEST(number__is_what_strtod_says),
	TEST(number__what_is_none_is_told_apart),
	TEST(stamp__is_what_the_calendar_says),
	TEST(stamp__orders_are_not_guessed),
	TEST(trace__finds_how_it_is_written),
	TEST(trace__cut_anywhere_reads_the_same),
	TEST(trace__longer_than_its_head_reads_the_same),
	TEST(trace__what_cannot_be_read_is_refused_with_its_line),
	TEST(trace__long_lines_and_missing_figures),
	TEST(trace__any_bytes_end_in_an_answer_or_a_sentence),
	TEST(load__a_beam_with_a_mesh),
	TEST(load__noise_is_no_crack),
	TEST(blow__a_half_sine_by_its_closed_form),
	TEST(blow__cut_off_is_told),
	TEST(thin__keeps_ends_extremes_and_mean),
};

TEST_MAIN(tests)
