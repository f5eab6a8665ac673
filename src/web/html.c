/* html.c - the escapes. */
#include "web/html.h"

#include "web/assets.h"

#include <ctype.h>
#include <stdbool.h>
#include <stdint.h>
#include <string.h>

static const char replacement[] = "\xEF\xBF\xBD"; /* U+FFFD */

/* Bytes of the UTF-8 character at p, 0 if it is malformed. */
static size_t
character(const char *p)
{
	unsigned char c = (unsigned char)*p;
	size_t n = c < 0x80 ? 1 : c < 0xE0 ? 2 : c < 0xF0 ? 3 : 4;

	if (strnlen(p, n) < n)
		return 0;
	return text_is_utf8(p, n) ? n : 0;
}

static const char *
entity(char c)
{
	switch (c) {
	case '&':
		return "&amp;";
	case '<':
		return "&lt;";
	case '>':
		return "&gt;";
	case '"':
		return "&quot;";
	case '\'':
		return "&#39;";
	default:
		return NULL;
	}
}

static bool
is_control(char c)
{
	return ((unsigned char)c < 0x20 && c != '\n' && c != '\t') || c == 0x7F;
}

void
html_text(struct html *html, const char *value)
{
	if (value == NULL)
		return;
	while (*value != '\0') {
		size_t n = character(value);
		const char *name = entity(*value);

		if (n == 0 || is_control(*value))
			text_add(html->text, replacement);
		else if (name != NULL)
			text_add(html->text, name);
		else
			text_add_n(html->text, value, n);
		value += n > 0 ? n : 1;
	}
}

void
html_attribute(struct html *html, const char *value)
{
	html_text(html, value);
}

/* Percent-encodes all but letters, digits and what `kept` lists. */
static void
encode(struct html *html, const char *value, const char *kept)
{
	for (; *value != '\0'; value++) {
		unsigned char c = (unsigned char)*value;

		if (c == '&' && strchr(kept, '&') != NULL)
			text_add(html->text, "&amp;");
		else if (c < 0x80 && (isalnum(c) || strchr(kept, c) != NULL))
			text_add_char(html->text, (char)c);
		else
			text_addf(html->text, "%%%02X", c);
	}
}

void
html_address(struct html *html, const char *value)
{
	if (value == NULL)
		return;
	if (*value == '?' || *value == '#' ||
		(*value == '/' && value[1] != '/' && value[1] != '\\'))
		encode(html, value, "-._~/?#=&%+,:@!$");
	else
		text_add(html->text, "#");
}

void
html_address_part(struct html *html, const char *value)
{
	if (value != NULL)
		encode(html, value, "-._~");
}

void
html_mark(struct html *html, enum html_mark mark)
{
	text_add_char(html->text, HTML_MARK_START);
	text_add_char(html->text, (char)mark);
}

void
html_style(struct html *html)
{
	text_add(html->text, web_style);
}
