/* test_age.c - maturity and strength with age against the check values of the
 * reference table, by their row names (tests/data/trade-a.csv, trade-b.csv). */
#include "trade_row.h"

#include "lab/maturity.h"
#include "lab/strength_age.h"

#include <stdio.h>

static const double day_s = 86400, hour_s = 3600;

static struct lab_matured
mature(struct fixture *fx, const struct lab_log_reading *log, size_t n,
	double datum_degC, double activation_J_mol, double reference_degC)
{
	struct lab_maturity m = {.reading = log,
		.n_reading = n,
		.datum = {datum_degC},
		.activation_J_mol = activation_J_mol,
		.reference = {reference_degC}};
	struct lab_matured got;

	assert_ok(lab_maturity(&m, &got, &fx->err), &fx->err);
	return got;
}

static void
maturity__rows_of_the_table(void **state)
{
	struct fixture *fx = *state;
	struct trade_rows a = trade_read(fx->a, "trade-a.csv");
	struct trade_rows b = trade_read(fx->a, "trade-b.csv");
	const double q = 5000 * lab_gas_constant;
	const struct lab_log_reading ns1[] = {{{0}, {15}},
		{{12 * hour_s}, {15}}, {{12 * hour_s}, {25}},
		{{24 * hour_s}, {25}}};
	const struct lab_log_reading ns3[] = {{{0}, {-5}},
		{{10 * hour_s}, {-5}}, {{10 * hour_s}, {10}},
		{{24 * hour_s}, {10}}};
	const struct lab_log_reading ns4[] = {{{0}, {10}}, {{6 * hour_s}, {16}},
		{{12 * hour_s}, {24}}, {{18 * hour_s}, {20}},
		{{24 * hour_s}, {14}}};
	const struct lab_log_reading ea3[] = {{{0}, {10}},
		{{12 * hour_s}, {10}}, {{12 * hour_s}, {30}},
		{{24 * hour_s}, {30}}};
	const struct lab_log_reading ea4[] = {{{0}, {12}}, {{7 * day_s}, {12}}};
	const struct lab_log_reading w19[] = {{{0}, {10}},
		{{24 * hour_s}, {10}}, {{24 * hour_s}, {20}},
		{{72 * hour_s}, {20}}};
	const struct lab_log_reading w20[] = {
		{{0}, {30}}, {{24 * hour_s}, {30}}};

	assert_row(&a, "NS-1", mature(fx, ns1, 4, 0, q, 20).nurse_saul_degC_h);
	assert_row(
		&a, "NS-2", mature(fx, ns1, 4, -10, q, 20).nurse_saul_degC_h);
	assert_row(&a, "NS-3", mature(fx, ns3, 4, 0, q, 20).nurse_saul_degC_h);
	assert_row(&a, "NS-4", mature(fx, ns4, 5, 0, q, 20).nurse_saul_degC_h);
	assert_row(&a, "EA-3",
		mature(fx, ea3, 4, 0, q, 20).equivalent_age.s / hour_s);
	assert_row(&a, "EA-4",
		mature(fx, ea4, 2, 0, q, 23).equivalent_age.s / day_s);
	assert_row(&a, "EA-5",
		mature(fx, ns4, 5, 0, q, 20).equivalent_age.s / hour_s);
	assert_row(&b, "W19", mature(fx, w19, 4, -10, q, 20).nurse_saul_degC_h);
	assert_row(&b, "W20",
		mature(fx, w20, 2, 0, 40e3, 20).equivalent_age.s / hour_s);
	assert_row(&a, "EA-1",
		lab_arrhenius_factor(
			(struct temperature){10}, (struct temperature){20}, q));
	assert_row(&a, "EA-2",
		lab_arrhenius_factor(
			(struct temperature){30}, (struct temperature){20}, q));
	assert_row(&a, "EA-Q", 41500 / lab_gas_constant);
	assert_row(&a, "NS-EQ",
		lab_nurse_saul_factor((struct temperature){10},
			(struct temperature){20}, (struct temperature){0}));
	assert_row(
		&a, "EC2-T", 7 * lab_en1992_factor((struct temperature){10}));
	/* the default activation energy is what its comment says; 1e-15 is the
	 * last digit of the product */
	assert_near(lab_default_activation_J_mol, q, 1e-15, 0);
}

static void
maturity__adds_up_over_any_cut_of_the_log(void **state)
{
	/* An identity: a log cut at one of its readings has the sums of its
	 * parts, and an even temperature at the reference ages as the clock;
	 * 1e-13 is the rounding of some twenty sums. */
	struct fixture *fx = *state;
	struct lab_log_reading log[19];
	struct lab_matured whole, front, back;
	const struct lab_log_reading even[] = {{{311}, {20}}, {{97531}, {20}}};

	for (size_t i = 0; i < 19; i++) {
		log[i].at.s = 1731.7 * (double)(i * i);
		log[i].temperature.degC = 13.4 + 11.9 * sin((double)i);
	}
	whole = mature(fx, log, 19, 2.3, 38.7e3, 21);
	front = mature(fx, log, 8, 2.3, 38.7e3, 21);
	back = mature(fx, log + 7, 12, 2.3, 38.7e3, 21);
	assert_near(whole.nurse_saul_degC_h,
		front.nurse_saul_degC_h + back.nurse_saul_degC_h, 1e-13, 0);
	assert_near(whole.equivalent_age.s,
		front.equivalent_age.s + back.equivalent_age.s, 1e-13, 0);
	assert_near(mature(fx, even, 2, 0, 38.7e3, 20).equivalent_age.s,
		97531 - 311, 1e-14, 0);
}

static void
maturity__bad_logs_are_refused(void **state)
{
	struct fixture *fx = *state;
	const struct lab_log_reading back[] = {
		{{0}, {15}}, {{500}, {15}}, {{400}, {15}}};
	const struct lab_log_reading cold[] = {{{0}, {15}}, {{500}, {-300}}};
	const struct lab_log_reading still[] = {{{9}, {15}}, {{9}, {17}}};
	struct lab_maturity m = {.reading = back,
		.n_reading = 3,
		.activation_J_mol = 40e3,
		.reference = {20}};
	struct lab_matured got = {.mean_degC = -7};

	assert_int_equal(ERR_INPUT, lab_maturity(&m, &got, &fx->err));
	assert_string_equal("history[2].t", fx->err.field);
	m.reading = cold;
	m.n_reading = 2;
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT, lab_maturity(&m, &got, &fx->err));
	assert_string_equal("history[1].temperature", fx->err.field);
	m.reading = still;
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT, lab_maturity(&m, &got, &fx->err));
	assert_string_equal("history", fx->err.field);
	m.n_reading = 1;
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT, lab_maturity(&m, &got, &fx->err));
	m.reading = back;
	m.n_reading = 2;
	m.activation_J_mol = 4e6;
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT, lab_maturity(&m, &got, &fx->err));
	assert_string_equal("activation_energy", fx->err.field);
	m.activation_J_mol = 40e3;
	m.datum.degC = NAN;
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT, lab_maturity(&m, &got, &fx->err));
	assert_string_equal("datum", fx->err.field);
	assert_near(got.mean_degC, -7, 0, 0); /* untouched */
}

static double
age_ratio(struct fixture *fx, struct lab_age_relation relation, double days)
{
	double ratio;

	assert_ok(lab_age_ratio(&relation, (struct duration){days * day_s},
			  &ratio, &fx->err),
		&fx->err);
	return ratio;
}

static void
strength_age__rows_of_the_table(void **state)
{
	/* ACI 209R-92, eq. 2-1 and table 2.2.1; EN 1992-1-1, eq. 3.2 */
	static const struct {
		const char *name;
		double a, b;
	} aci[] = {{"M1", 4.0, 0.85}, {"M3", 2.3, 0.92}, {"S1", 1.0, 0.95},
		{"S3", 0.70, 0.98}};
	static const int aci_days[] = {3, 7, 14, 28, 90};
	static const int en_days[] = {3, 7, 14, 28, 56, 90};
	static const int en_s[] = {20, 25, 38};
	struct fixture *fx = *state;
	struct trade_rows rows = trade_read(fx->a, "trade-a.csv");
	struct lab_age_relation en = {.kind = LAB_AGE_EXPONENTIAL};
	char id[32];

	for (size_t i = 0; i < 4; i++) {
		struct lab_age_relation r = {
			LAB_AGE_RATIONAL, aci[i].a, aci[i].b, 0};

		for (size_t k = 0; k < 5; k++) {
			(void)snprintf(id, sizeof id, "A209-%s-%d", aci[i].name,
				aci_days[k]);
			assert_row(&rows, id, age_ratio(fx, r, aci_days[k]));
		}
		/* the nominal 28-day strength from 2.0 MPa at 7 days */
		(void)snprintf(id, sizeof id, "A209-%s-INV7", aci[i].name);
		assert_row(&rows, id, 2.0 / age_ratio(fx, r, 7));
	}
	for (size_t i = 0; i < 3; i++) {
		en.s = en_s[i] / 100.0;
		for (size_t k = 0; k < 6; k++) {
			(void)snprintf(id, sizeof id, "EC2-%d-%d", en_s[i],
				en_days[k]);
			assert_row(&rows, id, age_ratio(fx, en, en_days[k]));
		}
	}
	en.s = 0.25;
	assert_row(&rows, "EC2-25-10", age_ratio(fx, en, 10));
	assert_row(&rows, "EC2-INV7", 2.0 / age_ratio(fx, en, 7));
}

static void
strength_age__there_and_back_is_the_same(void **state)
{
	/* An identity, over a sweep; 1e-14 is rounding.  The published classes
	 * bracket each of themselves. */
	struct fixture *fx = *state;
	const struct lab_age_relation r = {LAB_AGE_RATIONAL, 4.0, 0.85, 0};

	for (double days = 1.37; days < 400; days *= 1.71) {
		const struct duration age = {days * day_s};
		const struct duration other = {11.3 * day_s};
		struct lab_strength_at on, back;

		assert_ok(lab_strength_at((struct stress){1.73e6}, age, other,
				  &r, &on, &fx->err),
			&fx->err);
		assert_ok(lab_strength_at(
				  on.strength, other, age, &r, &back, &fx->err),
			&fx->err);
		assert_near(back.strength.Pa, 1.73e6, 1e-14, 0);
		assert_true(
			on.ratio_low <= on.ratio && on.ratio <= on.ratio_high);
	}
}

static void
strength_age__what_cannot_be_is_refused(void **state)
{
	struct fixture *fx = *state;
	struct lab_age_relation r = {LAB_AGE_EXPONENTIAL, 0, 0, 0.25};
	struct lab_strength_at got;
	double ratio;
	const struct duration week = {7 * day_s};

	assert_int_equal(ERR_INPUT,
		lab_age_ratio(&r, (struct duration){0}, &ratio, &fx->err));
	assert_string_equal("age", fx->err.field);
	err_clear(&fx->err); /* an hour: exp(-6.2) is still a strength; a
	                        second is not */
	assert_int_equal(ERR_INPUT,
		lab_strength_at((struct stress){1e6}, (struct duration){0.4},
			week, &r, &got, &fx->err));
	assert_string_equal("age", fx->err.field);
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT,
		lab_strength_at(
			(struct stress){0}, week, week, &r, &got, &fx->err));
	assert_string_equal("strength", fx->err.field);
	r.s = 31;
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT, lab_age_ratio(&r, week, &ratio, &fx->err));
	assert_string_equal("relation.s", fx->err.field);
	r = (struct lab_age_relation){LAB_AGE_RATIONAL, -1, 0.85, 0};
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT, lab_age_ratio(&r, week, &ratio, &fx->err));
	assert_string_equal("relation.a", fx->err.field);
	r = (struct lab_age_relation){LAB_AGE_RATIONAL, 1, 0, 0};
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT, lab_age_ratio(&r, week, &ratio, &fx->err));
	assert_string_equal("relation.b", fx->err.field);
}

static const struct CMUnitTest tests[] = {
	TEST(maturity__rows_of_the_table),
	TEST(maturity__adds_up_over_any_cut_of_the_log),
	TEST(maturity__bad_logs_are_refused),
	TEST(strength_age__rows_of_the_table),
	TEST(strength_age__there_and_back_is_the_same),
	TEST(strength_age__what_cannot_be_is_refused),
};

TEST_MAIN(tests)
