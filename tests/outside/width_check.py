#!/usr/bin/python3
"""Holds the width of every character against Python's copy of the Unicode character database.

usage: width_check.py DUMP_WIDTH

Two columns by East_Asian_Width W or F (UAX #11), none by general category Mn, Me or Cf but the soft
hyphen, else one. Codes that are not assigned do not count. A Python with a newer database than
14.0.0 knows more characters; those may take one column here.
"""
import subprocess
import sys
import unicodedata


def expected(character):
    category = unicodedata.category(character)
    if category in ("Mn", "Me") or (category == "Cf" and character != "\u00ad"):
        return 0
    return 2 if unicodedata.east_asian_width(character) in "WF" else 1


def main():
    same_database = unicodedata.unidata_version == "14.0.0"
    wrong = 0
    compared = 0
    output = subprocess.run([sys.argv[1]], capture_output=True, check=True, text=True).stdout
    for line in output.splitlines():
        first, last, width = line.split()
        for code in range(int(first, 16), int(last, 16) + 1):
            character = chr(code)
            if unicodedata.category(character) in ("Cn", "Cs", "Cc"):
                continue
            compared += 1
            if int(width) != expected(character) and (same_database or width != "1"):
                wrong += 1
                print(f"U+{code:04X}: {width} columns, expected {expected(character)}")
    print(f"{compared} characters compared, {wrong} wrong")
    return 1 if wrong or compared < 140000 else 0


if __name__ == "__main__":
    sys.exit(main())
