// One unknown found, and what it means at the scale.
#pragma once

#include "gelwright/resolve.hpp"

namespace gelwright {

/// What `dose` is asked to reach.
enum class Target { ph, ratio, water_fraction, soluble_solids, readable };

struct DoseQuestion {
  Target target = Target::ph;
  double value = 0;  ///< pH, R2, fraction 0 to 1, %; unused for `readable`
};

/// The answer, and the inputs with it in place (or with the nearest reachable).
struct DoseAnswer {
  Solution solution;
  Inputs inputs;
};

/// Solves the question; other targets of the recipe are already met in `inputs`.
DoseAnswer answer(const Inputs& inputs, const DoseQuestion& question);

}  // namespace gelwright
