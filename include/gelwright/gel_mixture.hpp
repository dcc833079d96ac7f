// Forecasts of a gum that is not fully declared: several readings of one pack, each with its
// weight.
//
// An undeclared share is a two-sided band and an undeclared identity is a choice; neither is
// treated as a straight line. Chances are mixed instead.
#pragma once

#include <array>
#include <span>

#include "gelwright/gel_stomach.hpp"

namespace gelwright::gel {

/// What a band of (low, middle, high) weighs for each identity.
inline constexpr std::array<double, 3> band_weights = {1.0 / 6, 2.0 / 3, 1.0 / 6};

/// One reading of the pack.
struct Reading {
  double weight = 1;  ///< above 0; need not add to 1
  Outlook outlook;
  Stomach stomach;
};

/// All readings together. G' and the rest are log10, as in Doubt.
struct Mixture {
  Chances chances;
  Defects defects;
  Stomach stomach;
  MeanSd lg_modulus;
  MeanSd lg_viscosity;
  MeanSd lg_yield;
  MeanSd lg_thickness;
};

/// Weighted; all 0 if `readings` is empty.
Mixture mix(std::span<const Reading> readings);

}  // namespace gelwright::gel
