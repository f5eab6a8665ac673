/* compare_text.c - the comparison as a mason reads it: the answer first. */
#include "cli/compare_screen.h"

#include "cli/figure.h"
#include "cli/table.h"
#include "cli/terminal.h"

#include <string.h>

enum { WIDE = 112, NAMED = 16 };

/* Short headings of measures, in two lines of at most 8 columns. */
static const char *
short_name(enum choose_measure measure)
{
	switch (measure) {
	case CHOOSE_BENDING_STRENGTH:
		return "bending";
	case CHOOSE_BREAKING_LOAD:
		return "breaking\nload";
	case CHOOSE_CRUSHING_STRENGTH:
		return "crushing";
	case CHOOSE_CRUSHING_LOAD:
		return "crushing\nload";
	case CHOOSE_CRUSHING_ENERGY:
		return "energy\nto crush";
	case CHOOSE_DENT:
		return "dent*";
	case CHOOSE_DRY_DENSITY:
		return "dry\nweight*";
	case CHOOSE_SCREW_PULL:
		return "screw\npull";
	case CHOOSE_WATER_TAKEN_UP:
		return "water*";
	case CHOOSE_WATER_DRAWN_UP:
		return "drawn\nup*";
	case CHOOSE_DRYING_SHRINKAGE:
		return "shrink*";
	case CHOOSE_FROST_LOSS:
		return "frost*";
	case CHOOSE_SETTLING_LOSS:
		return "settling*";
	case CHOOSE_CONDUCTIVITY:
		return "lambda*";
	case CHOOSE_COST:
		return "cost*";
	case CHOOSE_BREAKAGE:
		return "breakage*";
	}
	return "";
}

static const char *
code_of(const struct work_compared *all, const struct work_group *g)
{
	return all->site.mix[g->mix].code;
}

static const char *
chance(const struct invocation *in, double p)
{
	if (p > 0.995)
		return ">99";
	if (p < 0.005)
		return "<1";
	return text_format(in->arena, "%.0f", 100 * p);
}

static const char *
range(const struct invocation *in, double low, double high)
{
	return text_format(in->arena, "%.2f-%.2f", low, high);
}

static enum tint
tint_of(enum choose_verdict verdict)
{
	switch (verdict) {
	case CHOOSE_CLEARLY_BETTER:
		return TINT_GOOD;
	case CHOOSE_LOOKS_BETTER:
		return TINT_DOUBT;
	case CHOOSE_WORSE:
	case CHOOSE_COULD_NOT_BE_MADE:
		return TINT_BAD;
	case CHOOSE_IS_BASELINE:
	case CHOOSE_CANNOT_TELL:
		break;
	}
	return TINT_NONE;
}

/* Does group a stand above group b?  The baseline first, then by the end of the
 * likely range that is nearer to bad. */
static bool
stands_above(const struct work_comparison *c, size_t a, size_t b)
{
	const struct stats_mix_answer *x = &c->group[a].answer;
	const struct stats_mix_answer *y = &c->group[b].answer;

	if (a == c->baseline || b == c->baseline)
		return a == c->baseline && b != c->baseline;
	if (choose_measure_larger_is_better(c->measure))
		return x->low > y->low;
	return x->high < y->high;
}

static size_t *
order_groups(const struct invocation *in, const struct work_comparison *c)
{
	size_t *order = arena_take(in->arena, c->n_group, sizeof *order);

	for (size_t i = 0; i < c->n_group && order != NULL; i++) {
		size_t k = i;

		for (; k > 0 && stands_above(c, i, order[k - 1]); k--)
			order[k] = order[k - 1];
		order[k] = i;
	}
	return order;
}

/* A table of which some columns are only for wide screens. */
struct cells {
	const char *cell[TABLE_COLUMNS_MOST];
	size_t n;
	bool wide;
};

static void
put(struct cells *to, bool only_wide, const char *text)
{
	if ((!only_wide || to->wide) && to->n < TABLE_COLUMNS_MOST)
		to->cell[to->n++] = text;
}

static void
add_group(const struct invocation *in, const struct work_compared *all,
	const struct work_comparison *c, size_t at, bool wide,
	struct table *table)
{
	const struct work_group *g = &c->group[at];
	const bool has = c->baseline < c->n_group && at != c->baseline;
	struct cells row = {.n = 0, .wide = wide};

	put(&row, false, code_of(all, g));
	put(&row, true, all->site.mix[g->mix].name);
	put(&row, false,
		text_format(in->arena, "%zu/%zu%s", g->n_batch, g->n_value,
			g->n_excluded > 0 ? "-" : ""));
	put(&row, true, figure_bare(in->arena, c->measure, g->answer.median));
	put(&row, false,
		text_format(in->arena, "%s-%s",
			figure_bare(in->arena, c->measure, g->answer.low),
			figure_bare(in->arena, c->measure, g->answer.high)));
	put(&row, false,
		at == c->baseline ? "1"
			: has
			? text_format(in->arena, "%.2f", g->answer.ratio_median)
			: "");
	put(&row, false,
		has ? range(in, g->answer.ratio_low, g->answer.ratio_high)
		    : "");
	put(&row, false, has ? chance(in, g->answer.p_better) : "");
	put(&row, false, has ? chance(in, g->p_much) : "");
	put(&row, false, chance(in, g->answer.p_best));
	put(&row, true,
		text_format(in->arena, "%.0f %%", 100 * g->answer.regret));
	put(&row, false, choose_verdict_words(g->verdict));
	table_row_tinted(table, row.cell, tint_of(g->verdict));
}

/* "B Baseline, D Dense": what the letters stand for. */
static void
print_names(const struct invocation *in, const struct work_compared *all,
	const struct work_comparison *c)
{
	struct text text;

	text_init(&text, in->arena);
	for (size_t g = 0; g < c->n_group && c->n_group <= NAMED; g++)
		text_addf(&text, "%s%s %s", g > 0 ? ", " : "",
			code_of(all, &c->group[g]),
			all->site.mix[c->group[g].mix].name);
	if (!text_failed(&text) && text.n > 0)
		print_folded(
			stdout, 0, text_format(in->arena, "%s.", text.bytes));
}

static void
print_groups(const struct invocation *in, const struct work_compared *all,
	const struct work_comparison *c)
{
	const size_t *order = order_groups(in, c);
	struct cells head = {.n = 0, .wide = terminal_width(stdout) >= WIDE};
	const char *base = c->baseline < c->n_group
		? code_of(all, &c->group[c->baseline])
		: "-";
	struct text shown;
	struct table table;

	text_init(&shown, in->arena);
	text_add_shown(&shown, base);
	put(&head, false, "\nmix");
	put(&head, true, "\nname");
	put(&head, false, "batch/\npiece");
	put(&head, true, "\nmiddle");
	put(&head, false,
		text_format(in->arena, "likely\n%s",
			choose_measure_unit(c->measure)));
	put(&head, false,
		text_format(in->arena, "times\n%.12s",
			text_failed(&shown) ? "-" : shown.bytes));
	put(&head, false, "\nlikely");
	put(&head, false, "chance\nbetter");
	put(&head, false, "in 100\nmuch");
	put(&head, false, "\nbest");
	put(&head, true, "gives\nup");
	put(&head, false, "\nverdict");
	table_start(
		&table, in->arena, head.cell, head.n, head.wide ? 0x7FC : 0xFE);
	for (size_t i = 0; i < c->n_group && order != NULL; i++)
		add_group(in, all, c, order[i], head.wide, &table);
	table_print(&table, stdout);
	if (!head.wide)
		print_names(in, all, c);
	print_folded(stdout, 0,
		text_format(in->arena,
			"Likely: with 9 chances in 10. Much: by 20 %% or more. "
			"Best: of all mixes here.%s",
			head.wide
				? " Gives up: what taking this mix is expected "
				  "to lose beside the best one."
				: ""));
}

/* "-" behind the pieces: which were left out, and why. */
static void
print_reasons(const struct invocation *in, const struct work_compared *all,
	const struct work_comparison *c)
{
	struct text text;

	text_init(&text, in->arena);
	for (size_t g = 0; g < c->n_group; g++)
		for (size_t k = 0; k < c->group[g].n_reason; k++)
			text_addf(&text, "%s%zu of %s (%s)",
				text.n > 0 ? "; " : "- Left out: ",
				c->group[g].reason[k].n,
				code_of(all, &c->group[g]),
				c->group[g].reason[k].why);
	if (!text_failed(&text) && text.n > 0)
		print_folded(
			stdout, 0, text_format(in->arena, "%s.", text.bytes));
	for (size_t g = 0; g < c->n_group; g++)
		if (c->group[g].with[0] != '\0')
			print_folded(stdout, 0,
				text_format(in->arena,
					"%s counts the plain pieces of %s too: "
					"the same material around the steel or "
					"mesh.",
					code_of(all, &c->group[g]),
					c->group[g].with));
	if (c->lacks[0] != '\0')
		print_folded(stdout, 0, c->lacks);
}

static void
print_list(const char *heading, const char *const *sentence, size_t n)
{
	if (n == 0)
		return;
	(void)printf("\n%s\n", heading);
	for (size_t i = 0; i < n; i++)
		print_folded(stdout, 2, sentence[i]);
}

static void
print_comparison(const struct invocation *in, const struct work_compared *all,
	const struct work_comparison *c, const struct compare_view *view)
{
	const char *name = choose_measure_name(c->measure);

	(void)printf("%c%s%s\n", name[0] - 'a' + 'A', name + 1,
		choose_measure_larger_is_better(c->measure)
			? ""
			: " (less is better)");
	for (size_t i = 0; i < c->n_sentence; i++)
		print_folded(stdout, 2, c->sentence[i]);
	(void)putchar('\n');
	print_groups(in, all, c);
	print_reasons(in, all, c);
	if (c->rhat_max > 1.01 || c->ess_mix_min < 400)
		print_folded(stdout, 0,
			"The computation has not settled: do not trust these "
			"figures. Try another --seed, and tell us.");
	print_list("What would make it surer", c->surer, c->n_surer);
	print_list("How firm that is", c->firm, c->n_firm);
	if (view->detail) {
		compare_print_assumptions(in, all, c);
		compare_print_left_out(in, all, c);
	}
	if (c->classical.has)
		compare_print_classical(in, all, c);
}

static char
mark(const struct work_group *g)
{
	const double clear = 0.95;

	switch (g->verdict) {
	case CHOOSE_CLEARLY_BETTER:
		return '+';
	case CHOOSE_LOOKS_BETTER:
		return '?';
	case CHOOSE_WORSE:
		return '-';
	case CHOOSE_COULD_NOT_BE_MADE:
		if (g->answer.p_better > clear)
			return '+';
		return g->answer.p_better < 1 - clear ? '-' : ' ';
	case CHOOSE_IS_BASELINE:
	case CHOOSE_CANNOT_TELL:
		break;
	}
	return ' ';
}

static const char *
overview_cell(const struct invocation *in, const struct work_comparison *c,
	size_t mix)
{
	for (size_t g = 0; g < c->n_group; g++) {
		if (c->group[g].mix != mix)
			continue;
		if (c->baseline >= c->n_group)
			return "no base";
		return g == c->baseline
			? "1 "
			: text_format(in->arena, "%.2f%c",
				  c->group[g].answer.ratio_median,
				  mark(&c->group[g]));
	}
	return "";
}

/* The measures after the first as ratios, a row a mix. */
static void
print_overview(const struct invocation *in, const struct work_compared *all)
{
	const char *head[TABLE_COLUMNS_MOST] = {"mix"};
	size_t n = 1;
	struct table table;

	for (size_t i = 1; i < all->n_comparison && n < TABLE_COLUMNS_MOST; i++)
		head[n++] = short_name(all->comparison[i].measure);
	if (n == 1)
		return;
	(void)printf("\nThe other measures, as times the baseline\n");
	table_start(&table, in->arena, head, n, 0xFFE);
	for (size_t m = 0; m < all->site.n_mix; m++) {
		const char *cell[TABLE_COLUMNS_MOST] = {all->site.mix[m].code};
		bool any = false;

		for (size_t i = 1; i < n; i++) {
			cell[i] = overview_cell(in, &all->comparison[i], m);
			any = any || cell[i] == NULL || cell[i][0] != '\0';
		}
		if (any)
			table_row(&table, cell);
	}
	table_print(&table, stdout);
	print_folded(stdout, 0,
		"+ clearly better, - clearly worse, ? looks better: repeat it, "
		"no mark: cannot tell. * less is better. --measure NAME shows "
		"one in full, --all shows every one.");
}

static void
print_breakage(const struct invocation *in, const struct work_compared *all,
	bool every)
{
	bool any = false;

	for (size_t m = 0; m < all->site.n_mix; m++) {
		const struct work_breakage *b = &all->breakage[m];

		if (b->n_cast == 0 || (b->n_broken == 0 && !every))
			continue;
		if (!any)
			(void)puts("\nBeams snapped before their test");
		any = true;
		print_folded(stdout, 2,
			text_format(in->arena,
				"%s: %zu of %zu (true rate likely %.0f to %.0f "
				"%%)%s",
				all->site.mix[m].code, b->n_broken, b->n_cast,
				100 * b->low, 100 * b->high,
				b->n_broken == 0
					? ""
					: text_format(in->arena,
						  "; chance alone would give "
						  "this in %.2g of 100 trials",
						  100 * b->p_more_by_chance)));
	}
}

static const char *
crack_words(const struct invocation *in, const struct work_after_crack *a)
{
	const double no_more = 1.05;

	if (a->most_ratio < no_more)
		return "no more than";
	return text_format(
		in->arena, "%.1f to %.1f times", a->least_ratio, a->most_ratio);
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
				"%s: %.0f to %s%.0f kg over %zu beams, %s the "
				"load of the crack",
				all->site.mix[a->mix].code, a->least_kg,
				a->most_open ? "more than " : "", a->most_kg,
				a->n, crack_words(in, a)));
	}
}

static void
print_left_out_batches(
	const struct invocation *in, const struct work_compared *all)
{
	(void)puts("\nLeft out, by rule or reason");
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
	for (size_t i = 0; i < all->results.n_fault; i++)
		print_folded(stdout, 2, all->results.fault[i]);
}

static void
print_exponent(const struct invocation *in, const struct work_compared *all)
{
	if (!all->exponent.has)
		return;
	(void)putchar('\n');
	print_folded(stdout, 0,
		text_format(in->arena,
			"Strength goes with dry weight to the power %.1f "
			"(likely %.1f to %.1f), from %s%s.",
			all->exponent.median, all->exponent.low,
			all->exponent.high,
			all->exponent.mixes[0] != '\0' ? all->exponent.mixes
						       : "usual practice",
			all->exponent.borrowed
				? "; borrowed from usual practice, since the "
				  "weights are too much alike"
				: ""));
}

void
compare_print_text(const struct invocation *in, const struct work_compared *all,
	const struct compare_view *view)
{
	const struct work_comparison *first = &all->comparison[0];
	const size_t n = view->all ? all->n_comparison : 1;

	for (size_t i = 0; i < n; i++) {
		if (i > 0)
			(void)putchar('\n');
		print_comparison(in, all, &all->comparison[i], view);
	}
	if (!view->all)
		print_overview(in, all);
	print_breakage(in, all, view->all);
	print_after(in, all);
	if (view->all)
		print_left_out_batches(in, all);
	if (view->all || view->detail)
		print_exponent(in, all);
	if (view->method)
		compare_print_method(in, all);
	(void)putchar('\n');
	print_folded(stdout, 0, first->prior_words);
	for (size_t i = 0; i < all->n_caution; i++)
		print_folded(stdout, 0, all->caution[i]);
}
