/* test_logger.c - traces and cures on a book of their own: kept byte for byte,
 * refused without a change, and worth what the maturity of the whole log is.
 * All figures are invented. */
#include "support.h"
#include "yard.h"

#include "lab/maturity.h"
#include "lab/strength_age.h"
#include "work/bytes.h"
#include "work/cure.h"
#include "work/result_words.h"
#include "work/trace.h"
#include "work/trace_curve.h"
#include "work/trace_how.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { TEXT_MOST = 1 << 20 };

/* A text as a source. */
struct held {
	const char *text;
	size_t n, at;
};

static enum err_code
held_read(void *context, char *bytes, size_t room, size_t *n, struct err *err)
{
	struct held *h = context;

	(void)err;
	*n = h->n - h->at < room ? h->n - h->at : room;
	/* In odd pieces, as a disk may give them. */
	*n = *n > 977 ? 977 : *n;
	memcpy(bytes, h->text + h->at, *n);
	h->at += *n;
	return ERR_NONE;
}

static enum err_code
held_rewind(void *context, struct err *err)
{
	struct held *h = context;

	(void)err;
	h->at = 0;
	return ERR_NONE;
}

static enum err_code
put(struct fixture *f, struct yard *y, const char *text,
	struct work_trace_ask ask, struct work_trace_told *told)
{
	struct held held = {text, strlen(text), 0};
	const struct book_source source = {held_read, held_rewind, &held};

	ask.name = "log.csv";
	ask.typed = "{}";
	err_clear(&f->err);
	return work_trace_put(&y->desk, f->a, &source, &ask, told, &f->err);
}

/* ---- kept ---- */

struct taken {
	char *text;
	size_t n;
};

static enum err_code
take(void *context, const char *bytes, size_t n, struct err *err)
{
	struct taken *t = context;

	(void)err;
	assert_true(t->n + n <= TEXT_MOST);
	memcpy(t->text + t->n, bytes, n);
	t->n += n;
	return ERR_NONE;
}

/* A log of so many rows, one in ten minutes from 2026-03-01 12:00 on. */
static const char *
long_log(struct fixture *f, size_t rows)
{
	char *text = arena_take(f->a, TEXT_MOST, 1);
	size_t n;

	assert_non_null(text);
	n = (size_t)snprintf(text, TEXT_MOST, "minutes;temp (degC)\n");
	for (size_t i = 0; i < rows; i++)
		n += (size_t)snprintf(text + n, TEXT_MOST - n, "%zu;%.4f\n",
			10 * i,
			14 + 6 * sin((double)i / 144 * 2 * acos(-1.0)) -
				(double)i / 1000);
	return text;
}

static const struct lab_trace_ask temperature = {.kind = LAB_TRACE_TEMPERATURE,
	.time_column = "minutes",
	.time_unit = "min"};

static void
trace__is_kept_byte_for_byte(void **state)
{
	struct fixture *f = *state;
	const char *text = long_log(f, 30000);
	struct taken got = {arena_take(f->a, TEXT_MOST, 1), 0};
	struct work_trace_told told, again;
	struct work_traces all;
	struct yard y;
	size_t n;

	assert_non_null(got.text);
	yard_furnish(f, &y);
	n = yard_entries(f, &y);
	assert_ok(put(f, &y, text, (struct work_trace_ask){.how = temperature},
			  &told),
		&f->err);
	assert_int_equal(told.file_bytes, strlen(text));
	/* The same bytes again are a second trace of one file. */
	assert_ok(put(f, &y, text, (struct work_trace_ask){.how = temperature},
			  &again),
		&f->err);
	assert_ok(work_traces(&y.desk, f->a, &all, &f->err), &f->err);
	assert_int_equal(all.n_trace, 2);
	assert_int_equal(all.n_file, 1);
	assert_ok(
		book_read_file(y.desk.book, &all.file[0], take, &got, &f->err),
		&f->err);
	assert_int_equal(got.n, strlen(text));
	assert_memory_equal(got.text, text, got.n);
	assert_int_equal(yard_entries(f, &y), n + 2); /* and verified */
	yard_close(&y);
}

static void
trace__what_is_wrong_changes_nothing(void **state)
{
	static const char load[] = "Time (s),Load (N)\n0,0\n1,200\n2,10\n";
	struct fixture *f = *state;
	struct work_trace_told told;
	struct yard y;
	size_t n;

	yard_furnish(f, &y);

	const struct {
		const char *text;
		struct work_trace_ask ask;
		enum err_code want;
		const char *says;
	} bad[] = {
		{load, {.how = {.kind = LAB_TRACE_LOAD}}, ERR_INPUT,
			"belongs to a test piece"},
		{load, {.piece = "ZZZZ", .how = {.kind = LAB_TRACE_LOAD}},
			ERR_NOT_FOUND, "ZZZZ"},
		{"Time (s),Load (N)\n0,0\n1,x\n",
			{.piece = y.piece[0], .how = {.kind = LAB_TRACE_LOAD}},
			ERR_INPUT, "Line 3"},
		{"Time (s),Load (N)\n0,-1\n1,-5\n",
			{.piece = y.piece[0], .how = {.kind = LAB_TRACE_LOAD}},
			ERR_INPUT, "nothing pressed"},
		{load,
			{.piece = y.piece[0],
				.how = {.kind = LAB_TRACE_LOAD},
				.test = "bending",
				.span_m = {true, 0.71}},
			ERR_INPUT, "longer than the beam"},
		{load,
			{.piece = y.piece[0],
				.how = {.kind = LAB_TRACE_LOAD},
				.test = "drop"},
			ERR_INPUT, "bending or a crushing"},
		{load,
			{.piece = y.piece[0],
				.how = {.kind = LAB_TRACE_LOAD},
				.on = "2026-02-27"},
			ERR_INPUT, "was cast on"},
	};

	n = yard_entries(f, &y);
	for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
		assert_int_equal(bad[i].want,
			put(f, &y, bad[i].text, bad[i].ask, &told));
		assert_has(f->err.text, bad[i].says);
	}
	assert_int_equal(n, yard_entries(f, &y));
	yard_close(&y);
}

static void
trace__its_highest_load_is_a_reading(void **state)
{
	/* 150.0 N, read to 0.5: between 149.75 and 150.25 N, hanger 1.2 kg more. */
	struct fixture *f = *state;
	const double per_N = 6.0 / (0.1 * 0.075 * 0.075) * 0.6 / 4;
	struct work_trace_told told;
	struct work_results all;
	struct work_site site;
	struct yard y;

	yard_furnish(f, &y);
	assert_ok(put(f, &y, "Time (s),Load (N)\n0,0\n1,149.5\n2,150\n3,3\n",
			  (struct work_trace_ask){.piece = y.piece[0],
				  .how = {.kind = LAB_TRACE_LOAD},
				  .test = "bending",
				  .span_m = {true, 0.6},
				  .hanger_kg = {true, 1.2}},
			  &told),
		&f->err);
	assert_ok(work_site_read(y.desk.book, f->a, &site, &f->err), &f->err);
	assert_ok(work_results(f->a, &site, &all, &f->err), &f->err);
	assert_int_equal(all.n_result, 1);
	assert_near(all.result[0].value.low, (149.75 + 1.2 * 9.80665) * per_N,
		1e-9, 0);
	assert_near(all.result[0].value.high, (150.25 + 1.2 * 9.80665) * per_N,
		1e-9, 0);
	yard_close(&y);
}

static void
trace__looked_at_tells_the_same_and_writes_nothing(void **state)
{
	static const char text[] =
		"Time (s);Load (N);Sag (mm)\n0;0;0\n1;149,5;1,1\n2;150;1,2\n"
		"3;3;4\n";
	struct fixture *f = *state;
	struct work_bytes held = {text, strlen(text), 0};
	const struct book_source source = work_bytes_source(&held);
	struct work_trace_ask ask = {.name = "log.csv",
		.typed = "{}",
		.how = {.kind = LAB_TRACE_LOAD}};
	struct work_trace_look look;
	struct work_trace_told told;
	struct yard y;
	size_t n;

	yard_furnish(f, &y);
	n = yard_entries(f, &y);
	/* Refused for want of a piece, but understood. */
	assert_int_equal(ERR_INPUT,
		work_trace_look(&y.desk, f->a, &source, &ask, &look, &f->err));
	assert_string_equal("piece", f->err.field);
	assert_true(look.is_read);
	assert_int_equal(look.found.separator, ';');
	assert_string_equal(look.found.column_name[1], "Load");
	err_clear(&f->err);
	ask.piece = y.piece[0];
	assert_ok(work_trace_look(&y.desk, f->a, &source, &ask, &look, &f->err),
		&f->err);
	assert_int_equal(look.n_first, 3);
	assert_near(look.first[1].sag_m, 1.1e-3, 1e-12, 0);
	assert_near(look.last.value, 3, 1e-12, 0);
	assert_int_equal(n, yard_entries(f, &y));
	assert_ok(put(f, &y, text, ask, &told), &f->err);
	assert_int_equal(told.n_sentence, look.n_sentence);
	for (size_t i = 0; i < told.n_sentence; i++)
		assert_string_equal(told.sentence[i], look.sentence[i]);
	assert_int_equal(n + 1, yard_entries(f, &y));
	/* Not understood: as far as it was. */
	held = (struct work_bytes){"a;F 1;F 2\n0;1;2\n1;2;3\n", 25, 0};
	assert_int_equal(ERR_INPUT,
		work_trace_look(&y.desk, f->a, &source, &ask, &look, &f->err));
	assert_false(look.is_read);
	assert_int_equal(look.found.n_column, 3);
	assert_string_equal(look.found.column_name[2], "F 2");
	yard_close(&y);
}

static void
how__kept_is_read_back(void **state)
{
	static const struct lab_trace_found way[] = {
		{.separator = ';',
			.decimal_comma = true,
			.heading_line = 12,
			.time = {.has = true, .name = "Time, all", .unit = "s"},
			.value = {.name = "Load in it", .unit = "kN"},
			.has_sag = true,
			.sag = {.name = "Sag", .unit = "mm"}},
		{.separator = '\t',
			.value = {.unit = "N"},
			.has_sag = true,
			.sag = {.unit = "mm"}},
		{.separator = ',', .value = {.unit = "N"}},
		{.separator = '\0',
			.heading_line = 1,
			.time = {.has = true, .name = "date"},
			.value = {.name = "temp", .unit = "degC"}},
	};
	struct fixture *f = *state;

	for (size_t i = 0; i < sizeof way / sizeof way[0]; i++) {
		const char *kept = work_trace_how_kept(f->a, &way[i]);

		assert_non_null(kept);
		assert_string_equal(kept, work_trace_how(f->a, kept));
	}
	assert_string_equal("by hand", work_trace_how(f->a, "by hand"));
}

static void
curve__has_the_units_and_the_zero(void **state)
{
	struct fixture *f = *state;
	struct work_trace_told told;
	struct work_curve curve;
	size_t together;
	struct yard y;

	yard_furnish(f, &y);
	assert_ok(put(f, &y,
			  "Time (ms);Load (N);Sag (mm)\n0;2;0\n100;2;0\n"
			  "200;152;1,25\n300;12;4\n",
			  (struct work_trace_ask){.piece = y.piece[0],
				  .zero_s = {true, 0.1},
				  .how = {.kind = LAB_TRACE_LOAD}},
			  &told),
		&f->err);
	assert_ok(work_trace_curve(
			  &y.desk, f->a, &told.row, false, &curve, &f->err),
		&f->err);
	assert_int_equal(curve.n_point, 4);
	assert_string_equal(curve.x_unit, "ms");
	assert_near(curve.point[2].x, 200, 1e-12, 0);
	assert_near(curve.point[2].mean, 150, 1e-12, 0);
	assert_near(curve.peak.value, 150, 1e-12, 0);
	assert_true(curve.crack.has);
	assert_ok(work_trace_curve(
			  &y.desk, f->a, &told.row, true, &curve, &f->err),
		&f->err);
	assert_string_equal(curve.x_unit, "mm");
	assert_ok(
		work_curve_fewer(f->a, &curve, 2, &together, &f->err), &f->err);
	assert_int_equal(curve.n_point, 2);
	assert_int_equal(together, 2);
	assert_near(curve.point[1].mean, (150 + 10) / 2.0, 1e-12, 0);
	assert_near(curve.point[1].low, 10, 1e-12, 0);
	assert_near(curve.point[1].high, 150, 1e-12, 0);
	assert_ok(work_trace_curve(
			  &y.desk, f->a, &told.row, true, &curve, &f->err),
		&f->err);
	assert_ok(
		work_curve_fewer(f->a, &curve, 4, &together, &f->err), &f->err);
	assert_int_equal(together, 1);
	assert_near(curve.point[2].x, 1.25, 1e-12, 0);
	assert_ok(put(f, &y,
			  "stamp,temp_C\n2026-03-01 12:00,10\n"
			  "2026-03-01 13:00,11\n2026-03-01 14:00,12\n"
			  "2026-03-01 15:00,13\n2026-03-01 16:00,12\n"
			  "2026-03-09 12:00,20\n",
			  (struct work_trace_ask){
				  .how = {.kind = LAB_TRACE_TEMPERATURE}},
			  &told),
		&f->err);
	assert_ok(work_trace_curve(
			  &y.desk, f->a, &told.row, false, &curve, &f->err),
		&f->err);
	assert_string_equal(curve.since, "2026-03-01T12:00:00Z");
	assert_string_equal(curve.x_unit, "d");
	assert_false(curve.peak.has);
	assert_int_equal(ERR_INPUT,
		work_trace_curve(
			&y.desk, f->a, &told.row, true, &curve, &f->err));
	yard_close(&y);
}

/* ---- cures ---- */

static enum err_code
cure(struct fixture *f, struct yard *y, struct work_cure_ask ask)
{
	struct work_cure_told told;

	ask.typed = "{}";
	err_clear(&f->err);
	return work_cure_put(&y->desk, f->a, &ask, &told, &f->err);
}

static struct work_cured
cured(struct fixture *f, struct yard *y, double age_s)
{
	struct work_site site;
	struct work_cures cures;

	assert_ok(work_site_read(y->desk.book, f->a, &site, &f->err), &f->err);
	assert_ok(work_cures(&y->desk, f->a, &cures, &f->err), &f->err);
	return work_cured(&site, &cures, 0, age_s);
}

static void
cure__a_log_is_worth_its_maturity(void **state)
{
	/* The whole log by lab_maturity; few points of it leave 0.2 %. */
	struct fixture *f = *state;
	enum { ROWS = 5000 };
	struct lab_log_reading *log = arena_take(f->a, ROWS, sizeof *log);
	struct lab_maturity all = {.reading = log,
		.n_reading = ROWS,
		.activation_J_mol = lab_default_activation_J_mol,
		.reference = {lab_default_reference_degC}};
	struct lab_matured want;
	struct work_trace_told told;
	struct work_cured got;
	struct yard y;

	assert_non_null(log);
	for (size_t i = 0; i < ROWS; i++)
		log[i] = (struct lab_log_reading){{600.0 * (double)i},
			{14 + 6 * sin((double)i / 144 * 2 * acos(-1.0)) -
				(double)i / 1000}};
	assert_ok(lab_maturity(&all, &want, &f->err), &f->err);
	yard_furnish(f, &y);
	assert_ok(put(f, &y, long_log(f, ROWS),
			  (struct work_trace_ask){
				  .code = "store", .how = temperature},
			  &told),
		&f->err);
	assert_ok(cure(f, &y,
			  (struct work_cure_ask){
				  .batch = "T-01", .trace = "store"}),
		&f->err);
	got = cured(f, &y, 600.0 * (ROWS - 1));
	assert_true(got.is_usable);
	assert_near(got.equivalent_s, want.equivalent_age.s, 0.002, 0);
	assert_near(got.nurse_saul_degC_h, want.nurse_saul_degC_h, 0.002, 0);
	assert_near(got.mean_degC, want.mean_degC, 0.002, 0);
	/* Of a longer age too little is known. */
	got = cured(f, &y, 600.0 * ROWS * 1.2);
	assert_true(got.has && !got.is_usable);
	yard_close(&y);
}

static void
cure__at_twenty_degrees_an_age_is_itself(void **state)
{
	struct fixture *f = *state;
	struct work_cured got;
	struct yard y;

	yard_furnish(f, &y);
	assert_false(cured(f, &y, 28 * 86400.0).has);
	assert_ok(cure(f, &y,
			  (struct work_cure_ask){.trial = "T",
				  .degc = {true, 20},
				  .to = "2026-03-29",
				  .keeping = "wrapped"}),
		&f->err);
	got = cured(f, &y, 28 * 86400.0);
	assert_true(got.is_usable);
	assert_near(got.equivalent_s, 28 * 86400.0, 1e-9, 0);
	assert_string_equal(got.keeping, "wrapped");
	/* Entered twice for the same while it counts once. */
	assert_ok(cure(f, &y,
			  (struct work_cure_ask){.batch = "T-01",
				  .degc = {true, 35},
				  .from = "2026-03-05",
				  .to = "2026-03-09"}),
		&f->err);
	got = cured(f, &y, 28 * 86400.0);
	assert_near(got.known_ratio, 1, 1e-9, 0);
	yard_close(&y);
}

static void
cure__what_is_wrong_is_refused(void **state)
{
	static const struct {
		struct work_cure_ask ask;
		enum err_code want;
		const char *says;
	} bad[] = {
		{{.batch = "T-01"}, ERR_INPUT, "--temperature"},
		{{.degc = {true, 20}, .to = "2026-03-29"}, ERR_INPUT,
			"--trial"},
		{{.batch = "T-01", .degc = {true, 20}}, ERR_INPUT, "--to"},
		{{.batch = "T-01", .degc = {true, 20}, .to = "2026-02-01"},
			ERR_INPUT, "before it begins"},
		{{.batch = "T-01", .degc = {true, 300}, .to = "2026-03-29"},
			ERR_INPUT, "300"},
		{{.batch = "T-01", .trace = "none"}, ERR_NOT_FOUND, "none"},
		{{.batch = "T-09", .degc = {true, 20}, .to = "2026-03-29"},
			ERR_NOT_FOUND, "T-09"},
		{{.batch = "T-01",
			 .degc = {true, 20},
			 .to = "2026-03-29",
			 .keeping = "buried"},
			ERR_INPUT, "buried"},
	};
	struct fixture *f = *state;
	struct yard y;
	size_t n;

	yard_furnish(f, &y);
	n = yard_entries(f, &y);
	for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
		assert_int_equal(bad[i].want, cure(f, &y, bad[i].ask));
		assert_has(f->err.text, bad[i].says);
	}
	assert_int_equal(n, yard_entries(f, &y));
	yard_close(&y);
}

static void
at_28__follows_the_published_relation(void **state)
{
	/* 7 days at 20 degC: EN 1992-1-1, eq. 3.2, s 0.25: over exp(0.25 (1 -
	 * sqrt(28/7))) = exp(-0.25). */
	struct fixture *f = *state;
	struct work_result r = {.measure = CHOOSE_CRUSHING_STRENGTH,
		.value = {1e6, 1.1e6},
		.age_s = {true, 7 * 86400.0}};
	const struct work_cures none = {.n_cure = 0};
	struct work_site site;
	struct work_at_28 at;
	struct yard y;

	yard_furnish(f, &y);
	assert_ok(work_site_read(y.desk.book, f->a, &site, &f->err), &f->err);
	at = work_at_28(&site, &none, &r);
	assert_true(at.has);
	assert_near(at.value.low, 1e6 * exp(0.25), 1e-9, 0);
	assert_near(at.value.high, 1.1e6 * exp(0.25), 1e-9, 0);
	assert_true(at.widest.low <= at.value.low &&
		at.widest.high >= at.value.high);
	assert_has(work_at_28_text(f->a, &r, &at), "as if it cured at 20");
	r.age_s.value = 28 * 86400.0;
	assert_false(work_at_28(&site, &none, &r).has);
	r.measure = CHOOSE_DENT;
	assert_false(work_at_28(&site, &none, &r).has);
	yard_close(&y);
}

static const struct CMUnitTest tests[] = {
	TEST(trace__is_kept_byte_for_byte),
	TEST(trace__what_is_wrong_changes_nothing),
	TEST(trace__its_highest_load_is_a_reading),
	TEST(trace__looked_at_tells_the_same_and_writes_nothing),
	TEST(how__kept_is_read_back),
	TEST(curve__has_the_units_and_the_zero),
	TEST(cure__a_log_is_worth_its_maturity),
	TEST(cure__at_twenty_degrees_an_age_is_itself),
	TEST(cure__what_is_wrong_is_refused),
	TEST(at_28__follows_the_published_relation),
};

TEST_MAIN(tests)
