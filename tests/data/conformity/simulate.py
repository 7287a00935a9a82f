#!/usr/bin/env python3
"""Marks a piece a million times, each with readings drawn anew, by a program of its own.

python3 simulate.py RUBRIC.toml FACTS.json [TALLIES.json] > RESULT.json

Needs numpy. It shares no code with the Rust that it checks: it reads the rubric with
tomllib, works targets, bands, faults, causes, caps, weights, minima, stops and warnings out
over arrays, and counts. Readings by one instrument share its `shared` part; an interval
reading lies evenly between its ends. Tallies are not worked out here: their marks are given.
"""
import json
import re
import sys
import tomllib
from fractions import Fraction

import numpy as np

DRAWS = 1_000_000
SEED = 20261126
SIZES = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4, '"': 25.4, "deg": 1.0, "°": 1.0}


def number(text):
    """`5 1/4`, `62,4`, `3/8`: the number and whether it is a fraction."""
    text = text.strip().replace(",", ".")
    if "/" in text:
        whole, _, part = text.rpartition(" ") if " " in text else ("", "", text)
        return float(Fraction(whole or 0) + Fraction(part)), True
    return float(text), False


def amount(value):
    """An amount in mm, degrees or ones; a bare fraction is inches."""
    if isinstance(value, (int, float)):
        return float(value)
    found = re.fullmatch(r"\s*(-?[\d.,/ ]+?)\s*(mm|cm|m|in|\"|deg|°)?\s*", value)
    size, is_fraction = number(found[1])
    unit = found[2] or ("in" if is_fraction else "mm")
    return size * SIZES[unit]


class Piece:
    def __init__(self, rubric, facts, tallies):
        self.rubric, self.facts, self.tallies = rubric, facts, tallies
        self.random = np.random.default_rng(SEED)
        self.instruments = {one["id"]: one for one in rubric.get("instruments", [])}
        self.shared = {name: self.random.standard_normal(DRAWS) for name in self.instruments}
        self.slots = {}
        for reading in rubric.get("readings", []):
            self.take(reading["id"], reading.get("instrument"), 1)
        for section in rubric["sections"]:
            for one in section["criteria"]:
                kind, with_ = one["kind"], one.get("instrument")
                if kind == "toleranced":
                    self.take(one.get("reading", one["id"]), with_, 1)
                elif kind == "paired":
                    self.take(one.get("left", one["id"] + "-left"), with_, 1)
                    self.take(one.get("right", one["id"] + "-right"), with_, 1)
                elif kind == "spread":
                    self.take(one["id"], with_, one["count"])

    def take(self, name, with_, members):
        if name in self.slots or name not in self.facts["readings"]:
            return
        texts = self.facts["readings"][name]
        if texts[0] in ("within", "under", "over"):
            self.slots[name] = texts[0]
        elif ".." in texts[0]:
            low, high = (amount(text) for text in texts[0].split(".."))
            even = self.random.uniform(low, high, DRAWS)
            self.slots[name] = even + self.off(with_, 1)
        elif members > 1:
            self.slots[name] = [amount(text) + self.off(with_, 1) for text in texts]
        else:
            mean = sum(amount(text) for text in texts) / len(texts)
            self.slots[name] = mean + self.off(with_, len(texts))

    def off(self, with_, repeats):
        """What the mean of repeats by one instrument is off by."""
        if with_ is None:
            return np.zeros(DRAWS)
        figures = self.instruments[with_]
        if "half_width" in figures:
            reading = amount(figures["half_width"]) / 3**0.5
        else:
            reading = amount(figures["standard_uncertainty"])
        repeat = amount(figures.get("repeatability", 0)) / repeats**0.5
        own = self.random.standard_normal(DRAWS) * (reading**2 + repeat**2) ** 0.5
        return own + self.shared[with_] * amount(figures.get("shared", 0))

    def expression(self, text):
        if not isinstance(text, str):
            return amount(text)
        parts = re.split(r"\s+(plus|minus)\s+", text)
        value = self.term(parts[0])
        for sign, part in zip(parts[1::2], parts[2::2]):
            value = value + (1 if sign == "plus" else -1) * self.term(part)
        return value

    def term(self, text):
        text = text.strip()
        if found := re.fullmatch(r"(.+?) of (.+)", text):
            share, of = found[1].strip(), found[2]
            if share == "half":
                return 0.5 * self.term(of)
            if share.endswith("%"):
                return float(share[:-1]) / 100 * self.term(of)
            return float(Fraction(share)) * self.term(of)
        if text.startswith("piece."):
            value = self.rubric
            for key in text.split("."):
                value = value[key]
            return amount(value)
        if re.match(r"[a-z]", text):
            slot = self.slots[text]
            return sum(slot) / len(slot) if isinstance(slot, list) else slot
        return amount(text)

    def limit(self, text, whole):
        if isinstance(text, str) and text.strip().endswith("%") and " of " not in text:
            return float(text.strip()[:-1]) / 100 * np.abs(whole)
        return self.expression(text)

    def holds(self, limits, value, target, whole, both_signs):
        get = lambda key: self.limit(limits[key], whole)
        middle = 0.0 if target is None else target
        if "within" in limits:
            return np.abs(value - middle) <= get("within")
        if "under" in limits:
            return (value >= middle - get("under")) & (value <= middle + get("over"))
        if "at_most" in limits and both_signs:
            return np.abs(value - middle) <= get("at_most")
        if "at_most" in limits:
            return value <= get("at_most")
        if "at_least" in limits:
            return value >= get("at_least")
        return (value >= get("from")) & (value <= get("to"))

    def measured(self, one):
        """Marks before faults, warnings and stops of a measured criterion."""
        kind, whole, target = one["kind"], None, None
        if kind == "toleranced":
            value = self.slots[one.get("reading", one["id"])]
        elif kind == "paired":
            left = self.slots[one.get("left", one["id"] + "-left")]
            right = self.slots[one.get("right", one["id"] + "-right")]
            value, whole, target = left - right, (left + right) / 2, 0.0
        else:
            members = np.array(self.slots[one["id"]])
            whole = members.mean(axis=0)
            if one.get("spread", "range") == "range":
                value = members.max(axis=0) - members.min(axis=0)
            else:
                value = np.abs(members - whole).max(axis=0)
        if isinstance(value, str):
            assert value == "within", "only that verdict is worked out here"
            first = one["bands"][0]["marks"]
            return np.full(DRAWS, float(first)), np.zeros(DRAWS), np.zeros(DRAWS, bool)
        if "target" in one:
            target = self.expression(one["target"])
            whole = target
        marks = np.full(DRAWS, float(one.get("beyond", 0)))
        warned = np.full(DRAWS, one.get("beyond_effect") == "warn")
        stopped = np.full(DRAWS, one.get("beyond_effect") == "stop")
        free = np.ones(DRAWS, bool)
        for band in one["bands"]:
            inside = free & self.holds(band, value, target, whole, kind == "paired")
            marks[inside] = float(Fraction(str(band["marks"])))
            warned[inside] = band.get("effect") == "warn"
            stopped[inside] = band.get("effect") == "stop"
            free &= ~inside
        if "stops_outside" in one:
            outside = ~self.holds(one["stops_outside"], value, target, whole, kind == "paired")
            stopped |= outside
            warned &= ~outside
        return marks, warned.astype(float), stopped

    def given(self, one):
        """Marks by eye, before faults."""
        name, kind = one["id"], one["kind"]
        if kind == "tally":
            return self.tallies[name]
        if kind == "faults":
            return one.get("marks", 0)
        if "numbers" in one:
            return float(self.facts["levels"][name])
        chosen = self.facts["levels"][name]
        return next(level["marks"] for level in one["levels"] if level["id"] == chosen)

    def most(self, one):
        if "bands" in one:
            found = [band["marks"] for band in one["bands"]] + [one.get("beyond", 0)]
        elif "levels" in one:
            found = [level["marks"] for level in one["levels"]]
        elif "numbers" in one:
            found = [one["numbers"]["most"]]
        else:
            found = [one["marks"]]
        return max(float(Fraction(str(one))) for one in found)

    def mark(self):
        marks, out_of, where, causes = {}, {}, {}, {}
        warnings, stopped = np.zeros(DRAWS), np.zeros(DRAWS, bool)
        for section in self.rubric["sections"]:
            for one in section["criteria"]:
                name = one["id"]
                if one["kind"] in ("toleranced", "paired", "spread"):
                    own, warned, stops = self.measured(one)
                    warnings, stopped = warnings + warned, stopped | stops
                else:
                    own = np.full(DRAWS, float(self.given(one)))
                cost = 0.0
                seen = self.facts.get("faults", {}).get(name, [])
                for fault in one.get("faults", []):
                    times = seen.count(fault["id"])
                    once = float(fault.get("deduct", 0)) * times
                    cost += min(once, float(fault.get("most", once)))
                    if times and fault.get("effect") == "warn":
                        warnings = warnings + times
                least = float(one.get("least", 0)) if one["kind"] == "faults" else 0.0
                weight = float(one.get("weight", 1))
                marks[name] = np.maximum(own - cost, least) * weight
                out_of[name] = self.most(one) * weight
                where[name] = section["id"]
                if "cause" in one:
                    causes.setdefault(one["cause"], []).append(name)
        for group in self.rubric.get("causes", []):
            names = causes.get(group["id"], [])
            losses = np.array([out_of[name] - marks[name] for name in names])
            # The largest loss is charged first, of equal ones the first in the rubric.
            order = np.argsort(-losses, axis=0, kind="stable")
            left = np.full(DRAWS, float(group["most"]))
            for rank in range(len(names)):
                for at, name in enumerate(names):
                    mine = order[rank] == at
                    charged = np.minimum(losses[at], left)
                    marks[name] = np.where(mine, out_of[name] - charged, marks[name])
                    left = np.where(mine, left - charged, left)
        total, full = np.zeros(DRAWS), 0.0
        minima, award = {}, self.rubric["award"]
        for section in self.rubric["sections"]:
            names = [name for name, home in where.items() if home == section["id"]]
            most = min(sum(out_of[name] for name in names), float(section.get("cap", "inf")))
            scale = float(section["weight"]) / most if "weight" in section else 1.0
            own = np.minimum(sum(marks[name] for name in names), most) * scale
            if "minimum" in section:
                asked = section["minimum"]
                if isinstance(asked, str):
                    asked = float(asked.strip(" %")) / 100 * most * scale
                minima[section["id"]] = own >= asked - 1e-9
            total, full = total + own, full + most * scale
        asked = award["pass"]
        if isinstance(asked, str):
            asked = float(asked.strip(" %")) / 100 * full
        passed = (total >= asked - 1e-9) & ~stopped & (warnings < award.get("warnings_to_stop", 2))
        for reached in minima.values():
            passed &= reached
        return marks, total, minima, passed


def share(of):
    return round(float(np.mean(of)), 6)


def counted(values):
    found, counts = np.unique(np.round(values, 6), return_counts=True)
    return [[float(one), int(count) / DRAWS] for one, count in zip(found, counts)]


def main():
    with open(sys.argv[1], "rb") as file:
        rubric = tomllib.load(file)
    with open(sys.argv[2]) as file:
        facts = json.load(file)
    tallies = json.loads(sys.argv[3]) if len(sys.argv) > 3 else {}
    marks, total, minima, passed = Piece(rubric, facts, tallies).mark()
    print(
        json.dumps(
            {
                "draws": DRAWS,
                "pass": share(passed),
                "mean": float(np.mean(total)),
                "deviation": float(np.std(total)),
                "minima": {name: share(reached) for name, reached in minima.items()},
                "total": counted(total),
                "criteria": {
                    name: counted(values) for name, values in marks.items() if np.ptp(values) > 0
                },
            },
            indent=1,
        )
    )


main()
