/* test_calc_comparisons.c - the comparisons through the workbench: the form of
 * the answers, and bad data said in sentences. */
#include "support.h"

#include <jansson.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

/* Invented strengths, MPa. */
#define GROUPS                                           \
	"\"groups\": {\"A\": [2.22, 1.65, 1.97, 2.05], " \
	"\"B\": [2.41, 2.38, 2.73], \"C\": [1.88, 2.05, 1.91, 1.79, 2.1]}"

static bool
is_null_at(const char *answer, const char *key, const char *inner)
{
	json_t *root = json_loads(answer, 0, NULL);
	json_t *at = json_object_get(root, key);
	bool is_null;

	if (inner != NULL)
		at = json_object_get(at, inner);
	is_null = json_is_null(at);
	json_decref(root);
	return is_null;
}

static void
calc__anova_has_its_form(void **state)
{
	struct fixture *f = *state;
	const char *answer = support_calc(f->a, "anova", "{" GROUPS "}");
	double f_ratio = support_get(answer, "f");

	assert_near(support_get(answer, "between.df"), 2, 0, 0);
	assert_near(support_get(answer, "within.df"), 9, 0, 0);
	assert_near(support_get(answer, "between.ss") / 2,
		support_get(answer, "between.ms"), 1e-15, 0);
	assert_near(support_get(answer, "within.ss") / 9,
		support_get(answer, "within.ms"), 1e-15, 0);
	assert_near(support_get(answer, "between.ms") /
			support_get(answer, "within.ms"),
		f_ratio, 1e-15, 0);
	assert_near(pow(support_get(answer, "residual_sd"), 2),
		support_get(answer, "within.ms"), 1e-15, 0);
	/* r^2 = df1 F / (df1 F + df2) */
	assert_near(support_get(answer, "r_squared"),
		2 * f_ratio / (2 * f_ratio + 9), 1e-14, 0);
	assert_near(support_get(answer, "welch.df1"), 2, 0, 0);
	assert_true(support_get(answer, "welch.df2") > 0);
	assert_true(support_get(answer, "welch.f") > 0);
	assert_true(support_get(answer, "welch.p") < 0.1);
	assert_true(support_get(answer, "levene.f") > 0);
	assert_true(support_get(answer, "levene.p") > 0.1);
	assert_has(answer, "\"source\"");
}

static void
calc__anova_says_null_where_a_test_does_not_exist(void **state)
{
	struct fixture *f = *state;
	const char *answer = support_calc(f->a, "anova",
		"{\"groups\": {\"A\": [2.22, 1.65], \"B\": [2.41]}}");

	assert_true(is_null_at(answer, "welch", NULL));
	assert_true(is_null_at(answer, "levene", NULL));
	assert_true(support_get(answer, "p") > 0);
	assert_has(answer, "welch is null");
}

static void
calc__against_baseline_has_its_form(void **state)
{
	struct fixture *f = *state;
	const char *both = support_calc(
		f->a, "against-baseline", "{" GROUPS ", \"baseline\": \"C\"}");
	const char *less = support_calc(f->a, "against-baseline",
		"{" GROUPS ", \"baseline\": \"C\", \"side\": \"less\", "
		"\"confidence\": 0.9}");

	assert_near(support_get(both, "groups.B.difference"),
		(2.41 + 2.38 + 2.73) / 3 -
			(1.88 + 2.05 + 1.91 + 1.79 + 2.1) / 5,
		1e-13, 0);
	assert_near(support_get(both, "df"), 9, 0, 0);
	assert_lacks(both, "\"C\":");
	assert_true(support_get(both, "groups.B.low") > 0);
	assert_true(support_get(both, "groups.B.p") < 0.05);
	assert_true(support_get(both, "groups.A.p") > 0.05);
	assert_near((support_get(both, "groups.A.high") -
			    support_get(both, "groups.A.low")) /
			2,
		support_get(both, "critical") *
			support_get(both, "groups.A.difference") /
			support_get(both, "groups.A.t"),
		1e-13, 0);
	assert_true(support_get(less, "groups.B.p") > 0.9);
	assert_has(less, "\"low\": null");
	assert_true(
		support_get(less, "critical") < support_get(both, "critical"));
}

static void
calc__all_pairs_has_its_form(void **state)
{
	struct fixture *f = *state;
	const char *equal = support_calc(f->a, "all-pairs", "{" GROUPS "}");
	const char *unequal = support_calc(f->a, "all-pairs",
		"{" GROUPS ", \"method\": \"unequal-variance\"}");

	assert_has(equal, "\"pairs\": [{\"a\": \"A\", \"b\": \"B\"");
	assert_true(support_get(equal, "pairs[0].difference") > 0);
	assert_true(support_get(equal, "pairs[2].difference") < 0);
	assert_true(support_get(equal, "pairs[2].high") < 0);
	assert_true(support_get(equal, "pairs[2].p") < 0.05);
	assert_near(support_get(equal, "pairs[1].difference"),
		support_get(unequal, "pairs[1].difference"), 0, 0);
	assert_true(fabs(support_get(equal, "pairs[1].p") -
			    support_get(unequal, "pairs[1].p")) > 1e-4);
}

static void
calc__ranks_has_its_form(void **state)
{
	struct fixture *f = *state;
	const char *answer = support_calc(f->a, "ranks", "{" GROUPS "}");

	assert_near(support_get(answer, "df"), 2, 0, 0);
	assert_true(support_get(answer, "h") > 0);
	assert_true(support_get(answer, "p") > 0);
	assert_true(
		support_get(answer, "p_exact") < support_get(answer, "p") * 2);
}

static void
calc__outlier_has_its_form(void **state)
{
	struct fixture *f = *state;
	const char *answer = support_calc(
		f->a, "outlier", "{\"values\": [1.88, 1.91, 2.31, 1.93, 1.9]}");

	/* invented set n5, computed by R */
	assert_near(support_get(answer, "grubbs.value"), 2.31, 0, 0);
	assert_near(
		support_get(answer, "grubbs.g"), 1.78005856980121, 1e-10, 0);
	assert_near(support_get(answer, "grubbs.p_two_sided"),
		0.00206792472860689, 1e-10, 0);
	assert_near(support_get(answer, "grubbs.p_one_sided") * 2,
		0.00206792472860689, 1e-10, 0);
	assert_near(support_get(answer, "dixon.value"), 2.31, 0, 0);
	assert_near(
		support_get(answer, "dixon.r"), 0.883720930232558, 1e-10, 0);
	assert_near(
		support_get(answer, "dixon.p"), 0.00131466690009885, 1e-8, 0);
}

static void
calc__tolerance_has_its_form(void **state)
{
	struct fixture *f = *state;

	/* Odeh and Owen 1980, table 3.4.1: 9.789 */
	assert_near(support_get(support_calc(f->a, "tolerance",
					"{\"n\": 3, \"content\": 0.95, "
					"\"confidence\": 0.95, "
					"\"sided\": \"two\"}"),
			    "k"),
		9.789, 0, 5e-4);
	/* computed by R's quadrature */
	assert_near(support_get(support_calc(f->a, "tolerance",
					"{\"n\": 2, \"content\": 0.9, "
					"\"confidence\": 0.95, "
					"\"sided\": \"one\"}"),
			    "k"),
		20.581467624245, 1e-9, 0);
}

static void
calc__characteristic_has_its_form(void **state)
{
	struct fixture *f = *state;
	const char *one = support_calc(f->a, "characteristic",
		"{\"values\": [2.385], \"prior_sd\": 0.21}");
	const char *two = support_calc(f->a, "characteristic",
		"{\"values\": [2.385, 2.1, 2.2], \"log\": true}");

	assert_true(is_null_at(one, "unknown", NULL));
	/* 1.6448536269514722 sqrt(2) below the value */
	assert_near(support_get(one, "known"),
		2.385 - 0.21 * 1.6448536269514722 * sqrt(2), 1e-14, 0);
	assert_true(is_null_at(two, "known", NULL));
	assert_true(support_get(two, "unknown") < 2.1);
}

/* Each question is refused, and the report names the key. */
static void
calc__bad_data_is_said(void **state)
{
	const struct {
		const char *name, *question, *field;
	} bad[] = {
		{"anova", "{\"groups\": {\"A\": [1, 2]}}", "groups"},
		{"anova", "{\"groups\": {\"A\": [1], \"B\": [2]}}", "groups"},
		{"anova", "{\"groups\": {\"A\": [1, 1], \"B\": [2, 2]}}",
			"groups"},
		{"anova", "{\"groups\": {\"A\": [], \"B\": [2, 2]}}",
			"groups.A"},
		{"anova", "{" GROUPS ", \"side\": \"both\"}", "side"},
		{"anova",
			"{\"groups\": {\"A\": [1e300, -1e300], "
			"\"B\": [2, 3]}}",
			"groups"},
		{"against-baseline", "{" GROUPS ", \"baseline\": \"D\"}",
			"baseline"},
		{"against-baseline", "{" GROUPS ", \"side\": \"up\"}", "side"},
		{"against-baseline", "{" GROUPS ", \"confidence\": 1}",
			"confidence"},
		{"against-baseline",
			"{\"groups\": {\"A\": [1, 1], "
			"\"B\": [2, 2]}}",
			"groups"},
		{"all-pairs", "{" GROUPS ", \"method\": \"tukey\"}", "method"},
		{"all-pairs",
			"{\"groups\": {\"A\": [1, 1.5], \"B\": [2]}, "
			"\"method\": \"unequal-variance\"}",
			"groups"},
		{"ranks", "{\"groups\": {\"A\": [2, 2], \"B\": [2]}}",
			"groups"},
		{"outlier", "{\"values\": [1, 2]}", "values"},
		{"outlier", "{\"values\": [3.3, 3.3, 3.3]}", "values"},
		{"tolerance",
			"{\"n\": 1, \"content\": 0.9, "
			"\"confidence\": 0.9, \"sided\": \"one\"}",
			"n"},
		{"tolerance",
			"{\"n\": 9, \"content\": 1, "
			"\"confidence\": 0.9, \"sided\": \"one\"}",
			"content"},
		{"tolerance",
			"{\"n\": 9, \"content\": 0.9, "
			"\"sided\": \"one\"}",
			"confidence"},
		{"tolerance",
			"{\"n\": 9, \"content\": 0.9, "
			"\"confidence\": 0.9, \"sided\": \"three\"}",
			"sided"},
		{"characteristic", "{\"values\": []}", "values"},
		{"characteristic", "{\"values\": [1, -2], \"log\": true}",
			"values"},
		{"characteristic", "{\"values\": [1], \"prior_sd\": 0}",
			"prior_sd"},
	};

	(void)state;
	for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
		struct err err = support_calc_refused(
			bad[i].name, bad[i].question);

		if (err.code != ERR_INPUT ||
			strcmp(err.field, bad[i].field) != 0)
			print_error("%s %s: %s: %s\n", bad[i].name,
				bad[i].question, err.field, err.text);
		assert_int_equal(ERR_INPUT, err.code);
		assert_string_equal(bad[i].field, err.field);
	}
}

/* 100,000 values in seven groups through every comparison. */
static void
calc__many_values(void **state)
{
	enum { GROUPS_OF_MANY = 7, EACH = 14286, ROOM = 4000000 };
	struct fixture *f = *state;
	char *question = arena_take(f->a, ROOM, 1);
	size_t at = 0;
	const char *name[] = {
		"anova", "against-baseline", "all-pairs", "ranks"};

	at += (size_t)snprintf(question, ROOM, "{\"groups\": {");
	for (size_t g = 0; g < GROUPS_OF_MANY; g++) {
		at += (size_t)snprintf(question + at, ROOM - at, "%s\"%c\": [",
			g > 0 ? ", " : "", (char)('A' + g));
		for (size_t i = 0; i < EACH; i++)
			at += (size_t)snprintf(question + at, ROOM - at,
				"%s%.6f", i > 0 ? ", " : "",
				fmod((double)(g * EACH + i) * 0.6180339887,
					1.0) +
					0.01 * (double)g);
		at += (size_t)snprintf(question + at, ROOM - at, "]");
	}
	(void)snprintf(question + at, ROOM - at, "}}");
	for (size_t i = 0; i < sizeof name / sizeof name[0]; i++)
		assert_has(support_calc(f->a, name[i], question), "\"source\"");
}

static const struct CMUnitTest tests[] = {
	TEST(calc__anova_has_its_form),
	TEST(calc__anova_says_null_where_a_test_does_not_exist),
	TEST(calc__against_baseline_has_its_form),
	TEST(calc__all_pairs_has_its_form),
	TEST(calc__ranks_has_its_form),
	TEST(calc__outlier_has_its_form),
	TEST(calc__tolerance_has_its_form),
	TEST(calc__characteristic_has_its_form),
	TEST(calc__bad_data_is_said),
	TEST(calc__many_values),
};

TEST_MAIN(tests)
