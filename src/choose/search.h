/* search.h - the cheapest mix that meets what a part asks, with a stated chance,
 * and what a lighter or heavier one would give.
 *
 * Pure.  Over wet density, water/cement and sand/cement: a grid finds the
 * region, then COBYLA goes to the edge of it (Powell 1994, in Advances in
 * Optimization and Numerical Analysis, 51-67; NLopt).  Strength by foresee.h,
 * heat by conductivity.h, weight and money by proportioning. */
#ifndef CHOOSE_SEARCH_H
#define CHOOSE_SEARCH_H

#include "choose/foresee.h"
#include "choose/types.h"

/* Starting values of what is looked among; common practice, no source. */
static const double choose_wet_least_kg_m3 = 400, choose_wet_most_kg_m3 = 1600;
static const double choose_water_least = 0.42, choose_water_most = 0.65;
static const double choose_sand_most = 2.0;
static const double choose_foam_most_ratio = 0.75;
/* How far a batch's weight is off its plan, on the log scale. */
static const double choose_weight_sd = 0.02;

struct choose_search {
	struct mix_part cement, water,
		sand; /* their densities; masses unused */
	bool has_sand;
	double cement_cents, water_cents, sand_cents; /* a kg */
	double agent_cents; /* for a kg of the foam's liquid */
	struct density foam;
	double foam_survival_ratio, bound_water_ratio;
	const struct choose_requirement *requirement;
	size_t n_requirement;
	const struct choose_foresight *crushing, *bending;
	double chance; /* wanted, of meeting all that can be foreseen */
};

struct choose_design {
	double wet_kg_m3, water_cement_ratio, sand_cement_ratio;
	double foam_fraction, oven_dry_kg_m3, foam_m3_per_m3;
	struct mass cement, water, sand; /* in 1 m3 */
	struct choose_strength crushing, bending;
	double conductivity;
	double cents_per_m3;
	double chance;  /* of all that can be foreseen */
	bool is_beaten; /* in a front: another is no worse in anything */
};

/* choose_is_foreseen(measure): whether a requirement enters the chance. */
bool choose_is_foreseen(enum choose_measure measure);

/* choose_design_at(arena, search, wet, water_cement, sand_cement, out, err):
 * ERR_INPUT such a mix cannot be made */
enum err_code choose_design_at(struct arena *arena,
	const struct choose_search *search, double wet_kg_m3,
	double water_cement_ratio, double sand_cement_ratio,
	struct choose_design *out, struct err *err) MUST_CHECK;

/* choose_design_search(arena, search, out, found, err): the cheapest design
 * with the wanted chance; *found false: none has it, and out is the one with
 * the greatest chance.  ERR_INPUT, ERR_MEMORY, ERR_NUMERIC */
enum err_code choose_design_search(struct arena *arena,
	const struct choose_search *search, struct choose_design *out,
	bool *found, struct err *err) MUST_CHECK;

/* choose_design_front(arena, search, n, out, n_out, err): at n wet densities
 * (2 or more) over the range the cheapest design with the wanted chance, or the
 * likeliest where none has it; those that cannot be made are left out. */
enum err_code choose_design_front(struct arena *arena,
	const struct choose_search *search, size_t n,
	const struct choose_design **out, size_t *n_out,
	struct err *err) MUST_CHECK;

#endif /* CHOOSE_SEARCH_H */
