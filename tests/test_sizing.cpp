#include "catch.hpp"
#include "gelwright/batch.hpp"
#include "gelwright/error.hpp"
#include "gelwright/limit.hpp"
#include "gelwright/nutrition.hpp"
#include "gelwright/sizing.hpp"
#include "recipes.hpp"

using namespace gelwright;
using namespace gelwright::test;

namespace {

/// By hand: 60 g sucrose and 40 g water make 100 g, 60 g of it carbohydrate.
constexpr const char* syrup = R"("solids": [{"ingredient": "sucrose", "mass_g": 60}],
  "water": {"mass_g": 40}, "batch": {"servings": 10, "loss_percent": 20})";

std::string refusal(const BatchSize& size, const Recipe& recipe) {
  try {
    servings_for(size, inputs_of(recipe));
  } catch (const InputError& error) {
    return error.problems()[0].where + ": " + error.problems()[0].what;
  }
  return "accepted";
}

}  // namespace

TEST_CASE("a batch is sized by servings, filled mass or carbohydrate (hand calculation)") {
  const Recipe recipe = recipe_with(syrup);
  const Inputs inputs = inputs_of(recipe);
  CHECK(servings_for({SizeBy::servings, 3}, inputs) == 3);
  CHECK_THAT(servings_for({SizeBy::mass_g, 250}, inputs), near(2.5, 1e-12));
  CHECK_THAT(servings_for({SizeBy::carbohydrate_g, 90}, inputs),
             near(90 / nutrition_of(formulate(inputs), inputs).carbohydrate_g, 1e-12));
}

TEST_CASE("a size that makes no batch is refused") {
  const Recipe recipe = recipe_with(syrup);
  CHECK(refusal({SizeBy::servings, 2.5}, recipe) == "servings: not a whole number of servings");
  CHECK(refusal({SizeBy::mass_g, 0}, recipe) == "batch_mass_g: must be above 0");
  CHECK(refusal({SizeBy::mass_g, -5}, recipe) == "batch_mass_g: must be above 0");
  CHECK(refusal({SizeBy::mass_g, 1e300}, recipe) ==
        "batch_mass_g: that would be 1e+298 servings, and 1e+09 is the most");
  const Recipe salt = recipe_with(
      R"("solids": [{"ingredient": "sodium chloride", "mass_g": 1}], "water": {"mass_g": 40})");
  CHECK(refusal({SizeBy::carbohydrate_g, 60}, salt) ==
        "carbohydrate_g: this recipe has no carbohydrate");
}

// By hand: 10 servings of 40 g with 20 % lost are 40 x 10 / 0.8 = 500 g of water; in steps of 300 g
// that is 600 g, 48 g in a serving.
TEST_CASE("the water that goes into the bowl is round, losses counted (hand calculation)") {
  const Recipe recipe = recipe_with(syrup);
  const Inputs rounded = with_rounded_water(inputs_of(recipe), 300);
  CHECK_THAT(formulate(rounded).water_g, near(48, 1e-12));
  CHECK_THAT(formulate(rounded).water_g * batch_factor(rounded), near(600, 1e-9));
  // Never rounded to nothing.
  CHECK_THAT(formulate(with_rounded_water(inputs_of(recipe), 5000)).water_g, near(400, 1e-9));
}

TEST_CASE("a limit is broken on the side it was broken on, never by floating-point dust") {
  const Limit both{20.0, 40.0};
  CHECK(judge(30, both) == LimitVerdict::kept);
  CHECK(judge(20, both) == LimitVerdict::kept);
  CHECK(judge(40, both) == LimitVerdict::kept);
  CHECK(judge(40 + 7e-15, both) == LimitVerdict::kept);
  CHECK(judge(20 - 4e-15, both) == LimitVerdict::kept);
  CHECK(judge(40.0001, both) == LimitVerdict::above);
  CHECK(judge(19.9999, both) == LimitVerdict::below);
  CHECK(judge(std::nullopt, both) == LimitVerdict::unknown);
  CHECK(judge(std::nullopt, {}) == LimitVerdict::kept);
  CHECK(judge(0, {{}, 40.0}) == LimitVerdict::kept);
  CHECK(judge(1e-300, {{}, 0.0}) == LimitVerdict::above);
}

TEST_CASE("calcium of a water is as reported, else from its hardness") {
  Water water;
  CHECK_FALSE(calcium_mg_per_l(water));
  water.mg_per_l[Ion::calcium] = 60;
  CHECK(calcium_mg_per_l(water).value() == 60);  // not 60.1 by way of mmol
}
