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

AcidDelivery acid_delivery_of(const Inputs& inputs) {
  if (!inputs.acid || inputs.acid->line.mass_g <= 0) return AcidDelivery::none;
  if (inputs.acid->line.per_g.lactone_mol > 0) return AcidDelivery::slow;
  return inputs.recipe->process.acid_added;
}

CalciumDelivery calcium_delivery_of(const Inputs& inputs) {
  if (!inputs.calcium || inputs.calcium->line.mass_g <= 0) return CalciumDelivery::tap_only;
  return inputs.recipe->calcium->when;
}

StomachInput stomach_input_of(const SetInput& eaten, const Formula& formula,
                              const WaterPhase& phase) {
  StomachInput stomach;
  stomach.eaten = eaten;
  stomach.water_fraction = std::min(1.0, formula.chemistry_water_g / formula.total_g);
  stomach.calcium_mmol_per_kg_water =
      phase.total_calcium_mmol_per_kg + phase.undissolved_calcium_mmol_per_kg;
  stomach.carboxylate_mmol_per_kg_water = phase.carboxylate_mmol_per_kg;
  stomach.acid_demand_mmol = phase.acid_demand_mmol;
  return stomach;
}

/// The serving with every undeclared gum share at one end of its band.
Inputs at_end_of_band(const Inputs& inputs, double Ingredient::*end) {
  Inputs changed = inputs;
  for (InputLine& line : changed.solids) {
    const Ingredient& ingredient = inputs.recipe->ingredients[line.ingredient];
    if (ingredient.undeclared_gum) line.per_g = with_gum_share(ingredient, ingredient.*end);
  }
  return changed;
}

struct Outlooks {
  SetInput input;
  Outlook pouch;
  Outlook stomach;
};

Outlooks outlooks_of(const Formula& formula, const WaterPhase& phase, const Inputs& inputs) {
  const SetInput input = set_input_of(formula, phase, inputs);
  return {input, predict_pouch(input), predict_stomach(stomach_input_of(input, formula, phase))};
}

Setting setting_of(const Formula& formula, const WaterPhase& phase, const Inputs& inputs) {
  Setting setting;
  const Outlooks middle = outlooks_of(formula, phase, inputs);
  setting.input = middle.input;
  setting.pouch = middle.pouch;
  setting.stomach = middle.stomach;
  const bool undeclared =
      std::any_of(inputs.solids.begin(), inputs.solids.end(), [&](const InputLine& line) {
        return inputs.recipe->ingredients[line.ingredient].undeclared_gum.has_value();
      });
  if (!undeclared) return setting;
  const auto at_end = [&](double Ingredient::*end) {
    const Inputs changed = at_end_of_band(inputs, end);
    const Formula changed_formula = formulate(changed);
    return outlooks_of(changed_formula, water_phase_of(changed_formula, changed, false), changed);
  };
  const Outlooks low = at_end(&Ingredient::gum_share_low);
  const Outlooks high = at_end(&Ingredient::gum_share_high);
  setting.pouch_low = low.pouch;
  setting.stomach_low = low.stomach;
  setting.pouch_high = high.pouch;
  setting.stomach_high = high.stomach;
  return setting;
}

}  // namespace

SetInput set_input_of(const Formula& formula, const WaterPhase& phase, const Inputs& inputs) {
  const Composition& delivered = formula.delivered;
  const auto percent = [&](Gum gum) {
    return std::max(0.0, 100 * delivered.gum(gum) / formula.chemistry_water_g);
  };
  SetInput input;
  input.alginate_percent = percent(Gum::alginate);
  input.hm_pectin_percent = percent(Gum::hm_pectin);
  input.lm_pectin_percent = percent(Gum::lm_pectin) + percent(Gum::amidated_pectin);
  input.lm_pectin_amidated = percent(Gum::amidated_pectin) > percent(Gum::lm_pectin);
  input.gellan_low_acyl_percent = percent(Gum::gellan_low_acyl);
  input.gellan_high_acyl_percent = percent(Gum::gellan_high_acyl);
  input.xanthan_percent = percent(Gum::xanthan);
  if (delivered.carboxylate(Gum::alginate) > 0)
    input.guluronate_share = delivered.guluronate_mol / delivered.carboxylate(Gum::alginate);
  if (delivered.gum(Gum::hm_pectin) > 0)
    input.hm_pectin_esterification = delivered.hm_pectin_de_g / delivered.gum(Gum::hm_pectin);
  input.calcium_ratio_r2 = phase.calcium_ratio_r2;
  input.divalent_ratio_r2 = phase.gellan_ratio_r2;
  input.early_ratio_r2 = phase.tap_calcium_ratio_r2;
  input.ph = phase.ph + inputs.reading_offset_ph;
  input.soluble_solids_percent = std::clamp(formula.soluble_solids_percent(), 0.0, 100.0);
  if (formula.soluble_solids_g > 0)
    input.maltodextrin_share =
        std::clamp(delivered.maltodextrin_g / formula.soluble_solids_g, 0.0, 1.0);
  input.acid = acid_delivery_of(inputs);
  input.calcium = calcium_delivery_of(inputs);
  const Process& process = inputs.recipe->process;
  input.heated = process.heated_to_c.value_or(0) >= setting_constants().hot_enough_c;
  input.hydrated = process.gum_before_sugar || process.gum_dispersed == Dispersal::in_mix;
  return input;
}

Inputs as_measured(Inputs inputs) {
  if (const auto& reading = inputs.recipe->process.measured_ph)
    inputs.reading_offset_ph = *reading - water_phase_of(formulate(inputs), inputs, false).ph;
  return inputs;
}

Evaluation evaluate(const Inputs& inputs, EvaluateParts parts) {
  Evaluation evaluation;
  evaluation.formula = formulate(inputs);
  const Formula& formula = evaluation.formula;
  evaluation.water_phase = water_phase_of(formula, inputs, parts.batch);
  evaluation.properties = properties_of(formula, evaluation.water_phase);
  evaluation.setting = setting_of(formula, evaluation.water_phase, inputs);
  evaluation.nutrition = nutrition_of(formula, inputs);
  if (parts.batch)
    evaluation.batch = plan_batch(formula, inputs, evaluation.properties.density_g_per_ml);
  evaluation.cost = cost_of(formula, inputs, batch_factor(inputs));
  if (parts.flags) evaluation.flags = flags_of(evaluation, inputs);
  return evaluation;
}

}  // namespace gelwright
