#!/usr/bin/env python3
"""Least squares of a polynomial in exact rational arithmetic.

Makes an invented set as hard as they come: 82 rows, x from -9 to -3, degree
10, so that plain normal equations in doubles keep no digit.  The numbers are
doubles as read; the solution is exact for them.  Prints the rows, then the
coefficients and standard errors to 17 digits.  Run: polynomial.py >polynomial.csv
"""
from fractions import Fraction
from decimal import Decimal, getcontext

getcontext().prec = 60
N, DEGREE = 82, 10


def as_decimal(q):
    return Decimal(q.numerator) / Decimal(q.denominator)


def solve(a, columns):
    """Gauss and Jordan on a list of rows, with several right sides."""
    n = len(a)
    m = [row[:] + right[:] for row, right in zip(a, columns)]
    for i in range(n):
        p = next(k for k in range(i, n) if m[k][i] != 0)
        m[i], m[p] = m[p], m[i]
        m[i] = [v / m[i][i] for v in m[i]]
        for k in range(n):
            if k != i and m[k][i] != 0:
                m[k] = [u - m[k][i] * v for u, v in zip(m[k], m[i])]
    return [row[n:] for row in m]


x = [float(f"{-9 + 6 * i / (N - 1) + 0.011 * ((i * 37) % 11 - 5):.7f}") for i in range(N)]
y = [float(f"{0.9 - 0.31 * ((v + 6) / 3) ** 2 + 0.17 * ((v + 6) / 3) ** 5 + 0.003 * ((i * 53) % 17 - 8):.4f}")
     for i, v in enumerate(x)]
X = [[Fraction(v) ** k for k in range(DEGREE + 1)] for v in x]
Y = [Fraction(v) for v in y]
k = DEGREE + 1
A = [[sum(X[r][i] * X[r][j] for r in range(N)) for j in range(k)] for i in range(k)]
b = [sum(X[r][i] * Y[r] for r in range(N)) for i in range(k)]
right = [[b[i]] + [Fraction(int(i == j)) for j in range(k)] for i in range(k)]
s = solve(A, right)
beta = [row[0] for row in s]
rss = sum((Y[r] - sum(X[r][i] * beta[i] for i in range(k))) ** 2 for r in range(N))
s2 = rss / (N - k)
print("kind,a,b")
for u, v in zip(x, y):
    print(f"row,{u!r},{v!r}")
for i in range(k):
    print(f"B{i},{as_decimal(beta[i]):.17g},{as_decimal(s2 * s[i][1 + i]).sqrt():.17g}")
print(f"sd,{as_decimal(s2).sqrt():.17g},0")
