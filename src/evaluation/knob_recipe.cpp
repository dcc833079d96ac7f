// Knobs stated in a recipe, as if its author had written it so.
#include <algorithm>
#include <cmath>

#include "gelwright/knob.hpp"

namespace gelwright {

namespace {

/// Keeps the reported charges even; an ion that is not reported is completed from the charge.
void add_strong_charge(Water& water, double meq_per_l) {
  const Ion ion = meq_per_l > 0 ? Ion::chloride : Ion::sodium;
  std::optional<double>& amount = water.mg_per_l[ion];
  if (amount) *amount += mg_per_l(ion, std::abs(meq_per_l));
}

void state_calcium(Tap& tap, double amount_mg_per_l) {
  Water& water = tap.water;
  double before_mmol_per_l = 0;
  if (const std::optional<CalciumMagnesium> both = calcium_and_magnesium(water, nullptr)) {
    before_mmol_per_l = both->calcium_mmol_per_l;
    water.mg_per_l[Ion::magnesium] = both->magnesium_mg_per_l();
  }
  water.mg_per_l[Ion::calcium] = amount_mg_per_l;
  water.hardness_mmol_per_l.reset();  // it was that of the water as reported
  water.ph.reset();
  tap.sd.mg_per_l[Ion::calcium].reset();
  add_strong_charge(water, 2 * (mmol_per_l(Ion::calcium, amount_mg_per_l) - before_mmol_per_l));
}

void state_alkalinity(Tap& tap, double meq_per_l) {
  Water& water = tap.water;
  const double before = water.alkalinity_meq_per_l.value_or(0);
  water.alkalinity_meq_per_l = meq_per_l;
  water.phenolphthalein_alkalinity_meq_per_l.reset();
  water.ph.reset();
  tap.sd.alkalinity_meq_per_l.reset();
  add_strong_charge(water, before - meq_per_l);
}

void state_thinner(Tap& tap, double low_mineral_share) {
  const std::string name = tap.water.name;
  const double kept = 1 - low_mineral_share;
  tap.water = blend({{{tap.water, kept}, {demineralised_water(), low_mineral_share}}});
  tap.water.name = name;
  for (const IonInfo& ion : ions())
    if (std::optional<double>& sd = tap.sd.mg_per_l[ion.ion]) *sd *= kept;
  if (tap.sd.alkalinity_meq_per_l) *tap.sd.alkalinity_meq_per_l *= kept;
  if (tap.sd.hardness_mmol_per_l) *tap.sd.hardness_mmol_per_l *= kept;
}

/// The recipe's report; where there is none, water without ions, as studies take it.
Tap& tap_of(Recipe& recipe) {
  if (!recipe.tap) recipe.tap = Tap{demineralised_water(), {}};
  return *recipe.tap;
}

void state(Recipe& recipe, const KnobOf& which, double amount) {
  switch (which.knob) {
    case Knob::acid_g:
      recipe.acid->mass_g = {amount, 0};
      recipe.acid->additions_g.clear();
      recipe.acid->target_ph.reset();
      break;
    case Knob::calcium_salt_g:
      recipe.calcium->mass_g = {amount, 0};
      recipe.calcium->target_ratio.reset();
      break;
    case Knob::water_g:
      recipe.water = {WaterBasis::mass_g, amount};
      break;
    case Knob::water_per_g_solids:
      recipe.water = {WaterBasis::per_g_solids, amount};
      break;
    case Knob::water_fraction_of_total:
      recipe.water = {WaterBasis::fraction_of_total, amount};
      break;
    case Knob::tap_calcium_mg_per_l:
      state_calcium(tap_of(recipe), amount);
      break;
    case Knob::alkalinity_meq_per_l:
      state_alkalinity(tap_of(recipe), amount);
      break;
    case Knob::low_mineral_share:
      state_thinner(tap_of(recipe), amount);
      break;
    case Knob::mass_g:
      recipe.solids[which.solid].mass_g = {amount, 0};
      break;
  }
}

/// What the recipe itself says, where it says it.
std::optional<double> amount_in(const Recipe& recipe, const KnobOf& which, const Inputs& inputs) {
  const KnobTurns turns = info_of(which.knob).turns;
  if (turns == KnobTurns::acid && recipe.acid->target_ph) return std::nullopt;
  if (turns == KnobTurns::calcium_salt && recipe.calcium->target_ratio) return std::nullopt;
  if (turns == KnobTurns::tap_ion && !recipe.tap) return std::nullopt;
  return amount_of(which, inputs);
}

}  // namespace

Recipe stated(const Recipe& recipe, std::span<const KnobSetting> settings) {
  Recipe made = recipe;
  if (settings.empty()) return made;
  const Inputs inputs = inputs_of(recipe);
  for (const KnobSetting& setting : settings) {
    made.turned.push_back({name_of(setting.which, recipe),
                           std::string(info_of(setting.which.knob).unit), setting.amount,
                           amount_in(recipe, setting.which, inputs)});
    state(made, setting.which, setting.amount);
  }
  made.measured.reset();
  return made;
}

}  // namespace gelwright
