/* calc_drying.c - "drying": when a witness block is dry enough for plaster. */
#include "work/calc_priv.h"

#include "lab/drying.h"

#define MATHLIB_STANDALONE 1
#include <Rmath.h>
#include <math.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

static const struct calc_key keys[] = {
	{"readings", "array of objects", NULL,
		"{t, mass}: weighings of the block since drying began, at "
		"least 5"},
	{"moisture", "number", NULL,
		"wanted: water over dry mass, as the maker of the plaster asks "
		"for it"},
	{"dry_mass", "mass", "where drying ends in that air",
		"of the same block from the oven"},
	{"confidence", "number", "0.95", "of the interval"},
};

static enum err_code
read_readings(const struct calc_in *in, struct lab_drying *d, struct err *err)
{
	static const char *const names[] = {"t", "mass"};
	const struct calc_in *object;
	struct lab_drying_reading *reading;

	TRY(calc_read_objects(
		in, "readings", LAB_DRYING_LEAST, &object, &d->n_reading, err));
	reading = arena_take(in->arena, d->n_reading, sizeof *reading);
	if (reading == NULL)
		return err_memory(err);
	for (size_t i = 0; i < d->n_reading; i++) {
		TRY(calc_only(&object[i], names, COUNT(names), err));
		TRY(calc_read_quantity(&object[i], "t", UNIT_TIME,
			CALC_NOT_NEGATIVE, &reading[i].at.s, err));
		TRY(calc_read_quantity(&object[i], "mass", UNIT_MASS,
			CALC_POSITIVE, &reading[i].mass.kg, err));
	}
	d->reading = reading;
	return ERR_NONE;
}

static enum err_code
run(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	struct lab_drying d = {.has_dry_mass = calc_has(in, "dry_mass")};
	const struct calc_field field[] = {
		{"dry_mass", UNIT_MASS, CALC_POSITIVE, false, &d.dry_mass.kg},
	};
	double confidence = 0.95, times;
	struct lab_dried got;

	TRY(read_readings(in, &d, err));
	TRY(calc_read_number(
		in, "moisture", CALC_POSITIVE, &d.moisture_ratio, err));
	TRY(calc_read_fields(in, field, COUNT(field), err));
	TRY(calc_read_share_or(in, "confidence", &confidence, err));
	TRY(lab_drying(in->arena, &d, &got, err));
	times = exp(qt(0.5 + confidence / 2, (double)got.n_free, true, false) *
		got.log_when_error);
	jsonout_key_quantity(out->json, "dry_enough_after", got.when.s, "s");
	jsonout_key_interval(out->json, "dry_enough_between",
		got.when.s / times, got.when.s * times, "s");
	jsonout_key_quantity(out->json, "wanted_mass", got.wanted.kg, "kg");
	jsonout_key_quantity(out->json, "end_mass", got.end.kg, "kg");
	jsonout_key_number(out->json, "moisture_now", got.moisture_now_ratio);
	jsonout_key_quantity(out->json, "residual_sd", got.residual.kg, "kg");
	calc_source(out,
		"Crank (1975), The Mathematics of Diffusion, eq. 4.18 and "
		"4.20; least squares, interval from the error of the "
		"logarithm of the time");
	calc_note(out,
		"For a block as thick as the wall, with the same faces open, "
		"in "
		"the air of the wall as it has been; rain, frost and heating "
		"change it. Weigh on and ask again.");
	if (!d.has_dry_mass)
		calc_note(out,
			"Without a dry mass the moisture is counted from where "
			"drying ends in that air, which still holds water.");
	return ERR_NONE;
}

const struct calc_entry calc_drying = {
	.name = "drying",
	.line = "when a witness block is dry enough for plaster",
	.key = keys,
	.n_key = COUNT(keys),
	.example = "{\"readings\": [{\"t\": \"0 d\", \"mass\": \"4.382 kg\"}, "
		   "{\"t\": \"2 d\", \"mass\": \"4.213 kg\"}, {\"t\": \"5 d\", "
		   "\"mass\": \"4.117 kg\"}, {\"t\": \"9 d\", \"mass\": "
		   "\"4.023 kg\"}, {\"t\": \"14 d\", \"mass\": \"3.939 kg\"}, "
		   "{\"t\": \"20 d\", \"mass\": \"3.871 kg\"}], "
		   "\"moisture\": 0.15, \"dry_mass\": \"3.31 kg\"}",
	.run = run,
};
