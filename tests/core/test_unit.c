/* test_unit.c - core/unit: what people write, and what must be refused.  The
 * factors are in test_unit_oracles.c, hostile texts in test_unit_hostile.c. */
#include "support.h"

#include "core/unit.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const double inch = 0.0254, foot = 0.3048, pound = 0.45359237;
static const double gallon_us = 231 * 0.0254 * 0.0254 * 0.0254;
static const double gravity = 9.80665;

/* Factors are products of at most eight rounded numbers. */
static const double rel = 1e-14;

static double
read_ok(const char *text, enum unit_kind kind, const struct unit_rules *rules)
{
	struct err err = {.code = ERR_NONE};
	double si = NAN;

	if (unit_read(text, kind, rules, &si, &err) != ERR_NONE)
		fail_msg("\"%s\": %s", text, err.text);
	return si;
}

static void
refused(const char *text, enum unit_kind kind, const char *part)
{
	struct err err = {.code = ERR_NONE};
	double si = 77.25;

	if (unit_read(text, kind, NULL, &si, &err) != ERR_INPUT)
		fail_msg("\"%s\" was read as %.17g", text, si);
	assert_true(si == 77.25);
	assert_has(err.text, part);
}

struct typed {
	const char *text;
	enum unit_kind kind;
	double si;
};

static void
unit_read__reads_what_people_write(void **state)
{
	(void)state;
	const struct typed rows[] = {
		{"9 1/2 in", UNIT_LENGTH, 9.5 * inch},
		{"9-1/2 in", UNIT_LENGTH, 9.5 * inch},
		{"9\u00BD in", UNIT_LENGTH, 9.5 * inch},
		{"1/2 in", UNIT_LENGTH, 0.5 * inch},
		{"5' 3 1/2\"", UNIT_LENGTH, 63.5 * inch},
		{"5 ft 3 in", UNIT_LENGTH, 63 * inch},
		{"2 ft 6 in", UNIT_LENGTH, 30 * inch},
		{"1 234,5 mm", UNIT_LENGTH, 1.2345},
		{"1'234.5 mm", UNIT_LENGTH, 1.2345},
		{"12,5 mm", UNIT_LENGTH, 0.0125},
		{"70lb", UNIT_MASS, 70 * pound},
		{"70 lbs", UNIT_MASS, 70 * pound},
		{"31,8 kg", UNIT_MASS, 31.8},
		{"31.8 KG", UNIT_MASS, 31.8},
		{"3 lb 4 oz", UNIT_MASS, 3.25 * pound},
		{"3 oz", UNIT_MASS, 3 * pound / 16},
		{"0.25 t", UNIT_MASS, 250},
		{"0.25 tonne", UNIT_MASS, 250},
		{"7 1/4 gal", UNIT_VOLUME, 7.25 * gallon_us},
		{"3 fl oz", UNIT_VOLUME, 3 * gallon_us / 128},
		{"3 qt", UNIT_VOLUME, 3 * gallon_us / 4},
		{"2 cu yd", UNIT_VOLUME, 54 * foot * foot * foot},
		{"2 cuyd", UNIT_VOLUME, 54 * foot * foot * foot},
		{"2 cy", UNIT_VOLUME, 54 * foot * foot * foot},
		{"2 cf", UNIT_VOLUME, 2 * foot * foot * foot},
		{"2.5 m\u00B3", UNIT_VOLUME, 2.5},
		{"2.5 m\u00B2", UNIT_AREA, 2.5},
		{"850 mL", UNIT_VOLUME, 850e-6},
		{"150 psi", UNIT_STRESS, 150 * pound * gravity / inch / inch},
		{"150 lb/in2", UNIT_STRESS,
			150 * pound * gravity / inch / inch},
		{"1.5 ksi", UNIT_STRESS, 1500 * pound * gravity / inch / inch},
		{"15 kgf/cm2", UNIT_STRESS, 15 * gravity * 1e4},
		{"1.5 N/mm2", UNIT_STRESS, 1.5e6},
		{"40 pcf", UNIT_DENSITY, 40 * pound / foot / foot / foot},
		{"40 lb/ft3", UNIT_DENSITY, 40 * pound / foot / foot / foot},
		{"650 g/L", UNIT_DENSITY, 650},
		{"0.65 g/cm3", UNIT_DENSITY, 650},
		{"650 kg/m\u00B3", UNIT_DENSITY, 650},
		{"40 F", UNIT_TEMPERATURE, (40 - 32) / 1.8},
		{"40 \u00B0F", UNIT_TEMPERATURE, (40 - 32) / 1.8},
		{"-4 \u00B0C", UNIT_TEMPERATURE, -4},
		{"18 F", UNIT_TEMPERATURE_DIFFERENCE, 10},
		{"0.12 W/mK", UNIT_CONDUCTIVITY, 0.12},
		{"0.12 W/(m K)", UNIT_CONDUCTIVITY, 0.12},
		{"0.12 W/m.K", UNIT_CONDUCTIVITY, 0.12},
		{"6 gal/min", UNIT_VOLUME_FLOW, gallon_us / 10},
		{"6 l/min", UNIT_VOLUME_FLOW, 1e-4},
		{"28 d", UNIT_TIME, 28 * 86400},
		{"90 min", UNIT_TIME, 5400},
		{"5 %", UNIT_RATIO, 0.05},
		{"0.05", UNIT_RATIO, 0.05},
		{"12 ft-lb", UNIT_ENERGY, 12 * foot * pound * gravity},
		{"12 ft lbf", UNIT_ENERGY, 12 * foot * pound * gravity},
		{"0.8 J/cm3", UNIT_ENERGY_PER_VOLUME, 8e5},
		{"180 mg/L", UNIT_CONCENTRATION, 0.18},
		{"60 deg", UNIT_ANGLE, 1.0471975511965976},
		{"12,5", UNIT_NUMBER, 12.5},
		/* fractions */
		{"1\u20442 in", UNIT_LENGTH, 0.5 * inch},
		{"9 1\u20442 in", UNIT_LENGTH, 9.5 * inch},
		{"\u2153 yd", UNIT_LENGTH, foot},
		{"2\u215E in", UNIT_LENGTH, 2.875 * inch},
		{"2 \u215E in", UNIT_LENGTH, 2.875 * inch},
		{"11/16 in", UNIT_LENGTH, 0.6875 * inch},
		{"7 3/64\"", UNIT_LENGTH, 7.046875 * inch},
		/* feet and inches */
		{"5' 6\"", UNIT_LENGTH, 66 * inch},
		{"5'6\"", UNIT_LENGTH, 66 * inch},
		{"5'-6\"", UNIT_LENGTH, 66 * inch},
		{"5\u2032 6\u2033", UNIT_LENGTH, 66 * inch},
		{"5\u2019 6\u201D", UNIT_LENGTH, 66 * inch},
		{"5' 6''", UNIT_LENGTH, 66 * inch},
		{"5' 6\u00BD\"", UNIT_LENGTH, 66.5 * inch},
		{"2 ft 6-1/2 in", UNIT_LENGTH, 30.5 * inch},
		{"2 feet 6 inches", UNIT_LENGTH, 30 * inch},
		{"3 yd 2 ft 6 in", UNIT_LENGTH, 138 * inch},
		{"1 m 25 cm", UNIT_LENGTH, 1.25},
		{"6ft2in", UNIT_LENGTH, 74 * inch},
		{"6ft2\"", UNIT_LENGTH, 74 * inch},
		{"1h30min", UNIT_TIME, 5400},
		{"3lb4oz", UNIT_MASS, 3.25 * pound},
		{"12 m2", UNIT_AREA, 12},
		{"3 ft2in", UNIT_VOLUME, 3 * foot * foot * inch},
		/* grouping */
		{"1,234.5 mm", UNIT_LENGTH, 1.2345},
		{"1.234,5 mm", UNIT_LENGTH, 1.2345},
		{"1,234,567 mm", UNIT_LENGTH, 1234.567},
		{"1.234.567 mm", UNIT_LENGTH, 1234.567},
		{"1\u00A0234\u00A0567,25 mm", UNIT_LENGTH, 1234.56725},
		{"1\u202F234,5 mm", UNIT_LENGTH, 1.2345},
		{"1\u2009234 mm", UNIT_LENGTH, 1.234},
		{"1\u2019234.5 mm", UNIT_LENGTH, 1.2345},
		{"1.234 mm", UNIT_LENGTH, 1.234e-3},
		{"0,234 mm", UNIT_LENGTH, 0.234e-3},
		{"1234,567 mm", UNIT_LENGTH, 1.234567},
		{"12,3456 mm", UNIT_LENGTH, 12.3456e-3},
		{".5 mm", UNIT_LENGTH, 0.5e-3},
		{",5 mm", UNIT_LENGTH, 0.5e-3},
		/* units made of words */
		{"40 lb/cu ft", UNIT_DENSITY, 40 * pound / foot / foot / foot},
		{"40 lbs/cu. ft.", UNIT_DENSITY,
			40 * pound / foot / foot / foot},
		{"40 lb per cubic foot", UNIT_DENSITY,
			40 * pound / foot / foot / foot},
		{"40 pounds per cu ft", UNIT_DENSITY,
			40 * pound / foot / foot / foot},
		{"40 lb/ft\u00B3", UNIT_DENSITY,
			40 * pound / foot / foot / foot},
		{"40 lb/cf", UNIT_DENSITY, 40 * pound / foot / foot / foot},
		{"1.2 lb/gal", UNIT_DENSITY, 1.2 * pound / gallon_us},
		{"650 kg\u00B7m\u207B\u00B3", UNIT_DENSITY, 650},
		{"650 kg m^-3", UNIT_DENSITY, 650},
		{"2.5 N/mm\u00B2", UNIT_STRESS, 2.5e6},
		{"2.5 N\u00D7mm\u207B\u00B2", UNIT_STRESS, 2.5e6},
		{"2.5 MPa", UNIT_STRESS, 2.5e6},
		{"400 psf", UNIT_STRESS, 400 * pound * gravity / foot / foot},
		{"5 psf", UNIT_MASS_PER_AREA, 5 * pound / foot / foot},
		{"12.5 kN", UNIT_FORCE, 12500},
		{"190 lbf", UNIT_FORCE, 190 * pound * gravity},
		{"7 kips", UNIT_FORCE, 7000 * pound * gravity},
		{"3 sq ft", UNIT_AREA, 3 * foot * foot},
		{"3 square feet", UNIT_AREA, 3 * foot * foot},
		{"3 sf", UNIT_AREA, 3 * foot * foot},
		{"2 cubic yards", UNIT_VOLUME, 54 * foot * foot * foot},
		{"2 cft", UNIT_VOLUME, 2 * foot * foot * foot},
		{"3 US gal", UNIT_VOLUME, 3 * gallon_us},
		{"3 imp gal", UNIT_VOLUME, 3 * 4.54609e-3},
		{"3 imp. gallons", UNIT_VOLUME, 3 * 4.54609e-3},
		{"3 UK gal", UNIT_VOLUME, 3 * 4.54609e-3},
		{"3 fl. oz.", UNIT_VOLUME, 3 * gallon_us / 128},
		{"6.5 fl oz/US cwt", UNIT_VOLUME_PER_MASS,
			6.5 * gallon_us / 128 / (100 * pound)},
		{"0.28 W/(m2 K)", UNIT_U_VALUE, 0.28},
		{"0.28 W/m\u00B2K", UNIT_U_VALUE, 0.28},
		{"0.12 W/(m\u00B7K)", UNIT_CONDUCTIVITY, 0.12},
		{"0.12 W m\u207B\u00B9 K\u207B\u00B9", UNIT_CONDUCTIVITY, 0.12},
		{"0.83 BTU in/(hr ft2 \u00B0F)", UNIT_CONDUCTIVITY,
			0.83 * 1055.05585262 * inch * 1.8 / 3600 / foot / foot},
		{"13 hr\u00B7ft\u00B2\u00B7\u00B0F/Btu", UNIT_RESISTANCE,
			13 * 3600 * foot * foot / 1.8 / 1055.05585262},
		{"5 mm/m", UNIT_RATIO, 0.005},
		{"12 \u2030", UNIT_RATIO, 0.012},
		{"12 per mil", UNIT_RATIO, 0.012},
		{"12 per mille", UNIT_RATIO, 0.012},
		{"5%", UNIT_RATIO, 0.05},
		{"5 per cent", UNIT_RATIO, 0.05},
		/* times and temperatures */
		{"1 h 30 min", UNIT_TIME, 5400},
		{"1 hr 30 min 15 s", UNIT_TIME, 5415},
		{"2 weeks 3 days", UNIT_TIME, 17 * 86400.},
		{"40 degrees F", UNIT_TEMPERATURE, (40 - 32) / 1.8},
		{"40 deg F", UNIT_TEMPERATURE, (40 - 32) / 1.8},
		{"40\u2109", UNIT_TEMPERATURE, (40 - 32) / 1.8},
		{"18 \u2103", UNIT_TEMPERATURE, 18},
		{"\u22124 degC", UNIT_TEMPERATURE, -4},
		{"-40 F", UNIT_TEMPERATURE, -40},
		{"291.15 K", UNIT_TEMPERATURE, 18},
		{"  450  mm ", UNIT_LENGTH, 0.45},
		{"450\u00A0mm", UNIT_LENGTH, 0.45},
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		double got = read_ok(rows[i].text, rows[i].kind, NULL);

		if (!(fabs(got - rows[i].si) <= rel * fabs(rows[i].si)))
			print_error("%s\n", rows[i].text);
		assert_near(got, rows[i].si, rel, 0);
	}
}

static void
unit_read__refuses_and_says_why(void **state)
{
	(void)state;
	char long_text[80];

	refused("1,234 mm", UNIT_LENGTH, "1.234");
	refused("1,234 mm", UNIT_LENGTH, "1234");
	refused("2 ton", UNIT_MASS, "short");
	refused("2 ton", UNIT_MASS, "long");
	refused("3 pt", UNIT_VOLUME, "pint");
	refused("1 month", UNIT_TIME, "days");
	refused("5 mPa", UNIT_STRESS, "MPa");
	refused("5 Mpa", UNIT_STRESS, "MPa");
	refused("5 mpa", UNIT_STRESS, "MPa");
	refused("70 lb", UNIT_LENGTH, "a mass");
	refused("70 lb", UNIT_LENGTH, "a length");
	refused("3 oz", UNIT_VOLUME, "a mass");
	refused("70 lb", UNIT_FORCE, "a force");
	refused("5 F", UNIT_LENGTH, "a length");
	refused("60", UNIT_ANGLE, "an angle");
	refused("-5 mm", UNIT_LENGTH, "-5");
	refused("-460 degF", UNIT_TEMPERATURE, "absolute zero");
	refused("12,345 mm", UNIT_LENGTH, "12.345");
	refused("12,345 mm", UNIT_LENGTH, "12345");
	refused("1'234\"", UNIT_LENGTH, "feet and inches");
	refused("12:45", UNIT_TIME, "12 h 45 min");
	refused("12:45", UNIT_TIME, "12 min 45 s");
	refused("5 MG", UNIT_MASS, "mg or Mg");
	refused("2 cwt", UNIT_MASS, "112");
	refused("2 cwt", UNIT_MASS, "100");
	refused("3 bags", UNIT_MASS, "94 lb");
	refused("5 mils", UNIT_LENGTH, "thousandth");
	refused("1e3 mm", UNIT_LENGTH, "exponent");
	refused("0x10 mm", UNIT_LENGTH, "hexadecimal");
	refused("3.5 ft 6 in", UNIT_LENGTH, "whole number");
	refused("5 ft 13 in", UNIT_LENGTH, "one or more");
	refused("6 in 5 ft", UNIT_LENGTH, "larger unit");
	refused("5 ft 3", UNIT_LENGTH, "no unit");
	refused("1/0 in", UNIT_LENGTH, "zero");
	refused("9 3/2 in", UNIT_LENGTH, "fraction");
	refused("70 kg", UNIT_DENSITY, "a density");
	refused("450", UNIT_LENGTH, "no unit");
	refused("5 \u00B1 1 mm", UNIT_LENGTH, "U+00B1");
	refused("+5 mm", UNIT_LENGTH, "sign");

	const char *const bad[] = {"", " ", "mm", "1e3 mm", "0x10 mm", "inf",
		"nan mm", "5 mm)", "5 mm x", "5 mm 3", "5 3 mm", "1/0 mm",
		"9 1/2 1/2 mm", "--5 mm", "5 mm\n", "5\tmm", "\x80 mm",
		"1.2.3 mm", "1,23,4 mm", "5 furlong", "12:45 mm", "5 m/", "/ m",
		"5 \u00B1 1 mm", "10\u00B3 mm"};

	for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++)
		refused(bad[i], UNIT_LENGTH, "");
	memset(long_text, '1', sizeof long_text);
	memcpy(long_text + 70, " mm", 4);
	refused(long_text, UNIT_LENGTH, "64");
}

static void
unit_read__follows_its_rules(void **state)
{
	(void)state;
	struct unit_rules rules = {.bare_unit = "mm"};
	double si = 77.25;

	assert_near(read_ok("450", UNIT_LENGTH, &rules), 0.45, rel, 0);
	assert_near(read_ok("9 in", UNIT_LENGTH, &rules), 9 * inch, rel, 0);
	rules.decimal_comma = true;
	assert_near(read_ok("1,234", UNIT_LENGTH, &rules), 1.234e-3, rel, 0);
	assert_int_equal(
		ERR_INPUT, unit_read("1.234", UNIT_LENGTH, &rules, &si, NULL));
	rules.may_be_negative = true;
	assert_near(read_ok("-4,5", UNIT_LENGTH, &rules), -4.5e-3, rel, 0);
	rules.gallon = UNIT_GALLON_IMPERIAL;
	assert_near(
		read_ok("3 gal", UNIT_VOLUME, &rules), 3 * 4.54609e-3, rel, 0);
	assert_near(read_ok("3 fl oz", UNIT_VOLUME, &rules),
		3 * 4.54609e-3 / 160, rel, 0);
	assert_false(signbit(read_ok("-0", UNIT_LENGTH, &rules)));
	assert_near(
		read_ok("-5 ft 3 in", UNIT_LENGTH, &rules), -63 * inch, rel, 0);
	assert_near(read_ok("+5 mm", UNIT_LENGTH, &rules), 5e-3, rel, 0);
	assert_near(read_ok("1.234,5", UNIT_LENGTH, &rules), 1.2345, rel, 0);
}

static void
unit_names_gallon__where_the_two_differ(void **state)
{
	(void)state;
	assert_true(unit_names_gallon("6 gal", UNIT_VOLUME));
	assert_true(unit_names_gallon("2 qt", UNIT_VOLUME));
	assert_true(unit_names_gallon("8.3 ppg", UNIT_DENSITY));
	assert_true(unit_names_gallon("6 gal/min", UNIT_VOLUME_FLOW));
	assert_false(unit_names_gallon("6 US gal", UNIT_VOLUME));
	assert_false(unit_names_gallon("6 imp gal", UNIT_VOLUME));
	assert_false(unit_names_gallon("6 L", UNIT_VOLUME));
	assert_false(unit_names_gallon("6 gal", UNIT_MASS));
	assert_false(unit_names_gallon("0 gal", UNIT_VOLUME));
	assert_false(unit_names_gallon("", UNIT_VOLUME));
}

static void
unit_value__undoes_the_factor(void **state)
{
	(void)state;
	assert_near(unit_value(77 * 0.45359237, UNIT_MASS, "lb"), 77, rel, 0);
	assert_near(unit_value(37, UNIT_TEMPERATURE, "degF"), 98.6, rel, 0);
	assert_near(unit_value(3 * gallon_us, UNIT_VOLUME, "gal"), 3, rel, 0);
	assert_true(isnan(unit_value(3, UNIT_MASS, "m")));
}

/* "5 ft 3" leaves out what the heading says only where one number stands. */
static void
unit_read__takes_a_bare_unit_for_one_number_alone(void **state)
{
	(void)state;
	const struct unit_rules rules = {.bare_unit = "in"};
	struct err err = {.code = ERR_NONE};
	double si = 77.25;

	assert_int_equal(
		ERR_INPUT, unit_read("5 ft 3", UNIT_LENGTH, &rules, &si, &err));
	assert_true(si == 77.25);
	assert_near(read_ok("9 1/2", UNIT_LENGTH, &rules), 9.5 * inch, rel, 0);
	err_clear(&err);
	assert_int_equal(
		ERR_INPUT, unit_read("5", UNIT_MASS, &rules, &si, &err));
	assert_has(err.text, "a length");
	assert_has(err.text, "a mass");
}

/* The sentences that name two kinds name both. */
static void
unit_read__names_both_kinds(void **state)
{
	(void)state;

	for (int want = UNIT_RATIO; want < UNIT_N_KIND; want++) {
		struct err err = {.code = ERR_NONE};
		double si;

		/* an example of a kind is read as that kind, and refused as a
		 * plain number */
		(void)read_ok(unit_example((enum unit_kind)want),
			(enum unit_kind)want, NULL);
		assert_int_equal(ERR_INPUT,
			unit_read(unit_example((enum unit_kind)want),
				UNIT_NUMBER, NULL, &si, &err));
		assert_has(err.text, "a number");
	}
}

/* The reader rounds as strtod, which is exact in glibc. */
static void
unit_read__rounds_correctly(void **state)
{
	(void)state;
	srandom(2385);
	for (int i = 0; i < 20000; i++) {
		char text[64];
		int whole = (int)(random() % 1000000);

		(void)snprintf(text, sizeof text, "%d.%09ld%05ld", whole,
			random() % 1000000000, random() % 100000);
		assert_true(
			read_ok(text, UNIT_NUMBER, NULL) == strtod(text, NULL));
	}
}

static void
unit_digits__never_uses_exponents(void **state)
{
	struct fixture *f = *state;

	assert_string_equal("1230000", unit_digits(f->a, 1234567, 3));
	assert_string_equal("0.00000123", unit_digits(f->a, 1.2345e-6, 3));
	assert_string_equal("-2.50", unit_digits(f->a, -2.5, 3));
	assert_string_equal("0", unit_digits(f->a, -0.0, 1));
	assert_string_equal("10.0", unit_digits(f->a, 9.996, 3));
	assert_string_equal(
		"22.6 kg", unit_write(f->a, 22.6123, UNIT_MASS, "kg", 3));
	assert_string_equal(
		"73.4 degF", unit_write(f->a, 23, UNIT_TEMPERATURE, "degF", 3));
	assert_null(unit_write(f->a, 1, UNIT_MASS, "mm", 3));
	/* the header's example; JCGM 100:2008, 7.2.6 */
	assert_string_equal(
		"0.357 +/- 0.012", unit_plus_minus(f->a, 0.35692, 0.01193));
	assert_string_equal("12300 +/- 700", unit_plus_minus(f->a, 12345, 678));
}

static const struct CMUnitTest tests[] = {
	TEST(unit_read__reads_what_people_write),
	TEST(unit_read__refuses_and_says_why),
	TEST(unit_read__follows_its_rules),
	TEST(unit_read__takes_a_bare_unit_for_one_number_alone),
	TEST(unit_read__names_both_kinds),
	TEST(unit_names_gallon__where_the_two_differ),
	TEST(unit_value__undoes_the_factor),
	TEST(unit_read__rounds_correctly),
	TEST(unit_digits__never_uses_exponents),
};

TEST_MAIN(tests)
