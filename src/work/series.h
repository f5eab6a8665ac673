/* series.h - readings of one kind, piece by piece in the order of time: what
 * water, drying, shortening and frost are seen from. */
#ifndef WORK_SERIES_H
#define WORK_SERIES_H

#include "core/arena.h"
#include "core/err.h"
#include "lab/density.h"
#include "work/site.h"

struct work_series_row {
	size_t specimen; /* index into site->specimen */
	double at_s;     /* in the water; cycles for frost; else its age, 0 if
	                    the batch has no date */
	size_t entered;  /* order of the book */
	const struct book_reading *reading; /* borrowed from the site */
};

struct work_series {
	const struct work_series_row *row;
	size_t n_row;
	const size_t *first, *n_of; /* n_piece: its rows */
	size_t n_piece;
};

/* work_series(arena, site, kind, out, err): the readings of that kind.
 * ERR_MEMORY */
enum err_code work_series(struct arena *arena, const struct work_site *site,
	const char *kind, struct work_series *out, struct err *err) MUST_CHECK;

/* work_series_dry(site, row, n): the oven-dry mass of the piece that the rows
 * are of: said with one of them, else of a weighing "oven dry", else its mass
 * before it was put into water. */
struct maybe work_series_dry(const struct work_site *site,
	const struct work_series_row *row, size_t n);

/* work_has_volume(piece): its sizes are there.
 * work_set_volume(piece, ask, division): its volume by sides, or of a cylinder,
 * and how far a rule to 1 mm leaves it open; the sizes must be there. */
bool work_has_volume(const struct book_specimen *piece);
void work_set_volume(const struct book_specimen *piece, struct lab_density *ask,
	struct lab_density_division *division);

/* work_duration(arena, s): "10 min", "24 h", "3 d"; never NULL. */
const char *work_duration(struct arena *arena, double s);

#endif /* WORK_SERIES_H */
