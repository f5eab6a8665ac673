/* material.c - one material overlaid with what is newly known of it. */
#include "work/material.h"

#include "book/book.h"
#include "core/text.h"

#include <math.h>
#include <string.h>

static const char *const roles[] = {"cement", "binder", "sand", "filler",
	"water", "fibre", "admixture", "agent", "reinforcement", "other"};

struct putting {
	const struct desk *desk;
	struct arena *arena;
	const struct work_material_ask *ask;
	const struct mix_shelf_item *item; /* NULL: not from the shelf */
	struct work_mixer m;
	struct book_material row;
};

/* The figures whose origin is kept, and where they stand. */
static const struct figure {
	const char *name;
	size_t in_row, in_ask, in_item;
} figures[] = {
	{"particle_density",
		offsetof(struct book_material, particle_density_kg_m3),
		offsetof(struct work_material_ask, particle_density_kg_m3),
		offsetof(struct mix_shelf_item, particle_density_kg_m3)},
	{"bulk_density", offsetof(struct book_material, bulk_density_kg_m3),
		offsetof(struct work_material_ask, bulk_density_kg_m3),
		offsetof(struct mix_shelf_item, bulk_density_kg_m3)},
	{"absorption", offsetof(struct book_material, absorption_ratio),
		offsetof(struct work_material_ask, absorption_ratio),
		offsetof(struct mix_shelf_item, absorption_ratio)},
	{"carbon", offsetof(struct book_material, carbon_ratio),
		offsetof(struct work_material_ask, carbon_ratio),
		offsetof(struct mix_shelf_item, carbon_ratio)},
};

enum { N_FIGURE = sizeof figures / sizeof figures[0] };

static struct maybe
maybe_at(const void *base, size_t offset)
{
	return *(const struct maybe *)(const void *)((const char *)base +
		offset);
}

static enum err_code
check_role(const char *role, struct err *err)
{
	for (size_t i = 0; i < sizeof roles / sizeof roles[0]; i++)
		if (strcmp(role, roles[i]) == 0)
			return ERR_NONE;
	return err_report(err, ERR_INPUT, "--role",
		"\"%.40s\" is no role of a material; it is cement, binder, "
		"sand, filler, water, fibre, admixture, agent, reinforcement "
		"or other.",
		role);
}

static enum err_code
find_item(struct putting *p, struct err *err)
{
	if (p->ask->from == NULL)
		return ERR_NONE;
	p->item = mix_shelf_find(p->ask->from);
	if (p->item == NULL)
		return err_report(err, ERR_NOT_FOUND, "--from",
			"There is no \"%.40s\" on the shelf; \"foamwright "
			"material shelf\" lists what there is.",
			p->ask->from);
	return ERR_NONE;
}

/* What the shelf knows, where the book knows nothing. */
static void
take_from_shelf(struct putting *p)
{
	struct book_material *row = &p->row;
	const struct mix_shelf_item *item = p->item;

	for (size_t i = 0; i < N_FIGURE; i++) {
		struct maybe typical = maybe_at(item, figures[i].in_item);

		if (typical.has)
			*(struct maybe *)(void *)((char *)row +
				figures[i].in_row) = typical;
	}
	if (item->dilution_ratio.has)
		row->dilution_ratio = item->dilution_ratio;
	if (row->role == NULL || row->role[0] == '\0')
		row->role = item->role;
	if (row->name == NULL || row->name[0] == '\0')
		row->name = item->what;
}

static void
overlay(struct maybe *to, const struct maybe *with)
{
	if (with->has)
		*to = *with;
}

static enum err_code
take_from_ask(struct putting *p, struct err *err)
{
	const struct work_material_ask *ask = p->ask;
	struct book_material *row = &p->row;

	row->name = ask->name != NULL ? ask->name : row->name;
	row->role = ask->role != NULL ? ask->role : row->role;
	row->note = ask->note != NULL ? ask->note : row->note;
	overlay(&row->particle_density_kg_m3, &ask->particle_density_kg_m3);
	overlay(&row->bulk_density_kg_m3, &ask->bulk_density_kg_m3);
	overlay(&row->moisture_ratio, &ask->moisture_ratio);
	overlay(&row->absorption_ratio, &ask->absorption_ratio);
	overlay(&row->hardness_kg_m3, &ask->hardness_kg_m3);
	overlay(&row->package_kg, &ask->package_kg);
	overlay(&row->carbon_ratio, &ask->carbon_ratio);
	overlay(&row->dilution_ratio, &ask->dilution_ratio);
	if (ask->price.has) {
		if (ask->price.value > 1e9)
			return err_report(err, ERR_INPUT, "--price",
				"A price of %g for a package is more than this "
				"book takes.",
				ask->price.value);
		row->has_price = true;
		row->price_cents = (int64_t)llround(ask->price.value * 100);
	}
	if (row->role == NULL || row->role[0] == '\0')
		return err_report(err, ERR_INPUT, "--role",
			"Say what %s is: --role cement, sand, water and so on, "
			"or --from an item of the shelf.",
			ask->code);
	if (row->name == NULL || row->name[0] == '\0')
		row->name = ask->code;
	return check_role(row->role, err);
}

static int64_t
basis_id(const struct putting *p, const char *figure)
{
	for (size_t i = 0; i < p->m.n_basis; i++)
		if (p->m.basis[i].material_id == p->row.row.id &&
			strcmp(p->m.basis[i].figure, figure) == 0)
			return p->m.basis[i].row.id;
	return 0;
}

static enum err_code
put_basis(struct putting *p, const char *figure, const char *basis,
	const char *source, struct err *err)
{
	struct book_material_basis row = {
		.row = {.id = basis_id(p, figure), .typed = ""},
		.material_id = p->row.row.id,
		.figure = figure,
		.basis = basis,
		.source = source};

	return book_put_material_basis(p->desk->book, &row, err);
}

static enum err_code
put_bases(struct putting *p, struct err *err)
{
	const char *basis = p->ask->basis != NULL ? p->ask->basis : "stated";
	const char *source = p->ask->source != NULL ? p->ask->source : "";

	for (size_t i = 0; i < N_FIGURE; i++) {
		if (maybe_at(p->ask, figures[i].in_ask).has)
			TRY(put_basis(p, figures[i].name, basis, source, err));
		else if (p->item != NULL &&
			maybe_at(p->item, figures[i].in_item).has)
			TRY(put_basis(p, figures[i].name, "typical",
				p->item->source, err));
	}
	if (p->ask->moisture_ratio.has)
		TRY(put_basis(p, "moisture", basis, source, err));
	return ERR_NONE;
}

static enum err_code
put_lot(struct putting *p, struct err *err)
{
	struct book_material_lot lot = {.row = {.typed = ""},
		.material_id = p->row.row.id,
		.code = p->ask->lot,
		.bought_on = p->ask->bought_on != NULL ? p->ask->bought_on : "",
		.note = ""};

	if (p->ask->lot == NULL)
		return ERR_NONE;
	return book_put_material_lot(p->desk->book, &lot, err);
}

static enum err_code
write_all(struct putting *p, struct err *err)
{
	p->row.row.typed = p->ask->typed != NULL ? p->ask->typed : "";
	TRY(book_put_material(p->desk->book, &p->row, err));
	TRY(put_bases(p, err));
	return put_lot(p, err);
}

enum err_code
work_material_put(const struct desk *desk, struct arena *arena,
	const struct work_material_ask *ask, struct book_material *material,
	bool *made, struct err *err)
{
	struct putting p = {.desk = desk, .arena = arena, .ask = ask};
	struct err unknown = {.code = ERR_NONE};
	size_t at;

	TRY(work_mixer_read(desk, arena, &p.m, err));
	p.row = (struct book_material){
		.code = ask->code, .name = "", .role = "", .note = ""};
	*made = work_find_material(&p.m, ask->code, &at, &unknown) != ERR_NONE;
	if (!*made)
		p.row = p.m.site.material[at];
	TRY(find_item(&p, err));
	if (p.item != NULL)
		take_from_shelf(&p);
	TRY(take_from_ask(&p, err));
	TRY(book_begin(desk->book, desk->now_utc_s, desk->who, "material",
		desk->submission, err));
	TRY(work_commit_or_undo(desk, p.row.code, write_all(&p, err), err));
	*material = p.row;
	return ERR_NONE;
}

const struct book_material_basis *
work_material_basis(
	const struct work_mixer *m, size_t material, const char *figure)
{
	int64_t id = m->site.material[material].row.id;

	for (size_t i = 0; i < m->n_basis; i++)
		if (m->basis[i].material_id == id &&
			strcmp(m->basis[i].figure, figure) == 0)
			return &m->basis[i];
	return NULL;
}
