/* crush.h - crushing strength, shape factors, and the force of a jack.
 *
 * Pure.  Method and symbols: docs/methods/crush.md. */
#ifndef LAB_CRUSH_H
#define LAB_CRUSH_H

#include "core/err.h"
#include "core/qty.h"

#include <stdbool.h>

enum lab_shape { LAB_PRISM, LAB_CYLINDER, LAB_CUBE };

enum lab_shape_standard {
	LAB_SHAPE_NONE,    /* no factor */
	LAB_SHAPE_EN_772,  /* EN 772-1, table A.1; prisms and cubes */
	LAB_SHAPE_ASTM_C39 /* ASTM C39 and C42, length to diameter; cylinders */
};

struct lab_crush {
	enum lab_shape shape;
	struct length width, depth; /* across the load; prism and cube */
	struct length diameter;     /* cylinder */
	struct length height;       /* along the load; > 0 */
	struct interval load_N; /* low 0: nothing held; high INFINITY: did not
	                           break; equal: read exactly, > 0 */
	enum lab_shape_standard standard;
};

struct lab_crushed {
	struct area area;
	struct interval stress_Pa;
	bool has_factor; /* false with LAB_SHAPE_NONE */
	double shape_factor;
	struct interval corrected_Pa; /* stress * factor */
};

/* lab_crush(c, out, err):
 * Stress = load / area.
 * ERR_INPUT  a size or the load is out of range, a cube is not one (sides over
 *            5 % apart), or the standard has no factor for this shape and size;
 *            err->field names it as calc does */
enum err_code lab_crush(const struct lab_crush *c, struct lab_crushed *out,
	struct err *err) MUST_CHECK;

/* lab_shape_factor_en772(height, least_width, factor, err):
 * EN 772-1, table A.1, linear between its entries both ways; above 250 mm the
 * 250 mm entry.  ERR_INPUT below 40 mm of height or 50 mm of width, and where
 * the table is blank (40 x 150 and wider, 50 x 200 and wider). */
enum err_code lab_shape_factor_en772(struct length height,
	struct length least_width, double *factor, struct err *err) MUST_CHECK;

/* lab_shape_factor_c39(length_per_diameter, factor, err):
 * ASTM C39/C42: 1.75 0.98, 1.50 0.96, 1.25 0.93, 1.00 0.87, linear between; 1
 * above 1.75.  ERR_INPUT below 1. */
enum err_code lab_shape_factor_c39(
	double length_per_diameter, double *factor, struct err *err) MUST_CHECK;

/* How the piece was kept before crushing. */
enum lab_keeping { LAB_AIR_DRY, LAB_OVEN_DRY, LAB_IMMERSED };

/* lab_conditioning_factor(keeping): to the strength of the air-dry piece, EN
 * 772-1, 7.3, from memory: 1.0, 0.8 and 1.2. */
double lab_conditioning_factor(enum lab_keeping keeping);

enum lab_core { LAB_CORE_HORIZONTAL, LAB_CORE_VERTICAL };

/* lab_core_factor(core, length_per_diameter, factor, err):
 * From the strength of a drilled core to that of a cube, 2.5/(1.5 + 1/x) drilled
 * level and 2.3/(1.5 + 1/x) drilled down (Concrete Society TR 11; for dense
 * concrete, not validated for foamed concrete).
 * ERR_INPUT  x below 0.95 or above 2.5 */
enum err_code lab_core_factor(enum lab_core core, double length_per_diameter,
	double *factor, struct err *err) MUST_CHECK;

/* lab_splitting(load, length, diameter, out, err):
 * Splitting tensile strength 2 P/(pi l d), ASTM C496, EN 12390-6.
 * ERR_INPUT  a value not above 0 */
enum err_code lab_splitting(struct force load, struct length length,
	struct length diameter, struct stress *out, struct err *err) MUST_CHECK;

/* There is no published factor for uneven or badly capped faces: they lose 20
 * to 40 % (common practice, no source), so cap the faces. */

/* A hydraulic jack with a gauge. */
struct lab_jack {
	struct stress pressure; /* as read; >= the zero reading */
	struct stress zero;     /* reading with no load; >= 0 */
	struct length bore;     /* of the ram's cylinder; > 0 */
	struct length rod;      /* 0; on the pulling side the rod, < bore */
	double friction_ratio;  /* share of the force lost, 0 <= x < 1 */
};

/* lab_jack_force(jack, out, err): (pressure - zero) * pi (bore^2 - rod^2)/4 *
 * (1 - friction).  Derived.  ERR_INPUT a value is out of range. */
enum err_code lab_jack_force(const struct lab_jack *jack, struct force *out,
	struct err *err) MUST_CHECK;

/* The finest division of each instrument; 0: taken as exact. */
struct lab_crush_division {
	struct length width, depth, diameter;
	struct force load;
};

/* lab_crush_uncertainty(c, division, relative, err): as
 * lab_flexure_uncertainty, for the stress. */
enum err_code lab_crush_uncertainty(const struct lab_crush *c,
	const struct lab_crush_division *division, double *relative,
	struct err *err) MUST_CHECK;

#endif /* LAB_CRUSH_H */
