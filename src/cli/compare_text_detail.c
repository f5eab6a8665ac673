/* compare_text_detail.c - what stands behind the answer, a flag away. */
#include "cli/compare_screen.h"

#include "cli/table.h"

#include <math.h>

static const char *
code_of(const struct work_compared *all, const struct work_comparison *c,
	size_t group)
{
	return all->site.mix[c->group[group].mix].code;
}

/* "1.03 (0.87-1.22)", folded after the middle where the screen is narrow. */
static const char *
ratio_cell(const struct invocation *in, const struct work_ratio *r)
{
	return r->has ? text_format(in->arena, "%.2f (%.2f-%.2f)", r->median,
				r->low, r->high)
		      : "-";
}

void
compare_print_assumptions(const struct invocation *in,
	const struct work_compared *all, const struct work_comparison *c)
{
	static const char *const head[] = {"mix", "equal\ndry weight",
		"put\nback", "mixing\nallowed for", "half the\nusual spread",
		"double the\nusual spread"};
	struct table table;

	if (!c->has_firmness)
		return;
	(void)puts("\nThe same under other assumptions, as times the baseline");
	table_start(&table, in->arena, head, 6, 0);
	for (size_t g = 0; g < c->n_group; g++) {
		const struct work_group *group = &c->group[g];
		const struct work_ratio equal = {
			.has = group->has_equal_density,
			.median = group->equal_median,
			.low = group->equal_low,
			.high = group->equal_high};
		const char *cell[] = {code_of(all, c, g),
			ratio_cell(in, &equal),
			ratio_cell(in, &group->put_back),
			ratio_cell(in, &group->adjusted),
			ratio_cell(in, &group->halved),
			ratio_cell(in, &group->doubled)};

		if (g != c->baseline)
			table_row(&table, cell);
	}
	table_print(&table, stdout);
	for (size_t g = 0; g < c->n_group; g++)
		if (c->group[g].own.has)
			print_folded(stdout, 0,
				text_format(in->arena,
					"%s beside the plain pieces of its own "
					"batches (%s): %.2f times the "
					"baseline, "
					"likely %.2f to %.2f.",
					code_of(all, c, g),
					choose_measure_name(c->group[g].own_by),
					c->group[g].own.median,
					c->group[g].own.low,
					c->group[g].own.high));
	print_folded(stdout, 0,
		"These rest on shorter runs than the main answer: the last "
		"digit may be off by one or two.");
}

void
compare_print_left_out(const struct invocation *in,
	const struct work_compared *all, const struct work_comparison *c)
{
	static const char *const head[] = {"left out\nbatch", "\nof",
		"without it\ntimes the baseline", "\nverdicts that change"};
	struct table table;

	if (c->n_left_out == 0)
		return;
	(void)puts("\nEach batch left out in turn");
	table_start(&table, in->arena, head, 4, 0);
	for (size_t i = 0; i < c->n_left_out; i++) {
		const struct work_left_out *l = &c->left_out[i];
		const char *cell[] = {all->site.batch[l->batch].code,
			code_of(all, c, l->group),
			l->ratio.has ? ratio_cell(in, &l->ratio) : "baseline",
			l->n_changed > 0 ? l->changed : "none"};

		table_row(&table, cell);
	}
	table_print(&table, stdout);
	print_folded(stdout, 0,
		"A mix's only batch cannot be left out: nothing of it would "
		"remain.");
}

static void
print_test(const struct invocation *in, const char *name,
	const struct work_test *t)
{
	if (!t->has)
		print_folded(stdout, 2,
			text_format(in->arena, "%s: not possible. %s", name,
				t->why));
	else
		print_folded(stdout, 2,
			text_format(in->arena, "%s: p = %.4g%s", name, t->p,
				t->p_error > 0
					? text_format(in->arena,
						  " (+/- %.2g, shuffled)",
						  t->p_error)
					: ""));
}

static void
print_pairs(const struct invocation *in, const struct work_compared *all,
	const struct work_comparison *c, const char *title,
	const struct work_pair_test *pair, size_t n)
{
	static const char *const head[] = {
		"mix", "against", "times", "90 %", "p"};
	struct table table;

	if (n == 0)
		return;
	print_folded(stdout, 2, title);
	table_start(&table, in->arena, head, 5, 0x1C);
	for (size_t i = 0; i < n; i++) {
		const char *cell[] = {code_of(all, c, pair[i].b),
			code_of(all, c, pair[i].a),
			text_format(in->arena, "%.2f", pair[i].ratio),
			text_format(in->arena, "%.2f-%.2f", pair[i].low,
				pair[i].high),
			text_format(in->arena, "%.4g", pair[i].p)};

		table_row(&table, cell);
	}
	table_print(&table, stdout);
}

void
compare_print_classical(const struct invocation *in,
	const struct work_compared *all, const struct work_comparison *c)
{
	const struct work_classical *k = &c->classical;

	(void)puts("\nTextbook tests, for whoever has to report them");
	print_test(
		in, "One-way analysis of variance, batch means", &k->one_way);
	print_test(in, "Kruskal-Wallis on ranks, batch means", &k->ranks);
	print_test(in, "Permutation of whole batches", &k->permutation_batches);
	print_test(in, "Permutation of single pieces", &k->permutation_pieces);
	print_folded(stdout, 2,
		"Pieces of one batch share its luck: they are not independent, "
		"and shuffling single pieces makes differences look surer than "
		"they are. Go by the batches.");
	print_pairs(in, all, c,
		"Each mix against the baseline, all at once (Dunnett), batch "
		"means:",
		k->against, k->n_against);
	print_pairs(in, all, c,
		"Every mix against every other (Tukey-Kramer), batch means:",
		k->pair, k->n_pair);
	if (k->why_not[0] != '\0')
		print_folded(stdout, 2, k->why_not);
	print_folded(stdout, 2,
		text_format(in->arena,
			"On logs; a load step counts as its middle%s.",
			k->n_open == 0
				? ""
				: text_format(in->arena,
					  ", and %zu readings without an upper "
					  "or lower end as the end they have",
					  k->n_open)));
}

void
compare_print_method(
	const struct invocation *in, const struct work_compared *all)
{
	(void)puts("\nHow it was worked out");
	print_folded(stdout, 2,
		"The log of a value is the mix's mean, plus a shift of its "
		"batch, "
		"plus a shift of the piece; a load step, a piece that broke "
		"under the hanger and one that outlasted the weights enter as "
		"the ranges they are. All that fits the readings is drawn many "
		"times; the ranges, chances and ratios count those draws. "
		"docs/methods/hierarchy.md derives it.");
	print_folded(stdout, 2,
		"Before the readings: a mix may lie anywhere within some "
		"twenty "
		"times of the middle of all; the spreads are half-normal. "
		"Weak, "
		"a choice of ours and not a finding. Source of the form: "
		"Gelman "
		"(2006), Bayesian Analysis 1, 515-534.");
	for (size_t i = 0; i < all->n_comparison; i++) {
		const struct work_comparison *c = &all->comparison[i];

		print_folded(stdout, 2,
			text_format(in->arena,
				"%s: %zu draws, worth %.0f independent ones "
				"for "
				"the worst mix (%.0f for the worst figure), "
				"R-hat %.4f; scales: mix %.3g, batches %.3g, "
				"pieces %.3g%s%s.",
				choose_measure_name(c->measure),
				c->draws.n_draw, floor(c->ess_mix_min),
				floor(c->ess_min), c->rhat_max,
				c->prior.mean_sd, c->prior.sd_batch_scale,
				c->prior.sd_specimen_scale,
				c->learnt_from[0] != '\0' ? ", learnt from "
							  : "",
				c->learnt_from));
		if (c->has_plan)
			print_folded(stdout, 4,
				text_format(in->arena,
					"The plan played 10,000 times: wrong "
					"mix %.3f +/- %.3f, winner of equals "
					"%.3f +/- %.3f times the baseline.",
					c->plan.p_wrong, c->plan.p_wrong_error,
					exp(c->plan_equal.winner),
					exp(c->plan_equal.winner) *
						c->plan_equal.winner_error));
	}
}
