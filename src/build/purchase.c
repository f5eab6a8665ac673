/* purchase.c - deliveries of whole packages; sheets of mesh. */
#include "build/purchase.h"

#include <math.h>

static const double hair = 1e-9; /* of summing, does not cost a package */

static double
whole_up(double x)
{
	return ceil(x - hair * fmax(1, fabs(x)));
}

static enum err_code
check_needs(const struct build_need *need, size_t n, double package_kg,
	size_t cover_days, struct err *err)
{
	if (!isfinite(package_kg) || package_kg < 0 || cover_days == 0)
		return err_report(err, ERR_INPUT, "package",
			"A package of %.4g kg for %zu days at a time: both "
			"must be more than 0.",
			package_kg, cover_days);
	for (size_t i = 0; i < n; i++)
		if (!isfinite(need[i].kg) || need[i].kg < 0 ||
			(i > 0 && need[i].day < need[i - 1].day))
			return err_report(err, ERR_INPUT, "need",
				"The need of %.4g kg on day %zu is no amount, "
				"or comes before the one before it.",
				need[i].kg, need[i].day);
	return ERR_NONE;
}

enum err_code
build_deliveries(struct arena *arena, const struct build_need *need, size_t n,
	double package_kg, size_t cover_days, const struct build_delivery **out,
	size_t *n_out, struct err *err)
{
	struct build_delivery *d = arena_take(arena, n, sizeof *d);
	double needed_kg = 0, bought = 0;
	size_t n_d = 0;

	TRY(check_needs(need, n, package_kg, cover_days, err));
	if (d == NULL)
		return err_memory(err);
	for (size_t i = 0; i < n;) {
		size_t first = need[i].day;
		double total;

		for (; i < n && need[i].day < first + cover_days; i++)
			needed_kg += need[i].kg;
		total = package_kg > 0 ? whole_up(needed_kg / package_kg)
				       : needed_kg;
		if (!(total > bought))
			continue; /* the last delivery still does */
		d[n_d].day = first;
		d[n_d].n_package = total - bought;
		d[n_d].kg = d[n_d].n_package *
			(package_kg > 0 ? package_kg : 1);
		bought = total;
		n_d++;
	}
	*out = d;
	*n_out = n_d;
	return ERR_NONE;
}

/* Whole packages for an amount; any amount takes one. */
static double
packages_for(double kg, double package_kg)
{
	return ceil(kg / package_kg * (1 - hair));
}

enum err_code
build_shares(struct arena *arena, const double *kg, size_t n, double package_kg,
	const struct build_share **out, struct err *err)
{
	struct build_share *share = arena_take(arena, n, sizeof *share);
	double needed_kg = 0, opened = 0;

	if (share == NULL)
		return err_memory(err);
	for (size_t i = 0; i < n; i++) {
		struct build_share *s = &share[i];

		if (!(kg[i] >= 0 && isfinite(kg[i])) ||
			!(package_kg > 0 && isfinite(package_kg)))
			return err_report(err, ERR_INPUT, "package",
				"%.4g kg in packages of %.4g kg: an amount is "
				"0 or more, a package more than 0.",
				kg[i], package_kg);
		s->n_alone = packages_for(kg[i], package_kg);
		s->left_alone_kg = fmax(0, s->n_alone * package_kg - kg[i]);
		needed_kg += kg[i];
		s->n_package = packages_for(needed_kg, package_kg) - opened;
		opened += s->n_package;
		s->left_kg = fmax(0, opened * package_kg - needed_kg);
	}
	*out = share;
	return ERR_NONE;
}

enum err_code
build_mesh_sheets(const struct build_mesh *mesh, double face_m, double height_m,
	double *n, struct err *err)
{
	bool sizes = mesh->width_m > 0 && mesh->length_m > 0 && face_m > 0 &&
		height_m > 0 && isfinite(mesh->width_m + mesh->length_m) &&
		isfinite(face_m + height_m) && mesh->layers >= 1 &&
		isfinite(mesh->layers);
	double courses, along;

	if (!sizes || !(mesh->lap_m >= 0) ||
		mesh->lap_m >= fmin(mesh->width_m, mesh->length_m))
		return err_report(err, ERR_INPUT, "mesh",
			"Mesh of %.4g m x %.4g m with laps of %.4g m on a face "
			"of %.4g m x %.4g m: sizes must be more than 0 and the "
			"lap less than the sheet.",
			mesh->width_m, mesh->length_m, mesh->lap_m, face_m,
			height_m);
	courses = fmax(1,
		whole_up((height_m - mesh->lap_m) /
			(mesh->width_m - mesh->lap_m)));
	along = fmax(1,
		whole_up((face_m - mesh->lap_m) /
			(mesh->length_m - mesh->lap_m)));
	*n = courses * along * mesh->layers;
	return ERR_NONE;
}
