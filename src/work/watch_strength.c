/* watch_strength.c - strength over the batches: each against the mean of its
 * mix, and by lots against what a part asks. */
#include "work/watch.h"

#include "core/text.h"
#include "stats/characteristic.h"
#include "work/results.h"

#include <math.h>
#include <string.h>

enum { RUNNING = 3 };

static const double pa_per_n_mm2 = 1e6;
static const enum choose_measure measures[2] = {
	CHOOSE_BENDING_STRENGTH, CHOOSE_CRUSHING_STRENGTH};

struct gathering {
	struct arena *arena;
	const struct work_mixer *m;
	const struct work_site *s;
	struct work_results results;
	struct work_watch_lot *lot;
	size_t n_lot;
	double *off[2];
};

/* Of a mix with reinforcement only its reinforced pieces are of it, of a plain
 * one only the plain. */
static bool
is_of_mix(const struct gathering *g, const struct work_result *r)
{
	bool wants = g->s->mix[r->mix].reinforcement[0] != '\0';

	return !r->has_specimen ||
		g->s->specimen[r->specimen].reinforced == wants;
}

/* The mean of a batch's pieces; NAN if none was tested.  A reading between two
 * weights counts in the middle, one that never broke at what it bore. */
static double
batch_mean(const struct gathering *g, size_t batch, enum choose_measure measure,
	size_t *more_than)
{
	double sum = 0;
	size_t n = 0;

	for (size_t i = 0; i < g->results.n_result; i++) {
		const struct work_result *r = &g->results.result[i];

		if (r->batch != batch || r->measure != measure || r->excluded ||
			!is_of_mix(g, r))
			continue;
		if (isfinite(r->value.high))
			sum += (r->value.low + r->value.high) / 2;
		else
			sum += r->value.low;
		*more_than += isfinite(r->value.high) ? 0 : 1;
		n++;
	}
	return n > 0 && sum > 0 ? sum / (double)n : (double)NAN;
}

/* What the part asks that the mix was chosen for. */
static void
find_required(const struct gathering *g, struct work_watch_lot *lot)
{
	const struct work_site *s = g->s;

	for (size_t i = 0; i < g->m->n_decision; i++) {
		const struct book_decision *d = &g->m->decision[i];

		if (d->mix_id != s->mix[lot->mix].row.id)
			continue;
		for (size_t k = 0; k < s->n_requirement; k++) {
			const struct book_requirement *r = &s->requirement[k];

			if (r->part_id != d->part_id ||
				strcmp(r->bound, "least") != 0 ||
				strcmp(r->measure,
					choose_measure_word(lot->measure)) !=
					0 ||
				!(r->value > lot->required_Pa))
				continue;
			lot->has_required = true;
			lot->required_Pa = r->value;
			for (size_t p = 0; p < s->n_part; p++)
				if (s->part[p].row.id == d->part_id)
					lot->part = s->part[p].code;
		}
	}
}

static const char *
standing(const struct work_watch_lot *lot)
{
	const struct control_accepted *c =
		&lot->accepted[CONTROL_CHARACTERISTIC];

	if (!lot->has_required)
		return "";
	if (!c->applies)
		return N_(", too few to judge");
	return c->is_met ? ", met" : ", not met";
}

static enum err_code
say_lot(const struct gathering *g, struct work_watch_lot *lot, struct err *err)
{
	double sum = 0;

	for (size_t i = 0; i < lot->n; i++)
		sum += lot->strength_Pa[i];
	lot->sentence = text_format(g->arena,
		"mix %s, %s: %zu batch%s, mean %.3g N/mm2%s%s%s%s",
		g->s->mix[lot->mix].code,
		arena_say(g->arena, choose_measure_name(lot->measure)), lot->n,
		lot->n == 1 ? "" : arena_say(g->arena, "es"),
		sum / (double)lot->n / pa_per_n_mm2,
		lot->has_value
			? text_format(g->arena, "; 95 of 100 should beat %.3g",
				  lot->value_Pa / pa_per_n_mm2)
			: "",
		lot->has_required
			? text_format(g->arena, "; part %s asks %.3g",
				  lot->part, lot->required_Pa / pa_per_n_mm2)
			: "",
		standing(lot),
		lot->n_more_than > 0
			? text_format(g->arena,
				  " (%zu piece%s never broke: counted at what "
				  "%s bore)",
				  lot->n_more_than,
				  lot->n_more_than == 1 ? "" : "s",
				  lot->n_more_than == 1
					  ? arena_say(g->arena, "it")
					  : arena_say(g->arena, "they"))
			: "");
	return lot->sentence != NULL ? ERR_NONE : err_memory(err);
}

static enum err_code
judge_lot(
	const struct gathering *g, struct work_watch_lot *lot, struct err *err)
{
	struct control_lot ask = {.strength_Pa = lot->strength_Pa,
		.n = lot->n,
		.required = {lot->required_Pa}};
	struct stats_characteristic got;

	TRY(control_running_mean(g->arena, lot->strength_Pa, lot->n, RUNNING,
		&lot->running_Pa, &lot->n_running, err));
	TRY(stats_characteristic(
		g->arena, lot->strength_Pa, lot->n, 0, false, &got, err));
	lot->has_value = got.has_unknown;
	lot->value_Pa = fmax(0, got.unknown);
	if (lot->has_required)
		TRY(control_accept(g->arena, &ask, lot->accepted, err));
	return say_lot(g, lot, err);
}

/* The batches of one mix, in the order made. */
static enum err_code
gather_lot(struct gathering *g, size_t mix, int which, struct err *err)
{
	size_t n = g->s->n_batch, *batch;
	struct work_watch_lot lot = {
		.mix = mix, .measure = measures[which], .part = ""};
	double *strength = arena_take(g->arena, n, sizeof *strength);
	double sum = 0;

	batch = arena_take(g->arena, n, sizeof *batch);
	if (strength == NULL || batch == NULL)
		return err_memory(err);
	for (size_t i = 0; i < n; i++) {
		double mean;

		if (g->s->batch_mix[i] != mix || g->s->batch[i].practice)
			continue;
		mean = batch_mean(g, i, lot.measure, &lot.n_more_than);
		if (isnan(mean))
			continue;
		batch[lot.n] = i;
		strength[lot.n++] = mean;
		sum += mean;
	}
	if (lot.n == 0)
		return ERR_NONE;
	/* a mix with one batch has no mean of its own to be off */
	for (size_t i = 0; i < lot.n && lot.n > 1; i++)
		g->off[which][batch[i]] = strength[i] / (sum / (double)lot.n) -
			1;
	lot.batch = batch;
	lot.strength_Pa = strength;
	find_required(g, &lot);
	TRY(judge_lot(g, &lot, err));
	g->lot[g->n_lot++] = lot;
	return ERR_NONE;
}

enum err_code
work_watch_strengths(struct arena *arena, const struct work_mixer *m,
	struct work_watch_strengths *out, struct err *err)
{
	struct gathering g = {.arena = arena, .m = m, .s = &m->site};

	TRY(work_results(arena, g.s, &g.results, err));
	g.lot = arena_take(arena, 2 * g.s->n_mix + 1, sizeof *g.lot);
	for (int k = 0; k < 2; k++) {
		g.off[k] = arena_take(
			arena, g.s->n_batch + 1, sizeof *g.off[k]);
		if (g.lot == NULL || g.off[k] == NULL)
			return err_memory(err);
		for (size_t i = 0; i < g.s->n_batch; i++)
			g.off[k][i] = (double)NAN;
	}
	for (size_t mix = 0; mix < g.s->n_mix; mix++)
		for (int k = 0; k < 2; k++)
			TRY(gather_lot(&g, mix, k, err));
	*out = (struct work_watch_strengths){
		{g.off[0], g.off[1]}, g.lot, g.n_lot};
	return ERR_NONE;
}
