/* book.h - the record file: opened, checked, written whole or not at all.
 *
 * One SQLite file.  journal_mode=DELETE, synchronous=EXTRA, foreign keys on,
 * every write begun with BEGIN IMMEDIATE; never WAL (docs/decisions).  Each
 * write is one transaction with one row in the history, chained to the one
 * before by BLAKE2b. */
#ifndef BOOK_BOOK_H
#define BOOK_BOOK_H

#include "book/types.h"
#include "core/arena.h"
#include "core/err.h"

#include <stddef.h>

struct book;

enum book_access { BOOK_READ, BOOK_WRITE };

/* book_create(path, info, at_utc_s, who, book, err): a new file with the first
 * history entry, in one transaction; refuses a path that exists
 * (ERR_CONFLICT). */
enum err_code book_create(const char *path, const struct book_info *info,
	int64_t at_utc_s, const char *who, struct book **book,
	struct err *err) MUST_CHECK;

/* book_open(path, access, book, err):
 * Opens an existing book.  An older book is copied aside and brought up first,
 * also where it is only read (README.md); a write that was cut off is put right
 * first.  ERR_NOT_FOUND no such file, ERR_NOT_A_BOOK (a folder, a link, a text
 * file, an empty file, another program's database, a schema that is not ours
 * byte for byte), ERR_NEWER_BOOK, ERR_DAMAGED, ERR_DISK, ERR_BUSY, ERR_SYSTEM
 * (permission).  The caller closes with book_close. */
enum err_code book_open(const char *path, enum book_access access,
	struct book **book, struct err *err) MUST_CHECK;

/* book_copied_aside(book): where the older book went, if this opening brought
 * it up; else NULL.  Lives as long as the book. */
const char *book_copied_aside(const struct book *book);

/* book_detach(book, err): of a book opened to be read, outside any view.  From then on it is a
 * copy in memory that may be written, and what is written goes when it is closed:
 * for trying out a deed.  ERR_MEMORY; the book is then still the file. */
enum err_code book_detach(struct book *book, struct err *err) MUST_CHECK;

/* book_close(book): NULL does nothing; an open transaction is undone. */
void book_close(struct book *book);

/* book_begin / book_commit / book_rollback: one write.  book_begin names the
 * deed for the history; rows added in between belong to it.  If nothing was
 * added, book_commit writes nothing and *history_id is 0 (may be NULL).
 * submission is NULL or an identifier: a second commit with it is refused with
 * ERR_CONFLICT and changes nothing.  book_rollback after a commit does
 * nothing. */
enum err_code book_begin(struct book *book, int64_t at_utc_s, const char *who,
	const char *what, const char *submission, struct err *err) MUST_CHECK;
enum err_code book_commit(struct book *book, const char *detail,
	int64_t *history_id, struct err *err) MUST_CHECK;
void book_rollback(struct book *book);

/* book_state(book, last, err): the identifier of the last history entry; it
 * grows with every write, whoever made it. */
enum err_code book_state(
	struct book *book, int64_t *last, struct err *err) MUST_CHECK;

/* book_submitted(book, arena, key, submission, err): the whole identifier of
 * the entry whose submission is key, or begins with key and a space; NULL if
 * there is none. */
enum err_code book_submitted(struct book *book, struct arena *arena,
	const char *key, const char **submission, struct err *err) MUST_CHECK;

/* book_read_begin / book_read_end: one consistent view over several reads; a
 * pair may stand within a pair. */
enum err_code book_read_begin(struct book *book, struct err *err) MUST_CHECK;
void book_read_end(struct book *book);

/* book_put_X(book, X, err): adds the row.  X->row.id == 0: a new thing, whose
 * id is filled in; otherwise a new revision of that thing.  Only between
 * book_begin and book_commit. */
enum err_code book_put_info(
	struct book *, struct book_info *, struct err *) MUST_CHECK;
enum err_code book_put_material(
	struct book *, struct book_material *, struct err *) MUST_CHECK;
enum err_code book_put_material_lot(
	struct book *, struct book_material_lot *, struct err *) MUST_CHECK;
enum err_code book_put_mix(
	struct book *, struct book_mix *, struct err *) MUST_CHECK;
enum err_code book_put_mix_part(
	struct book *, struct book_mix_part *, struct err *) MUST_CHECK;
enum err_code book_put_trial(
	struct book *, struct book_trial *, struct err *) MUST_CHECK;
enum err_code book_put_rule(
	struct book *, struct book_rule *, struct err *) MUST_CHECK;
enum err_code book_put_batch(
	struct book *, struct book_batch *, struct err *) MUST_CHECK;
enum err_code book_put_settling(
	struct book *, struct book_settling *, struct err *) MUST_CHECK;
enum err_code book_put_specimen(
	struct book *, struct book_specimen *, struct err *) MUST_CHECK;
enum err_code book_put_reading(
	struct book *, struct book_reading *, struct err *) MUST_CHECK;
enum err_code book_put_part(
	struct book *, struct book_part *, struct err *) MUST_CHECK;
enum err_code book_put_requirement(
	struct book *, struct book_requirement *, struct err *) MUST_CHECK;
enum err_code book_put_decision(
	struct book *, struct book_decision *, struct err *) MUST_CHECK;
enum err_code book_put_material_basis(
	struct book *, struct book_material_basis *, struct err *) MUST_CHECK;
enum err_code book_put_gear(
	struct book *, struct book_gear *, struct err *) MUST_CHECK;
enum err_code book_put_generator(
	struct book *, struct book_generator *, struct err *) MUST_CHECK;
enum err_code book_put_foam_check(
	struct book *, struct book_foam_check *, struct err *) MUST_CHECK;
enum err_code book_put_part_use(
	struct book *, struct book_part_use *, struct err *) MUST_CHECK;
enum err_code book_put_part_layer(
	struct book *, struct book_part_layer *, struct err *) MUST_CHECK;
enum err_code book_put_prediction(
	struct book *, struct book_prediction *, struct err *) MUST_CHECK;
enum err_code book_put_warning(
	struct book *, struct book_warning *, struct err *) MUST_CHECK;
enum err_code book_put_foam_standing(
	struct book *, struct book_foam_standing *, struct err *) MUST_CHECK;
enum err_code book_put_rig(
	struct book *, struct book_rig *, struct err *) MUST_CHECK;
enum err_code book_put_rig_check(
	struct book *, struct book_rig_check *, struct err *) MUST_CHECK;
enum err_code book_put_file(
	struct book *, struct book_file *, struct err *) MUST_CHECK;
enum err_code book_put_trace(
	struct book *, struct book_trace *, struct err *) MUST_CHECK;
enum err_code book_put_trace_point(struct book *,
	const struct book_trace_point *, struct err *) MUST_CHECK;
enum err_code book_put_cure(
	struct book *, struct book_cure *, struct err *) MUST_CHECK;
enum err_code book_put_usual(
	struct book *, struct book_usual *, struct err *) MUST_CHECK;
enum err_code book_put_weight(
	struct book *, struct book_weight *, struct err *) MUST_CHECK;
enum err_code book_put_photo(
	struct book *, struct book_photo *, struct err *) MUST_CHECK;
enum err_code book_put_batch_part(
	struct book *, struct book_batch_part *, struct err *) MUST_CHECK;
enum err_code book_put_trial_slot(
	struct book *, struct book_trial_slot *, struct err *) MUST_CHECK;
enum err_code book_put_placing(
	struct book *, struct book_placing *, struct err *) MUST_CHECK;
enum err_code book_put_form(
	struct book *, struct book_form *, struct err *) MUST_CHECK;
enum err_code book_put_bending_session(
	struct book *, struct book_bending_session *, struct err *) MUST_CHECK;
enum err_code book_put_bending_step(
	struct book *, struct book_bending_step *, struct err *) MUST_CHECK;
/* decision_id is the decision's identity; the quantity belongs to the revision of
 * it that holds now, and goes with it. */
enum err_code book_put_quantity(
	struct book *, const struct book_quantity *, struct err *) MUST_CHECK;

/* book_all_X(book, arena, row, n, err): everything that holds now, in the order
 * first entered. */
enum err_code book_get_info(struct book *, struct arena *, struct book_info *,
	struct err *) MUST_CHECK;
enum err_code book_all_material(struct book *, struct arena *,
	const struct book_material **, size_t *, struct err *) MUST_CHECK;
enum err_code book_all_material_lot(struct book *, struct arena *,
	const struct book_material_lot **, size_t *, struct err *) MUST_CHECK;
enum err_code book_all_mix(struct book *, struct arena *,
	const struct book_mix **, size_t *, struct err *) MUST_CHECK;
enum err_code book_all_mix_part(struct book *, struct arena *,
	const struct book_mix_part **, size_t *, struct err *) MUST_CHECK;
enum err_code book_all_trial(struct book *, struct arena *,
	const struct book_trial **, size_t *, struct err *) MUST_CHECK;
enum err_code book_all_rule(struct book *, struct arena *,
	const struct book_rule **, size_t *, struct err *) MUST_CHECK;
enum err_code book_all_batch(struct book *, struct arena *,
	const struct book_batch **, size_t *, struct err *) MUST_CHECK;
enum err_code book_all_settling(struct book *, struct arena *,
	const struct book_settling **, size_t *, struct err *) MUST_CHECK;
enum err_code book_all_specimen(struct book *, struct arena *,
	const struct book_specimen **, size_t *, struct err *) MUST_CHECK;
enum err_code book_all_reading(struct book *, struct arena *,
	const struct book_reading **, size_t *, struct err *) MUST_CHECK;
enum err_code book_all_part(struct book *, struct arena *,
	const struct book_part **, size_t *, struct err *) MUST_CHECK;
enum err_code book_all_requirement(struct book *, struct arena *,
	const struct book_requirement **, size_t *, struct err *) MUST_CHECK;
enum err_code book_all_decision(struct book *, struct arena *,
	const struct book_decision **, size_t *, struct err *) MUST_CHECK;
enum err_code book_all_quantity(struct book *, struct arena *,
	const struct book_quantity **, size_t *, struct err *) MUST_CHECK;
enum err_code book_all_material_basis(struct book *, struct arena *,
	const struct book_material_basis **, size_t *, struct err *) MUST_CHECK;
enum err_code book_all_gear(struct book *, struct arena *,
	const struct book_gear **, size_t *, struct err *) MUST_CHECK;
enum err_code book_all_generator(struct book *, struct arena *,
	const struct book_generator **, size_t *, struct err *) MUST_CHECK;
enum err_code book_all_foam_check(struct book *, struct arena *,
	const struct book_foam_check **, size_t *, struct err *) MUST_CHECK;
enum err_code book_all_batch_part(struct book *, struct arena *,
	const struct book_batch_part **, size_t *, struct err *) MUST_CHECK;
enum err_code book_all_part_use(struct book *, struct arena *,
	const struct book_part_use **, size_t *, struct err *) MUST_CHECK;
enum err_code book_all_part_layer(struct book *, struct arena *,
	const struct book_part_layer **, size_t *, struct err *) MUST_CHECK;
enum err_code book_all_prediction(struct book *, struct arena *,
	const struct book_prediction **, size_t *, struct err *) MUST_CHECK;
enum err_code book_all_warning(struct book *, struct arena *,
	const struct book_warning **, size_t *, struct err *) MUST_CHECK;
enum err_code book_all_foam_standing(struct book *, struct arena *,
	const struct book_foam_standing **, size_t *, struct err *) MUST_CHECK;
enum err_code book_all_usual(struct book *, struct arena *,
	const struct book_usual **, size_t *, struct err *) MUST_CHECK;
enum err_code book_all_weight(struct book *, struct arena *,
	const struct book_weight **, size_t *, struct err *) MUST_CHECK;
enum err_code book_all_rig(struct book *, struct arena *,
	const struct book_rig **, size_t *, struct err *) MUST_CHECK;
enum err_code book_all_rig_check(struct book *, struct arena *,
	const struct book_rig_check **, size_t *, struct err *) MUST_CHECK;
enum err_code book_all_file(struct book *, struct arena *,
	const struct book_file **, size_t *, struct err *) MUST_CHECK;
enum err_code book_all_trace(struct book *, struct arena *,
	const struct book_trace **, size_t *, struct err *) MUST_CHECK;
enum err_code book_all_trace_point(struct book *, struct arena *,
	const struct book_trace_point **, size_t *, struct err *) MUST_CHECK;
enum err_code book_all_cure(struct book *, struct arena *,
	const struct book_cure **, size_t *, struct err *) MUST_CHECK;
enum err_code book_all_photo(struct book *, struct arena *,
	const struct book_photo **, size_t *, struct err *) MUST_CHECK;

/* book_photos_ever(book, batch_id, n, err): of a batch, those taken out too. */
enum err_code book_photos_ever(
	struct book *, int64_t batch_id, int64_t *n, struct err *) MUST_CHECK;

/* ---- files, byte for byte ---- */

/* Where bytes come from: read gives up to `room` of them, 0 at the end; rewind
 * begins anew.  Both report their own failure. */
struct book_source {
	enum err_code (*read)(void *context, char *bytes, size_t room,
		size_t *n, struct err *err);
	enum err_code (*rewind)(void *context, struct err *err);
	void *context;
};

/* Larger ones are not kept. */
enum { BOOK_FILE_MOST = 256 << 20, BOOK_FILE_CODE = 64 };

/* book_checksum(source, code, bytes, err): of all its bytes, as the code of a
 * file: BLAKE2b of 32 bytes (RFC 7693) in hexadecimal.
 * ERR_INPUT more than BOOK_FILE_MOST; what the source reports */
enum err_code book_checksum(const struct book_source *source,
	char code[BOOK_FILE_CODE + 1], int64_t *bytes,
	struct err *err) MUST_CHECK;

/* book_keep_file(book, row, source, err): within a write; fills code, bytes and
 * the identity of row.  Bytes that the book holds already are not kept again. */
enum err_code book_keep_file(struct book *, struct book_file *row,
	const struct book_source *source, struct err *err) MUST_CHECK;

/* book_read_file(book, file, take, context, err): its bytes in order, in pieces.
 * ERR_DAMAGED they are not those of its checksum */
typedef enum err_code (*book_take_bytes)(
	void *context, const char *bytes, size_t n, struct err *err);
enum err_code book_read_file(struct book *, const struct book_file *file,
	book_take_bytes take, void *context, struct err *err) MUST_CHECK;
enum err_code book_all_trial_slot(struct book *, struct arena *,
	const struct book_trial_slot **, size_t *, struct err *) MUST_CHECK;
enum err_code book_all_form(struct book *, struct arena *,
	const struct book_form **, size_t *, struct err *) MUST_CHECK;
enum err_code book_all_bending_session(struct book *, struct arena *,
	const struct book_bending_session **, size_t *,
	struct err *) MUST_CHECK;
enum err_code book_all_bending_step(struct book *, struct arena *,
	const struct book_bending_step **, size_t *, struct err *) MUST_CHECK;
enum err_code book_all_placing(struct book *, struct arena *,
	const struct book_placing **, size_t *, struct err *) MUST_CHECK;
enum err_code book_all_history(struct book *, struct arena *,
	const struct book_history **, size_t *, struct err *) MUST_CHECK;

/* A page of a long table: at most n_most rows that hold now, in the order first
 * entered, after the thing from_id (0: from the start) or, with back, before it
 * (0: from the end). */
struct book_page {
	int64_t from_id;
	bool back;
	size_t n_most;
};

/* book_page_X(book, arena, page, row, n, more, err): *more: there are rows
 * beyond the page, the way it goes.  By index: the place does not matter. */
enum err_code book_page_batch(struct book *, struct arena *,
	const struct book_page *, const struct book_batch **, size_t *, bool *,
	struct err *) MUST_CHECK;
enum err_code book_page_specimen(struct book *, struct arena *,
	const struct book_page *, const struct book_specimen **, size_t *,
	bool *, struct err *) MUST_CHECK;

/* What is at hand when one batch is made or judged, however long the book is:
 * that batch and all practice batches, in the order first entered; what went
 * into it; the foam checks of all these and the last of each generator.
 * *before: how many batches, or checks, the book holds that were entered before
 * that batch (all, if there is no such batch), or in all. */
enum err_code book_batches_at_hand(struct book *, struct arena *,
	const char *code, const struct book_batch **, size_t *, size_t *before,
	struct err *) MUST_CHECK;
enum err_code book_batch_parts_at_hand(struct book *, struct arena *,
	const char *code, const struct book_batch_part **, size_t *,
	struct err *) MUST_CHECK;
enum err_code book_foam_checks_at_hand(struct book *, struct arena *,
	const char *code, const struct book_foam_check **, size_t *,
	size_t *in_all, struct err *) MUST_CHECK;

/* book_one_X: by identity; book_X_of_batch: what holds now of one batch;
 * book_find_X: the identity of what has that code now (ERR_NOT_FOUND). */
enum err_code book_one_batch(struct book *, struct arena *, int64_t id,
	const struct book_batch **, struct err *) MUST_CHECK;
enum err_code book_one_specimen(struct book *, struct arena *, int64_t id,
	const struct book_specimen **, struct err *) MUST_CHECK;
enum err_code book_settling_of_batch(struct book *, struct arena *,
	int64_t batch_id, const struct book_settling **, size_t *,
	struct err *) MUST_CHECK;
enum err_code book_specimen_of_batch(struct book *, struct arena *,
	int64_t batch_id, const struct book_specimen **, size_t *,
	struct err *) MUST_CHECK;
enum err_code book_find_batch(
	struct book *, const char *code, int64_t *id, struct err *) MUST_CHECK;
enum err_code book_find_specimen(
	struct book *, const char *code, int64_t *id, struct err *) MUST_CHECK;

/* book_count_fates(book, arena, row, n, err): how many pieces of each mix met
 * each fate, practice batches left out. */
enum err_code book_count_fates(struct book *, struct arena *,
	const struct book_fate_count **, size_t *, struct err *) MUST_CHECK;

/* What a person may withdraw; a reading takes three words: the piece, the kind
 * and the reading's own code. */
enum book_thing {
	BOOK_A_MATERIAL,
	BOOK_A_MIX,
	BOOK_A_BATCH,
	BOOK_A_SPECIMEN,
	BOOK_A_READING,
	BOOK_A_PART,
	BOOK_A_PHOTO
};
enum { BOOK_THING_WORDS = 3 };

/* book_withdraw(book, arena, thing, word, err):
 * Between book_begin and book_commit.  A new revision says that the thing, and
 * what belongs to it (the pieces of a batch, the readings of a piece ...), no
 * longer holds; every earlier one stays.  ERR_NOT_FOUND; ERR_CONFLICT it was
 * withdrawn already, or something that holds uses it (the mix of a batch).
 * book_restore brings back what that withdrawal took. */
enum err_code book_withdraw(struct book *book, struct arena *arena,
	enum book_thing thing, const char *const word[BOOK_THING_WORDS],
	struct err *err) MUST_CHECK;
enum err_code book_restore(struct book *book, struct arena *arena,
	enum book_thing thing, const char *const word[BOOK_THING_WORDS],
	struct err *err) MUST_CHECK;

/* book_take_out_part(book, arena, id, err): a part of a mix no longer belongs to
 * it; between book_begin and book_commit.
 * book_part_taken_out(book, mix_id, material_id, id, err): the part of that mix
 * and material that was taken out before, so that putting it in again is its
 * next revision; 0: there was none. */
enum err_code book_take_out_part(struct book *book, struct arena *arena,
	int64_t id, struct err *err) MUST_CHECK;
enum err_code book_part_taken_out(struct book *book, int64_t mix_id,
	int64_t material_id, int64_t *id, struct err *err) MUST_CHECK;

/* Taken out, between book_begin and book_commit; put in again they are the same
 * thing's next revision.
 * book_take_out_requirement: the part no longer asks it; book_take_out_usual:
 * the kind of part asks it as the program brings it; book_take_out_weight: not
 * weighed any more. */
enum err_code book_take_out_requirement(struct book *book, struct arena *arena,
	int64_t id, struct err *err) MUST_CHECK;
enum err_code book_take_out_usual(struct book *book, struct arena *arena,
	int64_t id, struct err *err) MUST_CHECK;
enum err_code book_take_out_weight(struct book *book, struct arena *arena,
	int64_t id, struct err *err) MUST_CHECK;

/* Something withdrawn: "batch", its key as import makes it, its cells. */
struct book_gone {
	const char *what, *key, *typed;
};

/* book_all_gone(book, arena, row, n, err): what was withdrawn and is so still;
 * what an undoing took back is not among it, and may be imported again. */
enum err_code book_all_gone(struct book *book, struct arena *arena,
	const struct book_gone **row, size_t *n, struct err *err) MUST_CHECK;

/* An entry of the history and what it wrote, a line for each kind of thing. */
enum book_how { BOOK_MADE, BOOK_CHANGED, BOOK_TAKEN_BACK, BOOK_BROUGHT_BACK };
struct book_touched {
	const char *what; /* "batch", "reading" ... */
	size_t n;
	const char *words; /* the first three, commas between */
	enum book_how how;
};
/* What an undoing wrote; detail is for book_commit. */
struct book_undone {
	const char *detail;
	size_t n_thing;
	const struct book_touched *touched;
	size_t n_touched;
};
struct book_entry {
	int64_t id;
	const char *at, *who, *what, *detail;
	int64_t undone_by; /* an undoing that stands; 0: none */
	const struct book_touched *touched;
	size_t n_touched;
};

/* book_undo(book, arena, entry, out, err):
 * Between book_begin (as BOOK_UNDO_DEED) and book_commit with out->detail.  Each
 * thing that the entry wrote is what it was before, by a new revision: what held
 * then, or that it no longer holds.  Undoing an undoing brings it back.
 * ERR_NOT_FOUND  there is no such entry
 * ERR_CONFLICT   something later rests on it, which the sentence names; it was
 *                undone already; it is the beginning of the book */
#define BOOK_UNDO_DEED "undo"
enum err_code book_undo(struct book *book, struct arena *arena, int64_t entry,
	struct book_undone *out, struct err *err) MUST_CHECK;

/* book_page_history(book, arena, before, n_most, entry, n, more, err):
 * The newest first; before: only entries before that one (0: all); n_most 0:
 * all. */
enum err_code book_page_history(struct book *book, struct arena *arena,
	int64_t before, size_t n_most, const struct book_entry **entry,
	size_t *n, bool *more, struct err *err) MUST_CHECK;

/* book_search(book, arena, word, n_word, n_most, hit, n, more, err):
 * What holds now and has all words (1 to BOOK_SEARCH_WORDS) in its code or its
 * texts; capitals of ASCII letters count as small ones.  A code given whole
 * comes first. */
enum { BOOK_SEARCH_WORDS = 4 };
struct book_hit {
	const char *kind; /* its table */
	const char *what; /* "test piece" */
	const char *name, *text;
	int64_t id; /* identity */
};
enum err_code book_search(struct book *book, struct arena *arena,
	const char *const *word, size_t n_word, size_t n_most,
	const struct book_hit **hit, size_t *n, bool *more,
	struct err *err) MUST_CHECK;

/* book_verify(book, arena, n_entry, err): recomputes every digest over every
 * stored row.  ERR_DAMAGED names the first entry whose rows or chain differ. */
enum err_code book_verify(struct book *book, struct arena *arena,
	size_t *n_entry, struct err *err) MUST_CHECK;

#endif /* BOOK_BOOK_H */
