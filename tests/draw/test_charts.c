/* test_charts.c - every chart: well-formed, as its golden file, drawn by a
 * renderer, whole with no, one and many rows; refusals and hostile names.
 *
 * The golden files hold places to a tenth of a pixel.  After a wanted change:
 * FOAMWRIGHT_WRITE_GOLDEN=1 draw_test_charts, then read the difference. */
#include "support.h"

#include "samples.h"
#include "xml.h"

#include "draw/calendar.h"
#include "draw/chances.h"
#include "draw/control.h"
#include "draw/dents.h"
#include "draw/front.h"
#include "draw/gain.h"
#include "draw/ratio.h"
#include "draw/relation.h"
#include "draw/specimens.h"
#include "draw/trace.h"
#include "draw/wall.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static struct text
drawn(struct fixture *f, const struct sample *sample,
	const struct draw_size *size)
{
	struct text svg;

	text_init(&svg, f->a);
	err_clear(&f->err);
	assert_ok(sample->draw(size, &svg, &f->err), &f->err);
	return svg;
}

static void
assert_unique_ids(const struct xml *xml)
{
	for (size_t i = 0; i < xml->n_element; i++) {
		const char *id = xml_get(&xml->element[i], "id");

		for (size_t k = 0; id[0] != '\0' && k < i; k++)
			assert_string_not_equal(
				id, xml_get(&xml->element[k], "id"));
	}
}

static void
charts__are_well_formed_at_every_width(void **state)
{
	struct fixture *f = *state;
	static const double width[] = {240, 340, 519, 520, 720, 2000};
	size_t n;
	const struct sample *sample = samples(&n);

	for (size_t i = 0; i < n; i++)
		for (size_t k = 0; k < 6; k++) {
			struct draw_size size = {.width_px = width[k]};
			struct arena_mark mark = arena_mark(f->a);
			struct text svg = drawn(f, &sample[i], &size);
			struct xml xml = xml_read(f->a, svg.bytes, svg.n);

			assert_unique_ids(&xml);
			assert_int_equal(xml_count(&xml, "desc"), 1);
			assert_int_equal(xml_count(&xml, "script"), 0);
			arena_back(f->a, mark);
		}
}

/* Nothing begins left of the picture, right of it, above or below. */
static void
charts__stay_within_the_picture(void **state)
{
	struct fixture *f = *state;
	static const double width[] = {240, 340, 720};
	size_t n;
	const struct sample *sample = samples(&n);

	for (size_t i = 0; i < n; i++)
		for (size_t k = 0; k < 3; k++) {
			struct draw_size size = {.width_px = width[k]};
			struct arena_mark mark = arena_mark(f->a);
			struct text svg = drawn(f, &sample[i], &size);
			struct xml xml = xml_read(f->a, svg.bytes, svg.n);
			double right = xml_number(&xml.element[0], "width");
			double low = xml_number(&xml.element[0], "height");

			for (size_t e = 0; e < xml.n_element; e++) {
				const struct xml_element *at = &xml.element[e];

				if (strcmp(at->name, "text") != 0)
					continue;
				assert_true(xml_number(at, "x") >= 0);
				assert_true(xml_number(at, "x") <= right);
				assert_true(xml_number(at, "y") >= 8);
				assert_true(xml_number(at, "y") <= low);
			}
			arena_back(f->a, mark);
		}
}

static const char *
golden_path(struct arena *a, const char *name)
{
	return text_format(a, "%s/%s.svg", support_path("draw"), name);
}

static void
write_golden(const char *path, const struct text *svg)
{
	FILE *file = fopen(path, "w");

	assert_non_null(file);
	assert_int_equal(fwrite(svg->bytes, 1, svg->n, file), svg->n);
	assert_int_equal(fclose(file), 0);
}

static void
charts__are_as_their_golden_files(void **state)
{
	struct fixture *f = *state;
	size_t n;
	const struct sample *sample = samples(&n);
	bool writes = getenv("FOAMWRIGHT_WRITE_GOLDEN") != NULL;

	for (size_t i = 0; i < n; i++) {
		struct draw_size size = {.width_px = 340};
		const char *path = golden_path(f->a, sample[i].name);
		struct text svg = drawn(f, &sample[i], &size);
		char *want = arena_take(f->a, svg.n + 2, 1);
		FILE *file;
		size_t n_want;

		if (strcmp(sample[i].name, "specimens-many") == 0)
			continue;
		if (writes)
			write_golden(path, &svg);
		file = fopen(path, "r");
		assert_non_null(file);
		n_want = fread(want, 1, svg.n + 1, file);
		fclose(file);
		want[n_want] = '\0';
		if (n_want != svg.n || memcmp(want, svg.bytes, svg.n) != 0)
			fail_msg("%s is not as %s", sample[i].name, path);
	}
}

/* rsvg-convert (librsvg2-bin) makes a PNG of each, larger than an empty one. */
static void
charts__are_drawn_by_a_renderer(void **state)
{
	struct fixture *f = *state;
	char svg_path[] = "/tmp/draw-test-XXXXXX";
	static const unsigned char signature[8] = {
		0x89, 'P', 'N', 'G', '\r', '\n', 0x1A, '\n'};
	size_t n;
	const struct sample *sample = samples(&n);
	int fd = mkstemp(svg_path);

	assert_true(fd >= 0);
	close(fd);
	for (size_t i = 0; i < n; i++) {
		struct text svg = drawn(f, &sample[i], NULL);
		unsigned char png[4096];
		size_t got, total;
		FILE *pipe;

		write_golden(svg_path, &svg);
		pipe = popen(
			text_format(f->a, "rsvg-convert %s", svg_path), "r");
		assert_non_null(pipe);
		got = fread(png, 1, sizeof(png), pipe);
		assert_true(got > 8);
		assert_memory_equal(png, signature, 8);
		total = got;
		while (got > 0) {
			got = fread(png, 1, sizeof(png), pipe);
			total += got;
		}
		assert_int_equal(pclose(pipe), 0);
		if (total < 450) /* 160 by 96 px of nothing: 321 */
			fail_msg("%s: only %zu bytes", sample[i].name, total);
	}
	unlink(svg_path);
}

static void
charts__show_a_script_as_text(void **state)
{
	struct fixture *f = *state;
	size_t n, found = 0;
	const struct sample *sample = samples(&n);

	for (size_t i = 0; i < n; i++) {
		struct text svg;
		struct xml xml;

		if (strcmp(sample[i].name, "specimens-hostile") != 0)
			continue;
		svg = drawn(f, &sample[i], NULL);
		assert_lacks(svg.bytes, "<script");
		assert_lacks(svg.bytes, "]]>");
		assert_lacks(svg.bytes, "\x01");
		assert_lacks(svg.bytes, "\xFF");
		xml = xml_read(f->a, svg.bytes, svg.n);
		assert_int_equal(xml_count(&xml, "script"), 0);
		assert_int_equal(xml_count(&xml, "b"), 0);
		assert_int_equal(xml_count(&xml, "x"), 0);
		assert_string_equal(
			xml.element[1].words, "Title </title> & <b>");
		assert_string_equal(xml_get(&xml.element[1], "id"), "x-title");
		for (size_t e = 0; e < xml.n_element; e++)
			found += strstr(xml.element[e].words,
					 "<script>alert('B") != NULL;
	}
	assert_true(found >= 1);
}

#define EMPTY_IS_FINE(function, chart, mark)                                 \
	do {                                                                 \
		struct text svg;                                             \
		struct xml xml;                                              \
                                                                             \
		text_init(&svg, f->a);                                       \
		err_clear(&f->err);                                          \
		assert_ok(function(&(chart), NULL, &svg, &f->err), &f->err); \
		xml = xml_read(f->a, svg.bytes, svg.n);                      \
		assert_true(xml_count(&xml, mark) >= 1);                     \
	} while (0)

static void
charts__with_nothing_say_so(void **state)
{
	struct fixture *f = *state;
	struct draw_specimens specimens = {0};
	struct draw_ratio ratio = {0};
	struct draw_relation relation = {0};
	struct draw_chances chances = {0};
	struct draw_front front = {0};
	struct draw_control control = {0};
	struct draw_wall wall = {0};
	struct draw_calendar calendar = {0};
	struct draw_gain gain = {0};
	struct draw_dents face = {.width = 3, .height = 2};
	struct draw_trace trace = {0};

	EMPTY_IS_FINE(draw_specimens, specimens, "text");
	EMPTY_IS_FINE(draw_ratio, ratio, "text");
	EMPTY_IS_FINE(draw_relation, relation, "text");
	EMPTY_IS_FINE(draw_chances, chances, "text");
	EMPTY_IS_FINE(draw_front, front, "text");
	EMPTY_IS_FINE(draw_control, control, "text");
	EMPTY_IS_FINE(draw_wall, wall, "text");
	EMPTY_IS_FINE(draw_calendar, calendar, "text");
	EMPTY_IS_FINE(draw_gain, gain, "text");
	EMPTY_IS_FINE(draw_dents, face, "text");
	EMPTY_IS_FINE(draw_trace, trace, "text");
}

static void
charts__with_one_of_each_and_no_words_are_whole(void **state)
{
	struct fixture *f = *state;
	static const struct draw_mix_row row = {0};
	static const struct draw_reading reading = {.low = 0, .high = 0};
	static const struct draw_relation_point point = {.x = 0};
	static const struct draw_chance bar = {.chance = 0};
	static const struct draw_chance_part part = {NULL, &bar, 1};
	static const struct draw_front_point mix = {.is_chosen = true};
	static const struct draw_control_point batch = {.value = -3};
	static const struct draw_layer layer = {.thickness = 1e-9};
	static const struct draw_cell cell = {0};
	static const char *const none = NULL;
	static const struct draw_gain_point plan = {.is_chosen = true};
	static const struct draw_dent dent = {.has_distance = true};
	static const struct draw_trace_point row_read = {.begins = true};
	static const struct draw_trace_level level = {.is_warning = true};
	struct draw_specimens specimens = {
		.row = &row, .n_row = 1, .reading = &reading, .n_reading = 1};
	struct draw_relation relation = {.point = &point, .n_point = 1};
	struct draw_chances chances = {.part = &part, .n_part = 1};
	struct draw_front front = {.point = &mix, .n_point = 1};
	struct draw_control control = {.point = &batch,
		.n_point = 1,
		.has_range = true,
		.has_drift = true};
	struct draw_control by_time = {
		.point = &batch, .n_point = 1, .by_time = true};
	struct draw_wall wall = {.layer = &layer, .n_layer = 1};
	struct draw_calendar calendar = {.day = &none,
		.n_day = 1,
		.column = &none,
		.n_column = 1,
		.cell = &cell,
		.n_cell = 1};
	struct draw_gain gain = {
		.point = &plan, .n_point = 1, .has_even = true};
	struct draw_dents dents = {
		.width = 2, .height = 40, .dent = &dent, .n_dent = 1};
	struct draw_trace trace = {.point = &row_read,
		.n_point = 1,
		.level = &level,
		.n_level = 1,
		.has_band = true};

	EMPTY_IS_FINE(draw_specimens, specimens, "rect");
	EMPTY_IS_FINE(draw_relation, relation, "rect");
	EMPTY_IS_FINE(draw_chances, chances, "rect");
	EMPTY_IS_FINE(draw_front, front, "rect");
	EMPTY_IS_FINE(draw_control, control, "rect");
	EMPTY_IS_FINE(draw_control, by_time, "rect");
	EMPTY_IS_FINE(draw_wall, wall, "rect");
	EMPTY_IS_FINE(draw_calendar, calendar, "rect");
	EMPTY_IS_FINE(draw_gain, gain, "rect");
	EMPTY_IS_FINE(draw_dents, dents, "rect");
	EMPTY_IS_FINE(draw_trace, trace, "circle");
}

/* 500 equal points of each: no figure of a place may be anything but one. */
static void
charts__with_five_hundred_equal_points_are_whole(void **state)
{
	enum { MANY = 500 };
	struct fixture *f = *state;
	struct draw_ratio_row *row = arena_take(f->a, MANY, sizeof(*row));
	struct draw_front_point *mix = arena_take(f->a, MANY, sizeof(*mix));
	struct draw_control_point *b = arena_take(f->a, MANY, sizeof(*b));
	struct draw_gain_point *plan = arena_take(f->a, MANY, sizeof(*plan));
	struct draw_ratio ratio = {.row = row, .n_row = MANY};
	struct draw_front front = {.point = mix, .n_point = MANY};
	struct draw_control control = {.point = b, .n_point = MANY};
	struct draw_gain gain = {.point = plan, .n_point = MANY};

	for (size_t i = 0; i < MANY; i++) {
		row[i] = (struct draw_ratio_row){"m", {1, 1, 1}, NULL, false};
		mix[i] = (struct draw_front_point){
			.label = "a mix", .x = 7, .y = 7};
		b[i] = (struct draw_control_point){.label = "B",
			.value = 722,
			.rule = i % 2 == 0 ? "too high" : NULL};
		plan[i] = (struct draw_gain_point){"p", 7, {7, 7, 7}, false};
	}
	EMPTY_IS_FINE(draw_ratio, ratio, "rect");
	EMPTY_IS_FINE(draw_front, front, "rect");
	EMPTY_IS_FINE(draw_control, control, "rect");
	EMPTY_IS_FINE(draw_gain, gain, "rect");
}

#define REFUSED(function, chart, wanted_field)                               \
	do {                                                                 \
		struct text svg;                                             \
                                                                             \
		text_init(&svg, f->a);                                       \
		err_clear(&f->err);                                          \
		assert_int_equal(                                            \
			ERR_INPUT, function(&(chart), NULL, &svg, &f->err)); \
		assert_string_equal(f->err.field, wanted_field);             \
		assert_int_equal(svg.n, 0);                                  \
	} while (0)

static void
charts__refuse_a_number_that_is_none(void **state)
{
	struct fixture *f = *state;
	struct draw_mix_row row = {
		.has_estimate = true, .estimate = {1, NAN, 2}};
	struct draw_reading reading = {.low = NAN};
	struct draw_ratio_row ratio_row = {"a", {1, 0.5, INFINITY}, "", true};
	struct draw_relation_point point = {.x = -INFINITY};
	struct draw_chance bar = {.chance = NAN};
	struct draw_chance_part part = {"p", &bar, 1};
	struct draw_front_point mix = {.x = 1, .y = NAN};
	struct draw_control_point batch = {.value = INFINITY};
	struct draw_layer layer = {.thickness = NAN};
	struct draw_gain_point plan = {.cost = NAN};
	struct draw_specimens specimens = {.row = &row, .n_row = 1};
	struct draw_ratio ratio = {.row = &ratio_row, .n_row = 1};
	struct draw_relation relation = {.point = &point, .n_point = 1};
	struct draw_chances chances = {.part = &part, .n_part = 1};
	struct draw_front front = {.point = &mix, .n_point = 1};
	struct draw_control control = {.point = &batch, .n_point = 1};
	struct draw_wall wall = {.layer = &layer, .n_layer = 1};
	struct draw_gain gain = {.point = &plan, .n_point = 1};
	struct draw_dents dents = {.width = NAN, .height = 1};
	struct draw_trace_point read = {.mean = INFINITY};
	struct draw_trace_level level = {.y = NAN};
	struct draw_trace trace = {.point = &read, .n_point = 1};

	REFUSED(draw_specimens, specimens, "row[0].low");
	row.has_estimate = false;
	specimens.reading = &reading;
	specimens.n_reading = 1;
	REFUSED(draw_specimens, specimens, "reading[0].low");
	REFUSED(draw_ratio, ratio, "row[0].high");
	REFUSED(draw_relation, relation, "point[0].x");
	REFUSED(draw_chances, chances, "chance");
	REFUSED(draw_front, front, "point[0].low");
	REFUSED(draw_control, control, "point[0].value");
	REFUSED(draw_wall, wall, "layer[0].thickness");
	REFUSED(draw_gain, gain, "point[0].cost");
	REFUSED(draw_dents, dents, "width[0]");
	REFUSED(draw_trace, trace, "point[0].middle");
	read.mean = 3;
	REFUSED(draw_trace, trace, "point[0].high");
	trace.n_point = 0;
	trace.level = &level;
	trace.n_level = 1;
	REFUSED(draw_trace, trace, "level[0].y");
	trace.n_level = DRAW_TRACE_LEVELS + 1;
	REFUSED(draw_trace, trace, "level");
}

static void
charts__refuse_what_is_not_there_or_out_of_order(void **state)
{
	struct fixture *f = *state;
	struct draw_mix_row row = {.label = "a"};
	struct draw_reading reading = {.row = 1, .low = 1, .high = 1};
	struct draw_specimens specimens = {
		.row = &row, .n_row = 1, .reading = &reading, .n_reading = 1};
	struct draw_relation_knot knot[2] = {{2, {1, 1, 1}}, {2, {1, 1, 1}}};
	struct draw_relation relation = {.knot = knot, .n_knot = 2};
	struct draw_control_point batch[2] = {{.at = 3}, {.at = 2}};
	struct draw_control control = {
		.point = batch, .n_point = 2, .by_time = true};
	struct draw_cell cell = {.day = 1};
	const char *word = "w";
	struct draw_calendar calendar = {.day = &word,
		.n_day = 1,
		.column = &word,
		.n_column = 1,
		.cell = &cell,
		.n_cell = 1};
	struct draw_dent dent = {.x = 3, .y = 1};
	struct draw_dents dents = {
		.width = 2, .height = 2, .dent = &dent, .n_dent = 1};
	struct draw_wall wall = {.n_layer = 33};

	REFUSED(draw_specimens, specimens, "reading");
	REFUSED(draw_relation, relation, "knot");
	relation.n_group = 7;
	REFUSED(draw_relation, relation, "n_group");
	REFUSED(draw_control, control, "point");
	control.by_time = false;
	control.has_drift = true;
	control.drift_since = 2;
	REFUSED(draw_control, control, "drift_since");
	REFUSED(draw_calendar, calendar, "cell");
	REFUSED(draw_dents, dents, "dent");
	REFUSED(draw_wall, wall, "n_layer");
}

static const struct CMUnitTest tests[] = {
	TEST(charts__are_well_formed_at_every_width),
	TEST(charts__stay_within_the_picture),
	TEST(charts__are_as_their_golden_files),
	TEST(charts__are_drawn_by_a_renderer),
	TEST(charts__show_a_script_as_text),
	TEST(charts__with_nothing_say_so),
	TEST(charts__with_one_of_each_and_no_words_are_whole),
	TEST(charts__with_five_hundred_equal_points_are_whole),
	TEST(charts__refuse_a_number_that_is_none),
	TEST(charts__refuse_what_is_not_there_or_out_of_order),
};

TEST_MAIN(tests)
