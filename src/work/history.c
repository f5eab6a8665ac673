/* history.c - entries in words, and the one write that undoes one. */
#include "work/history.h"

#include "book/book.h"
#include "core/text.h"

#include <string.h>

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

/* "3 batches", as "parts of a mix" has its s inside. */
static void
add_several(struct text *text, const char *what, size_t n)
{
	const char *of = strstr(what, " of ");
	size_t n_first = of != NULL ? (size_t)(of - what) : strlen(what);
	const char *ending = n_first > 2 &&
			(what[n_first - 1] == 'h' || what[n_first - 1] == 'x')
		? "es"
		: "s";

	text_addf(text, "%zu %.*s%s%s", n, (int)n_first, what, ending,
		of != NULL ? of : "");
}

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
				text_add(&text, row[i].what);
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
			.who = row[i].who,
			.what = row[i].what,
			.detail = row[i].detail,
			.touched = touched_words(
				arena, row[i].touched, row[i].n_touched),
			.undone_by = row[i].undone_by,
			.can_undo = row[i].id > 1 && row[i].undone_by == 0};
		if (entry[i].touched == NULL)
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
