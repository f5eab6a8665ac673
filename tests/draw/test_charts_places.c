/* test_charts_places.c - marks lie where the arithmetic says, and say in their
 * titles what they are. */
#include "support.h"

#include "xml.h"

#include "draw/control.h"
#include "draw/dents.h"
#include "draw/front.h"
#include "draw/ratio.h"
#include "draw/relation.h"
#include "draw/specimens.h"
#include "draw/wall.h"

#include <math.h>
#include <string.h>

/* Places are written to a tenth of a pixel. */
static const double tenth = 0.0501;

#define DRAWN(function, chart, size) drawn_##function(f, &(chart), (size))
#define DRAWN_AS(function, type)                                          \
	static struct xml drawn_##function(struct fixture *f,             \
		const struct type *chart, const struct draw_size *size)   \
	{                                                                 \
		struct text svg;                                          \
                                                                          \
		text_init(&svg, f->a);                                    \
		assert_ok(function(chart, size, &svg, &f->err), &f->err); \
		return xml_read(f->a, svg.bytes, svg.n);                  \
	}
DRAWN_AS(draw_specimens, draw_specimens)
DRAWN_AS(draw_ratio, draw_ratio)
DRAWN_AS(draw_relation, draw_relation)
DRAWN_AS(draw_front, draw_front)
DRAWN_AS(draw_control, draw_control)
DRAWN_AS(draw_dents, draw_dents)
DRAWN_AS(draw_wall, draw_wall)

/* The label of a tick: where on x (or y) that value lies. */
static double
tick_at(const struct xml *xml, const char *words, const char *along)
{
	for (size_t i = 0; i < xml->n_element; i++)
		if (strcmp(xml->element[i].name, "text") == 0 &&
			strcmp(xml->element[i].words, words) == 0 &&
			strcmp(xml_get(&xml->element[i], "font-size"), "12") ==
				0)
			return xml_number(&xml->element[i], along);
	fail_msg("no tick %s", words);
	return 0;
}

static void
specimens__dots_and_intervals_lie_between_their_ticks(void **state)
{
	struct fixture *f = *state;
	static const struct draw_mix_row row = {.label = "B",
		.has_estimate = true,
		.estimate = {0.385, 0.31, 0.46}};
	static const struct draw_reading reading[] = {
		{.low = 0.37, .high = 0.37, .label = "dot"},
		{.low = 0.33, .high = 0.41, .label = "interval"},
		{.low = 0.35, .high = INFINITY, .label = "at least"},
		{.low = 0, .high = 0.39, .label = "less"}};
	struct draw_specimens chart = {.axis = {.name = "s", .unit = "N/mm²"},
		.row = &row,
		.n_row = 1,
		.reading = reading,
		.n_reading = 4};
	struct xml xml = DRAWN(draw_specimens, chart, NULL);
	double at_3 = tick_at(&xml, "0.30", "x");
	double at_4 = tick_at(&xml, "0.40", "x");
	double px = (at_4 - at_3) / 0.1; /* of 1 N/mm2 */
	const struct xml_element *e = xml_tipped(&xml, "dot: 0.370", "circle");

	assert_near(xml_number(e, "cx"), at_3 + 0.07 * px, 0, 3 * tenth);
	e = xml_tipped(&xml, "interval: 0.330 \xE2\x80\x93 0.410 N", "line");
	assert_near(xml_number(e, "x1"), at_3 + 0.03 * px, 0, 3 * tenth);
	assert_near(xml_number(e, "x2"), at_4 + 0.01 * px, 0, 3 * tenth);
	e = xml_tipped(&xml, "at least: \xE2\x89\xA5 0.350", "line");
	assert_near(xml_number(e, "x1"), at_3 + 0.05 * px, 0, 3 * tenth);
	assert_true(xml_number(e, "x2") > at_4 + 0.05 * px);
	xml_tipped(&xml, "at least", "path"); /* its arrow head */
	e = xml_tipped(&xml, "less: < 0.390", "line");
	assert_near(xml_number(e, "x2"), at_3 + 0.09 * px, 0, 3 * tenth);
	/* the estimate to the place of its half width 0.075: three decimals */
	e = xml_tipped(&xml, "B: 0.385 N/mm\xC2\xB2 (0.310", "line");
	assert_near(xml_number(e, "x1"), at_3 + 0.01 * px, 0, 3 * tenth);
	assert_near(xml_number(e, "x2"), at_4 + 0.06 * px, 0, 3 * tenth);
}

static void
ratio__twice_and_half_lie_equally_far_from_one(void **state)
{
	struct fixture *f = *state;
	static const struct draw_ratio_row row[] = {
		{"twice", {2, 1.6, 2.5}, NULL, true},
		{"half", {0.5, 0.4, 0.625}, NULL, true},
		{"same", {1, 0.8, 1.25}, NULL, false}};
	struct draw_ratio chart = {.row = row, .n_row = 3};
	struct xml xml = DRAWN(draw_ratio, chart, NULL);
	double at_1 = tick_at(&xml, "1", "x");
	const struct xml_element *twice = xml_tipped(&xml, "twice", "line");
	const struct xml_element *half = xml_tipped(&xml, "half", "line");
	const struct xml_element *same = xml_tipped(&xml, "same", "line");
	double left = xml_number(same, "x1"), right = xml_number(same, "x2");

	assert_near((left + right) / 2, at_1, 0, 2 * tenth);
	/* 2.5/1.6 = 1.25/0.8: the same length everywhere */
	assert_near(xml_number(twice, "x2") - xml_number(twice, "x1"),
		right - left, 0, 4 * tenth);
	assert_near(xml_number(half, "x2") - at_1,
		at_1 - xml_number(twice, "x1"), 0, 4 * tenth);
}

static void
relation__points_lie_by_both_scales(void **state)
{
	struct fixture *f = *state;
	static const struct draw_relation_point point[] = {
		{412, 0.92, 0.92, 0, "low"}, {655, 3.21, 3.21, 0, "high"}};
	struct draw_relation chart = {.x = {.unit = "kg/m³"},
		.y = {.unit = "N/mm²"},
		.point = point,
		.n_point = 2};
	struct xml xml = DRAWN(draw_relation, chart, NULL);
	double x_400 = tick_at(&xml, "400", "x");
	double x_600 = tick_at(&xml, "600", "x");
	/* figures of y stand 4 px below their line */
	double y_1 = tick_at(&xml, "1.0", "y") - 4;
	double y_3 = tick_at(&xml, "3.0", "y") - 4;
	const struct xml_element *e = xml_tipped(&xml, "low: 412", "circle");

	assert_near(xml_number(e, "cx"), x_400 + 0.06 * (x_600 - x_400), 0,
		3 * tenth);
	assert_near(
		xml_number(e, "cy"), y_1 - 0.04 * (y_3 - y_1), 0, 3 * tenth);
	e = xml_tipped(&xml, "high: 655", "circle");
	assert_near(xml_number(e, "cx"), x_600 + 0.275 * (x_600 - x_400), 0,
		3 * tenth);
	assert_near(
		xml_number(e, "cy"), y_3 + 0.105 * (y_3 - y_1), 0, 3 * tenth);
}

static void
front__joins_just_those_that_none_beats(void **state)
{
	struct fixture *f = *state;
	static const struct draw_front_point point[] = {
		{.label = "cheap", .x = 60, .y = 1},
		{.label = "good", .x = 75, .y = 1.7},
		{.label = "beaten", .x = 76, .y = 1.6},
		{.label = "twin", .x = 75, .y = 1.7},
		{.label = "best", .x = 96, .y = 2.3},
		{.label = "dearer", .x = 97, .y = 2.3}};
	struct draw_front chart = {
		.y_more_is_better = true, .point = point, .n_point = 6};
	static const bool want[] = {false, false, true, false, false, true};
	struct xml xml;

	for (size_t i = 0; i < 6; i++)
		assert_int_equal(draw_front_is_beaten(&chart, i), want[i]);
	xml = DRAWN(draw_front, chart, NULL);
	xml_tipped(&xml, "beaten", "circle"); /* hollow and round */
	xml_tipped(&xml, "best", "path");     /* a diamond */
	chart.x_more_is_better = true; /* now the dearer one beats the best */
	assert_true(draw_front_is_beaten(&chart, 4));
	assert_false(draw_front_is_beaten(&chart, 5));
}

static void
control__marks_lots_drift_and_alarms_in_a_row(void **state)
{
	struct fixture *f = *state;
	struct draw_control_point point[20];
	static const char *const label[20] = {"B1", "B2", "B3", "B4", "B5",
		"B6", "B7", "B8", "B9", "B10", "B11", "B12", "B13", "B14",
		"B15", "B16", "B17", "B18", "B19", "B20"};
	static const struct draw_control_lot lot = {7, "new drum"};
	struct draw_control chart = {.y = {.unit = "kg/m³"},
		.point = point,
		.n_point = 20,
		.has_range = true,
		.centre = 722,
		.low = 704,
		.high = 740,
		.lot = &lot,
		.n_lot = 1,
		.has_drift = true,
		.drift_since = 15};
	const struct xml_element *a, *b, *line;
	struct xml xml;
	size_t n_note = 0;

	for (size_t i = 0; i < 20; i++)
		point[i] = (struct draw_control_point){.label = label[i],
			.value = i >= 17 ? 747 : 719,
			.rule = i >= 17 ? "too high" : NULL};
	xml = DRAWN(draw_control, chart, NULL);
	a = xml_tipped(&xml, "B7: 719", "circle");
	b = xml_tipped(&xml, "B8: 719", "circle");
	line = xml_tipped(&xml, "new drum", "line");
	assert_near(xml_number(line, "x1"),
		(xml_number(a, "cx") + xml_number(b, "cx")) / 2, 0, 2 * tenth);
	for (size_t i = 0; i < xml.n_element; i++)
		n_note += strstr(xml.element[i].words,
				  "B18 \xE2\x80\x93 B20: too high") != NULL;
	assert_int_equal(n_note, 1);
	xml_tipped(&xml, "B19: 747 kg/m\xC2\xB3; too high", "path");
}

static void
dents__lie_on_the_face_with_their_distances(void **state)
{
	struct fixture *f = *state;
	static const struct draw_dent dent = {62, 71, 38, false, true, "first"};
	struct draw_dents chart = {.width = 228.6,
		.height = 152.4,
		.unit = "mm",
		.dent = &dent,
		.n_dent = 1};
	struct xml xml = DRAWN(draw_dents, chart, NULL);
	const struct xml_element *circle = xml_tipped(&xml, "first", "circle");
	const struct xml_element *face = NULL;
	double px;

	for (size_t i = 0; i < xml.n_element; i++)
		if (strcmp(xml.element[i].name, "rect") == 0)
			face = &xml.element[i];
	assert_non_null(face);
	px = xml_number(face, "width") / 228.6;
	assert_near(xml_number(face, "height"), 152.4 * px, 0, 2 * tenth);
	assert_near(xml_number(circle, "cx"), xml_number(face, "x") + 62 * px,
		0, 3 * tenth);
	assert_near(xml_number(circle, "cy"),
		xml_number(face, "y") + (152.4 - 71) * px, 0, 3 * tenth);
	assert_near(xml_number(circle, "r"), 19 * px, 0, 2 * tenth);
	tick_at(&xml, "62 mm", "x"); /* from the left */
	tick_at(&xml, "71 mm", "x"); /* from below */
}

static void
wall__layers_are_as_thick_as_they_are_to_one_another(void **state)
{
	struct fixture *f = *state;
	static const struct draw_layer layer[] = {
		{"plaster", 15, NULL, DRAW_PLASTER},
		{"foam", 300, NULL, DRAW_FOAMED},
		{"film", 0.2, "0.2 mm", DRAW_OTHER},
		{"brick", 102, NULL, DRAW_MASONRY}};
	struct draw_wall chart = {
		.thickness_unit = "mm", .layer = layer, .n_layer = 4};
	struct xml xml = DRAWN(draw_wall, chart, NULL);
	double foam = xml_number(
		xml_tipped(&xml, "foam, 300 mm", "rect"), "width");
	double brick = xml_number(
		xml_tipped(&xml, "brick, 102 mm", "rect"), "width");

	assert_near(brick / foam, 102.0 / 300, 1e-3, 0); /* of tenths of px */
	assert_near(
		xml_number(xml_tipped(&xml, "film, 0.2 mm", "rect"), "width"),
		4, 0, tenth);
}

static const struct CMUnitTest tests[] = {
	TEST(specimens__dots_and_intervals_lie_between_their_ticks),
	TEST(ratio__twice_and_half_lie_equally_far_from_one),
	TEST(relation__points_lie_by_both_scales),
	TEST(front__joins_just_those_that_none_beats),
	TEST(control__marks_lots_drift_and_alarms_in_a_row),
	TEST(dents__lie_on_the_face_with_their_distances),
	TEST(wall__layers_are_as_thick_as_they_are_to_one_another),
};

TEST_MAIN(tests)
