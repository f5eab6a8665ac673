/* yard.h - a book of its own at the bench, for tests: two mixes, a trial, a batch
 * cast on the first of March 2026, three beams and a panel of it.  All figures
 * are invented. */
#ifndef TESTS_YARD_H
#define TESTS_YARD_H

#include "support.h"

#include "work/desk.h"

enum { BEAMS = 3, PANELS = 1, PIECES = BEAMS + PANELS };

struct yard {
	char path[64];
	struct desk desk; /* on the 29th of March 2026, 08:00 */
	const char *piece[PIECES];
};

/* yard_furnish(f, y), yard_close(y): the book made and filled; taken away. */
void yard_furnish(struct fixture *f, struct yard *y);
void yard_close(struct yard *y);

/* yard_entries(f, y): how many entries the history has, each verified. */
size_t yard_entries(struct fixture *f, struct yard *y);

/* yard_put_form(f, y, code, shape, size), yard_put_pieces(f, y, batch, form, n,
 * code): width, depth, length in metres; n markings come back.
 * yard_put_batch(f, y, code, wet): made on the first of March, in kg/m3. */
void yard_put_batch(
	struct fixture *f, struct yard *y, const char *code, double wet_kg_m3);
void yard_put_form(struct fixture *f, struct yard *y, const char *code,
	const char *shape, const double size_m[3]);
void yard_put_pieces(struct fixture *f, struct yard *y, const char *batch,
	const char *form, double n, const char **code);

#endif /* TESTS_YARD_H */
