/* remember.c - made anew or found, the same bits. */
#include "work/remember.h"

#include <string.h>

/* What one answer may hold at the most, its scratch included. */
static const size_t most_bytes = (size_t)1 << 30;

static enum err_code
make_and_keep(const struct desk *desk, const struct memo_key *key,
	struct arena *arena, work_make *make, void *data, const void **answer,
	struct err *err)
{
	struct arena *own = arena_new(most_bytes);
	const void *got;
	enum err_code code;

	if (own == NULL)
		return err_memory(err);
	code = make(data, own, &got, err);
	if (code != ERR_NONE) {
		arena_free(own);
		return code;
	}
	*answer = memo_keep(desk->memo, key, own, got, arena);
	return *answer != NULL ? ERR_NONE : err_memory(err);
}

enum err_code
work_remember(const struct desk *desk, const struct memo_key *key,
	struct arena *arena, work_make *make, void *data, const void **answer,
	struct err *err)
{
	struct memo_claim claim;
	const void *known;
	enum err_code code;

	if (desk->memo == NULL)
		return make(data, arena, answer, err);
	known = memo_claim(desk->memo, key, WORK_WAIT_MS, arena, &claim);
	if (known != NULL) {
		*answer = known;
		return ERR_NONE;
	}
	code = make_and_keep(desk, key, arena, make, data, answer, err);
	memo_unclaim(desk->memo, &claim);
	return code;
}

void
work_key_rng(struct memo_keying *keying, const gsl_rng *rng)
{
	memo_key_bytes(keying, gsl_rng_state(rng), gsl_rng_size(rng));
}

const void *
work_rng_state(struct arena *arena, const gsl_rng *rng)
{
	return arena_copy(arena, gsl_rng_state(rng), gsl_rng_size(rng), 1);
}

void
work_rng_set(gsl_rng *rng, const void *state)
{
	memcpy(gsl_rng_state(rng), state, gsl_rng_size(rng));
}
