/* weight.c - the weights of the choice, read and set. */
#include "work/weight.h"

#include "book/book.h"

#include <math.h>
#include <string.h>

/* The weights that rows give to a part (0: the house). */
static bool
own_of(const struct book_weight *row, size_t n, int64_t part_id,
	bool is_set[WORK_CRITERIA], double weight[WORK_CRITERIA])
{
	bool any = false;

	for (size_t i = 0; i < n; i++) {
		enum work_criterion k;

		if (row[i].part_id != part_id ||
			!work_criterion_find(row[i].criterion, &k))
			continue;
		is_set[k] = true;
		weight[k] = row[i].weight;
		any = true;
	}
	return any;
}

bool
work_weights_for(const struct book_weight *row, size_t n, int64_t part_id,
	double weight[WORK_CRITERIA], bool *is_of_part)
{
	bool is_set[WORK_CRITERIA] = {false}, any = false;

	for (size_t k = 0; k < WORK_CRITERIA; k++)
		weight[k] = 0;
	*is_of_part = own_of(row, n, part_id, is_set, weight);
	if (!*is_of_part)
		(void)own_of(row, n, 0, is_set, weight);
	for (size_t k = 0; k < WORK_CRITERIA; k++)
		any = any || weight[k] > 0;
	return any;
}

enum err_code
work_weights_read(const struct desk *desk, struct arena *arena,
	struct work_weights *out, struct err *err)
{
	struct work_weights got = {.n_own = 0};
	struct work_own_weights *own;
	const struct book_weight *row;
	size_t n, n_part;

	TRY(work_parts_read(desk, arena, &got.parts, err));
	TRY(book_all_weight(desk->book, arena, &row, &n, err));
	n_part = got.parts.site.n_part;
	own = arena_take(arena, n_part + 1, sizeof *own);
	if (own == NULL)
		return err_memory(err);
	for (size_t i = 0; i <= n_part; i++) {
		struct work_own_weights *o = &own[got.n_own];

		*o = (struct work_own_weights){.part = i == 0 ? n_part : i - 1};
		if (own_of(row, n,
			    i == 0 ? 0 : got.parts.site.part[i - 1].row.id,
			    o->is_set, o->weight))
			got.n_own++;
	}
	got.own = own;
	*out = got;
	return ERR_NONE;
}

/* ---- set ---- */

struct setting {
	const struct desk *desk;
	struct arena *arena;
	const struct work_weight_ask *ask;
	int64_t part_id;
	const struct book_weight *row;
	size_t n;
};

static enum err_code
check_ask(const struct work_weight_ask *ask, struct err *err)
{
	bool any = ask->drop;

	for (size_t k = 0; k < WORK_CRITERIA; k++) {
		any = any || ask->is_set[k];
		if (ask->is_set[k] &&
			!(ask->weight[k] >= 0 && isfinite(ask->weight[k])))
			return err_report(err, ERR_INPUT, "--weigh",
				"A weight of %g for %s cannot be; it is 0 or "
				"more.",
				ask->weight[k],
				work_criterion_word((enum work_criterion)k));
	}
	if (any)
		return ERR_NONE;
	return err_report(err, ERR_INPUT, "--weigh",
		"Say what is to change: --weigh cost=2, or --drop.");
}

static enum err_code
drop_all(const struct setting *s, struct err *err)
{
	size_t n = 0;

	for (size_t i = 0; i < s->n; i++) {
		if (s->row[i].part_id != s->part_id)
			continue;
		n++;
		TRY(book_take_out_weight(
			s->desk->book, s->arena, s->row[i].row.id, err));
	}
	if (n > 0)
		return ERR_NONE;
	return err_report(err, ERR_INPUT, "--drop",
		"%s has no weights of its own.",
		s->ask->part != NULL ? s->ask->part : "The house");
}

static enum err_code
put_all(const struct setting *s, struct err *err)
{
	if (s->ask->drop)
		TRY(drop_all(s, err));
	for (size_t k = 0; k < WORK_CRITERIA; k++) {
		struct book_weight row = {
			.row.typed = s->ask->typed != NULL ? s->ask->typed : "",
			.part_id = s->part_id,
			.criterion = work_criterion_word(
				(enum work_criterion)k),
			.weight = s->ask->weight[k]};

		if (!s->ask->is_set[k])
			continue;
		for (size_t i = 0; i < s->n; i++)
			if (s->row[i].part_id == s->part_id &&
				strcmp(s->row[i].criterion, row.criterion) == 0)
				row.row.id = s->row[i].row.id;
		TRY(book_put_weight(s->desk->book, &row, err));
	}
	return ERR_NONE;
}

enum err_code
work_weight_put(const struct desk *desk, struct arena *arena,
	const struct work_weight_ask *ask, struct err *err)
{
	struct setting s = {.desk = desk, .arena = arena, .ask = ask};
	struct work_parts parts;
	size_t at;

	TRY(check_ask(ask, err));
	TRY(work_parts_read(desk, arena, &parts, err));
	if (ask->part != NULL) {
		TRY(work_find_part(&parts.site, ask->part, &at, err));
		s.part_id = parts.site.part[at].row.id;
	}
	TRY(book_all_weight(desk->book, arena, &s.row, &s.n, err));
	TRY(book_begin(desk->book, desk->now_utc_s, desk->who, "weights",
		desk->submission, err));
	return work_commit_or_undo(desk,
		ask->part != NULL ? ask->part : "house", put_all(&s, err), err);
}
