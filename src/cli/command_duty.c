/* command_duty.c - the duty sheet, and what is usually asked of each kind of
 * part. */
#include "cli/bounds.h"
#include "cli/fields.h"
#include "cli/table.h"

#include "choose/screening.h"
#include "work/part.h"

#include <string.h>

static const char fill_in[] =
	"Fill in before the first test: a test counts for what is asked here, "
	"not the other way round.";
static const char for_an_engineer[] =
	"For an engineer in any case: whatever spans or stands over people, "
	"walls over 2.7 m a storey, earthquake, soil or water against it.";
static const char not_said[] = "not said";

/* ---- the duty sheet ---- */

static void
add_size(struct text *text, struct maybe value, const char *word)
{
	if (value.has)
		text_addf(text, ", %s %.4g m", word, value.value);
}

static void
print_sizes(const struct invocation *in, const struct book_part *part,
	const struct book_part_use *use)
{
	struct text text;

	text_init(&text, in->arena);
	text_addf(&text, "%s: %s, %s", part->code, part->name, use->form);
	add_size(&text, part->length_m, "length");
	add_size(&text, part->height_m,
		strcmp(part->kind, "wall") == 0 ? "height" : "width");
	add_size(&text, part->thickness_m, "thickness");
	if (part->openings_m2.has)
		text_addf(&text, ", openings %.4g m2", part->openings_m2.value);
	add_size(&text, use->span_m, "span");
	if (use->pitch_rad.has)
		text_addf(&text, ", pitch %s",
			unit_write(in->arena, use->pitch_rad.value, UNIT_ANGLE,
				"deg", 3));
	if (!text_failed(&text))
		print_folded(stdout, 0, text.bytes);
}

#define AT(member) offsetof(struct book_part_use, member)
static const struct bearing {
	size_t at;
	const char *word, *unit;
	enum unit_kind kind;
} bearings[] = {
	{AT(load_n_m), "load", "kN/m", UNIT_FORCE_PER_LENGTH},
	{AT(area_load_pa), "load", "kN/m2", UNIT_STRESS},
	{AT(wind_pa), "wind", "kN/m2", UNIT_STRESS},
	{AT(point_load_n), "one foot", "kN", UNIT_FORCE},
};
#undef AT

/* "load 3.1 kN/m, wind 0.72 kN/m2"; a blank where nothing was entered. */
static const char *
bears(const struct invocation *in, const struct book_part_use *use)
{
	struct text text;

	text_init(&text, in->arena);
	for (size_t i = 0; i < sizeof bearings / sizeof bearings[0]; i++) {
		const struct maybe *m = (const void *)((const char *)use +
			bearings[i].at);

		if (m->has)
			text_addf(&text, "%s%s %s", text.n > 0 ? ", " : "",
				bearings[i].word,
				unit_write(in->arena, m->value,
					bearings[i].kind, bearings[i].unit, 3));
	}
	return text_failed(&text) || text.n == 0
		? "________ (people, snow, wind, feet)"
		: text.bytes;
}

static void
print_bearing(const struct invocation *in, const struct book_part_use *use)
{
	print_folded(stdout, 2,
		text_format(in->arena, "bears %s; mostly decided by %s",
			bears(in, use),
			work_usual_form_of(work_usual_form(use))->governs));
}

static void
start_bounds(const struct invocation *in, struct table *table)
{
	static const char *const heading[] = {
		"must do", "measured", "met", "source"};

	table_start(table, in->arena, heading, 4, 0);
}

static void
add_bound(struct table *table, const char *shown, const char *source)
{
	const char *cell[] = {shown, "________", "[ ]",
		source[0] != '\0' ? source : not_said};

	table_row(table, cell);
}

static void
print_bounds(const struct invocation *in, const struct work_parts *parts,
	const struct book_part *part, const struct book_part_use *use)
{
	const struct work_site *s = &parts->site;
	struct table table;
	size_t n = 0;

	start_bounds(in, &table);
	for (size_t i = 0; i < s->n_requirement; i++) {
		const struct book_requirement *r = &s->requirement[i];

		if (r->part_id != part->row.id)
			continue;
		add_bound(&table,
			bound_shown(in, r->measure,
				strcmp(r->bound, "least") == 0, r->value,
				s->info.currency),
			r->source);
		n++;
	}
	if (n > 0)
		table_print(&table, stdout);
	else
		print_folded(stdout, 2,
			text_format(in->arena,
				"Nothing is asked of it yet: \"foamwright part "
				"BOOK %s --usual\" enters what is usual for a "
				"%s, --least and --most what you ask.",
				part->code,
				work_usual_form_of(work_usual_form(use))
					->words));
}

/* A sheet for a kind of part before any part is in the book. */
static void
print_blank(const struct invocation *in, const struct work_parts *parts,
	const char *form, const struct work_usual *usual, size_t n)
{
	const struct book_part_use use = {.form = form};
	struct table table;

	(void)printf("%s: length ____ m, height or width ____ m, thickness "
		     "____ mm\n",
		work_usual_form_of(form)->words);
	print_bearing(in, &use);
	start_bounds(in, &table);
	for (size_t i = 0; i < n; i++)
		if (usual[i].is_asked && strcmp(usual[i].form, form) == 0)
			add_bound(&table,
				bound_shown(in, usual[i].measure,
					usual[i].is_least, usual[i].value,
					parts->site.info.currency),
				usual[i].source);
	add_bound(&table, "________________________", "________");
	table_print(&table, stdout);
}

static void
print_blanks(const struct invocation *in, const struct work_parts *parts,
	const struct work_usual *usual, size_t n)
{
	static const char *const form[] = {"floor", "wall", "roof"};

	print_folded(stdout, 0,
		"No part is in the book yet: here is the usual of each, to be "
		"crossed out or changed; \"foamwright part BOOK CODE --kind "
		"wall --usual\" enters one.");
	for (size_t i = 0; i < sizeof form / sizeof form[0]; i++) {
		(void)putchar('\n');
		print_blank(in, parts, form[i], usual, n);
		(void)puts("  mix ________  decided on ________");
	}
}

static void
print_duty(const struct invocation *in, const struct work_parts *parts,
	const struct work_usual *usual, size_t n)
{
	(void)printf("What it must do: %s\n", parts->site.info.name);
	print_folded(stdout, 0, choose_screening_only);
	print_folded(stdout, 0, fill_in);
	if (parts->site.n_part == 0)
		print_blanks(in, parts, usual, n);
	for (size_t i = 0; i < parts->site.n_part; i++) {
		const struct book_part *part = &parts->site.part[i];
		struct book_part_use use = work_part_use(parts, part);

		(void)putchar('\n');
		print_sizes(in, part, &use);
		print_bearing(in, &use);
		print_bounds(in, parts, part, &use);
		(void)puts("  mix ________  decided on ________");
	}
	(void)putchar('\n');
	print_folded(stdout, 0, for_an_engineer);
	print_folded(stdout, 0, choose_screening_only);
}

static void
json_bound(struct jsonout *json, const char *measure, bool is_least,
	double value, const char *source)
{
	jsonout_key_string(json, "measure", measure);
	jsonout_key_string(json, "bound", is_least ? "least" : "most");
	jsonout_key_number(json, "value_si", value);
	jsonout_key_string(json, "source", source);
}

static void
json_usual(struct jsonout *json, const struct work_usual *usual, size_t n,
	const char *form)
{
	jsonout_open_array(json);
	for (size_t i = 0; i < n; i++) {
		if (form != NULL && strcmp(usual[i].form, form) != 0)
			continue;
		jsonout_open_object(json);
		jsonout_key_string(json, "kind", usual[i].form);
		json_bound(json, usual[i].measure, usual[i].is_least,
			usual[i].value, usual[i].source);
		jsonout_key_bool(json, "asked", usual[i].is_asked);
		jsonout_key_bool(json, "own", usual[i].is_own);
		jsonout_close_object(json);
	}
	jsonout_close_array(json);
}

static void
json_duty_part(struct jsonout *json, const struct work_parts *parts,
	const struct book_part *part)
{
	const struct work_site *s = &parts->site;
	struct book_part_use use = work_part_use(parts, part);

	jsonout_open_object(json);
	jsonout_key_string(json, "part", part->code);
	jsonout_key_string(json, "kind", use.form);
	jsonout_key_string(json, "mostly_decided_by",
		work_usual_form_of(work_usual_form(&use))->governs);
	jsonout_key(json, "must");
	jsonout_open_array(json);
	for (size_t k = 0; k < s->n_requirement; k++) {
		const struct book_requirement *r = &s->requirement[k];

		if (r->part_id != part->row.id)
			continue;
		jsonout_open_object(json);
		json_bound(json, r->measure, strcmp(r->bound, "least") == 0,
			r->value, r->source);
		jsonout_close_object(json);
	}
	jsonout_close_array(json);
	jsonout_close_object(json);
}

static enum err_code
duty_json(const struct invocation *in, const struct work_parts *parts,
	const struct work_usual *usual, size_t n, struct err *err)
{
	struct text text;
	struct jsonout json;

	json_start(in, &text, &json);
	jsonout_key_string(&json, "note", choose_screening_only);
	jsonout_key(&json, "parts");
	jsonout_open_array(&json);
	for (size_t i = 0; i < parts->site.n_part; i++)
		json_duty_part(&json, parts, &parts->site.part[i]);
	jsonout_close_array(&json);
	if (parts->site.n_part == 0) {
		jsonout_key(&json, "usual");
		json_usual(&json, usual, n, NULL);
	}
	return json_finish(&json, err);
}

static enum err_code
run_duty(const struct invocation *in, struct err *err)
{
	const struct work_usual *usual = NULL;
	struct work_parts parts;
	struct desk desk;
	enum err_code code;
	size_t n = 0;

	TRY(desk_open(in->word[0], false, in, &desk, err));
	code = work_parts_read(&desk, in->arena, &parts, err);
	if (code == ERR_NONE)
		code = work_usual_read(&desk, in->arena, &usual, &n, err);
	desk_close(&desk);
	if (code != ERR_NONE)
		return code;
	if (in->json)
		return duty_json(in, &parts, usual, n, err);
	print_duty(in, &parts, usual, n);
	return ERR_NONE;
}

const struct command command_duty = {
	.name = "duty",
	.line = "the duty sheet: what each part must do, one page to fill in",
	.help = "  foamwright duty BOOK\n",
	.example = "foamwright duty site.book",
	.least_words = 1,
	.most_words = 1,
	.run = run_duty,
};

/* ---- what is usual ---- */

static void
print_usual(const struct invocation *in, const struct work_usual *usual,
	size_t n, const char *form, const char *currency)
{
	static const char *const heading[] = {
		"kind", "usually asked", "source"};
	struct table table;

	table_start(&table, in->arena, heading, 3, 0);
	for (size_t i = 0; i < n; i++) {
		const struct work_usual *u = &usual[i];
		const char *set = !u->is_asked ? "taken out of this book: "
			: u->is_own            ? "this book: "
					       : "";
		const char *cell[] = {u->form,
			bound_shown(in, u->measure, u->is_least, u->value,
				currency),
			text_format(in->arena, "%s%s", set, u->source)};

		if (form == NULL || strcmp(u->form, form) == 0)
			table_row(&table, cell);
	}
	table_show(in, &table, stdout);
}

static enum err_code
list_usual(
	const struct invocation *in, const struct desk *desk, struct err *err)
{
	const char *form = in->n_word > 1 ? in->word[1] : NULL;
	const struct work_usual *usual;
	struct work_parts parts;
	struct text text;
	struct jsonout json;
	size_t n;

	if (form != NULL && strcmp(work_usual_form_of(form)->form, form) != 0)
		return err_report(err, ERR_NOT_FOUND, "kind",
			"\"%.40s\" is no kind of part; \"foamwright usual "
			"BOOK\" lists them.",
			form);
	TRY(work_parts_read(desk, in->arena, &parts, err));
	TRY(work_usual_read(desk, in->arena, &usual, &n, err));
	if (in->json) {
		json_start(in, &text, &json);
		jsonout_key(&json, "usual");
		json_usual(&json, usual, n, form);
		return json_finish(&json, err);
	}
	print_usual(in, usual, n, form, parts.site.info.currency);
	if (!in->csv)
		print_folded(stdout, 0,
			"Starting values, to be changed to what your code and "
			"your engineer say: \"foamwright usual BOOK wall "
			"--least bending_strength=0.4N/mm2 --source ...\". "
			"\"foamwright part BOOK CODE --usual\" asks them of a "
			"part.");
	return ERR_NONE;
}

static enum err_code
set_usual(const struct invocation *in, const struct desk *desk, struct err *err)
{
	struct work_usual_ask ask = {.form = in->word[1],
		.as_it_comes = invocation_has(in, "--as-it-comes"),
		.source = invocation_value(in, "--source"),
		.typed = fields_typed(in)};

	if (ask.typed == NULL)
		return err_memory(err);
	TRY(read_bounds(in, ask.bound, &ask.n_bound, err));
	TRY(read_drops(in, ask.drop, &ask.n_drop, err));
	TRY(work_usual_put(desk, in->arena, &ask, err));
	return list_usual(in, desk, err);
}

static enum err_code
run_usual(const struct invocation *in, struct err *err)
{
	bool write = invocation_has(in, "--least") ||
		invocation_has(in, "--most") || invocation_has(in, "--drop") ||
		invocation_has(in, "--source") ||
		invocation_has(in, "--as-it-comes");
	struct desk desk;
	enum err_code code;

	if (write && in->n_word < 2)
		return err_report(err, ERR_INPUT, "kind",
			"Say which kind of part is meant: foamwright usual "
			"BOOK wall --least bending_strength=0.4N/mm2 --source "
			"...");
	TRY(desk_open(in->word[0], write, in, &desk, err));
	code = write ? set_usual(in, &desk, err) : list_usual(in, &desk, err);
	desk_close(&desk);
	return code;
}

static const struct command_option usual_options[] = {
	{"--least", "MEASURE=VALUE", "what is asked at least", true},
	{"--most", "MEASURE=VALUE", "what is asked at most", true},
	{"--drop", "MEASURE", "what is no longer asked", true},
	{"--as-it-comes", NULL, "the kind as the program brings it", false},
	{"--source", "TEXT", "where it comes from, or common practice", false},
	{0}};

const struct command command_usual = {
	.name = "usual",
	.line = "what is usually asked of each kind of part; set it for this "
		"book",
	.help = "  foamwright usual BOOK [KIND] [OPTIONS]\n\nKIND: floor, "
		"floor-panel, wall, roof, roof-panel, roof-pitched, vault, "
		"dome,\nlintel, block or other. Parts in the book keep what "
		"they ask.\n",
	.example = "foamwright usual site.book wall --least "
		   "screw_pull=0.5kN --source \"own wish\"",
	.least_words = 1,
	.most_words = 2,
	.options = usual_options,
	.run = run_usual,
	.csv = true,
	.writes = true,
};
