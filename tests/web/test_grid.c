/* test_grid.c - web/grid: a table as CSV and as JSON. */
#include "support.h"

#include "core/jsonout.h"
#include "web/grid.h"

#include <jansson.h>
#include <math.h>
#include <string.h>

static const struct grid_column column[] = {
	{"mix", "mix", "", false}, {"wet", "wet weight", "kg/m3", true}};

static const char *
csv_of(struct fixture *f, const struct grid *grid)
{
	static struct text text;

	text_init(&text, f->a);
	grid_csv(grid, &text);
	assert_false(text_failed(&text));
	return text.bytes;
}

static void
grid_csv__follows_rfc_4180(void **state)
{
	struct fixture *f = *state;
	struct grid grid;

	grid_start(&grid, f->a, "mixes", "Mixes", column, 2);
	grid_text(&grid, "plain");
	grid_number(&grid, 722.385, "722");
	grid_text(&grid, "a \"quoted\", \r\nlong one");
	grid_number(&grid, NAN, "never shown");
	grid_text(&grid, NULL);
	grid_number(&grid, -0.1, "-0.1");
	assert_int_equal(3, grid_rows(&grid));
	assert_string_equal("mix,wet weight (kg/m3)\r\n"
			    "plain,722.38499999999999\r\n"
			    "\"a \"\"quoted\"\", \r\nlong one\",\r\n"
			    ",-0.10000000000000001\r\n",
		csv_of(f, &grid));
}

static void
grid_csv__guards_what_a_spreadsheet_would_compute(void **state)
{
	/* OWASP, "CSV Injection": the six characters that begin a formula */
	static const char *const formula[] = {
		"=1+2", "+1", "-1+2", "@SUM(A1)", "\t=1", "\r=1"};
	struct fixture *f = *state;

	for (size_t i = 0; i < sizeof formula / sizeof *formula; i++) {
		struct grid grid;
		char want[80];

		grid_start(&grid, f->a, "mixes", "Mixes", column, 1);
		grid_text(&grid, formula[i]);
		(void)snprintf(
			want, sizeof want, "mix\r\n\"'%s\"\r\n", formula[i]);
		assert_string_equal(want, csv_of(f, &grid));
	}
}

static void
grid_json__gives_every_digit(void **state)
{
	struct fixture *f = *state;
	const double number = 0.1 + 0.2;
	struct jsonout json;
	struct text text;
	struct grid grid;
	json_t *read;

	grid_start(&grid, f->a, "mixes", "Mixes", column, 2);
	grid_link(&grid, "<b>\"\\", "/mix/b");
	grid_number(&grid, number, "0.3");
	grid_text(&grid, NULL);
	grid_number(&grid, INFINITY, "inf");
	text_init(&text, f->a);
	jsonout_init(&json, &text);
	grid_json(&grid, &json);
	assert_false(jsonout_failed(&json));
	read = json_loads(text.bytes, 0, NULL);
	assert_non_null(read);
	assert_int_equal(2, json_array_size(read));
	assert_string_equal("<b>\"\\",
		json_string_value(
			json_object_get(json_array_get(read, 0), "mix")));
	assert_true(json_real_value(json_object_get(
			    json_array_get(read, 0), "wet")) == number);
	assert_true(
		json_is_null(json_object_get(json_array_get(read, 1), "mix")));
	assert_true(
		json_is_null(json_object_get(json_array_get(read, 1), "wet")));
	json_decref(read);
}

static void
grid__remembers_that_memory_ran_out(void **state)
{
	struct arena *small = arena_new(2000);
	struct grid grid;

	(void)state;
	grid_start(&grid, small, "mixes", "Mixes", column, 2);
	for (int i = 0; i < 1000; i++)
		grid_text(&grid, "x");
	assert_true(grid.failed);
	arena_free(small);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		TEST(grid_csv__follows_rfc_4180),
		TEST(grid_csv__guards_what_a_spreadsheet_would_compute),
		TEST(grid_json__gives_every_digit),
		TEST(grid__remembers_that_memory_ran_out),
	};

	support_start();
	return cmocka_run_group_tests(tests, NULL, NULL);
}
