/* undo.c - an entry of the history put back by another one.
 *
 * What the entry wrote gets one more revision: what held before it, or that
 * the thing no longer holds.  Nothing that was written is touched. */
#include "book/book_priv.h"

#include "book/things.h"
#include "core/text.h"

#include <stdlib.h>
#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

struct thing_sql {
	enum book_table table;
	const char *origins; /* written by the rows from ?1 up to before ?2 */
	const char *before;  /* the row of ?1 that held before entry ?2 */
	const char *stage, *copy, *paste;
	const char *key_row; /* whole, with its columns in order */
};

#define NAMED(name_, file_, words_)                                            \
	{.table = name_,                                                       \
		.origins = "SELECT DISTINCT origin FROM " file_                \
			   " WHERE id >= ?1 AND id < ?2 ORDER BY origin",      \
		.before =                                                      \
			"SELECT t.id, t.revision, t.withdrawn, t.history_id, " \
			"h.what, h.detail FROM " file_                         \
			" AS t LEFT JOIN history AS h ON h.id = "              \
			"t.history_id WHERE t.origin = ?1 AND t.history_id "   \
			"< ?2 ORDER BY t.revision DESC LIMIT 1",               \
		.stage = "CREATE TEMP TABLE again AS SELECT * FROM " file_     \
			 " WHERE 0",                                           \
		.copy = "INSERT INTO again SELECT * FROM " file_               \
			" WHERE id = ?1",                                      \
		.paste = "INSERT INTO " file_ " SELECT * FROM again",          \
		.key_row = "SELECT * FROM " file_                              \
			   " WHERE id > ?1 AND withdrawn = 0 ORDER BY id"},

static const struct thing_sql things[] = {BOOK_THINGS(NAMED)};

#undef NAMED

/* What the tables of the kinds add to a reading; ?1 the old row, ?2 the new. */
static const struct {
	enum book_table table;
	const char *stage, *copy, *paste;
} kinds[] = {
#define KIND(table_, table)                                               \
	{                                                                 \
		table_,                                                   \
			"CREATE TEMP TABLE again AS SELECT * FROM " table \
			" WHERE 0",                                       \
			"INSERT INTO again SELECT * FROM " table          \
			" WHERE reading_id = ?1",                         \
			"INSERT INTO " table " SELECT * FROM again"       \
	}
	KIND(BOOK_READING_BENDING, "reading_bending"),
	KIND(BOOK_READING_DROP, "reading_drop"),
	KIND(BOOK_READING_CRUSHING, "reading_crushing"),
	KIND(BOOK_READING_WEIGHING, "reading_weighing"),
	KIND(BOOK_READING_OTHER, "reading_other"),
	KIND(BOOK_READING_WATER, "reading_water"),
	KIND(BOOK_READING_LENGTH, "reading_length"),
	KIND(BOOK_READING_SCREW, "reading_screw"),
	KIND(BOOK_READING_FROST, "reading_frost"),
	KIND(BOOK_READING_HOT_BOX, "reading_hot_box"),
#undef KIND
};

/* ---- what rests on what ---- */

#define LATEST(alias, table)                                  \
	alias ".revision = (SELECT max(revision) FROM " table \
	      " AS n WHERE n.origin = " alias ".origin)"
#define IS_NOW(alias, table) alias ".withdrawn = 0 AND " LATEST(alias, table)
#define IS_GONE(alias, table) alias ".withdrawn = 1 AND " LATEST(alias, table)

/* Rows that hold and point at what this write took back (ids above ?1), or
 * rows that this write brought back and that point at what is gone. */
struct rests {
	enum book_table user, owner;
	bool by_user;    /* ?1 goes by the rows of the user */
	const char *sql; /* gives the row of the user and that of the owner */
};

#define REFERENCE(user_, user_file, column, owner_, owner_file)               \
	{user_, owner_, false,                                                \
		"SELECT u.id, o.id FROM " owner_file                          \
		" AS o CROSS JOIN " user_file " AS u ON u." column            \
		" = o.origin WHERE o.id > ?1 AND " IS_GONE(                   \
			"o", owner_file) " AND " IS_NOW("u",                  \
			user_file) " LIMIT 1"},                               \
		{user_, owner_, true,                                         \
			"SELECT u.id, o.id FROM " user_file                   \
			" AS u CROSS JOIN " owner_file " AS o ON o.origin = " \
			"u." column " WHERE u.id > ?1 AND " IS_NOW(           \
				"u", user_file) " AND " IS_GONE("o",          \
				owner_file) " LIMIT 1"},

static const struct rests rests[] = {
	BOOK_REFERENCES(REFERENCE)
	/* A mix names the plain mix of its matrix by its code; the steps of a
	 * beam's loading rest on its beginning and on the steps before. */
	{BOOK_MIX, BOOK_MIX, false,
		"SELECT u.id, o.id FROM mix AS o CROSS JOIN mix AS u ON "
		"u.matrix_code = o.code AND u.origin <> o.origin WHERE o.id > "
		"?1 AND " IS_GONE("o", "mix") " AND " IS_NOW(
			"u", "mix") " LIMIT 1"},
	{BOOK_BENDING_STEP, BOOK_BENDING_SESSION, false,
		"SELECT u.id, o.id FROM bending_session AS o CROSS JOIN "
		"bending_step AS u ON u.specimen_id = o.specimen_id AND "
		"u.code = o.code WHERE o.id > ?1 AND " IS_GONE(
			"o", "bending_session") " AND " IS_NOW("u",
			"bending_step") " LIMIT 1"},
	{BOOK_BENDING_STEP, BOOK_BENDING_STEP, false,
		"SELECT u.id, o.id FROM bending_step AS o CROSS JOIN "
		"bending_step AS u ON u.specimen_id = o.specimen_id AND "
		"u.code = o.code AND u.place > o.place WHERE o.id > ?1 "
		"AND " IS_GONE("o", "bending_step") " AND " IS_NOW(
			"u", "bending_step") " LIMIT 1"},
};

#undef REFERENCE

bool
book_undo_knows(const char *table, const char *column)
{
	static const char *const pair[][2] = {
#define PAIR(user, user_file, column_, owner, owner_file) {user_file, column_},
		BOOK_REFERENCES(PAIR) BOOK_MERE_REFERENCES(PAIR)
#undef PAIR
	};
	static const char *const name[] = {
#define NAME(table_, file, words) file,
		BOOK_THINGS(NAME)
#undef NAME
	};

	for (size_t i = 0; i < COUNT(pair) && column != NULL; i++)
		if (strcmp(pair[i][0], table) == 0 &&
			strcmp(pair[i][1], column) == 0)
			return true;
	for (size_t i = 0; i < COUNT(name) && column == NULL; i++)
		if (strcmp(name[i], table) == 0)
			return true;
	return false;
}

/* ---- one thing before an entry ---- */

struct state {
	int64_t id; /* 0: there was nothing */
	int64_t revision, history_id;
	bool withdrawn;
	int64_t owner; /* the entry whose deed it is, undoing seen through */
};

/* The entry that an undoing put back: the number after "entry ". */
static int64_t
undone_entry(const char *what, const char *detail)
{
	static const char before[] = "entry ";
	const size_t n = sizeof before - 1;

	if (what == NULL || detail == NULL ||
		strcmp(what, BOOK_UNDO_DEED) != 0 ||
		strncmp(detail, before, n) != 0)
		return 0;
	return strtoll(detail + n, NULL, 10); /* 0: no number */
}

static enum err_code
read_before(struct book *book, sqlite3_stmt *s, int64_t origin, int64_t entry,
	struct state *state, int64_t *undone, struct err *err)
{
	int rc;

	(void)sqlite3_reset(s);
	(void)sqlite3_bind_int64(s, 1, origin);
	(void)sqlite3_bind_int64(s, 2, entry);
	rc = sqlite3_step(s);
	*state = (struct state){0};
	*undone = 0;
	if (rc == SQLITE_DONE)
		return ERR_NONE;
	if (rc != SQLITE_ROW)
		return book_fault(book, "read", err);
	*state = (struct state){.id = sqlite3_column_int64(s, 0),
		.revision = sqlite3_column_int64(s, 1),
		.withdrawn = sqlite3_column_int(s, 2) != 0,
		.history_id = sqlite3_column_int64(s, 3)};
	state->owner = state->history_id;
	*undone = undone_entry((const char *)sqlite3_column_text(s, 4),
		(const char *)sqlite3_column_text(s, 5));
	return ERR_NONE;
}

/* What an undoing left is the deed of whoever wrote it first. */
static enum err_code
state_before(struct book *book, sqlite3_stmt *s, int64_t origin, int64_t entry,
	struct state *state, struct err *err)
{
	struct state earlier;
	int64_t undone;

	TRY(read_before(book, s, origin, entry, state, &undone, err));
	while (undone > 0 && undone < entry) {
		entry = undone;
		TRY(read_before(
			book, s, origin, entry, &earlier, &undone, err));
		state->owner = earlier.owner;
	}
	return ERR_NONE;
}

/* ---- sentences ---- */

static enum err_code
refuse_changed(struct book *book, struct arena *arena,
	const struct thing_sql *sql, int64_t entry, const struct state *left,
	const struct state *now, struct err *err)
{
	char words[BOOK_WORDS_ROOM];
	int64_t by = 0;

	TRY(book_words_of(book, sql->table, left->id, words, err));
	TRY(book_undone_by(book, arena, entry, &by, err));
	if (by != 0)
		return err_report(err, ERR_CONFLICT, "entry",
			"Entry %lld was undone already, by entry %lld; undo "
			"that one to have it again. Nothing was changed.",
			(long long)entry, (long long)by);
	return err_report(err, ERR_CONFLICT, "entry",
		"Entry %lld cannot be undone: %s was written again by entry "
		"%lld. Undo that one first; nothing was changed.",
		(long long)entry, words, (long long)now->history_id);
}

static enum err_code
refuse_resting(struct book *book, const struct rests *r, int64_t entry,
	const int64_t id[2], struct err *err)
{
	char user[BOOK_WORDS_ROOM], owner[BOOK_WORDS_ROOM];
	int64_t by = 0;

	TRY(book_words_of(book, r->user, id[0], user, err));
	TRY(book_words_of(book, r->owner, id[1], owner, err));
	TRY(book_entry_of(book, r->by_user ? r->owner : r->user, id[r->by_user],
		&by, err));
	if (r->by_user)
		return err_report(err, ERR_CONFLICT, "entry",
			"Entry %lld cannot be undone: that would bring back "
			"%s, "
			"which rests on %s, and that was taken back by entry "
			"%lld. Undo that one first; nothing was changed.",
			(long long)entry, user, owner, (long long)by);
	return err_report(err, ERR_CONFLICT, "entry",
		"Entry %lld cannot be undone: %s, written by entry %lld, rests "
		"on %s. Undo that one first; nothing was changed.",
		(long long)entry, user, (long long)by, owner);
}

/* ---- writing ---- */

struct pair {
	int64_t old_id, new_id;
	bool withdrawn;
};

struct undoing {
	struct book *book;
	struct arena *arena;
	int64_t entry;
	struct err *err;
	size_t n_thing;
};

static enum err_code
run(struct book *book, sqlite3_stmt *s, const int64_t *value, int n,
	struct err *err)
{
	int rc;

	(void)sqlite3_reset(s);
	for (int i = 0; i < n; i++)
		(void)sqlite3_bind_int64(s, i + 1, value[i]);
	rc = sqlite3_step(s);
	if (rc != SQLITE_DONE)
		return book_fault(book, "write", err);
	(void)sqlite3_reset(s);
	return ERR_NONE;
}

/* The row to write for one thing: what held before, or the last one as gone. */
static enum err_code
put_back(struct undoing *u, const struct thing_sql *sql, sqlite3_stmt *before,
	int64_t origin, struct pair *pair, int64_t *revision)
{
	struct state was, left, now;

	TRY(state_before(u->book, before, origin, u->entry, &was, u->err));
	TRY(state_before(u->book, before, origin, u->entry + 1, &left, u->err));
	TRY(state_before(u->book, before, origin, INT64_MAX, &now, u->err));
	if (now.owner != left.owner)
		return refuse_changed(
			u->book, u->arena, sql, u->entry, &left, &now, u->err);
	if (was.id == 0 && sql->table == BOOK_INFO)
		return err_report(u->err, ERR_CONFLICT, "entry",
			"Entry %lld is the beginning of the book and stays; "
			"nothing was changed.",
			(long long)u->entry);
	pair->old_id = was.id != 0 ? was.id : left.id;
	pair->withdrawn = was.id == 0 || was.withdrawn;
	*revision = now.revision + 1;
	return ERR_NONE;
}

/* One table through a table of this connection, whatever columns it has. */
static enum err_code
copy_things(struct undoing *u, const struct thing_sql *sql,
	const int64_t *origin, size_t n, struct pair *pair, sqlite3_stmt **s)
{
	struct book *book = u->book;
	int64_t id = 0;

	TRY(book_one_number(
		book, book_schemas[sql->table].next_id, &id, u->err));
	TRY(book_run(book, sql->stage, "write", u->err));
	TRY(book_prepare(book, sql->before, &s[0], u->err));
	TRY(book_prepare(book, sql->copy, &s[1], u->err));
	TRY(book_prepare(book,
		"UPDATE again SET id = ?1, revision = ?2, withdrawn = ?3, "
		"history_id = ?4 WHERE rowid = ?5",
		&s[2], u->err));
	for (size_t i = 0; i < n; i++) {
		int64_t revision = 0;

		TRY(put_back(u, sql, s[0], origin[i], &pair[i], &revision));
		pair[i].new_id = ++id;
		TRY(run(book, s[1], &pair[i].old_id, 1, u->err));
		TRY(run(book, s[2],
			(const int64_t[]){id, revision, pair[i].withdrawn,
				book->history_id, (int64_t)i + 1},
			5, u->err));
	}
	return ERR_NONE;
}

static enum err_code
paste(struct book *book, const char *sql, sqlite3_stmt **s, size_t n,
	enum err_code code, struct err *err)
{
	for (size_t i = 0; i < n; i++) {
		(void)sqlite3_finalize(s[i]);
		s[i] = NULL;
	}
	if (code == ERR_NONE)
		code = book_run(book, sql, "write", err);
	if (code == ERR_NONE)
		code = book_run(book, "DROP TABLE temp.again", "write", err);
	return code;
}

static enum err_code
copy_kinds(struct undoing *u, const struct pair *pair, size_t n)
{
	for (size_t k = 0; k < COUNT(kinds); k++) {
		sqlite3_stmt *s[2] = {NULL, NULL};
		enum err_code code;

		TRY(book_touch(u->book, kinds[k].table, u->err));
		TRY(book_run(u->book, kinds[k].stage, "write", u->err));
		code = book_prepare(u->book, kinds[k].copy, &s[0], u->err);
		if (code == ERR_NONE)
			code = book_prepare(u->book,
				"UPDATE again SET reading_id = ?1, history_id "
				"= ?2 WHERE rowid = last_insert_rowid()",
				&s[1], u->err);
		for (size_t i = 0; i < n && code == ERR_NONE; i++) {
			code = run(u->book, s[0], &pair[i].old_id, 1, u->err);
			if (code == ERR_NONE &&
				sqlite3_changes(u->book->db) == 1)
				code = run(u->book, s[1],
					(const int64_t[]){pair[i].new_id,
						u->book->history_id},
					2, u->err);
		}
		TRY(paste(u->book, kinds[k].paste, s, COUNT(s), code, u->err));
	}
	return ERR_NONE;
}

enum err_code
book_copy_quantities(
	struct book *book, int64_t old_id, int64_t new_id, struct err *err)
{
	static const char sql[] =
		"INSERT INTO quantity (id, history_id, decision_id, what, "
		"value, unit) SELECT (SELECT coalesce(max(id), 0) FROM "
		"quantity) + row_number() OVER (ORDER BY id), ?3, ?2, what, "
		"value, unit FROM quantity WHERE decision_id = ?1";
	sqlite3_stmt *s = NULL;
	enum err_code code;

	TRY(book_touch(book, BOOK_QUANTITY, err));
	TRY(book_prepare(book, sql, &s, err));
	code = run(book, s, (const int64_t[]){old_id, new_id, book->history_id},
		3, err);
	(void)sqlite3_finalize(s);
	return code;
}

static enum err_code
undo_table(struct undoing *u, const struct thing_sql *sql)
{
	sqlite3_stmt *s[3] = {NULL, NULL, NULL};
	struct pair *pair;
	int64_t *origin = NULL, range[2];
	enum err_code code;
	size_t n = 0;

	TRY(book_rows_of_entry(u->book, sql->table, u->entry, range, u->err));
	if (range[0] == range[1])
		return ERR_NONE;
	TRY(book_read_ids(u->book, u->arena, sql->origins, range, 2, &origin,
		&n, u->err));
	pair = arena_take(u->arena, n, sizeof *pair);
	if (pair == NULL)
		return err_memory(u->err);
	TRY(book_touch(u->book, sql->table, u->err));
	code = copy_things(u, sql, origin, n, pair, s);
	TRY(paste(u->book, sql->paste, s, COUNT(s), code, u->err));
	u->book->n_added += n;
	u->n_thing += n;
	if (sql->table == BOOK_READING)
		TRY(copy_kinds(u, pair, n));
	for (size_t i = 0; i < n && sql->table == BOOK_DECISION; i++)
		if (!pair[i].withdrawn)
			TRY(book_copy_quantities(u->book, pair[i].old_id,
				pair[i].new_id, u->err));
	return ERR_NONE;
}

/* ---- does the book still hang together? ---- */

static enum err_code
check_rests(struct undoing *u)
{
	struct book *book = u->book;

	for (size_t i = 0; i < COUNT(rests); i++) {
		const struct rests *r = &rests[i];
		int64_t from = book->before[r->by_user ? r->user : r->owner];
		int64_t id[2] = {0, 0};
		sqlite3_stmt *s = NULL;
		int rc;

		if (from == BOOK_UNTOUCHED) /* nothing was written there */
			continue;
		TRY(book_prepare(book, r->sql, &s, u->err));
		(void)sqlite3_bind_int64(s, 1, from);
		rc = sqlite3_step(s);
		if (rc == SQLITE_ROW) {
			id[0] = sqlite3_column_int64(s, 0);
			id[1] = sqlite3_column_int64(s, 1);
		}
		(void)sqlite3_finalize(s);
		if (rc == SQLITE_ROW)
			return refuse_resting(book, r, u->entry, id, u->err);
		if (rc != SQLITE_DONE)
			return book_fault(book, "read", u->err);
	}
	return ERR_NONE;
}

/* Another thing may have taken the code in between. */
static enum err_code
check_keys(struct undoing *u, const struct thing_sql *sql)
{
	enum { LEAD = 6 }; /* id ... typed come before the table's own */
	const struct book_schema *schema = &book_schemas[sql->table];
	sqlite3_stmt *row = NULL, *taken = NULL;
	enum err_code code = ERR_NONE;
	int rc = SQLITE_DONE;

	if (schema->taken == NULL ||
		u->book->before[sql->table] == BOOK_UNTOUCHED)
		return ERR_NONE;
	TRY(book_prepare(u->book, sql->key_row, &row, u->err));
	code = book_prepare(u->book, schema->taken, &taken, u->err);
	(void)sqlite3_bind_int64(row, 1, u->book->before[sql->table]);
	while (code == ERR_NONE && (rc = sqlite3_step(row)) == SQLITE_ROW) {
		(void)sqlite3_reset(taken);
		(void)sqlite3_bind_int64(
			taken, 1, sqlite3_column_int64(row, 1));
		for (size_t k = 0; k < schema->n_key; k++)
			(void)sqlite3_bind_value(taken, (int)k + 2,
				sqlite3_column_value(
					row, LEAD + schema->key[k]));
		if (sqlite3_step(taken) == SQLITE_ROW &&
			sqlite3_column_int(taken, 1) == 0)
			code = err_report(u->err, ERR_CONFLICT, "entry",
				"Entry %lld cannot be undone: another %s has "
				"the same code by now. Nothing was changed.",
				(long long)u->entry, schema->what);
	}
	if (code == ERR_NONE && rc != SQLITE_DONE)
		code = book_fault(u->book, "read", u->err);
	(void)sqlite3_finalize(row);
	(void)sqlite3_finalize(taken);
	return code;
}

static enum err_code
write_and_check(struct undoing *u)
{
	for (size_t i = 0; i < COUNT(things); i++)
		TRY(undo_table(u, &things[i]));
	if (u->n_thing == 0)
		return err_report(u->err, ERR_CONFLICT, "entry",
			"Entry %lld wrote nothing that can be put back; "
			"nothing was changed.",
			(long long)u->entry);
	TRY(check_rests(u));
	for (size_t i = 0; i < COUNT(things); i++)
		TRY(check_keys(u, &things[i]));
	return ERR_NONE;
}

enum err_code
book_undo(struct book *book, struct arena *arena, int64_t entry,
	struct book_undone *out, struct err *err)
{
	struct undoing u = {
		.book = book, .arena = arena, .entry = entry, .err = err};
	static const char sql[] =
		"SELECT what, substr(detail, 1, 60) FROM history WHERE id = ?1";
	sqlite3_stmt *s = NULL;
	const char *text = NULL;
	bool is_there;

	TRY(book_prepare(book, sql, &s, err));
	(void)sqlite3_bind_int64(s, 1, entry);
	is_there = sqlite3_step(s) == SQLITE_ROW;
	if (is_there) {
		const char *more = (const char *)sqlite3_column_text(s, 1);

		text = text_format(arena, "entry %lld, %s%s%s",
			(long long)entry,
			(const char *)sqlite3_column_text(s, 0),
			more[0] != '\0' ? " " : "", more);
	}
	(void)sqlite3_finalize(s);
	if (!is_there)
		return err_report(err, ERR_NOT_FOUND, "entry",
			"There is no entry %lld in this book; \"foamwright "
			"history\" lists them.",
			(long long)entry);
	if (text == NULL)
		return err_memory(err);
	TRY(write_and_check(&u));
	*out = (struct book_undone){.detail = text, .n_thing = u.n_thing};
	return book_touched_by(book, arena, book->history_id, &out->touched,
		&out->n_touched, err);
}
