/* choose_screen.h - between the files of the command choose. */
#ifndef CLI_CHOOSE_SCREEN_H
#define CLI_CHOOSE_SCREEN_H

#include "cli/command.h"
#include "work/choose.h"

/* read_choose_ask(in, ask, err): --part, --thickness, --price, --weigh;
 * ERR_INPUT names the option. */
enum err_code read_choose_ask(const struct invocation *in,
	struct work_choose_ask *ask, struct err *err) MUST_CHECK;

/* read_weights(in, is_set, weight, err): --weigh, more than once. */
enum err_code read_weights(const struct invocation *in,
	bool is_set[WORK_CRITERIA], double weight[WORK_CRITERIA],
	struct err *err) MUST_CHECK;

/* print_weighed: the trade-offs of all->part[part]; print_one_for_all: one mix
 * against several.  Both with weights only.  print_meshed: with mesh only. */
void print_weighed(const struct invocation *in, const struct work_chosen *all,
	size_t part, bool show_work);
void print_meshed(const struct invocation *in, const struct work_chosen *all,
	const struct work_part_choice *p, bool show_work);
void print_one_for_all(
	const struct invocation *in, const struct work_chosen *all);

/* The same as JSON members of the open object. */
void json_weighed(
	struct jsonout *json, const struct work_chosen *all, size_t part);
void json_meshed(struct jsonout *json, const struct work_candidate *c);
void json_one_for_all(struct jsonout *json, const struct work_chosen *all);

#endif /* CLI_CHOOSE_SCREEN_H */
