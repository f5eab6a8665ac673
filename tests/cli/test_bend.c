/* test_bend.c - live bending from outside: killed with SIGKILL after each
 * acknowledgement it goes on where it was; on a terminal one key is a weight. */
#define _XOPEN_SOURCE 700 /* a terminal of the test's own */

#include "support.h"

#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

enum { SAID_MOST = 8192, COMMAND_MOST = 1024 };

struct bench {
	char path[64];
	char piece[16];
};

/* The program running, a pipe or a terminal to it and one from it. */
struct running {
	pid_t child;
	int to, from;
	char said[SAID_MOST];
	size_t n;
};

static void
run(const char *verb, const char *book, const char *rest, char *said)
{
	char command[COMMAND_MOST];
	FILE *from;
	size_t n;

	(void)snprintf(command, sizeof command, "'%s' %s '%s' %s",
		support_program(), verb, book, rest);
	from = popen(command, "r");
	assert_non_null(from);
	n = fread(said, 1, SAID_MOST - 1, from);
	said[n] = '\0';
	assert_int_equal(pclose(from), 0);
}

static void
furnish(struct bench *b)
{
	static const char *const steps[][2] = {{"new", "--name bench"},
		{"material", "cement --from cement"},
		{"material", "water --from water"},
		{"mix",
			"P --part cement=1 --part water=0.48 --wet '720 kg/m3' "
			"--foam '70 g/L'"},
		{"mix", "L --like P --wet '600 kg/m3'"},
		{"trial", "T --baseline P --mix L --batches 2 --pieces 1"},
		{"batch", "T-01 --on 2026-03-01"},
		{"form", "B --shape beam --inner '100 mm x 75 mm x 700 mm'"},
		{"pieces", "T-01 --form B --count 1 --json"}};
	char said[SAID_MOST];
	const char *list;
	int fd;

	(void)snprintf(b->path, sizeof b->path, "bend-test-XXXXXX");
	fd = mkstemp(b->path);
	assert_true(fd >= 0);
	(void)close(fd);
	(void)unlink(b->path);
	for (size_t i = 0; i < sizeof steps / sizeof steps[0]; i++)
		run(steps[i][0], b->path, steps[i][1], said);
	list = strchr(said, '[');
	assert_non_null(list);
	assert_int_equal(sscanf(list, "[\"%15[^\"]", b->piece), 1);
}

static void
in_child(const struct bench *b, int in, int out)
{
	(void)dup2(in, STDIN_FILENO);
	(void)dup2(out, STDOUT_FILENO);
	(void)execl(support_program(), "foamwright", "bend", b->path, b->piece,
		"--on", "2026-03-29", "--span", "600 mm", "--hanger", "1.2 kg",
		"--weights", "5 kg, 2 kg, 1 kg", (char *)NULL);
	_exit(127);
}

static void
start(const struct bench *b, struct running *r)
{
	int to[2], from[2];

	*r = (struct running){.n = 0};
	assert_int_equal(pipe(to), 0);
	assert_int_equal(pipe(from), 0);
	r->child = fork();
	assert_true(r->child >= 0);
	if (r->child == 0) {
		(void)close(to[1]);
		(void)close(from[0]);
		in_child(b, to[0], from[1]);
	}
	(void)close(to[0]);
	(void)close(from[1]);
	r->to = to[1];
	r->from = from[0];
}

/* Both ways through one terminal. */
static void
start_on_terminal(const struct bench *b, struct running *r)
{
	int other;

	*r = (struct running){.to = posix_openpt(O_RDWR | O_NOCTTY)};
	assert_true(r->to >= 0);
	assert_int_equal(grantpt(r->to), 0);
	assert_int_equal(unlockpt(r->to), 0);
	other = open(ptsname(r->to), O_RDWR | O_NOCTTY);
	assert_true(other >= 0);
	r->from = r->to;
	r->child = fork();
	assert_true(r->child >= 0);
	if (r->child == 0) {
		(void)close(r->to);
		in_child(b, other, other);
	}
	(void)close(other);
}

static void
type(struct running *r, const char *text)
{
	assert_int_equal(
		write(r->to, text, strlen(text)), (ssize_t)strlen(text));
}

/* Until the program has said that; a program that ends without it fails. */
static void
hear(struct running *r, const char *what)
{
	while (strstr(r->said, what) == NULL) {
		ssize_t got = read(
			r->from, r->said + r->n, sizeof r->said - 1 - r->n);

		if (got <= 0)
			print_error("not heard: %s\nbut: %s\n", what, r->said);
		assert_true(got > 0);
		r->n += (size_t)got;
		r->said[r->n] = '\0';
	}
}

static void
stop(struct running *r, int with)
{
	int status;

	if (with != 0)
		assert_int_equal(kill(r->child, with), 0);
	if (r->to != r->from)
		(void)close(r->to);
	assert_int_equal(waitpid(r->child, &status, 0), r->child);
	if (with != 0)
		assert_true(WIFSIGNALED(status) && WTERMSIG(status) == with);
	else
		assert_true(WIFEXITED(status) && WEXITSTATUS(status) == 0);
	(void)close(r->from);
}

static void
bend__killed_between_two_weights_it_goes_on(void **state)
{
	static const struct {
		const char *key, *said;
	} step[] = {{"1\n", "6.2 kg on it"}, {"2\n", "8.2 kg on it"},
		{"2\n", "10.2 kg on it"}, {"u\n", "8.2 kg on it"},
		{"1.5 kg\n", "9.7 kg on it"}, {"f\n", "fell at 9.7 kg"}};
	struct bench b;
	struct running r;
	char said[SAID_MOST];

	(void)state;
	furnish(&b);
	for (size_t i = 0; i < sizeof step / sizeof step[0]; i++) {
		start(&b, &r);
		if (i > 0)
			hear(&r, "goes on where it was");
		else
			hear(&r, "set down, do not drop");
		type(&r, step[i].key);
		hear(&r, step[i].said);
		stop(&r, SIGKILL);
	}
	start(&b, &r);
	hear(&r, "9.7 kg on it");
	type(&r, "\n");
	hear(&r, "bending strength");
	stop(&r, 0);
	run("show", b.path, "results", said);
	assert_has(said, "held 8.20 kg, broke 9.70 kg");
	run("verify", b.path, "", said);
	(void)unlink(b.path);
}

static void
bend__on_a_terminal_one_key_is_a_weight(void **state)
{
	struct bench b;
	struct running r;
	char said[SAID_MOST];

	(void)state;
	furnish(&b);
	start_on_terminal(&b, &r);
	hear(&r, "set down, do not drop");
	type(&r, "1");
	hear(&r, "6.2 kg on it");
	type(&r, "3");
	hear(&r, "7.2 kg on it");
	type(&r, "+");
	hear(&r, "weight: ");
	type(&r, "2.5 kg\n");
	hear(&r, "9.7 kg on it");
	type(&r, "f");
	hear(&r, "fell at 9.7 kg");
	type(&r, "\n");
	hear(&r, "bending strength");
	stop(&r, 0);
	run("show", b.path, "results", said);
	assert_has(said, "held 7.20 kg, broke 9.70 kg");
	(void)unlink(b.path);
}

static const struct CMUnitTest tests[] = {
	TEST(bend__killed_between_two_weights_it_goes_on),
	TEST(bend__on_a_terminal_one_key_is_a_weight),
};

TEST_MAIN(tests)
