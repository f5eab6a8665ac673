/* search.c - what holds now and has all the words in its code or its texts.
 *
 * Each table is read once, cheap conditions first; a code given whole is found
 * by index and stands before the others. */
#include "book/book_priv.h"

#include "book/things.h"
#include "core/text.h"

#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

/* Words that were not given are NULL. */
#define HAS(n, text) "(?" n " IS NULL OR " text " LIKE ?" n " ESCAPE '\\') AND "
#define HAS_ALL(text) \
	HAS("1", text) HAS("2", text) HAS("3", text) HAS("4", text)
#define HOLDS(file)                                                         \
	"t.withdrawn = 0 AND t.revision = (SELECT max(revision) FROM " file \
	" AS n WHERE n.origin = t.origin) "

struct place {
	enum book_table table;
	const char *kind;
	const char *exact; /* by code ?1; NULL: it has none of its own */
	const char *some;  /* by the words ?1 to ?4, but not ?5, ?6 of them */
};

/* A thing with a code, and the texts that are searched beside it. */
#define CODED(table_, file, texts)                                             \
	{                                                                      \
		table_, file,                                                  \
			"SELECT t.origin, t.code, " texts " FROM " file        \
			" AS t WHERE t.code = ?1 AND " HOLDS(file),            \
			"SELECT t.origin, t.code, " texts " FROM " file        \
			" AS t WHERE " HAS_ALL("(t.code || ' ' || " texts ")") \
				HOLDS(file) "AND t.origin <> ?5 LIMIT ?6"      \
	}

/* A thing without one, named by its owner; only where it has a text. */
#define REMARK(table_, file, words, text)                                 \
	{                                                                 \
		table_, file, NULL,                                       \
			"SELECT t.origin, " words ", " text " FROM " file \
			" AS t WHERE " text " <> '' AND " HAS_ALL(text)   \
				HOLDS(file) "AND t.origin <> ?5 LIMIT ?6" \
	}

/* clang-format off */
static const struct place places[] = {
	CODED(BOOK_MATERIAL, "material",
		"t.name || ' ' || " BOOK_SAID("t.role") " || ' ' || t.note"),
	CODED(BOOK_MIX, "mix",
		"t.name || ' ' || t.reinforcement || ' ' || t.why"),
	CODED(BOOK_TRIAL, "trial", "t.question"),
	CODED(BOOK_RULE, "trial_rule",
		BOOK_SAID("replace(t.measure, '_', ' ')") " || ' ' || "
		BOOK_SAID("t.reason")),
	CODED(BOOK_BATCH, "batch", "t.made_on || ' ' || t.remark"),
	CODED(BOOK_SPECIMEN, "specimen",
		BOOK_SAID("t.form") " || ' ' || " BOOK_SAID("t.fate")
		" || ' ' || t.remark || ' ' || coalesce(t.damage, '')"),
	CODED(BOOK_PART, "part",
		"t.name || ' ' || " BOOK_SAID("t.kind") " || ' ' || t.note"),
	CODED(BOOK_GENERATOR, "generator", "t.note"),
	CODED(BOOK_FORM, "form", BOOK_SAID("t.shape") " || ' ' || t.note"),
	CODED(BOOK_FOAM_CHECK, "foam_check", "t.read_on || ' ' || t.remark"),
	REMARK(BOOK_READING, "reading",
		"(SELECT code FROM specimen WHERE id = t.specimen_id) || ' ' "
		"|| " BOOK_SAID("t.kind") " || ' ' || " BOOK_SAID("t.code"),
		"t.remark"),
	REMARK(BOOK_DECISION, "decision",
		"(SELECT code FROM part WHERE id = t.part_id)", "t.reason"),
	REMARK(BOOK_PLACING, "placing",
		"(SELECT code FROM batch WHERE id = t.batch_id)", "t.reason"),
};
/* clang-format on */

/* "50 %" as "%50 \%%". */
static const char *
pattern_of(struct arena *arena, const char *word)
{
	struct text text;

	text_init(&text, arena);
	text_add_char(&text, '%');
	for (; *word != '\0'; word++) {
		if (*word == '%' || *word == '_' || *word == '\\')
			text_add_char(&text, '\\');
		text_add_char(&text, *word);
	}
	text_add_char(&text, '%');
	return text_failed(&text) ? NULL : text.bytes;
}

struct finding {
	struct arena *arena;
	struct book_hit *hit;
	size_t n, n_most;
	bool more;
};

static enum err_code
take_hits(struct book *book, const struct place *p, sqlite3_stmt *s,
	struct finding *f, struct err *err)
{
	const char *what = book_schemas[p->table].what;
	int rc;

	while ((rc = sqlite3_step(s)) == SQLITE_ROW) {
		struct book_hit *h = &f->hit[f->n];

		if (f->n == f->n_most) {
			f->more = true;
			return ERR_NONE;
		}
		*h = (struct book_hit){.kind = p->kind,
			.what = what,
			.id = sqlite3_column_int64(s, 0),
			.name = book_say_marked(f->arena,
				(const char *)sqlite3_column_text(s, 1)),
			.text = book_say_marked(f->arena,
				(const char *)sqlite3_column_text(s, 2))};
		if (h->name == NULL || h->text == NULL)
			return err_memory(err);
		f->n++;
	}
	return rc == SQLITE_DONE ? ERR_NONE : book_fault(book, "read", err);
}

static enum err_code
find_exact(struct book *book, const struct place *p, const char *code,
	int64_t *id, struct finding *f, struct err *err)
{
	sqlite3_stmt *s = NULL;
	enum err_code got;
	size_t before = f->n;

	if (p->exact == NULL)
		return ERR_NONE;
	TRY(book_prepare(book, p->exact, &s, err));
	(void)sqlite3_bind_text(s, 1, code, -1, SQLITE_STATIC);
	got = take_hits(book, p, s, f, err);
	(void)sqlite3_finalize(s);
	*id = f->n > before ? f->hit[before].id : 0;
	return got;
}

static enum err_code
find_some(struct book *book, const struct place *p, const char *const *pattern,
	size_t n_word, int64_t id, struct finding *f, struct err *err)
{
	sqlite3_stmt *s = NULL;
	enum err_code got;

	TRY(book_prepare(book, p->some, &s, err));
	for (size_t i = 0; i < n_word; i++)
		(void)sqlite3_bind_text(
			s, (int)i + 1, pattern[i], -1, SQLITE_STATIC);
	(void)sqlite3_bind_int64(s, BOOK_SEARCH_WORDS + 1, id);
	(void)sqlite3_bind_int64(
		s, BOOK_SEARCH_WORDS + 2, (int64_t)(f->n_most - f->n) + 1);
	got = take_hits(book, p, s, f, err);
	(void)sqlite3_finalize(s);
	return got;
}

enum err_code
book_search(struct book *book, struct arena *arena, const char *const *word,
	size_t n_word, size_t n_most, const struct book_hit **hit, size_t *n,
	bool *more, struct err *err)
{
	const char *pattern[BOOK_SEARCH_WORDS];
	int64_t exact[COUNT(places)] = {0};
	struct finding f = {.arena = arena, .n_most = n_most};

	_Static_assert(BOOK_SEARCH_WORDS == 4, "the statements have four");
	f.hit = arena_take(arena, n_most + 1, sizeof *f.hit);
	if (f.hit == NULL)
		return err_memory(err);
	for (size_t i = 0; i < n_word; i++) {
		pattern[i] = pattern_of(arena, word[i]);
		if (pattern[i] == NULL)
			return err_memory(err);
	}
	for (size_t i = 0; i < COUNT(places) && n_word == 1; i++)
		TRY(find_exact(book, &places[i], word[0], &exact[i], &f, err));
	for (size_t i = 0; i < COUNT(places) && !f.more; i++)
		TRY(find_some(
			book, &places[i], pattern, n_word, exact[i], &f, err));
	*hit = f.hit;
	*n = f.n;
	*more = f.more;
	return ERR_NONE;
}
