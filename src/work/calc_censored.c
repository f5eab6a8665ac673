/* calc_censored.c - "censored": regression on readings that may be bounds. */
#include "work/calc_priv.h"

#include "stats/censored.h"

#include <math.h>
#include <string.h>

static const struct calc_key keys[] = {
	{"rows", "array of objects {group?, x?, value}", NULL,
		"one reading each; value is a number or [low, high] with null "
		"for an open end; group and x in every row or in none"},
	{"family", "\"lognormal\", \"weibull\" or \"normal\"", NULL,
		"the distribution of a reading"},
	{"confidence", "number between 0 and 1", "0.95",
		"confidence of the intervals"},
};
static const char *const row_keys[] = {"group", "x", "value"};
static const char *const family_words[] = {"lognormal", "weibull", "normal"};
static const enum stats_censored_family families[] = {STATS_CENSORED_LOGNORMAL,
	STATS_CENSORED_WEIBULL, STATS_CENSORED_NORMAL};

/* Each has two ends of an interval to be found, over all rows. */
enum { GROUPS_MAX = 1000 };

struct table {
	const json_t *rows;
	struct stats_censored_row *row;
	const char **name; /* of the groups, in the order met */
	size_t n_group, n_row;
	bool has_group, has_x;
};

/* Row i as a question of its own, its path written only where it is wrong. */
static struct calc_in
row_at(const struct calc_in *in, const struct table *t, size_t i)
{
	return (struct calc_in){.object = json_array_get(t->rows, i),
		.path = "rows[]",
		.arena = in->arena};
}

static const char *
row_path(const struct calc_in *in, size_t i)
{
	const char *path = text_format(in->arena, "rows[%zu]", i);

	return path != NULL ? path : "rows";
}

/* The group of that name, remembered; rows of one group often follow each
 * other, so the last is looked at first. */
static size_t
find_group(struct table *t, const char *name, size_t last)
{
	if (last < t->n_group && strcmp(t->name[last], name) == 0)
		return last;
	for (size_t g = 0; g < t->n_group; g++)
		if (strcmp(t->name[g], name) == 0)
			return g;
	t->name[t->n_group] = name;
	return t->n_group++;
}

static enum err_code
read_row(const struct calc_in *row, struct table *t, size_t i, struct err *err)
{
	struct stats_censored_row *to = &t->row[i];
	const char *name = NULL;

	if (!json_is_object(row->object))
		return err_report(err, ERR_INPUT, row->path,
			"is not an object such as {\"group\": \"A\", "
			"\"value\": [0.31, 0.36]}.");
	TRY(calc_only(
		row, row_keys, sizeof row_keys / sizeof row_keys[0], err));
	if (calc_has(row, "group") != t->has_group)
		return err_report(err, ERR_INPUT, calc_path(row, "group"),
			"is %s, unlike in the first row; give a group in every "
			"row or in none.",
			t->has_group ? "missing" : "given");
	if (calc_has(row, "x") != t->has_x)
		return err_report(err, ERR_INPUT, calc_path(row, "x"),
			"is %s, unlike in the first row; give x in every row "
			"or in none.",
			t->has_x ? "missing" : "given");
	if (t->has_group)
		TRY(calc_read_name(row, "group", &name, err));
	if (t->has_x)
		TRY(calc_read_number(row, "x", CALC_ANY, &to->x, err));
	to->group = t->has_group
		? find_group(t, name, i > 0 ? t->row[i - 1].group : 0)
		: 0;
	return calc_read_censored(row, "value", &to->low, &to->high, err);
}

/* What the family cannot take, named by its row. */
static enum err_code
check_logarithm(const struct calc_in *row, const struct stats_censored_row *r,
	struct err *err)
{
	if (r->low > 0 || (r->high > 0 && isfinite(r->high)))
		return ERR_NONE;
	return calc_refuse(row, "value",
		"a reading above 0, since this family works in logarithms; "
		"give [null, bound] for a reading below what shows, or the "
		"family \"normal\"",
		err);
}

static enum err_code
read_table(
	const struct calc_in *in, bool is_log, struct table *t, struct err *err)
{
	t->rows = json_object_get(in->object, "rows");
	t->n_row = json_array_size(t->rows);
	if (t->n_row == 0)
		return calc_refuse(
			in, "rows", "an array of at least 1 object", err);
	t->has_group = json_object_get(json_array_get(t->rows, 0), "group") !=
		NULL;
	t->has_x = json_object_get(json_array_get(t->rows, 0), "x") != NULL;
	t->row = arena_take(in->arena, t->n_row, sizeof *t->row);
	t->name = arena_take(in->arena, t->n_row, sizeof *t->name);
	if (t->row == NULL || t->name == NULL)
		return err_memory(err);
	if (!t->has_group)
		t->name[t->n_group++] = "mean";
	for (size_t i = 0; i < t->n_row; i++) {
		struct calc_in row = row_at(in, t, i);
		struct err unnamed = {.code = ERR_NONE};
		enum err_code code = read_row(&row, t, i, &unnamed);

		if (code == ERR_NONE && is_log)
			code = check_logarithm(&row, &t->row[i], &unnamed);
		if (code == ERR_NONE)
			continue;
		row.path = row_path(in, i); /* again, for the report */
		TRY(read_row(&row, t, i, err));
		return is_log ? check_logarithm(&row, &t->row[i], err) : code;
	}
	if (t->n_group > GROUPS_MAX)
		return err_report(err, ERR_INPUT, "rows",
			"has %zu groups; at most %d are compared in one go.",
			t->n_group, (int)GROUPS_MAX);
	for (size_t g = 0; g < t->n_group && t->has_x; g++)
		if (strcmp(t->name[g], "x") == 0)
			return err_report(err, ERR_INPUT, "rows",
				"has a group \"x\", which is the name of the "
				"covariate in the answer; call the group "
				"something else.");
	return ERR_NONE;
}

static void
write_if_finite(struct jsonout *json, const char *key, double value)
{
	jsonout_key(json, key);
	if (isinf(value))
		jsonout_null(json);
	else
		jsonout_number(json, value);
}

static void
write_part(struct jsonout *json, const char *name,
	const struct stats_censored_part *part)
{
	jsonout_key(json, name);
	jsonout_open_object(json);
	write_if_finite(json, "estimate", part->estimate);
	write_if_finite(json, "se", part->se);
	write_if_finite(json, "low", part->low);
	write_if_finite(json, "high", part->high);
	jsonout_close_object(json);
}

static void
note(struct calc_out *out, const struct table *t,
	const struct stats_censored *got, double confidence, bool is_log)
{
	bool is_open = isinf(got->scale.high) ||
		(t->has_x && (isinf(got->x.low) || isinf(got->x.high)));

	calc_note(out,
		text_format(out->arena,
			"low and high are ends of %.10g %% intervals by the "
			"profile likelihood; each reading is taken for an "
			"independent one, so readings of one batch make them "
			"too narrow.",
			100 * confidence));
	if (is_log)
		calc_note(out,
			"Coefficients are on the log scale; a lower bound of 0 "
			"counts as open.");
	for (size_t g = 0; g < t->n_group; g++) {
		const struct stats_censored_part *p = &got->group[g];

		if (isinf(p->estimate))
			calc_note(out,
				text_format(out->arena,
					"Every reading of %s is a bound on the "
					"same side: the data say only at %s "
					"its %s.",
					t->name[g],
					p->estimate > 0 ? "least" : "most",
					p->estimate > 0 ? "low" : "high"));
		else
			is_open |= isinf(p->low) || isinf(p->high);
	}
	if (is_open)
		calc_note(out,
			"An end that is null has no bound: the likelihood does "
			"not fall far enough that way.");
}

static void
write(struct calc_out *out, const struct table *t,
	const struct stats_censored *got)
{
	struct jsonout *json = out->json;

	jsonout_key(json, "coefficients");
	jsonout_open_object(json);
	for (size_t g = 0; g < t->n_group; g++)
		write_part(json, t->name[g], &got->group[g]);
	if (t->has_x)
		write_part(json, "x", &got->x);
	jsonout_close_object(json);
	jsonout_key_number(json, "scale", got->scale.estimate);
	jsonout_key_number(json, "scale_se", got->scale.se);
	jsonout_key_interval(
		json, "scale_interval", got->scale.low, got->scale.high, NULL);
	jsonout_key_number(json, "log_likelihood", got->log_likelihood);
}

static enum err_code
run(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	struct stats_censored_ask ask = {.confidence = 0.95};
	struct stats_censored got;
	struct table t = {.n_row = 0};
	size_t family;
	bool is_log;

	TRY(calc_read_choice(in, "family", family_words,
		sizeof family_words / sizeof family_words[0], &family, err));
	TRY(calc_read_share_or(in, "confidence", &ask.confidence, err));
	ask.family = families[family];
	is_log = ask.family != STATS_CENSORED_NORMAL;
	TRY(read_table(in, is_log, &t, err));
	ask.n_group = t.n_group;
	ask.row = t.row;
	ask.n_row = t.n_row;
	ask.has_x = t.has_x;
	TRY(stats_censored_fit(in->arena, &ask, &got, err));
	write(out, &t, &got);
	note(out, &t, &got, ask.confidence, is_log);
	calc_source(out,
		"Burridge (1981), Journal of the Royal Statistical Society B "
		"43, 41-45 (concave form); Venzon and Moolgavkar (1988), "
		"Applied Statistics 37, 87-94 (profile intervals)");
	return ERR_NONE;
}

const struct calc_entry calc_censored = {
	.name = "censored",
	.line = "means and spread from readings of which some are only bounds",
	.key = keys,
	.n_key = sizeof keys / sizeof keys[0],
	.example = "{\"family\": \"lognormal\", \"rows\": ["
		   "{\"group\": \"A\", \"value\": [0.31, 0.36]}, "
		   "{\"group\": \"A\", \"value\": 0.29}, "
		   "{\"group\": \"A\", \"value\": [0.26, 0.31]}, "
		   "{\"group\": \"B\", \"value\": [0.41, null]}, "
		   "{\"group\": \"B\", \"value\": [0.36, 0.41]}]}",
	.run = run,
};
