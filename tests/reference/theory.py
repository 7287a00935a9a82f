"""Recomputes figures of measuring, generalizability, test theory and pass marks by other means.

Writes theory.json into the folder named first: for each figure a list of cases, each with its input and with what
SciPy, statsmodels, pingouin or matrices written out give; null where the figure does not exist.
The data are drawn with a fixed seed; marks are rounded, so that there are ties.
"""

import json
import sys
import warnings
from pathlib import Path

import numpy as np
import pandas as pd
import pingouin
import statsmodels.api as sm
import statsmodels.formula.api as smf
from scipy import integrate, optimize, stats
from statsmodels.stats.anova import anova_lm

warnings.simplefilter("ignore")
rng = np.random.default_rng(20260101)


def numbers(values):
    return [float(one) for one in values]


# --- gauge ------------------------------------------------------------------------------------


def range_above(r, size):
    inner = lambda x: size * stats.norm.pdf(x) * (stats.norm.cdf(x + r) - stats.norm.cdf(x)) ** (size - 1)
    return 1 - integrate.quad(inner, -8.5, 8.5, epsabs=1e-13, epsrel=1e-12, limit=400)[0]


def range_moments(size):
    first = integrate.quad(lambda r: range_above(r, size), 0, 14, epsabs=1e-12, limit=400)[0]
    second = integrate.quad(lambda r: 2 * r * range_above(r, size), 0, 14, epsabs=1e-12, limit=400)[0]
    return first, second


def ranges():
    cases = []
    for size in [2, 3, 4, 5, 7, 10, 20]:
        first, second = range_moments(size)
        cases.append({"size": size, "mean": first, "deviation": float(np.sqrt(second - first**2)), "divisor": float(np.sqrt(second))})
    return cases


def gauge():
    cases = []
    for at in range(40):
        n, k, r = (int(rng.integers(2, top)) for top in (9, 5, 5))
        part, operator, both, cell = rng.choice([0, 0.1, 0.5, 2], 4)
        cell = max(cell, 0.1)
        y = rng.normal(0, part, (n, 1, 1)) + rng.normal(0, operator, (1, k, 1)) + rng.normal(0, both, (n, k, 1))
        y = np.round(10 + y + rng.normal(0, cell, (n, k, r)), 1)
        if at % 20 == 19:
            y = np.full((n, k, r), 10.1)
        case = {"readings": y.tolist()}
        index = np.indices(y.shape).reshape(3, -1)
        frame = pd.DataFrame({"y": y.ravel(), "p": index[0], "o": index[1]})
        within = float(((y - y.mean(2, keepdims=True)) ** 2).sum())
        if within < 1e-9:
            case["f"] = None
            cases.append(case)
            continue
        table = anova_lm(smf.ols("y ~ C(p) * C(o)", frame).fit())
        squares = table["sum_sq"].to_numpy()
        free = table["df"].to_numpy()
        mean = squares / free
        case["squares"] = numbers(squares)
        case["f"], case["p"] = float(mean[2] / mean[3]), float(table["PR(>F)"].iloc[2])
        # Kept: Montgomery and Runger; pooled: interaction and error are one.
        kept = [mean[3], (mean[1] - mean[2]) / (n * r), (mean[2] - mean[3]) / r, (mean[0] - mean[2]) / (k * r)]
        pool = (squares[2] + squares[3]) / (free[2] + free[3])
        pooled = [pool, (mean[1] - pool) / (n * r), (mean[0] - pool) / (k * r)]
        case["kept"], case["pooled"] = numbers(kept), numbers(pooled)
        cases.append(case)
    return cases


def uncertainty():
    cases = []
    for _ in range(15):
        count = int(rng.integers(1, 6))
        standard = np.round(rng.exponential(1, count) + 0.01, 3)
        free = rng.integers(1, 60, count).astype(float)
        level = float(rng.choice([0.9, 0.95, 0.99, 0.999]))
        u = float(np.sqrt((standard**2).sum()))
        nu = float(u**4 / (standard**4 / free).sum())
        k = float(stats.t.ppf(0.5 + level / 2, np.floor(nu + 1e-12)))
        cases.append({"standard": standard.tolist(), "freedom": free.tolist(), "level": level, "u": u, "nu": nu, "k": k})
    return cases


def linearity():
    cases = []
    for _ in range(15):
        pieces = [
            (float(size), np.round(size + rng.normal(0.1 - 0.02 * size, 0.2, int(rng.integers(1, 7))), 2).tolist())
            for size in np.round(rng.uniform(5, 40, int(rng.integers(2, 7))), 1)
        ]
        x = np.concatenate([[size] * len(readings) for size, readings in pieces])
        y = np.concatenate([readings for _, readings in pieces]) - x
        case = {"pieces": pieces, "line": None}
        if len(x) >= 3 and np.ptp(x) > 0:
            fit = sm.OLS(y, sm.add_constant(x)).fit()
            seen = fit.get_prediction([[1, x.mean()]]).conf_int(alpha=0.1)[0]
            case["line"] = numbers([fit.params[1], fit.params[0], np.sqrt(fit.scale), fit.rsquared])
            case["slope"] = numbers(fit.conf_int(alpha=0.1)[1])
            case["middle"] = numbers(seen)
        cases.append(case)
    return cases


# --- generalizability ---------------------------------------------------------------------------


def indicator(labels):
    _, at = np.unique(labels, axis=0, return_inverse=True)
    return np.eye(at.max() + 1)[at.ravel()]


def by_traces(y, labels):
    """Components that make y'Py, P the projections of each effect in turn, equal to their
    expectations: the traces of P with each effect's covariance."""
    count = len(y)
    covariances = [indicator(label) @ indicator(label).T for label in labels]
    space = np.full((count, 1), count**-0.5)
    quadratic = []
    for label in labels:
        z = indicator(label)
        z = z - space @ (space.T @ z)
        left, size, _ = np.linalg.svd(z, full_matrices=False)
        basis = left[:, size > 1e-9 * max(1, size.max())]
        quadratic.append(basis)
        space = np.hstack([space, basis])
    squares = [float(((basis.T @ y) ** 2).sum()) for basis in quadratic]
    expected = [[np.trace(basis.T @ cov @ basis) for cov in covariances] for basis in quadratic]
    return squares, np.linalg.solve(np.array(expected), np.array(squares))


def nested(kind, shape):
    """Index labels of each effect, those of fewer facets first, in the order in which they are told."""
    index = np.indices(shape).reshape(len(shape), -1).T
    effects = {
        "p x i": [[0], [1], [0, 1]],
        "p x r x i": [[0], [1], [2], [0, 1], [0, 2], [1, 2], [0, 1, 2]],
        "p x (r:t)": [[0], [1], [0, 1], [1, 2], [0, 1, 2]],
        "r:p": [[0], [0, 1]],
    }[kind]
    return [index[:, effect] for effect in effects], effects


def general():
    cases = []
    for kind, facets, count in [("p x i", 2, 15), ("p x r x i", 3, 15), ("p x (r:t)", 3, 15), ("r:p", 2, 10)]:
        for _ in range(count):
            shape = tuple(int(one) for one in rng.integers(2, 6, facets))
            labels, effects = nested(kind, shape)
            y = 10.0
            for label in labels:
                z = indicator(label)
                y = y + z @ rng.normal(0, rng.choice([0, 0.5, 1, 2]), z.shape[1])
            y = np.round(y + rng.normal(0, 0.3, len(y)))
            squares, found = by_traces(y, labels)
            plan = [int(one) for one in rng.integers(1, 6, facets - 1)]
            floored = np.maximum(found, 0)
            times = [np.prod([plan[f - 1] for f in effect if f > 0]) for effect in effects]
            own = [0 in effect for effect in effects]
            shares = floored / times
            relative = sum(s for s, is_own in zip(shares[1:], own[1:]) if is_own)
            absolute = shares[1:].sum()
            case = {"kind": kind, "shape": shape, "marks": numbers(y), "squares": squares, "components": numbers(found), "plan": plan}
            case["decision"] = None
            if shares[0] + relative > 1e-9:
                case["decision"] = numbers([relative, absolute, shares[0] / (shares[0] + relative), shares[0] / (shares[0] + absolute)])
            cases.append(case)
    return cases


def restricted():
    """Restricted maximum likelihood, which balanced data with no negative estimate give too."""
    cases = []
    while len(cases) < 6:
        n, m = int(rng.integers(6, 10)), int(rng.integers(4, 7))
        y = rng.normal(0, 2, (n, 1)) + rng.normal(0, 1.5, (1, m)) + rng.normal(0, 1, (n, m))
        y = np.round(y, 1)
        index = np.indices(y.shape).reshape(2, -1)
        frame = pd.DataFrame({"y": y.ravel(), "p": index[0], "i": index[1], "one": 1})
        parts = {"p": "0 + C(p)", "i": "0 + C(i)"}
        fit = smf.mixedlm("y ~ 1", frame, groups="one", vc_formula=parts, re_formula="0").fit(reml=True, method="lbfgs", gtol=1e-9)
        found = dict(zip(fit.model.exog_vc.names, fit.vcomp))
        if min(found.values()) < 0.05:
            continue
        cases.append({"marks": y.tolist(), "components": numbers([found["p"], found["i"], fit.scale])})
    return cases


def henderson(y, labels):
    """As by traces, but with the sums of squares about the mean of each effect by itself
    (Henderson 1953, method 1), and of all marks."""
    count = len(y)
    covariances = [indicator(label) @ indicator(label).T for label in labels] + [np.eye(count)]
    mean = np.full((count, count), 1 / count)
    forms = []
    for label in labels:
        z = indicator(label)
        forms.append(z @ np.linalg.inv(z.T @ z) @ z.T - mean)
    forms.append(np.eye(count) - mean)
    expected = [[np.trace(form @ cov) for cov in covariances] for form in forms]
    if abs(np.linalg.det(expected)) < 1e-6:
        return None
    return numbers(np.linalg.solve(np.array(expected), [y @ form @ y for form in forms]))


def gaps():
    cases = []
    for _ in range(25):
        n, m = int(rng.integers(2, 9)), int(rng.integers(2, 6))
        y = np.round(10 + rng.normal(0, 2, (n, 1)) + rng.normal(0, 1, (1, m)) + rng.normal(0, 1, (n, m)))
        here = rng.random((n, m)) < rng.choice([0.45, 0.7, 0.9])
        person, item = np.nonzero(here)
        case = {"rows": [[float(v) if h else None for v, h in zip(*pair)] for pair in zip(y, here)], "components": None}
        persons, items = len(set(person)), len(set(item))
        if min(persons, items) >= 2 and len(person) > max(persons, items):
            case["components"] = henderson(y[here], [person[:, None], item[:, None]])
        cases.append(case)
    return cases


# --- test theory --------------------------------------------------------------------------------


def one_factor(correlations):
    """Maximum likelihood by a general minimizer over loadings and log unique variances."""
    count = len(correlations)

    def discrepancy(x):
        model = np.outer(x[:count], x[:count]) + np.diag(np.exp(x[count:]))
        sign, log = np.linalg.slogdet(model)
        inverse = np.linalg.inv(model)
        slope = inverse @ (model - correlations) @ inverse
        gradient = np.concatenate([2 * slope @ x[:count], np.diag(slope) * np.exp(x[count:])])
        return log + np.trace(inverse @ correlations), gradient

    values, axes = np.linalg.eigh(correlations)
    start = np.clip(axes[:, -1] * np.sqrt(values[-1]), -0.9, 0.9)
    x0 = np.concatenate([start, np.log(1 - start**2)])
    found = optimize.minimize(discrepancy, x0, jac=True, method="BFGS", options={"gtol": 1e-10, "maxiter": 5000})
    loadings, own = found.x[:count], np.exp(found.x[count:])
    if own.min() < 0.01 or np.abs(found.jac).max() > 1e-5:
        return None
    return loadings * (1 if loadings.sum() >= 0 else -1), own


def items():
    cases = []
    for at in range(45):
        n, k = int(rng.integers(2, 40)), int(rng.integers(2, 7))
        y = rng.normal(0, 1, (n, 1)) * rng.uniform(0.2, 1.5, k) + rng.normal(0, 1, (n, k))
        y = np.round(np.clip(5 + 2 * y, 0, 10))
        if at % 4 == 1:
            y = (y > 5).astype(float)
        if at % 5 == 2:
            y[:, 0] = 3
        if at % 15 == 14:
            y[:] = y[0]
        total = y.sum(1)
        case = {"marks": y.tolist(), "alpha": None, "omega": None}
        if total.var() > 0:
            alpha, interval = pingouin.cronbach_alpha(pd.DataFrame(y), ci=0.95)
            closer = k / (k - 1) * (1 - y.var(0, ddof=1).sum() / total.var(ddof=1))
            assert abs(alpha - closer) < 1e-9
            # pingouin rounds the ends to three digits.
            free = (n - 1, (n - 1) * (k - 1))
            ends = [1 - (1 - closer) * stats.f.isf(tail, *free) for tail in (0.025, 0.975)]
            assert np.allclose(np.round(ends, 3), interval, atol=1.1e-3), (ends, interval)
            case["alpha"] = numbers([closer, *ends])
        rest = [total - y[:, j] for j in range(k)]
        varies = [y[:, j].var() > 0 and rest[j].var() > 0 for j in range(k)]
        case["with_rest"] = [float(np.corrcoef(y[:, j], rest[j])[0, 1]) if varies[j] else None for j in range(k)]
        without = lambda j: np.delete(y, j, 1)
        exists = lambda j: k > 2 and without(j).sum(1).var() > 0
        one = lambda j: (k - 1) / (k - 2) * (1 - without(j).var(0, ddof=1).sum() / rest[j].var(ddof=1))
        case["without"] = [float(one(j)) if exists(j) else None for j in range(k)]
        case["errors"] = numbers(np.sqrt(k * y.var(1, ddof=1)))
        if k >= 3 and n > k + 3 and all(y.var(0) > 0):
            correlations = np.corrcoef(y.T)
            fit = one_factor(correlations) if np.linalg.eigvalsh(correlations)[0] > 1e-3 else None
            if fit:
                loadings, own = fit
                sd = y.std(0, ddof=1)
                common = (loadings * sd).sum() ** 2
                case["omega"] = float(common / (common + (own * sd**2).sum()))
                case["loadings"] = numbers(loadings)
        cases.append(case)
    return cases


def passing():
    cases = []
    for _ in range(20):
        mean, sd = float(np.round(rng.uniform(40, 80), 1)), float(np.round(rng.uniform(3, 20), 1))
        reliability = float(np.round(rng.uniform(0.05, 0.98), 2))
        limit, step = float(rng.integers(40, 70)), float(rng.choice([0, 0.5, 1]))
        z = (limit - step / 2 - mean) / sd

        def both(a, b, r):
            inner = lambda x: stats.norm.pdf(x) * stats.norm.cdf((b - r * x) / np.sqrt(1 - r * r))
            return integrate.quad(inner, -12, a, epsabs=1e-14, epsrel=1e-12, limit=500)[0]

        fail = stats.norm.cdf(z)
        consistent = 1 - 2 * (fail - both(z, z, reliability))
        chance = fail**2 + (1 - fail) ** 2
        root = np.sqrt(reliability)
        truly = both(z, z / root, root)
        wrong = [stats.norm.cdf(z / root) - truly, fail - truly]
        case = {"given": [mean, sd, reliability, limit, step], "consistency": consistent}
        case["kappa"] = (consistent - chance) / (1 - chance) if chance < 1 - 1e-6 else None
        case["wrong"] = numbers(wrong)
        cases.append(case)
    return cases


# --- pass marks ---------------------------------------------------------------------------------

DRAWS, THEIRS, LEVEL = 20000, 2000, 0.9


def bands(drawn):
    """Where the ends of a percentile interval from THEIRS draws lie, four Monte Carlo standard errors
    of the share below them to either side."""
    drawn = np.sort(drawn)
    found = []
    for share in [0.5 - LEVEL / 2, 0.5 + LEVEL / 2]:
        off = 4 * np.sqrt(share * (1 - share) * (1 / len(drawn) + 1 / THEIRS))
        found.append(numbers(np.quantile(drawn, [max(share - off, 0), min(share + off, 1)])))
    return found


def passmarks():
    cases = []
    for _ in range(12):
        n = int(rng.integers(5, 30))
        ratings = rng.integers(1, 6, n).astype(float)
        totals = np.round(25 + 10 * ratings + rng.normal(0, 5, n))
        case = {"totals": totals.tolist(), "ratings": ratings.tolist(), "borderline": 2.0, "group": None}
        fit = stats.linregress(ratings, totals)
        x = np.array([1, 2.0])
        line = sm.OLS(totals, sm.add_constant(ratings)).fit()
        error = np.sqrt(x @ line.cov_params() @ x)
        case["regression"] = numbers([fit.slope, fit.intercept, fit.intercept + 2 * fit.slope, error])
        at = rng.integers(0, n, (DRAWS, n))
        xs, ys = ratings[at], totals[at]
        dx = xs - xs.mean(1, keepdims=True)
        sxx = (dx**2).sum(1)
        fine = sxx > 0
        slope = (dx * ys).sum(1)[fine] / sxx[fine]
        case["regression_bands"] = bands(ys.mean(1)[fine] + slope * (2 - xs.mean(1)[fine]))
        own = totals[ratings == 2]
        if len(own) >= 2:
            case["group"] = numbers([own.mean(), np.median(own)])
            drawn = own[rng.integers(0, len(own), (DRAWS, len(own)))]
            case["mean_bands"], case["median_bands"] = bands(drawn.mean(1)), bands(np.median(drawn, 1))
        judges, count = int(rng.integers(3, 12)), int(rng.integers(1, 6))
        shares = np.round(np.clip(rng.normal(0.6, 0.15, (judges, count)), 0, 1), 2)
        most = rng.integers(1, 11, count).astype(float)
        cuts = shares @ most
        case["shares"], case["most"] = shares.tolist(), most.tolist()
        case["angoff"] = numbers([cuts.mean(), cuts.std(ddof=1), stats.sem(cuts)])
        case["angoff_bands"] = bands(cuts[rng.integers(0, judges, (DRAWS, judges))].mean(1))
        cases.append(case)
    return cases


if __name__ == "__main__":
    parts = [ranges, gauge, uncertainty, linearity, general, restricted, gaps, items, passing, passmarks]
    with Path(sys.argv[1], "theory.json").open("w") as out:
        json.dump({part.__name__: part() for part in parts}, out, separators=(",", ":"), allow_nan=False)
        out.write("\n")
