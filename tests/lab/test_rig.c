/* test_rig.c - what can be said of a test whose rig is only partly known, over
 * every combination of known and unknown. */
#include "support.h"

#include "lab/rig.h"

#include <string.h>

static bool
misses(const struct lab_rig *rig, const char *key)
{
	for (size_t i = 0; i < rig->n_missing; i++)
		if (strcmp(rig->missing[i].key, key) == 0)
			return true;
	return false;
}

/* What holds of every answer. */
static void
check_whole(const struct lab_rig *rig)
{
	assert_true(rig->n_missing <= LAB_MISSING_MAX);
	for (size_t i = 0; i < rig->n_missing; i++) {
		const char *adds = rig->missing[i].adds;

		assert_true(strlen(adds) > 30);
		assert_int_equal('.', adds[strlen(adds) - 1]);
		for (size_t k = 0; k < i; k++)
			assert_string_not_equal(
				rig->missing[i].key, rig->missing[k].key);
	}
	/* where nothing can be compared, the reading itself is asked for first */
	if (!rig->is_usable) {
		static const char *const readings[] = {
			"broke_at", "load", "depth", "thickness", "mass"};
		bool is_reading = false;

		assert_true(rig->n_missing > 0);
		for (size_t i = 0; i < sizeof readings / sizeof readings[0];
			i++)
			is_reading = is_reading ||
				strcmp(rig->missing[0].key, readings[i]) == 0;
		assert_true(is_reading);
	}
}

static bool
bit(unsigned bits, int place)
{
	return (bits >> place & 1u) != 0;
}

static void
bending__every_combination(void **state)
{
	(void)state;

	for (unsigned b = 0; b < 1u << 9; b++) {
		const struct lab_bending_known known = {.span = bit(b, 0),
			.width = bit(b, 1),
			.depth = bit(b, 2),
			.held = bit(b, 3),
			.broke = bit(b, 4),
			.on_rig = bit(b, 5),
			.strap = bit(b, 6),
			.beam_mass = bit(b, 7),
			.beam_length = bit(b, 8)};
		struct lab_rig rig = lab_rig_bending(&known);
		bool sizes = known.span && known.width && known.depth;

		check_whole(&rig);
		assert_int_equal(known.held || known.broke, rig.is_usable);
		assert_int_equal(!known.span, misses(&rig, "span"));
		assert_int_equal(!known.width, misses(&rig, "width"));
		assert_int_equal(!known.depth, misses(&rig, "depth"));
		assert_int_equal(!known.on_rig, misses(&rig, "on_rig"));
		assert_int_equal(!known.strap, misses(&rig, "strap"));
		assert_int_equal(!(known.beam_mass && known.beam_length),
			misses(&rig, "beam_mass"));
		assert_int_equal(
			known.broke && !known.held, misses(&rig, "held"));
		if (!rig.is_usable)
			continue;
		assert_int_equal(
			sizes ? LAB_BENDING_STRENGTH : LAB_BREAKING_LOAD,
			rig.quantity);
		assert_int_equal(!sizes, rig.in_itself);
		assert_int_equal(known.held || !known.broke, rig.has_step);
	}
}

static void
drop__every_combination(void **state)
{
	(void)state;

	for (unsigned b = 0; b < 1u << 10; b++) {
		const struct lab_drop_known known = {.mass = bit(b, 0),
			.height = bit(b, 1),
			.depth = bit(b, 2),
			.through = bit(b, 3),
			.thickness = bit(b, 4),
			.tip_shape = bit(b, 5),
			.tip_diameter = bit(b, 6),
			.tip_angle = bit(b, 7),
			.tip_is_cone = bit(b, 8),
			.tube_loss = bit(b, 9)};
		struct lab_rig rig = lab_rig_drop(&known);
		bool dent = known.depth || (known.through && known.thickness);
		bool tip = known.tip_shape && known.tip_diameter &&
			(known.tip_angle || !known.tip_is_cone);

		check_whole(&rig);
		assert_int_equal(dent, rig.is_usable);
		assert_int_equal(known.through, rig.has_step);
		assert_int_equal(!known.tip_shape, misses(&rig, "tip.shape"));
		assert_int_equal(known.tip_is_cone && !known.tip_angle,
			misses(&rig, "tip.angle"));
		assert_int_equal(!known.mass, misses(&rig, "mass"));
		assert_int_equal(!known.height, misses(&rig, "height"));
		if (!rig.is_usable)
			continue;
		assert_int_equal(known.mass && known.height && tip
				? LAB_CRUSHING_ENERGY
				: LAB_DENT_DEPTH,
			rig.quantity);
		assert_int_equal(rig.quantity == LAB_DENT_DEPTH, rig.in_itself);
	}
}

static void
crushing__every_combination(void **state)
{
	(void)state;

	for (unsigned b = 0; b < 1u << 7; b++) {
		const struct lab_crushing_known known = {.width = bit(b, 0),
			.depth = bit(b, 1),
			.diameter = bit(b, 2),
			.height = bit(b, 3),
			.held = bit(b, 4),
			.broke = bit(b, 5),
			.is_cylinder = bit(b, 6)};
		struct lab_rig rig = lab_rig_crushing(&known);
		bool area = known.is_cylinder ? known.diameter
					      : known.width && known.depth;

		check_whole(&rig);
		assert_int_equal(known.held || known.broke, rig.is_usable);
		/* a cylinder has no width, a prism no diameter to ask for */
		assert_int_equal(known.is_cylinder && !known.diameter,
			misses(&rig, "diameter"));
		assert_int_equal(!known.is_cylinder && !known.width,
			misses(&rig, "width"));
		assert_int_equal(!known.is_cylinder && !known.depth,
			misses(&rig, "depth"));
		assert_int_equal(!known.height, misses(&rig, "height"));
		if (!rig.is_usable)
			continue;
		assert_int_equal(
			area ? LAB_CRUSHING_STRENGTH : LAB_CRUSHING_LOAD,
			rig.quantity);
		assert_int_equal(!area, rig.in_itself);
	}
}

static void
density__every_combination(void **state)
{
	(void)state;

	for (unsigned b = 0; b < 1u << 4; b++) {
		const struct lab_density_known known = {.mass = bit(b, 0),
			.volume = bit(b, 1),
			.oven_dry_mass = bit(b, 2),
			.saturated_mass = bit(b, 3)};
		struct lab_rig rig = lab_rig_density(&known);

		check_whole(&rig);
		assert_int_equal(
			known.mass || known.oven_dry_mass, rig.is_usable);
		assert_int_equal(!known.volume, misses(&rig, "volume"));
		assert_int_equal(
			!known.oven_dry_mass, misses(&rig, "oven_dry_mass"));
		assert_int_equal(
			!known.saturated_mass, misses(&rig, "saturated_mass"));
		if (!rig.is_usable)
			continue;
		if (!known.volume)
			assert_int_equal(LAB_SPECIMEN_MASS, rig.quantity);
		else
			assert_int_equal(known.oven_dry_mass
					? LAB_DRY_WEIGHT_PER_VOLUME
					: LAB_WEIGHT_PER_VOLUME,
				rig.quantity);
		assert_int_equal(!known.volume, rig.in_itself);
	}
}

/* Learning one fact more never takes a quantity away. */
static void
bending__knowing_more_never_gives_less(void **state)
{
	(void)state;

	for (unsigned b = 0; b < 1u << 5; b++) {
		for (int more = 0; more < 5; more++) {
			unsigned c = b | 1u << more;
			const struct lab_bending_known less = {bit(b, 0),
				bit(b, 1), bit(b, 2), bit(b, 3), bit(b, 4),
				false, false, false, false};
			const struct lab_bending_known full = {bit(c, 0),
				bit(c, 1), bit(c, 2), bit(c, 3), bit(c, 4),
				false, false, false, false};
			struct lab_rig before = lab_rig_bending(&less);
			struct lab_rig after = lab_rig_bending(&full);

			assert_true(!before.is_usable || after.is_usable);
			if (before.is_usable && !before.in_itself)
				assert_false(after.in_itself);
		}
	}
}

static const struct CMUnitTest tests[] = {
	TEST(bending__every_combination),
	TEST(drop__every_combination),
	TEST(crushing__every_combination),
	TEST(density__every_combination),
	TEST(bending__knowing_more_never_gives_less),
};

TEST_MAIN(tests)
