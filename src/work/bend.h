/* bend.h - a beam bent weight by weight, each step in the book before it is
 * acknowledged: a test that was cut off goes on where it was. */
#ifndef WORK_BEND_H
#define WORK_BEND_H

#include "work/home_test.h"

enum { WORK_WEIGHTS_MOST = 9 };

struct work_bend_ask {
	const char *piece, *loading; /* NULL: centre */
	const char *rig;             /* says what was not said; NULL: none */
	struct maybe span_m, strap_m, hanger_kg;
	double weight_kg[WORK_WEIGHTS_MOST];
	size_t n_weight;
	const char *on;
	const char *typed;
};

/* A test that goes on. */
struct work_bending {
	struct work_bench bench; /* as it was when it was opened */
	size_t piece;
	struct book_bending_session session;
	double weight_kg[WORK_WEIGHTS_MOST];
	size_t n_weight;
	bool resumed;
	struct maybe age_s;
	struct lab_hung_step step[LAB_HUNG_MOST];
	size_t n_step;
	struct lab_hung hung; /* what the steps come to */
};

/* work_bend_open(desk, arena, ask, out, err):
 * Begins a test, or goes on with the one of that piece that was cut off; what
 * its rig was stands in the book then and need not be said again; before the
 * first step it may be said anew.
 * ERR_INPUT     no span or hanger for a new one, span longer than the beam,
 *               other figures than those it was begun with
 * ERR_CONFLICT  the piece was bent already */
enum err_code work_bend_open(const struct desk *desk, struct arena *arena,
	const struct work_bend_ask *ask, struct work_bending *out,
	struct err *err) MUST_CHECK;

/* work_bend_step(desk, bending, step, err): one step, committed when this
 * returns.  ERR_INPUT as lab_hanging; nothing changed then. */
enum err_code work_bend_step(const struct desk *desk,
	struct work_bending *bending, const struct lab_hung_step *step,
	struct err *err) MUST_CHECK;

/* work_bend_save(desk, arena, bending, out, err): the reading, once the test has
 * ended; the piece is tested then. */
enum err_code work_bend_save(const struct desk *desk, struct arena *arena,
	const struct work_bending *bending, struct work_test_told *out,
	struct err *err) MUST_CHECK;

/* work_bend_hung(arena, bench, piece, code, out): what the steps of a test in
 * the book come to; false: it has none. */
bool work_bend_hung(struct arena *arena, const struct work_bench *bench,
	size_t piece, const char *code, struct lab_hung *out);

#endif /* WORK_BEND_H */
