/* compare_screen.h - a comparison as a page of text or as a JSON document. */
#ifndef CLI_COMPARE_SCREEN_H
#define CLI_COMPARE_SCREEN_H

#include "cli/command.h"
#include "work/compare.h"

/* What of it is printed. */
struct compare_view {
	bool all;    /* every measure in full, every mix in every list */
	bool detail; /* tables of the other assumptions and left-out batches */
	bool method; /* how it was worked out */
};

void compare_print_text(const struct invocation *in,
	const struct work_compared *all, const struct compare_view *view);

/* compare_text_detail.c: the parts that stand behind a flag. */
void compare_print_assumptions(const struct invocation *in,
	const struct work_compared *all, const struct work_comparison *c);
void compare_print_left_out(const struct invocation *in,
	const struct work_compared *all, const struct work_comparison *c);
void compare_print_classical(const struct invocation *in,
	const struct work_compared *all, const struct work_comparison *c);
void compare_print_method(
	const struct invocation *in, const struct work_compared *all);

/* ERR_NUMERIC  the comparison has no finite answer */
enum err_code compare_print_json(const struct invocation *in,
	const struct work_compared *all, struct err *err) MUST_CHECK;

#endif /* CLI_COMPARE_SCREEN_H */
