/* yard.h - a small book for tests at the bench: three beams and a panel.  All
 * figures are invented. */
#ifndef TESTS_YARD_H
#define TESTS_YARD_H

#include "support.h"

#include "work/desk.h"

enum {
	YARD_BEAMS = 3,
	YARD_PANELS = 1,
	YARD_PIECES = YARD_BEAMS + YARD_PANELS
};

/* Three beams and a panel of batch T-01, cast on the first of March 2026. */
struct yard {
	char path[64];
	struct desk desk;
	const char *piece[YARD_PIECES];
};

/* yard_furnish(f, y): a new book, its moment 2026-03-29T08:00:00Z, with mixes P
 * and L, forms B1 and S1, and the pieces waiting.  yard_close: the book is
 * removed. */
void yard_furnish(struct fixture *f, struct yard *y);
void yard_close(struct yard *y);

/* yard_entries: how many entries its history has. */
size_t yard_entries(struct fixture *f, struct yard *y);

/* yard_put_batch: a batch of the trial made on 2026-03-01.
 * yard_put_form, yard_put_pieces: one more form; n more pieces of a batch, their
 * markings into code. */
void yard_put_batch(
	struct fixture *f, struct yard *y, const char *code, double wet_kg_m3);
void yard_put_form(struct fixture *f, struct yard *y, const char *code,
	const char *shape, const double size_m[3]);
void yard_put_pieces(struct fixture *f, struct yard *y, const char *batch,
	const char *form, double n, const char **code);

#endif /* TESTS_YARD_H */
