/* instruments.h - what instruments are read to where it was not said: a rule for
 * sizes and spans, a scale, a calliper in a dent, a calliper between studs and on
 * a screw, a luggage scale, a power meter, a thermometer; common practice, no
 * source. */
#ifndef WORK_INSTRUMENTS_H
#define WORK_INSTRUMENTS_H

static const double work_rule_m = 0.001, work_scale_kg = 0.01;
static const double work_calliper_m = 0.0005, work_drop_height_m = 0.005;
static const double work_stud_m = 0.00002, work_screw_m = 0.0001;
static const double work_pull_N = 5, work_power_W = 1;
static const double work_temperature_K = 0.5;

#endif /* WORK_INSTRUMENTS_H */
