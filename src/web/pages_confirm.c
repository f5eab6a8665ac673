/* pages_confirm.c - the confirmation round: fresh batches of the chosen mix, what
 * they should read written down before they are made. */
#include "web/figures.h"

#include "work/confirm.h"
#include "work/fields.h"
#include "work/part.h"

#include <math.h>
#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

static const char *const verdict_words[] = {[CHOOSE_CONFIRMED_HIT] = N_("hit"),
	[CHOOSE_CONFIRMED_LOW] = N_("miss, under it"),
	[CHOOSE_CONFIRMED_HIGH] = N_("miss, over it"),
	[CHOOSE_CONFIRMED_OPEN] = N_("cannot tell")};

static void
fill_confirm(struct form *form, const struct web_request *request,
	const struct work_site *s)
{
	form_start(form, request, "confirm", "/confirm",
		_("Write down what they should read"));
	form->heading = _("Begin a round");
	form_choice(form, "part", _("For which part"), NULL);
	for (size_t i = 0; i < s->n_part && i < FORM_CHOICES_MOST; i++)
		form_choose(form, s->part[i].code, s->part[i].name);
	form_needed(form);
	form_choice(form, "mix", _("With which mix"),
		_("Empty: the one decided for the part."));
	for (size_t i = 0; i < s->n_mix && i < FORM_CHOICES_MOST; i++)
		form_choose(form, s->mix[i].code, s->mix[i].code);
	form_number(form, "batches", _("Fresh batches of each"), "",
		_("Of the mix and of the baseline; 2 unless said."));
}

/* --- Shown: nobody reads to a range, so it stays sealed until all is read. --- */

static bool
is_miss(const struct work_confirmation *c)
{
	return c->is_done &&
		(c->verdict == CHOOSE_CONFIRMED_LOW ||
			c->verdict == CHOOSE_CONFIRMED_HIGH);
}

static void
add_round(
	struct page *page, struct grid *grid, const struct work_confirmation *c)
{
	const struct web_request *request = page->request;

	grid_text(grid, c->part);
	grid_text(grid,
		c->is_baseline
			? page_format(page, "%s (%s)", c->mix, _("baseline"))
			: c->mix);
	grid_text(grid, _(choose_measure_name(c->measure)));
	grid_text(grid, choose_measure_unit(c->measure));
	grid_text(grid,
		c->is_done ? figure_range(page, c->measure, c->foretold.low,
				     c->foretold.high)
			   : _("sealed"));
	grid_text(grid,
		c->is_done ? figure_range(page, c->measure, c->mean.low,
				     c->mean.high)
			   : NULL);
	grid_text(grid,
		c->is_done
			? _(verdict_words[c->verdict])
			: page_format(page, "%s: %zu / %zu", _("batches read"),
				  c->n_tested, c->n_batch));
}

static void
add_rounds(struct page *page, const struct work_confirmation *row, size_t n)
{
	static const struct grid_column column[] = {
		{"part", N_("part"), "", false}, {"mix", N_("mix"), "", false},
		{"measure", N_("measure"), "", false},
		{"unit", N_("unit"), "", false},
		{"foretold", N_("foretold"), "", false},
		{"mean", N_("mean of the fresh ones"), "", false},
		{"came_out", N_("came out"), "", false}};
	const struct web_request *request = page->request;
	size_t n_done = 0, n_miss = 0;
	struct grid grid;

	page_table(page, &grid, "confirmations", _("Rounds"), column,
		COUNT(column));
	for (size_t i = 0; i < n; i++) {
		add_round(page, &grid, &row[i]);
		n_done += row[i].is_done && !row[i].is_baseline;
		n_miss += is_miss(&row[i]);
	}
	page_grid(page, &grid);
	if (n_done < n)
		page_say(page,
			_("A range is shown when its readings are in, so that "
			  "nobody reads to it."));
	if (n_done > 0)
		page_say(page,
			_("Where the round is done the figure of the fresh "
			  "batches replaces the first in the comparison, the "
			  "choice, the screening and the take-off; the "
			  "baseline keeps all its batches."));
	if (n_miss > 0)
		page_alarm(page,
			_("A miss: look for the cause before you buy (agent, "
			  "water, size of the batch, mixing). Of ten ranges "
			  "one is missed by chance."));
}

static enum err_code
show(const struct web_request *request, struct web_reply *reply,
	struct form *form, struct err *err)
{
	const struct work_confirmation *row = NULL;
	struct page page;
	size_t n = 0;

	TRY(work_confirmations(&request->desk, request->arena, &row, &n, err));
	page_start(&page, request, _("Fresh batches, to confirm the choice"),
		PAGE_CHOOSE);
	if (web_query(request, "saved") != NULL)
		page_done(&page,
			_("Written down and sealed. Now make the fresh batches "
			  "of the mix and of the baseline, in a new order, at "
			  "the size of batch that you will pour, with the same "
			  "lot of agent, and test them as before."),
			"/undo/last");
	page_say(&page,
		_("The best of several mixes is partly luck. Before it is "
		  "poured, make it again: what the mean of fresh batches "
		  "should read is written down before they are made. No new "
		  "mix joins the round."));
	if (n > 0)
		add_rounds(&page, row, n);
	else
		page_say(&page, _("No round was begun yet."));
	page_form(&page, form);
	page_link(&page, _("Back to the choice"), "/choose");
	return page_answer(&page, reply, err);
}

enum err_code
web_confirm(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct work_parts parts;
	struct form form;

	TRY(work_parts_read(&request->desk, request->arena, &parts, err));
	fill_confirm(&form, request, &parts.site);
	return show(request, reply, &form, err);
}

/* --- Begun. --- */

struct typed_round {
	const char *part, *mix;
	struct maybe batches;
};

#define AT(member) offsetof(struct typed_round, member)
static const struct field fields[] = {
	{"part", FIELD_TEXT, UNIT_NUMBER, AT(part)},
	{"mix", FIELD_TEXT, UNIT_NUMBER, AT(mix)},
	{"batches", FIELD_WHOLE, UNIT_NUMBER, AT(batches)},
};
#undef AT

enum err_code
web_confirm_post(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct typed_round typed = {.part = NULL};
	struct work_confirm ask = {.n_batch = WORK_CONFIRM_LEAST};
	struct err inner = err_in(request->arena);
	struct work_parts parts;
	struct form form;
	size_t n;

	TRY(work_parts_read(&request->desk, request->arena, &parts, err));
	fill_confirm(&form, request, &parts.site);
	if (!form_read(request, fields, COUNT(fields), &typed, &form))
		return show(request, reply, &form, err);
	ask.part = typed.part;
	ask.mix = typed.mix;
	if (typed.batches.has)
		ask.n_batch = typed.batches.value <= WORK_CONFIRM_MOST
			? (size_t)typed.batches.value
			: WORK_CONFIRM_MOST + 1; /* refused by the deed */
	if (ask.part == NULL)
		form_fault_at(&form, "part", _("This is needed."));
	else if (work_confirm_begin(&request->desk, request->arena, &ask, &n,
			 &inner) == ERR_NONE) {
		reply->see_other = "/confirm?saved=1";
		return ERR_NONE;
	} else {
		form_fault(&form, &inner);
	}
	return show(request, reply, &form, err);
}
