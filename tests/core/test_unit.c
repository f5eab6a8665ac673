/* test_unit.c - core/unit: what people write, what must be refused, and the
 * factors against two unit libraries. */
#include "support.h"

#include "core/unit.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <udunits2.h>
#include <unistd.h>

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

struct word {
	const char *ours;
	enum unit_kind kind;
	const char *udunits; /* NULL: it lacks the word or means another */
	const char *gnu;
};

/* Exceptions.  UDUNITS-2 knows no pcf, psf or lb/in2, its gallon, quart and
 * fluid ounce have seven digits, its Btu is the IT one; GNU units writes the
 * fluid ounce floz, and force as lbf. */
static const struct word words[] = {
	{"mm", UNIT_LENGTH, "mm", "mm"},
	{"cm", UNIT_LENGTH, "cm", "cm"},
	{"in", UNIT_LENGTH, "inch", "in"},
	{"ft", UNIT_LENGTH, "foot", "ft"},
	{"yd", UNIT_LENGTH, "yard", "yd"},
	{"ft2", UNIT_AREA, "foot^2", "ft^2"},
	{"in2", UNIT_AREA, "inch^2", "in^2"},
	{"L", UNIT_VOLUME, "liter", "L"},
	{"mL", UNIT_VOLUME, "mL", "mL"},
	{"cu ft", UNIT_VOLUME, "foot^3", "ft^3"},
	{"cu yd", UNIT_VOLUME, "yard^3", "yd^3"},
	{"gal", UNIT_VOLUME, "gallon", "gallon"},
	{"qt", UNIT_VOLUME, "quart", "quart"},
	{"fl oz", UNIT_VOLUME, "fluid_ounce", "floz"},
	{"lb", UNIT_MASS, "pound", "lb"},
	{"oz", UNIT_MASS, NULL, "oz"},
	{"t", UNIT_MASS, "tonne", "tonne"},
	{"g", UNIT_MASS, "g", "g"},
	{"N", UNIT_FORCE, "N", "N"},
	{"kN", UNIT_FORCE, "kN", "kN"},
	{"lbf", UNIT_FORCE, "pound_force", "lbf"},
	{"kgf", UNIT_FORCE, "kilogram_force", "kgf"},
	{"psi", UNIT_STRESS, "psi", "psi"},
	{"ksi", UNIT_STRESS, "ksi", "ksi"},
	{"kPa", UNIT_STRESS, "kPa", "kPa"},
	{"MPa", UNIT_STRESS, "MPa", "MPa"},
	{"bar", UNIT_STRESS, "bar", "bar"},
	{"N/mm2", UNIT_STRESS, "N/mm^2", "N/mm^2"},
	{"kgf/cm2", UNIT_STRESS, "kilogram_force/cm^2", "kgf/cm^2"},
	{"lb/in2", UNIT_STRESS, NULL, "lbf/in^2"},
	{"pcf", UNIT_DENSITY, "pound/foot^3", "lb/ft^3"},
	{"g/L", UNIT_DENSITY, "g/liter", "g/L"},
	{"g/cm3", UNIT_DENSITY, "g/cm^3", "g/cm^3"},
	{"g/qt", UNIT_DENSITY, "g/quart", "g/quart"},
	{"min", UNIT_TIME, "minute", "min"},
	{"h", UNIT_TIME, "hour", "hr"},
	{"d", UNIT_TIME, "day", "day"},
	{"kJ", UNIT_ENERGY, "kJ", "kJ"},
	{"ft lbf", UNIT_ENERGY, "foot.pound_force", "ft lbf"},
	{"L/min", UNIT_VOLUME_FLOW, "liter/minute", "L/min"},
	{"gal/min", UNIT_VOLUME_FLOW, "gallon/minute", "gallon/min"},
	{"mg/L", UNIT_CONCENTRATION, "mg/liter", "mg/L"},
	{"kg/m2", UNIT_MASS_PER_AREA, "kg/m^2", "kg/m^2"},
	{"deg", UNIT_ANGLE, "degree", "degree"},
	{"J/cm3", UNIT_ENERGY_PER_VOLUME, "J/cm^3", "J/cm^3"},
	{"kJ/mol", UNIT_MOLAR_ENERGY, "kJ/mol", "kJ/mol"},
};
enum { N_WORD = sizeof words / sizeof words[0] };

static const char *const si_of[] = {[UNIT_LENGTH] = "m",
	[UNIT_AREA] = "m^2",
	[UNIT_VOLUME] = "m^3",
	[UNIT_MASS] = "kg",
	[UNIT_FORCE] = "N",
	[UNIT_STRESS] = "Pa",
	[UNIT_DENSITY] = "kg/m^3",
	[UNIT_TIME] = "s",
	[UNIT_ENERGY] = "J",
	[UNIT_VOLUME_FLOW] = "m^3/s",
	[UNIT_CONCENTRATION] = "kg/m^3",
	[UNIT_MASS_PER_AREA] = "kg/m^2",
	[UNIT_ANGLE] = "radian",
	[UNIT_ENERGY_PER_VOLUME] = "J/m^3",
	[UNIT_MOLAR_ENERGY] = "J/mol"};

static double
factor(const struct word *w)
{
	struct err err = {.code = ERR_NONE};
	double scale = NAN, offset = NAN;

	assert_ok(unit_factor(w->ours, w->kind, UNIT_GALLON_US, &scale, &offset,
			  &err),
		&err);
	assert_true(offset == 0);
	assert_true(unit_known(w->ours, w->kind));
	return scale;
}

static void
unit_factor__agrees_with_udunits(void **state)
{
	(void)state;
	ut_set_error_message_handler(ut_ignore);
	ut_system *system = ut_read_xml(NULL);

	assert_non_null(system);
	for (size_t i = 0; i < N_WORD; i++) {
		const struct word *w = &words[i];
		/* seven digits in its table of gallons; kgf and lbf exact */
		bool is_rough = strstr(w->ours, "gal") != NULL ||
			strstr(w->ours, "qt") != NULL ||
			strcmp(w->ours, "fl oz") == 0;

		if (w->udunits == NULL)
			continue;
		ut_unit *from = ut_parse(system, w->udunits, UT_ASCII);
		ut_unit *to = ut_parse(system, si_of[w->kind], UT_ASCII);
		cv_converter *c = from != NULL && to != NULL
			? ut_get_converter(from, to)
			: NULL;

		if (c == NULL)
			fail_msg("no oracle for %s", w->ours);
		assert_near(factor(w), cv_convert_double(c, 1),
			is_rough ? 1e-6 : 1e-12, 0);
		cv_free(c);
		ut_free(from);
		ut_free(to);
	}
	ut_free_system(system);
}

static void
unit_factor__agrees_with_gnu_units(void **state)
{
	(void)state;
	if (access("/usr/bin/units", X_OK) != 0)
		skip();
	for (size_t i = 0; i < N_WORD; i++) {
		char command[160];
		double want = NAN;

		(void)snprintf(command, sizeof command,
			"/usr/bin/units -t -d 15 '%s' '%s'", words[i].gnu,
			si_of[words[i].kind]);
		FILE *pipe = popen(command, "r");

		assert_non_null(pipe);
		if (fscanf(pipe, "%lf", &want) != 1)
			fail_msg("no answer to %s", command);
		assert_int_equal(0, pclose(pipe));
		assert_near(factor(&words[i]), want, 1e-12, 0);
	}
}

/* Rows of trade-a.csv whose input is one unit word: inputs "x=1 WORD" and the
 * unit of the expected value in ours. */
struct trade_row {
	const char *id, *ours, *theirs;
	enum unit_kind kind;
};

static void
unit_read__agrees_with_the_trade_table(void **state)
{
	struct fixture *f = *state;
	const struct trade_row rows[] = {
		{"U-LB", "1 lb", "kg", UNIT_MASS},
		{"U-LBF", "1 lbf", "N", UNIT_FORCE},
		{"U-KGF", "1 kgf", "N", UNIT_FORCE},
		{"U-IN", "1 in", "mm", UNIT_LENGTH},
		{"U-FT", "1 ft", "m", UNIT_LENGTH},
		{"U-FT2", "1 ft2", "m2", UNIT_AREA},
		{"U-IN2", "1 in2", "mm2", UNIT_AREA},
		{"U-FT3", "1 ft3", "m3", UNIT_VOLUME},
		{"U-YD3", "1 cu yd", "m3", UNIT_VOLUME},
		{"U-USG", "1 gal", "L", UNIT_VOLUME},
		{"U-IMPG", "1 imp gal", "L", UNIT_VOLUME},
		{"U-FLOZ", "1 fl oz", "mL", UNIT_VOLUME},
		{"U-PCF", "1 pcf", "kg/m3", UNIT_DENSITY},
		{"U-PSI", "1 psi", "Pa", UNIT_STRESS},
		{"U-MPA", "1 MPa", "psi", UNIT_STRESS},
		{"U-PSF", "1 psf", "Pa", UNIT_STRESS},
		{"U-KGCM2", "1 kgf/cm2", "MPa", UNIT_STRESS},
		{"U-KNIN2", "1 ksi", "MPa", UNIT_STRESS},
		{"U-FTLBF", "1 ft lbf", "J", UNIT_ENERGY},
		{"U-F1", "32 F", "C", UNIT_TEMPERATURE},
		{"U-F2", "73.4 F", "C", UNIT_TEMPERATURE},
		{"U-F3", "-40 F", "C", UNIT_TEMPERATURE},
		{"U-FDIFF", "18 F", "K", UNIT_TEMPERATURE_DIFFERENCE},
		{"U-BAG", "94 lb", "kg", UNIT_MASS},
		{"U-TON", "2000 lb", "kg", UNIT_MASS},
		{"U-LONGTON", "2240 lb", "kg", UNIT_MASS},
	};
	struct support_csv csv = support_csv_read(
		f->a, support_path("trade-a.csv"));
	size_t id = support_csv_column(&csv, "id");
	size_t expected = support_csv_column(&csv, "expected"), n_seen = 0;

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		double si = read_ok(rows[i].ours, rows[i].kind, NULL);
		double scale, offset;

		assert_ok(unit_factor(rows[i].theirs, rows[i].kind,
				  UNIT_GALLON_US, &scale, &offset, &f->err),
			&f->err);
		for (size_t k = 1; k < csv.n_row; k++) {
			if (strcmp(csv.cell[k][id], rows[i].id) != 0)
				continue;
			n_seen++;
			/* the table's own tolerance; 32 F is 0 C to the last
			 * bits of 17.8 K */
			assert_near((si - offset) / scale,
				strtod(csv.cell[k][expected], NULL), 1e-12,
				1e-14);
		}
	}
	assert_int_equal(sizeof rows / sizeof rows[0], n_seen);
}

static void
unit_write__is_read_back(void **state)
{
	struct fixture *f = *state;

	srandom(7713);
	for (int i = 0; i < 4000; i++) {
		const struct word *w = &words[(size_t)i % N_WORD];
		double si = exp((double)(random() % 2000) / 100 - 10) *
			factor(w);
		const char *text = unit_write(f->a, si, w->kind, w->ours, 17);

		assert_non_null(text);
		/* 17 digits and two roundings; a thousands mark never
		 * appears */
		assert_near(read_ok(text, w->kind, NULL), si, 1e-14, 0);
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

static void
unit_read__survives_random_bytes(void **state)
{
	(void)state;
	const char letters[] =
		" 0123456789.,'\"/-+^*()%:mkgftinlbozdegCFKWJPaL\xC2\xB0\xBD";

	srandom(1955);
	for (int i = 0; i < 100000; i++) {
		char text[72];
		size_t n = (size_t)random() % 70;
		double si = 0;

		for (size_t k = 0; k < n; k++)
			text[k] = (char)(i % 2 == 0
				? letters[(size_t)random() %
					  (sizeof letters - 1)]
				: random() % 256);
		text[n] = '\0';
		if (unit_read(text, (enum unit_kind)(i % 26), NULL, &si,
			    NULL) == ERR_NONE)
			assert_true(isfinite(si));
	}
}

static const struct CMUnitTest tests[] = {
	TEST(unit_read__reads_what_people_write),
	TEST(unit_read__refuses_and_says_why),
	TEST(unit_read__follows_its_rules),
	TEST(unit_read__rounds_correctly),
	TEST(unit_factor__agrees_with_udunits),
	TEST(unit_factor__agrees_with_gnu_units),
	TEST(unit_read__agrees_with_the_trade_table),
	TEST(unit_write__is_read_back),
	TEST(unit_digits__never_uses_exponents),
	TEST(unit_read__survives_random_bytes),
};

TEST_MAIN(tests)
