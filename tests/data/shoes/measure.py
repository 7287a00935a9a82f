"""Measures the ten shoes of paths.json with shapely and writes measured.json.

paths.json is written by: cargo test --test it write_the_paths -- --ignored
Then, in this folder, with shapely 2.0: python3 measure.py
Every curve is replaced by 2,000 chords, so lengths and areas are right to about 1e-6.
"""
import json
import re

from shapely.geometry import LinearRing, Polygon

CHORDS = 2000


def points_of(path):
    """Points of a closed SVG path made of M, L, Q, C and Z."""
    points = []
    for letter, numbers in re.findall(r"([MLQCZ])([^MLQCZ]*)", path):
        values = [float(text) for text in re.findall(r"-?[\d.]+(?:e-?\d+)?", numbers)]
        pairs = list(zip(values[::2], values[1::2]))
        if letter in "ML":
            points.extend(pairs)
        elif letter in "QC":
            size = 2 if letter == "Q" else 3
            for first in range(0, len(pairs), size):
                hull = [points[-1]] + pairs[first : first + size]
                points.extend(curve(hull, step / CHORDS) for step in range(1, CHORDS + 1))
    return points


def curve(hull, t):
    """The point at t of the Bezier curve with this hull, by de Casteljau."""
    while len(hull) > 1:
        hull = [
            (a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t)
            for a, b in zip(hull, hull[1:])
        ]
    return hull[0]


measured = {}
for name, shoe in json.load(open("paths.json", encoding="utf-8")).items():
    outline = points_of(shoe["outline"])
    opening = points_of(shoe["opening"]) if shoe["opening"] else None
    plan = Polygon(outline, [opening] if opening else [])
    assert plan.is_valid, name
    measured[name] = {
        "area": plan.area,
        "x": plan.centroid.x,
        "y": plan.centroid.y,
        "around": LinearRing(outline).length,
    }
with open("measured.json", "w", encoding="utf-8") as file:
    json.dump(measured, file, indent=1, sort_keys=True)
    file.write("\n")
