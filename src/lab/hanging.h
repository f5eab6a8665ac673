/* hanging.h - weights hung on a beam one by one: what is on it now, and what
 * the steps come to.
 *
 * Pure.  No source: the interval between the last load held and the one that
 * broke it, derived.  docs/methods/bench.md. */
#ifndef LAB_HANGING_H
#define LAB_HANGING_H

#include "core/err.h"
#include "core/qty.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

enum lab_hung_what {
	LAB_HUNG_ADDED,   /* a weight */
	LAB_HUNG_SAG,     /* the middle read against the supports */
	LAB_HUNG_CRACKED, /* first crack: it still hangs together */
	LAB_HUNG_FELL,    /* the end */
	LAB_HUNG_HOLDING, /* the end: still holding, no more weights */
	LAB_HUNG_UNDONE   /* takes back the last step not taken back yet */
};

enum { LAB_HUNG_MOST = 500, LAB_HUNG_WHATS = LAB_HUNG_UNDONE + 1 };

struct lab_hung_step {
	enum lab_hung_what what;
	struct mass mass;  /* added: > 0 */
	struct length sag; /* sag: >= 0 */
	int64_t at_s;
};

struct lab_hung_sag {
	double sag_m, load_kg;
};

/* Loads with the hanger.  Before the end what is held and broke is as if the
 * beam still held. */
struct lab_hung {
	double now_kg; /* on the beam */
	size_t n_live; /* steps that hold, undone ones apart */
	size_t n_weight;
	double last_kg; /* the last weight added; 0: none */
	bool ended, cracked;
	/* Of the first crack, or of the fall where none was seen. */
	double held_kg;
	bool has_broke;
	double broke_kg; /* above held_kg */
	/* After the crack. */
	double after_held_kg;
	bool has_after_broke;
	double after_broke_kg;
	bool has_hold;
	double hold_s; /* from the last weight to the fall */
	size_t n_sag;
	struct lab_hung_sag sag[LAB_HUNG_MOST];
};

/* lab_hung_word(what), lab_hung_find(word, what): "added", "sag", "cracked",
 * "fell", "holding", "undone". */
const char *lab_hung_word(enum lab_hung_what what);
bool lab_hung_find(const char *word, enum lab_hung_what *what);

/* lab_hanging(hanger, step, n, out, err):
 * Cracked or fallen under the hanger alone: held 0, broke at the hanger.  Fallen
 * at the load that cracked it: nothing was held after the crack.
 * ERR_INPUT  a step that cannot be (after the end, undoing nothing, a second
 *            first crack, a fall with nothing on the beam), more than
 *            LAB_HUNG_MOST of them, a mass or sag out of range; field "step" */
enum err_code lab_hanging(struct mass hanger, const struct lab_hung_step *step,
	size_t n, struct lab_hung *out, struct err *err) MUST_CHECK;

#endif /* LAB_HANGING_H */
