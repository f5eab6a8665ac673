/* bend.c - live bending, step by step into the book. */
#include "work/bend.h"

#include "book/book.h"
#include "core/date.h"
#include "core/text.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const char first_code[] = "1";

/* ---- steps of the book ---- */

static enum err_code
read_steps(const struct work_bench *bench, int64_t specimen_id,
	const char *code, struct lab_hung_step *step, size_t *n,
	struct err *err)
{
	*n = 0;
	for (size_t i = 0; i < bench->n_step; i++) {
		const struct book_bending_step *from = &bench->step[i];
		struct lab_hung_step *to = &step[*n];

		if (from->specimen_id != specimen_id ||
			strcmp(from->code, code) != 0)
			continue;
		if (*n >= LAB_HUNG_MOST)
			return err_report(err, ERR_DAMAGED, "step",
				"The book holds more than %d steps of one "
				"bending test.",
				LAB_HUNG_MOST);
		*to = (struct lab_hung_step){.mass = {from->mass_kg.value},
			.sag = {from->sag_m.value}};
		if (!lab_hung_find(from->what, &to->what))
			return err_report(err, ERR_DAMAGED, "step",
				"The book holds a step \"%.40s\" that is none.",
				from->what);
		TRY(date_read(from->at, 0, &to->at_s, err));
		(*n)++;
	}
	return ERR_NONE;
}

static const struct book_bending_session *
find_session(
	const struct work_bench *bench, int64_t specimen_id, const char *code)
{
	for (size_t i = 0; i < bench->n_session; i++)
		if (bench->session[i].specimen_id == specimen_id &&
			(code == NULL ||
				strcmp(bench->session[i].code, code) == 0))
			return &bench->session[i];
	return NULL;
}

bool
work_bend_hung(struct arena *arena, const struct work_bench *bench,
	size_t piece, const char *code, struct lab_hung *out)
{
	const struct book_specimen *p = &bench->site.specimen[piece];
	const struct book_bending_session *session = find_session(
		bench, p->row.id, code);
	struct err odd = {.code = ERR_NONE};
	struct lab_hung_step *step;
	size_t n;

	if (session == NULL)
		return false;
	step = arena_take(arena, LAB_HUNG_MOST, sizeof *step);
	return step != NULL &&
		read_steps(bench, p->row.id, code, step, &n, &odd) ==
		ERR_NONE &&
		lab_hanging((struct mass){session->hanger_kg}, step, n, out,
			&odd) == ERR_NONE;
}

/* ---- begun, or gone on with ---- */

/* "10,5,2,1" */
static const char *
write_weights(struct arena *arena, const double *kg, size_t n)
{
	struct text text;

	text_init(&text, arena);
	for (size_t i = 0; i < n; i++)
		text_addf(&text, "%s%.9g", i > 0 ? "," : "", kg[i]);
	return text_failed(&text) ? NULL : n == 0 ? "" : text.bytes;
}

static size_t
read_weights(const char *text, double kg[WORK_WEIGHTS_MOST])
{
	size_t n = 0;

	while (*text != '\0' && n < WORK_WEIGHTS_MOST) {
		char *end;

		kg[n] = strtod(text, &end);
		if (end == text)
			break;
		n++;
		text = *end == ',' ? end + 1 : end;
	}
	return n;
}

static enum err_code
check_new(const struct work_bend_ask *ask, const struct book_specimen *p,
	struct err *err)
{
	if (!ask->span_m.has || !(ask->span_m.value > 0))
		return err_report(err, ERR_INPUT, "--span",
			"Say the distance between the middles of the supports: "
			"--span \"600 mm\".");
	if (p->length_m.has && ask->span_m.value > p->length_m.value)
		return err_report(err, ERR_INPUT, "--span",
			"A span of %g mm is longer than the beam, which is %g "
			"mm.",
			ask->span_m.value * 1000, p->length_m.value * 1000);
	if (!ask->hanger_kg.has)
		return err_report(err, ERR_INPUT, "--hanger",
			"Weigh what carries the weights, hanger and bucket, "
			"and say it: --hanger \"1.2 kg\" (0 kg if there is "
			"none). It is part of every load.");
	if (ask->loading != NULL && strcmp(ask->loading, "centre") != 0 &&
		strcmp(ask->loading, "third") != 0)
		return err_report(err, ERR_INPUT, "--loading",
			"\"%.40s\" is no loading; it is centre or third.",
			ask->loading);
	for (size_t i = 0; i < ask->n_weight; i++)
		if (!(ask->weight_kg[i] > 0))
			return err_report(err, ERR_INPUT, "--weights",
				"A weight must be more than nothing.");
	return ERR_NONE;
}

static enum err_code
begin(const struct desk *desk, struct arena *arena,
	const struct work_bend_ask *ask, int64_t rig_id, struct work_bending *b,
	struct err *err)
{
	const struct book_specimen *p = &b->bench.site.specimen[b->piece];
	struct book_bending_session row = {
		.row = {.id = b->session.row.id, .typed = ask->typed},
		.specimen_id = p->row.id,
		.code = first_code,
		.loading = ask->loading != NULL ? ask->loading : "centre",
		.span_m = ask->span_m.value,
		.strap_m = ask->strap_m,
		.hanger_kg = ask->hanger_kg.value,
		.weights = write_weights(arena, ask->weight_kg, ask->n_weight),
		.rig_id = rig_id};

	if (row.weights == NULL)
		return err_memory(err);
	TRY(check_new(ask, p, err));
	TRY(book_begin(desk->book, desk->now_utc_s, desk->who, "bending begun",
		desk->submission, err));
	TRY(work_commit_or_undo(desk, p->code,
		book_put_bending_session(desk->book, &row, err), err));
	b->session = row;
	return ERR_NONE;
}

static bool
differs(struct maybe asked, double kept)
{
	return asked.has && fabs(asked.value - kept) > 1e-9;
}

static enum err_code
go_on(const struct work_bend_ask *ask, struct work_bending *b, struct err *err)
{
	const struct book_bending_session *s = &b->session;

	b->resumed = true;
	if (differs(ask->span_m, s->span_m) ||
		differs(ask->hanger_kg, s->hanger_kg) ||
		(ask->loading != NULL && strcmp(ask->loading, s->loading) != 0))
		return err_report(err, ERR_CONFLICT, "--span",
			"This test was begun with a span of %g mm and a hanger "
			"of %g kg; leave both out to go on with it.",
			s->span_m * 1000, s->hanger_kg);
	return ERR_NONE;
}

/* What the rig named in it is, where the request does not say. */
static enum err_code
fill_from_rig(const struct work_bench *bench, struct work_bend_ask *ask,
	int64_t *rig_id, struct err *err)
{
	struct work_test_ask test = {.rig = ask->rig,
		.reading = {.kind = "bending",
			.bending = {.loading = ask->loading,
				.span_m = ask->span_m,
				.strap_m = ask->strap_m,
				.on_rig_kg = ask->hanger_kg}}};
	const struct book_bending *b = &test.reading.bending;

	TRY(work_test_fill(bench, &test, err));
	*rig_id = test.reading.rig_id;
	if (b->loading != NULL && b->loading[0] != '\0')
		ask->loading = b->loading;
	ask->span_m = b->span_m;
	ask->strap_m = b->strap_m;
	ask->hanger_kg = b->on_rig_kg;
	return ERR_NONE;
}

static enum err_code
check_unbent(const struct work_bench *bench, size_t piece, struct err *err)
{
	const struct book_specimen *p = &bench->site.specimen[piece];

	for (size_t i = 0; i < bench->site.n_reading; i++)
		if (bench->site.reading_specimen[i] == piece &&
			strcmp(bench->site.reading[i].kind, "bending") == 0)
			return err_report(err, ERR_CONFLICT, "piece",
				"Test piece %s was bent already. If that "
				"reading is wrong, give the right one with "
				"--held and --broke: both stay in the book.",
				p->code);
	if (strcmp(p->fate, "waiting") != 0 && strcmp(p->fate, "tested") != 0)
		return err_report(err, ERR_CONFLICT, "piece",
			"Test piece %s is not waiting: %s. Its halves can be "
			"crushed and weighed.",
			p->code, err_say(err, p->fate));
	return ERR_NONE;
}

enum err_code
work_bend_open(const struct desk *desk, struct arena *arena,
	const struct work_bend_ask *ask, struct work_bending *out,
	struct err *err)
{
	const struct book_bending_session *session;
	struct work_bend_ask filled = *ask;
	int64_t rig_id = 0;

	*out = (struct work_bending){.n_step = 0};
	TRY(work_bench_read(desk, arena, &out->bench, err));
	TRY(work_find_piece(&out->bench, ask->piece, &out->piece, err));
	TRY(work_age_of(&out->bench.site, out->piece, ask->on, desk->now_utc_s,
		&out->age_s, err));
	TRY(check_unbent(&out->bench, out->piece, err));
	TRY(fill_from_rig(&out->bench, &filled, &rig_id, err));
	session = find_session(
		&out->bench, out->bench.site.specimen[out->piece].row.id, NULL);
	if (session != NULL) {
		out->session = *session;
		TRY(read_steps(&out->bench, session->specimen_id, session->code,
			out->step, &out->n_step, err));
	}
	if (out->n_step == 0 && (session == NULL || filled.span_m.has))
		TRY(begin(desk, arena, &filled, rig_id, out, err));
	else
		TRY(go_on(&filled, out, err));
	out->n_weight = read_weights(out->session.weights, out->weight_kg);
	return lab_hanging((struct mass){out->session.hanger_kg}, out->step,
		out->n_step, &out->hung, err);
}

/* ---- one step ---- */

enum err_code
work_bend_step(const struct desk *desk, struct work_bending *b,
	const struct lab_hung_step *step, struct err *err)
{
	char at[DATE_TEXT_MAX];
	struct book_bending_step row = {.row = {.typed = ""},
		.specimen_id = b->session.specimen_id,
		.code = b->session.code,
		.place = (int64_t)b->n_step + 1,
		.what = lab_hung_word(step->what),
		.mass_kg = {step->what == LAB_HUNG_ADDED, step->mass.kg},
		.sag_m = {step->what == LAB_HUNG_SAG, step->sag.m},
		.at = at};
	struct lab_hung hung;

	if (b->n_step >= LAB_HUNG_MOST)
		return err_report(err, ERR_INPUT, "step",
			"That is more than %d steps; use larger weights.",
			LAB_HUNG_MOST);
	b->step[b->n_step] = *step;
	TRY(lab_hanging((struct mass){b->session.hanger_kg}, b->step,
		b->n_step + 1, &hung, err));
	date_write(step->at_s, at);
	TRY(book_begin(desk->book, step->at_s, desk->who, "bending step",
		desk->submission, err));
	TRY(work_commit_or_undo(desk, row.what,
		book_put_bending_step(desk->book, &row, err), err));
	b->n_step++;
	b->hung = hung;
	return ERR_NONE;
}

/* ---- the reading ---- */

static struct book_bending
as_reading(const struct work_bending *b)
{
	const struct lab_hung *h = &b->hung;
	struct book_bending r = {.loading = b->session.loading,
		.span_m = {true, b->session.span_m},
		.strap_m = b->session.strap_m,
		.on_rig_kg = {true, b->session.hanger_kg},
		.on_rig_included = true,
		.held_kg = h->held_kg,
		.broke_kg = {h->has_broke, h->broke_kg},
		.hold_s = {h->has_hold, h->hold_s},
		.after_held_kg = {h->cracked, h->after_held_kg},
		.after_broke_kg = {h->has_after_broke, h->after_broke_kg}};

	if (h->n_sag > 0)
		r.sag_m = (struct maybe){true, h->sag[h->n_sag - 1].sag_m};
	return r;
}

enum err_code
work_bend_save(const struct desk *desk, struct arena *arena,
	const struct work_bending *b, struct work_test_told *out,
	struct err *err)
{
	const struct book_specimen *p = &b->bench.site.specimen[b->piece];
	const struct work_test_ask ask = {.piece = p->code,
		.reading = {.kind = "bending",
			.code = b->session.code,
			.remark = "",
			.rig_id = b->session.rig_id,
			.bending = as_reading(b)},
		.typed = ""};

	if (!b->hung.ended)
		return err_report(err, ERR_CONFLICT, "step",
			"The test has not ended: say that it fell, or that it "
			"still holds.");
	TRY(work_test_check(&b->bench, b->piece, &ask, err));
	TRY(book_begin(desk->book, desk->now_utc_s, desk->who, "bending",
		desk->submission, err));
	TRY(work_commit_or_undo(desk, p->code,
		work_test_rows(
			desk->book, &b->bench, b->piece, &ask, b->age_s, err),
		err));
	return work_test_tell(
		desk, arena, p->code, "bending", b->session.code, out, err);
}
