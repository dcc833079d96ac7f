#include <algorithm>
#include <set>
#include <string>

#include "catch.hpp"
#include "gelwright/ingredient.hpp"
#include "gelwright/knob.hpp"
#include "gelwright/names.hpp"
#include "ingredients/name_table.hpp"
#include "recipes.hpp"

using namespace gelwright;

namespace {

bool holds(const std::vector<std::string>& names, const std::string& name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

}  // namespace

TEST_CASE("words that mean one thing in a kitchen are understood, and said back") {
  // Common practice, no source.
  const std::pair<const char*, const char*> table[] = {
      {"sugar", "sucrose"},
      {"Table  Sugar", "sucrose"},
      {"salt", "sodium chloride"},
      {"table salt", "sodium chloride"},
      {"baking soda", "sodium bicarbonate"},
      {"Bicarb", "sodium bicarbonate"},
      {"bicarbonate of soda", "sodium bicarbonate"},
      {"cream of tartar", "potassium hydrogen tartrate"},
      {"xanthan gum", "xanthan"},
      {"fruit sugar", "fructose"},
      {"alginate", "sodium alginate"},
      {"vitamin C", "ascorbic acid"},
      {"GDL", "glucono delta-lactone"},
      {"epsom salts", "magnesium sulfate heptahydrate"},
      {"glycerine", "glycerol"},
  };
  for (const auto& [word, name] : table) {
    INFO(word);
    const Resolved found = resolve_name(word);
    CHECK(found.kind == NameKind::exact);
    CHECK(found.ingredient == name);
    CHECK(found.candidates.empty());
  }
  CHECK(resolve_name("Baking-Soda").understood == "\"baking soda\" is sodium bicarbonate.");
}

TEST_CASE("E numbers of Regulation (EC) 1333/2008 name the additive they stand for") {
  // Annex II, part B, from memory.
  const std::pair<const char*, const char*> table[] = {{"E401", "sodium alginate"},
                                                       {"E 415", "xanthan"},
                                                       {"e-296", "malic acid"},
                                                       {"E334", "tartaric acid"},
                                                       {"E300", "ascorbic acid"},
                                                       {"E575", "glucono delta-lactone"},
                                                       {"E508", "potassium chloride"},
                                                       {"E170", "calcium carbonate"},
                                                       {"E336", "potassium hydrogen tartrate"},
                                                       {"E 500(ii)", "sodium bicarbonate"},
                                                       {"E422", "glycerol"},
                                                       {"E420", "sorbitol"},
                                                       {"E967", "xylitol"},
                                                       {"E968", "erythritol"},
                                                       {"E965", "maltitol"},
                                                       {"E578", "calcium gluconate monohydrate"}};
  for (const auto& [word, name] : table) {
    INFO(word);
    CHECK(resolve_name(word).ingredient == name);
  }
  CHECK(resolve_name("E330").kind == NameKind::ambiguous);
  CHECK(resolve_name("E440").kind == NameKind::ambiguous);
  CHECK(resolve_name("E500").kind == NameKind::ambiguous);
}

TEST_CASE("words that mean several things are asked about, never guessed") {
  for (const char* word : {"maltodextrin", "pectin", "citric acid", "glucose", "dextrose",
                           "sodium citrate", "calcium lactate", "calcium chloride", "gellan",
                           "glucose syrup", "magnesium citrate", "potassium citrate"}) {
    INFO(word);
    const Resolved found = resolve_name(word);
    CHECK(found.kind == NameKind::ambiguous);
    CHECK(found.ingredient.empty());
    CHECK(found.candidates.size() >= 2);
    CHECK(found.how_to_tell.find('.') != std::string::npos);
  }
  CHECK(holds(resolve_name("citric acid").candidates, "citric acid monohydrate"));
  CHECK(holds(resolve_name("Pectin").candidates, "amidated pectin"));
}

TEST_CASE("built-in names are found whatever the case; any DE in the range is made") {
  CHECK(resolve_name("lm pectin").ingredient == "LM pectin");
  CHECK(resolve_name("Sodium Alginate").ingredient == "sodium alginate");
  CHECK(resolve_name("Sodium Alginate").understood.empty());
  CHECK(resolve_name("glucono delta lactone").ingredient == "glucono delta-lactone");
  CHECK(resolve_name("maltodextrin DE 7.5").ingredient == "maltodextrin DE 7.5");
  CHECK(resolve_name("Maltodextrin DE18").ingredient == "maltodextrin DE 18");
  CHECK(resolve_name("maltodextrin 18").ingredient == "maltodextrin DE 18");
  CHECK(resolve_name("glucose syrup 38").ingredient == "glucose syrup DE 38");
  CHECK(resolve_name("maltodextrin DE 40").kind == NameKind::unknown);
}

TEST_CASE("what is no ingredient is sent where it belongs") {
  for (const char* word : {"sparkling water", "tap water", "caffeine", "baking powder", "jam sugar",
                           "agar", "lemon juice", "washing soda"}) {
    INFO(word);
    const Resolved found = resolve_name(word);
    CHECK(found.kind == NameKind::elsewhere);
    CHECK(found.how_to_tell.size() > 20);
  }
}

TEST_CASE("a misspelt word finds its neighbours; nonsense finds none") {
  CHECK(resolve_name("baking sods").kind == NameKind::unknown);
  CHECK(resolve_name("baking sods").similar.front() == "baking soda");
  CHECK(resolve_name("fructos").similar.front() == "fructose");
  CHECK(resolve_name("qqqqqqq").similar.empty());
  CHECK(resolve_name("").kind == NameKind::unknown);
  CHECK(resolve_name(" -_ ").kind == NameKind::unknown);
}

TEST_CASE("every row of the table of words leads somewhere, and no word leads to two places") {
  std::set<std::string> built_in;
  for (const Ingredient& each : builtin_ingredients()) built_in.insert(each.name);
  std::size_t words = 0;
  for (const NameRow& row : name_rows) {
    words += 1 + static_cast<std::size_t>(std::count(row.words.begin(), row.words.end(), '|'));
    CHECK_FALSE(row.say.empty());
  }
  CHECK(everyday_words().size() == words);  // a word told twice would be lost
  for (const std::string& word : everyday_words()) {
    INFO(word);
    CHECK(built_in.count(word) == 0);
    const Resolved found = resolve_name(word);
    CHECK(found.kind != NameKind::unknown);
    if (found.kind == NameKind::exact) CHECK(built_in.count(found.ingredient) == 1);
    if (found.kind == NameKind::exact) CHECK_FALSE(found.understood.empty());
    for (const std::string& candidate : found.candidates) CHECK(built_in.count(candidate) == 1);
    if (found.kind != NameKind::exact) CHECK(found.how_to_tell.back() == '.');
  }
}

// The reader on top of it.
TEST_CASE("a recipe may use everyday words; the exact thing is said back") {
  const Recipe recipe = test::recipe_with(R"("solids": [
      {"ingredient": "Table Sugar", "mass_g": 40}, {"ingredient": "baking soda", "mass_g": 0.2},
      {"ingredient": "xanthan gum", "mass_g": 0.3}, {"ingredient": "cream of tartar", "mass_g": 0.1},
      {"ingredient": "salt", "mass_g": 0.5}],
      "water": {"mass_g": 30},
      "prices": {"currency": "GBP", "packs": [{"ingredient": "sugar", "pack_g": 1000, "price": 1}]})");
  const std::vector<std::string> expected = {"sucrose", "sodium bicarbonate", "xanthan",
                                             "potassium hydrogen tartrate", "sodium chloride"};
  REQUIRE(recipe.ingredients.size() == expected.size());
  for (std::size_t i = 0; i < expected.size(); ++i) {
    CHECK(recipe.ingredients[i].name == expected[i]);
    REQUIRE(i < recipe.assumed.size());
    CHECK(recipe.assumed[i].where == "/solids/" + std::to_string(i) + "/ingredient");
    CHECK(recipe.assumed[i].value == "understood as " + expected[i]);
  }
  CHECK(recipe.assumed[0].what == "the word \"Table Sugar\"");
  CHECK(recipe.packs.at(0).ingredient == 0);
}

TEST_CASE("a step may call what goes in by another word than the list") {
  const Recipe recipe =
      read_recipe(R"({"format": "gelwright/recipe-2", "name": "n", "form": "drink",
      "solids": [{"ingredient": "sucrose", "mass_g": 40}], "water": {"mass_g": 300},
      "process": [{"do": "add", "what": ["table sugar"], "how": "stirred"}]})",
                  "n.json");
  REQUIRE(!recipe.steps.empty());
  REQUIRE(recipe.steps.front().what.size() == 1);
  CHECK(recipe.steps.front().what.front().line == 0);
}

TEST_CASE("a word that means several things is understood where one of them is at hand") {
  const std::vector<std::string> names = {"water", "citric acid monohydrate", "HM pectin",
                                          "LM pectin", "sucrose"};
  CHECK(which_of(names, "HM pectin") == 2);
  CHECK(which_of(names, "white sugar") == 4);
  CHECK(which_of(names, "citric acid") == 1);
  CHECK_FALSE(which_of(names, "pectin"));
  CHECK_FALSE(which_of(names, "salt"));
  CHECK_FALSE(which_of(names, "nothing of the kind"));
}

TEST_CASE("a knob may name its solid by an everyday word") {
  const Recipe recipe = test::recipe_with(
      R"("solids": [{"ingredient": "sucrose", "mass_g": 40}], "water": {"mass_g": 30})");
  const FoundKnob found = find_knob("mass_g:sugar", recipe);
  REQUIRE(found.knob);
  CHECK(name_of(*found.knob, recipe) == "mass_g:sucrose");
  CHECK_FALSE(find_knob("mass_g:salt", recipe).knob);
}

TEST_CASE("capitals alone are nothing to say back; a recipe's own name comes first") {
  const Recipe recipe = test::recipe_with(R"("define": {"sugar": {"kind": "sugar",
      "contains": [{"ingredient": "fructose", "fraction": 1}]}},
      "solids": [{"ingredient": "sugar", "mass_g": 40}, {"ingredient": "Sodium Alginate", "mass_g": 1}],
      "water": {"mass_g": 30})");
  CHECK(recipe.ingredients[0].source == "recipe");
  CHECK(recipe.ingredients[1].name == "sodium alginate");
  for (const Assumption& each : recipe.assumed)
    CHECK(each.value.find("understood") == std::string::npos);
}

TEST_CASE("a word that means several things is refused with the way to tell them apart") {
  const auto said_of = [](const std::string& word) {
    return test::refusal_of([&] {
      test::recipe_with("\"solids\": [{\"ingredient\": \"" + word +
                        "\", \"mass_g\": 40}], \"water\": {\"mass_g\": 30}");
    });
  };
  CHECK(
      said_of("monosodium phosphate") ==
      "/solids/0/ingredient: \"monosodium phosphate\" can mean several things; write \"monosodium "
      "phosphate anhydrous\" or \"monosodium phosphate monohydrate\": the bag says "
      "\"anhydrous\" or \"monohydrate\"\n");
  for (const char* word : {"maltodextrin", "pectin", "citric acid", "glucose", "dextrose"})
    CHECK(said_of(word).find("can mean several things; write \"") != std::string::npos);
  CHECK(said_of("baking powder").find("is not in the list of ingredients; baking powder is a") !=
        std::string::npos);
  CHECK(said_of("sugarr").find("did you mean \"sugar\"?") != std::string::npos);
}

TEST_CASE("a word for the same ingredient twice is the same ingredient twice") {
  CHECK(test::refusal_of([] {
          test::recipe_with(R"("solids": [{"ingredient": "sugar", "mass_g": 4},
              {"ingredient": "sucrose", "mass_g": 4}], "water": {"mass_g": 30})");
        }) == "/solids/1/ingredient: \"sucrose\" is listed twice; add the two masses together\n");
}
