// Numbers for prose: as many significant figures as they deserve, never an exponent. Private.
#pragma once

#include <fmt/format.h>

#include <cmath>
#include <string>

namespace gelwright {

/// `value` rounded to `figures` significant figures and written plainly: 107.3 -> "110" with two.
inline std::string significant(double value, int figures) {
  if (value == 0 || !std::isfinite(value)) return fmt::format("{:g}", value);
  const int magnitude = static_cast<int>(std::floor(std::log10(std::abs(value))));
  const int decimals = figures - 1 - magnitude;
  if (decimals >= 0) return fmt::format("{:.{}f}", value, decimals);
  const double step = std::pow(10.0, -decimals);
  return fmt::format("{:.0f}", std::round(value / step) * step);
}

}  // namespace gelwright
