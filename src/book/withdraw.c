/* withdraw.c - a thing taken back: a revision that says that it no longer holds.
 *
 * What belongs to it goes with it; what is used by something that holds stays.
 */
#include "book/book_priv.h"

#include <string.h>

/* A row again as the next revision, all columns as they are, whatever
 * migrations added: SQLite copies it through a table of this connection. */
#define COPY(table) \
	"CREATE TEMP TABLE again AS SELECT * FROM " table " WHERE id = ?1"
#define PASTE(table) "INSERT INTO " table " SELECT * FROM again"
#define LATEST(table)                                  \
	"SELECT id, withdrawn, history_id FROM " table \
	" WHERE origin = ?1 ORDER BY revision DESC LIMIT 1"

struct table_sql {
	enum book_table table;
	const char *copy, *paste, *latest;
};

#define TABLE(name, table)                                     \
	{                                                      \
		name, COPY(table), PASTE(table), LATEST(table) \
	}

static const struct table_sql tables[] = {
	TABLE(BOOK_MATERIAL, "material"),
	TABLE(BOOK_MATERIAL_LOT, "material_lot"),
	TABLE(BOOK_MIX, "mix"),
	TABLE(BOOK_MIX_PART, "mix_part"),
	TABLE(BOOK_BATCH, "batch"),
	TABLE(BOOK_SETTLING, "settling"),
	TABLE(BOOK_SPECIMEN, "specimen"),
	TABLE(BOOK_READING, "reading"),
	TABLE(BOOK_PART, "part"),
	TABLE(BOOK_REQUIREMENT, "requirement"),
	TABLE(BOOK_DECISION, "decision"),
	TABLE(BOOK_MATERIAL_BASIS, "material_basis"),
	TABLE(BOOK_BATCH_PART, "batch_part"),
	TABLE(BOOK_BENDING_SESSION, "bending_session"),
	TABLE(BOOK_BENDING_STEP, "bending_step"),
	TABLE(BOOK_PLACING, "placing"),
	TABLE(BOOK_FOAM_CHECK, "foam_check"),
	TABLE(BOOK_PART_USE, "part_use"),
	TABLE(BOOK_PART_LAYER, "part_layer"),
	TABLE(BOOK_PREDICTION, "prediction"),
	TABLE(BOOK_USUAL, "usual_requirement"),
	TABLE(BOOK_WEIGHT, "choice_weight"),
	TABLE(BOOK_PHOTO, "photo"),
};

/* What the tables of the kinds of readings add to one. */
static const struct {
	enum book_table table;
	const char *copy, *paste;
} kinds[] = {
#define KIND(table_, table)                                               \
	{                                                                 \
		table_,                                                   \
			"CREATE TEMP TABLE again AS SELECT * FROM " table \
			" WHERE reading_id = ?1",                         \
			PASTE(table)                                      \
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

/* What belongs to a thing and goes with it: identities under ?1. */
static const struct {
	enum book_table owner, owned;
	const char *sql;
} belongings[] = {
#define OWNED(owner, name, table, column)                                     \
	{                                                                     \
		owner, name,                                                  \
			"SELECT DISTINCT origin FROM " table " WHERE " column \
			" = ?1"                                               \
	}
	OWNED(BOOK_MATERIAL, BOOK_MATERIAL_LOT, "material_lot", "material_id"),
	OWNED(BOOK_MATERIAL, BOOK_MATERIAL_BASIS, "material_basis",
		"material_id"),
	OWNED(BOOK_MIX, BOOK_MIX_PART, "mix_part", "mix_id"),
	OWNED(BOOK_MIX, BOOK_PREDICTION, "prediction", "mix_id"),
	OWNED(BOOK_BATCH, BOOK_BATCH_PART, "batch_part", "batch_id"),
	OWNED(BOOK_BATCH, BOOK_SETTLING, "settling", "batch_id"),
	OWNED(BOOK_BATCH, BOOK_PLACING, "placing", "batch_id"),
	OWNED(BOOK_BATCH, BOOK_FOAM_CHECK, "foam_check", "batch_id"),
	OWNED(BOOK_BATCH, BOOK_PHOTO, "photo", "batch_id"),
	OWNED(BOOK_BATCH, BOOK_SPECIMEN, "specimen", "batch_id"),
	OWNED(BOOK_SPECIMEN, BOOK_READING, "reading", "specimen_id"),
	OWNED(BOOK_SPECIMEN, BOOK_BENDING_SESSION, "bending_session",
		"specimen_id"),
	OWNED(BOOK_SPECIMEN, BOOK_BENDING_STEP, "bending_step", "specimen_id"),
	OWNED(BOOK_PART, BOOK_REQUIREMENT, "requirement", "part_id"),
	OWNED(BOOK_PART, BOOK_DECISION, "decision", "part_id"),
	OWNED(BOOK_PART, BOOK_PART_USE, "part_use", "part_id"),
	OWNED(BOOK_PART, BOOK_PART_LAYER, "part_layer", "part_id"),
	OWNED(BOOK_PART, BOOK_PREDICTION, "prediction", "part_id"),
	OWNED(BOOK_PART, BOOK_WEIGHT, "choice_weight", "part_id"),
#undef OWNED
};

/* What holds now and would point at nothing. */
static const struct {
	enum book_table table;
	const char *what, *sql;
} users[] = {
#define HOLDS(table)                                                     \
	"withdrawn = 0 AND revision = (SELECT max(revision) FROM " table \
	" AS n WHERE n.origin = t.origin) LIMIT 1"
	{BOOK_MATERIAL, "a mix",
		"SELECT 1 FROM mix_part AS t WHERE material_id = ?1 AND " HOLDS(
			"mix_part")},
	{BOOK_MATERIAL, "a batch",
		"SELECT 1 FROM batch_part AS t WHERE material_id = ?1 "
		"AND " HOLDS("batch_part")},
	{BOOK_MIX, "the plan of a trial",
		"SELECT 1 FROM trial_slot AS t WHERE mix_id = ?1 AND " HOLDS(
			"trial_slot")},
	{BOOK_MIX, "a batch",
		"SELECT 1 FROM batch AS t WHERE mix_id = ?1 AND " HOLDS(
			"batch")},
	{BOOK_MIX, "another mix, as its matrix",
		"SELECT 1 FROM mix AS t WHERE matrix_code = (SELECT code FROM "
		"mix WHERE id = ?1) AND origin <> ?1 AND " HOLDS("mix")},
	{BOOK_MIX, "a trial, as its baseline",
		"SELECT 1 FROM trial AS t WHERE baseline_mix_id = ?1 "
		"AND " HOLDS("trial")},
	{BOOK_MIX, "a decision",
		"SELECT 1 FROM decision AS t WHERE mix_id = ?1 AND " HOLDS(
			"decision")},
	{BOOK_PART, "a poured batch",
		"SELECT 1 FROM placing AS t WHERE part_id = ?1 AND " HOLDS(
			"placing")},
#undef HOLDS
};

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

static const struct table_sql *
sql_of(enum book_table table)
{
	for (size_t i = 0; i < COUNT(tables); i++)
		if (tables[i].table == table)
			return &tables[i];
	return NULL;
}

struct latest {
	int64_t id, history_id;
	bool withdrawn;
};

static enum err_code
read_latest(struct book *book, enum book_table table, int64_t origin,
	struct latest *latest, struct err *err)
{
	sqlite3_stmt *s = NULL;
	enum err_code code = ERR_NONE;

	TRY(book_prepare(book, sql_of(table)->latest, &s, err));
	(void)sqlite3_bind_int64(s, 1, origin);
	if (sqlite3_step(s) == SQLITE_ROW)
		*latest = (struct latest){.id = sqlite3_column_int64(s, 0),
			.withdrawn = sqlite3_column_int(s, 1) != 0,
			.history_id = sqlite3_column_int64(s, 2)};
	else
		code = book_fault(book, "read", err);
	(void)sqlite3_finalize(s);
	return code;
}

/* A statement with up to three whole numbers. */
static enum err_code
run_with(struct book *book, const char *sql, int64_t a, int64_t b, int64_t c,
	struct err *err)
{
	sqlite3_stmt *s = NULL;
	enum err_code code = ERR_NONE;
	int n;

	TRY(book_prepare(book, sql, &s, err));
	n = sqlite3_bind_parameter_count(s);
	if (n > 0)
		(void)sqlite3_bind_int64(s, 1, a);
	if (n > 1)
		(void)sqlite3_bind_int64(s, 2, b);
	if (n > 2)
		(void)sqlite3_bind_int64(s, 3, c);
	if (sqlite3_step(s) != SQLITE_DONE)
		code = book_fault(book, "write", err);
	(void)sqlite3_finalize(s);
	return code;
}

static enum err_code
copy_kind(struct book *book, size_t kind, int64_t old_id, int64_t new_id,
	struct err *err)
{
	TRY(book_touch(book, kinds[kind].table, err));
	TRY(run_with(book, kinds[kind].copy, old_id, 0, 0, err));
	TRY(run_with(book, "UPDATE again SET reading_id = ?1, history_id = ?2",
		new_id, book->history_id, 0, err));
	TRY(run_with(book, kinds[kind].paste, 0, 0, 0, err));
	return run_with(book, "DROP TABLE again", 0, 0, 0, err);
}

static enum err_code
add_revision(struct book *book, enum book_table table, int64_t old_id,
	bool withdrawn, struct err *err)
{
	const struct table_sql *sql = sql_of(table);
	int64_t id;

	TRY(book_touch(book, table, err));
	TRY(book_one_number(book, book_schemas[table].next_id, &id, err));
	id++;
	TRY(run_with(book, sql->copy, old_id, 0, 0, err));
	TRY(run_with(book,
		"UPDATE again SET id = ?1, revision = revision + 1, withdrawn "
		"= ?2, history_id = ?3",
		id, withdrawn, book->history_id, err));
	TRY(run_with(book, sql->paste, 0, 0, 0, err));
	TRY(run_with(book, "DROP TABLE again", 0, 0, 0, err));
	book->n_added++;
	if (table == BOOK_DECISION && !withdrawn)
		TRY(book_copy_quantities(book, old_id, id, err));
	for (size_t k = 0; table == BOOK_READING && k < COUNT(kinds); k++)
		TRY(copy_kind(book, k, old_id, id, err));
	return ERR_NONE;
}

static enum err_code
check_users(struct book *book, enum book_table table, int64_t origin,
	struct err *err)
{
	for (size_t i = 0; i < COUNT(users); i++) {
		sqlite3_stmt *s = NULL;
		int rc;

		if (users[i].table != table)
			continue;
		TRY(book_prepare(book, users[i].sql, &s, err));
		(void)sqlite3_bind_int64(s, 1, origin);
		rc = sqlite3_step(s);
		(void)sqlite3_finalize(s);
		if (rc == SQLITE_ROW)
			return err_report(err, ERR_CONFLICT,
				book_schemas[table].what,
				"This %s is used by %s. Withdraw that first; "
				"nothing was changed.",
				err_say(err, book_schemas[table].what),
				err_say(err, users[i].what));
		if (rc != SQLITE_DONE)
			return book_fault(book, "read", err);
	}
	return ERR_NONE;
}

static enum err_code turn(struct book *book, struct arena *arena,
	enum book_table table, int64_t origin, bool withdrawn, int64_t with,
	struct err *err);

static enum err_code
turn_belongings(struct book *book, struct arena *arena, enum book_table table,
	int64_t origin, bool withdrawn, int64_t with, struct err *err)
{
	for (size_t i = 0; i < COUNT(belongings); i++) {
		int64_t *id = NULL;
		size_t n = 0;

		if (belongings[i].owner != table)
			continue;
		TRY(book_read_ids(book, arena, belongings[i].sql, &origin, 1,
			&id, &n, err));
		for (size_t k = 0; k < n; k++)
			TRY(turn(book, arena, belongings[i].owned, id[k],
				withdrawn, with, err));
	}
	return ERR_NONE;
}

/* Withdraws what holds, or brings back what entry `with` withdrew. */
static enum err_code
turn(struct book *book, struct arena *arena, enum book_table table,
	int64_t origin, bool withdrawn, int64_t with, struct err *err)
{
	struct latest latest = {0};

	TRY(read_latest(book, table, origin, &latest, err));
	if (latest.withdrawn == withdrawn ||
		(!withdrawn && latest.history_id != with))
		return ERR_NONE;
	if (withdrawn)
		TRY(check_users(book, table, origin, err));
	TRY(turn_belongings(book, arena, table, origin, withdrawn, with, err));
	return add_revision(book, table, latest.id, withdrawn, err);
}

/* ---- from outside ---- */

static const struct {
	enum book_table table;
	const char *find; /* the identity by its words, newest first */
} things[] = {
#define BY_CODE(table)                                                         \
	"SELECT origin FROM " table " WHERE code = ?1 ORDER BY id DESC LIMIT " \
	"1"
	[BOOK_A_MATERIAL] = {BOOK_MATERIAL, BY_CODE("material")},
	[BOOK_A_MIX] = {BOOK_MIX, BY_CODE("mix")},
	[BOOK_A_BATCH] = {BOOK_BATCH, BY_CODE("batch")},
	[BOOK_A_SPECIMEN] = {BOOK_SPECIMEN, BY_CODE("specimen")},
	[BOOK_A_PART] = {BOOK_PART, BY_CODE("part")},
	[BOOK_A_PHOTO] = {BOOK_PHOTO, BY_CODE("photo")},
	[BOOK_A_READING] = {BOOK_READING,
		"SELECT r.origin FROM reading AS r JOIN specimen AS s ON s.id "
		"= r.specimen_id WHERE s.code = ?1 AND r.kind = ?2 AND r.code "
		"= ?3 ORDER BY r.id DESC LIMIT 1"},
#undef BY_CODE
};

static enum err_code
find_thing(struct book *book, enum book_thing thing,
	const char *const word[BOOK_THING_WORDS], int64_t *origin,
	struct err *err)
{
	const char *what = book_schemas[things[thing].table].what;
	sqlite3_stmt *s = NULL;
	int rc;

	TRY(book_prepare(book, things[thing].find, &s, err));
	for (int i = 0; i < sqlite3_bind_parameter_count(s); i++)
		(void)sqlite3_bind_text(s, i + 1, word[i], -1, SQLITE_STATIC);
	rc = sqlite3_step(s);
	if (rc == SQLITE_ROW)
		*origin = sqlite3_column_int64(s, 0);
	(void)sqlite3_finalize(s);
	if (rc == SQLITE_ROW)
		return ERR_NONE;
	if (rc != SQLITE_DONE)
		return book_fault(book, "read", err);
	return err_report(err, ERR_NOT_FOUND, what,
		"There is no %s \"%.60s\" in the book.", err_say(err, what),
		word[0]);
}

enum err_code
book_withdraw(struct book *book, struct arena *arena, enum book_thing thing,
	const char *const word[BOOK_THING_WORDS], struct err *err)
{
	enum book_table table = things[thing].table;
	struct latest latest = {0};
	int64_t origin = 0;

	TRY(find_thing(book, thing, word, &origin, err));
	TRY(read_latest(book, table, origin, &latest, err));
	if (latest.withdrawn)
		return err_report(err, ERR_CONFLICT, book_schemas[table].what,
			"This %s was withdrawn already; nothing was changed.",
			err_say(err, book_schemas[table].what));
	return turn(book, arena, table, origin, true, 0, err);
}

enum err_code
book_take_out_part(
	struct book *book, struct arena *arena, int64_t id, struct err *err)
{
	return turn(book, arena, BOOK_MIX_PART, id, true, 0, err);
}

enum err_code
book_take_out_requirement(
	struct book *book, struct arena *arena, int64_t id, struct err *err)
{
	return turn(book, arena, BOOK_REQUIREMENT, id, true, 0, err);
}

enum err_code
book_take_out_usual(
	struct book *book, struct arena *arena, int64_t id, struct err *err)
{
	return turn(book, arena, BOOK_USUAL, id, true, 0, err);
}

enum err_code
book_take_out_weight(
	struct book *book, struct arena *arena, int64_t id, struct err *err)
{
	return turn(book, arena, BOOK_WEIGHT, id, true, 0, err);
}

enum err_code
book_part_taken_out(struct book *book, int64_t mix_id, int64_t material_id,
	int64_t *id, struct err *err)
{
	static const char sql[] =
		"SELECT origin FROM mix_part AS t WHERE mix_id = ?1 AND "
		"material_id = ?2 AND withdrawn = 1 AND revision = (SELECT "
		"max(revision) FROM mix_part AS n WHERE n.origin = t.origin)";
	sqlite3_stmt *s = NULL;
	int rc;

	*id = 0;
	TRY(book_prepare(book, sql, &s, err));
	(void)sqlite3_bind_int64(s, 1, mix_id);
	(void)sqlite3_bind_int64(s, 2, material_id);
	rc = sqlite3_step(s);
	if (rc == SQLITE_ROW)
		*id = sqlite3_column_int64(s, 0);
	(void)sqlite3_finalize(s);
	return rc == SQLITE_ROW || rc == SQLITE_DONE
		? ERR_NONE
		: book_fault(book, "read", err);
}

/* Of what brings it back: does its owner hold? */
static enum err_code
check_owner(
	struct book *book, enum book_table table, int64_t id, struct err *err)
{
	static const struct {
		enum book_table table;
		const char *sql;
	} owner[] = {
		{BOOK_SPECIMEN,
			"SELECT withdrawn FROM batch WHERE origin = (SELECT "
			"batch_id FROM specimen WHERE id = ?1) ORDER BY "
			"revision DESC LIMIT 1"},
		{BOOK_READING,
			"SELECT withdrawn FROM specimen WHERE origin = (SELECT "
			"specimen_id FROM reading WHERE id = ?1) ORDER BY "
			"revision DESC LIMIT 1"},
		{BOOK_PHOTO,
			"SELECT withdrawn FROM batch WHERE origin = (SELECT "
			"batch_id FROM photo WHERE id = ?1) ORDER BY revision "
			"DESC LIMIT 1"},
		{BOOK_BATCH,
			"SELECT withdrawn FROM mix WHERE origin = (SELECT "
			"mix_id FROM batch WHERE id = ?1) ORDER BY revision "
			"DESC LIMIT 1"},
	};

	for (size_t i = 0; i < COUNT(owner); i++) {
		sqlite3_stmt *s = NULL;
		bool gone;

		if (owner[i].table != table)
			continue;
		TRY(book_prepare(book, owner[i].sql, &s, err));
		(void)sqlite3_bind_int64(s, 1, id);
		gone = sqlite3_step(s) == SQLITE_ROW &&
			sqlite3_column_int(s, 0) != 0;
		(void)sqlite3_finalize(s);
		if (gone)
			return err_report(err, ERR_CONFLICT,
				book_schemas[table].what,
				"What this %s belongs to was withdrawn. Bring "
				"that back first; nothing was changed.",
				book_schemas[table].what);
	}
	return ERR_NONE;
}

enum err_code
book_restore(struct book *book, struct arena *arena, enum book_thing thing,
	const char *const word[BOOK_THING_WORDS], struct err *err)
{
	enum book_table table = things[thing].table;
	struct latest latest = {0};
	int64_t origin = 0;

	TRY(find_thing(book, thing, word, &origin, err));
	TRY(read_latest(book, table, origin, &latest, err));
	if (!latest.withdrawn)
		return err_report(err, ERR_CONFLICT, book_schemas[table].what,
			"This %s was not withdrawn; nothing was changed.",
			err_say(err, book_schemas[table].what));
	TRY(check_owner(book, table, latest.id, err));
	return turn(book, arena, table, origin, false, latest.history_id, err);
}

enum err_code
book_all_gone(struct book *book, struct arena *arena,
	const struct book_gone **row, size_t *n, struct err *err)
{
	/* Keys as import makes them; of a settling reading, its heading. */
	static const char
		sql
			[] =
#define GONE(table)                                                          \
	"t.withdrawn = 1 AND t.revision = (SELECT max(revision) FROM " table \
	" AS n WHERE n.origin = t.origin) AND (SELECT what FROM history "    \
	"WHERE id = t.history_id) <> '" BOOK_UNDO_DEED "'"
				"SELECT 'material', code, typed FROM material "
				"AS t "
				"WHERE " GONE("material") " UNION ALL SELECT "
							  "'lot', o.code "
							  "|| '|' || t.code, "
							  "t.typed "
							  "FROM material_lot "
							  "AS t JOIN "
							  "material AS o ON "
							  "o.id = "
							  "t.material_id "
							  "WHERE " GONE(
								  "materi"
								  "al_"
								  "lot") " UNIO"
									 "N "
									 "ALL "
									 "SELEC"
									 "T "
									 "'mix'"
									 ", "
									 "code,"
									 " type"
									 "d "
									 "FROM "
									 "mix "
									 "AS t "
									 "WHERE"
									 " " GONE("mix") " UNION ALL SELECT "
											 "'mix_part', o.code "
											 "|| '|' || m.code, "
											 "t.typed FROM "
											 "mix_part AS t JOIN "
											 "mix AS o ON o.id = "
											 "t.mix_id "
											 "JOIN material AS m "
											 "ON m.id = "
											 "t.material_id "
											 "WHERE " GONE(
												 "mix_"
												 "part") " UNION ALL SELECT 'batch', code, typed FROM batch AS t WHERE " GONE("batch") " U"
																						       "NI"
																						       "ON"
																						       " A"
																						       "LL"
																						       " S"
																						       "EL"
																						       "EC"
																						       "T "
																						       "'s"
																						       "et"
																						       "tl"
																						       "in"
																						       "g'"
																						       ", "
																						       "o."
																						       "co"
																						       "de"
																						       " |"
																						       "| "
																						       "'|"
																						       "' "
																						       "||"
																						       " "
																						       "su"
																						       "bs"
																						       "tr"
																						       "(t"
																						       ".t"
																						       "yp"
																						       "ed"
																						       ", "
																						       "3,"
																						       " i"
																						       "ns"
																						       "tr"
																						       "(s"
																						       "ub"
																						       "st"
																						       "r("
																						       "t."
																						       "ty"
																						       "pe"
																						       "d,"
																						       " 3"
																						       "),"
																						       " '"
																						       "\""
																						       "')"
																						       " -"
																						       " 1"
																						       "),"
																						       " "
																						       "t."
																						       "ty"
																						       "pe"
																						       "d "
																						       "FR"
																						       "OM"
																						       " s"
																						       "et"
																						       "tl"
																						       "in"
																						       "g "
																						       "AS"
																						       " t"
																						       " J"
																						       "OI"
																						       "N "
																						       "ba"
																						       "tc"
																						       "h "
																						       "AS"
																						       " o"
																						       " O"
																						       "N "
																						       "o."
																						       "id"
																						       " ="
																						       " "
																						       "t."
																						       "ba"
																						       "tc"
																						       "h_"
																						       "id"
																						       " W"
																						       "HE"
																						       "RE"
																						       " " GONE("settling") " UNION ALL SELECT 'specimen', code, typed FROM specimen AS t "
																									    "WHERE " GONE(
																										    "specimen") " UNION ALL SELECT 'reading', o.code || '|' || t.kind || '|' "
																												"|| t.code, t.typed FROM reading AS t JOIN specimen AS o ON "
																												"o.id = t.specimen_id WHERE " GONE("reading") " UNION ALL SELECT 'part', code, typed FROM part AS t WHERE " GONE(
																													"part") " UNION ALL SELECT 'requirement', o.code || '|' || t.bound || "
																														"'_' || t.measure, t.typed FROM requirement AS t JOIN part AS "
																														"o ON o.id = t.part_id WHERE " GONE(
																															"requirement");
#undef GONE
	struct book_gone *got = NULL;
	sqlite3_stmt *s = NULL;
	size_t room = 0, count = 0;
	bool full = false;
	int rc;

	TRY(book_prepare(book, sql, &s, err));
	while (!full && (rc = sqlite3_step(s)) == SQLITE_ROW) {
		if (count == room) {
			struct book_gone *larger;

			room = 2 * room + 16;
			larger = arena_take(arena, room, sizeof *larger);
			full = larger == NULL;
			if (!full && count > 0)
				memcpy(larger, got, count * sizeof *got);
			got = larger;
		}
		for (int i = 0; i < 3 && !full; i++) {
			const char *text = arena_text(
				arena, (const char *)sqlite3_column_text(s, i));

			full = text == NULL;
			if (i == 0)
				got[count].what = text;
			else if (i == 1)
				got[count].key = text;
			else
				got[count].typed = text;
		}
		count++;
	}
	(void)sqlite3_finalize(s);
	if (full)
		return err_memory(err);
	if (rc != SQLITE_DONE)
		return book_fault(book, "read", err);
	*row = got;
	*n = count;
	return ERR_NONE;
}
