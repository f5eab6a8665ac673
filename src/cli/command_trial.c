/* command_trial.c - a fair trial planned and shown. */
#include "cli/fields.h"
#include "cli/table.h"

#include "work/shelf.h"
#include "work/trial.h"

#include "choose/validity.h"

#include <string.h>

#define AT(member) offsetof(struct work_trial_ask, member)
static const struct field fields[] = {
	{"--question", FIELD_TEXT, UNIT_NUMBER, AT(question)},
	{"--baseline", FIELD_TEXT, UNIT_NUMBER, AT(baseline)},
	{"--batches", FIELD_WHOLE, UNIT_NUMBER, AT(batches)},
	{"--pieces", FIELD_WHOLE, UNIT_NUMBER, AT(pieces)},
	{"--per-day", FIELD_WHOLE, UNIT_NUMBER, AT(per_day)},
	{"--seed", FIELD_WHOLE, UNIT_NUMBER, AT(seed)},
};
#undef AT

static const struct command_option options[] = {
	{"--baseline", "MIX", "the mix all others are held against", false},
	{"--mix", "MIX", "a mix to compare; give each", true},
	{"--batches", "N", "of each mix (2)", false},
	{"--pieces", "N", "test pieces of each batch (3)", false},
	{"--per-day", "N", "batches that can be made in a day (4)", false},
	{"--question", "TEXT", "what the trial is to answer", false},
	{"--seed", "N", "draws the order; the same seed, the same order",
		false},
	{0}};

static const struct book_mix *
mix_of_slot(const struct work_mixer *m, const struct book_trial_slot *slot)
{
	for (size_t i = 0; i < m->site.n_mix; i++)
		if (m->site.mix[i].row.id == slot->mix_id)
			return &m->site.mix[i];
	return NULL;
}

static bool
is_made(const struct work_mixer *m, const struct book_trial_slot *slot)
{
	struct err unknown = {.code = ERR_NONE};
	size_t at;

	return work_find_batch(m, slot->batch_code, &at, &unknown) == ERR_NONE;
}

static void
print_rule(const struct invocation *in, const struct book_rule *rule)
{
	enum choose_rule_measure measure;

	if (choose_rule_find(rule->measure, &measure))
		print_folded(stdout, 0,
			text_format(in->arena,
				"Rule of %s: %s more than %g %%: %s (%s).",
				rule->set_on, choose_rule_words(measure),
				rule->above * 100,
				strcmp(rule->action, "exclude") == 0
					? "not compared"
					: "compared and marked",
				rule->reason));
}

static void
print_plan(const struct invocation *in, const struct work_mixer *m,
	const struct work_trial_told *told)
{
	static const char *const heading[] = {"day", "batch", "mix", "", ""};
	struct table table;

	table_start(&table, in->arena, heading, 5, 1);
	for (size_t i = 0; i < told->n_batch; i++) {
		const struct book_trial_slot *slot = &m->slot[told->slot[i]];
		const struct book_mix *mix = mix_of_slot(m, slot);
		const char *cell[] = {
			text_format(in->arena, "%d", (int)slot->day),
			slot->batch_code, mix != NULL ? mix->code : "",
			mix != NULL ? mix->name : "",
			is_made(m, slot) ? "made" : ""};

		table_row(&table, cell);
	}
	table_print(&table, stdout);
	for (size_t i = 0; i < told->n_sentence; i++)
		print_folded(stdout, 0, told->sentence[i]);
	for (size_t i = 0; i < m->site.n_rule; i++)
		if (m->site.rule[i].trial_id ==
			m->site.trial[told->trial].row.id)
			print_rule(in, &m->site.rule[i]);
}

static enum err_code
print_plan_json(const struct invocation *in, const struct work_mixer *m,
	const struct work_trial_told *told, struct err *err)
{
	struct text text;
	struct jsonout json;

	json_start(in, &text, &json);
	jsonout_key_string(&json, "trial", m->site.trial[told->trial].code);
	jsonout_key(&json, "batches");
	jsonout_open_array(&json);
	for (size_t i = 0; i < told->n_batch; i++) {
		const struct book_trial_slot *slot = &m->slot[told->slot[i]];
		const struct book_mix *mix = mix_of_slot(m, slot);

		jsonout_open_object(&json);
		jsonout_key_count(&json, "day", (uint64_t)slot->day);
		jsonout_key_string(&json, "batch", slot->batch_code);
		jsonout_key_string(&json, "mix", mix != NULL ? mix->code : "");
		jsonout_key_bool(&json, "made", is_made(m, slot));
		jsonout_close_object(&json);
	}
	jsonout_close_array(&json);
	jsonout_key(&json, "shows_ratio");
	jsonout_number(&json, told->shows_ratio);
	return json_finish(&json, err);
}

static enum err_code
plan(const struct invocation *in, const struct desk *desk, struct err *err)
{
	struct work_trial_ask ask = {
		.code = in->word[1], .typed = fields_typed(in)};
	const char **mix = arena_take(in->arena, GIVEN_MOST, sizeof *mix);
	size_t at = 0;

	if (ask.typed == NULL || mix == NULL)
		return err_memory(err);
	for (const char *code = invocation_next(in, "--mix", &at); code != NULL;
		code = invocation_next(in, "--mix", &at))
		mix[ask.n_mix++] = code;
	ask.mix = mix;
	TRY(fields_read(
		in, fields, sizeof fields / sizeof fields[0], &ask, err));
	return work_trial_plan(desk, in->arena, &ask, err);
}

static enum err_code
show(const struct invocation *in, const struct desk *desk, struct err *err)
{
	struct work_trial_spread spread;
	struct work_trial_told told;
	struct work_mixer m;
	size_t trial;

	TRY(work_mixer_read(desk, in->arena, &m, err));
	TRY(work_find_trial(&m, in->word[1], &trial, err));
	TRY(work_trial_spread(desk, in->arena, &spread, err));
	TRY(work_trial_show(&m, in->arena, trial, &spread, &told, err));
	if (in->json)
		return print_plan_json(in, &m, &told, err);
	print_plan(in, &m, &told);
	return ERR_NONE;
}

static enum err_code
run_trial(const struct invocation *in, struct err *err)
{
	bool write = in->n_given > 0;
	struct desk desk;
	enum err_code code = ERR_NONE;

	TRY(desk_open(in->word[0], write, in, &desk, err));
	if (write)
		code = plan(in, &desk, err);
	if (code == ERR_NONE)
		code = show(in, &desk, err);
	desk_close(&desk);
	return code;
}

const struct command command_trial = {
	.name = "trial",
	.line = "plans a fair trial: drawn order, repeated baseline, rules",
	.help = "  foamwright trial BOOK CODE             shows the plan\n"
		"  foamwright trial BOOK CODE OPTIONS     draws it, once\n\n"
		"The batch is what counts: two batches of three pieces tell "
		"more than one of six.\nRules of validity are fixed with "
		"today's date, before anything is cast.\n",
	.example = "foamwright trial site.book T1 --baseline P --mix S --mix L "
		   "--batches 2 --per-day 3",
	.least_words = 2,
	.most_words = 2,
	.options = options,
	.run = run_trial,
	.writes = true,
};
