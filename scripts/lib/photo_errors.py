"""Prints how far measures of photos are from what is known of them, as a table.

python3 photo_errors.py GAUGE FOLDER...

GAUGE is the built program examples/gauge.rs. A FOLDER holds pairs NAME.jpg and NAME.json, the latter with the
fields that tests/data/gauge/photos/README.md names. A photo that its JSON does not want measured, or of which
it says that a refusal is as good (`refusal_acceptable`), is refused rightly. Only the standard library is used.
"""

import json
import math
import subprocess
import sys
from pathlib import Path

NEAR = 1.96
"""As many standard uncertainties hold 95 % of a normal distribution."""
SAME_HOLE = 5.0
"""A hole within so many mm of a true one is that one; the holes of a shoe lie three times as far apart."""
SIDES = {"left": "L", "right": "R"}


MEASURES = {
    "overall_width": lambda top: top["overall_width"],
    "overall_length": lambda top: top["overall_length"],
    "web_toe": lambda top: top["web"]["toe_on_axis"],
    "web_toe_quarter_left": lambda top: top["web"]["toe_quarter_L"],
    "web_toe_quarter_right": lambda top: top["web"]["toe_quarter_R"],
    "web_quarter_left": lambda top: top["web"]["quarter_L"],
    "web_quarter_right": lambda top: top["web"]["quarter_R"],
    "web_heel_left": lambda top: top["web"]["heel_L"],
    "web_heel_right": lambda top: top["web"]["heel_R"],
    "branch_length_left": lambda top: top["branch_outer_length"]["L"],
    "branch_length_right": lambda top: top["branch_outer_length"]["R"],
    "branch_deviation_max": lambda top: top["mirror_axis"]["max_dev_first_90pct_mm"],
    "branch_deviation_rms": lambda top: top["mirror_axis"]["rms_dev_first_90pct_mm"],
    "toe_radius": lambda top: top["toe_circle"]["radius"],
    "bar_width": lambda top: top["bar"]["width_on_axis"],
    "bar_back_straightness": lambda top: top["bar"]["back_straightness_min_zone"],
    "bar_back_squareness": lambda top: top["bar"]["back_angle_lsq_deg"],
}


def known(top):
    """What is known of a shoe by measure; an open one has no bar."""
    return {name: of(top) for name, of in MEASURES.items() if "bar" in top or not name.startswith("bar_")}


class Errors:
    """Errors of one measure, with the standard uncertainty that stood beside each."""

    def __init__(self):
        self.all, self.left_out = [], 0

    def add(self, off, u):
        self.all.append((off, u))

    def row(self, name):
        if not self.all:
            return f"{name:<24}{0:4}{self.left_out:6}"
        off = [off for off, _ in self.all]
        rms = math.sqrt(sum(one * one for one in off) / len(off))
        within = [abs(one) <= NEAR * u for one, u in self.all if u is not None]
        share = f"{sum(within) / len(within):8.0%}" if within else f"{'-':>8}"
        bias = sum(off) / len(off)
        return f"{name:<24}{len(off):4}{self.left_out:6}{rms:9.3f}{max(off, key=abs):+9.3f}{bias:+9.3f}{share}"


class Table:
    def __init__(self):
        self.measures = {name: Errors() for name in MEASURES}
        self.centres = {"hole x": Errors(), "hole y": Errors(), "hole to outer edge": Errors()}
        self.spacing = Errors()
        self.widths = Errors()
        self.insets = Errors()
        self.holes = {"found": 0, "missed": 0, "invented": 0, "numbered otherwise": 0}
        self.ends, self.ends_missed, self.ends_invented = [], 0, 0
        self.photos = {
            "measured": 0, "refused rightly": 0, "measured though a refusal is as good": 0,
            "refused wrongly": 0, "measured wrongly": 0,
        }

    def add(self, truth, told):
        """Takes one photo in; says what became of it."""
        may_refuse = truth["expect"] != "measure" or truth.get("refusal_acceptable", False)
        if not told["ok"]:
            return self.count("refused rightly" if may_refuse else "refused wrongly", told["reason"])
        # A corner that cannot be seen leaves nothing to measure by: whatever is told is a guess.
        if truth["expect"] != "measure":
            return self.count("measured wrongly", truth.get("expect_reason"))
        self.add_measures(known(truth["top"]), told["measurements"])
        self.add_holes(truth["top"]["nail_holes"], told["nail_holes"])
        self.add_fuller(truth["top"].get("fuller"), told["fuller"])
        self.add_groove(truth, told)
        return self.count("measured though a refusal is as good" if may_refuse else "measured", None)

    def count(self, what, why):
        self.photos[what] += 1
        return f"{what}: {why}" if why else what

    def add_measures(self, truth, told):
        for name, value in truth.items():
            if name in told:
                self.measures[name].add(told[name]["value"] - value, told[name]["u"])
            else:
                self.measures[name].left_out += 1

    def add_holes(self, truth, told):
        """Pairs holes, nearest first."""
        far = lambda one, other: math.hypot(one["x"] - other["x"], one["y"] - other["y"])
        pairs = sorted((far(one, other), i, j) for i, one in enumerate(told) for j, other in enumerate(truth))
        paired = {}
        for off, i, j in pairs:
            if off <= SAME_HOLE and i not in paired and j not in paired.values():
                paired[i] = j
        for i, j in paired.items():
            one, other = told[i], truth[j]
            for name, key in zip(self.centres, ("x", "y", "to_outer_edge")):
                if one[key] is not None:
                    self.centres[name].add(one[key] - other[key], one.get("u"))
            same = SIDES[one["branch"]] == other["side"] and one["index"] == other["index"]
            self.holes["numbered otherwise"] += not same
            if i + 1 in paired and paired[i + 1] == j + 1 and other.get("gap_to_next"):
                gap = math.hypot(told[i + 1]["x"] - one["x"], told[i + 1]["y"] - one["y"])
                self.spacing.add(gap - other["gap_to_next"], None)
        self.holes["found"] += len(paired)
        self.holes["missed"] += len(truth) - len(paired)
        self.holes["invented"] += len(told) - len(paired)

    def add_groove(self, truth, told):
        """Width of the groove, and its inset beside the holes: where they would be, had each been struck on its middle."""
        shoe = truth.get("parameters", {}).get("shoe", {})
        for side, letter in SIDES.items():
            branch = (told["fuller"] or {}).get(side) or {}
            if branch.get("width") and "fuller" in shoe:
                self.widths.add(branch["width"] - shoe["fuller"]["width"], None)
            holes = [hole for hole in truth["top"]["nail_holes"] if hole["side"] == letter]
            seen = sum(hole["branch"] == side for hole in told["nail_holes"])
            off = [hole["inset_err"] for hole in shoe.get("nails", {}).get(letter, [])]
            if branch.get("inset") and holes and seen == len(holes) == len(off):
                inset = sum(hole["to_outer_edge"] - by for hole, by in zip(holes, off)) / len(off)
                self.insets.add(branch["inset"] - inset, None)

    def add_fuller(self, truth, told):
        for side, letter in SIDES.items():
            branch = (told or {}).get(side) or {}
            for end in ("start", "end"):
                is_known, value = (truth or {}).get(f"{end}_{letter}"), branch.get(end)
                if is_known and value is not None:
                    self.ends.append(value - is_known["frac"])
                self.ends_missed += bool(is_known) and value is None
                self.ends_invented += not is_known and value is not None

    def lines(self):
        yield f"{'mm; squareness in degrees':<26}{'n':>2}{'blank':>6}{'RMS':>9}{'worst':>9}{'bias':>9}{'1.96 u':>8}"
        for name, errors in self.measures.items():
            yield errors.row(name.replace("_", " "))
        for name, errors in self.centres.items():
            yield errors.row(name)
        yield self.spacing.row("hole spacing")
        yield self.insets.row("fuller inset")
        yield self.widths.row("fuller width")
        yield "nail holes: " + ", ".join(f"{count} {what}" for what, count in self.holes.items())
        found = f", worst {max(self.ends, key=abs):+.3f} of a branch" if self.ends else ""
        yield (
            f"fuller ends: {len(self.ends)} found, {self.ends_missed} missed, "
            f"{self.ends_invented} invented{found}"
        )
        yield "photos: " + ", ".join(f"{count} {what}" for what, count in self.photos.items())


def thickness(truth):
    """The height of the ground face above the sheet, in mm."""
    return truth["top"].get("z", truth.get("thickness"))


def measured(gauge, photo, truth):
    """What the program says of a photo; `None` where it fails."""
    sheet = truth.get("scale", truth["paper"]["kind"].lower())
    call = [gauge, str(photo), "--sheet", sheet, "--thickness", f"{thickness(truth):.4f} mm"]
    if truth.get("hidden"):
        call += ["--hidden", ",".join(truth["hidden"])]
    done = subprocess.run(call, capture_output=True, text=True, check=False)
    if done.returncode not in (0, 3):
        print(f"{photo.name}: code {done.returncode}: {done.stderr.strip()}", file=sys.stderr)
        return None
    return json.loads(done.stdout)


def main(gauge, folders):
    table, seconds, failed = Table(), [], 0
    photos = [photo for folder in folders for photo in sorted(Path(folder).glob("*.jpg"))]
    for photo in photos:
        truth = json.loads(photo.with_suffix(".json").read_text())
        told = measured(gauge, photo, truth)
        if told is None:
            failed += 1
            continue
        took = sum(told.get("ms", {}).values()) / 1e3
        seconds += [took] if took else []
        print(f"{photo.name}: {table.add(truth, told)}{f' in {took:.1f} s' if took else ''}", file=sys.stderr)
    if not photos:
        print("no photos: a folder holds pairs NAME.jpg and NAME.json", file=sys.stderr)
    if len(photos) == failed:
        return 1
    print("\n".join(table.lines()))
    if seconds:
        print(f"seconds a measured photo: {sum(seconds) / len(seconds):.1f} on the mean, {max(seconds):.1f} at most")
    return 1 if failed else 0


if __name__ == "__main__":
    if len(sys.argv) < 3:
        sys.exit("write: photo_errors.py GAUGE FOLDER...")
    sys.exit(main(sys.argv[1], sys.argv[2:]))
