/* forms.h - how hard a lift of fluid mix presses on its forms.
 *
 * Pure.  docs/methods/screening.md.  Screening only. */
#ifndef CHOOSE_FORMS_H
#define CHOOSE_FORMS_H

#include "core/err.h"
#include "core/qty.h"

#include <stdbool.h>

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

/* choose_forms_guide(density, rate_m_h, temperature_degc, is_column, out, err):
 * What a stiff mix, vibrated in, would press as it sets: ACI 347R-14, eq. 2.2
 * (columns, and walls up to 2.1 m an hour) 7.2 + 785 R/(T + 17.8) kPa, eq. 2.3
 * (walls beyond) 7.2 + 1156/(T + 17.8) + 244 R/(T + 17.8), times the weight
 * coefficient, chemistry coefficient 1; at least 30 kPa times it.  To compare
 * with only: it asks for a slump of at most 175 mm, so a fluid foamed mix
 * presses with its full head, choose_forms.
 * choose_forms_weight(density): the coefficient, 0.5 (1 + w/2320) from 0.8 up
 * to 2240 kg/m3, 1 to 2400, then w/2320 (the same guide).
 * ERR_INPUT  a value is out of range: a rate above 0 (walls: to 4.5 m an hour),
 *            5 to 60 degC */
enum err_code choose_forms_guide(struct density density, double rate_m_h,
	double temperature_degc, bool is_column, struct stress *out,
	struct err *err) MUST_CHECK;
double choose_forms_weight(struct density density);

/* choose_tie_load(pressure, across, up, out, err): pressure times the area that
 * one tie holds (derived).  ERR_INPUT a value not above 0. */
enum err_code choose_tie_load(struct stress pressure, struct length across,
	struct length up, struct force *out, struct err *err) MUST_CHECK;

#endif /* CHOOSE_FORMS_H */
