/* result_words.c - results said in words. */
#include "work/result_words.h"

#include "core/text.h"
#include "core/unit.h"
#include "work/rig.h"

#include <math.h>
#include <string.h>

enum { DIGITS = 3, DIGITS_OF_A_SHARE = 2 };
static const double minute_s = 60;

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
exact_text(struct arena *arena, double value, const char *unit, struct maybe u)
{
	if (!u.has || !(u.value > 0))
		return text_format(arena, "%s %s", digits(arena, value), unit);
	return text_format(arena, "%s %s",
		or_empty(unit_plus_minus(arena, value, u.value * value)), unit);
}

static const char *
open_text(struct arena *arena, struct maybe u)
{
	if (!u.has || !(u.value > 0))
		return "";
	return or_empty(text_format(arena, " (+/- %s %%)",
		or_empty(
			unit_digits(arena, u.value * 100, DIGITS_OF_A_SHARE))));
}

const char *
work_value_text(struct arena *arena, struct interval v, const char *unit,
	struct maybe u_ratio)
{
	const char *low = digits(arena, v.low), *high = digits(arena, v.high);
	const char *text, *open = open_text(arena, u_ratio);

	if (isinf(v.high))
		text = text_format(arena, "more than %s %s%s", low, unit, open);
	else if (!(v.low > 0))
		text = text_format(
			arena, "less than %s %s%s", high, unit, open);
	else if (strcmp(low, high) == 0)
		text = exact_text(arena, v.low, unit, u_ratio);
	else
		text = text_format(
			arena, "%s to %s %s%s", low, high, unit, open);
	return or_empty(text);
}

const char *
work_result_value(struct arena *arena, const struct work_result *r)
{
	const char *unit = choose_measure_unit(r->measure);
	enum unit_kind kind = choose_measure_kind(r->measure);
	const struct interval shown = {unit_value(r->value.low, kind, unit),
		unit_value(r->value.high, kind, unit)};

	return work_value_text(arena, shown, unit, r->u_ratio);
}

const char *
work_result_what(struct arena *arena, const struct work_result *r)
{
	static const char centre[] = "at the centre";
	const char *name = choose_measure_name(r->measure);
	size_t n = strlen(name), n_centre = strlen(centre);

	if (r->place[0] == '\0' || strcmp(r->place, "centre") == 0 ||
		n < n_centre || strcmp(name + n - n_centre, centre) != 0)
		return arena_say(arena, name);
	/* Put together in English, then looked up whole: po/layers.txt. */
	name = text_format(arena, "%.*snear %s %s", (int)(n - n_centre), name,
		strcmp(r->place, "edge") == 0 ? "an" : "a", r->place);
	return name != NULL ? arena_say(arena, name) : "";
}

/* ---- what it was computed from ---- */

struct words {
	struct arena *arena;
	struct text text;
};

static void
add_word(struct words *w, const char *word)
{
	text_addf(&w->text, "%s%s", w->text.n > 0 ? ", " : "",
		arena_say(w->arena, or_empty(word)));
}

static void
add_figure(struct words *w, const char *name, struct maybe value, double scale,
	const char *unit)
{
	if (value.has)
		text_addf(&w->text, "%s%s %s %s", w->text.n > 0 ? ", " : "",
			arena_say(w->arena, name),
			digits(w->arena, value.value / scale), unit);
}

static void
say_bending(struct words *w, const struct book_bending *b)
{
	double hanger = b->on_rig_kg.has ? b->on_rig_kg.value : 0;
	bool apart = !b->on_rig_included;

	if (b->broke_kg.has && !(b->held_kg > 0) &&
		b->broke_kg.value <= hanger && !apart)
		add_word(w, N_("broke under the hanger alone"));
	else
		add_figure(w, N_("held"), (struct maybe){true, b->held_kg}, 1,
			"kg");
	if (b->broke_kg.has)
		add_figure(w, N_("broke"), b->broke_kg, 1, "kg");
	else
		add_word(w, N_("outlasted the weights"));
	if (apart && b->on_rig_kg.has)
		add_figure(w, N_("and the hanger"), b->on_rig_kg, 1, "kg");
	add_figure(w, N_("span"), b->span_m, 1e-3, "mm");
}

static void
say_drop(struct words *w, const struct book_drop *d,
	const struct work_rig_known *known)
{
	if (d->went_through)
		add_word(w, N_("went through"));
	else
		add_figure(w, N_("dent"), d->dent_m, 1e-3, "mm");
	if (d->cracked)
		add_word(w, N_("cracked"));
	add_figure(w, N_("bar"), d->bar_kg, 1, "kg");
	add_figure(w, N_("from"), d->height_m, 1e-3, "mm");
	if (d->tip[0] != '\0')
		add_word(w, d->tip);
	add_figure(w, N_("tip"), d->tip_diameter_m, 1e-3, "mm");
	if (d->tube_loss_ratio.has)
		add_figure(w, N_("the guide takes"), d->tube_loss_ratio, 1e-2,
			"%");
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
	add_figure(w, N_("gauge"), c->gauge_pa, 1e5, "bar");
	add_figure(w, N_("less"), c->gauge_zero_pa, 1e5, "bar");
	add_figure(w, N_("ram"), c->ram_diameter_m, 1e-3, "mm");
	if (c->gauge_pa.has && known->corrects)
		add_word(w,
			text_format(w->arena, "times %s by the dead load of %s",
				digits(w->arena, known->force_ratio),
				known->load->read_on));
	add_figure(w, N_("load"), c->load_n, 1e3, "kN");
	add_figure(w, N_("held"), c->held_n, 1e3, "kN");
	add_figure(w, N_("broke"), c->broke_n, 1e3, "kN");
	add_figure(w, N_("half beam under plates of"), c->plate_m, 1e-3, "mm");
	if (c->held_n.has && !c->broke_n.has)
		add_word(w, N_("outlasted the load"));
}

static void
say_water(struct words *w, const struct work_result *r,
	const struct book_water *b)
{
	if (r->measure == CHOOSE_WATER_TAKEN_UP) {
		add_figure(
			w, N_("dry"), (struct maybe){true, r->dry_kg}, 1, "kg");
		add_figure(w, N_("then"), b->mass_kg, 1, "kg");
		add_word(w, r->like);
		add_word(w, N_("water over the volume (as ASTM C796)"));
		return;
	}
	text_addf(&w->text, "%zu weighings", r->n_series);
	add_figure(w, N_("coefficient"), (struct maybe){true, r->slope}, 1,
		"kg/(m2 s^0.5) (ISO 15148)");
	add_figure(w, N_("or"), (struct maybe){true, r->slope * sqrt(minute_s)},
		1, "kg/(m2 min^0.5) (the unit of EN 1015-18)");
	add_word(w,
		N_("slope of the water on the face against the root of time"));
}

static void
say_shrinkage(struct words *w, const struct work_result *r,
	const struct book_length *b)
{
	enum { FIVE = 5 }; /* hundredths of a millimetre on half a metre */

	text_addf(&w->text, "studs first %s mm, now %s mm",
		or_empty(unit_digits(w->arena, r->first_m.value * 1000, FIVE)),
		or_empty(unit_digits(w->arena, b->length_m * 1000, FIVE)));
	if (r->grew_colder_K.has && r->grew_colder_K.value != 0)
		text_addf(&w->text,
			", %s K %s than at first, taken off at 10e-6 a K",
			digits(w->arena, fabs(r->grew_colder_K.value)),
			r->grew_colder_K.value > 0
				? arena_say(w->arena, "colder")
				: arena_say(w->arena, "warmer"));
	add_word(w, N_("change over the first length (ASTM C157)"));
}

static void
say_screw(struct words *w, const struct work_result *r,
	const struct book_screw *b)
{
	add_figure(w, N_("held"), (struct maybe){true, b->held_n}, 1, "N");
	if (b->broke_n.has)
		add_figure(w, N_("came out at"), b->broke_n, 1, "N");
	else
		add_word(w, N_("outlasted the pull"));
	if (r->like[0] != '\0')
		add_word(w, r->like);
	add_figure(w,
		b->broke_n.has ? N_("shear on its thread")
			       : N_("shear on its thread at least"),
		r->shear_Pa, 1e6, "N/mm2");
}

static void
say_frost(struct words *w, const struct book_frost *b)
{
	if (b->cycles.value > 1)
		text_addf(&w->text, "%.0f cycles", b->cycles.value);
	else
		text_addf(&w->text, "%.0f cycle", b->cycles.value);
	add_figure(
		w, N_("before"), (struct maybe){true, b->before_kg}, 1, "kg");
	add_figure(w, N_("after"), (struct maybe){true, b->after_kg}, 1, "kg");
	if (b->after_kg >= b->before_kg)
		add_word(w, N_("it lost nothing"));
	add_word(w,
		N_("loss over the mass before (common practice, no source)"));
}

static void
say_hot_box(struct words *w, const struct book_specimen *p,
	const struct book_hot_box *b)
{
	struct maybe area = b->area_m2, thickness = b->thickness_m;

	if (!area.has)
		area = (struct maybe){
			true, p->width_m.value * p->length_m.value};
	if (!thickness.has)
		thickness = p->depth_m;
	add_figure(w, N_("heater"), (struct maybe){true, b->power_w}, 1, "W");
	add_figure(w, N_("less"), b->leak_w, 1, "W");
	add_figure(
		w, N_("warm"), (struct maybe){true, b->warm_degc}, 1, "degC");
	add_figure(
		w, N_("cold"), (struct maybe){true, b->cold_degc}, 1, "degC");
	add_figure(w, N_("area"), area, 1, "m2");
	add_figure(w, N_("thickness"), thickness, 1e-3, "mm");
	add_word(w, N_("Fourier's law (as ISO 8990)"));
}

static void
say_piece(struct words *w, const struct book_specimen *p)
{
	add_figure(w, N_("width"), p->width_m, 1e-3, "mm");
	add_figure(w, N_("depth"), p->depth_m, 1e-3, "mm");
	add_figure(w, N_("diameter"), p->diameter_m, 1e-3, "mm");
}

static void
say_density(struct words *w, const struct work_site *site,
	const struct work_result *r)
{
	const struct book_specimen *p = &site->specimen[r->specimen];

	if (r->dry_kg > 0)
		add_figure(w, N_("oven dry"), (struct maybe){true, r->dry_kg},
			1, "kg");
	else
		add_figure(w, N_("at test"), p->mass_kg, 1, "kg");
	if (r->moisture != NULL)
		text_addf(&w->text, ", moisture read %s %%",
			digits(w->arena,
				100 *
					(r->moisture->water.mass_kg.value /
							r->moisture->water
								.dry_kg.value -
						1)));
	say_piece(w, p);
	add_figure(w, N_("length"), p->length_m, 1e-3, "mm");
}

static void
say_reading(struct words *w, const struct work_site *site,
	const struct work_result *r, const struct book_reading *reading,
	const struct work_rig_known *known)
{
	const struct book_specimen *p = &site->specimen[r->specimen];
	const char *kind = reading->kind;

	if (strcmp(kind, "bending") == 0)
		say_bending(w, &reading->bending);
	else if (strcmp(kind, "drop") == 0)
		say_drop(w, &reading->drop, known);
	else if (strcmp(kind, "crushing") == 0)
		say_crushing(w, &reading->crushing, known);
	else if (strcmp(kind, "soaking") == 0 || strcmp(kind, "rise") == 0)
		say_water(w, r, &reading->water);
	else if (strcmp(kind, "shrinkage") == 0)
		say_shrinkage(w, r, &reading->length);
	else if (strcmp(kind, "screw") == 0)
		say_screw(w, r, &reading->screw);
	else if (strcmp(kind, "frost") == 0)
		say_frost(w, &reading->frost);
	else if (strcmp(kind, "hot box") == 0)
		say_hot_box(w, p, &reading->hot_box);
	if (strcmp(kind, "bending") == 0 || strcmp(kind, "crushing") == 0)
		say_piece(w, p);
	if (strcmp(kind, "soaking") == 0) {
		say_piece(w, p);
		add_figure(w, N_("length"), p->length_m, 1e-3, "mm");
	}
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
	say_reading(&w, site, r, reading, &known);
	if (known.rig != NULL)
		add_word(&w, text_format(arena, "rig %s", known.rig->code));
	return text_failed(&w.text) || w.text.n == 0 ? "" : w.text.bytes;
}
