/* tongue.h - sentences in the language of whoever reads them.
 *
 * Whoever answers a person gives a struct tongue to the arena of the answer
 * (arena_speak).  From then on text_format and text_addf look their format up
 * in it, arena_say a fixed text, and err_report what an err of err_in says.
 * Nobody else need know of languages: code writes English, and a format that
 * the tongue does not know stays English.  A translation takes the same
 * arguments as its English, in another order where it must ("%2$s", POSIX
 * printf); tools/check_words.sh has msgfmt hold that. */
#ifndef CORE_TONGUE_H
#define CORE_TONGUE_H

#include <stddef.h>

/* A translation of english, or english itself; never NULL. */
typedef const char *tongue_find(const void *with, const char *english);

struct tongue {
	tongue_find *find; /* NULL: English */
	const void *with;  /* borrowed; outlives the arena */
};

/* tongue_say(tongue, english): in that tongue. */
static inline const char *tongue_say(const struct tongue *tongue,
	const char *english) __attribute__((format_arg(2)));

static inline const char *
tongue_say(const struct tongue *tongue, const char *english)
{
	return tongue->find != NULL ? tongue->find(tongue->with, english)
				    : english;
}

/* N_("Hello"): found by xgettext, translated where it is shown. */
#define N_(english) english

#endif /* CORE_TONGUE_H */
