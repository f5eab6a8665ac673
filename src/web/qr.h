/* qr.h - QR pictures (ISO/IEC 18004, by libqrencode). */
#ifndef WEB_QR_H
#define WEB_QR_H

#include "core/err.h"
#include "core/text.h"

/* On a screen a small picture is read best (level Q); on paper it is to be read
 * dirty too (level H, version 4 at least). */
enum qr_place { QR_ON_SCREEN, QR_ON_PAPER };

/* qr_svg(words, place, svg, err): an SVG, black on white with its quiet zone of
 * four modules.  qr_terminal(words, lines, err): on a screen, two modules a
 * character, for a dark or a light terminal.  ERR_INPUT too long for one. */
enum err_code qr_svg(const char *words, enum qr_place place, struct text *svg,
	struct err *err) MUST_CHECK;
enum err_code qr_terminal(
	const char *words, struct text *lines, struct err *err) MUST_CHECK;

#endif /* WEB_QR_H */
