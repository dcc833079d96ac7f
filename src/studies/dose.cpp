#include "gelwright/dose.hpp"

#include <algorithm>

#include "gelwright/error.hpp"

namespace gelwright {

namespace {

Dosed solve(const Inputs& inputs, const DoseQuestion& question) {
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

LineRole role_of(Target target) {
  switch (target) {
    case Target::ph:
      return LineRole::acid;
    case Target::ratio:
      return LineRole::calcium_salt;
    case Target::water_fraction:
    case Target::soluble_solids:
    case Target::readable:
      break;
  }
  return LineRole::water;
}

/// pH, R2 or soluble solids with the dose off by `fraction` of itself.
double goal_with_error(const DoseAnswer& answer, Target target, double fraction) {
  Inputs inputs = answer.inputs;
  const double dose = answer.dosed.amount * (1 + fraction);
  switch (role_of(target)) {
    case LineRole::acid:
      inputs.acid->line.mass_g = dose;
      return water_phase_of(formulate(inputs), inputs).ph;
    case LineRole::calcium_salt:
      inputs.calcium->line.mass_g = dose;
      return target_ratio_of(water_phase_of(formulate(inputs), inputs), inputs);
    case LineRole::water:
    case LineRole::solid:
      break;
  }
  inputs.water = {WaterBasis::mass_g, dose};
  return formulate(inputs).soluble_solids_percent();
}

}  // namespace

std::optional<KnobTurns> dosed_by(Target target) {
  switch (target) {
    case Target::ph:
      return KnobTurns::acid;
    case Target::ratio:
      return KnobTurns::calcium_salt;
    case Target::water_fraction:
    case Target::soluble_solids:
      return KnobTurns::water;
    case Target::readable:
      break;
  }
  return std::nullopt;
}

namespace {

/// The dose for every salt the sodium may be. What counts as reached is the least of them that is.
void read_sodium_in_every_way(const Inputs& inputs, double ph, DoseAnswer& found) {
  const std::vector<SodiumReading> readings = sodium_readings_left(inputs);
  if (readings.empty() || (readings.size() == 1 && readings.front().salt == SodiumSalt::chloride))
    return;
  for (const SodiumReading& each : readings)
    found.by_sodium.push_back({each, dose_acid_to_ph(read_sodium_as(inputs, each.salt), ph)});
  found.at_mean_ph = dose_acid_to_mean_ph(inputs, ph);
  if (readings.front().salt != SodiumSalt::chloride) found.dosed = found.by_sodium.front().dosed;
  for (const DoseReading& each : found.by_sodium)
    if (each.dosed.reached && (!found.dosed.reached || each.dosed.amount < found.dosed.amount))
      found.dosed = each.dosed;
}

}  // namespace

DoseAnswer answer(const Inputs& inputs, const DoseQuestion& question) {
  DoseAnswer found{solve(inputs, question), inputs, std::nullopt, {}, std::nullopt};
  switch (question.target) {
    case Target::ph:
      read_sodium_in_every_way(inputs, question.value, found);
      found.inputs.acid->line.mass_g = found.dosed.amount;
      break;
    case Target::ratio:
      found.inputs.calcium->line.mass_g = found.dosed.amount;
      break;
    case Target::water_fraction:
    case Target::soluble_solids:
      found.inputs.water = {WaterBasis::mass_g, found.dosed.amount};
      break;
    case Target::readable:
      found.without_stock = dose_readable(inputs, StockChoice::never);
      found.inputs.servings = found.dosed.amount;
      break;
  }
  if (found.dosed.reached) require_water(found.inputs);
  return found;
}

std::optional<DoseSensitivity> sensitivity_of(const DoseAnswer& answer,
                                              const DoseQuestion& question, const Batch& batch) {
  if (!answer.dosed.reached || answer.dosed.amount <= 0 || question.target == Target::readable)
    return std::nullopt;
  const auto line =
      std::find_if(batch.lines.begin(), batch.lines.end(),
                   [&](const BatchLine& each) { return each.role == role_of(question.target); });
  if (line == batch.lines.end() || !line->scale) return std::nullopt;
  const double error = line->error_percent / 100;
  const double less = goal_with_error(answer, question.target, -std::min(error, 1.0));
  const double more = goal_with_error(answer, question.target, error);
  return DoseSensitivity{static_cast<std::size_t>(line - batch.lines.begin()), std::min(less, more),
                         std::max(less, more)};
}

}  // namespace gelwright
