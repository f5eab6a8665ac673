/* results_priv.h - what the reducers of readings share: each gives its results
 * to the list, or a sentence why it could not. */
#ifndef WORK_RESULTS_PRIV_H
#define WORK_RESULTS_PRIV_H

#include "lab/density.h"
#include "work/instruments.h"
#include "work/results.h"

struct reducer {
	struct arena *arena;
	const struct work_site *site;
	const struct choose_validity *validity;
	struct work_result *result;
	size_t n_result;
	const char **fault;
	size_t n_fault;
};

/* results_add(r, measure, batch, value), results_add_piece(r, measure, reading,
 * specimen, value): a result at the end of the list; reading NULL: none. */
struct work_result *results_add(struct reducer *r, enum choose_measure measure,
	size_t batch, struct interval value);
struct work_result *results_add_piece(struct reducer *r,
	enum choose_measure measure, const struct book_reading *reading,
	size_t specimen, struct interval value);

/* results_fault(r, specimen, kind, err): "01-B-1, bending: the sentence" */
void results_fault(struct reducer *r, const struct book_specimen *specimen,
	const char *kind, const struct err *err);

/* results_tests(r, err): moisture apart, every kind of reading whose results are
 * not in results.c: soaking, rise, shrinkage, screws, frost, the hot box. */
enum err_code results_tests(struct reducer *r, struct err *err) MUST_CHECK;

/* results_exclude_unlike(r, err): of a measure taken in different ways (how long
 * in water, what screw, how many cycles) only the commonest way counts; the
 * others keep their results, with the reason. */
enum err_code results_exclude_unlike(
	struct reducer *r, struct err *err) MUST_CHECK;

#endif /* WORK_RESULTS_PRIV_H */
