/* mixer.h - the book as it is needed at the mixer: the site, and beside it gear,
 * generators, foam checks, planned batches and what went into the made ones. */
#ifndef WORK_MIXER_H
#define WORK_MIXER_H

#include "mix/types.h"
#include "work/desk.h"
#include "work/site.h"
#include "work/warning.h"

struct work_mixer {
	struct work_site site;
	const struct book_material_basis *basis;
	const struct book_gear *gear;
	const struct book_generator *generator;
	const struct book_foam_check *foam_check;
	const struct book_batch_part *batch_part;
	const struct book_trial_slot *slot;
	const struct book_placing *placing;
	const struct book_decision *decision;
	const struct book_material_lot *lot;
	const struct book_foam_standing *standing;
	size_t n_basis, n_gear, n_generator, n_foam_check, n_batch_part, n_slot,
		n_placing, n_decision, n_lot, n_standing;
	struct work_warnings warning; /* as this book has set them */
	bool is_at_hand;       /* of one batch alone: work_mixer_read_at_hand */
	size_t n_before;       /* at hand: batches entered before it */
	size_t n_check_in_all; /* foam checks in the book */
};

/* work_mixer_read(desk, arena, out, err): everything at once. */
enum err_code work_mixer_read(const struct desk *desk, struct arena *arena,
	struct work_mixer *out, struct err *err) MUST_CHECK;

/* work_mixer_read_at_hand(desk, arena, batch_code, out, err): what a batch (""
 * for none) is made and judged with, in a time that does not grow with the book:
 * of the batches only that one and the practice batches, what went into it, the
 * foam checks of these and the last of each generator.  Nothing of pieces,
 * places, decisions and lots. */
enum err_code work_mixer_read_at_hand(const struct desk *desk,
	struct arena *arena, const char *batch_code, struct work_mixer *out,
	struct err *err) MUST_CHECK;

/* work_mixer_place(m, batch): its place among all batches, from 0. */
size_t work_mixer_place(const struct work_mixer *m, size_t batch);

/* work_find_X(m, code, index, err): ERR_NOT_FOUND names the nearest code, or
 * how to enter the first.  err->field is the kind of thing. */
enum err_code work_find_material(const struct work_mixer *m, const char *code,
	size_t *index, struct err *err) MUST_CHECK;
enum err_code work_find_mix(const struct work_mixer *m, const char *code,
	size_t *index, struct err *err) MUST_CHECK;
enum err_code work_find_batch(const struct work_mixer *m, const char *code,
	size_t *index, struct err *err) MUST_CHECK;
enum err_code work_find_generator(const struct work_mixer *m, const char *code,
	size_t *index, struct err *err) MUST_CHECK;
enum err_code work_find_trial(const struct work_mixer *m, const char *code,
	size_t *index, struct err *err) MUST_CHECK;

/* work_lot_before(m, row): the lot of the same material in the last batch before
 * the one that batch_part[row] belongs to; NULL: none was said.
 * work_material_code(m, id): "" if there is none. */
const char *work_lot_before(const struct work_mixer *m, size_t row);
const char *work_material_code(const struct work_mixer *m, int64_t id);

/* work_material_part(material, mass_kg, part): a material as a part of a mix;
 * false for an agent (its foam carries it) and for reinforcement. */
bool work_material_part(const struct book_material *material, double mass_kg,
	struct mix_part *part);

/* work_recipe(m, arena, mix, part, n, err): the parts of a mix for one cubic
 * metre, damp ones oven-dry, with today's moisture and absorption.
 * ERR_INPUT the mix has no parts */
enum err_code work_recipe(const struct work_mixer *m, struct arena *arena,
	size_t mix, struct mix_part **part, size_t *n,
	struct err *err) MUST_CHECK;

/* work_saturated(part, n): damp parts as they lie in the finished mix, their
 * grains full and no water on them, so that the recipe's water is free water.
 * Changes the array. */
void work_saturated(struct mix_part *part, size_t n);

#endif /* WORK_MIXER_H */
