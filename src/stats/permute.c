/* permute.c - permutation tests, counted in full or drawn. */
#include "stats/permute.h"

#include "stats/fastrand.h"
#include "stats/summary.h"

#include <assert.h>
#include <math.h>
#include <string.h>

/* Two arrangements are equally far apart within this share; header says of
 * what. */
static const double equally_far = 1e-12;

/* The values measured from their mean, sorted by group, the largest group
 * last; everything the statistics need. */
struct deal {
	size_t n, n_group;
	double *x;       /* n */
	size_t *size;    /* n_group */
	size_t *is;      /* n_group: which group of the sample stands here */
	double *per_one; /* n_group: 1 / size */
	double total;    /* sum of x: rounding only */
	double squares;  /* sum of squares of x */
	double between;  /* sum over groups of sum^2 / size, as seen */
	double bar;      /* what counts as at least as far */
};

/* The binomial coefficient; UINT64_MAX where it is more than most. */
static uint64_t
choose_at_most(uint64_t n, uint64_t k, uint64_t most)
{
	fastrand_wide ways = 1;

	if (k > n - k)
		k = n - k;
	for (uint64_t i = 1; i <= k; i++) {
		ways = ways * (n - k + i) / i;
		if (ways > most)
			return UINT64_MAX;
	}
	return (uint64_t)ways;
}

uint64_t
stats_permute_arrangements(const size_t *size, size_t n_group)
{
	fastrand_wide all = 1;
	uint64_t n = 0;

	for (size_t g = 0; g < n_group; g++) {
		uint64_t ways;

		n += size[g];
		ways = choose_at_most(n, size[g], STATS_PERMUTE_EXACT_MOST);
		all *= ways;
		if (all > STATS_PERMUTE_EXACT_MOST)
			return UINT64_MAX;
	}
	return (uint64_t)all;
}

static enum err_code
check_sample(const struct stats_permute_sample *sample, struct err *err)
{
	if (sample->n_group < 2)
		return err_report(err, ERR_INPUT, "groups",
			"There is only one group; dealing out anew takes two "
			"or more.");
	for (size_t i = 0; i < sample->n; i++) {
		if (!isfinite(sample->value[i]))
			return err_report(err, ERR_INPUT, "groups",
				"Value %zu is not a finite number.", i + 1);
		if (sample->group[i] >= sample->n_group)
			return err_report(err, ERR_INPUT, "groups",
				"Value %zu belongs to group %zu, but there are "
				"only %zu.",
				i + 1, sample->group[i] + 1, sample->n_group);
	}
	return ERR_NONE;
}

/* Fills deal->is with the groups in order, but the largest last. */
static void
order_groups(struct deal *deal, const size_t *size)
{
	size_t largest = 0, to = 0;

	for (size_t g = 1; g < deal->n_group; g++)
		if (size[g] > size[largest])
			largest = g;
	for (size_t g = 0; g < deal->n_group; g++)
		if (g != largest)
			deal->is[to++] = g;
	deal->is[to] = largest;
}

/* The values less their mean, over a power of two, so that squares neither
 * overflow nor vanish. */
static void
fill_values(struct deal *deal, const struct stats_permute_sample *sample)
{
	const double mean = stats_mean(sample->value, sample->n);
	double largest = fabs(mean);
	int exponent;
	size_t to = 0;

	for (size_t i = 0; i < sample->n; i++)
		largest = fmax(largest, fabs(sample->value[i]));
	(void)frexp(largest, &exponent);
	for (size_t k = 0; k < deal->n_group; k++)
		for (size_t i = 0; i < sample->n; i++)
			if (sample->group[i] == deal->is[k])
				deal->x[to++] = ldexp(sample->value[i],
							-exponent) -
					ldexp(mean, -exponent);
	for (size_t i = 0; i < deal->n; i++) {
		deal->total += deal->x[i];
		deal->squares += deal->x[i] * deal->x[i];
	}
}

static double
sum_of(const double *x, size_t n)
{
	double sum = 0;

	for (size_t i = 0; i < n; i++)
		sum += x[i];
	return sum;
}

/* The sum of squares between groups of x as it lies.  The groups fill x one
 * after the other; the last one's sum is what the others leave of the total. */
static double
between_groups(const struct deal *deal)
{
	const double *x = deal->x;
	double between = 0, rest = deal->total;
	size_t last = deal->n_group - 1;

	for (size_t k = 0; k < last; k++) {
		double sum = sum_of(x, deal->size[k]);

		between += sum * sum * deal->per_one[k];
		rest -= sum;
		x += deal->size[k];
	}
	return between + rest * rest * deal->per_one[last];
}

/* between >= bar if and only if the roots differ by no more than the margin. */
static double
bar_for(double between, double squares)
{
	double root = sqrt(between) - equally_far * sqrt(squares);

	return root > 0 ? root * root : 0;
}

static enum err_code
take_deal(struct arena *arena, const struct stats_permute_sample *sample,
	struct deal *deal, struct err *err)
{
	size_t *size;

	TRY(check_sample(sample, err));
	*deal = (struct deal){.n = sample->n, .n_group = sample->n_group};
	deal->x = arena_take(arena, deal->n, sizeof *deal->x);
	deal->size = arena_take(arena, deal->n_group, sizeof *deal->size);
	deal->is = arena_take(arena, deal->n_group, sizeof *deal->is);
	deal->per_one = arena_take(arena, deal->n_group, sizeof(double));
	size = arena_take(arena, deal->n_group, sizeof *size);
	if (deal->x == NULL || deal->size == NULL || deal->is == NULL ||
		deal->per_one == NULL || size == NULL)
		return err_memory(err);
	for (size_t i = 0; i < sample->n; i++)
		size[sample->group[i]]++;
	for (size_t g = 0; g < sample->n_group; g++)
		if (size[g] == 0)
			return err_report(err, ERR_INPUT, "groups",
				"Group %zu is empty; every group takes at "
				"least one value.",
				g + 1);
	order_groups(deal, size);
	for (size_t k = 0; k < deal->n_group; k++) {
		deal->size[k] = size[deal->is[k]];
		deal->per_one[k] = 1 / (double)deal->size[k];
	}
	fill_values(deal, sample);
	deal->between = between_groups(deal);
	deal->bar = bar_for(deal->between, deal->squares);
	return ERR_NONE;
}

/* One-way F from the sums of squares; the within part is taken anew, since the
 * difference of both sums would lose its digits. */
static double
f_seen(const struct deal *deal)
{
	const double *x = deal->x;
	double within = 0;
	size_t df_within = deal->n - deal->n_group;

	for (size_t k = 0; k < deal->n_group; k++) {
		within += stats_squares(x, deal->size[k]);
		x += deal->size[k];
	}
	if (df_within == 0 || within <= 0)
		return INFINITY;
	return deal->between / (double)(deal->n_group - 1) /
		(within / (double)df_within);
}

/* Walks through all arrangements by giving the values to groups one after the
 * other.  As soon as one group alone has room the rest is decided. */
struct walk {
	const struct deal *deal;
	double *rest;   /* n + 1: sum of the values from here on */
	size_t *room;   /* n_group: places left */
	double *sum;    /* n_group: of the values given so far */
	size_t *choice; /* n: the group that each value went to, or none */
	double *before; /* n: that group's sum before */
	size_t at;      /* the value being given */
	size_t n_open;  /* groups with room */
};

static const size_t none = SIZE_MAX;

static enum err_code
take_walk(struct arena *arena, const struct deal *deal, struct walk *walk,
	struct err *err)
{
	*walk = (struct walk){.deal = deal, .n_open = deal->n_group};
	walk->rest = arena_take(arena, deal->n + 1, sizeof *walk->rest);
	walk->room = arena_copy(
		arena, deal->size, deal->n_group, sizeof *walk->room);
	walk->sum = arena_take(arena, deal->n_group, sizeof *walk->sum);
	walk->choice = arena_take(arena, deal->n, sizeof *walk->choice);
	walk->before = arena_take(arena, deal->n, sizeof *walk->before);
	if (walk->rest == NULL || walk->room == NULL || walk->sum == NULL ||
		walk->choice == NULL || walk->before == NULL)
		return err_memory(err);
	for (size_t i = deal->n; i > 0; i--)
		walk->rest[i - 1] = walk->rest[i] + deal->x[i - 1];
	walk->choice[0] = none;
	return ERR_NONE;
}

static void
take_back(struct walk *walk)
{
	size_t g = walk->choice[walk->at];

	if (g == none)
		return;
	walk->n_open += walk->room[g] == 0;
	walk->room[g]++;
	walk->sum[g] = walk->before[walk->at];
}

static void
give(struct walk *walk, size_t g)
{
	walk->choice[walk->at] = g;
	walk->before[walk->at] = walk->sum[g];
	walk->sum[g] += walk->deal->x[walk->at];
	walk->room[g]--;
	walk->n_open -= walk->room[g] == 0;
}

/* Goes to the next arrangement; false after the last one. */
static bool
next_arrangement(struct walk *walk)
{
	size_t n_group = walk->deal->n_group;

	for (;;) {
		size_t g;

		take_back(walk);
		g = walk->choice[walk->at] + 1; /* none + 1 is 0 */
		while (g < n_group && walk->room[g] == 0)
			g++;
		if (g == n_group) {
			if (walk->at == 0)
				return false;
			walk->at--;
			continue;
		}
		give(walk, g);
		if (walk->n_open == 1)
			return true;
		walk->at++;
		walk->choice[walk->at] = none;
	}
}

/* The sum of group k in the arrangement where the walk stands. */
static double
sum_in(const struct walk *walk, size_t k)
{
	double rest = walk->room[k] > 0 ? walk->rest[walk->at + 1] : 0;

	return walk->sum[k] + rest;
}

static double
between_in(const struct walk *walk)
{
	const struct deal *deal = walk->deal;
	double between = 0;

	for (size_t k = 0; k < deal->n_group; k++) {
		double sum = sum_in(walk, k);

		between += sum * sum * deal->per_one[k];
	}
	return between;
}

static enum err_code
check_few(const struct deal *deal, uint64_t *all, struct err *err)
{
	*all = stats_permute_arrangements(deal->size, deal->n_group);
	if (*all == UINT64_MAX)
		return err_report(err, ERR_INPUT, "groups",
			"These groups can be dealt out in more than %d ways, "
			"too many to count each; draw some of them instead.",
			STATS_PERMUTE_EXACT_MOST);
	return ERR_NONE;
}

enum err_code
stats_permute_exact(struct arena *arena,
	const struct stats_permute_sample *sample, struct stats_permute *out,
	struct err *err)
{
	struct stats_permute got = {.is_exact = true};
	struct deal deal;
	struct walk walk;

	TRY(take_deal(arena, sample, &deal, err));
	TRY(check_few(&deal, &got.arrangements, err));
	TRY(take_walk(arena, &deal, &walk, err));
	while (next_arrangement(&walk))
		got.as_far += between_in(&walk) >= deal.bar;
	got.p = (double)got.as_far / (double)got.arrangements;
	got.f = f_seen(&deal);
	*out = got;
	return ERR_NONE;
}

/* The numbers drawn from one random word, see fastrand_below. */
struct batch_of_draws {
	size_t count;
	uint64_t floor;
};

/* The picks n, n - 1, ... of a shuffle cut into batches. */
static size_t
plan_batches(size_t n, size_t n_pick, struct batch_of_draws *batch)
{
	size_t n_batch = 0, i = 0;

	assert(n_pick <= n);
	while (i < n_pick) {
		uint64_t product = n - i;
		size_t count = 1;

		while (i + count < n_pick &&
			product <= fastrand_product_most / (n - i - count)) {
			product *= n - i - count;
			count++;
		}
		batch[n_batch++] = (struct batch_of_draws){
			.count = count, .floor = fastrand_floor(product)};
		i += count;
	}
	return n_batch;
}

/* No more numbers than this come out of one word: every bound is 2 or more and
 * the product of the bounds stays below fastrand_product_most. */
enum { BATCH_MOST = 44 };

/* Fisher-Yates from the front; places behind the picks keep what is left. */
static void
shuffle(struct fastrand *r, double *x, size_t n,
	const struct batch_of_draws *batch, size_t n_batch)
{
	size_t i = 0;

	for (size_t b = 0; b < n_batch; b++) {
		size_t pick[BATCH_MOST];
		uint64_t rest;

		do {
			rest = fastrand_word(r);
			for (size_t j = 0; j < batch[b].count; j++)
				pick[j] = fastrand_below(&rest, n - i - j);
		} while (rest < batch[b].floor);
		for (size_t j = 0; j < batch[b].count; j++, i++) {
			double *other = &x[i + pick[j]], held = *other;

			*other = x[i];
			x[i] = held;
		}
	}
}

enum err_code
stats_permute_draws(struct arena *arena,
	const struct stats_permute_sample *sample, uint64_t draws, gsl_rng *rng,
	struct stats_permute *out, struct err *err)
{
	struct stats_permute got = {.arrangements = draws};
	struct batch_of_draws *batch;
	struct fastrand r;
	struct deal deal;
	size_t n_pick, n_batch;

	if (draws == 0)
		return err_report(err, ERR_INPUT, "draws",
			"No arrangement is to be drawn; take at least 1.");
	TRY(take_deal(arena, sample, &deal, err));
	n_pick = deal.n - deal.size[deal.n_group - 1];
	batch = arena_take(arena, n_pick, sizeof *batch);
	if (batch == NULL)
		return err_memory(err);
	got.f = f_seen(&deal);
	n_batch = plan_batches(deal.n, n_pick, batch);
	r = fastrand_start(rng);
	for (uint64_t i = 0; i < draws; i++) {
		shuffle(&r, deal.x, deal.n, batch, n_batch);
		got.as_far += between_groups(&deal) >= deal.bar;
	}
	got.p = ((double)got.as_far + 1) / ((double)draws + 1);
	got.p_error = sqrt(got.p * (1 - got.p) / (double)draws);
	*out = got;
	return ERR_NONE;
}

/* The largest distance of a group's mean from the baseline's. */
static double
largest_distance(const struct walk *walk, size_t base)
{
	const struct deal *deal = walk->deal;
	double mean = sum_in(walk, base) * deal->per_one[base], largest = 0;

	for (size_t k = 0; k < deal->n_group; k++) {
		double d = fabs(sum_in(walk, k) * deal->per_one[k] - mean);

		largest = fmax(largest, d);
	}
	return largest;
}

/* The distances seen, from the groups as they lie in the deal. */
static void
distances_seen(const struct deal *deal, size_t base, double *distance)
{
	const double *x = deal->x;
	double mean = 0;

	for (size_t k = 0; k < deal->n_group; k++) {
		distance[k] = sum_of(x, deal->size[k]) * deal->per_one[k];
		x += deal->size[k];
	}
	mean = distance[base];
	for (size_t k = 0; k < deal->n_group; k++)
		distance[k] = fabs(distance[k] - mean);
}

enum err_code
stats_permute_many_to_one(struct arena *arena,
	const struct stats_permute_sample *sample, size_t baseline, double *p,
	uint64_t *arrangements, struct err *err)
{
	uint64_t all, *as_far;
	struct deal deal;
	struct walk walk;
	double *seen, margin;
	size_t base = 0;

	if (baseline >= sample->n_group)
		return err_report(err, ERR_INPUT, "baseline",
			"The baseline is group %zu, but there are only %zu.",
			baseline + 1, sample->n_group);
	TRY(take_deal(arena, sample, &deal, err));
	TRY(check_few(&deal, &all, err));
	TRY(take_walk(arena, &deal, &walk, err));
	seen = arena_take(arena, deal.n_group, sizeof *seen);
	as_far = arena_take(arena, deal.n_group, sizeof *as_far);
	if (seen == NULL || as_far == NULL)
		return err_memory(err);
	while (deal.is[base] != baseline)
		base++;
	distances_seen(&deal, base, seen);
	margin = equally_far * sqrt(deal.squares);
	while (next_arrangement(&walk)) {
		double largest = largest_distance(&walk, base) + margin;

		for (size_t k = 0; k < deal.n_group; k++)
			as_far[k] += largest >= seen[k];
	}
	for (size_t k = 0; k < deal.n_group; k++)
		p[deal.is[k]] = (double)as_far[k] / (double)all;
	*arrangements = all;
	return ERR_NONE;
}

/* Sums measured from the batch's first value keep the digits that the values
 * share, as stats_mean does. */
struct unit {
	double first;
	long double sum;
	size_t n;
};

enum err_code
stats_permute_units(struct arena *arena, const double *value,
	const size_t *batch, size_t n, const size_t *batch_group,
	size_t n_batch, size_t n_group, struct stats_permute_sample *units,
	struct err *err)
{
	double *mean = arena_take(arena, n_batch, sizeof *mean);
	struct unit *unit = arena_take(arena, n_batch, sizeof *unit);

	if (mean == NULL || unit == NULL)
		return err_memory(err);
	for (size_t i = 0; i < n; i++) {
		struct unit *own;

		if (batch[i] >= n_batch)
			return err_report(err, ERR_INPUT, "batch",
				"Value %zu belongs to batch %zu, but there are "
				"only %zu.",
				i + 1, batch[i] + 1, n_batch);
		own = &unit[batch[i]];
		if (own->n++ == 0)
			own->first = value[i];
		own->sum += (long double)value[i] - (long double)own->first;
	}
	for (size_t b = 0; b < n_batch; b++) {
		if (unit[b].n == 0)
			return err_report(err, ERR_INPUT, "batch",
				"Batch %zu has no value.", b + 1);
		mean[b] = unit[b].first +
			(double)(unit[b].sum / (long double)unit[b].n);
	}
	*units = (struct stats_permute_sample){.value = mean,
		.group = batch_group,
		.n = n_batch,
		.n_group = n_group};
	return ERR_NONE;
}
