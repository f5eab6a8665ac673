/* hot_box.c - Fourier's law on a heated box. */
#include "lab/hot_box.h"

#include "core/check.h"
#include "lab/uncertainty.h"

#include <math.h>

enum { POWER, LEAK, SIDE, THICKNESS, WARM, COLD, N_READING };

static double
conductivity_of(const double *x, const void *context)
{
	(void)context;
	return (x[POWER] - x[LEAK]) * x[THICKNESS] /
		(x[SIDE] * x[SIDE] * (x[WARM] - x[COLD]));
}

enum err_code
lab_hot_box(
	const struct lab_hot_box *b, struct lab_hot_boxed *out, struct err *err)
{
	const struct check positive[] = {
		{"power", N_("heater's power"), b->power_W, "W"},
		{"area", N_("area of the slab"), b->area.m2, "m2"},
		{"thickness", N_("thickness of the slab"), b->thickness.m, "m"},
	};
	struct lab_hot_boxed got;

	TRY(CHECK_ALL_POSITIVE(positive, err));
	TRY(check_not_negative((struct check){"leak", N_("heat lost elsewhere"),
				       b->leak_W, "W"},
		err));
	TRY(check_temperature(
		(struct check){"warm", N_("warm face's temperature"),
			b->warm.degC, "degC"},
		err));
	TRY(check_temperature(
		(struct check){"cold", N_("cold face's temperature"),
			b->cold.degC, "degC"},
		err));
	if (b->leak_W >= b->power_W)
		return err_report(err, ERR_INPUT, "leak",
			"The box loses %g W of the heater's %g W elsewhere, so "
			"nothing is left to pass the slab.",
			b->leak_W, b->power_W);
	if (b->warm.degC <= b->cold.degC)
		return err_report(err, ERR_INPUT, "warm",
			"The warm face is at %g degC and the cold one at %g "
			"degC; the first must be the warmer.",
			b->warm.degC, b->cold.degC);
	got.flux_W_m2 = (b->power_W - b->leak_W) / b->area.m2;
	got.resistance_m2K_W = (b->warm.degC - b->cold.degC) / got.flux_W_m2;
	got.conductivity.W_mK = b->thickness.m / got.resistance_m2K_W;
	*out = got;
	return ERR_NONE;
}

enum err_code
lab_hot_box_uncertainty(const struct lab_hot_box *b,
	const struct lab_hot_box_division *division, double *relative,
	struct err *err)
{
	const double x[N_READING] = {
		[POWER] = b->power_W,
		[LEAK] = b->leak_W,
		[SIDE] = sqrt(b->area.m2),
		[THICKNESS] = b->thickness.m,
		[WARM] = b->warm.degC,
		[COLD] = b->cold.degC,
	};
	const double u[N_READING] = {
		[POWER] = lab_of_division(division->power_W),
		[LEAK] = lab_of_division(division->leak_W),
		[SIDE] = lab_of_division(division->side.m),
		[THICKNESS] = lab_of_division(division->thickness.m),
		[WARM] = lab_of_division(division->temperature_K),
		[COLD] = lab_of_division(division->temperature_K),
	};
	struct lab_hot_boxed got;
	double uncertainty;

	TRY(lab_hot_box(b, &got, err));
	if (division->temperature_K >= b->warm.degC - b->cold.degC)
		return err_report(err, ERR_NUMERIC, "temperature",
			"A difference of %g K cannot be read with a division "
			"of %g K.",
			b->warm.degC - b->cold.degC, division->temperature_K);
	TRY(lab_propagate(
		conductivity_of, NULL, x, u, N_READING, &uncertainty, err));
	*relative = uncertainty / got.conductivity.W_mK;
	return ERR_NONE;
}

enum err_code
lab_beside_reference(double reference_m2K_W, double over_reference_K,
	double over_piece_K, double *out, struct err *err)
{
	const struct check positive[] = {
		{"reference", N_("resistance of the reference"),
			reference_m2K_W, "m2 K/W"},
		{"over_reference", N_("difference over the reference"),
			over_reference_K, "K"},
		{"over_piece", N_("difference over the piece"), over_piece_K,
			"K"},
	};

	TRY(CHECK_ALL_POSITIVE(positive, err));
	*out = reference_m2K_W * over_piece_K / over_reference_K;
	return ERR_NONE;
}
