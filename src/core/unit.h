/* unit.h - one reader and one writer of quantities for all faces.
 *
 * Reads what people write ("9 1/2 in", "5 ft 3 in", "31,8 kg", "70lb", "7 1/4
 * gal", "40 degF") into coherent SI and refuses what could mean two things,
 * naming both.  Own table of unit words; the grammar is in
 * docs/methods/quantities.md. */
#ifndef CORE_UNIT_H
#define CORE_UNIT_H

#include "core/arena.h"
#include "core/err.h"

#include <stdbool.h>
#include <stddef.h>

/* What kind of quantity a field wants; its coherent SI unit beside it. */
enum unit_kind {
	UNIT_NUMBER,      /* a plain number, no unit */
	UNIT_RATIO,       /* 1; reads "5 %" as 0.05 and "0.05" as 0.05 */
	UNIT_LENGTH,      /* m */
	UNIT_AREA,        /* m2 */
	UNIT_VOLUME,      /* m3 */
	UNIT_MASS,        /* kg; lb is a mass */
	UNIT_FORCE,       /* N */
	UNIT_STRESS,      /* Pa; also pressure; psi, bar, N/mm2 */
	UNIT_DENSITY,     /* kg/m3; g/L, pcf */
	UNIT_TIME,        /* s */
	UNIT_TEMPERATURE, /* degC: a reading on the scale */
	UNIT_TEMPERATURE_DIFFERENCE, /* K */
	UNIT_ENERGY,                 /* J */
	UNIT_VOLUME_FLOW,            /* m3/s */
	UNIT_CONDUCTIVITY,           /* W/(m K) */
	UNIT_RESISTANCE,             /* m2 K/W */
	UNIT_CONCENTRATION,          /* kg/m3; hardness in mg/L is 1e-3 kg/m3 */
	UNIT_MASS_PER_AREA,          /* kg/m2 */
	UNIT_ANGLE, /* rad; a bare number in text is refused, "60 deg" */
	UNIT_ENERGY_PER_VOLUME, /* J/m3, which is Pa; J/cm3 */
	UNIT_MOLAR_ENERGY,      /* J/mol */
	UNIT_SPEED,             /* m/s */
	UNIT_FORCE_PER_LENGTH,  /* N/m */
	UNIT_POWER,             /* W */
	UNIT_HEAT_CAPACITY,     /* J/(kg K) */
	UNIT_MASS_PER_LENGTH,   /* kg/m */
	UNIT_U_VALUE,           /* W/(m2 K) */
	UNIT_VOLUME_PER_MASS    /* m3/kg; a dose, mL/kg or fl oz/US cwt */
};

enum unit_gallon { UNIT_GALLON_US, UNIT_GALLON_IMPERIAL };

struct unit_rules {
	bool decimal_comma; /* "0,45" is 0.45; without it a comma that could
	                            be a thousands mark is refused */
	enum unit_gallon gallon; /* what "gal", "qt" and "fl oz" mean */
	const char *bare_unit;   /* the unit of a number without a word, such as
	                            the one in a CSV heading; NULL: refused, but
	                            for UNIT_NUMBER and UNIT_RATIO */
	bool may_be_negative;    /* allowed for temperatures always */
};

enum { UNIT_N_KIND = UNIT_VOLUME_PER_MASS + 1 };

/* unit_read(text, kind, rules, si, err):
 * The value in coherent SI.  text is UTF-8 of at most 64 bytes; no more than 65
 * are looked at, however long it is.  rules may be NULL: point or plain comma
 * decimals, US gallons, no bare unit, no sign.
 * ERR_INPUT  cannot be read, is ambiguous (the sentence shows each reading), is
 *            of another kind (the sentence names both), or is negative */
enum err_code unit_read(const char *text, enum unit_kind kind,
	const struct unit_rules *rules, double *si, struct err *err) MUST_CHECK;

/* unit_known(word, kind): true if word is a unit word of that kind. */
bool unit_known(const char *word, enum unit_kind kind);

/* unit_factor(word, kind, scale, offset, err): si = value * scale + offset
 * (offset only for temperatures).  ERR_INPUT unknown or ambiguous word. */
enum err_code unit_factor(const char *word, enum unit_kind kind,
	enum unit_gallon gallon, double *scale, double *offset,
	struct err *err) MUST_CHECK;

/* unit_value(si, kind, word): an SI value as a number of that unit; NAN where the
 * word is not of that kind.  A gallon that is not said to be imperial is a US
 * one. */
double unit_value(double si, enum unit_kind kind, const char *word);

/* unit_names_gallon(text, kind): what is written means one thing with US gallons
 * and another with imperial ones ("6 gal", but neither "6 L" nor "6 US gal"). */
bool unit_names_gallon(const char *text, enum unit_kind kind);

/* unit_kind_name(kind): "a length", "a mass" ...; never NULL. */
const char *unit_kind_name(enum unit_kind kind);

/* unit_si_word(kind): the coherent SI unit as we print it ("kg/m3"). */
const char *unit_si_word(enum unit_kind kind);

/* unit_example(kind): something that would be read ("450 mm"). */
const char *unit_example(enum unit_kind kind);

/* unit_write(arena, si, kind, word, digits):
 * "22.6 kg": the SI value shown in the unit word with that many significant
 * digits, never in exponent form, no minus before a zero.  NULL if memory ran
 * out or the word is not of that kind. */
char *unit_write(struct arena *arena, double si, enum unit_kind kind,
	const char *word, int digits);

/* unit_digits(arena, value, digits): the bare number as unit_write shows it. */
char *unit_digits(struct arena *arena, double value, int digits);

/* unit_plus_minus(arena, value, uncertainty): value and uncertainty cut to the
 * place of the uncertainty's second significant digit where that begins with
 * 1, of its first otherwise ("0.357 +/- 0.012"); JCGM 100:2008, 7.2.6. */
char *unit_plus_minus(struct arena *arena, double value, double uncertainty);

#endif /* CORE_UNIT_H */
