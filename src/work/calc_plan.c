/* calc_plan.c - "rig-bending" and "rig-drop": a rig before the test. */
#include "work/calc_priv.h"

#include "lab/plan.h"

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

/* What is foreseen, low and high. */
static enum err_code
read_foreseen(const struct calc_in *in, const char *key, enum unit_kind kind,
	struct interval *to, struct err *err)
{
	static const char *const keys[] = {"low", "high"};
	const struct calc_field field[] = {
		{"low", kind, CALC_POSITIVE, true, &to->low},
		{"high", kind, CALC_POSITIVE, true, &to->high},
	};
	struct calc_in object;

	TRY(calc_read_object(in, key, &object, err));
	TRY(calc_only(&object, keys, COUNT(keys), err));
	return calc_read_fields(&object, field, COUNT(field), err);
}

/* ---- rig-bending ---- */

static const struct calc_key bending_keys[] = {
	{"loading", "centre or third", NULL, "one load or two"},
	{"span", "length", NULL, "between supports"},
	{"width", "length", NULL, "of the section"},
	{"depth", "length", NULL, "of the section"},
	{"strength", "object {low, high}", NULL, "foreseen, in bending"},
	{"strap", "length", "0", "width of the loading strap"},
	{"on_rig", "mass", "0", "hanger or platform"},
	{"width_ratio", "number", "0.1",
		"width of the interval wanted, over the load"},
};

static void
write_bending(struct calc_out *out, const struct lab_planned_bending *got)
{
	struct jsonout *json = out->json;

	jsonout_key_interval(
		json, "to_hang", got->least.kg, got->most.kg, "kg");
	jsonout_key_quantity(json, "step", got->step.kg, "kg");
	jsonout_key_quantity(json, "small_from", got->small_from.kg, "kg");
	jsonout_key_count(json, "steps", got->n_step);
	jsonout_key_quantity(json, "falls", got->falls.kg, "kg");
	if (got->hanger_may_break)
		calc_note(out,
			"The hanger alone may break the weakest: make "
			"it lighter, or the beam deeper.");
	if (got->is_stubby)
		calc_note(out,
			"The span is less than four depths: such a beam "
			"reads too high.");
	calc_note(out,
		"Keep feet from under the load: catch it 30 to 50 mm "
		"below the beam.");
}

static enum err_code
run_bending(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	static const char *const loadings[] = {"centre", "third"};
	struct lab_plan_bending p = {.width_ratio = 0.1};
	const struct calc_field field[] = {
		{"span", UNIT_LENGTH, CALC_POSITIVE, true, &p.span.m},
		{"width", UNIT_LENGTH, CALC_POSITIVE, true, &p.width.m},
		{"depth", UNIT_LENGTH, CALC_POSITIVE, true, &p.depth.m},
		{"strap", UNIT_LENGTH, CALC_NOT_NEGATIVE, false, &p.strap.m},
		{"on_rig", UNIT_MASS, CALC_NOT_NEGATIVE, false, &p.on_rig.kg},
	};
	struct lab_planned_bending got;
	size_t loading = 0;

	TRY(calc_read_choice(
		in, "loading", loadings, COUNT(loadings), &loading, err));
	p.loading = (enum lab_loading)loading;
	TRY(calc_read_fields(in, field, COUNT(field), err));
	TRY(read_foreseen(in, "strength", UNIT_STRESS, &p.strength_Pa, err));
	TRY(calc_read_number_or(
		in, "width_ratio", CALC_POSITIVE, &p.width_ratio, err));
	TRY(lab_plan_bending(&p, &got, err));
	write_bending(out, &got);
	calc_source(out,
		"statics, as flexure (derived); steps and shares "
		"common practice, no source");
	return ERR_NONE;
}

const struct calc_entry calc_rig_bending = {
	.name = "rig-bending",
	.line = "weights and steps for a beam test, before it",
	.key = bending_keys,
	.n_key = COUNT(bending_keys),
	.example = "{\"loading\": \"centre\", \"span\": \"600 mm\", \"width\": "
		   "\"100 mm\", \"depth\": \"74 mm\", \"strength\": "
		   "{\"low\": \"0.25 MPa\", \"high\": \"0.6 MPa\"}, "
		   "\"strap\": \"50 mm\", \"on_rig\": \"2.6 kg\"}",
	.run = run_bending,
};

/* ---- rig-drop ---- */

static const struct calc_key drop_keys[] = {
	{"mass", "mass", NULL, "of the bar"},
	{"thickness", "length", NULL, "of the panel"},
	{"energy", "object {low, high}", NULL,
		"energy per volume foreseen, J/cm3"},
	{"tip", "object {shape, diameter, angle?}", NULL,
		"shape: flat, ball, cone; angle: the cone's full angle"},
	{"readable", "length", "3 mm", "the least dent that can be read"},
	{"tube_loss", "share", "0", "energy lost in the guide"},
};

static enum err_code
read_tip(const struct calc_in *in, struct lab_plan_drop *p, struct err *err)
{
	static const char *const shapes[] = {"flat", "ball", "cone"};
	static const char *const keys[] = {"shape", "diameter", "angle"};
	const struct calc_field field[] = {
		{"diameter", UNIT_LENGTH, CALC_POSITIVE, true,
			&p->tip_diameter.m},
		{"angle", UNIT_ANGLE, CALC_POSITIVE, false, &p->tip_angle_rad},
	};
	struct calc_in tip;
	size_t shape = 0;

	TRY(calc_read_object(in, "tip", &tip, err));
	TRY(calc_only(&tip, keys, COUNT(keys), err));
	TRY(calc_read_choice(
		&tip, "shape", shapes, COUNT(shapes), &shape, err));
	p->tip = (enum lab_tip)shape;
	return calc_read_fields(&tip, field, COUNT(field), err);
}

static enum err_code
run_drop(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	struct lab_plan_drop p = {.readable = {3e-3}};
	const struct calc_field field[] = {
		{"mass", UNIT_MASS, CALC_POSITIVE, true, &p.mass.kg},
		{"thickness", UNIT_LENGTH, CALC_POSITIVE, true, &p.thickness.m},
		{"readable", UNIT_LENGTH, CALC_POSITIVE, false, &p.readable.m},
		{"tube_loss", UNIT_RATIO, CALC_NOT_NEGATIVE, false,
			&p.tube_loss_ratio},
	};
	struct lab_planned_drop got;

	TRY(calc_read_fields(in, field, COUNT(field), err));
	TRY(read_foreseen(
		in, "energy", UNIT_ENERGY_PER_VOLUME, &p.energy_Pa, err));
	TRY(read_tip(in, &p, err));
	TRY(lab_plan_drop(&p, &got, err));
	jsonout_key(out->json, "height");
	jsonout_open_object(out->json);
	jsonout_key_number(out->json, "low", got.height_m.low);
	jsonout_key_number(out->json, "high", got.height_m.high);
	jsonout_key_string(out->json, "unit", "m");
	jsonout_close_object(out->json);
	jsonout_key_bool(out->json, "suits", got.suits);
	calc_source(out,
		"as drop, solved for the height (derived); deepest "
		"dent 0.6 of the thickness common practice, no source");
	if (!got.suits)
		calc_note(out,
			"No one height does for all of them: from low "
			"on the strongest shows a dent, above high the "
			"weakest bottoms. Take a thicker panel or a "
			"narrower tip.");
	calc_note(out, "Goggles, and hands off the panel: the bar rebounds.");
	return ERR_NONE;
}

const struct calc_entry calc_rig_drop = {
	.name = "rig-drop",
	.line = "height to drop a bar from, before the test",
	.key = drop_keys,
	.n_key = COUNT(drop_keys),
	.example = "{\"mass\": \"2.4 kg\", \"thickness\": \"60 mm\", "
		   "\"energy\": {\"low\": \"3 J/cm3\", \"high\": \"9 "
		   "J/cm3\"}, \"tip\": {\"shape\": \"ball\", \"diameter\": "
		   "\"25 mm\"}, \"tube_loss\": \"6 %\"}",
	.run = run_drop,
};
