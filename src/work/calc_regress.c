/* calc_regress.c - "regress": linear and polynomial regression. */
#include "work/calc_priv.h"

#include "stats/linear.h"

#include <math.h>

static const struct calc_key keys[] = {
	{"x", "array of numbers, or of rows of numbers", NULL,
		"what y is explained by"},
	{"y", "array of numbers", NULL, "one for each row of x"},
	{"intercept", "true or false", "true", "whether a constant is fitted"},
	{"degree", "whole number, 1 to 40", "none",
		"fits a polynomial in x; x is then an array of numbers"},
};

static const char takes_rows[] =
	"an array of numbers, or of rows of equally many numbers";

/* Copies row i, n_column finite numbers, to `to`. */
static enum err_code
read_row(const struct calc_in *in, const json_t *row, size_t i, size_t n_column,
	double *to, struct err *err)
{
	for (size_t j = 0; j < n_column; j++) {
		const json_t *cell = json_array_get(row, j);
		const char *path;

		if (json_array_size(row) == n_column && json_is_number(cell) &&
			isfinite(json_number_value(cell))) {
			to[j] = json_number_value(cell);
			continue;
		}
		path = text_format(in->arena, "x[%zu]", i);
		return err_report(err, ERR_INPUT, path != NULL ? path : "x",
			"is not a row of %zu finite numbers, as the first row "
			"is; it takes %s.",
			n_column, takes_rows);
	}
	return ERR_NONE;
}

static enum err_code
read_x(const struct calc_in *in, const double **x, size_t *n_row,
	size_t *n_column, struct err *err)
{
	const json_t *rows = json_object_get(in->object, "x");
	size_t n = json_array_size(rows), columns;
	double *value;

	if (!json_is_array(json_array_get(rows, 0))) {
		*n_column = 1;
		return calc_read_numbers(in, "x", 1, x, n_row, err);
	}
	columns = json_array_size(json_array_get(rows, 0));
	if (columns == 0)
		return calc_refuse(in, "x", takes_rows, err);
	value = arena_take(in->arena, n * columns, sizeof *value);
	if (value == NULL)
		return err_memory(err);
	for (size_t i = 0; i < n; i++)
		TRY(read_row(in, json_array_get(rows, i), i, columns,
			&value[i * columns], err));
	*x = value;
	*n_row = n;
	*n_column = columns;
	return ERR_NONE;
}

static void
write_numbers(struct jsonout *json, const char *key, const double *value,
	size_t n, bool known)
{
	jsonout_key(json, key);
	jsonout_open_array(json);
	for (size_t i = 0; i < n; i++) {
		if (known)
			jsonout_number(json, value[i]);
		else
			jsonout_null(json);
	}
	jsonout_close_array(json);
}

static void
write_if(struct jsonout *json, const char *key, bool has, double value)
{
	jsonout_key(json, key);
	if (has)
		jsonout_number(json, value);
	else
		jsonout_null(json);
}

static void
write(struct calc_out *out, const struct stats_linear *got)
{
	struct jsonout *json = out->json;

	write_numbers(json, "coefficients", got->coefficient,
		got->n_coefficient, true);
	write_numbers(json, "standard_errors", got->standard_error,
		got->n_coefficient, got->has_error);
	write_if(json, "residual_sd", got->has_error, got->residual_sd);
	write_if(json, "r_squared", got->has_r_squared, got->r_squared);
	write_if(json, "f", got->has_f && !got->is_exact, got->f);
	write_if(json, "p", got->has_f, got->p);
	jsonout_key_count(json, "df", got->df);
	if (!got->has_error)
		calc_note(out,
			"As many coefficients as rows: nothing is left "
			"to judge the errors by, so they are null.");
	else if (got->is_exact)
		calc_note(out,
			"The fit is exact to the rounding of y: "
			"residual_sd is 0 and f, being infinite, null.");
	if (!got->has_r_squared)
		calc_note(out,
			"y does not vary: r_squared, f and p have no "
			"meaning and are null.");
}

static enum err_code
run(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	enum { DEGREE_MAX = 40 };
	struct stats_linear got;
	const double *x = NULL, *y = NULL;
	size_t n_row = 0, n_column = 0, n_y = 0;
	uint64_t degree = 0;
	bool intercept = true;

	TRY(read_x(in, &x, &n_row, &n_column, err));
	TRY(calc_read_numbers(in, "y", 1, &y, &n_y, err));
	TRY(calc_read_bool_or(in, "intercept", &intercept, err));
	TRY(calc_read_count_or(in, "degree", 1, DEGREE_MAX, &degree, err));
	if (n_y != n_row)
		return err_report(err, ERR_INPUT, "y",
			"has %zu numbers, but x has %zu rows; give one y for "
			"each row of x.",
			n_y, n_row);
	if (degree > 0 && n_column > 1)
		return err_report(err, ERR_INPUT, "degree",
			"goes with one x, but x has rows of %zu numbers; leave "
			"degree out or give x as an array of numbers.",
			n_column);
	if (degree > 0)
		TRY(stats_polynomial_fit(in->arena, x, n_row, y, (size_t)degree,
			intercept, &got, err));
	else
		TRY(stats_linear_fit(in->arena, x, n_row, n_column, y,
			intercept, &got, err));
	write(out, &got);
	calc_source(out,
		"Golub and Van Loan (2013), Matrix Computations, 4th "
		"ed., section 5.3 (least squares by Householder QR)");
	return ERR_NONE;
}

const struct calc_entry calc_regress = {
	.name = "regress",
	.line = "linear or polynomial regression by least squares",
	.key = keys,
	.n_key = sizeof keys / sizeof keys[0],
	.example = "{\"x\": [612, 655, 731, 804], \"y\": [1.1, 1.3, 1.9, 2.6]}",
	.run = run,
};
