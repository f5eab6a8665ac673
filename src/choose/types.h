/* types.h - what a part of the building can ask of a mix; words for verdicts.
 *
 * Pure. */
#ifndef CHOOSE_TYPES_H
#define CHOOSE_TYPES_H

#include "core/qty.h"
#include "core/unit.h"

#include <stdbool.h>
#include <stddef.h>

/* measure, word for machines and the book, name for people, kind, the unit in
 * which people read it, whether more is better */
#define CHOOSE_MEASURE_LIST(X)                                                 \
	X(CHOOSE_BENDING_STRENGTH, "bending_strength", "bending strength",     \
		UNIT_STRESS, "N/mm2", true)                                    \
	X(CHOOSE_BREAKING_LOAD, "breaking_load", "breaking load", UNIT_FORCE,  \
		"N", true)                                                     \
	X(CHOOSE_CRUSHING_STRENGTH, "crushing_strength", "crushing strength",  \
		UNIT_STRESS, "N/mm2", true)                                    \
	X(CHOOSE_CRUSHING_LOAD, "crushing_load", "crushing load", UNIT_FORCE,  \
		"kN", true)                                                    \
	X(CHOOSE_CRUSHING_ENERGY, "crushing_energy",                           \
		"energy to crush, at the centre", UNIT_ENERGY_PER_VOLUME,      \
		"J/cm3", true)                                                 \
	X(CHOOSE_DENT, "dent", "dent at the centre", UNIT_LENGTH, "mm", false) \
	X(CHOOSE_DRY_DENSITY, "dry_density", "dry weight", UNIT_DENSITY,       \
		"kg/m3", false)                                                \
	X(CHOOSE_SCREW_PULL, "screw_pull", "screw pull-out", UNIT_FORCE, "kN", \
		true)                                                          \
	X(CHOOSE_WATER_TAKEN_UP, "water_taken_up", "water taken up by volume", \
		UNIT_RATIO, "%", false)                                        \
	X(CHOOSE_WATER_DRAWN_UP, "water_drawn_up",                             \
		"water drawn up in an hour", UNIT_MASS_PER_AREA, "kg/m2",      \
		false)                                                         \
	X(CHOOSE_DRYING_SHRINKAGE, "drying_shrinkage", "drying shrinkage",     \
		UNIT_RATIO, "mm/m", false)                                     \
	X(CHOOSE_FROST_LOSS, "frost_loss", "lost by freezing", UNIT_RATIO,     \
		"%", false)                                                    \
	X(CHOOSE_SETTLING_LOSS, "settling_loss", "settling in 24 h",           \
		UNIT_RATIO, "%", false)                                        \
	X(CHOOSE_CONDUCTIVITY, "conductivity", "heat let through (lambda)",    \
		UNIT_CONDUCTIVITY, "W/(m K)", false)                           \
	X(CHOOSE_COST, "cost", "cost of materials", UNIT_NUMBER, "", false)    \
	X(CHOOSE_BREAKAGE, "breakage", "broken before the test", UNIT_RATIO,   \
		"%", false)

#define CHOOSE_MEASURE_AS_ENUM(measure, ...) measure,
enum choose_measure { CHOOSE_MEASURE_LIST(CHOOSE_MEASURE_AS_ENUM) };
#undef CHOOSE_MEASURE_AS_ENUM
enum { CHOOSE_MEASURE_COUNT = CHOOSE_BREAKAGE + 1 };

const char *choose_measure_word(enum choose_measure measure);
const char *choose_measure_name(enum choose_measure measure);
enum unit_kind choose_measure_kind(enum choose_measure measure);
const char *choose_measure_unit(enum choose_measure measure);
bool choose_measure_larger_is_better(enum choose_measure measure);
/* choose_measure_find(word, measure): false if nothing has that word. */
bool choose_measure_find(const char *word, enum choose_measure *measure);

/* What a part asks: at least or at most this much, in SI (cost in cents a m3).
 */
struct choose_requirement {
	enum choose_measure measure;
	bool is_least;
	double value;
	const char *source; /* borrowed */
};

/* verdict against the baseline, word for machines, words for people */
#define CHOOSE_VERDICT_LIST(X)                                            \
	X(CHOOSE_IS_BASELINE, "baseline", "baseline")                     \
	X(CHOOSE_CLEARLY_BETTER, "clearly_better", "clearly better")      \
	X(CHOOSE_LOOKS_BETTER, "looks_better", "looks better, repeat it") \
	X(CHOOSE_CANNOT_TELL, "cannot_tell", "cannot tell")               \
	X(CHOOSE_WORSE, "worse", "worse")                                 \
	X(CHOOSE_COULD_NOT_BE_MADE, "could_not_be_made", "could not be made")

#define CHOOSE_VERDICT_AS_ENUM(verdict, ...) verdict,
enum choose_verdict { CHOOSE_VERDICT_LIST(CHOOSE_VERDICT_AS_ENUM) };
#undef CHOOSE_VERDICT_AS_ENUM

const char *choose_verdict_word(enum choose_verdict verdict);
const char *choose_verdict_words(enum choose_verdict verdict);

#endif /* CHOOSE_TYPES_H */
