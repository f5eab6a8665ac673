/* book_priv.h - the open book, and rows described by their columns. */
#ifndef BOOK_BOOK_PRIV_H
#define BOOK_BOOK_PRIV_H

#include "book/book.h"

#include <sqlite3.h>
#include <stddef.h>

/* Tables in the order in which a digest goes through them. */
enum book_table {
	BOOK_INFO,
	BOOK_MATERIAL,
	BOOK_MATERIAL_LOT,
	BOOK_MIX,
	BOOK_MIX_PART,
	BOOK_TRIAL,
	BOOK_RULE,
	BOOK_BATCH,
	BOOK_SETTLING,
	BOOK_SPECIMEN,
	BOOK_READING,
	BOOK_READING_BENDING,
	BOOK_READING_DROP,
	BOOK_READING_CRUSHING,
	BOOK_READING_WEIGHING,
	BOOK_READING_OTHER,
	BOOK_PART,
	BOOK_REQUIREMENT,
	BOOK_DECISION,
	BOOK_QUANTITY,
	BOOK_MATERIAL_BASIS,
	BOOK_GEAR,
	BOOK_GENERATOR,
	BOOK_FOAM_CHECK,
	BOOK_BATCH_PART,
	BOOK_TRIAL_SLOT,
	BOOK_FORM,
	BOOK_BENDING_SESSION,
	BOOK_BENDING_STEP,
	BOOK_PLACING,
	BOOK_PART_USE,
	BOOK_PART_LAYER,
	BOOK_PREDICTION,
	BOOK_WARNING,
	BOOK_FOAM_STANDING,
	BOOK_RIG,
	BOOK_RIG_CHECK,
	BOOK_FILE,
	BOOK_FILE_PIECE,
	BOOK_TRACE,
	BOOK_TRACE_POINT,
	BOOK_CURE,
	BOOK_READING_WATER,
	BOOK_READING_LENGTH,
	BOOK_READING_SCREW,
	BOOK_READING_FROST,
	BOOK_READING_HOT_BOX,
	BOOK_USUAL,
	BOOK_WEIGHT,
	BOOK_PHOTO,
	BOOK_N_TABLE
};

enum book_type {
	BOOK_TEXT,        /* const char *, never NULL */
	BOOK_TEXT_MAYBE,  /* const char *, "" is NULL in the file */
	BOOK_REAL,        /* double */
	BOOK_MAYBE,       /* struct maybe of a REAL */
	BOOK_MAYBE_WHOLE, /* struct maybe of an INTEGER */
	BOOK_ID,          /* int64_t */
	BOOK_ID_MAYBE,    /* int64_t, 0 is NULL in the file */
	BOOK_FLAG,        /* bool */
	BOOK_CENTS,       /* int64_t after a bool: NULL where that is false */
	BOOK_AFTER        /* bool as 'before' / 'after' */
};

struct book_column {
	enum book_type type;
	size_t offset;
	size_t flag_offset; /* BOOK_CENTS: its bool */
};

/* A table, its two statements, and where its columns stand in the struct.  The
 * columns follow id, origin, revision, history_id, typed in insert, and
 * origin, revision, typed in select; kinds of readings have only reading_id
 * and history_id before theirs. */
struct book_schema {
	const char *insert, *select, *next_id, *next_revision;
	/* Long tables alone: backwards from an id, the id of a code, the rows
	 * of one batch. */
	const char *back, *find, *of_batch;
	/* What is at hand of one batch, and how many there are: ?1 its code. */
	const char *at_hand, *count;
	const char *digest; /* all rows with a key above ?, whole, by key */
	const struct book_column *column;
	size_t n_column, size;
	/* What a person calls it; whether another one that holds now has its
	 * key, the columns of which are bound from ?2 on.  NULL: no key. */
	const char *what, *taken;
	unsigned char key[3];
	size_t n_key;
};

extern const struct book_schema book_schemas[BOOK_N_TABLE];

struct book {
	sqlite3 *db;
	enum book_access access;
	char *copy; /* where the older book was copied to; NULL: it was not */
	bool in_write;
	size_t n_read; /* pairs of book_read_begin that are open */
	int64_t history_id, at_utc_s;        /* of the write that is open */
	const char *who, *what, *submission; /* borrowed until commit */
	/* the largest key when it began; known where rows were added */
	int64_t before[BOOK_N_TABLE];
	size_t n_added;
	sqlite3_stmt *insert[BOOK_N_TABLE];
	sqlite3_stmt *next_id[BOOK_N_TABLE], *next_revision[BOOK_N_TABLE];
	sqlite3_stmt *taken[BOOK_N_TABLE], *select[BOOK_N_TABLE];
	sqlite3_stmt *back[BOOK_N_TABLE], *of_batch[BOOK_N_TABLE],
		*at_hand[BOOK_N_TABLE], *count[BOOK_N_TABLE];
	sqlite3_stmt *from[BOOK_N_TABLE]; /* the first row from an id on */
};

enum { BOOK_DIGEST = 32 };

/* book_fault(book, doing, err): SQLite's last fault as our report. */
enum err_code book_fault(struct book *book, const char *doing, struct err *err);

/* book_run(book, sql, doing, err): statements without an answer; doing is
 * "read" or "write". */
enum err_code book_run(struct book *book, const char *sql, const char *doing,
	struct err *err) MUST_CHECK;

/* book_use(book, statement, sql, err): a statement that the book keeps, prepared
 * or as it was before its first step.
 * book_ask_number(book, statement, sql, bound, number, err): one whole number
 * from such a one, with at most one id to bind. */
enum err_code book_use(struct book *book, sqlite3_stmt **statement,
	const char *sql, struct err *err) MUST_CHECK;
enum err_code book_ask_number(struct book *book, sqlite3_stmt **statement,
	const char *sql, int64_t bound, int64_t *number,
	struct err *err) MUST_CHECK;

/* book_one_number(book, sql, number, err): of a statement that gives one. */
enum err_code book_one_number(struct book *book, const char *sql,
	int64_t *number, struct err *err) MUST_CHECK;

/* book_touch(book, table, err): before a row is added to a table, so that the entry digests what
 * was added to it. */
enum { BOOK_UNTOUCHED = -1 };
enum err_code book_touch(
	struct book *book, enum book_table table, struct err *err) MUST_CHECK;

/* book_note_state / book_add_entry(book, detail, err): what the digest of the
 * write that is open begins from, and its entry in the history. */
enum err_code book_note_state(struct book *book, struct err *err) MUST_CHECK;
enum err_code book_add_entry(
	struct book *book, const char *detail, struct err *err) MUST_CHECK;

/* book_prepare(book, sql, statement, err): a statement the caller finalizes. */
enum err_code book_prepare(struct book *book, const char *sql,
	sqlite3_stmt **statement, struct err *err) MUST_CHECK;

/* book_read_ids(book, arena, sql, bound, n_bound, id, n, err): the whole numbers
 * that a statement gives, read whole. */
enum err_code book_read_ids(struct book *book, struct arena *arena,
	const char *sql, const int64_t *bound, int n_bound, int64_t **id,
	size_t *n, struct err *err) MUST_CHECK;

/* book_say_marked(arena, marked): the words of things.h, without the marks of
 * BOOK_SAID and what stands between them in the arena's tongue; NULL if memory
 * ran out. */
char *book_say_marked(struct arena *arena, const char *marked);

/* book_words_of(book, table, id, words, err): "batch 03" of a row's id.
 * book_entry_of(book, table, id, entry, err): the entry that wrote it.
 * book_rows_of_entry(book, table, entry, range, err): it wrote the rows from
 * range[0] up to before range[1]. */
enum { BOOK_WORDS_ROOM = 160 };
enum err_code book_words_of(struct book *book, enum book_table table,
	int64_t id, char words[BOOK_WORDS_ROOM], struct err *err) MUST_CHECK;
enum err_code book_entry_of(struct book *book, enum book_table table,
	int64_t id, int64_t *entry, struct err *err) MUST_CHECK;
enum err_code book_rows_of_entry(struct book *book, enum book_table table,
	int64_t entry, int64_t range[2], struct err *err) MUST_CHECK;

/* book_undone_by(book, arena, entry, by, err): the undoing of it that stands; 0:
 * none. */
enum err_code book_undone_by(struct book *book, struct arena *arena,
	int64_t entry, int64_t *by, struct err *err) MUST_CHECK;

/* book_touched_by(book, arena, entry, row, n, err): what it wrote, in words. */
enum err_code book_touched_by(struct book *book, struct arena *arena,
	int64_t entry, const struct book_touched **row, size_t *n,
	struct err *err) MUST_CHECK;

/* book_copy_quantities(book, old_id, new_id, err): what was counted for one
 * revision of a decision, again for another. */
enum err_code book_copy_quantities(struct book *book, int64_t old_id,
	int64_t new_id, struct err *err) MUST_CHECK;

/* book_undo_knows(table, column): does undoing know this column as one that
 * rests on another thing; with column NULL, the table as one of things. */
bool book_undo_knows(const char *table, const char *column);

/* book_digest_rows(book, digest, err): over every row added since book_begin. */
enum err_code book_digest_rows(struct book *book,
	unsigned char digest[BOOK_DIGEST], struct err *err) MUST_CHECK;

/* book_chain(previous, id, at, who, what, detail, submission, rows, chain): the digest that
 * binds an entry of the history to the one before. */
void book_chain(const unsigned char previous[BOOK_DIGEST], int64_t id,
	const char *at, const char *who, const char *what, const char *detail,
	const char *submission, const unsigned char rows[BOOK_DIGEST],
	unsigned char chain[BOOK_DIGEST]);

#endif /* BOOK_BOOK_PRIV_H */
