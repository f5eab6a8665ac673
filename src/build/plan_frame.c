/* plan_frame.c - the calendar seen by the planner, and what clashes in it. */
#include "build/plan_priv.h"

#include <math.h>

size_t
build_strip_day(
	const struct build_day *day, size_t n_day, size_t poured, double degc_h)
{
	const double datum_degc = -10, first_h = 20, day_h = 24;
	const double hair = 1e-9; /* of rounding */
	double gathered = 0;

	for (size_t d = poured; d < n_day; d++) {
		if (d > poured && !day[d].off &&
			gathered >= degc_h * (1 - hair))
			return d;
		gathered += fmax(0, day[d].degc - datum_degc) *
			(d == poured ? first_h : day_h);
	}
	return n_day;
}

/* ---- what was asked ---- */

static enum err_code
check_lift(const struct build_job *job, size_t i, struct err *err)
{
	const struct build_lift *l = &job->lift[i];

	if (l->n_batch < 1 || l->crew_min < 0 || !isfinite(l->strip_degc_h) ||
		l->strip_degc_h < 0)
		return err_report(err, ERR_INPUT, "lifts",
			"%s has %lld batches, %lld minutes of work and %.4g "
			"degree-hours to stripping; it needs a batch or more "
			"and nothing below 0.",
			l->name, (long long)l->n_batch, (long long)l->crew_min,
			l->strip_degc_h);
	return ERR_NONE;
}

static enum err_code
check_job(const struct build_job *job, struct err *err)
{
	if (job->n_lift == 0 || job->n_lift > BUILD_LIFTS_MOST)
		return err_report(err, ERR_INPUT, "lifts",
			"A plan takes 1 to %d lifts; there are %zu.",
			(int)BUILD_LIFTS_MOST, job->n_lift);
	if (job->n_day == 0 || job->n_day > BUILD_DAYS_MOST)
		return err_report(err, ERR_INPUT, "days",
			"A plan takes a calendar of 1 to %d days; it has %zu.",
			(int)BUILD_DAYS_MOST, job->n_day);
	for (size_t i = 0; i < job->n_lift; i++)
		TRY(check_lift(job, i, err));
	for (size_t d = 0; d < job->n_day; d++)
		if (!isfinite(job->day[d].degc))
			return err_report(err, ERR_INPUT, "days",
				"The temperature of day %zu is not known.", d);
	for (size_t i = 0; i < job->n_wait; i++)
		if (job->wait[i].before >= job->n_lift ||
			job->wait[i].after >= job->n_lift)
			return err_report(err, ERR_INPUT, "order",
				"A lift waits for one that is not there.");
	return ERR_NONE;
}

/* ---- places ---- */

static enum err_code
open_days(struct arena *arena, struct plan_frame *f, struct err *err)
{
	const struct build_job *job = f->job;

	f->open = arena_take(arena, job->n_day, sizeof *f->open);
	f->place = arena_take(arena, job->n_day + 1, sizeof *f->place);
	if (f->open == NULL || f->place == NULL)
		return err_memory(err);
	for (size_t d = 0; d < job->n_day; d++) {
		f->place[d] = f->n_open;
		if (!job->day[d].off && !job->day[d].cold)
			f->open[f->n_open++] = d;
	}
	f->place[job->n_day] = f->n_open;
	if (f->n_open == 0)
		return err_report(err, ERR_INPUT, "days",
			"There is no day to pour on: all %zu days of the "
			"calendar are days off or too cold.",
			job->n_day);
	return ERR_NONE;
}

static enum err_code
strip_days(struct arena *arena, struct plan_frame *f, struct err *err)
{
	const struct build_job *job = f->job;

	f->strip = arena_take(arena, job->n_lift, sizeof *f->strip);
	if (f->strip == NULL)
		return err_memory(err);
	for (size_t i = 0; i < job->n_lift; i++) {
		double need = job->lift[i].strip_degc_h;
		size_t *strip, same = 0;

		while (same < i &&
			(job->lift[same].strip_degc_h < need ||
				job->lift[same].strip_degc_h > need))
			same++;
		if (same < i) {
			f->strip[i] = f->strip[same];
			continue;
		}
		strip = arena_take(arena, f->n_open, sizeof *strip);
		if (strip == NULL)
			return err_memory(err);
		for (size_t k = 0; k < f->n_open; k++)
			strip[k] = build_strip_day(
				job->day, job->n_day, f->open[k], need);
		f->strip[i] = strip;
	}
	return ERR_NONE;
}

/* Each lift after those it waits for. */
static enum err_code
set_order(struct arena *arena, struct plan_frame *f, struct err *err)
{
	const struct build_job *job = f->job;
	size_t *open_waits = arena_take(arena, job->n_lift, sizeof *open_waits);
	size_t n = 0;

	f->order = arena_take(arena, job->n_lift, sizeof *f->order);
	if (open_waits == NULL || f->order == NULL)
		return err_memory(err);
	for (size_t i = 0; i < job->n_wait; i++)
		open_waits[job->wait[i].after]++;
	for (size_t i = 0; i < job->n_lift; i++)
		if (open_waits[i] == 0)
			f->order[n++] = i;
	for (size_t done = 0; done < n; done++)
		for (size_t i = 0; i < job->n_wait; i++)
			if (job->wait[i].before == f->order[done] &&
				--open_waits[job->wait[i].after] == 0)
				f->order[n++] = job->wait[i].after;
	for (size_t i = 0; i < job->n_lift && n < job->n_lift; i++)
		if (open_waits[i] > 0)
			return err_report(err, ERR_INPUT, "order",
				"%s waits, through others, for itself; no "
				"order of pouring can keep that. Take one of "
				"the waits away.",
				job->lift[i].name);
	return ERR_NONE;
}

bool
plan_fits_alone(const struct plan_frame *f, size_t lift, size_t k)
{
	const struct build_lift *l = &f->job->lift[lift];
	const struct build_day *day = f->job->day;
	size_t strip = l->n_set == 0 ? 0 : f->strip[lift][k];

	if (l->n_batch > day[f->open[k]].n_batch ||
		l->crew_min > day[f->open[k]].crew_min)
		return false;
	for (size_t d = f->open[k]; d < strip; d++)
		if (l->n_set > day[d].n_set)
			return false;
	return true;
}

/* ---- what clashes ---- */

static enum err_code
say_why_never(const struct plan_frame *f, size_t lift, struct err *err)
{
	const struct build_lift *l = &f->job->lift[lift];
	int64_t n_batch = 0, crew_min = 0;
	size_t n_set = 0;

	for (size_t k = 0; k < f->n_open; k++) {
		const struct build_day *d = &f->job->day[f->open[k]];

		n_batch = d->n_batch > n_batch ? d->n_batch : n_batch;
		crew_min = d->crew_min > crew_min ? d->crew_min : crew_min;
		n_set = d->n_set > n_set ? d->n_set : n_set;
	}
	if (l->n_batch > n_batch)
		return err_report(err, ERR_INPUT, "mixer",
			"%s takes %lld batches in one go and the mixer makes "
			"%lld in a day. Pour it in lower lifts or in shorter "
			"stretches, or mix more in a day.",
			l->name, (long long)l->n_batch, (long long)n_batch);
	if (l->crew_min > crew_min)
		return err_report(err, ERR_INPUT, "crew",
			"%s takes %.1f hours of the crew in one go and the "
			"crew has %.1f in a day. Pour it in lower lifts or in "
			"shorter stretches, or with more people.",
			l->name, (double)l->crew_min / 60,
			(double)crew_min / 60);
	if (l->n_set > n_set)
		return err_report(err, ERR_INPUT, "forms",
			"%s stands in %zu sets of forms and there are %zu on "
			"hand.",
			l->name, l->n_set, n_set);
	return err_report(err, ERR_INPUT, "days",
		"%s cannot be poured on any of the %zu pouring days of the "
		"calendar: what it waits for, its earliest day, and the days "
		"off and cold days leave none. Let the calendar go on longer.",
		l->name, f->n_open);
}

static enum err_code
set_heads(struct arena *arena, struct plan_frame *f, struct err *err)
{
	const struct build_job *job = f->job;
	size_t *day = arena_take(arena, job->n_lift, sizeof *day);

	f->head = arena_take(arena, job->n_lift, sizeof *f->head);
	if (day == NULL || f->head == NULL)
		return err_memory(err);
	for (size_t i = 0; i < job->n_lift; i++)
		day[i] = job->lift[i].earliest;
	for (size_t n = 0; n < job->n_lift; n++) {
		size_t i = f->order[n];
		size_t k = day[i] < job->n_day ? f->place[day[i]] : f->n_open;

		while (k < f->n_open && !plan_fits_alone(f, i, k))
			k++;
		if (k == f->n_open)
			return say_why_never(f, i, err);
		f->head[i] = k;
		for (size_t w = 0; w < job->n_wait; w++) {
			size_t then = f->open[k] + job->wait[w].n_day;

			if (job->wait[w].before == i &&
				day[job->wait[w].after] < then)
				day[job->wait[w].after] = then;
		}
	}
	return ERR_NONE;
}

bool
plan_latest(const struct plan_frame *f, size_t last, size_t *late)
{
	const struct build_job *job = f->job;

	for (size_t n = job->n_lift; n-- > 0;) {
		size_t i = f->order[n], end = last + 1;

		for (size_t w = 0; w < job->n_wait; w++) {
			size_t of = job->wait[w].after, until;

			if (job->wait[w].before != i)
				continue;
			if (f->open[late[of]] < job->wait[w].n_day)
				return false;
			/* places on or before that day */
			until = f->place[f->open[late[of]] -
				job->wait[w].n_day + 1];
			end = until < end ? until : end;
		}
		while (end > 0 && !plan_fits_alone(f, i, end - 1))
			end--;
		if (end == 0 || end - 1 < f->head[i])
			return false;
		late[i] = end - 1;
	}
	return true;
}

enum err_code
plan_frame_make(struct arena *arena, const struct build_job *job,
	struct plan_frame *frame, struct err *err)
{
	struct plan_frame f = {.job = job};

	TRY(check_job(job, err));
	TRY(open_days(arena, &f, err));
	TRY(strip_days(arena, &f, err));
	TRY(set_order(arena, &f, err));
	TRY(set_heads(arena, &f, err));
	*frame = f;
	return ERR_NONE;
}
