/* command_search.c - things of the book by code or text. */
#include "cli/command.h"
#include "cli/fields.h"
#include "cli/table.h"

#include "work/search.h"

static enum err_code
print_found_json(const struct invocation *in, const struct work_found *found,
	struct err *err)
{
	struct text text;
	struct jsonout json;

	json_start(in, &text, &json);
	jsonout_key(&json, "found");
	jsonout_open_array(&json);
	for (size_t i = 0; i < found->n; i++) {
		jsonout_open_object(&json);
		jsonout_key_string(&json, "kind", found->hit[i].kind);
		jsonout_key_string(&json, "name", found->hit[i].name);
		jsonout_key_string(&json, "text", found->hit[i].text);
		jsonout_close_object(&json);
	}
	jsonout_close_array(&json);
	jsonout_key_bool(&json, "more", found->more);
	return json_finish(&json, err);
}

static enum err_code
print_found(const struct invocation *in, const struct work_found *found,
	struct err *err)
{
	static const char *const heading[] = {"what", "name", "text"};
	struct table table;

	if (in->json)
		return print_found_json(in, found, err);
	table_start(&table, in->arena, heading, 3, 0);
	for (size_t i = 0; i < found->n; i++) {
		const struct work_hit *h = &found->hit[i];
		const char *cell[] = {h->what, h->name, h->text};

		table_row(&table, cell);
	}
	if (found->n > 0 || in->csv)
		table_show(in, &table, stdout);
	else
		(void)puts("Nothing in the book has these words.");
	if (found->more && !in->csv)
		(void)puts("\nThere are more; add a word, or --limit N.");
	return ERR_NONE;
}

static enum err_code
run_search(const struct invocation *in, struct err *err)
{
	struct work_search ask = {.words = ""};
	struct work_found found = {0};
	struct text words;
	struct desk desk;
	enum err_code code;

	TRY(read_limit(in, WORK_SEARCH_PAGE, &ask.n_most, err));
	if (ask.n_most == 0)
		ask.n_most = WORK_SEARCH_MOST;
	text_init(&words, in->arena);
	for (size_t i = 1; i < in->n_word; i++)
		text_addf(&words, "%s ", in->word[i]);
	if (text_failed(&words))
		return err_memory(err);
	ask.words = words.bytes;
	TRY(desk_open(in->word[0], false, in, &desk, err));
	code = work_search(&desk, in->arena, &ask, &found, err);
	if (code == ERR_NONE)
		code = print_found(in, &found, err);
	desk_close(&desk);
	return code;
}

static const struct command_option options[] = {
	{"--limit", "N", "how many are listed at most (50)", false}, {0}};

const struct command command_search = {
	.name = "search",
	.line = "finds mixes, batches, pieces, remarks by code or text",
	.help = "  foamwright search BOOK WORD... [OPTIONS]\n\nAll words must "
		"stand in the code and the texts of the thing, capitals or "
		"not. A\ncode given whole comes first. What was withdrawn is "
		"left out.\n",
	.example = "foamwright search site.book honeycomb",
	.least_words = 2,
	.most_words = 5,
	.options = options,
	.run = run_search,
	.csv = true,
};
