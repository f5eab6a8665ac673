/* command_photo.c - photos of batches: added, listed, given back. */
#include "cli/fields.h"
#include "cli/table.h"

#include "work/photo.h"
#include "work/shelf.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

static const struct command_option options[] = {
	{"--remark", "TEXT", "what it shows", false},
	{"--of", "CODE", "a photo of the book, with --out", false},
	{"--out", "FILE", "where it is written to", false}, {0}};

/* ---- added ---- */

static enum err_code
read_file(struct arena *arena, const char *name, struct work_photo_file *to,
	struct err *err)
{
	const size_t room = PHOTO_BYTES_MOST + 1;
	const char *slash = strrchr(name, '/');
	FILE *file = fopen(name, "rb");
	char *bytes;

	if (file == NULL)
		return err_report(err, ERR_NOT_FOUND, "file",
			"\"%.200s\" cannot be opened: %s.", name,
			strerror(errno));
	bytes = arena_take(arena, room, 1);
	*to = (struct work_photo_file){
		.name = slash != NULL ? slash + 1 : name, .bytes = bytes};
	errno = 0;
	if (bytes != NULL)
		to->n = fread(bytes, 1, room, file);
	if (ferror(file) != 0)
		(void)err_report(err, ERR_SYSTEM, "file",
			"\"%.200s\" cannot be read: %s.", name,
			strerror(errno));
	(void)fclose(file);
	return bytes == NULL ? err_memory(err) : err->code;
}

static enum err_code
print_added(const struct invocation *in, const struct work_photo_told *told,
	struct err *err)
{
	struct text text;
	struct jsonout json;

	if (in->json) {
		json_start(in, &text, &json);
		jsonout_key(&json, "photos");
		jsonout_open_array(&json);
		for (size_t i = 0; i < told->n; i++)
			jsonout_string(&json, told->code[i]);
		jsonout_close_array(&json);
		jsonout_key_bool(&json, "had_place", told->had_place);
		return json_finish(&json, err);
	}
	for (size_t i = 0; i < told->n; i++)
		(void)printf("Kept as photo %s.\n", told->code[i]);
	if (told->had_place)
		(void)puts("It said where it was taken; that was left out.");
	return ERR_NONE;
}

static enum err_code
add(const struct invocation *in, const struct desk *desk, struct err *err)
{
	struct work_photo_file file[WORK_PHOTOS_AT_ONCE];
	struct work_photo_ask ask = {.batch = in->word[1],
		.remark = invocation_value(in, "--remark"),
		.file = file,
		.typed = fields_typed(in)};
	struct work_photo_told told;

	if (ask.typed == NULL)
		return err_memory(err);
	for (size_t i = 2; i < in->n_word; i++)
		TRY(read_file(
			in->arena, in->word[i], &file[ask.n_file++], err));
	TRY(work_photo_add(desk, in->arena, &ask, &told, err));
	return print_added(in, &told, err);
}

/* ---- listed, given back ---- */

static void
add_json(struct jsonout *json, const struct work_photo *p)
{
	jsonout_open_object(json);
	jsonout_key_string(json, "photo", p->code);
	jsonout_key_string(json, "batch", p->batch);
	jsonout_key_string(json, "added_on", p->added_on);
	jsonout_key_string(json, "media", p->media);
	jsonout_key_count(json, "width", (uint64_t)p->width);
	jsonout_key_count(json, "height", (uint64_t)p->height);
	jsonout_key_count(json, "bytes", (uint64_t)p->bytes);
	jsonout_key_string(json, "remark", p->remark);
	jsonout_key_string(json, "checksum", p->checksum);
	jsonout_close_object(json);
}

static enum err_code
list(const struct invocation *in, const struct desk *desk, struct err *err)
{
	static const char *const heading[] = {"photo", "batch", "added",
		"pixels", "kB", "remark", "checksum"};
	const char *batch = in->n_word > 1 ? in->word[1] : NULL;
	const struct work_photo *photo;
	struct table table;
	size_t n;

	TRY(work_photos(desk, in->arena, batch, &photo, &n, err));
	table_start(&table, in->arena, heading, COUNT(heading), 0x10);
	for (size_t i = 0; i < n; i++) {
		const struct work_photo *p = &photo[i];
		const char *cell[] = {p->code, p->batch, p->added_on,
			text_format(in->arena, "%lld x %lld",
				(long long)p->width, (long long)p->height),
			text_format(in->arena, "%.1f", (double)p->bytes / 1000),
			p->remark,
			in->csv || in->json
				? p->checksum
				: text_format(in->arena, "%.12s", p->checksum)};

		table_row(&table, cell);
	}
	if (in->json) {
		struct text text;
		struct jsonout json;

		json_start(in, &text, &json);
		jsonout_key(&json, "photos");
		jsonout_open_array(&json);
		for (size_t i = 0; i < n; i++)
			add_json(&json, &photo[i]);
		jsonout_close_array(&json);
		return json_finish(&json, err);
	}
	if (n == 0 && !in->csv) {
		(void)puts("No photo is in the book.");
		return ERR_NONE;
	}
	table_show(in, &table, stdout);
	return ERR_NONE;
}

static enum err_code
give_back(const struct invocation *in, const struct desk *desk, struct err *err)
{
	const char *to = invocation_value(in, "--out");
	struct work_photo photo;
	const char *bytes;
	FILE *file;
	bool is_whole;

	if (to == NULL)
		return err_report(err, ERR_INPUT, "--out",
			"Say where the photo is written to: --out FILE.");
	TRY(work_photo_one(
		desk, in->arena, invocation_value(in, "--of"), &photo, err));
	TRY(work_photo_bytes(desk, in->arena, &photo, &bytes, err));
	file = fopen(to, "wbx");
	if (file == NULL)
		return err_report(err, ERR_SYSTEM, "--out",
			"\"%.200s\" cannot be made: %s.", to, strerror(errno));
	is_whole = fwrite(bytes, 1, (size_t)photo.bytes, file) ==
		(size_t)photo.bytes;
	if (fclose(file) != 0 || !is_whole)
		return err_report(err, ERR_SYSTEM, "--out",
			"\"%.200s\" cannot be written: %s.", to,
			strerror(errno));
	if (!in->json)
		(void)printf(
			"Wrote %s: %lld bytes.\n", to, (long long)photo.bytes);
	return ERR_NONE;
}

static enum err_code
run_photo(const struct invocation *in, struct err *err)
{
	struct desk desk;
	enum err_code code;

	TRY(desk_open(in->word[0], in->n_word > 2, in, &desk, err));
	code = in->n_word > 2                ? add(in, &desk, err)
		: invocation_has(in, "--of") ? give_back(in, &desk, err)
					     : list(in, &desk, err);
	desk_close(&desk);
	return code;
}

const struct command command_photo = {
	.name = "photo",
	.line = "photos of a batch: added, listed, given back",
	.help = "  foamwright photo BOOK BATCH FILE... [--remark TEXT]\n"
		"  foamwright photo BOOK [BATCH]\n"
		"  foamwright photo BOOK --of CODE --out FILE\n\n"
		"JPEG, PNG or WebP of at most 12 MB each. What the file says "
		"beside the picture\n(where and by which device it was taken) "
		"is left out. \"foamwright withdraw BOOK\nphoto CODE\" takes "
		"one out.\n",
	.example = "foamwright photo site.book 07 slurry.jpg --remark \"sinks "
		   "at once\"",
	.least_words = 1,
	.most_words = 2 + WORK_PHOTOS_AT_ONCE,
	.options = options,
	.run = run_photo,
	.csv = true,
	.writes = true,
};
