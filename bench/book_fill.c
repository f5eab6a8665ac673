/* book_fill.c - a book of N batches with four test pieces each, through our own
 * functions, in one transaction: what a bulk import writes, without the CSV.
 *
 *   book_fill BOOK N_BATCH
 *
 * Prints how many rows a second that was.  Every piece is a beam with one
 * bending reading; the figures come from a fixed recurrence and mean nothing. */
#include "book/book.h"

#include <stdio.h>
#include <stdlib.h>
#include <time.h>

enum { PIECES = 4, MIXES = 8, MOMENT_S = 1772352000 };

static double
seconds(void)
{
	struct timespec t;

	(void)clock_gettime(CLOCK_MONOTONIC, &t);
	return (double)t.tv_sec + (double)t.tv_nsec * 1e-9;
}

/* Between 0 and 1, the same every time (MINSTD, Park and Miller 1988). */
static double
next(uint64_t *state)
{
	*state = *state * 48271 % 2147483647;
	return (double)*state / 2147483647.0;
}

static enum err_code
put_plan(struct book *book, int64_t mix[MIXES], int64_t *trial, struct err *err)
{
	struct book_trial t = {.code = "T", .question = ""};

	for (int i = 0; i < MIXES; i++) {
		char code[8];
		struct book_mix m = {.code = code,
			.name = code,
			.why = "",
			.matrix_code = code,
			.reinforcement = "",
			.wet_target_kg_m3 = {true, 720}};

		(void)snprintf(code, sizeof code, "M%d", i);
		TRY(book_put_mix(book, &m, err));
		mix[i] = m.row.id;
	}
	t.baseline_mix_id = mix[0];
	TRY(book_put_trial(book, &t, err));
	*trial = t.row.id;
	return ERR_NONE;
}

static enum err_code
put_piece(struct book *book, const char *code, int64_t batch, double off,
	struct err *err)
{
	struct book_specimen s = {.code = code,
		.batch_id = batch,
		.form = "beam",
		.width_m = {true, 0.1},
		.depth_m = {true, 0.075},
		.length_m = {true, 0.7},
		.mass_kg = {true, 3 + 0.2 * off},
		.fate = "tested",
		.fate_age_s = {true, 28 * 86400.0},
		.remark = ""};
	struct book_reading r = {.code = "1",
		.kind = "bending",
		.remark = "",
		.age_s = s.fate_age_s,
		.bending = {.loading = "centre",
			.span_m = {true, 0.6},
			.on_rig_kg = {true, 2.6},
			.held_kg = 18 + 8 * off,
			.broke_kg = {true, 20 + 8 * off}}};

	TRY(book_put_specimen(book, &s, err));
	r.specimen_id = s.row.id;
	return book_put_reading(book, &r, err);
}

static enum err_code
put_batch(struct book *book, int64_t mix, int64_t trial, long number,
	uint64_t *state, struct err *err)
{
	char code[24];
	struct book_batch b = {.code = code,
		.trial_id = trial,
		.mix_id = mix,
		.made_on = "2026-05-01",
		.remark = "",
		.wet_kg_m3 = {true, 700 + 40 * next(state)},
		.foam_middle_kg_m3 = {true, 65 + 10 * next(state)},
		.blending_s = {true, 120 + 120 * next(state)}};
	double shift = next(state);

	(void)snprintf(code, sizeof code, "B%07ld", number);
	TRY(book_put_batch(book, &b, err));
	for (int i = 1; i <= PIECES; i++) {
		(void)snprintf(code, sizeof code, "B%07ld-%d", number, i);
		TRY(put_piece(
			book, code, b.row.id, (shift + next(state)) / 2, err));
	}
	return ERR_NONE;
}

static enum err_code
fill(const char *path, long n_batch, struct err *err)
{
	const struct book_info info = {.name = "Bench",
		.note = "",
		.gallon = "us",
		.currency = "units"};
	struct book *book = NULL;
	int64_t mix[MIXES], trial;
	uint64_t state = 20260301;
	enum err_code code;

	TRY(book_create(path, &info, MOMENT_S, "bench", &book, err));
	code = book_begin(book, MOMENT_S, "bench", "fill", NULL, err);
	if (code == ERR_NONE)
		code = put_plan(book, mix, &trial, err);
	for (long i = 0; i < n_batch && code == ERR_NONE; i++)
		code = put_batch(
			book, mix[i % MIXES], trial, i + 1, &state, err);
	if (code == ERR_NONE)
		code = book_commit(book, "", NULL, err);
	book_close(book);
	return code;
}

int
main(int argc, char **argv)
{
	struct err err = {.code = ERR_NONE};
	double start = seconds(), took;
	long n_batch;

	if (argc != 3) {
		(void)fputs("book_fill BOOK N_BATCH\n", stderr);
		return 2;
	}
	n_batch = strtol(argv[2], NULL, 10);
	if (n_batch < 1 || fill(argv[1], n_batch, &err) != ERR_NONE) {
		(void)fprintf(stderr, "book_fill: %s\n", err.text);
		return 3;
	}
	took = seconds() - start;
	(void)printf("%ld batches, %ld pieces, as many readings: %.1f s, %.0f "
		     "rows/s\n",
		n_batch, PIECES * n_batch, took,
		(double)(n_batch * (1 + 2 * PIECES)) / took);
	return 0;
}
