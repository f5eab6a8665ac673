/* plain.c - options and commands said as fields and pages. */
#include "web/plain.h"

#include "core/text.h"
#include "web/page.h"

#include <string.h>

enum { NAME_MOST = 40 };

/* Fields of forms by the option that means the same. */
static const struct {
	const char *option, *label;
} fields[] = {
	{"agent", N_("Foam is made of")},
	{"area-load", N_("Load on its face")},
	{"bar", N_("What falls weighs")},
	{"baseline", N_("The baseline")},
	{"because", N_("Your reason")},
	{"count", N_("How many")},
	{"check-piece", N_("The weekly check piece")},
	{"dead-load", N_("A known load on the jack")},
	{"dent", N_("Depth of the dent")},
	{"dilution", N_("Parts of water to 1 of agent")},
	{"dry", N_("Or the dry weight aimed at")},
	{"exit-speed", N_("The speed at the end of the guide")},
	{"fate", N_("Its fate")},
	{"foam", N_("The foam weighs")},
	{"form", N_("In which form")},
	{"gauge", N_("Gauge when it gave way")},
	{"gauge-zero", N_("Gauge without a load")},
	{"gross", N_("Vessel full of foam")},
	{"ground-pressure", N_("Pressure on a plate on the ground")},
	{"ground-sinks", N_("How far that plate sinks")},
	{"hanger", N_("Hanger and bucket")},
	{"height", N_("Height of a wall, width of a floor")},
	{"kind", N_("What it is")},
	{"length", N_("Length")},
	{"lift", N_("Height poured at once")},
	{"lifted", N_("Where a precast piece is lifted")},
	{"like", N_("Like which other mix, but for")},
	{"load", N_("Load on top, a metre of it")},
	{"mass", N_("It weighs")},
	{"metering", N_("How foam is measured out")},
	{"mix", N_("Mix")},
	{"modulus", N_("Modulus of elasticity, measured")},
	{"place", N_("Where it hit")},
	{"point-load", N_("Load of one foot")},
	{"point-width", N_("Side of that foot, a square")},
	{"radius", N_("Radius of a vault or dome")},
	{"ram", N_("Bore of the ram")},
	{"remark", N_("Remark")},
	{"rig", N_("On which rig")},
	{"role", N_("Used as")},
	{"scale-step", N_("Smallest step of the scale")},
	{"shape", N_("What it makes")},
	{"span", N_("Span, of a panel or lintel")},
	{"speed", N_("Speed of the bar as it hits")},
	{"start", N_("When a log without dates began")},
	{"steel", N_("Steel of the mesh, a metre of it")},
	{"steel-depth", N_("Depth of the mesh below the pressed face")},
	{"target", N_("What the foam should weigh")},
	{"thickness", N_("Thickness of the foamed concrete")},
	{"through", N_("It went through")},
	{"tip", N_("Its tip")},
	{"tip-diameter", N_("Diameter of the tip")},
	{"trial", N_("Of which trial")},
	{"vessel-empty", N_("Weighing vessel, empty")},
	{"vessel-full", N_("The same, full of water")},
	{"weights", N_("Weights there are")},
	{"wet", N_("Wet weight aimed at")},
	{"wind", N_("Wind on its face")},
	{"yield", N_("Yield strength of the mesh")},
};

/* The page that does what a command does. */
static const struct {
	const char *command, *title;
} pages[] = {
	{"batch", N_("At the mixer")},
	{"bend", N_("At the bench")},
	{"choose", N_("Which mix for which part")},
	{"compare", N_("Every mix against the baseline")},
	{"confirm", N_("Fresh batches, to confirm the choice")},
	{"crush", N_("At the bench")},
	{"cure", N_("How the batches cured")},
	{"decide", N_("Which mix for which part")},
	{"drop", N_("At the bench")},
	{"due", N_("Test pieces and when they are due")},
	{"duty", N_("Duty sheet: what each part must do")},
	{"foam", N_("At the mixer")},
	{"form", N_("At the bench")},
	{"gear", N_("Mixer, scale and generators")},
	{"generator", N_("Mixer, scale and generators")},
	{"history", N_("The record")},
	{"import", N_("Bring in CSV files")},
	{"material", N_("Materials")},
	{"mix", N_("Mixes")},
	{"next", N_("What further testing would gain")},
	{"part", N_("The building")},
	{"piece", N_("At the bench")},
	{"pieces", N_("At the bench")},
	{"plan", N_("The plan of pouring")},
	{"pour", N_("Buying and pouring")},
	{"restore", N_("The record")},
	{"rig", N_("The rigs of the bench")},
	{"screen", N_("Parts screened by mechanics")},
	{"sheet", N_("At the mixer")},
	{"standing", N_("At the mixer")},
	{"takeoff", N_("Buying and pouring")},
	{"trace", N_("From a logger")},
	{"trial", N_("The trial")},
	{"undo", N_("The record")},
	{"usual", N_("What each kind of part is usually asked")},
	{"warnings", N_("The rules that warn")},
	{"watch", N_("The same batch again and again")},
	{"weigh", N_("At the bench")},
	{"weights", N_("What counts for the house")},
	{"withdraw", N_("The record")},
};

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

/* The bytes of a name: small letters and hyphens within. */
static size_t
name_length(const char *text)
{
	size_t n = strspn(text, "abcdefghijklmnopqrstuvwxyz-");

	while (n > 0 && text[n - 1] == '-')
		n--;
	return n < NAME_MOST ? n : 0;
}

static bool
is_name(const char *text, size_t n, const char *name)
{
	return strlen(name) == n && memcmp(text, name, n) == 0;
}

static const char *
label_of(const struct web_request *request, const struct form *form,
	const char *name, size_t n)
{
	for (size_t i = 0; form != NULL && i < form->n_field; i++)
		if (is_name(name, n, form->field[i]->name))
			return form->field[i]->label;
	for (size_t i = 0; i < COUNT(fields); i++)
		if (is_name(name, n, fields[i].option))
			return words(request->language, fields[i].label);
	return NULL;
}

static const char *
title_of(const struct web_request *request, const char *name, size_t n)
{
	for (size_t i = 0; i < COUNT(pages); i++)
		if (is_name(name, n, pages[i].command))
			return words(request->language, pages[i].title);
	return NULL;
}

/* An option after its dashes; returns what follows it. */
static const char *
add_option(const struct web_request *request, const struct form *form,
	const char *name, struct text *to)
{
	size_t n = name_length(name);
	const char *label = label_of(request, form, name, n);

	if (is_name(name, n, "lan") || is_name(name, n, "tls"))
		text_addf(to, "--%.*s", (int)n, name);
	else if (label != NULL)
		text_addf(to, "\"%s\"", label);
	else
		for (size_t i = 0; i < n; i++)
			text_add_char(to, name[i] == '-' ? ' ' : name[i]);
	return name + n;
}

static const char command[] = "foamwright ";

/* A command from its first word on; with the quotation marks about it.  NULL: no
 * page does it, or it is no command. */
static const char *
add_command(
	const struct web_request *request, const char *from, struct text *to)
{
	bool quoted = from[0] == '"';
	const char *name = from + quoted + sizeof command - 1;
	const char *title = title_of(request, name, name_length(name));
	size_t n = strcspn(name, quoted ? "\"" : ".;)");

	if (title == NULL || (quoted && name[n] != '"'))
		return NULL;
	text_addf(to, "%s \"%s\"", _("the page"), title);
	return name + n + quoted;
}

static bool
begins(const char *text, const char *what)
{
	return strncmp(text, what, strlen(what)) == 0;
}

static bool
is_option(const char *text, const char *start)
{
	return begins(text, "--") && name_length(text + 2) > 0 &&
		(text == start || strchr(" (\"", text[-1]) != NULL);
}

const char *
plain_words(const struct web_request *request, const struct form *form,
	const char *text)
{
	struct text to;
	const char *at = text;

	if (strstr(text, "--") == NULL && strstr(text, command) == NULL)
		return text;
	text_init(&to, request->arena);
	while (*at != '\0') {
		const char *after = NULL;

		if (is_option(at, text))
			after = add_option(request, form, at + 2, &to);
		else if (begins(at, command) ||
			(*at == '"' && begins(at + 1, command)))
			after = add_command(request, at, &to);
		if (after == NULL) {
			text_add_char(&to, *at);
			after = at + 1;
		}
		at = after;
	}
	return text_failed(&to) || to.bytes == NULL ? text : to.bytes;
}
