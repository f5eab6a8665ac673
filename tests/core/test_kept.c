/* A text that the book keeps in English, said in another tongue (core/kept.h).
 * The tongue and the texts are invented. */
#include "core/arena.h"
#include "core/kept.h"

#include "support/support.h"

#include <string.h>

static const char *
find(const void *with, const char *english)
{
	static const char *const known[][2] = {{"%s: mix %s", "%2$s va a %1$s"},
		{"; %s at least %.3g %s", "; al menos %2$s %3$s: %1$s"},
		{"chance: %.0f %%", "probabilidad: %.0f %%"},
		{"strength", "resistencia"}, {"at least", "cuanto"},
		{"floor", "suelo"}};

	(void)with;
	for (size_t i = 0; i < sizeof known / sizeof known[0]; i++)
		if (strcmp(known[i][0], english) == 0)
			return known[i][1];
	return english;
}

static const struct kept_form forms[] = {{.format = "%s: mix %s"},
	{.format = "chance: %.0f %%"},
	{.format = "; %s at least %.3g %s", .said = 1U << 0, .tried = 1U << 2}};

static const char *
said(struct arena *arena, const char *english)
{
	return kept_say(arena, forms, 3, english);
}

static void
kept__is_said_with_what_stood_there(void **state)
{
	struct arena *arena = arena_new(1 << 20);

	(void)state;
	arena_speak(arena, (struct tongue){.find = find});
	assert_string_equal(
		said(arena, "floor: mix B"), "B va a floor"); /* a code */
	assert_string_equal(said(arena, "chance: 96 %"), "probabilidad: 96 %");
	assert_string_equal(
		said(arena,
			"chance: 96 %; strength at least 0.45 N/mm2; at least "
			"at least 3 floor"),
		"probabilidad: 96 %; al menos 0.45 N/mm2: resistencia; al "
		"menos 3 suelo: cuanto");
	arena_free(arena);
}

static void
kept__of_other_pieces_is_left_as_it_is(void **state)
{
	struct arena *arena = arena_new(1 << 20);
	char twisted[400] = "";

	(void)state;
	arena_speak(arena, (struct tongue){.find = find});
	assert_string_equal(said(arena, ""), "");
	assert_string_equal(said(arena, "strength"), "strength");
	assert_string_equal(said(arena, "; load at least 3 kN"),
		"; load at least 3 kN"); /* no word of the tongue */
	assert_string_equal(said(arena, "chance: many %"), "chance: many %");
	assert_string_equal(said(arena, "chance: 96 %!"), "chance: 96 %!");
	for (int i = 0; i < 24; i++) /* ends, however it could be cut */
		(void)strcat(twisted, "; a at least 1");
	assert_string_equal(said(arena, twisted), twisted);
	arena_free(arena);
}

static void
kept__is_english_in_english_and_without_memory(void **state)
{
	struct arena *arena = arena_new(1 << 20);
	struct arena *small = arena_new(64);
	struct tongue spoken;

	(void)state;
	assert_string_equal(said(arena, "floor: mix B"), "floor: mix B");
	arena_speak(arena, (struct tongue){.find = find});
	spoken = arena_english(arena);
	assert_string_equal(said(arena, "floor: mix B"), "floor: mix B");
	arena_speak(arena, spoken);
	assert_string_equal(said(arena, "floor: mix B"), "B va a floor");
	arena_speak(small, (struct tongue){.find = find});
	assert_string_equal(said(small, "floor: mix B"), "floor: mix B");
	arena_free(small);
	arena_free(arena);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(kept__is_said_with_what_stood_there),
		cmocka_unit_test(kept__of_other_pieces_is_left_as_it_is),
		cmocka_unit_test(
			kept__is_english_in_english_and_without_memory),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
