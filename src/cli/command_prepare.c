/* command_prepare.c - a test before it is made. */
#include "cli/fields.h"
#include "cli/table.h"

#include "work/prepare.h"
#include "work/shelf.h"

#define AT(member) offsetof(struct work_prepare_ask, member)
static const struct field fields[] = {
	{"--form", FIELD_TEXT, UNIT_NUMBER, AT(form)},
	{"--rig", FIELD_TEXT, UNIT_NUMBER, AT(rig)},
	{"--loading", FIELD_TEXT, UNIT_NUMBER, AT(loading)},
	{"--tip", FIELD_TEXT, UNIT_NUMBER, AT(tip)},
	{"--span", FIELD_MAYBE, UNIT_LENGTH, AT(span_m)},
	{"--strap", FIELD_MAYBE, UNIT_LENGTH, AT(strap_m)},
	{"--hanger", FIELD_MAYBE, UNIT_MASS, AT(hanger_kg)},
	{"--bar", FIELD_MAYBE, UNIT_MASS, AT(bar_kg)},
	{"--tip-diameter", FIELD_MAYBE, UNIT_LENGTH, AT(tip_diameter_m)},
	{"--tip-angle", FIELD_MAYBE, UNIT_ANGLE, AT(tip_angle_rad)},
	{"--readable", FIELD_MAYBE, UNIT_LENGTH, AT(readable_m)},
	{"--interval", FIELD_MAYBE, UNIT_RATIO, AT(width_ratio)},
};
#undef AT

static const struct command_option options[] = {
	{"--form", "FORM", "what the pieces are cast in", false},
	{"--rig", "RIG", "on that rig", false},
	{"--drop", NULL, "without a rig: a drop, not bending", false},
	{"--foreseen", "LOW=HIGH",
		"strength, or of a drop the energy per volume", false},
	{"--interval", "SHARE", "of the load, wanted (10 %)", false},
	{"--span", "LENGTH", "between the middles of the supports", false},
	{"--strap", "LENGTH", "width of the strap in the middle", false},
	{"--hanger", "MASS", "hanger and bucket", false},
	{"--loading", "WHERE", "centre or third (centre)", false},
	{"--bar", "MASS", "of what falls", false},
	{"--tip", "TIP", "flat, ball or cone", false},
	{"--tip-diameter", "LENGTH", "of bar or ball", false},
	{"--tip-angle", "ANGLE", "of a cone, from side to side", false},
	{"--readable", "LENGTH", "the least dent you can read (3 mm)", false},
	{0}};

static enum err_code
read_foreseen(const struct invocation *in, struct work_prepare_ask *ask,
	struct err *err)
{
	const char *text = invocation_value(in, "--foreseen"), *low, *high;
	enum unit_kind kind = ask->drop ? UNIT_ENERGY_PER_VOLUME : UNIT_STRESS;

	if (text == NULL)
		return ERR_NONE;
	TRY(field_pair(in, "--foreseen", text, &low, &high, err));
	ask->low_pa.has = ask->high_pa.has = true;
	TRY(unit_read(low, kind, NULL, &ask->low_pa.value, err));
	return unit_read(high, kind, NULL, &ask->high_pa.value, err);
}

static enum err_code
print_json(const struct invocation *in, const struct work_prepared *p,
	struct err *err)
{
	struct text text;
	struct jsonout json;

	json_start(in, &text, &json);
	jsonout_key_interval(&json, "foreseen", p->foreseen_pa.low,
		p->foreseen_pa.high, "Pa");
	if (p->piece_kg.has)
		jsonout_key_quantity(&json, "piece", p->piece_kg.value, "kg");
	if (p->is_drop) {
		jsonout_key_bool(&json, "one_height_suits", p->drop.suits);
		jsonout_key_quantity(
			&json, "height_least", p->drop.height_m.low, "m");
		jsonout_key_quantity(
			&json, "height_most", p->drop.height_m.high, "m");
	} else {
		jsonout_key_interval(&json, "to_hang", p->bending.least.kg,
			p->bending.most.kg, "kg");
		jsonout_key_quantity(&json, "step", p->bending.step.kg, "kg");
		jsonout_key_quantity(
			&json, "small_from", p->bending.small_from.kg, "kg");
		jsonout_key_quantity(&json, "falls", p->bending.falls.kg, "kg");
		jsonout_key_quantity(
			&json, "large_weight", p->weights.large.kg, "kg");
		jsonout_key_count(&json, "large_weights", p->weights.n_large);
		jsonout_key_quantity(
			&json, "small_weight", p->weights.small.kg, "kg");
		jsonout_key_count(&json, "small_weights", p->weights.n_small);
	}
	jsonout_key(&json, "sentences");
	jsonout_open_array(&json);
	for (size_t i = 0; i < p->n_sentence; i++)
		jsonout_string(&json, p->sentence[i]);
	jsonout_close_array(&json);
	return json_finish(&json, err);
}

static enum err_code
run_prepare(const struct invocation *in, struct err *err)
{
	struct work_prepare_ask ask = {
		.mix = in->word[1], .drop = invocation_has(in, "--drop")};
	struct work_prepared told;
	struct desk desk;
	enum err_code code;

	TRY(fields_read(
		in, fields, sizeof fields / sizeof fields[0], &ask, err));
	TRY(read_foreseen(in, &ask, err));
	TRY(desk_open(in->word[0], false, in, &desk, err));
	code = work_prepare(&desk, in->arena, &ask, &told, err);
	desk_close(&desk);
	if (code != ERR_NONE)
		return code;
	if (in->json)
		return print_json(in, &told, err);
	for (size_t i = 0; i < told.n_sentence; i++)
		print_folded(stdout, 0, told.sentence[i]);
	return ERR_NONE;
}

const struct command command_prepare = {
	.name = "prepare",
	.line = "before a test: load, weights and steps, height, what to lift",
	.help = "  foamwright prepare BOOK MIX --form FORM --rig RIG "
		"[OPTIONS]\n\nFrom what the mix is foreseen to carry and the "
		"form's size: the load to expect,\nthe weights and steps that "
		"keep the interval narrow, the height that dents but\ndoes not "
		"go through, and what falls when it breaks. A strength for a "
		"plan,\nnever for building.\n",
	.example = "foamwright prepare site.book W --form B1 --rig B1",
	.least_words = 2,
	.most_words = 2,
	.options = options,
	.run = run_prepare,
};
