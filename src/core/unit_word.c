/* unit_word.c - understands "lb/cu ft", "W/(m K)", "Btu.in/(h.ft2.F)". */
#include "core/unit_priv.h"

#include <math.h>
#include <string.h>
#include <strings.h>

struct reading {
	const char *start, *at, *end;
	enum unit_kind kind;
	enum unit_gallon gallon;
	int power_sign; /* -1 behind the slash */
	int depth;      /* of parentheses */
	size_t n_word;
	struct unit_found found;
};

static bool
is_word_byte(char c)
{
	return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_';
}

static enum err_code
refuse_words(const struct reading *r, struct err *err)
{
	return err_report(err, ERR_INPUT, "",
		"The unit \"%.*s\" is not known here; %s is wanted, such as "
		"%s.",
		(int)(r->end - r->start), r->start,
		err_say(err, unit_kind_name(r->kind)), unit_example(r->kind));
}

/* Letters of either case alike; other marks may fall together, which only
 * makes the caller look closer. */
static bool
may_begin_alike(char a, char b)
{
	enum { CASE_BIT = 0x20 };

	return (a | CASE_BIT) == (b | CASE_BIT);
}

/* word without a plural s that the row allows, letters of either case */
static bool
matches(const struct unit_word *row, const char *word, size_t n_word,
	bool exactly)
{
	size_t n = strlen(row->word);
	bool is_plural = row->takes_s && n_word == n + 1 &&
		(word[n] == 's' || word[n] == 'S');

	if (n_word != n && !is_plural)
		return false;
	return exactly ? strncmp(row->word, word, n) == 0
		       : strncasecmp(row->word, word, n) == 0;
}

static bool
suits(const struct unit_word *row, enum unit_kind kind)
{
	return unit_same_dimension(unit_dimension_of(row->dimension),
		unit_dimension_of((int)kind));
}

static bool
means_the_same(const struct unit_word *a, const struct unit_word *b)
{
	return strcmp(a->word, b->word) == 0 ||
		(a->dimension == b->dimension && a->num == b->num &&
			a->den == b->den && a->zero == b->zero &&
			a->refusal == b->refusal);
}

/* The row of a word; NULL if there is none.  *rival is another row that it
 * might mean just as well.  Of two rows of one spelling ("psf") the one of the
 * kind that is wanted wins. */
static const struct unit_word *
look_up(const char *word, enum unit_kind kind, const struct unit_word **rival)
{
	const struct unit_word *best = NULL;
	size_t n_word = strlen(word);

	*rival = NULL;
	for (int exactly = 1; exactly >= 0 && best == NULL; exactly--) {
		for (size_t i = 0; i < unit_n_word; i++) {
			const struct unit_word *row = &unit_words[i];

			if (!may_begin_alike(*row->word, *word) ||
				!matches(row, word, n_word, exactly != 0))
				continue;
			if (best != NULL && !means_the_same(best, row))
				*rival = row;
			if (best == NULL ||
				(suits(row, kind) && !suits(best, kind)))
				best = row;
		}
	}
	return best;
}

/* Copies the word at p, at most room - 1 letters; gives its length, 0 if there
 * is none or it is too long to be one of ours. */
static size_t
copy_word(const struct reading *r, const char *p, char *word, size_t room)
{
	size_t n = 0;

	if (p < r->end && (*p == '%' || *p == '\'' || *p == '"'))
		n = 1;
	else
		while (p + n < r->end && is_word_byte(p[n]))
			n++;
	if (n >= room)
		return 0;
	memcpy(word, p, n);
	word[n] = '\0';
	return n;
}

/* Where the word behind a gap of spaces and abbreviating points begins. */
static const char *
skip_gap(const struct reading *r, const char *p)
{
	if (p < r->end && *p == '.' && (p + 1 == r->end || p[1] == ' '))
		p++;
	while (p < r->end && *p == ' ')
		p++;
	return p;
}

/* The longest of "fl oz" and "fl" that the table has. */
static const struct unit_word *
take_row(struct reading *r, char *word, const struct unit_word **rival)
{
	const struct unit_word *row;
	size_t n = copy_word(r, r->at, word, UNIT_WORD_MAX), n_second = 0;
	const char *second;

	if (n == 0)
		return NULL;
	second = skip_gap(r, r->at + n);
	if (second > r->at + n && n + 1 < UNIT_WORD_MAX)
		n_second = copy_word(
			r, second, word + n + 1, UNIT_WORD_MAX - n - 1);
	if (n_second > 0) {
		word[n] = ' ';
		row = look_up(word, r->kind, rival);
		if (row != NULL) {
			r->at = second + n_second;
			return row;
		}
		word[n] = '\0';
	}
	row = look_up(word, r->kind, rival);
	if (row != NULL)
		r->at += n;
	return row;
}

/* What may stand before a word: square, cubic, US, imperial. */
struct before {
	int power;
	bool has_gallon;
	enum unit_gallon gallon;
};

static bool
is_one_of(const char *word, const char *const *list)
{
	for (; *list != NULL; list++)
		if (strcasecmp(word, *list) == 0)
			return true;
	return false;
}

static bool
take_before(struct reading *r, struct before *before)
{
	static const char *const square[] = {"sq", "square", NULL};
	static const char *const cubic[] = {"cu", "cubic", NULL};
	static const char *const american[] = {"US", NULL};
	static const char *const imperial[] = {"imp", "imperial", "UK", NULL};
	char word[UNIT_WORD_MAX];
	size_t n = copy_word(r, r->at, word, sizeof word);

	if (n == 0)
		return false;
	if (is_one_of(word, square) || is_one_of(word, cubic)) {
		if (before->power != 1)
			return false;
		before->power = is_one_of(word, square) ? 2 : 3;
	} else if (is_one_of(word, american) || is_one_of(word, imperial)) {
		before->has_gallon = true;
		before->gallon = is_one_of(word, american)
			? UNIT_GALLON_US
			: UNIT_GALLON_IMPERIAL;
	} else {
		return false;
	}
	r->at = skip_gap(r, r->at + n);
	return true;
}

/* "2", "^2", "-3", "^-1" behind a word; 1 if there is none, 0 if malformed. */
static int
take_power(struct reading *r)
{
	const char *p = r->at;
	bool has_caret = p < r->end && *p == '^';
	int sign = 1, power;

	if (has_caret)
		p++;
	if (p + 1 < r->end && *p == '-' && p[1] >= '0' && p[1] <= '9') {
		sign = -1;
		p++;
	}
	if (p >= r->end || *p < '0' || *p > '9')
		return has_caret ? 0 : 1;
	power = *p - '0';
	if (power > 4 || (p + 1 < r->end && p[1] >= '0' && p[1] <= '9'))
		return 0;
	r->at = p + 1;
	return sign * power;
}

static void
multiply(struct reading *r, const struct unit_word *row, int power,
	enum unit_gallon gallon)
{
	struct unit_dimension d = unit_dimension_of(row->dimension);
	bool is_imperial = gallon == UNIT_GALLON_IMPERIAL &&
		row->imperial_den > 0;
	double num = is_imperial ? row->imperial_num : row->num;
	double den = is_imperial ? row->imperial_den : row->den;
	int times = power < 0 ? -power : power;

	for (size_t i = 0; i < sizeof d.of; i++)
		r->found.dimension.of[i] =
			(signed char)(r->found.dimension.of[i] +
				power * d.of[i]);
	for (int i = 0; i < times; i++) {
		r->found.num *= power > 0 ? num : den;
		r->found.den *= power > 0 ? den : num;
	}
	r->found.zero = power == 1 && r->n_word == 0 ? row->zero : 0;
	r->n_word++;
}

static enum err_code
take_factor(struct reading *r, struct err *err)
{
	struct before before = {.power = 1, .gallon = r->gallon};
	const struct unit_word *row = NULL, *rival = NULL;
	char word[UNIT_WORD_MAX] = "";
	int power;

	for (int i = 0; row == NULL; i++) {
		row = take_row(r, word, &rival);
		if (row == NULL && (i >= 2 || !take_before(r, &before)))
			return refuse_words(r, err);
	}
	if (rival != NULL)
		return err_report(err, ERR_INPUT, "",
			"\"%s\" could be %s or %s; only large and small "
			"letters tell them apart. Write the one you mean.",
			word, row->word, rival->word);
	if (row->refusal != NULL)
		return err_report(err, ERR_INPUT, "", "%s", row->refusal);
	power = take_power(r) * before.power;
	if (power == 0 || r->n_word > 8 ||
		(before.power != 1 &&
			(power != before.power ||
				row->dimension != UNIT_LENGTH)) ||
		(before.has_gallon && row->imperial_den == 0))
		return refuse_words(r, err);
	multiply(r, row, r->power_sign * power, before.gallon);
	return ERR_NONE;
}

static bool
begins_per(const struct reading *r)
{
	return r->n_word > 0 && r->end - r->at > 4 &&
		strncasecmp(r->at, "per ", 4) == 0;
}

/* Spaces, product marks, one slash, parentheses.  False if they make no sense.
 * Everything behind the slash divides, as in the W/m K of data sheets. */
static bool
take_marks(struct reading *r)
{
	for (; r->at < r->end; r->at++) {
		bool is_last = r->at + 1 == r->end;
		char c = *r->at;

		if (c == ' ')
			continue;
		if (c == '/' || begins_per(r)) {
			if (r->n_word == 0 || is_last ||
				(r->depth > 0 && r->power_sign < 0))
				return false;
			r->power_sign = -1;
			r->at += c == '/' ? 0 : 2;
		} else if (c == '(') {
			r->depth++;
		} else if (c == ')') {
			r->depth--;
			if (r->depth < 0 || r->at[-1] == '(')
				return false;
		} else if (c == '.') {
			if (r->n_word == 0)
				return false;
		} else if (c == '*' || c == '-') {
			if (r->n_word == 0 || is_last ||
				!is_word_byte(r->at[1]))
				return false;
		} else {
			return true;
		}
	}
	return true;
}

enum err_code
unit_find(const char *words, size_t n, enum unit_kind kind,
	enum unit_gallon gallon, struct unit_found *found, struct err *err)
{
	struct reading r = {.start = words,
		.at = words,
		.end = words + n,
		.kind = kind,
		.gallon = gallon,
		.power_sign = 1,
		.found = {.num = 1, .den = 1}};

	for (;;) {
		if (!take_marks(&r))
			return refuse_words(&r, err);
		if (r.at >= r.end)
			break;
		TRY(take_factor(&r, err));
	}
	if (r.n_word == 0 || r.depth != 0)
		return refuse_words(&r, err);
	*found = r.found;
	return ERR_NONE;
}

/* Masses that a trade writes for their weight. */
struct habit {
	enum unit_kind kind;
	const char *words; /* as if multiplied by standard gravity */
};

static const struct habit habits[] = {
	{UNIT_STRESS, "lb/in2"},
	{UNIT_STRESS, "lb/ft2"},
	{UNIT_STRESS, "kg/cm2"},
	{UNIT_ENERGY, "ft lb"},
	{UNIT_ENERGY, "in lb"},
};

static bool
is_habit(enum unit_kind kind, const struct unit_found *found)
{
	static const double same_rel = 1e-12; /* a few roundings apart */
	struct unit_found habit = {.num = 1, .den = 1};

	for (size_t i = 0; i < sizeof habits / sizeof habits[0]; i++) {
		const char *words = habits[i].words;

		if (habits[i].kind != kind ||
			unit_find(words, strlen(words), kind, UNIT_GALLON_US,
				&habit, NULL) != ERR_NONE)
			continue;
		if (unit_same_dimension(habit.dimension, found->dimension) &&
			fabs(habit.num / habit.den * found->den / found->num -
				1) < same_rel)
			return true;
	}
	return false;
}

static const char *
name_of(struct unit_dimension dimension)
{
	for (int kind = UNIT_RATIO; kind < UNIT_N_DIMENSION; kind++)
		if (unit_same_dimension(dimension, unit_dimension_of(kind)))
			return unit_kind_name((enum unit_kind)kind);
	return N_("a unit of another kind");
}

static const char *
hint(enum unit_kind kind, const struct unit_found *found)
{
	bool is_mass = unit_same_dimension(
		found->dimension, unit_dimension_of(UNIT_MASS));

	if (kind == UNIT_VOLUME && is_mass)
		return N_(" Fluid ounces are written fl oz.");
	if (kind == UNIT_FORCE && is_mass)
		return N_(" The weight of a mass is written lbf or kgf.");
	return "";
}

static const double standard_gravity_num = 980665; /* over: 9.80665 m/s2 */
static const double standard_gravity_den = 1e5;

enum err_code
unit_find_kind(const char *words, size_t n, enum unit_kind kind,
	enum unit_gallon gallon, const char *shown, struct unit_found *found,
	struct err *err)
{
	struct unit_found got = {.num = 1, .den = 1};
	bool is_kind;

	TRY(unit_find(words, n, kind, gallon, &got, err));
	is_kind = kind != UNIT_NUMBER &&
		unit_same_dimension(
			got.dimension, unit_dimension_of((int)kind));
	if (!is_kind && is_habit(kind, &got)) {
		got.num *= standard_gravity_num; /* CGPM 1901 */
		got.den *= standard_gravity_den;
	} else if (!is_kind) {
		return err_report(err, ERR_INPUT, "",
			"\"%s\" is %s; this wants %s, such as \"%s\".%s", shown,
			err_say(err, name_of(got.dimension)),
			err_say(err, unit_kind_name(kind)), unit_example(kind),
			err_say(err, hint(kind, &got)));
	}
	if (kind == UNIT_TEMPERATURE_DIFFERENCE)
		got.zero = 0;
	*found = got;
	return ERR_NONE;
}
