/* unit_fold.c - the many marks people use, as ASCII with single spaces. */
#include "core/text.h"
#include "core/unit_priv.h"

#include <string.h>

enum fold_as {
	AS_IS,       /* the ASCII stands for it anywhere */
	AS_POWER,    /* only behind a letter or another raised mark */
	AS_FRACTION, /* a part of one, set apart from the digit before it */
	AS_DEGREE    /* joins the C, F or K that follows */
};

struct fold {
	const char *mark, *ascii;
	enum fold_as as;
};

static const struct fold folds[] = {
	{"\u00B9", "1", AS_POWER},
	{"\u00B2", "2", AS_POWER},
	{"\u00B3", "3", AS_POWER},
	{"\u207B", "-", AS_POWER},
	{"\u00BD", "1/2", AS_FRACTION},
	{"\u2153", "1/3", AS_FRACTION},
	{"\u2154", "2/3", AS_FRACTION},
	{"\u00BC", "1/4", AS_FRACTION},
	{"\u00BE", "3/4", AS_FRACTION},
	{"\u2155", "1/5", AS_FRACTION},
	{"\u2156", "2/5", AS_FRACTION},
	{"\u2157", "3/5", AS_FRACTION},
	{"\u2158", "4/5", AS_FRACTION},
	{"\u2159", "1/6", AS_FRACTION},
	{"\u215A", "5/6", AS_FRACTION},
	{"\u215B", "1/8", AS_FRACTION},
	{"\u215C", "3/8", AS_FRACTION},
	{"\u215D", "5/8", AS_FRACTION},
	{"\u215E", "7/8", AS_FRACTION},
	{"\u00B0", "deg", AS_DEGREE},
	{"\u00BA", "deg", AS_DEGREE},
	{"\u2103", "degC", AS_IS},
	{"\u2109", "degF", AS_IS},
	{"\u2030", "permille", AS_IS},
	{"\u00B5", "u", AS_IS},
	{"\u03BC", "u", AS_IS},
	{"\u00B7", "*", AS_IS}, /* middle dot */
	{"\u22C5", "*", AS_IS}, /* dot operator */
	{"\u2219", "*", AS_IS}, /* bullet operator */
	{"\u00D7", "*", AS_IS}, /* times */
	{"\u2044", "/", AS_IS}, /* fraction slash */
	{"\u2215", "/", AS_IS}, /* division slash */
	{"\u2018", "'", AS_IS},
	{"\u2019", "'", AS_IS},
	{"\u2032", "'", AS_IS}, /* prime */
	{"\u201C", "\"", AS_IS},
	{"\u201D", "\"", AS_IS},
	{"\u2033", "\"", AS_IS}, /* double prime */
	{"\u2010", "-", AS_IS},
	{"\u2011", "-", AS_IS},
	{"\u2013", "-", AS_IS}, /* en dash */
	{"\u2212", "-", AS_IS}, /* minus */
	{"\u00A0", " ", AS_IS}, /* the spaces of typesetters */
	{"\u2002", " ", AS_IS},
	{"\u2003", " ", AS_IS},
	{"\u2007", " ", AS_IS},
	{"\u2009", " ", AS_IS},
	{"\u200A", " ", AS_IS},
	{"\u202F", " ", AS_IS},
};

struct folding {
	char *out;
	size_t n;
	bool after_power, after_fraction;
};

static bool
is_digit(char c)
{
	return c >= '0' && c <= '9';
}

static bool
is_letter(char c)
{
	return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

/* One folded character; two apostrophes are the mark of inches.  False where
 * a digit follows a vulgar fraction: that would run into its denominator. */
static bool
put(struct folding *f, char c)
{
	char before = f->n > 0 ? f->out[f->n - 1] : ' ';

	if (f->after_fraction && is_digit(c))
		return false;
	f->after_fraction = false;
	f->after_power = false;
	if (c == ' ' && before == ' ')
		return true;
	if (c == '\'' && before == '\'' && f->n > 0)
		f->out[f->n - 1] = '"';
	else
		f->out[f->n++] = c;
	return true;
}

static bool
put_all(struct folding *f, const char *ascii)
{
	for (; *ascii != '\0'; ascii++)
		if (!put(f, *ascii))
			return false;
	return true;
}

static bool
put_fold(struct folding *f, const struct fold *fold)
{
	char before = f->n > 0 ? f->out[f->n - 1] : ' ';
	bool is_raised = f->after_power;

	switch (fold->as) {
	case AS_IS:
	case AS_DEGREE:
		return put_all(f, fold->ascii);
	case AS_POWER:
		if (!is_raised && !is_letter(before))
			return false;
		if (!put_all(f, fold->ascii))
			return false;
		f->after_power = true;
		return true;
	case AS_FRACTION:
		if (f->after_fraction || (is_digit(before) && !put(f, ' ')))
			return false;
		if (!put_all(f, fold->ascii))
			return false;
		f->after_fraction = true;
		return true;
	}
	return false;
}

static const struct fold *
find_fold(const char *at)
{
	if ((unsigned char)*at < 0x80)
		return NULL;
	for (size_t i = 0; i < sizeof folds / sizeof folds[0]; i++)
		if (strncmp(at, folds[i].mark, strlen(folds[i].mark)) == 0)
			return &folds[i];
	return NULL;
}

/* Folds one character and gives how many bytes it took, 0 if it cannot. */
static size_t
fold_one(struct folding *f, const char *at)
{
	const struct fold *fold = find_fold(at);
	size_t n;

	if (fold == NULL)
		return (unsigned char)*at < 0x80 && put(f, *at) ? 1 : 0;
	if (!put_fold(f, fold))
		return 0;
	n = strlen(fold->mark);
	if (fold->as == AS_DEGREE) {
		size_t gap = strspn(at + n, " ");

		if (at[n + gap] != '\0' && strchr("CFK", at[n + gap]) != NULL)
			n += gap;
	}
	return n;
}

static enum err_code
check_text(const char *text, size_t n, struct err *err)
{
	if (n > UNIT_TEXT_MAX)
		return err_report(err, ERR_INPUT, "",
			"This quantity is longer than %d bytes, the most that "
			"is read.",
			(int)UNIT_TEXT_MAX);
	if (!text_is_utf8(text, n))
		return err_report(err, ERR_INPUT, "",
			"This quantity is not well-formed UTF-8 text. Save the "
			"file as UTF-8.");
	for (size_t i = 0; i < n; i++)
		if ((unsigned char)text[i] < ' ' || text[i] == 0x7F)
			return err_report(err, ERR_INPUT, "",
				"This quantity holds a control character, such "
				"as a tab or a line end. Type it on one line.");
	if (text[strspn(text, " ")] == '\0')
		return err_report(err, ERR_INPUT, "",
			"The quantity is empty. Write a number and a unit.");
	return ERR_NONE;
}

/* The code point of the well-formed UTF-8 character at `at`. */
static unsigned
code_point(const char *at)
{
	unsigned char lead = (unsigned char)*at;
	unsigned point = lead;

	if (lead >= 0xF0)
		point = lead & 0x07u;
	else if (lead >= 0xE0)
		point = lead & 0x0Fu;
	else if (lead >= 0xC0)
		point = lead & 0x1Fu;
	for (at++; lead >= 0xC0 && ((unsigned char)*at & 0xC0u) == 0x80u; at++)
		point = point << 6 | ((unsigned char)*at & 0x3Fu);
	return point;
}

/* Names the sign by its number: some, such as those that turn the direction of
 * writing, must not reach a screen. */
static enum err_code
refuse_sign(const char *at, struct err *err)
{
	if ((unsigned char)*at < 0x80)
		return err_report(err, ERR_INPUT, "",
			"This quantity cannot be read: \"%c\" is not "
			"understood "
			"where it stands.",
			*at);
	return err_report(err, ERR_INPUT, "",
		"This quantity cannot be read: the sign U+%04X is not "
		"understood where it stands.",
		code_point(at));
}

enum err_code
unit_fold(const char *text, char folded[UNIT_FOLD_ROOM], struct err *err)
{
	struct folding f = {.out = folded};
	size_t n = strnlen(text, UNIT_TEXT_MAX + 1);

	TRY(check_text(text, n, err));
	for (size_t i = strspn(text, " "); i < n;) {
		size_t taken = fold_one(&f, text + i);

		if (taken == 0)
			return refuse_sign(text + i, err);
		i += taken;
	}
	while (f.n > 0 && folded[f.n - 1] == ' ')
		f.n--;
	folded[f.n] = '\0';
	return ERR_NONE;
}
