/* test_logger_pages.c - a logger's file brought in by pages: nothing is kept that
 * was not shown; and how batches cured.  All figures are invented. */
#include "support.h"
#include "yard.h"

#include "web/carry.h"
#include "web/dispatch.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { FIELDS_MOST = 16 };

struct say {
	struct web_field field[FIELDS_MOST];
	size_t n;
};

static void
add(struct say *say, const char *name, const char *value)
{
	assert_true(say->n < FIELDS_MOST);
	say->field[say->n++] = (struct web_field){
		name, value, strlen(value), NULL};
}

static void
attach(struct say *say, const char *name, const char *bytes, size_t n)
{
	assert_true(say->n < FIELDS_MOST);
	say->field[say->n++] = (struct web_field){"file", bytes, n, name};
}

static struct web_reply
send(struct fixture *f, struct yard *y, const char *path, const struct say *say,
	const char *language)
{
	struct web_request request = {
		.method = say != NULL ? WEB_POST : WEB_GET,
		.language = language,
		.may_record = true,
		.arena = f->a,
		.desk = y->desk};
	struct web_reply reply;

	assert_ok(web_address(f->a, path, &request, &f->err), &f->err);
	if (say != NULL) {
		request.field = say->field;
		request.n_field = say->n;
	}
	web_dispatch(&request, &reply);
	arena_speak(f->a, (struct tongue){.find = NULL});
	return reply;
}

/* The value of a hidden field of an answer. */
static const char *
hidden(struct fixture *f, const struct web_reply *reply, const char *name)
{
	static const struct {
		const char *from, to;
	} marks[] = {{"&quot;", '"'}, {"&#39;", '\''}, {"&amp;", '&'},
		{"&lt;", '<'}, {"&gt;", '>'}};
	char *start = text_format(
		f->a, "type=\"hidden\" name=\"%s\" value=\"", name);
	const char *at = strstr(reply->body.bytes, start);
	char *to, *value;

	if (at == NULL)
		return NULL;
	at += strlen(start);
	to = value = arena_take(f->a, strcspn(at, "\"") + 1, 1);
	assert_non_null(to);
	while (*at != '"') {
		char c = *at++;

		for (size_t i = 0; c == '&' && i < 5; i++)
			if (strncmp(at - 1, marks[i].from,
				    strlen(marks[i].from)) == 0) {
				c = marks[i].to;
				at += strlen(marks[i].from) - 1;
				break;
			}
		*to++ = c;
	}
	*to = '\0';
	return value;
}

/* The file goes on as the answer carries it. */
static struct say
go_on(struct fixture *f, const struct web_reply *reply)
{
	static const char *const names[] = {"carried", "carried-name", "seen"};
	struct say say = {.n = 0};

	add(&say, "form", "trace");
	for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
		if (hidden(f, reply, names[i]) != NULL)
			add(&say, names[i], hidden(f, reply, names[i]));
	return say;
}

/* Bytes that a page's marks are made of are only bytes here. */
static const char log_text[] =
	"made \x02T by <b>cell</b> 2\n"
	"Time (s);Load (N)\r\n0;0\r\n1;149,5\r\n2;150\r\n"
	"3;3\r\n";

static void
trace__is_kept_once_it_was_shown(void **state)
{
	struct fixture *f = *state;
	const size_t n = sizeof log_text - 1;
	struct say say = {.n = 0};
	struct web_reply reply;
	struct yard y;
	size_t entries;

	yard_furnish(f, &y);
	entries = yard_entries(f, &y);
	add(&say, "form", "trace");
	add(&say, "kind", "load");
	add(&say, "piece", y.piece[0]);
	attach(&say, "C:\\<script>alert(1).csv", log_text, n);
	reply = send(f, &y, "/traces", &say, "en");
	assert_int_equal(200, reply.status);
	assert_has(reply.body.bytes, "semicolons");
	assert_has(reply.body.bytes, "Highest load 150 N");
	assert_has(reply.body.bytes, "class=\"sends\"");
	assert_lacks(reply.body.bytes, "<script>alert");
	assert_lacks(reply.body.bytes, "<b>cell");
	assert_int_equal(entries, yard_entries(f, &y));
	say = go_on(f, &reply);
	assert_int_equal(4, say.n);
	add(&say, "kind", "load");
	add(&say, "piece", y.piece[0]);
	add(&say, "test", "bending");
	add(&say, "span", "600");
	add(&say, "span_unit", "mm");
	reply = send(f, &y, "/traces", &say, "es");
	assert_int_equal(303, reply.status);
	assert_has(reply.see_other, "%20load%201?saved=1");
	assert_int_equal(entries + 1, yard_entries(f, &y));
	/* The book speaks English, a page its reader's tongue. */
	reply = send(f, &y, reply.see_other, NULL, "en");
	assert_int_equal(200, reply.status);
	assert_has(reply.body.bytes, "understood: semicolons");
	assert_has(reply.body.bytes, "&lt;script&gt;alert(1).csv");
	reply = send(f, &y,
		text_format(f->a, "/trace/%s%%20load%%201", y.piece[0]), NULL,
		"es");
	assert_has(reply.body.bytes, "puntos y coma entre columnas");
	reply = send(f, &y,
		text_format(
			f->a, "/trace-file/%s%%20load%%201.csv", y.piece[0]),
		NULL, "en");
	assert_string_equal("application/octet-stream", reply.type);
	assert_string_equal("attachment; filename=\"_script_alert_1_.csv\"",
		reply.attachment);
	assert_int_equal(n, reply.body.n);
	assert_memory_equal(log_text, reply.body.bytes, n);
	reply = send(f, &y,
		text_format(
			f->a, "/chart/trace/%s%%20load%%201.svg", y.piece[0]),
		NULL, "en");
	assert_has(reply.body.bytes, "highest load 150 N");
	reply = send(
		f, &y, text_format(f->a, "/piece/%s", y.piece[0]), NULL, "en");
	assert_has(reply.body.bytes, "bending strength");
	assert_has(reply.body.bytes, "/trace/");
	yard_close(&y);
}

static void
trace__what_is_unclear_is_asked_and_the_file_stays(void **state)
{
	static const char text[] = "Time;Load 1 (N);Load 2 (N);day\n"
				   "0;1;2;01/02/2026\n1;150;20;01/02/2026\n"
				   "2;2;3;02/02/2026\n";
	struct fixture *f = *state;
	struct say say = {.n = 0};
	struct web_reply reply;
	struct yard y;
	size_t entries;

	yard_furnish(f, &y);
	entries = yard_entries(f, &y);
	add(&say, "form", "trace");
	add(&say, "kind", "load");
	add(&say, "piece", y.piece[0]);
	attach(&say, "two.csv", text, sizeof text - 1);
	reply = send(f, &y, "/traces", &say, "en");
	assert_int_equal(422, reply.status);
	assert_has(reply.body.bytes, "id=\"trace-column-error\"");
	assert_has(reply.body.bytes, "<option value=\"Load 2\"");
	assert_null(hidden(f, &reply, "seen"));
	reply = send(f, &y, "/traces", &say, "es");
	assert_has(reply.body.bytes, "M\xC3\xA1s de una columna");
	say = go_on(f, &reply);
	add(&say, "kind", "load");
	add(&say, "piece", y.piece[0]);
	add(&say, "column", "Load 2");
	reply = send(f, &y, "/traces", &say, "en");
	assert_int_equal(422, reply.status);
	assert_has(reply.body.bytes, "id=\"trace-time-unit-error\"");
	assert_has(reply.body.bytes, "<option value=\"Load 2\" selected");
	say = go_on(f, &reply);
	add(&say, "kind", "load");
	add(&say, "piece", y.piece[0]);
	add(&say, "column", "Load 2");
	add(&say, "time-unit", "s");
	reply = send(f, &y, "/traces", &say, "en");
	assert_int_equal(200, reply.status);
	/* What was answered goes along; another column was not shown. */
	assert_string_equal("Load 2", hidden(f, &reply, "column"));
	say = go_on(f, &reply);
	add(&say, "kind", "load");
	add(&say, "piece", y.piece[0]);
	add(&say, "column", "Load 1");
	add(&say, "time-unit", "s");
	reply = send(f, &y, "/traces", &say, "en");
	assert_int_equal(422, reply.status);
	assert_has(reply.body.bytes, "otherwise than was shown");
	assert_int_equal(entries, yard_entries(f, &y));
	/* Nor was another file, though it looks like this one. */
	say = go_on(f, &reply);
	add(&say, "kind", "load");
	add(&say, "piece", y.piece[0]);
	add(&say, "column", "Load 1");
	add(&say, "time-unit", "s");
	attach(&say, "two.csv", text, sizeof text - 1);
	reply = send(f, &y, "/traces", &say, "en");
	assert_int_equal(200, reply.status);
	assert_int_equal(entries, yard_entries(f, &y));
	/* It is shown now. */
	say = go_on(f, &reply);
	add(&say, "kind", "load");
	add(&say, "piece", y.piece[0]);
	add(&say, "column", "Load 1");
	add(&say, "time-unit", "s");
	reply = send(f, &y, "/traces", &say, "en");
	assert_int_equal(303, reply.status);
	assert_int_equal(entries + 1, yard_entries(f, &y));
	yard_close(&y);
}

static void
trace__bad_files_are_refused_beside_their_field(void **state)
{
	struct fixture *f = *state;
	char *big = arena_take(f->a, CARRY_MOST + 1, 1);
	const struct {
		const char *name, *bytes;
		size_t n;
		const char *says;
	} bad[] = {{"empty.csv", "", 0, "is empty"},
		{"words.csv", "hello\nworld\n", 12, "No line of figures"},
		{"nul.bin", "\0\1\2\3\0\0\0", 7, "No line of figures"},
		{"wide.csv",
			"\xFF\xFE"
			"1\0;\0",
			6, "UTF-16"},
		{"big.csv", big, CARRY_MOST + 1, "a page takes 16 MB"}};
	static const char *const carried[] = {"x", "5:", "9999999999:AAAA",
		"16777216:eA==", "12:eAEDAAAAAAE=", "-1:AAAA", "5:@@@@"};
	struct web_reply reply;
	struct yard y;
	size_t entries;

	assert_non_null(big);
	yard_furnish(f, &y);
	entries = yard_entries(f, &y);
	for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
		struct say say = {.n = 0};

		add(&say, "form", "trace");
		add(&say, "kind", "temperature");
		attach(&say, bad[i].name, bad[i].bytes, bad[i].n);
		reply = send(f, &y, "/traces", &say, "en");
		assert_int_equal(422, reply.status);
		assert_has(reply.body.bytes, bad[i].says);
		assert_has(reply.body.bytes, "id=\"trace-file-error\"");
		assert_null(hidden(f, &reply, "carried"));
	}
	for (size_t i = 0; i < sizeof carried / sizeof carried[0]; i++) {
		struct say say = {.n = 0};

		add(&say, "form", "trace");
		add(&say, "kind", "temperature");
		add(&say, "carried", carried[i]);
		add(&say, "seen", "temperature");
		reply = send(f, &y, "/traces", &say, "en");
		assert_int_equal(422, reply.status);
		assert_has(reply.body.bytes, "did not come through whole");
	}
	assert_int_equal(entries, yard_entries(f, &y));
	yard_close(&y);
}

static void
cure__is_recorded_and_told(void **state)
{
	/* 20 degC from casting on: its equivalent age is its age. */
	struct fixture *f = *state;
	struct say say = {.n = 0};
	struct web_reply reply;
	struct yard y;

	yard_furnish(f, &y);
	reply = send(f, &y, "/cure/T-01", NULL, "en");
	assert_int_equal(200, reply.status);
	assert_has(reply.body.bytes, "Nothing is known");
	add(&say, "form", "said");
	add(&say, "temperature", "warm <b>");
	add(&say, "remark", "in the cellar");
	reply = send(f, &y, "/cure/T-01", &say, "en");
	assert_int_equal(422, reply.status);
	assert_has(reply.body.bytes, "id=\"said-temperature-error\"");
	assert_has(reply.body.bytes, "value=\"warm &lt;b&gt;\"");
	assert_has(reply.body.bytes, "value=\"in the cellar\"");
	say.n = 1;
	reply = send(f, &y, "/cure/T-01", &say, "en");
	assert_has(reply.body.bytes, "id=\"said-temperature-error\"");
	assert_has(reply.body.bytes, "id=\"said-to-error\"");
	add(&say, "temperature", "20");
	add(&say, "temperature_unit", "degC");
	add(&say, "to", "2026-03-29");
	add(&say, "keeping", "wrapped");
	add(&say, "all", "yes");
	reply = send(f, &y, "/cure/T-01", &say, "en");
	assert_int_equal(303, reply.status);
	reply = send(f, &y, reply.see_other, NULL, "en");
	assert_has(reply.body.bytes, "28.0 days after casting");
	assert_has(
		reply.body.bytes, "as if it had lain 28.0 days at 20 \u00B0C");
	reply = send(f, &y, "/cure.csv", NULL, "en");
	assert_has(reply.body.bytes, "T-01,");
	assert_int_equal(404, send(f, &y, "/cure/ZZ", NULL, "en").status);
	yard_close(&y);
}

static void
cure__takes_a_log_that_was_brought_in_for_it(void **state)
{
	static const char text[] = "stamp,temp_C\n2026-03-01 12:00,10\n"
				   "2026-03-01 23:00,12\n2026-03-02 12:00,11\n";
	struct fixture *f = *state;
	struct say say = {.n = 0};
	struct web_reply reply;
	struct yard y;

	yard_furnish(f, &y);
	add(&say, "form", "trace");
	add(&say, "kind", "temperature");
	add(&say, "cure", "T-01");
	attach(&say, "store.csv", text, sizeof text - 1);
	reply = send(f, &y, "/traces", &say, "en");
	assert_int_equal(200, reply.status);
	assert_string_equal("T-01", hidden(f, &reply, "cure"));
	assert_has(reply.body.bytes, "2026-03-01 12:00:00");
	say = go_on(f, &reply);
	add(&say, "kind", "temperature");
	add(&say, "cure", "T-01");
	add(&say, "code", "store");
	reply = send(f, &y, "/traces", &say, "en");
	assert_int_equal(303, reply.status);
	assert_string_equal("/cure/T-01?trace=store", reply.see_other);
	reply = send(f, &y, reply.see_other, NULL, "en");
	assert_has(reply.body.bytes, "value=\"store\" checked");
	say.n = 0;
	add(&say, "form", "log");
	add(&say, "trace", "store");
	reply = send(f, &y, "/cure/T-01", &say, "en");
	assert_int_equal(303, reply.status);
	reply = send(f, &y, "/cure/T-01", NULL, "en");
	assert_has(reply.body.bytes, "/trace/store");
	assert_has(reply.body.bytes, "1.0 days after casting");
	yard_close(&y);
}

static const struct CMUnitTest tests[] = {
	TEST(trace__is_kept_once_it_was_shown),
	TEST(trace__what_is_unclear_is_asked_and_the_file_stays),
	TEST(trace__bad_files_are_refused_beside_their_field),
	TEST(cure__is_recorded_and_told),
	TEST(cure__takes_a_log_that_was_brought_in_for_it),
};

TEST_MAIN(tests)
