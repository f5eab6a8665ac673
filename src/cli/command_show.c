/* command_show.c - mixes, batches, test pieces and results as tables. */
#include "cli/command.h"

#include "cli/table.h"
#include "core/unit.h"
#include "work/show.h"

#include <math.h>
#include <string.h>

struct view {
	const struct invocation *in;
	const struct work_shown *shown;
	struct table table;
};

static const char *
figure(struct view *v, struct maybe m, enum unit_kind kind, const char *unit,
	int digits)
{
	double scale = 1, offset = 0;
	struct err err = {.code = ERR_NONE};

	if (!m.has ||
		unit_factor(unit, kind, UNIT_GALLON_US, &scale, &offset,
			&err) != ERR_NONE)
		return "-";
	return unit_digits(v->in->arena, (m.value - offset) / scale, digits);
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
				s->has_baseline && i == s->baseline ? " *"
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
	static const char *const heading[] = {
		"batch", "mix", "wet", "foam", "blending", "counts", "remarks"};
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
			b->blending_s.has
				? text_format(v->in->arena, "%.1f min",
					  b->blending_s.value / 60)
				: "-",
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

/* "0.342 to 0.372", "more than 58", "less than 0.1". */
static const char *
interval_text(struct view *v, const struct work_result *r)
{
	enum unit_kind kind = choose_measure_kind(r->measure);
	const char *unit = choose_measure_unit(r->measure);
	const char *low = figure(
		v, (struct maybe){true, r->value.low}, kind, unit, 3);
	const char *high = figure(
		v, (struct maybe){true, r->value.high}, kind, unit, 3);

	if (isinf(r->value.high))
		return text_format(v->in->arena, "more than %s %s", low, unit);
	if (!(r->value.low > 0))
		return text_format(v->in->arena, "less than %s %s", high, unit);
	if (strcmp(low, high) == 0)
		return text_format(v->in->arena, "%s %s", low, unit);
	return text_format(v->in->arena, "%s to %s %s", low, high, unit);
}

static void
show_results(struct view *v)
{
	static const char *const heading[] = {
		"piece", "mix", "what", "where", "value", "left out because"};
	const struct work_site *s = &v->shown->site;
	const struct work_results *results = &v->shown->results;

	table_start(&v->table, v->in->arena, heading, 6, 0);
	for (size_t i = 0; i < results->n_result; i++) {
		const struct work_result *r = &results->result[i];
		const char *cell[] = {r->has_specimen
				? s->specimen[r->specimen].code
				: s->batch[r->batch].code,
			s->mix[r->mix].code, choose_measure_name(r->measure),
			r->place, interval_text(v, r), r->why};

		table_row(&v->table, cell);
	}
}

static const struct {
	const char *word;
	void (*show)(struct view *);
} views[] = {{"mixes", show_mixes}, {"batches", show_batches},
	{"specimens", show_specimens}, {"results", show_results}};

static void
print_json(const struct view *v, const char *word)
{
	struct text text;
	struct jsonout json;

	text_init(&text, v->in->arena);
	jsonout_init(&json, &text);
	jsonout_open_object(&json);
	jsonout_key(&json, word);
	jsonout_open_array(&json);
	for (size_t r = 0; r < v->table.n_row; r++) {
		jsonout_open_object(&json);
		for (size_t c = 0; c < v->table.n_column; c++)
			jsonout_key_string(&json, v->table.heading[c],
				v->table.cell[r * v->table.n_column + c]);
		jsonout_close_object(&json);
	}
	jsonout_close_array(&json);
	jsonout_close_object(&json);
	if (!jsonout_failed(&json))
		(void)puts(text.bytes);
}

static enum err_code
run_show(const struct invocation *in, struct err *err)
{
	const char *word = in->n_word > 1 ? in->word[1] : "mixes";
	struct work_shown shown;
	struct view v = {.in = in, .shown = &shown};
	struct desk desk;
	enum err_code code;
	size_t k = 0;

	while (k < sizeof views / sizeof views[0] &&
		strcmp(views[k].word, word) != 0)
		k++;
	if (k == sizeof views / sizeof views[0])
		return err_report(err, ERR_INPUT, word,
			"There is no list of that name; it takes mixes, "
			"batches, specimens or results.");
	TRY(desk_open(in->word[0], false, in, &desk, err));
	code = work_show(&desk, in->arena, &shown, err);
	desk_close(&desk);
	if (code != ERR_NONE)
		return code;
	views[k].show(&v);
	if (in->json) {
		print_json(&v, word);
		return ERR_NONE;
	}
	table_print(&v.table, stdout);
	if (k == 0)
		(void)puts("* baseline");
	for (size_t i = 0; i < shown.results.n_fault && k == 3; i++)
		print_folded(stdout, 0, shown.results.fault[i]);
	return ERR_NONE;
}

const struct command command_show = {
	.name = "show",
	.line = "lists mixes, batches, specimens or results",
	.help = "  foamwright show BOOK [mixes|batches|specimens|results] "
		"[--json]\n",
	.example = "foamwright show site.book results",
	.least_words = 1,
	.most_words = 2,
	.run = run_show,
};
