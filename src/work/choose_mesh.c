/* choose_mesh.c - what if the panels had mesh: a requirement on bending held
 * against the cracked section as well. */
#include "work/choose_priv.h"

#include "choose/section.h"
#include "core/check.h"
#include "work/part.h"

#include <math.h>
#include <string.h>

static const double quarter_pi = 0.78539816339744830962;

/* The panels' area of steel in a metre of width. */
static enum err_code
steel_area(const struct work_choose_ask *ask, double *area_m2, struct err *err)
{
	const struct check wires[] = {
		{"--mesh", "wire of the mesh", ask->mesh_wire_m.value, "m"},
		{"--mesh", "spacing of the mesh", ask->mesh_spacing_m.value,
			"m"},
	};
	const struct check area[] = {{"--mesh", "steel in a metre of panel",
		ask->mesh_area_m2.value, "m2"}};

	if (ask->mesh_area_m2.has) {
		TRY(CHECK_ALL_POSITIVE(area, err));
		*area_m2 = ask->mesh_area_m2.value;
		return ERR_NONE;
	}
	TRY(CHECK_ALL_POSITIVE(wires, err));
	if (!(ask->mesh_wire_m.value < ask->mesh_spacing_m.value))
		return err_report(err, ERR_INPUT, "--mesh",
			"Wires of %g mm cannot stand %g mm apart; the wire is "
			"thinner than its spacing.",
			1000 * ask->mesh_wire_m.value,
			1000 * ask->mesh_spacing_m.value);
	*area_m2 = quarter_pi * ask->mesh_wire_m.value *
		ask->mesh_wire_m.value / ask->mesh_spacing_m.value;
	return ERR_NONE;
}

bool
choose_asks_mesh(const struct work_choose_ask *ask)
{
	return ask->mesh_area_m2.has || ask->mesh_wire_m.has ||
		ask->mesh_spacing_m.has;
}

static bool
is_panel(const struct book_part_use *use)
{
	return strcmp(use->form, "floor-panel") == 0 ||
		strcmp(use->form, "roof-panel") == 0;
}

enum err_code
choose_mesh_of(const struct work_choose_ask *ask, const struct book_part *part,
	const struct book_part_use *use, struct work_mesh *out, struct err *err)
{
	struct work_mesh got = {.has = true};

	*out = (struct work_mesh){.has = false};
	if (!choose_asks_mesh(ask) || !is_panel(use))
		return ERR_NONE;
	TRY(steel_area(ask, &got.area_m2, err));
	if (!part->thickness_m.has)
		return err_report(err, ERR_INPUT, "--mesh",
			"Mesh in %s needs its thickness: \"foamwright part "
			"BOOK %s --thickness ...\".",
			part->code, part->code);
	got.thickness_m = part->thickness_m.value;
	got.is_usual_depth = !use->effective_m.has;
	got.effective_m = use->effective_m.has
		? use->effective_m.value
		: got.thickness_m - work_usual_cover_m;
	got.is_usual_yield = !use->yield_pa.has;
	got.yield_pa = use->yield_pa.has ? use->yield_pa.value
					 : work_usual_yield_pa;
	if (!(got.effective_m > 0 && got.effective_m < got.thickness_m))
		return err_report(err, ERR_INPUT, "--mesh",
			"The mesh would lie %g mm from the pressed face of %s, "
			"which is %g mm thick; it must lie inside "
			"(\"foamwright part BOOK %s --steel-depth ...\").",
			1000 * got.effective_m, part->code,
			1000 * got.thickness_m, part->code);
	*out = got;
	return ERR_NONE;
}

enum err_code
choose_mesh_draws(const struct work_mesh *mesh, const double *crushing,
	size_t n_draw, double wanted_pa, double *bending,
	struct work_meshed *out, struct err *err)
{
	struct choose_section s = {.width = {1},
		.depth = {mesh->thickness_m},
		.has_reinforcement = true,
		.steel = {mesh->area_m2},
		.effective = {mesh->effective_m},
		.yield = {mesh->yield_pa}};
	const double modulus_m3 = mesh->thickness_m * mesh->thickness_m / 6;
	struct choose_sectioned got;
	size_t n_whole = 0, n_bears = 0, n_carries = 0;

	for (size_t i = 0; i < n_draw; i++) {
		s.strength.Pa = bending[i];
		s.compressive.Pa = crushing[i];
		TRY(choose_section(&s, &got, err));
		n_whole += bending[i] >= wanted_pa;
		n_bears += got.ultimate.N_m >= wanted_pa * modulus_m3;
		n_carries += !got.breaks_at_crack;
		bending[i] = fmax(got.cracking.N_m, got.ultimate.N_m) /
			modulus_m3;
	}
	*out = (struct work_meshed){.has = true,
		.p_whole = (double)n_whole / (double)n_draw,
		.p_bears = (double)n_bears / (double)n_draw,
		.p_carries = (double)n_carries / (double)n_draw};
	return ERR_NONE;
}
