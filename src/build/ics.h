/* ics.h - a calendar as RFC 5545 writes it: CRLF, lines folded at 75 bytes
 * between characters, text escaped, whole-day events.
 *
 * Pure. */
#ifndef BUILD_ICS_H
#define BUILD_ICS_H

#include "core/text.h"

#include <stdint.h>

struct build_event {
	const char *uid;    /* the same for the same thing for ever */
	int64_t day, n_day; /* days since 1970-01-01; 1 or more */
	const char *summary, *description;
};

/* build_ics_start / build_ics_event / build_ics_end(text, ...): the caller asks
 * text_failed at the end.  stamp_utc_s: when the calendar was written. */
void build_ics_start(struct text *text, const char *name);
void build_ics_event(struct text *text, const struct build_event *event,
	int64_t stamp_utc_s);
void build_ics_end(struct text *text);

#endif /* BUILD_ICS_H */
