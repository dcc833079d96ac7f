#include "flags/gel_view.hpp"

#include <fmt/format.h>

#include <cmath>

namespace gelwright::detail {

std::string in_100(double chance) {
  const double percent = std::round(100 * chance);
  if (percent < 1) return "less than 1 in 100";
  if (percent > 99) return "more than 99 in 100";
  return fmt::format("{:.0f} in 100", percent);
}

}  // namespace gelwright::detail
