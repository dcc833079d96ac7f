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

TEST_CASE(
    "an acid may be a fifth of the serving, and as a stock bring no more water than there is") {
  // By hand: 90 g without acid, so 18 g at most; 10 % stock of acid a brings 9 a of water, of 60 g.
  const auto most_g = [](const std::string& stock) {
    const Recipe recipe = recipe_with(R"("solids": [{"ingredient": "sucrose", "mass_g": 30}],
        "water": {"mass_g": 60}, "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.1)" +
                                      stock + "}");
    return dose_acid_to_ph(inputs_of(recipe), 0.5).amount;
  };
  CHECK_THAT(most_g(""), near(18, 1e-9));
  CHECK_THAT(most_g(R"(, "stock_percent": 10)"), near(0.999 * 60 / 9, 1e-9));
}

TEST_CASE("a target out of reach is told with the side it is on") {
  const Recipe sour = recipe_with(R"("solids": [{"ingredient": "sucrose", "mass_g": 30}],
      "water": {"mass_g": 60}, "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.1})");
  const Inputs inputs = inputs_of(sour);
  const Dosed too_high = dose_acid_to_ph(inputs, 9);
  CHECK(too_high.reason.find(": without any acid it is already that sour") != std::string::npos);
  CHECK(dose_acid_to_ph(inputs, 0.5).reason.find("without any acid") == std::string::npos);
  CHECK(too_high.nearest_low < too_high.nearest_high);
  CHECK(too_high.value == too_high.nearest_high);

  const Dosed thick = dose_water_to_soluble_solids(inputs, 101);
  CHECK_FALSE(thick.reached);
  CHECK(thick.reason.find(": without any added water it holds no more") != std::string::npos);
  const Dosed thin = dose_water_to_soluble_solids(inputs, 0.1);
  CHECK_FALSE(thin.reached);
  CHECK(thin.reason.find("without any added water") == std::string::npos);

  const Recipe set = recipe_with(R"("solids": [{"ingredient": "sucrose", "mass_g": 30},
      {"ingredient": "sodium alginate", "mass_g": 0.5}], "water": {"mass_g": 60},
      "tap": {"calcium_mg_per_l": 200, "alkalinity_meq_per_l": 1},
      "calcium": {"ingredient": "calcium lactate pentahydrate", "mass_g": 0.1, "when": "slow"})");
  const Dosed little = dose_calcium_to_ratio(inputs_of(set), 0.0001);
  CHECK(little.reason.find("water and solids alone bring more calcium") != std::string::npos);
  CHECK(little.amount == 0);
  const Dosed much = dose_calcium_to_ratio(inputs_of(set), 900);
  CHECK(much.reason.find("the salt does not dissolve that far") != std::string::npos);
}

TEST_CASE("what there is nothing to dose of is refused with the place it belongs in") {
  const Recipe bare = recipe_with(
      R"("solids": [{"ingredient": "sucrose", "mass_g": 30}], "water": {"mass_g": 60})");
  const Inputs inputs = inputs_of(bare);
  const auto place = [](const auto& work) -> std::string {
    try {
      work();
    } catch (const InputError& error) {
      return error.problems().front().where;
    }
    return "not refused";
  };
  CHECK(place([&] { dose_acid_to_ph(inputs, 4); }) == "/acid");
  CHECK(place([&] { dose_calcium_to_ratio(inputs, 1); }) == "/calcium");
  CHECK(place([&] { dose_readable(inputs, StockChoice::never); }) == "/batch/scales");
  const Recipe no_gum = recipe_with(R"("solids": [{"ingredient": "sucrose", "mass_g": 30}],
      "water": {"mass_g": 60},
      "calcium": {"ingredient": "calcium lactate pentahydrate", "mass_g": 0.1, "when": "slow"})");
  CHECK(place([&] { dose_calcium_to_ratio(inputs_of(no_gum), 1); }) == "/calcium/target_ratio");
}

TEST_CASE("scales that can weigh nothing small are told so at ten thousand servings") {
  const Recipe recipe = recipe_with(R"("solids": [{"ingredient": "sucrose", "mass_g": 30},
      {"ingredient": "sodium alginate", "mass_g": 0.000001}], "water": {"mass_g": 60},
      "batch": {"scales": [{"name": "kitchen", "readability_g": 1, "capacity_g": 5000}]})");
  const Dosed found = dose_readable(inputs_of(recipe), StockChoice::never);
  CHECK_FALSE(found.reached);
  CHECK(found.amount == 10000);
  CHECK(found.reason == "not even 10000 servings can be weighed on these scales");
}
