"""Figures of agreement by other programs: writes agreement.json into the folder named.

Values of intraclass correlations, their F tests, Fleiss' and Cohen's kappa, Krippendorff's alpha
and Friedman's statistic are those of pingouin, statsmodels, krippendorff and scipy. What no
library of theirs gives is worked out here in another way than the program that is tested does:
whether a figure exists by fractions, components of variance by the expectations of quadratic
forms of dense matrices, intervals by the papers' own formulas.
"""

import json
import sys
import warnings
from fractions import Fraction
from pathlib import Path

import krippendorff
import numpy as np
import pandas as pd
import pingouin
from scipy import stats
from statsmodels.formula.api import ols
from statsmodels.stats.anova import anova_lm
from statsmodels.stats.inter_rater import aggregate_raters, cohens_kappa, fleiss_kappa

warnings.filterwarnings("ignore")
random = np.random.default_rng(20261127)


def finite(numbers):
    """The numbers, or None where one of them is not finite."""
    numbers = [float(number) for number in numbers]
    return numbers if all(map(np.isfinite, numbers)) else None


# ---- intraclass correlations ----


def mean_squares(rows):
    rows = [[Fraction(score) for score in row] for row in rows]
    n, k = len(rows), len(rows[0])
    grand = sum(map(sum, rows)) / (n * k)
    of_rows = [sum(row) / k for row in rows]
    of_columns = [sum(column) / n for column in zip(*rows)]
    between = k * sum((mean - grand) ** 2 for mean in of_rows) / (n - 1)
    judges = n * sum((mean - grand) ** 2 for mean in of_columns) / (k - 1)
    within = sum((x - m) ** 2 for row, m in zip(rows, of_rows) for x in row) / (n * (k - 1))
    error = (within * n * (k - 1) - judges * (k - 1)) / ((n - 1) * (k - 1))
    return n, k, between, judges, within, error


def icc_values(n, k, between, judges, within, error):
    """Numerator and denominator of each, as McGraw and Wong (1996), table 4, print them."""
    return {
        "1,1": (between - within, between + (k - 1) * within),
        "2,1": (between - error, between + (k - 1) * error + k * (judges - error) / n),
        "3,1": (between - error, between + (k - 1) * error),
        "1,k": (between - within, between),
        "2,k": (between - error, between + (judges - error) / n),
        "3,k": (between - error, between),
    }


def icc_intervals(n, k, between, judges, within, error, values):
    """As McGraw and Wong (1996), table 7, print them; None where a denominator is nothing."""
    quantile = lambda a, b: stats.f.ppf(0.975, a, b)
    found = {}

    def step(low, high):
        return [k * end / (1 + (k - 1) * end) for end in (low, high)]

    if within > 0:
        f = between / within
        low, high = f / quantile(n - 1, n * (k - 1)), f * quantile(n * (k - 1), n - 1)
        found["1,1"] = [(low - 1) / (low + k - 1), (high - 1) / (high + k - 1)]
        if between > 0:
            found["1,k"] = [1 - 1 / low, 1 - 1 / high]
    if error > 0:
        f, df = between / error, (n - 1) * (k - 1)
        low, high = f / quantile(n - 1, df), f * quantile(df, n - 1)
        found["3,1"] = [(low - 1) / (low + k - 1), (high - 1) / (high + k - 1)]
        if between > 0:
            found["3,k"] = [1 - 1 / low, 1 - 1 / high]
    value = values["2,1"]
    if value is not None and value < 1 and judges + error > 0:
        a = k * value / (n * (1 - value))
        b = 1 + k * value * (n - 1) / (n * (1 - value))
        parts = (a * judges) ** 2 / (k - 1) + (b * error) ** 2 / ((n - 1) * (k - 1))
        v = (a * judges + b * error) ** 2 / parts if parts > 0 else 0
        # With hardly any degrees of freedom quantiles are no longer to be had on either side.
        if v > 0.5:
            star, up = quantile(n - 1, v), quantile(v, n - 1)
            rest = k * judges + (k * n - k - n) * error
            low = n * (between - star * error), star * rest + n * between
            high = n * (up * between - error), rest + n * up * between
            if low[1] > 0 and high[1] > 0:
                found["2,1"] = [low[0] / low[1], high[0] / high[1]]
                if min(1 + (k - 1) * end for end in found["2,1"]) > 1e-9:
                    found["2,k"] = step(*found["2,1"])
    return {form: finite(ends) for form, ends in found.items()}


def iccs(rows):
    n, k = len(rows), len(rows[0])
    if n < 2 or k < 2 or len({score for row in rows for score in row}) < 2:
        return None
    squares = mean_squares(rows)
    values = {
        form: float(over / under) if under > 0 else None
        for form, (over, under) in icc_values(*squares).items()
    }
    floats = [float(number) for number in squares]
    intervals = icc_intervals(n, k, *floats[2:], values)
    check_with_pingouin(rows, values)
    tests = {}
    for model, error, df in (("1", squares[4], n * (k - 1)), ("2", squares[5], (n - 1) * (k - 1))):
        if error > 0:
            f = float(squares[2] / error)
            tests[model] = [f, n - 1, df, stats.f.sf(f, n - 1, df)]
    return {"values": values, "intervals": intervals, "tests": tests}


def check_with_pingouin(rows, values):
    """pingouin wants five scores or more; where it gives a number it must be the same."""
    n, k = len(rows), len(rows[0])
    if n * k < 5 or n < 2:
        return
    long = [(t, r, score) for t, row in enumerate(rows) for r, score in enumerate(row)]
    frame = pd.DataFrame(long, columns=["target", "rater", "score"])
    try:
        found = pingouin.intraclass_corr(frame, "target", "rater", "score")
    except (AssertionError, ValueError, ZeroDivisionError):
        return
    for ours, theirs in zip(["1,1", "2,1", "3,1", "1,k", "2,k", "3,k"], found["ICC"]):
        if values[ours] is not None and np.isfinite(theirs) and abs(values[ours]) < 1e6:
            assert abs(values[ours] - theirs) < 1e-8 * max(1, abs(theirs)), (rows, ours, theirs)


# ---- components of variance with empty cells ----


def components(cells):
    """Henderson's method 3 by dense matrices: quadratic forms y'Ay, E y'Ay = tr(A V) + mu-part 0."""
    places = [(t, r) for t, row in enumerate(cells) for r, score in enumerate(row) if score is not None]
    y = np.array([cells[t][r] for t, r in places], float)
    targets, raters = sorted({t for t, _ in places}), sorted({r for _, r in places})
    if len(targets) < 2 or len(raters) < 2:
        return None
    of_t = np.array([[float(t == one) for one in targets] for t, _ in places])
    of_r = np.array([[float(r == one) for one in raters] for _, r in places])
    unit = np.eye(len(y))
    project = lambda matrix: matrix @ np.linalg.pinv(matrix)
    both = unit - project(np.hstack([of_t, of_r]))
    forms = [both, unit - project(of_r), unit - project(of_t)]
    if round(np.trace(both)) < 1 or len(set(y)) < 2:
        return None
    shapes = [of_t @ of_t.T, of_r @ of_r.T, unit]
    expected = np.array([[np.trace(form @ shape) for shape in shapes] for form in forms])
    y = y - y.mean()
    found = np.array([y @ form @ y for form in forms])
    if found[1] + found[2] < 1e-12:
        return None
    target, rater, residual = np.linalg.solve(expected, found)
    whole = target + rater + residual
    agreement = target / whole if whole > 1e-9 else None
    return {"parts": [target, rater, residual], "agreement": agreement}


# ---- kappa, alpha, W ----


def alphas(cells):
    kept = [row for row in cells if sum(score is not None for score in row) > 1]
    scores = {score for row in kept for score in row if score is not None}
    if len(scores) < 2:
        return None
    matrix = np.array([[np.nan if s is None else s for s in row] for row in cells], float).T
    found = {}
    for metric in ("nominal", "ordinal", "interval", "ratio"):
        if metric != "ratio" or min(scores) >= 0:
            found[metric] = krippendorff.alpha(matrix, level_of_measurement=metric)
    return found


def kendall(rows):
    n, m = len(rows), len(rows[0])
    ranks = np.array([stats.rankdata(column) for column in zip(*rows)])
    if n < 2 or m < 2 or all(len(set(column)) == 1 for column in zip(*rows)):
        return None
    if n > 2:
        chi = stats.friedmanchisquare(*[list(row) for row in rows]).statistic
    else:
        # friedmanchisquare wants three; of two targets it is the squared sum of rank
        # differences by their sum of squares.
        d = ranks[:, 0] - ranks[:, 1]
        chi = d.sum() ** 2 / (d**2).sum()
    return [chi / (m * (n - 1)), chi, stats.chi2.sf(chi, n - 1)]


def fleiss(rows):
    if len(rows[0]) < 2 or len({score for row in rows for score in row}) < 2:
        return None
    return fleiss_kappa(aggregate_raters(np.array(rows))[0], method="fleiss")


def kappas(pairs, scale):
    if not pairs:
        return None
    table = np.zeros((len(scale), len(scale)))
    for one, other in pairs:
        table[scale.index(one), scale.index(other)] += 1
    if len({score for pair in pairs for score in pair}) < 2:
        return None
    found = {}
    for name, weights in (("unweighted", None), ("linear", "linear"), ("quadratic", "quadratic")):
        result = cohens_kappa(table, wt=weights)
        found[name] = [float(result.kappa), np.sqrt(max(result.var_kappa, 0)), np.sqrt(max(result.var_kappa0, 0))]
    return found


# ---- two raters' differences ----


def limits(mean, of_mean, variance, of_variance, df):
    z, t = stats.norm.ppf(0.975), stats.t.ppf(0.975, df)
    sd = np.sqrt(variance)
    error = np.sqrt(of_mean + z * z * (of_variance / (4 * variance) if variance > 0 else 0))
    ends = [mean - z * sd, mean + z * sd]
    found = [mean, sd, *ends, mean - t * np.sqrt(of_mean), mean + t * np.sqrt(of_mean)]
    return finite(found + [end + sign * t * error for end in ends for sign in (-1, 1)])


def bland_altman(pairs):
    if len(pairs) < 2:
        return None
    d = np.array([one - other for one, other in pairs])
    n, s2 = len(d), d.var(ddof=1)
    return limits(d.mean(), s2 / n, s2, 2 * s2**2 / (n - 1), n - 1)


def concordance(pairs):
    """Lin (1989) with the correction of 2000, in his own terms."""
    if len(pairs) < 2:
        return None
    x, y = np.array(pairs, float).T
    if len(set(x)) < 2 or len(set(y)) < 2:
        return None
    r = np.corrcoef(x, y)[0, 1]
    c = 2 * np.cov(x, y, ddof=0)[0, 1] / (x.var() + y.var() + (x.mean() - y.mean()) ** 2)
    u2 = (x.mean() - y.mean()) ** 2 / (x.std() * y.std())
    found = {"value": c, "interval": None}
    if len(pairs) > 2 and abs(c) < 1 - 1e-9 and abs(r) > 1e-9:
        variance = (
            (1 - r**2) * c**2 / ((1 - c**2) * r**2)
            + 2 * c**3 * (1 - c) * u2 / (r * (1 - c**2) ** 2)
            - c**4 * u2**2 / (2 * r**2 * (1 - c**2) ** 2)
        ) / (len(pairs) - 2)
        reach = stats.norm.ppf(0.975) * np.sqrt(max(variance, 0))
        found["interval"] = finite(np.tanh([np.arctanh(c) - reach, np.arctanh(c) + reach]))
    return found


def one_way(groups):
    """Mean squares between and within groups by statsmodels' regression."""
    frame = pd.DataFrame([(g, x) for g, own in enumerate(groups) for x in own], columns=["g", "x"])
    table = anova_lm(ols("x ~ C(g)", frame).fit())
    return float(table["mean_sq"].iloc[0]), float(table["mean_sq"].iloc[1]), float(table["df"].iloc[1])


def repeated_constant(targets):
    n = len(targets)
    d = np.array([np.mean(a) - np.mean(b) for a, b in targets])
    between = d.var(ddof=1)
    variance, of_variance = between, 2 * between**2 / (n - 1)
    for own in ([a for a, _ in targets], [b for _, b in targets]):
        if any(len(scores) > 1 for scores in own):
            _, within, df = one_way(own)
            share = 1 - np.mean([1 / len(scores) for scores in own])
            variance += share * within
            of_variance += 2 * (share * within) ** 2 / df
    return limits(d.mean(), between / n, variance, of_variance, n - 1)


def repeated_varying(targets):
    n = len(targets)
    groups = [[x - y for x, y in zip(a, b)] for a, b in targets]
    sizes = np.array([len(own) for own in groups])
    pairs = sizes.sum()
    if pairs == n:
        return None
    between, within, df = one_way(groups)
    m0 = (pairs**2 - (sizes**2).sum()) / ((n - 1) * pairs)
    of_targets = (between - within) / m0
    of_mean = (max(of_targets, 0) * (sizes**2).sum() / pairs + within) / pairs
    of_variance = 2 * (between / m0) ** 2 / (n - 1) + 2 * ((1 - 1 / m0) * within) ** 2 / df
    bias = np.mean(np.concatenate(groups))
    return limits(bias, of_mean, of_targets + within, of_variance, n - 1)


# ---- data ----


def table(targets, raters, steps, between, shift, error, kind):
    """Scores in halves or whole numbers, so that sums are exact."""
    true = random.normal(0, between, (targets, 1))
    strict = random.normal(0, shift, (1, raters))
    scores = 5 + true + strict + random.normal(0, error, (targets, raters))
    if kind == "marks":
        return (np.round(scores * steps) / steps).tolist()
    return np.clip(np.round(scores - 2), 1, 5).tolist()


def with_gaps(rows, share):
    hidden = random.random((len(rows), len(rows[0]))) < share
    return [[None if gone else score for score, gone in zip(row, line)] for row, line in zip(rows, hidden)]


def tables():
    """Seeded tables of every kind, as (cells, scale of categories or None)."""
    scale = [1.0, 2.0, 3.0, 4.0, 5.0]
    for _ in range(36):
        shape = int(random.integers(2, 26)), int(random.integers(2, 7))
        yield table(*shape, 2, *random.uniform(0.1, 3, 3), "marks"), None
    for _ in range(30):
        shape = int(random.integers(2, 26)), int(random.integers(2, 7))
        yield table(*shape, 1, *random.uniform(0.1, 1.5, 3), "scale"), scale
    for _ in range(31):
        yield table(int(random.integers(2, 31)), 2, 1, *random.uniform(0.1, 1.5, 3), "scale"), scale
    for _ in range(36):
        shape = int(random.integers(3, 26)), int(random.integers(2, 7))
        rows = table(*shape, 1, *random.uniform(0.3, 2, 3), random.choice(["scale", "marks"]))
        yield with_gaps(rows, random.choice([0.1, 0.3, 0.6])), None
    # Groups so small that little exists, some of them without any spread.
    for targets, raters in ((2, 2), (2, 3), (3, 2), (2, 2), (2, 2), (1, 4), (4, 1), (1, 1), (3, 3)) * 2:
        yield random.integers(1, 3, (targets, raters)).astype(float).tolist(), [1.0, 2.0]
    # All alike, alike but for strictness, only raters differ, one who gives one score.
    yield [[3.0] * 4] * 6, scale
    yield [[float(t)] * 3 for t in (2, 5, 1, 4, 4)], scale
    yield [[t, t + 1.5, t - 0.5] for t in (2.0, 5.0, 1.0, 4.0)], None
    yield [[1.0, 2.0, 4.0]] * 5, scale
    yield [[3.0, float(t)] for t in (1, 2, 5, 4, 4, 2)], scale
    yield [[1.0, 5.0], [5.0, 1.0], [1.0, 5.0], [5.0, 1.0]], scale
    # Large scores that differ little.
    yield [[1e6 + score for score in row] for row in table(12, 4, 8, 1, 0.5, 0.5, "marks")], None
    # So many that quantiles have degrees of freedom in thousands.
    yield table(300, 5, 1, 1, 0.3, 0.8, "scale"), scale
    # Two groups that no rater connects, and a rater and a target without a score.
    yield [[1.0, 2.0, None, None], [3.0, 5.0, None, None], [None, None, 2.0, 4.0], [None, None, 6.0, 5.0]], None
    yield [[1.0, None, 3.0], [None] * 3, [2.0, None, 2.0], [4.0, None, 5.0]], None


def case(cells, scale):
    flat = [score for row in cells for score in row]
    result = {"cells": cells, "scale": scale, "alpha": alphas(cells), "components": components(cells)}
    if None not in flat:
        result["icc"] = iccs(cells)
        result["kendall"] = kendall(cells)
        result["fleiss"] = fleiss(cells)
    if len(cells[0]) == 2:
        pairs = [row for row in cells if None not in row]
        scale = scale or sorted({score for score in flat if score is not None})
        result["kappa"] = kappas(pairs, scale)
        result["limits"] = bland_altman(pairs)
        result["concordance"] = concordance(pairs)
    return result


def repeats():
    for number in range(30):
        same = number % 2 == 0
        targets = []
        for _ in range(int(random.integers(2, 15))):
            true = random.normal(5, 2)
            sizes = random.integers(1, 6, 2)
            sizes = [sizes[0], sizes[0]] if same else sizes
            targets.append([np.round(random.normal(true, 0.5, size), 2).tolist() for size in sizes])
        yield {
            "targets": targets,
            "constant": repeated_constant(targets),
            "varying": repeated_varying(targets) if same else None,
        }


# ---- intervals by drawing ----

DRAWS, TIMES = 2000, 25


def ends(rows, figure):
    """The ends of the percentile interval, each with its standard deviation from run to run."""
    found = []
    for _ in range(TIMES):
        drawn = [figure([rows[at] for at in random.integers(0, len(rows), len(rows))]) for _ in range(DRAWS)]
        drawn = [value for value in drawn if value is not None and np.isfinite(value)]
        found.append(np.quantile(drawn, [0.025, 0.975]))
    found = np.array(found)
    return {"mean": found.mean(axis=0).tolist(), "error": found.std(axis=0, ddof=1).tolist()}


def agreement_single(rows):
    x = np.array(rows)
    n, k = x.shape
    of_rows, of_columns = x.mean(axis=1), x.mean(axis=0)
    between = k * of_rows.var(ddof=1)
    judges = n * of_columns.var(ddof=1)
    rest = x - of_rows[:, None] - of_columns + x.mean()
    error = (rest**2).sum() / ((n - 1) * (k - 1))
    under = between + (k - 1) * error + k * (judges - error) / n
    return (between - error) / under if under > 0 else None


def ordinal(cells):
    found = alphas(cells)
    return found and found["ordinal"]


def drawn():
    for targets, raters in ((12, 3), (40, 5)):
        rows = table(targets, raters, 2, 1.5, 0.5, 1, "marks")
        yield {"figure": "icc", "cells": rows, "draws": DRAWS, "times": TIMES, **ends(rows, agreement_single)}
    rows = with_gaps(table(15, 4, 1, 1.2, 0.3, 0.7, "scale"), 0.15)
    yield {"figure": "alpha", "cells": rows, "draws": DRAWS, "times": TIMES, **ends(rows, ordinal)}


def plain(value):
    """Whole numbers without their point, so that the file stays small."""
    if isinstance(value, dict):
        return {key: plain(one) for key, one in value.items()}
    if isinstance(value, (list, tuple)):
        return [plain(one) for one in value]
    if value is None or isinstance(value, str):
        return value
    value = float(value)
    assert np.isfinite(value)
    return int(value) if value == int(value) and abs(value) < 1e15 else value


if __name__ == "__main__":
    everything = {
        "tables": [case(cells, scale) for cells, scale in tables()],
        "repeats": list(repeats()),
        "drawn": list(drawn()),
    }
    text = json.dumps(plain(everything), separators=(",", ":"), allow_nan=False)
    Path(sys.argv[1], "agreement.json").write_text(text + "\n")
