#include "gelwright/sodium_readings.hpp"

#include <algorithm>
#include <cmath>

#include "serving/ph_error.hpp"

namespace gelwright {

namespace {

bool no_bicarbonate(const InputLine& line, const Inputs& inputs) {
  return !inputs.recipe->ingredients[line.ingredient].fizzed.value_or(true);
}

SodiumPh reading_of(const SodiumReading& reading, const Formula& formula, const WaterPhase& phase) {
  return {reading, phase.ph, phase.ph_uncertainty,
          phase.carbon_dioxide_mol_per_kg * formula.chemistry_water_g / 1000};
}

}  // namespace

std::vector<SodiumReading> sodium_readings(const Inputs& inputs) {
  bool any = false;
  bool bicarbonate = false;
  for (const InputLine& line : inputs.solids) {
    if (line.mass_g * line.per_g.unnamed_sodium_mol <= 0) continue;
    any = true;
    bicarbonate = bicarbonate || !no_bicarbonate(line, inputs);
  }
  std::vector<SodiumReading> readings;
  if (!any) return readings;
  double together = 0;
  for (const SodiumSalt salt :
       {SodiumSalt::chloride, SodiumSalt::citrate, SodiumSalt::bicarbonate}) {
    if (salt == SodiumSalt::bicarbonate && !bicarbonate) continue;
    readings.push_back({salt, weight_of(salt)});
    together += weight_of(salt);
  }
  for (SodiumReading& each : readings) each.weight /= together;
  return readings;
}

std::vector<SodiumReading> sodium_readings_left(const Inputs& inputs) {
  std::vector<SodiumReading> readings = sodium_readings(inputs);
  const auto measured = usable_reading(*inputs.recipe);
  if (!measured || readings.size() < 2 || acid_undeclared(inputs)) return readings;
  const auto weigh = [&readings] {
    double together = 0;
    for (const SodiumReading& each : readings) together += each.weight;
    for (SodiumReading& each : readings) each.weight /= together;
  };
  std::vector<double> misfits;
  for (const SodiumReading& each : readings) {
    const Inputs read = read_sodium_as(inputs, each.salt);
    const WaterPhase phase = water_phase_of(formulate(read), read, false);
    constexpr double sds_in_half_width = 1.96;
    const double sd =
        std::hypot(phase.ph_uncertainty, reading_error_ph(measured->with)) / sds_in_half_width;
    misfits.push_back(std::pow((phase.ph - measured->ph) / sd, 2) / 2);
  }
  // Against the best of them: where none fits well, the least bad still tells.
  const double best = *std::min_element(misfits.begin(), misfits.end());
  for (std::size_t i = 0; i < readings.size(); ++i)
    readings[i].weight *= std::exp(best - misfits[i]);
  weigh();
  constexpr double told_from = 0.01;
  std::erase_if(readings, [](const SodiumReading& each) { return each.weight < told_from; });
  weigh();
  return readings;
}

void name_sodium(Inputs& inputs, SodiumSalt salt) {
  for (InputLine& line : inputs.solids)
    name_sodium(line.per_g, salt == SodiumSalt::bicarbonate && no_bicarbonate(line, inputs)
                                ? SodiumSalt::chloride
                                : salt);
}

Inputs read_sodium_as(const Inputs& inputs, SodiumSalt salt) {
  Inputs read = inputs;
  name_sodium(read, salt);
  return read;
}

bool acid_undeclared(const Inputs& inputs) {
  return std::any_of(inputs.solids.begin(), inputs.solids.end(), [&](const InputLine& line) {
    const Ingredient& what = inputs.recipe->ingredients[line.ingredient];
    return line.mass_g > 0 && !what.undeclared_acids.empty() && !what.buffer_pka;
  });
}

Inputs read_acid_as(const Inputs& inputs, double at) {
  Inputs read = inputs;
  for (InputLine& line : read.solids)
    line.per_g += acid_beside_middle(inputs.recipe->ingredients[line.ingredient], at);
  return read;
}

PhBand ph_band_of(const Formula& formula, const WaterPhase& phase, const Inputs& inputs) {
  PhBand band{phase.ph - phase.ph_uncertainty, phase.ph + phase.ph_uncertainty, {}};
  const auto count = [&band](double ph, double half_width) {
    band.low = std::min(band.low, ph - half_width);
    band.high = std::max(band.high, ph + half_width);
  };
  const auto solve = [](const Inputs& read) {
    return water_phase_of(formulate(read), read, false);
  };
  std::vector<SodiumReading> salts;
  if (formula.delivered.unnamed_sodium_mol > 0) salts = sodium_readings_left(inputs);
  for (const SodiumReading& each : salts) {
    band.readings.push_back(
        each.salt == SodiumSalt::chloride
            ? reading_of(each, formula, phase)
            : reading_of(each, formula, solve(read_sodium_as(inputs, each.salt))));
    count(band.readings.back().ph, band.readings.back().half_width);
  }
  if (!acid_undeclared(inputs)) return band;
  if (salts.empty()) salts = {SodiumReading{}};
  for (const double at : {0.0, 1.0})
    for (const SodiumReading& each : salts) {
      const WaterPhase end = solve(read_acid_as(read_sodium_as(inputs, each.salt), at));
      count(end.ph, end.ph_uncertainty);
    }
  return band;
}

}  // namespace gelwright
