/* command_budget.c - the error budget, as sentences. */
#include "cli/command.h"
#include "cli/table.h"

#include "work/budget.h"
#include "work/shelf.h"

static void
write_json(struct jsonout *json, const struct work_budget *b)
{
	jsonout_open_object(json);
	jsonout_key_string(json, "measure", choose_measure_word(b->measure));
	jsonout_key_count(json, "tests", b->n_test);
	jsonout_key_number(json, "reading", b->reading);
	jsonout_key(json, "parts");
	jsonout_open_object(json);
	for (size_t i = 0; i < b->n_part; i++)
		jsonout_key_number(json, b->part[i].name, b->part[i].ratio);
	jsonout_close_object(json);
	if (b->n_step > 0)
		jsonout_key_number(json, "step", b->step);
	if (b->has_spread) {
		jsonout_key_number(json, "pieces", b->sd_piece);
		jsonout_key_number(json, "batches", b->sd_batch);
		jsonout_key_number(json, "mix_now", b->worth.now);
		jsonout_key_number(json, "mix_read_finer", b->worth.finer);
		jsonout_key_number(
			json, "mix_more_pieces", b->worth.more_pieces);
		jsonout_key_number(
			json, "mix_more_batches", b->worth.more_batches);
	}
	jsonout_key(json, "sentences");
	jsonout_open_array(json);
	for (size_t i = 0; i < b->n_sentence; i++)
		jsonout_string(json, b->sentence[i]);
	jsonout_close_array(json);
	jsonout_close_object(json);
}

static enum err_code
print_json(const struct invocation *in, const struct work_budgets *all,
	struct err *err)
{
	struct text text;
	struct jsonout json;

	json_start(in, &text, &json);
	jsonout_key(&json, "budgets");
	jsonout_open_array(&json);
	for (size_t i = 0; i < all->n; i++)
		write_json(&json, &all->budget[i]);
	jsonout_close_array(&json);
	return json_finish(&json, err);
}

static enum err_code
run_budget(const struct invocation *in, struct err *err)
{
	struct work_budgets all;
	struct desk desk;
	enum err_code code;

	TRY(desk_open(in->word[0], false, in, &desk, err));
	code = work_budgets(&desk, in->arena,
		in->n_word > 1 ? in->word[1] : NULL, &all, err);
	desk_close(&desk);
	if (code != ERR_NONE)
		return code;
	if (in->json)
		return print_json(in, &all, err);
	for (size_t i = 0; i < all.n; i++) {
		const struct work_budget *b = &all.budget[i];

		(void)printf("%s, %zu test%s:\n",
			choose_measure_name(b->measure), b->n_test,
			b->n_test == 1 ? "" : "s");
		for (size_t k = 0; k < b->n_sentence; k++)
			print_folded(stdout, 2, b->sentence[k]);
	}
	return ERR_NONE;
}

const struct command command_budget = {
	.name = "budget",
	.line = "what rule, weights, steps and batches each leave open",
	.help = "  foamwright budget BOOK [PIECE]\n\nThe error budget of the "
		"bench: what each instrument does to a figure, what\n"
		"pieces and batches differ by, and which of them is worth "
		"improving.\n",
	.example = "foamwright budget site.book",
	.least_words = 1,
	.most_words = 2,
	.run = run_budget,
};
