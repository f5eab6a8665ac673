/* compare.h - every mix against the baseline, with honest uncertainty. */
#ifndef WORK_COMPARE_H
#define WORK_COMPARE_H

#include "choose/types.h"
#include "core/arena.h"
#include "core/err.h"
#include "stats/hierarchy.h"
#include "work/desk.h"
#include "work/results.h"
#include "work/site.h"

/* The central share of every interval that is shown. */
static const double work_level = 0.90;

/* What is estimated as one: a mix, or a matrix that several mixes share. */
struct work_group {
	size_t mix;       /* index; of a matrix, its plain mix */
	const char *with; /* codes of the mixes that share it: "W, G", or "" */
	size_t n_batch, n_value, n_excluded;
	struct stats_mix_answer answer; /* with n_value > 0 */
	enum choose_verdict verdict;
	bool has_with_excluded;
	double ratio_with_excluded; /* median, excluded readings put back */
	bool has_equal_density;
	double density_kg_m3;       /* dry, of the pieces compared */
	double equal_median, equal_low, equal_high; /* ratio at equal density */
	double p_better_equal;
};

/* How the density's exponent was come by. */
struct work_exponent {
	bool has;
	bool borrowed; /* too few densities: the stated prior alone */
	double median, low, high;
	const char *mixes; /* codes of the mixes that differ only in foam */
};

struct work_comparison {
	enum choose_measure measure;
	struct work_group *group; /* the baseline first */
	size_t n_group;
	size_t baseline;     /* index into group; n_group: it has no value */
	double sd_batch[3], sd_specimen[3]; /* median, low, high; log scale */
	bool one_batch_each; /* the spread of batches rests on the prior */
	double rhat_max, ess_min;
	struct stats_hierarchy draws; /* for choosing */
	struct stats_hierarchy_prior prior;
	const char **sentence; /* in plain words, what to make of it */
	size_t n_sentence;
	const char *lacks; /* "" or what measuring more would add */
};

/* Breakage before the test, as counts. */
struct work_breakage {
	size_t mix, n_cast, n_broken;
	double low, high;       /* exact 95 % bounds of the rate */
	double p_more_by_chance; /* one-sided, against all other mixes */
};

/* What a reinforced or fibred mix still held after its first crack. */
struct work_after_crack {
	size_t mix, n;
	double least_kg, most_kg; /* least and most held, hanger included */
	bool most_open;           /* some ran out of weights */
	double least_ratio, most_ratio; /* to the load of the first crack */
};

struct work_compared {
	struct work_site site;
	struct work_results results;
	struct work_comparison *comparison;
	size_t n_comparison;
	struct work_exponent exponent;
	const struct work_breakage *breakage; /* one a mix */
	const struct work_after_crack *after;
	size_t n_after;
	const char **caution;
	size_t n_caution;
};

/* work_compare(desk, arena, out, err):
 * Reads the book, reduces, estimates each measure that two mixes have.
 * ERR_INPUT    no baseline is named, or nothing was tested yet; says what to do
 * and whatever the book and the sampler report */
enum err_code work_compare(const struct desk *desk, struct arena *arena,
	struct work_compared *out, struct err *err) MUST_CHECK;

/* work_comparison_of(compared, measure): NULL if it has none. */
const struct work_comparison *work_comparison_of(
	const struct work_compared *compared, enum choose_measure measure);

/* work_group_of(compared, comparison, mix): the group that speaks for the mix;
 * NULL if it has no value. */
const struct work_group *work_group_of(const struct work_compared *compared,
	const struct work_comparison *comparison, size_t mix);

#endif /* WORK_COMPARE_H */
