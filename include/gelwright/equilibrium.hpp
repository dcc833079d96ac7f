// pH, ionic strength and free calcium of the water phase.
//
// Given how much of each component is dissolved per kg of WATER (all water: tap, moisture of
// powders, hydrate water), finds the pH at which charges balance, with calcium and magnesium shared
// among the ligands by mass action and activity coefficients by Davies.
//
// Range: ionic strength to 0.1 mol/kg well supported, to 0.5 less certain, beyond that flagged; the
// coefficients are held at their value at 0.5. About +-0.1 pH in dilute acid and salt solutions,
// +-0.2 to 0.3 in a gel of 60 % solids. Sugar's effect on activity is not modelled. Gums bind no
// calcium here: their binding is cooperative and handled by ratio elsewhere. Nothing precipitates.
#pragma once

#include <array>
#include <optional>

#include "gelwright/species.hpp"

namespace gelwright {

/// Dissolved amounts, mol per kg of water. Protons are implicit: the charge balance supplies them
/// (citric acid is citrate alone, trisodium citrate is citrate and three sodium).
struct Totals {
  std::array<double, component_count> mol_per_kg{};

  double& operator[](Component c) { return mol_per_kg[static_cast<std::size_t>(c)]; }
  double operator[](Component c) const { return mol_per_kg[static_cast<std::size_t>(c)]; }
};

/// Whether carbon dioxide may come and go.
enum class CarbonDioxide {
  closed,  ///< total carbonate stays: a filled bottle, a covered pouch
  open,    ///< in balance with air: the total given for carbonate is ignored
};

struct EquilibriumOptions {
  CarbonDioxide carbon_dioxide = CarbonDioxide::closed;
  /// CO2 in the air above an open solution, parts per million by volume at 1 atm. Empty: 420.
  std::optional<double> co2_ppm{};
  /// Effective pKa of gum carboxylate, a concentration constant: no activity correction goes on it.
  /// Empty: 3.5, see species_data().
  std::optional<double> gum_pka{};
  /// pKa of the mix's fitted buffer at I = 0. Required when there is any of it.
  std::optional<double> buffer_pka{};
  /// Every activity coefficient 1. For comparison with textbook sums only.
  bool ideal = false;
  /// Take the slow nested path that needs no starting guess. For checking the quick one.
  bool nested_only = false;
};

/// log10(ion activity product / Ksp); above 0 the solid may form, in its own time. Empty where a
/// constituent is missing.
struct SaturationIndices {
  std::optional<double> calcite;
  std::optional<double> gypsum;
  std::optional<double> calcium_phosphate_dihydrate;
  std::optional<double> tricalcium_citrate;  ///< stays supersaturated for hours: a warning at most
};

/// The solved water phase. All amounts mol per kg of water.
struct Equilibrium {
  double ph = 0.0;  ///< -log10 of hydrogen ion activity
  double ionic_strength_mol_per_kg = 0.0;
  /// Ca2+ and Mg2+ bound to nothing. Sodium and potassium citrate pairs are counted here, not in
  /// the pH (counting every such pair there spoils phosphate by 0.04 and carbonate by 0.15 pH).
  double free_calcium_mol_per_kg = 0.0;
  double free_magnesium_mol_per_kg = 0.0;
  /// Strong acid per unit of pH fall, at constant ionic strength and without metal complexes.
  double buffer_capacity_mol_per_kg_per_ph = 0.0;
  /// Net charge over the sum of all charges, each species counted one by one.
  double charge_residual_scaled = 0.0;
  /// Largest relative error of the calcium and magnesium balances.
  double mass_residual_relative = 0.0;
  int residual_evaluations = 0;
  bool nested = false;  ///< the slow path was needed or asked for
  SaturationIndices saturation;
  /// Every species of species(), in its order, as it counts in the charge balance: sodium and
  /// potassium pairs are zero here, so Ca2+ here is a little above free_calcium_mol_per_kg.
  std::array<double, species_count> species_mol_per_kg{};
};

/// Solves for pH. No heap allocation on success. Amounts below 1e-25 mol/kg count as absent.
/// Throws InputError for an amount that is negative, not finite or above 100 mol/kg, for a buffer
/// without pKa and for an option out of range (all problems at once, `where` naming the component);
/// NotConverged, with the state, if neither path reaches 1e-11 in pH, 1e-12 in scaled charge and
/// 1e-10 in relative mass.
Equilibrium solve_equilibrium(const Totals& totals,
                              const Constants& constants = constants_at_25_c(),
                              const EquilibriumOptions& options = {});

/// Strong acid (hydrochloric), mol per kg of water, that brings the solution to `ph` (-1 to 15);
/// negative where it takes a strong base (sodium hydroxide). Throws as solve_equilibrium.
double proton_demand_mol_per_kg(const Totals& totals, double ph,
                                const Constants& constants = constants_at_25_c(),
                                const EquilibriumOptions& options = {});

/// Davies activity coefficient at 25 degC: log10 gamma = -A z^2 (sqrt I/(1 + sqrt I) - 0.3 I), with
/// I in mol/kg held at 0.5 above 0.5, where the form turns up and soon diverges. Davies 1962.
double davies_gamma(int charge, double ionic_strength_mol_per_kg);

/// Share of glucono-delta-lactone turned to gluconic acid (either form of it) after `hours` (0 or
/// more; negative counts as 0) in water held at `ph`, 25 degC. First order towards the equilibrium
/// of lactone with undissociated acid: below pH 3 up to a fifth stays lactone, near pH 5 next to
/// nothing. Half of it is gone in 1.75 h near pH 5. Rates from Zhang et al. 2007 for pH near 5,
/// taken as holding from pH 3 up; faster in warmth and above pH 6.
double gdl_hydrolysed_fraction(double hours, double ph);

/// Numbers of the solver's surroundings: range of the activity model, air, lactone.
std::span<const Datum> equilibrium_data();

}  // namespace gelwright
