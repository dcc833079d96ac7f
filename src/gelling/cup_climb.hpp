// The hilltop of the log posterior of the four shifts. Private.
#pragma once

#include <span>
#include <vector>

#include "gelling/cup_slopes.hpp"

namespace gelwright::gel::detail {

/// A hilltop and what it looks like there.
struct Climb {
  Vector u = {};
  Matrix curvature = {};       ///< of the log posterior, each cup by its weight; the sign turned
  std::vector<double> weight;  ///< of each cup: right rather than a slip
  double ln_posterior = 0;
  bool converged = false;
};

/// From `start` uphill.
Climb climb(std::span<const Ready> cups, const Vector& start, const LearnOptions& options);

/// The best of a coarse net of shifts, in steps of the prior.
Vector likeliest_of_a_net(std::span<const Ready> cups, const LearnOptions& options);

}  // namespace gelwright::gel::detail
