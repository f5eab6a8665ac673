/* fields.h - options read into the members of a struct, with what was typed
 * kept beside them. */
#ifndef CLI_FIELDS_H
#define CLI_FIELDS_H

#include "cli/command.h"
#include "work/fields.h"

/* fields_read(in, field, n, to, err): fills the members whose options were
 * given; a gallon is that of the book.  ERR_INPUT names the option, what it got,
 * what would do; where a gallon was named, what work_open reports as well. */
enum err_code fields_read(const struct invocation *in,
	const struct field *field, size_t n, void *to,
	struct err *err) MUST_CHECK;

/* gallon_of(in, text, kind, gallon, err): which gallon the text means.  The
 * book, the first word of the command, is asked only where the text names one:
 * what work_open reports. */
enum err_code gallon_of(const struct invocation *in, const char *text,
	enum unit_kind kind, enum unit_gallon *gallon,
	struct err *err) MUST_CHECK;

/* fields_typed(in): the options as they were typed, a JSON object in the
 * arena; NULL if memory ran out. */
const char *fields_typed(const struct invocation *in);

/* field_pair(in, text, name, value, err): "cement=380 kg" cut at the first
 * equals sign, both in the arena.  ERR_INPUT there is none, or one side is
 * empty; option names it. */
enum err_code field_pair(const struct invocation *in, const char *option,
	const char *text, const char **name, const char **value,
	struct err *err) MUST_CHECK;

/* read_limit(in, most, n, err): --limit as a whole number of rows, 0 for all;
 * `most` where it was not given. */
enum err_code read_limit(const struct invocation *in, size_t most, size_t *n,
	struct err *err) MUST_CHECK;

#endif /* CLI_FIELDS_H */
