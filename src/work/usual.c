/* usual.c - the usual requirements of a kind of part, read with the book's own
 * over them, and set. */
#include "work/usual.h"

#include "book/book.h"

#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

static const struct work_usual_form forms[] = {
	{"floor", "floor on the ground",
		"dents under legs, the bond of its topping, damp from below"},
	{"floor-panel", "suspended floor panel",
		"bending; what spans over people is for an engineer"},
	{"wall", "wall",
		"bending by wind, edges and corners, screws, cracks as it "
		"dries"},
	{"roof", "roof on a deck",
		"its weight on the deck, rain while it is new, dents by feet"},
	{"roof-panel", "roof panel, flat",
		"bending, water that stands on it; for an engineer"},
	{"roof-pitched", "roof panel, pitched",
		"bending, sliding, fixings against uplift; for an engineer"},
	{"vault", "barrel vault",
		"its shape under own weight, wind before it is closed, its "
		"feet"},
	{"dome", "dome",
		"tension round its foot, wind before it is closed, water on "
		"top"},
	{"lintel", "lintel", "bending, crushing where it bears, its steel"},
	{"block", "block", "crushing, edges broken in handling, size"},
	{"other", "something else", "not known"},
};

static const char practice[] = "common practice, no source";

/* Starting values, all of common practice. */
static const struct usual_value {
	const char *form, *measure;
	bool is_least;
	double value; /* SI */
} values[] = {
	{"floor", "crushing_strength", true, 1.0e6},
	{"floor", "settling_loss", false, 0.05},
	{"floor-panel", "bending_strength", true, 0.5e6},
	{"floor-panel", "crushing_strength", true, 2.5e6},
	{"wall", "bending_strength", true, 0.3e6},
	{"wall", "crushing_strength", true, 1.0e6},
	{"wall", "screw_pull", true, 300},
	{"wall", "breakage", false, 0.1},
	{"roof", "dry_density", false, 500},
	{"roof", "settling_loss", false, 0.05},
	{"roof-panel", "bending_strength", true, 0.5e6},
	{"roof-panel", "dry_density", false, 900},
	{"roof-pitched", "bending_strength", true, 0.5e6},
	{"roof-pitched", "dry_density", false, 900},
	{"roof-pitched", "screw_pull", true, 300},
	{"vault", "bending_strength", true, 0.3e6},
	{"vault", "crushing_strength", true, 1.5e6},
	{"dome", "bending_strength", true, 0.3e6},
	{"dome", "crushing_strength", true, 1.5e6},
	{"lintel", "bending_strength", true, 0.7e6},
	{"block", "crushing_strength", true, 1.5e6},
	{"block", "breakage", false, 0.05},
};

const struct work_usual_form *
work_usual_forms(size_t *n)
{
	*n = COUNT(forms);
	return forms;
}

const struct work_usual_form *
work_usual_form_of(const char *form)
{
	size_t i = 0;

	while (i + 1 < COUNT(forms) && strcmp(forms[i].form, form) != 0)
		i++;
	return &forms[i];
}

const char *
work_usual_form(const struct book_part_use *use)
{
	if (strcmp(use->form, "roof-panel") == 0 && use->pitch_rad.has &&
		use->pitch_rad.value > 0)
		return "roof-pitched";
	return use->form;
}

/* ---- read ---- */

static bool
is_same(const struct work_usual *u, const char *form, const char *measure,
	bool is_least)
{
	return u->is_least == is_least && strcmp(u->form, form) == 0 &&
		strcmp(u->measure, measure) == 0;
}

/* The requirement of that kind, measure and bound; where there is none a new
 * one at the end of its kind.  `all` has room. */
static struct work_usual *
find_or_add(struct work_usual *all, size_t *n, const char *form,
	const char *measure, bool is_least)
{
	size_t at = *n, after = *n;

	for (size_t i = 0; i < *n; i++) {
		if (is_same(&all[i], form, measure, is_least))
			return &all[i];
		if (strcmp(all[i].form, form) == 0)
			after = i + 1;
	}
	for (; at > after; at--)
		all[at] = all[at - 1];
	++*n;
	all[at] = (struct work_usual){.form = form,
		.measure = measure,
		.is_least = is_least,
		.source = practice};
	return &all[at];
}

enum err_code
work_usual_read(const struct desk *desk, struct arena *arena,
	const struct work_usual **out, size_t *n_out, struct err *err)
{
	const struct book_usual *row;
	struct work_usual *all;
	size_t n_row, n = 0;

	TRY(book_all_usual(desk->book, arena, &row, &n_row, err));
	all = arena_take(arena, COUNT(values) + n_row, sizeof *all);
	if (all == NULL)
		return err_memory(err);
	for (size_t i = 0; i < COUNT(values); i++) {
		const struct usual_value *v = &values[i];

		all[n++] = (struct work_usual){.form = v->form,
			.measure = v->measure,
			.is_least = v->is_least,
			.value = v->value,
			.source = practice,
			.is_asked = true};
	}
	for (size_t i = 0; i < n_row; i++) {
		struct work_usual *u = find_or_add(all, &n, row[i].form,
			row[i].measure, strcmp(row[i].bound, "least") == 0);

		u->value = row[i].value;
		u->source = row[i].source;
		u->is_asked = row[i].is_asked;
		u->is_own = true;
		u->id = row[i].row.id;
	}
	*out = all;
	*n_out = n;
	return ERR_NONE;
}

/* ---- set ---- */

enum err_code
work_bound_read(const struct work_bound *bound, enum unit_gallon gallon,
	double *value, struct err *err)
{
	const char *option = bound->is_least ? "--least" : "--most";
	const struct unit_rules rules = {.gallon = gallon};
	struct err inner = {.code = ERR_NONE};
	enum choose_measure measure;

	if (!choose_measure_find(bound->measure, &measure))
		return err_report(err, ERR_INPUT, option,
			"\"%.40s\" is nothing that a mix is measured by; try "
			"bending_strength, crushing_strength, dry_density, "
			"settling_loss, screw_pull, dent, conductivity, cost "
			"or breakage.",
			bound->measure);
	if (unit_read(bound->value, choose_measure_kind(measure), &rules, value,
		    &inner) != ERR_NONE)
		return err_report(err, ERR_INPUT, option, "%s %.40s: %s",
			option, bound->measure, inner.text);
	if (measure == CHOOSE_COST)
		*value *= 100; /* money to cents */
	return ERR_NONE;
}

struct setting {
	const struct desk *desk;
	struct arena *arena;
	const struct work_usual_ask *ask;
	const struct work_usual *all;
	size_t n;
};

static enum err_code
check_ask(const struct work_usual_ask *ask, struct err *err)
{
	size_t k = 0;

	while (k < COUNT(forms) && strcmp(forms[k].form, ask->form) != 0)
		k++;
	if (k == COUNT(forms))
		return err_report(err, ERR_NOT_FOUND, "kind",
			"\"%.40s\" is no kind of part; it is floor, "
			"floor-panel, wall, roof, roof-panel, roof-pitched, "
			"vault, dome, lintel, block or other.",
			ask->form);
	if (ask->n_bound == 0 && ask->n_drop == 0 && !ask->as_it_comes)
		return err_report(err, ERR_INPUT, "--least",
			"Say what is to change: --least, --most, --drop or "
			"--as-it-comes.");
	if (ask->n_bound + ask->n_drop > 0 &&
		(ask->source == NULL || ask->source[0] == '\0'))
		return err_report(err, ERR_INPUT, "--source",
			"Say where it comes from, for whoever reads it later: "
			"--source \"local code, table 3\"; where there is no "
			"source, --source \"common practice\".");
	return ERR_NONE;
}

static enum err_code
put_row(const struct setting *s, const struct work_usual *u, struct err *err)
{
	struct book_usual row = {
		.row = {.id = u->id,
			.typed = s->ask->typed != NULL ? s->ask->typed : ""},
		.form = s->ask->form,
		.measure = u->measure,
		.bound = u->is_least ? "least" : "most",
		.value = u->value,
		.is_asked = u->is_asked,
		.source = s->ask->source};

	return book_put_usual(s->desk->book, &row, err);
}

static int64_t
id_of(const struct setting *s, const char *measure, bool is_least)
{
	for (size_t i = 0; i < s->n; i++)
		if (is_same(&s->all[i], s->ask->form, measure, is_least))
			return s->all[i].id;
	return 0;
}

static enum err_code
put_bound(const struct setting *s, const struct work_bound *bound,
	struct err *err)
{
	struct work_usual u = {.measure = bound->measure,
		.is_least = bound->is_least,
		.is_asked = true,
		.id = id_of(s, bound->measure, bound->is_least)};

	TRY(work_bound_read(bound, s->desk->gallon, &u.value, err));
	return put_row(s, &u, err);
}

/* Both bounds of a measure. */
static enum err_code
drop(const struct setting *s, const char *measure, struct err *err)
{
	size_t n = 0;

	for (size_t i = 0; i < s->n; i++) {
		struct work_usual u = s->all[i];

		if (strcmp(u.form, s->ask->form) != 0 ||
			strcmp(u.measure, measure) != 0 || !u.is_asked)
			continue;
		u.is_asked = false;
		n++;
		TRY(put_row(s, &u, err));
	}
	if (n > 0)
		return ERR_NONE;
	return err_report(err, ERR_INPUT, "--drop",
		"Nothing is usually asked of a %s in \"%.40s\".", s->ask->form,
		measure);
}

static enum err_code
set_all(struct setting *s, struct err *err)
{
	const struct work_usual_ask *ask = s->ask;

	for (size_t i = 0; ask->as_it_comes && i < s->n; i++)
		if (strcmp(s->all[i].form, ask->form) == 0 && s->all[i].id != 0)
			TRY(book_take_out_usual(
				s->desk->book, s->arena, s->all[i].id, err));
	if (ask->as_it_comes)
		TRY(work_usual_read(s->desk, s->arena, &s->all, &s->n, err));
	for (size_t i = 0; i < ask->n_drop; i++)
		TRY(drop(s, ask->drop[i], err));
	for (size_t i = 0; i < ask->n_bound; i++)
		TRY(put_bound(s, &ask->bound[i], err));
	return ERR_NONE;
}

enum err_code
work_usual_put(const struct desk *desk, struct arena *arena,
	const struct work_usual_ask *ask, struct err *err)
{
	struct setting s = {.desk = desk, .arena = arena, .ask = ask};

	TRY(check_ask(ask, err));
	TRY(work_usual_read(desk, arena, &s.all, &s.n, err));
	TRY(book_begin(desk->book, desk->now_utc_s, desk->who, "usual",
		desk->submission, err));
	return work_commit_or_undo(desk, ask->form, set_all(&s, err), err);
}
