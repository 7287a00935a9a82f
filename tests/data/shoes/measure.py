"""Measures the ten shoes of paths.json with shapely and writes measured.json.

paths.json is written by: cargo test --test it write_the_paths -- --ignored
Then, in this folder, with shapely 2.0: python3 measure.py
Every curve is replaced by 2,000 chords, so lengths and areas are right to about 1e-6.
"""
import json

from outlines import points_of
from shapely.geometry import LinearRing, Polygon

CHORDS = 2000


measured = {}
for name, shoe in json.load(open("paths.json", encoding="utf-8")).items():
    outline = points_of(shoe["outline"], CHORDS)
    opening = points_of(shoe["opening"], CHORDS) if shoe["opening"] else None
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
