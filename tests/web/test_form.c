/* test_form.c - web/form: fields read and shown again as typed. */
#include "support.h"

#include "web/form.h"

#include <math.h>
#include <string.h>

struct ask {
	struct maybe mass, length;
	const char *note, *on;
};

static const struct field field[] = {
	{"--mass", FIELD_MAYBE, UNIT_MASS, offsetof(struct ask, mass)},
	{"--length", FIELD_MAYBE, UNIT_LENGTH, offsetof(struct ask, length)},
	{"--note", FIELD_TEXT, UNIT_NUMBER, offsetof(struct ask, note)},
	{"--on", FIELD_DATE, UNIT_NUMBER, offsetof(struct ask, on)}};

enum { N_FIELD = sizeof field / sizeof *field };

/* A form as a page makes it, of a request that brings these values. */
static void
begin(struct form *form, struct web_request *request)
{
	form_start(form, request, "weigh", "/weigh", "Record it");
	form_number(form, "mass", "Mass", "kg lb", "such as 12.5");
	form_number(form, "length", "Length", "mm in", NULL);
	form_text(form, "note", "Note", NULL);
	form_date(form, "on", "On", NULL);
}

static struct web_request
posted(struct fixture *f, const struct web_field *given, size_t n)
{
	return (struct web_request){.method = WEB_POST,
		.path = "/weigh",
		.tail = "",
		.field = given,
		.n_field = n,
		.language = "en",
		.may_record = true,
		.arena = f->a};
}

#define GIVEN(name, value)                           \
	{                                            \
		name, value, sizeof(value) - 1, NULL \
	}

static void
form_read__takes_the_unit_beside_unless_one_was_typed(void **state)
{
	static const struct web_field given[] = {GIVEN("mass", "70"),
		GIVEN("mass_unit", "lb"), GIVEN("length", "9 1/2 in"),
		GIVEN("length_unit", "mm"), GIVEN("note", "wet"),
		GIVEN("on", "2026-05-01")};
	struct web_request request = posted(*state, given, 6);
	struct ask ask = {.note = NULL};
	struct form form;

	begin(&form, &request);
	assert_true(form_read(&request, field, N_FIELD, &ask, &form));
	/* 1 lb = 0.45359237 kg, 1 in = 25.4 mm: both exact by definition */
	assert_near(ask.mass.value, 70 * 0.45359237, 1e-15, 0);
	assert_near(ask.length.value, 9.5 * 0.0254, 1e-15, 0);
	assert_string_equal("wet", ask.note);
	assert_false(form_has_fault(&form));
	assert_string_equal("lb", form.field[0]->chosen_unit);
}

static void
form_read__reports_all_faults_and_keeps_what_was_typed(void **state)
{
	static const struct web_field given[] = {GIVEN("mass", "12 parsecs"),
		GIVEN("length", "1e999"), GIVEN("note", "kept"),
		GIVEN("on", "yesterday-ish")};
	struct web_request request = posted(*state, given, 4);
	struct ask ask = {.note = NULL};
	struct form form;

	begin(&form, &request);
	assert_false(form_read(&request, field, N_FIELD, &ask, &form));
	assert_non_null(form.field[0]->error);
	assert_non_null(form.field[1]->error);
	assert_null(form.field[2]->error);
	assert_non_null(form.field[3]->error);
	assert_string_equal("12 parsecs", form.field[0]->value);
	assert_string_equal("1e999", form.field[1]->value);
	assert_string_equal("kept", form.field[2]->value);
	/* the sentence does not begin with the option of the command line */
	assert_lacks(form.field[0]->error, "--mass");
	assert_true(form_has_fault(&form));
}

static void
form__of_another_form_takes_nothing(void **state)
{
	static const struct web_field given[] = {
		GIVEN("form", "drop"), GIVEN("mass", "70")};
	struct web_request request = posted(*state, given, 2);
	struct form form;

	begin(&form, &request);
	form_value(&form, "2026-01-01");
	assert_null(form.field[0]->value);
	assert_string_equal("2026-01-01", form.field[3]->value);
}

static void
form_value__gives_way_to_what_was_typed_or_cleared(void **state)
{
	static const struct web_field given[] = {GIVEN("mass", "70")};
	struct web_request request = posted(*state, given, 1);
	struct form form;

	begin(&form, &request);
	form_value(&form, "2026-01-01"); /* the date was sent empty */
	assert_null(form.field[3]->value);
	form_number(&form, "mass", "Again", "kg", NULL);
	form_value(&form, "5");
	assert_string_equal("70", form.field[4]->value);
}

static void
form_fault__stands_beside_the_field_or_above_all(void **state)
{
	struct web_request request = posted(*state, NULL, 0);
	struct err err = {.code = ERR_NONE};
	struct form form;

	begin(&form, &request);
	(void)err_report(&err, ERR_INPUT, "--mass", "--mass is too small.");
	form_fault(&form, &err);
	assert_string_equal("is too small.", form.field[0]->error);
	err = (struct err){.code = ERR_NONE};
	(void)err_report(&err, ERR_CONFLICT, "", "It was cast before.");
	form_fault(&form, &err);
	assert_string_equal("It was cast before.", form.error);
	form_fault_at(&form, "length", "Longer than the form.");
	assert_string_equal("Longer than the form.", form.field[1]->error);
}

static void
form__too_many_fields_or_choices_fail_the_page(void **state)
{
	struct web_request request = posted(*state, NULL, 0);
	struct form form;

	begin(&form, &request);
	for (int i = 0; i < FORM_FIELDS_MOST; i++)
		form_text(&form, "x", "x", NULL);
	assert_true(form.failed);
	assert_int_equal(FORM_FIELDS_MOST, form.n_field);
	begin(&form, &request);
	form_choice(&form, "c", "c", NULL);
	for (int i = 0; i <= FORM_CHOICES_MOST; i++)
		form_choose(&form, "v", "v");
	assert_true(form.failed);
}

static void
form_as_typed__leaves_out_what_the_face_added(void **state)
{
	static const struct web_field given[] = {GIVEN("token", "aa"),
		GIVEN("key", "bb"), GIVEN("form", "weigh"),
		GIVEN("mass", "70 \"lb\""), GIVEN("note", "")};
	struct web_request request = posted(*state, given, 5);

	assert_string_equal(
		"{\"mass\": \"70 \\\"lb\\\"\"}", form_as_typed(&request));
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		TEST(form_read__takes_the_unit_beside_unless_one_was_typed),
		TEST(form_read__reports_all_faults_and_keeps_what_was_typed),
		TEST(form__of_another_form_takes_nothing),
		TEST(form_value__gives_way_to_what_was_typed_or_cleared),
		TEST(form_fault__stands_beside_the_field_or_above_all),
		TEST(form__too_many_fields_or_choices_fail_the_page),
		TEST(form_as_typed__leaves_out_what_the_face_added),
	};

	support_start();
	return cmocka_run_group_tests(tests, NULL, NULL);
}
