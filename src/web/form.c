/* form.c - fields, kept as they were typed until they are right. */
#include "web/form.h"

#include "core/jsonout.h"
#include "web/plain.h"

#include <ctype.h>
#include <string.h>

void
form_start(struct form *form, const struct web_request *request, const char *id,
	const char *action, const char *button)
{
	*form = (struct form){.request = request,
		.action = action,
		.button = button,
		.id = id};
}

/* Is what was posted meant for this form? */
static bool
was_sent(const struct form *form)
{
	const char *sent = web_given(form->request, "form");

	return form->request->method == WEB_POST &&
		(sent == NULL || strcmp(sent, form->id) == 0);
}

static const char *
typed_or_asked(const struct form *form, const char *name)
{
	if (was_sent(form))
		return web_given(form->request, name);
	return form->request->method == WEB_GET ? web_query(form->request, name)
						: NULL;
}

static struct form_field *
add(struct form *form, enum form_kind kind, const char *name, const char *label,
	const char *hint)
{
	struct form_field *field;

	if (name == NULL || form->n_field == FORM_FIELDS_MOST) {
		form->failed = true;
		return NULL;
	}
	field = arena_take(form->request->arena, 1, sizeof *field);
	if (field == NULL) {
		form->failed = true;
		return NULL;
	}
	field->kind = kind;
	field->name = name;
	field->label = label;
	field->hint = hint;
	field->value = typed_or_asked(form, name);
	field->group = form->group;
	form->group = NULL;
	form->field[form->n_field++] = field;
	return field;
}

static struct form_field *
last(const struct form *form)
{
	return form->n_field > 0 && !form->failed
		? form->field[form->n_field - 1]
		: NULL;
}

void
form_text(struct form *form, const char *name, const char *label,
	const char *hint)
{
	(void)add(form, FORM_TEXT, name, label, hint);
}

void
form_long(struct form *form, const char *name, const char *label,
	const char *hint)
{
	(void)add(form, FORM_LONG, name, label, hint);
}

void
form_date(struct form *form, const char *name, const char *label,
	const char *hint)
{
	(void)add(form, FORM_DATE, name, label, hint);
}

void
form_yes(struct form *form, const char *name, const char *label,
	const char *hint)
{
	(void)add(form, FORM_YES, name, label, hint);
}

void
form_file(struct form *form, const char *name, const char *label,
	const char *hint, bool many)
{
	struct form_field *field = add(form, FORM_FILE, name, label, hint);

	form->takes_files = true;
	if (field != NULL)
		field->many = many;
}

void
form_photo(struct form *form, const char *name, const char *label,
	const char *hint, bool camera)
{
	struct form_field *field = add(form, FORM_FILE, name, label, hint);

	form->takes_files = true;
	if (field == NULL)
		return;
	field->photo = true;
	field->camera = camera;
	field->many = !camera;
}

void
form_hidden(struct form *form, const char *name, const char *value)
{
	struct form_field *field = add(form, FORM_HIDDEN, name, "", NULL);

	if (field != NULL)
		field->value = value;
}

static const char *
unit_name(struct arena *arena, const char *name)
{
	return text_format(arena, "%s_unit", name);
}

/* A gallon says which: "US gal/min" for "gal/min". */
static const char *
which_unit(const struct web_request *request, const char *unit, size_t n)
{
	const char *which = strncmp(unit, "gal", 3) != 0 ? ""
		: request->desk.gallon == UNIT_GALLON_US ? "US "
							 : "imp ";

	return text_format(request->arena, "%s%.*s", which, (int)n, unit);
}

static void
add_units(struct form *form, struct form_field *field, const char *units)
{
	const char *name = unit_name(form->request->arena, field->name);

	while (*units != '\0' && field->n_choice < FORM_CHOICES_MOST) {
		size_t n = strcspn(units, " ");
		const char *unit = which_unit(form->request, units, n);

		if (unit == NULL) {
			form->failed = true;
			return;
		}
		field->choice[field->n_choice++] = (struct form_choice){
			unit, unit};
		units += n + (units[n] == ' ');
	}
	field->chosen_unit = name != NULL ? typed_or_asked(form, name) : NULL;
}

void
form_number(struct form *form, const char *name, const char *label,
	const char *units, const char *hint)
{
	struct form_field *field = add(form, FORM_NUMBER, name, label, hint);

	if (field != NULL)
		add_units(form, field, units);
}

void
form_choice(struct form *form, const char *name, const char *label,
	const char *hint)
{
	(void)add(form, FORM_CHOICE, name, label, hint);
}

void
form_choose(struct form *form, const char *value, const char *label)
{
	struct form_field *field = last(form);

	if (field == NULL)
		return;
	if (field->n_choice == FORM_CHOICES_MOST) {
		form->failed = true;
		return;
	}
	field->choice[field->n_choice++] = (struct form_choice){value, label};
}

void
form_press(struct form *form, const char *name, const char *value,
	const char *label)
{
	if (form->n_pressed == FORM_BUTTONS_MOST || label == NULL)
		form->failed = true;
	else
		form->pressed[form->n_pressed++] = (struct form_button){
			name, value, label};
}

void
form_value(struct form *form, const char *value)
{
	struct form_field *field = last(form);

	if (field != NULL && field->value == NULL && !was_sent(form))
		field->value = value;
}

void
form_needed(struct form *form)
{
	struct form_field *field = last(form);

	if (field != NULL)
		field->needed = true;
}

void
form_group(struct form *form, const char *group)
{
	form->group = group != NULL ? group : "";
}

void
form_listed(struct form *form)
{
	struct form_field *field = last(form);

	if (field != NULL)
		field->listed = true;
}

void
form_timed(struct form *form)
{
	struct form_field *field = last(form);

	if (field != NULL)
		field->timed = true;
}

/* A number alone, without a word of a unit. */
static bool
is_bare(const char *text)
{
	for (; *text != '\0'; text++)
		if (isalpha((unsigned char)*text) || *text == '%' ||
			*text == '"' || *text == '\'')
			return false;
	return true;
}

const char *
form_typed_number(const struct web_request *request, const char *name)
{
	const char *text = web_given(request, name);
	const char *of_unit = unit_name(request->arena, name);
	const char *unit;

	if (text == NULL || of_unit == NULL)
		return text;
	unit = web_given(request, of_unit);
	return unit != NULL && is_bare(text)
		? text_format(request->arena, "%s %s", text, unit)
		: text;
}

static const char *
page_name_of(const char *option)
{
	return strncmp(option, "--", 2) == 0 ? option + 2 : option;
}

static struct form_field *
find_field(const struct form *form, const char *name)
{
	for (size_t i = 0; i < form->n_field; i++)
		if (strcmp(form->field[i]->name, name) == 0)
			return form->field[i];
	return NULL;
}

/* The sentence without the name of the option in front: the label says it. */
static const char *
sentence_of(struct arena *arena, const struct err *err)
{
	const char *text = err->text;
	size_t n = strlen(err->field);

	if (n > 2 && strncmp(text, err->field, n) == 0 && text[n] == ' ')
		text += n + 1;
	return arena_text(arena, text);
}

void
form_fault(struct form *form, const struct err *err)
{
	struct form_field *field = find_field(form, page_name_of(err->field));
	const char *text = sentence_of(form->request->arena, err);

	if (text != NULL)
		text = plain_words(form->request, form, text);
	if (text == NULL)
		form->failed = true;
	else if (field != NULL && field->error == NULL)
		field->error = text;
	else if (form->error == NULL)
		form->error = text;
}

void
form_fault_at(struct form *form, const char *name, const char *sentence)
{
	struct form_field *field = find_field(form, name);
	const char *kept = arena_text(form->request->arena, sentence);

	if (kept == NULL)
		form->failed = true;
	else if (field != NULL)
		field->error = kept;
	else
		form->error = kept;
}

bool
form_has(const struct form *form, const char *name)
{
	return find_field(form, name) != NULL;
}

bool
form_has_fault(const struct form *form)
{
	for (size_t i = 0; i < form->n_field; i++)
		if (form->field[i]->error != NULL)
			return true;
	return form->error != NULL;
}

bool
form_read(const struct web_request *request, const struct field *field,
	size_t n, void *to, struct form *form)
{
	bool good = true;

	for (size_t i = 0; i < n; i++) {
		const char *name = page_name_of(field[i].option);
		const char *text = form_typed_number(request, name);
		struct err err = err_in(request->arena);

		if (text == NULL)
			continue;
		if (field_read(&field[i], text, request->desk.gallon, to,
			    &err) == ERR_NONE)
			continue;
		form_fault(form, &err);
		good = false;
	}
	return good;
}

static bool
is_of_the_face(const char *name)
{
	return strcmp(name, "token") == 0 || strcmp(name, "key") == 0 ||
		strcmp(name, "form") == 0 || strcmp(name, "carried") == 0;
}

const char *
form_as_typed(const struct web_request *request)
{
	struct text text;
	struct jsonout json;

	text_init(&text, request->arena);
	jsonout_init(&json, &text);
	jsonout_open_object(&json);
	for (size_t i = 0; i < request->n_field; i++) {
		const struct web_field *field = &request->field[i];

		if (field->file == NULL && field->n > 0 &&
			!is_of_the_face(field->name))
			jsonout_key_string(&json, field->name, field->value);
	}
	jsonout_close_object(&json);
	return jsonout_failed(&json) || text_failed(&text) ? NULL : text.bytes;
}
