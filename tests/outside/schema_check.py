#!/usr/bin/python3
"""Holds the JSON Schemas of a recipe and a kitchen against the reader and the documentation.

usage: schema_check.py GELWRIGHT SOURCE_DIR

 1. The schema is a valid draft 2020-12 schema, leaves no object open, names and describes each key,
    and is written so that an editor complains of one key, not of a choice.
 2. Every recipe in recipes/ validates.
 3. Every tests/data/bad_*.json is refused by the schema, except those below, which a schema cannot
    express, each with the reason; and by `gelwright check`, with exit code 2, nothing on standard
    output and something on standard error.
 4. Each example of the schema, put into a small recipe, passes both the schema and the reader.
 5. So does each piece of JSON in docs/recipe.md, whole recipes as they stand.
 6. The kitchen's schema is closed, too; it accepts recipes/kitchen.json and the JSON of
    docs/kitchen.md, and refuses what the reader refuses of KITCHENS below.

 7. So with the goal's, recipes/goals and docs/goal.md.

The validator is the jsonschema package, which knows nothing of this program.
"""
import copy
import glob
import json
import os
import re
import subprocess
import sys
import tempfile

from jsonschema import Draft202012Validator

UNSAYABLE = {
    "a schema sees one name at a time, not the list it must come from": [
        "ingredient_misspelt", "ingredient_unknown", "dextrose_equivalent_out_of_range",
        "caffeine_weighed", "ingredient_twice", "price_of_unused", "price_twice",
        "calcium_gum_not_in_solids", "guluronate_without_alginate", "scales_of_one_name",
        "tap_unknown_name", "two_buffers", "word_from_elsewhere", "word_of_several_meanings",
        "word_twice", "contains_gum_without_amount", "tap_amount_of_what",
        "step_not_in_recipe", "step_never_added",
        "undeclared_gum_twice", "viscosity_without_alginate", "esterification_of_two_pectins",
        "esterification_of_lm_pectin", "amidation_of_hm_pectin", "step_how_of_acid",
    ],
    "a schema does not follow references between parts of a document": [
        "blend_with_itself", "blend_chain_too_long", "define_through_itself",
        "define_chain_too_long",
    ],
    "a schema neither adds up nor compares two values": [
        "acid_stock_brings_too_much_water", "blend_shares", "bowl_too_heavy",
        "define_more_than_whole", "label_and_water_over_whole", "label_carbohydrate_over_mass",
        "label_concentrated_caffeine", "label_sugars_over_carbohydrate", "limit_reversed",
        "scale_capacity_below_readability", "tap_calcium_above_hardness", "tap_of_lime_water",
        "undeclared_gum_reversed", "label_of_two_columns", "label_over_mass",
        "label_pack_against_portions", "label_ratio_over_sugars", "water_solids_over_total",
    ],
    "a schema cannot ask one thing of all parts of a list, or of a part for its whole": [
        "blend_share_and_parts", "contains_without_amount_or_label",
    ],
    "a schema does not follow steps from one to the next": [
        "step_acid_twice", "step_share_missing_part", "step_heat_after_fill",
        "step_cool_from_cold", "step_into_more_than_water",
    ],
    "a JSON parser keeps one of two equal keys before any schema sees it": ["key_twice"],
}

failures = []


def fail(text):
    failures.append(text)
    print("FAIL", text)


def refuse_constant(name):
    raise ValueError(name + " is not JSON")


def load(path):
    """Parses by RFC 8259: no NaN, no Infinity, UTF-8 only."""
    with open(path, "rb") as file:
        return json.loads(file.read().decode("utf-8"), parse_constant=refuse_constant)


def run_check(program, path):
    return subprocess.run([program, "check", path], capture_output=True, check=False)


def walk(schema, path=""):
    """Every sub-schema that describes an object, with its path."""
    if isinstance(schema, dict):
        if "properties" in schema and schema.get("type") == "object":
            yield path, schema
        for key, value in schema.items():
            yield from walk(value, path + "/" + key)
    elif isinstance(schema, list):
        for index, value in enumerate(schema):
            yield from walk(value, f"{path}/{index}")


def check_closed(schema):
    for path, each in walk(schema):
        if each.get("additionalProperties") is not False:
            fail(f"schema {path}: additionalProperties is not false")
        for key, value in each["properties"].items():
            for word in ("title", "description"):
                if word not in value:
                    fail(f"schema {path}/{key}: no {word}")


def check_messages(schema, path=""):
    """Of "oneOf" an editor can only say that several or none match, not which key is one too many."""
    if isinstance(schema, dict):
        if "oneOf" in schema:
            fail(f"schema {path}: oneOf has no clear message")
        for key, value in schema.items():
            check_messages(value, path + "/" + key)
    elif isinstance(schema, list):
        for index, value in enumerate(schema):
            check_messages(value, f"{path}/{index}")


def check_recipes(validator, source):
    recipes = sorted(path for path in glob.glob(os.path.join(source, "recipes", "*.json"))
                     if os.path.basename(path) != "kitchen.json")
    if not recipes:
        fail("no recipes found")
    for path in recipes:
        for error in validator.iter_errors(load(path)):
            fail(f"{os.path.basename(path)}: {error.json_path}: {error.message}")
    return len(recipes)


def check_bad(validator, program, source):
    reasons = {name: why for why, names in UNSAYABLE.items() for name in names}
    seen = set()
    for path in sorted(glob.glob(os.path.join(source, "tests", "data", "bad_*.json"))):
        name = os.path.basename(path)[len("bad_"):-len(".json")]
        seen.add(name)
        try:
            refused = not validator.is_valid(load(path))
        except ValueError:  # not JSON, or not UTF-8: no editor gets as far as the schema
            refused = True
        if refused == (name in reasons):
            fail(f"{name}: the schema {'refuses' if refused else 'accepts'} it")
        result = run_check(program, path)
        if result.returncode != 2 or result.stdout or not result.stderr:
            fail(f"{name}: exit {result.returncode}, {len(result.stdout)} bytes on standard output")
    for name in sorted(set(reasons) - seen):
        fail(f"{name}: excused, but there is no such file")
    if len(seen) < 45:
        fail(f"only {len(seen)} bad documents found")
    return len(seen), len(reasons)


SMALL = {
    "format": "gelwright/recipe-2",
    "name": "small",
    "form": "pouch",
    "define": {"fell mix": {"kind": "mix", "label": {"per_g": 72, "carbohydrate_g": 68},
                            "contains": [{"ingredient": "sodium alginate", "fraction": 0.01},
                                         {"ingredient": "HM pectin", "fraction": 0.01}]}},
    "solids": [{"ingredient": "fell mix", "mass_g": 72}, {"ingredient": "fructose", "mass_g": 5}],
    "water": {"fraction_of_total": 0.4},
    "tap": {"calcium_mg_per_l": 23},
    "prices": {"currency": "GBP", "packs": [{"ingredient": "fructose", "pack_g": 9, "price": 8}]},
}
# Where each object of the schema sits in a recipe, and what must make way or stand by.
PLACES = {
    "": ([], {}, []),
    "/$defs/solid": (["solids", 1], {}, []),
    "/$defs/water_amount": (["water"], {}, ["fraction_of_total"]),
    "/$defs/acid": (["acid"], {"ingredient": "malic acid"}, []),
    "/$defs/calcium": (["calcium"], {"ingredient": "calcium lactate pentahydrate"}, []),
    "/$defs/limits": (["limits"], {}, []),
    "/$defs/calcium_limit": (["limits", "calcium_mg_per_l"], {}, []),
    "/$defs/ph_limit": (["limits", "ph"], {}, []),
    "/$defs/process": (["process"], {}, []),
    "/$defs/reading": (["measured"], {"ph": 3.6}, []),
    "/$defs/step": ([], {}, []),
    "/$defs/addition": ([], {}, []),
    "/$defs/batch": (["batch"], {}, []),
    "/$defs/scale": (
        ["batch", "scales", 0], {"name": "kitchen", "readability_g": 1, "capacity_g": 3000}, []),
    "/$defs/prices": (["prices"], {}, []),
    "/$defs/pack": (["prices", "packs", 0], {}, []),
    "/$defs/compare_with": (
        ["compare_with"], {"name": "pouches", "price": 2, "carbohydrate_g": 40}, []),
    "/$defs/pre_dosed": (["pre_dosed", 0], {"name": "tablet", "per_serving": 1}, []),
    "/$defs/water_report": (["tap"], {}, ["calcium_mg_per_l"]),
    "/$defs/blend": (["tap"], {"blend": [{"water": "demineralised water", "share": 1}]},
                     ["calcium_mg_per_l"]),
    "/$defs/ingredient": (
        ["define", "other"],
        {"kind": "mix", "contains": [{"ingredient": "sodium alginate", "fraction": 0.01},
                                     {"ingredient": "HM pectin", "fraction": 0.01}]}, []),
    "/$defs/part": (
        ["define", "fell mix", "contains", 0], {"ingredient": "sucrose", "fraction": 0.1}, []),
    "/$defs/label": (["define", "fell mix", "label"], {}, []),
    "/$defs/buffer": (
        ["define", "fell mix", "buffer"], {"carboxylate_mmol_per_g": 0.1, "pka": 4}, []),
    "/$defs/undeclared_gum": (
        ["define", "fell mix", "undeclared_gum"],
        {"ingredient": "HM pectin", "fraction_at_least": 0, "fraction_at_most": 0.1}, []),
    "/$defs/gum_choice": (["define", "fell mix", "undeclared_gums_any_of", 0], {}, []),
    "/$defs/learned": (
        ["define", "fell mix", "learned"],
        {"mix": "fell mix", "model": "gel-0", "cups": 6,
         "gums": [{"shifts": [0, 0, 0, 0], "covariance": [1, 0, 0, 0, 1, 0, 0, 1, 0, 1]}]}, []),
}
# Objects whose keys are tried within another one.
TRIED_ELSEWHERE = ("/$defs/blend_part", "/$defs/measured", "/$defs/learned_gum")
# Objects and keys that only recipe-1 has.
OF_RECIPE_1 = ("/$defs/process", "/$defs/calcium/when")
AMOUNT_OF = {"/$defs/acid": ("mass_g", "additions_g", "target_ph"),
             "/$defs/calcium": ("mass_g", "target_ratio")}
# Keys of a label that stand in the place of "per_g", and what they need.
LABEL_NEEDS = {"per": {"portion_g": 72, "pack_g": 72}, "portion_g": {"per": "portion"},
               "pack_g": {"per": "pack"}, "portions_in_pack": {"per": "portion", "pack_g": 1296}}
NEEDS = {"solids_g": {"total_g": 40}, "total_g": {"solids_g": 25},
         "degree_of_amidation":
         {"contains": [{"ingredient": "amidated pectin", "fraction": 0.02}]},
         "gum": {"target_ratio": 0.5}, "phenolphthalein_alkalinity_meq_per_l":
         {"alkalinity_meq_per_l": 1.2}}


# Beside the small recipe, for the examples that name something of it.
KITCHEN = {"format": "gelwright/kitchen-1", "vessels": [{"name": "blender jug", "volume_ml": 2000}]}
# Kitchens the reader refuses, and the schema with it.
BAD_KITCHENS = {
    "key unknown": {"vessel": []},
    "kitchen of its own": {"kitchen": "kitchen.json"},
    "tap": {"tap": "club house tap"},
    "format of a recipe": {"format": "gelwright/recipe-2"},
    "vessel without figures": {"vessels": [{"name": "jug"}]},
    "vessel without name": {"vessels": [{"volume_ml": 2000}]},
    "vessel of no volume": {"vessels": [{"name": "jug", "volume_ml": 0}]},
    "scale only named": {"scales": ["pocket"]},
    "price without currency": {"prices": {"packs": []}},
    "comparison without prices": {"compare_with": {"name": "a", "price": 1, "carbohydrate_g": 1}},
    "water of bad unit": {"waters": {"tap": {"calcium_g_per_l": 1}}},
    "built-in water": {"waters": {"demineralised water": {"calcium_mg_per_l": 1}}},
    "built-in name": {"define": {"sucrose": {"label": {"per_g": 1, "carbohydrate_g": 1}}}},
    "avoid a number": {"avoid": [1]},
}


def place(document, steps):
    """The object at `steps`, made where it is not there yet."""
    here = document
    for step, following in zip(steps, steps[1:] + [{}]):
        if isinstance(step, int):
            while len(here) <= step:
                here.append({})
        elif step not in here:
            here[step] = [] if isinstance(following, int) else {}
        here = here[step]
    return here


EVERYTHING = {"do": "add", "what": ["fell mix", "fructose"]}
HEAT = {"do": "heat", "to_c": 90}


def steps_to_try(where, key, example):
    """A whole process of the small recipe, with this one thing in it."""
    if where == "/$defs/addition":
        part = {"ingredient": "fructose", key: example}
        rest = {"ingredient": "fructose", "share": 1 - part.get("share", 1)}
        return [{"do": "add", "what": ["fell mix", part]}] + (
            [{"do": "add", "what": [rest]}] if rest["share"] > 0 else [])
    if key == "do":
        return {"add": [EVERYTHING], "heat": [EVERYTHING, HEAT],
                "cool": [EVERYTHING, HEAT, {"do": "cool", "to_c": 30}],
                "rest": [EVERYTHING, {"do": "rest", "hours": 2}],
                "fill": [EVERYTHING, {"do": "fill"}]}[example]
    if key == "what":
        return [{"do": "add", "what": example}, {"do": "add", "what": ["fell mix"]}]
    if key == "how" and example in ("poured", "slow"):
        return [EVERYTHING, {"do": "add", "what": ["water"], "how": example}]
    if key == "how" and example == "still":
        return [EVERYTHING, HEAT, {"do": "cool", "to_c": 30, "how": example}]
    if key == "to_c":
        return [EVERYTHING, {"do": "heat", "to_c": example}]
    if key in ("hours", "at_c", "open"):
        return [EVERYTHING, {"do": "rest", "hours": 2, key: example}]
    return [{**EVERYTHING, key: example}]


def examples_of(schema):
    if "examples" in schema:
        return schema["examples"]
    if "const" in schema:
        return [schema["const"]]
    if "enum" in schema:
        return schema["enum"]
    if schema.get("type") == "boolean":
        return [True, False]
    return []


def check_examples(schema, validator, program):
    tried = 0
    with tempfile.TemporaryDirectory() as folder:
        path = os.path.join(folder, "example.json")
        with open(os.path.join(folder, "kitchen.json"), "w", encoding="utf-8") as file:
            json.dump(KITCHEN, file)
        for where, each in walk(schema):
            if where.startswith(TRIED_ELSEWHERE):
                continue
            if where not in PLACES:
                fail(f"schema {where}: the check does not know where it sits")
                continue
            steps, stand_by, make_way = PLACES[where]
            for key, value in each["properties"].items():
                for example in examples_of(value):
                    document = copy.deepcopy(SMALL)
                    if (where + "/" + key).startswith(OF_RECIPE_1):
                        document["format"] = "gelwright/recipe-1"
                    here = place(document, steps)
                    needs = NEEDS.get(key, {})
                    for name in make_way:
                        here.pop(name, None)
                    if where == "/$defs/label" and key in LABEL_NEEDS:
                        needs = LABEL_NEEDS[key]
                        here.pop("per_g")
                    if where in ("/$defs/step", "/$defs/addition"):
                        document["process"] = steps_to_try(where, key, example)
                    else:
                        here.update({**stand_by, **needs, key: example})
                    amounts = AMOUNT_OF.get(where, ())
                    if amounts and not any(name in here for name in amounts):
                        here["mass_g"] = 0.2
                    if key == "vessel":
                        document["kitchen"] = "kitchen.json"
                    if key == "gum":
                        document["solids"].append(
                            {"ingredient": "sodium alginate" if example == "alginate" else example,
                             "mass_g": 0.3})
                    if here.get("when") == "insoluble_until_acid":
                        here["ingredient"] = "calcium carbonate"
                    for error in validator.iter_errors(document):
                        fail(f"example {where}/{key} {example!r}: {error.json_path}: "
                             f"{error.message}")
                    with open(path, "w", encoding="utf-8") as file:
                        json.dump(document, file)
                    result = run_check(program, path)
                    said = result.stderr.decode()
                    # A target out of reach is a valid document with a sad answer.
                    if result.returncode not in (0, 1) and "cannot be reached" not in said:
                        fail(f"example {where}/{key} {example!r}: exit {result.returncode}: {said}")
                    tried += 1
    return tried


def check_guide(validator, program, source):
    with open(os.path.join(source, "docs", "recipe.md"), encoding="utf-8") as file:
        blocks = re.findall(r"```json\n(.*?)```", file.read(), re.DOTALL)
    if len(blocks) < 10:
        fail(f"only {len(blocks)} pieces of JSON found in docs/recipe.md")
    with tempfile.TemporaryDirectory() as folder:
        path = os.path.join(folder, "guide.json")
        for block in blocks:
            whole = block.startswith("{")
            document = json.loads(block) if whole else {**SMALL, **json.loads("{" + block + "}")}
            for error in validator.iter_errors(document):
                fail(f"docs/recipe.md: {block}: {error.json_path}: {error.message}")
            with open(path, "w", encoding="utf-8") as file:
                json.dump(document, file)
            result = run_check(program, path)
            if result.returncode not in (0, 1):
                fail(f"docs/recipe.md: {block}: {result.stderr.decode()}")
    return len(blocks)


def check_kitchens(program, source):
    """The schema of the kitchen against good and bad ones, and against the reader."""
    schema = load(os.path.join(source, "docs", "kitchen.schema.json"))
    Draft202012Validator.check_schema(schema)
    validator = Draft202012Validator(schema)
    check_closed(schema)
    with open(os.path.join(source, "docs", "kitchen.md"), encoding="utf-8") as file:
        good = [json.loads(block)
                for block in re.findall(r"```json\n(.*?)```", file.read(), re.DOTALL)]
    good += [load(os.path.join(source, "recipes", "kitchen.json")), KITCHEN]
    with tempfile.TemporaryDirectory() as folder:
        recipe = os.path.join(folder, "recipe.json")
        kitchen = os.path.join(folder, "kitchen.json")
        with open(recipe, "w", encoding="utf-8") as file:
            json.dump({**SMALL, "kitchen": "kitchen.json"}, file)
        bad = [{**KITCHEN, **more} for more in BAD_KITCHENS.values()]
        for name, document, fine in [("good", each, True) for each in good] + [
                (name, each, False) for name, each in zip(BAD_KITCHENS, bad)]:
            with open(kitchen, "w", encoding="utf-8") as file:
                json.dump(document, file)
            if validator.is_valid(document) != fine:
                fail(f"kitchen, {name}: the schema {'refuses' if fine else 'accepts'} it")
            result = run_check(program, recipe)
            if (result.returncode in (0, 1)) != fine:
                fail(f"kitchen, {name}: exit {result.returncode}: {result.stderr.decode()}")
    return len(good), len(bad)


GOAL = {"format": "gelwright/goal-1", "name": "a goal", "form": "pouch", "carbohydrate_g": 40}
# Goals the reader refuses, and the schema with it.
BAD_GOALS = {
    "key unknown": {"colour": "red"},
    "number as text": {"carbohydrate_g": "40 g"},
    "no carbohydrate": {"carbohydrate_g": 0},
    "form unknown": {"form": "bar"},
    "texture unknown": {"texture": "wobbly"},
    "limit without a side": {"ph": {}},
    "sodium as a number": {"sodium_mg": 200},
    "two ways to say the water": {"serving_g": 80, "soluble_solids_percent": 50},
    "no sugars": {"sugars": []},
    "part of nothing": {"sugars": [{"ingredient": "fructose", "part": 0}]},
    "half a serving": {"servings": 1.5},
    "format of a recipe": {"format": "gelwright/recipe-2"},
}


def check_goals(program, source):
    """The schema of a goal against good and bad ones, and against the reader."""
    schema = load(os.path.join(source, "docs", "goal.schema.json"))
    Draft202012Validator.check_schema(schema)
    validator = Draft202012Validator(schema)
    check_closed(schema)
    with open(os.path.join(source, "docs", "goal.md"), encoding="utf-8") as file:
        good = [json.loads(block)
                for block in re.findall(r"```json\n(.*?)```", file.read(), re.DOTALL)]
    good += [load(path) for path in glob.glob(os.path.join(source, "recipes", "goals", "*.json"))]
    good += [GOAL]
    with tempfile.TemporaryDirectory() as folder:
        goal = os.path.join(folder, "goal.json")
        bad = [{**GOAL, **more} for more in BAD_GOALS.values()]
        for name, document, fine in [("good", each, True) for each in good] + [
                (name, each, False) for name, each in zip(BAD_GOALS, bad)]:
            with open(goal, "w", encoding="utf-8") as file:
                json.dump(document, file)
            if validator.is_valid(document) != fine:
                fail(f"goal, {name}: the schema {'refuses' if fine else 'accepts'} it")
            result = subprocess.run([program, "formulate", goal], capture_output=True, check=False)
            if (result.returncode in (0, 1)) != fine:
                fail(f"goal, {name}: exit {result.returncode}: {result.stderr.decode()}")
    return len(good), len(bad)


def main():
    program, source = sys.argv[1], sys.argv[2]
    schema = load(os.path.join(source, "docs", "recipe.schema.json"))
    Draft202012Validator.check_schema(schema)
    validator = Draft202012Validator(schema)
    check_closed(schema)
    check_messages(schema)
    recipes = check_recipes(validator, source)
    bad, excused = check_bad(validator, program, source)
    tried = check_examples(schema, validator, program)
    pieces = check_guide(validator, program, source)
    kitchens, bad_kitchens = check_kitchens(program, source)
    goals, bad_goals = check_goals(program, source)
    keys = len({key for _, each in walk(schema) for key in each["properties"]})
    print(f"{recipes} recipes, {bad} bad documents ({excused} beyond a schema), {tried} examples, "
          f"{pieces} pieces of the guide, {keys} keys, {kitchens} kitchens and {bad_kitchens} bad "
          f"ones, {goals} goals and {bad_goals} bad ones: {len(failures)} failures")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
