#include "serving/liquid_met.hpp"

#include <algorithm>

#include "gelwright/water_phase.hpp"

namespace gelwright::detail {

namespace {

/// Solids at the moment the gum dissolves: they go in while it does.
constexpr double with_the_gum = 0.5;

/// What is in the vessel, and how much of its soluble solids came together with the gum.
struct Vessel {
  Formula in;
  double together_g = 0;

  void add(const InputLine& line, double share, double stock_water_g, bool together) {
    const double mass_g = share * line.mass_g;
    const Composition delivered = line.per_g * mass_g;
    in.delivered += delivered;
    in.total_g += mass_g + stock_water_g;
    in.chemistry_water_g += delivered.water_g + stock_water_g;
    if (together) together_g += delivered.soluble_solids_g;
  }
  void add(const InputDose& dose) {
    const double stock_water_g =
        dose.stock_fraction > 0 ? dose.line.mass_g * (1 / dose.stock_fraction - 1) : 0;
    add(dose.line, 1, stock_water_g, false);
  }
};

/// Of the lactone that turns to acid by the time it is eaten, the part that has when something goes
/// in at this place.
double turned_by(int place, const Making& making) {
  constexpr double no_lactone_yet_ph = 7;
  double hours_to_come = 0;
  for (const GoesIn& each : making.solids)
    if (each.place == place) hours_to_come = each.hours;
  const double in_the_end = gdl_hydrolysed_fraction(making.acid_hours, no_lactone_yet_ph);
  if (in_the_end <= 0) return 1;
  const double hours = std::max(0.0, making.acid_hours - hours_to_come);
  return gdl_hydrolysed_fraction(hours, no_lactone_yet_ph) / in_the_end;
}

}  // namespace

LiquidMet liquid_met_at(int place, const Formula& formula, const Inputs& inputs) {
  const Making& making = inputs.making;
  Vessel vessel;
  double water_share = making.water.empty() ? 1 : 0;
  for (const WaterGoesIn& part : making.water)
    if (part.place <= place) water_share += part.share;
  vessel.in.tap_g = water_share * std::max(0.0, formula.tap_g);
  vessel.in.total_g = vessel.in.tap_g;
  vessel.in.chemistry_water_g = vessel.in.tap_g;
  for (const GoesIn& each : making.solids)
    if (each.place <= place)
      vessel.add(inputs.solids[each.line], each.share, 0, each.place == place);
  const bool acid_in = inputs.acid && making.acid_place < place;
  if (acid_in) vessel.add(*inputs.acid);
  if (inputs.calcium && making.calcium_place < place) vessel.add(*inputs.calcium);

  if (acid_in) vessel.in.delivered.lactone_mol *= turned_by(place, making);

  const bool no_water = vessel.in.chemistry_water_g <= 0;
  const Formula& liquid = no_water ? formula : vessel.in;
  constexpr double no_lactone_yet_ph = 7;
  EquilibriumOptions options;
  options.gum_pka = gum_pka_of(liquid, inputs);
  options.buffer_pka = buffer_pka_of(inputs);
  const Totals totals = totals_of(liquid, inputs, acid_in ? 1 : 0, no_lactone_yet_ph);
  const Equilibrium solved = solve_equilibrium(totals, constants_at_25_c(), options);

  LiquidMet met;
  met.ph = solved.ph + inputs.ph_bias;
  const double available = available_calcium_mol_per_kg(solved);
  met.available_calcium_mmol_per_kg = 1000 * available;
  const double calcium = totals[Component::calcium];
  if (calcium > 0) met.calcium_held_share = std::clamp(1 - available / calcium, 0.0, 1.0);
  const double together_g = no_water ? 0 : vessel.together_g;
  if (liquid.total_g > 0)
    met.solids_percent = 100 *
                         (liquid.delivered.soluble_solids_g - (1 - with_the_gum) * together_g) /
                         liquid.total_g;
  return met;
}

}  // namespace gelwright::detail
