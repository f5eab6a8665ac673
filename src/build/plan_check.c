/* plan_check.c - the rules of a plan, one by one. */
#include "build/plan_check.h"

/* The maturity gathered by the morning (8:00 is 20 hours after noon, and then
 * 24 hours a day) of day `morning` by what was poured at noon of day `poured`. */
static double
maturity(const struct build_job *job, size_t poured, size_t morning)
{
	const double datum_degc = -10;
	double sum = 0;

	for (size_t d = poured; d < morning; d++) {
		double above = job->day[d].degc - datum_degc;
		double hours = d == poured ? 20 : 24;

		if (above > 0)
			sum += above * hours;
	}
	return sum;
}

static enum err_code
check_pouring(
	const struct build_job *job, size_t lift, size_t day, struct err *err)
{
	const char *name = job->lift[lift].name;

	if (day >= job->n_day)
		return err_report(err, ERR_ANSWER_NO, "days",
			"Rule 1: %s is poured on no day of the calendar.",
			name);
	if (day < job->lift[lift].earliest)
		return err_report(err, ERR_ANSWER_NO, "days",
			"Rule 1: %s is poured on day %zu, before its earliest.",
			name, day);
	if (job->day[day].off || job->day[day].cold)
		return err_report(err, ERR_ANSWER_NO, "days",
			"Rule 1: %s is poured on day %zu, when nobody pours.",
			name, day);
	return ERR_NONE;
}

static enum err_code
check_waits(const struct build_job *job, const size_t *day, struct err *err)
{
	for (size_t i = 0; i < job->n_wait; i++) {
		const struct build_wait *w = &job->wait[i];

		if (day[w->after] < day[w->before] + w->n_day)
			return err_report(err, ERR_ANSWER_NO, "order",
				"Rule 2: %s is poured on day %zu, less than "
				"%zu after %s.",
				job->lift[w->after].name, day[w->after],
				w->n_day, job->lift[w->before].name);
	}
	return ERR_NONE;
}

static enum err_code
check_work(const struct build_job *job, const size_t *day, size_t d,
	struct err *err)
{
	int64_t n_batch = 0, crew_min = 0;

	for (size_t i = 0; i < job->n_lift; i++) {
		if (day[i] != d)
			continue;
		n_batch += job->lift[i].n_batch;
		crew_min += job->lift[i].crew_min;
	}
	if (n_batch > job->day[d].n_batch && n_batch > 0)
		return err_report(err, ERR_ANSWER_NO, "mixer",
			"Rule 3: day %zu has %lld batches, more than the mixer "
			"makes.",
			d, (long long)n_batch);
	if (crew_min > job->day[d].crew_min && crew_min > 0)
		return err_report(err, ERR_ANSWER_NO, "crew",
			"Rule 3: day %zu has %lld minutes of work, more than "
			"the crew has.",
			d, (long long)crew_min);
	return ERR_NONE;
}

static enum err_code
check_forms(const struct build_job *job, const size_t *day,
	const size_t *strip_day, size_t d, struct err *err)
{
	size_t standing = 0;
	bool takes = false;

	for (size_t i = 0; i < job->n_lift; i++) {
		if (job->lift[i].n_set == 0 || day[i] > d || strip_day[i] <= d)
			continue;
		standing += job->lift[i].n_set;
		takes = true;
	}
	if (takes && standing > job->day[d].n_set)
		return err_report(err, ERR_ANSWER_NO, "forms",
			"Rule 4: %zu sets of forms stand on day %zu, more than "
			"there are.",
			standing, d);
	return ERR_NONE;
}

static bool
can_strip(const struct build_job *job, size_t lift, size_t poured, size_t d)
{
	/* summed in another order than the planner's: a hair of rounding */
	const double hair = 1e-9;

	return !job->day[d].off &&
		maturity(job, poured, d) >=
		job->lift[lift].strip_degc_h * (1 - hair);
}

static enum err_code
check_stripping(const struct build_job *job, size_t lift, size_t poured,
	size_t strip, struct err *err)
{
	const char *name = job->lift[lift].name;

	if (strip <= poured || strip > job->n_day)
		return err_report(err, ERR_ANSWER_NO, "forms",
			"Rule 5: %s is stripped on day %zu and poured on day "
			"%zu.",
			name, strip, poured);
	if (strip < job->n_day && !can_strip(job, lift, poured, strip))
		return err_report(err, ERR_ANSWER_NO, "forms",
			"Rule 5: %s is stripped on day %zu: too young, or "
			"nobody works.",
			name, strip);
	for (size_t d = poured + 1; d < strip; d++)
		if (can_strip(job, lift, poured, d))
			return err_report(err, ERR_ANSWER_NO, "forms",
				"Rule 5: %s could be stripped on day %zu.",
				name, d);
	return ERR_NONE;
}

enum err_code
build_plan_check(const struct build_job *job, const size_t *day,
	const size_t *strip_day, struct err *err)
{
	for (size_t i = 0; i < job->n_lift; i++)
		TRY(check_pouring(job, i, day[i], err));
	TRY(check_waits(job, day, err));
	for (size_t i = 0; i < job->n_lift; i++)
		TRY(check_stripping(job, i, day[i], strip_day[i], err));
	for (size_t d = 0; d < job->n_day; d++) {
		TRY(check_work(job, day, d, err));
		TRY(check_forms(job, day, strip_day, d, err));
	}
	return ERR_NONE;
}
