/* warning.c - the thirty rules with their starting values. */
#include "control/warning.h"

#include "core/tongue.h"

#include <string.h>

static const struct control_warning rules[CONTROL_WARNING_COUNT] = {
	[CONTROL_W1] =
		{
			.code = "W1",
			.stage = 3,
			.says = N_(
				"the foam is off its target, or moved between "
				"start and end of a run"),
			.means = N_("Stop: set the generator again, then weigh "
				    "again."),
			.basis = N_(
				"off: common practice, no source; moved: from "
				"memory"),
			.read_at = "foam, batch, watch",
			.later = "",
			.limit = {{N_("off"), UNIT_RATIO, "%", 0.10, 0, 1},
				{N_("moved"), UNIT_RATIO, "%", 0.05, 0, 1}},
		},
	[CONTROL_W2] =
		{
			.code = "W2",
			.stage = 3,
			.says = N_(
				"the foam was not weighed for some time or for "
				"some batches"),
			.means = N_(
				"Weigh it now, before any goes into a mix."),
			.basis = N_("from memory"),
			.read_at = "sheet, batch",
			.later = "",
			.limit = {{N_("time"), UNIT_TIME, "min", 3600, 0,
					  86400},
				{N_("batches"), UNIT_NUMBER, "", 3, 1, 100}},
		},
	[CONTROL_W3] =
		{
			.code = "W3",
			.stage = 7,
			.says = N_("the slurry does not weigh what it should"),
			.means = N_(
				"Water or cement was miscounted, or there are "
				"lumps; spend no foam on it."),
			.basis = N_("from memory"),
			.read_at = "batch",
			.later = "",
			.limit = {{N_("off"), UNIT_RATIO, "%", 0.02, 0, 1}},
		},
	[CONTROL_W4] =
		{
			.code = "W4",
			.stage = 7,
			.says = N_("the wet density is off its target"),
			.means = N_("Past the first limit correct it; past the "
				    "second do not cast it as this mix."),
			.basis = N_("from memory"),
			.read_at = "batch, watch",
			.later = "",
			.limit = {{N_("watch"), UNIT_RATIO, "%", 0.05, 0, 1},
				{N_("stop"), UNIT_RATIO, "%", 0.10, 0, 1}},
		},
	[CONTROL_W5] =
		{
			.code = "W5",
			.stage = 7,
			.says = N_("the forms came up short"),
			.means = N_("The foam is heavier than thought, or was "
				    "lost in mixing."),
			.basis = N_("reckoned, docs/methods"),
			.read_at = "batch",
			.later = "",
			.limit = {{N_("short"), UNIT_RATIO, "%", 0.05, 0, 1}},
		},
	[CONTROL_W6] =
		{
			.code = "W6",
			.stage = 5,
			.says = N_("much of the fresh mix is foam"),
			.means = N_("It may sink hours after casting."),
			.basis = N_("watch: Bagheri and Samea 2018 (abstract); "
				    "stop: from memory"),
			.read_at = "mix, sheet, batch",
			.later = "",
			.limit = {{N_("watch"), UNIT_RATIO, "%", 0.65, 0, 1},
				{N_("stop"), UNIT_RATIO, "%", 0.75, 0, 1}},
		},
	[CONTROL_W7] =
		{
			.code = "W7",
			.stage = 5,
			.says = N_("the mix is very light, fresh or oven-dry"),
			.means = N_("Prone to collapse: special care."),
			.basis = N_("wet: Jones, Ozlutas and Zheng 2015 "
				    "(abstract); dry: from memory"),
			.read_at = "mix, sheet",
			.later = "",
			.limit =
				{{N_("wet"), UNIT_DENSITY, "kg/m3", 500,
					 0, 2500},
					{N_("dry"), UNIT_DENSITY, "kg/m3", 400,
						0, 2500}},
		},
	[CONTROL_W8] =
		{
			.code = "W8",
			.stage = 8,
			.says = N_("the mix or the air is cold"),
			.means = N_("The cement is slower than the foam lives: "
				    "warm the water."),
			.basis = N_("common practice, no source"),
			.read_at = "sheet, batch",
			.later = "",
			.limit =
				{{N_("mix"), UNIT_TEMPERATURE, "degC", 12,
					 -20, 50},
					{N_("air"), UNIT_TEMPERATURE, "degC", 5,
						-30, 50}},
		},
	[CONTROL_W9] =
		{
			.code = "W9",
			.stage = 8,
			.says = N_("it lost height"),
			.means = N_("Past the first limit watch it, past the "
				    "second flag it, past the third it is "
				    "another "
				    "material."),
			.basis = N_("from memory"),
			.read_at = "batch, watch",
			.later = "",
			.limit = {{N_("watch"), UNIT_RATIO, "%", 0.03, 0, 1},
				{N_("flag"), UNIT_RATIO, "%", 0.10, 0, 1},
				{N_("other"), UNIT_RATIO, "%", 0.15, 0, 1}},
		},
	[CONTROL_W10] =
		{
			.code = "W10",
			.stage = 8,
			.says = N_("its height was not read in the hours when "
				   "mixes fall"),
			.means = N_("When it fell stays unknown; set an alarm "
				    "for "
				    "the next."),
			.basis = N_("common practice, no source"),
			.read_at = "batch",
			.later = "",
			.limit = {{N_("from"), UNIT_TIME, "h", 3600, 0, 86400},
				{N_("to"), UNIT_TIME, "h", 21600, 0, 172800}},
		},
	[CONTROL_W11] =
		{
			.code = "W11",
			.stage = 9,
			.says = N_("a test piece has no fate"),
			.means = N_("What broke early is missing, and averages "
				    "over survivors are too good."),
			.basis = N_("logic"),
			.read_at = "due, show, compare",
			.later = "",
			.limit =
				{{N_("days over"), UNIT_NUMBER, "", 1, 0, 365}},
		},
	[CONTROL_W12] =
		{
			.code = "W12",
			.stage = 6,
			.says = N_("a mix has too few batches"),
			.means = N_("It cannot be ranked: one batch shows no "
				    "scatter between batches."),
			.basis = N_("statistics, docs/methods"),
			.read_at = "trial, compare",
			.later = "",
			.limit = {{N_("batches"), UNIT_NUMBER, "", 2, 1, 100}},
		},
	[CONTROL_W13] =
		{
			.code = "W13",
			.stage = 6,
			.says = N_(
				"the baseline was not repeated, or only on one "
				"day"),
			.means = N_("A drift and a mix cannot be told apart."),
			.basis = N_("statistics, docs/methods"),
			.read_at = "trial, compare",
			.later = "",
			.limit =
				{{N_("batches"), UNIT_NUMBER, "", 2, 1, 100},
					{N_("days"), UNIT_NUMBER, "", 2, 1,
						100}},
		},
	[CONTROL_W14] =
		{
			.code = "W14",
			.stage = 6,
			.says = N_("a mix goes together with a day or a water"),
			.means = N_("What the day did and what the mix did "
				    "cannot "
				    "be told apart."),
			.basis = N_("statistics, docs/methods"),
			.read_at = "compare",
			.later = N_("who mixed is not recorded; the order, the "
				    "day and the water are judged"),
		},
	[CONTROL_W15] =
		{
			.code = "W15",
			.stage = 7,
			.says = N_(
				"the foam was folded in longer or shorter than "
				"planned"),
			.means = N_("It may explain the result."),
			.basis = N_("from memory"),
			.read_at = "batch",
			.later = "",
			.limit = {{N_("off"), UNIT_RATIO, "%", 0.25, 0, 1}},
		},
	[CONTROL_W16] =
		{
			.code = "W16",
			.stage = 11,
			.says = N_(
				"the last weight hung was a large step of the "
				"breaking load"),
			.means = N_("The strength is known only coarsely: hang "
				    "smaller weights near the end."),
			.basis = N_("reckoned, docs/methods"),
			.read_at = "bend, show",
			.later = "",
			.limit = {{N_("step"), UNIT_RATIO, "%", 0.10, 0, 1}},
		},
	[CONTROL_W17] =
		{
			.code = "W17",
			.stage = 11,
			.says = N_("what hung from the beam, its sizes or the "
				   "span are missing"),
			.means = N_("A load is no strength without them."),
			.basis = N_("logic"),
			.read_at = "bend, show",
			.later = "",
		},
	[CONTROL_W18] =
		{
			.code = "W18",
			.stage = 11,
			.says = N_("the bar went deep into the panel"),
			.means = N_("The ground below bore the blow too: the "
				    "dent "
				    "is no dent of the mix."),
			.basis = N_("from memory"),
			.read_at = "drop, show",
			.later = "",
			.limit = {{N_("share"), UNIT_RATIO, "%", 0.6, 0, 1}},
		},
	[CONTROL_W19] =
		{
			.code = "W19",
			.stage = 10,
			.says = N_("pieces were tested at different ages or "
				   "moistures"),
			.means = N_("They cannot be compared as they are."),
			.basis = N_("moisture: the idea of EN 679:2005; ages: "
				    "from memory"),
			.read_at = "compare",
			.later = "",
			.limit =
				{{N_("week"), UNIT_TIME, "d", 86400, 0, 604800},
					{N_("month"), UNIT_TIME,
						"d", 259200, 0, 2419200},
					{N_("moisture"), UNIT_RATIO, "%", 0.05,
						0, 1}},
		},
	[CONTROL_W20] =
		{
			.code = "W20",
			.stage = 13,
			.says = N_("the winner of several mixes was not made "
				   "again"),
			.means =
				N_("The best of several is partly luck: expect "
				   "it to shrink."),
			.basis = N_("reckoned, docs/methods"),
			.read_at = "choose, decide",
			.later = "",
			.limit = {{N_("mixes"), UNIT_NUMBER, "", 3, 1, 100}},
		},
	[CONTROL_W21] =
		{
			.code = "W21",
			.stage = 12,
			.says = N_("the advantage goes away at equal density"),
			.means = N_("It is only heavier."),
			.basis = N_("reckoned, docs/methods"),
			.read_at = "compare",
			.later = N_("compare reckons it, at equal oven-dry "
				    "density"),
		},
	[CONTROL_W22] =
		{
			.code = "W22",
			.stage = 12,
			.says = N_(
				"a batch was called practice or void after its "
				"result was known"),
			.means = N_("It stays visible for ever."),
			.basis = N_("a rule of this program, for honesty"),
			.read_at = "batch, compare",
			.later = "",
		},
	[CONTROL_W23] =
		{
			.code = "W23",
			.stage = 17,
			.says = N_(
				"steel lies near the surface or unprotected"),
			.means = N_("It may rust."),
			.basis = N_("studies of corrosion, direction only; the "
				    "limit from memory"),
			.read_at = "screen",
			.later = N_("the cover of the steel is not recorded "
				    "yet; "
				    "it can be judged when a part carries it"),
			.limit =
				{
					{N_("cover"), UNIT_LENGTH, "mm", 0.025,
						0, 0.2}},
		},
	[CONTROL_W24] =
		{
			.code = "W24",
			.stage = 1,
			.says = N_(
				"a part spans, hangs overhead or stands high"),
			.means = N_("An engineer must look at it."),
			.basis = N_("law: the local code decides"),
			.read_at = "part, screen",
			.later = N_("storeys and earthquakes are not recorded; "
				    "roofs, spans and heights are judged"),
			.limit = {{N_("height"), UNIT_LENGTH, "m", 2.7, 0, 20}},
		},
	[CONTROL_W25] =
		{
			.code = "W25",
			.stage = 2,
			.says = N_("the cement is old"),
			.means = N_("Make a pat and see that it sets before a "
				    "batch is spent on it."),
			.basis = N_("common practice, no source; the limit: "
				    "from "
				    "memory"),
			.read_at = "sheet",
			.later = "",
			.limit =
				{
					{N_("age"), UNIT_TIME,
						"d", 90 * 86400.0, 0,
						3650 * 86400.0}},
		},
	[CONTROL_W26] =
		{
			.code = "W26",
			.stage = 2,
			.says = N_("a new lot of a material began"),
			.means = N_("A line across every chart; repeat the "
				    "checks."),
			.basis = N_("common practice, no source"),
			.read_at = "batch, watch",
			.later = "",
		},
	[CONTROL_W27] =
		{
			.code = "W27",
			.stage = 17,
			.says = N_(
				"the pour is higher or rises faster than its "
				"form takes"),
			.means = N_("Stop."),
			.basis = N_("reckoned: form pressure by hydrostatic "
				    "head"),
			.read_at = "plan",
			.later =
				N_("the rise of a pour is not recorded; plan "
				   "keeps each lift under what the form takes"),
		},
	[CONTROL_W28] =
		{
			.code = "W28",
			.stage = 8,
			.says = N_("the core of a pour is hot"),
			.means = N_("A smaller lift, shade."),
			.basis = N_("from memory"),
			.read_at = "warnings",
			.later = "",
			.limit =
				{
					{N_("core"), UNIT_TEMPERATURE,
						"degC", 60, 20, 100}},
		},
	[CONTROL_W29] =
		{
			.code = "W29",
			.stage = 18,
			.says = N_("batches run off on one side"),
			.means = N_("A drift: look for its cause."),
			.basis =
				N_("control charts; 7 and not the 8 of the "
				   "1956 "
				   "Statistical Quality Control Handbook: from "
				   "memory"),
			.read_at = "watch",
			.later = "",
			.limit =
				{{N_("run"), UNIT_NUMBER, "", 7, 2, 50},
					{N_("spreads"), UNIT_NUMBER, "", 2,
						0.5, 6}},
		},
	[CONTROL_W30] =
		{
			.code = "W30",
			.stage = 18,
			.says = N_(
				"the foam was changed after every batch, each "
				"time against the last"),
			.means = N_("You are adding scatter: leave it for a "
				    "while."),
			.basis = N_("control charts, from memory"),
			.read_at = "watch",
			.later = "",
			.limit =
				{{N_("in a row"), UNIT_NUMBER, "", 3, 2, 50},
					{N_("change"), UNIT_RATIO, "%", 0.02, 0,
						1}},
		},
};

const struct control_warning *
control_warning(enum control_warning_code code)
{
	return &rules[code];
}

bool
control_warning_find(const char *word, enum control_warning_code *code)
{
	for (int i = 0; i < CONTROL_WARNING_COUNT; i++) {
		if ((word[0] != 'W' && word[0] != 'w') ||
			strcmp(word + 1, rules[i].code + 1) != 0)
			continue;
		*code = (enum control_warning_code)i;
		return true;
	}
	return false;
}

size_t
control_warning_limits(const struct control_warning *rule)
{
	size_t n = 0;

	while (n < CONTROL_LIMITS_MOST && rule->limit[n].word != NULL)
		n++;
	return n;
}
