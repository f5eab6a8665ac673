/* err.c - reports that carry a sentence for a person and where it happened. */
#include "core/err.h"

#include "core/arena.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

static const char *const err_words[] = {
#define ERR_AS_WORD(code, word, status) [code] = (word),
	ERR_LIST(ERR_AS_WORD)
#undef ERR_AS_WORD
};

static const int err_statuses[] = {
#define ERR_AS_STATUS(code, word, status) [code] = (status),
	ERR_LIST(ERR_AS_STATUS)
#undef ERR_AS_STATUS
};

/* Cuts at whole characters (UTF-8) and shows that it cut. */
static void
mark_cut(char *text, size_t size)
{
	size_t end = size - 4;

	while (end > 0 && ((unsigned char)text[end] & 0xC0u) == 0x80u)
		end--;
	memcpy(text + end, "...", 4);
}

enum err_code
err_report_at(struct err *err, enum err_code code, const char *field,
	const char *file, int line, const char *format, ...)
{
	va_list arguments;
	int length;

	if (err == NULL)
		return code;
	if (err->code != ERR_NONE)
		return err->code;
	err->code = code;
	err->file = file;
	err->line = line;
	length = snprintf(err->field, sizeof err->field, "%s", field);
	if (length < 0 || (size_t)length >= sizeof err->field)
		mark_cut(err->field, sizeof err->field);
	va_start(arguments, format);
	length = vsnprintf(err->text, sizeof err->text,
		tongue_say(&err->tongue, format), arguments);
	va_end(arguments);
	if (length < 0 || (size_t)length >= sizeof err->text)
		mark_cut(err->text, sizeof err->text);
	return code;
}

void
err_clear(struct err *err)
{
	*err = (struct err){.code = ERR_NONE, .tongue = err->tongue};
}

const char *
err_say(const struct err *err, const char *english)
{
	return err != NULL ? tongue_say(&err->tongue, english) : english;
}

struct err
err_in(const struct arena *arena)
{
	return (struct err){.code = ERR_NONE, .tongue = arena_tongue(arena)};
}

const char *
err_word(enum err_code code)
{
	return err_words[code];
}

int
err_exit_status(enum err_code code)
{
	return err_statuses[code];
}
