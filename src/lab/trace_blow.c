/* trace_blow.c - two passes over the rows of an accelerometer. */
#include "lab/trace_blow.h"

#include <math.h>

enum err_code
lab_blow_peak_row(
	void *context, const struct lab_trace_row *row, struct err *err)
{
	struct lab_blow_peak *p = context;

	(void)err;
	if (p->n++ == 0 || fabs(row->value) > p->peak_m_s2) {
		p->peak_m_s2 = fabs(row->value);
		p->peak_at_s = row->at_s;
		p->is_down = row->value < 0;
	}
	return ERR_NONE;
}

static void
start(struct lab_blow_trace *t, double at_s)
{
	t->in_blow = true;
	t->from_s = at_s;
	t->n_row = 0;
	t->speed_lost_m_s = t->depth_m = t->energy_J = 0;
}

/* One step of the blow. */
static void
go_on(struct lab_blow_trace *t, double step_s, double mean_m_s2)
{
	double before = t->entry_m_s - t->speed_lost_m_s, way;

	t->speed_lost_m_s += (mean_m_s2 - gravity_m_s2) * step_s;
	way = (before + t->entry_m_s - t->speed_lost_m_s) / 2 * step_s;
	if (t->entry_m_s > 0) {
		t->depth_m += way;
		t->energy_J += t->mass.kg * mean_m_s2 * way;
	}
}

enum err_code
lab_blow_trace_row(
	void *context, const struct lab_trace_row *row, struct err *err)
{
	struct lab_blow_trace *t = context;
	double a = t->peak.is_down ? -row->value : row->value;
	bool above = a >= lab_blow_share * t->peak.peak_m_s2;

	(void)err;
	if (t->is_over)
		return ERR_NONE;
	if (above && !t->in_blow)
		start(t, row->at_s);
	else if (t->in_blow)
		go_on(t, row->at_s - t->last_s, (a + t->last_m_s2) / 2);
	if (t->in_blow) {
		t->n_row++;
		t->to_s = row->at_s;
	}
	if (t->in_blow && !above) {
		t->in_blow = false;
		t->is_over = row->at_s > t->peak.peak_at_s;
		t->is_whole = t->is_over && t->from_s <= t->peak.peak_at_s &&
			t->n > t->n_row;
	}
	t->last_s = row->at_s;
	t->last_m_s2 = a;
	t->n++;
	return ERR_NONE;
}
