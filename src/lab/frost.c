/* frost.c - losses by freezing and thawing. */
#include "lab/frost.h"

#include "core/check.h"
#include "lab/uncertainty.h"

#include <math.h>
#include <stddef.h>

/* A piece that still hydrates may gain; beyond this a reading is wrong. */
static const double most_dynamic_ratio = 1.5;

enum err_code
lab_frost_loss(
	struct mass before, struct mass after, double *ratio, struct err *err)
{
	const struct check mass[] = {
		{"before", N_("mass before"), before.kg, "kg"},
		{"after", N_("mass after"), after.kg, "kg"},
	};

	TRY(CHECK_ALL_POSITIVE(mass, err));
	*ratio = (before.kg - after.kg) / before.kg;
	return ERR_NONE;
}

enum err_code
lab_frost_uncertainty(struct mass before, struct mass after,
	struct mass division, double *uncertainty, struct err *err)
{
	double ratio;

	TRY(lab_frost_loss(before, after, &ratio, err));
	TRY(check_not_negative(
		(struct check){"division", N_("division"), division.kg, "kg"},
		err));
	*uncertainty = lab_of_division(division.kg) / before.kg *
		hypot(1, 1 - ratio);
	return ERR_NONE;
}

enum err_code
lab_dynamic_ratio(
	double first_Hz, double now_Hz, double *ratio, struct err *err)
{
	const struct check frequency[] = {
		{"first", N_("first frequency"), first_Hz, "Hz"},
		{"now", N_("frequency now"), now_Hz, "Hz"},
	};

	TRY(CHECK_ALL_POSITIVE(frequency, err));
	*ratio = (now_Hz / first_Hz) * (now_Hz / first_Hz);
	return ERR_NONE;
}

enum err_code
lab_durability(double dynamic_ratio, uint64_t at_cycle, uint64_t planned,
	double *factor, struct err *err)
{
	TRY(check_between(
		(struct check){"dynamic_ratio", N_("relative dynamic modulus"),
			dynamic_ratio, ""},
		0, most_dynamic_ratio, err));
	if (planned == 0 || at_cycle > planned)
		return err_report(err, ERR_INPUT, "at_cycle",
			"The test ended at cycle %llu of %llu planned; the "
			"first must not be beyond the second.",
			(unsigned long long)at_cycle,
			(unsigned long long)planned);
	*factor = dynamic_ratio * (double)at_cycle / (double)planned;
	return ERR_NONE;
}

static enum err_code
check_strength(
	const char *key, const char *name, struct interval x, struct err *err)
{
	TRY(check_not_negative((struct check){key, name, x.low, "Pa"}, err));
	if (!(x.high >= x.low) || x.high <= 0)
		return err_report(err, ERR_INPUT, key,
			"The %s goes from %g to %g Pa; the upper end must be "
			"above 0 and not below the lower one.",
			name, x.low, x.high);
	return ERR_NONE;
}

enum err_code
lab_frost_strength(struct interval frozen_Pa, struct interval kept_Pa,
	struct interval *out, struct err *err)
{
	TRY(check_strength(
		"frozen", "strength of the frozen piece", frozen_Pa, err));
	TRY(check_strength(
		"kept", "strength of the unfrozen piece", kept_Pa, err));
	out->low = isinf(kept_Pa.high) ? 0 : frozen_Pa.low / kept_Pa.high;
	out->high = kept_Pa.low > 0 && isfinite(frozen_Pa.high)
		? frozen_Pa.high / kept_Pa.low
		: (double)INFINITY;
	return ERR_NONE;
}
