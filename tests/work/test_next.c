/* test_next.c - what to make next, on the invented demo. */
#include "support.h"

#include "work/import.h"
#include "work/next.h"
#include "work/shelf.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

struct demo {
	char folder[64], path[96];
	struct desk desk;
};

static void
open_demo(struct fixture *f, struct demo *d)
{
	struct work_import ask = {0};
	struct work_imported got;
	char folder[1024];

	(void)snprintf(
		folder, sizeof folder, "%s/demo", getenv("FOAMWRIGHT_SOURCE"));
	ask.folder = folder;
	*d = (struct demo){.desk = {.now_utc_s = 1772352000,
				   .who = "tester",
				   .seed = 1,
				   .n_chain = 4,
				   .n_keep = 2000}};
	(void)snprintf(d->folder, sizeof d->folder, "/var/tmp/fwXXXXXX");
	assert_non_null(mkdtemp(d->folder));
	(void)snprintf(d->path, sizeof d->path, "%s/a.book", d->folder);
	assert_ok(work_new(d->path, "demo", "", &d->desk, &f->err), &f->err);
	assert_ok(work_open(d->path, true, &d->desk, &f->err), &f->err);
	assert_ok(work_import(&d->desk, f->a, &ask, &got, &f->err), &f->err);
}

static void
close_demo(struct demo *d)
{
	work_close(&d->desk);
	(void)unlink(d->path);
	(void)rmdir(d->folder);
}

static const char *
code_of(const struct work_next *next, size_t candidate)
{
	return next->compared.site.mix[next->candidate[candidate]].code;
}

/* Of all mixes the dense one is half as strong again as any other: settled. */
static void
next__says_when_a_choice_is_settled(void **state)
{
	struct fixture *f = *state;
	struct work_next_ask ask = {.batches_a_day = 2};
	struct work_next next;
	struct demo d;

	open_demo(f, &d);
	assert_ok(work_next(&d.desk, f->a, &ask, &next, &f->err), &f->err);
	assert_string_equal("D", code_of(&next, next.now.chosen));
	assert_int_equal(next.n_design, next.advised);
	assert_has(next.sentence[1], "settled well enough");
	assert_int_equal(WORK_NEXT_DESIGNS, next.n_design);
	close_demo(&d);
}

static void
check_designs(const struct work_next *next, const struct work_next_ask *ask)
{
	for (size_t i = 0; i < next->n_design; i++) {
		const struct work_next_design *one = &next->design[i];
		size_t days = (one->n_batch + 1) / 2; /* two a day */
		double cost = (double)one->n_batch *
				(ask->batch_cost +
					ask->specimen_cost *
						(double)next->specimens) +
			(double)days * ask->day_cost;

		assert_near(one->cost, cost, 1e-14, 0);
		assert_true(one->gain.gain >= 0);
		/* nothing is worth more than knowing all; three errors */
		assert_true(one->gain.gain <=
			next->now.regret + 3 * next->now.regret_error);
		if (i > 0)
			assert_true(one->gain.gain <=
				next->design[i - 1].gain.gain);
		/* the linear rule's own gain against what it really wins:
		 * four errors and a tenth for the approximation */
		assert_near(one->gain.realised, one->gain.gain, 0.1,
			4 * one->gain.realised_error);
		for (size_t k = 0; k < i; k++) /* larger gains, not cheaper */
			assert_true(!one->on_curve ||
				next->design[k].cost > one->cost);
	}
}

/* Among the five that are alike there is something to win; the mix with one
 * batch is what most is learnt from. */
static void
next__advises_among_like_mixes(void **state)
{
	struct fixture *f = *state;
	struct work_next_ask ask = {.among = "B,P, F,W,Q",
		.batch_cost = 17.5,
		.specimen_cost = 1.25,
		.day_cost = 41,
		.batches_a_day = 2};
	const struct work_next_design *advised;
	struct work_next next;
	struct demo d;
	size_t one_batch = 0;

	open_demo(f, &d);
	assert_ok(work_next(&d.desk, f->a, &ask, &next, &f->err), &f->err);
	assert_int_equal(5, next.n_candidate);
	assert_int_equal(3, next.specimens);
	assert_true(next.advised < next.n_design);
	check_designs(&next, &ask);
	advised = &next.design[next.advised];
	assert_true(advised->gain.p_wrong < next.now.p_wrong);
	assert_true(advised->gain.gain >= next.design[0].gain.gain / 2);
	while (strcmp(code_of(&next, one_batch), "W") != 0)
		one_batch++;
	assert_true(advised->extra[one_batch] > 0);
	assert_has(next.sentence[1], "would cut the chance of a wrong choice");
	ask.budget = 100; /* a day of two batches */
	assert_ok(work_next(&d.desk, f->a, &ask, &next, &f->err), &f->err);
	assert_true(next.design[next.advised].cost <= 100);
	ask.budget = 3;
	assert_ok(work_next(&d.desk, f->a, &ask, &next, &f->err), &f->err);
	assert_has(next.sentence[1], "No plan");
	close_demo(&d);
}

/* Weights that begin under and end over the likely load, and read it finely. */
static void
next__weights_for_the_beams(void **state)
{
	struct fixture *f = *state;
	struct work_next_ask ask = {.batches_a_day = 2};
	struct work_next next;
	struct demo d;

	open_demo(f, &d);
	assert_ok(work_next(&d.desk, f->a, &ask, &next, &f->err), &f->err);
	assert_int_equal(next.n_candidate, next.n_steps);
	for (size_t i = 0; i < next.n_steps; i++) {
		const struct work_next_steps *s = &next.steps[i];

		assert_true(s->worth >= 0.95 && s->worth < 1);
		assert_true(s->worth_now > 0.5 && s->worth_now < 1);
		assert_true(s->start_kg < s->load_kg);
		assert_true(s->start_kg + (double)s->n_step * s->step_kg >
			s->load_kg);
		/* clearly finer steps are worth more */
		assert_true(s->step_kg > 0.9 * s->step_now_kg ||
			s->worth > s->worth_now);
	}
	close_demo(&d);
}

/* The floor of the demo asks a bending strength of 0.45 N/mm2; where 0.2 is
 * enough, which all but the light mix have for certain, nothing is left to win
 * though five mixes are alike. */
static void
next__enough_ends_the_search(void **state)
{
	struct fixture *f = *state;
	struct work_next_ask ask = {.batches_a_day = 2, .part = "floor"};
	struct work_next next;
	struct demo d;

	open_demo(f, &d);
	assert_ok(work_next(&d.desk, f->a, &ask, &next, &f->err), &f->err);
	assert_true(next.has_enough);
	assert_int_equal(CHOOSE_BENDING_STRENGTH, next.measure);
	assert_near(next.enough, 0.45e6, 1e-12, 0);
	assert_has(next.sentence[0], "0.450 N/mm2 is taken as enough");
	ask = (struct work_next_ask){.batches_a_day = 2,
		.among = "B,P,F,W,Q",
		.has_enough = true,
		.enough = 0.2e6};
	assert_ok(work_next(&d.desk, f->a, &ask, &next, &f->err), &f->err);
	assert_int_equal(next.n_design, next.advised);
	assert_true(next.now.regret < 1e-3);
	ask.part = "attic";
	assert_int_equal(
		ERR_INPUT, work_next(&d.desk, f->a, &ask, &next, &f->err));
	assert_string_equal("--part", f->err.field);
	err_clear(&f->err);
	ask.part = NULL;
	ask.enough = 0;
	assert_int_equal(
		ERR_INPUT, work_next(&d.desk, f->a, &ask, &next, &f->err));
	assert_string_equal("--enough", f->err.field);
	close_demo(&d);
}

static void
next__refusals(void **state)
{
	struct fixture *f = *state;
	struct work_next_ask ask = {.batches_a_day = 2, .batch_cost = -1};
	struct work_next next;
	struct demo d;

	open_demo(f, &d);
	assert_int_equal(
		ERR_INPUT, work_next(&d.desk, f->a, &ask, &next, &f->err));
	assert_string_equal("--batch-cost", f->err.field);
	err_clear(&f->err);
	ask.batch_cost = 0;
	ask.among = "B, Z";
	assert_int_equal(
		ERR_INPUT, work_next(&d.desk, f->a, &ask, &next, &f->err));
	assert_has(f->err.text, "\"Z\" is no mix");
	err_clear(&f->err);
	ask.among = "B";
	assert_int_equal(
		ERR_INPUT, work_next(&d.desk, f->a, &ask, &next, &f->err));
	assert_string_equal("mixes", f->err.field);
	err_clear(&f->err);
	ask.among = NULL;
	ask.has_measure = true;
	ask.measure = CHOOSE_CONDUCTIVITY;
	assert_int_equal(
		ERR_INPUT, work_next(&d.desk, f->a, &ask, &next, &f->err));
	assert_string_equal("--measure", f->err.field);
	close_demo(&d);
}

static void
next__a_chance_is_never_none_and_never_all(void **state)
{
	struct fixture *f = *state;

	assert_string_equal("fewer than 1 in 100", work_next_in_100(f->a, 0));
	assert_string_equal(
		"fewer than 1 in 100", work_next_in_100(f->a, 0.0099));
	assert_string_equal("1 in 100", work_next_in_100(f->a, 0.01));
	assert_string_equal("27 in 100", work_next_in_100(f->a, 0.27));
	assert_string_equal("99 in 100", work_next_in_100(f->a, 0.99));
	assert_string_equal(
		"more than 99 in 100", work_next_in_100(f->a, 0.9901));
	assert_string_equal("more than 99 in 100", work_next_in_100(f->a, 1));
}

static const struct CMUnitTest tests[] = {
	TEST(next__says_when_a_choice_is_settled),
	TEST(next__advises_among_like_mixes),
	TEST(next__weights_for_the_beams),
	TEST(next__enough_ends_the_search),
	TEST(next__a_chance_is_never_none_and_never_all),
	TEST(next__refusals),
};

TEST_MAIN(tests)
