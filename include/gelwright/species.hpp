// Dissolved species and their formation constants.
//
// Every species is one ligand in its fully deprotonated form plus protons plus at most one metal:
//   {species} = beta {L} {H}^n_h {Ca}^n_ca {Mg}^n_mg {Na}^n_na {K}^n_k      (activities, molal
//   scale)
// All constants are for zero ionic strength and the solver applies the activity coefficients; the
// gums' alone is measured in salt and holds for concentrations as they are (`activity_z2`).
// All are for 25 degC.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <span>
#include <string_view>

#include "gelwright/source.hpp"

namespace gelwright {

/// What is counted on the way in. A ligand is counted in all its forms, protons never.
enum class Component : std::uint8_t {
  citrate,
  malate,
  tartrate,
  lactate,
  acetate,
  gluconate,
  ascorbate,
  phosphate,
  carbonate,  ///< CO2(aq) + HCO3- + CO3 2-
  sulfate,
  uronate,  ///< carboxylate of every gum together, protonated or not
  buffer,   ///< the unknown weak acid of a bought mix, one proton, its own pKa
  calcium,
  magnesium,
  sodium,
  potassium,
  chloride,
};

inline constexpr std::size_t component_count = 17;

/// "citrate", "calcium", ...
std::string_view to_text(Component component);

/// Charge of the fully deprotonated ligand (citrate -3) or of the bare ion (calcium +2).
int charge_of(Component component);

/// One dissolved species. The bare ligand or ion has no protons, no metal and log_k = 0.
struct Species {
  std::string_view name;      ///< "CaHCit", "HCO3-"; the last characters are the charge
  Component component;        ///< the ligand it belongs to; calcium for CaOH+
  int n_h;                    ///< protons on the ligand; -1 for CaOH+
  int n_ca, n_mg, n_na, n_k;  ///< metal ions on the ligand, one at most
  int charge;                 ///< net charge
  /// The constant's activity coefficients: amount = K {ligand} {H}^n_h .../ gamma1^activity_z2. It
  /// is charge^2, but for a concentration constant that of the bare ligand plus one for each
  /// proton.
  int activity_z2;
  double log_k;               ///< log10 K of `data_key` at 25 degC, I = 0
  std::string_view data_key;  ///< the row of species_data() that holds log_k; empty if none needed
};

inline constexpr std::size_t species_count = 63;

/// The whole table, grouped by component in the order of `Component`, protonated forms in order.
std::span<const Species> species();

/// Where `name` stands in species(); species_count if there is none.
std::size_t species_index(std::string_view name);

/// Equilibrium constants. Plain numbers: a study may shift any of them.
struct Constants {
  double davies_a = 0.0;           ///< (kg/mol)^1/2
  double kw = 0.0;                 ///< {H}{OH}, (mol/kg)^2
  double kh_mol_per_kg_atm = 0.0;  ///< CO2(aq) per atm of CO2
  /// Overall formation constant of each species, in the order of species().
  std::array<double, species_count> beta{};
  double log_ksp_calcite = 0.0;             ///< {Ca}{CO3}
  double log_ksp_gypsum = 0.0;              ///< {Ca}{SO4}
  double log_ksp_calcium_phosphate = 0.0;   ///< {Ca}{HPO4}, dihydrate
  double log_ksp_tricalcium_citrate = 0.0;  ///< {Ca}^3{Cit}^2, tetrahydrate
};

/// The constants of the tables, 25 degC. Between 5 and 37 degC a citric pKa moves by less than 0.1,
/// far less than the error of the whole model, so no other temperature is worked out.
const Constants& constants_at_25_c();

/// Every literature number behind the species: constants and solubility products.
std::span<const Datum> species_data();

}  // namespace gelwright
