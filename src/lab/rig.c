/* rig.c - which quantity a partly known rig can give, and what it lacks. */
#include "lab/rig.h"

#include <assert.h>

/* Notes a fact that is not there. */
static void
want(struct lab_rig *rig, bool is_known, const char *key, const char *adds)
{
	if (is_known)
		return;
	assert(rig->n_missing < LAB_MISSING_MAX);
	rig->missing[rig->n_missing].key = key;
	rig->missing[rig->n_missing].adds = adds;
	rig->n_missing++;
}

/* The strength where its sizes are known, otherwise the reading in itself. */
static void
settle(struct lab_rig *rig, bool has_sizes, enum lab_quantity full,
	enum lab_quantity in_itself)
{
	rig->is_usable = true;
	rig->in_itself = !has_sizes;
	rig->quantity = has_sizes ? full : in_itself;
}

struct lab_rig
lab_rig_bending(const struct lab_bending_known *known)
{
	struct lab_rig rig = {.has_step = known->held || !known->broke};
	bool has_sizes = known->span && known->width && known->depth;

	if (known->held || known->broke)
		settle(&rig, has_sizes, LAB_BENDING_STRENGTH,
			LAB_BREAKING_LOAD);
	want(&rig, known->held || known->broke, "broke_at",
		"The weight that broke it is the reading itself: without it or "
		"the last weight held there is nothing to compare.");
	want(&rig, known->span, "span",
		"Measuring the distance between the supports would turn the "
		"load into a bending strength that holds for other sizes.");
	want(&rig, known->depth, "depth",
		"Measuring the depth at the break would turn the load into a "
		"bending strength; it counts squared, so 1 mm matters.");
	want(&rig, known->width, "width",
		"Measuring the width at the break would turn the load into a "
		"bending strength.");
	want(&rig, rig.has_step || !rig.is_usable, "held",
		"Writing down the last weight that it held would show how "
		"coarse the step was; without it the load is taken as exact.");
	want(&rig, known->on_rig, "on_rig",
		"Weighing the hanger and bucket would add what has been left "
		"out of every load.");
	want(&rig, known->strap, "strap",
		"Measuring the strap would take off what it spreads: a strap "
		"of a tenth of the span lowers the strength by 5 %.");
	want(&rig, known->beam_mass && known->beam_length, "beam_mass",
		"Weighing and measuring the whole beam would add its own "
		"weight, which counts most for weak mixes.");
	return rig;
}

struct lab_rig
lab_rig_drop(const struct lab_drop_known *known)
{
	struct lab_rig rig = {.has_step = known->through};
	bool has_tip = known->tip_shape && known->tip_diameter &&
		(known->tip_angle || !known->tip_is_cone);
	bool has_dent = known->through ? known->thickness || known->depth
				       : known->depth;

	if (has_dent)
		settle(&rig, known->mass && known->height && has_tip,
			LAB_CRUSHING_ENERGY, LAB_DENT_DEPTH);
	want(&rig, has_dent, known->through ? "thickness" : "depth",
		known->through
			? "The bar went through: the thickness of the piece "
			  "would say how deep the dent is at the least."
			: "The depth of the dent is the reading itself: "
			  "without it there is nothing to compare.");
	want(&rig, known->tip_shape, "tip.shape",
		"Saying whether the tip is flat, a ball or a cone would turn "
		"the depth into a volume crushed.");
	want(&rig, known->tip_diameter, "tip.diameter",
		"Measuring the tip would turn the depth into the energy that "
		"crushes a volume, which holds for other bars and heights.");
	want(&rig, known->tip_angle || !known->tip_is_cone, "tip.angle",
		"Measuring the cone's full angle would turn the depth into a "
		"volume crushed.");
	want(&rig, known->mass, "mass",
		"Weighing the bar would give the energy of the blow.");
	want(&rig, known->height, "height",
		"Measuring the drop height would give the energy of the blow.");
	want(&rig, known->thickness || !has_dent, "thickness",
		"Measuring the thickness would tell a dent that feels the bed "
		"under the piece from one that does not.");
	want(&rig, known->tube_loss, "tube_loss",
		"Timing the bar as it leaves the tube would take off the "
		"energy that the tube takes, often 5 to 10 %.");
	return rig;
}

struct lab_rig
lab_rig_crushing(const struct lab_crushing_known *known)
{
	struct lab_rig rig = {.has_step = known->held || !known->broke};
	bool has_area = known->is_cylinder ? known->diameter
					   : known->width && known->depth;

	if (known->held || known->broke)
		settle(&rig, has_area, LAB_CRUSHING_STRENGTH,
			LAB_CRUSHING_LOAD);
	want(&rig, known->held || known->broke, "load",
		"The load that crushed it is the reading itself: without it "
		"there is nothing to compare.");
	want(&rig, known->diameter || !known->is_cylinder, "diameter",
		"Measuring the diameter would turn the load into a crushing "
		"strength that holds for other sizes.");
	want(&rig, known->width || known->is_cylinder, "width",
		"Measuring the width of the loaded face would turn the load "
		"into a crushing strength that holds for other sizes.");
	want(&rig, known->depth || known->is_cylinder, "depth",
		"Measuring the other side of the loaded face would turn the "
		"load into a crushing strength that holds for other sizes.");
	want(&rig, known->height, "height",
		"Measuring the height would allow a shape factor: squat "
		"pieces read higher.");
	want(&rig, rig.has_step || !rig.is_usable, "held",
		"Writing down the last load that it held would show how "
		"coarse the step was; without it the load is taken as exact.");
	return rig;
}

struct lab_rig
lab_rig_density(const struct lab_density_known *known)
{
	struct lab_rig rig = {.is_usable = false};
	bool has_mass = known->mass || known->oven_dry_mass;

	if (has_mass)
		settle(&rig, known->volume,
			known->oven_dry_mass ? LAB_DRY_WEIGHT_PER_VOLUME
					     : LAB_WEIGHT_PER_VOLUME,
			LAB_SPECIMEN_MASS);
	want(&rig, has_mass, "mass",
		"The mass is the reading itself: without it there is nothing "
		"to compare.");
	want(&rig, known->volume, "volume",
		"Measuring the sides, or weighing it under water, would turn "
		"the mass into a density.");
	want(&rig, known->oven_dry_mass, "oven_dry_mass",
		"Drying it in an oven until it stops losing mass would part "
		"the material from the water in it.");
	want(&rig, known->saturated_mass, "saturated_mass",
		"Weighing it after soaking would give the water it takes up.");
	return rig;
}
