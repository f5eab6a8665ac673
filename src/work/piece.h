/* piece.h - forms, test pieces registered, and what becomes of each. */
#ifndef WORK_PIECE_H
#define WORK_PIECE_H

#include "work/bench.h"

enum { WORK_QUARTERS = 4, WORK_PIECES_MOST = 200 };

/* Missing and NULL stay as they are in the book. */
struct work_form_ask {
	const char *code, *shape, *note;
	struct maybe width_m, depth_m, length_m, diameter_m; /* inner */
	const char *typed;
};

struct work_pieces_ask {
	const char *batch, *form;
	struct maybe count;
	struct maybe test_age_s; /* missing: 28 days */
	bool reinforced;
	const char *typed;
};

struct work_pieces_told {
	const char *const *code; /* the labels */
	size_t n;
	double test_age_s;
	const char *cast_on, *due_on; /* "" where the batch has no date */
};

struct work_piece_ask {
	const char *code;
	const char *fate, *on, *remark, *damage;
	struct maybe width_m, depth_m, length_m, diameter_m, mass_kg;
	struct maybe moisture_ratio, test_age_s;
	struct maybe height_m[WORK_QUARTERS];
	size_t n_height; /* 0 or WORK_QUARTERS */
	const char *typed;
};

struct work_piece_told {
	struct work_bench bench; /* as it is now */
	size_t piece;
	bool has_loss;
	double loss_ratio; /* of the form's height */
	const char *const *sentence;
	size_t n_sentence;
};

/* work_form_put(desk, arena, ask, made, err): ERR_INPUT what a new one lacks. */
enum err_code work_form_put(const struct desk *desk, struct arena *arena,
	const struct work_form_ask *ask, bool *made,
	struct err *err) MUST_CHECK;

/* work_pieces_put(desk, arena, ask, out, err): registers so many pieces of a
 * batch in one write, each with a label of its own and the form's sizes. */
enum err_code work_pieces_put(const struct desk *desk, struct arena *arena,
	const struct work_pieces_ask *ask, struct work_pieces_told *out,
	struct err *err) MUST_CHECK;

/* work_piece_put(desk, arena, ask, out, err):
 * ERR_INPUT  a fate that is none, an accident or a piece set aside without its
 *            reason, a piece that was tested and is said never to have been
 *            filled, heights that are not four or above 1.2 times the form's */
enum err_code work_piece_put(const struct desk *desk, struct arena *arena,
	const struct work_piece_ask *ask, struct work_piece_told *out,
	struct err *err) MUST_CHECK;

#endif /* WORK_PIECE_H */
