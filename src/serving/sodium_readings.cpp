#include "gelwright/sodium_readings.hpp"

#include <algorithm>

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

PhBand ph_band_of(const Formula& formula, const WaterPhase& phase, const Inputs& inputs) {
  PhBand band{phase.ph - phase.ph_uncertainty, phase.ph + phase.ph_uncertainty, {}};
  if (formula.delivered.unnamed_sodium_mol <= 0) return band;
  for (const SodiumReading& each : sodium_readings(inputs)) {
    if (each.salt == SodiumSalt::chloride) {
      band.readings.push_back(reading_of(each, formula, phase));
    } else {
      const Inputs read = read_sodium_as(inputs, each.salt);
      band.readings.push_back(
          reading_of(each, formula, water_phase_of(formulate(read), read, false)));
    }
    const SodiumPh& last = band.readings.back();
    band.low = std::min(band.low, last.ph - last.half_width);
    band.high = std::max(band.high, last.ph + last.half_width);
  }
  return band;
}

}  // namespace gelwright
