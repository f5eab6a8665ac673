/* measured_beside.c - measured beside foreseen. */
#include "work/measured_beside.h"

#include "choose/conductivity.h"
#include "core/text.h"
#include "core/unit.h"
#include "work/result_words.h"

#include <string.h>

enum { DIGITS = 3 };

struct beside {
	struct arena *arena;
	const struct work_site *site;
	const struct work_results *results;
	const char **sentence;
	size_t n;
};

/* What the relation makes of the dry weight of that piece; "" if unknown. */
static const char *
relation(const struct beside *b, size_t piece)
{
	for (size_t i = 0; i < b->results->n_result; i++) {
		const struct work_result *r = &b->results->result[i];
		double middle = (r->value.low + r->value.high) / 2;

		if (r->measure == CHOOSE_DRY_DENSITY && r->has_specimen &&
			r->specimen == piece)
			return text_format(b->arena,
				"; the relation says %s W/(m K) for its dry "
				"weight of %s kg/m3, without water",
				unit_digits(b->arena,
					choose_conductivity(middle), DIGITS),
				unit_digits(b->arena, middle, DIGITS));
	}
	return "; its dry weight is not known, so the relation says nothing of "
	       "it";
}

static void
add_heat(struct beside *b, const struct work_result *r)
{
	const char *than = relation(b, r->specimen);

	b->sentence[b->n++] = than == NULL
		? NULL
		: text_format(b->arena, "Measured on piece %s of mix %s: %s%s.",
			  b->site->specimen[r->specimen].code,
			  b->site->mix[r->mix].code,
			  work_result_value(b->arena, r), than);
}

static void
add_moisture(struct beside *b, const struct book_reading *r, size_t piece,
	double moisture_ratio)
{
	const struct book_water *w = &r->water;
	double ratio = w->mass_kg.value / w->dry_kg.value - 1;
	const char *with = text_format(b->arena,
		"; it is reckoned here with %s %%",
		unit_digits(b->arena, 100 * moisture_ratio, DIGITS));

	b->sentence[b->n++] = with == NULL
		? NULL
		: text_format(b->arena,
			  "Moisture measured on piece %s: %s %% of its dry "
			  "weight%s.",
			  b->site->specimen[piece].code,
			  unit_digits(b->arena, 100 * ratio, DIGITS), with);
}

enum err_code
work_measured_beside(struct arena *arena, const struct work_site *site,
	const struct work_results *results, size_t mix, double moisture_ratio,
	const char *const **sentence, size_t *n, struct err *err)
{
	struct beside b = {arena, site, results, NULL, 0};

	b.sentence = arena_take(arena, site->n_reading + 1, sizeof *b.sentence);
	if (b.sentence == NULL)
		return err_memory(err);
	for (size_t i = 0; i < results->n_result; i++) {
		const struct work_result *r = &results->result[i];

		if (r->measure == CHOOSE_CONDUCTIVITY && r->mix == mix &&
			!site->batch[r->batch].practice)
			add_heat(&b, r);
	}
	for (size_t i = 0; i < site->n_reading; i++) {
		const size_t piece = site->reading_specimen[i];
		const size_t batch = site->specimen_batch[piece];

		if (moisture_ratio > 0 &&
			strcmp(site->reading[i].kind, "moisture") == 0 &&
			site->batch_mix[batch] == mix &&
			!site->batch[batch].practice)
			add_moisture(
				&b, &site->reading[i], piece, moisture_ratio);
	}
	for (size_t i = 0; i < b.n; i++)
		if (b.sentence[i] == NULL)
			return err_memory(err);
	*sentence = b.sentence;
	*n = b.n;
	return ERR_NONE;
}
