/* canvas.h - the picture being made: marks, lines, words, and its frame of XML.
 *
 * Private to draw.  Everything goes into a text of its own and into the
 * caller's only when the picture is whole (draw_close).  Places are in pixels
 * from the upper left corner. */
#ifndef DRAW_CANVAS_H
#define DRAW_CANVAS_H

#include "draw/ink.h"
#include "draw/number.h"
#include "draw/scale.h"
#include "draw/types.h"

enum { DRAW_ID_MAX = 48, DRAW_LINES_MAX = 4 };

/* Sizes of words and the room about them, px. */
static const double draw_font = 14, draw_small = 12, draw_heading = 16;
static const double draw_margin = 10;
static const double draw_narrow = 520;

enum draw_hatch {
	DRAW_HATCH_NONE,
	DRAW_HATCH_SLANT,
	DRAW_HATCH_DOTS,
	DRAW_HATCH_BUBBLES,
	DRAW_HATCH_GRAIN,
	DRAW_HATCH_CROSS,
	DRAW_HATCH_WARN, /* the other slant, in the ink of alarms */
	DRAW_HATCH_COUNT
};

enum draw_shape {
	DRAW_SHAPE_CIRCLE,
	DRAW_SHAPE_SQUARE,
	DRAW_SHAPE_DIAMOND,
	DRAW_SHAPE_UP,
	DRAW_SHAPE_DOWN,
	DRAW_SHAPE_CROSS,
	DRAW_SHAPE_COUNT
};

enum draw_anchor { DRAW_START, DRAW_MIDDLE, DRAW_END };

struct draw_canvas {
	struct text body;
	struct text *svg; /* the caller's */
	struct draw_size size;
	struct draw_about about;
	double width, y; /* y: how far down the picture goes so far */
	char id[DRAW_ID_MAX];
	bool uses[DRAW_HATCH_COUNT];
	bool has_halo; /* words keep lines behind them at a distance */
};

/* draw_open(canvas, about, size, svg, err): begins a picture and writes its
 * heading; size may be NULL.
 * ERR_INPUT  a width, height or decimal mark out of range */
enum err_code draw_open(struct draw_canvas *canvas,
	const struct draw_about *about, const struct draw_size *size,
	struct text *svg, struct err *err) MUST_CHECK;

/* draw_close(canvas, says, err): ends it at canvas->y and adds it to the
 * caller's text.  says: the description where the caller gave none; NULL:
 * memory ran out. */
enum err_code draw_close(struct draw_canvas *canvas, const char *says,
	struct err *err) MUST_CHECK;

bool draw_is_narrow(const struct draw_canvas *canvas);

/* draw_or(words, english): words, or the English where they are NULL. */
const char *draw_or(const char *words, const char *english);

/* draw_word(canvas, words, english): words, or the English in the tongue of the
 * caller's arena. */
const char *draw_word(const struct draw_canvas *canvas, const char *words,
	const char *english);

/* draw_group(canvas) ... draw_tip parts ... draw_tip_end, marks ...
 * draw_group_end: marks with a title of their own.  Parts are words, figures
 * of n significant digits, or figures kept to the place that an uncertainty of
 * that size deserves (two digits of it). */
void draw_group(struct draw_canvas *canvas);
void draw_tip(struct draw_canvas *canvas, const char *words);
void draw_tip_digits(struct draw_canvas *canvas, double x, int n_digit);
void draw_tip_place(struct draw_canvas *canvas, double x, double uncertainty);
void draw_tip_reading(
	struct draw_canvas *canvas, double low, double high, const char *unit);
void draw_tip_estimate(struct draw_canvas *canvas,
	const struct draw_estimate *estimate, const char *unit);
void draw_tip_end(struct draw_canvas *canvas);
void draw_group_end(struct draw_canvas *canvas);

/* draw_say: one line of words.  draw_say_n: the first n bytes. */
struct draw_type {
	double size_px;
	enum draw_anchor anchor;
	enum draw_ink ink;
	bool is_bold;
};
void draw_say(struct draw_canvas *canvas, double x, double y,
	struct draw_type type, const char *words);
void draw_say_n(struct draw_canvas *canvas, double x, double y,
	struct draw_type type, const struct draw_line *line);
/* draw_say_wrapped: several lines from the baseline y downwards, 1.25 apart;
 * returns how many.  draw_count_lines: how many it would be. */
size_t draw_say_wrapped(struct draw_canvas *canvas, double x, double y,
	struct draw_type type, double width_px, size_t most, const char *words);
size_t draw_count_lines(
	const char *words, struct draw_type type, double width_px, size_t most);
double draw_words_width(const char *words, struct draw_type type);

/* A figure as words, in the arena of the picture; "" once memory ran out. */
const char *draw_figure(struct draw_canvas *canvas, double x, int n_decimal);

/* The same with n significant digits at most, and no idle zeros. */
const char *draw_short(struct draw_canvas *canvas, double x, int n_digit);

/* The pen for lines and areas. */
struct draw_pen {
	enum draw_ink fill, stroke;
	double width;
	const char *dash; /* NULL: whole */
};
void draw_line_at(struct draw_canvas *canvas, double x1, double y1, double x2,
	double y2, struct draw_pen pen);
void draw_box(struct draw_canvas *canvas, double x, double y, double width,
	double height, struct draw_pen pen);
void draw_hatched(struct draw_canvas *canvas, double x, double y, double width,
	double height, enum draw_hatch hatch);
void draw_circle(struct draw_canvas *canvas, double x, double y, double radius,
	struct draw_pen pen);

/* draw_path_begin, draw_path_to ..., draw_path_end(is_closed). */
void draw_path_begin(struct draw_canvas *canvas, struct draw_pen pen);
void draw_path_to(struct draw_canvas *canvas, double x, double y);
void draw_path_end(struct draw_canvas *canvas, bool is_closed);

/* draw_mark: a filled or hollow mark of about the same area each. */
void draw_mark(struct draw_canvas *canvas, enum draw_shape shape, double x,
	double y, double radius, enum draw_ink ink, bool is_hollow);

/* draw_span_h: a horizontal line from x1 to x2 with small ends; an end that is
 * open has an arrow head instead.  draw_span_v the same upright. */
struct draw_ends {
	double from, to; /* px */
	bool open_from, open_to;
};
void draw_span_h(struct draw_canvas *canvas, struct draw_ends ends, double y,
	double half_px, struct draw_pen pen);
void draw_span_v(struct draw_canvas *canvas, struct draw_ends ends, double x,
	double half_px, struct draw_pen pen);

#endif /* DRAW_CANVAS_H */
