/* censored_data.c - readings made ready for the search: equal rows joined,
 * logarithms taken, each group centred, everything in one unit. */
#include "stats/censored_priv.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static enum err_code
check_row(const struct stats_censored_ask *ask, size_t i, struct err *err)
{
	const struct stats_censored_row *r = &ask->row[i];

	if (isnan(r->low) || isnan(r->high) || r->low > r->high ||
		(isinf(r->low) && isinf(r->high)) ||
		(r->low == r->high && isinf(r->low)))
		return err_report(err, ERR_INPUT, "value",
			"Reading %zu goes from %g to %g; give a number, or two "
			"bounds of which the first is the lower.",
			i + 1, r->low, r->high);
	if (ask->has_x && !isfinite(r->x))
		return err_report(err, ERR_INPUT, "x",
			"The x of reading %zu is not a finite number.", i + 1);
	if (r->group >= ask->n_group)
		return err_report(err, ERR_INPUT, "group",
			"Reading %zu is of group %zu, but there are %zu.",
			i + 1, r->group + 1, ask->n_group);
	if (ask->family != STATS_CENSORED_NORMAL &&
		(r->high <= 0 || (r->low == r->high && r->low <= 0)))
		return err_report(err, ERR_INPUT, "value",
			"Reading %zu is %g, which has no logarithm; leave it "
			"out, give it as [0, the least that shows], or choose "
			"the normal family.",
			i + 1, r->high);
	if (ask->family != STATS_CENSORED_NORMAL && r->low <= 0 &&
		isinf(r->high))
		return err_report(err, ERR_INPUT, "value",
			"Reading %zu is at least %g, which every strength is; "
			"leave it out.",
			i + 1, r->low);
	return ERR_NONE;
}

/* The row as it is counted: a lower bound of 0 says nothing in logarithms. */
static struct stats_censored_row
plain(const struct stats_censored_ask *ask, size_t i)
{
	struct stats_censored_row r = ask->row[i];

	if (ask->family != STATS_CENSORED_NORMAL && r.low <= 0)
		r.low = -(double)INFINITY;
	r.low += 0.0; /* -0 and 0 are one number */
	r.high += 0.0;
	r.x = ask->has_x ? r.x + 0.0 : 0;
	return r;
}

static uint64_t
mix(uint64_t hash, const void *from)
{
	uint64_t bits;

	memcpy(&bits, from, sizeof bits);
	hash = (hash ^ bits) * 0x9e3779b97f4a7c15u; /* 2^64 / golden ratio */
	return hash ^ (hash >> 29);
}

static bool
is_same(const struct stats_censored_row *a, const struct stats_censored_row *b)
{
	return a->group == b->group && !(a->x < b->x) && !(a->x > b->x) &&
		!(a->low < b->low) && !(a->low > b->low) &&
		!(a->high < b->high) && !(a->high > b->high);
}

struct joined {
	struct stats_censored_row *row; /* the different ones */
	double *weight;                 /* how often each is met */
	size_t n;
};

static enum err_code
join(struct arena *a, const struct stats_censored_ask *ask, struct joined *to,
	struct err *err)
{
	size_t n_slot = 64, *slot;

	while (n_slot < 2 * ask->n_row)
		n_slot *= 2;
	slot = arena_take(a, n_slot, sizeof *slot); /* 0: empty, else index+1 */
	to->row = arena_take(a, ask->n_row, sizeof *to->row);
	to->weight = arena_take(a, ask->n_row, sizeof *to->weight);
	if (slot == NULL || to->row == NULL || to->weight == NULL)
		return err_memory(err);
	for (size_t i = 0; i < ask->n_row; i++) {
		struct stats_censored_row r = plain(ask, i);
		uint64_t hash = mix(mix(mix(r.group, &r.x), &r.low), &r.high);
		size_t at = (size_t)hash & (n_slot - 1);

		while (slot[at] != 0 && !is_same(&to->row[slot[at] - 1], &r))
			at = (at + 1) & (n_slot - 1);
		if (slot[at] == 0) {
			to->row[to->n++] = r;
			slot[at] = to->n;
		}
		to->weight[slot[at] - 1]++;
	}
	return ERR_NONE;
}

static struct censored_row
turn(const struct stats_censored_ask *ask, const struct stats_censored_row *r,
	double weight)
{
	bool is_log = ask->family != STATS_CENSORED_NORMAL;
	struct censored_row to = {.x = r->x, .weight = weight};

	to.low = is_log && isfinite(r->low) ? log(r->low) : r->low;
	to.high = is_log && isfinite(r->high) ? log(r->high) : r->high;
	to.middle = to.low / 2 + to.high / 2;
	to.half = to.high / 2 - to.low / 2;
	if (is_log && r->high < 2 * r->low) /* keeps a narrow width */
		to.half = log1p((r->high - r->low) / r->low) / 2;
	to.kind = CENSORED_INTERVAL;
	if (isinf(r->low)) {
		to.kind = CENSORED_LEFT;
		to.middle = to.high;
	} else if (isinf(r->high)) {
		to.kind = CENSORED_RIGHT;
		to.middle = to.low;
	} else if (!(to.half > 0)) {
		to.kind = CENSORED_EXACT;
	}
	return to;
}

/* Puts the rows in order of group. */
static enum err_code
arrange(struct arena *a, const struct stats_censored_ask *ask,
	const struct joined *from, struct censored_data *d, struct err *err)
{
	size_t *first = arena_take(a, ask->n_group + 2, sizeof *first);

	d->row = arena_take(a, from->n, sizeof *d->row);
	if (first == NULL || d->row == NULL)
		return err_memory(err);
	for (size_t i = 0; i < from->n; i++)
		first[from->row[i].group + 2]++;
	for (size_t g = 0; g < ask->n_group; g++) {
		if (first[g + 2] == 0)
			return err_report(err, ERR_INPUT, "group",
				"Group %zu has no reading.", g + 1);
		first[g + 2] += first[g + 1];
	}
	for (size_t i = 0; i < from->n; i++) {
		struct censored_row row = turn(
			ask, &from->row[i], from->weight[i]);

		d->row[first[from->row[i].group + 1]++] = row;
		d->n_weight += row.weight;
		if (row.kind != CENSORED_EXACT)
			continue;
		d->n_exact += row.weight;
		if (ask->family != STATS_CENSORED_NORMAL)
			d->log_jacobian -= row.weight * row.low;
	}
	d->first = first;
	return ERR_NONE;
}

/* Whether no spread at all would do: one value per group agrees with all. */
static bool
agrees_with_no_spread(const struct censored_data *d)
{
	for (size_t g = 0; g < d->n_group; g++) {
		double low = -(double)INFINITY, high = (double)INFINITY;

		for (size_t i = d->first[g]; i < d->first[g + 1]; i++) {
			const struct censored_row *r = &d->row[i];

			low = fmax(low, r->low);
			high = fmin(high, r->high);
		}
		if (low > high)
			return false;
	}
	return true;
}

static size_t
mark_one_sided(struct censored_data *d)
{
	size_t n = 0;

	for (size_t g = 0; g < d->n_group; g++) {
		bool has_low = false, has_high = false;

		for (size_t i = d->first[g]; i < d->first[g + 1]; i++) {
			has_low |= d->row[i].kind != CENSORED_LEFT;
			has_high |= d->row[i].kind != CENSORED_RIGHT;
		}
		d->is_one_sided[g] = !(has_low && has_high);
		n += d->is_one_sided[g];
	}
	return n;
}

struct moments {
	long double weight, sum, squares;
};

static struct moments
describe_x(const struct censored_data *d, size_t g)
{
	struct moments m = {0};

	for (size_t i = d->first[g]; i < d->first[g + 1]; i++) {
		const struct censored_row *r = &d->row[i];
		long double value = (long double)r->x;

		m.weight += (long double)r->weight;
		m.sum += (long double)r->weight * value;
	}
	for (size_t i = d->first[g]; i < d->first[g + 1]; i++) {
		const struct censored_row *r = &d->row[i];
		long double off = (long double)r->x - m.sum / m.weight;

		m.squares += (long double)r->weight * off * off;
	}
	return m;
}

static int
by_size(const void *a, const void *b)
{
	double x = *(const double *)a, y = *(const double *)b;

	return (x > y) - (x < y);
}

/* Finite ends of some rows of a group, at most sample_rows: a centre and a unit
 * are only conveniences. */
static const size_t sample_rows = 200;

static size_t
sample_ends(const struct censored_data *d, size_t g, double *end)
{
	size_t n_row = d->first[g + 1] - d->first[g], n = 0;
	size_t step = n_row / sample_rows + 1;

	for (size_t i = d->first[g]; i < d->first[g + 1]; i += step) {
		const struct censored_row *r = &d->row[i];

		if (isfinite(r->low))
			end[n++] = r->low;
		if (isfinite(r->high))
			end[n++] = r->high;
	}
	return n;
}

/* Medians, so that one bound far away (0 to 1e12) spoils neither. */
static void
choose_units(struct censored_data *d, double *end, double *off)
{
	size_t n_off = 0, zeros = 0;

	for (size_t g = 0; g < d->n_group; g++) {
		size_t n = sample_ends(d, g, end);

		qsort(end, n, sizeof *end, by_size);
		d->centre[g] = end[(n - 1) / 2] / 2 + end[n / 2] / 2;
		for (size_t i = 0; i < n; i++)
			off[n_off++] = fabs(end[i] - d->centre[g]);
	}
	qsort(off, n_off, sizeof *off, by_size);
	while (zeros < n_off && !(off[zeros] > 0))
		zeros++;
	d->unit = zeros < n_off ? off[zeros + (n_off - zeros) / 2] : 1;
}

/* Units beyond which squares do not hold a value. */
static const double farthest = 1e100;

/* A value in units from the centre of its group. */
static double
in_units(const struct censored_data *d, size_t g, double value)
{
	value = (value - d->centre[g]) / d->unit;
	return fmax(-farthest, fmin(farthest, value));
}

static enum err_code
to_units(struct arena *a, struct censored_data *d, struct err *err)
{
	double *end = arena_take(a, 2 * sample_rows, sizeof *end);
	double *off = arena_take(a, 2 * sample_rows * d->n_group, sizeof *off);

	if (end == NULL || off == NULL)
		return err_memory(err);
	choose_units(d, end, off);
	if (!isfinite(d->unit))
		return err_report(err, ERR_INPUT, "value",
			"The readings are too far apart for a double; give "
			"them in a larger unit.");
	for (size_t g = 0; g < d->n_group; g++) {
		for (size_t i = d->first[g]; i < d->first[g + 1]; i++) {
			struct censored_row *r = &d->row[i];

			r->low = in_units(d, g, r->low);
			r->high = in_units(d, g, r->high);
			r->middle = in_units(d, g, r->middle);
			r->half = fmin(r->half / d->unit, farthest);
		}
	}
	return ERR_NONE;
}

/* x less its mean, over its spread inside the groups that can tell a slope. */
static enum err_code
x_to_units(struct censored_data *d, struct err *err)
{
	static const long double flat_below = 1e-12L; /* of x: is rounding */
	long double weight = 0, sum = 0, squares = 0, size = 0;

	d->x_unit = 1;
	if (!d->has_x)
		return ERR_NONE;
	for (size_t g = 0; g < d->n_group; g++) {
		struct moments m = describe_x(d, g);

		weight += m.weight;
		sum += m.sum;
		size = fmaxl(size, fabsl(m.sum / m.weight));
		if (!d->is_one_sided[g])
			squares += m.squares;
	}
	if (!(sqrtl(squares / weight) > flat_below * size))
		return err_report(err, ERR_INPUT, "x",
			"x does not vary within any group whose readings bound "
			"it on both sides, so its slope cannot be told from "
			"the groups; leave x out.");
	d->x_unit = (double)sqrtl(squares / weight);
	d->x_centre = (double)(sum / weight);
	for (size_t i = 0; i < d->first[d->n_group]; i++)
		d->row[i].x = (d->row[i].x - d->x_centre) / d->x_unit;
	return ERR_NONE;
}

enum err_code
censored_prepare(struct arena *arena, const struct stats_censored_ask *ask,
	struct censored_data *data, struct err *err)
{
	struct censored_data d = {.family = ask->family,
		.n_group = ask->n_group,
		.has_x = ask->has_x};
	struct joined joined = {0};

	for (size_t i = 0; i < ask->n_row; i++)
		TRY(check_row(ask, i, err));
	TRY(join(arena, ask, &joined, err));
	TRY(arrange(arena, ask, &joined, &d, err));
	d.centre = arena_take(arena, d.n_group, sizeof *d.centre);
	d.is_one_sided = arena_take(arena, d.n_group, sizeof *d.is_one_sided);
	if (d.centre == NULL || d.is_one_sided == NULL)
		return err_memory(err);
	if (mark_one_sided(&d) == d.n_group)
		return err_report(err, ERR_INPUT, "value",
			"Every reading is a bound on the same side of its "
			"group, so the data say only at least or at most; give "
			"readings that bound a group on both sides.");
	if (agrees_with_no_spread(&d))
		return err_report(err, ERR_INPUT, "value",
			"One value per group agrees with every reading, so "
			"there is no spread to estimate; give readings that "
			"differ within a group, or finer steps.");
	TRY(to_units(arena, &d, err));
	TRY(x_to_units(&d, err));
	*data = d;
	return ERR_NONE;
}
