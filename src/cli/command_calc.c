/* command_calc.c - the open workbench at the command line. */
#include "cli/command.h"

#include "work/calc.h"

#include <errno.h>
#include <string.h>

enum { QUESTION_MOST = 64 * 1024 * 1024 };

static void
print_list(void)
{
	size_t n;
	const struct calc_entry *const *entry = work_calc_list(&n);

	for (size_t i = 0; i < n; i++)
		(void)printf("%-18s %s\n", work_calc_name(entry[i]),
			work_calc_line(entry[i]));
}

static enum err_code
print_json_list(const struct invocation *in, struct err *err)
{
	size_t n;
	const struct calc_entry *const *entry = work_calc_list(&n);
	struct text text;
	struct jsonout json;

	text_init(&text, in->arena);
	jsonout_init(&json, &text);
	jsonout_open_array(&json);
	for (size_t i = 0; i < n; i++) {
		jsonout_open_object(&json);
		jsonout_key_string(&json, "name", work_calc_name(entry[i]));
		jsonout_key_string(&json, "line", work_calc_line(entry[i]));
		jsonout_key_string(
			&json, "example", work_calc_example(entry[i]));
		jsonout_close_object(&json);
	}
	jsonout_close_array(&json);
	if (jsonout_failed(&json))
		return err_memory(err);
	(void)puts(text.bytes);
	return ERR_NONE;
}

static void
print_keys(const struct calc_entry *entry)
{
	size_t n;
	const struct calc_key *key = work_calc_keys(entry, &n);

	(void)printf("%s: %s\n\nKeys:\n", work_calc_name(entry),
		work_calc_line(entry));
	for (size_t i = 0; i < n; i++)
		(void)printf("  %s (%s; %s%s): %s\n", key[i].name, key[i].takes,
			key[i].dflt != NULL ? "default " : "needed",
			key[i].dflt != NULL ? key[i].dflt : "", key[i].meaning);
	(void)printf("\nExample:\n  echo '%s' | foamwright calc %s\n",
		work_calc_example(entry), work_calc_name(entry));
}

static enum err_code
read_question(const struct invocation *in, FILE *from, struct text *text,
	struct err *err)
{
	char part[4096];
	size_t n;

	text_init(text, in->arena);
	while (!text_failed(text) &&
		(n = fread(part, 1, sizeof part, from)) > 0) {
		text_add_n(text, part, n);
		if (text->n > QUESTION_MOST)
			return err_report(err, ERR_INPUT, "question",
				"The question is longer than 64 MB.");
	}
	if (ferror(from))
		return err_report(err, errno == EISDIR ? ERR_INPUT : ERR_SYSTEM,
			"question", "The question cannot be read: %s.",
			strerror(errno));
	return text_failed(text) ? err_memory(err) : ERR_NONE;
}

static enum err_code
answer(const struct invocation *in, const struct calc_entry *entry,
	struct err *err)
{
	const char *in_file = invocation_value(in, "--in");
	FILE *from = stdin;
	struct text question;
	const char *got = NULL;
	enum err_code code;

	if (in_file != NULL && strcmp(in_file, "-") != 0)
		from = fopen(in_file, "rb");
	if (from == NULL)
		return err_report(err,
			errno == EACCES ? ERR_SYSTEM : ERR_NOT_FOUND, "--in",
			"%s cannot be opened: %s.", in_file, strerror(errno));
	code = read_question(in, from, &question, err);
	if (from != stdin)
		(void)fclose(from);
	if (code == ERR_NONE)
		code = work_calc(entry, in->arena, question.bytes, question.n,
			&got, err);
	if (code == ERR_NONE)
		(void)puts(got);
	return code;
}

static enum err_code
run_calc(const struct invocation *in, struct err *err)
{
	const struct calc_entry *entry;
	const char *nearest;

	if (in->n_word == 0 && in->json)
		return print_json_list(in, err);
	if (in->n_word == 0) {
		print_list();
		return ERR_NONE;
	}
	entry = work_calc_find(in->word[0]);
	if (entry != NULL && in->help) {
		print_keys(entry);
		return ERR_NONE;
	}
	if (entry != NULL)
		return answer(in, entry, err);
	nearest = work_calc_nearest(in->word[0]);
	return err_report(err, ERR_INPUT, in->word[0],
		"There is no calculation of that name%s%s%s; \"foamwright "
		"calc\" lists them.",
		nearest != NULL ? "; did you mean \"" : "",
		nearest != NULL ? nearest : "", nearest != NULL ? "\"" : "");
}

static const struct command_option calc_options[] = {
	{"--in", "FILE",
		"reads the question from a file (- or none: what is piped in)",
		false},
	{0}};

const struct command command_calc = {
	.name = "calc",
	.line = "the open workbench: one JSON object in, one out, no book",
	.help = "  foamwright calc                 lists the calculations\n"
		"  foamwright calc NAME --help     its keys and an example\n"
		"  foamwright calc NAME [--in FILE]  answers standard input\n",
	.example = "echo '{\"values\": [1.2, 1.4]}' | foamwright calc summary",
	.least_words = 0,
	.most_words = 1,
	.options = calc_options,
	.run = run_calc,
};
