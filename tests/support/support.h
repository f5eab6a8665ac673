/* support.h - what every test program uses beside cmocka. */
#ifndef TESTS_SUPPORT_H
#define TESTS_SUPPORT_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "core/arena.h"
#include "core/err.h"

/* assert_near(got, want, rel, abs): |got - want| <= abs or <= rel * |want|.
 * Prints both with 17 digits when they differ. */
#define assert_near(got, want, rel, abs) \
	support_near((got), (want), (rel), (abs), #got, __FILE__, __LINE__)
void support_near(double got, double want, double rel, double abs,
	const char *what, const char *file, int line);

/* assert_ok(code, err): fails with the report's text if code is not ERR_NONE.*/
#define assert_ok(code, err) \
	support_ok((code), (err), #code, __FILE__, __LINE__)
void support_ok(enum err_code code, const struct err *err, const char *what,
	const char *file, int line);

/* assert_lacks / assert_has: a text within a text. */
#define assert_has(text, part) \
	support_has((text), (part), 1, __FILE__, __LINE__)
#define assert_lacks(text, part) \
	support_has((text), (part), 0, __FILE__, __LINE__)
void support_has(const char *text, const char *part, int wanted,
	const char *file, int line);

/* A fixture of an arena and a report, for group_setup/teardown or each test. */
struct fixture {
	struct arena *a;
	struct err err;
	void *more; /* whatever the test file wants */
};
int fixture_up(void **state); /* *state = a struct fixture */
int fixture_down(void **state);

/* support_path(name): "tests/data/NAME" in the source tree, static buffer. */
const char *support_path(const char *name);

/* support_program(): the built foamwright binary, from the environment variable
 * FOAMWRIGHT that meson sets. */
const char *support_program(void);

/* A CSV file read for fixtures: quoted fields, first row is the heading. */
struct support_csv {
	size_t n_row, n_column;
	char ***cell; /* [row][column]; row 0 is the heading */
};
struct support_csv support_csv_read(struct arena *a, const char *path);
size_t support_csv_column(const struct support_csv *csv, const char *name);

/* support_calc(arena, name, question): runs a calculation in this process and
 * gives its answer; fails the test if it is refused. */
const char *support_calc(
	struct arena *a, const char *name, const char *question);
/* support_calc_refused(name, question): its report; fails the test if it is
 * answered. */
struct err support_calc_refused(const char *name, const char *question);
/* support_get(answer, path): the number at "pairs[2].p" or "groups.B.p" in a
 * JSON answer; fails the test if there is none. */
double support_get(const char *answer, const char *path);

/* TEST_MAIN(tests): core_start, then the group. */
#define TEST_MAIN(tests)                                            \
	int main(void)                                              \
	{                                                           \
		support_start();                                    \
		return cmocka_run_group_tests((tests), NULL, NULL); \
	}
#define TEST(f) cmocka_unit_test_setup_teardown(f, fixture_up, fixture_down)
void support_start(void);

#endif /* TESTS_SUPPORT_H */
