#include "catch.hpp"
#include "gelwright/error.hpp"
#include "gelwright/evaluate.hpp"
#include "gelwright/water_phase.hpp"
#include "recipes.hpp"

using namespace gelwright;
using gelwright::test::near;
using gelwright::test::recipe_with;

namespace {

template <class R>
concept Resolvable = requires(R&& recipe) {
  resolve(std::forward<R>(recipe));
};
template <class R>
concept MadeInputs = requires(R&& recipe) {
  inputs_of(std::forward<R>(recipe));
};

}  // namespace

TEST_CASE("inputs are not made from a recipe that ends with the line") {
  CHECK(Resolvable<Recipe&>);
  CHECK(Resolvable<const Recipe&>);
  CHECK_FALSE(Resolvable<Recipe>);
  CHECK_FALSE(Resolvable<const Recipe>);
  CHECK(MadeInputs<const Recipe&>);
  CHECK_FALSE(MadeInputs<Recipe>);
  CHECK_FALSE(MadeInputs<const Recipe>);
}

TEST_CASE("a target pH becomes the acid that reaches it") {
  const Recipe recipe = test::shipped("pouch-from-scratch.json");
  const Inputs inputs = resolve(recipe);
  CHECK_THAT(water_phase_of(formulate(inputs), inputs).ph, near(3.7, 1e-9));
  CHECK(inputs.acid->line.mass_g > 0.1);
}

TEST_CASE("a target ratio becomes the calcium salt that reaches it, tap calcium included") {
  const Recipe recipe = test::shipped("calcium-set-pouch.json");
  const Inputs inputs = resolve(recipe);
  CHECK_THAT(water_phase_of(formulate(inputs), inputs).calcium_ratio_r2, near(0.5, 1e-9));
}

TEST_CASE("gellan's target counts magnesium in part") {
  const Recipe recipe = test::shipped("gellan-xanthan-pouch.json");
  const Inputs inputs = resolve(recipe);
  const WaterPhase found = water_phase_of(formulate(inputs), inputs);
  CHECK_THAT(found.gellan_ratio_r2, near(0.8, 1e-9));
  CHECK(found.calcium_ratio_r2 < 0.8);
}

TEST_CASE("two targets settle together") {
  const Recipe recipe =
      recipe_with(R"("solids": [{"ingredient": "maltodextrin DE 12", "mass_g": 30},
      {"ingredient": "sodium alginate", "mass_g": 0.5},
      {"ingredient": "trisodium citrate dihydrate", "mass_g": 0.2}],
      "water": {"mass_g": 60}, "acid": {"ingredient": "citric acid anhydrous", "target_ph": 3.8},
      "calcium": {"ingredient": "calcium lactate pentahydrate", "target_ratio": 0.4, "when": "slow"})");
  const Inputs inputs = resolve(recipe);
  const WaterPhase found = water_phase_of(formulate(inputs), inputs);
  CHECK_THAT(found.ph, near(3.8, 1e-6));
  CHECK_THAT(found.calcium_ratio_r2, near(0.4, 1e-6));
}

TEST_CASE("what cannot be reached says why and what can") {
  const Recipe recipe = recipe_with(R"("solids": [{"ingredient": "sucrose", "mass_g": 30}],
      "water": {"mass_g": 60}, "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.1})");
  const Dosed low = dose_acid_to_ph(inputs_of(recipe), 0.5);
  CHECK_FALSE(low.reached);
  CHECK(low.reason.find("pH 0.50 cannot be reached; between 1.") == 0);
  const Dosed high = dose_acid_to_ph(inputs_of(recipe), 9);
  CHECK_FALSE(high.reached);
  CHECK(high.amount == 0);
}

TEST_CASE("water to a fraction and to soluble solids (hand calculation)") {
  const Recipe recipe = recipe_with(
      R"("solids": [{"ingredient": "sucrose", "mass_g": 60}], "water": {"mass_g": 10})");
  CHECK_THAT(dose_water_to_fraction(inputs_of(recipe), 0.4).amount, near(40, 1e-9));
  CHECK_THAT(dose_water_to_soluble_solids(inputs_of(recipe), 50).amount, near(60, 1e-6));
}

TEST_CASE("the smallest batch whose pinches can be weighed is the smallest: one fewer cannot") {
  const Recipe recipe = test::shipped("mistake-kitchen-scale.json");
  Inputs inputs = resolve(recipe);
  for (const StockChoice stock : {StockChoice::when_needed, StockChoice::never}) {
    const Dosed found = dose_readable(inputs, stock);
    REQUIRE(found.reached);
    const Formula formula = formulate(inputs);
    inputs.servings = found.amount;
    CHECK(plan_batch(formula, inputs, 1.2, stock).unweighable.empty());
    inputs.servings = found.amount - 1;
    CHECK_FALSE(plan_batch(formula, inputs, 1.2, stock).unweighable.empty());
  }
}

TEST_CASE("a stock that brings more water than the recipe has is refused") {
  const Recipe recipe = recipe_with(R"("solids": [{"ingredient": "sucrose", "mass_g": 30}],
      "water": {"mass_g": 3}, "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.5,
      "stock_percent": 10})");
  CHECK_THROWS_AS(inputs_of(recipe), InputError);
}

TEST_CASE("where gellan alone binds calcium, the ratio counts as gellan does without being told") {
  const char* gellan = R"("solids": [{"ingredient": "sucrose", "mass_g": 40},
      {"ingredient": "low-acyl gellan", "mass_g": 0.3}], "water": {"mass_g": 60},
      "tap": {"calcium_mg_per_l": 20, "magnesium_mg_per_l": 30, "alkalinity_meq_per_l": 1},
      "calcium": {"ingredient": "calcium lactate pentahydrate", "target_ratio": 0.9,
      "when": "slow"})";
  const Recipe recipe = recipe_with(gellan);
  const Inputs inputs = resolve(recipe);
  const WaterPhase found = water_phase_of(formulate(inputs), inputs);
  CHECK_THAT(found.gellan_ratio_r2, near(0.9, 1e-9));
  CHECK(found.calcium_ratio_r2 < 0.88);  // the magnesium of the tap does its part
}
