/* forms.h - how hard a lift of fluid mix presses on its forms.
 *
 * Pure.  docs/methods/screening.md.  Screening only. */
#ifndef CHOOSE_FORMS_H
#define CHOOSE_FORMS_H

#include "core/err.h"
#include "core/qty.h"

struct choose_forms {
	struct density density;    /* wet; > 0 */
	struct length lift_height; /* > 0, at most 20 m */
};

struct choose_formed {
	struct stress pressure; /* at the foot */
	double thrust_N_m;      /* on a metre of form */
	struct length acts_at;  /* above the foot */
};

/* choose_forms(f, out, err):
 * Full fluid head, density * g * height, ACI 347R-14, eq. 2.1; thrust half of
 * it times the height, at a third.  The lower formulas of that guide are for
 * stiff mixes that are vibrated in and are not used.
 * ERR_INPUT  a value is out of range; err->field names it as calc does */
enum err_code choose_forms(const struct choose_forms *f,
	struct choose_formed *out, struct err *err) MUST_CHECK;

/* choose_tie_load(pressure, across, up, out, err): pressure times the area that
 * one tie holds (derived).  ERR_INPUT a value not above 0. */
enum err_code choose_tie_load(struct stress pressure, struct length across,
	struct length up, struct force *out, struct err *err) MUST_CHECK;

#endif /* CHOOSE_FORMS_H */
