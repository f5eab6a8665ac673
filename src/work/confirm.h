/* confirm.h - the confirmation round: fresh batches of the chosen mix and of
 * the baseline, what they should read written down before they are made. */
#ifndef WORK_CONFIRM_H
#define WORK_CONFIRM_H

#include "choose/confirm.h"
#include "work/compare.h"

enum { WORK_CONFIRM_LEAST = 2, WORK_CONFIRM_MOST = 50 };

struct work_confirm {
	const char *part;
	const char *mix; /* NULL: the one that is decided for the part */
	size_t n_batch;  /* fresh ones of each, WORK_CONFIRM_LEAST or more */
};

/* One prediction and what became of it. */
struct work_confirmation {
	const char *part, *mix; /* codes */
	bool is_baseline;
	enum choose_measure measure;
	size_t n_batch, n_tested; /* fresh: wanted, read so far */
	bool is_done;             /* n_tested reached n_batch */
	struct choose_foretold foretold;
	struct interval mean;          /* with is_done: of the fresh ones */
	enum choose_confirmed verdict; /* with is_done */
};

/* work_confirm_begin(desk, arena, ask, n, err): writes the predictions, one a
 * mix and measure that was estimated; *n of them.
 * ERR_NOT_FOUND no such part or mix
 * ERR_INPUT     too few or too many batches, no mix is decided, the mix was not
 *               tested; ERR_CONFLICT the round of that mix for the part was
 *               begun already */
enum err_code work_confirm_begin(const struct desk *desk, struct arena *arena,
	const struct work_confirm *ask, size_t *n, struct err *err) MUST_CHECK;

/* work_confirmations(desk, arena, row, n, err): all of them.  Whoever shows them
 * keeps the range of one that is not done to himself: nobody reads to it. */
enum err_code work_confirmations(const struct desk *desk, struct arena *arena,
	const struct work_confirmation **row, size_t *n,
	struct err *err) MUST_CHECK;

/* work_confirmed(book, arena, site, results, err): where the round of a mix is
 * done in a measure, its earlier readings of it are marked as left out, so that
 * the confirmed figure stands alone in all that follows.  The baseline keeps
 * all its batches: nobody chose it for its figure. */
enum err_code work_confirmed(struct book *book, struct arena *arena,
	const struct work_site *site, struct work_results *results,
	struct err *err) MUST_CHECK;

#endif /* WORK_CONFIRM_H */
