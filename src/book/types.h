/* types.h - the rows of the book as structs, SI inside, one a table.
 *
 * id is the thing's identity (the origin of its revisions); a row read from
 * the book is what holds now.  Texts are UTF-8, never NULL.  Rows live in the
 * arena of whoever read them. */
#ifndef BOOK_TYPES_H
#define BOOK_TYPES_H

#include "core/qty.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* What every fact row carries; filled in when it is read or written. */
struct book_row {
	int64_t id; /* identity: origin of the revisions */
	int64_t revision;
	const char *typed; /* cells as written, a JSON object, or "" */
};

struct book_info {
	struct book_row row;
	const char *name, *note;
	const char *gallon; /* "us" or "imperial" */
	const char *currency;
};

struct book_material {
	struct book_row row;
	const char *code, *name, *role, *note;
	struct maybe particle_density_kg_m3, bulk_density_kg_m3;
	struct maybe moisture_ratio, absorption_ratio, hardness_kg_m3;
	struct maybe package_kg;
	bool has_price;
	int64_t price_cents;         /* a package */
	struct maybe carbon_ratio;   /* kg of CO2 emitted per kg */
	struct maybe dilution_ratio; /* of an agent: mass of water to 1 */
};

/* Where a figure of a material comes from. */
struct book_material_basis {
	struct book_row row;
	int64_t material_id;
	const char *figure; /* "particle_density", "bulk_density", ... */
	const char *basis;  /* "typical", "weighed", "stated" */
	const char *source;
};

/* Mixer and scale. */
struct book_gear {
	struct book_row row;
	const char *code;
	struct maybe mixer_m3, scale_step_kg, spare_ratio;
};

struct book_generator {
	struct book_row row;
	const char *code;
	const char *metering; /* "volume", "seconds", "density" */
	double target_kg_m3, vessel_m3, vessel_kg, scale_step_kg;
	struct maybe vessel_u_m3, dilution_ratio, rate_m3_s;
	const char *note;
};

/* The vessel filled with foam and weighed. */
struct book_foam_check {
	struct book_row row;
	int64_t generator_id;
	int64_t batch_id; /* 0: between batches */
	const char *code, *read_on;
	const char *moment; /* "start", "middle", "end" */
	double gross_kg;
	struct maybe fill_s;
	const char *remark;
	struct maybe read_at_s; /* seconds since 1970 */
	struct maybe
		batches_before; /* made before the check, its own with them */
};

/* A rule that warns, as this build has set it; without one it stands as the
 * program brings it (control/warning.h). */
enum { BOOK_WARNING_LIMITS = 3 };
struct book_warning {
	struct book_row row;
	const char *code; /* "W4" */
	bool is_on;
	struct maybe limit[BOOK_WARNING_LIMITS]; /* SI; missing: as it comes */
	const char *reason;
};

/* One look at foam left standing in a jar. */
struct book_foam_standing {
	struct book_row row;
	int64_t generator_id;
	const char *code; /* the jar */
	double foam_kg;   /* in it at first */
	double after_s, drained_kg;
	const char *read_on, *remark;
};

/* A rig of the bench: what of it every test shares. */
struct book_rig {
	struct book_row row;
	const char *code, *test; /* "bending", "drop", "crushing" */
	const char *loading;     /* "", "centre", "third" */
	struct maybe span_m, strap_m, hanger_kg;
	struct maybe bar_kg, height_m;
	const char *tip; /* "", "flat", "ball", "cone" */
	struct maybe tip_diameter_m, tip_angle_rad;
	struct maybe ram_m, gauge_step_pa;
	struct maybe rule_step_m, scale_step_kg; /* what is read to */
	const char *note;
};

/* Something known put on a rig, and what the rig said of it. */
struct book_rig_check {
	struct book_row row;
	int64_t rig_id;
	const char *code;
	/* "dead load", "exit speed", "check piece", "weight" */
	const char *what;
	const char *read_on;
	struct maybe known_kg, found_kg;
	struct maybe gauge_pa, zero_pa, height_m, speed_m_s, dent_m;
	const char *piece, *remark;
};

/* A file kept byte for byte; its code is the checksum of its bytes. */
struct book_file {
	struct book_row row;
	const char *code, *name, *media;
	int64_t bytes;
};

/* A logger's trace, and what it says. */
struct book_trace {
	struct book_row row;
	const char *code;
	int64_t file_id, specimen_id; /* specimen 0: of none */
	const char *kind;             /* "load", "blow", "temperature" */
	const char *how;              /* how it was understood */
	int64_t rows, skipped;
	bool dated; /* seconds count from 1970, UTC */
	double first_s, last_s, gap_s, gap_at_s;
	double division, highest, lowest; /* SI of the kind */
	struct maybe zero, crack_n, after_n, end_n, stiffness_n_m;
	struct maybe energy_j, crack_energy_j, blow_s, speed_lost_m_s, depth_m;
};

/* The same as few points. */
struct book_trace_point {
	int64_t trace_id, place;
	double from_s, to_s, mean, low, high;
	struct maybe sag_m;
};

/* How a batch cured for a while. */
struct book_cure {
	struct book_row row;
	int64_t batch_id;
	const char *code;
	int64_t from_s, to_s; /* since 1970, UTC */
	struct maybe degc;    /* or a trace */
	int64_t trace_id;     /* 0: none */
	const char *keeping;  /* "", "wrapped", "moist", "water", "air" */
	const char *remark;
};

/* A photo of a batch. */
struct book_photo {
	struct book_row row;
	const char *code;
	int64_t batch_id, file_id, added_s; /* since 1970, UTC */
	int64_t width, height;              /* pixels, as it is shown */
	const char *remark;
};

struct book_batch_part {
	struct book_row row;
	int64_t batch_id, material_id;
	double mass_kg; /* as weighed */
	const char *lot;
};

/* A batch of a trial before it is made. */
struct book_trial_slot {
	struct book_row row;
	int64_t trial_id;
	const char *batch_code;
	int64_t place, day; /* from 1 */
	int64_t mix_id;
};

/* Where in the building a batch went. */
struct book_placing {
	struct book_row row;
	int64_t batch_id, part_id;
	int64_t lift;              /* from 1 */
	struct maybe from_m, to_m; /* along the part */
	const char *verdict;       /* "", "accept", "mark", "hold", "reject" */
	const char *reason;
};

struct book_material_lot {
	struct book_row row;
	int64_t material_id;
	const char *code, *bought_on, *note;
};

struct book_mix {
	struct book_row row;
	const char *code, *name, *why;
	const char *matrix_code;   /* the plain mix whose matrix it shares */
	const char *reinforcement; /* "" for a plain mix */
	struct maybe wet_target_kg_m3, foam_m3_per_m3, foam_target_kg_m3;
	struct maybe blending_target_s;
};

struct book_mix_part {
	struct book_row row;
	int64_t mix_id, material_id;
	double mass_kg_per_m3;
};

struct book_trial {
	struct book_row row;
	const char *code, *question;
	int64_t baseline_mix_id;
	struct maybe plan_seed, pieces; /* of a planned trial */
};

struct book_rule {
	struct book_row row;
	int64_t trial_id;
	const char *code, *measure, *action, *set_on, *reason;
	double above;
};

struct book_batch {
	struct book_row row;
	const char *code;
	int64_t trial_id, mix_id;
	bool practice;
	bool practice_set_after; /* the flag was set after mixing: shown for ever*/
	const char *made_on;
	struct maybe day, water_hardness_kg_m3, air_degc, slurry_degc;
	struct maybe blending_s, slurry_kg_m3;
	struct maybe foam_start_kg_m3, foam_middle_kg_m3, foam_end_kg_m3;
	struct maybe wet_kg_m3, volume_m3, spread_m, consistency;
	const char *remark;
	int64_t generator_id;         /* 0: not said */
	struct maybe foam_m3, foam_s; /* put in; of running */
	struct maybe set_s;           /* until a thumb leaves no dent */
};

struct book_settling {
	struct book_row row;
	int64_t batch_id;
	double after_s, loss_ratio;
};

struct book_specimen {
	struct book_row row;
	const char *code;
	int64_t batch_id;
	const char *form;
	struct maybe width_m, depth_m, length_m, diameter_m, mass_kg;
	struct maybe moisture_ratio;
	const char *fate;
	struct maybe fate_age_s;
	bool reinforced;
	const char *remark;
	int64_t form_id;          /* 0: not said */
	struct maybe test_age_s;  /* planned */
	struct maybe height_m[4]; /* at the four quarters, once set */
	const char *damage;       /* chips and cracks, "" if none */
};

/* What a test piece is cast in; inner sizes. */
struct book_form {
	struct book_row row;
	const char *code, *shape;
	struct maybe width_m;
	double depth_m; /* its height, as filled */
	struct maybe length_m, diameter_m;
	const char *note;
};

/* A beam on its supports, while weights are hung on it. */
struct book_bending_session {
	struct book_row row;
	int64_t specimen_id;
	const char *code, *loading;
	double span_m;
	struct maybe strap_m;
	double hanger_kg;
	const char *weights; /* kilograms, commas between */
	int64_t rig_id;      /* 0: not said */
};

struct book_bending_step {
	struct book_row row;
	int64_t specimen_id;
	const char *code;
	int64_t place;    /* from 1 */
	const char *what; /* "added", "sag", "cracked", "fell", "holding",
			   * "undone" */
	struct maybe mass_kg, sag_m;
	const char *at;
};

struct book_bending {
	const char *loading; /* "centre", "third", "" unknown */
	struct maybe span_m, strap_m, on_rig_kg;
	bool on_rig_included; /* the loads as written contain the hanger */
	double held_kg;
	struct maybe broke_kg, hold_s, after_held_kg, after_broke_kg, sag_m;
};

struct book_drop {
	const char *place; /* "centre", "edge", "corner" */
	struct maybe bar_kg, height_m;
	const char *tip; /* "flat", "ball", "cone", "" unknown */
	struct maybe tip_diameter_m, tip_angle_rad, tube_loss_ratio, dent_m;
	bool went_through, cracked;
	struct maybe blows; /* on the same place, this one with them */
	struct maybe from_edge_m, dent_step_m;
};

struct book_crushing {
	struct maybe gauge_pa, gauge_zero_pa, gauge_step_pa, ram_diameter_m;
	struct maybe load_n, held_n, broke_n;
	struct maybe plate_m; /* half of a broken beam between such plates */
};

struct book_weighing {
	const char *state;
	double mass_kg;
};

struct book_other {
	const char *quantity;
	double value;
};

/* Water in a piece: kinds "moisture", "soaking", "rise" and "drying". */
struct book_water {
	struct maybe after_s;                 /* in the water */
	struct maybe mass_kg;                 /* as it is then */
	struct maybe dry_kg;                  /* from the oven */
	struct maybe mass_step_kg;            /* the scale is read to this */
	struct maybe height_m, height_step_m; /* of the wet edge */
	struct maybe face_m2;                 /* in the water */
	struct maybe wanted_ratio; /* the moisture that the plaster takes */
};

/* Between two studs on a bar: kind "shrinkage". */
struct book_length {
	double length_m;
	struct maybe step_m, degc;
};

/* A screw pulled out: kind "screw". */
struct book_screw {
	double held_n;
	struct maybe broke_n; /* missing: it still held */
	struct maybe step_n, diameter_m, depth_m;
};

/* After so many cycles of freezing and thawing: kind "frost". */
struct book_frost {
	struct maybe cycles; /* always there */
	double before_kg, after_kg;
	struct maybe mass_step_kg;
	struct maybe before_m, after_m, length_step_m; /* one size of it */
};

/* Heater's watts and the temperatures of both faces: kind "hot box". */
struct book_hot_box {
	double power_w;
	struct maybe leak_w, area_m2, thickness_m;
	double warm_degc, cold_degc;
	struct maybe power_step_w, temperature_step_k;
};

struct book_reading {
	struct book_row row;
	int64_t specimen_id;
	const char
		*code; /* "1", "centre": tells readings of a specimen apart */
	const char *kind; /* "bending", "drop", "crushing", "weighing", "other",
		        * "moisture", "soaking", "rise", "drying", "shrinkage",
		        * "screw", "frost", "hot box" */
	struct maybe age_s;
	const char *remark;
	int64_t rig_id;              /* 0: not said */
	struct book_bending bending; /* the one that kind names is filled */
	struct book_drop drop;
	struct book_crushing crushing;
	struct book_weighing weighing;
	struct book_other other;
	union { /* of these only the one that kind names may be looked at */
		struct book_water water;
		struct book_length length;
		struct book_screw screw;
		struct book_frost frost;
		struct book_hot_box hot_box;
	};
};

struct book_part {
	struct book_row row;
	const char *code, *name, *kind, *note;
	struct maybe length_m, height_m, thickness_m, openings_m2, volume_m3;
	struct maybe waste_ratio, batch_m3;
};

/* What bears on a part, its span and steel. */
struct book_part_use {
	struct book_row row;
	int64_t part_id;
	const char *form; /* "wall", "roof-panel", "dome", ... */
	struct maybe span_m, load_n_m, area_load_pa, wind_pa;
	struct maybe point_load_n, point_width_m;
	struct maybe subgrade_pa, subgrade_sinks_m, modulus_pa;
	struct maybe radius_m;
	struct maybe steel_m2, effective_m, yield_pa; /* steel a metre */
	struct maybe lift_m;
	const char *grip; /* "ends", "inner", "middle", "" not lifted */
	struct maybe moisture_ratio, safety;
	struct maybe pitch_rad; /* of a roof panel, from level */
};

/* A layer beside the foamed concrete. */
struct book_part_layer {
	struct book_row row;
	int64_t part_id;
	const char *side, *name; /* "inside" or "outside" */
	struct maybe thickness_m, density_kg_m3, strength_pa;
	struct maybe conductivity_w_mk, resistance_m2k_w, vapour_ratio;
};

/* The range foreseen for the mean of fresh batches, SI. */
struct book_prediction {
	struct book_row row;
	int64_t part_id, mix_id;
	const char *measure;
	int64_t batches, after_batch_id;
	double low, median, high;
};

struct book_requirement {
	struct book_row row;
	int64_t part_id;
	const char *measure, *bound, *source;
	double value; /* SI; cost in cents a m3 */
};

/* What is usually asked of a kind of part, as the book has set it. */
struct book_usual {
	struct book_row row;
	const char *form, *measure, *bound, *source;
	double value;  /* SI; cost in cents a m3 */
	bool is_asked; /* false: no longer */
};

/* How much something counts when mixes that do the must-haves are weighed. */
struct book_weight {
	struct book_row row;
	int64_t part_id;       /* 0: the whole house */
	const char *criterion; /* "density", "cost" ... */
	double weight;         /* >= 0 */
};

struct book_decision {
	struct book_row row;
	int64_t part_id, mix_id;
	const char *reason, *figures;
};

struct book_quantity {
	int64_t decision_id;
	const char *what, *unit;
	double value;
};

/* Counted, not stored. */
struct book_fate_count {
	int64_t mix_id;
	const char *fate;
	size_t n;
};

struct book_history {
	int64_t id;
	const char *at, *who, *what, *detail;
	const char *submission; /* NULL: none */
	unsigned char rows_digest[32], chain_digest[32];
};

#endif /* BOOK_TYPES_H */
