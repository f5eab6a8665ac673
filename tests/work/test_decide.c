/* test_decide.c - a decision is kept with its reason and the figures of the day.
 */
#include "work/decide.h"

#include "place.h"
#include "support.h"

#include "book/book.h"
#include "core/arena.h"
#include "work/choose.h"
#include "work/history.h"
#include "work/import.h"
#include "work/part.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static void
decide__keeps_reason_figures_and_quantities(void **state)
{
	struct fixture *f = *state;
	struct place p;
	const struct work_decide first = {"roof", "P", "few broken"},
				 second = {"roof", "B", "cheaper"},
				 other = {"floor", "B", "at hand"};
	const struct work_decision *row = NULL;
	const struct work_quantity *q = NULL;
	struct work_decision got;
	size_t n = 0, n_q = 0, n_roof = 0, entries = 0;

	open_place(f, &p);
	assert_ok(work_decide(&p.desk, f->a, &first, &got, &f->err), &f->err);
	assert_has(got.figures, "seed 7");
	assert_has(got.figures, "the next in line, ");
	assert_ok(work_decide(&p.desk, f->a, &second, &got, &f->err), &f->err);
	assert_ok(work_decide(&p.desk, f->a, &other, &got, &f->err), &f->err);
	assert_ok(work_decisions(&p.desk, f->a, &row, &n, &f->err), &f->err);
	assert_int_equal(2, n); /* the second supersedes the first */
	assert_string_equal("roof", row[0].part);
	assert_string_equal("B", row[0].mix);
	assert_string_equal("cheaper", row[0].because);
	assert_ok(work_quantities(&p.desk, f->a, &q, &n_q, &f->err), &f->err);
	for (size_t i = 0; i < n_q; i++) {
		if (strcmp(q[i].part, "roof") != 0 ||
			strcmp(q[i].what, "volume in place") != 0)
			continue;
		/* parts.csv of the demo gives the roof's volume */
		assert_near(q[i].value, 7.0, 1e-12, 0);
		n_roof++;
	}
	assert_int_equal(1, n_roof); /* those of the first are not counted */
	assert_ok(book_verify(p.desk.book, f->a, &entries, &f->err), &f->err);
	assert_int_equal(2 + 3, entries);
	close_place(&p);
}

static void
refuse(struct fixture *f, struct place *p, const char *part, const char *mix,
	const char *because, enum err_code code)
{
	const struct work_decide ask = {part, mix, because};
	const struct work_decision *row = NULL;
	struct work_decision got;
	size_t n = 0;

	assert_int_equal(
		code, work_decide(&p->desk, f->a, &ask, &got, &f->err));
	err_clear(&f->err);
	assert_ok(work_decisions(&p->desk, f->a, &row, &n, &f->err), &f->err);
	assert_int_equal(0, n);
}

static void
decide__takes_a_reason_and_what_is_in_the_book(void **state)
{
	struct fixture *f = *state;
	struct place p;

	open_place(f, &p);
	refuse(f, &p, "roof", "P", "", ERR_INPUT);
	refuse(f, &p, "roof", "P", NULL, ERR_INPUT);
	refuse(f, &p, "cellar", "P", "x", ERR_NOT_FOUND);
	refuse(f, &p, "roof", "Z9", "x", ERR_NOT_FOUND);
	close_place(&p);
}

/* A package at twice its price: only the cost of what it is in moves, and a
 * square metre costs the thickness times a cubic metre.  Nothing is written. */
static void
choose__asks_what_if_and_weighs(void **state)
{
	struct fixture *f = *state;
	const struct work_price price = {"cement", 1e5};
	struct work_choose_ask ask = {.part = "wall-w",
		.has_weight = true,
		.weight = {[WORK_CRITERION_COST] = 1}};
	struct work_chosen plain, dear;
	const struct work_weighed *w;
	size_t entries = 0;
	struct place p;

	open_place(f, &p);
	assert_ok(work_choose_asked(&p.desk, f->a, &ask, &plain, &f->err),
		&f->err);
	assert_int_equal(1, plain.n_part);
	w = &plain.weighed[0];
	assert_true(w->n > 1);
	for (size_t i = 1; i < w->n; i++) /* cost alone: the cheapest first */
		assert_true(
			w->middle[i * WORK_CRITERIA + WORK_CRITERION_COST] >=
			w->middle[(i - 1) * WORK_CRITERIA +
				WORK_CRITERION_COST]);
	ask.price = &price;
	ask.n_price = 1;
	ask.thickness_m = (struct maybe){true, 0.125};
	assert_ok(work_choose_asked(&p.desk, f->a, &ask, &dear, &f->err),
		&f->err);
	w = &dear.weighed[0];
	assert_true(w->cost_cents_per_m2[0].has);
	assert_near(w->cost_cents_per_m2[0].value,
		0.125 * w->middle[WORK_CRITERION_COST], 1e-9, 0);
	assert_true(w->middle[WORK_CRITERION_COST] >
		plain.weighed[0].middle[WORK_CRITERION_COST]);
	assert_near(dear.part[0].candidate[0].p_all,
		plain.part[0].candidate[0].p_all, 0.05, 0);
	ask.thickness_m.value = 0;
	assert_int_equal(ERR_INPUT,
		work_choose_asked(&p.desk, f->a, &ask, &dear, &f->err));
	err_clear(&f->err);
	assert_ok(book_verify(p.desk.book, f->a, &entries, &f->err), &f->err);
	assert_int_equal(2, entries); /* made and imported, no more */
	close_place(&p);
}

/* Nothing was ever made of it: refused, and the book is as it was. */
static void
decide__refuses_a_mix_without_results(void **state)
{
	struct fixture *f = *state;
	const struct work_decide ask = {
		.part = "floor", .mix = "NEW", .because = "hope"};
	struct book_mix mix = {.row.typed = "",
		.code = "NEW",
		.name = "New",
		.why = "",
		.matrix_code = "",
		.reinforcement = ""};
	const struct work_decision *all;
	struct work_decision got;
	struct place p;
	size_t n;

	open_place(f, &p);
	assert_ok(book_begin(p.desk.book, MOMENT_S, "tester", "mix", NULL,
			  &f->err),
		&f->err);
	assert_ok(book_put_mix(p.desk.book, &mix, &f->err), &f->err);
	assert_ok(book_commit(p.desk.book, "NEW", NULL, &f->err), &f->err);
	assert_int_equal(
		ERR_INPUT, work_decide(&p.desk, f->a, &ask, &got, &f->err));
	assert_has(f->err.text, "has no results");
	err_clear(&f->err);
	assert_ok(work_decisions(&p.desk, f->a, &all, &n, &f->err), &f->err);
	assert_int_equal(0, n);
	close_place(&p);
}

/* A part whose duty is known before its sizes: decided, without quantities. */
static void
decide__takes_a_part_without_sizes(void **state)
{
	struct fixture *f = *state;
	const struct work_part_ask part = {.code = "bare",
		.form = "wall",
		.bound = {{"dry_density", "700 kg/m3", false}},
		.n_bound = 1,
		.source = "own wish"};
	const struct work_decide ask = {
		.part = "bare", .mix = "B", .because = "ordinary"};
	const struct work_decision *all;
	struct work_decision got;
	struct place p;
	bool made;
	size_t n;

	open_place(f, &p);
	assert_ok(work_part_put(&p.desk, f->a, &part, &made, &f->err), &f->err);
	assert_ok(work_decide(&p.desk, f->a, &ask, &got, &f->err), &f->err);
	assert_ok(work_decisions(&p.desk, f->a, &all, &n, &f->err), &f->err);
	assert_int_equal(1, n);
	close_place(&p);
}

/* ---- another tongue ---- */

enum { TEXTS = 4096 };

/* A tongue that knows every text, and says it in brackets. */
struct brackets {
	char *said[TEXTS];
	size_t n;
};

static const char *
bracket(const void *with, const char *english)
{
	struct brackets *b = *(struct brackets *const *)with;
	size_t length = strlen(english);

	if (length == 0)
		return english;
	for (size_t i = 0; i < b->n; i++)
		if (strlen(b->said[i]) == length + 2 &&
			memcmp(b->said[i] + 1, english, length) == 0)
			return b->said[i];
	assert_true(b->n < TEXTS);
	b->said[b->n] = malloc(length + 3);
	assert_non_null(b->said[b->n]);
	(void)snprintf(b->said[b->n], length + 3, "[%s]", english);
	return b->said[b->n++];
}

/* A text said in brackets is the English one but for them. */
static void
assert_said(const char *said, const char *english)
{
	char bare[2000];
	size_t n = 0;

	assert_true(strlen(said) < sizeof bare);
	for (; *said != '\0'; said++)
		if (*said != '[' && *said != ']')
			bare[n++] = *said;
	bare[n] = '\0';
	assert_string_equal(bare, english);
}

static void
compare_histories(struct place *p, struct arena *told, struct arena *plain,
	struct err *err)
{
	struct work_history h = {0}, kept = {0};

	assert_ok(work_history(&p->desk, told, 0, 0, &h, err), err);
	assert_ok(work_history(&p->desk, plain, 0, 0, &kept, err), err);
	assert_int_equal(kept.n, h.n);
	for (size_t i = 0; i < h.n; i++) {
		assert_said(h.entry[i].what, kept.entry[i].what);
		assert_said(h.entry[i].detail, kept.entry[i].detail);
		assert_said(h.entry[i].touched, kept.entry[i].touched);
		assert_null(strchr(kept.entry[i].detail, '['));
		assert_has(h.entry[i].what, "[");
	}
	assert_string_equal("[decide]", h.entry[0].what);
	assert_string_equal("[roof: mix P]", h.entry[0].detail);
	assert_has(h.entry[0].touched, "[new]");
	assert_has(h.entry[0].touched, "[decision]");
	assert_has(h.entry[1].touched, "[test pieces]");
}

/* Whoever decides in another tongue reads it there; the book keeps English. */
static void
decide__is_kept_in_english_and_said_in_any_tongue(void **state)
{
	struct fixture *f = *state;
	const struct work_decide ask = {"roof", "P", "few broken"};
	struct brackets *all = calloc(1, sizeof *all);
	struct arena *told = arena_new((size_t)1 << 28);
	const struct work_decision *row = NULL, *plain = NULL;
	const struct work_quantity *q = NULL;
	struct work_decision got;
	struct place p;
	size_t n = 0;

	assert_non_null(all);
	open_place(f, &p);
	arena_speak(told, (struct tongue){.find = bracket, .with = &all});
	assert_ok(work_decide(&p.desk, told, &ask, &got, &f->err), &f->err);
	assert_has(got.figures, "[chance that the next batch meets all: ");
	assert_has(got.figures, " at [most] ");
	assert_has(got.figures, "[; seed 7]");
	assert_ok(work_decisions(&p.desk, told, &row, &n, &f->err), &f->err);
	assert_string_equal(got.figures, row[0].figures);
	assert_ok(work_decisions(&p.desk, f->a, &plain, &n, &f->err), &f->err);
	assert_null(strchr(plain[0].figures, '['));
	assert_said(row[0].figures, plain[0].figures);
	assert_ok(work_quantities(&p.desk, f->a, &q, &n, &f->err), &f->err);
	for (size_t i = 0; i < n; i++)
		assert_null(strchr(q[i].what, '['));
	compare_histories(&p, told, f->a, &f->err);
	arena_free(told);
	for (size_t i = 0; i < all->n; i++)
		free(all->said[i]);
	free(all);
	close_place(&p);
}

/* Mix L's dry weight is over 99 in 100 sure to do, its strength hardly ever. */
static void
decide__never_writes_that_it_is_sure(void **state)
{
	struct fixture *f = *state;
	const struct work_decide ask = {"wall-w", "L", "to see its figures"};
	struct work_decision got;
	struct place p;

	open_place(f, &p);
	assert_ok(work_decide(&p.desk, f->a, &ask, &got, &f->err), &f->err);
	assert_has(got.figures, ": 99 %");
	assert_null(strstr(got.figures, " 100 %"));
	assert_null(strstr(got.figures, " 0 %"));
	close_place(&p);
}

static const struct CMUnitTest tests[] = {
	TEST(decide__is_kept_in_english_and_said_in_any_tongue),
	TEST(decide__never_writes_that_it_is_sure),
	TEST(decide__refuses_a_mix_without_results),
	TEST(decide__takes_a_part_without_sizes),
	TEST(choose__asks_what_if_and_weighs),
	TEST(decide__keeps_reason_figures_and_quantities),
	TEST(decide__takes_a_reason_and_what_is_in_the_book),
};

TEST_MAIN(tests)
