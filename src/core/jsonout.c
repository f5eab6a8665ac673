/* jsonout.c - JSON out, in the order it is written. */
#include "core/jsonout.h"

#include <inttypes.h>
#include <math.h>
#include <string.h>

void
jsonout_init(struct jsonout *json, struct text *text)
{
	*json = (struct jsonout){.text = text};
}

/* The comma before an item that is not the first of its container. */
static void
begin_item(struct jsonout *json)
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
open_container(struct jsonout *json, char mark)
{
	begin_item(json);
	text_add_char(json->text, mark);
	if (json->depth + 1 >= JSONOUT_DEPTH_MAX) {
		json->failed = true;
		return;
	}
	json->depth++;
	json->has_item[json->depth] = false;
}

static void
close_container(struct jsonout *json, char mark)
{
	text_add_char(json->text, mark);
	if (json->depth > 0)
		json->depth--;
}

void
jsonout_open_object(struct jsonout *json)
{
	open_container(json, '{');
}

void
jsonout_close_object(struct jsonout *json)
{
	close_container(json, '}');
}

void
jsonout_open_array(struct jsonout *json)
{
	open_container(json, '[');
}

void
jsonout_close_array(struct jsonout *json)
{
	close_container(json, ']');
}

static void
write_quoted(struct jsonout *json, const char *value)
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
jsonout_key(struct jsonout *json, const char *key)
{
	begin_item(json);
	write_quoted(json, key);
	text_add(json->text, ": ");
	json->after_key = true;
}

void
jsonout_number(struct jsonout *json, double value)
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
jsonout_count(struct jsonout *json, uint64_t value)
{
	begin_item(json);
	text_addf(json->text, "%" PRIu64, value);
}

void
jsonout_integer(struct jsonout *json, int64_t value)
{
	begin_item(json);
	text_addf(json->text, "%" PRId64, value);
}

void
jsonout_bool(struct jsonout *json, bool value)
{
	begin_item(json);
	text_add(json->text, value ? "true" : "false");
}

void
jsonout_null(struct jsonout *json)
{
	begin_item(json);
	text_add(json->text, "null");
}

void
jsonout_string(struct jsonout *json, const char *value)
{
	begin_item(json);
	write_quoted(json, value);
}

void
jsonout_key_number(struct jsonout *json, const char *key, double value)
{
	jsonout_key(json, key);
	jsonout_number(json, value);
}

void
jsonout_key_count(struct jsonout *json, const char *key, uint64_t value)
{
	jsonout_key(json, key);
	jsonout_count(json, value);
}

void
jsonout_key_bool(struct jsonout *json, const char *key, bool value)
{
	jsonout_key(json, key);
	jsonout_bool(json, value);
}

void
jsonout_key_string(struct jsonout *json, const char *key, const char *value)
{
	jsonout_key(json, key);
	jsonout_string(json, value);
}

void
jsonout_key_quantity(
	struct jsonout *json, const char *key, double value, const char *unit)
{
	if (!isfinite(value))
		json->failed = true; /* overflow: no quantity is infinite */
	jsonout_key(json, key);
	jsonout_open_object(json);
	jsonout_key_number(json, "value", value);
	jsonout_key_string(json, "unit", unit);
	jsonout_close_object(json);
}

void
jsonout_key_interval(struct jsonout *json, const char *key, double low,
	double high, const char *unit)
{
	jsonout_key(json, key);
	jsonout_open_object(json);
	jsonout_key_number(json, "low", low);
	jsonout_key_number(json, "high", high);
	if (unit != NULL)
		jsonout_key_string(json, "unit", unit);
	jsonout_close_object(json);
}

bool
jsonout_failed(const struct jsonout *json)
{
	return json->failed || text_failed(json->text);
}
