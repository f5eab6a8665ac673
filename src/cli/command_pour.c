/* command_pour.c - a batch put into its place; what the parts were poured of. */
#include "cli/fields.h"
#include "cli/figure.h"
#include "cli/table.h"

#include "work/pour.h"
#include "work/shelf.h"

#define AT(member) offsetof(struct work_pour_ask, member)
static const struct field fields[] = {
	{"--part", FIELD_TEXT, UNIT_NUMBER, AT(part)},
	{"--lift", FIELD_WHOLE, UNIT_NUMBER, AT(lift)},
	{"--from", FIELD_MAYBE, UNIT_LENGTH, AT(from_m)},
	{"--to", FIELD_MAYBE, UNIT_LENGTH, AT(to_m)},
	{"--verdict", FIELD_TEXT, UNIT_NUMBER, AT(verdict)},
	{"--reason", FIELD_TEXT, UNIT_NUMBER, AT(reason)},
	{"--witness", FIELD_WHOLE, UNIT_NUMBER, AT(every)},
	{"--seed", FIELD_WHOLE, UNIT_NUMBER, AT(seed)},
};
#undef AT

static const struct command_option pour_options[] = {
	{"--part", "PART", "of the building", false},
	{"--lift", "N", "of the part, from 1", false},
	{"--from", "LENGTH", "where it begins along the part", false},
	{"--to", "LENGTH", "where it ends", false},
	{"--verdict", "WORD", "accept, mark, hold or reject", false},
	{"--reason", "TEXT", "why", false},
	{"--witness", "N", "a piece from one batch in so many (10)", false},
	{"--seed", "N", "of the witness list, as in plan", false}, {0}};

static const struct command_option parts_options[] = {
	{"--part", "PART", "this part alone", false},
	{"--map", NULL, "as built: each lift as it stands, the top one first",
		false},
	{0}};

static void
list_placed(const struct invocation *in, const struct work_poured *p)
{
	static const char *const heading[] = {"part", "lift", "from m", "to m",
		"batch", "mix", "wet off kg/m3", "pieces", "tested", "verdict",
		"reason"};
	struct table table;

	table_start(&table, in->arena, heading,
		sizeof heading / sizeof heading[0], 0);
	for (size_t i = 0; i < p->n_placed; i++) {
		const struct work_placed *at = &p->placed[i];
		const struct book_placing *row = &p->m.placing[at->placing];
		const struct work_site *s = &p->m.site;
		struct arena *a = in->arena;
		const char *cell[] = {s->part[at->part].code,
			text_format(a, "%lld", (long long)row->lift),
			row->from_m.has ? exact_figure(a, row->from_m.value)
					: "",
			row->to_m.has ? exact_figure(a, row->to_m.value) : "",
			s->batch[at->batch].code,
			s->mix[s->batch_mix[at->batch]].code,
			at->has_wet_off ? exact_figure(a, at->wet_off_kg_m3)
					: "",
			text_format(a, "%zu", at->n_piece),
			text_format(a, "%zu", at->n_tested), row->verdict,
			row->reason};

		table_row(&table, cell);
	}
	table_show(in, &table, stdout);
}

static void
print_placed(const struct invocation *in, const struct work_poured *p)
{
	static const char *const heading[] = {"part", "lift", "stretch",
		"batch", "mix", "wet", "pieces", "tested", "verdict", "reason"};
	struct table table;

	table_start(&table, in->arena, heading, 10, 0xe2);
	for (size_t i = 0; i < p->n_placed; i++) {
		const struct work_placed *at = &p->placed[i];
		const struct book_placing *row = &p->m.placing[at->placing];
		const struct work_site *s = &p->m.site;
		const char *cell[] = {s->part[at->part].code,
			text_format(in->arena, "%lld", (long long)row->lift),
			row->from_m.has
				? text_format(in->arena, "%.2f-%.2f m",
					  row->from_m.value, row->to_m.value)
				: "",
			s->batch[at->batch].code,
			s->mix[s->batch_mix[at->batch]].code,
			at->has_wet_off ? text_format(in->arena, "%+.0f",
						  at->wet_off_kg_m3)
					: "",
			text_format(in->arena, "%zu", at->n_piece),
			text_format(in->arena, "%zu", at->n_tested),
			row->verdict, row->reason};

		table_row(&table, cell);
	}
	table_print(&table, stdout);
}

/* The first of those that share part and lift with placed[last]. */
static size_t
first_of_lift(const struct work_poured *p, size_t last)
{
	size_t first = last;

	while (first > 0 && p->placed[first - 1].part == p->placed[last].part &&
		p->m.placing[p->placed[first - 1].placing].lift ==
			p->m.placing[p->placed[last].placing].lift)
		first--;
	return first;
}

/* "bending strength 0.357 N/mm2 of 3, asked at least 0.300: met". */
static void
add_said(const struct invocation *in, struct text *line,
	const struct work_said *s)
{
	text_addf(line, "%s %s%s %s of %zu", choose_measure_name(s->measure),
		s->more ? "at least " : "",
		figure_bare(in->arena, s->measure, s->mean),
		choose_measure_unit(s->measure), s->n);
	if (s->has_asked)
		text_addf(line, ", asked at %s %s: %s",
			s->is_least ? "least" : "most",
			figure_bare(in->arena, s->measure, s->asked),
			s->is_met ? "met" : "NOT MET");
}

/* What its pieces say, and what a bad batch touches. */
static void
print_heard(const struct invocation *in, const struct work_poured *p,
	const struct work_placed *at)
{
	struct text line;

	text_init(&line, in->arena);
	for (size_t k = 0; k < at->n_said; k++) {
		text_add(&line, k > 0 ? "; " : "");
		add_said(in, &line, &at->said[k]);
	}
	if (at->n_said > 0 && !text_failed(&line))
		print_folded(stdout, 6, line.bytes);
	else if (at->n_piece > 0)
		print_folded(stdout, 6,
			text_format(in->arena,
				"%zu piece%s cast, none has spoken yet",
				at->n_piece, at->n_piece == 1 ? "" : "s"));
	if (!at->is_bad)
		return;
	text_init(&line, in->arena);
	for (size_t k = 0; k < at->n_touches; k++) {
		const struct work_placed *o = &p->placed[at->touches[k]];

		text_addf(&line, "%s%s (lift %lld)", k > 0 ? ", " : "",
			p->m.site.batch[o->batch].code,
			(long long)p->m.placing[o->placing].lift);
	}
	print_folded(stdout, 6,
		text_format(in->arena, "touches %s",
			at->n_touches > 0 && !text_failed(&line)
				? line.bytes
				: "no other batch yet"));
}

/* One lift: its stretches from the beginning of the part on. */
static void
print_lift(const struct invocation *in, const struct work_poured *p,
	size_t first, size_t end)
{
	(void)printf("  lift %lld\n",
		(long long)p->m.placing[p->placed[first].placing].lift);
	for (size_t i = first; i < end; i++) {
		const struct work_placed *at = &p->placed[i];
		const struct book_placing *row = &p->m.placing[at->placing];
		struct text line;

		text_init(&line, in->arena);
		if (row->from_m.has)
			text_addf(&line, "%.2f-%.2f m ", row->from_m.value,
				row->to_m.value);
		text_addf(&line, "%s mix %s, %s",
			p->m.site.batch[at->batch].code,
			p->m.site.mix[p->m.site.batch_mix[at->batch]].code,
			row->verdict[0] == '\0' ? "not judged" : row->verdict);
		if (row->reason[0] != '\0')
			text_addf(&line, " (%s)", row->reason);
		if (at->has_wet_off)
			text_addf(
				&line, ", wet %+.0f kg/m3", at->wet_off_kg_m3);
		if (!text_failed(&line))
			print_folded(stdout, 4, line.bytes);
		print_heard(in, p, at);
	}
}

/* Each part as it stands: the top lift first, as one looks at a wall. */
static void
print_map(const struct invocation *in, const struct work_poured *p)
{
	for (size_t from = 0; from < p->n_placed;) {
		size_t part = p->placed[from].part, end = from;

		while (end < p->n_placed && p->placed[end].part == part)
			end++;
		(void)printf("%s\n", p->m.site.part[part].code);
		for (size_t top = end; top > from;) {
			size_t first = first_of_lift(p, top - 1);

			print_lift(in, p, first, top);
			top = first;
		}
		from = end;
	}
	print_folded(stdout, 0,
		"What pieces say is the mean of each batch's own; a few "
		"pieces, cured beside the work, are a hint and no proof. "
		"Whether a part may stay is for an engineer.");
}

static void
json_heard(struct jsonout *json, const struct work_poured *p,
	const struct work_placed *at)
{
	jsonout_key(json, "pieces_say");
	jsonout_open_array(json);
	for (size_t k = 0; k < at->n_said; k++) {
		const struct work_said *s = &at->said[k];

		jsonout_open_object(json);
		jsonout_key_string(
			json, "measure", choose_measure_word(s->measure));
		jsonout_key_count(json, "pieces", s->n);
		jsonout_key_quantity(json, "mean", s->mean,
			unit_si_word(choose_measure_kind(s->measure)));
		jsonout_key_bool(json, "at_least", s->more);
		if (s->has_asked) {
			jsonout_key_string(json, "asked_bound",
				s->is_least ? "least" : "most");
			jsonout_key_quantity(json, "asked", s->asked,
				unit_si_word(choose_measure_kind(s->measure)));
			jsonout_key_bool(json, "met", s->is_met);
		}
		jsonout_close_object(json);
	}
	jsonout_close_array(json);
	if (!at->is_bad)
		return;
	jsonout_key(json, "touches");
	jsonout_open_array(json);
	for (size_t k = 0; k < at->n_touches; k++)
		jsonout_string(json,
			p->m.site.batch[p->placed[at->touches[k]].batch].code);
	jsonout_close_array(json);
}

static enum err_code
print_json(const struct invocation *in, const struct work_poured *p,
	struct err *err)
{
	struct text text;
	struct jsonout json;

	text_init(&text, in->arena);
	jsonout_init(&json, &text);
	jsonout_open_object(&json);
	jsonout_key(&json, "poured");
	jsonout_open_array(&json);
	for (size_t i = 0; i < p->n_placed; i++) {
		const struct work_placed *at = &p->placed[i];
		const struct book_placing *row = &p->m.placing[at->placing];

		jsonout_open_object(&json);
		jsonout_key_string(
			&json, "part", p->m.site.part[at->part].code);
		jsonout_key_count(&json, "lift", (uint64_t)row->lift);
		jsonout_key_string(
			&json, "batch", p->m.site.batch[at->batch].code);
		if (row->from_m.has) {
			jsonout_key(&json, "from_m");
			jsonout_number(&json, row->from_m.value);
			jsonout_key(&json, "to_m");
			jsonout_number(&json, row->to_m.value);
		}
		if (at->has_wet_off) {
			jsonout_key(&json, "wet_off_kg_m3");
			jsonout_number(&json, at->wet_off_kg_m3);
		}
		jsonout_key_count(&json, "pieces", at->n_piece);
		jsonout_key_count(&json, "tested", at->n_tested);
		jsonout_key_string(&json, "verdict", row->verdict);
		jsonout_key_string(&json, "reason", row->reason);
		json_heard(&json, p, at);
		jsonout_close_object(&json);
	}
	jsonout_close_array(&json);
	jsonout_key(&json, "drying");
	jsonout_open_array(&json);
	for (size_t i = 0; i < p->n_drying; i++)
		jsonout_string(&json, p->drying[i]);
	jsonout_close_array(&json);
	jsonout_close_object(&json);
	if (jsonout_failed(&json))
		return err_memory(err);
	(void)puts(text.bytes);
	return ERR_NONE;
}

static enum err_code
show(const struct invocation *in, const struct desk *desk, const char *part,
	const struct work_pour_ask *of, struct err *err)
{
	struct work_poured poured;

	TRY(work_poured(desk, in->arena, part, of, &poured, err));
	if (in->json)
		return print_json(in, &poured, err);
	if (in->csv) {
		list_placed(in, &poured);
		return ERR_NONE;
	}
	if (poured.n_placed == 0)
		(void)puts("Nothing is poured yet; \"foamwright pour\" puts a "
			   "batch into its place.");
	else if (invocation_has(in, "--map"))
		print_map(in, &poured);
	else
		print_placed(in, &poured);
	for (size_t i = 0; i < poured.n_sentence; i++)
		print_folded(stdout, 0, poured.sentence[i]);
	for (size_t i = 0; i < poured.n_drying; i++)
		print_folded(stdout, 0, poured.drying[i]);
	return ERR_NONE;
}

static enum err_code
run_pour(const struct invocation *in, struct err *err)
{
	struct work_pour_ask ask = {
		.batch = in->word[1], .typed = fields_typed(in)};
	struct desk desk;
	enum err_code code;

	if (ask.typed == NULL)
		return err_memory(err);
	TRY(fields_read(
		in, fields, sizeof fields / sizeof fields[0], &ask, err));
	TRY(desk_open(in->word[0], in->n_given > 0, in, &desk, err));
	code = in->n_given > 0 ? work_pour(&desk, in->arena, &ask, err)
			       : ERR_NONE;
	if (code == ERR_NONE)
		code = show(in, &desk, ask.part, &ask, err);
	desk_close(&desk);
	return code;
}

static enum err_code
run_parts(const struct invocation *in, struct err *err)
{
	struct desk desk;
	enum err_code code;

	TRY(desk_open(in->word[0], false, in, &desk, err));
	code = show(in, &desk, invocation_value(in, "--part"), NULL, err);
	desk_close(&desk);
	return code;
}

const struct command command_pour = {
	.name = "pour",
	.line = "puts a batch into its place in the building",
	.help = "  foamwright pour BOOK BATCH --part PART --lift N "
		"[OPTIONS]\n\n"
		"Said again, it corrects. A batch that is on hold or rejected "
		"shows what it\ntouches; the plan pours a lift again "
		"if all its batches were rejected.\n",
	.example = "foamwright pour site.book P-07 --part wall-w --lift 2 "
		   "--from \"1.2 m\" --to \"2.4 m\"",
	.least_words = 2,
	.most_words = 2,
	.options = pour_options,
	.run = run_pour,
	.writes = true,
};

const struct command command_parts = {
	.name = "parts",
	.line = "what each part was poured of, and what its pieces say",
	.help = "  foamwright parts BOOK [--part PART] [--map]\n\n"
		"wet: how far the wet density was from the target of the mix, "
		"in kg/m3.\n",
	.example = "foamwright parts site.book --part wall-w",
	.least_words = 1,
	.most_words = 1,
	.options = parts_options,
	.run = run_parts,
	.csv = true,
};
