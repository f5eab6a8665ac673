/* test_rigs.c - the pages of the rigs, of what to lay out before a test and of
 * what leaves a result open, on a book at the bench.  All figures are
 * invented. */
#include "support.h"
#include "yard.h"

#include "book/book.h"
#include "web/dispatch.h"
#include "work/bench.h"

#include <stdio.h>
#include <string.h>

enum { FIELDS = 12 };

struct talk {
	struct fixture *f;
	struct yard y;
	const char *language;
	struct web_reply reply;
};

static void
begin(void **state, struct talk *t)
{
	*t = (struct talk){.f = *state, .language = "en"};
	yard_furnish(t->f, &t->y);
}

/* The address as a browser asks for it, with what a form sends; NULL: GET. */
static const char *
ask(struct talk *t, const char *address, const char *fields)
{
	struct web_request request = {
		.method = fields == NULL ? WEB_GET : WEB_POST,
		.language = t->language,
		.may_record = true,
		.arena = t->f->a,
		.desk = t->y.desk};
	struct err err = {.code = ERR_NONE};

	assert_ok(web_address(t->f->a, address, &request, &err), &err);
	if (fields != NULL)
		assert_ok(web_fields_decode(t->f->a, fields, strlen(fields),
				  &request.field, &request.n_field, &err),
			&err);
	web_dispatch(&request, &t->reply);
	return t->reply.body.bytes != NULL ? t->reply.body.bytes : "";
}

static void
done(struct talk *t, const char *address, const char *fields, const char *to)
{
	(void)ask(t, address, fields);
	assert_int_equal(303, t->reply.status);
	assert_string_equal(to, t->reply.see_other);
}

static const char *
refused(struct talk *t, const char *address, const char *fields)
{
	const char *body = ask(t, address, fields);

	assert_int_equal(422, t->reply.status);
	return body;
}

static void
put_rigs(struct talk *t)
{
	done(t, "/rigs", "form=new&code=R1&test=bending", "/rig/R1?saved=1");
	done(t, "/rig/R1",
		"form=rig&span=600&span_unit=mm&strap=50&strap_unit=mm&"
		"hanger=1%2C2&hanger_unit=kg",
		"/rig/R1?saved=1");
	done(t, "/rigs", "form=new&code=J1&test=crushing", "/rig/J1?saved=1");
	done(t, "/rigs", "form=new&code=D1&test=drop", "/rig/D1?saved=1");
}

static void
rigs__are_entered_and_keep_what_an_empty_field_leaves(void **state)
{
	const struct book_rig *rig;
	struct talk t;
	size_t n;

	begin(state, &t);
	assert_has(ask(&t, "/rigs", NULL), "No rig is in the book yet.");
	put_rigs(&t);
	done(&t, "/rig/R1", "form=rig&loading=third", "/rig/R1?saved=1");
	assert_ok(book_all_rig(t.y.desk.book, t.f->a, &rig, &n, &t.f->err),
		&t.f->err);
	assert_int_equal(3, n);
	assert_string_equal("third", rig[0].loading);
	assert_near(rig[0].span_m.value, 0.6, 1e-15, 0);
	assert_near(rig[0].hanger_kg.value, 1.2, 1e-15, 0);
	assert_has(ask(&t, "/rig/R1", NULL), "name=\"span\" value=\"600\"");
	assert_has(ask(&t, "/rigs", NULL), "href=\"/rig/R1\"");
	assert_has(ask(&t, "/rigs.csv", NULL), "J1,crushing,is due,no,\r\n");
	yard_close(&t.y);
}

static void
rigs__say_what_is_wrong_beside_its_field(void **state)
{
	struct talk t;
	size_t before;

	begin(state, &t);
	put_rigs(&t);
	before = yard_entries(t.f, &t.y);
	assert_has(refused(&t, "/rigs", "form=new&test=drop"),
		"id=\"new-code-error\"");
	assert_has(refused(&t, "/rigs", "form=new&code=R2"),
		"id=\"new-test-error\"");
	assert_has(refused(&t, "/rigs", "form=new&code=R1&test=drop"),
		"Rig R1 is for bending tests");
	assert_has(refused(&t, "/rigs", "form=new&code=%20%20&test=drop"),
		"id=\"new-code-error\"");
	assert_has(refused(&t, "/rigs", "form=new&code=a%0Ab&test=drop"),
		"in one line");
	assert_has(refused(&t, "/rig/R1", "form=rig&span=6+ducks"),
		"id=\"rig-span-error\"");
	assert_has(refused(&t, "/rig/R1", "form=speed&exit-speed=4+m%2Fs"),
		"This rig has no such check.");
	assert_has(refused(&t, "/rig/J1", "form=load"),
		"id=\"load-dead-load-error\"");
	assert_has(t.reply.body.bytes, "id=\"load-gauge-error\"");
	assert_has(refused(&t, "/rig/J1",
			   "form=load&dead-load=312+kg&gauge=24+bar"),
		"give it with &quot;Bore of the ram&quot; first.");
	assert_has(
		refused(&t, "/rig/D1", "form=lath&dent=6.5+mm&on=2026-02-31"),
		"id=\"lath-on-error\"");
	assert_has(t.reply.body.bytes, "value=\"6.5 mm\"");
	(void)ask(&t, "/rig/Z9", NULL);
	assert_int_equal(404, t.reply.status);
	assert_int_equal(before, yard_entries(t.f, &t.y));
	yard_close(&t.y);
}

static void
rigs__checks_are_told_and_corrected_by_their_name(void **state)
{
	const struct book_rig_check *check;
	const char *body;
	struct talk t;
	size_t n;

	begin(state, &t);
	put_rigs(&t);
	done(&t, "/rig/J1",
		"form=rig&ram=40+mm&gauge-step=0.5&gauge-step_unit=bar",
		"/rig/J1?saved=1");
	assert_has(refused(&t, "/rig/J1",
			   "form=load&dead-load=312+kg&gauge=24+bar&"
			   "gauge-zero=30+bar"),
		"id=\"load-gauge-zero-error\"");
	done(&t, "/rig/J1",
		"form=load&dead-load=420+kg&gauge=40+bar&gauge-zero=1+bar",
		"/rig/J1?saved=1");
	body = ask(&t, "/rig/J1", NULL);
	assert_has(body, "every gauge reading on this rig is corrected");
	assert_has(
		body, "href=\"/rig/J1?check=dead%20load%202026-03-29#load\"");
	assert_has(ask(&t, "/rig/J1?check=dead%20load%202026-03-29", NULL),
		"name=\"dead-load\" value=\"420\"");
	done(&t, "/rig/J1",
		"form=load&dead-load=421+kg&gauge=40+bar&gauge-zero=1+bar&"
		"code=dead+load+2026-03-29",
		"/rig/J1?saved=1");
	done(&t, "/rig/J1",
		"form=load&dead-load=380+kg&gauge=36+bar&on=2026-03-02",
		"/rig/J1?saved=1");
	assert_ok(book_all_rig_check(
			  t.y.desk.book, t.f->a, &check, &n, &t.f->err),
		&t.f->err);
	assert_int_equal(2, n);
	assert_near(check[0].known_kg.value, 421, 1e-15, 0);
	assert_near(check[0].zero_pa.value, 1e5, 1e-15, 0);
	assert_has(ask(&t, "/rig/J1.csv", NULL),
		"dead load 2026-03-02,380,,36,,dead load,,2026-03-02,,A "
		"later one of its kind counts in its place.");
	done(&t, "/rig/J1", "form=weight&weight=5+kg&weighs=4.86+kg",
		"/rig/J1?saved=1");
	assert_has(ask(&t, "/rigs", NULL), "J1 is to be doubted");
	yard_close(&t.y);
}

static void
rigs__are_offered_where_a_reading_is_taken(void **state)
{
	char address[32], to[32];
	struct work_bench bench;
	const char *body;
	struct talk t;

	begin(state, &t);
	(void)snprintf(address, sizeof address, "/piece/%s", t.y.piece[0]);
	assert_lacks(ask(&t, address, NULL), "name=\"rig\"");
	put_rigs(&t);
	body = ask(&t, address, NULL);
	assert_has(body,
		"<input type=\"radio\" id=\"bend-rig-0\" name=\"rig\" "
		"value=\"\" checked>");
	assert_has(body, "name=\"rig\" value=\"R1\"");
	assert_has(body, "id=\"drop-rig-1\" name=\"rig\" value=\"D1\"");
	assert_has(body, "id=\"crush-rig-1\" name=\"rig\" value=\"J1\"");
	(void)snprintf(to, sizeof to, "/bend/%s", t.y.piece[0]);
	done(&t, "/rig/R1", "form=rig&loading=third", "/rig/R1?saved=1");
	done(&t, to, "form=bend&rig=R1&loading=&weights=5+kg%2C+2+kg", to);
	assert_has(ask(&t, to, NULL), "Span 600 mm, hanger 1.2 kg");
	assert_ok(work_bench_read(&t.y.desk, t.f->a, &bench, &t.f->err),
		&t.f->err);
	assert_string_equal("third", bench.session[0].loading);
	assert_int_equal(bench.site.rig[0].row.id, bench.session[0].rig_id);
	assert_has(refused(&t, address, "form=crush&rig=R1&gauge=80+bar"),
		"id=\"crush-rig-error\"");
	yard_close(&t.y);
}

static void
prepare__lays_out_what_the_piece_takes(void **state)
{
	char address[64];
	const char *body;
	struct talk t;

	begin(state, &t);
	(void)snprintf(address, sizeof address, "/prepare/%s", t.y.piece[0]);
	assert_has(ask(&t, address, NULL), "Say on which rig:");
	assert_has(refused(&t,
			   text_format(t.f->a, "%s?rig=&test=bending", address),
			   NULL),
		"id=\"prepare-span-error\"");
	put_rigs(&t);
	body = ask(&t, address, NULL); /* the only rig for a beam */
	assert_int_equal(200, t.reply.status);
	assert_has(body, "the hanger of 1.2 kg apart");
	assert_has(body, "What to lay out");
	assert_has(body,
		"<p class=\"caution\"><strong>Caution:</strong> When "
		"it breaks up to");
	assert_has(refused(&t,
			   text_format(t.f->a,
				   "%s?rig=R1&low=0.3+N/mm2&high=0.2+N/mm2",
				   address),
			   NULL),
		"id=\"prepare-low-error\"");
	assert_has(
		refused(&t,
			text_format(t.f->a, "%s?rig=R1&low=0.3+N/mm2", address),
			NULL),
		"id=\"prepare-high-error\"");
	assert_has(refused(&t, text_format(t.f->a, "%s?rig=J1", address), NULL),
		"id=\"prepare-rig-error\"");
	/* D1 has no bar yet: its fields stand here */
	(void)snprintf(
		address, sizeof address, "/prepare/%s", t.y.piece[BEAMS]);
	assert_has(refused(&t, text_format(t.f->a, "%s?rig=D1", address), NULL),
		"id=\"prepare-bar-error\"");
	yard_close(&t.y);
}

static void
prepare__takes_the_mixes_of_a_trial(void **state)
{
	const char *body;
	struct talk t;

	begin(state, &t);
	put_rigs(&t);
	assert_has(refused(&t, "/prepare/T?rig=R1", NULL),
		"id=\"prepare-form-error\"");
	body = ask(&t, "/prepare/T?rig=R1&form=B1", NULL);
	assert_int_equal(200, t.reply.status);
	assert_has(body, "href=\"/prepare/P?rig=R1&amp;form=B1\"");
	assert_has(body, "href=\"/prepare/L?rig=R1&amp;form=B1\"");
	body = ask(&t, "/prepare/T.csv?rig=R1&form=B1", NULL);
	assert_has(body, "\r\nP,");
	assert_has(body, "\r\nL,");
	assert_has(
		ask(&t, "/prepare/P?rig=R1&form=B1", NULL), "What to lay out");
	(void)ask(&t, "/prepare/none", NULL);
	assert_int_equal(404, t.reply.status);
	yard_close(&t.y);
}

static void
budget__says_what_leaves_a_result_open(void **state)
{
	char address[64];
	struct talk t;

	begin(state, &t);
	assert_has(ask(&t, "/budget", NULL),
		"Nothing was bent, dropped on or crushed yet");
	assert_int_equal(200, t.reply.status);
	(void)snprintf(address, sizeof address, "/piece/%s", t.y.piece[BEAMS]);
	done(&t, address,
		"form=drop&place=centre&dent=18.5+mm&bar=2.1+kg&from=900+mm&"
		"tip=ball&tip-diameter=25+mm",
		text_format(t.f->a, "%s?saved=1", address));
	(void)snprintf(address, sizeof address, "/budget/%s", t.y.piece[BEAMS]);
	assert_has(ask(&t, "/budget/crushing_energy", NULL),
		"dent leaves most open");
	assert_has(ask(&t, address, NULL),
		"Whether measuring finer helps cannot be said");
	assert_has(ask(&t, text_format(t.f->a, "%s.csv", address), NULL),
		"read it with a depth gauge");
	assert_has(ask(&t, "/budget/bending_strength", NULL),
		"No test of this kind");
	t.language = "es";
	assert_has(ask(&t, address, NULL),
		"la que más deja abierto: huella; leer");
	(void)ask(&t, "/budget/none", NULL);
	assert_int_equal(404, t.reply.status);
	yard_close(&t.y);
}

static void
rigs__hold_no_value_as_markup(void **state)
{
	static const char *const at[] = {"/rigs", "/bench",
		"/rig/%3Cb%3E%22%27%26", "/rig/R1?check=%3Cb%3E%22",
		"/prepare/P?rig=%3Cb%3E%22&low=%3Cb%3E%22&test=%3Cb%3E",
		"/budget/%3Cb%3E%22"};
	struct talk t;

	begin(state, &t);
	put_rigs(&t);
	done(&t, "/rigs",
		"form=new&code=%3Cb%3E%22%27%26&test=bending&note=%3Cb%3E%22",
		"/rig/%3Cb%3E%22%27%26?saved=1");
	done(&t, "/rig/%3Cb%3E%22%27%26",
		"form=lath&broke=23+kg&check-piece=%3Cb%3E&remark=%3Cb%3E&"
		"code=%3Cb%3E%22%23",
		"/rig/%3Cb%3E%22%27%26?saved=1");
	for (size_t i = 0; i < sizeof at / sizeof at[0]; i++) {
		const char *body = ask(&t, at[i], NULL);

		assert_lacks(body, "<b>");
		assert_lacks(body, "\"'&\"");
	}
	assert_has(ask(&t, at[2], NULL), "?check=%3Cb%3E%22%23#lath\"");
	yard_close(&t.y);
}

static const struct CMUnitTest tests[] = {
	TEST(rigs__are_entered_and_keep_what_an_empty_field_leaves),
	TEST(rigs__say_what_is_wrong_beside_its_field),
	TEST(rigs__checks_are_told_and_corrected_by_their_name),
	TEST(rigs__are_offered_where_a_reading_is_taken),
	TEST(prepare__lays_out_what_the_piece_takes),
	TEST(prepare__takes_the_mixes_of_a_trial),
	TEST(budget__says_what_leaves_a_result_open),
	TEST(rigs__hold_no_value_as_markup),
};

TEST_MAIN(tests)
