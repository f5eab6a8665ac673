/* material.h - materials entered and corrected, each figure with where it comes
 * from. */
#ifndef WORK_MATERIAL_H
#define WORK_MATERIAL_H

#include "mix/shelf.h"
#include "work/mixer.h"

/* What is to be entered; a text that is NULL and a value that is missing stay
 * as they are in the book. */
struct work_material_ask {
	const char *code;
	const char *from; /* an item of the shelf to start from */
	const char *name, *role, *note;
	struct maybe particle_density_kg_m3, bulk_density_kg_m3;
	struct maybe moisture_ratio, absorption_ratio, hardness_kg_m3;
	struct maybe package_kg, price, carbon_ratio, dilution_ratio;
	const char *basis;  /* of the figures given: "stated", "weighed" */
	const char *source; /* of the figures given */
	const char *lot, *bought_on;
	const char *typed;
};

/* work_material_put(desk, arena, ask, material, made, err):
 * Enters the material or its next revision in one write; *made says which.
 * ERR_INPUT, ERR_NOT_FOUND (no such item on the shelf) */
enum err_code work_material_put(const struct desk *desk, struct arena *arena,
	const struct work_material_ask *ask, struct book_material *material,
	bool *made, struct err *err) MUST_CHECK;

/* work_material_basis(m, material, figure): where the figure comes from, or
 * NULL. */
const struct book_material_basis *work_material_basis(
	const struct work_mixer *m, size_t material, const char *figure);

#endif /* WORK_MATERIAL_H */
