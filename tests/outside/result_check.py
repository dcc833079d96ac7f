#!/usr/bin/python3
"""Validates what every command prints as JSON against docs/results/.

usage: result_check.py GELWRIGHT SOURCE_DIR

 1. Each schema in docs/results/ is a valid draft 2020-12 schema whose objects are closed or say what
    may be added.
 2. What each command prints with --format json fulfils the schema of the format it names: over the
    lines of tests/golden.list, over every recipe shipped, and over recipes made here, which the
    schemas have never seen.
 3. Every schema is used, and refuses a document with a key too many or one too few.

The validator is the jsonschema package, which knows nothing of this program.
"""
import copy
import glob
import json
import os
import shlex
import subprocess
import sys
import tempfile

from jsonschema import Draft202012Validator

failures = []


def fail(text):
    failures.append(text)
    print("FAIL", text)


def objects_of(schema):
    """Every sub-schema of an object. A key may be named like a keyword, "properties" for one."""
    if "properties" in schema:
        yield schema
        for member in schema["properties"].values():
            yield from objects_of(member)
    if "items" in schema:
        yield from objects_of(schema["items"])


def load_schemas(source):
    validators = {}
    for path in glob.glob(os.path.join(source, "docs", "results", "*.schema.json")):
        with open(path, encoding="utf-8") as file:
            schema = json.load(file)
        Draft202012Validator.check_schema(schema)
        for each in objects_of(schema):
            if "additionalProperties" not in each:
                fail(f"{path}: an object is open")
        validators[schema["title"]] = Draft202012Validator(schema)
    return validators


# Recipes the schemas were not made from: no tap, no scales, a syrup, prices in part, a drink.
MADE = {
    "bare": {"form": "pouch", "solids": [{"ingredient": "sucrose", "mass_g": 30}],
             "water": {"per_g_solids": 0.8}},
    "gelled": {"form": "pouch", "note": "=1+1 | # not a heading",
               "solids": [{"ingredient": "maltodextrin DE 12", "mass_g": 40},
                          {"ingredient": "HM pectin", "mass_g": 0.8},
                          {"ingredient": "sodium alginate", "mass_g": 0.6}],
               "water": {"fraction_of_total": 0.4},
               "acid": {"ingredient": "malic acid", "additions_g": [0.2, 0.1]},
               "tap": {"calcium_mg_per_l": 60, "alkalinity_meq_per_l": 2},
               "batch": {"servings": 4, "scales": [{"name": "kitchen", "readability_g": 1,
                                                    "capacity_g": 3000}]},
               "prices": {"currency": "EUR",
                          "packs": [{"ingredient": "HM pectin", "pack_g": 50, "price": 4}]}},
    "drink": {"form": "drink",
              "solids": [{"ingredient": "fructose", "mass_g": 35},
                         {"ingredient": "sodium alginate", "mass_g": 0.8}],
              "water": {"mass_g": 400}, "tap": {"hardness_mmol_per_l": 2},
              "calcium": {"ingredient": "calcium carbonate", "mass_g": 0.05,
                          "when": "insoluble_until_acid"}},
}


def made_recipes(folder):
    for name, parts in MADE.items():
        path = os.path.join(folder, name + ".json")
        with open(path, "w", encoding="utf-8") as file:
            json.dump({"format": "gelwright/recipe-1", "name": name, **parts}, file)
        yield path


def command_lines(source, folder):
    with open(os.path.join(source, "tests", "golden.list"), encoding="utf-8") as file:
        for line in file:
            if not line.startswith("#"):
                arguments = shlex.split(line)[1:]
                if "--format" in arguments:
                    at = arguments.index("--format")
                    del arguments[at:at + 2]
                yield arguments
    recipes = sorted(path for path in glob.glob(os.path.join(source, "recipes", "*.json"))
                     if os.path.basename(path) != "kitchen.json")
    for recipe in recipes + list(made_recipes(folder)):
        yield ["sheet", recipe]
        yield ["sheet", recipe, "--round-water-to-g", "50"]
        yield ["check", recipe]
        yield ["check", recipe, recipes[0]]
        yield ["compare", recipe, recipes[0]]
        yield ["carry", recipe, "--hours", "2", "--carbohydrate-g-per-hour", "60"]
        book = os.path.join(folder, "notebook.jsonl")
        yield ["log", "add", recipe, "--notebook", book, "--made", "2026-07-04", "--texture", "thick"]
        yield ["sheet", recipe, "--notebook", book]
        yield ["water", recipe]
        yield ["spread", recipe, "--draws", "200"]
        yield ["ladder", recipe, "--vary", "water_g=40:60:10"]
        yield ["explain", "acidity-not-proven", recipe]
        for target in (["--to-ph", "3.5"], ["--to-ratio", "0.4"], ["--to-water-fraction", "0.45"],
                       ["--to-soluble-solids", "40"], ["--to-readable"]):
            yield ["dose", recipe] + target


def check_refusals(validator, document):
    """A key too many and a key too few anywhere near the top is refused."""
    more = copy.deepcopy(document)
    more["surprise"] = 1
    if validator.is_valid(more):
        fail(f"{document['format']}: accepts a key it does not know")
    less = copy.deepcopy(document)
    del less["title"]
    if validator.is_valid(less):
        fail(f"{document['format']}: accepts a document without a title")


def main():
    program, source = os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2])
    validators = load_schemas(source)
    used = {}
    documents = 0
    with tempfile.TemporaryDirectory() as folder:
        for arguments in command_lines(source, folder):
            result = subprocess.run([program] + arguments + ["--format", "json"], cwd=source,
                                    capture_output=True, check=False)
            if result.returncode == 2:
                continue  # refused, which other tests look at
            if result.returncode not in (0, 1):
                fail(f"{arguments}: exit {result.returncode}: {result.stderr.decode()}")
                continue
            document = json.loads(result.stdout.decode("utf-8"))
            documents += 1
            if document["format"] not in validators:
                fail(f"{arguments}: no schema for {document['format']}")
                continue
            for error in validators[document["format"]].iter_errors(document):
                fail(f"{arguments}: {error.json_path}: {error.message[:200]}")
            used[document["format"]] = document
    for name, validator in validators.items():
        if name in used:
            check_refusals(validator, used[name])
        else:
            fail(f"{name}: nothing printed it")
    if documents < 150:
        fail(f"only {documents} documents were printed")
    print(f"{documents} documents, {len(validators)} schemas: {len(failures)} failures")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
