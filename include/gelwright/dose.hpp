// One unknown found, and what it means at the scale.
#pragma once

#include <vector>

#include "gelwright/knob.hpp"
#include "gelwright/resolve.hpp"
#include "gelwright/sodium_readings.hpp"

namespace gelwright {

/// What `dose` is asked to reach.
enum class Target { ph, ratio, water_fraction, soluble_solids, readable };

struct DoseQuestion {
  Target target = Target::ph;
  double value = 0;  ///< pH, R2, fraction 0 to 1, %; unused for `readable`
};

/// The knob the question is answered with; absent for `readable`.
std::optional<KnobTurns> dosed_by(Target target);

/// The dose of acid that reaches the pH if a label's sodium is this salt.
struct DoseReading {
  SodiumReading reading;
  Dosed dosed;
};

/// The answer, and the inputs with it in place (or with the nearest reachable).
struct DoseAnswer {
  Dosed dosed;
  Inputs inputs;
  std::optional<Dosed> without_stock;  ///< for `readable`: nothing dosed from stock
  /// For `ph` where a label leaves open what salt its sodium is: the dose of each reading left. The
  /// answer is the least of them: more can follow once the pH is read, and none can be taken out.
  std::vector<DoseReading> by_sodium;
  std::optional<Dosed> at_mean_ph;  ///< likewise: where the mean of the readings' pH meets the goal
};

/// Solves the question; other targets of the recipe are already met in `inputs`.
DoseAnswer answer(const Inputs& inputs, const DoseQuestion& question);

/// What weighing makes of a dose: the goal where the scale's error and the rounding take the dose
/// to either end of its 95 %.
struct DoseSensitivity {
  std::size_t line = 0;  ///< in Batch::lines, the one that carries the dose
  double goal_low = 0;   ///< pH, R2, or soluble solids in % where the water is dosed
  double goal_high = 0;
};

/// Absent where nothing is weighed: no scales, no dose, a goal out of reach, a count of servings.
std::optional<DoseSensitivity> sensitivity_of(const DoseAnswer& answer,
                                              const DoseQuestion& question, const Batch& batch);

}  // namespace gelwright
