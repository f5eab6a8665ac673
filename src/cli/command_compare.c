/* command_compare.c - every mix against the baseline, as a builder reads it. */
#include "cli/command.h"

#include "cli/figure.h"
#include "cli/table.h"
#include "core/unit.h"
#include "work/compare.h"

#include <string.h>

static const char *
chance(const struct invocation *in, double p)
{
	if (p > 0.995)
		return ">99 %";
	if (p < 0.005)
		return "<1 %";
	return text_format(in->arena, "%.0f %%", 100 * p);
}

static void
print_groups(const struct invocation *in, const struct work_compared *all,
	const struct work_comparison *c)
{
	static const char *const heading[] = {"mix", "batches", "pieces",
		"likely", "ratio", "likely", "better", "verdict"};
	struct table table;

	table_start(&table, in->arena, heading, 8, 0x7E);
	for (size_t i = 0; i < c->n_group; i++) {
		const struct work_group *g = &c->group[i];
		bool base = i == c->baseline;
		const char *cell[] = {all->site.mix[g->mix].code,
			text_format(in->arena, "%zu", g->n_batch),
			text_format(in->arena, "%zu%s", g->n_value,
				g->n_excluded > 0 ? "-" : ""),
			text_format(in->arena, "%s-%s",
				figure_bare(
					in->arena, c->measure, g->answer.low),
				figure_bare(
					in->arena, c->measure, g->answer.high)),
			base ? "1"
			     : text_format(in->arena, "%.2f",
				       g->answer.ratio_median),
			base ? ""
			     : text_format(in->arena, "%.2f-%.2f",
				       g->answer.ratio_low,
				       g->answer.ratio_high),
			base ? "" : chance(in, g->answer.p_better),
			choose_verdict_words(g->verdict)};

		table_row(&table, cell);
	}
	table_print(&table, stdout);
}

static void
print_equal(const struct invocation *in, const struct work_compared *all,
	const struct work_comparison *c)
{
	for (size_t i = 0; i < c->n_group; i++) {
		const struct work_group *g = &c->group[i];

		if (!g->has_equal_density || i == c->baseline)
			continue;
		print_folded(stdout, 2,
			text_format(in->arena,
				"%s at equal dry weight (its own %.0f kg/m3): "
				"%.2f "
				"times the baseline, likely %.2f to %.2f.",
				all->site.mix[g->mix].code, g->density_kg_m3,
				g->equal_median, g->equal_low, g->equal_high));
	}
	for (size_t i = 0; i < c->n_group; i++)
		if (c->group[i].has_with_excluded)
			print_folded(stdout, 2,
				text_format(in->arena,
					"%s with the %zu excluded put back: "
					"%.2f times "
					"the baseline.",
					all->site.mix[c->group[i].mix].code,
					c->group[i].n_excluded,
					c->group[i].ratio_with_excluded));
}

static void
print_comparison(const struct invocation *in, const struct work_compared *all,
	const struct work_comparison *c)
{
	(void)printf("\n%s [%s]%s\n", choose_measure_name(c->measure),
		choose_measure_unit(c->measure),
		choose_measure_larger_is_better(c->measure)
			? ""
			: " (less is better)");
	print_groups(in, all, c);
	for (size_t i = 0; i < c->n_group; i++)
		if (c->group[i].with[0] != '\0')
			print_folded(stdout, 2,
				text_format(in->arena,
					"%s counts the plain pieces of %s too: "
					"the same "
					"material around the steel or mesh.",
					all->site.mix[c->group[i].mix].code,
					c->group[i].with));
	print_equal(in, all, c);
	for (size_t i = 0; i < c->n_sentence; i++)
		print_folded(stdout, 2, c->sentence[i]);
	if (c->lacks[0] != '\0')
		print_folded(stdout, 2, c->lacks);
	if (c->rhat_max > 1.01 || c->ess_min < 400)
		print_folded(stdout, 2,
			"The computation has not settled: do not trust these "
			"figures. Try another --seed, and tell us.");
}

static void
print_breakage(const struct invocation *in, const struct work_compared *all)
{
	(void)puts("\nBeams snapped before their test");
	for (size_t m = 0; m < all->site.n_mix; m++) {
		const struct work_breakage *b = &all->breakage[m];

		if (b->n_cast == 0)
			continue;
		print_folded(stdout, 2,
			text_format(in->arena,
				"%s: %zu of %zu (true rate likely %.0f to %.0f "
				"%%)%s",
				all->site.mix[m].code, b->n_broken, b->n_cast,
				100 * b->low, 100 * b->high,
				b->n_broken > 0
					? text_format(in->arena,
						  "; chance alone would give "
						  "this in "
						  "%.2g of 100 trials",
						  100 * b->p_more_by_chance)
					: ""));
	}
}

static void
print_after(const struct invocation *in, const struct work_compared *all)
{
	if (all->n_after > 0)
		(void)puts("\nHeld after the first crack (hanger included)");
	for (size_t i = 0; i < all->n_after; i++) {
		const struct work_after_crack *a = &all->after[i];

		print_folded(stdout, 2,
			text_format(in->arena,
				"%s: %.0f to %s%.0f kg over %zu beams, %.1f to "
				"%.1f "
				"times the load of the crack",
				all->site.mix[a->mix].code, a->least_kg,
				a->most_open ? "more than " : "", a->most_kg,
				a->n, a->least_ratio, a->most_ratio));
	}
}

static void
print_excluded(const struct invocation *in, const struct work_compared *all)
{
	(void)puts("Left out, by rule or reason:");
	for (size_t i = 0; i < all->site.n_batch; i++)
		if (all->results.validity[i].excluded)
			print_folded(stdout, 2,
				text_format(in->arena, "batch %s (%s): %s",
					all->site.batch[i].code,
					all->site.mix[all->site.batch_mix[i]]
						.code,
					all->results.validity[i].reason));
	for (size_t i = 0; i < all->site.n_specimen; i++) {
		const struct book_specimen *s = &all->site.specimen[i];

		if (strcmp(s->fate, "tested") != 0 &&
			strcmp(s->fate, "waiting") != 0)
			print_folded(stdout, 2,
				text_format(
					in->arena, "%s: %s", s->code, s->fate));
	}
}

static void
print_text(const struct invocation *in, const struct work_compared *all)
{
	print_excluded(in, all);
	for (size_t i = 0; i < all->n_comparison; i++)
		print_comparison(in, all, &all->comparison[i]);
	if (all->exponent.has) {
		(void)putchar('\n');
		print_folded(stdout, 0,
			text_format(in->arena,
				"Strength goes with dry weight to the power "
				"%.1f "
				"(likely %.1f to %.1f), from %s%s.",
				all->exponent.median, all->exponent.low,
				all->exponent.high, all->exponent.mixes,
				all->exponent.borrowed
					? "; borrowed from usual practice, "
					  "since the "
					  "weights are too much alike"
					: ""));
	}
	print_breakage(in, all);
	print_after(in, all);
	(void)putchar('\n');
	for (size_t i = 0; i < all->n_caution; i++)
		print_folded(stdout, 0, all->caution[i]);
}

static void
write_group(struct jsonout *json, const struct work_compared *all,
	const struct work_group *g)
{
	jsonout_open_object(json);
	jsonout_key_string(json, "mix", all->site.mix[g->mix].code);
	jsonout_key_string(json, "with", g->with);
	jsonout_key_count(json, "batches", g->n_batch);
	jsonout_key_count(json, "pieces", g->n_value);
	jsonout_key_count(json, "excluded", g->n_excluded);
	jsonout_key_number(json, "median", g->answer.median);
	jsonout_key_number(json, "low", g->answer.low);
	jsonout_key_number(json, "high", g->answer.high);
	jsonout_key_number(json, "ratio", g->answer.ratio_median);
	jsonout_key_number(json, "ratio_low", g->answer.ratio_low);
	jsonout_key_number(json, "ratio_high", g->answer.ratio_high);
	jsonout_key_number(json, "p_better", g->answer.p_better);
	jsonout_key_number(json, "p_best", g->answer.p_best);
	jsonout_key_number(json, "regret", g->answer.regret);
	jsonout_key_string(json, "verdict", choose_verdict_word(g->verdict));
	if (g->has_equal_density) {
		jsonout_key_number(json, "ratio_equal_weight", g->equal_median);
		jsonout_key_number(
			json, "ratio_equal_weight_low", g->equal_low);
		jsonout_key_number(
			json, "ratio_equal_weight_high", g->equal_high);
	}
	jsonout_close_object(json);
}

static enum err_code
print_json(const struct invocation *in, const struct work_compared *all,
	struct err *err)
{
	struct text text;
	struct jsonout json;

	text_init(&text, in->arena);
	jsonout_init(&json, &text);
	jsonout_open_object(&json);
	jsonout_key(&json, "comparisons");
	jsonout_open_array(&json);
	for (size_t i = 0; i < all->n_comparison; i++) {
		const struct work_comparison *c = &all->comparison[i];

		jsonout_open_object(&json);
		jsonout_key_string(
			&json, "measure", choose_measure_word(c->measure));
		jsonout_key_string(&json, "unit",
			unit_si_word(choose_measure_kind(c->measure)));
		jsonout_key_number(&json, "rhat_max", c->rhat_max);
		jsonout_key_number(&json, "ess_min", c->ess_min);
		jsonout_key(&json, "mixes");
		jsonout_open_array(&json);
		for (size_t g = 0; g < c->n_group; g++)
			write_group(&json, all, &c->group[g]);
		jsonout_close_array(&json);
		jsonout_close_object(&json);
	}
	jsonout_close_array(&json);
	jsonout_close_object(&json);
	if (jsonout_failed(&json))
		return err_report(err, ERR_NUMERIC, "compare",
			"The comparison has no finite answer.");
	(void)puts(text.bytes);
	return ERR_NONE;
}

static enum err_code
run_compare(const struct invocation *in, struct err *err)
{
	struct work_compared all;
	struct desk desk;
	enum err_code code;

	TRY(desk_open(in->word[0], false, in, &desk, err));
	code = work_compare(&desk, in->arena, &all, err);
	desk_close(&desk);
	if (code != ERR_NONE)
		return code;
	if (in->json)
		return print_json(in, &all, err);
	print_text(in, &all);
	return ERR_NONE;
}

static const struct command_option compare_options[] = {
	{"--seed", "N", "of the random draws (1)", false}, {0}};

const struct command command_compare = {
	.name = "compare",
	.line = "every mix against the baseline, with how sure that is",
	.help = "  foamwright compare BOOK [OPTIONS]\n\nIntervals "
		"hold with 90 in 100. docs/methods/hierarchy.md has the model."
		"\n",
	.example = "foamwright compare site.book",
	.least_words = 1,
	.most_words = 1,
	.options = compare_options,
	.run = run_compare,
};
