/* metering.c - the planned batch made with another foam. */
#include "mix/metering.h"

#include <string.h>

#define WORD(metering, word, people) word,
static const char *const words[] = {MIX_METERING_LIST(WORD)};
#undef WORD
#define PEOPLE(metering, word, people) people,
static const char *const peoples[] = {MIX_METERING_LIST(PEOPLE)};
#undef PEOPLE

const char *
mix_metering_word(enum mix_metering metering)
{
	return words[metering];
}

const char *
mix_metering_people(enum mix_metering metering)
{
	return peoples[metering];
}

bool
mix_metering_find(const char *word, enum mix_metering *metering)
{
	for (int i = 0; i < MIX_METERING_COUNT; i++) {
		if (strcmp(word, words[i]) == 0) {
			*metering = (enum mix_metering)i;
			return true;
		}
	}
	return false;
}

enum err_code
mix_metered_by(struct arena *arena, const struct mix_proportion *plan,
	const struct mix_proportioned *planned, struct density foam_true,
	enum mix_metering metering, struct mix_metered *out, struct err *err)
{
	struct mix_proportion made = *plan;
	struct mix_proportioned got;

	made.foam = foam_true;
	made.aim = MIX_AIM_FOAM_VOLUME;
	switch (metering) {
	case MIX_BY_VOLUME:
		made.foam_volume = planned->foam_volume;
		break;
	case MIX_BY_SECONDS:
		made.foam_volume.m3 = planned->foam_mass.kg / foam_true.kg_m3;
		break;
	case MIX_BY_DENSITY:
		made.aim = MIX_AIM_WET_DENSITY;
		made.wet_density = planned->wet_density;
		break;
	}
	TRY(mix_proportion(arena, &made, &got, err));
	out->foam_volume = got.foam_volume;
	out->volume = got.volume;
	out->yield_ratio = got.volume.m3 / planned->volume.m3;
	out->wet_density = got.wet_density;
	out->oven_dry_density = got.oven_dry_density;
	out->total_water_cement_ratio = got.total_water_cement_ratio;
	return ERR_NONE;
}
