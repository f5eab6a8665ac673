/* test_withdraw.c - what is taken back no longer counts, and stays written. */
#include "work/withdraw.h"

#include "place.h"

#include "book/book.h"
#include "work/site.h"

#include <string.h>

struct tally {
	size_t n_batch, n_specimen, n_reading, n_settling, n_entry;
};

/* Also: every row that holds points at one that holds, every digest is true. */
static struct tally
tally(struct fixture *f, struct place *p)
{
	struct work_site site;
	struct tally t;

	assert_ok(work_site_read(p->desk.book, f->a, &site, &f->err), &f->err);
	t = (struct tally){.n_batch = site.n_batch,
		.n_specimen = site.n_specimen,
		.n_reading = site.n_reading,
		.n_settling = site.n_settling};
	assert_ok(
		book_verify(p->desk.book, f->a, &t.n_entry, &f->err), &f->err);
	return t;
}

static enum err_code
turn(struct fixture *f, struct place *p, bool restore, const char *kind,
	const char *code)
{
	const struct work_withdraw ask = {.kind = kind,
		.word = {code, "bending", "1"},
		.n_word = strcmp(kind, "reading") == 0 ? 3 : 1,
		.because = "wrong sheet copied",
		.restore = restore};
	enum err_code got = work_withdraw(&p->desk, f->a, &ask, &f->err);

	err_clear(&f->err);
	return got;
}

static void
withdraw__takes_what_belongs_and_gives_it_back(void **state)
{
	struct fixture *f = *state;
	struct place p;
	struct tally before, without, after;

	open_place(f, &p);
	before = tally(f, &p);
	assert_int_equal(ERR_NONE, turn(f, &p, false, "batch", "03"));
	without = tally(f, &p);
	assert_int_equal(before.n_batch - 1, without.n_batch);
	assert_true(without.n_specimen < before.n_specimen);
	assert_true(without.n_reading < before.n_reading);
	assert_true(without.n_settling < before.n_settling);
	assert_int_equal(before.n_entry + 1, without.n_entry);
	assert_int_equal(ERR_NONE, turn(f, &p, true, "batch", "03"));
	after = tally(f, &p);
	assert_int_equal(before.n_batch, after.n_batch);
	assert_int_equal(before.n_specimen, after.n_specimen);
	assert_int_equal(before.n_reading, after.n_reading);
	assert_int_equal(before.n_settling, after.n_settling);
	assert_int_equal(before.n_entry + 2, after.n_entry);
	close_place(&p);
}

/* One reading was taken back before its batch was: it is not given back with
 * the batch, since another entry took it. */
static void
withdraw__gives_back_only_what_that_deed_took(void **state)
{
	struct fixture *f = *state;
	struct place p;
	struct tally before, after;

	open_place(f, &p);
	before = tally(f, &p);
	assert_int_equal(ERR_NONE, turn(f, &p, false, "reading", "01-B-1"));
	assert_int_equal(ERR_NONE, turn(f, &p, false, "batch", "01"));
	assert_int_equal(ERR_CONFLICT, turn(f, &p, true, "specimen", "01-B-1"));
	assert_int_equal(ERR_NONE, turn(f, &p, true, "batch", "01"));
	after = tally(f, &p);
	assert_int_equal(before.n_specimen, after.n_specimen);
	assert_int_equal(before.n_reading - 1, after.n_reading);
	assert_int_equal(ERR_NONE, turn(f, &p, true, "reading", "01-B-1"));
	after = tally(f, &p);
	assert_int_equal(before.n_reading, after.n_reading);
	close_place(&p);
}

static void
withdraw__the_same_folder_does_not_bring_it_back(void **state)
{
	struct fixture *f = *state;
	struct place p;
	struct work_imported out;
	struct tally without, after;
	size_t n_withdrawn = 0;

	open_place(f, &p);
	assert_int_equal(ERR_NONE, turn(f, &p, false, "batch", "03"));
	without = tally(f, &p);
	import_demo(f, &p, &out);
	for (size_t i = 0; i < out.n_count; i++)
		n_withdrawn += out.count[i].n_withdrawn;
	assert_true(n_withdrawn > 1);
	after = tally(f, &p);
	assert_int_equal(without.n_entry, after.n_entry);
	assert_int_equal(without.n_specimen, after.n_specimen);
	close_place(&p);
}

static void
withdraw__refuses_what_would_not_fit(void **state)
{
	struct fixture *f = *state;
	struct place p;
	struct tally before, after;

	open_place(f, &p);
	before = tally(f, &p);
	assert_int_equal(ERR_CONFLICT, turn(f, &p, false, "mix", "B"));
	assert_int_equal(ERR_NOT_FOUND, turn(f, &p, false, "batch", "no"));
	assert_int_equal(ERR_INPUT, turn(f, &p, false, "house", "03"));
	assert_int_equal(ERR_CONFLICT, turn(f, &p, true, "batch", "03"));
	after = tally(f, &p);
	assert_int_equal(before.n_entry, after.n_entry);
	close_place(&p);
}

static const struct CMUnitTest tests[] = {
	TEST(withdraw__takes_what_belongs_and_gives_it_back),
	TEST(withdraw__gives_back_only_what_that_deed_took),
	TEST(withdraw__the_same_folder_does_not_bring_it_back),
	TEST(withdraw__refuses_what_would_not_fit),
};

TEST_MAIN(tests)
