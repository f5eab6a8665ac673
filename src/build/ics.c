/* ics.c - RFC 5545, sections 3.1 (folding), 3.3.11 (escapes), 3.6.1. */
#include "build/ics.h"

#include "core/date.h"

#include <string.h>

enum { LINE_BYTES = 75, DAY_S = 86400 };

static bool
goes_on(char c)
{
	return ((unsigned char)c & 0xc0) == 0x80; /* inside a UTF-8 character */
}

/* A line, folded: every line after the first begins with a space. */
static void
add_line(struct text *to, const char *line)
{
	size_t left = strlen(line), room = LINE_BYTES;

	while (left > room) {
		size_t n = room;

		while (n > 1 && goes_on(line[n]))
			n--;
		text_add_n(to, line, n);
		text_add(to, "\r\n ");
		line += n;
		left -= n;
		room = LINE_BYTES - 1;
	}
	text_add(to, line);
	text_add(to, "\r\n");
}

static void
add_escaped(struct text *to, const char *name, const char *value)
{
	struct text line;

	text_init(&line, to->arena);
	text_add(&line, name);
	text_add_char(&line, ':');
	for (; *value != '\0'; value++) {
		if (*value == '\n') {
			text_add(&line, "\\n");
			continue;
		}
		if ((unsigned char)*value < ' ' || *value == 127)
			continue; /* not allowed in a text */
		if (strchr("\\;,", *value) != NULL)
			text_add_char(&line, '\\');
		text_add_char(&line, *value);
	}
	to->failed = to->failed || text_failed(&line);
	if (!to->failed)
		add_line(to, line.bytes);
}

/* "20260301" out of "2026-03-01". */
static void
add_day(struct text *to, const char *name, int64_t day)
{
	char iso[DATE_TEXT_MAX];
	struct text line;

	date_write_day(day * DAY_S, 0, iso);
	text_init(&line, to->arena);
	text_addf(&line, "%s;VALUE=DATE:%.4s%.2s%.2s", name, iso, iso + 5,
		iso + 8);
	to->failed = to->failed || text_failed(&line);
	if (!to->failed)
		add_line(to, line.bytes);
}

void
build_ics_start(struct text *text, const char *name)
{
	add_line(text, "BEGIN:VCALENDAR");
	add_line(text, "VERSION:2.0");
	add_line(text, "PRODID:-//Foamwright//Pour plan//EN");
	add_line(text, "CALSCALE:GREGORIAN");
	add_escaped(text, "X-WR-CALNAME", name);
}

void
build_ics_event(
	struct text *text, const struct build_event *event, int64_t stamp_utc_s)
{
	char iso[DATE_TEXT_MAX];
	struct text stamp;

	date_write(stamp_utc_s, iso); /* 2026-03-01T08:00:00Z */
	text_init(&stamp, text->arena);
	text_addf(&stamp, "DTSTAMP:%.4s%.2s%.2sT%.2s%.2s%.2sZ", iso, iso + 5,
		iso + 8, iso + 11, iso + 14, iso + 17);
	text->failed = text->failed || text_failed(&stamp);
	if (text->failed)
		return;
	add_line(text, "BEGIN:VEVENT");
	add_escaped(text, "UID", event->uid);
	add_line(text, stamp.bytes);
	add_day(text, "DTSTART", event->day);
	add_day(text, "DTEND", event->day + event->n_day);
	add_escaped(text, "SUMMARY", event->summary);
	if (event->description[0] != '\0')
		add_escaped(text, "DESCRIPTION", event->description);
	add_line(text, "TRANSP:OPAQUE");
	add_line(text, "END:VEVENT");
}

void
build_ics_end(struct text *text)
{
	add_line(text, "END:VCALENDAR");
}
