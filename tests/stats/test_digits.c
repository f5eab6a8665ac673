/* test_digits.c - NIST StRD: prints problem, certified value, ours and correct
 * digits, and holds each problem to its bar.
 *
 * Certified values are read from the NIST/ITL Statistical Reference Datasets
 * files themselves, in tests/data/nist. */
#include "support.h"

#include "stats/linear.h"
#include "stats/summary.h"

#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { LINE_MAX_BYTES = 256, CELL_MAX = 20000, FIRST_DATA_LINE = 61 };

/* Correct significant digits (log relative error); 15 are certified. */
static double
digits(double got, double certified)
{
	double off = fabs(got - certified), most = 15;

	if (fabs(certified) > 0)
		off /= fabs(certified);
	return off > 0 ? fmin(most, -log10(off)) : most;
}

static void
hold(const char *problem, const char *what, double certified, double got,
	double bar)
{
	double correct = digits(got, certified);

	print_message("%-10s %-12s %22.15g %22.15g %5.1f\n", problem, what,
		certified, got, correct);
	if (!(correct >= bar)) {
		print_error("%s %s: %.1f digits, the bar is %.1f\n", problem,
			what, correct, bar);
		fail();
	}
}

/* A NIST file: the text lines, and the numbers below a ruled line or from the
 * first data line on. */
struct nist {
	char line[FIRST_DATA_LINE][LINE_MAX_BYTES];
	double cell[CELL_MAX];
	size_t n_cell;
};

static void
read_nist(const char *name, struct nist *to)
{
	FILE *file = fopen(support_path(name), "r");
	char line[LINE_MAX_BYTES];
	bool in_data = false;
	size_t at = 1;

	assert_non_null(file);
	to->n_cell = 0;
	memset(to->line, 0, sizeof to->line);
	for (; fgets(line, sizeof line, file) != NULL; at++) {
		char *p = line, *end = line;

		if (!in_data && at < FIRST_DATA_LINE) {
			memcpy(to->line[at], line, sizeof line);
			in_data = strncmp(line, "-----", 5) == 0;
			continue;
		}
		for (;; p = end) {
			double value = strtod(p, &end);

			if (end == p)
				break;
			assert_true(to->n_cell < CELL_MAX);
			to->cell[to->n_cell++] = value;
		}
	}
	(void)fclose(file);
}

/* The k-th number after the label that begins a line (and its last colon). */
static double
certified(const struct nist *n, const char *label, size_t k)
{
	for (size_t i = 1; i < FIRST_DATA_LINE; i++) {
		const char *p = n->line[i] + strspn(n->line[i], " \t");
		char *end = NULL;

		if (strncmp(p, label, strlen(label)) != 0)
			continue;
		p += strlen(label);
		if (strchr(p, ':') != NULL)
			p = strrchr(p, ':') + 1;
		for (double value = strtod(p, &end); end != p;
			value = strtod(p, &end)) {
			if (k-- == 0)
				return value;
			p = end;
		}
	}
	return (double)NAN;
}

struct regression {
	const char *name;
	size_t n_x, degree;
	bool intercept;
	double bar; /* issue 3 asks for 7; long double reaches more */
};

static void
try_regression(struct fixture *f, const struct regression *ask)
{
	static struct nist n;
	char path[LINE_MAX_BYTES], label[8];
	struct stats_linear got;
	size_t width = ask->n_x + 1, n_row;
	double *x, *y;

	(void)snprintf(path, sizeof path, "nist/linear/%s.dat", ask->name);
	read_nist(path, &n);
	n_row = n.n_cell / width;
	x = arena_take(f->a, n_row * ask->n_x, sizeof *x);
	y = arena_take(f->a, n_row, sizeof *y);
	for (size_t i = 0; i < n_row; i++) {
		y[i] = n.cell[i * width];
		memcpy(&x[i * ask->n_x], &n.cell[i * width + 1],
			ask->n_x * sizeof *x);
	}
	assert_ok(ask->degree > 1
			? stats_polynomial_fit(f->a, x, n_row, y, ask->degree,
				  ask->intercept, &got, &f->err)
			: stats_linear_fit(f->a, x, n_row, ask->n_x, y,
				  ask->intercept, &got, &f->err),
		&f->err);
	for (size_t j = 0; j < got.n_coefficient; j++) {
		(void)snprintf(label, sizeof label, "B%zu ",
			j + (ask->intercept ? 0 : 1));
		hold(ask->name, label, certified(&n, label, 0),
			got.coefficient[j], ask->bar);
		hold(ask->name, "  its error", certified(&n, label, 1),
			got.standard_error[j], ask->bar);
	}
	hold(ask->name, "residual sd", certified(&n, "Standard Deviation", 0),
		got.residual_sd, ask->bar);
	hold(ask->name, "R-squared", certified(&n, "R-Squared", 0),
		got.r_squared, ask->bar);
	if (!got.is_exact)
		hold(ask->name, "F", certified(&n, "Regression", 3), got.f,
			ask->bar);
}

static void
digits__linear_regression(void **state)
{
	/* The certified values are for the decimals as printed; parsed to
	 * doubles, well-behaved sets keep 12 and Longley 11. */
	static const struct regression ask[] = {
		{"Norris", 1, 1, true, 12},
		{"Pontius", 1, 2, true, 12},
		{"NoInt1", 1, 1, false, 12},
		{"Longley", 6, 1, true, 11},
		{"Wampler1", 1, 5, true, 12},
		{"Wampler4", 1, 5, true, 12},
	};

	for (size_t i = 0; i < sizeof ask / sizeof ask[0]; i++)
		try_regression(*state, &ask[i]);
}

struct sample {
	const char *name;
	double bar, sd_bar; /* stats of exact arithmetic on doubles */
};

static void
digits__univariate(void **state)
{
	/* Ceilings of double input: sd of Mavro 13.1, of NumAcc3 9.5. */
	static const struct sample ask[] = {
		{"Lew", 13, 13},
		{"Mavro", 12, 12.8},
		{"NumAcc1", 14, 14},
		{"NumAcc3", 9, 9},
		{"PiDigits", 13, 13},
	};
	struct fixture *f = *state;

	for (size_t i = 0; i < sizeof ask / sizeof ask[0]; i++) {
		static struct nist n;
		struct stats_summary got;
		char path[LINE_MAX_BYTES];

		(void)snprintf(path, sizeof path, "nist/univariate/%s.dat",
			ask[i].name);
		read_nist(path, &n);
		assert_ok(
			stats_summarise(f->a, n.cell, n.n_cell, &got, &f->err),
			&f->err);
		hold(ask[i].name, "mean", certified(&n, "Sample Mean", 0),
			got.mean, ask[i].bar);
		hold(ask[i].name, "sd",
			certified(&n, "Sample Standard Deviation", 0), got.sd,
			ask[i].sd_bar);
		hold(ask[i].name, "lag 1",
			certified(&n, "Sample Autocorrelation", 0), got.lag1,
			ask[i].bar);
	}
}

static const struct CMUnitTest tests[] = {
	TEST(digits__linear_regression),
	TEST(digits__univariate),
};

TEST_MAIN(tests)
