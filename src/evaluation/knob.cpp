#include "gelwright/knob.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "gelwright/formula.hpp"

namespace gelwright {

namespace {

constexpr double largest_dose_g = 1e4;
constexpr double largest_mass_g = 1e6;
constexpr double largest_water_per_g = 1000;
constexpr double largest_water_fraction = 0.999;
constexpr double largest_calcium_mg_per_l = 2000;
constexpr double largest_alkalinity_meq_per_l = 100;

constexpr KnobInfo table[] = {
    {Knob::acid_g, "acid_g", "g", "acid", "acid g", true, 0, largest_dose_g, true, KnobNeeds::acid,
     KnobTurns::acid},
    {Knob::calcium_salt_g, "calcium_salt_g", "g", "calcium salt", "salt g", true, 0, largest_dose_g,
     true, KnobNeeds::calcium_salt, KnobTurns::calcium_salt},
    {Knob::water_g, "water_g", "g", "water", "water g", true, 0, largest_mass_g, false,
     KnobNeeds::nothing, KnobTurns::water},
    {Knob::water_per_g_solids, "water_per_g_solids", "g/g", "water for each g of solids",
     "water g/g", false, 0, largest_water_per_g, false, KnobNeeds::nothing, KnobTurns::water},
    {Knob::water_fraction_of_total, "water_fraction_of_total", "g/g",
     "water in each g of the total", "water share", false, 0, largest_water_fraction, false,
     KnobNeeds::nothing, KnobTurns::water},
    {Knob::tap_calcium_mg_per_l, "tap_calcium_mg_per_l", "mg/L", "calcium in the water", "Ca mg/L",
     false, 0, largest_calcium_mg_per_l, true, KnobNeeds::nothing, KnobTurns::tap_ion},
    {Knob::alkalinity_meq_per_l, "alkalinity_meq_per_l", "meq/L", "alkalinity in the water",
     "alk. meq/L", false, 0, largest_alkalinity_meq_per_l, true, KnobNeeds::nothing,
     KnobTurns::tap_ion},
    {Knob::low_mineral_share, "low_mineral_share", "", "low-mineral water in the tap water",
     "low-min.", false, 0, 1, true, KnobNeeds::tap, KnobTurns::tap_share},
    {Knob::mass_g, "mass_g", "g", "one of the solids", "g", true, 0, largest_mass_g, true,
     KnobNeeds::solid, KnobTurns::solid},
};

}  // namespace

std::span<const KnobInfo> knobs() {
  return table;
}

const KnobInfo& info_of(Knob knob) {
  return table[static_cast<std::size_t>(knob)];
}

std::string name_of(const KnobOf& which, const Recipe& recipe) {
  const KnobInfo& info = info_of(which.knob);
  if (info.needs != KnobNeeds::solid) return std::string(info.name);
  const std::size_t ingredient = recipe.solids[which.solid].ingredient;
  return fmt::format("{}:{}", info.name, recipe.ingredients[ingredient].name);
}

double amount_of(const KnobOf& which, const Inputs& inputs) {
  switch (which.knob) {
    case Knob::acid_g:
      return inputs.acid ? inputs.acid->line.mass_g : 0;
    case Knob::calcium_salt_g:
      return inputs.calcium ? inputs.calcium->line.mass_g : 0;
    case Knob::water_g:
      return formulate(inputs).water_g;
    case Knob::water_per_g_solids:
      return formulate(inputs).water_per_g_solids();
    case Knob::water_fraction_of_total:
      return formulate(inputs).water_fraction_of_total();
    case Knob::tap_calcium_mg_per_l:
      return mg_per_l(inputs.tap, Ion::calcium);
    case Knob::alkalinity_meq_per_l:
      return alkalinity_meq_per_l(inputs.tap);
    case Knob::low_mineral_share:
      return 0;
    case Knob::mass_g:
      return inputs.solids[which.solid].mass_g;
  }
  return 0;
}

void turn(Inputs& inputs, const KnobOf& which, double amount) {
  switch (which.knob) {
    case Knob::acid_g:
      inputs.acid->line.mass_g = amount;
      break;
    case Knob::calcium_salt_g:
      inputs.calcium->line.mass_g = amount;
      break;
    case Knob::water_g:
      inputs.water = {WaterBasis::mass_g, amount};
      break;
    case Knob::water_per_g_solids:
      inputs.water = {WaterBasis::per_g_solids, amount};
      break;
    case Knob::water_fraction_of_total:
      inputs.water = {WaterBasis::fraction_of_total, amount};
      break;
    case Knob::tap_calcium_mg_per_l:
      inputs.tap = with_calcium(inputs.tap, amount);
      break;
    case Knob::alkalinity_meq_per_l:
      inputs.tap = with_alkalinity(inputs.tap, amount);
      break;
    case Knob::low_mineral_share:
      inputs.tap = thinned(inputs.tap, amount);
      break;
    case Knob::mass_g:
      inputs.solids[which.solid].mass_g = amount;
      break;
  }
}

bool has_knob(const Recipe& recipe, const KnobOf& which) {
  switch (info_of(which.knob).needs) {
    case KnobNeeds::nothing:
      return true;
    case KnobNeeds::acid:
      return recipe.acid.has_value();
    case KnobNeeds::calcium_salt:
      return recipe.calcium.has_value();
    case KnobNeeds::tap:
      return recipe.tap.has_value();
    case KnobNeeds::solid:
      return which.solid < recipe.solids.size();
  }
  return false;
}

bool within_bounds(const KnobInfo& knob, double amount) {
  const bool low_ok = knob.least_counts ? amount >= knob.least : amount > knob.least;
  return low_ok && amount <= knob.most;
}

std::string bounds_text(const KnobInfo& knob) {
  return fmt::format("{} {} and at most {}", knob.least_counts ? "at least" : "above", knob.least,
                     knob.most);
}

bool clash(const KnobOf& a, const KnobOf& b) {
  const KnobTurns one = info_of(a.knob).turns;
  const KnobTurns other = info_of(b.knob).turns;
  if (one == KnobTurns::tap_ion && other == KnobTurns::tap_ion) return a.knob == b.knob;
  if (one == KnobTurns::solid && other == KnobTurns::solid) return a.solid == b.solid;
  const auto of_tap = [](KnobTurns turns) {
    return turns == KnobTurns::tap_ion || turns == KnobTurns::tap_share;
  };
  return one == other || (of_tap(one) && of_tap(other));
}

}  // namespace gelwright
