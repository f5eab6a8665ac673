/* screen.h - parts of the building screened by mechanics, with the strength of
 * the next batch as it is known: a chance, never a bare yes.
 *
 * Method, formulas and sources: docs/methods/screening.md. */
#ifndef WORK_SCREEN_H
#define WORK_SCREEN_H

#include "work/choose.h"
#include "work/part.h"

/* Water per dry mass in a part as it stands, where the part does not say;
 * common practice, no source. */
static const double work_usual_moisture = 0.10;

/* One check of one part.  Utilisation: safety factor times stress over
 * strength; over 1 does not do. */
struct work_screened_line {
	const char *name, *formula, *source;
	const char *asks; /* what is missing and how it is given; "": nothing */
	bool is_exact;    /* rests on sizes alone: one utilisation */
	double p_holds;   /* chance that utilisation is at most 1 */
	double median, low, high; /* utilisation and its 90 % interval */
	const char *note;
};

struct work_screened_part {
	size_t part, mix;    /* indices into site */
	const char *why_mix; /* "asked for", "decided", "likeliest" */
	const struct work_screened_line *line;
	size_t n_line;
	size_t n_batch; /* behind the least founded strength */
	double safety, moisture_ratio;
	bool has_pressure; /* of a lift on its forms */
	double pressure_pa;
	const char *pressure_asks; /* what it needs; "": nothing */
};

struct work_screened {
	struct work_chosen chosen; /* compared in it; parts only where asked */
	struct work_parts parts;
	const struct work_screened_part *part;
	size_t n_part;
};

/* NULL: every part; the mix that was decided for it, or the likeliest. */
struct work_screen_ask {
	const char *part, *mix;
};

/* work_part_mix(desk, arena, parts, chosen, part, asked, mix, why, err): which
 * mix a part has: the one asked for, the one decided, the likeliest of choose;
 * chosen->compared must be filled, chosen->part may be.
 * ERR_NOT_FOUND no such mix; ERR_INPUT none of the three is there */
enum err_code work_part_mix(const struct desk *desk, struct arena *arena,
	const struct work_chosen *chosen, size_t part, const char *asked,
	size_t *mix, const char **why, struct err *err) MUST_CHECK;

/* work_screen(desk, arena, ask, out, err):
 * ERR_NOT_FOUND no such part or mix; ERR_INPUT the mix has no results, or what
 * work_compare and work_choose report */
enum err_code work_screen(const struct desk *desk, struct arena *arena,
	const struct work_screen_ask *ask, struct work_screened *out,
	struct err *err) MUST_CHECK;

#endif /* WORK_SCREEN_H */
