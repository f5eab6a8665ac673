/* calc_read.c - reads the keys of a question, and says what is wrong with one.
 *
 * Every refusal has the same shape: "got VALUE; it takes WHAT". */
#include "work/calc_priv.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { SHOWN_MAX = 80 };

/* The value as it was written, cut to a length that fits a sentence. */
static const char *
shown(const struct calc_in *in, const json_t *value)
{
	struct text text;
	char *written;

	if (value == NULL)
		return "nothing";
	written = json_dumps(value,
		JSON_ENCODE_ANY | JSON_COMPACT | JSON_REAL_PRECISION(15));
	text_init(&text, in->arena);
	if (written != NULL && strlen(written) <= SHOWN_MAX) {
		text_add_shown(&text, written);
	} else if (json_is_array(value)) {
		text_addf(&text, "an array of %zu", json_array_size(value));
	} else if (json_is_object(value)) {
		text_add(&text, "an object");
	} else if (written != NULL) {
		size_t end = SHOWN_MAX;

		while (end > 0 &&
			((unsigned char)written[end] & 0xC0u) == 0x80u)
			end--;
		written[end] = '\0';
		text_add_shown(&text, written);
		text_add(&text, "...");
	}
	free(written);
	return text_failed(&text) ? "a value" : text.bytes;
}

const char *
calc_path(const struct calc_in *in, const char *key)
{
	const char *path = in->path[0] == '\0'
		? key
		: text_format(in->arena, "%s.%s", in->path, key);

	return path != NULL ? path : key;
}

static enum err_code
refuse_value(const struct calc_in *in, const char *key, const json_t *value,
	const char *takes, struct err *err)
{
	if (value == NULL || json_is_null(value))
		return err_report(err, ERR_INPUT, calc_path(in, key),
			"is missing; it takes %s.", takes);
	return err_report(err, ERR_INPUT, calc_path(in, key),
		"got %s; it takes %s.", shown(in, value), takes);
}

enum err_code
calc_refuse(const struct calc_in *in, const char *key, const char *takes,
	struct err *err)
{
	return refuse_value(
		in, key, json_object_get(in->object, key), takes, err);
}

bool
calc_has(const struct calc_in *in, const char *key)
{
	const json_t *value = json_object_get(in->object, key);

	return value != NULL && !json_is_null(value);
}

static bool
in_range(double value, enum calc_range range)
{
	if (!isfinite(value))
		return false;
	if (range == CALC_POSITIVE)
		return value > 0;
	return range == CALC_ANY || value >= 0;
}

static const char *
range_words(enum calc_range range)
{
	if (range == CALC_POSITIVE)
		return " greater than 0";
	return range == CALC_NOT_NEGATIVE ? ", 0 or more" : "";
}

/* What a quantity takes, with an example: "a length greater than 0, such as
 * 450 mm, or a number in m". */
static const char *
quantity_words(
	const struct calc_in *in, enum unit_kind kind, enum calc_range range)
{
	const char *words = text_format(in->arena,
		"%s%s, such as \"%s\", or a bare number in %s",
		unit_kind_name(kind), range_words(range), unit_example(kind),
		unit_si_word(kind));

	return words != NULL ? words : unit_kind_name(kind);
}

static enum err_code
read_quantity_text(const struct calc_in *in, const char *key,
	const json_t *value, enum unit_kind kind, double *si, struct err *err)
{
	const struct unit_rules rules = {.may_be_negative = true};
	struct err inner = {.code = ERR_NONE};

	if (strlen(json_string_value(value)) != json_string_length(value))
		return refuse_value(
			in, key, value, "a text without a zero byte", err);
	if (unit_read(json_string_value(value), kind, &rules, si, &inner) !=
		ERR_NONE)
		return err_report(err, inner.code, calc_path(in, key),
			"got %s; %s", shown(in, value), inner.text);
	return ERR_NONE;
}

enum err_code
calc_read_quantity(const struct calc_in *in, const char *key,
	enum unit_kind kind, enum calc_range range, double *si, struct err *err)
{
	const json_t *value = json_object_get(in->object, key);
	double got = 0;

	if (json_is_string(value))
		TRY(read_quantity_text(in, key, value, kind, &got, err));
	else if (json_is_number(value))
		got = json_number_value(value);
	else
		return refuse_value(
			in, key, value, quantity_words(in, kind, range), err);
	if (!in_range(got, range))
		return refuse_value(
			in, key, value, quantity_words(in, kind, range), err);
	*si = got;
	return ERR_NONE;
}

enum err_code
calc_read_quantity_or(const struct calc_in *in, const char *key,
	enum unit_kind kind, enum calc_range range, double *si, struct err *err)
{
	if (!calc_has(in, key))
		return ERR_NONE;
	return calc_read_quantity(in, key, kind, range, si, err);
}

enum err_code
calc_read_fields(const struct calc_in *in, const struct calc_field *field,
	size_t n, struct err *err)
{
	for (size_t i = 0; i < n; i++) {
		if (!field[i].required && !calc_has(in, field[i].key))
			continue;
		TRY(calc_read_quantity(in, field[i].key, field[i].kind,
			field[i].range, field[i].si, err));
	}
	return ERR_NONE;
}

enum err_code
calc_read_number(const struct calc_in *in, const char *key,
	enum calc_range range, double *value, struct err *err)
{
	const json_t *got = json_object_get(in->object, key);
	const char *takes = text_format(
		in->arena, "a number%s", range_words(range));

	if (!json_is_number(got) || !in_range(json_number_value(got), range))
		return refuse_value(
			in, key, got, takes != NULL ? takes : "a number", err);
	*value = json_number_value(got);
	return ERR_NONE;
}

enum err_code
calc_read_number_or(const struct calc_in *in, const char *key,
	enum calc_range range, double *value, struct err *err)
{
	if (!calc_has(in, key))
		return ERR_NONE;
	return calc_read_number(in, key, range, value, err);
}

enum err_code
calc_read_share_or(const struct calc_in *in, const char *key, double *value,
	struct err *err)
{
	double got = *value;

	TRY(calc_read_number_or(in, key, CALC_ANY, &got, err));
	if (!(got > 0 && got < 1))
		return calc_refuse(
			in, key, "a number between 0 and 1, such as 0.95", err);
	*value = got;
	return ERR_NONE;
}

enum err_code
calc_read_count(const struct calc_in *in, const char *key, uint64_t least,
	uint64_t most, uint64_t *value, struct err *err)
{
	const json_t *got = json_object_get(in->object, key);
	double number = json_number_value(got);
	/* a double this large is whole but does not fit */
	const double too_large = ldexp(1, 64);
	const char *takes = text_format(in->arena,
		"a whole number from %llu to %llu", (unsigned long long)least,
		(unsigned long long)most);

	if (!json_is_number(got) || floor(number) < number ||
		number < (double)least || number > (double)most ||
		!(number < too_large))
		return refuse_value(in, key, got,
			takes != NULL ? takes : "a whole number", err);
	*value = json_is_integer(got) ? (uint64_t)json_integer_value(got)
				      : (uint64_t)number;
	return ERR_NONE;
}

enum err_code
calc_read_count_or(const struct calc_in *in, const char *key, uint64_t least,
	uint64_t most, uint64_t *value, struct err *err)
{
	if (!calc_has(in, key))
		return ERR_NONE;
	return calc_read_count(in, key, least, most, value, err);
}

enum err_code
calc_read_bool_or(
	const struct calc_in *in, const char *key, bool *value, struct err *err)
{
	const json_t *got = json_object_get(in->object, key);

	if (got == NULL || json_is_null(got))
		return ERR_NONE;
	if (!json_is_boolean(got))
		return refuse_value(in, key, got, "true or false", err);
	*value = json_is_true(got);
	return ERR_NONE;
}

enum err_code
calc_read_text(const struct calc_in *in, const char *key, const char **value,
	struct err *err)
{
	const json_t *got = json_object_get(in->object, key);

	if (!json_is_string(got) || json_string_length(got) == 0 ||
		strlen(json_string_value(got)) != json_string_length(got))
		return refuse_value(in, key, got, "a text", err);
	*value = json_string_value(got);
	return ERR_NONE;
}

enum err_code
calc_read_name(const struct calc_in *in, const char *key, const char **name,
	struct err *err)
{
	const json_t *got = json_object_get(in->object, key);

	if (!json_is_integer(got))
		return calc_read_text(in, key, name, err);
	*name = text_format(
		in->arena, "%lld", (long long)json_integer_value(got));
	return *name != NULL ? ERR_NONE : err_memory(err);
}

enum err_code
calc_read_text_or(const struct calc_in *in, const char *key, const char **value,
	struct err *err)
{
	if (!calc_has(in, key))
		return ERR_NONE;
	return calc_read_text(in, key, value, err);
}

enum err_code
calc_read_choice(const struct calc_in *in, const char *key,
	const char *const *word, size_t n, size_t *choice, struct err *err)
{
	const json_t *got = json_object_get(in->object, key);
	struct text takes;

	for (size_t i = 0; i < n && json_is_string(got); i++) {
		if (strcmp(word[i], json_string_value(got)) == 0) {
			*choice = i;
			return ERR_NONE;
		}
	}
	text_init(&takes, in->arena);
	text_add(&takes, "one of ");
	for (size_t i = 0; i < n; i++)
		text_addf(&takes, "%s\"%s\"", i > 0 ? ", " : "", word[i]);
	return refuse_value(in, key, got,
		text_failed(&takes) ? "one of its words" : takes.bytes, err);
}

enum err_code
calc_read_choice_or(const struct calc_in *in, const char *key,
	const char *const *word, size_t n, size_t *choice, struct err *err)
{
	if (!calc_has(in, key))
		return ERR_NONE;
	return calc_read_choice(in, key, word, n, choice, err);
}

/* An item's key: "values[3]". */
static const char *
item_key(const struct calc_in *in, const char *key, size_t index)
{
	const char *item = text_format(in->arena, "%s[%zu]", key, index);

	return item != NULL ? item : key;
}

static enum err_code
read_array(const struct calc_in *in, const char *key, size_t least,
	const char *of, const json_t **array, struct err *err)
{
	const json_t *got = json_object_get(in->object, key);
	const char *takes = text_format(
		in->arena, "an array of at least %zu %s", least, of);

	if (!json_is_array(got) || json_array_size(got) < least)
		return refuse_value(in, key, got,
			takes != NULL ? takes : "a longer array", err);
	*array = got;
	return ERR_NONE;
}

enum err_code
calc_read_numbers(const struct calc_in *in, const char *key, size_t least,
	const double **value, size_t *n, struct err *err)
{
	const json_t *array;
	size_t count;
	double *got;

	TRY(read_array(in, key, least, "numbers", &array, err));
	count = json_array_size(array);
	got = arena_take(in->arena, count, sizeof *got);
	if (got == NULL)
		return err_memory(err);
	for (size_t i = 0; i < count; i++) {
		const json_t *item = json_array_get(array, i);

		if (!json_is_number(item) || !isfinite(json_number_value(item)))
			return refuse_value(in, item_key(in, key, i), item,
				"a number", err);
		got[i] = json_number_value(item);
	}
	*value = got;
	*n = count;
	return ERR_NONE;
}

enum err_code
calc_read_objects(const struct calc_in *in, const char *key, size_t least,
	const struct calc_in **object, size_t *n, struct err *err)
{
	const json_t *array;
	struct calc_in *got;
	size_t count;

	TRY(read_array(in, key, least, "objects", &array, err));
	count = json_array_size(array);
	got = arena_take(in->arena, count, sizeof *got);
	if (got == NULL)
		return err_memory(err);
	for (size_t i = 0; i < count; i++) {
		const json_t *item = json_array_get(array, i);
		const char *path = calc_path(in, item_key(in, key, i));

		if (!json_is_object(item))
			return refuse_value(in, item_key(in, key, i), item,
				"an object {...}", err);
		got[i] = (struct calc_in){
			.object = item, .path = path, .arena = in->arena};
	}
	*object = got;
	*n = count;
	return ERR_NONE;
}

enum err_code
calc_read_object(const struct calc_in *in, const char *key,
	struct calc_in *object, struct err *err)
{
	const json_t *got = json_object_get(in->object, key);

	if (!json_is_object(got))
		return refuse_value(in, key, got, "an object {...}", err);
	assert(key != NULL);
	*object = (struct calc_in){
		.object = got, .path = calc_path(in, key), .arena = in->arena};
	return ERR_NONE;
}

enum err_code
calc_read_censored(const struct calc_in *in, const char *key, double *low,
	double *high, struct err *err)
{
	static const char takes[] =
		"a number, or [low, high] with low <= high and null for an "
		"open end";
	const json_t *got = json_object_get(in->object, key);
	const json_t *end[2];
	double value[2] = {-INFINITY, INFINITY};

	if (json_is_number(got) && isfinite(json_number_value(got))) {
		*low = *high = json_number_value(got);
		return ERR_NONE;
	}
	if (!json_is_array(got) || json_array_size(got) != 2)
		return refuse_value(in, key, got, takes, err);
	for (size_t i = 0; i < 2; i++) {
		end[i] = json_array_get(got, i);
		if (json_is_number(end[i]))
			value[i] = json_number_value(end[i]);
		else if (!json_is_null(end[i]))
			return refuse_value(in, key, got, takes, err);
	}
	if (isnan(value[0]) || isnan(value[1]) || value[0] > value[1] ||
		(json_is_null(end[0]) && json_is_null(end[1])))
		return refuse_value(in, key, got, takes, err);
	*low = value[0];
	*high = value[1];
	return ERR_NONE;
}

/* Joins the arrays of the object at `key`, whose sizes are known. */
static enum err_code
join_groups(const struct calc_in *in, size_t least_values,
	struct calc_groups *groups, struct err *err)
{
	const char **name = arena_take(
		in->arena, groups->n_group, sizeof *name);
	size_t *size = arena_take(in->arena, groups->n_group, sizeof *size);
	double *value = arena_take(in->arena, groups->n_value, sizeof *value);
	size_t *group = arena_take(in->arena, groups->n_value, sizeof *group);
	size_t g = 0, at = 0;

	if (name == NULL || size == NULL || value == NULL || group == NULL)
		return err_memory(err);
	for (void *it = json_object_iter((json_t *)(uintptr_t)in->object);
		it != NULL; it = json_object_iter_next(
				    (json_t *)(uintptr_t)in->object, it)) {
		const double *item = NULL;

		name[g] = json_object_iter_key(it);
		TRY(calc_read_numbers(
			in, name[g], least_values, &item, &size[g], err));
		for (size_t i = 0; i < size[g]; i++) {
			value[at] = item[i];
			group[at++] = g;
		}
		g++;
	}
	groups->name = name;
	groups->size = size;
	groups->value = value;
	groups->group = group;
	return ERR_NONE;
}

enum err_code
calc_read_groups(const struct calc_in *in, const char *key, size_t least_groups,
	size_t least_values, struct calc_groups *groups, struct err *err)
{
	const char *takes = text_format(in->arena,
		"an object of at least %zu named arrays of numbers, such as "
		"{\"A\": [1.2, 1.3], \"B\": [1.5, 1.4]}",
		least_groups);
	struct calc_groups got = {0};
	struct calc_in object;

	if (!json_is_object(json_object_get(in->object, key)))
		return calc_refuse(
			in, key, takes != NULL ? takes : "named arrays", err);
	TRY(calc_read_object(in, key, &object, err));
	got.n_group = json_object_size(object.object);
	if (got.n_group < least_groups)
		return calc_refuse(
			in, key, takes != NULL ? takes : "more groups", err);
	for (void *it = json_object_iter((json_t *)(uintptr_t)object.object);
		it != NULL; it = json_object_iter_next(
				    (json_t *)(uintptr_t)object.object, it))
		got.n_value += json_array_size(json_object_iter_value(it));
	TRY(join_groups(&object, least_values, &got, err));
	*groups = got;
	return ERR_NONE;
}

enum err_code
calc_read_group_name(const struct calc_in *in, const char *key,
	const struct calc_groups *groups, size_t *index, struct err *err)
{
	*index = 0;
	if (!calc_has(in, key))
		return ERR_NONE;
	return calc_read_choice(
		in, key, groups->name, groups->n_group, index, err);
}

static const char *
nearest_of(const char *found, const char *const *key, size_t n_key)
{
	const char *nearest = key[0];

	for (size_t i = 1; i < n_key; i++)
		if (text_distance(found, key[i]) <
			text_distance(found, nearest))
			nearest = key[i];
	return nearest;
}

enum err_code
calc_only(const struct calc_in *in, const char *const *key, size_t n_key,
	struct err *err)
{
	json_t *object = (json_t *)(uintptr_t)in->object;

	for (void *it = json_object_iter(object); it != NULL;
		it = json_object_iter_next(object, it)) {
		const char *found = json_object_iter_key(it);
		bool known = false;

		for (size_t i = 0; i < n_key && !known; i++)
			known = strcmp(found, key[i]) == 0;
		if (!known)
			return err_report(err, ERR_INPUT, calc_path(in, found),
				"is not a key that is known here; the nearest "
				"is \"%s\".",
				nearest_of(found, key, n_key));
	}
	return ERR_NONE;
}

void
calc_source(struct calc_out *out, const char *source)
{
	out->source = source;
}

void
calc_note(struct calc_out *out, const char *note)
{
	if (note != NULL && out->n_note < CALC_NOTE_MAX)
		out->note[out->n_note++] = note;
}
