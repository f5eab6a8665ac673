/* command_weights.c - how much each thing counts, kept in the book. */
#include "cli/fields.h"
#include "cli/figure.h"
#include "cli/table.h"

#include "cli/choose_screen.h"
#include "work/weight.h"

static const char *
owner(const struct work_weights *w, const struct work_own_weights *o)
{
	return o->part < w->parts.site.n_part ? w->parts.site.part[o->part].code
					      : "the house";
}

static void
print_weights(const struct invocation *in, const struct work_weights *w)
{
	const char *heading[WORK_CRITERIA + 1] = {"of"};
	const char *cell[WORK_CRITERIA + 1];
	struct table table;

	for (size_t k = 0; k < WORK_CRITERIA; k++)
		heading[k + 1] = work_criterion_word((enum work_criterion)k);
	table_start(&table, in->arena, heading, WORK_CRITERIA + 1, 0x1e);
	for (size_t i = 0; i < w->n_own; i++) {
		const struct work_own_weights *o = &w->own[i];

		cell[0] = owner(w, o);
		for (size_t k = 0; k < WORK_CRITERIA; k++)
			cell[k + 1] = o->is_set[k]
				? exact_figure(in->arena, o->weight[k])
				: "-";
		table_row(&table, cell);
	}
	if (w->n_own > 0 || in->csv)
		table_show(in, &table, stdout);
	if (!in->csv)
		print_folded(stdout, 0,
			w->n_own > 0
				? "\"foamwright choose\" weighs by these where "
				  "--weigh says nothing: a part with weights "
				  "of its own by those alone, any other by the "
				  "house's."
				: "Nothing is weighed yet: \"foamwright "
				  "weights BOOK --weigh cost=2\" sets it for "
				  "the house, with --part for one part.");
}

static enum err_code
list_weights(
	const struct invocation *in, const struct desk *desk, struct err *err)
{
	struct work_weights w;
	struct text text;
	struct jsonout json;

	TRY(work_weights_read(desk, in->arena, &w, err));
	if (!in->json) {
		print_weights(in, &w);
		return ERR_NONE;
	}
	json_start(in, &text, &json);
	jsonout_key(&json, "weights");
	jsonout_open_array(&json);
	for (size_t i = 0; i < w.n_own; i++) {
		jsonout_open_object(&json);
		jsonout_key_string(&json, "of", owner(&w, &w.own[i]));
		for (size_t k = 0; k < WORK_CRITERIA; k++)
			if (w.own[i].is_set[k])
				jsonout_key_number(&json,
					work_criterion_word(
						(enum work_criterion)k),
					w.own[i].weight[k]);
		jsonout_close_object(&json);
	}
	jsonout_close_array(&json);
	return json_finish(&json, err);
}

static enum err_code
run_weights(const struct invocation *in, struct err *err)
{
	struct work_weight_ask ask = {.part = invocation_value(in, "--part"),
		.drop = invocation_has(in, "--drop"),
		.typed = fields_typed(in)};
	bool write = ask.drop || invocation_has(in, "--weigh") ||
		ask.part != NULL;
	enum err_code code = ERR_NONE;
	struct desk desk;

	if (ask.typed == NULL)
		return err_memory(err);
	TRY(read_weights(in, ask.is_set, ask.weight, err));
	TRY(desk_open(in->word[0], write, in, &desk, err));
	if (write)
		code = work_weight_put(&desk, in->arena, &ask, err);
	if (code == ERR_NONE)
		code = list_weights(in, &desk, err);
	desk_close(&desk);
	return code;
}

static const struct command_option options[] = {
	{"--part", "CODE", "of that part; without it of the house", false},
	{"--weigh", "WHAT=NUMBER",
		"density, strength, cost, labour or heat; more than once",
		true},
	{"--drop", NULL, "what it had of its own, first", false}, {0}};

const struct command command_weights = {
	.name = "weights",
	.line = "how much density, strength, cost, labour and heat count",
	.help = "  foamwright weights BOOK [OPTIONS]\n\nWhat choose weighs the "
		"mixes by that do the must-haves, where --weigh says\n"
		"nothing.\n",
	.example = "foamwright weights site.book --weigh cost=2 --weigh heat=1",
	.least_words = 1,
	.most_words = 1,
	.options = options,
	.run = run_weights,
	.csv = true,
	.writes = true,
};
