#!/usr/bin/python3
"""Tries to lose or double lines of a notebook, and times a large one.

usage: notebook_check.py GELWRIGHT SOURCE_DIR

Eight writers at once, kill -9 in mid-append, a disk that is full (a limit on the size of files), a
torn last line, a line of a newer version: every entry whose command said it was added is there
exactly once, every older byte is untouched, and the list says what it did not read. The lines are
read with Python's own JSON reader.
"""
import json
import os
import random
import resource
import signal
import subprocess
import sys
import tempfile
import time

GELWRIGHT, SOURCE = sys.argv[1], sys.argv[2]
RECIPE = os.path.join(SOURCE, "recipes/tarn-thick-pouch.json")
failures = []


def check(holds, what):
    print(("ok    " if holds else "WRONG ") + what)
    if not holds:
        failures.append(what)


def command(book, note, *more):
    return [GELWRIGHT, "log", "add", RECIPE, "--notebook", book, "--made", "2026-07-04",
            "--note", note, *more]


def add(book, note, **how):
    return subprocess.run(command(book, note), capture_output=True, text=True, **how)


def entries(book):
    """Whole lines that are JSON, and how many are not."""
    good, bad = [], 0
    with open(book, "rb") as file:
        for line in file.read().split(b"\n"):
            if not line.strip():
                continue
            try:
                good.append(json.loads(line))
            except ValueError:
                bad += 1
    return good, bad


def writers(folder):
    book = os.path.join(folder, "writers.jsonl")
    wanted = {f"writer {w} entry {i}" for w in range(8) for i in range(5)}
    running = []
    for w in range(8):
        script = " && ".join(
            " ".join(f"'{word}'" for word in command(book, f"writer {w} entry {i}"))
            for i in range(5))
        running.append(subprocess.Popen(["sh", "-c", script], stdout=subprocess.DEVNULL))
    check(all(each.wait() == 0 for each in running), "8 writers at once all succeed")
    good, bad = entries(book)
    check(bad == 0 and len(good) == 40 and {each["note"] for each in good} == wanted,
          "8 writers at once: 40 entries, none lost, none doubled, none torn")


def kills(folder):
    book = os.path.join(folder, "kills.jsonl")
    rng = random.Random(20261126)
    added = []
    killed = 0
    for i in range(60):
        note = f"kill {i}"
        running = subprocess.Popen(command(book, note), stdout=subprocess.DEVNULL,
                                   stderr=subprocess.DEVNULL)
        time.sleep(rng.uniform(0, 0.014))
        if running.poll() is None:
            running.send_signal(signal.SIGKILL)
        if running.wait() == 0:
            added.append(note)
        else:
            killed += 1
    check(add(book, "after").returncode == 0, "a notebook takes entries after kill -9")
    good, _ = entries(book)
    notes = [each["note"] for each in good]
    check(all(notes.count(note) == 1 for note in added) and len(set(notes)) == len(notes),
          f"kill -9 ({killed} of 60 killed): every entry that was said to be added is there once")


def full_disk(folder):
    book = os.path.join(folder, "full.jsonl")
    add(book, "first")
    with open(book, "rb") as file:
        before = file.read()

    def limit():
        # Room for a part of the next line: it has to be taken back.
        resource.setrlimit(resource.RLIMIT_FSIZE, (len(before) + 100, len(before) + 100))

    refused = add(book, "second", preexec_fn=limit)
    with open(book, "rb") as file:
        after = file.read()
    check(refused.returncode == 2 and "nothing was added" in refused.stderr,
          "a full disk is said: " + refused.stderr.strip())
    check(after == before, "a full disk: not a byte of the notebook has changed")
    check(add(book, "third").returncode == 0 and len(entries(book)[0]) == 2,
          "with room again it goes on")


def torn_and_newer(folder):
    book = os.path.join(folder, "torn.jsonl")
    add(book, "first")
    newer = b'{"format": "gelwright/notebook-9", "made": "2031-01-01", "flavour": 3}\n'
    torn = b'{"format": "gelwright/notebook-1", "made": "2026-07-0'
    with open(book, "ab") as file:
        file.write(newer + torn)
    with open(book, "rb") as file:
        before = file.read()
    check(add(book, "second").returncode == 0, "an entry is added behind a torn line")
    with open(book, "rb") as file:
        after = file.read()
    check(after.startswith(before), "what was there stays byte for byte")
    listed = subprocess.run([GELWRIGHT, "log", "--notebook", book], capture_output=True, text=True)
    said = " ".join(listed.stdout.split())
    check(listed.returncode == 0 and "first" in said and "second" in said
          and "2 of 2 entries" in said, "both entries are listed")
    check("Line 2 of" in said and "newer version" in said, "the line of a newer version is said")
    check("Line 3 of" in said and "not JSON" in said, "the torn line is said")
    alone = os.path.join(folder, "folder.jsonl")
    os.mkdir(alone)
    check(add(alone, "x").returncode == 2, "a folder is no notebook")


def seconds_of(line):
    """User and system time of a child, which other work on the machine does not lengthen."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    began = time.time()
    done = subprocess.run(line, capture_output=True)
    wall = time.time() - began
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    assert done.returncode == 0, done.stderr
    return after.ru_utime - before.ru_utime + after.ru_stime - before.ru_stime, wall


def large(folder):
    book = os.path.join(folder, "large.jsonl")
    add(book, "one")
    with open(book) as file:
        one = json.loads(file.read())
    with open(book, "w") as file:
        for i in range(100000):
            one["made"] = f"{2000 + i // 3650:04}-{i % 12 + 1:02}-{i % 28 + 1:02}"
            one["note"] = f"entry {i}"
            one["ph"] = 3.5 + i % 10 / 10
            file.write(json.dumps(one) + "\n")
    listing, wall = min(seconds_of([GELWRIGHT, "log", "--notebook", book]) for _ in range(5))
    check(listing <= 1, f"10^5 entries listed in {listing:.2f} s of processor ({wall:.2f} s)")
    empty = os.path.join(folder, "empty.jsonl")
    few = min(seconds_of(command(empty, "x"))[0] for _ in range(5))
    many, wall = min(seconds_of(command(book, "x")) for _ in range(5))
    check(many - few <= 0.02,
          f"appending to 10^5 takes {1000 * (many - few):.0f} ms longer than to a few "
          f"({1000 * wall:.0f} ms in all, the forecast included)")
    last = [seconds_of([GELWRIGHT, "sheet", RECIPE, "--notebook", name])[0] for name in (empty, book)]
    print(f"      a sheet with LAST TIME: {1000 * last[0]:.0f} and {1000 * last[1]:.0f} ms")


with tempfile.TemporaryDirectory() as folder:
    writers(folder)
    kills(folder)
    full_disk(folder)
    torn_and_newer(folder)
    large(folder)
print("failed: " + str(len(failures)))
sys.exit(1 if failures else 0)
