/* csvout.h - writes rows of CSV (RFC 4180) into a text. */
#ifndef CORE_CSVOUT_H
#define CORE_CSVOUT_H

#include "core/text.h"

#include <stddef.h>

/* csvout_text(csv, value): a text as one field, in quotes where it needs them.
 * What a spreadsheet would take for a formula or a number (it begins with = + -
 * @, a tab or a return) is led by an apostrophe; "-" alone is not.
 * csvout_field(csv, value): the same of a field that may be a figure; one as we
 * print them ("-2.5e-07", never with a plus) stays bare. */
void csvout_text(struct text *csv, const char *value);
void csvout_field(struct text *csv, const char *value);

/* csvout_row(csv, field, n): fields with commas between, ended by a line
 * feed, as the other tools of a command line end theirs; NULL is
 * an empty field. */
void csvout_row(struct text *csv, const char *const *field, size_t n);

#endif /* CORE_CSVOUT_H */
