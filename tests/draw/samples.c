/* samples.c - one or more samples of every chart, all numbers invented. */
#include "samples.h"

#include "draw/calendar.h"
#include "draw/chances.h"
#include "draw/control.h"
#include "draw/dents.h"
#include "draw/front.h"
#include "draw/gain.h"
#include "draw/picture.h"
#include "draw/ratio.h"
#include "draw/relation.h"
#include "draw/specimens.h"
#include "draw/trace.h"
#include "draw/wall.h"

#include <math.h>
#include <stdio.h>

#define COUNT(list) (sizeof(list) / sizeof((list)[0]))

static enum err_code
sample_specimens(
	const struct draw_size *size, struct text *svg, struct err *err)
{
	static const struct draw_mix_row row[] = {
		{.label = "B: plain, 600 kg per m³",
			.is_baseline = true,
			.has_estimate = true,
			.estimate = {0.412, 0.351, 0.481}},
		{.label = "D: with 12 mm polypropylene fibre, mixed two "
			  "minutes "
			  "longer",
			.note = "1 of 6 broke at stripping",
			.has_estimate = true,
			.estimate = {0.563, 0.472, 0.668}},
		{.label = "F: hex mesh, one layer",
			.has_estimate = true,
			.estimate = {0.831, 0.655, 1.07}},
		{.label = "Q: not tested yet"},
	};
	static const struct draw_reading reading[] = {
		{.row = 0, .low = 0.38, .high = 0.42, .label = "B 01 piece 1"},
		{.row = 0, .low = 0.42, .high = 0.46, .label = "B 01 piece 2"},
		{.row = 0, .low = 0.34, .high = 0.38, .label = "B 02 piece 1"},
		{.row = 0,
			.low = 0.405,
			.high = 0.405,
			.label = "B 02 piece 2"},
		{.row = 1, .low = 0.54, .high = 0.58, .label = "D 01 piece 1"},
		{.row = 1, .low = 0.58, .high = 0.62, .label = "D 01 piece 2"},
		{.row = 1, .low = 0, .high = 0.22, .label = "D 01 piece 3"},
		{.row = 1,
			.low = 0.70,
			.high = 0.74,
			.is_left_out = true,
			.label = "D 02 piece 1"},
		{.row = 1,
			.low = 0.71,
			.high = 0.71,
			.is_left_out = true,
			.label = "D 02 piece 2"},
		{.row = 2,
			.low = 0.78,
			.high = INFINITY,
			.label = "F 01 piece 1"},
		{.row = 2, .low = 0.82, .high = 0.90, .label = "F 01 piece 2"},
		{.row = 2,
			.low = 1.02,
			.high = INFINITY,
			.label = "F 02 piece 1"},
	};
	struct draw_specimens chart = {
		.about = {"bending", "Bending strength, every test piece",
			NULL},
		.axis = {.name = "bending strength",
			.unit = "N/mm²",
			.from_zero = true},
		.row = row,
		.n_row = COUNT(row),
		.reading = reading,
		.n_reading = COUNT(reading),
		.has_wanted = true,
		.wanted = 0.5,
		.wanted_label = "the roof panels ask for 0.5",
	};

	return draw_specimens(&chart, size, svg, err);
}

static enum err_code
sample_specimens_hostile(
	const struct draw_size *size, struct text *svg, struct err *err)
{
	static const struct draw_mix_row row[] = {
		{.label = "<script>alert('B & \"D\"')</script>",
			.note = "]]></svg>",
			.has_estimate = true,
			.estimate = {7, 7, 7}},
		{.label = "bytes \xFF\xFE and \x01 control \xC3( cut \xE2\x82",
			.has_estimate = true,
			.estimate = {7, 7, 7}},
		{.label = "Averyveryverylongnamewithoutanyspacewhatsoeverthatmu"
			  "st"
			  "bebrokensomewhereorelseitwouldrunacrosseverythingtha"
			  "t"
			  "standsbesideitandthatgoesonforeverandeverandever"},
		{.label = "Špaček — pěnobeton, 泡沫混凝土"},
		{.label = NULL},
	};
	static const struct draw_reading reading[] = {
		{.row = 0, .low = 7, .high = 7, .label = "<b>&amp;"},
		{.row = 1, .low = 7, .high = 7},
	};
	struct draw_specimens chart = {
		.about = {"1\"><x", "Title </title> & <b>",
			"Desc ]]> \x02 <!--"},
		.axis = {.name = "force <&>", .unit = "\"N\""},
		.row = row,
		.n_row = COUNT(row),
		.reading = reading,
		.n_reading = COUNT(reading),
	};

	return draw_specimens(&chart, size, svg, err);
}

static enum err_code
sample_specimens_many(
	const struct draw_size *size, struct text *svg, struct err *err)
{
	static struct draw_mix_row row[500];
	static struct draw_reading reading[3000];
	static char label[500][16];
	struct draw_specimens chart = {
		.about = {"many", "Five hundred mixes", NULL},
		.axis = {.name = "crushing strength",
			.unit = "N/mm²",
			.is_log = true},
		.row = row,
		.n_row = COUNT(row),
		.reading = reading,
		.n_reading = COUNT(reading),
	};

	for (size_t i = 0; i < COUNT(row); i++) {
		double middle = 2 + (double)(i * 37 % 101) / 20;

		snprintf(label[i], sizeof(label[i]), "mix %zu", i);
		row[i] = (struct draw_mix_row){.label = label[i],
			.has_estimate = true,
			.estimate = {middle, middle * .8, middle * 1.3}};
	}
	for (size_t i = 0; i < COUNT(reading); i++) {
		double value = 2 + (double)(i * 53 % 97) / 18;

		reading[i] = (struct draw_reading){.row = i % COUNT(row),
			.low = value,
			.high = i % 7 == 0 ? (double)INFINITY : value};
	}
	return draw_specimens(&chart, size, svg, err);
}

static enum err_code
sample_ratio(const struct draw_size *size, struct text *svg, struct err *err)
{
	static const struct draw_ratio_row row[] = {
		{"D: with 12 mm polypropylene fibre", {1.37, 1.12, 1.68},
			"99 in 100 that it is stronger", true},
		{"F: hex mesh, one layer", {2.02, 1.51, 2.71},
			"over 99 in 100 that it is stronger", true},
		{"P: finer foam", {1.04, 0.82, 1.31},
			"62 in 100 that it is stronger: cannot tell", false},
		{"Q: less agent", {0.71, 0.55, 0.93},
			"2 in 100 that it is stronger", true},
	};
	struct draw_ratio chart = {
		.about = {"ratio", "Bending strength against the baseline",
			NULL},
		.axis_name = "bending strength, times the baseline",
		.baseline = "B: plain, 600",
		.row = row,
		.n_row = COUNT(row)};

	return draw_ratio(&chart, size, svg, err);
}

static enum err_code
sample_relation(const struct draw_size *size, struct text *svg, struct err *err)
{
	static struct draw_relation_knot knot[25];
	static const struct draw_relation_point point[] = {
		{412, 0.92, 0.92, 0, "B 01 piece 1"},
		{438, 1.1, 1.1, 0, "B 01 piece 2"},
		{455, 1.02, 1.02, 0, "B 02 piece 1"},
		{505, 1.61, 1.61, 1, "D 01 piece 1"},
		{531, 1.72, 1.72, 1, "D 01 piece 2"},
		{548, 2.2, INFINITY, 1, "D 02 piece 1"},
		{602, 2.31, 2.31, 2, "F 01 piece 1"},
		{640, 2.6, 2.9, 2, "F 01 piece 2"},
		{655, 3.21, 3.21, 2, "F 02 piece 1"},
		{470, 0, 0.8, 0, "B 03 piece 1"},
	};
	static const char *const group[] = {
		"B: plain", "D: with fibre", "F: heavier"};
	struct draw_relation chart = {
		.about = {"relation", "Crushing strength against dry weight",
			NULL},
		.x = {.name = "dry weight", .unit = "kg/m³"},
		.y = {.name = "crushing strength", .unit = "N/mm²"},
		.point = point,
		.n_point = COUNT(point),
		.knot = knot,
		.n_knot = COUNT(knot),
		.group = group,
		.n_group = COUNT(group)};

	for (size_t i = 0; i < COUNT(knot); i++) {
		double x = 400 + 11.0 * (double)i;
		double y = 2 * pow(x / 565, 2.5);
		double half = 0.08 + fabs(x - 520) / 900;

		knot[i] = (struct draw_relation_knot){
			x, {y, y * (1 - half), y * (1 + half)}};
	}
	return draw_relation(&chart, size, svg, err);
}

static enum err_code
sample_chances(const struct draw_size *size, struct text *svg, struct err *err)
{
	static const struct draw_chance floor[] = {
		{.label = "B: plain, 600",
			.chance = 0.87,
			.is_chosen = true,
			.has_range = true,
			.low = 0.78,
			.high = 0.93},
		{.label = "D: with 12 mm polypropylene fibre", .chance = 0.91},
		{.label = "F: hex mesh", .chance = 0.995},
	};
	static const struct draw_chance roof[] = {
		{.label = "B: plain, 600", .chance = 0.004},
		{.label = "D: with 12 mm polypropylene fibre",
			.chance = 0.36,
			.has_range = true,
			.low = 0.22,
			.high = 0.52},
		{.label = "F: hex mesh", .chance = 0.96, .is_chosen = true},
	};
	static const struct draw_chance_part part[] = {
		{"Floor slab", floor, COUNT(floor)},
		{"Roof panels", roof, COUNT(roof)},
	};
	struct draw_chances chart = {
		.about = {"chances", "Which mix does everything a part asks",
			NULL},
		.part = part,
		.n_part = COUNT(part),
		.has_wanted = true,
		.wanted = 0.9,
		.wanted_label = "asked for: 90 %"};

	return draw_chances(&chart, size, svg, err);
}

static enum err_code
sample_front(const struct draw_size *size, struct text *svg, struct err *err)
{
	static const struct draw_front_point point[] = {
		{.label = "B plain",
			.x = 62,
			.y = 1.02,
			.has_range = true,
			.x_low = 60,
			.x_high = 64,
			.y_low = 0.9,
			.y_high = 1.15},
		{.label = "D fibre",
			.x = 74,
			.y = 1.61,
			.has_range = true,
			.x_low = 71,
			.x_high = 77,
			.y_low = 1.4,
			.y_high = 1.8,
			.is_chosen = true},
		{.label = "F mesh", .x = 96, .y = 2.31},
		{.label = "P finer foam", .x = 75, .y = 1.18},
		{.label = "Q less agent", .x = 77, .y = 1.15},
		{.label = "R more cement", .x = 98, .y = 1.9},
	};
	struct draw_front chart = {
		.about = {"front", "Strength against cost", NULL},
		.x = {.name = "cost of materials", .unit = "per m³"},
		.y = {.name = "crushing strength", .unit = "N/mm²"},
		.x_more_is_better = false,
		.y_more_is_better = true,
		.point = point,
		.n_point = COUNT(point)};

	return draw_front(&chart, size, svg, err);
}

static enum err_code
sample_control(const struct draw_size *size, struct text *svg, struct err *err)
{
	static struct draw_control_point point[40];
	static char label[40][8];
	static const struct draw_control_lot lot[] = {
		{12, "new drum of agent"}, {26, "new pallet of cement"}};
	static const int wobble[] = {3, -5, 8, -2, 4, -9, 1, 6, -4, 2};
	struct draw_control chart = {
		.about = {"control", "Wet weight, batch by batch", NULL},
		.y = {.name = "wet weight", .unit = "kg/m³"},
		.point = point,
		.n_point = COUNT(point),
		.has_range = true,
		.centre = 722,
		.low = 704,
		.high = 740,
		.n_base = 12,
		.has_wanted_range = true,
		.wanted_low = 690,
		.wanted_high = 750,
		.lot = lot,
		.n_lot = COUNT(lot),
		.has_drift = true,
		.drift_since = 28};

	for (size_t i = 0; i < COUNT(point); i++) {
		double value = 722 + wobble[i * 7 % COUNT(wobble)];

		if (i >= 28)
			value += 2.1 * (double)(i - 28);
		snprintf(label[i], sizeof(label[i]), "B%03zu", i + 1);
		point[i] = (struct draw_control_point){.label = label[i],
			.value = value,
			.rule = value > 740 ? "one point more than 3 spreads "
					      "from the centre"
					    : NULL};
	}
	point[9].value = 699;
	point[9].rule = "one point more than 3 spreads from the centre";
	point[5].is_left_out = true;
	return draw_control(&chart, size, svg, err);
}

static enum err_code
sample_wall(const struct draw_size *size, struct text *svg, struct err *err)
{
	static const struct draw_layer layer[] = {
		{"lime plaster", 15, NULL, DRAW_PLASTER},
		{"foamed concrete, 500 kg per m³", 300, NULL, DRAW_FOAMED},
		{"air gap", 25, NULL, DRAW_AIR},
		{"membrane", 0.4, "0.4 mm", DRAW_OTHER},
		{"brick", 102, NULL, DRAW_MASONRY},
	};
	static const double face[] = {18.6, 18.2, 1.4, -1.1, -1.2, -4.3};
	struct draw_wall chart = {
		.about = {"wall", "Outside wall in January", NULL},
		.thickness_unit = "mm",
		.layer = layer,
		.n_layer = COUNT(layer),
		.has_temperature = true,
		.inside_air = 20,
		.outside_air = -5,
		.face = face,
		.has_dew_point = true,
		.dew_point = 9.3};

	return draw_wall(&chart, size, svg, err);
}

static enum err_code
sample_calendar(const struct draw_size *size, struct text *svg, struct err *err)
{
	static const char *const day[] = {"Mon 2 June", "Tue 3 June",
		"Wed 4 June", "Thu 5 June", "Fri 6 June"};
	static const char *const column[] = {
		"Form A, north wall", "Form B, south wall", "Panels"};
	static const struct draw_cell cell[] = {
		{0, 0, DRAW_DEED_POUR, "lift 1: 0.82 m³, 5 batches"},
		{0, 1, DRAW_DEED_POUR, "lift 1: 0.82 m³, 5 batches"},
		{1, 0, DRAW_DEED_CURE, "keep damp"},
		{1, 1, DRAW_DEED_CURE, "keep damp"},
		{1, 2, DRAW_DEED_POUR, "panels 1 to 4: 0.3 m³, 2 batches"},
		{2, 0, DRAW_DEED_STRIP, "strike, move up"},
		{2, 0, DRAW_DEED_POUR, "lift 2: 0.82 m³, 5 batches"},
		{4, 1, DRAW_DEED_OTHER,
			"engineer comes to look at the ring beam"},
		{4, 2, DRAW_DEED_STRIP, "strip panels 1 to 4"},
	};
	struct draw_calendar chart = {
		.about = {"calendar", "Pours of the first week", NULL},
		.day = day,
		.n_day = COUNT(day),
		.column = column,
		.n_column = COUNT(column),
		.cell = cell,
		.n_cell = COUNT(cell)};

	return draw_calendar(&chart, size, svg, err);
}

static enum err_code
sample_gain(const struct draw_size *size, struct text *svg, struct err *err)
{
	static const struct draw_gain_point point[] = {
		{"nothing more", 0, {0, 0, 0}, false},
		{"1 more batch of D", 22, {61, 48, 74}, false},
		{"2 more batches of D", 44, {118, 101, 135}, false},
		{"2 of D, 1 of F", 66, {149, 130, 168}, true},
		{"3 of D, 2 of F", 110, {171, 149, 193}, false},
		{"4 of D, 4 of F", 176, {182, 160, 204}, false},
	};
	struct draw_gain chart = {
		.about = {"gain", "What more batches would save", NULL},
		.cost = {.name = "cost of the batches", .unit = "money"},
		.gain = {.name = "saved on the house, on average",
			.unit = "money"},
		.point = point,
		.n_point = COUNT(point),
		.has_even = true};

	return draw_gain(&chart, size, svg, err);
}

static enum err_code
sample_dents(const struct draw_size *size, struct text *svg, struct err *err)
{
	static const struct draw_dent dent[] = {
		{62, 71, 38, false, true, "first blow, 12 mm deep"},
		{181, 84, 44, true, true, "second blow"},
		{122, 108, 0, false, false, "third blow, not measured"},
	};
	struct draw_dents chart = {
		.about = {"dents", "Where the bar fell on D 01 piece 2", NULL},
		.width = 228.6,
		.height = 152.4,
		.unit = "mm",
		.dent = dent,
		.n_dent = COUNT(dent)};

	return draw_dents(&chart, size, svg, err);
}

/* A beam that gives way, with a silence of the logger and hostile words. */
static enum err_code
sample_trace(const struct draw_size *size, struct text *svg, struct err *err)
{
	enum { POINTS = 200 };
	static struct draw_trace_point point[POINTS];
	static const struct draw_trace_level level[] = {
		{.y = 131.4, .label = "highest load 131.4 N"},
		{.y = 121.7,
			.label = "<first> \"crack\" & 121.7 N",
			.is_warning = true}};
	struct draw_trace chart = {
		.about = {"trace", "Trace <K7MD> load 1", NULL},
		.x = {.name = "time", .unit = "s"},
		.y = {.name = "load", .unit = "N"},
		.point = point,
		.n_point = POINTS,
		.level = level,
		.n_level = COUNT(level),
		.has_band = true};

	for (size_t i = 0; i < POINTS; i++) {
		double t = (double)i * .37;
		double y = i < 150 ? .92 * (double)i : 60 + 7 * sin(t);

		point[i] = (struct draw_trace_point){.x = t + (i > 80 ? 9 : 0),
			.mean = y,
			.low = y - 2.3,
			.high = y + 3.1,
			.begins = i == 81};
	}
	return draw_trace(&chart, size, svg, err);
}

#define PICTURE_SAMPLE(kind, word, says)                                    \
	static enum err_code sample_of_##kind(const struct draw_size *size, \
		struct text *svg, struct err *err)                          \
	{                                                                   \
		return draw_picture(kind, NULL,                             \
			size != NULL ? size->theme : DRAW_THEME_AUTO, svg,  \
			err);                                               \
	}
DRAW_PICTURE_LIST(PICTURE_SAMPLE)
#define PICTURE_ROW(kind, word, says) {"picture-" word, sample_of_##kind},

const struct sample *
samples(size_t *n)
{
	static const struct sample all[] = {{"specimens", sample_specimens},
		{"specimens-hostile", sample_specimens_hostile},
		{"specimens-many", sample_specimens_many},
		{"ratio", sample_ratio}, {"relation", sample_relation},
		{"chances", sample_chances}, {"front", sample_front},
		{"control", sample_control}, {"wall", sample_wall},
		{"calendar", sample_calendar}, {"gain", sample_gain},
		{"dents", sample_dents}, {"trace", sample_trace},
		DRAW_PICTURE_LIST(PICTURE_ROW)};

	*n = COUNT(all);
	return all;
}
