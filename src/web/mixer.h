/* mixer.h - what the pages at the mixer share. */
#ifndef WEB_MIXER_H
#define WEB_MIXER_H

#include "web/request.h"
#include "work/mixer.h"

/* mixer_is_made(m, code): a batch of that name is in the book. */
bool mixer_is_made(const struct work_mixer *m, const char *code);

/* mixer_moment(request): now, as the record writes it; NULL if memory ran out. */
const char *mixer_moment(const struct web_request *request);

#endif /* WEB_MIXER_H */
