/* compare_density.c - the comparison at equal dry weight.
 *
 * strength = A x density^n, log-linear, the exponent from the mixes that differ
 * from the baseline in nothing but their foam; for each draw the ratio of a mix
 * is divided by (density / baseline density)^n. */
#include "work/compare_priv.h"

#include "core/text.h"
#include "work/remember.h"

#include <math.h>
#include <string.h>

/* Exponents of 2 to 3 are usual (from memory); the centre is the usual default,
 * the spread lets 0.8 to 3.6 pass. */
static const double exponent_mean = 2.2, exponent_sd = 0.7;

/* Proportions per cement that agree within this are the same slurry. */
static const double same_share = 0.03;

static double
part_mass(const struct work_site *site, size_t mix, size_t material)
{
	for (size_t i = 0; i < site->n_mix_part; i++)
		if (site->part_mix[i] == mix &&
			site->part_material[i] == material)
			return site->mix_part[i].mass_kg_per_m3;
	return 0;
}

static double
cement_mass(const struct work_site *site, size_t mix)
{
	for (size_t i = 0; i < site->n_mix_part; i++)
		if (site->part_mix[i] == mix &&
			strcmp(site->material[site->part_material[i]].role,
				"cement") == 0)
			return site->mix_part[i].mass_kg_per_m3;
	return 0;
}

/* The same slurry as the baseline's: every part in the same proportion to the
 * cement (the foam's agent apart, which must be of the same kind). */
static bool
same_slurry(const struct work_site *site, size_t mix)
{
	double a = cement_mass(site, mix);
	double b = cement_mass(site, site->baseline);

	if (!(a > 0) || !(b > 0) || site->mix[mix].reinforcement[0] != '\0')
		return false;
	for (size_t m = 0; m < site->n_material; m++) {
		double mine = part_mass(site, mix, m) / a;
		double theirs = part_mass(site, site->baseline, m) / b;
		bool agent = strcmp(site->material[m].role, "agent") == 0;

		if (agent && (mine > 0) == (theirs > 0))
			continue;
		if (fabs(mine - theirs) > same_share * fmax(mine, theirs))
			return false;
	}
	return true;
}

/* Mean dry weight of each batch's weighed pieces; 0 where none was. */
static enum err_code
batch_densities(struct arena *arena, const struct work_compared *all,
	const double **out, struct err *err)
{
	size_t n = all->site.n_batch;
	double *mean = arena_take(arena, n, sizeof *mean);
	size_t *count = arena_take(arena, n, sizeof *count);

	if (mean == NULL || count == NULL)
		return err_memory(err);
	for (size_t i = 0; i < all->results.n_result; i++) {
		const struct work_result *r = &all->results.result[i];

		if (r->measure != CHOOSE_DRY_DENSITY || r->excluded)
			continue;
		mean[r->batch] += (r->value.low + r->value.high) / 2;
		count[r->batch]++;
	}
	for (size_t b = 0; b < n; b++)
		mean[b] = count[b] > 0 ? mean[b] / (double)count[b] : 0;
	*out = mean;
	return ERR_NONE;
}

static double
group_density(
	const struct compare_rows *rows, size_t group, const double *density)
{
	double sum = 0;
	size_t n = 0;

	for (size_t b = 0; b < rows->n_batch; b++) {
		double met = density[rows->batch_site[b]];

		if (rows->batch_group[b] != group || !(met > 0))
			continue;
		sum += met;
		n++;
	}
	return n > 0 ? sum / (double)n : 0;
}

/* Keeps the rows of the family, as one group with log density as covariate. */
static enum err_code
family_rows(struct arena *arena, const struct work_compared *all,
	const struct compare_rows *rows, const double *density,
	double reference, struct compare_rows *family, double **x,
	size_t *n_density, struct err *err)
{
	size_t *batch_at = arena_take(arena, rows->n_batch, sizeof *batch_at);
	double last = 0;

	*family = *rows;
	family->n = family->n_batch = 0;
	family->n_group = 1;
	family->low = arena_take(arena, rows->n, sizeof *family->low);
	family->high = arena_take(arena, rows->n, sizeof *family->high);
	family->batch = arena_take(arena, rows->n, sizeof *family->batch);
	family->batch_group = arena_take(
		arena, rows->n_batch, sizeof *family->batch_group);
	*x = arena_take(arena, rows->n, sizeof **x);
	if (batch_at == NULL || family->low == NULL || family->high == NULL ||
		family->batch == NULL || family->batch_group == NULL ||
		*x == NULL)
		return err_memory(err);
	for (size_t i = 0; i < rows->n_batch; i++)
		batch_at[i] = COMPARE_NONE;
	*n_density = 0;
	for (size_t i = 0; i < rows->n; i++) {
		size_t b = rows->batch[i];
		size_t mix = rows->group_mix[rows->batch_group[b]];
		double met = density[rows->batch_site[b]];

		if (!(met > 0) || !same_slurry(&all->site, mix))
			continue;
		if (batch_at[b] == COMPARE_NONE)
			batch_at[b] = family->n_batch++;
		if (fabs(met / (last > 0 ? last : 1) - 1) > same_share) {
			(*n_density)++;
			last = met;
		}
		(*x)[family->n] = log(met / reference);
		family->low[family->n] = rows->low[i];
		family->high[family->n] = rows->high[i];
		family->batch[family->n++] = batch_at[b];
	}
	return ERR_NONE;
}

/* Rows of bending if the baseline and another mix have them, else of crushing:
 * the same whichever measure is asked for. */
static enum err_code
strength_rows(struct comparing *on, struct compare_rows *rows, bool *has,
	struct err *err)
{
	static const enum choose_measure strength[] = {
		CHOOSE_BENDING_STRENGTH, CHOOSE_CRUSHING_STRENGTH};

	*has = false;
	for (size_t i = 0; i < 2 && !*has; i++) {
		TRY(compare_rows(on->arena, &on->all->site, &on->all->results,
			strength[i], false, rows, err));
		*has = rows->n_group > 1;
	}
	*has = *has && rows->mix_group[on->all->site.baseline] != COMPARE_NONE;
	return ERR_NONE;
}

static bool
is_strength(enum choose_measure measure)
{
	return measure == CHOOSE_BENDING_STRENGTH ||
		measure == CHOOSE_CRUSHING_STRENGTH;
}

static bool
is_wanted(const struct comparing *on)
{
	for (size_t i = 0; i < on->n_measure; i++)
		if (is_strength(on->measure[i].rows.measure))
			return true;
	return false;
}

enum err_code
compare_density_plan(struct comparing *on, struct err *err)
{
	struct compare_rows rows, family;
	double *x = NULL, base;
	size_t n_density = 0;
	bool has = false;

	if (is_wanted(on))
		TRY(strength_rows(on, &rows, &has, err));
	if (!has)
		return ERR_NONE;
	TRY(batch_densities(on->arena, on->all, &on->density.batch, err));
	base = group_density(&rows, rows.mix_group[on->all->site.baseline],
		on->density.batch);
	if (!(base > 0))
		return ERR_NONE;
	TRY(family_rows(on->arena, on->all, &rows, on->density.batch, base,
		&family, &x, &n_density, err));
	TRY(compare_job_add(on->arena, &on->jobs, &family, 0, on->desk->n_keep,
		on->desk->seed + 1, &on->density.exponent, err));
	on->density.exponent->x = x;
	on->density.exponent->n_x = 1;
	on->density.exponent->keep_draws = true;
	on->density.exponent->prior.slope_mean = &exponent_mean;
	on->density.exponent->prior.slope_sd = &exponent_sd;
	on->density.borrowed = n_density < 2;
	return ERR_NONE;
}

/* The ratios at equal density of one comparison: what they rest on, and what
 * they come to. */
struct equalising {
	const struct work_comparison *c;
	const struct compare_job *exponent;
	const double *log_ratio; /* of the densities, one a group; NAN: none */
};

struct equal {
	double interval[3]; /* of the log ratio */
	double p_better;
};

static enum err_code
equal_of(const struct equalising *e, struct arena *arena, size_t group,
	struct equal *out, struct err *err)
{
	const struct stats_hierarchy *h = &e->c->draws;
	const double *exponent = e->exponent->got.draws.slope;
	struct arena_mark mark = arena_mark(arena);
	double *ratio = arena_take(arena, h->n_draw, sizeof *ratio);
	size_t better = 0;

	if (ratio == NULL)
		return err_memory(err);
	for (size_t i = 0; i < h->n_draw; i++) {
		const double *mu = h->mean + i * h->n_mix;

		ratio[i] = mu[group] - mu[e->c->baseline] -
			exponent[i] * e->log_ratio[group];
		better += ratio[i] > 0;
	}
	TRY(stats_hierarchy_interval(
		arena, ratio, h->n_draw, work_level, out->interval, err));
	arena_back(arena, mark);
	out->p_better = (double)better / (double)h->n_draw;
	return ERR_NONE;
}

static enum err_code
make_equal(void *data, struct arena *own, const void **answer, struct err *err)
{
	const struct equalising *e = data;
	struct equal *equal = arena_take(own, e->c->n_group, sizeof *equal);

	if (equal == NULL)
		return err_memory(err);
	for (size_t g = 0; g < e->c->n_group; g++)
		if (!isnan(e->log_ratio[g]))
			TRY(equal_of(e, own, g, &equal[g], err));
	*answer = equal;
	return ERR_NONE;
}

static struct memo_key
key_equal(const struct equalising *e)
{
	struct memo_keying k;

	memo_key_start(&k, "at equal density");
	memo_key_bytes(&k, &e->c->drawn_from, sizeof e->c->drawn_from);
	memo_key_bytes(
		&k, &e->exponent->claim.key, sizeof e->exponent->claim.key);
	memo_key_count(&k, e->c->baseline);
	memo_key_numbers(&k, e->log_ratio, e->c->n_group);
	return memo_key_end(&k);
}

static void
fill_equal(struct work_group *g, const struct equal *equal)
{
	g->has_equal_density = true;
	g->equal_median = exp(equal->interval[0]);
	g->equal_low = exp(equal->interval[1]);
	g->equal_high = exp(equal->interval[2]);
	g->p_better_equal = equal->p_better;
}

static enum err_code
equalise(struct comparing *on, const struct compare_rows *rows,
	struct work_comparison *c, struct err *err)
{
	const double *density = on->density.batch;
	const double base = group_density(rows, c->baseline, density);
	double *log_ratio = arena_take(
		on->arena, c->n_group, sizeof *log_ratio);
	struct equalising e = {c, on->density.exponent, log_ratio};
	const void *answer = NULL;
	const struct equal *equal;
	struct memo_key key;

	if (log_ratio == NULL)
		return err_memory(err);
	if (!(base > 0))
		return ERR_NONE;
	for (size_t g = 0; g < c->n_group; g++) {
		double met = group_density(rows, g, density);

		c->group[g].density_kg_m3 = met;
		log_ratio[g] = met > 0 ? log(met / base) : (double)NAN;
	}
	key = key_equal(&e);
	TRY(work_remember(
		on->desk, &key, on->arena, make_equal, &e, &answer, err));
	equal = answer;
	for (size_t g = 0; g < c->n_group; g++)
		if (!isnan(log_ratio[g]))
			fill_equal(&c->group[g], &equal[g]);
	return ERR_NONE;
}

static enum err_code
name_family(struct arena *arena, struct work_compared *all, struct err *err)
{
	struct text text;

	text_init(&text, arena);
	for (size_t m = 0; m < all->site.n_mix; m++)
		if (same_slurry(&all->site, m))
			text_addf(&text, "%s%s", text.n > 0 ? ", " : "",
				all->site.mix[m].code);
	if (text_failed(&text))
		return err_memory(err);
	all->exponent.mixes = text.n > 0 ? text.bytes : "";
	return ERR_NONE;
}

enum err_code
compare_density_read(struct comparing *on, struct err *err)
{
	const struct compare_job *job = on->density.exponent;
	struct work_exponent *out = &on->all->exponent;

	if (job == NULL)
		return ERR_NONE;
	TRY(name_family(on->arena, on->all, err));
	out->has = true;
	out->borrowed = on->density.borrowed;
	out->median = job->got.slope[0][0];
	out->low = job->got.slope[0][1];
	out->high = job->got.slope[0][2];
	for (size_t i = 0; i < on->n_measure; i++) {
		struct work_comparison *c = &on->all->comparison[i];

		if (c->baseline < c->n_group && is_strength(c->measure))
			TRY(equalise(on, &on->measure[i].rows, c, err));
	}
	return ERR_NONE;
}
