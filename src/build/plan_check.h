/* plan_check.h - does a plan keep every rule?  Written from the rules, not from
 * the planner, and shares no code with it.
 *
 * The rules, for each lift and each day:
 *  1 a lift is poured once, on a day of the calendar, not before its earliest,
 *    when people work and it is not too cold;
 *  2 a lift that waits for another is poured so many days after it or later;
 *  3 the batches poured in a day are no more than the mixer makes, and the
 *    minutes of work no more than the crew has;
 *  4 a lift stands in its forms from the day it is poured until the day they
 *    are stripped; on no day stand more sets than there are on hand;
 *  5 forms are stripped on a working day after the pouring, not before the
 *    maturity is reached, and on the first such day. */
#ifndef BUILD_PLAN_CHECK_H
#define BUILD_PLAN_CHECK_H

#include "build/plan.h"

/* build_plan_check(job, day, strip_day, err): ERR_ANSWER_NO names the first rule
 * that is broken and where. */
enum err_code build_plan_check(const struct build_job *job, const size_t *day,
	const size_t *strip_day, struct err *err) MUST_CHECK;

#endif /* BUILD_PLAN_CHECK_H */
