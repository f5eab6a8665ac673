/* shelf.c - the typical values. */
#include "mix/shelf.h"

#include "core/tongue.h"

#include <string.h>

/* Particle densities: the round figures of the trade (relative densities 3.15,
 * 2.65, 2.3 and the like); bulk densities: loose, as a bucket holds them;
 * carbon: rounded from the factors that national inventories publish, from
 * memory.  All of them common practice. */
static const struct mix_shelf_item items[] = {
	{"cement", "cement", N_("Portland cement"), {true, 3150}, {true, 1250},
		{0}, {true, 0.85}, {0},
		N_("common practice, no source; carbon from memory")},
	{"blended-cement", "cement", N_("cement with limestone"), {true, 3050},
		{true, 1150}, {0}, {true, 0.65}, {0},
		N_("common practice, no source; carbon from memory")},
	{"lime", "binder", N_("hydrated lime"), {true, 2240}, {true, 500}, {0},
		{true, 0.75}, {0},
		N_("common practice, no source; carbon from memory")},
	{"fly-ash", "binder", N_("fly ash, class F"), {true, 2300}, {true, 900},
		{0}, {true, 0.01}, {0},
		N_("common practice, no source; carbon from memory")},
	{"slag", "binder", N_("ground blast-furnace slag"), {true, 2900},
		{true, 1100}, {0}, {true, 0.08}, {0},
		N_("common practice, no source; carbon from memory")},
	{"fine-sand", "sand", N_("silica sand under 2 mm, dry"), {true, 2650},
		{true, 1500}, {true, 0.01}, {true, 0.005}, {0},
		N_("common practice, no source; carbon from memory")},
	{"limestone-flour", "filler", N_("ground limestone"), {true, 2700},
		{true, 1100}, {0}, {true, 0.03}, {0},
		N_("common practice, no source; carbon from memory")},
	{"water", "water", N_("mixing water"), {true, 1000}, {true, 1000}, {0},
		{true, 0.0003}, {0},
		N_("common practice, no source; carbon from memory")},
	{"pp-fibre", "fibre", N_("polypropylene micro fibre"), {true, 910}, {0},
		{0}, {true, 2.0}, {0},
		N_("common practice, no source; carbon from memory")},
	{"glass-fibre", "fibre", N_("alkali-resistant glass fibre"),
		{true, 2680}, {0}, {0}, {true, 2.5}, {0},
		N_("common practice, no source; carbon from memory")},
	{"basalt-fibre", "fibre", N_("chopped basalt fibre"), {true, 2700}, {0},
		{0}, {0}, {0}, N_("common practice, no source")},
	{"plasticiser", "admixture", N_("water reducer, liquid"), {true, 1100},
		{0}, {0}, {0}, {0}, N_("common practice, no source")},
	{"accelerator", "admixture", N_("accelerator, chloride-free liquid"),
		{true, 1300}, {0}, {0}, {0}, {0},
		N_("common practice, no source")},
	{"synthetic-agent", "agent", N_("synthetic foaming agent"),
		{true, 1020}, {0}, {0}, {0}, {true, 40},
		N_("common practice, no source")},
	{"protein-agent", "agent", N_("protein foaming agent"), {true, 1120},
		{0}, {0}, {0}, {true, 33}, N_("common practice, no source")},
	{"glass-mesh", "reinforcement", N_("alkali-resistant glass mesh"), {0},
		{0}, {0}, {0}, {0}, N_("common practice, no source")},
	{"steel-mesh", "reinforcement", N_("welded steel mesh, galvanised"),
		{true, 7850}, {0}, {0}, {true, 2.0}, {0},
		N_("common practice, no source; carbon from memory")},
};

const struct mix_shelf_item *
mix_shelf(size_t *n)
{
	*n = sizeof items / sizeof items[0];
	return items;
}

const struct mix_shelf_item *
mix_shelf_find(const char *name)
{
	for (size_t i = 0; i < sizeof items / sizeof items[0]; i++)
		if (strcmp(items[i].name, name) == 0)
			return &items[i];
	return NULL;
}
