/* command_history.c - what was written when, and an entry undone. */
#include "cli/command.h"
#include "cli/fields.h"
#include "cli/table.h"

#include "work/history.h"

#include <stdlib.h>
#include <string.h>

/* A whole number above 0 of plain digits, such as an entry has. */
static enum err_code
read_entry(const char *text, const char *field, int64_t *entry, struct err *err)
{
	const size_t digits_most = 15;
	size_t n = strspn(text, "0123456789");

	if (n == 0 || n > digits_most || text[n] != '\0' ||
		strtoll(text, NULL, 10) == 0)
		return err_report(err, ERR_INPUT, field,
			"\"%.40s\" is no entry of the history; it takes a "
			"number such as 12, which \"foamwright history\" "
			"shows.",
			text);
	*entry = strtoll(text, NULL, 10);
	return ERR_NONE;
}

/* ---- history ---- */

static enum err_code
print_history_json(const struct invocation *in, const struct work_history *h,
	struct err *err)
{
	struct text text;
	struct jsonout json;

	json_start(in, &text, &json);
	jsonout_key(&json, "entries");
	jsonout_open_array(&json);
	for (size_t i = 0; i < h->n; i++) {
		const struct work_entry *e = &h->entry[i];

		jsonout_open_object(&json);
		jsonout_key(&json, "entry");
		jsonout_integer(&json, e->id);
		jsonout_key_string(&json, "at", e->at);
		jsonout_key_string(&json, "who", e->who);
		jsonout_key_string(&json, "what", e->what);
		jsonout_key_string(&json, "detail", e->detail);
		jsonout_key_string(&json, "touched", e->touched);
		jsonout_key(&json, "undone_by");
		if (e->undone_by != 0)
			jsonout_integer(&json, e->undone_by);
		else
			jsonout_null(&json);
		jsonout_close_object(&json);
	}
	jsonout_close_array(&json);
	jsonout_key_bool(&json, "more", h->more);
	return json_finish(&json, err);
}

static const char *
entry_words(const struct invocation *in, const struct work_entry *e)
{
	const char *sign = e->detail[0] != '\0' && e->touched[0] != '\0' ? " | "
									 : "";
	const char *undone = e->undone_by == 0
		? ""
		: text_format(in->arena, " | undone by entry %lld",
			  (long long)e->undone_by);

	return text_format(in->arena, "%s%s%s%s", e->detail, sign, e->touched,
		undone != NULL ? undone : "");
}

static void
fill_history(const struct invocation *in, const struct work_history *h,
	struct table *table)
{
	static const char *const heading[] = {
		"entry", "when (UTC)", "who", "deed", "what it wrote"};
	const int minute = 16; /* characters of 2026-05-02T08:00 */
	const int second = 20;
	const size_t day = 10;

	table_start(table, in->arena, heading,
		sizeof heading / sizeof heading[0], 0x1);
	for (size_t i = 0; i < h->n; i++) {
		const struct work_entry *e = &h->entry[i];
		char *at = text_format(
			in->arena, "%.*s", in->csv ? second : minute, e->at);
		const char *cell[] = {
			text_format(in->arena, "%lld", (long long)e->id), at,
			e->who, e->what, entry_words(in, e)};

		if (at != NULL && strlen(at) > day && !in->csv)
			at[day] = ' ';
		table_row(table, cell);
	}
}

static enum err_code
print_history(const struct invocation *in, const struct work_history *h,
	struct err *err)
{
	struct table table;

	if (in->json)
		return print_history_json(in, h, err);
	fill_history(in, h, &table);
	table_show(in, &table, stdout);
	if (h->more && !in->csv)
		(void)printf("\nThere are older ones: foamwright history %s "
			     "--before %lld\n",
			in->word[0], (long long)h->entry[h->n - 1].id);
	return ERR_NONE;
}

static enum err_code
run_history(const struct invocation *in, struct err *err)
{
	const char *before_text = invocation_value(in, "--before");
	struct work_history history = {0};
	int64_t before = 0;
	size_t most = 0;
	struct desk desk;
	enum err_code code;

	if (before_text != NULL)
		TRY(read_entry(before_text, "--before", &before, err));
	TRY(read_limit(in, in->csv ? 0 : WORK_HISTORY_PAGE, &most, err));
	TRY(desk_open(in->word[0], false, in, &desk, err));
	code = work_history(&desk, in->arena, before, most, &history, err);
	if (code == ERR_NONE)
		code = print_history(in, &history, err);
	desk_close(&desk);
	return code;
}

static const struct command_option history_options[] = {
	{"--before", "N", "those before entry N", false},
	{"--limit", "N", "entries of a page, 0 for all (30)", false}, {0}};

const struct command command_history = {
	.name = "history",
	.line = "what was written when and by whom, the newest first",
	.help = "  foamwright history BOOK [OPTIONS]\n\nEvery deed is one "
		"entry. \"foamwright undo BOOK N\" puts back what entry N "
		"wrote,\nby a new entry; nothing is ever deleted.\n",
	.example = "foamwright history site.book",
	.least_words = 1,
	.most_words = 1,
	.options = history_options,
	.run = run_history,
	.csv = true,
};

/* ---- undo ---- */

static enum err_code
print_undone(const struct invocation *in, const struct work_undone *got,
	struct err *err)
{
	struct text text;
	struct jsonout json;

	if (!in->json) {
		print_folded(stdout, 0,
			text_format(in->arena, "%s %s: %s.",
				got->entry != 0 ? "Undone," : "Would undo",
				got->detail, got->touched));
		if (got->entry != 0)
			(void)printf("This is entry %lld; to have it again: "
				     "foamwright undo %s %lld\n",
				(long long)got->entry, in->word[0],
				(long long)got->entry);
		return ERR_NONE;
	}
	json_start(in, &text, &json);
	jsonout_key_bool(&json, "dry_run", got->entry == 0);
	jsonout_key(&json, "entry");
	if (got->entry != 0)
		jsonout_integer(&json, got->entry);
	else
		jsonout_null(&json);
	jsonout_key_string(&json, "undone", got->detail);
	jsonout_key_count(&json, "things", got->n_thing);
	jsonout_key_string(&json, "touched", got->touched);
	return json_finish(&json, err);
}

static enum err_code
run_undo(const struct invocation *in, struct err *err)
{
	struct work_undo ask = {.dry_run = invocation_has(in, "--dry-run")};
	struct work_undone got = {0};
	struct desk desk;
	enum err_code code;

	TRY(read_entry(in->word[1], "entry", &ask.entry, err));
	TRY(desk_open(in->word[0], true, in, &desk, err));
	code = work_undo(&desk, in->arena, &ask, &got, err);
	desk_close(&desk);
	if (code != ERR_NONE)
		return code;
	return print_undone(in, &got, err);
}

static const struct command_option undo_options[] = {
	{"--dry-run", NULL, "says what it would put back, and keeps nothing",
		false},
	{0}};

const struct command command_undo = {
	.name = "undo",
	.line = "puts back what one entry of the history wrote",
	.help = "  foamwright undo BOOK N [OPTIONS]\n\nN is any entry that "
		"\"foamwright history BOOK\" shows, not only the last.\nEach "
		"thing that it wrote is what it was before, by a new entry; "
		"undoing that\none brings it back. It is refused where "
		"something later rests on it. Readings\nstay in the record, "
		"marked as taken back.\n",
	.example = "foamwright undo site.book 12",
	.least_words = 2,
	.most_words = 2,
	.options = undo_options,
	.run = run_undo,
};
