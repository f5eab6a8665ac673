/* test_calc_mutations.c - every value of the examples of the trade's
 * calculations put wrong, one at a time and at any depth: the calculation
 * answers in finite numbers or refuses with a key and a sentence. */
#include "support.h"

#include "work/calc.h"

#include <jansson.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

static const char *const names[] = {"proportion", "yield", "flexure", "drop",
	"crush", "density", "maturity", "strength-age", "conductivity",
	"u-value", "section", "wall", "form-pressure", "modulus", "toughness",
	"lever", "jack", "blows", "rise", "shrinkage", "drying", "frost",
	"screw", "hot-box", "handling", "dome", "vault", "slab", "lintel",
	"condensation", "thickness-for-u", "rig-bending", "rig-drop"};

static const char *const wrong[] = {"0", "-1", "-1e-300", "1e-300", "1e308",
	"-1e308", "1e17", "\"\"", "\"nonsense\"", "\"-3 furlong\"",
	"\"1e400 m\"", "\"450 mm\"", "\"3 kg\"", "\"-300 degC\"", "true",
	"null", "[]", "[1]", "{}", "{\"x\": 1}"};

struct tally {
	struct arena *arena;
	const struct calc_entry *entry;
	json_t *question;
	size_t answered, refused;
};

static void
ask(struct tally *t, const char *what)
{
	struct arena_mark mark = arena_mark(t->arena);
	char *question = json_dumps(t->question, JSON_REAL_PRECISION(17));
	const char *answer = NULL;
	struct err err = {.code = ERR_NONE};
	enum err_code code;

	err_clear(&err);
	assert_non_null(question);
	code = work_calc(
		t->entry, t->arena, question, strlen(question), &answer, &err);
	if (code == ERR_NONE) {
		json_error_t fault;
		json_t *back = json_loads(answer, 0, &fault);

		if (back == NULL)
			print_error("%s with %s: %s\n",
				work_calc_name(t->entry), what, question);
		assert_non_null(back);
		if (strstr(answer, "\"value\": null") != NULL)
			print_error("%s with %s: %s\n%s\n",
				work_calc_name(t->entry), what, question,
				answer);
		assert_null(strstr(answer, "\"value\": null"));
		json_decref(back);
		t->answered++;
	} else {
		bool said = (code == ERR_INPUT || code == ERR_NUMERIC ||
				    code == ERR_ANSWER_NO) &&
			err.field[0] != '\0' && strlen(err.text) > 15 &&
			strstr(err.text, "nan") == NULL;

		if (!said)
			print_error("%s with %s: code %d, \"%s\": %s\n",
				work_calc_name(t->entry), what, (int)code,
				err.field, err.text);
		assert_true(said);
		t->refused++;
	}
	free(question);
	arena_back(t->arena, mark);
}

static void mutate_value(struct tally *t, json_t *value);

static void
mutate_object(struct tally *t, json_t *object)
{
	json_t *copy = json_copy(object); /* to walk while it is changed */
	const char *key;
	json_t *value;

	json_object_foreach(copy, key, value)
	{
		for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
			json_t *bad = json_loads(
				wrong[i], JSON_DECODE_ANY, NULL);

			assert_non_null(bad);
			json_object_set_new(object, key, bad);
			ask(t, wrong[i]);
		}
		json_object_del(object, key);
		ask(t, "nothing");
		json_object_set(object, key, value);
		mutate_value(t, value);
	}
	json_decref(copy);
}

static void
mutate_array(struct tally *t, json_t *array)
{
	for (size_t k = 0; k < json_array_size(array); k++) {
		json_t *value = json_incref(json_array_get(array, k));

		for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
			json_array_set_new(array, k,
				json_loads(wrong[i], JSON_DECODE_ANY, NULL));
			ask(t, wrong[i]);
		}
		json_array_remove(array, k);
		ask(t, "one fewer");
		json_array_insert(array, k, value);
		json_decref(value);
		mutate_value(t, value);
	}
}

static void
mutate_value(struct tally *t, json_t *value)
{
	if (json_is_object(value))
		mutate_object(t, value);
	else if (json_is_array(value))
		mutate_array(t, value);
}

static void
calc__a_wrong_value_anywhere_is_answered_or_refused(void **state)
{
	struct fixture *f = *state;

	for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
		struct tally t = {
			.arena = f->a, .entry = work_calc_find(names[i])};

		assert_non_null(t.entry);
		t.question = json_loads(work_calc_example(t.entry), 0, NULL);
		assert_non_null(t.question);
		mutate_object(&t, t.question);
		json_decref(t.question);
		/* most wrong values cannot be taken, whatever the key */
		assert_true(t.refused > t.answered);
	}
}

static const struct CMUnitTest tests[] = {
	TEST(calc__a_wrong_value_anywhere_is_answered_or_refused),
};

TEST_MAIN(tests)
