/* invocation.c - words and options, the desk, and reports. */
#include "cli/command.h"

#include "core/unit.h"
#include "work/shelf.h"

#include <stdlib.h>
#include <string.h>
#include <time.h>

/* Options that take a text, and where it goes. */
static bool
take_value(const struct command *command, const char *option, const char *value,
	struct invocation *in)
{
	if (command->takes_name && strcmp(option, "--name") == 0)
		in->name = value;
	else if (command->takes_name && strcmp(option, "--note") == 0)
		in->note = value;
	else if (command->takes_in && strcmp(option, "--in") == 0)
		in->in_file = value;
	else if (command->takes_seed && strcmp(option, "--seed") == 0)
		in->seed = value;
	else
		return false;
	return true;
}

static enum err_code
take_option(const struct command *command, const char *option,
	struct invocation *in, struct err *err)
{
	if (strcmp(option, "--help") == 0 || strcmp(option, "-h") == 0)
		in->help = true;
	else if (strcmp(option, "--json") == 0)
		in->json = true;
	else if (command->takes_dry_run && strcmp(option, "--dry-run") == 0)
		in->dry_run = true;
	else
		return err_report(err, ERR_INPUT, option,
			"There is no such option of \"%s\", or its value is "
			"missing; \"foamwright %s --help\" lists them.",
			command->name, command->name);
	return ERR_NONE;
}

enum err_code
invocation_read(const struct command *command, int n, char **word,
	struct invocation *in, struct err *err)
{
	bool options = true;

	for (int i = 0; i < n; i++) {
		bool dash = options && word[i][0] == '-' && word[i][1] != '\0';

		if (dash && strcmp(word[i], "--") == 0) {
			options = false;
		} else if (dash && i + 1 < n &&
			take_value(command, word[i], word[i + 1], in)) {
			i++;
		} else if (dash) {
			TRY(take_option(command, word[i], in, err));
		} else if (in->n_word < WORDS_MOST) {
			in->word[in->n_word++] = word[i];
		} else {
			break;
		}
	}
	if (!in->help && (in->n_word < command->least_words ||
				 in->n_word > command->most_words))
		return err_report(err, ERR_INPUT, "command",
			"\"%s\" was given %zu words where it takes %zu%s; for "
			"example: %s",
			command->name, in->n_word, command->least_words,
			command->most_words > command->least_words ? " or more"
								   : "",
			command->example);
	return ERR_NONE;
}

void
invocation_report(const struct command *command, const struct invocation *in,
	const struct err *err)
{
	struct text text;
	struct jsonout json;

	text_init(&text, in->arena);
	text_add_shown(&text, err->text);
	(void)fprintf(stderr, "foamwright %s: %s%s%s\n", command->name,
		command == &command_calc ? err->field : "",
		command == &command_calc && err->field[0] != '\0' ? ": " : "",
		text_failed(&text) ? err->text : text.bytes);
	if (!in->json || command == &command_calc)
		return;
	text_init(&text, in->arena);
	jsonout_init(&json, &text);
	jsonout_open_object(&json);
	jsonout_key(&json, "error");
	jsonout_open_object(&json);
	jsonout_key_string(&json, "code", err_word(err->code));
	jsonout_key_string(&json, "field", err->field);
	jsonout_key_string(&json, "text", err->text);
	jsonout_close_object(&json);
	jsonout_close_object(&json);
	if (!jsonout_failed(&json))
		(void)puts(text.bytes);
}

static enum err_code
read_seed(const struct invocation *in, uint64_t *seed, struct err *err)
{
	double value = WORK_SEED;

	if (in->seed != NULL &&
		(unit_read(in->seed, UNIT_NUMBER, NULL, &value, err) !=
				ERR_NONE ||
			value > 9e15))
		return err_report(err, ERR_INPUT, "--seed",
			"The seed must be a whole number, such as 1.");
	*seed = (uint64_t)value;
	return ERR_NONE;
}

enum err_code
desk_open(const char *path, bool write, const struct invocation *in,
	struct desk *desk, struct err *err)
{
	const char *who = getenv("USER");

	*desk = (struct desk){.now_utc_s = (int64_t)time(NULL),
		.who = who != NULL && who[0] != '\0' ? who : "someone",
		.n_chain = WORK_CHAINS, .n_keep = WORK_KEEP};
	TRY(read_seed(in, &desk->seed, err));
	if (path == NULL)
		return ERR_NONE;
	TRY(work_open(path, write, desk, err));
	if (work_copied_aside(desk) != NULL)
		(void)fprintf(stderr,
			"The book was of an older Foamwright. It was brought "
			"up to this one; the older one is kept as %s\n",
			work_copied_aside(desk));
	return ERR_NONE;
}

void
desk_close(struct desk *desk)
{
	work_close(desk);
}
