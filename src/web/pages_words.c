/* pages_words.c - each term that stands on a page, explained. */
#include "web/page.h"

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

static const struct {
	const char *term, *means;
} terms[] = {
	{N_("mix"),
		N_("The recipe: what goes in and what wet weight it aims at. "
		   "It has a letter.")},
	{N_("batch"),
		N_("One making of a mix, one tub. Batches are what counts: six "
		   "pieces of one batch say much about that batch and little "
		   "about the mix.")},
	{N_("baseline"),
		N_("The ordinary mix that all others are held against.")},
	{N_("test piece"),
		N_("A beam, cube or panel cast from a batch, with its own "
		   "marking.")},
	{N_("marking"),
		N_("The few characters on a test piece. The last checks the "
		   "others, so that a slip of the pen is found.")},
	{N_("foam weight"),
		N_("What a litre of foam weighs, in grams. Heavy foam brings "
		   "water into the mix and less air.")},
	{N_("half-drain time"),
		N_("How long until half of the foam's water has run out of "
		   "it.")},
	{N_("slurry"), N_("Cement, sand and water mixed, before the foam.")},
	{N_("wet weight"),
		N_("What a cubic metre weighs when it is poured. A struck-off "
		   "bucket of known volume shows it.")},
	{N_("dry weight"),
		N_("What is left when all water that can dry out has gone.")},
	{N_("settling"),
		N_("Height lost in the hours after pouring, while it is still "
		   "wet. Drying shrinkage is another thing and comes in "
		   "weeks.")},
	{N_("bending strength"),
		N_("The stress at the bottom of a beam when it breaks, from "
		   "the load, the span and the size of the beam.")},
	{N_("crushing strength"),
		N_("The load that crushed a piece over the face it stood "
		   "on.")},
	{N_("held and broke"),
		N_("A weight that broke the beam is an interval: it held the "
		   "load before and not the load after. No middle is taken.")},
	{N_("energy to crush"),
		N_("What a dropped bar puts in over the dent it makes. Small "
		   "dents mean more energy for each bit crushed.")},
	{N_("water to 1 of cement"),
		N_("Mass of mixing water over mass of cement. More water, "
		   "weaker walls of the bubbles.")},
	{N_("likely between"),
		N_("Ninety in a hundred that the true value lies there, given "
		   "what was read and the spread from batch to batch.")},
	{N_("left out"),
		N_("A batch or piece that a rule set before casting does not "
		   "compare. Its readings stay in the book, with the reason.")},
	{N_("lift"),
		N_("What is poured at once, up to a height, before the next "
		   "goes on it.")},
	{N_("U-value"),
		N_("Watts through a square metre for one degree between the "
		   "sides. Small is warm.")},
	{N_("lambda"),
		N_("How easily a material lets heat through, whatever its "
		   "thickness.")},
	{N_("usual range"),
		N_("Where nearly all values of a thing that runs as it always "
		   "did lie. A value outside it has a cause.")},
	{N_("screening"),
		N_("A first sieve by published formulas. It says what does not "
		   "do; it never says that something is fit to build.")},
};

enum err_code
web_words(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	static const struct grid_column column[] = {
		{"term", N_("word"), "", false},
		{"means", N_("what it means here"), "", false}};
	struct grid grid;
	struct page page;

	page_start(&page, request, _("Words"), PAGE_WORDS);
	page_table(&page, &grid, "words", _("Words on these pages"), column,
		COUNT(column));
	for (size_t i = 0; i < COUNT(terms); i++) {
		grid_text(&grid, words(request->language, terms[i].term));
		grid_text(&grid, words(request->language, terms[i].means));
	}
	page_grid(&page, &grid);
	return page_answer(&page, reply, err);
}
