"""Works out again what the program says of the invented school as a cohort.

python3 cohort.py CRITERIA.csv STATED.csv RUBRIC LATEST

CRITERIA.csv has the rows that the program exports, one a criterion; STATED.csv what it states
of the cohort: the matrix, quartiles, pass rates with Wilson's interval, Cronbach's alpha and
the standard error of measurement. Only the standard library is used; shares are exact. Ends
with 1 where something differs, and says what.
"""

import csv
import math
import statistics
import sys
from collections import defaultdict
from fractions import Fraction

LEAST = 5


def counting(rows):
    """The marking that each piece stands for, as its rows, where an examiner made it."""
    markings = defaultdict(list)
    for row in rows:
        if row["sealed_at"]:
            markings[row["marking_id"]].append(row)
    pieces = defaultdict(list)
    for own in markings.values():
        if own[0]["role"] != "self":
            pieces[own[0]["piece_id"]].append(own)
    order = lambda own: (own[0]["role"] == "agreed", own[0]["marking_id"])
    return [max(all_of_it, key=order) for all_of_it in pieces.values()]


def cell(row):
    """Marks and what could be had, or nothing."""
    if not row["marks_numerator"] or row["state"] == "not applicable":
        return None
    out_of = Fraction(row["out_of"]).limit_denominator(1000)
    marks = Fraction(int(row["marks_numerator"]), int(row["marks_denominator"]))
    return (marks, out_of) if out_of else None


def wilson(some, of):
    z = statistics.NormalDist().inv_cdf(0.975)
    share = some / of
    middle = share + z * z / (2 * of)
    off = z * math.sqrt(share * (1 - share) / of + (z / (2 * of)) ** 2)
    whole = 1 + z * z / of
    return max((middle - off) / whole, 0), min((middle + off) / whole, 1)


def recomputed(rows, rubric, latest):
    own = [piece for piece in counting(rows) if piece[0]["rubric_id"] == rubric]
    # Pieces that examiners mark to be compared are nobody's.
    own = [piece for piece in own if piece[0]["learner"]]
    own.sort(key=lambda piece: (piece[0]["date"], piece[0]["piece_id"]))
    by_learner = defaultdict(list)
    for piece in own:
        if all(row["state"] != "missing" for row in piece):
            by_learner[piece[0]["learner"]].append(piece)
    said, last_of = {}, {}
    by_criterion = defaultdict(list)
    for learner, pieces in by_learner.items():
        shares = defaultdict(list)
        for piece in pieces[-latest:]:
            for row in piece:
                if (found := cell(row)) is not None:
                    shares[row["criterion_id"]].append(found[0] / found[1])
        for criterion, found in shares.items():
            median = statistics.median(found)
            said["matrix", learner, criterion] = (median, Fraction(len(found)))
            by_criterion[criterion].append(median)
        last_of[learner] = pieces[-1]
    for criterion, medians in by_criterion.items():
        if len(medians) >= LEAST:
            quartiles = statistics.quantiles(medians, n=4, method="inclusive")
            said["quartiles", criterion, ""] = tuple(quartiles)
    for sitting in {piece[0]["sitting"] for piece in own}:
        decided = [
            piece[0]
            for piece in own
            if piece[0]["sitting"] == sitting and piece[0]["award"] in ("pass", "not yet")
        ]
        if len({row["learner"] for row in decided}) >= LEAST:
            passed = sum(row["award"] == "pass" for row in decided)
            said["rate", sitting, ""] = (passed, len(decided), *wilson(passed, len(decided)))
    newest = max(last_of.values(), key=lambda piece: (piece[0]["date"], piece[0]["piece_id"]))
    most = [found and found[1] for found in map(cell, newest)]
    table = [list(map(cell, piece)) for piece in last_of.values()]
    # Who has no marks for an item, or could have others, is no row.
    table = [row for row in table if [found and found[1] for found in row] == most]
    if len(table) >= LEAST:
        marks = [[float(found[0]) for found in row if found] for row in table]
        items = [statistics.variance(column) for column in zip(*marks)]
        total = statistics.variance([sum(row) for row in marks])
        count = len(items)
        alpha = count / (count - 1) * (1 - sum(items) / total)
        said["alpha", "", ""] = (alpha, math.sqrt(total) * math.sqrt(1 - alpha))
    return said


def main(criteria_path, stated_path, rubric, latest):
    with open(criteria_path, newline="", encoding="utf-8") as file:
        said = recomputed(list(csv.DictReader(file)), rubric, int(latest))
    with open(stated_path, newline="", encoding="utf-8") as file:
        stated = {
            (row["what"], row["of"], row["by"]): [Fraction(one) for one in row["values"].split()]
            for row in csv.DictReader(file)
        }
    faults = [f"{key} is said here alone" for key in said.keys() - stated.keys()]
    faults += [f"{key} is said there alone" for key in stated.keys() - said.keys()]
    for key in said.keys() & stated.keys():
        here, there = said[key], stated[key]
        is_exact = key[0] == "matrix"
        is_same = len(here) == len(there) and all(
            one == other if is_exact else abs(float(one) - float(other)) < 1e-9
            for one, other in zip(here, there)
        )
        if not is_same:
            faults.append(f"{key}: {here} here, {there} there")
    print("\n".join(sorted(faults)) or f"{len(said)} figures agree")
    return 1 if faults else 0


if __name__ == "__main__":
    if len(sys.argv) != 5:
        sys.exit(__doc__)
    sys.exit(main(*sys.argv[1:]))
