/* command_warnings.c - the rules that warn: listed, read and set. */
#include "cli/fields.h"
#include "cli/table.h"

#include "work/shelf.h"
#include "work/warn.h"

#include <string.h>

static const struct command_option options[] = {
	{"--limit", "[NAME=]VALUE", "another limit, such as watch=6%", true},
	{"--off", NULL, "silences the rule", false},
	{"--on", NULL, "lets it speak again", false},
	{"--as-it-comes", NULL, "with the limits it came with", false},
	{"--why", "TEXT", "why, for whoever reads it later", false},
	{"--all", NULL, "each rule with all that it says now", false}, {0}};

/* "10 %" for "10.0 %". */
static const char *
without_zeros(char *text)
{
	size_t n = text != NULL ? strcspn(text, " ") : 0, cut = n;

	if (n == 0 || memchr(text, '.', n) == NULL)
		return text;
	while (text[cut - 1] == '0')
		cut--;
	if (text[cut - 1] == '.')
		cut--;
	memmove(text + cut, text + n, strlen(text + n) + 1);
	return text;
}

static const char *
limits_text(const struct invocation *in, const struct work_warning *w)
{
	struct text text;

	text_init(&text, in->arena);
	for (size_t k = 0; k < CONTROL_LIMITS_MOST; k++) {
		const struct control_limit *l = &w->rule->limit[k];

		if (l->word == NULL)
			break;
		text_addf(&text, "%s%s ", k > 0 ? ", " : "", l->word);
		text_add(&text,
			without_zeros(l->unit[0] != '\0'
					? unit_write(in->arena, w->limit[k],
						  l->kind, l->unit, 3)
					: unit_digits(
						  in->arena, w->limit[k], 3)));
		if (w->own[k])
			text_add(&text, " (own)");
	}
	return text_failed(&text) ? "" : text.bytes;
}

static const char *
state_text(const struct invocation *in, const struct work_rule_told *t)
{
	if (!t->w.is_on)
		return "off";
	if (t->n_fired > 0)
		return text_format(in->arena, "speaks %zu", t->n_fired);
	return t->w.rule->later[0] != '\0' ? "in part" : "quiet";
}

static void
print_list(const struct invocation *in, const struct work_warned *all)
{
	static const char *const heading[] = {
		"rule", "now", "when", "limits", "rests on"};
	struct table table;

	table_start(&table, in->arena, heading, 5, 0);
	for (size_t i = 0; i < CONTROL_WARNING_COUNT; i++) {
		const struct work_rule_told *t = &all->rule[i];
		const char *cell[5] = {t->w.rule->code, state_text(in, t),
			t->w.rule->says, limits_text(in, &t->w),
			t->w.rule->basis};

		table_row(&table, cell);
	}
	table_print(&table, stdout);
	print_folded(stdout, 0,
		"\"foamwright warnings BOOK W4\" shows one whole, with --limit "
		"or --off it is set. \"In part\": something that it looks at "
		"is not recorded yet; the rule says what.");
}

static void
print_rule(const struct invocation *in, const struct work_rule_told *t)
{
	const struct work_warning *w = &t->w;
	const char *limits = limits_text(in, w);

	(void)printf("%s, stage %d of the job, %s\n", w->rule->code,
		w->rule->stage, w->is_on ? "on" : "off");
	print_folded(stdout, 2,
		text_format(in->arena, "When %s. %s", w->rule->says,
			w->rule->means));
	if (limits[0] != '\0')
		print_folded(stdout, 2,
			text_format(in->arena, "Limits: %s.", limits));
	print_folded(stdout, 2,
		text_format(in->arena, "Rests on: %s.", w->rule->basis));
	print_folded(stdout, 2,
		text_format(in->arena, "Read at: %s.", w->rule->read_at));
	if (w->reason[0] != '\0')
		print_folded(stdout, 2,
			text_format(
				in->arena, "Set in this book: %s.", w->reason));
	if (w->rule->later[0] != '\0')
		print_folded(stdout, 2,
			text_format(in->arena, "Not whole yet: %s.",
				w->rule->later));
	for (size_t i = 0; i < t->n_fired; i++)
		print_folded(stdout, 2,
			text_format(in->arena, "%s: %s", t->fired[i].subject,
				t->fired[i].sentence));
}

static void
json_rule(struct jsonout *json, const struct work_rule_told *t)
{
	const struct work_warning *w = &t->w;

	jsonout_open_object(json);
	jsonout_key_string(json, "rule", w->rule->code);
	jsonout_key_count(json, "stage", (size_t)w->rule->stage);
	jsonout_key_bool(json, "on", w->is_on);
	jsonout_key_string(json, "when", w->rule->says);
	jsonout_key_string(json, "means", w->rule->means);
	jsonout_key_string(json, "basis", w->rule->basis);
	jsonout_key_string(json, "read_at", w->rule->read_at);
	jsonout_key_string(json, "not_judged_yet", w->rule->later);
	jsonout_key_string(json, "reason", w->reason);
	jsonout_key(json, "limits");
	jsonout_open_array(json);
	for (size_t k = 0; k < control_warning_limits(w->rule); k++) {
		jsonout_open_object(json);
		jsonout_key_string(json, "name", w->rule->limit[k].word);
		jsonout_key_number(json, "value", w->limit[k]);
		jsonout_key_string(
			json, "unit", unit_si_word(w->rule->limit[k].kind));
		jsonout_key_bool(json, "own", w->own[k]);
		jsonout_close_object(json);
	}
	jsonout_close_array(json);
	jsonout_key(json, "says");
	jsonout_open_array(json);
	for (size_t i = 0; i < t->n_fired; i++) {
		jsonout_open_object(json);
		jsonout_key_string(json, "of", t->fired[i].subject);
		jsonout_key_string(json, "sentence", t->fired[i].sentence);
		jsonout_close_object(json);
	}
	jsonout_close_array(json);
	jsonout_close_object(json);
}

static enum err_code
print_json(const struct invocation *in, const struct work_warned *all,
	size_t from, size_t to, struct err *err)
{
	struct text text;
	struct jsonout json;

	json_start(in, &text, &json);
	jsonout_key(&json, "rules");
	jsonout_open_array(&json);
	for (size_t i = from; i < to; i++)
		json_rule(&json, &all->rule[i]);
	jsonout_close_array(&json);
	return json_finish(&json, err);
}

static enum err_code
list(const struct invocation *in, const struct desk *desk, struct err *err)
{
	enum control_warning_code code = CONTROL_W1;
	struct work_warned all;

	if (in->n_word > 1 && !control_warning_find(in->word[1], &code))
		return err_report(err, ERR_NOT_FOUND, "warning",
			"There is no warning \"%.20s\"; they are W1 to W%d.",
			in->word[1], CONTROL_WARNING_COUNT);
	TRY(work_warn(desk, in->arena, &all, err));
	if (in->json && in->n_word > 1)
		return print_json(
			in, &all, (size_t)code, (size_t)code + 1, err);
	if (in->json)
		return print_json(in, &all, 0, CONTROL_WARNING_COUNT, err);
	if (in->n_word > 1)
		print_rule(in, &all.rule[code]);
	else if (invocation_has(in, "--all"))
		for (size_t i = 0; i < CONTROL_WARNING_COUNT; i++)
			print_rule(in, &all.rule[i]);
	else
		print_list(in, &all);
	return ERR_NONE;
}

static enum err_code
read_limits(const struct invocation *in, struct work_warning_ask *ask,
	struct err *err)
{
	struct work_warning_limit *limit = arena_take(
		in->arena, GIVEN_MOST, sizeof *limit);
	size_t at = 0;

	if (limit == NULL)
		return err_memory(err);
	for (const char *text = invocation_next(in, "--limit", &at);
		text != NULL; text = invocation_next(in, "--limit", &at)) {
		struct work_warning_limit *l = &limit[ask->n_limit++];

		*l = (struct work_warning_limit){"", text};
		if (strchr(text, '=') != NULL)
			TRY(field_pair(
				in, "--limit", text, &l->word, &l->value, err));
	}
	ask->limit = limit;
	return ERR_NONE;
}

static enum err_code
set(const struct invocation *in, const struct desk *desk, struct err *err)
{
	struct work_warning_ask ask = {.code = in->word[1],
		.on = invocation_has(in, "--on"),
		.off = invocation_has(in, "--off"),
		.as_it_comes = invocation_has(in, "--as-it-comes"),
		.reason = invocation_value(in, "--why"),
		.typed = fields_typed(in)};
	struct work_warning w;

	if (ask.typed == NULL)
		return err_memory(err);
	TRY(read_limits(in, &ask, err));
	TRY(work_warning_put(desk, in->arena, &ask, &w, err));
	if (in->json)
		(void)puts("{\"entered\": true}");
	else
		(void)printf("%s is %s%s%s.\n", w.rule->code,
			w.is_on ? "on: " : "off", w.is_on ? w.rule->says : "",
			w.is_on ? text_format(in->arena, " (%s)",
					  limits_text(in, &w))
				: "");
	return ERR_NONE;
}

static enum err_code
run_warnings(const struct invocation *in, struct err *err)
{
	bool write = invocation_has(in, "--limit") ||
		invocation_has(in, "--on") || invocation_has(in, "--off") ||
		invocation_has(in, "--as-it-comes") ||
		invocation_has(in, "--why");
	struct desk desk;
	enum err_code code;

	if (write && in->n_word < 2)
		return err_report(err, ERR_INPUT, "warning",
			"Say which rule is to be set: foamwright warnings BOOK "
			"W4 --limit watch=6%%.");
	TRY(desk_open(in->word[0], write, in, &desk, err));
	code = write ? set(in, &desk, err) : list(in, &desk, err);
	desk_close(&desk);
	return code;
}

const struct command command_warnings = {
	.name = "warnings",
	.line = "the rules that warn: what they rest on, what they say, set "
		"them",
	.help = "  foamwright warnings BOOK [RULE] [OPTIONS]\n\nThirty rules "
		"with "
		"their limits, each with what it rests on: a publication, a\n"
		"reckoning, common practice, or memory. Every one may be set; "
		"what was\nset stays in the history of the book.\n",
	.example = "foamwright warnings site.book W4 --limit watch=6% --why "
		   "\"our bucket is small\"",
	.least_words = 1,
	.most_words = 2,
	.options = options,
	.run = run_warnings,
};
