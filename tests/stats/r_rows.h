/* r_rows.h - rows of reference results (id, call, inputs, output, value) and
 * the invented data files they speak of; see tests/data/README.md. */
#ifndef TESTS_STATS_R_ROWS_H
#define TESTS_STATS_R_ROWS_H

#include "support.h"

#include "stats/oneway.h"

#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

struct r_row {
	const char *id, *call, *inputs, *output;
	double value;
};

static inline const struct r_row *
r_rows(struct arena *a, const char *name, size_t *n)
{
	struct support_csv csv = support_csv_read(a, support_path(name));
	struct r_row *row = arena_take(a, csv.n_row, sizeof *row);

	assert_non_null(row);
	for (size_t i = 1; i < csv.n_row; i++)
		row[i - 1] = (struct r_row){.id = csv.cell[i][0],
			.call = csv.cell[i][1],
			.inputs = csv.cell[i][2],
			.output = csv.cell[i][3],
			.value = strtod(csv.cell[i][4], NULL)};
	*n = csv.n_row - 1;
	return row;
}

/* The text after "key=" among the inputs, up to the next semicolon. */
static inline const char *
r_text(struct arena *a, const struct r_row *row, const char *key)
{
	size_t length = strlen(key);

	for (const char *p = row->inputs; p != NULL; p = strchr(p, ';')) {
		p += *p == ';';
		if (strncmp(p, key, length) == 0 && p[length] == '=') {
			char *text = arena_text(a, p + length + 1);

			text[strcspn(text, ";")] = '\0';
			return text;
		}
	}
	print_error("no %s in %s\n", key, row->inputs);
	fail();
	return "";
}

static inline double
r_number(struct arena *a, const struct r_row *row, const char *key)
{
	return strtod(r_text(a, row, key), NULL);
}

static inline bool
r_is(const struct r_row *row, const char *id)
{
	return strcmp(row->id, id) == 0;
}

/* A file of the column "mix" or "set" and the column "mpa", groups together. */
static inline struct stats_grouped
r_groups(struct arena *a, const char *file, const char *by, bool as_log)
{
	char name[128];
	struct support_csv csv;
	struct stats_grouped data = {0};
	size_t group, mpa, *size;
	double *value;

	(void)snprintf(name, sizeof name, "r/%s", file);
	csv = support_csv_read(a, support_path(name));
	group = support_csv_column(&csv, by);
	mpa = support_csv_column(&csv, "mpa");
	size = arena_take(a, csv.n_row, sizeof *size);
	value = arena_take(a, csv.n_row, sizeof *value);
	for (size_t i = 1; i < csv.n_row; i++) {
		double x = strtod(csv.cell[i][mpa], NULL);

		value[i - 1] = as_log ? log(x) : x;
		if (i == 1 ||
			strcmp(csv.cell[i][group], csv.cell[i - 1][group]) != 0)
			data.n_group++;
		size[data.n_group - 1]++;
	}
	data.size = size;
	data.value = value;
	return data;
}

/* The groups that a row's file= and y= speak of. */
static inline struct stats_grouped
r_row_groups(struct arena *a, const struct r_row *row)
{
	return r_groups(a, r_text(a, row, "file"), "mix",
		strcmp(r_text(a, row, "y"), "log(mpa)") == 0);
}

#endif /* TESTS_STATS_R_ROWS_H */
