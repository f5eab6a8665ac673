/* unit_table.c - unit words with their exact factors to SI.
 *
 * Exact by definition: in 25.4 mm, lb 0.45359237 kg (1959 agreement), standard
 * gravity 9.80665 m/s2, US gallon 231 in3, imperial gallon 4.54609 L, Btu (IT)
 * 1055.05585262 J (NIST SP 811, appendix B). */
#include "core/unit_table.h"

#define INCH 0.0254
#define FOOT 0.3048
#define YARD 0.9144
#define FOOT3 0.028316846592
#define POUND 0.45359237
#define OUNCE (POUND / 16)
#define GRAVITY 9.80665
#define GALLON_US 0.003785411784
#define GALLON_IMPERIAL 0.00454609
#define PSI (POUND * GRAVITY / (INCH * INCH))
#define BTU 1055.05585262
#define FAHRENHEIT (5.0 / 9.0)
#define PI 3.14159265358979323846

#define ONE(word, kind, scale) {word, kind, scale, 0, 0}
#define GAL(word, kind, share)                                                 \
	{word, kind, GALLON_US *(share), 0, GALLON_IMPERIAL *(share)}

const struct unit_word unit_words[] = {
	ONE("%", UNIT_RATIO, 0.01),
	ONE("percent", UNIT_RATIO, 0.01),
	ONE("ratio", UNIT_RATIO, 1),
	ONE("l/m3", UNIT_RATIO, 1e-3),
	ONE("m3/m3", UNIT_RATIO, 1),

	ONE("m", UNIT_LENGTH, 1),
	ONE("mm", UNIT_LENGTH, 1e-3),
	ONE("cm", UNIT_LENGTH, 1e-2),
	ONE("km", UNIT_LENGTH, 1e3),
	ONE("um", UNIT_LENGTH, 1e-6),
	ONE("in", UNIT_LENGTH, INCH),
	ONE("inch", UNIT_LENGTH, INCH),
	ONE("inches", UNIT_LENGTH, INCH),
	ONE("\"", UNIT_LENGTH, INCH),
	ONE("ft", UNIT_LENGTH, FOOT),
	ONE("foot", UNIT_LENGTH, FOOT),
	ONE("feet", UNIT_LENGTH, FOOT),
	ONE("'", UNIT_LENGTH, FOOT),
	ONE("yd", UNIT_LENGTH, YARD),
	ONE("yard", UNIT_LENGTH, YARD),
	ONE("yards", UNIT_LENGTH, YARD),

	ONE("m2", UNIT_AREA, 1),
	ONE("sq m", UNIT_AREA, 1),
	ONE("cm2", UNIT_AREA, 1e-4),
	ONE("mm2", UNIT_AREA, 1e-6),
	ONE("in2", UNIT_AREA, INCH *INCH),
	ONE("sq in", UNIT_AREA, INCH *INCH),
	ONE("ft2", UNIT_AREA, FOOT *FOOT),
	ONE("sq ft", UNIT_AREA, FOOT *FOOT),
	ONE("yd2", UNIT_AREA, YARD *YARD),

	ONE("m3", UNIT_VOLUME, 1),
	ONE("l", UNIT_VOLUME, 1e-3),
	ONE("litre", UNIT_VOLUME, 1e-3),
	ONE("litres", UNIT_VOLUME, 1e-3),
	ONE("liter", UNIT_VOLUME, 1e-3),
	ONE("liters", UNIT_VOLUME, 1e-3),
	ONE("ml", UNIT_VOLUME, 1e-6),
	ONE("cl", UNIT_VOLUME, 1e-5),
	ONE("dm3", UNIT_VOLUME, 1e-3),
	ONE("cm3", UNIT_VOLUME, 1e-6),
	ONE("cc", UNIT_VOLUME, 1e-6),
	ONE("mm3", UNIT_VOLUME, 1e-9),
	ONE("in3", UNIT_VOLUME, INCH *INCH *INCH),
	ONE("cu in", UNIT_VOLUME, INCH *INCH *INCH),
	ONE("ft3", UNIT_VOLUME, FOOT3),
	ONE("cu ft", UNIT_VOLUME, FOOT3),
	ONE("cuft", UNIT_VOLUME, FOOT3),
	ONE("cubic foot", UNIT_VOLUME, FOOT3),
	ONE("cubic feet", UNIT_VOLUME, FOOT3),
	ONE("cf", UNIT_VOLUME, FOOT3),
	ONE("yd3", UNIT_VOLUME, 27 * FOOT3),
	ONE("cu yd", UNIT_VOLUME, 27 * FOOT3),
	ONE("cuyd", UNIT_VOLUME, 27 * FOOT3),
	ONE("cubic yard", UNIT_VOLUME, 27 * FOOT3),
	ONE("cubic yards", UNIT_VOLUME, 27 * FOOT3),
	ONE("cy", UNIT_VOLUME, 27 * FOOT3),
	GAL("gal", UNIT_VOLUME, 1),
	GAL("gallon", UNIT_VOLUME, 1),
	GAL("gallons", UNIT_VOLUME, 1),
	GAL("qt", UNIT_VOLUME, 0.25),
	GAL("quart", UNIT_VOLUME, 0.25),
	GAL("quarts", UNIT_VOLUME, 0.25),
	ONE("us gal", UNIT_VOLUME, GALLON_US),
	ONE("imp gal", UNIT_VOLUME, GALLON_IMPERIAL),
	{"fl oz", UNIT_VOLUME, GALLON_US / 128, 0, GALLON_IMPERIAL / 160},

	ONE("kg", UNIT_MASS, 1),
	ONE("g", UNIT_MASS, 1e-3),
	ONE("mg", UNIT_MASS, 1e-6),
	ONE("t", UNIT_MASS, 1e3),
	ONE("tonne", UNIT_MASS, 1e3),
	ONE("tonnes", UNIT_MASS, 1e3),
	ONE("lb", UNIT_MASS, POUND),
	ONE("lbs", UNIT_MASS, POUND),
	ONE("lbm", UNIT_MASS, POUND),
	ONE("pound", UNIT_MASS, POUND),
	ONE("pounds", UNIT_MASS, POUND),
	ONE("oz", UNIT_MASS, OUNCE),
	ONE("ounce", UNIT_MASS, OUNCE),
	ONE("ounces", UNIT_MASS, OUNCE),

	ONE("N", UNIT_FORCE, 1),
	ONE("kN", UNIT_FORCE, 1e3),
	ONE("MN", UNIT_FORCE, 1e6),
	ONE("lbf", UNIT_FORCE, POUND *GRAVITY),
	ONE("kgf", UNIT_FORCE, GRAVITY),

	ONE("Pa", UNIT_STRESS, 1),
	ONE("hPa", UNIT_STRESS, 100),
	ONE("kPa", UNIT_STRESS, 1e3),
	ONE("MPa", UNIT_STRESS, 1e6),
	ONE("GPa", UNIT_STRESS, 1e9),
	ONE("N/mm2", UNIT_STRESS, 1e6),
	ONE("N/m2", UNIT_STRESS, 1),
	ONE("kN/m2", UNIT_STRESS, 1e3),
	ONE("bar", UNIT_STRESS, 1e5),
	ONE("mbar", UNIT_STRESS, 100),
	ONE("psi", UNIT_STRESS, PSI),
	ONE("ksi", UNIT_STRESS, 1000 * PSI),
	ONE("lbf/in2", UNIT_STRESS, PSI),
	ONE("lb/in2", UNIT_STRESS, PSI),
	ONE("psf", UNIT_STRESS, PSI / 144),
	ONE("kgf/cm2", UNIT_STRESS, GRAVITY / 1e-4),

	ONE("kg/m3", UNIT_DENSITY, 1),
	ONE("kg/l", UNIT_DENSITY, 1e3),
	ONE("g/l", UNIT_DENSITY, 1),
	ONE("g/ml", UNIT_DENSITY, 1e3),
	ONE("g/cm3", UNIT_DENSITY, 1e3),
	ONE("t/m3", UNIT_DENSITY, 1e3),
	ONE("lb/ft3", UNIT_DENSITY, POUND / FOOT3),
	ONE("pcf", UNIT_DENSITY, POUND / FOOT3),
	ONE("lb/yd3", UNIT_DENSITY, POUND / (27 * FOOT3)),
	{"lb/gal", UNIT_DENSITY, POUND / GALLON_US, 0, POUND / GALLON_IMPERIAL},
	{"g/qt", UNIT_DENSITY, 4e-3 / GALLON_US, 0, 4e-3 / GALLON_IMPERIAL},

	ONE("s", UNIT_TIME, 1),
	ONE("sec", UNIT_TIME, 1),
	ONE("min", UNIT_TIME, 60),
	ONE("h", UNIT_TIME, 3600),
	ONE("hr", UNIT_TIME, 3600),
	ONE("hour", UNIT_TIME, 3600),
	ONE("hours", UNIT_TIME, 3600),
	ONE("d", UNIT_TIME, 86400),
	ONE("day", UNIT_TIME, 86400),
	ONE("days", UNIT_TIME, 86400),
	ONE("week", UNIT_TIME, 604800),
	ONE("weeks", UNIT_TIME, 604800),

	ONE("degC", UNIT_TEMPERATURE, 1),
	ONE("\xC2\xB0" "C", UNIT_TEMPERATURE, 1),
	ONE("C", UNIT_TEMPERATURE, 1),
	{"degF", UNIT_TEMPERATURE, FAHRENHEIT, -32 * FAHRENHEIT, 0},
	{"\xC2\xB0" "F", UNIT_TEMPERATURE, FAHRENHEIT, -32 * FAHRENHEIT, 0},
	{"F", UNIT_TEMPERATURE, FAHRENHEIT, -32 * FAHRENHEIT, 0},
	{"K", UNIT_TEMPERATURE, 1, -273.15, 0},

	ONE("K", UNIT_TEMPERATURE_DIFFERENCE, 1),
	ONE("degC", UNIT_TEMPERATURE_DIFFERENCE, 1),
	ONE("C", UNIT_TEMPERATURE_DIFFERENCE, 1),
	ONE("\xC2\xB0" "C", UNIT_TEMPERATURE_DIFFERENCE, 1),
	ONE("degF", UNIT_TEMPERATURE_DIFFERENCE, FAHRENHEIT),
	ONE("F", UNIT_TEMPERATURE_DIFFERENCE, FAHRENHEIT),
	ONE("\xC2\xB0" "F", UNIT_TEMPERATURE_DIFFERENCE, FAHRENHEIT),

	ONE("J", UNIT_ENERGY, 1),
	ONE("kJ", UNIT_ENERGY, 1e3),
	ONE("MJ", UNIT_ENERGY, 1e6),
	ONE("N m", UNIT_ENERGY, 1),
	ONE("ft-lb", UNIT_ENERGY, FOOT *POUND *GRAVITY),
	ONE("ft lb", UNIT_ENERGY, FOOT *POUND *GRAVITY),
	ONE("ft lbf", UNIT_ENERGY, FOOT *POUND *GRAVITY),
	ONE("ft-lbf", UNIT_ENERGY, FOOT *POUND *GRAVITY),
	ONE("in-lb", UNIT_ENERGY, INCH *POUND *GRAVITY),
	ONE("kWh", UNIT_ENERGY, 3.6e6),
	ONE("Wh", UNIT_ENERGY, 3600),
	ONE("Btu", UNIT_ENERGY, BTU),

	ONE("m3/s", UNIT_VOLUME_FLOW, 1),
	ONE("l/min", UNIT_VOLUME_FLOW, 1e-3 / 60),
	ONE("l/s", UNIT_VOLUME_FLOW, 1e-3),
	ONE("m3/h", UNIT_VOLUME_FLOW, 1.0 / 3600),
	{"gal/min", UNIT_VOLUME_FLOW, GALLON_US / 60, 0, GALLON_IMPERIAL / 60},
	{"gpm", UNIT_VOLUME_FLOW, GALLON_US / 60, 0, GALLON_IMPERIAL / 60},
	ONE("cfm", UNIT_VOLUME_FLOW, FOOT3 / 60),

	ONE("W/(m K)", UNIT_CONDUCTIVITY, 1),
	ONE("W/mK", UNIT_CONDUCTIVITY, 1),
	ONE("W/m K", UNIT_CONDUCTIVITY, 1),
	ONE("W/(mK)", UNIT_CONDUCTIVITY, 1),
	ONE("W/m.K", UNIT_CONDUCTIVITY, 1),
	ONE("Btu in/(h ft2 F)", UNIT_CONDUCTIVITY,
		BTU *INCH / (3600 * FOOT * FOOT * FAHRENHEIT)),
	ONE("Btu*in/(h*ft2*F)", UNIT_CONDUCTIVITY,
		BTU *INCH / (3600 * FOOT * FOOT * FAHRENHEIT)),
	ONE("Btu/(h ft F)", UNIT_CONDUCTIVITY,
		BTU / (3600 * FOOT * FAHRENHEIT)),

	ONE("m2 K/W", UNIT_RESISTANCE, 1),
	ONE("m2K/W", UNIT_RESISTANCE, 1),
	ONE("m2.K/W", UNIT_RESISTANCE, 1),
	ONE("h ft2 F/Btu", UNIT_RESISTANCE,
		3600 * FOOT * FOOT * FAHRENHEIT / BTU),

	ONE("kg/m3", UNIT_CONCENTRATION, 1),
	ONE("g/l", UNIT_CONCENTRATION, 1),
	ONE("mg/l", UNIT_CONCENTRATION, 1e-3),

	ONE("kg/m2", UNIT_MASS_PER_AREA, 1),
	ONE("g/m2", UNIT_MASS_PER_AREA, 1e-3),
	ONE("lb/ft2", UNIT_MASS_PER_AREA, POUND / (FOOT * FOOT)),

	ONE("rad", UNIT_ANGLE, 1),
	ONE("deg", UNIT_ANGLE, PI / 180),
	ONE("\xC2\xB0", UNIT_ANGLE, PI / 180),

	ONE("J/m3", UNIT_ENERGY_PER_VOLUME, 1),
	ONE("J/cm3", UNIT_ENERGY_PER_VOLUME, 1e6),
	ONE("MJ/m3", UNIT_ENERGY_PER_VOLUME, 1e6),
	ONE("kJ/m3", UNIT_ENERGY_PER_VOLUME, 1e3),
	ONE("Pa", UNIT_ENERGY_PER_VOLUME, 1),
	ONE("MPa", UNIT_ENERGY_PER_VOLUME, 1e6),

	ONE("J/mol", UNIT_MOLAR_ENERGY, 1),
	ONE("kJ/mol", UNIT_MOLAR_ENERGY, 1e3),

	ONE("m/s", UNIT_SPEED, 1),
	ONE("km/h", UNIT_SPEED, 1.0 / 3.6),
	ONE("ft/s", UNIT_SPEED, FOOT),
	ONE("mph", UNIT_SPEED, 1609.344 / 3600),

	ONE("N/m", UNIT_FORCE_PER_LENGTH, 1),
	ONE("kN/m", UNIT_FORCE_PER_LENGTH, 1e3),
	ONE("lbf/ft", UNIT_FORCE_PER_LENGTH, POUND *GRAVITY / FOOT),

	ONE("W", UNIT_POWER, 1),
	ONE("kW", UNIT_POWER, 1e3),

	ONE("J/(kg K)", UNIT_HEAT_CAPACITY, 1),
	ONE("kJ/(kg K)", UNIT_HEAT_CAPACITY, 1e3),

	ONE("kg/m", UNIT_MASS_PER_LENGTH, 1),
	ONE("g/m", UNIT_MASS_PER_LENGTH, 1e-3),
};

const size_t unit_n_word = sizeof unit_words / sizeof unit_words[0];

const struct unit_ambiguous unit_ambiguous_words[] = {
	{"ton", "a short ton (907.18 kg), a metric one (1000 kg, write t) or a "
		"long one (1016.05 kg)"},
	{"tons", "short tons (907.18 kg), metric ones (1000 kg, write t) or "
		 "long ones (1016.05 kg)"},
	{"pt", "a pint or a point; write mL"},
	{"mPa", "thousandths of a pascal, or megapascal (write MPa)"},
	{"Mpa", "megapascal (write MPa) or a slip for kPa"},
	{"mpa", "megapascal (write MPa) or thousandths of a pascal"},
	{"month", "28 to 31 days; write the days"},
	{"months", "28 to 31 days each; write the days"},
	{"cft", "a cubic foot (write ft3) or a hundredth of a foot"},
};

const size_t unit_n_ambiguous =
	sizeof unit_ambiguous_words / sizeof unit_ambiguous_words[0];
