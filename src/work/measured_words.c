/* measured_words.c - sentences beside the other home tests. */
#include "work/measured_words.h"

#include "choose/conductivity.h"
#include "core/text.h"
#include "core/unit.h"
#include "work/drying.h"
#include "work/series.h"

#include <string.h>

enum { DIGITS = 3, RISE_LEAST = 3 };

static size_t
count_of(
	const struct work_site *s, size_t piece, const char *kind, bool weighed)
{
	size_t n = 0;

	for (size_t i = 0; i < s->n_reading; i++)
		n += s->reading_specimen[i] == piece &&
			strcmp(s->reading[i].kind, kind) == 0 &&
			(!weighed || s->reading[i].water.mass_kg.has);
	return n;
}

static const char *
of_rise(struct arena *arena, const struct work_site *s, size_t piece)
{
	size_t n = count_of(s, piece, "rise", true);

	if (n == 0 || n >= RISE_LEAST)
		return "";
	return text_format(arena,
		"How fast it draws water takes %d weighings, the first at "
		"--time \"0 h\"; %zu more.",
		(int)RISE_LEAST, RISE_LEAST - n);
}

/* The dry weight of the same piece, and what the relation makes of it. */
static const char *
of_hot_box(struct arena *arena, const struct work_results *all, size_t piece)
{
	for (size_t i = 0; i < all->n_result; i++) {
		const struct work_result *r = &all->result[i];

		if (r->measure != CHOOSE_DRY_DENSITY || !r->has_specimen ||
			r->specimen != piece)
			continue;
		return text_format(arena,
			"The relation that choose and heat go by (ACI 122R, "
			"good to about 20 %%) says %s W/(m K) for its dry "
			"weight, without water.",
			unit_digits(arena,
				choose_conductivity(
					(r->value.low + r->value.high) / 2),
				DIGITS));
	}
	return "";
}

static enum err_code
of_drying(struct arena *arena, const struct work_bench *bench, size_t piece,
	const char **sentence, struct err *err)
{
	const struct work_drying *d = NULL;
	size_t n = 0;

	TRY(work_drying_all(arena, bench, &d, &n, err));
	for (size_t i = 0; i < n; i++)
		if (d[i].piece == piece)
			*sentence = work_drying_words(arena, bench, &d[i]);
	return ERR_NONE;
}

enum err_code
work_measured_words(struct arena *arena, const struct work_bench *bench,
	const struct work_results *all, size_t piece,
	const struct book_reading *reading,
	const char *sentence[WORK_MEASURED_WORDS], size_t *n, struct err *err)
{
	const struct work_site *s = &bench->site;
	const char *kind = reading->kind;

	*n = 0;
	if (strcmp(kind, "rise") == 0)
		sentence[(*n)++] = of_rise(arena, s, piece);
	if (strcmp(kind, "shrinkage") == 0 &&
		count_of(s, piece, kind, false) == 1)
		sentence[(*n)++] = N_(
			"The first reading of its studs: the later "
			"ones are measured from it.");
	if (strcmp(kind, "screw") == 0)
		sentence[(*n)++] = N_("Loads that come and go loosen screws.");
	if (strcmp(kind, "frost") == 0)
		sentence[(*n)++] = N_(
			"A dry piece passes any number of cycles: "
			"say with --remark how wet it was.");
	if (strcmp(kind, "hot box") == 0) {
		sentence[(*n)++] = of_hot_box(arena, all, piece);
		sentence[(*n)++] = N_(
			"A home-made box is good to 15 or 20 % at "
			"best (common practice, no source), "
			"whatever its instruments.");
	}
	if (strcmp(kind, "drying") == 0)
		TRY(of_drying(arena, bench, piece, &sentence[(*n)++], err));
	for (size_t i = 0; i < *n; i++)
		if (sentence[i] == NULL)
			return err_memory(err);
	return ERR_NONE;
}
