/* measured.c - the other home tests recorded. */
#include "work/measured.h"

#include "core/date.h"
#include "core/text.h"
#include "work/series.h"

#include <math.h>
#include <string.h>

static const double zero_degc_K = 273.15;
/* No concrete shortens this much: a slip in the unit (lab/shrinkage.h). */
static const double shortens_most = 0.1;

static bool
is(const char *a, const char *b)
{
	return strcmp(a, b) == 0;
}

bool
work_is_measured(const char *kind)
{
	static const char *const kinds[] = {"moisture", "soaking", "rise",
		"drying", "shrinkage", "screw", "frost", "hot box"};

	for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++)
		if (is(kinds[i], kind))
			return true;
	return false;
}

/* ---- what was read against itself ---- */

static enum err_code
need(struct maybe value, const char *option, const char *example,
	struct err *err)
{
	if (value.has)
		return ERR_NONE;
	return err_report(err, ERR_INPUT, option, "Say %s, such as %s %s.",
		option, option, err_say(err, example));
}

static enum err_code
check_above_nothing(const struct work_measured_ask *ask, struct err *err)
{
	const struct {
		const char *option;
		struct maybe value;
	} of[] = {{"--mass", ask->mass_kg}, {"--dry", ask->dry_kg},
		{"--scale-step", ask->mass_step_kg},
		{"--height-step", ask->height_step_m}, {"--face", ask->face_m2},
		{"--wanted", ask->wanted_ratio}, {"--length", ask->length_m},
		{"--step", ask->step_m}, {"--pull-step", ask->force_step_n},
		{"--diameter", ask->diameter_m}, {"--depth", ask->depth_m},
		{"--cycles", ask->cycles}, {"--before", ask->before_kg},
		{"--after", ask->after_kg}, {"--size-before", ask->before_m},
		{"--size-after", ask->after_m},
		{"--size-step", ask->length_step_m}, {"--power", ask->power_w},
		{"--area", ask->area_m2}, {"--thickness", ask->thickness_m},
		{"--power-step", ask->power_step_w},
		{"--temperature-step", ask->temperature_step_k}};
	const struct {
		const char *option;
		struct maybe value;
	} least[] = {{"--time", ask->after_s}, {"--height", ask->height_m},
		{"--held", ask->held_n}, {"--leak", ask->leak_w}};

	for (size_t i = 0; i < sizeof of / sizeof of[0]; i++)
		if (of[i].value.has && !(of[i].value.value > 0))
			return err_report(err, ERR_INPUT, of[i].option,
				"%s must be more than nothing; leave it out "
				"where it is not known.",
				of[i].option);
	for (size_t i = 0; i < sizeof least / sizeof least[0]; i++)
		if (least[i].value.has && !(least[i].value.value >= 0))
			return err_report(err, ERR_INPUT, least[i].option,
				"%s cannot be below nothing.", least[i].option);
	return ERR_NONE;
}

static enum err_code
check_dry(const struct work_measured_ask *ask, struct err *err)
{
	if (ask->dry_kg.has && ask->mass_kg.has &&
		ask->dry_kg.value > ask->mass_kg.value)
		return err_report(err, ERR_INPUT, "--dry",
			"Dry it cannot weigh more than with its water: %g kg "
			"dry, %g kg as it was; a moisture below nothing cannot "
			"be.",
			ask->dry_kg.value, ask->mass_kg.value);
	return ERR_NONE;
}

static enum err_code
fill_water(const struct work_measured_ask *ask, struct book_reading *out,
	struct err *err)
{
	if (is(ask->kind, "soaking") || is(ask->kind, "rise"))
		TRY(need(ask->after_s, "--time", N_("\"24 h\" in the water"),
			err));
	if (!is(ask->kind, "rise"))
		TRY(need(ask->mass_kg, "--mass", "\"3.12 kg\"", err));
	else if (!ask->mass_kg.has && !ask->height_m.has)
		return err_report(err, ERR_INPUT, "--mass",
			"Say what it weighs, --mass \"626 g\", or how high its "
			"wet edge stands, --height \"23 mm\".");
	if (is(ask->kind, "moisture"))
		TRY(need(ask->dry_kg, "--dry", N_("\"2.87 kg\" from the oven"),
			err));
	TRY(check_dry(ask, err));
	out->water = (struct book_water){.after_s = ask->after_s,
		.mass_kg = ask->mass_kg,
		.dry_kg = ask->dry_kg,
		.mass_step_kg = ask->mass_step_kg,
		.height_m = ask->height_m,
		.height_step_m = ask->height_step_m,
		.face_m2 = ask->face_m2,
		.wanted_ratio = ask->wanted_ratio};
	return ERR_NONE;
}

static enum err_code
fill_length(const struct work_measured_ask *ask, struct book_reading *out,
	struct err *err)
{
	TRY(need(ask->length_m, "--length",
		N_("\"499.18 mm\" between the studs"), err));
	if (ask->degc.has && !(ask->degc.value > -zero_degc_K))
		return err_report(err, ERR_INPUT, "--temperature",
			"Nothing is that cold.");
	out->length = (struct book_length){.length_m = ask->length_m.value,
		.step_m = ask->step_m,
		.degc = ask->degc};
	return ERR_NONE;
}

static enum err_code
fill_screw(const struct work_measured_ask *ask, struct book_reading *out,
	struct err *err)
{
	if (!ask->held_n.has && !ask->broke_n.has)
		return err_report(err, ERR_INPUT, "--held",
			"Say what it held and what pulled it out: --held \"310 "
			"N\" --out \"340 N\"; a luggage scale's kilogram is a "
			"kgf.");
	if (ask->broke_n.has &&
		(!(ask->broke_n.value > 0) ||
			ask->broke_n.value < ask->held_n.value))
		return err_report(err, ERR_INPUT, "--out",
			"It came out at %g N, which is below the %g N that it "
			"held; what pulled it out comes after the last pull "
			"that it held.",
			ask->broke_n.value, ask->held_n.value);
	if (!ask->broke_n.has && !(ask->held_n.value > 0))
		return err_report(err, ERR_INPUT, "--out",
			"A screw that held nothing came out at something: "
			"--out \"20 N\".");
	out->screw = (struct book_screw){.held_n = ask->held_n.value,
		.broke_n = ask->broke_n,
		.step_n = ask->force_step_n,
		.diameter_m = ask->diameter_m,
		.depth_m = ask->depth_m};
	return ERR_NONE;
}

static enum err_code
fill_frost(const struct work_measured_ask *ask, struct book_reading *out,
	struct err *err)
{
	TRY(need(ask->cycles, "--cycles", "25", err));
	TRY(need(ask->before_kg, "--before", "\"817 g\"", err));
	TRY(need(ask->after_kg, "--after", "\"803 g\"", err));
	if (ask->before_m.has != ask->after_m.has)
		return err_report(err, ERR_INPUT,
			ask->before_m.has ? "--size-after" : "--size-before",
			"A size is compared with itself: give --size-before "
			"and --size-after, or neither.");
	out->frost = (struct book_frost){.cycles = ask->cycles,
		.before_kg = ask->before_kg.value,
		.after_kg = ask->after_kg.value,
		.mass_step_kg = ask->mass_step_kg,
		.before_m = ask->before_m,
		.after_m = ask->after_m,
		.length_step_m = ask->length_step_m};
	return ERR_NONE;
}

static enum err_code
fill_hot_box(const struct work_measured_ask *ask, struct book_reading *out,
	struct err *err)
{
	TRY(need(ask->power_w, "--power", N_("\"23.7 W\" of the heater"), err));
	TRY(need(ask->warm_degc, "--warm", "\"41.6 degC\"", err));
	TRY(need(ask->cold_degc, "--cold", "\"10.2 degC\"", err));
	if (ask->leak_w.has && ask->leak_w.value >= ask->power_w.value)
		return err_report(err, ERR_INPUT, "--leak",
			"The box loses %g W of the heater's %g W elsewhere, so "
			"nothing is left to pass the slab.",
			ask->leak_w.value, ask->power_w.value);
	if (!(ask->warm_degc.value > ask->cold_degc.value))
		return err_report(err, ERR_INPUT, "--warm",
			"The warm face is at %g degC and the cold one at %g "
			"degC; the first must be the warmer.",
			ask->warm_degc.value, ask->cold_degc.value);
	out->hot_box = (struct book_hot_box){.power_w = ask->power_w.value,
		.leak_w = ask->leak_w,
		.area_m2 = ask->area_m2,
		.thickness_m = ask->thickness_m,
		.warm_degc = ask->warm_degc.value,
		.cold_degc = ask->cold_degc.value,
		.power_step_w = ask->power_step_w,
		.temperature_step_k = ask->temperature_step_k};
	return ERR_NONE;
}

enum err_code
work_measured_reading(const struct work_measured_ask *ask,
	struct book_reading *out, struct err *err)
{
	struct book_reading got = {.kind = ask->kind,
		.code = ask->code,
		.remark = ask->remark != NULL ? ask->remark : ""};

	TRY(check_above_nothing(ask, err));
	if (is(ask->kind, "shrinkage"))
		TRY(fill_length(ask, &got, err));
	else if (is(ask->kind, "screw"))
		TRY(fill_screw(ask, &got, err));
	else if (is(ask->kind, "frost"))
		TRY(fill_frost(ask, &got, err));
	else if (is(ask->kind, "hot box"))
		TRY(fill_hot_box(ask, &got, err));
	else
		TRY(fill_water(ask, &got, err));
	*out = got;
	return ERR_NONE;
}

/* ---- against the piece, and what was read of it before ---- */

static double
largest_size(const struct book_specimen *p)
{
	return fmax(fmax(p->width_m.value, p->depth_m.value),
		fmax(p->length_m.value, p->diameter_m.value));
}

static enum err_code
check_within(const char *option, const char *what, struct maybe value,
	const struct book_specimen *p, struct err *err)
{
	double most = largest_size(p);

	if (!value.has || !(most > 0) || value.value <= most)
		return ERR_NONE;
	return err_report(err, ERR_INPUT, option,
		"%s of %g mm is more than the piece, which is %g mm at most.",
		what, value.value * 1000, most * 1000);
}

/* Lighter than dry, or than before it was put in the water? */
static enum err_code
check_lighter(const struct work_bench *bench, size_t piece,
	const struct book_reading *reading, struct err *err)
{
	const struct work_site *s = &bench->site;
	double mass_kg = reading->water.mass_kg.value;

	for (size_t i = 0; i < s->n_reading; i++) {
		const struct book_reading *r = &s->reading[i];
		struct maybe least = {.has = false};
		const char *how = "oven dry";

		if (s->reading_specimen[i] != piece)
			continue;
		if (is(r->kind, "weighing") &&
			is(r->weighing.state, "oven dry"))
			least = (struct maybe){true, r->weighing.mass_kg};
		if (is(r->kind, reading->kind) && !is(r->kind, "moisture"))
			least = r->water.dry_kg;
		if (is(r->kind, reading->kind) && r->water.after_s.has &&
			!(r->water.after_s.value > 0) &&
			reading->water.after_s.value > 0) {
			least = r->water.mass_kg;
			how = "before the water";
		}
		if (least.has && mass_kg < least.value)
			return err_report(err, ERR_INPUT, "--mass",
				"It weighed %g kg %s and cannot weigh %g kg "
				"now.",
				least.value, how, mass_kg);
	}
	return ERR_NONE;
}

static enum err_code
check_water(const struct work_bench *bench, size_t piece,
	const struct book_reading *reading, struct err *err)
{
	const struct work_site *s = &bench->site;
	bool has_face = reading->water.face_m2.has;

	if (reading->water.mass_kg.has && !is(reading->kind, "moisture"))
		TRY(check_lighter(bench, piece, reading, err));
	if (!is(reading->kind, "rise") || !reading->water.mass_kg.has)
		return ERR_NONE;
	for (size_t i = 0; i < s->n_reading; i++)
		has_face = has_face ||
			(s->reading_specimen[i] == piece &&
				is(s->reading[i].kind, "rise") &&
				s->reading[i].water.face_m2.has);
	if (!has_face)
		return err_report(err, ERR_INPUT, "--face",
			"Say once how large the face in the water is: --face "
			"\"75 cm2\".");
	return ERR_NONE;
}

static enum err_code
check_length(const struct work_bench *bench, size_t piece,
	const struct book_reading *reading, struct err *err)
{
	const struct work_site *s = &bench->site;
	const double length_m = reading->length.length_m;

	for (size_t i = 0; i < s->n_reading; i++) {
		const struct book_reading *r = &s->reading[i];

		if (s->reading_specimen[i] != piece ||
			!is(r->kind, "shrinkage") ||
			is(r->code, reading->code) ||
			fabs(length_m - r->length.length_m) <=
				shortens_most * r->length.length_m)
			continue;
		return err_report(err, ERR_INPUT, "--length",
			"It was %g mm before and cannot be %g mm now; look at "
			"the unit.",
			r->length.length_m * 1000, length_m * 1000);
	}
	return ERR_NONE;
}

static enum err_code
check_box(const struct book_specimen *p, const struct book_hot_box *h,
	struct err *err)
{
	if (!h->area_m2.has && !(p->width_m.has && p->length_m.has))
		return err_report(err, ERR_INPUT, "--area",
			"The sizes of the piece are not in the book: say how "
			"large the slab is, --area \"0.36 m2\".");
	if (!h->thickness_m.has && !p->depth_m.has)
		return err_report(err, ERR_INPUT, "--thickness",
			"How thick is the slab? --thickness \"83 mm\".");
	return check_within(
		"--thickness", "A thickness", h->thickness_m, p, err);
}

enum err_code
work_measured_fits(const struct book_specimen *p,
	const struct book_reading *reading, struct err *err)
{
	const struct maybe studs = {true, reading->length.length_m};

	if (is(reading->kind, "shrinkage"))
		return check_within("--length", "A distance", studs, p, err);
	if (is(reading->kind, "screw"))
		return check_within(
			"--depth", "A thread", reading->screw.depth_m, p, err);
	if (is(reading->kind, "hot box"))
		return check_box(p, &reading->hot_box, err);
	if (is(reading->kind, "frost"))
		return check_within("--size-before", "A size",
			reading->frost.before_m, p, err);
	return check_within(
		"--height", "A wet edge", reading->water.height_m, p, err);
}

static enum err_code
check_against(const struct work_bench *bench, size_t piece,
	const struct book_reading *reading, struct err *err)
{
	TRY(work_measured_fits(&bench->site.specimen[piece], reading, err));
	if (is(reading->kind, "shrinkage"))
		return check_length(bench, piece, reading, err);
	if (is(reading->kind, "screw") || is(reading->kind, "frost") ||
		is(reading->kind, "hot box"))
		return ERR_NONE;
	return check_water(bench, piece, reading, err);
}

/* ---- told apart ---- */

static const char *
next_number(struct arena *arena, const struct work_bench *bench, size_t piece,
	const char *kind)
{
	const struct work_site *s = &bench->site;
	size_t n = 1;

	for (size_t i = 0; i < s->n_reading; i++)
		n += s->reading_specimen[i] == piece &&
			is(s->reading[i].kind, kind);
	return text_format(arena, "%zu", n);
}

/* Of the day; one that was given with its hour keeps it. */
static const char *
code_of_day(struct arena *arena, const char *on, int64_t now_s)
{
	char day[DATE_TEXT_MAX];

	if (on != NULL)
		return on;
	date_write_day(now_s, 0, day);
	return arena_text(arena, day);
}

static const char *
code_of(const struct desk *desk, struct arena *arena,
	const struct work_bench *bench, size_t piece,
	const struct work_measured_ask *ask)
{
	if (ask->code != NULL)
		return ask->code;
	if (is(ask->kind, "soaking") || is(ask->kind, "rise"))
		return work_duration(arena, ask->after_s.value);
	if (is(ask->kind, "drying") || is(ask->kind, "shrinkage"))
		return code_of_day(arena, ask->on, desk->now_utc_s);
	if (is(ask->kind, "screw"))
		return next_number(arena, bench, piece, ask->kind);
	if (is(ask->kind, "frost"))
		return text_format(arena, "%.0f", ask->cycles.value);
	return "1";
}

static bool
leaves_fate(const char *kind)
{
	return !is(kind, "screw") && !is(kind, "frost") && !is(kind, "hot box");
}

enum err_code
work_measured_put(const struct desk *desk, struct arena *arena,
	const struct work_measured_ask *ask, struct work_test_told *out,
	struct err *err)
{
	struct work_test_ask test = {.piece = ask->piece,
		.on = ask->on,
		.keeps_fate = leaves_fate(ask->kind),
		.typed = ask->typed};
	struct work_bench bench;
	int64_t cast_s;
	size_t piece;

	TRY(work_measured_reading(ask, &test.reading, err));
	TRY(work_bench_read(desk, arena, &bench, err));
	TRY(work_find_piece(&bench, ask->piece, &piece, err));
	test.reading.code = code_of(desk, arena, &bench, piece, ask);
	if (test.reading.code == NULL)
		return err_memory(err);
	TRY(check_against(&bench, piece, &test.reading, err));
	if ((is(ask->kind, "drying") || is(ask->kind, "shrinkage")) &&
		!work_cast_on(&bench.site, piece, &cast_s))
		return err_report(err, ERR_INPUT, "--on",
			"Batch %s has no date, so the days of this reading are "
			"not known: \"foamwright batch BOOK %s --on DATE\".",
			bench.site.batch[bench.site.specimen_batch[piece]].code,
			bench.site.batch[bench.site.specimen_batch[piece]]
				.code);
	return work_test_put(desk, arena, &test, out, err);
}
