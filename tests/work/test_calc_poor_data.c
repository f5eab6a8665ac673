/* test_calc_poor_data.c - every statistical calculation with too little, too
 * much, or nonsense: the right answer or one clear sentence, and never a number
 * that is none. */
#include "support.h"

#include "work/calc.h"

#include <stdio.h>
#include <string.h>

/* The samples, each as a list of values. */
static const char *const sample[][6] = {
	{"2.1"},
	{"2.1", "2.1", "2.1", "2.1"},
	{"0", "0", "0"},
	{"1e308", "9e307", "1.1e308", "1.2e308"},
	{"1e308", "-1e308", "5e307", "2e307"},
	{"1e-308", "2e-308", "1.5e-308", "3e-308"},
	{"5e-324", "1e-323", "2e-323", "3e-323"},
	{"1e-308", "1", "1e308"},
	{"1", "1.0000000000000002", "1", "1.0000000000000002"},
	{NULL},
};

enum { N_SAMPLE = sizeof sample / sizeof sample[0], QUESTION_MAX = 1024 };

/* A sentence, and one only; or an answer in which null has its note. */
static void
ask(struct arena *a, const char *name, const char *question)
{
	const struct calc_entry *entry = work_calc_find(name);
	const struct arena_mark mark = arena_mark(a);
	struct err err = {0};
	const char *answer = NULL;

	assert_non_null(entry);
	if (work_calc(entry, a, question, strlen(question), &answer, &err) !=
		ERR_NONE) {
		assert_int_not_equal(ERR_MEMORY, err.code);
		assert_true(strlen(err.text) > 10);
		assert_lacks(err.text, "nan");
		assert_null(strchr(err.text, '\n'));
	} else {
		const char *notes = strstr(answer, "\"notes\": [");

		assert_non_null(notes);
		assert_lacks(answer, "nan");
		assert_lacks(answer, ": inf");
		assert_lacks(answer, ": -inf");
		/* without prior_sd "known" is null by its form */
		if (strstr(answer, "null") != NULL &&
			strcmp(name, "characteristic") != 0)
			assert_lacks(notes, "\"notes\": []");
	}
	arena_back(a, mark);
}

/* "a, b, c" with each value put between before and after. */
static void
join(char *to, const char *const *value, const char *before, const char *after)
{
	size_t n = 0;

	*to = '\0';
	for (size_t i = 0; i < 6 && value[i] != NULL; i++)
		n += (size_t)snprintf(to + n, QUESTION_MAX - n, "%s%s%s%s",
			i > 0 ? ", " : "", before, value[i], after);
}

static void
ask_with(struct arena *a, const char *name, const char *const *value,
	const char *before, const char *after, const char *form)
{
	char list[QUESTION_MAX], question[2 * QUESTION_MAX];
	size_t n = 0;

	join(list, value, before, after);
	for (; *form != '\0'; form++)
		n += *form == '@' ? (size_t)snprintf(question + n,
					    sizeof question - n, "%s", list)
				  : (size_t)snprintf(question + n,
					    sizeof question - n, "%c", *form);
	ask(a, name, question);
}

static void
calc__takes_any_list(void **state)
{
	static const char *const form[][2] = {
		{"summary", "{\"values\": [@]}"},
		{"outlier", "{\"values\": [@]}"},
		{"characteristic", "{\"values\": [@]}"},
		{"characteristic", "{\"values\": [@], \"prior_sd\": 0.1}"},
		{"characteristic", "{\"values\": [@], \"log\": true}"},
		{"resample",
			"{\"values\": [@], \"statistic\": \"mean\", "
			"\"draws\": 200}"},
		{"resample",
			"{\"values\": [@], \"statistic\": \"median\", "
			"\"draws\": 200}"},
		{"resample",
			"{\"values\": [@], \"statistic\": \"sd\", \"draws\": "
			"200}"},
		{"resample",
			"{\"values\": [@], \"statistic\": \"cv\", \"draws\": "
			"200}"},
		{"regress", "{\"x\": [@], \"y\": [@]}"},
		{"regress", "{\"x\": [1, 2, 3, 4], \"y\": [@]}"},
		{"regress", "{\"x\": [@], \"y\": [@], \"degree\": 2}"},
	};
	struct fixture *f = *state;

	for (size_t i = 0; i < sizeof form / sizeof form[0]; i++)
		for (size_t s = 0; s < N_SAMPLE; s++)
			ask_with(f->a, form[i][0], sample[s], "", "",
				form[i][1]);
}

static void
calc__takes_any_groups(void **state)
{
	static const char *const name[] = {
		"anova", "against-baseline", "all-pairs", "ranks", "permute"};
	static const char *const form[] = {
		"{\"groups\": {\"A\": [@]}}",
		"{\"groups\": {\"A\": [@], \"B\": [@]}}",
		"{\"groups\": {\"A\": [@], \"B\": [1.7, 2.3]}}",
		"{\"groups\": {\"A\": [@], \"B\": [1.7]}}",
		"{\"groups\": {\"A\": [@], \"B\": [1.7], \"C\": [@]}}",
		"{\"groups\": {}}",
	};
	struct fixture *f = *state;

	for (size_t n = 0; n < sizeof name / sizeof name[0]; n++)
		for (size_t i = 0; i < sizeof form / sizeof form[0]; i++)
			for (size_t s = 0; s < N_SAMPLE; s++)
				ask_with(f->a, name[n], sample[s], "", "",
					form[i]);
	for (size_t s = 0; s < N_SAMPLE; s++)
		ask_with(f->a, "all-pairs", sample[s], "", "",
			"{\"groups\": {\"A\": [@], \"B\": [1.7, 2.3]}, "
			"\"method\": \"unequal-variance\"}");
}

/* One batch, a batch with one specimen, a mix with one batch. */
static void
calc__takes_any_rows(void **state)
{
	static const char one[] = "{\"rows\": [@]}";
	static const char two[] = "{\"rows\": [@, {\"batch\": 2, \"value\": "
				  "2.7}, {\"batch\": 2, \"value\": 1.9}]}";
	struct fixture *f = *state;

	for (size_t s = 0; s < N_SAMPLE; s++) {
		ask_with(f->a, "variance", sample[s],
			"{\"batch\": 1, \"value\": ", "}", one);
		ask_with(f->a, "variance", sample[s],
			"{\"batch\": 1, \"value\": ", "}", two);
		ask_with(f->a, "variance", sample[s],
			"{\"group\": \"A\", \"batch\": 1, \"value\": ", "}",
			one);
	}
}

/* Exact, all open on one side, on the other, and no width at all. */
static void
calc__takes_any_readings(void **state)
{
	static const char *const open[][2] = {
		{"", ""}, {"[", ", null]"}, {"[null, ", "]"}, {"[0, ", "]"}};
	static const char *const family[] = {"lognormal", "weibull", "normal"};
	char before[64], after[64], form[128];
	struct fixture *f = *state;

	for (size_t s = 0; s < N_SAMPLE; s++)
		for (size_t o = 0; o < 4; o++) {
			(void)snprintf(before, sizeof before, "{\"value\": %s",
				open[o][0]);
			(void)snprintf(after, sizeof after, "%s}", open[o][1]);
			for (size_t k = 0; k < 3; k++) {
				(void)snprintf(form, sizeof form,
					"{\"family\": \"%s\", \"rows\": [@]}",
					family[k]);
				ask_with(f->a, "censored", sample[s], before,
					after, form);
			}
			(void)snprintf(before, sizeof before,
				"{\"mix\": \"A\", \"batch\": 1, \"value\": %s",
				open[o][0]);
			ask_with(f->a, "hierarchy", sample[s], before, after,
				"{\"draws\": 50, \"rows\": [@]}");
			ask_with(f->a, "hierarchy", sample[s], before, after,
				"{\"draws\": 50, \"rows\": [@, {\"mix\": "
				"\"B\", \"batch\": 2, \"value\": 2.4}]}");
		}
}

static void
calc__takes_any_numbers(void **state)
{
	static const char *const number[] = {"0", "1", "-1", "1e308", "-1e308",
		"1e-308", "5e-324", "1e15", "0.5", "null", "\"x\"", "[1]"};
	static const char *const form[][2] = {
		{"power",
			"{\"difference\": @, \"sd_batch\": 0.1, "
			"\"sd_specimen\": 0.1, \"specimens_per_batch\": 3}"},
		{"power",
			"{\"difference\": 0.1, \"sd_batch\": @, "
			"\"sd_specimen\": @, \"specimens_per_batch\": 3}"},
		{"power",
			"{\"difference\": 0.1, \"sd_batch\": 0.1, "
			"\"sd_specimen\": 0.1, \"specimens_per_batch\": @}"},
		{"run-length", "{\"chart\": \"shewhart\", \"limit\": @}"},
		{"run-length",
			"{\"chart\": \"shewhart\", \"limit\": 3, "
			"\"shift\": @}"},
		{"run-length",
			"{\"chart\": \"ewma\", \"lambda\": @, "
			"\"width\": 3}"},
		{"run-length",
			"{\"chart\": \"ewma\", \"lambda\": 0.2, "
			"\"width\": @}"},
		{"run-length",
			"{\"chart\": \"cusum\", \"reference\": @, "
			"\"decision\": 4}"},
		{"run-length",
			"{\"chart\": \"cusum\", \"reference\": 0.5, "
			"\"decision\": @}"},
		{"tolerance",
			"{\"n\": @, \"content\": 0.9, \"confidence\": "
			"0.9, \"sided\": \"two\"}"},
		{"tolerance",
			"{\"n\": 5, \"content\": @, \"confidence\": 0.9, "
			"\"sided\": \"two\"}"},
		{"tolerance",
			"{\"n\": 5, \"content\": 0.9, \"confidence\": @, "
			"\"sided\": \"two\"}"},
		{"tolerance",
			"{\"n\": 5, \"content\": @, \"confidence\": @, "
			"\"sided\": \"one\"}"},
		{"counts",
			"{\"a\": {\"failed\": @, \"of\": @}, \"b\": "
			"{\"failed\": 0, \"of\": 3}}"},
		{"counts",
			"{\"a\": {\"failed\": 1, \"of\": @}, \"b\": "
			"{\"failed\": 0, \"of\": 3}}"},
		{"summary", "{\"values\": @}"},
		{"anova", "{\"groups\": @}"},
		{"variance", "{\"rows\": [@]}"},
		{"censored", "{\"rows\": [@], \"family\": \"normal\"}"},
		{"hierarchy", "{\"rows\": [@]}"},
	};
	struct fixture *f = *state;

	for (size_t i = 0; i < sizeof form / sizeof form[0]; i++)
		for (size_t k = 0; k < sizeof number / sizeof number[0]; k++) {
			const char *value[6] = {number[k]};

			ask_with(f->a, form[i][0], value, "", "", form[i][1]);
		}
}

/* Not a number, too large for one, upside down, without any bound. */
static void
calc__refuses_nonsense_by_name(void **state)
{
	static const char upside_down[] = "\"value\": [3.2, 2.9]";
	static const char boundless[] = "\"value\": [null, null]";
	char question[256];

	(void)state;
	(void)support_calc_refused("summary", "{\"values\": [NaN, 1]}");
	(void)support_calc_refused("summary", "{\"values\": [1e999, 1]}");
	for (size_t i = 0; i < 2; i++) {
		const char *value = i == 0 ? upside_down : boundless;
		struct err err = {.code = ERR_NONE};

		(void)snprintf(question, sizeof question,
			"{\"family\": \"normal\", \"rows\": [{%s}]}", value);
		err = support_calc_refused("censored", question);
		assert_string_equal("rows[0].value", err.field);
		(void)snprintf(question, sizeof question,
			"{\"rows\": [{\"mix\": \"A\", \"batch\": \"1\", %s}]}",
			value);
		err = support_calc_refused("hierarchy", question);
		assert_string_equal("rows[0].value", err.field);
	}
}

/* Values times a power of ten keep every ratio: at the ends of the range the
 * answers are those of plain numbers. */
static void
calc__keeps_ratios_at_the_ends_of_the_range(void **state)
{
	static const char *const scaled[] = {"[1e308, 0.9e308, 1.1e308, "
					     "1.5e308, 0.3e308]",
		"[1e-300, 0.9e-300, 1.1e-300, 1.5e-300, 0.3e-300]"};
	static const char plain[] = "[1, 0.9, 1.1, 1.5, 0.3]";
	struct fixture *f = *state;
	char q[256];

	for (size_t i = 0; i < 2; i++) {
		static const char *const path[][2] = {{"summary", "cv"},
			{"summary", "skewness"}, {"summary", "lag1"},
			{"outlier", "grubbs.g"},
			{"outlier", "grubbs.p_one_sided"},
			{"outlier", "dixon.r"}, {"outlier", "dixon.p"}};

		for (size_t k = 0; k < sizeof path / sizeof path[0]; k++) {
			double want, got;

			(void)snprintf(q, sizeof q, "{\"values\": %s}", plain);
			want = support_get(
				support_calc(f->a, path[k][0], q), path[k][1]);
			(void)snprintf(
				q, sizeof q, "{\"values\": %s}", scaled[i]);
			got = support_get(
				support_calc(f->a, path[k][0], q), path[k][1]);
			assert_near(got, want, 1e-12, 0);
		}
	}
	/* the four furthest apart of 15 splits: one of them, by hand */
	assert_near(support_get(support_calc(f->a, "permute",
					"{\"groups\": {\"A\": [1e308, 9e307, "
					"1.1e308, 1.2e308], \"B\": [1, 2]}}"),
			    "p"),
		1.0 / 15, 1e-15, 0);
	assert_near(support_get(support_calc(f->a, "characteristic",
					"{\"values\": [1e-308, 2e-308, "
					"1.5e-308, 3e-308]}"),
			    "unknown") *
			1e308,
		support_get(support_calc(f->a, "characteristic",
				    "{\"values\": [1, 2, 1.5, 3]}"),
			"unknown"),
		1e-12, 0);
}

static const struct CMUnitTest tests[] = {
	TEST(calc__takes_any_list),
	TEST(calc__takes_any_groups),
	TEST(calc__takes_any_rows),
	TEST(calc__takes_any_readings),
	TEST(calc__takes_any_numbers),
	TEST(calc__refuses_nonsense_by_name),
	TEST(calc__keeps_ratios_at_the_ends_of_the_range),
};

TEST_MAIN(tests)
