/* invocation.c - words and options, the desk, and reports. */
#include "cli/command.h"

#include "cli/terminal.h"
#include "core/unit.h"
#include "work/shelf.h"
#include "work/submission.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

bool
invocation_has(const struct invocation *in, const char *name)
{
	for (size_t i = 0; i < in->n_given; i++)
		if (strcmp(in->given[i].name, name) == 0)
			return true;
	return false;
}

const char *
invocation_next(const struct invocation *in, const char *name, size_t *at)
{
	while (*at < in->n_given) {
		const struct given_option *o = &in->given[(*at)++];

		if (strcmp(o->name, name) == 0)
			return o->value;
	}
	return NULL;
}

const char *
invocation_value(const struct invocation *in, const char *name)
{
	size_t at = 0;

	return invocation_next(in, name, &at);
}

/* The option of the command that the first n bytes of word name, or NULL. */
static const struct command_option *
find_option(const struct command *command, const char *word, size_t n)
{
	const struct command_option *o = command->options;

	for (; o != NULL && o->name != NULL; o++)
		if (strlen(o->name) == n && memcmp(o->name, word, n) == 0)
			return o;
	return NULL;
}

static enum err_code
no_such_option(const struct command *command, const char *word, struct err *err)
{
	static const char *const common[] = {"--help", "--json", "--color"};
	const struct command_option *o = command->options;
	const char *nearest = NULL;
	size_t least = 4;

	for (; o != NULL && o->name != NULL; o++) {
		size_t d = text_distance(word, o->name);

		if (d < least) {
			least = d;
			nearest = o->name;
		}
	}
	for (size_t i = 0; i < sizeof common / sizeof common[0]; i++)
		if (text_distance(word, common[i]) < least) {
			least = text_distance(word, common[i]);
			nearest = common[i];
		}
	return err_report(err, ERR_INPUT, word,
		"\"%s\" has no option \"%.60s\".%s%s%s \"foamwright %s "
		"--help\" lists them.",
		command->name, word, nearest != NULL ? " Did you mean \"" : "",
		nearest != NULL ? nearest : "", nearest != NULL ? "\"?" : "",
		command->name);
}

/* Takes the option at word[0], its value from after '=' or from word[1];
 * *used is how many words that took. */
static enum err_code
take_option(const struct command *command, char **word, int n, int *used,
	struct invocation *in, struct err *err)
{
	const char *equals = strchr(word[0], '=');
	size_t length = equals != NULL ? (size_t)(equals - word[0])
				       : strlen(word[0]);
	const struct command_option *o = find_option(command, word[0], length);
	const char *value = equals != NULL ? equals + 1 : NULL;

	*used = 1;
	if (o == NULL)
		return no_such_option(command, word[0], err);
	if (o->value == NULL && value != NULL)
		return err_report(err, ERR_INPUT, o->name,
			"%s is a switch and takes no value.", o->name);
	if (o->value != NULL && value == NULL) {
		if (n < 2)
			return err_report(err, ERR_INPUT, o->name,
				"%s takes a value: %s %s.", o->name, o->name,
				o->value);
		value = word[1];
		*used = 2;
	}
	if (!o->many && invocation_has(in, o->name))
		return err_report(err, ERR_INPUT, o->name,
			"%s was given twice; it is taken once.", o->name);
	if (in->n_given == GIVEN_MOST)
		return err_report(err, ERR_INPUT, o->name,
			"At most %d options are taken in one command.",
			(int)GIVEN_MOST);
	in->given[in->n_given++] = (struct given_option){
		.name = o->name, .value = value};
	return ERR_NONE;
}

static enum err_code
check_words(const struct command *command, const struct invocation *in,
	size_t n_word, struct err *err)
{
	if (in->help ||
		(n_word >= command->least_words &&
			n_word <= command->most_words))
		return ERR_NONE;
	return err_report(err, ERR_INPUT, "command",
		"\"%s\" was given %zu words where it takes %zu%s; for "
		"example: %s",
		command->name, n_word, command->least_words,
		command->most_words > command->least_words ? " or more" : "",
		command->example);
}

static bool
is_colour(const char *word)
{
	return strcmp(word, "--color") == 0 ||
		strncmp(word, "--color=", strlen("--color=")) == 0;
}

/* --color=WHEN or --color WHEN, which every command takes. */
static enum err_code
take_colour(char **word, int n, int *used, struct err *err)
{
	const char *equals = strchr(word[0], '='), *when = NULL;

	if (equals != NULL) {
		when = equals + 1;
	} else if (n > 1) {
		when = word[1];
		*used = 2;
	}
	if (when == NULL || !terminal_colour_word(when))
		return err_report(err, ERR_INPUT, "--color",
			"--color was given \"%.40s\"; it takes auto, always or "
			"never.",
			when != NULL ? when : "");
	return ERR_NONE;
}

enum err_code
invocation_read(const struct command *command, int n, char **word,
	struct invocation *in, struct err *err)
{
	bool options = true;
	size_t n_word = 0;
	int used;

	for (int i = 0; i < n; i += used) {
		bool dash = options && word[i][0] == '-' && word[i][1] != '\0';

		used = 1;
		if (dash && strcmp(word[i], "--") == 0)
			options = false;
		else if (dash &&
			(strcmp(word[i], "--help") == 0 ||
				strcmp(word[i], "-h") == 0))
			in->help = true;
		else if (dash && strcmp(word[i], "--json") == 0)
			in->json = true;
		else if (dash && command->csv && strcmp(word[i], "--csv") == 0)
			in->csv = true;
		else if (dash && command->writes &&
			strcmp(word[i], "--dry-run") == 0)
			in->dry_run = true;
		else if (dash && is_colour(word[i]))
			TRY(take_colour(word + i, n - i, &used, err));
		else if (dash)
			TRY(take_option(
				command, word + i, n - i, &used, in, err));
		else if (n_word++ < WORDS_MOST)
			in->word[in->n_word++] = word[i];
	}
	if (in->json && in->csv)
		return err_report(err, ERR_INPUT, "--csv",
			"--json and --csv were both given; take one of them.");
	return check_words(command, in, n_word, err);
}

void
invocation_report(const struct command *command, const struct invocation *in,
	const struct err *err)
{
	struct text text;
	struct jsonout json;

	text_init(&text, in->arena);
	text_add_shown(&text, err->text);
	(void)fprintf(stderr, "foamwright %s: %s%s", command->name,
		command == &command_calc ? err->field : "",
		command == &command_calc && err->field[0] != '\0' ? ": " : "");
	terminal_put(stderr, text_failed(&text) ? err->text : text.bytes,
		strlen(text_failed(&text) ? err->text : text.bytes));
	(void)fputc('\n', stderr);
	if (!in->json || command == &command_calc || in->told->json)
		return;
	text_init(&text, in->arena);
	jsonout_init(&json, &text);
	jsonout_open_object(&json);
	json_error(&json, err);
	jsonout_close_object(&json);
	if (!jsonout_failed(&json))
		(void)puts(text.bytes);
}

void
json_error(struct jsonout *json, const struct err *err)
{
	jsonout_key(json, "error");
	jsonout_open_object(json);
	jsonout_key_string(json, "code", err_word(err->code));
	jsonout_key_string(json, "field", err->field);
	jsonout_key_string(json, "text", err->text);
	jsonout_close_object(json);
}

void
json_start(const struct invocation *in, struct text *text, struct jsonout *json)
{
	text_init(text, in->arena);
	jsonout_init(json, text);
	jsonout_open_object(json);
}

enum err_code
json_finish(struct jsonout *json, struct err *err)
{
	jsonout_close_object(json);
	if (text_failed(json->text))
		return err_memory(err);
	if (jsonout_failed(json))
		return err_report(err, ERR_NUMERIC, "answer",
			"The answer holds a figure that is not finite, so it "
			"is not shown. Look for a reading that is far off.");
	(void)puts(json->text->bytes);
	return ERR_NONE;
}

static enum err_code
read_seed(const struct invocation *in, uint64_t *seed, struct err *err)
{
	const double most = 9e15; /* whole numbers are exact below 2^53 */
	const char *text = invocation_value(in, "--seed");
	double value = WORK_SEED;

	if (text != NULL &&
		(unit_read(text, UNIT_NUMBER, NULL, &value, err) != ERR_NONE ||
			!(value >= 0 && value <= most) ||
			floor(value) < value)) {
		err_clear(err);
		return err_report(err, ERR_INPUT, "--seed",
			"\"--seed %.40s\" is no whole number from 0 to "
			"9000000000000000; it takes one such as 1.",
			text);
	}
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
		.n_chain = WORK_CHAINS,
		.n_keep = WORK_KEEP};
	TRY(read_seed(in, &desk->seed, err));
	if (path == NULL)
		return ERR_NONE;
	TRY(work_open(path, write && !in->dry_run, desk, err));
	if (write && !in->dry_run) {
		in->told->written = path;
		desk->state_to = &in->told->after;
		TRY(work_book_state(desk, &in->told->before, err));
	}
	if (write && in->dry_run) {
		TRY(work_try_out(desk, err));
		(void)fputs("Dry run: nothing of this is kept.\n", stderr);
	}
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

/* In single quotes where a shell would take it apart. */
static const char *
in_shell(struct arena *arena, const char *path)
{
	static const char plain[] =
		"abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789"
		"._/-+,:@";
	struct text text;

	if (path[0] != '\0' && path[strspn(path, plain)] == '\0')
		return path;
	text_init(&text, arena);
	text_add_char(&text, '\'');
	for (; *path != '\0'; path++)
		if (*path == '\'')
			text_add(&text, "'\\''");
		else
			text_add_char(&text, *path);
	text_add_char(&text, '\'');
	return text_failed(&text) ? NULL : text.bytes;
}

void
offer_undo(const struct invocation *in, FILE *to)
{
	const struct told *told = in->told;
	const char *path;

	if (told->written == NULL || told->after <= told->before ||
		isatty(fileno(to)) != 1)
		return;
	path = in_shell(in->arena, told->written);
	if (path == NULL)
		return;
	if (told->after > told->before + 1)
		(void)fprintf(to,
			"Take the last of %lld entries back: foamwright undo "
			"%s %lld\n",
			(long long)(told->after - told->before), path,
			(long long)told->after);
	else
		(void)fprintf(to, "Take back: foamwright undo %s %lld\n", path,
			(long long)told->after);
}
