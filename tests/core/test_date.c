/* test_date.c - core/date: calendar, zones, refusals, round trip with libc. */
#include "support.h"

#include "core/date.h"

#include <time.h>

static int64_t
read_ok(const char *text, int zone_min)
{
	struct err err = {.code = ERR_NONE};
	int64_t s = 0;

	assert_ok(date_read(text, zone_min, &s, &err), &err);
	return s;
}

static void
date_read__knows_the_calendar(void **state)
{
	(void)state;
	/* Seconds since 1970 by hand: 86400 s a day */
	assert_true(read_ok("1970-01-01T00:00Z", 0) == 0);
	assert_true(read_ok("1970-01-02", 0) == 86400 + 43200);
	/* 2000-03-01 is day 11017: 30 years of 365, 7 leap days before 2000,
	 * 31 + 29 days of 2000 */
	assert_true(read_ok("2000-03-01T00:00:00Z", 0) ==
		INT64_C(86400) * (30 * 365 + 7 + 60));
	assert_true(
		read_ok("2000-02-29", 0) + 86400 == read_ok("2000-03-01", 0));
	assert_true(
		read_ok("1900-02-28", 0) + 86400 == read_ok("1900-03-01", 0));
	assert_true(read_ok("2024-02-29", 0) > 0);
}

static void
date_read__knows_zones(void **state)
{
	(void)state;
	int64_t utc = read_ok("2026-03-01T08:15:07Z", 600);

	assert_true(read_ok("2026-03-01T10:15:07+02:00", -77) == utc);
	assert_true(read_ok("2026-03-01 10:15:07+0200", 0) == utc);
	assert_true(read_ok("2026-03-01T10:15:07+02", 0) == utc);
	assert_true(read_ok(" 2026-02-28T22:45:07-09:30 ", 0) == utc);
	assert_true(read_ok("2026-03-01T10:15:07", 120) == utc);
	/* a date alone is noon where it was written */
	assert_true(
		read_ok("2026-03-01", 345) == read_ok("2026-03-01T12:00", 345));
}

static void
date_read__refuses_what_is_no_date(void **state)
{
	(void)state;
	const char *const bad[] = {"", " ", "01.03.2026", "3/1/2026",
		"2026-3-1", "2026-02-29", "2100-02-29", "2026-13-01",
		"2026-00-01", "2026-04-31", "2026-04-00", "1899-12-31",
		"2200-01-01", "2026-03-01T", "2026-03-01T24:00",
		"2026-03-01T08:60", "2026-03-01T08:00:60", "2026-03-01T08",
		"2026-03-01T08:00:00.5", "2026-03-01T08:00+15:00",
		"2026-03-01T08:00+02:60", "2026-03-01Z", "2026-03-01x",
		"2026-03-01T08:00ZZ", "-2026-03-01", "20260301", "today"};

	for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
		struct err err = {.code = ERR_NONE};
		int64_t s = 77;

		if (date_read(bad[i], 0, &s, &err) != ERR_INPUT)
			fail_msg("read \"%s\"", bad[i]);
		assert_true(s == 77);
		assert_true(err.text[0] != '\0');
	}
	int64_t s = 77;

	assert_int_equal(ERR_INPUT, date_read("2026-03-01", 841, &s, NULL));
}

static void
date_write__agrees_with_the_c_library(void **state)
{
	(void)state;
	/* 1900 to 2199 in awkward steps */
	for (int64_t s = INT64_C(-2208988800); s < INT64_C(7258118400);
		s += 9873127) {
		char want[64], got[DATE_TEXT_MAX];
		time_t t = (time_t)s;
		struct tm tm;

		assert_non_null(gmtime_r(&t, &tm));
		assert_true(strftime(want, sizeof want, "%Y-%m-%dT%H:%M:%SZ",
				    &tm) > 0);
		date_write(s, got);
		assert_string_equal(want, got);
		assert_true(read_ok(got, 99) == s);
		date_write_zone(s, -210, got);
		if (s > INT64_C(-2208900000))
			assert_true(read_ok(got, 0) == s);
	}
}

static void
date_write__writes_zones_days_and_the_unwritable(void **state)
{
	(void)state;
	char got[DATE_TEXT_MAX];
	int64_t s = read_ok("2026-03-01T23:30Z", 0);

	date_write_zone(s, 120, got);
	assert_string_equal("2026-03-02T01:30:00+02:00", got);
	date_write_zone(s, -570, got);
	assert_string_equal("2026-03-01T14:00:00-09:30", got);
	date_write_day(s, 120, got);
	assert_string_equal("2026-03-02", got);
	date_write_day(s, 0, got);
	assert_string_equal("2026-03-01", got);
	date_write(INT64_MAX, got);
	assert_string_equal("no date", got);
	date_write_day(INT64_MIN, 0, got);
	assert_string_equal("no date", got);
}

static const struct CMUnitTest tests[] = {
	TEST(date_read__knows_the_calendar),
	TEST(date_read__knows_zones),
	TEST(date_read__refuses_what_is_no_date),
	TEST(date_write__agrees_with_the_c_library),
	TEST(date_write__writes_zones_days_and_the_unwritable),
};

TEST_MAIN(tests)
