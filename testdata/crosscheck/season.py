"""A stirred pond under days that are all alike, by scipy's DOP853: FAO-56 sky, Penman's wind function, Stefan-Boltzmann.

In: JSON with the weather of the day, the pond's mean depth in m and the days to follow; out: mean, least, most and dusk of the
last day. Written from the equations alone.
"""
import json
import math
import sys

try:
    import numpy
    from scipy.integrate import solve_ivp
except ImportError as missing:
    print(missing, file=sys.stderr)
    sys.exit(3)

q = json.load(sys.stdin)
DAY = 86400.0
day, low, high = q["date"], q["least"], q["most"]
ea, u2 = q["vapour"], q["wind"] * 4.87 / math.log(67.8 * q["height"] - 5.42)
phi, z = math.radians(q["latitude"]), q["altitude"]


def e0(t):
    return 0.6108 * math.exp(17.27 * t / (t + 237.3))


dr = 1 + 0.033 * math.cos(2 * math.pi * day / 365)
delta = 0.409 * math.sin(2 * math.pi * day / 365 - 1.39)
ws = math.acos(-math.tan(phi) * math.tan(delta))
ra = 24 * 60 / math.pi * 0.0820 * dr * (ws * math.sin(phi) * math.sin(delta) + math.cos(phi) * math.cos(delta) * math.sin(ws))
n = 24 * ws / math.pi
rs = (0.25 + 0.5 * q["sunshine"] / n) * ra
rso = (0.75 + 2e-5 * z) * ra
rnl = 4.903e-9 * ((high + 273.16) ** 4 + (low + 273.16) ** 4) / 2 * (0.34 - 0.14 * math.sqrt(ea)) * (1.35 * min(1, rs / rso) - 0.35)
to_watts = 1e6 / DAY
kept, rnl = 0.92 * (1 - q["shade"]) * rs * to_watts, rnl * to_watts
gamma = 0.665e-3 * 101.3 * ((293 - 0.0065 * z) / 293) ** 5.26
h = 6.43 * (1 + 0.536 * u2) * to_watts
mean, swing = (low + high) / 2, (high - low) / 2
rise, sunset = (DAY - n * 3600) / 2, (DAY + n * 3600) / 2
noon = kept * DAY * math.pi / (2 * n * 3600)


def rates(t, y):
    s = t % DAY
    sun = noon * math.sin(math.pi * (s - rise) / (sunset - rise)) if rise < s < sunset else 0.0
    air = mean + swing * math.cos(2 * math.pi * (s - 15 * 3600) / DAY)
    w = y[0]
    net = sun - rnl - 0.97 * 5.670374e-8 * ((w + 273.15) ** 4 - (mean + 273.15) ** 4) - h * (e0(w) - ea) - h * gamma * (w - air)
    return [net / (4.19e6 * q["depth"])]


water, last = max(1.0, mean), None
for _ in range(q["days"]):
    last = []
    for a, b in ((0, rise), (rise, sunset), (sunset, DAY)):
        ts = numpy.linspace(a, b, 2001)
        s = solve_ivp(rates, (a, b), [water], method="DOP853", rtol=1e-10, atol=1e-12, t_eval=ts)
        last.append((ts, s.y[0]))
        water = s.y[0][-1]
whole = sum(numpy.trapz(y, t) for t, y in last) / DAY
values = numpy.concatenate([y for _, y in last])
print(json.dumps({"mean": whole, "least": values.min(), "most": values.max(), "dusk": last[1][1][-1]}))
