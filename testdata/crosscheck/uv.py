"""Light in annular lamp chambers and what it does, by adaptive quadrature of scipy (python3-scipy).

A live check of calc/uv. Reads one JSON object a line, {"P", "L", "H", "rs", "R", "a", "z", "D", "D10"} in W, m, 1/m and
J/m2, and prints for each {"line": average of the line source model, "careful": average of the lesser of it and the radial
one, "point": line source at mid-gap and height z, "flat": dose that counts with no mixing at one speed, "laminar": the same
in laminar flow}. Leaves with status 3 where scipy is not installed.

The average sums the two models over the water in r and z, each light from each part of the lamp along its own ray; none of
the closed forms of the package is used.
"""

import json
import sys
from math import asinh, exp, log, pi, sinh

try:
    from scipy.integrate import quad
    from scipy.optimize import brentq
except ImportError:
    sys.exit(3)

FINE = {"epsabs": 0, "epsrel": 1e-10, "limit": 400}
ROUGH = {"epsabs": 0, "epsrel": 1e-9, "limit": 400}


def line(c, r, z):
    """Line source at a point: P/(4 pi L) int exp(-a rho (r - rs)/r)/rho2 dl, with l - z = r sinh v."""
    b = c["a"] * (r - c["rs"])

    def part(v):
        cosh = (1 + sinh(v) ** 2) ** 0.5
        return exp(-b * cosh) / cosh

    lo, hi = asinh((-c["L"] / 2 - z) / r), asinh((c["L"] / 2 - z) / r)
    return c["P"] / (4 * pi * c["L"] * r) * quad(part, lo, hi, **FINE, points=[0] if lo < 0 < hi else None)[0]


def radial(c, r, z):
    if abs(z) > c["L"] / 2:
        return 0.0
    return c["P"] / (2 * pi * r * c["L"]) * exp(-c["a"] * (r - c["rs"]))


def along(c, r, light, lit):
    """Mean over the length of the chamber at r; the lesser of the models has a kink where they cross."""
    top = min(lit, c["H"]) / 2
    if light is line:
        return 2 / c["H"] * quad(lambda z: line(c, r, z), 0, top, **ROUGH)[0]

    def excess(z):
        return line(c, r, z) - radial(c, r, z)

    if excess(0) <= 0:
        cross = 0.0
    elif excess(top) >= 0:
        cross = top
    else:
        cross = brentq(excess, 0, top, xtol=1e-14)
    beyond = quad(lambda z: line(c, r, z), cross, top, **ROUGH)[0] if cross < top else 0.0
    return 2 / c["H"] * (cross * radial(c, r, 0) + beyond)


def average(c, light, lit):
    rs, R = c["rs"], c["R"]
    dark = min(R, rs + 25 / c["a"]) if c["a"] else R
    total = quad(lambda r: r * along(c, r, light, lit), rs, dark, epsabs=0, epsrel=1e-8, limit=200)[0]
    return 2 / (R * R - rs * rs) * total


def unmixed(c, laminar):
    rs, R, a = c["rs"], c["R"], c["a"]
    k = rs / R
    area = (R * R - rs * rs) / 2
    light_mean = quad(lambda r: exp(-a * (r - rs)), rs, R, **FINE)[0] / area
    shape = (lambda r: 1 - (r / R) ** 2 + (1 - k * k) / -log(k) * log(r / R)) if laminar else (lambda r: 1.0)
    speed_mean = quad(lambda r: r * shape(r), rs, R, **FINE)[0] / area

    def left(r):
        v = shape(r) / speed_mean
        return r * v * 10 ** (-c["D"] / c["D10"] * exp(-a * (r - rs)) / r / light_mean / v) if v > 0 else 0.0

    return -c["D10"] * log(quad(left, rs, R, **FINE)[0] / area) / log(10)


for text in sys.stdin:
    c = json.loads(text)
    print(
        json.dumps(
            {
                "line": average(c, line, c["H"]),
                "careful": average(c, "lesser", c["L"]),
                "point": line(c, (c["rs"] + c["R"]) / 2, c["z"]),
                "flat": unmixed(c, False),
                "laminar": unmixed(c, True),
            }
        )
    )
