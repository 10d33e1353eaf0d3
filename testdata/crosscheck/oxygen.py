"""Oxygen solubility by the Gibbs SeaWater toolbox (python3-gsw), for a live check of calc/water.

Prints temperature in degrees C, salinity in g/kg and saturation at one atmosphere in mg/L, one line a state.
Leaves with status 3 where the toolbox is not installed.
"""

import sys

try:
    import gsw
except ImportError:
    sys.exit(3)

OXYGEN = 31.9988  # g/mol

for salinity in (0.0, 1.0, 3.0, 5.0, 9.0):
    for tenth in range(0, 401, 25):
        t = tenth / 10
        conservative = gsw.CT_from_t(salinity, t, 0)
        micromoles = gsw.O2sol(salinity, conservative, 0, 0, 50)  # per kg
        density = gsw.rho(salinity, conservative, 0)
        print(t, salinity, micromoles * density * OXYGEN * 1e-6)
