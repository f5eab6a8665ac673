/* rig_check.c - dead loads and check pieces. */
#include "lab/rig_check.h"

#include "lab/uncertainty.h"

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_statistics_double.h>
#include <math.h>

enum err_code
lab_dead_load(const struct lab_dead_load *load, struct lab_dead_loaded *out,
	struct err *err)
{
	double rise_Pa = load->jack.pressure.Pa - load->jack.zero.Pa;
	double of_gauge, of_mass;
	struct lab_dead_loaded got;
	struct force force;

	if (!(load->known.kg > 0) || !isfinite(load->known.kg))
		return err_report(err, ERR_INPUT, "known",
			"The known load must weigh something, such as \"312 "
			"kg\".");
	if (!(load->scale.kg >= 0) || !isfinite(load->scale.kg) ||
		!(load->gauge.Pa >= 0) || !isfinite(load->gauge.Pa))
		return err_report(err, ERR_INPUT, "division",
			"A division cannot be below 0.");
	TRY(lab_jack_force(&load->jack, &force, err));
	if (!(force.N > 0))
		return err_report(err, ERR_INPUT, "pressure",
			"The gauge does not move under the known load: a finer "
			"gauge or a heavier load is needed.");
	of_gauge = sqrt(2) * lab_of_division(load->gauge.Pa) / rise_Pa;
	of_mass = lab_of_division(load->scale.kg) / load->known.kg;
	got.force_ratio = load->known.kg * gravity_m_s2 / force.N;
	got.u_ratio = hypot(of_gauge, of_mass);
	got.is_plain = fabs(got.force_ratio - 1) <=
		2 * got.u_ratio * got.force_ratio;
	*out = got;
	return ERR_NONE;
}

enum err_code
lab_check_pieces(const double *value, size_t n, struct lab_check_pieces *out,
	struct err *err)
{
	struct lab_check_pieces got = {.n_before = n - 1};
	double sd, reach;

	if (n == 0)
		return err_report(err, ERR_INPUT, "check piece",
			"No check piece has been tested.");
	for (size_t i = 0; i < n; i++)
		if (!(value[i] > 0) || !isfinite(value[i]))
			return err_report(err, ERR_INPUT, "check piece",
				"A check piece needs a reading above 0.");
	if (got.n_before > 0)
		got.mean = gsl_stats_mean(value, 1, got.n_before);
	if (got.n_before >= LAB_CHECK_PIECES_LEAST) {
		sd = gsl_stats_sd(value, 1, got.n_before);
		reach = gsl_cdf_tdist_Pinv((1 + lab_check_level) / 2,
				(double)got.n_before - 1) *
			sd * sqrt(1 + 1 / (double)got.n_before);
		got.is_judged = sd > 0;
		got.low = fmax(0, got.mean - reach);
		got.high = got.mean + reach;
		got.is_beyond = got.is_judged &&
			(value[n - 1] < got.low || value[n - 1] > got.high);
	}
	*out = got;
	return ERR_NONE;
}
