/* standing.c - the looks at a jar of foam, kept and told. */
#include "work/standing.h"

#include "book/book.h"
#include "core/text.h"
#include "mix/generator.h"

#include <gsl/gsl_sort.h>
#include <math.h>
#include <string.h>

static const double minute_s = 60, hour_s = 3600;
static const char usual_jar[] = "1";

/* ---- told ---- */

/* The looks at one jar, by time. */
static enum err_code
gather(const struct work_mixer *m, struct arena *arena, int64_t generator_id,
	const char *jar, double **after, double **drained, size_t *n,
	double *foam_kg, struct err *err)
{
	*n = 0;
	*after = arena_take(arena, m->n_standing + 1, sizeof **after);
	*drained = arena_take(arena, m->n_standing + 1, sizeof **drained);
	if (*after == NULL || *drained == NULL)
		return err_memory(err);
	for (size_t i = 0; i < m->n_standing; i++) {
		const struct book_foam_standing *s = &m->standing[i];

		if (s->generator_id != generator_id ||
			strcmp(s->code, jar) != 0)
			continue;
		(*after)[*n] = s->after_s;
		(*drained)[(*n)++] = s->drained_kg;
		*foam_kg = s->foam_kg;
	}
	gsl_sort2(*after, 1, *drained, 1, *n);
	return ERR_NONE;
}

static void
find_set(const struct work_mixer *m, size_t mix, struct work_standing *out)
{
	for (size_t i = 0; i < m->site.n_batch; i++) {
		const struct maybe *set = &m->site.batch[i].set_s;

		if (!set->has ||
			(mix < m->site.n_mix && m->site.batch_mix[i] != mix))
			continue;
		if (!out->has_set || set->value < out->set_s)
			out->set_s = set->value;
		out->has_set = true;
	}
	out->outlives = !out->has_set || out->half_s >= out->set_s;
}

static const char *
time_text(struct arena *arena, double s)
{
	return s < 2 * hour_s ? text_format(arena, "%.0f min", s / minute_s)
			      : text_format(arena, "%.1f h", s / hour_s);
}

static enum err_code
say(struct arena *arena, struct work_standing *out, struct err *err)
{
	const char *half = isfinite(out->half_s)
		? text_format(arena, "half its liquid in %s",
			  time_text(arena, out->half_s))
		: text_format(arena, "less than half its liquid in %s",
			  time_text(arena, out->last_s));
	const char *set = "";

	if (out->has_set && !out->outlives)
		set = text_format(arena,
			" The mix takes %s to set: the foam has to live as "
			"long. Warmer water, a better or fresher agent, less "
			"foam, in that order (common practice, no source).",
			time_text(arena, out->set_s));
	else if (out->has_set && isfinite(out->half_s))
		set = text_format(arena,
			" That is longer than the mix takes to set (%s).",
			time_text(arena, out->set_s));
	out->sentence = text_format(
		arena, "Foam left in jar %s lost %s.%s", out->jar, half, set);
	return half != NULL && set != NULL && out->sentence != NULL
		? ERR_NONE
		: err_memory(err);
}

enum err_code
work_standing(const struct work_mixer *m, struct arena *arena, size_t generator,
	size_t mix, struct work_standing *out, struct err *err)
{
	struct work_standing got = {.jar = NULL, .sentence = ""};
	double *after, *drained, foam_kg = 0;

	*out = got;
	for (size_t i = 0; i < m->n_standing; i++)
		if (m->standing[i].generator_id ==
			m->generator[generator].row.id)
			got.jar = m->standing[i].code;
	if (got.jar == NULL)
		return ERR_NONE;
	TRY(gather(m, arena, m->generator[generator].row.id, got.jar, &after,
		&drained, &got.n_look, &foam_kg, err));
	TRY(mix_drain_time(after, drained, got.n_look, foam_kg, 0.25,
		&got.quarter_s, err));
	TRY(mix_drain_time(
		after, drained, got.n_look, foam_kg, 0.5, &got.half_s, err));
	got.known = true;
	got.last_s = after[got.n_look - 1];
	find_set(m, mix, &got);
	TRY(say(arena, &got, err));
	*out = got;
	return ERR_NONE;
}

/* ---- entered ---- */

static enum err_code
put_look(const struct desk *desk, const struct work_mixer *m,
	struct book_foam_standing *row, const struct work_look *look,
	struct err *err)
{
	if (!(look->after_s > 0))
		return err_report(err, ERR_INPUT, "--look",
			"A look needs a time after the jar was filled, such as "
			"\"10 min=12 g\".");
	if (!(look->drained_kg >= 0 && look->drained_kg <= row->foam_kg))
		return err_report(err, ERR_INPUT, "--look",
			"%.0f g cannot run out of %.0f g of foam.",
			look->drained_kg * 1000, row->foam_kg * 1000);
	row->row.id = 0;
	row->after_s = look->after_s;
	row->drained_kg = look->drained_kg;
	for (size_t i = 0; i < m->n_standing; i++)
		if (m->standing[i].generator_id == row->generator_id &&
			strcmp(m->standing[i].code, row->code) == 0 &&
			m->standing[i].after_s == row->after_s)
			row->row.id = m->standing[i].row.id;
	return book_put_foam_standing(desk->book, row, err);
}

static enum err_code
enter(const struct desk *desk, struct arena *arena,
	const struct work_standing_ask *ask, struct work_standing *out,
	struct err *err)
{
	struct book_foam_standing row = {
		.row = {.typed = ask->typed != NULL ? ask->typed : ""},
		.code = ask->jar != NULL ? ask->jar : usual_jar,
		.foam_kg = ask->foam_kg.value,
		.read_on = ask->read_on != NULL ? ask->read_on : "",
		.remark = ask->remark != NULL ? ask->remark : ""};
	struct work_mixer m;
	size_t at;

	TRY(work_mixer_read(desk, arena, &m, err));
	TRY(work_find_generator(&m, ask->generator, &at, err));
	row.generator_id = m.generator[at].row.id;
	for (size_t i = 0; i < m.n_standing && !ask->foam_kg.has; i++)
		if (m.standing[i].generator_id == row.generator_id &&
			strcmp(m.standing[i].code, row.code) == 0)
			row.foam_kg = m.standing[i].foam_kg;
	if (!(row.foam_kg > 0))
		return err_report(err, ERR_INPUT, "--foam",
			"Say what the foam in jar %s weighed when it was "
			"filled: --foam \"140 g\".",
			row.code);
	for (size_t i = 0; i < ask->n_look; i++)
		TRY(put_look(desk, &m, &row, &ask->look[i], err));
	TRY(work_mixer_read(desk, arena, &m, err));
	return work_standing(&m, arena, at, m.site.n_mix, out, err);
}

enum err_code
work_standing_put(const struct desk *desk, struct arena *arena,
	const struct work_standing_ask *ask, struct work_standing *out,
	struct err *err)
{
	struct work_standing got = {.known = false, .sentence = ""};

	if (ask->n_look == 0)
		return err_report(err, ERR_INPUT, "--look",
			"Say what had run out of the jar and when: --look \"10 "
			"min=12 g\", as often as you looked.");
	TRY(book_begin(desk->book, desk->now_utc_s, desk->who, "standing foam",
		desk->submission, err));
	TRY(work_commit_or_undo(
		desk, ask->generator, enter(desk, arena, ask, &got, err), err));
	*out = got;
	return ERR_NONE;
}
