/* remember.h - a computing that is done once for the same inputs. */
#ifndef WORK_REMEMBER_H
#define WORK_REMEMBER_H

#include "core/memo.h"
#include "work/desk.h"

#include <gsl/gsl_rng.h>

/* Makes the answer whole in the arena `own`; rests on nothing but what the key
 * holds. */
typedef enum err_code work_make(
	void *data, struct arena *own, const void **answer, struct err *err);

/* So long an answer that another thread is making is waited for; then it is made
 * a second time. */
enum { WORK_WAIT_MS = 60000 };

/* work_remember(desk, key, arena, make, data, answer, err): the answer of make,
 * or what it gave before under that key, or gives to another thread that began
 * with it.  It lives as long as the arena and is
 * not to be changed.  The errors of make, which are not remembered. */
enum err_code work_remember(const struct desk *desk, const struct memo_key *key,
	struct arena *arena, work_make *make, void *data, const void **answer,
	struct err *err) MUST_CHECK;

/* Random draws go on from where a remembered step left the generator:
 * work_key_rng adds its state, work_rng_state copies it (NULL: no memory),
 * work_rng_set goes there. */
void work_key_rng(struct memo_keying *keying, const gsl_rng *rng);
const void *work_rng_state(struct arena *arena, const gsl_rng *rng);
void work_rng_set(gsl_rng *rng, const void *state);

#endif /* WORK_REMEMBER_H */
