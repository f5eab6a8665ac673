/* test_hostile.c - every command with what it should not be given: one clear
 * sentence, the right exit status, and the book byte for byte as it was.
 *
 * The program is started as a person starts it.  Exit status: 2 the request was
 * wrong, 3 the machine failed. */
#include "support.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

enum {
	SECONDS_MOST = 60,
	TEXT_MOST = 1 << 16,
	NAME_MOST = 256,
	WORDS_MOST = 6,
	NOBODY = 65534,
	VERSION_AT = 60
};

struct place {
	char folder[64];
	char whole[NAME_MOST]; /* a book with the demo folder in it */
	unsigned char *bytes;  /* of that book */
	size_t n;
};

/* How one run is held down. */
struct limits {
	rlim_t file_bytes;  /* 0: none */
	bool as_nobody;     /* so that permissions count for root too */
	const char *output; /* where standard output goes */
};

struct outcome {
	int status;           /* -1: ended by a signal */
	char text[TEXT_MOST]; /* standard error */
};

/* ---- running ---- */

static void
become(const struct limits *limits)
{
	const struct rlimit most = {limits->file_bytes, limits->file_bytes};

	if (limits->file_bytes > 0) {
		(void)signal(SIGXFSZ, SIG_IGN); /* EFBIG, as ENOSPC */
		if (setrlimit(RLIMIT_FSIZE, &most) != 0)
			_exit(125);
	}
	if (limits->as_nobody && geteuid() == 0 &&
		(setgid(NOBODY) != 0 || setuid(NOBODY) != 0))
		_exit(125);
}

static void
start(const struct limits *limits, int errors, char *const *word)
{
	const char *to = limits->output != NULL ? limits->output : "/dev/null";
	int out = open(to, O_WRONLY), in = open("/dev/null", O_RDONLY);

	if (out < 0 || in < 0 || dup2(in, 0) < 0 || dup2(out, 1) < 0 ||
		dup2(errors, 2) < 0)
		_exit(125);
	become(limits);
	(void)alarm(SECONDS_MOST);
	(void)execv(word[0], word);
	_exit(126);
}

static void
run(const struct limits *limits, char *const *word, struct outcome *out)
{
	int ends[2], status = 0;
	size_t n = 0;
	ssize_t got;
	pid_t child;

	assert_int_equal(0, pipe(ends));
	child = fork();
	if (child == 0)
		start(limits, ends[1], word);
	(void)close(ends[1]);
	while (n < TEXT_MOST - 1 &&
		(got = read(ends[0], out->text + n, TEXT_MOST - 1 - n)) > 0)
		n += (size_t)got;
	out->text[n] = '\0';
	(void)close(ends[0]);
	assert_int_equal(child, waitpid(child, &status, 0));
	out->status = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

/* The words of a command; "%" stands for the place. */
struct command {
	const char *word[WORDS_MOST];
};

static void
run_words(const struct limits *limits, const struct command *command,
	const char *subject, struct outcome *out)
{
	char *word[WORDS_MOST + 2] = {NULL};
	char program[NAME_MOST], copy[WORDS_MOST][NAME_MOST];

	(void)snprintf(program, sizeof program, "%s", support_program());
	word[0] = program;
	for (size_t i = 0; i < WORDS_MOST && command->word[i] != NULL; i++) {
		(void)snprintf(copy[i], NAME_MOST, "%s",
			strcmp(command->word[i], "%") == 0 ? subject
							   : command->word[i]);
		word[i + 1] = copy[i];
	}
	run(limits, word, out);
}

/* ---- what must be true after each ---- */

static void
assert_one_sentence(const struct outcome *got, const char *what)
{
	size_t n = strlen(got->text);
	bool good = n > 20 && got->text[n - 1] == '\n' &&
		strchr(got->text, '\n') == got->text + n - 1 &&
		strncmp(got->text, "foamwright ", 11) == 0 &&
		strchr(".?", got->text[n - 2]) != NULL;

	if (!good)
		print_error("%s: no one sentence:\n%s\n", what, got->text);
	assert_true(good);
}

static void
assert_refused(const struct outcome *got, int status, const char *what)
{
	if (got->status != status)
		print_error("%s: ended with %d, not %d:\n%s\n", what,
			got->status, status, got->text);
	assert_int_equal(status, got->status);
	assert_one_sentence(got, what);
}

/* The whole of a file, NULL for what is no file that can be read. */
static unsigned char *
read_whole(const char *path, size_t *n)
{
	struct stat status;
	unsigned char *bytes;
	FILE *file;

	*n = 0;
	if (lstat(path, &status) != 0 || !S_ISREG(status.st_mode))
		return NULL;
	file = fopen(path, "rb");
	assert_non_null(file);
	*n = (size_t)status.st_size;
	bytes = malloc(*n + 1);
	assert_non_null(bytes);
	assert_int_equal(*n, fread(bytes, 1, *n, file));
	(void)fclose(file);
	return bytes;
}

static void
assert_unchanged(const char *path, const unsigned char *bytes, size_t n)
{
	size_t n_now;
	unsigned char *now = read_whole(path, &n_now);
	char journal[NAME_MOST + 16];

	assert_int_equal(n, n_now);
	if (n > 0)
		assert_memory_equal(bytes, now, n);
	free(now);
	(void)snprintf(journal, sizeof journal, "%s-journal", path);
	assert_int_not_equal(0, access(journal, F_OK));
}

/* ---- the place ---- */

static void
write_bytes(const char *path, const void *bytes, size_t n)
{
	FILE *file = fopen(path, "wb");

	assert_non_null(file);
	assert_int_equal(n, fwrite(bytes, 1, n, file));
	assert_int_equal(0, fclose(file));
}

static void
make_place(struct place *p)
{
	const struct limits none = {0};
	const struct command make = {{"new", "%"}};
	struct command fill = {{"import", "%"}};
	char demo[NAME_MOST];
	const char *source = getenv("FOAMWRIGHT_SOURCE");
	struct outcome got;

	(void)snprintf(p->folder, sizeof p->folder, "/var/tmp/fwXXXXXX");
	assert_non_null(mkdtemp(p->folder));
	assert_int_equal(0, chmod(p->folder, 0755));
	(void)snprintf(p->whole, sizeof p->whole, "%s/whole.book", p->folder);
	(void)snprintf(
		demo, sizeof demo, "%s/demo", source != NULL ? source : ".");
	fill.word[2] = demo;
	run_words(&none, &make, p->whole, &got);
	assert_int_equal(0, got.status);
	run_words(&none, &fill, p->whole, &got);
	assert_int_equal(0, got.status);
	p->bytes = read_whole(p->whole, &p->n);
	assert_non_null(p->bytes);
}

static void
clear_place(struct place *p)
{
	char command[NAME_MOST];

	free(p->bytes);
	(void)snprintf(command, sizeof command, "rm -rf '%s'", p->folder);
	assert_int_equal(0, system(command));
}

/* ---- files that are no book, or none of ours ---- */

static void
make_nothing(const struct place *p, const char *path)
{
	(void)p;
	(void)path;
}

static void
make_folder(const struct place *p, const char *path)
{
	(void)p;
	assert_int_equal(0, mkdir(path, 0755));
}

static void
make_pipe(const struct place *p, const char *path)
{
	(void)p;
	assert_int_equal(0, mkfifo(path, 0644));
}

static void
make_loop(const struct place *p, const char *path)
{
	(void)p;
	assert_int_equal(0, symlink(path, path));
}

static void
make_link(const struct place *p, const char *path)
{
	assert_int_equal(0, symlink(p->whole, path));
}

static void
make_empty(const struct place *p, const char *path)
{
	(void)p;
	write_bytes(path, "", 0);
}

static void
make_text(const struct place *p, const char *path)
{
	static const char text[] = "Dear diary, today we cast four beams.\n";
	char long_text[4 * sizeof text];
	size_t n = 0;

	(void)p;
	for (int i = 0; i < 4; i++) {
		memcpy(long_text + n, text, sizeof text - 1);
		n += sizeof text - 1;
	}
	write_bytes(path, long_text, n);
}

static void
make_short(const struct place *p, const char *path)
{
	write_bytes(path, p->bytes, p->n / 2 + 331);
}

static void
make_very_short(const struct place *p, const char *path)
{
	write_bytes(path, p->bytes, 57);
}

static void
make_newer(const struct place *p, const char *path)
{
	unsigned char *copy = malloc(p->n);

	assert_non_null(copy);
	memcpy(copy, p->bytes, p->n);
	copy[VERSION_AT + 2] = 3; /* version 3 * 256 and more */
	write_bytes(path, copy, p->n);
	free(copy);
}

static const struct {
	const char *name;
	void (*make)(const struct place *p, const char *path);
	int status;
	const char *says;
} bad_books[] = {
	{"missing", make_nothing, 2, "no file"},
	{"folder", make_folder, 2, "folder"},
	{"pipe", make_pipe, 2, "pipe"},
	{"loop", make_loop, 2, "link"},
	{"link", make_link, 2, "link"},
	{"empty", make_empty, 2, "empty"},
	{"text", make_text, 2, "not a book"},
	{"short", make_short, 3, "cut short"},
	{"very-short", make_very_short, 2, "not a book"},
	{"newer", make_newer, 2, "newer"},
};

/* The last three compute for a while once they have a book, or write. */
static const struct command book_commands[] = {
	{{"import", "%", "demo"}},
	{{"show", "%"}},
	{{"show", "%", "batches"}},
	{{"show", "%", "specimens", "--last"}},
	{{"show", "%", "results", "--json"}},
	{{"verify", "%"}},
	{{"history", "%"}},
	{{"search", "%", "x"}},
	{{"compare", "%"}},
	{{"choose", "%"}},
	{{"undo", "%", "2"}},
};

enum {
	N_BAD = sizeof bad_books / sizeof bad_books[0],
	N_COMMAND = sizeof book_commands / sizeof book_commands[0],
	N_QUICK = N_COMMAND - 3
};

static void
hostile__no_command_takes_what_is_no_book(void **state)
{
	const struct limits none = {0};
	struct place p;

	(void)state;
	make_place(&p);
	for (size_t i = 0; i < N_BAD; i++) {
		char path[NAME_MOST];
		unsigned char *bytes;
		size_t n;

		(void)snprintf(path, sizeof path, "%s/%s.book", p.folder,
			bad_books[i].name);
		bad_books[i].make(&p, path);
		bytes = read_whole(path, &n);
		for (size_t c = 0; c < N_COMMAND; c++) {
			struct outcome got;
			char what[NAME_MOST];

			(void)snprintf(what, sizeof what, "%s %s",
				book_commands[c].word[0], bad_books[i].name);
			run_words(&none, &book_commands[c], path, &got);
			assert_refused(&got, bad_books[i].status, what);
			assert_has(got.text, bad_books[i].says);
			assert_unchanged(path, bytes, n);
		}
		free(bytes);
	}
	assert_unchanged(p.whole, p.bytes, p.n);
	clear_place(&p);
}

static void
hostile__new_writes_over_nothing(void **state)
{
	const struct limits none = {0};
	const struct command make = {{"new", "%"}};
	struct place p;
	struct outcome got;
	char path[NAME_MOST];

	(void)state;
	make_place(&p);
	for (size_t i = 1; i < N_BAD; i++) {
		unsigned char *bytes;
		size_t n;

		(void)snprintf(path, sizeof path, "%s/%s.book", p.folder,
			bad_books[i].name);
		bad_books[i].make(&p, path);
		bytes = read_whole(path, &n);
		run_words(&none, &make, path, &got);
		assert_refused(&got, 2, bad_books[i].name);
		assert_unchanged(path, bytes, n);
		free(bytes);
	}
	(void)snprintf(path, sizeof path, "%s/nowhere/a.book", p.folder);
	run_words(&none, &make, path, &got);
	assert_refused(&got, 2, "new in a folder that is not there");
	clear_place(&p);
}

/* ---- folders to import ---- */

static void
put_csv(const char *folder, const char *name, const void *bytes, size_t n)
{
	char path[NAME_MOST];

	(void)snprintf(path, sizeof path, "%s/%s", folder, name);
	write_bytes(path, bytes, n);
}

static void
put_materials(const char *folder, const char *text)
{
	put_csv(folder, "materials.csv", text, strlen(text));
}

static void
csv_folder(const char *folder)
{
	char path[NAME_MOST];

	(void)snprintf(path, sizeof path, "%s/mixes.csv", folder);
	assert_int_equal(0, mkdir(path, 0755));
}

static void
csv_pipe(const char *folder)
{
	char path[NAME_MOST];

	(void)snprintf(path, sizeof path, "%s/mixes.csv", folder);
	assert_int_equal(0, mkfifo(path, 0644));
}

static void
csv_loop(const char *folder)
{
	char path[NAME_MOST];

	(void)snprintf(path, sizeof path, "%s/mixes.csv", folder);
	assert_int_equal(0, symlink(path, path));
}

static void
csv_empty(const char *folder)
{
	put_materials(folder, "");
}

static void
csv_not_utf_8(const char *folder)
{
	put_materials(folder, "code,name,role\nc,br\xFBl\xE9,cement\n");
}

static void
csv_zero_byte(const char *folder)
{
	static const char bytes[] = "code,name,role\nc,a\0b,cement\n";

	put_csv(folder, "materials.csv", bytes, sizeof bytes - 1);
}

static void
csv_open_quote(const char *folder)
{
	put_materials(folder, "code,name,role\nc,\"a,cement\n");
}

/* head, then n times the part, then tail */
static void
csv_long(const char *folder, const char *head, const char *part, size_t n,
	const char *tail)
{
	size_t n_head = strlen(head), n_part = strlen(part),
	       n_tail = strlen(tail), at = n_head;
	char *bytes = malloc(n_head + n * n_part + n_tail);

	assert_non_null(bytes);
	memcpy(bytes, head, n_head);
	for (size_t i = 0; i < n; i++, at += n_part)
		memcpy(bytes + at, part, n_part);
	memcpy(bytes + at, tail, n_tail);
	put_csv(folder, "materials.csv", bytes, at + n_tail);
	free(bytes);
}

static void
csv_field_of_10_mb(const char *folder)
{
	csv_long(folder, "code,name,role\nc,", "0123456789",
		(size_t)1024 * 1024, ",cement\n");
}

static void
csv_million_columns(const char *folder)
{
	csv_long(folder, "code", ",name", 1000000, "\n");
}

static void
csv_million_cells(const char *folder)
{
	csv_long(folder, "code,name,role\nc", ",x", 1000000, "\n");
}

static const struct {
	const char *name;
	void (*make)(const char *folder);
	const char *says;
} bad_folders[] = {
	{"folder", csv_folder, "mixes.csv"},
	{"pipe", csv_pipe, "mixes.csv"},
	{"loop", csv_loop, "mixes.csv"},
	{"empty", csv_empty, "materials.csv:1"},
	{"not-utf-8", csv_not_utf_8, "materials.csv:2"},
	{"zero-byte", csv_zero_byte, "materials.csv:2"},
	{"open-quote", csv_open_quote, "materials.csv:2"},
	{"field-10-mb", csv_field_of_10_mb, "materials.csv:2"},
	{"million-columns", csv_million_columns, "materials.csv:1"},
	{"million-cells", csv_million_cells, "materials.csv:2"},
};

/* A file that is no CSV is one line "FILE.csv:LINE:0: ..." among the faults of
 * all files; what follows them is the one sentence. */
static void
drop_fault_line(struct outcome *got, const char *says)
{
	char *end = strchr(got->text, '\n');
	const char *place = strstr(got->text, ".csv:");

	if (end == NULL || place == NULL || place > end || end[1] == '\0' ||
		strncmp(got->text, "foamwright ", 11) == 0)
		return;
	*end = '\0';
	assert_has(got->text, says);
	memmove(got->text, end + 1, strlen(end + 1) + 1);
}

static void
hostile__import_takes_no_bad_folder(void **state)
{
	const struct limits none = {0};
	struct place p;
	struct outcome got;

	(void)state;
	make_place(&p);
	for (size_t i = 0; i < sizeof bad_folders / sizeof bad_folders[0];
		i++) {
		char folder[NAME_MOST];
		struct command import = {{"import", "%", folder}};

		(void)snprintf(folder, sizeof folder, "%s/%s", p.folder,
			bad_folders[i].name);
		assert_int_equal(0, mkdir(folder, 0755));
		bad_folders[i].make(folder);
		run_words(&none, &import, p.whole, &got);
		assert_has(got.text, bad_folders[i].says);
		drop_fault_line(&got, bad_folders[i].says);
		assert_refused(&got, 2, bad_folders[i].name);
		assert_unchanged(p.whole, p.bytes, p.n);
	}
	const struct command missing = {{"import", "%", "no-such-folder"}};
	const struct command file = {{"import", p.whole, "%"}};

	run_words(&none, &missing, p.whole, &got);
	assert_refused(&got, 2, "import of a missing folder");
	run_words(&none, &file, p.whole, &got);
	assert_refused(&got, 2, "import of a file");
	assert_unchanged(p.whole, p.bytes, p.n);
	clear_place(&p);
}

/* ---- the machine ---- */

static void
make_more(const struct place *p, char folder[NAME_MOST])
{
	(void)snprintf(folder, NAME_MOST, "%s/more", p->folder);
	assert_int_equal(0, mkdir(folder, 0755));
	csv_long(folder, "code,name,role,note\nzz,x,sand,", "0123456789", 4000,
		"\n");
}

/* No file may grow beyond the book's size: EFBIG where a full disk says
 * ENOSPC. */
static void
hostile__a_full_disk_leaves_the_book(void **state)
{
	struct place p;
	struct outcome got;
	char folder[NAME_MOST], path[NAME_MOST];
	struct command import = {{"import", "%", folder}};
	const struct command make = {{"new", "%"}};

	(void)state;
	make_place(&p);
	make_more(&p, folder);
	const struct limits full = {.file_bytes = p.n};
	const struct limits fuller = {.file_bytes = 4096};

	run_words(&full, &import, p.whole, &got);
	assert_refused(&got, 3, "import on a full disk");
	assert_has(got.text, "disk");
	assert_unchanged(p.whole, p.bytes, p.n);
	run_words(&fuller, &import, p.whole, &got); /* not even a journal */
	assert_refused(&got, 3, "import on a fuller disk");
	assert_unchanged(p.whole, p.bytes, p.n);
	(void)snprintf(path, sizeof path, "%s/new.book", p.folder);
	run_words(&fuller, &make, path, &got);
	assert_refused(&got, 3, "new on a full disk");
	assert_int_not_equal(0, access(path, F_OK));
	clear_place(&p);
}

static void
hostile__an_answer_that_cannot_be_written_is_a_fault(void **state)
{
	const struct limits full = {.output = "/dev/full"};
	struct place p;
	struct outcome got;

	(void)state;
	make_place(&p);
	for (size_t c = 1; c < N_QUICK; c++) {
		run_words(&full, &book_commands[c], p.whole, &got);
		assert_int_equal(3, got.status);
		assert_has(got.text, "could not be written");
	}
	assert_unchanged(p.whole, p.bytes, p.n);
	clear_place(&p);
}

/* Permissions do not bind root, so the runs are somebody else's. */
static bool
can_be_nobody(void)
{
	const struct limits nobody = {.as_nobody = true};
	const struct command version = {{"--version"}};
	struct outcome got;

	run_words(&nobody, &version, "", &got);
	return got.status == 0;
}

static void
hostile__a_folder_that_may_not_be_written_in(void **state)
{
	const struct limits nobody = {.as_nobody = true};
	struct place p;
	struct outcome got;
	char folder[NAME_MOST], path[NAME_MOST];
	struct command import = {{"import", "%", folder}};
	const struct command make = {{"new", "%"}};

	(void)state;
	if (!can_be_nobody()) {
		print_message("SKIPPED: the program cannot be started as "
			      "another user here\n");
		skip();
	}
	make_place(&p);
	make_more(&p, folder);
	assert_int_equal(0, chmod(p.folder, 0555));
	assert_int_equal(0, chmod(p.whole, 0444));
	for (size_t c = 1; c <= N_QUICK; c++) {
		run_words(&nobody, &book_commands[c], p.whole, &got);
		if (got.status != 0)
			print_error(
				"%s: %s\n", book_commands[c].word[0], got.text);
		assert_int_equal(0, got.status); /* reading is no fault */
	}
	run_words(&nobody, &import, p.whole, &got);
	assert_refused(&got, 3, "import into a book that may not be written");
	(void)snprintf(path, sizeof path, "%s/new.book", p.folder);
	run_words(&nobody, &make, path, &got);
	assert_refused(&got, 3, "new in a folder that may not be written in");
	assert_int_equal(0, chmod(p.whole, 0000));
	for (size_t c = 0; c < N_COMMAND; c++) {
		run_words(&nobody, &book_commands[c], p.whole, &got);
		assert_refused(&got, 3, "a book that may not be read");
	}
	assert_int_equal(0, chmod(p.whole, 0644));
	assert_int_equal(0, chmod(p.folder, 0755));
	assert_unchanged(p.whole, p.bytes, p.n);
	clear_place(&p);
}

/* ---- the workbench ---- */

static void
hostile__calc_takes_no_bad_question(void **state)
{
	static const char not_utf_8[] = "{\"values\": [1, 2], \"n\xFCm\": 1}";
	static const char zero[] = "{\"values\": [1, \0 2]}";
	const struct limits none = {0};
	struct command ask = {{"calc", "summary", "--in", "%"}};
	struct place p;
	struct outcome got;
	char path[NAME_MOST];
	static const struct {
		const char *name;
		void (*make)(const struct place *p, const char *path);
	} bad[] = {{"missing", make_nothing}, {"folder", make_folder},
		{"loop", make_loop}, {"empty", make_empty}, {"text", make_text},
		{"book", make_short}};

	(void)state;
	make_place(&p);
	for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
		(void)snprintf(
			path, sizeof path, "%s/%s.json", p.folder, bad[i].name);
		bad[i].make(&p, path);
		run_words(&none, &ask, path, &got);
		assert_refused(&got, 2, bad[i].name);
	}
	(void)snprintf(path, sizeof path, "%s/bytes.json", p.folder);
	write_bytes(path, not_utf_8, sizeof not_utf_8 - 1);
	run_words(&none, &ask, path, &got);
	assert_refused(&got, 2, "a question that is not UTF-8");
	write_bytes(path, zero, sizeof zero - 1);
	run_words(&none, &ask, path, &got);
	assert_refused(&got, 2, "a question with a zero byte");
	clear_place(&p);
}

static const struct CMUnitTest tests[] = {
	TEST(hostile__no_command_takes_what_is_no_book),
	TEST(hostile__new_writes_over_nothing),
	TEST(hostile__import_takes_no_bad_folder),
	TEST(hostile__a_full_disk_leaves_the_book),
	TEST(hostile__an_answer_that_cannot_be_written_is_a_fault),
	TEST(hostile__a_folder_that_may_not_be_written_in),
	TEST(hostile__calc_takes_no_bad_question),
};

TEST_MAIN(tests)
