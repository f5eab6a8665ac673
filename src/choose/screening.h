/* screening.h - what every answer about a building carries.
 *
 * Pure. */
#ifndef CHOOSE_SCREENING_H
#define CHOOSE_SCREENING_H

static const char choose_screening_only[] =
	"This screens only: it is not a design. The local code and a licensed "
	"engineer decide what is built.";

#endif /* CHOOSE_SCREENING_H */
