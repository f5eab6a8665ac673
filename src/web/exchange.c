/* exchange.c - forms read piece by piece. */
#include "web/exchange.h"

#include "web/dispatch.h"

#include <sodium.h>
#include <stdlib.h>
#include <string.h>

enum {
	FIRST_FIELDS = 32,
	FIRST_VALUE = 128,
	NAME_MOST = 128,
	DIGEST_BYTES = EXCHANGE_DIGEST_HEX / 2
};

/* Comparing a large book takes room; a form does not. */
static const size_t arena_most = (size_t)8 << 30;

struct exchange *
exchange_new(const char *target)
{
	struct exchange *exchange = calloc(1, sizeof *exchange);

	if (exchange == NULL)
		return NULL;
	exchange->arena = arena_new(arena_most);
	if (exchange->arena != NULL)
		exchange->target = arena_text(exchange->arena, target);
	if (exchange->target == NULL) {
		exchange_free(exchange);
		return NULL;
	}
	exchange->request.arena = exchange->arena;
	exchange->request.path = "/";
	exchange->request.tail = "";
	exchange->request.language = "en";
	return exchange;
}

void
exchange_free(struct exchange *exchange)
{
	if (exchange == NULL)
		return;
	if (exchange->reader != NULL)
		(void)MHD_destroy_post_processor(exchange->reader);
	answer_give_back(exchange->answer);
	arena_free(exchange->arena);
	free(exchange);
}

void
exchange_refuse(struct exchange *exchange, int status, const char *why)
{
	if (exchange->refused != 0)
		return;
	exchange->refused = status;
	exchange->why = why;
}

void
exchange_read(struct exchange *exchange, const char *bytes, size_t n)
{
	exchange->n_read += n;
	if (exchange->n_read > exchange->n_most)
		exchange_refuse(exchange, MHD_HTTP_CONTENT_TOO_LARGE,
			"What was sent is larger than this page takes.");
	if (exchange->refused != 0 || exchange->reader == NULL)
		return;
	if (MHD_post_process(exchange->reader, bytes, n) != MHD_YES)
		exchange_refuse(exchange, MHD_HTTP_BAD_REQUEST,
			"The form could not be read.");
}

/* Room for one more field. */
static bool
grow_fields(struct exchange *exchange)
{
	size_t room = exchange->room_fields > 0 ? 2 * exchange->room_fields
						: FIRST_FIELDS;
	struct web_field *field;
	size_t *rooms;

	if (exchange->n_field < exchange->room_fields)
		return true;
	field = arena_take(exchange->arena, room, sizeof *field);
	rooms = arena_take(exchange->arena, room, sizeof *rooms);
	if (field == NULL || rooms == NULL)
		return false;
	if (exchange->n_field > 0) {
		memcpy(field, exchange->field,
			exchange->n_field * sizeof *field);
		memcpy(rooms, exchange->room,
			exchange->n_field * sizeof *rooms);
	}
	exchange->field = field;
	exchange->room = rooms;
	exchange->room_fields = room;
	return true;
}

static bool
new_field(struct exchange *exchange, const char *name, const char *file)
{
	struct web_field field = {.name = "", .value = ""};

	if (strlen(name) > NAME_MOST || exchange->n_field == WEB_FIELDS_MOST ||
		!grow_fields(exchange))
		return false;
	field.name = arena_text(exchange->arena, name);
	if (file != NULL)
		field.file = arena_text(exchange->arena, file);
	if (field.name == NULL || (file != NULL && field.file == NULL))
		return false;
	exchange->room[exchange->n_field] = 0;
	exchange->field[exchange->n_field++] = field;
	return true;
}

/* Pieces come in order: each goes behind what is there. */
static bool
add_value(struct exchange *exchange, const char *bytes, size_t n)
{
	struct web_field *field = &exchange->field[exchange->n_field - 1];
	size_t *room = &exchange->room[exchange->n_field - 1];
	char *to;

	if (field->n + n + 1 > *room) {
		size_t more = *room > 0 ? *room : FIRST_VALUE;

		while (more < field->n + n + 1)
			more *= 2;
		to = arena_take(exchange->arena, more, 1);
		if (to == NULL)
			return false;
		memcpy(to, field->value, field->n);
		field->value = to;
		*room = more;
	}
	to = (char *)(uintptr_t)field->value;
	memcpy(to + field->n, bytes, n);
	field->n += n;
	to[field->n] = '\0';
	return true;
}

enum MHD_Result
exchange_field(void *cls, enum MHD_ValueKind kind, const char *name,
	const char *file, const char *type, const char *encoding,
	const char *bytes, uint64_t at, size_t n)
{
	struct exchange *exchange = cls;

	(void)kind;
	(void)type;
	(void)encoding;
	if (name == NULL || exchange->refused != 0)
		return MHD_YES;
	if ((at == 0 && !new_field(exchange, name, file)) ||
		(n > 0 && !add_value(exchange, bytes, n)))
		exchange_refuse(exchange, MHD_HTTP_CONTENT_TOO_LARGE,
			"The form has too many fields, or a name that is too "
			"long.");
	return MHD_YES;
}

void
exchange_end(struct exchange *exchange)
{
	if (exchange->reader != NULL) {
		(void)MHD_destroy_post_processor(exchange->reader);
		exchange->reader = NULL;
	}
	for (size_t i = 0; i < exchange->n_field; i++) {
		const struct web_field *f = &exchange->field[i];

		if (!text_is_utf8(f->name, strlen(f->name)) ||
			(f->file != NULL &&
				!text_is_utf8(f->file, strlen(f->file))) ||
			(f->file == NULL && !text_is_utf8(f->value, f->n)))
			exchange_refuse(exchange, MHD_HTTP_BAD_REQUEST,
				"The form is not UTF-8 text, or holds a NUL.");
	}
	exchange->request.field = exchange->field;
	exchange->request.n_field = exchange->n_field;
}

static bool
is_left_out(const char *name)
{
	return strcmp(name, "token") == 0 || strcmp(name, "key") == 0;
}

static void
add_piece(crypto_generichash_state *state, const char *bytes, size_t n)
{
	uint64_t length = n;

	(void)crypto_generichash_update(
		state, (const void *)&length, sizeof length);
	(void)crypto_generichash_update(state, (const void *)bytes, n);
}

void
exchange_digest(const struct exchange *exchange,
	char hex[static EXCHANGE_DIGEST_HEX + 1])
{
	crypto_generichash_state state;
	unsigned char digest[DIGEST_BYTES];

	(void)crypto_generichash_init(&state, NULL, 0, sizeof digest);
	add_piece(&state, exchange->target, strlen(exchange->target));
	for (size_t i = 0; i < exchange->n_field; i++) {
		const struct web_field *field = &exchange->field[i];

		if (is_left_out(field->name))
			continue;
		add_piece(&state, field->name, strlen(field->name));
		add_piece(&state, field->value, field->n);
	}
	(void)crypto_generichash_final(&state, digest, sizeof digest);
	(void)sodium_bin2hex(
		hex, EXCHANGE_DIGEST_HEX + 1, digest, sizeof digest);
}
