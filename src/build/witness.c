/* witness.c - one batch of each run, drawn. */
#include "build/witness.h"

#include "core/rng.h"

/* FNV-1a, 64 bits (Fowler, Noll, Vo; IETF draft-eastlake-fnv): parts of one
 * building draw apart. */
static uint64_t
number_of(const char *text)
{
	uint64_t h = 0xcbf29ce484222325;

	for (; *text != '\0'; text++) {
		h ^= (unsigned char)*text;
		h *= 0x100000001b3;
	}
	return h;
}

bool
build_is_witness(uint64_t seed, const char *part, size_t nth, size_t every)
{
	if (every == 0)
		return false;
	return rng_mix(seed ^ number_of(part), nth / every) % every ==
		nth % every;
}
