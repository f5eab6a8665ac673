/* purchase.h - when to buy how many whole packages, and how much mesh.
 *
 * Pure.  Derived.  Method: docs/methods/takeoff.md. */
#ifndef BUILD_PURCHASE_H
#define BUILD_PURCHASE_H

#include "core/arena.h"
#include "core/err.h"

#include <stdbool.h>
#include <stddef.h>

struct build_need {
	size_t day;
	double kg;
};

struct build_delivery {
	size_t day;       /* on which it is first needed */
	double n_package; /* whole; without packages the kilograms */
	double kg;
};

/* build_deliveries(arena, need, n, package_kg, cover_days, out, n_out, err):
 * need in the order of days.  Each delivery brings what is poured in the
 * cover_days from its day on; what is left in an opened package is used next.
 * On no day is less there than is needed, and all together are no more packages
 * than the sum takes.  package_kg 0: sold loose.
 * ERR_INPUT a day goes back, an amount is no amount, cover_days 0 */
enum err_code build_deliveries(struct arena *arena,
	const struct build_need *need, size_t n, double package_kg,
	size_t cover_days, const struct build_delivery **out, size_t *n_out,
	struct err *err) MUST_CHECK;

/* What one part of several takes of a material sold in whole packages. */
struct build_share {
	double n_alone, left_alone_kg; /* bought for it alone, and left over */
	double n_package; /* opened for it, what was left before used first */
	double left_kg;   /* in the opened package after it */
};

/* build_shares(arena, kg, n, package_kg, out, err): the parts in their order, n
 * shares.  Up to any part the packages opened hold what is needed so far, and
 * fewer by one would not; all together they are those of the sum.  A billionth
 * of a package is a rounding and costs none.
 * ERR_INPUT an amount below 0 or a package not above 0; ERR_MEMORY */
enum err_code build_shares(struct arena *arena, const double *kg, size_t n,
	double package_kg, const struct build_share **out,
	struct err *err) MUST_CHECK;

struct build_mesh {
	double width_m, length_m; /* of a sheet or a roll */
	double lap_m;
	double layers; /* whole */
};

/* build_mesh_sheets(mesh, face_m, height_m, n, err): whole sheets for a face of
 * face_m by height_m, in courses along it, each course and each sheet lapped
 * with the next.  Openings are not taken off: the pieces go around them.
 * ERR_INPUT a size is not above 0, or a lap is not less than the sheet */
enum err_code build_mesh_sheets(const struct build_mesh *mesh, double face_m,
	double height_m, double *n, struct err *err) MUST_CHECK;

#endif /* BUILD_PURCHASE_H */
