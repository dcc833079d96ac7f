// Which test cups of a recipe would teach most about it: a bench series that asks the right
// question.
#pragma once

#include <cstddef>
#include <vector>

#include "gelwright/inputs.hpp"
#include "gelwright/ladder.hpp"

namespace gelwright {

inline constexpr std::size_t fewest_teaching_cups = 2;
inline constexpr std::size_t most_teaching_cups = 12;

/// One cup, and what it could tell.
struct TeachingStep {
  double amount = 0;         ///< of what is turned, in its unit
  double chance_groove = 0;  ///< that a groove drawn with a spoon stands, as far as is known now
  double chance_holds = 0;   ///< turned over in a 4 cm cup, likewise
};

/// sd are of log10 of the stiffness of the recipe as it stands, from what cups can tell of it.
struct Teaching {
  KnobOf turn;
  std::vector<TeachingStep> cups;  ///< rising
  double sd_before = 0;
  double sd_after = 0;
  double sd_after_even = 0;  ///< of as many cups, evenly spread over the same range
};

/// Chooses the cups. What earlier cups taught is built on. Throws InputError for a recipe without a
/// gum that sets, for what is not dosed and for a count out of bounds.
Teaching teach(const Inputs& inputs, const KnobOf& turn, std::size_t cups);

/// The cups as the axis of a bench series.
LadderAxis axis_of(const Teaching& teaching, const Recipe& recipe);

}  // namespace gelwright
