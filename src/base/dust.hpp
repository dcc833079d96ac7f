// Limits a person states, without the dust of binary arithmetic: a blend of equal parts of 30 and
// 50 mg/L is 40 mg/L, though the computer may make it 40.000000000000007. Private.
#pragma once

#include <algorithm>
#include <cmath>

namespace gelwright::detail {

/// Far more than a chain of sums and products loses, far less than any balance or report tells.
inline constexpr double limit_dust = 1e-9;

/// `value` is under `limit` by more than dust. Same unit, both finite.
inline bool is_under(double value, double limit) {
  return limit - value > limit_dust * std::max(std::abs(value), std::abs(limit));
}

/// `value` is over `limit` by more than dust. Same unit, both finite.
inline bool is_over(double value, double limit) {
  return is_under(limit, value);
}

}  // namespace gelwright::detail

namespace gelwright {
using namespace detail;  // only private files include this one
}
