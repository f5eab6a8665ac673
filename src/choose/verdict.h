/* verdict.h - one of a few plain words for a mix beside the baseline.
 *
 * Pure.  The limits are ours, stated here: no source. */
#ifndef CHOOSE_VERDICT_H
#define CHOOSE_VERDICT_H

#include "choose/types.h"

/* The chance from which on "better" is said without "repeat it", and from which
 * on "looks better" is said at all; "worse" from 1 - clear downwards. */
static const double choose_clear_chance = 0.95;
static const double choose_looks_chance = 0.80;
/* A mix "could not be made" where at least this share of what was cast broke
 * before its test and it broke more often than the rest by more than chance. */
static const double choose_broken_share = 1.0 / 3.0;
static const double choose_broken_chance = 0.05;

struct choose_standing {
	bool is_baseline;
	double p_better; /* chance that the mix beats the baseline */
	size_t n_batch, n_batch_baseline; /* separate batches behind it */
	size_t n_cast, n_broken;          /* of this mix, before the test */
	double p_breaks_by_chance; /* exact one-sided, against the other mixes */
};

/* choose_verdict(standing): with fewer than two batches on either side no clear
 * word is given, whatever the chance, for one batch is one experiment. */
enum choose_verdict choose_verdict(const struct choose_standing *standing);

#endif /* CHOOSE_VERDICT_H */
