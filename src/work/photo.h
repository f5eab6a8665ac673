/* photo.h - photos of batches: added, listed, given back.  They are taken out
 * by work_withdraw, kind "photo". */
#ifndef WORK_PHOTO_H
#define WORK_PHOTO_H

#include "core/arena.h"
#include "core/date.h"
#include "core/photo.h"
#include "work/desk.h"

#include <stddef.h>

enum { WORK_PHOTOS_AT_ONCE = 16 };

struct work_photo_file {
	const char *name; /* as it was called; only told */
	const char *bytes;
	size_t n;
};

struct work_photo_ask {
	const char *batch, *remark; /* remark NULL: none */
	const struct work_photo_file *file;
	size_t n_file;
	const char *typed; /* as in the record */
};

struct work_photo_told {
	const char *code[WORK_PHOTOS_AT_ONCE]; /* "07-1" */
	size_t n;
	bool had_place; /* one said where it was taken; that was left out */
};

/* work_photo_add(desk, arena, ask, out, err):
 * All of them or none.  What they say beside the picture is not kept
 * (core/photo.h).
 * ERR_NOT_FOUND batch;  ERR_INPUT "file" no picture, too large, cut short, the
 * batch has it already; none or too many;  what the book reports */
enum err_code work_photo_add(const struct desk *desk, struct arena *arena,
	const struct work_photo_ask *ask, struct work_photo_told *out,
	struct err *err) MUST_CHECK;

struct work_photo {
	const char *code, *batch, *remark;
	const char *media, *checksum, *name;
	char added_on[DATE_TEXT_MAX]; /* a moment, UTC */
	int64_t bytes, width, height;
};

/* work_photos(desk, arena, batch, out, n, err): of one batch, or of all where
 * batch is NULL, in the order in which they came.  ERR_NOT_FOUND batch */
enum err_code work_photos(const struct desk *desk, struct arena *arena,
	const char *batch, const struct work_photo **out, size_t *n,
	struct err *err) MUST_CHECK;

/* work_photo_one(desk, arena, code, out, err): ERR_NOT_FOUND
 * work_photo_bytes(desk, arena, photo, bytes, err): photo->bytes of them.
 * ERR_DAMAGED they are not those that were kept */
enum err_code work_photo_one(const struct desk *desk, struct arena *arena,
	const char *code, struct work_photo *out, struct err *err) MUST_CHECK;
enum err_code work_photo_bytes(const struct desk *desk, struct arena *arena,
	const struct work_photo *photo, const char **bytes,
	struct err *err) MUST_CHECK;

#endif /* WORK_PHOTO_H */
