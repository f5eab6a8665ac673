/* rng.h - seeded random numbers: the same seed and stream give the same draws
 * on every machine and with any number of threads.
 *
 * The generator is xoshiro256++ (Blackman and Vigna, ACM Transactions on
 * Mathematical Software 47(4), 2021) dressed as a gsl_rng, so that all of GSL's
 * distributions take it.  GSL's own mt19937 keeps only 32 bits of its seed,
 * which would make two of some ten thousand streams equal once in a hundred
 * runs, and its uniform draws have 32 bits instead of 53. */
#ifndef CORE_RNG_H
#define CORE_RNG_H

#include <stdint.h>

#include <gsl/gsl_rng.h>

/* rng_new(seed, stream): a generator of its own for each stream (a chain, a
 * task); streams of one seed are seeded apart by rng_mix.  NULL if memory ran
 * out.  Freed by gsl_rng_free. */
gsl_rng *rng_new(uint64_t seed, uint64_t stream);

/* rng_mix(seed, stream): output number `stream` (from 0) of the SplitMix64
 * generator (Steele, Lea and Flood 2014) that begins at the first output of
 * SplitMix64 begun at seed.  For one seed no two streams give the same. */
uint64_t rng_mix(uint64_t seed, uint64_t stream);

#endif /* CORE_RNG_H */
