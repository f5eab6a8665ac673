/* compare_learn.c - how much batches and pieces usually differ, learnt from
 * another book.
 *
 * stats_hierarchy_learn makes a prior of the other book's draws, at half their
 * weight: other materials, other hands, other weather.  Measures that the other
 * book has not keep the usual prior. */
#include "work/compare_priv.h"

#include "work/shelf.h"

/* What the other book counts for; common practice, no source. */
static const double learn_weight = 1. / 2;

static enum err_code
compare_other(struct comparing *on, struct work_compared *out, struct err *err)
{
	struct work_compare_ask ask = {.has_measure = on->ask->has_measure,
		.measure = on->ask->measure};
	struct desk other = *on->desk;
	struct err report = {.tongue = err->tongue};
	enum err_code code;

	other.book = NULL;
	TRY(work_open(on->ask->learn_from, false, &other, err));
	code = work_compare_asked(&other, on->arena, &ask, out, &report);
	work_close(&other);
	if (code == ERR_NONE)
		return ERR_NONE;
	return err_report(err, code, "learn_from", "The book to learn from: %s",
		report.text);
}

enum err_code
compare_learn(struct comparing *on, struct err *err)
{
	struct work_compared other;

	TRY(compare_other(on, &other, err));
	for (size_t i = 0; i < on->n_measure; i++) {
		struct compare_measure *m = &on->measure[i];
		const struct work_comparison *c = work_comparison_of(
			&other, m->rows.measure);

		if (c == NULL)
			continue;
		TRY(stats_hierarchy_learn(&c->draws, learn_weight,
			&m->main->prior, NULL, NULL, err));
		m->learnt_from = other.site.info.name[0] != '\0'
			? other.site.info.name
			: "the other book";
	}
	return ERR_NONE;
}
