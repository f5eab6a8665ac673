/* rows.c - rows into the book and out of it, by the columns of their table. */
#include "book/book_priv.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

/* ---- in ---- */

static int
bind_maybe(sqlite3_stmt *s, int at, const struct maybe *m, bool whole)
{
	if (!m->has)
		return sqlite3_bind_null(s, at);
	return whole ? sqlite3_bind_int64(s, at, (int64_t)llround(m->value))
		     : sqlite3_bind_double(s, at, m->value);
}

static int
bind_text(sqlite3_stmt *s, int at, const char *text, bool empty_is_null)
{
	if (text == NULL)
		text = "";
	if (empty_is_null && text[0] == '\0')
		return sqlite3_bind_null(s, at);
	return sqlite3_bind_text(s, at, text, -1, SQLITE_STATIC);
}

static int
bind_column(
	sqlite3_stmt *s, int at, const struct book_column *c, const char *row)
{
	const void *p = row + c->offset;

	switch (c->type) {
	case BOOK_TEXT:
	case BOOK_TEXT_MAYBE:
		return bind_text(s, at, *(const char *const *)p,
			c->type == BOOK_TEXT_MAYBE);
	case BOOK_REAL:
		return sqlite3_bind_double(s, at, *(const double *)p);
	case BOOK_MAYBE:
	case BOOK_MAYBE_WHOLE:
		return bind_maybe(s, at, p, c->type == BOOK_MAYBE_WHOLE);
	case BOOK_ID:
		return sqlite3_bind_int64(s, at, *(const int64_t *)p);
	case BOOK_ID_MAYBE:
		return *(const int64_t *)p == 0
			? sqlite3_bind_null(s, at)
			: sqlite3_bind_int64(s, at, *(const int64_t *)p);
	case BOOK_FLAG:
		return sqlite3_bind_int(s, at, *(const bool *)p ? 1 : 0);
	case BOOK_AFTER:
		return bind_text(
			s, at, *(const bool *)p ? "after" : "before", false);
	case BOOK_CENTS:
		if (!*(const bool *)(const void *)(row + c->flag_offset))
			return sqlite3_bind_null(s, at);
		return sqlite3_bind_int64(s, at, *(const int64_t *)p);
	}
	return SQLITE_MISUSE;
}

static bool
is_finite(const struct book_column *c, const void *row)
{
	const void *p = (const char *)row + c->offset;
	const struct maybe *m = p;

	if (c->type == BOOK_REAL)
		return isfinite(*(const double *)p);
	if (c->type != BOOK_MAYBE && c->type != BOOK_MAYBE_WHOLE)
		return true;
	return !m->has || isfinite(m->value);
}

enum err_code
book_use(struct book *book, sqlite3_stmt **statement, const char *sql,
	struct err *err)
{
	if (*statement == NULL)
		return book_prepare(book, sql, statement, err);
	(void)sqlite3_reset(*statement);
	(void)sqlite3_clear_bindings(*statement);
	return ERR_NONE;
}

enum err_code
book_ask_number(struct book *book, sqlite3_stmt **statement, const char *sql,
	int64_t bound, int64_t *number, struct err *err)
{
	TRY(book_use(book, statement, sql, err));
	if (sqlite3_bind_parameter_count(*statement) > 0)
		(void)sqlite3_bind_int64(*statement, 1, bound);
	if (sqlite3_step(*statement) != SQLITE_ROW)
		return book_fault(book, "read", err);
	*number = sqlite3_column_int64(*statement, 0);
	(void)sqlite3_reset(*statement);
	return ERR_NONE;
}

/* The words of a key for a sentence; ids and numbers are left out. */
static void
key_words(const struct book_schema *schema, const void *row, char *to,
	size_t room)
{
	size_t n = 0;

	to[0] = '\0';
	for (size_t i = 0; i < schema->n_key; i++) {
		const struct book_column *c = &schema->column[schema->key[i]];
		const char *const *text = (const void *)((const char *)row +
			c->offset);

		if (c->type == BOOK_TEXT && n < room)
			n += (size_t)snprintf(
				to + n, room - n, " \"%s\"", *text);
	}
}

/* The table's own UNIQUE counts every revision; only what holds now must be
 * told apart by its key.  *gone: what had the key and was taken back. */
static enum err_code
check_key(struct book *book, enum book_table table, int64_t origin,
	const void *row, int64_t *gone, struct err *err)
{
	const struct book_schema *schema = &book_schemas[table];
	char words[160];
	int rc;

	if (schema->taken == NULL)
		return ERR_NONE;
	TRY(book_use(book, &book->taken[table], schema->taken, err));
	(void)sqlite3_bind_int64(book->taken[table], 1, origin);
	for (size_t i = 0; i < schema->n_key; i++)
		(void)bind_column(book->taken[table], (int)i + 2,
			&schema->column[schema->key[i]], row);
	rc = sqlite3_step(book->taken[table]);
	if (rc == SQLITE_ROW &&
		sqlite3_column_int(book->taken[table], 1) != 0) {
		*gone = sqlite3_column_int64(book->taken[table], 0);
		rc = SQLITE_DONE;
	}
	(void)sqlite3_reset(book->taken[table]);
	if (rc == SQLITE_DONE)
		return ERR_NONE;
	if (rc != SQLITE_ROW)
		return book_fault(book, "read", err);
	key_words(schema, row, words, sizeof words);
	return err_report(err, ERR_INPUT, schema->what,
		"There is another %s%s in the book. Give this one another "
		"code; nothing was changed.",
		err_say(err, schema->what), words);
}

static enum err_code
insert(struct book *book, enum book_table table, const int64_t *lead,
	int n_lead, const char *typed, const void *row, struct err *err)
{
	const struct book_schema *schema = &book_schemas[table];
	sqlite3_stmt **statement = &book->insert[table];
	int at = 1, rc = SQLITE_OK;

	assert(book->in_write);
	TRY(book_touch(book, table, err));
	for (size_t i = 0; i < schema->n_column; i++)
		if (!is_finite(&schema->column[i], row))
			return err_report(err, ERR_INPUT, "number",
				"A value is not a finite number; nothing was "
				"changed.");
	TRY(book_use(book, statement, schema->insert, err));
	for (int i = 0; i < n_lead; i++)
		rc |= sqlite3_bind_int64(*statement, at++, lead[i]);
	if (typed != NULL)
		rc |= bind_text(*statement, at++, typed, false);
	for (size_t i = 0; i < schema->n_column; i++)
		rc |= bind_column(*statement, at++, &schema->column[i], row);
	if (rc != SQLITE_OK || sqlite3_step(*statement) != SQLITE_DONE)
		return book_fault(book, "write", err);
	(void)sqlite3_reset(*statement);
	book->n_added++;
	return ERR_NONE;
}

/* A new thing or a new revision of one; *key is the id of the row itself. */
static enum err_code
put(struct book *book, enum book_table table, struct book_row *head,
	const void *row, int64_t *key, struct err *err)
{
	const struct book_schema *schema = &book_schemas[table];
	int64_t id = 0, origin, revision = 1, gone = 0;

	TRY(book_ask_number(
		book, &book->next_id[table], schema->next_id, 0, &id, err));
	id++;
	TRY(check_key(
		book, table, head->id != 0 ? head->id : id, row, &gone, err));
	/* Written anew after it was taken back, it is the same thing again. */
	if (head->id == 0)
		head->id = gone;
	origin = head->id != 0 ? head->id : id;
	if (head->id != 0)
		TRY(book_ask_number(book, &book->next_revision[table],
			schema->next_revision, origin, &revision, err));
	TRY(insert(book, table,
		(const int64_t[]){id, origin, revision, book->history_id}, 4,
		head->typed != NULL ? head->typed : "", row, err));
	head->id = origin;
	head->revision = revision;
	if (key != NULL)
		*key = id;
	return ERR_NONE;
}

#define PUT(name, table)                                                     \
	enum err_code book_put_##name(                                       \
		struct book *book, struct book_##name *row, struct err *err) \
	{                                                                    \
		return put(book, (table), &row->row, row, NULL, err);        \
	}

PUT(info, BOOK_INFO)
PUT(material, BOOK_MATERIAL)
PUT(material_lot, BOOK_MATERIAL_LOT)
PUT(mix, BOOK_MIX)
PUT(mix_part, BOOK_MIX_PART)
PUT(trial, BOOK_TRIAL)
PUT(rule, BOOK_RULE)
PUT(batch, BOOK_BATCH)
PUT(settling, BOOK_SETTLING)
PUT(specimen, BOOK_SPECIMEN)
PUT(part, BOOK_PART)
PUT(requirement, BOOK_REQUIREMENT)
PUT(decision, BOOK_DECISION)
PUT(material_basis, BOOK_MATERIAL_BASIS)
PUT(gear, BOOK_GEAR)
PUT(generator, BOOK_GENERATOR)
PUT(foam_check, BOOK_FOAM_CHECK)
PUT(batch_part, BOOK_BATCH_PART)
PUT(trial_slot, BOOK_TRIAL_SLOT)
PUT(form, BOOK_FORM)
PUT(bending_session, BOOK_BENDING_SESSION)
PUT(bending_step, BOOK_BENDING_STEP)
PUT(placing, BOOK_PLACING)
PUT(part_use, BOOK_PART_USE)
PUT(part_layer, BOOK_PART_LAYER)
PUT(prediction, BOOK_PREDICTION)
PUT(warning, BOOK_WARNING)
PUT(foam_standing, BOOK_FOAM_STANDING)
PUT(rig, BOOK_RIG)
PUT(rig_check, BOOK_RIG_CHECK)
PUT(file, BOOK_FILE)
PUT(trace, BOOK_TRACE)
PUT(cure, BOOK_CURE)
PUT(usual, BOOK_USUAL)
PUT(weight, BOOK_WEIGHT)
PUT(photo, BOOK_PHOTO)

#undef PUT

/* The table and the member that a kind of reading fills. */
static void *
kind_member(struct book_reading *r, enum book_table *table)
{
	const struct {
		const char *kind;
		enum book_table table;
		void *member;
	} of[] = {
		{"bending", BOOK_READING_BENDING, &r->bending},
		{"drop", BOOK_READING_DROP, &r->drop},
		{"crushing", BOOK_READING_CRUSHING, &r->crushing},
		{"weighing", BOOK_READING_WEIGHING, &r->weighing},
		{"moisture", BOOK_READING_WATER, &r->water},
		{"soaking", BOOK_READING_WATER, &r->water},
		{"rise", BOOK_READING_WATER, &r->water},
		{"drying", BOOK_READING_WATER, &r->water},
		{"shrinkage", BOOK_READING_LENGTH, &r->length},
		{"screw", BOOK_READING_SCREW, &r->screw},
		{"frost", BOOK_READING_FROST, &r->frost},
		{"hot box", BOOK_READING_HOT_BOX, &r->hot_box},
	};

	for (size_t i = 0; i < sizeof of / sizeof of[0]; i++) {
		if (strcmp(r->kind, of[i].kind) == 0) {
			*table = of[i].table;
			return of[i].member;
		}
	}
	*table = BOOK_READING_OTHER;
	return &r->other;
}

enum err_code
book_put_reading(struct book *book, struct book_reading *row, struct err *err)
{
	enum book_table table;
	const void *member = kind_member(row, &table);
	int64_t key = 0;

	TRY(put(book, BOOK_READING, &row->row, row, &key, err));
	return insert(book, table, (const int64_t[]){key, book->history_id}, 2,
		NULL, member, err);
}

/* The row points at the revision of the decision that it was counted for. */
enum err_code
book_put_quantity(
	struct book *book, const struct book_quantity *row, struct err *err)
{
	static const char sql[] =
		"SELECT id FROM decision WHERE origin = ? ORDER BY revision "
		"DESC LIMIT 1";
	struct book_quantity of_revision = *row;
	sqlite3_stmt *s = NULL;
	enum err_code code;
	int64_t id = 0;

	code = book_ask_number(
		book, &s, sql, row->decision_id, &of_revision.decision_id, err);
	(void)sqlite3_finalize(s);
	if (code != ERR_NONE)
		return code;
	TRY(book_ask_number(book, &book->next_id[BOOK_QUANTITY],
		book_schemas[BOOK_QUANTITY].next_id, 0, &id, err));
	return insert(book, BOOK_QUANTITY,
		(const int64_t[]){id + 1, book->history_id}, 2, NULL,
		&of_revision, err);
}

enum err_code
book_put_trace_point(
	struct book *book, const struct book_trace_point *row, struct err *err)
{
	int64_t id = 0;

	TRY(book_ask_number(book, &book->next_id[BOOK_TRACE_POINT],
		book_schemas[BOOK_TRACE_POINT].next_id, 0, &id, err));
	return insert(book, BOOK_TRACE_POINT,
		(const int64_t[]){id + 1, book->history_id}, 2, NULL, row, err);
}

/* ---- out ---- */

static struct maybe
column_maybe(sqlite3_stmt *s, int at)
{
	if (sqlite3_column_type(s, at) == SQLITE_NULL)
		return (struct maybe){.has = false};
	return (struct maybe){true, sqlite3_column_double(s, at)};
}

static const char *
column_text(struct arena *arena, sqlite3_stmt *s, int at)
{
	const char *text = (const char *)sqlite3_column_text(s, at);

	if (text == NULL || text[0] == '\0')
		return "";
	return arena_text(arena, text);
}

static bool
fetch_column(struct arena *arena, sqlite3_stmt *s, int at,
	const struct book_column *c, char *row)
{
	void *p = row + c->offset;

	switch (c->type) {
	case BOOK_TEXT:
	case BOOK_TEXT_MAYBE:
		*(const char **)p = column_text(arena, s, at);
		return *(const char **)p != NULL;
	case BOOK_REAL:
		*(double *)p = sqlite3_column_double(s, at);
		return true;
	case BOOK_MAYBE:
	case BOOK_MAYBE_WHOLE:
		*(struct maybe *)p = column_maybe(s, at);
		return true;
	case BOOK_ID:
	case BOOK_ID_MAYBE: /* a NULL is read as 0 */
		*(int64_t *)p = sqlite3_column_int64(s, at);
		return true;
	case BOOK_FLAG:
		*(bool *)p = sqlite3_column_int(s, at) != 0;
		return true;
	case BOOK_AFTER:
		*(bool *)p = strcmp((const char *)sqlite3_column_text(s, at),
				     "after") == 0;
		return true;
	case BOOK_CENTS:
		*(bool *)(void *)(row + c->flag_offset) =
			sqlite3_column_type(s, at) != SQLITE_NULL;
		*(int64_t *)p = sqlite3_column_int64(s, at);
		return true;
	}
	return false;
}

/* An array that doubles in the arena. */
struct growing {
	char *row;
	size_t n, room;
};

static char *
next_row(struct arena *arena, struct growing *g, size_t size)
{
	if (g->n == g->room) {
		size_t room = g->room == 0 ? 4 : 2 * g->room;
		char *row = arena_take(arena, room, size);

		if (row == NULL)
			return NULL;
		if (g->n > 0)
			memcpy(row, g->row, g->n * size);
		g->row = row;
		g->room = room;
	}
	return g->row + g->n++ * size;
}

/* What the kind's table adds to a reading; `key` is the row's own id. */
static enum err_code
fetch_kind(struct book *book, struct arena *arena, struct book_reading *r,
	int64_t key, sqlite3_stmt **kinds, struct err *err)
{
	enum book_table table;
	char *member = kind_member(r, &table);
	const struct book_schema *schema = &book_schemas[table];
	sqlite3_stmt **s = &kinds[table];

	r->bending.loading = r->drop.place = r->drop.tip = "";
	r->weighing.state = r->other.quantity = "";
	TRY(book_use(book, s, schema->select, err));
	(void)sqlite3_bind_int64(*s, 1, key);
	if (sqlite3_step(*s) != SQLITE_ROW)
		return err_report(err, ERR_DAMAGED, "reading",
			"The book is damaged: a reading has lost its values. "
			"Use an earlier copy of the book.");
	for (size_t i = 0; i < schema->n_column; i++)
		if (!fetch_column(
			    arena, *s, (int)i, &schema->column[i], member))
			return err_memory(err);
	return ERR_NONE;
}

static enum err_code
fetch_rows(struct book *book, struct arena *arena, enum book_table table,
	sqlite3_stmt *s, sqlite3_stmt **kinds, struct growing *g,
	struct err *err)
{
	const struct book_schema *schema = &book_schemas[table];
	enum { LEAD = 3 };
	int rc;

	while ((rc = sqlite3_step(s)) == SQLITE_ROW) {
		char *row = next_row(arena, g, schema->size);
		struct book_row *head = (void *)row;

		if (row == NULL)
			return err_memory(err);
		head->id = sqlite3_column_int64(s, 0);
		head->revision = sqlite3_column_int64(s, 1);
		head->typed = column_text(arena, s, 2);
		if (head->typed == NULL)
			return err_memory(err);
		for (size_t i = 0; i < schema->n_column; i++)
			if (!fetch_column(arena, s, LEAD + (int)i,
				    &schema->column[i], row))
				return err_memory(err);
		if (table == BOOK_READING)
			TRY(fetch_kind(book, arena, (void *)row,
				sqlite3_column_int64(
					s, LEAD + (int)schema->n_column),
				kinds, err));
	}
	return rc == SQLITE_DONE ? ERR_NONE : book_fault(book, "read", err);
}

/* *statement is kept by the book, since a page asks for one row many times. */
static enum err_code
fetch_by(struct book *book, struct arena *arena, enum book_table table,
	sqlite3_stmt **statement, const char *sql, int64_t id, int64_t n_most,
	struct growing *g, struct err *err)
{
	sqlite3_stmt *kinds[BOOK_N_TABLE] = {0};
	enum err_code code;

	TRY(book_use(book, statement, sql, err));
	(void)sqlite3_bind_int64(*statement, 1, id);
	if (sqlite3_bind_parameter_count(*statement) > 1)
		(void)sqlite3_bind_int64(*statement, 2, n_most);
	code = fetch_rows(book, arena, table, *statement, kinds, g, err);
	(void)sqlite3_reset(*statement);
	for (size_t k = 0; k < BOOK_N_TABLE; k++)
		(void)sqlite3_finalize(kinds[k]);
	return code;
}

static enum err_code
fetch(struct book *book, struct arena *arena, enum book_table table,
	int64_t after_id, int64_t n_most, struct growing *g, struct err *err)
{
	return fetch_by(book, arena, table, &book->select[table],
		book_schemas[table].select, after_id, n_most, g, err);
}

/* LIMIT -1 is "all" (SQLite, "SELECT"). */
#define ALL(name, table)                                                      \
	enum err_code book_all_##name(struct book *book, struct arena *arena, \
		const struct book_##name **row, size_t *n, struct err *err)   \
	{                                                                     \
		struct growing g = {0};                                       \
                                                                              \
		TRY(fetch(book, arena, (table), 0, -1, &g, err));             \
		*row = (const void *)g.row;                                   \
		*n = g.n;                                                     \
		return ERR_NONE;                                              \
	}

ALL(material, BOOK_MATERIAL)
ALL(material_lot, BOOK_MATERIAL_LOT)
ALL(mix, BOOK_MIX)
ALL(mix_part, BOOK_MIX_PART)
ALL(trial, BOOK_TRIAL)
ALL(rule, BOOK_RULE)
ALL(batch, BOOK_BATCH)
ALL(settling, BOOK_SETTLING)
ALL(specimen, BOOK_SPECIMEN)
ALL(reading, BOOK_READING)
ALL(part, BOOK_PART)
ALL(requirement, BOOK_REQUIREMENT)
ALL(decision, BOOK_DECISION)
ALL(material_basis, BOOK_MATERIAL_BASIS)
ALL(gear, BOOK_GEAR)
ALL(generator, BOOK_GENERATOR)
ALL(foam_check, BOOK_FOAM_CHECK)
ALL(batch_part, BOOK_BATCH_PART)
ALL(trial_slot, BOOK_TRIAL_SLOT)
ALL(form, BOOK_FORM)
ALL(bending_session, BOOK_BENDING_SESSION)
ALL(bending_step, BOOK_BENDING_STEP)
ALL(placing, BOOK_PLACING)
ALL(part_use, BOOK_PART_USE)
ALL(part_layer, BOOK_PART_LAYER)
ALL(prediction, BOOK_PREDICTION)
ALL(warning, BOOK_WARNING)
ALL(foam_standing, BOOK_FOAM_STANDING)
ALL(rig, BOOK_RIG)
ALL(rig_check, BOOK_RIG_CHECK)
ALL(file, BOOK_FILE)
ALL(trace, BOOK_TRACE)
ALL(cure, BOOK_CURE)
ALL(usual, BOOK_USUAL)
ALL(weight, BOOK_WEIGHT)
ALL(photo, BOOK_PHOTO)

#undef ALL

/* Rows by a statement with one text. */
static enum err_code
fetch_at_hand(struct book *book, struct arena *arena, enum book_table table,
	const char *code, struct growing *g, struct err *err)
{
	sqlite3_stmt *kinds[BOOK_N_TABLE] = {0}, **s = &book->at_hand[table];
	enum err_code failed;

	TRY(book_use(book, s, book_schemas[table].at_hand, err));
	(void)sqlite3_bind_text(*s, 1, code, -1, SQLITE_TRANSIENT);
	failed = fetch_rows(book, arena, table, *s, kinds, g, err);
	(void)sqlite3_reset(*s);
	return failed;
}

static enum err_code
count_by(struct book *book, enum book_table table, const char *code, size_t *n,
	struct err *err)
{
	sqlite3_stmt **s = &book->count[table];
	bool found;

	TRY(book_use(book, s, book_schemas[table].count, err));
	(void)sqlite3_bind_text(*s, 1, code, -1, SQLITE_TRANSIENT);
	found = sqlite3_step(*s) == SQLITE_ROW;
	*n = found ? (size_t)sqlite3_column_int64(*s, 0) : 0;
	(void)sqlite3_reset(*s);
	return found ? ERR_NONE : book_fault(book, "read", err);
}

enum err_code
book_batches_at_hand(struct book *book, struct arena *arena, const char *code,
	const struct book_batch **row, size_t *n, size_t *before,
	struct err *err)
{
	struct growing g = {0};

	TRY(fetch_at_hand(book, arena, BOOK_BATCH, code, &g, err));
	TRY(count_by(book, BOOK_BATCH, code, before, err));
	*row = (const void *)g.row;
	*n = g.n;
	return ERR_NONE;
}

enum err_code
book_batch_parts_at_hand(struct book *book, struct arena *arena,
	const char *code, const struct book_batch_part **row, size_t *n,
	struct err *err)
{
	struct growing g = {0};

	TRY(fetch_at_hand(book, arena, BOOK_BATCH_PART, code, &g, err));
	*row = (const void *)g.row;
	*n = g.n;
	return ERR_NONE;
}

enum err_code
book_foam_checks_at_hand(struct book *book, struct arena *arena,
	const char *code, const struct book_foam_check **row, size_t *n,
	size_t *in_all, struct err *err)
{
	struct growing g = {0};

	TRY(fetch_at_hand(book, arena, BOOK_FOAM_CHECK, code, &g, err));
	TRY(count_by(book, BOOK_FOAM_CHECK, code, in_all, err));
	*row = (const void *)g.row;
	*n = g.n;
	return ERR_NONE;
}

enum err_code
book_get_info(struct book *book, struct arena *arena, struct book_info *info,
	struct err *err)
{
	struct growing g = {0};

	TRY(fetch(book, arena, BOOK_INFO, 0, 1, &g, err));
	if (g.n == 0)
		return err_report(err, ERR_DAMAGED, "book",
			"The book is damaged: it has lost its first page. Use "
			"an earlier copy.");
	memcpy(info, g.row, sizeof *info);
	return ERR_NONE;
}

/* ---- long tables ---- */

static void
turn_round(struct growing *g, size_t size)
{
	char held[sizeof(struct book_batch)];

	_Static_assert(
		sizeof(struct book_specimen) <= sizeof held, "the larger");
	for (size_t i = 0, j = g->n; i + 1 < j; i++, j--) {
		memcpy(held, g->row + i * size, size);
		memcpy(g->row + i * size, g->row + (j - 1) * size, size);
		memcpy(g->row + (j - 1) * size, held, size);
	}
}

static enum err_code
fetch_page(struct book *book, struct arena *arena, enum book_table table,
	const struct book_page *page, struct growing *g, struct err *err)
{
	const struct book_schema *schema = &book_schemas[table];
	const char *sql = page->back ? schema->back : schema->select;
	sqlite3_stmt **statement = page->back ? &book->back[table]
					      : &book->select[table];
	int64_t from = page->from_id;

	if (page->back && from == 0)
		from = INT64_MAX;
	TRY(fetch_by(book, arena, table, statement, sql, from,
		(int64_t)page->n_most + 1, g, err));
	return ERR_NONE;
}

/* One row more than asked says that there are more. */
static void
cut_page(const struct book_page *page, size_t size, struct growing *g,
	bool *more)
{
	*more = g->n > page->n_most;
	if (*more)
		g->n = page->n_most;
	if (page->back)
		turn_round(g, size);
}

enum err_code
book_page_batch(struct book *book, struct arena *arena,
	const struct book_page *page, const struct book_batch **row, size_t *n,
	bool *more, struct err *err)
{
	struct growing g = {0};

	TRY(fetch_page(book, arena, BOOK_BATCH, page, &g, err));
	cut_page(page, sizeof **row, &g, more);
	*row = (const void *)g.row;
	*n = g.n;
	return ERR_NONE;
}

enum err_code
book_page_specimen(struct book *book, struct arena *arena,
	const struct book_page *page, const struct book_specimen **row,
	size_t *n, bool *more, struct err *err)
{
	struct growing g = {0};

	TRY(fetch_page(book, arena, BOOK_SPECIMEN, page, &g, err));
	cut_page(page, sizeof **row, &g, more);
	*row = (const void *)g.row;
	*n = g.n;
	return ERR_NONE;
}

#define ONE(name, table)                                                      \
	enum err_code book_one_##name(struct book *book, struct arena *arena, \
		int64_t id, const struct book_##name **row, struct err *err)  \
	{                                                                     \
		struct growing g = {0};                                       \
                                                                              \
		TRY(fetch(book, arena, (table), id - 1, 1, &g, err));         \
		*row = (const void *)g.row;                                   \
		if (g.n == 1 && (*row)->row.id == id)                         \
			return ERR_NONE;                                      \
		return err_report(err, ERR_DAMAGED, book_schemas[table].what, \
			"The book is damaged: a row points at a %s that is "  \
			"not there. Use an earlier copy of the book.",        \
			err_say(err, book_schemas[table].what));              \
	}

ONE(batch, BOOK_BATCH)
ONE(specimen, BOOK_SPECIMEN)

#undef ONE

#define OF_BATCH(name, table)                                                 \
	enum err_code book_##name##_of_batch(struct book *book,               \
		struct arena *arena, int64_t batch_id,                        \
		const struct book_##name **row, size_t *n, struct err *err)   \
	{                                                                     \
		struct growing g = {0};                                       \
                                                                              \
		TRY(fetch_by(book, arena, (table), &book->of_batch[table],    \
			book_schemas[table].of_batch, batch_id, 0, &g, err)); \
		*row = (const void *)g.row;                                   \
		*n = g.n;                                                     \
		return ERR_NONE;                                              \
	}

OF_BATCH(settling, BOOK_SETTLING)
OF_BATCH(specimen, BOOK_SPECIMEN)

#undef OF_BATCH

static enum err_code
find(struct book *book, enum book_table table, const char *code, int64_t *id,
	struct err *err)
{
	sqlite3_stmt *s = NULL;
	int rc;

	TRY(book_prepare(book, book_schemas[table].find, &s, err));
	(void)sqlite3_bind_text(s, 1, code, -1, SQLITE_STATIC);
	rc = sqlite3_step(s);
	if (rc == SQLITE_ROW)
		*id = sqlite3_column_int64(s, 0);
	(void)sqlite3_finalize(s);
	if (rc == SQLITE_ROW)
		return ERR_NONE;
	if (rc != SQLITE_DONE)
		return book_fault(book, "read", err);
	return err_report(err, ERR_NOT_FOUND, book_schemas[table].what,
		"There is no %s \"%s\" in the book.",
		err_say(err, book_schemas[table].what), code);
}

enum err_code
book_find_batch(
	struct book *book, const char *code, int64_t *id, struct err *err)
{
	return find(book, BOOK_BATCH, code, id, err);
}

enum err_code
book_find_specimen(
	struct book *book, const char *code, int64_t *id, struct err *err)
{
	return find(book, BOOK_SPECIMEN, code, id, err);
}

enum err_code
book_photos_ever(
	struct book *book, int64_t batch_id, int64_t *n, struct err *err)
{
	sqlite3_stmt *s = NULL;
	enum err_code code = ERR_NONE;

	TRY(book_prepare(book,
		"SELECT count(DISTINCT origin) FROM photo WHERE batch_id = ?",
		&s, err));
	(void)sqlite3_bind_int64(s, 1, batch_id);
	if (sqlite3_step(s) == SQLITE_ROW)
		*n = sqlite3_column_int64(s, 0);
	else
		code = book_fault(book, "read", err);
	(void)sqlite3_finalize(s);
	return code;
}

enum err_code
book_all_trace_point(struct book *book, struct arena *arena,
	const struct book_trace_point **row, size_t *n, struct err *err)
{
	const struct book_schema *schema = &book_schemas[BOOK_TRACE_POINT];
	struct growing g = {0};
	sqlite3_stmt *s = NULL;
	enum err_code code = ERR_NONE;
	int rc = SQLITE_DONE;

	TRY(book_prepare(book, schema->select, &s, err));
	while (code == ERR_NONE && (rc = sqlite3_step(s)) == SQLITE_ROW) {
		char *p = next_row(arena, &g, sizeof(struct book_trace_point));

		for (size_t i = 0; p != NULL && i < schema->n_column; i++)
			if (!fetch_column(
				    arena, s, (int)i, &schema->column[i], p))
				p = NULL;
		if (p == NULL)
			code = err_memory(err);
	}
	(void)sqlite3_finalize(s);
	if (code == ERR_NONE && rc != SQLITE_DONE)
		code = book_fault(book, "read", err);
	*row = (const void *)g.row;
	*n = g.n;
	return code;
}

enum err_code
book_all_quantity(struct book *book, struct arena *arena,
	const struct book_quantity **row, size_t *n, struct err *err)
{
	static const char sql[] =
		"SELECT t.origin, q.what, q.value, q.unit FROM quantity AS q "
		"JOIN decision AS t ON t.id = q.decision_id WHERE t.withdrawn "
		"= 0 AND t.revision = (SELECT max(revision) FROM decision AS n "
		"WHERE n.origin = t.origin) ORDER BY t.origin, q.id";
	struct growing g = {0};
	sqlite3_stmt *s = NULL;
	enum err_code code = ERR_NONE;
	int rc = SQLITE_DONE;

	TRY(book_prepare(book, sql, &s, err));
	while (code == ERR_NONE && (rc = sqlite3_step(s)) == SQLITE_ROW) {
		struct book_quantity *q = (void *)next_row(
			arena, &g, sizeof *q);

		if (q == NULL) {
			code = err_memory(err);
			break;
		}
		q->decision_id = sqlite3_column_int64(s, 0);
		q->what = column_text(arena, s, 1);
		q->value = sqlite3_column_double(s, 2);
		q->unit = column_text(arena, s, 3);
		if (q->what == NULL || q->unit == NULL)
			code = err_memory(err);
	}
	if (code == ERR_NONE && rc != SQLITE_DONE)
		code = book_fault(book, "read", err);
	(void)sqlite3_finalize(s);
	*row = (const void *)g.row;
	*n = g.n;
	return code;
}

enum err_code
book_count_fates(struct book *book, struct arena *arena,
	const struct book_fate_count **row, size_t *n, struct err *err)
{
	static const char sql[] =
		"SELECT b.mix_id, t.fate, sum(t.n) FROM (SELECT batch_id, "
		"fate, count(*) AS n FROM specimen AS t WHERE withdrawn = 0 "
		"AND NOT EXISTS (SELECT 1 FROM specimen AS n WHERE n.origin = "
		"t.origin AND n.revision > t.revision) GROUP BY batch_id, "
		"fate) AS t JOIN batch AS b ON b.origin = t.batch_id WHERE "
		"b.practice = 0 AND b.withdrawn = 0 AND NOT EXISTS (SELECT 1 "
		"FROM batch AS n WHERE n.origin = b.origin AND n.revision > "
		"b.revision) GROUP BY b.mix_id, t.fate";
	struct growing g = {0};
	sqlite3_stmt *s = NULL;
	enum err_code code = ERR_NONE;
	int rc;

	TRY(book_prepare(book, sql, &s, err));
	while (code == ERR_NONE && (rc = sqlite3_step(s)) == SQLITE_ROW) {
		struct book_fate_count *c = (void *)next_row(
			arena, &g, sizeof *c);

		if (c == NULL) {
			code = err_memory(err);
			break;
		}
		c->mix_id = sqlite3_column_int64(s, 0);
		c->fate = column_text(arena, s, 1);
		c->n = (size_t)sqlite3_column_int64(s, 2);
		if (c->fate == NULL)
			code = err_memory(err);
	}
	if (code == ERR_NONE && rc != SQLITE_DONE)
		code = book_fault(book, "read", err);
	(void)sqlite3_finalize(s);
	*row = (const void *)g.row;
	*n = g.n;
	return code;
}

/* Read whole, since rows are written before the next is looked at. */
enum err_code
book_read_ids(struct book *book, struct arena *arena, const char *sql,
	const int64_t *bound, int n_bound, int64_t **id, size_t *n,
	struct err *err)
{
	sqlite3_stmt *s = NULL;
	size_t room = 0, count = 0;
	int64_t *got = NULL;
	int rc;

	TRY(book_prepare(book, sql, &s, err));
	for (int i = 0; i < n_bound; i++)
		(void)sqlite3_bind_int64(s, i + 1, bound[i]);
	while ((rc = sqlite3_step(s)) == SQLITE_ROW) {
		if (count == room) {
			int64_t *larger;

			room = 2 * room + 16;
			larger = arena_take(arena, room, sizeof *larger);
			if (larger == NULL)
				break;
			if (count > 0)
				memcpy(larger, got, count * sizeof *got);
			got = larger;
		}
		got[count++] = sqlite3_column_int64(s, 0);
	}
	(void)sqlite3_finalize(s);
	*id = got;
	*n = count;
	if (rc == SQLITE_ROW)
		return err_memory(err);
	return rc == SQLITE_DONE ? ERR_NONE : book_fault(book, "read", err);
}
