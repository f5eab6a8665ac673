/* manual.h - the manual page, made of the same table as the help. */
#ifndef CLI_MANUAL_H
#define CLI_MANUAL_H

#include "cli/command.h"

#include <stdio.h>

/* manual_print(command, n, to): foamwright.1, in mdoc. */
void manual_print(const struct command *const *command, size_t n, FILE *to);

#endif /* CLI_MANUAL_H */
