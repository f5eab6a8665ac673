/* date.h - dates and moments: ISO 8601 in and out, UTC inside.
 *
 * Pure: the present moment is an argument. */
#ifndef CORE_DATE_H
#define CORE_DATE_H

#include "core/err.h"

#include <stdbool.h>
#include <stdint.h>

enum { DATE_TEXT_MAX = 32 };

/* date_read(text, zone_min, utc_s, err):
 * "2026-03-01", "2026-03-01T08:00", "...:00Z", "...+02:00" (a space may stand
 * for the T) to seconds since 1970-01-01T00:00:00Z.  A text without a zone is
 * taken at zone_min minutes east of UTC; a date alone is its noon there, so
 * that a whole day of error cannot come from a zone.  Years 1900 to 2199;
 * spaces before and after do not matter; there are no parts of a second, no
 * 24:00 and no leap second; zones reach from -14:00 to +14:00.
 * ERR_INPUT says what it takes. */
enum err_code date_read(const char *text, int zone_min, int64_t *utc_s,
	struct err *err) MUST_CHECK;

/* date_write(utc_s, out): "2026-03-01T08:00:00Z"
 * The writers give "no date" outside the years 0001 to 9999. */
void date_write(int64_t utc_s, char out[DATE_TEXT_MAX]);

/* date_write_zone(utc_s, zone_min, out): "2026-03-01T10:00:00+02:00" */
void date_write_zone(int64_t utc_s, int zone_min, char out[DATE_TEXT_MAX]);

/* date_write_day(utc_s, zone_min, out): "2026-03-01" */
void date_write_day(int64_t utc_s, int zone_min, char out[DATE_TEXT_MAX]);

#endif /* CORE_DATE_H */
