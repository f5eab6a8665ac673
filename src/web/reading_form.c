/* reading_form.c - what any reading may say: its piece's sizes and weight, when
 * and on which rig it was taken. */
#include "web/reading_form.h"

#include "work/fields.h"

#include <stddef.h>

#define AT(member) offsetof(struct work_test_ask, member)
static const struct field common[] = {
	{"rig", FIELD_TEXT, UNIT_NUMBER, AT(rig)},
	{"code", FIELD_TEXT, UNIT_NUMBER, AT(reading.code)},
	{"width", FIELD_MAYBE, UNIT_LENGTH, AT(width_m)},
	{"depth", FIELD_MAYBE, UNIT_LENGTH, AT(depth_m)},
	{"length", FIELD_MAYBE, UNIT_LENGTH, AT(length_m)},
	{"diameter", FIELD_MAYBE, UNIT_LENGTH, AT(diameter_m)},
	{"mass", FIELD_MAYBE, UNIT_MASS, AT(mass_kg)},
	{"piece-mass", FIELD_MAYBE, UNIT_MASS, AT(mass_kg)},
	{"on", FIELD_DATE, UNIT_NUMBER, AT(on)},
	{"remark", FIELD_TEXT, UNIT_NUMBER, AT(reading.remark)},
};
#undef AT

enum { N_COMMON = sizeof common / sizeof common[0] };

bool
reading_form_read(const struct web_request *request, const struct field *own,
	size_t n, void *to, struct work_test_ask *ask, struct form *form)
{
	bool good = form_read(request, own, n, to, form);

	for (size_t i = 0; i < N_COMMON; i++)
		if (form_has(form, common[i].option))
			good &= form_read(request, &common[i], 1, ask, form);
	return good;
}
