/* compare_priv.h - the pieces that a comparison is made of.
 *
 * A comparison lays out what is to be sampled as jobs (one posterior each),
 * runs them all side by side, and then reads the answers. */
#ifndef WORK_COMPARE_PRIV_H
#define WORK_COMPARE_PRIV_H

#include "core/memo.h"
#include "work/compare.h"

#include <stdint.h>

static const size_t COMPARE_NONE = SIZE_MAX;

/* The rows of one measure, as the sampler wants them; all in the arena. */
struct compare_rows {
	enum choose_measure measure;
	size_t n, n_group, n_batch;
	double *low, *high;
	size_t *batch;       /* n */
	size_t *batch_group; /* n_batch */
	size_t *batch_site;  /* n_batch: index into site->batch */
	size_t *group_mix;   /* n_group: index into site->mix */
	size_t *mix_group;   /* site->n_mix: index of group or COMPARE_NONE */
};

/* A measure of what bends the piece, which belongs to the mix with its steel. */
bool compare_bends(enum choose_measure measure);

enum err_code compare_rows(struct arena *arena, const struct work_site *site,
	const struct work_results *results, enum choose_measure measure,
	bool with_excluded, struct compare_rows *out,
	struct err *err) MUST_CHECK;

/* The same rows less those of one batch, indices unchanged. */
enum err_code compare_rows_without(struct arena *arena,
	const struct compare_rows *rows, size_t batch, struct compare_rows *out,
	struct err *err) MUST_CHECK;

/* The same rows with each batch as a group of its own (group_mix and mix_group
 * are still those of the mixes). */
enum err_code compare_rows_by_batch(struct arena *arena,
	const struct compare_rows *rows, struct compare_rows *out,
	struct err *err) MUST_CHECK;

/* Batches, values, excluded with reasons, sharers, of the groups of rows. */
enum err_code compare_count(struct arena *arena, const struct work_site *site,
	const struct work_results *results, const struct compare_rows *rows,
	struct work_comparison *c, struct err *err) MUST_CHECK;

/* What comes of a posterior; pointers in the command's arena, or in an answer
 * that it borrows. */
struct compare_got {
	struct stats_hierarchy draws; /* without the draws unless kept */
	struct stats_mix_answer *answer;
	double *p_much; /* n_group */
	double sd_batch[3], sd_specimen[3];
	double (*slope)[3]; /* n_x */
	struct stats_predictive predictive;
	/* Indices into batch: the one that lies furthest from its mix, and
	 * that of the piece which lies furthest from its batch. */
	size_t furthest_batch, furthest_piece;
};

/* One posterior to be sampled. */
struct compare_job {
	struct compare_rows rows;
	const double *x; /* rows.n * n_x, or NULL */
	size_t n_x;
	struct stats_hierarchy_prior prior;
	size_t n_warm, n_keep;
	uint64_t seed;
	size_t baseline; /* a group; rows.n_group: the first stands for it */
	bool keep_draws;
	bool check; /* the model against the readings */
	struct compare_got got;
	struct memo_claim claim; /* its key of all above; with desk->memo */
	struct arena *own;       /* the job's, while it runs */
	struct arena *kept;      /* where what it came to is put */
};

struct compare_jobs {
	struct compare_job **job;
	size_t n, room;
};

/* compare_job_add(arena, jobs, rows, baseline, n_keep, seed, out, err):
 * *out is the job with the usual prior; the caller may change it until the jobs
 * are run. */
enum err_code compare_job_add(struct arena *arena, struct compare_jobs *jobs,
	const struct compare_rows *rows, size_t baseline, size_t n_keep,
	uint64_t seed, struct compare_job **out, struct err *err) MUST_CHECK;

/* Runs all of them, on desk->n_thread threads. */
enum err_code compare_jobs_run(const struct desk *desk, struct arena *arena,
	struct compare_jobs *jobs, struct err *err) MUST_CHECK;

/* Draws a chain of side answers. */
enum {
	COMPARE_SIDE_WARM = 150,
	COMPARE_SIDE_KEEP = 1000,
	COMPARE_LEFT_KEEP = 500
};
/* Up to so many batches each is left out in turn without being asked; asked, up
 * to so many, and so many pieces read over all of them. */
enum {
	COMPARE_LEFT_BATCHES = 40,
	COMPARE_LEFT_MOST = 200,
	COMPARE_LEFT_ROWS = 200000
};

/* One measure on its way; jobs that were not asked for are NULL. */
struct compare_measure {
	struct compare_rows rows;
	size_t baseline; /* group or rows.n_group */
	bool is_firm;    /* its firmness is worked out */
	struct compare_job *main, *put_back, *adjusted, *halved, *doubled;
	struct compare_job *own, *companion; /* batch by batch */
	struct compare_rows plain;           /* those of companion, by mix */
	struct compare_job **left;           /* n_left */
	size_t *left_batch;
	size_t n_left;
	bool left_skipped;
	size_t left_of; /* 0: all that can be were left out */
	struct work_covariate covariate[WORK_COVARIATES];
	size_t n_covariate;
	const char *learnt_from; /* name of the other book, or NULL */
};

/* The exponent of the density on its way. */
struct compare_density {
	struct compare_job *exponent; /* NULL: none */
	const double *batch; /* site->n_batch: mean dry weight, 0: none */
	bool borrowed;
};

struct comparing {
	const struct desk *desk;
	struct arena *arena;
	const struct work_compare_ask *ask;
	struct work_compared *all;
	struct compare_measure *measure;
	size_t n_measure;
	struct compare_density density;
	struct compare_jobs jobs;
};

/* compare_memo.c: compare_recall(desk, arena, wait_ms, job): takes what the job
 * came to the last time, or comes to in another thread within wait_ms; false: it
 * has to run, claimed where job->claim is held.
 * compare_remember(desk, arena, job, err): after it ran; takes over job->kept. */
bool compare_recall(const struct desk *desk, struct arena *arena,
	unsigned wait_ms, struct compare_job *job);
enum err_code compare_remember(const struct desk *desk, struct arena *arena,
	struct compare_job *job, struct err *err) MUST_CHECK;

/* compare_check.c: of a job with batch effects, what lies furthest out. */
void compare_find_furthest(struct compare_job *job);

/* A side answer's job: with the spreads' priors of the measure's main job. */
enum err_code compare_side_job(struct comparing *on, struct compare_measure *m,
	const struct compare_rows *rows, size_t baseline, size_t n_keep,
	struct compare_job **out, struct err *err) MUST_CHECK;

/* What a job says of a group beside the baseline. */
struct work_ratio compare_ratio(const struct work_compared *all,
	const struct work_comparison *c, const struct compare_job *job,
	size_t group, size_t job_group);

enum choose_verdict compare_verdict(const struct work_compared *all,
	const struct work_comparison *c, size_t group, double p_better);

/* compare_counts.c */
enum err_code compare_breakage(struct arena *arena, struct work_compared *all,
	struct err *err) MUST_CHECK;
enum err_code compare_after_crack(struct arena *arena,
	struct work_compared *all, struct err *err) MUST_CHECK;

/* compare_density.c: the exponent's job, and the ratios at equal density of the
 * strength measures once it has run. */
enum err_code compare_density_plan(
	struct comparing *on, struct err *err) MUST_CHECK;
enum err_code compare_density_read(
	struct comparing *on, struct err *err) MUST_CHECK;

/* compare_firm.c: put back, other priors, each batch left out. */
enum err_code compare_firm_plan(struct comparing *on, struct compare_measure *m,
	struct err *err) MUST_CHECK;
enum err_code compare_firm_read(struct comparing *on, struct compare_measure *m,
	struct work_comparison *c, struct err *err) MUST_CHECK;

/* compare_covariates.c: with mixing time, wet weight and temperature. */
enum err_code compare_covariates_plan(struct comparing *on,
	struct compare_measure *m, struct err *err) MUST_CHECK;
void compare_covariates_read(struct comparing *on, struct compare_measure *m,
	struct work_comparison *c);

/* compare_companions.c: reinforced pieces beside the plain ones of their own
 * batch. */
enum err_code compare_companions_plan(struct comparing *on,
	struct compare_measure *m, struct err *err) MUST_CHECK;
enum err_code compare_companions_read(struct comparing *on,
	struct compare_measure *m, struct work_comparison *c,
	struct err *err) MUST_CHECK;

/* compare_surer.c: one more batch of each mix; the noise of the plan. */
enum err_code compare_surer(struct comparing *on,
	const struct compare_measure *m, struct work_comparison *c,
	struct err *err) MUST_CHECK;

/* compare_classical.c */
enum err_code compare_classical(struct comparing *on,
	const struct compare_measure *m, struct work_comparison *c,
	struct err *err) MUST_CHECK;

/* compare_learn.c: the spreads of another book become the prior's. */
enum err_code compare_learn(struct comparing *on, struct err *err) MUST_CHECK;

/* compare_words.c: the sentences and cautions. */
enum err_code compare_words(struct comparing *on, struct err *err) MUST_CHECK;

#endif /* WORK_COMPARE_PRIV_H */
