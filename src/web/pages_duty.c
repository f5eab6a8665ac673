/* pages_duty.c - the duty sheet: what each part must do, one page to print and
 * fill in before any test. */
#include "web/figures.h"

#include "work/part.h"

#include <string.h>

enum { MILLI = 1000, KILO = 1000 };

static const char blank[] = "________";
static const char tick_box[] = "[ ]";

static const struct grid_column columns[] = {
	{"must", N_("what it must do"), "", false},
	{"measured", N_("measured"), "", false}, {"met", N_("met"), "", false},
	{"source", N_("source"), "", false}};

static void
start_table(struct page *page, struct grid *grid, const char *key,
	const char *caption)
{
	page_table(page, grid, key, caption, columns,
		sizeof columns / sizeof columns[0]);
}

static void
add_line(struct page *page, struct grid *grid, const char *measure,
	bool is_least, double value, const char *source)
{
	const struct web_request *request = page->request;
	const char *bound = is_least ? _("at least") : _("at most");
	enum choose_measure m;

	if (choose_measure_find(measure, &m))
		grid_text(grid,
			page_format(page, "%s %s %s %s",
				_(choose_measure_name(m)), bound,
				figure_text(page, m, value),
				choose_measure_unit(m)));
	else
		grid_text(grid, measure);
	grid_text(grid, blank);
	grid_text(grid, tick_box);
	grid_text(grid, source[0] != '\0' ? _(source) : _("not said"));
}

static void
add_size(struct page *page, struct text *text, const char *word,
	struct maybe value, double factor, const char *unit)
{
	text_addf(text, "%s%s %s %s", text->n > 0 ? ", " : "", word,
		value.has ? page_format(page, "%.4g", value.value * factor)
			  : "____",
		unit);
}

/* "length 22 m, height or width 2.4 m, thickness 200 mm"; blanks for what is
 * not known. */
static const char *
sizes(struct page *page, const struct book_part *part)
{
	const struct web_request *request = page->request;
	struct text text;

	text_init(&text, request->arena);
	add_size(page, &text, _("length"), part->length_m, 1, "m");
	add_size(page, &text, _("height or width"), part->height_m, 1, "m");
	add_size(page, &text, _("thickness"), part->thickness_m, MILLI, "mm");
	if (part->openings_m2.has)
		add_size(
			page, &text, _("openings"), part->openings_m2, 1, "m2");
	page->failed |= text_failed(&text);
	return text_failed(&text) ? "" : text.bytes;
}

static void
add_load(struct page *page, struct text *text, const char *word,
	struct maybe value, const char *unit)
{
	if (value.has)
		text_addf(text, "%s%s %s %s", text->n > 0 ? ", " : "", word,
			unit_digits(
				page->request->arena, value.value / KILO, 3),
			unit);
}

static const char *
bears(struct page *page, const struct book_part_use *use)
{
	const struct web_request *request = page->request;
	struct text text;

	text_init(&text, request->arena);
	add_load(page, &text, _("load"), use->load_n_m, "kN/m");
	add_load(page, &text, _("load"), use->area_load_pa, "kN/m2");
	add_load(page, &text, _("wind"), use->wind_pa, "kN/m2");
	add_load(page, &text, _("one foot"), use->point_load_n, "kN");
	page->failed |= text_failed(&text);
	if (text_failed(&text) || text.n == 0)
		return page_format(
			page, "%s (%s)", blank, _("people, snow, wind, feet"));
	return text.bytes;
}

/* Under the table of a part: what it is, and a line to fill in. */
static void
say_part(struct page *page, const struct book_part *part,
	const struct book_part_use *use)
{
	const struct web_request *request = page->request;
	const struct work_usual_form *form = work_usual_form_of(
		work_usual_form(use));

	page_say(page,
		page_format(page, "%s; %s. %s %s. %s: %s. %s: %s %s %s %s",
			_(form->words), sizes(page, part), _("It bears"),
			bears(page, use), _("Mostly decided by"),
			_(form->governs), _("What it gets"), _("mix"), blank,
			_("decided on"), blank));
}

static void
add_part(struct page *page, const struct work_parts *parts,
	const struct book_part *part)
{
	const struct web_request *request = page->request;
	const struct work_site *s = &parts->site;
	const struct book_part_use use = work_part_use(parts, part);
	struct grid grid;

	start_table(page, &grid, part->code,
		page_format(page, "%s: %s", part->code, part->name));
	for (size_t i = 0; i < s->n_requirement; i++) {
		const struct book_requirement *r = &s->requirement[i];

		if (r->part_id == part->row.id)
			add_line(page, &grid, r->measure,
				strcmp(r->bound, "least") == 0, r->value,
				r->source);
	}
	if (grid_rows(&grid) > 0)
		page_grid(page, &grid);
	else
		page_say(page,
			page_format(page, "%s: %s", part->code,
				_("nothing is asked of it yet")));
	say_part(page, part, &use);
}

/* Before any part is in the book: the usual of floor, wall and roof. */
static void
add_blank(struct page *page, const char *form, const struct work_usual *usual,
	size_t n)
{
	const struct web_request *request = page->request;
	const struct book_part part = {.code = ""};
	const struct book_part_use use = {.form = form};
	struct grid grid;

	start_table(page, &grid, form, _(work_usual_form_of(form)->words));
	for (size_t i = 0; i < n; i++)
		if (usual[i].is_asked && strcmp(usual[i].form, form) == 0)
			add_line(page, &grid, usual[i].measure,
				usual[i].is_least, usual[i].value,
				usual[i].source);
	page_grid(page, &grid);
	say_part(page, &part, &use);
}

enum err_code
web_duty(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	static const char *const form[] = {"floor", "wall", "roof"};
	const struct work_usual *usual;
	struct work_parts parts;
	struct page page;
	size_t n;

	TRY(work_parts_read(&request->desk, request->arena, &parts, err));
	TRY(work_usual_read(&request->desk, request->arena, &usual, &n, err));
	page_start(&page, request, _("Duty sheet: what each part must do"),
		PAGE_BUILDING);
	page_caution(&page,
		_("This screens. A licensed engineer and the local code decide "
		  "what may be built."));
	page_say(&page,
		_("Print it and fill it in before the first test: a test "
		  "counts for what is asked here, not the other way round."));
	for (size_t i = 0; i < parts.site.n_part; i++)
		add_part(&page, &parts, &parts.site.part[i]);
	for (size_t i = 0; parts.site.n_part == 0 && i < 3; i++)
		add_blank(&page, form[i], usual, n);
	page_say(&page,
		_("For an engineer in any case: whatever spans or stands over "
		  "people, walls over 2.7 m a storey, earthquake, soil or "
		  "water against it."));
	page_link(&page, _("What each kind of part is usually asked"),
		"/usual");
	return page_answer(&page, reply, err);
}
