/* test_calc_bench.c - the smaller home tests, shells, slab, lintel, lifting and
 * condensation on the workbench: rows of the reference table through the whole
 * path, and refusals (tests/data/trade-a.csv, trade-b.csv). */
#include "trade_row.h"

#include "work/calc.h"

static void
refused(const char *name, const char *question, const char *field)
{
	struct err err = support_calc_refused(name, question);

	if (strcmp(err.field, field) != 0) {
		print_error("%s %s: field \"%s\", wanted \"%s\" (%s)\n", name,
			question, err.field, field, err.text);
		fail();
	}
}

static void
bench__stiffness_rows(void **state)
{
	struct fixture *f = *state;
	struct trade_rows a = trade_read(f->a, "trade-a.csv");
	const char *answer = support_calc(f->a, "modulus",
		"{\"loading\": \"centre\", \"span\": 0.3, \"width\": 0.1, "
		"\"depth\": 0.1, \"load\": 1000, \"deflection\": \"0.03 "
		"mm\"}");

	assert_row(&a, "E-CPS", support_get(answer, "modulus.value") / 1e6);
	answer = support_calc(f->a, "modulus",
		"{\"loading\": \"third\", \"span\": 0.3, \"width\": 0.1, "
		"\"depth\": 0.1, \"load\": 1000, \"deflection\": \"0.03 mm\", "
		"\"shear\": false}");
	assert_row(&a, "E-TP", support_get(answer, "modulus.value") / 1e6);
	answer = support_calc(f->a, "toughness",
		"{\"sags\": [{\"deflection\": 0, \"load\": 0}, "
		"{\"deflection\": \"0.05 mm\", \"load\": 15000}, "
		"{\"deflection\": \"0.75 mm\", \"load\": 6000}, "
		"{\"deflection\": \"3 mm\", \"load\": 4500}], \"span\": 0.45, "
		"\"width\": 0.15, \"depth\": 0.15}");
	assert_row(&a, "C1609-TRAP", support_get(answer, "energy.value"));
	assert_row(
		&a, "C1609-F1", support_get(answer, "first_peak.value") / 1e6);
	assert_row(&a, "C1609-F150",
		support_get(answer, "residual_150.value") / 1e6);
	refused("modulus",
		"{\"loading\": \"centre\", \"span\": 0, \"width\": 0.1, "
		"\"depth\": 0.1, \"load\": 1000, \"deflection\": 3e-5}",
		"span");
	refused("toughness",
		"{\"sags\": [{\"deflection\": 0.001, \"load\": 5}], \"span\": "
		"0.45, \"width\": 0.15, \"depth\": 0.15}",
		"sags");
}

static void
bench__rig_rows(void **state)
{
	struct fixture *f = *state;
	struct trade_rows a = trade_read(f->a, "trade-a.csv");
	const char *answer = support_calc(f->a, "lever",
		"{\"hung\": 20, \"arm_hung\": 1.5, \"arm_piece\": \"150 mm\", "
		"\"beam\": 6, \"arm_beam\": 0.8}");

	assert_row(&a, "LEV-1", support_get(answer, "force.value"));
	answer = support_calc(f->a, "jack",
		"{\"pressure\": \"10 MPa\", \"bore\": \"50 mm\"}");
	assert_row(&a, "JACK-1", support_get(answer, "force.value"));
	answer = support_calc(f->a, "jack",
		"{\"pressure\": \"1000 psi\", \"bore\": \"2 in\"}");
	assert_row(&a, "JACK-2", support_get(answer, "force.value"));
	answer = support_calc(f->a, "jack",
		"{\"pressure\": \"0.5 MPa\", \"bore\": \"50 mm\"}");
	assert_row(
		&a, "JACK-3", support_get(answer, "force.value") / 0.01 / 1e6);
	answer = support_calc(f->a, "jack",
		"{\"pressure\": \"10 MPa\", \"bore\": \"50 mm\", \"rod\": \"25 "
		"mm\"}");
	assert_row(&a, "JACK-4", support_get(answer, "force.value"));
	answer = support_calc(f->a, "blows",
		"{\"mass\": 2, \"height\": \"500 mm\", \"held\": 6}");
	assert_row(&a, "DROP-N", support_get(answer, "energy.high"));
	refused("jack", "{\"pressure\": 5, \"zero\": 6, \"bore\": 0.05}",
		"pressure");
	refused("lever", "{\"hung\": 0, \"arm_hung\": 1, \"arm_piece\": 1}",
		"hung");
	refused("blows", "{\"mass\": 2, \"height\": 1, \"held\": 1.5}", "held");
}

static void
bench__water_rows(void **state)
{
	struct fixture *f = *state;
	struct trade_rows b = trade_read(f->a, "trade-b.csv");
	const char *answer = support_calc(f->a, "shrinkage",
		"{\"gauge\": \"250 mm\", \"change\": \"-0.275 mm\"}");

	assert_row(&b, "D03", 100 * support_get(answer, "length_change"));
	assert_near(support_get(answer, "drying_shrinkage"), 1.1e-3, 1e-14, 0);
	answer = support_calc(f->a, "frost",
		"{\"before\": 1, \"after\": 0.98, \"first_frequency\": 1800, "
		"\"frequency\": 1620}");
	assert_row(&b, "D01",
		100 * support_get(answer, "relative_dynamic_modulus"));
	refused("shrinkage",
		"{\"gauge\": 0.25, \"change\": -1e-4, \"temperature\": 20}",
		"first_temperature");
	refused("frost", "{\"before\": 1, \"after\": 0.98, \"at_cycle\": 20}",
		"first_frequency");
	refused("screw",
		"{\"pulls\": [{\"held\": 300, \"broke_at\": 200}], "
		"\"diameter\": 0.005, \"depth\": 0.05}",
		"pulls[0].broke_at");
	refused("rise",
		"{\"readings\": [{\"t\": 0, \"mass\": 1}, {\"t\": 9, \"mass\": "
		"2}], \"face\": 1}",
		"readings");
	refused("hot-box",
		"{\"power\": 20, \"area\": 1, \"thickness\": 0.1, \"warm\": "
		"10, \"cold\": 20}",
		"warm");
}

static void
screening__shell_slab_lintel_and_lifting_rows(void **state)
{
	struct fixture *f = *state;
	struct trade_rows b = trade_read(f->a, "trade-b.csv");
	const char *answer = support_calc(f->a, "dome",
		"{\"radius\": 4, \"thickness\": \"150 mm\", \"density\": "
		"1000}");

	assert_row(&b, "S46", support_get(answer, "hoop_force.value") / 1000);
	assert_row(&b, "S47", support_get(answer, "hoop_stress.value") / 1e6);
	assert_has(answer, "screens only");
	answer = support_calc(f->a, "dome",
		"{\"radius\": 4, \"thickness\": \"150 mm\", \"density\": "
		"1000, \"angle\": \"60 deg\"}");
	assert_row(
		&b, "S44", -support_get(answer, "meridian_force.value") / 1000);
	assert_row(&b, "S50", support_get(answer, "ring_tension.value") / 1000);
	answer = support_calc(f->a, "slab",
		"{\"load\": \"5 kN\", \"radius\": \"50 mm\", \"thickness\": "
		"\"100 mm\", \"modulus\": \"2 GPa\", \"ground\": "
		"{\"pressure\": \"30 kPa\", \"sinks\": \"1 mm\"}}");
	assert_row(&b, "S42", support_get(answer, "inside_stress.value") / 1e6);
	assert_has(answer, "screens only");
	answer = support_calc(f->a, "handling",
		"{\"grip\": \"inner\", \"length\": 3, \"width\": 0.3, "
		"\"depth\": 0.1, \"density\": 1200, \"jerk\": 1.5}");
	assert_row(&b, "S64", support_get(answer, "stress.value") / 1e6);
	assert_has(answer, "screens only");
	assert_has(support_calc(f->a, "lintel",
			   "{\"span\": 1.2, \"width\": 0.2, \"depth\": 0.2, "
			   "\"density\": 900, \"strength\": 4e5}"),
		"screens only");
	assert_has(support_calc(f->a, "vault",
			   "{\"radius\": 2, \"thickness\": 0.1, \"length\": 5, "
			   "\"density\": 800}"),
		"screens only");
	refused("dome",
		"{\"radius\": 0.1, \"thickness\": 0.15, \"density\": 1000}",
		"thickness");
	refused("dome",
		"{\"radius\": 4, \"thickness\": 0.15, \"density\": 1000, "
		"\"angle\": \"120 deg\"}",
		"angle");
	refused("slab",
		"{\"load\": 5, \"radius\": 0.05, \"thickness\": 0.1, "
		"\"modulus\": 2e9, \"ground\": {\"pressure\": 1e4, "
		"\"sinks\": 0}}",
		"ground.sinks");
	refused("vault",
		"{\"radius\": 2, \"thickness\": 0.1, \"length\": 5, "
		"\"density\": 800, \"from_middle\": 3}",
		"from_middle");
	refused("handling",
		"{\"grip\": \"ends\", \"length\": 3, \"width\": 0.3, "
		"\"depth\": 0.1, \"density\": 1200, \"jerk\": 9}",
		"jerk");
}

/* The table's cold January and eleven mild months. */
#define MILD "{\"temperature\": 18, \"humidity\": 0.4}"
#define GLASER(months)                                                       \
	"{\"layers\": [{\"thickness\": 0.015, \"conductivity\": 0.5, "       \
	"\"mu\": 10}, {\"thickness\": 0.2, \"conductivity\": 0.12, \"mu\": " \
	"6}, {\"thickness\": 0.02, \"conductivity\": 0.8, \"air_layer\": "   \
	"0.5}], \"inside\": {\"temperature\": 20, \"humidity\": \"50 %\"}, " \
	"\"sliced\": false, \"months\": [" months "]}"

static void
condensation__rows_and_refusals(void **state)
{
	struct fixture *f = *state;
	struct trade_rows b = trade_read(f->a, "trade-b.csv");
	const char *answer = support_calc(f->a, "condensation",
		GLASER("{\"temperature\": -10, \"humidity\": \"80 "
		       "%\"}," MILD "," MILD "," MILD "," MILD "," MILD "," MILD
		       "," MILD "," MILD "," MILD "," MILD "," MILD));

	assert_row(&b, "H70", support_get(answer, "months[0].rate.value"));
	assert_near(support_get(answer, "place.value"), 0.215, 1e-14, 0);
	assert_has(answer, "screens only");
	refused("condensation", GLASER(MILD "," MILD), "months");
	refused("condensation",
		"{\"layers\": [{\"thickness\": 0.1, \"conductivity\": 1}], "
		"\"inside\": {\"temperature\": 20, \"humidity\": 0.5}, "
		"\"months\": []}",
		"layers[0].mu");
	refused("thickness-for-u",
		"{\"wanted_u\": 0, \"conductivity\": 0.1, \"heat_flow\": "
		"\"up\"}",
		"wanted_u");
}

static void
home_tests__divisions_give_an_uncertainty(void **state)
{
	/* By hand: relative parts 1/sqrt(12) of the division over the reading,
	 * as squares; the depth counts twice. */
	struct fixture *f = *state;
	const char *answer = support_calc(f->a, "flexure",
		"{\"loading\": \"third\", \"span\": 0.6, \"width\": 0.1, "
		"\"depth\": 0.075, \"held\": 20, \"broke_at\": 22, "
		"\"division\": {\"depth\": \"1 mm\", \"width\": \"1 mm\"}}");

	assert_near(support_get(answer, "relative_uncertainty"),
		hypot(2 * 0.001 / 0.075, 0.001 / 0.1) / sqrt(12), 1e-12, 0);
	assert_near(support_get(answer, "budget.depth"),
		2 * 0.001 / 0.075 / sqrt(12), 1e-12, 0);
	/* 20 to 22 kg: 2 in 21 */
	assert_near(support_get(answer, "budget.step"), 2.0 / 21 / sqrt(12),
		1e-12, 0);
	assert_has(answer, "take smaller ones");
	answer = support_calc(f->a, "drop",
		"{\"mass\": 2.4, \"height\": 0.9, \"depth\": 0.0117, \"tip\": "
		"{\"shape\": \"flat\", \"diameter\": 0.025}, \"division\": "
		"{\"diameter\": \"0.1 mm\"}}");
	/* energy over diameter squared; 1e-5 is the second order */
	assert_near(support_get(answer, "relative_uncertainty"),
		2 * 0.0001 / 0.025 / sqrt(12), 1e-5, 0);
	answer = support_calc(f->a, "crush",
		"{\"shape\": \"cube\", \"width\": 0.1, \"load\": 9000, "
		"\"division\": {\"load\": 250}}");
	assert_near(support_get(answer, "relative_uncertainty"),
		250.0 / 9000 / sqrt(12), 1e-12, 0);
	answer = support_calc(f->a, "density",
		"{\"mass\": 3, \"volume\": 0.004, \"division\": {\"mass\": "
		"0.01}}");
	assert_near(support_get(answer, "relative_uncertainty"),
		0.01 / 3 / sqrt(12), 1e-12, 0);
	refused("density",
		"{\"mass\": 3, \"volume\": 0.004, \"division\": {\"ruler\": "
		"0.01}}",
		"division.ruler");
	refused("crush",
		"{\"shape\": \"cube\", \"width\": 0.1, \"load\": 9000, "
		"\"division\": {\"load\": -1}}",
		"division.load");
}

static const struct CMUnitTest tests[] = {
	TEST(bench__stiffness_rows),
	TEST(bench__rig_rows),
	TEST(bench__water_rows),
	TEST(screening__shell_slab_lintel_and_lifting_rows),
	TEST(condensation__rows_and_refusals),
	TEST(home_tests__divisions_give_an_uncertainty),
};

TEST_MAIN(tests)
