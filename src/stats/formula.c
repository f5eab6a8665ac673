/* formula.c - a written formula, read once and worked out with its slopes. */
#include "stats/formula.h"

#include <ctype.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { PARTS_MAX = 1000, DEPTH_MAX = 60, NAME_MAX_BYTES = 32 };

enum part_kind {
	PART_NUMBER,
	PART_VARIABLE,
	PART_PARAMETER,
	PART_ADD,
	PART_SUBTRACT,
	PART_MULTIPLY,
	PART_DIVIDE,
	PART_POWER,
	PART_NEGATE,
	PART_EXP,
	PART_LOG,
	PART_SQRT,
	PART_SIN,
	PART_COS,
	PART_TAN,
	PART_ATAN,
};

static const struct {
	const char *name;
	enum part_kind kind;
} functions[] = {
	{"exp", PART_EXP},
	{"log", PART_LOG},
	{"sqrt", PART_SQRT},
	{"sin", PART_SIN},
	{"cos", PART_COS},
	{"tan", PART_TAN},
	{"atan", PART_ATAN},
	{"arctan", PART_ATAN},
};
enum { N_FUNCTION = sizeof functions / sizeof functions[0] };

static const long double pi = 3.141592653589793238462643383279502884L;

/* One part in the order of working out: operands before what joins them. */
struct part {
	enum part_kind kind;
	size_t index;
	long double number;
};

struct stats_formula {
	struct part *part;
	size_t n_part, n_parameter;
	/* A stack of values, each followed by its slopes. */
	long double *stack;
};

struct reader {
	const char *text, *at;
	const struct stats_formula_names *names;
	struct part *part;
	bool *is_used; /* by parameter */
	size_t n_part, height, highest, depth;
	struct err *err;
};

static enum err_code
refuse(struct reader *r, const char *what)
{
	return err_report(r->err, ERR_INPUT, "model",
		"%s at character %zu of \"%.200s\"; a formula has numbers, the "
		"names of x and of the parameters, + - * / ^, brackets, pi, "
		"exp, log, sqrt, sin, cos, tan and atan.",
		what, (size_t)(r->at - r->text) + 1, r->text);
}

static void
skip_blanks(struct reader *r)
{
	r->at += strspn(r->at, " \t\r\n");
}

/* Takes the sign if it is next. */
static bool
take(struct reader *r, char sign)
{
	skip_blanks(r);
	if (*r->at != sign)
		return false;
	r->at++;
	return true;
}

/* Adds a part that takes n_operand values off the stack and puts one on. */
static enum err_code
add(struct reader *r, struct part part, size_t n_operand)
{
	if (r->n_part == PARTS_MAX)
		return refuse(r, "There are too many parts");
	r->part[r->n_part++] = part;
	r->height += 1 - n_operand;
	if (r->height > r->highest)
		r->highest = r->height;
	return ERR_NONE;
}

static enum err_code read_sum(struct reader *r);
static enum err_code read_signed(struct reader *r);

static enum err_code
read_bracket(struct reader *r, char close)
{
	if (r->depth == DEPTH_MAX)
		return refuse(r, "The brackets are too deep");
	r->depth++;
	TRY(read_sum(r));
	r->depth--;
	return take(r, close) ? ERR_NONE
			      : refuse(r,
					close == ')' ? "A \")\" is missing"
						     : "A \"]\" is missing");
}

static enum err_code
read_number(struct reader *r)
{
	char *end = NULL;
	/* As a double, so that it is the number JSON would have. */
	double number = strtod(r->at, &end);

	if (end == r->at || !isfinite(number))
		return refuse(r, "There is no number that can be used");
	r->at = end;
	return add(r,
		(struct part){
			.kind = PART_NUMBER, .number = (long double)number},
		0);
}

static bool
find(const char *const *name, size_t n, const char *wanted, size_t *index)
{
	for (size_t i = 0; i < n; i++) {
		if (strcmp(name[i], wanted) == 0) {
			*index = i;
			return true;
		}
	}
	return false;
}

static enum err_code
read_function(struct reader *r, enum part_kind kind)
{
	char close = ')';

	if (!take(r, '(')) {
		if (!take(r, '['))
			return refuse(r, "A \"(\" is missing");
		close = ']';
	}
	TRY(read_bracket(r, close));
	return add(r, (struct part){.kind = kind}, 1);
}

static enum err_code
read_name(struct reader *r)
{
	char name[NAME_MAX_BYTES] = "";
	size_t n = 0, index;

	while (isalnum((unsigned char)r->at[n]) || r->at[n] == '_')
		n++;
	if (n >= sizeof name)
		return refuse(r, "There is a name that is too long");
	memcpy(name, r->at, n);
	if (find(r->names->variable, r->names->n_variable, name, &index)) {
		r->at += n;
		return add(r,
			(struct part){.kind = PART_VARIABLE, .index = index},
			0);
	}
	if (find(r->names->parameter, r->names->n_parameter, name, &index)) {
		r->at += n;
		r->is_used[index] = true;
		return add(r,
			(struct part){.kind = PART_PARAMETER, .index = index},
			0);
	}
	for (size_t i = 0; i < N_FUNCTION; i++) {
		if (strcmp(functions[i].name, name) == 0) {
			r->at += n;
			return read_function(r, functions[i].kind);
		}
	}
	if (strcmp(name, "pi") != 0)
		return refuse(r, "There is a name that is not known");
	r->at += n;
	return add(r, (struct part){.kind = PART_NUMBER, .number = pi}, 0);
}

static enum err_code
read_primary(struct reader *r)
{
	skip_blanks(r);
	if (take(r, '('))
		return read_bracket(r, ')');
	if (take(r, '['))
		return read_bracket(r, ']');
	if (isdigit((unsigned char)*r->at) || *r->at == '.')
		return read_number(r);
	if (isalpha((unsigned char)*r->at))
		return read_name(r);
	return refuse(r,
		*r->at == '\0' ? "The formula ends too early"
			       : "There is a sign that is not expected");
}

static enum err_code
read_power(struct reader *r)
{
	bool is_power;

	TRY(read_primary(r));
	is_power = take(r, '^');
	skip_blanks(r);
	if (!is_power && r->at[0] == '*' && r->at[1] == '*') {
		r->at += 2;
		is_power = true;
	}
	if (!is_power)
		return ERR_NONE;
	TRY(read_signed(r));
	return add(r, (struct part){.kind = PART_POWER}, 2);
}

static enum err_code
read_signed(struct reader *r)
{
	bool is_minus = take(r, '-');

	if (!is_minus && !take(r, '+'))
		return read_power(r);
	if (r->depth == DEPTH_MAX)
		return refuse(r, "There are too many signs in a row");
	r->depth++;
	TRY(read_signed(r));
	r->depth--;
	return is_minus ? add(r, (struct part){.kind = PART_NEGATE}, 1)
			: ERR_NONE;
}

static enum err_code
read_product(struct reader *r)
{
	TRY(read_signed(r));
	for (;;) {
		enum part_kind kind;

		if (take(r, '*'))
			kind = PART_MULTIPLY;
		else if (take(r, '/'))
			kind = PART_DIVIDE;
		else
			return ERR_NONE;
		TRY(read_signed(r));
		TRY(add(r, (struct part){.kind = kind}, 2));
	}
}

static enum err_code
read_sum(struct reader *r)
{
	TRY(read_product(r));
	for (;;) {
		enum part_kind kind;

		if (take(r, '+'))
			kind = PART_ADD;
		else if (take(r, '-'))
			kind = PART_SUBTRACT;
		else
			return ERR_NONE;
		TRY(read_product(r));
		TRY(add(r, (struct part){.kind = kind}, 2));
	}
}

static bool
is_taken(const char *name, const struct stats_formula_names *names)
{
	size_t index;

	for (size_t i = 0; i < N_FUNCTION; i++)
		if (strcmp(functions[i].name, name) == 0)
			return true;
	return strcmp(name, "pi") == 0 ||
		find(names->variable, names->n_variable, name, &index);
}

static enum err_code
check_names(const struct stats_formula_names *names, struct err *err)
{
	for (size_t i = 0; i < names->n_parameter; i++) {
		const char *name = names->parameter[i];
		size_t n = 0, index;

		while (isalnum((unsigned char)name[n]) || name[n] == '_')
			n++;
		if (n == 0 || n >= NAME_MAX_BYTES || name[n] != '\0' ||
			!isalpha((unsigned char)name[0]))
			return err_report(err, ERR_INPUT, "model",
				"\"%.60s\" cannot name a parameter; a name is "
				"a letter and then letters, digits and _, at "
				"most %d in all.",
				name, NAME_MAX_BYTES - 1);
		if (is_taken(name, names) ||
			find(names->parameter, i, name, &index))
			return err_report(err, ERR_INPUT, "model",
				"\"%s\" cannot name a parameter, since it "
				"means something else already.",
				name);
	}
	return ERR_NONE;
}

enum err_code
stats_formula_read(struct arena *arena, const char *text,
	const struct stats_formula_names *names, struct stats_formula **formula,
	struct err *err)
{
	struct reader r = {
		.text = text, .at = text, .names = names, .err = err};
	struct stats_formula *to = arena_take(arena, 1, sizeof *to);

	TRY(check_names(names, err));
	r.part = arena_take(arena, PARTS_MAX, sizeof *r.part);
	r.is_used = arena_take(arena, names->n_parameter, sizeof *r.is_used);
	if (to == NULL || r.part == NULL || r.is_used == NULL)
		return err_memory(err);
	TRY(read_sum(&r));
	skip_blanks(&r);
	if (*r.at != '\0')
		return refuse(&r, "There is a sign that is not expected");
	for (size_t i = 0; i < names->n_parameter; i++)
		if (!r.is_used[i])
			return err_report(err, ERR_INPUT, "model",
				"The parameter \"%s\" does not occur in the "
				"formula \"%.200s\".",
				names->parameter[i], text);
	to->part = r.part;
	to->n_part = r.n_part;
	to->n_parameter = names->n_parameter;
	to->stack = arena_take(
		arena, r.highest * (names->n_parameter + 1), sizeof *to->stack);
	if (to->stack == NULL)
		return err_memory(err);
	*formula = to;
	return ERR_NONE;
}

/* a becomes a function of itself with the slope given. */
static void
chain(long double *a, size_t n, long double value, long double slope)
{
	a[0] = value;
	for (size_t i = 1; i <= n; i++)
		a[i] *= slope;
}

static void
work_function(enum part_kind kind, long double *a, size_t n)
{
	long double x = a[0];

	switch (kind) {
	case PART_NEGATE:
		chain(a, n, -x, -1);
		break;
	case PART_EXP:
		chain(a, n, expl(x), expl(x));
		break;
	case PART_LOG:
		chain(a, n, logl(x), 1 / x);
		break;
	case PART_SQRT:
		chain(a, n, sqrtl(x), 0.5L / sqrtl(x));
		break;
	case PART_SIN:
		chain(a, n, sinl(x), cosl(x));
		break;
	case PART_COS:
		chain(a, n, cosl(x), -sinl(x));
		break;
	case PART_TAN:
		chain(a, n, tanl(x), 1 / (cosl(x) * cosl(x)));
		break;
	case PART_ATAN:
		chain(a, n, atanl(x), 1 / (1 + x * x));
		break;
	case PART_NUMBER:
	case PART_VARIABLE:
	case PART_PARAMETER:
	case PART_ADD:
	case PART_SUBTRACT:
	case PART_MULTIPLY:
	case PART_DIVIDE:
	case PART_POWER:
		break;
	}
}

/* a to the power b; the slope by b only where there is one, since it needs a
 * logarithm and a whole power of a negative number has none. */
static void
work_power(long double *a, const long double *b, size_t n)
{
	long double x = a[0], p = b[0], value = powl(x, p);

	a[0] = value;
	for (size_t i = 1; i <= n; i++) {
		long double slope = 0;

		if (fabsl(a[i]) > 0)
			slope = p * powl(x, p - 1) * a[i];
		if (fabsl(b[i]) > 0 &&
			(fabsl(x) > 0 || !(p > 0))) /* 0^p stays 0 */
			slope += value * logl(x) * b[i];
		a[i] = slope;
	}
}

static void
work_pair(enum part_kind kind, long double *a, const long double *b, size_t n)
{
	long double x = a[0], y = b[0];

	if (kind == PART_POWER) {
		work_power(a, b, n);
		return;
	}
	for (size_t i = 0; i <= n; i++) {
		if (kind == PART_ADD)
			a[i] += b[i];
		else if (kind == PART_SUBTRACT)
			a[i] -= b[i];
		else if (kind == PART_MULTIPLY)
			a[i] = i == 0 ? x * y : a[i] * y + x * b[i];
		else
			a[i] = i == 0 ? x / y : (a[i] - x / y * b[i]) / y;
	}
}

bool
stats_formula_at(const struct stats_formula *formula, const double *variable,
	const long double *parameter, long double *value, long double *slope)
{
	/* Without slopes the places for them are left alone. */
	size_t n = slope != NULL ? formula->n_parameter : 0;
	size_t width = formula->n_parameter + 1;
	long double *top = formula->stack; /* the next free place */
	bool is_finite;

	for (size_t i = 0; i < formula->n_part; i++) {
		const struct part *p = &formula->part[i];

		if (p->kind <= PART_PARAMETER) {
			for (size_t k = 0; k <= n; k++)
				top[k] = 0;
			top[0] = p->number;
			if (p->kind == PART_VARIABLE)
				top[0] = (long double)variable[p->index];
			if (p->kind == PART_PARAMETER) {
				top[0] = parameter[p->index];
				if (n > 0)
					top[p->index + 1] = 1;
			}
			top += width;
		} else if (p->kind <= PART_POWER) {
			top -= width;
			work_pair(p->kind, top - width, top, n);
		} else {
			work_function(p->kind, top - width, n);
		}
	}
	top = formula->stack;
	is_finite = isfinite(top[0]);
	*value = top[0];
	for (size_t k = 0; k < n; k++) {
		slope[k] = top[k + 1];
		is_finite = is_finite && isfinite(slope[k]);
	}
	return is_finite;
}
