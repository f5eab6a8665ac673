/* test_purchase.c - lifts, deliveries, mesh, witness list and calendar. */
#include "support.h"

#include "build/ics.h"
#include "build/lifts.h"
#include "build/purchase.h"
#include "build/witness.h"
#include "core/rng.h"

#include <gsl/gsl_rng.h>
#include <math.h>
#include <string.h>

/* Never short on any day, and no package more than the sum takes. */
static void
deliveries__are_never_short_and_never_a_package_too_many(void **state)
{
	struct fixture *f = *state;
	gsl_rng *rng = rng_new(3313, 0);
	const double hair = 1e-8; /* what the code takes for a rounding */

	for (int i = 0; i < 5000; i++) {
		struct arena_mark mark = arena_mark(f->a);
		struct build_need need[20];
		const struct build_delivery *d;
		size_t n = 1 + gsl_rng_uniform_int(rng, 20), n_d, at = 0;
		double package = 1 + 40 * gsl_rng_uniform(rng);
		double sum = 0, there = 0;

		for (size_t k = 0; k < n; k++)
			need[k] = (struct build_need){
				(k > 0 ? need[k - 1].day : 3) +
					gsl_rng_uniform_int(rng, 4),
				90 * gsl_rng_uniform(rng)};
		assert_ok(build_deliveries(f->a, need, n, package,
				  1 + gsl_rng_uniform_int(rng, 30), &d, &n_d,
				  &f->err),
			&f->err);
		for (size_t k = 0; k < n; k++) {
			for (; at < n_d && d[at].day <= need[k].day; at++) {
				assert_true(d[at].n_package ==
					floor(d[at].n_package));
				there += d[at].kg;
			}
			sum += need[k].kg;
			assert_true(there >= sum * (1 - hair));
		}
		assert_int_equal(n_d, at);
		assert_true(there - package < sum);
		arena_back(f->a, mark);
	}
	gsl_rng_free(rng);
}

/* Of any parts in any packages: whole packages, up to every part enough and not
 * one too many, all together those of the sum, and alone never fewer. */
static void
shares__are_never_short_and_add_up(void **state)
{
	struct fixture *f = *state;
	gsl_rng *rng = rng_new(90127, 0);
	const double hair =
		2e-9; /* what the code takes for a rounding, twice */

	for (int i = 0; i < 10000; i++) {
		struct arena_mark mark = arena_mark(f->a);
		const size_t n = 1 + gsl_rng_uniform_int(rng, 12);
		const double package = exp(8 * gsl_rng_uniform(rng) - 3);
		const struct build_share *s;
		double kg[12], sum = 0, opened = 0, alone = 0;

		for (size_t k = 0; k < n; k++) {
			kg[k] = gsl_rng_uniform(rng) < 0.1
				? 0
				: package * exp(9 * gsl_rng_uniform(rng) - 6);
			if (gsl_rng_uniform(rng) < 0.2) /* just whole ones */
				kg[k] = package *
					(double)gsl_rng_uniform_int(rng, 40);
		}
		assert_ok(build_shares(f->a, kg, n, package, &s, &f->err),
			&f->err);
		for (size_t k = 0; k < n; k++) {
			sum += kg[k];
			opened += s[k].n_package;
			alone += s[k].n_alone;
			assert_true(s[k].n_package == floor(s[k].n_package) &&
				s[k].n_alone == floor(s[k].n_alone));
			assert_true(s[k].n_package >= 0);
			assert_true(
				s[k].n_alone * package >= kg[k] * (1 - hair));
			assert_true(opened * package >= sum * (1 - hair));
			assert_true(
				(opened - 1) * package < sum || opened < 0.5);
			assert_near(s[k].left_kg,
				fmax(0, opened * package - sum), 1e-12,
				1e-9 * sum);
			assert_true(s[k].left_kg <= package * (1 + hair));
		}
		assert_true(alone >= opened);
		assert_near(opened, ceil(sum / package * (1 - hair / 2)), 0, 0);
		arena_back(f->a, mark);
	}
	gsl_rng_free(rng);
}

/* By hand: 30, 10 and 60 kg in bags of 25: alone 2, 1 and 3 (20, 15 and 15 left),
 * in turn 2 (20 left), none (10 left), 2 (none left). */
static void
shares__worked_by_hand(void **state)
{
	struct fixture *f = *state;
	const double kg[] = {30, 10, 60}, bad[] = {30, -1};
	const double alone[] = {2, 1, 3}, left_alone[] = {20, 15, 15};
	const double turn[] = {2, 0, 2}, left[] = {20, 10, 0};
	const struct build_share *s;

	assert_ok(build_shares(f->a, kg, 3, 25, &s, &f->err), &f->err);
	for (int i = 0; i < 3; i++) {
		assert_near(s[i].n_alone, alone[i], 0, 0);
		assert_near(s[i].left_alone_kg, left_alone[i], 1e-12, 1e-12);
		assert_near(s[i].n_package, turn[i], 0, 0);
		assert_near(s[i].left_kg, left[i], 1e-12, 1e-12);
	}
	assert_int_equal(ERR_INPUT, build_shares(f->a, bad, 2, 25, &s, NULL));
	assert_int_equal(ERR_INPUT, build_shares(f->a, kg, 3, 0, &s, NULL));
	assert_int_equal(ERR_INPUT, build_shares(f->a, kg, 3, NAN, &s, NULL));
}

/* By hand: 70, 50 and 20 kg in bags of 25: three bags (75) on day 2 for two
 * weeks hold the 70; on day 20 the 5 left and 65 more for 50 and 20. */
static void
deliveries__worked_by_hand(void **state)
{
	struct fixture *f = *state;
	const struct build_need need[] = {{2, 70}, {20, 50}, {21, 20}};
	const struct build_need back[] = {{5, 1}, {4, 1}};
	const struct build_delivery *d;
	size_t n;

	assert_ok(build_deliveries(f->a, need, 3, 25, 14, &d, &n, &f->err),
		&f->err);
	assert_int_equal(2, n);
	assert_int_equal(2, d[0].day);
	assert_true(d[0].n_package == 3);
	assert_int_equal(20, d[1].day);
	assert_true(d[1].n_package == 3);
	assert_int_equal(ERR_INPUT,
		build_deliveries(f->a, back, 2, 25, 14, &d, &n, NULL));
	assert_int_equal(ERR_INPUT,
		build_deliveries(f->a, need, 3, NAN, 14, &d, &n, NULL));
	assert_int_equal(ERR_INPUT,
		build_deliveries(f->a, need, 3, 25, 0, &d, &n, NULL));
}

/* 18.4 m x 2.4 m, sheets of 2.4 m x 1.2 m, laps of 0.15 m: (2.4 - 0.15) / 1.05
 * = 2.14, 3 courses; (18.4 - 0.15) / 2.25 = 8.1, 9 sheets in each. */
static void
mesh__worked_by_hand(void **state)
{
	struct fixture *f = *state;
	struct build_mesh mesh = {1.2, 2.4, 0.15, 2};
	double n = 77;

	assert_ok(build_mesh_sheets(&mesh, 18.4, 2.4, &n, &f->err), &f->err);
	assert_true(n == 54);
	mesh.lap_m = 1.2;
	assert_int_equal(
		ERR_INPUT, build_mesh_sheets(&mesh, 18.4, 2.4, &n, NULL));
	mesh.lap_m = 0.15;
	assert_int_equal(
		ERR_INPUT, build_mesh_sheets(&mesh, NAN, 2.4, &n, NULL));
	assert_true(n == 54);
}

static struct maybe
known(double value)
{
	return (struct maybe){true, value};
}

/* Lifts cover the part without gaps and add up; none is higher, longer or
 * fuller than asked; the pressure is that of a fluid: 720 kg/m3 x 0.6 m. */
static void
lifts__add_up(void **state)
{
	struct fixture *f = *state;
	gsl_rng *rng = rng_new(911, 0);
	const double hair = 1e-9;

	for (int i = 0; i < 2000; i++) {
		struct arena_mark mark = arena_mark(f->a);
		const struct build_part part = {.code = "W",
			.length_m = known(0.5 + 20 * gsl_rng_uniform(rng)),
			.height_m = known(0.2 + 3 * gsl_rng_uniform(rng)),
			.thickness_m = known(0.2)};
		const struct build_cut cut = {
			.lift_m = 0.2 + gsl_rng_uniform(rng),
			.stretch_m = 1 + 9 * gsl_rng_uniform(rng),
			.mixed_m3 = 0.1 + 9 * gsl_rng_uniform(rng),
			.batch_m3 = 0.05 + 0.1 * gsl_rng_uniform(rng),
			.day_batch = 20,
			.wet_kg_m3 = 720};
		bool wall = gsl_rng_uniform(rng) < 0.7;
		const struct build_cut_lift *l;
		double sum = 0, end = 0;
		size_t n;

		assert_ok(build_lifts(f->a, &part, wall, &cut, &l, &n, &f->err),
			&f->err);
		for (size_t k = 0; k < n; k++) {
			sum += l[k].volume_m3;
			assert_int_equal(k + 1, l[k].number);
			assert_true(l[k].volume_m3 / (double)l[k].n_batch <=
				cut.batch_m3 * (1 + hair));
			assert_true(l[k].to_m - l[k].from_m <=
				cut.stretch_m * (1 + hair));
			assert_true(!wall ||
				l[k].height_m <= cut.lift_m * (1 + hair));
			assert_true(wall || l[k].n_batch <= 20);
			assert_near(l[k].pressure_Pa,
				720 * 9.80665 * l[k].height_m, 1e-14, 0);
			if (k > 0 && l[k].stretch != l[k - 1].stretch)
				assert_near(l[k].from_m, end, 1e-12, 0);
			end = l[k].to_m;
		}
		assert_near(sum, cut.mixed_m3, 1e-12, 0);
		assert_near(end, part.length_m.value, 1e-12, 0);
		arena_back(f->a, mark);
	}
	gsl_rng_free(rng);
}

static void
lifts__refuses_what_cannot_be(void **state)
{
	struct fixture *f = *state;
	const struct build_part part = {.code = "W",
		.length_m = known(8),
		.height_m = known(2.4),
		.thickness_m = known(0.2)};
	const struct build_cut good = {0.6, 0, 3, 0.12, 20, 720};
	const struct build_cut_lift *l = NULL;
	size_t n = 77;

	for (int which = 0; which < 5; which++) {
		struct build_cut bad = good;
		double *const size[] = {&bad.lift_m, &bad.stretch_m,
			&bad.mixed_m3, &bad.batch_m3, &bad.wet_kg_m3};

		*size[which] = which == 1 ? -1 : 0;
		assert_int_equal(ERR_INPUT,
			build_lifts(f->a, &part, true, &bad, &l, &n, NULL));
		*size[which] = NAN;
		assert_int_equal(ERR_INPUT,
			build_lifts(f->a, &part, true, &bad, &l, &n, NULL));
	}
	assert_int_equal(77, n);
	assert_near(build_lift_usual_m(480), 0.3, 0, 1e-15);
	assert_near(build_lift_usual_m(720), 0.6, 0, 1e-15);
	assert_near(build_lift_usual_m(1200), 1, 0, 1e-15);
}

/* One in each run; the same seed, the same list; parts draw apart. */
static void
witness__is_one_in_each_run(void **state)
{
	size_t same = 0;

	(void)state;
	for (size_t run = 0; run < 500; run++) {
		size_t n = 0;

		for (size_t i = 0; i < 7; i++) {
			bool drawn = build_is_witness(
				5, "wall", 7 * run + i, 7);

			n += drawn;
			same += drawn &&
				build_is_witness(5, "roof", 7 * run + i, 7);
		}
		assert_int_equal(1, n);
	}
	assert_true(same < 150); /* 71 expected, sd 7.8 */
	assert_false(build_is_witness(5, "wall", 3, 0));
}

/* A strict reader: every line ends in CRLF and has at most 75 bytes, no
 * character is cut; unfolds into `out`. */
static void
unfold(const char *ics, char *out)
{
	while (*ics != '\0') {
		const char *end = strstr(ics, "\r\n");

		assert_non_null(end);
		assert_true(end - ics <= 75);
		assert_true(text_is_utf8(ics, (size_t)(end - ics)));
		assert_null(memchr(ics, '\n', (size_t)(end - ics)));
		if (*ics == ' ')
			out--; /* over the line break */
		memcpy(out, ics + (*ics == ' '), (size_t)(end - ics));
		out += (end - ics) - (*ics == ' ');
		*out++ = '\n';
		ics = end + 2;
	}
	*out = '\0';
}

static void
ics__is_read_back_by_a_strict_reader(void **state)
{
	struct fixture *f = *state;
	const struct build_event event = {.uid = "pour-wall-3@house",
		.day = 20577, /* 2026-05-04 */
		.n_day = 1,
		.summary = "Pour; wall, north \\ first",
		.description = "Zuerst die Wände, dann der Rest: größer, höher,"
			       " weiter, größer, höher, weiter, größer\nEnde"};
	struct text text;
	char out[4096];

	text_init(&text, f->a);
	build_ics_start(&text, "House");
	build_ics_event(&text, &event, 1777881600); /* 2026-05-04T08:00:00Z */
	build_ics_end(&text);
	assert_false(text_failed(&text));
	unfold(text.bytes, out);
	assert_string_equal(out,
		"BEGIN:VCALENDAR\nVERSION:2.0\n"
		"PRODID:-//Foamwright//Pour plan//EN\nCALSCALE:GREGORIAN\n"
		"X-WR-CALNAME:House\nBEGIN:VEVENT\nUID:pour-wall-3@house\n"
		"DTSTAMP:20260504T080000Z\nDTSTART;VALUE=DATE:20260504\n"
		"DTEND;VALUE=DATE:20260505\n"
		"SUMMARY:Pour\\; wall\\, north \\\\ first\n"
		"DESCRIPTION:Zuerst die Wände\\, dann der Rest: größer\\, "
		"höher\\, weiter\\, größer\\, höher\\, weiter\\, "
		"größer\\nEnde\n"
		"TRANSP:OPAQUE\nEND:VEVENT\nEND:VCALENDAR\n");
}

static const struct CMUnitTest tests[] = {
	TEST(deliveries__are_never_short_and_never_a_package_too_many),
	TEST(deliveries__worked_by_hand),
	TEST(shares__are_never_short_and_add_up),
	TEST(shares__worked_by_hand),
	TEST(mesh__worked_by_hand),
	TEST(lifts__add_up),
	TEST(lifts__refuses_what_cannot_be),
	TEST(witness__is_one_in_each_run),
	TEST(ics__is_read_back_by_a_strict_reader),
};

TEST_MAIN(tests)
