/* fastnormal.h - standard normal draws in inner loops.
 *
 * Pure.  The ziggurat of Marsaglia and Tsang (2000), Journal of Statistical
 * Software 5(8), with 256 layers, and with the layer, the sign and the place
 * taken from bits of one word that do not overlap: Doornik (2005), "An improved
 * ziggurat method to generate normal random samples", shows what goes wrong if
 * they do. */
#ifndef STATS_FASTNORMAL_H
#define STATS_FASTNORMAL_H

#include "stats/fastrand.h"

#include <math.h>

enum { FASTNORMAL_LAYERS = 256 };

/* Layer i reaches from 0 to edge[i] and from level[i] to level[i + 1], where
 * level is the density over that at 0; layer 0 is the base with its tail. */
struct fastnormal {
	double edge[FASTNORMAL_LAYERS + 1], level[FASTNORMAL_LAYERS + 1];
};

/* fastnormal_start(table): fills the table; it is only read after that, so one
 * serves any number of threads. */
void fastnormal_start(struct fastnormal *table);

/* fastnormal_beyond(table, r, layer, z): the one draw in eighty that is not
 * inside the next layer too; for fastnormal_draw alone. */
double fastnormal_beyond(const struct fastnormal *table, struct fastrand *r,
	size_t layer, double z);

/* fastnormal_draw(table, r): one draw. */
static inline double
fastnormal_draw(const struct fastnormal *table, struct fastrand *r)
{
	const uint64_t word = fastrand_word(r);
	const size_t layer = word % FASTNORMAL_LAYERS;
	/* the upper 53 bits with a sign: [-1, 1) */
	const double place = (double)((int64_t)word >> 11) * 0x1p-52;
	const double z = place * table->edge[layer];

	if (fabs(z) < table->edge[layer + 1])
		return z;
	return fastnormal_beyond(table, r, layer, z);
}

#endif /* STATS_FASTNORMAL_H */
