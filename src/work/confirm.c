/* confirm.c - a confirmation round is begun, and read when it is done. */
#include "work/confirm.h"

#include "book/book.h"
#include "core/rng.h"
#include "core/text.h"
#include "work/confirm_priv.h"
#include "work/part.h"

#include <string.h>

enum { STREAM = WORK_CHAINS + 40 };

struct beginning {
	const struct desk *desk;
	struct arena *arena;
	const struct work_confirm *ask;
	struct work_compared all;
	gsl_rng *rng;
	size_t part, mix;
	int64_t after_batch_id;
	struct book_prediction *row;
	size_t n_row;
};

/* ---- what is asked ---- */

static enum err_code
find_mix(struct beginning *b, struct err *err)
{
	const struct work_site *site = &b->all.site;
	const struct book_decision *decision = NULL;
	size_t n = 0;

	if (b->ask->mix != NULL) {
		if (work_site_mix(site, b->ask->mix, &b->mix))
			return ERR_NONE;
		return err_report(err, ERR_NOT_FOUND, "mix",
			"There is no mix \"%.60s\" in the book.", b->ask->mix);
	}
	TRY(book_all_decision(b->desk->book, b->arena, &decision, &n, err));
	for (size_t i = 0; i < n; i++) {
		if (decision[i].part_id != site->part[b->part].row.id)
			continue;
		while (b->mix < site->n_mix &&
			site->mix[b->mix].row.id != decision[i].mix_id)
			b->mix++;
		if (b->mix < site->n_mix)
			return ERR_NONE;
	}
	return err_report(err, ERR_INPUT, "mix",
		"No mix is decided for part %.60s. Name the mix that is to be "
		"confirmed, or write a decision down with \"foamwright "
		"decide\".",
		b->ask->part);
}

static enum err_code
refuse_second(const struct beginning *b, struct err *err)
{
	const struct work_site *site = &b->all.site;
	const struct book_prediction *row = NULL;
	size_t n = 0;

	TRY(book_all_prediction(b->desk->book, b->arena, &row, &n, err));
	for (size_t i = 0; i < n; i++)
		if (row[i].part_id == site->part[b->part].row.id &&
			row[i].mix_id == site->mix[b->mix].row.id)
			return err_report(err, ERR_CONFLICT, "mix",
				"The confirmation round of mix %.60s for %.60s "
				"was begun already; what was written down then "
				"stands.",
				site->mix[b->mix].code, b->ask->part);
	return ERR_NONE;
}

static enum err_code
check_ask(const struct work_confirm *ask, struct err *err)
{
	if (ask->n_batch >= WORK_CONFIRM_LEAST &&
		ask->n_batch <= WORK_CONFIRM_MOST)
		return ERR_NONE;
	return err_report(err, ERR_INPUT, "--batches",
		"A confirmation round takes %d to %d fresh batches of the mix "
		"and as many of the baseline, not %zu; one batch confirms "
		"nothing.",
		WORK_CONFIRM_LEAST, WORK_CONFIRM_MOST, ask->n_batch);
}

/* ---- what is foretold ---- */

static enum err_code
foretell(struct beginning *b, const struct work_comparison *c, size_t group,
	struct err *err)
{
	const struct work_site *site = &b->all.site;
	const struct work_group *g = &c->group[group];
	const struct choose_draws draws = {.n_draw = c->draws.n_draw,
		.log_mean = c->draws.mean + group,
		.stride = c->draws.n_mix,
		.sd_batch = c->draws.sd_batch,
		.sd_specimen = c->draws.sd_specimen};
	struct choose_foretold foretold;

	TRY(choose_confirm_foretell(b->arena, &draws, b->ask->n_batch,
		(double)g->n_value / (double)g->n_batch, b->rng, &foretold,
		err));
	b->row[b->n_row++] = (struct book_prediction){.row = {.typed = ""},
		.part_id = site->part[b->part].row.id,
		.mix_id = site->mix[g->mix].row.id,
		.measure = choose_measure_word(c->measure),
		.batches = (int64_t)b->ask->n_batch,
		.after_batch_id = b->after_batch_id,
		.low = foretold.low,
		.median = foretold.median,
		.high = foretold.high};
	return ERR_NONE;
}

static enum err_code
foretell_all(struct beginning *b, struct err *err)
{
	const struct work_site *site = &b->all.site;
	bool found = false;

	for (size_t i = 0; i < b->all.n_comparison; i++) {
		const struct work_comparison *c = &b->all.comparison[i];

		for (size_t g = 0; g < c->n_group; g++) {
			if (c->group[g].mix != b->mix &&
				c->group[g].mix != site->baseline)
				continue;
			TRY(foretell(b, c, g, err));
			found = found || c->group[g].mix == b->mix;
		}
	}
	if (found)
		return ERR_NONE;
	return err_report(err, ERR_INPUT, "mix",
		"Mix %.60s has no results of its own, so nothing can be "
		"foretold of it. Test it in a trial first.",
		site->mix[b->mix].code);
}

/* ---- writing ---- */

/* The baseline may stand there for the part from the round of another mix: a
 * revision of it. */
static enum err_code
put_all(struct beginning *b, struct err *err)
{
	const struct book_prediction *old = NULL;
	size_t n = 0;

	TRY(book_all_prediction(b->desk->book, b->arena, &old, &n, err));
	for (size_t i = 0; i < b->n_row; i++) {
		struct book_prediction *row = &b->row[i];

		for (size_t k = 0; k < n; k++)
			if (old[k].part_id == row->part_id &&
				old[k].mix_id == row->mix_id &&
				strcmp(old[k].measure, row->measure) == 0)
				row->row.id = old[k].row.id;
		TRY(book_put_prediction(b->desk->book, row, err));
	}
	return ERR_NONE;
}

static enum err_code
write_down(struct beginning *b, struct err *err)
{
	struct book *book = b->desk->book;
	const struct tongue spoken = arena_english(b->arena);
	const char *detail = text_format(b->arena, "%s: mix %s, %zu batches",
		b->ask->part, b->all.site.mix[b->mix].code, b->ask->n_batch);
	enum err_code code;

	arena_speak(b->arena, spoken);
	if (detail == NULL)
		return err_memory(err);
	TRY(book_begin(book, b->desk->now_utc_s, b->desk->who, "confirm",
		b->desk->submission, err));
	code = put_all(b, err);
	if (code == ERR_NONE)
		code = book_commit(book, detail, NULL, err);
	book_rollback(book); /* nothing to undo after a commit */
	return code;
}

enum err_code
work_confirm_begin(const struct desk *desk, struct arena *arena,
	const struct work_confirm *ask, size_t *n, struct err *err)
{
	struct beginning b = {.desk = desk, .arena = arena, .ask = ask};
	enum err_code code;

	TRY(check_ask(ask, err));
	TRY(work_compare(desk, arena, &b.all, err));
	TRY(work_find_part(&b.all.site, ask->part, &b.part, err));
	TRY(find_mix(&b, err));
	TRY(refuse_second(&b, err));
	for (size_t i = 0; i < b.all.site.n_batch; i++)
		if (b.all.site.batch[i].row.id > b.after_batch_id)
			b.after_batch_id = b.all.site.batch[i].row.id;
	b.row = arena_take(arena, 2 * b.all.n_comparison, sizeof *b.row);
	b.rng = rng_new(desk->seed, STREAM);
	if (b.row == NULL || b.rng == NULL) {
		gsl_rng_free(b.rng);
		return err_memory(err);
	}
	code = foretell_all(&b, err);
	gsl_rng_free(b.rng);
	if (code == ERR_NONE)
		code = write_down(&b, err);
	if (code == ERR_NONE)
		*n = b.n_row;
	return code;
}

/* ---- reading ---- */

static const char *
part_code(const struct work_site *site, int64_t id)
{
	for (size_t i = 0; i < site->n_part; i++)
		if (site->part[i].row.id == id)
			return site->part[i].code;
	return "";
}

static enum err_code
read_one(struct arena *arena, const struct work_site *site,
	const struct work_results *results, const struct book_prediction *row,
	const struct confirm_round *round, struct work_confirmation *out,
	struct err *err)
{
	struct confirm_read read;

	TRY(confirm_fresh(arena, site, results, round, &read, err));
	*out = (struct work_confirmation){.part = part_code(site, row->part_id),
		.mix = site->mix[round->mix].code,
		.is_baseline = site->has_baseline &&
			round->mix == site->baseline,
		.measure = round->measure,
		.n_batch = (size_t)row->batches,
		.n_tested = read.n_batch,
		.is_done = read.n_batch >= (size_t)row->batches,
		.foretold = {row->low, row->median, row->high}};
	if (!out->is_done)
		return ERR_NONE;
	out->mean = read.mean;
	out->verdict = choose_confirm_judge(&out->foretold, read.mean);
	return ERR_NONE;
}

enum err_code
work_confirmations(const struct desk *desk, struct arena *arena,
	const struct work_confirmation **row, size_t *n, struct err *err)
{
	const struct book_prediction *all = NULL;
	struct work_site site = {0};
	struct work_results results = {0};
	struct work_confirmation *got;
	size_t n_all = 0, n_got = 0;

	TRY(work_site_read(desk->book, arena, &site, err));
	TRY(work_results(arena, &site, &results, err));
	TRY(book_all_prediction(desk->book, arena, &all, &n_all, err));
	got = arena_take(arena, n_all, sizeof *got);
	if (got == NULL)
		return err_memory(err);
	for (size_t i = 0; i < n_all; i++) {
		struct confirm_round round;

		if (confirm_round_of(&site, &all[i], &round))
			TRY(read_one(arena, &site, &results, &all[i], &round,
				&got[n_got++], err));
	}
	*row = got;
	*n = n_got;
	return ERR_NONE;
}
