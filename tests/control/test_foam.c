/* test_foam.c - foam density from a weighed cup. */
#include "support.h"

#include "control/foam.h"

#include <math.h>
#include <stdbool.h>

static const struct control_foam_reading cup[] = {
	{{0.1213}, {0.0521}, {0.00103}},
	{{0.1247}, {0.0521}, {0.00103}},
	{{0.1229}, {0.0521}, {0.00103}},
};

/* Hand-worked: 69.2, 72.6 and 70.8 g in 1.03 L. */
static void
foam__mean_and_its_error(void **state)
{
	struct fixture *f = *state;
	struct control_foam got;
	double mean = 70.866666666666667 / 1.03;

	assert_ok(control_foam(cup, 3, (struct density){0}, (struct density){0},
			  &got, &f->err),
		&f->err);
	assert_near(got.density.kg_m3, mean, 1e-13, 0);
	/* squares: 2.7778 + 3.0044 + 0.0044 = 5.78667; / 2 / 3 */
	assert_near(
		got.error.kg_m3, sqrt(5.7866666666666667 / 6) / 1.03, 1e-12, 0);
	assert_false(got.has_verdict);
	assert_ok(control_foam(cup, 1, (struct density){0}, (struct density){0},
			  &got, &f->err),
		&f->err);
	assert_false(got.has_error);
}

static void
foam__verdict(void **state)
{
	static const struct {
		double target, tolerance;
		enum control_foam_verdict verdict;
		bool is_close;
	} want[] = {{68.8, 3, CONTROL_FOAM_OK, false},
		{76, 4.1, CONTROL_FOAM_LOW, false},
		{61, 4.1, CONTROL_FOAM_HIGH, false},
		{71, 2.5, CONTROL_FOAM_OK, true}, /* 2.2 off, error 0.95 */
		{66, 2.5, CONTROL_FOAM_HIGH, true},
		{76, 0, CONTROL_FOAM_OK, true},  /* a tenth: 7.6 */
		{78, 0, CONTROL_FOAM_LOW, true}, /* 9.2 off against 7.8 */
		{85, 0, CONTROL_FOAM_LOW, false}};
	struct fixture *f = *state;

	for (size_t i = 0; i < sizeof want / sizeof want[0]; i++) {
		struct control_foam got;

		assert_ok(control_foam(cup, 3, (struct density){want[i].target},
				  (struct density){want[i].tolerance}, &got,
				  &f->err),
			&f->err);
		assert_true(got.has_verdict);
		assert_int_equal(want[i].verdict, got.verdict);
		assert_int_equal(want[i].is_close, got.is_close);
	}
	assert_string_equal("high", control_foam_word(CONTROL_FOAM_HIGH));
}

static void
foam__refusals(void **state)
{
	static const struct {
		struct control_foam_reading reading;
		const char *field;
	} bad[] = {
		{{{0.05}, {0.052}, {0.001}}, "readings[0].gross"},
		{{{0.12}, {0.052}, {0}}, "readings[0].volume"},
		{{{0.12}, {-0.052}, {0.001}}, "readings[0].tare"},
		{{{1.52}, {0.052}, {0.001}}, "readings[0].gross"},
		{{{NAN}, {0.052}, {0.001}}, "readings[0].gross"},
	};
	struct fixture *f = *state;
	struct control_foam got = {.density = {77}};

	for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
		assert_int_equal(ERR_INPUT,
			control_foam(&bad[i].reading, 1, (struct density){0},
				(struct density){0}, &got, &f->err));
		assert_string_equal(bad[i].field, f->err.field);
		err_clear(&f->err);
	}
	assert_int_equal(ERR_INPUT,
		control_foam(cup, 0, (struct density){0}, (struct density){0},
			&got, &f->err));
	err_clear(&f->err);
	assert_int_equal(ERR_INPUT,
		control_foam(cup, 1, (struct density){-3}, (struct density){0},
			&got, &f->err));
	assert_string_equal("target", f->err.field);
	assert_near(got.density.kg_m3, 77, 0, 0);
}

static const struct CMUnitTest tests[] = {
	TEST(foam__mean_and_its_error),
	TEST(foam__verdict),
	TEST(foam__refusals),
};

TEST_MAIN(tests)
