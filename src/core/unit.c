/* unit.c - the kinds of quantities: dimension, name, SI word, example. */
#include "core/unit.h"

#include "core/unit_priv.h"

#include <string.h>

struct kind {
	struct unit_dimension dimension; /* m, kg, s, K, mol, rad */
	const char *name, *si_word, *example;
};

static const struct kind kinds[UNIT_N_DIMENSION] = {
	[UNIT_NUMBER] = {{{0}}, N_("a number"), "1", "12.5"},
	[UNIT_RATIO] = {{{0}}, N_("a share"), "1", "5 %"},
	[UNIT_LENGTH] = {{{1}}, N_("a length"), "m", "450 mm"},
	[UNIT_AREA] = {{{2}}, N_("an area"), "m2", "7.2 m2"},
	[UNIT_VOLUME] = {{{3}}, N_("a volume"), "m3", "30 L"},
	[UNIT_MASS] = {{{0, 1}}, N_("a mass"), "kg", "70.5 lb"},
	[UNIT_FORCE] = {{{1, 1, -2}}, N_("a force"), "N", "1.2 kN"},
	[UNIT_STRESS] = {{{-1, 1, -2}}, N_("a stress or pressure"), "Pa",
		"0.45 N/mm2"},
	[UNIT_DENSITY] = {{{-3, 1}}, N_("a density"), "kg/m3", "720 kg/m3"},
	[UNIT_TIME] = {{{0, 0, 1}}, N_("a time"), "s", "28 d"},
	[UNIT_TEMPERATURE] = {{{0, 0, 0, 1}}, N_("a temperature"), "degC",
		"18 degC"},
	[UNIT_TEMPERATURE_DIFFERENCE] = {{{0, 0, 0, 1}},
		N_("a temperature difference"), "K", "10 K"},
	[UNIT_ENERGY] = {{{2, 1, -2}}, N_("an energy"), "J", "20 J"},
	[UNIT_VOLUME_FLOW] = {{{3, 0, -1}}, N_("a flow"), "m3/s", "24 L/min"},
	[UNIT_CONDUCTIVITY] = {{{1, 1, -3, -1}}, N_("a conductivity"),
		"W/(m K)", "0.12 W/(m K)"},
	[UNIT_RESISTANCE] = {{{0, -1, 3, 1}}, N_("a thermal resistance"),
		"m2 K/W", "1.5 m2 K/W"},
	[UNIT_CONCENTRATION] = {{{-3, 1}}, N_("a hardness or concentration"),
		"kg/m3", "34 mg/L"},
	[UNIT_MASS_PER_AREA] = {{{-2, 1}}, N_("a mass per area"), "kg/m2",
		"12 kg/m2"},
	[UNIT_ANGLE] = {{{0, 0, 0, 0, 0, 1}}, N_("an angle"), "rad", "60 deg"},
	[UNIT_ENERGY_PER_VOLUME] = {{{-1, 1, -2}}, N_("an energy per volume"),
		"J/m3", "6 J/cm3"},
	[UNIT_MOLAR_ENERGY] = {{{2, 1, -2, 0, -1}}, N_("an activation energy"),
		"J/mol", "41.5 kJ/mol"},
	[UNIT_SPEED] = {{{1, 0, -1}}, N_("a speed"), "m/s", "4.2 m/s"},
	[UNIT_FORCE_PER_LENGTH] = {{{0, 1, -2}}, N_("a force per length"),
		"N/m", "6 kN/m"},
	[UNIT_POWER] = {{{2, 1, -3}}, N_("a power"), "W", "40 W"},
	[UNIT_HEAT_CAPACITY] = {{{2, 0, -2, -1}}, N_("a heat capacity"),
		"J/(kg K)", "1000 J/(kg K)"},
	[UNIT_MASS_PER_LENGTH] = {{{-1, 1}}, N_("a mass per length"), "kg/m",
		"0.1 kg/m"},
	[UNIT_U_VALUE] = {{{0, 1, -3, -1}}, N_("a U-value"), "W/(m2 K)",
		"0.28 W/(m2 K)"},
	[UNIT_VOLUME_PER_MASS] = {{{3, -1}}, N_("a dose by volume"), "m3/kg",
		"6.5 mL/kg"},
	[UNIT_PART_AMOUNT] = {{{0, 0, 0, 0, 1}}, N_("an amount of substance"),
		"mol", "2 mol"},
	[UNIT_PART_METRE_KELVIN] = {{{1, 0, 0, 1}},
		N_("a length times a temperature"), "m K", "2 m K"},
};

struct unit_dimension
unit_dimension_of(int kind)
{
	return kinds[kind].dimension;
}

bool
unit_same_dimension(struct unit_dimension a, struct unit_dimension b)
{
	return memcmp(a.of, b.of, sizeof a.of) == 0;
}

const char *
unit_kind_name(enum unit_kind kind)
{
	return kinds[kind].name;
}

const char *
unit_si_word(enum unit_kind kind)
{
	return kinds[kind].si_word;
}

const char *
unit_example(enum unit_kind kind)
{
	return kinds[kind].example;
}
