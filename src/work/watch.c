/* watch.c - the book's batches on charts, and charts in words. */
#include "work/watch.h"

#include "core/text.h"
#include "stats/chart_constants.h"
#include "work/foam.h"
#include "work/sheet.h"
#include "work/warn.h"

#include <gsl/gsl_sort.h>
#include <gsl/gsl_statistics_double.h>
#include <math.h>
#include <string.h>

static const double day_s = 86400;

/* The least spread that a reading can have, so that a run of lucky readings does
 * not make the next one an alarm: a struck bucket is good to about 1 %; common
 * practice, no source. */
static const double least_spread_ratio = 0.01;

#define WORD(quantity, word, name, unit, factor) word,
static const char *const words[] = {WORK_WATCH_LIST(WORD)};
#undef WORD
#define NAME(quantity, word, name, unit, factor) name,
static const char *const names[] = {WORK_WATCH_LIST(NAME)};
#undef NAME
#define UNIT(quantity, word, name, unit, factor) unit,
static const char *const units[] = {WORK_WATCH_LIST(UNIT)};
#undef UNIT
#define FACTOR(quantity, word, name, unit, factor) factor,
static const double factors[] = {WORK_WATCH_LIST(FACTOR)};
#undef FACTOR

const char *
work_watch_word(enum work_watch_quantity quantity)
{
	return words[quantity];
}

const char *
work_watch_name(enum work_watch_quantity quantity)
{
	return names[quantity];
}

const char *
work_watch_unit(enum work_watch_quantity quantity)
{
	return units[quantity];
}

double
work_watch_factor(enum work_watch_quantity quantity)
{
	return factors[quantity];
}

/* What a change up or down usually means, and what to look at, in order. */
static const char *const checks[WORK_WATCH_COUNT][2] = {
	[WORK_WATCH_FOAM] =
		{N_("heavier: air pressure, the regulator, the "
		    "filter, then the dilution of the agent and its "
		    "age; weigh again before the next batch"),
			N_("lighter: the liquid pressure, the nozzle, then the "
			   "dilution "
			   "of the agent; weigh again before the next batch")},
	[WORK_WATCH_WET] = {N_("heavier: the foam first (its weight, its "
			       "amount), then the time of blending, then the "
			       "scale and the water"),
		N_("lighter: the foam first (its weight, its amount), then a "
		   "miscounted bag, then the bucket's tare")},
	[WORK_WATCH_SUNK] = {N_("more: temperature of mix and air, the agent "
				"and its age, the water, leaking forms"),
		N_("less: nothing to mend; note what changed")},
	[WORK_WATCH_KEPT] = {N_("more: the scale and the bucket, then the time "
				"of blending"),
		N_("less: the time of blending, a stiff slurry that bursts the "
		   "foam, the water's hardness, the agent")},
	[WORK_WATCH_BENDING] =
		{N_("stronger: the wet density first (heavier is "
		    "stronger), then the age at the test, then the "
		    "span and the weights"),
			N_("weaker: the wet density and what it sank first, "
			   "then the age "
			   "and the moisture at the test, then the cement's "
			   "lot and age, "
			   "then the water that the foam brought")},
	[WORK_WATCH_CRUSHING] = {N_("stronger: the wet density first, then the "
				    "age at the test, then the gauge"),
		N_("weaker: the wet density and what it sank first, then the "
		   "faces of the pieces, then the age and the moisture, then "
		   "the "
		   "cement's lot and age")},
};

struct watching {
	struct arena *arena;
	const struct work_mixer *m;
	struct work_watched *w;
	struct work_watch_point *point;
	size_t room;
	const double *off; /* strengths; NULL: another quantity */
	double centre;     /* the target; NAN: the mean of the points */
	double least_spread;
};

/* Does a lot of some material begin in this batch? */
static bool
begins_lot(const struct work_mixer *m, size_t batch)
{
	for (size_t i = 0; i < m->n_batch_part; i++) {
		const struct book_batch_part *p = &m->batch_part[i];
		const char *before = work_lot_before(m, i);

		if (p->batch_id == m->site.batch[batch].row.id &&
			p->lot[0] != '\0' && before != NULL &&
			strcmp(before, p->lot) != 0)
			return true;
	}
	return false;
}

static bool
lot_since(const struct watching *g, size_t batch)
{
	size_t from = g->w->n_point > 0 ? g->point[g->w->n_point - 1].batch + 1
					: 1;

	for (size_t i = from; i <= batch && g->w->n_point > 0; i++)
		if (begins_lot(g->m, i))
			return true;
	return false;
}

static void
add_point(struct watching *g, size_t batch, const char *moment, double value)
{
	struct work_watch_point p = {batch, moment, value, lot_since(g, batch)};

	if (g->w->n_point < g->room)
		g->point[g->w->n_point++] = p;
}

/* ---- the points ---- */

static void
foam_points(struct watching *g, size_t batch)
{
	const struct book_batch *b = &g->m->site.batch[batch];
	const struct maybe *value[] = {&b->foam_start_kg_m3,
		&b->foam_middle_kg_m3, &b->foam_end_kg_m3};

	for (int i = 0; i < MIX_MOMENT_COUNT; i++)
		if (value[i]->has)
			add_point(g, batch, mix_moment_word((enum mix_moment)i),
				value[i]->value);
}

static void
wet_point(struct watching *g, size_t batch)
{
	const struct work_site *s = &g->m->site;
	const struct book_batch *b = &s->batch[batch];
	const struct book_mix *mix = &s->mix[s->batch_mix[batch]];

	if (b->wet_kg_m3.has && mix->wet_target_kg_m3.has)
		add_point(g, batch, "",
			b->wet_kg_m3.value / mix->wet_target_kg_m3.value - 1);
}

static void
sunk_point(struct watching *g, size_t batch)
{
	const struct work_site *s = &g->m->site;

	for (size_t k = 0; k < s->n_settling; k++)
		if (s->settling_batch[k] == batch &&
			s->settling[k].after_s == day_s)
			add_point(g, batch, "", s->settling[k].loss_ratio);
}

/* Practice is learning: it stands on no chart of the build. */
static enum err_code
gather_points(struct watching *g, struct err *err)
{
	for (size_t i = 0; i < g->m->site.n_batch; i++) {
		bool known = false;
		double ratio = 0;

		if (g->m->site.batch[i].practice)
			continue;
		switch (g->w->quantity) {
		case WORK_WATCH_FOAM:
			foam_points(g, i);
			break;
		case WORK_WATCH_WET:
			wet_point(g, i);
			break;
		case WORK_WATCH_SUNK:
			sunk_point(g, i);
			break;
		case WORK_WATCH_KEPT:
			TRY(work_batch_survival(
				g->m, g->arena, i, &ratio, &known, err));
			if (known)
				add_point(g, i, "", ratio);
			break;
		case WORK_WATCH_BENDING:
		case WORK_WATCH_CRUSHING:
			if (g->off != NULL && !isnan(g->off[i]))
				add_point(g, i, "", g->off[i]);
			break;
		}
	}
	return ERR_NONE;
}

/* ---- the chart ---- */

/* Spread from neighbours, which a slow drift hardly widens. */
static double
neighbour_spread(const struct watching *g, double d2)
{
	double sum = 0;
	size_t n = g->w->n_point;

	for (size_t i = 1; i < n; i++)
		sum += fabs(g->point[i].value - g->point[i - 1].value);
	return fmax(g->least_spread, sum / (double)(n - 1) / d2);
}

/* The middle of the points: one batch that sank does not move it. */
static enum err_code
median_of(const struct watching *g, double *median, struct err *err)
{
	size_t n = g->w->n_point;
	double *sorted = arena_take(g->arena, n, sizeof *sorted);

	if (sorted == NULL)
		return err_memory(err);
	for (size_t i = 0; i < n; i++)
		sorted[i] = g->point[i].value;
	gsl_sort(sorted, 1, n);
	*median = gsl_stats_median_from_sorted_data(sorted, 1, n);
	return ERR_NONE;
}

/* The batches of a stretch of points. */
static enum err_code
list_touched(
	struct watching *g, struct work_watch_alarm *alarm, struct err *err)
{
	size_t *touched = arena_take(g->arena, g->w->n_point, sizeof *touched);
	size_t n = 0;

	if (touched == NULL)
		return err_memory(err);
	for (size_t i = alarm->first; i <= alarm->last; i++)
		if (n == 0 || touched[n - 1] != g->point[i].batch)
			touched[n++] = g->point[i].batch;
	alarm->touched = touched;
	alarm->n_touched = n;
	return ERR_NONE;
}

/* How far a stretch reaches: until two points in a row are nearer to the centre
 * than to where the step put them. */
static void
find_end(const struct watching *g, struct work_watch_alarm *alarm)
{
	double sign = alarm->step < 0 ? -1 : 1;
	size_t back = 0;

	alarm->last = alarm->signal;
	for (size_t i = alarm->signal + 1; i < g->w->n_point && back < 2; i++) {
		if (sign * (g->point[i].value - g->w->centre) >
			fabs(alarm->step) / 2) {
			alarm->last = i;
			back = 0;
		} else {
			back++;
		}
	}
	alarm->lasts = back < 2 && alarm->last + 2 >= g->w->n_point &&
		alarm->last + back + 1 >= g->w->n_point &&
		alarm->last > alarm->signal;
	if (alarm->signal + 1 == g->w->n_point)
		alarm->lasts = true;
}

/* ---- the words ---- */

static const char *
place(const struct watching *g, size_t point)
{
	const struct work_watch_point *p = &g->point[point];

	return text_format(g->arena, "batch %s%s%s",
		g->m->site.batch[p->batch].code,
		p->moment[0] != '\0' ? ", " : "",
		arena_say(g->arena, p->moment));
}

static const char *
beginning(const struct watching *g, const struct work_watch_alarm *alarm)
{
	if (alarm->first == alarm->signal && alarm->low == alarm->high)
		return "";
	if (alarm->low == alarm->high)
		return text_format(
			g->arena, " It began at %s.", place(g, alarm->first));
	return text_format(g->arena,
		" It most likely began at %s (90 in 100: from %s to %s).",
		place(g, alarm->first), place(g, alarm->low),
		place(g, alarm->high));
}

static enum err_code
say_alarm(struct watching *g, struct work_watch_alarm *alarm, struct err *err)
{
	double factor = factors[g->w->quantity];
	const char *beginning_words = beginning(g, alarm);

	if (beginning_words == NULL)
		return err_memory(err);
	alarm->sentence = text_format(g->arena, "%+.1f %s seen at %s: %s.%s%s",
		alarm->step * factor, units[g->w->quantity],
		place(g, alarm->signal),
		arena_say(g->arena, control_rule_says(alarm->rule)),
		beginning_words,
		alarm->lasts ? "" : arena_say(g->arena, " It did not last."));
	alarm->check = alarm->lasts
		? text_format(g->arena, "If it is %s.",
			  arena_say(g->arena,
				  checks[g->w->quantity]
					[alarm->step < 0 ? 1 : 0]))
		: "";
	return alarm->sentence != NULL && alarm->check != NULL
		? ERR_NONE
		: err_memory(err);
}

static enum err_code
say_state(struct watching *g, struct err *err)
{
	double factor = factors[g->w->quantity];

	if (g->w->n_point == 0)
		g->w->sentence = N_("not recorded yet");
	else if (!g->w->has_limits)
		g->w->sentence = N_("too few to tell; three are needed");
	else if (g->w->quantity == WORK_WATCH_SUNK && g->w->low < 0)
		g->w->sentence = text_format(g->arena,
			"%zu readings; in order up to %.1f %s", g->w->n_point,
			g->w->high * factor, units[g->w->quantity]);
	else
		g->w->sentence = text_format(g->arena,
			"%zu readings; in order between %.1f and %.1f %s",
			g->w->n_point, g->w->low * factor, g->w->high * factor,
			units[g->w->quantity]);
	return g->w->sentence != NULL ? ERR_NONE : err_memory(err);
}

/* ---- the chart ---- */

static enum err_code
add_alarm(struct watching *g, const struct control_chart *c, size_t from,
	struct work_watch_alarm *alarm, struct err *err)
{
	*alarm = (struct work_watch_alarm){.rule = c->rule,
		.signal = from + c->signal,
		.first = from + c->onset.first,
		.low = from + c->onset.low,
		.high = from + c->onset.high,
		.step = c->onset.step};
	find_end(g, alarm);
	TRY(list_touched(g, alarm, err));
	return say_alarm(g, alarm, err);
}

/* Charts what is left of the points again after each stretch. */
static enum err_code
find_alarms(struct watching *g, const double *value,
	const struct control_settings *settings, struct err *err)
{
	size_t n = g->w->n_point;
	struct work_watch_alarm *alarm = arena_take(g->arena, n, sizeof *alarm);

	if (alarm == NULL)
		return err_memory(err);
	g->w->alarm = alarm;
	for (size_t from = 0; from < n;) {
		struct control_chart chart;

		TRY(control_chart(g->arena, value + from, n - from, settings,
			&chart, err));
		if (from == 0) {
			g->w->low = chart.low;
			g->w->high = chart.high;
		}
		if (!chart.has_signal)
			break;
		TRY(add_alarm(g, &chart, from, &alarm[g->w->n_alarm], err));
		from = alarm[g->w->n_alarm++].last + 1;
	}
	return ERR_NONE;
}

static enum err_code
draw_chart(struct watching *g, struct err *err)
{
	struct control_settings settings = control_usual();
	double *value = arena_take(g->arena, g->w->n_point, sizeof *value);
	struct stats_chart_constants two;

	if (value == NULL)
		return err_memory(err);
	if (g->w->n_point < 3)
		return ERR_NONE;
	for (size_t i = 0; i < g->w->n_point; i++)
		value[i] = g->point[i].value;
	stats_chart_constants(2, &two);
	g->w->centre = g->centre;
	if (isnan(g->centre))
		TRY(median_of(g, &g->w->centre, err));
	g->w->spread = neighbour_spread(g, two.d2);
	g->w->has_limits = true;
	settings.is_known = true;
	settings.centre = g->w->centre;
	settings.spread = g->w->spread;
	settings.without_runs = true;
	settings.use[CONTROL_RANGE] = false;
	if (g->w->quantity == WORK_WATCH_SUNK) /* little sunk is no run */
		settings.use[CONTROL_EIGHT_ON_ONE_SIDE] = false;
	return find_alarms(g, value, &settings, err);
}

/* Where the chart stands: the foam on its target, the wet density on none off,
 * the rest on their own median. */
static void
set_centre(struct watching *g)
{
	const struct book_mix *mix;

	g->centre = (double)NAN;
	g->least_spread = least_spread_ratio;
	if (g->w->quantity == WORK_WATCH_WET ||
		g->w->quantity == WORK_WATCH_BENDING ||
		g->w->quantity == WORK_WATCH_CRUSHING)
		g->centre = 0;
	if (g->w->quantity != WORK_WATCH_FOAM || g->w->n_point == 0)
		return;
	mix = &g->m->site.mix[g->m->site.batch_mix[g->point[0].batch]];
	if (g->m->n_generator > 0)
		g->centre = g->m->generator[0].target_kg_m3;
	else if (mix->foam_target_kg_m3.has)
		g->centre = mix->foam_target_kg_m3.value;
	g->least_spread *= isnan(g->centre) ? g->point[0].value : g->centre;
}

static enum err_code
watch_one(struct arena *arena, const struct work_mixer *m,
	enum work_watch_quantity quantity, const double *off,
	struct work_watched *w, struct err *err)
{
	struct watching g = {.arena = arena,
		.m = m,
		.w = w,
		.off = off,
		.room = 3 * m->site.n_batch + m->n_foam_check +
			m->site.n_settling};

	*w = (struct work_watched){.quantity = quantity};
	g.point = arena_take(arena, g.room, sizeof *g.point);
	if (g.point == NULL)
		return err_memory(err);
	w->point = g.point;
	TRY(gather_points(&g, err));
	set_centre(&g);
	TRY(draw_chart(&g, err));
	return say_state(&g, err);
}

/* ---- lots ---- */

static const char *
batch_code(const struct work_mixer *m, int64_t id)
{
	for (size_t i = 0; i < m->site.n_batch; i++)
		if (m->site.batch[i].row.id == id)
			return m->site.batch[i].code;
	return "";
}

static enum err_code
list_lots(struct arena *arena, struct work_watch *out, struct err *err)
{
	const struct work_mixer *m = &out->m;
	const char **line = arena_take(arena, m->n_batch_part, sizeof *line);

	if (line == NULL)
		return err_memory(err);
	for (size_t i = 0; i < m->n_batch_part; i++) {
		const struct book_batch_part *p = &m->batch_part[i];
		const char *before = work_lot_before(m, i);

		if (p->lot[0] == '\0' || before == NULL ||
			strcmp(before, p->lot) == 0)
			continue;
		line[out->n_lot_change] = text_format(arena,
			"From batch %s on, %s is of lot %s (before: %s).",
			batch_code(m, p->batch_id),
			work_material_code(m, p->material_id), p->lot, before);
		if (line[out->n_lot_change++] == NULL)
			return err_memory(err);
	}
	out->lot_change = line;
	return ERR_NONE;
}

/* ---- W29: two in a row far out, or a run on one side ---- */

enum err_code
work_watch_warn(const struct work_mixer *m, struct arena *arena,
	struct work_fired_list *list, struct err *err)
{
	const double *limit = m->warning.w[CONTROL_W29].limit;
	struct work_watched w;
	size_t run = 0, far = 0;
	double side = 0;

	TRY(watch_one(arena, m, WORK_WATCH_WET, NULL, &w, err));
	for (size_t i = 0; w.has_limits && i < w.n_point; i++) {
		double off = w.point[i].value - w.centre;
		bool same = off * side > 0;

		run = same ? run + 1 : 1;
		far = fabs(off) > limit[1] * w.spread ? (same ? far + 1 : 1)
						      : 0;
		side = off;
	}
	if (far < 2 && (double)run < limit[0])
		return ERR_NONE;
	work_fire(list, arena, &m->warning, CONTROL_W29,
		text_format(arena, "batch %s",
			m->site.batch[w.point[w.n_point - 1].batch].code),
		far >= 2 ? text_format(arena,
				   "The last %zu wet densities are more than "
				   "%.3g spreads off on one side: a drift.",
				   far, limit[1])
			 : text_format(arena,
				   "The last %zu wet densities lie on one side "
				   "of the target: a drift.",
				   run));
	return ERR_NONE;
}

static enum err_code
list_fired(struct arena *arena, struct work_watch *out, struct err *err)
{
	const unsigned rules = WORK_RULE(CONTROL_W1) | WORK_RULE(CONTROL_W4) |
		WORK_RULE(CONTROL_W9);
	struct work_fired_list list = {.n = 0};

	for (size_t i = 0; i < out->m.site.n_batch; i++)
		if (!out->m.site.batch[i].practice)
			work_warn_batch(&out->m, arena, i, rules, 0, &list);
	TRY(work_watch_warn(&out->m, arena, &list, err));
	work_warn_corrections(&out->m, arena, &list);
	out->fired = list.fired;
	out->n_fired = list.n;
	return list.failed ? err_memory(err) : ERR_NONE;
}

enum err_code
work_watch(const struct desk *desk, struct arena *arena, struct work_watch *out,
	struct err *err)
{
	struct work_watch_strengths strengths;

	*out = (struct work_watch){.n_lot_change = 0};
	TRY(work_mixer_read(desk, arena, &out->m, err));
	TRY(work_watch_strengths(arena, &out->m, &strengths, err));
	out->lot = strengths.lot;
	out->n_lot = strengths.n_lot;
	for (int q = 0; q < WORK_WATCH_COUNT; q++)
		TRY(watch_one(arena, &out->m, (enum work_watch_quantity)q,
			q >= WORK_WATCH_BENDING
				? strengths.off[q - WORK_WATCH_BENDING]
				: NULL,
			&out->watched[q], err));
	TRY(list_fired(arena, out, err));
	return list_lots(arena, out, err);
}
