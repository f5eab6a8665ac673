/* measured.h - moisture, soaking, water drawn up, drying, shortening, screws,
 * frost and the hot box recorded: what was read, checked, and what it comes to.
 */
#ifndef WORK_MEASURED_H
#define WORK_MEASURED_H

#include "work/home_test.h"

/* What was read, whatever the kind; SI.  Steps: what the instrument is read to.
 */
struct work_measured_ask {
	const char *piece, *on, *remark, *typed;
	const char *kind; /* as in struct book_reading */
	const char *code; /* NULL: by the time, the cycles, the next number */
	struct maybe mass_kg, dry_kg, mass_step_kg; /* water, drying */
	struct maybe after_s;                       /* in the water */
	struct maybe height_m, height_step_m, face_m2;
	struct maybe wanted_ratio;           /* drying */
	struct maybe length_m, step_m, degc; /* shrinkage */
	struct maybe held_n, broke_n, force_step_n, diameter_m, depth_m;
	struct maybe cycles, before_kg, after_kg; /* frost */
	struct maybe before_m, after_m, length_step_m;
	struct maybe power_w, leak_w, area_m2, thickness_m; /* hot box */
	struct maybe warm_degc, cold_degc, power_step_w, temperature_step_k;
};

/* work_is_measured(kind): one of the kinds above. */
bool work_is_measured(const char *kind);

/* work_measured_reading(ask, out, err): the reading as the book keeps it; code,
 * age and specimen are left to the caller.
 * ERR_INPUT  a figure is missing, below its range, or against another: dry
 *            above wet, came out below what held, more lost than the heater
 *            gives, the warm face the colder; err->field is the option */
enum err_code work_measured_reading(const struct work_measured_ask *ask,
	struct book_reading *out, struct err *err) MUST_CHECK;

/* work_measured_fits(piece, reading, err): the reading against the sizes of the
 * piece: a thread, a wet edge, studs within it; a slab of known size.
 * ERR_INPUT  err->field is the option */
enum err_code work_measured_fits(const struct book_specimen *piece,
	const struct book_reading *reading, struct err *err) MUST_CHECK;

/* work_measured_put(desk, arena, ask, out, err): records it and tells.  A second
 * reading of the same kind and code corrects the first.  Screws, frost and the
 * hot box call the piece tested; water, drying and shortening leave it as it
 * is.
 * ERR_INPUT  as above, and against the piece: lighter than dry, a thread deeper
 *            or a wet edge higher than the piece, studs further apart than it
 *            is long or a tenth off the first, no face, no size for the box;
 *            errors as work_test_put */
enum err_code work_measured_put(const struct desk *desk, struct arena *arena,
	const struct work_measured_ask *ask, struct work_test_told *out,
	struct err *err) MUST_CHECK;

#endif /* WORK_MEASURED_H */
