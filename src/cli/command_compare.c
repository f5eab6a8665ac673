/* command_compare.c - every mix against the baseline, as a builder reads it. */
#include "cli/command.h"

#include "cli/compare_screen.h"

#include <string.h>

/* "crushing_strength", "crushing-strength" or "crushing strength". */
static bool
find_measure(const char *given, enum choose_measure *measure)
{
	char word[64];
	size_t n = strlen(given);

	if (n >= sizeof word)
		return false;
	for (size_t i = 0; i <= n; i++)
		word[i] = given[i];
	for (size_t i = 0; i < n; i++)
		if (word[i] == '-' || word[i] == ' ')
			word[i] = '_';
	if (choose_measure_find(word, measure))
		return true;
	for (size_t i = 0; i < CHOOSE_MEASURE_COUNT; i++) {
		if (strcmp(choose_measure_name((enum choose_measure)i),
			    given) == 0) {
			*measure = (enum choose_measure)i;
			return true;
		}
	}
	return false;
}

static enum err_code
refuse_measure(const struct invocation *in, const char *given, struct err *err)
{
	struct text text;

	text_init(&text, in->arena);
	for (size_t i = 0; i <= CHOOSE_CONDUCTIVITY; i++)
		text_addf(&text, "%s%s", i > 0 ? ", " : "",
			choose_measure_word((enum choose_measure)i));
	if (text_failed(&text))
		return err_memory(err);
	return err_report(err, ERR_INPUT, "--measure",
		"There is no measure \"%.40s\" to compare. There are: %s.",
		given, text.bytes);
}

static enum err_code
read_ask(const struct invocation *in, struct work_compare_ask *ask,
	struct err *err)
{
	const char *measure = invocation_value(in, "--measure");
	const bool every = in->json || invocation_has(in, "--all");

	*ask = (struct work_compare_ask){
		.firmness = every ? WORK_FIRMNESS_ALL : WORK_FIRMNESS_FIRST,
		.leave_out = invocation_has(in, "--leave-out"),
		.classical = invocation_has(in, "--classical"),
		.learn_from = invocation_value(in, "--learn-from")};
	if (measure == NULL)
		return ERR_NONE;
	ask->has_measure = true;
	if (!find_measure(measure, &ask->measure) ||
		ask->measure > CHOOSE_CONDUCTIVITY)
		return refuse_measure(in, measure, err);
	return ERR_NONE;
}

static enum err_code
run_compare(const struct invocation *in, struct err *err)
{
	struct work_compare_ask ask;
	struct work_compared all;
	struct compare_view view;
	struct desk desk;
	enum err_code code;

	TRY(read_ask(in, &ask, err));
	view = (struct compare_view){.all = invocation_has(in, "--all"),
		.detail = invocation_has(in, "--all") || ask.has_measure ||
			ask.leave_out,
		.method = invocation_has(in, "--method")};
	TRY(desk_open(in->word[0], false, in, &desk, err));
	code = work_compare_asked(&desk, in->arena, &ask, &all, err);
	desk_close(&desk);
	if (code != ERR_NONE)
		return code;
	if (in->json)
		return compare_print_json(in, &all, err);
	compare_print_text(in, &all, &view);
	return ERR_NONE;
}

static const struct command_option compare_options[] = {
	{"--measure", "NAME", "one measure in full, such as crushing_strength",
		false},
	{"--all", NULL, "every measure in full, and all that was left out",
		false},
	{"--leave-out", NULL,
		"each batch left out in turn, however many there are", false},
	{"--classical", NULL, "the textbook tests beside the answer", false},
	{"--learn-from", "BOOK",
		"how much batches usually differ, from another book", false},
	{"--method", NULL, "how the figures were worked out", false},
	{"--seed", "N", "of the random draws (1)", false}, {0}};

const struct command command_compare = {
	.name = "compare",
	.line = "every mix against the baseline, with how sure that is",
	.help = "  foamwright compare BOOK [OPTIONS]\n\n"
		"Says first what the trial shows, then what would make it "
		"surer "
		"and how firm it\nis. Likely ranges hold with 9 chances in 10. "
		"For example:\n\n"
		"  foamwright compare site.book --measure dent\n"
		"  foamwright compare site.book --all\n"
		"  foamwright compare site.book --leave-out\n"
		"  foamwright compare site.book --classical\n"
		"  foamwright compare site.book --learn-from last-house.book\n"
		"  foamwright compare site.book --method\n"
		"  foamwright compare site.book --json --seed 7\n",
	.example = "foamwright compare site.book",
	.least_words = 1,
	.most_words = 1,
	.options = compare_options,
	.run = run_compare,
};
