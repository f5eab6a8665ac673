/* bounds.h - what is asked of a part, read from options and shown. */
#ifndef CLI_BOUNDS_H
#define CLI_BOUNDS_H

#include "cli/command.h"
#include "work/usual.h"

/* read_bounds(in, bound, n, err): every --least and --most, WORK_USUAL_BOUNDS
 * at most; read_drops: every --drop.  ERR_INPUT names the option */
enum err_code read_bounds(const struct invocation *in,
	struct work_bound bound[WORK_USUAL_BOUNDS], size_t *n,
	struct err *err) MUST_CHECK;
enum err_code read_drops(const struct invocation *in,
	const char *drop[WORK_USUAL_BOUNDS], size_t *n,
	struct err *err) MUST_CHECK;

/* bound_shown(in, measure, is_least, value): "dry weight at most 700 kg/m3"; the
 * value in SI, cost in cents a m3, shown in `currency`. */
const char *bound_shown(const struct invocation *in, const char *measure,
	bool is_least, double value, const char *currency);

#endif /* CLI_BOUNDS_H */
