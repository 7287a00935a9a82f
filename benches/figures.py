"""The figures of src/bin/figures.rs by pingouin and krippendorff, one line of milliseconds each.

pingouin works all six correlations out with their intervals in each draw; it gives no one alone.
"""

import time
import warnings

import krippendorff
import numpy as np
import pandas as pd
import pingouin

warnings.filterwarnings("ignore")
random = np.random.default_rng(1)
# A draw takes so long that only some of the 2,000 are made; the time is that of all.
DRAWS, MADE = 2000, 50


def scores(targets, raters):
    true, strict = random.integers(0, 6, (targets, 1)), random.integers(0, 3, (1, raters))
    return (true + strict + random.integers(0, 4, (targets, raters))).astype(float)


def correlation(table):
    targets, raters = table.shape
    frame = pd.DataFrame(
        {
            "target": np.repeat(np.arange(targets), raters),
            "rater": np.tile(np.arange(raters), targets),
            "score": table.ravel(),
        }
    )
    return pingouin.intraclass_corr(frame, "target", "rater", "score")["ICC"].iloc[1]


table = scores(200, 6)
correlation(table)
since = time.perf_counter()
for _ in range(MADE):
    correlation(table[random.integers(0, len(table), len(table))])
took = (time.perf_counter() - since) * 1e3 * DRAWS / MADE
print(f"ICC 2,1 with 2,000 draws on 200 x 6, pingouin ({MADE} draws timed): {took:.1f} ms")

table = scores(500, 8)
table[random.random(table.shape) < 0.1] = np.nan
times = 10
since = time.perf_counter()
for _ in range(times):
    krippendorff.alpha(table.T, level_of_measurement="ordinal")
took = (time.perf_counter() - since) * 1e3 / times
print(f"alpha, ordinal, on 500 x 8 with gaps, krippendorff: {took:.3f} ms")
