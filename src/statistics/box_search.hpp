// The highest point of a function over a box of a few sides, without its slopes. Private.
//
// The box is scanned at points that fill it evenly (Halton, Numerische Mathematik 2:84 (1960),
// shifted by the seed), then the best of them are climbed from by compass steps (Kolda, Lewis &
// Torczon, SIAM Review 45:385 (2003)). Every point tried is one the function was asked for, so what
// is found is never an extrapolation, and the same seed gives the same answer on every machine.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <span>
#include <vector>

namespace gelwright::detail {

struct BoxSearch {
  std::uint64_t seed = 1;
  std::size_t scan_points = 64;
  std::size_t climbs = 2;             ///< from so many of the best of them
  double first_step = 0.1;            ///< share of a side
  double last_step = 0.004;           ///< the climb ends once its steps are shorter
  std::size_t most_climb_steps = 40;  ///< of one climb; each asks at most twice per side
};

struct BoxBest {
  std::vector<double> at;  ///< 0 to 1 along each side
  double value = 0;
};

/// `sides` 0 to 6. `function` takes a point with 0 to 1 along each side and may be called from
/// several threads; it should return something low, not throw, where there is no answer. Among
/// points alike the one tried first wins.
BoxBest highest_in_box(std::size_t sides,
                       const std::function<double(std::span<const double>)>& function,
                       const BoxSearch& how = {});

}  // namespace gelwright::detail

namespace gelwright {
using namespace detail;  // only private files include this one
}
