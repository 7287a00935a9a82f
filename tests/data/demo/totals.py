"""Adds up again what the program says that the demo's markings come to.

python3 totals.py CRITERIA.csv SECTIONS.csv

CRITERIA.csv has the rows that the program exports, one a criterion. SECTIONS.csv has
what the program states for each section, with its cap and weight (rubrics/README.md,
"From criteria to the award"). Only the standard library is used; sums are exact.
Ends with 1 where something differs, and says what.
"""

import csv
import sys
from fractions import Fraction


def exact(decimal):
    """A decimal of at most six places, as the fraction that it was rounded from."""
    return Fraction(decimal).limit_denominator(1000)


def section(rows, cap, weight):
    """Marks of one section and what it can give: sum, then cap, then weight."""
    marks = sum(
        Fraction(int(row["marks_numerator"]), int(row["marks_denominator"]))
        for row in rows
        if row["marks_numerator"]
    )
    out_of = sum(exact(row["out_of"]) for row in rows)
    if cap:
        marks, out_of = min(marks, Fraction(cap)), min(out_of, Fraction(cap))
    factor = Fraction(weight) / out_of if weight and out_of else 1
    return marks * factor, out_of * factor


def main(criteria_path, sections_path):
    rows, stated, faults = {}, {}, []
    with open(criteria_path, newline="", encoding="utf-8") as file:
        for row in csv.DictReader(file):
            rows.setdefault(row["marking_id"], []).append(row)
    with open(sections_path, newline="", encoding="utf-8") as file:
        for row in csv.DictReader(file):
            stated.setdefault(row["marking_id"], []).append(row)
    if rows.keys() != stated.keys():
        faults.append("the two files are about different markings")
    sections = 0
    for marking, own in rows.items():
        total = total_out_of = Fraction(0)
        for said in stated.get(marking, []):
            of_section = [row for row in own if row["section_id"] == said["section_id"]]
            marks, out_of = section(of_section, said["cap"], said["weight"])
            if (marks, out_of) != (Fraction(said["marks"]), Fraction(said["out_of"])):
                faults.append(
                    f"{marking} {said['section_id']}: {marks} of {out_of} here, "
                    f"{said['marks']} of {said['out_of']} there"
                )
            total, total_out_of = total + marks, total_out_of + out_of
            sections += 1
        first = own[0]
        for name, here in (("total", total), ("total_out_of", total_out_of)):
            if abs(here - Fraction(first[name])) > Fraction(1, 2_000_000):
                faults.append(f"{marking} {name}: {float(here)} here, {first[name]} there")
        if first["award"] == "pass" and total < exact(first["pass_mark"]):
            faults.append(f"{marking} passes with {float(total)} of {first['pass_mark']}")
    print("\n".join(faults) or f"{len(rows)} markings and {sections} sections agree")
    return 1 if faults else 0


if __name__ == "__main__":
    if len(sys.argv) != 3:
        sys.exit(__doc__)
    sys.exit(main(*sys.argv[1:]))
