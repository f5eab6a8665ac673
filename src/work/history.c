/* history.c - entries in words, and the one write that undoes one. */
#include "work/history.h"

#include "book/book.h"
#include "core/kept.h"
#include "core/text.h"

#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

static const char *
how_word(enum book_how how)
{
	switch (how) {
	case BOOK_MADE:
		return N_("new");
	case BOOK_CHANGED:
		return N_("changed");
	case BOOK_TAKEN_BACK:
		return N_("taken back");
	case BOOK_BROUGHT_BACK:
		return N_("brought back");
	}
	return "";
}

/* "3 batches", as "parts of a mix" has its s inside.  Put together in English,
 * then looked up whole: po/layers.txt. */
static void
add_several(struct text *text, const char *what, size_t n)
{
	const char *of = strstr(what, " of ");
	size_t n_first = of != NULL ? (size_t)(of - what) : strlen(what);
	const char *ending = n_first > 2 &&
			(what[n_first - 1] == 'h' || what[n_first - 1] == 'x')
		? "es"
		: "s";
	const char *several = text_format(text->arena, "%.*s%s%s", (int)n_first,
		what, ending, of != NULL ? of : "");

	text->failed |= several == NULL;
	if (several != NULL)
		text_addf(text, "%zu %s", n, arena_say(text->arena, several));
}

/* ---- what was done, and of what ---- */

/* Every deed that writes, and the words with which details begin. */
static const char *const deeds[] = {N_("batch"), N_("bending begun"),
	N_("bending step"), N_("bending"), N_("confirm"), N_("crushing"),
	N_("cure"), N_("decide"), N_("drop"), N_("foam check"), N_("form"),
	N_("frost"), N_("gear"), N_("generator"), N_("hot box"), N_("import"),
	N_("material"), N_("mix"), N_("new book"), N_("part"), N_("photo"),
	N_("pieces"), N_("piece"), N_("pour"), N_("reading"), N_("restore"),
	N_("rig check"), N_("rig"), N_("rise"), N_("screw"), N_("shrinkage"),
	N_("soaking"), N_("specimen"), N_("standing foam"), N_("trace"),
	N_("trial plan"), N_("undo"), N_("usual"), N_("warning"),
	N_("weighing"), N_("weights"), N_("withdraw")};

/* Who writes without a name of their own. */
static const char nobody[] = N_("someone");

/* Deeds whose detail is one fixed word. */
static const char *const of_one_word[] = {"bending step", "gear", "usual"};

static const struct kept_form details[] = {{.format = N_("batch %s")},
	{.format = N_("%s: mix %s, %zu batches")},
	{.format = N_("%s: mix %s")}};
static const struct kept_form of_entry = {.format = N_("entry %lld, ")};

/* The deed that text begins with, or NULL. */
static const char *
deed_before(const char *text)
{
	for (size_t i = 0; i < COUNT(deeds); i++) {
		size_t n = strlen(deeds[i]);

		if (strncmp(text, deeds[i], n) == 0 &&
			(text[n] == ' ' || text[n] == '\0'))
			return deeds[i];
	}
	return NULL;
}

/* "decide floor: mix D", of an entry that is undone, or "reading 01-B-1 bending
 * 1: read twice", of one that is taken back. */
static const char *
say_behind(struct arena *arena, const char *start, const char *detail)
{
	const char *deed = deed_before(detail);
	const char *rest = deed != NULL ? detail + strlen(deed) : detail;

	rest += strspn(rest, " ");
	return text_format(arena, "%s%s%s%s", start,
		deed != NULL ? arena_say(arena, deed) : "",
		deed != NULL && rest[0] != '\0' ? " " : "",
		kept_say(arena, details, COUNT(details), rest));
}

/* What the book keeps of it in English, said; NULL if memory ran out. */
static const char *
say_detail(struct arena *arena, const char *what, const char *detail)
{
	const char *const comma = strstr(detail, ", ");

	for (size_t i = 0; i < COUNT(of_one_word); i++)
		if (strcmp(what, of_one_word[i]) == 0)
			return arena_say(arena, detail);
	if (strcmp(what, "withdraw") == 0 || strcmp(what, "restore") == 0)
		return say_behind(arena, "", detail);
	if (strcmp(what, BOOK_UNDO_DEED) == 0 && comma != NULL) {
		const char *entry = text_format(
			arena, "%.*s", (int)(comma - detail) + 2, detail);

		return entry == NULL
			? NULL
			: say_behind(arena,
				  kept_say(arena, &of_entry, 1, entry),
				  comma + 2);
	}
	if (strcmp(what, "photo") == 0 || strcmp(what, "decide") == 0 ||
		strcmp(what, "confirm") == 0)
		return kept_say(arena, details, COUNT(details), detail);
	return detail;
}

/* ---- what it wrote ---- */

/* "new: 16 batches, trial T1; taken back: reading 01-B-1 bending 1". */
static const char *
touched_words(struct arena *arena, const struct book_touched *row, size_t n)
{
	const size_t named = 3;
	struct text text;
	bool is_first = true;

	text_init(&text, arena);
	for (int how = BOOK_MADE; how <= BOOK_BROUGHT_BACK; how++) {
		bool is_said = false;

		for (size_t i = 0; i < n; i++) {
			if ((int)row[i].how != how)
				continue;
			if (is_said)
				text_add(&text, ", ");
			else
				text_addf(&text, "%s%s: ", is_first ? "" : "; ",
					arena_say(arena,
						how_word((enum book_how)how)));
			is_said = true;
			is_first = false;
			if (row[i].n == 1)
				text_add(&text, arena_say(arena, row[i].what));
			else
				add_several(&text, row[i].what, row[i].n);
			if (row[i].n <= named)
				text_addf(&text, " %s", row[i].words);
		}
	}
	return text_failed(&text) ? NULL : n == 0 ? "" : text.bytes;
}

enum err_code
work_history(const struct desk *desk, struct arena *arena, int64_t before,
	size_t n_most, struct work_history *out, struct err *err)
{
	const struct book_entry *row = NULL;
	struct work_entry *entry;
	bool more = false;
	enum err_code code;
	size_t n = 0;

	TRY(book_read_begin(desk->book, err));
	code = book_page_history(
		desk->book, arena, before, n_most, &row, &n, &more, err);
	book_read_end(desk->book);
	if (code != ERR_NONE)
		return code;
	entry = arena_take(arena, n + 1, sizeof *entry);
	if (entry == NULL)
		return err_memory(err);
	for (size_t i = 0; i < n; i++) {
		entry[i] = (struct work_entry){.id = row[i].id,
			.at = row[i].at,
			.who = strcmp(row[i].who, nobody) == 0
				? arena_say(arena, nobody)
				: row[i].who,
			.what = arena_say(arena, row[i].what),
			.detail = say_detail(arena, row[i].what, row[i].detail),
			.touched = touched_words(
				arena, row[i].touched, row[i].n_touched),
			.undone_by = row[i].undone_by,
			.can_undo = row[i].id > 1 && row[i].undone_by == 0};
		if (entry[i].touched == NULL || entry[i].detail == NULL)
			return err_memory(err);
	}
	*out = (struct work_history){.entry = entry, .n = n, .more = more};
	return ERR_NONE;
}

enum err_code
work_undo(const struct desk *desk, struct arena *arena,
	const struct work_undo *ask, struct work_undone *out, struct err *err)
{
	struct work_undone got = {0};
	struct book_undone undone = {0};
	enum err_code code;

	TRY(book_begin(desk->book, desk->now_utc_s, desk->who, BOOK_UNDO_DEED,
		desk->submission, err));
	code = book_undo(desk->book, arena, ask->entry, &undone, err);
	if (code == ERR_NONE) {
		got.n_thing = undone.n_thing;
		got.detail = undone.detail;
		got.touched = touched_words(
			arena, undone.touched, undone.n_touched);
		if (got.touched == NULL)
			code = err_memory(err);
	}
	if (code == ERR_NONE && !ask->dry_run)
		code = book_commit(desk->book, undone.detail, &got.entry, err);
	book_rollback(desk->book); /* nothing to undo after a commit */
	if (code == ERR_NONE)
		*out = got;
	return code;
}
