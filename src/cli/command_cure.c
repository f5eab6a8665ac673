/* command_cure.c - how batches were kept, and how old that makes them. */
#include "cli/fields.h"
#include "cli/table.h"

#include "work/cure.h"
#include "work/shelf.h"

#define AT(member) offsetof(struct work_cure_ask, member)
static const struct field fields[] = {
	{"--trial", FIELD_TEXT, UNIT_NUMBER, AT(trial)},
	{"--code", FIELD_TEXT, UNIT_NUMBER, AT(code)},
	{"--from", FIELD_DATE, UNIT_NUMBER, AT(from)},
	{"--to", FIELD_DATE, UNIT_NUMBER, AT(to)},
	{"--temperature", FIELD_MAYBE, UNIT_TEMPERATURE, AT(degc)},
	{"--trace", FIELD_TEXT, UNIT_NUMBER, AT(trace)},
	{"--start", FIELD_DATE, UNIT_NUMBER, AT(start)},
	{"--keeping", FIELD_TEXT, UNIT_NUMBER, AT(keeping)},
	{"--remark", FIELD_TEXT, UNIT_NUMBER, AT(remark)},
};
#undef AT

static const struct command_option options[] = {
	{"--trial", "TRIAL", "every batch of a trial that was made", false},
	{"--temperature", "DEGREES", "how warm they lay", false},
	{"--trace", "CODE", "or the thermometer's log (\"trace\")", false},
	{"--from", "DATE", "from when on (casting)", false},
	{"--to", "DATE", "until when (the log's end)", false},
	{"--start", "DATE", "when a log without dates began (casting)", false},
	{"--keeping", "HOW", "wrapped, moist, water or air", false},
	{"--code", "CODE", "which while of a batch (numbered)", false},
	{"--remark", "TEXT", "a remark", false}, {0}};

/* ---- told ---- */

static enum err_code
list(const struct invocation *in, const struct desk *desk, struct err *err)
{
	static const char *const heading[] = {"batch", "mix", "known until",
		"days", "degC", "days at 20 degC", "kept"};
	struct work_site site;
	struct work_cures cures;
	struct table table;

	TRY(work_site_read(desk->book, in->arena, &site, err));
	TRY(work_cures(desk, in->arena, &cures, err));
	table_start(&table, in->arena, heading,
		sizeof heading / sizeof heading[0], 0x38);
	for (size_t i = 0; i < site.n_batch; i++) {
		struct work_cure_reach reach;

		if (!work_cure_reach(in->arena, &site, &cures, i, &reach))
			continue;
		const char *cell[] = {site.batch[i].code,
			site.mix[site.batch_mix[i]].code, reach.until,
			text_format(in->arena, "%.1f", reach.days),
			text_format(in->arena, "%.1f", reach.cured.mean_degC),
			reach.cured.is_usable
				? text_format(in->arena, "%.1f",
					  reach.equivalent_days)
				: text_format(in->arena, "only %.0f %% known",
					  reach.cured.known_ratio * 100),
			reach.cured.keeping};

		table_row(&table, cell);
	}
	if (table.n_row == 0 && !in->csv && !in->json) {
		(void)puts("Nothing is in the book on how batches cured.");
		return ERR_NONE;
	}
	if (in->json) {
		struct text text;
		struct jsonout json;

		json_start(in, &text, &json);
		jsonout_key(&json, "cures");
		jsonout_open_array(&json);
		for (size_t r = 0; r < table.n_row; r++) {
			jsonout_open_object(&json);
			for (size_t c = 0; c < table.n_column; c++)
				jsonout_key_string(&json, heading[c],
					table.cell[r * table.n_column + c]);
			jsonout_close_object(&json);
		}
		jsonout_close_array(&json);
		return json_finish(&json, err);
	}
	table_show(in, &table, stdout);
	return ERR_NONE;
}

/* ---- entered ---- */

static enum err_code
enter(const struct invocation *in, const struct desk *desk, struct err *err)
{
	struct work_cure_ask ask = {
		.batch = in->n_word > 1 ? in->word[1] : NULL,
		.typed = fields_typed(in)};
	struct work_cure_told told;

	if (ask.typed == NULL)
		return err_memory(err);
	TRY(fields_read(
		in, fields, sizeof fields / sizeof fields[0], &ask, err));
	TRY(work_cure_put(desk, in->arena, &ask, &told, err));
	if (in->json) {
		(void)printf("{\"batches\": %zu}\n", told.n_batch);
		return ERR_NONE;
	}
	for (size_t i = 0; i < told.n_sentence; i++)
		print_folded(stdout, 0, told.sentence[i]);
	return ERR_NONE;
}

static enum err_code
run_cure(const struct invocation *in, struct err *err)
{
	bool told = in->n_word == 1 && in->n_given == 0;
	struct desk desk;
	enum err_code code;

	TRY(desk_open(in->word[0], !told, in, &desk, err));
	code = told ? list(in, &desk, err) : enter(in, &desk, err);
	desk_close(&desk);
	return code;
}

const struct command command_cure = {
	.name = "cure",
	.line = "how batches were kept, by days or a thermometer's log",
	.help = "  foamwright cure BOOK BATCH --temperature DEGREES --to DATE "
		"[OPTIONS]\n  foamwright cure BOOK --trial TRIAL --trace CODE "
		"[OPTIONS]\n  foamwright cure BOOK\n\nTwo pieces of 28 days "
		"are not of one age if one lay in the cold: what is known\n"
		"here turns ages into days at 20 degC (ASTM C1074) in the "
		"results and in compare.\n",
	.example = "foamwright cure site.book --trial T --temperature \"14 "
		   "degC\" --to 2026-03-29 --keeping wrapped",
	.least_words = 1,
	.most_words = 2,
	.options = options,
	.run = run_cure,
	.csv = true,
	.writes = true,
};
