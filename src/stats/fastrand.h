/* fastrand.h - many random numbers, quickly.
 *
 * For the inner loops of shuffles, resamples and chains, where a call through a
 * generator's table costs more than the arithmetic.  Seeded from a gsl_rng, so
 * the same seed gives the same draws on every machine.
 *
 * The generator is xoshiro256++ of Blackman and Vigna (2021), ACM Transactions
 * on Mathematical Software 47, 36.  One 64-bit word gives several numbers below
 * their bounds without bias: Brackett-Rozinsky and Lemire (2025), Software:
 * Practice and Experience 55, 155-169. */
#ifndef STATS_FASTRAND_H
#define STATS_FASTRAND_H

#include <assert.h>
#include <gsl/gsl_rng.h>
#include <stddef.h>
#include <stdint.h>

__extension__ typedef unsigned __int128 fastrand_wide;

struct fastrand {
	uint64_t s[4];
};

/* fastrand_start(rng): takes 16 numbers of rng for its seed. */
static inline struct fastrand
fastrand_start(gsl_rng *rng)
{
	enum { PARTS = 4, PART_BITS = 16 };
	struct fastrand r;

	for (size_t i = 0; i < 4; i++) {
		r.s[i] = 0;
		for (int part = 0; part < PARTS; part++)
			r.s[i] = r.s[i] << PART_BITS |
				gsl_rng_uniform_int(rng, 1u << PART_BITS);
	}
	r.s[0] |= 1; /* not all zero */
	return r;
}

static inline uint64_t
fastrand_turn(uint64_t x, int by)
{
	return x << by | x >> (64 - by);
}

/* fastrand_word(r): the next 64 random bits. */
static inline uint64_t
fastrand_word(struct fastrand *r)
{
	uint64_t *s = r->s;
	uint64_t word = fastrand_turn(s[0] + s[3], 23) + s[0];
	uint64_t t = s[1] << 17;

	s[2] ^= s[0];
	s[3] ^= s[1];
	s[1] ^= s[2];
	s[0] ^= s[3];
	s[2] ^= t;
	s[3] = fastrand_turn(s[3], 45);
	return word;
}

/* fastrand_unit(r): a number in [0, 1), a multiple of 2^-53. */
static inline double
fastrand_unit(struct fastrand *r)
{
	return (double)(int64_t)(fastrand_word(r) >> 11) * 0x1p-53;
}

/* fastrand_unit_open(r): the same less 0: in (0, 1]. */
static inline double
fastrand_unit_open(struct fastrand *r)
{
	return (double)(int64_t)((fastrand_word(r) >> 11) + 1) * 0x1p-53;
}

/* fastrand_below(rest, bound): the next number in [0, bound) out of *rest, which
 * begins as a word.  The numbers got from one word are without bias if the
 * *rest left over is at least fastrand_floor(product of their bounds); if it is
 * not, all of them are drawn again from a new word. */
static inline uint64_t
fastrand_below(uint64_t *rest, uint64_t bound)
{
	fastrand_wide product = (fastrand_wide)*rest * bound;

	*rest = (uint64_t)product;
	return (uint64_t)(product >> 64);
}

static inline uint64_t
fastrand_floor(uint64_t product)
{
	assert(product > 0);
	return (0 - product) % product;
}

/* The product of the bounds drawn from one word stays below this, so that a
 * second word is needed less than once in a million. */
static const uint64_t fastrand_product_most = (uint64_t)1 << 44;

#endif /* STATS_FASTRAND_H */
