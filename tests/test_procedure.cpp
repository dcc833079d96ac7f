// The procedure: everything is weighed, everything arrives, and what sets is filled before it sets.
#include <cmath>
#include <cstdint>
#include <map>
#include <set>
#include <string>

#include "card_random.hpp"
#include "catch.hpp"
#include "gelwright/procedure.hpp"
#include "gelwright/resolve.hpp"
#include "recipes.hpp"

using namespace gelwright;
using gelwright::test::near;
using gelwright::test::recipe_with;

namespace {

/// Who follows the list and nothing else: pours what stands in vessels from one into the other.
/// What is in a vessel is counted by name, "water" with that of the stocks.
class Cook {
 public:
  Cook(const Inputs& inputs, const Evaluation& evaluation)
      : recipe_(*inputs.recipe), batch_(evaluation.batch), vessels_(batch_.vessels.size()) {}

  void follow(const Procedure& procedure) {
    for (const ProcedureStep& step : procedure.steps) {
      if (step.doing == Doing::weigh) weigh(*step.line, *step.vessel);
      if (step.into) {
        REQUIRE_FALSE(vessels_[*step.vessel].empty());
        for (const auto& [name, mass_g] : vessels_[*step.vessel])
          vessels_[*step.into][name] += mass_g;
        vessels_[*step.vessel].clear();
      }
    }
  }

  /// What has come together; the other vessels must be empty.
  std::map<std::string, double> dish() const {
    std::map<std::string, double> found;
    for (std::size_t v = 0; v < vessels_.size(); ++v) {
      if (batch_.vessels[v].use == BatchVessel::Use::main && !vessels_[v].empty())
        found = vessels_[v];
      else
        CHECK(vessels_[v].empty());
    }
    return found;
  }

 private:
  void weigh(std::size_t number, std::size_t vessel) {
    const BatchLine& line = batch_.lines[number];
    CHECK(line.vessel == vessel);
    const std::string name =
        line.role == LineRole::water ? "water" : recipe_.ingredients[line.ingredient].name;
    vessels_[vessel][name] += line.exact_g;
    if (line.stock_fraction > 0) vessels_[vessel]["water"] += line.exact_on_scale_g - line.exact_g;
  }

  const Recipe& recipe_;
  const Batch& batch_;
  std::vector<std::map<std::string, double>> vessels_;
};

/// What one round is to hold by the recipe, by name.
std::map<std::string, double> wanted(const Inputs& inputs, const Evaluation& evaluation) {
  const Recipe& recipe = *inputs.recipe;
  const double factor = evaluation.batch.factor / evaluation.batch.rounds;
  std::map<std::string, double> dish;
  dish["water"] = evaluation.formula.water_g * factor;
  for (const InputLine& line : inputs.solids)
    if (line.mass_g > 0) dish[recipe.ingredients[line.ingredient].name] += line.mass_g * factor;
  for (const auto& dose : {inputs.acid, inputs.calcium})
    if (dose && dose->line.mass_g > 0)
      dish[recipe.ingredients[dose->line.ingredient].name] += dose->line.mass_g * factor;
  return dish;
}

void check_cook(const Inputs& inputs, const Evaluation& evaluation) {
  Cook cook(inputs, evaluation);
  cook.follow(procedure_of(inputs, evaluation));
  const auto dish = cook.dish();
  const auto meant = wanted(inputs, evaluation);
  CHECK(dish.size() == meant.size());
  for (const auto& [name, mass_g] : meant) {
    INFO(name);
    REQUIRE(dish.count(name) == 1);
    CHECK_THAT(dish.at(name), near(mass_g, 1e-9 * evaluation.batch.total_g));
  }
}

/// Each display is what its vessel holds by then; nothing is weighed after mixing.
void check_displays(const Inputs& inputs, const Evaluation& evaluation) {
  std::map<std::size_t, double> display_g;
  bool mixed = false;
  for (const ProcedureStep& step : procedure_of(inputs, evaluation).steps) {
    if (step.into) mixed = true;
    if (step.doing != Doing::weigh) continue;
    CHECK_FALSE(mixed);
    const BatchLine& line = evaluation.batch.lines[*step.line];
    display_g[line.vessel] += line.weigh_g;
    CHECK_THAT(line.running_total_g, near(display_g[line.vessel], 1e-9));
  }
}

/// Filled once, with all that reaches the pouches, and before it rests where it may set still.
void check_fill(const Inputs& inputs, const Evaluation& evaluation) {
  const Procedure procedure = procedure_of(inputs, evaluation);
  bool rested = false;
  int fills = 0;
  for (const ProcedureStep& step : procedure.steps) {
    if (step.doing == Doing::rest) rested = true;
    if (step.doing != Doing::fill) continue;
    ++fills;
    CHECK_THAT(step.grams * step.count * evaluation.batch.rounds,
               near(evaluation.batch.yield_g, 1e-9 * evaluation.batch.yield_g));
    if (procedure.filled_early) CHECK_FALSE(rested);
    const GelForecast& gel = evaluation.gel;
    if (gel.made && gel.chance(gel::Texture::soft) + gel.chance(gel::Texture::firm) +
                            gel.chance(gel::Texture::hard) >=
                        0.5)
      CHECK_FALSE(rested);
  }
  CHECK(fills == 1);
}

std::size_t place_of(const Procedure& procedure, Doing doing) {
  for (std::size_t i = 0; i < procedure.steps.size(); ++i)
    if (procedure.steps[i].doing == doing) return i;
  return procedure.steps.size();
}

}  // namespace

TEST_CASE("who follows the list ends with what the recipe says, for every shipped recipe") {
  for (const char* name : test::shipped_names) {
    INFO(name);
    const Recipe recipe = test::shipped(name);
    Inputs inputs = resolve(recipe);
    for (const double servings : {1.0, inputs.servings, 37.0}) {
      inputs.servings = servings;
      check_cook(inputs, evaluate(inputs));
    }
  }
}

TEST_CASE("each display is what its vessel holds by then, and nothing is weighed after mixing") {
  for (const char* name : test::shipped_names) {
    INFO(name);
    const Recipe recipe = test::shipped(name);
    const Inputs inputs = as_weighed(resolve(recipe));
    const Evaluation evaluation = evaluate(inputs);
    check_displays(inputs, evaluation);
    check_fill(inputs, evaluation);
  }
}

TEST_CASE("what sets while it stands is filled before it rests, what was sheared after") {
  const auto plan = [](const std::string& acid, const std::string& how) {
    const Recipe recipe = recipe_with(
        R"("solids": [{"ingredient": "sodium alginate", "mass_g": 0.7},
             {"ingredient": "sucrose", "mass_g": 20}], "water": {"mass_g": 50},
           "tap": {"calcium_mg_per_l": 5, "magnesium_mg_per_l": 1, "alkalinity_meq_per_l": 0.2},
           "acid": {"ingredient": ")" +
        acid + R"(", "mass_g": 0.6}, "batch": {"servings": 4},
           "process": {"acid_added": ")" +
        how + R"(", "rest_hours": 12})");
    const Inputs inputs = resolve(recipe);
    const Evaluation evaluation = evaluate(inputs);
    return procedure_of(inputs, evaluation);
  };
  const Procedure still = plan("glucono delta-lactone", "slow");
  CHECK(still.filled_early);
  CHECK(place_of(still, Doing::fill) < place_of(still, Doing::rest));
  REQUIRE(still.sets_after_hours);
  CHECK(*still.sets_after_hours < 12);
  const Procedure sheared = plan("citric acid anhydrous", "under_blade");
  CHECK_FALSE(sheared.filled_early);
  CHECK(place_of(sheared, Doing::fill) > place_of(sheared, Doing::rest));
  CHECK_FALSE(sheared.sets_after_hours);
}

TEST_CASE("gum is blended with sugar from a later step, as much as there is and no more") {
  const auto blended_g = [](double gum_g, double sugar_g) {
    const Recipe recipe =
        recipe_with(R"("solids": [{"ingredient": "sodium alginate", "mass_g": )" +
                    std::to_string(gum_g) + R"(}, {"ingredient": "sucrose", "mass_g": )" +
                    std::to_string(sugar_g) + R"(}], "water": {"mass_g": 50})");
    const Inputs inputs = inputs_of(recipe);
    const Evaluation evaluation = evaluate(inputs);
    const Batch& batch = evaluation.batch;
    const Procedure procedure = procedure_of(inputs, evaluation);
    const ProcedureStep& blend = procedure.steps[place_of(procedure, Doing::blend_dry)];
    double found_g = 0;
    for (const BatchLine& line : batch.lines)
      if (batch.vessels[line.vessel].step == batch.vessels[*blend.vessel].step &&
          line.role == LineRole::solid && recipe.ingredients[line.ingredient].name == "sucrose")
        found_g += line.exact_g;
    return found_g;
  };
  // 5 to 10 times its mass of sugar (common practice, no source): eight where there is enough.
  CHECK_THAT(blended_g(0.5, 30), near(4, 1e-9));
  CHECK_THAT(blended_g(4, 12), near(12, 1e-9));
}

TEST_CASE("a dose takes the finest scale that holds it, an acid stock too") {
  const Recipe recipe = recipe_with(
      R"("solids": [{"ingredient": "sucrose", "mass_g": 72}], "water": {"mass_g": 43},
         "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.5, "stock_percent": 10},
         "batch": {"servings": 10, "scales": [
           {"name": "kitchen", "readability_g": 1, "capacity_g": 5000},
           {"name": "pocket", "readability_g": 0.01, "capacity_g": 200}]})");
  const Inputs inputs = inputs_of(recipe);
  const Evaluation evaluation = evaluate(inputs);
  for (const BatchLine& line : evaluation.batch.lines)
    if (line.role == LineRole::acid) {
      // 50 g of stock: 2.2 g in 50 g on the kitchen scale, 0.02 g on the other (USP <41>).
      CHECK(line.scale == std::size_t{1});
      CHECK(line.error_percent < 0.1);
    }
}

TEST_CASE("more than the vessel holds becomes equal rounds") {
  const Recipe recipe = recipe_with(
      R"("solids": [{"ingredient": "sucrose", "mass_g": 72}], "water": {"mass_g": 43},
         "batch": {"servings": 30, "vessel_ml": 1500, "headroom_percent": 20})");
  const Inputs inputs = inputs_of(recipe);
  const Evaluation evaluation = evaluate(inputs);
  const Batch& batch = evaluation.batch;
  CHECK(batch.rounds == std::ceil(batch.vessel_needed_ml / 1500));
  CHECK(batch.rounds >= 2);
  double weighed_g = 0;
  for (const BatchLine& line : batch.lines) weighed_g += line.exact_on_scale_g;
  CHECK_THAT(batch.rounds * weighed_g, near(batch.total_g, 1e-9 * batch.total_g));
  check_cook(inputs, evaluation);
}

namespace {

void follow_random(std::uint64_t from, std::uint64_t to) {
  for (std::uint64_t trial = from; trial < to; ++trial) {
    const std::string text = test::random_batch(trial);
    INFO(text);
    const Recipe recipe = recipe_with(text, trial % 2 == 0 ? "pouch" : "drink");
    const Inputs inputs = as_weighed(inputs_of(recipe));
    EvaluateParts parts;
    parts.flags = false;
    parts.gel.detail = GelDetail::centre;
    parts.gel.stomach = false;
    const Evaluation evaluation = evaluate(inputs, parts);
    check_cook(inputs, evaluation);
    check_displays(inputs, evaluation);
    check_fill(inputs, evaluation);
  }
}

}  // namespace

TEST_CASE("who follows the list ends with what the recipe says, for random recipes") {
  follow_random(0, 500);
}

TEST_CASE("who follows the list ends with what the recipe says, 5000 recipes", "[.slow]") {
  follow_random(500, 5500);
}

TEST_CASE("what the scale of the pot cannot weigh stands in a cup and is poured in first") {
  const Recipe recipe = recipe_with(
      R"("solids": [{"ingredient": "sodium alginate", "mass_g": 0.2},
           {"ingredient": "sucrose", "mass_g": 20}], "water": {"mass_g": 16},
         "batch": {"servings": 1, "scales": [
           {"name": "kitchen", "readability_g": 1, "capacity_g": 5000},
           {"name": "pocket", "readability_g": 0.01, "capacity_g": 200}]})");
  const Inputs inputs = inputs_of(recipe);
  const Evaluation evaluation = evaluate(inputs);
  check_cook(inputs, evaluation);
  for (const ProcedureStep& step : procedure_of(inputs, evaluation).steps) {
    if (!step.into || evaluation.batch.vessels[*step.into].use != BatchVessel::Use::main) continue;
    CHECK(evaluation.batch.vessels[*step.vessel].use == BatchVessel::Use::main_too);
    break;
  }
}

TEST_CASE("juice thins the water where gum would make a paste of it; else that is said") {
  const auto plan = [](double juice_g) {
    const Recipe recipe = recipe_with(
        R"("define": {"juice": {"kind": "syrup", "contains":
             [{"ingredient": "fructose", "fraction": 0.1}], "water_fraction": 0.9}},
           "solids": [{"ingredient": "HM pectin", "mass_g": 4},
             {"ingredient": "sucrose", "mass_g": 60},
             {"ingredient": "juice", "mass_g": )" +
        std::to_string(juice_g) + R"(}], "water": {"mass_g": 26})");
    const Inputs inputs = inputs_of(recipe);
    const Evaluation evaluation = evaluate(inputs);
    check_cook(inputs, evaluation);
    return procedure_of(inputs, evaluation);
  };
  // 4 g of pectin in 26 g of water cannot be mixed; with 60 g of juice it is 5 in 100 of the water.
  CHECK(plan(60).crowded_gum_g == 0);
  const Procedure stiff = plan(5);
  CHECK_THAT(stiff.crowded_gum_g, near(4, 1e-9));
  CHECK_THAT(stiff.crowded_water_g, near(30.5, 1e-9));
}

TEST_CASE("a solution the plan asks for counts in the chemistry") {
  const Recipe recipe = recipe_with(
      R"("solids": [{"ingredient": "sucrose", "mass_g": 20}], "water": {"mass_g": 50},
         "tap": {"calcium_mg_per_l": 60, "magnesium_mg_per_l": 5, "alkalinity_meq_per_l": 3},
         "acid": {"ingredient": "citric acid anhydrous", "mass_g": 0.05},
         "batch": {"servings": 4, "scales": [
           {"name": "kitchen", "readability_g": 1, "capacity_g": 5000},
           {"name": "pocket", "readability_g": 0.01, "capacity_g": 200}]})");
  const Inputs stated = inputs_of(recipe);
  const Inputs weighed = as_weighed(stated);
  REQUIRE(weighed.acid->stock_fraction > 0);
  CHECK(weighed.acid->planned_stock);
  const Evaluation evaluation = evaluate(weighed);
  REQUIRE(evaluation.batch.stocks.size() == 1);
  CHECK(evaluation.batch.stocks[0].chosen_by_plan);
  check_cook(weighed, evaluation);
  // Its low-mineral water brings no alkalinity, so less acid is taken up.
  CHECK(evaluation.formula.tap_g < evaluate(stated).formula.tap_g);
  CHECK(evaluation.water_phase.ph < evaluate(stated).water_phase.ph);
}

TEST_CASE("a scale is checked before the pinch that decides, and only then") {
  const auto checks = [](double gum_g) {
    const Recipe recipe = recipe_with(
        R"("solids": [{"ingredient": "sucrose", "mass_g": 40}, {"ingredient": "sodium alginate",
             "mass_g": )" +
        std::to_string(gum_g) + R"(}], "water": {"mass_g": 400}, "batch": {"servings": 4,
           "scales": [{"name": "kitchen", "readability_g": 1, "capacity_g": 5000},
                      {"name": "pocket", "readability_g": 0.01, "capacity_g": 200}]})");
    const Inputs inputs = inputs_of(recipe);
    const Procedure procedure = procedure_of(inputs, evaluate(inputs));
    const std::size_t check = place_of(procedure, Doing::check_scale);
    return check < procedure.steps.size() && check < place_of(procedure, Doing::weigh);
  };
  CHECK(checks(0.5));
  CHECK_FALSE(checks(2));
}

TEST_CASE("gellan is filled hot, and sets on the way down to where its test says") {
  // Low-acyl gellan sets at 25 to 60 degC, more with more ions (handbook table, from memory).
  const Recipe recipe = test::shipped("gellan-xanthan-pouch.json");
  const Inputs inputs = as_weighed(resolve(recipe));
  const Procedure procedure = procedure_of(inputs, evaluate(inputs));
  CHECK(procedure.filled_early);
  REQUIRE(procedure.sets_below_c);
  CHECK(*procedure.sets_below_c > 25);
  CHECK(*procedure.sets_below_c < 60);
}
