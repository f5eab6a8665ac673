/* part.h - parts of the building entered and corrected: sizes, what bears on
 * them, what covers them, what they must do. */
#ifndef WORK_PART_H
#define WORK_PART_H

#include "choose/types.h"
#include "core/unit.h"
#include "work/desk.h"
#include "work/site.h"
#include "work/usual.h"

enum { WORK_PART_ROWS = 24 };

/* What is to be entered; a text that is NULL and a value that is missing stay
 * as they are in the book. */
struct work_part_ask {
	const char *code, *name, *form, *note, *source;
	struct maybe length_m, height_m, thickness_m, openings_m2, volume_m3;
	struct maybe waste_ratio, batch_m3;
	struct book_part_use use; /* its values alone; grip NULL: as it is */
	struct work_bound bound[WORK_PART_ROWS];
	size_t n_bound;
	struct book_part_layer layer[WORK_PART_ROWS];
	size_t n_layer;
	const char *drop[WORK_PART_ROWS]; /* measures no longer asked */
	size_t n_drop;
	bool usual; /* the usual requirements of its kind too */
	const char *typed;
};

/* The parts with what bears on them. */
struct work_parts {
	struct work_site site; /* of the plan alone */
	const struct book_part_use *use;
	const struct book_part_layer *layer;
	const struct book_prediction *prediction;
	size_t n_use, n_layer, n_prediction;
};

/* work_parts_read(desk, arena, out, err): parts, uses, layers. */
enum err_code work_parts_read(const struct desk *desk, struct arena *arena,
	struct work_parts *out, struct err *err) MUST_CHECK;

/* work_part_use(parts, part): what bears on the part; where nothing was entered
 * its kind alone. */
struct book_part_use work_part_use(
	const struct work_parts *parts, const struct book_part *part);

/* work_find_part(site, code, index, err): ERR_NOT_FOUND names what there is. */
enum err_code work_find_part(const struct work_site *site, const char *code,
	size_t *index, struct err *err) MUST_CHECK;

/* work_part_put(desk, arena, ask, made, err):
 * Enters the part or its next revision, its bounds and layers, in one write.
 * ERR_INPUT  no kind, an unknown kind or measure, a size of zero, more opening
 *            than wall, a measure to drop that is not asked; nothing is changed
 */
enum err_code work_part_put(const struct desk *desk, struct arena *arena,
	const struct work_part_ask *ask, bool *made,
	struct err *err) MUST_CHECK;

#endif /* WORK_PART_H */
