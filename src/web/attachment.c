/* attachment.c - the name under which a file is taken away. */
#include "web/attachment.h"

#include "core/text.h"

#include <stdbool.h>
#include <string.h>

enum { NAME_MOST = 100 };

static bool
is_plain(unsigned char c)
{
	return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
		(c >= '0' && c <= '9') || c == '.' || c == '-' || c == '_';
}

/* How many bytes at p are one mark unseen by the reader: a control of Unicode's
 * second block, a mark of direction or width (U+200B to U+200F, U+2028 to U+202E,
 * U+2060 to U+2069), U+FEFF. */
static size_t
unseen_bytes(const unsigned char *p)
{
	if (p[0] == 0xc2 && p[1] >= 0x80 && p[1] <= 0x9f)
		return 2;
	if (p[0] == 0xe2 && p[1] == 0x80 &&
		((p[2] >= 0x8b && p[2] <= 0x8f) ||
			(p[2] >= 0xa8 && p[2] <= 0xae)))
		return 3;
	if (p[0] == 0xe2 && p[1] == 0x81 && p[2] >= 0xa0 && p[2] <= 0xa9)
		return 3;
	if (p[0] == 0xef && p[1] == 0xbb && p[2] == 0xbf)
		return 3;
	return 0;
}

/* The part after the last / or \, whole letters of at most NAME_MOST bytes. */
static const char *
last_part(const char *name, size_t *n)
{
	for (const char *p = name; *p != '\0'; p++)
		if (*p == '/' || *p == '\\')
			name = p + 1;
	*n = strlen(name);
	if (*n > NAME_MOST) {
		*n = NAME_MOST;
		while (*n > 0 && ((unsigned char)name[*n] & 0xc0) == 0x80)
			--*n;
	}
	return name;
}

static void
add_encoded(struct text *text, const char *name, size_t n)
{
	const unsigned char *p = (const unsigned char *)name;

	for (size_t i = 0; i < n;) {
		size_t unseen = unseen_bytes(p + i);

		if (unseen > 0 || (p[i] < 0x80 && !is_plain(p[i])) ||
			(i == 0 && p[i] == '.'))
			text_add_n(text, "_", 1);
		else if (is_plain(p[i]))
			text_add_n(text, name + i, 1);
		else
			text_addf(text, "%%%02X", p[i]);
		i += unseen > 0 ? unseen : 1;
	}
}

const char *
web_attachment(struct arena *arena, const char *name)
{
	bool other = false, leading = true;
	struct text text;
	size_t n;

	name = last_part(name, &n);
	text_init(&text, arena);
	text_addf(&text, "attachment; filename=\"%s", n == 0 ? "file" : "");
	for (size_t i = 0; i < n; i++) {
		const unsigned char c = (unsigned char)name[i];

		leading = leading && c == '.';
		other = other || c >= 0x80;
		if ((c & 0xc0) != 0x80) /* one _ for one letter */
			text_add_n(&text,
				is_plain(c) && !leading ? name + i : "_", 1);
	}
	text_add_n(&text, "\"", 1);
	if (other && text_is_utf8(name, n)) {
		text_addf(&text, "%s", "; filename*=UTF-8''");
		add_encoded(&text, name, n);
	}
	return text_failed(&text) ? NULL : text.bytes;
}
