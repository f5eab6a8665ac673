/* site.h - everything the book holds now, read in one go, rows tied together
 * by index.  The deeds that think start from it; nothing is read twice. */
#ifndef WORK_SITE_H
#define WORK_SITE_H

#include "book/types.h"
#include "core/arena.h"
#include "core/err.h"

#include <stddef.h>

struct book;

struct work_site {
	struct book_info info;
	const struct book_material *material;
	const struct book_mix *mix;
	const struct book_mix_part *mix_part;
	const struct book_trial *trial;
	const struct book_rule *rule;
	const struct book_batch *batch;
	const struct book_settling *settling;
	const struct book_specimen *specimen;
	const struct book_reading *reading;
	const struct book_part *part;
	const struct book_requirement *requirement;
	const struct book_rig *rig;
	const struct book_rig_check *rig_check;
	size_t n_rig, n_rig_check;
	size_t n_material, n_mix, n_mix_part, n_trial, n_rule, n_batch,
		n_settling, n_specimen, n_reading, n_part, n_requirement;
	const size_t *batch_mix;        /* n_batch: index into mix */
	const size_t *mix_matrix;       /* n_mix: index of the plain mix */
	const size_t *specimen_batch;   /* n_specimen */
	const size_t *reading_specimen; /* n_reading */
	const size_t *settling_batch;   /* n_settling */
	const size_t *part_mix;         /* n_mix_part: index into mix */
	const size_t *part_material;    /* n_mix_part: index into material */
	bool has_baseline;
	size_t baseline; /* index into mix, of the first trial */
};

/* work_site_read(book, arena, site, err): reads the whole book in one view.
 * ERR_DAMAGED a row points at nothing; ERR_MEMORY; what the book reports */
enum err_code work_site_read(struct book *book, struct arena *arena,
	struct work_site *site, struct err *err) MUST_CHECK;

/* work_site_read_plan(book, arena, site, err): materials, mixes, trial, rules and
 * parts alone: what is short however long the book is.
 * work_site_tie(arena, site, err): the indices, of whatever the site holds. */
enum err_code work_site_read_plan(struct book *book, struct arena *arena,
	struct work_site *site, struct err *err) MUST_CHECK;
/* work_site_read_at_hand(book, arena, hand, site, before, err): materials,
 * mixes, trials, one batch and the practice batches, their height lost and their foam from the
 * checks that the hand holds; *before: how many batches were entered before
 * that batch, all if it is not in the book.  No pieces, no readings. */
struct work_hand {
	const char *batch_code;
	const struct book_generator *generator;
	const struct book_foam_check *check;
	size_t n_generator, n_check;
};
enum err_code work_site_read_at_hand(struct book *book, struct arena *arena,
	const struct work_hand *hand, struct work_site *site, size_t *before,
	struct err *err) MUST_CHECK;
/* work_site_fill_foam(book, arena, site, err): the batches' own foam from the
 * foam checks, where it was not written down. */
enum err_code work_site_fill_foam(struct book *book, struct arena *arena,
	struct work_site *site, struct err *err) MUST_CHECK;
enum err_code work_site_tie(struct arena *arena, struct work_site *site,
	struct err *err) MUST_CHECK;

/* work_site_mix(site, code, index): false if no mix has that code. */
bool work_site_mix(
	const struct work_site *site, const char *code, size_t *index);

/* work_check_tested(site, mix, err): that a piece of a batch of the mix was
 * tested, practice aside.  ERR_INPUT it was not, and so it is no ground to
 * decide or to buy for */
enum err_code work_check_tested(
	const struct work_site *site, size_t mix, struct err *err) MUST_CHECK;

#endif /* WORK_SITE_H */
