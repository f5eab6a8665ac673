/* command_batch.c - a batch recorded as it is made. */
#include "cli/fields.h"
#include "cli/table.h"

#include "work/batch.h"
#include "work/shelf.h"

#include <string.h>

#define AT(member) offsetof(struct work_batch_ask, member)
static const struct field fields[] = {
	{"--mix", FIELD_TEXT, UNIT_NUMBER, AT(mix)},
	{"--trial", FIELD_TEXT, UNIT_NUMBER, AT(trial)},
	{"--generator", FIELD_TEXT, UNIT_NUMBER, AT(generator)},
	{"--on", FIELD_DATE, UNIT_NUMBER, AT(made_on)},
	{"--remark", FIELD_TEXT, UNIT_NUMBER, AT(remark)},
	{"--volume", FIELD_MAYBE, UNIT_VOLUME, AT(wanted_m3)},
	{"--foam", FIELD_MAYBE, UNIT_VOLUME, AT(foam_m3)},
	{"--foam-time", FIELD_MAYBE, UNIT_TIME, AT(foam_s)},
	{"--foam-start", FIELD_MAYBE, UNIT_DENSITY, AT(foam_start_kg_m3)},
	{"--foam-middle", FIELD_MAYBE, UNIT_DENSITY, AT(foam_middle_kg_m3)},
	{"--foam-end", FIELD_MAYBE, UNIT_DENSITY, AT(foam_end_kg_m3)},
	{"--slurry", FIELD_MAYBE, UNIT_DENSITY, AT(slurry_kg_m3)},
	{"--wet", FIELD_MAYBE, UNIT_DENSITY, AT(wet_kg_m3)},
	{"--filled", FIELD_MAYBE, UNIT_VOLUME, AT(volume_m3)},
	{"--blending", FIELD_MAYBE, UNIT_TIME, AT(blending_s)},
	{"--air", FIELD_MAYBE, UNIT_TEMPERATURE, AT(air_degc)},
	{"--temperature", FIELD_MAYBE, UNIT_TEMPERATURE, AT(slurry_degc)},
	{"--hardness", FIELD_MAYBE, UNIT_CONCENTRATION, AT(hardness_kg_m3)},
	{"--spread", FIELD_MAYBE, UNIT_LENGTH, AT(spread_m)},
	{"--consistency", FIELD_WHOLE, UNIT_NUMBER, AT(consistency)},
	{"--set-time", FIELD_MAYBE, UNIT_TIME, AT(set_s)},
	{"--since-foam", FIELD_MAYBE, UNIT_TIME, AT(since_foam_s)},
};
#undef AT

static const struct command_option options[] = {
	{"--mix", "MIX", "of which mix, if it is not planned", false},
	{"--trial", "TRIAL", "of which trial, if it is not planned", false},
	{"--practice", NULL, "learning, never compared; say so before mixing",
		false},
	{"--put", "CODE=MASS", "what went in, as weighed", true},
	{"--lot", "CODE=LOT", "of which delivery it was", true},
	{"--as-sheet", NULL, "what the sheet says went in", false},
	{"--volume", "VOLUME", "of that sheet", false},
	{"--generator", "CODE", "the foam generator", false},
	{"--foam", "VOLUME", "foam that went in", false},
	{"--foam-time", "TIME", "or how long the generator ran", false},
	{"--foam-start", "DENSITY", "the foam at the start of the run", false},
	{"--foam-middle", "DENSITY", "in the middle", false},
	{"--foam-end", "DENSITY", "at the end", false},
	{"--slurry", "DENSITY", "before the foam went in", false},
	{"--wet", "DENSITY", "after blending: what to do now", false},
	{"--since-foam", "TIME", "how long ago the foam went in", false},
	{"--blending", "TIME", "how long foam was folded in", false},
	{"--filled", "VOLUME", "what the forms took", false},
	{"--loss", "AFTER=SHARE", "height lost, such as 24h=2%", true},
	{"--set-time", "TIME", "until a thumb left no dent", false},
	{"--air", "T", "temperature of the air", false},
	{"--temperature", "T", "of the slurry", false},
	{"--hardness", "MG/L", "of the water", false},
	{"--spread", "LENGTH", "of the slurry on glass", false},
	{"--consistency", "1-5", "from runny to stands in peaks", false},
	{"--on", "DATE", "when it was made", false},
	{"--remark", "TEXT", "a remark", false}, {0}};

/* The lot of what was put in with --put. */
static enum err_code
read_lots(const struct invocation *in, struct work_put_in *put, size_t n,
	struct err *err)
{
	size_t at = 0;

	for (const char *text = invocation_next(in, "--lot", &at); text != NULL;
		text = invocation_next(in, "--lot", &at)) {
		const char *code, *lot;
		size_t i = 0;

		TRY(field_pair(in, "--lot", text, &code, &lot, err));
		while (i < n && strcmp(put[i].code, code) != 0)
			i++;
		if (i == n)
			return err_report(err, ERR_INPUT, "--lot",
				"The lot of %s goes with what of it went in: "
				"--put %s=MASS.",
				code, code);
		put[i].lot = lot;
	}
	return ERR_NONE;
}

static enum err_code
read_put_in(const struct invocation *in, struct work_batch_ask *ask,
	struct err *err)
{
	struct work_put_in *put = arena_take(
		in->arena, GIVEN_MOST, sizeof *put);
	size_t at = 0;

	if (put == NULL)
		return err_memory(err);
	for (const char *text = invocation_next(in, "--put", &at); text != NULL;
		text = invocation_next(in, "--put", &at)) {
		struct work_put_in *p = &put[ask->n_put_in++];
		const char *value;

		p->lot = "";
		TRY(field_pair(in, "--put", text, &p->code, &value, err));
		TRY(unit_read(value, UNIT_MASS, NULL, &p->kg, err));
		if (!(p->kg > 0))
			return err_report(err, ERR_INPUT, "--put",
				"%s: what went in must be more than nothing.",
				text);
	}
	ask->put_in = put;
	return read_lots(in, put, ask->n_put_in, err);
}

static enum err_code
read_losses(const struct invocation *in, struct work_batch_ask *ask,
	struct err *err)
{
	const struct unit_rules rules = {.may_be_negative = true};
	struct work_settled *s = arena_take(in->arena, GIVEN_MOST, sizeof *s);
	size_t at = 0;

	if (s == NULL)
		return err_memory(err);
	for (const char *text = invocation_next(in, "--loss", &at);
		text != NULL; text = invocation_next(in, "--loss", &at)) {
		struct work_settled *one = &s[ask->n_settled++];
		const char *after, *share;

		TRY(field_pair(in, "--loss", text, &after, &share, err));
		TRY(unit_read(after, UNIT_TIME, NULL, &one->after_s, err));
		TRY(unit_read(
			share, UNIT_RATIO, &rules, &one->loss_ratio, err));
		if (!(one->loss_ratio > -1 && one->loss_ratio < 1))
			return err_report(err, ERR_INPUT, "--loss",
				"%s: a loss is a share of the height, such as "
				"24h=2%%.",
				text);
	}
	ask->settled = s;
	return ERR_NONE;
}

static enum err_code
print_json(const struct invocation *in, const struct work_batch_told *told,
	struct err *err)
{
	static const char *const verdicts[] = {
		"cast", "add foam", "add slurry", "other"};
	struct text text;
	struct jsonout json;

	json_start(in, &text, &json);
	jsonout_key_string(&json, "batch", in->word[1]);
	jsonout_key_bool(&json, "made", told->made);
	if (told->has_rescue) {
		jsonout_key_string(
			&json, "verdict", verdicts[told->rescue.verdict]);
		jsonout_key_quantity(&json, "add", told->rescue.add.m3, "m3");
	}
	if (told->has_survival)
		jsonout_key_number(
			&json, "foam_survival", told->survival_ratio);
	jsonout_key(&json, "sentences");
	jsonout_open_array(&json);
	for (size_t i = 0; i < told->n_sentence; i++)
		jsonout_string(&json, told->sentence[i]);
	jsonout_close_array(&json);
	return json_finish(&json, err);
}

static void
print_told(const struct invocation *in, const struct work_batch_told *told)
{
	const struct work_mixer *m = &told->m;
	const struct book_batch *b = &m->site.batch[told->batch];

	(void)printf("%s batch %s of mix %s%s.\n",
		told->made ? "Recorded" : "Added to", in->word[1],
		m->site.mix[m->site.batch_mix[told->batch]].code,
		b->practice ? ", practice" : "");
	if (told->has_survival)
		(void)printf("%.0f %% of the foam's air outlived the mixing.\n",
			told->survival_ratio * 100);
	for (size_t i = 0; i < told->n_sentence; i++)
		print_folded(stdout, 0, told->sentence[i]);
}

static enum err_code
record(const struct invocation *in, const struct desk *desk, struct err *err)
{
	struct work_batch_ask ask = {.code = in->word[1],
		.practice = invocation_has(in, "--practice"),
		.as_sheet = invocation_has(in, "--as-sheet"),
		.typed = fields_typed(in)};
	struct work_batch_told told;

	if (ask.typed == NULL)
		return err_memory(err);
	TRY(fields_read(
		in, fields, sizeof fields / sizeof fields[0], &ask, err));
	TRY(read_put_in(in, &ask, err));
	TRY(read_losses(in, &ask, err));
	TRY(work_batch_record(desk, in->arena, &ask, &told, err));
	if (in->json)
		return print_json(in, &told, err);
	print_told(in, &told);
	return ERR_NONE;
}

static enum err_code
run_batch(const struct invocation *in, struct err *err)
{
	struct desk desk;
	enum err_code code;

	TRY(desk_open(in->word[0], true, in, &desk, err));
	code = record(in, &desk, err);
	desk_close(&desk);
	return code;
}

const struct command command_batch = {
	.name = "batch",
	.line = "records a batch as it is made, and says what to do now",
	.help = "  foamwright batch BOOK CODE [OPTIONS]\n\nCall it again as "
		"more is known; what was said stays. With --wet it says at "
		"once\nwhether to cast, what to add and how long there is.\n",
	.example = "foamwright batch site.book T1-03 --as-sheet --wet \"741 "
		   "kg/m3\" --since-foam \"4 min\"",
	.least_words = 2,
	.most_words = 2,
	.options = options,
	.run = run_batch,
	.writes = true,
};
