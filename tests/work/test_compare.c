/* test_compare.c - the comparison of the invented demo against what its
 * scenario works out (mid-interval figures, good to about two digits), and what
 * must hold whatever the figures. */
#include "support.h"

#include "book/book.h"
#include "work/compare.h"
#include "work/import.h"
#include "work/shelf.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

struct demo {
	char path[64];
	struct desk desk;
};

static void
open_demo(struct fixture *f, struct demo *d)
{
	struct work_imported got;
	struct work_import ask = {0};
	char folder[1024];
	int fd;

	(void)snprintf(
		folder, sizeof folder, "%s/demo", getenv("FOAMWRIGHT_SOURCE"));
	ask.folder = folder;
	*d = (struct demo){.desk = {.now_utc_s = 1772352000,
				   .who = "tester",
				   .seed = 1,
				   .n_chain = 4,
				   .n_keep = 2000}};
	(void)snprintf(d->path, sizeof d->path, "compare-test-XXXXXX");
	fd = mkstemp(d->path);
	assert_true(fd >= 0);
	(void)close(fd);
	(void)unlink(d->path);
	assert_ok(work_new(d->path, "First house", "", &d->desk, &f->err),
		&f->err);
	assert_ok(work_open(d->path, true, &d->desk, &f->err), &f->err);
	assert_ok(work_import(&d->desk, f->a, &ask, &got, &f->err), &f->err);
}

static void
close_demo(struct demo *d)
{
	work_close(&d->desk);
	(void)unlink(d->path);
}

static struct work_compared
compare(struct fixture *f, const struct demo *d,
	const struct work_compare_ask *ask)
{
	struct work_compared all;

	assert_ok(work_compare_asked(&d->desk, f->a, ask, &all, &f->err),
		&f->err);
	return all;
}

static const struct work_group *
find(const struct work_compared *all, const struct work_comparison *c,
	const char *code)
{
	for (size_t g = 0; g < c->n_group; g++)
		if (strcmp(all->site.mix[c->group[g].mix].code, code) == 0)
			return &c->group[g];
	fail();
	return NULL;
}

static const struct work_compare_ask bending = {.has_measure = true,
	.measure = CHOOSE_BENDING_STRENGTH,
	.firmness = WORK_FIRMNESS_FIRST};

static void
compare__agrees_with_the_scenario(void **state)
{
	/* The scenario's table, section 9.9: ratio, and at equal density.  Mid
	 * intervals and shrunk medians differ by a few hundredths: 0.05.  L at
	 * equal density rests on the exponent over a ratio of 0.6 in weight:
	 * it is not held to a figure there. */
	static const struct {
		const char *code;
		double ratio, equal;
	} want[] = {{"D", 1.55, 0.95}, {"F", 0.98, 0.95}, {"P", 1.06, 1.08},
		{"Q", 0.97, 0.98}, {"W", 0.99, 0.91}, {"G", 0.76, 0.76}};
	struct fixture *f = *state;
	struct work_compared all;
	struct demo d;

	open_demo(f, &d);
	all = compare(f, &d, &bending);
	assert_int_equal(1, all.n_comparison);
	for (size_t i = 0; i < sizeof want / sizeof want[0]; i++) {
		const struct work_group *g = find(
			&all, &all.comparison[0], want[i].code);

		assert_near(g->answer.ratio_median, want[i].ratio, 0, 0.05);
		/* Dry weight here, tested weight there: D differs most. */
		assert_near(g->equal_median, want[i].equal, 0, 0.09);
		assert_true(g->equal_low < want[i].equal &&
			want[i].equal < g->equal_high);
		assert_true(g->p_much <= g->answer.p_better);
	}
	assert_true(all.comparison[0].rhat_max < 1.01);
	/* 8,000 draws here; the command keeps 20,000 and must have 2,000. */
	assert_true(all.comparison[0].ess_mix_min > 2000);
	close_demo(&d);
}

static void
compare__puts_the_excluded_back(void **state)
{
	/* Batch 03 of L settled 19 % and is excluded: 0.41 without, 0.32-0.41
	 * "ratio to baseline" with both batches in the scenario. */
	struct fixture *f = *state;
	struct work_compared all;
	const struct work_group *l;
	struct demo d;

	open_demo(f, &d);
	all = compare(f, &d, &bending);
	l = find(&all, &all.comparison[0], "L");
	assert_int_equal(2, l->n_excluded);
	assert_int_equal(1, l->n_reason);
	assert_has(l->reason[0].why, "settled");
	assert_true(l->put_back.has && l->has_with_excluded);
	assert_true(l->put_back.median < l->answer.ratio_median);
	assert_true(l->put_back.median > 0.25);
	close_demo(&d);
}

static void
compare__leaves_each_batch_out(void **state)
{
	/* Mix F: 1.06 from batch 04 alone and 0.90 from batch 09 alone
	 * (section 9.9); sole batches 06, 08 and 13 cannot be left out. */
	static const struct {
		const char *batch;
		double ratio;
	} want[] = {{"04", 0.90}, {"09", 1.06}, {"05", 1.63}, {"10", 1.47}};
	struct fixture *f = *state;
	struct work_compared all;
	const struct work_comparison *c;
	size_t found = 0;
	struct demo d;

	open_demo(f, &d);
	all = compare(f, &d, &bending);
	c = &all.comparison[0];
	assert_int_equal(10, c->n_left_out);
	for (size_t i = 0; i < c->n_left_out; i++) {
		const struct work_left_out *l = &c->left_out[i];
		const char *code = all.site.batch[l->batch].code;

		assert_true(strcmp(code, "06") != 0 && strcmp(code, "08") != 0);
		for (size_t k = 0; k < sizeof want / sizeof want[0]; k++) {
			if (strcmp(code, want[k].batch) != 0)
				continue;
			assert_near(l->ratio.median, want[k].ratio, 0, 0.06);
			found++;
		}
		assert_true((l->n_changed == 0) == (l->changed[0] == '\0'));
	}
	assert_int_equal(4, found);
	close_demo(&d);
}

static void
compare__judges_mesh_beside_its_own_cubes(void **state)
{
	/* 0.76 / 0.81 = 0.94: the neatest story of section 9.9. */
	struct fixture *f = *state;
	struct work_compared all;
	const struct work_group *g;
	struct demo d;

	open_demo(f, &d);
	all = compare(f, &d, &bending);
	g = find(&all, &all.comparison[0], "G");
	assert_true(g->own.has);
	assert_int_equal(CHOOSE_CRUSHING_STRENGTH, g->own_by);
	assert_near(g->own.median, 0.94, 0, 0.04);
	assert_true(g->own.low < 1 && g->own.high > 1);
	assert_false(find(&all, &all.comparison[0], "D")->own.has);
	close_demo(&d);
}

static void
compare__allows_for_mixing_time(void **state)
{
	/* Hidden lesson 3: blending crept from 2.2 to 5.6 min, and the slope's
	 * range includes zero. */
	struct fixture *f = *state;
	struct work_compared all;
	const struct work_comparison *c;
	struct demo d;

	open_demo(f, &d);
	all = compare(f, &d, &bending);
	c = &all.comparison[0];
	assert_int_equal(3, c->n_covariate);
	assert_string_equal("mixing time", c->covariate[0].name);
	assert_near(c->covariate[0].least, 2.2, 1e-12, 0);
	assert_near(c->covariate[0].most, 5.6, 1e-12, 0);
	assert_true(c->covariate[0].low < 1 && c->covariate[0].high > 1);
	/* Both ways: D stays half as strong again. */
	assert_near(find(&all, c, "D")->adjusted.median, 1.55, 0, 0.06);
	assert_true(find(&all, c, "D")->adjusted.has);
	close_demo(&d);
}

static void
compare__says_what_another_batch_brings(void **state)
{
	struct fixture *f = *state;
	struct work_compared all;
	const struct work_comparison *c;
	struct demo d;
	double of_one, of_two;

	open_demo(f, &d);
	all = compare(f, &d, &bending);
	c = &all.comparison[0];
	of_one = log(find(&all, c, "G")->reach_next) /
		log(find(&all, c, "G")->reach_now);
	of_two = log(find(&all, c, "P")->reach_next) /
		log(find(&all, c, "P")->reach_now);
	/* A second batch beside two of the baseline: the variance goes from
	 * 1 + 1/2 to 1/2 + 1/2, a factor of 0.816 on the width, whatever the
	 * spreads; a third beside two: from 1 to 5/6, 0.913.  The pull of the
	 * prior on the means is below a hundredth. */
	assert_near(of_one, sqrt(1 / 1.5), 0, 0.015);
	assert_near(of_two, sqrt(5.0 / 6), 0, 0.015);
	assert_true(c->base_narrowing > 0.03 && c->base_narrowing < 0.1);
	assert_true(c->has_plan && c->plan.p_wrong > 0.2);
	assert_true(c->plan.p_wrong_error > 0 && c->plan.p_wrong_error < 0.01);
	close_demo(&d);
}

static void
compare__learns_spreads_from_another_book(void **state)
{
	/* Half the weight of the other book: both spreads get lognormals (the
	 * demo's draws keep off zero) whose medians stand between its least and
	 * most likely spread; the demo teaches itself here. */
	struct fixture *f = *state;
	struct work_compare_ask ask = bending;
	struct work_compared all, learnt;
	const struct work_comparison *c;
	struct demo d;

	open_demo(f, &d);
	all = compare(f, &d, &bending);
	ask.learn_from = d.path;
	learnt = compare(f, &d, &ask);
	c = &learnt.comparison[0];
	assert_string_equal("First house", c->learnt_from);
	assert_string_equal("", all.comparison[0].learnt_from);
	assert_true(c->prior.sd_batch_scale > all.comparison[0].sd_batch[0]);
	assert_true(c->prior.sd_batch_scale < all.comparison[0].sd_batch[2]);
	assert_true(c->prior.sd_specimen_scale <
		all.comparison[0].prior.sd_specimen_scale);
	assert_true(c->prior.sd_specimen_log_sd > 0);
	assert_has(c->prior_words, "learnt from First house");
	ask.learn_from = "no-such.book";
	assert_true(work_compare_asked(&d.desk, f->a, &ask, &all, &f->err) !=
		ERR_NONE);
	close_demo(&d);
}

static void
compare__runs_the_textbook_tests(void **state)
{
	struct fixture *f = *state;
	struct work_compare_ask ask = bending;
	struct work_compared all;
	const struct work_classical *k;
	struct demo d;

	open_demo(f, &d);
	ask.classical = true;
	all = compare(f, &d, &ask);
	k = &all.comparison[0].classical;
	assert_true(k->has && k->one_way.has && k->ranks.has);
	assert_int_equal(0, k->n_open);
	assert_int_equal(7, k->n_against);
	assert_int_equal(8 * 7 / 2, k->n_pair);
	/* Shuffling pieces as if they were independent looks surer. */
	assert_true(k->permutation_pieces.p < k->permutation_batches.p);
	for (size_t i = 0; i < k->n_against; i++)
		assert_true(k->against[i].low < k->against[i].ratio &&
			k->against[i].ratio < k->against[i].high &&
			k->against[i].p >= 0 && k->against[i].p <= 1);
	close_demo(&d);
}

static void
compare__is_the_same_with_any_threads(void **state)
{
	struct fixture *f = *state;
	const struct work_compare_ask ask = {.firmness = WORK_FIRMNESS_FIRST};
	struct work_compared one, three, other;
	struct demo d;

	open_demo(f, &d);
	d.desk.n_keep = 300;
	d.desk.n_thread = 1;
	one = compare(f, &d, &ask);
	d.desk.n_thread = 3;
	three = compare(f, &d, &ask);
	d.desk.seed = 2;
	other = compare(f, &d, &ask);
	assert_int_equal(one.n_comparison, three.n_comparison);
	for (size_t i = 0; i < one.n_comparison; i++)
		for (size_t g = 0; g < one.comparison[i].n_group; g++) {
			const struct work_group *a =
				&one.comparison[i].group[g];
			const struct work_group *b =
				&three.comparison[i].group[g];

			assert_memory_equal(
				&a->answer, &b->answer, sizeof a->answer);
			assert_true(a->halved.median == b->halved.median);
			assert_true(a->adjusted.median == b->adjusted.median);
			assert_true(a->reach_next == b->reach_next);
		}
	assert_true(one.comparison[0].group[0].answer.median !=
		other.comparison[0].group[0].answer.median);
	close_demo(&d);
}

static void
compare__refuses_a_measure_without_readings(void **state)
{
	struct fixture *f = *state;
	const struct work_compare_ask ask = {
		.has_measure = true, .measure = CHOOSE_BREAKING_LOAD};
	struct work_compared all;
	struct demo d;

	open_demo(f, &d);
	assert_int_equal(ERR_INPUT,
		work_compare_asked(&d.desk, f->a, &ask, &all, &f->err));
	assert_string_equal("measure", f->err.field);
	assert_has(f->err.text, "breaking load");
	close_demo(&d);
}

/* The trial is held against a mix that was never cast. */
static void
compare__with_a_baseline_never_tested_tells_no_mix_better(void **state)
{
	struct fixture *f = *state;
	const struct book_trial *row = NULL;
	struct book_mix mix = {.row = {.typed = ""},
		.code = "V",
		.name = "never cast",
		.why = "",
		.matrix_code = "",
		.reinforcement = ""};
	struct book_trial trial;
	struct work_compared all;
	struct demo d;
	size_t n = 0;

	open_demo(f, &d);
	assert_ok(
		book_all_trial(d.desk.book, f->a, &row, &n, &f->err), &f->err);
	assert_int_equal(1, n);
	trial = row[0];
	assert_ok(book_begin(d.desk.book, 1772352000, "tester", "test", NULL,
			  &f->err),
		&f->err);
	assert_ok(book_put_mix(d.desk.book, &mix, &f->err), &f->err);
	trial.baseline_mix_id = mix.row.id;
	assert_ok(book_put_trial(d.desk.book, &trial, &f->err), &f->err);
	assert_ok(book_commit(d.desk.book, "", NULL, &f->err), &f->err);
	all = compare(f, &d, &bending);
	assert_int_equal(1, all.n_comparison);
	for (size_t g = 0; g < all.comparison[0].n_group; g++)
		assert_int_equal(
			CHOOSE_CANNOT_TELL, all.comparison[0].group[g].verdict);
	assert_has(all.comparison[0].sentence[0],
		"The baseline has no valid reading here");
	close_demo(&d);
}

static const struct CMUnitTest tests[] = {
	TEST(compare__agrees_with_the_scenario),
	TEST(compare__puts_the_excluded_back),
	TEST(compare__leaves_each_batch_out),
	TEST(compare__judges_mesh_beside_its_own_cubes),
	TEST(compare__allows_for_mixing_time),
	TEST(compare__says_what_another_batch_brings),
	TEST(compare__learns_spreads_from_another_book),
	TEST(compare__runs_the_textbook_tests),
	TEST(compare__is_the_same_with_any_threads),
	TEST(compare__refuses_a_measure_without_readings),
	TEST(compare__with_a_baseline_never_tested_tells_no_mix_better),
};

TEST_MAIN(tests)
