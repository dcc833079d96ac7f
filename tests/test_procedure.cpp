// The procedure: everything is weighed, everything arrives, and what sets is filled before it sets.
#include <cmath>
#include <cstdint>
#include <map>
#include <set>
#include <string>

#include "catch.hpp"
#include "gelwright/procedure.hpp"
#include "gelwright/resolve.hpp"
#include "recipes.hpp"
#include "statistics/random.hpp"

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
    const Inputs inputs = resolve(recipe);
    const Evaluation evaluation = evaluate(inputs);
    const Batch& batch = evaluation.batch;
    std::map<std::size_t, double> display_g;
    bool mixed = false;
    for (const ProcedureStep& step : procedure_of(inputs, evaluation).steps) {
      if (step.into) mixed = true;
      if (step.doing != Doing::weigh) continue;
      CHECK_FALSE(mixed);
      const BatchLine& line = batch.lines[*step.line];
      display_g[line.vessel] += line.weigh_g;
      CHECK_THAT(line.running_total_g, near(display_g[line.vessel], 1e-9));
    }
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

TEST_CASE("who follows the list ends with what the recipe says, for random recipes") {
  std::uint64_t draws = 0;
  const auto random = [&draws] { return detail::uniform({20261125, 0, draws++}); };
  const char* const gums[] = {"sodium alginate", "low-acyl gellan", "HM pectin", "xanthan"};
  const char* const sugars[] = {"sucrose", "fructose", "maltodextrin DE 12", "isomaltulose"};
  const char* const acids[] = {"citric acid anhydrous", "malic acid", "glucono delta-lactone"};
  const char* const salts[] = {"calcium carbonate", "calcium lactate pentahydrate"};
  const auto pick = [&](const auto& names) {
    return std::string(
        names[static_cast<std::size_t>(random() * static_cast<double>(std::size(names)))]);
  };
  const auto amount = [&](double low, double high) {
    return std::to_string(low * std::pow(high / low, random()));
  };
  for (int trial = 0; trial < 500; ++trial) {
    const std::string first = pick(sugars);
    std::string second = pick(sugars);
    while (second == first) second = pick(sugars);
    std::string text = R"("solids": [{"ingredient": ")" + pick(gums) + R"(", "mass_g": )" +
                       amount(0.05, 5) + R"(}, {"ingredient": ")" + first + R"(", "mass_g": )" +
                       amount(1, 80) + R"(}, {"ingredient": ")" + second + R"(", "mass_g": )" +
                       amount(0.1, 40) + R"(}], "water": {"mass_g": )" + amount(20, 500) + "}";
    if (random() < 0.7)
      text += R"(, "acid": {"ingredient": ")" + pick(acids) + R"(", "mass_g": )" + amount(0.05, 3) +
              "}";
    if (random() < 0.5)
      text += R"(, "calcium": {"when": "slow", "ingredient": ")" + pick(salts) + R"(", "mass_g": )" +
              amount(0.02, 0.5) + "}";
    text += R"(, "batch": {"servings": )" + std::to_string(1 + trial % 20);
    if (random() < 0.5) text += R"(, "vessel_ml": 1500)";
    if (random() < 0.7)
      text += R"(, "bowl_g": 300, "scales": [
          {"name": "kitchen", "readability_g": 1, "capacity_g": 3000},
          {"name": "pocket", "readability_g": 0.01, "capacity_g": 200}])";
    text += "}";
    INFO(text);
    const Recipe recipe = recipe_with(text, trial % 2 == 0 ? "pouch" : "drink");
    const Inputs inputs = inputs_of(recipe);
    EvaluateParts parts;
    parts.gel.detail = GelDetail::centre;
    check_cook(inputs, evaluate(inputs, parts));
  }
}
