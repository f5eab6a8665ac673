/* trace_load.c - two passes over the rows of a load cell. */
#include "lab/trace_load.h"

#include <math.h>

enum err_code
lab_load_peak_row(
	void *context, const struct lab_trace_row *row, struct err *err)
{
	struct lab_load_peak *p = context;

	(void)err;
	if (p->n == 0) {
		p->first_s = row->at_s;
		p->peak_N = p->least_N = row->value;
		p->peak_at_s = row->at_s;
	}
	p->n++;
	if (p->zero_s > 0 && row->at_s - p->first_s <= p->zero_s) {
		p->n_zero++;
		p->zero_N += (row->value - p->zero_N) / (double)p->n_zero;
	}
	if (row->value > p->peak_N) {
		p->peak_N = row->value;
		p->peak_at_s = row->at_s;
	}
	p->least_N = fmin(p->least_N, row->value);
	return ERR_NONE;
}

/* On the way up alone: what comes after the crack is another beam. */
static void
add_to_slope(struct lab_load_trace *t, double load_N, double sag_m)
{
	double peak = t->peak_N - t->zero_N, x, y;

	if (t->slope_ended || load_N < lab_slope_from * peak)
		return;
	if (load_N > lab_slope_to * peak || t->has_cracked) {
		t->slope_ended = true;
		return;
	}
	if (t->n_slope == 0) {
		t->from_sag_m = sag_m;
		t->from_N = load_N;
	}
	x = sag_m - t->from_sag_m;
	y = load_N - t->from_N;
	t->n_slope++;
	t->sum_x += x;
	t->sum_y += y;
	t->sum_xx += x * x;
	t->sum_xy += x * y;
}

static void
find_crack(struct lab_load_trace *t, double load_N)
{
	double peak = t->peak_N - t->zero_N;

	if (t->has_cracked) {
		t->after_N = fmax(t->after_N, load_N);
		return;
	}
	if (load_N > t->highest_N) {
		t->highest_N = load_N;
		t->crack_N = load_N;
		t->crack_sag_m = t->last_sag_m;
		t->crack_energy_J = t->energy_J;
	}
	if (t->highest_N >= lab_slope_from * peak &&
		load_N < (1 - lab_crack_fall) * t->highest_N) {
		t->has_cracked = true;
		t->after_N = load_N;
	}
}

enum err_code
lab_load_trace_row(
	void *context, const struct lab_trace_row *row, struct err *err)
{
	struct lab_load_trace *t = context;
	double load_N = row->value - t->zero_N;

	(void)err;
	if (t->has_sag) {
		if (t->n > 0)
			t->energy_J += (load_N + t->last_N) / 2 *
				(row->sag_m - t->last_sag_m);
		t->last_sag_m = row->sag_m;
		add_to_slope(t, load_N, row->sag_m);
	}
	find_crack(t, load_N);
	t->last_N = t->end_N = load_N;
	t->n++;
	return ERR_NONE;
}

bool
lab_load_stiffness(const struct lab_load_trace *t, double *N_per_m)
{
	double n = (double)t->n_slope;
	double spread = n * t->sum_xx - t->sum_x * t->sum_x;

	/* As good as no movement against the rounding of the sums. */
	if (t->n_slope < 3 || !(spread > 1e-12 * n * t->sum_xx))
		return false;
	*N_per_m = (n * t->sum_xy - t->sum_x * t->sum_y) / spread;
	return true;
}
