/* warning.c - the rules that warn, read with the book's own settings and set. */
#include "work/warning.h"

#include "book/book.h"
#include "core/text.h"
#include "work/mixer.h"

#include <string.h>

void
work_warnings_of(
	const struct book_warning *row, size_t n, struct work_warnings *out)
{
	for (int i = 0; i < CONTROL_WARNING_COUNT; i++) {
		struct work_warning *w = &out->w[i];

		*w = (struct work_warning){
			.rule = control_warning((enum control_warning_code)i),
			.is_on = true,
			.reason = ""};
		for (size_t k = 0; k < control_warning_limits(w->rule); k++)
			w->limit[k] = w->rule->limit[k].usual;
	}
	for (size_t i = 0; i < n; i++) {
		enum control_warning_code code;
		struct work_warning *w;

		if (!control_warning_find(row[i].code, &code))
			continue;
		w = &out->w[code];
		w->is_on = row[i].is_on;
		w->is_set = true;
		w->reason = row[i].reason;
		w->id = row[i].row.id;
		for (size_t k = 0; k < control_warning_limits(w->rule); k++) {
			w->own[k] = row[i].limit[k].has;
			if (w->own[k])
				w->limit[k] = row[i].limit[k].value;
		}
	}
}

static bool
has_own(const struct work_warning *w)
{
	return w->own[0] || w->own[1] || w->own[2];
}

const char *
work_warning_text(
	struct arena *arena, const struct work_warning *w, const char *sentence)
{
	if (sentence == NULL)
		return NULL;
	sentence = arena_say(arena, sentence);
	if (has_own(w))
		return text_format(arena, "%s [%s: limit of this book, %s]",
			sentence, w->rule->code, w->reason);
	return text_format(arena, "%s [%s: %s]", sentence, w->rule->code,
		arena_say(arena, w->rule->basis));
}

/* ---- set ---- */

static enum err_code
find_limit(const struct work_warning *w, const char *word, size_t *at,
	struct err *err)
{
	size_t n = control_warning_limits(w->rule);

	if (n == 0)
		return err_report(err, ERR_INPUT, "--limit",
			"%s has no limit to set; --off silences it.",
			w->rule->code);
	if (word[0] == '\0' && n == 1) {
		*at = 0;
		return ERR_NONE;
	}
	for (*at = 0; *at < n; ++*at)
		if (strcmp(w->rule->limit[*at].word, word) == 0)
			return ERR_NONE;
	return err_report(err, ERR_INPUT, "--limit",
		"%s has the limits %s%s%s%s%s: --limit \"%s=...\".",
		w->rule->code, w->rule->limit[0].word, n > 1 ? ", " : "",
		n > 1 ? w->rule->limit[1].word : "", n > 2 ? ", " : "",
		n > 2 ? w->rule->limit[2].word : "", w->rule->limit[0].word);
}

static enum err_code
set_limit(const struct desk *desk, struct arena *arena, struct work_warning *w,
	const struct work_warning_limit *ask, struct err *err)
{
	const struct unit_rules rules = {
		.gallon = desk->gallon, .may_be_negative = true};
	const struct control_limit *limit;
	double value;
	size_t at = 0;

	TRY(find_limit(w, ask->word, &at, err));
	limit = &w->rule->limit[at];
	TRY(unit_read(ask->value, limit->kind, &rules, &value, err));
	if (!(value >= limit->least && value <= limit->most))
		return err_report(err, ERR_INPUT, "--limit",
			"%s of %s may be from %s to %s.",
			err_say(err, limit->word), w->rule->code,
			unit_write(arena, limit->least, limit->kind,
				limit->unit, 4),
			unit_write(arena, limit->most, limit->kind, limit->unit,
				4));
	w->limit[at] = value;
	w->own[at] = true;
	return ERR_NONE;
}

/* Limits of the same kind stand in order: watch before stop. */
static enum err_code
check_order(const struct work_warning *w, struct err *err)
{
	const struct control_limit *l = w->rule->limit;

	for (size_t k = 1; k < control_warning_limits(w->rule); k++)
		if (l[k].kind == l[k - 1].kind && l[k].usual > l[k - 1].usual &&
			w->limit[k] < w->limit[k - 1])
			return err_report(err, ERR_INPUT, "--limit",
				"%s: %s must not be less than %s.",
				w->rule->code, err_say(err, l[k].word),
				err_say(err, l[k - 1].word));
	return ERR_NONE;
}

static enum err_code
apply(const struct desk *desk, struct arena *arena, struct work_warning *w,
	const struct work_warning_ask *ask, struct err *err)
{
	if (ask->n_limit == 0 && !ask->on && !ask->off && !ask->as_it_comes)
		return err_report(err, ERR_INPUT, "--limit",
			"Say what is to change: --limit, --off, --on or "
			"--as-it-comes.");
	if (ask->as_it_comes)
		for (size_t k = 0; k < control_warning_limits(w->rule); k++) {
			w->own[k] = false;
			w->limit[k] = w->rule->limit[k].usual;
		}
	for (size_t i = 0; i < ask->n_limit; i++)
		TRY(set_limit(desk, arena, w, &ask->limit[i], err));
	TRY(check_order(w, err));
	if (ask->on || ask->as_it_comes)
		w->is_on = true;
	if (ask->off)
		w->is_on = false;
	w->reason = ask->as_it_comes ? "" : w->reason;
	w->reason = ask->reason != NULL ? ask->reason : w->reason;
	if ((has_own(w) || !w->is_on) && w->reason[0] == '\0')
		return err_report(err, ERR_INPUT, "--why",
			"Say why, for whoever reads it later: --why \"our "
			"scale reads to 50 g\".");
	return ERR_NONE;
}

enum err_code
work_warning_put(const struct desk *desk, struct arena *arena,
	const struct work_warning_ask *ask, struct work_warning *out,
	struct err *err)
{
	struct book_warning row = {.row = {.typed = ask->typed}};
	enum control_warning_code code;
	struct work_warnings all;
	const struct book_warning *have;
	struct work_warning *w;
	size_t n;

	if (!control_warning_find(ask->code, &code))
		return err_report(err, ERR_NOT_FOUND, "warning",
			"There is no warning \"%.20s\"; they are W1 to W%d.",
			ask->code, CONTROL_WARNING_COUNT);
	TRY(book_all_warning(desk->book, arena, &have, &n, err));
	work_warnings_of(have, n, &all);
	w = &all.w[code];
	TRY(apply(desk, arena, w, ask, err));
	row.row.id = w->id;
	row.code = w->rule->code;
	row.is_on = w->is_on;
	row.reason = w->reason;
	for (size_t k = 0; k < CONTROL_LIMITS_MOST; k++)
		row.limit[k] = (struct maybe){w->own[k], w->limit[k]};
	TRY(book_begin(desk->book, desk->now_utc_s, desk->who, "warning",
		desk->submission, err));
	TRY(work_commit_or_undo(
		desk, row.code, book_put_warning(desk->book, &row, err), err));
	w->id = row.row.id;
	w->is_set = true;
	*out = *w;
	return ERR_NONE;
}
