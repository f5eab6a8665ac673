/* import.c - the files of a folder, in the order in which they need each other.
 */
#include "work/import_priv.h"

#include "core/text.h"
#include "work/measured.h"

#include <errno.h>
#include <math.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])
#define TEXT(row, member, name, need)                      \
	{                                                  \
		name, IMPORT_TEXT, UNIT_NUMBER, need,      \
			offsetof(struct row, member), NULL \
	}
#define MAYBE(row, member, name, unit)                                         \
	{                                                                      \
		name, IMPORT_MAYBE, unit, false, offsetof(struct row, member), \
			NULL                                                   \
	}
#define QUANTITY(row, member, name, unit)                  \
	{                                                  \
		name, IMPORT_QUANTITY, unit, true,         \
			offsetof(struct row, member), NULL \
	}
#define FLAG(row, member, name)                            \
	{                                                  \
		name, IMPORT_FLAG, UNIT_NUMBER, false,     \
			offsetof(struct row, member), NULL \
	}
#define WHOLE(row, member, name)                           \
	{                                                  \
		name, IMPORT_WHOLE, UNIT_NUMBER, false,    \
			offsetof(struct row, member), NULL \
	}
#define CHOICE(row, member, name, words, need)              \
	{                                                   \
		name, IMPORT_CHOICE, UNIT_NUMBER, need,     \
			offsetof(struct row, member), words \
	}

/* Notes a put that the book refused for a value: place and reason. */
static enum err_code
put_or_fault(struct import_file *f, size_t row, enum err_code code)
{
	struct err *err = f->in->err;

	if (code != ERR_INPUT)
		return code;
	import_fault(f, row, f->column[0].name, "%s", err->text);
	err_clear(err);
	return ERR_NONE;
}

/* A code met twice in one file. */
static bool
is_repeated(struct import_file *f, size_t row, struct code_map *seen,
	const char *key, const char *name)
{
	if (code_find(seen, key) != NULL) {
		import_fault(
			f, row, name, "\"%s\" stands twice in this file", key);
		return true;
	}
	return !code_add(f->in, seen, key, 1, "");
}

static struct work_import_count *
counter(struct importing *in, const char *what)
{
	struct work_import_count *c = &in->count[in->out->n_count++];

	c->what = what;
	return c;
}

/* ---- materials ---- */

static const char *const roles[] = {"cement", "binder", "sand", "filler",
	"water", "fibre", "admixture", "agent", "reinforcement", "other", NULL};

struct material_row {
	struct book_material m;
	struct maybe price;
};

static const struct import_column material_columns[] = {
	TEXT(material_row, m.code, "code", true),
	TEXT(material_row, m.name, "name", true),
	CHOICE(material_row, m.role, "role", roles, true),
	MAYBE(material_row, m.particle_density_kg_m3, "particle_density",
		UNIT_DENSITY),
	MAYBE(material_row, m.bulk_density_kg_m3, "bulk_density", UNIT_DENSITY),
	MAYBE(material_row, m.moisture_ratio, "moisture", UNIT_RATIO),
	MAYBE(material_row, m.absorption_ratio, "absorption", UNIT_RATIO),
	MAYBE(material_row, m.hardness_kg_m3, "hardness", UNIT_CONCENTRATION),
	MAYBE(material_row, m.package_kg, "package", UNIT_MASS),
	{"price", IMPORT_MONEY, UNIT_NUMBER, false,
		offsetof(struct material_row, price), NULL},
	TEXT(material_row, m.note, "note", false),
	MAYBE(material_row, m.carbon_ratio, "carbon", UNIT_NUMBER),
	MAYBE(material_row, m.dilution_ratio, "dilution", UNIT_NUMBER),
};

static enum err_code
import_materials(struct importing *in)
{
	struct work_import_count *count = counter(in, "materials");
	struct code_map seen = {0};
	struct import_file f;
	bool is_there;

	TRY(import_open(in, "materials.csv", material_columns,
		COUNT(material_columns), NULL, &f, &is_there));
	for (size_t i = 0; is_there && i < f.table.n_row; i++) {
		struct material_row row = {0};
		bool good = import_row(&f, i, &row);

		if (row.m.code[0] == '\0' ||
			is_repeated(&f, i, &seen, row.m.code, "code"))
			continue;
		row.m.has_price = row.price.has;
		row.m.price_cents = (int64_t)row.price.value;
		if (good &&
			import_stage(in, &in->material, row.m.code,
				import_typed(&f, i), &row.m.row, count))
			TRY(put_or_fault(&f, i,
				book_put_material(
					in->desk->book, &row.m, in->err)));
		if (!good || row.m.row.id != 0 ||
			code_find(&in->material, row.m.code) == NULL)
			(void)code_add(in, &in->material, row.m.code,
				row.m.row.id, row.m.row.typed);
	}
	return ERR_NONE;
}

/* ---- lots of materials ---- */

static const struct import_column lot_columns[] = {
	{"material", IMPORT_TEXT, UNIT_NUMBER, true,
		offsetof(struct book_material_lot, row.typed), NULL},
	TEXT(book_material_lot, code, "code", true),
	TEXT(book_material_lot, bought_on, "bought_on", false),
	TEXT(book_material_lot, note, "note", false),
};

static enum err_code
import_lots(struct importing *in)
{
	struct work_import_count *count = counter(in, "lots of materials");
	struct code_map seen = {0};
	struct import_file f;
	bool is_there;

	TRY(import_open(in, "lots.csv", lot_columns, COUNT(lot_columns), NULL,
		&f, &is_there));
	for (size_t i = 0; is_there && i < f.table.n_row; i++) {
		struct book_material_lot lot = {0};
		bool good = import_row(&f, i, &lot);
		const char *key = text_format(in->arena, "%s|%s",
			import_cell(&f, i, "material"), lot.code);

		if (key == NULL)
			return err_memory(in->err);
		lot.material_id = code_need(
			&f, i, "material", &in->material, "material");
		if (!good || is_repeated(&f, i, &seen, key, "code"))
			continue;
		if (lot.material_id != 0 &&
			import_stage(in, &in->lot, key, import_typed(&f, i),
				&lot.row, count))
			TRY(put_or_fault(&f, i,
				book_put_material_lot(
					in->desk->book, &lot, in->err)));
	}
	return ERR_NONE;
}

/* ---- mixes ---- */

static const struct import_column mix_columns[] = {
	TEXT(book_mix, code, "code", true),
	TEXT(book_mix, name, "name", true),
	TEXT(book_mix, why, "why", false),
	TEXT(book_mix, matrix_code, "matrix", false),
	TEXT(book_mix, reinforcement, "reinforcement", false),
	MAYBE(book_mix, wet_target_kg_m3, "wet_target", UNIT_DENSITY),
	MAYBE(book_mix, foam_m3_per_m3, "foam", UNIT_RATIO),
	MAYBE(book_mix, foam_target_kg_m3, "foam_target", UNIT_DENSITY),
	MAYBE(book_mix, blending_target_s, "blending_target", UNIT_TIME),
};
static const char *const mix_prefixes[] = {"mass_", NULL};

/* One heading mass_CODE is one part of every mix that has a figure there. */
static enum err_code
import_mix_part(struct import_file *f, size_t row, size_t column,
	const struct book_mix *mix, struct work_import_count *count)
{
	struct importing *in = f->in;
	const char *code = f->table.heading[column] + strlen("mass_");
	const char *cell = import_cell(f, row, f->table.heading[column]);
	const struct code_entry *material = code_find(&in->material, code);
	struct book_mix_part part = {.mix_id = mix->row.id};
	const char *key;

	if (material == NULL && in->material.incomplete)
		return ERR_NONE;
	if (material == NULL) {
		import_fault(f, row, f->table.heading[column],
			"there is no material \"%s\"; the heading must be "
			"mass_ and a code of materials.csv",
			code);
		return ERR_NONE;
	}
	if (!import_quantity(
		    f, row, column, UNIT_DENSITY, &part.mass_kg_per_m3))
		return ERR_NONE;
	if (!(part.mass_kg_per_m3 > 0)) {
		import_fault(f, row, f->table.heading[column],
			"got \"%s\"; it takes a mass greater than 0, or "
			"nothing",
			cell);
		return ERR_NONE;
	}
	part.material_id = material->id;
	key = text_format(in->arena, "%s|%s", mix->code, code);
	if (key == NULL)
		return err_memory(in->err);
	cell = text_format(in->arena, "{\"mass\": \"%s %s\"}", cell,
		f->table.unit[column]);
	if (mix->row.id != 0 && material->id != 0 && cell != NULL &&
		import_stage(in, &in->mix_part, key, cell, &part.row, count))
		return put_or_fault(f, row,
			book_put_mix_part(in->desk->book, &part, in->err));
	return ERR_NONE;
}

static enum err_code
import_mixes(struct importing *in)
{
	struct work_import_count *count = counter(in, "mixes");
	struct work_import_count *parts = counter(in, "parts of mixes");
	struct code_map seen = {0};
	struct import_file f;
	bool is_there;

	TRY(import_open(in, "mixes.csv", mix_columns, COUNT(mix_columns),
		mix_prefixes, &f, &is_there));
	for (size_t i = 0; is_there && i < f.table.n_row; i++) {
		struct book_mix mix = {0};
		bool good = import_row(&f, i, &mix);

		if (mix.code[0] == '\0' ||
			is_repeated(&f, i, &seen, mix.code, "code"))
			continue;
		if (mix.matrix_code[0] == '\0')
			mix.matrix_code = mix.code;
		if (good &&
			import_stage(in, &in->mix, mix.code,
				import_typed(&f, i), &mix.row, count))
			TRY(put_or_fault(&f, i,
				book_put_mix(in->desk->book, &mix, in->err)));
		(void)code_add(
			in, &in->mix, mix.code, mix.row.id, mix.row.typed);
		for (size_t c = 0; c < f.table.n_column; c++)
			if (strncmp(f.table.heading[c], "mass_", 5) == 0 &&
				import_cell(&f, i, f.table.heading[c])[0] !=
					'\0')
				TRY(import_mix_part(&f, i, c, &mix, parts));
	}
	for (size_t i = 0; is_there && i < f.table.n_row; i++)
		(void)code_need(&f, i, "matrix", &in->mix, "mix");
	return ERR_NONE;
}

/* ---- trial and rules ---- */

static const struct import_column trial_columns[] = {
	TEXT(book_trial, code, "code", true),
	TEXT(book_trial, question, "question", false),
	{"baseline", IMPORT_TEXT, UNIT_NUMBER, true,
		offsetof(struct book_trial, row.typed), NULL},
};

static enum err_code
import_trials(struct importing *in)
{
	struct work_import_count *count = counter(in, "trials");
	struct import_file f;
	bool is_there;

	TRY(import_open(in, "trial.csv", trial_columns, COUNT(trial_columns),
		NULL, &f, &is_there));
	for (size_t i = 0; is_there && i < f.table.n_row; i++) {
		struct book_trial trial = {0};
		bool good = import_row(&f, i, &trial);
		int64_t baseline = code_need(
			&f, i, "baseline", &in->mix, "mix");

		if (trial.code[0] == '\0')
			continue;
		trial.baseline_mix_id = baseline;
		if (good && baseline != 0 &&
			import_stage(in, &in->trial, trial.code,
				import_typed(&f, i), &trial.row, count))
			TRY(put_or_fault(&f, i,
				book_put_trial(
					in->desk->book, &trial, in->err)));
		(void)code_add(in, &in->trial, trial.code, trial.row.id,
			trial.row.typed);
	}
	return ERR_NONE;
}

static const char *const measures[] = {"settling_loss_24h", "wet_density_off",
	"foam_density_off", "blending_time_off", "moisture", "age_off", NULL};
static const char *const actions[] = {"exclude", "flag", NULL};

static const struct import_column rule_columns[] = {
	TEXT(book_rule, code, "code", true),
	{"trial", IMPORT_TEXT, UNIT_NUMBER, true,
		offsetof(struct book_rule, row.typed), NULL},
	CHOICE(book_rule, measure, "measure", measures, true),
	QUANTITY(book_rule, above, "above", UNIT_RATIO),
	CHOICE(book_rule, action, "action", actions, true),
	TEXT(book_rule, set_on, "set_on", true),
	TEXT(book_rule, reason, "reason", false),
};

static enum err_code
import_rules(struct importing *in)
{
	struct work_import_count *count = counter(in, "rules");
	struct import_file f;
	bool is_there;

	TRY(import_open(in, "rules.csv", rule_columns, COUNT(rule_columns),
		NULL, &f, &is_there));
	for (size_t i = 0; is_there && i < f.table.n_row; i++) {
		struct book_rule rule = {0};
		bool good = import_row(&f, i, &rule);

		rule.trial_id = code_need(&f, i, "trial", &in->trial, "trial");
		if (good && rule.trial_id != 0 &&
			import_stage(in, &in->rule, rule.code,
				import_typed(&f, i), &rule.row, count))
			TRY(put_or_fault(&f, i,
				book_put_rule(in->desk->book, &rule, in->err)));
	}
	return ERR_NONE;
}

/* ---- batches and their settling ---- */

static const struct import_column batch_columns[] = {
	TEXT(book_batch, code, "code", true),
	{"trial", IMPORT_TEXT, UNIT_NUMBER, true,
		offsetof(struct book_batch, row.typed), NULL},
	{"mix", IMPORT_TEXT, UNIT_NUMBER, true,
		offsetof(struct book_batch, row.typed), NULL},
	FLAG(book_batch, practice, "practice"),
	TEXT(book_batch, made_on, "made_on", false),
	WHOLE(book_batch, day, "day"),
	MAYBE(book_batch, water_hardness_kg_m3, "water_hardness",
		UNIT_CONCENTRATION),
	MAYBE(book_batch, air_degc, "air", UNIT_TEMPERATURE),
	MAYBE(book_batch, slurry_degc, "slurry_temperature", UNIT_TEMPERATURE),
	MAYBE(book_batch, blending_s, "blending", UNIT_TIME),
	MAYBE(book_batch, slurry_kg_m3, "slurry_density", UNIT_DENSITY),
	MAYBE(book_batch, foam_start_kg_m3, "foam_start", UNIT_DENSITY),
	MAYBE(book_batch, foam_middle_kg_m3, "foam_middle", UNIT_DENSITY),
	MAYBE(book_batch, foam_end_kg_m3, "foam_end", UNIT_DENSITY),
	MAYBE(book_batch, wet_kg_m3, "wet", UNIT_DENSITY),
	MAYBE(book_batch, volume_m3, "volume", UNIT_VOLUME),
	MAYBE(book_batch, spread_m, "spread", UNIT_LENGTH),
	WHOLE(book_batch, consistency, "consistency"),
	TEXT(book_batch, remark, "remark", false),
	{"generator", IMPORT_TEXT, UNIT_NUMBER, false,
		offsetof(struct book_batch, row.typed), NULL},
	MAYBE(book_batch, foam_m3, "foam", UNIT_VOLUME),
	MAYBE(book_batch, foam_s, "foam_time", UNIT_TIME),
	MAYBE(book_batch, set_s, "set_time", UNIT_TIME),
};
static const char *const batch_prefixes[] = {"loss_", "put_", "lot_", NULL};

/* "put_cement [kg]" is what of it went into every batch that has a figure there,
 * "lot_cement" of which lot it was. */
static enum err_code
import_batch_part(struct import_file *f, size_t row, size_t column,
	const struct book_batch *batch, struct work_import_count *count)
{
	struct importing *in = f->in;
	const char *heading = f->table.heading[column];
	const char *code = heading + strlen("put_");
	const char *cell = import_cell(f, row, heading);
	const struct code_entry *material = code_find(&in->material, code);
	struct book_batch_part part = {.batch_id = batch->row.id};
	const char *key = text_format(in->arena, "%s|%s", batch->code, code);
	const char *lot = text_format(in->arena, "lot_%s", code);
	const char *typed;

	if (key == NULL || lot == NULL)
		return err_memory(in->err);
	if (material == NULL) {
		import_fault(f, row, heading,
			"there is no material \"%s\"; the heading must be put_ "
			"and a code of materials.csv",
			code);
		return ERR_NONE;
	}
	if (!import_quantity(f, row, column, UNIT_MASS, &part.mass_kg))
		return ERR_NONE;
	if (!(part.mass_kg > 0)) {
		import_fault(f, row, heading,
			"got \"%s\"; it takes a mass greater than 0, or "
			"nothing",
			cell);
		return ERR_NONE;
	}
	part.lot = import_cell(f, row, lot);
	part.material_id = material->id;
	typed = text_format(in->arena, "{\"put\": \"%s %s\", \"lot\": \"%s\"}",
		cell, f->table.unit[column], part.lot);
	if (typed == NULL)
		return err_memory(in->err);
	if (batch->row.id > 0 && material->id > 0 && in->gone_code == NULL &&
		import_stage(in, &in->batch_part, key, typed, &part.row, count))
		return put_or_fault(f, row,
			book_put_batch_part(in->desk->book, &part, in->err));
	return ERR_NONE;
}

/* A lot without what of it went in says nothing; foam by seconds is a volume
 * where the generator's rate is known. */
static void
check_lot(struct import_file *f, size_t row, size_t column)
{
	const char *heading = f->table.heading[column];
	const char *put = text_format(
		f->in->arena, "put_%s", heading + strlen("lot_"));

	if (put == NULL || import_cell(f, row, put)[0] == '\0')
		import_fault(f, row, heading,
			"goes with what of it went in: a column put_%s",
			heading + strlen("lot_"));
}

/* "loss_150min" says how long after casting. */
static enum err_code
import_settling(struct import_file *f, size_t row, size_t column,
	const struct book_batch *batch, struct work_import_count *count)
{
	struct importing *in = f->in;
	const char *heading = f->table.heading[column];
	const char *cell = import_cell(f, row, heading);
	struct book_settling s = {.batch_id = batch->row.id};
	struct err err = {.code = ERR_NONE};
	const char *key;

	if (unit_read(heading + strlen("loss_"), UNIT_TIME, NULL, &s.after_s,
		    &err) != ERR_NONE) {
		import_fault(f, row, heading,
			"the heading must be loss_ and a time, such as "
			"loss_24h");
		return ERR_NONE;
	}
	if (!import_quantity(f, row, column, UNIT_RATIO, &s.loss_ratio))
		return ERR_NONE;
	if (!(s.loss_ratio < 1)) {
		import_fault(f, row, heading,
			"got \"%s\"; a loss is below 100 %%", cell);
		return ERR_NONE;
	}
	key = text_format(in->arena, "%s|%s", batch->code, heading);
	cell = text_format(in->arena, "{\"%s\": \"%s %s\"}", heading, cell,
		f->table.unit[column]);
	if (key == NULL || cell == NULL)
		return err_memory(in->err);
	if (batch->row.id != 0 &&
		import_stage(in, &in->settling, key, cell, &s.row, count))
		return put_or_fault(
			f, row, book_put_settling(in->desk->book, &s, in->err));
	return ERR_NONE;
}

static void
check_batch(struct import_file *f, size_t row, const struct book_batch *b)
{
	if (b->consistency.has &&
		!(b->consistency.value >= 1 && b->consistency.value <= 5))
		import_fault(f, row, "consistency",
			"got \"%s\"; it takes 1 (runny) to 5 (stands)",
			import_cell(f, row, "consistency"));
}

static enum err_code
import_batches(struct importing *in)
{
	struct work_import_count *count = counter(in, "batches");
	struct work_import_count *settling = counter(in, "settling readings");
	struct work_import_count *parts = counter(in, "parts of batches");
	struct code_map seen = {0};
	struct import_file f;
	bool is_there;

	TRY(import_open(in, "batches.csv", batch_columns, COUNT(batch_columns),
		batch_prefixes, &f, &is_there));
	for (size_t i = 0; is_there && i < f.table.n_row; i++) {
		struct book_batch b = {0};
		bool good = import_row(&f, i, &b);

		b.trial_id = code_need(&f, i, "trial", &in->trial, "trial");
		b.mix_id = code_need(&f, i, "mix", &in->mix, "mix");
		if (import_cell(&f, i, "generator")[0] != '\0')
			b.generator_id = code_need(&f, i, "generator",
				&in->generator, "foam generator");
		check_batch(&f, i, &b);
		if (b.code[0] == '\0' ||
			is_repeated(&f, i, &seen, b.code, "code"))
			continue;
		if (good && b.trial_id != 0 && b.mix_id != 0 &&
			import_stage(in, &in->batch, b.code,
				import_typed(&f, i), &b.row, count))
			TRY(put_or_fault(&f, i,
				book_put_batch(in->desk->book, &b, in->err)));
		(void)code_add(in, &in->batch, b.code, b.row.id, b.row.typed);
		for (size_t c = 0; c < f.table.n_column; c++) {
			const char *heading = f.table.heading[c];

			if (import_cell(&f, i, heading)[0] == '\0')
				continue;
			if (strncmp(heading, "loss_", 5) == 0)
				TRY(import_settling(&f, i, c, &b, settling));
			else if (strncmp(heading, "put_", 4) == 0)
				TRY(import_batch_part(&f, i, c, &b, parts));
			else if (strncmp(heading, "lot_", 4) == 0)
				check_lot(&f, i, c);
		}
	}
	return ERR_NONE;
}

/* ---- specimens ---- */

static const char *const forms[] = {
	"beam", "panel", "cube", "cylinder", "prism", "bar", "other", NULL};
static const char *const fates[] = {"waiting", "tested", "snapped at stripping",
	"snapped in handling", "accident", "not filled", "set aside", NULL};

static const struct import_column specimen_columns[] = {
	TEXT(book_specimen, code, "code", true),
	{"batch", IMPORT_TEXT, UNIT_NUMBER, true,
		offsetof(struct book_specimen, row.typed), NULL},
	CHOICE(book_specimen, form, "form", forms, true),
	MAYBE(book_specimen, width_m, "width", UNIT_LENGTH),
	MAYBE(book_specimen, depth_m, "depth", UNIT_LENGTH),
	MAYBE(book_specimen, length_m, "length", UNIT_LENGTH),
	MAYBE(book_specimen, diameter_m, "diameter", UNIT_LENGTH),
	MAYBE(book_specimen, mass_kg, "mass", UNIT_MASS),
	MAYBE(book_specimen, moisture_ratio, "moisture", UNIT_RATIO),
	CHOICE(book_specimen, fate, "fate", fates, true),
	MAYBE(book_specimen, fate_age_s, "fate_age", UNIT_TIME),
	FLAG(book_specimen, reinforced, "reinforced"),
	TEXT(book_specimen, remark, "remark", false),
};

/* What no column of the file says stays as the bench entered it. */
static enum err_code
keep_unsaid(const struct importing *in, struct book_specimen *s)
{
	const struct book_specimen *before = NULL;

	if (s->row.id == 0)
		return ERR_NONE;
	TRY(book_one_specimen(
		in->desk->book, in->arena, s->row.id, &before, in->err));
	s->form_id = before->form_id;
	s->test_age_s = before->test_age_s;
	memcpy(s->height_m, before->height_m, sizeof s->height_m);
	s->damage = before->damage;
	return ERR_NONE;
}

static enum err_code
put_specimen(struct import_file *f, size_t i, struct book_specimen *s)
{
	TRY(keep_unsaid(f->in, s));
	return put_or_fault(
		f, i, book_put_specimen(f->in->desk->book, s, f->in->err));
}

static enum err_code
import_specimens(struct importing *in)
{
	struct work_import_count *count = counter(in, "test pieces");
	struct code_map seen = {0};
	struct import_file f;
	bool is_there;

	TRY(import_open(in, "specimens.csv", specimen_columns,
		COUNT(specimen_columns), NULL, &f, &is_there));
	for (size_t i = 0; is_there && i < f.table.n_row; i++) {
		struct book_specimen s = {0};
		bool good = import_row(&f, i, &s);

		s.batch_id = code_need(&f, i, "batch", &in->batch, "batch");
		if (s.code[0] == '\0' ||
			is_repeated(&f, i, &seen, s.code, "code"))
			continue;
		if (good && s.batch_id != 0 &&
			import_stage(in, &in->specimen, s.code,
				import_typed(&f, i), &s.row, count))
			TRY(put_specimen(&f, i, &s));
		(void)code_add(
			in, &in->specimen, s.code, s.row.id, s.row.typed);
	}
	return ERR_NONE;
}

/* ---- readings ---- */

static const char *const reading_kinds[] = {"bending", "drop", "crushing",
	"weighing", "other", "moisture", "soaking", "rise", "drying",
	"shrinkage", "screw", "frost", "hot box", NULL};
static const char *const loadings[] = {"centre", "third", NULL};
static const char *const places[] = {"centre", "edge", "corner", NULL};
static const char *const tips[] = {"flat", "ball", "cone", NULL};
static const char *const states[] = {"as cast", "at test", "air dry",
	"oven dry", "saturated", "in water", NULL};
static const char *const quantities[] = {"water_taken_up_by_volume",
	"screw_pull", "drying_shrinkage", "moisture", NULL};

struct reading_row {
	struct book_reading r;
	const char *specimen;
	struct maybe held_kg, mass_kg;
	const char *value;
	struct work_measured_ask m; /* water, drying, shortening ... */
};

static const struct import_column reading_columns[] = {
	TEXT(reading_row, specimen, "specimen", true),
	TEXT(reading_row, r.code, "code", true),
	CHOICE(reading_row, r.kind, "kind", reading_kinds, true),
	MAYBE(reading_row, r.age_s, "age", UNIT_TIME),
	CHOICE(reading_row, r.bending.loading, "loading", loadings, false),
	MAYBE(reading_row, r.bending.span_m, "span", UNIT_LENGTH),
	MAYBE(reading_row, r.bending.strap_m, "strap", UNIT_LENGTH),
	MAYBE(reading_row, r.bending.on_rig_kg, "on_rig", UNIT_MASS),
	FLAG(reading_row, r.bending.on_rig_included, "on_rig_included"),
	MAYBE(reading_row, held_kg, "held", UNIT_MASS),
	MAYBE(reading_row, r.bending.broke_kg, "broke", UNIT_MASS),
	MAYBE(reading_row, r.bending.hold_s, "hold", UNIT_TIME),
	MAYBE(reading_row, r.bending.after_held_kg, "after_held", UNIT_MASS),
	MAYBE(reading_row, r.bending.after_broke_kg, "after_broke", UNIT_MASS),
	MAYBE(reading_row, r.bending.sag_m, "sag", UNIT_LENGTH),
	CHOICE(reading_row, r.drop.place, "place", places, false),
	MAYBE(reading_row, r.drop.bar_kg, "bar", UNIT_MASS),
	MAYBE(reading_row, r.drop.height_m, "height", UNIT_LENGTH),
	CHOICE(reading_row, r.drop.tip, "tip", tips, false),
	MAYBE(reading_row, r.drop.tip_diameter_m, "tip_diameter", UNIT_LENGTH),
	MAYBE(reading_row, r.drop.tip_angle_rad, "tip_angle", UNIT_ANGLE),
	MAYBE(reading_row, r.drop.tube_loss_ratio, "tube_loss", UNIT_RATIO),
	MAYBE(reading_row, r.drop.dent_m, "dent", UNIT_LENGTH),
	FLAG(reading_row, r.drop.went_through, "went_through"),
	FLAG(reading_row, r.drop.cracked, "cracked"),
	MAYBE(reading_row, r.crushing.gauge_pa, "gauge", UNIT_STRESS),
	MAYBE(reading_row, r.crushing.gauge_zero_pa, "gauge_zero", UNIT_STRESS),
	MAYBE(reading_row, r.crushing.gauge_step_pa, "gauge_step", UNIT_STRESS),
	MAYBE(reading_row, r.crushing.ram_diameter_m, "ram_diameter",
		UNIT_LENGTH),
	MAYBE(reading_row, r.crushing.load_n, "load", UNIT_FORCE),
	MAYBE(reading_row, r.crushing.held_n, "held_force", UNIT_FORCE),
	MAYBE(reading_row, r.crushing.broke_n, "broke_force", UNIT_FORCE),
	CHOICE(reading_row, r.weighing.state, "state", states, false),
	MAYBE(reading_row, mass_kg, "mass", UNIT_MASS),
	CHOICE(reading_row, r.other.quantity, "quantity", quantities, false),
	TEXT(reading_row, value, "value", false),
	TEXT(reading_row, r.remark, "remark", false),
	MAYBE(reading_row, m.dry_kg, "dry", UNIT_MASS),
	MAYBE(reading_row, m.mass_step_kg, "scale_step", UNIT_MASS),
	MAYBE(reading_row, m.after_s, "time", UNIT_TIME),
	MAYBE(reading_row, m.height_m, "wet_height", UNIT_LENGTH),
	MAYBE(reading_row, m.height_step_m, "height_step", UNIT_LENGTH),
	MAYBE(reading_row, m.face_m2, "face", UNIT_AREA),
	MAYBE(reading_row, m.wanted_ratio, "wanted", UNIT_RATIO),
	MAYBE(reading_row, m.length_m, "length", UNIT_LENGTH),
	MAYBE(reading_row, m.step_m, "length_step", UNIT_LENGTH),
	MAYBE(reading_row, m.degc, "temperature", UNIT_TEMPERATURE),
	MAYBE(reading_row, m.force_step_n, "pull_step", UNIT_FORCE),
	MAYBE(reading_row, m.diameter_m, "screw_diameter", UNIT_LENGTH),
	MAYBE(reading_row, m.depth_m, "screw_depth", UNIT_LENGTH),
	WHOLE(reading_row, m.cycles, "cycles"),
	MAYBE(reading_row, m.before_kg, "before", UNIT_MASS),
	MAYBE(reading_row, m.after_kg, "after", UNIT_MASS),
	MAYBE(reading_row, m.before_m, "size_before", UNIT_LENGTH),
	MAYBE(reading_row, m.after_m, "size_after", UNIT_LENGTH),
	MAYBE(reading_row, m.length_step_m, "size_step", UNIT_LENGTH),
	MAYBE(reading_row, m.power_w, "power", UNIT_POWER),
	MAYBE(reading_row, m.leak_w, "leak", UNIT_POWER),
	MAYBE(reading_row, m.power_step_w, "power_step", UNIT_POWER),
	MAYBE(reading_row, m.area_m2, "area", UNIT_AREA),
	MAYBE(reading_row, m.thickness_m, "thickness", UNIT_LENGTH),
	MAYBE(reading_row, m.warm_degc, "warm", UNIT_TEMPERATURE),
	MAYBE(reading_row, m.cold_degc, "cold", UNIT_TEMPERATURE),
	MAYBE(reading_row, m.temperature_step_k, "temperature_step",
		UNIT_TEMPERATURE_DIFFERENCE),
};

static bool
is(const char *a, const char *b)
{
	return strcmp(a, b) == 0;
}

static bool
check_bending(struct import_file *f, size_t i, struct reading_row *row)
{
	struct book_bending *b = &row->r.bending;

	if (!row->held_kg.has && !b->broke_kg.has) {
		import_fault(f, i, "held",
			"is empty, and so is broke; bending takes the last "
			"weight held, the one that broke it, or both");
		return false;
	}
	b->held_kg = row->held_kg.has ? row->held_kg.value : 0;
	if (b->broke_kg.has && b->broke_kg.value <= b->held_kg) {
		import_fault(f, i, "broke",
			"got \"%s\", which is not above the %s that it held",
			import_cell(f, i, "broke"), import_cell(f, i, "held"));
		return false;
	}
	if (b->after_broke_kg.has &&
		(!b->after_held_kg.has ||
			b->after_broke_kg.value <= b->after_held_kg.value)) {
		import_fault(f, i, "after_broke",
			"got \"%s\", which is not above what it held after "
			"the crack",
			import_cell(f, i, "after_broke"));
		return false;
	}
	return true;
}

/* The column of an option: "--scale-step" is scale_step. */
static const char *
column_of(struct arena *arena, const char *option)
{
	static const struct {
		const char *option, *column;
	} own[] = {{"--out", "broke_force"}, {"--held", "held_force"},
		{"--height", "wet_height"}, {"--step", "length_step"},
		{"--diameter", "screw_diameter"}, {"--depth", "screw_depth"}};
	char *name;

	for (size_t i = 0; i < COUNT(own); i++)
		if (is(own[i].option, option))
			return own[i].column;
	name = arena_text(
		arena, strncmp(option, "--", 2) == 0 ? option + 2 : option);
	for (char *c = name; c != NULL && *c != '\0'; c++)
		if (*c == '-')
			*c = '_';
	return name != NULL ? name : "";
}

/* Water, drying, shortening, screws, frost and heat: as at the bench. */
static bool
check_measured(struct import_file *f, size_t i, struct reading_row *row)
{
	struct err err = {.code = ERR_NONE};
	struct book_reading got;

	row->m.kind = row->r.kind;
	row->m.remark = row->r.remark;
	row->m.mass_kg = row->mass_kg;
	row->m.held_n = row->r.crushing.held_n;
	row->m.broke_n = row->r.crushing.broke_n;
	if (work_measured_reading(&row->m, &got, &err) != ERR_NONE) {
		import_fault(f, i, column_of(f->in->arena, err.field), "%s",
			err.text);
		return false;
	}
	got.specimen_id = row->r.specimen_id;
	got.code = row->r.code;
	got.age_s = row->r.age_s;
	row->r = got;
	return true;
}

static bool
check_other_kinds(struct import_file *f, size_t i, struct reading_row *row)
{
	struct err err = {.code = ERR_NONE};
	bool screw = is(row->r.other.quantity, "screw_pull");

	if (work_is_measured(row->r.kind))
		return check_measured(f, i, row);

	if (is(row->r.kind, "drop") &&
		(row->r.drop.place[0] == '\0' ||
			(!row->r.drop.dent_m.has &&
				!row->r.drop.went_through))) {
		import_fault(f, i, "dent",
			"a drop takes a place (centre, edge, corner) and a "
			"dent, or yes under went_through");
		return false;
	}
	if (is(row->r.kind, "crushing") && !row->r.crushing.gauge_pa.has &&
		!row->r.crushing.load_n.has && !row->r.crushing.held_n.has) {
		import_fault(f, i, "gauge",
			"crushing takes a gauge reading, a load, or held_force "
			"and broke_force");
		return false;
	}
	if (is(row->r.kind, "crushing") && row->r.crushing.gauge_pa.has &&
		!row->r.crushing.ram_diameter_m.has) {
		import_fault(f, i, "ram_diameter",
			"is empty; a gauge reading becomes a load only with "
			"the bore of the ram");
		return false;
	}
	if (is(row->r.kind, "weighing") &&
		(row->r.weighing.state[0] == '\0' || !row->mass_kg.has)) {
		import_fault(f, i, "mass",
			"a weighing takes a mass and a state, such as oven "
			"dry");
		return false;
	}
	row->r.weighing.mass_kg = row->mass_kg.value;
	if (!is(row->r.kind, "other"))
		return true;
	if (row->r.other.quantity[0] == '\0' ||
		unit_read(row->value, screw ? UNIT_FORCE : UNIT_RATIO, NULL,
			&row->r.other.value, &err) != ERR_NONE) {
		import_fault(f, i, "value",
			"got \"%s\"; kind other takes a quantity and its "
			"value: screw_pull a force (\"0.46 kN\"), the others a "
			"share (\"17 %%\")",
			row->value);
		return false;
	}
	return true;
}

/* What the reading says against what the book says of the piece. */
static enum err_code
check_piece(struct import_file *f, size_t i, const struct reading_row *row,
	bool *good)
{
	const struct book_bending *b = &row->r.bending;
	const struct book_drop *d = &row->r.drop;
	struct arena_mark mark = arena_mark(f->in->arena);
	const struct book_specimen *piece = NULL;
	size_t n_before = f->in->out->n_fault_all;
	struct err odd = {.code = ERR_NONE};
	struct book_specimen sizes;
	struct maybe length, depth;

	TRY(book_one_specimen(f->in->desk->book, f->in->arena,
		row->r.specimen_id, &piece, f->in->err));
	sizes = *piece; /* its numbers outlive the texts */
	length = piece->length_m;
	depth = piece->depth_m;
	arena_back(f->in->arena, mark);
	if (is(row->r.kind, "bending") && b->span_m.has && length.has &&
		b->span_m.value > length.value)
		import_fault(f, i, "span",
			"got \"%s\", longer than the piece, which is %.4g m; "
			"it takes the distance between the supports",
			import_cell(f, i, "span"), length.value);
	if (is(row->r.kind, "drop") && d->dent_m.has && depth.has &&
		!d->went_through && d->dent_m.value > depth.value)
		import_fault(f, i, "dent",
			"got \"%s\", deeper than the piece is thick, which is "
			"%.4g m; mend it, or write yes under went_through",
			import_cell(f, i, "dent"), depth.value);
	if (work_is_measured(row->r.kind) &&
		work_measured_fits(&sizes, &row->r, &odd) != ERR_NONE)
		import_fault(f, i, column_of(f->in->arena, odd.field), "%s",
			odd.text);
	*good = f->in->out->n_fault_all == n_before;
	return ERR_NONE;
}

static enum err_code
import_readings(struct importing *in)
{
	struct work_import_count *count = counter(in, "readings");
	struct code_map seen = {0};
	struct import_file f;
	bool is_there;

	TRY(import_open(in, "readings.csv", reading_columns,
		COUNT(reading_columns), NULL, &f, &is_there));
	for (size_t i = 0; is_there && i < f.table.n_row; i++) {
		struct reading_row row = {0};
		bool good = import_row(&f, i, &row);
		const char *key = text_format(in->arena, "%s|%s|%s",
			row.specimen, row.r.kind, row.r.code);

		if (key == NULL)
			return err_memory(in->err);
		row.r.specimen_id = code_need(
			&f, i, "specimen", &in->specimen, "test piece");
		if (!good || is_repeated(&f, i, &seen, key, "code") ||
			(is(row.r.kind, "bending")
					? !check_bending(&f, i, &row)
					: !check_other_kinds(&f, i, &row)))
			continue;
		good = row.r.specimen_id != 0 &&
			import_stage(in, &in->reading, key, import_typed(&f, i),
				&row.r.row, count);
		if (good)
			TRY(check_piece(&f, i, &row, &good));
		if (good)
			TRY(put_or_fault(&f, i,
				book_put_reading(
					in->desk->book, &row.r, in->err)));
	}
	return ERR_NONE;
}

/* ---- parts of the building ---- */

static const char *const part_kinds[] = {
	"floor", "wall", "roof", "other", NULL};
static const char *const part_prefixes[] = {"least_", "most_", NULL};

struct part_row {
	struct book_part p;
	const char *source;
};

static const struct import_column part_columns[] = {
	TEXT(part_row, p.code, "code", true),
	TEXT(part_row, p.name, "name", true),
	CHOICE(part_row, p.kind, "kind", part_kinds, true),
	MAYBE(part_row, p.length_m, "length", UNIT_LENGTH),
	MAYBE(part_row, p.height_m, "height", UNIT_LENGTH),
	MAYBE(part_row, p.thickness_m, "thickness", UNIT_LENGTH),
	MAYBE(part_row, p.openings_m2, "openings", UNIT_AREA),
	MAYBE(part_row, p.volume_m3, "volume", UNIT_VOLUME),
	MAYBE(part_row, p.waste_ratio, "waste", UNIT_RATIO),
	MAYBE(part_row, p.batch_m3, "batch", UNIT_VOLUME),
	TEXT(part_row, source, "requirement_source", false),
	TEXT(part_row, p.note, "note", false),
};

static const struct {
	const char *measure;
	enum unit_kind kind;
} asked[] = {{"bending_strength", UNIT_STRESS},
	{"crushing_strength", UNIT_STRESS},
	{"crushing_energy", UNIT_ENERGY_PER_VOLUME}, {"dent", UNIT_LENGTH},
	{"dry_density", UNIT_DENSITY}, {"settling_loss", UNIT_RATIO},
	{"conductivity", UNIT_CONDUCTIVITY}, {"cost", UNIT_NUMBER},
	{"breakage", UNIT_RATIO}, {"screw_pull", UNIT_FORCE},
	{"water_taken_up", UNIT_RATIO}, {"water_drawn_up", UNIT_MASS_PER_AREA},
	{"drying_shrinkage", UNIT_RATIO}, {"frost_loss", UNIT_RATIO}};

static enum err_code
import_requirement(struct import_file *f, size_t row, size_t column,
	const struct part_row *part, struct work_import_count *count)
{
	struct importing *in = f->in;
	const char *heading = f->table.heading[column], *key, *typed;
	bool least = strncmp(heading, "least_", 6) == 0;
	const char *measure = heading + strlen(least ? "least_" : "most_");
	struct book_requirement r = {.part_id = part->p.row.id,
		.bound = least ? "least" : "most",
		.source = part->source};
	size_t k = 0;

	while (k < COUNT(asked) && !is(asked[k].measure, measure))
		k++;
	if (k == COUNT(asked)) {
		import_fault(f, row, heading,
			"is not a requirement that is known; see docs/import.md"
			" for the list");
		return ERR_NONE;
	}
	r.measure = asked[k].measure;
	if (!import_quantity(f, row, column, asked[k].kind, &r.value))
		return ERR_NONE;
	if (is(measure, "cost"))
		r.value = round(100 * r.value);
	key = text_format(in->arena, "%s|%s", part->p.code, heading);
	typed = text_format(in->arena, "{\"%s\": \"%s %s\"}", heading,
		import_cell(f, row, heading), f->table.unit[column]);
	if (key == NULL || typed == NULL)
		return err_memory(in->err);
	if (part->p.row.id != 0 &&
		import_stage(in, &in->requirement, key, typed, &r.row, count))
		return put_or_fault(f, row,
			book_put_requirement(in->desk->book, &r, in->err));
	return ERR_NONE;
}

static enum err_code
import_parts(struct importing *in)
{
	struct work_import_count *count = counter(in, "parts of the building");
	struct work_import_count *needs = counter(in, "requirements");
	struct code_map seen = {0};
	struct import_file f;
	bool is_there;

	TRY(import_open(in, "parts.csv", part_columns, COUNT(part_columns),
		part_prefixes, &f, &is_there));
	for (size_t i = 0; is_there && i < f.table.n_row; i++) {
		struct part_row row = {0};
		bool good = import_row(&f, i, &row);

		if (row.p.code[0] == '\0' ||
			is_repeated(&f, i, &seen, row.p.code, "code"))
			continue;
		if (good &&
			import_stage(in, &in->part, row.p.code,
				import_typed(&f, i), &row.p.row, count))
			TRY(put_or_fault(&f, i,
				book_put_part(
					in->desk->book, &row.p, in->err)));
		for (size_t c = 0; c < f.table.n_column; c++)
			if ((strncmp(f.table.heading[c], "least_", 6) == 0 ||
				    strncmp(f.table.heading[c], "most_", 5) ==
					    0) &&
				import_cell(&f, i, f.table.heading[c])[0] !=
					'\0')
				TRY(import_requirement(&f, i, c, &row, needs));
	}
	return ERR_NONE;
}

/* ---- the whole ---- */

#define LEARN(kind, map)                                                  \
	do {                                                              \
		const struct book_##kind *row_ = NULL;                    \
		size_t n_ = 0;                                            \
		TRY(book_all_##kind(                                      \
			in->desk->book, in->arena, &row_, &n_, in->err)); \
		for (size_t i_ = 0; i_ < n_; i_++)                        \
			if (!code_add(in, &in->map, row_[i_].code,        \
				    row_[i_].row.id, row_[i_].row.typed)) \
				return err_memory(in->err);               \
	} while (0)

static enum err_code
learn_codes(struct importing *in)
{
	LEARN(material, material);
	LEARN(mix, mix);
	LEARN(trial, trial);
	LEARN(rule, rule);
	LEARN(batch, batch);
	LEARN(specimen, specimen);
	LEARN(part, part);
	return ERR_NONE;
}

#undef LEARN

/* Ids to codes, since rows below a thing are keyed by the thing's code. */
struct id_codes {
	struct code_map map; /* keyed by the id as text */
};

static enum err_code
index_ids(struct importing *in, const struct code_map *codes,
	struct id_codes *out)
{
	for (size_t i = 0; i < codes->room; i++) {
		const struct code_entry *e = &codes->entry[i];
		const char *id;

		if (e->code == NULL)
			continue;
		id = text_format(in->arena, "%lld", (long long)e->id);
		if (id == NULL || !code_add(in, &out->map, id, e->id, e->code))
			return err_memory(in->err);
	}
	return ERR_NONE;
}

static const char *
code_of(const struct id_codes *ids, int64_t id)
{
	char text[24];
	const struct code_entry *e;

	(void)snprintf(text, sizeof text, "%lld", (long long)id);
	e = code_find(&ids->map, text);
	return e != NULL ? e->typed : "";
}

/* What went into batches, and the generators that foam comes from. */
static enum err_code
learn_mixer(struct importing *in, const struct id_codes *batches,
	const struct id_codes *materials)
{
	const struct book_batch_part *bp = NULL;
	const struct book_generator *g = NULL;
	struct book *book = in->desk->book;
	size_t n = 0;
	bool room = true;

	TRY(book_all_batch_part(book, in->arena, &bp, &n, in->err));
	for (size_t i = 0; i < n && room; i++)
		room = code_add(in, &in->batch_part,
			text_format(in->arena, "%s|%s",
				code_of(batches, bp[i].batch_id),
				code_of(materials, bp[i].material_id)),
			bp[i].row.id, bp[i].row.typed);
	TRY(book_all_generator(book, in->arena, &g, &n, in->err));
	for (size_t i = 0; i < n && room; i++)
		room = code_add(in, &in->generator, g[i].code, g[i].row.id,
			g[i].row.typed);
	return room ? ERR_NONE : err_memory(in->err);
}

static enum err_code
learn_below(struct importing *in)
{
	const struct book_material_lot *lo = NULL;
	const struct book_mix_part *mp = NULL;
	const struct book_settling *se = NULL;
	const struct book_reading *re = NULL;
	const struct book_requirement *rq = NULL;
	struct id_codes mixes = {0}, materials = {0}, batches = {0},
			specimens = {0}, parts = {0};
	struct book *book = in->desk->book;
	size_t n = 0;
	bool room = true;

	TRY(index_ids(in, &in->mix, &mixes));
	TRY(index_ids(in, &in->material, &materials));
	TRY(index_ids(in, &in->batch, &batches));
	TRY(index_ids(in, &in->specimen, &specimens));
	TRY(index_ids(in, &in->part, &parts));
	TRY(learn_mixer(in, &batches, &materials));
	TRY(book_all_material_lot(book, in->arena, &lo, &n, in->err));
	for (size_t i = 0; i < n && room; i++)
		room = code_add(in, &in->lot,
			text_format(in->arena, "%s|%s",
				code_of(&materials, lo[i].material_id),
				lo[i].code),
			lo[i].row.id, lo[i].row.typed);
	TRY(book_all_mix_part(book, in->arena, &mp, &n, in->err));
	for (size_t i = 0; i < n && room; i++)
		room = code_add(in, &in->mix_part,
			text_format(in->arena, "%s|%s",
				code_of(&mixes, mp[i].mix_id),
				code_of(&materials, mp[i].material_id)),
			mp[i].row.id, mp[i].row.typed);
	TRY(book_all_settling(book, in->arena, &se, &n, in->err));
	for (size_t i = 0; i < n && room; i++) {
		const char *from = strchr(se[i].row.typed, '"');
		const char *to = from != NULL ? strchr(from + 1, '"') : NULL;
		int length = to != NULL ? (int)(to - from - 1) : 0;

		room = code_add(in, &in->settling,
			text_format(in->arena, "%s|%.*s",
				code_of(&batches, se[i].batch_id), length,
				from != NULL ? from + 1 : ""),
			se[i].row.id, se[i].row.typed);
	}
	TRY(book_all_reading(book, in->arena, &re, &n, in->err));
	for (size_t i = 0; i < n && room; i++)
		room = code_add(in, &in->reading,
			text_format(in->arena, "%s|%s|%s",
				code_of(&specimens, re[i].specimen_id),
				re[i].kind, re[i].code),
			re[i].row.id, re[i].row.typed);
	TRY(book_all_requirement(book, in->arena, &rq, &n, in->err));
	for (size_t i = 0; i < n && room; i++)
		room = code_add(in, &in->requirement,
			text_format(in->arena, "%s|%s_%s",
				code_of(&parts, rq[i].part_id), rq[i].bound,
				rq[i].measure),
			rq[i].row.id, rq[i].row.typed);
	return room ? ERR_NONE : err_memory(in->err);
}

static enum err_code
learn_gone(struct importing *in)
{
	const struct {
		const char *what;
		struct code_map *map;
	} maps[] = {{"material", &in->material}, {"lot", &in->lot},
		{"mix", &in->mix}, {"mix_part", &in->mix_part},
		{"batch", &in->batch}, {"settling", &in->settling},
		{"specimen", &in->specimen}, {"reading", &in->reading},
		{"part", &in->part}, {"requirement", &in->requirement}};
	const struct book_gone *gone = NULL;
	size_t n = 0;

	TRY(book_all_gone(in->desk->book, in->arena, &gone, &n, in->err));
	for (size_t i = 0; i < n; i++)
		for (size_t k = 0; k < COUNT(maps); k++)
			if (is(maps[k].what, gone[i].what) &&
				code_find(maps[k].map, gone[i].key) == NULL &&
				!code_add(in, maps[k].map, gone[i].key,
					IMPORT_GONE, gone[i].typed))
				return err_memory(in->err);
	return ERR_NONE;
}

static enum err_code
import_files(struct importing *in)
{
	TRY(learn_codes(in));
	TRY(learn_below(in));
	TRY(learn_gone(in));
	TRY(import_materials(in));
	TRY(import_lots(in));
	TRY(import_mixes(in));
	TRY(import_trials(in));
	TRY(import_rules(in));
	TRY(import_batches(in));
	TRY(import_specimens(in));
	TRY(import_readings(in));
	return import_parts(in);
}

static enum err_code
check_folder(const char *folder, struct err *err)
{
	struct stat status;

	if (stat(folder, &status) != 0)
		return err_report(err, ERR_NOT_FOUND, "folder",
			"There is no folder %s: %s.", folder, strerror(errno));
	if (!S_ISDIR(status.st_mode))
		return err_report(err, ERR_INPUT, "folder",
			"%s is a file; name the folder that holds the CSV "
			"files.",
			folder);
	return ERR_NONE;
}

static const char *
source_of(const struct importing *in)
{
	return in->ask->folder != NULL ? in->ask->folder : "the files";
}

static enum err_code
finish(struct importing *in, enum err_code code)
{
	if (code == ERR_NONE && in->out->n_fault_all > 0)
		code = err_report(in->err, ERR_INPUT, "folder",
			"%zu cell%s of %s cannot be taken; nothing was kept.",
			in->out->n_fault_all,
			in->out->n_fault_all == 1 ? "" : "s", source_of(in));
	if (code == ERR_NONE && in->ask->dry_run) {
		book_rollback(in->desk->book);
		return ERR_NONE;
	}
	return work_commit_or_undo(in->desk, source_of(in), code, in->err);
}

static enum err_code
make_lists(struct importing *in)
{
	enum { COUNTS = 16 };

	in->fault = arena_take(
		in->arena, IMPORT_FAULTS_SHOWN, sizeof *in->fault);
	in->count = arena_take(in->arena, COUNTS, sizeof *in->count);
	in->warning = arena_take(
		in->arena, IMPORT_WARNINGS_SHOWN, sizeof *in->warning);
	if (in->fault == NULL || in->count == NULL || in->warning == NULL)
		return err_memory(in->err);
	in->out->fault = in->fault;
	in->out->count = in->count;
	in->out->warning = in->warning;
	if (!in->ask->dry_run)
		return ERR_NONE;
	in->shown = arena_take(in->arena, IMPORT_ROWS_SHOWN, sizeof *in->shown);
	in->figure = arena_take(
		in->arena, IMPORT_READINGS_SHOWN, sizeof *in->figure);
	if (in->shown == NULL || in->figure == NULL)
		return err_memory(in->err);
	in->out->row = in->shown;
	in->out->reading = in->figure;
	return ERR_NONE;
}

enum err_code
work_import(const struct desk *desk, struct arena *arena,
	const struct work_import *ask, struct work_imported *out,
	struct err *err)
{
	struct importing in = {.desk = desk,
		.arena = arena,
		.ask = ask,
		.out = out,
		.err = err};
	enum err_code code;

	*out = (struct work_imported){0};
	if (ask->n_file == 0)
		TRY(check_folder(ask->folder, err));
	TRY(make_lists(&in));
	TRY(import_warn(&in));
	TRY(book_begin(desk->book, desk->now_utc_s, desk->who, "import",
		desk->submission, err));
	code = import_files(&in);
	return finish(&in, code);
}
