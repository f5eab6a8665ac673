/* crush.c - crushing strength, shape factors, force of a jack. */
#include "lab/crush.h"

#include "core/check.h"
#include "lab/uncertainty.h"

#include <math.h>
#include <stddef.h>

static const double pi = 3.14159265358979323846;
static const double mm_per_m = 1000.0;

/* Sides of a cube may differ by this share of the longest before it is called a
 * prism; common practice, no source. */
static const double cube_share = 0.05;

/* EN 772-1, table A.1: height down, least width across, mm; 0: blank. */
enum { N_HEIGHT = 7, N_WIDTH = 5 };
static const double table_height_mm[N_HEIGHT] = {
	40, 50, 65, 100, 150, 200, 250};
static const double table_width_mm[N_WIDTH] = {50, 100, 150, 200, 250};
static const double table_factor[N_HEIGHT][N_WIDTH] = {
	{0.80, 0.70, 0, 0, 0},
	{0.85, 0.75, 0.70, 0, 0},
	{0.95, 0.85, 0.75, 0.70, 0.65},
	{1.15, 1.00, 0.90, 0.80, 0.75},
	{1.30, 1.20, 1.10, 1.00, 0.95},
	{1.45, 1.35, 1.25, 1.15, 1.10},
	{1.55, 1.45, 1.35, 1.25, 1.15},
};

/* Where a size falls in a row of the table: between entries at and at + 1. */
struct place {
	size_t at;
	double share; /* of the way to the next entry, 0..1 */
};

static struct place
find_place(const double *entry, size_t n, double size)
{
	struct place place = {.at = 0, .share = 0};

	while (place.at + 2 < n && size > entry[place.at + 1])
		place.at++;
	place.share = (size - entry[place.at]) /
		(entry[place.at + 1] - entry[place.at]);
	if (place.share > 1)
		place.share = 1; /* beyond the last entry: that entry */
	return place;
}

/* A corner of the table by its weight; a blank one spoils the result. */
static void
add_corner(double *sum, size_t row, size_t column, double weight)
{
	if (weight <= 0)
		return;
	if (table_factor[row][column] <= 0)
		*sum = (double)NAN;
	*sum += weight * table_factor[row][column];
}

/* Metres to millimetres, clean of what decimal inputs lose in binary. */
static double
in_mm(double size_m)
{
	static const double step_mm = 1e-9;

	return round(size_m * mm_per_m / step_mm) * step_mm;
}

enum err_code
lab_shape_factor_en772(struct length height, struct length least_width,
	double *factor, struct err *err)
{
	double height_mm = in_mm(height.m), width_mm = in_mm(least_width.m);
	struct place row, column;
	double sum = 0;

	if (!(height_mm >= table_height_mm[0]) || isinf(height_mm))
		return err_report(err, ERR_INPUT, "height",
			"The height is %g mm; EN 772-1 has shape factors from "
			"%g mm on.",
			height_mm, table_height_mm[0]);
	if (!(width_mm >= table_width_mm[0]) || isinf(width_mm))
		return err_report(err, ERR_INPUT, "width",
			"The least width is %g mm; EN 772-1 has shape factors "
			"from %g mm on.",
			width_mm, table_width_mm[0]);
	row = find_place(table_height_mm, N_HEIGHT, height_mm);
	column = find_place(table_width_mm, N_WIDTH, width_mm);
	add_corner(
		&sum, row.at, column.at, (1 - row.share) * (1 - column.share));
	add_corner(&sum, row.at, column.at + 1, (1 - row.share) * column.share);
	add_corner(&sum, row.at + 1, column.at, row.share * (1 - column.share));
	add_corner(&sum, row.at + 1, column.at + 1, row.share * column.share);
	if (isnan(sum))
		return err_report(err, ERR_INPUT, "height",
			"EN 772-1 leaves the factor blank for a piece %g mm "
			"high and %g mm wide; test a taller or a narrower one, "
			"or leave the standard out.",
			height_mm, width_mm);
	*factor = sum;
	return ERR_NONE;
}

enum err_code
lab_shape_factor_c39(
	double length_per_diameter, double *factor, struct err *err)
{
	enum { N = 4 };
	static const double ratio[N] = {1.00, 1.25, 1.50, 1.75};
	static const double value[N] = {0.87, 0.93, 0.96, 0.98};
	struct place place;

	if (!(length_per_diameter >= ratio[0]) || isinf(length_per_diameter))
		return err_report(err, ERR_INPUT, "height",
			"The height is %g diameters; ASTM C39 has factors from "
			"%g on.",
			length_per_diameter, ratio[0]);
	if (length_per_diameter > ratio[N - 1]) {
		*factor = 1;
		return ERR_NONE;
	}
	place = find_place(ratio, N, length_per_diameter);
	*factor = (1 - place.share) * value[place.at] +
		place.share * value[place.at + 1];
	return ERR_NONE;
}

static enum err_code
check_prism(const struct lab_crush *c, struct err *err)
{
	double most, least;

	TRY(check_positive(
		(struct check){"width", N_("width"), c->width.m, "m"}, err));
	TRY(check_positive(
		(struct check){"depth", N_("depth"), c->depth.m, "m"}, err));
	if (c->shape != LAB_CUBE)
		return ERR_NONE;
	most = fmax(fmax(c->width.m, c->depth.m), c->height.m);
	least = fmin(fmin(c->width.m, c->depth.m), c->height.m);
	if (most - least > cube_share * most)
		return err_report(err, ERR_INPUT, "shape",
			"The sides are %g, %g and %g m, which is no cube; call "
			"it a prism.",
			c->width.m, c->depth.m, c->height.m);
	return ERR_NONE;
}

static enum err_code
check_load(struct interval load_N, struct err *err)
{
	if (!isfinite(load_N.low) || load_N.low < 0)
		return err_report(err, ERR_INPUT, "load",
			"The load held is %g N; it must be 0 or more.",
			load_N.low);
	if (!(load_N.high >= load_N.low) || load_N.high <= 0)
		return err_report(err, ERR_INPUT, "load",
			"It broke at %g N but had held %g N; the load that "
			"broke it must be greater than 0 and at least the last "
			"one it held.",
			load_N.high, load_N.low);
	return ERR_NONE;
}

static enum err_code
find_factor(const struct lab_crush *c, double *factor, struct err *err)
{
	switch (c->standard) {
	case LAB_SHAPE_NONE:
		return ERR_NONE;
	case LAB_SHAPE_EN_772:
		if (c->shape == LAB_CYLINDER)
			return err_report(err, ERR_INPUT, "standard",
				"EN 772-1 has factors for prisms and cubes; "
				"for a cylinder take ASTM C39.");
		return lab_shape_factor_en772(c->height,
			(struct length){fmin(c->width.m, c->depth.m)}, factor,
			err);
	case LAB_SHAPE_ASTM_C39:
		break;
	}
	if (c->shape != LAB_CYLINDER)
		return err_report(err, ERR_INPUT, "standard",
			"ASTM C39 has factors for cylinders; for a prism or a "
			"cube take EN 772-1.");
	return lab_shape_factor_c39(c->height.m / c->diameter.m, factor, err);
}

static struct interval
times(struct interval x, double factor)
{
	return (struct interval){x.low * factor, x.high * factor};
}

enum err_code
lab_crush(const struct lab_crush *c, struct lab_crushed *out, struct err *err)
{
	struct lab_crushed got = {.has_factor = c->standard != LAB_SHAPE_NONE};

	TRY(check_positive(
		(struct check){"height", N_("height"), c->height.m, "m"}, err));
	if (c->shape == LAB_CYLINDER)
		TRY(check_positive((struct check){"diameter", N_("diameter"),
					   c->diameter.m, "m"},
			err));
	else
		TRY(check_prism(c, err));
	TRY(check_load(c->load_N, err));
	TRY(find_factor(c, &got.shape_factor, err));
	got.area.m2 = c->shape == LAB_CYLINDER
		? pi * c->diameter.m * c->diameter.m / 4
		: c->width.m * c->depth.m;
	got.stress_Pa = times(c->load_N, 1 / got.area.m2);
	if (got.has_factor)
		got.corrected_Pa = times(got.stress_Pa, got.shape_factor);
	*out = got;
	return ERR_NONE;
}

double
lab_conditioning_factor(enum lab_keeping keeping)
{
	static const double factor[] = {
		[LAB_AIR_DRY] = 1.0,
		[LAB_OVEN_DRY] = 0.8,
		[LAB_IMMERSED] = 1.2,
	};

	return factor[keeping];
}

enum err_code
lab_core_factor(enum lab_core core, double length_per_diameter, double *factor,
	struct err *err)
{
	static const double scale[] = {
		[LAB_CORE_HORIZONTAL] = 2.5,
		[LAB_CORE_VERTICAL] = 2.3,
	};
	static const double constant = 1.5, least = 0.95, most = 2.5;

	TRY(check_between((struct check){"height", N_("length to diameter"),
				  length_per_diameter, ""},
		least, most, err));
	*factor = scale[core] / (constant + 1 / length_per_diameter);
	return ERR_NONE;
}

enum err_code
lab_splitting(struct force load, struct length length, struct length diameter,
	struct stress *out, struct err *err)
{
	const struct check positive[] = {
		{"load", N_("load"), load.N, "N"},
		{"length", N_("length"), length.m, "m"},
		{"diameter", N_("diameter"), diameter.m, "m"},
	};

	TRY(CHECK_ALL_POSITIVE(positive, err));
	out->Pa = 2 * load.N / (pi * length.m * diameter.m);
	return ERR_NONE;
}

enum err_code
lab_jack_force(const struct lab_jack *jack, struct force *out, struct err *err)
{
	TRY(check_not_negative(
		(struct check){"zero", N_("zero reading"), jack->zero.Pa, "Pa"},
		err));
	TRY(check_positive(
		(struct check){"bore", N_("bore"), jack->bore.m, "m"}, err));
	TRY(check_not_negative(
		(struct check){"rod", N_("rod"), jack->rod.m, "m"}, err));
	if (!isfinite(jack->pressure.Pa) || jack->pressure.Pa < jack->zero.Pa)
		return err_report(err, ERR_INPUT, "pressure",
			"The gauge read %g Pa under load and %g Pa without; it "
			"must read at least as much under load.",
			jack->pressure.Pa, jack->zero.Pa);
	if (jack->rod.m >= jack->bore.m)
		return err_report(err, ERR_INPUT, "rod",
			"The rod is %g m thick and the bore %g m wide; the rod "
			"must be the thinner one.",
			jack->rod.m, jack->bore.m);
	if (!(jack->friction_ratio >= 0) || jack->friction_ratio >= 1)
		return err_report(err, ERR_INPUT, "friction",
			"Friction takes %g of the force; it is a share from 0 "
			"to less than 1.",
			jack->friction_ratio);
	out->N = (jack->pressure.Pa - jack->zero.Pa) * pi *
		(jack->bore.m * jack->bore.m - jack->rod.m * jack->rod.m) / 4 *
		(1 - jack->friction_ratio);
	return ERR_NONE;
}

static enum err_code
check_division(const struct lab_crush_division *d, struct err *err)
{
	const struct check division[] = {
		{"division.width", N_("ruler's division"), d->width.m, "m"},
		{"division.depth", N_("ruler's division"), d->depth.m, "m"},
		{"division.diameter", N_("ruler's division"), d->diameter.m,
			"m"},
		{"division.load", N_("load's division"), d->load.N, "N"},
	};

	for (size_t i = 0; i < sizeof division / sizeof division[0]; i++)
		TRY(check_not_negative(division[i], err));
	return ERR_NONE;
}

enum err_code
lab_crush_uncertainty(const struct lab_crush *c,
	const struct lab_crush_division *division, double *relative,
	struct err *err)
{
	struct lab_crushed got;
	double load_N, square;

	TRY(lab_crush(c, &got, err));
	TRY(check_division(division, err));
	load_N = isinf(c->load_N.high) ? c->load_N.low : c->load_N.high;
	if (load_N <= 0)
		return err_report(err, ERR_INPUT, "load",
			"With no load its reading has no relative "
			"uncertainty.");
	square = lab_square_of_reading(division->load.N, load_N);
	if (c->shape == LAB_CYLINDER)
		square += 4 * /* the diameter enters squared */
			lab_square_of_reading(
				division->diameter.m, c->diameter.m);
	else
		square += lab_square_of_reading(division->width.m, c->width.m) +
			lab_square_of_reading(division->depth.m, c->depth.m);
	*relative = sqrt(square);
	return ERR_NONE;
}
