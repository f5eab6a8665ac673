/* photo.h - a picture file told by its first bytes and cleaned of what it says
 * beside the picture: where and by which device it was taken.
 *
 * Pure.  Nothing is decoded: the file's own structure is walked and the parts
 * that make the picture are kept as they are, so it loses nothing.
 * JPEG: ITU-T T.81, annex B; Exif as in JEITA CP-3451 (its orientation is kept,
 * else phones' pictures would lie on their sides).  PNG: W3C, "Portable Network
 * Graphics", third edition, 5.  WebP: RFC 9649, 2. */
#ifndef CORE_PHOTO_H
#define CORE_PHOTO_H

#include "core/arena.h"
#include "core/err.h"

#include <stdbool.h>
#include <stddef.h>

/* The most that is taken of one picture; a side, and all of it, in pixels. */
enum {
	PHOTO_MIB_MOST = 12,
	PHOTO_BYTES_MOST = PHOTO_MIB_MOST << 20,
	PHOTO_SIDE_MOST = 20000,
	PHOTO_MPIXEL_MOST = 120
};

struct photo {
	const char *media;      /* "image/jpeg", "image/png", "image/webp" */
	const char *suffix;     /* ".jpg", ".png", ".webp" */
	unsigned width, height; /* pixels, as it is shown */
	const char *bytes;      /* cleaned; in the arena */
	size_t n;
	bool had_place; /* it said where it was taken (a phone's GPS) */
};

/* photo_clean(arena, bytes, n, out, err): outputs untouched on failure.
 * ERR_INPUT  "file": none of the three kinds, cut short, of more than
 *            PHOTO_BYTES_MOST, of more pixels than are shown
 * ERR_MEMORY */
enum err_code photo_clean(struct arena *arena, const char *bytes, size_t n,
	struct photo *out, struct err *err) MUST_CHECK;

#endif /* CORE_PHOTO_H */
