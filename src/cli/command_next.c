/* command_next.c - which batches to make next, and with which weights. */
#include "cli/command.h"

#include "cli/table.h"
#include "core/unit.h"
#include "work/next.h"

#include <math.h>
#include <string.h>

enum { SHOWN = 10 };

static double
percent(double log_part)
{
	return -100 * expm1(-log_part);
}

static const char *
batches(const struct invocation *in, const struct work_next *next,
	const struct work_next_design *d)
{
	struct text t;

	text_init(&t, in->arena);
	for (size_t m = 0; m < next->n_candidate; m++)
		if (d->extra[m] > 0)
			text_addf(&t, "%s%zu %s", t.n > 0 ? " + " : "",
				d->extra[m],
				next->compared.site.mix[next->candidate[m]]
					.code);
	return text_failed(&t) ? "" : t.bytes;
}

/* The curve of gain against cost: what no cheaper plan matches. */
static void
print_curve(const struct invocation *in, const struct work_next *next)
{
	const bool has_money = invocation_has(in, "--batch-cost") ||
		invocation_has(in, "--specimen-cost") ||
		invocation_has(in, "--day-cost");
	const char *const heading[] = {"batches", "days",
		has_money ? text_format(in->arena, "cost,\n%s",
				    next->compared.site.info.currency)
			  : "cost",
		"wrong choice", "gives up", "gains", "error"};
	struct table table;
	size_t shown = 0;

	(void)printf("\nwhat more batches buy, of %zu plans weighed (the "
		     "largest gain for its cost)\n",
		next->n_design);
	table_start(&table, in->arena, heading, 7, 0x7e);
	for (size_t i = next->n_design; i-- > 0;) {
		const struct work_next_design *d = &next->design[i];
		const char *cell[] = {batches(in, next, d),
			text_format(in->arena, "%zu", d->n_day),
			text_format(in->arena, "%.0f", d->cost),
			work_next_in_100(in->arena, d->gain.p_wrong),
			text_format(in->arena, "%.2f %%",
				percent(fmax(
					0, next->now.regret - d->gain.gain))),
			text_format(
				in->arena, "%.2f %%", percent(d->gain.gain)),
			text_format(in->arena, "%.2f",
				percent(d->gain.gain_error))};

		if (!d->on_curve || shown == SHOWN)
			continue;
		table_row(&table, cell);
		shown++;
	}
	table_print(&table, stdout);
}

static void
print_steps(const struct invocation *in, const struct work_next *next)
{
	static const char *const heading[] = {"mix", "likely load", "steps now",
		"worth now", "hang on at once", "then", "worth"};
	struct table table;

	if (next->n_steps == 0)
		return;
	(void)puts("\nweights for the beams (hanger included; worth: of an "
		   "exact reading)");
	table_start(&table, in->arena, heading, 7, 0x7e);
	for (size_t i = 0; i < next->n_steps; i++) {
		const struct work_next_steps *s = &next->steps[i];
		const char *cell[] = {next->compared.site.mix[s->mix].code,
			text_format(in->arena, "%.3g kg", s->load_kg),
			text_format(in->arena, "%.3g kg", s->step_now_kg),
			text_format(in->arena, "%.2f", s->worth_now),
			text_format(in->arena, "%.4g kg", s->start_kg),
			text_format(in->arena, "%zu of %.3g kg", s->n_step,
				s->step_kg),
			text_format(in->arena, "%.2f", s->worth)};

		table_row(&table, cell);
	}
	table_print(&table, stdout);
}

static void
print_text(const struct invocation *in, const struct work_next *next)
{
	for (size_t i = 0; i < next->n_sentence; i++)
		print_folded(stdout, 0, next->sentence[i]);
	if (next->advised < next->n_design)
		print_curve(in, next);
	print_steps(in, next);
	(void)putchar('\n');
	print_folded(stdout, 0,
		"Gains are what is expected before the batches are made; "
		"\"error\" is that of the drawing, in %. The choice is by this "
		"one measure: what a part of the building asks, see choose. A "
		"licensed engineer and the local code decide what may be "
		"built.");
}

static void
write_design(struct jsonout *json, const struct work_next *next,
	const struct work_next_design *d)
{
	jsonout_open_object(json);
	jsonout_key(json, "batches");
	jsonout_open_object(json);
	for (size_t m = 0; m < next->n_candidate; m++)
		if (d->extra[m] > 0)
			jsonout_key_count(json,
				next->compared.site.mix[next->candidate[m]]
					.code,
				d->extra[m]);
	jsonout_close_object(json);
	jsonout_key_count(json, "days", d->n_day);
	jsonout_key_number(json, "cost", d->cost);
	jsonout_key_number(json, "gain", d->gain.gain);
	jsonout_key_number(json, "gain_error", d->gain.gain_error);
	jsonout_key_number(json, "realised", d->gain.realised);
	jsonout_key_number(json, "realised_error", d->gain.realised_error);
	jsonout_key_number(json, "p_wrong", d->gain.p_wrong);
	jsonout_key_number(json, "p_wrong_error", d->gain.p_wrong_error);
	jsonout_key_bool(json, "on_curve", d->on_curve);
	jsonout_close_object(json);
}

static void
write_steps(struct jsonout *json, const struct work_next *next)
{
	jsonout_key(json, "weights");
	jsonout_open_array(json);
	for (size_t i = 0; i < next->n_steps; i++) {
		const struct work_next_steps *s = &next->steps[i];

		jsonout_open_object(json);
		jsonout_key_string(
			json, "mix", next->compared.site.mix[s->mix].code);
		jsonout_key_quantity(json, "load", s->load_kg, "kg");
		jsonout_key_quantity(json, "step_now", s->step_now_kg, "kg");
		jsonout_key_number(json, "worth_now", s->worth_now);
		jsonout_key_quantity(json, "start", s->start_kg, "kg");
		jsonout_key_quantity(json, "step", s->step_kg, "kg");
		jsonout_key_count(json, "steps", s->n_step);
		jsonout_key_number(json, "worth", s->worth);
		jsonout_close_object(json);
	}
	jsonout_close_array(json);
}

static enum err_code
print_json(const struct invocation *in, const struct work_next *next,
	struct err *err)
{
	const struct work_site *site = &next->compared.site;
	struct text text;
	struct jsonout json;

	json_start(in, &text, &json);
	jsonout_key_string(
		&json, "measure", choose_measure_word(next->measure));
	jsonout_key(&json, "enough");
	if (next->has_enough)
		jsonout_number(&json, next->enough);
	else
		jsonout_null(&json);
	jsonout_key_string(&json, "currency",
		next->has_money ? site->info.currency : "batches");
	jsonout_key_string(&json, "chosen",
		site->mix[next->candidate[next->now.chosen]].code);
	jsonout_key_number(&json, "p_wrong", next->now.p_wrong);
	jsonout_key_number(&json, "regret", next->now.regret);
	jsonout_key_number(&json, "regret_error", next->now.regret_error);
	jsonout_key_count(&json, "pieces_per_batch", next->specimens);
	jsonout_key(&json, "advised");
	if (next->advised < next->n_design)
		jsonout_count(&json, next->advised);
	else
		jsonout_null(&json);
	jsonout_key(&json, "designs");
	jsonout_open_array(&json);
	for (size_t i = 0; i < next->n_design; i++)
		write_design(&json, next, &next->design[i]);
	jsonout_close_array(&json);
	write_steps(&json, next);
	jsonout_key(&json, "sentences");
	jsonout_open_array(&json);
	for (size_t i = 0; i < next->n_sentence; i++)
		jsonout_string(&json, next->sentence[i]);
	jsonout_close_array(&json);
	return json_finish(&json, err);
}

static enum err_code
read_money(const struct invocation *in, const char *option, double *money,
	struct err *err)
{
	const char *given = invocation_value(in, option);

	if (given == NULL)
		return ERR_NONE;
	if (unit_read(given, UNIT_NUMBER, NULL, money, NULL) != ERR_NONE)
		return err_report(err, ERR_INPUT, option,
			"%s got \"%.40s\"; it takes an amount of money without "
			"its sign, such as 12.50.",
			option, given);
	return ERR_NONE;
}

static enum err_code
read_count(const struct invocation *in, const char *option, double most,
	size_t *count, struct err *err)
{
	const char *given = invocation_value(in, option);
	double value = 0;

	if (given == NULL)
		return ERR_NONE;
	if (unit_read(given, UNIT_NUMBER, NULL, &value, NULL) != ERR_NONE ||
		!(value >= 1 && value <= most && value <= floor(value)))
		return err_report(err, ERR_INPUT, option,
			"%s got \"%.40s\"; it takes a whole number from 1 to "
			"%.0f.",
			option, given, most);
	*count = (size_t)value;
	return ERR_NONE;
}

/* In the measure's unit; bending strength where no measure is named. */
static enum err_code
read_enough(
	const struct invocation *in, struct work_next_ask *ask, struct err *err)
{
	const char *given = invocation_value(in, "--enough");
	enum choose_measure measure = ask->has_measure
		? ask->measure
		: CHOOSE_BENDING_STRENGTH;

	if (given == NULL)
		return ERR_NONE;
	if (ask->part != NULL)
		return err_report(err, ERR_INPUT, "--enough",
			"Give --enough or --part, not both: a part brings what "
			"is enough along.");
	TRY(unit_read(
		given, choose_measure_kind(measure), NULL, &ask->enough, err));
	ask->has_measure = true;
	ask->measure = measure;
	ask->has_enough = true;
	return ERR_NONE;
}

static enum err_code
read_ask(
	const struct invocation *in, struct work_next_ask *ask, struct err *err)
{
	const double most_pieces = 1000, most_a_day = 100;
	const char *measure = invocation_value(in, "--measure");

	ask->batches_a_day = 2;
	ask->among = invocation_value(in, "--among");
	if (measure != NULL && !choose_measure_find(measure, &ask->measure))
		return err_report(err, ERR_INPUT, "--measure",
			"There is no measure \"%.40s\"; \"foamwright compare "
			"BOOK --json\" shows the words, such as "
			"crushing_strength.",
			measure);
	ask->has_measure = measure != NULL;
	ask->part = invocation_value(in, "--part");
	TRY(read_enough(in, ask, err));
	TRY(read_money(in, "--batch-cost", &ask->batch_cost, err));
	TRY(read_money(in, "--specimen-cost", &ask->specimen_cost, err));
	TRY(read_money(in, "--day-cost", &ask->day_cost, err));
	TRY(read_money(in, "--budget", &ask->budget, err));
	TRY(read_count(in, "--specimens", most_pieces, &ask->specimens, err));
	return read_count(
		in, "--batches-a-day", most_a_day, &ask->batches_a_day, err);
}

static enum err_code
run_next(const struct invocation *in, struct err *err)
{
	struct work_next_ask ask = {0};
	struct work_next next;
	struct desk desk;
	enum err_code code;

	TRY(read_ask(in, &ask, err));
	TRY(desk_open(in->word[0], false, in, &desk, err));
	code = work_next(&desk, in->arena, &ask, &next, err);
	desk_close(&desk);
	if (code != ERR_NONE)
		return code;
	if (in->json)
		return print_json(in, &next, err);
	print_text(in, &next);
	return ERR_NONE;
}

static const struct command_option next_options[] = {
	{"--measure", "WORD", "what the choice is by (bending_strength)",
		false},
	{"--among", "CODES", "the mixes to choose from, as B,P,F (all)", false},
	{"--enough", "VALUE", "a mean that suffices, as \"0.35 N/mm2\"", false},
	{"--part", "CODE", "what this part asks suffices", false},
	{"--batch-cost", "MONEY", "of a batch", false},
	{"--specimen-cost", "MONEY", "of a test piece", false},
	{"--day-cost", "MONEY", "of a day of casting", false},
	{"--batches-a-day", "N", "how many fit in a day (2)", false},
	{"--specimens", "N", "of each new batch (as many as so far)", false},
	{"--budget", "MONEY", "the most to spend", false},
	{"--seed", "N", "of the random draws (1)", false}, {0}};

const struct command command_next = {
	.name = "next",
	.line = "which batches to make next, what they buy, with which weights",
	.help = "  foamwright next BOOK [OPTIONS]\n\nWithout costs a batch "
		"costs 1. docs/methods/next.md has the method.\n",
	.example = "foamwright next site.book --among B,P,F --batch-cost 18 "
		   "--day-cost 40",
	.least_words = 1,
	.most_words = 1,
	.options = next_options,
	.run = run_next,
};
