/* calc_variance.c - "variance": the spread between batches and within one. */
#include "work/calc_priv.h"

#include "stats/variance.h"

#include <stdlib.h>
#include <string.h>

static const struct calc_key keys[] = {
	{"rows", "array of objects {group?, batch, value}", NULL,
		"one specimen each; group and batch are names (a text or a "
		"whole number); batches of one name in two groups are two "
		"batches"},
	{"confidence", "number between 0 and 1", "0.95",
		"level of the intervals"},
};
static const char *const row_keys[] = {"group", "batch", "value"};

struct row {
	const char *group, *batch;
	size_t at; /* where it stood */
};

static enum err_code
read_row(const struct calc_in *in, bool has_group, struct row *row,
	double *value, struct err *err)
{
	TRY(calc_only(in, row_keys, sizeof row_keys / sizeof row_keys[0], err));
	if (calc_has(in, "group") != has_group)
		return calc_refuse(
			in, "group", "a group in every row, or in none", err);
	row->group = "";
	if (has_group)
		TRY(calc_read_name(in, "group", &row->group, err));
	TRY(calc_read_name(in, "batch", &row->batch, err));
	return calc_read_number(in, "value", CALC_ANY, value, err);
}

static int
by_name(const void *a, const void *b)
{
	const struct row *left = a, *right = b;
	int group = strcmp(left->group, right->group);

	return group != 0 ? group : strcmp(left->batch, right->batch);
}

static int
by_batch_name(const void *a, const void *b)
{
	const char *const *left = a, *const *right = b;

	return strcmp(*left, *right);
}

/* Numbers groups and batches in the order of their names. */
static void
number_batches(struct row *row, size_t n, struct stats_variance_data *data,
	size_t *batch, size_t *batch_group, const char **batch_name)
{
	qsort(row, n, sizeof *row, by_name);
	for (size_t i = 0; i < n; i++) {
		bool is_first = i == 0;
		bool new_group = is_first ||
			strcmp(row[i].group, row[i - 1].group) != 0;

		data->n_group += new_group;
		if (new_group || strcmp(row[i].batch, row[i - 1].batch) != 0) {
			batch_name[data->n_batch] = row[i].batch;
			batch_group[data->n_batch++] = data->n_group - 1;
		}
		batch[row[i].at] = data->n_batch - 1;
	}
	data->batch = batch;
	data->batch_group = batch_group;
}

static bool
has_twin(const char **name, size_t n)
{
	qsort(name, n, sizeof *name, by_batch_name);
	for (size_t i = 1; i < n; i++)
		if (strcmp(name[i], name[i - 1]) == 0)
			return true;
	return false;
}

static enum err_code
read_data(const struct calc_in *in, struct stats_variance_data *data,
	bool *twin, struct err *err)
{
	const struct calc_in *object;
	struct row *row;
	double *value;
	size_t n, *batch, *batch_group;
	const char **name;

	TRY(calc_read_objects(in, "rows", 1, &object, &n, err));
	row = arena_take(in->arena, n, sizeof *row);
	value = arena_take(in->arena, n, sizeof *value);
	batch = arena_take(in->arena, n, sizeof *batch);
	batch_group = arena_take(in->arena, n, sizeof *batch_group);
	name = arena_take(in->arena, n, sizeof *name);
	if (!row || !value || !batch || !batch_group || !name)
		return err_memory(err);
	for (size_t i = 0; i < n; i++) {
		TRY(read_row(&object[i], calc_has(&object[0], "group"), &row[i],
			&value[i], err));
		row[i].at = i;
	}
	*data = (struct stats_variance_data){.value = value, .n = n};
	number_batches(row, n, data, batch, batch_group, name);
	*twin = has_twin(name, data->n_batch);
	return ERR_NONE;
}

static void
write_part(struct jsonout *json, const char *key,
	const struct stats_variance_part *part)
{
	jsonout_key(json, key);
	jsonout_open_object(json);
	jsonout_key_number(json, "variance", part->variance);
	jsonout_key_number(json, "low", part->low);
	jsonout_key_number(json, "high", part->high);
	jsonout_close_object(json);
}

static enum err_code
run(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	struct stats_variance_data data;
	struct stats_variance got;
	double confidence = 0.95;
	bool twin;

	TRY(read_data(in, &data, &twin, err));
	TRY(calc_read_share_or(in, "confidence", &confidence, err));
	TRY(stats_variance(in->arena, &data, confidence, &got, err));
	write_part(out->json, "between", &got.between);
	write_part(out->json, "within", &got.within);
	jsonout_key_number(out->json, "log_likelihood", got.log_likelihood);
	jsonout_key_count(out->json, "groups", data.n_group);
	jsonout_key_count(out->json, "batches", data.n_batch);
	calc_source(out,
		"Patterson and Thompson (1971), Biometrika 58, 545-554; "
		"intervals from the profile of the restricted likelihood: "
		"Venzon and Moolgavkar (1988), Applied Statistics 37, 87-94");
	calc_note(out,
		"Variances are in the square of the unit of the values; the "
		"intervals keep what the restricted likelihood does not rule "
		"out.");
	if (twin)
		calc_note(out,
			"A batch name occurs in more than one group; it was "
			"taken for a different batch in each.");
	if (!(got.between.variance > 0))
		calc_note(out,
			"The batches differ no more than their specimens "
			"explain: the estimate between is 0, which does not "
			"show that batches are alike; see its high end.");
	return ERR_NONE;
}

const struct calc_entry calc_variance = {
	.name = "variance",
	.line = "the spread between batches and within a batch",
	.key = keys,
	.n_key = sizeof keys / sizeof keys[0],
	.example = "{\"rows\": [{\"batch\": \"P1\", \"value\": 811}, "
		   "{\"batch\": \"P1\", \"value\": 803}, {\"batch\": \"P2\", "
		   "\"value\": 797}, {\"batch\": \"P2\", \"value\": 792}, "
		   "{\"batch\": \"P3\", \"value\": 824}, {\"batch\": \"P3\", "
		   "\"value\": 815}]}",
	.run = run,
};
