/* jsonout.h - writes one JSON document (RFC 8259) into a text.
 *
 * Numbers go out with 17 significant digits, so that reading them back gives
 * the same double; NaN never, an infinity as null.  Keys keep the order in
 * which they are written.  Strings must be UTF-8; bytes that are not come out
 * as U+FFFD. */
#ifndef CORE_JSONOUT_H
#define CORE_JSONOUT_H

#include "core/text.h"

#include <stdbool.h>
#include <stdint.h>

enum { JSONOUT_DEPTH_MAX = 32 };

struct jsonout {
	struct text *text; /* borrowed */
	int depth;
	bool has_item[JSONOUT_DEPTH_MAX];
	bool after_key;
	bool failed; /* nesting beyond the limit, a NaN, or no finite quantity*/
};

void jsonout_init(struct jsonout *json, struct text *text);

/* A key inside an object; the next call writes its value. */
void jsonout_key(struct jsonout *json, const char *key);

void jsonout_open_object(struct jsonout *json);
void jsonout_close_object(struct jsonout *json);
void jsonout_open_array(struct jsonout *json);
void jsonout_close_array(struct jsonout *json);

void jsonout_number(struct jsonout *json, double value);
void jsonout_count(struct jsonout *json, uint64_t value);
void jsonout_integer(struct jsonout *json, int64_t value);
void jsonout_bool(struct jsonout *json, bool value);
void jsonout_null(struct jsonout *json);
void jsonout_string(struct jsonout *json, const char *value);

/* Key and value in one call. */
void jsonout_key_number(struct jsonout *json, const char *key, double value);
void jsonout_key_count(struct jsonout *json, const char *key, uint64_t value);
void jsonout_key_bool(struct jsonout *json, const char *key, bool value);
void jsonout_key_string(
	struct jsonout *json, const char *key, const char *value);

/* "key": {"value": value, "unit": unit}; a value that is not finite fails */
void jsonout_key_quantity(
	struct jsonout *json, const char *key, double value, const char *unit);

/* "key": {"low": low, "high": high or null, "unit": unit}; unit may be NULL */
void jsonout_key_interval(struct jsonout *json, const char *key, double low,
	double high, const char *unit);

/* jsonout_failed(json): memory ran out, nesting too deep, or a NaN or a quantity
 * that is not finite was written; the document must not be shown. */
bool jsonout_failed(const struct jsonout *json);

#endif /* CORE_JSONOUT_H */
