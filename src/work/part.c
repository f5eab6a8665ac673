/* part.c - one part of the building overlaid with what is newly known of it. */
#include "work/part.h"

#include "book/book.h"
#include "core/text.h"

#include <math.h>
#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

/* form as people say it, the book's kind of part */
static const struct form {
	const char *word, *kind;
} forms[] = {
	{"floor", "floor"},
	{"floor-panel", "floor"},
	{"wall", "wall"},
	{"roof", "roof"},
	{"roof-panel", "roof"},
	{"vault", "roof"},
	{"dome", "roof"},
	{"lintel", "other"},
	{"block", "other"},
	{"other", "other"},
};

/* Upright. */
static const double steepest_rad = 1.5707963267948966;

struct putting {
	const struct desk *desk;
	struct arena *arena;
	const struct work_part_ask *ask;
	struct work_parts all;
	struct book_part row;
	struct book_part_use use;
};

enum err_code
work_parts_read(const struct desk *desk, struct arena *arena,
	struct work_parts *out, struct err *err)
{
	struct work_parts got = {0};
	struct book *book = desk->book;

	TRY(work_site_read_plan(book, arena, &got.site, err));
	TRY(book_all_part_use(book, arena, &got.use, &got.n_use, err));
	TRY(book_all_part_layer(book, arena, &got.layer, &got.n_layer, err));
	TRY(book_all_prediction(
		book, arena, &got.prediction, &got.n_prediction, err));
	*out = got;
	return ERR_NONE;
}

struct book_part_use
work_part_use(const struct work_parts *parts, const struct book_part *part)
{
	for (size_t i = 0; i < parts->n_use; i++)
		if (parts->use[i].part_id == part->row.id)
			return parts->use[i];
	return (struct book_part_use){.row = {.typed = ""},
		.part_id = part->row.id,
		.form = part->kind,
		.grip = ""};
}

enum err_code
work_find_part(const struct work_site *site, const char *code, size_t *index,
	struct err *err)
{
	for (size_t i = 0; i < site->n_part; i++) {
		if (strcmp(site->part[i].code, code) == 0) {
			*index = i;
			return ERR_NONE;
		}
	}
	return err_report(err, ERR_NOT_FOUND, "part",
		"There is no part of the building \"%.60s\" in the book; "
		"\"foamwright duty BOOK\" lists what there is, \"foamwright "
		"part\" or parts.csv enters one.",
		code);
}

static enum err_code
take_form(struct putting *p, struct err *err)
{
	const char *form = p->ask->form != NULL ? p->ask->form : p->use.form;

	for (size_t i = 0; form != NULL && i < COUNT(forms); i++) {
		if (strcmp(forms[i].word, form) != 0)
			continue;
		p->row.kind = forms[i].kind;
		p->use.form = forms[i].word;
		return ERR_NONE;
	}
	if (form == NULL)
		return err_report(err, ERR_INPUT, "--kind",
			"Say what %s is: --kind wall, floor, floor-panel, "
			"roof, roof-panel, vault, dome, lintel, block or "
			"other.",
			p->ask->code);
	return err_report(err, ERR_INPUT, "--kind",
		"\"%.40s\" is no kind of part; it is floor, floor-panel, wall, "
		"roof, roof-panel, vault, dome, lintel, block or other.",
		form);
}

/* A size given: over zero, then taken. */
static enum err_code
take_size(struct maybe *to, const struct maybe *given, const char *option,
	const char *what, struct err *err)
{
	if (!given->has)
		return ERR_NONE;
	if (!(given->value > 0) || !isfinite(given->value))
		return err_report(err, ERR_INPUT, option,
			"A %s of %g cannot be; it is more than 0.", what,
			given->value);
	*to = *given;
	return ERR_NONE;
}

static enum err_code
check_openings(const struct book_part *row, struct err *err)
{
	double area = row->length_m.value * row->height_m.value;

	if (row->openings_m2.has && row->length_m.has && row->height_m.has &&
		!(row->openings_m2.value < area))
		return err_report(err, ERR_INPUT, "--openings",
			"%s has %.3g m2 of openings in %.3g m2 of wall; there "
			"must be less opening than wall.",
			row->code, row->openings_m2.value, area);
	if (row->waste_ratio.has && !(row->waste_ratio.value < 1))
		return err_report(err, ERR_INPUT, "--waste",
			"A waste of %.0f %% cannot be; it is less than 100 %%.",
			100 * row->waste_ratio.value);
	return ERR_NONE;
}

static enum err_code
take_sizes(struct putting *p, struct err *err)
{
	const struct work_part_ask *ask = p->ask;
	struct book_part *row = &p->row;

	TRY(take_size(
		&row->length_m, &ask->length_m, "--length", "length", err));
	TRY(take_size(&row->height_m, &ask->height_m, "--height",
		"height (or width)", err));
	TRY(take_size(&row->thickness_m, &ask->thickness_m, "--thickness",
		"thickness", err));
	TRY(take_size(
		&row->volume_m3, &ask->volume_m3, "--volume", "volume", err));
	TRY(take_size(&row->batch_m3, &ask->batch_m3, "--batch", "batch", err));
	if (ask->openings_m2.has)
		row->openings_m2 = ask->openings_m2;
	if (ask->waste_ratio.has)
		row->waste_ratio = ask->waste_ratio;
	row->name = ask->name != NULL ? ask->name : row->name;
	row->note = ask->note != NULL ? ask->note : row->note;
	if (row->name[0] == '\0')
		row->name = row->code;
	return check_openings(row, err);
}

/* Where the values of a use stand, with option and whether 0 may be. */
static const struct use_value {
	size_t at;
	const char *option, *what;
	bool may_be_zero;
} use_values[] = {
	{offsetof(struct book_part_use, span_m), "--span", "span", false},
	{offsetof(struct book_part_use, load_n_m), "--load", "load", true},
	{offsetof(struct book_part_use, area_load_pa), "--area-load", "load",
		true},
	{offsetof(struct book_part_use, wind_pa), "--wind", "wind", true},
	{offsetof(struct book_part_use, point_load_n), "--point-load",
		"point load", false},
	{offsetof(struct book_part_use, point_width_m), "--point-width",
		"width of the foot", false},
	{offsetof(struct book_part_use, subgrade_pa), "--ground-pressure",
		"pressure on the ground", false},
	{offsetof(struct book_part_use, subgrade_sinks_m), "--ground-sinks",
		"sinking", false},
	{offsetof(struct book_part_use, modulus_pa), "--modulus", "modulus",
		false},
	{offsetof(struct book_part_use, radius_m), "--radius", "radius", false},
	{offsetof(struct book_part_use, steel_m2), "--steel",
		"steel area of a metre", false},
	{offsetof(struct book_part_use, effective_m), "--steel-depth",
		"depth of the steel", false},
	{offsetof(struct book_part_use, yield_pa), "--yield", "yield stress",
		false},
	{offsetof(struct book_part_use, lift_m), "--lift", "lift", false},
	{offsetof(struct book_part_use, moisture_ratio), "--moisture",
		"moisture", true},
	{offsetof(struct book_part_use, safety), "--safety", "safety factor",
		false},
	{offsetof(struct book_part_use, pitch_rad), "--pitch", "pitch", true},
};

static enum err_code
take_use(struct putting *p, struct err *err)
{
	static const char *const grips[] = {"ends", "inner", "middle"};
	const char *grip = p->ask->use.grip;
	bool known = grip == NULL;

	for (size_t i = 0; i < COUNT(use_values); i++) {
		const struct use_value *v = &use_values[i];
		struct maybe *to = (struct maybe *)(void *)((char *)&p->use +
			v->at);
		const struct maybe *given = (const struct maybe *)(const void
				*)((const char *)&p->ask->use + v->at);

		if (v->may_be_zero && given->has)
			*to = *given;
		else
			TRY(take_size(to, given, v->option, v->what, err));
	}
	if (p->use.safety.has && p->use.safety.value < 1)
		return err_report(err, ERR_INPUT, "--safety",
			"A safety factor of %g makes the part weaker than it "
			"is; it is 1 or more.",
			p->use.safety.value);
	if (p->use.pitch_rad.has &&
		!(p->use.pitch_rad.value >= 0 &&
			p->use.pitch_rad.value < steepest_rad))
		return err_report(err, ERR_INPUT, "--pitch",
			"A roof leans from 0 deg, level, to below 90 deg, "
			"upright.");
	for (size_t i = 0; grip != NULL && i < COUNT(grips); i++)
		known = known || strcmp(grips[i], grip) == 0;
	if (!known)
		return err_report(err, ERR_INPUT, "--lifted",
			"A piece is lifted by its ends, by two inner points or "
			"in the middle: --lifted ends, inner or middle; not "
			"\"%.40s\".",
			grip);
	p->use.grip = grip != NULL ? grip : p->use.grip;
	return ERR_NONE;
}

/* The id of the requirement that holds now; 0 where there is none. */
static int64_t
requirement_id(const struct putting *p, const char *measure, const char *bound)
{
	for (size_t i = 0; i < p->all.site.n_requirement; i++) {
		const struct book_requirement *r = &p->all.site.requirement[i];

		if (r->part_id == p->row.row.id &&
			strcmp(r->measure, measure) == 0 &&
			strcmp(r->bound, bound) == 0)
			return r->row.id;
	}
	return 0;
}

static enum err_code
put_requirement(const struct putting *p, const char *measure, bool is_least,
	double value, const char *source, struct err *err)
{
	const char *bound = is_least ? "least" : "most";
	struct book_requirement row = {
		.row = {.id = requirement_id(p, measure, bound), .typed = ""},
		.part_id = p->row.row.id,
		.measure = measure,
		.bound = bound,
		.value = value,
		.source = source};

	return book_put_requirement(p->desk->book, &row, err);
}

static enum err_code
put_bound(const struct putting *p, const struct work_bound *b, struct err *err)
{
	double value;

	TRY(work_bound_read(b, p->desk->gallon, &value, err));
	return put_requirement(p, b->measure, b->is_least, value,
		p->ask->source != NULL ? p->ask->source : "", err);
}

/* Both bounds of a measure. */
static enum err_code
drop_measure(const struct putting *p, const char *measure, struct err *err)
{
	static const char *const bounds[] = {"least", "most"};
	size_t n = 0;

	for (size_t i = 0; i < COUNT(bounds); i++) {
		int64_t id = requirement_id(p, measure, bounds[i]);

		if (id == 0)
			continue;
		n++;
		TRY(book_take_out_requirement(
			p->desk->book, p->arena, id, err));
	}
	if (n > 0)
		return ERR_NONE;
	return err_report(err, ERR_INPUT, "--drop",
		"%s asks nothing in \"%.40s\".", p->row.code, measure);
}

/* Was it asked in so many words? */
static bool
is_asked(const struct work_part_ask *ask, const struct work_usual *u)
{
	for (size_t i = 0; i < ask->n_bound; i++)
		if (ask->bound[i].is_least == u->is_least &&
			strcmp(ask->bound[i].measure, u->measure) == 0)
			return true;
	return false;
}

static enum err_code
put_usual(const struct putting *p, struct err *err)
{
	const char *form = work_usual_form(&p->use);
	const struct work_usual *usual;
	size_t n;

	if (!p->ask->usual)
		return ERR_NONE;
	TRY(work_usual_read(p->desk, p->arena, &usual, &n, err));
	for (size_t i = 0; i < n; i++) {
		const struct work_usual *u = &usual[i];
		const char *bound = u->is_least ? "least" : "most";

		if (u->is_asked && strcmp(u->form, form) == 0 &&
			!is_asked(p->ask, u) &&
			requirement_id(p, u->measure, bound) == 0)
			TRY(put_requirement(p, u->measure, u->is_least,
				u->value, u->source, err));
	}
	return ERR_NONE;
}

static enum err_code
put_layer(const struct putting *p, struct book_part_layer row, struct err *err)
{
	row.part_id = p->row.row.id;
	row.row.typed = "";
	for (size_t i = 0; i < p->all.n_layer; i++) {
		const struct book_part_layer *met = &p->all.layer[i];

		if (met->part_id == row.part_id &&
			strcmp(met->side, row.side) == 0 &&
			strcmp(met->name, row.name) == 0)
			row.row.id = met->row.id;
	}
	return book_put_part_layer(p->desk->book, &row, err);
}

static enum err_code
write_all(struct putting *p, struct err *err)
{
	struct book *book = p->desk->book;

	p->row.row.typed = p->ask->typed != NULL ? p->ask->typed : "";
	TRY(book_put_part(book, &p->row, err));
	p->use.part_id = p->row.row.id;
	p->use.row.typed = "";
	TRY(book_put_part_use(book, &p->use, err));
	for (size_t i = 0; i < p->ask->n_drop; i++)
		TRY(drop_measure(p, p->ask->drop[i], err));
	for (size_t i = 0; i < p->ask->n_bound; i++)
		TRY(put_bound(p, &p->ask->bound[i], err));
	TRY(put_usual(p, err));
	for (size_t i = 0; i < p->ask->n_layer; i++)
		TRY(put_layer(p, p->ask->layer[i], err));
	return ERR_NONE;
}

enum err_code
work_part_put(const struct desk *desk, struct arena *arena,
	const struct work_part_ask *ask, bool *made, struct err *err)
{
	struct putting p = {.desk = desk, .arena = arena, .ask = ask};
	struct err unknown = {.code = ERR_NONE};
	size_t at;

	TRY(work_parts_read(desk, arena, &p.all, err));
	p.row = (struct book_part){.code = ask->code, .name = "", .note = ""};
	p.use = (struct book_part_use){.grip = ""};
	*made = work_find_part(&p.all.site, ask->code, &at, &unknown) !=
		ERR_NONE;
	if (!*made) {
		p.row = p.all.site.part[at];
		p.use = work_part_use(&p.all, &p.row);
	}
	TRY(take_form(&p, err));
	TRY(take_sizes(&p, err));
	TRY(take_use(&p, err));
	TRY(book_begin(desk->book, desk->now_utc_s, desk->who, "part",
		desk->submission, err));
	return work_commit_or_undo(desk, p.row.code, write_all(&p, err), err);
}
