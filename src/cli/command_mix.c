/* command_mix.c - mixes entered, and shown in every form they are needed in. */
#include "cli/fields.h"
#include "cli/table.h"

#include "work/recipe.h"
#include "work/shelf.h"

#include <math.h>
#include <string.h>

#define AT(member) offsetof(struct work_recipe_ask, member)

static const struct field fields[] = {
	{"--name", FIELD_TEXT, UNIT_NUMBER, AT(name)},
	{"--why", FIELD_TEXT, UNIT_NUMBER, AT(why)},
	{"--like", FIELD_TEXT, UNIT_NUMBER, AT(like)},
	{"--matrix", FIELD_TEXT, UNIT_NUMBER, AT(matrix)},
	{"--reinforcement", FIELD_TEXT, UNIT_NUMBER, AT(reinforcement)},
	{"--agent", FIELD_TEXT, UNIT_NUMBER, AT(agent)},
	{"--wet", FIELD_MAYBE, UNIT_DENSITY, AT(wet_kg_m3)},
	{"--dry", FIELD_MAYBE, UNIT_DENSITY, AT(oven_dry_kg_m3)},
	{"--foam", FIELD_MAYBE, UNIT_DENSITY, AT(foam_kg_m3)},
	{"--blending", FIELD_MAYBE, UNIT_TIME, AT(blending_s)},
};

static const struct command_option options[] = {
	{"--part", "CODE=AMOUNT",
		"what goes in: 1 and 0.48, or kg, or L of "
		"a bucket",
		true},
	{"--without", "CODE", "takes a part out again", true},
	{"--wet", "DENSITY", "wet density it aims at", false},
	{"--dry", "DENSITY", "or the oven-dry density", false},
	{"--foam", "DENSITY", "what the foam is to weigh", false},
	{"--agent", "CODE", "the agent of the foam", false},
	{"--like", "MIX", "starts from another mix", false},
	{"--name", "TEXT", "what it is called", false},
	{"--why", "TEXT", "why it is worth a batch", false},
	{"--matrix", "MIX", "the plain mix that a mesh lies in", false},
	{"--reinforcement", "TEXT", "what lies in it", false},
	{"--blending", "TIME", "how long foam is folded in", false}, {0}};

/* "0.48", "12 kg" or "10 L". */
static enum err_code
read_amount(const struct invocation *in, const char *text,
	struct work_recipe_part *part, struct err *err)
{
	static const struct {
		enum unit_kind kind;
		enum work_recipe_form form;
	} forms[] = {{UNIT_NUMBER, WORK_RECIPE_RATIO},
		{UNIT_MASS, WORK_RECIPE_MASS},
		{UNIT_VOLUME, WORK_RECIPE_VOLUME}};

	for (size_t i = 0; i < sizeof forms / sizeof forms[0]; i++) {
		struct unit_rules rules = {.gallon = UNIT_GALLON_US};
		struct err unread = {.code = ERR_NONE};

		part->form = forms[i].form;
		TRY(gallon_of(in, text, forms[i].kind, &rules.gallon, err));
		if (unit_read(text, forms[i].kind, &rules, &part->amount,
			    &unread) == ERR_NONE &&
			part->amount > 0)
			return ERR_NONE;
	}
	return err_report(err, ERR_INPUT, "--part",
		"%s=%.40s cannot be read: more than 0, as a number to 1 of "
		"cement (0.48), a mass (\"12 kg\") or a bucket's volume (\"10 "
		"L\").",
		part->code, text);
}

static enum err_code
read_without(const struct invocation *in, struct work_recipe_ask *ask,
	struct err *err)
{
	const char **without = arena_take(
		in->arena, GIVEN_MOST, sizeof *without);
	size_t at = 0;

	if (without == NULL)
		return err_memory(err);
	for (const char *text = invocation_next(in, "--without", &at);
		text != NULL; text = invocation_next(in, "--without", &at))
		without[ask->n_without++] = text;
	ask->without = without;
	return ERR_NONE;
}

static enum err_code
read_parts(const struct invocation *in, struct work_recipe_ask *ask,
	struct err *err)
{
	struct work_recipe_part *part = arena_take(
		in->arena, GIVEN_MOST, sizeof *part);
	size_t at = 0;

	if (part == NULL)
		return err_memory(err);
	for (const char *text = invocation_next(in, "--part", &at);
		text != NULL; text = invocation_next(in, "--part", &at)) {
		const char *value;

		TRY(field_pair(in, "--part", text, &part[ask->n_part].code,
			&value, err));
		TRY(read_amount(in, value, &part[ask->n_part], err));
		ask->n_part++;
	}
	ask->part = part;
	return read_without(in, ask, err);
}

/* ---- shown ---- */

static void
print_parts(const struct invocation *in, const struct work_recipe_shown *shown)
{
	static const char *const heading[] = {
		"part", "in 1 m3", "for one bag", "by the bucket"};
	struct table table;
	size_t n = shown->bucket != NULL ? 4 : shown->has_bag ? 3 : 2;

	table_start(&table, in->arena, heading, n, 0xE);
	for (size_t i = 0; i < shown->n_part; i++) {
		double kg = shown->part[i].mass.kg;
		const char *cell[4] = {shown->part[i].name,
			unit_write(in->arena, kg, UNIT_MASS, "kg", 4),
			shown->has_bag
				? unit_write(in->arena, kg * shown->from_bag.m3,
					  UNIT_MASS, "kg", 3)
				: "",
			""};

		if (shown->bucket != NULL && !isnan(shown->bucket[i]))
			cell[3] = unit_digits(in->arena, shown->bucket[i], 3);
		table_row(&table, cell);
	}
	table_print(&table, stdout);
}

static void
print_mix(const struct invocation *in, const struct work_mixer *m,
	const struct work_recipe_shown *shown)
{
	const struct mix_proportioned *p = &shown->proportion;
	const struct book_mix *row = &m->site.mix[shown->mix];

	(void)printf("%s, %s\n", row->code, row->name);
	print_parts(in, shown);
	(void)printf("foam         %.0f L of %.0f g/L in 1 m3; %.0f %% of the "
		     "fresh mix is foam\n",
		p->foam_volume.m3 / p->volume.m3 * 1000,
		row->foam_target_kg_m3.value, p->foam_fraction * 100);
	(void)printf("slurry       %.0f kg/m3, to be met before foam is "
		     "spent\n",
		p->slurry.density.kg_m3);
	(void)printf("wet          %.0f kg/m3\n", p->wet_density.kg_m3);
	(void)printf(
		"oven-dry     about %.0f kg/m3 (cement with a fifth of its "
		"mass of bound water)\n",
		p->oven_dry_density.kg_m3);
	(void)printf("water/cement %.2f mixed, %.2f with the foam's water\n",
		p->water_cement_ratio, p->total_water_cement_ratio);
	if (shown->has_bag)
		(void)printf("one bag      of %.3g kg makes %.0f L\n",
			shown->bag.kg, shown->from_bag.m3 * 1000);
	if (shown->has_cost && shown->cost.cents_per_m3 > 0)
		(void)printf("cost         %.2f %s a m3%s\n",
			shown->cost.cents_per_m3 / 100, m->site.info.currency,
			shown->cost.n_unpriced > 0
				? "; some of it has no price yet"
				: "");
	if (shown->has_cost && shown->carbon[0] != '\0') {
		(void)printf("carbon       %.0f kg of CO2 a m3\n",
			shown->cost.kgco2_per_m3);
		print_folded(stdout, 13,
			text_format(in->arena, "kg a kg: %s%s", shown->carbon,
				shown->cost.n_unstated > 0
					? "; the others have no factor"
					: ""));
	}
	for (size_t i = 0; i < shown->n_caution; i++)
		print_folded(stdout, 0,
			text_format(
				in->arena, "Caution: %s", shown->caution[i]));
}

static enum err_code
print_mix_json(const struct invocation *in, const struct work_mixer *m,
	const struct work_recipe_shown *shown, struct err *err)
{
	const struct mix_proportioned *p = &shown->proportion;
	struct text text;
	struct jsonout json;

	json_start(in, &text, &json);
	jsonout_key_string(&json, "mix", m->site.mix[shown->mix].code);
	jsonout_key(&json, "per_m3");
	jsonout_open_array(&json);
	for (size_t i = 0; i < shown->n_part; i++) {
		jsonout_open_object(&json);
		jsonout_key_string(&json, "name", shown->part[i].name);
		jsonout_key_quantity(
			&json, "mass", shown->part[i].mass.kg, "kg");
		jsonout_close_object(&json);
	}
	jsonout_close_array(&json);
	jsonout_key_quantity(&json, "foam_volume",
		p->foam_volume.m3 / p->volume.m3, "m3/m3");
	jsonout_key_quantity(
		&json, "slurry_density", p->slurry.density.kg_m3, "kg/m3");
	jsonout_key_quantity(
		&json, "wet_density", p->wet_density.kg_m3, "kg/m3");
	jsonout_key_quantity(
		&json, "oven_dry_density", p->oven_dry_density.kg_m3, "kg/m3");
	jsonout_key_number(&json, "water_cement_ratio", p->water_cement_ratio);
	jsonout_key_number(
		&json, "total_water_cement_ratio", p->total_water_cement_ratio);
	jsonout_key_number(&json, "foam_fraction", p->foam_fraction);
	if (shown->has_cost) {
		jsonout_key_number(
			&json, "cost_per_m3", shown->cost.cents_per_m3 / 100);
		jsonout_key_number(
			&json, "carbon_kg_per_m3", shown->cost.kgco2_per_m3);
		jsonout_key_string(&json, "carbon_factors", shown->carbon);
	}
	jsonout_key(&json, "cautions");
	jsonout_open_array(&json);
	for (size_t i = 0; i < shown->n_caution; i++)
		jsonout_string(&json, shown->caution[i]);
	jsonout_close_array(&json);
	return json_finish(&json, err);
}

static enum err_code
show_mix(const struct invocation *in, const struct desk *desk, struct err *err)
{
	struct work_mixer m;
	struct work_recipe_shown shown;
	size_t mix;

	TRY(work_mixer_read(desk, in->arena, &m, err));
	TRY(work_find_mix(&m, in->word[1], &mix, err));
	TRY(work_recipe_show(&m, in->arena, mix, &shown, err));
	if (in->json)
		return print_mix_json(in, &m, &shown, err);
	print_mix(in, &m, &shown);
	return ERR_NONE;
}

static enum err_code
put_mix(const struct invocation *in, const struct desk *desk, struct err *err)
{
	struct work_recipe_ask ask = {
		.code = in->word[1], .typed = fields_typed(in)};
	bool made;

	if (ask.typed == NULL)
		return err_memory(err);
	TRY(fields_read(
		in, fields, sizeof fields / sizeof fields[0], &ask, err));
	TRY(read_parts(in, &ask, err));
	TRY(work_recipe_put(desk, in->arena, &ask, &made, err));
	if (!in->json)
		(void)printf("%s %s.\n", made ? "Entered" : "Corrected",
			in->word[1]);
	return show_mix(in, desk, err);
}

static enum err_code
run_mix(const struct invocation *in, struct err *err)
{
	bool put = in->n_given > 0;
	struct desk desk;
	enum err_code code;

	TRY(desk_open(in->word[0], put, in, &desk, err));
	code = put ? put_mix(in, &desk, err) : show_mix(in, &desk, err);
	desk_close(&desk);
	return code;
}

const struct command command_mix = {
	.name = "mix",
	.line = "enters a mix, or shows it by the cubic metre, bag and bucket",
	.help = "  foamwright mix BOOK CODE               shows it\n"
		"  foamwright mix BOOK CODE OPTIONS       enters or corrects it"
		"\n\nParts are dry masses in any scale and free water; foam is "
		"solved for the density\nthat is aimed at. Of sand, give the "
		"dry mass: the batch sheet weighs it damp.\n",
	.example = "foamwright mix site.book P --part cement=1 --part "
		   "water=0.48 --wet \"720 kg/m3\" --foam \"70 g/L\"",
	.least_words = 2,
	.most_words = 2,
	.options = options,
	.run = run_mix,
	.writes = true,
};
