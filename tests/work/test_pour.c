/* test_pour.c - which batch lies where, what its pieces say, and what a bad one
 * touches. */
#include "work/part.h"
#include "work/pour.h"
#include "work/results.h"

#include "place.h"
#include "support.h"

#include "book/book.h"
#include "work/import.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static void
pour(struct fixture *f, struct place *p, const char *batch, double lift,
	double from_m, double to_m, const char *verdict)
{
	const struct work_pour_ask ask = {.batch = batch,
		.part = "wall-g",
		.lift = {true, lift},
		.from_m = {from_m >= 0, from_m},
		.to_m = {from_m >= 0, to_m},
		.verdict = verdict,
		.reason = "under its target",
		.typed = ""};

	assert_ok(work_pour(&p->desk, f->a, &ask, &f->err), &f->err);
}

static const struct work_placed *
placed(const struct work_poured *all, const char *batch)
{
	for (size_t i = 0; i < all->n_placed; i++)
		if (strcmp(all->m.site.batch[all->placed[i].batch].code,
			    batch) == 0)
			return &all->placed[i];
	return NULL;
}

static bool
does_touch(const struct work_poured *all, const char *of, const char *other)
{
	const struct work_placed *p = placed(all, of);

	for (size_t i = 0; i < p->n_touches; i++)
		if (&all->placed[p->touches[i]] == placed(all, other))
			return true;
	return false;
}

/* Beside it, on it and under it where the stretches meet, and nothing else; of
 * a batch without a stretch its whole lift and the lifts beside. */
static void
pour__a_bad_batch_touches_what_meets_it(void **state)
{
	struct fixture *f = *state;
	struct work_poured all;
	struct place p;

	open_place(f, &p);
	pour(f, &p, "01", 2, 2.13, 4.27, "hold");
	pour(f, &p, "02", 2, 0, 2.13, NULL);      /* ends where it begins */
	pour(f, &p, "03", 2, 4.4, 6.1, NULL);     /* beyond a gap */
	pour(f, &p, "04", 1, 3.9, 5.2, NULL);     /* under it */
	pour(f, &p, "05", 3, 0.7, 2.2, "accept"); /* on it */
	pour(f, &p, "06", 3, 4.3, 5.2, NULL);     /* one up, beside */
	pour(f, &p, "07", 4, 2.13, 4.27, NULL);   /* two up */
	pour(f, &p, "08", 3, -1, -1, "reject");
	assert_ok(
		work_poured(&p.desk, f->a, NULL, NULL, &all, &f->err), &f->err);
	assert_true(placed(&all, "01")->is_bad);
	assert_false(placed(&all, "05")->is_bad);
	assert_int_equal(0, placed(&all, "05")->n_touches);
	assert_int_equal(4, placed(&all, "01")->n_touches);
	assert_true(does_touch(&all, "01", "02"));
	assert_true(does_touch(&all, "01", "04"));
	assert_true(does_touch(&all, "01", "05"));
	assert_true(does_touch(&all, "01", "08"));
	assert_int_equal(6, placed(&all, "08")->n_touches);
	assert_false(does_touch(&all, "08", "04"));
	close_place(&p);
}

/* The mean of a batch is that of its results; the same figure is met or not as
 * the part asks more or less. */
static void
pour__pieces_say_their_mean_and_what_was_asked(void **state)
{
	struct fixture *f = *state;
	struct work_part_ask asks = {.code = "wall-g",
		.bound = {{"dry_density", "500 kg/m3", false},
			{"bending_strength", "0.2 N/mm2", true}},
		.n_bound = 2,
		.source = "own wish"};
	const struct work_placed *at;
	struct work_results results;
	struct work_poured all;
	struct place p;
	double sum = 0;
	size_t n = 0, met = 0;
	bool made;

	open_place(f, &p);
	pour(f, &p, "01", 1, 0, 1.7, NULL);
	assert_ok(work_part_put(&p.desk, f->a, &asks, &made, &f->err), &f->err);
	assert_ok(work_poured(&p.desk, f->a, "wall-g", NULL, &all, &f->err),
		&f->err);
	at = placed(&all, "01");
	assert_ok(work_results(f->a, &all.m.site, &results, &f->err), &f->err);
	for (size_t i = 0; i < results.n_result; i++) {
		const struct work_result *r = &results.result[i];

		if (r->batch != at->batch || r->excluded ||
			r->measure != CHOOSE_DRY_DENSITY)
			continue;
		sum += (r->value.low + r->value.high) / 2;
		n++;
	}
	assert_true(n > 1);
	for (size_t k = 0; k < at->n_said; k++) {
		const struct work_said *s = &at->said[k];

		if (s->measure == CHOOSE_DRY_DENSITY) {
			assert_int_equal(n, s->n);
			assert_near(s->mean, sum / (double)n, 1e-12, 0);
			assert_true(s->has_asked && !s->is_least && !s->is_met);
			met++;
		}
		if (s->measure == CHOOSE_BENDING_STRENGTH) {
			assert_true(s->has_asked && s->is_least && s->is_met);
			assert_near(s->asked, 0.2e6, 1e-12, 0);
			met++;
		}
		if (s->measure == CHOOSE_DENT)
			assert_false(s->has_asked);
	}
	assert_int_equal(2, met);
	close_place(&p);
}

static const struct CMUnitTest tests[] = {
	TEST(pour__a_bad_batch_touches_what_meets_it),
	TEST(pour__pieces_say_their_mean_and_what_was_asked),
};

TEST_MAIN(tests)
