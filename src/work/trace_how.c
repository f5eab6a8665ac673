/* trace_how.c - how a logger's file was understood, written and read back. */
#include "work/trace_how.h"

#include "core/text.h"

#include <string.h>

struct how {
	const char *separator, *decimal, *line; /* line "": no heading */
	const char *time, *value;               /* NULL: not named */
	const char *sag;                        /* NULL: none; "": not named */
	const char *time_unit;                  /* NULL: none */
	const char *value_unit, *sag_unit;
};

static const char comma[] = N_("comma"), point[] = N_("point");

const char *
work_trace_separator(char separator)
{
	return separator == '\t'   ? N_("tabs")
		: separator == ';' ? N_("semicolons")
		: separator == ',' ? N_("commas")
				   : N_("nothing");
}

/* ---- written ---- */

static const char *
write_how(struct arena *arena, const struct how *h)
{
	struct text text;

	text_init(&text, arena);
	text_addf(&text, "%s between columns, decimal %s, ",
		arena_say(arena, h->separator), arena_say(arena, h->decimal));
	if (h->line[0] != '\0')
		text_addf(&text, "heading in line %s", h->line);
	else
		text_addf(&text, "no heading");
	if (h->time != NULL)
		text_addf(&text, ", time from \"%s\"%s%s", h->time,
			h->time_unit != NULL ? arena_say(arena, " in ") : "",
			h->time_unit != NULL ? h->time_unit : "");
	if (h->value != NULL)
		text_addf(&text, ", figures from \"%s\" in %s", h->value,
			h->value_unit);
	else
		text_addf(&text, ", figures in %s", h->value_unit);
	if (h->sag != NULL)
		text_addf(
			&text, ", sag from \"%s\" in %s", h->sag, h->sag_unit);
	return text_failed(&text) ? NULL : text.bytes;
}

static const char *
if_any(const char *text)
{
	return text[0] != '\0' ? text : NULL;
}

const char *
work_trace_how_kept(struct arena *arena, const struct lab_trace_found *f)
{
	const struct tongue tongue = arena_tongue(arena);
	const struct tongue english = {.find = NULL};
	struct how h = {.separator = work_trace_separator(f->separator),
		.decimal = f->decimal_comma ? comma : point,
		.line = "",
		.time = f->time.has ? if_any(f->time.name) : NULL,
		.time_unit = if_any(f->time.unit),
		.value = if_any(f->value.name),
		.value_unit = f->value.unit,
		.sag = f->has_sag ? f->sag.name : NULL,
		.sag_unit = f->sag.unit};
	const char *kept = NULL;

	arena_speak(arena, english);
	if (f->heading_line > 0)
		h.line = text_format(arena, "%zu", f->heading_line);
	if (h.line != NULL)
		kept = write_how(arena, &h);
	arena_speak(arena, tongue);
	return kept;
}

/* ---- read back ---- */

struct reader {
	struct arena *arena;
	const char *at;
};

static bool
take(struct reader *r, const char *what)
{
	size_t n = strlen(what);

	if (strncmp(r->at, what, n) != 0)
		return false;
	r->at += n;
	return true;
}

/* What stands before `end`, or the rest where end is NULL or not there and may
 * be missing. */
static bool
take_until(struct reader *r, const char *end, bool or_rest, const char **to)
{
	const char *stop = strstr(r->at, end);
	size_t n = stop != NULL ? (size_t)(stop - r->at) : strlen(r->at);
	char *copy = arena_take(r->arena, n + 1, 1);

	if (copy == NULL || (stop == NULL && !or_rest))
		return false;
	memcpy(copy, r->at, n);
	copy[n] = '\0';
	r->at += n;
	*to = copy;
	return true;
}

/* The name in quotation marks, then " in " and the unit up to `end`. */
static bool
take_named(
	struct reader *r, const char *end, const char **name, const char **unit)
{
	if (!take(r, "\"") || !take_until(r, "\"", false, name) ||
		!take(r, "\""))
		return false;
	return !take(r, " in ") || take_until(r, end, true, unit);
}

static bool
read_how(struct reader *r, struct how *h)
{
	static const char figures[] = ", figures", sag[] = ", sag ";

	*h = (struct how){.line = "", .value_unit = "", .sag_unit = ""};
	if (!take_until(r, " between", false, &h->separator) ||
		!take(r, " between columns, decimal ") ||
		!take_until(r, ", ", false, &h->decimal) || !take(r, ", "))
		return false;
	if (!take(r, "no heading") &&
		(!take(r, "heading in line ") ||
			!take_until(r, ", ", false, &h->line)))
		return false;
	if (take(r, ", time from ") &&
		!take_named(r, figures, &h->time, &h->time_unit))
		return false;
	if (take(r, ", figures from ")) {
		if (!take_named(r, sag, &h->value, &h->value_unit))
			return false;
	} else if (!take(r, ", figures in ") ||
		!take_until(r, sag, true, &h->value_unit))
		return false;
	if (take(r, ", sag in ")) {
		h->sag = "";
		return take_until(r, "\n", true, &h->sag_unit);
	}
	if (take(r, ", sag from ") &&
		!take_named(r, "\n", &h->sag, &h->sag_unit))
		return false;
	return *r->at == '\0';
}

const char *
work_trace_how(struct arena *arena, const char *kept)
{
	struct reader r = {arena, kept};
	struct how h;

	return read_how(&r, &h) ? write_how(arena, &h) : kept;
}
