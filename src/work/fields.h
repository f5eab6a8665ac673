/* fields.h - what a person gave for a field, read into a member of a struct;
 * the same table serves the options of a command and the fields of a page. */
#ifndef WORK_FIELDS_H
#define WORK_FIELDS_H

#include "core/err.h"
#include "core/qty.h"
#include "core/unit.h"

#include <stddef.h>

enum field_type {
	FIELD_TEXT,  /* const char *; left alone where not given */
	FIELD_MAYBE, /* struct maybe of a quantity of `kind` */
	FIELD_WHOLE, /* struct maybe of a whole number, 0 or more */
	FIELD_DATE   /* const char *, checked as a date or a moment */
};

/* One field and where it goes. */
struct field {
	const char *option; /* "--mass"; on a page the name without "--" */
	enum field_type type;
	enum unit_kind kind;
	size_t offset; /* of the member in the struct */
};

/* field_read(field, text, gallon, to, err): fills the member of the struct at
 * `to`; a text is borrowed.  ERR_INPUT names the option, what it got, what
 * would do. */
enum err_code field_read(const struct field *field, const char *text,
	enum unit_gallon gallon, void *to, struct err *err) MUST_CHECK;

#endif /* WORK_FIELDS_H */
