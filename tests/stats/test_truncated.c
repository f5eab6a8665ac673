/* test_truncated.c - normal draws, whole and cut, against the distribution. */
#include "support.h"

#include "core/rng.h"
#include "stats/truncated.h"

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_sort.h>
#include <math.h>

enum { N_DRAW = 100000 };

/* Kolmogorov's distance of uniform numbers from even; sqrt(n) D passes 2.23
 * once in 10,000 times (Kolmogorov 1933: 2 exp(-2 * 2.23^2)). */
static void
assert_even(double *u)
{
	double most = 0;

	gsl_sort(u, 1, N_DRAW);
	for (size_t i = 0; i < N_DRAW; i++) {
		const double here = (double)i / N_DRAW;

		most = fmax(most, fmax(u[i] - here, here + 1. / N_DRAW - u[i]));
	}
	assert_near(most * sqrt(N_DRAW), 0, 0, 2.23);
}

struct draws {
	struct fastnormal normal;
	struct fastrand rand;
	double u[N_DRAW];
};

static void
start(struct draws *d, uint64_t seed)
{
	gsl_rng *rng = rng_new(seed, 0);

	fastnormal_start(&d->normal);
	d->rand = fastrand_start(rng);
	gsl_rng_free(rng);
}

static void
fastnormal__is_normal(void **state)
{
	static struct draws d;
	size_t n_tail = 0;

	(void)state;
	start(&d, 4711);
	for (size_t i = 0; i < N_DRAW; i++) {
		const double z = fastnormal_draw(&d.normal, &d.rand);

		n_tail += fabs(z) > 3.6541528853610088;
		d.u[i] = gsl_cdf_ugaussian_P(z);
	}
	/* 100,000 * 2 Q(3.654) = 25.8 are expected in the tail's own branch;
	 * four Poisson errors */
	assert_near((double)n_tail, 25.8, 0, 20.4);
	assert_even(d.u);
}

/* The layers have one area each, so the last one ends at the top: the table's
 * own check (Marsaglia and Tsang 2000). */
static void
fastnormal__closes_its_table(void **state)
{
	struct fastnormal table;

	(void)state;
	fastnormal_start(&table);
	for (size_t i = 1; i < FASTNORMAL_LAYERS; i++)
		assert_near(
			table.edge[i] * (table.level[i + 1] - table.level[i]),
			0.00492867323399, 1e-7, 0);
}

/* P(Z <= z | low <= Z <= high), from the tail that is small. */
static double
share_below(double z, double low, double high)
{
	if (low > 0)
		return 1 - share_below(-z, -high, -low);
	return (gsl_cdf_ugaussian_P(z) - gsl_cdf_ugaussian_P(low)) /
		(gsl_cdf_ugaussian_P(high) - gsl_cdf_ugaussian_P(low));
}

/* Every proposal: uniform about zero and beside it, normal, the tail cut near
 * and far, and both mirrored. */
static void
truncated__has_the_cut_distribution(void **state)
{
	static const double bound[][2] = {{-0.7, 1.1}, {-1.9, 2.3}, {0.31, 0.9},
		{0.2, 3.7}, {0.8, 2.9}, {2.3, (double)INFINITY},
		{-(double)INFINITY, -1.1}, {-(double)INFINITY, 0.4},
		{-4.1, -1.3}, {5.3, 5.9}, {-9.1, -7.7}};
	static struct draws d;

	(void)state;
	start(&d, 90210);
	for (size_t k = 0; k < sizeof bound / sizeof bound[0]; k++) {
		const double low = bound[k][0], high = bound[k][1];

		for (size_t i = 0; i < N_DRAW; i++) {
			const double z = stats_truncated_draw(
				&d.normal, &d.rand, low, high);

			assert_true(z >= low && z <= high);
			d.u[i] = share_below(z, low, high);
		}
		assert_even(d.u);
	}
	assert_near(
		stats_truncated_draw(&d.normal, &d.rand, 1.7, 1.7), 1.7, 0, 0);
}

static const struct CMUnitTest tests[] = {
	TEST(fastnormal__is_normal),
	TEST(fastnormal__closes_its_table),
	TEST(truncated__has_the_cut_distribution),
};

TEST_MAIN(tests)
