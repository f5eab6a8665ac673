/* picture.c - small pictures for a glossary. */
#include "draw/picture.h"

#include "draw/canvas.h"

#include <string.h>

static const double picture_width = 160, picture_height = 96;

static const struct draw_pen line_pen = {DRAW_INK_NONE, DRAW_INK_TEXT, 2, NULL};
static const struct draw_pen body_pen = {
	DRAW_INK_SHADE, DRAW_INK_TEXT, 2, NULL};
static const struct draw_pen accent_pen = {
	DRAW_INK_SERIES + 1, DRAW_INK_SERIES + 1, 1, NULL};
static const struct draw_pen accent_line = {
	DRAW_INK_NONE, DRAW_INK_SERIES + 1, 3, NULL};
static const struct draw_pen thin_pen = {
	DRAW_INK_NONE, DRAW_INK_SOFT, 1.5, "4 3"};

/* A path from pairs of x and y. */
static void
draw_pairs(struct draw_canvas *canvas, const double *at, size_t n_pair,
	bool is_closed, struct draw_pen pen)
{
	draw_path_begin(canvas, pen);
	for (size_t i = 0; i < n_pair; i++)
		draw_path_to(canvas, at[2 * i], at[2 * i + 1]);
	draw_path_end(canvas, is_closed);
}

static void
draw_beam(struct draw_canvas *canvas)
{
	static const double left[] = {28, 52, 20, 84, 36, 84};
	static const double right[] = {132, 52, 124, 84, 140, 84};

	draw_box(canvas, 14, 36, 132, 16, body_pen);
	draw_pairs(canvas, left, 3, true, body_pen);
	draw_pairs(canvas, right, 3, true, body_pen);
	draw_line_at(canvas, 80, 30, 80, 62, line_pen);
	for (int i = 0; i < 3; i++)
		draw_box(canvas, 62, 62 + 9 * i, 36, 7, accent_pen);
	draw_line_at(canvas, 74, 32, 86, 32, line_pen);
}

static void
draw_dent(struct draw_canvas *canvas)
{
	static const double block[] = {18, 54, 62, 54, 68, 64, 80, 68, 92, 64,
		98, 54, 142, 54, 142, 88, 18, 88};
	static const double head[] = {70, 42, 80, 50, 90, 42};

	draw_pairs(canvas, block, 9, true, body_pen);
	draw_box(canvas, 74, 6, 12, 24, accent_pen);
	draw_line_at(canvas, 80, 32, 80, 49, line_pen);
	draw_pairs(canvas, head, 3, false, line_pen);
}

static void
draw_cube(struct draw_canvas *canvas)
{
	static const double down[] = {73, 10, 80, 17, 87, 10};
	static const double crack_a[] = {64, 30, 70, 46, 62, 60, 68, 74};
	static const double crack_b[] = {96, 30, 90, 48, 99, 60, 92, 74};

	draw_box(canvas, 52, 28, 56, 48, body_pen);
	draw_box(canvas, 34, 20, 92, 8, accent_pen);
	draw_box(canvas, 34, 76, 92, 8, accent_pen);
	draw_line_at(canvas, 80, 4, 80, 16, line_pen);
	draw_pairs(canvas, down, 3, false, line_pen);
	draw_pairs(canvas, crack_a, 4, false, line_pen);
	draw_pairs(canvas, crack_b, 4, false, line_pen);
}

static void
draw_settling(struct draw_canvas *canvas)
{
	static const double mould[] = {36, 12, 36, 86, 124, 86, 124, 12};
	struct draw_pen fill = {DRAW_INK_SHADE, DRAW_INK_NONE, 0, NULL};

	draw_box(canvas, 36, 38, 88, 48, fill);
	draw_hatched(canvas, 36, 38, 88, 48, DRAW_HATCH_BUBBLES);
	draw_line_at(canvas, 36, 38, 124, 38, line_pen);
	draw_pairs(canvas, mould, 4, false, line_pen);
	draw_line_at(canvas, 36, 18, 124, 18, thin_pen);
	draw_span_v(canvas, (struct draw_ends){18, 38, true, true}, 80, 0,
		accent_line);
}

static void
draw_foam_pot(struct draw_canvas *canvas)
{
	static const double pot[] = {56, 22, 56, 66, 104, 66, 104, 22};
	struct draw_pen bubble = {DRAW_INK_PAPER, DRAW_INK_SERIES, 1.5, NULL};
	static const double at[][3] = {{64, 20, 7}, {78, 15, 8}, {93, 19, 8},
		{66, 36, 7}, {80, 33, 6}, {94, 37, 7}, {70, 52, 7}, {86, 50, 7},
		{97, 56, 5}};

	for (size_t i = 0; i < sizeof(at) / sizeof(at[0]); i++)
		draw_circle(canvas, at[i][0], at[i][1], at[i][2], bubble);
	draw_pairs(canvas, pot, 4, false, line_pen);
	draw_box(canvas, 44, 68, 72, 6, body_pen);
	draw_box(canvas, 36, 76, 88, 14, body_pen);
	draw_box(canvas, 64, 79, 32, 8, accent_pen);
}

static void
draw_mixer(struct draw_canvas *canvas)
{
	static const double tub[] = {34, 30, 46, 88, 114, 88, 126, 30};
	static const double fill[] = {37, 46, 46, 88, 114, 88, 123, 46};
	struct draw_pen shade = {DRAW_INK_SHADE, DRAW_INK_NONE, 0, NULL};

	draw_pairs(canvas, fill, 4, true, shade);
	draw_line_at(canvas, 37, 46, 123, 46, line_pen);
	draw_pairs(canvas, tub, 4, false, line_pen);
	draw_box(canvas, 68, 4, 24, 14, accent_pen);
	draw_line_at(canvas, 80, 18, 80, 78, accent_line);
	draw_line_at(canvas, 62, 70, 98, 82, accent_line);
	draw_line_at(canvas, 62, 82, 98, 70, accent_line);
}

static void
draw_lap(struct draw_canvas *canvas)
{
	struct draw_pen first = {DRAW_INK_NONE, DRAW_INK_SERIES, 2, NULL};
	struct draw_pen second = {DRAW_INK_NONE, DRAW_INK_SERIES + 1, 2, "6 2"};

	for (int i = 0; i < 6; i++) {
		draw_line_at(canvas, 12 + 16 * i, 12, 12 + 16 * i, 72, first);
		draw_line_at(canvas, 68 + 16 * i, 18, 68 + 16 * i, 78, second);
	}
	for (int i = 0; i < 4; i++) {
		draw_line_at(canvas, 8, 18 + 16 * i, 96, 18 + 16 * i, first);
		draw_line_at(canvas, 64, 24 + 16 * i, 152, 24 + 16 * i, second);
	}
	draw_span_h(canvas, (struct draw_ends){64, 96, true, true}, 88, 0,
		line_pen);
}

static void
draw_layers(struct draw_canvas *canvas)
{
	draw_box(canvas, 34, 8, 12, 80, body_pen);
	draw_hatched(canvas, 34, 8, 12, 80, DRAW_HATCH_DOTS);
	draw_box(canvas, 46, 8, 66, 80, body_pen);
	draw_hatched(canvas, 46, 8, 66, 80, DRAW_HATCH_BUBBLES);
	draw_box(canvas, 112, 8, 16, 80, body_pen);
	draw_hatched(canvas, 112, 8, 16, 80, DRAW_HATCH_SLANT);
}

static void
draw_interval_picture(struct draw_canvas *canvas)
{
	struct draw_pen thick = {DRAW_INK_NONE, DRAW_INK_SERIES, 4, NULL};

	draw_line_at(canvas, 12, 76, 148, 76, line_pen);
	for (int i = 0; i < 6; i++)
		draw_line_at(
			canvas, 20 + 24 * i, 70, 20 + 24 * i, 82, line_pen);
	draw_span_h(canvas, (struct draw_ends){40, 124, false, false}, 40, 10,
		thick);
	draw_mark(
		canvas, DRAW_SHAPE_DIAMOND, 76, 40, 10, DRAW_INK_SERIES, false);
}

static void
draw_ratio_picture(struct draw_canvas *canvas)
{
	draw_box(canvas, 40, 48, 32, 36, body_pen);
	draw_box(canvas, 92, 30, 32, 54, accent_pen);
	draw_line_at(canvas, 24, 84, 140, 84, line_pen);
	draw_line_at(canvas, 24, 48, 140, 48, thin_pen);
}

static void
draw_drift(struct draw_canvas *canvas)
{
	static const double at[] = {16, 60, 30, 66, 44, 56, 58, 64, 72, 58, 86,
		50, 100, 44, 114, 34, 128, 28, 142, 18};

	draw_box(canvas, 8, 46, 144, 30,
		(struct draw_pen){DRAW_INK_SHADE, DRAW_INK_NONE, 0, NULL});
	draw_line_at(canvas, 8, 61, 152, 61, thin_pen);
	draw_pairs(canvas, at, 10, false, line_pen);
	for (size_t i = 0; i < 10; i++) {
		bool is_out = at[2 * i + 1] < 46;

		draw_mark(canvas,
			is_out ? DRAW_SHAPE_SQUARE : DRAW_SHAPE_CIRCLE,
			at[2 * i], at[2 * i + 1], is_out ? 5 : 4,
			is_out ? DRAW_INK_WARN : DRAW_INK_TEXT, false);
	}
}

/* Word, what a screen reader hears, and who draws it; in the order of
 * DRAW_PICTURE_LIST. */
#define PICTURE_AS_ROW(kind, word, says) [kind] = {word, says},
static const struct {
	const char *word, *says;
} picture[DRAW_PICTURE_COUNT] = {DRAW_PICTURE_LIST(PICTURE_AS_ROW)};
#undef PICTURE_AS_ROW

const char *
draw_picture_word(enum draw_picture_kind kind)
{
	return picture[kind].word;
}

bool
draw_picture_find(const char *word, enum draw_picture_kind *kind)
{
	for (int i = 0; i < DRAW_PICTURE_COUNT; i++)
		if (strcmp(picture[i].word, word) == 0) {
			*kind = (enum draw_picture_kind)i;
			return true;
		}
	return false;
}

static void
draw_one(struct draw_canvas *canvas, enum draw_picture_kind kind)
{
	switch (kind) {
	case DRAW_PICTURE_BEAM:
		draw_beam(canvas);
		break;
	case DRAW_PICTURE_DENT:
		draw_dent(canvas);
		break;
	case DRAW_PICTURE_CUBE:
		draw_cube(canvas);
		break;
	case DRAW_PICTURE_SETTLING:
		draw_settling(canvas);
		break;
	case DRAW_PICTURE_FOAM_POT:
		draw_foam_pot(canvas);
		break;
	case DRAW_PICTURE_MIXER:
		draw_mixer(canvas);
		break;
	case DRAW_PICTURE_LAP:
		draw_lap(canvas);
		break;
	case DRAW_PICTURE_WALL:
		draw_layers(canvas);
		break;
	case DRAW_PICTURE_INTERVAL:
		draw_interval_picture(canvas);
		break;
	case DRAW_PICTURE_RATIO:
		draw_ratio_picture(canvas);
		break;
	case DRAW_PICTURE_DRIFT:
		draw_drift(canvas);
		break;
	}
}

enum err_code
draw_picture(enum draw_picture_kind kind, const struct draw_about *about,
	enum draw_theme theme, struct text *svg, struct err *err)
{
	struct draw_about usual = {
		picture[kind].word, picture[kind].word, picture[kind].says};
	struct draw_about untitled = about != NULL ? *about : usual;
	struct draw_size size = {.theme = theme};
	struct draw_canvas canvas;

	untitled.title = NULL; /* read out, not drawn */
	TRY(draw_open(&canvas, &untitled, &size, svg, err));
	canvas.about.title = about != NULL ? about->title : usual.title;
	canvas.width = picture_width;
	draw_one(&canvas, kind);
	canvas.y = picture_height - draw_margin;
	return draw_close(&canvas, picture[kind].says, err);
}
