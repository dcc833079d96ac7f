#include <cmath>
#include <map>

#include "catch.hpp"
#include "gelwright/batch.hpp"
#include "gelwright/evaluate.hpp"
#include "recipes.hpp"

using namespace gelwright;
using gelwright::test::near;
using gelwright::test::recipe_with;

namespace {

std::string club_batch(const std::string& batch) {
  return R"("solids": [{"ingredient": "sucrose", "mass_g": 72}], "water": {"per_g_solids": 0.60},
    "acid": {"ingredient": "citric acid anhydrous", "additions_g": [0.18, 0.18]}, "batch": )" +
         batch;
}

Batch plan(const Recipe& recipe, StockChoice stock = StockChoice::when_needed) {
  const Inputs inputs = inputs_of(recipe);
  return plan_batch(formulate(inputs), inputs, 1.25, stock);
}

const BatchLine& line_of(const Batch& batch, LineRole role) {
  for (const BatchLine& line : batch.lines)
    if (line.role == role) return line;
  throw std::runtime_error("no such line");
}

/// All there is of the water, set aside or not, g.
double water_g(const Batch& batch) {
  double sum_g = 0;
  for (const BatchLine& line : batch.lines)
    if (line.role == LineRole::water) sum_g += line.exact_g;
  return sum_g;
}

constexpr const char* kitchen_only =
    R"("scales": [{"name": "kitchen", "readability_g": 1, "capacity_g": 5000}])";
constexpr const char* both_scales =
    R"("scales": [{"name": "kitchen", "readability_g": 1, "capacity_g": 5000},
                  {"name": "pocket", "readability_g": 0.01, "capacity_g": 200}])";

}  // namespace

TEST_CASE(
    "ten servings take 3.6 g of acid, not 1.8 g, and 432 g of water (common practice, no source)") {
  const Batch batch =
      plan(recipe_with(club_batch(std::string(R"({"servings": 10, )") + both_scales + "}")));
  CHECK_THAT(line_of(batch, LineRole::acid).exact_g, near(3.6, 1e-12));
  CHECK_THAT(water_g(batch), near(432, 1e-9));
}

TEST_CASE("a loss is divided out: 10 servings at 4 % loss need 10/0.96 (hand calculation)") {
  const Batch batch = plan(recipe_with(club_batch(R"({"servings": 10, "loss_percent": 4})")));
  CHECK_THAT(batch.factor, near(10 / 0.96, 1e-12));
  CHECK_THAT(batch.yield_g, near(1155.6, 1e-9));
  CHECK_THAT(batch.total_g, near(1155.6 / 0.96, 1e-9));
}

TEST_CASE("0.36 g on a 1 g kitchen scale cannot be weighed, and the plan says what would do") {
  const Batch batch =
      plan(recipe_with(club_batch(std::string(R"({"servings": 1, )") + kitchen_only + "}")));
  REQUIRE(batch.unweighable.size() >= 1);
  const UnweighableLine& acid = batch.unweighable.back();
  CHECK(acid.role == LineRole::acid);
  // k u = 2 sqrt(1 + 1/6) g; the rounding of 0.36 g to 0 g adds 0.36 g.
  CHECK_THAT(acid.error_percent, near(100 * (2 * std::sqrt(7.0 / 6) + 0.36) / 0.36, 1e-9));
  // 5 % of n times 0.36 g must cover 2 u plus half a division.
  CHECK(acid.servings_needed == std::ceil((2 * std::sqrt(7.0 / 6) + 0.5) / 0.05 / 0.36));
}

TEST_CASE("what stands in two vessels and cannot be weighed is told of once") {
  const Batch batch =
      plan(recipe_with(std::string(R"("solids": [{"ingredient": "sodium alginate", "mass_g": 1},
      {"ingredient": "sucrose", "mass_g": 20}], "water": {"mass_g": 30},
      "acid": {"ingredient": "citric acid anhydrous", "mass_g": 1}, "batch": {)") +
                       kitchen_only + "}"));
  std::map<std::pair<int, std::size_t>, int> told;
  for (const UnweighableLine& line : batch.unweighable)
    ++told[{static_cast<int>(line.role), line.ingredient}];
  CHECK(told.size() >= 3);
  for (const auto& [what, times] : told) CHECK(times == 1);
}

TEST_CASE("the finer scale is taken for what the coarse one cannot weigh, in a cup of its own") {
  const Batch batch =
      plan(recipe_with(club_batch(std::string(R"({"servings": 10, )") + both_scales + "}")));
  const BatchLine& acid = line_of(batch, LineRole::acid);
  CHECK(acid.scale == std::size_t{1});
  CHECK(batch.vessels[acid.vessel].use == BatchVessel::Use::apart);
  CHECK(acid.clears);
  CHECK_THAT(acid.running_total_g, near(3.60, 1e-12));
  const BatchLine& solids = line_of(batch, LineRole::solid);
  CHECK(solids.scale == std::size_t{0});
  CHECK_THAT(solids.running_total_g, near(720, 1e-12));
}

TEST_CASE("each vessel is tared empty; bowls add up, cups stand alone (hand calculation)") {
  const Batch batch =
      plan(recipe_with(std::string(R"("solids": [{"ingredient": "sodium alginate", "mass_g": 0.296},
      {"ingredient": "sucrose", "mass_g": 21}, {"ingredient": "fructose", "mass_g": 10}],
      "water": {"mass_g": 28.7}, "batch": {"servings": 10, )") +
                       both_scales + "}"));
  // 287 g of water; 2.96 g of gum in a cup; 8 times that of sucrose, 23.68 g, in a bowl of the
  // pre-blend; 186.32 g of sucrose and 100 g of fructose in a second one: 186.32 + 100.
  REQUIRE(batch.lines.size() == 5);
  CHECK(batch.lines[0].running_total_g == 287);
  CHECK_THAT(batch.lines[1].running_total_g, near(2.96, 1e-12));
  CHECK(batch.vessels[batch.lines[1].vessel].name == "cup A");
  CHECK(batch.lines[2].running_total_g == 24);
  CHECK(batch.lines[3].running_total_g == 186);
  CHECK(batch.lines[4].running_total_g == 286);
  CHECK(batch.lines[3].vessel == batch.lines[4].vessel);
  // 286 - 186 = 100 g go in: nothing off, 2 sqrt(7/6) g of the scale.
  CHECK_THAT(batch.lines[4].error_percent, near(100 * (2 * std::sqrt(7.0 / 6)) / 100, 1e-9));
  // The pre-blend's share of the sucrose counts against all the sucrose there is.
  CHECK_THAT(batch.lines[2].error_percent, near(100 * (0.32 + 2 * std::sqrt(7.0 / 6)) / 210, 1e-9));
}

TEST_CASE("without a fine scale a stock solution is the way out, its water taken off the tap's") {
  const Batch batch =
      plan(recipe_with(club_batch(std::string(R"({"servings": 20, )") + kitchen_only + "}")));
  REQUIRE(batch.stocks.size() == 1);
  const StockPlan& stock = batch.stocks.front();
  CHECK(stock.chosen_by_plan);
  // 7.2 g of acid: 20 % is 36 g (6 % error), 10 % is 72 g (3 %), the strongest that clears.
  CHECK_THAT(stock.stock_fraction, near(0.10, 1e-12));
  CHECK_THAT(stock.use_g, near(72, 1e-9));
  CHECK_THAT(water_g(batch), near(864 - 64.8, 1e-9));
  // The stock has to be weighed too: its acid must clear the same scale.
  CHECK(stock.make_g * stock.stock_fraction * 0.05 >= 2 * std::sqrt(7.0 / 6) + 0.5 - 1e-9);
  CHECK(batch.unweighable.empty());
  CHECK_FALSE(
      plan(recipe_with(club_batch(std::string(R"({"servings": 20, )") + kitchen_only + "}")),
           StockChoice::never)
          .unweighable.empty());
}

TEST_CASE("a display that would overflow splits the line, the bowl's mass counted") {
  const Batch batch = plan(recipe_with(R"("solids": [{"ingredient": "sucrose", "mass_g": 75}],
    "water": {"mass_g": 40}, "batch": {"servings": 30, "bowl_g": 300,
    "scales": [{"name": "small kitchen", "readability_g": 1, "capacity_g": 2000}]})"));
  // 1700 g fit beside the bowl: 1200 g of water in the jug, 1700 and 550 g of sucrose in bowls.
  std::vector<double> stops;
  double sucrose_g = 0;
  for (const BatchLine& line : batch.lines) {
    stops.push_back(line.running_total_g);
    CHECK(line.running_total_g + 300 <= 2000);
    if (line.role == LineRole::solid) sucrose_g += line.exact_g;
  }
  CHECK(stops == std::vector<double>{1200, 1700, 550});
  CHECK_THAT(sucrose_g, near(2250, 1e-9));
  CHECK(batch.lines[1].vessel != batch.lines[2].vessel);
  CHECK(batch.lines[1].parts == 2);
}

TEST_CASE("lines sum to the batch and scale linearly, for every shipped recipe") {
  for (const char* name : test::shipped_names) {
    INFO(name);
    const Recipe recipe = test::shipped(name);
    Inputs inputs = resolve(recipe);
    const Evaluation one = evaluate(inputs);
    const auto sum = [](const Batch& batch) {
      double sum_g = 0;
      double stock_water_g = 0;
      for (const BatchLine& line : batch.lines) {
        sum_g += line.exact_on_scale_g;
        stock_water_g += line.exact_on_scale_g - line.exact_g;
      }
      CHECK(stock_water_g >= -1e-9);
      return sum_g;
    };
    CHECK_THAT(sum(one.batch),
               near(one.batch.total_g / one.batch.rounds, 1e-9 * one.batch.total_g));
    inputs.servings *= 3;
    const Evaluation three = evaluate(inputs);
    CHECK_THAT(three.batch.total_g, near(3 * one.batch.total_g, 1e-9 * three.batch.total_g));
    CHECK_THAT(sum(three.batch) * three.batch.rounds,
               near(3 * sum(one.batch) * one.batch.rounds, 1e-9 * three.batch.total_g));
    CHECK_THAT(three.water_phase.ph, near(one.water_phase.ph, 1e-12));
    CHECK_THAT(three.nutrition.carbohydrate_g, near(one.nutrition.carbohydrate_g, 1e-12));
  }
}

TEST_CASE("a vessel is judged by volume with headroom") {
  const std::string batch = R"({"servings": 10, "headroom_percent": 20, "vessel_ml": )";
  // 1155.6 g at 1.25 g/mL are 924.48 mL; with a fifth of the vessel free 1155.6 mL.
  CHECK(plan(recipe_with(club_batch(batch + "1156}"))).fits_vessel == true);
  CHECK(plan(recipe_with(club_batch(batch + "1155}"))).fits_vessel == false);
  CHECK_FALSE(plan(recipe_with(club_batch(R"({"servings": 10})"))).fits_vessel.has_value());
}
