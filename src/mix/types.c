/* types.c - the words of the roles. */
#include "mix/types.h"

#include <string.h>

#define WORD(role, word, density) word,
static const char *const role_word[] = {MIX_ROLE_LIST(WORD)};
#undef WORD

const char *
mix_role_word(enum mix_role role)
{
	return role_word[role];
}

bool
mix_role_find(const char *word, enum mix_role *role)
{
	for (size_t i = 0; i < MIX_ROLE_COUNT; i++)
		if (strcmp(role_word[i], word) == 0) {
			*role = (enum mix_role)i;
			return true;
		}
	return false;
}

const char *const *
mix_role_words(void)
{
	return role_word;
}

size_t
mix_first_cement(const struct mix_part *part, size_t n)
{
	for (size_t i = 0; i < n; i++)
		if (part[i].role == MIX_CEMENT)
			return i;
	return n;
}
