/* command_confirm.c - the confirmation round: begun sealed, opened when read. */
#include "cli/command.h"

#include "cli/fields.h"
#include "cli/figure.h"
#include "cli/table.h"
#include "work/confirm.h"

#include <math.h>
#include <stdlib.h>

static const char *const verdict_words[] = {[CHOOSE_CONFIRMED_HIT] = "hit",
	[CHOOSE_CONFIRMED_LOW] = "miss, under it",
	[CHOOSE_CONFIRMED_HIGH] = "miss, over it",
	[CHOOSE_CONFIRMED_OPEN] = "cannot tell"};

static const char *
range_words(const struct invocation *in, enum choose_measure measure,
	double low, double high)
{
	if (isinf(high))
		return text_format(in->arena, "over %s",
			figure_bare(in->arena, measure, low));
	return text_format(in->arena, "%s to %s",
		figure_bare(in->arena, measure, low),
		figure_bare(in->arena, measure, high));
}

static void
print_row(const struct invocation *in, struct table *table,
	const struct work_confirmation *c)
{
	const char *const cell[] = {c->part, c->mix,
		choose_measure_name(c->measure),
		choose_measure_unit(c->measure),
		c->is_done ? range_words(in, c->measure, c->foretold.low,
				     c->foretold.high)
			   : "sealed",
		c->is_done
			? range_words(in, c->measure, c->mean.low, c->mean.high)
			: "",
		c->is_done ? verdict_words[c->verdict]
			   : text_format(in->arena, "%zu of %zu read",
				     c->n_tested, c->n_batch)};

	table_row(table, cell);
}

static void
print_text(const struct invocation *in, const struct work_confirmation *row,
	size_t n)
{
	static const char *const heading[] = {"part", "mix", "measure", "unit",
		"foretold", "fresh mean", "came out"};
	struct table table;
	size_t n_miss = 0, n_done = 0;

	table_start(&table, in->arena, heading, 7, 0);
	for (size_t i = 0; i < n; i++) {
		print_row(in, &table, &row[i]);
		n_done += row[i].is_done && !row[i].is_baseline;
		n_miss += row[i].is_done &&
			(row[i].verdict == CHOOSE_CONFIRMED_LOW ||
				row[i].verdict == CHOOSE_CONFIRMED_HIGH);
	}
	table_print(&table, stdout);
	if (n_done > 0)
		print_folded(stdout, 0,
			"Where the round is done the figure of the fresh "
			"batches replaces the first in compare, choose, screen "
			"and takeoff; the baseline keeps all its batches.");
	if (n_miss > 0)
		print_folded(stdout, 0,
			"A miss: look for the cause before you buy (agent, "
			"water, size of the batch, mixing). Of ten ranges one "
			"is missed by chance.");
}

static void
json_row(struct jsonout *json, const struct work_confirmation *c)
{
	const char *unit = unit_si_word(choose_measure_kind(c->measure));

	jsonout_open_object(json);
	jsonout_key_string(json, "part", c->part);
	jsonout_key_string(json, "mix", c->mix);
	jsonout_key_bool(json, "baseline", c->is_baseline);
	jsonout_key_string(json, "measure", choose_measure_word(c->measure));
	jsonout_key_number(json, "batches", (double)c->n_batch);
	jsonout_key_number(json, "batches_read", (double)c->n_tested);
	jsonout_key_bool(json, "done", c->is_done);
	if (c->is_done) {
		jsonout_key_quantity(
			json, "foretold_low", c->foretold.low, unit);
		jsonout_key_quantity(
			json, "foretold_high", c->foretold.high, unit);
		jsonout_key_quantity(json, "mean_low", c->mean.low, unit);
		if (isfinite(c->mean.high))
			jsonout_key_quantity(
				json, "mean_high", c->mean.high, unit);
		jsonout_key_string(json, "came_out", verdict_words[c->verdict]);
	}
	jsonout_close_object(json);
}

static enum err_code
print_json(const struct invocation *in, const struct work_confirmation *row,
	size_t n, struct err *err)
{
	struct text text;
	struct jsonout json;

	json_start(in, &text, &json);
	jsonout_key(&json, "confirmations");
	jsonout_open_array(&json);
	for (size_t i = 0; i < n; i++)
		json_row(&json, &row[i]);
	jsonout_close_array(&json);
	return json_finish(&json, err);
}

static enum err_code
list(const struct invocation *in, const struct desk *desk, struct err *err)
{
	const struct work_confirmation *row = NULL;
	size_t n = 0;

	TRY(work_confirmations(desk, in->arena, &row, &n, err));
	if (in->json)
		return print_json(in, row, n, err);
	if (n == 0)
		print_folded(stdout, 0,
			"No confirmation round was begun. \"foamwright confirm "
			"BOOK PART MIX\" begins one.");
	else
		print_text(in, row, n);
	return ERR_NONE;
}

static enum err_code
begin(const struct invocation *in, const struct desk *desk, struct err *err)
{
	const char *batches = invocation_value(in, "--batches");
	struct work_confirm ask = {.part = in->word[1],
		.mix = in->n_word > 2 ? in->word[2] : NULL,
		.n_batch = WORK_CONFIRM_LEAST};
	size_t n = 0;

	if (batches != NULL) {
		char *end = NULL;
		long asked = strtol(batches, &end, 10);

		ask.n_batch = *end == '\0' && asked > 0 ? (size_t)asked : 0;
	}
	TRY(work_confirm_begin(desk, in->arena, &ask, &n, err));
	if (in->json)
		return list(in, desk, err);
	print_folded(stdout, 0,
		text_format(in->arena,
			"Written down and sealed: %zu ranges. Now make %zu "
			"fresh batches of the mix and %zu of the baseline, in "
			"a new order, at the size of batch that you will pour, "
			"with the same lot of agent, and test them as before. "
			"No new mix joins this round.",
			n, ask.n_batch, ask.n_batch));
	print_folded(stdout, 0,
		"The ranges are shown when the readings are in, so that nobody "
		"reads to them.");
	return ERR_NONE;
}

static enum err_code
run_confirm(const struct invocation *in, struct err *err)
{
	bool is_list = in->n_word == 1;
	struct desk desk;
	enum err_code code;

	TRY(desk_open(in->word[0], !is_list, in, &desk, err));
	code = is_list ? list(in, &desk, err) : begin(in, &desk, err);
	desk_close(&desk);
	return code;
}

static const struct command_option options[] = {
	{"--batches", "N", "fresh ones of the mix, and of the baseline (2)",
		false},
	{"--seed", "N", "of the random draws (1)", false}, {0}};

const struct command command_confirm = {
	.name = "confirm",
	.line = "fresh batches of the chosen mix: foretold first, then hit or "
		"miss",
	.help = "  foamwright confirm BOOK PART [MIX] [OPTIONS]  begins a "
		"round\n"
		"  foamwright confirm BOOK                       what came "
		"out\n\n"
		"Before the fresh batches are made the book keeps what their "
		"mean should read.\nWhen they are tested it says hit or miss; "
		"their figure replaces the first.\nWithout MIX it is the one "
		"decided for the part.\n",
	.example = "foamwright confirm site.book roof P --batches 3",
	.least_words = 1,
	.most_words = 3,
	.options = options,
	.run = run_confirm,
};
