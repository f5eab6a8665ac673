/* test_unit_oracles.c - every unit word of our table against UDUNITS-2 and GNU
 * units, and the unit rows of the trade table. */
#include "support.h"

#include "core/unit_priv.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <udunits2.h>
#include <unistd.h>

struct word {
	const char *ours;
	int kind;            /* enum unit_kind or UNIT_PART_... */
	const char *udunits; /* NULL: it lacks the word */
	const char *gnu;
	const char *gnu_imperial; /* NULL: the same everywhere */
};

/* One row for each word of unit_table.c, in its order.  UDUNITS-2 has no
 * thermochemical Btu; the rows spelled otherwise there are those that it lacks
 * or reads as something else ("oz" is a volume to it, "F" a farad). */
static const struct word words[] = {
	{"%", UNIT_RATIO, "%", .gnu = "%"},
	{"percent", UNIT_RATIO, "percent", .gnu = "percent"},
	{"per cent", UNIT_RATIO, "percent", .gnu = "percent"},
	{"permille", UNIT_RATIO, "0.001", .gnu = "1|1000"},
	{"per mille", UNIT_RATIO, "0.001", .gnu = "1|1000"},
	{"permil", UNIT_RATIO, "0.001", .gnu = "1|1000"},
	{"per mil", UNIT_RATIO, "0.001", .gnu = "1|1000"},
	{"ratio", UNIT_RATIO, "1", .gnu = "1"},
	{"ppm", UNIT_RATIO, "ppm", .gnu = "ppm"},
	{"m", UNIT_LENGTH, "m", .gnu = "m"},
	{"metre", UNIT_LENGTH, "metre", .gnu = "metre"},
	{"meter", UNIT_LENGTH, "meter", .gnu = "meter"},
	{"km", UNIT_LENGTH, "km", .gnu = "km"},
	{"kilometre", UNIT_LENGTH, "kilometre", .gnu = "kilometre"},
	{"kilometer", UNIT_LENGTH, "kilometer", .gnu = "kilometer"},
	{"dm", UNIT_LENGTH, "dm", .gnu = "dm"},
	{"cm", UNIT_LENGTH, "cm", .gnu = "cm"},
	{"centimetre", UNIT_LENGTH, "centimetre", .gnu = "centimetre"},
	{"centimeter", UNIT_LENGTH, "centimeter", .gnu = "centimeter"},
	{"mm", UNIT_LENGTH, "mm", .gnu = "mm"},
	{"millimetre", UNIT_LENGTH, "millimetre", .gnu = "millimetre"},
	{"millimeter", UNIT_LENGTH, "millimeter", .gnu = "millimeter"},
	{"um", UNIT_LENGTH, "um", .gnu = "um"},
	{"micrometre", UNIT_LENGTH, "micrometre", .gnu = "micrometre"},
	{"micrometer", UNIT_LENGTH, "micrometer", .gnu = "micrometer"},
	{"micron", UNIT_LENGTH, "micron", .gnu = "micron"},
	{"in", UNIT_LENGTH, "inch", .gnu = "in"},
	{"inch", UNIT_LENGTH, "inch", .gnu = "inch"},
	{"inches", UNIT_LENGTH, "inches", .gnu = "inches"},
	{"\"", UNIT_LENGTH, "inch", .gnu = "inch"},
	{"ft", UNIT_LENGTH, "ft", .gnu = "ft"},
	{"foot", UNIT_LENGTH, "foot", .gnu = "foot"},
	{"feet", UNIT_LENGTH, "feet", .gnu = "feet"},
	{"'", UNIT_LENGTH, "foot", .gnu = "foot"},
	{"yd", UNIT_LENGTH, "yd", .gnu = "yd"},
	{"yard", UNIT_LENGTH, "yard", .gnu = "yard"},
	{"mile", UNIT_LENGTH, "mile", .gnu = "mile"},
	{"sqft", UNIT_AREA, "foot^2", .gnu = "ft^2"},
	{"sf", UNIT_AREA, "foot^2", .gnu = "ft^2"},
	{"sqin", UNIT_AREA, "inch^2", .gnu = "in^2"},
	{"sqyd", UNIT_AREA, "yard^2", .gnu = "yd^2"},
	{"sqm", UNIT_AREA, "m^2", .gnu = "m^2"},
	{"L", UNIT_VOLUME, "L", .gnu = "L"},
	{"l", UNIT_VOLUME, "l", .gnu = "l"},
	{"ltr", UNIT_VOLUME, "litre", .gnu = "litre"},
	{"litre", UNIT_VOLUME, "litre", .gnu = "litre"},
	{"liter", UNIT_VOLUME, "liter", .gnu = "liter"},
	{"dL", UNIT_VOLUME, "dL", .gnu = "dL"},
	{"cL", UNIT_VOLUME, "cL", .gnu = "cL"},
	{"mL", UNIT_VOLUME, "mL", .gnu = "mL"},
	{"millilitre", UNIT_VOLUME, "millilitre", .gnu = "millilitre"},
	{"milliliter", UNIT_VOLUME, "milliliter", .gnu = "milliliter"},
	{"cc", UNIT_VOLUME, "cc", .gnu = "cc"},
	{"cuft", UNIT_VOLUME, "foot^3", .gnu = "ft^3"},
	{"cft", UNIT_VOLUME, "foot^3", .gnu = "ft^3"},
	{"cf", UNIT_VOLUME, "foot^3", .gnu = "ft^3"},
	{"cuin", UNIT_VOLUME, "inch^3", .gnu = "in^3"},
	{"cuyd", UNIT_VOLUME, "yard^3", .gnu = "yd^3"},
	{"cy", UNIT_VOLUME, "yard^3", .gnu = "yd^3"},
	{"gal", UNIT_VOLUME, "gallon", "usgallon", "brgallon"},
	{"gallon", UNIT_VOLUME, "gallon", "usgallon", "brgallon"},
	{"qt", UNIT_VOLUME, "quart", "usquart", "brquart"},
	{"quart", UNIT_VOLUME, "quart", "usquart", "brquart"},
	{"fl oz", UNIT_VOLUME, "fluid_ounce", "usfloz", "brfloz"},
	{"floz", UNIT_VOLUME, "fluid_ounce", "usfloz", "brfloz"},
	{"fluid ounce", UNIT_VOLUME, "fluid_ounce", "usfloz", "brfloz"},
	{"kg", UNIT_MASS, "kg", .gnu = "kg"},
	{"kilo", UNIT_MASS, "kg", .gnu = "kg"},
	{"kilogram", UNIT_MASS, "kilogram", .gnu = "kilogram"},
	{"kilogramme", UNIT_MASS, "kilogram", .gnu = "kilogramme"},
	{"g", UNIT_MASS, "g", .gnu = "g"},
	{"gram", UNIT_MASS, "gram", .gnu = "gram"},
	{"gramme", UNIT_MASS, "gram", .gnu = "gramme"},
	{"mg", UNIT_MASS, "mg", .gnu = "mg"},
	{"milligram", UNIT_MASS, "milligram", .gnu = "milligram"},
	{"Mg", UNIT_MASS, "Mg", .gnu = "Mg"},
	{"ug", UNIT_MASS, "ug", .gnu = "ug"},
	{"t", UNIT_MASS, "tonne", .gnu = "t"},
	{"tonne", UNIT_MASS, "tonne", .gnu = "tonne"},
	{"metric ton", UNIT_MASS, "metric_ton", .gnu = "tonne"},
	{"short ton", UNIT_MASS, "short_ton", .gnu = "shortton"},
	{"US ton", UNIT_MASS, "short_ton", .gnu = "shortton"},
	{"long ton", UNIT_MASS, "long_ton", .gnu = "2240 lb"},
	{"lb", UNIT_MASS, "pound", .gnu = "lb"},
	{"lbm", UNIT_MASS, "pound", .gnu = "lbm"},
	{"pound", UNIT_MASS, "pound", .gnu = "pound"},
	{"oz", UNIT_MASS, "avoirdupois_ounce", .gnu = "oz"},
	{"ounce", UNIT_MASS, "avoirdupois_ounce", .gnu = "ounce"},
	{"grain", UNIT_MASS, "grain", .gnu = "grain"},
	{"US cwt", UNIT_MASS, "100 pound", .gnu = "100 lb"},
	{"N", UNIT_FORCE, "N", .gnu = "N"},
	{"newton", UNIT_FORCE, "newton", .gnu = "newton"},
	{"kN", UNIT_FORCE, "kN", .gnu = "kN"},
	{"kilonewton", UNIT_FORCE, "kilonewton", .gnu = "kilonewton"},
	{"mN", UNIT_FORCE, "mN", .gnu = "mN"},
	{"MN", UNIT_FORCE, "MN", .gnu = "MN"},
	{"kgf", UNIT_FORCE, "kilogram_force", .gnu = "kgf"},
	{"kp", UNIT_FORCE, "kilogram_force", .gnu = "kp"},
	{"lbf", UNIT_FORCE, "pound_force", .gnu = "lbf"},
	{"kip", UNIT_FORCE, "kip", .gnu = "kip"},
	{"Pa", UNIT_STRESS, "Pa", .gnu = "Pa"},
	{"pascal", UNIT_STRESS, "pascal", .gnu = "pascal"},
	{"hPa", UNIT_STRESS, "hPa", .gnu = "hPa"},
	{"kPa", UNIT_STRESS, "kPa", .gnu = "kPa"},
	{"kilopascal", UNIT_STRESS, "kilopascal", .gnu = "kilopascal"},
	{"MPa", UNIT_STRESS, "MPa", .gnu = "MPa"},
	{"megapascal", UNIT_STRESS, "megapascal", .gnu = "megapascal"},
	{"GPa", UNIT_STRESS, "GPa", .gnu = "GPa"},
	{"bar", UNIT_STRESS, "bar", .gnu = "bar"},
	{"mbar", UNIT_STRESS, "mbar", .gnu = "mbar"},
	{"psi", UNIT_STRESS, "psi", .gnu = "psi"},
	{"ksi", UNIT_STRESS, "ksi", .gnu = "ksi"},
	{"psf", UNIT_STRESS, "pound_force/foot^2", .gnu = "lbf/ft^2"},
	{"psf", UNIT_MASS_PER_AREA, "pound/foot^2", .gnu = "lb/ft^2"},
	{"pcf", UNIT_DENSITY, "pound/foot^3", .gnu = "lb/ft^3"},
	{"pcy", UNIT_DENSITY, "pound/yard^3", .gnu = "lb/yd^3"},
	{"ppg", UNIT_DENSITY, "pound/gallon", "lb/usgallon", "lb/brgallon"},
	{"ppm", UNIT_CONCENTRATION, "mg/liter", .gnu = "mg/L"},
	{"gpg", UNIT_CONCENTRATION, "grain/gallon", "grain/usgallon",
		"grain/brgallon"},
	{"s", UNIT_TIME, "s", .gnu = "s"},
	{"sec", UNIT_TIME, "second", .gnu = "sec"},
	{"second", UNIT_TIME, "second", .gnu = "second"},
	{"ms", UNIT_TIME, "ms", .gnu = "ms"},
	{"min", UNIT_TIME, "minute", .gnu = "min"},
	{"minute", UNIT_TIME, "minute", .gnu = "minute"},
	{"h", UNIT_TIME, "hour", .gnu = "hour"},
	{"hr", UNIT_TIME, "hour", .gnu = "hr"},
	{"hour", UNIT_TIME, "hour", .gnu = "hour"},
	{"d", UNIT_TIME, "day", .gnu = "d"},
	{"day", UNIT_TIME, "day", .gnu = "day"},
	{"wk", UNIT_TIME, "week", .gnu = "wk"},
	{"week", UNIT_TIME, "week", .gnu = "week"},
	{"degC", UNIT_TEMPERATURE, "degC", .gnu = "degC"},
	{"deg C", UNIT_TEMPERATURE, "degC", .gnu = "degC"},
	{"degrees C", UNIT_TEMPERATURE, "degC", .gnu = "degC"},
	{"degrees Celsius", UNIT_TEMPERATURE, "degC", .gnu = "degC"},
	{"Celsius", UNIT_TEMPERATURE, "degC", .gnu = "degC"},
	{"C", UNIT_TEMPERATURE, "degC", .gnu = "degC"},
	{"degF", UNIT_TEMPERATURE, "degF", .gnu = "degF"},
	{"deg F", UNIT_TEMPERATURE, "degF", .gnu = "degF"},
	{"degrees F", UNIT_TEMPERATURE, "degF", .gnu = "degF"},
	{"degrees Fahrenheit", UNIT_TEMPERATURE, "degF", .gnu = "degF"},
	{"Fahrenheit", UNIT_TEMPERATURE, "degF", .gnu = "degF"},
	{"F", UNIT_TEMPERATURE, "degF", .gnu = "degF"},
	{"K", UNIT_TEMPERATURE, "K", .gnu = "K"},
	{"kelvin", UNIT_TEMPERATURE, "kelvin", .gnu = "kelvin"},
	{"J", UNIT_ENERGY, "J", .gnu = "J"},
	{"joule", UNIT_ENERGY, "joule", .gnu = "joule"},
	{"mJ", UNIT_ENERGY, "mJ", .gnu = "mJ"},
	{"kJ", UNIT_ENERGY, "kJ", .gnu = "kJ"},
	{"kilojoule", UNIT_ENERGY, "kilojoule", .gnu = "kilojoule"},
	{"MJ", UNIT_ENERGY, "MJ", .gnu = "MJ"},
	{"GJ", UNIT_ENERGY, "GJ", .gnu = "GJ"},
	{"Wh", UNIT_ENERGY, "watt.hour", .gnu = "Wh"},
	{"kWh", UNIT_ENERGY, "kilowatt.hour", .gnu = "kWh"},
	{"Nm", UNIT_ENERGY, "N.m", .gnu = "N m"},
	{"kNm", UNIT_ENERGY, "kN.m", .gnu = "kN m"},
	{"Btu", UNIT_ENERGY, "Btu", .gnu = "btu"},
	{"Btu_IT", UNIT_ENERGY, "Btu", .gnu = "btu"},
	{"Btu_th", UNIT_ENERGY, NULL, .gnu = "btu_th"},
	{"W", UNIT_POWER, "W", .gnu = "W"},
	{"watt", UNIT_POWER, "watt", .gnu = "watt"},
	{"mW", UNIT_POWER, "mW", .gnu = "mW"},
	{"kW", UNIT_POWER, "kW", .gnu = "kW"},
	{"MW", UNIT_POWER, "MW", .gnu = "MW"},
	{"gpm", UNIT_VOLUME_FLOW, "gallon/minute", "usgallon/min",
		"brgallon/min"},
	{"lpm", UNIT_VOLUME_FLOW, "liter/minute", .gnu = "lpm"},
	{"cfm", UNIT_VOLUME_FLOW, "foot^3/minute", .gnu = "cfm"},
	{"mph", UNIT_SPEED, "mile/hour", .gnu = "mph"},
	{"kph", UNIT_SPEED, "km/hour", .gnu = "kph"},
	{"kmh", UNIT_SPEED, "km/hour", .gnu = "km/hour"},
	{"fps", UNIT_SPEED, "foot/second", .gnu = "fps"},
	{"fpm", UNIT_SPEED, "foot/minute", .gnu = "fpm"},
	{"plf", UNIT_FORCE_PER_LENGTH, "pound_force/foot", .gnu = "lbf/ft"},
	{"plf", UNIT_MASS_PER_LENGTH, "pound/foot", .gnu = "lb/ft"},
	{"deg", UNIT_ANGLE, "degree", .gnu = "deg"},
	{"degree", UNIT_ANGLE, "degree", .gnu = "degree"},
	{"rad", UNIT_ANGLE, "radian", .gnu = "radian"},
	{"radian", UNIT_ANGLE, "radian", .gnu = "radian"},
	{"mrad", UNIT_ANGLE, "milliradian", .gnu = "radian/1000"},
	{"mol", UNIT_PART_AMOUNT, "mol", .gnu = "mol"},
	{"mole", UNIT_PART_AMOUNT, "mole", .gnu = "mole"},
	{"mK", UNIT_PART_METRE_KELVIN, "m.K", .gnu = "m K"},
};
enum { N_WORD = sizeof words / sizeof words[0] };

static const char *const si_udunits[] = {"1", "1", "m", "m2", "m3", "kg", "N",
	"Pa", "kg/m3", "s", "K", "K", "J", "m3/s", "W.m-1.K-1", "m2.K/W",
	"kg/m3", "kg/m2", "radian", "J/m3", "J/mol", "m/s", "N/m", "W",
	"J.kg-1.K-1", "kg/m", "W.m-2.K-1", "m3/kg", "mol", "m.K"};
static const char *const si_gnu[] = {"1", "1", "m", "m^2", "m^3", "kg", "N",
	"Pa", "kg/m^3", "s", "K", "K", "J", "m^3/s", "W/m K", "m^2 K/W",
	"kg/m^3", "kg/m^2", "radian", "J/m^3", "J/mol", "m/s", "N/m", "W",
	"J/kg K", "kg/m", "W/m^2 K", "m^3/kg", "mol", "m K"};

static double
factor(const struct word *w, enum unit_gallon gallon)
{
	struct err err = {.code = ERR_NONE};
	double scale = NAN, offset = NAN;

	/* the parts of other words are kinds to unit_find alone */
	assert_ok(unit_factor(w->ours, (enum unit_kind)w->kind, gallon, &scale,
			  &offset, &err),
		&err);
	assert_true(unit_known(w->ours, (enum unit_kind)w->kind));
	return scale;
}

static void
unit_words__each_has_its_row_here(void **state)
{
	(void)state;
	size_t n = 0;

	for (size_t i = 0; i < unit_n_word; i++) {
		if (unit_words[i].refusal != NULL)
			continue;
		assert_true(n < N_WORD);
		assert_string_equal(unit_words[i].word, words[n].ours);
		assert_int_equal(unit_words[i].dimension, words[n].kind);
		n++;
	}
	assert_int_equal(N_WORD, n);
}

static void
unit_words__the_refused_say_what_to_write(void **state)
{
	(void)state;
	size_t n = 0;

	for (size_t i = 0; i < unit_n_word; i++) {
		const struct unit_word *row = &unit_words[i];
		struct err err = {.code = ERR_NONE};
		double scale, offset;

		if (row->refusal == NULL)
			continue;
		n++;
		assert_int_equal(ERR_INPUT,
			unit_factor(row->word, (enum unit_kind)row->dimension,
				UNIT_GALLON_US, &scale, &offset, &err));
		assert_has(err.text, "rite "); /* "Write MPa ..." */
		assert_false(
			unit_known(row->word, (enum unit_kind)row->dimension));
	}
	assert_int_equal(unit_n_word, n + N_WORD);
}

/* How far UDUNITS-2 itself is from the definition: the gallon of its table has
 * seven digits, its ounce too. */
static double
udunits_rounding(const char *word)
{
	static const char *const rough[] = {
		"gal", "quart", "fluid_ounce", "avoirdupois_ounce"};

	for (size_t i = 0; i < sizeof rough / sizeof rough[0]; i++)
		if (strstr(word, rough[i]) != NULL)
			return 2e-7;
	return 1e-14; /* products of a few rounded numbers */
}

static void
unit_words__agree_with_udunits(void **state)
{
	(void)state;
	size_t n = 0;

	ut_set_error_message_handler(ut_ignore);
	ut_system *system = ut_read_xml(NULL);

	assert_non_null(system);
	for (size_t i = 0; i < N_WORD; i++) {
		const struct word *w = &words[i];

		if (w->udunits == NULL)
			continue;
		ut_unit *from = ut_parse(system, w->udunits, UT_ASCII);
		ut_unit *to = ut_parse(system, si_udunits[w->kind], UT_ASCII);
		cv_converter *c = from != NULL && to != NULL
			? ut_get_converter(from, to)
			: NULL;

		if (c == NULL)
			fail_msg("no oracle for %s", w->ours);
		/* a span of 100 degrees; its zero is taken off */
		assert_near(100 * factor(w, UNIT_GALLON_US),
			cv_convert_double(c, 100) - cv_convert_double(c, 0),
			udunits_rounding(w->udunits),
			w->kind == UNIT_TEMPERATURE ? 1e-12 : 0);
		cv_free(c);
		ut_free(from);
		ut_free(to);
		n++;
	}
	ut_free_system(system);
	assert_int_equal(N_WORD - 1, n);
}

/* The program reads pairs of lines, unit and SI unit, and answers one number
 * to each, of 15 digits. */
static void
ask_gnu_units(const char *questions, double *answer, size_t n)
{
	char command[256];
	FILE *pipe;

	(void)snprintf(command, sizeof command,
		"/usr/bin/units -q -t -d 15 <%s", questions);
	pipe = popen(command, "r"); /* NOLINT(cert-env33-c): a fixed command */
	assert_non_null(pipe);
	for (size_t i = 0; i < n; i++)
		if (fscanf(pipe, "%lf", &answer[i]) != 1)
			fail_msg("no answer to question %zu", i);
	assert_int_equal(0, pclose(pipe));
}

static void
unit_words__agree_with_gnu_units(void **state)
{
	(void)state;
	char path[] = "/tmp/foamwright-units-XXXXXX";
	double us[N_WORD], imperial[N_WORD];
	int handle = mkstemp(path);
	FILE *file;

	if (access("/usr/bin/units", X_OK) != 0)
		skip();
	assert_true(handle >= 0);
	for (int turn = 0; turn < 2; turn++) {
		file = fopen(path, "w");
		assert_non_null(file);
		for (size_t i = 0; i < N_WORD; i++)
			(void)fprintf(file, "%s\n%s\n",
				turn == 1 && words[i].gnu_imperial != NULL
					? words[i].gnu_imperial
					: words[i].gnu,
				si_gnu[words[i].kind]);
		assert_int_equal(0, fclose(file));
		ask_gnu_units(path, turn == 0 ? us : imperial, N_WORD);
	}
	(void)close(handle);
	(void)unlink(path);
	for (size_t i = 0; i < N_WORD; i++) {
		/* its answer is cut to 15 digits */
		assert_near(factor(&words[i], UNIT_GALLON_US), us[i], 1e-14, 0);
		assert_near(factor(&words[i], UNIT_GALLON_IMPERIAL),
			imperial[i], 1e-14, 0);
	}
}

/* ---- the 37 unit rows of trade-a.csv ---- */

/* How the table spells what our reader takes. */
struct spelling {
	const char *theirs, *ours;
};

/* The kind by the unit of the answer. */
struct answer {
	const char *unit, *ours;
	enum unit_kind kind;
	double times; /* of ours in one of theirs */
};

static const struct answer answers[] = {
	{"kg", "kg", UNIT_MASS, 1},
	{"N", "N", UNIT_FORCE, 1},
	{"mm", "mm", UNIT_LENGTH, 1},
	{"m", "m", UNIT_LENGTH, 1},
	{"m2", "m2", UNIT_AREA, 1},
	{"mm2", "mm2", UNIT_AREA, 1},
	{"m3", "m3", UNIT_VOLUME, 1},
	{"L", "L", UNIT_VOLUME, 1},
	{"mL", "mL", UNIT_VOLUME, 1},
	{"kg/m3", "kg/m3", UNIT_DENSITY, 1},
	{"Pa", "Pa", UNIT_STRESS, 1},
	{"psi", "psi", UNIT_STRESS, 1},
	{"MPa", "MPa", UNIT_STRESS, 1},
	{"J", "J", UNIT_ENERGY, 1},
	{"W/(m.K)", "W/(m.K)", UNIT_CONDUCTIVITY, 1},
	{"W/(m2.K)", "W/(m2.K)", UNIT_U_VALUE, 1},
	{"m2.K/W", "m2.K/W", UNIT_RESISTANCE, 1},
	{"C", "C", UNIT_TEMPERATURE, 1},
	{"K", "K", UNIT_TEMPERATURE_DIFFERENCE, 1},
	{"mL/100kg", "mL/kg", UNIT_VOLUME_PER_MASS, 0.01},
};

/* "x=1 US_gal" as a person writes it: "1 US gal". */
static void
as_typed(const char *inputs, char *to, size_t room)
{
	static const struct spelling spellings[] = {{"F_diff", "F"},
		{"/cwt", "/US cwt"}, {"US_", "US "}, {"imp_", "imp "},
		{"fl_", "fl "}};
	size_t n = 0;

	assert_int_equal(0, strncmp(inputs, "x=", 2));
	for (const char *p = inputs + 2; *p != '\0';) {
		const struct spelling *met = NULL;

		for (size_t i = 0; i < sizeof spellings / sizeof spellings[0];
			i++)
			if (strncmp(p, spellings[i].theirs,
				    strlen(spellings[i].theirs)) == 0)
				met = &spellings[i];
		n += (size_t)snprintf(to + n, room - n, "%.*s",
			met != NULL ? (int)strlen(met->ours) : 1,
			met != NULL ? met->ours : p);
		assert_true(n < room);
		p += met != NULL ? strlen(met->theirs) : 1;
	}
}

static void
check_trade_row(char **cell, size_t inputs, size_t unit, size_t expected,
	size_t tolerance)
{
	char typed[UNIT_TEXT_MAX];
	struct err err = {.code = ERR_NONE};
	const struct answer *as = NULL;
	double si, scale, offset;

	for (size_t i = 0; i < sizeof answers / sizeof answers[0]; i++)
		if (strcmp(answers[i].unit, cell[unit]) == 0)
			as = &answers[i];
	if (as == NULL)
		fail_msg("no kind for %s", cell[unit]);
	as_typed(cell[inputs], typed, sizeof typed);
	assert_ok(unit_read(typed, as->kind,
			  &(struct unit_rules){.may_be_negative = true}, &si,
			  &err),
		&err);
	assert_ok(unit_factor(as->ours, as->kind, UNIT_GALLON_US, &scale,
			  &offset, &err),
		&err);
	/* "1e-12 rel"; 32 F is 0 C to the last bits of 17.8 K */
	assert_near((si - offset) / scale / as->times,
		strtod(cell[expected], NULL), strtod(cell[tolerance], NULL),
		1e-14);
}

static void
unit_read__agrees_with_every_unit_row_of_the_trade_table(void **state)
{
	struct fixture *f = *state;
	struct support_csv csv = support_csv_read(
		f->a, support_path("trade-a.csv"));
	size_t topic = support_csv_column(&csv, "topic");
	size_t n = 0;

	for (size_t i = 1; i < csv.n_row; i++) {
		if (strcmp(csv.cell[i][topic], "5 units") != 0)
			continue;
		check_trade_row(csv.cell[i], support_csv_column(&csv, "inputs"),
			support_csv_column(&csv, "unit"),
			support_csv_column(&csv, "expected"),
			support_csv_column(&csv, "tolerance"));
		n++;
	}
	assert_int_equal(37, n);
}

static const struct CMUnitTest tests[] = {
	TEST(unit_words__each_has_its_row_here),
	TEST(unit_words__the_refused_say_what_to_write),
	TEST(unit_words__agree_with_udunits),
	TEST(unit_words__agree_with_gnu_units),
	TEST(unit_read__agrees_with_every_unit_row_of_the_trade_table),
};

TEST_MAIN(tests)
