/* foam.h - mixer and scale, foam generators, and their checks through the day.
 */
#ifndef WORK_FOAM_H
#define WORK_FOAM_H

#include "mix/generator.h"
#include "mix/metering.h"
#include "work/mixer.h"

/* Missing values stay as they are in the book. */
struct work_gear_ask {
	struct maybe mixer_m3, scale_step_kg, spare_ratio;
	const char *typed;
};

struct work_generator_ask {
	const char *code, *metering, *note;
	struct maybe target_kg_m3, vessel_m3, vessel_kg, scale_step_kg;
	struct maybe vessel_full_kg; /* of water: finds vessel_m3 */
	struct maybe water_degc;     /* of that water; 20 if missing */
	struct maybe dilution_ratio, rate_m3_s;
	const char *typed;
};

struct work_foam_ask {
	const char *generator, *batch; /* batch NULL: between batches */
	const char *moment;            /* NULL: start */
	const char *read_on, *remark;
	struct maybe gross_kg, fill_s;
	const char *typed;
};

/* One check as it is told. */
struct work_foam_told {
	const struct book_generator *generator;
	double density_kg_m3, standard_uncertainty_kg_m3;
	double off_ratio; /* of the target */
	bool has_rate;
	double rate_m3_s;
	bool has_drift; /* against the first check of the same batch */
	double drift_ratio;
	const char *verdict;  /* "ok", "adjust", "stop" */
	const char *sentence; /* what to do, and what it does to a batch */
};

/* work_gear(m): mixer and scale; NULL if nothing was entered. */
const struct book_gear *work_gear(const struct work_mixer *m);

enum err_code work_gear_put(const struct desk *desk, struct arena *arena,
	const struct work_gear_ask *ask, struct err *err) MUST_CHECK;

/* work_generator_put: ERR_INPUT what a new one lacks. */
enum err_code work_generator_put(const struct desk *desk, struct arena *arena,
	const struct work_generator_ask *ask, bool *made,
	struct err *err) MUST_CHECK;

/* work_foam_put(desk, arena, ask, told, err): records a check, and tells. */
enum err_code work_foam_put(const struct desk *desk, struct arena *arena,
	const struct work_foam_ask *ask, struct work_foam_told *told,
	struct err *err) MUST_CHECK;

/* work_foam_tell(arena, m, check, told, err): what a check of the book (an index
 * into m->foam_check) was told with. */
enum err_code work_foam_tell(struct arena *arena, const struct work_mixer *m,
	size_t check, struct work_foam_told *told, struct err *err) MUST_CHECK;

/* work_foam_weigh(generator, check, out, err): a check as a density. */
enum err_code work_foam_weigh(const struct book_generator *generator,
	const struct book_foam_check *check, struct mix_weighed *out,
	struct err *err) MUST_CHECK;

/* work_foam_now(m, generator, density, checked): the foam as last weighed, or
 * its target (*checked false). */
enum err_code work_foam_now(const struct work_mixer *m, size_t generator,
	struct density *density, bool *checked, struct err *err) MUST_CHECK;

#endif /* WORK_FOAM_H */
