/* command_show.c - mixes, batches, test pieces and results as tables. */
#include "cli/command.h"

#include "cli/fields.h"
#include "cli/figure.h"
#include "cli/table.h"
#include "core/unit.h"
#include "work/decide.h"
#include "work/result_words.h"
#include "work/show.h"

#include <math.h>
#include <string.h>

/* Lists beyond those that work_show pages. */
enum { LIST_DECISIONS = WORK_LIST_RESULTS + 1, LIST_QUANTITIES };

enum { QUANTITY_DIGITS = 4 };

struct view {
	const struct invocation *in;
	const struct work_shown *shown;
	struct table table;
};

static const char *
figure(struct view *v, struct maybe m, enum unit_kind kind, const char *unit,
	int digits)
{
	double value;

	if (!m.has)
		return "-";
	value = unit_value(m.value, kind, unit);
	if (v->in->csv)
		return exact_figure(v->in->arena, value);
	return unit_digits(v->in->arena, value, digits);
}

static void
show_mixes(struct view *v)
{
	static const char *const heading[] = {"mix", "name", "wet kg/m3",
		"foam g/L", "cast", "tested", "snapped", "why"};
	const struct work_site *s = &v->shown->site;

	table_start(&v->table, v->in->arena, heading, 8, 0x7C);
	for (size_t i = 0; i < s->n_mix; i++) {
		const struct book_mix *m = &s->mix[i];
		const struct work_fates *f = &v->shown->results.fates[i];
		const char *cell[] = {
			text_format(v->in->arena, "%s%s", m->code,
				s->has_baseline && i == s->baseline &&
						!v->in->csv
					? " *"
					: ""),
			m->name,
			figure(v, m->wet_target_kg_m3, UNIT_DENSITY, "kg/m3",
				3),
			figure(v, m->foam_target_kg_m3, UNIT_DENSITY, "g/L", 2),
			text_format(v->in->arena, "%zu", f->n_cast),
			text_format(v->in->arena, "%zu", f->n_tested),
			text_format(v->in->arena, "%zu", f->n_snapped), m->why};

		table_row(&v->table, cell);
	}
}

static void
show_batches(struct view *v)
{
	static const char *const heading[] = {"batch", "mix", "wet\nkg/m3",
		"foam\ng/L", "blending\nmin", "counts", "remarks"};
	const struct work_site *s = &v->shown->site;

	table_start(&v->table, v->in->arena, heading, 7, 0x1C);
	for (size_t i = 0; i < s->n_batch; i++) {
		const struct book_batch *b = &s->batch[i];
		const struct choose_validity *valid =
			&v->shown->results.validity[i];
		struct text remark;

		text_init(&remark, v->in->arena);
		text_add(&remark, valid->reason);
		for (size_t k = 0; k < valid->n_flag; k++)
			text_addf(&remark, "%s%s", remark.n > 0 ? "; " : "",
				valid->flag[k]);
		text_addf(&remark, "%s%s",
			remark.n > 0 && b->remark[0] != '\0' ? "; " : "",
			b->remark);
		const char *cell[] = {b->code, s->mix[s->batch_mix[i]].code,
			figure(v, b->wet_kg_m3, UNIT_DENSITY, "kg/m3", 3),
			figure(v, b->foam_middle_kg_m3, UNIT_DENSITY, "g/L", 2),
			figure(v, b->blending_s, UNIT_TIME, "min", 2),
			valid->excluded ? "no" : "yes",
			text_failed(&remark) ? "" : remark.bytes};

		table_row(&v->table, cell);
	}
}

static void
show_specimens(struct view *v)
{
	static const char *const heading[] = {"piece", "batch", "mix", "form",
		"width mm", "depth mm", "kg", "fate"};
	const struct work_site *s = &v->shown->site;

	table_start(&v->table, v->in->arena, heading, 8, 0x70);
	for (size_t i = 0; i < s->n_specimen; i++) {
		const struct book_specimen *p = &s->specimen[i];
		size_t batch = s->specimen_batch[i];
		const char *cell[] = {p->code, s->batch[batch].code,
			s->mix[s->batch_mix[batch]].code, p->form,
			figure(v, p->width_m, UNIT_LENGTH, "mm", 3),
			figure(v, p->depth_m, UNIT_LENGTH, "mm", 3),
			figure(v, p->mass_kg, UNIT_MASS, "kg", 3), p->fate};

		table_row(&v->table, cell);
	}
}

/* What reading the instruments leaves open, in per cent of the value. */
static const char *
open_figure(struct view *v, struct maybe u_ratio)
{
	if (!u_ratio.has || !(u_ratio.value > 0))
		return "";
	return unit_digits(v->in->arena, 100 * u_ratio.value, 2);
}

/* What single pieces say beside the results that are compared. */
static void
show_notes(struct view *v)
{
	const struct work_site *s = &v->shown->site;

	for (size_t i = 0; i < v->shown->n_note; i++) {
		const struct work_bench_note *n = &v->shown->note[i];
		const char *cell[] = {s->specimen[n->specimen].code,
			s->mix[s->batch_mix[s->specimen_batch[n->specimen]]]
				.code,
			n->what, "", n->value, "", n->from,
			open_figure(v, n->u_ratio)};

		table_row(&v->table, cell);
	}
}

/* A figure in the unit of the note; an open bound has none. */
static const char *
note_figure(struct view *v, const struct work_bench_note *n, double si)
{
	return isfinite(si) && si > 0
		? exact_figure(v->in->arena, si / n->scale)
		: "";
}

static void
list_notes(struct view *v)
{
	const struct work_site *s = &v->shown->site;

	for (size_t i = 0; i < v->shown->n_note; i++) {
		const struct work_bench_note *n = &v->shown->note[i];
		const size_t batch = s->specimen_batch[n->specimen];
		const struct maybe age = {n->has_age, n->age_s};
		const char *cell[] = {s->specimen[n->specimen].code,
			s->batch[batch].code, s->mix[s->batch_mix[batch]].code,
			n->what, "", note_figure(v, n, n->value_si.low),
			note_figure(v, n, n->value_si.high), n->unit,
			figure(v, age, UNIT_TIME, "d", 3), "", n->from,
			open_figure(v, n->u_ratio)};

		table_row(&v->table, cell);
	}
}

/* What it was computed from, and what it would be at 28 days. */
static const char *
from_text(struct view *v, const struct work_result *r)
{
	const struct work_site *s = &v->shown->site;
	const struct work_at_28 at = work_at_28(s, &v->shown->cures, r);
	const char *from = work_result_from(v->in->arena, s, r);
	const char *later = work_at_28_text(v->in->arena, r, &at);

	if (later == NULL || later[0] == '\0')
		return from;
	return text_format(v->in->arena, "%s; %s", from, later);
}

/* As CSV: an open bound has no figure. */
static void
list_results(struct view *v)
{
	static const char *const heading[] = {"piece", "batch", "mix", "what",
		"where", "at least", "at most", "unit", "age d",
		"left out because", "from", "plus or minus %"};
	const struct work_site *s = &v->shown->site;

	table_start(&v->table, v->in->arena, heading,
		sizeof heading / sizeof heading[0], 0);
	for (size_t i = 0; i < v->shown->n; i++) {
		const struct work_result *r = &v->shown->results.result[i];
		const char *cell[] = {
			r->has_specimen ? s->specimen[r->specimen].code : "",
			s->batch[r->batch].code, s->mix[r->mix].code,
			work_result_what(v->in->arena, r), r->place,
			figure_exact(v->in->arena, r->measure, r->value.low),
			figure_exact(v->in->arena, r->measure, r->value.high),
			choose_measure_unit(r->measure),
			figure(v, r->age_s, UNIT_TIME, "d", 3), r->why,
			from_text(v, r), open_figure(v, r->u_ratio)};

		table_row(&v->table, cell);
	}
	list_notes(v);
}

static void
show_results(struct view *v)
{
	static const char *const heading[] = {"piece", "mix", "what", "where",
		"value", "left out because", "from", "plus or minus %"};
	const struct work_site *s = &v->shown->site;
	const struct work_results *results = &v->shown->results;

	if (v->in->csv) {
		list_results(v);
		return;
	}
	table_start(&v->table, v->in->arena, heading, 8, 0);
	for (size_t i = 0; i < v->shown->n; i++) {
		const struct work_result *r = &results->result[i];
		const char *cell[] = {r->has_specimen
				? s->specimen[r->specimen].code
				: s->batch[r->batch].code,
			s->mix[r->mix].code, work_result_what(v->in->arena, r),
			r->place, work_result_value(v->in->arena, r), r->why,
			from_text(v, r), open_figure(v, r->u_ratio)};

		table_row(&v->table, cell);
	}
	show_notes(v);
}

static enum err_code
read_decisions(struct view *v, const struct desk *desk, struct err *err)
{
	static const char *const heading[] = {
		"part", "mix", "because, and what the figures said"};
	const struct work_decision *row = NULL;
	size_t n = 0;

	TRY(work_decisions(desk, v->in->arena, &row, &n, err));
	table_start(&v->table, v->in->arena, heading, 3, 0);
	for (size_t i = 0; i < n; i++) {
		const char *cell[] = {row[i].part, row[i].mix,
			text_format(v->in->arena,
				"%s. The figures of that day: %s.",
				row[i].because, row[i].figures)};

		table_row(&v->table, cell);
	}
	return ERR_NONE;
}

static enum err_code
read_quantities(struct view *v, const struct desk *desk, struct err *err)
{
	static const char *const heading[] = {
		"part", "amount", "unit", "of what"};
	const struct work_quantity *row = NULL;
	size_t n = 0;

	TRY(work_quantities(desk, v->in->arena, &row, &n, err));
	table_start(&v->table, v->in->arena, heading, 4, 0x2);
	for (size_t i = 0; i < n; i++) {
		const char *cell[] = {row[i].part,
			v->in->csv ? exact_figure(v->in->arena, row[i].value)
				   : unit_digits(v->in->arena, row[i].value,
					     QUANTITY_DIGITS),
			row[i].unit, row[i].what};

		table_row(&v->table, cell);
	}
	return ERR_NONE;
}

enum { OF_WHAT = 2, OF_VALUE = 4, OF_WHY = 5, OF_FROM = 6, BELOW = 8 };

/* Results as lines, what each was computed from below it. */
static void
print_results(const struct view *v)
{
	const struct table *t = &v->table;

	for (size_t r = 0; r < t->n_row; r++) {
		const char *const *cell = &t->cell[r * t->n_column];

		print_folded(stdout, 0,
			text_format(v->in->arena, "%s (%s)  %s: %s", cell[0],
				cell[1], cell[OF_WHAT], cell[OF_VALUE]));
		if (cell[OF_FROM][0] != '\0')
			print_folded(stdout, BELOW,
				text_format(v->in->arena, "from: %s",
					cell[OF_FROM]));
		if (cell[OF_WHY][0] != '\0')
			print_folded(stdout, BELOW,
				text_format(v->in->arena, "left out: %s",
					cell[OF_WHY]));
	}
}

static const struct {
	const char *word;
	void (*show)(struct view *); /* of what work_show read; NULL: */
	enum err_code (*read)(struct view *, const struct desk *, struct err *);
	const char *begin; /* how the first comes into the book */
} views[] = {[WORK_LIST_MIXES] = {"mixes", show_mixes, NULL,
		     ": \"foamwright mix --help\" or \"import\"."},
	[WORK_LIST_BATCHES] = {"batches", show_batches, NULL,
		": \"foamwright batch --help\" or \"import\"."},
	[WORK_LIST_SPECIMENS] = {"specimens", show_specimens, NULL,
		": \"foamwright pieces --help\" or \"import\"."},
	[WORK_LIST_RESULTS] = {"results", show_results, NULL,
		": \"foamwright bend\", \"drop\", \"crush\", \"weigh\"."},
	[LIST_DECISIONS] = {"decisions", NULL, read_decisions,
		": \"foamwright decide --help\"."},
	[LIST_QUANTITIES] = {"quantities", NULL, read_quantities,
		"; a decision counts them: \"foamwright decide --help\"."}};

enum { N_VIEW = sizeof views / sizeof views[0] };

/* The code from which the next page goes on; NULL: by --limit only. */
static const char *
edge(const struct view *v, const struct work_show *ask)
{
	const struct work_site *s = &v->shown->site;
	bool back = ask->before != NULL || ask->last;

	if (ask->list == WORK_LIST_BATCHES && s->n_batch > 0)
		return s->batch[back ? 0 : s->n_batch - 1].code;
	if (ask->list == WORK_LIST_SPECIMENS && s->n_specimen > 0)
		return s->specimen[back ? 0 : s->n_specimen - 1].code;
	return NULL;
}

static enum err_code
print_json(const struct view *v, const struct work_show *ask, struct err *err)
{
	struct text text;
	struct jsonout json;

	json_start(v->in, &text, &json);
	jsonout_key(&json, views[ask->list].word);
	jsonout_open_array(&json);
	for (size_t r = 0; r < v->table.n_row; r++) {
		jsonout_open_object(&json);
		for (size_t c = 0; c < v->table.n_column; c++)
			jsonout_key_string(&json,
				table_flat_heading(&v->table, c),
				v->table.cell[r * v->table.n_column + c]);
		jsonout_close_object(&json);
	}
	jsonout_close_array(&json);
	jsonout_key_bool(&json, "more", v->shown->more);
	if (v->shown->more && edge(v, ask) != NULL)
		jsonout_key_string(&json, "from", edge(v, ask));
	return json_finish(&json, err);
}

static void
print_more(const struct view *v, const struct work_show *ask)
{
	const char *from = edge(v, ask);

	if (!v->shown->more)
		return;
	if (from == NULL)
		(void)printf("\nThere are more; \"--limit 0\" lists all.\n");
	else
		(void)printf("\nThere are more: foamwright show %s %s %s %s\n",
			v->in->word[0], views[ask->list].word,
			ask->before != NULL || ask->last ? "--before"
							 : "--after",
			from);
}

static enum err_code
read_ask(const struct invocation *in, struct work_show *ask, struct err *err)
{
	const char *word = in->n_word > 1 ? in->word[1] : views[0].word;
	size_t k = 0, n = 0;

	while (k < N_VIEW && strcmp(views[k].word, word) != 0)
		k++;
	if (k == N_VIEW)
		return err_report(err, ERR_INPUT, word,
			"There is no list of that name; it takes mixes, "
			"batches, specimens, results, decisions or "
			"quantities.");
	TRY(read_limit(in, k == WORK_LIST_RESULTS || in->csv ? 0 : WORK_PAGE,
		&n, err));
	*ask = (struct work_show){.list = (enum work_list)k,
		.after = invocation_value(in, "--after"),
		.before = invocation_value(in, "--before"),
		.last = invocation_has(in, "--last"),
		.n_most = n};
	return ERR_NONE;
}

static enum err_code
read_list(struct view *v, const struct desk *desk, const struct work_show *ask,
	struct work_shown *shown, struct err *err)
{
	if (views[ask->list].read != NULL &&
		(ask->after != NULL || ask->before != NULL || ask->last))
		return err_report(err, ERR_INPUT, "page",
			"--after, --before and --last go with batches and "
			"specimens; this list is shown whole.");
	if (views[ask->list].read != NULL)
		return views[ask->list].read(v, desk, err);
	TRY(work_show(desk, v->in->arena, ask, shown, err));
	views[ask->list].show(v);
	return ERR_NONE;
}

static void
print_list(const struct view *v, const struct work_show *ask)
{
	const struct work_results *results = &v->shown->results;

	if (v->table.n_row == 0) {
		(void)printf("There are no %s in the book yet%s\n",
			views[ask->list].word, views[ask->list].begin);
		return;
	}
	if (ask->list == WORK_LIST_RESULTS)
		print_results(v);
	else
		table_print(&v->table, stdout);
	if (ask->list == WORK_LIST_MIXES)
		(void)puts("* baseline");
	print_more(v, ask);
	for (size_t i = 0;
		i < results->n_fault && ask->list == WORK_LIST_RESULTS; i++)
		print_folded(stdout, 0, results->fault[i]);
}

static enum err_code
run_show(const struct invocation *in, struct err *err)
{
	struct work_shown shown = {0};
	struct work_show ask;
	struct view v = {.in = in, .shown = &shown};
	struct desk desk;
	enum err_code code;

	TRY(read_ask(in, &ask, err));
	TRY(desk_open(in->word[0], false, in, &desk, err));
	code = read_list(&v, &desk, &ask, &shown, err);
	desk_close(&desk);
	if (code != ERR_NONE)
		return code;
	if (in->json)
		return print_json(&v, &ask, err);
	if (in->csv) {
		table_show(in, &v.table, stdout);
		return ERR_NONE;
	}
	print_list(&v, &ask);
	return ERR_NONE;
}

static const struct command_option options[] = {
	{"--after", "CODE", "goes on after the batch or test piece CODE",
		false},
	{"--before", "CODE", "those before the batch or test piece CODE",
		false},
	{"--last", NULL, "the last of them", false},
	{"--limit", "N", "rows of a page, 0 for all (200; results, CSV: all)",
		false},
	{0},
};

const struct command command_show = {
	.name = "show",
	.line = "lists mixes, batches, specimens, results or decisions",
	.help = "  foamwright show BOOK [mixes|batches|specimens|results|"
		"decisions|quantities]\n",
	.example = "foamwright show site.book results",
	.least_words = 1,
	.most_words = 2,
	.options = options,
	.run = run_show,
	.csv = true,
};
