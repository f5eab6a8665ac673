/* search.c - words asked for, and what the book has of them. */
#include "work/search.h"

#include "book/book.h"
#include "core/text.h"

#include <string.h>

static enum err_code
split(struct arena *arena, const char *words,
	const char *word[WORK_SEARCH_WORDS], size_t *n, struct err *err)
{
	static const char blanks[] = " \t\n\r";

	*n = 0;
	for (words += strspn(words, blanks); *words != '\0';
		words += strspn(words, blanks)) {
		size_t length = strcspn(words, blanks);

		if (*n == WORK_SEARCH_WORDS)
			return err_report(err, ERR_INPUT, "words",
				"At most %d words are searched at once.",
				(int)WORK_SEARCH_WORDS);
		word[*n] = text_format(arena, "%.*s", (int)length, words);
		if (word[*n] == NULL)
			return err_memory(err);
		(*n)++;
		words += length;
	}
	if (*n == 0)
		return err_report(err, ERR_INPUT, "words",
			"There is nothing to search for; give a code or a "
			"word, such as 03 or cracked.");
	return ERR_NONE;
}

enum err_code
work_search(const struct desk *desk, struct arena *arena,
	const struct work_search *ask, struct work_found *out, struct err *err)
{
	const char *word[WORK_SEARCH_WORDS];
	const struct book_hit *row = NULL;
	struct work_hit *hit;
	enum err_code code;
	bool more = false;
	size_t n_word, n = 0;

	_Static_assert((int)WORK_SEARCH_WORDS == (int)BOOK_SEARCH_WORDS,
		"as many as the book takes");
	TRY(split(arena, ask->words, word, &n_word, err));
	TRY(book_read_begin(desk->book, err));
	code = book_search(desk->book, arena, word, n_word,
		ask->n_most < WORK_SEARCH_MOST ? ask->n_most : WORK_SEARCH_MOST,
		&row, &n, &more, err);
	book_read_end(desk->book);
	if (code != ERR_NONE)
		return code;
	hit = arena_take(arena, n + 1, sizeof *hit);
	if (hit == NULL)
		return err_memory(err);
	for (size_t i = 0; i < n; i++)
		hit[i] = (struct work_hit){.kind = row[i].kind,
			.what = row[i].what,
			.name = row[i].name,
			.text = row[i].text,
			.id = row[i].id};
	*out = (struct work_found){.hit = hit, .n = n, .more = more};
	return ERR_NONE;
}
