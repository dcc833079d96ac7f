// The carbonate of a plain water: what its pH says beside its alkalinity. At 25 degC, without the
// shift by dissolved salts: below 5 mmol/L of them that is less than 0.1 pH. Private.
#pragma once

namespace gelwright::detail {

/// All carbonate (CO2, HCO3-, CO3 2-) of a water less its alkalinity, mmol/L: about its dissolved
/// CO2, negative above pH 8.3, where there is carbonate instead. Never more CO2 than water holds
/// under 1 atm of it. Alkalinity in meq/L, 0 or more.
double carbonate_beside_alkalinity_mmol_per_l(double alkalinity_meq_per_l, double ph);

/// What water holds of CO2 under 1 atm of it, at most; mmol/L. So much is left in a carbonated
/// water that was poured into an open vessel.
double most_carbon_dioxide_mmol_per_l();

/// The inverse: the pH of a water with this alkalinity and this carbonate beside it.
double ph_of_carbonate(double alkalinity_meq_per_l, double beside_mmol_per_l);

}  // namespace gelwright::detail
