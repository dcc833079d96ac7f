#include "gelwright/start.hpp"

#include <fmt/format.h>

#include <array>
#include <nlohmann/json.hpp>

#include "base/rounding.hpp"
#include "gelwright/error.hpp"
#include "gelwright/evaluate.hpp"
#include "gelwright/names.hpp"
#include "gelwright/read.hpp"

namespace gelwright {

namespace {

using Json = nlohmann::ordered_json;

constexpr Datum data[] = {
    {"start.chance", 0.7, "1", 0, "good enough for a first batch", "judgement",
     Standing::judgement},
    {"start.mix-gum-low", 0.006, "g/g", 0, "alginate in a mix sold to gel", "judgement",
     Standing::judgement},
    {"start.mix-gum-high", 0.014, "g/g", 0, "alginate in a mix sold to gel", "judgement",
     Standing::judgement},
    {"start.drink-gum", 0.25, "%", 0, "of the water, alginate and as much pectin", "judgement",
     Standing::judgement},
    {"start.least-water", 0.15, "1", 0, "of the total; with less it is a paste", "judgement",
     Standing::judgement},
};

constexpr double gum_percents[] = {0.7, 1.0, 1.4, 1.9, 2.5};
constexpr double acid_percents[] = {0.3, 0.5, 0.8, 1.2, 1.6, 2.0};
constexpr EvaluateParts texture_only{
    .batch = false, .flags = false, .gel = {.detail = GelDetail::chances, .stomach = false}};

/// What is tried: gum and acid, both in % of the water.
struct Try {
  double gum_percent = 0;
  double acid_percent = 0;
};

double to_three_figures(double mass_g) {
  return rounded(mass_g, decimals_for(mass_g, 3));
}

class Starter {
 public:
  explicit Starter(const StartAnswers& answers) : answers_(answers) { require_sense(); }

  StartedRecipe start() {
    if (answers_.form == Form::drink) return judged({value_of(data, "start.drink-gum"), 0});
    StartedRecipe best;
    for (const double gum : gum_percents) {
      for (const double acid : acid_percents) {
        StartedRecipe found = judged({gum, acid});
        if (best.text.empty() || found.chance > best.chance) best = std::move(found);
        if (best.chance >= value_of(data, "start.chance")) return best;
      }
      if (answers_.mix) break;  // its gum is in it already
    }
    return best;
  }

 private:
  void require_sense() const {
    std::vector<Problem> problems;
    if (!answers_.mix && answers_.sugars.empty())
      problems.push_back({"sugars", "there is nothing to feed on",
                          "name them, as in maltodextrin DE 18:fructose=1:0.8, or a mix's label"});
    for (const SugarPart& each : answers_.sugars) {
      const Resolved found = resolve_name(each.ingredient);
      if (found.kind == NameKind::exact || found.kind == NameKind::ambiguous) continue;
      std::string remedy = found.how_to_tell;
      for (const std::string& name : found.similar)
        remedy += fmt::format("{}\"{}\"", remedy.empty() ? "perhaps " : ", ", name);
      if (remedy.empty()) remedy = "choose one of the list of ingredients";
      problems.push_back(
          {"sugars", fmt::format("\"{}\" is not known", each.ingredient), std::move(remedy)});
    }
    const double most_solids_g = (1 - value_of(data, "start.least-water")) * answers_.total_g;
    if (!(answers_.solids_g > 0 && answers_.solids_g <= most_solids_g))
      problems.push_back({"solids",
                          fmt::format("{:g} g of solids in {:g} g leave too little water",
                                      answers_.solids_g, answers_.total_g),
                          fmt::format("with {:g} g in all, at most {:.0f} g can be solids",
                                      answers_.total_g, most_solids_g)});
    if (!problems.empty()) throw InputError("", std::move(problems));
  }

  /// The built-in name of a sugar; of several it may be, the likeliest.
  static std::string built_in(const SugarPart& sugar) {
    const Resolved found = resolve_name(sugar.ingredient);
    return found.kind == NameKind::ambiguous ? found.candidates.front() : found.ingredient;
  }

  StartedRecipe judged(const Try& tried) const {
    StartedRecipe started;
    started.text = document(tried);
    for (const SugarPart& each : answers_.sugars)
      if (const Resolved found = resolve_name(each.ingredient); found.kind == NameKind::ambiguous)
        started.understood.push_back(
            fmt::format("\"{}\" is taken as {}, the likeliest: read on the bag which it is.",
                        each.ingredient, found.candidates.front()));
    const Recipe recipe = read_recipe(started.text, "start");
    const GelForecast gel = evaluate(inputs_of(recipe), texture_only).gel;
    started.chance = answers_.form == Form::pouch
                         ? gel.chance_set()
                         : gel.chance(gel::Texture::pours) + gel.chance(gel::Texture::thick);
    if (started.chance < value_of(data, "start.chance"))
      started.doubt =
          !gel.made ? "this lies outside what can be foretold: make test cups first"
          : answers_.mix
              ? "the pack does not say how much gum, acid and salt it holds: make test cups first"
              : "no gum and acid tried here makes it surer: make test cups first";
    return started;
  }

  std::string document(const Try& tried) const {
    Json recipe = Json::object();
    recipe["format"] = "gelwright/recipe-2";
    recipe["name"] = answers_.name;
    recipe["note"] = note();
    const bool pouch = answers_.form == Form::pouch;
    recipe["form"] = pouch ? "pouch" : "drink";
    const double acid_g =
        to_three_figures(tried.acid_percent / 100 * (answers_.total_g - answers_.solids_g));
    const double water_g = answers_.total_g - answers_.solids_g - acid_g;
    if (answers_.mix)
      add_mix(recipe);
    else
      add_sugars(recipe, to_three_figures(tried.gum_percent / 100 * water_g));
    recipe["water"] = {{"mass_g", to_three_figures(water_g)}};
    if (acid_g > 0) recipe["acid"] = {{"ingredient", "citric acid anhydrous"}, {"mass_g", acid_g}};
    add_tap(recipe);
    add_batch(recipe);
    return recipe.dump(2) + "\n";
  }

  std::string note() const {
    std::string text =
        answers_.mix ? "Made from the label of a bought mix. " : "Made from scratch. ";
    if (answers_.form == Form::pouch)
      text +=
          "The acid decides whether it sets: measure the pH of the first batch and write it "
          "here as \"measured\".";
    else
      text += "It must pour: taste and look after a night in the fridge.";
    return text;
  }

  void add_mix(Json& recipe) const {
    recipe["define"] = {{"my mix",
                         {{"kind", "mix"},
                          {"label",
                           {{"per_g", 100},
                            {"carbohydrate_g", answers_.mix->carbohydrate_g},
                            {"sodium_mg", answers_.mix->sodium_mg}}},
                          {"undeclared_gum",
                           {{"ingredient", "sodium alginate"},
                            {"fraction_at_least", value_of(data, "start.mix-gum-low")},
                            {"fraction_at_most", value_of(data, "start.mix-gum-high")}}}}}};
    recipe["solids"] = {{{"ingredient", "my mix"}, {"mass_g", answers_.solids_g}}};
  }

  void add_sugars(Json& recipe, double gum_g) const {
    const bool drink = answers_.form == Form::drink;
    double parts = 0;
    for (const SugarPart& each : answers_.sugars) parts += each.part;
    const double sugars_g = answers_.solids_g - gum_g * (drink ? 2 : 1);
    Json solids = Json::array();
    for (const SugarPart& each : answers_.sugars)
      solids.push_back({{"ingredient", built_in(each)},
                        {"mass_g", to_three_figures(sugars_g * each.part / parts)}});
    solids.push_back({{"ingredient", "sodium alginate"}, {"mass_g", gum_g}});
    if (drink) solids.push_back({{"ingredient", "HM pectin"}, {"mass_g", gum_g}});
    recipe["solids"] = std::move(solids);
  }

  void add_tap(Json& recipe) const {
    if (!answers_.calcium_mg_per_l && !answers_.alkalinity_mg_caco3_per_l) return;
    Json tap = Json::object();
    tap["name"] = "my tap";
    if (answers_.calcium_mg_per_l) tap["calcium_mg_per_l"] = *answers_.calcium_mg_per_l;
    if (answers_.alkalinity_mg_caco3_per_l)
      tap["alkalinity_mg_caco3_per_l"] = *answers_.alkalinity_mg_caco3_per_l;
    recipe["tap"] = std::move(tap);
  }

  void add_batch(Json& recipe) const {
    Json scales = Json::array();
    scales.push_back({{"name", "kitchen"}, {"readability_g", 1}, {"capacity_g", 5000}});
    if (answers_.pocket_scale)
      scales.push_back({{"name", "pocket"}, {"readability_g", 0.01}, {"capacity_g", 200}});
    recipe["batch"] = {
        {"servings", answers_.servings}, {"loss_percent", 2}, {"scales", std::move(scales)}};
  }

  const StartAnswers& answers_;
};

}  // namespace

StartedRecipe start_recipe(const StartAnswers& answers) {
  return Starter(answers).start();
}

std::span<const Datum> start_data() {
  return data;
}

}  // namespace gelwright
