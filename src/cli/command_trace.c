/* command_trace.c - the files of loggers: read, kept, told, given back. */
#include "cli/fields.h"
#include "cli/table.h"

#include "core/date.h"
#include "work/shelf.h"
#include "work/trace.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

#define AT(member) offsetof(struct work_trace_ask, member)
static const struct field fields[] = {
	{"--piece", FIELD_TEXT, UNIT_NUMBER, AT(piece)},
	{"--code", FIELD_TEXT, UNIT_NUMBER, AT(code)},
	{"--column", FIELD_TEXT, UNIT_NUMBER, AT(how.value_column)},
	{"--unit", FIELD_TEXT, UNIT_NUMBER, AT(how.value_unit)},
	{"--time-column", FIELD_TEXT, UNIT_NUMBER, AT(how.time_column)},
	{"--time-unit", FIELD_TEXT, UNIT_NUMBER, AT(how.time_unit)},
	{"--sag-column", FIELD_TEXT, UNIT_NUMBER, AT(how.sag_column)},
	{"--sag-unit", FIELD_TEXT, UNIT_NUMBER, AT(how.sag_unit)},
	{"--zero", FIELD_MAYBE, UNIT_TIME, AT(zero_s)},
	{"--mass", FIELD_MAYBE, UNIT_MASS, AT(mass_kg)},
	{"--speed", FIELD_MAYBE, UNIT_SPEED, AT(speed_m_s)},
	{"--test", FIELD_TEXT, UNIT_NUMBER, AT(test)},
	{"--rig", FIELD_TEXT, UNIT_NUMBER, AT(rig)},
	{"--on", FIELD_DATE, UNIT_NUMBER, AT(on)},
	{"--span", FIELD_MAYBE, UNIT_LENGTH, AT(span_m)},
	{"--hanger", FIELD_MAYBE, UNIT_MASS, AT(hanger_kg)},
	{"--strap", FIELD_MAYBE, UNIT_LENGTH, AT(strap_m)},
};
#undef AT

static const struct command_option options[] = {
	{"--load", NULL, "it is that of a load cell", false},
	{"--blow", NULL, "or of an accelerometer on the bar", false},
	{"--temperature", NULL, "or of a thermometer", false},
	{"--piece", "PIECE", "the test piece it belongs to", false},
	{"--code", "CODE", "what it is called (piece, kind, number)", false},
	{"--test", "TEST",
		"its highest load is the reading of a bending or crushing test",
		false},
	{"--rig", "RIG", "of that test", false},
	{"--span", "LENGTH", "of that test", false},
	{"--hanger", "MASS", "that hung on beside what the cell felt", false},
	{"--strap", "LENGTH", "of that test", false},
	{"--on", "DATE", "when it was tested (now)", false},
	{"--zero", "TIME", "the mean of so long at the start is no load",
		false},
	{"--mass", "MASS", "of a blow: of the bar", false},
	{"--speed", "SPEED", "of a blow: of the bar as it hits", false},
	{"--column", "NAME", "of the figures, or its number, if not found",
		false},
	{"--unit", "UNIT", "of the figures, if the heading has none", false},
	{"--time-column", "NAME", "of the time", false},
	{"--time-unit", "UNIT", "of the time: s, ms, min, h", false},
	{"--every", "TIME", "between two lines, where no column is a time",
		false},
	{"--sag-column", "NAME", "of the sag beside a load", false},
	{"--sag-unit", "UNIT", "of the sag", false},
	{"--date-order", "FIRST", "of dates with strokes: day or month", false},
	{"--of", "CODE", "a trace of the book: told again", false},
	{"--out", "FILE", "with --of: its file, byte for byte", false}, {0}};

/* ---- a file as a source ---- */

static enum err_code
file_read(void *context, char *bytes, size_t room, size_t *n, struct err *err)
{
	FILE *file = context;

	*n = fread(bytes, 1, room, file);
	return *n == 0 && ferror(file) != 0
		? err_report(err, ERR_SYSTEM, "file",
			  "The file cannot be read: %s.", strerror(errno))
		: ERR_NONE;
}

static enum err_code
file_rewind(void *context, struct err *err)
{
	if (fseek(context, 0, SEEK_SET) == 0)
		return ERR_NONE;
	return err_report(err, ERR_SYSTEM, "file",
		"The file cannot be read twice, as it must; give a file and "
		"no pipe.");
}

/* ---- entered ---- */

static enum err_code
read_kind(
	const struct invocation *in, enum lab_trace_kind *kind, struct err *err)
{
	static const char *const names[] = {[LAB_TRACE_LOAD] = "--load",
		[LAB_TRACE_BLOW] = "--blow",
		[LAB_TRACE_TEMPERATURE] = "--temperature"};
	size_t n = 0;

	for (size_t i = 0; i < COUNT(names); i++) {
		if (!invocation_has(in, names[i]))
			continue;
		*kind = (enum lab_trace_kind)i;
		n++;
	}
	return n == 1 ? ERR_NONE
		      : err_report(err, ERR_INPUT, "--load",
				"Say what the logger felt: --load, --blow or "
				"--temperature, one of them.");
}

static enum err_code
read_ask(const struct invocation *in, struct work_trace_ask *ask,
	struct err *err)
{
	const char *order = invocation_value(in, "--date-order");
	const char *every = invocation_value(in, "--every");

	TRY(read_kind(in, &ask->how.kind, err));
	TRY(fields_read(in, fields, COUNT(fields), ask, err));
	if (every != NULL)
		TRY(unit_read(every, UNIT_TIME, NULL, &ask->how.step_s, err));
	if (order == NULL)
		return ERR_NONE;
	if (strcmp(order, "day") != 0 && strcmp(order, "month") != 0)
		return err_report(err, ERR_INPUT, "--date-order",
			"\"%.40s\" is no order; it is day or month, whichever "
			"comes first.",
			order);
	ask->how.order = order[0] == 'd' ? LAB_DATE_DAY_FIRST
					 : LAB_DATE_MONTH_FIRST;
	return ERR_NONE;
}

static enum err_code
print_told(const struct invocation *in, const struct book_trace *row,
	const char *checksum, const char *const *sentence, size_t n,
	struct err *err)
{
	struct text text;
	struct jsonout json;

	if (!in->json) {
		(void)printf("%s:\n", row->code);
		for (size_t i = 0; i < n; i++)
			print_folded(stdout, 0, sentence[i]);
		return ERR_NONE;
	}
	json_start(in, &text, &json);
	jsonout_key_string(&json, "trace", row->code);
	jsonout_key_string(&json, "kind", row->kind);
	jsonout_key_string(&json, "checksum", checksum);
	jsonout_key_number(&json, "rows", (double)row->rows);
	jsonout_key_number(&json, "skipped", (double)row->skipped);
	jsonout_key_number(&json, "highest", row->highest);
	jsonout_key_number(&json, "lowest", row->lowest);
	jsonout_key_number(&json, "division", row->division);
	if (row->energy_j.has)
		jsonout_key_quantity(&json, "energy", row->energy_j.value, "J");
	if (row->stiffness_n_m.has)
		jsonout_key_quantity(
			&json, "stiffness", row->stiffness_n_m.value, "N/m");
	if (row->after_n.has)
		jsonout_key_quantity(
			&json, "after_crack", row->after_n.value, "N");
	jsonout_key(&json, "sentences");
	jsonout_open_array(&json);
	for (size_t i = 0; i < n; i++)
		jsonout_string(&json, sentence[i]);
	jsonout_close_array(&json);
	return json_finish(&json, err);
}

static enum err_code
enter(const struct invocation *in, const struct desk *desk, struct err *err)
{
	const char *name = in->word[1], *slash = strrchr(name, '/');
	struct work_trace_ask ask = {.name = slash != NULL ? slash + 1 : name,
		.typed = fields_typed(in)};
	struct book_source source = {.read = file_read, .rewind = file_rewind};
	struct work_trace_told told;
	enum err_code code;
	FILE *file;

	if (ask.typed == NULL)
		return err_memory(err);
	TRY(read_ask(in, &ask, err));
	file = fopen(name, "rb");
	if (file == NULL)
		return err_report(err, ERR_NOT_FOUND, "file",
			"\"%.200s\" cannot be opened: %s.", name,
			strerror(errno));
	source.context = file;
	code = work_trace_put(desk, in->arena, &source, &ask, &told, err);
	(void)fclose(file);
	if (code != ERR_NONE)
		return code;
	return print_told(in, &told.row, told.file_code, told.sentence,
		told.n_sentence, err);
}

/* ---- told, listed, given back ---- */

static enum err_code
write_bytes(void *context, const char *bytes, size_t n, struct err *err)
{
	return fwrite(bytes, 1, n, context) == n
		? ERR_NONE
		: err_report(err, ERR_SYSTEM, "--out",
			  "The file cannot be written: %s.", strerror(errno));
}

static enum err_code
give_back(const struct invocation *in, const struct desk *desk,
	const struct book_file *kept, struct err *err)
{
	const char *to = invocation_value(in, "--out");
	enum err_code code;
	FILE *file = fopen(to, "wbx");

	if (file == NULL)
		return err_report(err, ERR_SYSTEM, "--out",
			"\"%.200s\" cannot be made: %s.", to, strerror(errno));
	code = book_read_file(desk->book, kept, write_bytes, file, err);
	if (fclose(file) != 0 && code == ERR_NONE)
		code = err_report(err, ERR_SYSTEM, "--out",
			"The file cannot be written: %s.", strerror(errno));
	if (code == ERR_NONE && !in->json)
		(void)printf("Wrote %s: %lld bytes, as they came.\n", to,
			(long long)kept->bytes);
	return code;
}

static enum err_code
tell(const struct invocation *in, const struct desk *desk, struct err *err)
{
	const char *const *sentence;
	const struct book_file *kept;
	struct work_traces traces;
	size_t at, n;

	TRY(work_traces(desk, in->arena, &traces, err));
	TRY(work_find_trace(&traces, invocation_value(in, "--of"), &at, err));
	kept = work_trace_file(&traces, &traces.trace[at]);
	if (invocation_has(in, "--out") && kept != NULL)
		return give_back(in, desk, kept, err);
	TRY(work_trace_say(in->arena, &traces.trace[at], &sentence, &n, err));
	return print_told(in, &traces.trace[at], kept != NULL ? kept->code : "",
		sentence, n, err);
}

static enum err_code
list(const struct invocation *in, const struct desk *desk, struct err *err)
{
	static const char *const heading[] = {
		"trace", "kind", "rows", "file", "kB", "checksum"};
	struct work_traces traces;
	struct table table;

	TRY(work_traces(desk, in->arena, &traces, err));
	table_start(&table, in->arena, heading, COUNT(heading), 0x14);
	for (size_t i = 0; i < traces.n_trace; i++) {
		const struct book_trace *x = &traces.trace[i];
		const struct book_file *kept = work_trace_file(&traces, x);
		const char *cell[] = {x->code, x->kind,
			text_format(in->arena, "%lld", (long long)x->rows),
			kept != NULL ? kept->name : "",
			kept != NULL ? text_format(in->arena, "%.1f",
					       (double)kept->bytes / 1000)
				     : "-",
			kept == NULL ? ""
				: in->csv
				? kept->code
				: text_format(in->arena, "%.12s", kept->code)};

		table_row(&table, cell);
	}
	if (table.n_row == 0 && !in->csv && !in->json) {
		(void)puts("No trace is in the book.");
		return ERR_NONE;
	}
	if (in->json) {
		struct text text;
		struct jsonout json;

		json_start(in, &text, &json);
		jsonout_key(&json, "traces");
		jsonout_open_array(&json);
		for (size_t i = 0; i < traces.n_trace; i++)
			jsonout_string(&json, traces.trace[i].code);
		jsonout_close_array(&json);
		return json_finish(&json, err);
	}
	table_show(in, &table, stdout);
	return ERR_NONE;
}

static enum err_code
run_trace(const struct invocation *in, struct err *err)
{
	struct desk desk;
	enum err_code code;

	TRY(desk_open(in->word[0], in->n_word > 1, in, &desk, err));
	code = in->n_word > 1                ? enter(in, &desk, err)
		: invocation_has(in, "--of") ? tell(in, &desk, err)
					     : list(in, &desk, err);
	desk_close(&desk);
	return code;
}

const struct command command_trace = {
	.name = "trace",
	.line = "the file of a logger, read, kept byte for byte and told",
	.help = "  foamwright trace BOOK FILE --load --piece PIECE [OPTIONS]\n"
		"  foamwright trace BOOK FILE --temperature\n"
		"  foamwright trace BOOK [--of CODE [--out FILE]]\n\nCSV of "
		"any logger: separator, decimal sign, heading and units are "
		"found, or\nasked for. Keep clear of a beam that is about to "
		"fall while you watch a screen.\n",
	.example = "foamwright trace site.book beam.csv --load --piece K7MD "
		   "--test bending --rig R1",
	.least_words = 1,
	.most_words = 2,
	.options = options,
	.run = run_trace,
	.csv = true,
	.writes = true,
};
