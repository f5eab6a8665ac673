/* calc_hierarchy_rows.c - reads the rows of "hierarchy". */
#include "work/calc_hierarchy_priv.h"

#include <math.h>
#include <string.h>

static const char *const row_keys[] = {
	"mix", "batch", "value", "age", "covariates"};
enum { N_PLAIN_KEY = 3, N_ROW_KEY = sizeof row_keys / sizeof row_keys[0] };

static enum err_code
take_table(
	struct arena *a, size_t n, struct hierarchy_table *t, struct err *err)
{
	t->mix = arena_take(a, n, sizeof *t->mix);
	t->batch = arena_take(a, n, sizeof *t->batch);
	t->low = arena_take(a, n, sizeof *t->low);
	t->high = arena_take(a, n, sizeof *t->high);
	t->row_batch = arena_take(a, n, sizeof *t->row_batch);
	t->batch_mix = arena_take(a, n, sizeof *t->batch_mix);
	if (!t->mix || !t->batch || !t->low || !t->high || !t->row_batch ||
		!t->batch_mix)
		return err_memory(err);
	return ERR_NONE;
}

/* Estimates far beyond the readings are still numbers. */
static bool
is_in_reach(double bound)
{
	const double least = 1e-280, most = 1e280;

	return bound <= 0 || isinf(bound) || (bound >= least && bound <= most);
}

static enum err_code
read_value(struct hierarchy_table *t, size_t i, struct err *err)
{
	TRY(calc_read_censored(
		&t->row[i], "value", &t->low[i], &t->high[i], err));
	if (isinf(t->low[i]))
		t->low[i] = 0;
	if (t->low[i] < 0 || t->high[i] <= 0)
		return calc_refuse(&t->row[i], "value",
			"a number above 0, or [low, high] of 0 or more", err);
	if (!is_in_reach(t->low[i]) || !is_in_reach(t->high[i]))
		return calc_refuse(&t->row[i], "value",
			"bounds between 1e-280 and 1e280; give them in another "
			"unit",
			err);
	return ERR_NONE;
}

/* The names met so far and their places; a table by hash, so that reading is
 * linear in the rows. */
struct names {
	json_t *mix, *batch;
};

/* The place of a name, which is *n and is added to the list if it is new. */
static enum err_code
find_name(json_t *known, const char *name, const char **list, size_t *n,
	size_t *place, struct err *err)
{
	const json_t *got = json_object_get(known, name);

	if (got != NULL) {
		*place = (size_t)json_integer_value(got);
		return ERR_NONE;
	}
	if (json_object_set_new(known, name, json_integer((json_int_t)*n)) != 0)
		return err_memory(err);
	*place = *n;
	list[(*n)++] = name;
	return ERR_NONE;
}

static enum err_code
read_row(struct hierarchy_table *t, size_t i, bool with_columns,
	const struct names *names, struct err *err)
{
	const struct calc_in *row = &t->row[i];
	const size_t n_before = t->ask.n_batch;
	const char *mix, *batch;
	size_t m, b;

	TRY(calc_only(
		row, row_keys, with_columns ? N_ROW_KEY : N_PLAIN_KEY, err));
	TRY(calc_read_name(row, "mix", &mix, err));
	TRY(calc_read_name(row, "batch", &batch, err));
	TRY(read_value(t, i, err));
	TRY(find_name(names->mix, mix, t->mix, &t->ask.n_mix, &m, err));
	TRY(find_name(names->batch, batch, t->batch, &t->ask.n_batch, &b, err));
	if (b == n_before)
		t->batch_mix[b] = m;
	if (t->batch_mix[b] != m)
		return calc_refuse(row, "batch",
			"a batch of one mix only; another mix has this name, "
			"so name one of them anew",
			err);
	t->row_batch[i] = b;
	return ERR_NONE;
}

static enum err_code
read_plain(
	struct hierarchy_table *t, size_t n, bool with_columns, struct err *err)
{
	const struct names names = {json_object(), json_object()};
	enum err_code code = ERR_NONE;

	if (names.mix == NULL || names.batch == NULL)
		code = err_memory(err);
	for (size_t i = 0; i < n && code == ERR_NONE; i++)
		code = read_row(t, i, with_columns, &names, err);
	json_decref(names.mix);
	json_decref(names.batch);
	return code;
}

/* The names of the first row's covariates; every row must have the same. */
static enum err_code
read_names(const struct calc_in *in, struct hierarchy_table *t, struct err *err)
{
	struct calc_in of = {.arena = in->arena};
	const char *name;
	json_t *value;

	t->has_age = calc_has(&t->row[0], "age");
	if (!calc_has(&t->row[0], "covariates"))
		return ERR_NONE;
	TRY(calc_read_object(&t->row[0], "covariates", &of, err));
	t->covariate = arena_take(
		in->arena, json_object_size(of.object), sizeof *t->covariate);
	if (t->covariate == NULL)
		return err_memory(err);
	json_object_foreach((json_t *)(uintptr_t)of.object, name, value)
		t->covariate[t->n_covariate++] = name;
	return ERR_NONE;
}

static enum err_code
read_covariates(struct hierarchy_table *t, size_t i, struct err *err)
{
	const struct calc_in *row = &t->row[i];
	double *x = t->x + i * t->ask.n_x;
	struct calc_in of;
	double age_s;

	if (calc_has(row, "covariates") != (t->n_covariate > 0))
		return calc_refuse(row, "covariates",
			"the same covariates in every row, or none", err);
	if (calc_has(row, "age") != t->has_age)
		return calc_refuse(
			row, "age", "an age in every row, or in none", err);
	if (t->n_covariate > 0) {
		TRY(calc_read_object(row, "covariates", &of, err));
		TRY(calc_only(&of, t->covariate, t->n_covariate, err));
		for (size_t k = 0; k < t->n_covariate; k++)
			TRY(calc_read_number(
				&of, t->covariate[k], CALC_ANY, &x[k], err));
	}
	if (!t->has_age)
		return ERR_NONE;
	TRY(calc_read_quantity(
		row, "age", UNIT_TIME, CALC_POSITIVE, &age_s, err));
	x[t->n_covariate] = log(age_s / t->to_age_s);
	return ERR_NONE;
}

/* Covariates are taken from their mean; ages already are from the
 * age asked for.  Ages that do not differ have no slope: the column is dropped. */
static void
centre(struct hierarchy_table *t)
{
	const size_t n = t->ask.n_row, n_x = t->ask.n_x;
	bool differs = false;

	for (size_t k = 0; k < t->n_covariate; k++) {
		double sum = 0;

		for (size_t i = 0; i < n; i++)
			sum += t->x[i * n_x + k] / (double)n;
		for (size_t i = 0; i < n; i++)
			t->x[i * n_x + k] -= sum;
	}
	for (size_t i = 0; i < n && t->has_age; i++)
		differs = differs || t->x[i * n_x + n_x - 1] != t->x[n_x - 1];
	if (!t->has_age || differs)
		return;
	t->has_age = false;
	t->ask.n_x = n_x - 1;
	for (size_t i = 0; i < n; i++)
		for (size_t k = 0; k + 1 < n_x; k++)
			t->x[i * (n_x - 1) + k] = t->x[i * n_x + k];
}

static enum err_code
read_columns(
	const struct calc_in *in, struct hierarchy_table *t, struct err *err)
{
	const size_t n = t->ask.n_row;

	TRY(read_names(in, t, err));
	t->ask.n_x = t->n_covariate + (t->has_age ? 1 : 0);
	t->x = arena_take(in->arena, n * t->ask.n_x, sizeof *t->x);
	if (t->x == NULL)
		return err_memory(err);
	for (size_t i = 0; i < n; i++)
		TRY(read_covariates(t, i, err));
	centre(t);
	return ERR_NONE;
}

enum err_code
calc_hierarchy_rows(const struct calc_in *in, const char *key,
	bool with_columns, struct hierarchy_table *t, struct err *err)
{
	size_t n;

	TRY(calc_read_objects(in, key, 1, &t->row, &n, err));
	TRY(take_table(in->arena, n, t, err));
	TRY(read_plain(t, n, with_columns, err));
	t->ask.n_row = n;
	if (with_columns)
		TRY(read_columns(in, t, err));
	t->ask.low = t->low;
	t->ask.high = t->high;
	t->ask.x = t->ask.n_x > 0 ? t->x : NULL;
	t->ask.row_batch = t->row_batch;
	t->ask.batch_mix = t->batch_mix;
	return ERR_NONE;
}
