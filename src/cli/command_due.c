/* command_due.c - what to test today, and what to take under cover tonight. */
#include "cli/fields.h"
#include "cli/figure.h"
#include "cli/table.h"

#include "core/date.h"
#include "work/due.h"
#include "work/shelf.h"

#include <string.h>

enum { WEEK_DAYS = 7, COLUMNS = 6 };

/* Which days a heading holds, both ends in it. */
struct span_of_days {
	const char *word, *heading;
	int first, last;
};

static const struct span_of_days spans[] = {
	{"overdue", "Overdue", -100000, -1},
	{"today", "Today, in this order", 0, 0},
	{"tomorrow", "Tomorrow, so take them under cover tonight", 1, 1},
	{"this week", "Within a week", 2, WEEK_DAYS},
	{"later", "Later", WEEK_DAYS + 1, 100000},
};

struct calendar {
	const struct invocation *in;
	const struct work_due *due;
	bool blind;
};

static const char *
mix_of(const struct calendar *c, size_t piece)
{
	const struct work_site *s = &c->due->bench.site;

	return c->blind ? "?"
			: s->mix[s->batch_mix[s->specimen_batch[piece]]].code;
}

static const char *
batch_of(const struct calendar *c, size_t piece)
{
	const struct work_site *s = &c->due->bench.site;

	return c->blind ? "?" : s->batch[s->specimen_batch[piece]].code;
}

static const char *
mass_text(const struct calendar *c, const struct work_due_piece *row)
{
	if (c->blind || !row->mass_kg.has) /* a weight tells the mix */
		return "-";
	return text_format(c->in->arena, "about %.1f kg", row->mass_kg.value);
}

static bool
is_in(const struct work_due_piece *row, const struct span_of_days *span)
{
	return row->days >= span->first && row->days <= span->last;
}

static void
print_span(const struct calendar *c, const struct span_of_days *span)
{
	static const char *const heading[COLUMNS] = {
		"piece", "mix", "batch", "due", "weighs", "what"};
	const struct work_site *s = &c->due->bench.site;
	struct table table;

	table_start(&table, c->in->arena, heading, COLUMNS, 0);
	for (size_t i = 0; i < c->due->n; i++) {
		const struct work_due_piece *row = &c->due->row[i];
		const struct book_specimen *p = &s->specimen[row->piece];
		char day[DATE_TEXT_MAX];

		if (!is_in(row, span))
			continue;
		date_write_day(row->due_s, 0, day);
		const char *cell[COLUMNS] = {p->code, mix_of(c, row->piece),
			batch_of(c, row->piece), arena_text(c->in->arena, day),
			mass_text(c, row), work_piece_sized(c->in->arena, p)};

		table_row(&table, cell);
	}
	if (table.n_row == 0)
		return;
	(void)printf("%s:\n", span->heading);
	table_print(&table, stdout);
	(void)puts("");
}

/* Every piece that waits, whenever it is due. */
static void
print_csv(const struct calendar *c)
{
	static const char *const heading[] = {"piece", "mix", "batch", "due",
		"days from now", "weighs kg", "what"};
	const struct work_site *s = &c->due->bench.site;
	struct arena *a = c->in->arena;
	struct table table;

	table_start(&table, a, heading, sizeof heading / sizeof heading[0], 0);
	for (size_t i = 0; i < c->due->n; i++) {
		const struct work_due_piece *row = &c->due->row[i];
		const struct book_specimen *p = &s->specimen[row->piece];
		bool hidden = c->blind || !row->mass_kg.has;
		char day[DATE_TEXT_MAX];

		date_write_day(row->due_s, 0, day);
		const char *cell[] = {p->code,
			c->blind ? "" : mix_of(c, row->piece),
			c->blind ? "" : batch_of(c, row->piece),
			arena_text(a, day), text_format(a, "%d", row->days),
			hidden ? "" : exact_figure(a, row->mass_kg.value),
			work_piece_sized(a, p)};

		table_row(&table, cell);
	}
	table_show(c->in, &table, stdout);
}

/* Blocks by a wall: when it can be plastered, and whether to weigh today. */
static void
print_drying(const struct calendar *c)
{
	const struct work_due *due = c->due;
	struct arena *a = c->in->arena;

	if (due->n_drying > 0)
		(void)puts("Drying by a wall:");
	for (size_t i = 0; i < due->n_drying; i++)
		print_folded(stdout, 0,
			text_format(a, "%s%s",
				work_drying_words(
					a, &due->bench, &due->drying[i]),
				work_drying_due(&due->drying[i], due->on_s)
					? " Weigh it today."
					: ""));
	if (due->n_drying > 0)
		(void)puts("");
}

static void
print_cautions(const struct work_due *due)
{
	bool now = due->n > 0 && due->row[0].days <= 0;

	if (now)
		print_folded(stdout, 0,
			"Goggles and boots; nobody's toes under the load; a "
			"block 30 to 50 mm under the beam catches it. Carry "
			"beams on edge, with both hands near the quarters.");
	if (due->heavy)
		print_folded(stdout, 0,
			"Some weigh over 25 kg: two people lift them.");
	if (due->n_undated > 0)
		(void)printf("%zu waiting, and their batch has no date: "
			     "\"foamwright batch BOOK CODE --on DATE\".\n",
			due->n_undated);
	if (due->n == 0 && due->n_undated == 0)
		(void)puts("Nothing waits for a test.");
}

static enum err_code
print_json(const struct calendar *c, struct err *err)
{
	const struct work_site *s = &c->due->bench.site;
	struct text text;
	struct jsonout json;

	json_start(c->in, &text, &json);
	jsonout_key(&json, "due");
	jsonout_open_array(&json);
	for (size_t i = 0; i < c->due->n; i++) {
		const struct work_due_piece *row = &c->due->row[i];
		char day[DATE_TEXT_MAX];
		size_t k = 0;

		while (!is_in(row, &spans[k]))
			k++;
		date_write_day(row->due_s, 0, day);
		jsonout_open_object(&json);
		jsonout_key_string(
			&json, "piece", s->specimen[row->piece].code);
		if (!c->blind) {
			jsonout_key_string(&json, "mix", mix_of(c, row->piece));
			jsonout_key_string(
				&json, "batch", batch_of(c, row->piece));
		}
		jsonout_key_string(&json, "due", day);
		jsonout_key_string(&json, "when", spans[k].word);
		if (!c->blind && row->mass_kg.has)
			jsonout_key_quantity(
				&json, "mass", row->mass_kg.value, "kg");
		jsonout_close_object(&json);
	}
	jsonout_close_array(&json);
	jsonout_key_number(&json, "undated", (double)c->due->n_undated);
	jsonout_key(&json, "drying");
	jsonout_open_array(&json);
	for (size_t i = 0; i < c->due->n_drying; i++) {
		const struct work_drying *d = &c->due->drying[i];

		jsonout_open_object(&json);
		jsonout_key_string(&json, "piece", s->specimen[d->piece].code);
		jsonout_key_bool(
			&json, "weigh", work_drying_due(d, c->due->on_s));
		jsonout_key_string(&json, "says",
			work_drying_words(c->in->arena, &c->due->bench, d));
		jsonout_close_object(&json);
	}
	jsonout_close_array(&json);
	return json_finish(&json, err);
}

static const struct command_option options[] = {
	{"--on", "DATE", "of that day (today)", false},
	{"--blind", NULL, "without mix and batch, for whoever reads", false},
	{"--all", NULL, "what is due after a week, too", false},
	{"--seed", "N", "of the order of each day (1)", false}, {0}};

static enum err_code
run_due(const struct invocation *in, struct err *err)
{
	struct calendar c = {.in = in, .blind = invocation_has(in, "--blind")};
	size_t n_span = sizeof spans / sizeof spans[0];
	struct work_due due;
	struct desk desk;
	enum err_code code;

	TRY(desk_open(in->word[0], false, in, &desk, err));
	code = work_due(
		&desk, in->arena, invocation_value(in, "--on"), &due, err);
	desk_close(&desk);
	if (code != ERR_NONE)
		return code;
	c.due = &due;
	if (in->json)
		return print_json(&c, err);
	if (in->csv) {
		print_csv(&c);
		return ERR_NONE;
	}
	if (!invocation_has(in, "--all"))
		n_span--;
	for (size_t i = 0; i < n_span; i++)
		print_span(&c, &spans[i]);
	print_drying(&c);
	print_cautions(&due);
	return ERR_NONE;
}

const struct command command_due = {
	.name = "due",
	.line = "which test pieces to test today, tomorrow and this week",
	.help = "  foamwright due BOOK [OPTIONS]\n\nThe order of a day goes "
		"through the mixes in turn, drawn anew every day.\n",
	.example = "foamwright due site.book --on 2026-03-29 --blind",
	.least_words = 1,
	.most_words = 1,
	.options = options,
	.run = run_due,
	.csv = true,
};
