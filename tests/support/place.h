/* place.h - a book of its own, empty or holding the demo house, in a folder of its
 * own, for tests. */
#ifndef TESTS_PLACE_H
#define TESTS_PLACE_H

#include "support.h"

#include "work/desk.h"
#include "work/import.h"

enum { MOMENT_S = 1773651600, PLACE_DEMO_ROOM = 4096 };

struct place {
	char folder[64], book[96];
	char demo[PLACE_DEMO_ROOM]; /* the folder of the demo house */
	struct desk desk;           /* at MOMENT_S, few draws */
};

/* open_place(f, p), close_place(p): made and filled; taken away.
 * open_empty_place(f, p): made, with nothing in it.
 * import_demo(f, p, out): the demo house once more. */
void open_place(struct fixture *f, struct place *p);
void open_empty_place(struct fixture *f, struct place *p);
void import_demo(struct fixture *f, struct place *p, struct work_imported *out);
void close_place(struct place *p);

#endif /* TESTS_PLACE_H */
