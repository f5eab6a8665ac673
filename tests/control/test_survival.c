/* test_survival.c - the conjugate step by hand, and its edges. */
#include "support.h"

#include "control/survival.h"

#include <math.h>

static void
survival__by_hand(void **state)
{
	static const double ratio[] = {0.88, 0.91, 0.86};
	struct fixture *f = *state;
	struct control_survival got;
	/* prior worth one batch at 0.95: (0.95 + 2.65) / 4 = 0.9 */
	double squares = 2 * 0.0025 + 0.0025 + 0.0004 + 0.0001 + 0.0016;
	/* t(0.95, 5) = 2.015048 (any table) */
	double half = 2.015048373 * sqrt(squares / 5 * 1.25);

	assert_ok(control_survival(ratio, 3, &got, &f->err), &f->err);
	assert_near(got.mean, 0.9, 1e-12, 0);
	assert_near(got.low, 0.9 - half, 1e-8, 0);
	assert_near(got.high, fmin(1, 0.9 + half), 1e-8, 0);
	assert_ok(control_survival(NULL, 0, &got, &f->err), &f->err);
	assert_near(got.mean, 0.95, 1e-12, 0);
	assert_true(got.low < 0.9 && got.high <= 1);
}

/* Many batches: the prior no longer matters. */
static void
survival__learns(void **state)
{
	struct fixture *f = *state;
	struct control_survival got;
	double ratio[200];

	for (size_t i = 0; i < 200; i++)
		ratio[i] = 0.80 + 0.01 * (double)(i % 5);
	assert_ok(control_survival(ratio, 200, &got, &f->err), &f->err);
	assert_near(got.mean, 0.82, 0, 0.001);
	assert_true(got.high - got.low < 0.06);
}

static void
survival__refuses(void **state)
{
	static const double bad[] = {0.9, 1.7};
	static const double none[] = {(double)NAN};
	struct fixture *f = *state;
	struct control_survival got;

	assert_int_equal(ERR_INPUT, control_survival(bad, 2, &got, &f->err));
	assert_string_equal(f->err.field, "batches[1]");
	f->err = (struct err){.code = ERR_NONE};
	assert_int_equal(ERR_INPUT, control_survival(none, 1, &got, &f->err));
}

static const struct CMUnitTest survival[] = {
	TEST(survival__by_hand),
	TEST(survival__learns),
	TEST(survival__refuses),
};

TEST_MAIN(survival)
