// How much of a sugar or salt stays dissolved in plain water.
//
// In a mixture less dissolves than alone, since the parts share the water: what is above this alone
// will crystallise in time, what is below may still.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "gelwright/source.hpp"

namespace gelwright {

/// Grams of the substance *without its hydrate water* that 100 g of water hold at saturation; the
/// water of hydrates counts as water. `ingredient` is a built-in name (each hydrate of a substance
/// gives the same figure), `temp_c` in degC. Straight between the temperatures on record; outside
/// them the nearest one's value, which in the cold is more than what dissolves (all of these
/// dissolve better in the warmth). Absent where none is on record and for what mixes with water in
/// any ratio.
std::optional<double> solubility_g_per_100g_water(std::string_view ingredient, double temp_c);
double solubility_g_per_100g_water(std::size_t substance, double temp_c);

/// Of how many substances a solubility is on record.
std::size_t soluble_substances();

/// Which of them an ingredient is, from 0: each hydrate of a substance is the same one. Absent
/// where none is on record.
std::optional<std::size_t> soluble_substance(std::string_view ingredient);

/// Its name: "dextrose", "calcium lactate".
std::string soluble_substance_name(std::size_t substance);

/// The Source::id behind it; empty where it is absent.
std::string_view solubility_source(std::string_view ingredient);
std::string_view solubility_source(std::size_t substance);

/// Every solubility on record; the temperature is in the key's end, degC.
std::span<const Datum> solubility_data();

}  // namespace gelwright
