/* html.h - writes HTML into a text, each value escaped for where it stands.
 *
 * Compiled pages (src/web/page) call these; nothing else writes markup.  A
 * value that is NULL is written as nothing, control characters and malformed
 * UTF-8 as U+FFFD, so that no value can hold a mark. */
#ifndef WEB_HTML_H
#define WEB_HTML_H

#include "core/text.h"

struct html {
	struct text *text;    /* borrowed */
	const char *language; /* of words, such as "en" */
};

/* What the server puts in each time it serves the page: a byte 2, then one of
 * these. */
enum html_mark { HTML_MARK_TOKEN = 'T', HTML_MARK_KEY = 'K' };
enum { HTML_MARK_START = 2 };

/* html_static(html, markup): a literal of ours, as it is. */
#define html_static(html, literal) \
	text_add_n((html)->text, "" literal, sizeof(literal) - 1)

/* html_text: between elements.  html_attribute: inside quotes. */
void html_text(struct html *html, const char *value);
void html_attribute(struct html *html, const char *value);

/* html_address: a whole address inside quotes; only one of this server goes
 * through (it begins with a single '/', with '?' or '#'), any other becomes
 * "#".  html_address_part: a piece of one, everything but RFC 3986's
 * unreserved characters percent-encoded. */
void html_address(struct html *html, const char *value);
void html_address_part(struct html *html, const char *value);

void html_mark(struct html *html, enum html_mark mark);

/* html_style: the style of all pages, as it stands in assets.h. */
void html_style(struct html *html);

#endif /* WEB_HTML_H */
