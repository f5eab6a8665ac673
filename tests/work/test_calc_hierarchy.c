/* test_calc_hierarchy.c - the calculation "hierarchy". */
#include "support.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const char *const question =
	"{\"rows\": [{\"mix\": \"A\", \"batch\": \"A1\", \"value\": 242, "
	"\"age\": \"7 d\"}, {\"mix\": \"A\", \"batch\": \"A1\", \"value\": "
	"[200, 250], \"age\": \"7 d\"}, {\"mix\": \"A\", \"batch\": \"A2\", "
	"\"value\": [null, 350], \"age\": \"28 d\"}, {\"mix\": \"B\", "
	"\"batch\": \"B1\", \"value\": [500, null], \"age\": \"28 d\"}, "
	"{\"mix\": \"B\", \"batch\": \"B2\", \"value\": 741, \"age\": "
	"\"28 d\"}], \"draws\": 700}";

static void
refuse(const char *rows, const char *field)
{
	assert_string_equal(
		field, support_calc_refused("hierarchy", rows).field);
}

static void
calc_hierarchy__answers(void **state)
{
	struct fixture *f = *state;
	const char *got = support_calc(f->a, "hierarchy", question);

	/* chances of being best are shares of the same draws */
	assert_near(support_get(got, "mixes.A.p_best") +
			support_get(got, "mixes.B.p_best"),
		1, 1e-12, 0);
	/* of two mixes the better one is the best */
	assert_near(support_get(got, "mixes.B.p_better"),
		support_get(got, "mixes.B.p_best"), 1e-12, 0);
	assert_near(support_get(got, "mixes.A.ratio.median"), 1, 0, 0);
	assert_near(support_get(got, "mixes.A.p_better"), 0, 0, 0);
	assert_true(support_get(got, "mixes.B.ratio.low") <
		support_get(got, "mixes.B.ratio.high"));
	assert_true(support_get(got, "sd_batch.low") > 0);
	assert_true(support_get(got, "rhat_max") < 1.05);
	assert_has(got, "28 days");
	assert_has(got, "half-normal");
}

/* What stands beside the answer: priors in words, what they do, checks. */
static void
calc_hierarchy__shows_its_priors(void **state)
{
	struct fixture *f = *state;
	const char *got = support_calc(f->a, "hierarchy", question);

	assert_has(got,
		"spread between batches, log scale: half-normal, scale "
		"0.3");
	assert_has(got, "Gelman (2006)");
	assert_has(got, "ACI 209R-92");
	assert_near(support_get(got, "sensitivity[0].factor"), 0.5, 0, 0);
	assert_near(support_get(got, "sensitivity[1].factor"), 2, 0, 0);
	assert_true(support_get(got, "sensitivity[0].sd_batch.median") <
		support_get(got, "sensitivity[1].sd_batch.median"));
	assert_near(support_get(got, "sensitivity[1].ratios.A"), 1, 0, 0);
	/* a specimen of the next batch is less sure than the batch's mean */
	assert_true(support_get(got, "mixes.A.next_batch.specimen.low") <
		support_get(got, "mixes.A.next_batch.mean.low"));
	assert_true(support_get(got, "age_slope.median") > 0);
	/* two batches a mix leave two degrees of freedom */
	assert_true(support_get(got, "predictive.between.p") <= 1);
}

/* y = 3.1 * exp(0.4 (w - 2)) and readings of half a per cent, plus or minus so
 * that they lean neither way: the slope comes back and medians are at the mean of w, which is 2.  The slope's posterior sd
 * is about 0.005 / 0.71 / sqrt(8) = 0.0025, the batches add to it. */
static void
calc_hierarchy__takes_covariates(void **state)
{
	enum { ROW_MAX = 200, N = 8 };
	struct fixture *f = *state;
	char rows[N * ROW_MAX] = "{\"draws\": 1000, \"prior\": "
				 "{\"sd_batch_scale\": 0.01, "
				 "\"sd_specimen_scale\": 0.01}, \"rows\": [";
	const char *got;

	for (size_t i = 0; i < N; i++) {
		const double w = 1 + 2. * (double)i / (N - 1);
		const size_t at = strlen(rows);

		snprintf(rows + at, sizeof rows - at,
			"%s{\"mix\": \"A\", \"batch\": \"%zu\", \"value\": "
			"%.6f, \"covariates\": {\"w\": %.6f}}",
			i > 0 ? ", " : "", i / 2,
			3.1 * exp(0.4 * (w - 2)) *
				(i % 4 == 0 || i % 4 == 3 ? 1.005 : 0.995),
			w);
	}
	strcat(rows, "]}");
	got = support_calc(f->a, "hierarchy", rows);
	assert_near(support_get(got, "slopes.w.median"), 0.4, 0, 0.01);
	assert_true(support_get(got, "slopes.w.low") <
		support_get(got, "slopes.w.high"));
	assert_near(support_get(got, "mixes.A.median"), 3.1, 0.005, 0);
	assert_has(got, "slope on w, from its mean");
}

/* Exact growth by (age / 28)^0.25 between 7 and 28 days, the prior's own slope:
 * brought to 14 days the median is that of 28 times 2^-0.25. */
static void
calc_hierarchy__brings_ages_to_one(void **state)
{
	struct fixture *f = *state;
	const char *const ages =
		"{\"draws\": 1000, \"to_age\": \"%s\", \"prior\": "
		"{\"age_slope_sd\": 0.001, \"sd_batch_scale\": 0.01, "
		"\"sd_specimen_scale\": 0.01}, \"rows\": [{\"mix\": \"A\", "
		"\"batch\": \"1\", \"value\": 1.4248, \"age\": \"7 d\"}, "
		"{\"mix\": \"A\", \"batch\": \"1\", \"value\": 1.4036, "
		"\"age\": \"7 d\"}, {\"mix\": \"A\", \"batch\": \"2\", "
		"\"value\": 2.0, \"age\": \"28 d\"}]}";
	char text[1024];
	double at_14, at_28;

	snprintf(text, sizeof text, ages, "14 d");
	at_14 = support_get(
		support_calc(f->a, "hierarchy", text), "mixes.A.median");
	snprintf(text, sizeof text, ages, "28 d");
	at_28 = support_get(
		support_calc(f->a, "hierarchy", text), "mixes.A.median");
	/* spreads of a hundredth: 2 % is two of them */
	assert_near(at_28, 2, 0.02, 0);
	assert_near(at_14 / at_28, pow(2, -0.25), 0.005, 0);
}

/* Another trial with batches that hardly differ pulls the spread down. */
static void
calc_hierarchy__learns_from_another_trial(void **state)
{
	struct fixture *f = *state;
	const char *const here =
		"\"rows\": [{\"mix\": \"A\", \"batch\": \"1\", "
		"\"value\": 2.13}, {\"mix\": \"A\", \"batch\": \"1\", "
		"\"value\": 2.27}, {\"mix\": \"B\", \"batch\": \"2\", "
		"\"value\": 2.61}, {\"mix\": \"B\", \"batch\": \"2\", "
		"\"value\": 2.49}], \"draws\": 1000";
	char other[2048] = "\"learn_weight\": 1, \"learn_from\": [", text[4096];
	const char *plain, *learnt;

	for (int i = 0; i < 12; i++) {
		const size_t at = strlen(other);

		snprintf(other + at, sizeof other - at,
			"%s{\"mix\": \"Q\", \"batch\": \"%d\", \"value\": "
			"%.4f}",
			i > 0 ? ", " : "", i / 2, i % 2 == 0 ? 5.17 : 5.43);
	}
	snprintf(text, sizeof text, "{%s}", here);
	plain = support_calc(f->a, "hierarchy", text);
	snprintf(text, sizeof text, "{%s, %s]}", here, other);
	learnt = support_calc(f->a, "hierarchy", text);
	assert_true(support_get(learnt, "sd_batch.median") <
		0.5 * support_get(plain, "sd_batch.median"));
	assert_has(learnt, "learnt from the other trial at a weight of 1");
	assert_string_equal("learn_weight",
		support_calc_refused("hierarchy",
			"{\"rows\": [{\"mix\": \"A\", \"batch\": \"1\", "
			"\"value\": 2}], \"learn_weight\": 2}")
			.field);
}

/* What trials are like at their worst: an answer, or one sentence. */
static void
calc_hierarchy__takes_poor_data(void **state)
{
	static const char *const rows[] = {
		"{\"mix\": \"A\", \"batch\": \"1\", \"value\": 2.1}",
		"{\"mix\": \"A\", \"batch\": \"1\", \"value\": [2, null]}, "
		"{\"mix\": \"B\", \"batch\": \"2\", \"value\": [3, null]}",
		"{\"mix\": \"A\", \"batch\": \"1\", \"value\": [null, 2]}, "
		"{\"mix\": \"A\", \"batch\": \"2\", \"value\": [0, 3]}",
		"{\"mix\": \"A\", \"batch\": \"1\", \"value\": [2, 2.1]}, "
		"{\"mix\": \"A\", \"batch\": \"1\", \"value\": [2, 2.1]}",
		"{\"mix\": \"A\", \"batch\": \"1\", \"value\": 2.1}, "
		"{\"mix\": \"A\", \"batch\": \"1\", \"value\": 2.3}, "
		"{\"mix\": \"A\", \"batch\": \"2\", \"value\": 2.2}, "
		"{\"mix\": \"B\", \"batch\": \"3\", \"value\": 2.6}"};
	struct fixture *f = *state;
	char text[1024];

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		const char *got;

		snprintf(text, sizeof text, "{\"draws\": 500, \"rows\": [%s]}",
			rows[i]);
		got = support_calc(f->a, "hierarchy", text);
		assert_true(support_get(got, "mixes.A.low") <
			support_get(got, "mixes.A.high"));
		assert_lacks(got, "nan");
	}
	refuse("{\"rows\": [{\"mix\": \"A\", \"batch\": \"1\", \"value\": "
	       "2.1}, {\"mix\": \"A\", \"batch\": \"1\", \"value\": "
	       "2.1}]}",
		"rows");
}

static void
calc_hierarchy__refuses(void **state)
{
	(void)state;
	refuse("{\"rows\": []}", "rows");
	refuse("{\"rows\": [{\"mix\": \"A\", \"batch\": \"1\", \"value\": "
	       "-2}]}",
		"rows[0].value");
	refuse("{\"rows\": [{\"mix\": \"A\", \"batch\": \"1\", \"value\": "
	       "[3, 2]}]}",
		"rows[0].value");
	refuse("{\"rows\": [{\"mix\": \"A\", \"batch\": \"1\", \"value\": "
	       "2}, {\"mix\": \"B\", \"batch\": \"1\", \"value\": 3}]}",
		"rows[1].batch");
	refuse("{\"rows\": [{\"mix\": \"A\", \"batch\": \"1\", \"value\": "
	       "2}], \"baseline\": \"C\"}",
		"baseline");
	refuse("{\"rows\": [{\"mix\": \"A\", \"batch\": \"1\", \"value\": "
	       "2}], \"prior\": {\"mean_sd\": 0}}",
		"prior.mean_sd");
	refuse("{\"rows\": [{\"mix\": \"A\", \"batch\": \"1\", \"value\": 2, "
	       "\"covariates\": {\"d\": 1}}, {\"mix\": \"A\", \"batch\": "
	       "\"1\", \"value\": 2}]}",
		"rows[1].covariates");
	refuse("{\"rows\": [{\"mix\": \"A\", \"batch\": \"1\", \"value\": 2, "
	       "\"load\": 1}]}",
		"rows[0].load");
}

static const struct CMUnitTest tests[] = {
	TEST(calc_hierarchy__answers),
	TEST(calc_hierarchy__refuses),
	TEST(calc_hierarchy__shows_its_priors),
	TEST(calc_hierarchy__takes_covariates),
	TEST(calc_hierarchy__brings_ages_to_one),
	TEST(calc_hierarchy__learns_from_another_trial),
	TEST(calc_hierarchy__takes_poor_data),
};

TEST_MAIN(tests)
