/* frost.h - what freezing and thawing took away.
 *
 * Pure.  Method and symbols: docs/methods/water.md. */
#ifndef LAB_FROST_H
#define LAB_FROST_H

#include "core/err.h"
#include "core/qty.h"

#include <stdint.h>

/* lab_frost_loss(before, after, ratio, err): (before - after)/before; below 0
 * for a piece that took up water (common practice, no source; dry both alike).
 * ERR_INPUT  a mass not above 0 */
enum err_code lab_frost_loss(struct mass before, struct mass after,
	double *ratio, struct err *err) MUST_CHECK;

/* lab_frost_uncertainty(before, after, division, uncertainty, err): of that
 * ratio, absolute, each weighing (or size) read to the division; first order
 * (JCGM 100:2008, 5.1.2).  ERR_INPUT  as lab_frost_loss, a division below 0 */
enum err_code lab_frost_uncertainty(struct mass before, struct mass after,
	struct mass division, double *uncertainty, struct err *err) MUST_CHECK;

/* lab_dynamic_ratio(first_Hz, now_Hz, ratio, err):
 * Relative dynamic modulus of elasticity, (now/first)^2 (ASTM C666, 10.1).
 * ERR_INPUT  a frequency not above 0 */
enum err_code lab_dynamic_ratio(double first_Hz, double now_Hz, double *ratio,
	struct err *err) MUST_CHECK;

/* lab_durability(dynamic_ratio, at_cycle, planned, factor, err):
 * Durability factor, ratio * at_cycle / planned (ASTM C666, 10.2), as a ratio.
 * ERR_INPUT  ratio not from 0 to 1.5, no planned cycles, or at_cycle beyond
 *            them */
enum err_code lab_durability(double dynamic_ratio, uint64_t at_cycle,
	uint64_t planned, double *factor, struct err *err) MUST_CHECK;

/* lab_frost_strength(frozen_Pa, kept_Pa, out, err):
 * Strength of a frozen piece over that of its unfrozen pair, each an interval:
 * the widest that both allow.  Derived.  ERR_INPUT as lab_residual_ratio. */
enum err_code lab_frost_strength(struct interval frozen_Pa,
	struct interval kept_Pa, struct interval *out,
	struct err *err) MUST_CHECK;

#endif /* LAB_FROST_H */
