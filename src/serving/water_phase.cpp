#include "gelwright/water_phase.hpp"

#include <algorithm>
#include <cmath>

#include "base/roots.hpp"
#include "gelling/constant_table.hpp"
#include "gelwright/gums.hpp"
#include "serving/complex_doubt.hpp"
#include "serving/ph_error.hpp"
#include "serving/proton_shares.hpp"

namespace gelwright {

namespace {

constexpr Datum data[] = {
    {"chelate.hides-above-log-k", 2.0, "1", 0,
     "complexes stronger than this keep calcium from a gum, weaker ones give it up", "judgement",
     Standing::judgement},
    {"degassed.reported-above", 0.05, "pH", 0, "smaller differences are not shown", "judgement",
     Standing::judgement},
};

constexpr double hides_above_log_k = value_of(data, "chelate.hides-above-log-k");
constexpr double degassed_reported_above = value_of(data, "degassed.reported-above");

constexpr double first_lactone_ph = 4;
constexpr int lactone_rounds = 5;
/// The dissolved share of a sparing salt is found to a millionth, so that nothing seems to jump.
constexpr detail::RootOptions share_tolerance{.x_tolerance = 1e-6};

bool is_small_ion(Component component) {
  return component != Component::uronate && component != Component::buffer;
}

/// Share of one ligand's amount that carries its last proton, from the solved species.
double protonated_share(const Equilibrium& solved, Component ligand) {
  double protonated = 0;
  double all = 0;
  const std::span<const Species> table = species();
  for (std::size_t i = 0; i < table.size(); ++i) {
    if (table[i].component != ligand) continue;
    all += solved.species_mol_per_kg[i];
    if (table[i].n_h > 0) protonated += solved.species_mol_per_kg[i];
  }
  return all > 0 ? protonated / all : 0;
}

/// Saturation index of the salt that is itself in the recipe; the largest where there are several.
double own_saturation(const SaturationIndices& indices, const Composition& delivered) {
  constexpr double absent = -10;
  double highest = absent;
  const auto consider = [&](Component anion, const std::optional<double>& index) {
    if (delivered.acid_only(anion) > 0) highest = std::max(highest, index.value_or(absent));
  };
  consider(Component::carbonate, indices.calcite);
  consider(Component::phosphate, indices.calcium_phosphate_dihydrate);
  consider(Component::citrate, indices.tricalcium_citrate);
  consider(Component::sulfate, indices.gypsum);
  return highest;
}

/// The part of the lactone that has turned to acid by the end of the rest.
double lactone_share(const Formula& formula, const Inputs& inputs, double ph) {
  if (formula.delivered.lactone_mol <= 0) return 0;
  return gdl_hydrolysed_fraction(inputs.making.acid_hours, ph);
}

bool has_unknown_buffer(const Inputs& inputs) {
  return std::any_of(inputs.solids.begin(), inputs.solids.end(), [&](const InputLine& line) {
    const Ingredient& ingredient = inputs.recipe->ingredients[line.ingredient];
    return ingredient.kind == Kind::mix && !ingredient.buffer_pka && !ingredient.fully_declared;
  });
}

}  // namespace

double available_calcium_mol_per_kg(const Equilibrium& solved) {
  double bare = 0;
  double weak = 0;
  const std::span<const Species> table = species();
  for (std::size_t i = 0; i < table.size(); ++i) {
    const double amount = solved.species_mol_per_kg[i];
    if (table[i].component == Component::calcium && table[i].n_h == 0)
      bare += amount;
    else if (table[i].n_ca > 0 && table[i].log_k <= hides_above_log_k)
      weak += amount;
  }
  return bare > 0 ? solved.free_calcium_mol_per_kg * (bare + weak) / bare : 0;
}

std::optional<double> buffer_pka_of(const Inputs& inputs) {
  for (const InputLine& line : inputs.solids)
    if (const auto& pka = inputs.recipe->ingredients[line.ingredient].buffer_pka) return pka;
  return std::nullopt;
}

std::optional<double> gum_pka_of(const Formula& formula, const Inputs& inputs) {
  return inputs.gum_pka ? inputs.gum_pka : gum_pka_of(formula.delivered);
}

Totals totals_of(const Formula& formula, const Inputs& inputs, double slow_share,
                 double lactone_ph) {
  Totals totals{dissolved_mol(inputs.tap, std::max(0.0, formula.tap_g) / 1000)};
  for (std::size_t c = 0; c < component_count; ++c) {
    totals.mol_per_kg[c] += formula.delivered.dissolved_mol[c];
    totals.mol_per_kg[c] += slow_share * formula.delivered.acid_only_mol[c];
  }
  totals[Component::gluconate] +=
      formula.delivered.lactone_mol * lactone_share(formula, inputs, lactone_ph);
  for (double& amount : totals.mol_per_kg) amount /= formula.chemistry_water_g / 1000;
  return totals;
}

WaterPhase water_phase_of(const Formula& formula, const Inputs& inputs, bool for_sheet) {
  require_water(formula, inputs.recipe->document);
  WaterPhase phase;
  const double water_kg = formula.chemistry_water_g / 1000;
  EquilibriumOptions options;
  options.gum_pka = gum_pka_of(formula, inputs);
  options.buffer_pka = buffer_pka_of(inputs);

  Totals totals;
  Equilibrium solved;
  double lactone_ph = first_lactone_ph;
  double lactone_solved_at = first_lactone_ph;
  const auto solve = [&](double slow_share) {
    // How far a lactone goes depends on the pH it makes; a few rounds settle it to 0.001 pH.
    for (int round = formula.delivered.lactone_mol > 0 ? 0 : lactone_rounds - 1;
         round < lactone_rounds; ++round) {
      lactone_solved_at = lactone_ph;
      totals = totals_of(formula, inputs, slow_share, lactone_ph);
      solved = solve_equilibrium(totals, constants_at_25_c(), options);
      lactone_ph = solved.ph;
    }
    return own_saturation(solved.saturation, formula.delivered);
  };

  // A sparingly soluble salt dissolves until the water phase is saturated with that salt itself.
  const double waiting_mol = formula.delivered.acid_only(Component::calcium);
  double dissolved_share = waiting_mol > 0 ? 1 : 0;
  const double saturation = solve(dissolved_share);
  if (waiting_mol > 0 && saturation > 0) {
    // Where tap and acid alone saturate the water, none of the salt dissolves.
    const double without = solve(0);
    dissolved_share =
        without < 0
            ? detail::narrow_bracket(solve, 0, without, 1, saturation, share_tolerance).negative
            : 0;
    solve(dissolved_share);
    phase.undissolved_calcium_mmol_per_kg = 1000 * (1 - dissolved_share) * waiting_mol / water_kg;
  }

  phase.ph = solved.ph + inputs.ph_bias;
  phase.buffer_unknown = has_unknown_buffer(inputs);
  const ComplexDoubt complexes = complex_doubt(solved);
  phase.pairs_ph = complexes.ph;
  phase.free_calcium_decades = complexes.free_calcium_decades;
  phase.ph_uncertainty =
      ph_error_parts({.soluble_solids_percent = formula.soluble_solids_percent(),
                      .buffer_capacity_mol_per_kg_per_ph = solved.buffer_capacity_mol_per_kg_per_ph,
                      .carboxylate_mol_per_kg = totals[Component::uronate],
                      .carboxylate_protonated = protonated_share(solved, Component::uronate),
                      .pairs_ph = phase.pairs_ph,
                      .buffer_unknown = phase.buffer_unknown})
          .together();
  if (for_sheet) {
    EquilibriumOptions open = options;
    open.carbon_dioxide = CarbonDioxide::open;
    const double open_ph = solve_equilibrium(totals, constants_at_25_c(), open).ph;
    if (std::abs(open_ph - solved.ph) > degassed_reported_above)
      phase.ph_degassed = open_ph + inputs.ph_bias;
  }
  phase.ionic_strength_mol_per_kg = solved.ionic_strength_mol_per_kg;
  phase.buffer_capacity_mol_per_kg_per_ph = solved.buffer_capacity_mol_per_kg_per_ph;
  phase.saturation = solved.saturation;
  static const std::size_t carbon_dioxide = species_index("H2CO3");
  phase.carbon_dioxide_mol_per_kg = solved.species_mol_per_kg[carbon_dioxide];

  const double calcium = totals[Component::calcium];
  // All of it is in solution: a study of the complexes sets no more calcium free than there is.
  const double freed = std::pow(10.0, inputs.calcium_lg_bias);
  const double available = std::min(calcium, freed * available_calcium_mol_per_kg(solved));
  const double carboxylate = totals[Component::uronate];
  phase.total_calcium_mmol_per_kg = 1000 * calcium;
  phase.free_calcium_mmol_per_kg = 1000 * std::min(calcium, freed * solved.free_calcium_mol_per_kg);
  phase.available_calcium_mmol_per_kg = 1000 * available;
  phase.total_magnesium_mmol_per_kg = 1000 * totals[Component::magnesium];
  phase.free_magnesium_mmol_per_kg = 1000 * solved.free_magnesium_mol_per_kg;
  phase.total_sodium_mmol_per_kg = 1000 * totals[Component::sodium];
  phase.total_potassium_mmol_per_kg = 1000 * totals[Component::potassium];
  phase.carboxylate_mmol_per_kg = 1000 * carboxylate;
  phase.calcium_ratio_r2 = saturation_ratio_r2(available, carboxylate);
  phase.total_calcium_ratio_r2 = saturation_ratio_r2(calcium, carboxylate);
  const double added_calcium = inputs.calcium
                                   ? inputs.calcium->line.per_g.dissolved(Component::calcium) *
                                         inputs.calcium->line.mass_g / water_kg
                                   : 0;
  const double dissolved_later = dissolved_share * waiting_mol / water_kg;
  phase.tap_calcium_ratio_r2 =
      saturation_ratio_r2(std::max(0.0, calcium - added_calcium - dissolved_later), carboxylate);
  phase.gellan_ratio_r2 = saturation_ratio_r2(
      divalent_for_gum(Gum::gellan_low_acyl, available, solved.free_magnesium_mol_per_kg),
      carboxylate);
  const double guluronate = formula.delivered.guluronate_mol / water_kg;
  if (guluronate > 0 && carboxylate > 0)
    phase.guluronate_ratio = guluronate_ratio_from_r2(
        phase.calcium_ratio_r2,
        guluronate / (formula.delivered.carboxylate(Gum::alginate) / water_kg));

  if (for_sheet && inputs.acid && inputs.acid->line.mass_g > 0) {
    const auto shares =
        proton_shares(solved, totals, formula, inputs,
                      {dissolved_share, lactone_share(formula, inputs, lactone_solved_at)});
    if (shares) {
      phase.alkalinity_share = shares->alkalinity;
      phase.gum_share = shares->gum;
    }
  }

  const Totals released = totals_of(formula, inputs, 1, solved.ph);
  const double demand_mmol =
      1000 * water_kg *
      proton_demand_mol_per_kg(released, gel::detail::constant("gel.stomach.ph"),
                               constants_at_25_c(), options);
  // What is already at the pH of the stomach needs none; what is left of it is rounding.
  constexpr double rounding_mmol = 1e-9;
  phase.acid_demand_mmol = demand_mmol > rounding_mmol ? demand_mmol : 0;
  for (std::size_t c = 0; c < component_count; ++c)
    if (is_small_ion(static_cast<Component>(c)))
      phase.osmotic_particles_mol_per_kg += totals.mol_per_kg[c];
  return phase;
}

double degassing_shown_above_ph() {
  return degassed_reported_above;
}

std::span<const Datum> water_phase_data() {
  return data;
}

}  // namespace gelwright
