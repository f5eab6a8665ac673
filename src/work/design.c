/* design.c - a part's requirements, the book's materials, its tested batches. */
#include "work/design.h"

#include "core/text.h"
#include "work/choose.h"
#include "work/foam.h"
#include "work/foresee.h"
#include "work/part.h"
#include "work/results.h"
#include "work/sheet.h"

#include <math.h>
#include <string.h>

static const double usual_chance = 0.8;

struct designing {
	const struct desk *desk;
	struct arena *arena;
	struct work_designed *out;
	struct work_results results;
	struct choose_search search;
	struct choose_foresight crushing, bending;
};

static enum err_code
gather_requirements(struct designing *g, struct err *err)
{
	struct work_designed *out = g->out;

	TRY(work_requirements(&out->m.site, g->arena, out->part,
		&out->requirement, &out->n_requirement, err));
	for (size_t i = 0; i < out->n_requirement; i++)
		if (choose_is_foreseen(out->requirement[i].measure))
			return ERR_NONE;
	return err_report(err, ERR_INPUT, "--part",
		"Part %s asks nothing that can be foreseen before casting: "
		"strength, dry weight, heat or cost.",
		out->m.site.part[out->part].code);
}

static bool
find_role(const struct work_mixer *m, const char *role, size_t *at)
{
	for (size_t i = 0; i < m->site.n_material; i++) {
		if (strcmp(m->site.material[i].role, role) == 0) {
			*at = i;
			return true;
		}
	}
	return false;
}

static double
cents_a_kg(const struct book_material *material)
{
	if (!material->has_price || !material->package_kg.has)
		return 0;
	return (double)material->price_cents / material->package_kg.value;
}

static enum err_code
take_materials(struct designing *g, struct err *err)
{
	const struct work_mixer *m = &g->out->m;
	struct choose_search *s = &g->search;
	size_t cement, water, sand, agent;

	if (!find_role(m, "cement", &cement) || !find_role(m, "water", &water))
		return err_report(err, ERR_INPUT, "materials",
			"A cement and a water must be in the book before a mix "
			"can be designed of them (\"foamwright material\").");
	(void)work_material_part(&m->site.material[cement], 1, &s->cement);
	(void)work_material_part(&m->site.material[water], 1, &s->water);
	g->out->cement = m->site.material[cement].code;
	g->out->water = m->site.material[water].code;
	s->cement_cents = cents_a_kg(&m->site.material[cement]);
	s->water_cents = cents_a_kg(&m->site.material[water]);
	s->has_sand = find_role(m, "sand", &sand);
	if (s->has_sand) {
		(void)work_material_part(&m->site.material[sand], 1, &s->sand);
		s->sand.moisture_ratio = s->sand.absorption_ratio;
		g->out->sand = m->site.material[sand].code;
		s->sand_cents = cents_a_kg(&m->site.material[sand]);
	}
	if (find_role(m, "agent", &agent) &&
		m->site.material[agent].dilution_ratio.has)
		s->agent_cents = cents_a_kg(&m->site.material[agent]) /
			(1 + m->site.material[agent].dilution_ratio.value);
	return ERR_NONE;
}

static enum err_code
take_foam(struct designing *g, struct err *err)
{
	const struct work_mixer *m = &g->out->m;
	bool checked;

	if (m->n_generator > 0)
		TRY(work_foam_now(m, 0, &g->search.foam, &checked, err));
	for (size_t i = 0; i < m->site.n_mix && !(g->search.foam.kg_m3 > 0);
		i++)
		g->search.foam.kg_m3 = m->site.mix[i].foam_target_kg_m3.value;
	if (!(g->search.foam.kg_m3 > 0))
		return err_report(err, ERR_INPUT, "foam",
			"What the foam weighs is not in the book yet; "
			"\"foamwright generator\" says it.");
	/* Mixes are designed with foam that keeps its air, as their targets
	 * are; the sheet makes up for what a batch loses. */
	g->search.foam_survival_ratio = 1;
	g->search.bound_water_ratio = mix_bound_water_ratio;
	g->out->foam = g->search.foam;
	return ERR_NONE;
}

/* ---- words ---- */

static enum err_code
say_design(struct designing *g, struct err *err)
{
	struct work_designed *out = g->out;
	const char **s = arena_take(
		g->arena, 7 + out->n_requirement, sizeof *s);
	const struct work_warning *foam = &out->m.warning.w[CONTROL_W6];
	const struct work_warning *light = &out->m.warning.w[CONTROL_W7];
	size_t n = 0;

	if (s == NULL)
		return err_memory(err);
	if (!out->found)
		s[n++] = text_format(g->arena,
			"No mix of these materials meets all of it with %.0f "
			"in 100; the likeliest does with %.0f. Ask for less, "
			"or change a material.",
			out->chance * 100, out->best.chance * 100);
	if (out->n_crushing + out->n_bending == 0)
		s[n++] = N_(
			"No batch of this book has taught the strength yet: "
			"it rests on published relations for pastes, which "
			"differ threefold between sites. Make a trial before "
			"you believe it.");
	else if (out->best.crushing.is_beyond || out->best.bending.is_beyond)
		s[n++] = N_("This mix lies outside what the book's own batches "
			    "have tested: the strength is carried further than "
			    "it was seen.");
	if (foam->is_on && out->best.foam_fraction > foam->limit[0])
		s[n++] = work_warning_text(g->arena, foam,
			text_format(g->arena,
				"%.0f %% of this mix is foam; above %.0f %% it "
				"may sink hours after casting: cast a trial "
				"batch before you count on it.",
				out->best.foam_fraction * 100,
				foam->limit[0] * 100));
	if (light->is_on && out->best.wet_kg_m3 < light->limit[0])
		s[n++] = work_warning_text(g->arena, light,
			text_format(g->arena,
				"Under %.0f kg/m3 fresh mixes are prone to "
				"collapse.",
				light->limit[0]));
	for (size_t i = 0; i < out->n_requirement; i++)
		if (!choose_is_foreseen(out->requirement[i].measure))
			s[n++] = text_format(g->arena,
				"Not foreseen, only tested: %s.",
				arena_say(g->arena,
					choose_measure_name(
						out->requirement[i].measure)));
	if (g->search.cement_cents <= 0)
		s[n++] = N_(
			"The cement has no price and package in the book, so "
			"cheapest means nothing here.");
	s[n++] = N_(
		"This screens; the local code and a licensed engineer decide "
		"what may be built.");
	for (size_t i = 0; i < n; i++)
		if (s[i] == NULL)
			return err_memory(err);
	out->sentence = s;
	out->n_sentence = n;
	return ERR_NONE;
}

enum err_code
work_design(const struct desk *desk, struct arena *arena,
	const struct work_design_ask *ask, struct work_designed *out,
	struct err *err)
{
	struct designing g = {.desk = desk, .arena = arena, .out = out};

	*out = (struct work_designed){
		.chance = ask->chance.has ? ask->chance.value : usual_chance};
	TRY(work_mixer_read(desk, arena, &out->m, err));
	TRY(work_find_part(&out->m.site, ask->part, &out->part, err));
	TRY(gather_requirements(&g, err));
	TRY(take_materials(&g, err));
	TRY(take_foam(&g, err));
	TRY(work_results(arena, &out->m.site, &g.results, err));
	TRY(work_foresee_learn(&out->m, arena, &g.results,
		CHOOSE_CRUSHING_STRENGTH, &g.crushing, &out->n_crushing, err));
	TRY(work_foresee_learn(&out->m, arena, &g.results,
		CHOOSE_BENDING_STRENGTH, &g.bending, &out->n_bending, err));
	g.search.requirement = out->requirement;
	g.search.n_requirement = out->n_requirement;
	g.search.crushing = &g.crushing;
	g.search.bending = &g.bending;
	g.search.chance = out->chance;
	TRY(choose_design_search(
		arena, &g.search, &out->best, &out->found, err));
	TRY(choose_design_front(arena, &g.search, WORK_DESIGN_FRONT,
		&out->front, &out->n_front, err));
	return say_design(&g, err);
}
