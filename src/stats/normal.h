/* normal.h - the standard normal distribution, true in both tails.
 *
 * Pure; cannot fail.  The error function of the C library carries full relative
 * accuracy into the upper tail; at x = 37 the rounding of x / sqrt(2) leaves
 * 13 digits.  Checked against 25-digit values. */
#ifndef STATS_NORMAL_H
#define STATS_NORMAL_H

/* stats_normal_density(x): exp(-x^2 / 2) / sqrt(2 pi). */
double stats_normal_density(double x);

/* stats_normal_upper(x): P(Z > x); stats_normal_lower(x): P(Z <= x). */
double stats_normal_upper(double x);
double stats_normal_lower(double x);

/* stats_normal_log_upper(x): log P(Z > x), without underflow. */
double stats_normal_log_upper(double x);

/* stats_normal_between(low, high): P(low < Z <= high), formed in the tail where
 * it does not cancel; 0 where high <= low. */
double stats_normal_between(double low, double high);

#endif /* STATS_NORMAL_H */
