/* main.c - the program's entry. */
#include "core/start.h"

int
main(void)
{
	core_start();
	return 0;
}
