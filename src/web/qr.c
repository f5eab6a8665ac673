/* qr.c - the modules of a QR symbol, drawn. */
#include "web/qr.h"

#include <qrencode.h>
#include <stdbool.h>

enum {
	QUIET = 4,
	/* In the smallest symbols nearly all that is not data is needed to find
	 * them, so that a spot over 15 in a hundred of one hits more data than
	 * level H can mend; from version 4 on it does not. */
	PAPER_VERSION = 4
};

static enum err_code
encode(const char *words, enum qr_place place, QRcode **code, struct err *err)
{
	bool paper = place == QR_ON_PAPER;

	*code = QRcode_encodeString(words, paper ? PAPER_VERSION : 0,
		paper ? QR_ECLEVEL_H : QR_ECLEVEL_Q, QR_MODE_8, 1);
	if (*code == NULL)
		return err_report(err, ERR_INPUT, "",
			"This is too long for a QR picture.");
	return ERR_NONE;
}

static bool
is_dark(const QRcode *code, int x, int y)
{
	if (x < 0 || y < 0 || x >= code->width || y >= code->width)
		return false;
	return (code->data[y * code->width + x] & 1) != 0;
}

enum err_code
qr_svg(const char *words, enum qr_place place, struct text *svg,
	struct err *err)
{
	QRcode *code = NULL;
	int side;

	TRY(encode(words, place, &code, err));
	side = code->width + 2 * QUIET;
	text_addf(svg,
		"<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"%d\" "
		"height=\"%d\" viewBox=\"0 0 %d %d\"><rect width=\"%d\" "
		"height=\"%d\" fill=\"#fff\"/><path fill=\"#000\" d=\"",
		8 * side, 8 * side, side, side, side, side);
	for (int y = 0; y < code->width; y++)
		for (int x = 0; x < code->width; x++)
			if (is_dark(code, x, y))
				text_addf(svg, "M%d %dh1v1h-1z", x + QUIET,
					y + QUIET);
	text_add(svg, "\"/></svg>\n");
	QRcode_free(code);
	return text_failed(svg) ? err_memory(err) : ERR_NONE;
}

/* Light modules are drawn as full blocks, so that a dark terminal shows it as
 * it is on paper; readers take either. */
enum err_code
qr_terminal(const char *words, struct text *lines, struct err *err)
{
	static const char *const blocks[] = {
		"\xE2\x96\x88", "\xE2\x96\x80", "\xE2\x96\x84", " "};
	QRcode *code = NULL;

	TRY(encode(words, QR_ON_SCREEN, &code, err));
	for (int y = -QUIET; y < code->width + QUIET; y += 2) {
		for (int x = -QUIET; x < code->width + QUIET; x++)
			text_add(lines,
				blocks[2 * is_dark(code, x, y) +
					is_dark(code, x, y + 1)]);
		text_add_char(lines, '\n');
	}
	QRcode_free(code);
	return text_failed(lines) ? err_memory(err) : ERR_NONE;
}
