#include "gelwright/evaluate.hpp"

#include <algorithm>

#include "gelwright/properties.hpp"

namespace gelwright {

namespace {

/// Range of the density curve, g per g.
constexpr double densest_fraction = 0.85;
constexpr double kitchen_temp_c = 20;

Properties properties_of(const Formula& formula, const WaterPhase& phase) {
  Properties properties;
  const double fraction = std::clamp(formula.soluble_solids_percent() / 100, 0.0, densest_fraction);
  properties.density_g_per_ml = sugar_solution_density_kg_per_m3(fraction, kitchen_temp_c) / 1000;

  const double water_kg = formula.chemistry_water_g / 1000;
  const auto molality = [&](Saccharide which) {
    return formula.delivered.saccharide_mol[index_of(which)] / water_kg;
  };
  const Saccharides sugars{.glucose_mol_per_kg = molality(Saccharide::glucose),
                           .fructose_mol_per_kg = molality(Saccharide::fructose),
                           .sucrose_mol_per_kg = molality(Saccharide::sucrose),
                           .disaccharide_mol_per_kg = molality(Saccharide::disaccharide),
                           .polyol_mol_per_kg = molality(Saccharide::polyol),
                           .glycerol_mol_per_kg = molality(Saccharide::glycerol),
                           .oligomer_mol_per_kg = molality(Saccharide::oligomer)};
  properties.water_activity =
      water_activity(sugars, salt_osmolal(phase.osmotic_particles_mol_per_kg));
  properties.osmolality_mosm_per_kg = osmolality_mosm_per_kg(properties.water_activity);
  return properties;
}

}  // namespace

Inputs as_measured(Inputs inputs) {
  if (const auto& reading = inputs.recipe->measured)
    inputs.reading_offset_ph = reading->ph - water_phase_of(formulate(inputs), inputs, false).ph;
  return inputs;
}

Evaluation evaluate(const Inputs& inputs, EvaluateParts parts) {
  Evaluation evaluation;
  evaluation.formula = formulate(inputs);
  const Formula& formula = evaluation.formula;
  evaluation.water_phase = water_phase_of(formula, inputs, parts.batch);
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
