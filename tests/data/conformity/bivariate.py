#!/usr/bin/env python3
"""Two criteria whose readings share the zero of one caliper, by SciPy's bivariate normal.

python3 bivariate.py > bivariate.json

Needs scipy. Each reading has a standard uncertainty of its own and the shared one; the
probability that both lie in their bands, and that of each number of marks of the two.
"""
import json

from scipy import stats

CASES = [
    # mean, own u, limits of the first; of the second; shared u
    ((20.4, 0.25, (19.5, 20.5)), (20.45, 0.25, (19.5, 20.5)), 0.3),
    ((20.4, 0.2, (19.5, 20.5)), (19.6, 0.2, (19.5, 20.5)), 0.3),
    ((20.2, 0.3, (19.8, 20.2)), (20.1, 0.3, (19.9, 20.1)), 0.05),
    ((20.0, 0.5, (19.5, 20.5)), (20.0, 0.5, (19.5, 20.5)), 1.5),
]


def box(normal, low, high):
    """Probability of a rectangle by inclusion and exclusion."""
    return (
        normal.cdf([high[0], high[1]])
        - normal.cdf([low[0], high[1]])
        - normal.cdf([high[0], low[1]])
        + normal.cdf([low[0], low[1]])
    )


def main():
    found = []
    for (a, ua, (al, ah)), (b, ub, (bl, bh)), shared in CASES:
        covariance = [[ua**2 + shared**2, shared**2], [shared**2, ub**2 + shared**2]]
        normal = stats.multivariate_normal([a, b], covariance, abseps=1e-12, releps=1e-12)
        both = box(normal, (al, bl), (ah, bh))
        first = stats.norm(a, covariance[0][0] ** 0.5)
        second = stats.norm(b, covariance[1][1] ** 0.5)
        one = first.cdf(ah) - first.cdf(al)
        two = second.cdf(bh) - second.cdf(bl)
        found.append(
            {
                "readings": [a, b],
                "own": [ua, ub],
                "limits": [[al, ah], [bl, bh]],
                "shared": shared,
                "both": both,
                "first": one,
                "second": two,
            }
        )
    print(json.dumps(found, indent=1))


main()
