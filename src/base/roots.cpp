#include "base/roots.hpp"

#include <fmt/format.h>

#include "gelwright/error.hpp"

namespace gelwright::detail {

void refuse_bracket(double a, double fa, double b, double fb, int evaluations) {
  throw NotConverged(
      fmt::format("root in a bracket: after {} evaluations the value is {:.6g} at {:.17g} and "
                  "{:.6g} at {:.17g}",
                  evaluations, fa, a, fb, b));
}

}  // namespace gelwright::detail
