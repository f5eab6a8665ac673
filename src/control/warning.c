/* warning.c - the thirty rules with their starting values. */
#include "control/warning.h"

#include <string.h>

static const struct control_warning rules[CONTROL_WARNING_COUNT] = {
	[CONTROL_W1] =
		{
			.code = "W1",
			.stage = 3,
			.says = "the foam is off its target, or moved between "
				"start and end of a run",
			.means = "Stop: set the generator again, then weigh "
				 "again.",
			.basis = "off: common practice, no source; moved: from "
				 "memory",
			.read_at = "foam, batch, watch",
			.later = "",
			.limit = {{"off", UNIT_RATIO, "%", 0.10, 0, 1},
				{"moved", UNIT_RATIO, "%", 0.05, 0, 1}},
		},
	[CONTROL_W2] =
		{
			.code = "W2",
			.stage = 3,
			.says = "the foam was not weighed for some time or for "
				"some batches",
			.means = "Weigh it now, before any goes into a mix.",
			.basis = "from memory",
			.read_at = "sheet, batch",
			.later = "",
			.limit = {{"time", UNIT_TIME, "min", 3600, 0, 86400},
				{"batches", UNIT_NUMBER, "", 3, 1, 100}},
		},
	[CONTROL_W3] =
		{
			.code = "W3",
			.stage = 7,
			.says = "the slurry does not weigh what it should",
			.means = "Water or cement was miscounted, or there are "
				 "lumps; spend no foam on it.",
			.basis = "from memory",
			.read_at = "batch",
			.later = "",
			.limit = {{"off", UNIT_RATIO, "%", 0.02, 0, 1}},
		},
	[CONTROL_W4] =
		{
			.code = "W4",
			.stage = 7,
			.says = "the wet density is off its target",
			.means = "Past the first limit correct it; past the "
				 "second do not cast it as this mix.",
			.basis = "from memory",
			.read_at = "batch, watch",
			.later = "",
			.limit = {{"watch", UNIT_RATIO, "%", 0.05, 0, 1},
				{"stop", UNIT_RATIO, "%", 0.10, 0, 1}},
		},
	[CONTROL_W5] =
		{
			.code = "W5",
			.stage = 7,
			.says = "the forms came up short",
			.means = "The foam is heavier than thought, or was "
				 "lost in mixing.",
			.basis = "reckoned, docs/methods",
			.read_at = "batch",
			.later = "",
			.limit = {{"short", UNIT_RATIO, "%", 0.05, 0, 1}},
		},
	[CONTROL_W6] =
		{
			.code = "W6",
			.stage = 5,
			.says = "much of the fresh mix is foam",
			.means = "It may sink hours after casting.",
			.basis = "watch: Bagheri and Samea 2018 (abstract); "
				 "stop: from memory",
			.read_at = "mix, sheet, batch",
			.later = "",
			.limit = {{"watch", UNIT_RATIO, "%", 0.65, 0, 1},
				{"stop", UNIT_RATIO, "%", 0.75, 0, 1}},
		},
	[CONTROL_W7] =
		{
			.code = "W7",
			.stage = 5,
			.says = "the mix is very light, fresh or oven-dry",
			.means = "Prone to collapse: special care.",
			.basis = "wet: Jones, Ozlutas and Zheng 2015 "
				 "(abstract); dry: from memory",
			.read_at = "mix, sheet",
			.later = "",
			.limit = {{"wet", UNIT_DENSITY, "kg/m3", 500, 0, 2500},
				{"dry", UNIT_DENSITY, "kg/m3", 400, 0, 2500}},
		},
	[CONTROL_W8] =
		{
			.code = "W8",
			.stage = 8,
			.says = "the mix or the air is cold",
			.means = "The cement is slower than the foam lives: "
				 "warm the water.",
			.basis = "common practice, no source",
			.read_at = "sheet, batch",
			.later = "",
			.limit =
				{{"mix", UNIT_TEMPERATURE, "degC", 12, -20, 50},
					{"air", UNIT_TEMPERATURE, "degC", 5,
						-30, 50}},
		},
	[CONTROL_W9] =
		{
			.code = "W9",
			.stage = 8,
			.says = "it lost height",
			.means = "Past the first limit watch it, past the "
				 "second flag it, past the third it is another "
				 "material.",
			.basis = "from memory",
			.read_at = "batch, watch",
			.later = "",
			.limit = {{"watch", UNIT_RATIO, "%", 0.03, 0, 1},
				{"flag", UNIT_RATIO, "%", 0.10, 0, 1},
				{"other", UNIT_RATIO, "%", 0.15, 0, 1}},
		},
	[CONTROL_W10] =
		{
			.code = "W10",
			.stage = 8,
			.says = "its height was not read in the hours when "
				"mixes fall",
			.means = "When it fell stays unknown; set an alarm for "
				 "the next.",
			.basis = "common practice, no source",
			.read_at = "batch",
			.later = "",
			.limit = {{"from", UNIT_TIME, "h", 3600, 0, 86400},
				{"to", UNIT_TIME, "h", 21600, 0, 172800}},
		},
	[CONTROL_W11] =
		{
			.code = "W11",
			.stage = 9,
			.says = "a test piece has no fate",
			.means = "What broke early is missing, and averages "
				 "over survivors are too good.",
			.basis = "logic",
			.read_at = "due, show, compare",
			.later = "",
			.limit = {{"days over", UNIT_NUMBER, "", 1, 0, 365}},
		},
	[CONTROL_W12] =
		{
			.code = "W12",
			.stage = 6,
			.says = "a mix has too few batches",
			.means = "It cannot be ranked: one batch shows no "
				 "scatter between batches.",
			.basis = "statistics, docs/methods",
			.read_at = "trial, compare",
			.later = "",
			.limit = {{"batches", UNIT_NUMBER, "", 2, 1, 100}},
		},
	[CONTROL_W13] =
		{
			.code = "W13",
			.stage = 6,
			.says = "the baseline was not repeated, or only on one "
				"day",
			.means = "A drift and a mix cannot be told apart.",
			.basis = "statistics, docs/methods",
			.read_at = "trial, compare",
			.later = "",
			.limit = {{"batches", UNIT_NUMBER, "", 2, 1, 100},
				{"days", UNIT_NUMBER, "", 2, 1, 100}},
		},
	[CONTROL_W14] =
		{
			.code = "W14",
			.stage = 6,
			.says = "a mix goes together with a day or a water",
			.means = "What the day did and what the mix did cannot "
				 "be told apart.",
			.basis = "statistics, docs/methods",
			.read_at = "compare",
			.later = "who mixed is not recorded; the order, the "
				 "day and the water are judged",
		},
	[CONTROL_W15] =
		{
			.code = "W15",
			.stage = 7,
			.says = "the foam was folded in longer or shorter than "
				"planned",
			.means = "It may explain the result.",
			.basis = "from memory",
			.read_at = "batch",
			.later = "",
			.limit = {{"off", UNIT_RATIO, "%", 0.25, 0, 1}},
		},
	[CONTROL_W16] =
		{
			.code = "W16",
			.stage = 11,
			.says = "the last weight hung was a large step of the "
				"breaking load",
			.means = "The strength is known only coarsely: hang "
				 "smaller weights near the end.",
			.basis = "reckoned, docs/methods",
			.read_at = "bend, show",
			.later = "",
			.limit = {{"step", UNIT_RATIO, "%", 0.10, 0, 1}},
		},
	[CONTROL_W17] =
		{
			.code = "W17",
			.stage = 11,
			.says = "what hung from the beam, its sizes or the "
				"span are missing",
			.means = "A load is no strength without them.",
			.basis = "logic",
			.read_at = "bend, show",
			.later = "",
		},
	[CONTROL_W18] =
		{
			.code = "W18",
			.stage = 11,
			.says = "the bar went deep into the panel",
			.means = "The ground below bore the blow too: the dent "
				 "is no dent of the mix.",
			.basis = "from memory",
			.read_at = "drop, show",
			.later = "",
			.limit = {{"share", UNIT_RATIO, "%", 0.6, 0, 1}},
		},
	[CONTROL_W19] =
		{
			.code = "W19",
			.stage = 10,
			.says = "pieces were tested at different ages or "
				"moistures",
			.means = "They cannot be compared as they are.",
			.basis = "moisture: the idea of EN 679:2005; ages: "
				 "from memory",
			.read_at = "compare",
			.later = "",
			.limit = {{"week", UNIT_TIME, "d", 86400, 0, 604800},
				{"month", UNIT_TIME, "d", 259200, 0, 2419200},
				{"moisture", UNIT_RATIO, "%", 0.05, 0, 1}},
		},
	[CONTROL_W20] =
		{
			.code = "W20",
			.stage = 13,
			.says = "the winner of several mixes was not made "
				"again",
			.means = "The best of several is partly luck: expect "
				 "it to shrink.",
			.basis = "reckoned, docs/methods",
			.read_at = "choose, decide",
			.later = "",
			.limit = {{"mixes", UNIT_NUMBER, "", 3, 1, 100}},
		},
	[CONTROL_W21] =
		{
			.code = "W21",
			.stage = 12,
			.says = "the advantage goes away at equal density",
			.means = "It is only heavier.",
			.basis = "reckoned, docs/methods",
			.read_at = "compare",
			.later =
				"compare reckons it, at equal oven-dry density",
		},
	[CONTROL_W22] =
		{
			.code = "W22",
			.stage = 12,
			.says = "a batch was called practice or void after its "
				"result was known",
			.means = "It stays visible for ever.",
			.basis = "a rule of this program, for honesty",
			.read_at = "batch, compare",
			.later = "",
		},
	[CONTROL_W23] =
		{
			.code = "W23",
			.stage = 17,
			.says = "steel lies near the surface or unprotected",
			.means = "It may rust.",
			.basis = "studies of corrosion, direction only; the "
				 "limit from memory",
			.read_at = "screen",
			.later = "the cover of the steel is not recorded yet; "
				 "it can be judged when a part carries it",
			.limit = {{"cover", UNIT_LENGTH, "mm", 0.025, 0, 0.2}},
		},
	[CONTROL_W24] =
		{
			.code = "W24",
			.stage = 1,
			.says = "a part spans, hangs overhead or stands high",
			.means = "An engineer must look at it.",
			.basis = "law: the local code decides",
			.read_at = "part, screen",
			.later = "storeys and earthquakes are not recorded; "
				 "roofs, spans and heights are judged",
			.limit = {{"height", UNIT_LENGTH, "m", 2.7, 0, 20}},
		},
	[CONTROL_W25] =
		{
			.code = "W25",
			.stage = 2,
			.says = "the cement is old",
			.means = "Make a pat and see that it sets before a "
				 "batch is spent on it.",
			.basis = "common practice, no source; the limit: from "
				 "memory",
			.read_at = "sheet",
			.later = "",
			.limit =
				{
					{"age", UNIT_TIME, "d", 90 * 86400.0, 0,
						3650 * 86400.0}},
		},
	[CONTROL_W26] =
		{
			.code = "W26",
			.stage = 2,
			.says = "a new lot of a material began",
			.means =
				"A line across every chart; repeat the checks.",
			.basis = "common practice, no source",
			.read_at = "batch, watch",
			.later = "",
		},
	[CONTROL_W27] =
		{
			.code = "W27",
			.stage = 17,
			.says = "the pour is higher or rises faster than its "
				"form takes",
			.means = "Stop.",
			.basis = "reckoned: form pressure by hydrostatic head",
			.read_at = "plan",
			.later = "the rise of a pour is not recorded; plan "
				 "keeps each lift under what the form takes",
		},
	[CONTROL_W28] =
		{
			.code = "W28",
			.stage = 8,
			.says = "the core of a pour is hot",
			.means = "A smaller lift, shade.",
			.basis = "from memory",
			.read_at = "warnings",
			.later = "",
			.limit =
				{
					{"core", UNIT_TEMPERATURE, "degC", 60,
						20, 100}},
		},
	[CONTROL_W29] =
		{
			.code = "W29",
			.stage = 18,
			.says = "batches run off on one side",
			.means = "A drift: look for its cause.",
			.basis = "control charts; 7 and not the 8 of the 1956 "
				 "Statistical Quality Control Handbook: from "
				 "memory",
			.read_at = "watch",
			.later = "",
			.limit = {{"run", UNIT_NUMBER, "", 7, 2, 50},
				{"spreads", UNIT_NUMBER, "", 2, 0.5, 6}},
		},
	[CONTROL_W30] =
		{
			.code = "W30",
			.stage = 18,
			.says = "the foam was changed after every batch, each "
				"time against the last",
			.means =
				"You are adding scatter: leave it for a while.",
			.basis = "control charts, from memory",
			.read_at = "watch",
			.later = "",
			.limit =
				{{"in a row", UNIT_NUMBER, "", 3, 2, 50},
					{"change", UNIT_RATIO, "%", 0.02, 0,
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
