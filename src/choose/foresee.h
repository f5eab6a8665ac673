/* foresee.h - what strength a mix will have before it is cast: a published
 * relation as the start, moved by what the own batches showed.
 *
 *     log strength = a + b log(solids) + c log(water / cement / 0.5)
 *                      + d sand + e,    a new batch being one draw of e,
 *
 * solids the volume of the hydrated solids in the fresh mix (Hoff 1972, Cement
 * and Concrete Research 2, 91-100; his 1 - n), sand the share of sand and other
 * fillers in the dry mass.  Start for crushing: strength 115 to 290 N/mm2 at
 * solids 1 and b 2.7 to 3.0 (Hoff), 3.6 (Kearsley and Wainwright 2002, same
 * journal 32, 233-239): a = log(183 N/mm2) +- 0.4, b = 3.0 +- 0.4, both
 * published values from memory.  c = 0 +- 0.5, since the water is in the solids
 * already, d = -0.7 +- 0.7, a fifth to a third of the crushing strength in
 * bending, and batches 25 % apart: stated choices, common practice, no source.
 *
 * Pure.  Method: docs/methods/foresee.md. */
#ifndef CHOOSE_FORESEE_H
#define CHOOSE_FORESEE_H

#include "mix/proportion.h"
#include "stats/conjugate.h"

enum { CHOOSE_FORESEE_COLUMNS = 4 };

/* A mix as the relation sees it. */
struct choose_makeup {
	double solids_ratio;       /* of the volume, 0 to 1 */
	double water_cement_ratio; /* with the foam's liquid left out */
	double sand_ratio;         /* of the dry mass, 0 to 1 */
};

/* choose_makeup_of(proportioned, part, n, bound_water_ratio, out): parts as
 * they went into the proportioning (any scale).  Solids: cement with the water
 * it binds, and dry grains. */
enum err_code choose_makeup_of(const struct mix_proportioned *proportioned,
	const struct mix_part *part, size_t n, double bound_water_ratio,
	struct choose_makeup *out, struct err *err) MUST_CHECK;

enum choose_foreseen { CHOOSE_FORESEEN_CRUSHING, CHOOSE_FORESEEN_BENDING };

/* One batch that was tested: strength in Pa, > 0. */
struct choose_tested {
	struct choose_makeup makeup;
	double strength_pa;
};

struct choose_foresight {
	struct stats_conjugate fit;
	size_t n_tested;
	struct choose_makeup low, high; /* of what was tested */
};

/* choose_foresee_learn(arena, kind, tested, n, out, err): n may be 0.
 * ERR_INPUT a strength or a makeup out of range; ERR_MEMORY */
enum err_code choose_foresee_learn(struct arena *arena,
	enum choose_foreseen kind, const struct choose_tested *tested, size_t n,
	struct choose_foresight *out, struct err *err) MUST_CHECK;

struct choose_strength {
	double median_pa, low_pa, high_pa; /* of the next batch, 90 in 100 */
	double log_mean, log_scale, df;    /* a shifted t on the log scale */
	bool is_beyond; /* outside what was tested, or nothing was */
};

/* choose_foresee(foresight, makeup): the next batch of such a mix. */
struct choose_strength choose_foresee(const struct choose_foresight *foresight,
	const struct choose_makeup *makeup);

/* choose_foresee_chance(strength, least_pa): that the next batch has at least
 * that. */
double choose_foresee_chance(
	const struct choose_strength *strength, double least_pa);

#endif /* CHOOSE_FORESEE_H */
