/* search.c - designs reckoned, and the best of them found. */
#include "choose/search.h"

#include "choose/conductivity.h"

#define MATHLIB_STANDALONE 1
#include <Rmath.h>
#include <math.h>
#include <nlopt.h>

enum { WET, WATER, SAND, N_VARIABLE };
enum { GRID_WET = 25, GRID_WATER = 7, GRID_SAND = 7, EVALUATIONS_MOST = 400 };

bool
choose_is_foreseen(enum choose_measure measure)
{
	return measure == CHOOSE_CRUSHING_STRENGTH ||
		measure == CHOOSE_BENDING_STRENGTH ||
		measure == CHOOSE_DRY_DENSITY ||
		measure == CHOOSE_CONDUCTIVITY || measure == CHOOSE_COST;
}

/* ---- one design ---- */

static enum err_code
proportion(struct arena *arena, const struct choose_search *s,
	const double v[N_VARIABLE], struct choose_design *out, struct err *err)
{
	struct mix_part part[] = {s->cement, s->water, s->sand};
	struct mix_proportion ask = {.part = part,
		.n_part = s->has_sand && v[SAND] > 1e-6 ? 3 : 2,
		.foam = s->foam,
		.foam_survival_ratio = s->foam_survival_ratio,
		.bound_water_ratio = s->bound_water_ratio,
		.aim = MIX_AIM_WET_DENSITY,
		.wet_density = {v[WET]}};
	struct arena_mark mark = arena_mark(arena);
	struct mix_proportioned got;
	struct choose_makeup makeup;
	enum err_code code;

	part[0].mass.kg = 1;
	part[1].mass.kg = v[WATER];
	part[2].mass.kg = v[SAND];
	code = mix_proportion(arena, &ask, &got, err);
	if (code == ERR_NONE)
		code = choose_makeup_of(&got, part, ask.n_part,
			s->bound_water_ratio, &makeup, err);
	if (code != ERR_NONE)
		return code;
	out->cement = got.per_m3[0];
	out->water = got.per_m3[1];
	out->sand.kg = ask.n_part == 3 ? got.per_m3[2].kg : 0;
	out->foam_fraction = got.foam_fraction;
	out->foam_m3_per_m3 = got.foam_volume.m3 / got.volume.m3;
	out->oven_dry_kg_m3 = got.oven_dry_density.kg_m3;
	out->crushing = choose_foresee(s->crushing, &makeup);
	out->bending = choose_foresee(s->bending, &makeup);
	out->conductivity = choose_conductivity(out->oven_dry_kg_m3);
	out->cents_per_m3 = out->cement.kg * s->cement_cents +
		out->water.kg * s->water_cents + out->sand.kg * s->sand_cents +
		got.foam_per_m3.kg * s->agent_cents;
	arena_back(arena, mark);
	return ERR_NONE;
}

/* The chance that a value known to a log spread keeps to its bound. */
static double
chance_of(double value, double log_sd, const struct choose_requirement *need)
{
	double z = log(need->value / value) / log_sd;

	return pnorm(z, 0, 1, !need->is_least, 0);
}

static double
chance_of_need(
	const struct choose_design *d, const struct choose_requirement *need)
{
	const struct choose_strength *strength = need->measure ==
			CHOOSE_BENDING_STRENGTH
		? &d->bending
		: &d->crushing;

	if (!(need->value > 0))
		return need->is_least ? 1 : 0;
	if (need->measure == CHOOSE_DRY_DENSITY)
		return chance_of(d->oven_dry_kg_m3, choose_weight_sd, need);
	if (need->measure == CHOOSE_CONDUCTIVITY)
		return chance_of(d->conductivity, choose_conductivity_sd, need);
	if (need->measure == CHOOSE_COST)
		return (d->cents_per_m3 >= need->value) == need->is_least;
	if (need->is_least)
		return choose_foresee_chance(strength, need->value);
	return 1 - choose_foresee_chance(strength, need->value);
}

static enum err_code
reckon(struct arena *arena, const struct choose_search *s,
	const double v[N_VARIABLE], struct choose_design *out, struct err *err)
{
	struct choose_design d = {.wet_kg_m3 = v[WET],
		.water_cement_ratio = v[WATER],
		.sand_cement_ratio = s->has_sand ? v[SAND] : 0,
		.chance = 1};

	TRY(proportion(arena, s, v, &d, err));
	for (size_t i = 0; i < s->n_requirement; i++)
		if (choose_is_foreseen(s->requirement[i].measure))
			d.chance *= chance_of_need(&d, &s->requirement[i]);
	*out = d;
	return ERR_NONE;
}

enum err_code
choose_design_at(struct arena *arena, const struct choose_search *search,
	double wet_kg_m3, double water_cement_ratio, double sand_cement_ratio,
	struct choose_design *out, struct err *err)
{
	const double v[] = {wet_kg_m3, water_cement_ratio, sand_cement_ratio};

	return reckon(arena, search, v, out, err);
}

/* ---- the best of them ---- */

struct searching {
	struct arena *arena;
	const struct choose_search *s;
	double low[N_VARIABLE], high[N_VARIABLE];
	struct choose_design best;
	bool has_best, found;
};

static bool
can_be_used(const struct choose_design *d)
{
	return d->foam_fraction <= choose_foam_most_ratio &&
		isfinite(d->cents_per_m3);
}

/* Cheaper among those that have the chance, likelier among the others. */
static void
consider(struct searching *g, const struct choose_design *d)
{
	bool has = d->chance >= g->s->chance;

	if (!can_be_used(d) || (g->found && !has))
		return;
	if (g->has_best && g->found == has &&
		(has ? d->cents_per_m3 >= g->best.cents_per_m3
		     : d->chance <= g->best.chance))
		return;
	g->best = *d;
	g->has_best = true;
	g->found = has;
}

static void
try_at(struct searching *g, const double v[N_VARIABLE])
{
	struct err odd = {.code = ERR_NONE};
	struct choose_design d;

	if (reckon(g->arena, g->s, v, &d, &odd) == ERR_NONE)
		consider(g, &d);
}

static double
step(const struct searching *g, size_t k, size_t i, size_t n)
{
	if (n < 2)
		return g->low[k];
	return g->low[k] +
		(g->high[k] - g->low[k]) * (double)i / (double)(n - 1);
}

static void
try_grid(struct searching *g)
{
	size_t n_wet = g->high[WET] > g->low[WET] ? GRID_WET : 1;
	size_t n_sand = g->s->has_sand ? GRID_SAND : 1;

	for (size_t i = 0; i < n_wet; i++)
		for (size_t j = 0; j < GRID_WATER; j++)
			for (size_t k = 0; k < n_sand; k++)
				try_at(g,
					(const double[]){step(g, WET, i, n_wet),
						step(g, WATER, j, GRID_WATER),
						step(g, SAND, k, n_sand)});
}

/* COBYLA works on the unit cube. */
static void
from_unit(const struct searching *g, const double *u, double v[N_VARIABLE])
{
	for (size_t k = 0; k < N_VARIABLE; k++)
		v[k] = g->low[k] + u[k] * (g->high[k] - g->low[k]);
}

static double
cost_at(unsigned n, const double *u, double *gradient, void *more)
{
	struct searching *g = more;
	struct err odd = {.code = ERR_NONE};
	struct choose_design d;
	double v[N_VARIABLE];

	(void)n;
	(void)gradient;
	from_unit(g, u, v);
	if (reckon(g->arena, g->s, v, &d, &odd) != ERR_NONE)
		return HUGE_VAL;
	consider(g, &d);
	return g->found ? d.cents_per_m3 / g->best.cents_per_m3 : -d.chance;
}

/* Two constraints at or below 0: the chance is had, the foam is not too much. */
static void
limits_at(unsigned m, double *result, unsigned n, const double *u,
	double *gradient, void *more)
{
	struct searching *g = more;
	struct err odd = {.code = ERR_NONE};
	struct choose_design d;
	double v[N_VARIABLE];

	(void)m;
	(void)n;
	(void)gradient;
	from_unit(g, u, v);
	if (reckon(g->arena, g->s, v, &d, &odd) != ERR_NONE) {
		result[0] = result[1] = 1;
		return;
	}
	result[0] = g->found ? g->s->chance - d.chance : -1;
	result[1] = d.foam_fraction - choose_foam_most_ratio;
}

static enum err_code
refine(struct searching *g, struct err *err)
{
	nlopt_opt opt = nlopt_create(NLOPT_LN_COBYLA, N_VARIABLE);
	const double tolerance[] = {0, 0};
	double u[N_VARIABLE], value;
	const double start[] = {g->best.wet_kg_m3, g->best.water_cement_ratio,
		g->best.sand_cement_ratio};

	if (opt == NULL)
		return err_memory(err);
	for (size_t k = 0; k < N_VARIABLE; k++)
		u[k] = g->high[k] > g->low[k]
			? (start[k] - g->low[k]) / (g->high[k] - g->low[k])
			: 0;
	(void)nlopt_set_lower_bounds1(opt, 0);
	(void)nlopt_set_upper_bounds1(opt, 1);
	(void)nlopt_set_min_objective(opt, cost_at, g);
	(void)nlopt_add_inequality_mconstraint(opt, 2, limits_at, g, tolerance);
	(void)nlopt_set_initial_step1(opt, 0.05);
	(void)nlopt_set_xtol_abs1(opt, 1e-6);
	(void)nlopt_set_maxeval(opt, EVALUATIONS_MOST);
	/* Whatever it returns, the best point it met is kept. */
	(void)nlopt_optimize(opt, u, &value);
	nlopt_destroy(opt);
	return ERR_NONE;
}

static enum err_code
check_search(const struct choose_search *s, struct err *err)
{
	if (!(s->chance > 0 && s->chance < 1))
		return err_report(err, ERR_INPUT, "chance",
			"The wanted chance is %g; it must lie between 0 and 1, "
			"such as 0.8.",
			s->chance);
	if (!(s->foam.kg_m3 > 0))
		return err_report(err, ERR_INPUT, "foam",
			"The foam weighs %g kg/m3; it must be greater than 0.",
			s->foam.kg_m3);
	return ERR_NONE;
}

static struct searching
start(struct arena *arena, const struct choose_search *s)
{
	return (struct searching){.arena = arena,
		.s = s,
		.low = {choose_wet_least_kg_m3, choose_water_least, 0},
		.high = {choose_wet_most_kg_m3, choose_water_most,
			s->has_sand ? choose_sand_most : 0}};
}

enum err_code
choose_design_search(struct arena *arena, const struct choose_search *search,
	struct choose_design *out, bool *found, struct err *err)
{
	struct searching g = start(arena, search);

	TRY(check_search(search, err));
	try_grid(&g);
	if (!g.has_best)
		return err_report(err, ERR_INPUT, "materials",
			"No mix of these materials between %.0f and %.0f kg/m3 "
			"can be made with this foam.",
			choose_wet_least_kg_m3, choose_wet_most_kg_m3);
	TRY(refine(&g, err));
	*out = g.best;
	*found = g.found;
	return ERR_NONE;
}

/* ---- the front ---- */

static bool
is_no_worse(const struct choose_design *a, const struct choose_design *b)
{
	return a->cents_per_m3 <= b->cents_per_m3 &&
		a->oven_dry_kg_m3 <= b->oven_dry_kg_m3 &&
		a->conductivity <= b->conductivity &&
		a->crushing.median_pa >= b->crushing.median_pa &&
		a->chance >= b->chance;
}

static void
mark_beaten(struct choose_design *d, size_t n)
{
	for (size_t i = 0; i < n; i++)
		for (size_t j = 0; j < n; j++)
			if (i != j && is_no_worse(&d[j], &d[i]) &&
				!is_no_worse(&d[i], &d[j]))
				d[i].is_beaten = true;
}

enum err_code
choose_design_front(struct arena *arena, const struct choose_search *search,
	size_t n, const struct choose_design **out, size_t *n_out,
	struct err *err)
{
	struct choose_design *d = arena_take(arena, n, sizeof *d);
	size_t got = 0;

	TRY(check_search(search, err));
	if (d == NULL)
		return err_memory(err);
	for (size_t i = 0; i < n; i++) {
		struct searching g = start(arena, search);

		g.low[WET] = g.high[WET] = step(&g, WET, i, n);
		try_grid(&g);
		if (!g.has_best)
			continue;
		TRY(refine(&g, err));
		d[got++] = g.best;
	}
	mark_beaten(d, got);
	*out = d;
	*n_out = got;
	return ERR_NONE;
}
