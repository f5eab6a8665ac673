/* budget.c - each instrument alone, and what would narrow a mix's figure. */
#include "lab/budget.h"

#include "core/tongue.h"
#include "lab/uncertainty.h"

#include <math.h>

static void
add_part(
	struct lab_budget *b, const char *name, const char *mends, double ratio)
{
	size_t at = b->n_part++;

	while (at > 0 && b->part[at - 1].ratio < ratio) {
		b->part[at] = b->part[at - 1];
		at--;
	}
	b->part[at] = (struct lab_budget_part){name, mends, ratio};
	b->reading = hypot(b->reading, ratio);
}

/* The load uniform between what it held and what broke it. */
static void
take_step(struct lab_budget *b, struct interval load_N)
{
	b->has_step = load_N.low > 0 && isfinite(load_N.high) &&
		load_N.high > load_N.low;
	if (b->has_step)
		b->step = lab_of_division(load_N.high - load_N.low) /
			((load_N.high + load_N.low) / 2);
}

enum err_code
lab_budget_flexure(const struct lab_flexure *f,
	const struct lab_flexure_division *division, struct lab_budget *out,
	struct err *err)
{
	static const struct {
		const char *name, *mends;
	} words[LAB_FLEXURE_SOURCES] = {
		[LAB_FROM_SPAN] = {N_("span"),
			N_("measure it more finely, or use a longer one")},
		[LAB_FROM_WIDTH] = {N_("width"),
			N_("measure it at the break with a calliper")},
		[LAB_FROM_DEPTH] = {N_("depth"),
			N_("it counts twice: measure it at the break with a "
			   "calliper")},
		[LAB_FROM_WEIGHT] = {N_("weights"),
			N_("weigh them and the bucket on a finer scale")}};
	struct lab_flexure_budget parts;
	struct lab_budget got = {.n_part = 0};

	TRY(lab_flexure_budget(f, division, &parts, err));
	for (int i = 0; i < LAB_FROM_STEP; i++)
		add_part(&got, words[i].name, words[i].mends, parts.part[i]);
	got.has_step = parts.has_step;
	got.step = parts.part[LAB_FROM_STEP];
	*out = got;
	return ERR_NONE;
}

enum err_code
lab_budget_drop(const struct lab_drop *drop,
	const struct lab_drop_division *division, struct lab_budget *out,
	struct err *err)
{
	const struct {
		const char *name, *mends;
		struct lab_drop_division alone;
	} source[] = {
		{N_("dent"), N_("read it with a depth gauge, to 0.1 mm"),
			{.depth = division->depth}},
		{N_("tip"), N_("measure it with a calliper"),
			{.tip_diameter = division->tip_diameter}},
		{N_("height"),
			N_("measure it to the millimetre, or drop from higher"),
			{.height = division->height}},
		{N_("bar"), N_("weigh it on a finer scale"),
			{.mass = division->mass}},
		{N_("cone's angle"), N_("measure it with a protractor"),
			{.angle_rad = division->angle_rad}},
	};
	struct lab_budget got = {.n_part = 0};

	for (size_t i = 0; i < sizeof source / sizeof source[0]; i++) {
		double ratio;

		TRY(lab_drop_uncertainty(drop, &source[i].alone, &ratio, err));
		if (ratio > 0)
			add_part(&got, source[i].name, source[i].mends, ratio);
	}
	*out = got;
	return ERR_NONE;
}

enum err_code
lab_budget_crush(const struct lab_crush *c,
	const struct lab_crush_division *division, struct lab_budget *out,
	struct err *err)
{
	static const char calliper[] = N_("measure it with a calliper");
	const struct {
		const char *name, *mends;
		struct lab_crush_division alone;
	} source[] = {
		{N_("width"), calliper, {.width = division->width}},
		{N_("length"), calliper, {.depth = division->depth}},
		{N_("diameter"), calliper, {.diameter = division->diameter}},
		{N_("load"), N_("read it on a finer gauge"),
			{.load = division->load}},
	};
	struct lab_budget got = {.n_part = 0};

	for (size_t i = 0; i < sizeof source / sizeof source[0]; i++) {
		double ratio;

		TRY(lab_crush_uncertainty(c, &source[i].alone, &ratio, err));
		if (ratio > 0)
			add_part(&got, source[i].name, source[i].mends, ratio);
	}
	take_step(&got, c->load_N);
	*out = got;
	return ERR_NONE;
}

static double
of_mean(double batch_square, double piece_square, double n_batch,
	double n_piece)
{
	return sqrt(
		batch_square / n_batch + piece_square / (n_batch * n_piece));
}

enum err_code
lab_budget_worth(const struct lab_budget_mix *mix, struct lab_budget_worth *out,
	struct err *err)
{
	static const double saved = 0.75; /* half as large: a quarter left */
	const double all[] = {mix->reading, mix->step, mix->piece, mix->batch,
		mix->n_piece - 1, mix->n_batch - 1};
	double step = mix->step * mix->step, batch = mix->batch * mix->batch;
	double piece = mix->piece * mix->piece + step, less;

	for (size_t i = 0; i < sizeof all / sizeof all[0]; i++)
		if (!(all[i] >= 0) || !isfinite(all[i]))
			return err_report(err, ERR_INPUT, "budget",
				"A spread must not be below 0, and there is at "
				"least one piece and one batch.");
	less = saved *
		(fmin(mix->reading * mix->reading, mix->piece * mix->piece) +
			step);
	*out = (struct lab_budget_worth){
		.now = of_mean(batch, piece, mix->n_batch, mix->n_piece),
		.finer = of_mean(
			batch, piece - less, mix->n_batch, mix->n_piece),
		.more_pieces = of_mean(
			batch, piece, mix->n_batch, mix->n_piece + 1),
		.more_batches = of_mean(
			batch, piece, mix->n_batch + 1, mix->n_piece)};
	return ERR_NONE;
}
