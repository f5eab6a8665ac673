/* start.c - tames the libraries that would otherwise end the process. */
#include "core/start.h"

#include <gsl/gsl_errno.h>

void
core_start(void)
{
	(void)gsl_set_error_handler_off();
}
