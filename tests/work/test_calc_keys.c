/* test_calc_keys.c - the fixed form of the workbench: for every calculation a
 * question with each of its keys, and the paths its answer must hold. */
#include "support.h"

#include "work/calc.h"

#include <jansson.h>
#include <stdlib.h>
#include <string.h>

struct form {
	const char *name, *question;
	/* Paths with a space between; each kind is told by its last sign:
	 * "a" a number, "a=" a quantity, "a~" an interval, "a?" a number or
	 * null, "a$" a text, "a#" an array. */
	const char *answer;
};

#define PARTS                                                       \
	"\"parts\": [{\"name\": \"cement\", \"role\": \"cement\", " \
	"\"mass\": \"13.7 kg\", \"particle_density\": 3150}, "      \
	"{\"name\": \"sand\", \"role\": \"sand\", \"mass\": 6.1, "  \
	"\"particle_density\": 2650, \"bulk_density\": 1500, "      \
	"\"moisture\": 0.03, \"absorption\": 0.01}, {\"name\": "    \
	"\"water\", \"role\": \"water\", \"mass\": 6.6}]"

#define GROUPS                                                         \
	"\"groups\": {\"A\": [2.22, 1.65, 1.97], \"B\": [2.41, 2.38, " \
	"2.73], \"C\": [1.88, 2.05, 1.91]}, \"baseline\": \"A\""

#define PROPORTION_ANSWER                                              \
	"foam_volume= foam_mass= volume= wet_density= "                \
	"oven_dry_density= water_cement_ratio "                        \
	"total_water_cement_ratio air_fraction foam_fraction per_m3# " \
	"per_m3.0.name$ per_m3.0.mass="

static const struct form form[] = {
	{"proportion",
		"{" PARTS ", \"foam\": {\"density\": \"70 g/L\"}, "
		"\"wet_density\": 820, \"foam_survival\": 0.9, "
		"\"bound_water\": 0.2}",
		PROPORTION_ANSWER},
	{"proportion",
		"{" PARTS ", \"foam\": {\"density\": 70}, \"foam_volume\": "
		"\"19 L\"}",
		PROPORTION_ANSWER},
	{"proportion",
		"{" PARTS ", \"foam\": {\"density\": 70}, \"batch_volume\": "
		"0.03}",
		PROPORTION_ANSWER},
	{"foam-check",
		"{\"readings\": [{\"gross\": \"121 g\", \"tare\": \"52 g\", "
		"\"volume\": \"1 L\"}, {\"gross\": \"124 g\", \"tare\": \"52 "
		"g\", \"volume\": \"1 L\"}], \"target\": 70, \"tolerance\": "
		"5}",
		"density= density.standard_error standard_error= verdict$"},
	{"yield",
		"{\"wet_density_measured\": 905, " PARTS ", \"foam\": "
		"{\"density\": 70, \"volume\": \"19 L\"}, "
		"\"wet_density_target\": 820}",
		"volume= foam_survival advice.add_foam= advice.sentence$"},
	{"yield",
		"{\"wet_density_measured\": 765, " PARTS ", \"foam\": "
		"{\"density\": 70, \"volume\": \"22 L\"}, "
		"\"wet_density_target\": 860}",
		"volume= advice.add_foam? advice.add_slurry= "
		"advice.sentence$"},
	{"flexure",
		"{\"loading\": \"third\", \"span\": \"600 mm\", \"width\": "
		"\"4 in\", \"depth\": 0.07, \"held\": \"70.5 lb\", "
		"\"broke_at\": 34, \"on_rig\": 2.6, \"strap\": 0.05, "
		"\"beam_mass\": 3.05, \"beam_length\": 0.7}",
		"moment~ modulus_of_rupture~ "
		"modulus_of_rupture_with_self_weight~"},
	{"flexure",
		"{\"loading\": \"centre\", \"span\": 0.6, \"width\": 0.1, "
		"\"depth\": 0.07, \"held\": 20, \"broke_at\": null}",
		"moment~ modulus_of_rupture.high?"},
	{"drop",
		"{\"mass\": 2.4, \"height\": 0.9, \"depth\": \"12.5 mm\", "
		"\"thickness\": \"60 mm\", \"through\": false, "
		"\"tube_loss\": 0.06, \"tip\": {\"shape\": \"cone\", "
		"\"diameter\": \"25 mm\", \"angle\": \"60 deg\"}}",
		"energy= volume= crushing_energy="},
	{"drop",
		"{\"mass\": 2.4, \"height\": 0.9, \"thickness\": \"60 mm\", "
		"\"through\": true, \"tip\": {\"shape\": \"flat\", "
		"\"diameter\": \"25 mm\"}}",
		"energy~ volume~ crushing_energy~"},
	{"crush",
		"{\"shape\": \"prism\", \"width\": 0.1, \"depth\": 0.1, "
		"\"height\": 0.2, \"load\": {\"held\": 1300, \"broke_at\": "
		"1400}}",
		"stress~ shape_factor? stress_corrected?"},
	{"crush",
		"{\"shape\": \"cylinder\", \"diameter\": 0.1, \"height\": "
		"0.2, \"load\": \"13.8 kN\", \"standard\": \"astm_c39\"}",
		"stress= shape_factor stress_corrected="},
	{"density",
		"{\"mass\": 3.05, \"volume\": \"5 L\", \"oven_dry_mass\": "
		"2.86, \"saturated_mass\": 3.9}",
		"density= oven_dry_density= moisture_content "
		"absorption_by_mass absorption_by_volume"},
	{"density", "{\"mass\": 3.05, \"mass_in_water\": 0.2}", "density="},
	{"maturity",
		"{\"history\": [{\"t\": 0, \"temperature\": 14}, {\"t\": "
		"\"13 h\", \"temperature\": 31}], \"datum\": 0, "
		"\"activation_energy\": 40000, \"reference_temperature\": 20}",
		"nurse_saul= equivalent_age="},
	{"strength-age",
		"{\"strength\": 1e6, \"age\": \"7 d\", \"to_age\": \"28 d\", "
		"\"relation\": {\"kind\": \"exponential\", \"s\": 0.25}}",
		"strength= ratio"},
	{"conductivity",
		"{\"oven_dry_density\": 548, \"moisture_content\": 0.06}",
		"relations.aci_122.conductivity= relations.aci_122.source$ "
		"relations.aci_122.range~"},
	{"u-value",
		"{\"layers\": [{\"name\": \"a\", \"thickness\": 0.24, "
		"\"conductivity\": 0.18}, {\"name\": \"b\", \"resistance\": "
		"0.02}], \"heat_flow\": \"up\"}",
		"resistance= u_value= resistance_us= u_value_us="},
	{"section",
		"{\"width\": 1, \"depth\": 0.12, \"strength\": 460000, "
		"\"compressive_strength\": 2100000, \"reinforcement\": "
		"{\"area\": \"84 mm2\", \"effective_depth\": 0.095, "
		"\"yield_stress\": 420000000}}",
		"cracking_moment= ultimate_moment="},
	{"wall",
		"{\"height\": 2.45, \"thickness\": 0.21, \"strength\": "
		"1700000, \"density\": 640, \"load\": 6200, \"wind\": 800, "
		"\"safety_factor\": 3}",
		"slenderness axial_stress= bending_stress= utilisation"},
	{"form-pressure", "{\"density\": 720, \"lift_height\": 0.55}",
		"pressure="},
	{"summary", "{\"values\": [0.357, 0.376, 0.361, 0.349]}",
		"n mean sd lag1 median quartiles# quartiles.0 quartiles.1 "
		"skewness cv"},
	{"regress",
		"{\"x\": [[1, 2], [2, 1], [3, 5], [4, 3]], \"y\": [1.3, 1.9, "
		"3.2, 3.9], \"intercept\": false}",
		"coefficients# coefficients.1 standard_errors# residual_sd "
		"r_squared f p df"},
	{"regress",
		"{\"x\": [1, 2, 3, 4, 5], \"y\": [1.1, 1.9, 3.2, 3.9, 7], "
		"\"degree\": 2}",
		"coefficients.2 standard_errors.2 df"},
	{"anova", "{" GROUPS "}",
		"between.ss between.df between.ms within.ss within.df "
		"within.ms f p r_squared residual_sd welch.f welch.df1 "
		"welch.df2 welch.p levene.f levene.p"},
	{"against-baseline",
		"{" GROUPS ", \"confidence\": 0.9, \"side\": \"both\"}",
		"groups.B.difference groups.B.t groups.B.p groups.B.low "
		"groups.C.high df critical"},
	{"against-baseline", "{" GROUPS ", \"side\": \"greater\"}",
		"groups.B.low groups.B.high? critical"},
	{"against-baseline", "{" GROUPS ", \"side\": \"less\"}",
		"groups.B.low? groups.B.high critical"},
	{"all-pairs",
		"{" GROUPS ", \"method\": \"unequal-variance\", "
		"\"confidence\": 0.9}",
		"pairs# pairs.0.a$ pairs.0.b$ pairs.2.difference pairs.2.p "
		"pairs.2.low pairs.2.high"},
	{"ranks", "{" GROUPS "}", "h df p p_exact"},
	{"permute",
		"{\"groups\": {\"A\": [1.71, 1.88], \"B\": [2.05, 2.3]}, "
		"\"exact\": false, \"draws\": 1000, \"seed\": 3}",
		"p arrangements p_error"},
	{"resample",
		"{\"values\": [317, 384, 351, 376, 298], \"statistic\": "
		"\"cv\", \"draws\": 500, \"seed\": 2, \"confidence\": 0.9}",
		"estimate percentile.low percentile.high bca.low bca.high"},
	{"outlier", "{\"values\": [1.88, 1.91, 1.93, 1.9, 2.31]}",
		"grubbs.value grubbs.g grubbs.p_one_sided grubbs.p_two_sided "
		"dixon.value dixon.r dixon.p"},
	{"variance",
		"{\"rows\": [{\"group\": \"A\", \"batch\": 1, \"value\": "
		"811}, {\"group\": \"A\", \"batch\": 1, \"value\": 803}, "
		"{\"group\": \"A\", \"batch\": 2, \"value\": 797}, "
		"{\"group\": \"A\", \"batch\": 2, \"value\": 792}]}",
		"between.variance between.low between.high within.variance "
		"within.low within.high"},
	{"censored",
		"{\"family\": \"weibull\", \"rows\": [{\"group\": \"A\", "
		"\"x\": 1, \"value\": [0.31, 0.36]}, {\"group\": \"A\", "
		"\"x\": 2, \"value\": 0.29}, {\"group\": \"A\", \"x\": 1.5, "
		"\"value\": [0.26, null]}, {\"group\": \"A\", \"x\": 1.1, "
		"\"value\": 0.27}, {\"group\": \"B\", \"x\": 2, \"value\": "
		"0.41}, {\"group\": \"B\", \"x\": 1, \"value\": [null, "
		"0.41]}]}",
		"coefficients.A.estimate coefficients.A.se "
		"coefficients.A.low? coefficients.B.high? "
		"coefficients.x.estimate scale log_likelihood"},
	{"censored",
		"{\"family\": \"normal\", \"rows\": [{\"value\": 0.31}, "
		"{\"value\": 0.29}, {\"value\": [0.26, null]}]}",
		"coefficients.mean.estimate scale log_likelihood"},
	{"hierarchy",
		"{\"rows\": [{\"mix\": \"A\", \"batch\": 1, \"value\": 242, "
		"\"age\": \"28 d\", \"covariates\": {\"w\": 1}}, {\"mix\": "
		"\"A\", \"batch\": 2, \"value\": [200, 250], \"age\": \"28 "
		"d\", \"covariates\": {\"w\": 2}}, {\"mix\": \"B\", "
		"\"batch\": 3, \"value\": [500, null], \"age\": \"7 d\", "
		"\"covariates\": {\"w\": 1.4}}], \"draws\": 200, \"chains\": "
		"2, \"seed\": 5, \"baseline\": \"A\", \"prior\": "
		"{\"mean_sd\": 1}}",
		"mixes.A.median mixes.A.low mixes.A.high "
		"mixes.B.ratio.median mixes.B.ratio.low mixes.B.ratio.high "
		"mixes.B.p_better mixes.B.p_best? mixes.B.regret "
		"sd_batch.median sd_batch.low sd_batch.high "
		"sd_specimen.median rhat_max ess_min seconds"},
	{"tolerance",
		"{\"n\": 9, \"content\": 0.95, \"confidence\": 0.9, "
		"\"sided\": \"two\"}",
		"k"},
	{"characteristic",
		"{\"values\": [2.22, 1.65, 1.97], \"prior_sd\": 0.1, \"log\": "
		"true}",
		"unknown known"},
	{"characteristic", "{\"values\": [2.22, 1.65, 1.97]}",
		"unknown known?"},
	{"power",
		"{\"difference\": 0.22, \"sd_batch\": 0.08, "
		"\"sd_specimen\": 0.12, \"specimens_per_batch\": 3, "
		"\"alpha\": 0.05, \"groups\": 4}",
		"batches curve# curve.0.batches curve.0.power"},
	{"run-length",
		"{\"chart\": \"shewhart\", \"limit\": 3, \"shift\": 1, "
		"\"sides\": 1}",
		"arl"},
	{"run-length",
		"{\"chart\": \"ewma\", \"lambda\": 0.2, \"width\": 2.9, "
		"\"shift\": 1, \"sides\": 2}",
		"arl"},
	{"run-length",
		"{\"chart\": \"cusum\", \"reference\": 0.5, \"decision\": 4, "
		"\"shift\": 1, \"sides\": 2}",
		"arl"},
	{"counts",
		"{\"a\": {\"failed\": 3, \"of\": 7}, \"b\": {\"failed\": 0, "
		"\"of\": 36}}",
		"p a.low a.high b.low b.high"},
};

enum { N_FORM = sizeof form / sizeof form[0] };

static const json_t *
follow(const json_t *at, char *path)
{
	for (char *rest, *step = strtok_r(path, ".", &rest);
		at != NULL && step != NULL; step = strtok_r(NULL, ".", &rest))
		at = json_is_array(at)
			? json_array_get(at, strtoul(step, NULL, 10))
			: json_object_get(at, step);
	return at;
}

static bool
is_number_at(const json_t *object, const char *key)
{
	return json_is_number(json_object_get(object, key));
}

static bool
has_unit(const json_t *got)
{
	return json_is_string(json_object_get(got, "unit"));
}

static bool
is_kind(const json_t *got, char kind)
{
	switch (kind) {
	case '=':
		return is_number_at(got, "value") && has_unit(got);
	case '~':
		return is_number_at(got, "low") && has_unit(got) &&
			json_object_get(got, "high") != NULL;
	case '?':
		return json_is_number(got) || json_is_null(got);
	case '$':
		return json_is_string(got);
	case '#':
		return json_is_array(got);
	default:
		return json_is_number(got);
	}
}

static void
check_path(const struct form *want, const json_t *answer, const char *path,
	size_t length)
{
	char copy[80];
	const char kind = path[length - 1];

	assert_true(length < sizeof copy);
	memcpy(copy, path, length);
	copy[length] = '\0';
	copy[strcspn(copy, "=~?$#")] = '\0';
	if (!is_kind(follow(answer, copy), kind)) {
		print_error("%s: no %.*s\n", want->name, (int)length, path);
		fail();
	}
}

static void
calc__takes_and_gives_every_key(void **state)
{
	struct fixture *f = *state;

	for (size_t i = 0; i < N_FORM; i++) {
		json_t *answer = json_loads(
			support_calc(f->a, form[i].name, form[i].question), 0,
			NULL);

		assert_non_null(answer);
		for (const char *path = form[i].answer; *path != '\0';) {
			const size_t length = strcspn(path, " ");

			check_path(&form[i], answer, path, length);
			path += length;
			path += strspn(path, " ");
		}
		check_path(&form[i], answer, "source$", strlen("source$"));
		check_path(&form[i], answer, "notes#", strlen("notes#"));
		json_decref(answer);
	}
}

/* What must be refused whatever the calculation: the key is named. */
static void
calc__refuses_by_the_key(void **state)
{
	static const char *const refused[][3] = {
		{"summary", "{\"values\": [1], \"colour\": 2}", "colour"},
		{"density", "{\"mass\": -1, \"volume\": 1}", "mass"},
		{"flexure",
			"{\"loading\": \"centre\", \"span\": 0, \"width\": "
			"0.1, \"depth\": 0.07, \"held\": 20}",
			"span"},
		{"proportion",
			"{" PARTS ", \"foam\": {\"density\": 70}, "
			"\"foam_survival\": 1.2, \"wet_density\": 800}",
			"foam_survival"},
		{"drop",
			"{\"mass\": 2.4, \"height\": 0.9, \"depth\": 0.01, "
			"\"tip\": {\"shape\": \"cone\", \"diameter\": 0.025}}",
			"tip.angle"},
		{"hierarchy",
			"{\"rows\": [{\"mix\": \"A\", \"batch\": 1.5, "
			"\"value\": 3}]}",
			"rows[0].batch"},
		{"against-baseline",
			"{\"groups\": {\"A\": [1, 2], \"B\": [2, 3]}, "
			"\"baseline\": \"D\"}",
			"baseline"},
		{"run-length",
			"{\"chart\": \"shewhart\", \"limit\": 3, \"sides\": 3}",
			"sides"},
	};

	(void)state;
	for (size_t i = 0; i < sizeof refused / sizeof refused[0]; i++)
		assert_string_equal(refused[i][2],
			support_calc_refused(refused[i][0], refused[i][1])
				.field);
	(void)support_calc_refused("summary", "{\"values\": 1, \"values\": 2}");
}

static const struct CMUnitTest tests[] = {
	TEST(calc__takes_and_gives_every_key),
	TEST(calc__refuses_by_the_key),
};

TEST_MAIN(tests)
