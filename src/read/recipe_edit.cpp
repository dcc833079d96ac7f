#include "gelwright/recipe_edit.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <nlohmann/json.hpp>
#include <utility>

#include "base/rounding.hpp"
#include "gelwright/error.hpp"
#include "gelwright/read.hpp"
#include "read/json_edit.hpp"
#include "read/json_reader.hpp"
#include "read/kitchen.hpp"

namespace gelwright {

namespace {

using nlohmann::ordered_json;

/// Finer than any scale, short enough to read, never rounded to nothing.
constexpr int amount_figures = 6;

/// The document as a tree in the order of its keys. The strict parser goes first: this one would
/// let a key stand twice.
ordered_json checked_tree(std::string_view json_text, const std::string& document) {
  parse_json(json_text, document);
  return ordered_json::parse(json_text);
}

/// States an amount under `key` where it stood in any of these ways, or at the end.
void restate(ordered_json& object, std::initializer_list<std::string_view> ways,
             const std::string& key, double value) {
  ordered_json restated = ordered_json::object();
  for (const auto& member : object.items())
    if (std::find(ways.begin(), ways.end(), member.key()) == ways.end())
      restated[member.key()] = member.value();
    else
      restated[key] = value;
  restated[key] = value;
  object = std::move(restated);
}

/// What the cups taught, as the reader takes it.
ordered_json learned_json(const Learned& learned) {
  constexpr int figures = 6;
  const auto rounded = [](const auto& numbers) {
    ordered_json list = ordered_json::array();
    for (const double each : numbers) list.push_back(each == 0 ? 0.0 : to_figures(each, figures));
    return list;
  };
  ordered_json made = {{"mix", learned.mix}, {"model", learned.model}};
  if (!learned.bench.empty()) made["bench"] = learned.bench;
  if (!learned.read_on.empty()) made["read_on"] = learned.read_on;
  made["cups"] = learned.cups;
  if (!learned.seen.empty()) made["seen"] = learned.seen;
  made["gums"] = ordered_json::array();
  for (const LearnedGum& gum : learned.gums)
    made["gums"].push_back({{"weight", to_figures(gum.weight, figures)},
                            {"shifts", rounded(gum.mean)},
                            {"covariance", rounded(packed(gum.covariance))}});
  return made;
}

}  // namespace

std::string with_answer(std::string_view json_text, const std::string& document,
                        const DoseAnswer& answer, const DoseQuestion& question,
                        const std::optional<KitchenDocument>& kitchen) {
  ordered_json recipe = checked_tree(json_text, document);
  const double amount = answer.dosed.amount;
  switch (question.target) {
    case Target::ph:
      restate(recipe["acid"], {"target_ph", "additions_g", "mass_g"}, "mass_g",
              to_figures(amount, amount_figures));
      break;
    case Target::ratio:  // the gum belongs to the ratio
      restate(recipe["calcium"], {"target_ratio", "gum", "mass_g"}, "mass_g",
              to_figures(amount, amount_figures));
      break;
    case Target::water_fraction:
      restate(recipe["water"],
              {"per_g_solids", "mass_g", "solids_g", "total_g", "fraction_of_total"},
              "fraction_of_total", question.value);
      break;
    case Target::soluble_solids:
      restate(recipe["water"],
              {"per_g_solids", "fraction_of_total", "solids_g", "total_g", "mass_g"}, "mass_g",
              to_figures(amount, amount_figures));
      break;
    case Target::readable:
      recipe["batch"]["servings"] = std::lround(amount);
      break;
  }
  std::string written = detail::edited_json(json_text, recipe);
  // An answer of nothing, say, is no recipe: refused, not written.
  read_recipe(written, document, kitchen);
  return written;
}

std::string with_amount(std::string_view json_text, const std::string& document,
                        const KnobOf& which, double amount,
                        const std::optional<KitchenDocument>& kitchen) {
  ordered_json recipe = checked_tree(json_text, document);
  const double written_amount = to_figures(amount, amount_figures);
  switch (info_of(which.knob).turns) {
    case KnobTurns::acid:
      restate(recipe["acid"], {"target_ph", "additions_g", "mass_g"}, "mass_g", written_amount);
      break;
    case KnobTurns::calcium_salt:
      restate(recipe["calcium"], {"target_ratio", "gum", "mass_g"}, "mass_g", written_amount);
      break;
    case KnobTurns::water:
      restate(recipe["water"], {"per_g_solids", "fraction_of_total", "mass_g"},
              which.knob == Knob::water_g              ? "mass_g"
              : which.knob == Knob::water_per_g_solids ? "per_g_solids"
                                                       : "fraction_of_total",
              written_amount);
      break;
    case KnobTurns::solid:
      recipe["solids"][which.solid]["mass_g"] = written_amount;
      break;
    case KnobTurns::tap_ion:
    case KnobTurns::tap_share:
      throw InputError(document,
                       {{"/tap", "a water is not dosed", "write another water yourself"}});
  }
  std::string written = detail::edited_json(json_text, recipe);
  read_recipe(written, document,
              kitchen);  // an answer of nothing, say, is no recipe: refused, not written
  return written;
}

namespace {

/// Puts the next dose in. A kitchen has no acid, and a recipe that states its target finds the dose
/// by itself.
void restate_dose(ordered_json& whole, const BenchFit& fit) {
  if (!whole.contains("acid") || whole["acid"].contains("target_ph")) return;
  std::optional<double> dose_g;
  if (fit.dose && fit.dose->dosed.reached) dose_g = fit.dose->dosed.amount;
  if (!fit.dose && fit.aim && fit.aim->possible) dose_g = fit.aim->amount;
  if (dose_g)
    restate(whole["acid"], {"additions_g", "mass_g"}, "mass_g",
            to_figures(*dose_g, amount_figures));
}

/// The document, recipe or kitchen, with the fitted buffer in the mix it describes.
std::string with_buffer(std::string_view json_text, const std::string& document,
                        const BenchFit& fit) {
  ordered_json whole = checked_tree(json_text, document);
  const FitParameter& amount = fit.buffer.carboxylate_mmol_per_g;
  if (amount.at_bound)
    throw InputError(document, {{"/define/" + escape_pointer(fit.ingredient) + "/buffer",
                                 "the readings gave no buffer to write",
                                 "measure more cups, some with much acid and some with none"}});
  constexpr int value_figures = 5;
  constexpr int sd_figures = 2;
  ordered_json& buffer = whole["define"][fit.ingredient]["buffer"];
  const double value = to_figures(amount.value, value_figures);
  const double sd = fit.sd_for_spread_mmol_per_g;
  if (std::isfinite(sd) && sd > 0)
    buffer["carboxylate_mmol_per_g"] = {{"value", value}, {"sd", to_figures(sd, sd_figures)}};
  else
    buffer["carboxylate_mmol_per_g"] = value;
  buffer["pka"] = to_figures(fit.buffer.pka.value, value_figures);
  buffer["neutralised_fraction"] = to_figures(fit.buffer.neutralised_fraction.value, value_figures);
  if (fit.lesson && !fit.lesson->learned.mix.empty())
    whole["define"][fit.ingredient]["learned"] = learned_json(fit.lesson->learned);
  else
    whole["define"][fit.ingredient].erase("learned");  // read with another buffer
  restate_dose(whole, fit);
  return detail::edited_json(json_text, whole);
}

/// True where the kitchen the recipe was read with describes the ingredient for it.
bool kitchen_describes(const Recipe& recipe, const std::string& ingredient) {
  return recipe.kitchen && std::any_of(recipe.kitchen->gives.begin(), recipe.kitchen->gives.end(),
                                       [&](const FromKitchen& each) {
                                         return each.part == KitchenPart::ingredient &&
                                                each.name == ingredient;
                                       });
}

/// Throws where the fitted ingredient is not described in `document` but in the other of the two,
/// or in neither.
void require_described(const Recipe& recipe, const BenchFit& fit, bool in_kitchen,
                       const std::string& document) {
  const std::string& name = fit.ingredient;
  if (name.empty())
    throw InputError(
        document, {{"/define", "a buffer of all solids together has no ingredient to be written to",
                    "describe the mix under \"define\" and use it in \"solids\""}});
  if (find_ingredient(name))
    throw InputError(document,
                     {{"/define", fmt::format("\"{}\" is built in and cannot be changed", name),
                       "describe the mix under \"define\" and use it in \"solids\""}});
  if (kitchen_describes(recipe, name) == in_kitchen) return;
  throw InputError(document,
                   {{"/define",
                     fmt::format("\"{}\" is described in the {}, not here", name,
                                 in_kitchen ? "recipe" : "kitchen"),
                     fmt::format("write the {} instead", in_kitchen ? "recipe" : "kitchen")}});
}

}  // namespace

std::string calibrated_recipe(std::string_view json_text, const Recipe& recipe,
                              const BenchFit& fit) {
  require_described(recipe, fit, false, recipe.document);
  return with_buffer(json_text, recipe.document, fit);
}

std::string dosed_recipe(std::string_view json_text, const Recipe& recipe, const BenchFit& fit) {
  ordered_json whole = checked_tree(json_text, recipe.document);
  restate_dose(whole, fit);
  return detail::edited_json(json_text, whole);
}

std::string calibrated_kitchen(const KitchenDocument& kitchen, const Recipe& recipe,
                               const BenchFit& fit) {
  require_described(recipe, fit, true, kitchen.document);
  return with_buffer(kitchen.text, kitchen.document, fit);
}

std::string flattened_recipe(std::string_view json_text, const std::string& document,
                             const std::optional<KitchenDocument>& kitchen) {
  read_recipe(json_text, document, kitchen);
  if (!kitchen) return std::string(json_text);
  Merged whole =
      merged(checked_tree(json_text, document), checked_kitchen(*kitchen), kitchen->document);
  drop_kitchen_key(whole.recipe);
  return detail::edited_json(json_text, whole.recipe);
}

}  // namespace gelwright
