/* calc_nonlinear.c - "nonlinear": a curve of any written form by least
 * squares. */
#include "work/calc_priv.h"

#include "stats/formula.h"
#include "stats/nonlinear.h"

#include <math.h>

static const struct calc_key keys[] = {
	{"model", "formula", NULL,
		"y as it follows from x (x1, x2 ... where x has rows) and the "
		"parameters: + - * / ^ exp log sqrt sin cos tan atan pi"},
	{"x", "array of numbers, or of rows of numbers", NULL,
		"what y is explained by"},
	{"y", "array of numbers", NULL, "one for each row of x"},
	{"start", "object name: number", NULL,
		"the parameters and where the search begins"},
};

enum { VARIABLES_MAX = 20, PARAMETERS_MAX = 40 };

struct question {
	const double *x, *y;
	size_t n_row, n_column, n_parameter;
	const char **parameter;
	double *start;
	struct stats_formula *formula;
};

static const char takes_rows[] =
	"an array of numbers, or of rows of equally many numbers, at most 20";

static enum err_code
read_rows(const struct calc_in *in, struct question *q, struct err *err)
{
	const json_t *rows = json_object_get(in->object, "x");
	double *value;

	q->n_row = json_array_size(rows);
	q->n_column = json_array_size(json_array_get(rows, 0));
	if (q->n_column == 0 || q->n_column > VARIABLES_MAX)
		return calc_refuse(in, "x", takes_rows, err);
	value = arena_take(in->arena, q->n_row * q->n_column, sizeof *value);
	if (value == NULL)
		return err_memory(err);
	for (size_t i = 0; i < q->n_row; i++) {
		const json_t *row = json_array_get(rows, i);

		for (size_t j = 0; j < q->n_column; j++) {
			const json_t *cell = json_array_get(row, j);
			double *to = &value[i * q->n_column + j];

			*to = json_number_value(cell);
			if (json_array_size(row) == q->n_column &&
				json_is_number(cell) && isfinite(*to))
				continue;
			return err_report(err, ERR_INPUT, "x",
				"has row %zu which is not %zu finite numbers; "
				"it takes %s.",
				i + 1, q->n_column, takes_rows);
		}
	}
	q->x = value;
	return ERR_NONE;
}

static enum err_code
read_x(const struct calc_in *in, struct question *q, struct err *err)
{
	const json_t *rows = json_object_get(in->object, "x");

	if (json_is_array(json_array_get(rows, 0)))
		return read_rows(in, q, err);
	q->n_column = 1;
	return calc_read_numbers(in, "x", 1, &q->x, &q->n_row, err);
}

static enum err_code
read_start(const struct calc_in *in, struct question *q, struct err *err)
{
	struct calc_in start;
	size_t n = 0;

	TRY(calc_read_object(in, "start", &start, err));
	q->n_parameter = json_object_size(start.object);
	if (q->n_parameter == 0 || q->n_parameter > PARAMETERS_MAX)
		return calc_refuse(in, "start",
			"an object of 1 to 40 parameters, such as "
			"{\"a\": 2, \"k\": 0.1}",
			err);
	q->parameter = arena_take(
		in->arena, q->n_parameter, sizeof *q->parameter);
	q->start = arena_take(in->arena, q->n_parameter, sizeof *q->start);
	if (q->parameter == NULL || q->start == NULL)
		return err_memory(err);
	for (void *it = json_object_iter((json_t *)(uintptr_t)start.object);
		it != NULL; it = json_object_iter_next(
				    (json_t *)(uintptr_t)start.object, it)) {
		q->parameter[n] = json_object_iter_key(it);
		TRY(calc_read_number(
			&start, q->parameter[n], CALC_ANY, &q->start[n], err));
		n++;
	}
	return ERR_NONE;
}

static enum err_code
read_model(const struct calc_in *in, struct question *q, struct err *err)
{
	const char *variable[VARIABLES_MAX] = {"x"};
	const struct stats_formula_names names = {.variable = variable,
		.n_variable = q->n_column,
		.parameter = q->parameter,
		.n_parameter = q->n_parameter};
	bool has_rows = json_is_array(
		json_array_get(json_object_get(in->object, "x"), 0));
	const char *text;

	for (size_t j = 0; j < q->n_column && has_rows; j++) {
		variable[j] = text_format(in->arena, "x%zu", j + 1);
		if (variable[j] == NULL)
			return err_memory(err);
	}
	TRY(calc_read_text(in, "model", &text, err));
	return stats_formula_read(in->arena, text, &names, &q->formula, err);
}

static bool
curve(const void *data, size_t row, const long double *b, long double *value,
	long double *slope)
{
	const struct question *q = data;

	return stats_formula_at(
		q->formula, &q->x[row * q->n_column], b, value, slope);
}

static void
write(struct calc_out *out, const struct question *q,
	const struct stats_nonlinear *got)
{
	struct jsonout *json = out->json;

	jsonout_key(json, "coefficients");
	jsonout_open_object(json);
	for (size_t j = 0; j < q->n_parameter; j++) {
		jsonout_key(json, q->parameter[j]);
		jsonout_open_object(json);
		jsonout_key_number(json, "estimate", got->parameter[j]);
		jsonout_key(json, "se");
		if (got->has_error)
			jsonout_number(json, got->standard_error[j]);
		else
			jsonout_null(json);
		jsonout_close_object(json);
	}
	jsonout_close_object(json);
	jsonout_key_number(json, "residual_ss", got->residual_ss);
	jsonout_key(json, "residual_sd");
	if (got->has_error)
		jsonout_number(json, got->residual_sd);
	else
		jsonout_null(json);
	jsonout_key_count(json, "df", got->df);
	jsonout_key_count(json, "steps", got->n_step);
	if (!got->has_error)
		calc_note(out,
			"As many parameters as rows: nothing is left to judge "
			"the errors by, so they are null.");
	calc_note(out,
		"A least place near the start, which need not be the least of "
		"all: try another start. Standard errors take the curve for "
		"straight over their own width.");
}

static enum err_code
run(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	struct question q = {.n_row = 0};
	struct stats_nonlinear_ask ask;
	struct stats_nonlinear got;
	size_t n_y;

	TRY(read_x(in, &q, err));
	TRY(calc_read_numbers(in, "y", 1, &q.y, &n_y, err));
	if (n_y != q.n_row)
		return err_report(err, ERR_INPUT, "y",
			"has %zu numbers, but x has %zu rows; give one y for "
			"each row of x.",
			n_y, q.n_row);
	TRY(read_start(in, &q, err));
	TRY(read_model(in, &q, err));
	ask = (struct stats_nonlinear_ask){.curve = curve,
		.data = &q,
		.y = q.y,
		.n_row = q.n_row,
		.n_parameter = q.n_parameter,
		.start = q.start};
	TRY(stats_nonlinear_fit(in->arena, &ask, &got, err));
	write(out, &q, &got);
	calc_source(out,
		"Levenberg-Marquardt: More (1978), Lecture Notes in "
		"Mathematics 630, 105-116; Transtrum and Sethna (2012), "
		"arXiv:1201.5885");
	return ERR_NONE;
}

const struct calc_entry calc_nonlinear = {
	.name = "nonlinear",
	.line = "a curve of any written form by least squares",
	.key = keys,
	.n_key = sizeof keys / sizeof keys[0],
	.example = "{\"model\": \"a * (1 - exp(-k * x))\", "
		   "\"x\": [1, 3, 7, 14, 28], \"y\": [0.31, 0.74, 1.19, "
		   "1.52, 1.61], \"start\": {\"a\": 2, \"k\": 0.1}}",
	.run = run,
};
