/* command_rig.c - the rigs of the bench: entered, checked, and doubted. */
#include "cli/fields.h"
#include "cli/table.h"

#include "work/rig.h"
#include "work/shelf.h"

#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

#define AT(member) offsetof(struct work_rig_ask, member)
static const struct field rig_fields[] = {
	{"--test", FIELD_TEXT, UNIT_NUMBER, AT(test)},
	{"--loading", FIELD_TEXT, UNIT_NUMBER, AT(loading)},
	{"--tip", FIELD_TEXT, UNIT_NUMBER, AT(tip)},
	{"--note", FIELD_TEXT, UNIT_NUMBER, AT(note)},
	{"--span", FIELD_MAYBE, UNIT_LENGTH, AT(span_m)},
	{"--strap", FIELD_MAYBE, UNIT_LENGTH, AT(strap_m)},
	{"--hanger", FIELD_MAYBE, UNIT_MASS, AT(hanger_kg)},
	{"--bar", FIELD_MAYBE, UNIT_MASS, AT(bar_kg)},
	{"--from", FIELD_MAYBE, UNIT_LENGTH, AT(height_m)},
	{"--tip-diameter", FIELD_MAYBE, UNIT_LENGTH, AT(tip_diameter_m)},
	{"--tip-angle", FIELD_MAYBE, UNIT_ANGLE, AT(tip_angle_rad)},
	{"--ram", FIELD_MAYBE, UNIT_LENGTH, AT(ram_m)},
	{"--gauge-step", FIELD_MAYBE, UNIT_STRESS, AT(gauge_step_pa)},
	{"--rule", FIELD_MAYBE, UNIT_LENGTH, AT(rule_step_m)},
	{"--scale", FIELD_MAYBE, UNIT_MASS, AT(scale_step_kg)},
};
#undef AT

#define AT(member) offsetof(struct work_rig_check_ask, member)
static const struct field check_fields[] = {
	{"--on", FIELD_DATE, UNIT_NUMBER, AT(on)},
	{"--code", FIELD_TEXT, UNIT_NUMBER, AT(code)},
	{"--remark", FIELD_TEXT, UNIT_NUMBER, AT(remark)},
	{"--check-piece", FIELD_TEXT, UNIT_NUMBER, AT(piece)},
	{"--dead-load", FIELD_MAYBE, UNIT_MASS, AT(known_kg)},
	{"--gauge", FIELD_MAYBE, UNIT_STRESS, AT(gauge_pa)},
	{"--gauge-zero", FIELD_MAYBE, UNIT_STRESS, AT(zero_pa)},
	{"--exit-speed", FIELD_MAYBE, UNIT_SPEED, AT(speed_m_s)},
	{"--from", FIELD_MAYBE, UNIT_LENGTH, AT(height_m)},
	{"--broke", FIELD_MAYBE, UNIT_MASS, AT(found_kg)},
	{"--dent", FIELD_MAYBE, UNIT_LENGTH, AT(dent_m)},
};
#undef AT

/* The option that says which check it is. */
static const struct {
	const char *option, *what;
} checks[] = {{"--dead-load", "dead load"}, {"--exit-speed", "exit speed"},
	{"--check-piece", "check piece"}, {"--weight", "weight"}};

static const struct command_option options[] = {
	{"--test", "TEST", "bending, drop or crushing", false},
	{"--span", "LENGTH", "between the middles of the supports", false},
	{"--strap", "LENGTH", "width of the strap in the middle", false},
	{"--hanger", "MASS", "hanger and bucket", false},
	{"--loading", "WHERE", "centre or third (centre)", false},
	{"--bar", "MASS", "of what falls", false},
	{"--from", "LENGTH", "from the tip to the face, or down the guide",
		false},
	{"--tip", "TIP", "flat, ball or cone", false},
	{"--tip-diameter", "LENGTH", "of bar or ball", false},
	{"--tip-angle", "ANGLE", "of a cone, from side to side", false},
	{"--ram", "LENGTH", "bore of the jack", false},
	{"--gauge-step", "PRESSURE", "what the gauge is read to", false},
	{"--rule", "LENGTH", "what sizes are read to (1 mm)", false},
	{"--scale", "MASS", "what weights are read to (10 g)", false},
	{"--note", "TEXT", "a note", false},
	{"--dead-load", "MASS", "check: a known weight on the jack", false},
	{"--gauge", "PRESSURE", "what the gauge showed", false},
	{"--gauge-zero", "PRESSURE", "and with nothing on it", false},
	{"--exit-speed", "SPEED", "check: of the bar at the guide's end",
		false},
	{"--check-piece", "WHAT", "check: a lath or brick, the weekly one",
		false},
	{"--broke", "MASS", "what broke it, hanger and all", false},
	{"--dent", "LENGTH", "or how deep the dent in it is", false},
	{"--weight", "MARK=MASS", "check: a weight of the set, weighed", false},
	{"--code", "CODE", "tells checks of one day apart", false},
	{"--on", "DATE", "when it was checked (today)", false},
	{"--remark", "TEXT", "a remark on the check", false}, {0}};

/* ---- entered ---- */

static enum err_code
read_weight(const struct invocation *in, struct work_rig_check_ask *ask,
	struct err *err)
{
	const char *text = invocation_value(in, "--weight"), *mark, *mass;

	TRY(field_pair(in, "--weight", text, &mark, &mass, err));
	ask->known_kg.has = ask->found_kg.has = true;
	TRY(unit_read(mark, UNIT_MASS, NULL, &ask->known_kg.value, err));
	return unit_read(mass, UNIT_MASS, NULL, &ask->found_kg.value, err);
}

static enum err_code
put_check(const struct invocation *in, const struct desk *desk,
	const char *what, struct err *err)
{
	struct work_rig_check_ask ask = {
		.rig = in->word[1], .what = what, .typed = fields_typed(in)};
	const char *sentence = "";

	if (ask.typed == NULL)
		return err_memory(err);
	TRY(fields_read(in, check_fields, COUNT(check_fields), &ask, err));
	if (strcmp(what, "weight") == 0)
		TRY(read_weight(in, &ask, err));
	TRY(work_rig_check_put(desk, in->arena, &ask, &sentence, err));
	if (in->json) {
		struct text text;
		struct jsonout json;

		json_start(in, &text, &json);
		jsonout_key_string(&json, "rig", ask.rig);
		jsonout_key_string(&json, "check", what);
		jsonout_key_string(&json, "sentence", sentence);
		return json_finish(&json, err);
	}
	print_folded(stdout, 0, sentence);
	return ERR_NONE;
}

static enum err_code
put_rig(const struct invocation *in, const struct desk *desk, struct err *err)
{
	struct work_rig_ask ask = {
		.code = in->word[1], .typed = fields_typed(in)};
	bool made;

	if (ask.typed == NULL)
		return err_memory(err);
	TRY(fields_read(in, rig_fields, COUNT(rig_fields), &ask, err));
	TRY(work_rig_put(desk, in->arena, &ask, &made, err));
	if (in->json)
		(void)printf("{\"entered\": %s}\n", made ? "true" : "false");
	else
		(void)printf(
			"%s rig %s.\n", made ? "Entered" : "Changed", ask.code);
	return ERR_NONE;
}

/* ---- told ---- */

static enum err_code
print_json(const struct invocation *in, const struct work_rigs *rigs,
	struct err *err)
{
	struct text text;
	struct jsonout json;

	json_start(in, &text, &json);
	jsonout_key(&json, "rigs");
	jsonout_open_array(&json);
	for (size_t i = 0; i < rigs->n; i++) {
		const struct work_rig_told *r = &rigs->rig[i];

		jsonout_open_object(&json);
		jsonout_key_string(&json, "rig", r->code);
		jsonout_key_string(&json, "test", r->test);
		jsonout_key_string(&json, "last_check_piece", r->last_on);
		jsonout_key_bool(&json, "check_is_due", r->is_due);
		jsonout_key_bool(&json, "is_doubted", r->is_doubted);
		jsonout_key(&json, "found");
		jsonout_open_array(&json);
		for (size_t k = 0; k < r->n_sentence; k++)
			jsonout_string(&json, r->sentence[k]);
		jsonout_close_array(&json);
		jsonout_close_object(&json);
	}
	jsonout_close_array(&json);
	return json_finish(&json, err);
}

static void
print_csv(const struct invocation *in, const struct work_rigs *rigs)
{
	static const char *const heading[] = {"rig", "test", "found"};
	struct table table;

	table_start(&table, in->arena, heading, COUNT(heading), 0);
	for (size_t i = 0; i < rigs->n; i++) {
		for (size_t k = 0; k < rigs->rig[i].n_sentence; k++) {
			const char *cell[] = {rigs->rig[i].code,
				rigs->rig[i].test, rigs->rig[i].sentence[k]};

			table_row(&table, cell);
		}
	}
	table_show(in, &table, stdout);
}

static enum err_code
tell(const struct invocation *in, const struct desk *desk, struct err *err)
{
	struct work_rigs rigs;

	TRY(work_rigs(desk, in->arena, &rigs, err));
	if (in->json)
		return print_json(in, &rigs, err);
	if (in->csv) {
		print_csv(in, &rigs);
		return ERR_NONE;
	}
	for (size_t i = 0; i < rigs.n; i++) {
		const struct work_rig_told *r = &rigs.rig[i];

		if (r->code[0] != '\0')
			(void)printf("%s, %s:%s\n", r->code, r->test,
				r->is_doubted ? " to be doubted" : "");
		else
			(void)puts("Beside the rigs:");
		for (size_t k = 0; k < r->n_sentence; k++)
			print_folded(stdout, 2, r->sentence[k]);
	}
	if (rigs.bench.site.n_rig == 0)
		(void)puts("No rig is in the book. \"foamwright rig BOOK B1 "
			   "--test bending --span ...\" enters one.");
	return ERR_NONE;
}

static enum err_code
work_on(const struct invocation *in, const struct desk *desk, struct err *err)
{
	const char *what = NULL;

	if (in->n_word < 2)
		return tell(in, desk, err);
	for (size_t i = 0; i < COUNT(checks); i++) {
		if (!invocation_has(in, checks[i].option))
			continue;
		if (what != NULL)
			return err_report(err, ERR_INPUT, checks[i].option,
				"One check at a time: a %s and a %s were "
				"given.",
				what, checks[i].what);
		what = checks[i].what;
	}
	return what != NULL ? put_check(in, desk, what, err)
			    : put_rig(in, desk, err);
}

static enum err_code
run_rig(const struct invocation *in, struct err *err)
{
	struct desk desk;
	enum err_code code;

	TRY(desk_open(in->word[0], in->n_word > 1, in, &desk, err));
	code = work_on(in, &desk, err);
	desk_close(&desk);
	return code;
}

const struct command command_rig = {
	.name = "rig",
	.line = "is the rig lying: rigs, and what they were held against",
	.help = "  foamwright rig BOOK\n  foamwright rig BOOK RIG --test TEST "
		"OPTIONS\n  foamwright rig BOOK RIG --dead-load MASS --gauge "
		"PRESSURE\n  foamwright rig BOOK RIG --exit-speed SPEED --from "
		"LENGTH\n  foamwright rig BOOK RIG --check-piece WHAT --broke "
		"MASS\n\nMost home figures are wrong by the rig, not by the "
		"mix. A reading taken with\n--rig RIG fills in what the rig is "
		"and follows what its checks find.\nNobody under a load; stand "
		"clear of a jack.\n",
	.example = "foamwright rig site.book J1 --dead-load \"312 kg\" --gauge "
		   "\"24 bar\" --gauge-zero \"0.5 bar\"",
	.least_words = 1,
	.most_words = 2,
	.options = options,
	.run = run_rig,
	.csv = true,
	.writes = true,
};
