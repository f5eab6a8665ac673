/* takeoff.c - the parts of the building and the mixes chosen for them. */
#include "work/takeoff.h"

#include "work/part.h"

#include "book/book.h"
#include "build/purchase.h"
#include "build/takeoff.h"
#include "work/sheet.h"

#include <math.h>
#include <string.h>

struct taking {
	struct arena *arena;
	const struct work_takeoff_ask *ask;
	const struct book_prediction *prediction;
	size_t n_prediction;
	struct build_share **share; /* by part, by line */
	struct work_takeoff got;
};

/* ---- which mix ---- */

static enum err_code
find_mix(const struct taking *t, size_t part, struct work_part_taken *out,
	bool *found, struct err *err)
{
	const struct work_mixer *m = &t->got.m;
	const struct book_part *p = &m->site.part[part];

	*found = true;
	out->part = part;
	for (size_t i = 0; i < t->ask->n_mix; i++)
		if (strcmp(t->ask->mix[i].name, p->code) == 0)
			return work_find_mix(
				m, t->ask->mix[i].value, &out->mix, err);
	out->decided = true;
	for (size_t i = 0; i < m->n_decision; i++) {
		if (m->decision[i].part_id != p->row.id)
			continue;
		for (out->mix = 0; out->mix < m->site.n_mix; out->mix++)
			if (m->site.mix[out->mix].row.id ==
				m->decision[i].mix_id)
				return ERR_NONE;
	}
	*found = false;
	return ERR_NONE;
}

static enum err_code
refuse_undecided(const struct taking *t, size_t part, struct err *err)
{
	const char *code = t->got.m.site.part[part].code;

	return err_report(err, ERR_INPUT, "mix",
		"No mix is decided for part %s. \"foamwright decide\" writes a "
		"decision down; --mix %s=MIX tries one out.",
		code, code);
}

/* ---- what its batches say ---- */

static bool
was_settling_read(const struct work_site *s, size_t batch)
{
	for (size_t i = 0; i < s->n_settling; i++)
		if (s->settling_batch[i] == batch)
			return true;
	return false;
}

/* Where the confirmation round of the mix is done in settling: its fresh batches
 * come after this one and stand alone; 0: all count. */
static int64_t
confirmed_after(const struct taking *t, size_t mix)
{
	const struct work_site *s = &t->got.m.site;
	int64_t after = 0;

	for (size_t i = 0; i < t->n_prediction; i++) {
		const struct book_prediction *p = &t->prediction[i];
		int64_t n = 0;

		if (p->mix_id != s->mix[mix].row.id ||
			(s->has_baseline && mix == s->baseline) ||
			strcmp(p->measure,
				choose_measure_word(CHOOSE_SETTLING_LOSS)) != 0)
			continue;
		for (size_t b = 0; b < s->n_batch; b++)
			n += s->batch_mix[b] == mix && !s->batch[b].practice &&
				s->batch[b].row.id > p->after_batch_id &&
				was_settling_read(s, b);
		if (n >= p->batches && p->after_batch_id > after)
			after = p->after_batch_id;
	}
	return after;
}

/* The mean over the batches of the last settling that was read. */
static void
mean_settling(const struct taking *t, struct work_part_taken *out)
{
	const struct work_site *s = &t->got.m.site;
	const int64_t after = confirmed_after(t, out->mix);
	double sum = 0;

	for (size_t b = 0; b < s->n_batch; b++) {
		double after_s = -1, loss = 0;

		if (s->batch_mix[b] != out->mix || s->batch[b].practice ||
			s->batch[b].row.id <= after)
			continue;
		for (size_t i = 0; i < s->n_settling; i++)
			if (s->settling_batch[i] == b &&
				s->settling[i].after_s > after_s) {
				after_s = s->settling[i].after_s;
				loss = s->settling[i].loss_ratio;
			}
		if (after_s < 0)
			continue;
		sum += fmax(0, loss);
		out->n_settling++;
	}
	if (out->n_settling > 0)
		out->settling_ratio = sum / (double)out->n_settling;
}

static enum err_code
learn(struct taking *t, struct work_part_taken *out, struct err *err)
{
	const struct work_site *s = &t->got.m.site;
	struct control_survival survival;
	double sum = 0, n = 0;

	mean_settling(t, out);
	TRY(work_survival(
		&t->got.m, t->arena, t->got.m.n_generator, &survival, err));
	out->survival_ratio = survival.mean;
	out->n_survival = survival.n;
	out->wet_kg_m3 = s->mix[out->mix].wet_target_kg_m3.value;
	if (s->mix[out->mix].wet_target_kg_m3.has)
		return ERR_NONE;
	for (size_t b = 0; b < s->n_batch; b++)
		if (s->batch_mix[b] == out->mix && s->batch[b].wet_kg_m3.has) {
			sum += s->batch[b].wet_kg_m3.value;
			n++;
		}
	if (n > 0) {
		out->wet_kg_m3 = sum / n;
		return ERR_NONE;
	}
	return err_report(err, ERR_INPUT, "mix",
		"The wet density of mix %s is not known; \"foamwright mix\" "
		"with --wet sets its target.",
		s->mix[out->mix].code);
}

/* ---- one part ---- */

static void
set_sizes(const struct taking *t, struct work_part_taken *out)
{
	const struct book_part *p = &t->got.m.site.part[out->part];

	out->sizes = (struct build_part){.code = p->code,
		.length_m = p->length_m,
		.height_m = p->height_m,
		.thickness_m = p->thickness_m,
		.openings_m2 = p->openings_m2,
		.volume_m3 = p->volume_m3,
		.waste_ratio = p->waste_ratio,
		.batch_m3 = p->batch_m3};
	if (!out->sizes.waste_ratio.has)
		out->sizes.waste_ratio = t->ask->waste_ratio;
	if (!out->sizes.batch_m3.has)
		out->sizes.batch_m3 = t->ask->batch_m3;
	for (size_t i = 0; i < t->got.m.n_gear && !out->sizes.batch_m3.has; i++)
		out->sizes.batch_m3 = t->got.m.gear[i].mixer_m3;
}

static enum err_code
take_mesh(const struct taking *t, struct work_part_taken *out, struct err *err)
{
	const struct work_takeoff_ask *a = t->ask;
	const struct build_part *p = &out->sizes;
	const struct build_mesh mesh = {.width_m = a->mesh_width_m.value,
		.length_m = a->mesh_length_m.value,
		.lap_m = a->mesh_lap_m.has ? a->mesh_lap_m.value : 0.15,
		.layers = a->mesh_layers.has ? a->mesh_layers.value : 1};

	for (size_t i = 0; i < a->n_mesh; i++)
		out->has_mesh = out->has_mesh ||
			strcmp(a->mesh[i], p->code) == 0;
	if (!out->has_mesh)
		return ERR_NONE;
	if (!p->length_m.has || !p->height_m.has || !a->mesh_width_m.has ||
		!a->mesh_length_m.has)
		return err_report(err, ERR_INPUT, "mesh",
			"Mesh for part %s needs its length and height in the "
			"book, and --mesh-width and --mesh-length of a sheet.",
			p->code);
	TRY(build_mesh_sheets(&mesh, p->length_m.value, p->height_m.value,
		&out->n_mesh, err));
	out->mesh_m2 = out->n_mesh * mesh.width_m * mesh.length_m;
	return ERR_NONE;
}

static enum err_code
take_part(struct taking *t, struct work_part_taken *out, struct err *err)
{
	const struct work_site *s = &t->got.m.site;
	const struct book_mix *mix = &s->mix[out->mix];
	struct build_material *m = arena_take(
		t->arena, s->n_mix_part, sizeof *m);
	size_t *of = arena_take(t->arena, s->n_mix_part, sizeof *of), n = 0;
	double foam_ratio;

	if (m == NULL || of == NULL)
		return err_memory(err);
	TRY(work_check_tested(s, out->mix, err));
	TRY(learn(t, out, err));
	set_sizes(t, out);
	/* foam that dies in the mixing has to be made as well */
	foam_ratio = out->survival_ratio > 0 ? 1 / out->survival_ratio : 1;
	for (size_t i = 0; i < s->n_mix_part; i++) {
		const struct book_material *from =
			&s->material[s->part_material[i]];
		bool agent = strcmp(from->role, "agent") == 0;

		if (s->part_mix[i] != out->mix)
			continue;
		of[n] = s->part_material[i];
		m[n++] = (struct build_material){.name = from->code,
			.kg_per_m3 = s->mix_part[i].mass_kg_per_m3 *
				(agent ? foam_ratio : 1),
			.package_kg = from->package_kg,
			.has_price = from->has_price,
			.price_cents = (double)from->price_cents};
	}
	TRY(build_takeoff(t->arena, &out->sizes, out->settling_ratio, m, n,
		mix->foam_m3_per_m3.has ? mix->foam_m3_per_m3.value * foam_ratio
					: 0,
		&out->taken, err));
	out->material = of;
	out->lifted_kg = out->taken.mixed_m3 * out->wet_kg_m3;
	return take_mesh(t, out, err);
}

/* ---- all together ---- */

/* The line of a part that is of the material; n_line: it takes none. */
static size_t
line_of(const struct work_part_taken *p, size_t material)
{
	size_t i = 0;

	while (i < p->taken.n_line && p->material[i] != material)
		i++;
	return i;
}

/* Packages are opened once for all parts; each part's share beside it. */
static enum err_code
buy(const struct taking *t, struct work_bought *b, struct err *err)
{
	const struct work_takeoff *g = &t->got;
	const struct book_material *from = &g->m.site.material[b->material];
	double *kg = arena_take(t->arena, g->n_part, sizeof *kg);
	const struct build_share *share;

	if (kg == NULL)
		return err_memory(err);
	b->has_carbon = from->carbon_ratio.has;
	b->carbon_kg = b->mass_kg * from->carbon_ratio.value;
	b->has_package = from->package_kg.has;
	if (!b->has_package)
		return ERR_NONE;
	for (size_t p = 0; p < g->n_part; p++) {
		size_t i = line_of(&g->part[p], b->material);

		if (i < g->part[p].taken.n_line)
			kg[p] = g->part[p].taken.line[i].mass_kg;
	}
	TRY(build_shares(
		t->arena, kg, g->n_part, from->package_kg.value, &share, err));
	for (size_t p = 0; p < g->n_part; p++) {
		size_t i = line_of(&g->part[p], b->material);

		b->n_package += share[p].n_package;
		b->left_over_kg = share[p].left_kg;
		if (i < g->part[p].taken.n_line)
			t->share[p][i] = share[p];
	}
	b->has_money = from->has_price;
	b->money_cents = b->n_package * (double)from->price_cents;
	return ERR_NONE;
}

static enum err_code
add_up(struct taking *t, struct err *err)
{
	struct work_takeoff *g = &t->got;
	const struct work_site *s = &g->m.site;
	struct work_bought *b = arena_take(t->arena, s->n_material, sizeof *b);

	if (b == NULL)
		return err_memory(err);
	g->all_priced = g->all_carbon = true;
	for (size_t m = 0; m < s->n_material; m++) {
		struct work_bought *to = &b[g->n_bought];
		bool water = strcmp(s->material[m].role, "water") == 0;

		*to = (struct work_bought){.material = m};
		for (size_t p = 0; p < g->n_part; p++)
			for (size_t i = 0; i < g->part[p].taken.n_line; i++)
				if (g->part[p].material[i] == m)
					to->mass_kg += g->part[p]
							       .taken.line[i]
							       .mass_kg;
		if (!(to->mass_kg > 0))
			continue;
		TRY(buy(t, to, err));
		g->money_cents += to->money_cents;
		g->carbon_kg += to->has_carbon ? to->carbon_kg : 0;
		g->all_priced = g->all_priced && (to->has_money || water);
		g->all_carbon = g->all_carbon && (to->has_carbon || water);
		g->delivered_kg += water  ? 0
			: to->has_package ? to->mass_kg + to->left_over_kg
					  : to->mass_kg;
		g->n_bought++;
	}
	for (size_t p = 0; p < g->n_part; p++) {
		const struct work_part_taken *w = &g->part[p];
		struct maybe foam = s->mix[w->mix].foam_target_kg_m3;

		g->lifted_kg += w->lifted_kg;
		g->foam_m3 += w->taken.foam_m3;
		g->foam_water_kg += w->taken.foam_m3 *
			(foam.has ? foam.value : 0);
	}
	g->bought = b;
	return ERR_NONE;
}

static bool
is_asked(const struct work_takeoff_ask *ask, const char *code)
{
	for (size_t i = 0; i < ask->n_part; i++)
		if (strcmp(ask->part[i], code) == 0)
			return true;
	return ask->n_part == 0;
}

static enum err_code
check_words(const struct taking *t, struct err *err)
{
	size_t at;

	for (size_t i = 0; i < t->ask->n_part; i++)
		TRY(work_find_part(&t->got.m.site, t->ask->part[i], &at, err));
	for (size_t i = 0; i < t->ask->n_mesh; i++)
		TRY(work_find_part(&t->got.m.site, t->ask->mesh[i], &at, err));
	for (size_t i = 0; i < t->ask->n_mix; i++)
		TRY(work_find_part(
			&t->got.m.site, t->ask->mix[i].name, &at, err));
	return ERR_NONE;
}

enum err_code
work_takeoff(const struct desk *desk, struct arena *arena,
	const struct work_takeoff_ask *ask, struct work_takeoff *out,
	struct err *err)
{
	struct taking t = {.arena = arena, .ask = ask};
	struct work_part_taken *part;

	TRY(work_mixer_read(desk, arena, &t.got.m, err));
	TRY(book_all_prediction(
		desk->book, arena, &t.prediction, &t.n_prediction, err));
	TRY(check_words(&t, err));
	part = arena_take(arena, t.got.m.site.n_part, sizeof *part);
	t.share = arena_take(arena, t.got.m.site.n_part, sizeof *t.share);
	if (part == NULL || t.share == NULL)
		return err_memory(err);
	for (size_t i = 0; i < t.got.m.site.n_part; i++) {
		bool found;

		if (!is_asked(ask, t.got.m.site.part[i].code))
			continue;
		TRY(find_mix(&t, i, &part[t.got.n_part], &found, err));
		if (!found && ask->n_part > 0)
			return refuse_undecided(&t, i, err);
		if (!found) {
			part[t.got.n_part] = (struct work_part_taken){0};
			continue;
		}
		TRY(take_part(&t, &part[t.got.n_part], err));
		t.share[t.got.n_part] = arena_take(arena,
			part[t.got.n_part].taken.n_line, sizeof **t.share);
		if (t.share[t.got.n_part] == NULL)
			return err_memory(err);
		part[t.got.n_part].share = t.share[t.got.n_part];
		t.got.n_part++;
	}
	if (t.got.n_part == 0)
		return err_report(err, ERR_INPUT, "mix",
			"No part of the building has a mix yet. \"foamwright "
			"decide\" writes a decision down; --mix PART=MIX tries "
			"one out.");
	t.got.part = part;
	TRY(add_up(&t, err));
	*out = t.got;
	return ERR_NONE;
}
