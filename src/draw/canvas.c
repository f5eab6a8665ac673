/* canvas.c - the picture being made: its frame of XML, words and titles. */
#include "draw/canvas.h"

#include "draw/number.h"

#include "core/arena.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const double width_usual = 720, width_least = 240, width_most = 2000;
static const double height_least = 120, height_most = 4000;
static const double line_spacing = 1.25;
/* Bold DejaVu Sans over the plain one, about. */
static const double bold_wider = 1.12;

static enum err_code
check_size(const struct draw_size *size, struct err *err)
{
	if (size->width_px != 0 &&
		!(size->width_px >= width_least &&
			size->width_px <= width_most))
		return err_report(err, ERR_INPUT, "width_px",
			"A picture can be 240 to 2000 px wide, not %g.",
			size->width_px);
	if (size->height_px != 0 &&
		!(size->height_px >= height_least &&
			size->height_px <= height_most))
		return err_report(err, ERR_INPUT, "height_px",
			"A picture can be 120 to 4000 px high, not %g.",
			size->height_px);
	if (strchr(".,", size->decimal_mark) == NULL)
		return err_report(err, ERR_INPUT, "decimal_mark",
			"The decimal mark of a picture is a point or a comma.");
	return ERR_NONE;
}

/* Keeps of an id what needs no escape anywhere. */
static void
clean_id(const char *from, char id[DRAW_ID_MAX])
{
	size_t n = 0;

	for (; from != NULL && *from != '\0' && n + 1 < DRAW_ID_MAX; from++)
		if ((*from >= 'a' && *from <= 'z') ||
			(*from >= 'A' && *from <= 'Z') ||
			(n > 0 &&
				((*from >= '0' && *from <= '9') ||
					*from == '-' || *from == '_')))
			id[n++] = *from;
	id[n] = '\0';
	if (n == 0)
		snprintf(id, DRAW_ID_MAX, "chart");
}

enum err_code
draw_open(struct draw_canvas *canvas, const struct draw_about *about,
	const struct draw_size *size, struct text *svg, struct err *err)
{
	static const struct draw_size usual = {0};
	struct draw_type heading = {
		draw_heading, DRAW_START, DRAW_INK_TEXT, true};

	*canvas = (struct draw_canvas){.svg = svg, .about = *about};
	canvas->size = size != NULL ? *size : usual;
	TRY(check_size(&canvas->size, err));
	if (canvas->size.decimal_mark == 0)
		canvas->size.decimal_mark = '.';
	canvas->width = canvas->size.width_px > 0 ? canvas->size.width_px
						  : width_usual;
	clean_id(about->id, canvas->id);
	text_init(&canvas->body, svg->arena);
	canvas->y = draw_margin;
	if (about->title != NULL && about->title[0] != '\0') {
		size_t n = draw_say_wrapped(canvas, draw_margin,
			canvas->y + draw_heading, heading,
			canvas->width - 2 * draw_margin, 3, about->title);

		canvas->y += (double)n * draw_heading * line_spacing + 6;
	}
	return ERR_NONE;
}

bool
draw_is_narrow(const struct draw_canvas *canvas)
{
	return canvas->width < draw_narrow;
}

const char *
draw_or(const char *words, const char *english)
{
	return words != NULL ? words : english;
}

const char *
draw_word(const struct draw_canvas *canvas, const char *words,
	const char *english)
{
	return words != NULL ? words : arena_say(canvas->body.arena, english);
}

static void
add_pattern(struct draw_canvas *canvas, struct text *out, enum draw_hatch hatch)
{
	enum draw_theme theme = canvas->size.theme;
	enum draw_ink ink = hatch == DRAW_HATCH_WARN ? DRAW_INK_WARN
						     : DRAW_INK_SOFT;
	static const struct {
		const char *size, *shape; /* shape: up to its inks */
		bool is_filled;
	} pattern[DRAW_HATCH_COUNT] = {
		[DRAW_HATCH_SLANT] = {"width=\"8\" height=\"8\"",
			"<path d=\"M-2 2L2 -2M0 8L8 0M6 10L10 6\"", false},
		[DRAW_HATCH_DOTS] = {"width=\"8\" height=\"8\"",
			"<path d=\"M1 1h1.6v1.6h-1.6zM5 5h1.6v1.6h-1.6z\"",
			true},
		[DRAW_HATCH_BUBBLES] = {"width=\"14\" height=\"14\"",
			"<path d=\"M1 4a2.5 2.5 0 1 0 5 0a2.5 2.5 0 1 0 -5 0"
			"M8 10a2 2 0 1 0 4 0a2 2 0 1 0 -4 0"
			"M9 3a1 1 0 1 0 2 0a1 1 0 1 0 -2 0"
			"M3 11a1 1 0 1 0 2 0a1 1 0 1 0 -2 0\"",
			false},
		[DRAW_HATCH_GRAIN] = {"width=\"10\" height=\"24\"",
			"<path d=\"M2 0v24M7 0c2 8 -2 16 0 24\"", false},
		[DRAW_HATCH_CROSS] = {"width=\"8\" height=\"8\"",
			"<path d=\"M0 0L8 8M8 0L0 8\"", false},
		[DRAW_HATCH_WARN] = {"width=\"8\" height=\"8\"",
			"<path d=\"M-2 6L2 10M0 0L8 8M6 -2L10 2\"", false},
	};

	text_addf(out,
		"<pattern id=\"%s-h%d\" %s patternUnits=\"userSpaceOnUse\">",
		canvas->id, (int)hatch, pattern[hatch].size);
	text_add(out, pattern[hatch].shape);
	if (pattern[hatch].is_filled)
		draw_ink_both(out, ink, DRAW_INK_NONE, theme);
	else
		draw_ink_both(out, DRAW_INK_NONE, ink, theme);
	text_add(out, " stroke-width=\"1\"/></pattern>\n");
}

static void
add_patterns(struct draw_canvas *canvas, struct text *out)
{
	bool any = false;

	for (int hatch = 1; hatch < DRAW_HATCH_COUNT; hatch++)
		any = any || canvas->uses[hatch];
	if (!any)
		return;
	text_add(out, "<defs>\n");
	for (int hatch = 1; hatch < DRAW_HATCH_COUNT; hatch++)
		if (canvas->uses[hatch])
			add_pattern(canvas, out, (enum draw_hatch)hatch);
	text_add(out, "</defs>\n");
}

static void
add_words(struct text *out, const char *words)
{
	draw_add_escaped(out, words, strlen(words));
}

/* Everything above the marks. */
static void
add_head(struct draw_canvas *canvas, struct text *out, double height,
	const char *says)
{
	const char *id = canvas->id;

	text_add(out, "<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\"");
	text_addf(out, " aria-labelledby=\"%s-title %s-desc\" viewBox=\"0 0 ",
		id, id);
	draw_add_px(out, canvas->width);
	text_add_char(out, ' ');
	draw_add_px(out, height);
	text_add(out, "\" width=\"");
	draw_add_px(out, canvas->width);
	text_add(out, "\" height=\"");
	draw_add_px(out, height);
	text_add(out, "\" font-family=\"DejaVu Sans, Verdana, sans-serif\">\n");
	text_addf(out, "<title id=\"%s-title\">", id);
	add_words(out, draw_or(canvas->about.title, ""));
	text_addf(out, "</title>\n<desc id=\"%s-desc\">", id);
	add_words(out, draw_or(canvas->about.description, draw_or(says, "")));
	text_add(out, "</desc>\n");
	draw_ink_style(out, canvas->size.theme);
	add_patterns(canvas, out);
	text_add(out, "<rect width=\"100%\" height=\"100%\"");
	draw_ink_both(out, DRAW_INK_PAPER, DRAW_INK_NONE, canvas->size.theme);
	text_add(out, "/>\n");
}

enum err_code
draw_close(struct draw_canvas *canvas, const char *says, struct err *err)
{
	struct text *svg = canvas->svg;
	double height = ceil(canvas->y + draw_margin);
	struct text head;

	text_init(&head, svg->arena);
	add_head(canvas, &head, height, says);
	if (says == NULL || text_failed(&canvas->body) || text_failed(&head) ||
		text_failed(svg))
		return err_memory(err);
	text_add_n(&head, canvas->body.bytes, canvas->body.n);
	text_add(&head, "</svg>\n");
	if (text_failed(&head))
		return err_memory(err);
	text_add_n(svg, head.bytes, head.n);
	return text_failed(svg) ? err_memory(err) : ERR_NONE;
}

void
draw_group(struct draw_canvas *canvas)
{
	text_add(&canvas->body, "<g><title>");
}

void
draw_tip(struct draw_canvas *canvas, const char *words)
{
	add_words(&canvas->body, draw_or(words, ""));
}

void
draw_tip_digits(struct draw_canvas *canvas, double x, int n_digit)
{
	draw_add_fixed(&canvas->body, x, draw_decimals_of(x, n_digit),
		canvas->size.decimal_mark);
}

void
draw_tip_place(struct draw_canvas *canvas, double x, double uncertainty)
{
	int n_decimal = uncertainty > 0 ? draw_decimals_of(uncertainty, 2)
					: draw_decimals_of(x, 4);

	draw_add_fixed(&canvas->body, x, n_decimal, canvas->size.decimal_mark);
}

static void
tip_unit(struct draw_canvas *canvas, const char *unit)
{
	if (unit == NULL || unit[0] == '\0')
		return;
	draw_tip(canvas, " ");
	draw_tip(canvas, unit);
}

void
draw_tip_reading(
	struct draw_canvas *canvas, double low, double high, const char *unit)
{
	if (draw_is_open_above(high)) {
		draw_tip(canvas, "\xE2\x89\xA5 "); /* at least */
		draw_tip_digits(canvas, low, 3);
	} else if (draw_is_open_below(low, high)) {
		draw_tip(canvas, "< ");
		draw_tip_digits(canvas, high, 3);
	} else if (low < high) {
		draw_tip_digits(canvas, low, 3);
		draw_tip(canvas, " \xE2\x80\x93 "); /* to */
		draw_tip_digits(canvas, high, 3);
	} else {
		draw_tip_digits(canvas, low, 3);
	}
	tip_unit(canvas, unit);
}

void
draw_tip_estimate(struct draw_canvas *canvas,
	const struct draw_estimate *estimate, const char *unit)
{
	double half = (estimate->high - estimate->low) / 2;

	draw_tip_place(canvas, estimate->middle, half);
	tip_unit(canvas, unit);
	draw_tip(canvas, " (");
	draw_tip_place(canvas, estimate->low, half);
	draw_tip(canvas, " \xE2\x80\x93 ");
	draw_tip_place(canvas, estimate->high, half);
	draw_tip(canvas, ")");
}

void
draw_tip_end(struct draw_canvas *canvas)
{
	text_add(&canvas->body, "</title>");
}

void
draw_group_end(struct draw_canvas *canvas)
{
	text_add(&canvas->body, "</g>\n");
}

void
draw_say_n(struct draw_canvas *canvas, double x, double y,
	struct draw_type type, const struct draw_line *line)
{
	static const char *const anchor[] = {
		"", " text-anchor=\"middle\"", " text-anchor=\"end\""};
	struct text *body = &canvas->body;

	text_add(body, "<text x=\"");
	draw_add_px(body, x);
	text_add(body, "\" y=\"");
	draw_add_px(body, y);
	text_add(body, "\" font-size=\"");
	draw_add_px(body, type.size_px);
	text_add(body, "\"");
	text_add(body, anchor[type.anchor]);
	if (type.is_bold)
		text_add(body, " font-weight=\"bold\"");
	draw_ink_both(body, type.ink,
		canvas->has_halo ? DRAW_INK_PAPER : DRAW_INK_NONE,
		canvas->size.theme);
	if (canvas->has_halo)
		text_add(body, " stroke-width=\"3\" paint-order=\"stroke\"");
	text_add(body, ">");
	draw_add_escaped(body, line->start, line->n);
	if (line->is_cut)
		text_add(body, "\xE2\x80\xA6");
	text_add(body, "</text>\n");
}

void
draw_say(struct draw_canvas *canvas, double x, double y, struct draw_type type,
	const char *words)
{
	struct draw_line line = {
		draw_or(words, ""), strlen(draw_or(words, "")), false};

	if (line.n > 0)
		draw_say_n(canvas, x, y, type, &line);
}

/* Bold words are wider: as if they had less room. */
static double
room(struct draw_type type, double width_px)
{
	return type.is_bold ? width_px / bold_wider : width_px;
}

size_t
draw_say_wrapped(struct draw_canvas *canvas, double x, double y,
	struct draw_type type, double width_px, size_t most, const char *words)
{
	struct draw_line line[DRAW_LINES_MAX];
	size_t n;

	if (most > DRAW_LINES_MAX)
		most = DRAW_LINES_MAX;
	n = draw_wrap(words, type.size_px, room(type, width_px), line, most);
	for (size_t i = 0; i < n; i++)
		draw_say_n(canvas, x,
			y + (double)i * type.size_px * line_spacing, type,
			&line[i]);
	return n;
}

size_t
draw_count_lines(
	const char *words, struct draw_type type, double width_px, size_t most)
{
	struct draw_line line[DRAW_LINES_MAX];

	return draw_wrap(words, type.size_px, room(type, width_px), line,
		most > DRAW_LINES_MAX ? DRAW_LINES_MAX : most);
}

double
draw_words_width(const char *words, struct draw_type type)
{
	words = draw_or(words, "");
	return draw_text_width(words, strlen(words), type.size_px) *
		(type.is_bold ? bold_wider : 1);
}

const char *
draw_figure(struct draw_canvas *canvas, double x, int n_decimal)
{
	struct text text;

	text_init(&text, canvas->body.arena);
	draw_add_fixed(&text, x, n_decimal, canvas->size.decimal_mark);
	if (text_failed(&text)) {
		canvas->body.failed = true;
		return "";
	}
	return text.bytes;
}

const char *
draw_short(struct draw_canvas *canvas, double x, int n_digit)
{
	int n_decimal = draw_decimals_of(x, n_digit);
	double unit = 1;

	for (int i = 0; i < n_decimal; i++)
		unit *= 10;
	while (n_decimal > 0 && fmod(round(fabs(x) * unit), 10) == 0) {
		unit /= 10;
		n_decimal--;
	}
	return draw_figure(canvas, x, n_decimal);
}
