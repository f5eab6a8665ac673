/* test_usual.c - what is usually asked of a kind of part: as the program brings
 * it, as the book sets it, and in a part that is made. */
#include "work/part.h"
#include "work/usual.h"

#include "place.h"

#include "book/book.h"

#include <string.h>

static const struct work_usual *
find(const struct work_usual *all, size_t n, const char *form,
	const char *measure)
{
	for (size_t i = 0; i < n; i++)
		if (strcmp(all[i].form, form) == 0 &&
			strcmp(all[i].measure, measure) == 0)
			return &all[i];
	return NULL;
}

/* Every kind but "something else" asks something, each line with a source, and
 * each measure is one that a mix is measured by. */
static void
usual__every_kind_has_a_set_with_a_source(void **state)
{
	struct fixture *f = *state;
	const struct work_usual *all;
	const struct work_usual_form *form;
	struct place p;
	size_t n, n_form;

	open_empty_place(f, &p);
	assert_ok(work_usual_read(&p.desk, f->a, &all, &n, &f->err), &f->err);
	form = work_usual_forms(&n_form);
	for (size_t k = 0; k + 1 < n_form; k++) {
		size_t met = 0;

		for (size_t i = 0; i < n; i++)
			met += strcmp(all[i].form, form[k].form) == 0;
		assert_true(met > 0);
	}
	for (size_t i = 0; i < n; i++) {
		enum choose_measure measure;

		assert_true(choose_measure_find(all[i].measure, &measure));
		assert_true(all[i].source[0] != '\0');
		assert_true(all[i].is_asked && !all[i].is_own);
	}
	close_place(&p);
}

static void
usual__set_taken_out_and_as_it_comes(void **state)
{
	struct fixture *f = *state;
	const struct work_usual_ask set = {.form = "wall",
		.bound = {{"screw_pull", "0.47 kN", true},
			{"dent", "3 mm", false}},
		.n_bound = 2,
		.drop = {"breakage"},
		.n_drop = 1,
		.source = "own wish"};
	const struct work_usual_ask back = {
		.form = "wall", .as_it_comes = true};
	const struct work_usual *all, *u;
	struct place p;
	size_t n, n_before;

	open_empty_place(f, &p);
	assert_ok(work_usual_read(&p.desk, f->a, &all, &n_before, &f->err),
		&f->err);
	for (int i = 0; i < 2; i++) {
		assert_ok(
			work_usual_put(&p.desk, f->a, &set, &f->err), &f->err);
		assert_ok(work_usual_read(&p.desk, f->a, &all, &n, &f->err),
			&f->err);
		assert_int_equal(n_before + 1, n);
		u = find(all, n, "wall", "screw_pull");
		assert_near(u->value, 470, 1e-12, 0);
		assert_string_equal("own wish", u->source);
		u = find(all, n, "wall", "dent");
		assert_true(u->is_own && !u->is_least);
		assert_false(find(all, n, "wall", "breakage")->is_asked);
		assert_ok(
			work_usual_put(&p.desk, f->a, &back, &f->err), &f->err);
		assert_ok(work_usual_read(&p.desk, f->a, &all, &n, &f->err),
			&f->err);
		assert_int_equal(n_before, n);
		assert_near(find(all, n, "wall", "screw_pull")->value, 300,
			1e-12, 0);
		assert_true(find(all, n, "wall", "breakage")->is_asked);
	}
	close_place(&p);
}

static void
usual__refuses_and_changes_nothing(void **state)
{
	struct fixture *f = *state;
	const struct work_usual_ask bad[] = {
		{.form = "tower", .as_it_comes = true},
		{.form = "wall"},
		{.form = "wall",
			.bound = {{"dent", "3 mm", false}},
			.n_bound = 1},
		{.form = "wall",
			.bound = {{"dent", "3 mm", false},
				{"beauty", "3", true}},
			.n_bound = 2,
			.source = "own wish"},
		{.form = "wall",
			.bound = {{"dent", "3 kg", false}},
			.n_bound = 1,
			.source = "own wish"},
		{.form = "wall",
			.drop = {"dent"},
			.n_drop = 1,
			.source = "own wish"},
	};
	const struct work_usual *all;
	struct place p;
	size_t n;

	open_empty_place(f, &p);
	for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
		assert_int_not_equal(ERR_NONE,
			work_usual_put(&p.desk, f->a, &bad[i], &f->err));
		assert_true(f->err.text[0] != '\0');
		err_clear(&f->err);
	}
	assert_ok(work_usual_read(&p.desk, f->a, &all, &n, &f->err), &f->err);
	for (size_t i = 0; i < n; i++)
		assert_false(all[i].is_own);
	close_place(&p);
}

static size_t
asked_of(struct fixture *f, struct place *p, const char *code,
	const char *source)
{
	struct work_parts parts;
	size_t at, n = 0;

	assert_ok(work_parts_read(&p->desk, f->a, &parts, &f->err), &f->err);
	assert_ok(work_find_part(&parts.site, code, &at, &f->err), &f->err);
	for (size_t i = 0; i < parts.site.n_requirement; i++)
		n += parts.site.requirement[i].part_id ==
				parts.site.part[at].row.id &&
			strcmp(parts.site.requirement[i].source, source) == 0;
	return n;
}

/* A part made with --usual gets the book's set, one that leans the pitched
 * one; what was asked before stays when the set changes; a measure can be
 * dropped and asked again. */
static void
usual__goes_into_a_part_that_is_made(void **state)
{
	struct fixture *f = *state;
	const struct work_usual_ask set = {.form = "roof-pitched",
		.bound = {{"water_taken_up", "20 %", false}},
		.n_bound = 1,
		.source = "own wish"};
	struct work_part_ask roof = {.code = "r1",
		.form = "roof-panel",
		.use = {.pitch_rad = {true, 0.5236}},
		.usual = true};
	struct work_part_ask flat = {
		.code = "r2", .form = "roof-panel", .usual = true};
	const struct work_part_ask drop = {
		.code = "r1", .drop = {"dry_density"}, .n_drop = 1};
	const struct work_part_ask upright = {
		.code = "r2", .use = {.pitch_rad = {true, 1.58}}};
	struct place p;
	bool made;

	open_empty_place(f, &p);
	assert_ok(work_usual_put(&p.desk, f->a, &set, &f->err), &f->err);
	assert_ok(work_part_put(&p.desk, f->a, &roof, &made, &f->err), &f->err);
	assert_ok(work_part_put(&p.desk, f->a, &flat, &made, &f->err), &f->err);
	assert_int_equal(1, asked_of(f, &p, "r1", "own wish"));
	assert_int_equal(
		3, asked_of(f, &p, "r1", "common practice, no source"));
	assert_int_equal(
		2, asked_of(f, &p, "r2", "common practice, no source"));
	assert_ok(work_part_put(&p.desk, f->a, &drop, &made, &f->err), &f->err);
	assert_int_equal(
		2, asked_of(f, &p, "r1", "common practice, no source"));
	assert_int_equal(
		ERR_INPUT, work_part_put(&p.desk, f->a, &drop, &made, &f->err));
	assert_has(f->err.text, "asks nothing");
	err_clear(&f->err);
	assert_ok(work_part_put(&p.desk, f->a, &roof, &made, &f->err), &f->err);
	assert_int_equal(
		3, asked_of(f, &p, "r1", "common practice, no source"));
	assert_int_equal(ERR_INPUT,
		work_part_put(&p.desk, f->a, &upright, &made, &f->err));
	close_place(&p);
}

static const struct CMUnitTest tests[] = {
	TEST(usual__every_kind_has_a_set_with_a_source),
	TEST(usual__set_taken_out_and_as_it_comes),
	TEST(usual__refuses_and_changes_nothing),
	TEST(usual__goes_into_a_part_that_is_made),
};

TEST_MAIN(tests)
