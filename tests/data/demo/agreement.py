"""Works out again what the program says of how well examiners of the demo agree.

python3 agreement.py CRITERIA.csv LEVELS.csv FIGURES.json

CRITERIA.csv has the rows that the program exports, one a criterion of a marking of one
version of a rubric. LEVELS.csv has its judged criteria: criterion_id, level, place, the
better the higher. FIGURES.json is what the program says. Which markings are blind first
ones, totals and levels are taken from the CSV alone; only the standard library is used.
Ends with 1 where something differs, and says what.

Intraclass correlation with empty cells: fitting constants (Henderson 1953, method 3), the
least-squares fit by sweeping rows and columns in turn until nothing moves. Krippendorff's
alpha by its coincidence matrix (Krippendorff 2018, chapter 12). Limits of agreement after
Bland and Altman 1986. Readings: ISO 5725-2 within pieces.
"""

import csv
import json
import statistics
import sys
from collections import defaultdict
from itertools import combinations, permutations

EXAMINERS = {"first", "second", "third"}


def read(path):
    with open(path, newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


def blind(rows):
    """By piece and examiner the rows of one marking each, of pieces with two or more."""
    markings = defaultdict(list)
    for row in rows:
        if row["sealed_at"] and row["role"] in EXAMINERS:
            markings[row["marking_id"]].append(row)
    pieces = defaultdict(dict)
    for own in markings.values():
        pieces[own[0]["piece_id"]][own[0]["examiner"]] = own
    return {piece: by for piece, by in pieces.items() if len(by) > 1}


def icc(table):
    """Absolute agreement of single raters; `table` is {piece: {examiner: total}}."""
    cells = [(p, e, x) for p, by in table.items() for e, x in by.items()]
    row, column = defaultdict(float), defaultdict(float)
    for _ in range(10_000):
        moved = 0.0
        for own, at, other in ((row, 0, column), (column, 1, row)):
            sums = defaultdict(list)
            for cell in cells:
                sums[cell[at]].append(cell[2] - other[cell[1 - at]])
            for key, values in sums.items():
                mean = statistics.fmean(values)
                moved = max(moved, abs(mean - own[key]))
                own[key] = mean
        if moved < 1e-13:
            break
    count, a, b = len(cells), len(row), len(column)
    rest = sum((x - row[p] - column[e]) ** 2 for p, e, x in cells) / (count - a - b + 1)

    def within(at):
        groups = defaultdict(list)
        for cell in cells:
            groups[cell[at]].append(cell[2])
        squares = sum(sum((x - statistics.fmean(g)) ** 2 for x in g) for g in groups.values())
        return squares / (count - len(groups))

    pieces, examiners = within(1) - rest, within(0) - rest
    return pieces / (pieces + examiners + rest)


def alpha(units):
    """Krippendorff's ordinal alpha of lists of values, by the coincidence matrix."""
    units = [unit for unit in units if len(unit) > 1]
    together = defaultdict(float)
    for unit in units:
        for one, other in permutations(unit, 2):
            together[one, other] += 1 / (len(unit) - 1)
    margin = defaultdict(float)
    for (one, _), times in together.items():
        margin[one] += times
    values, total = sorted(margin), sum(margin.values())

    def apart(one, other):
        low, high = min(one, other), max(one, other)
        between = sum(margin[v] for v in values if low <= v <= high)
        return (between - (margin[low] + margin[high]) / 2) ** 2

    seen = sum(times * apart(*pair) for pair, times in together.items())
    chance = sum(margin[c] * margin[k] * apart(c, k) for c in values for k in values)
    return 1 - (total - 1) * seen / chance


def limits(table, one, other):
    """Mean difference and limits of two examiners."""
    both = [by[one] - by[other] for by in table.values() if one in by and other in by]
    mean, deviation = statistics.fmean(both), statistics.stdev(both)
    z = statistics.NormalDist().inv_cdf(0.975)
    return len(both), mean, mean - z * deviation, mean + z * deviation


def main(criteria_path, levels_path, figures_path):
    pieces = blind(read(criteria_path))
    places = {(r["criterion_id"], r["level"]): int(r["place"]) for r in read(levels_path)}
    with open(figures_path, encoding="utf-8") as file:
        said = json.load(file)
    faults, compared = [], 0

    def same(what, here, there):
        nonlocal compared
        compared += 1
        if abs(here - there) > 1e-6 * (1 + abs(here)):
            faults.append(f"{what}: {here} here, {there} there")

    totals = {
        piece: {
            examiner: 100 * float(own[0]["total"]) / float(own[0]["total_out_of"])
            for examiner, own in by.items()
        }
        for piece, by in pieces.items()
    }
    same("pieces", len(totals), said["pieces"])
    apart = [
        statistics.fmean(abs(x - y) for x, y in combinations(by.values(), 2))
        for by in totals.values()
    ]
    same("totals apart", statistics.fmean(apart), said["apart"])
    same("icc", icc(totals), said["icc"])
    for pair in said["pairs"]:
        found = limits(totals, pair["first"], pair["second"])
        for what, here in zip(("pieces", "bias", "low", "high"), found):
            same(f"{pair['first']} less {pair['second']}, {what}", here, pair[what])
    for criterion, there in said["alpha"].items():
        units = [
            [
                places[criterion, row["reading"]]
                for own in by.values()
                for row in own
                if row["criterion_id"] == criterion and row["reading"]
            ]
            for by in pieces.values()
        ]
        same(f"alpha of {criterion}", alpha(units), there)
    for criterion, there in said["readings"].items():
        squares = freedom = 0
        for by in pieces.values():
            values = [
                float(row["value"])
                for own in by.values()
                for row in own
                if row["criterion_id"] == criterion and row["value"]
            ]
            if len(values) > 1:
                squares += statistics.variance(values) * (len(values) - 1)
                freedom += len(values) - 1
        same(f"readings of {criterion}", (squares / freedom) ** 0.5, there)
    for criterion, there in said["marks_apart"].items():
        of_pieces = []
        for by in pieces.values():
            marks = [
                int(row["marks_numerator"]) / int(row["marks_denominator"])
                for own in by.values()
                for row in own
                if row["criterion_id"] == criterion
                and row["marks_numerator"]
                and row["state"] != "not applicable"
            ]
            if len(marks) > 1:
                of_pieces.append(
                    statistics.fmean(abs(x - y) for x, y in combinations(marks, 2))
                )
        same(f"marks apart on {criterion}", statistics.fmean(of_pieces), there)
    print("\n".join(faults) or f"{compared} figures agree")
    return 1 if faults else 0


if __name__ == "__main__":
    if len(sys.argv) != 4:
        sys.exit(__doc__)
    sys.exit(main(*sys.argv[1:]))
