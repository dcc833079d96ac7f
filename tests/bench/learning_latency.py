#!/usr/bin/python3
"""Times what learns and searches, as a person waits for it: the whole command, median of some runs.

usage: learning_latency.py GELWRIGHT SOURCE_DIR [RUNS]

The long bench sheets are drawn here: 5 000 cups of seven doses with pH read to 0.01, and 5 000 that
all differ.
"""
import os
import random
import statistics
import subprocess
import sys
import tempfile
import time


def sheet(path, count, distinct):
    """Writes cups that hold from pH 4.1 down; their pH falls with the acid and scatters by 0.05."""
    draw = random.Random(1)
    with open(path, "w", encoding="utf-8") as file:
        file.write("cup,acid_g,ph,cup_turn,groove,syringe_ml\n")
        for cup in range(1, count + 1):
            acid = draw.uniform(0.1, 1.2) if distinct else 0.2 + 0.1 * (cup % 7)
            ph = 4.95 - 2 * acid + 0.65 * acid * acid + draw.gauss(0, 0.05)
            hold = "holds" if ph < 4.1 else "falls"
            groove = "stands" if ph < 4.2 else "closes"
            decimals = 4 if distinct else 2
            file.write(f"{cup},{acid:.{decimals}f},{ph:.{decimals}f},{hold},{groove},"
                       f"{9.5 + draw.uniform(0, 0.5):.1f}\n")


def main():
    program, source = sys.argv[1], sys.argv[2]
    runs = int(sys.argv[3]) if len(sys.argv) > 3 else 9
    recipe = os.path.join(source, "recipes", "tarn-thick-pouch.json")
    with tempfile.TemporaryDirectory() as folder:
        sheets = {}
        for name, count, distinct in (("12", 12, True), ("alike", 5000, False),
                                      ("different", 5000, True)):
            sheets[name] = os.path.join(folder, name + ".csv")
            sheet(sheets[name], count, distinct)
        for what, arguments in (
                ("fit, 12 cups", ["fit", recipe, sheets["12"]]),
                ("fit, 5000 cups of seven doses", ["fit", recipe, sheets["alike"]]),
                ("fit, 5000 cups that all differ", ["fit", recipe, sheets["different"]]),
                ("dose --to-texture", ["dose", recipe, "--to-texture", "smooth flowing gel"]),
                ("ladder --teach 6", ["ladder", recipe, "--teach", "6"]),
                ("formulate", ["formulate",
                               os.path.join(source, "recipes", "goals", "long-loop.json"),
                               "--kitchen", os.path.join(source, "recipes", "kitchen.json")])):
            seconds = []
            for _ in range(runs):
                start = time.perf_counter()
                result = subprocess.run([program, *arguments], capture_output=True, check=False)
                seconds.append(time.perf_counter() - start)
                if result.returncode not in (0, 1):
                    sys.exit(f"{what}: exit {result.returncode}: {result.stderr.decode()}")
            print(f"{what}: {1000 * statistics.median(seconds):.0f} ms "
                  f"({1000 * min(seconds):.0f} to {1000 * max(seconds):.0f})")


if __name__ == "__main__":
    main()
