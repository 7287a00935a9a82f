"""Makes outlines.json, the outlines of rendered shoes with what is known of each.

python3 outlines.py FOLDER > outlines.json

FOLDER holds the truth files of the rendered photographs. Of six shoes (bar and open, with and
without a rolled toe, one with a crooked bar, one as wide as long) it takes what is said of the
top face: the outer outline, the inner ones (which the truth has in pixels only, so they are
brought back to the plane of the top face through its camera), nail holes and ends of the
fuller in mm of the sheet, and all measures.
Only the standard library is used.
"""

import json
import sys
from pathlib import Path

SHOES = ["s1_000_2mp", "s1_002_2mp", "s1_004_2mp", "s1_005_2mp", "s1_007_2mp", "s1_009_12mp"]
LEFT_OUT = {
    "outline_world_mm", "outline_px", "inner_outlines_px", "toe_point_px", "plane",
    "toe_point_design_frame", "shoe_frame_in_world", "z",
}


def on_plane(camera, pixel, height):
    """Where the ray of a pixel meets the plane so high above the sheet."""
    (fx, _, cx), (_, fy, cy), _ = camera["K"]
    x, y = (pixel[0] - cx) / fx, (pixel[1] - cy) / fy
    straight = (x, y)
    for _ in range(30):
        bent = 1 + camera["k1"] * (straight[0] ** 2 + straight[1] ** 2)
        straight = (x / bent, y / bent)
    turn, shift = camera["R"], camera["t"]
    back = lambda v: [sum(turn[r][c] * v[r] for r in range(3)) for c in range(3)]
    ray = back([*straight, 1.0])
    lens = [-v for v in back(shift)]
    far = (height - lens[2]) / ray[2]
    return [lens[0] + far * ray[0], lens[1] + far * ray[1]]


def shoe(path):
    truth = json.loads(path.read_text())
    top = truth["top"]
    frame = top["shoe_frame_in_world"]
    rounded = lambda point: [round(v, 3) for v in point]

    def world(place):
        along = zip(frame["origin"], frame["x_axis"], frame["y_axis"])
        return [round(o + place["x"] * x + place["y"] * y, 5) for o, x, y in along][:2]

    return {
        "name": path.stem,
        "type": truth["parameters"]["shoe"]["type"],
        "outer": [rounded(point) for point in top["outline_world_mm"]],
        "inner": [
            [rounded(on_plane(truth["camera"], pixel, top["z"])) for pixel in outline]
            for outline in top["inner_outlines_px"]
        ],
        "holes": [world(hole) for hole in top["nail_holes"]],
        "fuller": {end: world(place) for end, place in top["fuller"].items()},
        "frame": {key: frame[key][:2] for key in ("origin", "x_axis", "y_axis")},
        "truth": {key: value for key, value in top.items() if key not in LEFT_OUT},
    }


folder = Path(sys.argv[1])
json.dump([shoe(folder / f"{name}.json") for name in SHOES], sys.stdout, separators=(",", ":"))
print()
