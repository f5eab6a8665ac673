/* support.c - near numbers, fixtures, CSV, calculations in tests. */
#include "support.h"

#include "core/start.h"
#include "work/calc.h"

#include <errno.h>
#include <jansson.h>
#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

void
support_start(void)
{
	core_start();
}

void
support_near(double got, double want, double rel, double abs, const char *what,
	const char *file, int line)
{
	double off = fabs(got - want);

	if (got == want || off <= abs || off <= rel * fabs(want))
		return;
	print_error("%s is %.17g, should be %.17g (off by %.3g, %.3g of it)\n",
		what, got, want, off, off / fabs(want));
	_fail(file, line);
}

void
support_ok(enum err_code code, const struct err *err, const char *what,
	const char *file, int line)
{
	if (code == ERR_NONE)
		return;
	print_error("%s: %s: %s: %s\n", what, err_word(code), err->field,
		err->text);
	_fail(file, line);
}

void
support_has(const char *text, const char *part, int wanted, const char *file,
	int line)
{
	int found = strstr(text, part) != NULL;

	if (found == wanted)
		return;
	print_error(
		"%s \"%s\" in:\n%s\n", wanted ? "no" : "unwanted", part, text);
	_fail(file, line);
}

int
fixture_up(void **state)
{
	struct fixture *f = calloc(1, sizeof *f);

	if (f == NULL)
		return -1;
	f->a = arena_new((size_t)4 << 30);
	*state = f;
	return f->a == NULL ? -1 : 0;
}

int
fixture_down(void **state)
{
	struct fixture *f = *state;

	arena_free(f->a);
	free(f);
	return 0;
}

const char *
support_path(const char *name)
{
	static char path[1024];
	const char *root = getenv("FOAMWRIGHT_SOURCE");

	(void)snprintf(path, sizeof path, "%s/tests/data/%s",
		root != NULL ? root : ".", name);
	return path;
}

const char *
support_program(void)
{
	const char *program = getenv("FOAMWRIGHT");

	assert_non_null(program);
	return program;
}

static char *
read_file(struct arena *a, const char *path, size_t *n)
{
	FILE *file = fopen(path, "rb");
	char *bytes;
	long size;

	if (file == NULL) {
		print_error("%s: %s\n", path, strerror(errno));
		fail();
	}
	assert_int_equal(0, fseek(file, 0, SEEK_END));
	size = ftell(file);
	rewind(file);
	bytes = arena_take(a, (size_t)size + 1, 1);
	assert_non_null(bytes);
	*n = fread(bytes, 1, (size_t)size, file);
	(void)fclose(file);
	return bytes;
}

/* Splits one row in place; gives the number of cells and the next row. */
static size_t
split_row(char **at, char **cell, size_t room)
{
	size_t n = 0;
	char *p = *at;

	for (bool more = true; more; n++) {
		char *to = p;
		bool quoted = *p == '"';

		assert_true(n < room);
		cell[n] = p;
		if (quoted)
			p++;
		while (*p != '\0' &&
			(quoted || (*p != ',' && *p != '\n' && *p != '\r'))) {
			if (quoted && *p == '"') {
				p++;
				if (*p != '"') {
					quoted = false;
					continue;
				}
			}
			*to++ = *p++;
		}
		more = *p == ',';
		while (*p == '\r')
			p++;
		if (*p == '\n' || more)
			p++;
		*to = '\0';
	}
	*at = p;
	return n;
}

struct support_csv
support_csv_read(struct arena *a, const char *path)
{
	enum { COLUMN_MAX = 64 };
	struct support_csv csv = {0};
	size_t n, room = 1;
	char *bytes = read_file(a, path, &n), *at = bytes;

	for (size_t i = 0; i < n; i++)
		room += bytes[i] == '\n';
	csv.cell = arena_take(a, room + 1, sizeof *csv.cell);
	while (*at != '\0') {
		char *cell[COLUMN_MAX] = {0};
		size_t cells = split_row(&at, cell, COLUMN_MAX);

		if (csv.n_row == 0)
			csv.n_column = cells;
		while (cells < csv.n_column)
			cell[cells++] = at + strlen(at);
		csv.cell[csv.n_row++] = arena_copy(
			a, cell, csv.n_column, sizeof *cell);
	}
	return csv;
}

size_t
support_csv_column(const struct support_csv *csv, const char *name)
{
	for (size_t i = 0; i < csv->n_column; i++)
		if (strcmp(csv->cell[0][i], name) == 0)
			return i;
	print_error("no column %s\n", name);
	fail();
	return 0;
}

const char *
support_calc(struct arena *a, const char *name, const char *question)
{
	const struct calc_entry *entry = work_calc_find(name);
	struct err err = {0};
	const char *answer = NULL;

	if (entry == NULL)
		print_error("no calculation %s\n", name);
	assert_non_null(entry);
	assert_ok(
		work_calc(entry, a, question, strlen(question), &answer, &err),
		&err);
	return answer;
}

struct err
support_calc_refused(const char *name, const char *question)
{
	const struct calc_entry *entry = work_calc_find(name);
	struct arena *a = arena_new((size_t)1 << 30);
	struct err err = {0};
	const char *answer = NULL;
	enum err_code code;

	assert_non_null(entry);
	assert_non_null(a);
	code = work_calc(entry, a, question, strlen(question), &answer, &err);
	if (code == ERR_NONE)
		print_error("answered: %s\n", answer);
	arena_free(a);
	assert_int_not_equal(ERR_NONE, code);
	return err;
}

double
support_get(const char *answer, const char *path)
{
	json_error_t fault;
	json_t *root = json_loads(answer, 0, &fault), *at = root;
	char word[128];
	double value = 0;

	assert_non_null(root);
	for (const char *p = path; *p != '\0' && at != NULL;) {
		size_t n = strcspn(p, ".[]");

		assert_true(n < sizeof word);
		memcpy(word, p, n);
		word[n] = '\0';
		if (p[n] == ']')
			at = json_array_get(at, strtoul(word, NULL, 10));
		else if (n > 0)
			at = json_object_get(at, word);
		p += n;
		while (*p != '\0' && strchr(".[]", *p) != NULL)
			p++;
	}
	if (at == NULL || !json_is_number(at)) {
		print_error("no number at %s in %s\n", path, answer);
		json_decref(root);
		fail();
	}
	value = json_number_value(at);
	json_decref(root);
	return value;
}
