/* maturity.c - Nurse-Saul sum and Arrhenius age of a temperature log. */
#include "lab/maturity.h"

#include "core/check.h"

#include <math.h>
#include <stdio.h>

static const double zero_degC_K = 273.15;
static const double second_per_hour = 3600;
/* Cements lie near 30 to 65 kJ/mol; beyond this something else was typed. */
static const double most_activation_J_mol = 200e3;
/* EN 1992-1-1, eq. B.10, with its own rounded zero. */
static const double en1992_constant = 13.65, en1992_slope_K = 4000,
		    en1992_zero_K = 273;

double
lab_arrhenius_factor(struct temperature temperature,
	struct temperature reference, double activation_J_mol)
{
	double inverse = 1 / (temperature.degC + zero_degC_K) -
		1 / (reference.degC + zero_degC_K);

	return exp(-activation_J_mol / lab_gas_constant * inverse);
}

double
lab_nurse_saul_factor(struct temperature temperature,
	struct temperature reference, struct temperature datum)
{
	return fmax(0, temperature.degC - datum.degC) /
		(reference.degC - datum.degC);
}

double
lab_en1992_factor(struct temperature temperature)
{
	return exp(en1992_constant -
		en1992_slope_K / (en1992_zero_K + temperature.degC));
}

enum { KEY_MAX = 48 };

static const char *
log_key(char key[KEY_MAX], size_t index, const char *what)
{
	(void)snprintf(key, KEY_MAX, "history[%zu].%s", index, what);
	return key;
}

static enum err_code
check_log(const struct lab_maturity *m, struct err *err)
{
	char key[KEY_MAX];

	if (m->n_reading < 2)
		return err_report(err, ERR_INPUT, "history",
			"The log has %zu reading; two are needed at the least, "
			"one at casting and one at the test.",
			m->n_reading);
	for (size_t i = 0; i < m->n_reading; i++) {
		const struct lab_log_reading *r = &m->reading[i];
		double before_s = i > 0 ? m->reading[i - 1].at.s : r->at.s;

		TRY(check_temperature(
			(struct check){log_key(key, i, "temperature"),
				"temperature", r->temperature.degC, "degC"},
			err));
		if (!isfinite(r->at.s) || r->at.s < before_s)
			return err_report(err, ERR_INPUT, log_key(key, i, "t"),
				"This reading at %g s comes before the one "
				"above it at %g s; put the log in order of "
				"time.",
				r->at.s, before_s);
	}
	if (m->reading[m->n_reading - 1].at.s <= m->reading[0].at.s)
		return err_report(err, ERR_INPUT, "history",
			"All readings are of the same moment; a log needs "
			"time between its first and its last.");
	return ERR_NONE;
}

static enum err_code
check_maturity(const struct lab_maturity *m, struct err *err)
{
	const struct check activation = {"activation_energy",
		"activation energy", m->activation_J_mol, "J/mol"};

	TRY(check_log(m, err));
	TRY(check_temperature((struct check){"datum", N_("datum temperature"),
				      m->datum.degC, "degC"},
		err));
	TRY(check_temperature(
		(struct check){"reference_temperature",
			N_("reference temperature"), m->reference.degC, "degC"},
		err));
	TRY(check_positive(activation, err));
	return check_between(activation, 0, most_activation_J_mol, err);
}

enum err_code
lab_maturity(
	const struct lab_maturity *m, struct lab_matured *out, struct err *err)
{
	struct lab_matured got = {0};
	double degC_s = 0, mean_degC_s = 0;

	TRY(check_maturity(m, err));
	for (size_t i = 1; i < m->n_reading; i++) {
		const struct lab_log_reading *from = &m->reading[i - 1];
		const struct lab_log_reading *to = &m->reading[i];
		double span_s = to->at.s - from->at.s;
		struct temperature mean = {
			(from->temperature.degC + to->temperature.degC) / 2};

		mean_degC_s += mean.degC * span_s;
		degC_s += fmax(0, mean.degC - m->datum.degC) * span_s;
		if (mean.degC < m->datum.degC)
			got.below_datum.s += span_s;
		got.equivalent_age.s += span_s *
			lab_arrhenius_factor(
				mean, m->reference, m->activation_J_mol);
		got.elapsed.s += span_s;
	}
	got.nurse_saul_degC_h = degC_s / second_per_hour;
	got.mean_degC = mean_degC_s / got.elapsed.s;
	*out = got;
	return ERR_NONE;
}
