#!/usr/bin/env python3
"""Which lines and branches of src the tests reach.

    cmake -S . -B build-cover -G Ninja -DCMAKE_BUILD_TYPE=Debug -DCMAKE_CXX_FLAGS="--coverage -O0"
    cmake --build build-cover && ctest --test-dir build-cover -R '^(unit|golden)' -j2
    python3 tests/coverage.py build-cover [--gaps] [--lines 97 --branches 85]

Branches that only an exception takes (every call has one) are not counted. With --gaps the lines never
reached are listed. Ends with 1 where a share is below what --lines or --branches ask for.
"""
import argparse, collections, json, pathlib, subprocess, sys


def main():
    p = argparse.ArgumentParser()
    p.add_argument("build", type=pathlib.Path)
    p.add_argument("--gaps", action="store_true")
    p.add_argument("--lines", type=float, default=0)
    p.add_argument("--branches", type=float, default=0)
    a = p.parse_args()
    here = pathlib.Path(__file__).resolve().parents[1]
    lines = collections.defaultdict(lambda: collections.defaultdict(int))
    branches = collections.defaultdict(lambda: collections.defaultdict(list))
    for data in sorted(a.build.rglob("*.gcda")):
        if "/tests/" in str(data):
            continue
        found = subprocess.run(["gcov", "-b", "-c", "--json-format", "--stdout", str(data)],
                               capture_output=True, cwd=here, check=True).stdout
        for text in found.splitlines():
            for file in json.loads(text)["files"]:
                name = pathlib.Path(here, file["file"]).resolve()
                if here / "src" not in name.parents:
                    continue
                name = str(name.relative_to(here))
                for line in file["lines"]:
                    number = line["line_number"]
                    lines[name][number] += line["count"]
                    taken = [b["count"] for b in line["branches"] if not b["throw"]]
                    before = branches[name][number]
                    # Templates and headers are compiled more than once: what one copy takes counts.
                    if len(before) == len(taken):
                        taken = [x + y for x, y in zip(before, taken)]
                    elif len(before) > len(taken):
                        taken = before
                    branches[name][number] = taken
    if not lines:
        sys.exit("no coverage data below " + str(a.build))

    def share(parts):
        return 100.0 * sum(1 for x in parts if x) / len(parts) if parts else 100.0

    every_line, every_branch = [], []
    for name in sorted(lines):
        of_lines = list(lines[name].values())
        of_branches = [b for row in branches[name].values() for b in row]
        every_line += of_lines
        every_branch += of_branches
        print(f"{share(of_lines):6.1f} {share(of_branches):6.1f}  {name}")
        if a.gaps:
            for number, count in sorted(lines[name].items()):
                if not count:
                    text = (here / name).read_text().splitlines()[number - 1]
                    print(f"                  {number}: {text.strip()}")
    print(f"lines {share(every_line):.1f} % of {len(every_line)}, "
          f"branches {share(every_branch):.1f} % of {len(every_branch)}")
    if share(every_line) < a.lines or share(every_branch) < a.branches:
        sys.exit(1)


if __name__ == "__main__":
    main()
