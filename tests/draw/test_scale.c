/* test_scale.c - ticks, ends and places of the scales of draw. */
#include "support.h"

#include "draw/scale.h"

#include <math.h>

static struct draw_scale
fit(double low, double high, bool is_log, size_t n)
{
	struct draw_axis axis = {.is_log = is_log};
	struct draw_scale scale = draw_scale_fit(
		&axis, (struct draw_span){true, low, high}, n);

	scale.low_px = 100;
	scale.high_px = 500;
	return scale;
}

/* 1, 2 or 5 times a power of ten. */
static bool
is_nice(double step)
{
	double lead = step / pow(10, floor(log10(step) + 1e-9));

	return fabs(lead - 1) < 1e-6 || fabs(lead - 2) < 1e-6 ||
		fabs(lead - 5) < 1e-6;
}

static void
scale__known_ticks(void **state)
{
	struct draw_scale scale = fit(0.34, 1.07, false, 6);
	static const double want[] = {0.2, 0.4, 0.6, 0.8, 1.0, 1.2};

	(void)state;
	assert_int_equal(scale.n_tick, 6);
	for (size_t i = 0; i < 6; i++) {
		assert_near(scale.tick[i], want[i], 1e-12, 0);
		assert_int_equal(scale.n_decimal[i], 1);
	}
	/* 0.34 lies 0.14 of 1.0 along: 100 + 0.14 * 400 */
	assert_near(draw_px(&scale, 0.34), 156, 1e-12, 0);
	assert_near(draw_px(&scale, 0.2), 100, 1e-12, 0);
	assert_near(draw_px(&scale, 1.2), 500, 1e-12, 0);
}

static void
scale__steps_are_nice_and_hold_the_data_over_a_sweep(void **state)
{
	(void)state;
	for (double size = 1.7e-9; size < 1e12; size *= 3.137)
		for (double base = -2; base <= 2; base += 0.77) {
			double low = base * size, high = low + size * 1.013;
			struct draw_scale scale = fit(low, high, false, 6);

			assert_in_range(scale.n_tick, 2, 9);
			assert_true(scale.low <= low + size * 1e-5);
			assert_true(scale.high >= high - size * 1e-5);
			assert_true(is_nice(scale.tick[1] - scale.tick[0]));
		}
}

static void
scale__log_decades_and_halves(void **state)
{
	struct draw_scale two = fit(1, 100, true, 6);
	struct draw_scale many = fit(1e-6, 1e9, true, 6);
	struct draw_scale near = fit(0.53, 2.8, true, 6);

	(void)state;
	assert_near(draw_px(&two, 10), 300, 1e-9, 0); /* the middle */
	assert_int_equal(two.n_tick, 7);              /* 1 2 5 10 20 50 100 */
	assert_near(two.tick[1], 2, 1e-12, 0);
	assert_in_range(many.n_tick, 4, 10);
	/* 0.53 and 2.8, each end moved out by (2.8/0.53)^0.04: 0.496 to 2.99 */
	assert_int_equal(near.n_tick, 5); /* 0.5 0.7 1 1.5 2 */
	assert_near(near.tick[3], 1.5, 1e-12, 0);
	assert_int_equal(near.n_decimal[2], 0);
	assert_int_equal(near.n_decimal[3], 1);
	/* a factor of 2 is as long anywhere */
	assert_near(draw_px(&near, 2) - draw_px(&near, 1),
		draw_px(&near, 1.4) - draw_px(&near, 0.7), 1e-9, 0);
}

static void
scale__one_value_and_none_have_room(void **state)
{
	struct draw_axis plain = {0}, is_log = {.is_log = true};
	struct draw_span none = {0};
	struct draw_scale one = fit(7, 7, false, 6);
	struct draw_scale zero = fit(0, 0, false, 6);
	struct draw_scale one_log = fit(7, 7, true, 6);

	(void)state;
	assert_true(one.low < 7 && one.high > 7 && one.n_tick >= 2);
	assert_true(zero.low < 0 && zero.high > 0 && zero.n_tick >= 2);
	assert_true(one_log.low < 7 && one_log.high > 7);
	assert_true(one_log.n_tick >= 1);
	assert_near(draw_scale_fit(&plain, none, 5).high, 1, 1e-12, 0);
	assert_true(draw_scale_fit(&is_log, none, 5).low > 0);
}

static void
scale__extremes_stay_finite(void **state)
{
	struct draw_scale wide = fit(-1e15, 1e15, false, 6);
	struct draw_scale close = fit(1e15 - 1, 1e15, false, 6);
	struct draw_scale log_wide = fit(1e-15, 1e15, true, 6);

	(void)state;
	assert_true(isfinite(draw_px(&wide, 3)) && wide.n_tick >= 2);
	assert_true(isfinite(draw_px(&close, 1e15)) && close.n_tick >= 2);
	assert_true(isfinite(draw_px(&log_wide, 1)) && log_wide.n_tick >= 2);
}

static void
scale__given_ends_are_kept(void **state)
{
	struct draw_axis axis = {.has_range = true, .low = 0.13, .high = 0.87};
	struct draw_scale scale = draw_scale_fit(
		&axis, (struct draw_span){true, -5, 5}, 5);

	(void)state;
	assert_near(scale.low, 0.13, 0, 0);
	assert_near(scale.high, 0.87, 0, 0);
	scale.low_px = 0;
	scale.high_px = 10;
	assert_near(draw_px(&scale, -5), 0, 0, 0); /* stays at the end */
	assert_near(draw_px(&scale, 5), 10, 0, 0);
}

static void
check__refuses_what_cannot_be_shown(void **state)
{
	struct fixture *f = *state;
	struct draw_axis plain = {0}, is_log = {.is_log = true};
	struct draw_estimate wrong = {2, 3, 4};

	assert_int_equal(ERR_INPUT,
		draw_check_value(&plain, NAN, "row", 3, "low", &f->err));
	assert_string_equal(f->err.field, "row[3].low");
	err_clear(&f->err);
	assert_int_equal(ERR_INPUT,
		draw_check_value(&plain, INFINITY, "row", 0, "", &f->err));
	assert_string_equal(f->err.field, "row[0]");
	assert_int_equal(
		ERR_INPUT, draw_check_value(&plain, 2e15, "row", 0, "", NULL));
	assert_int_equal(
		ERR_INPUT, draw_check_value(&is_log, 0, "row", 0, "", NULL));
	assert_int_equal(
		ERR_NONE, draw_check_value(&is_log, 1e-15, "row", 0, "", NULL));
	assert_int_equal(
		ERR_INPUT, draw_check_estimate(&plain, &wrong, "row", 0, NULL));
	assert_int_equal(ERR_INPUT,
		draw_check_reading(&plain, 0, INFINITY, "r", 0, NULL));
	assert_int_equal(
		ERR_INPUT, draw_check_reading(&plain, 3, 2, "r", 0, NULL));
	assert_int_equal(
		ERR_INPUT, draw_check_reading(&plain, NAN, 2, "r", 0, NULL));
	assert_int_equal(ERR_INPUT,
		draw_check_reading(&plain, INFINITY, INFINITY, "r", 0, NULL));
	assert_int_equal(
		ERR_NONE, draw_check_reading(&is_log, 0, 2, "r", 0, NULL));
	assert_int_equal(
		ERR_NONE, draw_check_reading(&plain, 0, 0, "r", 0, NULL));
}

static const struct CMUnitTest tests[] = {
	TEST(scale__known_ticks),
	TEST(scale__steps_are_nice_and_hold_the_data_over_a_sweep),
	TEST(scale__log_decades_and_halves),
	TEST(scale__one_value_and_none_have_room),
	TEST(scale__extremes_stay_finite),
	TEST(scale__given_ends_are_kept),
	TEST(check__refuses_what_cannot_be_shown),
};

TEST_MAIN(tests)
