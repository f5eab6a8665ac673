/* relation.c - strength against dry weight. */
#include "work/relation.h"

#include "core/text.h"
#include "core/unit.h"

#include <math.h>

enum { KNOTS = 25, DIGITS = 3 };

bool
work_relates(const struct work_comparison *c)
{
	return c->measure == CHOOSE_BENDING_STRENGTH ||
		c->measure == CHOOSE_CRUSHING_STRENGTH;
}

/* A mean that grows. */
struct mean {
	double sum;
	size_t n;
};

static void
add_to(struct mean *mean, double value)
{
	mean->sum += value;
	mean->n++;
}

static double
mean_of(const struct mean *mean)
{
	return mean->n > 0 ? mean->sum / (double)mean->n : 0;
}

struct weights {
	struct mean *piece, *batch;
};

static enum err_code
read_weights(struct arena *arena, const struct work_compared *all,
	struct weights *w, struct err *err)
{
	w->piece = arena_take(arena, all->site.n_specimen, sizeof *w->piece);
	w->batch = arena_take(arena, all->site.n_batch, sizeof *w->batch);
	if (w->piece == NULL || w->batch == NULL)
		return err_memory(err);
	for (size_t i = 0; i < all->results.n_result; i++) {
		const struct work_result *r = &all->results.result[i];
		double middle = (r->value.low + r->value.high) / 2;

		if (r->measure != CHOOSE_DRY_DENSITY || r->excluded)
			continue;
		add_to(&w->batch[r->batch], middle);
		if (r->has_specimen)
			add_to(&w->piece[r->specimen], middle);
	}
	return ERR_NONE;
}

static enum err_code
find_points(struct arena *arena, const struct work_compared *all,
	const struct work_comparison *c, struct work_relation *out,
	struct err *err)
{
	struct work_relation_point *point = arena_take(
		arena, all->results.n_result, sizeof *point);
	struct weights w;
	size_t n = 0;

	TRY(read_weights(arena, all, &w, err));
	if (point == NULL)
		return err_memory(err);
	for (size_t i = 0; i < all->results.n_result; i++) {
		const struct work_result *r = &all->results.result[i];
		const struct work_group *g;
		double own, met;

		if (r->measure != c->measure || r->excluded)
			continue;
		g = work_group_of(all, c, r->mix);
		own = r->has_specimen ? mean_of(&w.piece[r->specimen]) : 0;
		met = own > 0 ? own : mean_of(&w.batch[r->batch]);
		if (g == NULL || !(met > 0))
			continue;
		point[n++] = (struct work_relation_point){.result = i,
			.group = (size_t)(g - c->group),
			.density_kg_m3 = met,
			.of_batch = !(own > 0)};
	}
	out->point = point;
	out->n_point = n;
	return ERR_NONE;
}

static struct work_relation_knot
knot_at(const struct work_group *base, const struct work_exponent *exponent,
	double density_kg_m3)
{
	const struct stats_mix_answer *a = &base->answer;
	double l = log(density_kg_m3 / base->density_kg_m3);
	double middle = a->median * exp(exponent->median * l);
	double more = (l > 0 ? exponent->high : exponent->low) -
		exponent->median;
	double less = exponent->median -
		(l > 0 ? exponent->low : exponent->high);

	return (struct work_relation_knot){.density_kg_m3 = density_kg_m3,
		.middle_pa = middle,
		.low_pa = middle *
			exp(-hypot(log(a->median / a->low), less * l)),
		.high_pa = middle *
			exp(hypot(log(a->high / a->median), more * l))};
}

static enum err_code
draw_curve(struct arena *arena, const struct work_group *base,
	const struct work_exponent *exponent, struct work_relation *out,
	struct err *err)
{
	struct work_relation_knot *knot = arena_take(
		arena, KNOTS, sizeof *knot);
	double least = base->density_kg_m3, most = least;

	if (knot == NULL)
		return err_memory(err);
	for (size_t i = 0; i < out->n_point; i++) {
		least = fmin(least, out->point[i].density_kg_m3);
		most = fmax(most, out->point[i].density_kg_m3);
	}
	out->knot = knot;
	if (!(most > least))
		return ERR_NONE;
	for (size_t i = 0; i < KNOTS; i++)
		knot[i] = knot_at(base, exponent,
			least + (most - least) * (double)i / (KNOTS - 1));
	out->n_knot = KNOTS;
	return ERR_NONE;
}

static const char *
say_curve(struct arena *arena, const struct work_exponent *e)
{
	return text_format(arena,
		"The same slurry foamed to another dry weight likely changes "
		"as weight^n with n %s (between %s and %s), %s%s.",
		unit_digits(arena, e->median, DIGITS),
		unit_digits(arena, e->low, DIGITS),
		unit_digits(arena, e->high, DIGITS),
		e->borrowed ? "which is what is usual, since too few weights "
			      "were tested to learn it here"
			    : "learnt from the mixes that differ only in their "
			      "foam: ",
		e->borrowed ? "" : e->mixes);
}

enum err_code
work_relation(struct arena *arena, const struct work_compared *all,
	const struct work_comparison *c, struct work_relation *out,
	struct err *err)
{
	struct work_relation got = {
		.sentence = "There is no curve: the baseline "
			    "has no dry weight yet."};
	const struct work_group *base = c->baseline < c->n_group
		? &c->group[c->baseline]
		: NULL;

	TRY(find_points(arena, all, c, &got, err));
	if (all->exponent.has && base != NULL && base->n_value > 0 &&
		base->density_kg_m3 > 0) {
		TRY(draw_curve(arena, base, &all->exponent, &got, err));
		got.sentence = say_curve(arena, &all->exponent);
	}
	if (got.sentence == NULL)
		return err_memory(err);
	*out = got;
	return ERR_NONE;
}
