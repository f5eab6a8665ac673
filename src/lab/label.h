/* label.h - identifiers of test pieces, short enough for a marker.
 *
 * Three or four characters that are hard to confuse, wet and upside down, and
 * one that checks them.  The alphabet has 19 characters, 3 4 6 7 and fifteen
 * letters; left out are 0 O Q, 1 I L, 2 Z, 5 S, 8 B, 9 (6 upside down), G, U V
 * and W (M upside down).  A whole prime number of them, weights that differ
 * from place to place and a weighted sum that is a multiple of 19: so every
 * single wrong character and every swap of two unequal characters shows (the
 * idea of the check digit of ISO 2108).  Pure.  docs/methods/bench.md. */
#ifndef LAB_LABEL_H
#define LAB_LABEL_H

#include <stddef.h>

enum {
	LAB_LABEL_BASE = 19,
	LAB_LABEL_MAX = 8,                     /* with the NUL */
	LAB_LABELS_SHORT = 6859,               /* 19^3, of four characters */
	LAB_LABELS = LAB_LABELS_SHORT + 130321 /* and 19^4 of five */
};

enum lab_label {
	LAB_LABEL_GOOD,
	LAB_LABEL_MISTYPED, /* looks like one, and its check is wrong */
	LAB_LABEL_FOREIGN   /* no label of ours: another length or character */
};

/* lab_label_write(serial, out): the label of that number, 0 to LAB_LABELS - 1
 * (larger ones begin again).  Numbers that follow one another give labels that
 * do not look alike, so a label says nothing of its batch. */
void lab_label_write(size_t serial, char out[LAB_LABEL_MAX]);

/* lab_label_check(text): small letters count as large ones. */
enum lab_label lab_label_check(const char *text);

#endif /* LAB_LABEL_H */
