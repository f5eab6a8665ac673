/* withdraw.c - words into things, and the one write. */
#include "work/withdraw.h"

#include "book/book.h"
#include "core/text.h"

#include <string.h>

static const struct {
	const char *word;
	enum book_thing thing;
	size_t n_word;
} kinds[] = {{"material", BOOK_A_MATERIAL, 1}, {"mix", BOOK_A_MIX, 1},
	{"batch", BOOK_A_BATCH, 1}, {"specimen", BOOK_A_SPECIMEN, 1},
	{"reading", BOOK_A_READING, WITHDRAW_WORDS}, {"part", BOOK_A_PART, 1},
	{"photo", BOOK_A_PHOTO, 1}};

enum { N_KIND = sizeof kinds / sizeof kinds[0] };

static enum err_code
check_ask(const struct work_withdraw *ask, size_t *kind, struct err *err)
{
	size_t k = 0;

	while (k < N_KIND && strcmp(kinds[k].word, ask->kind) != 0)
		k++;
	if (k == N_KIND)
		return err_report(err, ERR_INPUT, "kind",
			"\"%.40s\" cannot be withdrawn; it takes material, "
			"mix, batch, specimen, reading, part or photo.",
			ask->kind);
	if (ask->n_word != kinds[k].n_word)
		return err_report(err, ERR_INPUT, "code",
			"A %s is named by %s.", ask->kind,
			kinds[k].n_word == 1
				? "its code alone"
				: "its piece, its test (such as bending) and "
				  "its code");
	if (ask->because == NULL || ask->because[0] == '\0')
		return err_report(err, ERR_INPUT, "--because",
			"This takes a reason; give it with --because TEXT.");
	*kind = k;
	return ERR_NONE;
}

static const char *
detail_of(struct arena *arena, const struct work_withdraw *ask)
{
	struct text text;

	text_init(&text, arena);
	text_add(&text, ask->kind);
	for (size_t i = 0; i < ask->n_word; i++)
		text_addf(&text, " %s", ask->word[i]);
	text_addf(&text, ": %s", ask->because);
	return text_failed(&text) ? NULL : text.bytes;
}

enum err_code
work_withdraw(const struct desk *desk, struct arena *arena,
	const struct work_withdraw *ask, struct err *err)
{
	const char *detail;
	enum err_code code;
	size_t k = 0;

	_Static_assert(
		(int)WITHDRAW_WORDS == (int)BOOK_THING_WORDS, "one list");
	TRY(check_ask(ask, &k, err));
	detail = detail_of(arena, ask);
	if (detail == NULL)
		return err_memory(err);
	TRY(book_begin(desk->book, desk->now_utc_s, desk->who,
		ask->restore ? "restore" : "withdraw", desk->submission, err));
	code = ask->restore ? book_restore(desk->book, arena, kinds[k].thing,
				      ask->word, err)
			    : book_withdraw(desk->book, arena, kinds[k].thing,
				      ask->word, err);
	return work_commit_or_undo(desk, detail, code, err);
}
