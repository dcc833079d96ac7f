#include "gelwright/dose.hpp"

#include "gelwright/error.hpp"
#include "gelwright/evaluate.hpp"

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

}  // namespace gelwright
