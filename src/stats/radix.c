/* radix.c - sorting many numbers in linear time. */
#include "stats/radix.h"

#include <string.h>

/* Six digits of eleven bits hold a key, and an even number of passes ends
 * where it began. */
enum { DIGIT_BITS = 11, N_VALUE = 1 << DIGIT_BITS, N_DIGIT = 6 };

static const uint64_t sign_bit = UINT64_C(1) << 63;

uint64_t
stats_radix_key(double value)
{
	const double plain = value + 0.0; /* -0 becomes 0 */
	uint64_t bits;

	memcpy(&bits, &plain, sizeof bits);
	return (bits & sign_bit) != 0 ? ~bits : bits | sign_bit;
}

double
stats_radix_value(uint64_t key)
{
	const uint64_t bits = (key & sign_bit) != 0 ? key & ~sign_bit : ~key;
	double value;

	memcpy(&value, &bits, sizeof value);
	return value;
}

static size_t
digit(uint64_t key, int place)
{
	return (size_t)(key >> (place * DIGIT_BITS)) & (N_VALUE - 1);
}

static void
pass(const struct stats_keyed *from, struct stats_keyed *to, size_t n,
	int place)
{
	size_t start[N_VALUE + 1] = {0};

	for (size_t i = 0; i < n; i++)
		start[digit(from[i].key, place) + 1]++;
	for (size_t v = 1; v <= N_VALUE; v++)
		start[v] += start[v - 1];
	for (size_t i = 0; i < n; i++)
		to[start[digit(from[i].key, place)]++] = from[i];
}

void
stats_radix_sort(
	struct stats_keyed *item, size_t n, struct stats_keyed *scratch)
{
	for (int place = 0; place < N_DIGIT; place += 2) {
		pass(item, scratch, n, place);
		pass(scratch, item, n, place + 1);
	}
}
