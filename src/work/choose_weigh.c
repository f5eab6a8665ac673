/* choose_weigh.c - what if, and the trade-offs after the must-haves. */
#include "work/choose_priv.h"

#include "book/book.h"
#include "choose/tradeoff.h"
#include "work/part.h"
#include "work/remember.h"
#include "work/take_off.h"
#include "work/weight.h"

#include <math.h>
#include <string.h>

/* A mix does the must-haves where that is as likely as not; our choice. */
static const double does_duty = 0.5;

static const char *const words[WORK_CRITERIA] = {
	"density", "strength", "cost", "labour", "heat"};

const char *
work_criterion_word(enum work_criterion criterion)
{
	return words[criterion];
}

bool
work_criterion_find(const char *word, enum work_criterion *criterion)
{
	for (size_t k = 0; k < WORK_CRITERIA; k++)
		if (strcmp(words[k], word) == 0) {
			*criterion = (enum work_criterion)k;
			return true;
		}
	return false;
}

/* ---- what if ---- */

static enum err_code
set_price(struct book_material *material, size_t n,
	const struct work_price *price, struct err *err)
{
	bool found = false;

	if (!(price->cents >= 0 && price->cents < 1e12))
		return err_report(err, ERR_INPUT, "--price",
			"A price of %g cannot be; it is 0 or more.",
			price->cents / 100);
	for (size_t i = 0; i < n; i++) {
		if (strcmp(material[i].code, price->material) != 0 &&
			strcmp(material[i].name, price->material) != 0)
			continue;
		material[i].has_price = true;
		material[i].price_cents = (int64_t)llround(price->cents);
		found = true;
	}
	if (found)
		return ERR_NONE;
	return err_report(err, ERR_NOT_FOUND, "--price",
		"There is no material \"%.60s\" in the book.", price->material);
}

static enum err_code
set_thickness(
	struct book_part *part, size_t n, double thickness_m, struct err *err)
{
	if (!(thickness_m > 0))
		return err_report(err, ERR_INPUT, "--thickness",
			"A thickness of %g cannot be; it is more than 0.",
			thickness_m);
	for (size_t i = 0; i < n; i++) {
		if (part[i].volume_m3.has && part[i].thickness_m.has)
			part[i].volume_m3.value *= thickness_m /
				part[i].thickness_m.value;
		part[i].thickness_m = (struct maybe){true, thickness_m};
	}
	return ERR_NONE;
}

enum err_code
choose_what_if(struct arena *arena, const struct work_choose_ask *ask,
	struct work_site *site, struct err *err)
{
	struct book_material *material = arena_copy(
		arena, site->material, site->n_material, sizeof *material);
	struct book_part *part = arena_copy(
		arena, site->part, site->n_part, sizeof *part);
	size_t at = 0;

	if (material == NULL || part == NULL)
		return err_memory(err);
	if (ask->part != NULL)
		TRY(work_find_part(site, ask->part, &at, err));
	for (size_t i = 0; i < ask->n_price; i++)
		TRY(set_price(material, site->n_material, &ask->price[i], err));
	if (ask->thickness_m.has)
		TRY(set_thickness(
			part, site->n_part, ask->thickness_m.value, err));
	site->material = material;
	site->part = part;
	return ERR_NONE;
}

/* ---- weighing ---- */

struct weighing {
	const struct desk *desk;
	struct arena *arena;
	gsl_rng *rng;
	size_t n_draw;
	struct work_chosen *all;
};

/* Blending of the batches that were timed, s a m3; false: none was. */
static bool
labour_of(const struct work_site *site, size_t mix, double *s_per_m3)
{
	double sum = 0;
	size_t n = 0;

	for (size_t b = 0; b < site->n_batch; b++) {
		const struct book_batch *batch = &site->batch[b];

		if (site->batch_mix[b] != mix || batch->practice ||
			!batch->blending_s.has || !batch->volume_m3.has ||
			!(batch->volume_m3.value > 0))
			continue;
		sum += batch->blending_s.value / batch->volume_m3.value;
		n++;
	}
	if (n > 0)
		*s_per_m3 = sum / (double)n;
	return n > 0;
}

static bool
draw_criterion(const struct weighing *w, const struct work_candidate *c,
	enum work_criterion criterion, double *draw)
{
	const struct work_compared *all = &w->all->compared;
	double same = c->cost_cents_per_m3;
	size_t n_batch;
	bool has = c->has_cost;

	switch (criterion) {
	case WORK_CRITERION_DENSITY:
		return work_next_draws(all, w->rng, w->n_draw,
			CHOOSE_DRY_DENSITY, c->mix, draw, &n_batch);
	case WORK_CRITERION_HEAT:
		return work_next_draws(all, w->rng, w->n_draw,
			CHOOSE_CONDUCTIVITY, c->mix, draw, &n_batch);
	case WORK_CRITERION_STRENGTH:
		return work_next_draws(all, w->rng, w->n_draw,
			work_comparison_of(all, CHOOSE_BENDING_STRENGTH) != NULL
				? CHOOSE_BENDING_STRENGTH
				: CHOOSE_CRUSHING_STRENGTH,
			c->mix, draw, &n_batch);
	case WORK_CRITERION_LABOUR:
		has = labour_of(&all->site, c->mix, &same);
		break;
	case WORK_CRITERION_COST:
	case WORK_CRITERIA:
		break;
	}
	for (size_t i = 0; i < w->n_draw; i++)
		draw[i] = same;
	return has;
}

/* What the trade-off of a part rests on, and what it comes to. */
struct trading {
	const struct weighing *w;
	const struct work_part_choice *part;
	const size_t *candidate;
	size_t n;
	const double *weight;
};

struct traded {
	struct choose_tradeoff tradeoff;
	const void *rng_state; /* after the draws */
};

static enum err_code
draw_all(const struct trading *t, struct arena *scratch, const double **draw,
	struct err *err)
{
	const struct weighing *w = t->w;

	for (size_t i = 0; i < t->n * WORK_CRITERIA; i++) {
		const size_t at = t->candidate[i / WORK_CRITERIA];
		double *d = arena_take(scratch, w->n_draw, sizeof *d);

		if (d == NULL)
			return err_memory(err);
		if (draw_criterion(w, &t->part->candidate[at],
			    (enum work_criterion)(i % WORK_CRITERIA), d))
			draw[i] = d;
	}
	return ERR_NONE;
}

static enum err_code
trade(const struct trading *t, struct arena *own, struct arena *scratch,
	struct traded *out, struct err *err)
{
	static const bool larger[WORK_CRITERIA] = {
		[WORK_CRITERION_STRENGTH] = true};
	struct choose_tradeoff_ask ask = {.n_mix = t->n,
		.n_criterion = WORK_CRITERIA,
		.n_draw = t->w->n_draw,
		.larger_is_better = larger,
		.weight = t->weight};
	const double **draw = arena_take(
		scratch, t->n * WORK_CRITERIA, sizeof *draw);

	if (draw == NULL)
		return err_memory(err);
	TRY(draw_all(t, scratch, draw, err));
	ask.draw = draw;
	TRY(choose_tradeoff(own, &ask, &out->tradeoff, err));
	out->rng_state = work_rng_state(own, t->w->rng);
	return out->rng_state != NULL ? ERR_NONE : err_memory(err);
}

static enum err_code
make_traded(void *data, struct arena *own, const void **answer, struct err *err)
{
	const size_t most = (size_t)8 << 30;
	struct arena *scratch = arena_new(most);
	struct traded *traded = arena_take(own, 1, sizeof *traded);
	enum err_code code = ERR_NONE;

	if (scratch == NULL || traded == NULL)
		code = err_memory(err);
	if (code == ERR_NONE)
		code = trade(data, own, scratch, traded, err);
	arena_free(scratch);
	*answer = traded;
	return code;
}

static struct memo_key
key_traded(const struct trading *t)
{
	struct memo_keying k;

	memo_key_start(&k, "trade-off of a part");
	work_key_next(&k, &t->w->all->compared);
	work_key_rng(&k, t->w->rng);
	memo_key_count(&k, t->w->n_draw);
	memo_key_numbers(&k, t->weight, WORK_CRITERIA);
	memo_key_count(&k, t->n);
	for (size_t i = 0; i < t->n; i++) {
		const struct work_candidate *c =
			&t->part->candidate[t->candidate[i]];
		double labour = 0;

		memo_key_count(&k, c->mix);
		memo_key_count(&k, c->has_cost);
		memo_key_number(&k, c->cost_cents_per_m3);
		memo_key_count(&k,
			labour_of(&t->w->all->compared.site, c->mix, &labour));
		memo_key_number(&k, labour);
	}
	return memo_key_end(&k);
}

/* The order by utility, those that are not known in all at the end. */
static void
order(const struct choose_tradeoff *t, size_t *at, size_t n)
{
	for (size_t i = 0; i < n; i++) {
		size_t k = i;

		for (; k > 0 && t->is_complete[i] &&
			(!t->is_complete[at[k - 1]] ||
				t->utility[i] > t->utility[at[k - 1]]);
			k--)
			at[k] = at[k - 1];
		at[k] = i;
	}
}

static enum err_code
write_weighed(const struct weighing *w, const struct work_part_choice *p,
	const size_t *candidate, size_t n, const struct choose_tradeoff *t,
	struct work_weighed *out, struct err *err)
{
	size_t *at = arena_take(w->arena, n, sizeof *at);
	size_t *place = arena_take(w->arena, n, sizeof *place);
	size_t *index = arena_take(w->arena, n, sizeof *index);
	size_t *by = arena_take(w->arena, n, sizeof *by);
	bool *beaten = arena_take(w->arena, n, sizeof *beaten);
	double *utility = arena_take(w->arena, n, sizeof *utility);
	double *first = arena_take(w->arena, n, sizeof *first);
	double *middle = arena_take(
		w->arena, n * WORK_CRITERIA, sizeof *middle);
	struct maybe *m2 = arena_take(w->arena, n, sizeof *m2);
	const struct book_part *part = &w->all->compared.site.part[p->part];

	if (at == NULL || place == NULL || index == NULL || by == NULL ||
		beaten == NULL || utility == NULL || first == NULL ||
		middle == NULL || m2 == NULL)
		return err_memory(err);
	order(t, at, n);
	for (size_t i = 0; i < n; i++)
		place[at[i]] = i;
	for (size_t i = 0; i < n; i++) {
		const struct work_candidate *c =
			&p->candidate[candidate[at[i]]];

		index[i] = candidate[at[i]];
		beaten[i] = t->is_beaten[at[i]];
		by[i] = place[t->beaten_by[at[i]]];
		utility[i] = t->is_complete[at[i]] ? t->utility[at[i]]
						   : (double)NAN;
		first[i] = t->is_complete[at[i]] ? t->p_first[at[i]]
						 : (double)NAN;
		memcpy(middle + i * WORK_CRITERIA,
			t->middle + at[i] * WORK_CRITERIA,
			WORK_CRITERIA * sizeof *middle);
		if (c->has_cost && part->thickness_m.has)
			m2[i] = (struct maybe){true,
				c->cost_cents_per_m3 * part->thickness_m.value};
	}
	out->candidate = index;
	out->n = n;
	out->middle = middle;
	out->utility = utility;
	out->p_first = first;
	out->is_beaten = beaten;
	out->beaten_by = by;
	out->cost_cents_per_m2 = m2;
	return ERR_NONE;
}

static enum err_code
weigh_part(const struct weighing *w, const struct work_part_choice *p,
	struct work_weighed *out, struct err *err)
{
	size_t *candidate = arena_take(
		w->arena, p->n_candidate, sizeof *candidate);
	struct trading t = {.w = w,
		.part = p,
		.candidate = candidate,
		.weight = out->weight};
	const void *answer = NULL;
	const struct traded *got;
	struct memo_key key;

	if (candidate == NULL)
		return err_memory(err);
	for (size_t i = 0; i < p->n_candidate; i++)
		if (p->candidate[i].all_known &&
			p->candidate[i].p_all >= does_duty)
			candidate[t.n++] = i;
	key = key_traded(&t);
	TRY(work_remember(
		w->desk, &key, w->arena, make_traded, &t, &answer, err));
	got = answer;
	work_rng_set(w->rng, got->rng_state);
	return write_weighed(w, p, candidate, t.n, &got->tradeoff, out, err);
}

/* ---- one mix for all ---- */

static const struct work_candidate *
candidate_of(const struct work_part_choice *p, size_t mix)
{
	for (size_t i = 0; i < p->n_candidate; i++)
		if (p->candidate[i].mix == mix)
			return &p->candidate[i];
	return NULL;
}

static enum err_code
add_money(const struct weighing *w, const struct work_part_choice *p,
	const struct work_candidate *c, double *cents, bool *has,
	struct err *err)
{
	struct build_taken taken;

	*has = *has &&
		work_part_has_volume(&w->all->compared.site.part[p->part]);
	if (!*has)
		return ERR_NONE;
	TRY(work_take_off(
		w->arena, &w->all->compared, p->part, c->mix, &taken, err));
	*has = *has && c->has_cost;
	*cents += taken.mixed_m3 * c->cost_cents_per_m3;
	return ERR_NONE;
}

static double
least_of(const struct work_chosen *all, size_t mix)
{
	double least = 1;

	for (size_t i = 0; i < all->n_part; i++) {
		const struct work_candidate *c = candidate_of(
			&all->part[i], mix);

		if (c != NULL)
			least = fmin(least, c->all_known ? c->p_all : 0);
	}
	return least;
}

static enum err_code
weigh_one(
	const struct weighing *w, struct work_one_for_all *out, struct err *err)
{
	const struct work_chosen *all = w->all;
	struct work_one_for_all one = {
		.p_least = -1, .p_least_several = 1, .has_money = true};
	const size_t n_mix = all->compared.site.n_mix;
	bool *used = arena_take(w->arena, n_mix, sizeof *used);
	size_t n_part = 0;

	if (used == NULL)
		return err_memory(err);
	for (size_t m = 0; m < n_mix; m++) {
		double least = least_of(all, m);

		if (least > one.p_least) {
			one.p_least = least;
			one.mix = m;
		}
	}
	for (size_t i = 0; i < all->n_part; i++) {
		const struct work_part_choice *p = &all->part[i];

		if (p->n_candidate == 0)
			continue;
		const struct work_candidate *first = &p->candidate[0];

		n_part++;
		one.n_several += !used[first->mix];
		used[first->mix] = true;
		one.p_least_several = fmin(one.p_least_several,
			first->all_known ? first->p_all : 0);
		TRY(add_money(w, p, candidate_of(p, one.mix), &one.money_cents,
			&one.has_money, err));
		TRY(add_money(w, p, first, &one.several_money_cents,
			&one.has_money, err));
	}
	one.has = n_part > 1;
	*out = one;
	return ERR_NONE;
}

/* By what the part is weighed. */
static void
find_weights(const struct work_choose_ask *ask, const struct book_weight *row,
	size_t n, const struct book_part *part, struct work_weighed *out)
{
	bool is_of_part;

	if (ask->has_weight) {
		out->basis = "";
		memcpy(out->weight, ask->weight, sizeof out->weight);
	} else if (work_weights_for(
			   row, n, part->row.id, out->weight, &is_of_part)) {
		out->basis = is_of_part ? ", the weights of this part"
					: ", the weights of the house";
	}
}

enum err_code
choose_weigh(const struct desk *desk, struct arena *arena,
	const struct work_choose_ask *ask, gsl_rng *rng, size_t n_draw,
	struct work_chosen *all, struct err *err)
{
	const struct weighing w = {desk, arena, rng, n_draw, all};
	const struct work_site *site = &all->compared.site;
	struct work_weighed *weighed = arena_take(
		arena, all->n_part, sizeof *weighed);
	const struct book_weight *row;
	bool any = false;
	size_t n;

	if (weighed == NULL)
		return err_memory(err);
	TRY(book_all_weight(desk->book, arena, &row, &n, err));
	for (size_t i = 0; i < all->n_part; i++) {
		const struct work_part_choice *p = &all->part[i];

		find_weights(ask, row, n, &site->part[p->part], &weighed[i]);
		any = any || weighed[i].basis != NULL;
		if (p->n_candidate > 0 && weighed[i].basis != NULL)
			TRY(weigh_part(&w, p, &weighed[i], err));
	}
	if (!any)
		return ERR_NONE;
	all->weighed = weighed;
	return weigh_one(&w, &all->one, err);
}
