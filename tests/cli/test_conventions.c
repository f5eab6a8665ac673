/* test_conventions.c - what every command does alike: help, mistakes, colour,
 * documents, interruption. */
#include "support.h"

#include <jansson.h>
#include <signal.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

enum { TEXT_MOST = 1 << 16, LINE_MOST = 4096 };

/* Every command, as the program itself is built from. */
static const char *const names[] = {
#define COMMAND_NAME(name) #name,
#include "cli/command_names.h"
#undef COMMAND_NAME
};

enum { N_NAME = sizeof names / sizeof names[0] };

static const char *
word_of(size_t i)
{
	return names[i] + strlen("command_");
}

struct outcome {
	int status;
	char out[TEXT_MOST], err[TEXT_MOST];
};

static void
read_all(const char *path, char text[TEXT_MOST])
{
	FILE *file = fopen(path, "rb");
	size_t n;

	assert_non_null(file);
	n = fread(text, 1, TEXT_MOST - 1, file);
	text[n] = '\0';
	(void)fclose(file);
}

/* The shell runs "foamwright" and what follows, in a folder of its own. */
static void
run(const char *folder, const char *words, struct outcome *got)
{
	char line[LINE_MOST], path[LINE_MOST];
	int status;

	assert_true((size_t)snprintf(line, sizeof line,
			    "cd %s && foamwright() { '%s' \"$@\"; } && { %s\n} "
			    ">out 2>err </dev/null",
			    folder, support_program(), words) < sizeof line);
	status = system(line);
	assert_true(WIFEXITED(status));
	got->status = WEXITSTATUS(status);
	(void)snprintf(path, sizeof path, "%s/out", folder);
	read_all(path, got->out);
	(void)snprintf(path, sizeof path, "%s/err", folder);
	read_all(path, got->err);
}

static void
make_folder(char folder[64])
{
	struct outcome *got = malloc(sizeof *got);
	char line[LINE_MOST];
	const char *source = getenv("FOAMWRIGHT_SOURCE");

	assert_non_null(got);
	(void)snprintf(folder, 64, "/var/tmp/fwXXXXXX");
	assert_non_null(mkdtemp(folder));
	run(folder, "foamwright new a.book", got);
	assert_int_equal(0, got->status);
	(void)snprintf(line, sizeof line, "foamwright import a.book %s/demo",
		source != NULL ? source : ".");
	run(folder, line, got);
	assert_int_equal(0, got->status);
	free(got);
}

static void
drop_folder(const char *folder)
{
	char line[LINE_MOST];

	(void)snprintf(line, sizeof line, "rm -rf '%s'", folder);
	assert_int_equal(0, system(line));
}

static bool
is_ascii(const char *text)
{
	for (; *text != '\0'; text++)
		if ((unsigned char)*text > 126)
			return false;
	return true;
}

static size_t
widest(const char *text)
{
	size_t most = 0;

	while (*text != '\0') {
		size_t n = strcspn(text, "\n");

		most = n > most ? n : most;
		text += n + (text[n] == '\n');
	}
	return most;
}

/* Help of the command, on standard output alone, in ASCII, within 80 columns, with
 * an example. */
static void
assert_help(const struct outcome *got, const char *word)
{
	char title[64];

	assert_int_equal(0, got->status);
	assert_string_equal("", got->err);
	(void)snprintf(title, sizeof title, "foamwright %s: ", word);
	assert_has(got->out, title);
	assert_has(got->out, "Example:");
	assert_true(is_ascii(got->out));
	if (widest(got->out) > 80)
		fail_msg("help of %s is wider than 80 columns", word);
}

/* Every command is asked in one of the four ways, each way many times over: which
 * way it was is forgotten before the command is looked up. */
static void
help__is_given_however_it_is_asked(void **state)
{
	static const struct {
		const char *before, *after;
	} ways[] = {
		{"", " --help"}, {"", " -h"}, {"help ", ""}, {"--help ", ""}};
	struct outcome *got = malloc(sizeof *got);
	char folder[64], line[LINE_MOST];

	(void)state;
	assert_non_null(got);
	make_folder(folder);
	for (size_t i = 0; i < N_NAME; i++) {
		(void)snprintf(line, sizeof line, "foamwright %s%s%s",
			ways[i % 4].before, word_of(i), ways[i % 4].after);
		run(folder, line, got);
		assert_help(got, word_of(i));
	}
	for (size_t w = 0; w < 4; w++) {
		static const char *const whole[] = {"foamwright",
			"foamwright -h", "foamwright --help",
			"foamwright help"};

		run(folder, whole[w], got);
		assert_int_equal(0, got->status);
		assert_string_equal("", got->err);
		assert_has(got->out, "Commands:");
		assert_true(widest(got->out) <= 80);
	}
	drop_folder(folder);
	free(got);
}

struct mistake {
	const char *words;
	int status;
	const char *says; /* on standard error */
};

/* A mistake is told, with what would do, and nothing is run in its place; no
 * abbreviation is taken. */
static const struct mistake mistakes[] = {
	{"foamwright shwo a.book", 2, "Did you mean \"show\"?"},
	{"foamwright sho a.book", 2, "Did you mean \"show\"?"},
	{"foamwright frobnicate", 2, "\"foamwright --help\" lists them"},
	{"foamwright help shwo", 2, "Did you mean \"show\"?"},
	{"foamwright show a.book --limt 5", 2, "Did you mean \"--limit\"?"},
	{"foamwright show a.book --lim 5", 2, "has no option \"--lim\""},
	{"foamwright show a.book --jso", 2, "Did you mean \"--json\"?"},
	{"foamwright import a.book x --dry", 2, "has no option \"--dry\""},
	{"foamwright show a.book --limit", 2, "--limit takes a value"},
	{"foamwright show a.book --limit 1.5", 2, "no whole number of rows"},
	{"foamwright show a.book --last=5", 2, "takes no value"},
	{"foamwright show a.book --limit 1 --limit 2", 2, "given twice"},
	{"foamwright show a.book mices", 2, "it takes mixes"},
	{"foamwright show", 2, "for example: foamwright show"},
	{"foamwright show no.book", 2, "no.book"},
	{"foamwright show a.book --csv --json", 2, "take one of them"},
	{"foamwright verify a.book --csv", 2, "has no option \"--csv\""},
	{"foamwright show a.book --color=blue", 2, "auto, always or never"},
	{"foamwright show a.book --color", 2, "auto, always or never"},
	{"foamwright undo a.book two", 2, "it takes a number such as 12"},
	{"foamwright undo a.book -1", 2, "has no option"},
	{"foamwright undo a.book 99999999999999999999", 2, "no entry"},
	{"foamwright search a.book ''", 2, "nothing to search for"},
};

static void
mistakes__are_told_and_nothing_runs(void **state)
{
	struct outcome *got = malloc(sizeof *got);
	char folder[64];

	(void)state;
	assert_non_null(got);
	make_folder(folder);
	for (size_t i = 0; i < sizeof mistakes / sizeof mistakes[0]; i++) {
		run(folder, mistakes[i].words, got);
		if (got->status != mistakes[i].status ||
			(strstr(mistakes[i].words, "--json") == NULL &&
				got->out[0] != '\0'))
			fail_msg("%s: exit %d, %s%s", mistakes[i].words,
				got->status, got->out, got->err);
		assert_has(got->err, mistakes[i].says);
		assert_true(is_ascii(got->err));
	}
	drop_folder(folder);
	free(got);
}

/* ---- documents ---- */

static void
assert_document(const struct outcome *got, const char *words, bool failed)
{
	json_error_t fault;
	json_t *json = json_loads(got->out, 0, &fault);

	if (json == NULL)
		fail_msg("%s: no JSON document: %s\n%s", words, fault.text,
			got->out);
	assert_int_equal(failed, json_object_get(json, "error") != NULL);
	json_decref(json);
}

static const struct {
	const char *words;
	bool fails;
} documents[] = {
	{"foamwright show a.book --json", false},
	{"foamwright --json show a.book", false},
	{"foamwright show --json a.book batches", false},
	{"foamwright show a.book specimens --limit 3 --json", false},
	{"foamwright show --json -- a.book results", false},
	{"foamwright show a.book decisions --json", false},
	{"foamwright show a.book quantities --json", false},
	{"foamwright history a.book --json", false},
	{"foamwright status a.book --json", false},
	{"foamwright search a.book 03 --json", false},
	{"foamwright due a.book --json", false},
	{"foamwright parts a.book --json", false},
	{"foamwright material a.book --json", false},
	{"foamwright verify a.book --json", false},
	{"foamwright undo a.book 2 --dry-run --json", false},
	{"foamwright undo a.book 7 --json", true},
	{"foamwright import a.book nowhere --json", true},
	{"foamwright --json shwo a.book", true},
	{"foamwright show no.book --json", true},
	{"foamwright show a.book --json --nothing", true},
};

/* Standard output is exactly one document, also where it fails. */
static void
json__is_one_document(void **state)
{
	struct outcome *got = malloc(sizeof *got);
	char folder[64], line[LINE_MOST];

	(void)state;
	assert_non_null(got);
	make_folder(folder);
	for (size_t i = 0; i < sizeof documents / sizeof documents[0]; i++) {
		run(folder, documents[i].words, got);
		assert_document(got, documents[i].words, documents[i].fails);
		assert_int_equal(documents[i].fails, got->status != 0);
		assert_int_equal(documents[i].fails, got->err[0] != '\0');
	}
	for (size_t i = 0; i < N_NAME; i++) {
		if (strcmp(word_of(i), "calc") == 0)
			continue; /* its own form: docs/calc.md */
		(void)snprintf(line, sizeof line,
			"foamwright %s no.book --nothing --json", word_of(i));
		run(folder, line, got);
		assert_document(got, line, true);
		assert_int_equal(2, got->status);
	}
	drop_folder(folder);
	free(got);
}

static const char *const lists[] = {"show a.book mixes", "show a.book batches",
	"show a.book specimens", "show a.book results", "show a.book decisions",
	"show a.book quantities", "history a.book", "search a.book 03",
	"due a.book --on 2026-03-29", "parts a.book", "material a.book"};

static size_t
commas(const char *line)
{
	size_t n = 0;
	bool quoted = false;

	for (; *line != '\0' && *line != '\n'; line++) {
		quoted = *line == '"' ? !quoted : quoted;
		n += *line == ',' && !quoted;
	}
	return n;
}

/* As many fields in each row as in the heading; all rows. */
static void
csv__is_a_whole_table(void **state)
{
	struct outcome *got = malloc(sizeof *got);
	char folder[64], line[LINE_MOST];

	(void)state;
	assert_non_null(got);
	make_folder(folder);
	for (size_t i = 0; i < sizeof lists / sizeof lists[0]; i++) {
		size_t n;

		(void)snprintf(
			line, sizeof line, "foamwright %s --csv", lists[i]);
		run(folder, line, got);
		assert_int_equal(0, got->status);
		n = commas(got->out);
		assert_true(n >= 2);
		for (const char *at = got->out; *at != '\0';
			at += strcspn(at, "\n") + 1)
			assert_int_equal(n, commas(at));
	}
	run(folder, "foamwright show a.book specimens --csv | wc -l", got);
	assert_int_equal(117, atoi(got->out)); /* 116 pieces of the demo */
	drop_folder(folder);
	free(got);
}

/* ---- colour ---- */

static const struct {
	const char *setting, *option;
	bool coloured;
} colours[] = {
	{"TERM=xterm", "", false}, /* no terminal */
	{"TERM=xterm", "--color=always", true},
	{"TERM=xterm NO_COLOR=1", "--color always", true}, /* said outright */
	{"TERM=xterm", "--color=never", false},
	{"TERM=xterm", "--color=auto", false},
};

static void
colour__only_where_it_belongs(void **state)
{
	struct outcome *got = malloc(sizeof *got);
	char folder[64], line[LINE_MOST];

	(void)state;
	assert_non_null(got);
	make_folder(folder);
	for (size_t i = 0; i < sizeof colours / sizeof colours[0]; i++) {
		(void)snprintf(line, sizeof line,
			"export %s && foamwright compare a.book %s",
			colours[i].setting, colours[i].option);
		run(folder, line, got);
		assert_int_equal(
			colours[i].coloured, strchr(got->out, '\033') != NULL);
	}
	drop_folder(folder);
	free(got);
}

static const char *const deeds[] = {
	"mix a.book Q --name Try --wet '700 kg/m3' --part 'cement=300 kg'",
	"gear a.book --scale-step '20 g'",
	"form a.book big --shape beam --inner '100 mm x 100 mm x 500 mm'",
	"piece a.book 01-B-1 --remark 'looked at'",
	"weigh a.book 01-B-1 --mass '2.9 kg' --state 'air dry'",
	"withdraw a.book batch 03 --because 'wrong sheet'",
	"part a.book north --kind wall --length 6m --height 2.4m "
	"--thickness 200mm",
	"pour a.book 01 --part wall-w --lift 1",
	"material a.book lime --role binder --name Lime",
};

/* A dry run says what the deed itself says, and leaves the book as it was. */
static void
dry_run__says_the_same_and_keeps_nothing(void **state)
{
	struct outcome *dry = malloc(sizeof *dry);
	struct outcome *wet = malloc(sizeof *wet);
	char folder[64], line[LINE_MOST];

	(void)state;
	assert_non_null(dry);
	assert_non_null(wet);
	make_folder(folder);
	for (size_t i = 0; i < sizeof deeds / sizeof deeds[0]; i++) {
		run(folder, "cp a.book before", wet);
		(void)snprintf(line, sizeof line,
			"foamwright %s --dry-run && cmp a.book before",
			deeds[i]);
		run(folder, line, dry);
		(void)snprintf(line, sizeof line, "foamwright %s", deeds[i]);
		run(folder, line, wet);
		if (wet->status != 0 || dry->status != 0)
			fail_msg("%s: %s%s", deeds[i], wet->err, dry->err);
		assert_string_equal(wet->out, dry->out);
		assert_string_equal(
			"Dry run: nothing of this is kept.\n", dry->err);
		run(folder, "cmp a.book before", wet);
		assert_int_equal(1, wet->status);
	}
	drop_folder(folder);
	free(dry);
	free(wet);
}

/* The manual page has every command, and is sound where mandoc is at hand. */
static void
manual__is_sound(void **state)
{
	struct outcome *got = malloc(sizeof *got);
	char folder[64], line[LINE_MOST];

	(void)state;
	assert_non_null(got);
	(void)snprintf(folder, sizeof folder, "/var/tmp/fwXXXXXX");
	assert_non_null(mkdtemp(folder));
	run(folder, "foamwright --man | tee page | grep '^[.]Ss '", got);
	for (size_t i = 0; i < N_NAME; i++) {
		(void)snprintf(line, sizeof line, ".Ss %s\n", word_of(i));
		assert_has(got->out, line);
	}
	run(folder,
		"if command -v mandoc >/dev/null; then mandoc -Tlint page; fi",
		got);
	assert_string_equal("", got->out);
	drop_folder(folder);
	free(got);
}

/* Where the locale says outright that UTF-8 is not understood, no half letters
 * reach the screen; documents stay as they are. */
static void
locale__ascii_where_utf8_is_not_known(void **state)
{
	struct outcome *got = malloc(sizeof *got);
	char folder[64];

	(void)state;
	assert_non_null(got);
	make_folder(folder);
	run(folder,
		"foamwright material a.book chaux --role binder --name "
		"'Chaux gris\xC3\xA9"
		"e'",
		got);
	assert_int_equal(0, got->status);
	run(folder, "foamwright search a.book chaux", got);
	assert_has(got->out,
		"Chaux gris\xC3\xA9"
		"e");
	run(folder, "LC_ALL=C; export LC_ALL; foamwright search a.book chaux",
		got);
	assert_has(got->out, "Chaux gris?e");
	run(folder,
		"LC_ALL=C; export LC_ALL; foamwright search a.book chaux "
		"--csv",
		got);
	assert_has(got->out,
		"Chaux gris\xC3\xA9"
		"e");
	run(folder,
		"unset LC_ALL LC_CTYPE LANG; foamwright search a.book chaux",
		got);
	assert_has(got->out,
		"Chaux gris\xC3\xA9"
		"e");
	drop_folder(folder);
	free(got);
}

/* ---- interruption ---- */

/* Interrupted at any moment, the import is whole or not there. */
static void
interrupt__leaves_all_or_nothing(void **state)
{
	struct outcome *got = malloc(sizeof *got);
	const char *source = getenv("FOAMWRIGHT_SOURCE");
	char folder[64], line[LINE_MOST];
	int n_stopped = 0;

	(void)state;
	assert_non_null(got);
	(void)snprintf(folder, sizeof folder, "/var/tmp/fwXXXXXX");
	assert_non_null(mkdtemp(folder));
	for (int i = 0; i < 30; i++) {
		(void)snprintf(line, sizeof line,
			"rm -f a.book* && foamwright new a.book >made && "
			"timeout -s INT 0.0%02d '%s' import a.book %s/demo",
			1 + i, support_program(),
			source != NULL ? source : ".");
		run(folder, line, got);
		if (got->status != 0 && got->status != 124)
			fail_msg("exit %d: %s", got->status, got->err);
		if (got->status == 124 && got->err[0] != '\0') {
			assert_has(got->err, "was not written");
			n_stopped++;
		}
		run(folder, "foamwright verify a.book", got);
		assert_int_equal(0, got->status);
		assert_true(got->out[0] == '1' || got->out[0] == '2');
	}
	print_message("%d of 30 were stopped on the way\n", n_stopped);
	drop_folder(folder);
	free(got);
}

static const struct CMUnitTest conventions[] = {
	cmocka_unit_test(help__is_given_however_it_is_asked),
	cmocka_unit_test(mistakes__are_told_and_nothing_runs),
	cmocka_unit_test(json__is_one_document),
	cmocka_unit_test(csv__is_a_whole_table),
	cmocka_unit_test(colour__only_where_it_belongs),
	cmocka_unit_test(dry_run__says_the_same_and_keeps_nothing),
	cmocka_unit_test(manual__is_sound),
	cmocka_unit_test(locale__ascii_where_utf8_is_not_known),
	cmocka_unit_test(interrupt__leaves_all_or_nothing),
};

TEST_MAIN(conventions)
