#!/usr/bin/env python3
"""Breaks the program on purpose, one small change at a time, and counts which changes the unit tests
notice. Golden files and everything else that keeps what the program once printed are left out: they
notice any change and prove nothing.

    python3 tests/mutation/mutate.py FOLDER --seed 1 --count 300 [--only src/evaluation] [--minutes 60]

FOLDER becomes a copy of the committed source with a build of its own (about 5 minutes the first
time). Results are appended to FOLDER/results.csv: file, line, change, outcome; a second run with the same
seed goes on where the first one ended. At the end the survivors are printed, for docs/checks.md.
"""
import argparse, csv, pathlib, random, re, signal, subprocess, sys, time

# A pattern, what takes its place, and what it is called. Found in code only: comments, texts in
# quotes, includes and templates' angle brackets are left alone.
CHANGES = [
    (r" \+ ", " - ", "plus to minus"),
    (r" - ", " + ", "minus to plus"),
    (r" \* ", " / ", "times to over"),
    (r" / ", " * ", "over to times"),
    (r" < ", " <= ", "under to at most"),
    (r" > ", " >= ", "over to at least"),
    (r" <= ", " > ", "at most to over"),
    (r" >= ", " < ", "at least to under"),
    (r" == ", " != ", "equal to different"),
    (r" != ", " == ", "different to equal"),
    (r" && ", " || ", "and to or"),
    (r" \|\| ", " && ", "or to and"),
    (r"\btrue\b", "false", "true to false"),
    (r"\bfalse\b", "true", "false to true"),
    (r"std::min\(", "std::max(", "min to max"),
    (r"std::max\(", "std::min(", "max to min"),
    (r"return -", "return ", "sign dropped"),
]
# The value of a row in a table of numbers: {"citric.pka1", 3.128, ...
ROW = re.compile(r'(\{"[\w.+-]+", )(-?\d[\d.e+-]*)(?=,)')


def bare(line):
    """The line with texts and comments blanked, so that columns stay."""
    line = re.sub(r'"(?:[^"\\]|\\.)*"', lambda m: '"' + "_" * (len(m.group()) - 2) + '"', line)
    return re.sub(r"//.*", lambda m: " " * len(m.group()), line)


def sites(root, only):
    found = []
    for path in sorted((root / "src").rglob("*.[ch]pp")):
        name = str(path.relative_to(root))
        if not name.startswith(only) or name.startswith(("src/cli/pages", "src/data/source")):
            continue
        for number, line in enumerate(path.read_text().splitlines()):
            for row in ROW.finditer(line):
                if float(row.group(2)) != 0:
                    found.append((name, number, row.start(2), row.end(2),
                                  repr(float(row.group(2)) * 1.05), "number + 5 %"))
            code = bare(line)
            if code.lstrip().startswith(("#", "template", "static_assert")) or "<<" in code:
                continue
            for pattern, new, what in CHANGES:
                for m in re.finditer(pattern, code):
                    found.append((name, number, m.start(), m.end(), new, what))
    return found


def run(command, cwd, seconds):
    try:
        return subprocess.run(command, cwd=cwd, capture_output=True, text=True, timeout=seconds)
    except subprocess.TimeoutExpired:
        return None


def main():
    p = argparse.ArgumentParser()
    p.add_argument("folder", type=pathlib.Path)
    p.add_argument("--seed", type=int, default=1)
    p.add_argument("--count", type=int, default=300)
    p.add_argument("--only", default="src/")
    p.add_argument("--minutes", type=float, default=1e9)
    a = p.parse_args()
    # A shell may have started us deaf to these; the tests send them.
    for each in (signal.SIGINT, signal.SIGQUIT):
        signal.signal(each, signal.SIG_DFL)
    here = pathlib.Path(__file__).resolve().parents[2]
    root = a.folder.resolve() / "source"
    build = a.folder.resolve() / "build"
    if not root.exists():
        root.mkdir(parents=True)
        archive = subprocess.run(["git", "archive", "HEAD"], cwd=here, capture_output=True, check=True)
        subprocess.run(["tar", "x", "-C", str(root)], input=archive.stdout, check=True)
        subprocess.run(["cmake", "-S", root, "-B", build, "-G", "Ninja", "-DCMAKE_BUILD_TYPE=Release",
                        "-DCMAKE_CXX_FLAGS_RELEASE=-O1"], check=True, stdout=subprocess.DEVNULL)
    make = ["cmake", "--build", str(build), "--target", "gelwright_tests", "gelwright_cli", "-j2"]
    # Tests that keep what the program printed are left out, and the first failure is enough.
    test = [str(build / "tests/gelwright_tests"), "-a", "~[slow]~[kept]"]
    if run(make, root, 7200).returncode != 0:
        sys.exit("the source does not build")
    start = time.time()
    sound = run(test, root, 3600)
    if sound.returncode != 0:
        sys.exit("the tests fail without any change:\n" + sound.stdout[-2000:])
    patience = 60 + 5 * (time.time() - start)  # a change may make a loop endless

    all_sites = sites(root, a.only)
    chosen = random.Random(a.seed).sample(all_sites, min(a.count, len(all_sites)))
    log = a.folder / f"results-{a.seed}.csv"
    done = {}
    if log.exists():
        for row in csv.reader(log.open()):
            done[tuple(row[:3])] = row
    end = time.time() + 60 * a.minutes
    for name, number, first, last, new, what in chosen:
        if time.time() > end:
            break
        key = (name, str(number + 1), f"{what} at {first}")
        if key in done:
            continue
        path = root / name
        before = path.read_text()
        lines = before.splitlines(keepends=True)
        old = lines[number]
        lines[number] = old[:first] + new + old[last:]
        path.write_text("".join(lines))
        try:
            built = run(make, root, 1800)
            if built is None or built.returncode != 0:
                outcome = "does not compile"
            else:
                tested = run(test, root, patience)
                outcome = ("killed: takes for ever" if tested is None else
                           "survived" if tested.returncode == 0 else "killed")
        finally:
            path.write_text(before)
        done[key] = [*key, outcome, old.strip()]
        with log.open("a") as out:
            csv.writer(out).writerow(done[key])
        print(*done[key], sep=" | ", flush=True)

    results = [row for row in done.values() if row[3] != "does not compile"]
    survivors = [row for row in results if row[3] == "survived"]
    if results:
        print(f"{len(all_sites)} places to change; {len(results)} changes tried, "
              f"{len(results) - len(survivors)} noticed "
              f"({100 * (1 - len(survivors) / len(results)):.1f} %), {len(survivors)} not:")
    for row in survivors:
        print(*row, sep=" | ")


if __name__ == "__main__":
    main()
