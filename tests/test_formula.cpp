#include <algorithm>
#include <cstdio>

#include "catch.hpp"
#include "gelwright/formula.hpp"
#include "recipes.hpp"

using namespace gelwright;
using gelwright::test::near;
using gelwright::test::recipe_with;

namespace {

const std::string solids_25 = R"("solids": [{"ingredient": "sucrose", "mass_g": 25}])";
const std::string solids_72 = R"("solids": [{"ingredient": "sucrose", "mass_g": 72}])";

Formula formula_of(const std::string& members) {
  const Recipe recipe = recipe_with(members);
  return formulate(inputs_of(recipe));
}

}  // namespace

TEST_CASE(
    "25 g of solids in 40 g of gel: the three readings of its water (common practice, no source)") {
  const Recipe recipe = recipe_with(solids_25 + R"(, "water": {"mass_g": 15})");
  const Formula formula = formulate(inputs_of(recipe));
  CHECK_THAT(formula.total_g, near(40, 1e-12));
  CHECK_THAT(formula.water_per_g_solids(), near(0.60, 1e-12));
  CHECK_THAT(formula.water_fraction_of_total(), near(0.375, 1e-12));
}

TEST_CASE("72 g of solids at 0.60 g per g take 43.2 g of water (common practice, no source)") {
  const Recipe recipe = recipe_with(solids_72 + R"(, "water": {"per_g_solids": 0.60})");
  CHECK_THAT(formulate(inputs_of(recipe)).water_g, near(43.2, 1e-12));
}

TEST_CASE("half of the solids is a third of the gel, the classic slip (hand calculation)") {
  const Recipe recipe = recipe_with(solids_72 + R"(, "water": {"per_g_solids": 0.50})");
  CHECK_THAT(formulate(inputs_of(recipe)).water_fraction_of_total(), near(1.0 / 3, 1e-12));
}

TEST_CASE("the three ways to state water agree to 1e-12, acid and calcium salt included") {
  const std::string doses =
      R"(, "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.36},
          "calcium": {"ingredient": "calcium lactate pentahydrate", "mass_g": 0.3, "when": "slow"})";
  const Formula by_mass = formula_of(solids_72 + doses + R"(, "water": {"mass_g": 43.2})");
  const auto agrees = [&](const std::string& water) {
    const Formula formula = formula_of(solids_72 + doses + water);
    CHECK_THAT(formula.water_g, near(43.2, 43e-12));
    CHECK_THAT(formula.total_g, near(by_mass.total_g, 115e-12));
  };
  char fraction[64];
  std::snprintf(fraction, sizeof fraction, R"(, "water": {"fraction_of_total": %.17g})",
                by_mass.water_fraction_of_total());
  agrees(fraction);
  agrees(R"(, "water": {"per_g_solids": 0.60})");
  CHECK_THAT(by_mass.total_g, near(72 + 43.2 + 0.36 + 0.3, 1e-12));
}

TEST_CASE("two additions of 0.18 g are 0.36 g a serving (common practice, no source)") {
  const Recipe recipe = recipe_with(solids_72 +
                                    R"(, "water": {"per_g_solids": 0.60},
         "acid": {"ingredient": "citric acid anhydrous", "additions_g": [0.18, 0.18]})");
  CHECK_THAT(formulate(inputs_of(recipe)).acid_g, near(0.36, 1e-15));
}

TEST_CASE("stock solution water comes out of the water to add, the total stays") {
  const auto with_stock = [](const std::string& stock) {
    return formula_of(
        solids_72 +
        R"(, "water": {"mass_g": 43.2}, "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.36)" +
        stock + "}");
  };
  const Formula neat = with_stock("");
  const Formula stock = with_stock(R"(, "stock_percent": 10)");
  CHECK_THAT(stock.tap_g, near(43.2 - (3.6 - 0.36), 1e-12));
  CHECK_THAT(stock.water_g, near(43.2, 1e-12));
  CHECK_THAT(stock.total_g, near(neat.total_g, 1e-12));
}

TEST_CASE(
    "chemistry water adds moisture, hydrate water and the water of syrups (hand calculation)") {
  const Recipe recipe = recipe_with(R"(
    "define": {"half syrup": {"kind": "syrup", "water_fraction": 0.25,
               "label": {"per_g": 100, "carbohydrate_g": 75, "sugars_g": 40}}},
    "solids": [{"ingredient": "half syrup", "mass_g": 40},
               {"ingredient": "dextrose monohydrate", "mass_g": 19.8171}],
    "water": {"mass_g": 20})");
  const Formula formula = formulate(inputs_of(recipe));
  // 198.171 g/mol of dextrose monohydrate hold 18.015 g of water.
  CHECK_THAT(formula.chemistry_water_g, near(20 + 10 + 1.8015, 1e-4));
  CHECK_THAT(formula.solids_g, near(59.8171, 1e-12));
}

TEST_CASE("mass in is mass out and order does not matter, for every shipped recipe") {
  for (const char* name : test::shipped_names) {
    INFO(name);
    const Recipe recipe = test::shipped(name);
    Inputs inputs = resolve(recipe);
    const Formula formula = formulate(inputs);
    double sum_g = formula.water_g;
    for (const InputLine& line : inputs.solids) sum_g += line.mass_g;
    if (inputs.acid) sum_g += inputs.acid->line.mass_g;
    if (inputs.calcium) sum_g += inputs.calcium->line.mass_g;
    CHECK_THAT(formula.total_g, near(sum_g, 1e-12 * sum_g));

    std::reverse(inputs.solids.begin(), inputs.solids.end());
    const Formula reversed = formulate(inputs);
    CHECK_THAT(reversed.total_g, near(formula.total_g, 1e-12 * sum_g));
    CHECK_THAT(reversed.delivered.carbohydrate_g,
               near(formula.delivered.carbohydrate_g, 1e-12 * sum_g));
  }
}
