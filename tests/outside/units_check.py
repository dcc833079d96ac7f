#!/usr/bin/env python3
"""Compares hardness factors and sugar densities with GNU units.

Usage: units_check.py DUMP_PROPERTIES
Exit 0: all agree; 1: a difference beyond its tolerance; 77: GNU units is not installed.

GNU units carries the hardness units `clarkdegree` and `gpg`, and `brix()`, the table of National
Bureau of Standards Circular 440. That table is apparent density, weighed in air with brass of
8400 kg/m3, so it is brought to vacuum first (air 1.2 kg/m3).
"""
import shutil
import subprocess
import sys

RELATIVE_TOLERANCE_FACTOR = 1e-7  # both are exact by definition; units prints eight figures
TOLERANCE_TO_60_KG_PER_M3 = 0.2
TOLERANCE_TO_85_KG_PER_M3 = 0.7


def ask_units(have, want):
    out = subprocess.run(["units", "--terse", "--output-format", "%.12g", have, want],
                         capture_output=True, text=True, check=True)
    return float(out.stdout.split()[0])


def to_vacuum(apparent_kg_per_m3):
    return apparent_kg_per_m3 * (1 - 1.2 / 8400) + 1.2


def main():
    if len(sys.argv) != 2:
        print(__doc__, file=sys.stderr)
        return 2
    if shutil.which("units") is None:
        print("GNU units is not installed: skipped")
        return 77
    dump = subprocess.run([sys.argv[1]], capture_output=True, text=True, check=True).stdout
    ours = {name: float(value) for name, value in (line.split() for line in dump.splitlines())}
    failures = 0

    for name, unit in (("hardness_english_degrees", "clarkdegree"),
                       ("hardness_grains_per_us_gallon", "gpg")):
        theirs = ask_units(unit, "mg/l")
        relative = ours[name] / theirs - 1
        ok = abs(relative) <= RELATIVE_TOLERANCE_FACTOR
        failures += not ok
        print(f"{'ok  ' if ok else 'FAIL'} {unit}: {ours[name]:.9g} against {theirs:.9g} mg/L, "
              f"relative difference {relative:+.1e}")

    for low, high, tolerance in ((0, 60, TOLERANCE_TO_60_KG_PER_M3),
                                 (61, 85, TOLERANCE_TO_85_KG_PER_M3)):
        differences = {percent: ours[f"density_{percent}"] -
                       to_vacuum(ask_units(f"brix({percent})", "kg/m^3"))
                       for percent in range(low, high + 1)}
        worst = max(differences, key=lambda percent: abs(differences[percent]))
        ok = abs(differences[worst]) <= tolerance
        failures += not ok
        print(f"{'ok  ' if ok else 'FAIL'} brix({low}..{high}): worst {differences[worst]:+.3f} "
              f"kg/m3 at {worst} %, tolerance {tolerance}")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
