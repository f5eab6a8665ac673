/* test_search.c - things found by code or text. */
#include "work/search.h"

#include "support.h"

#include "book/book.h"
#include "work/import.h"
#include "work/withdraw.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { PATH_ROOM = 4096, MOMENT_S = 1773651600 };

struct place {
	char folder[64], book[96];
	struct desk desk;
};

static void
open_place(struct fixture *f, struct place *p)
{
	static const struct book_info info = {.row.typed = "",
		.name = "Demo",
		.note = "",
		.gallon = "us",
		.currency = "units"};
	const char *source = getenv("FOAMWRIGHT_SOURCE");
	char demo[PATH_ROOM];
	const struct work_import ask = {.folder = demo};
	struct work_imported out;

	memset(p, 0, sizeof *p);
	snprintf(p->folder, sizeof p->folder, "/var/tmp/fwXXXXXX");
	assert_non_null(mkdtemp(p->folder));
	snprintf(p->book, sizeof p->book, "%s/a.book", p->folder);
	snprintf(demo, sizeof demo, "%s/demo", source != NULL ? source : ".");
	p->desk = (struct desk){.now_utc_s = MOMENT_S, .who = "tester"};
	assert_ok(book_create(p->book, &info, MOMENT_S, "tester", &p->desk.book,
			  &f->err),
		&f->err);
	assert_ok(work_import(&p->desk, f->a, &ask, &out, &f->err), &f->err);
	assert_ok(book_begin(p->desk.book, MOMENT_S, "tester", "material", NULL,
			  &f->err),
		&f->err);
	assert_ok(book_put_material(p->desk.book,
			  &(struct book_material){.code = "odd",
				  .name = "Ash 50% <b>",
				  .role = "filler",
				  .note = "under_score"},
			  &f->err),
		&f->err);
	assert_ok(book_commit(p->desk.book, "odd", NULL, &f->err), &f->err);
}

static void
close_place(struct place *p)
{
	book_close(p->desk.book);
	unlink(p->book);
	rmdir(p->folder);
}

static struct work_found
search(struct fixture *f, struct place *p, const char *words, size_t n_most)
{
	const struct work_search ask = {.words = words, .n_most = n_most};
	struct work_found found = {0};

	assert_ok(work_search(&p->desk, f->a, &ask, &found, &f->err), &f->err);
	return found;
}

static void
search__finds_codes_first_and_texts_in_any_order(void **state)
{
	struct fixture *f = *state;
	struct place p;
	struct work_found found;

	open_place(f, &p);
	found = search(f, &p, "03", 50);
	assert_string_equal("batch", found.hit[0].kind);
	assert_string_equal("03", found.hit[0].name);
	assert_true(found.n > 1); /* its pieces, and dates with 03 */
	for (size_t i = 1; i < found.n; i++)
		assert_true(strcmp(found.hit[i].kind, "batch") != 0 ||
			strcmp(found.hit[i].name, "03") != 0);
	found = search(f, &p, " FOAMED  480 ", 50);
	assert_int_equal(1, found.n);
	assert_string_equal("03", found.hit[0].name);
	found = search(f, &p, "480 foamed", 50);
	assert_int_equal(1, found.n);
	assert_int_equal(0, search(f, &p, "480 foamed cheese", 50).n);
	found = search(f, &p, "beam", 5);
	assert_int_equal(5, found.n);
	assert_true(found.more);
	close_place(&p);
}

static void
search__takes_signs_as_they_are(void **state)
{
	struct fixture *f = *state;
	struct place p;

	open_place(f, &p);
	assert_int_equal(1, search(f, &p, "50%", 50).n);
	assert_int_equal(1, search(f, &p, "0% <b", 50).n);
	assert_int_equal(1, search(f, &p, "r_s", 50).n);
	assert_int_equal(0, search(f, &p, "5_%", 50).n);
	assert_int_equal(0, search(f, &p, "a\\h", 50).n);
	assert_int_equal(0, search(f, &p, "' OR 1=1 --", 50).n);
	close_place(&p);
}

static void
search__leaves_out_what_was_withdrawn(void **state)
{
	struct fixture *f = *state;
	struct place p;
	const struct work_withdraw ask = {.kind = "batch",
		.word = {"03"},
		.n_word = 1,
		.because = "wrong sheet"};

	open_place(f, &p);
	assert_ok(work_withdraw(&p.desk, f->a, &ask, &f->err), &f->err);
	assert_int_equal(0, search(f, &p, "foamed 480", 50).n);
	close_place(&p);
}

static void
search__refuses_nothing_and_too_much(void **state)
{
	struct fixture *f = *state;
	struct place p;
	static const char *const words[] = {"", " \t ", "a b c d e"};

	open_place(f, &p);
	for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
		const struct work_search ask = {.words = words[i], .n_most = 5};
		struct work_found found;

		assert_int_equal(ERR_INPUT,
			work_search(&p.desk, f->a, &ask, &found, &f->err));
		err_clear(&f->err);
	}
	close_place(&p);
}

static const struct CMUnitTest searches[] = {
	TEST(search__finds_codes_first_and_texts_in_any_order),
	TEST(search__takes_signs_as_they_are),
	TEST(search__leaves_out_what_was_withdrawn),
	TEST(search__refuses_nothing_and_too_much),
};

TEST_MAIN(searches)
