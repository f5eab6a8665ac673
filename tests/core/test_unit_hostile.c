/* test_unit_hostile.c - core/unit against texts that mean harm, mutated texts
 * and its own writer. */
#include "support.h"

#include "core/rng.h"
#include "core/unit_priv.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Refused, with a sentence of plain ASCII and the output untouched. */
static void
refused(const char *text, enum unit_kind kind)
{
	struct err err = {.code = ERR_NONE};
	double si = 77.25;

	if (unit_read(text, kind, &(struct unit_rules){.may_be_negative = true},
		    &si, &err) != ERR_INPUT)
		fail_msg("\"%.80s\" was read as %.17g", text, si);
	assert_true(si == 77.25);
	assert_true(strlen(err.text) > 20);
	for (const char *p = err.text; *p != '\0'; p++)
		assert_true(*p >= ' ' && *p <= '~');
}

static void
unit_read__refuses_what_is_no_quantity(void **state)
{
	(void)state;
	static const char *const bad[] = {"nan", "NaN m", "-nan m", "inf",
		"-inf m", "infinity m", "1e400 m", "1E-400 m", "e400", "e400 m",
		"0x1.8p3 m", "0X1P-2 m", "1.5e m", "1_000 m", "1..5 m",
		"1.5. m", "1,5, m", "- 5 - m", "+-5 m", "5+ m", "5*3 m",
		"5^2 m", "(5) m", "5 (m", "5 m)", "5 ()", "5 ()m", "5 /m",
		"5 m//s", "5 m/", "5 m^", "5 m^99", "5 m99", "5 m2147483648",
		"5 m-", "5 *m", "5 \\m", "5 %s%n", "%n", "5 %%", "$5 m",
		"5 m; DROP TABLE batch", "5 <b>m</b>", "5 m\x01", "5\x7F m",
		"5\nm", "\t5 m", "5 m\r",
		/* not UTF-8: a lone byte, cut, overlong, a surrogate */
		"5 \xFF", "5 \xC2", "5 m\xE2\x80", "5 \xC0\xAF m",
		"5 \xED\xA0\x80 m",
		/* other digits, full width, circled: 5 of six scripts */
		"\u0665 m", "\u06F5 m", "\u096B m", "\uFF15 m", "\u2464 m",
		"\U0001D7D3 m",
		/* marks that turn the direction of writing, join or hide */
		"\u202E5 m", "5\u202E m", "5 \u2066m\u2069", "\u200F5 m",
		"5\u200B m", "5\u200D m", "\uFEFF5 m", "5\u00AD0 m",
		"5 m\u0301", "5 \U000E0041m",
		/* raised where nothing is raised */
		"5\u00B2 m", "\u00B2 m", "5\u00BD\u00BD m", "5\u00BD2 m",
		"5 m\u00BD"};

	for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++)
		refused(bad[i], UNIT_LENGTH);
}

static void
unit_read__looks_at_no_more_than_it_takes(void **state)
{
	(void)state;
	enum { LARGE = 10000000 };
	static const char fills[] = {'1', ' ', '(', 'm', '/', '.', '\''};
	char *text = malloc(LARGE + 1);

	assert_non_null(text);
	text[LARGE] = '\0';
	for (size_t i = 0; i < sizeof fills; i++) {
		memset(text, fills[i], LARGE);
		refused(text, UNIT_LENGTH);
		assert_false(unit_known(text, UNIT_LENGTH));
	}
	/* a text ends at its first NUL: the bytes behind are not looked at */
	memcpy(text, "5 m", 4);
	text[4] = '\xFF';
	double si = 0;

	assert_int_equal(
		ERR_NONE, unit_read(text, UNIT_LENGTH, NULL, &si, NULL));
	assert_true(si == 5);
	free(text);
}

static void
unit_read__counts_its_parentheses(void **state)
{
	(void)state;
	char text[UNIT_TEXT_MAX + 1];
	double si;

	for (int depth = 1; depth < 30; depth++) {
		(void)snprintf(text, sizeof text, "5 %.*sm%.*s", depth,
			"((((((((((((((((((((((((((((((", depth,
			"))))))))))))))))))))))))))))))");
		assert_int_equal(ERR_NONE,
			unit_read(text, UNIT_LENGTH, NULL, &si, NULL));
		assert_true(si == 5);
		text[strlen(text) - 1] = '\0';
		refused(text, UNIT_LENGTH);
	}
}

static unsigned long
draw(gsl_rng *rng, size_t n)
{
	return gsl_rng_uniform_int(rng, n);
}

/* Seeds of the mutations: one of each form of the grammar. */
static const struct {
	const char *text;
	enum unit_kind kind;
} seeds[] = {{"9 1/2 in", UNIT_LENGTH}, {"5' 3 1/2\"", UNIT_LENGTH},
	{"5 ft 3 in", UNIT_LENGTH}, {"1 234,5 mm", UNIT_LENGTH},
	{"1'234.5 mm", UNIT_LENGTH}, {"1,234.5 mm", UNIT_LENGTH},
	{"9\u00BD in", UNIT_LENGTH}, {"70lb", UNIT_MASS},
	{"31,8 kg", UNIT_MASS}, {"7 1/4 gal", UNIT_VOLUME},
	{"40 \u00B0F", UNIT_TEMPERATURE}, {"-4 degC", UNIT_TEMPERATURE},
	{"12:45", UNIT_TIME}, {"5 %", UNIT_RATIO},
	{"40 lb/cu ft", UNIT_DENSITY}, {"2.5 N/mm\u00B2", UNIT_STRESS},
	{"1 h 30 min", UNIT_TIME}, {"3 imp. gal", UNIT_VOLUME},
	{"0.12 W/(m\u00B7K)", UNIT_CONDUCTIVITY},
	{"13 h ft2 F/Btu", UNIT_RESISTANCE}, {"650 kg m^-3", UNIT_DENSITY},
	{"3 fl. oz.", UNIT_VOLUME}, {"12 \u2030", UNIT_RATIO},
	{"6.5 fl oz/US cwt", UNIT_VOLUME_PER_MASS}};
enum { N_SEED = sizeof seeds / sizeof seeds[0], FUZZ_ROOM = 160 };

static size_t
mutate(gsl_rng *rng, char *text, size_t n)
{
	static const char bits[] = "0123456789.,'\"/-+^*()%: mkgftinlbozCFKWJ";
	size_t at = draw(rng, n + 1), from, length;

	switch (draw(rng, 5)) {
	case 0: /* one byte changed, to one of the grammar or any */
		if (at < n)
			text[at] = draw(rng, 4) > 0
				? bits[draw(rng, sizeof bits - 1)]
				: (char)(1 + draw(rng, 255));
		return n;
	case 1: /* one left out */
		if (at < n) {
			memmove(text + at, text + at + 1, n - at);
			n--;
		}
		return n;
	case 2: /* one put in */
		memmove(text + at + 1, text + at, n - at + 1);
		text[at] = bits[draw(rng, sizeof bits - 1)];
		return n + 1;
	case 3: /* a piece of another seed put in */
	{
		const char *other = seeds[draw(rng, N_SEED)].text;

		from = draw(rng, strlen(other));
		length = 1 + draw(rng, strlen(other) - from);
		memmove(text + at + length, text + at, n - at + 1);
		memcpy(text + at, other + from, length);
		return n + length;
	}
	default: /* cut */
		text[at] = '\0';
		return at;
	}
}

/* Whatever is read is finite, is no negative zero, and is read alike again; in
 * what is refused nothing is changed.  Sanitizers look on in their build. */
static void
unit_read__survives_mutations(void **state)
{
	(void)state;
	enum { ROUNDS = 120000 };
	gsl_rng *rng = gsl_rng_alloc(gsl_rng_mt19937);
	size_t n_read = 0;

	gsl_rng_set(rng, 19551);
	for (int i = 0; i < ROUNDS; i++) {
		char text[FUZZ_ROOM];
		size_t from = draw(rng, N_SEED), n = strlen(seeds[from].text);
		const struct unit_rules rules = {
			.decimal_comma = draw(rng, 2) == 0,
			.gallon = draw(rng, 2) == 0 ? UNIT_GALLON_US
						    : UNIT_GALLON_IMPERIAL,
			.bare_unit = draw(rng, 4) == 0 ? "mm" : NULL,
			.may_be_negative = draw(rng, 2) == 0};
		enum unit_kind kind = draw(rng, 8) > 0
			? seeds[from].kind
			: (enum unit_kind)draw(rng, UNIT_N_KIND);
		double si = 77.25, again = 0;
		struct err err = {.code = ERR_NONE};

		memcpy(text, seeds[from].text, n + 1);
		for (unsigned long k = 1 + draw(rng, 4); k > 0; k--)
			if (n + 40 < FUZZ_ROOM)
				n = mutate(rng, text, n);
		if (unit_read(text, kind, &rules, &si, &err) != ERR_NONE) {
			assert_true(si == 77.25);
			assert_int_equal(ERR_INPUT, err.code);
			continue;
		}
		n_read++;
		assert_true(isfinite(si));
		assert_false(si == 0 && signbit(si));
		assert_true(rules.may_be_negative || si >= 0 ||
			kind == UNIT_TEMPERATURE ||
			kind == UNIT_TEMPERATURE_DIFFERENCE);
		assert_int_equal(
			ERR_NONE, unit_read(text, kind, &rules, &again, NULL));
		assert_true(si == again);
	}
	gsl_rng_free(rng);
	/* else the loop would only have met the first check */
	assert_true(n_read > ROUNDS / 20);
}

/* What unit_write shows with 17 digits is read back to the last places, over
 * every word of the table and 24 powers of ten. */
static void
unit_write__is_read_back(void **state)
{
	struct fixture *f = *state;
	enum { ROUNDS = 100000 };
	gsl_rng *rng = gsl_rng_alloc(gsl_rng_mt19937);
	size_t n = 0;

	gsl_rng_set(rng, 7713);
	while (n < ROUNDS) {
		const struct unit_word *w = &unit_words[draw(rng, unit_n_word)];
		enum unit_kind kind = (enum unit_kind)w->dimension;
		double shown = pow(10, gsl_rng_uniform(rng) * 24 - 12);
		double si = shown * w->num / w->den, again = NAN;
		struct err err = {.code = ERR_NONE};
		const char *text;

		if (w->refusal != NULL || w->dimension >= UNIT_N_KIND)
			continue;
		n++;
		text = unit_write(f->a, si, kind, w->word, 17);
		assert_non_null(text);
		if (unit_read(text, kind, NULL, &again, &err) != ERR_NONE)
			fail_msg("\"%s\": %s", text, err.text);
		/* 17 digits say a double; a scale and its inverse are four
		 * roundings.  A temperature is near its zero at times: the
		 * zero of Fahrenheit is 17.8 K, of kelvin 273 K away. */
		assert_near(again, si, 1e-15, w->zero != 0 ? 2e-13 : 0);
	}
	gsl_rng_free(rng);
}

/* As people see it: three digits are within half a place. */
static void
unit_write__rounds_to_the_digits_asked(void **state)
{
	struct fixture *f = *state;
	gsl_rng *rng = gsl_rng_alloc(gsl_rng_mt19937);

	gsl_rng_set(rng, 4021);
	for (int i = 0; i < 20000; i++) {
		int digits = 1 + (int)draw(rng, 8);
		double value = pow(10, gsl_rng_uniform(rng) * 18 - 9);
		char *text = unit_digits(f->a, value, digits);
		char want[64];

		assert_non_null(text);
		assert_null(strpbrk(text, "eE"));
		/* %.*e rounds the exact decimal value of the double */
		(void)snprintf(want, sizeof want, "%.*e", digits - 1, value);
		assert_true(strtod(text, NULL) == strtod(want, NULL));
	}
	gsl_rng_free(rng);
}

static const struct CMUnitTest tests[] = {
	TEST(unit_read__refuses_what_is_no_quantity),
	TEST(unit_read__looks_at_no_more_than_it_takes),
	TEST(unit_read__counts_its_parentheses),
	TEST(unit_read__survives_mutations),
	TEST(unit_write__is_read_back),
	TEST(unit_write__rounds_to_the_digits_asked),
};

TEST_MAIN(tests)
