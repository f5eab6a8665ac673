/* results.h - engineering quantities computed from readings, on demand.
 *
 * Each is an interval where the reading was one.  A piece or batch that a rule
 * excludes keeps its result, with the reason. */
#ifndef WORK_RESULTS_H
#define WORK_RESULTS_H

#include "choose/types.h"
#include "choose/validity.h"
#include "core/arena.h"
#include "core/err.h"
#include "core/qty.h"
#include "work/site.h"

struct work_result {
	enum choose_measure measure;
	bool has_specimen;
	size_t specimen; /* index into site->specimen; else of the batch alone */
	size_t batch, mix;     /* indices */
	const char *place;     /* "", "centre", "edge", "corner" */
	struct interval value; /* SI of the measure */
	struct maybe age_s;
	bool has_reading;
	size_t reading;       /* index into site->reading */
	struct maybe u_ratio; /* relative standard uncertainty of reading the
	                         instruments; the step is the interval */
	double dry_kg;        /* oven-dry mass behind a density; 0: none */
	const struct book_reading *moisture; /* behind a density; NULL: none */
	const char *like; /* the way it was taken, "24 h in water", or "": only
	                     results of the commonest way are compared */
	size_t n_series;  /* readings behind it, where it takes several */
	double slope;     /* of water drawn up, kg/(m2 s^0.5); else 0 */
	struct maybe first_m, grew_colder_K; /* of a bar: its first length, and
	                                        how much colder it is now */
	struct maybe shear_Pa; /* of a screw: over the cylinder of its thread */
	bool in_itself;    /* the reading, since the rig is only partly known */
	const char *lacks; /* what measuring more would add, or "" */
	bool excluded;
	const char *why; /* the reason, or "" */
};

/* What became of the pieces of one mix. */
struct work_fates {
	size_t n_cast, n_tested, n_waiting, n_snapped, n_accident, n_not_filled,
		n_set_aside;
	size_t n_at_risk; /* cast, less accidents and moulds not filled */
};

struct work_results {
	const struct work_result *result;
	size_t n_result;
	const struct choose_validity *validity; /* one a batch */
	const struct work_fates *fates;         /* one a mix, practice apart */
	const struct work_fates *beam_fates;    /* the same, beams alone */
	const char *const *fault; /* readings that could not be reduced, why */
	size_t n_fault;
};

/* work_results(arena, site, out, err): ERR_MEMORY.  A reading that cannot be
 * reduced is listed in fault and stops nothing. */
enum err_code work_results(struct arena *arena, const struct work_site *site,
	struct work_results *out, struct err *err) MUST_CHECK;

#endif /* WORK_RESULTS_H */
