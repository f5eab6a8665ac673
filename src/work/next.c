/* next.c - which further batches would help the choice most. */
#include "work/next.h"

#include "work/next_priv.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

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
			ask->part,
			ask->has_measure ? err_say(err, " of that measure")
					 : "");
	return err_report(err, ERR_INPUT, "--measure",
		"Nothing is known of %s yet for two mixes; compare lists what "
		"is.",
		err_say(err, choose_measure_name(ask->measure)));
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
				(int)n, p,
				err_say(err, choose_measure_name(c->measure)));
		p += n;
	}
	return ERR_NONE;
}

/* Which of the groups of the comparison are candidates. */
static enum err_code
set_candidates(struct arena *arena, const struct work_next_ask *ask,
	const struct work_comparison *c, struct work_next *next,
	const size_t **columns, struct err *err)
{
	size_t *mix = arena_take(arena, c->n_group, sizeof *mix);
	size_t *column = arena_take(arena, c->n_group, sizeof *column);
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
	next->candidate = mix;
	next->n_candidate = n;
	*columns = column;
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

/* What each plan costs, and the order. */
static void
price(const struct work_next_ask *ask, struct work_next *next)
{
	for (size_t i = 0; i < next->n_design; i++) {
		struct work_next_design *d = &next->design[i];

		d->n_day = (d->n_batch + ask->batches_a_day - 1) /
			ask->batches_a_day;
		d->cost = cost_of(ask, next, d->n_batch, d->n_day);
	}
	qsort(next->design, next->n_design, sizeof *next->design, by_gain);
	mark_curve(next);
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
	struct next_gaining gaining = {.c = c, .seed = desk->seed};
	struct stats_preposterior_ask *about = &gaining.about;

	if (next->has_enough && !(next->enough > 0 && isfinite(next->enough)))
		return err_report(err, ERR_INPUT, "--enough",
			"What is enough is %.6g; it must be above 0.",
			next->enough);
	TRY(set_candidates(arena, ask, c, next, &gaining.column, err));
	next->specimens = ask->specimens;
	if (ask->specimens == 0)
		TRY(usual_specimens(
			arena, next, c->measure, &next->specimens, err));
	about->n_draw = c->draws.n_draw;
	about->n_mix = next->n_candidate;
	about->larger_is_better = choose_measure_larger_is_better(c->measure);
	about->has_enough = next->has_enough;
	about->enough = next->has_enough ? log(next->enough) : 0;
	about->specimens = next->specimens;
	about->reading_variance = reading_variance(
		&next->compared.results, c->measure);
	return next_gains(desk, arena, &gaining, next, err);
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
	price(ask, &next);
	next.advised = find_advised(ask, &next);
	TRY(next_steps(arena, &next, c, err));
	TRY(next_words(arena, &next, err));
	*out = next;
	return ERR_NONE;
}
