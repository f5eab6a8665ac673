/* command_standing.c - foam left standing in a jar. */
#include "cli/fields.h"
#include "cli/table.h"

#include "work/shelf.h"
#include "work/standing.h"

#include <math.h>

#define AT(member) offsetof(struct work_standing_ask, member)
static const struct field fields[] = {
	{"--jar", FIELD_TEXT, UNIT_NUMBER, AT(jar)},
	{"--foam", FIELD_MAYBE, UNIT_MASS, AT(foam_kg)},
	{"--on", FIELD_DATE, UNIT_NUMBER, AT(read_on)},
	{"--remark", FIELD_TEXT, UNIT_NUMBER, AT(remark)},
};
#undef AT

static const struct command_option options[] = {
	{"--foam", "MASS", "the foam in the jar when it was filled", false},
	{"--look", "AFTER=MASS", "what had run out of it, how long after",
		true},
	{"--jar", "CODE", "which jar (1)", false},
	{"--on", "DATE", "when it was", false},
	{"--remark", "TEXT", "a remark", false}, {0}};

static enum err_code
read_looks(const struct invocation *in, struct work_standing_ask *ask,
	struct err *err)
{
	struct work_look *look = arena_take(
		in->arena, GIVEN_MOST, sizeof *look);
	size_t at = 0;

	if (look == NULL)
		return err_memory(err);
	for (const char *text = invocation_next(in, "--look", &at);
		text != NULL; text = invocation_next(in, "--look", &at)) {
		struct work_look *one = &look[ask->n_look++];
		const char *after, *mass;

		TRY(field_pair(in, "--look", text, &after, &mass, err));
		TRY(unit_read(after, UNIT_TIME, NULL, &one->after_s, err));
		TRY(unit_read(mass, UNIT_MASS, NULL, &one->drained_kg, err));
	}
	ask->look = look;
	return ERR_NONE;
}

static enum err_code
print_json(const struct invocation *in, const struct work_standing *told,
	struct err *err)
{
	struct text text;
	struct jsonout json;

	json_start(in, &text, &json);
	jsonout_key_string(&json, "jar", told->jar);
	jsonout_key_count(&json, "looks", told->n_look);
	if (isfinite(told->quarter_s))
		jsonout_key_quantity(
			&json, "quarter_drained", told->quarter_s, "s");
	if (isfinite(told->half_s))
		jsonout_key_quantity(&json, "half_drained", told->half_s, "s");
	if (told->has_set) {
		jsonout_key_quantity(&json, "sets_after", told->set_s, "s");
		jsonout_key_bool(&json, "outlives", told->outlives);
	}
	jsonout_key_string(&json, "sentence", told->sentence);
	return json_finish(&json, err);
}

static enum err_code
run_standing(const struct invocation *in, struct err *err)
{
	struct work_standing_ask ask = {
		.generator = in->word[1], .typed = fields_typed(in)};
	struct work_standing told;
	struct desk desk;
	enum err_code code;

	if (ask.typed == NULL)
		return err_memory(err);
	TRY(fields_read(
		in, fields, sizeof fields / sizeof fields[0], &ask, err));
	TRY(read_looks(in, &ask, err));
	TRY(desk_open(in->word[0], true, in, &desk, err));
	code = work_standing_put(&desk, in->arena, &ask, &told, err);
	desk_close(&desk);
	if (code != ERR_NONE)
		return code;
	if (in->json)
		return print_json(in, &told, err);
	if (isfinite(told.quarter_s))
		(void)printf("a quarter drained after %.0f min\n",
			told.quarter_s / 60);
	if (isfinite(told.half_s))
		(void)printf("half drained after %.0f min\n", told.half_s / 60);
	print_folded(stdout, 0, told.sentence);
	return ERR_NONE;
}

const struct command command_standing = {
	.name = "standing",
	.line = "foam left standing in a jar: how long it lives",
	.help = "  foamwright standing BOOK GENERATOR OPTIONS\n\nFill a clear "
		"jar with foam, weigh it, and weigh or read what has run out\n"
		"of it at 5, 15, 30 and 60 minutes. The sheets hold it against "
		"the setting\ntime (\"foamwright batch\", --set-time).\n",
	.example = "foamwright standing site.book G1 --foam \"140 g\" --look "
		   "\"5 min=21 g\" --look \"15 min=48 g\" --look \"30 min=80 "
		   "g\"",
	.least_words = 2,
	.most_words = 2,
	.options = options,
	.run = run_standing,
};
