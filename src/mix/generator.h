/* generator.h - a foam generator weighed in: what foam it gives, how fast, and
 * whether it stays so as long as a batch takes.
 *
 * Pure.  Method: docs/methods/generator.md. */
#ifndef MIX_GENERATOR_H
#define MIX_GENERATOR_H

#include "mix/weigh_own.h"

#include <stdbool.h>
#include <stddef.h>

#define MIX_MOMENT_LIST(X)         \
	X(MIX_AT_START, "start")   \
	X(MIX_AT_MIDDLE, "middle") \
	X(MIX_AT_END, "end")

#define MIX_MOMENT_AS_ENUM(moment, word) moment,
enum mix_moment { MIX_MOMENT_LIST(MIX_MOMENT_AS_ENUM) };
#undef MIX_MOMENT_AS_ENUM
enum { MIX_MOMENT_COUNT = MIX_AT_END + 1 };

const char *mix_moment_word(enum mix_moment moment);
bool mix_moment_find(const char *word, enum mix_moment *moment);

/* The vessel filled with foam, struck level and weighed. */
struct mix_foam_weighing {
	enum mix_moment moment; /* of a run as long as a batch */
	double gross_kg;
	bool has_fill;
	double fill_s; /* how long the vessel took to fill */
};

struct mix_generator_run {
	const struct mix_foam_weighing *weighing;
	size_t n_weighing;
	double tare_kg, scale_step_kg;
	double vessel_m3, vessel_u_m3; /* its true volume, by water */
	double solution_kg_m3;         /* of the liquid fed, usually 1000 */
	bool has_dilution;
	double dilution;     /* mass of water per mass of agent */
	double target_kg_m3; /* 0: none */
};

/* The limits inside which a generator is called steady: repeats within 3 % at
 * one moment, 5 % from start to end, 10 % from the target; common practice, no
 * source. */
static const double mix_repeat_most_ratio = 0.03;
static const double mix_drift_most_ratio = 0.05;
static const double mix_foam_off_most_ratio = 0.10;

struct mix_generator_told {
	double density_kg_m3;        /* mean of all weighings */
	double standard_error_kg_m3; /* scatter and vessel together */
	bool has_moment[MIX_MOMENT_COUNT];
	double moment_kg_m3[MIX_MOMENT_COUNT];
	double repeat_ratio; /* widest range at one moment, of the mean */
	bool has_drift;
	double drift_ratio; /* end / start - 1 */
	double expansion;   /* solution density / foam density */
	bool has_rate;
	double rate_m3_s;
	bool has_agent;
	double agent_kg_per_m3;               /* of foam */
	bool repeats_agree, stays, on_target; /* true where not known */
};

/* mix_generator_weigh(run, out, err):
 * Definitions (density = mass / volume, expansion = volume of foam / volume of
 * liquid); the standard error joins the scatter of the weighings, s/sqrt(n),
 * and the vessel's, which does not average out (GUM, JCGM 100:2008, 5.1.2).
 * Agent per volume of foam = density / (1 + dilution).
 * ERR_INPUT  no weighing, a vessel without volume, a gross that is not above
 *            the tare, foam not lighter than its own liquid, ... */
enum err_code mix_generator_weigh(const struct mix_generator_run *run,
	struct mix_generator_told *out, struct err *err) MUST_CHECK;

/* mix_drain_time(after_s, drained_kg, n, liquid_kg, share, out_s, err):
 * The time (s) at which the share (0 < share < 1) of the foam's liquid has run
 * out of a jar, by a straight line between two looks; INFINITY if it had not
 * yet at the last look.  after_s rises, drained_kg does not fall; before the
 * first look nothing has drained at 0 s.  liquid_kg is that of the foam in the
 * jar.  Common practice, no source.
 * ERR_INPUT  n is 0, or the looks are out of order or out of range */
enum err_code mix_drain_time(const double *after_s, const double *drained_kg,
	size_t n, double liquid_kg, double share, double *out_s,
	struct err *err) MUST_CHECK;

#endif /* MIX_GENERATOR_H */
