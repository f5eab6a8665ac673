/* json.c - JSON out, in the order it is written. */
#include "core/json.h"

#include <inttypes.h>
#include <math.h>
#include <string.h>

void
json_init(struct json *json, struct text *text)
{
	*json = (struct json){.text = text};
}

/* The comma before an item that is not the first of its container. */
static void
begin_item(struct json *json)
{
	if (json->after_key) {
		json->after_key = false;
		return;
	}
	if (json->has_item[json->depth])
		text_add(json->text, ", ");
	json->has_item[json->depth] = true;
}

static void
open_container(struct json *json, char mark)
{
	begin_item(json);
	text_add_char(json->text, mark);
	if (json->depth + 1 >= JSON_DEPTH_MAX) {
		json->failed = true;
		return;
	}
	json->depth++;
	json->has_item[json->depth] = false;
}

static void
close_container(struct json *json, char mark)
{
	text_add_char(json->text, mark);
	if (json->depth > 0)
		json->depth--;
}

void
json_open_object(struct json *json)
{
	open_container(json, '{');
}

void
json_close_object(struct json *json)
{
	close_container(json, '}');
}

void
json_open_array(struct json *json)
{
	open_container(json, '[');
}

void
json_close_array(struct json *json)
{
	close_container(json, ']');
}

static void
write_quoted(struct json *json, const char *value)
{
	struct text *text = json->text;
	size_t n = strlen(value);

	text_add_char(text, '"');
	for (size_t i = 0; i < n; i++) {
		unsigned char c = (unsigned char)value[i];
		size_t length = 1;

		if (c == '"' || c == '\\')
			text_addf(text, "\\%c", c);
		else if (c < 0x20 || c == 0x7F)
			text_addf(text, "\\u%04x", (unsigned)c);
		else if (c < 0x80)
			text_add_char(text, (char)c);
		else {
			while (i + length < n &&
				((unsigned char)value[i + length] & 0xC0u) ==
					0x80u)
				length++;
			if (text_is_utf8(value + i, length))
				text_add_n(text, value + i, length);
			else
				text_add(text, "\xEF\xBF\xBD");
			i += length - 1;
		}
	}
	text_add_char(text, '"');
}

void
json_key(struct json *json, const char *key)
{
	begin_item(json);
	write_quoted(json, key);
	text_add(json->text, ": ");
	json->after_key = true;
}

void
json_number(struct json *json, double value)
{
	begin_item(json);
	if (isnan(value)) {
		json->failed = true;
		text_add(json->text, "null");
	} else if (isinf(value)) {
		text_add(json->text, "null");
	} else {
		text_addf(json->text, "%.17g", value);
	}
}

void
json_count(struct json *json, uint64_t value)
{
	begin_item(json);
	text_addf(json->text, "%" PRIu64, value);
}

void
json_integer(struct json *json, int64_t value)
{
	begin_item(json);
	text_addf(json->text, "%" PRId64, value);
}

void
json_bool(struct json *json, bool value)
{
	begin_item(json);
	text_add(json->text, value ? "true" : "false");
}

void
json_null(struct json *json)
{
	begin_item(json);
	text_add(json->text, "null");
}

void
json_string(struct json *json, const char *value)
{
	begin_item(json);
	write_quoted(json, value);
}

void
json_key_number(struct json *json, const char *key, double value)
{
	json_key(json, key);
	json_number(json, value);
}

void
json_key_count(struct json *json, const char *key, uint64_t value)
{
	json_key(json, key);
	json_count(json, value);
}

void
json_key_bool(struct json *json, const char *key, bool value)
{
	json_key(json, key);
	json_bool(json, value);
}

void
json_key_string(struct json *json, const char *key, const char *value)
{
	json_key(json, key);
	json_string(json, value);
}

void
json_key_quantity(struct json *json, const char *key, double value,
	const char *unit)
{
	json_key(json, key);
	json_open_object(json);
	json_key_number(json, "value", value);
	json_key_string(json, "unit", unit);
	json_close_object(json);
}

void
json_key_interval(struct json *json, const char *key, double low, double high,
	const char *unit)
{
	json_key(json, key);
	json_open_object(json);
	json_key_number(json, "low", low);
	json_key_number(json, "high", high);
	if (unit != NULL)
		json_key_string(json, "unit", unit);
	json_close_object(json);
}

bool
json_failed(const struct json *json)
{
	return json->failed || text_failed(json->text);
}
