/* rig.c - rigs and their checks, kept, and what they mean for a reading. */
#include "work/rig.h"

#include "book/book.h"
#include "core/date.h"
#include "core/text.h"
#include "lab/drop.h"
#include "lab/rig_check.h"

#include <ctype.h>
#include <math.h>
#include <string.h>

static const double bar_pa = 1e5;

static bool
is(const char *a, const char *b)
{
	return strcmp(a, b) == 0;
}

static void
take(struct maybe from, struct maybe *to)
{
	if (from.has)
		*to = from;
}

static void
take_text(const char *from, const char **to)
{
	if (from != NULL)
		*to = from;
}

/* ---- a rig ---- */

static const char *const tests[] = {"bending", "drop", "crushing"};
enum { TESTS = sizeof tests / sizeof tests[0] };

static enum err_code
check_words(const struct book_rig *row, struct err *err)
{
	bool known = false;

	for (size_t i = 0; i < TESTS; i++)
		known = known || is(row->test, tests[i]);
	if (!known)
		return err_report(err, ERR_INPUT, "--test",
			"Say what the rig is for: --test bending, drop or "
			"crushing; it got \"%.40s\".",
			row->test);
	if (!is(row->loading, "") && !is(row->loading, "centre") &&
		!is(row->loading, "third"))
		return err_report(err, ERR_INPUT, "--loading",
			"\"%.40s\" is no loading; it is centre or third.",
			row->loading);
	if (!is(row->tip, "") && !is(row->tip, "flat") &&
		!is(row->tip, "ball") && !is(row->tip, "cone"))
		return err_report(err, ERR_INPUT, "--tip",
			"\"%.40s\" is no tip; it is flat, ball or cone.",
			row->tip);
	return ERR_NONE;
}

static enum err_code
check_sizes(const struct book_rig *row, struct err *err)
{
	const struct {
		const char *option;
		struct maybe value;
	} of[] = {{"--span", row->span_m}, {"--bar", row->bar_kg},
		{"--from", row->height_m},
		{"--tip-diameter", row->tip_diameter_m}, {"--ram", row->ram_m},
		{"--gauge-step", row->gauge_step_pa},
		{"--rule", row->rule_step_m}, {"--scale", row->scale_step_kg}};

	for (size_t i = 0; i < sizeof of / sizeof of[0]; i++)
		if (of[i].value.has && !(of[i].value.value > 0))
			return err_report(err, ERR_INPUT, of[i].option,
				"%s must be more than nothing; leave it out "
				"where it is not known.",
				of[i].option);
	if (row->strap_m.has && row->span_m.has &&
		row->strap_m.value >= row->span_m.value)
		return err_report(err, ERR_INPUT, "--strap",
			"A strap of %g mm is not narrower than the span of %g "
			"mm.",
			row->strap_m.value * 1000, row->span_m.value * 1000);
	if (row->tip_angle_rad.has &&
		(!is(row->tip, "cone") ||
			!(row->tip_angle_rad.value > 0 &&
				row->tip_angle_rad.value < 3.1415927)))
		return err_report(err, ERR_INPUT, "--tip-angle",
			"The angle goes with --tip cone and lies between 0 and "
			"180 deg.");
	return ERR_NONE;
}

/* Something to be seen, in one line. */
static enum err_code
check_name(const char *code, struct err *err)
{
	bool seen = false, broken = false;

	for (const char *at = code; *at != '\0'; at++) {
		broken = broken || iscntrl((unsigned char)*at);
		seen = seen || !isspace((unsigned char)*at);
	}
	if (seen && !broken)
		return ERR_NONE;
	return err_report(err, ERR_INPUT, "code",
		"A rig needs a name that can be read, in one line, such as R1; "
		"it got \"%.40s\".",
		code);
}

static const struct book_rig *
find(const struct work_site *site, const char *code)
{
	for (size_t i = 0; i < site->n_rig; i++)
		if (is(site->rig[i].code, code))
			return &site->rig[i];
	return NULL;
}

enum err_code
work_rig_put(const struct desk *desk, struct arena *arena,
	const struct work_rig_ask *ask, bool *made, struct err *err)
{
	struct book_rig row = {
		.test = "", .loading = "", .tip = "", .note = ""};
	const struct book_rig *before;
	struct work_site site;

	TRY(work_site_read(desk->book, arena, &site, err));
	before = find(&site, ask->code);
	*made = before == NULL;
	if (before != NULL)
		row = *before;
	if (before != NULL && ask->test != NULL && !is(ask->test, row.test))
		return err_report(err, ERR_CONFLICT, "--test",
			"Rig %s is for %s tests; another test needs a rig of "
			"its own.",
			row.code, err_say(err, row.test));
	row.code = ask->code;
	row.row.typed = ask->typed;
	take_text(ask->test, &row.test);
	take_text(ask->loading, &row.loading);
	take_text(ask->tip, &row.tip);
	take_text(ask->note, &row.note);
	take(ask->span_m, &row.span_m);
	take(ask->strap_m, &row.strap_m);
	take(ask->hanger_kg, &row.hanger_kg);
	take(ask->bar_kg, &row.bar_kg);
	take(ask->height_m, &row.height_m);
	take(ask->tip_diameter_m, &row.tip_diameter_m);
	take(ask->tip_angle_rad, &row.tip_angle_rad);
	take(ask->ram_m, &row.ram_m);
	take(ask->gauge_step_pa, &row.gauge_step_pa);
	take(ask->rule_step_m, &row.rule_step_m);
	take(ask->scale_step_kg, &row.scale_step_kg);
	TRY(check_name(row.code, err));
	TRY(check_words(&row, err));
	TRY(check_sizes(&row, err));
	TRY(book_begin(desk->book, desk->now_utc_s, desk->who, "rig",
		desk->submission, err));
	return work_commit_or_undo(
		desk, ask->code, book_put_rig(desk->book, &row, err), err);
}

/* ---- what a check needs ---- */

static enum err_code
needs(struct maybe value, const char *option, const char *why, struct err *err)
{
	if (value.has && value.value > 0)
		return ERR_NONE;
	return err_report(err, ERR_INPUT, option, "%s", why);
}

static enum err_code
wrong_rig(const struct book_rig *rig, const struct book_rig_check *row,
	struct err *err)
{
	return err_report(err, ERR_CONFLICT, "rig",
		"Rig %s is for %s tests; a check by %s does not go with it.",
		rig->code, err_say(err, rig->test), err_say(err, row->what));
}

static struct lab_dead_load
dead_load(const struct book_rig *rig, const struct book_rig_check *row)
{
	return (struct lab_dead_load){.known = {row->known_kg.value},
		.scale = {rig->scale_step_kg.value},
		.jack = {.pressure = {row->gauge_pa.value},
			.zero = {row->zero_pa.value},
			.bore = {rig->ram_m.value}},
		.gauge = {rig->gauge_step_pa.value}};
}

static enum err_code
check_dead_load(const struct book_rig *rig, const struct book_rig_check *row,
	struct err *err)
{
	const struct lab_dead_load load = dead_load(rig, row);
	struct lab_dead_loaded got;

	if (!is(rig->test, "crushing"))
		return wrong_rig(rig, row, err);
	TRY(needs(rig->ram_m, "--ram",
		"The bore of the ram is needed to make a force of the gauge: "
		"give it with --ram first.",
		err));
	TRY(needs(row->gauge_pa, "--gauge",
		"Say what the gauge showed under the known load: --gauge \"24 "
		"bar\".",
		err));
	if (row->zero_pa.has && row->zero_pa.value > row->gauge_pa.value)
		return err_report(err, ERR_INPUT, "--gauge-zero",
			"The gauge showed %g bar under the load and %g bar "
			"without it; it must show at least as much under it.",
			row->gauge_pa.value / bar_pa,
			row->zero_pa.value / bar_pa);
	return lab_dead_load(&load, &got, err);
}

static enum err_code
check_speed(const struct book_rig *rig, const struct book_rig_check *row,
	struct err *err)
{
	double ratio;

	if (!is(rig->test, "drop"))
		return wrong_rig(rig, row, err);
	TRY(needs(row->height_m, "--from",
		"Say how far the bar fell through the guide: --from \"900 "
		"mm\".",
		err));
	return lab_tube_loss((struct length){row->height_m.value},
		row->speed_m_s.value, &ratio, err);
}

static enum err_code
check_piece(const struct book_rig *rig, const struct book_rig_check *row,
	struct err *err)
{
	if (is(rig->test, "bending"))
		return needs(row->found_kg, "--broke",
			"Say what broke the check piece, the hanger with it: "
			"--broke \"23.4 kg\".",
			err);
	if (is(rig->test, "drop"))
		return needs(row->dent_m, "--dent",
			"Say how deep the dent in the check piece is: --dent "
			"\"6.5 mm\".",
			err);
	return needs(row->gauge_pa, "--gauge",
		"Say what the gauge showed when the check piece broke: --gauge "
		"\"82 bar\".",
		err);
}

static enum err_code
check_check(const struct book_rig *rig, const struct book_rig_check *row,
	struct err *err)
{
	if (is(row->what, "dead load"))
		return check_dead_load(rig, row, err);
	if (is(row->what, "exit speed"))
		return check_speed(rig, row, err);
	if (is(row->what, "check piece"))
		return check_piece(rig, row, err);
	TRY(needs(row->known_kg, "--weight",
		"Say what the weight is marked and what it weighs: --weight "
		"\"5 kg=4.86 kg\".",
		err));
	return needs(row->found_kg, "--weight",
		"Say what the weight is marked and what it weighs: --weight "
		"\"5 kg=4.86 kg\".",
		err);
}

/* "dead load 2026-03-01"; of a weight also what it is marked. */
static const char *
code_of(struct arena *arena, const struct work_rig_check_ask *ask,
	const char *day)
{
	if (ask->code != NULL)
		return ask->code;
	if (is(ask->what, "weight"))
		return text_format(
			arena, "weight %g kg %s", ask->known_kg.value, day);
	return text_format(arena, "%s %s", ask->what, day);
}

enum err_code
work_rig_check_put(const struct desk *desk, struct arena *arena,
	const struct work_rig_check_ask *ask, const char **sentence,
	struct err *err)
{
	char day[DATE_TEXT_MAX];
	struct work_bench bench;
	struct work_site after;
	size_t at;

	TRY(work_bench_read(desk, arena, &bench, err));
	TRY(work_find_rig(&bench, ask->rig, &at, err));
	date_write_day(desk->now_utc_s, 0, day);

	const struct book_rig *rig = &bench.site.rig[at];
	struct book_rig_check row = {.row = {.typed = ask->typed},
		.rig_id = rig->row.id,
		.what = ask->what,
		.read_on = ask->on != NULL ? ask->on : arena_text(arena, day),
		.known_kg = ask->known_kg,
		.found_kg = ask->found_kg,
		.gauge_pa = ask->gauge_pa,
		.zero_pa = ask->zero_pa,
		.height_m = ask->height_m,
		.speed_m_s = ask->speed_m_s,
		.dent_m = ask->dent_m,
		.piece = ask->piece != NULL ? ask->piece : "",
		.remark = ask->remark != NULL ? ask->remark : ""};

	if (row.read_on == NULL)
		return err_memory(err);
	row.code = code_of(arena, ask, row.read_on);
	if (row.code == NULL)
		return err_memory(err);
	TRY(check_check(rig, &row, err));
	for (size_t i = 0; i < bench.site.n_rig_check; i++)
		if (bench.site.rig_check[i].rig_id == row.rig_id &&
			is(bench.site.rig_check[i].code, row.code))
			row.row.id = bench.site.rig_check[i].row.id;
	TRY(book_begin(desk->book, desk->now_utc_s, desk->who, "rig check",
		desk->submission, err));
	TRY(work_commit_or_undo(desk, rig->code,
		book_put_rig_check(desk->book, &row, err), err));
	TRY(work_site_read(desk->book, arena, &after, err));
	for (size_t i = 0; i < after.n_rig_check; i++)
		if (after.rig_check[i].rig_id == row.rig_id &&
			is(after.rig_check[i].code, row.code))
			*sentence = work_rig_say_check(
				arena, &after, &after.rig_check[i]);
	return ERR_NONE;
}

/* ---- what it means for a reading ---- */

static bool
is_later(const struct book_rig_check *a, const struct book_rig_check *b)
{
	int order = b == NULL ? 1 : strcmp(a->read_on, b->read_on);

	return order > 0 || (order == 0 && a->row.id > b->row.id);
}

static void
take_load(const struct book_rig_check *check, struct work_rig_known *known)
{
	const struct lab_dead_load load = dead_load(known->rig, check);
	struct err odd = {.code = ERR_NONE};
	struct lab_dead_loaded got;

	if (!is_later(check, known->load) ||
		lab_dead_load(&load, &got, &odd) != ERR_NONE)
		return;
	known->load = check;
	known->force_ratio = got.force_ratio;
	known->force_u = got.u_ratio;
	known->corrects = !got.is_plain;
}

static void
take_speed(const struct book_rig_check *check, struct work_rig_known *known)
{
	struct err odd = {.code = ERR_NONE};
	double ratio;

	if (!is_later(check, known->speed) ||
		lab_tube_loss((struct length){check->height_m.value},
			check->speed_m_s.value, &ratio, &odd) != ERR_NONE)
		return;
	known->speed = check;
	known->tube_loss_ratio = ratio;
}

struct work_rig_known
work_rig_known(const struct work_site *site, int64_t rig_id)
{
	struct work_rig_known known = {.force_ratio = 1};

	for (size_t i = 0; i < site->n_rig && rig_id != 0; i++)
		if (site->rig[i].row.id == rig_id)
			known.rig = &site->rig[i];
	for (size_t i = 0; i < site->n_rig_check && known.rig != NULL; i++) {
		const struct book_rig_check *check = &site->rig_check[i];

		if (check->rig_id != rig_id)
			continue;
		if (is(check->what, "dead load"))
			take_load(check, &known);
		else if (is(check->what, "exit speed"))
			take_speed(check, &known);
	}
	return known;
}
