/* cost.h - money and carbon of a mix, and the shapes in which people measure
 * it out: by the cubic metre, by one bag, by the bucket, by the drum.
 *
 * Pure.  Derived. */
#ifndef MIX_COST_H
#define MIX_COST_H

#include "mix/types.h"

#include "core/arena.h"
#include "core/err.h"

/* One material of a mix.  Carbon factors are stated by whoever gives them. */
struct mix_priced {
	const char *name;
	double kg_per_m3;          /* > 0 */
	struct maybe cents_per_kg; /* >= 0 */
	struct maybe kgco2_per_kg; /* emitted to make it; may be below 0 */
};

struct mix_cost {
	double cents_per_m3, kgco2_per_m3; /* of what is known */
	size_t n_unpriced, n_unstated;     /* materials without either */
};

/* mix_cost_of(material, n, out, err): ERR_INPUT a value is out of range */
enum err_code mix_cost_of(const struct mix_priced *material, size_t n,
	struct mix_cost *out, struct err *err) MUST_CHECK;

/* mix_by_bucket(arena, part, n, per_m3, out, err):
 * Loose volumes of the parts relative to that of the first cement, n values:
 * "1 : 1.5 : 0.45".  A part without a bulk density (nor role water or
 * admixture) gets NAN: it has to be weighed.
 * ERR_INPUT  no cement, or the cement has no bulk density; ERR_MEMORY */
enum err_code mix_by_bucket(struct arena *arena, const struct mix_part *part,
	size_t n, const struct mass *per_m3, const double **out,
	struct err *err) MUST_CHECK;

/* mix_per_bag(part, n, per_m3, bag, out, err): the volume of finished mix that
 * one bag of the first cement makes.
 * ERR_INPUT  no cement, or the bag has no size */
enum err_code mix_per_bag(const struct mix_part *part, size_t n,
	const struct mass *per_m3, struct mass bag, struct volume *out,
	struct err *err) MUST_CHECK;

#endif /* MIX_COST_H */
