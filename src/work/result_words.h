/* result_words.h - a result as words: its value or interval with what reading
 * the instruments leaves open, and what it was computed from. */
#ifndef WORK_RESULT_WORDS_H
#define WORK_RESULT_WORDS_H

#include "work/results.h"

/* work_result_value(arena, result):
 * "0.357 +/- 0.012 N/mm2", "0.342 to 0.372 N/mm2 (+/- 1.3 %)", "more than ...",
 * "less than ...".  Never NULL. */
const char *work_result_value(
	struct arena *arena, const struct work_result *result);

/* work_value_text(arena, value, unit, u_ratio): the same of a value that is in
 * that unit already; u_ratio relative. */
const char *work_value_text(struct arena *arena, struct interval value,
	const char *unit, struct maybe u_ratio);

/* work_result_what(arena, result): the measure, with the place of a drop: "dent
 * near a corner".  Never NULL. */
const char *work_result_what(
	struct arena *arena, const struct work_result *result);

/* work_result_from(arena, site, result): "held 8.2 kg, broke 9.2 kg, span 600
 * mm, beam 100 x 75 mm", and in words where it is only a bound: "broke under
 * the hanger alone", "outlasted the weights", "went through".  Never NULL. */
const char *work_result_from(struct arena *arena, const struct work_site *site,
	const struct work_result *result);

#endif /* WORK_RESULT_WORDS_H */
