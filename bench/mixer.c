/* mixer.c - the advice at the mixer: a wet density read and told what to do, a
 * foam check told, in a book of a whole house; opening the book included.
 *
 *   mixer FOLDER BATCHES
 *
 * Medians of eleven and the least of twenty, in a book made in FOLDER: what a slow disk adds by being
 * told to keep the write is in it, so that FOLDER in memory shows the job
 * alone. */
#include "must.h"
#include "timing.h"

#include "work/batch.h"
#include "work/foam.h"
#include "work/material.h"
#include "work/recipe.h"
#include "work/shelf.h"
#include "work/trial.h"

#include <string.h>

static const int64_t now = 1772352000; /* 2026-03-01T08:00:00Z */

struct place {
	char path[512];
	struct desk desk;
	struct arena *arena;
	size_t n;
};

static void
put_material(struct place *p, const char *code, const char *from)
{
	struct work_material_ask ask = {
		.code = code, .from = from, .typed = "{}"};
	struct err err = {.code = ERR_NONE};
	struct book_material got;
	bool made;

	must(work_material_put(&p->desk, p->arena, &ask, &got, &made, &err),
		&err);
}

static void
furnish(struct place *p)
{
	const struct work_recipe_part part[] = {
		{"cement", WORK_RECIPE_RATIO, 1},
		{"water", WORK_RECIPE_RATIO, 0.48},
		{"sand", WORK_RECIPE_RATIO, 0.5}};
	struct work_recipe_ask mix = {.code = "P",
		.part = part,
		.n_part = 3,
		.wet_kg_m3 = {true, 720},
		.foam_kg_m3 = {true, 70},
		.typed = "{}"};
	struct work_generator_ask generator = {.code = "G",
		.metering = "seconds",
		.target_kg_m3 = {true, 70},
		.vessel_m3 = {true, 0.01},
		.vessel_kg = {true, 0.6},
		.scale_step_kg = {true, 0.005},
		.rate_m3_s = {true, 4e-4},
		.typed = "{}"};
	struct work_gear_ask gear = {.mixer_m3 = {true, 0.09}, .typed = "{}"};
	static const char *const mixes[] = {"S"};
	struct work_trial_ask trial = {.code = "T",
		.baseline = "P",
		.mix = mixes,
		.n_mix = 1,
		.batches = {true, 2},
		.seed = {true, 1},
		.typed = "{}"};
	struct err err = {.code = ERR_NONE};
	bool made;

	put_material(p, "cement", "cement");
	put_material(p, "water", "water");
	put_material(p, "sand", "fine-sand");
	must(work_generator_put(&p->desk, p->arena, &generator, &made, &err),
		&err);
	must(work_gear_put(&p->desk, p->arena, &gear, &err), &err);
	must(work_recipe_put(&p->desk, p->arena, &mix, &made, &err), &err);
	mix.code = "S";
	mix.wet_kg_m3.value = 800;
	must(work_recipe_put(&p->desk, p->arena, &mix, &made, &err), &err);
	must(work_trial_plan(&p->desk, p->arena, &trial, &err), &err);
}

static void
check_foam(struct place *p, const char *batch, double gross_kg)
{
	struct work_foam_ask ask = {.generator = "G",
		.batch = batch,
		.gross_kg = {true, gross_kg},
		.typed = "{}"};
	struct err err = {.code = ERR_NONE};
	struct work_foam_told told;

	must(work_foam_put(&p->desk, p->arena, &ask, &told, &err), &err);
}

static void
make_batch(struct place *p, const char *code, double wet)
{
	static const struct work_settled settled[] = {{3600, 0}, {86400, 0.01}};
	struct work_batch_ask ask = {.code = code,
		.mix = "P",
		.as_sheet = true,
		.wet_kg_m3 = {true, wet},
		.slurry_kg_m3 = {true, 2013},
		.settled = settled,
		.n_settled = 2,
		.typed = "{}"};
	struct err err = {.code = ERR_NONE};
	struct work_batch_told told;

	must(work_batch_record(&p->desk, p->arena, &ask, &told, &err), &err);
}

/* One after another, as in a season; the arena is given back in between. */
static void
fill(struct place *p)
{
	for (size_t i = 0; i < p->n; i++) {
		char code[32];

		p->arena = arena_new((size_t)1 << 28);
		(void)snprintf(code, sizeof code, "B%04zu", i);
		make_batch(p, code, 715 + (double)(i % 11));
		check_foam(p, code, 1.3 + 0.001 * (double)(i % 7));
		check_foam(p, code, 1.3 + 0.001 * (double)(i % 5));
		arena_free(p->arena);
	}
}

static void
open_book(struct place *p)
{
	struct err err = {.code = ERR_NONE};

	p->arena = arena_new((size_t)1 << 26);
	must(work_open(p->path, true, &p->desk, &err), &err);
}

static void
close_book(struct place *p)
{
	work_close(&p->desk);
	arena_free(p->arena);
}

static void
advise(void *data)
{
	struct work_batch_ask ask = {.code = "B0007",
		.wet_kg_m3 = {true, 768},
		.since_foam_s = {true, 240},
		.typed = "{}"};
	struct err err = {.code = ERR_NONE};
	struct work_batch_told told;
	struct place *p = data;

	open_book(p);
	must(work_batch_record(&p->desk, p->arena, &ask, &told, &err), &err);
	if (!told.has_rescue || told.n_sentence == 0)
		must(err_report(&err, ERR_INPUT, "", "no advice was given"),
			&err);
	close_book(p);
}

static void
foam(void *data)
{
	open_book(data);
	check_foam(data, "B0007", 1.31);
	close_book(data);
}

static void
only_open(void *data)
{
	open_book(data);
	close_book(data);
}

static void
only_read(void *data)
{
	struct err err = {.code = ERR_NONE};
	struct work_mixer m;
	struct place *p = data;

	open_book(p);
	must(work_mixer_read(&p->desk, p->arena, &m, &err), &err);
	close_book(p);
}

/* Busy neighbours lengthen the median, not the least. */
static void
say(struct place *p, const char *what, timed *run)
{
	double least = 1e9, median = timing_median(run, p);

	for (int i = 0; i < 20; i++) {
		double start = timing_now();

		run(p);
		start = timing_now() - start;
		least = start < least ? start : least;
	}
	(void)printf("  %-20s median %7.3f ms, least %7.3f ms\n", what,
		1e3 * median, 1e3 * least);
}

int
main(int n, char **word)
{
	struct place p = {.desk = {.now_utc_s = now, .who = "bench"}};
	struct err err = {.code = ERR_NONE};

	if (n != 3)
		return 2;
	p.n = (size_t)strtoul(word[2], NULL, 10);
	(void)snprintf(p.path, sizeof p.path, "%s/mixer.book", word[1]);
	must(work_new(p.path, "bench", "", &p.desk, &err), &err);
	open_book(&p);
	furnish(&p);
	arena_free(p.arena);
	fill(&p);
	work_close(&p.desk);
	say(&p, "opened and closed", only_open);
	say(&p, "and everything read", only_read);
	say(&p, "wet density, told", advise);
	say(&p, "foam check, told", foam);
	return 0;
}
