/* test_plan.c - pour plans: the rules kept, the proofs true, the clashes said. */
#include "support.h"

#include "build/glpk_run.h"
#include "build/plan.h"
#include "build/plan_check.h"
#include "build/plan_priv.h"
#include "core/rng.h"

#include <glpk.h>
#include <gsl/gsl_rng.h>
#include <math.h>
#include <string.h>

enum { LIFTS = 12, WAITS = 24, DAYS = 40 };

struct small {
	struct build_lift lift[LIFTS];
	struct build_wait wait[WAITS];
	struct build_day day[DAYS];
	struct build_job job;
};

static size_t
draw(gsl_rng *rng, size_t low, size_t high)
{
	return low + gsl_rng_uniform_int(rng, high - low + 1);
}

/* Any calendar, any parts: many of them have no plan. */
static void
invent(gsl_rng *rng, size_t lifts_most, size_t days_most, struct small *s)
{
	size_t n_lift = draw(rng, 1, lifts_most), n_wait = 0, part = 0;
	size_t n_day = draw(rng, 3, days_most), n_set = draw(rng, 1, 4);

	for (size_t i = 0; i < n_lift; i++) {
		bool starts = i == 0 || draw(rng, 0, 2) == 0;

		part += starts && i > 0;
		s->lift[i] = (struct build_lift){.name = "lift",
			.part = part,
			.n_batch = (int64_t)draw(rng, 1, 9),
			.crew_min = (int64_t)draw(rng, 0, 300),
			.n_set = draw(rng, 0, 5) == 0 ? draw(rng, 0, 2) : 1,
			.strip_degc_h = (double)draw(rng, 0, 2000),
			.earliest = draw(rng, 0, 3) == 0 ? draw(rng, 0, 4) : 0};
		if (!starts)
			s->wait[n_wait++] = (struct build_wait){
				i - 1, i, draw(rng, 0, 3)};
	}
	if (n_lift > 2 && draw(rng, 0, 2) == 0)
		s->wait[n_wait++] = (struct build_wait){
			0, n_lift - 1, draw(rng, 0, 4)};
	for (size_t d = 0; d < n_day; d++)
		s->day[d] = (struct build_day){.off = draw(rng, 0, 3) == 0,
			.cold = draw(rng, 0, 5) == 0,
			.n_batch = (int64_t)draw(rng, 8, 20),
			.crew_min = (int64_t)draw(rng, 250, 700),
			.n_set = draw(rng, 0, 9) == 0 ? n_set - 1 : n_set,
			.degc = (double)draw(rng, 0, 25) - 12.7};
	s->job = (struct build_job){
		s->lift, n_lift, s->wait, n_wait, s->day, n_day};
}

static double
ten_seconds(void *data, const struct build_progress *progress)
{
	(void)data;
	(void)progress;
	return 10;
}

static double
no_seconds(void *data, const struct build_progress *progress)
{
	(void)data;
	(void)progress;
	return 0;
}

static bool
is_a_clash(const struct err *err)
{
	static const char *const field[] = {
		"mixer", "crew", "forms", "days", "order"};

	for (size_t i = 0; i < sizeof field / sizeof field[0]; i++)
		if (strcmp(err->field, field[i]) == 0)
			return true;
	return false;
}

/* 10,000 random cases: what comes out keeps every rule, ends no earlier than
 * its bound, and what is refused names a clash; every tenth with the program. */
static void
plan__never_breaks_a_rule(void **state)
{
	struct fixture *f = *state;
	const struct build_watch watch = {ten_seconds, NULL};
	gsl_rng *rng = rng_new(7919, 0);
	size_t n_plan = 0, n_clash = 0;

	for (uint64_t i = 0; i < 10000; i++) {
		struct arena_mark mark = arena_mark(f->a);
		struct build_plan got = {.last_day = 77};
		struct small s;
		enum err_code code;

		invent(rng, LIFTS, DAYS, &s);
		err_clear(&f->err);
		code = build_plan(f->a, &s.job, i, i % 10 == 0 ? &watch : NULL,
			&got, &f->err);
		if (code == ERR_NONE) {
			assert_ok(build_plan_check(&s.job, got.day,
					  got.strip_day, &f->err),
				&f->err);
			assert_true(got.last_day >= got.last_day_bound);
			assert_true(got.day_sum >= got.day_sum_bound);
			n_plan++;
		} else {
			assert_int_equal(ERR_INPUT, code);
			assert_true(is_a_clash(&f->err));
			assert_int_equal(77, got.last_day);
			n_clash++;
		}
		arena_back(f->a, mark);
	}
	gsl_rng_free(rng);
	assert_true(n_plan > 2000 && n_clash > 500); /* both are met often */
}

/* Every way to put the lifts on the days, held against the rules: the least
 * last day, then the least sum; false: no way keeps them. */
static bool
try_every_way(const struct small *s, size_t *last, int64_t *sum)
{
	size_t day[LIFTS] = {0}, strip[LIFTS], n = s->job.n_lift, at = 0;
	bool found = false;

	while (at < n) {
		size_t this_last = 0;
		int64_t this_sum = 0;

		for (size_t i = 0; i < n; i++) {
			strip[i] = build_strip_day(s->day, s->job.n_day, day[i],
				s->lift[i].strip_degc_h);
			this_sum += (int64_t)day[i];
			this_last = day[i] > this_last ? day[i] : this_last;
		}
		if ((!found || this_last < *last ||
			    (this_last == *last && this_sum < *sum)) &&
			build_plan_check(&s->job, day, strip, NULL) ==
				ERR_NONE) {
			found = true;
			*last = this_last;
			*sum = this_sum;
		}
		for (at = 0; at < n && ++day[at] == s->job.n_day; at++)
			day[at] = 0;
	}
	return found;
}

static void
plan__proven_is_what_trying_every_way_finds(void **state)
{
	struct fixture *f = *state;
	const struct build_watch watch = {ten_seconds, NULL};
	gsl_rng *rng = rng_new(104729, 0);
	size_t n_plan = 0, n_none = 0;

	for (uint64_t i = 0; i < 600; i++) {
		struct arena_mark mark = arena_mark(f->a);
		struct build_plan got;
		struct small s;
		size_t last = 0;
		int64_t sum = 0;
		bool found;

		invent(rng, 4, 8, &s);
		found = try_every_way(&s, &last, &sum);
		err_clear(&f->err);
		if (!found) {
			assert_int_equal(ERR_INPUT,
				build_plan(f->a, &s.job, i, &watch, &got,
					&f->err));
			assert_null(strstr(f->err.text, "No plan was found"));
			n_none++;
		} else {
			assert_ok(build_plan(f->a, &s.job, i, &watch, &got,
					  &f->err),
				&f->err);
			assert_int_equal(BUILD_PROVEN, got.proof);
			assert_int_equal(last, got.last_day);
			assert_int_equal(last, got.last_day_bound);
			assert_int_equal(sum, got.day_sum);
			n_plan++;
		}
		arena_back(f->a, mark);
	}
	gsl_rng_free(rng);
	assert_true(n_plan > 100 && n_none > 100);
}

/* The walk through the days and the program answer alike. */
static void
plan__walk_and_program_agree(void **state)
{
	struct fixture *f = *state;
	const struct build_watch watch = {ten_seconds, NULL};
	gsl_rng *rng = rng_new(15485863, 0);
	size_t n_found = 0, n_none = 0;

	for (int i = 0; i < 400; i++) {
		struct arena_mark mark = arena_mark(f->a);
		struct plan_goal goal = {
			.sum_below = INT64_MAX, .n_column_most = 6000};
		size_t walk[LIFTS], program[LIFTS];
		struct plan_found by_walk, by_program;
		struct plan_frame frame;
		struct small s;

		invent(rng, 9, 25, &s);
		for (size_t w = 0; w < s.job.n_wait; w++)
			s.wait[w].n_day += s.wait[w].n_day == 0;
		err_clear(&f->err);
		goal.watch = &watch;
		if (plan_frame_make(f->a, &s.job, &frame, &f->err) ==
			ERR_NONE) {
			goal.last = draw(rng, 0, frame.n_open - 1);
			assert_ok(plan_states(f->a, &frame, &goal, walk,
					  &by_walk, &f->err),
				&f->err);
			assert_ok(plan_program(f->a, &frame, &goal, program,
					  &by_program, &f->err),
				&f->err);
			assert_int_equal(by_program.answer, by_walk.answer);
			if (by_walk.answer == PLAN_FOUND)
				assert_int_equal(plan_day_sum(&frame, program),
					plan_day_sum(&frame, walk));
			n_found += by_walk.answer == PLAN_FOUND;
			n_none += by_walk.answer == PLAN_NONE;
		}
		arena_back(f->a, mark);
	}
	gsl_rng_free(rng);
	assert_true(n_found > 50 && n_none > 50);
}

/* Two walls of two lifts, one set of forms, seven days, all open and mild. */
static void
two_walls(struct small *s)
{
	memset(s, 0, sizeof *s);
	for (size_t i = 0; i < 4; i++)
		s->lift[i] = (struct build_lift){.name = "lift",
			.part = i / 2,
			.n_batch = 5,
			.crew_min = 200,
			.n_set = 1,
			.strip_degc_h = 600};
	s->wait[0] = (struct build_wait){0, 1, 1};
	s->wait[1] = (struct build_wait){2, 3, 1};
	for (size_t d = 0; d < 10; d++)
		s->day[d] = (struct build_day){
			.n_batch = 10, .crew_min = 400, .n_set = 2, .degc = 20};
	s->job = (struct build_job){s->lift, 4, s->wait, 2, s->day, 10};
}

/* 20 C gives 30 degrees above the datum: 600 degree-hours by the next morning
 * (20 hours), 1320 by the one after; a day off puts it off. */
static void
strip_day__worked_by_hand(void **state)
{
	struct small s;

	(void)state;
	two_walls(&s);
	assert_int_equal(4, build_strip_day(s.day, 10, 3, 600));
	assert_int_equal(5, build_strip_day(s.day, 10, 3, 601));
	assert_int_equal(4, build_strip_day(s.day, 10, 3, 0));
	assert_int_equal(6, build_strip_day(s.day, 10, 3, 1321));
	s.day[4].off = true;
	assert_int_equal(5, build_strip_day(s.day, 10, 3, 600));
	s.day[4].off = false;
	s.day[4].cold = true; /* stripped, though nobody pours */
	assert_int_equal(4, build_strip_day(s.day, 10, 3, 600));
	s.day[3].degc = -11.3; /* below the datum: nothing */
	assert_int_equal(5, build_strip_day(s.day, 10, 3, 600));
	assert_int_equal(10, build_strip_day(s.day, 10, 9, 600));
}

static void
check__lets_a_good_plan_pass_and_catches_each_broken_rule(void **state)
{
	struct fixture *f = *state;
	const size_t day[] = {0, 1, 0, 1}, strip[] = {1, 2, 1, 2};
	struct small s;
	size_t at[4], off[4];

#define START()                                 \
	do {                                    \
		two_walls(&s);                  \
		memcpy(at, day, sizeof at);     \
		memcpy(off, strip, sizeof off); \
		err_clear(&f->err);             \
	} while (0)
#define BROKEN(rule)                                                 \
	do {                                                         \
		assert_int_equal(ERR_ANSWER_NO,                      \
			build_plan_check(&s.job, at, off, &f->err)); \
		assert_has(f->err.text, rule);                       \
		START();                                             \
	} while (0)
	START();
	assert_ok(build_plan_check(&s.job, at, off, &f->err), &f->err);
	at[3] = 10;
	BROKEN("Rule 1");
	s.day[1].off = true;
	BROKEN("Rule 1");
	s.day[0].cold = true;
	BROKEN("Rule 1");
	s.lift[2].earliest = 1;
	BROKEN("Rule 1");
	at[1] = 0;
	BROKEN("Rule 2");
	s.wait[0].n_day = 2;
	BROKEN("Rule 2");
	s.day[1].n_batch = 9;
	BROKEN("Rule 3");
	s.day[0].crew_min = 399;
	BROKEN("Rule 3");
	s.day[0].n_set = 1;
	BROKEN("Rule 4");
	off[0] = 0;
	BROKEN("Rule 5");
	s.lift[1].strip_degc_h = 601; /* too young on day 2 */
	BROKEN("Rule 5");
	off[1] = 3; /* a day later than it could be */
	BROKEN("Rule 5");
	s.lift[0].strip_degc_h = 601;
	off[0] = 2; /* now the forms of lift 0 stand on day 1, too */
	BROKEN("Rule 4");
#undef BROKEN
#undef START
}

static void
assert_clash(struct fixture *f, const struct small *s, const char *field,
	const char *words)
{
	const struct build_watch watch = {ten_seconds, NULL};
	struct build_plan got = {.last_day = 77};

	err_clear(&f->err);
	assert_int_equal(
		ERR_INPUT, build_plan(f->a, &s->job, 1, &watch, &got, &f->err));
	assert_string_equal(field, f->err.field);
	assert_has(f->err.text, words);
	assert_int_equal(77, got.last_day);
}

static void
plan__says_which_limits_clash(void **state)
{
	struct fixture *f = *state;
	struct small s;

	two_walls(&s);
	s.lift[1].n_batch = 11;
	assert_clash(f, &s, "mixer", "11 batches in one go");
	two_walls(&s);
	s.lift[1].crew_min = 500;
	assert_clash(f, &s, "crew", "8.3 hours of the crew");
	two_walls(&s);
	s.lift[1].n_set = 3;
	assert_clash(f, &s, "forms", "3 sets of forms and there are 2");
	two_walls(&s);
	for (size_t d = 0; d < 10; d++)
		s.day[d].cold = true;
	assert_clash(f, &s, "days", "no day to pour on");
	two_walls(&s);
	s.wait[1] = (struct build_wait){1, 0, 1};
	assert_clash(f, &s, "order", "waits, through others, for itself");
	two_walls(&s);
	s.wait[1].n_day = 12;
	assert_clash(f, &s, "days", "what it waits for");
	two_walls(&s);
	s.job.n_day = 2;
	for (size_t d = 0; d < 2; d++)
		s.day[d].n_batch = 9;
	assert_clash(f, &s, "days", "the mixer's output alone");
	two_walls(&s);
	s.job.n_day = 3;
	for (size_t d = 0; d < 3; d++)
		s.day[d].n_set = 1;
	assert_clash(f, &s, "days", "the forms on hand alone");
	two_walls(&s);
	s.lift[0].strip_degc_h = NAN;
	assert_clash(f, &s, "lifts", "degree-hours");
	two_walls(&s);
	s.job.n_lift = 0;
	assert_clash(f, &s, "lifts", "1 to 2000 lifts");
}

/* Without time the heuristic's plan is given, and how far it may be off. */
static void
plan__falls_back_when_the_time_is_up(void **state)
{
	struct fixture *f = *state;
	const struct build_watch watch = {no_seconds, NULL};
	struct build_plan got;
	struct small s;

	two_walls(&s);
	for (size_t d = 0; d < 10; d++)
		s.day[d].n_set = 1;
	assert_ok(build_plan(f->a, &s.job, 1, &watch, &got, &f->err), &f->err);
	assert_ok(build_plan_check(&s.job, got.day, got.strip_day, &f->err),
		&f->err);
	assert_int_equal(3, got.last_day);
	assert_int_equal(3, got.last_day_bound);
	assert_int_equal(BUILD_LAST_DAY, got.proof);
	assert_string_equal("the forms on hand", got.bound_from);
}

/* What fits into a day never counts for more than the day. */
static void
share__is_never_more_than_the_day(void **state)
{
	gsl_rng *rng = rng_new(65537, 0);
	const double hair = 1e-12; /* of summing */

	(void)state;
	for (int i = 0; i < 20000; i++) {
		int64_t whole = (int64_t)draw(rng, 2, 60), left = whole;
		const struct plan_share_rule rule = i % 2 == 0
			? (struct plan_share_rule){.times = (int64_t)draw(
							   rng, 0, 6)}
			: (struct plan_share_rule){
				  .least = (int64_t)draw(
					  rng, 1, (size_t)whole / 2)};
		double sum = 0;

		while (left > 0) {
			int64_t part = (int64_t)draw(rng, 1, (size_t)left);

			sum += plan_share(&rule, part, whole);
			left -= part;
		}
		assert_true(sum <= 1 + hair);
	}
	gsl_rng_free(rng);
}

static void
misuse(void *data)
{
	glp_prob *p = glp_create_prob();

	(void)data;
	glp_set_row_name(p, 3, "no such row");
	*(bool *)data = true;
}

static void
use(void *data)
{
	glp_prob *p = glp_create_prob();

	*(int *)data = glp_add_rows(p, 3);
	glp_delete_prob(p);
}

/* What would abort the program is an error, and the next run is sound. */
static void
glpk__misused_gives_an_error(void **state)
{
	struct fixture *f = *state;
	bool went_on = false;
	int row = 0;

	for (int i = 0; i < 3; i++) {
		err_clear(&f->err);
		assert_int_equal(
			ERR_NUMERIC, build_glpk_run(misuse, &went_on, &f->err));
		assert_false(went_on);
		assert_ok(build_glpk_run(use, &row, &f->err), &f->err);
		assert_int_equal(1, row);
	}
}

static void
plan__says_when_memory_is_out(void **state)
{
	const struct build_watch watch = {ten_seconds, NULL};
	struct small s;

	(void)state;
	two_walls(&s);
	for (size_t limit = 64; limit < 1600; limit += 97) {
		struct arena *small = arena_new(limit);
		struct build_plan got = {.last_day = 77};

		assert_non_null(small);
		if (build_plan(small, &s.job, 1, &watch, &got, NULL) ==
			ERR_NONE)
			assert_int_equal(1, got.last_day);
		else
			assert_int_equal(77, got.last_day);
		arena_free(small);
	}
}

static const struct CMUnitTest tests[] = {
	TEST(strip_day__worked_by_hand),
	TEST(check__lets_a_good_plan_pass_and_catches_each_broken_rule),
	TEST(plan__never_breaks_a_rule),
	TEST(plan__proven_is_what_trying_every_way_finds),
	TEST(plan__walk_and_program_agree),
	TEST(plan__says_which_limits_clash),
	TEST(plan__falls_back_when_the_time_is_up),
	TEST(share__is_never_more_than_the_day),
	TEST(glpk__misused_gives_an_error),
	TEST(plan__says_when_memory_is_out),
};

TEST_MAIN(tests)
