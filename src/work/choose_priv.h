/* choose_priv.h - between the files of the choice. */
#ifndef WORK_CHOOSE_PRIV_H
#define WORK_CHOOSE_PRIV_H

#include "work/choose.h"

/* choose_what_if(arena, ask, site, err): the site as if; the book stays. */
enum err_code choose_what_if(struct arena *arena,
	const struct work_choose_ask *ask, struct work_site *site,
	struct err *err) MUST_CHECK;

/* choose_weigh(arena, ask, rng, n_draw, all, err): fills weighed and one. */
enum err_code choose_weigh(struct arena *arena,
	const struct work_choose_ask *ask, gsl_rng *rng, size_t n_draw,
	struct work_chosen *all, struct err *err) MUST_CHECK;

#endif /* WORK_CHOOSE_PRIV_H */
