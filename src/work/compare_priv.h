/* compare_priv.h - the pieces that a comparison is made of. */
#ifndef WORK_COMPARE_PRIV_H
#define WORK_COMPARE_PRIV_H

#include "work/compare.h"

#include <stdint.h>

static const size_t COMPARE_NONE = SIZE_MAX;

/* The rows of one measure, as the sampler wants them; all in the arena. */
struct compare_rows {
	size_t n, n_group, n_batch;
	double *low, *high;
	size_t *batch;       /* n */
	size_t *batch_group; /* n_batch */
	size_t *batch_site;  /* n_batch: index into site->batch */
	size_t *group_mix;   /* n_group: index into site->mix */
	size_t *mix_group;   /* site->n_mix: index of group or COMPARE_NONE */
};

enum err_code compare_rows(struct arena *arena, const struct work_site *site,
	const struct work_results *results, enum choose_measure measure,
	bool with_excluded, struct compare_rows *out,
	struct err *err) MUST_CHECK;

enum err_code compare_sample(const struct desk *desk, struct arena *arena,
	const struct compare_rows *rows, size_t n_keep,
	struct stats_hierarchy *draws, struct stats_hierarchy_prior *prior,
	struct err *err) MUST_CHECK;

/* compare_equal_density(desk, arena, all, err): fills the exponent and the
 * ratios at equal density of the strength measures. */
enum err_code compare_equal_density(const struct desk *desk,
	struct arena *arena, struct work_compared *all,
	struct err *err) MUST_CHECK;

/* compare_words(arena, all, err): the sentences and cautions. */
enum err_code compare_words(struct arena *arena, struct work_compared *all,
	struct err *err) MUST_CHECK;

#endif /* WORK_COMPARE_PRIV_H */
