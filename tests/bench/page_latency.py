#!/usr/bin/python3
"""How much longer a page and pictures take than the sheet as text.

usage: page_latency.py GELWRIGHT RECIPE RUNS

Runs are interleaved, so that load from elsewhere falls on all alike. Prints medians in ms.
"""
import statistics
import subprocess
import sys
import time

program, recipe, runs = sys.argv[1], sys.argv[2], int(sys.argv[3])
sheet = [program, "sheet", recipe]
commands = {
    "sheet as text": sheet,
    "sheet as a page": sheet + ["--format", "html"],
    "acid curve": sheet + ["--format", "svg"],
    "texture map": sheet + ["--format", "svg", "--show", "texture_map"],
    "all of it, with every picture": sheet + ["--format", "html", "--all"],
}
took = {name: [] for name in commands}
for _ in range(runs):
    for name, command in commands.items():
        start = time.perf_counter()
        subprocess.run(command, stdout=subprocess.DEVNULL, check=True)
        took[name].append(1000 * (time.perf_counter() - start))
for name, times in took.items():
    print(f"{name:32} {statistics.median(times):8.1f} ms")
