#!/usr/bin/python3
"""Works out recipes drawn from all that the guide allows: none may fail.

usage: valid_check.py DUMP_VERDICTS HOW_MANY

A target that these ingredients cannot reach is a sad answer, not a failure. The draws are those of
agree_check.py, the same on every run.
"""
import json
import random
import subprocess
import sys

from agree_check import good

SAD = "cannot be reached"


def main():
    dump, how_many = sys.argv[1], int(sys.argv[2])
    rng = random.Random(7)
    lines = [json.dumps(good(rng)) for _ in range(how_many)]
    verdicts = subprocess.run([dump, "evaluate"], input="\n".join(lines) + "\n",
                              capture_output=True, text=True, check=True).stdout.splitlines()
    failures = [(line, verdict) for line, verdict in zip(lines, verdicts, strict=True)
                if verdict != "good" and SAD not in verdict]
    for line, verdict in failures[:10]:
        print("FAIL", verdict[:300], line[:1500])
    print(f"{how_many} recipes, {sum(SAD in verdict for verdict in verdicts)} with a target out of "
          f"reach: {len(failures)} failures")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
