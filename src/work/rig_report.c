/* rig_report.c - is the rig lying: what each rig was held against, and what
 * nobody has looked at yet. */
#include "work/rig.h"

#include "book/book.h"
#include "core/date.h"
#include "core/text.h"
#include "core/unit.h"
#include "lab/drop.h"
#include "lab/rig_check.h"

#include <math.h>
#include <string.h>

enum { SENTENCES_MOST = 24 };

/* Common practice, no source: a beam is slender from four depths on, a weight
 * may be off by a hundredth. */
static const double slender_least = 4, weight_off_most = 0.01;

static bool
is(const char *a, const char *b)
{
	return strcmp(a, b) == 0;
}

static const char *
or_empty(const char *text)
{
	return text != NULL ? text : "";
}

static const char *
digits(struct arena *arena, double value)
{
	return or_empty(unit_digits(arena, value, 3));
}

/* ---- one check ---- */

static const char *
say_load(struct arena *arena, const struct work_rig_known *known)
{
	double off = (known->force_ratio - 1) * 100;
	double u = 200 * known->force_u * known->force_ratio;

	if (!known->corrects)
		return text_format(arena,
			"The gauge agrees with the known %s kg within what the "
			"check can tell (%+.1f +/- %.1f %%).",
			digits(arena, known->load->known_kg.value), off, u);
	return text_format(arena,
		"The known %s kg press %s %% %s than the gauge says (+/- %.1f "
		"%%): every gauge reading on this rig is corrected for it.",
		digits(arena, known->load->known_kg.value),
		digits(arena, fabs(off)),
		off < 0 ? arena_say(arena, "less") : arena_say(arena, "more"),
		u);
}

static const char *
say_speed(struct arena *arena, const struct book_rig_check *check)
{
	struct err odd = {.code = ERR_NONE};
	double ratio, free_m_s;

	if (lab_tube_loss((struct length){check->height_m.value},
		    check->speed_m_s.value, &ratio, &odd) != ERR_NONE ||
		lab_drop_speed((struct length){check->height_m.value},
			&free_m_s, &odd) != ERR_NONE)
		return "";
	return text_format(arena,
		"The guide takes %.1f %% of the energy: %s m/s at its end, %s "
		"if it fell freely. Drops on this rig that name no loss take "
		"that one.",
		ratio * 100, digits(arena, check->speed_m_s.value),
		digits(arena, free_m_s));
}

static const char *
say_weight(struct arena *arena, const struct book_rig_check *check)
{
	double off = check->found_kg.value / check->known_kg.value - 1;

	return text_format(arena,
		"The weight marked %g kg weighs %g kg, %.1f %% %s%s",
		check->known_kg.value, check->found_kg.value, fabs(off) * 100,
		off < 0 ? arena_say(arena, "less") : arena_say(arena, "more"),
		fabs(off) > weight_off_most
			? arena_say(arena,
				  ": give what it weighs with --weights, not "
				  "what it "
				  "is marked.")
			: ".");
}

/* What a check piece read, in the unit of its test. */
static double
piece_reading(const struct book_rig *rig, const struct book_rig_check *check)
{
	if (is(rig->test, "bending"))
		return check->found_kg.value;
	return is(rig->test, "drop") ? check->dent_m.value * 1000
				     : check->gauge_pa.value / 1e5;
}

static const char *
piece_unit(const struct book_rig *rig)
{
	if (is(rig->test, "bending"))
		return "kg";
	return is(rig->test, "drop") ? "mm" : "bar";
}

/* The check pieces of a rig of the same kind up to one of them, by day. */
static enum err_code
gather_pieces(struct arena *arena, const struct work_site *site,
	const struct book_rig *rig, const struct book_rig_check *last,
	double **value, size_t *n, struct err *err)
{
	const struct book_rig_check **at = arena_take(
		arena, site->n_rig_check + 1, sizeof(struct book_rig_check *));

	*value = arena_take(arena, site->n_rig_check + 1, sizeof **value);
	if (at == NULL || *value == NULL)
		return err_memory(err);
	*n = 0;
	for (size_t i = 0; i < site->n_rig_check; i++) {
		const struct book_rig_check *c = &site->rig_check[i];
		size_t place = *n;

		if (c->rig_id != rig->row.id || !is(c->what, "check piece") ||
			!is(c->piece, last->piece) || c == last ||
			strcmp(c->read_on, last->read_on) > 0)
			continue;
		for (; place > 0 &&
			strcmp(at[place - 1]->read_on, c->read_on) > 0;
			place--)
			at[place] = at[place - 1];
		at[place] = c;
		(*n)++;
	}
	at[(*n)++] = last;
	for (size_t i = 0; i < *n; i++)
		(*value)[i] = piece_reading(rig, at[i]);
	return ERR_NONE;
}

static const char *
say_piece(struct arena *arena, const struct work_site *site,
	const struct book_rig *rig, const struct book_rig_check *check,
	bool *doubted)
{
	const char *unit = piece_unit(rig);
	struct err odd = {.code = ERR_NONE};
	struct lab_check_pieces got;
	double *value;
	size_t n;

	*doubted = false;
	if (gather_pieces(arena, site, rig, check, &value, &n, &odd) !=
			ERR_NONE ||
		lab_check_pieces(value, n, &got, &odd) != ERR_NONE)
		return "";
	if (!got.is_judged)
		return text_format(arena,
			"Check piece%s%s: %s %s, the %s of its kind; from the "
			"%s on a piece shows whether the rig has changed.",
			check->piece[0] != '\0' ? " " : "", check->piece,
			digits(arena, value[n - 1]), unit,
			n == 1           ? arena_say(arena, "first")
				: n == 2 ? arena_say(arena, "second")
				: n == 3 ? arena_say(arena, "third")
					 : arena_say(arena, "next"),
			arena_say(arena, "fourth"));
	*doubted = got.is_beyond;
	return text_format(arena,
		"Check piece%s%s: %s %s; the %zu before it lead one to expect "
		"%s to %s.%s",
		check->piece[0] != '\0' ? " " : "", check->piece,
		digits(arena, value[n - 1]), unit, got.n_before,
		digits(arena, got.low), digits(arena, got.high),
		got.is_beyond
			? arena_say(arena,
				  " Something on this rig has changed: look at "
				  "its supports, strap, hanger, scale and "
				  "gauge "
				  "before the next test.")
			: arena_say(arena,
				  " Nothing has changed that one piece would "
				  "show."));
}

const char *
work_rig_say_check(struct arena *arena, const struct work_site *site,
	const struct book_rig_check *check)
{
	struct work_rig_known known = work_rig_known(site, check->rig_id);
	const char *text = NULL;
	bool doubted;

	if (known.rig == NULL)
		return "";
	if ((is(check->what, "dead load") && known.load != NULL &&
		    known.load->row.id != check->row.id) ||
		(is(check->what, "exit speed") && known.speed != NULL &&
			known.speed->row.id != check->row.id))
		return arena_say(
			arena, "A later one of its kind counts in its place.");
	if (is(check->what, "dead load"))
		text = known.load != NULL ? say_load(arena, &known) : "";
	else if (is(check->what, "exit speed"))
		text = say_speed(arena, check);
	else if (is(check->what, "weight"))
		text = say_weight(arena, check);
	else
		text = say_piece(arena, site, known.rig, check, &doubted);
	return text != NULL ? text : "";
}

/* ---- one rig ---- */

struct telling {
	struct arena *arena;
	const struct work_site *site;
	int64_t now_s;
	struct work_rig_told *told;
	const char **sentence;
	size_t n_test; /* readings on it */
	size_t n_zero; /* crushing: with a reading of no load */
	double least_depth_m, most_depth_m;
	double hanger_share; /* largest, of a breaking load */
	const char *last_test_on;
};

static void
say(struct telling *t, const char *text)
{
	if (text != NULL && text[0] != '\0' &&
		t->told->n_sentence < SENTENCES_MOST)
		t->sentence[t->told->n_sentence++] = arena_say(t->arena, text);
}

static void
count_bending(struct telling *t, const struct book_bending *b,
	const struct book_specimen *p)
{
	double load = b->broke_kg.has ? b->broke_kg.value : b->held_kg;

	if (p->depth_m.has) {
		if (t->least_depth_m <= 0 ||
			p->depth_m.value < t->least_depth_m)
			t->least_depth_m = p->depth_m.value;
		t->most_depth_m = fmax(t->most_depth_m, p->depth_m.value);
	}
	if (!b->on_rig_included)
		load += b->on_rig_kg.value;
	if (b->on_rig_kg.has && load > 0)
		t->hanger_share = fmax(
			t->hanger_share, b->on_rig_kg.value / load);
}

static void
count_tests(struct telling *t, int64_t rig_id)
{
	const struct work_site *s = t->site;

	for (size_t i = 0; i < s->n_reading; i++) {
		const struct book_reading *r = &s->reading[i];

		if (r->rig_id != rig_id)
			continue;
		t->n_test++;
		if (is(r->kind, "bending"))
			count_bending(t, &r->bending,
				&s->specimen[s->reading_specimen[i]]);
		if (is(r->kind, "crushing") && r->crushing.gauge_zero_pa.has)
			t->n_zero++;
	}
}

static void
tell_bending(struct telling *t, const struct book_rig *rig)
{
	struct arena *a = t->arena;

	if (!rig->span_m.has)
		say(t,
			N_("Its span is not in the book: without it a load is "
			   "no "
			   "strength (--span)."));
	else if (t->most_depth_m > 0 &&
		rig->span_m.value < slender_least * t->most_depth_m)
		say(t,
			text_format(a,
				"Its span is %.1f times the depth of %s mm: "
				"under four, a block carries part of the load "
				"as an arch and reads too high.",
				rig->span_m.value / t->most_depth_m,
				digits(a, t->most_depth_m * 1000)));
	else if (t->most_depth_m > 0)
		say(t,
			text_format(a, "Its span is %.1f times the depth.",
				rig->span_m.value / t->most_depth_m));
	if (!rig->strap_m.has)
		say(t,
			N_("The width of its strap is not in the book; 50 mm "
			   "of "
			   "600 mm lower the figure by 4 % (--strap, 0 mm for "
			   "a "
			   "bar)."));
	if (!rig->hanger_kg.has)
		say(t,
			N_("Nobody has weighed its hanger and bucket: they "
			   "hang "
			   "in every load (--hanger)."));
	else if (t->hanger_share > 0)
		say(t,
			text_format(a,
				"Its hanger of %g kg is up to %.0f %% of what "
				"broke a beam, and is counted.",
				rig->hanger_kg.value, t->hanger_share * 100));
}

static void
tell_drop(struct telling *t, const struct book_rig *rig,
	const struct work_rig_known *known)
{
	if (!rig->bar_kg.has || !rig->height_m.has)
		say(t,
			N_("Bar and height are not both in the book: without "
			   "them "
			   "a dent is no energy (--bar, --from)."));
	if (rig->tip[0] == '\0' || !rig->tip_diameter_m.has)
		say(t,
			N_("The shape and width of its tip are not both in the "
			   "book: without them a depth is no volume (--tip, "
			   "--tip-diameter)."));
	if (known->speed == NULL)
		say(t,
			N_("Nobody has measured the speed at the end of its "
			   "guide. "
			   "Guides take 5 to 10 % (common practice, no "
			   "source): "
			   "film it and say --exit-speed."));
}

static void
tell_crushing(struct telling *t, const struct book_rig *rig,
	const struct work_rig_known *known)
{
	if (!rig->ram_m.has)
		say(t,
			N_("The bore of its ram is not in the book: without it "
			   "a "
			   "gauge reading is no load (--ram)."));
	if (known->load == NULL)
		say(t,
			N_("Nobody has put a known weight on this jack. "
			   "Friction "
			   "takes 3 to 5 % (common practice, no source): "
			   "people "
			   "on a plank, weighed one by one, show it "
			   "(--dead-load)."));
	if (t->n_test > 0 && t->n_zero < t->n_test)
		say(t,
			text_format(t->arena,
				"What the gauge shows without a load was "
				"written with %zu of %zu tests: lift off, read "
				"it, and say --gauge-zero.",
				t->n_zero, t->n_test));
}

/* The checks themselves; a weight each, of others the last. */
static void
tell_checks(struct telling *t, const struct book_rig *rig,
	const struct work_rig_known *known)
{
	const struct book_rig_check *last = NULL;
	const struct work_site *s = t->site;

	for (size_t i = 0; i < s->n_rig_check; i++) {
		const struct book_rig_check *c = &s->rig_check[i];

		if (c->rig_id != rig->row.id)
			continue;
		if (c == known->load || c == known->speed ||
			is(c->what, "weight"))
			say(t, work_rig_say_check(t->arena, s, c));
		if (is(c->what, "weight") &&
			fabs(c->found_kg.value / c->known_kg.value - 1) >
				weight_off_most)
			t->told->is_doubted = true;
		if (is(c->what, "check piece") &&
			(last == NULL ||
				strcmp(c->read_on, last->read_on) >= 0))
			last = c;
	}
	if (last == NULL)
		return;
	t->told->last_on = last->read_on;

	bool doubted;

	say(t, say_piece(t->arena, s, rig, last, &doubted));
	t->told->is_doubted = t->told->is_doubted || doubted;
}

static void
tell_due(struct telling *t)
{
	struct err odd = {.code = ERR_NONE};
	int64_t last_s = 0;
	bool never = t->told->last_on[0] == '\0';

	t->told->is_due = never ||
		date_read(t->told->last_on, 0, &last_s, &odd) != ERR_NONE ||
		(double)(t->now_s - last_s) >= work_check_every_s;
	if (never)
		say(t,
			N_("No check piece was ever broken on it. One a week, "
			   "a "
			   "timber lath or a known brick, tells the rig's "
			   "doings "
			   "from the mix's (--check-piece)."));
	else if (t->told->is_due)
		say(t,
			text_format(t->arena,
				"The last check piece was broken on %s: the "
				"weekly one is due.",
				t->told->last_on));
}

static enum err_code
tell_rig(struct telling *t, const struct book_rig *rig, struct err *err)
{
	struct work_rig_known known = work_rig_known(t->site, rig->row.id);

	t->sentence = arena_take(t->arena, SENTENCES_MOST, sizeof(char *));
	if (t->sentence == NULL)
		return err_memory(err);
	*t->told = (struct work_rig_told){.code = rig->code,
		.test = rig->test,
		.last_on = "",
		.sentence = t->sentence};
	count_tests(t, rig->row.id);
	if (is(rig->test, "bending"))
		tell_bending(t, rig);
	else if (is(rig->test, "drop"))
		tell_drop(t, rig, &known);
	else
		tell_crushing(t, rig, &known);
	tell_checks(t, rig, &known);
	tell_due(t);
	return ERR_NONE;
}

/* ---- what no rig holds ---- */

static enum err_code
tell_rest(struct telling *t, const struct book_generator *generator,
	size_t n_generator, struct err *err)
{
	const struct work_site *s = t->site;
	size_t n_test = 0, n_nameless = 0;

	t->sentence = arena_take(t->arena, SENTENCES_MOST, sizeof(char *));
	if (t->sentence == NULL)
		return err_memory(err);
	*t->told = (struct work_rig_told){
		.code = "", .test = "", .last_on = "", .sentence = t->sentence};
	for (size_t i = 0; i < s->n_reading; i++) {
		bool rigged = is(s->reading[i].kind, "bending") ||
			is(s->reading[i].kind, "drop") ||
			is(s->reading[i].kind, "crushing");

		n_test += rigged;
		n_nameless += rigged && s->reading[i].rig_id == 0;
	}
	if (n_nameless > 0)
		say(t,
			text_format(t->arena,
				"%zu of %zu bending, drop and crushing "
				"readings name no rig; what is found out about "
				"a rig reaches those that do (--rig).",
				n_nameless, n_test));
	for (size_t i = 0; i < n_generator; i++) {
		const struct book_generator *g = &generator[i];

		say(t,
			g->vessel_u_m3.has
				? text_format(t->arena,
					  "The vessel of generator %s was "
					  "weighed full of water: %s L.",
					  g->code,
					  or_empty(unit_plus_minus(t->arena,
						  g->vessel_m3 * 1000,
						  g->vessel_u_m3.value * 1000)))
				: text_format(t->arena,
					  "The vessel of generator %s was not "
					  "weighed full of water: a printed "
					  "volume may be a tenth off (common "
					  "practice, no source); "
					  "--vessel-full.",
					  g->code));
	}
	return ERR_NONE;
}

enum err_code
work_rigs(const struct desk *desk, struct arena *arena, struct work_rigs *out,
	struct err *err)
{
	struct work_rigs got = {.n = 0};
	const struct book_generator *generator;
	struct work_rig_told *told;
	size_t n_generator;

	TRY(work_bench_read(desk, arena, &got.bench, err));
	TRY(book_all_generator(
		desk->book, arena, &generator, &n_generator, err));
	told = arena_take(arena, got.bench.site.n_rig + 1, sizeof *told);
	if (told == NULL)
		return err_memory(err);
	for (size_t i = 0; i < got.bench.site.n_rig; i++) {
		struct telling t = {.arena = arena,
			.site = &got.bench.site,
			.now_s = desk->now_utc_s,
			.told = &told[got.n]};

		TRY(tell_rig(&t, &got.bench.site.rig[i], err));
		got.n++;
	}
	struct telling rest = {
		.arena = arena, .site = &got.bench.site, .told = &told[got.n]};

	TRY(tell_rest(&rest, generator, n_generator, err));
	got.n += told[got.n].n_sentence > 0;
	got.rig = told;
	*out = got;
	return ERR_NONE;
}
