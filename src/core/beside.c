/* beside.c - US customary figures beside metric ones. */
#include "core/beside.h"

#include "core/text.h"

#include <ctype.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum {
	LEAST_DIGITS = 2,
	MOST_DIGITS = 4,
	NUMBER_BYTES = 24, /* of a number worth looking at */
	JOINED_MOST = 4    /* figures before one unit: "100 x 75 x 700 mm" */
};

struct pair {
	const char *metric, *us, *imperial; /* imperial NULL: the same */
	enum unit_kind kind;
};

/* Longer words before those they begin with. */
static const struct pair pairs[] = {
	{"kg/m3", "lb/ft3", NULL, UNIT_DENSITY},
	{"kg/m2", "lb/ft2", NULL, UNIT_MASS_PER_AREA},
	{"kg", "lb", NULL, UNIT_MASS},
	{"g/L", "lb/ft3", NULL, UNIT_DENSITY},
	{"g", "oz", NULL, UNIT_MASS},
	{"L/min", "US gal/min", "imp gal/min", UNIT_VOLUME_FLOW},
	{"L", "US gal", "imp gal", UNIT_VOLUME},
	{"mL", "US fl oz", "imp fl oz", UNIT_VOLUME},
	{"m3", "yd3", NULL, UNIT_VOLUME},
	{"mm", "in", NULL, UNIT_LENGTH},
	{"cm2", "in2", NULL, UNIT_AREA},
	{"cm", "in", NULL, UNIT_LENGTH},
	{"m2 K/W", "h ft2 F/Btu", NULL, UNIT_RESISTANCE},
	{"m2", "ft2", NULL, UNIT_AREA},
	{"m/s", "ft/s", NULL, UNIT_SPEED},
	{"m", "ft", NULL, UNIT_LENGTH},
	{"N/mm2", "psi", NULL, UNIT_STRESS},
	{"MPa", "psi", NULL, UNIT_STRESS},
	{"kPa", "psf", NULL, UNIT_STRESS},
	{"kN", "lbf", NULL, UNIT_FORCE},
	{"N", "lbf", NULL, UNIT_FORCE},
	{"J", "ft lbf", NULL, UNIT_ENERGY},
	{"W/(m2 K)", "Btu/(h ft2 F)", NULL, UNIT_U_VALUE},
	{"W/(m K)", "Btu in/(h ft2 F)", NULL, UNIT_CONDUCTIVITY},
	{"degC", "degF", NULL, UNIT_TEMPERATURE},
};

enum { N_PAIR = sizeof pairs / sizeof pairs[0] };

static const char *
other_word(const struct pair *pair, enum unit_gallon gallon)
{
	return gallon == UNIT_GALLON_IMPERIAL && pair->imperial != NULL
		? pair->imperial
		: pair->us;
}

static const struct pair *
find_pair(const char *word)
{
	for (size_t i = 0; i < N_PAIR; i++)
		if (strcmp(pairs[i].metric, word) == 0)
			return &pairs[i];
	return NULL;
}

const char *
beside_unit(const char *word, enum unit_gallon gallon)
{
	const struct pair *pair = find_pair(word);

	return pair != NULL ? other_word(pair, gallon) : NULL;
}

/* One metric unit of the other: other = metric * scale + offset. */
struct change {
	double scale, offset;
};

static struct change
change_of(const struct pair *pair, enum unit_gallon gallon)
{
	struct err err = {.code = ERR_NONE};
	double from = NAN, from_zero = 0, to = NAN, to_zero = 0;

	if (unit_factor(pair->metric, pair->kind, gallon, &from, &from_zero,
		    &err) != ERR_NONE ||
		unit_factor(other_word(pair, gallon), pair->kind, gallon, &to,
			&to_zero, &err) != ERR_NONE)
		return (struct change){NAN, NAN};
	return (struct change){from / to, (from_zero - to_zero) / to};
}

/* --- Numbers in a text. --- */

/* Bytes of a plain number, "12", "-0.5"; 0: none begins here. */
static size_t
number_bytes(const char *text)
{
	size_t n = text[0] == '-', digits = strspn(text + n, "0123456789");

	if (digits == 0)
		return 0;
	n += digits;
	if (text[n] == '.' && isdigit((unsigned char)text[n + 1]))
		n += 1 + strspn(text + n + 1, "0123456789");
	return n < NUMBER_BYTES ? n : 0;
}

static double
number_value(const char *text, size_t n)
{
	char own[NUMBER_BYTES];

	memcpy(own, text, n);
	own[n] = '\0';
	return strtod(own, NULL);
}

/* As shown: leading zeros do not count, those at the end do. */
static int
digits_shown(const char *text, size_t n)
{
	int digits = 0;

	for (size_t i = 0; i < n; i++)
		if (isdigit((unsigned char)text[i]) &&
			(digits > 0 || text[i] != '0'))
			digits++;
	return digits < LEAST_DIGITS   ? LEAST_DIGITS
		: digits > MOST_DIGITS ? MOST_DIGITS
				       : digits;
}

/* A temperature keeps its decimals: 20 degC is as open as 68 degF. */
static int
digits_of_reading(double value, const char *text, size_t n)
{
	const char *point = memchr(text, '.', n);
	int decimals = point != NULL ? (int)(text + n - point - 1) : 0;
	double size = fabs(value);

	return (size >= 1 ? (int)floor(log10(size)) + 1 : 1) + decimals;
}

static bool
add_number(struct text *out, struct arena *arena, const char *text, size_t n,
	const struct pair *pair, struct change change, bool is_difference)
{
	double value = number_value(text, n) * change.scale +
		(is_difference ? 0 : change.offset);
	const char *shown = unit_digits(arena, value,
		pair->kind == UNIT_TEMPERATURE
			? digits_of_reading(value, text, n)
			: digits_shown(text, n));

	if (shown != NULL)
		text_add(out, shown);
	return shown != NULL;
}

static bool
is_within_word(const char *text, const char *at)
{
	return at > text &&
		(isalnum((unsigned char)at[-1]) || at[-1] == '.' ||
			at[-1] == '-' || at[-1] == '_');
}

const char *
beside_figures(struct arena *arena, const char *text, const char *word,
	enum unit_gallon gallon)
{
	const struct pair *pair = find_pair(word);
	struct change change;
	struct text out;
	size_t found = 0;

	if (pair == NULL || text == NULL)
		return NULL;
	change = change_of(pair, gallon);
	text_init(&out, arena);
	for (const char *at = text; *at != '\0';) {
		size_t n = is_within_word(text, at) ? 0 : number_bytes(at);
		bool after = at - text >= 4 && strncmp(at - 4, "+/- ", 4) == 0;

		if (n == 0) {
			text_add_char(&out, *at++);
			continue;
		}
		if (!add_number(&out, arena, at, n, pair, change, after))
			return NULL;
		found++;
		at += n;
	}
	return text_failed(&out) || found == 0 ? NULL : out.bytes;
}

/* --- Sentences. --- */

/* The pair whose unit stands here, as a word of its own. */
static const struct pair *
pair_at(const char *text)
{
	for (size_t i = 0; i < N_PAIR; i++) {
		size_t n = strlen(pairs[i].metric);

		if (strncmp(text, pairs[i].metric, n) == 0 &&
			!isalnum((unsigned char)text[n]) && text[n] != '/' &&
			(unsigned char)text[n] < 0x80)
			return &pairs[i];
	}
	return NULL;
}

/* What joins two figures of one unit: its bytes, 0 if nothing does.  "and" does
 * only after "between": "batch 3 and 4 kg" holds one figure. */
static size_t
joint_bytes(const char *text, bool after_between)
{
	static const char *const joints[] = {" to ", " x ", " +/- ", " a "};
	static const char *const pairing[] = {" and ", " y "};

	for (size_t i = 0; i < sizeof joints / sizeof joints[0]; i++)
		if (strncmp(text, joints[i], strlen(joints[i])) == 0)
			return strlen(joints[i]);
	for (size_t i = 0; after_between && i < 2; i++)
		if (strncmp(text, pairing[i], strlen(pairing[i])) == 0)
			return strlen(pairing[i]);
	return 0;
}

static bool
ends_with(const char *text, const char *at, const char *word)
{
	size_t n = strlen(word);

	return (size_t)(at - text) >= n && strncmp(at - n, word, n) == 0;
}

/* Figures that share one unit, from the first number to the end of the unit. */
struct figures {
	const char *number[JOINED_MOST];
	size_t bytes[JOINED_MOST];
	size_t n;
	const char *unit_end;
	const struct pair *pair; /* NULL: no unit of ours follows */
};

static struct figures
figures_at(const char *text, const char *at)
{
	struct figures found = {.n = 0};
	bool between = ends_with(text, at, "between ") ||
		ends_with(text, at, "entre ");

	while (found.n < JOINED_MOST) {
		size_t n = number_bytes(at), joint;

		if (n == 0)
			break;
		found.number[found.n] = at;
		found.bytes[found.n++] = n;
		at += n;
		if (*at == ' ') {
			found.pair = pair_at(at + 1);
			if (found.pair != NULL) {
				found.unit_end = at + 1 +
					strlen(found.pair->metric);
				break;
			}
		}
		joint = joint_bytes(at, between);
		if (joint == 0)
			break;
		at += joint;
	}
	return found;
}

static bool
add_beside(struct text *out, struct arena *arena, const struct figures *found,
	enum unit_gallon gallon)
{
	struct change change = change_of(found->pair, gallon);

	text_add(out, " (");
	for (size_t i = 0; i < found->n; i++) {
		const char *end = i > 0
			? found->number[i - 1] + found->bytes[i - 1]
			: found->number[i];
		bool after = ends_with(end, found->number[i], "+/- ");

		text_add_n(out, end, (size_t)(found->number[i] - end));
		if (!add_number(out, arena, found->number[i], found->bytes[i],
			    found->pair, change, after))
			return false;
	}
	text_addf(out, " %s)", other_word(found->pair, gallon));
	return true;
}

const char *
beside_text(struct arena *arena, const char *text, enum unit_gallon gallon)
{
	struct text out;
	bool added = false;

	text_init(&out, arena);
	for (const char *at = text; *at != '\0';) {
		struct figures found = {.n = 0};

		if (!is_within_word(text, at))
			found = figures_at(text, at);
		if (found.pair == NULL) {
			size_t n = found.n > 0 ? found.bytes[0] : 1;

			text_add_n(&out, at, n);
			at += n;
			continue;
		}
		text_add_n(&out, at, (size_t)(found.unit_end - at));
		if (!add_beside(&out, arena, &found, gallon))
			return NULL;
		at = found.unit_end;
		added = true;
	}
	return text_failed(&out) ? NULL : added ? out.bytes : text;
}
