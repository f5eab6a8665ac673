/* next.c - which further batches would help the choice most. */
#include "work/next.h"

#include "core/rng.h"
#include "work/next_priv.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Designs mix the likeliest winners only; more would not fit in fifty. */
enum { CONTENDERS_MOST = 7, BATCHES_MOST = 12 };

static enum err_code
check(const struct work_next_ask *ask, struct err *err)
{
	const struct {
		const char *option;
		double value;
	} money[] = {{"--batch-cost", ask->batch_cost},
		{"--specimen-cost", ask->specimen_cost},
		{"--day-cost", ask->day_cost}, {"--budget", ask->budget}};

	for (size_t i = 0; i < sizeof money / sizeof money[0]; i++)
		if (!(money[i].value >= 0 && isfinite(money[i].value)))
			return err_report(err, ERR_INPUT, money[i].option,
				"%s is %.6g; it takes an amount of money of "
				"at least 0.",
				money[i].option, money[i].value);
	if (ask->batches_a_day < 1)
		return err_report(err, ERR_INPUT, "--batches-a-day",
			"At least one batch must fit in a day.");
	return ERR_NONE;
}

/* The measures that the choice may go by, the most wanted first. */
struct wanted {
	enum choose_measure measure[CHOOSE_MEASURE_COUNT];
	size_t n;
	size_t part; /* index, with ask->part */
};

static void
want(struct wanted *to, enum choose_measure measure)
{
	for (size_t i = 0; i < to->n; i++)
		if (to->measure[i] == measure)
			return;
	to->measure[to->n++] = measure;
}

static enum err_code
want_what_part_asks(const struct desk *desk, struct arena *arena,
	const struct work_next_ask *ask, struct wanted *to, struct err *err)
{
	struct work_site site;

	TRY(work_site_read(desk->book, arena, &site, err));
	while (to->part < site.n_part &&
		strcmp(site.part[to->part].code, ask->part) != 0)
		to->part++;
	if (to->part == site.n_part)
		return err_report(err, ERR_INPUT, "--part",
			"There is no part \"%.40s\"; choose lists them.",
			ask->part);
	for (size_t i = 0; i < site.n_requirement; i++) {
		const struct book_requirement *r = &site.requirement[i];
		enum choose_measure measure;

		if (r->part_id == site.part[to->part].row.id &&
			choose_measure_find(r->measure, &measure) &&
			(!ask->has_measure || measure == ask->measure))
			want(to, measure);
	}
	return ERR_NONE;
}

static enum err_code
find_wanted(const struct desk *desk, struct arena *arena,
	const struct work_next_ask *ask, struct wanted *to, struct err *err)
{
	if (ask->part != NULL)
		return want_what_part_asks(desk, arena, ask, to, err);
	if (ask->has_measure) {
		want(to, ask->measure);
		return ERR_NONE;
	}
	want(to, CHOOSE_BENDING_STRENGTH);
	for (size_t i = 0; i < CHOOSE_MEASURE_COUNT; i++)
		want(to, (enum choose_measure)i);
	return ERR_NONE;
}

/* Says it in the words of next where none of the wanted was measured of two
 * mixes; any other fault stays as it is. */
static enum err_code
refuse(const struct work_next_ask *ask, enum err_code code, struct err *err)
{
	if (code != ERR_INPUT || err == NULL ||
		strcmp(err->field, "readings") != 0)
		return code;
	if (ask->part == NULL && !ask->has_measure)
		return code;
	err_clear(err);
	if (ask->part != NULL)
		return err_report(err, ERR_INPUT, "--part",
			"\"%.40s\" asks nothing that two mixes were tested "
			"for%s.",
			ask->part, ask->has_measure ? " of that measure" : "");
	return err_report(err, ERR_INPUT, "--measure",
		"Nothing is known of %s yet for two mixes; compare lists what "
		"is.",
		choose_measure_name(ask->measure));
}

static void
set_enough(const struct work_next_ask *ask, const struct wanted *wanted,
	struct work_next *next)
{
	const struct work_site *site = &next->compared.site;

	for (size_t i = 0; ask->part != NULL && i < site->n_requirement; i++) {
		const struct book_requirement *r = &site->requirement[i];
		enum choose_measure measure;

		if (r->part_id != site->part[wanted->part].row.id)
			continue;
		if (next->has_enough ||
			!choose_measure_find(r->measure, &measure) ||
			measure != next->measure) {
			next->n_not_weighed++;
			continue;
		}
		next->has_enough = true;
		next->enough = r->value;
	}
	if (ask->has_enough) {
		next->has_enough = true;
		next->enough = ask->enough;
	}
}

/* Is the code one of "B, P, F"? */
static bool
is_listed(const char *list, const char *code)
{
	size_t n = strlen(code);

	for (const char *p = list; *p != '\0';) {
		p += strspn(p, ", ");
		if (strcspn(p, ", ") == n && strncmp(p, code, n) == 0)
			return true;
		p += strcspn(p, ", ");
	}
	return false;
}

static enum err_code
check_listed(const struct work_next *next, const struct work_comparison *c,
	const char *list, struct err *err)
{
	for (const char *p = list; *p != '\0';) {
		size_t n, g = 0;

		p += strspn(p, ", ");
		n = strcspn(p, ", ");
		while (g < c->n_group) {
			const char *code =
				next->compared.site.mix[c->group[g].mix].code;

			if (strlen(code) == n && strncmp(p, code, n) == 0)
				break;
			g++;
		}
		if (n > 0 && g == c->n_group)
			return err_report(err, ERR_INPUT, "--among",
				"\"%.*s\" is no mix with a value of %s; "
				"compare lists them.",
				(int)n, p, choose_measure_name(c->measure));
		p += n;
	}
	return ERR_NONE;
}

/* The candidates and their draws, in columns of their own. */
static enum err_code
set_candidates(struct arena *arena, const struct work_next_ask *ask,
	const struct work_comparison *c, struct work_next *next,
	const double **mean, struct err *err)
{
	size_t *mix = arena_take(arena, c->n_group, sizeof *mix);
	size_t *column = arena_take(arena, c->n_group, sizeof *column);
	const struct stats_hierarchy *h = &c->draws;
	double *draw;
	size_t n = 0;

	if (mix == NULL || column == NULL)
		return err_memory(err);
	if (ask->among != NULL)
		TRY(check_listed(next, c, ask->among, err));
	for (size_t g = 0; g < c->n_group; g++) {
		const char *code =
			next->compared.site.mix[c->group[g].mix].code;

		if (ask->among != NULL && !is_listed(ask->among, code))
			continue;
		mix[n] = c->group[g].mix;
		column[n++] = g;
	}
	draw = arena_take(arena, h->n_draw * n, sizeof *draw);
	if (draw == NULL)
		return err_memory(err);
	for (size_t i = 0; i < h->n_draw; i++)
		for (size_t m = 0; m < n; m++)
			draw[i * n + m] = h->mean[i * h->n_mix + column[m]];
	next->candidate = mix;
	next->n_candidate = n;
	*mean = draw;
	return ERR_NONE;
}

static int
by_size(const void *a, const void *b)
{
	const size_t *x = a, *y = b;

	return (*x > *y) - (*x < *y);
}

/* Pieces of this measure in the middle batch so far; one at the least. */
static enum err_code
usual_specimens(struct arena *arena, const struct work_next *next,
	enum choose_measure measure, size_t *specimens, struct err *err)
{
	const struct work_results *r = &next->compared.results;
	size_t n_batch = next->compared.site.n_batch, n = 0;
	size_t *count = arena_take(arena, n_batch, sizeof *count);

	if (count == NULL)
		return err_memory(err);
	for (size_t i = 0; i < r->n_result; i++)
		if (r->result[i].measure == measure && !r->result[i].excluded)
			count[r->result[i].batch]++;
	for (size_t b = 0; b < n_batch; b++)
		if (count[b] > 0)
			count[n++] = count[b];
	qsort(count, n, sizeof *count, by_size);
	*specimens = n > 0 ? count[n / 2] : 1;
	return ERR_NONE;
}

/* What reading in steps adds to the variance of a piece, log scale: a twelfth
 * of the squared width (Sheppard 1898), over the bounded readings. */
static double
reading_variance(const struct work_results *r, enum choose_measure measure)
{
	double sum = 0, n = 0;

	for (size_t i = 0; i < r->n_result; i++) {
		const struct work_result *one = &r->result[i];
		double width;

		if (one->measure != measure || one->excluded ||
			!(one->value.low > 0) || !isfinite(one->value.high))
			continue;
		width = log(one->value.high / one->value.low);
		sum += width * width / 12;
		n++;
	}
	return n > 0 ? sum / n : 0;
}

static double
cost_of(const struct work_next_ask *ask, const struct work_next *next,
	size_t n_batch, size_t n_day)
{
	if (!next->has_money)
		return (double)n_batch;
	return (double)n_batch *
		(ask->batch_cost +
			ask->specimen_cost * (double)next->specimens) +
		(double)n_day * ask->day_cost;
}

static bool
is_there(const struct work_next *next, const size_t *extra)
{
	for (size_t i = 0; i < next->n_design; i++)
		if (memcmp(next->design[i].extra, extra,
			    next->n_candidate * sizeof *extra) == 0)
			return true;
	return false;
}

static enum err_code
add_design(struct arena *arena, const struct work_next_ask *ask,
	struct work_next *next, const size_t *extra, struct err *err)
{
	struct work_next_design design = {0};

	if (next->n_design == WORK_NEXT_DESIGNS || is_there(next, extra))
		return ERR_NONE;
	design.extra = arena_copy(
		arena, extra, next->n_candidate, sizeof *extra);
	if (design.extra == NULL)
		return err_memory(err);
	for (size_t m = 0; m < next->n_candidate; m++)
		design.n_batch += extra[m];
	design.n_day = (design.n_batch + ask->batches_a_day - 1) /
		ask->batches_a_day;
	design.cost = cost_of(ask, next, design.n_batch, design.n_day);
	TRY(stats_preposterior_gain(&next->now, extra, &design.gain, err));
	design.gain_low = design.gain.gain - design.gain.gain_error;
	design.gain_high = design.gain.gain + design.gain.gain_error;
	next->design[next->n_design++] = design;
	return ERR_NONE;
}

/* How high a mix may turn out: by its mean or by how little is known of it. */
static double
reach(const struct work_next *next, size_t mix)
{
	size_t n = next->n_candidate;

	return next->now.centre[mix] +
		2 * sqrt(next->now.covariance[mix * n + mix]);
}

/* The candidates that may turn out highest. */
static size_t
find_contenders(const struct work_next *next, size_t *contender)
{
	const size_t n = next->n_candidate;
	size_t n_most = n < CONTENDERS_MOST ? n : CONTENDERS_MOST;
	bool taken[STATS_PREPOSTERIOR_MIXES_MOST] = {false};

	for (size_t k = 0; k < n_most; k++) {
		size_t best = n;

		for (size_t m = 0; m < n; m++)
			if (!taken[m] &&
				(best == n ||
					reach(next, m) > reach(next, best)))
				best = m;
		taken[best] = true;
		contender[k] = best;
	}
	return n_most;
}

/* One batch of each contender, of each two, of all. */
static enum err_code
try_ones_and_pairs(struct arena *arena, const struct work_next_ask *ask,
	struct work_next *next, const size_t *contender, size_t n,
	struct err *err)
{
	size_t all[STATS_PREPOSTERIOR_MIXES_MOST] = {0};

	for (size_t i = 0; i < n; i++)
		for (size_t k = i; k < n; k++) {
			size_t extra[STATS_PREPOSTERIOR_MIXES_MOST] = {0};

			extra[contender[i]] = 1;
			extra[contender[k]] = 1;
			all[contender[i]] = 1;
			TRY(add_design(arena, ask, next, extra, err));
		}
	return add_design(arena, ask, next, all, err);
}

/* From the best of n_batch batches on, one batch more of each contender. */
static enum err_code
try_one_more(struct arena *arena, const struct work_next_ask *ask,
	struct work_next *next, const size_t *contender, size_t n,
	size_t n_batch, struct err *err)
{
	size_t extra[STATS_PREPOSTERIOR_MIXES_MOST] = {0};
	const struct work_next_design *best = NULL;

	for (size_t i = 0; i < next->n_design; i++)
		if (next->design[i].n_batch == n_batch &&
			(best == NULL ||
				next->design[i].gain.gain > best->gain.gain))
			best = &next->design[i];
	if (best == NULL)
		return ERR_NONE;
	memcpy(extra, best->extra, next->n_candidate * sizeof *extra);
	for (size_t k = 0; k < n; k++) {
		extra[contender[k]]++;
		TRY(add_design(arena, ask, next, extra, err));
		extra[contender[k]]--;
	}
	return ERR_NONE;
}

static int
by_gain(const void *a, const void *b)
{
	const struct work_next_design *x = a, *y = b;

	if (x->gain.gain > y->gain.gain || x->gain.gain < y->gain.gain)
		return x->gain.gain > y->gain.gain ? -1 : 1;
	return (x->cost > y->cost) - (x->cost < y->cost);
}

static void
mark_curve(struct work_next *next)
{
	for (size_t i = 0; i < next->n_design; i++) {
		struct work_next_design *d = &next->design[i];

		d->on_curve = d->gain.gain > 0;
		/* those before it gain at least as much */
		for (size_t k = 0; k < i; k++)
			d->on_curve = d->on_curve &&
				next->design[k].cost > d->cost;
	}
}

static enum err_code
try_designs(struct arena *arena, const struct work_next_ask *ask,
	struct work_next *next, struct err *err)
{
	size_t contender[CONTENDERS_MOST];
	size_t n = find_contenders(next, contender);

	next->design = arena_take(
		arena, WORK_NEXT_DESIGNS, sizeof *next->design);
	if (next->design == NULL)
		return err_memory(err);
	TRY(try_ones_and_pairs(arena, ask, next, contender, n, err));
	for (size_t b = 1; b < BATCHES_MOST; b++)
		TRY(try_one_more(arena, ask, next, contender, n, b, err));
	qsort(next->design, next->n_design, sizeof *next->design, by_gain);
	mark_curve(next);
	return ERR_NONE;
}

/* With a budget the largest gain in it; without, the cheapest that gains half
 * of what the best listed one does. */
static size_t
find_advised(const struct work_next_ask *ask, const struct work_next *next)
{
	size_t advised = next->n_design;

	if (next->now.p_wrong < next_sure || next->now.regret < next_small_loss)
		return advised;
	for (size_t i = 0; i < next->n_design; i++) {
		const struct work_next_design *d = &next->design[i];

		if (!d->on_curve)
			continue;
		if (ask->budget > 0 && d->cost <= ask->budget)
			return i;
		if (ask->budget <= 0 &&
			d->gain.gain >= next->design[0].gain.gain / 2)
			advised = i;
	}
	return advised;
}

static enum err_code
start(const struct desk *desk, struct arena *arena,
	const struct work_next_ask *ask, const struct work_comparison *c,
	struct work_next *next, struct err *err)
{
	const uint64_t stream = 0x6e657874; /* "next": apart from the chains */
	struct stats_preposterior_ask about = {.n_draw = c->draws.n_draw,
		.sd_batch = c->draws.sd_batch,
		.sd_specimen = c->draws.sd_specimen,
		.larger_is_better = choose_measure_larger_is_better(
			c->measure)};
	enum err_code code;
	gsl_rng *rng;

	if (next->has_enough && !(next->enough > 0 && isfinite(next->enough)))
		return err_report(err, ERR_INPUT, "--enough",
			"What is enough is %.6g; it must be above 0.",
			next->enough);
	about.has_enough = next->has_enough;
	about.enough = next->has_enough ? log(next->enough) : 0;
	TRY(set_candidates(arena, ask, c, next, &about.mean, err));
	next->specimens = ask->specimens;
	if (ask->specimens == 0)
		TRY(usual_specimens(
			arena, next, c->measure, &next->specimens, err));
	about.n_mix = next->n_candidate;
	about.specimens = next->specimens;
	about.reading_variance = reading_variance(
		&next->compared.results, c->measure);
	rng = rng_new(desk->seed, stream);
	if (rng == NULL)
		return err_memory(err);
	code = stats_preposterior_start(arena, &about, rng, &next->now, err);
	gsl_rng_free(rng);
	return code;
}

enum err_code
work_next(const struct desk *desk, struct arena *arena,
	const struct work_next_ask *ask, struct work_next *out, struct err *err)
{
	struct work_next next = {0};
	struct wanted wanted = {.n = 0};
	struct work_compare_ask compare = {.first_of = wanted.measure};
	const struct work_comparison *c;
	enum err_code code;

	TRY(check(ask, err));
	TRY(find_wanted(desk, arena, ask, &wanted, err));
	compare.n_first_of = wanted.n;
	code = work_compare_asked(desk, arena, &compare, &next.compared, err);
	if (code != ERR_NONE)
		return refuse(ask, code, err);
	c = &next.compared.comparison[0];
	next.measure = c->measure;
	set_enough(ask, &wanted, &next);
	next.has_money = ask->batch_cost > 0 || ask->specimen_cost > 0 ||
		ask->day_cost > 0;
	TRY(start(desk, arena, ask, c, &next, err));
	TRY(try_designs(arena, ask, &next, err));
	next.advised = find_advised(ask, &next);
	TRY(next_steps(arena, &next, c, err));
	TRY(next_words(arena, &next, err));
	*out = next;
	return ERR_NONE;
}
