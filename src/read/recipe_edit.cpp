#include "gelwright/recipe_edit.hpp"

#include <fmt/format.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "base/rounding.hpp"
#include "gelwright/error.hpp"
#include "gelwright/read.hpp"
#include "read/json_reader.hpp"

namespace gelwright {

namespace {

/// Finer than any scale, short enough to read, never rounded to nothing.
constexpr int amount_figures = 6;

}  // namespace

std::string with_answer(std::string_view json_text, const std::string& document,
                        const DoseAnswer& answer, const DoseQuestion& question) {
  parse_json(json_text, document);  // refuses what the strict reader refuses
  auto recipe = nlohmann::ordered_json::parse(json_text);
  const double amount = answer.solution.amount;
  switch (question.target) {
    case Target::ph:
      recipe["acid"].erase("target_ph");
      recipe["acid"].erase("additions_g");
      recipe["acid"]["mass_g"] = to_figures(amount, amount_figures);
      break;
    case Target::ratio:
      recipe["calcium"].erase("target_ratio");
      recipe["calcium"].erase("gum");  // belongs to the ratio
      recipe["calcium"]["mass_g"] = to_figures(amount, amount_figures);
      break;
    case Target::water_fraction:
      recipe["water"] = {{"fraction_of_total", question.value}};
      break;
    case Target::soluble_solids:
      recipe["water"] = {{"mass_g", to_figures(amount, amount_figures)}};
      break;
    case Target::readable:
      recipe["batch"]["servings"] = std::lround(amount);
      break;
  }
  std::string written = recipe.dump(2) + '\n';
  read_recipe(written, document);  // an answer of nothing, say, is no recipe: refused, not written
  return written;
}

std::string calibrated_document(std::string_view json_text, const std::string& document,
                                const BenchFit& fit) {
  parse_json(json_text, document);  // strict: the parser below would let a key stand twice
  auto recipe = nlohmann::ordered_json::parse(json_text);
  const bool defined = !fit.ingredient.empty() && recipe.contains("define") &&
                       recipe["define"].contains(fit.ingredient);
  if (!defined)
    throw InputError(
        document, {{"/define",
                    fit.ingredient.empty()
                        ? "a buffer of all solids together has no ingredient to be written to"
                        : fmt::format("\"{}\" is built in and cannot be changed", fit.ingredient),
                    "describe the mix under \"define\" and use it in \"solids\""}});
  const FitParameter& amount = fit.buffer.carboxylate_mmol_per_g;
  if (amount.at_bound)
    throw InputError(document, {{"/define/" + escape_pointer(fit.ingredient) + "/buffer",
                                 "the readings gave no buffer to write",
                                 "see the report, and leave out --write-recipe"}});
  constexpr int value_figures = 5;
  constexpr int sd_figures = 2;
  auto& buffer = recipe["define"][fit.ingredient]["buffer"];
  buffer = nlohmann::ordered_json::object();
  const double value = to_figures(amount.value, value_figures);
  const double sd = fit.sd_for_spread_mmol_per_g;
  if (std::isfinite(sd) && sd > 0)
    buffer["carboxylate_mmol_per_g"] = {{"value", value}, {"sd", to_figures(sd, sd_figures)}};
  else
    buffer["carboxylate_mmol_per_g"] = value;
  buffer["pka"] = to_figures(fit.buffer.pka.value, value_figures);
  buffer["neutralised_fraction"] = to_figures(fit.buffer.neutralised_fraction.value, value_figures);
  return recipe.dump(2) + '\n';
}

}  // namespace gelwright
