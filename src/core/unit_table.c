/* unit_table.c - every unit word we know, and those we know to refuse.
 *
 * Exact definitions: the yard and pound agreement of 1959 (1 yd = 0.9144 m,
 * 1 lb = 0.45359237 kg), the US gallon of 231 cubic inches, the imperial gallon
 * of 4.54609 L (Weights and Measures Act 1985), standard gravity (CGPM 1901),
 * the International Table Btu (1055.05585262 J); NIST SP 811, appendix B.
 * Each factor is a quotient of two numbers, so that 450 mm is the double
 * nearest to 0.45 m. */
#include "core/unit_priv.h"

/* As text, because C takes no constant variable inside an initialiser. */
#define INCH_NUM 254.
#define INCH_DEN 1e4
#define FOOT_NUM 3048.
#define YARD_NUM 9144.
#define POUND_NUM 45359237.
#define POUND_DEN 1e8
#define GRAVITY_NUM 980665.
#define GRAVITY_DEN 1e5
#define US_GALLON_NUM 3785411784.
#define US_GALLON_DEN 1e12
#define IMPERIAL_GALLON_NUM 454609.
#define IMPERIAL_GALLON_DEN 1e8
#define LBF_NUM (POUND_NUM * GRAVITY_NUM)
#define LBF_DEN (POUND_DEN * GRAVITY_DEN)
#define INCH2_NUM 64516.
#define INCH2_DEN 1e8
#define FOOT2_NUM 9290304.
#define FOOT2_DEN 1e8
#define FOOT3_NUM 28316846592.
#define YARD3_NUM 764554857984.
#define FOOT3_DEN 1e12
#define BTU_NUM 105505585262.
#define BTU_DEN 1e8

static const char which_ton[] =
	"\"ton\" could be the short ton (2000 lb, 907.2 kg), the metric ton "
	"(1000 kg) or the long ton (2240 lb, 1016 kg). Write short ton, t, or "
	"long ton.";
static const char which_pt[] =
	"\"pt\" could be a pint or a point, and pints differ. Write it in L, "
	"mL, qt or fl oz.";
static const char which_mpa[] =
	"\"mPa\" is the millipascal, a billionth of the MPa (megapascal). "
	"Write MPa, kPa or Pa.";
static const char which_month[] =
	"Months and years differ in length. Write the time in days, such as "
	"28 d.";
static const char which_bag[] =
	"Bags differ in weight. Write the weight printed on them, such as "
	"94 lb or 25 kg.";
static const char which_spoon[] =
	"Cups and spoons differ from country to country. Write mL or fl oz.";
static const char which_cwt[] = "\"cwt\" could be 100 lb (US) or 112 lb "
				"(British). Write it in lb, or US cwt.";
static const char which_hp[] =
	"\"hp\" could be mechanical (745.7 W) or metric (735.5 W). Write it in "
	"W or kW.";
static const char which_mil[] =
	"\"mil\" could be a thousandth of an inch or a millimetre. Write in "
	"or mm.";
static const char which_gr[] =
	"\"gr\" could be grams or grains. Write g or grain.";
static const char which_cal[] =
	"\"cal\" could be 4.184 J (thermochemical) or 4.1868 J (International "
	"Table). Write it in J or kJ.";
static const char which_mbar[] =
	"\"Mbar\" is a million bar. Write mbar, bar or kPa.";

const struct unit_word unit_words[] = {
	/* ratios */
	{"%", UNIT_RATIO, 1, .den = 100},
	{"percent", UNIT_RATIO, 1, .den = 100},
	{"per cent", UNIT_RATIO, 1, .den = 100},
	{"permille", UNIT_RATIO, 1, .den = 1000},
	{"per mille", UNIT_RATIO, 1, .den = 1000},
	{"permil", UNIT_RATIO, 1, .den = 1000},
	{"per mil", UNIT_RATIO, 1, .den = 1000},
	{"ratio", UNIT_RATIO, 1, .den = 1},
	{"ppm", UNIT_RATIO, 1, .den = 1e6},
	/* lengths */
	{"m", UNIT_LENGTH, 1, .den = 1},
	{"metre", UNIT_LENGTH, 1, 1, .takes_s = true},
	{"meter", UNIT_LENGTH, 1, 1, .takes_s = true},
	{"km", UNIT_LENGTH, 1000, .den = 1},
	{"kilometre", UNIT_LENGTH, 1000, 1, .takes_s = true},
	{"kilometer", UNIT_LENGTH, 1000, 1, .takes_s = true},
	{"dm", UNIT_LENGTH, 1, .den = 10},
	{"cm", UNIT_LENGTH, 1, 100, .takes_s = true},
	{"centimetre", UNIT_LENGTH, 1, 100, .takes_s = true},
	{"centimeter", UNIT_LENGTH, 1, 100, .takes_s = true},
	{"mm", UNIT_LENGTH, 1, 1000, .takes_s = true},
	{"millimetre", UNIT_LENGTH, 1, 1000, .takes_s = true},
	{"millimeter", UNIT_LENGTH, 1, 1000, .takes_s = true},
	{"um", UNIT_LENGTH, 1, .den = 1e6},
	{"micrometre", UNIT_LENGTH, 1, 1e6, .takes_s = true},
	{"micrometer", UNIT_LENGTH, 1, 1e6, .takes_s = true},
	{"micron", UNIT_LENGTH, 1, 1e6, .takes_s = true},
	{"in", UNIT_LENGTH, INCH_NUM, INCH_DEN, .takes_s = true},
	{"inch", UNIT_LENGTH, INCH_NUM, .den = INCH_DEN},
	{"inches", UNIT_LENGTH, INCH_NUM, .den = INCH_DEN},
	{"\"", UNIT_LENGTH, INCH_NUM, .den = INCH_DEN},
	{"ft", UNIT_LENGTH, FOOT_NUM, .den = INCH_DEN},
	{"foot", UNIT_LENGTH, FOOT_NUM, .den = INCH_DEN},
	{"feet", UNIT_LENGTH, FOOT_NUM, .den = INCH_DEN},
	{"'", UNIT_LENGTH, FOOT_NUM, .den = INCH_DEN},
	{"yd", UNIT_LENGTH, YARD_NUM, INCH_DEN, .takes_s = true},
	{"yard", UNIT_LENGTH, YARD_NUM, INCH_DEN, .takes_s = true},
	{"mile", UNIT_LENGTH, 1609344, 1000, .takes_s = true},
	{"mil", UNIT_LENGTH, 0, 1, .takes_s = true, .refusal = which_mil},
	/* areas; "sq ft", "ft2" and "square feet" are made from the lengths */
	{"sqft", UNIT_AREA, FOOT2_NUM, .den = FOOT2_DEN},
	{"sf", UNIT_AREA, FOOT2_NUM, .den = FOOT2_DEN},
	{"sqin", UNIT_AREA, INCH2_NUM, .den = INCH2_DEN},
	{"sqyd", UNIT_AREA, YARD_NUM *YARD_NUM, .den = 1e8},
	{"sqm", UNIT_AREA, 1, .den = 1},
	/* volumes; "cu yd" and "m3" are made from the lengths */
	{"L", UNIT_VOLUME, 1, .den = 1000},
	{"l", UNIT_VOLUME, 1, .den = 1000},
	{"ltr", UNIT_VOLUME, 1, 1000, .takes_s = true},
	{"litre", UNIT_VOLUME, 1, 1000, .takes_s = true},
	{"liter", UNIT_VOLUME, 1, 1000, .takes_s = true},
	{"dL", UNIT_VOLUME, 1, .den = 1e4},
	{"cL", UNIT_VOLUME, 1, .den = 1e5},
	{"mL", UNIT_VOLUME, 1, 1e6, .takes_s = true},
	{"millilitre", UNIT_VOLUME, 1, 1e6, .takes_s = true},
	{"milliliter", UNIT_VOLUME, 1, 1e6, .takes_s = true},
	{"cc", UNIT_VOLUME, 1, .den = 1e6},
	{"cuft", UNIT_VOLUME, FOOT3_NUM, .den = FOOT3_DEN},
	{"cft", UNIT_VOLUME, FOOT3_NUM, .den = FOOT3_DEN},
	{"cf", UNIT_VOLUME, FOOT3_NUM, .den = FOOT3_DEN},
	{"cuin", UNIT_VOLUME, 16387064, .den = 1e12},
	{"cuyd", UNIT_VOLUME, YARD3_NUM, FOOT3_DEN, .takes_s = true},
	{"cy", UNIT_VOLUME, YARD3_NUM, .den = FOOT3_DEN},
	{"gal", UNIT_VOLUME, US_GALLON_NUM, US_GALLON_DEN, IMPERIAL_GALLON_NUM,
		IMPERIAL_GALLON_DEN, .takes_s = true},
	{"gallon", UNIT_VOLUME, US_GALLON_NUM, US_GALLON_DEN,
		IMPERIAL_GALLON_NUM, IMPERIAL_GALLON_DEN, .takes_s = true},
	{"qt", UNIT_VOLUME, US_GALLON_NUM, 4 * US_GALLON_DEN,
		IMPERIAL_GALLON_NUM, 4 * IMPERIAL_GALLON_DEN, .takes_s = true},
	{"quart", UNIT_VOLUME, US_GALLON_NUM, 4 * US_GALLON_DEN,
		IMPERIAL_GALLON_NUM, 4 * IMPERIAL_GALLON_DEN, .takes_s = true},
	{"fl oz", UNIT_VOLUME, US_GALLON_NUM, 128 * US_GALLON_DEN,
		IMPERIAL_GALLON_NUM, .imperial_den = 160 * IMPERIAL_GALLON_DEN},
	{"floz", UNIT_VOLUME, US_GALLON_NUM, 128 * US_GALLON_DEN,
		IMPERIAL_GALLON_NUM, .imperial_den = 160 * IMPERIAL_GALLON_DEN},
	{"fluid ounce", UNIT_VOLUME, US_GALLON_NUM, 128 * US_GALLON_DEN,
		IMPERIAL_GALLON_NUM, 160 * IMPERIAL_GALLON_DEN,
		.takes_s = true},
	{"pt", UNIT_VOLUME, 0, 1, .takes_s = true, .refusal = which_pt},
	{"pint", UNIT_VOLUME, 0, 1, .takes_s = true, .refusal = which_pt},
	{"cup", UNIT_VOLUME, 0, 1, .takes_s = true, .refusal = which_spoon},
	{"tsp", UNIT_VOLUME, 0, 1, .refusal = which_spoon},
	{"tbsp", UNIT_VOLUME, 0, 1, .refusal = which_spoon},
	{"teaspoon", UNIT_VOLUME, 0, 1, .takes_s = true,
		.refusal = which_spoon},
	{"tablespoon", UNIT_VOLUME, 0, 1, .takes_s = true,
		.refusal = which_spoon},
	/* masses */
	{"kg", UNIT_MASS, 1, 1, .takes_s = true},
	{"kilo", UNIT_MASS, 1, 1, .takes_s = true},
	{"kilogram", UNIT_MASS, 1, 1, .takes_s = true},
	{"kilogramme", UNIT_MASS, 1, 1, .takes_s = true},
	{"g", UNIT_MASS, 1, .den = 1000},
	{"gram", UNIT_MASS, 1, 1000, .takes_s = true},
	{"gramme", UNIT_MASS, 1, 1000, .takes_s = true},
	{"mg", UNIT_MASS, 1, .den = 1e6},
	{"milligram", UNIT_MASS, 1, 1e6, .takes_s = true},
	{"Mg", UNIT_MASS, 1000, .den = 1},
	{"ug", UNIT_MASS, 1, .den = 1e9},
	{"t", UNIT_MASS, 1000, .den = 1},
	{"tonne", UNIT_MASS, 1000, 1, .takes_s = true},
	{"metric ton", UNIT_MASS, 1000, 1, .takes_s = true},
	{"short ton", UNIT_MASS, 2000 * POUND_NUM, POUND_DEN, .takes_s = true},
	{"US ton", UNIT_MASS, 2000 * POUND_NUM, POUND_DEN, .takes_s = true},
	{"long ton", UNIT_MASS, 2240 * POUND_NUM, POUND_DEN, .takes_s = true},
	{"ton", UNIT_MASS, 0, 1, .takes_s = true, .refusal = which_ton},
	{"lb", UNIT_MASS, POUND_NUM, POUND_DEN, .takes_s = true},
	{"lbm", UNIT_MASS, POUND_NUM, .den = POUND_DEN},
	{"pound", UNIT_MASS, POUND_NUM, POUND_DEN, .takes_s = true},
	{"oz", UNIT_MASS, POUND_NUM, .den = 16 * POUND_DEN},
	{"ounce", UNIT_MASS, POUND_NUM, 16 * POUND_DEN, .takes_s = true},
	{"grain", UNIT_MASS, POUND_NUM, 7000 * POUND_DEN, .takes_s = true},
	{"gr", UNIT_MASS, 0, 1, .takes_s = true, .refusal = which_gr},
	{"US cwt", UNIT_MASS, 100 * POUND_NUM, .den = POUND_DEN},
	{"cwt", UNIT_MASS, 0, 1, .refusal = which_cwt},
	{"bag", UNIT_MASS, 0, 1, .takes_s = true, .refusal = which_bag},
	{"sack", UNIT_MASS, 0, 1, .takes_s = true, .refusal = which_bag},
	/* forces */
	{"N", UNIT_FORCE, 1, .den = 1},
	{"newton", UNIT_FORCE, 1, 1, .takes_s = true},
	{"kN", UNIT_FORCE, 1000, .den = 1},
	{"kilonewton", UNIT_FORCE, 1000, 1, .takes_s = true},
	{"mN", UNIT_FORCE, 1, .den = 1000},
	{"MN", UNIT_FORCE, 1e6, .den = 1},
	{"kgf", UNIT_FORCE, GRAVITY_NUM, .den = GRAVITY_DEN},
	{"kp", UNIT_FORCE, GRAVITY_NUM, .den = GRAVITY_DEN},
	{"lbf", UNIT_FORCE, LBF_NUM, .den = LBF_DEN},
	{"kip", UNIT_FORCE, 1000 * LBF_NUM, LBF_DEN, .takes_s = true},
	/* stresses and pressures */
	{"Pa", UNIT_STRESS, 1, .den = 1},
	{"pascal", UNIT_STRESS, 1, 1, .takes_s = true},
	{"hPa", UNIT_STRESS, 100, .den = 1},
	{"kPa", UNIT_STRESS, 1000, .den = 1},
	{"kilopascal", UNIT_STRESS, 1000, 1, .takes_s = true},
	{"MPa", UNIT_STRESS, 1e6, .den = 1},
	{"megapascal", UNIT_STRESS, 1e6, 1, .takes_s = true},
	{"mPa", UNIT_STRESS, 0, 1, .refusal = which_mpa},
	{"GPa", UNIT_STRESS, 1e9, .den = 1},
	{"bar", UNIT_STRESS, 1e5, .den = 1},
	{"mbar", UNIT_STRESS, 100, .den = 1},
	{"Mbar", UNIT_STRESS, 0, 1, .refusal = which_mbar},
	{"psi", UNIT_STRESS, LBF_NUM *INCH2_DEN, .den = LBF_DEN * INCH2_NUM},
	{"ksi", UNIT_STRESS, 1000 * LBF_NUM *INCH2_DEN,
		.den = LBF_DEN * INCH2_NUM},
	{"psf", UNIT_STRESS, LBF_NUM *FOOT2_DEN, .den = LBF_DEN * FOOT2_NUM},
	{"psf", UNIT_MASS_PER_AREA, POUND_NUM *FOOT2_DEN,
		.den = POUND_DEN * FOOT2_NUM},
	/* densities and concentrations */
	{"pcf", UNIT_DENSITY, POUND_NUM *FOOT3_DEN,
		.den = POUND_DEN * FOOT3_NUM},
	{"pcy", UNIT_DENSITY, POUND_NUM *FOOT3_DEN,
		.den = POUND_DEN * YARD3_NUM},
	{"ppg", UNIT_DENSITY, POUND_NUM *US_GALLON_DEN,
		POUND_DEN *US_GALLON_NUM, POUND_NUM *IMPERIAL_GALLON_DEN,
		.imperial_den = POUND_DEN * IMPERIAL_GALLON_NUM},
	{"ppm", UNIT_CONCENTRATION, 1, .den = 1000},
	{"gpg", UNIT_CONCENTRATION, POUND_NUM *US_GALLON_DEN,
		7000 * POUND_DEN *US_GALLON_NUM, POUND_NUM *IMPERIAL_GALLON_DEN,
		.imperial_den = 7000 * POUND_DEN * IMPERIAL_GALLON_NUM},
	/* times */
	{"s", UNIT_TIME, 1, .den = 1},
	{"sec", UNIT_TIME, 1, 1, .takes_s = true},
	{"second", UNIT_TIME, 1, 1, .takes_s = true},
	{"ms", UNIT_TIME, 1, .den = 1000},
	{"min", UNIT_TIME, 60, 1, .takes_s = true},
	{"minute", UNIT_TIME, 60, 1, .takes_s = true},
	{"h", UNIT_TIME, 3600, .den = 1},
	{"hr", UNIT_TIME, 3600, 1, .takes_s = true},
	{"hour", UNIT_TIME, 3600, 1, .takes_s = true},
	{"d", UNIT_TIME, 86400, .den = 1},
	{"day", UNIT_TIME, 86400, 1, .takes_s = true},
	{"wk", UNIT_TIME, 604800, 1, .takes_s = true},
	{"week", UNIT_TIME, 604800, 1, .takes_s = true},
	{"month", UNIT_TIME, 0, 1, .takes_s = true, .refusal = which_month},
	{"mo", UNIT_TIME, 0, 1, .takes_s = true, .refusal = which_month},
	{"year", UNIT_TIME, 0, 1, .takes_s = true, .refusal = which_month},
	{"yr", UNIT_TIME, 0, 1, .takes_s = true, .refusal = which_month},
	/* temperatures */
	{"degC", UNIT_TEMPERATURE, 1, .den = 1},
	{"deg C", UNIT_TEMPERATURE, 1, .den = 1},
	{"degrees C", UNIT_TEMPERATURE, 1, .den = 1},
	{"degrees Celsius", UNIT_TEMPERATURE, 1, .den = 1},
	{"Celsius", UNIT_TEMPERATURE, 1, .den = 1},
	{"C", UNIT_TEMPERATURE, 1, .den = 1},
	{"degF", UNIT_TEMPERATURE, 5, 9, .zero = 32},
	{"deg F", UNIT_TEMPERATURE, 5, 9, .zero = 32},
	{"degrees F", UNIT_TEMPERATURE, 5, 9, .zero = 32},
	{"degrees Fahrenheit", UNIT_TEMPERATURE, 5, 9, .zero = 32},
	{"Fahrenheit", UNIT_TEMPERATURE, 5, 9, .zero = 32},
	{"F", UNIT_TEMPERATURE, 5, 9, .zero = 32},
	{"K", UNIT_TEMPERATURE, 1, 1, .zero = 273.15},
	{"kelvin", UNIT_TEMPERATURE, 1, 1, .zero = 273.15, .takes_s = true},
	/* energies and powers */
	{"J", UNIT_ENERGY, 1, .den = 1},
	{"joule", UNIT_ENERGY, 1, 1, .takes_s = true},
	{"mJ", UNIT_ENERGY, 1, .den = 1000},
	{"kJ", UNIT_ENERGY, 1000, .den = 1},
	{"kilojoule", UNIT_ENERGY, 1000, 1, .takes_s = true},
	{"MJ", UNIT_ENERGY, 1e6, .den = 1},
	{"GJ", UNIT_ENERGY, 1e9, .den = 1},
	{"Wh", UNIT_ENERGY, 3600, .den = 1},
	{"kWh", UNIT_ENERGY, 3.6e6, .den = 1},
	{"Nm", UNIT_ENERGY, 1, .den = 1},
	{"kNm", UNIT_ENERGY, 1000, .den = 1},
	{"Btu", UNIT_ENERGY, BTU_NUM, BTU_DEN, .takes_s = true},
	{"Btu_IT", UNIT_ENERGY, BTU_NUM, .den = BTU_DEN},
	/* 4.184 J/cal, 453.59237 g/lb, 5/9 K/degF */
	{"Btu_th", UNIT_ENERGY, 4.184 * 453.59237 * 5, .den = 9},
	{"cal", UNIT_ENERGY, 0, 1, .refusal = which_cal},
	{"kcal", UNIT_ENERGY, 0, 1, .refusal = which_cal},
	{"W", UNIT_POWER, 1, .den = 1},
	{"watt", UNIT_POWER, 1, 1, .takes_s = true},
	{"mW", UNIT_POWER, 1, .den = 1000},
	{"kW", UNIT_POWER, 1000, .den = 1},
	{"MW", UNIT_POWER, 1e6, .den = 1},
	{"hp", UNIT_POWER, 0, 1, .refusal = which_hp},
	/* flows and speeds */
	{"gpm", UNIT_VOLUME_FLOW, US_GALLON_NUM, 60 * US_GALLON_DEN,
		IMPERIAL_GALLON_NUM, .imperial_den = 60 * IMPERIAL_GALLON_DEN},
	{"lpm", UNIT_VOLUME_FLOW, 1, .den = 60000},
	{"cfm", UNIT_VOLUME_FLOW, FOOT3_NUM, .den = 60 * FOOT3_DEN},
	{"mph", UNIT_SPEED, 1609344, .den = 3.6e6},
	{"kph", UNIT_SPEED, 10, .den = 36},
	{"kmh", UNIT_SPEED, 10, .den = 36},
	{"fps", UNIT_SPEED, FOOT_NUM, .den = INCH_DEN},
	{"fpm", UNIT_SPEED, FOOT_NUM, .den = 60 * INCH_DEN},
	/* per length */
	{"plf", UNIT_FORCE_PER_LENGTH, LBF_NUM *INCH_DEN,
		.den = LBF_DEN * FOOT_NUM},
	{"plf", UNIT_MASS_PER_LENGTH, POUND_NUM *INCH_DEN,
		.den = POUND_DEN * FOOT_NUM},
	/* angles */
	{"deg", UNIT_ANGLE, 3.14159265358979323846, .den = 180},
	{"degree", UNIT_ANGLE, 3.14159265358979323846, 180, .takes_s = true},
	{"rad", UNIT_ANGLE, 1, .den = 1},
	{"radian", UNIT_ANGLE, 1, 1, .takes_s = true},
	{"mrad", UNIT_ANGLE, 1, .den = 1000},
	/* parts of others */
	{"mol", UNIT_PART_AMOUNT, 1, .den = 1},
	{"mole", UNIT_PART_AMOUNT, 1, 1, .takes_s = true},
	{"mK", UNIT_PART_METRE_KELVIN, 1, .den = 1},
};

const size_t unit_n_word = sizeof unit_words / sizeof unit_words[0];
