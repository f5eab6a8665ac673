/* attachment.h - the name under which a file is taken away. */
#ifndef WEB_ATTACHMENT_H
#define WEB_ATTACHMENT_H

#include "core/arena.h"

/* web_attachment(arena, name):
 * The header Content-Disposition (RFC 6266) for a file that came as `name`: its
 * last part after / or \, cut to 100 bytes, with _ for whatever is no letter,
 * digit, point, hyphen or underscore, and for points in front.  A name of other
 * letters that is good UTF-8 stands beside it as filename* (RFC 8187) without
 * what steers a line or turns its direction.  NULL: no memory. */
const char *web_attachment(struct arena *arena, const char *name);

#endif /* WEB_ATTACHMENT_H */
