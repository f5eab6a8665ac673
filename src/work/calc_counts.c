/* calc_counts.c - "counts": two failure counts compared exactly. */
#include "work/calc_priv.h"

#include "stats/counts.h"

static const struct calc_key keys[] = {
	{"a", "object {failed, of}", NULL, "the first lot: how many failed"},
	{"b", "object {failed, of}", NULL, "the second lot"},
};

struct lot {
	uint64_t failed, of;
};

static enum err_code
read_lot(const struct calc_in *in, const char *key, struct lot *lot,
	struct err *err)
{
	static const char *const known[] = {"failed", "of"};
	struct calc_in object;

	TRY(calc_read_object(in, key, &object, err));
	TRY(calc_only(&object, known, 2, err));
	TRY(calc_read_count(
		&object, "of", 1, STATS_COUNTS_MOST, &lot->of, err));
	TRY(calc_read_count(
		&object, "failed", 0, STATS_COUNTS_MOST, &lot->failed, err));
	if (lot->failed > lot->of)
		return calc_refuse(&object, "failed",
			"no more failures than there were pieces (of)", err);
	return ERR_NONE;
}

static void
write_lot(struct jsonout *json, const char *key, const struct lot *lot,
	double low, double high, double upper)
{
	jsonout_key(json, key);
	jsonout_open_object(json);
	jsonout_key_number(json, "rate", (double)lot->failed / (double)lot->of);
	jsonout_key_number(json, "low", low);
	jsonout_key_number(json, "high", high);
	jsonout_key_number(json, "upper", upper);
	jsonout_close_object(json);
}

static enum err_code
run(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	struct jsonout *json = out->json;
	struct stats_counts got;
	struct lot a, b;

	TRY(read_lot(in, "a", &a, err));
	TRY(read_lot(in, "b", &b, err));
	TRY(stats_counts_compare(a.failed, a.of, b.failed, b.of, &got, err));
	jsonout_key_number(json, "p", got.p_two_sided);
	jsonout_key_number(json, "p_more_in_a", got.p_more_in_a);
	jsonout_key_number(json, "p_more_in_b", got.p_more_in_b);
	write_lot(json, "a", &a, got.low_a, got.high_a, got.upper_a);
	write_lot(json, "b", &b, got.low_b, got.high_b, got.upper_b);
	calc_source(out,
		"Fisher (1935), Journal of the Royal Statistical "
		"Society 98, 39-82, two-sided after Freeman and "
		"Halton (1951), Biometrika 38, 141-149; bounds: "
		"Clopper and Pearson (1934), Biometrika 26, 404-413");
	calc_note(out,
		"p is two-sided: it adds every split of the failures "
		"that is no likelier than the one seen.");
	calc_note(out,
		"low and high hold the rate with 95 % between them; "
		"upper is the one-sided 95 % bound.");
	return ERR_NONE;
}

const struct calc_entry calc_counts = {
	.name = "counts",
	.line = "two failure counts compared exactly, bounds of each rate",
	.key = keys,
	.n_key = sizeof keys / sizeof keys[0],
	.example = "{\"a\": {\"failed\": 3, \"of\": 7}, "
		   "\"b\": {\"failed\": 0, \"of\": 36}}",
	.run = run,
};
