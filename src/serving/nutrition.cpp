#include "gelwright/nutrition.hpp"

#include <numeric>

#include "gelwright/properties.hpp"

namespace gelwright {

Nutrition nutrition_of(const Formula& formula, const Inputs& inputs) {
  const Composition& delivered = formula.delivered;
  Nutrition label;
  label.carbohydrate_g = delivered.carbohydrate_g;
  label.sugars_g = delivered.sugars_g;
  label.fibre_g = delivered.fibre_g;
  label.polyols_g = delivered.polyol_g;
  label.protein_g = delivered.protein_g;
  label.fat_g = delivered.fat_g;
  const EnergyMasses masses{.carbohydrate_g = delivered.carbohydrate_g,
                            .polyol_g = delivered.polyol_g - delivered.erythritol_g,
                            .organic_acid_g = delivered.organic_acid_g,
                            .fibre_g = delivered.fibre_g,
                            .protein_g = delivered.protein_g,
                            .fat_g = delivered.fat_g};
  label.energy_kj = energy_kj(masses);
  label.energy_kcal = energy_kcal(masses);
  label.sodium_mg = sodium_mg(delivered);
  // Only the sodium a report states: what closed the charge of an incomplete report is a guess.
  if (inputs.recipe->tap)
    label.sodium_mg += inputs.recipe->tap->water.mg_per_l[Ion::sodium].value_or(0) *
                       litres_of_water(formula.tap_g);
  label.caffeine_mg = delivered.caffeine_mg;
  for (const PreDosed& piece : inputs.recipe->pre_dosed) {
    label.sodium_mg += piece.per_serving * piece.sodium_mg;
    label.caffeine_mg += piece.per_serving * piece.caffeine_mg;
  }
  label.salt_g = salt_equivalent_g(label.sodium_mg);
  label.gum_g = std::accumulate(delivered.gum_g.begin(), delivered.gum_g.end(), 0.0);
  label.glucose_g = delivered.glucose_g;
  label.fructose_g = delivered.fructose_g;
  if (delivered.fructose_g > 0)
    label.glucose_to_fructose = delivered.glucose_g / delivered.fructose_g;
  return label;
}

}  // namespace gelwright
