/* unit_number.c - decimals, thousands and fractions as people write them. */
#include "core/unit_priv.h"

#include <stdlib.h>
#include <string.h>

struct plain {
	char digits[UNIT_FOLD_ROOM]; /* what strtod is given */
	size_t n;
	bool is_whole, is_grouped;
};

static size_t
count_digits(const char *p)
{
	return strspn(p, "0123456789");
}

/* strtod rounds correctly and sees only digits and at most one point. */
static double
to_double(const char *digits, size_t n)
{
	char copy[UNIT_FOLD_ROOM];

	memcpy(copy, digits, n);
	copy[n] = '\0';
	return strtod(copy, NULL);
}

static void
keep(struct plain *plain, const char *from, size_t n)
{
	memcpy(plain->digits + plain->n, from, n);
	plain->n += n;
}

/* How many groups of exactly three digits behind the mark follow at p. */
static size_t
count_groups(const char *p, char mark)
{
	size_t n = 0;

	while (*p == mark && count_digits(p + 1) == 3 &&
		(mark != ' ' || p[4] != '/')) {
		p += 4;
		n++;
	}
	return n;
}

static bool
begins_decimals(const char *p)
{
	return (*p == '.' || *p == ',') && count_digits(p + 1) > 0;
}

static void
keep_decimals(struct plain *plain, const char **at)
{
	size_t n = count_digits(*at + 1);

	keep(plain, ".", 1);
	keep(plain, *at + 1, n);
	*at += 1 + n;
	plain->is_whole = false;
}

static void
keep_groups(struct plain *plain, const char **at, size_t n_group)
{
	for (size_t i = 0; i < n_group; i++, *at += 4)
		keep(plain, *at + 1, 3);
	plain->is_grouped = true;
}

static enum err_code
refuse_mark(const char *start, size_t lead, struct err *err)
{
	const char *after = start + lead + 1;

	return err_report(err, ERR_INPUT, "",
		"\"%.*s\" could be %.*s.%.3s or %.*s%.3s. Write %.*s%.3s "
		"without a mark for the large number, or %.*s.%.3s0 for the "
		"small one.",
		(int)lead + 4, start, (int)lead, start, after, (int)lead, start,
		after, (int)lead, start, after, (int)lead, start, after);
}

static enum err_code
refuse_form(const char *start, struct err *err)
{
	return err_report(err, ERR_INPUT, "",
		"The number in \"%s\" cannot be read. Write it like 12.5, "
		"12,5, 1 234.5 or 9 1/2.",
		start);
}

/* "1,234": thousands or decimals?  A leading zero or four digits before the
 * mark settle it; the mark that is the decimal mark here settles it too. */
static bool
is_doubtful(const char *start, size_t lead, char mark, bool decimal_comma)
{
	char native = decimal_comma ? ',' : '.';

	return mark != native && lead <= 3 && *start != '0';
}

/* Behind the leading digits: groups, decimals, or nothing. */
static enum err_code
take_rest(const char *start, const char **at, size_t lead, bool decimal_comma,
	struct plain *plain, struct err *err)
{
	char mark = **at;
	bool is_spacer = mark == ' ' || mark == '\'';
	size_t n_group = 0;

	if (lead <= 3 && mark != '\0' && strchr(" ',.", mark) != NULL)
		n_group = count_groups(*at, mark);
	if (is_spacer && n_group > 0) {
		keep_groups(plain, at, n_group);
	} else if (!is_spacer && n_group > 0) {
		const char *behind = *at + 4 * n_group;
		bool has_other = begins_decimals(behind) && *behind != mark;

		if (n_group > 1 || has_other) {
			keep_groups(plain, at, n_group);
		} else if (is_doubtful(start, lead, mark, decimal_comma)) {
			return refuse_mark(start, lead, err);
		}
	}
	if (begins_decimals(*at) && !(plain->is_grouped && **at == mark))
		keep_decimals(plain, at);
	if (**at == '.' || **at == ',' || (plain->is_grouped && *start == '0'))
		return refuse_form(start, err);
	return ERR_NONE;
}

static enum err_code
take_plain(const char **at, const struct unit_rules *rules, struct plain *plain,
	struct err *err)
{
	const char *start = *at;
	size_t lead = count_digits(start);
	bool decimal_comma = rules != NULL && rules->decimal_comma;

	*plain = (struct plain){.is_whole = true};
	keep(plain, start, lead);
	*at += lead;
	if (lead == 0) {
		if (!begins_decimals(start))
			return refuse_form(start, err);
		keep(plain, "0", 1);
		keep_decimals(plain, at);
		return **at == '.' || **at == ',' ? refuse_form(start, err)
						  : ERR_NONE;
	}
	return take_rest(start, at, lead, decimal_comma, plain, err);
}

/* "1/2" at p: value of the fraction and the bytes it takes, 0 if it is none. */
static size_t
fraction_at(const char *p, double *numerator, double *denominator)
{
	size_t n_up = count_digits(p), n_down;

	if (n_up == 0 || p[n_up] != '/')
		return 0;
	n_down = count_digits(p + n_up + 1);
	if (n_down == 0)
		return 0;
	*numerator = to_double(p, n_up);
	*denominator = to_double(p + n_up + 1, n_down);
	return n_up + 1 + n_down;
}

static enum err_code
take_mixed(const char *start, const char **at, const struct plain *plain,
	double *value, struct err *err)
{
	double up, down, whole = to_double(plain->digits, plain->n);
	size_t n = 0;

	if (plain->is_whole && (**at == ' ' || **at == '-'))
		n = fraction_at(*at + 1, &up, &down);
	if (n == 0) {
		*value = whole;
		return ERR_NONE;
	}
	if (!(up < down))
		return err_report(err, ERR_INPUT, "",
			"The fraction in \"%s\" is not smaller than 1, so it "
			"cannot follow a whole number.",
			start);
	*at += 1 + n;
	*value = whole + up / down;
	return ERR_NONE;
}

static enum err_code
check_end(const char *start, const char *at, struct err *err)
{
	bool is_signed = at[0] != '\0' && (at[1] == '+' || at[1] == '-');

	if ((*at == 'e' || *at == 'E') && count_digits(at + 1 + is_signed) > 0)
		return err_report(err, ERR_INPUT, "",
			"\"%s\" is in exponent form, which is not read here. "
			"Write the number in full, such as 1500 or 0.0015.",
			start);
	if ((*at == 'x' || *at == 'X') && at == start + 1 && *start == '0')
		return err_report(err, ERR_INPUT, "",
			"\"%s\" is a hexadecimal number, which is not read "
			"here. Write it in decimal digits.",
			start);
	if (*at == '/' || *at == '*' || *at == '^' || *at == '+')
		return refuse_form(start, err);
	return ERR_NONE;
}

enum err_code
unit_take_amount(const char **at, const struct unit_rules *rules, double *value,
	bool *is_whole, struct err *err)
{
	const char *start = *at, *end = *at;
	double up, down, got = 0;
	struct plain plain = {.is_whole = false};
	size_t n = fraction_at(start, &up, &down);

	if (n > 0) {
		if (down == 0)
			return err_report(err, ERR_INPUT, "",
				"\"%s\" divides by zero.", start);
		end += n;
		got = up / down;
	} else {
		TRY(take_plain(&end, rules, &plain, err));
		TRY(take_mixed(start, &end, &plain, &got, err));
	}
	TRY(check_end(start, end, err));
	if (end[0] == '.' || end[0] == ',')
		return refuse_form(start, err);
	*at = end;
	*value = got;
	*is_whole = end == start + count_digits(start) || plain.is_grouped;
	return ERR_NONE;
}
