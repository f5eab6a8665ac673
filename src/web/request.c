/* request.c - values looked up by name. */
#include "web/request.h"

#include "web/html.h"

#include <string.h>

static const char *
find(const struct web_field *field, size_t n, const char *name, size_t *at)
{
	for (; *at < n; (*at)++)
		if (field[*at].file == NULL && field[*at].n > 0 &&
			strcmp(field[*at].name, name) == 0)
			return field[(*at)++].value;
	return NULL;
}

const char *
web_query(const struct web_request *request, const char *name)
{
	size_t at = 0;

	return find(request->query, request->n_query, name, &at);
}

const char *
web_given(const struct web_request *request, const char *name)
{
	size_t at = 0;

	return find(request->field, request->n_field, name, &at);
}

const char *
web_given_next(const struct web_request *request, const char *name, size_t *at)
{
	return find(request->field, request->n_field, name, at);
}

/* A code that ends as a twin's address does (web_address) keeps its ending: its
 * point is written "%2E". */
static void
keep_ending(struct text *text)
{
	static const char *const ending[] = {"json", "csv", "svg"};

	for (size_t i = 0; i < sizeof ending / sizeof ending[0]; i++) {
		size_t n = strlen(ending[i]) + 1;

		if (text_failed(text) || text->n <= n)
			return;
		if (text->bytes[text->n - n] == '.' &&
			strcmp(text->bytes + text->n - n + 1, ending[i]) == 0) {
			text->n -= n;
			text_addf(text, "%%2E%s", ending[i]);
			return;
		}
	}
}

const char *
web_at(const struct web_request *request, const char *route, const char *code)
{
	struct text text;
	struct html html = {.text = &text};

	text_init(&text, request->arena);
	text_add(&text, route);
	html_address_part(&html, code);
	keep_ending(&text);
	return text_failed(&text) ? "/" : text.bytes;
}

const char *
web_as_asked(const struct web_request *request, const char *path)
{
	struct text text;
	struct html html = {.text = &text};

	text_init(&text, request->arena);
	text_add(&text, path);
	for (size_t i = 0; i < request->n_query; i++) {
		const struct web_field *field = &request->query[i];

		text_add_char(&text, i == 0 ? '?' : '&');
		html_address_part(&html, field->name);
		text_add_char(&text, '=');
		html_address_part(&html, field->value);
	}
	return text_failed(&text) ? path : text.bytes;
}

enum err_code
web_none(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	(void)reply;
	return err_report(err, ERR_INPUT, "",
		"The address %.80s does not take this kind of request. "
		"Nothing was changed.",
		request->path);
}
