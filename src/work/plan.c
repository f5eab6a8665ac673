/* plan.c - lifts, calendar and deliveries out of the book and the words. */
#include "work/plan.h"

#include "work/part.h"

#include "build/ics.h"
#include "build/plan_check.h"
#include "build/purchase.h"
#include "build/witness.h"
#include "core/date.h"

#include <math.h>
#include <string.h>
#include <time.h>

enum { DAY_S = 86400, DAYS_USUAL = 400, WEEK = 7 };

/* A lift before it is known when. */
struct open_lift {
	size_t part; /* of the take-off */
	const char *name;
	struct build_cut_lift cut;
	bool poured;
	int64_t poured_day;
	size_t nth; /* its first batch within the part */
};

struct planning {
	const struct desk *desk;
	struct arena *arena;
	const struct work_plan_ask *ask;
	struct work_plan got;
	struct open_lift *lift;
	size_t n_lift;
	size_t *todo; /* n_todo: indices into lift, of the job */
	size_t n_todo;
	int64_t base_day; /* of day[0]; days before from_day are there, too */
	struct build_day *day;
	size_t n_day, n_before;
	struct build_job job;
	double until_s; /* of the monotonic clock */
};

static double
value_or(struct maybe asked, double usual)
{
	return asked.has ? asked.value : usual;
}

static enum err_code
read_day(const char *option, const char *text, int64_t *day, struct err *err)
{
	int64_t utc_s;
	struct err inner = {.tongue = err->tongue};

	if (date_read(text, 0, &utc_s, &inner) != ERR_NONE)
		return err_report(err, ERR_INPUT, option, "%s \"%.40s\": %s",
			option, text, inner.text);
	*day = utc_s / DAY_S;
	return ERR_NONE;
}

/* ---- what it is reckoned with ---- */

static enum err_code
set_usual(struct planning *p, struct err *err)
{
	const struct work_plan_ask *a = p->ask;
	struct work_plan *g = &p->got;
	const double hour_s = 3600, minute_s = 60;

	/* common practice, no source; each has its option */
	g->crew = (int64_t)value_or(a->crew, 3);
	g->hours_h = value_or(a->hours_s, 8 * hour_s) / hour_s;
	g->cycle_min = value_or(a->cycle_s, 19 * minute_s) / minute_s;
	g->setup_h = value_or(a->setup_s, 4 * hour_s) / hour_s;
	g->gap_h = value_or(a->gap_s, 16 * hour_s) / hour_s;
	g->strip_h = value_or(a->strip_s, 36 * hour_s) / hour_s;
	g->rest_h = value_or(a->rest_s, 72 * hour_s) / hour_s;
	g->n_set = (size_t)value_or(a->forms, 2);
	g->every = (size_t)value_or(a->witness, 10);
	g->seed = a->seed.has ? (uint64_t)a->seed.value : p->desk->seed;
	g->cover_days = (size_t)ceil(
		value_or(a->cover_s, 28.0 * DAY_S) / DAY_S);
	if (g->crew < 1 || !(g->hours_h > 0) || g->hours_h > 24 ||
		!(g->cycle_min > 0) || g->cover_days < 1)
		return err_report(err, ERR_INPUT, "crew",
			"A crew of %lld for %.3g hours a day and %.3g minutes "
			"a batch: each must be more than 0, and a day has 24 "
			"hours.",
			(long long)g->crew, g->hours_h, g->cycle_min);
	g->crew_min = (int64_t)(g->hours_h * 60 * (double)g->crew);
	g->day_batch = (int64_t)value_or(
		a->per_day, floor(g->hours_h * 60 / g->cycle_min));
	if (g->day_batch < 1)
		return err_report(err, ERR_INPUT, "mixer",
			"The mixer makes no batch in a day of %.3g hours; give "
			"--hours, --cycle or --per-day.",
			g->hours_h);
	/* from the end of one working day to the start of another */
	g->gap_days = (size_t)ceil((g->gap_h + g->hours_h) / 24);
	g->rest_days = (size_t)ceil((g->rest_h + g->hours_h) / 24);
	return read_day("--from", a->from, &g->from_day, err);
}

/* ---- the lifts ---- */

static bool
find_poured(const struct work_mixer *m, int64_t part_id, size_t number,
	int64_t *day)
{
	bool found = false;

	for (size_t i = 0; i < m->n_placing; i++) {
		const struct book_placing *at = &m->placing[i];
		int64_t utc_s;

		if (at->part_id != part_id || at->lift != (int64_t)number ||
			strcmp(at->verdict, "reject") == 0)
			continue;
		for (size_t b = 0; b < m->site.n_batch; b++)
			if (m->site.batch[b].row.id == at->batch_id &&
				date_read(m->site.batch[b].made_on, 0, &utc_s,
					NULL) == ERR_NONE &&
				(!found || utc_s / DAY_S > *day)) {
				found = true;
				*day = utc_s / DAY_S;
			}
	}
	return found;
}

/* What mixer and crew can pour in a day beside the setting up of one lift. */
static int64_t
pourable_batches(const struct planning *p)
{
	double left_min = (double)p->got.crew_min - p->got.setup_h * 60;
	double of_crew = floor(
		left_min / (p->got.cycle_min * (double)p->got.crew));

	return (int64_t)fmax(1, fmin((double)p->got.day_batch, of_crew));
}

static enum err_code
cut_part(struct planning *p, size_t k, struct err *err)
{
	const struct work_part_taken *w = &p->got.takeoff.part[k];
	const struct work_mixer *m = &p->got.takeoff.m;
	const struct book_part *part = &m->site.part[w->part];
	struct build_cut cut = {.lift_m = value_or(p->ask->lift_m,
					build_lift_usual_m(w->wet_kg_m3)),
		.stretch_m = value_or(p->ask->stretch_m, 0),
		.mixed_m3 = w->taken.mixed_m3,
		.batch_m3 = w->sizes.batch_m3.value,
		.day_batch = pourable_batches(p),
		.wet_kg_m3 = w->wet_kg_m3};
	const struct build_cut_lift *lift;
	size_t n, nth = 0;

	if (!w->sizes.batch_m3.has)
		return err_report(err, ERR_INPUT, "batch",
			"The size of a batch for part %s is not known; "
			"--batch gives it.",
			part->code);
	TRY(build_lifts(p->arena, &w->sizes, strcmp(part->kind, "wall") == 0,
		&cut, &lift, &n, err));
	for (size_t i = 0; i < n; i++) {
		struct open_lift *to = &p->lift[p->n_lift];

		if (p->n_lift == BUILD_LIFTS_MOST)
			return err_report(err, ERR_INPUT, "lifts",
				"All parts together have more than %d lifts. "
				"Plan fewer parts at a time.",
				(int)BUILD_LIFTS_MOST);
		*to = (struct open_lift){.part = k, .cut = lift[i], .nth = nth};
		to->name = text_format(
			p->arena, "%s lift %zu", part->code, lift[i].number);
		if (to->name == NULL)
			return err_memory(err);
		to->poured = find_poured(
			m, part->row.id, lift[i].number, &to->poured_day);
		p->got.n_poured += to->poured;
		nth += (size_t)lift[i].n_batch;
		p->n_lift++;
	}
	return ERR_NONE;
}

static void
count_holds(struct planning *p, size_t k)
{
	const struct work_mixer *m = &p->got.takeoff.m;
	int64_t part_id = m->site.part[p->got.takeoff.part[k].part].row.id;

	for (size_t i = 0; i < m->n_placing; i++)
		p->got.n_hold += m->placing[i].part_id == part_id &&
			strcmp(m->placing[i].verdict, "hold") == 0;
}

static enum err_code
cut_parts(struct planning *p, struct err *err)
{
	p->lift = arena_take(p->arena, BUILD_LIFTS_MOST, sizeof *p->lift);
	p->todo = arena_take(p->arena, BUILD_LIFTS_MOST, sizeof *p->todo);
	if (p->lift == NULL || p->todo == NULL)
		return err_memory(err);
	for (size_t k = 0; k < p->got.takeoff.n_part; k++) {
		TRY(cut_part(p, k, err));
		count_holds(p, k);
	}
	p->base_day = p->got.from_day;
	for (size_t i = 0; i < p->n_lift; i++) {
		if (!p->lift[i].poured)
			p->todo[p->n_todo++] = i;
		else if (p->lift[i].poured_day < p->base_day &&
			p->got.from_day - p->lift[i].poured_day < DAYS_USUAL)
			p->base_day = p->lift[i].poured_day;
	}
	if (p->n_todo == 0)
		return err_report(err, ERR_INPUT, "lifts",
			"All %zu lifts are poured; there is nothing to plan.",
			p->n_lift);
	return ERR_NONE;
}

/* ---- the calendar ---- */

static int
month_of(int64_t day)
{
	char iso[DATE_TEXT_MAX];

	date_write_day(day * DAY_S, 0, iso);
	return (iso[5] - '0') * 10 + iso[6] - '0';
}

static void
set_air(struct planning *p, int64_t day, struct build_day *to)
{
	const double usual_degc = 15, least_degc = 5;

	to->degc = usual_degc;
	for (size_t i = 0; i < p->ask->n_air; i++)
		if (p->ask->air_month[i] == 0)
			to->degc = p->ask->air_degc[i];
	for (size_t i = 0; i < p->ask->n_air; i++)
		if (p->ask->air_month[i] == month_of(day))
			to->degc = p->ask->air_degc[i];
	to->cold = to->degc < least_degc;
}

static enum err_code
add_off(struct planning *p, const char *word, struct err *err)
{
	static const char *const name[WEEK] = {
		"mon", "tue", "wed", "thu", "fri", "sat", "sun"};
	enum { FIRST_WEEKDAY = 3 }; /* 1970-01-01 was a Thursday */
	int64_t day;

	for (size_t w = 0; w < WEEK; w++) {
		if (strcmp(word, name[w]) != 0)
			continue;
		for (size_t d = 0; d < p->n_day; d++)
			if ((size_t)(p->base_day + (int64_t)d + FIRST_WEEKDAY) %
					WEEK ==
				w)
				p->day[d].off = true;
		return ERR_NONE;
	}
	TRY(read_day("--off", word, &day, err));
	if (day >= p->base_day && day < p->base_day + (int64_t)p->n_day)
		p->day[day - p->base_day].off = true;
	return ERR_NONE;
}

static enum err_code
make_calendar(struct planning *p, struct err *err)
{
	int64_t until = p->got.from_day + DAYS_USUAL - 1, day;

	if (p->ask->until != NULL)
		TRY(read_day("--until", p->ask->until, &until, err));
	if (until < p->got.from_day || until - p->base_day >= BUILD_DAYS_MOST)
		return err_report(err, ERR_INPUT, "--until",
			"The calendar must end on its first day or later, and "
			"within %d days.",
			(int)BUILD_DAYS_MOST);
	p->n_before = (size_t)(p->got.from_day - p->base_day);
	p->n_day = (size_t)(until - p->base_day) + 1;
	p->day = arena_take(p->arena, p->n_day, sizeof *p->day);
	if (p->day == NULL)
		return err_memory(err);
	for (size_t d = 0; d < p->n_day; d++) {
		p->day[d] = (struct build_day){.n_batch = p->got.day_batch,
			.crew_min = p->got.crew_min,
			.n_set = p->got.n_set};
		set_air(p, p->base_day + (int64_t)d, &p->day[d]);
	}
	for (size_t i = 0; i < p->ask->n_off; i++)
		TRY(add_off(p, p->ask->off[i], err));
	for (size_t i = 0; i < p->ask->n_cold; i++) {
		TRY(read_day("--cold", p->ask->cold[i], &day, err));
		if (day >= p->base_day && day < p->base_day + (int64_t)p->n_day)
			p->day[day - p->base_day].cold = true;
	}
	return ERR_NONE;
}

/* ---- the job ---- */

static const double degc_h_per_h = 30; /* of maturity, at 20 C */

/* The forms of what is poured stand until they can be stripped. */
static void
take_standing_forms(struct planning *p)
{
	for (size_t i = 0; i < p->n_lift; i++) {
		int64_t at = p->lift[i].poured_day - p->base_day;
		size_t strip;

		if (!p->lift[i].poured || at < 0 || at >= (int64_t)p->n_day)
			continue;
		strip = build_strip_day(p->day, p->n_day, (size_t)at,
			p->got.strip_h * degc_h_per_h);
		for (size_t d = p->n_before; d < strip; d++)
			p->day[d].n_set -= p->day[d].n_set > 0;
	}
}

static size_t
place_in_job(const struct planning *p, size_t lift)
{
	size_t k = 0;

	while (p->todo[k] != lift)
		k++;
	return k;
}

/* Lift `after` waits for lift `before`, poured or not. */
static void
add_wait(struct planning *p, struct build_lift *job_lift,
	struct build_wait *wait, size_t before, size_t after, size_t n_day)
{
	int64_t then;

	if (p->lift[after].poured)
		return;
	if (!p->lift[before].poured) {
		wait[p->job.n_wait++] = (struct build_wait){
			place_in_job(p, before), place_in_job(p, after), n_day};
		return;
	}
	then = p->lift[before].poured_day + (int64_t)n_day - p->got.from_day;
	if (then > (int64_t)job_lift[place_in_job(p, after)].earliest)
		job_lift[place_in_job(p, after)].earliest = (size_t)then;
}

static bool
is_part(const struct planning *p, size_t lift, const char *code)
{
	return strcmp(p->got.takeoff.part[p->lift[lift].part].sizes.code,
		       code) == 0;
}

/* Each stretch goes up lift by lift; a part waits for the top lifts of the
 * other. */
static void
add_waits(struct planning *p, struct build_lift *lift, struct build_wait *wait)
{
	for (size_t i = 0; i + 1 < p->n_lift; i++)
		if (p->lift[i].part == p->lift[i + 1].part &&
			p->lift[i].cut.stretch == p->lift[i + 1].cut.stretch)
			add_wait(p, lift, wait, i, i + 1, p->got.gap_days);
	for (size_t a = 0; a < p->ask->n_after; a++)
		for (size_t i = 0; i < p->n_lift; i++)
			for (size_t k = 0; k < p->n_lift; k++)
				if (is_part(p, i, p->ask->after[a].value) &&
					is_part(p, k, p->ask->after[a].name))
					add_wait(p, lift, wait, i, k,
						p->got.rest_days);
}

static enum err_code
make_job(struct planning *p, struct err *err)
{
	size_t n_wait_most = p->n_lift +
		p->ask->n_after * p->n_lift * p->n_lift;
	struct build_lift *lift = arena_take(p->arena, p->n_todo, sizeof *lift);
	struct build_wait *wait = arena_take(
		p->arena, n_wait_most, sizeof *wait);

	if (lift == NULL || wait == NULL)
		return err_memory(err);
	for (size_t i = 0; i < p->n_todo; i++) {
		const struct open_lift *from = &p->lift[p->todo[i]];

		lift[i] = (struct build_lift){.name = from->name,
			/* each stretch by itself */
			.part = from->part * BUILD_LIFTS_MOST +
				from->cut.stretch,
			.n_batch = from->cut.n_batch,
			.crew_min = (int64_t)(p->got.setup_h * 60 +
				(double)from->cut.n_batch * p->got.cycle_min *
					(double)p->got.crew),
			.n_set = from->cut.height_m > 0 ? 1 : 0,
			.strip_degc_h = p->got.strip_h * degc_h_per_h};
	}
	take_standing_forms(p);
	add_waits(p, lift, wait);
	p->job.lift = lift;
	p->job.n_lift = p->n_todo;
	p->job.wait = wait;
	p->job.day = p->day + p->n_before;
	p->job.n_day = p->n_day - p->n_before;
	return ERR_NONE;
}

/* ---- what comes of it ---- */

static double
now_s(void)
{
	struct timespec t;

	(void)clock_gettime(CLOCK_MONOTONIC, &t);
	return (double)t.tv_sec + (double)t.tv_nsec * 1e-9;
}

static double
seconds_left(void *data, const struct build_progress *progress)
{
	const struct planning *p = data;

	if (p->ask->tell != NULL)
		p->ask->tell(p->ask->tell_data, progress);
	return p->until_s - now_s();
}

static enum err_code
draw_witnesses(const struct planning *p, const struct open_lift *from,
	struct work_plan_lift *to, struct err *err)
{
	const char *part = p->got.takeoff.part[from->part].sizes.code;
	struct text text;

	text_init(&text, p->arena);
	for (size_t b = 0; b < (size_t)from->cut.n_batch; b++) {
		if (!build_is_witness(
			    p->got.seed, part, from->nth + b, p->got.every))
			continue;
		text_addf(&text, "%s%zu", to->n_witness > 0 ? ", " : "",
			to->first_batch + b);
		to->n_witness++;
	}
	to->witness = text.bytes != NULL ? text.bytes : "";
	return text_failed(&text) ? err_memory(err) : ERR_NONE;
}

static enum err_code
set_lifts(struct planning *p, struct err *err)
{
	const struct build_plan *plan = &p->got.plan;
	struct work_plan_lift *l = arena_take(p->arena, p->n_todo, sizeof *l);

	if (l == NULL)
		return err_memory(err);
	for (size_t d = 0; d < p->job.n_day; d++)
		for (size_t i = 0; i < p->n_todo; i++) {
			const struct open_lift *from = &p->lift[p->todo[i]];
			struct work_plan_lift *to = &l[p->got.n_lift];

			if (plan->day[i] != d)
				continue;
			*to = (struct work_plan_lift){.part = from->part,
				.name = from->name,
				.cut = from->cut,
				.day = p->got.from_day + (int64_t)d,
				.strip_day = plan->strip_day[i] < p->job.n_day
					? p->got.from_day +
						(int64_t)plan->strip_day[i]
					: 0,
				.first_batch = p->got.n_batch + 1};
			TRY(draw_witnesses(p, from, to, err));
			p->got.n_batch += (size_t)from->cut.n_batch;
			p->got.n_lift++;
		}
	p->got.lift = l;
	return ERR_NONE;
}

static void
needs_of(const struct planning *p, size_t material, struct build_need *need)
{
	for (size_t i = 0; i < p->got.n_lift; i++) {
		const struct work_plan_lift *l = &p->got.lift[i];
		const struct work_part_taken *w = &p->got.takeoff.part[l->part];

		need[i].day = (size_t)(l->day - p->got.from_day);
		need[i].kg = 0;
		for (size_t k = 0; k < w->taken.n_line; k++)
			if (w->material[k] == material)
				need[i].kg += w->taken.line[k].mass_kg *
					l->cut.volume_m3 / w->taken.mixed_m3;
	}
}

/* In the order of the days. */
static void
put_delivery(struct planning *p, struct work_delivery *all,
	const struct work_delivery *one)
{
	size_t k = p->got.n_delivery++;

	for (; k > 0 && all[k - 1].day > one->day; k--)
		all[k] = all[k - 1];
	all[k] = *one;
}

static enum err_code
plan_deliveries(struct planning *p, struct err *err)
{
	const struct work_site *s = &p->got.takeoff.m.site;
	struct work_delivery *all = arena_take(
		p->arena, p->got.n_lift * p->got.takeoff.n_bought, sizeof *all);
	struct build_need *need = arena_take(
		p->arena, p->got.n_lift, sizeof *need);

	if (all == NULL || need == NULL)
		return err_memory(err);
	for (size_t b = 0; b < p->got.takeoff.n_bought; b++) {
		size_t m = p->got.takeoff.bought[b].material, n;
		const struct build_delivery *d;

		if (strcmp(s->material[m].role, "water") == 0)
			continue;
		needs_of(p, m, need);
		TRY(build_deliveries(p->arena, need, p->got.n_lift,
			value_or(s->material[m].package_kg, 0),
			p->got.cover_days, &d, &n, err));
		for (size_t i = 0; i < n; i++)
			put_delivery(p, all,
				&(struct work_delivery){.day = p->got.from_day +
						(int64_t)d[i].day,
					.material = m,
					.n_package = d[i].n_package,
					.kg = d[i].kg,
					.has_package =
						s->material[m].package_kg.has});
	}
	p->got.delivery = all;
	return ERR_NONE;
}

enum err_code
work_plan(const struct desk *desk, struct arena *arena,
	const struct work_plan_ask *ask, struct work_plan *out, struct err *err)
{
	const double usual_s = 20;
	struct planning p = {.desk = desk, .arena = arena, .ask = ask};
	const struct build_watch watch = {seconds_left, &p};
	size_t at;

	p.until_s = now_s() + value_or(ask->seconds, usual_s);
	TRY(work_takeoff(desk, arena, &ask->takeoff, &p.got.takeoff, err));
	for (size_t i = 0; i < ask->n_after; i++) {
		TRY(work_find_part(
			&p.got.takeoff.m.site, ask->after[i].name, &at, err));
		TRY(work_find_part(
			&p.got.takeoff.m.site, ask->after[i].value, &at, err));
	}
	TRY(set_usual(&p, err));
	TRY(cut_parts(&p, err));
	TRY(make_calendar(&p, err));
	TRY(make_job(&p, err));
	TRY(build_plan(arena, &p.job, p.got.seed, &watch, &p.got.plan, err));
	TRY(build_plan_check(
		&p.job, p.got.plan.day, p.got.plan.strip_day, err));
	p.got.last_day = p.got.from_day + (int64_t)p.got.plan.last_day;
	p.got.bound_day = p.got.from_day + (int64_t)p.got.plan.last_day_bound;
	TRY(set_lifts(&p, err));
	TRY(plan_deliveries(&p, err));
	*out = p.got;
	return ERR_NONE;
}

/* ---- the calendar for others ---- */

const char *
work_plan_ics(
	struct arena *arena, const struct work_plan *plan, int64_t stamp_utc_s)
{
	const struct work_site *s = &plan->takeoff.m.site;
	struct text text;

	text_init(&text, arena);
	build_ics_start(&text, s->info.name);
	for (size_t i = 0; i < plan->n_lift; i++) {
		const struct work_plan_lift *l = &plan->lift[i];
		const char *part = plan->takeoff.part[l->part].sizes.code;
		struct build_event pour = {.day = l->day, .n_day = 1};
		struct build_event strip = {.day = l->strip_day, .n_day = 1};

		pour.uid = text_format(arena, "pour-%s-%zu@%s", part,
			l->cut.number, s->info.name);
		pour.summary = text_format(arena, "Pour %s: %lld batches",
			l->name, (long long)l->cut.n_batch);
		pour.description = text_format(arena,
			"Batches %zu to %zu of %.1f L; forms feel %.1f kPa "
			"until it sets. Witness pieces: %s.",
			l->first_batch,
			l->first_batch + (size_t)l->cut.n_batch - 1,
			1000 * l->cut.volume_m3 / (double)l->cut.n_batch,
			l->cut.pressure_Pa / 1000,
			l->n_witness > 0 ? l->witness : "none");
		strip.uid = text_format(arena, "strip-%s-%zu@%s", part,
			l->cut.number, s->info.name);
		strip.summary = text_format(arena, "Strip %s", l->name);
		strip.description = "";
		if (pour.uid == NULL || pour.summary == NULL ||
			pour.description == NULL || strip.uid == NULL ||
			strip.summary == NULL)
			return NULL;
		build_ics_event(&text, &pour, stamp_utc_s);
		if (l->strip_day > 0 && l->cut.height_m > 0)
			build_ics_event(&text, &strip, stamp_utc_s);
	}
	build_ics_end(&text);
	return text_failed(&text) ? NULL : text.bytes;
}
