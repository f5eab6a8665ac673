/* test_chart_constants.c - factors of control charts against R and print. */
#include "r_rows.h"

#include "stats/chart_constants.h"

#include <math.h>

static double
named(const struct stats_chart_constants *c, const char *name)
{
	const struct {
		const char *name;
		double value;
	} all[] = {{"d2", c->d2}, {"d3", c->d3}, {"c4", c->c4}, {"A", c->a},
		{"A2", c->a2}, {"A3", c->a3}, {"B3", c->b3}, {"B4", c->b4},
		{"B5", c->b5}, {"B6", c->b6}, {"D1", c->D1}, {"D2", c->D2},
		{"D3", c->D3}, {"D4", c->D4}, {"E2", c->e2}, {"E3", c->e3}};

	for (size_t i = 0; i < sizeof all / sizeof all[0]; i++)
		if (strcmp(all[i].name, name) == 0)
			return all[i].value;
	return NAN;
}

/* R 4.2.2, quadrature of its own, d2 confirmed by mpmath: 12 digits. */
static void
chart_constants__agree_with_r(void **state)
{
	struct fixture *f = *state;
	size_t n, count = 0;
	const struct r_row *row = r_rows(f->a, "r/chart.csv", &n);

	for (size_t i = 0; i < n; i++) {
		struct stats_chart_constants c;

		if (!r_is(&row[i], "chart.const"))
			continue;
		stats_chart_constants((size_t)r_number(f->a, &row[i], "n"), &c);
		assert_near(named(&c, row[i].output), row[i].value, 1e-10,
			1e-11); /* B3 to D3 are differences near 0 */
		count++;
	}
	assert_int_equal(360, count);
}

/* The printed table (rows T30 of trade-b.csv), to its own tolerance: D4(3) is
 * printed 2.574 and is 2.5746. */
static void
chart_constants__printed_table(void **state)
{
	struct fixture *f = *state;
	struct support_csv csv = support_csv_read(
		f->a, support_path("trade-b.csv"));
	size_t count = 0;

	for (size_t i = 1; i < csv.n_row; i++) {
		struct stats_chart_constants c;
		const char *name;
		double value;

		if (strncmp(csv.cell[i][0], "T30-", 4) != 0)
			continue;
		name = strrchr(csv.cell[i][2], ' ') + 1;
		assert_int_equal(0, strncmp(csv.cell[i][3], "n=", 2));
		stats_chart_constants(
			(size_t)strtol(csv.cell[i][3] + 2, NULL, 10), &c);
		value = named(&c, name);
		assert_true(isfinite(value));
		assert_near(value, strtod(csv.cell[i][4], NULL), 0,
			strtod(csv.cell[i][6], NULL));
		count++;
	}
	assert_int_equal(63, count);
}

/* Two values: the range is |N(0, 2)|, so d2 = 2 / sqrt(pi), d3^2 = 2 - 4 / pi,
 * and the standard deviation is the range over sqrt(2).  Hand-worked. */
static void
chart_constants__of_two_and_of_many(void **state)
{
	struct stats_chart_constants c;

	(void)state;
	stats_chart_constants(2, &c);
	assert_near(c.d2, 2 / sqrt(M_PI), 1e-13, 0);
	assert_near(c.d3, sqrt(2 - 4 / M_PI), 1e-12, 0);
	assert_near(c.c4, sqrt(2 / M_PI), 1e-14, 0);
	assert_near(c.D4, 3.2665319192886, 1e-12, 0);
	/* Harter 1960 (Annals of Mathematical Statistics 31, 1122-1131), from
	 * memory: the mean range of 100 is 5.01519 */
	stats_chart_constants(100, &c);
	assert_near(c.d2, 5.01519, 1e-6, 0);
	assert_near(c.c4, 1 - 1 / (4 * 99.), 5e-6, 0); /* its series */
}

static const struct CMUnitTest tests[] = {
	TEST(chart_constants__agree_with_r),
	TEST(chart_constants__printed_table),
	TEST(chart_constants__of_two_and_of_many),
};

TEST_MAIN(tests)
