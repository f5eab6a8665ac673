/* test_confirm.c - a round foretold, made and read; its figure replaces the
 * first. */
#include "work/confirm.h"

#include "place.h"
#include "support.h"

#include "book/book.h"
#include "core/text.h"
#include "work/choose.h"
#include "work/import.h"
#include "work/takeoff.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* Invented: the batch once more, its beams breaking at `factor` of the weight. */
static void
copy_pieces(struct fixture *f, struct place *p, const struct work_site *site,
	size_t batch, int64_t new_id, const char *mark, double factor)
{
	for (size_t s = 0; s < site->n_specimen; s++) {
		struct book_specimen piece = site->specimen[s];

		if (site->specimen_batch[s] != batch)
			continue;
		piece.row = (struct book_row){.typed = ""};
		piece.batch_id = new_id;
		piece.code = text_format(f->a, "%s%s", mark, piece.code);
		assert_ok(book_put_specimen(p->desk.book, &piece, &f->err),
			&f->err);
		for (size_t r = 0; r < site->n_reading; r++) {
			struct book_reading reading = site->reading[r];

			if (site->reading_specimen[r] != s)
				continue;
			reading.row = (struct book_row){.typed = ""};
			reading.specimen_id = piece.row.id;
			reading.bending.held_kg *= factor;
			reading.bending.broke_kg.value *= factor;
			assert_ok(book_put_reading(
					  p->desk.book, &reading, &f->err),
				&f->err);
		}
	}
}

/* Settling of every batch made again. */
static const double fresh_loss = 0.0625;

static void
make_again(struct fixture *f, struct place *p, const char *mix,
	const char *mark, double factor)
{
	struct work_site site;
	size_t m, n = 0;

	assert_ok(work_site_read(p->desk.book, f->a, &site, &f->err), &f->err);
	assert_true(work_site_mix(&site, mix, &m));
	assert_ok(book_begin(p->desk.book, MOMENT_S, "tester", "copy", NULL,
			  &f->err),
		&f->err);
	for (size_t b = 0; b < site.n_batch && n == 0; b++) {
		struct book_batch batch = site.batch[b];

		if (site.batch_mix[b] != m || batch.practice)
			continue;
		batch.row = (struct book_row){.typed = ""};
		batch.code = text_format(f->a, "%s%s", mark, batch.code);
		assert_ok(
			book_put_batch(p->desk.book, &batch, &f->err), &f->err);
		copy_pieces(f, p, &site, b, batch.row.id, mark, factor);
		struct book_settling settling = {.row = {.typed = ""},
			.batch_id = batch.row.id,
			.after_s = 86400,
			.loss_ratio = fresh_loss};
		assert_ok(book_put_settling(p->desk.book, &settling, &f->err),
			&f->err);
		n++;
	}
	assert_int_equal(1, n);
	assert_ok(book_commit(p->desk.book, "", NULL, &f->err), &f->err);
}

static struct work_confirmation
row_of(struct fixture *f, struct place *p, const char *mix,
	enum choose_measure measure)
{
	const struct work_confirmation *row = NULL;
	size_t n = 0;

	assert_ok(
		work_confirmations(&p->desk, f->a, &row, &n, &f->err), &f->err);
	for (size_t i = 0; i < n; i++)
		if (row[i].measure == measure && strcmp(row[i].mix, mix) == 0)
			return row[i];
	fail();
	return row[0];
}

static struct work_group
group_of(struct fixture *f, struct place *p, const char *mix)
{
	struct work_compared all;
	const struct work_comparison *c;
	size_t m;

	assert_ok(work_compare(&p->desk, f->a, &all, &f->err), &f->err);
	assert_true(work_site_mix(&all.site, mix, &m));
	c = work_comparison_of(&all, CHOOSE_BENDING_STRENGTH);
	assert_non_null(c);
	assert_non_null(work_group_of(&all, c, m));
	return *work_group_of(&all, c, m);
}

/* The settling that takeoff fills up, of mix P. */
static double
settling_of(struct fixture *f, struct place *p)
{
	const struct work_pair mix = {"roof", "P"};
	const char *const part = "roof";
	const struct work_takeoff_ask ask = {
		.part = &part, .n_part = 1, .mix = &mix, .n_mix = 1};
	struct work_takeoff got;

	assert_ok(work_takeoff(&p->desk, f->a, &ask, &got, &f->err), &f->err);
	assert_int_equal(1, got.n_part);
	return got.part[0].settling_ratio;
}

static void
confirm__is_foretold_then_judged_and_replaces(void **state)
{
	struct fixture *f = *state;
	const struct work_confirm ask = {"roof", "P", 2};
	struct work_group before, waiting, after;
	struct work_confirmation r;
	struct place p;
	size_t n = 0, entries = 0;

	open_place(f, &p);
	before = group_of(f, &p, "P");
	assert_ok(
		work_confirm_begin(&p.desk, f->a, &ask, &n, &f->err), &f->err);
	assert_true(n > 2);
	make_again(f, &p, "P", "X", 0.6);
	r = row_of(f, &p, "P", CHOOSE_BENDING_STRENGTH);
	assert_false(r.is_done);
	assert_int_equal(1, r.n_tested);
	waiting = group_of(f, &p, "P");
	assert_int_equal(before.n_batch + 1, waiting.n_batch);
	assert_true(settling_of(f, &p) < fresh_loss);
	make_again(f, &p, "P", "Y", 0.6);
	assert_near(settling_of(f, &p), fresh_loss, 1e-12, 0);
	r = row_of(f, &p, "P", CHOOSE_BENDING_STRENGTH);
	assert_true(r.is_done);
	assert_false(r.is_baseline);
	assert_int_equal(CHOOSE_CONFIRMED_LOW, r.verdict); /* 40 % less */
	after = group_of(f, &p, "P");
	assert_int_equal(2, after.n_batch);
	assert_true(after.n_excluded >= before.n_value);
	assert_true(after.answer.median < 0.8 * before.answer.median);
	r = row_of(f, &p, "B", CHOOSE_BENDING_STRENGTH);
	assert_true(r.is_baseline);
	assert_false(r.is_done);
	assert_ok(book_verify(p.desk.book, f->a, &entries, &f->err), &f->err);
	close_place(&p);
}

/* The baseline is chosen by nobody: its earlier batches stay. */
static void
confirm__keeps_the_baseline_whole(void **state)
{
	struct fixture *f = *state;
	const struct work_confirm ask = {"roof", "P", 2};
	size_t n = 0, n_before;
	struct place p;

	open_place(f, &p);
	n_before = group_of(f, &p, "B").n_batch;
	assert_ok(
		work_confirm_begin(&p.desk, f->a, &ask, &n, &f->err), &f->err);
	make_again(f, &p, "B", "X", 1);
	make_again(f, &p, "B", "Y", 1);
	assert_true(row_of(f, &p, "B", CHOOSE_BENDING_STRENGTH).is_done);
	assert_int_equal(n_before + 2, group_of(f, &p, "B").n_batch);
	close_place(&p);
}

static void
refuse(struct fixture *f, struct place *p, const struct work_confirm *ask,
	enum err_code code, const char *says)
{
	size_t n = 0;

	assert_int_equal(
		code, work_confirm_begin(&p->desk, f->a, ask, &n, &f->err));
	assert_has(f->err.text, says);
	err_clear(&f->err);
}

static void
confirm__refuses_what_cannot_be(void **state)
{
	struct fixture *f = *state;
	const struct work_confirm good = {"roof", "P", 2},
				  one = {"roof", "P", 1},
				  lost = {"roof", "Z", 2},
				  nowhere = {"attic", "P", 2},
				  undecided = {"roof", NULL, 2};
	const struct work_confirmation *row = NULL;
	struct place p;
	size_t n = 0;

	open_place(f, &p);
	refuse(f, &p, &one, ERR_INPUT, "one batch confirms nothing");
	refuse(f, &p, &lost, ERR_NOT_FOUND, "no mix");
	refuse(f, &p, &nowhere, ERR_NOT_FOUND, "attic");
	refuse(f, &p, &undecided, ERR_INPUT, "decide");
	assert_ok(
		work_confirmations(&p.desk, f->a, &row, &n, &f->err), &f->err);
	assert_int_equal(0, n);
	assert_ok(
		work_confirm_begin(&p.desk, f->a, &good, &n, &f->err), &f->err);
	refuse(f, &p, &good, ERR_CONFLICT, "begun already");
	close_place(&p);
}

static const struct CMUnitTest tests[] = {
	TEST(confirm__is_foretold_then_judged_and_replaces),
	TEST(confirm__keeps_the_baseline_whole),
	TEST(confirm__refuses_what_cannot_be),
};

TEST_MAIN(tests)
