"""Least squares with common errors as extra unknowns, by numpy.linalg.lstsq on whitened rows.

In: rows of [days, rest m3, evaporated m3, common share, chance m3, bucket, on]; out: leak, its width, stream, its width, m3 a day.
"""
import json
import sys

try:
    import numpy
except ImportError as missing:
    print(missing, file=sys.stderr)
    sys.exit(3)

rows = json.load(sys.stdin)
x, y = [[0, 0, 1, 0], [0, 0, 0, 1]], [0, 0]
for days, rest, evaporated, common, chance, bucket, on in rows:
    x.append([v / chance for v in (days, days * on, common * evaporated * (1 - bucket), common * evaporated * bucket)])
    y.append(rest / chance)
x, y = numpy.array(x), numpy.array(y)
solved = numpy.linalg.lstsq(x, y, rcond=None)[0]
width = numpy.sqrt(numpy.diag(numpy.linalg.pinv(x.T @ x)))
print(json.dumps([solved[0], width[0], solved[1], width[1]]))
