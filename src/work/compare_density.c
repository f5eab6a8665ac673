/* compare_density.c - the comparison at equal dry weight.
 *
 * strength = A x density^n, log-linear, the exponent from the mixes that differ
 * from the baseline in nothing but their foam; for each draw the ratio of a mix
 * is divided by (density / baseline density)^n. */
#include "work/compare_priv.h"

#include "core/text.h"

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
group_density(const struct compare_rows *rows, size_t group,
	const double *density)
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
	const struct compare_rows *rows, const double *density, double reference,
	struct compare_rows *family, double **x, size_t *n_density,
	struct err *err)
{
	size_t *batch_at = arena_take(arena, rows->n_batch, sizeof *batch_at);
	double last = 0;

	*family = *rows;
	family->n = family->n_batch = 0;
	family->n_group = 1;
	family->low = arena_take(arena, rows->n, sizeof *family->low);
	family->high = arena_take(arena, rows->n, sizeof *family->high);
	family->batch = arena_take(arena, rows->n, sizeof *family->batch);
	family->batch_group = arena_take(arena, rows->n_batch,
		sizeof *family->batch_group);
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

/* Draws of the exponent from the family's readings of bending, or from the
 * prior alone where there are too few densities. */
static enum err_code
exponent_draws(const struct desk *desk, struct arena *arena,
	const struct compare_rows *family, const double *x,
	struct stats_hierarchy *draws, struct err *err)
{
	struct stats_hierarchy_ask ask = {.n_row = family->n, .n_mix = 1,
		.n_batch = family->n_batch, .n_x = 1, .low = family->low,
		.high = family->high, .row_batch = family->batch,
		.batch_mix = family->batch_group, .x = x,
		.n_chain = desk->n_chain, .n_warm = WORK_WARM,
		.n_keep = desk->n_keep, .n_thread = desk->n_thread,
		.seed = desk->seed + 1};

	stats_hierarchy_default_prior(family->low, family->high, family->n,
		&ask.prior);
	ask.prior.slope_mean = &exponent_mean;
	ask.prior.slope_sd = &exponent_sd;
	return stats_hierarchy_sample(arena, &ask, draws, err);
}

static enum err_code
fill_equal(struct arena *arena, struct work_comparison *c, size_t group,
	double log_ratio, const double *exponent, struct err *err)
{
	const struct stats_hierarchy *h = &c->draws;
	struct work_group *g = &c->group[group];
	double *ratio = arena_take(arena, h->n_draw, sizeof *ratio);
	double interval[3];
	size_t better = 0;

	if (ratio == NULL)
		return err_memory(err);
	for (size_t i = 0; i < h->n_draw; i++) {
		const double *mu = h->mean + i * h->n_mix;

		ratio[i] = exp(mu[group] - mu[c->baseline] -
			exponent[i] * log_ratio);
		better += ratio[i] > 1;
	}
	TRY(stats_hierarchy_interval(arena, ratio, h->n_draw, work_level,
		interval, err));
	g->has_equal_density = true;
	g->equal_median = interval[0];
	g->equal_low = interval[1];
	g->equal_high = interval[2];
	g->p_better_equal = (double)better / (double)h->n_draw;
	return ERR_NONE;
}

static enum err_code
equalise(struct arena *arena, struct work_compared *all,
	struct work_comparison *c, const double *density,
	const double *exponent, struct err *err)
{
	struct compare_rows rows;
	double base;

	TRY(compare_rows(arena, &all->site, &all->results, c->measure, false,
		&rows, err));
	base = group_density(&rows, c->baseline, density);
	for (size_t g = 0; g < c->n_group && base > 0; g++) {
		double met = group_density(&rows, g, density);

		c->group[g].density_kg_m3 = met;
		if (met > 0)
			TRY(fill_equal(arena, c, g, log(met / base), exponent,
				err));
	}
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
	all->exponent.mixes = text.bytes;
	return ERR_NONE;
}

enum err_code
compare_equal_density(const struct desk *desk, struct arena *arena,
	struct work_compared *all, struct err *err)
{
	struct work_comparison *first = NULL;
	struct compare_rows rows, family;
	struct stats_hierarchy draws;
	const double *density = NULL;
	double *x = NULL, base, interval[3];
	size_t n_density = 0;

	for (size_t i = 0; i < all->n_comparison && first == NULL; i++)
		if (all->comparison[i].measure == CHOOSE_BENDING_STRENGTH ||
			all->comparison[i].measure == CHOOSE_CRUSHING_STRENGTH)
			first = &all->comparison[i];
	if (first == NULL || first->baseline >= first->n_group)
		return ERR_NONE;
	TRY(batch_densities(arena, all, &density, err));
	TRY(compare_rows(arena, &all->site, &all->results, first->measure,
		false, &rows, err));
	base = group_density(&rows, first->baseline, density);
	if (!(base > 0))
		return ERR_NONE;
	TRY(family_rows(arena, all, &rows, density, base, &family, &x,
		&n_density, err));
	TRY(name_family(arena, all, err));
	TRY(exponent_draws(desk, arena, &family, x, &draws, err));
	TRY(stats_hierarchy_interval(arena, draws.slope, draws.n_draw,
		work_level, interval, err));
	all->exponent.has = true;
	all->exponent.borrowed = n_density < 2;
	all->exponent.median = interval[0];
	all->exponent.low = interval[1];
	all->exponent.high = interval[2];
	for (size_t i = 0; i < all->n_comparison; i++) {
		struct work_comparison *c = &all->comparison[i];

		if (c->baseline < c->n_group &&
			(c->measure == CHOOSE_BENDING_STRENGTH ||
				c->measure == CHOOSE_CRUSHING_STRENGTH))
			TRY(equalise(arena, all, c, density, draws.slope, err));
	}
	return ERR_NONE;
}
