/* test_calc_trade.c - curing, heat and screening on the workbench: rows of the
 * reference table through the whole path, and every key refused that cannot be
 * (tests/data/trade-a.csv, trade-b.csv). */
#include "trade_row.h"

#include "work/calc.h"

#include <stdio.h>

static void
refused(const char *name, const char *question, const char *field)
{
	struct err err = support_calc_refused(name, question);

	if (strcmp(err.field, field) != 0) {
		print_error("%s %s: field \"%s\", wanted \"%s\" (%s)\n", name,
			question, err.field, field, err.text);
		fail();
	}
	assert_true(strlen(err.text) > 20);
}

static void
maturity__rows_and_defaults(void **state)
{
	struct fixture *f = *state;
	struct trade_rows a = trade_read(f->a, "trade-a.csv");
	struct trade_rows b = trade_read(f->a, "trade-b.csv");
	const char *answer = support_calc(f->a, "maturity",
		"{\"history\": [{\"t\": 0, \"temperature\": 10}, {\"t\": \"6 "
		"h\", \"temperature\": 16}, {\"t\": \"12 h\", \"temperature\": "
		"24}, {\"t\": \"18 h\", \"temperature\": 20}, {\"t\": \"1 d\", "
		"\"temperature\": \"14 degC\"}], \"datum\": 0}");

	assert_row(&a, "NS-4", support_get(answer, "nurse_saul.value"));
	assert_has(answer, "\"unit\": \"degC h\"");
	assert_row(
		&a, "EA-5", support_get(answer, "equivalent_age.value") / 3600);
	assert_has(answer, "5000 K");
	answer = support_calc(f->a, "maturity",
		"{\"history\": [{\"t\": 0, \"temperature\": 30}, {\"t\": \"24 "
		"h\", \"temperature\": 30}], \"datum\": \"-10 degC\", "
		"\"activation_energy\": \"40 kJ/mol\"}");
	assert_row(
		&b, "W20", support_get(answer, "equivalent_age.value") / 3600);
	/* 50 degF is 10 degC, the reference of the other answer */
	answer = support_calc(f->a, "maturity",
		"{\"history\": [{\"t\": 0, \"temperature\": \"50 degF\"}, "
		"{\"t\": \"24 h\", \"temperature\": \"50 degF\"}], \"datum\": "
		"0, \"reference_temperature\": 10}");
	assert_near(
		support_get(answer, "equivalent_age.value"), 86400, 1e-12, 0);
}

static void
maturity__what_cannot_be_is_refused(void **state)
{
	(void)state;
	refused("maturity", "{\"history\": [], \"datum\": 0}", "history");
	refused("maturity",
		"{\"history\": [{\"t\": 0, \"temperature\": 15}], \"datum\": "
		"0}",
		"history");
	refused("maturity",
		"{\"history\": [{\"t\": 0, \"temperature\": 15}, {\"t\": 5, "
		"\"temperature\": 15}]}",
		"datum");
	refused("maturity",
		"{\"history\": [{\"t\": 9, \"temperature\": 15}, {\"t\": 5, "
		"\"temperature\": 15}], \"datum\": 0}",
		"history[1].t");
	refused("maturity",
		"{\"history\": [{\"t\": 0, \"temperature\": 15}, {\"t\": 5, "
		"\"temperature\": -400}], \"datum\": 0}",
		"history[1].temperature");
	refused("maturity",
		"{\"history\": [{\"t\": 0, \"temperature\": 15, \"x\": 1}, "
		"{\"t\": 5, \"temperature\": 4}], \"datum\": 0}",
		"history[0].x");
	refused("maturity",
		"{\"history\": [{\"t\": 0, \"temperature\": 15}, {\"t\": 5, "
		"\"temperature\": 15}], \"datum\": 0, \"activation_energy\": "
		"0}",
		"activation_energy");
	refused("maturity",
		"{\"history\": [{\"t\": 0, \"temperature\": 15}, {\"t\": 5, "
		"\"temperature\": 15}], \"datum\": 0, \"activation_energy\": "
		"\"41 m\"}",
		"activation_energy");
}

static void
strength_age__rows_and_refusals(void **state)
{
	struct fixture *f = *state;
	struct trade_rows a = trade_read(f->a, "trade-a.csv");
	const char *answer = support_calc(f->a, "strength-age",
		"{\"strength\": \"2 MPa\", \"age\": \"7 d\", \"to_age\": \"28 "
		"d\", \"relation\": {\"kind\": \"exponential\", \"s\": 0.25}}");

	assert_row(&a, "EC2-INV7", support_get(answer, "strength.value") / 1e6);
	assert_row(&a, "EC2-25-7", 1 / support_get(answer, "ratio"));
	answer = support_calc(f->a, "strength-age",
		"{\"strength\": \"2 MPa\", \"age\": \"28 d\", \"to_age\": \"90 "
		"d\", \"relation\": {\"kind\": \"rational\", \"a\": 4.0, "
		"\"b\": 0.85}}");
	assert_row(&a, "A209-M1-28", support_get(answer, "at_age"));
	assert_row(&a, "A209-M1-90", support_get(answer, "at_to_age"));
	/* one over the other: from the 28-day strength itself, not the nominal*/
	assert_near(support_get(answer, "ratio"), 1.118012422 / 1.007194245,
		1e-8, 0);
	refused("strength-age",
		"{\"strength\": \"2 MPa\", \"age\": 0, \"to_age\": \"28 d\", "
		"\"relation\": {\"kind\": \"exponential\", \"s\": 0.25}}",
		"age");
	refused("strength-age",
		"{\"strength\": -2, \"age\": \"7 d\", \"to_age\": \"28 d\", "
		"\"relation\": {\"kind\": \"exponential\", \"s\": 0.25}}",
		"strength");
	refused("strength-age",
		"{\"strength\": 2, \"age\": \"7 d\", \"to_age\": \"28 d\", "
		"\"relation\": {\"kind\": \"linear\", \"s\": 0.25}}",
		"relation.kind");
	refused("strength-age",
		"{\"strength\": 2, \"age\": \"7 d\", \"to_age\": \"28 d\", "
		"\"relation\": {\"kind\": \"rational\", \"a\": 4}}",
		"relation.b");
	refused("strength-age",
		"{\"strength\": 2, \"age\": \"7 d\", \"to_age\": \"28 d\", "
		"\"relation\": {\"kind\": \"exponential\", \"s\": 0.2, \"a\": "
		"4}}",
		"relation.a");
	refused("strength-age",
		"{\"strength\": 2, \"age\": \"7 d\", \"to_age\": \"300000 d\", "
		"\"relation\": {\"kind\": \"exponential\", \"s\": 0.2}}",
		"to_age");
}

static void
conductivity__rows_and_refusals(void **state)
{
	struct fixture *f = *state;
	struct trade_rows b = trade_read(f->a, "trade-b.csv");
	const char *answer = support_calc(
		f->a, "conductivity", "{\"oven_dry_density\": 800}");
	const char *moist = support_calc(f->a, "conductivity",
		"{\"oven_dry_density\": 800, \"moisture_content\": \"4.5 %\"}");

	assert_row(&b, "H08",
		support_get(answer, "relations.aci_122.conductivity.value"));
	assert_row(&b, "H11",
		support_get(answer,
			"relations.aci_122_rounded.conductivity.value"));
	assert_row(&b, "H25",
		support_get(
			answer, "relations.en_1745_p50.conductivity.value"));
	assert_near(
		support_get(answer, "relations.aci_122.range.low"), 320, 0, 0);
	assert_near(support_get(moist, "relations.aci_122.conductivity.value"),
		support_get(answer, "relations.aci_122.conductivity.value") *
			exp(4 * 0.045),
		1e-14, 0);
	assert_has(answer, "screens only");
	refused("conductivity", "{\"oven_dry_density\": 0}",
		"oven_dry_density");
	refused("conductivity", "{\"oven_dry_density\": \"80 mm\"}",
		"oven_dry_density");
	refused("conductivity", "{\"oven_dry_density\": 5000}",
		"oven_dry_density");
	refused("conductivity",
		"{\"oven_dry_density\": 500, \"moisture_content\": -0.1}",
		"moisture_content");
}

static void
u_value__rows_and_refusals(void **state)
{
	struct fixture *f = *state;
	struct trade_rows b = trade_read(f->a, "trade-b.csv");
	const char *answer = support_calc(f->a, "u-value",
		"{\"layers\": [{\"name\": \"a\", \"thickness\": 0.3, "
		"\"conductivity\": 0.15}, {\"name\": \"b\", \"resistance\": "
		"0.05}], \"heat_flow\": \"horizontal\"}");

	assert_row(&b, "H41", support_get(answer, "resistance.value"));
	assert_row(&b, "H42", support_get(answer, "u_value.value"));
	assert_row(&b, "H43", support_get(answer, "resistance_us.value"));
	assert_near(support_get(answer, "u_value_us.value") *
			support_get(answer, "resistance_us.value"),
		1, 1e-14, 0);
	assert_has(answer, "screens only");
	refused("u-value", "{\"layers\": [], \"heat_flow\": \"up\"}", "layers");
	refused("u-value",
		"{\"layers\": [{\"thickness\": 0, \"conductivity\": 1}], "
		"\"heat_flow\": \"up\"}",
		"layers[0].thickness");
	refused("u-value",
		"{\"layers\": [{\"thickness\": 1, \"conductivity\": 1}, "
		"{\"thickness\": 1, \"resistance\": 1}], \"heat_flow\": "
		"\"up\"}",
		"layers[1].resistance");
	refused("u-value",
		"{\"layers\": [{\"thickness\": 1, \"conductivity\": 1}], "
		"\"heat_flow\": \"sideways\"}",
		"heat_flow");
	refused("u-value",
		"{\"layers\": [{\"thickness\": 1, \"lambda\": 1}], "
		"\"heat_flow\": \"up\"}",
		"layers[0].lambda");
}

static void
section__rows_and_refusals(void **state)
{
	struct fixture *f = *state;
	struct trade_rows b = trade_read(f->a, "trade-b.csv");
	const char *answer = support_calc(f->a, "section",
		"{\"width\": 1, \"depth\": \"150 mm\", \"strength\": \"1.4705 "
		"MPa\", \"compressive_strength\": \"17 MPa\", "
		"\"reinforcement\": {\"area\": \"500 mm2\", "
		"\"effective_depth\": \"120 mm\", \"yield_stress\": \"420 "
		"MPa\"}}");
	const char *plain = support_calc(f->a, "section",
		"{\"width\": 1, \"depth\": 0.15, \"strength\": 1470500}");

	assert_row(
		&b, "S27", support_get(answer, "cracking_moment.value") / 1000);
	assert_row(
		&b, "S29", support_get(answer, "ultimate_moment.value") / 1000);
	assert_near(support_get(plain, "ultimate_moment.value"),
		support_get(plain, "cracking_moment.value"), 0, 0);
	assert_has(plain, "falls without warning");
	assert_has(answer, "screens only");
	refused("section", "{\"width\": 1, \"depth\": 0, \"strength\": 1e6}",
		"depth");
	refused("section",
		"{\"width\": 1, \"depth\": 0.1, \"strength\": 1e6, "
		"\"reinforcement\": {\"area\": 1e-4, \"effective_depth\": "
		"0.08, \"yield_stress\": 4e8}}",
		"compressive_strength");
	refused("section",
		"{\"width\": 1, \"depth\": 0.1, \"strength\": 1e6, "
		"\"compressive_strength\": 2e6, \"reinforcement\": {\"area\": "
		"1e-4, \"effective_depth\": 0.1, \"yield_stress\": 4e8}}",
		"reinforcement.effective_depth");
	refused("section",
		"{\"width\": 1, \"depth\": 0.1, \"strength\": 1e6, "
		"\"compressive_strength\": 2e6, \"reinforcement\": {\"area\": "
		"0, \"effective_depth\": 0.08, \"yield_stress\": 4e8}}",
		"reinforcement.area");
	refused("section",
		"{\"width\": 1, \"depth\": 0.1, \"strength\": 1e6, "
		"\"compressive_strength\": 2e6, \"reinforcement\": "
		"{\"bars\": 3}}",
		"reinforcement.bars");
}

static void
wall__rows_and_refusals(void **state)
{
	struct fixture *f = *state;
	struct trade_rows b = trade_read(f->a, "trade-b.csv");
	const char *answer = support_calc(f->a, "wall",
		"{\"height\": \"2.7 m\", \"thickness\": \"200 mm\", "
		"\"strength\": \"3 MPa\", \"density\": 800, \"load\": 0, "
		"\"wind\": \"1 kPa\"}");

	assert_near(support_get(answer, "slenderness"), 13.5, 1e-14, 0);
	assert_row(
		&b, "S18", support_get(answer, "bending_stress.value") / 1e6);
	assert_row(&b, "S20", support_get(answer, "net_tension.value") / 1e6);
	/* at the foot twice what S19 has at half height */
	assert_row(
		&b, "S19", support_get(answer, "axial_stress.value") / 2 / 1e6);
	assert_near(support_get(answer, "utilisation"),
		support_get(answer, "tension_utilisation"), 0, 0);
	assert_has(answer, "Tension by wind governs");
	assert_has(answer, "screens only");
	refused("wall",
		"{\"height\": 0, \"thickness\": 0.2, \"strength\": 3e6, "
		"\"density\": 800, \"load\": 0}",
		"height");
	refused("wall",
		"{\"height\": 2.4, \"thickness\": 0.2, \"strength\": 3e6, "
		"\"density\": 800}",
		"load");
	refused("wall",
		"{\"height\": 2.4, \"thickness\": 0.2, \"strength\": 3e6, "
		"\"density\": 800, \"load\": 0, \"wind\": -5}",
		"wind");
	refused("wall",
		"{\"height\": 2.4, \"thickness\": 0.2, \"strength\": 3e6, "
		"\"density\": 800, \"load\": 0, \"safety_factor\": 0.5}",
		"safety_factor");
	refused("wall",
		"{\"height\": 0.2, \"thickness\": 2.4, \"strength\": 3e6, "
		"\"density\": 800, \"load\": 0}",
		"thickness");
}

static void
form_pressure__rows_and_refusals(void **state)
{
	struct fixture *f = *state;
	struct trade_rows b = trade_read(f->a, "trade-b.csv");
	const char *answer = support_calc(f->a, "form-pressure",
		"{\"density\": 800, \"lift_height\": \"100 cm\"}");

	assert_row(&b, "S67", support_get(answer, "pressure.value") / 1000);
	assert_has(answer, "screens only");
	refused("form-pressure", "{\"density\": 800, \"lift_height\": 0}",
		"lift_height");
	refused("form-pressure", "{\"density\": -1, \"lift_height\": 1}",
		"density");
	refused("form-pressure", "{\"density\": 800, \"lift_height\": 300}",
		"lift_height");
}

static const struct CMUnitTest tests[] = {
	TEST(maturity__rows_and_defaults),
	TEST(maturity__what_cannot_be_is_refused),
	TEST(strength_age__rows_and_refusals),
	TEST(conductivity__rows_and_refusals),
	TEST(u_value__rows_and_refusals),
	TEST(section__rows_and_refusals),
	TEST(wall__rows_and_refusals),
	TEST(form_pressure__rows_and_refusals),
};

TEST_MAIN(tests)
