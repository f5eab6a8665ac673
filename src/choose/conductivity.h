/* conductivity.h - heat let through, foreseen from the dry weight.
 *
 * Pure. */
#ifndef CHOOSE_CONDUCTIVITY_H
#define CHOOSE_CONDUCTIVITY_H

/* The relation of ACI 122R (after Valore 1980), k = 0.5 exp(0.02 w) with w in
 * lb/ft3 and k in Btu in/(h ft2 degF), oven-dry, from memory; in SI
 * 0.0721 exp(0.0012486 density).  Others print 0.0865 for 0.0721: the relation
 * is good to about 20 %, which draws spread by choose_conductivity_sd. */
static const double choose_conductivity_sd = 0.10; /* on the log scale */

/* choose_conductivity(dry_density_kg_m3): W/(m K), oven-dry; moisture adds
 * about 6 % for each 1 % by volume (common practice, no source). */
double choose_conductivity(double dry_density_kg_m3);

#endif /* CHOOSE_CONDUCTIVITY_H */
