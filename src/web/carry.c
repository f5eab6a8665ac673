/* carry.c - a file within a hidden field, "BYTES:BASE64". */
#include "web/carry.h"

#include "core/text.h"

#include <sodium.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <zlib.h>

enum {
	NAME_MOST = 120,
	DIGITS_MOST = 9,
	BASE64 = sodium_base64_VARIANT_ORIGINAL
};

/* Its last part, cut where a letter begins. */
static const char *
bare_name(struct arena *arena, const char *name)
{
	const char *at = name;
	size_t n;

	for (const char *c = name; *c != '\0'; c++)
		if (*c == '/' || *c == '\\')
			at = c + 1;
	n = strlen(at);
	if (n == 0)
		return "log.csv";
	if (n > NAME_MOST)
		for (n = NAME_MOST;
			n > 0 && ((unsigned char)at[n] & 0xC0) == 0x80;)
			n--;
	return text_format(arena, "%.*s", (int)n, at);
}

static enum err_code
take_chosen(const struct web_request *request, const struct web_field *field,
	struct carried *out, struct err *err)
{
	if (field->n == 0)
		return err_report(err, ERR_INPUT, "file",
			"The file \"%.80s\" is empty.", field->file);
	if (field->n > CARRY_MOST)
		return err_report(err, ERR_INPUT, "file",
			"The file has %.1f MB; a page takes %d MB. The command "
			"line takes larger ones.",
			(double)field->n / 1e6, CARRY_MOST >> 20);
	*out = (struct carried){.name = bare_name(request->arena, field->file),
		.bytes = field->value,
		.n = field->n};
	return out->name != NULL ? ERR_NONE : err_memory(err);
}

static enum err_code
not_whole(struct err *err)
{
	return err_report(err, ERR_INPUT, "file",
		"The file did not come through whole. Choose it again.");
}

/* The number of bytes before the colon; 0: that is none. */
static size_t
read_size(const char *packed, const char **rest)
{
	size_t digits = strspn(packed, "0123456789");
	size_t n;

	if (digits == 0 || digits > DIGITS_MOST || packed[digits] != ':')
		return 0;
	n = (size_t)strtoul(packed, NULL, 10);
	*rest = packed + digits + 1;
	return n <= CARRY_MOST ? n : 0;
}

static enum err_code
unpack(struct arena *arena, const char *packed, struct carried *out,
	struct err *err)
{
	const char *rest = "";
	size_t n = read_size(packed, &rest), n_text = strlen(rest), n_small = 0;
	unsigned char *small, *bytes;
	uLongf n_out = (uLongf)n;

	if (n == 0)
		return not_whole(err);
	small = arena_take(arena, n_text / 4 * 3 + 4, 1);
	bytes = arena_take(arena, n + 1, 1);
	if (small == NULL || bytes == NULL)
		return err_memory(err);
	if (sodium_base642bin(small, n_text / 4 * 3 + 4, rest, n_text, NULL,
		    &n_small, NULL, BASE64) != 0 ||
		uncompress(bytes, &n_out, small, (uLong)n_small) != Z_OK ||
		n_out != n)
		return not_whole(err);
	out->bytes = (const char *)bytes;
	out->n = n;
	out->packed = packed;
	return ERR_NONE;
}

enum err_code
carry_read(
	const struct web_request *request, struct carried *out, struct err *err)
{
	const char *packed = web_given(request, "carried");
	const char *name = web_given(request, "carried-name");

	*out = (struct carried){.bytes = NULL};
	for (size_t i = 0; i < request->n_field; i++) {
		const struct web_field *field = &request->field[i];

		if (strcmp(field->name, "file") == 0 && field->file != NULL &&
			field->file[0] != '\0')
			return take_chosen(request, field, out, err);
	}
	if (packed == NULL)
		return ERR_NONE;
	TRY(unpack(request->arena, packed, out, err));
	out->name = bare_name(request->arena, name != NULL ? name : "");
	return out->name != NULL ? ERR_NONE : err_memory(err);
}

static const char *
pack(struct arena *arena, const struct carried *carried)
{
	uLong n = (uLong)carried->n;
	uLongf n_small = compressBound(n);
	unsigned char *small = arena_take(arena, n_small, 1);
	size_t room;
	char *text;
	int digits;

	if (small == NULL ||
		compress2(small, &n_small,
			(const unsigned char *)carried->bytes, n,
			Z_BEST_SPEED) != Z_OK)
		return NULL;
	room = sodium_base64_ENCODED_LEN(n_small, BASE64);
	text = arena_take(arena, DIGITS_MOST + 1 + room, 1);
	if (text == NULL)
		return NULL;
	digits = snprintf(text, DIGITS_MOST + 2, "%zu:", carried->n);
	(void)sodium_bin2base64(text + digits, room, small, n_small, BASE64);
	return text;
}

void
carry_on(struct form *form, const struct carried *carried)
{
	const char *packed = carried->packed != NULL
		? carried->packed
		: pack(form->request->arena, carried);

	if (packed == NULL)
		form->failed = true;
	form->carries = true;
	form_hidden(form, "carried", packed);
	form_hidden(form, "carried-name", carried->name);
}
