/* conductivity.h - heat let through, foreseen from the dry weight.
 *
 * Pure.  Method and symbols: docs/methods/heat.md. */
#ifndef CHOOSE_CONDUCTIVITY_H
#define CHOOSE_CONDUCTIVITY_H

#include "core/err.h"
#include "core/qty.h"

#include <stdbool.h>

/* The relation of ACI 122R (after Valore 1980), k = 0.5 exp(0.02 w) with w in
 * lb/ft3 and k in Btu in/(h ft2 degF), oven-dry, from memory; in SI
 * 0.0721 exp(0.0012486 density).  Others print 0.0865 for 0.0721: the relation
 * is good to about 20 %, which draws spread by choose_conductivity_sd. */
static const double choose_conductivity_sd = 0.10; /* on the log scale */

/* choose_conductivity(dry_density_kg_m3): W/(m K), oven-dry, as aci_122. */
double choose_conductivity(double dry_density_kg_m3);

/* relation, word, source, lowest and highest oven-dry density in kg/m3, water
 * per dry mass at which it holds */
#define CHOOSE_RELATION_LIST(X)                                                \
	X(CHOOSE_ACI_122, "aci_122",                                           \
		"ACI 122R after Valore 1980: 0.5 exp(0.02 w) in Btu in/(h "    \
		"ft2 degF), w in lb/ft3, converted exactly (from memory)",     \
		320, 2400, 0)                                                  \
	X(CHOOSE_ACI_122_ROUNDED, "aci_122_rounded",                           \
		"0.0865 exp(0.00125 density), a rounded SI form of the same "  \
		"relation in part of the literature; 20 % above the exact "    \
		"conversion (from memory)",                                    \
		320, 2400, 0)                                                  \
	X(CHOOSE_VALORE_1980, "valore_1980",                                   \
		"Valore 1980: 0.072 exp(0.00125 density) (from memory)", 320,  \
		1600, 0)                                                       \
	X(CHOOSE_EN_1745_P50, "en_1745_p50",                                   \
		"EN 1745:2012, table A.10, autoclaved aerated concrete, half " \
		"of production (from memory)",                                 \
		300, 1000, 0)                                                  \
	X(CHOOSE_EN_1745_P90, "en_1745_p90",                                   \
		"EN 1745:2012, table A.10, autoclaved aerated concrete, 90 % " \
		"of production (from memory)",                                 \
		300, 1000, 0)                                                  \
	X(CHOOSE_BCA_1994_LOW, "bca_1994_low",                                 \
		"British Cement Association 1994, foamed concrete, low end, "  \
		"stated at 3 % moisture and brought to the one asked for "     \
		"(from memory)",                                               \
		400, 1600, 0.03)                                               \
	X(CHOOSE_BCA_1994_HIGH, "bca_1994_high",                               \
		"British Cement Association 1994, foamed concrete, high end, " \
		"stated at 3 % moisture and brought to the one asked for "     \
		"(from memory)",                                               \
		400, 1600, 0.03)

#define CHOOSE_RELATION_AS_ENUM(relation, ...) relation,
enum choose_relation { CHOOSE_RELATION_LIST(CHOOSE_RELATION_AS_ENUM) };
#undef CHOOSE_RELATION_AS_ENUM
enum { CHOOSE_RELATION_COUNT = CHOOSE_BCA_1994_HIGH + 1 };

const char *choose_relation_word(enum choose_relation relation);
const char *choose_relation_source(enum choose_relation relation);
struct interval choose_relation_range_kg_m3(enum choose_relation relation);

/* ISO 10456:2007, clause 7 and table 4 (from memory): factor for water by mass
 * exp(4 (u2 - u1)) of autoclaved aerated concrete, by volume exp(4 (psi2 -
 * psi1)) of concrete; the table's moistures end at 0.25. */
static const double choose_moisture_by_mass = 4;
static const double choose_moisture_by_volume = 4;
static const double choose_moisture_table_end = 0.25;

/* choose_moisture_factor(coefficient, from_ratio, to_ratio): exp(coefficient
 * (to - from)), ISO 10456, eq. for Fm. */
double choose_moisture_factor(
	double coefficient, double from_ratio, double to_ratio);

struct choose_conducts {
	bool has_value; /* false: a table that does not reach so far */
	bool in_range;  /* of the relation's densities */
	struct conductivity oven_dry;
	struct conductivity moist; /* at the moisture asked for */
};

/* choose_relation_conductivity(relation, dry, moisture_ratio, out, err):
 * Conductivity at a mean temperature of about 24 degC (10 degC for EN 1745).
 * Formulas are carried beyond their range and say so (in_range), tables are
 * not.  Moisture is water per oven-dry mass.
 * ERR_INPUT  density not from 1 to 3000 kg/m3, moisture not from 0 to 2 */
enum err_code choose_relation_conductivity(enum choose_relation relation,
	struct density dry, double moisture_ratio, struct choose_conducts *out,
	struct err *err) MUST_CHECK;

#endif /* CHOOSE_CONDUCTIVITY_H */
