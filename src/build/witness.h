/* witness.h - which batches give a witness piece, by a list drawn before.
 *
 * Pure. */
#ifndef BUILD_WITNESS_H
#define BUILD_WITNESS_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* build_is_witness(seed, part, nth, every): of each run of `every` batches of a
 * part one is drawn, by the seed and the part's code alone, so that nobody can
 * choose it by how the batch looks; nth counts from 0.  every 0: none. */
bool build_is_witness(
	uint64_t seed, const char *part, size_t nth, size_t every);

#endif /* BUILD_WITNESS_H */
