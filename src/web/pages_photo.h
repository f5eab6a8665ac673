/* pages_photo.h - photos on the page of their batch. */
#ifndef WEB_PAGES_PHOTO_H
#define WEB_PAGES_PHOTO_H

#include "web/page.h"

/* photo_form(form, request, batch): the form that adds some. */
void photo_form(struct form *form, const struct web_request *request,
	const char *batch);

/* photo_blocks(page, batch, err): those there are, small.  ERR_NOT_FOUND no
 * such batch. */
enum err_code photo_blocks(
	struct page *page, const char *batch, struct err *err) MUST_CHECK;

#endif /* WEB_PAGES_PHOTO_H */
