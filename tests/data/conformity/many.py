#!/usr/bin/env python3
"""Many criteria whose readings share the zero of one caliper, by SciPy's adaptive quadrature.

python3 many.py > many.json

Needs scipy. Each reading lies at the middle of a band of half-width `within`, with a
standard uncertainty of its own and the shared one. Of the criteria, `two_sided` have the
band, the others only its upper limit. The probability that all lie in their bands.
"""
import json
import math

from scipy import integrate, stats

CASES = [
    # criteria with a band, with an upper limit only; own u, shared u, half-width
    (1, 1, 0.3, 0.3, 0.4),
    (5, 0, 0.3, 0.3, 0.4),
    (25, 0, 0.3, 0.3, 0.6),
    (10, 15, 0.3, 0.3, 0.5),
    (0, 25, 0.1, 0.3, 0.2),
    (25, 0, 0.1, 0.3, 0.3),
    (25, 0, 0.3, 0.3, 1.0),
]


def main():
    found = []
    for banded, limited, own, shared, within in CASES:

        def all_in(z):
            off = shared * z
            upper = stats.norm.cdf((within - off) / own)
            lower = stats.norm.cdf((-within - off) / own)
            return stats.norm.pdf(z) * (upper - lower) ** banded * upper**limited

        edge = within / shared
        points = sorted({-edge, 0.0, edge})
        value, _ = integrate.quad(
            all_in, -9, 9, points=points, epsabs=1e-14, epsrel=1e-12, limit=2000
        )
        assert math.isfinite(value)
        found.append(
            {
                "two_sided": banded,
                "one_sided": limited,
                "own": own,
                "shared": shared,
                "within": within,
                "all": value,
            }
        )
    print(json.dumps(found, indent=1))


main()
