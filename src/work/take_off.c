/* take_off.c - the materials of a mix, and the sizes of a part, counted. */
#include "work/take_off.h"

#include "build/takeoff.h"

static enum err_code
materials_of(struct arena *arena, const struct work_site *site, size_t mix,
	const struct build_material **material, size_t *n, struct err *err)
{
	struct build_material *m = arena_take(
		arena, site->n_mix_part, sizeof *m);
	size_t count = 0;

	if (m == NULL)
		return err_memory(err);
	for (size_t i = 0; i < site->n_mix_part; i++) {
		const struct book_material *from =
			&site->material[site->part_material[i]];

		if (site->part_mix[i] != mix)
			continue;
		m[count++] = (struct build_material){.name = from->name,
			.kg_per_m3 = site->mix_part[i].mass_kg_per_m3,
			.package_kg = from->package_kg,
			.has_price = from->has_price,
			.price_cents = (double)from->price_cents};
	}
	*material = m;
	*n = count;
	return ERR_NONE;
}

bool
work_part_has_volume(const struct book_part *part)
{
	return part->volume_m3.has ||
		(part->length_m.has && part->height_m.has &&
			part->thickness_m.has);
}

enum err_code
work_take_off(struct arena *arena, const struct work_compared *all, size_t part,
	size_t mix, struct build_taken *out, struct err *err)
{
	const struct work_site *site = &all->site;
	const struct book_part *p = &site->part[part];
	const struct build_part sizes = {.code = p->code,
		.length_m = p->length_m,
		.height_m = p->height_m,
		.thickness_m = p->thickness_m,
		.openings_m2 = p->openings_m2,
		.volume_m3 = p->volume_m3,
		.waste_ratio = p->waste_ratio,
		.batch_m3 = p->batch_m3};
	const struct work_comparison *settling = work_comparison_of(
		all, CHOOSE_SETTLING_LOSS);
	const struct work_group *group = settling == NULL
		? NULL
		: work_group_of(all, settling, mix);
	const struct maybe foam = site->mix[mix].foam_m3_per_m3;
	const struct build_material *material = NULL;
	size_t n = 0;

	TRY(materials_of(arena, site, mix, &material, &n, err));
	return build_takeoff(arena, &sizes,
		group != NULL ? group->answer.median : 0, material, n,
		foam.has ? foam.value : 0, out, err);
}
