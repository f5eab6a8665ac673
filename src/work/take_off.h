/* take_off.h - what a part of the building takes of one mix. */
#ifndef WORK_TAKE_OFF_H
#define WORK_TAKE_OFF_H

#include "build/types.h"
#include "work/compare.h"

/* work_take_off(arena, all, part, mix, out, err):
 * part and mix are indices into all->site.  What settles is filled up: by the
 * middle of the estimated settling of the mix, nothing where it was not read.
 * ERR_INPUT the part has neither a volume nor three sizes; ERR_MEMORY */
enum err_code work_take_off(struct arena *arena,
	const struct work_compared *all, size_t part, size_t mix,
	struct build_taken *out, struct err *err) MUST_CHECK;

/* work_part_has_volume(part): a volume or three sizes; a duty sheet may be filled in
 * before there are any. */
bool work_part_has_volume(const struct book_part *part);

#endif /* WORK_TAKE_OFF_H */
