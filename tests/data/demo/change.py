"""Works out again what the program says of how invented learners change.

python3 change.py CRITERIA.csv PAUSES.csv STATED.csv

CRITERIA.csv has the rows that the program exports, one a criterion; PAUSES.csv the minutes for
which the clock of a marking stood, still in the time as it was typed; STATED.csv what it states of
each learner and rubric: the trend of pieces made alike (Theil and Sen, Kendall), the limits of
the usual spread at the latest piece, what the next piece comes to, curves of practice, and of
each learner how own marks lie off an examiner's. Only the standard library is used. Ends with 1
where something differs, and says what.
"""

import csv
import math
import re
import statistics
import sys
from collections import defaultdict

LEAST = 5
LEVEL = 0.95
NORMAL = statistics.NormalDist().inv_cdf(1 - (1 - LEVEL) / 2)


def beta_share(a, b, x):
    """The regularised incomplete beta function, by its continued fraction (Lentz)."""
    if x <= 0 or x >= 1:
        return float(x >= 1)
    if x > (a + 1) / (a + b + 2):
        return 1 - beta_share(b, a, 1 - x)
    front = math.exp(
        math.lgamma(a + b) - math.lgamma(a) - math.lgamma(b) + a * math.log(x) + b * math.log1p(-x)
    )
    c, d = 1.0, 1 / (1 - (a + b) * x / (a + 1))
    result = d
    for m in range(1, 500):
        for term in (
            m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m)),
            -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1)),
        ):
            d, c = 1 / (1 + term * d), 1 + term / c
            result *= c * d
        if abs(c * d - 1) < 1e-15:
            break
    return front * result / a


def t_above(t, freedom):
    tail = beta_share(freedom / 2, 0.5, freedom / (freedom + t * t)) / 2
    return tail if t >= 0 else 1 - tail


def t_quantile(freedom):
    """The t that leaves half of what LEVEL leaves to its right."""
    low, high = 0.0, 1e4
    for _ in range(200):
        middle = (low + high) / 2
        low, high = (middle, high) if t_above(middle, freedom) > (1 - LEVEL) / 2 else (low, middle)
    return (low + high) / 2


def score_variance(*rows):
    of = lambda n: n * (n - 1) * (2 * n + 5)
    ties = sum(of(row.count(value)) for row in rows for value in set(row))
    return max((of(len(rows[0])) - ties) / 18, 0)


def theil_sen(ys):
    xs = list(range(1, len(ys) + 1))
    slopes = sorted(
        (ys[j] - ys[i]) / (xs[j] - xs[i]) for i in range(len(ys)) for j in range(i + 1, len(ys))
    )
    slope = statistics.median(slopes)
    off = NORMAL * math.sqrt(score_variance(xs, ys))
    low, high = round((len(slopes) - off) / 2) - 1, round((len(slopes) + off) / 2)
    at = lambda rank: slopes[min(max(rank, 0), len(slopes) - 1)]
    return slope, at(low), at(high), statistics.median(ys) - slope * statistics.median(xs)


def tau(ys):
    pairs = [(ys[i], ys[j]) for i in range(len(ys)) for j in range(i + 1, len(ys))]
    score = sum((later > first) - (later < first) for first, later in pairs)
    tied = sum(later == first for first, later in pairs)
    return score / math.sqrt(len(pairs) * (len(pairs) - tied))


def spread(ys):
    """The usual limits at the latest piece."""
    slope, _, _, start = theil_sen(ys)
    off = [y - start - slope * x for x, y in enumerate(ys, 1)]
    moving = statistics.fmean(abs(b - a) for a, b in zip(off, off[1:]))
    if moving == 0:
        return None
    middle = start + slope * len(ys) + statistics.fmean(off)
    return middle - 3 * moving / 1.128, middle + 3 * moving / 1.128


def next_one(marks, out_of):
    logit = lambda m: math.log((m + 0.5) / (out_of - m + 0.5))
    share = lambda z: min(max(((out_of + 1) / (1 + math.exp(-z)) - 0.5) / out_of, 0), 1)
    ys = [logit(m) for m in marks]
    n, xs = len(ys), list(range(1, len(ys) + 1))
    fit = statistics.linear_regression(xs, ys)
    rest = sum((y - fit.intercept - fit.slope * x) ** 2 for x, y in zip(xs, ys))
    around = sum((x - statistics.fmean(xs)) ** 2 for x in xs)
    at = n + 1
    error = math.sqrt(rest / (n - 2) * (1 + 1 / n + (at - statistics.fmean(xs)) ** 2 / around))
    middle, off = fit.intercept + fit.slope * at, t_quantile(n - 2) * error
    return share(middle), share(middle - off), share(middle + off)


def straight(terms, ys):
    """Least squares of a + b term: a, b and what is left."""
    fit = statistics.linear_regression(terms, ys)
    left = sum((y - fit.intercept - fit.slope * term) ** 2 for term, y in zip(terms, ys))
    return fit.intercept, fit.slope, left


def inverse(matrix):
    """Of a matrix of three rows, by its cofactors."""
    (a, b, c), (d, e, f), (g, h, i) = matrix
    cofactors = [
        [e * i - f * h, c * h - b * i, b * f - c * e],
        [f * g - d * i, a * i - c * g, c * d - a * f],
        [d * h - e * g, b * g - a * h, a * e - b * d],
    ]
    whole = a * cofactors[0][0] + b * cofactors[1][0] + c * cofactors[2][0]
    return [[value / whole for value in row] for row in cofactors]


POWER = (lambda x, c: x**-c, lambda x, c: -math.log(x) * x**-c)
EXPONENTIAL = (
    lambda x, c: math.exp(-c * (x - 1)),
    lambda x, c: -(x - 1) * math.exp(-c * (x - 1)),
)


def laid(curve, ys, low, high):
    """The curve that leaves least: what is left, heights at both ends, floor and its interval."""
    xs = range(1, len(ys) + 1)
    height, slope = curve
    at = lambda c: straight([height(x, c) for x in xs], ys)
    places = [low * (high / low) ** (k / 3000) for k in range(3001)]
    left = [at(place)[2] for place in places]
    best = min(range(len(places)), key=left.__getitem__)
    # Near an end of the range the curve is as good as straight, or a single step.
    if best in (0, len(places) - 1) or left[best] > min(left[0], left[-1]) * (1 - 1e-6):
        return None
    low, high = places[best - 1], places[best + 1]
    golden = (math.sqrt(5) - 1) / 2
    for _ in range(120):
        one, other = high - golden * (high - low), low + golden * (high - low)
        low, high = (low, other) if at(one)[2] <= at(other)[2] else (one, high)
    bend = (low + high) / 2
    floor, over, rest = at(bend)
    rows = [(1, height(x, bend), over * slope(x, bend)) for x in xs]
    products = [[sum(row[i] * row[j] for row in rows) for j in range(3)] for i in range(3)]
    freedom = len(ys) - 3
    error = math.sqrt(inverse(products)[0][0] * rest / freedom)
    off = t_quantile(freedom) * error
    ends = [floor + over * height(x, bend) for x in (1, len(ys))]
    return rest, (*ends, floor, floor - off, floor + off)


def practised(ys):
    if len(set(ys)) == 1:
        return None
    found = [laid(POWER, ys, 1e-3, 10), laid(EXPONENTIAL, ys, 1e-3 / len(ys), 50)]
    found = [one for one in found if one]
    if not found:
        return None
    ends = min(found, key=lambda one: one[0])[1]
    return ends if ends[0] > ends[1] else None


def read(path):
    with open(path, newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


def markings_of_pieces(rows):
    markings = defaultdict(list)
    for row in rows:
        if row["sealed_at"] and row["learner"]:
            markings[row["marking_id"]].append(row)
    pieces = defaultdict(list)
    for own in markings.values():
        pieces[own[0]["piece_id"]].append(own)
    return pieces.values()


def whole(marking):
    return all(row["state"] != "missing" for row in marking)


def percent(marking):
    return 100 * float(marking[0]["total"]) / float(marking[0]["total_out_of"])


def counts(marking):
    """What was counted, by criterion: minutes, or a bare number."""
    tallies = [row for row in marking if row["kind"] == "tally" and row["value"]]
    return {row["criterion_id"]: (row["value_unit"], float(row["value"])) for row in tallies}


def without_pauses(rows, pauses):
    """The rows, their minutes without those for which the clock stood."""
    stood = defaultdict(float)
    for pause in pauses:
        stood[pause["marking_id"]] += float(pause["minutes"])
    for row in rows:
        if row["kind"] == "tally" and row["value_unit"] == "min":
            counts = minutes(row["reading"]) - stood[row["marking_id"]]
            if float(row["value"]) != counts:
                sys.exit(f"{row['marking_id']}: {row['value']} min, and {counts} count")
            row["value"] = counts
    return rows


def minutes(typed):
    """Minutes of a text such as 1 h 5 min."""
    parts = re.fullmatch(r"(?:(\d+) h)? ?(?:(\d+) min)?", typed)
    return 60 * int(parts[1] or 0) + int(parts[2] or 0)


def recomputed(rows):
    by_course, by_learner = defaultdict(list), defaultdict(list)
    order = lambda own: (own[0]["date"], own[0]["piece_id"])
    for all_of_it in markings_of_pieces(rows):
        rank = lambda own: (own[0]["role"] != "self", own[0]["role"] == "agreed", own[0]["marking_id"])
        stands = max(all_of_it, key=rank)
        by_course[stands[0]["learner"], stands[0]["rubric_id"]].append(stands)
        own = [one for one in all_of_it if one[0]["role"] == "self"]
        if own and stands[0]["role"] != "self" and whole(own[0]) and whole(stands):
            by_learner[stands[0]["learner"]].append((order(stands), percent(own[0]), percent(stands)))
    said = {}
    for (learner, rubric), pieces in by_course.items():
        pieces.sort(key=order)
        said.update(of_course(learner, rubric, pieces))
    for learner, pairs in by_learner.items():
        pairs.sort()
        if len(pairs) >= LEAST:
            off = [own - other for _, own, other in pairs]
            width = t_quantile(len(off) - 1) * statistics.stdev(off) / math.sqrt(len(off))
            mean = statistics.fmean(off)
            distance = theil_sen([abs(one) for one in off])[:3]
            said["own", learner, ""] = (mean, mean - width, mean + width, *distance)
    return said


def of_course(learner, rubric, pieces):
    said = {}
    marked = [own for own in pieces if own[0]["role"] != "self" and whole(own)]
    latest = [own for own in marked if own[0]["rubric_version"] == marked[-1][0]["rubric_version"]]
    kinds = defaultdict(list)
    for own in latest:
        timed = any(unit == "min" for unit, _ in counts(own).values())
        kinds[own[0]["sitting"], timed].append(own)
    for _, alike in sorted(kinds.items(), key=lambda item: order_of_last(item[1]), reverse=True):
        if len(alike) >= LEAST:
            ys = [percent(own) for own in alike]
            slope, low, high, _ = theil_sen(ys)
            if len(set(ys)) > 1:
                said["trend", learner, rubric] = (slope, low, high, tau(ys))
            if (limits := spread(ys)) is not None:
                said["usual", learner, rubric] = limits
            out_of = float(alike[-1][0]["total_out_of"])
            said["next", learner, rubric] = next_one([y * out_of / 100 for y in ys], out_of)
            break
    tallies = defaultdict(list)
    names = {row["criterion_id"] for row in pieces[-1] if row["kind"] == "tally"}
    for own in pieces:
        for criterion, (_, value) in counts(own).items():
            if criterion in names:
                tallies[criterion].append(value)
    for criterion, values in tallies.items():
        if len(values) >= LEAST and (found := practised(values)) is not None:
            said["curve", learner, f"{rubric} {criterion}"] = found
    return said


def order_of_last(pieces):
    return pieces[-1][0]["date"], pieces[-1][0]["piece_id"]


def is_same(here, there):
    return len(here) == len(there) and all(
        abs(one - other) <= 1e-4 * max(1, abs(one)) for one, other in zip(here, there)
    )


def main(criteria_path, pauses_path, stated_path):
    said = recomputed(without_pauses(read(criteria_path), read(pauses_path)))
    stated = {
        (row["what"], row["of"], row["by"]): [float(one) for one in row["values"].split()]
        for row in read(stated_path)
    }
    faults = [f"{key} is said here alone" for key in said.keys() - stated.keys()]
    faults += [f"{key} is said there alone" for key in stated.keys() - said.keys()]
    for key in said.keys() & stated.keys():
        if not is_same(said[key], stated[key]):
            faults.append(f"{key}: {said[key]} here, {stated[key]} there")
    print("\n".join(sorted(faults)) or f"{len(said)} figures agree")
    return 1 if faults else 0


if __name__ == "__main__":
    if len(sys.argv) != 4:
        sys.exit(__doc__)
    sys.exit(main(*sys.argv[1:]))
