/* calc_hierarchy_priv.h - the rows of "hierarchy" as the sampler takes them. */
#ifndef WORK_CALC_HIERARCHY_PRIV_H
#define WORK_CALC_HIERARCHY_PRIV_H

#include "work/calc_priv.h"

#include "stats/hierarchy.h"

struct hierarchy_table {
	const struct calc_in *row;
	const char **mix, **batch; /* names, in the order they are met */
	struct stats_hierarchy_ask ask;
	double *low, *high, *x;
	size_t *row_batch, *batch_mix;
	const char **covariate; /* of the first row */
	size_t n_covariate;
	bool has_age;    /* the last column of x is log(age / to_age) */
	double to_age_s; /* in: the age that means are brought to */
};

/* Reads the array of rows under `key`; with_columns: ages and covariates too
 * (else they are refused). */
enum err_code calc_hierarchy_rows(const struct calc_in *in, const char *key,
	bool with_columns, struct hierarchy_table *t,
	struct err *err) MUST_CHECK;

#endif /* WORK_CALC_HIERARCHY_PRIV_H */
