"""A filter that ripens under a load raised in steps, with room for only so many bacteria, by scipy (python3-scipy).

A live check of calc/ripening. Prints day, ammonia, nitrite, nitrate (mg/L of nitrogen) and both kinds of bacteria (g/m3).
Leaves with status 3 where scipy is not installed.
"""

import sys
from math import exp

try:
    from scipy.integrate import solve_ivp
except ImportError:
    sys.exit(3)

T, POND, OXYGEN, PH, EXCHANGE, NITRATE_IN, ROOM = 18.0, 10.0, 8.0, 7.0, 0.01, 5.0, 1.2
LOAD = [(0, 1.0), (14, 2.0), (28, 3.0)]  # from day, g/day
END = 60

acid = min(1, max(0, 1 - 0.833 * (7.2 - PH)))
grow_a = 0.47 * exp(0.098 * (T - 15)) * OXYGEN / (0.5 + OXYGEN) * acid
grow_b = 10 ** (0.0255 * T - 0.492) * OXYGEN / (1.0 + OXYGEN) * acid
half_a, half_b = 10 ** (0.051 * T - 1.158), 10 ** (0.063 * T - 1.149)
decay = 0.05 * 1.04 ** (T - 20)


def rates(load):
    def f(_, y):
        s, i, n, a, b = y
        mu_a, mu_b = grow_a * s / (half_a + s), grow_b * i / (half_b + i)
        took_a, took_b, space = mu_a * a / 0.15, mu_b * b / 0.05, 1 - (a + b) / ROOM
        return [
            load / POND - EXCHANGE * s - took_a,
            took_a - took_b - EXCHANGE * i,
            took_b + EXCHANGE * (NITRATE_IN - n),
            (mu_a * space - decay) * a,
            (mu_b * space - decay) * b,
        ]

    return f


y = [0.0, 0.0, NITRATE_IN, 0.1, 0.04]
print(0, *y)
for (start, load), stop in zip(LOAD, [s for s, _ in LOAD[1:]] + [END]):
    days = range(start + 1, stop + 1)
    run = solve_ivp(rates(load), (start, stop), y, method="DOP853", t_eval=days, rtol=1e-11, atol=1e-13)
    for day, state in zip(days, run.y.T):
        print(day, *state)
    y = run.y[:, -1]
