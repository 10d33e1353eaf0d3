"""Pipes, weirs, channels and water by the libraries fluids and iapws, for a live check of calc/pipe, fall, stream and water.

Prints one JSON object a case: {"what": name, "in": [numbers in SI units, angles in degrees], "out": number}. The cases are
random with a fixed seed. Leaves with status 3 where a library is not installed.

Two functions of the library are wrong and are not used: the contracted weir of Kindsvater and Carter (its correction of the
head is ten times too small) and those named SIA.
"""

import json
import random
import sys

try:
    import iapws
    from fluids import fittings, friction, open_flow
except ImportError as error:
    print(error, file=sys.stderr)
    sys.exit(3)

INCH = 0.0254
CASES = 200  # of each kind
rng = random.Random(1)


def show(what, inputs, out):
    print(json.dumps({"what": what, "in": inputs, "out": out}))


def log_uniform(low, high):
    return low * (high / low) ** rng.random()


def handbook(name):
    """The library's function of that name for the handbook TP-410: the one with a capitalised word after it."""
    rest = [f.removeprefix(name + "_") for f in dir(fittings) if f.startswith(name + "_")]
    (author,) = [r for r in rest if r.istitle() and "_" not in r]
    return getattr(fittings, name + "_" + author)


def friction_factors():
    for _ in range(CASES):
        reynolds, rough = log_uniform(4e3, 1e8), log_uniform(1e-7, 0.05)
        show("friction", [reynolds, rough], friction.friction_factor(Re=reynolds, eD=rough))
        slow = log_uniform(1, 2000)
        show("friction", [slow, rough], friction.friction_factor(Re=slow, eD=rough))


DARBY = {
    "elbow": "Elbow, 90°, threaded, standard, (r/D = 1)",
    "slow bend": "Elbow, 90°, threaded, long radius, (r/D = 1.5)",
    "45° elbow": "Elbow, 45°, threaded standard, (r/D = 1)",
    "45° slow bend": "Elbow, 45°, long radius, (r/D = 1.5)",
    "return bend": "Elbow, 180°, flanged, (r/D = 1)",
    "mitre": "Elbow, 90°, mitered, 1 weld, (90°)",
    "45° mitre": "Elbow, 45°, mitered, 1 weld, (45°)",
    "tee through": "Tee, Run-through, threaded, (r/D = 1)",
    "tee branch": "Tee, Through-branch, (as elbow), threaded, (r/D = 1)",
    "ball valve": "Valve, Ball valve, standard, β = 1",
    "gate valve": "Valve, Gate valve, standard, β = 1",
    "globe valve": "Valve, Globe valve, standard, β = 1",
    "angle valve": "Valve, Angle valve, 90°, full line size, β = 1",
    "angle seat valve": "Valve, Angle valve, 45°, full line size, β = 1",
    "swing check valve": "Valve, Swing check",
    "lift check valve": "Valve, Lift check",
}


def kinds():
    for name, row in DARBY.items():
        for _ in range(10):
            bore, reynolds = rng.uniform(0.015, 0.15), log_uniform(500, 1e6)
            show("kind " + name, [bore, reynolds], fittings.Darby3K(NPS=bore / INCH, Re=reynolds, name=row))
    for _ in range(10):
        bore, reynolds = rng.uniform(0.015, 0.15), log_uniform(500, 1e6)
        show("kind butterfly valve", [bore, reynolds], fittings.Hooper2K(Di=bore / INCH, Re=reynolds, name="Valve, Butterfly,"))
        turbulent = friction.Clamond(7.5e6 * bore, 3.4126825352925e-05 * bore**-1.0112, False)
        foot = handbook("K_foot_valve")
        show("kind foot valve", [bore, reynolds], foot(fd=turbulent, style=1))
        show("kind poppet foot valve", [bore, reynolds], foot(fd=turbulent, style=0))
        radius = rng.uniform(0.0005, 0.03)
        show("rounded", [bore, radius], fittings.entrance_rounded(Di=bore, rc=radius, method="Swamee"))
        coefficient = log_uniform(1, 200)
        show("kv", [bore, coefficient], fittings.Kv_to_K(Kv=coefficient, D=bore))


def changes():
    for _ in range(CASES):
        large = rng.uniform(0.02, 0.16)
        small = large * rng.uniform(0.3, 0.97)
        angle, factor = rng.uniform(3, 175), rng.uniform(0.01, 0.05)
        narrowing = handbook("contraction_conical")(Di1=large, Di2=small, l=0.0)
        show("narrowing", [large, small], narrowing)
        show("widening", [large, small], fittings.diffuser_sharp(Di1=small, Di2=large))
        show("cone in", [large, small, angle, factor], fittings.contraction_conical(large, small, fd=factor, angle=angle))
        show("cone out", [large, small, angle, factor], fittings.diffuser_conical(small, large, fd=factor, angle=angle))


def tees():
    for _ in range(CASES):
        run = rng.uniform(0.03, 0.11)
        branch, angle, share = run * rng.uniform(0.4, 1), rng.uniform(30, 90), rng.uniform(0.02, 0.98)
        for what in ("branch_converging", "run_converging", "branch_diverging", "run_diverging"):
            k = handbook("K_" + what)(D_run=run, D_branch=branch, Q_run=1 - share, Q_branch=share, angle=angle)
            show(what, [run, branch, angle, share], k)


def channels():
    for _ in range(CASES):
        head, crest, width = rng.uniform(0.005, 0.3), rng.uniform(0.1, 1), rng.uniform(0.15, 3)
        full = open_flow.Q_weir_rectangular_full_Kindsvater_Carter(h1=head, h2=crest, b=width)
        show("thin plate", [head, crest, width], full)
        head = rng.uniform(0.03, 0.3)
        show("rehbock", [head, crest, width], open_flow.Q_weir_rectangular_full_Rehbock(h1=head, h2=crest, b=width))
        radius, slope, n = log_uniform(0.002, 2), log_uniform(1e-4, 0.5), rng.uniform(0.009, 0.15)
        show("manning", [radius, slope, n], open_flow.V_Manning(Rh=radius, S=slope, n=n))


def water():
    for _ in range(40):
        celsius = rng.uniform(0.1, 40)
        kelvin = celsius + 273.15
        state = iapws.IAPWS95(T=kelvin, P=0.101325)
        show("density", [celsius], state.rho)
        show("viscosity", [celsius], iapws._iapws._Viscosity(state.rho, kelvin))
        show("vapour pressure", [celsius], iapws.iapws97._PSat_T(kelvin) * 1e6)


friction_factors()
kinds()
changes()
tees()
channels()
water()
