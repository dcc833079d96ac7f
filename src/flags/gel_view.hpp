// What flags see of the gel forecast. Private.
#pragma once

#include <string>

#include "flags/record.hpp"

namespace gelwright::detail {

inline const GelForecast& gel_of(const Judged& j) {
  return j.serving.gel;
}

/// g of one gum per 100 g of water.
inline double percent_of(const Judged& j, Gum gum) {
  const Formula& formula = j.serving.formula;
  return 100 * formula.delivered.gum(gum) / formula.chemistry_water_g;
}

/// "62 in 100"; never "0 in 100" or "100 in 100", which nobody can promise.
std::string in_100(double chance);

}  // namespace gelwright::detail
