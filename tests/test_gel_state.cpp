// What the gel model is told of a recipe, against sums done by hand from molar masses.
#include <cmath>

#include "catch.hpp"
#include "gelwright/gel_forecast.hpp"
#include "recipes.hpp"

using namespace gelwright;
using gelwright::test::near;
using gelwright::test::recipe_with;

namespace {

gel::State state_of(const Inputs& inputs) {
  const Formula formula = formulate(inputs);
  return gel_state_of(formula, water_phase_of(formula, inputs, false), inputs);
}

/// A chloride water with 1 mmol of calcium in each kg: nothing in it hides calcium or holds the pH.
const std::string soft_tap =
    R"("tap": {"calcium_mg_per_l": 40.00, "chloride_mg_per_l": 70.78, "alkalinity_mg_caco3_per_l": 0})";

}  // namespace

TEST_CASE(
    "gum in plain water first: its share, what it meets, what it ends in (hand calculation)") {
  const Recipe recipe = recipe_with(
      R"("solids": [{"ingredient": "sucrose", "mass_g": 25}, {"ingredient": "sodium alginate", "mass_g": 1}],
         "water": {"mass_g": 100}, "process": {"rest_hours": 3},)" +
      soft_tap);
  const gel::State state = state_of(inputs_of(recipe));
  REQUIRE(state.portions == 1);
  const gel::Portion& gum = state.portion[0];
  CHECK(gum.gum == Gum::alginate);
  // 1 g in 100 g of water and its own 0.12 g of moisture.
  CHECK_THAT(gum.g_per_100_g_water, near(100 * 1 / 100.12, 1e-9));
  // 40.00 / 40.078 mmol in 0.9982 kg; the moisture of the gum is water too.
  CHECK_THAT(gum.ca_met_mmol_per_kg, near(40.00 / 40.078 / 0.9982 * 100 / 100.12, 0.002));
  // Its own 0.88 g of solids go in while it dissolves: half of them, in 101 g.
  CHECK_THAT(gum.solids_met_percent, near(100 * 0.44 / 101, 1e-6));
  CHECK_THAT(gum.sequestered, near(0, 1e-3));
  CHECK(gum.dispersed == gel::Dispersed::sugar);
  CHECK(gum.hours == 3);
  CHECK_FALSE(gum.late);
  CHECK_THAT(state.ca_mmol_per_kg, near(gum.ca_met_mmol_per_kg, 0.002));
  CHECK_THAT(state.ca_total_mmol_per_kg, near(40.00 / 40.078 / 0.9982 * 100 / 100.12, 0.002));
  CHECK(state.ca_added_mmol_per_kg == 0);
  // 4.50 mmol of carboxylate in 1 g (222 g/mol), each with its sodium.
  CHECK_THAT(state.na_mmol_per_kg, near(1000 / 222.0 / 0.10012, 0.01));
  CHECK_THAT(state.solids_percent, near(100 * 25.88 / 126, 1e-6));
  CHECK_THAT(state.sugars.sucrose, near(25 / 25.88, 1e-9));
  CHECK(state.sugars.maltodextrin == 0);
  CHECK(state.acid == gel::Acid::none);
  CHECK(state.guluronate == 0.5);
}

TEST_CASE("gum sold in a mix meets half of its solids, before the acid (hand calculation)") {
  const Recipe recipe = recipe_with(
      R"("define": {"mix": {"kind": "mix", "contains": [
             {"ingredient": "maltodextrin DE 12", "fraction": 0.6}, {"ingredient": "fructose", "fraction": 0.39},
             {"ingredient": "sodium alginate", "fraction": 0.01}]}},
         "solids": [{"ingredient": "mix", "mass_g": 80}], "water": {"mass_g": 120},
         "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.5},
         "process": {"gum_dispersed": "in_mix", "acid_added": "under_blade"},)" +
      soft_tap);
  const gel::State state = state_of(inputs_of(recipe));
  REQUIRE(state.portions == 1);
  const gel::Portion& gum = state.portion[0];
  CHECK(gum.dispersed == gel::Dispersed::mix);
  // Water: 120 g, 5 % of 48 g of maltodextrin, 12 % of 0.8 g of gum.
  const double water_g = 120 + 2.4 + 0.096;
  CHECK_THAT(gum.g_per_100_g_water, near(100 * 0.8 / water_g, 1e-9));
  CHECK_THAT(gum.solids_met_percent, near(0.5 * 100 * (80 - 2.496) / 200, 1e-6));
  // Before the acid the liquid is near neutral, the serving is sour.
  CHECK(gum.ph_met > 5);
  CHECK(state.ph < 4);
  CHECK(gum.ca_met_mmol_per_kg > state.ca_mmol_per_kg);
  CHECK(state.acid == gel::Acid::blade);
  // One chain end for each 100/12 glucose units of the dry maltodextrin.
  CHECK_THAT(state.sugars.maltodextrin_de, near(12, 1e-6));
  CHECK_THAT(state.sugars.maltodextrin, near(45.6 / (80 - 2.496 + 0.5), 1e-6));
  CHECK_THAT(state.sugars.fructose, near(31.2 / (80 - 2.496 + 0.5), 1e-3));
  // Alginate of a mix sold to gel with acid is taken as richer in guluronate (judgement).
  CHECK(state.guluronate == 0.6);
}

TEST_CASE("gum that goes in last meets the acid and counts as late") {
  const Recipe recipe = recipe_with(
      R"("solids": [{"ingredient": "sucrose", "mass_g": 25}, {"ingredient": "sodium alginate", "mass_g": 1}],
         "water": {"mass_g": 100}, "acid": {"ingredient": "citric acid anhydrous", "mass_g": 1},)" +
      soft_tap);
  Inputs inputs = inputs_of(recipe);
  const gel::State before = state_of(inputs);
  inputs.making.solids[1].place = inputs.making.acid_place + 1;
  const gel::State after = state_of(inputs);
  CHECK_FALSE(before.portion[0].late);
  CHECK(after.portion[0].late);
  CHECK(after.portion[0].ph_met < 3.5);
  CHECK(before.portion[0].ph_met > 5);
  CHECK(after.portion[0].solids_met_percent > 19);
  CHECK_THAT(after.ph, near(before.ph, 1e-12));
}

TEST_CASE("a soluble calcium salt at once is told apart from a slow one (hand calculation)") {
  const auto with = [](const std::string& when) {
    const Recipe recipe = recipe_with(
        R"("solids": [{"ingredient": "sodium alginate", "mass_g": 1}], "water": {"mass_g": 100},
           "calcium": {"ingredient": "calcium lactate pentahydrate", "mass_g": 0.3083, "when": ")" +
        when + R"("}, "tap": "demineralised water")");
    return state_of(inputs_of(recipe));
  };
  // 0.3083 g of 308.3 g/mol is 1 mmol, in 100 g of water, 0.12 g from the gum and the hydrate's.
  const double water_kg = 0.1 + 0.00012 + 0.005 * 0.018015;
  CHECK_THAT(with("fast").ca_added_mmol_per_kg, near(1 / water_kg, 0.01));
  CHECK(with("fast").calcium == gel::Calcium::fast);
  CHECK(with("slow").ca_added_mmol_per_kg == 0);
  CHECK(with("slow").calcium == gel::Calcium::slow);
  CHECK_THAT(with("slow").ca_total_mmol_per_kg, near(1 / water_kg, 0.01));
  // Before the salt the water holds no calcium.
  CHECK(with("slow").portion[0].ca_met_mmol_per_kg == 0);
}

TEST_CASE("citrate in the water hides calcium from the gum it meets") {
  const auto with = [](double citrate_g) {
    const Recipe recipe = recipe_with(
        R"("define": {"mix": {"kind": "mix", "contains": [{"ingredient": "sucrose", "fraction": 0.9},
             {"ingredient": "trisodium citrate dihydrate", "fraction": )" +
        std::to_string(citrate_g) + R"(}, {"ingredient": "low-acyl gellan", "fraction": 0.02}]}},
           "solids": [{"ingredient": "mix", "mass_g": 10}], "water": {"mass_g": 100},)" +
        soft_tap);
    return state_of(inputs_of(recipe));
  };
  CHECK(with(0.05).portion[0].sequestered > 0.8);
  CHECK(with(0.0001).portion[0].sequestered < 0.2);
  CHECK(with(0.05).portion[0].ca_met_mmol_per_kg < 0.2);
}

TEST_CASE("an undeclared share is read at both ends and the middle, weights 1/6, 2/3, 1/6") {
  const Recipe recipe = test::shipped("tarn-thick-pouch.json");
  const std::vector<GumReading> readings = gum_readings(recipe);
  REQUIRE(readings.size() == 3);
  double weight = 0;
  for (const GumReading& reading : readings) weight += reading.weight;
  CHECK_THAT(weight, near(1, 1e-12));
  const Inputs inputs = inputs_of(recipe);
  const double low = state_of(read_as(inputs, readings[0])).portion[0].g_per_100_g_water;
  const double middle = state_of(read_as(inputs, readings[1])).portion[0].g_per_100_g_water;
  const double high = state_of(read_as(inputs, readings[2])).portion[0].g_per_100_g_water;
  CHECK_THAT(middle / low, near(0.010 / 0.006, 1e-9));
  CHECK_THAT(high / low, near(0.014 / 0.006, 1e-9));
  CHECK_THAT(state_of(inputs).portion[0].g_per_100_g_water, near(middle, 1e-12));
}

TEST_CASE("every shipped recipe is inside the range of the gel model") {
  for (const char* name : test::shipped_names) {
    INFO(name);
    const Recipe recipe = test::shipped(name);
    CHECK(gel::out_of_range(state_of(resolve(recipe))).empty());
  }
}
