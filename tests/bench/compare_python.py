#!/usr/bin/env python3
"""The same Monte Carlo study scripted with scipy, for speed and for agreement.

usage: compare_python.py BENCH_STUDIES [DRAWS]

Reads the water phases that `bench_studies --dump` drew (citric acid, alginate, soda water), solves
each with scipy's brentq on the charge balance with Davies activities, and compares the pH and the
time of one evaluation. The script does the chemistry only; the program's time is that of the whole
pipeline, so the ratio is on the careful side. Constants: acids from NIST SRD 46 (doi
10.18434/M32154), activity coefficients Davies 1962. Exit code 1 if a pH differs by more than 1e-6
or the ratio is below 100.
"""
import csv
import math
import subprocess
import sys
import time

from scipy.optimize import brentq

DAVIES_A = 0.509
PKW = 13.997
CITRIC = (3.128, 4.761, 6.396)
CARBONIC = (6.352, 10.329)


def log_gamma(charge, ionic):
    ionic = min(ionic, 0.5)
    root = math.sqrt(ionic)
    return -DAVIES_A * charge * charge * (root / (1 + root) - 0.3 * ionic)


def shares(pkas, ph, ionic, full_charge, of_concentrations):
    """Share of each state of an acid, most protonated first, and its charge."""
    log_beta = [0.0]
    for i, pka in enumerate(pkas):
        charge = full_charge + len(pkas) - i  # of the state before this proton leaves
        # Ka' on concentrations, with the activity of H+ from pH; a gum's constant is one of
        # concentrations already.
        log_ka = (-pka + log_gamma(1, ionic) if of_concentrations else
                  -pka + log_gamma(charge, ionic) - log_gamma(charge - 1, ionic))
        log_beta.append(log_beta[-1] + log_ka + ph)
    top = max(log_beta)
    weights = [10 ** (b - top) for b in log_beta]
    total = sum(weights)
    charges = [full_charge + len(pkas) - i for i in range(len(pkas) + 1)]
    return [(w / total, z) for w, z in zip(weights, charges)]


def ions(row, ph, ionic):
    """Concentration and charge of everything dissolved."""
    g1 = log_gamma(1, ionic)
    listed = [(10 ** (-ph - g1), 1), (10 ** (ph - PKW - g1), -1), (row["sodium"], 1),
              (row["chloride"], -1)]
    for amount, pkas, in_salt in ((row["citrate"], CITRIC, False),
                                  (row["carbonate"], CARBONIC, False),
                                  (row["uronate"], (row["gum_pka"],), True)):
        listed += [(amount * share, z)
                   for share, z in shares(pkas, ph, ionic, -len(pkas), in_salt)]
    return listed


def solve(row):
    ionic = 0.01
    for _ in range(100):
        ph = brentq(lambda x: sum(c * z for c, z in ions(row, x, ionic)), 0, 14, xtol=1e-12)
        now = 0.5 * sum(c * z * z for c, z in ions(row, ph, ionic))
        if abs(now - ionic) < 1e-12:
            break
        ionic = now
    return ph + row["ph_bias"]


def main():
    draws = sys.argv[2] if len(sys.argv) > 2 else "2000"
    text = subprocess.run([sys.argv[1], "--dump", draws], check=True, capture_output=True,
                          text=True).stdout.splitlines()
    ours_us = float(text[-1].split(",")[1])
    rows = [{k: float(v) for k, v in row.items()} for row in csv.DictReader(text[:-1])]
    start = time.perf_counter()
    theirs = [solve(row) for row in rows]
    theirs_us = 1e6 * (time.perf_counter() - start) / len(rows)
    worst = max(abs(a - row["ph"]) for a, row in zip(theirs, rows))
    ratio = theirs_us / ours_us
    print(f"{len(rows)} draws: largest pH difference {worst:.1e}; one evaluation {theirs_us:.0f} us "
          f"in Python, {ours_us:.1f} us here, ratio {ratio:.0f}")
    return 0 if worst < 1e-6 and ratio >= 100 else 1


if __name__ == "__main__":
    sys.exit(main())
