/* condensation.c - Glaser's method over twelve months. */
#include "choose/condensation.h"

#include "core/check.h"

#include <math.h>
#include <stdio.h>

/* ISO 13788, eq. E.7 to E.10: over water, over ice. */
static const double saturation_at_0_Pa = 610.5;
static const double water_slope = 17.269, water_degC = 237.3;
static const double ice_slope = 21.875, ice_degC = 265.5;
static const double second_per_day = 86400;
static const double longest_month_d = 31;

enum { KEY_MAX = 48, LAYER_MAX = 32, SLICE_MAX = 64 };

double
choose_saturation(double degC)
{
	double exponent = degC >= 0 ? water_slope * degC / (water_degC + degC)
				    : ice_slope * degC / (ice_degC + degC);

	return saturation_at_0_Pa * exp(exponent);
}

double
choose_dew_point(double pressure_Pa)
{
	double x = log(pressure_Pa / saturation_at_0_Pa);

	return x >= 0 ? water_degC * x / (water_slope - x)
		      : ice_degC * x / (ice_slope - x);
}

double
choose_temperature_factor(
	double surface_degC, double inside_degC, double outside_degC)
{
	return (surface_degC - outside_degC) / (inside_degC - outside_degC);
}

double
choose_least_surface(double inside_degC, double humidity_ratio)
{
	return choose_dew_point(choose_saturation(inside_degC) *
		humidity_ratio / choose_mould_humidity);
}

/* Points from the inner face (0) to the outer (n - 1). */
struct path {
	size_t n;
	double *air_m;   /* vapour resistance from the inner face */
	double *m2K_W;   /* heat resistance from the inner face */
	double *depth_m; /* from the inner face; 0 for a layer without one */
	double *most_Pa; /* saturation this month */
	double *Pa;      /* vapour pressure this month */
	double *held;    /* water, kg/m2 */
	double *rate;    /* of gathering, kg/(m2 s); below 0: drying */
	size_t *corner;  /* scratch of the hull */
};

static enum err_code
check_month(const struct choose_month *m, size_t index, struct err *err)
{
	const struct {
		const char *key, *name;
		double value;
		bool is_humidity;
	} reading[] = {
		{"inside_temperature", "temperature inside", m->inside_degC,
			false},
		{"outside_temperature", "temperature outside", m->outside_degC,
			false},
		{"inside_humidity", "humidity inside", m->inside_humidity,
			true},
		{"outside_humidity", "humidity outside", m->outside_humidity,
			true},
	};
	char key[KEY_MAX];

	for (size_t i = 0; i < sizeof reading / sizeof reading[0]; i++) {
		struct check check = {
			key, reading[i].name, reading[i].value, "degC"};

		(void)snprintf(key, sizeof key, "months[%zu].%s", index,
			reading[i].key);
		if (!reading[i].is_humidity) {
			TRY(check_temperature(check, err));
			continue;
		}
		check.unit = "of saturation";
		TRY(check_positive(check, err));
		TRY(check_between(check, 0, 1, err));
	}
	(void)snprintf(key, sizeof key, "months[%zu].days", index);
	TRY(check_positive(
		(struct check){key, "length of the month", m->days, "days"},
		err));
	return check_between(
		(struct check){key, "length of the month", m->days, "days"}, 0,
		longest_month_d, err);
}

static enum err_code
check_wet_layers(const struct choose_condensation *c, struct err *err)
{
	char key[KEY_MAX];

	if (c->n_layer == 0 || c->n_layer > LAYER_MAX)
		return err_report(err, ERR_INPUT, "layers",
			"There are %zu layers; give from 1 to %d.", c->n_layer,
			LAYER_MAX);
	for (size_t i = 0; i < c->n_layer; i++) {
		TRY(choose_check_layers(&c->layer[i].heat, 1, err));
		(void)snprintf(key, sizeof key, "layers[%zu].vapour", i);
		TRY(check_positive(
			(struct check){key,
				"vapour resistance (mu times thickness; 0.01 m "
				"for an air space)",
				c->layer[i].air_layer_m, "m of air"},
			err));
	}
	return ERR_NONE;
}

static enum err_code
check_condensation(const struct choose_condensation *c, struct err *err)
{
	TRY(check_wet_layers(c, err));
	if (c->n_month != CHOOSE_MONTHS)
		return err_report(err, ERR_INPUT, "months",
			"The climate has %zu months; a year needs %d, January "
			"first.",
			c->n_month, CHOOSE_MONTHS);
	for (size_t i = 0; i < c->n_month; i++)
		TRY(check_month(&c->month[i], i, err));
	TRY(check_positive((struct check){"inside_surface",
				   N_("surface resistance inside"),
				   c->inside_surface_m2K_W, "m2 K/W"},
		err));
	TRY(check_positive((struct check){"outside_surface",
				   N_("surface resistance outside"),
				   c->outside_surface_m2K_W, "m2 K/W"},
		err));
	return check_not_negative((struct check){"step", N_("slice of a layer"),
					  c->step_m2K_W, "m2 K/W"},
		err);
}

static size_t
slices_of(const struct choose_condensation *c, const struct choose_layer *layer)
{
	double n = 1;

	if (c->step_m2K_W > 0)
		n = fmax(1,
			ceil(choose_layer_resistance(layer) / c->step_m2K_W));
	return (size_t)fmin(n, SLICE_MAX);
}

static enum err_code
take_path(struct arena *arena, size_t n, struct path *path, struct err *err)
{
	double **const list[] = {&path->air_m, &path->m2K_W, &path->depth_m,
		&path->most_Pa, &path->Pa, &path->held, &path->rate};

	path->n = n;
	path->corner = arena_take(arena, n, sizeof *path->corner);
	if (path->corner == NULL)
		return err_memory(err);
	for (size_t i = 0; i < sizeof list / sizeof list[0]; i++) {
		*list[i] = arena_take(arena, n, sizeof **list[i]);
		if (*list[i] == NULL)
			return err_memory(err);
	}
	return ERR_NONE;
}

static enum err_code
lay_out(struct arena *arena, const struct choose_condensation *c,
	struct path *path, struct err *err)
{
	size_t n = 1, at = 0;

	for (size_t i = 0; i < c->n_layer; i++)
		n += slices_of(c, &c->layer[i].heat);
	TRY(take_path(arena, n, path, err));
	for (size_t i = 0; i < c->n_layer; i++) {
		const struct choose_wet_layer *layer = &c->layer[i];
		size_t slices = slices_of(c, &layer->heat);
		double part = 1 / (double)slices;

		for (size_t s = 0; s < slices; s++, at++) {
			path->air_m[at + 1] = path->air_m[at] +
				part * layer->air_layer_m;
			path->m2K_W[at + 1] = path->m2K_W[at] +
				part * choose_layer_resistance(&layer->heat);
			path->depth_m[at + 1] = path->depth_m[at] +
				part * layer->heat.thickness.m;
		}
	}
	return ERR_NONE;
}

static void
saturate(const struct choose_condensation *c, const struct choose_month *m,
	struct path *p)
{
	double all_m2K_W = c->inside_surface_m2K_W + p->m2K_W[p->n - 1] +
		c->outside_surface_m2K_W;
	double flux_W_m2 = (m->inside_degC - m->outside_degC) / all_m2K_W;

	for (size_t i = 0; i < p->n; i++)
		p->most_Pa[i] = choose_saturation(m->inside_degC -
			flux_W_m2 * (c->inside_surface_m2K_W + p->m2K_W[i]));
	p->Pa[0] = fmin(p->most_Pa[0],
		m->inside_humidity * choose_saturation(m->inside_degC));
	p->Pa[p->n - 1] = fmin(p->most_Pa[p->n - 1],
		m->outside_humidity * choose_saturation(m->outside_degC));
}

/* Whether the point `at` lies on or above the line from `from` to `to`. */
static bool
is_above(const struct path *p, size_t from, size_t at, size_t to)
{
	return (p->Pa[at] - p->Pa[from]) * (p->air_m[to] - p->air_m[from]) >=
		(p->Pa[to] - p->Pa[from]) * (p->air_m[at] - p->air_m[from]);
}

/* The lower convex hull between two points whose pressure stands; points of the
 * hull get a rate of 0 to be filled, the others NAN, and pressures on it. */
static void
string_between(struct path *p, size_t from, size_t to)
{
	size_t n = 0;

	for (size_t i = from; i <= to; i++) {
		if (i > from && i < to)
			p->Pa[i] = p->most_Pa[i];
		while (n >= 2 &&
			is_above(p, p->corner[n - 2], p->corner[n - 1], i))
			n--;
		p->corner[n++] = i;
	}
	for (size_t k = 0; k + 1 < n; k++) {
		size_t a = p->corner[k], b = p->corner[k + 1];
		double slope = (p->Pa[b] - p->Pa[a]) /
			(p->air_m[b] - p->air_m[a]);

		p->rate[a] = p->rate[b] = 0;
		for (size_t i = a + 1; i < b; i++) {
			p->rate[i] = (double)NAN;
			p->Pa[i] = p->Pa[a] +
				slope * (p->air_m[i] - p->air_m[a]);
		}
	}
}

/* Vapour pressures with the wet places at saturation, and what gathers. */
static void
draw_pressures(struct path *p)
{
	size_t from = 0;

	for (size_t i = 1; i < p->n; i++) {
		if (i + 1 < p->n && p->held[i] <= 0)
			continue;
		if (i + 1 < p->n)
			p->Pa[i] = p->most_Pa[i];
		string_between(p, from, i);
		from = i;
	}
	for (size_t i = 0; i < p->n; i++) {
		bool is_inside = i > 0 && i + 1 < p->n;

		if (!is_inside || isnan(p->rate[i])) {
			p->rate[i] = 0;
			continue;
		}
		p->rate[i] = choose_air_permeability *
			((p->Pa[i - 1] - p->Pa[i]) /
					(p->air_m[i] - p->air_m[i - 1]) -
				(p->Pa[i] - p->Pa[i + 1]) /
					(p->air_m[i + 1] - p->air_m[i]));
	}
}

/* The time until the first wet place is dry, at most left_s. */
static double
time_to_first_dry(const struct path *p, double left_s, size_t *which)
{
	double least_s = left_s;

	*which = p->n;
	for (size_t i = 0; i < p->n; i++) {
		double dry_s;

		if (p->held[i] <= 0 || p->rate[i] >= 0)
			continue;
		dry_s = p->held[i] / -p->rate[i];
		if (dry_s < least_s) {
			least_s = dry_s;
			*which = i;
		}
	}
	return least_s;
}

/* Carries the water through one month; where a place falls dry the pressures
 * are drawn anew for the rest of it, so that no vapour is counted twice. */
static void
pass_month(const struct choose_condensation *c, const struct choose_month *m,
	struct path *p)
{
	double left_s = m->days * second_per_day;

	saturate(c, m, p);
	for (size_t turn = 0; turn < 2 * p->n && left_s > 0; turn++) {
		size_t dry;
		double step_s;

		draw_pressures(p);
		step_s = time_to_first_dry(p, left_s, &dry);
		for (size_t i = 0; i < p->n; i++)
			p->held[i] = fmax(0, p->held[i] + p->rate[i] * step_s);
		if (dry < p->n)
			p->held[dry] = 0;
		left_s -= step_s;
	}
}

static double
total(const double *x, size_t n)
{
	double sum = 0;

	for (size_t i = 0; i < n; i++)
		sum += x[i];
	return sum;
}

static void
note_surface(const struct choose_condensation *c, const struct choose_month *m,
	const struct path *p, struct choose_wet_month *got)
{
	double vapour_Pa = m->inside_humidity *
		choose_saturation(m->inside_degC);
	double body_m2K_W = p->m2K_W[p->n - 1] + c->outside_surface_m2K_W;

	got->surface_degC = m->inside_degC -
		(m->inside_degC - m->outside_degC) * choose_mould_surface /
			(choose_mould_surface + body_m2K_W);
	got->mould = vapour_Pa >
		choose_mould_humidity * choose_saturation(got->surface_degC);
	got->surface_wet = vapour_Pa > choose_saturation(got->surface_degC);
}

/* Which months gather water in a dry wall, and the first after one that does
 * not; January where all do or none does. */
static size_t
find_first(const struct choose_condensation *c, struct path *p)
{
	bool gathers[CHOOSE_MONTHS];

	for (size_t i = 0; i < CHOOSE_MONTHS; i++) {
		saturate(c, &c->month[i], p);
		draw_pressures(p);
		gathers[i] = total(p->rate, p->n) > 0;
	}
	for (size_t i = 0; i < CHOOSE_MONTHS; i++)
		if (gathers[i] &&
			!gathers[(i + CHOOSE_MONTHS - 1) % CHOOSE_MONTHS])
			return i;
	return 0;
}

static struct length
wettest_place(const struct path *p)
{
	size_t most = 0;

	for (size_t i = 1; i < p->n; i++)
		if (p->held[i] > p->held[most])
			most = i;
	return (struct length){p->depth_m[most]};
}

enum err_code
choose_condensation(struct arena *arena, const struct choose_condensation *c,
	struct choose_condensed *out, struct err *err)
{
	struct choose_condensed got = {.gathers = false};
	struct path path;

	TRY(check_condensation(c, err));
	TRY(lay_out(arena, c, &path, err));
	got.first_month = find_first(c, &path);
	for (size_t k = 0; k < CHOOSE_MONTHS; k++) {
		size_t i = (got.first_month + k) % CHOOSE_MONTHS;
		double before = total(path.held, path.n), held;

		pass_month(c, &c->month[i], &path);
		held = total(path.held, path.n);
		got.month[i].held_kg_m2 = held;
		got.month[i].rate_kg_m2_s = (held - before) /
			(c->month[i].days * second_per_day);
		note_surface(c, &c->month[i], &path, &got.month[i]);
		if (held > got.most_kg_m2) {
			got.most_kg_m2 = held;
			got.most_month = i;
			got.most_depth = wettest_place(&path);
		}
	}
	got.gathers = got.most_kg_m2 > 0;
	got.dries = total(path.held, path.n) <= 0;
	*out = got;
	return ERR_NONE;
}
