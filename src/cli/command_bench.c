/* command_bench.c - drop, crush, weigh: a reading, and what it comes to. */
#include "cli/fields.h"
#include "cli/table.h"
#include "cli/told.h"

#include "work/shelf.h"

#include <math.h>
#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])
#define AT(member) offsetof(struct work_test_ask, member)
#define DROP(member) AT(reading.drop.member)
#define CRUSH(member) AT(reading.crushing.member)

/* ---- what it comes to ---- */

static enum err_code
print_told_json(const struct invocation *in, const struct work_test_told *told,
	struct err *err)
{
	struct text text;
	struct jsonout json;

	text_init(&text, in->arena);
	jsonout_init(&json, &text);
	jsonout_open_object(&json);
	jsonout_key_string(
		&json, "piece", told->bench.site.specimen[told->piece].code);
	if (told->age_s.has)
		jsonout_key_quantity(&json, "age", told->age_s.value, "s");
	jsonout_key(&json, "sentences");
	jsonout_open_array(&json);
	for (size_t i = 0; i < told->n_sentence; i++)
		jsonout_string(&json, told->sentence[i]);
	jsonout_close_array(&json);
	jsonout_close_object(&json);
	if (jsonout_failed(&json))
		return err_memory(err);
	(void)puts(text.bytes);
	return ERR_NONE;
}

enum err_code
told_print(const struct invocation *in, const struct work_test_told *told,
	struct err *err)
{
	const struct work_site *s = &told->bench.site;
	size_t batch = s->specimen_batch[told->piece];

	if (in->json)
		return print_told_json(in, told, err);
	(void)printf("%s, mix %s", s->specimen[told->piece].code,
		s->mix[s->batch_mix[batch]].code);
	if (told->age_s.has)
		(void)printf(", %.0f day%s old", told->age_s.value / work_day_s,
			round(told->age_s.value / work_day_s) == 1 ? "" : "s");
	(void)puts(":");
	for (size_t i = 0; i < told->n_sentence; i++)
		print_folded(stdout, 0, told->sentence[i]);
	return ERR_NONE;
}

static enum err_code
record(const struct invocation *in, struct work_test_ask *ask, struct err *err)
{
	struct work_test_told told;
	struct desk desk;
	enum err_code code;

	ask->piece = in->word[1];
	ask->typed = fields_typed(in);
	if (ask->typed == NULL)
		return err_memory(err);
	TRY(desk_open(in->word[0], true, in, &desk, err));
	code = work_test_put(&desk, in->arena, ask, &told, err);
	desk_close(&desk);
	return code == ERR_NONE ? told_print(in, &told, err) : code;
}

/* ---- drop ---- */

static const struct field drop_fields[] = {
	{"--rig", FIELD_TEXT, UNIT_NUMBER, AT(rig)},
	{"--on", FIELD_DATE, UNIT_NUMBER, AT(on)},
	{"--remark", FIELD_TEXT, UNIT_NUMBER, AT(reading.remark)},
	{"--code", FIELD_TEXT, UNIT_NUMBER, AT(reading.code)},
	{"--place", FIELD_TEXT, UNIT_NUMBER, DROP(place)},
	{"--tip", FIELD_TEXT, UNIT_NUMBER, DROP(tip)},
	{"--bar", FIELD_MAYBE, UNIT_MASS, DROP(bar_kg)},
	{"--from", FIELD_MAYBE, UNIT_LENGTH, DROP(height_m)},
	{"--tip-diameter", FIELD_MAYBE, UNIT_LENGTH, DROP(tip_diameter_m)},
	{"--tip-angle", FIELD_MAYBE, UNIT_ANGLE, DROP(tip_angle_rad)},
	{"--tube-loss", FIELD_MAYBE, UNIT_RATIO, DROP(tube_loss_ratio)},
	{"--dent", FIELD_MAYBE, UNIT_LENGTH, DROP(dent_m)},
	{"--dent-step", FIELD_MAYBE, UNIT_LENGTH, DROP(dent_step_m)},
	{"--blows", FIELD_WHOLE, UNIT_NUMBER, DROP(blows)},
	{"--from-edge", FIELD_MAYBE, UNIT_LENGTH, DROP(from_edge_m)},
	{"--thickness", FIELD_MAYBE, UNIT_LENGTH, AT(depth_m)},
	{"--mass", FIELD_MAYBE, UNIT_MASS, AT(mass_kg)},
};

static const struct command_option drop_options[] = {
	{"--rig", "RIG", "on that rig, which says what you do not", false},
	{"--place", "PLACE", "centre, edge or corner", false},
	{"--dent", "LENGTH", "how deep, from the face and not from the rim",
		false},
	{"--dent-step", "LENGTH", "what that is read to (0.5 mm)", false},
	{"--through", NULL, "it went through", false},
	{"--cracked", NULL, "it cracked", false},
	{"--blows", "N", "of how many on this place that was the last", false},
	{"--bar", "MASS", "of what fell", false},
	{"--from", "LENGTH", "from the tip to the face", false},
	{"--tip", "TIP", "flat, ball or cone", false},
	{"--tip-diameter", "LENGTH", "of bar or ball", false},
	{"--tip-angle", "ANGLE", "of a cone, from side to side", false},
	{"--tube-loss", "SHARE", "of the energy, in the guide", false},
	{"--from-edge", "LENGTH", "from the nearest edge", false},
	{"--thickness", "LENGTH", "of the piece, as measured", false},
	{"--mass", "MASS", "of the piece, on that day", false},
	{"--code", "CODE", "tells several drops on one piece apart (place)",
		false},
	{"--on", "DATE", "when it was read", false},
	{"--remark", "TEXT", "a remark", false}, {0}};

static enum err_code
run_drop(const struct invocation *in, struct err *err)
{
	struct work_test_ask ask = {.reading = {.kind = "drop",
					    .remark = "",
					    .drop = {.place = "", .tip = ""}}};

	ask.reading.drop.went_through = invocation_has(in, "--through");
	ask.reading.drop.cracked = invocation_has(in, "--cracked");
	TRY(fields_read(in, drop_fields, COUNT(drop_fields), &ask, err));
	if (ask.reading.code == NULL)
		ask.reading.code = ask.reading.drop.place;
	return record(in, &ask, err);
}

const struct command command_drop = {
	.name = "drop",
	.line = "records the dent of a dropped bar, and what it comes to",
	.help = "  foamwright drop BOOK PIECE --place PLACE --dent LENGTH "
		"[OPTIONS]\n\nBed it on sand; never twice in one dent but with "
		"--blows; four tip diameters\nbetween hits. Goggles.\n",
	.example = "foamwright drop site.book K7MD --place centre --dent "
		   "\"18.5 mm\" --bar \"2.1 kg\" --from \"900 mm\" --tip ball "
		   "--tip-diameter \"25 mm\"",
	.least_words = 2,
	.most_words = 2,
	.options = drop_options,
	.run = run_drop,
	.writes = true,
};

/* ---- crush ---- */

static const struct field crush_fields[] = {
	{"--rig", FIELD_TEXT, UNIT_NUMBER, AT(rig)},
	{"--on", FIELD_DATE, UNIT_NUMBER, AT(on)},
	{"--remark", FIELD_TEXT, UNIT_NUMBER, AT(reading.remark)},
	{"--code", FIELD_TEXT, UNIT_NUMBER, AT(reading.code)},
	{"--gauge", FIELD_MAYBE, UNIT_STRESS, CRUSH(gauge_pa)},
	{"--gauge-zero", FIELD_MAYBE, UNIT_STRESS, CRUSH(gauge_zero_pa)},
	{"--gauge-step", FIELD_MAYBE, UNIT_STRESS, CRUSH(gauge_step_pa)},
	{"--ram", FIELD_MAYBE, UNIT_LENGTH, CRUSH(ram_diameter_m)},
	{"--load", FIELD_MAYBE, UNIT_FORCE, CRUSH(load_n)},
	{"--held", FIELD_MAYBE, UNIT_FORCE, CRUSH(held_n)},
	{"--broke", FIELD_MAYBE, UNIT_FORCE, CRUSH(broke_n)},
	{"--width", FIELD_MAYBE, UNIT_LENGTH, AT(width_m)},
	{"--depth", FIELD_MAYBE, UNIT_LENGTH, AT(depth_m)},
	{"--length", FIELD_MAYBE, UNIT_LENGTH, AT(length_m)},
	{"--diameter", FIELD_MAYBE, UNIT_LENGTH, AT(diameter_m)},
	{"--mass", FIELD_MAYBE, UNIT_MASS, AT(mass_kg)},
};

static const struct command_option crush_options[] = {
	{"--rig", "RIG", "on that rig, which says what you do not", false},
	{"--gauge", "PRESSURE", "of the jack when it gave way", false},
	{"--gauge-zero", "PRESSURE", "what it shows without a load", false},
	{"--gauge-step", "PRESSURE", "what it is read to", false},
	{"--ram", "LENGTH", "bore of the ram", false},
	{"--load", "FORCE", "or the load itself", false},
	{"--held", "FORCE", "or the last load held", false},
	{"--broke", "FORCE", "and the one that crushed it", false},
	{"--width", "LENGTH", "of the face under load", false},
	{"--length", "LENGTH", "the other side of that face", false},
	{"--depth", "LENGTH", "height along the load", false},
	{"--diameter", "LENGTH", "of a cylinder", false},
	{"--half", "PLATE",
		"half of a broken beam between plates of that length", false},
	{"--mass", "MASS", "of the piece, on that day", false},
	{"--code", "CODE", "tells several apart: halves a and b (1)", false},
	{"--on", "DATE", "when it was read", false},
	{"--remark", "TEXT", "a remark", false}, {0}};

/* A half is crushed over the plates, across the beam's width and depth. */
static enum err_code
take_half(
	const struct invocation *in, struct work_test_ask *ask, struct err *err)
{
	const char *text = invocation_value(in, "--half");
	double plate_m;

	if (text == NULL)
		return ERR_NONE;
	TRY(unit_read(text, UNIT_LENGTH, NULL, &plate_m, err));
	if (!(plate_m > 0))
		return err_report(err, ERR_INPUT, "--half",
			"The plates must be longer than nothing, such as \"100 "
			"mm\".");
	if (ask->width_m.has || ask->depth_m.has || ask->length_m.has)
		return err_report(err, ERR_INPUT, "--half",
			"A half keeps the width and depth of its beam; leave "
			"--width, --depth and --length out.");
	ask->reading.crushing.plate_m = (struct maybe){true, plate_m};
	ask->keeps_fate = true;
	return ERR_NONE;
}

static enum err_code
run_crush(const struct invocation *in, struct err *err)
{
	struct work_test_ask ask = {
		.reading = {.kind = "crushing", .code = "1", .remark = ""}};

	TRY(fields_read(in, crush_fields, COUNT(crush_fields), &ask, err));
	TRY(take_half(in, &ask, err));
	return record(in, &ask, err);
}

const struct command command_crush = {
	.name = "crush",
	.line = "records a crushing test, and what it comes to",
	.help = "  foamwright crush BOOK PIECE --gauge PRESSURE --ram LENGTH "
		"[OPTIONS]\n\nCap the faces: uneven ones lose a fifth to two "
		"fifths (common practice).\n",
	.example =
		"foamwright crush site.book K7MD --half \"100 mm\" --code a "
		"--gauge \"82 bar\" --gauge-step \"2.5 bar\" --ram \"40 mm\"",
	.least_words = 2,
	.most_words = 2,
	.options = crush_options,
	.run = run_crush,
	.writes = true,
};

/* ---- weigh ---- */

static const struct field weigh_fields[] = {
	{"--on", FIELD_DATE, UNIT_NUMBER, AT(on)},
	{"--remark", FIELD_TEXT, UNIT_NUMBER, AT(reading.remark)},
	{"--state", FIELD_TEXT, UNIT_NUMBER, AT(reading.weighing.state)},
	{"--width", FIELD_MAYBE, UNIT_LENGTH, AT(width_m)},
	{"--depth", FIELD_MAYBE, UNIT_LENGTH, AT(depth_m)},
	{"--length", FIELD_MAYBE, UNIT_LENGTH, AT(length_m)},
};

static const struct command_option weigh_options[] = {
	{"--mass", "MASS", "what it weighs", false},
	{"--state", "STATE",
		"\"as cast\", \"at test\", \"air dry\", \"oven dry\", "
		"saturated, \"in water\" (at test)",
		false},
	{"--width", "LENGTH", "as measured", false},
	{"--depth", "LENGTH", "as measured", false},
	{"--length", "LENGTH", "as measured", false},
	{"--on", "DATE", "when it was weighed", false},
	{"--remark", "TEXT", "a remark", false}, {0}};

static enum err_code
run_weigh(const struct invocation *in, struct err *err)
{
	struct work_test_ask ask = {.reading = {.kind = "weighing",
					    .remark = "",
					    .weighing = {.state = "at test"}},
		.keeps_fate = true};
	const char *mass = invocation_value(in, "--mass");
	struct book_weighing *w = &ask.reading.weighing;

	TRY(fields_read(in, weigh_fields, COUNT(weigh_fields), &ask, err));
	if (mass != NULL)
		TRY(unit_read(mass, UNIT_MASS, NULL, &w->mass_kg, err));
	ask.reading.code = w->state;
	if (strcmp(w->state, "at test") == 0)
		ask.mass_kg = (struct maybe){mass != NULL, w->mass_kg};
	return record(in, &ask, err);
}

const struct command command_weigh = {
	.name = "weigh",
	.line = "records what a test piece weighs, wet, dry or soaked",
	.help = "  foamwright weigh BOOK PIECE --mass MASS [OPTIONS]\n\nOven "
		"dry: 100 to 105 degC until it loses no more; a 100 mm cube "
		"takes one to\nthree days.\n",
	.example = "foamwright weigh site.book K7MD --mass \"2.87 kg\" --state "
		   "\"oven dry\"",
	.least_words = 2,
	.most_words = 2,
	.options = weigh_options,
	.run = run_weigh,
	.writes = true,
};
