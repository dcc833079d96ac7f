// A recipe read with its kitchen: what it takes, who wins, where mistakes are reported, and the one
// document the two come to.
#include <algorithm>
#include <nlohmann/json.hpp>
#include <set>

#include "catch.hpp"
#include "gelwright/evaluate.hpp"
#include "gelwright/fit.hpp"
#include "gelwright/recipe_edit.hpp"
#include "gelwright/sheet.hpp"
#include "recipes.hpp"

using namespace gelwright;
using test::refusal_of;

namespace {

const std::string kitchen_text = R"({
  "format": "gelwright/kitchen-1",
  "waters": {
    "hut tap": {"calcium_mg_per_l": {"value": 23, "sd": 4}, "alkalinity_mg_caco3_per_l": 58},
    "becks": {"calcium_mg_per_l": 80, "alkalinity_mg_caco3_per_l": 190},
    "half and half": {"blend": [{"water": "hut tap", "share": 0.5},
                                {"water": "becks", "share": 0.5}]}
  },
  "define": {
    "fell mix": {"kind": "mix", "label": {"per_g": 72, "carbohydrate_g": 68, "sugars_g": 31, "sodium_mg": 250}},
    "fell mix with gum": {"kind": "mix", "contains": [{"ingredient": "fell mix", "fraction": 0.99},
                                       {"ingredient": "sodium alginate", "fraction": 0.01}]},
    "other mix": {"kind": "mix", "label": {"per_g": 50, "carbohydrate_g": 40}}
  },
  "scales": [
    {"name": "kitchen", "readability_g": 1, "capacity_g": 5000},
    {"name": "pocket", "readability_g": 0.01, "capacity_g": 200}
  ],
  "vessels": [{"name": "jug", "volume_ml": 2000, "mass_g": 620}, {"name": "pan", "volume_ml": 900}],
  "prices": {"currency": "GBP", "packs": [
    {"ingredient": "other mix", "pack_g": 1000, "price": 9},
    {"ingredient": "fell mix", "pack_g": 1500, "price": 21.6},
    {"ingredient": "sucrose", "pack_g": 1000, "price": 1.1}
  ]},
  "compare_with": {"name": "ready-made pouches", "price": 2.15, "carbohydrate_g": 40},
  "avoid": ["milk"]
})";

const KitchenDocument hut{kitchen_text, "hut/kitchen.json"};

std::string recipe_text(const std::string& members) {
  return R"({"format": "gelwright/recipe-1", "name": "test", "form": "pouch", "kitchen": "k.json",
  )" + members +
         "}";
}

Recipe read(const std::string& members, const std::string& kitchen = kitchen_text) {
  return read_recipe(recipe_text(members), "r.json", KitchenDocument{kitchen, "hut/kitchen.json"});
}

/// Every problem with the file it is in.
template <class Call>
std::string complaint(Call call) {
  try {
    call();
  } catch (const InputError& error) {
    return error.what();
  }
  return "accepted";
}

const std::string plain = R"("solids": [{"ingredient": "fell mix", "mass_g": 70},
  {"ingredient": "sucrose", "mass_g": 5}], "water": {"mass_g": 40}, "tap": "hut tap")";

/// The kitchen with one part of it replaced.
std::string kitchen_with(const std::string& key, const std::string& value) {
  auto kitchen = nlohmann::ordered_json::parse(kitchen_text);
  kitchen[key] = nlohmann::ordered_json::parse(value);
  return kitchen.dump();
}

std::string sheet_of(const Recipe& recipe) {
  const Inputs inputs = as_measured(resolve(recipe));
  const Evaluation evaluation = evaluate(inputs);
  return render(sheet_report(inputs, evaluation, advise(inputs, evaluation)), Format::json);
}

}  // namespace

TEST_CASE("a recipe takes from its kitchen what it names, and no more") {
  const Recipe recipe = read(plain + R"(, "batch": {"servings": 4, "vessel": "jug"})");
  CHECK(recipe.ingredients.size() == 2);
  REQUIRE(recipe.tap);
  CHECK(*recipe.tap->water.mg_per_l[Ion::calcium] == 23);
  CHECK(*recipe.tap->sd.mg_per_l[Ion::calcium] == 4);
  CHECK(*recipe.batch.vessel_ml == 2000);
  CHECK(recipe.batch.bowl_g == 620);
  REQUIRE(recipe.batch.scales.size() == 2);  // all of them, as it says nothing of scales
  CHECK(recipe.batch.scales[1].name == "pocket");
  CHECK(recipe.currency == "GBP");
  REQUIRE(recipe.packs.size() == 2);  // not of the mix it does not use
  CHECK(recipe.compare_with->price == 2.15);
  CHECK(recipe.avoid == std::vector<std::string>{"milk"});

  REQUIRE(recipe.kitchen);
  CHECK(recipe.kitchen->document == "hut/kitchen.json");
  const auto given = [&](KitchenPart part) {
    std::string places;
    for (const FromKitchen& each : recipe.kitchen->gives)
      if (each.part == part)
        places += each.name + " " + each.where + " <- " + each.kitchen_where + "\n";
    return places;
  };
  CHECK(given(KitchenPart::ingredient) == "fell mix /define/fell mix <- /define/fell mix\n");
  CHECK(given(KitchenPart::water) == "hut tap /waters/hut tap <- /waters/hut tap\n");
  CHECK(given(KitchenPart::vessel) ==
        "jug /batch/vessel_ml <- /vessels/0/volume_ml\njug /batch/bowl_g <- /vessels/0/mass_g\n");
  CHECK(given(KitchenPart::scale) ==
        "kitchen /batch/scales/0 <- /scales/0\npocket /batch/scales/1 <- /scales/1\n");
  CHECK(given(KitchenPart::price) ==
        "fell mix /prices/packs/0 <- /prices/packs/1\nsucrose /prices/packs/1 <- "
        "/prices/packs/2\n");
  CHECK(given(KitchenPart::avoid) == "milk /avoid/0 <- /avoid/0\n");
}

TEST_CASE("a kitchen gives what its waters and mixes are made of, too") {
  const Recipe recipe = read(R"("solids": [{"ingredient": "fell mix with gum", "mass_g": 70}],
    "water": {"mass_g": 40}, "tap": "half and half")");
  CHECK(recipe.ingredients[0].per_g.gum(Gum::alginate) > 0);
  CHECK(*recipe.tap->water.mg_per_l[Ion::calcium] == (23.0 + 80.0) / 2);
}

TEST_CASE("the recipe wins where both speak") {
  const Recipe recipe = read(R"(
    "define": {"fell mix": {"kind": "mix", "label": {"per_g": 100, "carbohydrate_g": 90, "sodium_mg": 1}}},
    "waters": {"hut tap": {"calcium_mg_per_l": 5, "alkalinity_mg_caco3_per_l": 10}},
    "solids": [{"ingredient": "fell mix", "mass_g": 70}, {"ingredient": "sugar", "mass_g": 5}],
    "water": {"mass_g": 40}, "tap": "half and half",
    "batch": {"vessel": "jug", "bowl_g": 100, "scales": ["pocket",
      {"name": "kitchen", "readability_g": 0.1, "capacity_g": 900}]},
    "prices": {"currency": "GBP", "packs": [{"ingredient": "sugar", "pack_g": 500, "price": 2}]},
    "compare_with": {"name": "bottles", "price": 3, "carbohydrate_g": 50},
    "avoid": ["gluten"])");
  CHECK(recipe.ingredients[0].per_g.carbohydrate_g == 0.9);
  CHECK(*recipe.tap->water.mg_per_l[Ion::calcium] == (5.0 + 80.0) / 2);
  CHECK(*recipe.batch.vessel_ml == 2000);
  CHECK(recipe.batch.bowl_g == 100);
  CHECK(recipe.batch.scales[0].capacity_g == 200);
  CHECK(recipe.batch.scales[1].capacity_g == 900);
  REQUIRE(recipe.packs.size() == 2);  // "sugar" and "sucrose" are one thing
  CHECK(recipe.packs[0].price == 2);
  CHECK(recipe.packs[1].price == 21.6);
  CHECK(recipe.compare_with->name == "bottles");
  CHECK(recipe.avoid == std::vector<std::string>{"gluten", "milk"});  // a warning is never lost
  CHECK(read(plain + R"(, "batch": {"scales": []})").batch.scales.empty());
}

TEST_CASE("prices in another currency stay out, and that is said") {
  const Recipe recipe = read(plain + R"(, "prices": {"currency": "EUR", "packs": [
    {"ingredient": "sucrose", "pack_g": 1000, "price": 1}]})");
  CHECK(recipe.packs.size() == 1);
  CHECK_FALSE(recipe.compare_with);
  CHECK(std::any_of(recipe.assumed.begin(), recipe.assumed.end(), [](const Assumption& each) {
    return each.what == "prices of the kitchen" &&
           each.why == "they are in GBP, the recipe's own in EUR" &&
           each.kitchen == "hut/kitchen.json";
  }));
}

TEST_CASE("what is assumed of something from the kitchen points into the kitchen") {
  const Recipe recipe = read(plain);
  const auto of_mix = std::find_if(
      recipe.assumed.begin(), recipe.assumed.end(),
      [](const Assumption& each) { return each.where == "/define/fell mix/label/carbohydrate_g"; });
  REQUIRE(of_mix != recipe.assumed.end());
  CHECK(of_mix->kitchen == "hut/kitchen.json");
  CHECK(std::none_of(recipe.assumed.begin(), recipe.assumed.end(), [](const Assumption& each) {
    return each.where.find("other mix") != std::string::npos;  // nothing of what is not used
  }));
}

TEST_CASE("a mistake is reported in the file it is in") {
  CHECK(complaint(
            [] { read(plain, kitchen_with("vessels", R"([{"name": "a"}, {"nmae": "b"}])")); }) ==
        "hut/kitchen.json: /vessels/0: nothing is said of the vessel; add \"volume_ml\" or "
        "\"mass_g\"\n"
        "hut/kitchen.json: /vessels/1/name: this key is missing; add \"name\", as in \"name\": "
        "\"blender jug\"\n"
        "hut/kitchen.json: /vessels/1: nothing is said of the vessel; add \"volume_ml\" or "
        "\"mass_g\"\n"
        "hut/kitchen.json: /vessels/1/nmae: this key is not known; did you mean \"name\"?");
  // Whether a recipe uses it or not.
  CHECK(complaint([] {
          read(plain,
               kitchen_with("define", R"({"unused": {"kind": "mix", "label": {"per_g": -1}}})"));
        }).starts_with("hut/kitchen.json: /define/unused/label/per_g: -1 is not possible here"));
  CHECK(complaint([] { read(plain, "{"); }).starts_with("hut/kitchen.json: not valid JSON"));
  CHECK(complaint([] { read(plain, "[]"); }) ==
        "hut/kitchen.json: expected a kitchen object; start with {");
  // A fault of the two together stands where the figure does.
  CHECK(complaint([] {
          read(plain, kitchen_with("vessels", R"([{"name": "anvil", "mass_g": 50000}])"));
        }) == "accepted");
  CHECK(complaint([] {
          read(plain + R"(, "batch": {"vessel": "anvil", "servings": 0})",
               kitchen_with("vessels", R"([{"name": "anvil", "mass_g": 50000}])"));
        }) ==
        "r.json: /batch/servings: 0 is not possible here; give a whole number of at least 1 and at "
        "most 100000\n"
        "hut/kitchen.json: /vessels/0/mass_g: no scale can carry the bowl: the largest takes 5000 "
        "g; check the bowl and \"capacity_g\"");
}

TEST_CASE("faults of the kitchen and of the recipe are told together") {
  const std::string recipe = R"("solids": [{"ingredient": "fell mix", "mass_g": 0},
      {"ingredient": "fructosee", "mass_g": 2}], "water": {"mass_g": 40}, "tap": "hut tap",
      "batch": {"vessel": "jug", "scales": ["pocket"], "servings": 0})";
  const std::string of_recipe =
      "\nr.json: /solids/0/mass_g: 0 is not possible here; give a number of at least 0.000001 and "
      "at "
      "most 1000000\n"
      "r.json: /solids/1/ingredient: ingredient \"fructosee\" is not known; did you mean "
      "\"fructose\"?\n"
      "r.json: /batch/servings: 0 is not possible here; give a whole number of at least 1 and at "
      "most 100000";
  // A name its kitchen has, or may have, is not the recipe's fault.
  const std::string broken_mix =
      complaint([&] { read(recipe, kitchen_with("define", R"({"fell mix": {"kind": "mox"}})")); });
  CHECK(broken_mix.starts_with("hut/kitchen.json: /define/fell mix/kind: \"mox\" is not known"));
  CHECK(broken_mix.ends_with(of_recipe));
  // Where no name of the kitchen can be told, any may be in it.
  CHECK(
      complaint([&] { read(recipe, "[]"); }) ==
      "hut/kitchen.json: expected a kitchen object; start with {\n"
      "r.json: /solids/0/mass_g: 0 is not possible here; give a number of at least 0.000001 and at "
      "most 1000000\n"
      "r.json: /batch/servings: 0 is not possible here; give a whole number of at least 1 and at "
      "most 100000");
  CHECK(complaint([&] { read(plain, "[]"); }) ==
        "hut/kitchen.json: expected a kitchen object; start with {");
}

TEST_CASE("a name the kitchen does not have is asked about") {
  CHECK(complaint([] {
          read(R"("solids": [{"ingredient": "fel mix", "mass_g": 70}], "water": {"mass_g": 40},
                  "tap": "hut tab", "batch": {"vessel": "juk", "scales": ["pockett", "kitchen",
                  "kitchen", "balance"]})");
        }) ==
        "r.json: /solids/0/ingredient: ingredient \"fel mix\" is not known; did you mean \"fell "
        "mix\"?\n"
        "r.json: /tap: water \"hut tab\" is not known; did you mean \"hut tap\"?\n"
        "r.json: /batch/scales/0: scale \"pockett\" is not known; did you mean \"pocket\"?\n"
        "r.json: /batch/scales/2: the scale \"kitchen\" is named twice; keep one\n"
        "r.json: /batch/scales/3: scale \"balance\" is not known; add it to the kitchen, or "
        "describe it here\n"
        "r.json: /batch/vessel: vessel \"juk\" is not known; did you mean \"jug\"?");
}

TEST_CASE("a comparison needs prices from somewhere") {
  const std::string compared =
      plain + R"(, "compare_with": {"name": "bottles", "price": 3, "carbohydrate_g": 50})";
  CHECK(read(compared).compare_with->price == 3);
  auto poor = nlohmann::ordered_json::parse(kitchen_text);
  poor.erase("prices");
  poor.erase("compare_with");
  CHECK(complaint([&] { read(compared, poor.dump()); }) ==
        "r.json: /compare_with: a comparison needs prices, and the kitchen has none; add "
        "\"prices\" to either");
}

TEST_CASE("without a kitchen its names mean nothing") {
  CHECK(complaint([] {
          read_recipe(recipe_text(R"("solids": [{"ingredient": "sucrose", "mass_g": 70}],
            "water": {"mass_g": 40}, "batch": {"vessel": "jug", "scales": ["pocket"]})"),
                      "r.json");
        }) ==
        "r.json: /kitchen: the recipe names a kitchen, which was not handed in; hand it in "
        "together with the recipe\n"
        "r.json: /batch/scales/0: scale \"pocket\" is not known; name the \"kitchen\" that has it, "
        "or describe it here\n"
        "r.json: /batch/vessel: vessel \"jug\" is not known; name the \"kitchen\" that has it, or "
        "give \"vessel_ml\" and \"bowl_g\"");
}

TEST_CASE("a recipe is no kitchen, a kitchen no recipe and no water") {
  CHECK(complaint([] { read(plain, recipe_text(plain)); }) ==
        "hut/kitchen.json: /format: this is a recipe, not a kitchen; name a file of the format "
        "\"gelwright/kitchen-1\"");
  CHECK(complaint([] { read_recipe(kitchen_text, "k.json"); }) ==
        "k.json: /format: this is a kitchen, not a recipe; name a recipe; a recipe names its "
        "kitchen");
  CHECK(complaint([] {
          read_water_report(kitchen_text, "k.json");
        }).starts_with("k.json: /format: this is a kitchen"));
  CHECK(complaint([] { read(plain, kitchen_with("kitchen", R"("k.json")")); }) ==
        "hut/kitchen.json: /kitchen: a kitchen leads to no other kitchen; describe all in this "
        "one");
}

TEST_CASE("what goes round in circles is refused, within the kitchen and between the two") {
  CHECK(complaint([] {
          read(plain, kitchen_with("waters", R"({"hut tap": {"blend": [{"water": "b", "share": 1}]},
                                                 "b": {"blend": [{"water": "hut tap", "share": 1}]}})"));
        }).find("is blended from itself") != std::string::npos);
  CHECK(complaint([] {
          read(plain +
               R"(, "waters": {"becks": {"blend": [{"water": "half and half", "share": 1}]}})");
        }).find("is blended from itself") != std::string::npos);
  CHECK(
      complaint([] {
        read(
            R"("define": {"fell mix": {"kind": "mix", "contains": [{"ingredient": "fell mix with gum", "fraction": 1}]}},
                  "solids": [{"ingredient": "fell mix", "mass_g": 70}], "water": {"mass_g": 40})");
      }).find("is defined through itself") != std::string::npos);
}

TEST_CASE("which kitchen a recipe names") {
  CHECK(kitchen_named(recipe_text(plain), "r.json") == "k.json");
  CHECK_FALSE(kitchen_named("{}", "r.json"));
  CHECK_FALSE(kitchen_named("[]", "r.json"));
  CHECK_FALSE(kitchen_named(R"({"kitchen": 5})", "r.json"));
  CHECK_FALSE(kitchen_named(R"({"kitchen": ""})", "r.json"));
  CHECK_FALSE(kitchen_named(R"({"kitchen": "a\u0000b"})", "r.json"));
}

TEST_CASE("the water of a recipe may be one of its kitchen") {
  const Tap tap = read_water_report(recipe_text(plain), "r.json", hut);
  CHECK(*tap.water.mg_per_l[Ion::calcium] == 23);
}

TEST_CASE("a flattened recipe needs no kitchen and is worked out alike") {
  const std::string text = recipe_text(R"(
  "note": "kept  as it is",
  "solids": [{"ingredient": "fell mix with gum", "mass_g": 70.0}, {"ingredient": "sugar", "mass_g": 5}],
  "water": {"per_g_solids": 0.60},
  "tap": "half and half",
  "batch": {"servings": 6, "vessel": "jug", "scales": ["pocket", "kitchen"]})");
  const std::string flat = flattened_recipe(text, "r.json", hut);
  CHECK_FALSE(kitchen_named(flat, "flat.json"));
  CHECK(flat.find("kept  as it is") != std::string::npos);
  CHECK(flat.find("\"mass_g\": 70.0}") != std::string::npos);
  CHECK(flat.find("other mix") == std::string::npos);

  auto with_kitchen = nlohmann::json::parse(sheet_of(read_recipe(text, "r.json", hut)));
  auto alone = nlohmann::json::parse(sheet_of(read_recipe(flat, "r.json")));
  CHECK(with_kitchen.erase("kitchen") == 1);
  CHECK(with_kitchen["assumptions"].size() == alone["assumptions"].size());
  with_kitchen.erase("assumptions");  // they say which file should have said it
  alone.erase("assumptions");
  CHECK(with_kitchen == alone);
  CHECK(flattened_recipe(flat, "r.json", std::nullopt) == flat);
}

TEST_CASE("what the readings say of a mix goes to the document that describes it") {
  const Recipe recipe = read(plain + R"(, "acid": {"ingredient": "malic acid", "mass_g": 0.3})");
  BenchFit fit;
  fit.ingredient = "fell mix";
  fit.buffer.carboxylate_mmol_per_g.value = 0.07;
  fit.buffer.pka.value = 4.5;
  fit.buffer.neutralised_fraction.value = 0.5;
  const std::string written = calibrated_kitchen(hut, recipe, fit);
  auto before = nlohmann::ordered_json::parse(kitchen_text);
  auto after = nlohmann::ordered_json::parse(written);
  CHECK(after["define"]["fell mix"]["buffer"]["pka"] == 4.5);
  after["define"]["fell mix"].erase("buffer");
  CHECK(before.dump() == after.dump());
  // The bytes around the new member are the author's.
  const std::size_t start = written.find(", \"buffer\"");
  REQUIRE(start != std::string::npos);
  CHECK(written.substr(0, start) == kitchen_text.substr(0, start));
  const std::string behind = kitchen_text.substr(start);
  CHECK(written.ends_with(behind));
  CHECK(read(plain, written).ingredients[0].buffer_pka == 4.5);

  CHECK(refusal_of([&] { calibrated_recipe(recipe_text(plain), recipe, fit); }) ==
        "/define: \"fell mix\" is described in the kitchen, not here; write the kitchen instead\n");
  const Recipe own =
      read(plain + R"(, "define": {"fell mix": {"kind": "mix", "label": {"per_g": 100,
    "carbohydrate_g": 90}}})");
  CHECK(refusal_of([&] { calibrated_kitchen(hut, own, fit); }) ==
        "/define: \"fell mix\" is described in the recipe, not here; write the recipe instead\n");
}

TEST_CASE("whatever stands in the place of a value, recipe and kitchen are read or refused") {
  const char* const odd[] = {"null", "true", "-1",  "\"\"",    "\"fell mix\"", "\"hut tap\"",
                             "[]",   "{}",   "[1]", "[\"x\"]", "[{}]",         "{\"x\": 1}"};
  const auto kitchen = nlohmann::ordered_json::parse(kitchen_text);
  const auto recipe = nlohmann::ordered_json::parse(
      recipe_text(plain + R"(, "batch": {"vessel": "jug", "scales": ["pocket", "kitchen"]},
      "prices": {"currency": "GBP", "packs": [{"ingredient": "sucrose", "pack_g": 1, "price": 1}]},
      "define": {"own": {"kind": "mix", "label": {"per_g": 1, "carbohydrate_g": 1}}},
      "waters": {"own": {"blend": [{"water": "becks", "share": 1}]}}, "avoid": ["gluten"])"));
  std::size_t read_well = 0;
  std::size_t refused = 0;
  const auto try_both = [&](const std::string& recipe_now, const std::string& kitchen_now) {
    const KitchenDocument document{kitchen_now, "k.json"};
    try {
      read_recipe(recipe_now, "r.json", document);
      // What can be read can be flattened, and then be read alone.
      read_recipe(flattened_recipe(recipe_now, "r.json", document), "flat.json");
      ++read_well;
    } catch (const InputError&) {
      ++refused;
    }
  };
  // Every value, groups included: the pointers to the plain ones and to all above them.
  const auto pointers_of = [](const nlohmann::ordered_json& whole) {
    std::set<std::string> pointers;
    const auto flat = whole.flatten();
    for (const auto& [pointer, value] : flat.items())
      for (std::string each = pointer; !each.empty(); each.resize(each.rfind('/')))
        pointers.insert(each);
    return pointers;
  };
  for (const bool in_kitchen : {true, false})
    for (const std::string& pointer : pointers_of(in_kitchen ? kitchen : recipe))
      for (const char* each : odd) {
        auto changed = in_kitchen ? kitchen : recipe;
        changed[nlohmann::ordered_json::json_pointer(pointer)] =
            nlohmann::ordered_json::parse(each);
        INFO(pointer << " = " << each);
        if (in_kitchen)
          try_both(recipe.dump(), changed.dump());
        else
          try_both(changed.dump(), kitchen.dump());
      }
  CHECK(read_well > 30);
  CHECK(refused > 500);
}
