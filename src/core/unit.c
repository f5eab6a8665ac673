/* unit.c - reads quantities as people write them. */
#include "core/unit.h"

#include "core/text.h"
#include "core/unit_table.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { TEXT_MAX = 64, DIGITS_MAX = 40 };

struct kind_words {
	const char *name, *si, *example;
};

static const struct kind_words kinds[] = {
	[UNIT_NUMBER] = {"a number", "1", "12.5"},
	[UNIT_RATIO] = {"a share", "1", "5 %"},
	[UNIT_LENGTH] = {"a length", "m", "450 mm"},
	[UNIT_AREA] = {"an area", "m2", "7.2 m2"},
	[UNIT_VOLUME] = {"a volume", "m3", "30 L"},
	[UNIT_MASS] = {"a mass", "kg", "70.5 lb"},
	[UNIT_FORCE] = {"a force", "N", "1.2 kN"},
	[UNIT_STRESS] = {"a stress or pressure", "Pa", "0.45 N/mm2"},
	[UNIT_DENSITY] = {"a density", "kg/m3", "720 kg/m3"},
	[UNIT_TIME] = {"a time", "s", "28 d"},
	[UNIT_TEMPERATURE] = {"a temperature", "degC", "18 degC"},
	[UNIT_TEMPERATURE_DIFFERENCE] = {"a temperature difference", "K",
		"10 K"},
	[UNIT_ENERGY] = {"an energy", "J", "20 J"},
	[UNIT_VOLUME_FLOW] = {"a flow", "m3/s", "24 L/min"},
	[UNIT_CONDUCTIVITY] = {"a conductivity", "W/(m K)", "0.12 W/(m K)"},
	[UNIT_RESISTANCE] = {"a thermal resistance", "m2 K/W", "1.5 m2 K/W"},
	[UNIT_CONCENTRATION] = {"a hardness or concentration", "kg/m3",
		"34 mg/L"},
	[UNIT_MASS_PER_AREA] = {"a mass per area", "kg/m2", "12 kg/m2"},
	[UNIT_ANGLE] = {"an angle", "rad", "60 deg"},
	[UNIT_ENERGY_PER_VOLUME] = {"an energy per volume", "J/m3", "6 J/cm3"},
	[UNIT_MOLAR_ENERGY] = {"an activation energy", "J/mol", "41.5 kJ/mol"},
	[UNIT_SPEED] = {"a speed", "m/s", "4.2 m/s"},
	[UNIT_FORCE_PER_LENGTH] = {"a force per length", "N/m", "6 kN/m"},
	[UNIT_POWER] = {"a power", "W", "40 W"},
	[UNIT_HEAT_CAPACITY] = {"a heat capacity", "J/(kg K)", "1000 J/(kg K)"},
	[UNIT_MASS_PER_LENGTH] = {"a mass per length", "kg/m", "0.1 kg/m"},
};

enum { N_KIND = sizeof kinds / sizeof kinds[0] };

const char *
unit_kind_name(enum unit_kind kind)
{
	return kinds[kind].name;
}

const char *
unit_si_word(enum unit_kind kind)
{
	return kinds[kind].si;
}

const char *
unit_example(enum unit_kind kind)
{
	return kinds[kind].example;
}

/* ---- words ---- */

/* Superscripts to digits, middle dot and asterisk to a space, runs of spaces to
 * one, none beside a slash.  false if it does not fit. */
static bool
plain_word(const char *from, char *to, size_t room)
{
	size_t n = 0;

	while (*from == ' ')
		from++;
	while (*from != '\0') {
		const char *as = NULL;
		size_t length = 1;

		if (strncmp(from, "\xC2\xB2", 2) == 0)
			as = "2", length = 2;
		else if (strncmp(from, "\xC2\xB3", 2) == 0)
			as = "3", length = 2;
		else if (strncmp(from, "\xC2\xB7", 2) == 0)
			as = " ", length = 2;
		else if (strncmp(from, "\xC2\xB5", 2) == 0)
			as = "u", length = 2;
		else if (*from == '^')
			as = "";
		if (n + 3 >= room)
			return false;
		if (as != NULL) {
			if (*as != '\0')
				to[n++] = *as;
		} else if (*from == ' ' &&
			(from[1] == ' ' || from[1] == '/' || from[1] == '\0' ||
				(n > 0 && to[n - 1] == '/'))) {
			/* left out */
		} else {
			to[n++] = *from;
		}
		from += length;
	}
	to[n] = '\0';
	return true;
}

static bool
same_word(const char *a, const char *b, bool fold)
{
	for (; *a != '\0' && *b != '\0'; a++, b++) {
		int c = (unsigned char)*a, d = (unsigned char)*b;

		if (c != d && !(fold && tolower(c) == tolower(d)))
			return false;
	}
	return *a == *b;
}

static const struct unit_ambiguous *
find_ambiguous(const char *word)
{
	for (size_t i = 0; i < unit_n_ambiguous; i++)
		if (same_word(word, unit_ambiguous_words[i].word, false))
			return &unit_ambiguous_words[i];
	return NULL;
}

/* The word as written first; then with letter case free, but only if all words
 * it could be agree. */
static const struct unit_word *
find_word(const char *word, enum unit_kind kind, bool any_kind)
{
	const struct unit_word *folded = NULL;

	for (size_t i = 0; i < unit_n_word; i++)
		if ((any_kind || unit_words[i].kind == kind) &&
			same_word(word, unit_words[i].word, false))
			return &unit_words[i];
	for (size_t i = 0; i < unit_n_word; i++) {
		const struct unit_word *met = &unit_words[i];

		if ((!any_kind && met->kind != kind) ||
			!same_word(word, met->word, true))
			continue;
		if (folded != NULL && folded->kind == met->kind &&
			fabs(folded->scale - met->scale) > 0)
			return NULL;
		folded = met;
	}
	return folded;
}

static double
scale_of(const struct unit_word *word, enum unit_gallon gallon)
{
	return gallon == UNIT_GALLON_IMPERIAL && word->scale_imperial > 0
		? word->scale_imperial
		: word->scale;
}

bool
unit_known(const char *word, enum unit_kind kind)
{
	char plain[TEXT_MAX];

	return plain_word(word, plain, sizeof plain) &&
		find_ambiguous(plain) == NULL &&
		find_word(plain, kind, false) != NULL;
}

static enum err_code
refuse_word(const char *word, enum unit_kind kind, struct err *err)
{
	const struct unit_ambiguous *two = find_ambiguous(word);
	const struct unit_word *other = find_word(word, kind, true);

	if (two != NULL)
		return err_report(err, ERR_INPUT, "unit",
			"\"%s\" could mean %s; write which.", word,
			two->meanings);
	if (other != NULL)
		return err_report(err, ERR_INPUT, "unit",
			"\"%s\" is the unit of %s; this wants %s, such as "
			"\"%s\".",
			word, kinds[other->kind].name, kinds[kind].name,
			kinds[kind].example);
	return err_report(err, ERR_INPUT, "unit",
		"\"%s\" is not a unit that is known here; this wants %s, such "
		"as \"%s\".",
		word, kinds[kind].name, kinds[kind].example);
}

enum err_code
unit_factor(const char *word, enum unit_kind kind, enum unit_gallon gallon,
	double *scale, double *offset, struct err *err)
{
	char plain[TEXT_MAX];
	const struct unit_word *met = NULL;

	if (!plain_word(word, plain, sizeof plain))
		return err_report(err, ERR_INPUT, "unit",
			"The unit is longer than any that is known here.");
	if (find_ambiguous(plain) == NULL)
		met = find_word(plain, kind, false);
	if (met == NULL)
		return refuse_word(plain, kind, err);
	*scale = scale_of(met, gallon);
	*offset = met->offset;
	return ERR_NONE;
}

/* ---- numbers ---- */

static enum err_code
refuse_number(const char *text, enum unit_kind kind, struct err *err)
{
	return err_report(err, ERR_INPUT, "number",
		"\"%s\" is not a number with a unit; write it like \"%s\".",
		text, kinds[kind].example);
}

static const char *
skip_spaces(const char *p)
{
	for (;;) {
		if (*p == ' ')
			p++;
		else if (strncmp(p, "\xC2\xA0", 2) == 0)
			p += 2;
		else if (strncmp(p, "\xE2\x80\xAF", 3) == 0)
			p += 3;
		else
			return p;
	}
}

/* A thousands mark is an apostrophe or a space with three digits behind. */
static size_t
thousands_mark(const char *p)
{
	size_t n = 0;

	if (*p == '\'' || *p == ' ')
		n = 1;
	else if (strncmp(p, "\xC2\xA0", 2) == 0)
		n = 2;
	else if (strncmp(p, "\xE2\x80\xAF", 3) == 0)
		n = 3;
	if (n == 0)
		return 0;
	for (size_t i = 0; i < 3; i++)
		if (!isdigit((unsigned char)p[n + i]))
			return 0;
	if (isdigit((unsigned char)p[n + 3]) || p[n + 3] == '/')
		return 0;
	return n;
}

struct number {
	char digits[DIGITS_MAX]; /* as strtod takes them */
	size_t n, n_whole, n_decimals;
	char mark; /* '.' or ',' or 0 */
	bool grouped;
};

/* Digits with at most one decimal mark; *at is moved behind them. */
static bool
take_digits(const char **at, struct number *number)
{
	const char *p = *at;

	*number = (struct number){0};
	for (;;) {
		size_t mark = number->mark == 0 && number->n_whole > 0 &&
				number->n_whole <= 3
			? thousands_mark(p)
			: 0;

		if (mark == 0 && number->grouped && number->mark == 0)
			mark = thousands_mark(p);
		if (isdigit((unsigned char)*p)) {
			if (number->n + 2 >= DIGITS_MAX)
				return false;
			number->digits[number->n++] = *p++;
			if (number->mark == 0)
				number->n_whole++;
			else
				number->n_decimals++;
		} else if ((*p == '.' || *p == ',') && number->mark == 0 &&
			isdigit((unsigned char)p[1])) {
			number->mark = *p++;
			number->digits[number->n++] = '.';
		} else if (mark > 0) {
			number->grouped = true;
			p += mark;
		} else {
			break;
		}
	}
	if (number->n_whole + number->n_decimals == 0)
		return false;
	*at = p;
	return true;
}

/* "1,234" could be 1.234 or 1234: asked about, never guessed. */
static enum err_code
check_thousands(const char *text, const struct number *number,
	bool decimal_comma, struct err *err)
{
	char other = decimal_comma ? '.' : ',';

	if (number->mark != other || number->n_decimals != 3 ||
		number->n_whole == 0 || number->n_whole > 3 ||
		number->grouped || number->digits[0] == '0')
		return ERR_NONE;
	return err_report(err, ERR_INPUT, "number",
		"\"%s\" could be %s or %.*s%s; write it without the mark, or "
		"with another number of decimals.",
		text, number->digits, (int)number->n_whole, number->digits,
		number->digits + number->n_whole + 1);
}

/* Half, quarters and eighths as one sign. */
static double
vulgar_fraction(const char **at)
{
	static const struct {
		const char *sign;
		double value;
	} signs[] = {{"\xC2\xBC", 0.25}, {"\xC2\xBD", 0.5}, {"\xC2\xBE", 0.75},
		{"\xE2\x85\x9B", 0.125}, {"\xE2\x85\x9C", 0.375},
		{"\xE2\x85\x9D", 0.625}, {"\xE2\x85\x9E", 0.875}};

	for (size_t i = 0; i < sizeof signs / sizeof signs[0]; i++) {
		size_t n = strlen(signs[i].sign);

		if (strncmp(*at, signs[i].sign, n) == 0) {
			*at += n;
			return signs[i].value;
		}
	}
	return 0;
}

/* "n/d" of whole numbers below 1000; 0 if there is none. */
static double
plain_fraction(const char **at)
{
	const char *p = *at;
	double part[2] = {0, 0};

	for (size_t i = 0; i < 2; i++) {
		size_t n = 0;

		for (; isdigit((unsigned char)*p) && n < 4; p++, n++)
			part[i] = 10 * part[i] + (*p - '0');
		if (n == 0 || n > 3 || (i == 0 && *p++ != '/'))
			return 0;
	}
	if (!(part[1] > 0) || *p == '/')
		return 0;
	*at = p;
	return part[0] / part[1];
}

/* A number, a fraction, or both ("9 1/2", "9-1/2"). */
static enum err_code
take_number(const char *text, const char **at, enum unit_kind kind,
	bool decimal_comma, double *value, struct err *err)
{
	const char *p = skip_spaces(*at), *next;
	struct number number;
	double fraction = vulgar_fraction(&p);

	if (!(fraction > 0))
		fraction = plain_fraction(&p);
	if (fraction > 0) {
		*value = fraction;
		*at = p;
		return ERR_NONE;
	}
	if (!take_digits(&p, &number))
		return refuse_number(text, kind, err);
	TRY(check_thousands(text, &number, decimal_comma, err));
	*value = strtod(number.digits, NULL);
	next = *p == '-' ? p + 1 : skip_spaces(p);
	if (number.mark == 0) {
		fraction = vulgar_fraction(&next);
		if (!(fraction > 0) && (next > p))
			fraction = plain_fraction(&next);
		if (fraction > 0 && fraction < 1) {
			*value += fraction;
			p = next;
		}
	}
	*at = p;
	return ERR_NONE;
}

/* ---- whole quantities ---- */

/* The unit word runs to the next part of a sum ("5 ft 3 in") or to the end. */
static size_t
word_length(const char *p)
{
	size_t n = 0;

	while (p[n] != '\0') {
		if (n > 0 && isdigit((unsigned char)p[n]) &&
			(p[n - 1] == ' ' || p[n - 1] == '\''))
			break;
		n++;
	}
	while (n > 0 && p[n - 1] == ' ')
		n--;
	return n;
}

static bool
may_be_summed(enum unit_kind kind, const struct unit_word *first,
	const struct unit_word *second)
{
	static const struct {
		double large, small;
	} pairs[] = {{0.3048, 0.0254}, {0.45359237, 0.45359237 / 16}};

	if (kind != UNIT_LENGTH && kind != UNIT_MASS)
		return false;
	for (size_t i = 0; i < sizeof pairs / sizeof pairs[0]; i++)
		if (fabs(first->scale - pairs[i].large) <= 0 &&
			fabs(second->scale - pairs[i].small) <= 0)
			return true;
	return false;
}

struct reading {
	const char *text;
	enum unit_kind kind;
	const struct unit_rules *rules;
};

static enum err_code
take_word(const struct reading *r, const char **at,
	const struct unit_word **word, struct err *err)
{
	char written[TEXT_MAX + 1], plain[TEXT_MAX];
	const char *p = skip_spaces(*at);
	size_t n = word_length(p);

	memcpy(written, p, n);
	written[n] = '\0';
	if (n == 0) {
		if (r->rules->bare_unit == NULL)
			return err_report(err, ERR_INPUT, "unit",
				"\"%s\" has no unit; this wants %s, such as "
				"\"%s\".",
				r->text, kinds[r->kind].name,
				kinds[r->kind].example);
		(void)snprintf(
			written, sizeof written, "%s", r->rules->bare_unit);
	}
	if (!plain_word(written, plain, sizeof plain))
		return refuse_number(r->text, r->kind, err);
	*word = find_ambiguous(plain) == NULL ? find_word(plain, r->kind, false)
					      : NULL;
	if (*word == NULL)
		return refuse_word(plain, r->kind, err);
	*at = skip_spaces(p + n);
	return ERR_NONE;
}

static enum err_code
check_text(const char *text, enum unit_kind kind, struct err *err)
{
	size_t n = strlen(text);

	if (n > TEXT_MAX)
		return err_report(err, ERR_INPUT, "number",
			"This is longer than %d bytes; this wants %s, such as "
			"\"%s\".",
			TEXT_MAX, kinds[kind].name, kinds[kind].example);
	if (!text_is_utf8(text, n))
		return err_report(err, ERR_INPUT, "number",
			"This is not UTF-8 text; save the file as UTF-8.");
	for (size_t i = 0; i < n; i++)
		if ((unsigned char)text[i] < 0x20 || text[i] == 0x7F)
			return err_report(err, ERR_INPUT, "number",
				"This has a control character in it; this "
				"wants %s, such as \"%s\".",
				kinds[kind].name, kinds[kind].example);
	return ERR_NONE;
}

/* Plain numbers and bare shares need no word. */
static bool
needs_no_word(const struct reading *r, const char *p)
{
	return *skip_spaces(p) == '\0' &&
		(r->kind == UNIT_NUMBER ||
			(r->kind == UNIT_RATIO && r->rules->bare_unit == NULL));
}

static enum err_code
take_second(const struct reading *r, const char **at,
	const struct unit_word *first, double *si, struct err *err)
{
	const struct unit_word *second;
	double value;

	TRY(take_number(
		r->text, at, r->kind, r->rules->decimal_comma, &value, err));
	TRY(take_word(r, at, &second, err));
	if (!may_be_summed(r->kind, first, second) ||
		value * second->scale >= first->scale)
		return refuse_number(r->text, r->kind, err);
	*si += value * second->scale;
	return ERR_NONE;
}

static enum err_code
take_quantity(
	const struct reading *r, const char *p, double *si, struct err *err)
{
	const struct unit_word *word;
	double value;

	TRY(take_number(
		r->text, &p, r->kind, r->rules->decimal_comma, &value, err));
	if (needs_no_word(r, p)) {
		*si = value;
		return ERR_NONE;
	}
	if (r->kind == UNIT_NUMBER)
		return refuse_number(r->text, r->kind, err);
	TRY(take_word(r, &p, &word, err));
	*si = value * scale_of(word, r->rules->gallon);
	if (*p != '\0')
		TRY(take_second(r, &p, word, si, err));
	if (*p != '\0')
		return refuse_number(r->text, r->kind, err);
	*si += word->offset;
	return ERR_NONE;
}

enum err_code
unit_read(const char *text, enum unit_kind kind, const struct unit_rules *rules,
	double *si, struct err *err)
{
	static const struct unit_rules plain = {.bare_unit = NULL};
	static const double coldest_degC = -273.15, rounding_K = 1e-9;
	const struct reading r = {text, kind, rules != NULL ? rules : &plain};
	const char *p;
	bool negative;
	double got = 0;

	TRY(check_text(text, kind, err));
	p = skip_spaces(text);
	negative = *p == '-' || strncmp(p, "\xE2\x88\x92", 3) == 0;
	if (negative && kind != UNIT_TEMPERATURE &&
		kind != UNIT_TEMPERATURE_DIFFERENCE &&
		!r.rules->may_be_negative)
		return err_report(err, ERR_INPUT, "number",
			"\"%s\" is below zero; this wants %s, such as \"%s\".",
			text, kinds[kind].name, kinds[kind].example);
	if (negative)
		p += *p == '-' ? 1 : 3;
	if (negative && kind == UNIT_TEMPERATURE) {
		/* The sign belongs to the reading, before the zero is moved. */
		const struct unit_word *word;
		double value;

		TRY(take_number(
			text, &p, kind, r.rules->decimal_comma, &value, err));
		TRY(take_word(&r, &p, &word, err));
		if (*p != '\0')
			return refuse_number(text, kind, err);
		got = -value * word->scale + word->offset;
	} else {
		TRY(take_quantity(&r, p, &got, err));
		got = negative ? -got : got;
	}
	if (kind == UNIT_TEMPERATURE && got < coldest_degC - rounding_K)
		return err_report(err, ERR_INPUT, "number",
			"\"%s\" is colder than absolute zero, -273.15 degC.",
			text);
	*si = got == 0 ? 0 : got; /* no negative zero */
	return ERR_NONE;
}
