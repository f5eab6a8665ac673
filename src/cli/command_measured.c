/* command_measured.c - moisture, soak, rise, drying, shrinkage, screw, frost,
 * hotbox: a reading, and what it comes to. */
#include "cli/fields.h"
#include "cli/table.h"
#include "cli/told.h"

#include "core/date.h"
#include "work/drying.h"
#include "work/measured.h"
#include "work/shelf.h"

#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])
#define AT(member) offsetof(struct work_measured_ask, member)

/* Every option of the family; a command lists those that it takes. */
static const struct field fields[] = {
	{"--on", FIELD_DATE, UNIT_NUMBER, AT(on)},
	{"--remark", FIELD_TEXT, UNIT_NUMBER, AT(remark)},
	{"--code", FIELD_TEXT, UNIT_NUMBER, AT(code)},
	{"--mass", FIELD_MAYBE, UNIT_MASS, AT(mass_kg)},
	{"--dry", FIELD_MAYBE, UNIT_MASS, AT(dry_kg)},
	{"--scale-step", FIELD_MAYBE, UNIT_MASS, AT(mass_step_kg)},
	{"--time", FIELD_MAYBE, UNIT_TIME, AT(after_s)},
	{"--height", FIELD_MAYBE, UNIT_LENGTH, AT(height_m)},
	{"--height-step", FIELD_MAYBE, UNIT_LENGTH, AT(height_step_m)},
	{"--face", FIELD_MAYBE, UNIT_AREA, AT(face_m2)},
	{"--wanted", FIELD_MAYBE, UNIT_RATIO, AT(wanted_ratio)},
	{"--length", FIELD_MAYBE, UNIT_LENGTH, AT(length_m)},
	{"--step", FIELD_MAYBE, UNIT_LENGTH, AT(step_m)},
	{"--temperature", FIELD_MAYBE, UNIT_TEMPERATURE, AT(degc)},
	{"--held", FIELD_MAYBE, UNIT_FORCE, AT(held_n)},
	{"--out", FIELD_MAYBE, UNIT_FORCE, AT(broke_n)},
	{"--pull-step", FIELD_MAYBE, UNIT_FORCE, AT(force_step_n)},
	{"--diameter", FIELD_MAYBE, UNIT_LENGTH, AT(diameter_m)},
	{"--depth", FIELD_MAYBE, UNIT_LENGTH, AT(depth_m)},
	{"--cycles", FIELD_WHOLE, UNIT_NUMBER, AT(cycles)},
	{"--before", FIELD_MAYBE, UNIT_MASS, AT(before_kg)},
	{"--after", FIELD_MAYBE, UNIT_MASS, AT(after_kg)},
	{"--size-before", FIELD_MAYBE, UNIT_LENGTH, AT(before_m)},
	{"--size-after", FIELD_MAYBE, UNIT_LENGTH, AT(after_m)},
	{"--size-step", FIELD_MAYBE, UNIT_LENGTH, AT(length_step_m)},
	{"--power", FIELD_MAYBE, UNIT_POWER, AT(power_w)},
	{"--leak", FIELD_MAYBE, UNIT_POWER, AT(leak_w)},
	{"--power-step", FIELD_MAYBE, UNIT_POWER, AT(power_step_w)},
	{"--area", FIELD_MAYBE, UNIT_AREA, AT(area_m2)},
	{"--thickness", FIELD_MAYBE, UNIT_LENGTH, AT(thickness_m)},
	{"--warm", FIELD_MAYBE, UNIT_TEMPERATURE, AT(warm_degc)},
	{"--cold", FIELD_MAYBE, UNIT_TEMPERATURE, AT(cold_degc)},
	{"--temperature-step", FIELD_MAYBE, UNIT_TEMPERATURE_DIFFERENCE,
		AT(temperature_step_k)},
};

#define ON                                                \
	{                                                 \
		"--on", "DATE", "when it was read", false \
	}
#define REMARK                                        \
	{                                             \
		"--remark", "TEXT", "a remark", false \
	}
#define SCALE_STEP                                                          \
	{                                                                   \
		"--scale-step", "MASS", "what the scale is read to (10 g)", \
			false                                               \
	}

static enum err_code
record(const struct invocation *in, const char *kind, struct err *err)
{
	struct work_measured_ask ask = {.kind = kind};
	struct work_test_told told;
	struct desk desk;
	enum err_code code;

	TRY(fields_read(in, fields, COUNT(fields), &ask, err));
	ask.piece = in->word[1];
	ask.typed = fields_typed(in);
	if (ask.typed == NULL)
		return err_memory(err);
	TRY(desk_open(in->word[0], true, in, &desk, err));
	code = work_measured_put(&desk, in->arena, &ask, &told, err);
	desk_close(&desk);
	return code == ERR_NONE ? told_print(in, &told, err) : code;
}

/* ---- moisture ---- */

static const struct command_option moisture_options[] = {
	{"--mass", "MASS", "what it weighs as it is", false},
	{"--dry", "MASS", "what the same weighs from the oven", false},
	SCALE_STEP, {"--code", "CODE", "tells several apart (1)", false}, ON,
	REMARK, {0}};

static enum err_code
run_moisture(const struct invocation *in, struct err *err)
{
	return record(in, "moisture", err);
}

const struct command command_moisture = {
	.name = "moisture",
	.line = "records how wet a piece is, by drying it or a lump of it",
	.help = "  foamwright moisture BOOK PIECE --mass MASS --dry MASS "
		"[OPTIONS]\n\nWeigh it or a lump of it at once, dry at 100 to "
		"105 degC until it loses no\nmore, weigh again. The dry weight "
		"of a piece that was weighed as tested goes\nby it.\n",
	.example = "foamwright moisture site.book K7MD --mass \"412 g\" --dry "
		   "\"367 g\" --scale-step \"1 g\"",
	.least_words = 2,
	.most_words = 2,
	.options = moisture_options,
	.run = run_moisture,
	.writes = true,
};

/* ---- soak ---- */

static const struct command_option soak_options[] = {
	{"--time", "TIME", "it was held under water", false},
	{"--mass", "MASS", "what it weighs then, wiped", false},
	{"--dry", "MASS", "what it weighed dry, once", false}, SCALE_STEP, ON,
	REMARK, {0}};

static enum err_code
run_soak(const struct invocation *in, struct err *err)
{
	return record(in, "soaking", err);
}

const struct command command_soak = {
	.name = "soak",
	.line = "records the water a piece takes up, held under water",
	.help = "  foamwright soak BOOK PIECE --time TIME --mass MASS "
		"[OPTIONS]\n\nOne line for each time; what stands nearest to "
		"24 h is compared. By volume,\nsince by mass a light mix looks "
		"worse than it is.\n",
	.example = "foamwright soak site.book K7MD --time \"24 h\" --mass "
		   "\"4.31 kg\" --dry \"3.12 kg\"",
	.least_words = 2,
	.most_words = 2,
	.options = soak_options,
	.run = run_soak,
	.writes = true,
};

/* ---- rise ---- */

static const struct command_option rise_options[] = {
	{"--time", "TIME", "it has stood in the water; 0 h before", false},
	{"--mass", "MASS", "what it weighs then, wiped", false},
	{"--height", "LENGTH", "or how high its wet edge stands", false},
	{"--face", "AREA", "of the face in the water, once", false}, SCALE_STEP,
	{"--height-step", "LENGTH", "what the height is read to (1 mm)", false},
	ON, REMARK, {0}};

static enum err_code
run_rise(const struct invocation *in, struct err *err)
{
	return record(in, "rise", err);
}

const struct command command_rise = {
	.name = "rise",
	.line = "records the water a piece draws up, standing in it",
	.help = "  foamwright rise BOOK PIECE --time TIME --mass MASS "
		"[OPTIONS]\n\nDry it, stand it 5 to 10 mm deep, weigh at 0, 10 "
		"min, 1 h, 4 h, 24 h: a line\neach. Three weighings give the "
		"coefficient.\n",
	.example = "foamwright rise site.book K7MD --time \"10 min\" --mass "
		   "\"618.9 g\" --face \"101 cm2\" --scale-step \"0.1 g\"",
	.least_words = 2,
	.most_words = 2,
	.options = rise_options,
	.run = run_rise,
	.writes = true,
};

/* ---- shrinkage ---- */

static const struct command_option shrinkage_options[] = {
	{"--length", "LENGTH", "between the studs", false},
	{"--step", "LENGTH", "what the calliper is read to (0.02 mm)", false},
	{"--temperature", "TEMPERATURE", "of the bar", false},
	{"--code", "CODE", "tells several of a day apart (the day)", false}, ON,
	REMARK, {0}};

static enum err_code
run_shrinkage(const struct invocation *in, struct err *err)
{
	return record(in, "shrinkage", err);
}

const struct command command_shrinkage = {
	.name = "shrinkage",
	.line = "records the length of a drying bar, between two studs",
	.help = "  foamwright shrinkage BOOK PIECE --length LENGTH [OPTIONS]\n"
		"\nThe first is what the later ones are measured from; the "
		"last is the result.\nThe last drying months matter most: go "
		"on to 90 days.\n",
	.example = "foamwright shrinkage site.book K7MD --length \"499.18 mm\" "
		   "--temperature \"17 degC\"",
	.least_words = 2,
	.most_words = 2,
	.options = shrinkage_options,
	.run = run_shrinkage,
	.writes = true,
};

/* ---- screw ---- */

static const struct command_option screw_options[] = {
	{"--held", "FORCE", "the last pull that it held", false},
	{"--out", "FORCE", "the one that pulled it out", false},
	{"--diameter", "LENGTH", "of the screw", false},
	{"--depth", "LENGTH", "of its thread in the piece", false},
	{"--pull-step", "FORCE", "what the pull is read to (5 N)", false},
	{"--code", "CODE", "which screw of the piece (the next)", false}, ON,
	REMARK, {0}};

static enum err_code
run_screw(const struct invocation *in, struct err *err)
{
	return record(in, "screw", err);
}

const struct command command_screw = {
	.name = "screw",
	.line = "records the force that pulled a screw out",
	.help = "  foamwright screw BOOK PIECE --held FORCE --out FORCE "
		"[OPTIONS]\n\nFive of one size, one line each: the weakest "
		"counts. 1 kgf is 9.81 N.\n",
	.example = "foamwright screw site.book K7MD --held \"310 N\" --out "
		   "\"340 N\" --diameter \"5 mm\" --depth \"47 mm\"",
	.least_words = 2,
	.most_words = 2,
	.options = screw_options,
	.run = run_screw,
	.writes = true,
};

/* ---- frost ---- */

static const struct command_option frost_options[] = {
	{"--cycles", "N", "of freezing and thawing", false},
	{"--before", "MASS", "before the first", false},
	{"--after", "MASS", "after them, as wet or dry as before", false},
	SCALE_STEP, {"--size-before", "LENGTH", "one size of it before", false},
	{"--size-after", "LENGTH", "the same after", false},
	{"--size-step", "LENGTH", "what it is read to (0.5 mm)", false}, ON,
	REMARK, {0}};

static enum err_code
run_frost(const struct invocation *in, struct err *err)
{
	return record(in, "frost", err);
}

const struct command command_frost = {
	.name = "frost",
	.line = "records what freezing and thawing took away",
	.help = "  foamwright frost BOOK PIECE --cycles N --before MASS "
		"--after MASS [OPTIONS]\n\n12 h in the freezer, 12 h in 10 mm "
		"of water is a cycle (common practice).\n",
	.example = "foamwright frost site.book K7MD --cycles 25 --before "
		   "\"817 g\" --after \"803 g\" --scale-step \"1 g\"",
	.least_words = 2,
	.most_words = 2,
	.options = frost_options,
	.run = run_frost,
	.writes = true,
};

/* ---- hot-box ---- */

static const struct command_option hot_box_options[] = {
	{"--power", "POWER", "of the heater, steady", false},
	{"--leak", "POWER", "of it lost elsewhere (0)", false},
	{"--warm", "DEG", "of the slab's warm face", false},
	{"--cold", "DEG", "of its cold face", false},
	{"--area", "AREA", "of the slab (width x length)", false},
	{"--thickness", "LENGTH", "of the slab (depth)", false},
	{"--power-step", "POWER", "what the watts are read to (1 W)", false},
	{"--temperature-step", "KELVIN",
		"what the thermometers are read to (0.5 K)", false},
	{"--code", "CODE", "tells several apart (1)", false}, ON, REMARK, {0}};

static enum err_code
run_hot_box(const struct invocation *in, struct err *err)
{
	return record(in, "hot box", err);
}

const struct command command_hotbox = {
	.name = "hotbox",
	.line = "records the heat a slab lets through, from a heated box",
	.help = "  foamwright hotbox BOOK PIECE --power POWER --warm DEG "
		"--cold DEG [OPTIONS]\n\nRead once it has stood "
		"steady for a day. Measure the leak with a slab of known\n"
		"resistance in its place.\n",
	.example = "foamwright hotbox site.book K7MD --power \"23.7 W\" "
		   "--leak \"4.1 W\" --warm \"41.6 degC\" --cold \"10.2 degC\"",
	.least_words = 2,
	.most_words = 2,
	.options = hot_box_options,
	.run = run_hot_box,
	.writes = true,
};

/* ---- drying ---- */

static const struct command_option drying_options[] = {
	{"--mass", "MASS", "what it weighs on that day", false},
	{"--wanted", "SHARE", "moisture that the plaster takes, once", false},
	{"--dry", "MASS", "of the same from the oven, if known", false},
	SCALE_STEP,
	{"--code", "CODE", "tells several of a day apart (the day)", false}, ON,
	REMARK, {0}};

static const char *
state_word(enum work_drying_state state)
{
	switch (state) {
	case WORK_DRYING_UNASKED:
		return "nothing wanted yet";
	case WORK_DRYING_FEW:
		return "too few weighings";
	case WORK_DRYING_NEVER:
		return "never in that air";
	case WORK_DRYING_UNSURE:
		return "cannot tell yet";
	case WORK_DRYING_COMING:
		return "coming";
	case WORK_DRYING_DRY:
		return "dry";
	}
	return "";
}

static void
json_day(struct jsonout *json, const char *key, int64_t at_s)
{
	char day[DATE_TEXT_MAX];

	date_write_day(at_s, 0, day);
	jsonout_key_string(json, key, day);
}

static enum err_code
print_dryings_json(const struct invocation *in, const struct work_bench *bench,
	const struct work_drying *d, size_t n, struct err *err)
{
	struct text text;
	struct jsonout json;

	json_start(in, &text, &json);
	jsonout_key(&json, "drying");
	jsonout_open_array(&json);
	for (size_t i = 0; i < n; i++) {
		bool has_day = d[i].state == WORK_DRYING_COMING;

		jsonout_open_object(&json);
		jsonout_key_string(
			&json, "piece", bench->site.specimen[d[i].piece].code);
		jsonout_key_string(&json, "part", d[i].part);
		jsonout_key_string(&json, "state", state_word(d[i].state));
		jsonout_key_count(&json, "weighings", d[i].n_weighing);
		jsonout_key_quantity(&json, "mass_now", d[i].last_kg, "kg");
		if (d[i].wanted_ratio > 0)
			jsonout_key_number(&json, "wanted", d[i].wanted_ratio);
		if (has_day || d[i].state == WORK_DRYING_DRY)
			jsonout_key_number(
				&json, "moisture", d[i].moisture_now_ratio);
		if (has_day) {
			json_day(&json, "dry_enough_on", d[i].when_s);
			json_day(&json, "not_before", d[i].early_s);
			json_day(&json, "not_after", d[i].late_s);
		}
		jsonout_close_object(&json);
	}
	jsonout_close_array(&json);
	return json_finish(&json, err);
}

/* Without a weighing: what is known of that piece, or of all. */
static enum err_code
show_drying(const struct invocation *in, struct err *err)
{
	const struct work_drying *d = NULL;
	struct work_bench bench;
	struct desk desk;
	enum err_code code;
	size_t n = 0;

	TRY(desk_open(in->word[0], false, in, &desk, err));
	code = work_bench_read(&desk, in->arena, &bench, err);
	if (code == ERR_NONE)
		code = work_drying_all(in->arena, &bench, &d, &n, err);
	desk_close(&desk);
	if (code != ERR_NONE)
		return code;
	if (in->json)
		return print_dryings_json(in, &bench, d, n, err);
	for (size_t i = 0; i < n; i++)
		print_folded(
			stdout, 0, work_drying_words(in->arena, &bench, &d[i]));
	if (n == 0)
		(void)puts("No block is drying: \"foamwright drying BOOK PIECE "
			   "--mass MASS\" begins one.");
	return ERR_NONE;
}

static enum err_code
run_drying(const struct invocation *in, struct err *err)
{
	if (in->n_word == 1)
		return show_drying(in, err);
	return record(in, "drying", err);
}

const struct command command_drying = {
	.name = "drying",
	.line = "weighs a block that dries, and says when to plaster",
	.help = "  foamwright drying BOOK [PIECE --mass MASS [OPTIONS]]\n\n"
		"A block as thick as the wall, with the same faces open and "
		"the others sealed,\nbeside the wall, weighed weekly. Without "
		"a piece: what is known of all.\n",
	.example = "foamwright drying site.book K7MD --mass \"4.117 kg\" "
		   "--wanted \"8 %\"",
	.least_words = 1,
	.most_words = 2,
	.options = drying_options,
	.run = run_drying,
	.writes = true,
};
