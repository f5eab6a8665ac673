/* maturity.h - how much curing a temperature log amounts to.
 *
 * Pure.  Method and symbols: docs/methods/maturity.md. */
#ifndef LAB_MATURITY_H
#define LAB_MATURITY_H

#include "core/err.h"
#include "core/qty.h"

#include <stdbool.h>
#include <stddef.h>

/* Molar gas constant in J/(mol K), exact since 2019 (SI Brochure, 9th ed.). */
static const double lab_gas_constant = 8.31446261815324;

/* Taken where nothing better is known: 5000 K times the gas constant (ASTM
 * C1074's default Q, from memory; the practice gives 40 to 45 kJ/mol for
 * ordinary Portland cement without admixtures). */
static const double lab_default_activation_J_mol = 41572.3130907662;
static const double lab_default_reference_degC = 20;

struct lab_log_reading {
	struct duration at;
	struct temperature temperature;
};

struct lab_maturity {
	const struct lab_log_reading *reading; /* borrowed; in order of time;
	                                  two at one time are a step */
	size_t n_reading;                      /* at least 2 */
	struct temperature datum;     /* below it nothing is gained; ASTM C1074:
	                                 0 degC for ordinary cement, Saul: -10 */
	double activation_J_mol;      /* > 0, at most 200 000 */
	struct temperature reference; /* of the equivalent age */
};

struct lab_matured {
	double nurse_saul_degC_h; /* sum of (T - datum) dt */
	struct duration equivalent_age;
	struct duration elapsed;
	struct duration below_datum; /* time that counted nothing */
	double mean_degC;            /* over the elapsed time */
};

/* lab_maturity(m, out, err):
 * Between two readings the mean of the two holds.  Nurse-Saul: ASTM C1074,
 * eq. 1; an interval below the datum counts 0 (convention).  Equivalent age:
 * ASTM C1074, eq. 2, sum of exp(-Ea/R (1/T - 1/Tr)) dt, T in kelvin.
 * ERR_INPUT  fewer than two readings, no time between first and last, time that
 *            runs backwards, a temperature outside -90 to 200 degC, an
 *            activation energy out of range; err->field names it as calc does
 *            ("history[3].t") */
enum err_code lab_maturity(const struct lab_maturity *m,
	struct lab_matured *out, struct err *err) MUST_CHECK;

/* lab_arrhenius_factor(temperature, reference, activation): how much faster
 * curing runs at the temperature than at the reference (ASTM C1074, eq. 2). */
double lab_arrhenius_factor(struct temperature temperature,
	struct temperature reference, double activation_J_mol);

/* lab_nurse_saul_factor(temperature, reference, datum): the same by the
 * Nurse-Saul rule, (T - T0)/(Tr - T0), 0 below the datum (derived from ASTM
 * C1074, eq. 1). */
double lab_nurse_saul_factor(struct temperature temperature,
	struct temperature reference, struct temperature datum);

/* lab_en1992_factor(temperature): EN 1992-1-1, annex B, eq. B.10,
 * exp(13.65 - 4000/(273 + T)); the reference is 20 degC within 0.2 %. */
double lab_en1992_factor(struct temperature temperature);

#endif /* LAB_MATURITY_H */
