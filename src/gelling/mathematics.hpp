// The few functions the gel model is made of.
#pragma once

#include <cmath>

namespace gelwright::gel::detail {

inline constexpr double ln_10 = 2.302585092994045684;

inline double lg(double x) {
  return std::log(x) * (1 / ln_10);
}

inline double ten(double x) {
  return std::exp(x * ln_10);
}

/// log10(1 + 10^x): 0 far below, x far above. Every limit of a route is one of these.
inline double soft(double x) {
  return x > 0 ? x + lg(1 + ten(-x)) : lg(1 + ten(x));
}

inline double logistic(double x) {
  return 1 / (1 + std::exp(-x));
}

/// The standard normal distribution function.
inline double normal_cdf(double x) {
  return 0.5 * std::erfc(-x * 0.70710678118654752440);
}

}  // namespace gelwright::gel::detail
