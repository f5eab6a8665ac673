/* beside.h - US customary figures beside metric ones, for who thinks in both.
 *
 * What is shown has been rounded already; a figure beside has as many digits as
 * the one it stands by, at least two and at most four, so that neither claims more
 * than the other.  Factors: unit.h, which is held against NIST SP 811. */
#ifndef CORE_BESIDE_H
#define CORE_BESIDE_H

#include "core/unit.h"

/* beside_unit(word, gallon): the unit that goes beside a metric one, "lb/ft3" for
 * "kg/m3"; volumes follow the gallon.  NULL: none does. */
const char *beside_unit(const char *word, enum unit_gallon gallon);

/* beside_figures(arena, text, word, gallon): a text whose numbers are all in the
 * unit `word`, with each converted: "0.312 to 0.343" (N/mm2) is "45.3 to 49.7".
 * NULL if no unit goes beside, there is no number, or memory ran out. */
const char *beside_figures(struct arena *arena, const char *text,
	const char *word, enum unit_gallon gallon);

/* beside_text(arena, text, gallon): a sentence in which each figure with a metric
 * unit is followed by the other in brackets: "724 kg/m3 (45.2 lb/ft3)", "20 to 25
 * degC (68 to 77 degF)".  `and`, `to`, 'x' and +/- join figures of one unit. The
 * text itself where nothing is to be added; NULL if memory ran out. */
const char *beside_text(
	struct arena *arena, const char *text, enum unit_gallon gallon);

#endif /* CORE_BESIDE_H */
