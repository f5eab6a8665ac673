/* result_words.c - results said in words. */
#include "work/result_words.h"

#include "core/text.h"
#include "core/unit.h"
#include "work/rig.h"

#include <math.h>
#include <string.h>

enum { DIGITS = 3, DIGITS_OF_A_SHARE = 2 };

static const char *
or_empty(const char *text)
{
	return text != NULL ? text : "";
}

static const char *
digits(struct arena *arena, double value)
{
	return or_empty(unit_digits(arena, value, DIGITS));
}

static const char *
exact_text(struct arena *arena, const struct work_result *r, double value,
	const char *unit)
{
	if (!r->u_ratio.has || !(r->u_ratio.value > 0))
		return text_format(arena, "%s %s", digits(arena, value), unit);
	return text_format(arena, "%s %s",
		or_empty(unit_plus_minus(
			arena, value, r->u_ratio.value * value)),
		unit);
}

static const char *
open_text(struct arena *arena, const struct work_result *r)
{
	if (!r->u_ratio.has || !(r->u_ratio.value > 0))
		return "";
	return or_empty(text_format(arena, " (+/- %s %%)",
		or_empty(unit_digits(
			arena, r->u_ratio.value * 100, DIGITS_OF_A_SHARE))));
}

const char *
work_result_value(struct arena *arena, const struct work_result *r)
{
	const char *unit = choose_measure_unit(r->measure), *low, *high, *text;
	double scale = 1, offset = 0;
	struct err err = {.code = ERR_NONE};

	if (unit_factor(unit, choose_measure_kind(r->measure), UNIT_GALLON_US,
		    &scale, &offset, &err) != ERR_NONE)
		return "-";
	low = digits(arena, (r->value.low - offset) / scale);
	high = digits(arena, (r->value.high - offset) / scale);
	if (isinf(r->value.high))
		text = text_format(arena, "more than %s %s%s", low, unit,
			open_text(arena, r));
	else if (!(r->value.low > 0))
		text = text_format(arena, "less than %s %s%s", high, unit,
			open_text(arena, r));
	else if (strcmp(low, high) == 0)
		text = exact_text(
			arena, r, (r->value.low - offset) / scale, unit);
	else
		text = text_format(arena, "%s to %s %s%s", low, high, unit,
			open_text(arena, r));
	return or_empty(text);
}

const char *
work_result_what(struct arena *arena, const struct work_result *r)
{
	static const char centre[] = "at the centre";
	const char *name = choose_measure_name(r->measure);
	size_t n = strlen(name), n_centre = strlen(centre);

	if (r->place[0] == '\0' || strcmp(r->place, "centre") == 0 ||
		n < n_centre || strcmp(name + n - n_centre, centre) != 0)
		return name;
	return or_empty(
		text_format(arena, "%.*snear %s %s", (int)(n - n_centre), name,
			strcmp(r->place, "edge") == 0 ? "an" : "a", r->place));
}

/* ---- what it was computed from ---- */

struct words {
	struct arena *arena;
	struct text text;
};

static void
add_word(struct words *w, const char *word)
{
	text_addf(&w->text, "%s%s", w->text.n > 0 ? ", " : "", or_empty(word));
}

static void
add_figure(struct words *w, const char *name, struct maybe value, double scale,
	const char *unit)
{
	if (value.has)
		text_addf(&w->text, "%s%s %s %s", w->text.n > 0 ? ", " : "",
			name, digits(w->arena, value.value / scale), unit);
}

static void
say_bending(struct words *w, const struct book_bending *b)
{
	double hanger = b->on_rig_kg.has ? b->on_rig_kg.value : 0;
	bool apart = !b->on_rig_included;

	if (b->broke_kg.has && !(b->held_kg > 0) &&
		b->broke_kg.value <= hanger && !apart)
		add_word(w, "broke under the hanger alone");
	else
		add_figure(
			w, "held", (struct maybe){true, b->held_kg}, 1, "kg");
	if (b->broke_kg.has)
		add_figure(w, "broke", b->broke_kg, 1, "kg");
	else
		add_word(w, "outlasted the weights");
	if (apart && b->on_rig_kg.has)
		add_figure(w, "and the hanger", b->on_rig_kg, 1, "kg");
	add_figure(w, "span", b->span_m, 1e-3, "mm");
}

static void
say_drop(struct words *w, const struct book_drop *d,
	const struct work_rig_known *known)
{
	if (d->went_through)
		add_word(w, "went through");
	else
		add_figure(w, "dent", d->dent_m, 1e-3, "mm");
	if (d->cracked)
		add_word(w, "cracked");
	add_figure(w, "bar", d->bar_kg, 1, "kg");
	add_figure(w, "from", d->height_m, 1e-3, "mm");
	if (d->tip[0] != '\0')
		add_word(w, d->tip);
	add_figure(w, "tip", d->tip_diameter_m, 1e-3, "mm");
	if (d->tube_loss_ratio.has)
		add_figure(w, "the guide takes", d->tube_loss_ratio, 1e-2, "%");
	else if (known->speed != NULL)
		add_word(w,
			text_format(w->arena,
				"the guide takes %s %%, by the exit speed of "
				"%s",
				digits(w->arena, known->tube_loss_ratio * 100),
				known->speed->read_on));
}

static void
say_crushing(struct words *w, const struct book_crushing *c,
	const struct work_rig_known *known)
{
	add_figure(w, "gauge", c->gauge_pa, 1e5, "bar");
	add_figure(w, "less", c->gauge_zero_pa, 1e5, "bar");
	add_figure(w, "ram", c->ram_diameter_m, 1e-3, "mm");
	if (c->gauge_pa.has && known->corrects)
		add_word(w,
			text_format(w->arena, "times %s by the dead load of %s",
				digits(w->arena, known->force_ratio),
				known->load->read_on));
	add_figure(w, "load", c->load_n, 1e3, "kN");
	add_figure(w, "held", c->held_n, 1e3, "kN");
	add_figure(w, "broke", c->broke_n, 1e3, "kN");
	add_figure(w, "half beam under plates of", c->plate_m, 1e-3, "mm");
	if (c->held_n.has && !c->broke_n.has)
		add_word(w, "outlasted the load");
}

static void
say_piece(struct words *w, const struct book_specimen *p)
{
	add_figure(w, "width", p->width_m, 1e-3, "mm");
	add_figure(w, "depth", p->depth_m, 1e-3, "mm");
	add_figure(w, "diameter", p->diameter_m, 1e-3, "mm");
}

static void
say_density(struct words *w, const struct work_site *site,
	const struct work_result *r)
{
	const struct book_specimen *p = &site->specimen[r->specimen];

	if (r->dry_kg > 0)
		add_figure(w, "oven dry", (struct maybe){true, r->dry_kg}, 1,
			"kg");
	else
		add_figure(w, "at test", p->mass_kg, 1, "kg");
	say_piece(w, p);
	add_figure(w, "length", p->length_m, 1e-3, "mm");
}

const char *
work_result_from(struct arena *arena, const struct work_site *site,
	const struct work_result *r)
{
	struct words w = {.arena = arena};
	const struct book_reading *reading;
	struct work_rig_known known;

	text_init(&w.text, arena);
	if (r->has_specimen && !r->has_reading)
		say_density(&w, site, r);
	if (!r->has_reading)
		return text_failed(&w.text) || w.text.n == 0 ? ""
							     : w.text.bytes;
	reading = &site->reading[r->reading];
	known = work_rig_known(site, reading->rig_id);
	if (strcmp(reading->kind, "bending") == 0)
		say_bending(&w, &reading->bending);
	else if (strcmp(reading->kind, "drop") == 0)
		say_drop(&w, &reading->drop, &known);
	else if (strcmp(reading->kind, "crushing") == 0)
		say_crushing(&w, &reading->crushing, &known);
	if (strcmp(reading->kind, "drop") != 0)
		say_piece(&w, &site->specimen[r->specimen]);
	if (known.rig != NULL)
		add_word(&w, text_format(arena, "rig %s", known.rig->code));
	return text_failed(&w.text) || w.text.n == 0 ? "" : w.text.bytes;
}
