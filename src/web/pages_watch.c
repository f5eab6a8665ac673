/* pages_watch.c - foam, wet weight, settling and surviving foam over all
 * batches. */
#include "web/page.h"

#include "draw/control.h"
#include "web/chart.h"
#include "work/watch.h"

#include <math.h>
#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

static const char *
label_of(struct page *page, const struct work_watch *all,
	const struct work_watch_point *p)
{
	return page_format(page, "%s%s%s", all->m.site.batch[p->batch].code,
		p->moment[0] != '\0' ? " " : "",
		words(page->request->language, p->moment));
}

static void
add_points(struct page *page, const struct work_watch *all,
	const struct work_watched *w)
{
	const struct web_request *request = page->request;
	struct grid_column column[] = {{"batch", N_("batch"), "", false},
		{"value", N_("value"), "", true}};
	double factor = work_watch_factor(w->quantity);
	struct grid grid;

	column[1].unit = work_watch_unit(w->quantity);
	page_table(page, &grid, work_watch_word(w->quantity),
		_(work_watch_name(w->quantity)), column, COUNT(column));
	for (size_t i = 0; i < w->n_point; i++) {
		grid_text(&grid, label_of(page, all, &w->point[i]));
		grid_number(&grid, w->point[i].value * factor,
			page_format(page, "%.1f", w->point[i].value * factor));
	}
	page_grid_folded(page, &grid);
}

static void
add_alarm(struct page *page, const struct work_watch *all,
	const struct work_watch_alarm *alarm)
{
	const struct web_request *request = page->request;
	struct text text;

	text_init(&text, request->arena);
	text_addf(&text, "%s %s ", alarm->sentence, _("Batches touched:"));
	for (size_t i = 0; i < alarm->n_touched; i++)
		text_addf(&text, "%s%s", i > 0 ? ", " : "",
			all->m.site.batch[alarm->touched[i]].code);
	text_addf(&text, ". %s", alarm->check);
	if (text_failed(&text))
		page->failed = true;
	else if (alarm->lasts)
		page_alarm(page, text.bytes);
	else
		page_say(page, text.bytes);
}

/* What has no reading yet, of a batch or between batches, in one sentence. */
static void
say_unrecorded(struct page *page, const struct work_watch *all)
{
	const struct web_request *request = page->request;
	struct text text;

	text_init(&text, request->arena);
	for (size_t i = 0; i < COUNT(all->watched); i++)
		if (all->watched[i].n_point == 0)
			text_addf(&text, "%s%s", text.n > 0 ? ", " : "",
				_(work_watch_name(all->watched[i].quantity)));
	page->failed |= text_failed(&text);
	if (text.n > 0)
		page_say(page,
			page_format(page, "%s: %s.",
				_("No readings yet"),
				text.bytes));
}

enum err_code
web_watch(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct work_watch all;
	struct page page;

	TRY(work_watch(&request->desk, request->arena, &all, err));
	page_start(&page, request, _("The same batch again and again"),
		PAGE_WATCH);
	page_say(&page,
		_("Weigh the foam and the finished mix of every batch, and "
		  "look at its height the next day: here it shows when "
		  "something moves."));
	for (size_t i = 0; i < COUNT(all.watched); i++) {
		const struct work_watched *w = &all.watched[i];
		const char *word = work_watch_word(w->quantity);

		if (w->n_point == 0)
			continue;
		page_heading(&page, _(work_watch_name(w->quantity)));
		page_say(&page, w->sentence);
		for (size_t k = 0; k < w->n_alarm; k++)
			add_alarm(&page, &all, &w->alarm[k]);
		page_chart(&page,
			page_format(&page, "/chart/watch/%s.svg", word),
			page_format(&page, "%s: %s",
				_(work_watch_name(w->quantity)),
				_("batch by batch with its usual range; the "
				  "figures stand in the table below")));
		add_points(&page, &all, w);
	}
	say_unrecorded(&page, &all);
	for (size_t i = 0; i < all.n_lot_change; i++)
		page_say(&page, all.lot_change[i]);
	page_link(&page, _("The rules that warn"), "/warnings");
	return page_answer(&page, reply, err);
}

static const struct work_watched *
find_watched(const struct work_watch *all, const char *word)
{
	for (size_t i = 0; i < COUNT(all->watched); i++)
		if (strcmp(work_watch_word(all->watched[i].quantity), word) ==
			0)
			return &all->watched[i];
	return NULL;
}

static void
mark_alarms(const struct web_request *request, const struct work_watched *w,
	struct draw_control_point *point, struct draw_control *chart)
{
	for (size_t i = 0; i < w->n_alarm; i++) {
		const struct work_watch_alarm *a = &w->alarm[i];

		if (a->signal < w->n_point)
			point[a->signal].rule = _("outside the usual range");
		if (a->lasts) {
			chart->has_drift = true;
			chart->drift_since = a->first;
		}
	}
}

enum err_code
web_chart_watch(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct work_watch all;
	const struct work_watched *w;
	struct draw_control_point *point;
	struct draw_control chart = {.x_name = _("batch")};
	struct page page;
	double factor;

	TRY(work_watch(&request->desk, request->arena, &all, err));
	w = find_watched(&all, request->tail);
	if (w == NULL)
		return err_report(err, ERR_NOT_FOUND, "",
			"There is no chart of \"%.40s\".", request->tail);
	page_start(&page, request, "", PAGE_WATCH);
	factor = work_watch_factor(w->quantity);
	point = arena_take(request->arena, w->n_point, sizeof *point);
	if (point == NULL)
		return err_memory(err);
	for (size_t i = 0; i < w->n_point; i++)
		point[i] = (struct draw_control_point){
			.label = label_of(&page, &all, &w->point[i]),
			.value = w->point[i].value * factor};
	chart.about = (struct draw_about){
		.id = "watch", .title = _(work_watch_name(w->quantity))};
	chart.y = (struct draw_axis){.name = _(work_watch_name(w->quantity)),
		.unit = work_watch_unit(w->quantity)};
	chart.point = point;
	chart.n_point = w->n_point;
	chart.has_range = w->has_limits;
	chart.centre = w->centre * factor;
	chart.low = w->low * factor;
	chart.high = w->high * factor;
	chart.centre_word = _("middle");
	chart.usual_word = _("usual range");
	chart.drift_word = _("since here it has moved");
	chart.outside_word = _("outside the usual range");
	chart.empty_word = _("Nothing was recorded yet.");
	mark_alarms(request, w, point, &chart);
	return chart_answer(request, reply,
		draw_control(&chart, chart_size(request), &reply->body, err));
}
