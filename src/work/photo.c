/* photo.c - photos of batches into the book and out of it. */
#include "work/photo.h"

#include "book/book.h"
#include "core/date.h"
#include "core/text.h"
#include "work/bytes.h"

#include <string.h>

static bool
is(const char *a, const char *b)
{
	return strcmp(a, b) == 0;
}

/* ---- out ---- */

/* What the photos stand beside. */
struct album {
	const struct book_photo *photo;
	const struct book_file *file;
	const struct book_batch *batch;
	size_t n_photo, n_file, n_batch;
};

static enum err_code
read_album(const struct desk *desk, struct arena *arena, struct album *out,
	struct err *err)
{
	TRY(book_all_photo(desk->book, arena, &out->photo, &out->n_photo, err));
	TRY(book_all_file(desk->book, arena, &out->file, &out->n_file, err));
	return book_all_batch(
		desk->book, arena, &out->batch, &out->n_batch, err);
}

static const struct book_file *
file_of(const struct album *album, int64_t id)
{
	for (size_t i = 0; i < album->n_file; i++)
		if (album->file[i].row.id == id)
			return &album->file[i];
	return NULL;
}

static const char *
batch_of(const struct album *album, int64_t id)
{
	for (size_t i = 0; i < album->n_batch; i++)
		if (album->batch[i].row.id == id)
			return album->batch[i].code;
	return "";
}

static bool
fill(const struct album *album, size_t at, struct work_photo *out)
{
	const struct book_photo *row = &album->photo[at];
	const struct book_file *file = file_of(album, row->file_id);

	if (file == NULL)
		return false;
	*out = (struct work_photo){.code = row->code,
		.batch = batch_of(album, row->batch_id),
		.remark = row->remark,
		.media = file->media,
		.checksum = file->code,
		.name = file->name,
		.bytes = file->bytes,
		.width = row->width,
		.height = row->height};
	date_write(row->added_s, out->added_on);
	return true;
}

static enum err_code
pick(const struct album *album, struct arena *arena, const char *batch,
	const struct work_photo **out, size_t *n, struct err *err)
{
	struct work_photo *got = arena_take(
		arena, album->n_photo + 1, sizeof *got);

	if (got == NULL)
		return err_memory(err);
	*n = 0;
	for (size_t i = 0; i < album->n_photo; i++) {
		if (!fill(album, i, &got[*n]) ||
			(batch != NULL && !is(got[*n].batch, batch)))
			continue;
		++*n;
	}
	*out = got;
	return ERR_NONE;
}

enum err_code
work_photos(const struct desk *desk, struct arena *arena, const char *batch,
	const struct work_photo **out, size_t *n, struct err *err)
{
	struct album album;
	int64_t id;

	if (batch != NULL)
		TRY(book_find_batch(desk->book, batch, &id, err));
	TRY(read_album(desk, arena, &album, err));
	return pick(&album, arena, batch, out, n, err);
}

enum err_code
work_photo_one(const struct desk *desk, struct arena *arena, const char *code,
	struct work_photo *out, struct err *err)
{
	const struct work_photo *all;
	size_t n;

	TRY(work_photos(desk, arena, NULL, &all, &n, err));
	for (size_t i = 0; i < n; i++)
		if (is(all[i].code, code)) {
			*out = all[i];
			return ERR_NONE;
		}
	return err_report(err, ERR_NOT_FOUND, "photo",
		"There is no photo \"%.60s\" in the book.", code);
}

enum err_code
work_photo_bytes(const struct desk *desk, struct arena *arena,
	const struct work_photo *photo, const char **bytes, struct err *err)
{
	struct album album;

	TRY(read_album(desk, arena, &album, err));
	for (size_t i = 0; i < album.n_file; i++)
		if (is(album.file[i].code, photo->checksum))
			return work_file_bytes(
				desk, arena, &album.file[i], bytes, err);
	return err_report(err, ERR_NOT_FOUND, "photo",
		"The bytes of this photo are not in the book.");
}

/* ---- in ---- */

struct adding {
	const struct desk *desk;
	struct arena *arena;
	const struct work_photo_ask *ask;
	struct album album;
	int64_t batch_id, n_ever;
	struct photo photo[WORK_PHOTOS_AT_ONCE];
	struct work_photo_told told;
};

static enum err_code
check_new(const struct adding *a, const char *checksum, const char *name,
	struct err *err)
{
	for (size_t i = 0; i < a->album.n_photo; i++) {
		const struct book_photo *row = &a->album.photo[i];
		const struct book_file *file = file_of(&a->album, row->file_id);

		if (file != NULL && row->batch_id == a->batch_id &&
			is(file->code, checksum))
			return err_report(err, ERR_INPUT, "file",
				"\"%.60s\" is the photo %s already.", name,
				row->code);
	}
	return ERR_NONE;
}

static enum err_code
clean_all(struct adding *a, struct err *err)
{
	const struct work_photo_ask *ask = a->ask;

	if (ask->n_file == 0 || ask->n_file > WORK_PHOTOS_AT_ONCE)
		return err_report(err, ERR_INPUT, "file",
			"Choose a photo, or up to %d.", WORK_PHOTOS_AT_ONCE);
	for (size_t i = 0; i < ask->n_file; i++) {
		char code[BOOK_FILE_CODE + 1];
		struct work_bytes held;
		const struct book_source source = work_bytes_source(&held);
		int64_t bytes;

		TRY(photo_clean(a->arena, ask->file[i].bytes, ask->file[i].n,
			&a->photo[i], err));
		held = (struct work_bytes){a->photo[i].bytes, a->photo[i].n, 0};
		TRY(book_checksum(&source, code, &bytes, err));
		TRY(check_new(a, code, ask->file[i].name, err));
		a->told.had_place |= a->photo[i].had_place;
	}
	return ERR_NONE;
}

static enum err_code
write_one(struct adding *a, size_t i, struct err *err)
{
	struct work_bytes held = {a->photo[i].bytes, a->photo[i].n, 0};
	const struct book_source source = work_bytes_source(&held);
	struct book_file file = {.row = {.typed = ""},
		.name = a->ask->file[i].name,
		.media = a->photo[i].media};
	struct book_photo row = {
		.row = {.typed = a->ask->typed != NULL ? a->ask->typed : ""},
		.code = text_format(a->arena, "%s-%lld", a->ask->batch,
			(long long)++a->n_ever), /* never one used before */
		.batch_id = a->batch_id,
		.added_s = a->desk->now_utc_s,
		.width = a->photo[i].width,
		.height = a->photo[i].height,
		.remark = a->ask->remark != NULL ? a->ask->remark : ""};

	if (row.code == NULL)
		return err_memory(err);
	TRY(book_keep_file(a->desk->book, &file, &source, err));
	row.file_id = file.row.id;
	TRY(book_put_photo(a->desk->book, &row, err));
	a->told.code[a->told.n++] = row.code;
	return ERR_NONE;
}

enum err_code
work_photo_add(const struct desk *desk, struct arena *arena,
	const struct work_photo_ask *ask, struct work_photo_told *out,
	struct err *err)
{
	struct adding *a = arena_take(arena, 1, sizeof *a);
	enum err_code code = ERR_NONE;

	if (a == NULL)
		return err_memory(err);
	*a = (struct adding){.desk = desk, .arena = arena, .ask = ask};
	TRY(book_find_batch(desk->book, ask->batch, &a->batch_id, err));
	TRY(read_album(desk, arena, &a->album, err));
	TRY(clean_all(a, err));
	TRY(book_begin(desk->book, desk->now_utc_s, desk->who, "photo",
		desk->submission, err));
	code = book_photos_ever(desk->book, a->batch_id, &a->n_ever, err);
	for (size_t i = 0; code == ERR_NONE && i < ask->n_file; i++)
		code = write_one(a, i, err);
	const struct tongue spoken = arena_english(arena);
	const char *detail = text_format(arena, "batch %s", ask->batch);

	arena_speak(arena, spoken);
	TRY(work_commit_or_undo(desk, detail, code, err));
	*out = a->told;
	return ERR_NONE;
}
