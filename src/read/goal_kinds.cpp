#include "read/goal_kinds.hpp"

#include <cmath>
#include <nlohmann/json.hpp>

#include "base/rounding.hpp"

namespace gelwright::detail {

namespace {

using Json = nlohmann::ordered_json;

Json step(std::string_view what, const std::vector<std::string>& names, std::string_view how) {
  return {{"do", what}, {"what", names}, {"how", how}};
}

Json steps_of(const Goal& goal, const GoalKind& kind, const GoalNames& names) {
  Json steps = Json::array();
  if (!names.gums.empty()) steps.push_back(step("add", names.gums, "preblended"));
  if (kind.heated_c > 0) steps.push_back({{"do", "heat"}, {"to_c", kind.heated_c}});
  steps.push_back(step("add", names.sugars, "stirred"));
  if (!names.salt.empty()) steps.push_back(step("add", {names.salt}, "stirred"));
  const bool released = kind.calcium == GoalCalcium::released;
  if (released && !names.calcium.empty()) steps.push_back(step("add", {"calcium"}, "slow"));
  if (!names.acid.empty())
    steps.push_back(step("add", {"acid"}, kind.acid == GoalAcid::slow ? "slow" : "under_blade"));
  if (!released && !names.calcium.empty()) steps.push_back(step("add", {"calcium"}, "slow"));
  if (goal.rest_hours > 0)
    steps.push_back({{"do", "rest"}, {"hours", goal.rest_hours}, {"at_c", 5}});
  steps.push_back({{"do", "fill"}});
  return steps;
}

Json limit_of(const Limit& limit) {
  Json made = Json::object();
  if (limit.at_least) made["at_least"] = *limit.at_least;
  if (limit.at_most) made["at_most"] = *limit.at_most;
  return made;
}

/// What may be weighed of each, in % of the water: judgement, as far as a bench goes.
constexpr Span little_gum{0.15, 2.5};
constexpr Span gellan_gum{0.05, 1.0};
constexpr Span pectin_gum{0.4, 3};
constexpr Span much_pectin{0.5, 5};
constexpr Span drink_gum{0.05, 0.6};
constexpr Span some_acid{0.03, 2.5};
constexpr Span slow_acid{0.1, 4};
constexpr Span some_calcium{0.02, 1.0};

}  // namespace

const std::vector<GoalKind>& goal_kinds() {
  using enum GoalAcid;
  constexpr GoalCalcium no_calcium = GoalCalcium::none;
  static const std::vector<GoalKind> kinds = {
      {"the mix's own gum, set by acid under the blade", {}, poured, no_calcium, 0, {}, some_acid},
      {"alginate, set by acid under the blade",
       {Gum::alginate},
       poured,
       no_calcium,
       0,
       little_gum,
       some_acid},
      {"alginate and HM pectin, set by acid under the blade",
       {Gum::alginate, Gum::hm_pectin},
       poured,
       no_calcium,
       0,
       little_gum,
       some_acid},
      {"alginate, set at rest by slow acid",
       {Gum::alginate},
       slow,
       no_calcium,
       0,
       little_gum,
       slow_acid},
      {"alginate and HM pectin, set at rest by slow acid",
       {Gum::alginate, Gum::hm_pectin},
       slow,
       no_calcium,
       0,
       little_gum,
       slow_acid},
      {"alginate, set by calcium that slow acid releases",
       {Gum::alginate},
       slow,
       GoalCalcium::released,
       0,
       little_gum,
       slow_acid,
       some_calcium},
      {"amidated pectin, set by calcium",
       {Gum::amidated_pectin},
       poured,
       GoalCalcium::soluble,
       88,
       pectin_gum,
       some_acid,
       some_calcium},
      {"LM pectin, set by calcium",
       {Gum::lm_pectin},
       poured,
       GoalCalcium::soluble,
       88,
       pectin_gum,
       some_acid,
       some_calcium},
      {"HM pectin, set by sugar and acid",
       {Gum::hm_pectin},
       poured,
       no_calcium,
       92,
       much_pectin,
       some_acid},
      {"low-acyl gellan, set by calcium on cooling",
       {Gum::gellan_low_acyl},
       GoalAcid::none,
       GoalCalcium::soluble,
       92,
       gellan_gum,
       {},
       some_calcium},
      {"high-acyl gellan, set on cooling",
       {Gum::gellan_high_acyl},
       GoalAcid::none,
       no_calcium,
       88,
       gellan_gum},
      {"xanthan, which thickens and never sets",
       {Gum::xanthan},
       GoalAcid::none,
       no_calcium,
       0,
       gellan_gum},
      {"the mix's own gum, which sets in the stomach",
       {},
       GoalAcid::none,
       no_calcium,
       0,
       {},
       {},
       {},
       false},
      {"alginate and HM pectin, which set in the stomach",
       {Gum::alginate, Gum::hm_pectin},
       GoalAcid::none,
       no_calcium,
       0,
       drink_gum,
       {},
       {},
       false},
      {"alginate, which sets in the stomach",
       {Gum::alginate},
       GoalAcid::none,
       no_calcium,
       0,
       drink_gum,
       {},
       {},
       false},
  };
  return kinds;
}

std::string goal_document(const Goal& goal, const GoalKind& kind, const GoalNames& names,
                          const GoalMasses& masses) {
  Json recipe = Json::object();
  recipe["format"] = "gelwright/recipe-2";
  recipe["name"] = goal.name;
  recipe["note"] =
      goal.note.empty() ? "Found for a goal: " + std::string(kind.words) + "." : goal.note;
  recipe["form"] = goal.form == Form::pouch ? "pouch" : "drink";
  Json solids = Json::array();
  const auto add = [&](const std::vector<std::string>& lines, const std::vector<double>& mass_g) {
    for (std::size_t i = 0; i < lines.size(); ++i)
      solids.push_back({{"ingredient", lines[i]}, {"mass_g", mass_g[i]}});
  };
  add(names.sugars, masses.sugars);
  add(names.gums, masses.gums);
  if (!names.salt.empty()) add({names.salt}, {masses.salt});
  recipe["solids"] = std::move(solids);
  recipe["water"] = {{"mass_g", masses.water}};
  if (!names.acid.empty()) recipe["acid"] = {{"ingredient", names.acid}, {"mass_g", masses.acid}};
  if (!names.calcium.empty())
    recipe["calcium"] = {{"ingredient", names.calcium}, {"mass_g", masses.calcium}};
  if (!goal.tap.empty()) recipe["tap"] = Json::parse(goal.tap);
  recipe["target_texture"] = gel::to_text(texture_of(goal));
  if (goal.ph.any()) recipe["limits"] = {{"ph", limit_of(goal.ph)}};
  recipe["process"] = steps_of(goal, kind, names);
  recipe["batch"] = {{"servings", goal.servings}, {"loss_percent", 2}};
  if (goal.caffeine_mg > 0)
    recipe["pre_dosed"] = {{{"name", "caffeine tablet"},
                            {"per_serving", goal.caffeine_mg / goal.tablet_mg},
                            {"caffeine_mg", goal.tablet_mg}}};
  return recipe.dump(2) + "\n";
}

}  // namespace gelwright::detail
