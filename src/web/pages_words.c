/* pages_words.c - each term that stands on a page, explained. */
#include "web/page.h"

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

static const struct {
	const char *term, *picture, *means, *also;
} terms[] = {
	{N_("foamed concrete"), "foamed",
		N_("Cement, water and foam, with or without sand: concrete "
		   "full of small bubbles."),
		N_("aircrete, cellular concrete, foamcrete; in Britain "
		   "aircrete is the factory-made block")},
	{N_("mix"), "mix",
		N_("The recipe: what goes in and what wet weight it aims at. "
		   "It has a letter."),
		N_("mix design, recipe, formula")},
	{N_("batch"), "batch",
		N_("One making of a mix, one tub. Batches are what counts: six "
		   "pieces of one batch say much about that batch and little "
		   "about the mix."),
		N_("pour, tub, load, gauge")},
	{N_("baseline"), "baseline",
		N_("The ordinary mix that all others are held against."),
		N_("control, reference")},
	{N_("foam"), "foam",
		N_("Bubbles made beforehand from water and a foaming agent, "
		   "then folded into the slurry."),
		N_("preformed foam")},
	{N_("foaming agent"), "agent",
		N_("What is thinned with water to make foam."),
		N_("foam concentrate, surfactant, soap")},
	{N_("dilution"), "dilution",
		N_("How many parts of water come to one of agent, by weight: 1 "
		   "to 40 is 24.4 g in a kilogram of the whole."),
		N_("foam solution, premix, 40:1")},
	{N_("foam generator"), "generator",
		N_("What makes foam from the thinned agent and pressed air."),
		N_("foamer, foam gun, foam lance")},
	{N_("foam weight"), "foamweight",
		N_("What a litre of foam weighs, in grams. Heavy foam brings "
		   "water into the mix and less air."),
		N_("foam density, pot weight")},
	{N_("half-drain time"), "halfdrain",
		N_("How long until half of the foam's water has run out of "
		   "it."),
		N_("half-life of foam; drainage, weeping")},
	{N_("slurry"), "slurry",
		N_("Cement, sand and water mixed, before the foam."),
		N_("paste, grout, base mix; with sand: mortar")},
	{N_("wet weight"), "wet",
		N_("What a cubic metre weighs when it is poured. A struck-off "
		   "bucket of known volume shows it."),
		N_("wet density, plastic density, unit weight")},
	{N_("dry weight"), "dry",
		N_("What is left when all water that can dry out has gone."),
		N_("dry density; air-dry is another thing")},
	{N_("water to 1 of cement"), "wc",
		N_("Mass of mixing water over mass of cement. More water, "
		   "weaker walls of the bubbles."),
		N_("water/cement ratio, w/c")},
	{N_("form"), "form",
		N_("What gives test pieces or walls their shape until they "
		   "stand by themselves."),
		N_("mould, mold, formwork, shutter, boxing")},
	{N_("settling"), "settling",
		N_("Height lost in the hours after pouring, while it is still "
		   "wet. Drying shrinkage is another thing and comes in "
		   "weeks."),
		N_("sinking, subsidence; not shrinkage")},
	{N_("keep damp"), "damp",
		N_("Under a sheet or wet cloth for the first days, so that "
		   "cement goes on hardening. Drying is not curing."),
		N_("curing, moist curing")},
	{N_("test piece"), "piece",
		N_("A beam, cube or panel cast from a batch, with its own "
		   "marking."),
		N_("specimen, sample, coupon")},
	{N_("marking"), "marking",
		N_("The few characters on a test piece. The last checks the "
		   "others, so that a slip of the pen is found."),
		N_("label, code")},
	{N_("bending strength"), "bending",
		N_("The stress at the bottom of a beam when it breaks, from "
		   "the load, the span and the size of the beam."),
		N_("flexural strength, modulus of rupture")},
	{N_("span"), "span",
		N_("From the middle of one support to the middle of the "
		   "other."),
		N_("clear span, support distance")},
	{N_("hanger"), "hanger",
		N_("What carries the weights under the beam. It is part of "
		   "every load."),
		N_("strap, load shoe, bucket")},
	{N_("first crack"), "crack",
		N_("The load at which a crack is first seen. A piece with wire "
		   "in it may hold much more after."),
		N_("cracking load")},
	{N_("sag"), "sag", N_("How far the middle goes down under the load."),
		N_("deflection, bow")},
	{N_("held and broke"), "held",
		N_("A weight that broke the beam is an interval: it held the "
		   "load before and not the load after. No middle is taken."),
		N_("increment, bag, step")},
	{N_("crushing strength"), "crushing",
		N_("The load that crushed a piece over the face it stood on."),
		N_("compressive strength")},
	{N_("energy to crush"), "energy",
		N_("What a dropped bar puts in over the dent it makes. Small "
		   "dents mean more energy for each bit crushed."),
		N_("impact energy, indentation")},
	{N_("moisture"), "moisture",
		N_("Water in a piece or in sand, in hundredths of its dry "
		   "mass."),
		N_("moisture content, water content")},
	{N_("likely between"), "likely",
		N_("Ninety in a hundred that the true value lies there, given "
		   "what was read and the spread from batch to batch."),
		N_("what a study calls a 90 in 100 interval")},
	{N_("left out"), "left",
		N_("A batch or piece that a rule set before casting does not "
		   "compare. Its readings stay in the book, with the reason."),
		N_("excluded, not valid")},
	{N_("usual range"), "usual",
		N_("Where nearly all values of a thing that runs as it always "
		   "did lie. A value outside it has a cause."),
		N_("control limits")},
	{N_("lift"), "lift",
		N_("What is poured at once, up to a height, before the next "
		   "goes on it."),
		N_("pour height, course")},
	{N_("U-value"), "uvalue",
		N_("Watts through a square metre for one degree between the "
		   "sides. Small is warm."),
		N_("1 over R; R-5.7 in the US is R 1 in SI")},
	{N_("lambda"), "lambda",
		N_("How easily a material lets heat through, whatever its "
		   "thickness."),
		N_("k, thermal conductivity")},
	{N_("screening"), "screening",
		N_("A first sieve by published formulas. It says what does not "
		   "do; it never says that something is fit to build."),
		N_("first check, rule of thumb")},
};

enum err_code
web_words(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	static const struct grid_column column[] = {
		{"term", N_("word"), "", false},
		{"means", N_("what it means here"), "", false},
		{"also", N_("others say"), "", false}};
	struct grid grid;
	struct page page;

	page_start(&page, request, _("Words"), PAGE_WORDS);
	page_table(&page, &grid, "words", _("Words on these pages"), column,
		COUNT(column));
	for (size_t i = 0; i < COUNT(terms); i++) {
		grid_pictured(&grid, words(request->language, terms[i].term),
			page_format(&page, "/static/words.svg#%s",
				terms[i].picture));
		grid_text(&grid, words(request->language, terms[i].means));
		grid_text(&grid, words(request->language, terms[i].also));
	}
	page_grid(&page, &grid);
	return page_answer(&page, reply, err);
}
