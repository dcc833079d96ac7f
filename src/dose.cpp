#include "gelwright/dose.hpp"

#include <fmt/format.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "gelwright/error.hpp"
#include "gelwright/evaluate.hpp"
#include "read/json_reader.hpp"

namespace gelwright {

namespace {

Solution solve(const Inputs& inputs, const DoseQuestion& question) {
  switch (question.target) {
    case Target::ph:
      return dose_acid_to_ph(inputs, question.value);
    case Target::ratio:
      return dose_calcium_to_ratio(inputs, question.value);
    case Target::water_fraction:
      return dose_water_to_fraction(inputs, question.value);
    case Target::soluble_solids:
      return dose_water_to_soluble_solids(inputs, question.value);
    case Target::readable:
      return dose_readable(inputs, StockChoice::when_needed);
  }
  return {};
}

/// Six significant figures: finer than any scale, short enough to read, never rounded to nothing.
double rounded(double amount) {
  return std::stod(fmt::format("{:.6g}", amount));
}

}  // namespace

DoseAnswer answer(const Inputs& inputs, const DoseQuestion& question) {
  DoseAnswer found{solve(inputs, question), inputs};
  switch (question.target) {
    case Target::ph:
      found.inputs.acid->line.mass_g = found.solution.amount;
      break;
    case Target::ratio:
      found.inputs.calcium->line.mass_g = found.solution.amount;
      break;
    case Target::water_fraction:
    case Target::soluble_solids:
      found.inputs.water = {WaterBasis::mass_g, found.solution.amount};
      break;
    case Target::readable:
      found.inputs.servings = found.solution.amount;
      break;
  }
  if (found.solution.reached) require_water(found.inputs);
  return found;
}

std::string with_answer(std::string_view json_text, const std::string& document,
                        const DoseAnswer& answer, const DoseQuestion& question) {
  parse_json(json_text, document);  // refuses what the strict reader refuses
  auto recipe = nlohmann::ordered_json::parse(json_text);
  const double amount = answer.solution.amount;
  switch (question.target) {
    case Target::ph:
      recipe["acid"].erase("target_ph");
      recipe["acid"].erase("additions_g");
      recipe["acid"]["mass_g"] = rounded(amount);
      break;
    case Target::ratio:
      recipe["calcium"].erase("target_ratio");
      recipe["calcium"].erase("gum");  // belongs to the ratio
      recipe["calcium"]["mass_g"] = rounded(amount);
      break;
    case Target::water_fraction:
      recipe["water"] = {{"fraction_of_total", question.value}};
      break;
    case Target::soluble_solids:
      recipe["water"] = {{"mass_g", rounded(amount)}};
      break;
    case Target::readable:
      recipe["batch"]["servings"] = std::lround(amount);
      break;
  }
  std::string written = recipe.dump(2) + '\n';
  read_recipe(written, document);  // an answer of nothing, say, is no recipe: refused, not written
  return written;
}

}  // namespace gelwright
