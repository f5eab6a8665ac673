/* compare.h - every mix against the baseline, with honest uncertainty.
 *
 * Method: docs/methods/compare.md. */
#ifndef WORK_COMPARE_H
#define WORK_COMPARE_H

#include "choose/types.h"
#include "core/arena.h"
#include "core/err.h"
#include "core/memo.h"
#include "stats/hierarchy.h"
#include "stats/plan_noise.h"
#include "work/desk.h"
#include "work/results.h"
#include "work/site.h"

/* The central share of every interval that is shown. */
static const double work_level = 0.90;

/* "Much stronger": by this factor. */
static const double work_much = 1.20;

/* For how many of the measures it is worked out how firm the answer is. */
enum work_firmness {
	WORK_FIRMNESS_NONE,
	WORK_FIRMNESS_FIRST,
	WORK_FIRMNESS_ALL
};

/* What is asked; all zero: every measure, at equal dry weight where it is a
 * strength, and no more. */
struct work_compare_ask {
	bool has_measure; /* that one alone */
	enum choose_measure measure;
	/* Of these, in their order, the first that two mixes have, and nothing
	 * beside its draws and its answer (no equal dry weight).  NULL: not
	 * so.  The bits are those of the whole comparison up to 2,000 pieces; above
	 * that the draws kept depend on the largest measure estimated. */
	const enum choose_measure *first_of;
	size_t n_first_of;
	enum work_firmness firmness;
	bool leave_out;         /* each batch in turn, however many there are */
	bool classical;         /* the textbook tests beside the model */
	const char *learn_from; /* path of another book, or NULL */
};

enum { WORK_REASONS = 4 };

/* Why readings were left out. */
struct work_reason {
	const char *why;
	size_t n;
};

/* A ratio to the baseline under another assumption. */
struct work_ratio {
	bool has;
	double median, low, high;
	double p_better;
	enum choose_verdict verdict;
};

/* What is estimated as one: a mix, or a matrix that several mixes share. */
struct work_group {
	size_t mix;       /* index; of a matrix, its plain mix */
	const char *with; /* codes of the mixes that share it: "W, G", or "" */
	size_t n_batch, n_value, n_excluded;
	struct work_reason reason[WORK_REASONS]; /* of the excluded */
	size_t n_reason;
	struct stats_mix_answer answer; /* with n_value > 0 */
	double p_much; /* at least work_much better than the baseline */
	enum choose_verdict verdict;
	bool has_with_excluded;
	double ratio_with_excluded; /* median, excluded readings put back */
	struct work_ratio put_back; /* the same with its interval */
	bool has_equal_density;
	double density_kg_m3; /* dry, of the pieces compared */
	double equal_median, equal_low, equal_high; /* ratio at equal density */
	double p_better_equal;
	struct work_ratio adjusted;        /* allowing for the covariates */
	struct work_ratio halved, doubled; /* the priors' spreads */
	/* Reinforced, beside plain companions of its own batches: */
	struct work_ratio own;
	enum choose_measure own_by; /* the measure of the companions */
	/* One more batch of this mix: the factor from the median to the end of
	 * the ratio's interval now and then, exp(half its width). */
	bool has_next;
	double reach_now, reach_next;
};

/* How the density's exponent was come by. */
struct work_exponent {
	bool has;
	bool borrowed; /* too few densities: the stated prior alone */
	double median, low, high;
	const char *mixes; /* codes of the mixes that differ only in foam */
};

/* One batch left out: the mix of which it is, without it. */
struct work_left_out {
	size_t batch;            /* index into site->batch */
	size_t group;            /* whose batch it is */
	struct work_ratio ratio; /* of that group; the baseline's: not had */
	size_t n_changed;        /* groups whose verdict changes */
	const char *changed;     /* "F becomes "worse"", or "" */
	double most_moved;       /* |log ratio| by which a group moved most */
	size_t most_moved_group;
};

enum { WORK_COVARIATES = 3 };

/* Something of the batches that is allowed for. */
struct work_covariate {
	const char *name;   /* "mixing time" */
	const char *step;   /* "one minute longer" */
	double least, most; /* over the compared batches, in `unit` */
	const char *unit;
	double median, low, high; /* factor on the value for one step */
};

/* A textbook test; p is NaN never: has tells whether it exists. */
struct work_test {
	bool has;
	double statistic, df1, df2, p;
	double p_error;  /* Monte Carlo; 0: exact */
	const char *why; /* why it does not exist, or "" */
};

struct work_pair_test {
	size_t a, b; /* groups; b less a */
	double ratio, low, high, p;
};

struct work_classical {
	bool has;
	size_t n_open; /* readings without an upper or lower end, taken at the
			* end they have */
	struct work_test one_way, ranks, permutation_batches,
		permutation_pieces;
	bool has_against, has_pairs;
	const char *why_not;                  /* why there are none, or "" */
	const struct work_pair_test *against; /* a: the baseline */
	const struct work_pair_test *pair;
	size_t n_against, n_pair;
};

struct work_comparison {
	enum choose_measure measure;
	struct work_group *group; /* the baseline first */
	size_t n_group;
	size_t baseline; /* index into group; n_group: it has no value */
	double sd_batch[3], sd_specimen[3]; /* median, low, high; log scale */
	bool one_batch_each; /* the spread of batches rests on the prior */
	double rhat_max, ess_min;
	double ess_mix_min;           /* the least of the mixes */
	struct stats_hierarchy draws; /* for choosing */
	struct memo_key drawn_from; /* with desk->memo: all that they rest on */
	struct stats_hierarchy_prior prior;
	const char *learnt_from; /* name of the other book, or "" */
	bool has_firmness;       /* what follows was worked out */
	struct work_covariate covariate[WORK_COVARIATES];
	size_t n_covariate;
	const struct work_left_out *left_out; /* one a batch that can be */
	size_t n_left_out;
	bool left_out_skipped; /* too many batches; ask for it */
	size_t left_out_of;    /* batches that could be left out, where not all
			     * were: those of the mixes with the fewest were */
	/* With firmness: what the model makes of its own readings.  Batches as
	 * indices into site->batch: the one furthest from its mix, and that of
	 * the piece which is furthest from its batch. */
	struct stats_predictive predictive;
	size_t furthest_batch, furthest_piece;
	/* One more batch of the baseline: by what share it narrows the ranges,
	 * on average. */
	double base_narrowing;
	bool has_plan;
	struct stats_plan_noise plan;       /* one mix work_plan_gain better */
	struct stats_plan_noise plan_equal; /* all mixes the same */
	struct work_classical classical;
	const char **sentence; /* in plain words, what to make of it */
	size_t n_sentence;
	const char **firm; /* sentences on how firm that is */
	size_t n_firm;
	const char **surer; /* sentences on what would make it surer */
	size_t n_surer;
	const char *prior_words; /* what was taken for granted */
	const char *lacks;       /* "" or what measuring more would add */
};

/* How much better the best mix is in the plan's simulation. */
static const double work_plan_gain = 1.10;

/* Breakage before the test, as counts. */
struct work_breakage {
	size_t mix, n_cast, n_broken;
	double low, high;        /* exact 95 % bounds of the rate */
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

/* work_compare_asked(desk, arena, ask, out, err):
 * Reads the book, reduces, estimates each measure that two mixes have.  The
 * same seed gives the same bits whatever desk->n_thread is.  Main answers rest
 * on desk->n_chain * desk->n_keep draws (on half of them for the further measures
 * with WORK_FIRMNESS_FIRST), side answers (put back, left out, other priors,
 * companions) on a fifth of them or less.
 * ERR_INPUT    no baseline is named, nothing was tested yet, or the measure that
 *              was asked for has not two mixes; says what to do
 * and whatever the book and the sampler report */
enum err_code work_compare_asked(const struct desk *desk, struct arena *arena,
	const struct work_compare_ask *ask, struct work_compared *out,
	struct err *err) MUST_CHECK;

/* work_compare(desk, arena, out, err): with nothing special asked. */
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
