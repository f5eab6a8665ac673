/* plan.c - pour plans of invented buildings: bound, gap and seconds.
 *
 * plan N_PART N_LIFT N_SET SECONDS FIRST_SEED N_CASE */
#include "must.h"
#include "timing.h"

#include "build/plan.h"
#include "build/plan_check.h"
#include "core/rng.h"

#include <gsl/gsl_rng.h>

struct clock_data {
	double until;
};

static double
seconds_left(void *data, const struct build_progress *progress)
{
	const struct clock_data *c = data;

	(void)progress;
	return c->until - timing_now();
}

/* Parts of two to many lifts of their own size; five working days a week, one
 * cold day in twenty, weather between 8 and 20 C. */
static enum err_code
invent(struct arena *arena, gsl_rng *rng, size_t n_part, size_t n_lift,
	size_t n_set, struct build_job *job, struct err *err)
{
	enum { DAYS = 700 };
	struct build_lift *lift = arena_take(arena, n_lift, sizeof *lift);
	struct build_wait *wait = arena_take(arena, n_lift, sizeof *wait);
	struct build_day *day = arena_take(arena, DAYS, sizeof *day);
	size_t n_wait = 0, part = 0;
	int64_t n_batch = 8;

	if (lift == NULL || wait == NULL || day == NULL)
		return err_memory(err);
	for (size_t i = 0; i < n_lift; i++) {
		bool starts = i * n_part / n_lift != part || i == 0;

		part = i * n_part / n_lift;
		if (starts)
			n_batch = 6 + (int64_t)gsl_rng_uniform_int(rng, 13);
		lift[i] = (struct build_lift){.name = "lift",
			.part = part,
			.n_batch = n_batch,
			.crew_min = 120 + 12 * n_batch,
			.n_set = 1,
			.strip_degc_h = 30 * 36};
		if (!starts)
			wait[n_wait++] = (struct build_wait){
				i - 1, i, 1 + gsl_rng_uniform_int(rng, 2)};
	}
	for (size_t d = 0; d < DAYS; d++)
		day[d] = (struct build_day){.off = d % 7 >= 5,
			.cold = gsl_rng_uniform(rng) < 0.05,
			.n_batch = 25,
			.crew_min = 3 * 8 * 60,
			.n_set = n_set,
			.degc = 8 + 12 * gsl_rng_uniform(rng)};
	*job = (struct build_job){lift, n_lift, wait, n_wait, day, DAYS};
	return ERR_NONE;
}

int
main(int argc, char **argv)
{
	static const char *const proof[] = {
		"proven", "last day proven", "not proven"};
	struct arena *arena = arena_new((size_t)1 << 30);
	struct err err = {.code = ERR_NONE};
	size_t n[6];

	if (argc != 7 || arena == NULL)
		return 2;
	for (int i = 0; i < 6; i++)
		n[i] = strtoul(argv[i + 1], NULL, 10);
	for (size_t i = 0; i < n[5]; i++) {
		gsl_rng *rng = rng_new(n[4] + i, 0);
		double start = timing_now();
		struct clock_data clock = {start + (double)n[3]};
		const struct build_watch watch = {seconds_left, &clock};
		struct build_job job;
		struct build_plan plan;

		if (rng == NULL)
			must(err_memory(&err), &err);
		must(invent(arena, rng, n[0], n[1], n[2], &job, &err), &err);
		must(build_plan(arena, &job, 1, &watch, &plan, &err), &err);
		must(build_plan_check(&job, plan.day, plan.strip_day, &err),
			&err);
		gsl_rng_free(rng);
		(void)printf("%zu parts, %zu lifts, %zu sets: last day %zu, "
			     "bound %zu (%s), gap %.1f %%, sum %lld, bound "
			     "%lld, %s, %zu nodes, %.2f s\n",
			n[0], n[1], n[2], plan.last_day + 1,
			plan.last_day_bound + 1, plan.bound_from,
			100 * (double)(plan.last_day - plan.last_day_bound) /
				(double)(plan.last_day_bound + 1),
			(long long)plan.day_sum, (long long)plan.day_sum_bound,
			proof[plan.proof], plan.n_node, timing_now() - start);
	}
	arena_free(arena);
	return 0;
}
