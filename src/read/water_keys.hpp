// The names of the keys of a water report, made from the tables of ions and units.
#pragma once

#include <string>

#include "gelwright/water_units.hpp"
#include "read/keys.hpp"

namespace gelwright::detail {

std::string ion_mass_key(const IonInfo& ion);            ///< "calcium_mg_per_l"
std::string ion_molar_key(const IonInfo& ion);           ///< "calcium_mmol_per_l"
std::string hardness_key(const HardnessUnitInfo& unit);  ///< "hardness_german_degrees"
/// A hardness and an alkalinity with their unit, as text.
inline constexpr std::string_view hardness_text = "hardness";
inline constexpr std::string_view alkalinity_text = "alkalinity";
std::string alkalinity_key(const AlkalinityUnitInfo& unit);  ///< "acid_capacity_mmol_per_l"

}  // namespace gelwright::detail
