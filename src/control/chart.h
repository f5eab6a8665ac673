/* chart.h - single values in the order they were made, on three charts at once.
 *
 * Individuals and moving range: centre and spread from the base points, spread
 * = mean moving range / d2(2); limits 3 spreads about the centre, ranges up to
 * D4(2) times their mean (ASTM Manual on Presentation of Data, MNL 7).  Runs
 * rules: 1956 Statistical Quality Control Handbook; six points steadily up or
 * down: Nelson 1984, Journal of Quality Technology 16, 237-239.
 * EWMA: Roberts 1959, Technometrics 1, 239-250, limits of the long run.
 * CUSUM, two-sided, in spreads: Page 1954, Biometrika 41, 100-115.
 * When it began: Samuel, Pignatiello and Calvin 1998, Quality Engineering 10,
 * 521-527 (the likeliest moment of a step), with the share of each moment under
 * a flat prior of moment and step; and the CUSUM's last zero (Page 1954).
 *
 * Pure.  Method: docs/methods/charts.md. */
#ifndef CONTROL_CHART_H
#define CONTROL_CHART_H

#include "core/arena.h"
#include "core/err.h"

#include <stdbool.h>
#include <stddef.h>

/* rule, word for machines, what it says */
#define CONTROL_RULE_LIST(X)                                                \
	X(CONTROL_BEYOND_THREE, "beyond_three",                             \
		"one point more than 3 spreads from the centre")            \
	X(CONTROL_TWO_OF_THREE, "two_of_three_beyond_two",                  \
		"two of three points more than 2 spreads out on one side")  \
	X(CONTROL_FOUR_OF_FIVE, "four_of_five_beyond_one",                  \
		"four of five points more than 1 spread out on one side")   \
	X(CONTROL_EIGHT_ON_ONE_SIDE, "eight_on_one_side",                   \
		"eight points in a row on one side of the centre")          \
	X(CONTROL_SIX_STEADY, "six_steady",                                 \
		"six points in a row, each above or each below the last")   \
	X(CONTROL_RANGE, "range", "two neighbouring points too far apart")  \
	X(CONTROL_EWMA, "ewma", "the moving average is outside its limits") \
	X(CONTROL_CUSUM, "cusum", "the cumulative sum is above its decision")

#define CONTROL_RULE_AS_ENUM(rule, ...) rule,
enum control_rule { CONTROL_RULE_LIST(CONTROL_RULE_AS_ENUM) };
#undef CONTROL_RULE_AS_ENUM
enum { CONTROL_RULE_COUNT = CONTROL_CUSUM + 1 };

const char *control_rule_word(enum control_rule rule);
const char *control_rule_says(enum control_rule rule);

struct control_settings {
	size_t n_base; /* points that set centre and spread, >= 3; 0: all */
	bool is_known; /* centre and spread are given instead */
	double centre, spread;
	bool use[CONTROL_RULE_COUNT];
	double lambda, width;       /* of the EWMA */
	double reference, decision; /* of the CUSUM, in spreads */
	/* The three mean run lengths are not worked out and stay 0: they take
	 * far longer than the chart.  Settings of EWMA and CUSUM are then taken
	 * as they are. */
	bool without_runs;
};

/* control_usual(): all points as base; all rules but two_of_three,
 * four_of_five and six_steady; lambda 0.2 and width 2.962, reference 0.5 and
 * decision 5: run lengths of 500 and 465 while nothing moves. */
struct control_settings control_usual(void);

struct control_point {
	double value;
	bool has_range; /* all but the first */
	double range;
	double ewma;
	double up, down; /* CUSUM, in spreads */
	bool signals[CONTROL_RULE_COUNT];
};

/* When the step that a signal tells of began; indices of points, from 0. */
struct control_onset {
	size_t first; /* the likeliest first point after the step */
	size_t low,
		high; /* the shortest run of points with 90 % of the share */
	size_t cusum; /* the first after the CUSUM was last at zero */
	double step;  /* estimated, in the unit of the values */
};

/* Mean points to a signal, of each chart alone; in spreads of a moved mean. */
struct control_runs {
	double calm, one_spread; /* while nothing moves; mean moved by one */
};

struct control_chart {
	double centre, spread;
	double low, high;              /* of single values */
	double range_mean, range_high; /* without is_known from the base */
	double ewma_half;              /* limits: centre -+ this */
	struct control_point *point;
	size_t n_point;
	bool has_signal;
	size_t signal; /* the first */
	enum control_rule rule;
	struct control_onset onset; /* with has_signal */
	/* of single values by the runs rules in use, beyond_three always among
	 * them; the ranges are not in it */
	struct control_runs rules_run;
	struct control_runs ewma_run, cusum_run;
};

/* control_chart(arena, value, n, settings, out, err):
 * n >= 3 values (1 with is_known).  The moment of onset uses the points up to
 * the first signal.
 * ERR_INPUT   a value not finite; too few; a base of equal values, which has
 *             no spread; a setting out of range
 * ERR_NUMERIC, ERR_MEMORY */
enum err_code control_chart(struct arena *a, const double *value, size_t n,
	const struct control_settings *settings, struct control_chart *out,
	struct err *err) MUST_CHECK;

/* control_onset(arena, value, n, centre, spread, out, err): the step among the
 * first n values, n >= 1.  Its cusum is 0 here.  ERR_MEMORY */
enum err_code control_onset(struct arena *a, const double *value, size_t n,
	double centre, double spread, struct control_onset *out,
	struct err *err) MUST_CHECK;

#endif /* CONTROL_CHART_H */
