/* test_relation.c - work/relation and work/dents: what two pictures rest on. */
#include "support.h"

#include "work/dents.h"
#include "work/relation.h"

#include <math.h>
#include <string.h>

enum { N_PIECE = 4, N_RESULT = 7 };

/* Two mixes of two batches; the pieces of the second batch were not dried
 * themselves, but one of them was left out of its density. */
static const struct book_mix mix[] = {{.code = "P"}, {.code = "L"}};
static const size_t matrix[] = {0, 1};
static const struct work_result result[N_RESULT] = {
	{.measure = CHOOSE_DRY_DENSITY,
		.has_specimen = true,
		.specimen = 0,
		.value = {619, 621}},
	{.measure = CHOOSE_DRY_DENSITY, .value = {640, 640}},
	{.measure = CHOOSE_DRY_DENSITY,
		.batch = 1,
		.mix = 1,
		.value = {450, 450}},
	{.measure = CHOOSE_DRY_DENSITY,
		.batch = 1,
		.mix = 1,
		.value = {990, 990},
		.excluded = true},
	{.measure = CHOOSE_BENDING_STRENGTH,
		.has_specimen = true,
		.specimen = 0,
		.value = {9e5, 9.3e5}},
	{.measure = CHOOSE_BENDING_STRENGTH,
		.has_specimen = true,
		.specimen = 1,
		.value = {8e5, 8.3e5}},
	{.measure = CHOOSE_BENDING_STRENGTH,
		.has_specimen = true,
		.specimen = 2,
		.batch = 1,
		.mix = 1,
		.value = {4e5, (double)INFINITY}},
};
static struct work_group group[] = {
	{.mix = 0,
		.n_value = 2,
		.density_kg_m3 = 630,
		.answer = {.median = 8.7e5, .low = 7.9e5, .high = 9.9e5}},
	{.mix = 1, .n_value = 1}};

static struct work_compared
invented(void)
{
	return (struct work_compared){.site = {.mix = mix,
					      .n_mix = 2,
					      .mix_matrix = matrix,
					      .n_batch = 2,
					      .n_specimen = N_PIECE},
		.results = {.result = result, .n_result = N_RESULT},
		.exponent = {.has = true,
			.median = 2.31,
			.low = 1.7,
			.high = 2.77,
			.mixes = "P, L"}};
}

static const struct work_comparison bending = {
	.measure = CHOOSE_BENDING_STRENGTH, .group = group, .n_group = 2};

static void
relation__takes_a_pieces_own_weight_before_its_batchs(void **state)
{
	struct fixture *f = *state;
	const struct work_compared all = invented();
	struct work_relation got;

	assert_ok(work_relation(f->a, &all, &bending, &got, &f->err), &f->err);
	assert_int_equal(3, got.n_point);
	assert_near(got.point[0].density_kg_m3, 620, 1e-15, 0);
	assert_false(got.point[0].of_batch);
	assert_near(got.point[1].density_kg_m3, 630, 1e-15, 0);
	assert_true(got.point[1].of_batch);
	assert_near(got.point[2].density_kg_m3, 450, 1e-15, 0);
	assert_int_equal(1, got.point[2].group);
	assert_int_equal(6, got.point[2].result);
}

/* Worked by hand: at 450 of 630, weight^n with the three exponents; the two half
 * widths on the log scale as the sides of a right angle. */
static void
relation__goes_through_the_baseline_with_its_band(void **state)
{
	struct fixture *f = *state;
	const struct work_compared all = invented();
	struct work_relation got;
	double l = log(630.0 / 450), middle = 8.7e5 * pow(450.0 / 630, 2.31);

	assert_ok(work_relation(f->a, &all, &bending, &got, &f->err), &f->err);
	assert_near(got.knot[0].density_kg_m3, 450, 1e-15, 0);
	assert_near(got.knot[0].middle_pa, middle, 1e-13, 0);
	assert_near(log(middle / got.knot[0].low_pa),
		sqrt(pow(log(8.7 / 7.9), 2) + pow((2.77 - 2.31) * l, 2)), 1e-12,
		0);
	assert_near(log(got.knot[0].high_pa / middle),
		sqrt(pow(log(9.9 / 8.7), 2) + pow((2.31 - 1.7) * l, 2)), 1e-12,
		0);
	/* at its own weight it is the baseline's estimate */
	assert_near(got.knot[got.n_knot - 1].density_kg_m3, 630, 1e-15, 0);
	assert_near(got.knot[got.n_knot - 1].middle_pa, 8.7e5, 1e-15, 0);
	assert_near(got.knot[got.n_knot - 1].low_pa, 7.9e5, 1e-13, 0);
	assert_near(got.knot[got.n_knot - 1].high_pa, 9.9e5, 1e-13, 0);
	for (size_t i = 1; i < got.n_knot; i++)
		assert_true(got.knot[i].density_kg_m3 >
			got.knot[i - 1].density_kg_m3);
	assert_has(got.sentence, "P, L");
}

static void
relation__says_why_there_is_no_curve(void **state)
{
	struct fixture *f = *state;
	struct work_compared all = invented();
	struct work_relation got;

	all.exponent.has = false;
	assert_ok(work_relation(f->a, &all, &bending, &got, &f->err), &f->err);
	assert_int_equal(3, got.n_point);
	assert_int_equal(0, got.n_knot);
	assert_has(got.sentence, "no curve");
}

static const struct maybe none = {false, 0};

static struct book_reading
blow(const char *place, struct maybe from_edge_m, const char *tip)
{
	return (struct book_reading){.kind = "drop",
		.drop = {.place = place,
			.tip = tip,
			.tip_diameter_m = {true, 0.025},
			.dent_m = {true, 0.009},
			.from_edge_m = from_edge_m}};
}

static void
dents__lie_where_they_were_written_down(void **state)
{
	struct fixture *f = *state;
	const struct book_reading reading[] = {blow("centre", none, "ball"),
		blow("edge", (struct maybe){true, 0.03}, "flat"),
		blow("corner", none, "cone"),
		blow("edge", (struct maybe){true, 0.21}, "ball"),
		{.kind = "weighing"}};
	const size_t piece[] = {0, 0, 0, 0, 0};
	const struct book_specimen specimen = {
		.width_m = {true, 0.6}, .length_m = {true, 0.4}};
	const struct work_bench bench = {.site = {.reading = reading,
						 .n_reading = 5,
						 .reading_specimen = piece,
						 .specimen = &specimen,
						 .n_specimen = 1}};
	struct work_dents got;

	assert_ok(work_dents(&bench, 0, f->a, &got, &f->err), &f->err);
	assert_true(got.has_face);
	assert_near(got.length_m, 0.6, 0, 0);
	assert_near(got.width_m, 0.4, 0, 0);
	assert_int_equal(4, got.n_dent);
	assert_near(got.dent[0].x_m, 0.3, 1e-15, 0);
	assert_near(got.dent[0].y_m, 0.2, 1e-15, 0);
	/* a cap 9 mm deep of a ball of 25 mm: 2 sqrt(9 x 16) = 24 mm */
	assert_near(got.dent[0].wide_m.value, 0.024, 1e-14, 0);
	assert_near(got.dent[1].x_m, 0.3, 1e-15, 0);
	assert_near(got.dent[1].y_m, 0.03, 1e-15, 0);
	assert_near(got.dent[1].wide_m.value, 0.025, 1e-15, 0);
	assert_near(got.dent[2].x_m, 0.05, 1e-15, 0);
	assert_near(got.dent[2].y_m, 0.05, 1e-15, 0);
	assert_false(got.dent[2].wide_m.has);         /* no angle */
	assert_near(got.dent[3].y_m, 0.05, 1e-15, 0); /* over half the width */
}

static void
dents__need_the_sizes_of_the_face(void **state)
{
	struct fixture *f = *state;
	const struct book_reading reading = blow("centre", none, "ball");
	const size_t piece = 0;
	const struct book_specimen specimen = {.length_m = {true, 0.4}};
	const struct work_bench bench = {.site = {.reading = &reading,
						 .n_reading = 1,
						 .reading_specimen = &piece,
						 .specimen = &specimen,
						 .n_specimen = 1}};
	struct work_dents got;

	assert_ok(work_dents(&bench, 0, f->a, &got, &f->err), &f->err);
	assert_false(got.has_face);
	assert_int_equal(0, got.n_dent);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		TEST(relation__takes_a_pieces_own_weight_before_its_batchs),
		TEST(relation__goes_through_the_baseline_with_its_band),
		TEST(relation__says_why_there_is_no_curve),
		TEST(dents__lie_where_they_were_written_down),
		TEST(dents__need_the_sizes_of_the_face),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
