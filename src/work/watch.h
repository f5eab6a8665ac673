/* watch.h - foam, wet density, settling and surviving foam over the batches, on
 * control charts: what moved, since when, what it touched, what to look at. */
#ifndef WORK_WATCH_H
#define WORK_WATCH_H

#include "choose/types.h"
#include "control/acceptance.h"
#include "control/chart.h"
#include "work/mixer.h"

/* quantity, word, what it is called, its unit as printed, factor to it */
#define WORK_WATCH_LIST(X)                                                     \
	X(WORK_WATCH_FOAM, "foam", "weight of the foam", "g/L", 1)             \
	X(WORK_WATCH_WET, "wet", "wet density off its target", "%", 100)       \
	X(WORK_WATCH_SUNK, "sunk", "height lost at a day", "%", 100)           \
	X(WORK_WATCH_KEPT, "kept", "foam's air that outlived the mixing", "%", \
		100)                                                           \
	X(WORK_WATCH_BENDING, "bending",                                       \
		"bending strength, off the mean of its mix", "%", 100)         \
	X(WORK_WATCH_CRUSHING, "crushing",                                     \
		"crushing strength, off the mean of its mix", "%", 100)

#define WORK_WATCH_AS_ENUM(quantity, ...) quantity,
enum work_watch_quantity { WORK_WATCH_LIST(WORK_WATCH_AS_ENUM) };
#undef WORK_WATCH_AS_ENUM
enum { WORK_WATCH_COUNT = WORK_WATCH_CRUSHING + 1 };

struct work_watch_point {
	size_t batch;       /* index into site.batch */
	const char *moment; /* "start", ... or "" */
	double value;
	bool new_lot; /* a material's lot began since the point before */
};

/* One stretch of points that is not as it was. */
struct work_watch_alarm {
	enum control_rule rule;
	size_t signal;         /* the point at which it was seen */
	size_t first;          /* where it most likely began */
	size_t low, high;      /* 90 in 100 */
	size_t last;           /* the last point of the stretch */
	bool lasts;            /* to the end of what there is */
	double step;           /* by about so much, in the unit of the points */
	const size_t *touched; /* batches from first to last */
	size_t n_touched;
	const char *sentence; /* what was seen, and since when */
	const char *check;    /* what to look at, in order; "" once over */
};

struct work_watched {
	enum work_watch_quantity quantity;
	const struct work_watch_point *point;
	size_t n_point;
	bool has_limits; /* three points or more */
	double centre, spread, low, high;
	const struct work_watch_alarm *alarm;
	size_t n_alarm;
	const char *sentence; /* how it stands now */
};

/* The strength of one mix as a lot: what its batches gave, against what the part
 * asks that it was chosen for. */
struct work_watch_lot {
	size_t mix;
	enum choose_measure measure;
	const char *part;          /* its code; "" if it was chosen for none */
	const size_t *batch;       /* n, in the order made */
	const double *strength_Pa; /* n: each the mean of the batch's pieces */
	size_t n;
	size_t n_more_than;       /* pieces known only to bear more: counted at
				   * what they bore */
	const double *running_Pa; /* means of three in a row */
	size_t n_running;
	bool has_value;  /* two batches or more */
	double value_Pa; /* what 95 of 100 should beat */
	bool has_required;
	double required_Pa;
	struct control_accepted accepted[CONTROL_CRITERION_COUNT];
	const char *sentence;
};

struct work_watch {
	struct work_mixer m;
	const struct work_watch_lot *lot;
	size_t n_lot;
	const struct work_fired *fired; /* W29, W30 and what else concerns the
					 * run of batches */
	size_t n_fired;
	struct work_watched watched[WORK_WATCH_COUNT];
	const char *const *lot_change; /* sentences: where a new lot began */
	size_t n_lot_change;
};

const char *work_watch_word(enum work_watch_quantity quantity);
const char *work_watch_name(enum work_watch_quantity quantity);
const char *work_watch_unit(enum work_watch_quantity quantity);
double work_watch_factor(enum work_watch_quantity quantity);

/* work_watch_strengths(arena, m, out, err): strength by lots, and of each batch
 * against the mean of its mix: off[quantity - WORK_WATCH_BENDING][batch], NAN
 * where it was not tested.  Practice and what the rules of validity exclude are
 * left out. */
struct work_watch_strengths {
	const double *off[2]; /* n_batch each */
	const struct work_watch_lot *lot;
	size_t n_lot;
};
enum err_code work_watch_strengths(struct arena *arena,
	const struct work_mixer *m, struct work_watch_strengths *out,
	struct err *err) MUST_CHECK;

/* work_watch_warn(m, arena, list, err): W29 of the wet density. */
struct work_fired_list;
enum err_code work_watch_warn(const struct work_mixer *m, struct arena *arena,
	struct work_fired_list *list, struct err *err) MUST_CHECK;

/* work_watch(desk, arena, out, err): all charts, practice batches apart; nothing
 * is written. */
enum err_code work_watch(const struct desk *desk, struct arena *arena,
	struct work_watch *out, struct err *err) MUST_CHECK;

#endif /* WORK_WATCH_H */
