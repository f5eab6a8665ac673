/* step_reading.h - what reading a load in steps of weights costs.
 *
 * A value that is only known to lie between two steps tells less of its mean
 * than one read exactly: the ratio of the Fisher informations for a normal
 * value (Kulldorff 1961, Contributions to the Theory of Estimation from Grouped
 * Samples), averaged over where the steps fall; near 1 - w^2 / 12 for steps of
 * w spreads (Sheppard 1898, Proceedings of the London Mathematical Society 29,
 * 353-380).
 *
 * Pure; cannot fail. */
#ifndef STATS_STEP_READING_H
#define STATS_STEP_READING_H

/* stats_step_worth(step): what one reading in steps of `step` spreads, step >=
 * 0, is worth of an exact one; 1 at 0, falling to 0. */
double stats_step_worth(double step);

/* stats_step_for(worth): the step, in spreads, at which a reading is worth that
 * share of an exact one; asserts 0.05 <= worth < 1. */
double stats_step_for(double worth);

#endif /* STATS_STEP_READING_H */
