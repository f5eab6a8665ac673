/* takeoff_ask.h - the options that takeoff and plan share. */
#ifndef CLI_TAKEOFF_ASK_H
#define CLI_TAKEOFF_ASK_H

#include "cli/command.h"
#include "work/takeoff.h"

/* read_takeoff_ask(in, ask, err): --part, --mix, --waste, --batch, --mesh...;
 * ERR_INPUT names the option. */
enum err_code read_takeoff_ask(const struct invocation *in,
	struct work_takeoff_ask *ask, struct err *err) MUST_CHECK;

#endif /* CLI_TAKEOFF_ASK_H */
