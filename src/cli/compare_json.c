/* compare_json.c - the comparison as one document, values in SI. */
#include "cli/compare_screen.h"

#include "core/unit.h"

static void
write_ratio(struct jsonout *json, const char *key, const struct work_ratio *r)
{
	if (!r->has)
		return;
	jsonout_key(json, key);
	jsonout_open_object(json);
	jsonout_key_number(json, "ratio", r->median);
	jsonout_key_number(json, "low", r->low);
	jsonout_key_number(json, "high", r->high);
	jsonout_key_number(json, "p_better", r->p_better);
	jsonout_key_string(json, "verdict", choose_verdict_word(r->verdict));
	jsonout_close_object(json);
}

static void
write_reasons(struct jsonout *json, const struct work_group *g)
{
	jsonout_key(json, "excluded_why");
	jsonout_open_array(json);
	for (size_t k = 0; k < g->n_reason; k++) {
		jsonout_open_object(json);
		jsonout_key_count(json, "pieces", g->reason[k].n);
		jsonout_key_string(json, "why", g->reason[k].why);
		jsonout_close_object(json);
	}
	jsonout_close_array(json);
}

static void
write_equal(struct jsonout *json, const struct work_group *g)
{
	if (!g->has_equal_density)
		return;
	jsonout_key_number(json, "dry_weight_kg_m3", g->density_kg_m3);
	jsonout_key_number(json, "ratio_equal_weight", g->equal_median);
	jsonout_key_number(json, "ratio_equal_weight_low", g->equal_low);
	jsonout_key_number(json, "ratio_equal_weight_high", g->equal_high);
	jsonout_key_number(json, "p_better_equal_weight", g->p_better_equal);
}

static void
write_sides(struct jsonout *json, const struct work_group *g)
{
	write_ratio(json, "excluded_put_back", &g->put_back);
	write_ratio(json, "covariates_allowed_for", &g->adjusted);
	write_ratio(json, "prior_spread_halved", &g->halved);
	write_ratio(json, "prior_spread_doubled", &g->doubled);
	if (g->own.has) {
		jsonout_key_string(json, "own_companions_measure",
			choose_measure_word(g->own_by));
		write_ratio(json, "beside_own_companions", &g->own);
	}
	if (!g->has_next)
		return;
	jsonout_key_number(json, "reach_now", g->reach_now);
	jsonout_key_number(json, "reach_with_one_more_batch", g->reach_next);
}

static void
write_group(struct jsonout *json, const struct work_compared *all,
	const struct work_comparison *c, size_t at)
{
	const struct work_group *g = &c->group[at];

	jsonout_open_object(json);
	jsonout_key_string(json, "mix", all->site.mix[g->mix].code);
	jsonout_key_string(json, "with", g->with);
	jsonout_key_count(json, "batches", g->n_batch);
	jsonout_key_count(json, "pieces", g->n_value);
	jsonout_key_count(json, "excluded", g->n_excluded);
	write_reasons(json, g);
	jsonout_key_number(json, "median", g->answer.median);
	jsonout_key_number(json, "low", g->answer.low);
	jsonout_key_number(json, "high", g->answer.high);
	jsonout_key_number(json, "effective_draws", c->draws.ess_mean[at]);
	jsonout_key_number(json, "p_best", g->answer.p_best);
	jsonout_key_number(json, "regret", g->answer.regret);
	jsonout_key_string(json, "verdict", choose_verdict_word(g->verdict));
	if (c->baseline < c->n_group) {
		jsonout_key_number(json, "ratio", g->answer.ratio_median);
		jsonout_key_number(json, "ratio_low", g->answer.ratio_low);
		jsonout_key_number(json, "ratio_high", g->answer.ratio_high);
		jsonout_key_number(json, "p_better", g->answer.p_better);
		jsonout_key_number(json, "p_20_percent_better", g->p_much);
	}
	write_equal(json, g);
	write_sides(json, g);
	jsonout_close_object(json);
}

static void
write_strings(struct jsonout *json, const char *key,
	const char *const *sentence, size_t n)
{
	jsonout_key(json, key);
	jsonout_open_array(json);
	for (size_t i = 0; i < n; i++)
		jsonout_string(json, sentence[i]);
	jsonout_close_array(json);
}

static void
write_left_out(struct jsonout *json, const struct work_compared *all,
	const struct work_comparison *c)
{
	jsonout_key(json, "batches_left_out");
	jsonout_open_array(json);
	for (size_t i = 0; i < c->n_left_out; i++) {
		const struct work_left_out *l = &c->left_out[i];

		jsonout_open_object(json);
		jsonout_key_string(
			json, "batch", all->site.batch[l->batch].code);
		jsonout_key_string(json, "mix",
			all->site.mix[c->group[l->group].mix].code);
		jsonout_key_count(json, "verdicts_changed", l->n_changed);
		jsonout_key_string(json, "changed", l->changed);
		write_ratio(json, "without_it", &l->ratio);
		jsonout_close_object(json);
	}
	jsonout_close_array(json);
}

static void
write_covariates(struct jsonout *json, const struct work_comparison *c)
{
	jsonout_key(json, "covariates");
	jsonout_open_array(json);
	for (size_t k = 0; k < c->n_covariate; k++) {
		const struct work_covariate *x = &c->covariate[k];

		jsonout_open_object(json);
		jsonout_key_string(json, "name", x->name);
		jsonout_key_string(json, "step", x->step);
		jsonout_key_number(json, "factor", x->median);
		jsonout_key_number(json, "low", x->low);
		jsonout_key_number(json, "high", x->high);
		jsonout_key_number(json, "least", x->least);
		jsonout_key_number(json, "most", x->most);
		jsonout_key_string(json, "unit", x->unit);
		jsonout_close_object(json);
	}
	jsonout_close_array(json);
}

static void
write_noise(
	struct jsonout *json, const char *key, const struct stats_plan_noise *p)
{
	jsonout_key(json, key);
	jsonout_open_object(json);
	jsonout_key_number(json, "p_wrong", p->p_wrong);
	jsonout_key_number(json, "p_wrong_error", p->p_wrong_error);
	jsonout_key_number(json, "p_winner_over_15_percent", p->p_over);
	jsonout_key_number(json, "p_winner_over_error", p->p_over_error);
	jsonout_key_number(json, "winner_log_ratio", p->winner);
	jsonout_key_number(json, "winner_log_ratio_error", p->winner_error);
	jsonout_close_object(json);
}

static void
write_test(struct jsonout *json, const char *key, const struct work_test *t)
{
	jsonout_key(json, key);
	jsonout_open_object(json);
	if (t->has) {
		jsonout_key_number(json, "p", t->p);
		jsonout_key_number(json, "p_error", t->p_error);
		jsonout_key_number(json, "statistic", t->statistic);
	} else {
		jsonout_key_string(json, "why_not", t->why);
	}
	jsonout_close_object(json);
}

static void
write_pairs(struct jsonout *json, const char *key,
	const struct work_compared *all, const struct work_comparison *c,
	const struct work_pair_test *pair, size_t n)
{
	jsonout_key(json, key);
	jsonout_open_array(json);
	for (size_t i = 0; i < n; i++) {
		jsonout_open_object(json);
		jsonout_key_string(json, "mix",
			all->site.mix[c->group[pair[i].b].mix].code);
		jsonout_key_string(json, "against",
			all->site.mix[c->group[pair[i].a].mix].code);
		jsonout_key_number(json, "ratio", pair[i].ratio);
		jsonout_key_number(json, "low", pair[i].low);
		jsonout_key_number(json, "high", pair[i].high);
		jsonout_key_number(json, "p", pair[i].p);
		jsonout_close_object(json);
	}
	jsonout_close_array(json);
}

static void
write_classical(struct jsonout *json, const struct work_compared *all,
	const struct work_comparison *c)
{
	const struct work_classical *k = &c->classical;

	if (!k->has)
		return;
	jsonout_key(json, "classical");
	jsonout_open_object(json);
	jsonout_key_count(json, "open_readings", k->n_open);
	write_test(json, "one_way_batches", &k->one_way);
	write_test(json, "ranks_batches", &k->ranks);
	write_test(json, "permutation_batches", &k->permutation_batches);
	write_test(json, "permutation_pieces", &k->permutation_pieces);
	write_pairs(json, "against_baseline", all, c, k->against, k->n_against);
	write_pairs(json, "all_pairs", all, c, k->pair, k->n_pair);
	jsonout_key_string(json, "why_not", k->why_not);
	jsonout_close_object(json);
}

static void
write_spreads(struct jsonout *json, const struct work_comparison *c)
{
	jsonout_key(json, "sd_batch");
	jsonout_open_array(json);
	for (size_t k = 0; k < 3; k++)
		jsonout_number(json, c->sd_batch[k]);
	jsonout_close_array(json);
	jsonout_key(json, "sd_specimen");
	jsonout_open_array(json);
	for (size_t k = 0; k < 3; k++)
		jsonout_number(json, c->sd_specimen[k]);
	jsonout_close_array(json);
	jsonout_key(json, "prior");
	jsonout_open_object(json);
	jsonout_key_number(json, "mean_sd", c->prior.mean_sd);
	jsonout_key_number(json, "sd_batch_scale", c->prior.sd_batch_scale);
	jsonout_key_number(
		json, "sd_specimen_scale", c->prior.sd_specimen_scale);
	jsonout_key_number(json, "sd_batch_log_sd", c->prior.sd_batch_log_sd);
	jsonout_key_number(
		json, "sd_specimen_log_sd", c->prior.sd_specimen_log_sd);
	jsonout_key_string(json, "learnt_from", c->learnt_from);
	jsonout_key_string(json, "words", c->prior_words);
	jsonout_close_object(json);
}

static void
write_comparison(struct jsonout *json, const struct work_compared *all,
	const struct work_comparison *c)
{
	jsonout_open_object(json);
	jsonout_key_string(json, "measure", choose_measure_word(c->measure));
	jsonout_key_string(
		json, "unit", unit_si_word(choose_measure_kind(c->measure)));
	jsonout_key_bool(json, "larger_is_better",
		choose_measure_larger_is_better(c->measure));
	jsonout_key_count(json, "draws", c->draws.n_draw);
	jsonout_key_number(json, "rhat_max", c->rhat_max);
	jsonout_key_number(json, "ess_min", c->ess_min);
	write_spreads(json, c);
	jsonout_key(json, "mixes");
	jsonout_open_array(json);
	for (size_t g = 0; g < c->n_group; g++)
		write_group(json, all, c, g);
	jsonout_close_array(json);
	if (c->has_firmness) {
		write_left_out(json, all, c);
		write_covariates(json, c);
		jsonout_key_number(json, "one_more_baseline_batch_narrows",
			c->base_narrowing);
	}
	if (c->has_plan) {
		write_noise(json, "plan_one_10_percent_better", &c->plan);
		write_noise(json, "plan_all_the_same", &c->plan_equal);
	}
	write_classical(json, all, c);
	write_strings(json, "says", c->sentence, c->n_sentence);
	write_strings(json, "firm", c->firm, c->n_firm);
	write_strings(json, "surer", c->surer, c->n_surer);
	jsonout_key_string(json, "lacks", c->lacks);
	jsonout_close_object(json);
}

static void
write_breakage(struct jsonout *json, const struct work_compared *all)
{
	jsonout_key(json, "breakage");
	jsonout_open_array(json);
	for (size_t m = 0; m < all->site.n_mix; m++) {
		const struct work_breakage *b = &all->breakage[m];

		if (b->n_cast == 0)
			continue;
		jsonout_open_object(json);
		jsonout_key_string(json, "mix", all->site.mix[m].code);
		jsonout_key_count(json, "cast", b->n_cast);
		jsonout_key_count(json, "broken", b->n_broken);
		jsonout_key_number(json, "low", b->low);
		jsonout_key_number(json, "high", b->high);
		jsonout_key_number(
			json, "p_more_by_chance", b->p_more_by_chance);
		jsonout_close_object(json);
	}
	jsonout_close_array(json);
}

static void
write_after(struct jsonout *json, const struct work_compared *all)
{
	jsonout_key(json, "after_first_crack");
	jsonout_open_array(json);
	for (size_t i = 0; i < all->n_after; i++) {
		const struct work_after_crack *a = &all->after[i];

		jsonout_open_object(json);
		jsonout_key_string(json, "mix", all->site.mix[a->mix].code);
		jsonout_key_count(json, "pieces", a->n);
		jsonout_key_number(json, "least_kg", a->least_kg);
		jsonout_key_number(json, "most_kg", a->most_kg);
		jsonout_key_bool(json, "most_is_open", a->most_open);
		jsonout_key_number(json, "least_ratio", a->least_ratio);
		jsonout_key_number(json, "most_ratio", a->most_ratio);
		jsonout_close_object(json);
	}
	jsonout_close_array(json);
}

static void
write_exponent(struct jsonout *json, const struct work_exponent *e)
{
	if (!e->has)
		return;
	jsonout_key(json, "dry_weight_exponent");
	jsonout_open_object(json);
	jsonout_key_number(json, "median", e->median);
	jsonout_key_number(json, "low", e->low);
	jsonout_key_number(json, "high", e->high);
	jsonout_key_bool(json, "borrowed", e->borrowed);
	jsonout_key_string(json, "mixes", e->mixes);
	jsonout_close_object(json);
}

enum err_code
compare_print_json(const struct invocation *in, const struct work_compared *all,
	struct err *err)
{
	struct text text;
	struct jsonout json;

	json_start(in, &text, &json);
	jsonout_key_string(
		&json, "baseline", all->site.mix[all->site.baseline].code);
	jsonout_key_number(&json, "level", work_level);
	jsonout_key(&json, "comparisons");
	jsonout_open_array(&json);
	for (size_t i = 0; i < all->n_comparison; i++)
		write_comparison(&json, all, &all->comparison[i]);
	jsonout_close_array(&json);
	write_exponent(&json, &all->exponent);
	write_breakage(&json, all);
	write_after(&json, all);
	write_strings(&json, "cautions", all->caution, all->n_caution);
	return json_finish(&json, err);
}
