/* rigs.h - which rig a reading was taken on, as a field of a form. */
#ifndef WEB_RIGS_H
#define WEB_RIGS_H

#include "web/form.h"
#include "work/site.h"

#include <stdbool.h>

/* rigs_choice(form, site, test): a choice named "rig" of the book's rigs for that
 * test ("bending", "drop", "crushing"), none of them chosen; no field where the
 * book has none.  Returns whether it has. */
bool rigs_choice(
	struct form *form, const struct work_site *site, const char *test);

#endif /* WEB_RIGS_H */
