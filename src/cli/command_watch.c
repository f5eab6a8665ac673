/* command_watch.c - the charts over all batches, in words. */
#include "cli/command.h"
#include "cli/table.h"

#include "work/shelf.h"
#include "work/watch.h"
#include "work/warn.h"

#include <string.h>

static void
print_alarm(const struct invocation *in, const struct work_watch *all,
	const struct work_watch_alarm *alarm)
{
	struct text text;

	text_init(&text, in->arena);
	text_add(&text, alarm->sentence);
	text_add(&text,
		alarm->n_touched > 1 ? " Batches touched: "
				     : " Batch touched: ");
	for (size_t i = 0; i < alarm->n_touched; i++)
		text_addf(&text, "%s%s", i > 0 ? ", " : "",
			all->m.site.batch[alarm->touched[i]].code);
	text_addf(&text, ".%s%s", alarm->check[0] != '\0' ? " " : "",
		alarm->check);
	if (!text_failed(&text))
		print_folded(stdout, 2, text.bytes);
}

/* The readings in a row, oldest first; a stroke where a lot began. */
static void
print_points(const struct invocation *in, const struct work_watched *w)
{
	double factor = work_watch_factor(w->quantity);
	size_t from = w->n_point > 12 ? w->n_point - 12 : 0;

	struct text row;

	text_init(&row, in->arena);
	for (size_t i = from; i < w->n_point; i++)
		text_addf(&row, "%s%s%.1f", i > from ? "  " : "",
			w->point[i].new_lot ? "| " : "",
			w->point[i].value * factor);
	text_addf(&row, " %s%s", work_watch_unit(w->quantity),
		from > 0 ? " (the last twelve)" : "");
	if (!text_failed(&row))
		print_folded(stdout, 2, row.bytes);
}

static bool
is_on_now(const struct work_watched *w)
{
	return w->n_alarm > 0 && w->alarm[w->n_alarm - 1].lasts;
}

static void
print_watched(const struct invocation *in, const struct work_watch *all,
	const struct work_watched *w)
{
	(void)printf("%s %s: ",
		is_on_now(w)            ? "[!]"
			: w->has_limits ? "[ok]"
					: "[ ]",
		work_watch_name(w->quantity));
	(void)printf("%s\n", w->sentence);
	if (w->n_point > 0)
		print_points(in, w);
	for (size_t i = 0; i < w->n_alarm; i++)
		print_alarm(in, all, &w->alarm[i]);
}

static const char *
in_n_mm2(const struct invocation *in, double pa)
{
	return unit_digits(in->arena, pa / 1e6, 3);
}

static void
print_lot(const struct invocation *in, const struct work_watch *all,
	const struct work_watch_lot *lot)
{
	struct text row;

	print_folded(stdout, 2, lot->sentence);
	text_init(&row, in->arena);
	for (size_t i = 0; i < lot->n; i++)
		text_addf(&row, "%s%s %s", i > 0 ? ", " : "",
			all->m.site.batch[lot->batch[i]].code,
			in_n_mm2(in, lot->strength_Pa[i]));
	for (size_t i = 0; i < lot->n_running; i++)
		text_addf(&row, "%s%s", i > 0 ? ", " : "; means of three ",
			in_n_mm2(in, lot->running_Pa[i]));
	if (!text_failed(&row))
		print_folded(stdout, 4, row.bytes);
	for (int c = 0; lot->has_required && c < CONTROL_CRITERION_COUNT; c++) {
		const struct control_accepted *a = &lot->accepted[c];

		if (a->applies)
			print_folded(stdout, 4,
				text_format(in->arena, "%s: %s%s",
					control_criterion_says(
						(enum control_criterion)c),
					a->is_met ? "met" : "not met",
					a->has_teeth
						? ""
						: ", but its margin was set "
						  "for stronger concrete and "
						  "says little here"));
	}
}

static void
print_lots(const struct invocation *in, const struct work_watch *all)
{
	if (all->n_lot == 0)
		return;
	(void)puts("Strength by lots, one a mix:");
	for (size_t i = 0; i < all->n_lot; i++)
		print_lot(in, all, &all->lot[i]);
}

static void
json_lot(struct jsonout *json, const struct work_watch *all,
	const struct work_watch_lot *lot)
{
	jsonout_open_object(json);
	jsonout_key_string(json, "mix", all->m.site.mix[lot->mix].code);
	jsonout_key_string(json, "measure", choose_measure_word(lot->measure));
	jsonout_key_count(json, "batches", lot->n);
	if (lot->has_value)
		jsonout_key_quantity(
			json, "characteristic", lot->value_Pa, "Pa");
	jsonout_key(json, "running_mean");
	jsonout_open_array(json);
	for (size_t i = 0; i < lot->n_running; i++)
		jsonout_number(json, lot->running_Pa[i]);
	jsonout_close_array(json);
	if (lot->has_required) {
		jsonout_key_string(json, "part", lot->part);
		jsonout_key_quantity(json, "asked", lot->required_Pa, "Pa");
		for (int c = 0; c < CONTROL_CRITERION_COUNT; c++) {
			jsonout_key(json,
				control_criterion_word(
					(enum control_criterion)c));
			jsonout_open_object(json);
			jsonout_key_bool(
				json, "applies", lot->accepted[c].applies);
			jsonout_key_bool(json, "met", lot->accepted[c].is_met);
			jsonout_key_bool(
				json, "has_teeth", lot->accepted[c].has_teeth);
			jsonout_close_object(json);
		}
	}
	jsonout_key_string(json, "sentence", lot->sentence);
	jsonout_close_object(json);
}

static void
json_alarm(struct jsonout *json, const struct work_watch *all,
	const struct work_watch_alarm *alarm)
{
	jsonout_open_object(json);
	jsonout_key_string(json, "rule", control_rule_word(alarm->rule));
	jsonout_key_bool(json, "lasts", alarm->lasts);
	jsonout_key_number(json, "step", alarm->step);
	jsonout_key_string(json, "sentence", alarm->sentence);
	jsonout_key_string(json, "check", alarm->check);
	jsonout_key(json, "touched");
	jsonout_open_array(json);
	for (size_t i = 0; i < alarm->n_touched; i++)
		jsonout_string(json, all->m.site.batch[alarm->touched[i]].code);
	jsonout_close_array(json);
	jsonout_close_object(json);
}

static void
json_watched(struct jsonout *json, const struct work_watch *all,
	const struct work_watched *w)
{
	jsonout_key(json, work_watch_word(w->quantity));
	jsonout_open_object(json);
	jsonout_key_bool(json, "alarm", is_on_now(w));
	jsonout_key_string(json, "sentence", w->sentence);
	jsonout_key(json, "points");
	jsonout_open_array(json);
	for (size_t i = 0; i < w->n_point; i++) {
		jsonout_open_object(json);
		jsonout_key_string(json, "batch",
			all->m.site.batch[w->point[i].batch].code);
		jsonout_key_string(json, "moment", w->point[i].moment);
		jsonout_key_number(json, "value", w->point[i].value);
		jsonout_key_bool(json, "new_lot", w->point[i].new_lot);
		jsonout_close_object(json);
	}
	jsonout_close_array(json);
	if (w->has_limits) {
		jsonout_key_number(json, "centre", w->centre);
		jsonout_key_number(json, "spread", w->spread);
	}
	jsonout_key(json, "alarms");
	jsonout_open_array(json);
	for (size_t i = 0; i < w->n_alarm; i++)
		json_alarm(json, all, &w->alarm[i]);
	jsonout_close_array(json);
	jsonout_close_object(json);
}

static enum err_code
print_json(const struct invocation *in, const struct work_watch *all,
	struct err *err)
{
	struct text text;
	struct jsonout json;

	json_start(in, &text, &json);
	for (int q = 0; q < WORK_WATCH_COUNT; q++)
		json_watched(&json, all, &all->watched[q]);
	jsonout_key(&json, "strength_lots");
	jsonout_open_array(&json);
	for (size_t i = 0; i < all->n_lot; i++)
		json_lot(&json, all, &all->lot[i]);
	jsonout_close_array(&json);
	jsonout_key(&json, "warnings");
	jsonout_open_array(&json);
	for (size_t i = 0; i < all->n_fired; i++) {
		jsonout_open_object(&json);
		jsonout_key_string(&json, "of", all->fired[i].subject);
		jsonout_key_string(&json, "sentence", all->fired[i].sentence);
		jsonout_close_object(&json);
	}
	jsonout_close_array(&json);
	jsonout_key(&json, "lots");
	jsonout_open_array(&json);
	for (size_t i = 0; i < all->n_lot_change; i++)
		jsonout_string(&json, all->lot_change[i]);
	jsonout_close_array(&json);
	return json_finish(&json, err);
}

static enum err_code
run_watch(const struct invocation *in, struct err *err)
{
	struct work_watch all;
	struct desk desk;
	enum err_code code;

	TRY(desk_open(in->word[0], false, in, &desk, err));
	code = work_watch(&desk, in->arena, &all, err);
	desk_close(&desk);
	if (code != ERR_NONE)
		return code;
	if (in->json)
		return print_json(in, &all, err);
	for (int q = 0; q < WORK_WATCH_COUNT; q++)
		print_watched(in, &all, &all.watched[q]);
	print_lots(in, &all);
	for (size_t i = 0; i < all.n_fired; i++)
		print_folded(stdout, 0,
			text_format(in->arena, "%s: %s", all.fired[i].subject,
				all.fired[i].sentence));
	for (size_t i = 0; i < all.n_lot_change; i++)
		print_folded(stdout, 0,
			text_format(in->arena, "| %s", all.lot_change[i]));
	return ERR_NONE;
}

const struct command command_watch = {
	.name = "watch",
	.line = "what moved over the batches, since when, what to look at",
	.help = "  foamwright watch BOOK\n\nFoam, wet density, settling, "
		"surviving foam and strength on charts, practice\nbatches "
		"apart; an alarm names the batches since the change began. "
		"Strength\nis judged by lots. A stroke | is where a new lot of "
		"a material began.\ndocs/methods/charts.md says how.\n",
	.example = "foamwright watch site.book",
	.least_words = 1,
	.most_words = 1,
	.run = run_watch,
};
