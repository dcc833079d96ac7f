#include "base/rounding.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace gelwright::detail {

namespace {

/// Room for a half that arithmetic pushed down, relative: far above the error of a chain of double
/// operations (about 1e-15), far below anything printed.
constexpr double binary_noise = 1e-12;
/// The same in units of the last decimal, so that a long number is not pushed over a half.
constexpr double most_noise_steps = 1e-6;
/// A double holds no more digits than these, so more decimals would only print noise.
constexpr int most_decimals = 330;

int magnitude_of(double value) {
  return static_cast<int>(std::floor(std::log10(std::abs(value))));
}

}  // namespace

double rounded(double value, int decimals) {
  // Dividing by a power of ten is exact to the last bit where multiplying by 0.1 is not.
  const double scale = std::pow(10.0, std::abs(decimals));
  const double size = std::abs(value);
  const double steps = decimals < 0 ? size / scale : size * scale;
  if (!std::isfinite(steps)) return value;
  const double nearest = std::round(steps + std::min(binary_noise * steps, most_noise_steps));
  const double result = decimals < 0 ? nearest * scale : nearest / scale;
  return result == 0.0 ? 0.0 : std::copysign(result, value);
}

int decimals_for(double value, int figures) {
  if (value == 0.0 || !std::isfinite(value)) return 0;
  const int decimals = figures - 1 - magnitude_of(value);
  // Rounding up may have carried into a new figure.
  const double shown = rounded(value, decimals);
  return shown == 0.0 ? decimals : figures - 1 - magnitude_of(shown * (1.0 + binary_noise));
}

double to_figures(double value, int figures) {
  return rounded(value, decimals_for(value, figures));
}

double to_figures_away_from_zero(double value, int figures) {
  if (value == 0.0 || !std::isfinite(value)) return value;
  const int decimals = figures - 1 - magnitude_of(value);
  const double nearest = rounded(value, decimals);
  if (std::abs(nearest) >= std::abs(value) * (1.0 - binary_noise)) return nearest;
  return rounded(nearest + std::copysign(std::pow(10.0, -decimals), value), decimals);
}

std::string fixed(double value, int decimals) {
  if (!std::isfinite(value)) return "-";
  return fmt::format("{:.{}f}", rounded(value, decimals), std::clamp(decimals, 0, most_decimals));
}

std::string significant(double value, int figures) {
  return fixed(value, decimals_for(value, figures));
}

std::string plain(double value, int figures) {
  return fmt::format("{:.{}g}", value + 0.0, figures);
}

}  // namespace gelwright::detail
