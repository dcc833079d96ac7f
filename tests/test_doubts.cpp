// What a label or a constant leaves open, at both of its ends. Each end is also reached by a recipe
// that says outright what the doubtful one leaves open: no outside figure is needed for that.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "catch.hpp"
#include "gelwright/dose.hpp"
#include "gelwright/evaluate.hpp"
#include "gelwright/keeping.hpp"
#include "gelwright/spread.hpp"
#include "recipes.hpp"

using namespace gelwright;
using gelwright::test::near;
using gelwright::test::recipe_with;

namespace {

/// A mix with this under "contains", beside a label.
Recipe mix_with(const std::string& contains, const std::string& more = "") {
  return recipe_with(R"("define": {"mix": {"kind": "mix", "contains": [)" + contains +
                     R"(], "label": {"per_g": 100, "carbohydrate_g": 90, "sugars_g": 90,
       "glucose_to_fructose": "1:1", "sodium_mg": 300}, "fizzed": false}},
       "solids": [{"ingredient": "mix", "mass_g": 60}, {"ingredient": "sodium alginate", "mass_g": 0.4}],
       "water": {"mass_g": 45}, "tap": "demineralised water")" +
                     more);
}

double ph_of(const Recipe& recipe) {
  const Inputs inputs = inputs_of(recipe);
  return water_phase_of(formulate(inputs), inputs).ph;
}

std::string citric(double fraction) {
  return fmt::format(R"({{"ingredient": "citric acid anhydrous", "fraction": {}}})", fraction);
}
const std::string some_citric = R"({"ingredient": "citric acid anhydrous"})";

}  // namespace

TEST_CASE("an acid named without an amount: the middle is counted, the band reaches both ends") {
  const Recipe doubtful = mix_with(some_citric);
  const Inputs inputs = inputs_of(doubtful);
  CHECK(acid_undeclared(inputs));
  const Evaluation found = evaluate(inputs);
  // 0.2 to 3 g in 100 g, judgement; what the label says beside it stays as labelled.
  CHECK_THAT(found.water_phase.ph, near(ph_of(mix_with(citric(0.016))), 0.02));
  const double least_sour = ph_of(mix_with(citric(0.002)));
  const double sourest = ph_of(mix_with(citric(0.03)));
  REQUIRE(sourest < found.water_phase.ph - 0.2);
  REQUIRE(least_sour > found.water_phase.ph + 0.5);
  CHECK(found.ph_band.low < sourest);
  CHECK(found.ph_band.high > least_sour);
  // Without the word there is no such doubt.
  const Recipe outright = mix_with(citric(0.016));
  CHECK_FALSE(acid_undeclared(inputs_of(outright)));
}

TEST_CASE("an acid named without an amount: keeping goes by its least, the chances count it all") {
  const Recipe doubtful = mix_with(some_citric);
  const Inputs inputs = inputs_of(doubtful);
  const Evaluation found = evaluate(inputs);
  CHECK(keeping_of(found, inputs).decided_by == KeepingBy::perhaps_not_sour);
  const auto chances_at = [&inputs](double at) {
    Inputs read = read_acid_as(inputs, at);
    Recipe known = *inputs.recipe;
    for (Ingredient& each : known.ingredients) each.undeclared_acids.clear();
    read.recipe = &known;
    return evaluate(read).gel.chance_set();
  };
  // The three readings with a sixth, two thirds and a sixth, the sodium's mixed in each of them.
  const double mixed = chances_at(0) / 6 + 2 * chances_at(0.5) / 3 + chances_at(1) / 6;
  CHECK_THAT(found.gel.chance_set(), near(mixed, 1e-9));
  CHECK(chances_at(1) > chances_at(0) + 0.2);
}

TEST_CASE("an acid named without an amount: a measured pH or a fitted buffer settles it") {
  const Recipe read = mix_with(some_citric, R"(, "process": {"measured_ph": 3.4})");
  const Inputs inputs = as_measured(inputs_of(read));
  CHECK_THAT(evaluate(inputs).gel.state.ph, near(3.4, 1e-9));
  CHECK(keeping_of(evaluate(inputs), inputs).decided_by == KeepingBy::sour_by_meter);
  Ingredient fitted = read.ingredients[0];
  REQUIRE_FALSE(fitted.undeclared_acids.empty());
  fitted.buffer_pka = 4;
  CHECK(acid_beside_middle(fitted, 1).organic_acid_g == 0);
}

TEST_CASE("a part of a part names an acid: its band is as much narrower as there is less of it") {
  const Recipe recipe = recipe_with(R"("define": {
      "sour": {"kind": "mix", "contains": [{"ingredient": "malic acid"}],
               "label": {"per_g": 100, "carbohydrate_g": 90}},
      "half": {"kind": "mix", "contains": [{"ingredient": "sour", "fraction": 0.5},
               {"ingredient": "maltodextrin DE 18", "fraction": 0.5}]}},
      "solids": [{"ingredient": "half", "mass_g": 60}], "water": {"mass_g": 45})");
  REQUIRE(recipe.ingredients[0].undeclared_acids.size() == 1);
  CHECK_THAT(recipe.ingredients[0].undeclared_acids[0].share_high, near(0.015, 1e-12));
  CHECK_THAT(recipe.ingredients[0].undeclared_acids[0].share_low, near(0.001, 1e-12));
}

TEST_CASE("the doubt of citrate's complexes is in the doubt of the gel's calcium, and only there") {
  const auto state = [](double citrate_g) {
    const Recipe recipe = recipe_with(fmt::format(
        R"("solids": [{{"ingredient": "sodium alginate", "mass_g": 0.5}},
           {{"ingredient": "sucrose", "mass_g": 20}},
           {{"ingredient": "trisodium citrate dihydrate", "mass_g": {}}}],
           "water": {{"mass_g": 60}}, "tap": "demineralised water",
           "acid": {{"ingredient": "citric acid anhydrous", "mass_g": 0.6}},
           "calcium": {{"ingredient": "calcium lactate pentahydrate", "mass_g": 0.3, "when": "slow"}})",
        citrate_g));
    const Evaluation found = evaluate(inputs_of(recipe));
    return std::pair(found.gel.state.ca_lg_sd, found.water_phase.free_calcium_decades);
  };
  const double usual = gel::State{}.ca_lg_sd;
  for (const double citrate_g : {0.2, 0.8}) {
    const auto [sd, decades] = state(citrate_g);
    CHECK(decades > 0.01);
    CHECK_THAT(sd, near(std::hypot(usual, decades / 1.96), 1e-9));
  }
}

TEST_CASE(
    "spread draws the free calcium as wide as the constants of citrate's complexes leave it") {
  const Recipe recipe = recipe_with(R"("solids": [{"ingredient": "sodium alginate", "mass_g": 0.5},
      {"ingredient": "sucrose", "mass_g": 20}, {"ingredient": "trisodium citrate dihydrate", "mass_g": 0.8}],
      "water": {"mass_g": 60}, "tap": "demineralised water",
      "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.6},
      "calcium": {"ingredient": "calcium lactate pentahydrate", "mass_g": 0.3, "when": "slow"})");
  const Inputs inputs = inputs_of(recipe);
  const Evaluation point = evaluate(inputs);
  const SpreadResult result = spread(inputs, {.draws = 2000});
  const auto found = std::find_if(
      result.doubts.begin(), result.doubts.end(),
      [](const Doubt& each) { return each.what.find("citrate's complexes") != std::string::npos; });
  REQUIRE(found != result.doubts.end());
  CHECK_THAT(found->width, near(point.water_phase.free_calcium_decades / 1.959964, 1e-6));
  // Both ends through the program: the bias moves free and available calcium alike, never past all.
  for (const double bias : {-0.2, 0.2}) {
    Inputs moved = inputs;
    moved.calcium_lg_bias = bias;
    const WaterPhase phase = water_phase_of(formulate(moved), moved);
    CHECK_THAT(phase.free_calcium_mmol_per_kg,
               near(point.water_phase.free_calcium_mmol_per_kg * std::pow(10.0, bias), 1e-9));
    CHECK_THAT(phase.available_calcium_mmol_per_kg,
               near(point.water_phase.available_calcium_mmol_per_kg * std::pow(10.0, bias), 1e-9));
    CHECK(phase.ph == point.water_phase.ph);
  }
  Inputs all = inputs;
  all.calcium_lg_bias = 5;
  const WaterPhase phase = water_phase_of(formulate(all), all);
  CHECK(phase.free_calcium_mmol_per_kg <= phase.total_calcium_mmol_per_kg * (1 + 1e-12));
}

TEST_CASE("the acid for a pH, over all that a label's sodium may be") {
  const std::string open = R"("define": {"mix": {"kind": "mix",
      "label": {"per_g": 100, "carbohydrate_g": 94, "sodium_mg": 300})";
  const std::string rest = R"(}}, "solids": [{"ingredient": "mix", "mass_g": 60}],
      "water": {"mass_g": 45}, "tap": "demineralised water",
      "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.1})";
  const Recipe recipe = recipe_with(open + rest);
  const Inputs inputs = resolve(recipe);
  const DoseAnswer found = answer(inputs, {Target::ph, 3.5});
  REQUIRE(found.dosed.reached);
  REQUIRE(found.by_sodium.size() == 3);
  double least_g = 1e9;
  for (const DoseReading& each : found.by_sodium) {
    REQUIRE(each.dosed.reached);
    least_g = std::min(least_g, each.dosed.amount);
    Inputs read = read_sodium_as(inputs, each.reading.salt);
    read.acid->line.mass_g = each.dosed.amount;
    CHECK_THAT(water_phase_of(formulate(read), read).ph, near(3.5, 1e-6));
  }
  // Nothing that was put in can be taken out: the answer is the least.
  CHECK(found.dosed.amount == least_g);
  CHECK(found.by_sodium[1].dosed.amount > least_g * 2);
  // Where the mean meets it, between the least and the most.
  REQUIRE(found.at_mean_ph.has_value());
  CHECK(found.at_mean_ph->amount > least_g);
  CHECK(found.at_mean_ph->amount < found.by_sodium[2].dosed.amount);
  double mean = 0;
  for (const DoseReading& each : found.by_sodium) {
    Inputs read = read_sodium_as(inputs, each.reading.salt);
    read.acid->line.mass_g = found.at_mean_ph->amount;
    mean += each.reading.weight * water_phase_of(formulate(read), read).ph;
  }
  CHECK_THAT(mean, near(3.5, 1e-6));
  // Nothing fizzed: two are left. The salt is named: one dose.
  const Recipe quiet = recipe_with(open + R"(, "fizzed": false)" + rest);
  CHECK(answer(resolve(quiet), {Target::ph, 3.5}).by_sodium.size() == 2);
  const Recipe named =
      recipe_with(open + R"(, "contains": [{"ingredient": "sodium chloride"}])" + rest);
  CHECK(answer(resolve(named), {Target::ph, 3.5}).by_sodium.empty());
}

TEST_CASE(
    "a measured pH settles what the sodium of a label is: for the chances, the gas, the next "
    "dose") {
  const auto read_as_measured = [](double ph) {
    return recipe_with(fmt::format(R"("define": {{"mix": {{"kind": "mix",
        "label": {{"per_g": 100, "carbohydrate_g": 94, "sodium_mg": 350}}}}}},
        "solids": [{{"ingredient": "mix", "mass_g": 70}},
                   {{"ingredient": "sodium alginate", "mass_g": 0.4}}],
        "water": {{"mass_g": 45}}, "tap": "demineralised water",
        "acid": {{"ingredient": "citric acid anhydrous", "mass_g": 0.4}},
        "process": {{"measured_ph": {}}})",
                                   ph));
  };
  // What each salt would make of it.
  const Recipe open = read_as_measured(3);
  const Inputs inputs = inputs_of(open);
  double computed[3];
  for (const SodiumReading& each : sodium_readings(inputs)) {
    const Inputs read = read_sodium_as(inputs, each.salt);
    computed[static_cast<std::size_t>(each.salt)] = water_phase_of(formulate(read), read).ph;
  }
  REQUIRE(computed[1] > computed[0] + 1);
  for (const SodiumSalt salt :
       {SodiumSalt::chloride, SodiumSalt::citrate, SodiumSalt::bicarbonate}) {
    const Recipe recipe = read_as_measured(computed[static_cast<std::size_t>(salt)]);
    const Inputs measured = inputs_of(recipe);
    const std::vector<SodiumReading> left = sodium_readings_left(measured);
    REQUIRE_FALSE(left.empty());
    const auto likeliest = std::max_element(
        left.begin(), left.end(), [](const auto& a, const auto& b) { return a.weight < b.weight; });
    INFO(to_text(salt) << " at pH " << computed[static_cast<std::size_t>(salt)]);
    if (salt != SodiumSalt::bicarbonate) CHECK(likeliest->salt == salt);
    double together = 0;
    for (const SodiumReading& each : left) together += each.weight;
    CHECK_THAT(together, near(1, 1e-12));
    bool gas = false;
    for (const Flag& flag : evaluate(measured).flags)
      gas = gas || name_of(flag.id) == "gas-in-pouch";
    CHECK(gas == std::any_of(left.begin(), left.end(), [](const SodiumReading& each) {
            return each.salt == SodiumSalt::bicarbonate;
          }));
  }
  // As sour as table salt alone would leave it: no other salt is left, and no gas.
  const Recipe sour = read_as_measured(computed[0]);
  CHECK(sodium_readings_left(inputs_of(sour)).size() == 1);
}
