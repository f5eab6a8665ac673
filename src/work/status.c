/* status.c - counts what waits, and names the first step that is open. */
#include "work/status.h"

#include "work/decide.h"

enum { WEEK_DAYS = 7 };

static void
count_due(struct work_status *s)
{
	for (size_t i = 0; i < s->due.n; i++) {
		int days = s->due.row[i].days;

		s->n_overdue += days < 0;
		s->n_today += days == 0;
		s->n_week += days > 0 && days <= WEEK_DAYS;
	}
}

/* In the order of the job: the first that is not done yet. */
static void
find_next(struct work_status *s)
{
	const struct work_site *site = &s->due.bench.site;
	const struct {
		bool open, takes_more;
		const char *next, *because;
	} step[] = {
		{s->n_overdue + s->n_today > 0, false, "due",
			"there are pieces to test today"},
		{site->n_material == 0, true, "material",
			"no material is in the book yet"},
		{site->n_mix == 0, true, "mix", "no mix is in the book yet"},
		{site->n_trial == 0, true, "trial", "no trial is planned yet"},
		{site->n_batch == 0, true, "batch", "no batch is made yet"},
		{site->n_specimen == 0, true, "pieces",
			"no test piece is registered yet"},
		{site->n_reading == 0 && s->due.n > 0, false, "due",
			"pieces wait for their age"},
		{site->n_reading == 0, true, "import",
			"no test piece has a reading yet"},
		{s->n_part == 0, true, "part",
			"no part of the building is entered yet"},
		{s->n_decided < s->n_part, false, "choose",
			"not every part has its mix yet"},
		{true, true, "plan", "every part has its mix"},
	};
	size_t k = 0;

	while (!step[k].open)
		k++;
	s->next = step[k].next;
	s->takes_more = step[k].takes_more;
	s->because = step[k].because;
}

enum err_code
work_status(const struct desk *desk, struct arena *arena,
	struct work_status *out, struct err *err)
{
	struct work_status got = {.n_part = 0};
	const struct work_decision *decision = NULL;
	struct work_history history = {0};

	TRY(work_due(desk, arena, NULL, &got.due, err));
	TRY(work_history(desk, arena, 0, 1, &history, err));
	TRY(work_decisions(desk, arena, &decision, &got.n_decided, err));
	got.last = history.entry[0]; /* a book has one from the first */
	got.n_part = got.due.bench.site.n_part;
	count_due(&got);
	find_next(&got);
	*out = got;
	return ERR_NONE;
}
