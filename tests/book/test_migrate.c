/* test_migrate.c - an older book brought up: copied aside, whole or not at all.
 */
#include "support.h"

#include "book/migration.h"

#include <fcntl.h>
#include <signal.h>
#include <sqlite3.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

static const int64_t moment = 1772352000; /* 2026-03-01T08:00:00Z */

enum { STEPS_MOST = 40, N_MATERIAL = 30 };

/* The real list and one step of the test's own. */
struct list {
	struct book_migration step[STEPS_MOST];
	struct book_migrations all;
};

/* A table, an index, a column, and a table rebuilt that others point at. */
static const char good_step[] =
	"CREATE TABLE visitor (id INTEGER PRIMARY KEY, name TEXT NOT NULL) "
	"STRICT;"
	"CREATE INDEX visitor_by_name ON visitor (name);"
	"ALTER TABLE material ADD COLUMN colour TEXT;"
	"CREATE TABLE new_history (id INTEGER PRIMARY KEY, at TEXT NOT NULL, "
	"who TEXT NOT NULL, what TEXT NOT NULL, detail TEXT NOT NULL, "
	"submission TEXT UNIQUE, rows_digest BLOB NOT NULL, chain_digest BLOB "
	"NOT NULL) STRICT;"
	"INSERT INTO new_history SELECT * FROM history;"
	"DROP TABLE history; ALTER TABLE new_history RENAME TO history;";

static void
make_list(struct list *list, const char *sql)
{
	assert_true(book_migrations.n < STEPS_MOST);
	memcpy(list->step, book_migrations.step,
		(size_t)book_migrations.n * sizeof list->step[0]);
	list->step[book_migrations.n] = (struct book_migration){
		"test.sql", sql};
	list->all = (struct book_migrations){list->step, book_migrations.n + 1};
}

struct place {
	char folder[64], path[96], copy[112], copy_2[128];
};

static void
make_place(struct place *p)
{
	(void)snprintf(p->folder, sizeof p->folder, "foamwright-test-XXXXXX");
	assert_non_null(mkdtemp(p->folder));
	(void)snprintf(p->path, sizeof p->path, "%s/a.book", p->folder);
	(void)snprintf(
		p->copy, sizeof p->copy, "%s.v%d", p->path, book_migrations.n);
	(void)snprintf(p->copy_2, sizeof p->copy_2, "%s-2", p->copy);
}

static void
clear_place(const struct place *p)
{
	(void)unlink(p->copy);
	(void)unlink(p->copy_2);
	(void)unlink(p->path);
	assert_int_equal(0, rmdir(p->folder)); /* and nothing else is left */
}

/* A book of the real list with a few entries in its history. */
static void
make_older(struct fixture *f, const struct place *p)
{
	const struct book_info info = {
		.name = "Old", .note = "", .gallon = "us", .currency = "units"};
	struct book *book = NULL;

	assert_ok(book_create(p->path, &info, moment, "tester", &book, &f->err),
		&f->err);
	for (int i = 0; i < N_MATERIAL; i++) {
		char code[16];
		struct book_material m = {.code = code,
			.name = "cement",
			.role = "cement",
			.note = "",
			.particle_density_kg_m3 = {true, 3100.7 + i}};

		(void)snprintf(code, sizeof code, "m%d", i);
		assert_ok(book_begin(
				  book, moment, "tester", "add", NULL, &f->err),
			&f->err);
		assert_ok(book_put_material(book, &m, &f->err), &f->err);
		assert_ok(book_commit(book, "", NULL, &f->err), &f->err);
	}
	book_close(book);
}

static unsigned char *
read_whole(struct fixture *f, const char *path, size_t *n)
{
	struct stat status;
	unsigned char *bytes;
	FILE *file = fopen(path, "rb");

	assert_non_null(file);
	assert_int_equal(0, fstat(fileno(file), &status));
	*n = (size_t)status.st_size;
	bytes = arena_take(f->a, *n, 1);
	assert_non_null(bytes);
	assert_int_equal(*n, fread(bytes, 1, *n, file));
	(void)fclose(file);
	return bytes;
}

static void
assert_same_bytes(struct fixture *f, const char *path,
	const unsigned char *want, size_t n)
{
	size_t n_got;
	const unsigned char *got = read_whole(f, path, &n_got);

	assert_int_equal(n, n_got);
	assert_memory_equal(want, got, n);
}

static void
assert_holds_all(struct fixture *f, struct book *book, size_t n_entry)
{
	const struct book_material *m = NULL;
	size_t n = 0, entries = 0;

	assert_ok(book_all_material(book, f->a, &m, &n, &f->err), &f->err);
	assert_int_equal(N_MATERIAL, n);
	for (size_t i = 0; i < n; i++)
		assert_true(m[i].particle_density_kg_m3.value ==
			3100.7 + (double)i);
	assert_ok(book_verify(book, f->a, &entries, &f->err), &f->err);
	assert_int_equal(n_entry, entries);
}

static void
bring_up(struct fixture *f, enum book_access access)
{
	struct place p;
	struct list list;
	struct book *book = NULL;
	const struct book_history *h = NULL;
	unsigned char *before;
	size_t n_before, n = 0;

	make_list(&list, good_step);
	make_place(&p);
	make_older(f, &p);
	before = read_whole(f, p.path, &n_before);
	assert_ok(book_open_by(p.path, access, &list.all, &book, &f->err),
		&f->err);
	assert_has(book_copied_aside(book), p.copy);
	assert_holds_all(f, book, N_MATERIAL + 2);
	assert_ok(book_all_history(book, f->a, &h, &n, &f->err), &f->err);
	assert_string_equal("migrate", h[n - 1].what);
	book_close(book);
	assert_same_bytes(f, p.copy, before, n_before);
	assert_ok(book_open_by(p.path, access, &list.all, &book, &f->err),
		&f->err);
	assert_null(book_copied_aside(book)); /* once is enough */
	book_close(book);
	assert_int_equal(
		ERR_NEWER_BOOK, book_open(p.path, BOOK_READ, &book, &f->err));
	assert_has(f->err.text, "newer");
	err_clear(&f->err);
	/* The copy is a book that the older program still opens. */
	assert_ok(book_open(p.copy, BOOK_READ, &book, &f->err), &f->err);
	assert_holds_all(f, book, N_MATERIAL + 1);
	book_close(book);
	clear_place(&p);
}

static void
migrate__brings_an_older_book_up(void **state)
{
	bring_up(*state, BOOK_WRITE);
}

static void
migrate__a_reader_brings_it_up_too(void **state)
{
	bring_up(*state, BOOK_READ);
}

static void
migrate__new_rows_go_on_with_the_chain(void **state)
{
	struct fixture *f = *state;
	struct place p;
	struct list list;
	struct book *book = NULL;
	struct book_material m = {
		.code = "later", .name = "lime", .role = "binder", .note = ""};
	size_t entries = 0;

	make_list(&list, good_step);
	make_place(&p);
	make_older(f, &p);
	assert_ok(book_open_by(p.path, BOOK_WRITE, &list.all, &book, &f->err),
		&f->err);
	assert_ok(book_begin(book, moment, "t", "w", NULL, &f->err), &f->err);
	assert_ok(book_put_material(book, &m, &f->err), &f->err);
	assert_ok(book_commit(book, "", NULL, &f->err), &f->err);
	assert_ok(book_verify(book, f->a, &entries, &f->err), &f->err);
	assert_int_equal(N_MATERIAL + 3, entries);
	book_close(book);
	clear_place(&p);
}

/* Refused with that code, the book byte for byte as it was, no copy left. */
static void
refuse_step(struct fixture *f, const char *sql, enum err_code code)
{
	struct place p;
	struct list list;
	struct book *book = NULL;
	unsigned char *before;
	size_t n_before;

	make_list(&list, sql);
	make_place(&p);
	make_older(f, &p);
	before = read_whole(f, p.path, &n_before);
	assert_int_equal(code,
		book_open_by(p.path, BOOK_WRITE, &list.all, &book, &f->err));
	assert_null(book);
	err_clear(&f->err);
	assert_same_bytes(f, p.path, before, n_before);
	assert_int_not_equal(0, access(p.copy, F_OK));
	assert_ok(book_open(p.path, BOOK_READ, &book, &f->err), &f->err);
	assert_holds_all(f, book, N_MATERIAL + 1);
	book_close(book);
	clear_place(&p);
}

static void
migrate__a_failing_step_changes_nothing(void **state)
{
	struct fixture *f = *state;

	refuse_step(f,
		"CREATE TABLE visitor (id INTEGER PRIMARY KEY) STRICT;"
		"UPDATE material SET note = 'half done';"
		"INSERT INTO no_such_table VALUES (1);",
		ERR_SYSTEM);
	/* a stored figure altered on the way */
	refuse_step(f,
		"UPDATE material SET particle_density_kg_m3 = 3000 WHERE id = "
		"7",
		ERR_DAMAGED);
	/* rows that no entry of the history wrote */
	refuse_step(f,
		"INSERT INTO material (id, origin, revision, history_id, code, "
		"name, role) VALUES (900, 900, 1, 900, 'q', 'q', 'sand')",
		ERR_DAMAGED);
	/* rows that point at nothing */
	refuse_step(f, "DELETE FROM history WHERE id = 1", ERR_DAMAGED);
}

static void
migrate__does_not_write_over_a_copy(void **state)
{
	struct fixture *f = *state;
	static const char mine[] = "a file of my own";
	struct place p;
	struct list list;
	struct book *book = NULL;
	unsigned char *before;
	size_t n_before;
	FILE *file;

	make_list(&list, good_step);
	make_place(&p);
	make_older(f, &p);
	before = read_whole(f, p.path, &n_before);
	file = fopen(p.copy, "w");
	assert_non_null(file);
	assert_true(fputs(mine, file) >= 0);
	assert_int_equal(0, fclose(file));
	assert_ok(book_open_by(p.path, BOOK_WRITE, &list.all, &book, &f->err),
		&f->err);
	assert_has(book_copied_aside(book), p.copy_2);
	book_close(book);
	assert_same_bytes(
		f, p.copy, (const unsigned char *)mine, sizeof mine - 1);
	assert_same_bytes(f, p.copy_2, before, n_before);
	clear_place(&p);
}

/* A file may grow to no more than half of what the copy needs: EFBIG, as a full
 * disk gives ENOSPC.  In a child, since the limit is the process's. */
static void
migrate__no_room_for_the_copy_changes_nothing(void **state)
{
	struct fixture *f = *state;
	struct place p;
	struct list list;
	struct book *book = NULL;
	unsigned char *before;
	size_t n_before;
	int status = 0;
	pid_t child;

	make_list(&list, good_step);
	make_place(&p);
	make_older(f, &p);
	before = read_whole(f, p.path, &n_before);
	child = fork();
	if (child == 0) {
		const struct rlimit most = {n_before / 2, n_before / 2};
		struct err err = {.code = ERR_NONE};

		(void)signal(SIGXFSZ, SIG_IGN);
		if (setrlimit(RLIMIT_FSIZE, &most) != 0)
			_exit(1);
		_exit(book_open_by(p.path, BOOK_WRITE, &list.all, &book,
			      &err) == ERR_DISK &&
					strstr(err.text, "no room") != NULL
				? 0
				: 2);
	}
	assert_int_equal(child, waitpid(child, &status, 0));
	assert_true(WIFEXITED(status));
	assert_int_equal(0, WEXITSTATUS(status));
	assert_same_bytes(f, p.path, before, n_before);
	assert_int_not_equal(0, access(p.copy, F_OK));
	clear_place(&p);
}

static const char *
find_whole(struct fixture *f, const char *path)
{
	size_t n = 0;
	const unsigned char *bytes = read_whole(f, path, &n);
	char *text = arena_take(f->a, n + 1, 1);

	assert_non_null(text);
	memcpy(text, bytes, n);
	return text;
}

/* tests/data/book-v1.sql is the dump of a book that the first version made. */
static void
migrate__opens_a_stored_book_of_version_1(void **state)
{
	struct fixture *f = *state;
	struct place p;
	struct book *book = NULL;
	const struct book_reading *r = NULL;
	size_t n = 0, entries = 0;
	sqlite3 *db = NULL;
	char copy[128];

	make_place(&p);
	assert_int_equal(SQLITE_OK, sqlite3_open(p.path, &db));
	assert_int_equal(SQLITE_OK,
		sqlite3_exec(db, find_whole(f, support_path("book-v1.sql")),
			NULL, NULL, NULL));
	assert_int_equal(SQLITE_OK, sqlite3_close(db));
	assert_ok(book_open(p.path, BOOK_WRITE, &book, &f->err), &f->err);
	assert_int_equal(
		book_migrations.n > 1, book_copied_aside(book) != NULL);
	assert_ok(book_verify(book, f->a, &entries, &f->err), &f->err);
	assert_ok(book_all_reading(book, f->a, &r, &n, &f->err), &f->err);
	assert_true(n > 0);
	/* new book, import; one more where a migration was run */
	assert_int_equal(book_migrations.n > 1 ? 3 : 2, entries);
	book_close(book);
	(void)snprintf(copy, sizeof copy, "%s.v1", p.path);
	(void)unlink(copy);
	clear_place(&p);
}

static const struct CMUnitTest tests[] = {
	TEST(migrate__brings_an_older_book_up),
	TEST(migrate__a_reader_brings_it_up_too),
	TEST(migrate__new_rows_go_on_with_the_chain),
	TEST(migrate__a_failing_step_changes_nothing),
	TEST(migrate__does_not_write_over_a_copy),
	TEST(migrate__no_room_for_the_copy_changes_nothing),
	TEST(migrate__opens_a_stored_book_of_version_1),
};

TEST_MAIN(tests)
