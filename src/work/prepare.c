/* prepare.c - what is foreseen, and what the rig makes of it. */
#include "work/prepare.h"

#include "core/text.h"
#include "core/unit.h"
#include "work/due.h"
#include "work/foresee.h"
#include "work/rig.h"

#include <math.h>
#include <string.h>

/* Pieces of a batch differ too: the range of the next batch is widened by this
 * on the log scale at both ends; common practice, no source. */
static const double piece_reach = 0.15;

/* Where nothing was ever dented: 4 to 15 MJ/m3 were measured with ball tips
 * on foamed concretes of 500 to 1400 kg/m3 (published, from memory); lighter
 * ones take less, so that it starts at 2. */
static const double energy_least_pa = 2e6, energy_most_pa = 15e6;

/* A range wider than this is not hung through with two sizes of weight. */
static const double wide_ratio = 6;

static const double usual_readable_m = 0.003, usual_width_ratio = 0.1;
static const double catch_m = 0.05; /* fall onto the catch block, at most */

enum { SENTENCES_MOST = 12 };

struct preparing {
	struct arena *arena;
	const struct work_prepare_ask *ask;
	struct work_mixer m;
	struct work_bench bench;
	struct work_results results;
	size_t mix;
	const struct book_form *form;
	const struct book_rig *rig; /* NULL: none */
	struct work_rig_known known;
	struct book_form own; /* a piece as a form of its own sizes */
	struct work_prepared *out;
	const char **sentence;
	bool *is_caution;
};

static void
say(struct preparing *p, const char *text)
{
	if (text != NULL && text[0] != '\0' &&
		p->out->n_sentence < SENTENCES_MOST)
		p->sentence[p->out->n_sentence++] = arena_say(p->arena, text);
}

static void
say_caution(struct preparing *p, const char *text)
{
	size_t before = p->out->n_sentence;

	say(p, text);
	if (p->out->n_sentence > before)
		p->is_caution[before] = true;
}

static const char *
digits(struct preparing *p, double value)
{
	const char *text = unit_digits(p->arena, value, 3);

	return text != NULL ? text : "?";
}

static struct maybe
either(struct maybe first, struct maybe second)
{
	return first.has ? first : second;
}

/* ---- what is foreseen ---- */

/* Least and most of the results of a measure: of the mix, or of all mixes. */
static size_t
range_of(const struct preparing *p, enum choose_measure measure, bool own,
	struct interval *range)
{
	size_t n = 0;

	for (size_t i = 0; i < p->results.n_result; i++) {
		const struct work_result *r = &p->results.result[i];

		if (r->measure != measure || r->excluded ||
			(own && r->mix != p->mix) || !(r->value.low > 0) ||
			!isfinite(r->value.high))
			continue;
		range->low = n == 0 ? r->value.low
				    : fmin(range->low, r->value.low);
		range->high = n == 0 ? r->value.high
				     : fmax(range->high, r->value.high);
		n++;
	}
	return n;
}

static void
widen(struct interval *range)
{
	range->low *= exp(-piece_reach);
	range->high *= exp(piece_reach);
}

static enum err_code
foresee_strength(struct preparing *p, struct err *err)
{
	struct choose_foresight sight;
	struct choose_makeup makeup;
	struct choose_strength strength;

	TRY(work_foresee_learn(&p->m, p->arena, &p->results,
		CHOOSE_BENDING_STRENGTH, &sight, &p->out->n_taught, err));
	TRY(work_foresee_mix(&p->m, p->arena, p->mix, &makeup, err));
	strength = choose_foresee(&sight, &makeup);
	p->out->foreseen_pa = (struct interval){
		strength.low_pa, strength.high_pa};
	p->out->by = WORK_FORESEEN_RELATION;
	return ERR_NONE;
}

static void
foresee_energy(struct preparing *p)
{
	struct interval *range = &p->out->foreseen_pa;

	p->out->by = WORK_FORESEEN_OWN;
	p->out->n_taught = range_of(p, CHOOSE_CRUSHING_ENERGY, true, range);
	if (p->out->n_taught > 0)
		return;
	p->out->by = WORK_FORESEEN_OTHERS;
	p->out->n_taught = range_of(p, CHOOSE_CRUSHING_ENERGY, false, range);
	if (p->out->n_taught > 0)
		return;
	p->out->by = WORK_FORESEEN_RELATION;
	*range = (struct interval){energy_least_pa, energy_most_pa};
}

static enum err_code
foresee(struct preparing *p, struct err *err)
{
	const struct work_prepare_ask *ask = p->ask;

	if (ask->low_pa.has != ask->high_pa.has)
		return err_report(err, ERR_INPUT, "--foreseen",
			"What is foreseen needs both ends.");
	if (ask->low_pa.has && !(ask->low_pa.value <= ask->high_pa.value))
		return err_report(err, ERR_INPUT, "--foreseen",
			"What is foreseen runs from %g to %g %s; its upper end "
			"must not be below the lower one.",
			ask->low_pa.value / 1e6, ask->high_pa.value / 1e6,
			p->out->is_drop ? "J/cm3" : "N/mm2");
	if (ask->low_pa.has) {
		p->out->by = WORK_FORESEEN_SAID;
		p->out->foreseen_pa = (struct interval){
			ask->low_pa.value, ask->high_pa.value};
		return ERR_NONE;
	}
	if (p->out->is_drop)
		foresee_energy(p);
	else
		TRY(foresee_strength(p, err));
	widen(&p->out->foreseen_pa);
	return ERR_NONE;
}

static void
say_foreseen(struct preparing *p)
{
	const struct interval *f = &p->out->foreseen_pa;
	const char *what = p->out->is_drop
		? arena_say(p->arena, "Energy to crush")
		: arena_say(p->arena, "Bending strength");
	const char *unit = p->out->is_drop ? "J/cm3" : "N/mm2";
	const char *by = "";

	switch (p->out->by) {
	case WORK_FORESEEN_SAID:
		by = arena_say(p->arena, "as you said");
		break;
	case WORK_FORESEEN_OWN:
		by = text_format(p->arena, "from %zu results of this mix",
			p->out->n_taught);
		break;
	case WORK_FORESEEN_OTHERS:
		by = text_format(p->arena,
			"from %zu results of the book's other mixes",
			p->out->n_taught);
		break;
	case WORK_FORESEEN_RELATION:
		by = p->out->n_taught > 0
			? text_format(p->arena,
				  "from published relations and %zu tested "
				  "batches of this book",
				  p->out->n_taught)
			: arena_say(p->arena,
				  "from published figures alone, so take it as "
				  "a wide guess");
		break;
	}
	say(p,
		text_format(p->arena, "%s foreseen: %s to %s %s, %s.", what,
			digits(p, f->low / 1e6), digits(p, f->high / 1e6), unit,
			by != NULL ? by : ""));
}

/* ---- bending ---- */

static enum err_code
need(struct maybe value, const char *option, const char *what, struct err *err)
{
	if (value.has)
		return ERR_NONE;
	return err_report(err, ERR_INPUT, option,
		"The %s is needed: %s, or --rig with a rig whose record has "
		"it.",
		err_say(err, what), option);
}

/* The piece itself, where it is no beam, or one shorter than the span. */
static enum err_code
check_piece(const struct preparing *p, double span_m, struct err *err)
{
	if (!p->form->width_m.has || !p->form->length_m.has)
		return err_report(err, ERR_INPUT, "piece",
			"Test piece %s has no width and length in the book, so "
			"it is no beam.",
			p->form->code);
	if (span_m > p->form->length_m.value)
		return err_report(err, ERR_INPUT, "--span",
			"A span of %g mm is longer than the beam, which is %g "
			"mm; it takes the distance between the middles of the "
			"supports.",
			span_m * 1000, p->form->length_m.value * 1000);
	return ERR_NONE;
}

static enum err_code
plan_bending(
	struct preparing *p, struct lab_plan_bending *plan, struct err *err)
{
	static const struct book_rig nothing = {.loading = ""};
	const struct book_rig *rig = p->rig != NULL ? p->rig : &nothing;
	const char *loading = p->ask->loading != NULL ? p->ask->loading
						      : rig->loading;
	struct maybe span = either(p->ask->span_m, rig->span_m);
	struct maybe hanger = either(p->ask->hanger_kg, rig->hanger_kg);

	TRY(need(span, "--span", N_("span between the supports"), err));
	TRY(need(hanger, "--hanger", N_("mass of hanger and bucket"), err));
	p->out->hanger_kg = hanger;
	if (p->ask->piece != NULL)
		TRY(check_piece(p, span.value, err));
	if (!p->form->width_m.has || !p->form->length_m.has)
		return err_report(err, ERR_INPUT, "--form",
			"Form %s has no width and length, so it makes no beam.",
			p->form->code);
	if (span.value > p->form->length_m.value)
		return err_report(err, ERR_INPUT, "--span",
			"A span of %g mm is longer than the beams of form %s, "
			"which are %g mm.",
			span.value * 1000, p->form->code,
			p->form->length_m.value * 1000);
	*plan = (struct lab_plan_bending){
		.loading = strcmp(loading, "third") == 0 ? LAB_THIRD
							 : LAB_CENTRE,
		.span = {span.value},
		.width = {p->form->width_m.value},
		.depth = {p->form->depth_m},
		.strap = {either(p->ask->strap_m, rig->strap_m).value},
		.on_rig = {hanger.value},
		.beam_mass = {p->out->piece_kg.value},
		.beam_length = {p->form->length_m.value},
		.strength_Pa = p->out->foreseen_pa,
		.width_ratio = p->ask->width_ratio.has
			? p->ask->width_ratio.value
			: usual_width_ratio};
	return ERR_NONE;
}

static void
say_weights(struct preparing *p, const struct lab_planned_bending *b)
{
	const struct lab_planned_weights *w = &p->out->weights;

	p->out->is_wide = b->most.kg > wide_ratio * b->small_from.kg;
	if (p->out->is_wide)
		say(p,
			text_format(p->arena,
				"So wide a range takes many sizes: add each "
				"time at most a tenth of what hangs there, %g "
				"kg at first, and larger weights as it goes "
				"on holding.",
				w->small.kg));
	else if (w->n_large > 0)
		say(p,
			text_format(p->arena,
				"Weights: %u of %g kg one by one, then %g kg "
				"at a time (%u at most).",
				w->n_large, w->large.kg, w->small.kg,
				w->n_small));
	else
		say(p,
			text_format(p->arena,
				"Weights: %g kg at a time from the first on "
				"(%u at most).",
				w->small.kg, w->n_small));
	if (b->hanger_may_break)
		say(p,
			N_("The hanger alone may break the weakest: make it "
			   "lighter, or the beam deeper."));
	if (b->is_stubby)
		say(p,
			N_("The span is less than four depths: such a beam "
			   "reads too high."));
}

static enum err_code
prepare_bending(struct preparing *p, struct err *err)
{
	const struct lab_planned_bending *b = &p->out->bending;
	struct lab_plan_bending plan;

	TRY(plan_bending(p, &plan, err));
	TRY(lab_plan_bending(&plan, &p->out->bending, err));
	p->out->weights = lab_plan_weights(b);
	say_foreseen(p);
	say(p,
		text_format(p->arena,
			"To hang on until it breaks: %s to %s kg, the hanger "
			"of %g kg apart.",
			digits(p, b->least.kg), digits(p, b->most.kg),
			plan.on_rig.kg));
	say(p,
		text_format(p->arena,
			"Steps of at most %s kg from %s kg on keep the "
			"interval under %.0f %% of the load.",
			digits(p, b->step.kg), digits(p, b->small_from.kg),
			plan.width_ratio * 100));
	say_weights(p, b);
	say_caution(p,
		text_format(p->arena,
			"When it breaks up to %s kg fall, and half the beam "
			"with them. On a catch block 30 to 50 mm below they "
			"land with %s J at most. Nobody's toes under it; boots "
			"and goggles.",
			digits(p, b->falls.kg),
			digits(p, b->falls.kg * gravity_m_s2 * catch_m)));
	return ERR_NONE;
}

/* ---- drop ---- */

static enum err_code
plan_drop(struct preparing *p, struct lab_plan_drop *plan, struct err *err)
{
	static const struct book_rig nothing = {.tip = ""};
	const struct book_rig *rig = p->rig != NULL ? p->rig : &nothing;
	const char *tip = p->ask->tip != NULL ? p->ask->tip : rig->tip;
	struct maybe bar = either(p->ask->bar_kg, rig->bar_kg);
	struct maybe diameter = either(
		p->ask->tip_diameter_m, rig->tip_diameter_m);

	TRY(need(bar, "--bar", N_("mass of the bar"), err));
	p->out->bar_kg = bar;
	TRY(need(diameter, "--tip-diameter", N_("width of the tip"), err));
	if (strcmp(tip, "flat") != 0 && strcmp(tip, "ball") != 0 &&
		strcmp(tip, "cone") != 0)
		return err_report(err, ERR_INPUT, "--tip",
			"Say whether the tip is flat, a ball or a cone; it got "
			"\"%.40s\".",
			tip);
	*plan = (struct lab_plan_drop){.mass = {bar.value},
		.tube_loss_ratio = p->known.tube_loss_ratio,
		.tip = tip[0] == 'f'    ? LAB_TIP_FLAT
			: tip[0] == 'b' ? LAB_TIP_BALL
					: LAB_TIP_CONE,
		.tip_diameter = {diameter.value},
		.tip_angle_rad =
			either(p->ask->tip_angle_rad, rig->tip_angle_rad).value,
		.thickness = {p->form->depth_m},
		.readable = {p->ask->readable_m.has ? p->ask->readable_m.value
						    : usual_readable_m},
		.energy_Pa = p->out->foreseen_pa};
	return ERR_NONE;
}

static enum err_code
prepare_drop(struct preparing *p, struct err *err)
{
	const struct interval *h = &p->out->drop.height_m;
	struct lab_plan_drop plan;

	TRY(plan_drop(p, &plan, err));
	TRY(lab_plan_drop(&plan, &p->out->drop, err));
	say_foreseen(p);
	if (p->out->drop.suits)
		say(p,
			text_format(p->arena,
				"Drop from %s to %s mm: from that height on "
				"the strongest shows a dent of %g mm, and up "
				"to it the weakest stays under %.0f %% of its "
				"%g mm.",
				digits(p, h->low * 1000),
				digits(p, h->high * 1000),
				plan.readable.m * 1000, lab_plan_deepest * 100,
				plan.thickness.m * 1000));
	else
		say(p,
			text_format(p->arena,
				"No one height does for all of that range: the "
				"strongest needs %s mm to show a dent of %g "
				"mm, the weakest bottoms from %s mm on. Start "
				"at the lower one on a spare piece and go up; "
				"a thicker panel or a wider tip would help.",
				digits(p, h->low * 1000),
				plan.readable.m * 1000,
				digits(p, h->high * 1000)));
	if (p->known.speed == NULL)
		say(p,
			N_("What the guide takes is not known and was left "
			   "out; "
			   "film the bar at its end (foamwright rig, "
			   "--exit-speed)."));
	say_caution(p,
		N_("All mixes from one height; four tip diameters between "
		   "hits. "
		   "Goggles; hands off the guide when it falls."));
	return ERR_NONE;
}

/* ---- the piece, and the whole ---- */

static void
weigh_piece(struct preparing *p)
{
	const struct book_form *f = p->form;
	struct maybe wet = p->m.site.mix[p->mix].wet_target_kg_m3;

	if (wet.has && f->width_m.has && f->length_m.has)
		p->out->piece_kg = (struct maybe){true,
			wet.value * f->width_m.value * f->length_m.value *
				f->depth_m};
}

static void
say_lift(struct preparing *p)
{
	struct maybe kg = p->out->piece_kg;

	if (!kg.has)
		return;
	say_caution(p,
		text_format(p->arena, "Each piece weighs about %s kg fresh.%s",
			digits(p, kg.value),
			kg.value > work_lift_most_kg
				? arena_say(p->arena,
					  " That takes two people, or a "
					  "trolley.")
				: arena_say(p->arena,
					  " Carry it on edge, both hands near "
					  "the "
					  "quarters.")));
}

/* A piece is prepared for as it is: the mix of its batch, its own sizes. */
static enum err_code
take_piece(struct preparing *p, struct err *err)
{
	const struct work_site *s = &p->bench.site;
	const struct book_specimen *piece;
	size_t at;

	TRY(work_find_piece(&p->bench, p->ask->piece, &at, err));
	piece = &s->specimen[at];
	p->mix = s->batch_mix[s->specimen_batch[at]];
	if (!piece->depth_m.has)
		return err_report(err, ERR_INPUT, "piece",
			"The depth of test piece %s is not in the book: "
			"measure it and give it with the next weighing.",
			piece->code);
	p->own = (struct book_form){.code = piece->code,
		.shape = piece->form,
		.width_m = piece->width_m,
		.depth_m = piece->depth_m.value,
		.length_m = piece->length_m,
		.diameter_m = piece->diameter_m,
		.note = ""};
	p->form = &p->own;
	return ERR_NONE;
}

static enum err_code
take_mix(struct preparing *p, struct err *err)
{
	const struct work_prepare_ask *ask = p->ask;
	size_t at;

	TRY(work_find_mix(&p->m, ask->mix, &p->mix, err));
	if (ask->form == NULL)
		return err_report(err, ERR_INPUT, "--form",
			"Say what the pieces are cast in: --form B1 (a form of "
			"the book).");
	TRY(work_find_form(&p->bench, ask->form, &at, err));
	p->form = &p->bench.form[at];
	return ERR_NONE;
}

static enum err_code
find_all(struct preparing *p, const struct desk *desk, struct err *err)
{
	const struct work_prepare_ask *ask = p->ask;
	size_t at;

	TRY(work_mixer_read(desk, p->arena, &p->m, err));
	TRY(work_bench_read(desk, p->arena, &p->bench, err));
	TRY(work_results(p->arena, &p->m.site, &p->results, err));
	TRY(ask->piece != NULL ? take_piece(p, err) : take_mix(p, err));
	p->out->is_drop = ask->drop;
	if (ask->rig == NULL)
		return ERR_NONE;
	TRY(work_find_rig(&p->bench, ask->rig, &at, err));
	p->rig = &p->bench.site.rig[at];
	p->known = work_rig_known(&p->bench.site, p->rig->row.id);
	if (strcmp(p->rig->test, "crushing") == 0)
		return err_report(err, ERR_INPUT, "--rig",
			"A jack needs no plan of this kind; give a rig for "
			"bending or drop.");
	p->out->is_drop = strcmp(p->rig->test, "drop") == 0;
	return ERR_NONE;
}

enum err_code
work_prepare(const struct desk *desk, struct arena *arena,
	const struct work_prepare_ask *ask, struct work_prepared *out,
	struct err *err)
{
	struct preparing p = {.arena = arena, .ask = ask, .out = out};

	*out = (struct work_prepared){.n_sentence = 0};
	p.sentence = arena_take(arena, SENTENCES_MOST, sizeof(char *));
	p.is_caution = arena_take(arena, SENTENCES_MOST, sizeof(bool));
	if (p.sentence == NULL || p.is_caution == NULL)
		return err_memory(err);
	out->sentence = p.sentence;
	out->is_caution = p.is_caution;
	TRY(find_all(&p, desk, err));
	weigh_piece(&p);
	TRY(foresee(&p, err));
	if (out->is_drop)
		TRY(prepare_drop(&p, err));
	else
		TRY(prepare_bending(&p, err));
	say_lift(&p);
	return ERR_NONE;
}

/* ---- what it is prepared for ---- */

/* The only rig for the test that pieces of that shape are for. */
static const char *
only_rig(const struct work_site *s, const char *shape)
{
	const char *test = strcmp(shape, "beam") == 0 ? "bending"
		: strcmp(shape, "panel") == 0         ? "drop"
						      : "";
	const char *found = NULL;

	for (size_t i = 0; i < s->n_rig; i++) {
		if (strcmp(s->rig[i].test, test) != 0)
			continue;
		if (found != NULL)
			return NULL;
		found = s->rig[i].code;
	}
	return found;
}

static const struct book_trial *
find_trial(const struct work_site *s, const char *code)
{
	for (size_t i = 0; i < s->n_trial; i++)
		if (strcmp(s->trial[i].code, code) == 0)
			return &s->trial[i];
	return NULL;
}

static bool
has_code(const struct work_site *s, const char *code)
{
	for (size_t i = 0; i < s->n_specimen; i++)
		if (strcmp(s->specimen[i].code, code) == 0)
			return true;
	return false;
}

/* The mixes that the plan of the trial and its batches hold, in the book's
 * order. */
static size_t
mixes_of(const struct work_mixer *m, const struct book_trial *trial,
	const char **mix)
{
	const struct work_site *s = &m->site;
	size_t n = 0;

	for (size_t i = 0; i < s->n_mix; i++) {
		bool holds = s->mix[i].row.id == trial->baseline_mix_id;

		for (size_t k = 0; k < m->n_slot && !holds; k++)
			holds = m->slot[k].trial_id == trial->row.id &&
				m->slot[k].mix_id == s->mix[i].row.id;
		for (size_t k = 0; k < s->n_batch && !holds; k++)
			holds = s->batch[k].trial_id == trial->row.id &&
				s->batch_mix[k] == i;
		if (holds)
			mix[n++] = s->mix[i].code;
	}
	return n;
}

static enum err_code
about_piece(const char *code, struct work_prepare_about *out, const char **mix,
	struct err *err)
{
	const struct work_site *s = &out->bench.site;
	size_t at;

	TRY(work_find_piece(&out->bench, code, &at, err));
	out->code = out->piece = s->specimen[at].code;
	out->rig = only_rig(s, s->specimen[at].form);
	mix[0] = s->mix[s->batch_mix[s->specimen_batch[at]]].code;
	out->n_mix = 1;
	return ERR_NONE;
}

enum err_code
work_prepare_about(const struct desk *desk, struct arena *arena,
	const char *code, struct work_prepare_about *out, struct err *err)
{
	struct work_prepare_about got = {.code = code};
	const struct book_trial *trial;
	struct work_mixer m;
	const char **mix;
	size_t at;

	TRY(work_mixer_read(desk, arena, &m, err));
	TRY(work_bench_read(desk, arena, &got.bench, err));
	mix = arena_take(arena, m.site.n_mix + 1, sizeof *mix);
	if (mix == NULL)
		return err_memory(err);
	got.mix = mix;
	trial = find_trial(&m.site, code);
	if (has_code(&m.site, code)) {
		TRY(about_piece(code, &got, mix, err));
	} else if (work_site_mix(&m.site, code, &at)) {
		got.code = mix[got.n_mix++] = m.site.mix[at].code;
	} else if (trial != NULL) {
		got.code = trial->code;
		got.n_mix = mixes_of(&m, trial, mix);
	} else {
		TRY(about_piece(code, &got, mix, err));
	}
	*out = got;
	return ERR_NONE;
}
