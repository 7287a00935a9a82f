"""Outlines laid over each other by SciPy: writes over.json into the folder named.

Of pairs of bar shoes in gauge/outlines.json, each in its own frame, the turn and the shift that make the mean of the
squared distances of one's places from the other's edges least, outer from outer and inner from inner: by a search
without slopes (Nelder and Mead), then by differences (BFGS). Distances to every chord are worked out. Places are those
that the gauge takes: as many as an edge has whole millimetres, evenly spaced.
"""

import json
import sys
from pathlib import Path

import numpy as np
from scipy import optimize

PAIRS = [(0, 1), (3, 4), (4, 0), (1, 3)]


def own(shoe, ring):
    frame = shoe["frame"]
    away = np.asarray(ring, float) - frame["origin"]
    return np.column_stack([away @ frame["x_axis"], away @ frame["y_axis"]])


def edges(shoe):
    return [own(shoe, ring) for ring in [shoe["outer"], *shoe["inner"]]]


def places(ring):
    closed = np.vstack([ring, ring[:1]])
    along = np.concatenate([[0], np.cumsum(np.hypot(*np.diff(closed, axis=0).T))])
    at = np.linspace(0, along[-1], int(along[-1]) + 1)[1:]
    return np.column_stack([np.interp(at, along, closed[:, axis]) for axis in (0, 1)])


def squares(points, chords):
    start, way = chords
    length = (way**2).sum(1)
    least = np.full(len(points), np.inf)
    for part in range(0, len(points), 64):
        from_start = points[part : part + 64, None] - start
        share = np.clip((from_start * way).sum(2) / length, 0, 1)
        off = from_start - share[:, :, None] * way
        least[part : part + 64] = (off**2).sum(2).min(1)
    return least


def laid(shoe, under):
    pairs = []
    for own_edge, other in zip(edges(shoe), edges(under), strict=True):
        way = np.roll(other, -1, axis=0) - other
        kept = (way**2).sum(1) > 0
        pairs.append((places(own_edge), (other[kept], way[kept])))

    def error(motion):
        turn = np.array([[np.cos(motion[0]), np.sin(motion[0])], [-np.sin(motion[0]), np.cos(motion[0])]])
        return np.concatenate([squares(moved @ turn + motion[1:], chords) for moved, chords in pairs]).mean()

    simplex = np.array([[0, 0, 0], [0.05, 0, 0], [0, 2, 0], [0, 0, 2]], float)
    rough = optimize.minimize(error, np.zeros(3), method="Nelder-Mead", options={"initial_simplex": simplex, "maxiter": 250})
    fine = optimize.minimize(error, rough.x, method="BFGS", options={"gtol": 1e-7})
    best = min(rough, fine, key=lambda found: found.fun)
    return {"turn": best.x[0], "shift": best.x[1:].tolist(), "rms": best.fun**0.5, "before": error(np.zeros(3)) ** 0.5}


folder = Path(sys.argv[1])
shoes = json.loads((folder / "gauge" / "outlines.json").read_text())
found = [{"shoe": one, "under": other, **laid(shoes[one], shoes[other])} for one, other in PAIRS]
(folder / "over.json").write_text(json.dumps(found, indent=1) + "\n")
