/* mixer.c - one view for the deeds at the mixer, and what is looked up in it. */
#include "work/mixer.h"

#include "book/book.h"
#include "core/text.h"

#include <string.h>

static enum err_code
read_rest(struct book *book, struct arena *a, struct work_mixer *m,
	struct err *err)
{
	const struct book_warning *warning;
	size_t n_warning;

	TRY(book_all_warning(book, a, &warning, &n_warning, err));
	work_warnings_of(warning, n_warning, &m->warning);
	TRY(book_all_material_lot(book, a, &m->lot, &m->n_lot, err));
	TRY(book_all_foam_standing(book, a, &m->standing, &m->n_standing, err));
	TRY(book_all_material_basis(book, a, &m->basis, &m->n_basis, err));
	TRY(book_all_gear(book, a, &m->gear, &m->n_gear, err));
	TRY(book_all_generator(book, a, &m->generator, &m->n_generator, err));
	TRY(book_all_foam_check(
		book, a, &m->foam_check, &m->n_foam_check, err));
	TRY(book_all_batch_part(
		book, a, &m->batch_part, &m->n_batch_part, err));
	TRY(book_all_trial_slot(book, a, &m->slot, &m->n_slot, err));
	TRY(book_all_decision(book, a, &m->decision, &m->n_decision, err));
	return book_all_placing(book, a, &m->placing, &m->n_placing, err);
}

enum err_code
work_mixer_read(const struct desk *desk, struct arena *arena,
	struct work_mixer *out, struct err *err)
{
	struct work_mixer m = {0};
	enum err_code code;

	TRY(book_read_begin(desk->book, err));
	code = work_site_read(desk->book, arena, &m.site, err);
	if (code == ERR_NONE)
		code = read_rest(desk->book, arena, &m, err);
	m.n_check_in_all = m.n_foam_check;
	book_read_end(desk->book);
	if (code == ERR_NONE)
		*out = m;
	return code;
}

static enum err_code
read_hand(struct book *book, struct arena *a, const char *batch_code,
	struct work_mixer *m, struct err *err)
{
	struct work_hand hand = {.batch_code = batch_code};
	const struct book_warning *warning;
	size_t n_warning;

	TRY(book_all_generator(book, a, &m->generator, &m->n_generator, err));
	TRY(book_foam_checks_at_hand(book, a, batch_code, &m->foam_check,
		&m->n_foam_check, &m->n_check_in_all, err));
	hand.generator = m->generator;
	hand.n_generator = m->n_generator;
	hand.check = m->foam_check;
	hand.n_check = m->n_foam_check;
	TRY(work_site_read_at_hand(
		book, a, &hand, &m->site, &m->n_before, err));
	TRY(book_batch_parts_at_hand(
		book, a, batch_code, &m->batch_part, &m->n_batch_part, err));
	TRY(book_all_gear(book, a, &m->gear, &m->n_gear, err));
	TRY(book_all_trial_slot(book, a, &m->slot, &m->n_slot, err));
	TRY(book_all_warning(book, a, &warning, &n_warning, err));
	work_warnings_of(warning, n_warning, &m->warning);
	m->is_at_hand = true;
	return ERR_NONE;
}

enum err_code
work_mixer_read_at_hand(const struct desk *desk, struct arena *arena,
	const char *batch_code, struct work_mixer *out, struct err *err)
{
	struct work_mixer m = {0};
	enum err_code code;

	TRY(book_read_begin(desk->book, err));
	code = read_hand(desk->book, arena, batch_code, &m, err);
	book_read_end(desk->book);
	if (code == ERR_NONE)
		*out = m;
	return code;
}

size_t
work_mixer_place(const struct work_mixer *m, size_t batch)
{
	return m->is_at_hand ? m->n_before : batch;
}

/* A list of things with a code at the same place of each. */
struct coded {
	const char *what, *how; /* "mix"; how the first is entered */
	const void *row;
	size_t n, size, code_offset;
};

static const char *
code_of(const struct coded *list, size_t i)
{
	return *(const char *const *)(const void *)((const char *)list->row +
		i * list->size + list->code_offset);
}

static enum err_code
find(const struct coded *list, const char *code, size_t *index, struct err *err)
{
	const char *nearest = NULL;
	size_t least = 3;

	for (size_t i = 0; i < list->n; i++) {
		size_t d = text_distance(code, code_of(list, i));

		if (strcmp(code, code_of(list, i)) == 0) {
			*index = i;
			return ERR_NONE;
		}
		if (d < least) {
			least = d;
			nearest = code_of(list, i);
		}
	}
	if (list->n == 0)
		return err_report(err, ERR_NOT_FOUND, list->what,
			"There is no %s in the book yet. %s",
			err_say(err, list->what), err_say(err, list->how));
	return err_report(err, ERR_NOT_FOUND, list->what,
		"There is no %s \"%.60s\" in the book.%s%s%s",
		err_say(err, list->what), code,
		nearest != NULL ? err_say(err, " The nearest is \"") : "",
		nearest != NULL ? nearest : "", nearest != NULL ? "\"." : "");
}

enum err_code
work_find_material(const struct work_mixer *m, const char *code, size_t *index,
	struct err *err)
{
	const struct coded list = {N_("material"),
		N_("\"foamwright material BOOK CODE --from cement\" enters "
		   "one."),
		m->site.material, m->site.n_material,
		sizeof(struct book_material),
		offsetof(struct book_material, code)};

	return find(&list, code, index, err);
}

enum err_code
work_find_mix(const struct work_mixer *m, const char *code, size_t *index,
	struct err *err)
{
	const struct coded list = {N_("mix"),
		N_("\"foamwright mix BOOK CODE --part ...\" enters one."),
		m->site.mix, m->site.n_mix, sizeof(struct book_mix),
		offsetof(struct book_mix, code)};

	return find(&list, code, index, err);
}

enum err_code
work_find_batch(const struct work_mixer *m, const char *code, size_t *index,
	struct err *err)
{
	const struct coded list = {N_("batch"),
		N_("\"foamwright batch BOOK CODE ...\" records one."),
		m->site.batch, m->site.n_batch, sizeof(struct book_batch),
		offsetof(struct book_batch, code)};

	return find(&list, code, index, err);
}

enum err_code
work_find_generator(const struct work_mixer *m, const char *code, size_t *index,
	struct err *err)
{
	const struct coded list = {N_("foam generator"),
		N_("\"foamwright generator BOOK CODE ...\" enters one."),
		m->generator, m->n_generator, sizeof(struct book_generator),
		offsetof(struct book_generator, code)};

	return find(&list, code, index, err);
}

enum err_code
work_find_trial(const struct work_mixer *m, const char *code, size_t *index,
	struct err *err)
{
	const struct coded list = {N_("trial"),
		N_("\"foamwright trial BOOK CODE --baseline MIX ...\" plans "
		   "one."),
		m->site.trial, m->site.n_trial, sizeof(struct book_trial),
		offsetof(struct book_trial, code)};

	return find(&list, code, index, err);
}

const char *
work_lot_before(const struct work_mixer *m, size_t row)
{
	for (size_t i = row; i > 0; i--)
		if (m->batch_part[i - 1].material_id ==
				m->batch_part[row].material_id &&
			m->batch_part[i - 1].lot[0] != '\0')
			return m->batch_part[i - 1].lot;
	return NULL;
}

const char *
work_material_code(const struct work_mixer *m, int64_t id)
{
	for (size_t i = 0; i < m->site.n_material; i++)
		if (m->site.material[i].row.id == id)
			return m->site.material[i].code;
	return "";
}

bool
work_material_part(const struct book_material *material, double mass_kg,
	struct mix_part *part)
{
	enum mix_role role;

	if (!mix_role_find(material->role, &role))
		return false;
	*part = (struct mix_part){.name = material->code,
		.role = role,
		.mass = {mass_kg},
		.has_particle_density = material->particle_density_kg_m3.has,
		.particle_density = {material->particle_density_kg_m3.value},
		.has_bulk_density = material->bulk_density_kg_m3.has,
		.bulk_density = {material->bulk_density_kg_m3.value},
		.moisture_ratio = material->moisture_ratio.has
			? material->moisture_ratio.value
			: 0,
		.absorption_ratio = material->absorption_ratio.has
			? material->absorption_ratio.value
			: 0};
	return true;
}

enum err_code
work_recipe(const struct work_mixer *m, struct arena *arena, size_t mix,
	struct mix_part **part, size_t *n, struct err *err)
{
	const struct work_site *s = &m->site;
	struct mix_part *got = arena_take(arena, s->n_mix_part, sizeof *got);
	size_t n_got = 0;

	if (got == NULL)
		return err_memory(err);
	for (size_t i = 0; i < s->n_mix_part; i++)
		if (s->part_mix[i] == mix &&
			work_material_part(&s->material[s->part_material[i]],
				s->mix_part[i].mass_kg_per_m3, &got[n_got]))
			n_got++;
	if (n_got == 0)
		return err_report(err, ERR_INPUT, "mix",
			"Mix %s has no parts yet; \"foamwright mix BOOK %s "
			"--part ...\" says what goes in.",
			s->mix[mix].code, s->mix[mix].code);
	*part = got;
	*n = n_got;
	return ERR_NONE;
}

void
work_saturated(struct mix_part *part, size_t n)
{
	for (size_t i = 0; i < n; i++) {
		if (part[i].role == MIX_WATER)
			continue;
		part[i].mass.kg *= 1 + part[i].absorption_ratio;
		part[i].moisture_ratio = part[i].absorption_ratio;
	}
}
