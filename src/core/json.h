/* json.h - writes one JSON document (RFC 8259) into a text.
 *
 * Numbers go out with 17 significant digits, so that reading them back gives
 * the same double; NaN never, an infinity as null.  Keys keep the order in
 * which they are written.  Strings must be UTF-8; bytes that are not come out
 * as U+FFFD. */
#ifndef CORE_JSON_H
#define CORE_JSON_H

#include "core/text.h"

#include <stdbool.h>
#include <stdint.h>

enum { JSON_DEPTH_MAX = 32 };

struct json {
	struct text *text; /* borrowed */
	int depth;
	bool has_item[JSON_DEPTH_MAX];
	bool after_key;
	bool failed; /* nesting beyond the limit, or a NaN */
};

void json_init(struct json *json, struct text *text);

/* A key inside an object; the next call writes its value. */
void json_key(struct json *json, const char *key);

void json_open_object(struct json *json);
void json_close_object(struct json *json);
void json_open_array(struct json *json);
void json_close_array(struct json *json);

void json_number(struct json *json, double value);
void json_count(struct json *json, uint64_t value);
void json_integer(struct json *json, int64_t value);
void json_bool(struct json *json, bool value);
void json_null(struct json *json);
void json_string(struct json *json, const char *value);

/* Key and value in one call. */
void json_key_number(struct json *json, const char *key, double value);
void json_key_count(struct json *json, const char *key, uint64_t value);
void json_key_bool(struct json *json, const char *key, bool value);
void json_key_string(struct json *json, const char *key, const char *value);

/* "key": {"value": value, "unit": unit} */
void json_key_quantity(struct json *json, const char *key, double value,
	const char *unit);

/* "key": {"low": low, "high": high or null, "unit": unit}; unit may be NULL */
void json_key_interval(struct json *json, const char *key, double low,
	double high, const char *unit);

/* json_failed(json): memory ran out, nesting too deep, or a NaN was written;
 * the document must not be shown. */
bool json_failed(const struct json *json);

#endif /* CORE_JSON_H */
