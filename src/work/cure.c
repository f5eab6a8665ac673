/* cure.c - how batches were kept, and what it makes of their age. */
#include "work/cure.h"

#include "book/book.h"
#include "core/date.h"
#include "core/text.h"
#include "core/unit.h"
#include "lab/strength_age.h"
#include "work/bench.h"
#include "work/mixer.h"
#include "work/trace.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double day_s = 86400, hour_s = 3600;
static const double standard_s = 28 * 86400.0, standard_within_s = 3 * 86400.0;
static const double celsius_least = -90, celsius_most = 200;

static bool
is(const char *a, const char *b)
{
	return strcmp(a, b) == 0;
}

/* ---- entered ---- */

struct putting {
	const struct desk *desk;
	struct arena *arena;
	const struct work_cure_ask *ask;
	struct work_mixer m;
	struct work_cures cures;
	const struct book_trace *trace; /* NULL: none */
	struct work_cure_told *told;
	const char **sentence;
};

static enum err_code
check_ask(const struct work_cure_ask *ask, struct err *err)
{
	static const char *const keepings[] = {
		"", "wrapped", "moist", "water", "air"};
	bool known = ask->keeping == NULL;

	for (size_t i = 0; i < sizeof keepings / sizeof keepings[0]; i++)
		known = known || is(ask->keeping, keepings[i]);
	if (!known)
		return err_report(err, ERR_INPUT, "--keeping",
			"\"%.40s\" is no way of keeping; it is wrapped, moist, "
			"water or air.",
			ask->keeping);
	if (ask->degc.has == (ask->trace != NULL))
		return err_report(err, ERR_INPUT, "--temperature",
			"Say how warm it was, --temperature \"18 degC\", or "
			"which log says it, --trace CODE; one of the two.");
	if (ask->degc.has &&
		!(ask->degc.value >= celsius_least &&
			ask->degc.value <= celsius_most))
		return err_report(err, ERR_INPUT, "--temperature",
			"%g degC is not a temperature at which anything cures.",
			ask->degc.value);
	if ((ask->batch != NULL) == (ask->trial != NULL))
		return err_report(err, ERR_INPUT, "--batch",
			"Say which batch it was, or with --trial all of a "
			"trial.");
	return ERR_NONE;
}

static enum err_code
find_trace(struct putting *p, struct err *err)
{
	struct work_traces traces;
	size_t at;

	if (p->ask->trace == NULL)
		return ERR_NONE;
	TRY(work_traces(p->desk, p->arena, &traces, err));
	TRY(work_find_trace(&traces, p->ask->trace, &at, err));
	if (!is(traces.trace[at].kind, "temperature"))
		return err_report(err, ERR_INPUT, "--trace",
			"Trace \"%.60s\" is that of a %s and no temperature's.",
			p->ask->trace, traces.trace[at].kind);
	p->trace = &traces.trace[at];
	return ERR_NONE;
}

static enum err_code
cast_of(const struct book_batch *b, int64_t *cast_s, struct err *err)
{
	if (b->made_on[0] == '\0')
		return err_report(err, ERR_INPUT, "--batch",
			"Batch %s has no date: \"foamwright batch BOOK %s --on "
			"DATE\".",
			b->code, b->code);
	return date_read(b->made_on, 0, cast_s, err);
}

/* From casting on unless it is said; a dated log by its own ends. */
static enum err_code
find_span(const struct putting *p, const struct book_batch *b,
	struct book_cure *row, struct err *err)
{
	const struct work_cure_ask *ask = p->ask;
	double length = p->trace != NULL ? p->trace->last_s - p->trace->first_s
					 : 0;
	int64_t cast = 0;

	if (ask->from == NULL || ask->start == NULL)
		TRY(cast_of(b, &cast, err));
	row->from_s = cast;
	if (p->trace != NULL && p->trace->dated) {
		if ((double)cast < p->trace->first_s)
			row->from_s = (int64_t)p->trace->first_s;
		row->to_s = (int64_t)ceil(p->trace->last_s);
	} else if (p->trace != NULL) {
		if (ask->start != NULL)
			TRY(date_read(ask->start, 0, &row->from_s, err));
		row->to_s = row->from_s + (int64_t)ceil(length);
	}
	if (ask->from != NULL && (p->trace == NULL || p->trace->dated))
		TRY(date_read(ask->from, 0, &row->from_s, err));
	if (ask->to != NULL)
		TRY(date_read(ask->to, 0, &row->to_s, err));
	else if (p->trace == NULL)
		return err_report(
			err, ERR_INPUT, "--to", "Say until when: --to DATE.");
	if (row->to_s <= row->from_s)
		return err_report(err, ERR_INPUT, "--to",
			"For batch %s that while would end before it begins; "
			"look at --from, --to and the log's own dates.",
			b->code);
	return ERR_NONE;
}

/* The code that was said, or the next number of that batch. */
static const char *
code_for(const struct putting *p, int64_t batch_id)
{
	size_t n = 1;

	if (p->ask->code != NULL)
		return p->ask->code;
	for (size_t i = 0; i < p->cures.n_cure; i++)
		n += p->cures.cure[i].batch_id == batch_id;
	return text_format(p->arena, "%zu", n);
}

static enum err_code
put_one(struct putting *p, size_t batch, struct err *err)
{
	const struct book_batch *b = &p->m.site.batch[batch];
	const struct work_cure_ask *ask = p->ask;
	struct book_cure row = {
		.row = {.typed = ask->typed != NULL ? ask->typed : ""},
		.batch_id = b->row.id,
		.degc = ask->degc,
		.trace_id = p->trace != NULL ? p->trace->row.id : 0,
		.keeping = ask->keeping != NULL ? ask->keeping : "",
		.remark = ask->remark != NULL ? ask->remark : ""};
	char from[DATE_TEXT_MAX], to[DATE_TEXT_MAX];
	const char *text;

	TRY(find_span(p, b, &row, err));
	row.code = code_for(p, b->row.id);
	if (row.code == NULL)
		return err_memory(err);
	for (size_t i = 0; i < p->cures.n_cure; i++)
		if (p->cures.cure[i].batch_id == b->row.id &&
			is(p->cures.cure[i].code, row.code))
			row.row.id = p->cures.cure[i].row.id;
	TRY(book_put_cure(p->desk->book, &row, err));
	date_write_day(row.from_s, 0, from);
	date_write_day(row.to_s, 0, to);
	text = p->trace != NULL
		? text_format(p->arena, "%s: from %s to %s by the log \"%s\".",
			  b->code, from, to, p->trace->code)
		: text_format(p->arena, "%s: from %s to %s at %.3g degC.",
			  b->code, from, to, ask->degc.value);
	if (text == NULL)
		return err_memory(err);
	p->sentence[p->told->n_sentence++] = text;
	p->told->n_batch++;
	return ERR_NONE;
}

static enum err_code
put_all(struct putting *p, struct err *err)
{
	const struct work_site *s = &p->m.site;
	size_t at;

	if (p->ask->batch != NULL) {
		TRY(work_find_batch(&p->m, p->ask->batch, &at, err));
		return put_one(p, at, err);
	}
	TRY(work_find_trial(&p->m, p->ask->trial, &at, err));
	for (size_t i = 0; i < s->n_batch; i++)
		if (s->batch[i].trial_id == s->trial[at].row.id &&
			s->batch[i].made_on[0] != '\0')
			TRY(put_one(p, i, err));
	if (p->told->n_batch == 0)
		return err_report(err, ERR_INPUT, "--trial",
			"No batch of trial %s has been made yet.",
			s->trial[at].code);
	return ERR_NONE;
}

enum err_code
work_cure_put(const struct desk *desk, struct arena *arena,
	const struct work_cure_ask *ask, struct work_cure_told *out,
	struct err *err)
{
	struct putting p = {
		.desk = desk, .arena = arena, .ask = ask, .told = out};

	*out = (struct work_cure_told){.n_batch = 0};
	TRY(check_ask(ask, err));
	TRY(work_mixer_read(desk, arena, &p.m, err));
	TRY(work_cures(desk, arena, &p.cures, err));
	TRY(find_trace(&p, err));
	p.sentence = arena_take(
		arena, p.m.site.n_batch + 1, sizeof *p.sentence);
	if (p.sentence == NULL)
		return err_memory(err);
	out->sentence = p.sentence;
	TRY(book_begin(desk->book, desk->now_utc_s, desk->who, "cure",
		desk->submission, err));
	return work_commit_or_undo(desk,
		ask->batch != NULL ? ask->batch : ask->trial, put_all(&p, err),
		err);
}

enum err_code
work_cures(const struct desk *desk, struct arena *arena, struct work_cures *out,
	struct err *err)
{
	*out = (struct work_cures){.n_cure = 0};
	TRY(book_all_cure(desk->book, arena, &out->cure, &out->n_cure, err));
	if (out->n_cure == 0)
		return ERR_NONE;
	TRY(book_all_trace(desk->book, arena, &out->trace, &out->n_trace, err));
	return book_all_trace_point(
		desk->book, arena, &out->point, &out->n_point, err);
}

/* ---- what it makes of an age ---- */

/* One while at one temperature, within a window. */
struct adding {
	double from_s, to_s; /* the window; from moves on with what is known */
	double known_s, degree_s;
	struct work_cured *out;
	double keeping_s; /* of the keeping that holds so far */
};

static void
add_while(struct adding *a, double from_s, double to_s, double degC)
{
	const struct temperature reference = {lab_default_reference_degC};
	double length;

	from_s = fmax(from_s, a->from_s);
	to_s = fmin(to_s, a->to_s);
	length = to_s - from_s;
	if (!(length > 0))
		return;
	if (a->known_s <= 0)
		a->out->lowest_degC = a->out->highest_degC = degC;
	a->out->lowest_degC = fmin(a->out->lowest_degC, degC);
	a->out->highest_degC = fmax(a->out->highest_degC, degC);
	a->from_s = to_s; /* told once, however often it was entered */
	a->known_s += length;
	a->degree_s += degC * length;
	a->out->equivalent_s += length *
		lab_arrhenius_factor((struct temperature){degC}, reference,
			lab_default_activation_J_mol);
	a->out->nurse_saul_degC_h += fmax(0, degC) * length / hour_s;
}

/* Each point holds halfway to its neighbours, a silence apart. */
static void
add_trace(struct adding *a, const struct work_cures *cures,
	const struct book_cure *cure)
{
	double shift = 0, last = 0, last_degC = 0;
	bool any = false;

	for (size_t i = 0; i < cures->n_trace; i++)
		if (cures->trace[i].row.id == cure->trace_id &&
			!cures->trace[i].dated)
			shift = (double)cure->from_s - cures->trace[i].first_s;
	for (size_t i = 0; i < cures->n_point; i++) {
		const struct book_trace_point *p = &cures->point[i];
		double from = p->from_s + shift, to = p->to_s + shift;

		if (p->trace_id != cure->trace_id)
			continue;
		if (any && from - last <= work_cure_gap_s)
			add_while(a, fmax(last, (double)cure->from_s),
				fmin(from, (double)cure->to_s),
				(last_degC + p->mean) / 2);
		add_while(a, fmax(from, (double)cure->from_s),
			fmin(to, (double)cure->to_s), p->mean);
		any = true;
		last = to;
		last_degC = p->mean;
	}
}

static int
by_beginning(const void *x, const void *y)
{
	const struct book_cure *a = *(const struct book_cure *const *)x;
	const struct book_cure *b = *(const struct book_cure *const *)y;

	if (a->from_s != b->from_s)
		return a->from_s < b->from_s ? -1 : 1;
	return a->row.id < b->row.id ? -1 : a->row.id > b->row.id;
}

enum { CURES_MOST = 64 }; /* of one batch; more are left out */

struct work_cured
work_cured(const struct work_site *site, const struct work_cures *cures,
	size_t batch, double age_s)
{
	const struct book_batch *b = &site->batch[batch];
	const struct book_cure *of[CURES_MOST];
	struct work_cured got = {.keeping = ""};
	struct adding a = {.out = &got};
	struct err odd = {.code = ERR_NONE};
	int64_t cast = 0;
	size_t n = 0;

	for (size_t i = 0; i < cures->n_cure && n < CURES_MOST; i++)
		if (cures->cure[i].batch_id == b->row.id)
			of[n++] = &cures->cure[i];
	if (n == 0 || !(age_s > 0) || b->made_on[0] == '\0' ||
		date_read(b->made_on, 0, &cast, &odd) != ERR_NONE)
		return got;
	qsort(of, n, sizeof of[0], by_beginning);
	a.from_s = (double)cast;
	a.to_s = (double)cast + age_s;
	for (size_t i = 0; i < n; i++) {
		double before = a.known_s;

		if (of[i]->degc.has)
			add_while(&a, (double)of[i]->from_s,
				(double)of[i]->to_s, of[i]->degc.value);
		else
			add_trace(&a, cures, of[i]);
		if (a.known_s - before > a.keeping_s) {
			a.keeping_s = a.known_s - before;
			got.keeping = of[i]->keeping;
		}
	}
	got.has = a.known_s > 0;
	got.known_ratio = a.known_s / age_s;
	got.is_usable = got.has && got.known_ratio >= work_cure_least_known;
	if (got.has) {
		got.mean_degC = a.degree_s / a.known_s;
		got.equivalent_s /= got.known_ratio;
		got.nurse_saul_degC_h /= got.known_ratio;
	}
	return got;
}

bool
work_cure_reach(struct arena *arena, const struct work_site *site,
	const struct work_cures *cures, size_t batch,
	struct work_cure_reach *out)
{
	const struct book_batch *b = &site->batch[batch];
	struct err odd = {.code = ERR_NONE};
	int64_t cast = 0, until = 0;
	char day[DATE_TEXT_MAX];

	if (b->made_on[0] == '\0' ||
		date_read(b->made_on, 0, &cast, &odd) != ERR_NONE)
		return false;
	for (size_t i = 0; i < cures->n_cure; i++)
		if (cures->cure[i].batch_id == b->row.id &&
			cures->cure[i].to_s > until)
			until = cures->cure[i].to_s;
	if (until <= cast)
		return false;
	date_write_day(until, 0, day);
	*out = (struct work_cure_reach){.until = arena_text(arena, day),
		.days = (double)(until - cast) / day_s,
		.cured = work_cured(
			site, cures, batch, (double)(until - cast))};
	out->equivalent_days = out->cured.equivalent_s / day_s;
	return out->until != NULL && out->cured.has;
}

/* ---- told ---- */

enum { SENTENCES_MOST = 4 };

/* How warm it was, as far as it is known. */
static const char *
known_text(struct arena *arena, const struct work_cure_reach *r)
{
	const struct work_cured *c = &r->cured;

	return text_format(arena,
		"Known until %s, %.1f days after casting: %.1f degC on average "
		"(%.1f to %.1f), for %.0f %% of that time.",
		r->until, r->days, c->mean_degC, c->lowest_degC,
		c->highest_degC, c->known_ratio * 100);
}

static const char *
age_sentence(struct arena *arena, const struct work_cure_reach *r)
{
	if (!r->cured.is_usable)
		return text_format(arena,
			"That is too little to say how old it makes the batch: "
			"%.0f %% of the time has to be known. Its ages are "
			"taken as if it cured at 20 degC.",
			work_cure_least_known * 100);
	return text_format(arena,
		"That is as if it had lain %.1f days at 20 degC (its "
		"equivalent age).",
		r->equivalent_days);
}

enum err_code
work_cure_say(struct arena *arena, const struct work_site *site,
	const struct work_cures *cures, size_t batch,
	const char *const **sentence, size_t *n, struct err *err)
{
	struct work_cure_reach reach;
	const char **said = arena_take(arena, SENTENCES_MOST, sizeof *said);
	size_t k = 0;

	if (said == NULL)
		return err_memory(err);
	*sentence = said;
	*n = 0;
	if (!work_cure_reach(arena, site, cures, batch, &reach))
		return ERR_NONE;
	said[k++] = known_text(arena, &reach);
	said[k++] = age_sentence(arena, &reach);
	said[k++] = N_("It rests on ASTM C1074, equation 2, with 5000 K for "
		       "ordinary cement: much ash or slag and other cements "
		       "answer to the cold otherwise, and foamed concrete was "
		       "not what it was measured on.");
	for (size_t i = 0; i < k; i++)
		if (said[i] == NULL)
			return err_memory(err);
	*n = k;
	return ERR_NONE;
}

/* ---- a strength at 28 days ---- */

struct work_at_28
work_at_28(const struct work_site *site, const struct work_cures *cures,
	const struct work_result *r)
{
	/* EN 1992-1-1, 3.1.2: cement of class N. */
	const struct lab_age_relation class_n = {
		.kind = LAB_AGE_EXPONENTIAL, .s = 0.25};
	struct work_at_28 at = {.has = false};
	struct err odd = {.code = ERR_NONE};
	struct lab_strength_at got;

	if ((r->measure != CHOOSE_BENDING_STRENGTH &&
		    r->measure != CHOOSE_CRUSHING_STRENGTH) ||
		!r->age_s.has || !(r->age_s.value > 0))
		return at;
	at.cured = work_cured(site, cures, r->batch, r->age_s.value);
	at.from_age_s = at.cured.is_usable ? at.cured.equivalent_s
					   : r->age_s.value;
	if ((!at.cured.is_usable &&
		    fabs(r->age_s.value - standard_s) <= standard_within_s) ||
		lab_strength_at((struct stress){1e6},
			(struct duration){at.from_age_s},
			(struct duration){standard_s}, &class_n, &got,
			&odd) != ERR_NONE)
		return at;
	at.has = true;
	at.value = (struct interval){
		r->value.low * got.ratio, r->value.high * got.ratio};
	at.widest = (struct interval){
		r->value.low * got.ratio_low, r->value.high * got.ratio_high};
	return at;
}

static const char *
strength_text(struct arena *arena, struct interval value)
{
	const char *low = unit_digits(arena, value.low / 1e6, 3);
	const char *high = isfinite(value.high)
		? unit_digits(arena, value.high / 1e6, 3)
		: "";

	if (low == NULL || high == NULL)
		return NULL;
	if (!isfinite(value.high))
		return text_format(arena, "more than %s N/mm2", low);
	if (!(value.low > 0))
		return text_format(arena, "less than %s N/mm2", high);
	return is(low, high) ? text_format(arena, "%s N/mm2", low)
			     : text_format(arena, "%s to %s N/mm2", low, high);
}

static const char *
age_text(struct arena *arena, const struct work_result *r,
	const struct work_at_28 *at)
{
	const struct work_cured *c = &at->cured;

	if (!c->is_usable)
		return text_format(arena,
			"from %.3g days, as if it cured at 20 degC%s",
			r->age_s.value / day_s,
			c->has ? text_format(arena,
					 "; only %.0f %% of the time is known",
					 c->known_ratio * 100)
			       : "");
	return text_format(arena,
		"from %.3g days, which at %.3g degC on average (%.3g to %.3g) "
		"are %.3g days at 20 degC%s%s",
		r->age_s.value / day_s, c->mean_degC, c->lowest_degC,
		c->highest_degC, c->equivalent_s / day_s,
		c->keeping[0] != '\0' ? ", " : "", c->keeping);
}

const char *
work_at_28_text(struct arena *arena, const struct work_result *r,
	const struct work_at_28 *at)
{
	const char *value, *widest, *age;

	if (!at->has)
		return "";
	value = strength_text(arena, at->value);
	widest = strength_text(arena, at->widest);
	age = age_text(arena, r, at);
	if (value == NULL || widest == NULL || age == NULL)
		return NULL;
	return text_format(arena,
		"at 28 days and 20 degC: %s (published relations for ordinary "
		"concrete: %s); %s",
		value, widest, age);
}
