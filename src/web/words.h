/* words.h - a text of a page in the language of whoever reads it.
 *
 * The catalogues are po/LANGUAGE.po, compiled by msgfmt and linked in.  They
 * are looked up here and not by libc's gettext, which answers only in a
 * language whose locale is installed, one for the whole process. */
#ifndef WEB_WORDS_H
#define WEB_WORDS_H

#include "core/tongue.h"

#include <stddef.h>

/* words(language, english): the translation; english itself in an unknown
 * language, in "en", or where the catalogue has none.  Never NULL for a text. */
const char *words(const char *language, const char *english)
	__attribute__((format_arg(2)));

/* words_tongue(language): the same, for whoever makes the texts. */
struct tongue words_tongue(const char *language);

/* words_language(accepted): which of our languages an Accept-Language header
 * (RFC 9110, 12.5.4; may be NULL) likes best; "en" if none.  A static text. */
const char *words_language(const char *accepted);

/* words_language_at(i): the i-th language, NULL after the last; "en" first.
 * words_language_name(language): its name in itself. */
const char *words_language_at(size_t i);
const char *words_language_name(const char *language);

#endif /* WEB_WORDS_H */
