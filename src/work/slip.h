/* slip.h - a figure that is off by a factor which a slip of the pen or of the
 * unit gives: a point moved, pounds for kilograms. */
#ifndef WORK_SLIP_H
#define WORK_SLIP_H

/* work_slip(got, expected): the question to ask of a figure, both in the same
 * unit and over 0, that stands about ten times, a thousand times, 2.2 times, 16
 * times (lb/ft3 for kg/m3) or 25.4 times from what was expected, up or down;
 * "about": within 12 %, so that no two of these meet.  NULL: none of them.
 * Common practice, no source; the factors are those of the units (1 lb =
 * 0.45359237 kg, 1 ft = 0.3048 m, 1 in = 25.4 mm, all by definition). */
const char *work_slip(double got, double expected);

#endif /* WORK_SLIP_H */
