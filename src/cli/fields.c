/* fields.c - the readers of options. */
#include "cli/fields.h"

#include "work/shelf.h"

#include <assert.h>
#include <math.h>
#include <string.h>

enum err_code
fields_read(const struct invocation *in, const struct field *field, size_t n,
	void *to, struct err *err)
{
	for (size_t i = 0; i < n; i++) {
		const char *text = invocation_value(in, field[i].option);
		enum unit_gallon gallon = UNIT_GALLON_US;

		if (text == NULL)
			continue;
		if (field[i].type == FIELD_MAYBE)
			TRY(gallon_of(in, text, field[i].kind, &gallon, err));
		TRY(field_read(&field[i], text, gallon, to, err));
	}
	return ERR_NONE;
}

enum err_code
gallon_of(const struct invocation *in, const char *text, enum unit_kind kind,
	enum unit_gallon *gallon, struct err *err)
{
	struct desk desk = {.book = NULL};

	*gallon = UNIT_GALLON_US;
	if (!unit_names_gallon(text, kind))
		return ERR_NONE;
	assert(in->n_word > 0);
	TRY(work_open(in->word[0], false, &desk, err));
	*gallon = desk.gallon;
	work_close(&desk);
	return ERR_NONE;
}

/* One option and all values it was given, as a string or an array of them. */
static void
write_typed(const struct invocation *in, size_t first, struct jsonout *json)
{
	const char *name = in->given[first].name;
	size_t n = 0;

	for (size_t i = first; i < in->n_given; i++)
		n += strcmp(in->given[i].name, name) == 0;
	jsonout_key(json, name + 2);
	if (n > 1)
		jsonout_open_array(json);
	for (size_t i = first; i < in->n_given; i++)
		if (strcmp(in->given[i].name, name) == 0)
			jsonout_string(json,
				in->given[i].value != NULL ? in->given[i].value
							   : "yes");
	if (n > 1)
		jsonout_close_array(json);
}

const char *
fields_typed(const struct invocation *in)
{
	struct text text;
	struct jsonout json;

	text_init(&text, in->arena);
	jsonout_init(&json, &text);
	jsonout_open_object(&json);
	for (size_t i = 0; i < in->n_given; i++) {
		size_t before = 0;

		while (before < i &&
			strcmp(in->given[before].name, in->given[i].name) != 0)
			before++;
		if (before == i)
			write_typed(in, i, &json);
	}
	jsonout_close_object(&json);
	return jsonout_failed(&json) ? NULL : text.bytes;
}

enum err_code
field_pair(const struct invocation *in, const char *option, const char *text,
	const char **name, const char **value, struct err *err)
{
	const char *equals = strchr(text, '=');
	char *left;

	if (equals == NULL || equals == text || equals[1] == '\0')
		return err_report(err, ERR_INPUT, option,
			"%s takes a name and a value with = between them; it "
			"was given \"%.60s\".",
			option, text);
	left = arena_text(in->arena, text);
	if (left == NULL)
		return err_memory(err);
	left[equals - text] = '\0';
	*name = left;
	*value = left + (equals - text) + 1;
	return ERR_NONE;
}

enum err_code
read_limit(const struct invocation *in, size_t most, size_t *n, struct err *err)
{
	const double rows_most = 1e9;
	const char *limit = invocation_value(in, "--limit");
	double value = (double)most;

	if (limit != NULL &&
		(unit_read(limit, UNIT_NUMBER, NULL, &value, err) != ERR_NONE ||
			!(value >= 0 && value <= rows_most) ||
			floor(value) < value)) {
		err_clear(err);
		return err_report(err, ERR_INPUT, "--limit",
			"\"--limit %.40s\" is no whole number of rows; it "
			"takes one such as 50, or 0 for all.",
			limit);
	}
	*n = (size_t)value;
	return ERR_NONE;
}
