/* told.h - what a reading comes to, printed. */
#ifndef CLI_TOLD_H
#define CLI_TOLD_H

#include "cli/command.h"

#include "work/home_test.h"

/* told_print(in, told, err): the piece, its mix and age, and the sentences; as a
 * document with --json. */
enum err_code told_print(const struct invocation *in,
	const struct work_test_told *told, struct err *err) MUST_CHECK;

#endif /* CLI_TOLD_H */
