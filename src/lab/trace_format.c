/* trace_format.c - how a logger's file is written, found in its first lines. */
#include "lab/trace_priv.h"

#include "core/unit.h"

#include <stdio.h>
#include <string.h>

enum { LOOKED_AT = 40 }; /* lines of figures that must agree */

static const double standard_gravity_m_s2 = 9.80665;

struct line {
	const char *at;
	size_t n;
};

struct finding {
	const struct lab_trace_ask *ask;
	const char *head;
	size_t n;
	struct lab_trace_found *found;
};

/* ---- lines ---- */

/* The next whole line from *at on; false: there is none. */
static bool
next_line(const struct finding *f, size_t *at, bool whole, struct line *line)
{
	const char *end;

	if (*at >= f->n)
		return false;
	end = memchr(f->head + *at, '\n', f->n - *at);
	if (end == NULL && !whole)
		return false;
	line->at = f->head + *at;
	line->n = end != NULL ? (size_t)(end - line->at) : f->n - *at;
	*at += line->n + 1;
	return true;
}

static bool
is_blank(const struct line *line)
{
	for (size_t i = 0; i < line->n; i++)
		if (line->at[i] != ' ' && line->at[i] != '\t' &&
			line->at[i] != '\r')
			return false;
	return true;
}

/* Every field a number, a moment or missing, and one a number at least. */
static bool
is_figures(const struct finding *f, const struct line *line, char separator,
	bool comma, size_t *n_column)
{
	struct trace_field field[LAB_TRACE_COLUMNS];
	size_t n = trace_fields(line->at, line->n, separator, field);
	bool any = false;

	if (n > LAB_TRACE_COLUMNS)
		return false;
	for (size_t i = 0; i < n; i++) {
		double x;
		enum trace_number is = trace_number(field[i], comma, &x);

		any = any || is == TRACE_NUMBER;
		if (is == TRACE_NO_NUMBER && !trace_clock(field[i], &x) &&
			!trace_stamp(field[i], f->ask->order, &x) &&
			!trace_is_slashed(field[i]))
			return false;
	}
	*n_column = n;
	return any;
}

/* ---- the separator and the decimal sign ---- */

/* The longest run of lines of figures with one number of columns, LOOKED_AT at
 * most: its first line, and its length.  What breaks it is told when it is
 * read. */
static size_t
figures_from(const struct finding *f, bool whole, char separator, bool comma,
	size_t *first_line, size_t *n_column)
{
	size_t at = 0, number = 0, seen = 0, begun = 0, columns = 0, n = 0;
	size_t longest = 0;
	struct line line;

	while (longest < LOOKED_AT && next_line(f, &at, whole, &line)) {
		number++;
		if (is_blank(&line))
			continue;
		if (!is_figures(f, &line, separator, comma, &n)) {
			seen = 0;
			continue;
		}
		if (seen == 0 || n != columns) {
			begun = number;
			columns = n;
			seen = 0;
		}
		seen++;
		if (seen <= longest)
			continue;
		longest = seen;
		*first_line = begun;
		*n_column = columns;
	}
	return longest;
}

/* How many lines are figures in so many columns. */
static size_t
count_figures(const struct finding *f, bool whole, char separator, bool comma,
	size_t n_column)
{
	size_t at = 0, count = 0, n = 0;
	struct line line;

	while (next_line(f, &at, whole, &line))
		count += !is_blank(&line) &&
			is_figures(f, &line, separator, comma, &n) &&
			n == n_column;
	return count;
}

/* Of the ways of writing that read as many columns as they must, the one in which
 * most lines are figures, the first of several: whole numbers at the start do
 * not say whether a comma or a point is to come.  A comma between columns cannot
 * be the decimal sign too. */
static enum err_code
find_signs(const struct finding *f, bool whole, struct err *err)
{
	static const struct {
		char separator;
		bool comma;
		size_t least; /* columns */
	} ways[] = {{'\t', false, 2}, {'\t', true, 2}, {';', false, 2},
		{';', true, 2}, {',', false, 2}, {'\0', false, 1},
		{'\0', true, 1}};
	struct lab_trace_found *found = f->found;
	size_t most = 0, least = 0;

	for (size_t i = 0; i < sizeof ways / sizeof ways[0]; i++) {
		size_t first = 0, n = 0, count;

		if (most > 0 && ways[i].least < least)
			break; /* one column only where there are not two */
		if (figures_from(f, whole, ways[i].separator, ways[i].comma,
			    &first, &n) == 0 ||
			n < ways[i].least)
			continue;
		count = count_figures(
			f, whole, ways[i].separator, ways[i].comma, n);
		if (count <= most)
			continue;
		most = count;
		least = ways[i].least;
		found->separator = ways[i].separator;
		found->decimal_comma = ways[i].comma;
		found->first_line = first;
		found->n_column = n;
	}
	if (most > 0)
		return ERR_NONE;
	return err_report(err, ERR_INPUT, "file",
		"No line of figures was found in the first %d KiB; it takes "
		"CSV: columns of numbers with tabs, semicolons or commas "
		"between them.",
		LAB_TRACE_HEAD / 1024);
}

/* ---- the heading ---- */

struct heading {
	size_t n; /* 0: none */
	size_t n_column;
	struct trace_field name[LAB_TRACE_COLUMNS], unit[LAB_TRACE_COLUMNS];
	bool has_units;
};

/* An acceleration; no field of the book takes one. */
static bool
acceleration(const char *word, double *scale)
{
	static const struct {
		const char *word;
		double scale;
	} of[] = {{"m/s2", 1}, {"m/s^2", 1}, {"m/s\xC2\xB2", 1}, {"m/s/s", 1},
		{"g", 9.80665}, {"gn", 9.80665}, {"G", 9.80665},
		{"cm/s2", 0.01}};

	for (size_t i = 0; i < sizeof of / sizeof of[0]; i++) {
		if (strcmp(of[i].word, word) != 0)
			continue;
		*scale = of[i].scale;
		return true;
	}
	return false;
}

enum wanted { WANT_TIME, WANT_LOAD, WANT_SAG, WANT_BLOW, WANT_TEMPERATURE };

/* A unit word for what is wanted; a load may be given as a mass. */
static bool
unit_of(enum wanted want, const char *word, double *scale, double *offset)
{
	static const enum unit_kind kinds[] = {[WANT_TIME] = UNIT_TIME,
		[WANT_LOAD] = UNIT_FORCE,
		[WANT_SAG] = UNIT_LENGTH,
		[WANT_BLOW] = UNIT_NUMBER,
		[WANT_TEMPERATURE] = UNIT_TEMPERATURE};
	struct err odd = {.code = ERR_NONE};

	*offset = 0;
	if (want == WANT_BLOW)
		return acceleration(word, scale);
	if (want == WANT_LOAD &&
		unit_factor(word, UNIT_MASS, UNIT_GALLON_US, scale, offset,
			&odd) == ERR_NONE) {
		*scale *= standard_gravity_m_s2;
		return true;
	}
	if (want == WANT_TEMPERATURE &&
		(strcmp(word, "C") == 0 ||
			strcmp(word,
				"\xC2\xB0"
				"C") == 0)) {
		*scale = 1;
		return true;
	}
	return unit_factor(word, kinds[want], UNIT_GALLON_US, scale, offset,
		       &odd) == ERR_NONE;
}

static void
copy_field(struct trace_field f, char *to, size_t room)
{
	size_t n = f.n < room - 1 ? f.n : room - 1;

	if (n > 0)
		memcpy(to, f.at, n);
	to[n] = '\0';
}

static bool
is_any_unit(struct trace_field f)
{
	char word[LAB_TRACE_UNIT];
	double scale, offset;

	if (f.n == 0 || f.n >= sizeof word)
		return f.n == 0;
	copy_field(f, word, sizeof word);
	for (int want = WANT_TIME; want <= WANT_TEMPERATURE; want++)
		if (unit_of((enum wanted)want, word, &scale, &offset))
			return true;
	return false;
}

/* "(N)" and "[N]" of a line of units. */
static struct trace_field
unbracketed(struct trace_field f)
{
	if (f.n >= 2 &&
		((f.at[0] == '(' && f.at[f.n - 1] == ')') ||
			(f.at[0] == '[' && f.at[f.n - 1] == ']')))
		return (struct trace_field){f.at + 1, f.n - 2};
	return f;
}

static bool
is_units(const struct trace_field *field, size_t n)
{
	bool any = false;

	for (size_t i = 0; i < n; i++) {
		struct trace_field bare = unbracketed(field[i]);

		if (!is_any_unit(bare))
			return false;
		any = any || bare.n > 0;
	}
	return any;
}

/* "Load (kN)", "load [kN]", "Load / kN", "load_kN": the unit apart. */
static void
part_unit(struct trace_field *name, struct trace_field *unit)
{
	const char *end = name->at + name->n, *at;

	unit->n = 0;
	if (name->n == 0)
		return;
	for (at = end - 1; at > name->at; at--)
		if (*at == '(' || *at == '[' || *at == '/' || *at == '_' ||
			*at == ',')
			break;
	if (at == name->at)
		return;
	unit->at = at + 1;
	unit->n = (size_t)(end - at - 1);
	if ((*at == '(' || *at == '[') && unit->n > 0)
		unit->n--;
	/* "m/s2" itself holds a stroke: go back to the bracket. */
	for (const char *open = at; open > name->at && *at == '/'; open--) {
		if (*open != '(' && *open != '[')
			continue;
		unit->at = open + 1;
		unit->n = (size_t)(end - open - 2);
		at = open;
	}
	while (unit->n > 0 && unit->at[0] == ' ') {
		unit->at++;
		unit->n--;
	}
	if (!is_any_unit(*unit)) {
		unit->n = 0;
		return;
	}
	name->n = (size_t)(at - name->at);
	while (name->n > 0 && name->at[name->n - 1] == ' ')
		name->n--;
}

/* The last line before the figures that has as many columns, and the one before
 * that if it holds only units. */
static enum err_code
find_heading(struct finding *f, struct heading *h, struct err *err)
{
	struct lab_trace_found *found = f->found;
	struct trace_field field[LAB_TRACE_COLUMNS + 1];
	size_t at = 0, number = 0, other = 0;
	struct line line;

	h->n = 0;
	h->has_units = false;
	while (number + 1 < found->first_line &&
		next_line(f, &at, true, &line)) {
		size_t n = trace_fields(
			line.at, line.n, found->separator, field);

		number++;
		if (is_blank(&line))
			continue;
		other = n;
		if (n != found->n_column)
			continue;
		if (h->n > 0 && is_units(field, n)) {
			for (size_t i = 0; i < n; i++)
				h->unit[i] = unbracketed(field[i]);
			h->has_units = true;
			continue;
		}
		memcpy(h->name, field, n * sizeof field[0]);
		h->n = n;
		h->has_units = false;
		found->heading_line = number;
	}
	if (h->n == 0 && found->separator == ',' && other > 1 &&
		2 * other == found->n_column)
		return err_report(err, ERR_INPUT, "file",
			"The heading has %zu columns and the lines below have "
			"%zu: decimal commas and commas between columns "
			"cannot be told apart. Export it with semicolons or "
			"decimal points.",
			other, found->n_column);
	for (size_t i = 0; i < h->n && !h->has_units; i++)
		part_unit(&h->name[i], &h->unit[i]);
	return ERR_NONE;
}

/* ---- columns ---- */

static char
small(char c)
{
	return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

static bool
holds(struct trace_field f, const char *word)
{
	size_t n = strlen(word);

	for (size_t i = 0; i + n <= f.n; i++) {
		size_t k = 0;

		while (k < n && small(f.at[i + k]) == word[k])
			k++;
		if (k == n)
			return true;
	}
	return false;
}

/* A name that was cut when it was told is as good as the whole. */
static bool
same_name(struct trace_field f, const char *name)
{
	size_t n = strlen(name);

	if (f.n != n && (n + 1 != LAB_TRACE_NAME || f.n < n))
		return false;
	for (size_t i = 0; i < n; i++)
		if (small(f.at[i]) != small(name[i]))
			return false;
	return true;
}

static bool
is_named_for(struct trace_field f, enum wanted want)
{
	static const char *const words[][8] = {
		[WANT_TIME] = {"time", "elapsed", "stamp", "second", "date",
			NULL},
		[WANT_LOAD] = {"load", "force", "weight", "cell", NULL},
		[WANT_SAG] = {"sag", "deflection", "displacement", "position",
			"travel", NULL},
		[WANT_BLOW] = {"acc", "decel", NULL},
		[WANT_TEMPERATURE] = {"temp", NULL},
	};

	if (want == WANT_TIME && same_name(f, "t"))
		return true;
	for (size_t i = 0; words[want][i] != NULL; i++)
		if (holds(f, words[want][i]))
			return true;
	return false;
}

static bool
has_unit_for(const struct heading *h, size_t i, enum wanted want)
{
	char word[LAB_TRACE_UNIT];
	double scale, offset;

	if (h->unit[i].n == 0 || h->unit[i].n >= sizeof word)
		return false;
	copy_field(h->unit[i], word, sizeof word);
	return unit_of(want, word, &scale, &offset);
}

/* The columns' names for a sentence. */
static void
list_names(const struct heading *h, char *to, size_t room)
{
	size_t n = 0;

	to[0] = '\0';
	for (size_t i = 0; i < h->n && n + LAB_TRACE_NAME + 4 < room; i++) {
		char name[LAB_TRACE_NAME];

		copy_field(h->name[i], name, sizeof name);
		n += (size_t)snprintf(
			to + n, room - n, "%s\"%s\"", i > 0 ? ", " : "", name);
	}
}

static enum err_code
not_one(const struct heading *h, const char *what, const char *option,
	size_t n_seen, struct err *err)
{
	char names[320];

	list_names(h, names, sizeof names);
	return err_report(err, ERR_INPUT, option,
		n_seen == 0 ? "No column was found for the %s; say which with "
			      "%s. The columns: %s."
			    : "More than one column may be the %s; say which "
			      "with %s. The columns: %s.",
		what, option,
		names[0] != '\0'
			? names
			: err_say(err, "without a heading: say its number"));
}

/* "2": the second column; false: no number, or none of that many columns. */
static bool
is_numbered(const struct heading *h, const char *said, size_t *at)
{
	size_t number = 0;

	for (const char *c = said; *c != '\0'; c++) {
		if (*c < '0' || *c > '9' || number > LAB_TRACE_COLUMNS)
			return false;
		number = 10 * number + (size_t)(*c - '0');
	}
	*at = number - 1;
	return number >= 1 && number <= h->n_column;
}

/* The one column for what is wanted: by the name or number that was said, else by
 * its heading, else by its unit alone. */
static enum err_code
find_column(const struct heading *h, enum wanted want, const char *said,
	const char *option, const char *what, bool must,
	struct lab_trace_column *column, struct err *err)
{
	size_t n_named = 0, n_unit = 0, named = 0, by_unit = 0;

	column->has = false;
	for (size_t i = 0; i < h->n; i++) {
		if (said != NULL ? same_name(h->name[i], said)
				 : is_named_for(h->name[i], want)) {
			if (n_named++ == 0)
				named = i;
		}
		if (said == NULL && has_unit_for(h, i, want) && n_unit++ == 0)
			by_unit = i;
	}
	if (n_named != 1 && n_unit == 1) {
		named = by_unit;
		n_named = 1;
	}
	if (n_named == 0 && said != NULL && is_numbered(h, said, &named))
		n_named = 1;
	if (n_named != 1) {
		if (n_named == 0 && !must && said == NULL)
			return ERR_NONE;
		return not_one(h, what, option, n_named, err);
	}
	column->has = true;
	column->at = named;
	if (named < h->n)
		copy_field(h->name[named], column->name, sizeof column->name);
	return ERR_NONE;
}

static enum err_code
find_unit(const struct heading *h, enum wanted want, const char *said,
	const char *option, const char *example,
	struct lab_trace_column *column, struct err *err)
{
	if (said != NULL)
		(void)snprintf(column->unit, sizeof column->unit, "%s", said);
	else if (h->n > 0)
		copy_field(
			h->unit[column->at], column->unit, sizeof column->unit);
	if (column->unit[0] == '\0' && want == WANT_TIME &&
		holds(h->name[column->at], "second"))
		(void)snprintf(column->unit, sizeof column->unit, "s");
	if (column->unit[0] == '\0')
		return err_report(err, ERR_INPUT, option,
			"Column \"%s\" has no unit in its heading; say it "
			"with %s %s.",
			column->name, option, example);
	if (!unit_of(want, column->unit, &column->scale, &column->offset))
		return err_report(err, ERR_INPUT, option,
			"\"%s\" is no unit for column \"%s\"; it takes such as "
			"%s.",
			column->unit, column->name, example);
	return ERR_NONE;
}

/* ---- the time ---- */

/* What stands in the time column of the first line of figures. */
static bool
first_field(const struct finding *f, size_t at_column,
	struct trace_field field[LAB_TRACE_COLUMNS + 1])
{
	size_t at = 0, number = 0;
	struct line line;

	while (next_line(f, &at, true, &line))
		if (++number == f->found->first_line)
			return trace_fields(line.at, line.n,
				       f->found->separator, field) > at_column;
	return false;
}

static enum err_code
slashed(struct err *err)
{
	return err_report(err, ERR_INPUT, "--date-order",
		"The dates may begin with the day or with the month; say "
		"--date-order day or --date-order month.");
}

/* A clock with a date in a column of its own, or with the date left out. */
static enum err_code
pair_with_date(const struct finding *f, const struct heading *h,
	const struct trace_field *field, struct err *err)
{
	struct lab_trace_found *found = f->found;

	found->is_clock = true;
	for (size_t i = 0; i < found->n_column; i++) {
		double s;

		if (i == found->time.at)
			continue;
		if (trace_stamp(field[i], f->ask->order, &s)) {
			found->date.has = true;
			found->date.at = i;
			if (i < h->n)
				copy_field(h->name[i], found->date.name,
					sizeof found->date.name);
		} else if (trace_is_slashed(field[i]))
			return slashed(err);
	}
	found->is_dated = found->date.has;
	return ERR_NONE;
}

/* The time stands in the column that was said, in one named so, or in the first
 * one that holds moments. */
static enum err_code
find_time(struct finding *f, const struct heading *h, struct err *err)
{
	struct lab_trace_found *found = f->found;
	struct trace_field field[LAB_TRACE_COLUMNS + 1] = {{0}};
	struct err odd = {.code = ERR_NONE};
	double s;

	if (f->ask->step_s > 0) {
		found->time.has = false;
		return ERR_NONE;
	}
	if (find_column(h, WANT_TIME, f->ask->time_column, "--time-column",
		    "time", true, &found->time, &odd) != ERR_NONE) {
		/* A date and a clock are both named for a time. */
		for (size_t i = 0; i < found->n_column && !found->time.has &&
			f->ask->time_column == NULL && first_field(f, i, field);
			i++) {
			found->time.has = trace_clock(field[i], &s);
			found->time.at = i;
		}
		for (size_t i = 0; i < found->n_column && !found->time.has &&
			f->ask->time_column == NULL && first_field(f, i, field);
			i++) {
			found->time.has = trace_stamp(
				field[i], f->ask->order, &s);
			found->time.at = i;
			if (!found->time.has && trace_is_slashed(field[i]))
				return slashed(err);
		}
		if (!found->time.has)
			return err_report(err, odd.code, odd.field,
				"%s Or say the time between two lines with "
				"--every.",
				odd.text);
		if (found->time.at < h->n)
			copy_field(h->name[found->time.at], found->time.name,
				sizeof found->time.name);
	}
	if (!first_field(f, found->time.at, field))
		return ERR_NONE;
	if (trace_clock(field[found->time.at], &s))
		return pair_with_date(f, h, field, err);
	if (trace_stamp(field[found->time.at], f->ask->order, &s)) {
		found->is_dated = true;
		return ERR_NONE;
	}
	if (trace_is_slashed(field[found->time.at]))
		return slashed(err);
	return find_unit(h, WANT_TIME, f->ask->time_unit, "--time-unit",
		"s or ms", &found->time, err);
}

/* Without a heading one column of values is what is wanted. */
static void
take_only_column(const struct finding *f, struct heading *h)
{
	struct lab_trace_found *found = f->found;
	size_t n_timeless = found->n_column - (f->ask->step_s > 0 ? 0 : 1);

	if (h->n > 0 || n_timeless != 1)
		return;
	found->value.has = true;
	found->value.at = found->n_column - 1;
	if (f->ask->step_s <= 0) {
		found->time.has = true;
		found->time.at = 0;
	}
}

static const struct {
	enum wanted want;
	const char *what, *example;
} values[] = {[LAB_TRACE_LOAD] = {WANT_LOAD, "load", "N, kN or kg"},
	[LAB_TRACE_BLOW] = {WANT_BLOW, "acceleration", "m/s2 or g"},
	[LAB_TRACE_TEMPERATURE] = {
		WANT_TEMPERATURE, "temperature", "degC or degF"}};

static enum err_code
find_columns(struct finding *f, struct heading *h, struct err *err)
{
	const struct lab_trace_ask *ask = f->ask;
	struct lab_trace_found *found = f->found;

	take_only_column(f, h);
	if (!found->value.has)
		TRY(find_column(h, values[ask->kind].want, ask->value_column,
			"--column", values[ask->kind].what, true, &found->value,
			err));
	TRY(find_unit(h, values[ask->kind].want, ask->value_unit, "--unit",
		values[ask->kind].example, &found->value, err));
	if (ask->kind == LAB_TRACE_LOAD &&
		(h->n > 0 || ask->sag_column != NULL))
		TRY(find_column(h, WANT_SAG, ask->sag_column, "--sag-column",
			"sag", false, &found->sag, err));
	found->has_sag = found->sag.has;
	if (found->has_sag)
		TRY(find_unit(h, WANT_SAG, ask->sag_unit, "--sag-unit", "mm",
			&found->sag, err));
	if (found->time.has && h->n == 0) {
		struct trace_field field[LAB_TRACE_COLUMNS + 1] = {{0}};
		double s;

		if (first_field(f, found->time.at, field) &&
			trace_clock(field[found->time.at], &s)) {
			found->is_clock = true;
			return ERR_NONE;
		}
		if (trace_stamp(field[found->time.at], ask->order, &s)) {
			found->is_dated = true;
			return ERR_NONE;
		}
		return find_unit(h, WANT_TIME, ask->time_unit, "--time-unit",
			"s or ms", &found->time, err);
	}
	return find_time(f, h, err);
}

enum err_code
trace_find_format(const struct lab_trace_ask *ask, const char *head, size_t n,
	bool whole, struct lab_trace_found *found, struct err *err)
{
	struct finding f = {.ask = ask, .head = head, .n = n, .found = found};
	struct heading h = {.n = 0};

	TRY(find_signs(&f, whole, err));
	TRY(find_heading(&f, &h, err));
	h.n_column = found->n_column;
	for (size_t i = 0; i < h.n; i++)
		copy_field(h.name[i], found->column_name[i], LAB_TRACE_NAME);
	return find_columns(&f, &h, err);
}
