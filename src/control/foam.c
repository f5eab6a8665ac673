/* foam.c - foam density from a cup weighed full and empty, against a target. */
#include "control/foam.h"

#include <math.h>
#include <stdio.h>

static const double water_kg_m3 = 1000;

const char *
control_foam_word(enum control_foam_verdict verdict)
{
#define CONTROL_FOAM_AS_WORD(verdict_, word) word,
	static const char *const words[] = {
		CONTROL_FOAM_LIST(CONTROL_FOAM_AS_WORD)};
#undef CONTROL_FOAM_AS_WORD

	return words[verdict];
}

static enum err_code
refuse(size_t i, const char *key, double got, const char *takes,
	struct err *err)
{
	char field[ERR_FIELD_MAX];

	(void)snprintf(field, sizeof field, "readings[%zu].%s", i, key);
	return err_report(err, ERR_INPUT, field, "got %.6g; it takes %s.", got,
		err_say(err, takes));
}

static enum err_code
check_reading(const struct control_foam_reading *r, size_t i, struct err *err)
{
	double density = (r->gross.kg - r->tare.kg) / r->volume.m3;

	if (!(r->tare.kg >= 0 && isfinite(r->tare.kg)))
		return refuse(
			i, "tare", r->tare.kg, N_("a mass of at least 0"), err);
	if (!(r->volume.m3 > 0 && isfinite(r->volume.m3)))
		return refuse(i, "volume", r->volume.m3,
			N_("a volume above 0, in m3"), err);
	if (!(r->gross.kg > r->tare.kg && isfinite(r->gross.kg)))
		return refuse(i, "gross", r->gross.kg,
			N_("more than the empty cup (tare), in kg"), err);
	if (!(density < water_kg_m3))
		return refuse(i, "gross", r->gross.kg,
			N_("a foam lighter than water; this one comes out at "
			   "or above 1000 kg/m3, so a mass or the cup's volume "
			   "is wrong"),
			err);
	return ERR_NONE;
}

static enum err_code
check(const struct control_foam_reading *reading, size_t n,
	struct density target, struct density tolerance, struct err *err)
{
	if (n == 0)
		return err_report(err, ERR_INPUT, "readings",
			"There is no reading of the foam.");
	for (size_t i = 0; i < n; i++)
		TRY(check_reading(&reading[i], i, err));
	if (!(target.kg_m3 >= 0 && isfinite(target.kg_m3)))
		return err_report(err, ERR_INPUT, "target",
			"got %.6g; it takes a density above 0, in kg/m3.",
			target.kg_m3);
	if (!(tolerance.kg_m3 >= 0 && isfinite(tolerance.kg_m3)))
		return err_report(err, ERR_INPUT, "tolerance",
			"got %.6g; it takes a density above 0, in kg/m3.",
			tolerance.kg_m3);
	return ERR_NONE;
}

static void
judge(double target, double tolerance, struct control_foam *got)
{
	double off = got->density.kg_m3 - target;
	double margin = got->has_error ? 2 * got->error.kg_m3 : 0;

	/* a reading on the limit is within it, whatever the last bit says */
	const double rounding = 1e-12 * target;

	got->has_verdict = true;
	got->verdict = off < -tolerance - rounding ? CONTROL_FOAM_LOW
		: off > tolerance + rounding       ? CONTROL_FOAM_HIGH
						   : CONTROL_FOAM_OK;
	got->is_close = fabs(fabs(off) - tolerance) < margin;
}

enum err_code
control_foam(const struct control_foam_reading *reading, size_t n,
	struct density target, struct density tolerance,
	struct control_foam *out, struct err *err)
{
	struct control_foam got = {0};
	double sum = 0, squares = 0, count = (double)n;

	TRY(check(reading, n, target, tolerance, err));
	for (size_t i = 0; i < n; i++)
		sum += (reading[i].gross.kg - reading[i].tare.kg) /
			reading[i].volume.m3;
	got.density.kg_m3 = sum / count;
	for (size_t i = 0; i < n; i++) {
		double off = (reading[i].gross.kg - reading[i].tare.kg) /
				reading[i].volume.m3 -
			got.density.kg_m3;

		squares += off * off;
	}
	got.has_error = n > 1;
	if (got.has_error)
		got.error.kg_m3 = sqrt(squares / (count - 1) / count);
	if (target.kg_m3 > 0)
		judge(target.kg_m3,
			tolerance.kg_m3 > 0
				? tolerance.kg_m3
				: control_foam_tolerance_share * target.kg_m3,
			&got);
	*out = got;
	return ERR_NONE;
}
