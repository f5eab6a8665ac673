/* recipe.c - from any form of a mix to one cubic metre, and back. */
#include "work/recipe.h"

#include "book/book.h"
#include "core/text.h"
#include "work/warn.h"

#include <math.h>
#include <string.h>

/* Too little water pulls it out of the foam, too much lets the solids sink;
 * common practice, no source. */
static const double water_least = 0.4, water_most = 0.7;

struct entering {
	const struct desk *desk;
	struct arena *arena;
	const struct work_recipe_ask *ask;
	struct work_mixer m;
	bool made;
	struct book_mix row;
	struct work_recipe_part *part; /* all of the new mix */
	size_t *material;              /* of each */
	size_t n_part;
	struct mix_proportioned got;
};

static bool
takes_part(const struct book_material *material)
{
	struct mix_part part;

	return work_material_part(material, 1, &part);
}

/* Adds a part, or replaces the one of the same material. */
static void
set_part(struct entering *e, size_t material,
	const struct work_recipe_part *part)
{
	size_t i = 0;

	while (i < e->n_part && e->material[i] != material)
		i++;
	e->part[i] = *part;
	e->material[i] = material;
	if (i == e->n_part)
		e->n_part++;
}

static void
copy_parts(struct entering *e, size_t mix)
{
	const struct work_site *s = &e->m.site;

	for (size_t i = 0; i < s->n_mix_part; i++) {
		const struct book_material *from =
			&s->material[s->part_material[i]];
		const struct work_recipe_part part = {.code = from->code,
			.amount = s->mix_part[i].mass_kg_per_m3};

		if (s->part_mix[i] == mix && takes_part(from))
			set_part(e, s->part_material[i], &part);
	}
}

/* Takes parts away again; one that is not there is a slip of the pen. */
static enum err_code
leave_out(struct entering *e, struct err *err)
{
	for (size_t i = 0; i < e->ask->n_without; i++) {
		const char *code = e->ask->without[i];
		size_t material, at = 0;

		TRY(work_find_material(&e->m, code, &material, err));
		while (at < e->n_part && e->material[at] != material)
			at++;
		if (at == e->n_part)
			return err_report(err, ERR_INPUT, "--without",
				"%s is no part of mix %s.", code, e->ask->code);
		e->n_part--;
		memmove(&e->part[at], &e->part[at + 1],
			(e->n_part - at) * sizeof *e->part);
		memmove(&e->material[at], &e->material[at + 1],
			(e->n_part - at) * sizeof *e->material);
	}
	return ERR_NONE;
}

static enum err_code
gather_parts(struct entering *e, struct err *err)
{
	const struct work_recipe_ask *ask = e->ask;
	size_t room = ask->n_part + e->m.site.n_mix_part, mix = 0;
	struct err unknown = {.code = ERR_NONE};

	e->part = arena_take(e->arena, room, sizeof *e->part);
	e->material = arena_take(e->arena, room, sizeof *e->material);
	if (e->part == NULL || e->material == NULL)
		return err_memory(err);
	if (ask->like != NULL) {
		TRY(work_find_mix(&e->m, ask->like, &mix, err));
		copy_parts(e, mix);
	} else if (work_find_mix(&e->m, ask->code, &mix, &unknown) ==
		ERR_NONE) {
		copy_parts(e, mix);
	}
	for (size_t i = 0; i < ask->n_part; i++) {
		size_t material;

		TRY(work_find_material(
			&e->m, ask->part[i].code, &material, err));
		if (!takes_part(&e->m.site.material[material]))
			return err_report(err, ERR_INPUT, "--part",
				"%s is %s and is not weighed into the slurry; "
				"the foam carries its agent (--agent), and "
				"mesh is said with --reinforcement.",
				ask->part[i].code,
				e->m.site.material[material].role);
		set_part(e, material, &ask->part[i]);
	}
	return leave_out(e, err);
}

static void
start_from(struct entering *e, const struct book_mix *other)
{
	e->row.wet_target_kg_m3 = other->wet_target_kg_m3;
	e->row.foam_target_kg_m3 = other->foam_target_kg_m3;
	e->row.blending_target_s = other->blending_target_s;
}

static enum err_code
start_row(struct entering *e, struct err *err)
{
	const struct work_recipe_ask *ask = e->ask;
	struct err unknown = {.code = ERR_NONE};
	size_t at;

	e->row = (struct book_mix){.code = ask->code,
		.name = ask->code,
		.why = "",
		.matrix_code = ask->code,
		.reinforcement = ""};
	e->made = work_find_mix(&e->m, ask->code, &at, &unknown) != ERR_NONE;
	if (!e->made)
		e->row = e->m.site.mix[at];
	if (ask->like != NULL) {
		TRY(work_find_mix(&e->m, ask->like, &at, err));
		start_from(e, &e->m.site.mix[at]);
	}
	if (ask->matrix != NULL) {
		TRY(work_find_mix(&e->m, ask->matrix, &at, err));
		e->row.matrix_code = ask->matrix;
	}
	e->row.name = ask->name != NULL ? ask->name : e->row.name;
	e->row.why = ask->why != NULL ? ask->why : e->row.why;
	if (ask->reinforcement != NULL)
		e->row.reinforcement = ask->reinforcement;
	if (ask->foam_kg_m3.has)
		e->row.foam_target_kg_m3 = ask->foam_kg_m3;
	if (ask->blending_s.has)
		e->row.blending_target_s = ask->blending_s;
	if (ask->wet_kg_m3.has)
		e->row.wet_target_kg_m3 = ask->wet_kg_m3;
	e->row.row.typed = ask->typed != NULL ? ask->typed : "";
	return ERR_NONE;
}

static enum err_code
check_aims(const struct entering *e, struct err *err)
{
	if (e->n_part == 0)
		return err_report(err, ERR_INPUT, "--part",
			"Say what goes in: --part cement=1 --part water=0.48, "
			"by mass in any scale, or --like another mix.");
	if (e->ask->wet_kg_m3.has && e->ask->oven_dry_kg_m3.has)
		return err_report(err, ERR_INPUT, "--dry",
			"Give the wet density or the oven-dry one, not both: "
			"the parts fix one by the other.");
	if (!e->row.wet_target_kg_m3.has && !e->ask->oven_dry_kg_m3.has)
		return err_report(err, ERR_INPUT, "--wet",
			"Say which wet density the mix aims at (--wet \"720 "
			"kg/m3\") or which oven-dry one (--dry).");
	if (!e->row.foam_target_kg_m3.has)
		return err_report(err, ERR_INPUT, "--foam",
			"Say what the foam is to weigh (--foam \"70 g/L\").");
	return ERR_NONE;
}

/* One part as it is given, in kg; a ratio is left as it is. */
static enum err_code
weigh_part(const struct entering *e, size_t i, struct mix_part *part,
	struct err *err)
{
	struct mass mass = {e->part[i].amount};

	(void)work_material_part(&e->m.site.material[e->material[i]], 1, part);
	if (e->part[i].form == WORK_RECIPE_VOLUME) {
		part->by_volume = true;
		part->volume.m3 = e->part[i].amount;
		TRY(mix_part_mass(part, i, &mass, err));
		part->by_volume = false;
	}
	part->mass = mass;
	return ERR_NONE;
}

/* All parts in kg.  Ratios count from the first cement, or stand on their own
 * where that is given as a ratio too. */
static enum err_code
weigh_parts(const struct entering *e, struct mix_part *part, struct err *err)
{
	double one_kg = 1;
	size_t cement;

	for (size_t i = 0; i < e->n_part; i++)
		TRY(weigh_part(e, i, &part[i], err));
	cement = mix_first_cement(part, e->n_part);
	if (cement < e->n_part && e->part[cement].form != WORK_RECIPE_RATIO)
		one_kg = part[cement].mass.kg;
	for (size_t i = 0; i < e->n_part; i++)
		if (e->part[i].form == WORK_RECIPE_RATIO)
			part[i].mass.kg *= one_kg;
	return ERR_NONE;
}

/* One cubic metre of the mix from parts in any scale. */
static enum err_code
solve(struct entering *e, struct err *err)
{
	struct mix_proportion ask = {.foam = {e->row.foam_target_kg_m3.value},
		.foam_survival_ratio = 1,
		.bound_water_ratio = mix_bound_water_ratio,
		.aim = MIX_AIM_WET_DENSITY,
		.wet_density = {e->row.wet_target_kg_m3.value}};
	struct mix_part *part = arena_take(e->arena, e->n_part, sizeof *part);

	if (part == NULL)
		return err_memory(err);
	TRY(weigh_parts(e, part, err));
	work_saturated(part, e->n_part);
	if (e->ask->oven_dry_kg_m3.has) {
		ask.aim = MIX_AIM_OVEN_DRY_DENSITY;
		ask.oven_dry_density.kg_m3 = e->ask->oven_dry_kg_m3.value;
	}
	ask.part = part;
	ask.n_part = e->n_part;
	TRY(mix_proportion(e->arena, &ask, &e->got, err));
	for (size_t i = 0; i < e->n_part; i++)
		e->part[i] = (struct work_recipe_part){.code = part[i].name,
			.amount = e->got.per_m3[i].kg /
				(part[i].role == MIX_WATER
						? 1
						: 1 + part[i].absorption_ratio)};
	e->row.wet_target_kg_m3 = (struct maybe){
		true, e->got.wet_density.kg_m3};
	e->row.foam_m3_per_m3 = (struct maybe){
		true, e->got.foam_volume.m3 / e->got.volume.m3};
	return ERR_NONE;
}

static int64_t
part_row_id(const struct entering *e, size_t material)
{
	const struct work_site *s = &e->m.site;

	for (size_t i = 0; i < s->n_mix_part; i++)
		if (s->mix_part[i].mix_id == e->row.row.id &&
			s->part_material[i] == material)
			return s->mix_part[i].row.id;
	return 0;
}

static enum err_code
put_part(struct entering *e, size_t material, double kg, struct err *err)
{
	struct book_mix_part row = {.row = {.typed = ""},
		.mix_id = e->row.row.id,
		.material_id = e->m.site.material[material].row.id,
		.mass_kg_per_m3 = kg};

	row.row.id = e->made ? 0 : part_row_id(e, material);
	if (row.row.id == 0)
		TRY(book_part_taken_out(e->desk->book, row.mix_id,
			row.material_id, &row.row.id, err));
	return book_put_mix_part(e->desk->book, &row, err);
}

/* The agent in the foam of one cubic metre. */
static enum err_code
find_agent(
	const struct entering *e, size_t *material, double *kg, struct err *err)
{
	const struct book_material *agent;

	TRY(work_find_material(&e->m, e->ask->agent, material, err));
	agent = &e->m.site.material[*material];
	if (strcmp(agent->role, "agent") != 0 || !agent->dilution_ratio.has)
		return err_report(err, ERR_INPUT, "--agent",
			"%s is not a foaming agent whose dilution is known; "
			"\"foamwright material BOOK %s --role agent --dilution "
			"40\" says it.",
			agent->code, agent->code);
	*kg = e->got.foam_per_m3.kg / (1 + agent->dilution_ratio.value);
	return ERR_NONE;
}

static enum err_code
put_agent(struct entering *e, struct err *err)
{
	size_t material = 0;
	double kg = 0;

	if (e->ask->agent == NULL)
		return ERR_NONE;
	TRY(find_agent(e, &material, &kg, err));
	return put_part(e, material, kg, err);
}

static enum err_code
take_out(struct entering *e, struct err *err)
{
	for (size_t i = 0; !e->made && i < e->ask->n_without; i++) {
		size_t material;
		int64_t id;

		TRY(work_find_material(
			&e->m, e->ask->without[i], &material, err));
		id = part_row_id(e, material);
		if (id != 0)
			TRY(book_take_out_part(
				e->desk->book, e->arena, id, err));
	}
	return ERR_NONE;
}

static enum err_code
write_all(struct entering *e, struct err *err)
{
	TRY(book_put_mix(e->desk->book, &e->row, err));
	TRY(take_out(e, err));
	for (size_t i = 0; i < e->n_part; i++)
		TRY(put_part(e, e->material[i], e->part[i].amount, err));
	return put_agent(e, err);
}

static enum err_code
work_out(struct entering *e, struct err *err)
{
	TRY(work_mixer_read(e->desk, e->arena, &e->m, err));
	TRY(start_row(e, err));
	TRY(gather_parts(e, err));
	TRY(check_aims(e, err));
	return solve(e, err);
}

enum err_code
work_recipe_put(const struct desk *desk, struct arena *arena,
	const struct work_recipe_ask *ask, bool *made, struct err *err)
{
	struct entering e = {.desk = desk, .arena = arena, .ask = ask};

	TRY(work_out(&e, err));
	TRY(book_begin(desk->book, desk->now_utc_s, desk->who, "mix",
		desk->submission, err));
	TRY(work_commit_or_undo(desk, e.row.code, write_all(&e, err), err));
	*made = e.made;
	return ERR_NONE;
}

/* ---- shown ---- */

static bool
is_typical(const struct work_mixer *m, int64_t material, const char *figure)
{
	for (size_t i = 0; i < m->n_basis; i++)
		if (m->basis[i].material_id == material &&
			strcmp(m->basis[i].figure, figure) == 0)
			return strcmp(m->basis[i].basis, "typical") == 0;
	return false;
}

/* "cement 0.83 typical, sand 0.005" */
static enum err_code
say_carbon(const struct work_mixer *m, struct arena *arena, size_t mix,
	struct work_recipe_shown *out, struct err *err)
{
	const struct work_site *s = &m->site;
	struct text text;

	text_init(&text, arena);
	for (size_t i = 0; i < s->n_mix_part; i++) {
		const struct book_material *from =
			&s->material[s->part_material[i]];

		if (s->part_mix[i] != mix || !from->carbon_ratio.has)
			continue;
		text_addf(&text, "%s%s %.3g%s", text.n > 0 ? ", " : "",
			from->code, from->carbon_ratio.value,
			is_typical(m, from->row.id, "carbon") ? " typical"
							      : "");
	}
	out->carbon = text.n > 0 ? text.bytes : "";
	return text_failed(&text) ? err_memory(err) : ERR_NONE;
}

static enum err_code
price_mix(const struct work_mixer *m, struct arena *arena, size_t mix,
	struct work_recipe_shown *out, struct err *err)
{
	const struct work_site *s = &m->site;
	struct mix_priced *priced = arena_take(
		arena, s->n_mix_part, sizeof *priced);
	size_t n = 0;

	if (priced == NULL)
		return err_memory(err);
	for (size_t i = 0; i < s->n_mix_part; i++) {
		const struct book_material *from =
			&s->material[s->part_material[i]];

		if (s->part_mix[i] != mix)
			continue;
		priced[n] = (struct mix_priced){.name = from->code,
			.kg_per_m3 = s->mix_part[i].mass_kg_per_m3,
			.kgco2_per_kg = from->carbon_ratio};
		if (from->has_price && from->package_kg.has)
			priced[n].cents_per_kg = (struct maybe){true,
				(double)from->price_cents /
					from->package_kg.value};
		else if (strcmp(from->role, "water") == 0)
			priced[n].cents_per_kg = (struct maybe){true, 0};
		n++;
	}
	out->has_cost = n > 0;
	out->currency = s->info.currency;
	TRY(say_carbon(m, arena, mix, out, err));
	return mix_cost_of(priced, n, &out->cost, err);
}

static void
find_bag(const struct work_mixer *m, struct work_recipe_shown *out,
	const struct mass *per_m3)
{
	size_t cement = mix_first_cement(out->part, out->n_part), at;
	struct err unknown = {.code = ERR_NONE};

	if (cement == out->n_part ||
		work_find_material(m, out->part[cement].name, &at, &unknown) !=
			ERR_NONE ||
		!m->site.material[at].package_kg.has)
		return;
	out->bag.kg = m->site.material[at].package_kg.value;
	out->has_bag = mix_per_bag(out->part, out->n_part, per_m3, out->bag,
			       &out->from_bag, &unknown) == ERR_NONE;
}

static enum err_code
add_cautions(const struct work_mixer *m, struct arena *arena,
	struct work_recipe_shown *out, struct err *err)
{
	const struct mix_proportioned *p = &out->proportion;
	struct work_fired_list list = {.n = 0};
	const char **caution;
	size_t n = 0;

	work_warn_mix(m, arena, out->mix, p->foam_fraction,
		p->wet_density.kg_m3, p->oven_dry_density.kg_m3, &list);
	caution = arena_take(arena, list.n + 2 + out->n_part, sizeof *caution);
	if (caution == NULL || list.failed)
		return err_memory(err);
	for (size_t i = 0; i < list.n; i++)
		caution[n++] = list.fired[i].sentence;
	if (p->water_cement_ratio < water_least)
		caution[n++] = text_format(arena,
			"Water/cement is %.2f; a paste under %.1f is thirsty, "
			"takes water from the foam and bursts it.",
			p->water_cement_ratio, water_least);
	if (p->water_cement_ratio > water_most)
		caution[n++] = text_format(arena,
			"Water/cement is %.2f; above %.1f the solids sink out "
			"of it.",
			p->water_cement_ratio, water_most);
	for (size_t i = 0; i < out->n_part; i++)
		if (!out->part[i].has_particle_density &&
			out->part[i].role == MIX_SAND)
			caution[n++] = text_format(arena,
				"%s is reckoned with a typical density; weigh "
				"its own.",
				out->part[i].name);
	for (size_t i = 0; i < n; i++)
		if (caution[i] == NULL)
			return err_memory(err);
	out->caution = caution;
	out->n_caution = n;
	return ERR_NONE;
}

enum err_code
work_recipe_show(const struct work_mixer *m, struct arena *arena, size_t mix,
	struct work_recipe_shown *out, struct err *err)
{
	const struct book_mix *row = &m->site.mix[mix];
	struct work_recipe_shown shown = {.mix = mix};
	struct mix_proportion ask = {.foam_survival_ratio = 1,
		.bound_water_ratio = mix_bound_water_ratio,
		.aim = MIX_AIM_WET_DENSITY};
	struct err unknown = {.code = ERR_NONE};
	struct mix_part *part, *wet;

	if (!row->wet_target_kg_m3.has || !row->foam_target_kg_m3.has)
		return err_report(err, ERR_INPUT, "mix",
			"Mix %s has no target for its wet density and its foam "
			"yet; --wet and --foam give them.",
			row->code);
	TRY(work_recipe(m, arena, mix, &part, &shown.n_part, err));
	wet = arena_copy(arena, part, shown.n_part, sizeof *part);
	if (wet == NULL)
		return err_memory(err);
	work_saturated(wet, shown.n_part);
	shown.part = part;
	ask.part = wet;
	ask.n_part = shown.n_part;
	ask.foam.kg_m3 = row->foam_target_kg_m3.value;
	ask.wet_density.kg_m3 = row->wet_target_kg_m3.value;
	TRY(mix_proportion(arena, &ask, &shown.proportion, err));
	if (mix_by_bucket(arena, wet, shown.n_part, shown.proportion.per_m3,
		    &shown.bucket, &unknown) != ERR_NONE)
		shown.bucket = NULL;
	find_bag(m, &shown, shown.proportion.per_m3);
	TRY(price_mix(m, arena, mix, &shown, err));
	TRY(add_cautions(m, arena, &shown, err));
	*out = shown;
	return ERR_NONE;
}

/* ---- tried, and not entered ---- */

/* The parts of all mixes, as if this one had been entered. */
struct as_if {
	struct book_mix_part *row;
	size_t *mix, *material;
	size_t n;
};

static void
add_part(struct as_if *to, size_t mix, size_t material, double kg)
{
	to->row[to->n] = (struct book_mix_part){
		.row = {.typed = ""}, .mass_kg_per_m3 = kg};
	to->mix[to->n] = mix;
	to->material[to->n++] = material;
}

/* Of the mix itself only what is not weighed into the slurry stays. */
static void
keep_others(const struct entering *e, size_t mix, struct as_if *to)
{
	const struct work_site *s = &e->m.site;

	for (size_t i = 0; i < s->n_mix_part; i++) {
		const struct book_material *m =
			&s->material[s->part_material[i]];
		bool anew = s->part_mix[i] == mix &&
			(takes_part(m) ||
				(e->ask->agent != NULL &&
					strcmp(m->role, "agent") == 0));

		if (anew)
			continue;
		add_part(to, s->part_mix[i], s->part_material[i],
			s->mix_part[i].mass_kg_per_m3);
		to->row[to->n - 1] = s->mix_part[i];
	}
}

static enum err_code
parts_as_if(struct entering *e, size_t mix, struct err *err)
{
	struct work_site *s = &e->m.site;
	size_t room = s->n_mix_part + e->n_part + 1, material = 0;
	struct as_if to = {.row = arena_take(e->arena, room, sizeof *to.row),
		.mix = arena_take(e->arena, room, sizeof *to.mix),
		.material = arena_take(e->arena, room, sizeof *to.material)};
	double kg = 0;

	if (to.row == NULL || to.mix == NULL || to.material == NULL)
		return err_memory(err);
	keep_others(e, mix, &to);
	for (size_t i = 0; i < e->n_part; i++)
		add_part(&to, mix, e->material[i], e->part[i].amount);
	if (e->ask->agent != NULL) {
		TRY(find_agent(e, &material, &kg, err));
		add_part(&to, mix, material, kg);
	}
	s->mix_part = to.row;
	s->part_mix = to.mix;
	s->part_material = to.material;
	s->n_mix_part = to.n;
	return ERR_NONE;
}

static enum err_code
mixes_as_if(struct entering *e, size_t mix, struct err *err)
{
	struct work_site *s = &e->m.site;
	struct book_mix *row = arena_take(e->arena, s->n_mix + 1, sizeof *row);
	size_t *matrix = arena_take(e->arena, s->n_mix + 1, sizeof *matrix);

	if (row == NULL || matrix == NULL)
		return err_memory(err);
	for (size_t i = 0; i < s->n_mix; i++) {
		row[i] = s->mix[i];
		matrix[i] = s->mix_matrix[i];
	}
	row[mix] = e->row;
	matrix[mix] = mix;
	s->mix = row;
	s->mix_matrix = matrix;
	s->n_mix += mix == s->n_mix;
	return ERR_NONE;
}

enum err_code
work_recipe_try(const struct desk *desk, struct arena *arena,
	const struct work_recipe_ask *ask, struct work_recipe_shown *out,
	struct err *err)
{
	struct entering e = {.desk = desk, .arena = arena, .ask = ask};
	size_t mix;

	TRY(work_out(&e, err));
	mix = e.m.site.n_mix;
	if (!e.made)
		TRY(work_find_mix(&e.m, ask->code, &mix, err));
	TRY(mixes_as_if(&e, mix, err));
	TRY(parts_as_if(&e, mix, err));
	return work_recipe_show(&e.m, arena, mix, out, err);
}
