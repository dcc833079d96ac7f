#!/usr/bin/env python3
"""Wall time of `gelwright sheet` over a minimal program on the same file, interleaved.

    sheet_latency.py GELWRIGHT MINIMAL RECIPE [RUNS]

Prints the median of each, their difference, instruction counts by valgrind (if installed) and the
peak memory by /usr/bin/time (if installed).
"""
import statistics
import subprocess
import sys
import time


def once(command):
    start = time.perf_counter()
    subprocess.run(command, stdout=subprocess.DEVNULL, check=True)
    return 1000 * (time.perf_counter() - start)


def instructions(command):
    try:
        run = subprocess.run(["valgrind", "--tool=callgrind", "--callgrind-out-file=/dev/null"] + command,
                             stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True, check=True)
    except FileNotFoundError:
        return "no valgrind"
    line = [l for l in run.stderr.splitlines() if "Collected" in l]
    return line[0].split(":")[1].strip() if line else "?"


def peak_kib(command):
    try:
        run = subprocess.run(["/usr/bin/time", "-v"] + command, stdout=subprocess.DEVNULL,
                             stderr=subprocess.PIPE, text=True, check=True)
    except FileNotFoundError:
        return "no /usr/bin/time"
    line = [l for l in run.stderr.splitlines() if "Maximum resident" in l]
    return line[0].split(":")[1].strip() if line else "?"


def main():
    gelwright, minimal, recipe = sys.argv[1:4]
    runs = int(sys.argv[4]) if len(sys.argv) > 4 else 200
    commands = {"gelwright sheet": [gelwright, "sheet", recipe], "minimal": [minimal, recipe]}
    times = {name: [] for name in commands}
    for _ in range(runs):
        for name, command in commands.items():
            times[name].append(once(command))
    medians = {name: statistics.median(values) for name, values in times.items()}
    for name, command in commands.items():
        print(f"{name:16} median {medians[name]:6.2f} ms, {instructions(command)} instructions, "
              f"peak {peak_kib(command)} KiB")
    print(f"difference       {medians['gelwright sheet'] - medians['minimal']:6.2f} ms "
          f"(median of {runs} interleaved runs)")


main()
