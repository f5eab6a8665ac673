/* test_jsonout.c - JSON out, read back by another library. */
#include "support.h"

#include "core/jsonout.h"
#include "core/rng.h"

#include <gsl/gsl_rng.h>
#include <jansson.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static json_t *
read_back(const struct text *text)
{
	json_error_t fault;
	json_t *root = json_loads(
		text->bytes, JSON_REJECT_DUPLICATES | JSON_DECODE_ANY, &fault);

	if (root == NULL)
		fail_msg("%s: %s", fault.text, text->bytes);
	return root;
}

static void
jsonout__writes_every_kind_of_value(void **state)
{
	struct fixture *f = *state;
	struct text text;
	struct jsonout json;

	text_init(&text, f->a);
	jsonout_init(&json, &text);
	jsonout_open_object(&json);
	jsonout_key_number(&json, "n", 0.1);
	jsonout_key_count(&json, "c", UINT64_MAX);
	jsonout_key(&json, "i");
	jsonout_integer(&json, INT64_MIN);
	jsonout_key_bool(&json, "b", false);
	jsonout_key(&json, "z");
	jsonout_null(&json);
	jsonout_key_string(&json, "s", "a \"b\"");
	jsonout_key_quantity(&json, "q", 2.5, "Pa");
	jsonout_key_interval(&json, "o", 1, INFINITY, NULL);
	jsonout_key(&json, "a");
	jsonout_open_array(&json);
	jsonout_open_array(&json);
	jsonout_close_array(&json);
	jsonout_open_object(&json);
	jsonout_close_object(&json);
	jsonout_close_array(&json);
	jsonout_close_object(&json);
	assert_false(jsonout_failed(&json));
	assert_string_equal("{\"n\": 0.10000000000000001, "
			    "\"c\": 18446744073709551615, "
			    "\"i\": -9223372036854775808, "
			    "\"b\": false, \"z\": null, "
			    "\"s\": \"a \\\"b\\\"\", "
			    "\"q\": {\"value\": 2.5, \"unit\": \"Pa\"}, "
			    "\"o\": {\"low\": 1, \"high\": null}, "
			    "\"a\": [[], {}]}",
		text.bytes);
}

static double
number_back(struct arena *a, double value)
{
	struct text text;
	struct jsonout json;
	json_t *root;
	double got;

	text_init(&text, a);
	jsonout_init(&json, &text);
	jsonout_number(&json, value);
	assert_false(jsonout_failed(&json));
	root = read_back(&text);
	assert_true(json_is_number(root));
	got = json_number_value(root);
	json_decref(root);
	return got;
}

/* Bits drawn at random: every double but NaN and the infinities comes back the
 * same, subnormals and both zeros too. */
static void
jsonout__numbers_come_back_the_same(void **state)
{
	struct fixture *f = *state;
	const double edge[] = {0, -0.0, 5e-324, -2.2250738585072014e-308,
		1.7976931348623157e308, 9007199254740991, 1e21, 1e-7};
	gsl_rng *rng = rng_new(431, 0);

	for (size_t i = 0; i < sizeof edge / sizeof edge[0]; i++)
		assert_true(number_back(f->a, edge[i]) == edge[i]);
	for (int i = 0; i < 50000; i++) {
		uint64_t bits = (uint64_t)gsl_rng_uniform_int(rng, 1u << 31)
				<< 33 ^
			(uint64_t)gsl_rng_uniform_int(rng, 1u << 31) << 13 ^
			gsl_rng_uniform_int(rng, 1u << 31);
		double value;

		memcpy(&value, &bits, sizeof value);
		if (!isfinite(value))
			continue;
		assert_true(number_back(f->a, value) == value);
	}
	gsl_rng_free(rng);
}

static void
jsonout__never_writes_what_is_no_number(void **state)
{
	struct fixture *f = *state;
	struct text text;
	struct jsonout json;

	text_init(&text, f->a);
	jsonout_init(&json, &text);
	jsonout_open_array(&json);
	jsonout_number(&json, INFINITY);
	jsonout_number(&json, -INFINITY);
	assert_false(jsonout_failed(&json));
	jsonout_number(&json, NAN);
	jsonout_close_array(&json);
	assert_true(jsonout_failed(&json));
	assert_string_equal("[null, null, null]", text.bytes);
}

/* What comes back of a string: itself, with U+FFFD for bytes that are no
 * UTF-8. */
static void
jsonout__strings_come_back(void **state)
{
	struct fixture *f = *state;
	const struct {
		const char *in, *back;
	} rows[] = {{"", ""}, {"plain", "plain"},
		{"\"\\/\b\f\n\r\t\x01\x1F\x7F", "\"\\/\b\f\n\r\t\x01\x1F\x7F"},
		{"9\u00BD in \u2013 \u6D4B \U0001F9F1",
			"9\u00BD in \u2013 \u6D4B \U0001F9F1"},
		{"</script><!--", "</script><!--"}, {"\x80", "\uFFFD"},
		{"a\xFFz", "a\uFFFDz"}, {"cut \xE2\x80", "cut \uFFFD"},
		{"\xC0\xAF", "\uFFFD"}, {"\xED\xA0\x80!", "\uFFFD!"}};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct text text;
		struct jsonout json;
		json_t *root;

		text_init(&text, f->a);
		jsonout_init(&json, &text);
		jsonout_open_object(&json);
		jsonout_key_string(&json, rows[i].in, rows[i].in);
		jsonout_close_object(&json);
		assert_false(jsonout_failed(&json));
		root = read_back(&text);
		assert_string_equal(rows[i].back,
			json_string_value(json_object_get(root, rows[i].back)));
		json_decref(root);
	}
}

/* Any bytes make a document that is read. */
static void
jsonout__any_bytes_make_a_document(void **state)
{
	struct fixture *f = *state;
	gsl_rng *rng = rng_new(432, 0);

	for (int i = 0; i < 20000; i++) {
		struct arena_mark mark = arena_mark(f->a);
		char bytes[40];
		size_t n = gsl_rng_uniform_int(rng, sizeof bytes);
		struct text text;
		struct jsonout json;

		for (size_t k = 0; k < n; k++)
			bytes[k] = (char)(1 + gsl_rng_uniform_int(rng, 255));
		bytes[n] = '\0';
		text_init(&text, f->a);
		jsonout_init(&json, &text);
		jsonout_string(&json, bytes);
		assert_false(jsonout_failed(&json));
		json_decref(read_back(&text));
		arena_back(f->a, mark);
	}
	gsl_rng_free(rng);
}

/* ---- random documents, written and walked by the same draws ---- */

enum { DEEPEST = 6, WIDEST = 5 };

static const char *
key_of(char *room, size_t size, size_t i)
{
	(void)snprintf(room, size, "k%zu", i);
	return room;
}

static void
write_random(struct jsonout *json, gsl_rng *rng, int depth)
{
	unsigned long kind = gsl_rng_uniform_int(rng, depth < DEEPEST ? 6 : 4);
	size_t n = gsl_rng_uniform_int(rng, WIDEST);
	char key[24];

	switch (kind) {
	case 0:
		jsonout_number(json, gsl_rng_uniform(rng) - 0.5);
		return;
	case 1:
		jsonout_bool(json, n > 2);
		return;
	case 2:
		jsonout_string(json, key_of(key, sizeof key, n));
		return;
	case 3:
		jsonout_integer(json, (int64_t)n - 2);
		return;
	case 4:
		jsonout_open_array(json);
		for (size_t i = 0; i < n; i++)
			write_random(json, rng, depth + 1);
		jsonout_close_array(json);
		return;
	default:
		jsonout_open_object(json);
		for (size_t i = 0; i < n; i++) {
			jsonout_key(json, key_of(key, sizeof key, i));
			write_random(json, rng, depth + 1);
		}
		jsonout_close_object(json);
		return;
	}
}

static void
walk_random(const json_t *met, gsl_rng *rng, int depth)
{
	unsigned long kind = gsl_rng_uniform_int(rng, depth < DEEPEST ? 6 : 4);
	size_t n = gsl_rng_uniform_int(rng, WIDEST);
	char key[24];

	switch (kind) {
	case 0:
		assert_true(
			json_number_value(met) == gsl_rng_uniform(rng) - 0.5);
		return;
	case 1:
		assert_true(json_is_boolean(met));
		assert_int_equal(n > 2, json_is_true(met));
		return;
	case 2:
		assert_string_equal(
			key_of(key, sizeof key, n), json_string_value(met));
		return;
	case 3:
		assert_int_equal((int64_t)n - 2, json_integer_value(met));
		return;
	case 4:
		assert_int_equal(n, json_array_size(met));
		for (size_t i = 0; i < n; i++)
			walk_random(json_array_get(met, i), rng, depth + 1);
		return;
	default:
		assert_int_equal(n, json_object_size(met));
		for (size_t i = 0; i < n; i++)
			walk_random(json_object_get(
					    met, key_of(key, sizeof key, i)),
				rng, depth + 1);
		return;
	}
}

static void
jsonout__random_documents_come_back(void **state)
{
	struct fixture *f = *state;

	for (uint64_t seed = 0; seed < 3000; seed++) {
		struct arena_mark mark = arena_mark(f->a);
		gsl_rng *writer = rng_new(433, seed);
		gsl_rng *reader = rng_new(433, seed);
		struct text text;
		struct jsonout json;
		json_t *root;

		text_init(&text, f->a);
		jsonout_init(&json, &text);
		write_random(&json, writer, 0);
		assert_false(jsonout_failed(&json));
		root = read_back(&text);
		walk_random(root, reader, 0);
		json_decref(root);
		gsl_rng_free(writer);
		gsl_rng_free(reader);
		arena_back(f->a, mark);
	}
}

static void
jsonout__says_when_it_nests_too_deep(void **state)
{
	struct fixture *f = *state;

	for (int depth = 1; depth < 3 * JSONOUT_DEPTH_MAX; depth++) {
		struct text text;
		struct jsonout json;

		text_init(&text, f->a);
		jsonout_init(&json, &text);
		for (int i = 0; i < depth; i++)
			jsonout_open_array(&json);
		for (int i = 0; i < depth; i++)
			jsonout_close_array(&json);
		assert_int_equal(
			depth >= JSONOUT_DEPTH_MAX, jsonout_failed(&json));
		if (depth < JSONOUT_DEPTH_MAX)
			json_decref(read_back(&text));
	}
}

static void
jsonout__says_when_memory_is_out(void **state)
{
	(void)state;
	struct arena *small = arena_new(256);
	struct text text;
	struct jsonout json;

	assert_non_null(small);
	text_init(&text, small);
	jsonout_init(&json, &text);
	jsonout_open_array(&json);
	for (int i = 0; i < 1000; i++)
		jsonout_number(&json, i + 0.1);
	jsonout_close_array(&json);
	assert_true(jsonout_failed(&json));
	arena_free(small);
}

static const struct CMUnitTest tests[] = {
	TEST(jsonout__writes_every_kind_of_value),
	TEST(jsonout__numbers_come_back_the_same),
	TEST(jsonout__never_writes_what_is_no_number),
	TEST(jsonout__strings_come_back),
	TEST(jsonout__any_bytes_make_a_document),
	TEST(jsonout__random_documents_come_back),
	TEST(jsonout__says_when_it_nests_too_deep),
	TEST(jsonout__says_when_memory_is_out),
};

TEST_MAIN(tests)
