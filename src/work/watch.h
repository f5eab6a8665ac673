/* watch.h - foam, wet density, settling and surviving foam over the batches, on
 * control charts: what moved, since when, what it touched, what to look at. */
#ifndef WORK_WATCH_H
#define WORK_WATCH_H

#include "control/chart.h"
#include "work/mixer.h"

/* quantity, word, what it is called, its unit as printed, factor to it */
#define WORK_WATCH_LIST(X)                                                     \
	X(WORK_WATCH_FOAM, "foam", "weight of the foam", "g/L", 1)             \
	X(WORK_WATCH_WET, "wet", "wet density off its target", "%", 100)       \
	X(WORK_WATCH_SUNK, "sunk", "height lost at a day", "%", 100)           \
	X(WORK_WATCH_KEPT, "kept", "foam's air that outlived the mixing", "%", \
		100)

#define WORK_WATCH_AS_ENUM(quantity, ...) quantity,
enum work_watch_quantity { WORK_WATCH_LIST(WORK_WATCH_AS_ENUM) };
#undef WORK_WATCH_AS_ENUM
enum { WORK_WATCH_COUNT = WORK_WATCH_KEPT + 1 };

struct work_watch_point {
	size_t batch;       /* index into site.batch */
	const char *moment; /* "start", ... or "" */
	double value;
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

struct work_watch {
	struct work_mixer m;
	struct work_watched watched[WORK_WATCH_COUNT];
	const char *const *lot_change; /* sentences: where a new lot began */
	size_t n_lot_change;
};

const char *work_watch_word(enum work_watch_quantity quantity);
const char *work_watch_name(enum work_watch_quantity quantity);
const char *work_watch_unit(enum work_watch_quantity quantity);
double work_watch_factor(enum work_watch_quantity quantity);

/* work_watch(desk, arena, out, err): all charts; nothing is written. */
enum err_code work_watch(const struct desk *desk, struct arena *arena,
	struct work_watch *out, struct err *err) MUST_CHECK;

#endif /* WORK_WATCH_H */
