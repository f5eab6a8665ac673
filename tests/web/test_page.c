/* test_page.c - web/page: one page as HTML, JSON and CSV. */
#include "support.h"

#include "web/assets.h"
#include "web/page.h"

#include <jansson.h>
#include <math.h>
#include <string.h>

static const char hostile[] = "<script>alert(1)</script>\"'&";

static struct web_request
asked(struct fixture *f, enum web_twin twin, const struct web_field *query)
{
	return (struct web_request){.method = WEB_GET,
		.twin = twin,
		.path = "/mixes",
		.tail = "",
		.query = query,
		.n_query = query != NULL,
		.language = "en",
		.may_record = true,
		.arena = f->a};
}

static enum err_code
answer(struct fixture *f, const struct web_request *request,
	struct web_reply *reply)
{
	static const struct grid_column column[] = {
		{"mix", N_("mix"), "", false},
		{"wet", N_("wet weight"), "kg/m3", true}};
	struct grid first, second;
	struct form form;
	struct page page;

	*reply = (struct web_reply){.status = 0};
	text_init(&reply->body, f->a);
	f->err = (struct err){.code = ERR_NONE};
	page_start(&page, request, hostile, PAGE_MIXES);
	page_heading(&page, hostile);
	page_say(&page, hostile);
	page_caution(&page, hostile);
	page_alarm(&page, hostile);
	page_done(&page, hostile, "javascript:alert(1)");
	page_link(&page, hostile, hostile);
	page_chart(&page, "/chart/x.svg", hostile);
	page_table(&page, &first, "mixes", hostile, column, 2);
	grid_link(&first, hostile, "/mix/B");
	grid_number(&first, 722.385, "722");
	page_grid(&page, &first);
	page_table(&page, &second, "others", "Others", column, 2);
	grid_text(&second, "S");
	grid_number(&second, 884.2, "884");
	page_grid_folded(&page, &second);
	form_start(&form, request, "mix", "/mixes", hostile);
	form_text(&form, "name", hostile, hostile);
	form_value(&form, hostile);
	form_choice(&form, "kind", hostile, NULL);
	form_choose(&form, hostile, hostile);
	page_form(&page, &form);
	return page_answer(&page, reply, &f->err);
}

static void
page__writes_no_value_as_markup(void **state)
{
	struct fixture *f = *state;
	struct web_request request = asked(f, WEB_PAGE, NULL);
	struct web_reply reply;

	assert_ok(answer(f, &request, &reply), &f->err);
	assert_lacks(reply.body.bytes, "<script>alert");
	assert_lacks(reply.body.bytes, "javascript:");
	assert_lacks(reply.body.bytes, "\"'&\"");
	assert_has(reply.body.bytes, "&lt;script&gt;alert(1)&lt;/script&gt;");
	assert_has(reply.body.bytes, "<html lang=\"en\">");
	assert_has(reply.body.bytes, "scope=\"col\"");
	assert_has(reply.body.bytes, "name=\"token\" value=\"\x02T\"");
	assert_has(reply.body.bytes, "name=\"key\" value=\"\x02K\"");
}

static void
page__speaks_the_reader_s_language(void **state)
{
	struct fixture *f = *state;
	struct web_request request = asked(f, WEB_PAGE, NULL);
	struct web_reply reply;

	request.language = "es";
	assert_ok(answer(f, &request, &reply), &f->err);
	assert_has(reply.body.bytes, "<html lang=\"es\">");
	assert_has(reply.body.bytes, ">Hoy</a>");
	assert_lacks(reply.body.bytes, ">Today<");
}

static void
page__shows_both_units_to_who_asks(void **state)
{
	struct fixture *f = *state;
	struct web_request request = asked(f, WEB_PAGE, NULL);
	struct web_reply reply;

	assert_ok(answer(f, &request, &reply), &f->err);
	assert_has(reply.body.bytes, "href=\"/units/both?back=%2Fmixes\"");
	assert_lacks(reply.body.bytes, "lb/ft3");
	request.both_units = true;
	assert_ok(answer(f, &request, &reply), &f->err);
	assert_has(reply.body.bytes, "<span class=\"unit\">kg/m3 (lb/ft3)<");
	assert_has(reply.body.bytes, "722 (45.1)");
	assert_has(reply.body.bytes, "href=\"/units/metric?back=%2Fmixes\"");
	request.twin = WEB_CSV; /* data stay as they are */
	assert_ok(answer(f, &request, &reply), &f->err);
	assert_lacks(reply.body.bytes, "lb/ft3");
}

static void
page__as_json_holds_title_and_tables(void **state)
{
	struct fixture *f = *state;
	struct web_request request = asked(f, WEB_JSON, NULL);
	struct web_reply reply;
	const json_t *tables;
	json_t *read;

	assert_ok(answer(f, &request, &reply), &f->err);
	read = json_loads(reply.body.bytes, 0, NULL);
	assert_non_null(read);
	assert_string_equal(
		hostile, json_string_value(json_object_get(read, "title")));
	tables = json_object_get(read, "tables");
	assert_int_equal(1, json_array_size(json_object_get(tables, "mixes")));
	assert_true(
		json_real_value(json_object_get(
			json_array_get(json_object_get(tables, "others"), 0),
			"wet")) == 884.2);
	json_decref(read);
}

static void
page__as_csv_is_the_table_asked_for(void **state)
{
	static const struct web_field others = {"table", "others", 6, NULL};
	static const struct web_field none = {"table", "none", 4, NULL};
	struct fixture *f = *state;
	struct web_request request = asked(f, WEB_CSV, NULL);
	struct web_reply reply;

	assert_ok(answer(f, &request, &reply), &f->err);
	assert_has(reply.body.bytes, "722.38499999999999");
	assert_lacks(reply.body.bytes, "884");
	request = asked(f, WEB_CSV, &others);
	assert_ok(answer(f, &request, &reply), &f->err);
	assert_string_equal(
		"mix,wet weight (kg/m3)\r\nS,884.20000000000005\r\n",
		reply.body.bytes);
	request = asked(f, WEB_CSV, &none);
	assert_int_equal(ERR_NOT_FOUND, answer(f, &request, &reply));
}

static void
web_words__has_a_picture_for_each_word(void **state)
{
	static const char address[] = "/static/words.svg#";
	struct fixture *f = *state;
	struct web_request request = asked(f, WEB_PAGE, NULL);
	const struct web_asset *file = web_assets;
	struct web_reply reply = {.status = 0};
	const char *at;
	size_t n = 0;

	while (strcmp(file->path, "/static/words.svg") != 0)
		file++;
	request.path = "/words";
	text_init(&reply.body, f->a);
	assert_ok(web_words(&request, &reply, &f->err), &f->err);
	for (at = reply.body.bytes; (at = strstr(at, address)) != NULL; n++) {
		const char *view = NULL;

		at += strlen(address);
		view = text_format(
			f->a, "<view id=\"%.*s\"", (int)strcspn(at, "\""), at);
		assert_has((const char *)file->bytes, view);
	}
	assert_true(n >= 30);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		TEST(page__writes_no_value_as_markup),
		TEST(page__speaks_the_reader_s_language),
		TEST(page__shows_both_units_to_who_asks),
		TEST(page__as_json_holds_title_and_tables),
		TEST(page__as_csv_is_the_table_asked_for),
		TEST(web_words__has_a_picture_for_each_word),
	};

	support_start();
	return cmocka_run_group_tests(tests, NULL, NULL);
}
