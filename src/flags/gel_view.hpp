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

/// The claim is as good as the weakest parameter of the forecast.
inline Raise by_forecast(const Raise& raise, const Judged& j) {
  return raise.graded(gel_of(j).grade);
}

/// A prediction resting on judgement warns; one resting on published work stops.
inline Level level_of(const Judged& j) {
  return gel_of(j).grade == Grade::c ? Level::care : Level::stop;
}

}  // namespace gelwright::detail
