/* qr.h - QR pictures (ISO/IEC 18004, by libqrencode). */
#ifndef WEB_QR_H
#define WEB_QR_H

#include "core/err.h"
#include "core/text.h"

/* qr_svg(words, svg, err): an SVG, black on white with its quiet zone of four
 * modules, level Q.  qr_terminal(words, lines, err): two modules a character,
 * for a dark or a light terminal.  ERR_INPUT too long for one. */
enum err_code qr_svg(
	const char *words, struct text *svg, struct err *err) MUST_CHECK;
enum err_code qr_terminal(
	const char *words, struct text *lines, struct err *err) MUST_CHECK;

#endif /* WEB_QR_H */
