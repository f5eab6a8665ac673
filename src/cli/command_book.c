/* command_book.c - new, import, verify. */
#include "cli/command.h"
#include "cli/table.h"

#include "work/import.h"
#include "work/shelf.h"
#include "work/withdraw.h"

#include <string.h>

static const struct command_option new_options[] = {
	{"--name", "TEXT", "what the building is called", false},
	{"--note", "TEXT", "a line that stands in the book from the first",
		false},
	{"--gallon", "WHICH", "us or imperial: what a gallon means (us)",
		false},
	{0}};

static enum err_code
run_new(const struct invocation *in, struct err *err)
{
	const char *name = invocation_value(in, "--name");
	const char *note = invocation_value(in, "--note");
	const char *gallon = invocation_value(in, "--gallon");
	struct desk desk;

	TRY(desk_open(NULL, true, in, &desk, err));
	if (gallon != NULL && !work_gallon_find(gallon, &desk.gallon))
		return err_report(err, ERR_INPUT, "--gallon",
			"--gallon was given \"%.40s\"; it takes us (3.785 L) "
			"or imperial (4.546 L).",
			gallon);
	TRY(work_new(in->word[0], name != NULL ? name : "My building",
		note != NULL ? note : "", &desk, err));
	if (!in->json && gallon != NULL)
		(void)printf("A gallon in it is one of the %s.\n",
			work_gallon_name(desk.gallon));
	if (in->json)
		(void)puts("{\"made\": true}");
	else
		(void)printf("Made %s. Next: foamwright import %s FOLDER\n",
			in->word[0], in->word[0]);
	return ERR_NONE;
}

const struct command command_new = {
	.name = "new",
	.line = "makes an empty book, the one file that holds the whole job",
	.help = "  foamwright new BOOK [OPTIONS]\n\nThe file "
		"must not be there yet; nothing is ever written over.\n",
	.example = "foamwright new site.book --name \"Guest house\"",
	.least_words = 1,
	.most_words = 1,
	.options = new_options,
	.run = run_new,
};

static void
print_faults(const struct work_imported *got)
{
	for (size_t i = 0; i < got->n_fault; i++) {
		const struct work_import_fault *f = &got->fault[i];

		(void)fprintf(stderr, "%s:%zu:%zu: %s: %s\n", f->file, f->line,
			f->column, f->field, f->text);
	}
	if (got->n_fault_all > got->n_fault)
		(void)fprintf(stderr, "and %zu more\n",
			got->n_fault_all - got->n_fault);
}

static void
print_counts(const struct work_imported *got)
{
	for (size_t i = 0; i < got->n_count; i++) {
		const struct work_import_count *c = &got->count[i];

		if (c->n_new + c->n_changed + c->n_same + c->n_withdrawn > 0)
			(void)printf("  %-22s %5zu new %5zu changed %5zu as "
				     "before%s\n",
				c->what, c->n_new, c->n_changed, c->n_same,
				c->n_withdrawn > 0 ? ", others withdrawn" : "");
	}
}

/* What a dry run understood: changed rows, and the first figure of a column. */
static void
print_understood(const struct invocation *in, const struct work_imported *got)
{
	static const char *const heading[] = {
		"file", "column", "first figure", "read as"};
	struct table table;

	for (size_t i = 0; i < got->n_row; i++) {
		const struct work_import_row *r = &got->row[i];

		if (!r->is_new)
			print_folded(stdout, 0,
				text_format(in->arena,
					"%s:%zu: %s would change from %s to %s",
					r->file, r->line, r->key, r->before,
					r->now));
	}
	if (got->n_row_all > got->n_row)
		(void)printf(
			"and %zu rows more\n", got->n_row_all - got->n_row);
	table_start(&table, in->arena, heading, 4, 0);
	for (size_t i = 0; i < got->n_reading; i++) {
		const struct work_import_reading *r = &got->reading[i];
		const char *cell[] = {r->file, r->heading, r->typed, r->read};

		table_row(&table, cell);
	}
	if (got->n_reading > 0) {
		(void)putchar('\n');
		table_print(&table, stdout);
	}
}

static void
json_counts(struct jsonout *json, const struct work_imported *got)
{
	jsonout_key(json, "counts");
	jsonout_open_array(json);
	for (size_t i = 0; i < got->n_count; i++) {
		const struct work_import_count *c = &got->count[i];

		jsonout_open_object(json);
		jsonout_key_string(json, "what", c->what);
		jsonout_key_count(json, "new", c->n_new);
		jsonout_key_count(json, "changed", c->n_changed);
		jsonout_key_count(json, "same", c->n_same);
		jsonout_key_count(json, "withdrawn", c->n_withdrawn);
		jsonout_close_object(json);
	}
	jsonout_close_array(json);
}

static void
json_understood(struct jsonout *json, const struct work_imported *got)
{
	jsonout_key(json, "rows");
	jsonout_open_array(json);
	for (size_t i = 0; i < got->n_row; i++) {
		const struct work_import_row *r = &got->row[i];

		jsonout_open_object(json);
		jsonout_key_string(json, "file", r->file);
		jsonout_key_count(json, "line", r->line);
		jsonout_key_string(json, "key", r->key);
		jsonout_key_bool(json, "new", r->is_new);
		jsonout_key_string(json, "before", r->before);
		jsonout_key_string(json, "now", r->now);
		jsonout_close_object(json);
	}
	jsonout_close_array(json);
	jsonout_key_count(json, "rows_in_all", got->n_row_all);
	jsonout_key(json, "figures");
	jsonout_open_array(json);
	for (size_t i = 0; i < got->n_reading; i++) {
		const struct work_import_reading *r = &got->reading[i];

		jsonout_open_object(json);
		jsonout_key_string(json, "file", r->file);
		jsonout_key_string(json, "column", r->heading);
		jsonout_key_string(json, "typed", r->typed);
		jsonout_key_string(json, "read", r->read);
		jsonout_close_object(json);
	}
	jsonout_close_array(json);
}

static enum err_code
print_imported_json(const struct invocation *in,
	const struct work_imported *got, bool dry_run, struct err *err)
{
	struct text text;
	struct jsonout json;

	json_start(in, &text, &json);
	json_counts(&json, got);
	jsonout_key(&json, "warnings");
	jsonout_open_array(&json);
	for (size_t i = 0; i < got->n_warning; i++)
		jsonout_string(&json, got->warning[i]);
	jsonout_close_array(&json);
	jsonout_key_bool(&json, "dry_run", dry_run);
	if (dry_run)
		json_understood(&json, got);
	return json_finish(&json, err);
}

/* The failure as one document, with every faulty cell in it. */
static void
print_faults_json(const struct invocation *in, const struct work_imported *got,
	const struct err *err)
{
	struct err ignored = {.code = ERR_NONE};
	struct text text;
	struct jsonout json;

	json_start(in, &text, &json);
	json_error(&json, err);
	jsonout_key(&json, "faults");
	jsonout_open_array(&json);
	for (size_t i = 0; i < got->n_fault; i++) {
		const struct work_import_fault *f = &got->fault[i];

		jsonout_open_object(&json);
		jsonout_key_string(&json, "file", f->file);
		jsonout_key_count(&json, "line", f->line);
		jsonout_key_count(&json, "column", f->column);
		jsonout_key_string(&json, "field", f->field);
		jsonout_key_string(&json, "text", f->text);
		jsonout_close_object(&json);
	}
	jsonout_close_array(&json);
	jsonout_key_count(&json, "faults_in_all", got->n_fault_all);
	in->told->json = json_finish(&json, &ignored) == ERR_NONE;
}

static const struct command_option import_options[] = {
	{"--dry-run", NULL, "says what it would take, and keeps nothing",
		false},
	{0}};

static enum err_code
run_import(const struct invocation *in, struct err *err)
{
	bool dry_run = invocation_has(in, "--dry-run");
	const struct work_import ask = {
		.folder = in->word[1], .dry_run = dry_run};
	struct work_imported got = {0};
	struct desk desk;
	enum err_code code;

	TRY(desk_open(in->word[0], true, in, &desk, err));
	code = work_import(&desk, in->arena, &ask, &got, err);
	desk_close(&desk);
	for (size_t i = 0; i < got.n_warning; i++)
		print_folded(stderr, 0, got.warning[i]);
	if (code != ERR_NONE) {
		print_faults(&got);
		if (in->json && got.n_fault > 0)
			print_faults_json(in, &got, err);
		return code;
	}
	if (in->json)
		return print_imported_json(in, &got, dry_run, err);
	(void)printf("%s %s:\n", dry_run ? "Would take from" : "Taken from",
		in->word[1]);
	print_counts(&got);
	if (dry_run)
		print_understood(in, &got);
	return ERR_NONE;
}

const struct command command_import = {
	.name = "import",
	.line = "takes a folder of CSV files into the book, all of it or "
		"nothing",
	.help = "  foamwright import BOOK FOLDER [OPTIONS]\n\nReads "
		"materials.csv, lots.csv, mixes.csv, trial.csv, rules.csv,\n"
		"batches.csv, specimens.csv, readings.csv and parts.csv "
		"(docs/import.md). "
		"Every\nbad cell is reported as file:line:column; then nothing "
		"is kept. The same folder\nagain changes nothing.\n",
	.example = "foamwright import site.book readings-2026-05",
	.least_words = 2,
	.most_words = 2,
	.options = import_options,
	.run = run_import,
};

static enum err_code
run_verify(const struct invocation *in, struct err *err)
{
	struct desk desk;
	enum err_code code;
	size_t n = 0;

	TRY(desk_open(in->word[0], false, in, &desk, err));
	code = work_verify(&desk, in->arena, &n, err);
	desk_close(&desk);
	if (code != ERR_NONE)
		return code;
	if (in->json)
		(void)printf("{\"entries\": %zu, \"unaltered\": true}\n", n);
	else
		(void)printf("%zu entries, each as it was written.\n", n);
	return ERR_NONE;
}

const struct command command_verify = {
	.name = "verify",
	.line = "proves that no stored figure was altered since it was written",
	.help = "  foamwright verify BOOK [--json]\n",
	.example = "foamwright verify site.book",
	.least_words = 1,
	.most_words = 1,
	.run = run_verify,
};

static enum err_code
run_turn(const struct invocation *in, bool restore, struct err *err)
{
	struct work_withdraw ask = {.kind = in->word[1],
		.n_word = in->n_word - 2,
		.because = invocation_value(in, "--because"),
		.restore = restore};
	struct desk desk;
	enum err_code code;

	for (size_t i = 0; i < ask.n_word; i++)
		ask.word[i] = in->word[2 + i];
	TRY(desk_open(in->word[0], true, in, &desk, err));
	code = work_withdraw(&desk, in->arena, &ask, err);
	desk_close(&desk);
	if (code != ERR_NONE)
		return code;
	if (in->json)
		(void)printf(
			"{\"%s\": true}\n", restore ? "restored" : "withdrawn");
	else if (restore)
		(void)puts("Brought back, with what belongs to it.");
	else
		(void)puts(
			"Withdrawn, with what belongs to it. It stays in the "
			"history of the book.");
	return ERR_NONE;
}

static enum err_code
run_withdraw(const struct invocation *in, struct err *err)
{
	return run_turn(in, false, err);
}

static enum err_code
run_restore(const struct invocation *in, struct err *err)
{
	return run_turn(in, true, err);
}

static const struct command_option because_options[] = {
	{"--because", "TEXT", "the reason, in your own words", false}, {0}};

const struct command command_withdraw = {
	.name = "withdraw",
	.line = "takes back what should not have been written",
	.help = "  foamwright withdraw BOOK KIND CODE --because TEXT\n"
		"  foamwright withdraw BOOK reading PIECE TEST CODE --because "
		"TEXT\n\nKIND is material, mix, batch, specimen, reading, "
		"part\nor photo. What belongs to it goes\nwith it: the pieces "
		"of a batch "
		"and their readings. Nothing is deleted; \"restore\"\nbrings "
		"back what was withdrawn.\n",
	.example = "foamwright withdraw site.book batch 03 --because \"wrong "
		   "sheet copied\"",
	.least_words = 3,
	.most_words = 5,
	.options = because_options,
	.run = run_withdraw,
	.writes = true,
};

const struct command command_restore = {
	.name = "restore",
	.line = "brings back what was withdrawn",
	.help = "  foamwright restore BOOK KIND CODE --because TEXT\n"
		"  foamwright restore BOOK reading PIECE TEST CODE --because "
		"TEXT\n\nKIND as in \"foamwright withdraw --help\".\n",
	.example = "foamwright restore site.book batch 03 --because \"it was "
		   "the right sheet\"",
	.least_words = 3,
	.most_words = 5,
	.options = because_options,
	.run = run_restore,
	.writes = true,
};
