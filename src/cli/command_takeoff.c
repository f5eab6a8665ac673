/* command_takeoff.c - what the building takes. */
#include "cli/fields.h"
#include "cli/table.h"
#include "cli/takeoff_ask.h"

#include "work/shelf.h"
#include "work/takeoff.h"

#define AT(member) offsetof(struct work_takeoff_ask, member)
static const struct field fields[] = {
	{"--waste", FIELD_MAYBE, UNIT_RATIO, AT(waste_ratio)},
	{"--batch", FIELD_MAYBE, UNIT_VOLUME, AT(batch_m3)},
	{"--mesh-width", FIELD_MAYBE, UNIT_LENGTH, AT(mesh_width_m)},
	{"--mesh-length", FIELD_MAYBE, UNIT_LENGTH, AT(mesh_length_m)},
	{"--mesh-lap", FIELD_MAYBE, UNIT_LENGTH, AT(mesh_lap_m)},
	{"--mesh-layers", FIELD_WHOLE, UNIT_NUMBER, AT(mesh_layers)},
};
#undef AT

static const struct command_option options[] = {
	{"--part", "PART", "this part alone; may be given again", true},
	{"--mix", "PART=MIX", "the mix of a part, before what is decided",
		true},
	{"--waste", "SHARE", "spilled and left over, if the part has none",
		false},
	{"--batch", "VOLUME", "of one batch, if the part has none", false},
	{"--mesh", "PART", "a part with mesh", true},
	{"--mesh-width", "LENGTH", "of a sheet of mesh", false},
	{"--mesh-length", "LENGTH", "of a sheet of mesh", false},
	{"--mesh-lap", "LENGTH", "of one sheet over the next (150 mm)", false},
	{"--mesh-layers", "N", "of mesh (1)", false},
	{"--show-work", NULL, "each formula with its figures", false}, {0}};

static void
print_parts(const struct invocation *in, const struct work_takeoff *t)
{
	static const char *const heading[] = {"part", "mix", "net", "to mix",
		"batches", "of", "last", "foam", "fresh mix"};
	struct table table;

	table_start(&table, in->arena, heading, 9, 0x1fc);
	for (size_t i = 0; i < t->n_part; i++) {
		const struct work_part_taken *p = &t->part[i];
		double batch = p->sizes.batch_m3.value * 1000;
		double n = p->taken.n_batch;
		const char *cell[] = {p->sizes.code, t->m.site.mix[p->mix].code,
			text_format(in->arena, "%.2f m3", p->taken.net_m3),
			text_format(in->arena, "%.2f m3", p->taken.mixed_m3),
			p->taken.has_batches ? text_format(in->arena, "%.0f", n)
					     : "?",
			p->taken.has_batches
				? text_format(in->arena, "%.0f L", batch)
				: "",
			p->taken.has_batches
				? text_format(in->arena, "%.0f L",
					  p->taken.mixed_m3 * 1000 -
						  (n - 1) * batch)
				: "",
			text_format(in->arena, "%.1f m3", p->taken.foam_m3),
			text_format(in->arena, "%.0f kg", p->lifted_kg)};

		table_row(&table, cell);
	}
	table_print(&table, stdout);
}

static void
print_buying(const struct invocation *in, const struct work_takeoff *t)
{
	const char *const heading[] = {"", "to buy", "packages", "of", "needed",
		"left", t->m.site.info.currency};
	struct table table;

	table_start(&table, in->arena, heading, 7, 0x7c);
	for (size_t i = 0; i < t->n_bought; i++) {
		const struct work_bought *b = &t->bought[i];
		const struct book_material *m =
			&t->m.site.material[b->material];
		const char *cell[] = {"[ ]", m->code,
			b->has_package
				? text_format(in->arena, "%.0f", b->n_package)
				: "loose",
			b->has_package ? text_format(in->arena, "%g kg",
						 m->package_kg.value)
				       : "",
			text_format(in->arena, "%.1f kg", b->mass_kg),
			b->has_package ? text_format(in->arena, "%.1f kg",
						 b->left_over_kg)
				       : "",
			b->has_money ? text_format(in->arena, "%.2f",
					       b->money_cents / 100)
				     : ""};

		table_row(&table, cell);
	}
	table_print(&table, stdout);
}

/* Where several parts share the packages: what each takes of them. */
static void
print_shares(const struct invocation *in, const struct work_takeoff *t)
{
	static const char *const heading[] = {"part", "takes", "needed", "of",
		"alone", "left", "in turn", "left", ""};
	struct table table;

	if (t->n_part < 2)
		return;
	table_start(&table, in->arena, heading, 9, 0xfc);
	for (size_t i = 0; i < t->n_part; i++) {
		const struct work_part_taken *p = &t->part[i];

		for (size_t k = 0; k < p->taken.n_line; k++) {
			const struct book_material *m =
				&t->m.site.material[p->material[k]];
			const struct build_share *s = &p->share[k];
			const char *cell[] = {p->sizes.code, m->code,
				text_format(in->arena, "%.1f kg",
					p->taken.line[k].mass_kg),
				"loose", "", "", "", "", ""};

			if (m->package_kg.has) {
				cell[3] = unit_write(in->arena,
					m->package_kg.value, UNIT_MASS, "kg",
					3);
				cell[4] = text_format(
					in->arena, "%.0f", s->n_alone);
				cell[5] = text_format(
					in->arena, "%.1f kg", s->left_alone_kg);
				cell[6] = text_format(
					in->arena, "%.0f", s->n_package);
				cell[7] = text_format(
					in->arena, "%.1f kg", s->left_kg);
			}
			table_row(&table, cell);
		}
	}
	table_print(&table, stdout);
	print_folded(stdout, 0,
		"Alone: packages bought for that part alone. In turn: packages "
		"opened for it in this order, what was left before used first; "
		"these add up to what is to buy.");
}

static void
print_sums(const struct invocation *in, const struct work_takeoff *t)
{
	for (size_t i = 0; i < t->n_part; i++)
		if (t->part[i].has_mesh)
			(void)printf("mesh         %.0f sheets, %.1f m2, for "
				     "%s; openings not taken off\n",
				t->part[i].n_mesh, t->part[i].mesh_m2,
				t->part[i].sizes.code);
	(void)printf("foam         %.1f m3 to be made; %.0f kg of it is water "
		     "and agent,\n             beside the above water\n",
		t->foam_m3, t->foam_water_kg);
	(void)printf("money        %.2f %s%s\n", t->money_cents / 100,
		t->m.site.info.currency,
		t->all_priced ? "" : ", of what has a price");
	(void)printf("delivered    %.0f kg, water apart\n", t->delivered_kg);
	(void)printf("carried      %.0f kg of fresh mix\n", t->lifted_kg);
	if (!(t->carbon_kg > 0))
		(void)puts("carbon       not known: no material has a factor");
	else
		(void)printf(
			"carbon       %.0f kg of CO2 by the stated factors%s\n",
			t->carbon_kg, t->all_carbon ? "" : ", of what has one");
	print_folded(stdout, 0,
		text_format(in->arena,
			"Caution: fresh mix is lifted and carried as its wet "
			"density says, and a slung or tilted piece needs an "
			"engineer's word: this reckons quantities, it is not a "
			"design of lifting or handling."));
}

static void
print_part_work(const struct invocation *in, const struct work_part_taken *p)
{
	struct arena *a = in->arena;

	(void)printf("\n%s\n", p->sizes.code);
	if (!p->sizes.volume_m3.has)
		print_folded(stdout, 2,
			text_format(a,
				"net = (%g m x %g m - %g m2) x %g m = %.4f m3",
				p->sizes.length_m.value,
				p->sizes.height_m.value,
				p->sizes.openings_m2.has
					? p->sizes.openings_m2.value
					: 0,
				p->sizes.thickness_m.value, p->taken.net_m3));
	else
		print_folded(stdout, 2,
			text_format(a, "net = as given = %.4f m3",
				p->taken.net_m3));
	print_folded(stdout, 2,
		text_format(a,
			"to mix = net / (1 - %.4f settling, of %zu batches) x "
			"(1 + %.4f waste) = %.4f m3",
			p->settling_ratio, p->n_settling,
			p->sizes.waste_ratio.value, p->taken.mixed_m3));
	if (p->taken.has_batches)
		print_folded(stdout, 2,
			text_format(a,
				"batches = to mix / %.4g m3, rounded up = %.0f",
				p->sizes.batch_m3.value, p->taken.n_batch));
	print_folded(stdout, 2,
		text_format(a,
			"foam = that of the mix / %.3f that survives, of %zu "
			"batches = %.3f m3",
			p->survival_ratio, p->n_survival, p->taken.foam_m3));
	print_folded(stdout, 2,
		text_format(a, "fresh mix = to mix x %.0f kg/m3 wet = %.0f kg",
			p->wet_kg_m3, p->lifted_kg));
	for (size_t k = 0; k < p->taken.n_line; k++)
		print_folded(stdout, 2,
			text_format(a,
				"%s = %.4g kg in 1 m3 x to mix = %.2f kg",
				p->taken.line[k].name,
				p->taken.line[k].kg_per_m3,
				p->taken.line[k].mass_kg));
	if (p->has_mesh)
		print_folded(stdout, 2,
			text_format(a,
				"mesh = courses of (height - lap) / (width of "
				"a sheet - lap), sheets of (length - lap) / "
				"(length of a sheet - lap), each rounded up = "
				"%.0f",
				p->n_mesh));
}

static void
print_work(const struct invocation *in, const struct work_takeoff *t)
{
	for (size_t i = 0; i < t->n_part; i++)
		print_part_work(in, &t->part[i]);
	(void)putchar('\n');
	print_folded(stdout, 0,
		"packages = needed / package, rounded up, over all parts "
		"together; left = packages x package - needed; money = "
		"packages x price; carbon = needed x factor. Source: derived "
		"(volumes and whole numbers), with settling and survival as "
		"the batches read; docs/methods/takeoff.md");
}

static void
json_share(struct jsonout *json, const struct work_takeoff *t,
	const struct work_part_taken *p, size_t line)
{
	const struct book_material *m = &t->m.site.material[p->material[line]];
	const struct build_share *s = &p->share[line];

	jsonout_open_object(json);
	jsonout_key_string(json, "material", m->code);
	jsonout_key_number(json, "mass_kg", p->taken.line[line].mass_kg);
	if (m->package_kg.has) {
		jsonout_key_number(json, "packages_alone", s->n_alone);
		jsonout_key_number(json, "left_alone_kg", s->left_alone_kg);
		jsonout_key_number(json, "packages_in_turn", s->n_package);
		jsonout_key_number(json, "left_in_turn_kg", s->left_kg);
	}
	jsonout_close_object(json);
}

static enum err_code
print_json(const struct invocation *in, const struct work_takeoff *t,
	struct err *err)
{
	struct text text;
	struct jsonout json;

#define NUMBER(key, value)                    \
	do {                                  \
		jsonout_key(&json, (key));    \
		jsonout_number(&json, value); \
	} while (0)
	text_init(&text, in->arena);
	jsonout_init(&json, &text);
	jsonout_open_object(&json);
	jsonout_key(&json, "parts");
	jsonout_open_array(&json);
	for (size_t i = 0; i < t->n_part; i++) {
		const struct work_part_taken *p = &t->part[i];

		jsonout_open_object(&json);
		jsonout_key_string(&json, "part", p->sizes.code);
		jsonout_key_string(&json, "mix", t->m.site.mix[p->mix].code);
		NUMBER("net_m3", p->taken.net_m3);
		NUMBER("mixed_m3", p->taken.mixed_m3);
		if (p->taken.has_batches)
			NUMBER("batches", p->taken.n_batch);
		NUMBER("settling_ratio", p->settling_ratio);
		NUMBER("survival_ratio", p->survival_ratio);
		NUMBER("foam_m3", p->taken.foam_m3);
		NUMBER("lifted_kg", p->lifted_kg);
		if (p->has_mesh)
			NUMBER("mesh_sheets", p->n_mesh);
		jsonout_key(&json, "materials");
		jsonout_open_array(&json);
		for (size_t k = 0; k < p->taken.n_line; k++)
			json_share(&json, t, p, k);
		jsonout_close_array(&json);
		jsonout_close_object(&json);
	}
	jsonout_close_array(&json);
	jsonout_key(&json, "buy");
	jsonout_open_array(&json);
	for (size_t i = 0; i < t->n_bought; i++) {
		const struct work_bought *b = &t->bought[i];

		jsonout_open_object(&json);
		jsonout_key_string(&json, "material",
			t->m.site.material[b->material].code);
		NUMBER("mass_kg", b->mass_kg);
		if (b->has_package) {
			NUMBER("packages", b->n_package);
			NUMBER("left_over_kg", b->left_over_kg);
		}
		if (b->has_money)
			NUMBER("money_cents", b->money_cents);
		jsonout_close_object(&json);
	}
	jsonout_close_array(&json);
	NUMBER("foam_m3", t->foam_m3);
	NUMBER("money_cents", t->money_cents);
	jsonout_key_bool(&json, "all_priced", t->all_priced);
	NUMBER("carbon_kg", t->carbon_kg);
	NUMBER("delivered_kg", t->delivered_kg);
	NUMBER("lifted_kg", t->lifted_kg);
	jsonout_close_object(&json);
#undef NUMBER
	if (jsonout_failed(&json))
		return err_memory(err);
	(void)puts(text.bytes);
	return ERR_NONE;
}

/* All values of an option that may be given again. */
static enum err_code
read_many(const struct invocation *in, const char *option,
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

enum err_code
read_takeoff_ask(const struct invocation *in, struct work_takeoff_ask *ask,
	struct err *err)
{
	struct work_pair *mix = arena_take(in->arena, GIVEN_MOST, sizeof *mix);
	size_t at = 0;

	if (mix == NULL)
		return err_memory(err);
	for (const char *v = invocation_next(in, "--mix", &at); v != NULL;
		v = invocation_next(in, "--mix", &at)) {
		TRY(field_pair(in, "--mix", v, &mix[ask->n_mix].name,
			&mix[ask->n_mix].value, err));
		ask->n_mix++;
	}
	ask->mix = mix;
	TRY(read_many(in, "--part", &ask->part, &ask->n_part, err));
	TRY(read_many(in, "--mesh", &ask->mesh, &ask->n_mesh, err));
	return fields_read(
		in, fields, sizeof fields / sizeof fields[0], ask, err);
}

static enum err_code
run_takeoff(const struct invocation *in, struct err *err)
{
	struct work_takeoff_ask ask = {.n_part = 0};
	struct work_takeoff told;
	struct desk desk;
	enum err_code code;

	TRY(read_takeoff_ask(in, &ask, err));
	TRY(desk_open(in->word[0], false, in, &desk, err));
	code = work_takeoff(&desk, in->arena, &ask, &told, err);
	desk_close(&desk);
	if (code != ERR_NONE)
		return code;
	if (in->json)
		return print_json(in, &told, err);
	print_parts(in, &told);
	print_buying(in, &told);
	print_shares(in, &told);
	print_sums(in, &told);
	if (invocation_has(in, "--show-work"))
		print_work(in, &told);
	return ERR_NONE;
}

const struct command command_takeoff = {
	.name = "takeoff",
	.line = "volumes, batches, whole packages, money of the building",
	.help = "  foamwright takeoff BOOK [--part PART] [--show-work]\n\n"
		"With the mix that was decided for each part, what its batches "
		"settled, and what\nof the foam outlived the mixing.\n",
	.example = "foamwright takeoff site.book --part wall-w --mix wall-w=S",
	.least_words = 1,
	.most_words = 1,
	.options = options,
	.run = run_takeoff,
};
