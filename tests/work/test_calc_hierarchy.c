/* test_calc_hierarchy.c - the calculation "hierarchy". */
#include "support.h"

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
};

TEST_MAIN(tests)
