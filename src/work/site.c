/* site.c - one consistent view of the book, ids turned into indices. */
#include "work/site.h"

#include "book/book.h"
#include "work/foam.h"

#include <string.h>

/* Identities rise in every array, since a thing's first row is its identity. */
static bool
find_id(const void *row, size_t n, size_t size, int64_t id, size_t *index)
{
	size_t low = 0, high = n;

	while (low < high) {
		size_t middle = low + (high - low) / 2;
		const struct book_row *met = (const void *)((const char *)row +
			middle * size); /* every row begins with its book_row */

		if (met->id == id) {
			*index = middle;
			return true;
		}
		if (met->id < id)
			low = middle + 1;
		else
			high = middle;
	}
	return false;
}

/* Foam weighed in a batch, as the batch's own foam of that moment where that was
 * not written down: the mean of its checks. */
static enum err_code
take_check(struct book_batch *batch, const struct book_foam_check *check,
	const struct book_generator *generator, double *n, struct err *err)
{
	struct maybe *of[] = {&batch->foam_start_kg_m3,
		&batch->foam_middle_kg_m3, &batch->foam_end_kg_m3};
	enum mix_moment moment;
	struct mix_weighed weighed;

	if (!mix_moment_find(check->moment, &moment) ||
		(of[moment]->has && n[moment] == 0))
		return ERR_NONE;
	TRY(work_foam_weigh(generator, check, &weighed, err));
	of[moment]->has = true;
	of[moment]->value = (of[moment]->value * n[moment] + weighed.value) /
		(n[moment] + 1);
	n[moment]++;
	return ERR_NONE;
}

/* The batches' own foam from these checks. */
static enum err_code
fill_from(struct arena *a, struct work_site *s,
	const struct book_generator *generator, size_t n_generator,
	const struct book_foam_check *check, size_t n_check, struct err *err)
{
	struct book_batch *batch;
	size_t of, by;
	double(*n)[MIX_MOMENT_COUNT];

	if (n_check == 0)
		return ERR_NONE;
	batch = arena_copy(a, s->batch, s->n_batch, sizeof *batch);
	n = arena_take(a, s->n_batch, sizeof *n);
	if (batch == NULL || n == NULL)
		return err_memory(err);
	for (size_t i = 0; i < n_check; i++)
		if (check[i].batch_id != 0 &&
			find_id(batch, s->n_batch, sizeof *batch,
				check[i].batch_id, &of) &&
			find_id(generator, n_generator, sizeof *generator,
				check[i].generator_id, &by))
			TRY(take_check(&batch[of], &check[i], &generator[by],
				n[of], err));
	s->batch = batch;
	return ERR_NONE;
}

enum err_code
work_site_fill_foam(struct book *book, struct arena *a, struct work_site *s,
	struct err *err)
{
	const struct book_generator *generator;
	const struct book_foam_check *check;
	size_t n_generator, n_check;

	TRY(book_all_generator(book, a, &generator, &n_generator, err));
	TRY(book_all_foam_check(book, a, &check, &n_check, err));
	return fill_from(a, s, generator, n_generator, check, n_check, err);
}

/* The height lost of every batch that is there. */
static enum err_code
read_settlings(struct book *book, struct arena *a, struct work_site *s,
	struct err *err)
{
	const struct book_settling **of = arena_take(
		a, s->n_batch + 1, sizeof *of);
	size_t *n = arena_take(a, s->n_batch + 1, sizeof *n), total = 0, at = 0;
	struct book_settling *all;

	if (of == NULL || n == NULL)
		return err_memory(err);
	for (size_t i = 0; i < s->n_batch; i++) {
		TRY(book_settling_of_batch(
			book, a, s->batch[i].row.id, &of[i], &n[i], err));
		total += n[i];
	}
	all = arena_take(a, total + 1, sizeof *all);
	if (all == NULL)
		return err_memory(err);
	for (size_t i = 0; i < s->n_batch; i++)
		for (size_t k = 0; k < n[i]; k++)
			all[at++] = of[i][k];
	s->settling = all;
	s->n_settling = total;
	return ERR_NONE;
}

enum err_code
work_site_read_at_hand(struct book *book, struct arena *a,
	const struct work_hand *hand, struct work_site *site, size_t *before,
	struct err *err)
{
	struct work_site got = {0};

	TRY(book_all_material(book, a, &got.material, &got.n_material, err));
	TRY(book_all_mix(book, a, &got.mix, &got.n_mix, err));
	TRY(book_all_mix_part(book, a, &got.mix_part, &got.n_mix_part, err));
	TRY(book_all_trial(book, a, &got.trial, &got.n_trial, err));
	TRY(book_batches_at_hand(book, a, hand->batch_code, &got.batch,
		&got.n_batch, before, err));
	TRY(read_settlings(book, a, &got, err));
	TRY(fill_from(a, &got, hand->generator, hand->n_generator, hand->check,
		hand->n_check, err));
	TRY(work_site_tie(a, &got, err));
	*site = got;
	return ERR_NONE;
}

enum err_code
work_site_read_plan(struct book *book, struct arena *a, struct work_site *s,
	struct err *err)
{
	TRY(book_get_info(book, a, &s->info, err));
	s->info.currency = arena_say(a, s->info.currency);
	TRY(book_all_material(book, a, &s->material, &s->n_material, err));
	TRY(book_all_mix(book, a, &s->mix, &s->n_mix, err));
	TRY(book_all_mix_part(book, a, &s->mix_part, &s->n_mix_part, err));
	TRY(book_all_trial(book, a, &s->trial, &s->n_trial, err));
	TRY(book_all_rule(book, a, &s->rule, &s->n_rule, err));
	TRY(book_all_part(book, a, &s->part, &s->n_part, err));
	return book_all_requirement(
		book, a, &s->requirement, &s->n_requirement, err);
}

static enum err_code
read_rows(struct book *book, struct arena *a, struct work_site *s,
	struct err *err)
{
	TRY(work_site_read_plan(book, a, s, err));
	TRY(book_all_batch(book, a, &s->batch, &s->n_batch, err));
	TRY(book_all_settling(book, a, &s->settling, &s->n_settling, err));
	TRY(book_all_specimen(book, a, &s->specimen, &s->n_specimen, err));
	TRY(book_all_reading(book, a, &s->reading, &s->n_reading, err));
	TRY(book_all_rig(book, a, &s->rig, &s->n_rig, err));
	TRY(book_all_rig_check(book, a, &s->rig_check, &s->n_rig_check, err));
	return work_site_fill_foam(book, a, s, err);
}

/* The ids that one kind of row holds of another, as indices. */
struct link {
	const char *what;
	const void *from; /* rows that point */
	size_t n_from, from_size, id_offset;
	const void *to; /* rows pointed at */
	size_t n_to, to_size;
	const size_t **index; /* where the indices go */
};

static enum err_code
tie(struct arena *arena, const struct link *link, struct err *err)
{
	size_t *index = arena_take(arena, link->n_from, sizeof *index);

	if (index == NULL)
		return err_memory(err);
	for (size_t i = 0; i < link->n_from; i++) {
		int64_t id;

		memcpy(&id,
			(const char *)link->from + i * link->from_size +
				link->id_offset,
			sizeof id);
		if (!find_id(
			    link->to, link->n_to, link->to_size, id, &index[i]))
			return err_report(err, ERR_DAMAGED, link->what,
				"The book is damaged: a %s points at a row "
				"that is not there. Use an earlier copy of the "
				"book.",
				link->what);
	}
	*link->index = index;
	return ERR_NONE;
}

static enum err_code
tie_matrices(struct arena *arena, struct work_site *s, struct err *err)
{
	size_t *matrix = arena_take(arena, s->n_mix, sizeof *matrix);

	if (matrix == NULL)
		return err_memory(err);
	for (size_t i = 0; i < s->n_mix; i++)
		if (!work_site_mix(s, s->mix[i].matrix_code, &matrix[i]))
			matrix[i] = i;
	s->mix_matrix = matrix;
	return ERR_NONE;
}

#define ROWS(array, count) (array), (count), sizeof *(array)

static enum err_code
tie_rows(struct arena *arena, struct work_site *s, struct err *err)
{
	const struct link links[] = {
		{"batch", ROWS(s->batch, s->n_batch),
			offsetof(struct book_batch, mix_id),
			ROWS(s->mix, s->n_mix), &s->batch_mix},
		{"test piece", ROWS(s->specimen, s->n_specimen),
			offsetof(struct book_specimen, batch_id),
			ROWS(s->batch, s->n_batch), &s->specimen_batch},
		{"reading", ROWS(s->reading, s->n_reading),
			offsetof(struct book_reading, specimen_id),
			ROWS(s->specimen, s->n_specimen), &s->reading_specimen},
		{"settling reading", ROWS(s->settling, s->n_settling),
			offsetof(struct book_settling, batch_id),
			ROWS(s->batch, s->n_batch), &s->settling_batch},
		{"part of a mix", ROWS(s->mix_part, s->n_mix_part),
			offsetof(struct book_mix_part, mix_id),
			ROWS(s->mix, s->n_mix), &s->part_mix},
		{"part of a mix", ROWS(s->mix_part, s->n_mix_part),
			offsetof(struct book_mix_part, material_id),
			ROWS(s->material, s->n_material), &s->part_material},
	};

	for (size_t i = 0; i < sizeof links / sizeof links[0]; i++)
		TRY(tie(arena, &links[i], err));
	return tie_matrices(arena, s, err);
}

#undef ROWS

enum err_code
work_site_tie(struct arena *arena, struct work_site *s, struct err *err)
{
	TRY(tie_rows(arena, s, err));
	if (s->n_trial > 0)
		s->has_baseline = find_id(s->mix, s->n_mix, sizeof *s->mix,
			s->trial[0].baseline_mix_id, &s->baseline);
	return ERR_NONE;
}

enum err_code
work_site_read(struct book *book, struct arena *arena, struct work_site *site,
	struct err *err)
{
	struct work_site got = {0};
	enum err_code code;

	TRY(book_read_begin(book, err));
	code = read_rows(book, arena, &got, err);
	book_read_end(book);
	if (code != ERR_NONE)
		return code;
	TRY(work_site_tie(arena, &got, err));
	*site = got;
	return ERR_NONE;
}

bool
work_site_mix(const struct work_site *site, const char *code, size_t *index)
{
	for (size_t i = 0; i < site->n_mix; i++) {
		if (strcmp(site->mix[i].code, code) == 0) {
			*index = i;
			return true;
		}
	}
	return false;
}

enum err_code
work_check_tested(const struct work_site *s, size_t mix, struct err *err)
{
	for (size_t i = 0; i < s->n_reading; i++) {
		size_t batch = s->specimen_batch[s->reading_specimen[i]];

		if (s->batch_mix[batch] == mix && !s->batch[batch].practice)
			return ERR_NONE;
	}
	return err_report(err, ERR_INPUT, "mix",
		"Mix %s has no results: no piece of a batch of it was tested, "
		"practice aside. Make and test it before anything is decided "
		"or bought for it.",
		s->mix[mix].code);
}
