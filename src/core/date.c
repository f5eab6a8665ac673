/* date.c - the proleptic Gregorian calendar in whole numbers. */
#include "core/date.h"

#include <stdio.h>
#include <string.h>

enum {
	YEAR_FIRST = 1900,
	YEAR_LAST = 2199,
	ZONE_MAX_MIN = 14 * 60, /* UTC+14 is the furthest in use */
	DAY_S = 24 * 60 * 60,
	DAYS_PER_400_YEARS = 146097,
	DAYS_TO_1970 = 719468 /* from 0000-03-01 */
};

struct moment_parts {
	int year, month, day, hour, minute, second;
	int zone_min;
};

/* Days since 1970-01-01.  A year counted from March ends with the leap day;
 * 153 days make five months of 31 30 31 30 31 (Richards 2013, in Urban and
 * Seidelmann, Explanatory Supplement to the Astronomical Almanac, 15.11). */
static int64_t
days_from_civil(int year, int month, int day)
{
	int64_t y = month > 2 ? year : year - 1;
	int64_t era = y / 400, of_era = y % 400;
	int64_t month_from_march = month > 2 ? month - 3 : month + 9;
	int64_t of_year = (153 * month_from_march + 2) / 5 + day - 1;

	return era * DAYS_PER_400_YEARS + of_era * 365 + of_era / 4 -
		of_era / 100 + of_year - DAYS_TO_1970;
}

static void
civil_from_days(int64_t days, struct moment_parts *parts)
{
	int64_t z = days + DAYS_TO_1970;
	int64_t era = z / DAYS_PER_400_YEARS, of_era = z % DAYS_PER_400_YEARS;
	int64_t year = (of_era - of_era / 1460 + of_era / 36524 -
			       of_era / (DAYS_PER_400_YEARS - 1)) /
		365;
	int64_t of_year = of_era - (365 * year + year / 4 - year / 100);
	int64_t month = (5 * of_year + 2) / 153;

	parts->day = (int)(of_year - (153 * month + 2) / 5 + 1);
	parts->month = (int)(month < 10 ? month + 3 : month - 9);
	parts->year = (int)(era * 400 + year + (parts->month <= 2 ? 1 : 0));
}

static int
days_in_month(int year, int month)
{
	static const int days[] = {
		31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
	bool is_leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;

	return month == 2 && is_leap ? 29 : days[month - 1];
}

/* Exactly n digits at *at. */
static bool
take_digits(const char **at, int n, int *value)
{
	const char *p = *at;
	int sum = 0;

	for (int i = 0; i < n; i++, p++) {
		if (*p < '0' || *p > '9')
			return false;
		sum = 10 * sum + (*p - '0');
	}
	*at = p;
	*value = sum;
	return true;
}

static bool
take_char(const char **at, char c)
{
	if (**at != c)
		return false;
	(*at)++;
	return true;
}

/* "Z", "+02:00", "+0200", "+02" or nothing. */
static bool
take_zone(const char **at, struct moment_parts *parts)
{
	int sign = 1, hours, minutes = 0;

	if (take_char(at, 'Z') || take_char(at, 'z')) {
		parts->zone_min = 0;
		return true;
	}
	if (take_char(at, '-'))
		sign = -1;
	else if (!take_char(at, '+'))
		return true;
	if (!take_digits(at, 2, &hours))
		return false;
	if (take_char(at, ':')) {
		if (!take_digits(at, 2, &minutes))
			return false;
	} else if (**at >= '0' && **at <= '9' &&
		!take_digits(at, 2, &minutes)) {
		return false;
	}
	parts->zone_min = sign * (60 * hours + minutes);
	return minutes < 60 && 60 * hours + minutes <= ZONE_MAX_MIN;
}

static bool
take_time(const char **at, struct moment_parts *parts)
{
	parts->second = 0;
	if (!take_digits(at, 2, &parts->hour) || !take_char(at, ':') ||
		!take_digits(at, 2, &parts->minute))
		return false;
	if (take_char(at, ':') && !take_digits(at, 2, &parts->second))
		return false;
	return take_zone(at, parts);
}

static bool
take_date(const char **at, struct moment_parts *parts)
{
	return take_digits(at, 4, &parts->year) && take_char(at, '-') &&
		take_digits(at, 2, &parts->month) && take_char(at, '-') &&
		take_digits(at, 2, &parts->day);
}

/* The form alone; the calendar is looked at afterwards. */
static bool
take_moment(const char *text, struct moment_parts *parts)
{
	const char *at = text + strspn(text, " ");

	if (!take_date(&at, parts))
		return false;
	if ((take_char(&at, 'T') || take_char(&at, 't') ||
		    (*at == ' ' && at[strspn(at, " ")] != '\0' &&
			    take_char(&at, ' '))) &&
		!take_time(&at, parts))
		return false;
	return at[strspn(at, " ")] == '\0';
}

static enum err_code
check_calendar(const struct moment_parts *parts, struct err *err)
{
	if (parts->year < YEAR_FIRST || parts->year > YEAR_LAST)
		return err_report(err, ERR_INPUT, "",
			"The year %d is not between %d and %d.", parts->year,
			(int)YEAR_FIRST, (int)YEAR_LAST);
	if (parts->month < 1 || parts->month > 12)
		return err_report(err, ERR_INPUT, "",
			"There is no month %d. A date is written year, month, "
			"day, such as 2026-03-01.",
			parts->month);
	if (parts->day < 1 ||
		parts->day > days_in_month(parts->year, parts->month))
		return err_report(err, ERR_INPUT, "",
			"The month %04d-%02d has days 1 to %d, not %d.",
			parts->year, parts->month,
			days_in_month(parts->year, parts->month), parts->day);
	if (parts->hour > 23 || parts->minute > 59 || parts->second > 59)
		return err_report(err, ERR_INPUT, "",
			"There is no time %02d:%02d:%02d. A day runs from "
			"00:00:00 to 23:59:59.",
			parts->hour, parts->minute, parts->second);
	return ERR_NONE;
}

enum err_code
date_read(const char *text, int zone_min, int64_t *utc_s, struct err *err)
{
	struct moment_parts parts = {.hour = 12, .zone_min = zone_min};
	int64_t days;

	if (zone_min < -ZONE_MAX_MIN || zone_min > ZONE_MAX_MIN)
		return err_report(err, ERR_INPUT, "",
			"A time zone %d minutes from UTC does not exist; it is "
			"between -%d and %d.",
			zone_min, (int)ZONE_MAX_MIN, (int)ZONE_MAX_MIN);
	if (!take_moment(text, &parts))
		return err_report(err, ERR_INPUT, "",
			"This cannot be read as a date. Write year, month and "
			"day, such as 2026-03-01, and a time if need be, such "
			"as 2026-03-01T08:00 or 2026-03-01T08:00:00+02:00.");
	TRY(check_calendar(&parts, err));
	days = days_from_civil(parts.year, parts.month, parts.day);
	*utc_s = days * DAY_S + parts.hour * INT64_C(3600) +
		parts.minute * INT64_C(60) + parts.second -
		parts.zone_min * INT64_C(60);
	return ERR_NONE;
}

/* False if the moment lies outside the years 0001 to 9999. */
static bool
split(int64_t utc_s, int zone_min, struct moment_parts *parts)
{
	static const int64_t first_s = INT64_C(-62135596800);
	static const int64_t last_s = INT64_C(253402300799);
	int64_t local, days, of_day;

	if (utc_s < first_s || utc_s > last_s)
		return false;
	local = utc_s + zone_min * INT64_C(60);
	if (local < first_s || local > last_s)
		return false;
	days = local >= 0 ? local / DAY_S : -((DAY_S - 1 - local) / DAY_S);
	of_day = local - days * DAY_S;
	civil_from_days(days, parts);
	parts->hour = (int)(of_day / 3600);
	parts->minute = (int)(of_day / 60 % 60);
	parts->second = (int)(of_day % 60);
	return true;
}

static void
write_moment(
	int64_t utc_s, int zone_min, const char *zone, char out[DATE_TEXT_MAX])
{
	struct moment_parts p;

	if (split(utc_s, zone_min, &p))
		(void)snprintf(out, DATE_TEXT_MAX,
			"%04d-%02d-%02dT%02d:%02d:%02d%s", p.year, p.month,
			p.day, p.hour, p.minute, p.second, zone);
	else
		(void)snprintf(out, DATE_TEXT_MAX, "no date");
}

void
date_write(int64_t utc_s, char out[DATE_TEXT_MAX])
{
	write_moment(utc_s, 0, "Z", out);
}

void
date_write_zone(int64_t utc_s, int zone_min, char out[DATE_TEXT_MAX])
{
	char zone[16];
	unsigned apart = (unsigned)(zone_min < 0 ? -zone_min : zone_min);

	(void)snprintf(zone, sizeof zone, "%c%02u:%02u",
		zone_min < 0 ? '-' : '+', apart / 60 % 100, apart % 60);
	write_moment(utc_s, zone_min, zone, out);
}

void
date_write_day(int64_t utc_s, int zone_min, char out[DATE_TEXT_MAX])
{
	struct moment_parts p;

	if (split(utc_s, zone_min, &p))
		(void)snprintf(out, DATE_TEXT_MAX, "%04d-%02d-%02d", p.year,
			p.month, p.day);
	else
		(void)snprintf(out, DATE_TEXT_MAX, "no date");
}
