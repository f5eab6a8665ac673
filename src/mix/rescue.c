/* rescue.c - the decision at the mixer, from the yield and the clock. */
#include "mix/rescue.h"

#include "core/text.h"

#include <math.h>

static const double litre_per_m3 = 1000.0;
static const double percent = 100.0;
static const double minute_s = 60.0;

struct mix_rescue_limits
mix_rescue_usual(void)
{
	return (struct mix_rescue_limits){.off_ok_ratio = 0.05,
		.off_most_ratio = 0.10,
		.working_s = 20 * 60,
		.adding_s = 4 * 60,
		.foam_most_ratio = 0.65};
}

static enum err_code
check_ask(const struct mix_rescue_ask *ask, struct err *err)
{
	const struct mix_rescue_limits *l = &ask->limits;

	if (!ask->batch.has_target)
		return err_report(err, ERR_INPUT, "wet_density_target",
			"Whether a batch can be saved depends on its target "
			"wet density; give it.");
	if (!(ask->since_foam_s >= 0))
		return err_report(err, ERR_INPUT, "since_foam",
			"The time since the foam went in is %g s; it must be 0 "
			"or more.",
			ask->since_foam_s);
	if (!(l->off_ok_ratio >= 0 && l->off_most_ratio >= l->off_ok_ratio &&
		    l->working_s > 0 && l->adding_s >= 0 &&
		    l->foam_most_ratio > 0 && l->foam_most_ratio <= 1))
		return err_report(err, ERR_INPUT, "limits",
			"The limits must be 0 or more, the share that is still "
			"this mix not below the share that is cast as it is.");
	if (ask->has_mixer && !(ask->mixer.m3 > 0))
		return err_report(err, ERR_INPUT, "mixer",
			"The mixer takes %g L; that must be greater than 0.",
			ask->mixer.m3 * litre_per_m3);
	return ERR_NONE;
}

static const char *
other_use(double off_ratio)
{
	return off_ratio > 0
		? N_("It weighs more than this mix: it may serve as a heavier "
		     "one, for a floor or a strip that is not compared.")
		: N_("It weighs less than this mix and will be weaker: fill, "
		     "nothing that carries.");
}

/* Why it cannot be brought back: false if it can; else *why, NULL where the
 * arena is full. */
static bool
is_hindered(struct arena *arena, const struct mix_rescue_ask *ask,
	const struct mix_rescued *got, const char **why)
{
	const struct mix_rescue_limits *l = &ask->limits;
	double foam = 1 - got->yielded.slurry.volume.m3 / got->after.m3;

	if (got->left_s < l->adding_s)
		*why = text_format(arena,
			"There are %.0f min left of the %.0f that this mix may "
			"wait, and adding and blending takes %.0f: stirring on "
			"would only break bubbles.",
			floor(got->left_s / minute_s), l->working_s / minute_s,
			l->adding_s / minute_s);
	else if (ask->has_mixer && got->after.m3 > ask->mixer.m3)
		*why = text_format(arena,
			"It would fill %.0f L and the mixer takes %.0f L.",
			got->after.m3 * litre_per_m3,
			ask->mixer.m3 * litre_per_m3);
	else if (got->yielded.advice.kind == MIX_ADVICE_ADD_FOAM &&
		foam > l->foam_most_ratio)
		*why = text_format(arena,
			"It would be %.0f %% foam, and above %.0f %% a mix may "
			"sink hours later.",
			foam * percent, l->foam_most_ratio * percent);
	else
		return false;
	return true;
}

/* What is to be added, and what the mix fills with it. */
static void
plan_addition(const struct mix_rescue_ask *ask, struct mix_rescued *got)
{
	const struct mix_yielded *y = &got->yielded;
	double mass_kg = y->mass.kg;

	got->add = y->advice.add;
	mass_kg += got->add.m3 *
		(y->advice.kind == MIX_ADVICE_ADD_FOAM
				? ask->batch.foam.kg_m3
				: y->slurry.density.kg_m3);
	got->after.m3 = mass_kg / ask->batch.wet_density_target.kg_m3;
}

static void
call_it_other(struct mix_rescued *got)
{
	got->verdict = MIX_RESCUE_OTHER;
	got->add.m3 = 0;
	got->after = got->yielded.volume;
	got->sentence = other_use(got->yielded.advice.off_ratio);
}

static enum err_code
decide(struct arena *arena, const struct mix_rescue_ask *ask,
	struct mix_rescued *got, struct err *err)
{
	const struct mix_advice *advice = &got->yielded.advice;
	double off = fabs(advice->off_ratio);
	const char *why = NULL;
	bool hindered;

	if (off <= ask->limits.off_ok_ratio) {
		got->verdict = MIX_RESCUE_CAST;
		got->after = got->yielded.volume;
		got->sentence = "Cast it.";
		got->reason = text_format(arena,
			"The wet density is %.1f %% off the target; up to %g "
			"%% it is this mix.",
			off * percent, ask->limits.off_ok_ratio * percent);
		return got->reason != NULL ? ERR_NONE : err_memory(err);
	}
	plan_addition(ask, got);
	hindered = is_hindered(arena, ask, got, &why);
	got->verdict = advice->kind == MIX_ADVICE_ADD_FOAM
		? MIX_RESCUE_ADD_FOAM
		: MIX_RESCUE_ADD_SLURRY;
	got->sentence = text_format(arena, "%s Within %.0f min.",
		advice->sentence,
		floor((got->left_s - ask->limits.adding_s) / minute_s));
	got->reason = text_format(arena,
		"It is %.1f %% off, and beyond %g %% it is not this mix%s.",
		off * percent, ask->limits.off_most_ratio * percent,
		off > ask->limits.off_most_ratio
			? arena_say(arena, ": do not cast it as it is")
			: arena_say(arena,
				  "; as it is, write the truth on the label"));
	if (hindered) {
		call_it_other(got);
		got->reason = why;
	}
	return got->reason != NULL && got->sentence != NULL ? ERR_NONE
							    : err_memory(err);
}

enum err_code
mix_rescue(struct arena *arena, const struct mix_rescue_ask *ask,
	struct mix_rescued *out, struct err *err)
{
	struct mix_rescued got = {.verdict = MIX_RESCUE_CAST};

	TRY(check_ask(ask, err));
	TRY(mix_yield(arena, &ask->batch, &got.yielded, err));
	got.left_s = fmax(0, ask->limits.working_s - ask->since_foam_s);
	TRY(decide(arena, ask, &got, err));
	*out = got;
	return ERR_NONE;
}
