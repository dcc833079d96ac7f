// What more or less acid would do: pH and texture along the dose, for a picture.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "gelwright/evaluate.hpp"

namespace gelwright {

/// One dose.
struct AcidPoint {
  double acid_g = 0;  ///< in one serving
  double ph = 7;
  double ph_low = 7, ph_high = 7;        ///< 95 %, over all that unnamed sodium may be
  std::optional<gel::Chances> textures;  ///< absent without gum and outside the gel model
};

struct AcidCurve {
  std::size_t ingredient = 0;     ///< the acid, in Recipe::ingredients
  double dose_g = 0;              ///< the recipe's own, in one serving
  std::vector<AcidPoint> points;  ///< evenly apart from no acid up
};

/// How far along the dose a curve goes.
struct AcidCurveOptions {
  std::size_t points = 61;  ///< 2 or more
  double reach_g = 0;       ///< at least this dose for one serving is on it
  bool textures = true;     ///< false: only the pH, some ten times cheaper
};

/// From no acid to twice the recipe's dose, or as far as asked; nothing without an acid. A pH read
/// on the batch is left out: it was read at one dose. Throws as `evaluate`.
std::optional<AcidCurve> acid_curve(const Inputs& inputs, const AcidCurveOptions& options = {});

}  // namespace gelwright
