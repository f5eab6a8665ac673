/* trace.c - traces of loggers into the book. */
#include "work/trace.h"

#include "core/date.h"
#include "core/text.h"
#include "core/unit.h"
#include "lab/trace_blow.h"
#include "lab/trace_load.h"
#include "lab/trace_thin.h"
#include "work/home_test.h"
#include "work/trace_how.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { PIECE = 1 << 16, SENTENCES_MOST = 12 };

static const char *const kinds[] = {[LAB_TRACE_LOAD] = "load",
	[LAB_TRACE_BLOW] = "blow",
	[LAB_TRACE_TEMPERATURE] = "temperature"};

static bool
is(const char *a, const char *b)
{
	return strcmp(a, b) == 0;
}

/* ---- read ---- */

struct reading {
	struct arena *arena;
	const struct work_trace_ask *ask;
	const struct book_source *source;
	struct lab_trace_found found;
	struct lab_load_peak peak;
	struct lab_load_trace load;
	struct lab_blow_peak blow_peak;
	struct lab_blow_trace blow;
	struct lab_thin thin;
	double lowest, highest;
	struct lab_trace_row first[WORK_TRACE_FIRST], last;
	size_t n;
};

/* First pass: what every kind needs, and the peak. */
static enum err_code
first_row(void *context, const struct lab_trace_row *row, struct err *err)
{
	struct reading *r = context;

	if (r->n < WORK_TRACE_FIRST)
		r->first[r->n] = *row;
	r->last = *row;
	if (r->n++ == 0)
		r->lowest = r->highest = row->value;
	r->lowest = fmin(r->lowest, row->value);
	r->highest = fmax(r->highest, row->value);
	TRY(lab_thin_row(&r->thin, row, err));
	if (r->ask->how.kind == LAB_TRACE_LOAD)
		return lab_load_peak_row(&r->peak, row, err);
	if (r->ask->how.kind == LAB_TRACE_BLOW)
		return lab_blow_peak_row(&r->blow_peak, row, err);
	return ERR_NONE;
}

static enum err_code
second_row(void *context, const struct lab_trace_row *row, struct err *err)
{
	struct reading *r = context;

	if (r->ask->how.kind == LAB_TRACE_LOAD)
		return lab_load_trace_row(&r->load, row, err);
	return lab_blow_trace_row(&r->blow, row, err);
}

static enum err_code
pass(struct reading *r, lab_trace_sink sink, struct err *err)
{
	struct arena_mark mark = arena_mark(r->arena);
	char *piece = arena_take(r->arena, PIECE, 1);
	struct lab_trace *trace;
	enum err_code code;
	size_t n = 1;

	if (piece == NULL)
		return err_memory(err);
	TRY(r->source->rewind(r->source->context, err));
	TRY(lab_trace_open(r->arena, &r->ask->how, sink, r, &trace, err));
	do {
		code = r->source->read(
			r->source->context, piece, PIECE, &n, err);
		if (code == ERR_NONE && n > 0)
			code = lab_trace_feed(trace, piece, n, err);
	} while (code == ERR_NONE && n > 0);
	if (code == ERR_NONE)
		code = lab_trace_end(trace, err);
	r->found = *lab_trace_found(trace);
	arena_back(r->arena, mark);
	return code;
}

static enum err_code
read_through(struct reading *r, struct err *err)
{
	const struct work_trace_ask *ask = r->ask;

	r->peak.zero_s = ask->zero_s.value;
	TRY(pass(r, first_row, err));
	if (ask->how.kind == LAB_TRACE_TEMPERATURE)
		return ERR_NONE;
	r->load.peak_N = r->peak.peak_N;
	r->load.zero_N = r->peak.zero_N;
	r->load.has_sag = r->found.has_sag;
	r->blow.peak = r->blow_peak;
	r->blow.mass.kg = ask->mass_kg.value;
	r->blow.entry_m_s = ask->speed_m_s.value;
	TRY(pass(r, second_row, err));
	if (ask->how.kind == LAB_TRACE_LOAD &&
		!(r->peak.peak_N - r->peak.zero_N > 0))
		return err_report(err, ERR_INPUT, "file",
			"The highest load is %g N above nothing: nothing "
			"pressed. If the sign is turned, turn the cell's leads "
			"or the sign in the file.",
			r->peak.peak_N - r->peak.zero_N);
	return ERR_NONE;
}

/* ---- as a row ---- */

static struct maybe
some(bool has, double value)
{
	return (struct maybe){has && isfinite(value), has ? value : 0};
}

static void
take_load(const struct reading *r, struct book_trace *row)
{
	const struct lab_load_trace *l = &r->load;
	double stiffness = 0;
	bool stiff = l->has_sag && lab_load_stiffness(l, &stiffness);

	row->highest = r->highest - l->zero_N;
	row->lowest = r->lowest - l->zero_N;
	row->zero = some(r->ask->zero_s.value > 0, l->zero_N);
	row->crack_n = some(l->has_cracked, l->crack_N);
	row->after_n = some(l->has_cracked, l->after_N);
	row->end_n = some(true, l->end_N);
	row->stiffness_n_m = some(stiff, stiffness);
	row->energy_j = some(l->has_sag, l->energy_J);
	row->crack_energy_j = some(l->has_sag, l->crack_energy_J);
}

static void
take_blow(const struct reading *r, struct book_trace *row)
{
	const struct lab_blow_trace *b = &r->blow;
	bool moves = b->is_whole && b->entry_m_s > 0;

	row->blow_s = some(b->is_whole, b->to_s - b->from_s);
	row->speed_lost_m_s = some(b->is_whole, b->speed_lost_m_s);
	row->depth_m = some(moves, b->depth_m);
	row->energy_j = some(moves && b->mass.kg > 0, b->energy_J);
}

static enum err_code
as_row(const struct reading *r, struct book_trace *row, struct err *err)
{
	const struct lab_trace_found *f = &r->found;

	*row = (struct book_trace){
		.row = {.typed = r->ask->typed != NULL ? r->ask->typed : ""},
		.kind = kinds[r->ask->how.kind],
		.how = work_trace_how_kept(r->arena, f),
		.rows = (int64_t)f->n_row,
		.skipped = (int64_t)f->n_skipped,
		.dated = f->is_dated,
		.first_s = f->first_s,
		.last_s = f->last_s,
		.gap_s = f->gap_s,
		.gap_at_s = f->gap_at_s,
		.division = f->division,
		.highest = r->highest,
		.lowest = r->lowest};
	if (r->ask->how.kind == LAB_TRACE_LOAD)
		take_load(r, row);
	else if (r->ask->how.kind == LAB_TRACE_BLOW)
		take_blow(r, row);
	return row->how != NULL ? ERR_NONE : err_memory(err);
}

/* ---- written ---- */

static enum err_code
put_points(struct book *book, int64_t trace_id, const struct reading *r,
	struct err *err)
{
	for (size_t i = 0; i < r->thin.n; i++) {
		const struct lab_thin_point *p = &r->thin.point[i];
		const struct book_trace_point row = {.trace_id = trace_id,
			.place = (int64_t)i + 1,
			.from_s = p->from_s,
			.to_s = p->to_s,
			.mean = p->mean,
			.low = p->low,
			.high = p->high,
			.sag_m = {r->found.has_sag, p->sag_m}};

		TRY(book_put_trace_point(book, &row, err));
	}
	return ERR_NONE;
}

/* The highest load to the logger's own step, as weights or as a force. */
static void
load_reading(const struct reading *r, struct work_test_ask *test)
{
	double half = r->found.division / 2;
	double low = r->load.peak_N - r->load.zero_N - half,
	       high = low + 2 * half;
	struct book_reading *to = &test->reading;

	to->kind = r->ask->test;
	to->code = "1";
	to->remark = "";
	if (is(to->kind, "bending")) {
		to->bending = (struct book_bending){.loading = "",
			.span_m = r->ask->span_m,
			.strap_m = r->ask->strap_m,
			.on_rig_kg = r->ask->hanger_kg,
			.held_kg = fmax(0, low) / gravity_m_s2,
			.broke_kg = {true,
				fmax(high, low * (1 + 1e-9)) / gravity_m_s2}};
		if (r->load.has_cracked)
			to->bending.after_held_kg = (struct maybe){
				true, fmax(0, r->load.after_N) / gravity_m_s2};
		return;
	}
	if (half > 0)
		to->crushing = (struct book_crushing){
			.held_n = {true, fmax(0, low)},
			.broke_n = {true, high}};
	else
		to->crushing = (struct book_crushing){.load_n = {true, low}};
}

struct writing {
	const struct desk *desk;
	struct reading *r;
	struct work_bench bench;
	struct work_test_ask test;
	bool has_test;
	size_t piece;
	struct maybe age_s;
	bool is_read;
	struct book_trace row;
	struct book_file file;
};

static enum err_code
write_all(struct writing *w, struct err *err)
{
	struct book *book = w->desk->book;

	TRY(book_keep_file(book, &w->file, w->r->source, err));
	w->row.file_id = w->file.row.id;
	TRY(book_put_trace(book, &w->row, err));
	TRY(put_points(book, w->row.row.id, w->r, err));
	if (!w->has_test)
		return ERR_NONE;
	return work_test_rows(
		book, &w->bench, w->piece, &w->test, w->age_s, err);
}

/* "K7MD load 2" */
static enum err_code
make_code(const struct desk *desk, struct writing *w, struct err *err)
{
	const struct work_trace_ask *ask = w->r->ask;
	const struct book_trace *trace;
	size_t n, nth = 1;
	bool taken = true;

	TRY(book_all_trace(desk->book, w->r->arena, &trace, &n, err));
	while (taken) {
		w->row.code = ask->code != NULL
			? ask->code
			: text_format(w->r->arena, "%s %s %zu",
				  ask->piece != NULL
					  ? w->bench.site.specimen[w->piece]
						    .code
					  : "store",
				  w->row.kind, nth);
		if (w->row.code == NULL)
			return err_memory(err);
		taken = false;
		for (size_t i = 0; i < n; i++)
			taken = taken || is(trace[i].code, w->row.code);
		if (taken && ask->code != NULL)
			return err_report(err, ERR_INPUT, "--code",
				"There is a trace \"%.60s\" in the book; give "
				"this one another code.",
				ask->code);
		nth++;
	}
	return ERR_NONE;
}

static enum err_code
find_piece(const struct desk *desk, struct writing *w, struct err *err)
{
	const struct work_trace_ask *ask = w->r->ask;

	if (ask->piece == NULL)
		return ask->how.kind == LAB_TRACE_TEMPERATURE
			? ERR_NONE
			: err_report(err, ERR_INPUT, "piece",
				  "A load or a blow belongs to a test piece: "
				  "say its marking.");
	TRY(work_find_piece(&w->bench, ask->piece, &w->piece, err));
	TRY(work_age_of(&w->bench.site, w->piece, ask->on, desk->now_utc_s,
		&w->age_s, err));
	w->row.specimen_id = w->bench.site.specimen[w->piece].row.id;
	w->has_test = ask->test != NULL && ask->test[0] != '\0';
	if (!w->has_test)
		return ERR_NONE;
	if (ask->how.kind != LAB_TRACE_LOAD ||
		(!is(ask->test, "bending") && !is(ask->test, "crushing")))
		return err_report(err, ERR_INPUT, "--test",
			"The trace of a load is that of a bending or a "
			"crushing test.");
	w->test = (struct work_test_ask){
		.piece = ask->piece, .rig = ask->rig, .typed = ask->typed};
	load_reading(w->r, &w->test);
	TRY(work_test_fill(&w->bench, &w->test, err));
	return work_test_check(&w->bench, w->piece, &w->test, err);
}

/* All but the writing. */
static enum err_code
think(struct writing *w, struct err *err)
{
	const struct desk *desk = w->desk;

	TRY(work_bench_read(desk, w->r->arena, &w->bench, err));
	TRY(read_through(w->r, err));
	TRY(as_row(w->r, &w->row, err));
	w->is_read = true;
	TRY(find_piece(desk, w, err));
	return make_code(desk, w, err);
}

static struct writing *
begin(const struct desk *desk, struct arena *arena,
	const struct book_source *source, const struct work_trace_ask *ask)
{
	struct reading *r = arena_take(arena, 1, sizeof *r);
	struct writing *w = arena_take(arena, 1, sizeof *w);

	if (r == NULL || w == NULL)
		return NULL;
	*r = (struct reading){.arena = arena, .ask = ask, .source = source};
	*w = (struct writing){.desk = desk, .r = r};
	return w;
}

enum err_code
work_trace_look(const struct desk *desk, struct arena *arena,
	const struct book_source *source, const struct work_trace_ask *ask,
	struct work_trace_look *out, struct err *err)
{
	struct writing *w = begin(desk, arena, source, ask);
	enum err_code code, say;

	*out = (struct work_trace_look){.is_read = false};
	if (w == NULL)
		return err_memory(err);
	code = think(w, err);
	out->found = w->r->found;
	if (!w->is_read)
		return code;
	out->is_read = true;
	out->row = w->row;
	out->last = w->r->last;
	while (out->n_first < WORK_TRACE_FIRST && out->n_first < w->r->n) {
		out->first[out->n_first] = w->r->first[out->n_first];
		out->n_first++;
	}
	say = work_trace_say(
		arena, &w->row, &out->sentence, &out->n_sentence, err);
	return code != ERR_NONE ? code : say;
}

enum err_code
work_trace_put(const struct desk *desk, struct arena *arena,
	const struct book_source *source, const struct work_trace_ask *ask,
	struct work_trace_told *out, struct err *err)
{
	struct writing *w = begin(desk, arena, source, ask);

	if (w == NULL)
		return err_memory(err);
	TRY(think(w, err));
	w->file = (struct book_file){
		.row = {.typed = ""}, .name = ask->name, .media = "text/csv"};
	TRY(book_begin(desk->book, desk->now_utc_s, desk->who, "trace",
		desk->submission, err));
	TRY(work_commit_or_undo(desk, w->row.code, write_all(w, err), err));
	*out = (struct work_trace_told){.row = w->row,
		.file_code = arena_text(arena, w->file.code),
		.file_bytes = w->file.bytes};
	if (out->file_code == NULL)
		return err_memory(err);
	return work_trace_say(
		arena, &w->row, &out->sentence, &out->n_sentence, err);
}

/* ---- told ---- */

struct telling {
	struct arena *arena;
	const char **sentence;
	size_t n;
	bool failed;
};

static void
say(struct telling *t, const char *text)
{
	if (text == NULL)
		t->failed = true;
	else if (t->n < SENTENCES_MOST)
		t->sentence[t->n++] = text;
}

static const char *
digits(struct telling *t, double value)
{
	const char *text = unit_digits(t->arena, value, 3);

	return text != NULL ? text : "?";
}

static const char *
span_text(struct telling *t, double s)
{
	if (s < 1)
		return text_format(t->arena, "%s ms", digits(t, s * 1e3));
	if (s < 600)
		return text_format(t->arena, "%s s", digits(t, s));
	if (s < 2 * 86400.0)
		return text_format(t->arena, "%s h", digits(t, s / 3600));
	return text_format(t->arena, "%s days", digits(t, s / 86400));
}

static void
say_load(struct telling *t, const struct book_trace *x)
{
	say(t,
		text_format(t->arena,
			"Highest load %s N (%s kg), read to %s N.%s",
			digits(t, x->highest),
			digits(t, x->highest / gravity_m_s2),
			digits(t, x->division),
			x->zero.has ? text_format(t->arena,
					      " A zero of %s N was taken off.",
					      digits(t, x->zero.value))
				    : ""));
	if (x->crack_n.has)
		say(t,
			text_format(t->arena,
				"First crack at %s N, a fall by over a tenth; "
				"after it at most %s N (%.2f of that), %s N "
				"at the end.",
				digits(t, x->crack_n.value),
				digits(t, x->after_n.value),
				x->after_n.value / x->crack_n.value,
				digits(t, x->end_n.value)));
	if (x->stiffness_n_m.has)
		say(t,
			text_format(t->arena,
				"Stiffness %s N/mm, the slope from 20 to 60 %% "
				"of the highest load; the rig's own give is in "
				"it.",
				digits(t, x->stiffness_n_m.value / 1000)));
	if (x->energy_j.has)
		say(t,
			text_format(t->arena,
				"Energy under load and sag %s J, %s J of it up "
				"to the %s.",
				digits(t, x->energy_j.value),
				digits(t, x->crack_energy_j.value),
				x->crack_n.has
					? arena_say(t->arena, "first crack")
					: arena_say(t->arena, "highest load")));
}

static void
say_blow(struct telling *t, const struct book_trace *x)
{
	double peak = fmax(fabs(x->highest), fabs(x->lowest));

	say(t,
		text_format(t->arena, "Highest acceleration %s m/s2 (%s g).",
			digits(t, peak), digits(t, peak / gravity_m_s2)));
	if (!x->blow_s.has) {
		say(t,
			N_("The blow is cut off: it began before the trace or "
			   "ended after it."));
		return;
	}
	say(t,
		text_format(t->arena,
			"The blow lasted %s and took %s m/s from the bar.",
			span_text(t, x->blow_s.value),
			digits(t, x->speed_lost_m_s.value)));
	if (x->depth_m.has)
		say(t,
			text_format(t->arena, "The bar went %s mm in it%s%s%s.",
				digits(t, x->depth_m.value * 1000),
				x->energy_j.has
					? arena_say(t->arena,
						  " and gave the piece ")
					: "",
				x->energy_j.has ? digits(t, x->energy_j.value)
						: "",
				x->energy_j.has ? " J" : ""));
	else
		say(t,
			N_("With the speed as it hits (--speed) the way and "
			   "the "
			   "energy would follow."));
}

static void
say_temperature(struct telling *t, const struct book_trace *x)
{
	say(t,
		text_format(t->arena, "Between %.1f and %.1f degC over %s.",
			x->lowest, x->highest,
			span_text(t, x->last_s - x->first_s)));
	if (!x->dated)
		say(t,
			N_("Its times have no dates, so that it can be the "
			   "cure "
			   "only of a batch whose start is said "
			   "(--start)."));
}

enum err_code
work_trace_say(struct arena *arena, const struct book_trace *x,
	const char *const **sentence, size_t *n, struct err *err)
{
	struct telling t = {.arena = arena};
	double mean_s = (x->last_s - x->first_s) / (double)(x->rows - 1);
	const char *how = work_trace_how(arena, x->how);

	if (how == NULL)
		return err_memory(err);
	t.sentence = arena_take(arena, SENTENCES_MOST, sizeof(char *));
	if (t.sentence == NULL)
		return err_memory(err);
	if (is(x->kind, "load"))
		say_load(&t, x);
	else if (is(x->kind, "blow"))
		say_blow(&t, x);
	else
		say_temperature(&t, x);
	say(&t,
		text_format(arena, "%lld rows over %s%s; understood: %s.",
			(long long)x->rows,
			span_text(&t, x->last_s - x->first_s),
			x->skipped > 0
				? text_format(arena,
					  ", %lld skipped where a figure was "
					  "missing",
					  (long long)x->skipped)
				: "",
			how));
	if (x->gap_s > 10 * mean_s)
		say(&t,
			text_format(arena,
				"There is a gap of %s in it, ten times what is "
				"usual between two rows.",
				span_text(&t, x->gap_s)));
	if (t.failed)
		return err_memory(err);
	*sentence = t.sentence;
	*n = t.n;
	return ERR_NONE;
}

/* ---- looked up ---- */

enum err_code
work_traces(const struct desk *desk, struct arena *arena,
	struct work_traces *out, struct err *err)
{
	TRY(book_all_trace(desk->book, arena, &out->trace, &out->n_trace, err));
	TRY(book_all_file(desk->book, arena, &out->file, &out->n_file, err));
	return work_site_read(desk->book, arena, &out->site, err);
}

enum err_code
work_find_trace(const struct work_traces *traces, const char *code,
	size_t *index, struct err *err)
{
	char codes[256];
	size_t n = 0;

	codes[0] = '\0';
	for (size_t i = 0; i < traces->n_trace; i++) {
		if (is(traces->trace[i].code, code)) {
			*index = i;
			return ERR_NONE;
		}
		if (n + 80 < sizeof codes)
			n += (size_t)snprintf(codes + n, sizeof codes - n,
				"%s\"%.60s\"", n > 0 ? ", " : "",
				traces->trace[i].code);
	}
	return err_report(err, ERR_NOT_FOUND, "trace",
		"There is no trace \"%.60s\" in the book.%s%s", code,
		n > 0 ? err_say(err, " There are: ") : "", codes);
}

const struct book_file *
work_trace_file(
	const struct work_traces *traces, const struct book_trace *trace)
{
	for (size_t i = 0; i < traces->n_file; i++)
		if (traces->file[i].row.id == trace->file_id)
			return &traces->file[i];
	return NULL;
}
