/* show.c - reads the book and reduces its readings. */
#include "work/show.h"

enum err_code
work_show(const struct desk *desk, struct arena *arena, struct work_shown *out,
	struct err *err)
{
	struct work_shown got = {0};

	TRY(work_site_read(desk->book, arena, &got.site, err));
	TRY(work_results(arena, &got.site, &got.results, err));
	*out = got;
	return ERR_NONE;
}
