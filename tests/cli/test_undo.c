/* test_undo.c - a command that writes tells people how to take it back, and
 * that line does; programs are told nothing. */
#define _XOPEN_SOURCE 700 /* a terminal of the test's own */

#include "support.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

enum { SAID_MOST = 8192, COMMAND_MOST = 1024 };

/* In a shell whose `foamwright` is the program, standard output away; what
 * standard error was told, on a terminal or not. */
static void
run(const char *command, bool on_terminal, char *said)
{
	int ends[2] = {-1, -1}, master = -1, status = 0;
	char line[COMMAND_MOST];
	size_t n = 0;
	pid_t child;

	(void)snprintf(line, sizeof line,
		"foamwright() { '%s' \"$@\"; }; %s >undo-test.out",
		support_program(), command);
	if (on_terminal) {
		master = posix_openpt(O_RDWR | O_NOCTTY);
		assert_true(master >= 0 && grantpt(master) == 0 &&
			unlockpt(master) == 0);
		ends[0] = master;
		ends[1] = open(ptsname(master), O_RDWR | O_NOCTTY);
	} else {
		assert_int_equal(pipe(ends), 0);
	}
	assert_true(ends[1] >= 0);
	child = fork();
	assert_true(child >= 0);
	if (child == 0) {
		(void)dup2(ends[1], STDERR_FILENO);
		(void)execl("/bin/sh", "sh", "-c", line, (char *)NULL);
		_exit(127);
	}
	(void)close(ends[1]);
	for (;;) { /* a terminal that is closed reads as an error */
		ssize_t got = read(ends[0], said + n, SAID_MOST - 1 - n);

		if (got <= 0)
			break;
		n += (size_t)got;
	}
	said[n] = '\0';
	(void)close(ends[0]);
	assert_int_equal(waitpid(child, &status, 0), child);
	assert_true(WIFEXITED(status) && WEXITSTATUS(status) == 0);
}

static const char *
out(char *bytes)
{
	FILE *file = fopen("undo-test.out", "rb");
	size_t n;

	assert_non_null(file);
	n = fread(bytes, 1, SAID_MOST - 1, file);
	(void)fclose(file);
	bytes[n] = '\0';
	return bytes;
}

static void
begin(char *said)
{
	(void)unlink("undo's test.book");
	run("foamwright new \"undo's test.book\"", true, said);
	assert_string_equal("", said); /* there is nothing to go back to */
	run("foamwright material \"undo's test.book\" cement --from cement",
		true, said);
}

static void
undo__the_line_takes_the_entry_back(void **state)
{
	static const char offer[] = "Take back: ";
	char said[SAID_MOST], more[SAID_MOST], bytes[SAID_MOST];
	char *line;

	(void)state;
	begin(said);
	line = strstr(said, offer);
	assert_non_null(line);
	line += strlen(offer);
	line[strcspn(line, "\r\n")] = '\0';
	assert_string_equal(line, "foamwright undo 'undo'\\''s test.book' 2");
	run("foamwright material \"undo's test.book\" --csv", false, more);
	assert_has(out(bytes), "cement");
	run(line, true, more);
	assert_null(strstr(more, offer)); /* undo says so in its own words */
	assert_has(out(bytes), "Undone");
	run("foamwright material \"undo's test.book\" --csv", false, more);
	assert_null(strstr(out(bytes), "cement"));
}

static void
undo__is_not_offered_where_nothing_was_kept(void **state)
{
	static const char *const quiet[] = {
		"foamwright material \"undo's test.book\" w --from water "
		"--dry-run",
		"foamwright material \"undo's test.book\"",
		"foamwright status \"undo's test.book\""};
	char said[SAID_MOST];

	(void)state;
	begin(said);
	for (size_t i = 0; i < sizeof quiet / sizeof quiet[0]; i++) {
		run(quiet[i], true, said);
		assert_null(strstr(said, "Take"));
	}
}

static void
undo__programs_are_told_nothing(void **state)
{
	char said[SAID_MOST];

	(void)state;
	begin(said);
	run("foamwright material \"undo's test.book\" w --from water", false,
		said);
	assert_string_equal("", said);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		TEST(undo__the_line_takes_the_entry_back),
		TEST(undo__is_not_offered_where_nothing_was_kept),
		TEST(undo__programs_are_told_nothing),
	};
	int failed = cmocka_run_group_tests(tests, NULL, NULL);

	(void)unlink("undo's test.book");
	(void)unlink("undo-test.out");
	return failed;
}
