/* choose_tradeoff.c - what if and weights read; the trade-offs shown. */
#include "cli/choose_screen.h"

#include "cli/fields.h"
#include "cli/figure.h"
#include "cli/table.h"

#include <math.h>
#include <stddef.h>
#include <stdlib.h>
#include <string.h>

static const struct field fields[] = {
	{"--thickness", FIELD_MAYBE, UNIT_LENGTH,
		offsetof(struct work_choose_ask, thickness_m)},
};

/* "141 mm2", steel in a metre; "4 mm x 150 mm" or "4 mm at 150 mm", wire and
 * spacing. */
static enum err_code
read_mesh(const struct invocation *in, struct work_choose_ask *ask,
	struct err *err)
{
	const char *text = invocation_value(in, "--mesh"), *between = NULL;
	struct err inner = {.code = ERR_NONE};
	double area, wire, spacing;
	char *first;

	if (text == NULL)
		return ERR_NONE;
	if (unit_read(text, UNIT_AREA, NULL, &area, &inner) == ERR_NONE) {
		ask->mesh_area_m2 = (struct maybe){true, area};
		return ERR_NONE;
	}
	for (size_t i = 0; i < 3 && between == NULL; i++)
		between = strstr(text, (const char *[]){"x", "@", " at "}[i]);
	first = arena_text(in->arena, text);
	if (first == NULL)
		return err_memory(err);
	if (between != NULL)
		first[between - text] = '\0';
	err_clear(&inner);
	if (between == NULL ||
		unit_read(first, UNIT_LENGTH, NULL, &wire, &inner) !=
			ERR_NONE ||
		unit_read(between + (between[0] == ' ' ? 4 : 1), UNIT_LENGTH,
			NULL, &spacing, &inner) != ERR_NONE)
		return err_report(err, ERR_INPUT, "--mesh",
			"\"%.40s\" is no mesh; give the steel in a metre of "
			"panel, --mesh \"141 mm2\", or wire and spacing, "
			"--mesh \"3 mm x 50 mm\".",
			text);
	ask->mesh_wire_m = (struct maybe){true, wire};
	ask->mesh_spacing_m = (struct maybe){true, spacing};
	return ERR_NONE;
}

static bool
read_number(const char *text, double *value)
{
	char *end = NULL;

	*value = strtod(text, &end);
	return end != text && *end == '\0' && isfinite(*value);
}

static enum err_code
read_prices(const struct invocation *in, struct work_choose_ask *ask,
	struct err *err)
{
	struct work_price *price = arena_take(
		in->arena, GIVEN_MOST, sizeof *price);
	const char *text, *value;
	size_t at = 0, n = 0;

	if (price == NULL)
		return err_memory(err);
	while ((text = invocation_next(in, "--price", &at)) != NULL) {
		double units = 0;

		TRY(field_pair(
			in, "--price", text, &price[n].material, &value, err));
		if (!read_number(value, &units))
			return err_report(err, ERR_INPUT, "--price",
				"\"%.40s\" is no price of a package; give it "
				"as --price cement=3.80.",
				value);
		price[n++].cents = 100 * units;
	}
	ask->price = price;
	ask->n_price = n;
	return ERR_NONE;
}

enum err_code
read_weights(const struct invocation *in, bool is_set[WORK_CRITERIA],
	double weight[WORK_CRITERIA], struct err *err)
{
	const char *text, *name, *value;
	size_t at = 0;

	while ((text = invocation_next(in, "--weigh", &at)) != NULL) {
		enum work_criterion criterion;

		TRY(field_pair(in, "--weigh", text, &name, &value, err));
		if (!work_criterion_find(name, &criterion))
			return err_report(err, ERR_INPUT, "--weigh",
				"\"%.40s\" cannot be weighed; density, "
				"strength, cost, labour and heat can.",
				name);
		if (!read_number(value, &weight[criterion]))
			return err_report(err, ERR_INPUT, "--weigh",
				"\"%.40s\" is no weight; give a number, as in "
				"--weigh cost=2.",
				value);
		is_set[criterion] = true;
	}
	return ERR_NONE;
}

enum err_code
read_choose_ask(const struct invocation *in, struct work_choose_ask *ask,
	struct err *err)
{
	bool is_set[WORK_CRITERIA] = {false};

	*ask = (struct work_choose_ask){.part = invocation_value(in, "--part")};
	TRY(fields_read(
		in, fields, sizeof fields / sizeof fields[0], ask, err));
	TRY(read_mesh(in, ask, err));
	TRY(read_prices(in, ask, err));
	TRY(read_weights(in, is_set, ask->weight, err));
	for (size_t k = 0; k < WORK_CRITERIA; k++)
		ask->has_weight = ask->has_weight || is_set[k];
	return ERR_NONE;
}

static const char *
number(const struct invocation *in, int decimals, double x)
{
	static const char none[] = "-";

	if (!isfinite(x))
		return none;
	if (fabs(x) < 0.5 * pow(10, -decimals))
		x = 0; /* no "-0.00" */
	return text_format(in->arena, "%.*f", decimals, x);
}

static void
print_mix(const struct invocation *in, const struct work_chosen *all,
	const struct work_part_choice *p, const struct work_weighed *w,
	size_t i, struct table *table)
{
	const struct work_site *site = &all->compared.site;
	const double *m = w->middle + i * WORK_CRITERIA;
	const char *beaten = w->is_beaten[i]
		? site->mix[p->candidate[w->candidate[w->beaten_by[i]]].mix]
			  .code
		: "";
	const char *const cell[] = {
		site->mix[p->candidate[w->candidate[i]].mix].code,
		number(in, 2, w->utility[i]),
		isnan(w->p_first[i])
			? "-"
			: work_chance_words(in->arena, w->p_first[i]),
		number(in, 0, m[WORK_CRITERION_DENSITY]),
		number(in, 2, m[WORK_CRITERION_STRENGTH] / 1e6),
		number(in, 3, m[WORK_CRITERION_HEAT]),
		number(in, 0, m[WORK_CRITERION_LABOUR] / 60),
		number(in, 2, m[WORK_CRITERION_COST] / 100),
		w->cost_cents_per_m2[i].has
			? number(in, 2, w->cost_cents_per_m2[i].value / 100)
			: "-",
		beaten};

	table_row(table, cell);
}

/* "cost 2, heat 1". */
static const char *
weights_words(const struct invocation *in, const double weight[WORK_CRITERIA])
{
	struct text text;

	text_init(&text, in->arena);
	for (size_t k = 0; k < WORK_CRITERIA; k++)
		if (weight[k] > 0)
			text_addf(&text, "%s%s %s", text.n > 0 ? ", " : "",
				work_criterion_word((enum work_criterion)k),
				exact_figure(in->arena, weight[k]));
	return text_failed(&text) ? "" : text.bytes;
}

void
print_weighed(const struct invocation *in, const struct work_chosen *all,
	size_t part, bool show_work)
{
	const char *currency = all->compared.site.info.currency;
	const char *const heading[] = {"mix", "utility", "first,\nin 100",
		"dry,\nkg/m3", "strong,\nN/mm2", "lambda,\nW/(m K)",
		"mixing,\nmin/m3", text_format(in->arena, "%s\na m3", currency),
		text_format(in->arena, "%s\na m2", currency), "beaten\nby"};
	const struct work_weighed *w = &all->weighed[part];
	struct table table;

	if (w->basis == NULL)
		return;
	if (w->n == 0) {
		print_folded(stdout, 2,
			"Nothing to weigh: no mix does the must-haves as "
			"likely "
			"as not.");
		return;
	}
	if (w->n == 1) {
		print_folded(stdout, 2,
			"Nothing to weigh: one mix alone does the must-haves "
			"as "
			"likely as not.");
		return;
	}
	print_folded(stdout, 2,
		text_format(in->arena,
			"Of the mixes that do the must-haves as likely as not, "
			"weighed by %s%s:",
			weights_words(in, w->weight), w->basis));
	table_start(&table, in->arena, heading, 10, 0x1fe);
	for (size_t i = 0; i < w->n; i++)
		print_mix(in, all, &all->part[part], w, i, &table);
	table_print(&table, stdout);
	if (show_work)
		print_folded(stdout, 2,
			"utility = sum of weight (x - worst)/(best - worst) "
			"over sum of weights, x the next batch in each world, "
			"worst and best among these mixes; first = share of "
			"worlds in which it leads; cost a m2 = cost a m3 x "
			"thickness; blending = mean of blending time / volume "
			"of the trial's batches; docs/methods/choose.md");
}

void
print_one_for_all(const struct invocation *in, const struct work_chosen *all)
{
	const struct work_one_for_all *one = &all->one;
	const char *currency = all->compared.site.info.currency;

	if (!one->has)
		return;
	print_folded(stdout, 0,
		text_format(in->arena,
			"%s %s, %s in 100 in its least sure part%s. The first "
			"of "
			"each part: %zu mix%s, %s in 100%s. Each further mix "
			"is a "
			"recipe that can be mixed on the wrong day.",
			one->p_least >= 0.5 ? "One mix for all:"
					    : "No one mix is likely to do for "
					      "all parts; nearest is",
			all->compared.site.mix[one->mix].code,
			work_chance_words(in->arena, one->p_least),
			one->has_money
				? text_format(in->arena, ", %.2f %s in all",
					  one->money_cents / 100, currency)
				: "",
			one->n_several, one->n_several == 1 ? "" : "es",
			work_chance_words(in->arena, one->p_least_several),
			one->has_money ? text_format(in->arena, ", %.2f %s",
						 one->several_money_cents / 100,
						 currency)
				       : ""));
}

void
print_meshed(const struct invocation *in, const struct work_chosen *all,
	const struct work_part_choice *p, bool show_work)
{
	static const char *const heading[] = {"mix", "does not\ncrack",
		"cracked, its\nmesh bears it", "mesh carries\nthe crack"};
	const struct work_site *site = &all->compared.site;
	struct table table;

	print_folded(stdout, 2,
		text_format(in->arena,
			"What if: mesh of %s in a metre, %s from the pressed "
			"face%s, yield %s%s. Chances in 100:",
			unit_write(in->arena, p->mesh.area_m2, UNIT_AREA, "mm2",
				3),
			unit_write(in->arena, p->mesh.effective_m, UNIT_LENGTH,
				"mm", 3),
			p->mesh.is_usual_depth ? " (taken)" : "",
			unit_write(in->arena, p->mesh.yield_pa, UNIT_STRESS,
				"N/mm2", 3),
			p->mesh.is_usual_yield ? " (taken)" : ""));
	table_start(&table, in->arena, heading, 4, 0x6);
	for (size_t i = 0; i < p->n_candidate; i++) {
		const struct work_candidate *c = &p->candidate[i];
		const struct work_meshed *m = &c->meshed;
		const char *const cell[] = {site->mix[c->mix].code,
			m->has ? work_chance_words(in->arena, m->p_whole) : "-",
			m->has ? work_chance_words(in->arena, m->p_bears) : "-",
			m->has ? work_chance_words(in->arena, m->p_carries)
				: site->mix[c->mix].reinforcement[0] != '\0'
				? "has its own, as it was tested"
				: "not tested"};

		table_row(&table, cell);
	}
	table_print(&table, stdout);
	print_folded(stdout, 2,
		"The bending strength asked counts as met where the panel does "
		"not crack, or its mesh bears the moment that a plain panel of "
		"that strength would. Where the mesh does not carry the crack, "
		"the panel falls at it. The mesh is not in the costs. Bond is "
		"not checked: in weak foamed "
		"concrete wires mostly slip first. An engineer decides.");
	if (show_work)
		print_folded(stdout, 2,
			"as strong as a plain panel of max(f, 6 M/(b h^2)), M "
			"= "
			"As fs (d - a/2), a = As fs/(0.85 f'c b); ACI 318-19, "
			"22.2, carried below its 17 MPa; "
			"docs/methods/screening.md");
}

void
json_meshed(struct jsonout *json, const struct work_candidate *c)
{
	if (!c->meshed.has)
		return;
	jsonout_key(json, "with_mesh");
	jsonout_open_object(json);
	jsonout_key_number(json, "p_does_not_crack", c->meshed.p_whole);
	jsonout_key_number(json, "p_mesh_bears", c->meshed.p_bears);
	jsonout_key_number(json, "p_mesh_carries_crack", c->meshed.p_carries);
	jsonout_close_object(json);
}

static void
json_number(struct jsonout *json, const char *key, double x)
{
	jsonout_key(json, key);
	if (isfinite(x))
		jsonout_number(json, x);
	else
		jsonout_null(json);
}

static void
json_weighed_mix(struct jsonout *json, const struct work_chosen *all,
	const struct work_part_choice *p, const struct work_weighed *w,
	size_t i)
{
	const struct work_site *site = &all->compared.site;
	const double *m = w->middle + i * WORK_CRITERIA;

	jsonout_open_object(json);
	jsonout_key_string(
		json, "mix", site->mix[p->candidate[w->candidate[i]].mix].code);
	json_number(json, "utility", w->utility[i]);
	json_number(json, "p_first", w->p_first[i]);
	json_number(json, "dry_density_kg_m3", m[WORK_CRITERION_DENSITY]);
	json_number(json, "strength_pa", m[WORK_CRITERION_STRENGTH]);
	json_number(json, "conductivity_w_mk", m[WORK_CRITERION_HEAT]);
	json_number(json, "blending_s_per_m3", m[WORK_CRITERION_LABOUR]);
	json_number(json, "cost_per_m3", m[WORK_CRITERION_COST] / 100);
	if (w->cost_cents_per_m2[i].has)
		json_number(json, "cost_per_m2",
			w->cost_cents_per_m2[i].value / 100);
	if (w->is_beaten[i])
		jsonout_key_string(json, "beaten_by",
			site->mix[p->candidate[w->candidate[w->beaten_by[i]]]
					    .mix]
				.code);
	jsonout_close_object(json);
}

void
json_weighed(struct jsonout *json, const struct work_chosen *all, size_t part)
{
	const struct work_weighed *w = &all->weighed[part];

	if (w->basis == NULL)
		return;
	jsonout_key(json, "weights");
	jsonout_open_object(json);
	for (size_t k = 0; k < WORK_CRITERIA; k++)
		json_number(json, work_criterion_word((enum work_criterion)k),
			w->weight[k]);
	jsonout_close_object(json);
	jsonout_key(json, "weighed");
	jsonout_open_array(json);
	for (size_t i = 0; i < w->n; i++)
		json_weighed_mix(json, all, &all->part[part], w, i);
	jsonout_close_array(json);
}

void
json_one_for_all(struct jsonout *json, const struct work_chosen *all)
{
	const struct work_one_for_all *one = &all->one;

	if (!one->has)
		return;
	jsonout_key(json, "one_for_all");
	jsonout_open_object(json);
	jsonout_key_string(json, "mix", all->compared.site.mix[one->mix].code);
	json_number(json, "p_least", one->p_least);
	json_number(json, "p_least_several", one->p_least_several);
	jsonout_key_number(json, "mixes_several", (double)one->n_several);
	if (one->has_money) {
		json_number(json, "money", one->money_cents / 100);
		json_number(
			json, "money_several", one->several_money_cents / 100);
	}
	jsonout_close_object(json);
}
