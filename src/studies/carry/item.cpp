// What one piece brings.
#include <algorithm>

#include "gelwright/carry.hpp"
#include "gelwright/elements.hpp"
#include "gelwright/label_readings.hpp"
#include "gelwright/procedure.hpp"

namespace gelwright {

namespace {

double potassium_mg(const Composition& delivered) {
  constexpr double mg_per_mol = 1000 * molar_mass_g_per_mol("K");
  return mg_per_mol *
         (delivered.dissolved(Component::potassium) + delivered.acid_only(Component::potassium));
}

/// Glucose and fructose, over all that sugars without a name may be.
void add_sugars(const Composition& delivered, CarryAmounts& holds) {
  Composition sweetest = delivered;
  name_sugars_fructose(sweetest);
  // Counted as sucrose they bring glucose too; at the other end they are glucose altogether.
  const double turned_g = sweetest.fructose_g - delivered.fructose_g;
  holds.glucose_g = {sweetest.glucose_g, delivered.glucose_g + turned_g};
  holds.fructose_g = {std::max(0.0, delivered.fructose_g - turned_g), sweetest.fructose_g};
}

}  // namespace

CarryAmounts& CarryAmounts::operator+=(const CarryAmounts& other) {
  carbohydrate_g += other.carbohydrate_g;
  glucose_g.low += other.glucose_g.low;
  glucose_g.high += other.glucose_g.high;
  fructose_g.low += other.fructose_g.low;
  fructose_g.high += other.fructose_g.high;
  sodium_mg += other.sodium_mg;
  sodium_at_least = sodium_at_least || other.sodium_at_least;
  potassium_mg += other.potassium_mg;
  potassium_at_least = potassium_at_least || other.potassium_at_least;
  caffeine_mg += other.caffeine_mg;
  gum_g += other.gum_g;
  fluid_ml += other.fluid_ml;
  return *this;
}

CarryAmounts operator*(CarryAmounts amounts, double factor) {
  amounts.carbohydrate_g *= factor;
  amounts.glucose_g.low *= factor;
  amounts.glucose_g.high *= factor;
  amounts.fructose_g.low *= factor;
  amounts.fructose_g.high *= factor;
  amounts.sodium_mg *= factor;
  amounts.potassium_mg *= factor;
  amounts.caffeine_mg *= factor;
  amounts.gum_g *= factor;
  amounts.fluid_ml *= factor;
  return amounts;
}

CarryItem carry_item(const Inputs& inputs, const Evaluation& evaluation) {
  const Recipe& recipe = *inputs.recipe;
  const Nutrition& label = evaluation.nutrition;
  CarryItem item;
  item.name = recipe.name;
  item.document = recipe.document;
  item.kind = recipe.form == Form::pouch ? CarryKind::pouch : CarryKind::bottle;
  item.mass_g = evaluation.formula.total_g;
  item.holds.carbohydrate_g = label.carbohydrate_g;
  add_sugars(evaluation.formula.delivered, item.holds);
  item.holds.sodium_mg = label.sodium_mg;
  item.holds.sodium_at_least = label.sodium_at_least;
  item.holds.potassium_mg = potassium_mg(evaluation.formula.delivered);
  for (const InputLine& line : inputs.solids)
    if (line.mass_g > 0 && !recipe.ingredients[line.ingredient].fully_declared)
      item.holds.potassium_at_least = true;
  item.holds.caffeine_mg = label.caffeine_mg;
  item.holds.gum_g = label.gum_g;
  item.holds.fluid_ml = evaluation.formula.chemistry_water_g;
  item.keeping = keeping_of(evaluation, inputs);
  item.making_hours = procedure_of(inputs, evaluation).hours;
  item.batch_servings = inputs.servings;
  return item;
}

CarryItem carry_item(const Ingredient& bought, double mass_g, bool sugars_stated) {
  const Composition delivered = bought.per_g * mass_g;
  CarryItem item;
  item.name = bought.name;
  item.mass_g = mass_g;
  item.holds.carbohydrate_g = delivered.carbohydrate_g;
  add_sugars(delivered, item.holds);
  if (!sugars_stated) {
    const double half_g = delivered.carbohydrate_g / 2;
    item.holds.glucose_g.low = std::min(item.holds.glucose_g.low, half_g);
    item.holds.fructose_g.high = std::max(item.holds.fructose_g.high, half_g);
  }
  item.holds.sodium_mg = sodium_mg(delivered);
  item.holds.sodium_at_least = !bought.sodium_stated;
  item.holds.potassium_mg = potassium_mg(delivered);
  item.holds.potassium_at_least = !bought.fully_declared;
  item.holds.caffeine_mg = delivered.caffeine_mg;
  for (const double gum_g : delivered.gum_g) item.holds.gum_g += gum_g;
  item.holds.fluid_ml = delivered.water_g;
  return item;
}

}  // namespace gelwright
