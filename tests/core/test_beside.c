/* test_beside.c - core/beside against NIST SP 811 (2008), appendix B: the rows
 * U-... of the trade table hold the factors; texts of our own. */
#include "support.h"

#include "core/beside.h"

#include <stdlib.h>
#include <string.h>

/* One metric unit in the other, by SP 811 to seven digits: 1 / 16.01846,
 * 1 / 4.882428, 1 / 0.45359237, 1000 / 28.34952 for a kilogram, and so on. */
static void
beside_figures__are_those_of_sp811(void **state)
{
	static const struct {
		const char *metric, *shown;
	} row[] = {{"kg/m3", "0.06243"}, {"kg/m2", "0.2048"}, {"kg", "2.205"},
		{"g/L", "0.06243"}, {"g", "0.03527"}, {"L", "0.2642"},
		{"L/min", "0.2642"}, {"mL", "0.03381"}, {"m3", "1.308"},
		{"mm", "0.03937"}, {"cm", "0.3937"}, {"m", "3.281"},
		{"cm2", "0.1550"}, {"m2", "10.76"}, {"m/s", "3.281"},
		{"N/mm2", "145.0"}, {"MPa", "145.0"}, {"kPa", "20.89"},
		{"N", "0.2248"}, {"kN", "224.8"}, {"J", "0.7376"},
		{"W/(m K)", "6.933"}, {"W/(m2 K)", "0.1761"},
		{"m2 K/W", "5.678"}};
	struct fixture *f = *state;

	for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
		assert_string_equal(row[i].shown,
			beside_figures(
				f->a, "1.000", row[i].metric, UNIT_GALLON_US));
}

static void
beside_figures__temperatures_have_a_zero_of_their_own(void **state)
{
	static const struct {
		const char *degc, *degf;
	} row[] = {{"0", "32"}, {"100", "212"}, {"-40", "-40"}, {"20", "68"},
		{"36.6", "97.9"}, {"20 +/- 5", "68 +/- 9"}};
	struct fixture *f = *state;

	for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
		assert_string_equal(row[i].degf,
			beside_figures(
				f->a, row[i].degc, "degC", UNIT_GALLON_US));
}

static void
beside_figures__claims_no_more_digits_than_it_stands_by(void **state)
{
	struct fixture *f = *state;

	assert_string_equal("45.3 to 49.7",
		beside_figures(
			f->a, "0.312 to 0.343", "N/mm2", UNIT_GALLON_US));
	assert_string_equal("at least 170",
		beside_figures(f->a, "at least 1.2", "MPa", UNIT_GALLON_US));
	assert_string_equal("3.3", /* never fewer than two */
		beside_figures(f->a, "1", "m", UNIT_GALLON_US));
	assert_string_equal("2.205", /* never more than four */
		beside_figures(f->a, "1.000000", "kg", UNIT_GALLON_US));
	assert_string_equal("30 L (6.6 imp gal)",
		beside_text(f->a, "30 L", UNIT_GALLON_IMPERIAL));
	assert_null(beside_figures(f->a, "none", "kg", UNIT_GALLON_US));
	assert_null(beside_figures(f->a, "12", "bags", UNIT_GALLON_US));
	assert_null(beside_figures(f->a, NULL, "kg", UNIT_GALLON_US));
}

static void
beside_text__adds_the_other_after_each_figure(void **state)
{
	static const struct {
		const char *text, *shown;
	} row[] = {
		{"Wet 724 kg/m3.", "Wet 724 kg/m3 (45.2 lb/ft3)."},
		{"20 to 25 degC", "20 to 25 degC (68 to 77 degF)"},
		{"de 20 a 25 degC", "de 20 a 25 degC (68 a 77 degF)"},
		{"between 12 and 15 kg of sand",
			"between 12 and 15 kg (26 and 33 lb) of sand"},
		{"batch 3 and 14 kg", "batch 3 and 14 kg (31 lb)"},
		{"100 x 75 x 700 mm",
			"100 x 75 x 700 mm (3.94 x 3.0 x 27.6 "
			"in)"},
		{"600 mm, 1.2 kg", "600 mm (23.6 in), 1.2 kg (2.6 lb)"},
		{"0.50 W/(m K): poor",
			"0.50 W/(m K) (3.5 Btu in/(h ft2 F)): poor"},
		{"722 +/- 9 kg/m3", "722 +/- 9 kg/m3 (45.1 +/- 0.56 lb/ft3)"},
	};
	static const char *const alone[] = {"", "12", "of mix B, 28 days",
		"12 kgs of it", "12 m3/h", "B12 kg", "1.2.3 kg", "2026-11-27",
		"T1-04 m", "12 mmHg", "5 kg/m3/day", "12 m\xC2\xB3", "12  kg",
		"in 5 min", "1e5 N x"};
	struct fixture *f = *state;

	for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
		assert_string_equal(row[i].shown,
			beside_text(f->a, row[i].text, UNIT_GALLON_US));
	for (size_t i = 0; i < sizeof alone / sizeof alone[0] - 1; i++)
		assert_string_equal(
			alone[i], beside_text(f->a, alone[i], UNIT_GALLON_US));
}

/* Random pieces of what sentences hold: nothing of the text is lost, whatever is
 * added. */
static void
beside_text__loses_nothing(void **state)
{
	static const char *const piece[] = {"12", " ", "kg", "m", "-", ".", "/",
		" to ", " x ", "0.5", "between ", " and ", "degC", "(", ")",
		"\xC2\xB0", " +/- ", "99999999999999999999999999", "L/min"};
	(void)state;
	srand(20261127);
	for (int round = 0; round < 5000; round++) {
		struct arena *a = arena_new((size_t)1 << 16);
		char text[512] = "";
		const char *shown, *at;

		for (int i = rand() % 12; i > 0; i--)
			strcat(text,
				piece[(size_t)rand() %
					(sizeof piece / sizeof piece[0])]);
		shown = beside_text(a, text, UNIT_GALLON_US);
		assert_non_null(shown);
		assert_true(strlen(shown) >= strlen(text));
		at = shown;
		for (const char *p = text; *p != '\0'; p++) {
			at = strchr(at, *p);
			assert_non_null(at);
			at++;
		}
		arena_free(a);
	}
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		TEST(beside_figures__are_those_of_sp811),
		TEST(beside_figures__temperatures_have_a_zero_of_their_own),
		TEST(beside_figures__claims_no_more_digits_than_it_stands_by),
		TEST(beside_text__adds_the_other_after_each_figure),
		TEST(beside_text__loses_nothing),
	};

	support_start();
	return cmocka_run_group_tests(tests, NULL, NULL);
}
