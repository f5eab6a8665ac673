/* calc_maturity.c - "maturity" and "strength-age": curing and age. */
#include "work/calc_priv.h"

#include "lab/maturity.h"
#include "lab/strength_age.h"

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

/* ---- maturity ---- */

static const struct calc_key maturity_keys[] = {
	{"history", "array of objects", NULL,
		"{t, temperature}, in order of time; between two readings "
		"the mean of the two holds, two at one time are a step"},
	{"datum", "temperature", NULL,
		"below it nothing is gained: 0 degC by ASTM C1074 for ordinary "
		"cement, -10 degC by Saul"},
	{"activation_energy", "molar energy", "41572 J/mol (5000 K)",
		"of the cement"},
	{"reference_temperature", "temperature", "20 degC",
		"of the equivalent age"},
};

static enum err_code
read_history(const struct calc_in *in, struct lab_maturity *m, struct err *err)
{
	static const char *const keys[] = {"t", "temperature"};
	const struct calc_in *object;
	struct lab_log_reading *reading;

	TRY(calc_read_objects(in, "history", 2, &object, &m->n_reading, err));
	reading = arena_take(in->arena, m->n_reading, sizeof *reading);
	if (reading == NULL)
		return err_memory(err);
	for (size_t i = 0; i < m->n_reading; i++) {
		TRY(calc_only(&object[i], keys, COUNT(keys), err));
		TRY(calc_read_quantity(&object[i], "t", UNIT_TIME,
			CALC_NOT_NEGATIVE, &reading[i].at.s, err));
		TRY(calc_read_quantity(&object[i], "temperature",
			UNIT_TEMPERATURE, CALC_ANY,
			&reading[i].temperature.degC, err));
	}
	m->reading = reading;
	return ERR_NONE;
}

static enum err_code
run_maturity(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	struct lab_maturity m = {
		.activation_J_mol = lab_default_activation_J_mol,
		.reference.degC = lab_default_reference_degC,
	};
	const struct calc_field field[] = {
		{"datum", UNIT_TEMPERATURE, CALC_ANY, true, &m.datum.degC},
		{"activation_energy", UNIT_MOLAR_ENERGY, CALC_POSITIVE, false,
			&m.activation_J_mol},
		{"reference_temperature", UNIT_TEMPERATURE, CALC_ANY, false,
			&m.reference.degC},
	};
	struct lab_matured got;

	TRY(read_history(in, &m, err));
	TRY(calc_read_fields(in, field, COUNT(field), err));
	TRY(lab_maturity(&m, &got, err));
	jsonout_key_quantity(
		out->json, "nurse_saul", got.nurse_saul_degC_h, "degC h");
	jsonout_key_quantity(
		out->json, "equivalent_age", got.equivalent_age.s, "s");
	jsonout_key_quantity(out->json, "elapsed", got.elapsed.s, "s");
	jsonout_key_quantity(
		out->json, "mean_temperature", got.mean_degC, "degC");
	jsonout_key_quantity(out->json, "below_datum", got.below_datum.s, "s");
	calc_source(out,
		"ASTM C1074, eq. 1 (Nurse-Saul) and eq. 2 "
		"(Arrhenius)");
	if (!calc_has(in, "activation_energy"))
		calc_note(out,
			"The activation energy is taken as 41.6 kJ/mol "
			"(5000 K); ASTM C1074 gives 40 to 45 kJ/mol for "
			"ordinary cement without admixtures.");
	if (got.below_datum.s > 0)
		calc_note(out,
			"Time below the datum counts nothing in the "
			"Nurse-Saul sum, not less than nothing.");
	calc_note(out,
		"Say which datum was taken wherever this figure is "
		"used: 0 and -10 degC are both in use.");
	return ERR_NONE;
}

const struct calc_entry calc_maturity = {
	.name = "maturity",
	.line = "how much curing a temperature log amounts to",
	.key = maturity_keys,
	.n_key = COUNT(maturity_keys),
	.example = "{\"history\": [{\"t\": \"0 h\", \"temperature\": \"14.5 "
		   "degC\"}, {\"t\": \"13 h\", \"temperature\": \"31 degC\"}, "
		   "{\"t\": \"46 h\", \"temperature\": \"12 degC\"}], "
		   "\"datum\": \"0 degC\", \"activation_energy\": \"40 "
		   "kJ/mol\"}",
	.run = run_maturity,
};

/* ---- strength-age ---- */

static const struct calc_key strength_age_keys[] = {
	{"strength", "stress", NULL, "at the age it was tested"},
	{"age", "time", NULL, "at the test"},
	{"to_age", "time", NULL, "to bring it to"},
	{"relation", "object {kind, a, b or s}", NULL,
		"rational: t/(a + b t), t in days; exponential: exp(s (1 - "
		"sqrt(28/t)))"},
};

static enum err_code
read_relation(const struct calc_in *in, struct lab_age_relation *relation,
	struct err *err)
{
	static const char *const kinds[] = {"rational", "exponential"};
	static const char *const rational[] = {"kind", "a", "b"};
	static const char *const exponential[] = {"kind", "s"};
	struct calc_in object;
	size_t kind = 0;

	TRY(calc_read_object(in, "relation", &object, err));
	TRY(calc_read_choice(&object, "kind", kinds, COUNT(kinds), &kind, err));
	relation->kind = (enum lab_age_kind)kind;
	if (relation->kind == LAB_AGE_EXPONENTIAL) {
		TRY(calc_only(&object, exponential, COUNT(exponential), err));
		return calc_read_number(
			&object, "s", CALC_POSITIVE, &relation->s, err);
	}
	TRY(calc_only(&object, rational, COUNT(rational), err));
	TRY(calc_read_number(
		&object, "a", CALC_NOT_NEGATIVE, &relation->a_d, err));
	return calc_read_number(&object, "b", CALC_POSITIVE, &relation->b, err);
}

static void
note_ages(struct calc_out *out, const struct lab_age_relation *relation,
	double youngest_s)
{
	static const double least_s = 3 * 86400.0; /* EN 1992-1-1, 3.1.2(6) */

	if (relation->kind == LAB_AGE_RATIONAL)
		calc_note(out,
			"This relation is not exactly 1 at 28 days: "
			"at_age and at_to_age are over its nominal "
			"28-day strength, ratio is one over the "
			"other.");
	else if (youngest_s < least_s)
		calc_note(out,
			"This relation is meant for 3 days and more; "
			"below that it is a guess.");
	calc_note(out,
		"The relations are of ordinary concrete at about 20 "
		"degC; with much fly ash foamed concrete gains later "
		"and for longer. Use the mix's own ratio where two ages "
		"were tested.");
	calc_note(out,
		"ratio_range is how far the published classes of cement "
		"disagree about the same two ages.");
}

static enum err_code
run_strength_age(
	const struct calc_in *in, struct calc_out *out, struct err *err)
{
	struct lab_age_relation relation = {.a_d = 0};
	struct duration age, to_age;
	struct stress strength;
	const struct calc_field field[] = {
		{"strength", UNIT_STRESS, CALC_POSITIVE, true, &strength.Pa},
		{"age", UNIT_TIME, CALC_POSITIVE, true, &age.s},
		{"to_age", UNIT_TIME, CALC_POSITIVE, true, &to_age.s},
	};
	struct lab_strength_at got;

	TRY(calc_read_fields(in, field, COUNT(field), err));
	TRY(read_relation(in, &relation, err));
	TRY(lab_strength_at(strength, age, to_age, &relation, &got, err));
	jsonout_key_quantity(out->json, "strength", got.strength.Pa, "Pa");
	jsonout_key_number(out->json, "ratio", got.ratio);
	jsonout_key_number(out->json, "at_age", got.at_age);
	jsonout_key_number(out->json, "at_to_age", got.at_to_age);
	jsonout_key_interval(
		out->json, "ratio_range", got.ratio_low, got.ratio_high, NULL);
	calc_source(out,
		relation.kind == LAB_AGE_RATIONAL
			? "ACI 209R-92, eq. 2-1"
			: "EN 1992-1-1:2004, 3.1.2(6), eq. 3.2 (CEB-FIP Model "
			  "Code 1990)");
	note_ages(out, &relation, age.s < to_age.s ? age.s : to_age.s);
	return ERR_NONE;
}

const struct calc_entry calc_strength_age = {
	.name = "strength-age",
	.line = "a strength of one age brought to another",
	.key = strength_age_keys,
	.n_key = COUNT(strength_age_keys),
	.example = "{\"strength\": \"1.32 MPa\", \"age\": \"9 d\", "
		   "\"to_age\": \"28 d\", \"relation\": {\"kind\": "
		   "\"rational\", \"a\": 4.0, \"b\": 0.85}}",
	.run = run_strength_age,
};
