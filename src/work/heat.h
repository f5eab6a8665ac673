/* heat.h - a part of the building as layers: heat let through, thickness for a
 * wanted U, water gathering over a year, heat kept.
 *
 * Methods: docs/methods/heat.md, condensation.md.  Screening only. */
#ifndef WORK_HEAT_H
#define WORK_HEAT_H

#include "choose/condensation.h"
#include "work/screen.h"

/* Vapour resistance of foamed concrete against still air where none is given:
 * the lower, wet value of autoclaved aerated concrete, ISO 10456:2007, table 3,
 * from memory. */
static const double work_usual_vapour = 6;

/* At which the picture of the layers is drawn; round numbers of our own. */
static const double work_heat_inside_degc = 20, work_heat_outside_degc = 0;

struct work_heat_ask {
	const char *part, *mix; /* mix NULL: decided or likeliest */
	struct maybe want_u;    /* W/(m2 K) */
	struct maybe vapour;    /* of the foamed concrete */
	const char *climate;    /* path of a CSV file, or NULL */
};

struct work_heat_layer {
	const char *name;
	double thickness_m, conductivity_w_mk; /* 0: given as a whole */
	double resistance_m2k_w, low, high;    /* its 90 % interval */
};

struct work_heated {
	struct work_parts parts;
	size_t part, mix;
	const char *mix_code, *why_mix;
	const struct work_heat_layer *layer; /* from inside out */
	size_t n_layer;
	size_t concrete; /* which of them is the foamed concrete */
	enum choose_heat_flow flow;
	/* n_layer + 1 temperatures from the inside face out, at work_heat_inside
	 * and work_heat_outside */
	const double *face_degc;
	double moisture_ratio;
	double resistance[3], u[3]; /* median, low, high */
	bool has_wanted;
	double wanted_m[3];    /* of foamed concrete; median, low, high */
	double p_meets_wanted; /* chance that the part as it is does */
	bool has_mass;         /* every layer has a weight */
	double mass_kg_m2, capacity_j_m2k;
	bool has_climate;
	struct choose_condensed wet;
	double vapour;
	const char *const *measured; /* sentences: on pieces of that mix */
	size_t n_measured;
};

/* work_heat(desk, arena, ask, out, err):
 * ERR_NOT_FOUND no such part, mix or file; ERR_INPUT the part has no thickness,
 * a skin no conductivity, the mix no dry weight, the climate not twelve months;
 * ERR_ANSWER_NO the skins alone do what is wanted */
enum err_code work_heat(const struct desk *desk, struct arena *arena,
	const struct work_heat_ask *ask, struct work_heated *out,
	struct err *err) MUST_CHECK;

#endif /* WORK_HEAT_H */
