/* cost.c - a mix in money, bags and buckets. */
#include "mix/cost.h"

#include "mix/proportion.h"

#include <math.h>

enum err_code
mix_cost_of(const struct mix_priced *material, size_t n, struct mix_cost *out,
	struct err *err)
{
	struct mix_cost cost = {0};

	for (size_t i = 0; i < n; i++) {
		const struct mix_priced *m = &material[i];

		if (!(isfinite(m->kg_per_m3) && m->kg_per_m3 > 0))
			return err_report(err, ERR_INPUT, m->name,
				"%g kg of %s in a cubic metre; it must be "
				"greater than 0.",
				m->kg_per_m3, m->name);
		if (m->cents_per_kg.has &&
			!(m->cents_per_kg.value >= 0 &&
				isfinite(m->cents_per_kg.value)))
			return err_report(err, ERR_INPUT, m->name,
				"The price of %s is %g a kg; it must be 0 or "
				"more.",
				m->name, m->cents_per_kg.value / 100);
		if (m->cents_per_kg.has)
			cost.cents_per_m3 += m->kg_per_m3 *
				m->cents_per_kg.value;
		else
			cost.n_unpriced++;
		if (m->kgco2_per_kg.has && isfinite(m->kgco2_per_kg.value))
			cost.kgco2_per_m3 += m->kg_per_m3 *
				m->kgco2_per_kg.value;
		else
			cost.n_unstated++;
	}
	*out = cost;
	return ERR_NONE;
}

static enum err_code
no_cement(struct err *err)
{
	return err_report(err, ERR_INPUT, "parts",
		"There is no cement in this mix; bags and buckets are counted "
		"from it.");
}

/* What a cubic metre of the part weighs in the bucket; NAN if not known. */
static double
bucket_density(const struct mix_part *part)
{
	if (part->has_bulk_density)
		return part->bulk_density.kg_m3;
	if (part->role != MIX_WATER && part->role != MIX_ADMIXTURE)
		return (double)NAN;
	return part->has_particle_density ? part->particle_density.kg_m3
					  : mix_water_kg_m3;
}

enum err_code
mix_by_bucket(struct arena *arena, const struct mix_part *part, size_t n,
	const struct mass *per_m3, const double **out, struct err *err)
{
	size_t cement = mix_first_cement(part, n);
	double *share, cement_m3;

	if (cement == n)
		return no_cement(err);
	cement_m3 = per_m3[cement].kg / bucket_density(&part[cement]);
	if (!isfinite(cement_m3) || cement_m3 <= 0)
		return err_report(err, ERR_INPUT, "bulk_density",
			"%s has no bulk density: weigh a bucket of known "
			"volume filled with it.",
			part[cement].name);
	share = arena_take(arena, n, sizeof *share);
	if (share == NULL)
		return err_memory(err);
	for (size_t i = 0; i < n; i++)
		share[i] = per_m3[i].kg / bucket_density(&part[i]) / cement_m3;
	*out = share;
	return ERR_NONE;
}

enum err_code
mix_per_bag(const struct mix_part *part, size_t n, const struct mass *per_m3,
	struct mass bag, struct volume *out, struct err *err)
{
	size_t cement = mix_first_cement(part, n);

	if (cement == n)
		return no_cement(err);
	if (!(isfinite(bag.kg) && bag.kg > 0))
		return err_report(err, ERR_INPUT, "bag",
			"The bag of %s has no size; give what it weighs.",
			part[cement].name);
	out->m3 = bag.kg / per_m3[cement].kg;
	return ERR_NONE;
}
