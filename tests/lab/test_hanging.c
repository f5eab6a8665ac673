/* test_hanging.c - the steps of a bending test.  Numbers: made up; the rule that
 * a break lies between the last load held and the next, derived. */
#include "support.h"

#include "lab/hanging.h"

#include <stdlib.h>
#include <string.h>

static const struct mass hanger = {1.17};
static const double exact = 1e-12; /* sums of a few kilograms in doubles */

/* "a5 a2.5 c u f": added 5 kg, ..., sag in mm as s3 */
static size_t
read_steps(const char *text, struct lab_hung_step *step)
{
	size_t n = 0;

	for (; *text != '\0'; text++) {
		char *end;
		double value;
		const char *which = strchr("ascfhu", *text);

		if (*text == ' ')
			continue;
		assert_non_null(which);
		step[n] = (struct lab_hung_step){
			.what = (enum lab_hung_what)(which - "ascfhu"),
			.at_s = 100 + 30 * (int64_t)n};
		value = strtod(text + 1, &end);
		if (*text == 'a')
			step[n].mass.kg = value;
		if (*text == 's')
			step[n].sag.m = value / 1000;
		if (*text == 'a' || *text == 's')
			text = end - 1;
		n++;
	}
	return n;
}

static struct lab_hung
hang(struct fixture *f, const char *text)
{
	struct lab_hung_step step[32];
	struct lab_hung got;
	size_t n = read_steps(text, step);

	assert_ok(lab_hanging(hanger, step, n, &got, &f->err), &f->err);
	return got;
}

static void
hanging__a_fall_lies_between_two_loads(void **state)
{
	struct lab_hung got = hang(*state, "a5 a2.3 a1.1 f");

	assert_true(got.ended);
	assert_true(got.has_broke);
	assert_false(got.cracked);
	assert_near(got.held_kg, 1.17 + 7.3, exact, 0);
	assert_near(got.broke_kg, 1.17 + 8.4, exact, 0);
	assert_true(got.has_hold);
	assert_near(got.hold_s, 30, exact, 0);
}

static void
hanging__under_the_hanger_alone_and_more_than_the_weights(void **state)
{
	struct lab_hung under = hang(*state, "f");
	struct lab_hung first = hang(*state, "a5 f");
	struct lab_hung above = hang(*state, "a5 a5 h");

	assert_near(under.held_kg, 0, exact, 0);
	assert_near(under.broke_kg, 1.17, exact, 0);
	assert_near(first.held_kg, 1.17, exact, 0);
	assert_near(first.broke_kg, 6.17, exact, 0);
	assert_near(above.held_kg, 11.17, exact, 0);
	assert_false(above.has_broke);
}

static void
hanging__first_crack_and_collapse_apart(void **state)
{
	struct lab_hung got = hang(*state, "a5 a2 s0.5 c a2 s4 a1 s11 f");
	struct lab_hung at_once = hang(*state, "a5 a2 c f");
	struct lab_hung holds = hang(*state, "a5 c a2 h");

	assert_near(got.held_kg, 6.17, exact, 0);
	assert_near(got.broke_kg, 8.17, exact, 0);
	assert_near(got.after_held_kg, 10.17, exact, 0);
	assert_true(got.has_after_broke);
	assert_near(got.after_broke_kg, 11.17, exact, 0);
	assert_int_equal(got.n_sag, 3);
	assert_near(got.sag[1].sag_m, 0.004, exact, 0);
	assert_near(got.sag[1].load_kg, 10.17, exact, 0);
	assert_near(at_once.after_held_kg, 0, exact, 0);
	assert_near(at_once.after_broke_kg, 8.17, exact, 0);
	assert_near(holds.after_held_kg, 8.17, exact, 0);
	assert_false(holds.has_after_broke);
}

static void
hanging__an_undone_step_never_was(void **state)
{
	struct lab_hung got = hang(*state, "a5 a9 u a2 c u f u u a1 f");

	assert_near(got.held_kg, 6.17, exact, 0);
	assert_near(got.broke_kg, 7.17, exact, 0);
	assert_int_equal(got.n_weight, 2);
	assert_false(got.cracked);
}

static void
hanging__what_cannot_be_is_refused(void **state)
{
	static const struct {
		const char *steps, *says;
	} row[] = {{"u", "nothing to take back"},
		{"a5 u u", "nothing to take back"}, {"a5 f a2", "has ended"},
		{"a5 h c", "has ended"}, {"a5 c c", "noted already"},
		{"a0", "more than nothing"}, {"a-3", "more than nothing"},
		{"s-1", "0 or more"}};
	struct fixture *f = *state;
	struct lab_hung_step step[32];
	struct lab_hung got;

	for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
		size_t n = read_steps(row[i].steps, step);

		assert_int_equal(
			lab_hanging(hanger, step, n, &got, &f->err), ERR_INPUT);
		assert_has(f->err.text, row[i].says);
		f->err = (struct err){.code = ERR_NONE};
	}
	step[0] = (struct lab_hung_step){.what = LAB_HUNG_FELL};
	assert_int_equal(lab_hanging((struct mass){0}, step, 1, &got, &f->err),
		ERR_INPUT);
	assert_has(f->err.text, "hanger");
}

static const struct CMUnitTest tests[] = {
	TEST(hanging__a_fall_lies_between_two_loads),
	TEST(hanging__under_the_hanger_alone_and_more_than_the_weights),
	TEST(hanging__first_crack_and_collapse_apart),
	TEST(hanging__an_undone_step_never_was),
	TEST(hanging__what_cannot_be_is_refused),
};

TEST_MAIN(tests)
