/* test_calc_charts.c - the calculations "run-length", "power", "chart",
 * "acceptance" and "foam-check". */
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

static void
calc_chart__answers_and_refuses(void **state)
{
	struct fixture *f = *state;
	const char *got = support_calc(f->a, "chart",
		"{\"values\": [0.3, -0.4, 3.2], \"centre\": 0, \"spread\": 1}");

	assert_near(support_get(got, "limits.high"), 3, 1e-14, 0);
	assert_near(support_get(got, "signal.point"), 3, 0, 0);
	/* hand-worked: 0.2 (3.2) + 0.8 (0.2 (-0.4) + 0.8 (0.2) 0.3) */
	assert_near(support_get(got, "points[2].ewma"), 0.6144, 1e-12, 0);
	assert_string_equal("base",
		support_calc_refused(
			"chart", "{\"values\": [1, 2, 4], \"base\": 2}")
			.field);
	assert_string_equal("spread",
		support_calc_refused(
			"chart", "{\"values\": [1, 2, 4], \"centre\": 2}")
			.field);
	assert_string_equal("values",
		support_calc_refused("chart", "{\"values\": [3, 3, 3]}").field);
}

static void
calc_acceptance__answers_and_refuses(void **state)
{
	struct fixture *f = *state;
	/* trade-b.csv, row T12 */
	const char *got = support_calc(f->a, "acceptance",
		"{\"values\": [21e6, \"19.5 MPa\", \"22.5 N/mm2\", 18e6, "
		"23e6], \"required\": \"20 MPa\"}");

	assert_near(support_get(got, "criteria.aci318.judged.value"), 20e6,
		1e-12, 0);
	assert_near(
		support_get(got, "running_mean.values[2]"), 21.1667e6, 0, 50);
	assert_string_equal("values[1]",
		support_calc_refused("acceptance",
			"{\"values\": [1e6, \"3 kg\"], \"required\": 1e6}")
			.field);
	assert_string_equal("values",
		support_calc_refused(
			"acceptance", "{\"values\": [], \"required\": 1e6}")
			.field);
}

static void
calc_foam_check__answers_and_refuses(void **state)
{
	struct fixture *f = *state;
	/* hand-worked: 69 and 72 g in a litre; error 1.5 */
	const char *got = support_calc(f->a, "foam-check",
		"{\"readings\": [{\"gross\": \"121 g\", \"tare\": \"52 g\", "
		"\"volume\": \"1 L\"}, {\"gross\": 0.124, \"tare\": 0.052, "
		"\"volume\": 0.001}], \"target\": \"62 g/L\", "
		"\"tolerance\": 5}");

	assert_near(support_get(got, "density.value"), 70.5, 1e-12, 0);
	assert_near(support_get(got, "standard_error.value"), 1.5, 1e-11, 0);
	assert_has(got, "\"verdict\": \"high\"");
	assert_string_equal("readings[0].volume",
		support_calc_refused("foam-check",
			"{\"readings\": [{\"gross\": 0.12, \"tare\": 0.05, "
			"\"volume\": 0}]}")
			.field);
	assert_string_equal("readings[0].gross",
		support_calc_refused("foam-check",
			"{\"readings\": [{\"gross\": 0.04, \"tare\": 0.05, "
			"\"volume\": 0.001}]}")
			.field);
	assert_string_equal("tolerance",
		support_calc_refused("foam-check",
			"{\"readings\": [{\"gross\": 0.12, \"tare\": 0.05, "
			"\"volume\": 0.001}], \"tolerance\": 3}")
			.field);
}

static const struct CMUnitTest tests[] = {
	TEST(calc_run_length__answers_and_refuses),
	TEST(calc_power__answers_and_refuses),
	TEST(calc_chart__answers_and_refuses),
	TEST(calc_acceptance__answers_and_refuses),
	TEST(calc_foam_check__answers_and_refuses),
};

TEST_MAIN(tests)
