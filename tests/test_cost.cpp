#include "catch.hpp"
#include "gelwright/batch.hpp"
#include "gelwright/cost.hpp"
#include "recipes.hpp"

using namespace gelwright;
using gelwright::test::near;
using gelwright::test::recipe_with;

namespace {

Cost cost(const Recipe& recipe) {
  const Inputs inputs = inputs_of(recipe);
  return cost_of(formulate(inputs), inputs, batch_factor(inputs)).value();
}

}  // namespace

// Hand calculation: price / (pack mass x carbohydrate fraction).
TEST_CASE("maltodextrin at 6.00 a kilogram and 0.95 carbohydrate costs 0.632 per 100 g") {
  const Cost found =
      cost(recipe_with(R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 50}],
    "water": {"mass_g": 50}, "prices": {"currency": "GBP", "packs": [
    {"ingredient": "maltodextrin DE 18", "pack_g": 1000, "price": 6.00}]})"));
  CHECK_THAT(100 * found.per_g_carbohydrate, near(0.632, 0.0005));
}

TEST_CASE(
    "fructose at 4.50 for 500 g costs 0.900, the 1:0.8 blend by carbohydrate 0.751 per 100 g") {
  const std::string prices = R"("prices": {"currency": "GBP", "packs": [
      {"ingredient": "maltodextrin DE 18", "pack_g": 1000, "price": 6.00},
      {"ingredient": "fructose", "pack_g": 500, "price": 4.50}]})";
  const Cost blend = cost(recipe_with(
      R"("solids": [{"ingredient": "maltodextrin DE 18", "mass_g": 105.2631579},
                    {"ingredient": "fructose", "mass_g": 80}], "water": {"mass_g": 50}, )" +
      prices));
  CHECK_THAT(100 * blend.per_g_carbohydrate, near(0.751, 0.0005));
}

TEST_CASE("losses are paid for, whole packs are bought, and the alternative is compared per gram") {
  const Cost found = cost(recipe_with(R"("solids": [{"ingredient": "sucrose", "mass_g": 50}],
    "water": {"mass_g": 50}, "batch": {"servings": 9, "loss_percent": 10},
    "prices": {"currency": "GBP", "packs": [{"ingredient": "sucrose", "pack_g": 300, "price": 3}]},
    "compare_with": {"name": "bought", "price": 2, "carbohydrate_g": 40})"));
  CHECK_THAT(found.batch, near(5.00, 1e-12));  // 500 g of sugar for 450 g eaten
  CHECK_THAT(found.per_serving, near(5.00 / 9, 1e-12));
  CHECK_THAT(found.per_g_carbohydrate, near(5.00 / 450, 1e-12));
  CHECK(found.lines.front().packs_to_buy == 2);
  CHECK_THAT(found.buy, near(6, 1e-12));
  CHECK_THAT(found.ratio.value(), near((5.00 / 450) / (2.0 / 40), 1e-12));
}

TEST_CASE("exactly one pack is one pack, not two by binary noise") {
  const Cost found = cost(recipe_with(R"("solids": [{"ingredient": "sucrose", "mass_g": 33.3}],
    "water": {"mass_g": 50}, "batch": {"servings": 10},
    "prices": {"currency": "GBP", "packs": [{"ingredient": "sucrose", "pack_g": 333, "price": 3}]})"));
  CHECK(found.lines.front().packs_to_buy == 1);
}

TEST_CASE("a missing price leaves the totals open and names what is missing") {
  const Recipe recipe = recipe_with(R"("solids": [{"ingredient": "sucrose", "mass_g": 50},
    {"ingredient": "fructose", "mass_g": 5}], "water": {"mass_g": 50},
    "prices": {"currency": "GBP", "packs": [{"ingredient": "sucrose", "pack_g": 300, "price": 3}]})");
  const Cost found = cost(recipe);
  CHECK_FALSE(found.complete());
  REQUIRE(found.unpriced.size() == 1);
  CHECK(recipe.ingredients[found.unpriced.front()].name == "fructose");
}
