/* trace.c - bench: FILE read as a trace, and its peak printed. */
#include "must.h"

#include "lab/trace.h"
#include "lab/trace_load.h"

#include <stdio.h>

enum { PIECE = 1 << 16, ARENA = 1 << 20 };

int
main(int n, char **word)
{
	static char piece[PIECE];
	const struct lab_trace_ask ask = {.kind = LAB_TRACE_LOAD};
	struct lab_load_peak peak = {.n = 0};
	struct err err = {.code = ERR_NONE};
	struct arena *arena = arena_new(ARENA);
	FILE *file = n == 2 ? fopen(word[1], "rb") : NULL;
	struct lab_trace *trace;
	enum err_code code;
	size_t got;

	if (file == NULL || arena == NULL)
		return 2;
	code = lab_trace_open(
		arena, &ask, lab_load_peak_row, &peak, &trace, &err);
	while (code == ERR_NONE &&
		(got = fread(piece, 1, sizeof piece, file)) > 0)
		code = lab_trace_feed(trace, piece, got, &err);
	if (code == ERR_NONE)
		code = lab_trace_end(trace, &err);
	(void)fclose(file);
	must(code, &err);
	(void)printf("%zu rows, peak %.17g N\n", peak.n, peak.peak_N);
	arena_free(arena);
	return 0;
}
