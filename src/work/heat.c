/* heat.c - layers of a part, world by world of the conductivity of its mix. */
#include "work/heat.h"

#include "book/exchange/csv.h"
#include "choose/conductivity.h"
#include "core/rng.h"
#include "core/text.h"
#include "core/unit.h"
#include "work/measured_beside.h"

#include <gsl/gsl_sort.h>
#include <math.h>
#include <string.h>

/* Days of the months of a year that is no leap year. */
static const double month_days[CHOOSE_MONTHS] = {
	31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
/* ISO 13788: slices of at most this resistance. */
static const double slice_m2K_W = 0.25;
static const char concrete_name[] = N_("foamed concrete");

struct heating {
	const struct desk *desk;
	struct arena *arena;
	const struct work_heat_ask *ask;
	struct work_chosen chosen;
	struct work_heated *out;
	const struct book_part *part;
	struct book_part_use use;
	const struct book_part_layer **skin; /* NULL: the foamed concrete */
	struct choose_wet_layer *layer;
	size_t n_layer, concrete;
	double *conductivity, *density; /* draws */
	size_t n_draw;
};

/* ---- layers ---- */

static void
add_skins(struct heating *h, const char *side)
{
	const struct work_parts *parts = &h->out->parts;

	for (size_t i = 0; i < parts->n_layer; i++)
		if (parts->layer[i].part_id == h->part->row.id &&
			strcmp(parts->layer[i].side, side) == 0)
			h->skin[h->n_layer++] = &parts->layer[i];
}

static enum err_code
read_skin(const struct book_part_layer *skin, struct choose_wet_layer *layer,
	struct err *err)
{
	if (skin->resistance_m2k_w.has) {
		layer->heat = (struct choose_layer){.has_resistance = true,
			.resistance_m2K_W = skin->resistance_m2k_w.value};
	} else if (skin->thickness_m.has && skin->conductivity_w_mk.has) {
		layer->heat = (struct choose_layer){
			.thickness = {skin->thickness_m.value},
			.conductivity = {skin->conductivity_w_mk.value}};
	} else {
		return err_report(err, ERR_INPUT, "--skin",
			"The skin \"%.40s\" needs a thickness and the heat it "
			"lets through, or a resistance: foamwright part BOOK "
			"CODE --skin \"%s %.40s: 15 mm, 0.6 W/(m K)\".",
			skin->name, skin->side, skin->name);
	}
	layer->air_layer_m = skin->thickness_m.value * skin->vapour_ratio.value;
	return ERR_NONE;
}

static enum err_code
gather_layers(struct heating *h, struct err *err)
{
	size_t most = h->out->parts.n_layer + 1;

	h->skin = arena_take(h->arena, most, sizeof *h->skin);
	h->layer = arena_take(h->arena, most, sizeof *h->layer);
	if (h->skin == NULL || h->layer == NULL)
		return err_memory(err);
	if (!h->part->thickness_m.has)
		return err_report(err, ERR_INPUT, "--thickness",
			"How thick is %s? foamwright part BOOK %s --thickness "
			"200mm.",
			h->part->code, h->part->code);
	add_skins(h, "inside");
	h->concrete = h->n_layer++;
	add_skins(h, "outside");
	for (size_t i = 0; i < h->n_layer; i++)
		if (i != h->concrete)
			TRY(read_skin(h->skin[i], &h->layer[i], err));
	return ERR_NONE;
}

/* Conductivity as the part stands, with its water: ISO 10456, by mass. */
static enum err_code
draw_concrete(struct heating *h, struct err *err)
{
	const struct work_compared *all = &h->chosen.compared;
	double factor = choose_moisture_factor(
		choose_moisture_by_mass, 0, h->out->moisture_ratio);
	gsl_rng *rng;
	size_t n_batch;
	bool has;

	h->n_draw = h->desk->n_chain * h->desk->n_keep;
	h->conductivity = arena_take(h->arena, h->n_draw, sizeof(double));
	h->density = arena_take(h->arena, h->n_draw, sizeof(double));
	rng = rng_new(h->desk->seed, WORK_CHAINS + 2);
	if (h->conductivity == NULL || h->density == NULL || rng == NULL) {
		gsl_rng_free(rng);
		return err_memory(err);
	}
	has = work_next_draws(all, rng, h->n_draw, CHOOSE_CONDUCTIVITY,
		      h->out->mix, h->conductivity, &n_batch) &&
		work_next_draws(all, rng, h->n_draw, CHOOSE_DRY_DENSITY,
			h->out->mix, h->density, &n_batch);
	gsl_rng_free(rng);
	if (!has)
		return err_report(err, ERR_INPUT, "--mix",
			"Mix %s has no results for its dry weight: dry and "
			"weigh pieces of it first, or name another with --mix.",
			all->site.mix[h->out->mix].code);
	for (size_t i = 0; i < h->n_draw; i++)
		h->conductivity[i] *= factor;
	return ERR_NONE;
}

/* ---- answers ---- */

static void
three(double *draw, size_t n, double out[3])
{
	gsl_sort(draw, 1, n);
	out[0] = draw[(n - 1) / 2];
	out[1] = draw[(size_t)((double)(n - 1) * (1 - work_level) / 2)];
	out[2] = draw[(size_t)ceil((double)(n - 1) * (1 + work_level) / 2)];
}

static enum err_code
heat_of(const struct heating *h, double conductivity, struct choose_heated *got,
	struct err *err)
{
	struct choose_layer *layer = arena_take(
		h->arena, h->n_layer, sizeof *layer);
	const struct choose_heat ask = {layer, h->n_layer, h->out->flow};

	if (layer == NULL)
		return err_memory(err);
	for (size_t i = 0; i < h->n_layer; i++)
		layer[i] = h->layer[i].heat;
	layer[h->concrete] = (struct choose_layer){
		.thickness = {h->part->thickness_m.value},
		.conductivity = {conductivity}};
	return choose_heat(&ask, got, err);
}

static enum err_code
find_u(struct heating *h, struct err *err)
{
	double *r = arena_take(h->arena, h->n_draw, sizeof *r);
	double *u = arena_take(h->arena, h->n_draw, sizeof *u);
	size_t n_meets = 0;

	if (r == NULL || u == NULL)
		return err_memory(err);
	for (size_t i = 0; i < h->n_draw; i++) {
		struct arena_mark mark = arena_mark(h->arena);
		struct choose_heated got;

		TRY(heat_of(h, h->conductivity[i], &got, err));
		arena_back(h->arena, mark);
		r[i] = got.resistance_m2K_W;
		u[i] = got.u_W_m2K;
		n_meets += u[i] <= h->ask->want_u.value;
	}
	three(r, h->n_draw, h->out->resistance);
	three(u, h->n_draw, h->out->u);
	h->out->p_meets_wanted = (double)n_meets / (double)h->n_draw;
	return ERR_NONE;
}

static enum err_code
find_thickness(struct heating *h, struct err *err)
{
	struct choose_layer *skin = arena_take(
		h->arena, h->n_layer, sizeof *skin);
	struct choose_heat rest = {skin, 0, h->out->flow};
	double *t = arena_take(h->arena, h->n_draw, sizeof *t);

	if (!h->ask->want_u.has)
		return ERR_NONE;
	if (skin == NULL || t == NULL)
		return err_memory(err);
	for (size_t i = 0; i < h->n_layer; i++)
		if (i != h->concrete)
			skin[rest.n_layer++] = h->layer[i].heat;
	for (size_t i = 0; i < h->n_draw; i++) {
		const struct conductivity k = {h->conductivity[i]};
		struct length got;

		TRY(choose_thickness_for_u(
			&rest, k, h->ask->want_u.value, &got, err));
		t[i] = got.m;
	}
	three(t, h->n_draw, h->out->wanted_m);
	h->out->has_wanted = true;
	return ERR_NONE;
}

static enum err_code
find_mass(struct heating *h, double density, struct err *err)
{
	struct work_heated *out = h->out;

	out->has_mass = true;
	for (size_t i = 0; i < h->n_layer; i++) {
		const struct book_part_layer *skin = h->skin[i];
		double kg_m3 = skin == NULL
			? density * (1 + out->moisture_ratio)
			: skin->density_kg_m3.value;
		double m = skin == NULL ? h->part->thickness_m.value
					: skin->thickness_m.value;
		double capacity = 0;

		out->has_mass = out->has_mass && kg_m3 > 0 && m > 0;
		if (!out->has_mass)
			return ERR_NONE;
		TRY(choose_heat_capacity((struct density){kg_m3},
			(struct length){m}, choose_specific_heat_J_kgK,
			&capacity, err));
		out->mass_kg_m2 += kg_m3 * m;
		out->capacity_j_m2k += capacity;
	}
	return ERR_NONE;
}

static enum err_code
list_layers(struct heating *h, const double conductivity[3], struct err *err)
{
	struct work_heat_layer *line = arena_take(
		h->arena, h->n_layer, sizeof *line);

	if (line == NULL)
		return err_memory(err);
	for (size_t i = 0; i < h->n_layer; i++) {
		const struct choose_layer *l = &h->layer[i].heat;
		double r = choose_layer_resistance(l);

		line[i] = (struct work_heat_layer){i == h->concrete
				? arena_say(h->arena, concrete_name)
				: h->skin[i]->name,
			l->thickness.m, l->conductivity.W_mK, r, r, r};
	}
	line[h->concrete].low = line[h->concrete].thickness_m / conductivity[2];
	line[h->concrete].high = line[h->concrete].thickness_m /
		conductivity[1];
	h->out->layer = line;
	h->out->n_layer = h->n_layer;
	return ERR_NONE;
}

/* ---- the climate ---- */

static enum err_code
read_column(const struct csv_table *t, const char *name, enum unit_kind kind,
	double to[CHOOSE_MONTHS], struct err *err)
{
	size_t c = 0;

	while (c < t->n_column && strcmp(t->heading[c], name) != 0)
		c++;
	if (c == t->n_column)
		return err_report(err, ERR_INPUT, "--climate",
			"%.60s has no column \"%s\"; it needs inside [degC], "
			"inside_humidity [%%], outside [degC] and "
			"outside_humidity [%%].",
			t->file, name);
	for (size_t i = 0; i < CHOOSE_MONTHS; i++) {
		const struct unit_rules rules = {
			.decimal_comma = t->decimal_comma,
			.bare_unit = t->unit[c][0] != '\0' ? t->unit[c]
				: kind == UNIT_RATIO       ? "1"
							   : NULL};
		struct err inner = {.tongue = err->tongue};

		if (unit_read(t->cell[i * t->n_column + c], kind, &rules,
			    &to[i], &inner) != ERR_NONE)
			return err_report(err, ERR_INPUT, "--climate",
				"%.60s, line %zu, %s: %s", t->file, t->line[i],
				name, inner.text);
	}
	return ERR_NONE;
}

static enum err_code
read_climate(const struct heating *h, struct choose_month month[CHOOSE_MONTHS],
	struct err *err)
{
	char *folder = arena_text(h->arena, h->ask->climate), *slash;
	double ti[CHOOSE_MONTHS], hi[CHOOSE_MONTHS], to[CHOOSE_MONTHS],
		ho[CHOOSE_MONTHS];
	struct csv_table t;
	bool is_there;

	if (folder == NULL)
		return err_memory(err);
	slash = strrchr(folder, '/');
	if (slash != NULL)
		*slash = '\0';
	TRY(csv_read(h->arena, slash != NULL ? folder : ".",
		slash != NULL ? slash + 1 : folder, &t, &is_there, err));
	if (!is_there)
		return err_report(err, ERR_NOT_FOUND, "--climate",
			"There is no file \"%.200s\".", h->ask->climate);
	if (t.n_row != CHOOSE_MONTHS)
		return err_report(err, ERR_INPUT, "--climate",
			"%.60s has %zu months; a year needs 12 rows, January "
			"first.",
			t.file, t.n_row);
	TRY(read_column(&t, "inside", UNIT_TEMPERATURE, ti, err));
	TRY(read_column(&t, "inside_humidity", UNIT_RATIO, hi, err));
	TRY(read_column(&t, "outside", UNIT_TEMPERATURE, to, err));
	TRY(read_column(&t, "outside_humidity", UNIT_RATIO, ho, err));
	for (size_t i = 0; i < CHOOSE_MONTHS; i++)
		month[i] = (struct choose_month){
			ti[i], hi[i], to[i], ho[i], month_days[i]};
	return ERR_NONE;
}

static enum err_code
check_vapour(const struct heating *h, struct err *err)
{
	for (size_t i = 0; i < h->n_layer; i++)
		if (!(h->layer[i].air_layer_m > 0))
			return err_report(err, ERR_INPUT, "--skin",
				"The skin \"%.40s\" needs a thickness and how "
				"it holds vapour back: foamwright part BOOK %s "
				"--skin \"%s %.40s: 15 mm, 0.6 W/(m K), mu "
				"10\".",
				h->skin[i]->name, h->part->code,
				h->skin[i]->side, h->skin[i]->name);
	return ERR_NONE;
}

static enum err_code
find_water(struct heating *h, struct err *err)
{
	struct choose_month month[CHOOSE_MONTHS];
	const struct choose_condensation c = {.layer = h->layer,
		.n_layer = h->n_layer,
		.month = month,
		.n_month = CHOOSE_MONTHS,
		.inside_surface_m2K_W = choose_surface_inside(h->out->flow),
		.outside_surface_m2K_W = choose_surface_outside,
		.step_m2K_W = slice_m2K_W};

	if (h->ask->climate == NULL)
		return ERR_NONE;
	TRY(read_climate(h, month, err));
	TRY(check_vapour(h, err));
	TRY(choose_condensation(h->arena, &c, &h->out->wet, err));
	h->out->has_climate = true;
	return ERR_NONE;
}

/* ---- the deed ---- */

static enum err_code
prepare(struct heating *h, struct err *err)
{
	struct work_heated *out = h->out;
	struct work_parts *parts = &out->parts;

	TRY(work_parts_read(h->desk, h->arena, parts, err));
	TRY(work_find_part(&parts->site, h->ask->part, &out->part, err));
	if (h->ask->want_u.has && !(h->ask->want_u.value > 0))
		return err_report(err, ERR_INPUT, "--want-u",
			"A U-value of %g cannot be wanted; it is more than 0.",
			h->ask->want_u.value);
	if (h->ask->mix != NULL || parts->site.n_requirement == 0)
		TRY(work_compare(h->desk, h->arena, &h->chosen.compared, err));
	else
		TRY(work_choose(h->desk, h->arena, &h->chosen, err));
	TRY(work_part_mix(h->desk, h->arena, &h->chosen, out->part, h->ask->mix,
		&out->mix, &out->why_mix, err));
	h->part = &parts->site.part[out->part];
	h->use = work_part_use(parts, h->part);
	out->mix_code = h->chosen.compared.site.mix[out->mix].code;
	out->flow = strcmp(h->part->kind, "roof") == 0 ? CHOOSE_HEAT_UP
		: strcmp(h->part->kind, "floor") == 0  ? CHOOSE_HEAT_DOWN
						       : CHOOSE_HEAT_HORIZONTAL;
	out->moisture_ratio = h->use.moisture_ratio.has
		? h->use.moisture_ratio.value
		: work_usual_moisture;
	out->vapour = h->ask->vapour.has ? h->ask->vapour.value
					 : work_usual_vapour;
	TRY(gather_layers(h, err));
	return draw_concrete(h, err);
}

static enum err_code
find_faces(struct heating *h, struct err *err)
{
	struct work_heated *out = h->out;
	double *face = arena_take(h->arena, out->n_layer + 1, sizeof *face);
	double *each = arena_take(h->arena, out->n_layer, sizeof *each);

	if (face == NULL || each == NULL)
		return err_memory(err);
	for (size_t i = 0; i < out->n_layer; i++)
		each[i] = out->layer[i].resistance_m2k_w;
	choose_heat_faces(each, out->n_layer, out->flow, work_heat_inside_degc,
		work_heat_outside_degc, face);
	out->face_degc = face;
	out->concrete = h->concrete;
	return ERR_NONE;
}

enum err_code
work_heat(const struct desk *desk, struct arena *arena,
	const struct work_heat_ask *ask, struct work_heated *out,
	struct err *err)
{
	struct work_heated got = {.n_layer = 0};
	struct heating h = {
		.desk = desk, .arena = arena, .ask = ask, .out = &got};
	double k[3], density[3];

	TRY(prepare(&h, err));
	TRY(find_u(&h, err));
	TRY(find_thickness(&h, err));
	three(h.conductivity, h.n_draw, k);
	three(h.density, h.n_draw, density);
	h.layer[h.concrete] = (struct choose_wet_layer){
		.heat = {.thickness = {h.part->thickness_m.value},
			.conductivity = {k[0]}},
		.air_layer_m = h.part->thickness_m.value * got.vapour};
	TRY(list_layers(&h, k, err));
	TRY(find_faces(&h, err));
	TRY(find_mass(&h, density[0], err));
	TRY(find_water(&h, err));
	TRY(work_measured_beside(arena, &h.chosen.compared.site,
		&h.chosen.compared.results, got.mix, got.moisture_ratio,
		&got.measured, &got.n_measured, err));
	*out = got;
	return ERR_NONE;
}
