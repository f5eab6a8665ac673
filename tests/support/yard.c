/* yard.c - a book of its own for tests at the bench. */
#include "yard.h"

#include "work/batch.h"
#include "work/material.h"
#include "work/piece.h"
#include "work/recipe.h"
#include "work/shelf.h"
#include "work/trial.h"
#include "work/withdraw.h"

#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

static void
put_recipes(struct fixture *f, struct yard *y)
{
	static const char *const material[] = {"cement", "water"};
	static const char *const other[] = {"L"};
	const struct work_recipe_part part[] = {
		{"cement", WORK_RECIPE_RATIO, 1},
		{"water", WORK_RECIPE_RATIO, 0.48}};
	struct work_recipe_ask mix = {.code = "P",
		.part = part,
		.n_part = 2,
		.wet_kg_m3 = {true, 731},
		.foam_kg_m3 = {true, 70},
		.typed = "{}"};
	struct work_trial_ask trial = {.code = "T",
		.baseline = "P",
		.mix = other,
		.n_mix = 1,
		.batches = {true, 2},
		.typed = "{}"};
	struct book_material got;
	bool made;

	for (size_t i = 0; i < 2; i++) {
		struct work_material_ask ask = {.code = material[i],
			.from = material[i],
			.typed = "{}"};

		assert_ok(work_material_put(
				  &y->desk, f->a, &ask, &got, &made, &f->err),
			&f->err);
	}
	assert_ok(
		work_recipe_put(&y->desk, f->a, &mix, &made, &f->err), &f->err);
	mix.code = "L";
	mix.wet_kg_m3.value = 604;
	assert_ok(
		work_recipe_put(&y->desk, f->a, &mix, &made, &f->err), &f->err);
	assert_ok(work_trial_plan(&y->desk, f->a, &trial, &f->err), &f->err);
}

void
yard_put_batch(
	struct fixture *f, struct yard *y, const char *code, double wet_kg_m3)
{
	struct work_batch_ask ask = {.code = code,
		.made_on = "2026-03-01",
		.wet_kg_m3 = {true, wet_kg_m3},
		.typed = "{}"};
	struct work_batch_told told;

	assert_ok(work_batch_record(&y->desk, f->a, &ask, &told, &f->err),
		&f->err);
}

void
yard_put_form(struct fixture *f, struct yard *y, const char *code,
	const char *shape, const double size_m[3])
{
	struct work_form_ask ask = {.code = code,
		.shape = shape,
		.width_m = {true, size_m[0]},
		.depth_m = {true, size_m[1]},
		.length_m = {true, size_m[2]},
		.typed = "{}"};
	bool made;

	assert_ok(work_form_put(&y->desk, f->a, &ask, &made, &f->err), &f->err);
	assert_true(made);
}

void
yard_put_pieces(struct fixture *f, struct yard *y, const char *batch,
	const char *form, double n, const char **code)
{
	struct work_pieces_ask ask = {.batch = batch,
		.form = form,
		.count = {true, n},
		.typed = "{}"};
	struct work_pieces_told told;

	assert_ok(
		work_pieces_put(&y->desk, f->a, &ask, &told, &f->err), &f->err);
	assert_int_equal(told.n, (size_t)n);
	assert_string_equal(told.due_on, "2026-03-29");
	for (size_t i = 0; i < told.n; i++)
		code[i] = told.code[i];
}

void
yard_furnish(struct fixture *f, struct yard *y)
{
	static const double beam[] = {0.1, 0.075, 0.7};
	static const double panel[] = {0.3, 0.05, 0.3};
	int fd;

	/* 2026-03-29T08:00:00Z */
	*y = (struct yard){.desk = {.now_utc_s = 1774771200,
				   .who = "tester",
				   .seed = 1,
				   .n_chain = 2,
				   .n_keep = 500}};
	(void)snprintf(y->path, sizeof y->path, "bench-test-XXXXXX");
	fd = mkstemp(y->path);
	assert_true(fd >= 0);
	(void)close(fd);
	(void)unlink(y->path);
	assert_ok(work_new(y->path, "yard", "", &y->desk, &f->err), &f->err);
	assert_ok(work_open(y->path, true, &y->desk, &f->err), &f->err);
	put_recipes(f, y);
	yard_put_batch(f, y, "T-01", 731);
	yard_put_form(f, y, "B1", "beam", beam);
	yard_put_form(f, y, "S1", "panel", panel);
	yard_put_pieces(f, y, "T-01", "B1", BEAMS, y->piece);
	yard_put_pieces(f, y, "T-01", "S1", PANELS, y->piece + BEAMS);
}

void
yard_close(struct yard *y)
{
	work_close(&y->desk);
	(void)unlink(y->path);
}

size_t
yard_entries(struct fixture *f, struct yard *y)
{
	size_t n = 0;

	assert_ok(work_verify(&y->desk, f->a, &n, &f->err), &f->err);
	return n;
}
