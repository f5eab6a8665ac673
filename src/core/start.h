/* start.h - what must be true of the process before anything is computed. */
#ifndef CORE_START_H
#define CORE_START_H

/* core_start(): switches off GSL's handler that would abort the program.
 * Called once, first thing in main (the program's and each test's). */
void core_start(void);

#endif /* CORE_START_H */
