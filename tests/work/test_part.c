/* test_part.c - parts entered, screened and warmed; what cannot be is refused
 * and nothing is changed. */
#include "work/heat.h"
#include "work/part.h"
#include "work/screen.h"

#include "place.h"
#include "support.h"

#include "book/book.h"
#include "work/import.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* The demo's workshop wall: 22.0 m by 2.4 m, 200 mm, 7.2 m2 of openings. */
static void
part__refuses_and_changes_nothing(void **state)
{
	struct fixture *f = *state;
	const struct work_part_ask more = {
		.code = "wall-w", .openings_m2 = {true, 22.0 * 2.4}};
	const struct work_part_ask thin = {
		.code = "wall-w", .thickness_m = {true, 0}};
	const struct work_part_ask odd = {.code = "wall-w",
		.thickness_m = {true, 0.31},
		.bound = {{"beauty", "3", true}},
		.n_bound = 1};
	const struct work_part_ask *bad[] = {&more, &thin, &odd};
	struct work_parts parts;
	struct place p;
	size_t at;
	bool made;

	open_place(f, &p);
	for (size_t i = 0; i < 3; i++) {
		assert_int_equal(ERR_INPUT,
			work_part_put(&p.desk, f->a, bad[i], &made, &f->err));
		err_clear(&f->err);
	}
	assert_ok(work_parts_read(&p.desk, f->a, &parts, &f->err), &f->err);
	assert_ok(work_find_part(&parts.site, "wall-w", &at, &f->err), &f->err);
	assert_near(parts.site.part[at].thickness_m.value, 0.2, 1e-12, 0);
	assert_near(parts.site.part[at].openings_m2.value, 7.2, 1e-12, 0);
	assert_int_equal(0, (int)parts.n_use);
	close_place(&p);
}

static void
screen__asks_then_answers(void **state)
{
	struct fixture *f = *state;
	const struct work_screen_ask ask = {"wall-w", "P"};
	const struct work_part_ask loads = {.code = "wall-w",
		.use = {.load_n_m = {true, 3100}, .wind_pa = {true, 720}}};
	const struct work_screened_line *line;
	struct work_screened got;
	struct place p;
	bool made;

	open_place(f, &p);
	assert_ok(work_screen(&p.desk, f->a, &ask, &got, &f->err), &f->err);
	assert_has(got.part[0].line[0].asks, "--load");
	assert_has(got.part[0].line[0].asks, "--wind");
	assert_ok(
		work_part_put(&p.desk, f->a, &loads, &made, &f->err), &f->err);
	assert_false(made);
	assert_ok(work_screen(&p.desk, f->a, &ask, &got, &f->err), &f->err);
	line = got.part[0].line;
	assert_int_equal(3, (int)got.part[0].n_line);
	for (size_t i = 0; i < 3; i++)
		assert_string_equal("", line[i].asks);
	assert_true(
		line[1].low < line[1].median && line[1].median < line[1].high);
	/* 2.4/0.2 over 27, EN 1996-1-1, 5.5.1.4 */
	assert_near(line[2].median, 12.0 / 27.0, 1e-12, 0);
	close_place(&p);
}

/* A panel that leans: of its load on plan cos2 bends it, of its weight cos
 * (statics: the part square to the slope; span up the slope). */
static void
screen__a_pitched_panel_bends_less(void **state)
{
	struct fixture *f = *state;
	const double pitch_rad = 0.83, load_pa = 611, span_m = 1.37;
	const struct work_screen_ask ask = {"panel", "B"};
	struct work_part_ask panel = {.code = "panel",
		.form = "roof-panel",
		.thickness_m = {true, 0.113},
		.use = {.span_m = {true, span_m},
			.area_load_pa = {true, load_pa}}};
	const struct work_part_ask leans = {
		.code = "panel", .use = {.pitch_rad = {true, pitch_rad}}};
	struct work_screened flat, pitched, bare;
	double weight, load;
	struct place p;
	bool made;

	open_place(f, &p);
	assert_ok(
		work_part_put(&p.desk, f->a, &panel, &made, &f->err), &f->err);
	assert_ok(work_screen(&p.desk, f->a, &ask, &flat, &f->err), &f->err);
	assert_ok(
		work_part_put(&p.desk, f->a, &leans, &made, &f->err), &f->err);
	assert_ok(work_screen(&p.desk, f->a, &ask, &pitched, &f->err), &f->err);
	panel.use.area_load_pa.value = 1e-9; /* its weight alone */
	assert_ok(
		work_part_put(&p.desk, f->a, &panel, &made, &f->err), &f->err);
	assert_ok(work_screen(&p.desk, f->a, &ask, &bare, &f->err), &f->err);
	/* Weight and strength vary from world to world, so the middles are
	 * nearly, not quite, of one world: 3 %. */
	weight = bare.part[0].line[0].median / cos(pitch_rad);
	load = flat.part[0].line[0].median - weight;
	assert_near(pitched.part[0].line[0].median,
		weight * cos(pitch_rad) +
			load * cos(pitch_rad) * cos(pitch_rad),
		0.03, 0);
	close_place(&p);
}

static void
screen__refuses_a_mix_without_results(void **state)
{
	struct fixture *f = *state;
	const struct work_screen_ask ask = {"wall-w", "NEW"};
	struct book_mix mix = {.row.typed = "",
		.code = "NEW",
		.name = "New",
		.why = "",
		.matrix_code = "",
		.reinforcement = ""};
	struct work_screened got;
	struct place p;

	open_place(f, &p);
	assert_ok(book_begin(p.desk.book, MOMENT_S, "tester", "mix", NULL,
			  &f->err),
		&f->err);
	assert_ok(book_put_mix(p.desk.book, &mix, &f->err), &f->err);
	assert_ok(book_commit(p.desk.book, "NEW", NULL, &f->err), &f->err);
	assert_int_equal(
		ERR_INPUT, work_screen(&p.desk, f->a, &ask, &got, &f->err));
	assert_has(f->err.text, "has no results");
	close_place(&p);
}

static void
heat__layers_add_up(void **state)
{
	struct fixture *f = *state;
	const struct work_heat_ask ask = {
		.part = "wall-w", .mix = "B", .want_u = {true, 0.43}};
	struct work_heated got;
	struct place p;

	open_place(f, &p);
	assert_ok(work_heat(&p.desk, f->a, &ask, &got, &f->err), &f->err);
	/* Rsi 0.13 and Rse 0.04 of ISO 6946 about one layer; quantiles of the
	 * draws sit on the same world, but for rounding */
	assert_near(got.resistance[0], 0.17 + got.layer[0].resistance_m2k_w,
		1e-3, 1e-3);
	assert_true(got.u[1] < got.u[0] && got.u[0] < got.u[2]);
	assert_near(got.wanted_m[0],
		(1 / 0.43 - 0.17) * got.layer[0].conductivity_w_mk, 1e-9, 1e-9);
	close_place(&p);
}

/* A year of eleven months is refused, one of twelve is taken. */
static void
heat__refuses_a_climate_of_eleven_months(void **state)
{
	struct fixture *f = *state;
	struct work_heat_ask ask = {.part = "wall-w", .mix = "B"};
	struct work_heated got;
	struct place p;
	char path[128];

	open_place(f, &p);
	snprintf(path, sizeof path, "%s/climate.csv", p.folder);
	ask.climate = path;
	for (int n = 10; n <= 13; n++) {
		FILE *file = fopen(path, "w");

		assert_non_null(file);
		(void)fputs("month,inside [degC],inside_humidity [%],outside "
			    "[degC],outside_humidity [%]\n",
			file);
		for (int i = 0; i < n; i++)
			(void)fprintf(file, "m%d,20,55,%d,80\n", i + 1, i - 2);
		assert_int_equal(0, fclose(file));
		if (n == 12) {
			assert_ok(work_heat(&p.desk, f->a, &ask, &got, &f->err),
				&f->err);
			assert_true(got.has_climate);
			continue;
		}
		assert_int_equal(ERR_INPUT,
			work_heat(&p.desk, f->a, &ask, &got, &f->err));
		assert_has(f->err.text, "needs 12 rows");
		err_clear(&f->err);
	}
	unlink(path);
	close_place(&p);
}

static const struct CMUnitTest tests[] = {
	TEST(heat__refuses_a_climate_of_eleven_months),
	TEST(part__refuses_and_changes_nothing),
	TEST(screen__asks_then_answers),
	TEST(screen__a_pitched_panel_bends_less),
	TEST(screen__refuses_a_mix_without_results),
	TEST(heat__layers_add_up),
};

TEST_MAIN(tests)
