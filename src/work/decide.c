/* decide.c - the choice as it stands, written down with its reason. */
#include "work/decide.h"

#include "book/book.h"
#include "core/kept.h"
#include "core/text.h"
#include "core/unit.h"
#include "work/choose.h"
#include "work/take_off.h"

#include <math.h>
#include <string.h>

struct deciding {
	const struct desk *desk;
	struct arena *arena;
	const struct work_decide *ask;
	struct work_chosen chosen;
	size_t part, mix; /* indices */
	const struct work_part_choice *choice;
	const struct work_candidate *candidate; /* NULL: was not compared */
};

/* ---- what the figures say ---- */

/* What the figures are put together of; work_decisions takes them apart. */
static const char figures_all[] = N_(
	"chance that the next batch meets all: %.0f %%");
static const char figures_unknown[] = N_(
	"chance that the next batch meets all: unknown");
static const char figures_not_compared[] = N_(
	"this mix was not compared for this part");
static const char figures_need[] = N_("; %s at %s ");
static const char figures_money[] = N_("%.2f a m3");
static const char figures_amount[] = N_("%.3g %s");
static const char figures_not_tested[] = N_(": not tested");
static const char figures_chance[] = N_(": %.0f %%");
static const char figures_pieces[] = N_(" (95 of 100 pieces should be %s ");
static const char figures_cost[] = N_("; cost %.2f %s a m3");
static const char figures_one_batch[] = N_(
	"; %zu batch behind the least founded");
static const char figures_batches[] = N_(
	"; %zu batches behind the least founded");
static const char figures_seed[] = N_("; seed %llu");
static const char figures_next[] = N_("; the next in line, %s: ");
static const char figures_next_all[] = N_("meets all %.0f %%");
static const char figures_next_not[] = N_("not tested for all");
static const char figures_against[] = N_(", %s %.0f against %.0f %%");
static const char figures_cost_against[] = N_(
	", cost %.2f against %.2f %s a m3");
static const char figures_pieces_end[] = ")";

/* In whole hundredths; never 0 and never 100, which would say that it is sure. */
static double
chance_percent(double p)
{
	return fmin(fmax(round(100 * p), 1), 99);
}

static void
add_amount(struct text *text, enum choose_measure measure, double si)
{
	const char *unit = choose_measure_unit(measure);

	if (measure == CHOOSE_COST)
		text_addf(text, figures_money, si / 100);
	else
		text_addf(text, figures_amount,
			unit_value(si, choose_measure_kind(measure), unit),
			unit);
}

static void
add_need(struct text *text, const struct choose_requirement *r,
	const struct work_need *need)
{
	text_addf(text, figures_need, choose_measure_name(r->measure),
		r->is_least ? N_("least") : N_("most"));
	add_amount(text, r->measure, r->value);
	if (!need->known) {
		text_addf(text, figures_not_tested);
		return;
	}
	text_addf(text, figures_chance, chance_percent(need->p));
	if (!need->has_lower)
		return;
	text_addf(
		text, figures_pieces, r->is_least ? N_("above") : N_("below"));
	add_amount(text, r->measure, need->lower);
	text_addf(text, figures_pieces_end);
}

/* The best of the other mixes of the part; NULL: there is none. */
static const struct work_candidate *
runner_up(const struct deciding *d)
{
	for (size_t i = 0; i < d->choice->n_candidate; i++)
		if (&d->choice->candidate[i] != d->candidate)
			return &d->choice->candidate[i];
	return NULL;
}

/* Why not the other: where it is less likely, what it costs, what is lacking. */
static void
add_runner_up(const struct deciding *d, struct text *text)
{
	const struct work_candidate *c = d->candidate, *other = runner_up(d);

	if (other == NULL)
		return;
	text_addf(text, figures_next,
		d->chosen.compared.site.mix[other->mix].code);
	if (other->all_known)
		text_addf(text, figures_next_all, chance_percent(other->p_all));
	else
		text_addf(text, figures_next_not);
	for (size_t i = 0; i < d->choice->n_requirement; i++)
		if (c->need[i].known && other->need[i].known)
			text_addf(text, figures_against,
				choose_measure_name(
					d->choice->requirement[i].measure),
				chance_percent(other->need[i].p),
				chance_percent(c->need[i].p));
	if (other->has_cost && c->has_cost)
		text_addf(text, figures_cost_against,
			other->cost_cents_per_m3 / 100,
			c->cost_cents_per_m3 / 100,
			d->chosen.compared.site.info.currency);
}

static enum err_code
figures_of(const struct deciding *d, const char **figures, struct err *err)
{
	const struct work_candidate *c = d->candidate;
	struct text text;

	if (c == NULL) {
		*figures = figures_not_compared;
		return ERR_NONE;
	}
	text_init(&text, d->arena);
	if (c->all_known)
		text_addf(&text, figures_all, chance_percent(c->p_all));
	else
		text_addf(&text, figures_unknown);
	for (size_t i = 0; i < d->choice->n_requirement; i++)
		add_need(&text, &d->choice->requirement[i], &c->need[i]);
	if (c->has_cost)
		text_addf(&text, figures_cost, c->cost_cents_per_m3 / 100,
			d->chosen.compared.site.info.currency);
	if (c->n_batch != SIZE_MAX)
		text_addf(&text,
			c->n_batch == 1 ? figures_one_batch : figures_batches,
			c->n_batch);
	text_addf(&text, figures_seed, (unsigned long long)d->desk->seed);
	add_runner_up(d, &text);
	if (text_failed(&text))
		return err_memory(err);
	*figures = text.bytes;
	return ERR_NONE;
}

/* ---- finding part and mix ---- */

static enum err_code
not_there(const char *what, const char *code, struct err *err)
{
	return err_report(err, ERR_NOT_FOUND, what,
		"There is no %s \"%.60s\" in the book.", err_say(err, what),
		code);
}

static enum err_code
find_both(struct deciding *d, struct err *err)
{
	const struct work_site *site = &d->chosen.compared.site;

	while (d->part < site->n_part &&
		strcmp(site->part[d->part].code, d->ask->part) != 0)
		d->part++;
	if (d->part == site->n_part)
		return not_there(N_("part of the building"), d->ask->part, err);
	if (!work_site_mix(site, d->ask->mix, &d->mix))
		return not_there(N_("mix"), d->ask->mix, err);
	TRY(work_check_tested(site, d->mix, err));
	for (size_t i = 0; i < d->chosen.n_part; i++)
		if (d->chosen.part[i].part == d->part)
			d->choice = &d->chosen.part[i];
	for (size_t i = 0; d->choice != NULL && i < d->choice->n_candidate; i++)
		if (d->choice->candidate[i].mix == d->mix)
			d->candidate = &d->choice->candidate[i];
	return ERR_NONE;
}

/* ---- writing ---- */

static enum err_code
put_quantity(struct book *book, int64_t decision, const char *what,
	const char *unit, double value, struct err *err)
{
	const struct book_quantity q = {.decision_id = decision,
		.what = what,
		.unit = unit,
		.value = value};

	return book_put_quantity(book, &q, err);
}

static enum err_code
put_line(const struct deciding *d, int64_t decision, const struct build_line *l,
	struct err *err)
{
	struct book *book = d->desk->book;

	TRY(put_quantity(book, decision, l->name, "kg", l->mass_kg, err));
	if (!l->has_package)
		return ERR_NONE;
	const char *packages = text_format(d->arena, "%s, packages", l->name);
	if (packages == NULL)
		return err_memory(err);
	return put_quantity(book, decision, packages, "", l->n_package, err);
}

static enum err_code
put_quantities(const struct deciding *d, int64_t decision,
	const struct build_taken *taken, struct err *err)
{
	struct book *book = d->desk->book;

	TRY(put_quantity(
		book, decision, "volume in place", "m3", taken->net_m3, err));
	TRY(put_quantity(
		book, decision, "volume to mix", "m3", taken->mixed_m3, err));
	TRY(put_quantity(book, decision, "foam", "m3", taken->foam_m3, err));
	if (taken->has_batches)
		TRY(put_quantity(
			book, decision, "batches", "", taken->n_batch, err));
	for (size_t i = 0; i < taken->n_line; i++)
		TRY(put_line(d, decision, &taken->line[i], err));
	if (taken->all_priced)
		TRY(put_quantity(book, decision, "money for whole packages",
			d->chosen.compared.site.info.currency,
			taken->money_cents / 100, err));
	return ERR_NONE;
}

/* A second decision for a part is a revision of its first. */
static enum err_code
row_of_part(const struct deciding *d, int64_t part_id, struct book_row *row,
	struct err *err)
{
	const struct book_decision *all = NULL;
	size_t n = 0;

	*row = (struct book_row){.typed = ""};
	TRY(book_all_decision(d->desk->book, d->arena, &all, &n, err));
	for (size_t i = 0; i < n; i++)
		if (all[i].part_id == part_id)
			row->id = all[i].row.id;
	return ERR_NONE;
}

static enum err_code
put_decision(const struct deciding *d, const struct build_taken *taken,
	const char *figures, struct err *err)
{
	const struct work_site *site = &d->chosen.compared.site;
	struct book_decision row = {.part_id = site->part[d->part].row.id,
		.mix_id = site->mix[d->mix].row.id,
		.reason = d->ask->because,
		.figures = figures};

	TRY(row_of_part(d, row.part_id, &row.row, err));
	TRY(book_put_decision(d->desk->book, &row, err));
	if (!(taken->net_m3 > 0)) /* a part without sizes yet */
		return ERR_NONE;
	return put_quantities(d, row.row.id, taken, err);
}

static enum err_code
write_down(const struct deciding *d, const struct build_taken *taken,
	const char *figures, struct err *err)
{
	const char *detail = text_format(
		d->arena, "%s: mix %s", d->ask->part, d->ask->mix);

	if (detail == NULL)
		return err_memory(err);
	TRY(book_begin(d->desk->book, d->desk->now_utc_s, d->desk->who,
		"decide", d->desk->submission, err));
	return work_commit_or_undo(
		d->desk, detail, put_decision(d, taken, figures, err), err);
}

static enum err_code
decide(const struct desk *desk, struct arena *arena,
	const struct work_decide *ask, struct work_decision *out,
	struct err *err)
{
	struct deciding d = {.desk = desk, .arena = arena, .ask = ask};
	struct build_taken taken = {0};
	const char *figures = "";

	if (ask->because == NULL || ask->because[0] == '\0')
		return err_report(err, ERR_INPUT, "--because",
			"A decision takes its reason; give it with "
			"--because TEXT.");
	TRY(work_choose(desk, arena, &d.chosen, err));
	TRY(find_both(&d, err));
	TRY(figures_of(&d, &figures, err));
	if (work_part_has_volume(&d.chosen.compared.site.part[d.part]))
		TRY(work_take_off(
			arena, &d.chosen.compared, d.part, d.mix, &taken, err));
	TRY(write_down(&d, &taken, figures, err));
	*out = (struct work_decision){
		ask->part, ask->mix, ask->because, figures};
	return ERR_NONE;
}

/* The figures as they are kept, again. */
static const char *
say_figures(struct arena *arena, const char *figures)
{
	static const struct kept_form form[] = {{.format = figures_all},
		{.format = figures_unknown}, {.format = figures_not_compared},
		{.format = figures_need, .said = 1U << 0 | 1U << 1},
		{.format = figures_money}, {.format = figures_amount},
		{.format = figures_not_tested}, {.format = figures_chance},
		{.format = figures_pieces, .said = 1U << 0},
		{.format = figures_pieces_end},
		{.format = figures_cost, .tried = 1U << 1},
		{.format = figures_one_batch}, {.format = figures_batches},
		{.format = figures_seed}, {.format = figures_next},
		{.format = figures_next_all}, {.format = figures_next_not},
		{.format = figures_against, .said = 1U << 0},
		{.format = figures_cost_against, .tried = 1U << 2}};

	return kept_say(arena, form, sizeof form / sizeof form[0], figures);
}

enum err_code
work_decide(const struct desk *desk, struct arena *arena,
	const struct work_decide *ask, struct work_decision *out,
	struct err *err)
{
	const struct tongue spoken = arena_english(arena);
	const enum err_code code = decide(desk, arena, ask, out, err);

	arena_speak(arena, spoken);
	if (code == ERR_NONE)
		out->figures = say_figures(arena, out->figures);
	return code;
}

/* ---- reading ---- */

static const char *
part_code(const struct work_site *site, int64_t id)
{
	for (size_t i = 0; i < site->n_part; i++)
		if (site->part[i].row.id == id)
			return site->part[i].code;
	return "";
}

static const char *
mix_code(const struct work_site *site, int64_t id)
{
	for (size_t i = 0; i < site->n_mix; i++)
		if (site->mix[i].row.id == id)
			return site->mix[i].code;
	return "";
}

enum err_code
work_decisions(const struct desk *desk, struct arena *arena,
	const struct work_decision **row, size_t *n, struct err *err)
{
	const struct book_decision *all = NULL;
	struct work_site site = {0};
	struct work_decision *got;
	size_t count = 0;

	TRY(work_site_read_plan(desk->book, arena, &site, err));
	TRY(book_all_decision(desk->book, arena, &all, &count, err));
	got = arena_take(arena, count + 1, sizeof *got);
	if (got == NULL)
		return err_memory(err);
	for (size_t i = 0; i < count; i++)
		got[i] = (struct work_decision){
			part_code(&site, all[i].part_id),
			mix_code(&site, all[i].mix_id), all[i].reason,
			say_figures(arena, all[i].figures)};
	*row = got;
	*n = count;
	return ERR_NONE;
}

enum err_code
work_quantities(const struct desk *desk, struct arena *arena,
	const struct work_quantity **row, size_t *n, struct err *err)
{
	const struct book_quantity *all = NULL;
	const struct book_decision *decision = NULL;
	struct work_site site = {0};
	struct work_quantity *got;
	size_t count = 0, n_decision = 0;

	TRY(work_site_read_plan(desk->book, arena, &site, err));
	TRY(book_all_decision(desk->book, arena, &decision, &n_decision, err));
	TRY(book_all_quantity(desk->book, arena, &all, &count, err));
	got = arena_take(arena, count + 1, sizeof *got);
	if (got == NULL)
		return err_memory(err);
	for (size_t i = 0; i < count; i++) {
		got[i] = (struct work_quantity){
			"", all[i].what, all[i].unit, all[i].value};
		for (size_t k = 0; k < n_decision; k++)
			if (decision[k].row.id == all[i].decision_id)
				got[i].part = part_code(
					&site, decision[k].part_id);
	}
	*row = got;
	*n = count;
	return ERR_NONE;
}
