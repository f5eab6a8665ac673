/* test_replan.c - the pour plan made again with what has been poured. */
#include "work/plan.h"

#include "place.h"
#include "support.h"

#include "book/book.h"
#include "work/import.h"
#include "work/pour.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* The guest house walls of mix F in lifts of two stretches. */
static void
plan_from(struct fixture *f, struct place *p, const char *from,
	struct work_plan *out)
{
	static const char *const part[] = {"wall-g"};
	static const struct work_pair mix[] = {{"wall-g", "F"}};
	static const char *const off[] = {"sat", "sun"};
	const struct work_plan_ask ask = {.takeoff = {.part = part,
						  .n_part = 1,
						  .mix = mix,
						  .n_mix = 1,
						  .batch_m3 = {true, 0.12}},
		.from = from,
		.stretch_m = {true, 9.2},
		.off = off,
		.n_off = 2,
		.seconds = {true, 10}};

	assert_ok(work_plan(&p->desk, f->a, &ask, out, &f->err), &f->err);
}

static const struct work_plan_lift *
lift_named(const struct work_plan *plan, const char *name)
{
	for (size_t i = 0; i < plan->n_lift; i++)
		if (strcmp(plan->lift[i].name, name) == 0)
			return &plan->lift[i];
	return NULL;
}

/* Lift 1 is poured: the plan of the next day is without it, begins no earlier,
 * and lift 2 above it still comes before lift 3.  Rejected, lift 1 comes back.
 */
static void
replan__leaves_out_what_is_poured_until_it_is_rejected(void **state)
{
	struct fixture *f = *state;
	struct work_pour_ask pour = {.batch = "04",
		.part = "wall-g",
		.lift = {true, 1},
		.from_m = {true, 0},
		.to_m = {true, 9.2}};
	const struct work_plan_lift *second, *third;
	struct work_plan before, after, again;
	struct place p;

	open_place(f, &p);
	plan_from(f, &p, "2026-05-04", &before);
	assert_int_equal(0, before.n_poured);
	assert_non_null(lift_named(&before, "wall-g lift 1"));
	assert_ok(work_pour(&p.desk, f->a, &pour, &f->err), &f->err);
	plan_from(f, &p, "2026-05-05", &after);
	assert_int_equal(1, after.n_poured);
	assert_int_equal(before.n_lift - 1, after.n_lift);
	assert_null(lift_named(&after, "wall-g lift 1"));
	for (size_t i = 0; i < after.n_lift; i++)
		assert_true(after.lift[i].day >= after.from_day);
	assert_int_equal(before.from_day + 1, after.from_day);
	second = lift_named(&after, "wall-g lift 2");
	third = lift_named(&after, "wall-g lift 3");
	assert_true(second != NULL && third != NULL);
	assert_true(second->day < third->day);
	pour = (struct work_pour_ask){
		.batch = "04", .verdict = "reject", .reason = "far too wet"};
	assert_ok(work_pour(&p.desk, f->a, &pour, &f->err), &f->err);
	plan_from(f, &p, "2026-05-05", &again);
	assert_int_equal(0, again.n_poured);
	assert_non_null(lift_named(&again, "wall-g lift 1"));
	close_place(&p);
}

static const struct CMUnitTest tests[] = {
	TEST(replan__leaves_out_what_is_poured_until_it_is_rejected),
};

TEST_MAIN(tests)
