/* command_part.c - parts of the building entered and corrected. */
#include "cli/bounds.h"
#include "cli/fields.h"
#include "work/part.h"

#include <string.h>

#define AT(member) offsetof(struct work_part_ask, member)
static const struct field fields[] = {
	{"--kind", FIELD_TEXT, UNIT_NUMBER, AT(form)},
	{"--name", FIELD_TEXT, UNIT_NUMBER, AT(name)},
	{"--note", FIELD_TEXT, UNIT_NUMBER, AT(note)},
	{"--source", FIELD_TEXT, UNIT_NUMBER, AT(source)},
	{"--length", FIELD_MAYBE, UNIT_LENGTH, AT(length_m)},
	{"--height", FIELD_MAYBE, UNIT_LENGTH, AT(height_m)},
	{"--thickness", FIELD_MAYBE, UNIT_LENGTH, AT(thickness_m)},
	{"--openings", FIELD_MAYBE, UNIT_AREA, AT(openings_m2)},
	{"--volume", FIELD_MAYBE, UNIT_VOLUME, AT(volume_m3)},
	{"--waste", FIELD_MAYBE, UNIT_RATIO, AT(waste_ratio)},
	{"--batch", FIELD_MAYBE, UNIT_VOLUME, AT(batch_m3)},
	{"--span", FIELD_MAYBE, UNIT_LENGTH, AT(use.span_m)},
	{"--load", FIELD_MAYBE, UNIT_FORCE_PER_LENGTH, AT(use.load_n_m)},
	{"--area-load", FIELD_MAYBE, UNIT_STRESS, AT(use.area_load_pa)},
	{"--wind", FIELD_MAYBE, UNIT_STRESS, AT(use.wind_pa)},
	{"--point-load", FIELD_MAYBE, UNIT_FORCE, AT(use.point_load_n)},
	{"--point-width", FIELD_MAYBE, UNIT_LENGTH, AT(use.point_width_m)},
	{"--ground-pressure", FIELD_MAYBE, UNIT_STRESS, AT(use.subgrade_pa)},
	{"--ground-sinks", FIELD_MAYBE, UNIT_LENGTH, AT(use.subgrade_sinks_m)},
	{"--modulus", FIELD_MAYBE, UNIT_STRESS, AT(use.modulus_pa)},
	{"--radius", FIELD_MAYBE, UNIT_LENGTH, AT(use.radius_m)},
	{"--steel", FIELD_MAYBE, UNIT_AREA, AT(use.steel_m2)},
	{"--steel-depth", FIELD_MAYBE, UNIT_LENGTH, AT(use.effective_m)},
	{"--yield", FIELD_MAYBE, UNIT_STRESS, AT(use.yield_pa)},
	{"--lift", FIELD_MAYBE, UNIT_LENGTH, AT(use.lift_m)},
	{"--lifted", FIELD_TEXT, UNIT_NUMBER, AT(use.grip)},
	{"--moisture", FIELD_MAYBE, UNIT_RATIO, AT(use.moisture_ratio)},
	{"--safety", FIELD_MAYBE, UNIT_NUMBER, AT(use.safety)},
	{"--pitch", FIELD_MAYBE, UNIT_ANGLE, AT(use.pitch_rad)},
};
#undef AT

static const struct command_option options[] = {
	{"--kind", "KIND",
		"floor, floor-panel, wall, roof, roof-panel, vault, dome, "
		"lintel, block, other",
		false},
	{"--name", "TEXT", "what it is called", false},
	{"--length", "LENGTH", "of the whole part", false},
	{"--height", "LENGTH", "of a wall; width of a floor or a panel", false},
	{"--thickness", "LENGTH", "of the foamed concrete, without skins",
		false},
	{"--openings", "AREA", "doors and windows together", false},
	{"--volume", "VOLUME", "where it is known as such", false},
	{"--waste", "SHARE", "of what is mixed", false},
	{"--batch", "VOLUME", "of one batch", false},
	{"--least", "MEASURE=VALUE", "what the mix must reach", true},
	{"--most", "MEASURE=VALUE", "what the mix must stay under", true},
	{"--drop", "MEASURE", "what it no longer asks", true},
	{"--usual", NULL, "the usual requirements of its kind too", false},
	{"--source", "TEXT", "where these requirements come from", false},
	{"--skin", "SIDE NAME: QUANTITIES",
		"\"outside plaster: 15 mm, 1300 kg/m3, 0.6 W/(m K), mu 10\"",
		true},
	{"--span", "LENGTH", "of a panel, a lintel", false},
	{"--load", "FORCE A METRE", "of roof or floor on a wall, a lintel",
		false},
	{"--area-load", "PRESSURE", "on a panel: people, snow, finishes",
		false},
	{"--wind", "PRESSURE", "on the face of a wall", false},
	{"--point-load", "FORCE", "of one leg or wheel on a floor", false},
	{"--point-width", "LENGTH", "of its square foot", false},
	{"--ground-pressure", "PRESSURE", "that sinks a plate on the ground",
		false},
	{"--ground-sinks", "LENGTH", "by this much", false},
	{"--modulus", "STRESS", "of elasticity of the mix, measured", false},
	{"--radius", "LENGTH", "of a dome or vault", false},
	{"--steel", "AREA", "of mesh in a metre of width", false},
	{"--steel-depth", "LENGTH", "from the pressed face to the mesh", false},
	{"--yield", "STRESS", "of the mesh", false},
	{"--pitch", "ANGLE", "of a roof panel, from level", false},
	{"--lift", "LENGTH", "height poured at once", false},
	{"--lifted", "WHERE", "ends, inner, middle: of a precast piece", false},
	{"--moisture", "SHARE", "water per dry mass as it stands (10 %)",
		false},
	{"--safety", "NUMBER", "on the strength (3)", false},
	{"--note", "TEXT", "a remark", false}, {0}};

/* ---- entering ---- */

/* One quantity of a skin goes where its unit says. */
static enum err_code
take_skin_value(
	const char *word, struct book_part_layer *layer, struct err *err)
{
	const struct {
		enum unit_kind kind;
		struct maybe *to;
	} place[] = {
		{UNIT_LENGTH, &layer->thickness_m},
		{UNIT_DENSITY, &layer->density_kg_m3},
		{UNIT_CONDUCTIVITY, &layer->conductivity_w_mk},
		{UNIT_STRESS, &layer->strength_pa},
		{UNIT_RESISTANCE, &layer->resistance_m2k_w},
	};
	double value;

	for (size_t i = 0; i < sizeof place / sizeof place[0]; i++) {
		struct err inner = {.code = ERR_NONE};

		if (unit_read(word, place[i].kind, NULL, &value, &inner) !=
			ERR_NONE)
			continue;
		if (!(value > 0))
			break;
		*place[i].to = (struct maybe){true, value};
		return ERR_NONE;
	}
	if (strncmp(word, "mu ", 3) == 0 &&
		unit_read(word + 3, UNIT_NUMBER, NULL, &value, NULL) ==
			ERR_NONE &&
		value > 0) {
		layer->vapour_ratio = (struct maybe){true, value};
		return ERR_NONE;
	}
	return err_report(err, ERR_INPUT, "--skin",
		"\"%.40s\" is nothing that a skin has; give thickness, weight, "
		"heat let through and strength with their units, each over 0, "
		"and \"mu 10\": 15 mm, 1300 kg/m3, 0.6 W/(m K), 2 N/mm2.",
		word);
}

static enum err_code
read_skin(const struct invocation *in, const char *text,
	struct book_part_layer *layer, struct err *err)
{
	char *copy = arena_text(in->arena, text), *colon, *name, *word;

	if (copy == NULL)
		return err_memory(err);
	colon = strchr(copy, ':');
	name = strchr(copy, ' ');
	if (colon == NULL || name == NULL || name > colon || name + 1 == colon)
		return err_report(err, ERR_INPUT, "--skin",
			"A skin is written as \"outside plaster: 15 mm, 1300 "
			"kg/m3\": its side, its name, a colon, its "
			"quantities; it was given \"%.60s\".",
			text);
	*colon = *name++ = '\0';
	*layer = (struct book_part_layer){.side = copy, .name = name};
	if (strcmp(copy, "inside") != 0 && strcmp(copy, "outside") != 0)
		return err_report(err, ERR_INPUT, "--skin",
			"A skin is inside or outside, not \"%.40s\".", copy);
	for (word = colon + 1; word != NULL;) {
		char *comma = strchr(word, ',');

		if (comma != NULL)
			*comma = '\0';
		TRY(take_skin_value(word + strspn(word, " "), layer, err));
		word = comma != NULL ? comma + 1 : NULL;
	}
	return ERR_NONE;
}

static enum err_code
read_skins(
	const struct invocation *in, struct work_part_ask *ask, struct err *err)
{
	const char *text;
	size_t at = 0;

	while ((text = invocation_next(in, "--skin", &at)) != NULL) {
		if (ask->n_layer == WORK_PART_ROWS)
			return err_report(err, ERR_INPUT, "--skin",
				"A part takes at most %d skins at once.",
				(int)WORK_PART_ROWS);
		TRY(read_skin(in, text, &ask->layer[ask->n_layer], err));
		ask->n_layer++;
	}
	return ERR_NONE;
}

static enum err_code
run_part(const struct invocation *in, struct err *err)
{
	struct work_part_ask ask = {.code = in->word[1],
		.usual = invocation_has(in, "--usual"),
		.typed = fields_typed(in)};
	struct desk desk;
	enum err_code code;
	bool made;

	if (ask.typed == NULL)
		return err_memory(err);
	TRY(fields_read(
		in, fields, sizeof fields / sizeof fields[0], &ask, err));
	TRY(read_bounds(in, ask.bound, &ask.n_bound, err));
	TRY(read_drops(in, ask.drop, &ask.n_drop, err));
	TRY(read_skins(in, &ask, err));
	TRY(desk_open(in->word[0], true, in, &desk, err));
	code = work_part_put(&desk, in->arena, &ask, &made, err);
	desk_close(&desk);
	if (code != ERR_NONE)
		return code;
	if (in->json)
		(void)printf("{\"made\": %s}\n", made ? "true" : "false");
	else
		(void)printf(
			"%s %s.\n", made ? "Entered" : "Corrected", ask.code);
	return ERR_NONE;
}

const struct command command_part = {
	.name = "part",
	.line = "enters a part of the building and what it must do",
	.help = "  foamwright part BOOK CODE [OPTIONS]\n\nWhat is not given "
		"stays as it is; the earlier figures stay in the book. A skin\n"
		"is said by side and name, its quantities by their units.\n",
	.example = "foamwright part site.book north --kind wall --length 6m "
		   "--height 2.4m --thickness 200mm --usual",
	.least_words = 2,
	.most_words = 2,
	.options = options,
	.run = run_part,
	.writes = true,
};
