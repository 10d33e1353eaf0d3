"""Circuits with branches solved by scipy with friction from python3-fluids, for a live check of calc/circuit/tree.

Reads a seed and a number of cases from standard input. Prints one JSON object a case: water, pump, intakes, common hose, two ways side by side,
outlets, and the flow through each. All equations are solved at once by scipy's fsolve, where the engine nests bracketed
searches. Friction is 64/Re up to Re 2000, Colebrook's law from 4000, a straight line between. Losses k belong to the bore.
Leaves with status 3 where a library is not installed.
"""

import json
import math
import random
import sys

try:
    import numpy
    from fluids import friction_factor
    from iapws import IAPWS95
    from scipy.interpolate import PchipInterpolator
    from scipy.optimize import fsolve
except ImportError:
    sys.exit(3)

G = 9.80665


def friction(re, roughness):
    if re <= 2000:
        return 64 / re
    turbulent = friction_factor(Re=max(re, 4000), eD=roughness, Method="Clamond")
    return turbulent if re >= 4000 else 0.032 + (turbulent - 0.032) * (re - 2000) / 2000


def loss(hose, flow, nu):
    """Head in m that a flow in m3/h takes, with the sign of the flow."""
    if flow == 0:
        return 0.0
    bore = hose["bore_mm"] / 1000
    velocity = abs(flow) / 3600 / (math.pi * bore**2 / 4)
    f = friction(velocity * bore / nu, hose["rough_mm"] / hose["bore_mm"])
    return math.copysign((f * hose["length_m"] / bore + hose["k"]) * velocity**2 / (2 * G), flow)


def draw_hose(dice, least, most):
    return {
        "length_m": round(dice.uniform(0.5, 25), 2), "bore_mm": round(dice.uniform(least, most), 1),
        "rough_mm": dice.choice([0.0015, 0.01, 0.05, 0.15]), "k": round(dice.uniform(0.5, 10), 2),
    }


def draw(dice):
    points = dice.randint(4, 9)
    top, most, bend = dice.uniform(1.5, 8), dice.uniform(3, 25), dice.uniform(1.4, 2.4)
    flows = [most * i / (points - 1) for i in range(points)]
    return {
        "celsius": dice.choice([2, 8, 15, 20, 25]),
        "pump_m3_h": flows, "pump_m": [top * (1 - (q / most) ** bend) for q in flows],
        "intakes": [{"level_m": round(dice.uniform(-0.02, 0.02), 3), "hose": draw_hose(dice, 30, 110)} for _ in range(dice.randint(1, 3))],
        "common": draw_hose(dice, 32, 70),
        "ways": [draw_hose(dice, 25, 60) for _ in range(2)],
        "outlets": [{"level_m": round(dice.uniform(0, 0.6) * top, 2), "hose": draw_hose(dice, 20, 60)} for _ in range(dice.randint(1, 4))],
    }


def solve(case):
    water = IAPWS95(T=case["celsius"] + 273.15, P=0.101325)
    nu = case["nu_m2_s"] = water.mu / water.rho
    pump = PchipInterpolator(case["pump_m3_h"], case["pump_m"])
    most = case["pump_m3_h"][-1]
    n_in, n_out = len(case["intakes"]), len(case["outlets"])

    def left(x):
        q_in, q_out = x[:n_in], x[n_in : n_in + n_out]
        way, suction, delivery = x[n_in + n_out :]
        q = sum(q_in)
        head = float(pump(min(max(q, 0), most)))
        one, other = (loss(h, f, nu) for h, f in zip(case["ways"], (way, q - way)))
        rows = [b["level_m"] - loss(b["hose"], f, nu) - suction for b, f in zip(case["intakes"], q_in)]
        rows += [delivery - loss(b["hose"], f, nu) - b["level_m"] for b, f in zip(case["outlets"], q_out)]
        rows += [one - other, sum(q_out) - q, suction + head - loss(case["common"], q, nu) - one - delivery]
        return rows

    start = [most / 2 / n_in] * n_in + [most / 2 / n_out] * n_out + [most / 4, -0.1, max(b["level_m"] for b in case["outlets"]) + 0.2]
    x, _, status, _ = fsolve(left, start, xtol=1e-13, full_output=True)
    q_in, q_out, way = x[:n_in], x[n_in : n_in + n_out], x[n_in + n_out]
    q = sum(q_in)
    if status != 1 or max(abs(r) for r in left(x)) > 1e-11 or min(q_out) < 1e-3 or not 0 < q < most * 0.999:
        return False  # not solved, an outlet that gets nothing, or beyond the curve
    case["flow_m3_h"], case["intake_m3_h"], case["outlet_m3_h"] = float(q), list(map(float, q_in)), list(map(float, q_out))
    case["way_m3_h"] = [float(way), float(q - way)]
    return True


seed, wanted = map(int, sys.stdin.read().split())
dice = random.Random(seed)
numpy.seterr(all="ignore")
while wanted:
    case = draw(dice)
    if solve(case):
        wanted -= 1
        print(json.dumps(case))
