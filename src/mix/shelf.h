/* shelf.h - typical values of common materials, to start from until the own
 * ones are weighed.
 *
 * Pure.  Each value is typical and says where it comes from; none is a fact
 * about the bag that stands in the shed. */
#ifndef MIX_SHELF_H
#define MIX_SHELF_H

#include "core/qty.h"

#include <stddef.h>

struct mix_shelf_item {
	const char *name; /* "cement" */
	const char *role; /* a role of the book: "cement", "agent", ... */
	const char *what; /* in words */
	struct maybe particle_density_kg_m3, bulk_density_kg_m3;
	struct maybe absorption_ratio;
	struct maybe carbon_ratio;   /* kg of CO2 per kg */
	struct maybe dilution_ratio; /* of an agent */
	const char *source;
};

/* mix_shelf(n): the items, *n of them. */
const struct mix_shelf_item *mix_shelf(size_t *n);

/* mix_shelf_find(name): NULL if there is none of that name. */
const struct mix_shelf_item *mix_shelf_find(const char *name);

#endif /* MIX_SHELF_H */
