// The water phase of one serving: pH, free calcium, and how much calcium each gum can find.
#pragma once

#include <optional>

#include "gelwright/equilibrium.hpp"
#include "gelwright/formula.hpp"

namespace gelwright {

/// All concentrations per kg of chemistry water.
struct WaterPhase {
  double ph = 7;                      ///< closed, CO2 kept
  double ph_uncertainty = 0;          ///< 95 % half-width, a judgement
  std::optional<double> ph_degassed;  ///< in balance with air; see `degassing_shown_above_ph`
  double ionic_strength_mol_per_kg = 0;
  double buffer_capacity_mol_per_kg_per_ph = 0;
  double carbon_dioxide_mol_per_kg = 0;      ///< CO2(aq) with nothing escaped, gas or not
  double total_calcium_mmol_per_kg = 0;      ///< dissolved, in whatever form
  double free_calcium_mmol_per_kg = 0;       ///< Ca2+ bound to nothing
  double free_calcium_decades = 0;           ///< 95 % half-width of its log10, of constants alone
  double pairs_ph = 0;                       ///< part of `ph_uncertainty`, see complex_doubt.hpp
  double available_calcium_mmol_per_kg = 0;  ///< free plus what is bound too weakly to hide
  double total_magnesium_mmol_per_kg = 0;
  double free_magnesium_mmol_per_kg = 0;
  double total_sodium_mmol_per_kg = 0;
  double total_potassium_mmol_per_kg = 0;
  double carboxylate_mmol_per_kg = 0;          ///< of all gums
  double calcium_ratio_r2 = 0;                 ///< 2 available calcium / carboxylate
  double total_calcium_ratio_r2 = 0;           ///< 2 total dissolved calcium / carboxylate
  double tap_calcium_ratio_r2 = 0;             ///< 2 calcium of tap and solids / carboxylate
  double gellan_ratio_r2 = 0;                  ///< as `calcium_ratio_r2`, magnesium in part
  std::optional<double> guluronate_ratio;      ///< R_G of the alginate
  double undissolved_calcium_mmol_per_kg = 0;  ///< waits for stomach acid
  /// Of all protons given off in the serving, 0 to 1; absent without added acid.
  std::optional<double> alkalinity_share;  ///< taken by the bicarbonate of the tap
  std::optional<double> gum_share;         ///< taken by gum carboxylate
  SaturationIndices saturation;
  double acid_demand_mmol = 0;              ///< strong acid per serving to the pH of the stomach
  double osmotic_particles_mol_per_kg = 0;  ///< small ions and acids, for water activity
  bool buffer_unknown = false;  ///< a bought mix whose own acids and salts are not known
};

/// Amounts per kg of chemistry water of everything dissolved in the bottle.
/// `slow_share` (0 to 1) of what dissolves only as acid reaches it counts; `lactone_ph` decides how
/// far a lactone has turned to acid.
Totals totals_of(const Formula& formula, const Inputs& inputs, double slow_share,
                 double lactone_ph);

/// Solves the serving. Throws NotConverged, and InputError for a serving without water and for
/// amounts outside the solver's domain.
/// `for_sheet` false leaves out what only a sheet shows, the pH in balance with air and the shares
/// of protons, and saves a solve.
WaterPhase water_phase_of(const Formula& formula, const Inputs& inputs, bool for_sheet = true);

/// Free calcium scaled up by the complexes too weak to keep it from a gum, mol per kg of water.
double available_calcium_mol_per_kg(const Equilibrium& solved);

/// The one pKa that stands for all gum carboxylate of a serving: `inputs.gum_pka`, else that of the
/// gums in it; absent without gum.
std::optional<double> gum_pka_of(const Formula& formula, const Inputs& inputs);

/// Buffer pKa of the recipe's bought mix, if one of its ingredients has a fitted buffer.
std::optional<double> buffer_pka_of(const Inputs& inputs);

/// `ph_degassed` is absent where it differs from `ph` by no more than this.
double degassing_shown_above_ph();

/// What hides calcium from a gum, and what is worth showing.
std::span<const Datum> water_phase_data();

}  // namespace gelwright
