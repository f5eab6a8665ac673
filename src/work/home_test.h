/* home_test.h - a reading of one piece recorded, and what it comes to at once.
 */
#ifndef WORK_HOME_TEST_H
#define WORK_HOME_TEST_H

#include "work/bench.h"

/* The reading as the book keeps it; sizes that were measured with it. */
struct work_test_ask {
	const char *piece, *on;
	struct book_reading reading; /* kind, code, remark and its kind's own */
	struct maybe width_m, depth_m, length_m, diameter_m, mass_kg;
	const char *rig; /* fills in what it is where the reading does not say;
			  * NULL: none */
	bool keeps_fate; /* a half of a broken beam, a weighing */
	const char *typed;
};

struct work_test_told {
	struct work_bench bench; /* as it is now */
	size_t piece;
	struct maybe age_s;
	const char *const *sentence; /* the result, and what it lacks */
	size_t n_sentence;
};

/* work_test_check(bench, piece, ask, err): the reading against itself and the
 * piece; nothing is written.
 * ERR_INPUT  span longer than the beam, broke below held, a dent deeper than
 *            the piece without going through, a reading without its figure, a
 *            piece whose form was never filled */
enum err_code work_test_check(const struct work_bench *bench, size_t piece,
	const struct work_test_ask *ask, struct err *err) MUST_CHECK;

/* work_test_fill(bench, ask, err): what the rig named in it is, where the reading
 * does not say.  ERR_NOT_FOUND no such rig; ERR_CONFLICT it is for another
 * test. */
enum err_code work_test_fill(const struct work_bench *bench,
	struct work_test_ask *ask, struct err *err) MUST_CHECK;

/* work_test_put(desk, arena, ask, out, err): records it (a second reading of the
 * same kind and code corrects the first, both stay), calls the piece tested,
 * and tells.  Errors as work_find_piece, work_age_of, work_test_fill,
 * work_test_check. */
enum err_code work_test_put(const struct desk *desk, struct arena *arena,
	const struct work_test_ask *ask, struct work_test_told *out,
	struct err *err) MUST_CHECK;

/* work_test_rows(book, bench, piece, ask, age_s, err): the rows alone, between
 * book_begin and book_commit. */
enum err_code work_test_rows(struct book *book, const struct work_bench *bench,
	size_t piece, const struct work_test_ask *ask, struct maybe age_s,
	struct err *err) MUST_CHECK;

/* work_test_tell(desk, arena, piece, kind, out, err): what the readings of that
 * kind of the piece come to now. */
enum err_code work_test_tell(const struct desk *desk, struct arena *arena,
	const char *piece, const char *kind, const char *code,
	struct work_test_told *out, struct err *err) MUST_CHECK;

#endif /* WORK_HOME_TEST_H */
