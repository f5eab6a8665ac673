/* rng.c - xoshiro256++ behind GSL's interface, seeded by SplitMix64. */
#include "core/rng.h"

struct xoshiro {
	uint64_t word[4];
};

/* The odd step and the two factors of SplitMix64 (Steele, Lea and Flood 2014,
 * figure 17, with the constants of the reference code). */
static const uint64_t golden_step = 0x9E3779B97F4A7C15u;

static uint64_t
finalise(uint64_t z)
{
	z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9u;
	z = (z ^ (z >> 27)) * 0x94D049BB133111EBu;
	return z ^ (z >> 31);
}

static uint64_t
rotate_left(uint64_t x, unsigned by)
{
	return x << by | x >> (64 - by);
}

/* Blackman and Vigna 2021, xoshiro256 with the ++ scrambler. */
static uint64_t
draw(struct xoshiro *state)
{
	uint64_t *w = state->word;
	uint64_t result = rotate_left(w[0] + w[3], 23) + w[0];
	uint64_t shifted = w[1] << 17;

	w[2] ^= w[0];
	w[3] ^= w[1];
	w[1] ^= w[2];
	w[0] ^= w[3];
	w[2] ^= shifted;
	w[3] = rotate_left(w[3], 45);
	return result;
}

/* Four outputs of SplitMix64 are never all zero: finalise is one to one and
 * its four arguments differ. */
static void
set_state(void *state, unsigned long seed)
{
	struct xoshiro *xoshiro = state;

	for (uint64_t i = 0; i < 4; i++)
		xoshiro->word[i] = finalise(seed + (i + 1) * golden_step);
}

static unsigned long
get_whole(void *state)
{
	return draw(state);
}

/* The upper 53 bits as a multiple of 2^-53 in [0, 1). */
static double
get_double(void *state)
{
	return (double)(draw(state) >> 11) * 0x1p-53;
}

static const gsl_rng_type xoshiro_type = {
	.name = "xoshiro256++",
	.max = UINT64_MAX,
	.min = 0,
	.size = sizeof(struct xoshiro),
	.set = set_state,
	.get = get_whole,
	.get_double = get_double,
};

uint64_t
rng_mix(uint64_t seed, uint64_t stream)
{
	uint64_t start = finalise(seed + golden_step);

	return finalise(start + (stream + 1) * golden_step);
}

gsl_rng *
rng_new(uint64_t seed, uint64_t stream)
{
	gsl_rng *rng = gsl_rng_alloc(&xoshiro_type);

	if (rng != NULL)
		gsl_rng_set(rng, rng_mix(seed, stream));
	return rng;
}
