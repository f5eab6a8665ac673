/* outlier.h - is the value that lies farthest out too far out?
 *
 * Both tests take the values for one normal sample; they flag, they do not
 * delete.
 *
 * Pure.  Method: docs/methods/comparisons.md. */
#ifndef STATS_OUTLIER_H
#define STATS_OUTLIER_H

#include "core/arena.h"
#include "core/err.h"

#include <stdbool.h>
#include <stddef.h>

struct stats_grubbs {
	size_t index; /* of the value farthest from the mean */
	double g;     /* |value - mean| / sd */
	double p_one_sided, p_two_sided;
};

/* stats_grubbs(x, n, out, err):
 * Grubbs 1950, Annals of Mathematical Statistics 21, 27-58; the chances are the
 * Bonferroni bounds n P(t) and 2 n P(t), at most 1, which the printed tables
 * hold too; exact while two values cannot both lie so far out.
 * ERR_INPUT  fewer than 3 values, one not finite, or all equal */
enum err_code stats_grubbs(const double *x, size_t n, struct stats_grubbs *out,
	struct err *err) MUST_CHECK;

/* stats_grubbs_bound(g, n): n P(t beyond g), not capped; n >= 3,
 * 0 <= g <= (n - 1) / sqrt(n). */
double stats_grubbs_bound(double g, size_t n);

/* Dixon's ratio r_(top)(bottom) = (x_n - x_(n - top)) / (x_n - x_(1 + bottom))
 * of the sorted values, for the highest value; mirrored for the lowest. */
struct stats_dixon_ratio {
	int top;    /* 1 or 2 */
	int bottom; /* 0, 1 or 2 */
};

enum { STATS_DIXON_MAX = 100 };

/* stats_dixon_choose(n): r10 up to 7 values, r11 up to 10, r21 up to 13, r22
 * beyond (Dixon 1953, Biometrics 9, 74-89; ASTM E178). */
struct stats_dixon_ratio stats_dixon_choose(size_t n);

/* stats_dixon_upper(ratio, r, n): P(the ratio of the highest > r) for n normal
 * values, 3 <= n <= STATS_DIXON_MAX, by integration over the highest value and
 * its distance from the low one (McBane 2006, Journal of Statistical Software
 * 16(3), for the integral); the old tables err by up to 0.006. */
double stats_dixon_upper(struct stats_dixon_ratio ratio, double r, size_t n);

struct stats_dixon {
	size_t index; /* the end with the larger ratio */
	struct stats_dixon_ratio ratio;
	double r;
	double p; /* one-sided, for that end */
};

/* stats_dixon(arena, x, n, has, out, err):
 * *has is false, and *out untouched, beyond STATS_DIXON_MAX values.
 * ERR_INPUT  as stats_grubbs;  ERR_MEMORY */
enum err_code stats_dixon(struct arena *arena, const double *x, size_t n,
	bool *has, struct stats_dixon *out, struct err *err) MUST_CHECK;

#endif /* STATS_OUTLIER_H */
