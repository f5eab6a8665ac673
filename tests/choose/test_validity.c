/* test_validity.c - rules held against what was read of a batch. */
#include "support.h"

#include "choose/validity.h"

#include <math.h>
#include <string.h>

static struct maybe
known(double value)
{
	return (struct maybe){true, value};
}

/* Everything read, everything as planned. */
static struct choose_batch_facts
good_batch(void)
{
	return (struct choose_batch_facts){.loss_24h_ratio = known(0.031),
		.wet_kg_m3 = known(731),
		.wet_target_kg_m3 = known(720),
		.foam_start_kg_m3 = known(51),
		.foam_middle_kg_m3 = known(49.5),
		.foam_end_kg_m3 = known(50.5),
		.foam_target_kg_m3 = known(50),
		.blending_s = known(185),
		.blending_target_s = known(180),
		.moisture_ratio = known(0.062)};
}

static struct choose_rule
rule(enum choose_rule_measure measure, double above, bool excludes)
{
	return (struct choose_rule){.measure = measure,
		.above = above,
		.excludes = excludes,
		.code = "R7",
		.reason = ""};
}

static void
validity__a_batch_as_planned_is_kept(void **state)
{
	struct fixture *f = *state;
	const struct choose_batch_facts facts = good_batch();
	struct choose_rule rules[CHOOSE_RULE_AGE + 1];
	struct choose_validity got;

	for (int i = 0; i <= CHOOSE_RULE_AGE; i++)
		rules[i] = rule((enum choose_rule_measure)i, 0.1, true);
	got = choose_validity(f->a, &facts, rules, CHOOSE_RULE_AGE + 1);
	assert_false(got.excluded);
	assert_string_equal("", got.by);
	assert_string_equal("", got.reason);
	assert_int_equal(0, got.n_flag);
	got = choose_validity(f->a, &facts, NULL, 0);
	assert_false(got.excluded);
}

/* One fact at a time over its limit: that rule alone excludes, and says the
 * figure. */
static void
validity__each_rule_looks_at_its_own_fact(void **state)
{
	struct fixture *f = *state;
	const struct {
		enum choose_rule_measure measure;
		size_t offset;
		double value;
		const char *shown;
	} rows[] = {
		{CHOOSE_RULE_SETTLING,
			offsetof(struct choose_batch_facts, loss_24h_ratio),
			0.193, "19 %"},
		{CHOOSE_RULE_WET_DENSITY,
			offsetof(struct choose_batch_facts, wet_kg_m3),
			720 * 1.2371, "24 %"},
		{CHOOSE_RULE_WET_DENSITY,
			offsetof(struct choose_batch_facts, wet_kg_m3),
			720 * 0.7629, "24 %"},
		{CHOOSE_RULE_FOAM_DENSITY,
			offsetof(struct choose_batch_facts, foam_start_kg_m3),
			50 * 1.317, "32 %"},
		{CHOOSE_RULE_FOAM_DENSITY,
			offsetof(struct choose_batch_facts, foam_middle_kg_m3),
			50 * 0.613, "39 %"},
		{CHOOSE_RULE_FOAM_DENSITY,
			offsetof(struct choose_batch_facts, foam_end_kg_m3),
			50 * 1.173, "17 %"},
		{CHOOSE_RULE_BLENDING,
			offsetof(struct choose_batch_facts, blending_s),
			180 * 1.551, "55 %"},
		{CHOOSE_RULE_MOISTURE,
			offsetof(struct choose_batch_facts, moisture_ratio),
			0.137, "14 %"},
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct choose_batch_facts facts = good_batch();
		struct maybe *fact = (void *)((char *)&facts + rows[i].offset);

		fact->value = rows[i].value;
		for (int k = 0; k <= CHOOSE_RULE_AGE; k++) {
			const struct choose_rule one = rule(
				(enum choose_rule_measure)k, 0.1, true);
			struct choose_validity got = choose_validity(
				f->a, &facts, &one, 1);

			assert_int_equal(
				k == (int)rows[i].measure, got.excluded);
			if (!got.excluded)
				continue;
			assert_string_equal("R7", got.by);
			assert_has(got.reason, rows[i].shown);
			assert_has(got.reason, "10 %");
		}
	}
}

static void
validity__what_was_not_read_says_nothing(void **state)
{
	struct fixture *f = *state;
	const struct choose_batch_facts nothing = {.practice = false};
	struct choose_batch_facts facts = nothing;

	for (int k = 0; k <= CHOOSE_RULE_AGE; k++) {
		const struct choose_rule one = rule(
			(enum choose_rule_measure)k, 0, true);

		assert_false(choose_validity(f->a, &nothing, &one, 1).excluded);
		/* a reading without a target, and a target without a reading */
		facts.wet_kg_m3 = known(731);
		facts.foam_target_kg_m3 = known(50);
		facts.blending_s = known(100);
		assert_false(choose_validity(f->a, &facts, &one, 1).excluded);
	}
}

/* "More than": the limit itself is within. */
static void
validity__the_limit_itself_is_within(void **state)
{
	struct fixture *f = *state;
	struct choose_batch_facts facts = {.loss_24h_ratio = known(0.15)};
	const struct choose_rule one = rule(CHOOSE_RULE_SETTLING, 0.15, true);

	assert_false(choose_validity(f->a, &facts, &one, 1).excluded);
	facts.loss_24h_ratio.value = nextafter(0.15, 1);
	assert_true(choose_validity(f->a, &facts, &one, 1).excluded);
}

static void
validity__the_first_rule_that_excludes_is_named(void **state)
{
	struct fixture *f = *state;
	struct choose_batch_facts facts = good_batch();
	struct choose_rule rules[] = {rule(CHOOSE_RULE_MOISTURE, 0.01, false),
		rule(CHOOSE_RULE_SETTLING, 0.02, true),
		rule(CHOOSE_RULE_BLENDING, 0.001, true)};
	struct choose_validity got;

	rules[0].code = "R1";
	rules[1].code = "R2";
	rules[2].code = "R3";
	got = choose_validity(f->a, &facts, rules, 3);
	assert_true(got.excluded);
	assert_string_equal("R2", got.by);
	assert_has(got.reason, "settled 3.1 %");
	assert_int_equal(1, got.n_flag);
	assert_has(got.flag[0], "rule R1");
	facts.practice = true; /* goes before every rule */
	got = choose_validity(f->a, &facts, rules, 3);
	assert_string_equal("practice", got.by);
	assert_int_equal(1, got.n_flag);
}

static void
validity__holds_as_many_flags_as_there_is_room_for(void **state)
{
	struct fixture *f = *state;
	const struct choose_batch_facts facts = good_batch();
	struct choose_rule rules[3 * CHOOSE_FLAG_MAX];
	struct choose_validity got;

	for (size_t i = 0; i < sizeof rules / sizeof rules[0]; i++)
		rules[i] = rule(CHOOSE_RULE_MOISTURE, 0.01, false);
	got = choose_validity(
		f->a, &facts, rules, sizeof rules / sizeof rules[0]);
	assert_false(got.excluded);
	assert_int_equal(CHOOSE_FLAG_MAX, got.n_flag);
}

/* Without memory for the sentence the code of the rule stands there. */
static void
validity__names_the_rule_when_memory_is_out(void **state)
{
	(void)state;
	struct arena *small = arena_new(1);
	const struct choose_batch_facts facts = good_batch();
	const struct choose_rule one = rule(CHOOSE_RULE_SETTLING, 0.02, true);
	struct choose_validity got;

	assert_non_null(small);
	got = choose_validity(small, &facts, &one, 1);
	assert_true(got.excluded);
	assert_string_equal("R7", got.reason);
	arena_free(small);
}

static const struct CMUnitTest tests[] = {
	TEST(validity__a_batch_as_planned_is_kept),
	TEST(validity__each_rule_looks_at_its_own_fact),
	TEST(validity__what_was_not_read_says_nothing),
	TEST(validity__the_limit_itself_is_within),
	TEST(validity__the_first_rule_that_excludes_is_named),
	TEST(validity__holds_as_many_flags_as_there_is_room_for),
	TEST(validity__names_the_rule_when_memory_is_out),
};

TEST_MAIN(tests)
