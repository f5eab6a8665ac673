/* bench.h - the book as it is needed at the bench: the site, and beside it the
 * forms and the bending tests that go on. */
#ifndef WORK_BENCH_H
#define WORK_BENCH_H

#include "lab/hanging.h"
#include "work/desk.h"
#include "work/site.h"

struct work_bench {
	struct work_site site;
	const struct book_form *form;
	const struct book_bending_session *session;
	const struct book_bending_step *step;
	const struct book_placing *placing;
	size_t n_form, n_session, n_step, n_placing;
};

static const double work_day_s = 86400;

/* work_bench_read(desk, arena, out, err): everything at once. */
enum err_code work_bench_read(const struct desk *desk, struct arena *arena,
	struct work_bench *out, struct err *err) MUST_CHECK;

/* work_find_form(bench, code, index, err), work_find_rig, work_find_piece: ERR_NOT_FOUND
 * offers the nearest.  A label is taken in small letters too; one whose check
 * character is wrong is refused as mistyped (ERR_INPUT), with the labels of the
 * book that it may have been. */
enum err_code work_find_form(const struct work_bench *bench, const char *code,
	size_t *index, struct err *err) MUST_CHECK;
enum err_code work_find_rig(const struct work_bench *bench, const char *code,
	size_t *index, struct err *err) MUST_CHECK;
enum err_code work_find_piece(const struct work_bench *bench, const char *code,
	size_t *index, struct err *err) MUST_CHECK;

/* work_cast_on(site, piece, cast_s): when its batch was made; false: not said. */
bool work_cast_on(const struct work_site *site, size_t piece, int64_t *cast_s);

/* work_age_of(site, piece, on, now_s, age_s, err): the age at a moment as
 * written, or now.  Not known where the batch has no date.
 * ERR_INPUT  no moment, or one before the day of casting */
enum err_code work_age_of(const struct work_site *site, size_t piece,
	const char *on, int64_t now_s, struct maybe *age_s,
	struct err *err) MUST_CHECK;

/* work_piece_sized(specimen, words): what kind of piece and its sizes, as a
 * person says it: "beam 100 x 75 x 700 mm". */
const char *work_piece_sized(
	struct arena *arena, const struct book_specimen *piece);

#endif /* WORK_BENCH_H */
