/* dispatch.c - addresses read, routes found, failures said. */
#include "web/dispatch.h"

#include "core/jsonout.h"
#include "web/assets.h"
#include "web/page.h"

#include <string.h>

static const struct {
	const char *path;
	web_answer *get, *post;
} routes[] = {
#define WEB_ROUTE(path, get, post) {path, get, post},
#include "web/route_names.h"
#undef WEB_ROUTE
};

enum { N_ROUTE = sizeof routes / sizeof routes[0] };

static int
hex_digit(char c)
{
	if (c >= '0' && c <= '9')
		return c - '0';
	if (c >= 'a' && c <= 'f')
		return c - 'a' + 10;
	if (c >= 'A' && c <= 'F')
		return c - 'A' + 10;
	return -1;
}

/* Percent signs read, '+' as a space where asked; NULL text: it is malformed. */
static enum err_code
decode(struct arena *arena, const char *from, size_t n, bool plus,
	const char **to, size_t *n_to, struct err *err)
{
	char *out = arena_take(arena, n + 1, 1);
	size_t m = 0;

	if (out == NULL)
		return err_memory(err);
	for (size_t i = 0; i < n; i++) {
		int high, low;

		if (from[i] != '%') {
			out[m++] = plus && from[i] == '+' ? ' ' : from[i];
			continue;
		}
		high = i + 2 < n ? hex_digit(from[i + 1]) : -1;
		low = i + 2 < n ? hex_digit(from[i + 2]) : -1;
		if (high < 0 || low < 0)
			return err_report(err, ERR_INPUT, "",
				"The address or the form holds a percent sign "
				"without two digits after it.");
		out[m++] = (char)(high * 16 + low);
		i += 2;
	}
	out[m] = '\0';
	if (!text_is_utf8(out, m))
		return err_report(err, ERR_INPUT, "",
			"The address or the form is not UTF-8 text.");
	*to = out;
	*n_to = m;
	return ERR_NONE;
}

static size_t
count_fields(const char *text, size_t n)
{
	size_t count = 1;

	for (size_t i = 0; i < n; i++)
		count += text[i] == '&';
	return count;
}

enum err_code
web_fields_decode(struct arena *arena, const char *text, size_t n,
	const struct web_field **field, size_t *n_field, struct err *err)
{
	size_t most = count_fields(text, n), m = 0;
	struct web_field *got;

	if (most > WEB_FIELDS_MOST)
		return err_report(err, ERR_INPUT, "",
			"The form has more than %d fields. Nothing was "
			"changed.",
			WEB_FIELDS_MOST);
	got = arena_take(arena, most, sizeof *got);
	if (got == NULL)
		return err_memory(err);
	for (size_t at = 0; at < n;) {
		const char *end = memchr(text + at, '&', n - at);
		size_t length = end != NULL ? (size_t)(end - text) - at
					    : n - at;
		const char *equals = memchr(text + at, '=', length);
		size_t name = equals != NULL ? (size_t)(equals - text) - at
					     : length;
		size_t unused;

		if (length > 0) {
			TRY(decode(arena, text + at, name, true, &got[m].name,
				&unused, err));
			TRY(decode(arena, text + at + name + (equals != NULL),
				length - name - (equals != NULL), true,
				&got[m].value, &got[m].n, err));
			m++;
		}
		at += length + 1;
	}
	*field = got;
	*n_field = m;
	return ERR_NONE;
}

/* ".json" or ".csv" at the end names the twin and is taken away. */
static enum web_twin
take_twin(char *path)
{
	static const struct {
		const char *suffix;
		enum web_twin twin;
	} twins[] = {
		{".json", WEB_JSON}, {".csv", WEB_CSV}, {".svg", WEB_PAGE}};
	size_t n = strlen(path);

	for (size_t i = 0; i < sizeof twins / sizeof twins[0]; i++) {
		size_t m = strlen(twins[i].suffix);

		if (n > m && strcmp(path + n - m, twins[i].suffix) == 0) {
			path[n - m] = '\0';
			return twins[i].twin;
		}
	}
	return WEB_PAGE;
}

enum err_code
web_address(struct arena *arena, const char *target,
	struct web_request *request, struct err *err)
{
	size_t n = strnlen(target, WEB_ADDRESS_MOST + 1), m;
	const char *question = memchr(target, '?', n);
	size_t path = question != NULL ? (size_t)(question - target) : n;
	const char *decoded;
	char *own;

	if (n > WEB_ADDRESS_MOST || target[0] != '/')
		return err_report(err, ERR_INPUT, "",
			"The address is too long, or does not begin with a "
			"slash.");
	own = text_format(arena, "%.*s", (int)path, target);
	if (own == NULL)
		return err_memory(err);
	/* Before it is read: "%2Ecsv" is the end of a code (web_at). */
	request->twin = take_twin(own);
	TRY(decode(arena, own, strlen(own), false, &decoded, &m, err));
	request->path = decoded;
	request->tail = "";
	request->n_query = 0;
	return question != NULL
		? web_fields_decode(arena, question + 1, n - path - 1,
			  &request->query, &request->n_query, err)
		: ERR_NONE;
}

/* --- A failure, said. --- */

static int
status_of(enum err_code code)
{
	switch (code) {
	case ERR_NONE:
		return 200;
	case ERR_NOT_FOUND:
		return 404;
	case ERR_CONFLICT:
		return 409;
	case ERR_INPUT:
	case ERR_ANSWER_NO:
	case ERR_NUMERIC:
		return 422;
	case ERR_BUSY:
		return 503;
	case ERR_NOT_A_BOOK:
	case ERR_NEWER_BOOK:
	case ERR_DAMAGED:
	case ERR_MEMORY:
	case ERR_DISK:
	case ERR_SYSTEM:
		break;
	}
	return 500;
}

static void
say_as_json(struct web_reply *reply, const struct err *err)
{
	struct jsonout json;

	reply->type = "application/json; charset=utf-8";
	jsonout_init(&json, &reply->body);
	jsonout_open_object(&json);
	jsonout_key(&json, "error");
	jsonout_open_object(&json);
	jsonout_key_string(&json, "code", err_word(err->code));
	jsonout_key_string(&json, "field", err->field);
	jsonout_key_string(&json, "text", err->text);
	jsonout_close_object(&json);
	jsonout_close_object(&json);
}

/* Where what a page lacks is entered, by the field of the err. */
static const struct {
	const char *field, *words, *address;
} ways[] = {
	{"baseline", N_("Plan a trial"), "/trial"},
	{"readings", N_("To the test pieces"), "/bench"},
	{"parts", N_("Enter the parts of the building"), "/building"},
	{"part", N_("Enter the parts of the building"), "/building"},
	{"mix", N_("To the mixes"), "/mixes"},
	{"batch", N_("To the mixer"), "/mixer"},
	{"piece", N_("To the test pieces"), "/bench"},
};

static void
add_way(struct page *page, const struct err *err)
{
	const struct web_request *request = page->request;

	for (size_t i = 0; i < sizeof ways / sizeof ways[0]; i++)
		if (strcmp(ways[i].field, err->field) == 0) {
			page_link(page, _(ways[i].words), ways[i].address);
			return;
		}
}

/* A page that was asked for too early is no failure. */
static const char *
title_of(const struct web_request *request, int status)
{
	if (status == 404)
		return _("There is no such page or thing");
	return status == 422 && request->method == WEB_GET
		? _("Not yet")
		: _("This could not be done");
}

void
web_say(const struct web_request *request, struct web_reply *reply, int status,
	const struct err *err)
{
	struct page page;
	struct err inner = err_in(request->arena);

	text_init(&reply->body, request->arena);
	reply->see_other = NULL;
	reply->type = NULL;
	reply->status = status;
	reply->no_store = true;
	if (request->twin != WEB_PAGE) {
		say_as_json(reply, err);
		return;
	}
	page_start(&page, request, title_of(request, status), PAGE_ELSEWHERE);
	if (status == 422 && request->method == WEB_GET)
		page_say(&page, err->text);
	else
		page_alarm(&page, err->text);
	add_way(&page, err);
	if (request->method == WEB_POST)
		page_say(&page,
			_("Nothing was recorded. Your browser's Back brings "
			  "the form back."));
	page_link(&page, _("To Today"), "/today");
	if (page_answer(&page, reply, &inner) != ERR_NONE) {
		text_init(&reply->body, request->arena);
		reply->type = "text/plain; charset=utf-8";
		text_add(&reply->body, "There is not enough memory.\n");
	}
}

/* --- The routes. --- */

/* The route of a path: the whole of it, or the longest that ends in '/' and
 * begins it. */
static size_t
find_route(struct web_request *request)
{
	size_t best = N_ROUTE, longest = 0;

	for (size_t i = 0; i < N_ROUTE; i++) {
		size_t n = strlen(routes[i].path);
		bool takes_tail = n > 1 && routes[i].path[n - 1] == '/';

		if (strcmp(routes[i].path, request->path) == 0 && !takes_tail) {
			request->tail = "";
			return i;
		}
		if (takes_tail && n > longest &&
			strncmp(routes[i].path, request->path, n) == 0 &&
			request->path[n] != '\0') {
			best = i;
			longest = n;
		}
	}
	if (best < N_ROUTE) {
		request->tail = request->path + longest;
		request->path = routes[best].path;
	}
	return best;
}

static void
answer_from(web_answer *answer, struct web_request *request,
	struct web_reply *reply)
{
	struct err err = err_in(request->arena);
	enum err_code code;

	text_init(&reply->body, request->arena);
	code = answer(request, reply, &err);
	if (code == ERR_NONE && text_failed(&reply->body))
		code = err_memory(&err);
	if (code != ERR_NONE)
		web_say(request, reply,
			answer == web_none ? 405 : status_of(code), &err);
	if (reply->status == 0)
		reply->status = reply->see_other != NULL ? 303 : 200;
	if (reply->type == NULL)
		reply->type = "text/html; charset=utf-8";
}

static enum err_code
nowhere(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	(void)reply;
	return err_report(err, ERR_NOT_FOUND, "",
		"There is no page at the address %.80s.", request->path);
}

void
web_dispatch(struct web_request *request, struct web_reply *reply)
{
	size_t route = find_route(request);

	arena_speak(request->arena, words_tongue(request->language));
	*reply = (struct web_reply){.status = 0};
	if (route == N_ROUTE)
		answer_from(nowhere, request, reply);
	else
		answer_from(request->method == WEB_GET ? routes[route].get
						       : routes[route].post,
			request, reply);
}
