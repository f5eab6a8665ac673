/* command_heat.c - a part as layers: heat, thickness, water, heat kept. */
#include "cli/fields.h"
#include "cli/table.h"

#include "choose/screening.h"
#include "work/choose.h"
#include "work/heat.h"

#define AT(member) offsetof(struct work_heat_ask, member)
static const struct field fields[] = {
	{"--part", FIELD_TEXT, UNIT_NUMBER, AT(part)},
	{"--mix", FIELD_TEXT, UNIT_NUMBER, AT(mix)},
	{"--want-u", FIELD_MAYBE, UNIT_U_VALUE, AT(want_u)},
	{"--mu", FIELD_MAYBE, UNIT_NUMBER, AT(vapour)},
	{"--climate", FIELD_TEXT, UNIT_NUMBER, AT(climate)},
};
#undef AT

static const struct command_option options[] = {
	{"--part", "CODE", "of the building", false},
	{"--mix", "CODE", "that mix, not the decided or likeliest", false},
	{"--want-u", "U", "how thick for this U-value", false},
	{"--climate", "FILE.csv",
		"twelve months: inside, inside_humidity, outside, "
		"outside_humidity",
		false},
	{"--mu", "NUMBER",
		"vapour held back by the foamed concrete, against air (6)",
		false},
	{"--seed", "N", "of the random draws (1)", false}, {0}};

static const char *const month_name[CHOOSE_MONTHS] = {"January", "February",
	"March", "April", "May", "June", "July", "August", "September",
	"October", "November", "December"};

static void
print_layers(const struct invocation *in, const struct work_heated *h)
{
	static const char *const heading[] = {"from inside out", "thickness",
		"lambda, W/(m K)", "R, m2 K/W", "likely between"};
	struct table table;
	struct arena *a = in->arena;

	table_start(&table, a, heading, 5, 0xE);
	for (size_t i = 0; i < h->n_layer; i++) {
		const struct work_heat_layer *l = &h->layer[i];
		const char *cell[] = {l->name,
			l->thickness_m > 0 ? text_format(a, "%.0f mm",
						     1000 * l->thickness_m)
					   : "",
			l->conductivity_w_mk > 0
				? text_format(a, "%.3f", l->conductivity_w_mk)
				: "",
			text_format(a, "%.3f", l->resistance_m2k_w),
			l->low < l->high ? text_format(a, "%.3f and %.3f",
						   l->low, l->high)
					 : ""};

		table_row(&table, cell);
	}
	table_print(&table, stdout);
}

static void
print_answers(const struct invocation *in, const struct work_heated *h)
{
	struct arena *a = in->arena;

	print_folded(stdout, 0,
		text_format(a,
			"R %.2f m2 K/W (likely %.2f to %.2f) with both "
			"surfaces, US R-%.1f; U %.2f W/(m2 K) (%.2f to %.2f), "
			"US U-%.3f.",
			h->resistance[0], h->resistance[1], h->resistance[2],
			h->resistance[0] * choose_us_per_m2K_W, h->u[0],
			h->u[1], h->u[2], h->u[0] / choose_us_per_m2K_W));
	if (h->has_wanted)
		print_folded(stdout, 0,
			text_format(a,
				"For the wanted U the foamed concrete must be "
				"%.0f mm thick (likely %.0f to %.0f); as it is "
				"the part meets it with a chance of %s in 100.",
				1000 * h->wanted_m[0], 1000 * h->wanted_m[1],
				1000 * h->wanted_m[2],
				work_chance_words(a, h->p_meets_wanted)));
	if (h->has_mass)
		print_folded(stdout, 0,
			text_format(a,
				"One square metre weighs %.0f kg and keeps "
				"%.0f kJ a degree.",
				h->mass_kg_m2, h->capacity_j_m2k / 1000));
	else
		(void)puts("Weight and heat kept need the density of every "
			   "skin (--skin).");
}

static void
print_year(const struct invocation *in, const struct work_heated *h)
{
	static const char *const heading[] = {
		"month", "held, g/m2", "inside face", ""};
	struct table table;

	table_start(&table, in->arena, heading, 4, 0x6);
	for (size_t i = 0; i < CHOOSE_MONTHS; i++) {
		const struct choose_wet_month *m = &h->wet.month[i];
		const char *cell[] = {month_name[i],
			text_format(in->arena, "%.0f", 1000 * m->held_kg_m2),
			text_format(in->arena, "%.1f degC", m->surface_degC),
			m->surface_wet     ? "wet inside"
				: m->mould ? "mould possible"
					   : ""};

		table_row(&table, cell);
	}
	table_print(&table, stdout);
	if (!h->wet.gathers)
		(void)puts("No water gathers inside in any month.");
	else
		print_folded(stdout, 0,
			text_format(in->arena,
				"Most water at the end of %s: %.0f g/m2; at "
				"the year's end it %s.",
				month_name[h->wet.most_month],
				1000 * h->wet.most_kg_m2,
				h->wet.dries ? "is dry again"
					     : "is not dry: it gathers from "
					       "year to year"));
	print_folded(stdout, 0,
		text_format(in->arena,
			"Steady months, no rain and no water moving but as "
			"vapour; foamed concrete taken at mu %.3g, at its "
			"middle lambda.",
			h->vapour));
}

static void
print_text(const struct invocation *in, const struct work_heated *h)
{
	const struct book_part *part = &h->parts.site.part[h->part];

	print_folded(stdout, 0, choose_screening_only);
	(void)putchar('\n');
	print_folded(stdout, 0,
		text_format(in->arena,
			"%s (%s) of mix %s, %s; lambda from the dry weight of "
			"the next batch, with %.0f %% of water.",
			part->name, part->code, h->mix_code, h->why_mix,
			100 * h->moisture_ratio));
	for (size_t i = 0; i < h->n_measured; i++)
		print_folded(stdout, 0, h->measured[i]);
	print_layers(in, h);
	print_answers(in, h);
	if (h->has_climate)
		print_year(in, h);
	(void)putchar('\n');
	print_folded(stdout, 0,
		"Lambda: ACI 122R after Valore 1980, good to about 20 %, and "
		"ISO 10456 for water; R and U: ISO 6946; water in the wall: "
		"ISO 13788.");
	print_folded(stdout, 0, choose_screening_only);
}

static enum err_code
print_json(const struct invocation *in, const struct work_heated *h,
	struct err *err)
{
	struct text text;
	struct jsonout json;

	text_init(&text, in->arena);
	jsonout_init(&json, &text);
	jsonout_open_object(&json);
	jsonout_key_string(&json, "note", choose_screening_only);
	jsonout_key_string(&json, "part", h->parts.site.part[h->part].code);
	jsonout_key_string(&json, "mix", h->mix_code);
	jsonout_key_quantity(&json, "resistance", h->resistance[0], "m2 K/W");
	jsonout_key_quantity(&json, "u_value", h->u[0], "W/(m2 K)");
	jsonout_key_interval(
		&json, "u_value_interval", h->u[1], h->u[2], "W/(m2 K)");
	if (h->has_wanted) {
		jsonout_key_interval(&json, "thickness_for_u", h->wanted_m[1],
			h->wanted_m[2], "m");
		jsonout_key_number(&json, "p_meets_wanted", h->p_meets_wanted);
	}
	if (h->has_mass) {
		jsonout_key_quantity(&json, "mass", h->mass_kg_m2, "kg/m2");
		jsonout_key_quantity(
			&json, "heat_capacity", h->capacity_j_m2k, "J/(m2 K)");
	}
	jsonout_key(&json, "measured");
	jsonout_open_array(&json);
	for (size_t i = 0; i < h->n_measured; i++)
		jsonout_string(&json, h->measured[i]);
	jsonout_close_array(&json);
	if (h->has_climate) {
		jsonout_key_bool(&json, "gathers", h->wet.gathers);
		jsonout_key_bool(&json, "dries", h->wet.dries);
		jsonout_key_quantity(
			&json, "most_water", h->wet.most_kg_m2, "kg/m2");
	}
	jsonout_close_object(&json);
	if (jsonout_failed(&json))
		return err_report(err, ERR_NUMERIC, "heat",
			"The layers have no finite answer.");
	(void)puts(text.bytes);
	return ERR_NONE;
}

static enum err_code
run_heat(const struct invocation *in, struct err *err)
{
	struct work_heat_ask ask = {.part = NULL};
	struct work_heated got;
	struct desk desk;
	enum err_code code;

	TRY(fields_read(
		in, fields, sizeof fields / sizeof fields[0], &ask, err));
	if (ask.part == NULL)
		return err_report(err, ERR_INPUT, "--part",
			"Say which part of the building: --part north.");
	TRY(desk_open(in->word[0], false, in, &desk, err));
	code = work_heat(&desk, in->arena, &ask, &got, err);
	desk_close(&desk);
	if (code != ERR_NONE)
		return code;
	if (in->json)
		return print_json(in, &got, err);
	print_text(in, &got);
	return ERR_NONE;
}

const struct command command_heat = {
	.name = "heat",
	.line = "heat through a part, thickness for a wanted U, water inside",
	.help = "  foamwright heat BOOK --part CODE [--mix CODE] [OPTIONS]\n",
	.example = "foamwright heat site.book --part north --want-u \"0.35 "
		   "W/(m2 K)\"",
	.least_words = 1,
	.most_words = 1,
	.options = options,
	.run = run_heat,
};
