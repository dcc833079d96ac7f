// Slips a person makes, gas that is let out, crystals from several packs: what the program says.
#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "catch.hpp"
#include "gelwright/evaluate.hpp"
#include "gelwright/procedure.hpp"
#include "gelwright/usual.hpp"
#include "recipes.hpp"

using namespace gelwright;
using gelwright::test::near;
using gelwright::test::recipe_with;

namespace {

std::vector<std::string> unlike(const std::string& members, const std::string& form = "pouch") {
  const Recipe recipe = recipe_with(members + R"(, "tap": "demineralised water")", form);
  const Inputs inputs = resolve(recipe);
  return beside_usual(evaluate(inputs), inputs);
}

std::string thick(const std::string& water, double acid_g) {
  return fmt::format(R"("solids": [{{"ingredient": "maltodextrin DE 18", "mass_g": 79}},
      {{"ingredient": "sodium alginate", "mass_g": 0.8}}], "water": {{{}}},
      "acid": {{"ingredient": "citric acid anhydrous", "mass_g": {}}})",
                     water, acid_g);
}

std::optional<Level> level_of(std::string_view name, const Recipe& recipe) {
  for (const Flag& flag : evaluate(resolve(recipe)).flags)
    if (name_of(flag.id) == name) return flag.level;
  return std::nullopt;
}

}  // namespace

// Common practice, no source: 80 g in 48 g of water with 0.4 g of acid.
TEST_CASE("a recipe as most are is said to be usual; slips are told in words") {
  CHECK(unlike(thick(R"("per_g_solids": 0.60)", 0.4)).empty());
  // 60 % read as of the total.
  const auto share = unlike(thick(R"("fraction_of_total": 0.60)", 1.2));
  REQUIRE(share.size() == 2);
  CHECK(share[0] == "a big serving for a pouch (30 to 160 g is common)");
  CHECK(share[1] == "much water for a pouch (0.3 to 1.2 g for each g of solids is common)");
  // The first pinch times ten is half of what goes in: 0.2 g in place of 0.4 g.
  const auto pinch = unlike(thick(R"("per_g_solids": 0.60)", 0.2));
  REQUIRE(pinch.size() == 1);
  CHECK(pinch[0] == "little acid for a pouch (0.5 to 1.8 g in 100 g of water is common)");
  // A stray decimal, either way.
  CHECK(unlike(thick(R"("per_g_solids": 0.60)", 0.04)).size() == 1);
  CHECK(unlike(thick(R"("per_g_solids": 0.060)", 0.4)).size() >= 1);
  CHECK(unlike(thick(R"("mass_g": 480)", 0.4)).size() >= 2);
  // Beside a calcium salt little acid is nothing unusual.
  CHECK(
      unlike(
          thick(R"("per_g_solids": 0.60)", 0.1) +
          R"(, "calcium": {"ingredient": "calcium lactate pentahydrate", "mass_g": 0.2, "when": "slow"})")
          .empty());
}

TEST_CASE("a packet's limit on the wrong side of a drink is told") {
  const auto drink = [](const std::string& limit) {
    const auto found = unlike(R"("solids": [{"ingredient": "sucrose", "mass_g": 60}],
        "water": {"mass_g": 500}, "limits": {"calcium_mg_per_l": {)" +
                                  limit + "}}",
                              "drink");
    return std::any_of(found.begin(), found.end(), [](const std::string& each) {
      return each.find("read the packet again") != std::string::npos;
    });
  };
  CHECK(drink(R"("at_least": 40)"));
  CHECK_FALSE(drink(R"("at_most": 40)"));
  CHECK_FALSE(drink(R"("at_least": 5, "at_most": 40)"));
}

namespace {

Recipe fizzy(const std::string& steps) {
  return read_recipe(R"({"format": "gelwright/recipe-2", "name": "fizzy", "form": "pouch",
      "solids": [{"ingredient": "sucrose", "mass_g": 30}, {"ingredient": "sodium bicarbonate", "mass_g": 1}],
      "water": {"mass_g": 50}, "acid": {"ingredient": "citric acid anhydrous", "mass_g": 2},
      "tap": "demineralised water")" +
                         steps + "}",
                     "fizzy.json");
}
const std::string add_all =
    R"({"do": "add", "what": ["sucrose", "sodium bicarbonate"], "how": "stirred"},
    {"do": "add", "what": ["acid"], "how": "poured"})";
const std::string open_rest = R"({"do": "rest", "hours": 0.5, "at_c": 20, "open": true})";

}  // namespace

TEST_CASE("gas: a step that lets it finish fizzing clears the stop, where it comes at its time") {
  const auto with = [](const std::string& steps) {
    return level_of("gas-in-pouch", fizzy(R"(, "process": [)" + steps + "]"));
  };
  const std::string fill = R"({"do": "fill"})";
  CHECK(with(add_all + ", " + fill) == Level::stop);
  CHECK_FALSE(with(add_all + ", " + open_rest + ", " + fill).has_value());
  // Standing open before the acid lets nothing out; nor does a rest with the lid on.
  CHECK(with(R"({"do": "add", "what": ["sucrose", "sodium bicarbonate"], "how": "stirred"}, )" +
             open_rest + R"(, {"do": "add", "what": ["acid"], "how": "poured"}, )" + fill) ==
        Level::stop);
  CHECK(with(add_all + R"(, {"do": "rest", "hours": 0.5, "at_c": 20}, )" + fill) == Level::stop);
  CHECK(test::refusal_of(
            [&] { fizzy(R"(, "process": [)" + add_all + ", " + fill + ", " + open_rest + "]"); }) ==
        "/process/3/open: it is filled by then, and gas stays in; move this step to before "
        "\"fill\"\n");
}

TEST_CASE("gas: the procedure lets it fizz before anything is closed, said or not") {
  for (const bool said : {false, true}) {
    const Recipe recipe = fizzy(
        said ? R"(, "process": [)" + add_all + ", " + open_rest + R"(, {"do": "fill"}])" : "");
    const Inputs inputs = resolve(recipe);
    const Procedure procedure = procedure_of(inputs, evaluate(inputs));
    const auto at = [&](auto holds) {
      return std::find_if(procedure.steps.begin(), procedure.steps.end(), holds);
    };
    const auto fill = at([](const ProcedureStep& s) { return s.doing == Doing::fill; });
    const auto fizz = at([&](const ProcedureStep& s) {
      return s.doing == Doing::let_fizz || (s.doing == Doing::rest && recipe.steps[*s.step].open);
    });
    REQUIRE(fill != procedure.steps.end());
    CHECK(fizz < fill);
  }
}

// Jackson 1922: 62 g of dextrose in 100 g of water at 5 degC.
TEST_CASE("crystals: one sugar from several packs is judged as one") {
  const auto dextrose = [](double powder_g, double syrup_g) {
    return level_of("may-crystallise",
                    recipe_with(fmt::format(
                        R"("define": {{"date syrup": {{"kind": "syrup", "water_fraction": 0.25,
        "contains": [{{"ingredient": "fructose", "fraction": 0.35}},
                     {{"ingredient": "dextrose anhydrous", "fraction": 0.40}}]}}}},
        "solids": [{{"ingredient": "dextrose anhydrous", "mass_g": {}}},
                   {{"ingredient": "date syrup", "mass_g": {}}}],
        "water": {{"mass_g": 100}}, "tap": "demineralised water")",
                        powder_g, syrup_g)));
  };
  // 100 g of syrup bring 40 g of dextrose and 25 g of water: 62 g in 100 g is 77.5 g in 125 g.
  CHECK_FALSE(dextrose(36.5, 100).has_value());
  CHECK(dextrose(38.5, 100) == Level::care);
  // Alone neither would: 38.5 g in 100 g, 40 g in 125 g.
  CHECK_FALSE(dextrose(38.5, 0.001).has_value());
  CHECK_FALSE(dextrose(0.001, 100).has_value());
}

// Schiweck 1991: 42 g of isomaltulose in 100 g of water at 20 degC, less in the cold.
TEST_CASE("crystals: what a mix is said to hold counts with what is weighed beside it") {
  const auto isomaltulose = [](double beside_g) {
    return level_of("may-crystallise",
                    recipe_with(fmt::format(R"("define": {{"mix": {{"kind": "mix", "contains": [
        {{"ingredient": "isomaltulose", "fraction": 0.5}},
        {{"ingredient": "maltodextrin DE 18", "fraction": 0.5}}]}}}},
        "solids": [{{"ingredient": "mix", "mass_g": 50}},
                   {{"ingredient": "isomaltulose", "mass_g": {}}}],
        "water": {{"mass_g": 100}}, "tap": "demineralised water")",
                                            beside_g)));
  };
  CHECK_FALSE(isomaltulose(18).has_value());  // 43 g as weighed, 40.9 without hydrate water
  CHECK(isomaltulose(22) == Level::care);     // 47 g, 44.7
}
