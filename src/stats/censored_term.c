/* censored_term.c - what one reading adds to a censored log-likelihood. */
#include "stats/censored_term.h"

#include <math.h>

static const double log_sqrt_two_pi = 0.918938533204672741780329736406;
static const double sqrt_half = 0.707106781186547524400844362105;
static const double one_by_sqrt_two_pi = 0.398942280401432677939946059934;
/* exp(-745) is the least double, and 1 + exp(-37) the last not 1. */
static const double lost_below = 745, lost_beside = 40;
/* From here the continued fraction of Mills' ratio is full in its terms. */
static const double tail_from = 8;
enum { FRACTION_TERMS = 40 };

/* density / upper tail = x + k for x >= tail_from; gives k, which does not
 * cancel: Laplace's continued fraction 1/(x+ 2/(x+ 3/(x+ ...))). */
static double
tail_excess(double x)
{
	double k = 0;

	for (int i = FRACTION_TERMS; i > 0; i--)
		k = i / (x + k);
	return k;
}

static double
log_density(double x)
{
	return -x * x / 2 - log_sqrt_two_pi;
}

static double
upper(double x)
{
	return erfc(x * sqrt_half) / 2;
}

/* log P(Z > x) with its first and second derivative. */
static void
normal_upper(double x, struct censored_term *term)
{
	double hazard, excess;

	if (x >= tail_from) {
		excess = tail_excess(x);
		hazard = x + excess;
		term->value = log_density(x) - log(hazard);
	} else {
		double share = upper(x);

		hazard = one_by_sqrt_two_pi * exp(-x * x / 2) / share;
		excess = hazard - x;
		term->value = x > 0 ? log(share) : log1p(-upper(-x));
	}
	term->d_m = -hazard;
	term->d_mm = -hazard * excess;
}

/* The share of a narrow interval over its width times the density at its
 * middle: sum of He_2k(m) h^2k / (2k + 1)!, from Taylor's series. */
static double
narrow_share(double m, double h)
{
	double m2 = m * m, h2 = h * h;
	double he2 = m2 - 1, he4 = (m2 - 6) * m2 + 3;
	double he6 = ((m2 - 15) * m2 + 45) * m2 - 15;
	double he8 = (((m2 - 28) * m2 + 210) * m2 - 420) * m2 + 105;

	return 1 +
		h2 / 6 *
		(he2 + h2 / 20 * (he4 + h2 / 42 * (he6 + h2 / 72 * he8)));
}

static void
normal_narrow(double m, double h, struct censored_term *term)
{
	double share = narrow_share(m, h);
	double ends = exp(-h * h / 2) / (h * share);

	term->value = log_density(m) + log(2 * h * share);
	term->d_m = -ends * sinh(m * h);
	term->d_h = ends * cosh(m * h);
	/* From the first ones, by what the ends' densities have in common. */
	term->d_mm = -term->d_m * (m + term->d_m) - h * term->d_h;
	term->d_mh = -(h + term->d_h) * term->d_m - m * term->d_h;
	term->d_hh = -(h + term->d_h) * term->d_h - m * term->d_m;
}

/* An interval whose middle is not below 0 and which is not narrow. */
static void
normal_wide(const struct censored_ends *e, struct censored_term *term)
{
	double step = 2 * e->middle * e->half, low, high;

	if (e->low >= tail_from) {
		double tail = 1 / (e->low + tail_excess(e->low));
		double rest = exp(-step) / (e->high + tail_excess(e->high));

		term->value = log_density(e->low) + log(tail - rest);
		low = 1 / (tail - rest);
		high = exp(-step) * low;
	} else {
		double share = e->low > 0
			? upper(e->low) - upper(e->high)
			: (erf(e->high * sqrt_half) - erf(e->low * sqrt_half)) /
				2;

		term->value = log(share);
		low = one_by_sqrt_two_pi * exp(-e->low * e->low / 2) / share;
		high = one_by_sqrt_two_pi * exp(-e->high * e->high / 2) / share;
	}
	term->d_m = high - low;
	term->d_h = high + low;
	term->d_mm = e->low * low - e->high * high - term->d_m * term->d_m;
	term->d_mh = -e->low * low - e->high * high - term->d_h * term->d_m;
	term->d_hh = e->low * low - e->high * high - term->d_h * term->d_h;
}

static enum censored_kind
normal_kind(const struct censored_ends *e)
{
	bool has_high = e->low > 0 ? 2 * e->middle * e->half < lost_below
				   : e->high < lost_beside;
	bool has_low = e->high < 0 ? -2 * e->middle * e->half < lost_below
				   : e->low > -lost_beside;

	if (has_low && has_high)
		return CENSORED_INTERVAL;
	if (has_low)
		return CENSORED_RIGHT;
	return has_high ? CENSORED_LEFT : CENSORED_NOTHING;
}

static void
normal_interval(const struct censored_ends *e, struct censored_term *term)
{
	static const double narrow_below = 0.1;
	struct censored_ends flipped = {-e->high, -e->low, -e->middle, e->half};

	if (e->half < narrow_below && fabs(e->middle) * e->half < narrow_below)
		normal_narrow(e->middle, e->half, term);
	else if (e->middle >= 0)
		normal_wide(e, term);
	else {
		normal_wide(&flipped, term);
		term->d_m = -term->d_m;
		term->d_mh = -term->d_mh;
	}
}

enum censored_kind
censored_term_normal(enum censored_kind kind, const struct censored_ends *ends,
	struct censored_term *term)
{
	*term = (struct censored_term){0};
	if (kind == CENSORED_INTERVAL)
		kind = normal_kind(ends);
	switch (kind) {
	case CENSORED_EXACT:
		term->value = log_density(ends->low);
		term->d_m = -ends->low;
		term->d_mm = -1;
		break;
	case CENSORED_LEFT:
		normal_upper(-ends->high, term);
		term->d_m = -term->d_m;
		break;
	case CENSORED_RIGHT:
		normal_upper(ends->low, term);
		break;
	case CENSORED_INTERVAL:
		normal_interval(ends, term);
		break;
	case CENSORED_NOTHING:
		break;
	}
	return kind;
}

static void
extreme_lower(double x, struct censored_term *term)
{
	static const double small = 1e-5;
	double e = exp(x), share = -expm1(-e);

	if (e > lost_below) /* as good as certain */
		return;
	if (e < small) { /* log(1 - exp(-e)) = x - e/2 + e^2/24 ... */
		term->value = x - e / 2 + e * e / 24;
		term->d_m = 1 - e / 2 + e * e / 12;
		term->d_mm = -e / 2 + e * e / 6;
		return;
	}
	term->value = log(share);
	term->d_m = e * exp(-e) / share;
	term->d_mm = term->d_m * (1 - e / share);
}

/* The share is exp(-e cosh h) 2 sinh(q), e = exp(m), q = e sinh h.  With
 * k = q coth q - q and b = (q / sinh q)^2 no derivative takes the difference
 * of e cosh h and q, which is exp(low). */
static void
extreme_interval(const struct censored_ends *ends, struct censored_term *term)
{
	static const double small = 1e-3;
	double m = ends->middle, h = ends->half;
	double e = exp(m), q = e * sinh(h), floor = exp(ends->low);
	double coth_h = 1 / tanh(h), k = 1, b = 1;

	if (q > 0) {
		k = 2 * q / expm1(2 * q);
		b = q / sinh(q);
		b *= b;
	}
	if (q < small)
		term->value = -e * cosh(h) + log(2 * sinh(h)) + m +
			q * q / 6 * (1 - q * q / 30);
	else
		term->value = -floor + log(-expm1(-2 * q));
	term->d_m = k - floor;
	term->d_h = coth_h * k + floor;
	term->d_mm = k - b - floor;
	term->d_mh = coth_h * (k - b) + floor;
	term->d_hh = k - coth_h * coth_h * b - floor;
}

static enum censored_kind
extreme_kind(const struct censored_ends *e)
{
	bool has_high = !(exp(e->high) - exp(e->low) > lost_below);
	bool has_low = e->low > fmin(e->high, 0) - lost_beside;

	if (has_low && has_high)
		return CENSORED_INTERVAL;
	if (has_low)
		return CENSORED_RIGHT;
	return has_high ? CENSORED_LEFT : CENSORED_NOTHING;
}

enum censored_kind
censored_term_extreme(enum censored_kind kind, const struct censored_ends *ends,
	struct censored_term *term)
{
	double e;

	*term = (struct censored_term){0};
	if (kind == CENSORED_INTERVAL)
		kind = extreme_kind(ends);
	switch (kind) {
	case CENSORED_EXACT:
		e = exp(ends->low);
		term->value = ends->low - e;
		term->d_m = 1 - e;
		term->d_mm = -e;
		break;
	case CENSORED_LEFT:
		extreme_lower(ends->high, term);
		break;
	case CENSORED_RIGHT:
		e = exp(ends->low);
		*term = (struct censored_term){
			.value = -e, .d_m = -e, .d_mm = -e};
		break;
	case CENSORED_INTERVAL:
		extreme_interval(ends, term);
		break;
	case CENSORED_NOTHING:
		break;
	}
	return kind;
}
