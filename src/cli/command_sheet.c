/* command_sheet.c - the batch sheet, to be printed or read at the mixer. */
#include "cli/fields.h"
#include "cli/table.h"

#include "work/shelf.h"
#include "work/sheet.h"

#define AT(member) offsetof(struct work_sheet_ask, member)
static const struct field fields[] = {
	{"--volume", FIELD_MAYBE, UNIT_VOLUME, AT(wanted_m3)},
	{"--generator", FIELD_TEXT, UNIT_NUMBER, AT(generator)},
};
#undef AT

static const struct command_option options[] = {
	{"--volume", "VOLUME", "to be cast (what the mixer takes)", false},
	{"--whole-bags", NULL, "as many whole bags of cement as fit", false},
	{"--generator", "CODE", "the foam generator (the first)", false}, {0}};

static void
print_head(const struct work_mixer *m, const struct work_sheet *s)
{
	const struct book_mix *mix = &m->site.mix[s->mix];

	if (s->planned)
		(void)printf("Batch %s, day %d: ", m->slot[s->slot].batch_code,
			(int)m->slot[s->slot].day);
	(void)printf("mix %s, %s\n", mix->code, mix->name);
	if (s->sheet.n_batch > 1)
		(void)printf("%zu equal batches of %.0f L; each:\n",
			s->sheet.n_batch, s->sheet.volume.m3 * 1000);
	else
		(void)printf(
			"one batch of %.0f L:\n", s->sheet.volume.m3 * 1000);
}

static void
print_weights(const struct invocation *in, const struct work_sheet *s)
{
	static const char *const heading[] = {"[ ]", "weigh", "", ""};
	struct table table;

	table_start(&table, in->arena, heading, 4, 2);
	for (size_t i = 0; i < s->n_part; i++) {
		const struct mix_part *part = &s->part[i];
		const char *cell[] = {"[ ]",
			text_format(in->arena, "%.2f kg", s->sheet.weigh[i].kg),
			part->name,
			s->sheet.bags[i] > 0
				? text_format(in->arena, "%.0f whole bag%s",
					  s->sheet.bags[i],
					  s->sheet.bags[i] > 1 ? "s" : "")
				: part->moisture_ratio > 0
				? text_format(in->arena,
					  "damp as it lies (%.1f %% water)",
					  part->moisture_ratio * 100)
				: ""};

		table_row(&table, cell);
	}
	table_print(&table, stdout);
}

static void
print_foam(const struct work_mixer *m, const struct work_sheet *s)
{
	const struct mix_sheet *sheet = &s->sheet;

	(void)printf("slurry %.0f kg/m3 within %.3g %%, before foam is spent\n",
		sheet->slurry.kg_m3, m->warning.w[CONTROL_W3].limit[0] * 100);
	(void)printf("[ ] foam %.1f L", sheet->foam.m3 * 1000);
	if (sheet->has_foam_time)
		(void)printf(", %.0f s of the generator", sheet->foam_time.s);
	(void)printf(", at %.1f g/L (%s)\n", s->foam.kg_m3,
		s->foam_checked ? "as weighed" : "its target");
	if (s->survival.n > 0)
		(void)printf("    %.0f %% of its air outlives the mixing, as "
			     "%zu batch%s showed (next: %.0f to %.0f %%)\n",
			s->survival.mean * 100, s->survival.n,
			s->survival.n > 1 ? "es" : "", s->survival.low * 100,
			s->survival.high * 100);
	else
		(void)printf("    %.0f %% of its air is taken to outlive the "
			     "mixing until batches show it\n",
			s->survival.mean * 100);
	if (s->has_blending)
		(void)printf("[ ] blend %.0f s, no longer\n", s->blending_s);
	(void)printf("wet %.0f kg/m3 within %.3g %%; water/cement %.2f, %.2f "
		     "with the foam's; dries to about %.0f\n",
		sheet->wet.kg_m3, m->warning.w[CONTROL_W4].limit[0] * 100,
		sheet->water_cement_ratio, sheet->total_water_cement_ratio,
		sheet->oven_dry.kg_m3);
}

static enum err_code
print_json(const struct invocation *in, const struct work_mixer *m,
	const struct work_sheet *s, struct err *err)
{
	struct text text;
	struct jsonout json;

	json_start(in, &text, &json);
	if (s->planned)
		jsonout_key_string(&json, "batch", m->slot[s->slot].batch_code);
	jsonout_key_string(&json, "mix", m->site.mix[s->mix].code);
	jsonout_key_count(&json, "batches", s->sheet.n_batch);
	jsonout_key(&json, "weigh");
	jsonout_open_array(&json);
	for (size_t i = 0; i < s->n_part; i++) {
		jsonout_open_object(&json);
		jsonout_key_string(&json, "name", s->part[i].name);
		jsonout_key_quantity(&json, "mass", s->sheet.weigh[i].kg, "kg");
		jsonout_close_object(&json);
	}
	jsonout_close_array(&json);
	jsonout_key_quantity(&json, "foam_volume", s->sheet.foam.m3, "m3");
	if (s->sheet.has_foam_time)
		jsonout_key_quantity(
			&json, "foam_time", s->sheet.foam_time.s, "s");
	jsonout_key_number(&json, "foam_survival", s->survival.mean);
	jsonout_key_quantity(
		&json, "slurry_density", s->sheet.slurry.kg_m3, "kg/m3");
	jsonout_key_quantity(&json, "wet_density", s->sheet.wet.kg_m3, "kg/m3");
	jsonout_key_quantity(&json, "volume", s->sheet.volume.m3, "m3");
	jsonout_key(&json, "cautions");
	jsonout_open_array(&json);
	for (size_t i = 0; i < s->n_caution; i++)
		jsonout_string(&json, s->caution[i]);
	jsonout_close_array(&json);
	return json_finish(&json, err);
}

/* ---- of a batch that is made ---- */

static void
print_made_readings(const struct work_mixer *m, const struct work_sheet_made *s)
{
	const struct book_batch *b = &m->site.batch[s->batch];

	if (b->slurry_kg_m3.has)
		(void)printf("slurry %.0f kg/m3\n", b->slurry_kg_m3.value);
	if (b->foam_m3.has)
		(void)printf("foam %.1f L\n", b->foam_m3.value * 1000);
	if (s->has_foam)
		(void)printf("foam of %.1f g/L\n", s->foam.kg_m3);
	if (s->has_survival)
		(void)printf("%.0f %% of its air outlived the mixing\n",
			s->survival_ratio * 100);
	if (b->blending_s.has)
		(void)printf("blended %.0f s\n", b->blending_s.value);
	if (b->wet_kg_m3.has && m->site.mix[s->mix].wet_target_kg_m3.has)
		(void)printf("wet %.0f kg/m3, %+.1f %% off its target\n",
			b->wet_kg_m3.value,
			(b->wet_kg_m3.value /
					m->site.mix[s->mix]
						.wet_target_kg_m3.value -
				1) *
				100);
	else if (b->wet_kg_m3.has)
		(void)printf("wet %.0f kg/m3\n", b->wet_kg_m3.value);
	if (b->volume_m3.has)
		(void)printf(
			"the forms took %.1f L\n", b->volume_m3.value * 1000);
	for (size_t i = 0; i < m->site.n_settling; i++)
		if (m->site.settling_batch[i] == s->batch)
			(void)printf("height lost after %.3g h: %.1f %%\n",
				m->site.settling[i].after_s / 3600,
				m->site.settling[i].loss_ratio * 100);
}

static void
print_made(const struct invocation *in, const struct work_mixer *m,
	const struct work_sheet_made *s)
{
	const struct book_batch *b = &m->site.batch[s->batch];
	const struct book_mix *mix = &m->site.mix[s->mix];

	(void)printf("Batch %s of mix %s, %s, is made%s%s%s. What went in:\n",
		b->code, mix->code, mix->name,
		b->made_on[0] != '\0' ? " (" : "", b->made_on,
		b->made_on[0] != '\0' ? ")" : "");
	for (size_t i = 0; i < s->n_part; i++)
		(void)printf(
			"%8.2f kg  %s\n", s->part[i].mass.kg, s->part[i].name);
	if (s->n_part == 0)
		(void)puts("  its masses were not recorded");
	print_made_readings(m, s);
	print_folded(stdout, 0,
		text_format(in->arena,
			"With --volume or --whole-bags: a sheet to make mix %s "
			"again.",
			mix->code));
}

static enum err_code
print_made_json(const struct invocation *in, const struct work_mixer *m,
	const struct work_sheet_made *s, struct err *err)
{
	const struct book_batch *b = &m->site.batch[s->batch];
	struct text text;
	struct jsonout json;

	json_start(in, &text, &json);
	jsonout_key_string(&json, "batch", b->code);
	jsonout_key_string(&json, "mix", m->site.mix[s->mix].code);
	jsonout_key_bool(&json, "made", true);
	jsonout_key(&json, "weighed");
	jsonout_open_array(&json);
	for (size_t i = 0; i < s->n_part; i++) {
		jsonout_open_object(&json);
		jsonout_key_string(&json, "name", s->part[i].name);
		jsonout_key_quantity(&json, "mass", s->part[i].mass.kg, "kg");
		jsonout_close_object(&json);
	}
	jsonout_close_array(&json);
	if (b->foam_m3.has)
		jsonout_key_quantity(
			&json, "foam_volume", b->foam_m3.value, "m3");
	if (s->has_foam)
		jsonout_key_quantity(
			&json, "foam_density", s->foam.kg_m3, "kg/m3");
	if (b->wet_kg_m3.has)
		jsonout_key_quantity(
			&json, "wet_density", b->wet_kg_m3.value, "kg/m3");
	if (s->has_survival)
		jsonout_key_number(&json, "foam_survival", s->survival_ratio);
	return json_finish(&json, err);
}

static enum err_code
make_sheet(
	const struct invocation *in, const struct desk *desk, struct err *err)
{
	struct work_sheet_ask ask = {.what = in->word[1],
		.now_utc_s = desk->now_utc_s,
		.whole_bags = invocation_has(in, "--whole-bags")};
	struct work_sheet_made made;
	struct work_mixer m;
	struct work_sheet s;
	bool found = false;

	TRY(fields_read(
		in, fields, sizeof fields / sizeof fields[0], &ask, err));
	TRY(work_mixer_read(desk, in->arena, &m, err));
	if (!ask.wanted_m3.has && !ask.whole_bags) {
		TRY(work_sheet_made(
			in->arena, &m, in->word[1], &found, &made, err));
		if (found && in->json)
			return print_made_json(in, &m, &made, err);
		if (found) {
			print_made(in, &m, &made);
			return ERR_NONE;
		}
	}
	TRY(work_sheet_make(in->arena, &m, &ask, &s, err));
	if (in->json)
		return print_json(in, &m, &s, err);
	print_head(&m, &s);
	print_weights(in, &s);
	print_foam(&m, &s);
	for (size_t i = 0; i < s.n_caution; i++)
		print_folded(stdout, 0, s.caution[i]);
	return ERR_NONE;
}

static enum err_code
run_sheet(const struct invocation *in, struct err *err)
{
	struct desk desk;
	enum err_code code;

	TRY(desk_open(in->word[0], false, in, &desk, err));
	code = make_sheet(in, &desk, err);
	desk_close(&desk);
	return code;
}

const struct command command_sheet = {
	.name = "sheet",
	.line = "the sheet of a batch: what to weigh, what foam to make",
	.help = "  foamwright sheet BOOK BATCH|MIX [OPTIONS]\n\nScaled to the "
		"mixer or to whole bags, damp sand weighed damp, rounded "
		"to\nthe scale, the foam as last weighed and as earlier "
		"batches kept it. Of a\nbatch that is made: what went in.\n",
	.example = "foamwright sheet site.book T1-03 --volume \"60 L\"",
	.least_words = 2,
	.most_words = 2,
	.options = options,
	.run = run_sheet,
};
