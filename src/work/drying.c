/* drying.c - the weighings of a block held against the drying of a flat piece.
 */
#include "work/drying.h"

#include "core/date.h"
#include "core/text.h"
#include "core/unit.h"
#include "lab/drying.h"
#include "work/compare.h"
#include "work/series.h"

#define MATHLIB_STANDALONE 1
#include <Rmath.h>
#include <math.h>
#include <string.h>

enum { DIGITS = 3 };

/* Beyond this a forecast is no day any more; common practice, no source. */
static const double far_s = 10 * 365.25 * 86400;

/* Where its batch went, the first place of it. */
static void
find_part(const struct work_bench *bench, struct work_drying *d)
{
	const struct work_site *s = &bench->site;
	const int64_t batch = s->batch[s->specimen_batch[d->piece]].row.id;

	for (size_t i = 0; i < bench->n_placing; i++) {
		if (bench->placing[i].batch_id != batch)
			continue;
		d->lift = bench->placing[i].lift;
		for (size_t k = 0; k < s->n_part; k++)
			if (s->part[k].row.id == bench->placing[i].part_id)
				d->part = s->part[k].code;
		return;
	}
}

static void
forecast(const struct lab_dried *got, double began_s, int64_t cast_s,
	struct work_drying *d)
{
	double level = 0.5 + work_level / 2;
	double times = exp(qt(level, (double)got->n_free, true, false) *
		got->log_when_error);
	double early = got->when.s / times, late = got->when.s * times;

	d->moisture_now_ratio = got->moisture_now_ratio;
	d->end_kg = got->end.kg;
	d->when_s = cast_s + (int64_t)(began_s + fmin(got->when.s, far_s));
	d->early_s = cast_s + (int64_t)(began_s + fmin(early, far_s));
	d->late_s = cast_s + (int64_t)(began_s + fmin(late, far_s));
	d->state = got->moisture_now_ratio <= d->wanted_ratio
		? WORK_DRYING_DRY
		: WORK_DRYING_COMING;
	if (isfinite(late) && late < far_s)
		return;
	d->state = WORK_DRYING_UNSURE;
	d->why = "the weighings so far leave the day open; weigh on.";
}

static enum err_code
fit(struct arena *arena, const struct work_series_row *row, size_t n,
	struct maybe dry, int64_t cast_s, struct work_drying *d,
	struct err *err)
{
	struct lab_drying_reading *reading = arena_take(
		arena, n, sizeof *reading);
	const struct lab_drying ask = {.reading = reading,
		.n_reading = n,
		.has_dry_mass = dry.has,
		.dry_mass.kg = dry.value,
		.moisture_ratio = d->wanted_ratio};
	struct err odd = {.code = ERR_NONE};
	struct lab_dried got;
	enum err_code code;

	if (reading == NULL)
		return err_memory(err);
	for (size_t i = 0; i < n; i++)
		reading[i] = (struct lab_drying_reading){
			{row[i].at_s - row[0].at_s},
			{row[i].reading->water.mass_kg.value}};
	code = lab_drying(arena, &ask, &got, &odd);
	if (code == ERR_MEMORY)
		return err_memory(err);
	if (code == ERR_NONE) {
		forecast(&got, row[0].at_s, cast_s, d);
		return ERR_NONE;
	}
	d->state = code == ERR_ANSWER_NO ? WORK_DRYING_NEVER
					 : WORK_DRYING_UNSURE;
	d->why = arena_text(arena, odd.text);
	return d->why != NULL ? ERR_NONE : err_memory(err);
}

static enum err_code
look(struct arena *arena, const struct work_bench *bench,
	const struct work_series_row *row, size_t n, struct work_drying *d,
	struct err *err)
{
	struct maybe dry = work_series_dry(&bench->site, row, n);
	struct maybe wanted = {.has = false};
	int64_t cast_s = 0;

	*d = (struct work_drying){.piece = row->specimen,
		.n_weighing = n,
		.first_kg = row[0].reading->water.mass_kg.value,
		.last_kg = row[n - 1].reading->water.mass_kg.value,
		.has_dry = dry.has,
		.part = "",
		.why = ""};
	find_part(bench, d);
	for (size_t i = 0; i < n; i++)
		if (row[i].reading->water.wanted_ratio.has)
			wanted = row[i].reading->water.wanted_ratio;
	d->wanted_ratio = wanted.value;
	d->state = !wanted.has ? WORK_DRYING_UNASKED : WORK_DRYING_FEW;
	if (!work_cast_on(&bench->site, row->specimen, &cast_s))
		return ERR_NONE;
	d->first_s = cast_s + (int64_t)row[0].at_s;
	d->last_s = cast_s + (int64_t)row[n - 1].at_s;
	if (!wanted.has || n < LAB_DRYING_LEAST)
		return ERR_NONE;
	return fit(arena, row, n, dry, cast_s, d, err);
}

enum err_code
work_drying_all(struct arena *arena, const struct work_bench *bench,
	const struct work_drying **out, size_t *n, struct err *err)
{
	struct work_drying *all;
	struct work_series s;

	TRY(work_series(arena, &bench->site, "drying", &s, err));
	all = arena_take(arena, s.n_piece + 1, sizeof *all);
	if (all == NULL)
		return err_memory(err);
	for (size_t i = 0; i < s.n_piece; i++)
		TRY(look(arena, bench, s.row + s.first[i], s.n_of[i], &all[i],
			err));
	*out = all;
	*n = s.n_piece;
	return ERR_NONE;
}

bool
work_drying_due(const struct work_drying *d, int64_t now_s)
{
	return d->state != WORK_DRYING_DRY &&
		(double)(now_s - d->last_s) >= work_drying_every_s;
}

/* ---- words ---- */

static const char *
day(struct arena *arena, int64_t at_s)
{
	char text[DATE_TEXT_MAX];

	date_write_day(at_s, 0, text);
	return arena_text(arena, text);
}

static const char *
say_state(struct arena *arena, const struct work_drying *d)
{
	const char *wanted = unit_digits(arena, 100 * d->wanted_ratio, DIGITS);

	switch (d->state) {
	case WORK_DRYING_UNASKED:
		return "How dry the plaster wants its ground its maker says: "
		       "--wanted \"8 %\".";
	case WORK_DRYING_FEW:
		return text_format(arena,
			"A forecast takes %d weighings on different days; %d "
			"more.",
			(int)LAB_DRYING_LEAST,
			(int)LAB_DRYING_LEAST - (int)d->n_weighing);
	case WORK_DRYING_NEVER:
	case WORK_DRYING_UNSURE:
		return text_format(
			arena, "No day for %s %% yet: %s", wanted, d->why);
	case WORK_DRYING_COMING:
		return text_format(arena,
			"Dry enough for the plaster (%s %%) about %s, between "
			"%s and %s; %s %% now.",
			wanted, day(arena, d->when_s), day(arena, d->early_s),
			day(arena, d->late_s),
			unit_digits(
				arena, 100 * d->moisture_now_ratio, DIGITS));
	case WORK_DRYING_DRY:
		return text_format(arena,
			"Dry enough for the plaster: %s %%, and %s %% was "
			"wanted.",
			unit_digits(arena, 100 * d->moisture_now_ratio, DIGITS),
			wanted);
	}
	return "";
}

const char *
work_drying_words(struct arena *arena, const struct work_bench *bench,
	const struct work_drying *d)
{
	const struct work_site *s = &bench->site;
	struct text text;

	text_init(&text, arena);
	text_add(&text, s->specimen[d->piece].code);
	if (d->part[0] != '\0')
		text_addf(&text, " (of %s, lift %lld)", d->part,
			(long long)d->lift);
	text_addf(&text, ", %s kg", unit_digits(arena, d->first_kg, DIGITS));
	if (d->n_weighing > 1)
		text_addf(&text, " to %s kg in %zu weighings",
			unit_digits(arena, d->last_kg, DIGITS), d->n_weighing);
	text_addf(&text, ". %s", say_state(arena, d));
	return text_failed(&text) ? "" : text.bytes;
}
