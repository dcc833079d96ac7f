// The charge of a water, summed here ion by ion, so that the library's own table cannot hide a
// slip.
#pragma once

#include "gelwright/water.hpp"

namespace gelwright::test {

/// Positive less negative charges, eq per kg; zero to rounding in any real water.
inline double charge_eq_per_kg(const WaterIons& water) {
  const PerIon<double>& mol = water.mol_per_kg;
  return 2.0 * (mol[Ion::calcium] + mol[Ion::magnesium]) + mol[Ion::sodium] + mol[Ion::potassium] -
         mol[Ion::chloride] - 2.0 * mol[Ion::sulfate] - mol[Ion::nitrate] -
         water.alkalinity_eq_per_kg;
}

}  // namespace gelwright::test
