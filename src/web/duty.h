/* duty.h - what a part of the building must do, as the duty sheet says it. */
#ifndef WEB_DUTY_H
#define WEB_DUTY_H

#include "web/page.h"
#include "work/part.h"

/* duty_of_part(page, parts, at): what part number `at` is, its sizes and what it
 * bears, in a sentence or two. */
void duty_of_part(struct page *page, const struct work_parts *parts, size_t at);

#endif /* WEB_DUTY_H */
