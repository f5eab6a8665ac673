/* takeoff.h - what the parts of the building take: volumes, batches, whole
 * packages, foam, mesh, money, masses, carbon. */
#ifndef WORK_TAKEOFF_H
#define WORK_TAKEOFF_H

#include "build/purchase.h"
#include "build/types.h"
#include "work/mixer.h"

struct work_pair {
	const char *name, *value;
};

struct work_takeoff_ask {
	const char *const *part; /* codes; none: every part with a mix */
	size_t n_part;
	const struct work_pair *mix; /* part to mix, before the decisions */
	size_t n_mix;
	struct maybe waste_ratio, batch_m3; /* where the part says nothing */
	const char *const *mesh;            /* parts with mesh */
	size_t n_mesh;
	struct maybe mesh_width_m, mesh_length_m, mesh_lap_m, mesh_layers;
};

struct work_part_taken {
	size_t part, mix; /* indices into the site */
	bool decided;     /* by a decision, not by the words of the command */
	struct build_part sizes;
	double settling_ratio;
	size_t n_settling; /* batches behind it */
	double survival_ratio;
	size_t n_survival;
	struct build_taken taken;
	const size_t *material;          /* n_line: index into the site */
	const struct build_share *share; /* n_line: whole packages of it; all 0
	                                    where it is sold loose */
	double wet_kg_m3;
	bool has_mesh;
	double n_mesh, mesh_m2;
	double lifted_kg; /* fresh mix carried to the forms */
};

/* One material over all parts. */
struct work_bought {
	size_t material;
	double mass_kg, n_package, left_over_kg, money_cents, carbon_kg;
	bool has_package, has_money, has_carbon;
};

struct work_takeoff {
	struct work_mixer m;
	const struct work_part_taken *part;
	size_t n_part;
	const struct work_bought *bought;
	size_t n_bought;
	double money_cents, carbon_kg, delivered_kg, lifted_kg, foam_m3,
		foam_water_kg;
	bool all_priced, all_carbon;
};

/* work_takeoff(desk, arena, ask, out, err): nothing is written.
 * ERR_NOT_FOUND a part or mix; ERR_INPUT no mix is decided for a part, its mix
 * was never made and tested, sizes as build_takeoff */
enum err_code work_takeoff(const struct desk *desk, struct arena *arena,
	const struct work_takeoff_ask *ask, struct work_takeoff *out,
	struct err *err) MUST_CHECK;

#endif /* WORK_TAKEOFF_H */
