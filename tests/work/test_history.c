/* test_history.c - every entry can be put back, and nothing is lost by it. */
#include "work/history.h"

#include "support.h"

#include "book/book.h"
#include "book/book_priv.h"
#include "book/things.h"
#include "core/rng.h"
#include "core/text.h"
#include "work/withdraw.h"

#include <sqlite3.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { MOMENT_S = 1773651600, DEEDS = 300, PLACES = 5 };

struct place {
	char folder[64], book[96];
	struct desk desk;
	sqlite3 *eye; /* another connection, which only looks */
};

static void
open_place(struct fixture *f, struct place *p)
{
	static const struct book_info info = {.row.typed = "",
		.name = "Undoing",
		.note = "",
		.gallon = "us",
		.currency = "units"};

	memset(p, 0, sizeof *p);
	snprintf(p->folder, sizeof p->folder, "/var/tmp/fwXXXXXX");
	assert_non_null(mkdtemp(p->folder));
	snprintf(p->book, sizeof p->book, "%s/a.book", p->folder);
	p->desk = (struct desk){.now_utc_s = MOMENT_S, .who = "tester"};
	assert_ok(book_create(p->book, &info, MOMENT_S, "tester", &p->desk.book,
			  &f->err),
		&f->err);
	assert_int_equal(SQLITE_OK,
		sqlite3_open_v2(p->book, &p->eye, SQLITE_OPEN_READONLY, NULL));
}

static void
close_place(struct place *p)
{
	sqlite3_close(p->eye);
	book_close(p->desk.book);
	unlink(p->book);
	rmdir(p->folder);
}

/* ---- what holds, as text ---- */

static void
add_table(struct text *text, sqlite3 *eye, const char *sql)
{
	sqlite3_stmt *s = NULL;

	assert_int_equal(SQLITE_OK, sqlite3_prepare_v2(eye, sql, -1, &s, NULL));
	while (sqlite3_step(s) == SQLITE_ROW) {
		for (int i = 0; i < sqlite3_column_count(s); i++) {
			const char *name = sqlite3_column_name(s, i);
			const char *value = (const char *)sqlite3_column_text(
				s, i);

			if (strcmp(name, "id") != 0 &&
				strcmp(name, "revision") != 0 &&
				strcmp(name, "reading_id") != 0 &&
				strcmp(name, "decision_id") != 0 &&
				strcmp(name, "history_id") != 0)
				text_addf(text, "%s|",
					value != NULL ? value : "-");
		}
		text_add(text, "\n");
	}
	sqlite3_finalize(s);
}

static const char *
shown(struct fixture *f, struct place *p)
{
	static const char *const sql[] = {
#define HOLDS(table, file, words)                                         \
	"SELECT * FROM " file " AS t WHERE withdrawn = 0 AND revision = " \
	"(SELECT max(revision) FROM " file                                \
	" AS n WHERE n.origin = t.origin) ORDER BY origin",
		BOOK_THINGS(HOLDS)
#undef HOLDS
#define KIND(file)                                                        \
	"SELECT k.*, t.origin FROM " file " AS k JOIN reading AS t ON "   \
	"t.id = k.reading_id WHERE withdrawn = 0 AND revision = (SELECT " \
	"max(revision) FROM reading AS n WHERE n.origin = t.origin) "     \
	"ORDER BY t.origin"
			KIND("reading_bending"),
		KIND("reading_weighing"), KIND("reading_drop"),
#undef KIND
		"SELECT q.what, q.value, q.unit, t.origin FROM quantity AS q "
		"JOIN decision AS t ON t.id = q.decision_id WHERE "
		"t.withdrawn = 0 AND t.revision = (SELECT max(revision) FROM "
		"decision AS n WHERE n.origin = t.origin) ORDER BY t.origin, "
		"q.id"};
	struct text text;

	text_init(&text, f->a);
	for (size_t i = 0; i < sizeof sql / sizeof sql[0]; i++) {
		text_addf(&text, "%zu\n", i);
		add_table(&text, p->eye, sql[i]);
	}
	assert_false(text_failed(&text));
	return text.bytes;
}

static void
check_digests(struct fixture *f, struct place *p)
{
	size_t n = 0;

	assert_ok(book_verify(p->desk.book, f->a, &n, &f->err), &f->err);
}

/* ---- random deeds ---- */

struct deeds {
	struct fixture *f;
	struct place *p;
	uint64_t draws; /* so far */
	size_t n_made, n_refused;
};

static size_t
any(struct deeds *d, size_t n)
{
	return (size_t)(rng_mix(20260502, d->draws++) % n);
}

static const char *
code_of(struct deeds *d, const char *letter)
{
	return text_format(d->f->a, "%s%zu", letter, any(d, PLACES));
}

static double
figure(struct deeds *d)
{
	return 1.5 + (double)any(d, 9000) / 7;
}

/* A put of something that may hold already: then it is its next revision. */
#define PUT(kind, to, same)                                                \
	do {                                                               \
		const struct book_##kind *all_ = NULL;                     \
		size_t n_ = 0;                                             \
		assert_ok(book_all_##kind(d->p->desk.book, d->f->a, &all_, \
				  &n_, &d->f->err),                        \
			&d->f->err);                                       \
		for (size_t i_ = 0; i_ < n_; i_++) {                       \
			const struct book_##kind *old = &all_[i_];         \
			if (same)                                          \
				(to)->row.id = old->row.id;                \
		}                                                          \
		return book_put_##kind(d->p->desk.book, (to), &d->f->err); \
	} while (0)

#define SAME(member) strcmp(old->member, row.member) == 0

/* A thing that holds now, NULL if there is none. */
#define PICK(kind, to)                                                     \
	do {                                                               \
		const struct book_##kind *all_ = NULL;                     \
		size_t n_ = 0;                                             \
		assert_ok(book_all_##kind(d->p->desk.book, d->f->a, &all_, \
				  &n_, &d->f->err),                        \
			&d->f->err);                                       \
		(to) = n_ > 0 ? &all_[any(d, n_)] : NULL;                  \
	} while (0)

static enum err_code
put_material(struct deeds *d)
{
	struct book_material row = {.code = code_of(d, "m"),
		.name = "ash",
		.role = "binder",
		.note = "",
		.package_kg = {true, figure(d)}};

	PUT(material, &row, SAME(code));
}

static enum err_code
put_mix(struct deeds *d)
{
	struct book_mix row = {.code = code_of(d, "X"),
		.name = "a mix",
		.why = "",
		.reinforcement = "",
		.wet_target_kg_m3 = {true, figure(d)}};

	row.matrix_code = row.code;
	PUT(mix, &row, SAME(code));
}

static enum err_code
put_mix_part(struct deeds *d)
{
	const struct book_mix *mix;
	const struct book_material *material;
	struct book_mix_part row = {.mass_kg_per_m3 = figure(d)};

	PICK(mix, mix);
	PICK(material, material);
	if (mix == NULL || material == NULL)
		return ERR_NONE;
	row.mix_id = mix->row.id;
	row.material_id = material->row.id;
	PUT(mix_part, &row,
		old->mix_id == row.mix_id &&
			old->material_id == row.material_id);
}

static enum err_code
put_trial(struct deeds *d)
{
	const struct book_mix *mix;
	struct book_trial row = {.code = code_of(d, "T"), .question = "which"};

	PICK(mix, mix);
	if (mix == NULL)
		return ERR_NONE;
	row.baseline_mix_id = mix->row.id;
	PUT(trial, &row, SAME(code));
}

static enum err_code
put_batch(struct deeds *d)
{
	const struct book_mix *mix;
	const struct book_trial *trial;
	struct book_batch row = {.code = code_of(d, "b"),
		.made_on = "2026-05-02",
		.remark = "",
		.wet_kg_m3 = {true, figure(d)}};

	PICK(mix, mix);
	PICK(trial, trial);
	if (mix == NULL || trial == NULL)
		return ERR_NONE;
	row.mix_id = mix->row.id;
	row.trial_id = trial->row.id;
	PUT(batch, &row, SAME(code));
}

static enum err_code
put_specimen(struct deeds *d)
{
	const struct book_batch *batch;
	struct book_specimen row = {.code = code_of(d, "s"),
		.form = "beam",
		.fate = "tested",
		.remark = "",
		.damage = "",
		.mass_kg = {true, figure(d)}};

	PICK(batch, batch);
	if (batch == NULL)
		return ERR_NONE;
	row.batch_id = batch->row.id;
	PUT(specimen, &row, SAME(code));
}

static enum err_code
put_reading(struct deeds *d)
{
	const struct book_specimen *piece;
	bool bending = any(d, 2) == 0;
	struct book_reading row = {.code = code_of(d, "r"),
		.kind = bending ? "bending" : "weighing",
		.remark = "",
		.bending = {.loading = "centre", .held_kg = figure(d)},
		.weighing = {.state = "at test", .mass_kg = figure(d)}};

	PICK(specimen, piece);
	if (piece == NULL)
		return ERR_NONE;
	row.specimen_id = piece->row.id;
	PUT(reading, &row,
		SAME(code) && SAME(kind) &&
			old->specimen_id == row.specimen_id);
}

static enum err_code
put_part(struct deeds *d)
{
	struct book_part row = {.code = code_of(d, "p"),
		.name = "roof",
		.kind = "roof",
		.note = "",
		.volume_m3 = {true, figure(d)}};

	PUT(part, &row, SAME(code));
}

static enum err_code
put_part_use(struct deeds *d)
{
	const struct book_part *part;
	struct book_part_use row = {
		.form = "wall", .grip = "", .span_m = {true, figure(d)}};

	PICK(part, part);
	if (part == NULL)
		return ERR_NONE;
	row.part_id = part->row.id;
	PUT(part_use, &row, old->part_id == row.part_id);
}

static enum err_code
put_decision_row(struct deeds *d, struct book_decision *made)
{
	const struct book_part *part;
	const struct book_mix *mix;
	struct book_decision row = {.reason = "lighter", .figures = ""};
	const struct book_decision *all = NULL;
	enum err_code code;
	size_t n = 0;

	PICK(part, part);
	PICK(mix, mix);
	*made = row;
	if (part == NULL || mix == NULL)
		return ERR_NONE;
	row.part_id = part->row.id;
	row.mix_id = mix->row.id;
	assert_ok(book_all_decision(
			  d->p->desk.book, d->f->a, &all, &n, &d->f->err),
		&d->f->err);
	for (size_t i = 0; i < n; i++)
		if (all[i].part_id == row.part_id)
			row.row.id = all[i].row.id;
	code = book_put_decision(d->p->desk.book, &row, &d->f->err);
	*made = row;
	return code;
}

static enum err_code
put_decision(struct deeds *d)
{
	struct book_decision row;
	struct book_quantity quantity = {
		.what = "cement", .unit = "kg", .value = figure(d)};
	enum err_code code = put_decision_row(d, &row);

	if (code != ERR_NONE || row.row.id == 0)
		return code;
	quantity.decision_id = row.row.id;
	return book_put_quantity(d->p->desk.book, &quantity, &d->f->err);
}

static enum err_code (*const puts_of[])(struct deeds *) = {put_material,
	put_mix, put_mix_part, put_trial, put_batch, put_specimen, put_specimen,
	put_reading, put_reading, put_part, put_part_use, put_decision};

enum { N_PUT = sizeof puts_of / sizeof puts_of[0] };

static int64_t
newest(struct fixture *f, struct place *p)
{
	struct work_history h = {0};

	assert_ok(work_history(&p->desk, f->a, 0, 1, &h, &f->err), &f->err);
	return h.entry[0].id;
}

/* One to three puts as one entry. */
static enum err_code
deed_put(struct deeds *d)
{
	size_t n = 1 + any(d, 3);
	enum err_code code = ERR_NONE;

	assert_ok(book_begin(d->p->desk.book, MOMENT_S, "tester", "deed", NULL,
			  &d->f->err),
		&d->f->err);
	for (size_t i = 0; i < n && code == ERR_NONE; i++)
		code = puts_of[any(d, N_PUT)](d);
	if (code == ERR_NONE)
		code = book_commit(d->p->desk.book, "", NULL, &d->f->err);
	book_rollback(d->p->desk.book);
	return code;
}

static enum err_code
deed_withdraw(struct deeds *d)
{
	static const char *const kind[] = {
		"material", "mix", "batch", "specimen", "part"};
	static const char *const letter[] = {"m", "X", "b", "s", "p"};
	size_t k = any(d, 5);
	const struct work_withdraw ask = {.kind = kind[k],
		.word = {code_of(d, letter[k])},
		.n_word = 1,
		.because = "wrong",
		.restore = any(d, 2) == 0};

	return work_withdraw(&d->p->desk, d->f->a, &ask, &d->f->err);
}

static enum err_code
deed_undo(struct deeds *d, int64_t entry)
{
	const struct work_undo ask = {.entry = entry};
	struct work_undone got;

	return work_undo(&d->p->desk, d->f->a, &ask, &got, &d->f->err);
}

static void
do_one(struct deeds *d)
{
	size_t k = any(d, 10);
	const int64_t before = newest(d->f, d->p);
	enum err_code code;

	if (k < 7)
		code = deed_put(d);
	else if (k < 8)
		code = deed_withdraw(d);
	else
		code = deed_undo(d, 1 + (int64_t)any(d, (size_t)before));
	/* Refused is fine; a fault of the machine or of the book is not. */
	if (code != ERR_NONE && code != ERR_CONFLICT && code != ERR_NOT_FOUND)
		assert_ok(code, &d->f->err);
	if (code != ERR_NONE) {
		assert_int_equal(before, newest(d->f, d->p));
		d->n_refused++;
	} else if (newest(d->f, d->p) > before) {
		d->n_made++;
	}
	err_clear(&d->f->err);
}

static void
undo__all_of_300_random_deeds_gives_the_start(void **state)
{
	struct fixture *f = *state;
	struct place p;
	struct deeds d = {.f = f, .p = &p};
	const char *start;
	int64_t first, last;

	open_place(f, &p);
	first = newest(f, &p);
	start = shown(f, &p);
	while (d.n_made < DEEDS) {
		struct arena_mark mark = arena_mark(f->a);

		do_one(&d);
		check_digests(f, &p);
		arena_back(f->a, mark);
	}
	assert_true(d.n_refused > 20); /* refusals were met as well */
	assert_string_not_equal(start, shown(f, &p));
	last = newest(f, &p);
	for (int64_t entry = last; entry > first; entry--) {
		struct arena_mark mark = arena_mark(f->a);

		assert_ok(deed_undo(&d, entry), &f->err);
		check_digests(f, &p);
		arena_back(f->a, mark);
	}
	assert_string_equal(start, shown(f, &p));
	close_place(&p);
}

/* ---- sentences ---- */

static void
put_chain(struct deeds *d)
{
	assert_ok(book_begin(d->p->desk.book, MOMENT_S, "tester", "mix", NULL,
			  &d->f->err),
		&d->f->err);
	assert_ok(book_put_mix(d->p->desk.book,
			  &(struct book_mix){.code = "B",
				  .name = "plain",
				  .why = "",
				  .matrix_code = "B",
				  .reinforcement = "",
				  .wet_target_kg_m3 = {true, 655}},
			  &d->f->err),
		&d->f->err);
	assert_ok(book_commit(d->p->desk.book, "B", NULL, &d->f->err),
		&d->f->err);
	assert_ok(book_begin(d->p->desk.book, MOMENT_S, "tester", "trial", NULL,
			  &d->f->err),
		&d->f->err);
	assert_ok(book_put_trial(d->p->desk.book,
			  &(struct book_trial){.code = "T1",
				  .question = "which",
				  .baseline_mix_id = 1},
			  &d->f->err),
		&d->f->err);
	assert_ok(book_commit(d->p->desk.book, "T1", NULL, &d->f->err),
		&d->f->err);
}

static void
refused(struct deeds *d, int64_t entry, const char *part)
{
	int64_t before = newest(d->f, d->p);

	assert_int_not_equal(ERR_NONE, deed_undo(d, entry));
	assert_has(d->f->err.text, part);
	err_clear(&d->f->err);
	assert_int_equal(before, newest(d->f, d->p));
}

static void
undo__says_what_rests_on_it(void **state)
{
	struct fixture *f = *state;
	struct place p;
	struct deeds d = {.f = f, .p = &p};
	struct work_history h;
	const char *two, *none;

	open_place(f, &p);
	none = shown(f, &p);
	put_chain(&d);
	two = shown(f, &p);
	refused(&d, 1, "the beginning of the book");
	refused(&d, 2, "trial T1, written by entry 3, rests on mix B.");
	refused(&d, 9, "no entry 9");
	assert_ok(deed_undo(&d, 3), &f->err); /* 4 */
	refused(&d, 3, "undone already, by entry 4");
	assert_ok(deed_undo(&d, 2), &f->err); /* 5 */
	assert_string_equal(none, shown(f, &p));
	refused(&d, 4, "rests on mix B, and that was taken back by entry 5");
	assert_ok(work_history(&p.desk, f->a, 0, 0, &h, &f->err), &f->err);
	assert_int_equal(5, h.n);
	assert_string_equal("taken back: mix B", h.entry[0].touched);
	assert_string_equal("entry 2, mix B", h.entry[0].detail);
	assert_int_equal(4, h.entry[2].undone_by);
	assert_false(h.entry[2].can_undo);
	assert_ok(deed_undo(&d, 5), &f->err); /* redo */
	assert_ok(deed_undo(&d, 4), &f->err);
	assert_string_equal(two, shown(f, &p));
	assert_ok(work_history(&p.desk, f->a, 6, 2, &h, &f->err), &f->err);
	assert_int_equal(5, h.entry[0].id);
	assert_int_equal(6, h.entry[0].undone_by);
	assert_true(h.more);
	assert_ok(work_history(&p.desk, f->a, 4, 2, &h, &f->err), &f->err);
	assert_int_equal(0, h.entry[0].undone_by); /* its undoing is undone */
	check_digests(f, &p);
	close_place(&p);
}

/* What was undone can be written anew under the same code. */
static void
undo__leaves_the_code_free(void **state)
{
	struct fixture *f = *state;
	struct place p;
	struct deeds d = {.f = f, .p = &p};
	const char *two;

	open_place(f, &p);
	put_chain(&d);
	two = shown(f, &p);
	assert_ok(deed_undo(&d, 3), &f->err);
	assert_ok(deed_undo(&d, 2), &f->err);
	put_chain(&d); /* 6 and 7 */
	assert_string_equal(two, shown(f, &p));
	refused(&d, 5, "was written again by entry 6");
	check_digests(f, &p);
	close_place(&p);
}

static void
undo__dry_run_writes_nothing(void **state)
{
	struct fixture *f = *state;
	struct place p;
	struct deeds d = {.f = f, .p = &p};
	const struct work_undo ask = {.entry = 3, .dry_run = true};
	struct work_undone got;

	open_place(f, &p);
	put_chain(&d);
	assert_ok(work_undo(&p.desk, f->a, &ask, &got, &f->err), &f->err);
	assert_int_equal(0, got.entry);
	assert_string_equal("taken back: trial T1", got.touched);
	assert_int_equal(3, newest(f, &p));
	close_place(&p);
}

/* A new table of facts, or a column that points at one, is in the lists. */
static void
things__are_all_listed(void **state)
{
	struct fixture *f = *state;
	struct place p;
	sqlite3_stmt *s = NULL;
	size_t n = 0;

	open_place(f, &p);
	assert_int_equal(SQLITE_OK,
		sqlite3_prepare_v2(p.eye,
			"SELECT m.name, k.\"from\" FROM sqlite_schema AS m "
			"JOIN pragma_table_info(m.name) AS c ON c.name = "
			"'origin' LEFT JOIN pragma_foreign_key_list(m.name) "
			"AS k ON k.\"from\" NOT IN ('origin', 'history_id') "
			"WHERE m.type = 'table'",
			-1, &s, NULL));
	while (sqlite3_step(s) == SQLITE_ROW) {
		const char *table = (const char *)sqlite3_column_text(s, 0);
		const char *column = (const char *)sqlite3_column_text(s, 1);

		if (!book_undo_knows(table, NULL) ||
			(column != NULL && !book_undo_knows(table, column)))
			fail_msg("src/book/things.h lacks %s.%s", table,
				column != NULL ? column : "");
		n++;
	}
	assert_true(n > 30);
	sqlite3_finalize(s);
	close_place(&p);
}

static const struct CMUnitTest history[] = {
	TEST(things__are_all_listed),
	TEST(undo__says_what_rests_on_it),
	TEST(undo__leaves_the_code_free),
	TEST(undo__dry_run_writes_nothing),
	TEST(undo__all_of_300_random_deeds_gives_the_start),
};

TEST_MAIN(history)
