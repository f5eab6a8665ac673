/* choose_priv.h - between the files of the choice. */
#ifndef WORK_CHOOSE_PRIV_H
#define WORK_CHOOSE_PRIV_H

#include "work/choose.h"

/* choose_what_if(arena, ask, site, err): the site as if; the book stays. */
enum err_code choose_what_if(struct arena *arena,
	const struct work_choose_ask *ask, struct work_site *site,
	struct err *err) MUST_CHECK;

/* choose_asks_mesh(ask): was one given.
 * choose_mesh_of(ask, part, use, out, err): the mesh of a panel; has false for
 * what is none.  ERR_INPUT a size that cannot be, no thickness, mesh outside
 * choose_mesh_draws(mesh, crushing, n_draw, wanted_pa, bending, out, err): turns
 * draws of bending strength into those that a plain panel would need to be as
 * strong; with the chances for the strength that is wanted. */
bool choose_asks_mesh(const struct work_choose_ask *ask);
enum err_code choose_mesh_of(const struct work_choose_ask *ask,
	const struct book_part *part, const struct book_part_use *use,
	struct work_mesh *out, struct err *err) MUST_CHECK;
enum err_code choose_mesh_draws(const struct work_mesh *mesh,
	const double *crushing, size_t n_draw, double wanted_pa,
	double *bending, struct work_meshed *out, struct err *err) MUST_CHECK;

/* choose_weigh(desk, arena, ask, rng, n_draw, all, err): fills weighed and one
 * where something is to be weighed. */
enum err_code choose_weigh(const struct desk *desk, struct arena *arena,
	const struct work_choose_ask *ask, gsl_rng *rng, size_t n_draw,
	struct work_chosen *all, struct err *err) MUST_CHECK;

#endif /* WORK_CHOOSE_PRIV_H */
