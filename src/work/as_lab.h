/* as_lab.h - a reading of the book as the function of its test takes it, with
 * what its rig's record adds, and what its instruments are read to. */
#ifndef WORK_AS_LAB_H
#define WORK_AS_LAB_H

#include "lab/crush.h"
#include "lab/drop.h"
#include "lab/flexure.h"
#include "work/instruments.h"
#include "work/rig.h"

/* The hanger apart, whether the loads were written with it or without. */
struct lab_flexure work_as_flexure(
	const struct book_bending *b, const struct book_specimen *piece);
struct lab_flexure_division work_flexure_division(
	const struct work_rig_known *known);

/* The rig's measured loss in the guide where the reading has none. */
struct lab_drop work_as_drop(const struct book_drop *d,
	const struct book_specimen *piece, const struct work_rig_known *known);
struct lab_drop_division work_drop_division(
	const struct book_drop *d, const struct work_rig_known *known);

/* work_crushing_load(c, known, load, err): held and broke, or the gauge to its
 * step, corrected by the rig's dead load.  Errors as lab_jack_force.
 * work_as_crush: the piece, the load left out. */
enum err_code work_crushing_load(const struct book_crushing *c,
	const struct work_rig_known *known, struct interval *load_n,
	struct err *err) MUST_CHECK;
struct lab_crush work_as_crush(
	const struct book_crushing *c, const struct book_specimen *piece);
/* The gauge's step is in the load's interval already; the sizes are left. */
struct lab_crush_division work_crush_division(
	const struct work_rig_known *known);

/* work_gauge_u(c, known): what the rig's dead load leaves open of a load read on
 * the gauge, a relative standard uncertainty; 0 for a load known otherwise. */
double work_gauge_u(
	const struct book_crushing *c, const struct work_rig_known *known);

#endif /* WORK_AS_LAB_H */
