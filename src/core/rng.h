/* rng.h - seeded random numbers: the same seed and stream give the same draws
 * on every machine and with any number of threads.  Generators are GSL's. */
#ifndef CORE_RNG_H
#define CORE_RNG_H

#include <stdint.h>

#include <gsl/gsl_rng.h>

/* rng_new(seed, stream): a generator of its own for each stream (a chain, a
 * task); streams of one seed are seeded apart by a 64-bit mix (SplitMix64,
 * Steele, Lea and Flood 2014).  NULL if memory ran out.  Freed by
 * gsl_rng_free. */
gsl_rng *rng_new(uint64_t seed, uint64_t stream);

/* rng_mix(seed, stream): the 64-bit mix itself. */
uint64_t rng_mix(uint64_t seed, uint64_t stream);

#endif /* CORE_RNG_H */
