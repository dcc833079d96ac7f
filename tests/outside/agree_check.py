#!/usr/bin/python3
"""Holds reader and JSON Schemas against each other on documents made for it.

usage: agree_check.py DUMP_VERDICTS SOURCE_DIR

200 recipes and 100 kitchens are drawn from all that the guides allow, and one mistake is put into
each of as many more. Both have to accept every good one and to refuse every bad one. The validator is the jsonschema
package, which knows nothing of this program; the draws are the same on every run.
"""
import copy
import json
import os
import random
import subprocess
import sys

from jsonschema import Draft202012Validator

SUGARS = ["fructose", "sucrose", "dextrose monohydrate", "maltodextrin DE 12", "maltodextrin DE 7.5",
          "isomaltulose", "glucose syrup DE 42", "honey", "sorbitol", "sugar", "fruit sugar"]
GUMS = ["sodium alginate", "HM pectin", "LM pectin", "xanthan", "low-acyl gellan", "E 415"]
SALTS = ["sodium chloride", "trisodium citrate dihydrate", "sodium bicarbonate", "baking soda",
         "potassium chloride", "table salt", "magnesium lactate dihydrate"]
ACIDS = ["citric acid anhydrous", "malic acid", "tartaric acid", "lactic acid 80 %"]
DISSOLVING = ["calcium lactate pentahydrate", "calcium chloride dihydrate"]
NOT_DISSOLVING = ["calcium carbonate", "dicalcium phosphate dihydrate"]
SAME = {"sugar": "sucrose", "fruit sugar": "fructose", "E 415": "xanthan",
        "baking soda": "sodium bicarbonate", "table salt": "sodium chloride"}


def maybe(rng, chance=0.5):
    return rng.random() < chance


def number(rng, low, high):
    value = round(rng.uniform(low, high), 3)
    return {"value": value, "sd": round(value / 10, 4)} if maybe(rng, 0.2) else value


def amount(rng, low, high, unit):
    return f"{rng.randint(low, high)}{rng.choice(['', ' '])}{unit}"


def report(rng):
    water = {}
    if maybe(rng):
        key = rng.choice(["calcium_mg_per_l", "calcium_mmol_per_l", "calcium"])
        water[key] = amount(rng, 1, 40, "mg/l") if key == "calcium" else number(rng, 0, 1)
    # Never less hardness than the calcium alone makes, which a schema cannot see.
    if maybe(rng):
        key = rng.choice(["hardness_german_degrees", "hardness_mg_caco3_per_l", "hardness"])
        water[key] = (amount(rng, 110, 300, "ppm as CaCO3") if key == "hardness"
                      else number(rng, 110, 300))
    if maybe(rng):
        key = rng.choice(["alkalinity_meq_per_l", "acid_capacity_mmol_per_l", "alkalinity"])
        water[key] = amount(rng, 10, 300, "mg/L HCO3") if key == "alkalinity" else number(rng, 1, 5)
        if key != "alkalinity" and maybe(rng, 0.3):
            water["phenolphthalein_alkalinity_meq_per_l"] = 0.1
    if maybe(rng, 0.4):
        water["ph"] = round(rng.uniform(6, 9), 1)
    if maybe(rng, 0.2):
        water["carbonated"] = maybe(rng)
    if maybe(rng, 0.3):
        water["sulfate_mg_per_l"] = number(rng, 0, 50)
    if maybe(rng, 0.3) or not water:
        water["name"] = "club house tap"
    return water


def tap(rng, waters):
    kind = rng.choice(["report", "name", "shares", "parts"])
    if kind == "report":
        return report(rng)
    if kind == "name":
        return rng.choice(waters + ["demineralised water"])
    first, second = rng.choice([(0.4, 0.6), (0.25, 0.75)])
    if kind == "parts":
        first, second = rng.choice([(40, 60), (2, 1)])
    key = "share" if kind == "shares" else "parts"
    return {"blend": [{"water": rng.choice(waters + [report(rng)]), key: first},
                      {"water": "demineralised water", key: second}]}


def label(rng):
    figures = {"carbohydrate_g": 36, "sugars_g": round(rng.uniform(0, 25), 1)}
    if maybe(rng):
        figures[rng.choice(["sodium_mg", "salt_g"])] = round(rng.uniform(0, 1), 2)
    for key in ("fibre_g", "protein_g", "fat_g"):
        if maybe(rng, 0.2):
            figures[key] = round(rng.uniform(0, 0.5), 2)
    for key in ("potassium_mg", "calcium_mg", "magnesium_mg"):
        if maybe(rng, 0.2):
            figures[key] = rng.randint(0, 90)
    if maybe(rng, 0.2):
        figures["energy_kcal"] = 144
    if maybe(rng, 0.2):
        figures["glucose_to_fructose"] = rng.choice([2, "2:1", "1 : 0.8", "60/30"])
        del figures["sugars_g"]
    kind = rng.choice(["per_g", "100 g", "portion", "portions", "pack"])
    if kind == "per_g":
        figures["per_g"] = 40
    else:
        figures["per"] = "portion" if kind == "portions" else kind
        figures.update({"100 g": {}, "portion": {"portion_g": 40}, "pack": {"pack_g": 40},
                        "portions": {"pack_g": 720, "portions_in_pack": 18}}[kind])
    return figures


def mix(rng):
    made = {"kind": rng.choice(["mix", "mix", "syrup"]), "label": label(rng)}
    if maybe(rng, 0.3):
        made["note"] = "off its label"
    if maybe(rng, 0.2):
        made["contains"] = [{"ingredient": each} for each in
                            rng.sample(["fructose", "maltodextrin DE 12", "sodium chloride"], 2)]
    elif maybe(rng, 0.3):
        made["contains"] = [{"ingredient": rng.choice(SUGARS + SALTS), "fraction": 0.1},
                            {"ingredient": "sodium alginate", "fraction": 0.01}]
        if maybe(rng):
            made["guluronate_share"] = 0.6
    elif maybe(rng, 0.3):
        made["undeclared_gum"] = {"ingredient": rng.choice(GUMS), "fraction_at_least": 0.005,
                                  "fraction_at_most": 0.015}
    if maybe(rng, 0.2):
        made["buffer"] = {"carboxylate_mmol_per_g": number(rng, 0.01, 0.2), "pka": 4.2}
    if maybe(rng, 0.2):
        made["allergens"] = ["milk"]
    return made


def steps(rng, recipe):
    names = [line["ingredient"] for line in recipe["solids"]]
    cut = rng.randint(0, len(names))
    process = [{"do": "add", "what": each} for each in (names[:cut], names[cut:]) if each]
    if maybe(rng, 0.3):
        shared = process[-1]["what"].pop()
        process[-1]["what"].append({"ingredient": shared, "share": 0.25})
        process.append({"do": "add", "what": [{"ingredient": shared, "share": 0.75}]})
    if maybe(rng, 0.2):
        process.append({"do": "add", "what": ["water"], "how": rng.choice(["poured", "slow"])})
    for step in process:
        if maybe(rng, 0.3) and "how" not in step:
            step["how"] = rng.choice(["stirred", "shaken", "under_blade"])
    if maybe(rng, 0.3):
        process[0]["into"] = "water"
    for dose in ("acid", "calcium"):
        if dose in recipe:
            process.append({"do": "add", "what": [dose]})
            if maybe(rng):
                process[-1]["how"] = rng.choice(["poured", "slow", "stirred", "under_blade"])
            if maybe(rng, 0.3):
                process[-1]["into"] = names[0]
    if maybe(rng, 0.3):
        process[0]["minutes"] = 2
    if maybe(rng, 0.3):
        process += [{"do": "heat", "to_c": 85, "minutes": 3}, {"do": "cool", "to_c": 20}]
        if maybe(rng):
            process[-1]["how"] = rng.choice(["still", "stirred"])
    if maybe(rng):
        process.append({"do": "rest", "hours": 12, **rng.choice([{}, {"at_c": 20}])})
    if maybe(rng):
        process.append({"do": "fill"})
    return process


def good(rng):
    recipe = {"format": rng.choice(["gelwright/recipe-1", "gelwright/recipe-2"]), "name": "drawn",
              "form": rng.choice(["pouch", "drink"])}
    first = recipe["format"] == "gelwright/recipe-1"
    if maybe(rng, 0.3):
        recipe["note"] = "All figures invented."
    if maybe(rng, 0.5):
        recipe["define"] = {"fell mix": mix(rng)}
    names = rng.sample(SUGARS, rng.randint(1, 3)) + rng.sample(GUMS, rng.randint(0, 2))
    names += rng.sample(SALTS, rng.randint(0, 2)) + (["fell mix"] if "define" in recipe else [])
    solids, seen = [], set()
    for name in names:
        if SAME.get(name, name) not in seen:
            seen.add(SAME.get(name, name))
            # A good deal of the first one, so that a stock solution finds its water.
            mass_g = number(rng, 0.2 if solids else 30, 60)
            # No more of a salt than the water of one serving dissolves.
            if name in SALTS and (mass_g["value"] if isinstance(mass_g, dict) else mass_g) > 10:
                mass_g = 10
            solids.append({"ingredient": name, "mass_g": mass_g})
    recipe["solids"] = solids
    recipe["water"] = rng.choice([{"fraction_of_total": 0.333}, {"per_g_solids": 0.5},
                                  {"mass_g": 48}, {"solids_g": 25, "total_g": 40}])
    if maybe(rng, 0.7):
        recipe["acid"] = {"ingredient": rng.choice(ACIDS),
                          **rng.choice([{"mass_g": number(rng, 0.1, 1)}, {"additions_g": [0.2, 0.1]},
                                        {"target_ph": 3.6}])}
        if maybe(rng, 0.2):
            recipe["acid"]["stock_percent"] = 20
    if maybe(rng, 0.3):
        dissolves = maybe(rng)
        recipe["calcium"] = {"ingredient": rng.choice(DISSOLVING if dissolves else NOT_DISSOLVING)}
        if first:
            recipe["calcium"]["when"] = rng.choice(
                ["fast", "slow"] if dissolves else ["slow", "insoluble_until_acid"])
        if "sodium alginate" in seen and maybe(rng):
            recipe["calcium"].update({"target_ratio": 0.4, "gum": "alginate"})
        else:
            recipe["calcium"]["mass_g"] = number(rng, 0.01, 0.3)
    if maybe(rng, 0.6):
        waters = ["kitchen tap", "fell spring"]
        recipe["waters"] = {name: report(rng) for name in waters}
        recipe["tap"] = tap(rng, waters)
    if maybe(rng, 0.3):
        recipe["limits"] = {"calcium_mg_per_l": {"at_most": 40}, "ph": {"at_least": 3, "at_most": 4}}
    if maybe(rng, 0.5):
        recipe["batch"] = {"servings": rng.randint(1, 12), "loss_percent": rng.randint(0, 5),
                           "scales": [{"name": "kitchen", "readability_g": 1, "capacity_g": 3000}]}
    if maybe(rng, 0.3):
        recipe["prices"] = {"currency": "GBP", "packs": [
            {"ingredient": solids[0]["ingredient"], "pack_g": 1000, "price": 4.5}]}
        if maybe(rng):
            recipe["compare_with"] = {"name": "ready-made pouches", "price": 2.15,
                                      "carbohydrate_g": 40}
    if maybe(rng, 0.2):
        recipe["pre_dosed"] = [{"name": "tablet", "per_serving": 1, "sodium_mg": 100}]
    if maybe(rng, 0.2):
        recipe["avoid"] = ["gluten"]
    if maybe(rng, 0.4):
        recipe["process"] = (steps(rng, recipe) if not first else rng.choice(
            [{}, {"acid_added": "under_blade", "rest_hours": 12}, {"gum_dispersed": "dry"},
             {"measured_ph": 3.6, "measured_with": "strips", "heated_to_c": 85}]))
    if maybe(rng, 0.3) and not first:
        recipe["measured"] = {"ph": 3.6, **rng.choice([{}, {"with": "strips"}])}
    if maybe(rng, 0.3) and not first:
        recipe["eaten_at_c"] = rng.randint(0, 60)
    return recipe


def good_kitchen(rng):
    kitchen = {"format": "gelwright/kitchen-1"}
    if maybe(rng, 0.3):
        kitchen["note"] = "All figures invented."
    if maybe(rng, 0.7):
        kitchen["waters"] = {"kitchen tap": report(rng), "fell spring": report(rng)}
        if maybe(rng):
            kitchen["waters"]["blend"] = tap(rng, ["kitchen tap", "fell spring"])
    if maybe(rng, 0.7):
        kitchen["define"] = {"fell mix": mix(rng)}
    if maybe(rng, 0.7):
        kitchen["scales"] = [{"name": "kitchen", "readability_g": 1, "capacity_g": 3000},
                             {"name": "pocket", "readability_g": 0.01, "capacity_g": 200}]
        if maybe(rng, 0.3):
            kitchen["scales"][0]["repeatability_g"] = 1
    if maybe(rng, 0.6):
        kitchen["vessels"] = [{"name": "jug", "volume_ml": rng.randint(500, 3000)},
                              {"name": "bowl", "mass_g": rng.randint(100, 900)}]
    if maybe(rng, 0.7):
        kitchen["prices"] = {"currency": "GBP", "packs": [
            {"ingredient": each, "pack_g": rng.randint(100, 2000), "price": 4.5}
            for each in [rng.choice(GUMS), rng.choice(SALTS)]
            + (["fell mix"] if "define" in kitchen else [])]}
        if maybe(rng):
            kitchen["compare_with"] = {"name": "ready-made pouches", "price": 2.15,
                                       "carbohydrate_g": 40}
    if maybe(rng, 0.3):
        kitchen["avoid"] = ["gluten"]
    return kitchen


def steps_to(value, wanted, path=()):
    """The paths to everything in the document that `wanted` picks."""
    if wanted(path, value):
        yield path
    if isinstance(value, dict):
        for key, each in value.items():
            yield from steps_to(each, wanted, path + (key,))
    if isinstance(value, list):
        for index, each in enumerate(value):
            yield from steps_to(each, wanted, path + (index,))


def at(document, path):
    for step in path:
        document = document[step]
    return document


def set_at(document, path, value):
    at(document, path[:-1])[path[-1]] = value


def is_number(value):
    return isinstance(value, (int, float)) and not isinstance(value, bool)


def named(path):
    """An object whose keys are names, or the whole of such a place."""
    return path[-1:] in (("define",), ("waters",))


# Each takes a good document and puts one mistake into it; False where it finds no place for it.
def unknown_key(rng, document):
    places = [p for p in steps_to(document, lambda p, v: isinstance(v, dict)) if not named(p)]
    at(document, rng.choice(places))[rng.choice(["colour", "servngs", "mass_kg", "carbs_g"])] = 1
    return True


def missing_key(rng, document):
    needed = [("format",), ("name",), ("form",), ("solids",), ("water",), ("solids", 0, "mass_g"),
              ("solids", 0, "ingredient"), ("acid", "ingredient"), ("calcium", "when"),
              ("prices", "currency"), ("prices", "packs", 0, "price"), ("compare_with", "name"),
              ("define", "fell mix", "kind"), ("batch", "scales", 0, "readability_g"),
              ("define", "fell mix", "undeclared_gum", "fraction_at_most"),
              ("pre_dosed", 0, "per_serving"), ("tap", "blend", 0, "water")]
    return take_out(rng, document, needed)


def take_out(rng, document, needed):
    there = []
    for path in needed:
        try:
            at(document, path)
            there.append(path)
        except (KeyError, IndexError, TypeError):
            pass
    path = rng.choice(there)
    del at(document, path[:-1])[path[-1]]
    return True


def wrong_type(rng, document):
    path = rng.choice([p for p in steps_to(document, lambda p, v: not isinstance(v, (dict, list)))])
    here = at(document, path)
    set_at(document, path, rng.choice([None, 7 if isinstance(here, bool) else True, ["x"],
                                       7 if isinstance(here, str) else "7"]))
    return True


def out_of_bounds(rng, document):
    places = list(steps_to(document, lambda p, v: is_number(v)))
    if not places:
        return False
    path = rng.choice(places)
    set_at(document, path, rng.choice([-1, 1e12]))
    return True


def second_way(rng, document):
    places = [(("water",), "per_g_solids", 0.5), (("water",), "mass_g", 5),
              (("acid",), "target_ph", 3.3), (("acid",), "mass_g", 0.3),
              (("calcium",), "mass_g", 0.3), (("calcium",), "target_ratio", 0.3),
              (("define", "fell mix", "label"), "per", "100 g"),
              (("define", "fell mix", "label"), "per_g", 40),
              (("define", "fell mix", "label"), "salt_g", 0.2),
              (("define", "fell mix", "label"), "sodium_mg", 0.2),
              (("tap", "blend", 1), "share", 0.5), (("tap", "blend", 1), "parts", 1),
              (("waters", "kitchen tap"), "hardness", "7 dH"),
              (("waters", "kitchen tap"), "hardness_german_degrees", 7),
              (("waters", "kitchen tap"), "calcium", "50 mg/L")]
    rng.shuffle(places)
    groups = [{"fraction_of_total", "per_g_solids", "mass_g", "solids_g"},
              {"additions_g", "target_ph", "mass_g"}, {"mass_g", "target_ratio"},
              {"per", "per_g"}, {"salt_g", "sodium_mg"}, {"share", "parts"},
              {"hardness", "hardness_german_degrees", "hardness_mg_caco3_per_l"},
              {"calcium", "calcium_mg_per_l", "calcium_mmol_per_l"}]
    for path, key, value in places:
        try:
            here = at(document, path)
        except (KeyError, IndexError, TypeError):
            continue
        if isinstance(here, dict) and key not in here and any(
                key in group and group & set(here) for group in groups):
            here[key] = value
            return True
    return False


def no_way(rng, document):
    for path, keys in rng.sample([(("water",), None), (("acid",), ("mass_g", "additions_g", "target_ph")),
                                  (("define", "fell mix", "label"), ("per_g", "per")),
                                  (("limits", "ph"), None)], 4):
        try:
            here = at(document, path)
        except (KeyError, IndexError, TypeError):
            continue
        for key in list(here) if keys is None else keys:
            here.pop(key, None)
        return True
    return False


def wrong_word(rng, document):
    words = ("form", "when", "kind", "format", "per", "gum")
    places = list(steps_to(document, lambda p, v: p and p[-1] in words and isinstance(v, str)))
    set_at(document, rng.choice(places), "whatever")
    return True


def wrong_kind(rng, document):
    places = [("solids", 0, "ingredient")] + [(each, "ingredient") for each in ("acid", "calcium")
                                               if each in document]
    path = rng.choice(places)
    set_at(document, path, {"solids": "malic acid", "acid": "sucrose",
                            "calcium": "citric acid anhydrous"}[path[0]])
    return True


def bad_list(rng, document):
    path = rng.choice([("solids",)] + ([("acid", "additions_g")]
                                       if "additions_g" in document.get("acid", {}) else []))
    here = at(document, path)
    set_at(document, path, [] if maybe(rng) else here * 101)
    return True


def bad_text(rng, document):
    key = rng.choice([("name",), ("solids", 0, "ingredient")])
    set_at(document, key, rng.choice(["", "   ", "two\nlines", "\u001b[2J", "x" * 1001, "\u0085"]))
    return True


def bad_amount(rng, document):
    document["tap"] = {rng.choice(["calcium", "hardness", "alkalinity", "sodium"]):
                       rng.choice(["23", "mg/L", "", 23, "-1 mg/L", "7,5 dH", {"value": 3, "sd": 1}])}
    return True


def wrong_step(rng, document):
    """What a step does not go with, or a format does not know."""
    if document["format"] == "gelwright/recipe-1":
        rng.choice([lambda: document.update(process=[{"do": "fill"}]),
                    lambda: document.update(measured={"ph": 3.6}),
                    lambda: document.update(process={"acid_added": "thrown"})])()
        return True
    if maybe(rng, 0.3):
        document.update(rng.choice([{"process": {"rest_hours": 12}}, {"process": []},
                                    {"measured": {"with": "meter"}}, {"measured": {"ph": 15}},
                                    {"measured": 3.6}, {"eaten_at_c": 90}]))
        return True
    wrong = rng.choice([{"do": "heat"}, {"do": "rest", "hours": 3, "to_c": 20}, {"do": "add"},
                        {"do": "cool", "hours": 3}, {"do": "fill", "what": ["water"]}, {"hours": 3},
                        {"do": "rest", "hours": -1}, {"do": "wait"}, {"do": "add", "what": []},
                        {"do": "add", "what": ["water"], "how": "thrown"},
                        {"do": "add", "what": ["water"], "into": 7},
                        {"do": "add", "what": [{"ingredient": "water", "share": 2}]},
                        {"do": "add", "what": [{"share": 0.5}]}])
    document["process"] = steps(rng, document) + [wrong]
    return True


def missing_of_kitchen(rng, document):
    needed = [("format",), ("scales", 0, "name"), ("scales", 1, "readability_g"),
              ("scales", 0, "capacity_g"), ("vessels", 0, "name"), ("vessels", 0, "volume_ml"),
              ("prices", "currency"), ("prices", "packs", 0, "ingredient"),
              ("prices", "packs", 1, "pack_g"), ("compare_with", "price"),
              ("define", "fell mix", "kind")]
    return take_out(rng, document, needed)


def without_prices(rng, document):
    return document.pop("prices", None) is not None and "compare_with" in document


def key_of_a_recipe(rng, document):
    document.update(rng.choice([{"kitchen": "kitchen.json"}, {"solids": []}, {"tap": "kitchen tap"},
                                {"format": "gelwright/recipe-2"}, {"name": "hut"}]))
    return True


def wrong_section(rng, document):
    key = rng.choice(["waters", "define", "scales", "vessels", "prices", "compare_with", "avoid"])
    document[key] = rng.choice([7, "x", None, True, [[]]])
    return True


def lacks_companion(rng, document):
    document.pop("prices", None)
    document["water"] = {"mass_g": 40}
    rng.choice([lambda: document.update(compare_with={"name": "x", "price": 2, "carbohydrate_g": 40}),
                lambda: document.update(water={"total_g": 40}),
                lambda: document.update(water={"solids_g": 40}),
                lambda: document.update(tap={"phenolphthalein_alkalinity_meq_per_l": 0.1}),
                lambda: document.update(define={"other mix": {"kind": "mix", "label": {
                    "per": rng.choice(["portion", "pack"]), "carbohydrate_g": 30}}}),
                lambda: document.update(define={"other mix": {"kind": "mix", "label": {
                    "per_g": 40, "portion_g": 40, "carbohydrate_g": 30}}}),
                lambda: document.update(define={"other mix": {"kind": "mix"}})])()
    document["solids"] = [{"ingredient": "fructose", "mass_g": 40}]
    document.pop("calcium", None)
    return True


MISTAKES = [unknown_key, missing_key, wrong_type, out_of_bounds, second_way, no_way, wrong_word,
            wrong_kind, wrong_step, bad_list, bad_text, bad_amount, lacks_companion]
KITCHEN_MISTAKES = [unknown_key, missing_of_kitchen, wrong_type, out_of_bounds, without_prices,
                    key_of_a_recipe, wrong_section]


def documents(good_one, mistakes, each):
    rng = random.Random(20261125)
    for _ in range(each):
        yield "good", good_one(rng)
    made = 0
    while made < each:
        mistake = mistakes[made % len(mistakes)]
        document = copy.deepcopy(good_one(rng))
        if mistake(rng, document):
            made += 1
            yield mistake.__name__, document


def failures_of(dump, source, what, good_one, mistakes, each):
    with open(os.path.join(source, "docs", f"{what}.schema.json"), encoding="utf-8") as file:
        validator = Draft202012Validator(json.load(file))
    made = list(documents(good_one, mistakes, each))
    lines = "".join(json.dumps(document) + "\n" for _, document in made)
    verdicts = subprocess.run([dump] + ([] if what == "recipe" else [what]), input=lines,
                              capture_output=True, text=True, check=True).stdout.splitlines()
    failures = 0
    for (kind, document), verdict in zip(made, verdicts, strict=True):
        wanted = kind == "good"
        errors = [f"{e.json_path}: {e.message}" for e in validator.iter_errors(document)]
        if (verdict == "good") != wanted or (not errors) != wanted:
            failures += 1
            print("FAIL", kind, json.dumps(document)[:1500])
            print("   reader:", verdict[:300])
            print("   schema:", (errors or ["good"])[0][:300])
    print(f"{len(made)} documents ({what}), {each} of them with a mistake of {len(mistakes)} kinds: "
          f"{failures} failures")
    return failures


def main():
    dump, source = sys.argv[1], sys.argv[2]
    failures = failures_of(dump, source, "recipe", good, MISTAKES, 200)
    failures += failures_of(dump, source, "kitchen", good_kitchen, KITCHEN_MISTAKES, 100)
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
