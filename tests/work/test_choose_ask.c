/* test_choose_ask.c - what if the panels had mesh, and the weights that the book
 * keeps. */
#include "work/choose_priv.h"
#include "work/part.h"
#include "work/weight.h"

#include "place.h"
#include "support.h"

#include "book/book.h"
#include "work/import.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static void
put_panel(struct fixture *f, struct place *p)
{
	const struct work_part_ask panel = {.code = "panel",
		.form = "roof-panel",
		.thickness_m = {true, 0.113},
		.bound = {{"bending_strength", "0.47 N/mm2", true}},
		.n_bound = 1,
		.source = "own wish"};
	bool made;

	assert_ok(
		work_part_put(&p->desk, f->a, &panel, &made, &f->err), &f->err);
}

/* ---- mesh ---- */

/* By hand: a = As fs/(0.85 f'c b), M = As fs (d - a/2) (ACI 318-19, 22.2), as
 * the bending strength of a plain panel 6 M/(b h2); 2.1 MPa and 94 mm2: a =
 * 26.33 mm, the steel yields, M = 3.094 kN m, 1.454 MPa. */
static void
mesh__draws_are_those_of_the_cracked_section(void **state)
{
	struct fixture *f = *state;
	const struct work_mesh mesh = {.has = true,
		.area_m2 = 94e-6,
		.thickness_m = 0.113,
		.effective_m = 0.079,
		.yield_pa = 500e6};
	const double block_m = 94e-6 * 500e6 / (0.85 * 2.1e6);
	const double as_plain_pa = 6 * 94e-6 * 500e6 * (0.079 - block_m / 2) /
		(0.113 * 0.113);
	const double crushing[] = {2.1e6, 2.1e6, 2.1e6};
	double bending[] = {0.31e6, 1.39e6, 1.6e6};
	struct work_meshed got;

	assert_ok(choose_mesh_draws(
			  &mesh, crushing, 3, 1.3e6, bending, &got, &f->err),
		&f->err);
	assert_near(bending[0], as_plain_pa, 1e-12, 0);
	assert_near(bending[1], as_plain_pa, 1e-12, 0);
	assert_near(bending[2], 1.6e6, 1e-12, 0); /* it does not crack */
	assert_near(got.p_whole, 2.0 / 3, 1e-12, 0);
	assert_near(got.p_bears, 1, 1e-12, 0);
	assert_near(got.p_carries, 2.0 / 3, 1e-12, 0);
}

static const struct work_candidate *
candidate(const struct work_chosen *all, const char *mix)
{
	const struct work_part_choice *p = &all->part[0];

	for (size_t i = 0; i < p->n_candidate; i++)
		if (strcmp(all->compared.site.mix[p->candidate[i].mix].code,
			    mix) == 0)
			return &p->candidate[i];
	return NULL;
}

static void
mesh__what_if_changes_panels_and_nothing_else(void **state)
{
	struct fixture *f = *state;
	const struct work_choose_ask plain = {.part = "panel"};
	struct work_choose_ask ask = {.part = "panel",
		.mesh_wire_m = {true, 0.003},
		.mesh_spacing_m = {true, 0.05}};
	const struct work_candidate *b, *w;
	struct work_chosen before, after, hair;
	struct place p;

	open_place(f, &p);
	put_panel(f, &p);
	assert_ok(work_choose_asked(&p.desk, f->a, &plain, &before, &f->err),
		&f->err);
	assert_ok(work_choose_asked(&p.desk, f->a, &ask, &after, &f->err),
		&f->err);
	/* pi/4 (3 mm)2 in 50 mm: 141.4 mm2 a metre */
	assert_near(after.part[0].mesh.area_m2, 141.3717e-6, 1e-6, 0);
	assert_near(after.part[0].mesh.effective_m, 0.088, 1e-12, 0);
	b = candidate(&after, "B");
	assert_true(b->meshed.has && b->p_all >= b->meshed.p_whole &&
		b->p_all >= b->meshed.p_bears);
	assert_true(b->p_all > candidate(&before, "B")->p_all + 0.5);
	/* W has wires of its own and stays as it was tested; a chance of 1000
	 * draws is within 0.05. */
	w = candidate(&after, "W");
	assert_false(w->meshed.has);
	assert_near(w->p_all, candidate(&before, "W")->p_all, 0, 0.05);
	/* A hair of a wire carries nothing. */
	ask.mesh_wire_m.value = 0.0001;
	assert_ok(work_choose_asked(&p.desk, f->a, &ask, &hair, &f->err),
		&f->err);
	b = candidate(&hair, "B");
	assert_near(b->meshed.p_carries, 0, 0, 0.002);
	assert_near(b->p_all, b->meshed.p_whole, 0, 1e-12);
	close_place(&p);
}

static void
mesh__refuses_what_cannot_be(void **state)
{
	struct fixture *f = *state;
	const struct work_choose_ask bad[] = {
		{.part = "panel", .mesh_area_m2 = {true, 0}},
		{.part = "panel", .mesh_area_m2 = {true, -1e-4}},
		{.part = "panel", .mesh_area_m2 = {true, 0.5}},
		{.part = "panel", .mesh_wire_m = {true, 0.003}},
		{.part = "panel",
			.mesh_wire_m = {true, 0.06},
			.mesh_spacing_m = {true, 0.05}},
		{.part = "panel",
			.thickness_m = {true, 0.02},
			.mesh_area_m2 = {true, 1e-4}},
		{.part = "wall-w", .mesh_area_m2 = {true, 1e-4}},
	};
	struct work_chosen got;
	struct place p;

	open_place(f, &p);
	put_panel(f, &p);
	for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
		assert_int_equal(ERR_INPUT,
			work_choose_asked(
				&p.desk, f->a, &bad[i], &got, &f->err));
		assert_true(f->err.text[0] != '\0');
		err_clear(&f->err);
	}
	close_place(&p);
}

/* ---- weights ---- */

static const struct work_weighed *
weighed_of(const struct work_chosen *all, const char *part)
{
	for (size_t i = 0; i < all->n_part; i++)
		if (strcmp(all->compared.site.part[all->part[i].part].code,
			    part) == 0)
			return &all->weighed[i];
	return NULL;
}

static void
weights__of_the_book_are_used_where_none_are_given(void **state)
{
	struct fixture *f = *state;
	struct work_weight_ask house = {.is_set = {[WORK_CRITERION_COST] = true,
						[WORK_CRITERION_HEAT] = true},
		.weight = {[WORK_CRITERION_COST] = 2.5,
			[WORK_CRITERION_HEAT] = 1.25}};
	const struct work_weight_ask floor_ask = {.part = "floor",
		.is_set = {[WORK_CRITERION_STRENGTH] = true},
		.weight = {[WORK_CRITERION_STRENGTH] = 3}};
	const struct work_weight_ask drop = {.part = "floor", .drop = true};
	const struct work_choose_ask none = {.part = NULL};
	struct work_choose_ask given = {.has_weight = true,
		.weight = {[WORK_CRITERION_COST] = 2.5,
			[WORK_CRITERION_HEAT] = 1.25}};
	const struct work_weighed *w, *g;
	struct work_chosen all, asked;
	struct place p;

	open_place(f, &p);
	assert_ok(work_choose_asked(&p.desk, f->a, &none, &all, &f->err),
		&f->err);
	assert_null(all.weighed);
	assert_ok(work_weight_put(&p.desk, f->a, &house, &f->err), &f->err);
	assert_ok(work_weight_put(&p.desk, f->a, &floor_ask, &f->err), &f->err);
	assert_ok(work_choose_asked(&p.desk, f->a, &none, &all, &f->err),
		&f->err);
	assert_ok(work_choose_asked(&p.desk, f->a, &given, &asked, &f->err),
		&f->err);
	w = weighed_of(&all, "wall-w");
	g = weighed_of(&asked, "wall-w");
	assert_has(w->basis, "house");
	assert_string_equal("", g->basis);
	assert_near(w->weight[WORK_CRITERION_COST], 2.5, 1e-12, 0);
	assert_int_equal(w->n, g->n);
	w = weighed_of(&all, "floor");
	assert_has(w->basis, "this part");
	assert_near(w->weight[WORK_CRITERION_STRENGTH], 3, 1e-12, 0);
	assert_near(w->weight[WORK_CRITERION_COST], 0, 0, 0);
	assert_ok(work_weight_put(&p.desk, f->a, &drop, &f->err), &f->err);
	assert_ok(work_choose_asked(&p.desk, f->a, &none, &all, &f->err),
		&f->err);
	assert_has(weighed_of(&all, "floor")->basis, "house");
	/* Set again after it was dropped, and to another value. */
	assert_ok(work_weight_put(&p.desk, f->a, &floor_ask, &f->err), &f->err);
	house.weight[WORK_CRITERION_COST] = 0;
	house.weight[WORK_CRITERION_HEAT] = 0;
	assert_ok(work_weight_put(&p.desk, f->a, &house, &f->err), &f->err);
	assert_ok(work_choose_asked(&p.desk, f->a, &none, &all, &f->err),
		&f->err);
	assert_null(weighed_of(&all, "wall-w")->basis);
	assert_has(weighed_of(&all, "floor")->basis, "this part");
	close_place(&p);
}

static void
weights__refuse_and_change_nothing(void **state)
{
	struct fixture *f = *state;
	const struct work_weight_ask bad[] = {
		{.part = NULL},
		{.part = "tower", .drop = true},
		{.part = "floor", .drop = true},
		{.is_set = {true, true}, .weight = {1, -1}},
		{.is_set = {true}, .weight = {(double)INFINITY}},
	};
	struct work_weights w;
	struct place p;

	open_place(f, &p);
	for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
		assert_int_not_equal(ERR_NONE,
			work_weight_put(&p.desk, f->a, &bad[i], &f->err));
		assert_true(f->err.text[0] != '\0');
		err_clear(&f->err);
	}
	assert_ok(work_weights_read(&p.desk, f->a, &w, &f->err), &f->err);
	assert_int_equal(0, w.n_own);
	close_place(&p);
}

static const struct CMUnitTest tests[] = {
	TEST(mesh__draws_are_those_of_the_cracked_section),
	TEST(mesh__what_if_changes_panels_and_nothing_else),
	TEST(mesh__refuses_what_cannot_be),
	TEST(weights__of_the_book_are_used_where_none_are_given),
	TEST(weights__refuse_and_change_nothing),
};

TEST_MAIN(tests)
