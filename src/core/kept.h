/* kept.h - a text that the book keeps in English, in the tongue of who reads it.
 *
 * The book has one language, so what a deed writes into it is made in English
 * (arena_english) and said again when it is shown: the formats that it was made
 * with are found in it, and their translations filled with what stood there.
 * Pure. */
#ifndef CORE_KEPT_H
#define CORE_KEPT_H

#include <stddef.h>

struct arena;

enum { KEPT_ARGUMENTS = 4, KEPT_PIECES = 64 };

/* One format of N_(), of at most KEPT_ARGUMENTS arguments: %s takes any text,
 * other conversions a number. */
struct kept_form {
	const char *format;
	unsigned said;  /* bit k: argument k is a fixed text that the tongue
	                 * knows, and is looked up too */
	unsigned tried; /* bit k: it may be one */
};

/* kept_say(arena, form, n, english): the text, taken apart into pieces that the
 * forms made, one behind the other (the first form that fits, each argument as
 * short as it can be), and said in the arena's tongue.  english itself where
 * the tongue is English, where it is made of other pieces, and where memory
 * ran out. */
const char *kept_say(struct arena *arena, const struct kept_form *form,
	size_t n, const char *english);

#endif /* CORE_KEPT_H */
