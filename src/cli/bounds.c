/* bounds.c - --least, --most and --drop; a requirement in words. */
#include "cli/bounds.h"

#include "cli/fields.h"
#include "cli/figure.h"

static enum err_code
read_side(const struct invocation *in, const char *option, bool is_least,
	struct work_bound bound[WORK_USUAL_BOUNDS], size_t *n, struct err *err)
{
	const char *text;
	size_t at = 0;

	while ((text = invocation_next(in, option, &at)) != NULL) {
		if (*n == WORK_USUAL_BOUNDS)
			return err_report(err, ERR_INPUT, option,
				"At most %d bounds are taken at once.",
				(int)WORK_USUAL_BOUNDS);
		bound[*n].is_least = is_least;
		TRY(field_pair(in, option, text, &bound[*n].measure,
			&bound[*n].value, err));
		++*n;
	}
	return ERR_NONE;
}

enum err_code
read_bounds(const struct invocation *in,
	struct work_bound bound[WORK_USUAL_BOUNDS], size_t *n, struct err *err)
{
	TRY(read_side(in, "--least", true, bound, n, err));
	return read_side(in, "--most", false, bound, n, err);
}

enum err_code
read_drops(const struct invocation *in, const char *drop[WORK_USUAL_BOUNDS],
	size_t *n, struct err *err)
{
	const char *text;
	size_t at = 0;

	while ((text = invocation_next(in, "--drop", &at)) != NULL) {
		if (*n == WORK_USUAL_BOUNDS)
			return err_report(err, ERR_INPUT, "--drop",
				"At most %d measures are dropped at once.",
				(int)WORK_USUAL_BOUNDS);
		drop[(*n)++] = text;
	}
	return ERR_NONE;
}

const char *
bound_shown(const struct invocation *in, const char *measure, bool is_least,
	double value, const char *currency)
{
	const char *bound = is_least ? "least" : "most";
	enum choose_measure m;

	if (!choose_measure_find(measure, &m))
		return measure;
	if (m == CHOOSE_COST)
		return text_format(in->arena, "%s at %s %.2f %s a m3",
			choose_measure_name(m), bound, value / 100, currency);
	return text_format(in->arena, "%s at %s %s %s", choose_measure_name(m),
		bound, figure_bare(in->arena, m, value),
		choose_measure_unit(m));
}
