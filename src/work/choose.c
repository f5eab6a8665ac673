/* choose.c - requirements held against draws of the next batch of each mix. */
#include "work/choose.h"

#include "work/choose_priv.h"
#include "work/measured_beside.h"
#include "work/remember.h"
#include "work/take_off.h"

#include "book/book.h"
#include "choose/conductivity.h"
#include "choose/meet.h"
#include "core/rng.h"
#include "core/text.h"
#include "core/unit.h"

#include <gsl/gsl_randist.h>
#include <math.h>
#include <string.h>

/* A mix known from fewer batches is to be repeated; our choice. */
enum { SENTENCES = 16, MEASURED = 3, ENOUGH_BATCHES = 4 };

/* Chances: as likely as not; what counts as nearly as likely, our choice; and
 * beyond what no chance is printed as a figure. */
static const double even = 0.5, near = 0.1, most_sure = 0.995;

struct choosing {
	const struct desk *desk;
	struct arena *arena;
	const struct work_choose_ask *ask;
	const struct book_part_use *use; /* of every part that has one */
	size_t n_use;
	const struct work_compared *all;
	gsl_rng *rng;
	size_t n_draw;
};

static double
cost_of(const struct work_site *site, size_t mix, bool *has)
{
	double cents = 0;

	*has = false;
	for (size_t i = 0; i < site->n_mix_part; i++) {
		const struct book_material *m =
			&site->material[site->part_material[i]];

		if (site->part_mix[i] != mix || !m->has_price ||
			!m->package_kg.has)
			continue;
		cents += site->mix_part[i].mass_kg_per_m3 *
			(double)m->price_cents / m->package_kg.value;
		*has = true;
	}
	return cents;
}

/* The draws of a mix in a measure; false if it has none. */
static bool
draws_of(const struct choosing *c, enum choose_measure measure, size_t mix,
	struct choose_draws *draws, size_t *n_batch)
{
	const struct work_comparison *comparison = work_comparison_of(
		c->all, measure);
	const struct work_group *group = comparison == NULL
		? NULL
		: work_group_of(c->all, comparison, mix);

	if (group == NULL || comparison->draws.n_draw != c->n_draw)
		return false;
	*draws = (struct choose_draws){.n_draw = c->n_draw,
		.log_mean = comparison->draws.mean +
			(group - comparison->group),
		.stride = comparison->draws.n_mix,
		.sd_batch = comparison->draws.sd_batch,
		.sd_specimen = comparison->draws.sd_specimen};
	*n_batch = group->n_batch;
	return true;
}

/* Will the next piece survive until its test?  1 where it breaks. */
static bool
draw_breakage(
	const struct choosing *c, size_t mix, double *next, size_t *n_batch)
{
	const struct work_fates *f = &c->all->results.beam_fates[mix];

	if (f->n_at_risk == 0)
		return false;
	choose_breakage_draws(
		f->n_at_risk, f->n_snapped, c->rng, c->n_draw, next);
	for (size_t i = 0; i < c->n_draw; i++)
		next[i] = gsl_ran_bernoulli(c->rng, next[i]);
	*n_batch = f->n_at_risk;
	return true;
}

static bool
draw_next(const struct choosing *c, enum choose_measure measure, size_t mix,
	double *next, size_t *n_batch)
{
	struct choose_draws draws;
	bool has;
	double cost;

	if (measure == CHOOSE_BREAKAGE)
		return draw_breakage(c, mix, next, n_batch);
	if (measure == CHOOSE_COST) {
		cost = cost_of(&c->all->site, mix, &has);
		for (size_t i = 0; i < c->n_draw; i++)
			next[i] = cost;
		return has;
	}
	if (!draws_of(c,
		    measure == CHOOSE_CONDUCTIVITY ? CHOOSE_DRY_DENSITY
						   : measure,
		    mix, &draws, n_batch))
		return false;
	choose_next_batch(&draws, c->rng, next);
	for (size_t i = 0; i < c->n_draw && measure == CHOOSE_CONDUCTIVITY; i++)
		next[i] = choose_conductivity(next[i]) *
			exp(gsl_ran_gaussian_ziggurat(
				c->rng, choose_conductivity_sd));
	return true;
}

bool
work_next_draws(const struct work_compared *all, gsl_rng *rng, size_t n_draw,
	enum choose_measure measure, size_t mix, double *next, size_t *n_batch)
{
	const struct choosing c = {.all = all, .rng = rng, .n_draw = n_draw};

	return draw_next(&c, measure, mix, next, n_batch);
}

void
work_key_next(struct memo_keying *k, const struct work_compared *all)
{
	const struct work_site *site = &all->site;

	memo_key_counts(k, site->mix_matrix, site->n_mix);
	for (size_t i = 0; i < site->n_mix; i++) {
		bool has;

		memo_key_number(k, cost_of(site, i, &has));
		memo_key_count(k, has);
		memo_key_count(k, all->results.beam_fates[i].n_at_risk);
		memo_key_count(k, all->results.beam_fates[i].n_snapped);
	}
	memo_key_count(k, all->n_comparison);
	for (size_t i = 0; i < all->n_comparison; i++) {
		const struct work_comparison *c = &all->comparison[i];

		memo_key_count(k, c->measure);
		memo_key_bytes(k, &c->drawn_from, sizeof c->drawn_from);
		memo_key_count(k, c->n_group);
		for (size_t g = 0; g < c->n_group; g++) {
			memo_key_count(k, c->group[g].mix);
			memo_key_count(k, c->group[g].n_batch);
		}
	}
}

/* The draws of a bending strength with mesh, where the panel has one and the mix
 * none of its own; false: they stay, or (*known false) cannot be told. */
static enum err_code
draw_meshed(const struct choosing *c, struct arena *arena,
	const struct work_part_choice *p, const struct choose_requirement *r,
	double *draw, struct work_candidate *out, bool *known, struct err *err)
{
	const struct book_mix *mix = &c->all->site.mix[out->mix];
	double *crushing;
	size_t n_batch = SIZE_MAX;

	if (!p->mesh.has || r->measure != CHOOSE_BENDING_STRENGTH ||
		!r->is_least || mix->reinforcement[0] != '\0')
		return ERR_NONE;
	crushing = arena_take(arena, c->n_draw, sizeof *crushing);
	if (crushing == NULL)
		return err_memory(err);
	*known = draw_next(
		c, CHOOSE_CRUSHING_STRENGTH, out->mix, crushing, &n_batch);
	if (!*known)
		return ERR_NONE;
	out->n_batch = n_batch < out->n_batch ? n_batch : out->n_batch;
	return choose_mesh_draws(&p->mesh, crushing, c->n_draw, r->value, draw,
		&out->meshed, err);
}

/* What stays goes to own, the draws to scratch. */
static enum err_code
weigh(const struct choosing *c, struct arena *own, struct arena *scratch,
	size_t mix, const struct work_part_choice *p,
	struct work_candidate *out, struct err *err)
{
	const struct choose_requirement *requirement = p->requirement;
	const size_t n = p->n_requirement;
	struct work_need *need = arena_take(own, n, sizeof *need);
	const double **next = arena_take(scratch, n, sizeof *next);
	struct choose_met met;

	if (need == NULL || next == NULL)
		return err_memory(err);
	*out = (struct work_candidate){
		.mix = mix, .need = need, .n_batch = SIZE_MAX};
	for (size_t k = 0; k < n; k++) {
		double *draw = arena_take(scratch, c->n_draw, sizeof *draw);
		struct choose_draws draws;
		size_t n_batch = SIZE_MAX;
		bool known = true, meshed = out->meshed.has;

		if (draw == NULL)
			return err_memory(err);
		if (!draw_next(c, requirement[k].measure, mix, draw, &n_batch))
			continue;
		TRY(draw_meshed(c, scratch, p, &requirement[k], draw, out,
			&known, err));
		if (!known)
			continue;
		next[k] = draw;
		out->n_batch = n_batch < out->n_batch ? n_batch : out->n_batch;
		need[k].has_lower = out->meshed.has == meshed &&
			draws_of(c, requirement[k].measure, mix, &draws,
				&n_batch);
		if (need[k].has_lower)
			TRY(choose_lower_value(scratch, &draws,
				requirement[k].is_least, c->rng, &need[k].lower,
				err));
	}
	TRY(choose_meet(scratch, requirement, n, next, c->n_draw, &met, err));
	for (size_t k = 0; k < n; k++) {
		need[k].known = met.known[k];
		need[k].p = met.p[k];
	}
	out->p_all = met.p_all;
	out->all_known = met.all_known;
	out->cost_cents_per_m3 = cost_of(&c->all->site, mix, &out->has_cost);
	return ERR_NONE;
}

/* Tested for everything first, then the chance in whole hundredths (as it is
 * printed, so that the order can be followed), then the cheaper. */
static bool
goes_before(const struct work_candidate *a, const struct work_candidate *b)
{
	double chance_a = round(100 * a->p_all);
	double chance_b = round(100 * b->p_all);

	if (a->all_known != b->all_known)
		return a->all_known;
	if (chance_a > chance_b || chance_a < chance_b)
		return chance_a > chance_b;
	return a->cost_cents_per_m3 < b->cost_cents_per_m3;
}

static void
order(struct work_candidate *candidate, size_t n)
{
	for (size_t i = 1; i < n; i++) {
		struct work_candidate moved = candidate[i];
		size_t k = i;

		for (; k > 0 && goes_before(&moved, &candidate[k - 1]); k--)
			candidate[k] = candidate[k - 1];
		candidate[k] = moved;
	}
}

/* All mixes held against what one part asks: what it rests on, and what it
 * comes to. */
struct holding {
	const struct choosing *c;
	const struct work_part_choice *part;
};

struct held {
	const struct work_candidate *candidate; /* in their order */
	const void *rng_state;                  /* after the draws */
};

static enum err_code
hold_all(const struct holding *h, struct arena *own, struct arena *scratch,
	struct held *out, struct err *err)
{
	const size_t n = h->c->all->site.n_mix;
	struct work_candidate *candidate = arena_take(
		own, n, sizeof *candidate);

	if (candidate == NULL)
		return err_memory(err);
	for (size_t m = 0; m < n; m++) {
		struct arena_mark mark = arena_mark(scratch);

		TRY(weigh(h->c, own, scratch, m, h->part, &candidate[m], err));
		arena_back(scratch, mark);
	}
	order(candidate, n);
	out->candidate = candidate;
	out->rng_state = work_rng_state(own, h->c->rng);
	return out->rng_state != NULL ? ERR_NONE : err_memory(err);
}

static enum err_code
make_held(void *data, struct arena *own, const void **answer, struct err *err)
{
	const size_t most = (size_t)8 << 30;
	struct arena *scratch = arena_new(most);
	struct held *held = arena_take(own, 1, sizeof *held);
	enum err_code code = ERR_NONE;

	if (scratch == NULL || held == NULL)
		code = err_memory(err);
	if (code == ERR_NONE)
		code = hold_all(data, own, scratch, held, err);
	arena_free(scratch);
	*answer = held;
	return code;
}

static void
key_mesh(struct memo_keying *k, const struct work_mesh *mesh)
{
	memo_key_count(k, mesh->has);
	memo_key_number(k, mesh->area_m2);
	memo_key_number(k, mesh->thickness_m);
	memo_key_number(k, mesh->effective_m);
	memo_key_number(k, mesh->yield_pa);
}

static struct memo_key
key_held(const struct holding *h)
{
	const struct choosing *c = h->c;
	struct memo_keying k;

	memo_key_start(&k, "held against a part");
	work_key_next(&k, c->all);
	work_key_rng(&k, c->rng);
	memo_key_count(&k, c->n_draw);
	for (size_t m = 0; m < c->all->site.n_mix; m++)
		memo_key_text(&k, c->all->site.mix[m].reinforcement);
	for (size_t i = 0; i < h->part->n_requirement; i++) {
		memo_key_count(&k, h->part->requirement[i].measure);
		memo_key_count(&k, h->part->requirement[i].is_least);
		memo_key_number(&k, h->part->requirement[i].value);
	}
	key_mesh(&k, &h->part->mesh);
	return memo_key_end(&k);
}

/* The mixes for a part, the best first; the generator goes on behind them. */
static enum err_code
hold(const struct choosing *c, struct work_part_choice *p, struct err *err)
{
	struct holding h = {c, p};
	const struct memo_key key = key_held(&h);
	const void *answer = NULL;
	const struct held *held;

	TRY(work_remember(
		c->desk, &key, c->arena, make_held, &h, &answer, err));
	held = answer;
	work_rng_set(c->rng, held->rng_state);
	p->candidate = held->candidate;
	p->n_candidate = c->all->site.n_mix;
	return ERR_NONE;
}

enum err_code
work_requirements(const struct work_site *site, struct arena *arena,
	size_t part, const struct choose_requirement **requirement,
	size_t *n_requirement, struct err *err)
{
	struct choose_requirement *r = arena_take(
		arena, site->n_requirement, sizeof *r);
	size_t n = 0;

	if (r == NULL)
		return err_memory(err);
	for (size_t i = 0; i < site->n_requirement; i++) {
		const struct book_requirement *b = &site->requirement[i];

		if (b->part_id != site->part[part].row.id)
			continue;
		r[n] = (struct choose_requirement){
			.is_least = strcmp(b->bound, "least") == 0,
			.value = b->value,
			.source = b->source};
		n += choose_measure_find(b->measure, &r[n].measure) ? 1 : 0;
	}
	*requirement = r;
	*n_requirement = n;
	return ERR_NONE;
}

/* The requirement that is least sure, of those known. */
static size_t
weakest(const struct work_part_choice *p, const struct work_candidate *c)
{
	size_t at = 0;

	for (size_t k = 1; k < p->n_requirement; k++)
		if (c->need[k].known &&
			(!c->need[at].known || c->need[k].p < c->need[at].p))
			at = k;
	return at;
}

/* Is the mix, not the first, as good as the first for the part? */
static bool
is_near(const struct work_candidate *first, const struct work_candidate *other)
{
	return other->all_known == first->all_known && first->p_all >= even &&
		first->p_all - other->p_all <= near;
}

/* "Q, D and B", of those nearly as likely as the first; *cheapest is the
 * cheapest of them where it is cheaper than the first.  NULL: there is none. */
static const char *
near_ones(const struct choosing *c, const struct work_part_choice *p,
	const struct work_candidate **cheapest)
{
	const struct work_candidate *first = &p->candidate[0];
	size_t n_left = 0;
	struct text t;

	text_init(&t, c->arena);
	*cheapest = first;
	for (size_t i = 1; i < p->n_candidate; i++)
		n_left += is_near(first, &p->candidate[i]);
	if (n_left == 0)
		return NULL;
	for (size_t i = 1; i < p->n_candidate; i++) {
		const struct work_candidate *other = &p->candidate[i];

		if (!is_near(first, other))
			continue;
		n_left--;
		text_addf(&t, "%s%s",
			t.n == 0              ? ""
				: n_left == 0 ? arena_say(t.arena, " and ")
					      : ", ",
			c->all->site.mix[other->mix].code);
		if (other->has_cost && (*cheapest)->has_cost &&
			other->cost_cents_per_m3 <
				(*cheapest)->cost_cents_per_m3)
			*cheapest = other;
	}
	return text_failed(&t) ? NULL : t.bytes;
}

static const char *
near_sentence(const struct choosing *c, const struct work_part_choice *p)
{
	const struct work_site *site = &c->all->site;
	const struct work_candidate *first = &p->candidate[0], *cheapest;
	const char *others = near_ones(c, p, &cheapest);

	if (others == NULL)
		return NULL;
	return text_format(c->arena,
		"Nearly as likely, within %.0f in 100: %s. This trial does not "
		"tell them apart for this part%s.",
		100 * near, others,
		cheapest == first
			? ""
			: text_format(c->arena,
				  "; %s costs %.2f %s a m3 in place of %.2f",
				  site->mix[cheapest->mix].code,
				  cheapest->cost_cents_per_m3 / 100,
				  site->info.currency,
				  first->cost_cents_per_m3 / 100));
}

const char *
work_chance_words(struct arena *arena, double p)
{
	if (p > most_sure)
		return arena_say(arena, N_("over 99"));
	if (p < 1 - most_sure)
		return arena_say(arena, N_("under 1"));
	return text_format(arena, "%.0f", 100 * p);
}

/* The answer for the part in one line. */
static const char *
answer_in_short(const struct choosing *c, const struct work_part_choice *p)
{
	const struct work_site *site = &c->all->site;
	const struct work_candidate *first = &p->candidate[0], *cheapest;
	const char *code = site->mix[first->mix].code;
	const char *name = site->part[p->part].name;
	const char *chance = work_chance_words(c->arena, first->p_all);
	const char *others = near_ones(c, p, &cheapest);
	size_t k = weakest(p, first);
	const char *surer = first->n_batch < ENOUGH_BATCHES
		? text_format(c->arena,
			  " Known from %zu batch%s of it: repeat it and the "
			  "baseline.",
			  first->n_batch,
			  first->n_batch == 1 ? "" : arena_say(c->arena, "es"))
		: "";

	if (!first->all_known)
		return text_format(c->arena,
			"%s: open. No mix was tested for all that is asked; "
			"%s comes nearest.",
			name, code);
	if (first->p_all < even)
		return text_format(c->arena,
			"%s: no mix yet. %s comes nearest, %s in 100; %s holds "
			"it back most. Change the mix or what is asked.",
			name, code, chance,
			arena_say(c->arena,
				choose_measure_name(
					p->requirement[k].measure)));
	if (others != NULL)
		return text_format(c->arena,
			"%s: %s, %s in 100, not settled: %s %s nearly as "
			"likely%s.%s",
			name, code, chance, others,
			strchr(others, ' ') != NULL ? arena_say(c->arena, "are")
						    : arena_say(c->arena, "is"),
			cheapest == first
				? ""
				: text_format(c->arena, " and %s is cheaper",
					  site->mix[cheapest->mix].code),
			surer);
	return text_format(
		c->arena, "%s: %s, %s in 100.%s", name, code, chance, surer);
}

/* Heat is foreseen from the dry weight: what the hot box said stands beside. */
static enum err_code
add_measured(const struct choosing *c, const struct work_part_choice *p,
	const char **said, size_t *n, struct err *err)
{
	bool asks_heat = false;
	size_t n_added = 0;

	for (size_t i = 0; i < p->n_requirement; i++)
		asks_heat = asks_heat ||
			p->requirement[i].measure == CHOOSE_CONDUCTIVITY;
	for (size_t k = 0; k < p->n_candidate && asks_heat; k++) {
		const char *const *measured = NULL;
		size_t n_measured = 0;

		TRY(work_measured_beside(c->arena, &c->all->site,
			&c->all->results, p->candidate[k].mix, 0, &measured,
			&n_measured, err));
		for (size_t i = 0; i < n_measured && n_added < MEASURED; i++) {
			said[(*n)++] = measured[i];
			n_added++;
		}
	}
	return ERR_NONE;
}

static enum err_code
explain(const struct choosing *c, struct work_part_choice *p, struct err *err)
{
	const struct work_site *site = &c->all->site;
	const struct work_candidate *first = &p->candidate[0];
	const char *code = site->mix[first->mix].code;
	const char **said = arena_take(
		c->arena, SENTENCES + MEASURED, sizeof *said);
	const char *near_says = near_sentence(c, p);
	size_t k = weakest(p, first), n = 0;

	if (said == NULL)
		return err_memory(err);
	if (near_says != NULL)
		said[n++] = near_says;
	if (first->p_all < even)
		said[n++] = text_format(c->arena,
			"No mix is more likely than not to meet all that is "
			"asked; %s comes nearest. Change the mix or the "
			"requirement and try again.",
			code);
	if (first->need[k].known && first->need[k].p < 0.95)
		said[n++] = text_format(c->arena,
			"What holds %s back most is %s: the next batch meets "
			"it with a chance of %.0f in 100.",
			code,
			arena_say(c->arena,
				choose_measure_name(p->requirement[k].measure)),
			100 * first->need[k].p);
	for (size_t i = 0; i < p->n_requirement && n < SENTENCES - 2; i++)
		if (!first->need[i].known)
			said[n++] = text_format(c->arena,
				"%s was not tested for %s: test it before you "
				"decide.",
				code,
				arena_say(c->arena,
					choose_measure_name(
						p->requirement[i].measure)));
	if (first->n_batch != SIZE_MAX && first->n_batch < ENOUGH_BATCHES)
		said[n++] = text_format(c->arena,
			"What would make it surer: %zu more batches of %s and "
			"of the baseline; with %zu batches instead of %zu the "
			"doubt about the mix shrinks to about %.0f %% of what "
			"it is.",
			(size_t)2, code, first->n_batch + 2, first->n_batch,
			100 *
				sqrt((double)first->n_batch /
					(double)(first->n_batch + 2)));
	TRY(add_measured(c, p, said, &n, err));
	p->sentence = said;
	p->n_sentence = n;
	p->in_short = answer_in_short(c, p);
	if (p->in_short == NULL)
		return err_memory(err);
	return ERR_NONE;
}

static struct book_part_use
use_of(const struct choosing *c, const struct book_part *part)
{
	for (size_t i = 0; i < c->n_use; i++)
		if (c->use[i].part_id == part->row.id)
			return c->use[i];
	return (struct book_part_use){.form = part->kind, .grip = ""};
}

static enum err_code
find_mesh(const struct choosing *c, struct work_part_choice *p, struct err *err)
{
	const struct book_part *part = &c->all->site.part[p->part];
	const struct book_part_use use = use_of(c, part);
	bool bends = false;

	for (size_t k = 0; k < p->n_requirement; k++)
		bends = bends ||
			(p->requirement[k].measure == CHOOSE_BENDING_STRENGTH &&
				p->requirement[k].is_least);
	if (!bends)
		return ERR_NONE;
	return choose_mesh_of(c->ask, part, &use, &p->mesh, err);
}

static enum err_code
choose_part(const struct choosing *c, size_t part, struct work_part_choice *out,
	struct err *err)
{
	const struct work_site *site = &c->all->site;

	out->part = part;
	TRY(work_requirements(&c->all->site, c->arena, part, &out->requirement,
		&out->n_requirement, err));
	if (out->n_requirement == 0)
		return ERR_NONE;
	TRY(find_mesh(c, out, err));
	TRY(hold(c, out, err));
	TRY(explain(c, out, err));
	if (!work_part_has_volume(&site->part[part]))
		return ERR_NONE;
	TRY(work_take_off(c->arena, c->all, out->part, out->candidate[0].mix,
		&out->taken, err));
	out->has_taken = out->candidate[0].all_known &&
		out->candidate[0].p_all >= even;
	return ERR_NONE;
}

static enum err_code
choose_all(struct choosing *c, const struct work_choose_ask *ask,
	struct work_chosen *out, struct err *err)
{
	const struct work_site *site = &c->all->site;
	struct work_part_choice *part = arena_take(
		c->arena, site->n_part, sizeof *part);
	bool any_mesh = false;
	size_t n = 0;

	if (part == NULL)
		return err_memory(err);
	c->n_draw = c->all->comparison[0].draws.n_draw;
	for (size_t i = 0; i < site->n_part; i++)
		if (ask->part == NULL ||
			strcmp(ask->part, site->part[i].code) == 0)
			TRY(choose_part(c, i, &part[n++], err));
	for (size_t i = 0; i < n; i++)
		any_mesh = any_mesh || part[i].mesh.has;
	if (choose_asks_mesh(ask) && !any_mesh)
		return err_report(err, ERR_INPUT, "--mesh",
			"No floor-panel or roof-panel%s%s asks a bending "
			"strength; mesh is tried in those alone.",
			ask->part != NULL ? err_say(err, " called ") : "",
			ask->part != NULL ? ask->part : "");
	out->part = part;
	out->n_part = n;
	return ERR_NONE;
}

enum err_code
work_choose_asked(const struct desk *desk, struct arena *arena,
	const struct work_choose_ask *ask, struct work_chosen *out,
	struct err *err)
{
	struct work_chosen got = {0};
	struct choosing c = {
		.desk = desk, .arena = arena, .ask = ask, .all = &got.compared};
	enum err_code code;

	TRY(work_compare(desk, arena, &got.compared, err));
	if (got.compared.site.n_requirement == 0)
		return err_report(err, ERR_INPUT, "parts",
			"No part of the building says what it needs. Put parts "
			"with least_ or most_ columns into parts.csv and "
			"import it.");
	TRY(book_all_part_use(desk->book, arena, &c.use, &c.n_use, err));
	TRY(choose_what_if(arena, ask, &got.compared.site, err));
	c.rng = rng_new(desk->seed, WORK_CHAINS + 1);
	if (c.rng == NULL)
		return err_memory(err);
	code = choose_all(&c, ask, &got, err);
	if (code == ERR_NONE && !ask->unweighed)
		code = choose_weigh(
			desk, arena, ask, c.rng, c.n_draw, &got, err);
	gsl_rng_free(c.rng);
	if (code == ERR_NONE)
		*out = got;
	return code;
}

enum err_code
work_choose(const struct desk *desk, struct arena *arena,
	struct work_chosen *out, struct err *err)
{
	const struct work_choose_ask ask = {.unweighed = true};

	return work_choose_asked(desk, arena, &ask, out, err);
}
