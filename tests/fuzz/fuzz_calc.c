/* fuzz_calc.c - libFuzzer at the questions of every calculation. */
#include "feed.h"

#include "core/start.h"

int LLVMFuzzerInitialize(int *argc, char ***argv);
int LLVMFuzzerTestOneInput(const uint8_t *data, size_t n);

int
LLVMFuzzerInitialize(int *argc, char ***argv)
{
	(void)argc;
	(void)argv;
	core_start();
	return 0;
}

int
LLVMFuzzerTestOneInput(const uint8_t *data, size_t n)
{
	(void)feed(data, n);
	return 0;
}
