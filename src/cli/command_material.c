/* command_material.c - the shelf of typical values, and the own materials. */
#include "cli/fields.h"
#include "cli/figure.h"
#include "cli/table.h"

#include "work/material.h"
#include "work/shelf.h"

#include <string.h>

#define AT(member) offsetof(struct work_material_ask, member)

static const struct field fields[] = {
	{"--from", FIELD_TEXT, UNIT_NUMBER, AT(from)},
	{"--name", FIELD_TEXT, UNIT_NUMBER, AT(name)},
	{"--role", FIELD_TEXT, UNIT_NUMBER, AT(role)},
	{"--note", FIELD_TEXT, UNIT_NUMBER, AT(note)},
	{"--particle-density", FIELD_MAYBE, UNIT_DENSITY,
		AT(particle_density_kg_m3)},
	{"--bulk-density", FIELD_MAYBE, UNIT_DENSITY, AT(bulk_density_kg_m3)},
	{"--moisture", FIELD_MAYBE, UNIT_RATIO, AT(moisture_ratio)},
	{"--absorption", FIELD_MAYBE, UNIT_RATIO, AT(absorption_ratio)},
	{"--hardness", FIELD_MAYBE, UNIT_CONCENTRATION, AT(hardness_kg_m3)},
	{"--package", FIELD_MAYBE, UNIT_MASS, AT(package_kg)},
	{"--price", FIELD_MAYBE, UNIT_NUMBER, AT(price)},
	{"--carbon", FIELD_MAYBE, UNIT_NUMBER, AT(carbon_ratio)},
	{"--dilution", FIELD_MAYBE, UNIT_NUMBER, AT(dilution_ratio)},
	{"--source", FIELD_TEXT, UNIT_NUMBER, AT(source)},
	{"--lot", FIELD_TEXT, UNIT_NUMBER, AT(lot)},
	{"--bought", FIELD_DATE, UNIT_NUMBER, AT(bought_on)},
};

static const struct command_option options[] = {
	{"--from", "ITEM", "starts from a typical item of the shelf", false},
	{"--name", "TEXT", "what it is called", false},
	{"--role", "ROLE", "cement, sand, water, agent, ...", false},
	{"--particle-density", "DENSITY", "of its dry grains", false},
	{"--bulk-density", "DENSITY", "loose in a bucket", false},
	{"--moisture", "SHARE", "all its water per dry mass, today", false},
	{"--absorption", "SHARE", "what the grains soak up", false},
	{"--hardness", "MG/L", "of water", false},
	{"--package", "MASS", "a bag, a canister", false},
	{"--price", "MONEY", "of a package", false},
	{"--carbon", "RATIO", "kg of CO2 per kg", false},
	{"--dilution", "N", "of an agent: parts of water by mass to 1", false},
	{"--weighed", NULL, "the figures given here are the own weighing",
		false},
	{"--source", "TEXT", "where the figures given here come from", false},
	{"--lot", "CODE", "a delivery that was bought", false},
	{"--bought", "DATE", "when that was", false},
	{"--note", "TEXT", "a remark", false}, {0}};

static const char *
shown(struct arena *a, struct maybe value, enum unit_kind kind,
	const char *word, int digits)
{
	return value.has ? unit_write(a, value.value, kind, word, digits) : "";
}

static void
shelf_rows(const struct invocation *in, struct table *table)
{
	size_t n;
	const struct mix_shelf_item *item = mix_shelf(&n);

	for (size_t i = 0; i < n; i++) {
		const char *cell[] = {item[i].name, item[i].role,
			shown(in->arena, item[i].particle_density_kg_m3,
				UNIT_DENSITY, "kg/m3", 4),
			shown(in->arena, item[i].bulk_density_kg_m3,
				UNIT_DENSITY, "kg/m3", 4),
			item[i].what};

		table_row(table, cell);
	}
}

static enum err_code
show_shelf(const struct invocation *in, struct err *err)
{
	static const char *const heading[] = {
		"item", "role", "grains", "in a bucket", "what it is"};
	struct table table;
	struct text text;
	struct jsonout json;
	size_t n;
	const struct mix_shelf_item *item = mix_shelf(&n);

	if (!in->json) {
		table_start(&table, in->arena, heading, 5, 0xC);
		shelf_rows(in, &table);
		table_show(in, &table, stdout);
		if (in->csv)
			return ERR_NONE;
		print_folded(stdout, 0,
			"All of it typical: common practice, no source. Weigh "
			"your own as soon as you can; \"foamwright calc\" "
			"reckons from a bucket, a jar and a pan.");
		return ERR_NONE;
	}
	text_init(&text, in->arena);
	jsonout_init(&json, &text);
	jsonout_open_array(&json);
	for (size_t i = 0; i < n; i++) {
		jsonout_open_object(&json);
		jsonout_key_string(&json, "item", item[i].name);
		jsonout_key_string(&json, "role", item[i].role);
		jsonout_key_string(&json, "what", item[i].what);
		if (item[i].particle_density_kg_m3.has)
			jsonout_key_quantity(&json, "particle_density",
				item[i].particle_density_kg_m3.value, "kg/m3");
		if (item[i].bulk_density_kg_m3.has)
			jsonout_key_quantity(&json, "bulk_density",
				item[i].bulk_density_kg_m3.value, "kg/m3");
		jsonout_key_string(&json, "source", item[i].source);
		jsonout_close_object(&json);
	}
	jsonout_close_array(&json);
	if (jsonout_failed(&json))
		return err_memory(err);
	(void)puts(text.bytes);
	return ERR_NONE;
}

static const char *
density_shown(
	const struct invocation *in, const struct work_mixer *m, size_t at)
{
	const struct book_material *row = &m->site.material[at];
	const struct book_material_basis *basis = work_material_basis(
		m, at, "particle_density");
	const char *value = shown(in->arena, row->particle_density_kg_m3,
		UNIT_DENSITY, "kg/m3", 4);

	if (basis == NULL || !row->particle_density_kg_m3.has)
		return value;
	return text_format(in->arena, "%s, %s", value, basis->basis);
}

static enum err_code
json_materials(const struct invocation *in, const struct work_mixer *m,
	struct err *err)
{
	struct text text;
	struct jsonout json;

	text_init(&text, in->arena);
	jsonout_init(&json, &text);
	jsonout_open_array(&json);
	for (size_t i = 0; i < m->site.n_material; i++) {
		const struct book_material *row = &m->site.material[i];
		const struct book_material_basis *basis = work_material_basis(
			m, i, "particle_density");

		jsonout_open_object(&json);
		jsonout_key_string(&json, "code", row->code);
		jsonout_key_string(&json, "role", row->role);
		jsonout_key_string(&json, "name", row->name);
		if (row->particle_density_kg_m3.has)
			jsonout_key_quantity(&json, "particle_density",
				row->particle_density_kg_m3.value, "kg/m3");
		if (basis != NULL)
			jsonout_key_string(&json, "basis", basis->basis);
		if (row->package_kg.has)
			jsonout_key_quantity(
				&json, "package", row->package_kg.value, "kg");
		if (row->has_price)
			jsonout_key_number(
				&json, "price", (double)row->price_cents / 100);
		jsonout_close_object(&json);
	}
	jsonout_close_array(&json);
	if (jsonout_failed(&json))
		return err_memory(err);
	(void)puts(text.bytes);
	return ERR_NONE;
}

static const char *
exact(const struct invocation *in, struct maybe m)
{
	return m.has ? exact_figure(in->arena, m.value) : "";
}

static void
csv_materials(const struct invocation *in, const struct work_mixer *m)
{
	const char *const heading[] = {"code", "name", "role",
		"particle density kg/m3", "bulk density kg/m3",
		"moisture ratio", "absorption ratio", "package kg",
		text_format(in->arena, "price of a package %s",
			m->site.info.currency),
		"carbon kg/kg", "note"};
	struct table table;

	table_start(&table, in->arena, heading,
		sizeof heading / sizeof heading[0], 0);
	for (size_t i = 0; i < m->site.n_material; i++) {
		const struct book_material *row = &m->site.material[i];
		const char *cell[] = {row->code, row->name, row->role,
			exact(in, row->particle_density_kg_m3),
			exact(in, row->bulk_density_kg_m3),
			exact(in, row->moisture_ratio),
			exact(in, row->absorption_ratio),
			exact(in, row->package_kg),
			row->has_price ? text_format(in->arena, "%.2f",
						 (double)row->price_cents / 100)
				       : "",
			exact(in, row->carbon_ratio), row->note};

		table_row(&table, cell);
	}
	table_show(in, &table, stdout);
}

static enum err_code
list_materials(
	const struct invocation *in, const struct desk *desk, struct err *err)
{
	const char *heading[] = {
		"code", "role", "grains", "package", "price", "name"};
	struct work_mixer m;
	struct table table;

	TRY(work_mixer_read(desk, in->arena, &m, err));
	if (in->json)
		return json_materials(in, &m, err);
	if (in->csv) {
		csv_materials(in, &m);
		return ERR_NONE;
	}
	if (m.site.n_material == 0) {
		(void)puts("There is no material in the book yet. \"foamwright "
			   "material shelf\" shows typical ones\nto start "
			   "from.");
		return ERR_NONE;
	}
	heading[4] = text_format(in->arena, "price,\n%s", m.site.info.currency);
	table_start(&table, in->arena, heading, 6, 0x18);
	for (size_t i = 0; i < m.site.n_material; i++) {
		const struct book_material *row = &m.site.material[i];
		const char *cell[] = {row->code, row->role,
			density_shown(in, &m, i),
			shown(in->arena, row->package_kg, UNIT_MASS, "kg", 3),
			row->has_price ? text_format(in->arena, "%.2f",
						 (double)row->price_cents / 100)
				       : "",
			row->name};

		table_row(&table, cell);
	}
	table_print(&table, stdout);
	return ERR_NONE;
}

static enum err_code
put_material(
	const struct invocation *in, const struct desk *desk, struct err *err)
{
	struct work_material_ask ask = {.code = in->word[1],
		.basis = invocation_has(in, "--weighed") ? "weighed" : NULL,
		.typed = fields_typed(in)};
	struct book_material got;
	bool made;

	if (ask.typed == NULL)
		return err_memory(err);
	TRY(fields_read(
		in, fields, sizeof fields / sizeof fields[0], &ask, err));
	TRY(work_material_put(desk, in->arena, &ask, &got, &made, err));
	if (in->json)
		(void)printf("{\"made\": %s}\n", made ? "true" : "false");
	else
		(void)printf("%s %s, %s.\n", made ? "Entered" : "Corrected",
			got.code, got.name);
	return ERR_NONE;
}

static enum err_code
run_material(const struct invocation *in, struct err *err)
{
	struct desk desk;
	bool list = in->n_word == 1;
	enum err_code code;

	if (list && strcmp(in->word[0], "shelf") == 0)
		return show_shelf(in, err);
	TRY(desk_open(in->word[0], !list, in, &desk, err));
	code = list ? list_materials(in, &desk, err)
		    : put_material(in, &desk, err);
	desk_close(&desk);
	return code;
}

const struct command command_material = {
	.name = "material",
	.line = "enters and lists materials; a shelf of typical ones to start",
	.help = "  foamwright material shelf              typical values\n"
		"  foamwright material BOOK               lists the own\n"
		"  foamwright material BOOK CODE [OPTIONS]  enters or corrects"
		"\n\nWhat is not given stays as it is; the earlier figures "
		"stay "
		"in the book. Cement\nburns skin and eyes: gloves, goggles, "
		"and "
		"no dust in the lungs.\n",
	.example = "foamwright material site.book cement --from cement "
		   "--package \"25 kg\" --price 3.50",
	.least_words = 1,
	.most_words = 2,
	.options = options,
	.run = run_material,
	.csv = true,
	.writes = true,
};
