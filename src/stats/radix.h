/* radix.h - sorting many numbers in linear time.
 *
 * Pure.  Least significant digit first, on the bits of the doubles. */
#ifndef STATS_RADIX_H
#define STATS_RADIX_H

#include <stddef.h>
#include <stdint.h>

/* A number by its bits, so that keys order as the numbers do, and where it
 * came from. */
struct stats_keyed {
	uint64_t key;
	size_t from;
};

/* stats_radix_key / stats_radix_value: to the key and back; value not NaN.
 * -0 and 0 have one key. */
uint64_t stats_radix_key(double value);
double stats_radix_value(uint64_t key);

/* stats_radix_sort(item, n, scratch): sorts by key, equal keys as they were;
 * scratch has n places. */
void stats_radix_sort(
	struct stats_keyed *item, size_t n, struct stats_keyed *scratch);

#endif /* STATS_RADIX_H */
