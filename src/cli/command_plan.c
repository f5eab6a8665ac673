/* command_plan.c - on which day what is poured. */
#include "cli/fields.h"
#include "cli/table.h"
#include "cli/takeoff_ask.h"

#include "core/date.h"
#include "work/plan.h"
#include "work/shelf.h"

#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { DAY_S = 86400, WEEK = 7 };

#define AT(member) offsetof(struct work_plan_ask, member)
static const struct field fields[] = {
	{"--from", FIELD_DATE, UNIT_NUMBER, AT(from)},
	{"--until", FIELD_DATE, UNIT_NUMBER, AT(until)},
	{"--forms", FIELD_WHOLE, UNIT_NUMBER, AT(forms)},
	{"--per-day", FIELD_WHOLE, UNIT_NUMBER, AT(per_day)},
	{"--crew", FIELD_WHOLE, UNIT_NUMBER, AT(crew)},
	{"--witness", FIELD_WHOLE, UNIT_NUMBER, AT(witness)},
	{"--seed", FIELD_WHOLE, UNIT_NUMBER, AT(seed)},
	{"--hours", FIELD_MAYBE, UNIT_TIME, AT(hours_s)},
	{"--cycle", FIELD_MAYBE, UNIT_TIME, AT(cycle_s)},
	{"--setup", FIELD_MAYBE, UNIT_TIME, AT(setup_s)},
	{"--gap", FIELD_MAYBE, UNIT_TIME, AT(gap_s)},
	{"--strip", FIELD_MAYBE, UNIT_TIME, AT(strip_s)},
	{"--rest", FIELD_MAYBE, UNIT_TIME, AT(rest_s)},
	{"--cover", FIELD_MAYBE, UNIT_TIME, AT(cover_s)},
	{"--seconds", FIELD_WHOLE, UNIT_NUMBER, AT(seconds)},
	{"--lift", FIELD_MAYBE, UNIT_LENGTH, AT(lift_m)},
	{"--stretch", FIELD_MAYBE, UNIT_LENGTH, AT(stretch_m)},
};
#undef AT

static const struct command_option options[] = {
	{"--from", "DATE", "the first day; what is poured already is left out",
		false},
	{"--until", "DATE", "the last day there may be", false},
	{"--part", "PART", "this part alone; may be given again", true},
	{"--mix", "PART=MIX", "the mix of a part, before what is decided",
		true},
	{"--waste", "SHARE", "spilled and left over, if the part has none",
		false},
	{"--batch", "VOLUME", "of one batch, if the part has none", false},
	{"--after", "PART=PART", "the first waits for the second", true},
	{"--rest", "TIME", "and so long (72 h)", false},
	{"--forms", "N", "sets of forms on hand, one for a lift (2)", false},
	{"--lift", "LENGTH", "at most so high (by wet density)", false},
	{"--stretch", "LENGTH", "at most so long, then a joint", false},
	{"--gap", "TIME", "until the next lift on top (16 h)", false},
	{"--strip", "TIME", "to stripping, at 20 C (36 h)", false},
	{"--hours", "TIME", "of work in a day (8 h)", false},
	{"--crew", "N", "people (3)", false},
	{"--cycle", "TIME", "from batch to batch (19 min)", false},
	{"--per-day", "N", "batches in a day (hours / cycle)", false},
	{"--setup", "TIME", "work on the forms of a lift, all hands (4 h)",
		false},
	{"--off", "DAY", "nobody works: a date, or mon to sun", true},
	{"--cold", "DATE", "too cold to pour", true},
	{"--air", "T or MONTH=T",
		"mean of the day (15 C); no pouring under 5 C", true},
	{"--cover", "TIME", "what a delivery lasts for (28 days)", false},
	{"--witness", "N", "a piece from one batch in so many (10)", false},
	{"--seed", "N", "draws the witness list", false},
	{"--seconds", "N", "to search for at most (20)", false},
	{"--ics", "FILE", "a calendar file, RFC 5545; - is the screen", false},
	{"--show-work", NULL, "limits, bound, formulas", false}, {0}};

static const char *
day_text(struct arena *arena, int64_t day)
{
	static const char *const name[WEEK] = {
		"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};
	enum { FIRST_WEEKDAY = 3 };
	char iso[DATE_TEXT_MAX];

	date_write_day(day * DAY_S, 0, iso);
	return text_format(
		arena, "%s %s", name[(day + FIRST_WEEKDAY) % WEEK], iso);
}

static const char *
stretch_text(struct arena *arena, const struct build_cut_lift *cut)
{
	if (!cut->has_from)
		return "";
	return text_format(arena, "%.1f-%.1f m", cut->from_m, cut->to_m);
}

static void
print_pours(const struct invocation *in, const struct work_plan *p)
{
	static const char *const heading[] = {"pour on", "", "stretch",
		"batches", "each", "strip", "witness"};
	struct table table;

	table_start(&table, in->arena, heading, 7, 0x18);
	for (size_t i = 0; i < p->n_lift; i++) {
		const struct work_plan_lift *l = &p->lift[i];
		bool again = i > 0 && p->lift[i - 1].day == l->day;
		const char *strip = day_text(in->arena, l->strip_day);
		const char *cell[] = {again ? "" : day_text(in->arena, l->day),
			l->name, stretch_text(in->arena, &l->cut),
			text_format(in->arena, "%zu-%zu", l->first_batch,
				l->first_batch + (size_t)l->cut.n_batch - 1),
			text_format(in->arena, "%.0f L",
				1000 * l->cut.volume_m3 /
					(double)l->cut.n_batch),
			!(l->cut.height_m > 0) ? ""
				: l->strip_day == 0
				? "later"
				: text_format(in->arena, "%.3s %s", strip,
					  strip + 9),
			l->witness};

		table_row(&table, cell);
	}
	table_print(&table, stdout);
}

/* What the lifts of a part have in common. */
static void
print_part(const struct work_plan *p, size_t part)
{
	const struct work_part_taken *w = &p->takeoff.part[part];

	for (size_t i = 0; i < p->n_lift; i++) {
		const struct work_plan_lift *l = &p->lift[i];

		if (l->part != part)
			continue;
		(void)printf("%s: mix %s", w->sizes.code,
			p->takeoff.m.site.mix[w->mix].code);
		if (l->cut.height_m > 0)
			(void)printf(
				", %.0f mm high at a time, forms feel %.1f "
				"kPa",
				l->cut.height_m * 1000,
				l->cut.pressure_Pa / 1000);
		(void)puts("");
		return;
	}
}

static void
print_deliveries(const struct invocation *in, const struct work_plan *p)
{
	static const char *const heading[] = {
		"", "there by", "what", "packages", "in all"};
	struct table table;

	table_start(&table, in->arena, heading, 5, 0x18);
	for (size_t i = 0; i < p->n_delivery; i++) {
		const struct work_delivery *d = &p->delivery[i];
		const char *cell[] = {"[ ]", day_text(in->arena, d->day),
			p->takeoff.m.site.material[d->material].code,
			d->has_package
				? text_format(in->arena, "%.0f", d->n_package)
				: "loose",
			text_format(in->arena, "%.0f kg", d->kg)};

		table_row(&table, cell);
	}
	table_print(&table, stdout);
}

static const char *
proof_text(struct arena *arena, const struct work_plan *p)
{
	switch (p->plan.proof) {
	case BUILD_PROVEN:
		return "No plan ends sooner: that is proven.";
	case BUILD_LAST_DAY:
		return "No plan ends sooner: that is proven; one with earlier "
		       "days between is not ruled out.";
	case BUILD_NOT_PROVEN:
		return text_format(arena,
			"The search was stopped: no plan can end before %s, "
			"%lld days sooner (%s).",
			day_text(arena, p->bound_day),
			(long long)(p->last_day - p->bound_day),
			p->plan.bound_from);
	}
	return "";
}

static void
print_words(const struct invocation *in, const struct work_plan *p)
{
	struct arena *a = in->arena;

	print_folded(stdout, 0,
		text_format(a,
			"%zu lifts, %zu batches; the last is poured on "
			"%s. %s",
			p->n_lift, p->n_batch, day_text(a, p->last_day),
			proof_text(a, p)));
	if (p->n_poured > 0)
		(void)printf("Poured already and left out: %zu of the lifts.\n",
			p->n_poured);
	if (p->n_hold > 0)
		(void)printf("Batches on hold: %zu; pour nothing on them until "
			     "their pieces have spoken.\n",
			p->n_hold);
	print_folded(stdout, 0,
		"Caution: what the forms feel is the full head of a fluid of "
		"that wet density until it sets; whether sheets, studs and "
		"ties bear it, their maker's figures and a licensed engineer "
		"say. Strip and go on only when the lift has set under a rod, "
		"whatever the plan says.");
}

/* One line of the work: its name, then a sentence folded beneath it. */
static void
work_line(const char *name, const char *says)
{
	(void)printf("%s\n", name);
	print_folded(stdout, 2, says);
}

static void
print_work(const struct invocation *in, const struct work_plan *p)
{
	struct arena *a = in->arena;

	(void)putchar('\n');
	work_line("crew",
		text_format(a,
			"%lld people, %.3g h a day; forms of a lift %.3g h of "
			"one; a batch %.3g min of all; your figures, or common "
			"practice, no source",
			(long long)p->crew, p->hours_h, p->setup_h,
			p->cycle_min));
	work_line("mixer",
		text_format(a, "%lld batches a day", (long long)p->day_batch));
	work_line("forms",
		text_format(a,
			"%zu sets; stripped at %.3g h x 30 = %.0f degree-hours "
			"over -10 C (Saul 1951), on a working day",
			p->n_set, p->strip_h, p->strip_h * 30));
	work_line("next lift",
		text_format(a,
			"(%.3g h + %.3g h of work) / 24, rounded up = %zu days",
			p->gap_h, p->hours_h, p->gap_days));
	work_line("next part",
		text_format(a,
			"(%.3g h + %.3g h of work) / 24, rounded up = %zu days",
			p->rest_h, p->hours_h, p->rest_days));
	work_line("forms feel",
		"wet density x 9.80665 x height of the lift (full head; ACI "
		"347R-14, eq. 2.1)");
	work_line("bound",
		text_format(a,
			"day %zu, from %s; plan day %zu; sum of days %lld, at "
			"least %lld; %zu nodes; docs/methods/plan.md",
			p->plan.last_day_bound + 1, p->plan.bound_from,
			p->plan.last_day + 1, (long long)p->plan.day_sum,
			(long long)p->plan.day_sum_bound, p->plan.n_node));
	work_line("witness list",
		text_format(a, "one batch in %zu of a part, seed %llu",
			p->every, (unsigned long long)p->seed));
}

static void
lift_json(struct jsonout *json, const struct invocation *in,
	const struct work_plan *p, const struct work_plan_lift *l)
{
	const struct work_part_taken *w = &p->takeoff.part[l->part];

	jsonout_open_object(json);
	jsonout_key_string(json, "part", w->sizes.code);
	jsonout_key_count(json, "lift", l->cut.number);
	jsonout_key_string(json, "mix", p->takeoff.m.site.mix[w->mix].code);
	jsonout_key_string(json, "pour_on", day_text(in->arena, l->day) + 4);
	if (l->strip_day > 0 && l->cut.height_m > 0)
		jsonout_key_string(json, "strip_on",
			day_text(in->arena, l->strip_day) + 4);
	if (l->cut.has_from) {
		jsonout_key(json, "from_m");
		jsonout_number(json, l->cut.from_m);
		jsonout_key(json, "to_m");
		jsonout_number(json, l->cut.to_m);
	}
	jsonout_key_count(json, "first_batch", l->first_batch);
	jsonout_key_count(json, "batches", (uint64_t)l->cut.n_batch);
	jsonout_key(json, "volume_m3");
	jsonout_number(json, l->cut.volume_m3);
	jsonout_key(json, "pressure_Pa");
	jsonout_number(json, l->cut.pressure_Pa);
	jsonout_key_string(json, "witness", l->witness);
	jsonout_close_object(json);
}

static enum err_code
print_json(
	const struct invocation *in, const struct work_plan *p, struct err *err)
{
	static const char *const proof[] = {
		"proven", "last_day_proven", "not_proven"};
	struct text text;
	struct jsonout json;

	text_init(&text, in->arena);
	jsonout_init(&json, &text);
	jsonout_open_object(&json);
	jsonout_key_string(
		&json, "last_day", day_text(in->arena, p->last_day) + 4);
	jsonout_key_string(
		&json, "last_day_bound", day_text(in->arena, p->bound_day) + 4);
	jsonout_key_string(&json, "bound_from", p->plan.bound_from);
	jsonout_key_string(&json, "proof", proof[p->plan.proof]);
	jsonout_key_count(&json, "poured_before", p->n_poured);
	jsonout_key(&json, "lifts");
	jsonout_open_array(&json);
	for (size_t i = 0; i < p->n_lift; i++)
		lift_json(&json, in, p, &p->lift[i]);
	jsonout_close_array(&json);
	jsonout_key(&json, "deliveries");
	jsonout_open_array(&json);
	for (size_t i = 0; i < p->n_delivery; i++) {
		const struct work_delivery *d = &p->delivery[i];

		jsonout_open_object(&json);
		jsonout_key_string(
			&json, "there_by", day_text(in->arena, d->day) + 4);
		jsonout_key_string(&json, "material",
			p->takeoff.m.site.material[d->material].code);
		if (d->has_package) {
			jsonout_key(&json, "packages");
			jsonout_number(&json, d->n_package);
		}
		jsonout_key(&json, "mass_kg");
		jsonout_number(&json, d->kg);
		jsonout_close_object(&json);
	}
	jsonout_close_array(&json);
	jsonout_close_object(&json);
	if (jsonout_failed(&json))
		return err_memory(err);
	(void)puts(text.bytes);
	return ERR_NONE;
}

/* ---- the words ---- */

static enum err_code
read_words(const struct invocation *in, const char *option,
	const char *const **to, size_t *n, struct err *err)
{
	const char **all = arena_take(in->arena, GIVEN_MOST, sizeof *all);
	size_t at = 0;

	if (all == NULL)
		return err_memory(err);
	for (const char *v = invocation_next(in, option, &at); v != NULL;
		v = invocation_next(in, option, &at))
		all[(*n)++] = v;
	*to = all;
	return ERR_NONE;
}

/* "12 C", or "3=9 C": a month and its mean. */
static enum err_code
read_air(
	const struct invocation *in, struct work_plan_ask *ask, struct err *err)
{
	const struct unit_rules rules = {.may_be_negative = true};
	double *degc = arena_take(in->arena, GIVEN_MOST, sizeof *degc);
	int *month = arena_take(in->arena, GIVEN_MOST, sizeof *month);

	if (degc == NULL || month == NULL)
		return err_memory(err);
	TRY(read_words(in, "--air", &ask->air, &ask->n_air, err));
	for (size_t i = 0; i < ask->n_air; i++) {
		const char *name, *value = ask->air[i];
		struct err inner = {.code = ERR_NONE};
		double at = 0;

		if (strchr(value, '=') != NULL) {
			TRY(field_pair(
				in, "--air", ask->air[i], &name, &value, err));
			if (unit_read(name, UNIT_NUMBER, NULL, &at, &inner) !=
					ERR_NONE ||
				at < 1 || at > 12)
				return err_report(err, ERR_INPUT, "--air",
					"--air takes a month from 1 to 12 and "
					"its mean, such as 3=9 C; it was given "
					"\"%.40s\".",
					ask->air[i]);
		}
		if (unit_read(value, UNIT_TEMPERATURE, &rules, &degc[i],
			    &inner) != ERR_NONE)
			return err_report(err, ERR_INPUT, "--air",
				"--air \"%.40s\": %s", ask->air[i], inner.text);
		month[i] = (int)at;
	}
	ask->air_degc = degc;
	ask->air_month = month;
	return ERR_NONE;
}

static enum err_code
read_ask(
	const struct invocation *in, struct work_plan_ask *ask, struct err *err)
{
	struct work_pair *after = arena_take(
		in->arena, GIVEN_MOST, sizeof *after);
	size_t at = 0;

	if (after == NULL)
		return err_memory(err);
	for (const char *v = invocation_next(in, "--after", &at); v != NULL;
		v = invocation_next(in, "--after", &at)) {
		TRY(field_pair(in, "--after", v, &after[ask->n_after].name,
			&after[ask->n_after].value, err));
		ask->n_after++;
	}
	ask->after = after;
	TRY(read_takeoff_ask(in, &ask->takeoff, err));
	TRY(read_words(in, "--off", &ask->off, &ask->n_off, err));
	TRY(read_words(in, "--cold", &ask->cold, &ask->n_cold, err));
	TRY(read_air(in, ask, err));
	TRY(fields_read(
		in, fields, sizeof fields / sizeof fields[0], ask, err));
	if (ask->from == NULL)
		return err_report(err, ERR_INPUT, "--from",
			"The plan needs its first day: --from 2026-05-04.");
	return ERR_NONE;
}

/* A line that is written over while somebody waits at a terminal. */
static void
tell_progress(void *data, const struct build_progress *progress)
{
	size_t *calls = data;
	enum { SELDOM = 256 };

	if ((*calls)++ % SELDOM == SELDOM - 1)
		(void)fprintf(stderr,
			"\r%s: ends on day %zu, not before day %zu ",
			progress->doing, progress->last_day + 1,
			progress->last_day_bound + 1);
}

static enum err_code
write_ics(const struct invocation *in, const struct desk *desk,
	const struct work_plan *plan, struct err *err)
{
	const char *path = invocation_value(in, "--ics");
	const char *ics;
	FILE *file;
	bool written;

	if (path == NULL)
		return ERR_NONE;
	ics = work_plan_ics(in->arena, plan, desk->now_utc_s);
	if (ics == NULL)
		return err_memory(err);
	if (strcmp(path, "-") == 0) {
		(void)fputs(ics, stdout);
		return ERR_NONE;
	}
	file = fopen(path, "wxb");
	if (file == NULL)
		return err_report(err, ERR_CONFLICT, "--ics",
			"The calendar \"%.200s\" cannot be made; there may be "
			"a file of that name already. Nothing was changed.",
			path);
	written = fputs(ics, file) >= 0;
	written = fclose(file) == 0 && written;
	if (!written)
		return err_report(err, ERR_DISK, "--ics",
			"The calendar could not be written; is the disk full?");
	return ERR_NONE;
}

static enum err_code
run_plan(const struct invocation *in, struct err *err)
{
	struct work_plan_ask ask = {.n_off = 0};
	struct work_plan plan;
	struct desk desk;
	enum err_code code;
	size_t calls = 0;

	TRY(read_ask(in, &ask, err));
	if (isatty(STDERR_FILENO)) {
		ask.tell = tell_progress;
		ask.tell_data = &calls;
	}
	TRY(desk_open(in->word[0], false, in, &desk, err));
	code = work_plan(&desk, in->arena, &ask, &plan, err);
	desk_close(&desk);
	if (code != ERR_NONE)
		return code;
	TRY(write_ics(in, &desk, &plan, err));
	if (invocation_has(in, "--ics") &&
		strcmp(invocation_value(in, "--ics"), "-") == 0)
		return ERR_NONE; /* the calendar is the answer */
	if (in->json)
		return print_json(in, &plan, err);
	print_pours(in, &plan);
	for (size_t i = 0; i < plan.takeoff.n_part; i++)
		print_part(&plan, i);
	print_words(in, &plan);
	print_deliveries(in, &plan);
	if (invocation_has(in, "--show-work"))
		print_work(in, &plan);
	return ERR_NONE;
}

const struct command command_plan = {
	.name = "plan",
	.line = "on which day what is poured, stripped and delivered",
	.help = "  foamwright plan BOOK --from DATE [OPTIONS]\n\n"
		"The plan that ends soonest within forms, mixer, crew, days "
		"off and cold days.\nAsked again later, it leaves out what "
		"\"foamwright pour\" has recorded.\n",
	.example = "foamwright plan site.book --from 2026-05-04 --forms 4 "
		   "--off sun --ics pours.ics",
	.least_words = 1,
	.most_words = 1,
	.options = options,
	.run = run_plan,
};
