/* section.h - bending of a panel, plain or with one layer of mesh.
 *
 * Pure.  Method and symbols: docs/methods/screening.md.  Screening only. */
#ifndef CHOOSE_SECTION_H
#define CHOOSE_SECTION_H

#include "core/err.h"
#include "core/qty.h"

#include <stdbool.h>

/* ACI 318-19, 22.2: strain at which the top crushes; stress block.  20.2.2.2:
 * modulus of steel. */
static const double choose_crushing_strain = 0.003;
static const double choose_block_stress = 0.85;
static const double choose_steel_modulus_Pa = 200e9;

struct choose_section {
	struct length width, depth; /* > 0 */
	struct stress strength;     /* in bending, from beams of the mix; > 0*/
	bool has_reinforcement;     /* then: */
	struct stress compressive;  /* crushing strength; > 0 */
	struct area steel;          /* in the side under tension; > 0 */
	struct length effective;    /* from the pressed face to the steel; > 0,
	                                < depth */
	struct stress yield;        /* of the steel; > 0 */
};

struct choose_sectioned {
	struct moment cracking; /* strength * b * h^2/6 */
	struct moment
		ultimate; /* plain: the same; else of the cracked section*/
	struct moment after_crack; /* 0 for a plain panel, else ultimate */
	double after_crack_ratio;  /* after_crack / cracking */
	bool breaks_at_crack;      /* the steel carries less than cracked it */
	/* With reinforcement: */
	struct length block;   /* depth of the stress block, a */
	struct length neutral; /* depth of the neutral axis, c */
	double steel_strain;
	bool steel_yields; /* false: the top crushes first */
	bool is_ductile; /* strain at least that of yielding + 0.003, ACI 318-19,
	                    21.2.2 */
};

/* choose_section(s, out, err):
 * Cracking: elastic, uncracked, steel left out (ACI 318-19, 24.2.3.5).
 * Ultimate: equilibrium with the rectangular block of ACI 318-19, 22.2.2, As fs
 * = 0.85 f'c a b, M = As fs (d - a/2), fs the yield stress or, where the top
 * crushes first, what the strains allow.  Taken beyond its floor of 17 MPa for
 * f'c; bond is not checked, and in weak foamed concrete it mostly gives first.
 * ERR_INPUT  a value is out of range; err->field names it as calc does
 *            ("reinforcement.area") */
enum err_code choose_section(const struct choose_section *s,
	struct choose_sectioned *out, struct err *err) MUST_CHECK;

/* choose_block_factor(compressive): beta1, ACI 318-19, table 22.2.2.4.3: 0.85
 * up to 28 MPa, 0.05 less each 7 MPa, at least 0.65. */
double choose_block_factor(struct stress compressive);

/* choose_rupture(compressive, lightweight, out, err):
 * Modulus of rupture where no beam was broken: 0.62 lambda sqrt(f'c in MPa)
 * MPa, ACI 318-19, eq. 19.2.3.1 (its floor is 17 MPa).
 * choose_lightweight(density): lambda, ACI 318-19, table 19.2.4.1, by unit
 * weight: 0.75 up to 100 lb/ft3, 0.0075 w to 135, then 1.
 * choose_elasticity(density, compressive, out, err): 0.043 w^1.5 sqrt(f'c) MPa,
 * ACI 318-19, eq. 19.2.2.1.a, for 1440 to 2560 kg/m3; for less it is out of its
 * range and off by up to four times.
 * ERR_INPUT  a value not above 0 */
enum err_code choose_rupture(struct stress compressive, double lightweight,
	struct stress *out, struct err *err) MUST_CHECK;
double choose_lightweight(struct density density);
enum err_code choose_elasticity(struct density density,
	struct stress compressive, struct stress *out,
	struct err *err) MUST_CHECK;

#endif /* CHOOSE_SECTION_H */
