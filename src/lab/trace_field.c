/* trace_field.c - the fields of a logger's line, and what stands in them. */
#include "lab/trace_priv.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

static const double day_s = 86400;

static bool
is_space(char c)
{
	return c == ' ' || c == '\t' || c == '\r';
}

static bool
is_digit(char c)
{
	return c >= '0' && c <= '9';
}

static struct trace_field
bare(const char *at, const char *end)
{
	while (at < end && is_space(*at))
		at++;
	while (end > at && is_space(end[-1]))
		end--;
	if (end - at >= 2 && *at == '"' && end[-1] == '"') {
		at++;
		end--;
	}
	return (struct trace_field){at, (size_t)(end - at)};
}

size_t
trace_fields(
	const char *line, size_t n, char separator, struct trace_field *field)
{
	const char *at = line, *end = line + n, *begin = line;
	bool quoted = false;
	size_t count = 0;

	for (; at <= end; at++) {
		if (at < end && *at == '"')
			quoted = !quoted;
		if (at < end && (quoted || *at != separator))
			continue;
		if (count == LAB_TRACE_COLUMNS)
			return LAB_TRACE_COLUMNS + 1;
		field[count++] = bare(begin, at);
		begin = at + 1;
	}
	return count;
}

/* ---- numbers ---- */

enum { DIGITS_EXACT = 15, TENS_EXACT = 22, NUMBER_MOST = 60 };

static const double tens[TENS_EXACT + 1] = {1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6,
	1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18,
	1e19, 1e20, 1e21, 1e22};

static bool
is_word(struct trace_field f, const char *word)
{
	return strlen(word) == f.n && strncmp(f.at, word, f.n) == 0;
}

static bool
is_missing(struct trace_field f)
{
	return f.n == 0 || is_word(f, "-") || is_word(f, "--") ||
		is_word(f, "---") || is_word(f, "NaN") || is_word(f, "nan") ||
		is_word(f, "NAN") || is_word(f, "OL");
}

/* What the quick way cannot do exactly. */
static bool
slow_number(struct trace_field f, bool decimal_comma, double *value)
{
	char text[NUMBER_MOST + 1], *end;

	if (f.n > NUMBER_MOST)
		return false;
	for (size_t i = 0; i < f.n; i++)
		text[i] = decimal_comma && f.at[i] == ',' ? '.' : f.at[i];
	text[f.n] = '\0';
	*value = strtod(text, &end);
	return *end == '\0' && isfinite(*value);
}

/* Digits, one decimal sign, an exponent; *n_digit significant ones. */
struct scanned {
	uint64_t mantissa;
	int n_digit, ten;
	bool negative, any;
};

static const char *
scan_digits(const char *at, const char *end, struct scanned *s, int ten_each)
{
	for (; at < end && is_digit(*at); at++) {
		s->any = true;
		if (s->n_digit > 0 || *at != '0')
			s->n_digit++;
		if (s->n_digit <= 18)
			s->mantissa = s->mantissa * 10 + (uint64_t)(*at - '0');
		s->ten += ten_each;
	}
	return at;
}

static bool
scan_exponent(const char *at, const char *end, struct scanned *s)
{
	bool negative = false;
	int ten = 0;

	if (at == end)
		return true;
	if (*at != 'e' && *at != 'E')
		return false;
	at++;
	if (at < end && (*at == '+' || *at == '-'))
		negative = *at++ == '-';
	if (at == end)
		return false;
	for (; at < end; at++) {
		if (!is_digit(*at) || ten > 999)
			return false;
		ten = ten * 10 + (*at - '0');
	}
	s->ten += negative ? -ten : ten;
	return true;
}

enum trace_number
trace_number(struct trace_field f, bool decimal_comma, double *value)
{
	const char *at = f.at, *end = f.at + f.n;
	const char point = decimal_comma ? ',' : '.';
	struct scanned s = {0};

	if (at < end && (*at == '+' || *at == '-'))
		s.negative = *at++ == '-';
	at = scan_digits(at, end, &s, 0);
	if (at < end && *at == point)
		at = scan_digits(at + 1, end, &s, -1);
	if (!s.any || !scan_exponent(at, end, &s))
		return is_missing(f) ? TRACE_MISSING : TRACE_NO_NUMBER;
	/* Both sides exact, so that one rounding is the right one (Clinger 1990,
	 * How to read floating point numbers accurately). */
	if (s.n_digit <= DIGITS_EXACT && s.ten >= -TENS_EXACT &&
		s.ten <= TENS_EXACT) {
		double whole = (double)s.mantissa;

		*value = s.ten < 0 ? whole / tens[-s.ten] : whole * tens[s.ten];
		if (s.negative)
			*value = -*value;
		return TRACE_NUMBER;
	}
	return slow_number(f, decimal_comma, value) ? TRACE_NUMBER
						    : TRACE_NO_NUMBER;
}

/* ---- moments ---- */

/* So many digits as a whole number; false: it is not so. */
static bool
take_whole(
	const char **at, const char *end, size_t least, size_t most, int *value)
{
	size_t n = 0;

	*value = 0;
	while (*at < end && is_digit(**at) && n < most) {
		*value = *value * 10 + (**at - '0');
		(*at)++;
		n++;
	}
	return n >= least;
}

static bool
take_char(const char **at, const char *end, char c)
{
	if (*at >= end || **at != c)
		return false;
	(*at)++;
	return true;
}

static bool
take_clock(const char **at, const char *end, double *s)
{
	int hour, minute, second = 0;
	double part = 0, place = 0.1;

	if (!take_whole(at, end, 1, 2, &hour) || !take_char(at, end, ':') ||
		!take_whole(at, end, 2, 2, &minute))
		return false;
	if (take_char(at, end, ':')) {
		if (!take_whole(at, end, 2, 2, &second))
			return false;
		if (take_char(at, end, '.') || take_char(at, end, ',')) {
			for (; *at < end && is_digit(**at); (*at)++) {
				part += place * (**at - '0');
				place /= 10;
			}
		}
	}
	if (hour > 23 || minute > 59 || second > 59)
		return false;
	*s = hour * 3600.0 + minute * 60.0 + second + part;
	return true;
}

bool
trace_clock(struct trace_field f, double *s)
{
	const char *at = f.at, *end = f.at + f.n;

	return take_clock(&at, end, s) && at == end;
}

/* Days since 1970-01-01 of the proleptic Gregorian calendar (Richards 2013,
 * Explanatory Supplement to the Astronomical Almanac, section 15.11, from
 * memory; checked against core/date.h). */
static double
days_of(int year, int month, int day)
{
	int a = (14 - month) / 12, y = year + 4800 - a, m = month + 12 * a - 3;

	return day + (153 * m + 2) / 5 + 365.0 * y + y / 4 - y / 100 + y / 400 -
		32045 - 2440588;
}

static bool
is_date(int year, int month, int day)
{
	static const int most[] = {
		31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
	bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;

	return year >= 1900 && year <= 2199 && month >= 1 && month <= 12 &&
		day >= 1 && day <= most[month - 1] + (leap && month == 2);
}

/* Three numbers with one sign between them; the sign. */
static char
take_parts(const char **at, const char *end, int part[3])
{
	char sign;

	if (!take_whole(at, end, 1, 4, &part[0]) || *at >= end)
		return '\0';
	sign = **at;
	if (sign != '-' && sign != '/' && sign != '.')
		return '\0';
	(*at)++;
	if (!take_whole(at, end, 1, 2, &part[1]) || !take_char(at, end, sign) ||
		!take_whole(at, end, 2, 4, &part[2]))
		return '\0';
	return sign;
}

static bool
take_date(const char **at, const char *end, enum lab_date_order order,
	double *days)
{
	int part[3], year, month, day;
	char sign = take_parts(at, end, part);

	if (sign == '\0')
		return false;
	if (part[0] > 31) {
		year = part[0];
		month = part[1];
		day = part[2];
	} else {
		if (order == LAB_DATE_UNKNOWN && sign != '.')
			return false;
		year = part[2] < 100 ? part[2] + 2000 : part[2];
		month = order == LAB_DATE_MONTH_FIRST ? part[0] : part[1];
		day = order == LAB_DATE_MONTH_FIRST ? part[1] : part[0];
	}
	if (!is_date(year, month, day))
		return false;
	*days = days_of(year, month, day);
	return true;
}

bool
trace_stamp(struct trace_field f, enum lab_date_order order, double *s)
{
	const char *at = f.at, *end = f.at + f.n;
	double days, clock = 0;

	if (!take_date(&at, end, order, &days))
		return false;
	if (at < end) {
		if (*at != ' ' && *at != 'T')
			return false;
		while (at < end && (*at == ' ' || *at == 'T'))
			at++;
		if (!take_clock(&at, end, &clock))
			return false;
		(void)take_char(&at, end, 'Z');
	}
	*s = days * day_s + clock;
	return at == end;
}

bool
trace_is_slashed(struct trace_field f)
{
	const char *at = f.at, *end = f.at + f.n;
	int part[3];

	return take_parts(&at, end, part) != '\0' && part[0] <= 31;
}
