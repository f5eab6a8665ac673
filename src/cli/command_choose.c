/* command_choose.c - which mix for which part, and what it takes. */
#include "cli/command.h"

#include "cli/figure.h"
#include "cli/table.h"
#include "core/unit.h"
#include "work/choose.h"

#include <string.h>

static const char *
amount(const struct invocation *in, enum choose_measure measure, double si)
{
	if (measure == CHOOSE_COST)
		return text_format(in->arena, "%.2f a m3", si / 100);
	return text_format(in->arena, "%s %s",
		figure_bare(in->arena, measure, si),
		choose_measure_unit(measure));
}

static void
print_needs(const struct invocation *in, const struct work_part_choice *p)
{
	for (size_t k = 0; k < p->n_requirement; k++) {
		const struct choose_requirement *r = &p->requirement[k];

		print_folded(stdout, 2,
			text_format(in->arena, "asks (%c): %s at %s %s%s%s",
				(int)('a' + k), choose_measure_name(r->measure),
				r->is_least ? "least" : "most",
				amount(in, r->measure, r->value),
				r->source[0] != '\0' ? "; source: " : "",
				r->source));
	}
}

static void
print_candidates(const struct invocation *in, const struct work_chosen *all,
	const struct work_part_choice *p)
{
	static const char *const heading[] = {"mix", "all met", "cost/m3",
		"each, with the value 95 of 100 pieces should beat"};
	struct table table;

	table_start(&table, in->arena, heading, 4, 0x6);
	for (size_t i = 0; i < p->n_candidate; i++) {
		const struct work_candidate *c = &p->candidate[i];
		struct text each;

		text_init(&each, in->arena);
		for (size_t k = 0; k < p->n_requirement; k++) {
			const struct work_need *need = &c->need[k];

			text_addf(&each, "%s(%c) ", k > 0 ? "; " : "",
				(int)('a' + k));
			if (!need->known)
				text_add(&each, "not tested");
			else
				text_addf(&each, "%.0f %%", 100 * need->p);
			if (need->known && need->has_lower)
				text_addf(&each, " [%s]",
					amount(in, p->requirement[k].measure,
						need->lower));
		}
		const char *cell[] = {all->compared.site.mix[c->mix].code,
			c->all_known ? text_format(in->arena, "%.0f %%",
					       100 * c->p_all)
				     : "unknown",
			c->has_cost ? text_format(in->arena, "%.2f",
					      c->cost_cents_per_m3 / 100)
				    : "-",
			text_failed(&each) ? "" : each.bytes};

		table_row(&table, cell);
	}
	table_print(&table, stdout);
}

static void
print_taken(const struct invocation *in, const struct work_chosen *all,
	const struct work_part_choice *p)
{
	const struct build_taken *t = &p->taken;

	print_folded(stdout, 2,
		text_format(in->arena,
			"Of %s: %.2f m3 in place, %.2f m3 to mix (settling and "
			"waste "
			"counted), %.1f m3 of foam.",
			all->compared.site.mix[p->candidate[0].mix].code,
			t->net_m3, t->mixed_m3, t->foam_m3));
	for (size_t i = 0; i < t->n_line; i++) {
		const struct build_line *l = &t->line[i];

		if (l->has_package)
			print_folded(stdout, 4,
				text_format(in->arena,
					"%s: %.0f kg, %.0f package%s (%.1f kg "
					"left "
					"over)%s",
					l->name, l->mass_kg, l->n_package,
					l->n_package > 1 ? "s" : "",
					l->left_over_kg,
					l->has_money
						? text_format(in->arena,
							  ", %.2f",
							  l->money_cents / 100)
						: ""));
		else
			print_folded(stdout, 4,
				text_format(in->arena, "%s: %.0f kg", l->name,
					l->mass_kg));
	}
}

static void
print_text(const struct invocation *in, const struct work_chosen *all)
{
	for (size_t i = 0; i < all->n_part; i++) {
		const struct work_part_choice *p = &all->part[i];
		const struct book_part *part =
			&all->compared.site.part[p->part];

		(void)printf("%s%s (%s)\n", i > 0 ? "\n" : "", part->name,
			part->kind);
		if (p->n_requirement == 0) {
			(void)puts("  asks nothing that was tested");
			continue;
		}
		print_needs(in, p);
		print_candidates(in, all, p);
		for (size_t k = 0; k < p->n_sentence; k++)
			print_folded(stdout, 2, p->sentence[k]);
		if (p->has_taken)
			print_taken(in, all, p);
	}
	(void)putchar('\n');
	print_folded(stdout, 0,
		"These are chances that the next batch reads as asked in home "
		"tests, and screening only. Lifting and stripping heavy "
		"pieces, "
		"cement burns and dust need care; whatever spans or stands "
		"over "
		"people is for a licensed engineer and the local code.");
}

static enum err_code
print_json(const struct invocation *in, const struct work_chosen *all,
	struct err *err)
{
	const struct work_site *site = &all->compared.site;
	struct text text;
	struct jsonout json;

	json_start(in, &text, &json);
	jsonout_key(&json, "parts");
	jsonout_open_array(&json);
	for (size_t i = 0; i < all->n_part; i++) {
		const struct work_part_choice *p = &all->part[i];

		jsonout_open_object(&json);
		jsonout_key_string(&json, "part", site->part[p->part].code);
		jsonout_key(&json, "mixes");
		jsonout_open_array(&json);
		for (size_t k = 0; k < p->n_candidate; k++) {
			const struct work_candidate *c = &p->candidate[k];

			jsonout_open_object(&json);
			jsonout_key_string(
				&json, "mix", site->mix[c->mix].code);
			jsonout_key_bool(&json, "all_known", c->all_known);
			jsonout_key_number(&json, "p_all", c->p_all);
			jsonout_key(&json, "needs");
			jsonout_open_object(&json);
			for (size_t r = 0; r < p->n_requirement; r++) {
				jsonout_key(&json,
					choose_measure_word(
						p->requirement[r].measure));
				if (c->need[r].known)
					jsonout_number(&json, c->need[r].p);
				else
					jsonout_null(&json);
			}
			jsonout_close_object(&json);
			jsonout_close_object(&json);
		}
		jsonout_close_array(&json);
		if (p->has_taken)
			jsonout_key_number(
				&json, "mixed_m3", p->taken.mixed_m3);
		jsonout_close_object(&json);
	}
	jsonout_close_array(&json);
	return json_finish(&json, err);
}

static enum err_code
run_choose(const struct invocation *in, struct err *err)
{
	struct work_chosen all;
	struct desk desk;
	enum err_code code;

	TRY(desk_open(in->word[0], false, in, &desk, err));
	code = work_choose(&desk, in->arena, &all, err);
	desk_close(&desk);
	if (code != ERR_NONE)
		return code;
	if (in->json)
		return print_json(in, &all, err);
	print_text(in, &all);
	return ERR_NONE;
}

static const struct command_option choose_options[] = {
	{"--seed", "N", "of the random draws (1)", false}, {0}};

const struct command command_choose = {
	.name = "choose",
	.line = "which mix for floor, wall and roof, how sure, and what it "
		"takes",
	.help = "  foamwright choose BOOK [OPTIONS]\n",
	.example = "foamwright choose site.book",
	.least_words = 1,
	.most_words = 1,
	.options = choose_options,
	.run = run_choose,
};
