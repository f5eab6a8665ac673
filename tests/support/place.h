/* place.h - a book of its own, holding the demo house, in a folder of its own, for
 * tests. */
#ifndef TESTS_PLACE_H
#define TESTS_PLACE_H

#include "support.h"

#include "work/desk.h"

enum { MOMENT_S = 1773651600 };

struct place {
	char folder[64], book[96];
	struct desk desk; /* at MOMENT_S, few draws */
};

/* open_place(f, p), close_place(p): made and filled; taken away. */
void open_place(struct fixture *f, struct place *p);
void close_place(struct place *p);

#endif /* TESTS_PLACE_H */
