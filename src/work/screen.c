/* screen.c - which checks a part gets, and their utilisation world by world. */
#include "work/screen.h"

#include "book/book.h"
#include "book/key.h"
#include "choose/forms.h"
#include "choose/ground.h"
#include "choose/lintel.h"
#include "choose/section.h"
#include "choose/shell.h"
#include "choose/wall.h"
#include "core/rng.h"
#include "core/text.h"
#include "lab/handling.h"
#include "work/remember.h"

#include <gsl/gsl_math.h>
#include <gsl/gsl_sort.h>
#include <math.h>
#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

/* A fifth; common practice, no source. */
static const double poisson_ratio = 0.2;
/* A piece is lifted with a jerk of this times its weight; common practice, no
 * source. */
static const double usual_jerk = 1.5;
/* Inner points at equal moments: lab_equal_moment_share. */

enum need {
	NEED_THICKNESS = 1,
	NEED_HEIGHT = 1 << 1,
	NEED_LENGTH = 1 << 2,
	NEED_SPAN = 1 << 3,
	NEED_LOAD = 1 << 4,
	NEED_AREA_LOAD = 1 << 5,
	NEED_WIND = 1 << 6,
	NEED_POINT = 1 << 7,
	NEED_GROUND = 1 << 8,
	NEED_MODULUS = 1 << 9,
	NEED_RADIUS = 1 << 10,
	NEED_STEEL = 1 << 11,
	NEED_GRIP = 1 << 12,
	NEED_CRUSHING = 1 << 13,
	NEED_BENDING = 1 << 14,
	NEED_DENSITY = 1 << 15
};

/* One world: Pa, Pa, kg/m3. */
struct sample {
	double crushing, bending, density;
};

struct screening {
	const struct desk *desk;
	struct arena *arena;
	const struct work_compared *all;
	gsl_rng *rng;
	size_t n_draw, mix;
	const struct book_part *part;
	struct book_part_use use;
	double safety, moisture;
	double *crushing, *bending, *density; /* NULL: not tested */
	bool has_crushing, has_bending, has_density;
	size_t n_batch;
};

typedef enum err_code (*utilisation_of)(const struct screening *s,
	const struct sample *x, double *u, struct err *err);

struct check {
	const char *forms; /* " wall dome " */
	unsigned needs;
	bool is_exact;
	const char *name, *formula, *source;
	utilisation_of of;
	const char *note;
};

/* ---- the checks ---- */

static struct choose_wall
wall_of(const struct screening *s, const struct sample *x)
{
	return (struct choose_wall){.height = {s->part->height_m.value},
		.thickness = {s->part->thickness_m.value},
		.strength = {x->crushing > 0 ? x->crushing : 1},
		.has_bending_strength = true,
		.bending_strength = {x->bending > 0 ? x->bending : 1},
		.density = {x->density},
		.load_N_m = s->use.load_n_m.value,
		.wind = {s->use.wind_pa.value},
		.safety = s->safety};
}

static enum err_code
wall_crushing(const struct screening *s, const struct sample *x, double *u,
	struct err *err)
{
	struct choose_wall w = wall_of(s, x);
	struct choose_walled got;

	TRY(choose_wall(&w, &got, err));
	*u = got.crushing_utilisation;
	return ERR_NONE;
}

static enum err_code
wall_bending(const struct screening *s, const struct sample *x, double *u,
	struct err *err)
{
	struct choose_wall w = wall_of(s, x);
	struct choose_walled got;

	TRY(choose_wall(&w, &got, err));
	*u = got.tension_utilisation;
	return ERR_NONE;
}

static enum err_code
wall_slender(const struct screening *s, const struct sample *x, double *u,
	struct err *err)
{
	(void)x;
	(void)err;
	*u = s->part->height_m.value / s->part->thickness_m.value /
		choose_most_slender;
	return ERR_NONE;
}

/* Moment of a metre of panel under its load and its own weight.  Where it leans
 * the span goes up the slope, the load is that of a square metre of plan, and
 * what bends it is what stands square to it: load cos2, weight cos. */
static double
panel_moment(const struct screening *s, const struct sample *x)
{
	double span = s->use.span_m.value;
	double lean = cos(s->use.pitch_rad.has ? s->use.pitch_rad.value : 0);
	double even = s->use.area_load_pa.value * lean * lean +
		x->density * gravity_m_s2 * s->part->thickness_m.value * lean;

	return even * span * span / 8; /* w L^2/8 */
}

static enum err_code
panel_section(const struct screening *s, const struct sample *x, bool mesh,
	struct choose_sectioned *got, struct err *err)
{
	const struct choose_section section = {.width = {1},
		.depth = {s->part->thickness_m.value},
		.strength = {x->bending},
		.has_reinforcement = mesh,
		.compressive = {x->crushing},
		.steel = {s->use.steel_m2.value},
		.effective = {s->use.effective_m.value},
		.yield = {s->use.yield_pa.value}};

	return choose_section(&section, got, err);
}

static enum err_code
panel_cracking(const struct screening *s, const struct sample *x, double *u,
	struct err *err)
{
	struct choose_sectioned got;

	TRY(panel_section(s, x, false, &got, err));
	*u = s->safety * panel_moment(s, x) / got.cracking.N_m;
	return ERR_NONE;
}

static enum err_code
panel_ultimate(const struct screening *s, const struct sample *x, double *u,
	struct err *err)
{
	struct choose_sectioned got;

	TRY(panel_section(s, x, true, &got, err));
	*u = s->safety * panel_moment(s, x) / got.ultimate.N_m;
	return ERR_NONE;
}

/* The mesh must carry at least what cracks the panel. */
static enum err_code
panel_after_crack(const struct screening *s, const struct sample *x, double *u,
	struct err *err)
{
	struct choose_sectioned got;

	TRY(panel_section(s, x, true, &got, err));
	*u = got.cracking.N_m / got.ultimate.N_m;
	return ERR_NONE;
}

static enum err_code
ground_bending(const struct screening *s, const struct sample *x, double *u,
	struct err *err)
{
	double width = s->use.point_width_m.value;
	const struct choose_ground g = {.load = {s->use.point_load_n.value},
		.radius = {width / sqrt(M_PI)}, /* the circle of its area */
		.thickness = {s->part->thickness_m.value},
		.modulus = {s->use.modulus_pa.value},
		.poisson_ratio = poisson_ratio,
		.subgrade_Pa_m = s->use.subgrade_pa.value /
			s->use.subgrade_sinks_m.value};
	struct choose_grounded got;

	TRY(choose_ground(&g, &got, err));
	*u = s->safety * fmax(got.inside.Pa, got.corner.Pa) / x->bending;
	return ERR_NONE;
}

static enum err_code
local_crushing(const struct screening *s, const struct sample *x, double *u,
	struct err *err)
{
	double width = s->use.point_width_m.value;
	const struct area foot = {width * width};
	struct force bears;

	TRY(choose_bearing(
		(struct stress){x->crushing}, foot, foot, &bears, err));
	*u = s->safety * s->use.point_load_n.value / bears.N;
	return ERR_NONE;
}

static enum err_code
dome_at(const struct screening *s, const struct sample *x, double angle_rad,
	struct choose_domed *got, struct err *err)
{
	const struct choose_dome d = {.radius = {s->use.radius_m.value},
		.thickness = {s->part->thickness_m.value},
		.density = {x->density},
		.angle_rad = angle_rad};

	return choose_dome(&d, got, err);
}

static enum err_code
dome_crushing(const struct screening *s, const struct sample *x, double *u,
	struct err *err)
{
	struct choose_domed got;

	TRY(dome_at(s, x, M_PI_2, &got, err));
	*u = s->safety * -got.along.Pa / x->crushing;
	return ERR_NONE;
}

static enum err_code
dome_tension(const struct screening *s, const struct sample *x, double *u,
	struct err *err)
{
	struct choose_domed got;

	TRY(dome_at(s, x, M_PI_2, &got, err));
	*u = s->safety * got.hoop.Pa / x->bending;
	return ERR_NONE;
}

static enum err_code
vault_crushing(const struct screening *s, const struct sample *x, double *u,
	struct err *err)
{
	const struct choose_vault v = {.radius = {s->use.radius_m.value},
		.thickness = {s->part->thickness_m.value},
		.length = {s->part->length_m.value},
		.density = {x->density}};
	struct choose_vaulted got;

	TRY(choose_vault(&v, &got, err));
	*u = s->safety * fmax(-got.around.Pa, -got.along.Pa) / x->crushing;
	return ERR_NONE;
}

static enum err_code
vault_thickness(const struct screening *s, const struct sample *x, double *u,
	struct err *err)
{
	(void)x;
	(void)err;
	*u = choose_least_arch * s->use.radius_m.value /
		s->part->thickness_m.value;
	return ERR_NONE;
}

static enum err_code
lintel_bending(const struct screening *s, const struct sample *x, double *u,
	struct err *err)
{
	const struct choose_lintel l = {.span = {s->use.span_m.value},
		.width = {s->part->thickness_m.value},
		.depth = {s->part->height_m.value},
		.density = {x->density},
		.load_N_m = s->use.load_n_m.value,
		.strength = {x->bending},
		.safety = s->safety};
	struct choose_lintelled got;

	TRY(choose_lintel(&l, &got, err));
	*u = got.utilisation;
	return ERR_NONE;
}

static enum err_code
lifting(const struct screening *s, const struct sample *x, double *u,
	struct err *err)
{
	const char *grip = s->use.grip;
	const struct lab_handling h = {.grip = strcmp(grip, "ends") == 0
			? LAB_GRIP_ENDS
			: strcmp(grip, "inner") == 0 ? LAB_GRIP_INNER
						     : LAB_GRIP_MIDDLE,
		.length = {s->part->length_m.value},
		.width = {s->part->height_m.value},
		.depth = {s->part->thickness_m.value},
		.density = {x->density},
		.inner_share = lab_equal_moment_share,
		.jerk = usual_jerk};
	struct lab_handled got;

	TRY(lab_handling(&h, &got, err));
	*u = s->safety * got.stress.Pa / x->bending;
	return ERR_NONE;
}

static const char falls[] = N_(
	"Plain: nothing is left when it cracks, and it falls without warning.");

static const struct check checks[] = {
	{" wall ",
		NEED_THICKNESS | NEED_HEIGHT | NEED_LOAD | NEED_WIND |
			NEED_CRUSHING | NEED_DENSITY,
		false, N_("crushing and slenderness"),
		N_("n ((load + weight)/t + 6 w h^2/(8 t^2))/(f phi), phi = 1 - "
		   "(h/140 r)^2, r = t/sqrt 12"),
		N_("TMS 402-16, 8.2.4.1, without its quarter; statics"),
		wall_crushing, ""},
	{" wall ",
		NEED_THICKNESS | NEED_HEIGHT | NEED_LOAD | NEED_WIND |
			NEED_BENDING | NEED_DENSITY,
		false, N_("bending by wind"),
		N_("n (6 w h^2/(8 t^2) - (load + half the weight)/t)/f "
		   "bending"),
		N_("statics (derived)"), wall_bending,
		N_("It is taken to stand between foot and head; an edge that "
		   "is "
		   "free is worse.")},
	{" wall ", NEED_THICKNESS | NEED_HEIGHT, true, N_("slenderness"),
		"(h/t)/27", "EN 1996-1-1, 5.5.1.4", wall_slender, ""},
	{" floor-panel roof-panel ",
		NEED_THICKNESS | NEED_SPAN | NEED_AREA_LOAD | NEED_BENDING |
			NEED_DENSITY,
		false, N_("first crack in bending"),
		N_("n ((load + weight) L^2/8)/(f b h^2/6)"),
		N_("elastic; ACI 318-19, 24.2.3.5"), panel_cracking, falls},
	{" floor-panel roof-panel ",
		NEED_THICKNESS | NEED_SPAN | NEED_AREA_LOAD | NEED_BENDING |
			NEED_CRUSHING | NEED_DENSITY | NEED_STEEL,
		false, N_("ultimate moment with mesh"),
		N_("n ((load + weight) L^2/8)/(As fs (d - a/2))"),
		N_("ACI 318-19, 22.2, carried below its 17 MPa"),
		panel_ultimate,
		N_("Bond is not checked: in weak foamed concrete wires mostly "
		   "slip first.")},
	{" floor-panel roof-panel ",
		NEED_THICKNESS | NEED_BENDING | NEED_CRUSHING | NEED_STEEL,
		false, N_("mesh carries what cracked it"),
		"(f b h^2/6)/(As fs (d - a/2))", N_("ACI 318-19, 22.2"),
		panel_after_crack,
		N_("Over 1 the panel falls at its first crack, mesh or not.")},
	{" floor ",
		NEED_THICKNESS | NEED_POINT | NEED_GROUND | NEED_MODULUS |
			NEED_BENDING,
		false, N_("slab under a point load"),
		N_("n max(inside, corner)/f bending, a = foot/sqrt pi"),
		N_("Westergaard 1926; Huang, Pavement Analysis and Design, ch. "
		   "4"),
		ground_bending, ""},
	{" floor roof floor-panel roof-panel ", NEED_POINT | NEED_CRUSHING,
		false, N_("crushing under a foot"), "n P/(0.85 f c^2)",
		N_("ACI 318-19, table 22.8.3.2, without its factor"),
		local_crushing,
		N_("A board or topping spreads the load before it dents.")},
	{" dome ", NEED_THICKNESS | NEED_RADIUS | NEED_CRUSHING | NEED_DENSITY,
		false, N_("crushing at the foot"),
		N_("n q a/(t f), q = weight of 1 m2"),
		N_("Timoshenko and Woinowsky-Krieger, ch. 14"), dome_crushing,
		""},
	{" dome ", NEED_THICKNESS | NEED_RADIUS | NEED_BENDING | NEED_DENSITY,
		false, N_("hoop tension at the foot"),
		N_("n q a/(t f bending)"),
		N_("Timoshenko and Woinowsky-Krieger, ch. 14"), dome_tension,
		N_("Tension below 51.8 degrees from the crown is for steel, "
		   "not "
		   "for plain foamed concrete.")},
	{" vault ",
		NEED_THICKNESS | NEED_RADIUS | NEED_LENGTH | NEED_CRUSHING |
			NEED_DENSITY,
		false, N_("crushing at the crown"),
		N_("n max(q a, q L^2/(4 a))/(t f)"),
		N_("Timoshenko and Woinowsky-Krieger, ch. 15"), vault_crushing,
		N_("Held by stiff end walls, its lower edges by beams.")},
	{" vault ", NEED_THICKNESS | NEED_RADIUS, true,
		N_("thick enough to stand as an arch"), "0.1075 a/t",
		N_("Milankovitch 1907"), vault_thickness, ""},
	{" lintel ",
		NEED_THICKNESS | NEED_HEIGHT | NEED_SPAN | NEED_LOAD |
			NEED_BENDING | NEED_DENSITY,
		false, N_("bending of the lintel"),
		N_("n 6 ((load + weight) L^2/8)/(b h^2 f)"),
		N_("statics (derived)"), lintel_bending,
		N_("The load contains the wall above it. Plain: nothing is "
		   "left "
		   "when it cracks.")},
	{" floor-panel roof-panel lintel block ",
		NEED_THICKNESS | NEED_HEIGHT | NEED_LENGTH | NEED_GRIP |
			NEED_BENDING | NEED_DENSITY,
		false, N_("lifting and handling"),
		N_("n 6 M/(b t^2 f), with 1.5 times the weight"),
		N_("statics (derived); jerk: common practice, no source"),
		lifting, ""},
};

/* ---- what is missing ---- */

static bool
is_there(const struct screening *s, enum need need)
{
	const struct book_part *p = s->part;
	const struct book_part_use *u = &s->use;

	switch (need) {
	case NEED_THICKNESS:
		return p->thickness_m.has;
	case NEED_HEIGHT:
		return p->height_m.has;
	case NEED_LENGTH:
		return p->length_m.has;
	case NEED_SPAN:
		return u->span_m.has;
	case NEED_LOAD:
		return u->load_n_m.has;
	case NEED_AREA_LOAD:
		return u->area_load_pa.has;
	case NEED_WIND:
		return u->wind_pa.has;
	case NEED_POINT:
		return u->point_load_n.has && u->point_width_m.has;
	case NEED_GROUND:
		return u->subgrade_pa.has && u->subgrade_sinks_m.has;
	case NEED_MODULUS:
		return u->modulus_pa.has;
	case NEED_RADIUS:
		return u->radius_m.has;
	case NEED_STEEL:
		return u->steel_m2.has && u->effective_m.has && u->yield_pa.has;
	case NEED_GRIP:
		return u->grip[0] != '\0';
	case NEED_CRUSHING:
		return s->has_crushing;
	case NEED_BENDING:
		return s->has_bending;
	case NEED_DENSITY:
		return s->has_density;
	}
	return false;
}

static const struct want {
	enum need need;
	const char *how;
} wants[] = {
	{NEED_THICKNESS, N_("its thickness (--thickness)")},
	{NEED_HEIGHT, N_("its height or width (--height)")},
	{NEED_LENGTH, N_("its length (--length)")},
	{NEED_SPAN, N_("its span (--span)")},
	{NEED_LOAD, N_("the load on a metre of it (--load)")},
	{NEED_AREA_LOAD, N_("the load on a square metre (--area-load)")},
	{NEED_WIND, N_("the wind (--wind)")},
	{NEED_POINT, N_("one foot and its load (--point-load, --point-width)")},
	{NEED_GROUND,
		N_("how the ground gives (--ground-pressure, --ground-sinks)")},
	{NEED_MODULUS, N_("the modulus of the mix (--modulus)")},
	{NEED_RADIUS, N_("its radius (--radius)")},
	{NEED_STEEL, N_("its mesh (--steel, --steel-depth, --yield)")},
	{NEED_GRIP, N_("where it is lifted (--lifted)")},
	{NEED_CRUSHING, N_("crushed pieces of the mix")},
	{NEED_BENDING, N_("broken beams of the mix")},
	{NEED_DENSITY, N_("dried and weighed pieces of the mix")},
};

/* The first of what is asked that is not there; COUNT(wants): all is. */
static size_t
next_missing(const struct screening *s, unsigned needs, size_t from)
{
	while (from < COUNT(wants) &&
		((needs & wants[from].need) == 0 ||
			is_there(s, wants[from].need)))
		from++;
	return from;
}

static const char *
missing(const struct screening *s, unsigned needs)
{
	struct text text;

	text_init(&text, s->arena);
	for (size_t i = next_missing(s, needs, 0); i < COUNT(wants);
		i = next_missing(s, needs, i + 1))
		text_addf(&text, "%s%s", text.n > 0 ? ", " : "",
			arena_say(s->arena, wants[i].how));
	return text_failed(&text) || text.n == 0 ? "" : text.bytes;
}

/* ---- one part ---- */

static struct sample
sample_of(const struct screening *s, size_t i)
{
	return (struct sample){s->crushing != NULL ? s->crushing[i] : 0,
		s->bending != NULL ? s->bending[i] : 0,
		s->density != NULL ? s->density[i] * (1 + s->moisture) : 0};
}

/* What a part comes to in figures; the words are said anew each time. */
struct figures {
	bool has_crushing, has_bending, has_density;
	size_t n_batch;
	struct figure {
		double p_holds, low, median, high;
	} check[COUNT(checks)]; /* of those that nothing is missing for */
};

static enum err_code
run_check(const struct screening *s, struct arena *scratch,
	const struct check *check, struct figure *line, struct err *err)
{
	size_t n = check->is_exact ? 1 : s->n_draw, n_holds = 0;
	double *u = arena_take(scratch, n, sizeof *u);

	if (u == NULL)
		return err_memory(err);
	for (size_t i = 0; i < n; i++) {
		const struct sample x = sample_of(s, i);

		TRY(check->of(s, &x, &u[i], err));
		n_holds += u[i] <= 1;
	}
	gsl_sort(u, 1, n);
	line->p_holds = (double)n_holds / (double)n;
	line->low = u[(size_t)((double)(n - 1) * (1 - work_level) / 2)];
	line->median = u[(n - 1) / 2];
	line->high = u[(size_t)ceil((double)(n - 1) * (1 + work_level) / 2)];
	return ERR_NONE;
}

static bool
is_for(const struct check *check, const char *form, struct arena *arena)
{
	const char *word = text_format(arena, " %s ", form);

	return word != NULL && strstr(check->forms, word) != NULL;
}

static enum err_code
list_checks(const struct screening *s, const struct figures *figures,
	struct work_screened_part *out, struct err *err)
{
	struct work_screened_line *line = arena_take(
		s->arena, COUNT(checks), sizeof *line);

	if (line == NULL)
		return err_memory(err);
	out->line = line;
	for (size_t i = 0; i < COUNT(checks); i++) {
		const struct check *c = &checks[i];

		if (!is_for(c, s->use.form, s->arena))
			continue;
		*line = (struct work_screened_line){.name = c->name,
			.formula = c->formula,
			.source = c->source,
			.is_exact = c->is_exact,
			.asks = missing(s, c->needs),
			.note = c->note};
		if (line->asks[0] == '\0') {
			line->p_holds = figures->check[i].p_holds;
			line->low = figures->check[i].low;
			line->median = figures->check[i].median;
			line->high = figures->check[i].high;
		}
		line++;
		out->n_line++;
	}
	return ERR_NONE;
}

static enum err_code
press_forms(const struct screening *s, struct work_screened_part *out,
	struct err *err)
{
	const struct maybe wet = s->all->site.mix[s->mix].wet_target_kg_m3;
	const struct choose_forms f = {
		.density = {wet.value}, .lift_height = {s->use.lift_m.value}};
	struct choose_formed got;

	out->pressure_asks = !s->use.lift_m.has
		? "the height poured at once (--lift)"
		: !wet.has ? "the wet weight of the mix (foamwright mix --wet)"
			   : "";
	if (out->pressure_asks[0] != '\0')
		return ERR_NONE;
	TRY(choose_forms(&f, &got, err));
	out->has_pressure = true;
	out->pressure_pa = got.pressure.Pa;
	return ERR_NONE;
}

static enum err_code
draw_one(struct screening *s, struct arena *scratch,
	enum choose_measure measure, double **draw, struct err *err)
{
	size_t n_batch = SIZE_MAX;
	double *next = arena_take(scratch, s->n_draw, sizeof *next);

	if (next == NULL)
		return err_memory(err);
	*draw = NULL;
	if (!work_next_draws(
		    s->all, s->rng, s->n_draw, measure, s->mix, next, &n_batch))
		return ERR_NONE;
	*draw = next;
	s->n_batch = n_batch < s->n_batch ? n_batch : s->n_batch;
	return ERR_NONE;
}

static enum err_code
draw_all(struct screening *s, struct arena *scratch, struct err *err)
{
	s->n_batch = SIZE_MAX;
	TRY(draw_one(s, scratch, CHOOSE_CRUSHING_STRENGTH, &s->crushing, err));
	TRY(draw_one(s, scratch, CHOOSE_BENDING_STRENGTH, &s->bending, err));
	TRY(draw_one(s, scratch, CHOOSE_DRY_DENSITY, &s->density, err));
	s->has_crushing = s->crushing != NULL;
	s->has_bending = s->bending != NULL;
	s->has_density = s->density != NULL;
	if (s->n_batch == SIZE_MAX)
		return err_report(err, ERR_INPUT, "--mix",
			"Mix %s has no results: neither bending nor crushing "
			"nor dry weight. Test it first, or name another with "
			"--mix.",
			s->all->site.mix[s->mix].code);
	return ERR_NONE;
}

static enum err_code
run_checks(struct screening *s, struct arena *scratch, struct figures *out,
	struct err *err)
{
	gsl_rng *rng = rng_new(s->desk->seed,
		WORK_CHAINS + 2 + (size_t)(s->part - s->all->site.part));
	enum err_code code;

	if (rng == NULL)
		return err_memory(err);
	s->rng = rng;
	code = draw_all(s, scratch, err);
	gsl_rng_free(rng);
	s->rng = NULL;
	TRY(code);
	*out = (struct figures){.has_crushing = s->has_crushing,
		.has_bending = s->has_bending,
		.has_density = s->has_density,
		.n_batch = s->n_batch};
	for (size_t i = 0; i < COUNT(checks); i++)
		if (is_for(&checks[i], s->use.form, scratch) &&
			next_missing(s, checks[i].needs, 0) == COUNT(wants))
			TRY(run_check(
				s, scratch, &checks[i], &out->check[i], err));
	return ERR_NONE;
}

static enum err_code
make_figures(
	void *data, struct arena *own, const void **answer, struct err *err)
{
	const size_t most = (size_t)8 << 30;
	struct arena *scratch = arena_new(most);
	struct figures *figures = arena_take(own, 1, sizeof *figures);
	enum err_code code = ERR_NONE;

	if (scratch == NULL || figures == NULL)
		code = err_memory(err);
	if (code == ERR_NONE)
		code = run_checks(data, scratch, figures, err);
	arena_free(scratch);
	*answer = figures;
	return code;
}

static struct memo_key
key_figures(const struct screening *s)
{
	struct memo_keying k;

	memo_key_start(&k, "screened part");
	work_key_next(&k, s->all);
	memo_key_count(&k, s->desk->seed);
	memo_key_count(&k, s->n_draw);
	memo_key_count(&k, s->mix);
	memo_key_count(&k, (size_t)(s->part - s->all->site.part));
	book_key_part(&k, s->part);
	book_key_part_use(&k, &s->use);
	memo_key_number(&k, s->safety);
	memo_key_number(&k, s->moisture);
	return memo_key_end(&k);
}

static enum err_code
screen_part(struct screening *s, const struct work_parts *parts,
	struct work_screened_part *out, struct err *err)
{
	const void *answer = NULL;
	const struct figures *figures;
	struct memo_key key;

	s->part = &s->all->site.part[out->part];
	s->use = work_part_use(parts, s->part);
	s->mix = out->mix;
	s->safety = s->use.safety.has ? s->use.safety.value
				      : choose_wall_safety;
	s->moisture = s->use.moisture_ratio.has ? s->use.moisture_ratio.value
						: work_usual_moisture;
	key = key_figures(s);
	TRY(work_remember(
		s->desk, &key, s->arena, make_figures, s, &answer, err));
	figures = answer;
	s->has_crushing = figures->has_crushing;
	s->has_bending = figures->has_bending;
	s->has_density = figures->has_density;
	out->n_batch = figures->n_batch;
	out->safety = s->safety;
	out->moisture_ratio = s->moisture;
	TRY(list_checks(s, figures, out, err));
	return press_forms(s, out, err);
}

/* ---- which mix ---- */

static const struct work_part_choice *
choice_of(const struct work_chosen *chosen, size_t part)
{
	for (size_t i = 0; i < chosen->n_part; i++)
		if (chosen->part[i].part == part &&
			chosen->part[i].n_candidate > 0)
			return &chosen->part[i];
	return NULL;
}

enum err_code
work_part_mix(const struct desk *desk, struct arena *arena,
	const struct work_chosen *chosen, size_t part, const char *asked,
	size_t *mix, const char **why, struct err *err)
{
	const struct work_site *site = &chosen->compared.site;
	const struct work_part_choice *choice = choice_of(chosen, part);
	const struct book_decision *decision;
	size_t n;

	if (asked != NULL) {
		*why = N_("asked for");
		if (work_site_mix(site, asked, mix))
			return ERR_NONE;
		return err_report(err, ERR_NOT_FOUND, "--mix",
			"There is no mix \"%.60s\" in the book.", asked);
	}
	TRY(book_all_decision(desk->book, arena, &decision, &n, err));
	*why = N_("decided");
	for (size_t i = 0; i < n; i++)
		for (size_t m = 0; m < site->n_mix; m++)
			if (decision[i].part_id == site->part[part].row.id &&
				decision[i].mix_id == site->mix[m].row.id) {
				*mix = m;
				return ERR_NONE;
			}
	if (choice == NULL)
		return err_report(err, ERR_INPUT, "--mix",
			"Nothing is asked of %s and no mix was decided for it; "
			"name one with --mix.",
			site->part[part].code);
	*why = N_("likeliest");
	*mix = choice->candidate[0].mix;
	return ERR_NONE;
}

static enum err_code
screen_all(const struct desk *desk, struct arena *arena,
	const struct work_screen_ask *ask, struct work_screened *got,
	struct err *err)
{
	const struct work_site *site = &got->chosen.compared.site;
	struct work_screened_part *part = arena_take(
		arena, site->n_part, sizeof *part);
	struct screening s = {.desk = desk,
		.arena = arena,
		.all = &got->chosen.compared,
		.n_draw = desk->n_chain * desk->n_keep};

	if (part == NULL)
		return err_memory(err);
	got->part = part;
	for (size_t i = 0; i < site->n_part; i++) {
		struct work_screened_part *p = &part[got->n_part];

		if (ask->part != NULL &&
			strcmp(ask->part, site->part[i].code) != 0)
			continue;
		p->part = i;
		TRY(work_part_mix(desk, arena, &got->chosen, i, ask->mix,
			&p->mix, &p->why_mix, err));
		TRY(screen_part(&s, &got->parts, p, err));
		got->n_part++;
	}
	return ERR_NONE;
}

enum err_code
work_screen(const struct desk *desk, struct arena *arena,
	const struct work_screen_ask *ask, struct work_screened *out,
	struct err *err)
{
	struct work_screened got = {.n_part = 0};
	size_t at;

	TRY(work_parts_read(desk, arena, &got.parts, err));
	if (ask->part != NULL)
		TRY(work_find_part(&got.parts.site, ask->part, &at, err));
	if (got.parts.site.n_part == 0)
		return err_report(err, ERR_INPUT, "parts",
			"There is no part of the building in the book yet; "
			"\"foamwright part BOOK CODE --kind wall ...\" enters "
			"one.");
	if (ask->mix != NULL || got.parts.site.n_requirement == 0)
		TRY(work_compare(desk, arena, &got.chosen.compared, err));
	else
		TRY(work_choose(desk, arena, &got.chosen, err));
	TRY(screen_all(desk, arena, ask, &got, err));
	*out = got;
	return ERR_NONE;
}
