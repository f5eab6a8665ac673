/* chart.c - what all pictures share. */
#include "web/chart.h"

#include <stdlib.h>

static const double least_px = 240, most_px = 2000;

const struct draw_size *
chart_size(const struct web_request *request)
{
	static const struct draw_size usual = {.width_px = 0};
	const char *width = web_query(request, "width");
	struct draw_size *size = arena_take(request->arena, 1, sizeof *size);

	if (size == NULL)
		return &usual;
	*size = usual;
	if (width != NULL) {
		double px = strtod(width, NULL);

		if (px >= least_px && px <= most_px)
			size->width_px = px;
	}
	return size;
}

enum err_code
chart_answer(const struct web_request *request, struct web_reply *reply,
	enum err_code code)
{
	(void)request;
	reply->type = "image/svg+xml; charset=utf-8";
	return code;
}
