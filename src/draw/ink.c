/* ink.c - the colours of a picture and their names in its style. */
#include "draw/ink.h"

struct shade {
	const char *light, *dark;
};

static const struct shade shade[DRAW_INK_COUNT] = {
	[DRAW_INK_NONE] = {"none", "none"},
	[DRAW_INK_PAPER] = {"#ffffff", "#16191c"},
	[DRAW_INK_TEXT] = {"#1c2126", "#eceae4"},
	[DRAW_INK_SOFT] = {"#4a525a", "#b9bdc0"},
	[DRAW_INK_GRID] = {"#d5d3cc", "#383d42"},
	[DRAW_INK_SHADE] = {"#e3ebf0", "#26323a"},
	[DRAW_INK_WARN] = {"#8f3200", "#ffb27a"},
	[DRAW_INK_WARN_SHADE] = {"#fdebdd", "#3a2818"},
	[DRAW_INK_SERIES] = {"#00609c", "#6cc0f0"},
	[DRAW_INK_SERIES + 1] = {"#b34700", "#f5975c"},
	[DRAW_INK_SERIES + 2] = {"#00704f", "#4fd0a5"},
	[DRAW_INK_SERIES + 3] = {"#8e3f7a", "#e6a0cd"},
	[DRAW_INK_SERIES + 4] = {"#6b5a00", "#e0cc5c"},
	[DRAW_INK_SERIES + 5] = {"#1c2126", "#eceae4"},
};

void
draw_ink_both(struct text *text, enum draw_ink fill, enum draw_ink stroke,
	enum draw_theme theme)
{
	bool dark = theme == DRAW_THEME_DARK;

	if (theme == DRAW_THEME_AUTO)
		text_addf(text, " class=\"f%d s%d\"", (int)fill, (int)stroke);
	text_add(text, " fill=\"");
	text_add(text, dark ? shade[fill].dark : shade[fill].light);
	text_add(text, "\"");
	if (stroke == DRAW_INK_NONE)
		return;
	text_add(text, " stroke=\"");
	text_add(text, dark ? shade[stroke].dark : shade[stroke].light);
	text_add(text, "\"");
}

void
draw_ink_style(struct text *text, enum draw_theme theme)
{
	if (theme != DRAW_THEME_AUTO)
		return;
	text_add(text, "<style>@media screen and (prefers-color-scheme:dark){");
	for (int ink = DRAW_INK_PAPER; ink < DRAW_INK_COUNT; ink++)
		text_addf(text, ".f%d{fill:%s}.s%d{stroke:%s}", ink,
			shade[ink].dark, ink, shade[ink].dark);
	text_add(text, "}</style>\n");
}

enum draw_ink
draw_ink_series(size_t i)
{
	return (enum draw_ink)(DRAW_INK_SERIES + (int)(i % 6));
}
