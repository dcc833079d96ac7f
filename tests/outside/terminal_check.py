#!/usr/bin/python3
"""Answers the questions of `start` on a pseudo-terminal, and looks at the card there.

usage: terminal_check.py GELWRIGHT

At most ten questions, a wrong answer asked again at once, the recipe written and usable, its card
printed with a degree sign, nothing wider than the terminal; and a batch of answers that ends early
leaves no recipe behind.
"""
import fcntl
import os
import pty
import select
import struct
import subprocess
import sys
import tempfile
import termios
import time

QUESTIONS = 10
COLUMNS = 72


def read_until(terminal, wanted, seconds=20):
    """What the program says until it ends with `wanted`, or it is done."""
    said = b""
    end = time.time() + seconds
    while time.time() < end and not said.endswith(wanted):
        ready, _, _ = select.select([terminal], [], [], 0.1)
        if not ready:
            continue
        try:
            piece = os.read(terminal, 65536)
        except OSError:  # the other side is closed
            break
        if not piece:
            break
        said += piece
    return said


def run(program, arguments, answers):
    """The text on the terminal, and the exit code."""
    child, terminal = pty.fork()
    if child == 0:
        environment = dict(os.environ, LC_ALL="C.UTF-8")
        os.execve(program, [program] + arguments, environment)
    fcntl.ioctl(terminal, termios.TIOCSWINSZ, struct.pack("HHHH", 40, COLUMNS, 0, 0))
    said = b""
    for answer in answers:
        said += read_until(terminal, b": ")
        os.write(terminal, answer)
    said += read_until(terminal, b"\0never")
    _, status = os.waitpid(child, 0)
    return said.decode().replace("\r\n", "\n"), os.waitstatus_to_exitcode(status)


def main():
    program = os.path.abspath(sys.argv[1])  # before any change of folder
    failures = []

    def expect(true, what):
        if not true:
            failures.append(what)

    with tempfile.TemporaryDirectory() as folder:
        recipe = os.path.join(folder, "first.json")
        answers = [b"\n", b"scratch\n", b"\n", b"much\n", b"999\n", b"40 g\n", b"70\n", b"6\n",
                   b"\n", b"58 mg/L\n", b"y\n"]
        said, code = run(program, ["start", "-o", recipe], answers)
        expect(code == 0, f"exit {code}: {said}")
        expect(said.count("please a number from 1 to 500 g") == 2, "wrong answers are asked again")
        expect(said.count("]: ") + said.count("not known): ") - 2 <= QUESTIONS, "too many questions")
        card = said[said.index("First batch"):] if "First batch" in said else ""
        expect("EXPECT" in card and "MAKE IT" in card, "no card")
        expect("5 \u00b0C" in card, "no degree sign")
        wide = [line for line in card.splitlines() if len(line) > COLUMNS]
        expect(not wide, f"wider than the terminal: {wide[:2]}")
        expect(subprocess.run([program, "check", recipe], capture_output=True).returncode in (0, 1),
               "the recipe cannot be used")
        again, code = run(program, ["start", "-o", recipe], answers)
        expect(code == 2, "an existing recipe was replaced")

        os.chdir(folder)
        for name in ("first-batch.json", "first-batch-2.json"):
            said, code = run(program, ["start"], answers)
            expect(code == 0, f"without a file name: exit {code}: {said}")
            expect(os.path.exists(name), f"{name} was not written")
            expect(name in said, f"{name} is not named")

        other = os.path.join(folder, "other.json")
        said, code = run(program, ["start", "-o", other], [b"\n", b"\x04"])
        expect(code == 2, f"answers that end early: exit {code}")
        expect(not os.path.exists(other), "a recipe of half the answers was written")

    for failure in failures:
        print("FAIL", failure)
    print(f"questions on a terminal: {len(failures)} failures")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
