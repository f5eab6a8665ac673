/* calc_outlier.c - "outlier": does one value lie too far out? */
#include "work/calc_priv.h"

#include "stats/outlier.h"

static const struct calc_key keys[] = {
	{"values", "array of at least three numbers", NULL,
		"one sample; the residuals where there are batches"},
};

static void
write_grubbs(struct calc_out *out, const double *value,
	const struct stats_grubbs *grubbs)
{
	struct jsonout *json = out->json;

	jsonout_key(json, "grubbs");
	jsonout_open_object(json);
	jsonout_key_number(json, "value", value[grubbs->index]);
	jsonout_key_number(json, "g", grubbs->g);
	jsonout_key_number(json, "p_one_sided", grubbs->p_one_sided);
	jsonout_key_number(json, "p_two_sided", grubbs->p_two_sided);
	jsonout_close_object(json);
	calc_note(out,
		"Grubbs' p is the usual upper bound: n (or 2 n) times the "
		"chance for one value, at most 1.");
}

static void
write_dixon(struct calc_out *out, const double *value, bool has,
	const struct stats_dixon *dixon)
{
	struct jsonout *json = out->json;

	jsonout_key(json, "dixon");
	if (!has) {
		jsonout_null(json);
		calc_note(out, "dixon is null: it is for at most 100 values.");
		return;
	}
	jsonout_open_object(json);
	jsonout_key_number(json, "value", value[dixon->index]);
	jsonout_key_number(json, "r", dixon->r);
	jsonout_key_number(json, "p", dixon->p);
	jsonout_close_object(json);
	calc_note(out,
		"Dixon's ratio is r10 up to 7 values, r11 up to 10, r21 up to "
		"13 and r22 beyond; its p is one-sided, for the end with the "
		"larger ratio: double it if either end would have done.");
}

static enum err_code
run(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	struct stats_grubbs grubbs;
	struct stats_dixon dixon = {0};
	const double *value;
	bool has_dixon;
	size_t n;

	TRY(calc_read_numbers(in, "values", 3, &value, &n, err));
	TRY(stats_grubbs(value, n, &grubbs, err));
	TRY(stats_dixon(in->arena, value, n, &has_dixon, &dixon, err));
	write_grubbs(out, value, &grubbs);
	write_dixon(out, value, has_dixon, &dixon);
	calc_source(out,
		"Grubbs (1950), Annals of Mathematical Statistics 21, 27-58; "
		"Dixon (1953), Biometrics 9, 74-89, p by exact integration");
	calc_note(out,
		"A value that lies far out is a reason to look, not to "
		"delete; two of them can hide each other.");
	return ERR_NONE;
}

const struct calc_entry calc_outlier = {
	.name = "outlier",
	.line = "does one value lie too far out (Grubbs, Dixon)",
	.key = keys,
	.n_key = sizeof keys / sizeof keys[0],
	.example = "{\"values\": [1.88, 1.91, 1.93, 1.9, 2.31]}",
	.run = run,
};
