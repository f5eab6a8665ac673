/* test_deeds.c - deeds of the command line done on the pages: said, refused
 * beside the field with what was typed, and read back from the book.  The demo
 * house, invented, is in a book of its own. */
#include "place.h"
#include "support.h"

#include "book/book.h"
#include "web/dispatch.h"
#include "work/usual.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { FIELDS_MOST = 24 };

static struct place house; /* one for the group; each test arena its own */

static const char *language = "en";

/* Asks with fields as name and value in turn, ended by NULL; an address may ask
 * something.  Returns the body; *status is the answer's. */
static const char *
ask(struct fixture *f, enum web_method method, const char *address,
	const char *const *pair, int *status, const char **where)
{
	struct web_field field[FIELDS_MOST];
	struct web_request request = {.method = method,
		.tail = "",
		.language = language,
		.may_record = true,
		.arena = f->a,
		.desk = house.desk};
	struct web_reply reply;
	size_t n = 0;

	for (; pair != NULL && pair[2 * n] != NULL; n++)
		field[n] = (struct web_field){pair[2 * n], pair[2 * n + 1],
			strlen(pair[2 * n + 1]), NULL};
	assert_ok(web_address(f->a, address, &request, &f->err), &f->err);
	request.field = field;
	request.n_field = n;
	web_dispatch(&request, &reply);
	*status = reply.status;
	if (where != NULL)
		*where = reply.see_other;
	return reply.body.bytes != NULL ? reply.body.bytes : "";
}

static const char *
get(struct fixture *f, const char *address)
{
	int status;
	const char *body = ask(f, WEB_GET, address, NULL, &status, NULL);

	assert_int_equal(200, status);
	return body;
}

/* An address that asks what cannot be: the page with the fault. */
static const char *
get_refused(struct fixture *f, const char *address)
{
	int status;
	const char *body = ask(f, WEB_GET, address, NULL, &status, NULL);

	assert_int_equal(422, status);
	return body;
}

/* Done: the answer leads on. */
#define assert_done(f, address, ...) \
	send((f), (address), 303,    \
		(const char *const[]){__VA_ARGS__, NULL, NULL})
/* Refused: 422, and the page holds the words. */
#define refused(f, address, ...)  \
	send((f), (address), 422, \
		(const char *const[]){__VA_ARGS__, NULL, NULL})

static const char *
send(struct fixture *f, const char *address, int wanted,
	const char *const *pair)
{
	const char *where, *body;
	int status;

	body = ask(f, WEB_POST, address, pair, &status, &where);
	if (status != wanted)
		print_error("%s: %d\n%s\n", address, status, body);
	assert_int_equal(wanted, status);
	return wanted == 303 ? where : body;
}

/* No markup that was typed stands on a page. */
static const char hostile[] = "<img src=x onerror=alert(1)>\"'";

static void
assert_tame(const char *body)
{
	assert_lacks(body, "<img src=x");
}

/* ---- what is usual ---- */

static void
usual__is_listed_set_and_taken_back(void **state)
{
	struct fixture *f = *state;
	const char *wall = "Table 3 <of> the code";

	assert_has(get(f, "/usual"), "bending strength at least 0.300 N/mm2");
	assert_string_equal("/usual?saved=1",
		assert_done(f, "/usual", "form", "ask", "kind", "wall", "what",
			"screw_pull", "bound", "at least 0.517 kN", "source",
			wall));
	assert_has(get(f, "/usual"), "screw pull-out at least 0.517 kN");
	assert_has(get(f, "/usual"), "Table 3 &lt;of&gt; the code");
	assert_has(get(f, "/usual.csv"), "Table 3 <of> the code");
	(void)assert_done(f, "/usual", "form", "drop", "kind", "wall", "what",
		"screw_pull", "source", "own wish");
	assert_has(get(f, "/usual"), "this book: no longer asked");
	(void)assert_done(f, "/usual", "form", "as-it-comes", "kind", "wall");
	assert_has(get(f, "/usual"), "screw pull-out at least 0.300 kN");
	assert_lacks(get(f, "/usual"), "this book: no longer asked");
}

static void
usual__refuses_beside_the_field(void **state)
{
	struct fixture *f = *state;
	const char *body = refused(f, "/usual", "form", "ask", "kind", "wall",
		"what", "screw_pull", "bound", "at least 5 kg", "source", "x");

	assert_has(body, "id=\"ask-bound-error\"");
	assert_has(body, "value=\"at least 5 kg\"");
	body = refused(f, "/usual", "form", "ask", "bound", hostile);
	assert_tame(body);
	assert_has(body, "id=\"ask-kind-error\"");
	assert_has(body, "id=\"ask-source-error\"");
	body = refused(f, "/usual", "form", "ask", "kind", hostile, "what",
		hostile, "bound", "at most 3", "source", hostile);
	assert_tame(body);
	body = refused(f, "/usual", "form", "drop", "kind", "wall", "what",
		"dent", "source", "x");
	assert_has(body, "Nothing of that is usually asked");
	(void)refused(f, "/usual", "form", "as-it-comes");
}

static void
usual__begins_a_bound_in_the_readers_language(void **state)
{
	struct fixture *f = *state;

	language = "es";
	(void)assert_done(f, "/usual", "form", "ask", "kind", "block", "what",
		"dent", "bound", "como m\xC3\xA1ximo 7 mm", "source", "x");
	(void)refused(f, "/usual", "form", "ask", "kind", "block", "what",
		"dent", "bound", "7 mm", "source", "x");
	assert_has(get(f, "/usual"), "como m\xC3\xA1ximo 7.00 mm");
	language = "en";
	assert_has(get(f, "/usual"), "at most 7.00 mm");
}

/* ---- weights ---- */

static void
weights__are_kept_for_the_house_and_a_part(void **state)
{
	struct fixture *f = *state;

	(void)assert_done(f, "/weights", "form", "set-weights", "cost", "2.5",
		"heat", "1");
	assert_string_equal("/weights?part=floor&saved=1",
		assert_done(f, "/weights?part=floor", "form", "set-weights",
			"strength", "3"));
	assert_has(get(f, "/weights.csv"), "the house,,,2.5,,1\r\n");
	assert_has(get(f, "/weights.csv"), "Floor layer,,3,,,\r\n");
	(void)assert_done(f, "/weights?part=floor", "form", "drop-weights");
	assert_has(get(f, "/weights.csv"), "Floor layer,,,,,\r\n");
	(void)assert_done(f, "/weights", "form", "drop-weights");
	(void)refused(f, "/weights", "form", "drop-weights");
}

static void
weights__refuse_what_is_no_weight(void **state)
{
	struct fixture *f = *state;
	const char *body = refused(f, "/weights", "form", "set-weights", "cost",
		"-2", "heat", hostile);
	int status;

	assert_has(body, "value=\"-2\"");
	assert_has(body, "id=\"set-weights-cost-error\"");
	assert_has(body, "id=\"set-weights-heat-error\"");
	assert_tame(body);
	(void)refused(f, "/weights", "form", "set-weights");
	(void)ask(f, WEB_GET, "/weights?part=nix", NULL, &status, NULL);
	assert_int_equal(404, status);
}

/* ---- rules that warn ---- */

static void
warnings__are_listed_with_what_they_say(void **state)
{
	struct fixture *f = *state;
	const char *said = get(f, "/warnings.csv?table=said");

	/* batch 03 of the demo sank 19 % within a day (demo/batches.csv) */
	assert_has(said, "W9,batch 03,");
	assert_has(get(f, "/warnings"), "watch 5 %, stop 10 %");
	assert_has(get(f, "/warning/w9"), "sank 19 %");
}

static void
warning__is_set_silenced_and_brought_back(void **state)
{
	struct fixture *f = *state;

	(void)assert_done(f, "/warning/W4", "form", "set-rule", "limit-watch",
		"6.25", "limit-watch_unit", "%", "why", hostile);
	assert_has(get(f, "/warning/W4"), "watch 6.25 % (set in this book)");
	assert_tame(get(f, "/warning/W4"));
	(void)assert_done(f, "/warning/W4", "form", "set-rule", "state", "off",
		"why", "one bucket");
	assert_has(get(f, "/warning/W4"), "silenced");
	(void)assert_done(f, "/warning/W4", "form", "as-it-comes");
	assert_has(get(f, "/warning/W4"), "watch 5 %, stop 10 %");
}

static void
warning__refuses_beside_the_field(void **state)
{
	struct fixture *f = *state;
	const char *body = refused(f, "/warning/W4", "form", "set-rule",
		"limit-watch", "600", "limit-watch_unit", "%", "why", "x");
	int status;

	assert_has(body, "id=\"set-rule-limit-watch-error\"");
	assert_has(body, "value=\"600\"");
	body = refused(f, "/warning/W4", "form", "set-rule", "limit-stop",
		"5 kg", "why", "x");
	assert_has(body, "id=\"set-rule-limit-stop-error\"");
	body = refused(f, "/warning/W4", "form", "set-rule", "state", "off");
	assert_has(body, "id=\"set-rule-why-error\"");
	body = refused(f, "/warning/W4", "form", "set-rule");
	assert_has(body, "id=\"set-rule-state-error\"");
	(void)ask(f, WEB_GET, "/warning/W99", NULL, &status, NULL);
	assert_int_equal(404, status);
}

/* ---- at the mixer ---- */

static void
sheet__is_made_for_another_size_without_gear(void **state)
{
	struct fixture *f = *state;
	const char *body = get(f, "/batch/01");

	assert_has(body, "There is no sheet to weigh by");
	assert_has(body, "How much is to be cast");
	body = get(f, "/batch/01?volume=36.5&volume_unit=L");
	assert_lacks(body, "There is no sheet");
	assert_has(body, "What goes in");
	assert_has(body, "action=\"/batch/01?volume=36.5%20L\"");
	body = get_refused(f, "/batch/01?volume=many&volume_unit=L");
	assert_has(body, "value=\"many\"");
	assert_has(body, "id=\"sheet-volume-error\"");
}

static void
batch__keeps_set_time_and_delivery(void **state)
{
	struct fixture *f = *state;
	const struct book_batch_part *part;
	size_t n;

	(void)assert_done(f, "/materials", "form", "material", "code", "cement",
		"lot", "L7", "bought-on", "2026-03-02");
	assert_has(get(f, "/batch/01?volume=40&volume_unit=L"),
		"Of which delivery: cement");
	assert_string_equal("/batch/01?volume=40%20L&saved=weighed",
		assert_done(f, "/batch/01?volume=40+L", "form", "weighed",
			"put-cement", "12.3 kg", "lot-cement", "L7"));
	(void)assert_done(f, "/batch/01", "form", "around", "set-time", "7",
		"set-time_unit", "h");
	assert_ok(
		book_all_batch_part(house.desk.book, f->a, &part, &n, &f->err),
		&f->err);
	assert_true(n > 0);
	assert_string_equal("L7", part[n - 1].lot);
	(void)refused(f, "/batch/01", "form", "around", "set-time", "soon");
	(void)refused(f, "/batch", "form", "new-batch", "code", "99", "on",
		"2026-13-40");
}

static void
material__takes_dilution_hardness_and_a_remark(void **state)
{
	struct fixture *f = *state;
	const struct book_material *m;
	const char *body;
	size_t n, i = 0;

	(void)assert_done(f, "/materials", "form", "material", "code",
		"agent-x", "from", "synthetic-agent", "dilution", "33", "note",
		hostile);
	(void)assert_done(f, "/materials", "form", "material", "code", "net",
		"role", "reinforcement");
	assert_ok(book_all_material(house.desk.book, f->a, &m, &n, &f->err),
		&f->err);
	while (i < n && strcmp(m[i].code, "agent-x") != 0)
		i++;
	assert_true(i < n);
	assert_near(m[i].dilution_ratio.value, 33, 0, 0);
	assert_string_equal(hostile, m[i].note);
	body = refused(f, "/materials", "form", "material", "code", "agent-x",
		"dilution", "-1", "carbon", "much");
	assert_has(body, "id=\"material-dilution-error\"");
	assert_has(body, "id=\"material-carbon-error\"");
	assert_tame(get(f, "/materials"));
}

static void
mix__takes_a_material_out_and_says_what_lies_in_it(void **state)
{
	struct fixture *f = *state;
	const char *body;

	(void)assert_done(f, "/mixes", "form", "mix", "code", "Z", "like", "F",
		"without", "ash", "matrix", "B", "reinforcement", hostile);
	body = get(f, "/mix/Z.csv?table=recipe");
	assert_has(body, "cement");
	assert_lacks(body, "ash");
	assert_has(get(f, "/mix/F.csv?table=recipe"), "ash");
	assert_tame(get(f, "/mixes"));
	body = refused(f, "/mixes", "form", "mix", "code", "Z", "matrix", "QQ");
	assert_has(body, "There is no mix &quot;QQ&quot;");
}

static void
jar__is_looked_at_and_told(void **state)
{
	struct fixture *f = *state;
	const char *body;

	(void)assert_done(f, "/gear", "form", "generator", "code", "G1",
		"metering", "volume", "target", "70", "target_unit", "g/L",
		"vessel", "10.3", "vessel_unit", "L", "vessel-empty", "0.6",
		"vessel-empty_unit", "kg", "scale-step", "5", "scale-step_unit",
		"g");
	body = refused(f, "/foam/G1", "form", "jar", "after", "30",
		"after_unit", "min", "drained", "12", "drained_unit", "g");
	assert_has(body, "id=\"jar-jar-foam-error\"");
	assert_has(body, "value=\"12\"");
	(void)assert_done(f, "/foam/G1", "form", "jar", "jar-foam", "70",
		"jar-foam_unit", "g", "after", "30", "after_unit", "min",
		"drained", "12", "drained_unit", "g");
	(void)assert_done(f, "/foam/G1", "form", "jar", "after", "1",
		"after_unit", "h", "drained", "40", "drained_unit", "g");
	/* half of 70 g between 12 g at 30 min and 40 g at 60 min: 54.6 min */
	assert_has(get(f, "/foam/G1"), "half its liquid in 55 min");
	body = refused(f, "/foam/G1", "form", "jar", "after", "2", "after_unit",
		"h", "drained", "400", "drained_unit", "g");
	assert_has(body, "400 g cannot run out of 70 g");
	assert_has(refused(f, "/foam/G1", "form", "foam-check"),
		"id=\"foam-check-gross-error\"");
}

/* ---- the building ---- */

static void
part__takes_skins_and_gives_up_what_it_asks(void **state)
{
	struct fixture *f = *state;
	const char *body;

	(void)assert_done(f, "/part/wall-w", "form", "skin", "side", "outside",
		"skin", hostile, "skin-thickness", "15", "skin-thickness_unit",
		"mm", "conductivity", "0.6", "conductivity_unit", "W/(m.K)",
		"density", "1300", "density_unit", "kg/m3");
	body = get(f, "/part/wall-w");
	assert_tame(body);
	assert_has(body, "dry weight at most 700 kg/m3");
	(void)assert_done(f, "/part/wall-w", "form", "part", "what-1", "dent",
		"bound-1", "at most 5 mm");
	assert_has(get(f, "/part/wall-w"), "at most 5.00 mm");
	(void)assert_done(f, "/part/wall-w", "form", "drop", "what", "dent");
	assert_lacks(get(f, "/part/wall-w"), "at most 5.00 mm");
	body = refused(f, "/part/wall-w", "form", "skin", "side", "up",
		"skin-thickness", "0", "skin-thickness_unit", "mm");
	assert_has(body, "id=\"skin-side-error\"");
	assert_has(body, "id=\"skin-skin-error\"");
	assert_has(body, "id=\"skin-skin-thickness-error\"");
	body = refused(f, "/part/wall-w", "form", "part", "what-2", "dent",
		"bound-2", "5 mm");
	assert_has(body, "id=\"part-bound-2-error\"");
}

static void
part__of_another_name_is_not_changed_by_a_hidden_field(void **state)
{
	struct fixture *f = *state;

	(void)assert_done(f, "/part/wall-w", "form", "part", "code", "floor",
		"name", "Walls renamed");
	assert_has(get(f, "/part/wall-w"), "Walls renamed");
	assert_lacks(get(f, "/part/floor"), "Walls renamed");
}

static void
plan__is_asked_by_days_and_order(void **state)
{
	struct fixture *f = *state;
	const char *body;

	(void)assert_done(f, "/choose", "part", "floor", "mix", "D", "because",
		"strongest");
	body = get(f,
		"/plan?from=2027-05-10&sun=yes&off=2027-05-17,+2027-05-18&"
		"air=5%3D9+degC&batch=80&batch_unit=L&stretch=5&stretch_unit="
		"m");
	assert_has(body, "poured by");
	/* the picture and the calendar are of what was asked */
	assert_has(body, "/chart/plan.svg?from=2027-05-10&amp;sun=yes");
	assert_has(body, "/plan/calendar.ics?from=2027-05-10&amp;sun=yes");
	body = get_refused(f, "/plan?cold=never&air=13%3D5+C&after=floor");
	assert_has(body, "id=\"plan-air-error\"");
	assert_has(body, "id=\"plan-after-error\"");
	body = get_refused(f, "/plan?off=never&batch=80&batch_unit=L");
	assert_has(body, "id=\"plan-off-error\"");
	assert_has(body, "value=\"never\"");
}

/* ---- the choice ---- */

static void
confirm__keeps_its_ranges_sealed(void **state)
{
	struct fixture *f = *state;
	const char *body;

	body = refused(f, "/confirm", "form", "confirm", "part", "roof");
	assert_has(body, "id=\"confirm-mix-error\"");
	body = refused(f, "/confirm", "form", "confirm", "part", "floor", "mix",
		"D", "batches", "1");
	assert_has(body, "id=\"confirm-batches-error\"");
	(void)refused(f, "/confirm", "form", "confirm");
	(void)assert_done(
		f, "/confirm", "form", "confirm", "part", "floor", "mix", "D");
	assert_has(get(f, "/confirm.csv"),
		"floor,D,bending strength,N/mm2,sealed,,batches read: 0 / 2");
	(void)refused(
		f, "/confirm", "form", "confirm", "part", "floor", "mix", "D");
}

static void
choose__shows_what_if_and_writes_nothing(void **state)
{
	struct fixture *f = *state;
	int64_t before, after;

	assert_ok(book_state(house.desk.book, &before, &f->err), &f->err);
	assert_has(get(f, "/choose?material=cement&price=40"), "What if: the");
	assert_has(get_refused(f, "/choose?material=cement"),
		"id=\"what-if-price-error\"");
	assert_has(get_refused(f, "/next?a-day=0&measure=zz"),
		"id=\"next-measure-error\"");
	assert_has(get_refused(f, "/design?part=floor&chance=950+%25"),
		"id=\"design-chance-error\"");
	assert_has(get_refused(f, "/screen?part=floor&mix=ZZ"),
		"id=\"screen-mix-error\"");
	assert_ok(book_state(house.desk.book, &after, &f->err), &f->err);
	assert_int_equal(before, after);
}

static void
firm__holds_the_textbook_tests_and_each_batch_left_out(void **state)
{
	struct fixture *f = *state;

	const char *page = get(f, "/firm");

	/* what compare --classical gives of the demo house; stats/test_oneway
	 * holds the method against NIST, R and printed examples */
	assert_has(page, "0.000369");
	assert_has(page, "One-way analysis of variance, batch means");
	assert_has(page, "Each batch left out in turn");
	assert_has(page, "Beams snapped before their test");
	assert_has(get_refused(f, "/firm?measure=nothing"),
		"id=\"firm-measure-error\"");
	assert_tame(get_refused(
		f, "/firm?measure=%3Cimg+src%3Dx+onerror%3Dalert(1)%3E"));
}

static void
compare__has_every_answer_before_the_pictures(void **state)
{
	struct fixture *f = *state;
	const char *page = get(f, "/compare");
	const char *pictures = strstr(page, "/chart/");
	const char *taken = strstr(page, "Taken for granted beforehand");

	assert_non_null(pictures);
	assert_non_null(taken);
	assert_null(strstr(pictures, "/firm?measure="));
	assert_non_null(strstr(page, "/firm?measure=crushing_strength"));
	assert_null(strstr(taken + 1, "Taken for granted beforehand"));
}

static void
choose__has_every_answer_before_the_picture(void **state)
{
	struct fixture *f = *state;
	const char *body = get(f, "/choose");
	const char *chart = strstr(body, "/chart/choice.svg");
	static const char *const said[] = {
		"<p>Floor layer: ", "<p>Guest house walls: ", "<p>Roof fill: "};

	assert_non_null(chart);
	for (size_t i = 0; i < sizeof said / sizeof said[0]; i++) {
		const char *at = strstr(body, said[i]);

		if (at == NULL || at > chart)
			fail_msg("%s: not before the picture", said[i]);
	}
}

/* ---- the bench ---- */

static void
bent__is_told_at_once(void **state)
{
	struct fixture *f = *state;
	const char *body = refused(f, "/bent/01-B-1", "form", "bent", "held",
		"12", "held_unit", "kg", "broke", "10", "broke_unit", "kg");

	assert_has(body, "id=\"bent-broke-error\"");
	assert_has(body, "value=\"10\"");
	assert_has(refused(f, "/bent/01-B-1", "form", "bent"),
		"id=\"bent-held-error\"");
	assert_string_equal("/piece/01-B-1?saved=1",
		assert_done(f, "/bent/01-B-1", "form", "bent", "held", "12.7",
			"held_unit", "kg", "broke", "14", "broke_unit", "kg",
			"span", "600", "span_unit", "mm", "hanger", "1",
			"hanger_unit", "kg", "remark", hostile));
	assert_tame(get(f, "/piece/01-B-1"));
	body = refused(f, "/piece/01-B-1", "form", "crush", "half", "100",
		"half_unit", "mm", "width", "100", "width_unit", "mm");
	assert_has(body, "id=\"crush-half-error\"");
	(void)assert_done(f, "/piece/01-B-1", "form", "crush", "half", "100",
		"half_unit", "mm", "code", "a", "load", "3.1", "load_unit",
		"kN");
}

static void
measured__takes_code_steps_and_remark(void **state)
{
	struct fixture *f = *state;
	const struct book_reading *r;
	size_t n;

	(void)assert_done(f, "/measure/01-B-2", "form", "moisture", "mass",
		"803", "mass_unit", "g", "dry", "741.5", "dry_unit", "g",
		"code", "b", "remark", hostile);
	assert_ok(book_all_reading(house.desk.book, f->a, &r, &n, &f->err),
		&f->err);
	assert_true(n > 0);
	assert_string_equal("b", r[n - 1].code);
	assert_string_equal(hostile, r[n - 1].remark);
	assert_has(refused(f, "/measure/01-B-2", "form", "rise", "time", "1",
			   "time_unit", "h", "height", "20", "height_unit",
			   "mm", "height-step", "coarse"),
		"id=\"rise-height-step-error\"");
}

/* How often the book holds this test now, of any piece. */
static size_t
times_held(struct fixture *f, const char *kind, const char *code)
{
	const struct book_reading *r;
	size_t n, held = 0;

	assert_ok(book_all_reading(house.desk.book, f->a, &r, &n, &f->err),
		&f->err);
	for (size_t i = 0; i < n; i++)
		held += strcmp(r[i].kind, kind) == 0 &&
			strcmp(r[i].code, code) == 0;
	return held;
}

/* A test of two words, and its code of two. */
static void
record__takes_a_test_of_two_words_back(void **state)
{
	struct fixture *f = *state;

	(void)assert_done(f, "/measure/01-B-p1", "form", "hotbox", "power",
		"12", "power_unit", "W", "warm", "31", "warm_unit", "degC",
		"cold", "18", "cold_unit", "degC", "code", "by night");
	assert_int_equal(1, times_held(f, "hot box", "by night"));
	assert_has(refused(f, "/record", "kind", "reading", "code",
			   "01-B-p1 hot by night", "because", "wrong piece"),
		"id=\"withdraw-code\"");
	assert_int_equal(1, times_held(f, "hot box", "by night"));
	(void)assert_done(f, "/record", "kind", "reading", "code",
		"01-B-p1 hot box by night", "because", "wrong piece");
	assert_int_equal(0, times_held(f, "hot box", "by night"));
	language = "es";
	(void)assert_done(f, "/record", "kind", "reading", "code",
		"01-B-p1 caja caliente by night", "because", "era esa",
		"restore", "yes");
	language = "en";
	assert_int_equal(1, times_held(f, "hot box", "by night"));
}

static void
due__is_shown_blind_and_of_another_day(void **state)
{
	struct fixture *f = *state;

	(void)assert_done(f, "/bench", "form", "form", "code", "T1", "shape",
		"bar", "width", "40", "width_unit", "mm", "depth", "40",
		"depth_unit", "mm", "length", "160", "length_unit", "mm");
	(void)assert_done(f, "/bench", "form", "pieces", "batch", "14", "mould",
		"T1", "count", "2");
	assert_has(get(f, "/due.csv?table=later"), ",Q,14,");
	assert_lacks(get(f, "/due.csv?table=later&blind=yes"), ",Q,14,");
	assert_has(get_refused(f, "/due?on=soon"), "id=\"day-on-error\"");
}

/* ---- what docs/serving.md says ---- */

static const char *
read_source(struct fixture *f, const char *name)
{
	enum { MOST = 1 << 16 };
	const char *root = getenv("FOAMWRIGHT_SOURCE");
	const char *path = text_format(
		f->a, "%s/%s", root != NULL ? root : ".", name);
	char *bytes = arena_take(f->a, MOST, 1);
	FILE *file = fopen(path, "rb");

	assert_non_null(file);
	assert_non_null(bytes);
	bytes[fread(bytes, 1, MOST - 1, file)] = '\0';
	(void)fclose(file);
	return bytes;
}

/* The first n bytes with something before and after them. */
static const char *
between(struct fixture *f, const char *before, const char *bytes, size_t n,
	const char *after)
{
	struct text text;

	text_init(&text, f->a);
	text_add(&text, before);
	text_add_n(&text, bytes, n);
	text_add(&text, after);
	assert_false(text_failed(&text));
	return text.bytes;
}

/* Every command of command_names.h has its row, and every address of the table
 * its route. */
static void
serving__names_every_command_and_no_address_that_is_not(void **state)
{
	static const char head[] = "COMMAND_NAME(command_";
	struct fixture *f = *state;
	const char *names = read_source(f, "src/cli/command_names.h");
	const char *routes = read_source(f, "src/web/route_names.h");
	const char *table = strstr(read_source(f, "docs/serving.md"),
		"## The same deeds as the command line");
	size_t n = 0;

	assert_non_null(table);
	for (const char *at = strstr(names, head); at != NULL;
		at = strstr(at, head)) {
		at += sizeof head - 1;
		assert_has(table, between(f, "`", at, strcspn(at, ")"), "`"));
		n++;
	}
	assert_true(n > 50);
	for (const char *at = strstr(table, "`/"); at != NULL;
		at = strstr(at, "`/")) {
		size_t slash;

		if (strstr(at, "## Labels") == NULL)
			break;
		at += 2;
		slash = strcspn(at, "/`?");
		assert_has(routes,
			between(f, "\"/", at, slash,
				at[slash] == '/' ? "/\"" : "\""));
	}
}

static int
furnish(void **state)
{
	void *own = NULL;

	(void)state;
	if (fixture_up(&own) != 0)
		return -1;
	open_place(own, &house);
	return fixture_down(&own);
}

static int
clear_away(void **state)
{
	(void)state;
	close_place(&house);
	return 0;
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		TEST(usual__is_listed_set_and_taken_back),
		TEST(usual__refuses_beside_the_field),
		TEST(usual__begins_a_bound_in_the_readers_language),
		TEST(weights__are_kept_for_the_house_and_a_part),
		TEST(weights__refuse_what_is_no_weight),
		TEST(warnings__are_listed_with_what_they_say),
		TEST(warning__is_set_silenced_and_brought_back),
		TEST(warning__refuses_beside_the_field),
		TEST(sheet__is_made_for_another_size_without_gear),
		TEST(batch__keeps_set_time_and_delivery),
		TEST(material__takes_dilution_hardness_and_a_remark),
		TEST(mix__takes_a_material_out_and_says_what_lies_in_it),
		TEST(jar__is_looked_at_and_told),
		TEST(part__takes_skins_and_gives_up_what_it_asks),
		TEST(part__of_another_name_is_not_changed_by_a_hidden_field),
		TEST(plan__is_asked_by_days_and_order),
		TEST(confirm__keeps_its_ranges_sealed),
		TEST(choose__shows_what_if_and_writes_nothing),
		TEST(compare__has_every_answer_before_the_pictures),
		TEST(choose__has_every_answer_before_the_picture),
		TEST(firm__holds_the_textbook_tests_and_each_batch_left_out),
		TEST(bent__is_told_at_once),
		TEST(measured__takes_code_steps_and_remark),
		TEST(record__takes_a_test_of_two_words_back),
		TEST(due__is_shown_blind_and_of_another_day),
		TEST(serving__names_every_command_and_no_address_that_is_not),
	};

	support_start();
	return cmocka_run_group_tests(tests, furnish, clear_away);
}
