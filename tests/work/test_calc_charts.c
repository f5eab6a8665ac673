/* test_calc_charts.c - the calculations "run-length", "power". */
#include "support.h"

static void
calc_run_length__answers_and_refuses(void **state)
{
	struct fixture *f = *state;

	/* published 11.154267016 (trade-b.csv, row T53) */
	assert_near(support_get(support_calc(f->a, "run-length",
					"{\"chart\": \"ewma\", \"lambda\": "
					"0.25, \"width\": 3, \"shift\": 1}"),
			    "arl"),
		11.154267016, 0, 6e-10);
	/* Lucas and Crosier 1982, table 1: 168. and with head start 149. */
	assert_near(support_get(support_calc(f->a, "run-length",
					"{\"chart\": \"cusum\", \"reference\": "
					"0.5, \"decision\": 4}"),
			    "arl"),
		168, 0, 0.5);
	assert_near(support_get(support_calc(f->a, "run-length",
					"{\"chart\": \"cusum\", \"reference\": "
					"0.5, \"decision\": 4, \"head_start\": "
					"2}"),
			    "arl"),
		149, 0, 0.5);
	/* 1 / P(Z > 3) = 740.8, one side; trade tables */
	assert_near(support_get(support_calc(f->a, "run-length",
					"{\"chart\": \"shewhart\", \"limit\": "
					"3, \"sides\": 1}"),
			    "arl"),
		740.8, 0, 0.05);
	assert_string_equal("lambda",
		support_calc_refused("run-length",
			"{\"chart\": \"shewhart\", \"limit\": 3, \"lambda\": "
			"0.2}")
			.field);
	assert_string_equal("decision",
		support_calc_refused("run-length",
			"{\"chart\": \"cusum\", \"reference\": 1}")
			.field);
	assert_string_equal("lambda",
		support_calc_refused("run-length",
			"{\"chart\": \"ewma\", \"lambda\": 1.2, \"width\": 3}")
			.field);
	assert_string_equal("arl",
		support_calc_refused("run-length",
			"{\"chart\": \"shewhart\", \"limit\": 99}")
			.field);
}

static void
calc_power__answers_and_refuses(void **state)
{
	struct fixture *f = *state;
	/* power.t.test(n = 10, delta = 1.5, strict = TRUE): 0.88697 */
	const char *got = support_calc(f->a, "power",
		"{\"difference\": 1.5, \"sd_batch\": 1, \"sd_specimen\": 0, "
		"\"specimens_per_batch\": 1, \"alpha\": 0.05, \"groups\": 2}");

	assert_near(support_get(got, "curve[8].batches"), 10, 0, 0);
	assert_near(support_get(got, "curve[8].power"), 0.886970202255284,
		1e-10, 0);
	/* power.t.test(delta = 1.5, power = 0.8): n = 8.06, so 9 */
	assert_near(support_get(got, "batches"), 9, 0, 0);
	got = support_calc(f->a, "power",
		"{\"difference\": 1e-9, \"sd_batch\": 1, \"sd_specimen\": 0, "
		"\"specimens_per_batch\": 1, \"alpha\": 0.05, \"groups\": 2}");
	assert_has(got, "\"batches\": null");
	assert_string_equal("groups",
		support_calc_refused("power",
			"{\"difference\": 1, \"sd_batch\": 1, \"sd_specimen\": "
			"0, \"specimens_per_batch\": 1, \"groups\": 1}")
			.field);
	assert_string_equal("sd_batch",
		support_calc_refused("power",
			"{\"difference\": 1, \"sd_batch\": 0, \"sd_specimen\": "
			"0, \"specimens_per_batch\": 1}")
			.field);
}

static const struct CMUnitTest tests[] = {
	TEST(calc_run_length__answers_and_refuses),
	TEST(calc_power__answers_and_refuses),
};

TEST_MAIN(tests)
