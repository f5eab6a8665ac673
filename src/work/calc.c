/* calc.c - finds a calculation, reads its question, frames its answer. */
#include "work/calc_priv.h"

#include <assert.h>
#include <string.h>

#define CALC_NAME(entry) extern const struct calc_entry entry;
#include "work/calc_names.h"
#undef CALC_NAME

static const struct calc_entry *const entries[] = {
#define CALC_NAME(entry) &(entry),
#include "work/calc_names.h"
#undef CALC_NAME
};

enum { N_ENTRY = sizeof entries / sizeof entries[0] };

const struct calc_entry *const *
work_calc_list(size_t *n)
{
	*n = N_ENTRY;
	return entries;
}

const struct calc_entry *
work_calc_find(const char *name)
{
	for (size_t i = 0; i < N_ENTRY; i++)
		if (strcmp(entries[i]->name, name) == 0)
			return entries[i];
	return NULL;
}

const char *
work_calc_nearest(const char *name)
{
	enum { FAR = 4 };
	size_t least = FAR;
	const char *nearest = NULL;

	for (size_t i = 0; i < N_ENTRY; i++) {
		size_t distance = text_distance(name, entries[i]->name);

		if (distance < least) {
			least = distance;
			nearest = entries[i]->name;
		}
	}
	return nearest;
}

const char *
work_calc_name(const struct calc_entry *entry)
{
	return entry->name;
}

const char *
work_calc_line(const struct calc_entry *entry)
{
	return entry->line;
}

const char *
work_calc_example(const struct calc_entry *entry)
{
	return entry->example;
}

const struct calc_key *
work_calc_keys(const struct calc_entry *entry, size_t *n_key)
{
	*n_key = entry->n_key;
	return entry->key;
}

static enum err_code
refuse_unknown_keys(const struct calc_entry *entry, const struct calc_in *in,
	struct err *err)
{
	enum { KEY_MAX = 32 };
	const char *known[KEY_MAX];

	assert(entry->n_key <= KEY_MAX);
	for (size_t i = 0; i < entry->n_key; i++)
		known[i] = entry->key[i].name;
	return calc_only(in, known, entry->n_key, err);
}

static enum err_code
frame_answer(const struct calc_entry *entry, const struct calc_in *in,
	const char **answer, struct err *err)
{
	struct text text;
	struct jsonout json;
	struct calc_out out = {.json = &json, .arena = in->arena};

	text_init(&text, in->arena);
	jsonout_init(&json, &text);
	jsonout_open_object(&json);
	TRY(entry->run(in, &out, err));
	assert(out.source != NULL);
	jsonout_key_string(&json, "source", out.source);
	jsonout_key(&json, "notes");
	jsonout_open_array(&json);
	for (size_t i = 0; i < out.n_note; i++)
		jsonout_string(&json, out.note[i]);
	jsonout_close_array(&json);
	jsonout_close_object(&json);
	if (text_failed(&text))
		return err_memory(err);
	if (jsonout_failed(&json))
		return err_report(err, ERR_NUMERIC, entry->name,
			"These values give no finite answer; they may be too "
			"large, too small or too much alike.");
	*answer = text.bytes;
	return ERR_NONE;
}

enum err_code
work_calc(const struct calc_entry *entry, struct arena *arena,
	const char *question, size_t n, const char **answer, struct err *err)
{
	json_error_t fault;
	json_t *object = json_loadb(
		question, n, JSON_REJECT_DUPLICATES, &fault);
	struct calc_in in = {.object = object, .path = "", .arena = arena};
	enum err_code code;

	if (object == NULL)
		return err_report(err, ERR_INPUT, "question",
			"This is not one JSON object: line %d, column %d: %s.",
			fault.line, fault.column, fault.text);
	if (!json_is_object(object))
		code = err_report(err, ERR_INPUT, "question",
			"The question must be one JSON object, such as %s.",
			entry->example);
	else
		code = refuse_unknown_keys(entry, &in, err);
	if (code == ERR_NONE)
		code = frame_answer(entry, &in, answer, err);
	json_decref(object);
	return code;
}
