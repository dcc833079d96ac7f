// An allowed range, and whether a water or a gel keeps it.
#pragma once

#include <optional>

#include "gelwright/water.hpp"

namespace gelwright {

/// An allowed range; either side may be absent.
struct Limit {
  std::optional<double> at_least;
  std::optional<double> at_most;

  bool any() const { return at_least || at_most; }
};

enum class LimitVerdict {
  kept,    ///< also where nothing is asked for
  below,   ///< under `at_least`
  above,   ///< over `at_most`
  unknown  ///< something is asked for, and the amount is not known
};

/// Judges an amount in the limit's own unit. An amount that differs from the limit only by the
/// rounding of binary arithmetic keeps it: a blend worked out to 40 is not over 40.
LimitVerdict judge(std::optional<double> amount, const Limit& limit);

/// Calcium of the water as reported, else worked out from its hardness; mg/L.
std::optional<double> calcium_mg_per_l(const Water& water);

}  // namespace gelwright
