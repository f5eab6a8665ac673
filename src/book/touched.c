/* touched.c - entries of the history, and what each wrote in words.
 *
 * Rows of one entry stand together in each table and entries follow one
 * another, so the rows of an entry are found by halving. */
#include "book/book_priv.h"

#include "book/things.h"
#include "core/text.h"

#include <stdio.h>
#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

enum { WORDS_SHOWN = 3, LOOKED_AT = 2000 };

static const struct {
	enum book_table table;
	const char *from;   /* the first row from id ?1 on */
	const char *words;  /* of row ?1 */
	const char *groups; /* what rows from ?1 up to before ?2 left */
} names[] = {
#define NAMED(table_, file, words_)                                          \
	{.table = table_,                                                    \
		.from = "SELECT id, history_id FROM " file                   \
			" WHERE id >= ?1 ORDER BY id LIMIT 1",               \
		.words = "SELECT " words_ " FROM " file                      \
			 " AS t WHERE t.id = ?1",                            \
		.groups = "SELECT CASE WHEN t.withdrawn = 1 THEN 2 WHEN "    \
			  "p.id IS NULL THEN 0 WHEN p.withdrawn = 1 THEN 3 " \
			  "ELSE 1 END, max(t.revision), t.id FROM " file     \
			  " AS t LEFT JOIN " file                            \
			  " AS p ON p.origin = t.origin AND p.revision = "   \
			  "(SELECT max(revision) FROM " file                 \
			  " AS n WHERE n.origin = t.origin AND n.id < ?1) "  \
			  "WHERE t.id >= ?1 AND t.id < ?2 GROUP BY "         \
			  "t.origin ORDER BY t.id"},
	BOOK_THINGS(NAMED)
#undef NAMED
};

static size_t
place_of(enum book_table table)
{
	size_t i = 0;

	while (i + 1 < COUNT(names) && names[i].table != table)
		i++;
	return i;
}

/* Every second piece between marks of BOOK_SAID is looked up; what has no room
 * is left out. */
static void
say_marked(
	const struct tongue *tongue, const char *marked, char *out, size_t room)
{
	bool is_said = false;
	size_t n = 0;

	out[0] = '\0';
	for (;; is_said = !is_said) {
		size_t length = strcspn(marked, "\1");
		char word[BOOK_WORDS_ROOM];
		const char *said = word;

		(void)snprintf(word, sizeof word, "%.*s", (int)length, marked);
		if (is_said)
			said = tongue_say(tongue, word);
		n += (size_t)snprintf(out + n, room - n, "%.*s",
			is_said ? BOOK_WORDS_ROOM : (int)length,
			is_said ? said : marked);
		marked += length;
		if (*marked == '\0' || n >= room)
			return;
		marked++;
	}
}

char *
book_say_marked(struct arena *arena, const char *marked)
{
	const struct tongue tongue = arena_tongue(arena);
	const size_t room = strlen(marked) + (size_t)4 * BOOK_WORDS_ROOM;
	char *out = arena_take(arena, room, 1);

	if (out != NULL)
		say_marked(&tongue, marked, out, room);
	return out;
}

enum err_code
book_words_of(struct book *book, enum book_table table, int64_t id,
	char words[BOOK_WORDS_ROOM], struct err *err)
{
	sqlite3_stmt *s = NULL;
	const struct tongue tongue = err != NULL
		? err->tongue
		: (struct tongue){.find = NULL};
	char text[BOOK_WORDS_ROOM] = "";

	TRY(book_prepare(book, names[place_of(table)].words, &s, err));
	(void)sqlite3_bind_int64(s, 1, id);
	if (sqlite3_step(s) == SQLITE_ROW)
		say_marked(&tongue, (const char *)sqlite3_column_text(s, 0),
			text, sizeof text);
	(void)snprintf(words, BOOK_WORDS_ROOM, "%s %.80s",
		tongue_say(&tongue,
			book_schemas[table].what != NULL
				? book_schemas[table].what
				: N_("the book")),
		text);
	(void)sqlite3_finalize(s);
	return ERR_NONE;
}

enum err_code
book_entry_of(struct book *book, enum book_table table, int64_t id,
	int64_t *entry, struct err *err)
{
	sqlite3_stmt *s = NULL;

	TRY(book_prepare(book, names[place_of(table)].from, &s, err));
	(void)sqlite3_bind_int64(s, 1, id);
	if (sqlite3_step(s) == SQLITE_ROW)
		*entry = sqlite3_column_int64(s, 1);
	(void)sqlite3_finalize(s);
	return ERR_NONE;
}

/* The id from which on rows are of the entry or later ones. */
static enum err_code
first_row(struct book *book, sqlite3_stmt *s, int64_t top, int64_t entry,
	int64_t *id, struct err *err)
{
	int64_t low = 1, high = top + 1;

	while (low < high) {
		int64_t middle = low + (high - low) / 2;
		int rc;

		(void)sqlite3_reset(s);
		(void)sqlite3_bind_int64(s, 1, middle);
		rc = sqlite3_step(s);
		if (rc != SQLITE_ROW && rc != SQLITE_DONE)
			return book_fault(book, "read", err);
		if (rc == SQLITE_DONE || sqlite3_column_int64(s, 1) >= entry)
			high = middle;
		else
			low = sqlite3_column_int64(s, 0) + 1;
	}
	*id = low;
	return ERR_NONE;
}

enum err_code
book_rows_of_entry(struct book *book, enum book_table table, int64_t entry,
	int64_t range[2], struct err *err)
{
	sqlite3_stmt **s = &book->from[table];
	enum err_code code;
	int64_t top = 0;

	TRY(book_ask_number(book, &book->next_id[table],
		book_schemas[table].next_id, 0, &top, err));
	TRY(book_use(book, s, names[place_of(table)].from, err));
	code = first_row(book, *s, top, entry, &range[0], err);
	if (code == ERR_NONE)
		code = first_row(book, *s, top, entry + 1, &range[1], err);
	(void)sqlite3_reset(*s); /* or it would go on holding its lock */
	return code;
}

/* ---- entries ---- */

struct gathering {
	struct book_touched *row;
	size_t n, room;
};

static struct book_touched *
touched_of(struct arena *arena, struct gathering *g, const char *what,
	enum book_how how)
{
	if (g->n > 0 && g->row[g->n - 1].what == what &&
		g->row[g->n - 1].how == how)
		return &g->row[g->n - 1];
	if (g->n == g->room) {
		size_t room = 2 * g->room + 8;
		struct book_touched *row = arena_take(arena, room, sizeof *row);

		if (row == NULL)
			return NULL;
		if (g->n > 0)
			memcpy(row, g->row, g->n * sizeof *row);
		g->row = row;
		g->room = room;
	}
	g->row[g->n] = (struct book_touched){
		.what = what, .words = "", .how = how};
	return &g->row[g->n++];
}

static enum err_code
add_words(struct book *book, struct arena *arena, sqlite3_stmt *s, int64_t id,
	struct book_touched *t, struct err *err)
{
	const char *words;

	(void)sqlite3_reset(s);
	(void)sqlite3_bind_int64(s, 1, id);
	if (sqlite3_step(s) != SQLITE_ROW)
		return book_fault(book, "read", err);
	words = book_say_marked(arena, (const char *)sqlite3_column_text(s, 0));
	if (words == NULL)
		return err_memory(err);
	t->words = text_format(
		arena, "%s%s%s", t->words, t->n > 1 ? ", " : "", words);
	return t->words != NULL ? ERR_NONE : err_memory(err);
}

static enum err_code
read_groups(struct book *book, struct arena *arena, size_t at,
	sqlite3_stmt *groups, sqlite3_stmt *words, struct gathering *g,
	struct err *err)
{
	const char *what = book_schemas[names[at].table].what;
	int rc;

	while ((rc = sqlite3_step(groups)) == SQLITE_ROW) {
		struct book_touched *t = touched_of(arena, g,
			what != NULL ? what : N_("the book"),
			(enum book_how)sqlite3_column_int(groups, 0));

		if (t == NULL)
			return err_memory(err);
		if (++t->n <= WORDS_SHOWN)
			TRY(add_words(book, arena, words,
				sqlite3_column_int64(groups, 2), t, err));
	}
	return rc == SQLITE_DONE ? ERR_NONE : book_fault(book, "read", err);
}

static enum err_code
read_touched(struct book *book, struct arena *arena, size_t at, int64_t entry,
	struct gathering *g, struct err *err)
{
	sqlite3_stmt *groups = NULL, *words = NULL;
	int64_t range[2];
	enum err_code code;
	size_t before = g->n;

	TRY(book_rows_of_entry(book, names[at].table, entry, range, err));
	if (range[0] == range[1])
		return ERR_NONE;
	code = book_prepare(book, names[at].groups, &groups, err);
	if (code == ERR_NONE)
		code = book_prepare(book, names[at].words, &words, err);
	if (code == ERR_NONE) {
		(void)sqlite3_bind_int64(groups, 1, range[0]);
		(void)sqlite3_bind_int64(groups, 2,
			range[1] - range[0] > LOOKED_AT ? range[0] + LOOKED_AT
							: range[1]);
		code = read_groups(book, arena, at, groups, words, g, err);
	}
	/* Of a great many, those beyond count as the last one seen. */
	if (code == ERR_NONE && range[1] - range[0] > LOOKED_AT &&
		g->n > before)
		g->row[g->n - 1].n += (size_t)(range[1] - range[0]) - LOOKED_AT;
	(void)sqlite3_finalize(groups);
	(void)sqlite3_finalize(words);
	return code;
}

enum err_code
book_touched_by(struct book *book, struct arena *arena, int64_t entry,
	const struct book_touched **row, size_t *n, struct err *err)
{
	struct gathering g = {0};

	for (size_t t = 0; t < COUNT(names); t++)
		TRY(read_touched(book, arena, t, entry, &g, err));
	*row = g.row;
	*n = g.n;
	return ERR_NONE;
}

/* Which entries of the page are undone, undoings that are undone left out. */
static enum err_code
mark_undone(struct book *book, struct arena *arena, struct book_entry *entry,
	size_t n, struct err *err)
{
	static const char sql[] =
		"SELECT id, CAST(substr(detail, 7) AS INTEGER), (SELECT "
		"count(*) FROM history WHERE what = '" BOOK_UNDO_DEED
		"') FROM history WHERE what = '" BOOK_UNDO_DEED
		"' AND id > ?1 ORDER BY id DESC";
	int64_t *gone = NULL;
	sqlite3_stmt *s = NULL;
	size_t n_gone = 0;
	int rc;

	TRY(book_prepare(book, sql, &s, err));
	(void)sqlite3_bind_int64(s, 1, n > 0 ? entry[n - 1].id : 0);
	while ((rc = sqlite3_step(s)) == SQLITE_ROW) {
		int64_t id = sqlite3_column_int64(s, 0);
		size_t k = 0;

		if (gone == NULL)
			gone = arena_take(arena,
				(size_t)sqlite3_column_int64(s, 2),
				sizeof *gone);
		if (gone == NULL)
			break;
		while (k < n_gone && gone[k] != id)
			k++;
		if (k < n_gone)
			continue;
		gone[n_gone++] = sqlite3_column_int64(s, 1);
		for (size_t i = 0; i < n; i++)
			if (entry[i].id == gone[n_gone - 1])
				entry[i].undone_by = id;
	}
	(void)sqlite3_finalize(s);
	if (rc == SQLITE_ROW)
		return err_memory(err);
	return rc == SQLITE_DONE ? ERR_NONE : book_fault(book, "read", err);
}

enum err_code
book_undone_by(struct book *book, struct arena *arena, int64_t entry,
	int64_t *by, struct err *err)
{
	struct book_entry one = {.id = entry};

	TRY(mark_undone(book, arena, &one, 1, err));
	*by = one.undone_by;
	return ERR_NONE;
}

static enum err_code
fetch_entry(struct arena *arena, sqlite3_stmt *s, struct book_entry *e,
	struct err *err)
{
	const char **text[] = {&e->at, &e->who, &e->what, &e->detail};

	e->id = sqlite3_column_int64(s, 0);
	for (size_t i = 0; i < COUNT(text); i++) {
		*text[i] = arena_text(arena,
			(const char *)sqlite3_column_text(s, (int)i + 1));
		if (*text[i] == NULL)
			return err_memory(err);
	}
	return ERR_NONE;
}

static enum err_code
read_entries(struct book *book, struct arena *arena, int64_t before,
	struct book_entry *got, size_t n_most, size_t *n, bool *more,
	struct err *err)
{
	static const char sql[] =
		"SELECT id, at, who, what, detail FROM history WHERE id < ?1 "
		"ORDER BY id DESC LIMIT ?2";
	enum err_code code = ERR_NONE;
	sqlite3_stmt *s = NULL;
	int rc = SQLITE_DONE;

	TRY(book_prepare(book, sql, &s, err));
	(void)sqlite3_bind_int64(s, 1, before > 0 ? before : INT64_MAX);
	(void)sqlite3_bind_int64(s, 2, (int64_t)n_most + 1);
	*n = 0;
	*more = false;
	while (code == ERR_NONE && (rc = sqlite3_step(s)) == SQLITE_ROW) {
		if (*n == n_most) {
			*more = true;
			rc = SQLITE_DONE;
			break;
		}
		code = fetch_entry(arena, s, &got[(*n)++], err);
	}
	if (code == ERR_NONE && rc != SQLITE_DONE)
		code = book_fault(book, "read", err);
	(void)sqlite3_finalize(s);
	return code;
}

enum err_code
book_page_history(struct book *book, struct arena *arena, int64_t before,
	size_t n_most, const struct book_entry **entry, size_t *n, bool *more,
	struct err *err)
{
	int64_t all = 0;
	struct book_entry *got;

	TRY(book_one_number(book, "SELECT count(*) FROM history", &all, err));
	if (n_most == 0 || n_most > (size_t)all)
		n_most = (size_t)all;
	got = arena_take(arena, n_most + 1, sizeof *got);
	if (got == NULL)
		return err_memory(err);
	TRY(read_entries(book, arena, before, got, n_most, n, more, err));
	TRY(mark_undone(book, arena, got, *n, err));
	for (size_t i = 0; i < *n; i++)
		TRY(book_touched_by(book, arena, got[i].id, &got[i].touched,
			&got[i].n_touched, err));
	*entry = got;
	return ERR_NONE;
}
