/* pages_bench.c - at the bench, for the phone: a piece found, bent weight by
 * weight, dropped on, crushed, weighed, and what becomes of it. */
#include "web/page.h"

#include "core/date.h"
#include "web/dents.h"
#include "web/rigs.h"
#include "web/pages_trace.h"
#include "web/reading_form.h"
#include "work/bend.h"
#include "work/due.h"
#include "work/fields.h"
#include "work/home_test.h"
#include "work/piece.h"

#include <string.h>

enum { MILLI = 1000, SAID_MOST = 64 };

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

/* --- Which piece. --- */

static void
fill_find(struct form *form, const struct web_request *request)
{
	form_start(form, request, "find", "/bench", _("Open this piece"));
	form->gets = true;
	form_text(form, "piece", _("Marking on the piece"),
		_("As written on it, such as K7MD; a slip of the pen is "
		  "found."));
}

static const char *
day_text(const struct web_request *request, int64_t at_s)
{
	char day[DATE_TEXT_MAX];

	date_write_day(at_s, 0, day);
	return arena_text(request->arena, day);
}

static void
add_waiting(struct page *page, const struct work_due *due, const char *batch)
{
	static const struct grid_column column[] = {
		{"piece", N_("test piece"), "", false},
		{"batch", N_("batch"), "", false},
		{"due", N_("due on"), "", false},
		{"what", N_("what it is"), "", false},
		{"before", N_("before the test"), "", false}};
	const struct web_request *request = page->request;
	const struct work_site *s = &due->bench.site;
	struct grid grid;

	page_table(page, &grid, "waiting", _("Waiting for a test"), column,
		COUNT(column));
	for (size_t i = 0; i < due->n; i++) {
		const struct work_due_piece *row = &due->row[i];
		const struct book_specimen *p = &s->specimen[row->piece];
		const char *of = s->batch[s->specimen_batch[row->piece]].code;

		if (batch != NULL && strcmp(batch, of) != 0)
			continue;
		grid_link(&grid, p->code, web_at(request, "/piece/", p->code));
		grid_text(&grid, of);
		grid_text(&grid, day_text(request, row->due_s));
		grid_text(&grid, work_piece_sized(request->arena, p));
		grid_link(&grid, _("lay out"),
			web_at(request, "/prepare/", p->code));
	}
	if (grid_rows(&grid) > 0)
		page_grid(page, &grid);
	else
		page_say(page, _("Nothing waits for a test here."));
}

static void
fill_pieces(struct form *form, const struct web_request *request,
	const struct work_bench *bench)
{
	form_start(
		form, request, "pieces", "/bench", _("Register these pieces"));
	form->heading = _("Pieces just cast");
	form_text(form, "batch", _("Of which batch"), NULL);
	form_needed(form);
	form_choice(form, "mould", _("In which mould"), NULL);
	for (size_t i = 0; i < bench->n_form && i < FORM_CHOICES_MOST; i++)
		form_choose(form, bench->form[i].code,
			text_format(request->arena, "%s, %s",
				bench->form[i].code, _(bench->form[i].shape)));
	form_number(form, "count", _("How many"), "",
		_("Empty moulds too: none may be lost."));
	form_number(form, "test-age", _("To be tested at the age of"), "d",
		_("28 days unless said."));
	form_yes(form, "reinforced", _("Mesh or wires lie in them"), NULL);
}

static void
fill_form(struct form *form, const struct web_request *request)
{
	static const char *const shapes[] = {
		"beam", "panel", "cube", "cylinder", "prism", "bar", "other"};
	static const char *const shown[] = {N_("beam"), N_("panel"), N_("cube"),
		N_("cylinder"), N_("prism"), N_("bar with studs"),
		N_("something else")};

	form_start(form, request, "form", "/bench", _("Record this mould"));
	form->heading = _("A mould for test pieces");
	form_text(form, "code", _("Its name"), _("Short, such as B1."));
	form_choice(form, "shape", _("What it makes"), NULL);
	for (size_t i = 0; i < COUNT(shapes); i++)
		form_choose(
			form, shapes[i], words(request->language, shown[i]));
	form_number(form, "width", _("Inner width"), "mm in", NULL);
	form_number(form, "depth", _("Inner height, as filled"), "mm in", NULL);
	form_number(form, "length", _("Inner length"), "mm in", NULL);
	form_number(form, "diameter", _("Inner diameter, of a cylinder"),
		"mm in", NULL);
	form_text(form, "note", _("Remark"), NULL);
}

static enum err_code
add_traces(struct page *page, const char *piece, const char *batch,
	struct err *err)
{
	const struct trace_choice choice = {.piece = piece, .batch = batch};
	struct work_traces traces;

	TRY(work_traces(
		&page->request->desk, page->request->arena, &traces, err));
	trace_blocks(page, &traces, &choice);
	return ERR_NONE;
}

static enum err_code
show_bench(const struct web_request *request, struct web_reply *reply,
	struct form *pieces, struct form *mould, struct err *err)
{
	const char *batch = web_query(request, "batch");
	struct work_due due;
	struct page page;
	struct form find;

	TRY(work_due(&request->desk, request->arena, NULL, &due, err));
	page_start(&page, request, _("At the bench"), PAGE_BENCH);
	if (web_query(request, "saved") != NULL)
		page_done(&page,
			text_format(request->arena, "%s %s%s%s", _("Recorded:"),
				web_query(request, "saved"),
				batch != NULL ? ". " : "",
				batch != NULL ? _("Write its marking on each "
						  "piece now.")
					      : ""),
			"/undo/last");
	page_caution(&page,
		_("Weights fall when a beam breaks: goggles, boots, nobody's "
		  "toes under the load, and a block under the beam to catch "
		  "it."));
	fill_find(&find, request);
	page_form(&page, &find);
	add_waiting(&page, &due, batch);
	if (batch != NULL)
		page_link(&page, _("Labels of this batch, to print"),
			web_at(request, "/labels/", batch));
	if (pieces->request == NULL)
		fill_pieces(pieces, request, &due.bench);
	for (size_t i = 0; i < due.bench.site.n_trial; i++)
		page_link(&page,
			page_format(&page, "%s %s",
				_("What to lay out for the tests of trial"),
				due.bench.site.trial[i].code),
			web_at(request, "/prepare/",
				due.bench.site.trial[i].code));
	page_link(&page, _("The rigs of the bench"), "/rigs");
	if (due.bench.n_form == 0) {
		page_say(&page,
			_("First enter the mould that pieces are cast in; then "
			  "the pieces."));
		page_form(&page, mould);
		page_form(&page, pieces);
	} else {
		mould->folded = true;
		page_form(&page, pieces);
		page_form(&page, mould);
	}
	TRY(add_traces(&page, NULL, batch, err));
	page_link(&page, _("From a logger"), "/traces");
	page_link(&page, _("How the batches cured"), "/cure");
	return page_answer(&page, reply, err);
}

enum err_code
web_bench(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	const char *piece = web_query(request, "piece");
	struct form pieces = {.request = NULL}, mould;

	if (piece != NULL) {
		reply->see_other = web_at(request, "/piece/", piece);
		return reply->see_other != NULL ? ERR_NONE : err_memory(err);
	}
	fill_form(&mould, request);
	return show_bench(request, reply, &pieces, &mould, err);
}

#define AT(member) offsetof(struct work_pieces_ask, member)
static const struct field pieces_fields[] = {
	{"batch", FIELD_TEXT, UNIT_NUMBER, AT(batch)},
	{"mould", FIELD_TEXT, UNIT_NUMBER, AT(form)},
	{"count", FIELD_WHOLE, UNIT_NUMBER, AT(count)},
	{"test-age", FIELD_MAYBE, UNIT_TIME, AT(test_age_s)},
};
#undef AT

#define AT(member) offsetof(struct work_form_ask, member)
static const struct field form_fields[] = {
	{"code", FIELD_TEXT, UNIT_NUMBER, AT(code)},
	{"shape", FIELD_TEXT, UNIT_NUMBER, AT(shape)},
	{"width", FIELD_MAYBE, UNIT_LENGTH, AT(width_m)},
	{"depth", FIELD_MAYBE, UNIT_LENGTH, AT(depth_m)},
	{"length", FIELD_MAYBE, UNIT_LENGTH, AT(length_m)},
	{"diameter", FIELD_MAYBE, UNIT_LENGTH, AT(diameter_m)},
	{"note", FIELD_TEXT, UNIT_NUMBER, AT(note)},
};
#undef AT

static const char *
list_codes(
	const struct web_request *request, const struct work_pieces_told *told)
{
	struct text text;

	text_init(&text, request->arena);
	for (size_t i = 0; i < told->n; i++)
		text_addf(&text, "%s%s", i > 0 ? "+" : "", told->code[i]);
	return text_failed(&text) ? NULL : text.bytes;
}

static const char *
put_pieces(const struct web_request *request, struct form *form)
{
	struct work_pieces_ask ask = {.typed = form_as_typed(request)};
	struct work_pieces_told told;
	struct err inner = err_in(request->arena);
	const char *codes;

	ask.reinforced = web_given(request, "reinforced") != NULL;
	if (!form_read(
		    request, pieces_fields, COUNT(pieces_fields), &ask, form))
		return NULL;
	if (ask.batch == NULL || ask.form == NULL || !ask.count.has) {
		form_fault_at(form,
			ask.batch == NULL          ? "batch"
				: ask.form == NULL ? "mould"
						   : "count",
			_("This is needed."));
		return NULL;
	}
	if (work_pieces_put(&request->desk, request->arena, &ask, &told,
		    &inner) != ERR_NONE) {
		form_fault(form, &inner);
		return NULL;
	}
	codes = list_codes(request, &told);
	return text_format(request->arena, "%s&saved=%s",
		web_at(request, "/bench?batch=", ask.batch),
		codes != NULL ? codes : "");
}

static const char *
put_form(const struct web_request *request, struct form *form)
{
	struct work_form_ask ask = {.typed = form_as_typed(request)};
	struct err inner = err_in(request->arena);
	bool made;

	if (!form_read(request, form_fields, COUNT(form_fields), &ask, form))
		return NULL;
	if (ask.code == NULL) {
		form_fault_at(form, "code", _("This is needed."));
		return NULL;
	}
	if (work_form_put(&request->desk, request->arena, &ask, &made,
		    &inner) != ERR_NONE) {
		form_fault(form, &inner);
		return NULL;
	}
	return web_at(request, "/bench?saved=", ask.code);
}

enum err_code
web_bench_post(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	const char *id = web_given(request, "form");
	struct work_bench bench;
	struct form pieces, mould;

	TRY(work_bench_read(&request->desk, request->arena, &bench, err));
	fill_pieces(&pieces, request, &bench);
	fill_form(&mould, request);
	reply->see_other = id != NULL && strcmp(id, "form") == 0
		? put_form(request, &mould)
		: put_pieces(request, &pieces);
	return reply->see_other != NULL
		? ERR_NONE
		: show_bench(request, reply, &pieces, &mould, err);
}

/* --- One piece. --- */

struct piece_forms {
	struct form bend, drop, crush, weigh, fate;
};

static void
fill_bend(struct form *form, const struct web_request *request,
	const struct work_site *site, const char *code)
{
	bool rigged;

	form_start(form, request, "bend", web_at(request, "/bend/", code),
		_("Begin hanging weights"));
	form->heading = _("Bend it");
	rigged = rigs_choice(form, site, "bending");
	form_number(form, "span", _("Between the middles of the supports"),
		"mm in", NULL);
	form_number(form, "hanger", _("Hanger and bucket"), "kg lb",
		_("They are part of every load."));
	form_text(form, "weights", _("Weights there are"),
		_("One a button, such as 10 kg, 5 kg, 2 kg, 1 kg."));
	form_number(form, "strap", _("Width of the strap"), "mm in", NULL);
	form_choice(form, "loading", _("Where it is loaded"), NULL);
	form_choose(form, "centre", _("in the middle"));
	form_choose(form, "third", _("at the third points"));
	if (rigged)
		form_choose(form, "", _("as the rig is, else in the middle"));
	form_value(form, rigged ? "" : "centre");
}

/* What every reading may carry. */
static void
fill_when(struct form *form, const struct web_request *request)
{
	form_number(form, "piece-mass", _("The piece weighed, on that day"),
		"kg g lb", NULL);
	form_date(form, "on", _("When it was read, if not now"), NULL);
	form_text(form, "remark", _("Remark"), NULL);
}

static void
fill_drop(struct form *form, const struct web_request *request,
	const struct work_site *site, const char *action)
{
	form_start(form, request, "drop", action, _("Record the dent"));
	form->heading = _("Drop a bar on it");
	form_choice(form, "place", _("Where it hit"), NULL);
	form_choose(form, "centre", _("centre"));
	form_choose(form, "edge", _("near an edge"));
	form_choose(form, "corner", _("near a corner"));
	form_number(form, "dent", _("Depth of the dent"), "mm in",
		_("From the face, not from the rim."));
	form_number(form, "dent-step", _("Read to"), "mm in", NULL);
	form_yes(form, "through", _("It went through"), NULL);
	form_yes(form, "cracked", _("It cracked"), NULL);
	form_number(
		form, "from-edge", _("From the nearest edge"), "mm in", NULL);
	(void)rigs_choice(form, site, "drop");
	form_number(form, "bar", _("What fell weighs"), "kg lb", NULL);
	form_number(form, "from", _("Height, tip to face"), "mm in m", NULL);
	form_choice(form, "tip", _("Its tip"), NULL);
	form_choose(form, "flat", _("flat"));
	form_choose(form, "ball", _("ball"));
	form_choose(form, "cone", _("cone"));
	form_number(
		form, "tip-diameter", _("Diameter of the tip"), "mm in", NULL);
	form_number(
		form, "thickness", _("Thickness of the piece"), "mm in", NULL);
	form_number(form, "tip-angle", _("Angle of a cone, from side to side"),
		"deg", NULL);
	form_number(
		form, "tube-loss", _("Energy lost in the guide"), "%", NULL);
	form_number(form, "blows", _("How many blows on this place"), "",
		_("This one with them; 1 unless said."));
	form_text(form, "code", _("Which drop on the piece"),
		_("Tells several apart; empty: by where it hit."));
	fill_when(form, request);
}

static void
fill_crush(struct form *form, const struct web_request *request,
	const struct work_site *site, const char *action)
{
	form_start(form, request, "crush", action, _("Record the crushing"));
	form->heading = _("Crush it");
	(void)rigs_choice(form, site, "crushing");
	form_number(form, "gauge", _("Gauge when it gave way"), "bar psi MPa",
		NULL);
	form_number(
		form, "gauge-step", _("Gauge is read to"), "bar psi MPa", NULL);
	form_number(form, "gauge-zero", _("Gauge without a load"),
		"bar psi MPa", NULL);
	form_number(form, "ram", _("Bore of the ram"), "mm in", NULL);
	form_number(
		form, "held", _("Or the last load it held"), "kN lbf N", NULL);
	form_number(form, "broke", _("And the one that crushed it"), "kN lbf N",
		NULL);
	form_number(form, "width", _("Width of the face under load"), "mm in",
		NULL);
	form_number(form, "length", _("Length of that face"), "mm in", NULL);
	form_number(form, "depth", _("Height along the load"), "mm in", NULL);
	form_number(
		form, "diameter", _("Diameter, of a cylinder"), "mm in", NULL);
	form_number(form, "load", _("Or the load itself"), "kN lbf N", NULL);
	form_number(form, "half", _("Half of a broken beam: plates so long"),
		"mm in", _("It keeps the width and height of its beam."));
	form_text(form, "code", _("Which crushing of the piece"),
		_("Tells several apart, such as halves a and b."));
	fill_when(form, request);
}

static void
fill_weigh(struct form *form, const struct web_request *request,
	const char *action)
{
	static const char *const states[] = {"as cast", "at test", "air dry",
		"oven dry", "saturated", "in water"};
	static const char *const shown[] = {N_("as cast"), N_("at the test"),
		N_("air dry"), N_("oven dry"), N_("soaked"), N_("in water")};

	form_start(form, request, "weigh", action, _("Record the weight"));
	form->heading = _("Weigh it");
	form_number(form, "mass", _("It weighs"), "kg g lb", NULL);
	form_choice(form, "state", _("In which state"), NULL);
	for (size_t i = 0; i < COUNT(states); i++)
		form_choose(
			form, states[i], words(request->language, shown[i]));
	form_value(form, "at test");
	form_number(form, "width", _("Width as measured"), "mm in", NULL);
	form_number(form, "depth", _("Height as measured"), "mm in", NULL);
	form_number(form, "length", _("Length as measured"), "mm in", NULL);
	form_number(
		form, "diameter", _("Diameter, of a cylinder"), "mm in", NULL);
	form_date(form, "on", _("When it was weighed, if not now"), NULL);
	form_text(form, "remark", _("Remark"), NULL);
}

static void
fill_fate(struct form *form, const struct web_request *request,
	const char *action)
{
	static const char *const fates[] = {"waiting", "snapped at stripping",
		"snapped in handling", "accident", "not filled", "set aside"};
	static const char *const shown[] = {N_("waiting"),
		N_("snapped at stripping"), N_("snapped in handling"),
		N_("accident, not the material's"), N_("mould was not filled"),
		N_("set aside")};
	static const char *const quarter[] = {
		"height-1", "height-2", "height-3", "height-4"};

	form_start(form, request, "fate", action, _("Record this"));
	form->heading = _("What became of it");
	form_choice(form, "fate", _("Its fate"), NULL);
	for (size_t i = 0; i < COUNT(fates); i++)
		form_choose(form, fates[i], words(request->language, shown[i]));
	form_text(form, "remark", _("Remark, or why"),
		_("Needed for an accident and for a piece set aside."));
	form_text(form, "damage", _("Chips and cracks"), NULL);
	for (size_t i = 0; i < COUNT(quarter); i++)
		form_number(form, quarter[i],
			text_format(request->arena, "%s %zu",
				_("Height once set, quarter"), i + 1),
			"mm in", NULL);
	form_number(form, "moisture", _("Water in it at the test"), "%",
		_("Of the dry mass."));
	form_number(
		form, "test-age", _("To be tested at the age of"), "d", NULL);
	form_date(form, "on", _("When that was, if not now"), NULL);
}

static void
fill_piece(struct piece_forms *forms, const struct web_request *request,
	const struct work_site *site, const char *code)
{
	const char *action = web_at(request, "/piece/", code);

	fill_bend(&forms->bend, request, site, code);
	fill_drop(&forms->drop, request, site, action);
	fill_crush(&forms->crush, request, site, action);
	fill_weigh(&forms->weigh, request, action);
	fill_fate(&forms->fate, request, action);
}

/* A caution is said once, however many readings call for it. */
static void
say_once(struct page *page, const char **said, size_t *n, const char *sentence)
{
	for (size_t i = 0; i < *n; i++)
		if (strcmp(said[i], sentence) == 0)
			return;
	if (*n < SAID_MOST)
		said[(*n)++] = sentence;
	page_say(page, sentence);
}

static void
add_told(struct page *page, const struct web_request *request, const char *code,
	const struct book_reading *r, const char **said, size_t *n)
{
	struct work_test_told told;
	struct err inner = err_in(request->arena);

	if (work_test_tell(&request->desk, request->arena, code, r->kind,
		    r->code, &told, &inner) != ERR_NONE)
		return; /* nothing of that kind yet */
	for (size_t i = 0; i < told.n_sentence; i++)
		say_once(page, said, n, told.sentence[i]);
}

/* What each reading of the piece came to. */
static void
add_results(struct page *page, const struct web_request *request,
	const struct work_bench *bench, size_t piece)
{
	const struct work_site *s = &bench->site;
	const char *said[SAID_MOST];
	bool any = false;
	size_t n = 0;

	for (size_t i = 0; i < s->n_reading; i++) {
		const struct book_reading *r = &s->reading[i];

		if (s->reading_specimen[i] != piece ||
			strcmp(r->kind, "other") == 0)
			continue;
		if (!any)
			page_heading(page, _("What it came to so far"));
		any = true;
		add_told(page, request, s->specimen[piece].code, r, said, &n);
	}
}

/* Was it bent, dropped on or crushed? */
static bool
has_test(const struct work_bench *bench, size_t piece)
{
	static const char *const kinds[] = {"bending", "drop", "crushing"};
	const struct work_site *s = &bench->site;

	for (size_t i = 0; i < s->n_reading; i++)
		for (size_t k = 0; k < COUNT(kinds); k++)
			if (s->reading_specimen[i] == piece &&
				strcmp(s->reading[i].kind, kinds[k]) == 0)
				return true;
	return false;
}

static bool
bends_now(const struct work_bench *bench, size_t piece)
{
	const struct work_site *s = &bench->site;

	for (size_t i = 0; i < s->n_reading; i++)
		if (s->reading_specimen[i] == piece &&
			strcmp(s->reading[i].kind, "bending") == 0)
			return false;
	for (size_t i = 0; i < bench->n_session; i++)
		if (bench->session[i].specimen_id == s->specimen[piece].row.id)
			return true;
	return false;
}

static void
add_facts(struct page *page, const struct web_request *request,
	const struct work_bench *bench, size_t piece)
{
	const struct work_site *s = &bench->site;
	const struct book_specimen *p = &s->specimen[piece];
	bool blind = web_query(request, "blind") != NULL;
	size_t batch = s->specimen_batch[piece];
	int64_t cast_s;

	page_say(page,
		page_format(page, "%s. %s %s",
			work_piece_sized(request->arena, p), _("State:"),
			_(p->fate)));
	if (!blind)
		page_say(page,
			page_format(page, "%s %s, %s %s", _("Mix"),
				s->mix[s->batch_mix[batch]].code, _("batch"),
				s->batch[batch].code));
	if (work_cast_on(s, piece, &cast_s))
		page_say(page,
			page_format(page, "%s %s", _("Cast on"),
				day_text(request, cast_s)));
}

/* Open is the test that such a piece is cast for, until it is tested. */
static void
fold_tests(struct piece_forms *forms, const struct book_specimen *piece)
{
	bool waits = strcmp(piece->fate, "waiting") == 0;
	bool crushed = strcmp(piece->form, "cube") == 0 ||
		strcmp(piece->form, "cylinder") == 0;

	forms->bend.folded = !waits || crushed;
	forms->crush.folded = !waits || !crushed;
	forms->drop.folded = true;
	forms->weigh.folded = true;
	forms->fate.folded = true;
}

static enum err_code
show_piece(const struct web_request *request, struct web_reply *reply,
	const char *typed, struct piece_forms *forms, struct err *err)
{
	struct work_bench bench;
	struct page page;
	const char *code;
	size_t piece;

	TRY(work_bench_read(&request->desk, request->arena, &bench, err));
	TRY(work_find_piece(&bench, typed, &piece, err));
	code = bench.site.specimen[piece].code;
	if (forms->bend.request == NULL)
		fill_piece(forms, request, &bench.site, code);
	page_start(&page, request,
		text_format(request->arena, "%s %s", _("Test piece"), code),
		PAGE_BENCH);
	if (web_query(request, "saved") != NULL)
		page_done(&page, _("Recorded."), "/undo/last");
	add_facts(&page, request, &bench, piece);
	add_results(&page, request, &bench, piece);
	TRY(dents_add(&page, &bench, piece, err));
	TRY(add_traces(&page, code, NULL, err));
	page_caution(&page,
		_("Goggles and boots; two people lift what weighs over 25 kg; "
		  "carry beams on edge."));
	fold_tests(forms, &bench.site.specimen[piece]);
	if (web_query(request, "blind") == NULL) /* the plan names the mix */
		page_link(&page, _("What to lay out before the test"),
			web_at(request, "/prepare/", code));
	if (bends_now(&bench, piece))
		page_link(&page, _("Go on with the bending test"),
			web_at(request, "/bend/", code));
	else
		page_form(&page, &forms->bend);
	page_link(&page, _("A bending test that was done already"),
		web_at(request, "/bent/", code));
	page_form(&page, &forms->drop);
	page_form(&page, &forms->crush);
	page_form(&page, &forms->weigh);
	page_form(&page, &forms->fate);
	page_link(&page, _("Water, drying, screws, frost and heat"),
		web_at(request, "/measure/", code));
	if (has_test(&bench, piece))
		page_link(&page, _("What leaves its results open"),
			web_at(request, "/budget/", code));
	page_link(&page, _("From a logger"),
		web_at(request, "/traces?piece=", code));
	page_link(&page, _("Its label, to print"),
		web_at(request, "/label/", code));
	page_link(&page, _("To the other pieces"), "/bench");
	return page_answer(&page, reply, err);
}

enum err_code
web_piece(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct piece_forms forms = {.bend = {.request = NULL}};

	return show_piece(request, reply, request->tail, &forms, err);
}

#define AT(member) offsetof(struct work_test_ask, member)
#define DROP(member) AT(reading.drop.member)
#define CRUSH(member) AT(reading.crushing.member)
static const struct field drop_fields[] = {
	{"place", FIELD_TEXT, UNIT_NUMBER, DROP(place)},
	{"tip", FIELD_TEXT, UNIT_NUMBER, DROP(tip)},
	{"bar", FIELD_MAYBE, UNIT_MASS, DROP(bar_kg)},
	{"from", FIELD_MAYBE, UNIT_LENGTH, DROP(height_m)},
	{"tip-diameter", FIELD_MAYBE, UNIT_LENGTH, DROP(tip_diameter_m)},
	{"dent", FIELD_MAYBE, UNIT_LENGTH, DROP(dent_m)},
	{"dent-step", FIELD_MAYBE, UNIT_LENGTH, DROP(dent_step_m)},
	{"from-edge", FIELD_MAYBE, UNIT_LENGTH, DROP(from_edge_m)},
	{"thickness", FIELD_MAYBE, UNIT_LENGTH, AT(depth_m)},
	{"tip-angle", FIELD_MAYBE, UNIT_ANGLE, DROP(tip_angle_rad)},
	{"tube-loss", FIELD_MAYBE, UNIT_RATIO, DROP(tube_loss_ratio)},
	{"blows", FIELD_WHOLE, UNIT_NUMBER, DROP(blows)},
};
static const struct field crush_fields[] = {
	{"gauge", FIELD_MAYBE, UNIT_STRESS, CRUSH(gauge_pa)},
	{"gauge-zero", FIELD_MAYBE, UNIT_STRESS, CRUSH(gauge_zero_pa)},
	{"gauge-step", FIELD_MAYBE, UNIT_STRESS, CRUSH(gauge_step_pa)},
	{"ram", FIELD_MAYBE, UNIT_LENGTH, CRUSH(ram_diameter_m)},
	{"held", FIELD_MAYBE, UNIT_FORCE, CRUSH(held_n)},
	{"broke", FIELD_MAYBE, UNIT_FORCE, CRUSH(broke_n)},
	{"load", FIELD_MAYBE, UNIT_FORCE, CRUSH(load_n)},
	{"half", FIELD_MAYBE, UNIT_LENGTH, CRUSH(plate_m)},
};
static const struct field weigh_fields[] = {
	{"state", FIELD_TEXT, UNIT_NUMBER, AT(reading.weighing.state)},
};
#undef AT
#undef DROP
#undef CRUSH

#define AT(member) offsetof(struct work_piece_ask, member)
static const struct field fate_fields[] = {
	{"fate", FIELD_TEXT, UNIT_NUMBER, AT(fate)},
	{"remark", FIELD_TEXT, UNIT_NUMBER, AT(remark)},
	{"damage", FIELD_TEXT, UNIT_NUMBER, AT(damage)},
	{"height-1", FIELD_MAYBE, UNIT_LENGTH, AT(height_m[0])},
	{"height-2", FIELD_MAYBE, UNIT_LENGTH, AT(height_m[1])},
	{"height-3", FIELD_MAYBE, UNIT_LENGTH, AT(height_m[2])},
	{"height-4", FIELD_MAYBE, UNIT_LENGTH, AT(height_m[3])},
	{"moisture", FIELD_MAYBE, UNIT_RATIO, AT(moisture_ratio)},
	{"test-age", FIELD_MAYBE, UNIT_TIME, AT(test_age_s)},
	{"on", FIELD_DATE, UNIT_NUMBER, AT(on)},
};
#undef AT

static bool
put_test(const struct web_request *request, struct work_test_ask *ask,
	struct form *form)
{
	struct work_test_told told;
	struct err inner = err_in(request->arena);

	if (work_test_put(&request->desk, request->arena, ask, &told, &inner) ==
		ERR_NONE)
		return true;
	form_fault(form, &inner);
	return false;
}

static bool
put_drop(const struct web_request *request, struct form *form)
{
	struct work_test_ask ask = {.piece = request->tail,
		.typed = form_as_typed(request),
		.reading = {.kind = "drop",
			.remark = "",
			.drop = {.place = "", .tip = ""}}};

	ask.reading.drop.went_through = web_given(request, "through") != NULL;
	ask.reading.drop.cracked = web_given(request, "cracked") != NULL;
	if (!reading_form_read(
		    request, drop_fields, COUNT(drop_fields), &ask, &ask, form))
		return false;
	if (ask.reading.code == NULL)
		ask.reading.code = ask.reading.drop.place;
	return put_test(request, &ask, form);
}

static bool
put_crush(const struct web_request *request, struct form *form)
{
	struct work_test_ask ask = {.piece = request->tail,
		.typed = form_as_typed(request),
		.reading = {.kind = "crushing", .code = "1", .remark = ""}};

	if (!reading_form_read(request, crush_fields, COUNT(crush_fields), &ask,
		    &ask, form))
		return false;
	if (ask.reading.crushing.plate_m.has) {
		ask.keeps_fate = true;
		if (!(ask.reading.crushing.plate_m.value > 0))
			form_fault_at(form, "half",
				_("The plates must be longer than nothing."));
		if (ask.width_m.has || ask.depth_m.has || ask.length_m.has)
			form_fault_at(form, "half",
				_("A half keeps the width and height of its "
				  "beam; leave the sizes out."));
	}
	return !form_has_fault(form) && put_test(request, &ask, form);
}

static bool
put_weight(const struct web_request *request, struct form *form)
{
	struct work_test_ask ask = {.piece = request->tail,
		.typed = form_as_typed(request),
		.reading = {.kind = "weighing",
			.remark = "",
			.weighing = {.state = "at test"}},
		.keeps_fate = true};

	if (!reading_form_read(request, weigh_fields, COUNT(weigh_fields), &ask,
		    &ask, form))
		return false;
	if (!ask.mass_kg.has) {
		form_fault_at(form, "mass", _("This is needed."));
		return false;
	}
	ask.reading.weighing.mass_kg = ask.mass_kg.value;
	ask.reading.code = ask.reading.weighing.state;
	ask.mass_kg.has = strcmp(ask.reading.weighing.state, "at test") == 0;
	return put_test(request, &ask, form);
}

static bool
put_fate(const struct web_request *request, struct form *form)
{
	struct work_piece_ask ask = {
		.code = request->tail, .typed = form_as_typed(request)};
	struct work_piece_told told;
	struct err inner = err_in(request->arena);

	if (!form_read(request, fate_fields, COUNT(fate_fields), &ask, form))
		return false;
	for (size_t i = 0; i < WORK_QUARTERS; i++)
		ask.n_height += ask.height_m[i].has;
	if (ask.n_height != 0 && ask.n_height != WORK_QUARTERS) {
		form_fault_at(
			form, "height-1", _("Give all four heights, or none."));
		return false;
	}
	if (work_piece_put(&request->desk, request->arena, &ask, &told,
		    &inner) == ERR_NONE)
		return true;
	form_fault(form, &inner);
	return false;
}

enum err_code
web_piece_post(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	const char *id = web_given(request, "form");
	struct piece_forms forms;
	struct work_bench bench;
	bool done;

	TRY(work_bench_read(&request->desk, request->arena, &bench, err));
	fill_piece(&forms, request, &bench.site, request->tail);
	if (id != NULL && strcmp(id, "drop") == 0)
		done = put_drop(request, &forms.drop);
	else if (id != NULL && strcmp(id, "crush") == 0)
		done = put_crush(request, &forms.crush);
	else if (id != NULL && strcmp(id, "weigh") == 0)
		done = put_weight(request, &forms.weigh);
	else
		done = put_fate(request, &forms.fate);
	if (!done)
		return show_piece(request, reply, request->tail, &forms, err);
	reply->see_other = text_format(request->arena, "%s?saved=1",
		web_at(request, "/piece/", request->tail));
	return reply->see_other != NULL ? ERR_NONE : err_memory(err);
}

/* --- Bending, weight by weight. --- */

static void
fill_step(struct form *form, const struct web_request *request,
	const struct work_bending *b)
{
	form_start(form, request, "step",
		web_at(request, "/bend/", request->tail), NULL);
	if (b->hung.ended) {
		form_press(form, "step", "keep", _("Keep this result"));
		form_press(form, "step", "undone", _("Take the last back"));
		return;
	}
	for (size_t i = 0; i < b->n_weight; i++)
		form_press(form, "add",
			text_format(request->arena, "%.9g kg", b->weight_kg[i]),
			text_format(
				request->arena, "+ %g kg", b->weight_kg[i]));
	form_press(form, "step", "cracked", _("Cracked"));
	form_press(form, "step", "fell", _("Fell"));
	form_press(
		form, "step", "holding", _("Still holding, no more weights"));
	form_press(form, "step", "undone", _("Take the last back"));
}

/* A form of its own: Enter in a field presses the first button of its form, and
 * that must not be a weight. */
static void
fill_own(struct form *form, const struct web_request *request)
{
	form_start(form, request, "own",
		web_at(request, "/bend/", request->tail),
		_("Record that weight or sag"));
	form_number(form, "weight", _("Another weight"), "kg lb", NULL);
	form_number(form, "sag", _("Or how far the middle has sagged"), "mm in",
		NULL);
}

static void
add_steps(struct page *page, const struct work_bending *b)
{
	static const struct grid_column column[] = {
		{"step", N_("step"), "", true}, {"what", N_("what"), "", false},
		{"mass", N_("weight"), "kg", true}};
	const struct web_request *request = page->request;
	struct grid grid;

	page_table(
		page, &grid, "steps", _("Step by step"), column, COUNT(column));
	for (size_t i = 0; i < b->n_step; i++) {
		grid_number(&grid, (double)(i + 1),
			page_format(page, "%zu", i + 1));
		grid_text(&grid, _(lab_hung_word(b->step[i].what)));
		if (b->step[i].what == LAB_HUNG_ADDED)
			grid_number(&grid, b->step[i].mass.kg,
				page_format(page, "%g", b->step[i].mass.kg));
		else
			grid_text(&grid, NULL);
	}
	if (grid_rows(&grid) > 0)
		page_grid_folded(page, &grid);
}

static enum err_code
show_bending(const struct web_request *request, struct web_reply *reply,
	const struct work_bending *b, struct form *step, struct form *own,
	struct err *err)
{
	struct page page;

	page_start(&page, request,
		text_format(
			request->arena, "%s %s", _("Bending"), request->tail),
		PAGE_BENCH);
	page_caution(&page,
		_("Set each weight down, do not drop it. No toes under it; "
		  "goggles. Wait as long at each load, 30 s."));
	page_big(&page, _("on it now"),
		page_format(&page, "%.6g kg", b->hung.now_kg));
	page_say(&page,
		page_format(&page, "%s %g mm, %s %g kg", _("Span"),
			b->session.span_m * MILLI, _("hanger"),
			b->session.hanger_kg));
	if (b->hung.cracked)
		page_say(&page,
			page_format(&page, "%s %.6g %s %.6g kg",
				_("First crack between"), b->hung.held_kg,
				_("and"), b->hung.broke_kg));
	if (b->hung.ended)
		page_say(&page,
			_("The test has ended. Keep the result, or take the "
			  "last step back."));
	page_form(&page, step);
	if (!b->hung.ended)
		page_form(&page, own);
	add_steps(&page, b);
	page_link(&page, _("To the piece"),
		web_at(request, "/piece/", request->tail));
	return page_answer(&page, reply, err);
}

enum err_code
web_bend(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct work_bend_ask ask = {.piece = request->tail};
	struct work_bending *b = arena_take(request->arena, 1, sizeof *b);
	struct work_bench bench;
	struct form step, own;
	size_t piece;

	if (b == NULL)
		return err_memory(err);
	TRY(work_bench_read(&request->desk, request->arena, &bench, err));
	TRY(work_find_piece(&bench, request->tail, &piece, err));
	if (!bends_now(&bench, piece)) {
		reply->see_other = web_at(request, "/piece/", request->tail);
		return ERR_NONE;
	}
	TRY(work_bend_open(&request->desk, request->arena, &ask, b, err));
	fill_step(&step, request, b);
	fill_own(&own, request);
	return show_bending(request, reply, b, &step, &own, err);
}

#define AT(member) offsetof(struct work_bend_ask, member)
static const struct field bend_fields[] = {
	{"rig", FIELD_TEXT, UNIT_NUMBER, AT(rig)},
	{"loading", FIELD_TEXT, UNIT_NUMBER, AT(loading)},
	{"span", FIELD_MAYBE, UNIT_LENGTH, AT(span_m)},
	{"strap", FIELD_MAYBE, UNIT_LENGTH, AT(strap_m)},
	{"hanger", FIELD_MAYBE, UNIT_MASS, AT(hanger_kg)},
};
#undef AT

/* "10 kg, 5 kg, 2 kg" */
static bool
read_weights(const struct web_request *request, struct work_bend_ask *ask,
	struct form *form)
{
	const char *text = web_given(request, "weights");
	char *copy = text != NULL ? arena_text(request->arena, text) : NULL;

	for (char *part = copy, *next; part != NULL; part = next) {
		struct err err = err_in(request->arena);

		next = strchr(part, ',');
		if (next != NULL)
			*next++ = '\0';
		if (ask->n_weight == WORK_WEIGHTS_MOST) {
			form_fault_at(form, "weights",
				_("Up to nine weights, one a button."));
			return false;
		}
		if (unit_read(part, UNIT_MASS, NULL,
			    &ask->weight_kg[ask->n_weight++],
			    &err) != ERR_NONE) {
			form_fault_at(form, "weights", err.text);
			return false;
		}
	}
	return true;
}

static enum err_code
begin_bending(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct work_bend_ask ask = {
		.piece = request->tail, .typed = form_as_typed(request)};
	struct work_bending *b = arena_take(request->arena, 1, sizeof *b);
	struct err inner = err_in(request->arena);
	struct piece_forms forms;
	struct work_bench bench;

	if (b == NULL)
		return err_memory(err);
	TRY(work_bench_read(&request->desk, request->arena, &bench, err));
	fill_piece(&forms, request, &bench.site, request->tail);
	if (form_read(request, bend_fields, COUNT(bend_fields), &ask,
		    &forms.bend) &&
		read_weights(request, &ask, &forms.bend)) {
		if (work_bend_open(&request->desk, request->arena, &ask, b,
			    &inner) == ERR_NONE) {
			reply->see_other = web_at(
				request, "/bend/", request->tail);
			return ERR_NONE;
		}
		form_fault(&forms.bend, &inner);
	}
	return show_piece(request, reply, request->tail, &forms, err);
}

static bool
read_step(const struct web_request *request, struct lab_hung_step *step,
	struct form *form)
{
	const char *word = web_given(request, "step");
	const char *mass = web_given(request, "add");
	const char *sag = form_typed_number(request, "sag");
	struct err err = err_in(request->arena);

	*step = (struct lab_hung_step){.at_s = request->desk.now_utc_s};
	if (word != NULL) {
		if (lab_hung_find(word, &step->what))
			return true;
		form->error = _("There is no such step.");
		return false;
	}
	if (mass == NULL)
		mass = form_typed_number(request, "weight");
	step->what = mass != NULL ? LAB_HUNG_ADDED : LAB_HUNG_SAG;
	if (mass != NULL &&
		unit_read(mass, UNIT_MASS, NULL, &step->mass.kg, &err) !=
			ERR_NONE)
		form_fault_at(form, "weight", err.text);
	else if (mass == NULL && sag == NULL)
		form_fault_at(form, "weight", _("Which weight?"));
	else if (mass == NULL &&
		unit_read(sag, UNIT_LENGTH, NULL, &step->sag.m, &err) !=
			ERR_NONE)
		form_fault_at(form, "sag", err.text);
	else
		return true;
	return false;
}

static enum err_code
take_step(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct work_bend_ask ask = {.piece = request->tail};
	struct work_bending *b = arena_take(request->arena, 1, sizeof *b);
	const char *word = web_given(request, "step");
	struct err inner = err_in(request->arena);
	struct work_test_told told;
	struct lab_hung_step step;
	struct form pressed, own;

	if (b == NULL)
		return err_memory(err);
	TRY(work_bend_open(&request->desk, request->arena, &ask, b, err));
	fill_step(&pressed, request, b);
	fill_own(&own, request);
	if (word != NULL && strcmp(word, "keep") == 0) {
		TRY(work_bend_save(
			&request->desk, request->arena, b, &told, err));
		reply->see_other = text_format(request->arena, "%s?saved=1",
			web_at(request, "/piece/", request->tail));
		return reply->see_other != NULL ? ERR_NONE : err_memory(err);
	}
	if (read_step(request, &step, &own)) {
		if (work_bend_step(&request->desk, b, &step, &inner) ==
			ERR_NONE) {
			reply->see_other = own.action;
			return ERR_NONE;
		}
		form_fault(web_given(request, "step") != NULL ||
					web_given(request, "add") != NULL
				? &pressed
				: &own,
			&inner);
	}
	return show_bending(request, reply, b, &pressed, &own, err);
}

enum err_code
web_bend_post(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	const char *id = web_given(request, "form");

	return id != NULL && strcmp(id, "bend") == 0
		? begin_bending(request, reply, err)
		: take_step(request, reply, err);
}
