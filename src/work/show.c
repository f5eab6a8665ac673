/* show.c - reads what a page of a list needs, and reduces its readings. */
#include "work/show.h"

#include "book/book.h"

#include <string.h>

static size_t
rows_of(const struct work_show *ask)
{
	return ask->n_most > 0 ? ask->n_most : SIZE_MAX / 4;
}

static enum err_code
find_place(struct book *book, const struct work_show *ask,
	struct book_page *page, struct err *err)
{
	const char *code = ask->after != NULL ? ask->after : ask->before;

	*page = (struct book_page){.n_most = rows_of(ask),
		.back = ask->before != NULL || ask->last};
	if (code == NULL)
		return ERR_NONE;
	return ask->list == WORK_LIST_BATCHES
		? book_find_batch(book, code, &page->from_id, err)
		: book_find_specimen(book, code, &page->from_id, err);
}

/* ---- batches: with the facts that rules look at ---- */

/* Rows of several batches, one after the other, as one array. */
struct gathered {
	char *row;
	size_t n, room;
};

static bool
gather(struct arena *arena, struct gathered *g, const void *row, size_t n,
	size_t size)
{
	if (g->n + n > g->room) {
		size_t room = 2 * (g->n + n) + 64;
		char *larger = arena_take(arena, room, size);

		if (larger == NULL)
			return false;
		if (g->n > 0)
			memcpy(larger, g->row, g->n * size);
		g->row = larger;
		g->room = room;
	}
	if (n > 0)
		memcpy(g->row + g->n * size, row, n * size);
	g->n += n;
	return true;
}

static enum err_code
read_below(struct book *book, struct arena *a, struct work_site *s,
	struct err *err)
{
	struct gathered settling = {0}, specimen = {0};

	for (size_t i = 0; i < s->n_batch; i++) {
		const struct book_settling *se = NULL;
		const struct book_specimen *sp = NULL;
		size_t n_se = 0, n_sp = 0;
		int64_t id = s->batch[i].row.id;

		TRY(book_settling_of_batch(book, a, id, &se, &n_se, err));
		TRY(book_specimen_of_batch(book, a, id, &sp, &n_sp, err));
		if (!gather(a, &settling, se, n_se, sizeof *se) ||
			!gather(a, &specimen, sp, n_sp, sizeof *sp))
			return err_memory(err);
	}
	s->settling = (const void *)settling.row;
	s->n_settling = settling.n;
	s->specimen = (const void *)specimen.row;
	s->n_specimen = specimen.n;
	return ERR_NONE;
}

static enum err_code
read_batches(struct book *book, struct arena *arena,
	const struct work_show *ask, struct work_shown *out, struct err *err)
{
	struct book_page page;
	struct work_site *s = &out->site;

	TRY(find_place(book, ask, &page, err));
	TRY(book_page_batch(
		book, arena, &page, &s->batch, &s->n_batch, &out->more, err));
	TRY(work_site_fill_foam(book, arena, s, err));
	out->n = s->n_batch;
	return read_below(book, arena, s, err);
}

/* ---- specimens: with the batches that they name ---- */

/* Ids of batches in rising order, each once. */
static size_t
batch_ids(const struct work_site *s, int64_t *id)
{
	size_t n = 0;

	for (size_t i = 0; i < s->n_specimen; i++) {
		int64_t met = s->specimen[i].batch_id;
		size_t at = n;

		while (at > 0 && id[at - 1] > met)
			at--;
		if (at > 0 && id[at - 1] == met)
			continue;
		memmove(id + at + 1, id + at, (n - at) * sizeof *id);
		id[at] = met;
		n++;
	}
	return n;
}

static enum err_code
read_named_batches(struct book *book, struct arena *arena, struct work_site *s,
	struct err *err)
{
	int64_t *id = arena_take(arena, s->n_specimen + 1, sizeof *id);
	struct book_batch *all;
	size_t n;

	if (id == NULL)
		return err_memory(err);
	n = batch_ids(s, id);
	all = arena_take(arena, n + 1, sizeof *all);
	if (all == NULL)
		return err_memory(err);
	for (size_t i = 0; i < n; i++) {
		const struct book_batch *one = NULL;

		TRY(book_one_batch(book, arena, id[i], &one, err));
		all[i] = *one;
	}
	s->batch = all;
	s->n_batch = n;
	return ERR_NONE;
}

static enum err_code
read_specimens(struct book *book, struct arena *arena,
	const struct work_show *ask, struct work_shown *out, struct err *err)
{
	struct book_page page;
	struct work_site *s = &out->site;

	TRY(find_place(book, ask, &page, err));
	TRY(book_page_specimen(book, arena, &page, &s->specimen, &s->n_specimen,
		&out->more, err));
	out->n = s->n_specimen;
	if (page.n_most > s->n_specimen && !out->more && ask->n_most == 0)
		return book_all_batch(book, arena, &s->batch, &s->n_batch, err);
	return read_named_batches(book, arena, s, err);
}

/* ---- mixes: counted by the book ---- */

static void
add_fate(struct work_fates *f, const char *fate, size_t n)
{
	f->n_cast += n;
	if (strcmp(fate, "tested") == 0)
		f->n_tested += n;
	else if (strcmp(fate, "waiting") == 0)
		f->n_waiting += n;
	else if (strcmp(fate, "accident") == 0)
		f->n_accident += n;
	else if (strcmp(fate, "not filled") == 0)
		f->n_not_filled += n;
	else if (strcmp(fate, "set aside") == 0)
		f->n_set_aside += n;
	else
		f->n_snapped += n;
	f->n_at_risk = f->n_cast - f->n_accident - f->n_not_filled;
}

static enum err_code
count_mixes(struct book *book, struct arena *arena, struct work_shown *out,
	struct err *err)
{
	const struct work_site *s = &out->site;
	const struct book_fate_count *count = NULL;
	struct work_fates *fates = arena_take(arena, s->n_mix, sizeof *fates);
	size_t n = 0;

	if (fates == NULL)
		return err_memory(err);
	TRY(book_count_fates(book, arena, &count, &n, err));
	for (size_t i = 0; i < n; i++)
		for (size_t m = 0; m < s->n_mix; m++)
			if (s->mix[m].row.id == count[i].mix_id)
				add_fate(&fates[m], count[i].fate, count[i].n);
	out->results.fates = fates;
	out->n = s->n_mix;
	return ERR_NONE;
}

/* ---- the whole ---- */

static enum err_code
check_ask(const struct work_show *ask, struct err *err)
{
	bool paged = ask->list == WORK_LIST_BATCHES ||
		ask->list == WORK_LIST_SPECIMENS;
	int n = (ask->after != NULL) + (ask->before != NULL) + ask->last;

	if (n > 1)
		return err_report(err, ERR_INPUT, "page",
			"Give one of --after, --before and --last.");
	if (n == 1 && !paged)
		return err_report(err, ERR_INPUT, "page",
			"--after, --before and --last go with batches and "
			"specimens; this list takes --limit only.");
	return ERR_NONE;
}

static enum err_code
read_page(struct book *book, struct arena *arena, const struct work_show *ask,
	struct work_shown *out, struct err *err)
{
	TRY(work_site_read_plan(book, arena, &out->site, err));
	if (ask->list == WORK_LIST_BATCHES)
		return read_batches(book, arena, ask, out, err);
	if (ask->list == WORK_LIST_SPECIMENS)
		return read_specimens(book, arena, ask, out, err);
	return count_mixes(book, arena, out, err);
}

static enum err_code
show_results(const struct desk *desk, struct arena *arena,
	const struct work_show *ask, struct work_shown *out, struct err *err)
{
	struct work_bench bench;

	TRY(work_bench_read(desk, arena, &bench, err));
	out->site = bench.site;
	TRY(work_results(arena, &out->site, &out->results, err));
	TRY(work_bench_notes(arena, &bench, &out->note, &out->n_note, err));
	TRY(work_cures(desk, arena, &out->cures, err));
	out->n = out->results.n_result;
	out->more = out->n > rows_of(ask);
	if (out->more) {
		out->n = ask->n_most;
		out->n_note = 0;
	}
	return ERR_NONE;
}

enum err_code
work_show(const struct desk *desk, struct arena *arena,
	const struct work_show *ask, struct work_shown *out, struct err *err)
{
	struct work_shown got = {0};
	enum err_code code;

	TRY(check_ask(ask, err));
	if (ask->list == WORK_LIST_RESULTS) {
		TRY(show_results(desk, arena, ask, &got, err));
		*out = got;
		return ERR_NONE;
	}
	TRY(book_read_begin(desk->book, err));
	code = read_page(desk->book, arena, ask, &got, err);
	book_read_end(desk->book);
	if (code != ERR_NONE)
		return code;
	TRY(work_site_tie(arena, &got.site, err));
	if (ask->list == WORK_LIST_BATCHES)
		TRY(work_results(arena, &got.site, &got.results, err));
	*out = got;
	return ERR_NONE;
}
