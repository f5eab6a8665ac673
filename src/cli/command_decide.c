/* command_decide.c - a decision written into the book. */
#include "cli/command.h"

#include "cli/table.h"
#include "work/decide.h"

static enum err_code
print_json(const struct invocation *in, const struct work_decision *d,
	struct err *err)
{
	struct text text;
	struct jsonout json;

	json_start(in, &text, &json);
	jsonout_key_string(&json, "part", d->part);
	jsonout_key_string(&json, "mix", d->mix);
	jsonout_key_string(&json, "because", d->because);
	jsonout_key_string(&json, "figures", d->figures);
	return json_finish(&json, err);
}

static enum err_code
run_decide(const struct invocation *in, struct err *err)
{
	const struct work_decide ask = {.part = in->word[1],
		.mix = in->word[2],
		.because = invocation_value(in, "--because")};
	struct work_decision got;
	struct desk desk;
	enum err_code code;

	TRY(desk_open(in->word[0], true, in, &desk, err));
	code = work_decide(&desk, in->arena, &ask, &got, err);
	desk_close(&desk);
	if (code != ERR_NONE)
		return code;
	if (in->json)
		return print_json(in, &got, err);
	print_folded(stdout, 0,
		text_format(in->arena,
			"Written down: %s gets mix %s, because "
			"%s.",
			got.part, got.mix, got.because));
	print_folded(stdout, 2,
		text_format(
			in->arena, "The figures of today: %s.", got.figures));
	print_folded(stdout, 0,
		"The book keeps what you decided; it does not say that it may "
		"be built. A licensed engineer and the local code decide "
		"that.");
	return ERR_NONE;
}

static const struct command_option decide_options[] = {
	{"--because", "TEXT", "the reason, in your own words", false},
	{"--seed", "N", "of the random draws (1)", false}, {0}};

const struct command command_decide = {
	.name = "decide",
	.line = "writes down which mix a part gets, with reason and figures",
	.help = "  foamwright decide BOOK PART MIX --because TEXT\n\nThe "
		"chances "
		"and quantities as they stand today are kept beside it. "
		"Deciding\nagain supersedes; both stay in the book. \"show "
		"BOOK "
		"decisions\" and \"show\nBOOK quantities\" list them.\n",
	.example = "foamwright decide site.book roof P --because \"fewest "
		   "broken at stripping\"",
	.least_words = 3,
	.most_words = 3,
	.options = decide_options,
	.run = run_decide,
	.writes = true,
};
