/* conductivity.c - published relations of heat let through and dry weight. */
#include "choose/conductivity.h"

#include "core/check.h"

#include <math.h>

/* 1 Btu in/(h ft2 degF) in W/(m K) and 1 lb/ft3 in kg/m3, both exact by the
 * definitions of inch, pound and the International Table Btu. */
static const double w_mk_per_us = 1055.05585262 * 0.0254 /
	(3600.0 * 0.09290304 * (5.0 / 9.0));
static const double kg_m3_per_pcf = 0.45359237 / 0.028316846592;

static const double most_density_kg_m3 = 3000, most_moisture_ratio = 2;

/* Every 100 kg/m3 from 300: EN 1745:2012, table A.10, P = 50 % and 90 %. */
static const double en_1745_p50[] = {
	0.072, 0.096, 0.12, 0.15, 0.17, 0.19, 0.22, 0.24};
static const double en_1745_p90[] = {
	0.085, 0.11, 0.13, 0.16, 0.18, 0.21, 0.24, 0.26};
/* Every 200 kg/m3 from 400: British Cement Association 1994, at 3 %. */
static const double bca_low[] = {0.10, 0.11, 0.17, 0.23, 0.38, 0.50, 0.62};
static const double bca_high[] = {0.10, 0.11, 0.23, 0.30, 0.42, 0.55, 0.66};

struct relation {
	const char *word, *source;
	double low_kg_m3, high_kg_m3, at_moisture_ratio;
};

static const struct relation relations[] = {
#define AS_RELATION(relation, word, source, low, high, moisture) \
	[relation] = {word, source, low, high, moisture},
	CHOOSE_RELATION_LIST(AS_RELATION)
#undef AS_RELATION
};

const char *
choose_relation_word(enum choose_relation relation)
{
	return relations[relation].word;
}

const char *
choose_relation_source(enum choose_relation relation)
{
	return relations[relation].source;
}

struct interval
choose_relation_range_kg_m3(enum choose_relation relation)
{
	return (struct interval){
		relations[relation].low_kg_m3, relations[relation].high_kg_m3};
}

double
choose_conductivity(double dry_density_kg_m3)
{
	double weight_pcf = dry_density_kg_m3 / kg_m3_per_pcf;

	return 0.5 * exp(0.02 * weight_pcf) * w_mk_per_us;
}

double
choose_moisture_factor(double coefficient, double from_ratio, double to_ratio)
{
	return exp(coefficient * (to_ratio - from_ratio));
}

/* Straight lines between the entries of a table; density lies within it. */
static double
between_entries(const double *entry, const struct relation *r, size_t n,
	double density_kg_m3)
{
	double step = (r->high_kg_m3 - r->low_kg_m3) / (double)(n - 1);
	double at = (density_kg_m3 - r->low_kg_m3) / step;
	size_t i = (size_t)fmin(floor(at), (double)(n - 2));

	return entry[i] + (at - (double)i) * (entry[i + 1] - entry[i]);
}

#define FROM_TABLE(table) \
	between_entries((table), r, sizeof(table) / sizeof((table)[0]), density)

/* At the moisture of the relation; NAN where its table does not reach. */
static double
as_published(enum choose_relation relation, double density)
{
	const struct relation *r = &relations[relation];
	bool in_range = density >= r->low_kg_m3 && density <= r->high_kg_m3;

	switch (relation) {
	case CHOOSE_ACI_122:
		return choose_conductivity(density);
	case CHOOSE_ACI_122_ROUNDED:
		return 0.0865 * exp(0.00125 * density);
	case CHOOSE_VALORE_1980:
		return 0.072 * exp(0.00125 * density);
	case CHOOSE_EN_1745_P50:
		return in_range ? FROM_TABLE(en_1745_p50) : (double)NAN;
	case CHOOSE_EN_1745_P90:
		return in_range ? FROM_TABLE(en_1745_p90) : (double)NAN;
	case CHOOSE_BCA_1994_LOW:
		return in_range ? FROM_TABLE(bca_low) : (double)NAN;
	case CHOOSE_BCA_1994_HIGH:
		break;
	}
	return in_range ? FROM_TABLE(bca_high) : (double)NAN;
}

enum err_code
choose_relation_conductivity(enum choose_relation relation, struct density dry,
	double moisture_ratio, struct choose_conducts *out, struct err *err)
{
	const struct relation *r = &relations[relation];
	double published;

	TRY(check_between((struct check){"oven_dry_density",
				  N_("oven-dry density"), dry.kg_m3, "kg/m3"},
		1, most_density_kg_m3, err));
	TRY(check_between(
		(struct check){"moisture_content", N_("moisture content"),
			moisture_ratio, "of the dry mass"},
		0, most_moisture_ratio, err));
	published = as_published(relation, dry.kg_m3);
	*out = (struct choose_conducts){
		.has_value = !isnan(published),
		.in_range = dry.kg_m3 >= r->low_kg_m3 &&
			dry.kg_m3 <= r->high_kg_m3,
	};
	if (!out->has_value)
		return ERR_NONE;
	out->oven_dry.W_mK = published *
		choose_moisture_factor(
			choose_moisture_by_mass, r->at_moisture_ratio, 0);
	out->moist.W_mK = published *
		choose_moisture_factor(choose_moisture_by_mass,
			r->at_moisture_ratio, moisture_ratio);
	return ERR_NONE;
}
