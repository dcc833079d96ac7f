#!/usr/bin/env python3
"""Compares the statistics core with scipy and with the certified values of NIST StRD Norris.

usage: statistics_check.py DUMP_STATISTICS_BINARY

Needs scipy (Debian: python3-scipy, which ships Norris.dat). Exits 1 if a difference exceeds its
tolerance and 77 if scipy is missing.
"""

import math
import pathlib
import re
import subprocess
import sys

try:
    import numpy as np
    import scipy.special
    import scipy.stats
except ImportError:
    print("scipy is not installed: nothing was checked")
    sys.exit(77)

failures = 0


def check(name, differences, tolerance, count_at_least=1):
    """Prints the largest difference and remembers a failure; too few checked is a failure too."""
    global failures
    worst = max((abs(d) for d in differences), default=math.inf)
    passed = worst <= tolerance and len(differences) >= count_at_least
    failures += not passed
    print(f"{'ok  ' if passed else 'FAIL'} {name}: largest difference {worst:.2e} "
          f"of {tolerance:.0e}, {len(differences)} compared")


def relative(value, expected):
    return value - expected if expected == 0 else value / expected - 1


def norris():
    """Data (y, x) and certified values, from the file as NIST publishes it."""
    path = (pathlib.Path(scipy.stats.__file__).parent / "tests" / "data" / "nist_linregress" /
            "Norris.dat")
    if not path.exists():
        return None
    lines = path.read_text().splitlines()
    rows = [tuple(map(float, line.split())) for line in lines[60:96]]
    found = dict(re.findall(r"^ +(B0|B1|Standard Deviation) +(.+)$", "\n".join(lines[30:46]), re.M))
    (b0, sd0), (b1, sd1) = (map(float, found[name].split()) for name in ("B0", "B1"))
    return rows, [b0, b1, sd0, sd1, float(found["Standard Deviation"])]


def binomial_ranks(n, p):
    """Ranks (from 0) of the narrowest order statistics with at most 2.5 % outside each end."""
    law = scipy.stats.binom(n, p)
    low = max((r for r in range(n) if law.cdf(r) <= 0.025), default=None)
    high = min((r for r in range(n) if law.sf(r - 1) <= 0.025), default=None)
    # Rank r lies below the quantile if more than r values do.
    high = None if high is None else high - 1 if high - 1 < n else None
    return low, high


def main(binary):
    dataset = norris()
    if dataset is None:
        print("scipy is here but Norris.dat is not (Debian ships it in python3-scipy)")
        rows, certified = [(2.0 * x + (x % 3), float(x)) for x in range(12)], None
    else:
        rows, certified = dataset
    text = "".join(f"{x!r} {y!r}\n" for y, x in rows)
    output = subprocess.run([binary], input=text, capture_output=True, text=True, check=True).stdout
    got = {}
    for line in output.splitlines():
        name, *numbers = line.split()
        got.setdefault(name, []).append([float(number) for number in numbers])

    check("normal quantile, scipy.special.ndtri, relative",
          [relative(z, scipy.special.ndtri(p)) for p, z in got["normal"]], 1e-12, 18)
    # t.ppf of scipy 1.10 is itself off by up to 3e-9 (against mpmath): the tail area is sharper.
    check("Student t quantile, scipy.stats.t.ppf, relative",
          [relative(t, scipy.stats.t.ppf(p, nu)) for p, nu, t in got["student"]], 1e-6, 80)
    check("Student t tail area of the quantile, relative",
          [relative(scipy.stats.t.sf(abs(t), nu), min(p, 1 - p)) for p, nu, t in got["student"]],
          1e-9, 80)
    check("log gamma, scipy.special.gammaln, over the larger of 1 and itself",
          [(value - scipy.special.gammaln(x)) / max(1, abs(value)) for x, value in got["gamma"]],
          1e-14, 14)
    check("incomplete beta, scipy.special.betainc, absolute",
          [value - scipy.special.betainc(a, b, x) for a, b, x, value in got["beta"]], 1e-9, 80)

    x, y = np.array(got["sample"]).T
    check("Spearman with ties, scipy.stats.spearmanr",
          [got["spearman"][0][0] - scipy.stats.spearmanr(x, y)[0]], 1e-12)
    check("mean and sd, numpy",
          [got["moments"][0][0] - x.mean(), got["moments"][0][1] - x.std(ddof=1)], 1e-13, 2)
    check("quantile, numpy (linear)",
          [value - np.quantile(x, p) for p, value, _, _ in got["quantile"]], 1e-14, 4)
    ordered = np.sort(x)
    ends = []
    for p, _, low, high in got["quantile"]:
        low_rank, high_rank = binomial_ranks(len(x), p)
        ends += [low - ordered[low_rank], high - ordered[high_rank]]
    check("interval of a quantile, scipy.stats.binom", ends, 0.0, 8)

    line = got["line"][0]
    if certified is not None:
        check("Norris, NIST StRD certified values, relative",
              [relative(value, expected) for value, expected in zip(line, certified)], 1e-8, 5)
    readings = np.array([row[::-1] for row in rows])
    design = np.column_stack([np.ones(len(rows)), readings[:, 0]])
    hat = design @ np.linalg.inv(design.T @ design) @ design.T
    check("leverage, numpy hat matrix",
          [row[1] - hat[i, i] for i, row in enumerate(got["reading"])], 1e-9, len(rows))
    deleted = []
    for i in range(len(rows)):
        rest = np.delete(np.arange(len(rows)), i)
        fit, rss, *_ = np.linalg.lstsq(design[rest], readings[rest, 1], rcond=None)
        inverse = np.linalg.inv(design[rest].T @ design[rest])
        error = math.sqrt(rss[0] / (len(rest) - 2) * (1 + design[i] @ inverse @ design[i]))
        deleted.append((design[i] @ fit - readings[i, 1]) / error)
    check("studentised residual, numpy fit without the reading",
          [row[2] - t for row, t in zip(got["reading"], deleted)], 1e-6, len(rows))
    return 1 if failures else 0


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    sys.exit(main(sys.argv[1]))
