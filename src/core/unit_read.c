/* unit_read.c - a typed quantity as a sum of amounts with units. */
#include "core/unit_priv.h"

#include <math.h>
#include <string.h>

enum { TERM_MAX = 3 }; /* 1 h 30 min 15 s */

static const struct unit_rules plain_rules = {.gallon = UNIT_GALLON_US};

struct term {
	const char *amount, *unit; /* where they begin in the folded text */
	size_t n_amount, n_unit;
	double value;
	bool is_whole;
};

static bool
is_digit(char c)
{
	return c >= '0' && c <= '9';
}

static bool
is_temperature(enum unit_kind kind)
{
	return kind == UNIT_TEMPERATURE || kind == UNIT_TEMPERATURE_DIFFERENCE;
}

static bool
is_foot_or_inch_mark(char c)
{
	return c == '\'' || c == '"';
}

static bool
is_letter(char c)
{
	return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

/* The 2 of 6ft2in and the 30 of 1h30min, where it can be no power. */
static bool
is_run_together(enum unit_kind kind, const char *p)
{
	const char *behind = p + strspn(p, "0123456789");

	if (kind != UNIT_LENGTH && kind != UNIT_TIME && kind != UNIT_MASS)
		return false;
	return is_letter(p[-1]) && (is_letter(*behind) || *behind == '"');
}

/* True if a new amount begins at p, which lies in a unit that began at start:
 * a digit behind a space or a foot mark, also as in 5'-3". */
static bool
begins_amount(enum unit_kind kind, const char *start, const char *p)
{
	bool is_number = is_digit(*p) || (*p == '.' && is_digit(p[1]));

	if (!is_number || p == start)
		return false;
	if (p[-1] == '-')
		return p - 1 > start && p[-2] == '\'';
	return p[-1] == ' ' || is_foot_or_inch_mark(p[-1]) ||
		is_run_together(kind, p);
}

static enum err_code
take_term(const char **at, enum unit_kind kind, const struct unit_rules *rules,
	struct term *term, struct err *err)
{
	const char *p = *at, *end;

	term->amount = p;
	TRY(unit_take_amount(&p, rules, &term->value, &term->is_whole, err));
	term->n_amount = (size_t)(p - term->amount);
	p += strspn(p, " ");
	if (is_digit(*p))
		return err_report(err, ERR_INPUT, "",
			"\"%s\" holds two numbers with no unit between them.",
			term->amount);
	term->unit = p;
	end = p;
	while (*end != '\0' && !begins_amount(kind, p, end))
		end++;
	*at = end;
	if (end > p && end[-1] == '-' && *end != '\0')
		end--;
	while (end > p && end[-1] == ' ')
		end--;
	term->n_unit = (size_t)(end - p);
	return ERR_NONE;
}

static enum err_code
refuse_no_unit(const char *folded, enum unit_kind kind, struct err *err)
{
	return err_report(err, ERR_INPUT, "",
		"\"%s\" has no unit; %s is wanted, such as %s.", folded,
		err_say(err, unit_kind_name(kind)), unit_example(kind));
}

static enum err_code
find_bare(const char *folded, enum unit_kind kind,
	const struct unit_rules *rules, struct unit_found *found,
	struct err *err)
{
	char words[UNIT_FOLD_ROOM];

	if (rules->bare_unit == NULL || kind == UNIT_NUMBER) {
		if (kind != UNIT_NUMBER && kind != UNIT_RATIO)
			return refuse_no_unit(folded, kind, err);
		*found = (struct unit_found){.num = 1, .den = 1};
		return ERR_NONE;
	}
	TRY(unit_fold(rules->bare_unit, words, err));
	return unit_find_kind(words, strlen(words), kind, rules->gallon,
		rules->bare_unit, found, err);
}

/* 1'234" could be 1234 inches or 1 foot and 234 inches. */
static enum err_code
check_feet(const struct term *term, enum unit_kind kind, struct err *err)
{
	bool has_mark = memchr(term->amount, '\'', term->n_amount) != NULL;

	if (kind != UNIT_LENGTH || !has_mark || term->n_unit == 0 ||
		(*term->unit != '"' && *term->unit != 'i'))
		return ERR_NONE;
	return err_report(err, ERR_INPUT, "",
		"\"%s\" could be a large number of inches or feet and inches. "
		"Write it like 1234 in, or 5 ft 3 in.",
		term->amount);
}

static enum err_code
find_term(const struct term *term, enum unit_kind kind,
	const struct unit_rules *rules, const char *folded,
	struct unit_found *found, struct err *err)
{
	TRY(check_feet(term, kind, err));
	return unit_find_kind(term->unit, term->n_unit, kind, rules->gallon,
		folded, found, err);
}

/* A further term: smaller unit, less than one of the unit before. */
static enum err_code
check_further(const struct term *before, const struct unit_found *large,
	const struct term *term, const struct unit_found *small, bool may_sum,
	struct err *err)
{
	static const double slack = 1 - 1e-9; /* roundings of the factors */
	double large_si = large->num / large->den;
	double small_si = small->num / small->den;

	if (!may_sum || small_si >= large_si * slack || !before->is_whole)
		return err_report(err, ERR_INPUT, "",
			"\"%s\" cannot be added up. Only a whole number of a "
			"larger unit and then a smaller one can, such as 5 ft "
			"3 in, 3 lb 4 oz or 1 h 30 min.",
			before->amount);
	if (term->value * small_si >= large_si * slack)
		return err_report(err, ERR_INPUT, "",
			"In \"%s\" the amount of the smaller unit is one or "
			"more of the larger unit. Check the numbers.",
			before->amount);
	return ERR_NONE;
}

static enum err_code
read_sum(const char *at, enum unit_kind kind, const struct unit_rules *rules,
	const char *folded, double *si, struct err *err)
{
	bool may_sum = kind == UNIT_LENGTH || kind == UNIT_MASS ||
		kind == UNIT_TIME || kind == UNIT_VOLUME;
	struct term before = {.value = 0}, term;
	struct unit_found large = {.num = 1}, found = {.num = 1, .den = 1};
	double sum = 0;

	for (int i = 0; *at != '\0'; i++) {
		TRY(take_term(&at, kind, rules, &term, err));
		if (term.n_unit == 0 && (i > 0 || *at != '\0'))
			return refuse_no_unit(folded, kind, err);
		if (term.n_unit == 0)
			TRY(find_bare(folded, kind, rules, &found, err));
		else
			TRY(find_term(&term, kind, rules, folded, &found, err));
		if (i > 0)
			TRY(check_further(&before, &large, &term, &found,
				may_sum && i < TERM_MAX, err));
		sum += (term.value - found.zero) * found.num / found.den;
		before = term;
		large = found;
	}
	*si = sum;
	return ERR_NONE;
}

/* The temperature behind a minus: its zero must be taken off afterwards. */
static enum err_code
read_signed(const char *at, bool is_negative, enum unit_kind kind,
	const struct unit_rules *rules, const char *folded, double *si,
	struct err *err)
{
	struct unit_found found = {.num = 1, .den = 1};
	struct term term;

	if (kind != UNIT_TEMPERATURE) {
		TRY(read_sum(at, kind, rules, folded, si, err));
		if (is_negative)
			*si = -*si;
		return ERR_NONE;
	}
	TRY(take_term(&at, kind, rules, &term, err));
	if (*at != '\0')
		return err_report(err, ERR_INPUT, "",
			"\"%s\" holds more than one temperature.", folded);
	if (term.n_unit == 0)
		TRY(find_bare(folded, kind, rules, &found, err));
	else
		TRY(find_term(&term, kind, rules, folded, &found, err));
	if (is_negative)
		term.value = -term.value;
	*si = (term.value - found.zero) * found.num / found.den;
	return ERR_NONE;
}

static enum err_code
check_colon(const char *folded, enum unit_kind kind, struct err *err)
{
	const char *colon = strchr(folded, ':');
	int n_before, n_after;

	if (colon == NULL)
		return ERR_NONE;
	n_before = (int)strspn(folded, "0123456789");
	n_after = (int)strspn(colon + 1, "0123456789");
	if (kind == UNIT_TIME && folded + n_before == colon && n_after > 0 &&
		colon[1 + n_after] == '\0')
		return err_report(err, ERR_INPUT, "",
			"\"%s\" could be %.*s h %.*s min or %.*s min %.*s s. "
			"Write it in one of these ways.",
			folded, n_before, folded, n_after, colon + 1, n_before,
			folded, n_after, colon + 1);
	return err_report(err, ERR_INPUT, "",
		"\"%s\" holds a colon, which is not read here; %s is wanted, "
		"such as %s.",
		folded, err_say(err, unit_kind_name(kind)), unit_example(kind));
}

static enum err_code
take_sign(const char **at, const char *folded, enum unit_kind kind,
	const struct unit_rules *rules, bool *is_negative, struct err *err)
{
	*is_negative = **at == '-';
	if (**at == '-' || **at == '+') {
		if (!rules->may_be_negative && !is_temperature(kind))
			return err_report(err, ERR_INPUT, "",
				"\"%s\" begins with a sign, but %s here cannot "
				"be negative. Leave the sign out.",
				folded, err_say(err, unit_kind_name(kind)));
		(*at)++;
		*at += strspn(*at, " ");
	}
	if (!is_digit(**at) &&
		!((**at == '.' || **at == ',') && is_digit((*at)[1])))
		return err_report(err, ERR_INPUT, "",
			"\"%s\" does not begin with a number; %s is wanted, "
			"such as %s.",
			folded, err_say(err, unit_kind_name(kind)),
			unit_example(kind));
	return ERR_NONE;
}

enum err_code
unit_read(const char *text, enum unit_kind kind, const struct unit_rules *rules,
	double *si, struct err *err)
{
	static const double coldest_degC = -273.15, rounding_K = 1e-9;
	char folded[UNIT_FOLD_ROOM];
	const char *at = folded;
	bool is_negative;
	double got = 0;

	if (rules == NULL)
		rules = &plain_rules;
	TRY(unit_fold(text, folded, err));
	TRY(check_colon(folded, kind, err));
	TRY(take_sign(&at, folded, kind, rules, &is_negative, err));
	TRY(read_signed(at, is_negative, kind, rules, folded, &got, err));
	if (kind == UNIT_TEMPERATURE && got < coldest_degC - rounding_K)
		return err_report(err, ERR_INPUT, "",
			"\"%s\" is colder than absolute zero, which is -273.15 "
			"degC.",
			folded);
	*si = got == 0 ? 0 : got; /* no negative zero */
	return ERR_NONE;
}

/* "1" or nothing is how a number without a unit is written. */
static bool
is_no_word(const char *word, enum unit_kind kind)
{
	return (kind == UNIT_NUMBER || kind == UNIT_RATIO) &&
		(word[0] == '\0' || strcmp(word, "1") == 0);
}

enum err_code
unit_factor(const char *word, enum unit_kind kind, enum unit_gallon gallon,
	double *scale, double *offset, struct err *err)
{
	struct unit_found found = {.num = 1, .den = 1};
	char folded[UNIT_FOLD_ROOM];

	if (!is_no_word(word, kind)) {
		TRY(unit_fold(word, folded, err));
		TRY(unit_find_kind(folded, strlen(folded), kind, gallon, word,
			&found, err));
	}
	*scale = found.num / found.den;
	*offset = found.zero == 0 ? 0 : -found.zero * found.num / found.den;
	return ERR_NONE;
}

double
unit_value(double si, enum unit_kind kind, const char *word)
{
	double scale, offset;

	return unit_factor(word, kind, UNIT_GALLON_US, &scale, &offset, NULL) ==
			ERR_NONE
		? (si - offset) / scale
		: (double)NAN;
}

bool
unit_names_gallon(const char *text, enum unit_kind kind)
{
	const struct unit_rules american = {
		.gallon = UNIT_GALLON_US, .may_be_negative = true};
	const struct unit_rules imperial = {
		.gallon = UNIT_GALLON_IMPERIAL, .may_be_negative = true};
	double us, other;

	return unit_read(text, kind, &american, &us, NULL) == ERR_NONE &&
		unit_read(text, kind, &imperial, &other, NULL) == ERR_NONE &&
		(us < other || us > other);
}

bool
unit_known(const char *word, enum unit_kind kind)
{
	double scale, offset;

	return unit_factor(word, kind, UNIT_GALLON_US, &scale, &offset, NULL) ==
		ERR_NONE;
}
