/* fastnormal.c - standard normal draws: the table, and the rarer branches. */
#include "stats/fastnormal.h"

/* Where the tail begins and the area of each of 256 layers under exp(-x^2 / 2)
 * (Marsaglia and Tsang 2000, section 3). */
static const double tail_from = 3.6541528853610088;
static const double layer_area = 0.00492867323399;

void
fastnormal_start(struct fastnormal *table)
{
	double *edge = table->edge, *level = table->level;

	edge[0] = layer_area / exp(-0.5 * tail_from * tail_from);
	edge[1] = tail_from;
	level[0] = 0;
	level[1] = exp(-0.5 * tail_from * tail_from);
	for (size_t i = 1; i + 1 < FASTNORMAL_LAYERS; i++) {
		level[i + 1] = level[i] + layer_area / edge[i];
		edge[i + 1] = sqrt(-2 * log(level[i + 1]));
	}
	edge[FASTNORMAL_LAYERS] = 0;
	level[FASTNORMAL_LAYERS] = 1;
}

/* Marsaglia (1964), Technometrics 6, 101-102. */
static double
draw_tail(struct fastrand *r)
{
	double x, y;

	do {
		x = -log(fastrand_unit_open(r)) / tail_from;
		y = -log(fastrand_unit_open(r));
	} while (2 * y < x * x);
	return tail_from + x;
}

double
fastnormal_beyond(const struct fastnormal *table, struct fastrand *r,
	size_t layer, double z)
{
	const double *level = table->level;

	if (layer == 0)
		return copysign(draw_tail(r), z);
	if (level[layer] +
			(level[layer + 1] - level[layer]) * fastrand_unit(r) <
		exp(-0.5 * z * z))
		return z;
	return fastnormal_draw(table, r);
}
