/* page_html.c - the blocks of a page turned into the views of src/web/page, and
 * the page around them: navigation, languages, doors. */
#include "web/page_priv.h"

#include "core/beside.h"
#include "web/assets.h"
#include "web/html.h"
#include "web/plain.h"
#include "web/view.h"

#include <string.h>

enum {
	BRIEF_BYTES = 12,
	LENGTHY_BYTES = 48,
	FEW_CHOICES = 6,
	/* of a table on a phone of 360 px, about, as site.css sets it where
	 * letters are large */
	PHONE_PX = 328,
	LETTER_PX = 11,
	BETWEEN_PX = 11,
	WORDS_PX = 108,
	LENGTHY_PX = 144,
	STACKED_CELLS_MOST = 160 /* nobody reads more one below the other */
};

/* Figures with the other units beside them, for who asked for that. */
static const char *
both(const struct web_request *request, const char *text)
{
	const char *shown;

	if (!request->both_units || text == NULL)
		return text;
	shown = beside_text(request->arena, text, request->desk.gallon);
	return shown != NULL ? shown : text;
}

static const char *
both_unit(const struct web_request *request, const char *unit)
{
	const char *other = request->both_units
		? beside_unit(unit, request->desk.gallon)
		: NULL;
	const char *shown = other != NULL
		? text_format(request->arena, "%s (%s)", unit, other)
		: NULL;

	return shown != NULL ? shown : unit;
}

static const char *
both_figures(
	const struct web_request *request, const char *text, const char *unit)
{
	const char *other = NULL, *shown = NULL;

	if (!request->both_units || text == NULL)
		return text;
	if (unit[0] == '\0')
		return both(request, text);
	other = beside_figures(
		request->arena, text, unit, request->desk.gallon);
	if (other != NULL)
		shown = text_format(request->arena, "%s (%s)", text, other);
	return shown != NULL ? shown : text;
}

static const char *
head_unit(const struct web_request *request, const struct grid_column *column)
{
	return column->unit[0] != '\0'
		? plain_signs(request->arena, both_unit(request, column->unit))
		: NULL;
}

/* What stands before each cell of a row that is stacked; NULL where memory ran
 * out. */
static const char **
stacked_headings(const struct web_request *request, const struct grid *grid)
{
	const char **heading = arena_take(
		request->arena, grid->n_column, sizeof *heading);

	for (size_t i = 0; heading != NULL && i < grid->n_column; i++) {
		const struct grid_column *column = &grid->column[i];
		const char *name = plain_signs(request->arena, column->heading);
		const char *unit = head_unit(request, column);

		heading[i] = unit == NULL
			? name
			: text_format(request->arena, "%s, %s", name, unit);
		if (heading[i] == NULL)
			return NULL;
	}
	return heading;
}

static size_t
longest_word(const char *text)
{
	size_t most = 0;

	while (*text != '\0') {
		size_t n = strcspn(text, " ");

		most = n > most ? n : most;
		text += n + (text[n] == ' ');
	}
	return most;
}

static size_t
column_px(const struct grid *grid, size_t i)
{
	size_t px = LETTER_PX * longest_word(grid->column[i].heading);

	for (size_t at = i; at < grid->n_cell; at += grid->n_column) {
		const char *text = grid->cell[at].text;
		size_t n = text != NULL ? strlen(text) : 1, wanted;

		if (i > 0 && (n <= BRIEF_BYTES || grid->column[i].is_number))
			wanted = LETTER_PX * n;
		else
			wanted = n > LENGTHY_BYTES ? LENGTHY_PX : WORDS_PX;
		px = wanted > px ? wanted : px;
	}
	return px + BETWEEN_PX;
}

/* Wider than a phone, and not so long that nobody would read its cells one below
 * the other. */
static bool
is_stacked(const struct grid *grid)
{
	size_t px = 0;

	for (size_t i = 0; i < grid->n_column; i++)
		px += column_px(grid, i);
	return px > PHONE_PX && grid->n_cell <= STACKED_CELLS_MOST;
}

static bool
view_cells(const struct web_request *request, const struct grid *grid,
	size_t row, const char *const *heading, struct view_row *view)
{
	struct view_cell *cell = arena_take(
		request->arena, grid->n_column, sizeof *cell);

	if (cell == NULL)
		return false;
	for (size_t i = 0; i < grid->n_column; i++) {
		const struct grid_cell *from =
			&grid->cell[row * grid->n_column + i];

		cell[i] = (struct view_cell){
			.text = both_figures(
				request, from->text, grid->column[i].unit),
			.address = from->address,
			.picture = from->picture,
			.heading = heading != NULL ? heading[i] : NULL,
			.head = i == 0 && from->text != NULL,
			.number = grid->column[i].is_number,
			.missing = from->text == NULL,
			.empty = from->text == NULL || from->text[0] == '\0',
			.brief = from->text != NULL &&
				strlen(from->text) <= BRIEF_BYTES,
			.lengthy = from->text != NULL &&
				strlen(from->text) > LENGTHY_BYTES};
	}
	*view = (struct view_row){.cells = cell, .n_cells = grid->n_column};
	return true;
}

static const char *
twin_address(const struct web_request *request, const char *suffix,
	const char *table)
{
	struct text text;
	struct html html = {.text = &text, .language = request->language};
	char join = '?';

	text_init(&text, request->arena);
	text_add(&text,
		strcmp(request->path, "/") == 0 ? "/today"
			: request->tail[0] != '\0'
			? web_at(request, request->path, request->tail)
			: request->path);
	text_add(&text, suffix);
	for (size_t i = 0; i < request->n_query; i++, join = '&') {
		text_add_char(&text, join);
		html_address_part(&html, request->query[i].name);
		text_add_char(&text, '=');
		html_address_part(&html, request->query[i].value);
	}
	if (table != NULL)
		text_addf(&text, "%ctable=%s", join, table);
	return text_failed(&text) ? NULL : text.bytes;
}

static bool
view_grid(const struct web_request *request, const struct page_block *block,
	struct view_grid *view)
{
	const struct grid *grid = block->grid;
	struct view_head *head = arena_take(
		request->arena, grid->n_column, sizeof *head);
	size_t n_row = grid_rows(grid);
	struct view_row *row = arena_take(request->arena, n_row, sizeof *row);
	bool stacks = is_stacked(grid);
	const char **heading = stacks ? stacked_headings(request, grid) : NULL;

	if (head == NULL || row == NULL || (stacks && heading == NULL))
		return false;
	for (size_t i = 0; i < grid->n_column; i++)
		head[i] = (struct view_head){.text = plain_signs(request->arena,
						     grid->column[i].heading),
			.unit = head_unit(request, &grid->column[i]),
			.number = grid->column[i].is_number};
	for (size_t i = 0; i < n_row; i++)
		if (!view_cells(request, grid, i, heading, &row[i]))
			return false;
	*view = (struct view_grid){.caption = grid->caption,
		.folded = block->folded,
		.stacks = stacks,
		.heads = head,
		.n_heads = grid->n_column,
		.rows = row,
		.n_rows = n_row};
	return true;
}

/* Name, figure and note of each row; the figure with its column's unit. */
static bool
view_ticks(const struct web_request *request, const struct grid *grid,
	struct view_ticks *view)
{
	struct arena *arena = request->arena;
	size_t n = grid_rows(grid);
	struct view_item *item = arena_take(arena, n, sizeof *item);

	if (item == NULL)
		return false;
	for (size_t i = 0; i < n; i++) {
		const struct grid_cell *cell = &grid->cell[i * grid->n_column];

		item[i] = (struct view_item){.name = cell[0].text,
			.id = text_format(arena, "tick-%s-%zu", grid->key, i),
			.figure = both(request,
				text_format(arena, "%s %s", cell[1].text,
					grid->column[1].unit)),
			.note = both(request, cell[2].text)};
		if (item[i].id == NULL || item[i].figure == NULL)
			return false;
	}
	*view = (struct view_ticks){
		.caption = grid->caption, .items = item, .n_items = n};
	return true;
}

/* Marking with its picture, and two lines. */
static bool
view_labels(
	struct arena *arena, const struct grid *grid, struct view_labels *view)
{
	size_t n = grid_rows(grid);
	struct view_item *item = arena_take(arena, n, sizeof *item);

	if (item == NULL)
		return false;
	for (size_t i = 0; i < n; i++) {
		const struct grid_cell *cell = &grid->cell[i * grid->n_column];

		item[i] = (struct view_item){.name = cell[0].text,
			.picture = cell[0].picture,
			.alt = text_format(arena, "QR %s", cell[0].text),
			.figure = cell[1].text,
			.note = cell[2].text};
		if (item[i].alt == NULL)
			return false;
	}
	*view = (struct view_labels){.items = item, .n_items = n};
	return true;
}

static bool
view_choices(struct arena *arena, const struct form_field *field,
	const char *chosen, const char *id, struct view_field *view)
{
	struct view_choice *choice = arena_take(
		arena, field->n_choice, sizeof *choice);

	if (choice == NULL)
		return false;
	for (size_t i = 0; i < field->n_choice; i++) {
		choice[i] = (struct view_choice){
			.value = field->choice[i].value,
			.label = plain_signs(arena, field->choice[i].label),
			.id = text_format(arena, "%s-%zu", id, i),
			.chosen = chosen != NULL &&
				strcmp(chosen, field->choice[i].value) == 0};
		if (choice[i].id == NULL)
			return false;
	}
	view->choices = choice;
	view->n_choices = field->n_choice;
	return true;
}

static bool
view_field(const struct web_request *request, const struct form *form,
	const struct form_field *field, struct view_field *view)
{
	struct arena *arena = request->arena;
	const char *id = text_format(arena, "%s-%s", form->id, field->name);
	bool few = field->kind == FORM_CHOICE && !field->listed &&
		field->n_choice <= FEW_CHOICES;
	const char *hint = field->kind == FORM_CHOICE && field->n_choice == 0
		? words(form->request->language,
			  N_("Nothing to choose from yet."))
		: field->hint;

	if (id == NULL)
		return false;
	*view = (struct view_field){.name = field->name,
		.id = id,
		.label = plain_signs(arena, field->label),
		.hint = plain_signs(arena, both(request, hint)),
		.hint_id = text_format(arena, "%s-hint", id),
		.error = field->error,
		.error_id = text_format(arena, "%s-error", id),
		.link = text_format(arena, "#%s", id),
		.value = field->value,
		.text = field->kind == FORM_TEXT || field->kind == FORM_DATE,
		.number = field->kind == FORM_NUMBER,
		.lines = field->kind == FORM_LONG,
		.few = few,
		.many = field->kind == FORM_CHOICE && !few,
		.yes = field->kind == FORM_YES,
		.file = field->kind == FORM_FILE,
		.hidden = field->kind == FORM_HIDDEN,
		.several = field->many,
		.photo = field->photo,
		.camera = field->camera,
		.listed = field->listed,
		.needed = field->needed,
		.timed = field->timed,
		.ticked = field->kind == FORM_YES && field->value != NULL};
	view->described = text_format(arena, "%s%s%s",
		hint != NULL ? view->hint_id : "",
		hint != NULL && field->error != NULL ? " " : "",
		field->error != NULL ? view->error_id : "");
	if (view->described == NULL || view->link == NULL)
		return false;
	if (view->described[0] == '\0')
		view->described = NULL;
	if (view->number && field->n_choice > 0)
		view->unit_name = text_format(arena, "%s_unit", field->name);
	return view_choices(arena, field,
		view->number ? field->chosen_unit : field->value, id, view);
}

/* The fields in the groups that they began; one without a fold at least. */
static bool
view_groups(struct arena *arena, const struct form *form,
	const struct view_field *field, struct view_form *view)
{
	struct view_group *group = arena_take(
		arena, form->n_field + 1, sizeof *group);
	size_t n = 0;

	if (group == NULL)
		return false;
	for (size_t i = 0; i < form->n_field; i++) {
		const struct form_field *f = form->field[i];

		if (n == 0 || f->group != NULL)
			group[n++] = (struct view_group){
				.folded = f->group != NULL &&
						f->group[0] != '\0'
					? f->group
					: NULL,
				.fields = &field[i]};
		group[n - 1].n_fields++;
		group[n - 1].open |= f->value != NULL || f->error != NULL;
	}
	view->groups = group;
	view->n_groups = n;
	return true;
}

static bool
view_form(const struct page *page, const struct form *form,
	struct view_form *view)
{
	struct arena *arena = page->request->arena;
	struct view_field *field = arena_take(
		arena, form->n_field, sizeof *field);
	struct view_button *button = arena_take(
		arena, form->n_pressed, sizeof *button);

	if (field == NULL || button == NULL)
		return false;
	for (size_t i = 0; i < form->n_pressed; i++)
		button[i] = (struct view_button){form->pressed[i].name,
			form->pressed[i].value, form->pressed[i].label};
	for (size_t i = 0; i < form->n_field; i++)
		if (!view_field(page->request, form, form->field[i], &field[i]))
			return false;
	*view = (struct view_form){.id = form->id,
		.action = form->action,
		.button = form->button,
		.heading = form->heading,
		.error = form->error,
		.kind = form->gets      ? "asks"
			: form->carries ? "sends"
					: "records",
		.files = form->takes_files,
		.gets = form->gets,
		.live = form->live,
		.faults = form_has_fault(form),
		.folded = form->folded && form->heading != NULL &&
			!form_has_fault(form),
		.fields = field,
		.n_fields = form->n_field,
		.buttons = button,
		.n_buttons = form->n_pressed};
	return view_groups(arena, form, field, view);
}

static bool
view_block(const struct page *page, const struct page_block *block,
	struct view_block *view)
{
	*view = (struct view_block){.heading = NULL};
	switch (block->kind) {
	case BLOCK_HEADING:
		view->heading = block->text;
		break;
	case BLOCK_SAY:
		view->say = both(page->request, block->text);
		break;
	case BLOCK_BIG:
		view->label = block->text;
		view->figure = both(page->request, block->second);
		break;
	case BLOCK_CAUTION:
		view->caution = both(page->request, block->text);
		break;
	case BLOCK_ALARM:
		view->alarm = both(page->request, block->text);
		break;
	case BLOCK_LINK:
		view->words = block->text;
		view->address = block->second;
		break;
	case BLOCK_DONE:
		view->done = both(page->request, block->text);
		view->undo = block->second;
		break;
	case BLOCK_PHOTO:
		view->words = block->text;
		view->whole = block->second;
		view->photo = block->third;
		break;
	case BLOCK_CHART:
		view->words = block->text;
		view->picture = block->second;
		view->narrow = text_format(page->request->arena,
			"%s%cwidth=340", block->second,
			strchr(block->second, '?') != NULL ? '&' : '?');
		return view->narrow != NULL;
	case BLOCK_GRID:
		view->has_grid = true;
		return view_grid(page->request, block, &view->grid);
	case BLOCK_LABELS:
		view->has_labels = true;
		return view_labels(
			page->request->arena, block->grid, &view->labels);
	case BLOCK_TICKS:
		view->has_ticks = true;
		return view_ticks(page->request, block->grid, &view->ticks);
	case BLOCK_FORM:
		view->has_form = true;
		return view_form(page, block->form, &view->form);
	}
	return true;
}

/* The navigation, along the flow; a place in the list is a page_section. */
static const struct {
	const char *english, *address;
} sections[] = {
	{N_("Today"), "/today"},
	{N_("Materials"), "/materials"},
	{N_("Mixes"), "/mixes"},
	{N_("Trial"), "/trial"},
	{N_("Mixer"), "/mixer"},
	{N_("Bench"), "/bench"},
	{N_("Results"), "/results"},
	{N_("Compare"), "/compare"},
	{N_("Choose"), "/choose"},
	{N_("Building"), "/building"},
	{N_("Pour"), "/pour"},
	{N_("Watch"), "/watch"},
	{N_("Record"), "/record"},
	{N_("Words"), "/words"},
};

enum { N_SECTION = sizeof sections / sizeof sections[0] };

static bool
view_sections(const struct page *page, struct view_layout *view)
{
	const struct web_request *request = page->request;
	struct view_link *link = arena_take(
		request->arena, N_SECTION, sizeof *link);

	if (link == NULL)
		return false;
	for (size_t i = 0; i < N_SECTION; i++)
		link[i] = (struct view_link){
			.words = words(request->language, sections[i].english),
			.address = sections[i].address,
			.here = i == (size_t)page->section};
	view->sections = link;
	view->n_sections = page->section == PAGE_NOWHERE ? 0 : N_SECTION;
	return true;
}

/* An address that leads back here once it has done its own. */
static const char *
and_back(const struct web_request *request, const char *address)
{
	const char *here = twin_address(request, "", NULL);
	struct text text;
	struct html html = {.text = &text, .language = request->language};

	text_init(&text, request->arena);
	text_addf(&text, "%s?back=", address);
	html_address_part(&html, here);
	return text_failed(&text) || here == NULL ? NULL : text.bytes;
}

static bool
view_languages(const struct page *page, struct view_layout *view)
{
	struct arena *arena = page->request->arena;
	size_t n = 0;
	struct view_link *link;

	while (words_language_at(n) != NULL)
		n++;
	link = arena_take(arena, n, sizeof *link);
	if (link == NULL)
		return false;
	for (size_t i = 0; i < n; i++) {
		const char *language = words_language_at(i);
		const char *own = text_format(arena, "/language/%s", language);

		if (own == NULL)
			return false;
		link[i] = (struct view_link){
			.words = words_language_name(language),
			.address = and_back(page->request, own),
			.here = strcmp(language, page->request->language) == 0};
	}
	view->languages = link;
	view->n_languages = n > 1 ? n : 0;
	return true;
}

/* Over the network: for another phone, and to leave. */
static bool
view_doors(const struct page *page, struct view_layout *view)
{
	const struct web_request *request = page->request;
	struct view_link *link = arena_take(request->arena, 2, sizeof *link);

	if (link == NULL)
		return false;
	view->doors = link;
	if (request->home == NULL || page->section == PAGE_NOWHERE)
		return true;
	if (request->may_record)
		link[view->n_doors++] = (struct view_link){
			.words = _("Let a phone join"), .address = "/pair"};
	link[view->n_doors++] = (struct view_link){
		.words = _("Sign out"), .address = "/sign-out"};
	return true;
}

static bool
view_page(const struct page *page, struct view_layout *view)
{
	const struct web_request *request = page->request;
	struct view_block *block = arena_take(
		request->arena, page->n_block, sizeof *block);

	if (block == NULL)
		return false;
	*view = (struct view_layout){.language = request->language,
		.title = page->title,
		.book = _("The book"),
		.script = web_asset_script,
		.body = page->field ? "site" : "desk",
		.field = page->field,
		.blocks = block,
		.n_blocks = page->n_block};
	for (size_t i = 0; i < page->n_block; i++) {
		if (!view_block(page, &page->block[i], &block[i]))
			return false;
		view->has_faults |= block[i].has_form && block[i].form.faults;
		view->has_table |= page->block[i].grid != NULL;
	}
	view->tab = text_format(request->arena, "%s%s - Foamwright",
		view->has_faults ? _("Not yet: ") : "", page->title);
	if (page->refresh_s > 0)
		view->refresh = text_format(
			request->arena, "%u", page->refresh_s);
	if (page->section != PAGE_NOWHERE) {
		view->units = request->both_units
			? _("Metric units alone")
			: _("US units beside the metric ones");
		view->units_address = and_back(request,
			request->both_units ? "/units/metric" : "/units/both");
	}
	if (page->section < PAGE_ELSEWHERE && request->method == WEB_GET) {
		view->json = twin_address(request, ".json", NULL);
		view->csv = twin_address(request, ".csv", NULL);
	}
	return view->tab != NULL && view_sections(page, view) &&
		view_doors(page, view) && view_languages(page, view);
}

enum err_code
page_answer_html(
	const struct page *page, struct web_reply *reply, struct err *err)
{
	struct view_layout view;
	struct html html = {
		.text = &reply->body, .language = page->request->language};

	if (page->failed || !view_page(page, &view))
		return err_memory(err);
	write_layout(&html, &view);
	return text_failed(&reply->body) ? err_memory(err) : ERR_NONE;
}
