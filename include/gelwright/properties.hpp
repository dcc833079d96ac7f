// Physical properties of the water phase and the energy of what is dissolved in it.
//
// Every function is pure, allocates nothing on the normal path and costs well under a microsecond.
// A value outside the stated range throws InputError.
#pragma once

#include <span>

#include "gelwright/elements.hpp"
#include "gelwright/source.hpp"

namespace gelwright {

/// Every constant of this file.
std::span<const Datum> properties_data();

/// Mass of one mole of water, kg/mol (0.018015), and moles in one kg of it (55.509).
inline constexpr double water_molar_mass_kg_per_mol = molar_mass_g_per_mol("H2O") / 1000.0;
inline constexpr double water_mol_per_kg = 1.0 / water_molar_mass_kg_per_mol;

// --- Density --------------------------------------------------------------------------------

/// Density of air-free water at 1 atm, kg/m3. `temp_c` 0 to 100 degC; error below 0.01 kg/m3.
/// Kell 1975.
double water_density_kg_per_m3(double temp_c);

/// Density of a sucrose solution, kg/m3. `mass_fraction` is g dissolved per g of solution, 0 to
/// 0.85; `temp_c` 0 to 100 degC. Bubnik et al. 1995. Within 0.3 kg/m3 of the handbook tables for
/// sucrose to 60 %, 0.7 above. Used for every sugar, acid and salt alike: at 20 % and 40 %
/// glucose within 0.4 %, at 60 % within 0.6 %. Foam in a blended gel is not in it.
double sugar_solution_density_kg_per_m3(double mass_fraction, double temp_c);

// --- Water activity and osmolality ----------------------------------------------------------

/// Dissolved carbohydrate, mol per kg of water (all the water: added, moisture and hydrate water).
struct Saccharides {
  double glucose_mol_per_kg = 0.0;
  double fructose_mol_per_kg = 0.0;
  double sucrose_mol_per_kg = 0.0;
  double disaccharide_mol_per_kg = 0.0;  ///< maltose, isomaltulose, maltitol: as maltose
  double polyol_mol_per_kg = 0.0;        ///< sorbitol, xylitol, erythritol: counted as sorbitol
  double glycerol_mol_per_kg = 0.0;
  double oligomer_mol_per_kg = 0.0;  ///< maltodextrin by number-average molar mass: ideal
};

/// Number-average molar mass of a maltodextrin, g/mol: 100 glucose units' mass over the dextrose
/// equivalent. `dextrose_equivalent` 1 to 100. 100 gives glucose itself; the label's DE is a mean,
/// so the osmolality of a maltodextrin is good to about 20 %.
double maltodextrin_molar_mass_g_per_mol(double dextrose_equivalent);

/// Osmotic contribution of dissolved ions and small acids, osmol per kg of water, from the sum of
/// their molalities (`particles_mol_per_kg`, >= 0). One osmotic coefficient, that of sodium
/// chloride, which stays within 0.01 of it from 0.1 to 1 mol/kg; for other salts a transfer.
double salt_osmolal(double particles_mol_per_kg);

/// Water activity (0 to 1), 25 degC. Sugars by Norrish 1966 with the square-root mixing rule,
/// salts as a factor exp(-M_w * salt_osmolal) multiplied on, which is the mixing rule of Ross
/// 1975: each solute dries the water it shares as if it were alone in it. With this choice the
/// osmolality of sugars and salts is the exact sum of the two. Within 0.001 of measured values for
/// sucrose to 6 mol/kg; 0.01 to 0.02 for maltodextrin mixes. All inputs >= 0.
double water_activity(const Saccharides& solutes, double salt_osmolal_per_kg);

/// Osmolality, mOsm per kg of water, from a water activity in (0, 1]. Good to 10 % for sugars,
/// 20 % for maltodextrin: two figures are worth printing.
double osmolality_mosm_per_kg(double water_activity);

// --- Energy and label figures ---------------------------------------------------------------

/// Masses that carry energy on a food label, g. Anything else counts as zero.
struct EnergyMasses {
  double carbohydrate_g = 0.0;  ///< available carbohydrate as labelled, without polyols
  double polyol_g = 0.0;        ///< glycerol, sorbitol ... (erythritol: leave out, it counts zero)
  double organic_acid_g = 0.0;  ///< citric, malic, lactic ... as anhydrous acid
  double fibre_g = 0.0;         ///< alginate, pectin, gellan, xanthan
  double protein_g = 0.0;
  double fat_g = 0.0;
};

/// Energy in kJ and in kcal by Regulation (EU) 1169/2011 Annex XIV. Each has its own factors: one
/// is not the other divided by 4.184, and a label prints both.
double energy_kj(const EnergyMasses& masses);
double energy_kcal(const EnergyMasses& masses);

/// Salt equivalent in g of sodium in mg, Regulation (EU) 1169/2011 Annex I: 2.5 times.
double salt_equivalent_g(double sodium_mg);

}  // namespace gelwright
