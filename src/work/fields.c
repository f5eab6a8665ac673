/* fields.c - one field read. */
#include "work/fields.h"

#include "core/date.h"

#include <math.h>
#include <stdint.h>

enum err_code
field_read(const struct field *field, const char *text, enum unit_gallon gallon,
	void *to, struct err *err)
{
	const struct unit_rules rules = {
		.gallon = gallon, .may_be_negative = false};
	char *member = (char *)to + field->offset;
	struct err inner = {.tongue = err->tongue};
	struct maybe got = {true, 0};
	int64_t moment;

	switch (field->type) {
	case FIELD_TEXT:
		*(const char **)(void *)member = text;
		return ERR_NONE;
	case FIELD_DATE:
		if (date_read(text, 0, &moment, &inner) != ERR_NONE)
			break;
		*(const char **)(void *)member = text;
		return ERR_NONE;
	case FIELD_MAYBE:
	case FIELD_WHOLE:
		if (unit_read(text, field->kind, &rules, &got.value, &inner) !=
			ERR_NONE)
			break;
		if (field->type == FIELD_WHOLE && got.value != floor(got.value))
			return err_report(err, ERR_INPUT, field->option,
				"%s takes a whole number; it was given "
				"\"%.60s\".",
				field->option, text);
		*(struct maybe *)(void *)member = got;
		return ERR_NONE;
	}
	return err_report(err, ERR_INPUT, field->option, "%s \"%.60s\": %s",
		field->option, text, inner.text);
}
