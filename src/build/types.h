/* types.h - what a part of the building takes of a mix.
 *
 * Pure. */
#ifndef BUILD_TYPES_H
#define BUILD_TYPES_H

#include "core/qty.h"

#include <stdbool.h>
#include <stddef.h>

/* A part of the building: a volume as such, or length x height x thickness
 * less openings x thickness. */
struct build_part {
	const char *code; /* borrowed */
	struct maybe length_m, height_m, thickness_m, openings_m2;
	struct maybe volume_m3;
	struct maybe waste_ratio; /* spilled and left over; 0 if missing */
	struct maybe batch_m3;    /* size of a batch in the building */
};

/* One material of the mix that the part is made of. */
struct build_material {
	const char *name; /* borrowed */
	double kg_per_m3; /* of finished mix */
	struct maybe package_kg;
	bool has_price;
	double price_cents; /* a package */
};

struct build_line {
	const char *name;
	double kg_per_m3; /* of finished mix */
	double mass_kg;
	bool has_package;
	double n_package;    /* whole */
	double left_over_kg; /* in the last package */
	bool has_money;
	double money_cents; /* of the whole packages; without packages none */
};

struct build_taken {
	double net_m3;   /* as it stands in the building */
	double mixed_m3; /* with settling and waste, to be mixed */
	bool has_batches;
	double n_batch;          /* whole */
	double foam_m3;          /* as generated */
	struct build_line *line; /* one a material */
	size_t n_line;
	double money_cents; /* of what has a price */
	bool all_priced;
};

#endif /* BUILD_TYPES_H */
