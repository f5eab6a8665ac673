/* reference.c - reads the tables of reference values. */
#include "reference.h"

#include "support.h"

#include <fnmatch.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { VALUE_ROOM = 96 };

size_t
reference_read(struct arena *a, const char *file, const struct reference **row)
{
	struct support_csv csv = support_csv_read(a, support_path(file));
	struct reference *got = arena_take(a, csv.n_row, sizeof *got);

	assert_non_null(got);
	for (size_t i = 1; i < csv.n_row; i++) {
		char **cell = csv.cell[i];

		got[i - 1] = (struct reference){
			.id = cell[support_csv_column(&csv, "id")],
			.topic = cell[support_csv_column(&csv, "topic")],
			.inputs = cell[support_csv_column(&csv, "inputs")],
			.expected = cell[support_csv_column(&csv, "expected")],
			.unit = cell[support_csv_column(&csv, "unit")],
			.tolerance =
				cell[support_csv_column(&csv, "tolerance")]};
	}
	*row = got;
	return csv.n_row - 1;
}

/* Where the value of the key begins; NULL if the inputs do not name it. */
static const char *
find_key(const struct reference *row, const char *key)
{
	size_t n = strlen(key);

	if (n == 0)
		return row->inputs;
	for (const char *p = row->inputs; *p != '\0';) {
		p += strspn(p, " ");
		if (strncmp(p, key, n) == 0 && p[n] == '=')
			return p + n + 1;
		p += strcspn(p, ";");
		p += *p == ';' ? 1 : 0;
	}
	return NULL;
}

bool
reference_has(const struct reference *row, const char *key)
{
	return find_key(row, key) != NULL;
}

double
reference_input(
	const struct reference *row, const char *key, enum unit_kind kind)
{
	const struct unit_rules rules = {.may_be_negative = true};
	const char *from = find_key(row, key);
	char value[VALUE_ROOM];
	char *last;
	double si = NAN;

	if (from == NULL) {
		print_error("%s has no input %s\n", row->id, key);
		fail();
		return NAN;
	}
	(void)snprintf(
		value, sizeof value, "%.*s", (int)strcspn(from, ";"), from);
	while (unit_read(value, kind, &rules, &si, NULL) != ERR_NONE) {
		last = strrchr(value, ' ');
		if (last == NULL)
			fail_msg("%s: cannot read %s", row->id, from);
		else
			*last = '\0';
	}
	return si;
}

static void
factor(const struct reference *row, enum unit_kind kind, double *scale,
	double *offset)
{
	struct err err = {.code = ERR_NONE};

	*scale = 1;
	*offset = 0;
	if (kind != UNIT_NUMBER)
		assert_ok(unit_factor(row->unit, kind, UNIT_GALLON_US, scale,
				  offset, &err),
			&err);
}

double
reference_expected(const struct reference *row, enum unit_kind kind)
{
	double scale, offset;

	factor(row, kind, &scale, &offset);
	return strtod(row->expected, NULL) * scale + offset;
}

double
reference_tolerance(const struct reference *row, enum unit_kind kind)
{
	double scale, offset;

	factor(row, kind, &scale, &offset);
	return strtod(row->tolerance, NULL) * scale;
}

static const struct topic *
topic_of(const struct reference *row, const struct topic *topic, size_t n)
{
	for (size_t i = 0; i < n; i++)
		if (fnmatch(topic[i].pattern, row->id, 0) == 0)
			return &topic[i];
	fail_msg("row %s meets no topic", row->id);
	return NULL;
}

/* True if the row was compared.  The figures are printed to 10 digits at most,
 * so "0" in the column of tolerances still leaves the rounding of doubles. */
static bool
compare(struct fixture *f, const struct reference *row,
	const struct topic *topic)
{
	static const double rounding = 1e-12;
	const struct asked q = {row, f};
	double got, want, abs;

	if (topic->ours == NULL)
		return false;
	got = topic->ours(&q);
	want = reference_expected(row, topic->kind);
	abs = reference_tolerance(row, topic->kind);
	if (!(fabs(got - want) <= abs + rounding * fabs(want)))
		print_error("row %s:\n", row->id);
	assert_near(got, want, rounding, abs);
	return true;
}

struct reference_counts
reference_run(struct fixture *f, const char *file, const struct topic *topic,
	size_t n)
{
	const struct reference *row;
	size_t n_row = reference_read(f->a, file, &row);
	bool *met = arena_take(f->a, n, sizeof *met);
	struct reference_counts got = {0, 0};

	assert_non_null(met);
	for (size_t i = 0; i < n_row; i++) {
		const struct topic *of = topic_of(&row[i], topic, n);
		bool used = compare(f, &row[i], of);

		got.used += used ? 1 : 0;
		got.unused += used ? 0 : 1;
		met[of - topic] = true;
		if (!used)
			assert_non_null(of->why_not);
	}
	for (size_t i = 0; i < n; i++)
		if (!met[i])
			fail_msg("no row of %s is for %s", file,
				topic[i].pattern);
	return got;
}
