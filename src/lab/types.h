/* types.h - words for tests, fates and quantities; shared with the book.
 *
 * Pure. */
#ifndef LAB_TYPES_H
#define LAB_TYPES_H

#include <stdbool.h>

/* The home tests: enum, word for machines and the book, name for people. */
#define LAB_TEST_LIST(X)                                  \
	X(LAB_BENDING, "bending", "bending")              \
	X(LAB_DROP, "drop", "drop")                       \
	X(LAB_CRUSHING, "crushing", "crushing")           \
	X(LAB_DENSITY, "density", "dry weight")           \
	X(LAB_ABSORPTION, "absorption", "water taken up") \
	X(LAB_RISE, "rise", "water rising from below")    \
	X(LAB_SHRINKAGE, "shrinkage", "drying shrinkage") \
	X(LAB_SCREW, "screw", "screw pull-out")           \
	X(LAB_FROST, "frost", "freezing and thawing")     \
	X(LAB_HOT_BOX, "hot_box", "insulation value")

/* What became of a specimen; every one cast has exactly one fate. */
#define LAB_FATE_LIST(X)                                                      \
	X(LAB_WAITING, "waiting", "waiting for its test")                     \
	X(LAB_TESTED, "tested", "tested")                                     \
	X(LAB_SNAPPED_STRIPPING, "snapped_at_stripping",                      \
		"snapped at stripping")                                       \
	X(LAB_SNAPPED_HANDLING, "snapped_in_handling", "snapped in handling") \
	X(LAB_ACCIDENT, "accident", "accident, not the material's fault")     \
	X(LAB_NOT_FILLED, "not_filled", "mould not filled")                   \
	X(LAB_SET_ASIDE, "set_aside", "set aside")

/* What a test gives: enum, word, name, SI unit, whether more is better. */
#define LAB_QUANTITY_LIST(X)                                                  \
	X(LAB_BENDING_STRENGTH, "bending_strength", "bending strength", "Pa", \
		true)                                                         \
	X(LAB_BREAKING_LOAD, "breaking_load", "breaking load", "N", true)     \
	X(LAB_CRUSHING_ENERGY, "crushing_energy", "energy to crush a volume", \
		"Pa", true)                                                   \
	X(LAB_DENT_DEPTH, "dent_depth", "dent depth", "m", false)             \
	X(LAB_CRUSHING_STRENGTH, "crushing_strength", "crushing strength",    \
		"Pa", true)                                                   \
	X(LAB_CRUSHING_LOAD, "crushing_load", "crushing load", "N", true)     \
	X(LAB_WEIGHT_PER_VOLUME, "density", "density", "kg/m3", false)        \
	X(LAB_DRY_WEIGHT_PER_VOLUME, "oven_dry_density", "oven-dry density",  \
		"kg/m3", false)                                               \
	X(LAB_SPECIMEN_MASS, "mass", "mass", "kg", false)                     \
	X(LAB_ABSORPTION_BY_VOLUME, "absorption_by_volume",                   \
		"water taken up by volume", "1", false)                       \
	X(LAB_ABSORPTION_BY_MASS, "absorption_by_mass",                       \
		"water taken up by mass", "1", false)

#define LAB_AS_ENUM(item, ...) item,
enum lab_test { LAB_TEST_LIST(LAB_AS_ENUM) };
enum lab_fate { LAB_FATE_LIST(LAB_AS_ENUM) };
enum lab_quantity { LAB_QUANTITY_LIST(LAB_AS_ENUM) };
#undef LAB_AS_ENUM
enum {
	LAB_TEST_COUNT = LAB_HOT_BOX + 1,
	LAB_FATE_COUNT = LAB_SET_ASIDE + 1,
	LAB_QUANTITY_COUNT = LAB_ABSORPTION_BY_MASS + 1
};

/* _word for machines and the book, _name for people; never NULL.  _find gives
 * false and leaves its result alone if nothing has that word. */
const char *lab_test_word(enum lab_test test);
const char *lab_test_name(enum lab_test test);
bool lab_test_find(const char *word, enum lab_test *test);

const char *lab_fate_word(enum lab_fate fate);
const char *lab_fate_name(enum lab_fate fate);
bool lab_fate_find(const char *word, enum lab_fate *fate);
/* lab_fate_is_breakage(fate): it broke by its own weakness before its test. */
bool lab_fate_is_breakage(enum lab_fate fate);

const char *lab_quantity_word(enum lab_quantity quantity);
const char *lab_quantity_name(enum lab_quantity quantity);
const char *lab_quantity_unit(enum lab_quantity quantity); /* coherent SI */
bool lab_quantity_larger_is_better(enum lab_quantity quantity);
bool lab_quantity_find(const char *word, enum lab_quantity *quantity);

#endif /* LAB_TYPES_H */
