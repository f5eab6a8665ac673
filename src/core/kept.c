/* kept.c - formats found in a text, and their translations filled again. */
#include "core/kept.h"

#include "core/arena.h"
#include "core/text.h"

#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

/* A text of one of our deeds takes some hundred steps; no text takes long. */
enum { STEPS = 20000, WORD_ROOM = 96 };
static const char of_numbers[] = "0123456789.+-einfa";

struct piece {
	const struct kept_form *form;
	const char *at[KEPT_ARGUMENTS]; /* in the text */
	size_t n[KEPT_ARGUMENTS];
};

struct taking {
	const struct kept_form *form;
	size_t n_form, n_piece;
	int steps; /* left */
	struct tongue tongue;
	struct piece piece[KEPT_PIECES];
};

/* Behind the conversion at f, "%.0f" or "%2$s". */
static const char *
behind(const char *f)
{
	f += 1 + strspn(f + 1, "0123456789$.+-# lzjth");
	return *f != '\0' ? f + 1 : f;
}

/* n bytes of text said in tongue; NULL if it does not know them. */
static const char *
known(const struct tongue *tongue, const char *text, size_t n,
	char word[WORD_ROOM])
{
	const char *said;

	if (n >= WORD_ROOM)
		return NULL;
	(void)memcpy(word, text, n);
	word[n] = '\0';
	said = tongue_say(tongue, word);
	return said != word ? said : NULL;
}

static bool take(struct taking *t, const char *at);

/* The rest of a format and then the rest of the text. */
static bool
match(struct taking *t, const char *f, const char *at, size_t argument)
{
	struct piece *piece = &t->piece[t->n_piece];

	for (; *f != '\0' && (*f != '%' || f[1] == '%'); f++, at++) {
		f += *f == '%';
		if (*f != *at)
			return false;
	}
	if (--t->steps < 0)
		return false;
	if (*f == '\0') {
		t->n_piece++;
		if (take(t, at))
			return true;
		t->n_piece--;
		return false;
	}
	if (argument == KEPT_ARGUMENTS)
		return false;
	const char *next = behind(f);
	const bool is_text = next[-1] == 's';
	const bool is_said = (piece->form->said >> argument & 1U) != 0;

	for (size_t n = is_text ? 0 : 1;; n++) {
		if (n > 0 &&
			(at[n - 1] == '\0' ||
				(!is_text &&
					strchr(of_numbers, at[n - 1]) == NULL)))
			return false;
		char word[WORD_ROOM];

		if (is_said && known(&t->tongue, at, n, word) == NULL)
			continue;
		piece->at[argument] = at;
		piece->n[argument] = n;
		if (match(t, next, at + n, argument + 1))
			return true;
	}
}

static bool
take(struct taking *t, const char *at)
{
	if (*at == '\0')
		return true;
	if (t->n_piece == KEPT_PIECES)
		return false;
	for (size_t i = 0; i < t->n_form; i++) {
		t->piece[t->n_piece].form = &t->form[i];
		if (match(t, t->form[i].format, at, 0))
			return true;
	}
	return false;
}

static void
add_argument(struct text *out, const struct piece *piece, size_t k)
{
	const struct tongue tongue = arena_tongue(out->arena);
	const unsigned looked_up = piece->form->said | piece->form->tried;
	const char *said = NULL;
	char word[WORD_ROOM];

	if ((looked_up >> k & 1U) != 0)
		said = known(&tongue, piece->at[k], piece->n[k], word);
	if (said != NULL)
		text_add(out, said);
	else
		text_add_n(out, piece->at[k], piece->n[k]);
}

static void
add_piece(struct text *out, const struct piece *piece)
{
	const char *f = arena_say(out->arena, piece->form->format);

	for (size_t k = 0; *f != '\0';) {
		size_t n = strcspn(f, "%");

		text_add_n(out, f, n);
		f += n;
		if (*f == '\0')
			return;
		if (f[1] == '%') {
			text_add_char(out, '%');
			f += 2;
			continue;
		}
		n = f[1 + strspn(f + 1, "0123456789")] == '$'
			? strtoul(f + 1, NULL, 10) - 1
			: k++;
		if (n < KEPT_ARGUMENTS)
			add_argument(out, piece, n);
		f = behind(f);
	}
}

const char *
kept_say(struct arena *arena, const struct kept_form *form, size_t n,
	const char *english)
{
	struct taking *t;
	struct text out;

	if (arena_tongue(arena).find == NULL || english[0] == '\0')
		return english;
	t = arena_take(arena, 1, sizeof *t);
	if (t == NULL)
		return english;
	*t = (struct taking){.form = form,
		.n_form = n,
		.steps = STEPS,
		.tongue = arena_tongue(arena)};
	if (!take(t, english))
		return english;
	text_init(&out, arena);
	for (size_t i = 0; i < t->n_piece; i++)
		add_piece(&out, &t->piece[i]);
	return text_failed(&out) ? english : out.bytes;
}
