/* test_book.c - the record file: kept, chained, refused when it is not one. */
#include "support.h"

#include "book/book.h"

#include <fcntl.h>
#include <math.h>
#include <signal.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

static const int64_t moment = 1772352000; /* 2026-03-01T08:00:00Z */

struct place {
	char folder[64], path[96];
};

static void
make_place(struct place *p)
{
	(void)snprintf(p->folder, sizeof p->folder, "foamwright-test-XXXXXX");
	assert_non_null(mkdtemp(p->folder));
	(void)snprintf(p->path, sizeof p->path, "%s/a.book", p->folder);
}

static void
clear_place(const struct place *p)
{
	char journal[128];

	(void)snprintf(journal, sizeof journal, "%s-journal", p->path);
	(void)unlink(journal);
	(void)unlink(p->path);
	assert_int_equal(0, rmdir(p->folder));
}

static struct book *
make_book(struct fixture *f, const struct place *p)
{
	const struct book_info info = {.name = "Test \"house\"\n\xC3\xA9",
		.note = "",
		.gallon = "us",
		.currency = "units"};
	struct book *book = NULL;

	assert_ok(book_create(p->path, &info, moment, "tester", &book, &f->err),
		&f->err);
	return book;
}

static void
add_material(
	struct fixture *f, struct book *book, const char *code, double density)
{
	struct book_material m = {.code = code,
		.name = "cement",
		.role = "cement",
		.note = "",
		.has_price = true,
		.price_cents = 351,
		.particle_density_kg_m3 = {true, density},
		.package_kg = {true, 25}};

	assert_ok(book_begin(book, moment, "tester", "add", NULL, &f->err),
		&f->err);
	assert_ok(book_put_material(book, &m, &f->err), &f->err);
	assert_ok(book_commit(book, "", NULL, &f->err), &f->err);
}

static void
book__gives_back_what_was_put(void **state)
{
	struct fixture *f = *state;
	struct place p;
	struct book *book;
	const struct book_material *m = NULL;
	struct book_info info;
	size_t n = 0;

	make_place(&p);
	book = make_book(f, &p);
	add_material(f, book, "c1", 3148.7);
	book_close(book);
	assert_ok(book_open(p.path, BOOK_READ, &book, &f->err), &f->err);
	assert_ok(book_all_material(book, f->a, &m, &n, &f->err), &f->err);
	assert_ok(book_get_info(book, f->a, &info, &f->err), &f->err);
	assert_int_equal(1, n);
	assert_string_equal("c1", m[0].code);
	assert_string_equal("Test \"house\"\n\xC3\xA9", info.name);
	assert_true(m[0].particle_density_kg_m3.value == 3148.7);
	assert_false(m[0].moisture_ratio.has);
	assert_int_equal(351, m[0].price_cents);
	book_close(book);
	clear_place(&p);
}

/* What was prepared for the file is of no use to the copy. */
static void
book__that_was_read_can_be_tried_out(void **state)
{
	struct fixture *f = *state;
	const struct book_material *m = NULL;
	struct place p;
	struct book *book;
	size_t n = 0;

	make_place(&p);
	book_close(make_book(f, &p));
	assert_ok(book_open(p.path, BOOK_READ, &book, &f->err), &f->err);
	assert_ok(book_all_material(book, f->a, &m, &n, &f->err), &f->err);
	assert_int_equal(0, n);
	assert_ok(book_detach(book, &f->err), &f->err);
	add_material(f, book, "c1", 3148.7);
	assert_ok(book_all_material(book, f->a, &m, &n, &f->err), &f->err);
	assert_int_equal(1, n);
	book_close(book);
	assert_ok(book_open(p.path, BOOK_READ, &book, &f->err), &f->err);
	assert_ok(book_all_material(book, f->a, &m, &n, &f->err), &f->err);
	assert_int_equal(0, n);
	book_close(book);
	clear_place(&p);
}

static void
book__a_correction_supersedes_and_both_stay(void **state)
{
	struct fixture *f = *state;
	struct place p;
	struct book *book;
	const struct book_material *m = NULL;
	struct book_material again;
	size_t n = 0, entries = 0;

	make_place(&p);
	book = make_book(f, &p);
	add_material(f, book, "c1", 3148.7);
	assert_ok(book_all_material(book, f->a, &m, &n, &f->err), &f->err);
	again = m[0];
	again.particle_density_kg_m3.value = 3071.3;
	assert_ok(book_begin(book, moment, "tester", "mend", NULL, &f->err),
		&f->err);
	assert_ok(book_put_material(book, &again, &f->err), &f->err);
	assert_ok(book_commit(book, "", NULL, &f->err), &f->err);
	assert_ok(book_all_material(book, f->a, &m, &n, &f->err), &f->err);
	assert_int_equal(1, n);
	assert_int_equal(2, m[0].row.revision);
	assert_true(m[0].particle_density_kg_m3.value == 3071.3);
	assert_ok(book_verify(book, f->a, &entries, &f->err), &f->err);
	assert_int_equal(3, entries);
	book_close(book);
	clear_place(&p);
}

static void
book__rollback_and_empty_commit_leave_nothing(void **state)
{
	struct fixture *f = *state;
	struct place p;
	struct book *book;
	struct book_material m = {
		.code = "x", .name = "x", .role = "cement", .note = ""};
	const struct book_material *row = NULL;
	const struct book_history *h = NULL;
	size_t n = 0;
	int64_t id = 77;

	make_place(&p);
	book = make_book(f, &p);
	assert_ok(book_begin(book, moment, "t", "w", NULL, &f->err), &f->err);
	assert_ok(book_put_material(book, &m, &f->err), &f->err);
	book_rollback(book);
	assert_ok(book_all_material(book, f->a, &row, &n, &f->err), &f->err);
	assert_int_equal(0, n);
	assert_ok(book_begin(book, moment, "t", "w", NULL, &f->err), &f->err);
	assert_ok(book_commit(book, "", &id, &f->err), &f->err);
	assert_int_equal(0, id);
	assert_ok(book_all_history(book, f->a, &h, &n, &f->err), &f->err);
	assert_int_equal(1, n);
	book_close(book);
	clear_place(&p);
}

static void
book__the_same_submission_is_recorded_once(void **state)
{
	struct fixture *f = *state;
	struct place p;
	struct book *book;
	struct book_material m = {
		.code = "x", .name = "x", .role = "cement", .note = ""};
	const struct book_material *row = NULL;
	size_t n = 0;

	make_place(&p);
	book = make_book(f, &p);
	for (int i = 0; i < 2; i++) {
		m.row.id = 0;
		m.code = i == 0 ? "x" : "y";
		assert_ok(book_begin(book, moment, "t", "w", "abc", &f->err),
			&f->err);
		assert_ok(book_put_material(book, &m, &f->err), &f->err);
		assert_int_equal(i == 0 ? ERR_NONE : ERR_CONFLICT,
			book_commit(book, "", NULL, &f->err));
	}
	assert_ok(book_all_material(book, f->a, &row, &n, &f->err), &f->err);
	assert_int_equal(1, n);
	book_close(book);
	clear_place(&p);
}

static void
book__refuses_values_that_are_not_numbers(void **state)
{
	struct fixture *f = *state;
	struct place p;
	struct book *book;
	struct book_material m = {.code = "x",
		.name = "x",
		.role = "cement",
		.note = "",
		.package_kg = {true, (double)NAN}};

	make_place(&p);
	book = make_book(f, &p);
	assert_ok(book_begin(book, moment, "t", "w", NULL, &f->err), &f->err);
	assert_int_equal(ERR_INPUT, book_put_material(book, &m, &f->err));
	book_rollback(book);
	book_close(book);
	clear_place(&p);
}

static void
write_bytes(const char *path, const void *bytes, size_t n)
{
	FILE *file = fopen(path, "wb");

	assert_non_null(file);
	assert_int_equal(n, fwrite(bytes, 1, n, file));
	assert_int_equal(0, fclose(file));
}

static void
book__tells_other_files_apart(void **state)
{
	struct fixture *f = *state;
	struct place p;
	struct book *book = NULL;

	make_place(&p);
	assert_int_equal(
		ERR_NOT_FOUND, book_open(p.path, BOOK_READ, &book, &f->err));
	err_clear(&f->err);
	assert_int_equal(
		ERR_NOT_A_BOOK, book_open(p.folder, BOOK_READ, &book, &f->err));
	assert_has(f->err.text, "folder");
	err_clear(&f->err);
	write_bytes(p.path, "", 0);
	assert_int_equal(
		ERR_NOT_A_BOOK, book_open(p.path, BOOK_READ, &book, &f->err));
	assert_has(f->err.text, "empty");
	err_clear(&f->err);
	write_bytes(p.path,
		"a diary, not a book of this kind at all, but long "
		"enough to have a head of a hundred bytes and then some",
		105);
	assert_int_equal(
		ERR_NOT_A_BOOK, book_open(p.path, BOOK_READ, &book, &f->err));
	assert_null(book);
	clear_place(&p);
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

/* Reported, or the densities read back as they were put. */
static bool
is_told_or_harmless(struct fixture *f, const char *path)
{
	struct err err = {.code = ERR_NONE};
	struct book *book = NULL;
	const struct book_material *m = NULL;
	size_t n = 0, entries = 0;
	bool good;

	if (book_open(path, BOOK_READ, &book, &err) != ERR_NONE)
		return true;
	good = book_verify(book, f->a, &entries, &err) != ERR_NONE ||
		book_all_material(book, f->a, &m, &n, &err) != ERR_NONE;
	if (!good) {
		good = n == 40;
		for (size_t i = 0; i < n && good; i++)
			good = m[i].particle_density_kg_m3.value ==
					2000.125 + (double)i &&
				m[i].price_cents == 351 &&
				strcmp(m[i].name, "cement") == 0;
	}
	book_close(book);
	return good;
}

static void
book__no_flipped_bit_passes_in_silence(void **state)
{
	struct fixture *f = *state;
	struct place p;
	struct book *book;
	unsigned char *bytes;
	size_t n = 0;
	uint64_t draw = 88172645463325252u; /* xorshift64, Marsaglia 2003 */

	make_place(&p);
	book = make_book(f, &p);
	for (size_t i = 0; i < 40; i++) {
		char code[16];

		(void)snprintf(code, sizeof code, "m%zu", i);
		add_material(f, book, code, 2000.125 + (double)i);
	}
	book_close(book);
	bytes = read_whole(f, p.path, &n);
	for (int i = 0; i < 400; i++) {
		struct arena_mark mark = arena_mark(f->a);
		size_t at;

		draw ^= draw << 13;
		draw ^= draw >> 7;
		draw ^= draw << 17;
		at = draw % n;
		bytes[at] ^= (unsigned char)(1u << (draw >> 60 & 7));
		write_bytes(p.path, bytes, n);
		assert_true(is_told_or_harmless(f, p.path));
		bytes[at] ^= (unsigned char)(1u << (draw >> 60 & 7));
		arena_back(f->a, mark);
	}
	for (size_t cut = 0; cut < n; cut += n / 23) {
		write_bytes(p.path, bytes, cut);
		assert_int_not_equal(
			ERR_NONE, book_open(p.path, BOOK_READ, &book, &f->err));
		err_clear(&f->err);
	}
	clear_place(&p);
}

/* The child adds one material a commit and acknowledges each over a pipe. */
static void
write_until_killed(const char *path, int pipe_to)
{
	struct err err = {.code = ERR_NONE};
	struct book *book = NULL;

	if (book_open(path, BOOK_WRITE, &book, &err) != ERR_NONE)
		_exit(1);
	for (int i = 0;; i++) {
		char code[32];
		struct book_material m = {.code = code,
			.name = "cement",
			.role = "cement",
			.note = ""};

		(void)snprintf(code, sizeof code, "%d-%d", (int)getpid(), i);
		if (book_begin(book, moment, "t", "w", NULL, &err) !=
				ERR_NONE ||
			book_put_material(book, &m, &err) != ERR_NONE ||
			book_commit(book, "", NULL, &err) != ERR_NONE ||
			write(pipe_to, "x", 1) != 1)
			_exit(1);
	}
}

static void
book__a_kill_loses_nothing_acknowledged(void **state)
{
	struct fixture *f = *state;
	struct place p;
	struct book *book;
	size_t acknowledged = 0, n = 0, entries = 0;
	const struct book_material *m = NULL;

	make_place(&p);
	book = make_book(f, &p);
	book_close(book);
	for (int round = 0; round < 40; round++) {
		int ends[2];
		char byte;
		pid_t child;

		assert_int_equal(0, pipe(ends));
		child = fork();
		if (child == 0)
			write_until_killed(p.path, ends[1]);
		(void)close(ends[1]);
		/* However slow the machine: killed after a few are written. */
		for (int i = 0; i <= round % 5; i++)
			assert_int_equal(1, read(ends[0], &byte, 1));
		acknowledged += (size_t)(round % 5) + 1;
		(void)usleep((useconds_t)(397 * (round % 23)));
		(void)kill(child, SIGKILL);
		assert_int_equal(child, waitpid(child, NULL, 0));
		while (read(ends[0], &byte, 1) == 1)
			acknowledged++;
		(void)close(ends[0]);
		assert_ok(
			book_open(p.path, BOOK_READ, &book, &f->err), &f->err);
		book_close(book);
	}
	assert_ok(book_open(p.path, BOOK_READ, &book, &f->err), &f->err);
	assert_ok(book_all_material(book, f->a, &m, &n, &f->err), &f->err);
	assert_ok(book_verify(book, f->a, &entries, &f->err), &f->err);
	/* A commit may have been kept whose acknowledgement was cut off. */
	assert_true(n >= acknowledged && n <= acknowledged + 40);
	assert_true(acknowledged > 0);
	assert_int_equal(n + 1, entries);
	book_close(book);
	clear_place(&p);
}

/* In the table UNIQUE(code, revision) lets a second revision take a code. */
static void
book__two_things_never_share_a_code(void **state)
{
	struct fixture *f = *state;
	struct place p;
	struct book *book;
	const struct book_material *m = NULL;
	struct book_material second;
	size_t n = 0;

	make_place(&p);
	book = make_book(f, &p);
	add_material(f, book, "c1", 3148.7);
	add_material(f, book, "c2", 3071.3);
	assert_ok(book_all_material(book, f->a, &m, &n, &f->err), &f->err);
	second = m[1];
	second.code = "c1";
	assert_ok(
		book_begin(book, moment, "t", "mend", NULL, &f->err), &f->err);
	assert_int_equal(ERR_INPUT, book_put_material(book, &second, &f->err));
	assert_has(f->err.text, "another material \"c1\"");
	err_clear(&f->err);
	second.code = "c3"; /* its own code may change ... */
	assert_ok(book_put_material(book, &second, &f->err), &f->err);
	second.row.id = 0;
	second.code = "c2"; /* ... but the old one is not given again */
	assert_int_equal(ERR_INPUT, book_put_material(book, &second, &f->err));
	assert_has(f->err.text, "before");
	book_rollback(book);
	book_close(book);
	clear_place(&p);
}

/* A lock that this process holds survives another opening and closing in it. */
static void
book__a_second_opening_drops_no_lock(void **state)
{
	struct fixture *f = *state;
	struct place p;
	struct book *book, *again = NULL;
	pid_t child;
	int status = 0;

	make_place(&p);
	book = make_book(f, &p);
	assert_ok(book_begin(book, moment, "t", "w", NULL, &f->err), &f->err);
	assert_ok(book_open(p.path, BOOK_READ, &again, &f->err), &f->err);
	book_close(again);
	child = fork();
	if (child == 0) {
		/* RESERVED_BYTE (SQLite, os.h): the lock of a writer */
		struct flock lock = {.l_type = F_WRLCK,
			.l_whence = SEEK_SET,
			.l_start = 0x40000000 + 1,
			.l_len = 1};
		int fd = open(p.path, O_RDWR);

		_exit(fd >= 0 && fcntl(fd, F_GETLK, &lock) == 0 &&
					lock.l_type == F_WRLCK
				? 0
				: 1);
	}
	assert_int_equal(child, waitpid(child, &status, 0));
	assert_int_equal(0, status);
	book_rollback(book);
	book_close(book);
	clear_place(&p);
}

static const struct CMUnitTest tests[] = {
	TEST(book__two_things_never_share_a_code),
	TEST(book__a_second_opening_drops_no_lock),
	TEST(book__that_was_read_can_be_tried_out),
	TEST(book__gives_back_what_was_put),
	TEST(book__a_correction_supersedes_and_both_stay),
	TEST(book__rollback_and_empty_commit_leave_nothing),
	TEST(book__the_same_submission_is_recorded_once),
	TEST(book__refuses_values_that_are_not_numbers),
	TEST(book__tells_other_files_apart),
	TEST(book__no_flipped_bit_passes_in_silence),
	TEST(book__a_kill_loses_nothing_acknowledged),
};

TEST_MAIN(tests)
