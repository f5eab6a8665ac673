/* home_test.c - readings recorded one by one, with the checks of import. */
#include "work/home_test.h"

#include "book/book.h"
#include "core/text.h"
#include "work/bench_notes.h"
#include "work/measured.h"
#include "work/measured_words.h"
#include "work/result_words.h"
#include "work/results.h"

#include <string.h>

/* Shorter spans than this many depths read too high; common practice, no
 * source. */
static const double slender_least = 4;
static const double bottoming_ratio = 0.6, step_most_ratio = 0.1;

static bool
is(const char *a, const char *b)
{
	return strcmp(a, b) == 0;
}

/* ---- checks ---- */

static struct maybe
either(struct maybe first, struct maybe second)
{
	return first.has ? first : second;
}

static enum err_code
check_bending(const struct work_test_ask *ask, const struct book_specimen *p,
	struct err *err)
{
	const struct book_bending *b = &ask->reading.bending;
	struct maybe length = either(ask->length_m, p->length_m);

	if (b->span_m.has && !(b->span_m.value > 0))
		return err_report(err, ERR_INPUT, "--span",
			"The span must be more than nothing, such as \"600 "
			"mm\", between the middles of the supports.");
	if (b->span_m.has && length.has && b->span_m.value > length.value)
		return err_report(err, ERR_INPUT, "--span",
			"A span of %g mm is longer than the beam, which is %g "
			"mm; it takes the distance between the middles of the "
			"supports.",
			b->span_m.value * 1000, length.value * 1000);
	if (b->broke_kg.has && b->broke_kg.value <= b->held_kg)
		return err_report(err, ERR_INPUT, "--broke",
			"It broke at %g kg, which is not above the %g kg that "
			"it held; the weight that broke it comes after the "
			"last one held.",
			b->broke_kg.value, b->held_kg);
	if (b->after_broke_kg.has &&
		(!b->after_held_kg.has ||
			b->after_broke_kg.value <= b->after_held_kg.value))
		return err_report(err, ERR_INPUT, "--after-broke",
			"What broke it after the crack must be above what it "
			"held after the crack (--after-held).");
	return ERR_NONE;
}

static enum err_code
check_tip(const struct book_drop *d, struct err *err)
{
	bool cone = is(d->tip, "cone");

	if (!is(d->tip, "") && !is(d->tip, "flat") && !is(d->tip, "ball") &&
		!cone)
		return err_report(err, ERR_INPUT, "--tip",
			"\"%.40s\" is no tip; it is flat, ball or cone.",
			d->tip);
	if (d->tip_angle_rad.has &&
		(!cone ||
			!(d->tip_angle_rad.value > 0 &&
				d->tip_angle_rad.value < 3.1415927)))
		return err_report(err, ERR_INPUT, "--tip-angle",
			"The angle goes with --tip cone and lies between 0 and "
			"180 deg.");
	return ERR_NONE;
}

static enum err_code
check_drop(const struct work_test_ask *ask, const struct book_specimen *p,
	struct err *err)
{
	const struct book_drop *d = &ask->reading.drop;
	struct maybe depth = either(ask->depth_m, p->depth_m);

	if (!is(d->place, "centre") && !is(d->place, "edge") &&
		!is(d->place, "corner"))
		return err_report(err, ERR_INPUT, "--place",
			"Say where it hit: --place centre, edge or corner; "
			"they are never averaged together.");
	if (!d->dent_m.has && !d->went_through)
		return err_report(err, ERR_INPUT, "--dent",
			"Say how deep the dent is, --dent \"18.5 mm\", or "
			"--through.");
	if (d->dent_m.has && !d->went_through && depth.has &&
		d->dent_m.value > depth.value)
		return err_report(err, ERR_INPUT, "--dent",
			"A dent of %g mm is deeper than the piece, which is %g "
			"mm thick; mend it, or say --through.",
			d->dent_m.value * 1000, depth.value * 1000);
	if (d->tube_loss_ratio.has && !(d->tube_loss_ratio.value < 1))
		return err_report(err, ERR_INPUT, "--tube-loss",
			"The guide takes a share of the energy, such as 5 %%; "
			"it must be below 100 %%.");
	return check_tip(d, err);
}

static enum err_code
check_crushing(const struct book_crushing *c, struct err *err)
{
	if (!c->gauge_pa.has && !c->load_n.has && !c->held_n.has)
		return err_report(err, ERR_INPUT, "--gauge",
			"Say what crushed it: --gauge \"82 bar\" with --ram, a "
			"--load, or --held and --broke.");
	if (c->gauge_pa.has && !c->ram_diameter_m.has)
		return err_report(err, ERR_INPUT, "--ram",
			"A gauge reading becomes a load only with the bore of "
			"the ram: --ram \"40 mm\".");
	if (c->gauge_zero_pa.has && c->gauge_pa.has &&
		c->gauge_zero_pa.value > c->gauge_pa.value)
		return err_report(err, ERR_INPUT, "--gauge-zero",
			"The gauge cannot show more without a load than with "
			"it.");
	if (c->broke_n.has &&
		(!c->held_n.has || c->broke_n.value <= c->held_n.value))
		return err_report(err, ERR_INPUT, "--broke",
			"It broke at %g N, which is not above what it held "
			"(--held); the load that crushed it comes after the "
			"last one held.",
			c->broke_n.value);
	return ERR_NONE;
}

static enum err_code
check_weighing(const struct work_bench *bench, size_t piece,
	const struct book_weighing *w, struct err *err)
{
	static const char *const states[] = {"as cast", "at test", "air dry",
		"oven dry", "saturated", "in water"};
	const struct work_site *s = &bench->site;
	bool known = false;

	for (size_t i = 0; i < sizeof states / sizeof states[0]; i++)
		known = known || is(w->state, states[i]);
	if (!known)
		return err_report(err, ERR_INPUT, "--state",
			"\"%.40s\" is no state; it is \"as cast\", \"at "
			"test\", "
			"\"air dry\", \"oven dry\", saturated or \"in water\".",
			w->state);
	if (!(w->mass_kg > 0))
		return err_report(err, ERR_INPUT, "--mass",
			"Say what it weighs: --mass \"3.12 kg\".");
	for (size_t i = 0; i < s->n_reading; i++) {
		const struct book_weighing *other = &s->reading[i].weighing;

		if (s->reading_specimen[i] != piece ||
			!is(s->reading[i].kind, "weighing") ||
			is(w->state, "in water") ||
			is(other->state, "in water"))
			continue;
		if ((is(w->state, "oven dry") &&
			    !is(other->state, "oven dry") &&
			    w->mass_kg > other->mass_kg) ||
			(is(other->state, "oven dry") &&
				!is(w->state, "oven dry") &&
				w->mass_kg < other->mass_kg))
			return err_report(err, ERR_INPUT, "--mass",
				"Oven dry it cannot weigh more than otherwise: "
				"it was %g kg %s and is to be %g kg %s.",
				other->mass_kg, other->state, w->mass_kg,
				w->state);
	}
	return ERR_NONE;
}

static enum err_code
check_positive(const struct work_test_ask *ask, struct err *err)
{
	const struct {
		const char *option;
		struct maybe value;
	} of[] = {{"--width", ask->width_m}, {"--depth", ask->depth_m},
		{"--length", ask->length_m}, {"--diameter", ask->diameter_m},
		{"--mass", ask->mass_kg}, {"--bar", ask->reading.drop.bar_kg},
		{"--from", ask->reading.drop.height_m},
		{"--tip-diameter", ask->reading.drop.tip_diameter_m},
		{"--dent-step", ask->reading.drop.dent_step_m},
		{"--blows", ask->reading.drop.blows},
		{"--ram", ask->reading.crushing.ram_diameter_m},
		{"--gauge-step", ask->reading.crushing.gauge_step_pa}};

	for (size_t i = 0; i < sizeof of / sizeof of[0]; i++)
		if (of[i].value.has && !(of[i].value.value > 0))
			return err_report(err, ERR_INPUT, of[i].option,
				"%s must be more than nothing; leave it out "
				"where it is not known.",
				of[i].option);
	return ERR_NONE;
}

enum err_code
work_test_check(const struct work_bench *bench, size_t piece,
	const struct work_test_ask *ask, struct err *err)
{
	const struct book_specimen *p = &bench->site.specimen[piece];
	const char *kind = ask->reading.kind;

	TRY(check_positive(ask, err));
	if (is(p->fate, "not filled"))
		return err_report(err, ERR_CONFLICT, "piece",
			"The form of test piece %s was not filled, so there is "
			"nothing to test; if that is wrong, \"foamwright piece "
			"BOOK %s --fate waiting\" puts it right.",
			p->code, p->code);
	if (is(kind, "bending"))
		return check_bending(ask, p, err);
	if (is(kind, "drop"))
		return check_drop(ask, p, err);
	if (is(kind, "crushing"))
		return check_crushing(&ask->reading.crushing, err);
	if (work_is_measured(kind)) /* measured.c has checked it */
		return ERR_NONE;
	return check_weighing(bench, piece, &ask->reading.weighing, err);
}

/* ---- what the rig says ---- */

static void
fill(struct maybe from, struct maybe *to)
{
	if (!to->has)
		*to = from;
}

static void
fill_bending(const struct book_rig *rig, struct book_bending *b)
{
	if (b->loading == NULL || is(b->loading, ""))
		b->loading = rig->loading;
	fill(rig->span_m, &b->span_m);
	fill(rig->strap_m, &b->strap_m);
	fill(rig->hanger_kg, &b->on_rig_kg);
}

static void
fill_drop(const struct book_rig *rig, struct book_drop *d)
{
	if (is(d->tip, "")) {
		d->tip = rig->tip;
		fill(rig->tip_angle_rad, &d->tip_angle_rad);
	}
	fill(rig->tip_diameter_m, &d->tip_diameter_m);
	fill(rig->bar_kg, &d->bar_kg);
	fill(rig->height_m, &d->height_m);
}

static void
fill_crushing(const struct book_rig *rig, struct book_crushing *c)
{
	if (!c->gauge_pa.has)
		return;
	fill(rig->ram_m, &c->ram_diameter_m);
	fill(rig->gauge_step_pa, &c->gauge_step_pa);
}

enum err_code
work_test_fill(const struct work_bench *bench, struct work_test_ask *ask,
	struct err *err)
{
	struct book_reading *r = &ask->reading;
	const struct book_rig *rig;
	size_t at;

	if (ask->rig == NULL || is(ask->rig, ""))
		return ERR_NONE;
	TRY(work_find_rig(bench, ask->rig, &at, err));
	rig = &bench->site.rig[at];
	if (!is(rig->test, r->kind))
		return err_report(err, ERR_CONFLICT, "--rig",
			"Rig %s is for %s tests and not for %s.", rig->code,
			err_say(err, rig->test), err_say(err, r->kind));
	r->rig_id = rig->row.id;
	if (is(r->kind, "bending"))
		fill_bending(rig, &r->bending);
	else if (is(r->kind, "drop"))
		fill_drop(rig, &r->drop);
	else
		fill_crushing(rig, &r->crushing);
	return ERR_NONE;
}

/* ---- written ---- */

static void
take_sizes(const struct work_test_ask *ask, struct book_specimen *row)
{
	row->width_m = either(ask->width_m, row->width_m);
	row->depth_m = either(ask->depth_m, row->depth_m);
	row->length_m = either(ask->length_m, row->length_m);
	row->diameter_m = either(ask->diameter_m, row->diameter_m);
	row->mass_kg = either(ask->mass_kg, row->mass_kg);
}

enum err_code
work_test_rows(struct book *book, const struct work_bench *bench, size_t piece,
	const struct work_test_ask *ask, struct maybe age_s, struct err *err)
{
	const struct work_site *s = &bench->site;
	struct book_specimen row = s->specimen[piece];
	struct book_reading reading = ask->reading;

	reading.specimen_id = row.row.id;
	reading.age_s = age_s;
	reading.row = (struct book_row){.typed = ask->typed};
	for (size_t i = 0; i < s->n_reading; i++)
		if (s->reading_specimen[i] == piece &&
			is(s->reading[i].kind, reading.kind) &&
			is(s->reading[i].code, reading.code))
			reading.row.id = s->reading[i].row.id;
	TRY(book_put_reading(book, &reading, err));
	take_sizes(ask, &row);
	if (!ask->keeps_fate) {
		row.fate = "tested";
		row.fate_age_s = age_s;
	}
	row.row.typed = ask->typed;
	return book_put_specimen(book, &row, err);
}

/* ---- told ---- */

struct telling {
	struct arena *arena;
	struct work_test_told *told;
	const char **sentence;
	size_t room;
	bool failed;
};

static void
say(struct telling *t, const char *text)
{
	if (text == NULL)
		t->failed = true;
	else if (text[0] != '\0' && t->told->n_sentence < t->room)
		t->sentence[t->told->n_sentence++] = arena_say(t->arena, text);
}

/* Is the result of that reading; where it takes several, of that kind? */
static bool
is_told(const struct work_site *s, const struct work_result *r,
	const char *kind, const char *code)
{
	const struct book_reading *of = &s->reading[r->reading];

	if (!r->has_reading)
		return is(kind, "weighing") || is(kind, "moisture");
	return is(of->kind, kind) &&
		(r->n_series > 0 || is(kind, "soaking") || is(of->code, code));
}

static void
tell_results(struct telling *t, const struct work_results *all,
	const char *kind, const char *code)
{
	const struct work_site *s = &t->told->bench.site;

	for (size_t i = 0; i < all->n_result; i++) {
		const struct work_result *r = &all->result[i];

		if (!r->has_specimen || r->specimen != t->told->piece ||
			!is_told(s, r, kind, code))
			continue;
		say(t,
			text_format(t->arena, "%s: %s.",
				work_result_what(t->arena, r),
				work_result_value(t->arena, r)));
		say(t, r->lacks);
	}
}

static void
tell_bending(struct telling *t, const struct book_reading *r)
{
	const struct book_specimen *p =
		&t->told->bench.site.specimen[t->told->piece];
	const struct book_bending *b = &r->bending;
	double middle = b->broke_kg.has ? (b->held_kg + b->broke_kg.value) / 2
					: 0;

	if (b->span_m.has && !p->mass_kg.has)
		say(t,
			N_("Its own weight bent it too and is not in this: "
			   "weigh "
			   "it as it was tested (\"foamwright weigh\")."));
	if (b->span_m.has && p->depth_m.has &&
		b->span_m.value < slender_least * p->depth_m.value)
		say(t,
			N_("The span is under four times the depth: a block so "
			   "stubby carries part of it as an arch, and the "
			   "number "
			   "is too high."));
	if (b->held_kg > 0 && middle > 0 &&
		b->broke_kg.value - b->held_kg > step_most_ratio * middle)
		say(t,
			text_format(t->arena,
				"The last step was %.0f %% of the load: "
				"smaller weights near the end would say more.",
				(b->broke_kg.value - b->held_kg) / middle *
					100));
}

static void
tell_drop(struct telling *t, const struct book_reading *r)
{
	const struct book_specimen *p =
		&t->told->bench.site.specimen[t->told->piece];
	const struct book_drop *d = &r->drop;

	if (d->dent_m.has && p->depth_m.has && !d->went_through &&
		d->dent_m.value > bottoming_ratio * p->depth_m.value)
		say(t,
			N_("The dent is over 0.6 of the thickness: what lies "
			   "under the piece carried part of the blow."));
}

static enum err_code
tell_measured(struct telling *t, const struct work_results *all,
	const struct book_reading *r, struct err *err)
{
	const char *sentence[WORK_MEASURED_WORDS] = {NULL};
	size_t n;

	TRY(work_measured_words(t->arena, &t->told->bench, all, t->told->piece,
		r, sentence, &n, err));
	for (size_t i = 0; i < n; i++)
		say(t, sentence[i]);
	return ERR_NONE;
}

static enum err_code
tell_cautions(struct telling *t, const struct work_results *all,
	const char *kind, const char *code, struct err *err)
{
	const struct work_site *s = &t->told->bench.site;

	for (size_t i = 0; i < s->n_reading; i++) {
		if (s->reading_specimen[i] != t->told->piece ||
			!is(s->reading[i].kind, kind) ||
			!is(s->reading[i].code, code))
			continue;
		t->told->age_s = s->reading[i].age_s;
		if (is(kind, "bending"))
			tell_bending(t, &s->reading[i]);
		if (is(kind, "drop"))
			tell_drop(t, &s->reading[i]);
		TRY(tell_measured(t, all, &s->reading[i], err));
	}
	return ERR_NONE;
}

enum err_code
work_test_tell(const struct desk *desk, struct arena *arena, const char *piece,
	const char *kind, const char *code, struct work_test_told *out,
	struct err *err)
{
	struct work_test_told told = {.n_sentence = 0};
	struct telling t = {.arena = arena, .told = &told};
	const struct work_bench_note *note;
	struct work_results all;
	size_t n_note;

	TRY(work_bench_read(desk, arena, &told.bench, err));
	TRY(work_find_piece(&told.bench, piece, &told.piece, err));
	TRY(work_results(arena, &told.bench.site, &all, err));
	TRY(work_bench_notes(arena, &told.bench, &note, &n_note, err));
	t.room = 2 * all.n_result + n_note + all.n_fault + 8;
	t.sentence = arena_take(arena, t.room, sizeof *t.sentence);
	if (t.sentence == NULL)
		return err_memory(err);
	tell_results(&t, &all, kind, code);
	for (size_t i = 0; i < n_note; i++)
		if (note[i].specimen == told.piece && is(note[i].kind, kind) &&
			(note[i].code[0] == '\0' || is(note[i].code, code)))
			say(&t,
				text_format(arena, "%s: %s; %s.", note[i].what,
					note[i].value, note[i].from));
	TRY(tell_cautions(&t, &all, kind, code, err));
	for (size_t i = 0; i < all.n_fault; i++)
		if (strncmp(all.fault[i],
			    told.bench.site.specimen[told.piece].code,
			    strlen(told.bench.site.specimen[told.piece]
					    .code)) == 0)
			say(&t, all.fault[i]);
	if (told.n_sentence == 0)
		say(&t, "Recorded.");
	told.sentence = t.sentence;
	if (t.failed)
		return err_memory(err);
	*out = told;
	return ERR_NONE;
}

enum err_code
work_test_put(const struct desk *desk, struct arena *arena,
	const struct work_test_ask *ask, struct work_test_told *out,
	struct err *err)
{
	struct work_test_ask filled = *ask;
	struct work_bench bench;
	struct maybe age;
	size_t piece;

	TRY(work_bench_read(desk, arena, &bench, err));
	TRY(work_find_piece(&bench, ask->piece, &piece, err));
	TRY(work_test_fill(&bench, &filled, err));
	TRY(work_age_of(
		&bench.site, piece, ask->on, desk->now_utc_s, &age, err));
	TRY(work_test_check(&bench, piece, &filled, err));
	TRY(book_begin(desk->book, desk->now_utc_s, desk->who,
		ask->reading.kind, desk->submission, err));
	TRY(work_commit_or_undo(desk, bench.site.specimen[piece].code,
		work_test_rows(desk->book, &bench, piece, &filled, age, err),
		err));
	return work_test_tell(desk, arena, bench.site.specimen[piece].code,
		ask->reading.kind, ask->reading.code, out, err);
}
