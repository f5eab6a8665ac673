/* things.h - every kind of thing that the book keeps in revisions: its table,
 * how one is named to a person, and what it rests on.
 *
 * A new table of facts gets a line in BOOK_THINGS, and one in BOOK_REFERENCES
 * for each column that points at another thing; a test holds both lists against
 * the schema. */
#ifndef BOOK_THINGS_H
#define BOOK_THINGS_H

/* The code of what a column points at; the same as the first of two words. */
#define BOOK_CODE(table, column) \
	"(SELECT code FROM " table " WHERE id = t." column ")"
#define BOOK_OF(table, column) BOOK_CODE(table, column) " || ' ' || "

/* A fixed word of ours, "bending" or "least", that is looked up when it is shown
 * (book_say_marked); not what the owner typed. */
#define BOOK_SAID(sql) "char(1) || " sql " || char(1)"

/* BOOK_THINGS(X): X(table, its name in the file, its words as SQL over t). */
/* clang-format off */
#define BOOK_THINGS(X) \
	X(BOOK_INFO, "book_info", "t.name") \
	X(BOOK_MATERIAL, "material", "t.code") \
	X(BOOK_MATERIAL_LOT, "material_lot", \
		BOOK_OF("material", "material_id") "t.code") \
	X(BOOK_MIX, "mix", "t.code") \
	X(BOOK_MIX_PART, "mix_part", \
		BOOK_OF("mix", "mix_id") BOOK_CODE("material", "material_id")) \
	X(BOOK_TRIAL, "trial", "t.code") \
	X(BOOK_RULE, "trial_rule", "t.code") \
	X(BOOK_BATCH, "batch", "t.code") \
	X(BOOK_SETTLING, "settling", \
		BOOK_OF("batch", "batch_id") BOOK_SAID("'after'") " || printf(' %.4g h', t.after_s / 3600)") \
	X(BOOK_SPECIMEN, "specimen", "t.code") \
	X(BOOK_READING, "reading", \
		BOOK_OF("specimen", "specimen_id") BOOK_SAID("t.kind") " || ' ' || " BOOK_SAID("t.code")) \
	X(BOOK_PART, "part", "t.code") \
	X(BOOK_REQUIREMENT, "requirement", \
		BOOK_OF("part", "part_id") BOOK_SAID("t.bound") " || ' ' || " \
		BOOK_SAID("replace(t.measure, '_', ' ')")) \
	X(BOOK_DECISION, "decision", \
		BOOK_OF("part", "part_id") BOOK_CODE("mix", "mix_id")) \
	X(BOOK_MATERIAL_BASIS, "material_basis", \
		BOOK_OF("material", "material_id") BOOK_SAID("replace(t.figure, '_', ' ')")) \
	X(BOOK_GEAR, "gear", BOOK_SAID("t.code")) \
	X(BOOK_GENERATOR, "generator", "t.code") \
	X(BOOK_FOAM_CHECK, "foam_check", "t.code") \
	X(BOOK_BATCH_PART, "batch_part", \
		BOOK_OF("batch", "batch_id") BOOK_CODE("material", "material_id")) \
	X(BOOK_TRIAL_SLOT, "trial_slot", \
		BOOK_OF("trial", "trial_id") "t.batch_code") \
	X(BOOK_FORM, "form", "t.code") \
	X(BOOK_BENDING_SESSION, "bending_session", \
		BOOK_OF("specimen", "specimen_id") "t.code") \
	X(BOOK_BENDING_STEP, "bending_step", \
		BOOK_OF("specimen", "specimen_id") "t.code || ' no. ' || t.place") \
	X(BOOK_PLACING, "placing", BOOK_CODE("batch", "batch_id")) \
	X(BOOK_PART_USE, "part_use", BOOK_CODE("part", "part_id")) \
	X(BOOK_PART_LAYER, "part_layer", \
		BOOK_OF("part", "part_id") "t.name") \
	X(BOOK_PREDICTION, "prediction", \
		BOOK_OF("part", "part_id") BOOK_CODE("mix", "mix_id")) \
	X(BOOK_WARNING, "warning", "t.code") \
	X(BOOK_FOAM_STANDING, "foam_standing", \
		BOOK_OF("generator", "generator_id") "t.code") \
	X(BOOK_RIG, "rig", "t.code") \
	X(BOOK_RIG_CHECK, "rig_check", BOOK_OF("rig", "rig_id") \
		"CASE WHEN t.code LIKE t.what || ' %' THEN " \
		BOOK_SAID("t.what") " || substr(t.code, length(t.what) + 1) " \
		"ELSE t.code END") \
	X(BOOK_FILE, "file", "t.name") \
	X(BOOK_TRACE, "trace", "t.code") \
	X(BOOK_CURE, "cure", BOOK_OF("batch", "batch_id") "t.code") \
	X(BOOK_USUAL, "usual_requirement", \
		BOOK_SAID("t.form") " || ' ' || " BOOK_SAID("t.bound") " || ' ' || " \
		BOOK_SAID("replace(t.measure, '_', ' ')")) \
	X(BOOK_WEIGHT, "choice_weight", \
		"coalesce(" BOOK_CODE("part", "part_id") ", " BOOK_SAID("'the house'") ") || ' ' || " \
		BOOK_SAID("t.criterion")) \
	X(BOOK_PHOTO, "photo", "t.code")
/* clang-format on */

/* Columns that say only what was known then: nothing rests on them. */
#define BOOK_MERE_REFERENCES(X) \
	X(BOOK_PREDICTION, "prediction", "after_batch_id", BOOK_BATCH, "batch")

/* BOOK_REFERENCES(X): X(what rests, its name, the column, on what, its name).*/
#define BOOK_REFERENCES(X)                                                     \
	X(BOOK_MATERIAL_LOT, "material_lot", "material_id", BOOK_MATERIAL,     \
		"material")                                                    \
	X(BOOK_MIX_PART, "mix_part", "mix_id", BOOK_MIX, "mix")                \
	X(BOOK_MIX_PART, "mix_part", "material_id", BOOK_MATERIAL, "material") \
	X(BOOK_TRIAL, "trial", "baseline_mix_id", BOOK_MIX, "mix")             \
	X(BOOK_RULE, "trial_rule", "trial_id", BOOK_TRIAL, "trial")            \
	X(BOOK_BATCH, "batch", "trial_id", BOOK_TRIAL, "trial")                \
	X(BOOK_BATCH, "batch", "mix_id", BOOK_MIX, "mix")                      \
	X(BOOK_BATCH, "batch", "generator_id", BOOK_GENERATOR, "generator")    \
	X(BOOK_SETTLING, "settling", "batch_id", BOOK_BATCH, "batch")          \
	X(BOOK_SPECIMEN, "specimen", "batch_id", BOOK_BATCH, "batch")          \
	X(BOOK_SPECIMEN, "specimen", "form_id", BOOK_FORM, "form")             \
	X(BOOK_READING, "reading", "specimen_id", BOOK_SPECIMEN, "specimen")   \
	X(BOOK_READING, "reading", "rig_id", BOOK_RIG, "rig")                  \
	X(BOOK_REQUIREMENT, "requirement", "part_id", BOOK_PART, "part")       \
	X(BOOK_DECISION, "decision", "part_id", BOOK_PART, "part")             \
	X(BOOK_DECISION, "decision", "mix_id", BOOK_MIX, "mix")                \
	X(BOOK_MATERIAL_BASIS, "material_basis", "material_id", BOOK_MATERIAL, \
		"material")                                                    \
	X(BOOK_FOAM_CHECK, "foam_check", "generator_id", BOOK_GENERATOR,       \
		"generator")                                                   \
	X(BOOK_FOAM_CHECK, "foam_check", "batch_id", BOOK_BATCH, "batch")      \
	X(BOOK_BATCH_PART, "batch_part", "batch_id", BOOK_BATCH, "batch")      \
	X(BOOK_BATCH_PART, "batch_part", "material_id", BOOK_MATERIAL,         \
		"material")                                                    \
	X(BOOK_TRIAL_SLOT, "trial_slot", "trial_id", BOOK_TRIAL, "trial")      \
	X(BOOK_TRIAL_SLOT, "trial_slot", "mix_id", BOOK_MIX, "mix")            \
	X(BOOK_BENDING_SESSION, "bending_session", "specimen_id",              \
		BOOK_SPECIMEN, "specimen")                                     \
	X(BOOK_BENDING_SESSION, "bending_session", "rig_id", BOOK_RIG, "rig")  \
	X(BOOK_BENDING_STEP, "bending_step", "specimen_id", BOOK_SPECIMEN,     \
		"specimen")                                                    \
	X(BOOK_PLACING, "placing", "batch_id", BOOK_BATCH, "batch")            \
	X(BOOK_PLACING, "placing", "part_id", BOOK_PART, "part")               \
	X(BOOK_PART_USE, "part_use", "part_id", BOOK_PART, "part")             \
	X(BOOK_PART_LAYER, "part_layer", "part_id", BOOK_PART, "part")         \
	X(BOOK_PREDICTION, "prediction", "part_id", BOOK_PART, "part")         \
	X(BOOK_PREDICTION, "prediction", "mix_id", BOOK_MIX, "mix")            \
	X(BOOK_FOAM_STANDING, "foam_standing", "generator_id", BOOK_GENERATOR, \
		"generator")                                                   \
	X(BOOK_RIG_CHECK, "rig_check", "rig_id", BOOK_RIG, "rig")              \
	X(BOOK_TRACE, "trace", "file_id", BOOK_FILE, "file")                   \
	X(BOOK_TRACE, "trace", "specimen_id", BOOK_SPECIMEN, "specimen")       \
	X(BOOK_CURE, "cure", "batch_id", BOOK_BATCH, "batch")                  \
	X(BOOK_CURE, "cure", "trace_id", BOOK_TRACE, "trace")                  \
	X(BOOK_WEIGHT, "choice_weight", "part_id", BOOK_PART, "part")          \
	X(BOOK_PHOTO, "photo", "batch_id", BOOK_BATCH, "batch")                \
	X(BOOK_PHOTO, "photo", "file_id", BOOK_FILE, "file")

#endif /* BOOK_THINGS_H */
