/* command_design.c - a mix designed for a part of the building. */
#include "cli/fields.h"
#include "cli/table.h"

#include "work/choose.h"
#include "work/design.h"
#include "work/shelf.h"

#define AT(member) offsetof(struct work_design_ask, member)
static const struct field fields[] = {
	{"--part", FIELD_TEXT, UNIT_NUMBER, AT(part)},
	{"--chance", FIELD_MAYBE, UNIT_RATIO, AT(chance)},
};
#undef AT

static const struct command_option options[] = {
	{"--part", "CODE", "of the building: what the mix is for", false},
	{"--chance", "SHARE", "wanted, of meeting all that is asked (80 %)",
		false},
	{0}};

static double
newton_mm2(double pascal)
{
	return pascal / 1e6;
}

static void
print_best(const struct invocation *in, const struct work_designed *d)
{
	const struct choose_design *b = &d->best;
	const struct book_part *part = &d->m.site.part[d->part];

	print_folded(stdout, 0,
		text_format(in->arena,
			"%s mix for %s (%s): %s in 100 that its next batch "
			"meets all that can be foreseen.",
			d->found ? "The cheapest" : "The likeliest", part->code,
			part->name, work_chance_words(in->arena, b->chance)));
	(void)printf("  %s %.0f kg, %s %.0f kg", d->cement, b->cement.kg,
		d->water, b->water.kg);
	if (b->sand.kg > 0)
		(void)printf(", %s %.0f kg dry", d->sand, b->sand.kg);
	(void)printf(", foam %.0f L of %.0f g/L in 1 m3\n",
		b->foam_m3_per_m3 * 1000, d->foam.kg_m3);
	(void)printf("  wet %.0f, oven-dry %.0f kg/m3; water/cement %.2f; %.0f "
		     "%% foam; %.2f %s a m3\n",
		b->wet_kg_m3, b->oven_dry_kg_m3, b->water_cement_ratio,
		b->foam_fraction * 100, b->cents_per_m3 / 100,
		d->m.site.info.currency);
	(void)printf("  crushing %.2f (%.2f to %.2f) N/mm2, bending %.2f (%.2f "
		     "to %.2f), lambda %.2f W/(m K)\n",
		newton_mm2(b->crushing.median_pa),
		newton_mm2(b->crushing.low_pa), newton_mm2(b->crushing.high_pa),
		newton_mm2(b->bending.median_pa), newton_mm2(b->bending.low_pa),
		newton_mm2(b->bending.high_pa), b->conductivity);
	(void)printf("  learnt from %zu crushed and %zu bent batches of this "
		     "book\n",
		d->n_crushing, d->n_bending);
}

static void
print_front(const struct invocation *in, const struct work_designed *d)
{
	const char *const heading[] = {"wet\nkg/m3", "oven-dry\nkg/m3",
		"water\nto 1", "sand\nto 1", "crushing N/mm2\n(90 in 100)",
		"lambda\nW/(m K)",
		text_format(in->arena, "%s\na m3", d->m.site.info.currency),
		"meets\nin 100", ""};
	struct table table;

	table_start(&table, in->arena, heading, 9, 0xFF);
	for (size_t i = 0; i < d->n_front; i++) {
		const struct choose_design *f = &d->front[i];
		struct arena *a = in->arena;
		const char *cell[] = {text_format(a, "%.0f", f->wet_kg_m3),
			text_format(a, "%.0f", f->oven_dry_kg_m3),
			text_format(a, "%.2f", f->water_cement_ratio),
			text_format(a, "%.2f", f->sand_cement_ratio),
			text_format(a, "%.2f (%.2f-%.2f)",
				newton_mm2(f->crushing.median_pa),
				newton_mm2(f->crushing.low_pa),
				newton_mm2(f->crushing.high_pa)),
			text_format(a, "%.2f", f->conductivity),
			text_format(a, "%.2f", f->cents_per_m3 / 100),
			work_chance_words(a, f->chance),
			f->is_beaten ? "beaten" : ""};

		table_row(&table, cell);
	}
	(void)puts("Lighter and heavier, each the best of its weight:");
	table_print(&table, stdout);
	print_folded(stdout, 0,
		"Water and sand are masses to 1 of cement, the foam's water "
		"not counted: more water makes it runnier and weaker. Lambda "
		"says how easily heat goes through: with half of it a wall of "
		"half the thickness keeps as warm.");
	for (size_t i = 0; i < d->n_front; i++) {
		if (!d->front[i].is_beaten)
			continue;
		(void)puts("beaten: another line is no worse in anything.");
		break;
	}
}

static void
json_design(struct jsonout *json, const struct choose_design *d)
{
	jsonout_open_object(json);
	jsonout_key_quantity(json, "wet_density", d->wet_kg_m3, "kg/m3");
	jsonout_key_quantity(
		json, "oven_dry_density", d->oven_dry_kg_m3, "kg/m3");
	jsonout_key_number(json, "water_cement_ratio", d->water_cement_ratio);
	jsonout_key_number(json, "sand_cement_ratio", d->sand_cement_ratio);
	jsonout_key_quantity(json, "cement", d->cement.kg, "kg");
	jsonout_key_quantity(json, "water", d->water.kg, "kg");
	jsonout_key_quantity(json, "sand", d->sand.kg, "kg");
	jsonout_key_interval(json, "crushing_strength", d->crushing.low_pa,
		d->crushing.high_pa, "Pa");
	jsonout_key_interval(json, "bending_strength", d->bending.low_pa,
		d->bending.high_pa, "Pa");
	jsonout_key_quantity(json, "conductivity", d->conductivity, "W/(m K)");
	jsonout_key_number(json, "cost_per_m3", d->cents_per_m3 / 100);
	jsonout_key_number(json, "chance", d->chance);
	jsonout_key_bool(json, "beaten", d->is_beaten);
	jsonout_close_object(json);
}

static enum err_code
print_json(const struct invocation *in, const struct work_designed *d,
	struct err *err)
{
	struct text text;
	struct jsonout json;

	json_start(in, &text, &json);
	jsonout_key_string(&json, "part", d->m.site.part[d->part].code);
	jsonout_key_bool(&json, "found", d->found);
	jsonout_key(&json, "best");
	json_design(&json, &d->best);
	jsonout_key(&json, "front");
	jsonout_open_array(&json);
	for (size_t i = 0; i < d->n_front; i++)
		json_design(&json, &d->front[i]);
	jsonout_close_array(&json);
	jsonout_key(&json, "notes");
	jsonout_open_array(&json);
	for (size_t i = 0; i < d->n_sentence; i++)
		jsonout_string(&json, d->sentence[i]);
	jsonout_close_array(&json);
	return json_finish(&json, err);
}

static enum err_code
run_design(const struct invocation *in, struct err *err)
{
	struct work_design_ask ask = {.part = NULL};
	struct work_designed d;
	struct desk desk;
	enum err_code code;

	TRY(fields_read(
		in, fields, sizeof fields / sizeof fields[0], &ask, err));
	if (ask.part == NULL)
		return err_report(err, ERR_INPUT, "--part",
			"Say for which part of the building: --part roof.");
	TRY(desk_open(in->word[0], false, in, &desk, err));
	code = work_design(&desk, in->arena, &ask, &d, err);
	desk_close(&desk);
	if (code != ERR_NONE)
		return code;
	if (in->json)
		return print_json(in, &d, err);
	print_best(in, &d);
	print_front(in, &d);
	for (size_t i = 0; i < d.n_sentence; i++)
		print_folded(stdout, 0, d.sentence[i]);
	return ERR_NONE;
}

const struct command command_design = {
	.name = "design",
	.line = "the cheapest mix for a part, and what lighter ones give",
	.help = "  foamwright design BOOK --part CODE [--chance 80%]\n\nAmong "
		"the book's first cement, water and sand, with strength as its "
		"batches\nteach it (docs/methods/foresee.md).\n",
	.example = "foamwright design site.book --part roof",
	.least_words = 1,
	.most_words = 1,
	.options = options,
	.run = run_design,
};
