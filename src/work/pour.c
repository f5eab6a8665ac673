/* pour.c - places of batches written, and read back part by part. */
#include "work/pour.h"

#include "work/drying.h"
#include "work/part.h"

#include "book/book.h"
#include "build/witness.h"
#include "core/text.h"
#include "work/results.h"
#include "work/takeoff.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* ---- written ---- */

static enum err_code
check_verdict(const struct work_pour_ask *ask, struct err *err)
{
	static const char *const known[] = {"accept", "mark", "hold", "reject"};
	bool needs_reason = ask->verdict != NULL &&
		strcmp(ask->verdict, "accept") != 0;

	for (size_t i = 0; ask->verdict != NULL; i++) {
		if (i == sizeof known / sizeof known[0])
			return err_report(err, ERR_INPUT, "--verdict",
				"A verdict is accept, mark, hold or reject; it "
				"was given \"%.40s\".",
				ask->verdict);
		if (strcmp(known[i], ask->verdict) == 0)
			break;
	}
	if (needs_reason && (ask->reason == NULL || ask->reason[0] == '\0'))
		return err_report(err, ERR_INPUT, "--reason",
			"To %s a batch takes a reason: --reason \"...\".",
			ask->verdict);
	return ERR_NONE;
}

static enum err_code
check_stretch(const struct book_placing *row, const struct book_part *part,
	struct err *err)
{
	const double hair_m = 0.0005; /* half a millimetre */

	if (row->from_m.has != row->to_m.has ||
		(row->from_m.has && !(row->to_m.value > row->from_m.value)))
		return err_report(err, ERR_INPUT, "--from",
			"A stretch goes from one place to a further one: "
			"--from \"1.2 m\" --to \"2.4 m\".");
	if (row->to_m.has && part->length_m.has &&
		row->to_m.value > part->length_m.value + hair_m)
		return err_report(err, ERR_INPUT, "--to",
			"Part %s is %.3f m long; the stretch ends at %.3f m.",
			part->code, part->length_m.value, row->to_m.value);
	return ERR_NONE;
}

static const struct book_placing *
placing_of(const struct work_mixer *m, int64_t batch_id)
{
	for (size_t i = 0; i < m->n_placing; i++)
		if (m->placing[i].batch_id == batch_id)
			return &m->placing[i];
	return NULL;
}

static enum err_code
fill_row(const struct work_mixer *m, const struct work_pour_ask *ask,
	struct book_placing *row, struct err *err)
{
	const struct book_placing *old;
	size_t batch, part = 0;

	TRY(work_find_batch(m, ask->batch, &batch, err));
	if (m->site.batch[batch].practice)
		return err_report(err, ERR_INPUT, "batch",
			"Batch %s was for practice; it is no part of the "
			"building.",
			ask->batch);
	old = placing_of(m, m->site.batch[batch].row.id);
	*row = old != NULL
		? *old
		: (struct book_placing){.batch_id = m->site.batch[batch].row.id,
			  .verdict = "",
			  .reason = ""};
	if (ask->part != NULL) {
		TRY(work_find_part(&m->site, ask->part, &part, err));
		row->part_id = m->site.part[part].row.id;
	}
	if (ask->lift.has)
		row->lift = (int64_t)ask->lift.value;
	if (row->part_id == 0 || row->lift < 1)
		return err_report(err, ERR_INPUT, "--part",
			"Where did batch %s go? --part PART --lift N, from 1.",
			ask->batch);
	row->from_m = ask->from_m.has ? ask->from_m : row->from_m;
	row->to_m = ask->to_m.has ? ask->to_m : row->to_m;
	if (ask->verdict != NULL) {
		row->verdict = ask->verdict;
		row->reason = ask->reason != NULL ? ask->reason : "";
	}
	row->row.typed = ask->typed;
	for (part = 0; part < m->site.n_part; part++)
		if (m->site.part[part].row.id == row->part_id)
			return check_stretch(row, &m->site.part[part], err);
	return err_report(err, ERR_NOT_FOUND, "part",
		"The part that batch %s went into was withdrawn.", ask->batch);
}

enum err_code
work_pour(const struct desk *desk, struct arena *arena,
	const struct work_pour_ask *ask, struct err *err)
{
	struct work_mixer m;
	struct book_placing row;

	TRY(check_verdict(ask, err));
	TRY(work_mixer_read(desk, arena, &m, err));
	TRY(fill_row(&m, ask, &row, err));
	TRY(book_begin(desk->book, desk->now_utc_s, desk->who, "pour",
		desk->submission, err));
	return work_commit_or_undo(
		desk, ask->batch, book_put_placing(desk->book, &row, err), err);
}

/* ---- read back ---- */

static size_t
index_of_part(const struct work_mixer *m, int64_t id)
{
	size_t i = 0;

	while (i < m->site.n_part && m->site.part[i].row.id != id)
		i++;
	return i;
}

static void
count_pieces(const struct work_site *s, struct work_placed *to)
{
	for (size_t i = 0; i < s->n_specimen; i++) {
		bool tested = false;

		if (s->specimen_batch[i] != to->batch)
			continue;
		to->n_piece++;
		for (size_t r = 0; r < s->n_reading; r++)
			tested = tested || s->reading_specimen[r] == i;
		to->n_tested += tested;
	}
}

static bool
goes_before(const struct work_mixer *m, const struct work_placed *a,
	const struct work_placed *b)
{
	const struct book_placing *p = &m->placing[a->placing];
	const struct book_placing *q = &m->placing[b->placing];

	if (a->part != b->part)
		return a->part < b->part;
	if (p->lift != q->lift)
		return p->lift < q->lift;
	return p->from_m.value < q->from_m.value;
}

static void
put_placed(const struct work_mixer *m, struct work_placed *all, size_t n,
	const struct work_placed *one)
{
	for (; n > 0 && goes_before(m, one, &all[n - 1]); n--)
		all[n] = all[n - 1];
	all[n] = *one;
}

static void
read_placed(const struct work_mixer *m, size_t placing, struct work_placed *to)
{
	const struct work_site *s = &m->site;
	const struct book_placing *row = &m->placing[placing];
	const struct book_mix *mix;

	*to = (struct work_placed){
		.placing = placing, .part = index_of_part(m, row->part_id)};
	while (to->batch < s->n_batch &&
		s->batch[to->batch].row.id != row->batch_id)
		to->batch++;
	if (to->batch == s->n_batch)
		return;
	mix = &s->mix[s->batch_mix[to->batch]];
	to->has_wet_off = s->batch[to->batch].wet_kg_m3.has &&
		mix->wet_target_kg_m3.has;
	if (to->has_wet_off)
		to->wet_off_kg_m3 = s->batch[to->batch].wet_kg_m3.value -
			mix->wet_target_kg_m3.value;
	count_pieces(s, to);
}

/* ---- what the pieces say ---- */

static void
take_result(const struct work_result *r, struct work_said *said)
{
	bool open = !isfinite(r->value.high);

	said->mean += open ? r->value.low : (r->value.low + r->value.high) / 2;
	said->more = said->more || open;
	said->n++;
}

/* What the part asks in the measure; the first of two bounds that is not met. */
static void
hold_against(const struct work_site *s, int64_t part_id, struct work_said *said)
{
	const char *word = choose_measure_word(said->measure);

	for (size_t i = 0; i < s->n_requirement; i++) {
		const struct book_requirement *r = &s->requirement[i];
		bool least = strcmp(r->bound, "least") == 0;

		if (r->part_id != part_id || strcmp(r->measure, word) != 0 ||
			(said->has_asked && !said->is_met))
			continue;
		said->has_asked = true;
		said->is_least = least;
		said->asked = r->value;
		said->is_met = least ? said->mean >= r->value
				     : said->mean <= r->value;
	}
}

static enum err_code
hear_pieces(struct arena *arena, const struct work_site *s,
	const struct work_results *results, struct work_placed *to,
	struct err *err)
{
	struct work_said all[CHOOSE_MEASURE_COUNT] = {0}, *said;
	size_t n = 0;

	for (size_t i = 0; i < results->n_result; i++) {
		const struct work_result *r = &results->result[i];

		if (r->batch == to->batch && !r->excluded)
			take_result(r, &all[r->measure]);
	}
	said = arena_take(arena, CHOOSE_MEASURE_COUNT, sizeof *said);
	if (said == NULL)
		return err_memory(err);
	for (int k = 0; k < CHOOSE_MEASURE_COUNT; k++) {
		if (all[k].n == 0)
			continue;
		said[n] = all[k];
		said[n].measure = (enum choose_measure)k;
		said[n].mean /= (double)all[k].n;
		hold_against(s, s->part[to->part].row.id, &said[n]);
		n++;
	}
	to->said = said;
	to->n_said = n;
	return ERR_NONE;
}

/* ---- what it touches ---- */

/* Beside, on or under each other; without both stretches by the lift alone. */
static bool
do_touch(const struct book_placing *a, const struct book_placing *b)
{
	const double hair_m = 0.0005; /* half a millimetre */

	if (a == b || a->part_id != b->part_id ||
		llabs((long long)(a->lift - b->lift)) > 1)
		return false;
	if (!a->from_m.has || !b->from_m.has)
		return true;
	return a->from_m.value <= b->to_m.value + hair_m &&
		b->from_m.value <= a->to_m.value + hair_m;
}

static enum err_code
find_touched(struct arena *arena, const struct work_poured *g,
	struct work_placed *of, struct err *err)
{
	const struct book_placing *row = &g->m.placing[of->placing];
	size_t *touches;

	of->is_bad = strcmp(row->verdict, "hold") == 0 ||
		strcmp(row->verdict, "reject") == 0;
	if (!of->is_bad)
		return ERR_NONE;
	touches = arena_take(arena, g->n_placed, sizeof *touches);
	if (touches == NULL)
		return err_memory(err);
	for (size_t i = 0; i < g->n_placed; i++)
		if (do_touch(row, &g->m.placing[g->placed[i].placing]))
			touches[of->n_touches++] = i;
	of->touches = touches;
	return ERR_NONE;
}

/* Its number in the part, in the order in which places were first entered. */
static size_t
nth_of_part(const struct work_mixer *m, size_t placing)
{
	size_t n = 0;

	for (size_t i = 0; i < placing; i++)
		n += m->placing[i].part_id == m->placing[placing].part_id;
	return n;
}

static enum err_code
tell_batch(const struct desk *desk, struct arena *arena,
	const struct work_pour_ask *of, struct work_poured *g, struct err *err)
{
	const struct work_mixer *m = &g->m;
	const char **said = arena_take(arena, 4, sizeof *said);
	const struct book_placing *row;
	struct text others;
	size_t batch, k = 0;
	uint64_t seed = of->seed.has ? (uint64_t)of->seed.value : desk->seed;
	size_t every = of->every.has ? (size_t)of->every.value : 10;

	if (said == NULL)
		return err_memory(err);
	TRY(work_find_batch(m, of->batch, &batch, err));
	while (k < g->n_placed && g->placed[k].batch != batch)
		k++;
	if (k == g->n_placed)
		return ERR_NONE;
	row = &m->placing[g->placed[k].placing];
	text_init(&others, arena);
	for (size_t i = 0; i < g->placed[k].n_touches; i++) {
		const struct work_placed *o =
			&g->placed[g->placed[k].touches[i]];

		text_addf(&others, "%s%s (lift %lld)", i > 0 ? ", " : "",
			m->site.batch[o->batch].code,
			(long long)m->placing[o->placing].lift);
	}
	if (g->placed[k].is_bad)
		said[g->n_sentence++] = text_format(arena,
			"It touches lift %lld of %s and what lies on and under "
			"it: %s. %s",
			(long long)row->lift,
			m->site.part[g->placed[k].part].code,
			others.n > 0 ? others.bytes : "no other batch yet",
			strcmp(row->verdict, "hold") == 0
				? "Do not load it and pour nothing on it until "
				  "its pieces have spoken."
				: "Break it out while it is green; within a "
				  "day it is cheap, later it is dear.");
	if (build_is_witness(seed, m->site.part[g->placed[k].part].code,
		    nth_of_part(m, g->placed[k].placing), every))
		said[g->n_sentence++] = text_format(arena,
			"It is on the witness list drawn before: cast its "
			"witness piece, however the batch looks.");
	g->sentence = said;
	if (text_failed(&others))
		return err_memory(err);
	for (size_t i = 0; i < g->n_sentence; i++)
		if (said[i] == NULL)
			return err_memory(err);
	return ERR_NONE;
}

/* Witness blocks of the batches that were poured. */
static enum err_code
tell_drying(struct arena *arena, const char *part, struct work_poured *g,
	struct err *err)
{
	const struct work_bench bench = {.site = g->m.site,
		.placing = g->m.placing,
		.n_placing = g->m.n_placing};
	const struct work_drying *d = NULL;
	const char **said;
	size_t n = 0;

	TRY(work_drying_all(arena, &bench, &d, &n, err));
	said = arena_take(arena, n + 1, sizeof *said);
	if (said == NULL)
		return err_memory(err);
	for (size_t i = 0; i < n; i++)
		if (d[i].part[0] != '\0' &&
			(part == NULL || strcmp(part, d[i].part) == 0))
			said[g->n_drying++] = work_drying_words(
				arena, &bench, &d[i]);
	g->drying = said;
	return ERR_NONE;
}

enum err_code
work_poured(const struct desk *desk, struct arena *arena, const char *part,
	const struct work_pour_ask *of, struct work_poured *out,
	struct err *err)
{
	struct work_poured got = {.n_placed = 0};
	struct work_results results;
	struct work_placed *all;
	size_t at = 0;

	TRY(work_mixer_read(desk, arena, &got.m, err));
	if (part != NULL)
		TRY(work_find_part(&got.m.site, part, &at, err));
	all = arena_take(arena, got.m.n_placing, sizeof *all);
	if (all == NULL)
		return err_memory(err);
	for (size_t i = 0; i < got.m.n_placing; i++) {
		struct work_placed one;

		read_placed(&got.m, i, &one);
		if (one.part == got.m.site.n_part ||
			one.batch == got.m.site.n_batch ||
			(part != NULL && one.part != at))
			continue;
		put_placed(&got.m, all, got.n_placed++, &one);
	}
	got.placed = all;
	TRY(work_results(arena, &got.m.site, &results, err));
	for (size_t i = 0; i < got.n_placed; i++) {
		if (all[i].n_tested > 0)
			TRY(hear_pieces(
				arena, &got.m.site, &results, &all[i], err));
		TRY(find_touched(arena, &got, &all[i], err));
	}
	if (of != NULL)
		TRY(tell_batch(desk, arena, of, &got, err));
	TRY(tell_drying(arena, part != NULL ? got.m.site.part[at].code : NULL,
		&got, err));
	*out = got;
	return ERR_NONE;
}
