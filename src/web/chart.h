/* chart.h - pictures at addresses of their own. */
#ifndef WEB_CHART_H
#define WEB_CHART_H

#include "draw/types.h"
#include "web/request.h"

/* chart_size(request): by ?width= (240 to 2000 pixels), light and dark as the
 * reader's screen. */
const struct draw_size *chart_size(const struct web_request *request);

/* chart_answer(request, reply, code): the reply that holds an SVG; gives the
 * code of drawing on. */
enum err_code chart_answer(const struct web_request *request,
	struct web_reply *reply, enum err_code code) MUST_CHECK;

#endif /* WEB_CHART_H */
