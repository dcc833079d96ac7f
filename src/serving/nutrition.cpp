#include "gelwright/nutrition.hpp"

#include <numeric>

#include "gelwright/label_readings.hpp"
#include "gelwright/properties.hpp"

namespace gelwright {

namespace {

/// Of a mix that states no sodium, only what its named parts bring: its undeclared gum is a guess.
double known_sodium_mg(const Formula& formula, const Inputs& inputs, bool& at_least) {
  double known_mg = sodium_mg(formula.delivered);
  for (const InputLine& line : inputs.solids) {
    const Ingredient& what = inputs.recipe->ingredients[line.ingredient];
    if (what.sodium_stated || line.mass_g <= 0) continue;
    at_least = true;
    if (!what.undeclared.empty())
      known_mg -= line.mass_g * (sodium_mg(line.per_g) - sodium_mg(what.per_g));
  }
  return known_mg;
}

}  // namespace

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
  label.sodium_mg = known_sodium_mg(formula, inputs, label.sodium_at_least);
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
  Composition sweetest = delivered;
  name_sugars_fructose(sweetest);
  label.fructose_most_g = sweetest.fructose_g;
  label.glucose_least_g = sweetest.glucose_g;
  if (sweetest.fructose_g > 0)
    label.glucose_to_fructose_least = sweetest.glucose_g / sweetest.fructose_g;
  return label;
}

}  // namespace gelwright
