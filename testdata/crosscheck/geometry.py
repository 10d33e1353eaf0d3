"""Volumes of ponds with shelves and battered sides by the geometry library shapely (GEOS).

Reads one JSON object a line, {"points": [[x, y], ...], "sides": [[run, drop], ...]} in metres from the water's edge
down, and prints {"area": m2, "perimeter": m, "volume": m3, "floor": m2} for each. In place of sides it takes
"soundings": [[x, y, depth], ...] in an outline without inner corners, whose edge is at depth 0; the volume is then that
over shapely's own triangulation, corner by corner. Leaves with status 3 where the library is not installed.

The section is the outline inset with mitred corners, in small steps one after the other: inset in one go, a corner that
points into the water may reach through a place that has already closed. Volume is by Simpson's rule between the steps.
"""

import json
import sys

try:
    from shapely.geometry import MultiPoint, Polygon
    from shapely.ops import triangulate
except ImportError:
    sys.exit(3)

PANELS = 200  # of a battered drop
STEPS = 20  # of a shelf
MITRE = 1e6  # in effect none


def inset(shape, distance):
    return shape.buffer(-distance, join_style=2, mitre_limit=MITRE)


def drop(shape, run, height):
    """Volume of the layer, and what is left of the shape at its foot."""
    if run == 0:
        return shape.area * height, shape
    areas = [shape.area]
    for _ in range(2 * PANELS):
        shape = inset(shape, run / (2 * PANELS))
        areas.append(shape.area)
    simpson = areas[0] + areas[-1] + 4 * sum(areas[1::2]) + 2 * sum(areas[2:-1:2])
    return simpson * height / (6 * PANELS), shape


def sounded(case):
    depth = {(x, y): 0.0 for x, y in case["points"]}
    depth.update({(x, y): z for x, y, z in case["soundings"]})
    triangles = triangulate(MultiPoint(list(depth)))
    return sum(t.area * sum(depth[c] for c in t.exterior.coords[:3]) / 3 for t in triangles)


def measure(case):
    shape = Polygon(case["points"])
    if case.get("soundings"):
        return {"area": shape.area, "perimeter": shape.length, "volume": sounded(case), "floor": 0.0}
    out = {"area": shape.area, "perimeter": shape.length, "volume": 0.0}
    for run, height in case["sides"]:
        if height == 0:
            for _ in range(STEPS):
                shape = inset(shape, run / STEPS)
            continue
        volume, shape = drop(shape, run, height)
        out["volume"] += volume
    out["floor"] = shape.area
    return out


for line in sys.stdin:
    print(json.dumps(measure(json.loads(line))))
