/* text.h - text that grows in an arena, and looks at UTF-8.
 *
 * A text remembers that it once ran out of memory: add everything, then ask
 * text_failed once.  Nothing is ever cut in silence. */
#ifndef CORE_TEXT_H
#define CORE_TEXT_H

#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>

struct arena;

struct text {
	struct arena *arena; /* borrowed from whoever called text_init */
	char *bytes;         /* always ends in NUL */
	size_t n, room;
	bool failed;
};

/* text_init(text, arena): an empty text. */
void text_init(struct text *text, struct arena *arena);

/* text_add adds a C string, text_add_n n bytes, text_add_char one byte,
 * text_addf what printf would write.  A format is looked up in the arena's
 * tongue (core/tongue.h), what text_add gets is not. */
void text_add(struct text *text, const char *more);
void text_add_n(struct text *text, const char *more, size_t n);
void text_add_char(struct text *text, char c);
void text_addf(struct text *text, const char *format, ...)
	__attribute__((format(printf, 2, 3)));
void text_addv(struct text *text, const char *format, va_list arguments)
	__attribute__((format(printf, 2, 0)));

/* text_failed(text): true once memory ran out; the content is then partial. */
bool text_failed(const struct text *text);

/* text_format(arena, format, ...): a new C string; NULL if memory ran out. */
char *text_format(struct arena *arena, const char *format, ...)
	__attribute__((format(printf, 2, 3)));

/* text_is_utf8(bytes, n): well-formed UTF-8 without NUL (Unicode 15, D92). */
bool text_is_utf8(const char *bytes, size_t n);

/* text_columns(text): how many terminal columns a UTF-8 text takes; control
 * characters and malformed bytes count as the four of "\xNN". */
size_t text_columns(const char *text);

/* text_add_shown(text, more): adds more with control characters and malformed
 * bytes as \xNN, so that a name cannot steer a terminal. */
void text_add_shown(struct text *text, const char *more);

/* text_distance(a, b): edits (insert, drop, change, swap neighbours) between
 * two words, for "did you mean"; words over 63 bytes count as far apart. */
size_t text_distance(const char *a, const char *b);

#endif /* CORE_TEXT_H */
