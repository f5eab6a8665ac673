/* status.h - where the job stands, and what comes next. */
#ifndef WORK_STATUS_H
#define WORK_STATUS_H

#include "work/due.h"
#include "work/history.h"

struct work_status {
	struct work_due due; /* due.bench.site holds the whole book */
	struct work_entry last;
	size_t n_overdue, n_today, n_week; /* pieces to test; the next 7 days */
	size_t n_part, n_decided;          /* parts of the building */
	const char *next;    /* the command: "due", "choose" ...; never NULL */
	bool takes_more;     /* it takes more than the book */
	const char *because; /* a clause, such as "3 pieces are due" */
};

/* work_status(desk, arena, out, err): as of the present day. */
enum err_code work_status(const struct desk *desk, struct arena *arena,
	struct work_status *out, struct err *err) MUST_CHECK;

#endif /* WORK_STATUS_H */
