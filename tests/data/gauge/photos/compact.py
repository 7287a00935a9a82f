"""Brings five rendered photos in, each with what is known of it.

Run: python3 compact.py FOLDER, which holds the renders as NAME.jpg and NAME.json. The pictures
are copied as they are. Of the truth stays what README.md names: outlines at every fourth point,
which is about 2 mm, numbers rounded far below what a photo can tell.
"""

import json
import shutil
import sys
from pathlib import Path

HERE = Path(__file__).parent
PHOTOS = {"s1_002_2mp": "bar", "s1_004_2mp": "open", "s1_006_2mp": "covered", "s901_006_2mp": "clipped", "s905_002_2mp": "card"}
STEP = 4
KEPT = "expect", "expect_reason", "paper", "exif_focal_35mm", "camera", "sheet_corners_px", "sheet_corner_visible"


def rounded(value, places):
    if isinstance(value, float):
        return round(value, places)
    if isinstance(value, list):
        return [rounded(each, places) for each in value]
    if isinstance(value, dict):
        # What a field means stands in README.md.
        kept = {key: each for key, each in value.items() if key not in ("definition", "note")}
        return {key: rounded(each, places) for key, each in kept.items()}
    return value


def compact(truth):
    top = rounded(truth["top"], 4)
    for name in ("outline_world_mm", "outline_px"):
        top[name] = rounded(top[name][::STEP], 2)
    top["inner_outlines_px"] = [rounded(each[::STEP], 2) for each in top["inner_outlines_px"]]
    kept = {key: rounded(truth[key], 4) for key in KEPT}
    kept["camera"] = rounded(truth["camera"], 9)
    kept["thickness"] = rounded(truth["parameters"]["shoe"]["thickness"], 4)
    for key in ("hidden", "scale"):
        if key in truth:
            kept[key] = truth[key]
    return kept | {"top": top}


folder = Path(sys.argv[1])
for name, kept_as in PHOTOS.items():
    shutil.copyfile(folder / f"{name}.jpg", HERE / f"{kept_as}.jpg")
    truth = json.loads((folder / f"{name}.json").read_text())
    lines = (f"{json.dumps(key)}: {json.dumps(each)}" for key, each in compact(truth).items())
    (HERE / f"{kept_as}.json").write_text("{\n" + ",\n".join(lines) + "\n}\n")
