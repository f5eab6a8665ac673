/* confirm_priv.h - between the files of the confirmation round. */
#ifndef WORK_CONFIRM_PRIV_H
#define WORK_CONFIRM_PRIV_H

#include "book/types.h"
#include "work/confirm.h"

struct confirm_round {
	size_t mix; /* index into site->mix */
	enum choose_measure measure;
	int64_t after_batch_id; /* batches entered later are fresh */
};

struct confirm_read {
	size_t n_batch;
	struct interval mean; /* geometric, of the means of batches */
};

/* confirm_round_of(site, row, out): false if the mix or the measure is gone. */
bool confirm_round_of(const struct work_site *site,
	const struct book_prediction *row, struct confirm_round *out);

/* confirm_fresh(arena, site, results, round, out, err): ERR_MEMORY */
enum err_code confirm_fresh(struct arena *arena, const struct work_site *site,
	const struct work_results *results, const struct confirm_round *round,
	struct confirm_read *out, struct err *err) MUST_CHECK;

#endif /* WORK_CONFIRM_PRIV_H */
