#include <algorithm>

#include "catch.hpp"
#include "gelwright/error.hpp"
#include "gelwright/resolve.hpp"
#include "gelwright/shop.hpp"
#include "recipes.hpp"

using namespace gelwright;
using gelwright::test::near;
using gelwright::test::recipe_with;

namespace {

Recipe priced(const std::string& currency, double pack_g, double sucrose_g = 75) {
  return recipe_with(R"("solids": [{"ingredient": "sucrose", "mass_g": )" +
                     std::to_string(sucrose_g) + R"(}], "water": {"mass_g": 40},
      "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.5},
      "batch": {"servings": 10, "loss_percent": 4},
      "prices": {"currency": ")" +
                     currency + R"(", "packs": [{"ingredient": "sucrose", "pack_g": )" +
                     std::to_string(pack_g) + R"(, "price": 1.2}]})");
}

}  // namespace

TEST_CASE("two batches share their packs (hand calculation)") {
  const Recipe recipe = priced("GBP", 1000);
  const Inputs one = resolve(recipe);
  // 750 g over 0.96 is 781.25 g: one pack each, but two packs for both, 437.5 g left.
  const ShoppingList single = shopping_list({{one}});
  CHECK(single.lines.at(0).packs == 1);
  CHECK_THAT(single.lines.at(0).left_g, near(218.75, 1e-9));
  const std::vector<Inputs> two = {one, one};
  const ShoppingList list = shopping_list(two);
  REQUIRE(list.lines.size() == 2);
  CHECK_THAT(list.lines[0].needed_g, near(1562.5, 1e-9));
  CHECK(list.lines[0].packs == 2);
  CHECK_THAT(list.lines[0].left_g, near(437.5, 1e-9));
  CHECK_THAT(list.cost, near(2.4, 1e-12));
  CHECK(list.unpriced == std::vector<std::string>{"citric acid anhydrous"});
}

TEST_CASE("a need of exactly whole packs buys no more than that") {
  const Recipe recipe = priced("GBP", 781.25);
  const ShoppingList list = shopping_list({{resolve(recipe)}});
  CHECK(list.lines[0].packs == 1);
  CHECK_THAT(list.lines[0].left_g, near(0, 1e-9));
}

TEST_CASE("two currencies, or one thing in two packs, cannot be added up") {
  const Recipe pounds = priced("GBP", 1000);
  const Recipe euros = priced("EUR", 1000);
  const Recipe bigger = priced("GBP", 2000);
  const std::vector<Inputs> mixed = {resolve(pounds), resolve(euros)};
  CHECK_THROWS_AS(shopping_list(mixed), InputError);
  const std::vector<Inputs> packs = {resolve(pounds), resolve(bigger)};
  CHECK_THROWS_AS(shopping_list(packs), InputError);
}

TEST_CASE("of a solution all that is made is bought, and its water named") {
  const Recipe recipe = recipe_with(
      R"("solids": [{"ingredient": "sucrose", "mass_g": 20}], "water": {"mass_g": 50},
         "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.04, "stock_percent": 10},
         "batch": {"servings": 4, "loss_percent": 0, "scales": [
           {"name": "kitchen", "readability_g": 1, "capacity_g": 5000},
           {"name": "pocket", "readability_g": 0.01, "capacity_g": 200}]})");
  const Inputs inputs = inputs_of(recipe);
  const ShoppingList list = shopping_list({{inputs}});
  REQUIRE(list.lines.size() == 2);
  // 1.6 g of solution are used. 5 % of .01 g and its rounding call for .53 g of acid in it (USP
  // <41>): 5.3 g, so 10 g of solution are made, of 1 g of acid in 9 g of water.
  CHECK_THAT(list.lines[1].needed_g, near(1, 1e-9));
  CHECK_THAT(list.low_mineral_water_g, near(9, 1e-9));
}
