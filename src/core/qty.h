/* qty.h - quantities as one-member structs whose member is the SI unit, so
 * that a volume given for a mass does not compile. */
#ifndef CORE_QTY_H
#define CORE_QTY_H

#include <stdbool.h>

struct length {
	double m;
};
struct area {
	double m2;
};
struct volume {
	double m3;
};
struct mass {
	double kg;
};
struct force {
	double N;
};
struct stress {
	double Pa;
};
struct density {
	double kg_m3;
};
struct energy {
	double J;
};
struct moment {
	double N_m;
};
struct duration {
	double s;
};
struct temperature {
	double degC;
};
struct conductivity {
	double W_mK;
};

/* What is known of a value: it lies in [low, high].  low may be 0 and high may
 * be INFINITY ("at least low"); low == high is a value read exactly.  The unit
 * is that of the struct or parameter that carries it. */
/* A value that may be missing: value counts only where has is true. */
struct maybe {
	bool has;
	double value;
};

struct interval {
	double low, high;
};

/* Standard gravity (CGPM 1901, 3rd meeting). */
static const double gravity_m_s2 = 9.80665;

#endif /* CORE_QTY_H */
