#include "gelwright/evaluate.hpp"

#include <algorithm>
#include <cmath>

#include "gelwright/label_readings.hpp"
#include "gelwright/properties.hpp"
#include "serving/ph_error.hpp"

namespace gelwright {

namespace {

/// Range of the density curve, g per g.
constexpr double densest_fraction = 0.85;
constexpr double kitchen_temp_c = 20;

double water_activity_of(const Composition& delivered, double water_kg, const WaterPhase& phase) {
  const auto molality = [&](Saccharide which) {
    return delivered.saccharide_mol[index_of(which)] / water_kg;
  };
  const Saccharides sugars{.glucose_mol_per_kg = molality(Saccharide::glucose),
                           .fructose_mol_per_kg = molality(Saccharide::fructose),
                           .sucrose_mol_per_kg = molality(Saccharide::sucrose),
                           .disaccharide_mol_per_kg = molality(Saccharide::disaccharide),
                           .polyol_mol_per_kg = molality(Saccharide::polyol),
                           .glycerol_mol_per_kg = molality(Saccharide::glycerol),
                           .oligomer_mol_per_kg = molality(Saccharide::oligomer)};
  return water_activity(sugars, salt_osmolal(phase.osmotic_particles_mol_per_kg));
}

Properties properties_of(const Formula& formula, const WaterPhase& phase) {
  Properties properties;
  const double fraction = std::clamp(formula.soluble_solids_percent() / 100, 0.0, densest_fraction);
  properties.density_g_per_ml = sugar_solution_density_kg_per_m3(fraction, kitchen_temp_c) / 1000;

  const double water_kg = formula.chemistry_water_g / 1000;
  properties.water_activity = water_activity_of(formula.delivered, water_kg, phase);
  properties.osmolality_mosm_per_kg = osmolality_mosm_per_kg(properties.water_activity);
  properties.osmolality_most_mosm_per_kg = properties.osmolality_mosm_per_kg;
  if (formula.delivered.unnamed_sugars_g > 0) {
    Composition sweetest = formula.delivered;
    name_sugars_fructose(sweetest);
    properties.osmolality_most_mosm_per_kg =
        osmolality_mosm_per_kg(water_activity_of(sweetest, water_kg, phase));
  }
  return properties;
}

}  // namespace

Inputs as_measured(Inputs inputs) {
  const std::optional<MeasuredPh> measured = usable_reading(*inputs.recipe);
  if (!measured) return inputs;
  const Formula formula = formulate(inputs);
  double computed_ph = water_phase_of(formula, inputs, false).ph;
  // What is unnamed is taken as the salt whose pH comes nearest.
  const auto apart = [&measured](double ph) { return std::abs(measured->ph - ph); };
  std::optional<SodiumSalt> nearest;
  for (const SodiumReading& each : sodium_readings(inputs)) {
    const Inputs read = read_sodium_as(inputs, each.salt);
    const double ph = water_phase_of(formulate(read), read, false).ph;
    if (nearest && apart(ph) >= apart(computed_ph)) continue;
    nearest = each.salt;
    computed_ph = ph;
  }
  if (nearest) inputs = read_sodium_as(inputs, *nearest);
  inputs.reading_offset_ph = measured->ph - computed_ph;
  return inputs;
}

Inputs as_weighed(Inputs inputs) {
  const Formula formula = formulate(inputs);
  // Which stocks are needed does not depend on how dense the gel is.
  const Batch batch = plan_batch(formula, inputs, 1);
  const auto take = [&](std::optional<InputDose>& dose) {
    for (const StockPlan& stock : batch.stocks)
      if (dose && stock.chosen_by_plan && stock.ingredient == dose->line.ingredient) {
        dose->stock_fraction = stock.stock_fraction;
        dose->planned_stock = true;
      }
  };
  take(inputs.acid);
  take(inputs.calcium);
  return inputs;
}

Evaluation evaluate(const Inputs& inputs, EvaluateParts parts) {
  Evaluation evaluation;
  evaluation.formula = formulate(inputs);
  const Formula& formula = evaluation.formula;
  evaluation.water_phase = water_phase_of(formula, inputs, parts.batch);
  evaluation.ph_band = ph_band_of(formula, evaluation.water_phase, inputs);
  evaluation.properties = properties_of(formula, evaluation.water_phase);
  evaluation.gel = gel_forecast_of(formula, evaluation.water_phase, inputs, parts.gel);
  evaluation.nutrition = nutrition_of(formula, inputs);
  if (parts.batch)
    evaluation.batch = plan_batch(formula, inputs, evaluation.properties.density_g_per_ml);
  evaluation.cost = cost_of(formula, inputs, batch_factor(inputs));
  if (parts.flags) evaluation.flags = flags_of(evaluation, inputs);
  return evaluation;
}

}  // namespace gelwright
