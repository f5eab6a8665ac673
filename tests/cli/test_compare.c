/* test_compare.c - "foamwright compare" as it is called: widths, colour, JSON,
 * exit statuses, and books that nobody would make on purpose. */
#include "support.h"

#include <jansson.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

enum { ROOM = 1 << 20 };

struct place {
	char folder[64];
	char text[ROOM]; /* what the last call printed */
};

/* The command in a shell, in the place's folder, both outputs together. */
static int run(struct place *p, const char *format, ...)
	__attribute__((format(printf, 2, 3)));

static int
run(struct place *p, const char *format, ...)
{
	char words[2048], line[4096];
	va_list arguments;
	size_t n = 0, got;
	FILE *pipe;
	int status;

	va_start(arguments, format);
	(void)vsnprintf(words, sizeof words, format, arguments);
	va_end(arguments);
	(void)snprintf(line, sizeof line, "cd %s && %s 2>&1", p->folder, words);
	pipe = popen(line, "r");
	assert_non_null(pipe);
	while (n + 1 < ROOM &&
		(got = fread(p->text + n, 1, ROOM - 1 - n, pipe)) > 0)
		n += got;
	p->text[n] = '\0';
	status = pclose(pipe);
	assert_true(WIFEXITED(status));
	return WEXITSTATUS(status);
}

static struct place *
open_place(struct fixture *f)
{
	struct place *p = arena_take(f->a, 1, sizeof *p);

	assert_non_null(p);
	(void)snprintf(p->folder, sizeof p->folder, "/var/tmp/fwXXXXXX");
	assert_non_null(mkdtemp(p->folder));
	assert_int_equal(0, setenv("FW", support_program(), 1));
	return p;
}

static void
close_place(struct place *p)
{
	assert_int_equal(0,
		run(p, "rm -rf ./* && rmdir ../%s",
			strrchr(p->folder, '/') + 1));
}

static struct place *
open_demo(struct fixture *f)
{
	struct place *p = open_place(f);

	assert_int_equal(0,
		run(p,
			"$FW new a.book --name House && $FW import a.book "
			"\"$FOAMWRIGHT_SOURCE/demo\""));
	return p;
}

static void
write_file(const struct place *p, const char *name, const char *text)
{
	char path[128];
	FILE *to;

	(void)snprintf(path, sizeof path, "%s/%s", p->folder, name);
	to = fopen(path, "w");
	assert_non_null(to);
	assert_true(fputs(text, to) >= 0);
	assert_int_equal(0, fclose(to));
}

/* A book of mixes B and the other one, by its readings; "" leaves a file out.
 */
static struct place *
open_small(struct fixture *f, const char *other, const char *batches,
	const char *specimens, const char *readings)
{
	struct place *p = open_place(f);
	char mixes[2048];

	(void)snprintf(mixes, sizeof mixes, "code,name\nB,Baseline\n%s%s%s",
		other[0] != '\0' ? "\"" : "", other,
		other[0] != '\0' ? "\",\"second\"\n" : "");
	assert_int_equal(0, run(p, "mkdir in"));
	write_file(p, "in/mixes.csv", mixes);
	write_file(p, "in/trial.csv", "code,baseline\nT,B\n");
	if (batches[0] != '\0')
		write_file(p, "in/batches.csv", batches);
	if (specimens[0] != '\0')
		write_file(p, "in/specimens.csv", specimens);
	if (readings[0] != '\0')
		write_file(p, "in/readings.csv", readings);
	assert_int_equal(0, run(p, "$FW new a.book"));
	if (run(p, "$FW import a.book in") != 0)
		print_error("%s", p->text);
	return p;
}

static size_t
columns(const char *line, size_t n)
{
	size_t wide = 0;

	for (size_t i = 0; i < n; i++)
		wide += ((unsigned char)line[i] & 0xC0u) != 0x80u;
	return wide;
}

/* No line wider than so many columns, nothing that steers a terminal. */
static size_t
check_page(const struct place *p, size_t width)
{
	size_t widest = 0;

	for (const char *line = p->text; *line != '\0';) {
		size_t n = strcspn(line, "\n");
		size_t wide = columns(line, n);

		assert_true(wide <= width);
		for (size_t i = 0; i < n; i++)
			assert_true((unsigned char)line[i] >= 0x20 &&
				line[i] != 0x7F);
		widest = wide > widest ? wide : widest;
		line += n + (line[n] == '\n');
	}
	assert_lacks(p->text, "nan");
	assert_lacks(p->text, "inf ");
	return widest;
}

static const char *const every_way[] = {"", "--all",
	"--measure dent --classical --method --leave-out --learn-from a.book"};

static void
compare__fits_the_screen(void **state)
{
	struct fixture *f = *state;
	struct place *p = open_demo(f);

	for (size_t i = 0; i < sizeof every_way / sizeof every_way[0]; i++) {
		assert_int_equal(0,
			run(p, "env -u COLUMNS $FW compare a.book %s",
				every_way[i]));
		assert_true(check_page(p, 80) > 60);
	}
	assert_int_equal(0,
		run(p, "COLUMNS=120 $FW compare a.book --measure dry_density"));
	assert_true(check_page(p, 120) > 100);
	/* The wide table has the names in it. */
	assert_has(p->text, "Ladder wire  ");
	assert_int_equal(
		0, run(p, "COLUMNS=44 $FW compare a.book --measure dent"));
	(void)check_page(p, 90);
	close_place(p);
}

static void
compare__says_what_to_do(void **state)
{
	struct fixture *f = *state;
	struct place *p = open_demo(f);

	assert_int_equal(0, run(p, "COLUMNS=200 $FW compare a.book"));
	assert_has(p->text, "D is clearly stronger");
	assert_has(p->text, "because it is heavier");
	assert_has(p->text, "Cast another batch of G");
	assert_has(p->text, "one batch is one experiment");
	assert_has(p->text, "L could not be made: 3 of 7 beams snapped");
	assert_has(p->text, "of picking the wrong mix");
	close_place(p);
}

static void
compare__colours_terminals_only(void **state)
{
	struct fixture *f = *state;
	struct place *p = open_demo(f);
	const char *on =
		"TERM=xterm script -qec \"$FW compare a.book --measure "
		"water_taken_up\" o";

	/* A pipe is no terminal. */
	assert_int_equal(
		0, run(p, "TERM=xterm $FW compare a.book --measure dent"));
	assert_lacks(p->text, "\033");
	/* A machine without pseudo-terminals cannot be asked the rest. */
	if (run(p, "script -qec true /dev/null") != 0) {
		print_message("no pseudo-terminal here: colours not tried\n");
	} else {
		assert_int_equal(0, run(p, "env -u NO_COLOR %s", on));
		assert_has(p->text, "\033[32mclearly better\033[0m");
		assert_int_equal(0, run(p, "NO_COLOR=1 %s", on));
		assert_lacks(p->text, "\033");
	}
	close_place(p);
}

/* Every number of the document is finite, by walking it. */
static size_t
count_numbers(const json_t *at)
{
	const char *key;
	json_t *value;
	size_t n = 0, i;

	if (json_is_number(at)) {
		assert_true(json_number_value(at) - json_number_value(at) == 0);
		return 1;
	}
	if (json_is_array(at)) {
		json_array_foreach(at, i, value) n += count_numbers(value);
	} else if (json_is_object(at)) {
		json_t *walked = json_incref(json_deep_copy(at));

		json_object_foreach(walked, key, value)
			n += count_numbers(value);
		json_decref(walked);
		json_decref(walked);
	}
	return n;
}

static void
compare__writes_json(void **state)
{
	struct fixture *f = *state;
	struct place *p = open_demo(f);
	json_error_t error;
	json_t *got, *first;

	assert_int_equal(0,
		run(p,
			"$FW compare a.book --json --classical --measure "
			"bending-strength"));
	got = json_loads(p->text, JSON_REJECT_DUPLICATES, &error);
	assert_non_null(got);
	assert_true(count_numbers(got) > 300);
	first = json_array_get(json_object_get(got, "comparisons"), 0);
	assert_string_equal("bending_strength",
		json_string_value(json_object_get(first, "measure")));
	assert_int_equal(
		20000, json_integer_value(json_object_get(first, "draws")));
	assert_int_equal(8, json_array_size(json_object_get(first, "mixes")));
	assert_non_null(json_object_get(first, "batches_left_out"));
	assert_non_null(json_object_get(first, "classical"));
	assert_non_null(json_object_get(first, "plan_one_10_percent_better"));
	json_decref(got);
	close_place(p);
}

static void
compare__refuses_with_one_sentence(void **state)
{
	static const char *const wrong[] = {"compare a.book --measure weight",
		"compare a.book --measure",
		"compare a.book --learn-from no.book",
		"compare a.book --seed x", "compare a.book --every",
		"compare no.book", "compare", "compare a.book b.book",
		"compare a.book --measure breaking_load",
		"compare a.book --all=yes"};
	struct fixture *f = *state;
	struct place *p = open_demo(f);

	for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
		assert_int_equal(2, run(p, "$FW %s", wrong[i]));
		assert_has(p->text, "foamwright");
		assert_true(strlen(p->text) > 20);
		assert_true(
			strchr(p->text, '\n') == p->text + strlen(p->text) - 1);
	}
	assert_int_equal(2, run(p, "$FW compare no.book --json 2>/dev/null"));
	assert_has(p->text, "\"error\"");
	assert_int_equal(0, run(p, "$FW compare --help"));
	assert_has(p->text, "foamwright compare site.book --leave-out");
	close_place(p);
}

static const char two_batches[] =
	"code,trial,mix,practice\n01,T,B,no\n02,T,M,no\n";
static const char two_beams[] =
	"code,batch,form,width [mm],depth [mm],length [mm],fate\n"
	"b1,01,beam,100,75,700,tested\nm1,02,beam,100,75,700,tested\n";
static const char beam_heading[] =
	"specimen,code,kind,age,loading,span [mm],on_rig_included,held [kg],"
	"broke [kg]\n";

static void
compare__takes_small_books(void **state)
{
	/* readings of one beam each, then what it must say */
	static const struct {
		const char *rows, *says;
		int status;
	} book[] = {
		{"b1,1,bending,28 d,centre,600,yes,20.6,22.6\n"
		 "m1,1,bending,28 d,centre,600,yes,24.6,26.6\n",
			"Every mix has one batch only", 0},
		/* nothing broke; everything broke under the hanger */
		{"b1,1,bending,28 d,centre,600,yes,20.6,\n"
		 "m1,1,bending,28 d,centre,600,yes,24.6,\n",
			"Every mix has one batch only", 0},
		{"b1,1,bending,28 d,centre,600,yes,0,2.6\n"
		 "m1,1,bending,28 d,centre,600,yes,0,2.6\n",
			"Every mix has one batch only", 0},
		/* one mix alone; none */
		{"b1,1,bending,28 d,centre,600,yes,20.6,22.6\n",
			"nothing to compare", 2},
		{"", "nothing to compare", 2},
	};
	static const char *const ways[] = {
		"--all --leave-out --classical --method", "--json --classical"};
	struct fixture *f = *state;

	for (size_t i = 0; i < sizeof book / sizeof book[0]; i++) {
		char readings[1024];
		struct place *p;

		(void)snprintf(readings, sizeof readings, "%s%s", beam_heading,
			book[i].rows);
		p = open_small(f, "M", two_batches, two_beams, readings);
		for (size_t k = 0; k < sizeof ways / sizeof ways[0]; k++) {
			assert_int_equal(book[i].status,
				run(p, "COLUMNS=200 $FW compare a.book %s",
					ways[k]));
			assert_has(p->text, book[i].says);
			if (strstr(ways[k], "--json") == NULL)
				(void)check_page(p, 200);
		}
		close_place(p);
	}
}

static void
compare__takes_books_without_readings(void **state)
{
	struct fixture *f = *state;
	struct place *p = open_small(f, "", "", "", "");

	assert_int_equal(2, run(p, "$FW compare a.book"));
	assert_has(p->text, "nothing to compare");
	close_place(p);
	p = open_place(f);
	assert_int_equal(0, run(p, "$FW new a.book"));
	assert_int_equal(2, run(p, "$FW compare a.book"));
	assert_has(p->text, "names a baseline");
	close_place(p);
}

static void
compare__shows_hostile_names_harmlessly(void **state)
{
	struct fixture *f = *state;
	char name[512], batches[2048], readings[2048];
	struct place *p;

	for (int long_name = 0; long_name < 2; long_name++) {
		if (long_name)
			(void)snprintf(name, sizeof name, "%0500d", 7);
		else
			(void)snprintf(
				name, sizeof name, "M\033[31m\007 red\xC2\x9B");
		(void)snprintf(batches, sizeof batches,
			"code,trial,mix,practice\n01,T,B,no\n02,T,\"%s\",no\n",
			name);
		(void)snprintf(readings, sizeof readings,
			"%sb1,1,bending,28 d,centre,600,yes,20.6,22.6\n"
			"m1,1,bending,28 d,centre,600,yes,34.6,36.6\n",
			beam_heading);
		p = open_small(f, name, batches, two_beams, readings);
		/* Taken or refused, the screen is never steered. */
		(void)check_page(p, 700);
		for (size_t i = 0; i < 2; i++) {
			(void)run(p, "env -u COLUMNS $FW compare a.book %s",
				i == 0 ? "" : "--all --classical");
			(void)check_page(p, 80);
		}
		close_place(p);
	}
}

static const struct CMUnitTest tests[] = {
	TEST(compare__fits_the_screen),
	TEST(compare__says_what_to_do),
	TEST(compare__colours_terminals_only),
	TEST(compare__writes_json),
	TEST(compare__refuses_with_one_sentence),
	TEST(compare__takes_small_books),
	TEST(compare__takes_books_without_readings),
	TEST(compare__shows_hostile_names_harmlessly),
};

TEST_MAIN(tests)
