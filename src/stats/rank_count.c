/* rank_count.c - exact counting of rank arrangements.
 *
 * The values are dealt to the groups one by one.  What matters of the past is
 * only how full each group is and its rank sum, so arrangements that agree in
 * these are counted together in a table that is looked up by that state. */
#include "stats/rank_count.h"

#include <math.h>
#include <stdint.h>

/* States of one level; beyond it counting takes more than a second or so. */
enum { STATE_MAX = 150000, TABLE_SIZE = 1 << 19, GROUP_MAX = 16 };

/* The groups but the last, whose state follows from the others; a state is a
 * number in mixed radix: how full, then the rank sum, group after group. */
struct layout {
	size_t n_digit; /* groups but the last */
	const size_t *size;
	uint64_t unit_full[GROUP_MAX], unit_sum[GROUP_MAX];
	uint64_t radix_full[GROUP_MAX], radix_sum[GROUP_MAX];
	size_t total;
	size_t total_rank;
};

struct table {
	size_t n_used;
	uint64_t *key;      /* TABLE_SIZE */
	long double *count; /* TABLE_SIZE, 0 where empty */
	uint32_t *used;     /* STATE_MAX places, in order of arrival */
};

static bool
make_layout(const size_t *rank, const size_t *size, size_t n_group,
	struct layout *layout)
{
	uint64_t unit = 1;

	if (n_group > GROUP_MAX)
		return false;
	*layout = (struct layout){.n_digit = n_group - 1, .size = size};
	for (size_t g = 0; g < n_group; g++)
		layout->total += size[g];
	if (layout->total > UINT16_MAX)
		return false;
	for (size_t i = 0; i < layout->total; i++)
		layout->total_rank += rank[i];
	for (size_t g = 0; g < layout->n_digit; g++) {
		uint64_t full = size[g] + 1, sum = layout->total_rank + 1;

		if (unit > UINT64_MAX / full / sum)
			return false;
		layout->unit_full[g] = unit;
		layout->unit_sum[g] = unit * full;
		layout->radix_full[g] = full;
		layout->radix_sum[g] = sum;
		unit *= full * sum;
	}
	return true;
}

static size_t
fill_of(const struct layout *layout, uint64_t key, size_t g)
{
	return (size_t)(key / layout->unit_full[g] % layout->radix_full[g]);
}

static size_t
sum_of(const struct layout *layout, uint64_t key, size_t g)
{
	return (size_t)(key / layout->unit_sum[g] % layout->radix_sum[g]);
}

/* The finaliser of SplitMix64 (Steele, Lea and Flood 2014). */
static uint64_t
scatter(uint64_t x)
{
	x = (x ^ (x >> 30)) * UINT64_C(0xbf58476d1ce4e5b9);
	x = (x ^ (x >> 27)) * UINT64_C(0x94d049bb133111eb);
	return x ^ (x >> 31);
}

static bool
add_count(struct table *table, uint64_t key, long double count)
{
	size_t at = (size_t)scatter(key) % TABLE_SIZE;

	while (table->count[at] > 0 && table->key[at] != key)
		at = (at + 1) % TABLE_SIZE;
	if (!(table->count[at] > 0)) {
		if (table->n_used == STATE_MAX)
			return false;
		table->key[at] = key;
		table->used[table->n_used++] = (uint32_t)at;
	}
	table->count[at] += count;
	return true;
}

static void
empty(struct table *table)
{
	for (size_t i = 0; i < table->n_used; i++)
		table->count[table->used[i]] = 0;
	table->n_used = 0;
}

/* Deals one rank, the one after `dealt` others, to every group with room. */
static bool
deal(const struct layout *layout, size_t rank, size_t dealt,
	const struct table *from, struct table *to)
{
	const size_t last = layout->size[layout->n_digit];

	for (size_t i = 0; i < from->n_used; i++) {
		uint64_t key = from->key[from->used[i]];
		long double count = from->count[from->used[i]];
		size_t in_last = dealt;

		for (size_t g = 0; g < layout->n_digit; g++) {
			size_t fill = fill_of(layout, key, g);

			in_last -= fill;
			if (fill < layout->size[g] &&
				!add_count(to,
					key + layout->unit_full[g] +
						rank * layout->unit_sum[g],
					count))
				return false;
		}
		if (in_last < last && !add_count(to, key, count))
			return false;
	}
	return true;
}

static long double
score_of(const struct layout *layout, uint64_t key)
{
	size_t rest = layout->total_rank;
	long double score = 0, sum;

	for (size_t g = 0; g < layout->n_digit; g++) {
		rest -= sum_of(layout, key, g);
		sum = (long double)sum_of(layout, key, g);
		score += sum * sum / (long double)layout->size[g];
	}
	sum = (long double)rest;
	return score + sum * sum / (long double)layout->size[layout->n_digit];
}

/* Equal scores computed in another order may differ in the last bits. */
static double
share_beyond(const struct layout *layout, const struct table *table,
	long double score)
{
	const long double least = score * (1 - 1e-15L);
	long double beyond = 0, all = 0;

	for (size_t i = 0; i < table->n_used; i++) {
		size_t at = table->used[i];

		all += table->count[at];
		if (score_of(layout, table->key[at]) >= least)
			beyond += table->count[at];
	}
	return (double)(beyond / all);
}

static bool
make_table(struct arena *arena, struct table *table)
{
	*table = (struct table){
		.key = arena_take(arena, TABLE_SIZE, sizeof *table->key),
		.count = arena_take(arena, TABLE_SIZE, sizeof *table->count),
		.used = arena_take(arena, STATE_MAX, sizeof *table->used)};
	return table->key != NULL && table->count != NULL &&
		table->used != NULL;
}

enum err_code
stats_rank_count(struct arena *arena, const size_t *rank, const size_t *size,
	size_t n_group, long double score, bool *has, double *p,
	struct err *err)
{
	const struct arena_mark mark = arena_mark(arena);
	struct layout layout;
	struct table from, to;

	*has = make_layout(rank, size, n_group, &layout);
	if (!*has)
		return ERR_NONE;
	if (!make_table(arena, &from) || !make_table(arena, &to))
		return err_memory(err);
	(void)add_count(&from, 0, 1);
	for (size_t i = 0; i < layout.total && *has; i++) {
		struct table spare = from;

		*has = deal(&layout, rank[i], i, &from, &to);
		empty(&spare);
		from = to;
		to = spare;
	}
	if (*has)
		*p = share_beyond(&layout, &from, score);
	arena_back(arena, mark);
	return ERR_NONE;
}
