/* choose_tradeoff.c - what if and weights read; the trade-offs shown. */
#include "cli/choose_screen.h"

#include "cli/fields.h"
#include "cli/figure.h"
#include "cli/table.h"

#include <math.h>
#include <stddef.h>
#include <stdlib.h>

static const struct field fields[] = {
	{"--thickness", FIELD_MAYBE, UNIT_LENGTH,
		offsetof(struct work_choose_ask, thickness_m)},
};

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

static enum err_code
read_weights(const struct invocation *in, struct work_choose_ask *ask,
	struct err *err)
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
		if (!read_number(value, &ask->weight[criterion]))
			return err_report(err, ERR_INPUT, "--weigh",
				"\"%.40s\" is no weight; give a number, as in "
				"--weigh cost=2.",
				value);
		ask->has_weight = true;
	}
	return ERR_NONE;
}

enum err_code
read_choose_ask(const struct invocation *in, struct work_choose_ask *ask,
	struct err *err)
{
	*ask = (struct work_choose_ask){.part = invocation_value(in, "--part")};
	TRY(fields_read(
		in, fields, sizeof fields / sizeof fields[0], ask, err));
	TRY(read_prices(in, ask, err));
	return read_weights(in, ask, err);
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

void
print_weighed(const struct invocation *in, const struct work_chosen *all,
	size_t part, bool show_work)
{
	static const char *const heading[] = {"mix", "utility",
		"first,\nin 100", "dry,\nkg/m3", "strong,\nN/mm2",
		"lambda,\nW/(m K)", "mixing,\nmin/m3", "cost\na m3",
		"cost\na m2", "beaten\nby"};
	const struct work_weighed *w = &all->weighed[part];
	struct table table;

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
		"Of the mixes that do the must-haves as likely as not, "
		"weighed:");
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
