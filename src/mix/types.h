/* types.h - what goes into a mix; shared with the book.
 *
 * Pure.  Ratios are plain numbers: a moisture of 5 % is 0.05. */
#ifndef MIX_TYPES_H
#define MIX_TYPES_H

#include "core/qty.h"

#include <stdbool.h>
#include <stddef.h>

/* role, word for machines and for the book, typical particle density in kg/m3
 * (0: there is no typical one, it has to be given).  Cement 3150, sand 2650 and
 * water 1000: common practice, no source. */
#define MIX_ROLE_LIST(X)                   \
	X(MIX_CEMENT, "cement", 3150.0)    \
	X(MIX_BINDER, "binder", 0.0)       \
	X(MIX_SAND, "sand", 2650.0)        \
	X(MIX_FILLER, "filler", 0.0)       \
	X(MIX_WATER, "water", 1000.0)      \
	X(MIX_FIBRE, "fibre", 0.0)         \
	X(MIX_ADMIXTURE, "admixture", 0.0) \
	X(MIX_OTHER, "other", 0.0)

#define MIX_ROLE_AS_ENUM(role, word, density) role,
enum mix_role { MIX_ROLE_LIST(MIX_ROLE_AS_ENUM) };
#undef MIX_ROLE_AS_ENUM
enum { MIX_ROLE_COUNT = MIX_OTHER + 1 };

/* mix_role_word(role): its word; never NULL. */
const char *mix_role_word(enum mix_role role);

/* mix_role_find(word, role): false, *role untouched, if no role has that word.*/
bool mix_role_find(const char *word, enum mix_role *role);

/* mix_role_words(): the words of all roles in the order of the enum,
 * MIX_ROLE_COUNT of them. */
const char *const *mix_role_words(void);

/* One thing put into the mixer, as it was weighed or measured, damp as it was.
 * Either its mass or, with by_volume, its loose volume in a bucket. */
struct mix_part {
	const char *name; /* borrowed from whoever made the part */
	enum mix_role role;
	bool by_volume;
	struct mass mass;     /* as weighed, > 0; without by_volume */
	struct volume volume; /* as poured, > 0; with by_volume */
	bool has_particle_density;
	struct density
		particle_density; /* of the dry grain; else by the role */
	bool has_bulk_density;
	struct density bulk_density; /* as poured, damp; for by_volume */
	double moisture_ratio;       /* all its water per oven-dry mass, >= 0 */
	double absorption_ratio; /* water its grains soak up, per oven-dry mass */
};

/* mix_first_cement(part, n): its place, n if there is none. */
size_t mix_first_cement(const struct mix_part *part, size_t n);

#endif /* MIX_TYPES_H */
