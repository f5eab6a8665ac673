/* hanging.c - the steps of a bending test, one after the other. */
#include "lab/hanging.h"

#include <math.h>
#include <string.h>

static const char *const words[LAB_HUNG_WHATS] = {[LAB_HUNG_ADDED] = "added",
	[LAB_HUNG_SAG] = "sag",
	[LAB_HUNG_CRACKED] = "cracked",
	[LAB_HUNG_FELL] = "fell",
	[LAB_HUNG_HOLDING] = "holding",
	[LAB_HUNG_UNDONE] = "undone"};

const char *
lab_hung_word(enum lab_hung_what what)
{
	return words[what];
}

bool
lab_hung_find(const char *word, enum lab_hung_what *what)
{
	for (int i = 0; i < LAB_HUNG_WHATS; i++) {
		if (strcmp(words[i], word) == 0) {
			*what = (enum lab_hung_what)i;
			return true;
		}
	}
	return false;
}

/* Between the steps: the load that was on before the last weight, of which it
 * is known that the beam held it. */
struct walk {
	struct lab_hung *out;
	double before_kg;
	int64_t added_at_s;
};

static enum err_code
check_step(const struct lab_hung *h, const struct lab_hung_step *s,
	struct err *err)
{
	if (h->ended)
		return err_report(err, ERR_INPUT, "step",
			"The test has ended; nothing follows but taking the "
			"end back.");
	if (s->what == LAB_HUNG_ADDED &&
		!(s->mass.kg > 0 && isfinite(s->mass.kg)))
		return err_report(err, ERR_INPUT, "step",
			"A weight of %g kg cannot be added; it takes more than "
			"nothing.",
			s->mass.kg);
	if (s->what == LAB_HUNG_SAG && !(s->sag.m >= 0 && isfinite(s->sag.m)))
		return err_report(err, ERR_INPUT, "step",
			"A sag of %g m cannot be; it takes 0 or more.",
			s->sag.m);
	if (s->what == LAB_HUNG_CRACKED && h->cracked)
		return err_report(err, ERR_INPUT, "step",
			"The first crack was noted already; say when it falls, "
			"or that it still holds.");
	if ((s->what == LAB_HUNG_CRACKED || s->what == LAB_HUNG_FELL) &&
		!(h->now_kg > 0))
		return err_report(err, ERR_INPUT, "step",
			"Nothing is on the beam, so nothing broke it; give the "
			"mass of the hanger.");
	return ERR_NONE;
}

static void
add_weight(struct walk *w, const struct lab_hung_step *s)
{
	w->before_kg = w->out->now_kg;
	w->out->now_kg += s->mass.kg;
	w->out->last_kg = s->mass.kg;
	w->out->n_weight++;
	w->added_at_s = s->at_s;
}

static void
end_walk(struct walk *w, const struct lab_hung_step *s)
{
	struct lab_hung *h = w->out;
	bool fell = s->what == LAB_HUNG_FELL;
	double held = fell ? w->before_kg : h->now_kg;

	h->ended = true;
	if (h->cracked) {
		h->after_held_kg = held;
		h->has_after_broke = fell;
		h->after_broke_kg = fell ? h->now_kg : 0;
	} else {
		h->held_kg = held;
		h->has_broke = fell;
		h->broke_kg = fell ? h->now_kg : 0;
	}
	h->has_hold = fell && h->n_weight > 0 && s->at_s >= w->added_at_s;
	if (h->has_hold)
		h->hold_s = (double)(s->at_s - w->added_at_s);
}

static void
crack(struct walk *w)
{
	struct lab_hung *h = w->out;

	h->cracked = true;
	h->held_kg = w->before_kg;
	h->has_broke = true;
	h->broke_kg = h->now_kg;
	w->before_kg = 0; /* not known yet what it holds cracked */
}

static void
take_step(struct walk *w, const struct lab_hung_step *s)
{
	struct lab_hung *h = w->out;

	switch (s->what) {
	case LAB_HUNG_ADDED:
		add_weight(w, s);
		break;
	case LAB_HUNG_SAG:
		h->sag[h->n_sag++] = (struct lab_hung_sag){s->sag.m, h->now_kg};
		break;
	case LAB_HUNG_CRACKED:
		crack(w);
		break;
	case LAB_HUNG_FELL:
	case LAB_HUNG_HOLDING:
		end_walk(w, s);
		break;
	case LAB_HUNG_UNDONE:
		break;
	}
}

/* Which steps hold, in order. */
static enum err_code
live_steps(const struct lab_hung_step *step, size_t n, size_t *live,
	size_t *n_live, struct err *err)
{
	*n_live = 0;
	for (size_t i = 0; i < n; i++) {
		if (step[i].what != LAB_HUNG_UNDONE) {
			live[(*n_live)++] = i;
			continue;
		}
		if (*n_live == 0)
			return err_report(err, ERR_INPUT, "step",
				"There is nothing to take back.");
		(*n_live)--;
	}
	return ERR_NONE;
}

enum err_code
lab_hanging(struct mass hanger, const struct lab_hung_step *step, size_t n,
	struct lab_hung *out, struct err *err)
{
	struct lab_hung got = {.now_kg = hanger.kg};
	struct walk w = {.out = &got};
	size_t live[LAB_HUNG_MOST];

	if (!(hanger.kg >= 0 && isfinite(hanger.kg)))
		return err_report(err, ERR_INPUT, "hanger",
			"The hanger cannot weigh %g kg; it takes 0 or more.",
			hanger.kg);
	if (n > LAB_HUNG_MOST)
		return err_report(err, ERR_INPUT, "step",
			"That is more than %d steps; a test takes fewer, so "
			"use larger weights.",
			LAB_HUNG_MOST);
	TRY(live_steps(step, n, live, &got.n_live, err));
	for (size_t i = 0; i < got.n_live; i++) {
		TRY(check_step(&got, &step[live[i]], err));
		take_step(&w, &step[live[i]]);
	}
	if (!got.ended && !got.cracked)
		got.held_kg = got.n_weight > 0 ? w.before_kg : 0;
	if (!got.ended && got.cracked)
		got.after_held_kg = w.before_kg;
	*out = got;
	return ERR_NONE;
}
