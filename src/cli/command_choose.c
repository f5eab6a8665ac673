/* command_choose.c - which mix for which part, and what it takes. */
#include "cli/choose_screen.h"

#include "cli/figure.h"
#include "cli/table.h"
#include "core/unit.h"
#include "work/choose.h"

#include <string.h>

static const char screening[] =
	"These are chances that the next batch reads as asked in home tests, "
	"and screening only. Lifting and stripping heavy pieces, cement burns "
	"and dust need care; whatever spans or stands over people is for a "
	"licensed engineer and the local code.";

/* A formula a line, with where it comes from. */
static const char *const work_shown[] = {
	"next = mix x exp(z spread of batches), in each world that the "
	"readings leave possible; hierarchical model, docs/methods/compare.md",
	"all met = share of worlds in which the next batch meets every line at "
	"once (derived)",
	"what 95 of 100 pieces should reach = 5 % point of next x exp(z spread "
	"of pieces); predictive form of EN 1990, annex D, so few batches are "
	"paid for",
	"broken before the test: share drawn from beta(1/2 + broken, 1/2 + "
	"whole), Jeffreys' prior; whole or broken by that share",
	"heat let through: from the dry weight by ACI 122R after Valore 1980, "
	"good to about 20 %",
	"cost = sum of mass in 1 m3 x price of a package / package (derived)",
	"docs/methods/choose.md",
};

static const char *
amount(const struct invocation *in, enum choose_measure measure, double si,
	const char *currency)
{
	if (measure == CHOOSE_COST)
		return text_format(
			in->arena, "%.2f %s a m3", si / 100, currency);
	return text_format(in->arena, "%s %s",
		figure_bare(in->arena, measure, si),
		choose_measure_unit(measure));
}

static void
print_needs(const struct invocation *in, const struct work_part_choice *p,
	const char *currency)
{
	for (size_t k = 0; k < p->n_requirement; k++) {
		const struct choose_requirement *r = &p->requirement[k];

		print_folded(stdout, 2,
			text_format(in->arena, "asks (%c): %s at %s %s%s%s",
				(int)('a' + k), choose_measure_name(r->measure),
				r->is_least ? "least" : "most",
				amount(in, r->measure, r->value, currency),
				r->source[0] != '\0' ? "; source: " : "",
				r->source));
	}
}

/* "96", ">99", "<1": short for a table. */
static const char *
chance(const struct invocation *in, double p)
{
	const char *words = work_chance_words(in->arena, p);

	if (strcmp(words, "over 99") == 0)
		return ">99";
	return strcmp(words, "under 1") == 0 ? "<1" : words;
}

/* Of the whole house so many mixes a part, so that it stays one page. */
enum { SHOWN_OF_HOUSE = 3 };

static void
print_candidates(const struct invocation *in, const struct work_chosen *all,
	const struct work_part_choice *p, size_t n_shown)
{
	const char *const heading[] = {"mix", "all met",
		text_format(in->arena, "cost,\n%s/m3",
			all->compared.site.info.currency),
		"each, and what 95 of 100 pieces should reach"};
	const char *currency = all->compared.site.info.currency;
	struct table table;

	table_start(&table, in->arena, heading, 4, 0x6);
	for (size_t i = 0; i < p->n_candidate && i < n_shown; i++) {
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
				text_addf(&each, "%s %%", chance(in, need->p));
			if (need->known && need->has_lower)
				text_addf(&each, " [%s]",
					amount(in, p->requirement[k].measure,
						need->lower, currency));
		}
		const char *cell[] = {all->compared.site.mix[c->mix].code,
			c->all_known ? text_format(in->arena, "%s %%",
					       chance(in, c->p_all))
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
							  ", %.2f %s",
							  l->money_cents / 100,
							  all->compared.site
								  .info
								  .currency)
						: ""));
		else
			print_folded(stdout, 4,
				text_format(in->arena, "%s: %.0f kg", l->name,
					l->mass_kg));
	}
}

/* Everything of one part: why, and what its first mix takes. */
static void
print_whole(
	const struct invocation *in, const struct work_chosen *all, size_t part)
{
	const struct work_part_choice *p = &all->part[part];

	for (size_t k = 0; k < p->n_sentence; k++)
		print_folded(stdout, 2, p->sentence[k]);
	if (p->has_taken)
		print_taken(in, all, p);
}

static void
print_part(const struct invocation *in, const struct work_chosen *all,
	size_t index, bool whole)
{
	const struct work_part_choice *p = &all->part[index];
	const struct book_part *part = &all->compared.site.part[p->part];
	const bool show_work = invocation_has(in, "--show-work");
	const size_t n_shown = whole ? SIZE_MAX : SHOWN_OF_HOUSE;

	(void)printf(
		"%s%s (%s)\n", index > 0 ? "\n" : "", part->name, part->kind);
	if (p->n_requirement == 0) {
		(void)puts("  asks nothing that was tested");
		return;
	}
	print_needs(in, p, all->compared.site.info.currency);
	print_candidates(in, all, p, n_shown);
	if (p->n_candidate > n_shown)
		print_folded(stdout, 2,
			text_format(in->arena,
				"and %zu more, why, and what it takes: "
				"--part %s",
				p->n_candidate - n_shown, part->code));
	if (p->mesh.has)
		print_meshed(in, all, p, show_work);
	if (all->weighed != NULL)
		print_weighed(in, all, index, show_work);
	if (whole)
		print_whole(in, all, index);
}

static void
print_text(const struct invocation *in, const struct work_chosen *all)
{
	for (size_t i = 0; i < all->n_part; i++)
		print_part(in, all, i, invocation_has(in, "--part"));
	(void)puts("\nIn short (chance that the next batch meets all that is "
		   "asked)");
	for (size_t i = 0; i < all->n_part; i++)
		if (all->part[i].in_short != NULL)
			print_folded(stdout, 2, all->part[i].in_short);
	if (all->weighed != NULL)
		print_one_for_all(in, all);
	if (invocation_has(in, "--show-work"))
		for (size_t i = 0; i < sizeof work_shown / sizeof *work_shown;
			i++)
			print_folded(stdout, 2, work_shown[i]);
	(void)putchar('\n');
	print_folded(stdout, 0, screening);
}

static void
json_requirements(struct jsonout *json, const struct work_part_choice *p)
{
	jsonout_key(json, "requirements");
	jsonout_open_array(json);
	for (size_t k = 0; k < p->n_requirement; k++) {
		const struct choose_requirement *r = &p->requirement[k];

		jsonout_open_object(json);
		jsonout_key_string(
			json, "measure", choose_measure_word(r->measure));
		jsonout_key_string(
			json, "bound", r->is_least ? "least" : "most");
		jsonout_key_quantity(json, "value", r->value,
			unit_si_word(choose_measure_kind(r->measure)));
		jsonout_key_string(json, "source", r->source);
		jsonout_close_object(json);
	}
	jsonout_close_array(json);
}

/* A chance by the measure's name; the value that 95 of 100 pieces should reach
 * in a second object, in SI. */
static void
json_needs(struct jsonout *json, const struct work_part_choice *p,
	const struct work_candidate *c)
{
	jsonout_key(json, "needs");
	jsonout_open_object(json);
	for (size_t r = 0; r < p->n_requirement; r++) {
		jsonout_key(
			json, choose_measure_word(p->requirement[r].measure));
		if (c->need[r].known)
			jsonout_number(json, c->need[r].p);
		else
			jsonout_null(json);
	}
	jsonout_close_object(json);
	jsonout_key(json, "reached_by_95_of_100");
	jsonout_open_object(json);
	for (size_t r = 0; r < p->n_requirement; r++) {
		enum choose_measure m = p->requirement[r].measure;

		if (c->need[r].known && c->need[r].has_lower)
			jsonout_key_quantity(json, choose_measure_word(m),
				c->need[r].lower,
				unit_si_word(choose_measure_kind(m)));
	}
	jsonout_close_object(json);
}

static void
json_mixes(struct jsonout *json, const struct work_site *site,
	const struct work_part_choice *p)
{
	jsonout_key(json, "mixes");
	jsonout_open_array(json);
	for (size_t k = 0; k < p->n_candidate; k++) {
		const struct work_candidate *c = &p->candidate[k];

		jsonout_open_object(json);
		jsonout_key_string(json, "mix", site->mix[c->mix].code);
		jsonout_key_bool(json, "all_known", c->all_known);
		jsonout_key_number(json, "p_all", c->p_all);
		if (c->has_cost)
			jsonout_key_number(json, "cost_per_m3",
				c->cost_cents_per_m3 / 100);
		json_needs(json, p, c);
		json_meshed(json, c);
		jsonout_close_object(json);
	}
	jsonout_close_array(json);
}

static void
json_taken(struct jsonout *json, const struct build_taken *t)
{
	jsonout_key_number(json, "net_m3", t->net_m3);
	jsonout_key_number(json, "mixed_m3", t->mixed_m3);
	jsonout_key_number(json, "foam_m3", t->foam_m3);
	jsonout_key(json, "materials");
	jsonout_open_array(json);
	for (size_t i = 0; i < t->n_line; i++) {
		const struct build_line *l = &t->line[i];

		jsonout_open_object(json);
		jsonout_key_string(json, "name", l->name);
		jsonout_key_number(json, "kg", l->mass_kg);
		if (l->has_package)
			jsonout_key_number(json, "packages", l->n_package);
		if (l->has_money)
			jsonout_key_number(json, "money", l->money_cents / 100);
		jsonout_close_object(json);
	}
	jsonout_close_array(json);
}

static void
json_part(struct jsonout *json, const struct work_chosen *all, size_t index)
{
	const struct work_site *site = &all->compared.site;
	const struct work_part_choice *p = &all->part[index];

	jsonout_open_object(json);
	jsonout_key_string(json, "part", site->part[p->part].code);
	jsonout_key_string(json, "name", site->part[p->part].name);
	if (p->in_short != NULL)
		jsonout_key_string(json, "in_short", p->in_short);
	json_requirements(json, p);
	json_mixes(json, site, p);
	if (all->weighed != NULL)
		json_weighed(json, all, index);
	jsonout_key(json, "sentences");
	jsonout_open_array(json);
	for (size_t k = 0; k < p->n_sentence; k++)
		jsonout_string(json, p->sentence[k]);
	jsonout_close_array(json);
	if (p->has_taken)
		json_taken(json, &p->taken);
	jsonout_close_object(json);
}

static enum err_code
print_json(const struct invocation *in, const struct work_chosen *all,
	struct err *err)
{
	struct text text;
	struct jsonout json;

	json_start(in, &text, &json);
	jsonout_key(&json, "parts");
	jsonout_open_array(&json);
	for (size_t i = 0; i < all->n_part; i++)
		json_part(&json, all, i);
	jsonout_close_array(&json);
	if (all->weighed != NULL)
		json_one_for_all(&json, all);
	jsonout_key_string(&json, "caution", screening);
	return json_finish(&json, err);
}

static enum err_code
run_choose(const struct invocation *in, struct err *err)
{
	struct work_choose_ask ask;
	struct work_chosen all;
	struct desk desk;
	enum err_code code;

	TRY(read_choose_ask(in, &ask, err));
	TRY(desk_open(in->word[0], false, in, &desk, err));
	code = work_choose_asked(&desk, in->arena, &ask, &all, err);
	desk_close(&desk);
	if (code != ERR_NONE)
		return code;
	if (in->json)
		return print_json(in, &all, err);
	print_text(in, &all);
	return ERR_NONE;
}

static const struct command_option choose_options[] = {
	{"--part", "CODE", "that part alone", false},
	{"--weigh", "WHAT=NUMBER",
		"density, strength, cost, labour or heat; more than once",
		true},
	{"--thickness", "LENGTH", "what if the parts were so thick", false},
	{"--mesh", "MESH",
		"what if the panels had mesh: \"141 mm2\" in a metre, \"3 mm "
		"x 50 mm\"",
		false},
	{"--price", "MATERIAL=MONEY",
		"what if a package cost that; more than once", true},
	{"--show-work", NULL, "the formulas and their source", false},
	{"--seed", "N", "of the random draws (1)", false}, {0}};

const struct command command_choose = {
	.name = "choose",
	.line = "which mix for floor, wall and roof, how sure, and what it "
		"takes",
	.help = "  foamwright choose BOOK [OPTIONS]\n\nThe house on one page; "
		"--part shows everything of one part.\n",
	.example = "foamwright choose site.book",
	.least_words = 1,
	.most_words = 1,
	.options = choose_options,
	.run = run_choose,
};
